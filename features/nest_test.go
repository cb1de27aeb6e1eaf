package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestSeats: concentric circles are one hole with a seat, a hole with three
// quarters of a circle about it is tapped (countersunk 14/28, M12 as
// 10.2 with an arc of 12).
func TestSeats(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	b.Circle(50, 50, 7).Circle(50.05, 50, 14)
	b.Circle(120, 50, 5.1).Arc(120, 50, 6, 0, 270)
	s := build(t, b)
	p := onePart(t, s)
	seats, taps := kinds(p, features.HoleWithSeat), kinds(p, features.TappedHole)
	if len(seats) != 1 || !close(seats[0].DiameterMM, 14, 1e-9) || !close(seats[0].SeatMM, 28, 1e-9) || len(seats[0].Source) != 2 {
		t.Errorf("%s", describe(s))
	}
	if len(taps) != 1 || !close(taps[0].DiameterMM, 10.2, 1e-9) || !close(taps[0].SeatMM, 12, 1e-9) {
		t.Errorf("%s", describe(s))
	}
	clean(t, s)
	for _, c := range []struct {
		name       string
		r, sweep   float64
		wantTapped bool
	}{
		{"just 240", 6, 240.5, true}, {"below 240", 6, 239, false}, {"330", 6, 329.5, true}, {"over 330", 6, 331, false},
		{"1.05", 5.1 * 1.051, 270, true}, {"under 1.05", 5.1 * 1.049, 270, false}, {"1.5", 5.1 * 1.499, 270, true}, {"over 1.5", 5.1 * 1.51, 270, false},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
		b.Circle(120, 50, 5.1).Arc(120, 50, c.r, 0, c.sweep)
		p := onePart(t, build(t, b))
		if got := len(kinds(p, features.TappedHole)) == 1; got != c.wantTapped {
			t.Errorf("%s: tapped %v", c.name, got)
		}
		if !c.wantTapped && len(p.Doubts) == 0 {
			t.Errorf("%s: the arc is not explained and nothing says so", c.name)
		}
	}
}

// TestPartInOpening: a part in a cut-out needs 3 mm of metal all round it.
func TestPartInOpening(t *testing.T) {
	for _, c := range []struct {
		gap   float64
		parts int
	}{{2.99, 1}, {3, 2}, {3.01, 2}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 300, 200)...)
		b.Polyline(true, dxftest.Rect(50, 50, 120, 100)...)
		b.Polyline(true, dxftest.Rect(50+c.gap, 60, 60, 50)...)
		b.Circle(250, 100, 10)
		s := build(t, b)
		if len(s.Parts) != c.parts {
			t.Errorf("gap %g: %d parts\n%s", c.gap, len(s.Parts), describe(s))
			continue
		}
		if d := doubtOf(&s.Parts[0], "reading-doubt"); (d != nil) != (c.parts == 1) {
			t.Errorf("gap %g: doubt %v", c.gap, d)
		}
	}
	// Nested as deep as it goes: outline, opening, part, opening, part.
	b := dxftest.New(dxftest.MM)
	for i := range 5 {
		k := float64(i) * 20
		b.Polyline(true, dxftest.Rect(k, k, 300-2*k, 280-2*k)...)
	}
	b.Circle(10, 10, 4)
	if s := build(t, b); len(s.Parts) != 3 {
		t.Errorf("%s", describe(s))
	}
	// A washer inside the bore of a ring is a part, not a seat: it has a bore
	// with a hole beside it.
	b = dxftest.New(dxftest.MM)
	b.Circle(0, 0, 100).Circle(0, 0, 60).Circle(0, 0, 40).Circle(10, 0, 5).Circle(-10, 0, 5)
	if s := build(t, b); len(s.Parts) != 2 {
		t.Errorf("%s", describe(s))
	}
}

