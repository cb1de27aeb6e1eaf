package features_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

func corners(xy ...float64) []dxftest.V {
	var out []dxftest.V
	for i := 0; i < len(xy); i += 2 {
		out = append(out, dxftest.V{X: xy[i], Y: xy[i+1]})
	}
	return out
}

func notchesOf(p *features.Part) []features.Feature { return kinds(p, features.Notch) }

// An angle of 100x75x8, 500 long. Leg b is coped at the right end: 60 long, from
// the toe to the inside of leg a. Its line of the thickness ends at the cope.
func TestAngleCoped(t *testing.T) {
	for _, whole := range []bool{true, false} {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 150, 500, 100)...).Line(0, 158, 500, 158)
		b.Polyline(true, corners(0, 0, 440, 0, 440, 67, 500, 67, 500, 75, 0, 75)...)
		if whole {
			b.Line(0, 67, 440, 67)
		} else {
			b.Line(0, 67, 436, 67) // drawn a little short
		}
		s := build(t, b)
		p := onePart(t, s)
		checkAngle(t, s, p, [2]float64{100, 75}, 8, 500)
		n := notchesOf(p)
		// The cope: 60 along the heel, 75 - 8 = 67 deep, in leg b.
		if len(n) != 1 || n[0].Leg != "b" || n[0].Shape != features.NotchCorner || math.Abs(max(n[0].Long[0], n[0].Long[1])-67) > 0.01 || math.Abs(min(n[0].Long[0], n[0].Long[1])-60) > 0.01 {
			t.Errorf("notches %+v", n)
		}
		if len(p.Doubts) > 0 {
			t.Errorf("doubts:\n%s", describe(s))
		}
	}
}

// A notch through leg b from its toe parts the line of the thickness in two, as
// it goes down to the outside of the heel.
func TestAngleNotched(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 150, 500, 100)...).Line(0, 158, 500, 158)
	b.Polyline(true, corners(0, 0, 200, 0, 200, 67, 260, 67, 260, 0, 500, 0, 500, 75, 0, 75)...).Line(0, 67, 200, 67).Line(260, 67, 500, 67)
	b.Polyline(true, dxftest.Slot(350, 30, 18, 50)...)
	s := build(t, b)
	p := onePart(t, s)
	checkAngle(t, s, p, [2]float64{100, 75}, 8, 500, wantHole{"b", 45, 350, 0})
	n := notchesOf(p)
	if len(n) != 1 || n[0].Leg != "b" || math.Abs(n[0].WidthMM-60) > 0.01 || math.Abs(n[0].DepthMM-67) > 0.01 || math.Abs(n[0].FromStartMM-230) > 0.01 || math.Abs(n[0].FromHeelMM-75) > 0.01 {
		t.Errorf("notches %+v", n)
	}
	if slots := kinds(p, features.Slot); len(slots) != 1 || math.Abs(slots[0].LengthMM-50) > 0.01 {
		t.Errorf("slots %+v", slots)
	}
}

// Leg a is cut at 45 degrees at its right end, longest at the heel; leg b shows
// the shadow of the cut through its thickness: a line 8 mm before its end.
func TestAngleMitred(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, corners(0, 150, 500, 150, 400, 250, 0, 250)...).Line(0, 158, 492, 158)
	b.Polyline(true, dxftest.Rect(0, 0, 500, 75)...).Line(0, 67, 500, 67).Line(492, 0, 492, 75)
	s := build(t, b)
	p := onePart(t, s)
	checkAngle(t, s, p, [2]float64{100, 75}, 8, 500)
	mitres := 0
	for _, f := range kinds(p, features.StraightCut) {
		if f.Subkind == "mitre" {
			mitres++
			if f.Leg != "a" || math.Abs(p.Angle.OffSquareRad(&f)-math.Pi/4) > 1e-6 {
				t.Errorf("mitre %+v", f)
			}
		}
	}
	if mitres != 1 {
		t.Errorf("%d mitres\n%s", mitres, describeLegs(p))
	}
}

