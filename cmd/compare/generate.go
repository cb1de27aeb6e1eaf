package main

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
)

// drawingWriter writes entities with handles, layers and subclass marks, as
// common writers do.
type drawingWriter struct {
	w      *bufio.Writer
	size   int
	handle int
	rng    *rand.Rand
	err    error
}

func (d *drawingWriter) print(format string, args ...any) {
	n, err := fmt.Fprintf(d.w, format, args...)
	d.size += n
	if d.err == nil {
		d.err = err
	}
}

func (d *drawingWriter) number(code int, v float64) {
	d.print("%3d\n%s\n", code, strconv.FormatFloat(v, 'f', -1, 64))
}

// place is a coordinate of 3 to 16 digits, as drawings mix them.
func (d *drawingWriter) place(most float64) float64 {
	v := d.rng.Float64() * most
	if d.rng.IntN(3) > 0 {
		return float64(int(v*1000)) / 1000
	}
	return v
}

func (d *drawingWriter) point(code int) {
	d.number(code, d.place(3000))
	d.number(code+10, d.place(2000))
	d.number(code+20, 0)
}

func (d *drawingWriter) begin(kind, subclass string) {
	d.handle++
	layer := []string{"0", "CUT", "HOLES"}[d.rng.IntN(3)]
	d.print("  0\n%s\n  5\n%X\n100\nAcDbEntity\n  8\n%s\n100\n%s\n", kind, 0x100+d.handle, layer, subclass)
}

// entity writes one entity; the shares are those of a nest of cut parts.
func (d *drawingWriter) entity() {
	switch k := d.rng.IntN(100); {
	case k < 55:
		d.begin("LINE", "AcDbLine")
		d.point(10)
		d.point(11)
	case k < 70:
		d.begin("ARC", "AcDbCircle")
		d.point(10)
		d.number(40, d.place(50)+1)
		d.print("100\nAcDbArc\n")
		d.number(50, d.place(360))
		d.number(51, d.place(360))
	case k < 84:
		d.begin("CIRCLE", "AcDbCircle")
		d.point(10)
		d.number(40, d.place(50)+1)
	case k < 98:
		d.begin("LWPOLYLINE", "AcDbPolyline")
		n := 4 + d.rng.IntN(12)
		d.print(" 90\n%9d\n 70\n     1\n 43\n0.0\n", n)
		for range n {
			d.number(10, d.place(3000))
			d.number(20, d.place(2000))
			if d.rng.IntN(4) == 0 {
				d.number(42, 0.41421356)
			}
		}
	default:
		d.begin("TEXT", "AcDbText")
		d.point(10)
		d.print(" 40\n3.5\n  1\n4 HOLES %%%%c22 PL 10\n100\nAcDbText\n")
	}
}

// writeDrawing writes a drawing of at least size bytes; equal sizes give equal
// files.
func writeDrawing(path string, size int) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	defer f.Close()
	d := &drawingWriter{w: bufio.NewWriterSize(f, 1<<20), rng: rand.New(rand.NewPCG(1, uint64(size)))}
	d.print("  0\nSECTION\n  2\nHEADER\n  9\n$ACADVER\n  1\nAC1015\n  9\n$INSUNITS\n 70\n     4\n  0\nENDSEC\n")
	d.print("  0\nSECTION\n  2\nENTITIES\n")
	for d.size < size && d.err == nil {
		d.entity()
	}
	d.print("  0\nENDSEC\n  0\nEOF\n")
	if d.err != nil {
		return d.err
	}
	if err := d.w.Flush(); err != nil {
		return err
	}
	return f.Close()
}
