package features_test

import (
	"fmt"
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// wantHole is a hole of an angle: its leg, the distances from the outside of
// the heel and from the start of the length, its diameter.
type wantHole struct {
	leg         string
	heel, start float64
	diameter    float64
}

// checkAngle compares an angle with what was drawn.
func checkAngle(t *testing.T, s *features.Sheet, p *features.Part, legs [2]float64, thick, length float64, holes ...wantHole) {
	t.Helper()
	a := p.Angle
	if p.Form != features.FormAngle || a == nil {
		t.Fatalf("the part is %s\n%s", p.Form, describe(s))
	}
	if math.Abs(a.LegMM[0]-legs[0]) > 0.01 || math.Abs(a.LegMM[1]-legs[1]) > 0.01 {
		t.Errorf("legs %v, want %v", a.LegMM, legs)
	}
	if math.Abs(a.ThicknessMM-thick) > 0.01 || p.Thickness.MM != a.ThicknessMM || p.Thickness.From == "" {
		t.Errorf("thickness %v (%v from %q), want %v", a.ThicknessMM, p.Thickness.MM, p.Thickness.From, thick)
	}
	if math.Abs(a.LengthMM-length) > 0.01 {
		t.Errorf("length %v, want %v", a.LengthMM, length)
	}
	for _, w := range holes {
		n := 0
		for _, f := range p.Features {
			if f.IsInside() && f.Leg == w.leg && math.Abs(f.FromHeelMM-w.heel) < 0.01 && math.Abs(f.FromStartMM-w.start) < 0.01 && (w.diameter == 0 || math.Abs(f.DiameterMM-w.diameter) < 0.01) {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%d holes %+v\n%s", n, w, describeLegs(p))
		}
	}
	inside := 0
	for _, f := range p.Features {
		if f.IsInside() {
			inside++
		}
	}
	if inside != len(holes) {
		t.Errorf("%d holes, want %d\n%s", inside, len(holes), describeLegs(p))
	}
	for _, d := range p.Doubts {
		if d.Grave {
			t.Errorf("doubt %s: %s", d.Code, d.Text)
		}
	}
	for _, src := range p.OutlineSource {
		if len(src) == 0 {
			t.Errorf("an edge of the outline has no source")
			break
		}
	}
}

func describeLegs(p *features.Part) string {
	out := ""
	for _, f := range p.Features {
		out += fmt.Sprintf("  %s leg %q heel %.3f start %.3f\n", featureLine(&f), f.Leg, f.FromHeelMM, f.FromStartMM)
	}
	return out
}

// plainAngle draws an angle 75x50x6, 400 long, the long leg above, heels
// facing, three holes.
func plainAngle() *dxftest.Builder {
	return dxftest.New(dxftest.MM).
		Polyline(true, dxftest.Rect(0, 100, 400, 75)...).Line(0, 106, 400, 106).
		Circle(40, 145, 11).Circle(360, 145, 11).
		Polyline(true, dxftest.Rect(0, 0, 400, 50)...).Line(0, 44, 400, 44).
		Circle(200, 20, 9)
}

func TestAnglePlain(t *testing.T) {
	s := build(t, plainAngle())
	p := onePart(t, s)
	checkAngle(t, s, p, [2]float64{75, 50}, 6, 400,
		wantHole{"a", 45, 40, 22}, wantHole{"a", 45, 360, 22}, wantHole{"b", 30, 200, 18})
	if len(p.Doubts) > 0 || len(s.Faults) > 0 {
		t.Errorf("a clean angle has doubts:\n%s", describe(s))
	}
}

// angleWay is a way of drawing the plain angle of 75x50x6, 400 long, with three
// holes: the sizes stay, the views are drawn otherwise.
type angleWay struct {
	name string
	draw func(b *dxftest.Builder)
}

// upperView draws leg a, lowerView leg b; the thickness lines are drawn by line.
func upperView(b *dxftest.Builder, heelLow bool, line func(b *dxftest.Builder, x1, y1, x2, y2 float64)) {
	b.Polyline(true, dxftest.Rect(0, 100, 400, 75)...)
	if heelLow {
		line(b, 0, 106, 400, 106)
		b.Circle(40, 145, 11).Circle(360, 145, 11)
		return
	}
	line(b, 0, 169, 400, 169)
	b.Circle(40, 130, 11).Circle(360, 130, 11)
}

func lowerView(b *dxftest.Builder, heelLow bool, line func(b *dxftest.Builder, x1, y1, x2, y2 float64)) {
	b.Polyline(true, dxftest.Rect(0, 0, 400, 50)...)
	if heelLow {
		line(b, 0, 6, 400, 6)
		b.Circle(200, 30, 9)
		return
	}
	line(b, 0, 44, 400, 44)
	b.Circle(200, 20, 9)
}

func plainLine(b *dxftest.Builder, x1, y1, x2, y2 float64) { b.Line(x1, y1, x2, y2) }

// dashedLine draws ten dashes of 34 with gaps of 60/9 between the ends.
func dashedLine(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	const dashes, gap = 20, 4.0
	long := (x2 - x1 - gap*(dashes-1)) / dashes
	for i := range dashes {
		x := x1 + float64(i)*(long+gap)
		b.Line(x, y1, x+long, y2)
	}
}

// dashesTo draws dashes of one length and gap as a linetype does that begins
// with a dash: at the end by kind 0 what is left of the last dash, 1 the last
// whole dash drawn out to the end, 2 the other way round, from the end toward
// the start with a gap left there, 3 whole dashes, half a gap left at both ends.
func dashesTo(dash, gap float64, kind int) func(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	return func(b *dxftest.Builder, x1, y1, x2, y2 float64) {
		long := x2 - x1
		whole := math.Floor((long + gap) / (dash + gap))
		switch kind {
		case 2:
			for at := long; at > dash+0.75*gap; at -= dash + gap {
				b.Line(x1+at, y1, x1+at-dash, y2)
			}
		case 3:
			gap = (long - whole*dash) / whole
			for i := range int(whole) {
				x := x1 + gap/2 + float64(i)*(dash+gap)
				b.Line(x, y1, x+dash, y2)
			}
		default:
			for at := 0.0; at < long-0.1; at += dash + gap {
				to := min(at+dash, long)
				if kind == 1 && at+2*dash+gap > long {
					b.Line(x1+at, y1, x2, y2)
					return
				}
				b.Line(x1+at, y1, x1+to, y2)
			}
		}
	}
}

// both draws both views, heels facing, with a way of drawing the thickness.
func both(line func(b *dxftest.Builder, x1, y1, x2, y2 float64)) func(b *dxftest.Builder) {
	return func(b *dxftest.Builder) { upperView(b, true, line); lowerView(b, false, line) }
}

func hiddenLine(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	b.UseLinetype("HIDDEN").Line(x1, y1, x2, y2).UseLinetype("")
}

func hiddenLayer(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	b.Layer("HIDDEN").Line(x1, y1, x2, y2).Layer("0")
}

func angleWays() []angleWay {
	return []angleWay{
		{"facing", func(b *dxftest.Builder) { upperView(b, true, plainLine); lowerView(b, false, plainLine) }},
		{"away", func(b *dxftest.Builder) { upperView(b, false, plainLine); lowerView(b, true, plainLine) }},
		{"one facing", func(b *dxftest.Builder) { upperView(b, true, plainLine); lowerView(b, true, plainLine) }},
		{"other facing", func(b *dxftest.Builder) { upperView(b, false, plainLine); lowerView(b, false, plainLine) }},
		{"other order", func(b *dxftest.Builder) { lowerView(b, false, plainLine); upperView(b, true, plainLine) }},
		{"linetype", func(b *dxftest.Builder) { upperView(b, true, hiddenLine); lowerView(b, false, hiddenLine) }},
		{"one linetype", func(b *dxftest.Builder) { upperView(b, true, plainLine); lowerView(b, false, hiddenLine) }},
		{"hidden layer", func(b *dxftest.Builder) { upperView(b, true, hiddenLayer); lowerView(b, false, hiddenLayer) }},
		{"dashes", func(b *dxftest.Builder) { upperView(b, true, dashedLine); lowerView(b, false, dashedLine) }},
		{"dashes, the last cut off", both(dashesTo(12, 5, 0))},
		{"dashes, little left of the last", both(dashesTo(10, 4.9, 0))},
		{"dashes, the last drawn out", both(dashesTo(9, 6, 1))},
		{"dashes, short of the start", both(dashesTo(9, 6, 2))},
		{"dashes, half a gap short of both ends", both(dashesTo(10, 4, 3))},
		{"dashes and the root's", func(b *dxftest.Builder) {
			both(dashesTo(12, 5, 0))(b)
			dashesTo(12, 5, 0)(b, 0, 113, 400, 113)
			dashesTo(12, 5, 0)(b, 0, 37, 400, 37)
		}},
		{"one of dashes", func(b *dxftest.Builder) { upperView(b, true, dashedLine); lowerView(b, false, plainLine) }},
		{"with text", func(b *dxftest.Builder) {
			upperView(b, true, plainLine)
			lowerView(b, false, plainLine)
			b.Text(100, -40, 10, "L75x50x6 LG=400")
		}},
		{"lines of four", func(b *dxftest.Builder) {
			for _, y := range []float64{0, 100} {
				h := 50 + y/4
				b.Line(0, y, 400, y).Line(400, y+h, 400, y).Line(0, y+h, 400, y+h).Line(0, y, 0, y+h)
			}
			b.Line(400, 106, 0, 106).Circle(40, 145, 11).Circle(360, 145, 11).Line(0, 44, 400, 44).Circle(200, 20, 9)
		}},
		{"second line for the root", func(b *dxftest.Builder) {
			upperView(b, true, plainLine)
			lowerView(b, false, plainLine)
			b.Line(0, 113, 400, 113).Line(0, 37, 400, 37)
		}},
	}
}

func newAngleBuilder(u dxftest.Unit) *dxftest.Builder {
	return dxftest.New(u).Linetype("HIDDEN", 6, -3)
}

func TestAngleHabits(t *testing.T) {
	plain := []wantHole{{"a", 45, 40, 22}, {"a", 45, 360, 22}, {"b", 30, 200, 18}}
	for _, h := range angleWays() {
		t.Run(h.name, func(t *testing.T) {
			b := newAngleBuilder(dxftest.MM)
			h.draw(b)
			s := build(t, b)
			p := onePart(t, s)
			checkAngle(t, s, p, [2]float64{75, 50}, 6, 400, plain...)
			// EN 10056-1: L75x50x6 weighs 5.65 kg/m, root radius 7 mm.
			if a := p.Angle; a.Section != "L75x50x6" || math.Abs(a.MassKgM-5.65) > 0.01 || a.RootMM != 7 {
				t.Errorf("section %q, %v kg/m, root %v", a.Section, a.MassKgM, a.RootMM)
			}
			if len(p.Doubts) > 0 || len(s.Faults) > 0 {
				t.Errorf("a clean angle has doubts:\n%s", describe(s))
			}
		})
		t.Run(h.name+" in a block turned", func(t *testing.T) {
			b := newAngleBuilder(dxftest.MM)
			b.Block("ANGLE", 0, 0, h.draw)
			b.Insert("ANGLE", 700, 300, dxftest.Placing{AngleDeg: 90})
			s := build(t, b)
			// Turned by a quarter to the left, the start is still below.
			checkAngle(t, s, onePart(t, s), [2]float64{75, 50}, 6, 400, plain...)
		})
		t.Run(h.name+" in inches", func(t *testing.T) {
			b := newAngleBuilder(dxftest.Inch)
			b.Block("ANGLE", 0, 0, h.draw)
			b.Insert("ANGLE", 0, 0, dxftest.Placing{ScaleX: 1 / 25.4, ScaleY: 1 / 25.4, ScaleZ: 1 / 25.4})
			s := build(t, b)
			checkAngle(t, s, onePart(t, s), [2]float64{75, 50}, 6, 400, plain...)
		})
	}
}

func TestAngleMirrored(t *testing.T) {
	for _, h := range angleWays() {
		if h.name == "with text" {
			continue // mirrored text
		}
		b := newAngleBuilder(dxftest.MM)
		b.Block("ANGLE", 0, 0, func(b *dxftest.Builder) { h.draw(b); b.Circle(100, 152, 6) })
		b.Insert("ANGLE", 0, 0, dxftest.Placing{ScaleX: -1, ScaleY: 1, ScaleZ: 1})
		s := build(t, b)
		p := onePart(t, s)
		if p.Angle == nil {
			t.Errorf("%s: no angle\n%s", h.name, describe(s))
			continue
		}
		// The end that was on the right is now on the left.
		var at []float64
		for _, f := range p.Features {
			if f.IsInside() && f.DiameterMM == 12 {
				at = append(at, f.FromStartMM)
			}
		}
		if len(at) != 1 || math.Abs(at[0]-300) > 0.01 {
			t.Errorf("%s: the hole of 12 mm stands at %v from the start, want 300", h.name, at)
		}
		if p.Angle.Hand != features.HandUnknown || !hasNote(s, "angle-hand") {
			t.Errorf("%s: hand %q", h.name, p.Angle.Hand)
		}
	}
}