// Two views side by side, stood on end: leg a 60 wide on the left, leg b on the
// right; equal legs.
func TestAngleUpright(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 60, 300)...).Line(54, 0, 54, 300).Circle(25, 40, 9)
	b.Polyline(true, dxftest.Rect(100, 0, 60, 300)...).Line(106, 0, 106, 300).Circle(135, 70, 7)
	s := build(t, b)
	checkAngle(t, s, onePart(t, s), [2]float64{60, 60}, 6, 300, wantHole{"a", 35, 40, 18}, wantHole{"b", 35, 70, 14})
}

// A cleat is shorter than its legs are wide.
func TestAngleCleat(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	for _, y := range []float64{0, 130} {
		b.Polyline(true, dxftest.Rect(0, y, 70, 100)...)
	}
	b.Line(0, 90, 70, 90).Circle(35, 45, 11).Line(0, 140, 70, 140).Circle(35, 185, 11)
	s := build(t, b)
	p := onePart(t, s)
	checkAngle(t, s, p, [2]float64{100, 100}, 10, 70, wantHole{"a", 55, 35, 22}, wantHole{"b", 55, 35, 22})
	if p.Angle.Hand != features.HandNone || hasNote(s, "angle-hand") {
		t.Errorf("a cleat with equal legs has the hand %q", p.Angle.Hand)
	}
}

// handed draws an angle of equal legs with one hole off the middle, at x and y,
// or its other hand.
func handed(b *dxftest.Builder, x, y float64, other bool) {
	at := 40.0
	if other {
		at = 360
	}
	b.Polyline(true, dxftest.Rect(x, y+100, 400, 60)...).Line(x, y+106, x+400, y+106).Circle(x+at, y+135, 9)
	b.Polyline(true, dxftest.Rect(x, y, 400, 60)...).Line(x, y+54, x+400, y+54)
	b.Circle(x+at, y+25, 7).Circle(x+200, y+25, 7)
}

func TestAngleCopiesAndHands(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	handed(b, 0, 0, false)
	handed(b, 700, 0, false)
	handed(b, 0, 600, true)
	b.Polyline(true, dxftest.Rect(700, 600, 200, 150)...).Circle(750, 650, 11)
	s := build(t, b)
	if len(s.Parts) != 3 {
		t.Fatalf("%d parts, want 3\n%s", len(s.Parts), describe(s))
	}
	copies := map[features.Form][]int{}
	for _, p := range s.Parts {
		copies[p.Form] = append(copies[p.Form], p.Copies())
	}
	if got := copies[features.FormAngle]; len(got) != 2 || got[0] != 2 || got[1] != 1 || len(copies[features.FormFlat]) != 1 {
		t.Errorf("copies %v\n%s", copies, describe(s))
	}
	said := false
	for _, n := range s.Notes {
		said = said || n.Code == "opposite-hand" && strings.Contains(n.Text, s.Parts[0].Name)
	}
	if !said {
		t.Errorf("nothing tells of the opposite hand\n%s", describe(s))
	}
}

// In third angle the upper view is from above, the lower one from the front.
// Heels facing: leg a reaches back from the heel, leg b down. Heels away: leg a
// reaches to the front and leg b up, which is the same turned half round about
// the heel. One facing and one away: leg a back, leg b up, the mirror image.
func TestAngleArrangementsAreOneAngle(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	handed(b, 0, 0, false)
	b.Polyline(true, dxftest.Rect(700, 100, 400, 60)...).Line(700, 154, 1100, 154).Circle(740, 125, 9)
	b.Polyline(true, dxftest.Rect(700, 0, 400, 60)...).Line(700, 6, 1100, 6).Circle(740, 35, 7).Circle(900, 35, 7)
	s := build(t, b)
	if len(s.Parts) != 1 || s.Parts[0].Copies() != 2 || hasNote(s, "opposite-hand") {
		t.Errorf("facing and away: %d parts\n%s", len(s.Parts), describe(s))
	}
	b = newAngleBuilder(dxftest.MM)
	handed(b, 0, 0, false)
	b.Polyline(true, dxftest.Rect(700, 100, 400, 60)...).Line(700, 106, 1100, 106).Circle(740, 135, 9)
	b.Polyline(true, dxftest.Rect(700, 0, 400, 60)...).Line(700, 6, 1100, 6).Circle(740, 35, 7).Circle(900, 35, 7)
	s = build(t, b)
	if len(s.Parts) != 2 || !hasNote(s, "opposite-hand") {
		t.Errorf("facing and one away: %d parts\n%s", len(s.Parts), describe(s))
	}
}

