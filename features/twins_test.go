package features_test

import (
	"context"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
)

// stroke is a line or an arc of a drawing that can be moved about.
type stroke struct {
	x1, y1, x2, y2 float64
	r, a0, a1      float64 // of an arc about x1, y1, degrees; a circle if a1-a0 is 360
}

// gusset is a part with a bit of everything, as loose lines and arcs.
func gusset() []stroke {
	var s []stroke
	line := func(p ...float64) {
		for i := 0; i+3 < len(p); i += 2 {
			s = append(s, stroke{x1: p[i], y1: p[i+1], x2: p[i+2], y2: p[i+3]})
		}
	}
	// Outline: a vee, an edge notch, a corner clip, a corner radius.
	line(0, 0, 60, 0, 72, 25, 84, 0, 180, 0, 200, 20, 200, 60, 170, 60, 170, 90, 200, 90, 200, 120)
	s = append(s, stroke{x1: 180, y1: 120, r: 20, a0: 0, a1: 90})
	line(180, 140, 0, 140, 0, 0)
	// A slot, two holes, a rectangle, a D.
	line(60, 60, 100, 60)
	s = append(s, stroke{x1: 100, y1: 70, r: 10, a0: 270, a1: 450})
	line(100, 80, 60, 80)
	s = append(s, stroke{x1: 60, y1: 70, r: 10, a0: 90, a1: 270})
	s = append(s, stroke{x1: 25, y1: 25, r: 9, a1: 360}, stroke{x1: 25, y1: 110, r: 11, a1: 360})
	line(120, 100, 150, 100, 150, 120, 120, 120, 120, 100)
	s = append(s, stroke{x1: 150, y1: 40, r: 8, a0: 30, a1: 330})
	h, k := 8*math.Cos(30*math.Pi/180), 8*math.Sin(30*math.Pi/180)
	line(150+h, 40-k, 150+h, 40+k)
	return s
}

// moved draws strokes turned by deg, mirrored first, and shifted.
func moved(s []stroke, deg float64, mirror bool, dx, dy, scale float64, u dxftest.Unit) *dxftest.Builder {
	b := dxftest.New(u)
	sn, cs := math.Sincos(deg * math.Pi / 180)
	if q := math.Round(deg / 90); q*90 == deg {
		cs, sn = []float64{1, 0, -1, 0}[((int(q)%4)+4)%4], []float64{0, 1, 0, -1}[((int(q)%4)+4)%4]
	}
	pt := func(x, y float64) (float64, float64) {
		if mirror {
			x = -x
		}
		return (x*cs - y*sn + dx) * scale, (x*sn + y*cs + dy) * scale
	}
	for _, k := range s {
		x1, y1 := pt(k.x1, k.y1)
		if k.r == 0 {
			x2, y2 := pt(k.x2, k.y2)
			b.Line(x1, y1, x2, y2)
			continue
		}
		if k.a1-k.a0 == 360 {
			b.Circle(x1, y1, k.r*scale)
			continue
		}
		a0, a1 := k.a0, k.a1
		if mirror {
			a0, a1 = 180-k.a1, 180-k.a0
		}
		b.Arc(x1, y1, k.r*scale, a0+deg, a1+deg)
	}
	return b
}

func TestTwins(t *testing.T) {
	base := gusset()
	first := build(t, moved(base, 0, false, 0, 0, 1, dxftest.MM))
	clean(t, first)
	want := sizesOf(onePart(t, first))
	if n := len(first.Parts[0].Holes); n != 5 {
		t.Fatalf("%d holes\n%s", n, describe(first))
	}
	check := func(name string, b *dxftest.Builder) {
		t.Helper()
		s := build(t, b)
		if got := sizesOf(onePart(t, s)); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
		}
		clean(t, s)
	}
	for _, deg := range []float64{90, 180, 270, 37, 3.3} {
		check("turned", moved(base, deg, false, 0, 0, 1, dxftest.MM))
		check("mirrored and turned", moved(base, deg, true, 500, -300, 1, dxftest.MM))
	}
	check("shifted far", moved(base, 0, false, 120000.5, -7000.25, 1, dxftest.MM))
	check("inch", moved(base, 0, false, 0, 0, 1/25.4, dxftest.Inch))
	check("metre", moved(base, 0, false, 0, 0, 1e-3, dxftest.Metre))

	// Shuffled and reversed strokes: the same sheet, but for entity numbers.
	rng := rand.New(rand.NewSource(1))
	for range 20 {
		s := append([]stroke(nil), base...)
		rng.Shuffle(len(s), func(i, j int) { s[i], s[j] = s[j], s[i] })
		for i := range s {
			if s[i].r == 0 && rng.Intn(2) == 0 {
				s[i].x1, s[i].y1, s[i].x2, s[i].y2 = s[i].x2, s[i].y2, s[i].x1, s[i].y1
			}
		}
		got := build(t, moved(s, 0, false, 0, 0, 1, dxftest.MM))
		if !reflect.DeepEqual(withoutSources(first), withoutSources(got)) {
			t.Fatalf("order of entities matters:\n%s\n%s", describe(first), describe(got))
		}
	}
}