// TestBorder: the border of a stock sheet is no part; a plate with a window is
// one; what cannot be told is doubted.
func TestBorder(t *testing.T) {
	parts := func(b *dxftest.Builder, n int) {
		for i := range n {
			x := 20 + 110*float64(i)
			b.Polyline(true, dxftest.Rect(x, 20, 100, 60)...)
			b.Circle(x+20, 40, 5).Circle(x+70, 50, 5+float64(i))
		}
	}
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 100)...)
	parts(b, 3)
	s := build(t, b)
	if len(s.Parts) != 3 || !hasNote(s, "border-taken-out") {
		t.Errorf("%s", describe(s))
	}
	if d := doubtOf(&s.Parts[0], "maybe-frame"); d == nil || d.Grave {
		t.Errorf("%s", describe(s))
	}
	// A plate with holes of its own is a plate.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 100)...)
	b.Circle(10, 10, 4).Circle(390, 10, 4)
	parts(b, 1)
	if s := build(t, b); len(s.Parts) != 2 || hasNote(s, "border-taken-out") {
		t.Errorf("%s", describe(s))
	}
	// One contour with one contour in it: a border with a drilled part, or a
	// plate with a window and a part in it.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 100)...)
	b.Polyline(true, dxftest.Rect(50, 20, 200, 60)...)
	b.Polyline(true, dxftest.Rect(80, 30, 50, 40)...)
	s = build(t, b)
	if d := doubtOf(&s.Parts[0], "maybe-frame"); d == nil || !d.Grave {
		t.Errorf("%s", describe(s))
	}
	// An outline drawn twice, 0.05 mm apart, is no border and no frame.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 100, 100)...)
	b.Polyline(true, dxftest.Rect(0.05, 0.05, 99.9, 99.9)...)
	b.Circle(20, 20, 5).Circle(80, 20, 5).Circle(80, 20, 4)
	s = build(t, b)
	for i := range s.Parts {
		if s.Parts[i].Box.Width() > 50 {
			if d := doubtOf(&s.Parts[i], "reading-doubt"); d == nil || !d.Grave || hasNote(s, "border-taken-out") {
				t.Errorf("%s", describe(s))
			}
		}
	}
	// Countersunk holes in a plate are holes of its own.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 100)...)
	b.Circle(50, 50, 7).Circle(50, 50, 14).Circle(350, 50, 7).Circle(350, 50, 14)
	s = build(t, b)
	onePart(t, s)
	clean(t, s)
}

// TestCopies: turned and mirrored copies are one part; a bend makes hands.
func TestCopies(t *testing.T) {
	shape := func(b *dxftest.Builder) {
		b.Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: 120, Y: 0}, dxftest.V{X: 120, Y: 40}, dxftest.V{X: 50, Y: 40}, dxftest.V{X: 50, Y: 90}, dxftest.V{X: 0, Y: 90})
		b.Circle(20, 70, 6).Circle(100, 20, 4.5)
	}
	b := dxftest.New(dxftest.MM)
	b.Block("P", 0, 0, shape)
	b.Insert("P", 0, 0)
	b.Insert("P", 300, 10, dxftest.Placing{AngleDeg: 37})
	b.Insert("P", 600, 300, dxftest.Placing{ScaleX: -1, ScaleY: 1, AngleDeg: 90})
	s := build(t, b)
	p := onePart(t, s)
	if p.Copies() != 3 {
		t.Fatalf("%d copies\n%s", p.Copies(), describe(s))
	}
	for i, want := range []features.Placement{{}, {AngleRad: 37 * math.Pi / 180}, {AngleRad: math.Pi / 2, Mirrored: true}} {
		found := false
		for _, d := range p.DrawnAt {
			found = found || d.Mirrored == want.Mirrored && close(d.AngleRad, want.AngleRad, 1e-6)
		}
		if !found {
			t.Errorf("copy %d: no placement like %+v in %+v", i, want, p.DrawnAt)
		}
	}
	// The same within 0.02 mm, another beyond.
	for _, c := range []struct {
		off  float64
		same bool
	}{{0.015, true}, {0.05, false}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...)
		b.Circle(20, 20, 5)
		b.Polyline(true, dxftest.Rect(200, 0, 100, 60)...)
		b.Circle(220+c.off, 20, 5)
		if s := build(t, b); (len(s.Parts) == 1) != c.same {
			t.Errorf("off by %g: %d parts", c.off, len(s.Parts))
		}
	}
	// Bends tell a part from its mirror image.
	b = dxftest.New(dxftest.MM)
	b.Block("P", 0, 0, func(b *dxftest.Builder) {
		shape(b)
		b.Layer("BEND").Line(0, 45, 50, 45)
		b.Layer("0")
	})
	b.Insert("P", 0, 0)
	b.Insert("P", 600, 0, dxftest.Placing{ScaleX: -1, ScaleY: 1})
	b.Insert("P", 700, 0)
	s = build(t, b)
	if len(s.Parts) != 2 || s.Parts[0].Copies() != 2 || s.Parts[1].Copies() != 1 {
		t.Errorf("%s", describe(s))
	}
}