func TestAngleProjectionTold(t *testing.T) {
	for text, want := range map[string]features.Hand{
		"THIRD ANGLE PROJECTION": features.HandThird, "1ST ANGLE PROJECTION": features.HandFirst,
		"PROJECTION: E": features.HandFirst, "PRIMO DIEDRO": features.HandFirst, "ANGLE THIRD": features.HandUnknown,
	} {
		b := newAngleBuilder(dxftest.MM)
		handed(b, 0, 0, false)
		b.Text(0, -80, 8, text)
		s := build(t, b)
		if got := onePart(t, s).Angle.Hand; got != want {
			t.Errorf("%q: hand %q, want %q", text, got, want)
		}
	}
	for _, first := range []bool{true, false} {
		b := newAngleBuilder(dxftest.MM)
		handed(b, 0, 0, false)
		// The sign of ISO 5456-2: the circles beside the large end in first
		// angle, beside the small end in third.
		x, want := 502.0, features.HandFirst
		if !first {
			x, want = 468, features.HandThird
		}
		b.Polyline(true, corners(480, -33, 490, -35, 490, -25, 480, -27)...)
		b.Circle(x, -30, 5).Circle(x, -30, 3).Text(0, -80, 8, "STRUT")
		s := build(t, b)
		if p := onePart(t, s); p.Angle.Hand != want {
			t.Errorf("sign: hand %q, want %q\n%s", p.Angle.Hand, want, describe(s))
		}
	}
}

func TestAngleOneView(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float64
		leg   string
	}{{"L100x75x8 LG=500", 100, "a"}, {"L100x75x8", 75, "b"}, {"L75x75x8", 75, "a"}} {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 500, c.width)...).Line(0, 8, 500, 8).Circle(50, 45, 11)
		b.Text(100, -30, 10, c.text)
		s := build(t, b)
		p := onePart(t, s)
		legs := [2]float64{100, 75}
		if c.text == "L75x75x8" {
			legs[0] = 75
		}
		checkAngle(t, s, p, legs, 8, 500, wantHole{c.leg, 45, 50, 22})
		if d := doubtOf(p, "leg-not-drawn"); d == nil || d.Grave {
			t.Errorf("%s: doubts %+v", c.text, p.Doubts)
		}
		for k := range p.Angle.Legs {
			if p.Angle.Legs[k].Drawn != (string(rune('a'+k)) == c.leg) {
				t.Errorf("%s: leg %d drawn: %v", c.text, k, p.Angle.Legs[k].Drawn)
			}
		}
	}
	// Nor is a hidden line passed over that ends short of the edges.
	for _, line := range []func(b *dxftest.Builder, x1, y1, x2, y2 float64){hiddenLine, hiddenLayer} {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 500, 75)...)
		line(b, 3, 8, 497, 8)
		if d := doubtOf(onePart(t, build(t, b)), "line-unexplained"); d == nil || !d.Grave {
			t.Errorf("a hidden line near the heel is not doubted")
		}
	}
	// Without a text nothing tells what it is.
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 500, 75)...).Line(0, 8, 500, 8)
	p := onePart(t, build(t, b))
	if d := doubtOf(p, "line-unexplained"); p.Form != features.FormFlat || d == nil || !d.Grave {
		t.Errorf("form %s, doubts %+v", p.Form, p.Doubts)
	}
}

func TestAngleTextDisagrees(t *testing.T) {
	for _, text := range []string{"L80x50x6", "L75x50x8", "L75x50x6 LG=420"} {
		b := plainAngle().Text(100, -40, 10, text)
		p := onePart(t, build(t, b))
		if d := doubtOf(p, "section-conflict"); p.Form != features.FormAngle || d == nil || !d.Grave {
			t.Errorf("%s: form %s, doubts %+v", text, p.Form, p.Doubts)
		}
	}
	// A text of the right section is no thickness of a plate, no hole, no size.
	s := build(t, plainAngle().Text(100, -40, 10, "2L75x50x6"))
	p := onePart(t, s)
	if len(p.Doubts) > 0 || len(p.CallOuts) > 0 || p.Thickness.From != "view" || p.Quantity != 2 {
		t.Errorf("thickness %+v, quantity %d, call-outs %v\n%s", p.Thickness, p.Quantity, p.CallOuts, describe(s))
	}
}

