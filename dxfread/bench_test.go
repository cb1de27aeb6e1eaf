package dxfread

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// habit is how a writer spells a file.
type habit struct {
	name string
	code string // format of a group code
	num  func(v float64) string
	eol  string
	full bool // all coordinates have all their digits; otherwise a third of them
}

// habits are those of common writers. The first is what the benchmarks without
// a list of habits use.
func habits() []habit {
	format := func(f string) func(float64) string { return func(v float64) string { return fmt.Sprintf(f, v) } }
	shortest := func(v float64) string {
		t := strconv.FormatFloat(v, 'f', -1, 64)
		if !strings.Contains(t, ".") {
			t += ".0"
		}
		return t
	}
	return []habit{
		{"mixed", "%3d", func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }, "\n", false},
		{"point-zero", "%3d", shortest, "\r\n", false},
		{"all-digits", "%3d", shortest, "\r\n", true},
		{"no-padding", "%d", shortest, "\n", false},
		{"six-places", "%3d", format("%.6f"), "\r\n", true},
		{"sixteen-figures", "%d", format("%.16g"), "\n", true},
		{"six-figures", "%3d", format("%g"), "\n", true},
		{"padded", "%3d", format("%20.10f"), "\r\n", true},
		{"exponents", "%3d", format("%.15E"), "\n", true},
	}
}

// benchFile gives a drawing of at least size bytes in the style of common
// writers: handles, subclass markers, coordinates of up to 16 digits, three
// layers; lines, arcs, circles, polylines with bulges, some texts and inserts.
func benchFile(size int, h habit) []byte {
	var b bytes.Buffer
	rng := rand.New(rand.NewPCG(7, 7))
	// put writes pairs: codes as ints, numbers as floats, all else as text.
	put := func(pairs ...any) {
		for i := 0; i < len(pairs); i += 2 {
			fmt.Fprintf(&b, h.code, pairs[i])
			b.WriteString(h.eol)
			switch v := pairs[i+1].(type) {
			case float64:
				b.WriteString(h.num(v))
			default:
				fmt.Fprint(&b, v)
			}
			b.WriteString(h.eol)
		}
	}
	put(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1021", 0, "ENDSEC", 0, "SECTION", 2, "BLOCKS",
		0, "BLOCK", 8, "0", 2, "HOLE", 70, "     0", 10, 0.0, 20, 0.0, 30, 0.0, 0, "CIRCLE", 8, "0", 10, 0.0, 20, 0.0, 40, 11.0,
		0, "LINE", 8, "0", 10, 0.0, 20, 0.0, 11, 1.0, 21, 0.0, 0, "ENDBLK", 8, "0", 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES")
	handle := 0x100
	coord := func(scale float64) float64 {
		switch n := rng.IntN(3); {
		case h.full:
		case n == 0:
			return math.Round(rng.Float64() * scale)
		case n == 1:
			return math.Round(rng.Float64()*scale*1000) / 1000
		}
		return rng.Float64() * scale
	}
	begin := func(kind, sub string) {
		handle++
		layer := []string{"0", "CUT", "HOLES"}[rng.IntN(3)]
		put(0, kind, 5, fmt.Sprintf("%X", handle), 330, "1F", 100, "AcDbEntity", 8, layer, 100, sub)
	}
	point := func(code int) { put(code, coord(3000), code+10, coord(2000), code+20, 0.0) }
	for b.Len() < size {
		switch k := rng.IntN(100); {
		case k < 55:
			begin("LINE", "AcDbLine")
			point(10)
			point(11)
		case k < 70:
			begin("ARC", "AcDbCircle")
			point(10)
			put(40, coord(50)+1, 100, "AcDbArc", 50, coord(360), 51, coord(360))
		case k < 82:
			begin("CIRCLE", "AcDbCircle")
			point(10)
			put(40, coord(50)+1)
		case k < 96:
			begin("LWPOLYLINE", "AcDbPolyline")
			n := 4 + rng.IntN(12)
			put(90, fmt.Sprintf("%9d", n), 70, "     1", 43, 0.0)
			for range n {
				put(10, coord(3000), 20, coord(2000))
				if rng.IntN(4) == 0 {
					put(42, 0.4142135623730951)
				}
			}
		case k < 98:
			begin("TEXT", "AcDbText")
			point(10)
			put(40, 3.5, 1, "4 HOLES %%c22 PL 10", 100, "AcDbText")
		default:
			begin("INSERT", "AcDbBlockReference")
			put(2, "HOLE")
			point(10)
			put(50, coord(360))
		}
	}
	put(0, "ENDSEC", 0, "EOF")
	return b.Bytes()
}

// reportCPU adds the rate by CPU time to a benchmark over size bytes that
// began when the process had used start.
func reportCPU(b *testing.B, start time.Duration, size int) {
	b.Helper()
	if used := cpuTime() - start; used > 0 {
		b.ReportMetric(float64(size)*float64(b.N)/1e6/used.Seconds(), "cpuMB/s")
	}
}

var bench24 = sync.OnceValue(func() []byte { return benchFile(24<<20, habits()[0]) })

func BenchmarkScan(b *testing.B) {
	data := bench24()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	defer reportCPU(b, cpuTime(), len(data))
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

// BenchmarkHabits reads the spellings of several writers.
func BenchmarkHabits(b *testing.B) {
	for _, h := range habits() {
		data := benchFile(8<<20, h)
		b.Run("scan/"+h.name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			defer reportCPU(b, cpuTime(), len(data))
			for b.Loop() {
				s, err := newScanner(context.Background(), data)
				if err != nil {
					b.Fatal(err)
				}
				for s.next() {
				}
				if s.err != nil {
					b.Fatal(s.err)
				}
			}
		})
		b.Run("decode/"+h.name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			defer reportCPU(b, cpuTime(), len(data))
			for b.Loop() {
				if _, err := Decode(context.Background(), data, Limits{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkDecode(b *testing.B) {
	data := bench24()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	defer reportCPU(b, cpuTime(), len(data))
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
	defer reportCPU(b, cpuTime(), len(data))
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
	defer reportCPU(b, cpuTime(), len(data))
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

// BenchmarkGrowth decodes and places files of growing size: the time for a byte
// must not grow with them.
func BenchmarkGrowth(b *testing.B) {
	for size := 10_000; size <= 100_000_000; size *= 10 {
		data := benchFile(size, habits()[0])
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			start := cpuTime()
			for b.Loop() {
				d, err := Decode(context.Background(), data, Limits{})
				if err != nil {
					b.Fatal(err)
				}
				for range d.Place(d.Model, Limits{}).All(context.Background()) {
				}
			}
			b.ReportMetric(float64((cpuTime()-start).Nanoseconds())/float64(b.N)/float64(len(data)), "cpu-ns/byte")
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(data)), "ns/byte")
		})
	}
}
