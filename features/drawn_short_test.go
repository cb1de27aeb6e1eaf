package features_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// graveDoubts are the texts of the grave doubts of a part.
func graveDoubts(p *features.Part) string {
	out := ""
	for _, d := range p.Doubts {
		if d.Grave {
			out += d.Text + "; "
		}
	}
	return out
}

// A bar of 2400 is drawn as two pieces of 40 high with parallel break lines.
func TestDrawnBroken(t *testing.T) {
	turned := func(up bool, v []dxftest.V) []dxftest.V {
		if !up {
			return v
		}
		out := make([]dxftest.V, len(v))
		for i, p := range v {
			out[i] = dxftest.V{X: p.Y, Y: p.X, Bulge: -p.Bulge}
		}
		return out
	}
	type V = dxftest.V
	zigzag := [2][]V{
		{{X: 140}, {X: 146, Y: 15}, {X: 134, Y: 25}, {X: 140, Y: 40}, {Y: 40}, {}},
		{{X: 150}, {X: 300}, {X: 300, Y: 40}, {X: 150, Y: 40}, {X: 144, Y: 25}, {X: 156, Y: 15}},
	}
	curved := [2][]V{
		{{X: 140, Bulge: 0.5}, {X: 140, Y: 20, Bulge: -0.5}, {X: 140, Y: 40}, {Y: 40}, {}},
		{{X: 150}, {X: 300}, {X: 300, Y: 40}, {X: 150, Y: 40, Bulge: 0.5}, {X: 150, Y: 20, Bulge: -0.5}},
	}
	// A point and a vee that fit into each other: two parts on a strip.
	vee := [2][]V{
		{{X: 140}, {X: 150, Y: 20}, {X: 140, Y: 40}, {Y: 40}, {}},
		{{X: 150}, {X: 300}, {X: 300, Y: 40}, {X: 150, Y: 40}, {X: 160, Y: 20}},
	}
	for name, c := range map[string]struct {
		pieces [2][]V
		up     bool
		dim    string
		parts  int
		says   string
	}{
		"zigzag":          {zigzag, false, "2400 NTS", 1, "drawn broken"},
		"zigzag upright":  {zigzag, true, "2400 NTS", 1, "drawn broken"},
		"curved":          {curved, false, "2400", 1, "drawn broken"},
		"no dimension":    {zigzag, false, "", 2, "drawn shortened"},
		"vee in a vee":    {vee, false, "300", 2, ""},
		"curved, no text": {curved, true, "", 2, "drawn shortened"},
	} {
		b := dxftest.New(dxftest.MM)
		for _, p := range c.pieces {
			b.Polyline(true, turned(c.up, p)...)
		}
		for _, p := range turned(c.up, []V{{X: 30, Y: 20}, {X: 270, Y: 20}}) {
			b.Circle(p.X, p.Y, 9)
		}
		if c.dim != "" {
			e, angle := turned(c.up, []V{{X: 300}, {X: 150, Y: -15}}), 0.0
			if c.up {
				angle = 90
			}
			b.Dimension(0, 0, e[0].X, e[0].Y, e[1].X, e[1].Y, angle, 300, c.dim)
		}
		s := build(t, b.Text(0, -60, 5, "FLAT 40x10 S275JR"))
		if len(s.Parts) != c.parts {
			t.Errorf("%s: %s", name, describe(s))
			continue
		}
		for i := range s.Parts {
			p := &s.Parts[i]
			said := graveDoubts(p)
			if c.says != "" && !strings.Contains(said, c.says) || c.says == "" && strings.Contains(said, "drawn") {
				t.Errorf("%s: %q", name, said)
			}
			if long := math.Max(p.Box.Width(), p.Box.Height()); c.parts == 1 && (math.Abs(long-300) > 1e-6 || len(p.Holes) != 2 || math.Abs(p.AreaMM2-(300*40-2*81*math.Pi)) > 0.1) {
				t.Errorf("%s: %s", name, describe(s))
			}
		}
		if c.dim == "2400 NTS" && !strings.Contains(graveDoubts(&s.Parts[0]), c.dim) {
			t.Errorf("%s: the length is not told: %q", name, graveDoubts(&s.Parts[0]))
		}
	}
}

// An isometric view of the plate of 200 x 140 x 10, or of another one.
func TestIsometricView(t *testing.T) {
	at := func(x, y, z float64) dxftest.V {
		return dxftest.V{X: 420 + (x-y)*math.Sqrt(3)/2, Y: -20 + (x+y)/2 + z}
	}
	view := func(b *dxftest.Builder, x, y, z float64) {
		line := func(p, q dxftest.V) { b.Line(p.X, p.Y, q.X, q.Y) }
		o, top := at(0, 0, 0), at(0, 0, z)
		drawLoop(b, top, at(x, 0, z), at(x, y, z), at(0, y, z))
		line(o, top)
		line(o, at(x, 0, 0))
		line(at(x, 0, 0), at(x, 0, z))
		line(o, at(0, y, 0))
		line(at(0, y, 0), at(0, y, z))
		// Circles on the top are ellipses of sqrt(3/2) and sqrt(1/2) their size.
		b.Ellipse(at(40, 40, z).X, at(40, 40, z).Y, 9*math.Sqrt(1.5), 0, 1/math.Sqrt(3), 0, 2*math.Pi)
	}
	plate := func() *dxftest.Builder {
		return dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(40, 40, 9).Text(0, -40, 5, "PL 10 S275JR")
	}
	for name, c := range map[string]struct {
		x, y, z float64
		parts   int
	}{"the plate": {200, 140, 10, 1}, "at another scale": {100, 70, 5, 1}, "another plate": {180, 140, 10, 2}} {
		b := plate()
		view(b, c.x, c.y, c.z)
		s := build(t, b)
		if len(s.Parts) < c.parts || c.parts == 1 && (len(s.Parts) != 1 || graveDoubts(&s.Parts[0]) != "" || !hasNote(s, "symbol-taken-out")) {
			t.Errorf("%s: %s", name, describe(s))
		}
		for i := range s.Parts {
			if s.Parts[i].Box.Min.X > 210 && !strings.Contains(graveDoubts(&s.Parts[i]), "isometric") {
				t.Errorf("%s: a view is no sure part: %s", name, describe(s))
			}
		}
	}
	// A view with more corners is doubted.
	b := plate()
	var up, down []dxftest.V
	for _, q := range [][2]float64{{0, 0}, {200, 0}, {200, 60}, {80, 60}, {80, 140}, {0, 140}} {
		up, down = append(up, at(q[0], q[1], 10)), append(down, at(q[0], q[1], 0))
	}
	drawLoop(b, up...)
	for _, l := range [][2]dxftest.V{{up[0], down[0]}, {down[0], down[1]}, {down[1], up[1]}, {down[0], down[5]}, {down[5], up[5]}} {
		b.Line(l[0].X, l[0].Y, l[1].X, l[1].Y)
	}
	s := build(t, b)
	if last := len(s.Parts) - 1; last != 1 || !strings.Contains(graveDoubts(&s.Parts[0])+graveDoubts(&s.Parts[1]), "isometric view of a part") {
		t.Errorf("more corners: %s", describe(s))
	}
}
