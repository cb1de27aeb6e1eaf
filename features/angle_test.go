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