// TestFacets: a regular 12-gon is a circle, an 11-gon is not, a square with
// cut corners stays one.
func TestFacets(t *testing.T) {
	ngon := func(n int, r float64) []dxftest.V {
		var v []dxftest.V
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			v = append(v, dxftest.V{X: 100 + r*c, Y: 70 + r*s})
		}
		return v
	}
	for _, c := range []struct {
		n    int
		want features.Kind
	}{{6, features.PolygonHole}, {11, features.PolygonHole}, {12, features.RoundHole}, {36, features.RoundHole}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
		b.Polyline(true, ngon(c.n, 20)...)
		s := build(t, b)
		f := kinds(onePart(t, s), c.want)
		if len(f) != 1 {
			t.Errorf("%d sides:\n%s", c.n, describe(s))
			continue
		}
		if c.want == features.RoundHole && (!close(f[0].DiameterMM, 40, 1e-6) || !f[0].Fitted || !hasNote(s, "facets-to-circle")) {
			t.Errorf("%d sides: %s", c.n, describe(s))
		}
	}
	// A chamfered square: eight corners on one circle, sides in ratio 4.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(-100, -100, 300, 300)...)
	b.Polyline(true, dxftest.V{X: 10, Y: 0}, dxftest.V{X: 83, Y: 0}, dxftest.V{X: 93, Y: 10}, dxftest.V{X: 93, Y: 83}, dxftest.V{X: 83, Y: 93}, dxftest.V{X: 10, Y: 93}, dxftest.V{X: 0, Y: 83}, dxftest.V{X: 0, Y: 10})
	if p := onePart(t, build(t, b)); len(p.Holes) != 1 || len(p.Holes[0]) != 8 {
		t.Errorf("%v", p.Holes)
	}
	// A slot with faceted ends, and an outline with a faceted corner.
	b = dxftest.New(dxftest.MM)
	var v []dxftest.V
	for i := range 9 {
		s, c := math.Sincos(-math.Pi/2 + math.Pi*float64(i)/8)
		v = append(v, dxftest.V{X: 120 + 10*c, Y: 70 + 10*s})
	}
	for i := range 9 {
		s, c := math.Sincos(math.Pi/2 + math.Pi*float64(i)/8)
		v = append(v, dxftest.V{X: 80 + 10*c, Y: 70 + 10*s})
	}
	b.Polyline(true, v...)
	v = []dxftest.V{{X: 0, Y: 0}, {X: 200, Y: 0}}
	for i := range 7 {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / 6)
		v = append(v, dxftest.V{X: 180 + 20*c, Y: 120 + 20*s})
	}
	b.Polyline(true, append(v, dxftest.V{X: 0, Y: 140})...)
	s := build(t, b)
	p := onePart(t, s)
	slots, radii := kinds(p, features.Slot), kinds(p, features.CornerRadius)
	if len(slots) != 1 || !close(slots[0].WidthMM, 20, 1e-6) || !close(slots[0].LengthMM, 60, 1e-6) {
		t.Errorf("%s", describe(s))
	}
	if len(radii) != 1 || !close(radii[0].RadiusMM, 20, 1e-6) {
		t.Errorf("%s", describe(s))
	}
	// Chords of 31.5 degrees are too long for an arc.
	v = []dxftest.V{{X: 0, Y: 0}}
	for i := range 5 {
		s, c := math.Sincos(31.5 * math.Pi / 180 * float64(i))
		v = append(v, dxftest.V{X: 180 + 20*c, Y: 120 + 20*s})
	}
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, append(v, dxftest.V{X: 0, Y: 140})...)
	for _, e := range onePart(t, build(t, b)).Outline {
		if e.IsArc() {
			t.Errorf("an arc was made of chords of 31.5 degrees")
		}
	}
}