// withoutSources drops what counts entities in file order.
func withoutSources(s *features.Sheet) features.Sheet {
	c := *s
	c.Entities = nil
	c.Parts = append([]features.Part(nil), s.Parts...)
	for i := range c.Parts {
		p := &c.Parts[i]
		p.OutlineSource = nil
		p.Features = append([]features.Feature(nil), p.Features...)
		for k := range p.Features {
			p.Features[k].Source = nil
		}
		p.Thickness.Source, p.Material.Source = nil, nil
		p.CallOuts = append([]features.CallOut(nil), p.CallOuts...)
		for k := range p.CallOuts {
			p.CallOuts[k].Source = nil
		}
		p.Doubts = append([]features.Doubt(nil), p.Doubts...)
		for k := range p.Doubts {
			p.Doubts[k].Source = nil
		}
	}
	c.Texts = append([]features.Text(nil), s.Texts...)
	for i := range c.Texts {
		c.Texts[i].Source = features.Source{}
	}
	c.Loose = append([]features.Loose(nil), s.Loose...)
	for i := range c.Loose {
		c.Loose[i].Source = nil
	}
	c.Notes = append([]features.Note(nil), s.Notes...)
	for i := range c.Notes {
		c.Notes[i].Source = nil
	}
	c.Faults = append([]features.Fault(nil), s.Faults...)
	for i := range c.Faults {
		c.Faults[i].Source = nil
	}
	return c
}

// FuzzBuild: whatever the reader makes of some bytes can be built.
func FuzzBuild(f *testing.F) {
	f.Add(plate(dxftest.MM, 1).Bytes())
	f.Add(moved(gusset(), 10, true, 5, 5, 1, dxftest.Inch).Bytes())
	b := plate(dxftest.NoUnit, 1)
	b.Text(10, 10, 4, "PL 10 S275 4 HOLES 22 DIA").Ellipse(0, 0, 50, 10, 0.3, 0, 4)
	b.Spline(3, false, []float64{0, 0, 0, 0, 1, 1, 1, 1}, []float64{0, 0, 50, 0, 50, 50, 0, 50}, nil)
	b.Block("P", 1, 2, func(b *dxftest.Builder) { b.Circle(0, 0, 5).Arc(0, 0, 7, 0, 270) })
	b.Insert("P", 40, 40, dxftest.Placing{ScaleX: -2, ScaleY: 1, Columns: 3, Rows: 2, ColSpacing: 20, RowSpacing: 20})
	f.Add(b.Bytes())
	f.Add(b.As(dxftest.BinaryR12))
	f.Add(plainAngle().Text(100, -40, 10, "2L75x50x6 LG=400").Polyline(true, sectionRing(600, 20, 75, 50, 6, 7, 3)...).Bytes())
	f.Add(dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 500, 167)...).Line(0, 71, 500, 71).Circle(50, 30, 9).Text(100, -40, 10, "L100x75x8").Bytes())
	f.Add(dxftest.New(dxftest.MM).Polyline(true, corners(0, 0, 440, 0, 440, 67, 500, 67, 500, 75, 0, 75)...).Line(0, 67, 440, 67).Text(0, -20, 5, "L100x75x8").Bytes())
	f.Fuzz(func(t *testing.T, data []byte) {
		ctx := context.Background()
		lim := dxfread.Limits{Bytes: 1 << 20, Placed: 500} // a thousand lines across one another take seconds under the fuzzing
		d, err := dxfread.Decode(ctx, data, lim)
		if d == nil {
			return
		}
		s, err := features.Build(ctx, d, features.Options{ReadError: err, Limits: lim})
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Parts) == 0 && faultOf(s, "no-part") == nil {
			t.Error("no part and no fault")
		}
		for _, p := range s.Parts {
			for _, f := range p.Features {
				for _, n := range []float64{f.At.X, f.At.Y, f.DiameterMM, f.WidthMM, f.LengthMM, f.DepthMM, f.AreaMM2} {
					if math.IsNaN(n) || math.IsInf(n, 0) {
						t.Errorf("%s: %v", f.ID, n)
					}
				}
			}
		}
	})
}

func benchmarkBuild(b *testing.B, d *dxfread.Drawing) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := features.Build(context.Background(), d, features.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBuildGusset is one ordinary part.
func BenchmarkBuildGusset(b *testing.B) {
	benchmarkBuild(b, moved(gusset(), 0, false, 0, 0, 1, dxftest.MM).Drawing(b))
}

// BenchmarkBuildHoles is a plate of 10,000 holes.
func BenchmarkBuildHoles(b *testing.B) {
	d := dxftest.New(dxftest.MM)
	d.Polyline(true, dxftest.Rect(-20, -20, 2020, 2020)...)
	for i := range 10000 {
		d.Circle(float64(i%100)*20, float64(i/100)*20, 4+float64(i%3))
	}
	benchmarkBuild(b, d.Drawing(b))
}

// BenchmarkBuildNest is 400 copies of a part, turned every way.
func BenchmarkBuildNest(b *testing.B) {
	d := dxftest.New(dxftest.MM)
	d.Block("P", 0, 0, func(d *dxftest.Builder) {
		d.Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: 120, Y: 0}, dxftest.V{X: 120, Y: 40}, dxftest.V{X: 50, Y: 40}, dxftest.V{X: 50, Y: 90}, dxftest.V{X: 0, Y: 90})
		d.Circle(20, 70, 6).Circle(100, 20, 4.5)
	})
	for i := range 400 {
		d.Insert("P", float64(i%20)*300, float64(i/20)*300, dxftest.Placing{AngleDeg: float64(i) * 7})
	}
	benchmarkBuild(b, d.Drawing(b))
}