// Three equal views at equal distances: which two belong together is not told.
func TestAngleAmbiguous(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	for _, y := range []float64{0, 100, 200} {
		b.Polyline(true, dxftest.Rect(0, y, 400, 60)...).Line(0, y+6, 400, y+6)
	}
	s := build(t, b)
	for _, p := range s.Parts {
		if p.Form == features.FormAngle {
			t.Errorf("an angle was guessed\n%s", describe(s))
		}
		if d := doubtOf(&p, "line-unexplained"); d == nil || !d.Grave {
			t.Errorf("no doubt\n%s", describe(s))
		}
	}
}

// What is no angle stays flat.
func TestAngleCounterCases(t *testing.T) {
	for name, draw := range map[string]func(b *dxftest.Builder){
		"lines too far in": func(b *dxftest.Builder) {
			for _, y := range []float64{0, 100} {
				b.Polyline(true, dxftest.Rect(0, y, 400, 60)...).Line(0, y+25, 400, y+25)
			}
		},
		"other lengths": func(b *dxftest.Builder) {
			b.Polyline(true, dxftest.Rect(0, 0, 400, 60)...).Line(0, 6, 400, 6).Polyline(true, dxftest.Rect(0, 100, 390, 60)...).Line(0, 106, 390, 106)
		},
		"other thicknesses": func(b *dxftest.Builder) {
			b.Polyline(true, dxftest.Rect(0, 0, 400, 60)...).Line(0, 6, 400, 6).Polyline(true, dxftest.Rect(0, 100, 400, 60)...).Line(0, 108, 400, 108)
		},
		"channel": func(b *dxftest.Builder) {
			for _, y := range []float64{0, 100} {
				b.Polyline(true, dxftest.Rect(0, y, 400, 80)...).Line(0, y+6, 400, y+6).Line(0, y+74, 400, y+74)
			}
		},
		"bend notes": func(b *dxftest.Builder) {
			for _, y := range []float64{0, 100} {
				b.Polyline(true, dxftest.Rect(0, y, 400, 60)...).Line(0, y+6, 400, y+6).Text(150, y+10, 5, "BEND UP 90")
			}
		},
		"far apart": func(b *dxftest.Builder) {
			for _, y := range []float64{0, 400} {
				b.Polyline(true, dxftest.Rect(0, y, 400, 60)...).Line(0, y+6, 400, y+6)
			}
		},
	} {
		b := newAngleBuilder(dxftest.MM)
		draw(b)
		s := build(t, b)
		for _, p := range s.Parts {
			if p.Form != features.FormFlat {
				t.Errorf("%s: read as an angle\n%s", name, describe(s))
			}
		}
	}
	// Two equal plates with a line that makes no listed angle: both readings are
	// open, so it is said.
	b := newAngleBuilder(dxftest.MM)
	for _, y := range []float64{0, 150} {
		b.Polyline(true, dxftest.Rect(0, y, 400, 113)...).Line(0, y+17, 400, y+17)
	}
	for _, p := range build(t, b).Parts {
		grave := false
		for _, d := range p.Doubts {
			grave = grave || d.Grave
		}
		if !grave {
			t.Errorf("no doubt: %+v", p.Doubts)
		}
	}
}

// section is the outline of an angle's section with its heel at (x, y), legs to
// the right and up, with radii inside and at the toes.
func sectionRing(x, y, a, c, t, root, toe float64) []dxftest.V {
	const quarter = 0.41421356237309503 // bulge of a quarter circle
	if root == 0 {
		return corners(x, y, x+a, y, x+a, y+t, x+t, y+t, x+t, y+c, x, y+c)
	}
	return []dxftest.V{{X: x, Y: y}, {X: x + a, Y: y}, {X: x + a, Y: y + t - toe, Bulge: quarter}, {X: x + a - toe, Y: y + t},
		{X: x + t + root, Y: y + t, Bulge: -quarter}, {X: x + t, Y: y + t + root}, {X: x + t, Y: y + c - toe, Bulge: quarter}, {X: x + t - toe, Y: y + c}, {X: x, Y: y + c}}
}

