package dxfread

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"sync"
	"testing"
)

// benchFile gives a drawing of at least size bytes in the style of common
// writers: handles, subclass markers, coordinates of up to 16 digits, three
// layers; lines, arcs, circles, polylines with bulges, some texts and inserts.
func benchFile(size int) []byte {
	var b bytes.Buffer
	rng := rand.New(rand.NewPCG(7, 7))
	b.WriteString("  0\nSECTION\n  2\nHEADER\n  9\n$ACADVER\n  1\nAC1021\n  0\nENDSEC\n  0\nSECTION\n  2\nBLOCKS\n" +
		"  0\nBLOCK\n  8\n0\n  2\nHOLE\n 70\n     0\n 10\n0.0\n 20\n0.0\n 30\n0.0\n  0\nCIRCLE\n  8\n0\n 10\n0.0\n 20\n0.0\n 40\n11.0\n" +
		"  0\nLINE\n  8\n0\n 10\n0.0\n 20\n0.0\n 11\n1.0\n 21\n0.0\n  0\nENDBLK\n  8\n0\n  0\nENDSEC\n  0\nSECTION\n  2\nENTITIES\n")
	handle := 0x100
	num := func(code int, v float64) {
		fmt.Fprintf(&b, "%3d\n%s\n", code, strconv.FormatFloat(v, 'f', -1, 64))
	}
	coord := func(scale float64) float64 {
		switch rng.IntN(3) {
		case 0:
			return math.Round(rng.Float64() * scale)
		case 1:
			return math.Round(rng.Float64()*scale*1000) / 1000
		}
		return rng.Float64() * scale
	}
	begin := func(kind, sub string) {
		handle++
		layer := []string{"0", "CUT", "HOLES"}[rng.IntN(3)]
		fmt.Fprintf(&b, "  0\n%s\n  5\n%X\n330\n1F\n100\nAcDbEntity\n  8\n%s\n100\n%s\n", kind, handle, layer, sub)
	}
	point := func(code int) { num(code, coord(3000)); num(code+10, coord(2000)); num(code+20, 0) }
	for b.Len() < size {
		switch k := rng.IntN(100); {
		case k < 55:
			begin("LINE", "AcDbLine")
			point(10)
			point(11)
		case k < 70:
			begin("ARC", "AcDbCircle")
			point(10)
			num(40, coord(50)+1)
			b.WriteString("100\nAcDbArc\n")
			num(50, coord(360))
			num(51, coord(360))
		case k < 82:
			begin("CIRCLE", "AcDbCircle")
			point(10)
			num(40, coord(50)+1)
		case k < 96:
			begin("LWPOLYLINE", "AcDbPolyline")
			n := 4 + rng.IntN(12)
			fmt.Fprintf(&b, " 90\n%9d\n 70\n     1\n 43\n0.0\n", n)
			for range n {
				num(10, coord(3000))
				num(20, coord(2000))
				if rng.IntN(4) == 0 {
					num(42, 0.4142135623730951)
				}
			}
		case k < 98:
			begin("TEXT", "AcDbText")
			point(10)
			b.WriteString(" 40\n3.5\n  1\n4 HOLES %%c22 PL 10\n100\nAcDbText\n")
		default:
			begin("INSERT", "AcDbBlockReference")
			b.WriteString("  2\nHOLE\n")
			point(10)
			num(50, coord(360))
		}
	}
	b.WriteString("  0\nENDSEC\n  0\nEOF\n")
	return b.Bytes()
}

var bench24 = sync.OnceValue(func() []byte { return benchFile(24 << 20) })

func BenchmarkScan(b *testing.B) {
	data := bench24()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		s, err := newScanner(context.Background(), data)
		if err != nil {
			b.Fatal(err)
		}
		sum, n := 0.0, 0
		for s.next() {
			if s.cls == classFloat {
				sum += s.num
			}
			n++
		}
		if s.err != nil || n < 1000 || sum == 0 {
			b.Fatal(s.err, n)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	data := bench24()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Decode(context.Background(), data, Limits{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecodeAndPlace(b *testing.B) {
	data := bench24()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		d, err := Decode(context.Background(), data, Limits{})
		if err != nil {
			b.Fatal(err)
		}
		n := 0
		p := d.Place(d.Model, Limits{})
		for pl := range p.All(context.Background()) {
			n += int(pl.Depth) + 1
		}
		if n < 1000 {
			b.Fatal(n)
		}
	}
}

func BenchmarkReadAndPlace(b *testing.B) {
	data := bench24()
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		d, err := Read(context.Background(), bytes.NewReader(data), Limits{})
		if err != nil {
			b.Fatal(err)
		}
		p := d.Place(d.Model, Limits{})
		for range p.All(context.Background()) {
		}
	}
}