func TestAngleEndView(t *testing.T) {
	for _, root := range []float64{0, 10} {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 150, 500, 113)...).Line(0, 158, 500, 158).Circle(50, 200, 9)
		b.Polyline(true, dxftest.Rect(0, 0, 500, 75)...).Line(0, 67, 500, 67)
		b.Polyline(true, sectionRing(600, 20, 75, 113, 8, root, 4)...)
		s := build(t, b)
		p := onePart(t, s)
		// 113 x 75 x 8 is no listed angle, but the section shows that it is one.
		checkAngle(t, s, p, [2]float64{113, 75}, 8, 500, wantHole{"a", 50, 50, 18})
		// 7850 kg/m3: 8 (113 + 75 - 8) + (1 - pi/4) root^2 mm2.
		want := (8*180 + (1-math.Pi/4)*root*root) * 7850e-6
		if a := p.Angle; math.Abs(a.RootMM-root) > 1e-6 || math.Abs(a.MassKgM-want) > 1e-6 || a.Section != "" || !hasNote(s, "end-view") {
			t.Errorf("root %v, mass %v want %v, section %q", a.RootMM, a.MassKgM, want, a.Section)
		}

		// With one view it gives the other leg.
		b = newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 500, 75)...).Line(0, 67, 500, 67).Circle(60, 30, 9)
		b.Polyline(true, sectionRing(600, 20, 75, 100, 8, root, 4)...)
		s = build(t, b)
		p = onePart(t, s)
		checkAngle(t, s, p, [2]float64{100, 75}, 8, 500, wantHole{"b", 45, 60, 18})
		if d := doubtOf(p, "leg-not-drawn"); d == nil {
			t.Errorf("the leg that is not drawn is not said")
		}
	}
	// By itself it is a plate of that shape.
	b := newAngleBuilder(dxftest.MM).Polyline(true, sectionRing(0, 0, 75, 100, 8, 0, 0)...)
	if p := onePart(t, build(t, b)); p.Form != features.FormFlat {
		t.Errorf("an outline by itself is no end view")
	}
}

func TestAngleDeveloped(t *testing.T) {
	for name, c := range map[string]struct{ width, line, a, b float64 }{
		// Leg a of 100 above; a hole 45 from its toe and one 30 from leg b's.
		"both legs":           {175, 75, 55, 45},
		"less the thickness":  {167, 71, 55, 45},
		"on the inner corner": {167, 67, 55, 45},
	} {
		for _, layer := range []string{"0", "BEND", "HIDDEN"} {
			b := newAngleBuilder(dxftest.MM)
			b.Polyline(true, dxftest.Rect(0, 0, 500, c.width)...).Circle(50, c.width-45, 11).Circle(80, 30, 9)
			b.Layer(layer).Line(0, c.line, 500, c.line).Layer("0").Text(100, -40, 10, "L100x75x8")
			s := build(t, b)
			p := onePart(t, s)
			if p.Angle == nil {
				t.Errorf("%s %s: flat\n%s", name, layer, describe(s))
				continue
			}
			checkAngle(t, s, p, [2]float64{100, 75}, 8, 500, wantHole{"a", c.a, 50, 22}, wantHole{"b", c.b, 80, 18})
			if p.Angle.From != "developed view" || !hasNote(s, "developed-view") || len(p.Doubts) > 0 {
				t.Errorf("%s %s: from %q\n%s", name, layer, p.Angle.From, describe(s))
			}
		}
	}
	// Without a text it stays open.
	b := newAngleBuilder(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 500, 175)...).Line(0, 75, 500, 75)
	if p := onePart(t, build(t, b)); p.Form != features.FormFlat || doubtOf(p, "line-unexplained") == nil {
		t.Errorf("form %s, doubts %v", p.Form, p.Doubts)
	}
	// A hole across the heel belongs to neither leg.
	b = newAngleBuilder(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 500, 175)...).Line(0, 75, 500, 75).Circle(250, 78, 11).Text(100, -40, 10, "L100x75x8")
	if p := onePart(t, build(t, b)); p.Form != features.FormFlat || doubtOf(p, "angle-unclear") == nil {
		t.Errorf("form %s, doubts %v", p.Form, p.Doubts)
	}
}
