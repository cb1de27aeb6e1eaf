package check

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"burrside/check/change"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// suggested judges a part in S275 and searches changes that would pass.
func suggested(t *testing.T, b *exampleBuilder, mm float64, code string, opt SuggestOptions, with ...func(*shop.Profile, *plan.Job)) *PartReport {
	t.Helper()
	prof := *shop.BuiltIn()
	m, _ := prof.Material("S275")
	job := plan.Job{ThicknessMM: mm, ThicknessFrom: "flag", Material: m, MaterialName: "S275", MaterialFrom: "flag", Code: code}
	for _, w := range with {
		w(&prof, &job)
	}
	rep := RunPart(b.p, &prof, job)
	SuggestPart(context.Background(), rep, &prof, job, opt)
	return rep
}

func texts(rep *PartReport) []string {
	var out []string
	for _, g := range rep.Changes {
		out = append(out, g.By+": "+g.Text)
	}
	return out
}

// wantTexts compares what is suggested, word by word.
func wantTexts(t *testing.T, name string, rep *PartReport, want ...string) {
	t.Helper()
	if got := texts(rep); !slices.Equal(got, want) {
		t.Errorf("%s:\n got %s\nwant %s", name, strings.Join(got, "\n     "), strings.Join(want, "\n     "))
	}
}

// Worked by hand. Edge distance: EN 1993-1-8:2005 Table 3.3, 1.2 d0 = 26.4 mm for
// Ø22; ANSI/AISC 360-22 Table J3.4M, M20: 26 mm. Die clearance aimed at: 12 % of
// t, common practice, no source. Table B of holders: the built-in shop file.
func TestSuggestionsByHand(t *testing.T) {
	plate := func(w, h float64, holes ...[3]float64) *exampleBuilder {
		b := examplePlate("p", w, h)
		for _, c := range holes {
			b.hole(c[0], c[1], c[2])
		}
		return b
	}
	// 26.4 - 25 = 1.4, up to a whole mm 2.
	wantTexts(t, "Ø22 at 25", suggested(t, plate(200, 140, [3]float64{25, 70, 22}, [3]float64{100, 70, 22}), 10, "en", SuggestOptions{}),
		"drawing: would the designer accept the part 2 mm larger at its left side, 202 mm x 140 mm in all?",
		"drawing: would the designer accept H1, H2 moved 2 mm to the right?")
	// Both ends short: a move takes from one end what it gives the other.
	wantTexts(t, "both ends", suggested(t, plate(200, 140, [3]float64{25, 70, 22}, [3]float64{175, 70, 22}), 10, "en", SuggestOptions{}),
		"drawing: would the designer accept the part 2 mm larger at its right side and the part 2 mm larger at its left side, 204 mm x 140 mm in all?")
	// M20 at 26: enough by AISC, 0.4 short by EN.
	wantTexts(t, "M20 at 26, AISC", suggested(t, plate(200, 140, [3]float64{26, 70, 22}, [3]float64{100, 70, 22}), 10, "aisc", SuggestOptions{}))
	wantTexts(t, "M20 at 26, EN", suggested(t, plate(200, 140, [3]float64{26, 70, 22}, [3]float64{100, 70, 22}), 10, "en", SuggestOptions{}),
		"drawing: would the designer accept the part 1 mm larger at its left side, 201 mm x 140 mm in all?",
		"drawing: would the designer accept H1, H2 moved 1 mm to the right?")
	// In an inch shop by sixteenths: 1.4 / 1.5875 is one.
	rep := suggested(t, plate(200, 140, [3]float64{25, 70, 22}, [3]float64{100, 70, 22}), 10, "en", SuggestOptions{}, inches)
	if len(rep.Changes) == 0 || math.Abs(rep.Changes[0].Steps[0].ByMM-25.4/16) > 1e-9 {
		t.Errorf("inch shop: %v", texts(rep))
	}
	// 15 + 0.12 x 10 = 16.2.
	wantTexts(t, "no Ø15", suggested(t, plate(200, 140, [3]float64{60, 70, 15}), 10, "", SuggestOptions{}),
		"shop: buy punch Ø15 with die Ø16.2 for the standard holder of north bay")
	// The plan drills what the punch would break on, and grinds the corners.
	wantTexts(t, "d < t", suggested(t, plate(200, 140, [3]float64{60, 70, 8}), 10, "", SuggestOptions{}))
	// 1.2 of 3 mm are 40 %; 36 + 0.36 = 36.4 rounded to 0.1.
	wantTexts(t, "die", suggested(t, plate(200, 140, [3]float64{60, 70, 36}), 3, "", SuggestOptions{}), "shop: buy die Ø36.4 for punch Ø36")
	// 2.2 x 22 = 48.4.
	wantTexts(t, "pitch", suggested(t, plate(200, 140, [3]float64{60, 70, 22}, [3]float64{105, 70, 22}), 10, "en", SuggestOptions{}),
		"drawing: would the designer accept H1, H2 at a pitch of 49 mm instead of 45 mm along the blank?")
	wantTexts(t, "too much force", suggested(t, plate(300, 300, [3]float64{150, 150, 110}), 20, "", SuggestOptions{}))
	thermal := func(p *shop.Profile, _ *plan.Job) {
		p.Also = slices.Clone(p.Also)
		for i := range p.Also {
			if p.Also[i].Kind == "thermal" {
				p.Also[i].Have = true
				return
			}
		}
		p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true, Seconds: 60})
	}
	wantTexts(t, "thermal where the shop has it", suggested(t, plate(300, 300, [3]float64{150, 150, 110}), 20, "", SuggestOptions{}, thermal))
	wantTexts(t, "notch narrower than the tool of 40", suggested(t, exampleNotched("p", 300, 200, 30, 40), 6, "", SuggestOptions{}),
		"drawing: would the designer accept N1 40 mm wide and 40 mm deep instead of 30 mm x 40 mm?")
	wantTexts(t, "corners", suggested(t, exampleRounded("p", 250, 120, 10), 10, "", SuggestOptions{}))
}

// Angles: fillet of 75 x 75 x 8 by EN 10056-1, r 9: heel to its toe 8 + 9 = 17; the
// hole Ø18 at a gauge of 25 ends 16 from the heel, 1 too near. Half widths of the
// die blocks by the built-in shop file: 25 < 17 + 15 of the offset die, so the plan drills.
func TestSuggestionsForAngles(t *testing.T) {
	a := exampleAngle(400, 75, 75, 8, 9)
	a.hole(0, 100, 25, 18)
	rep := suggested(t, &exampleBuilder{p: a.part()}, 8, "", SuggestOptions{})
	wantTexts(t, "in the fillet", rep, "drawing: would the designer accept H1 moved 1 mm further from the heel?")
	a = exampleAngle(400, 75, 75, 8, 9)
	a.hole(0, 100, 45, 18)
	a.hole(1, 100, 45, 18)
	rep = suggested(t, &exampleBuilder{p: a.part()}, 8, "", SuggestOptions{})
	// The plan lays them so, and the finding says it.
	wantTexts(t, "offset die", rep)
	if rep.Verdict != WithCare {
		t.Errorf("with the offset die: %s", rep.Verdict)
	}
	// 25 - 20 of M16 by the table: the hole moves along, both features keep their leg.
	a = exampleAngle(400, 75, 75, 8, 9)
	a.hole(0, 20, 50, 18)
	a.hole(0, 100, 50, 18)
	rep = suggested(t, &exampleBuilder{p: a.part()}, 8, "en", SuggestOptions{})
	wantTexts(t, "1.2 x 18 = 21.6", rep, "drawing: would the designer accept H1, H2 moved 2 mm further from the start?")
}

// A hole that has two troubles gets one change for both, and what two holes have
// in common one change as well.
func TestSuggestionsAreJoint(t *testing.T) {
	b := examplePlate("p", 200, 140)
	b.hole(60, 40, 15)
	b.hole(60, 100, 15)
	b.hole(140, 70, 28.5)
	rep := suggested(t, b, 10, "", SuggestOptions{})
	wantTexts(t, "two sizes", rep,
		"shop: buy punch Ø15 with die Ø16.2 for the standard holder of north bay",
		"shop: buy punch Ø28.5 with die Ø29.7 for the standard holder of north bay")
	// Ø8 in 10 is drilled, and so is the web of 4 mm (error for a punch below 5) no error.
	b = examplePlate("p", 200, 140)
	b.hole(8, 70, 8)
	rep = suggested(t, b, 10, "", SuggestOptions{})
	for _, g := range rep.Changes {
		if len(g.Steps) > 1 {
			t.Errorf("%s: one step is enough", g.Text)
		}
	}
	// Both ends short, and the sides too: one question with four edges.
	b = examplePlate("p", 110, 51)
	b.hole(25, 25.5, 22)
	b.hole(85, 25.5, 22)
	// From the rack the strip would be wider than a flat and too narrow to hold.
	if rep := suggested(t, b, 10, "en", SuggestOptions{}); len(rep.Changes) != 0 {
		t.Errorf("from a strip that cannot be held: %v", texts(rep))
	}
	rep = suggested(t, b, 10, "en", SuggestOptions{}, func(_ *shop.Profile, j *plan.Job) { j.BlankGiven = true })
	if len(rep.Changes) == 0 || len(rep.Changes[0].Steps) != 4 || len(rep.Changes[0].Resolves) != 1 {
		t.Errorf("four edges: %+v", rep.Changes)
	}
}

// The designer is not asked where the shop can help itself, unless that is wanted.
func TestShopComesFirst(t *testing.T) {
	b := examplePlate("p", 200, 140)
	b.hole(60, 70, 22.1)
	wantTexts(t, "shop only", suggested(t, b, 10, "", SuggestOptions{}))
	b = examplePlate("p", 200, 140)
	b.hole(60, 70, 21.4) // Ø22 is 0.6 larger
	wantTexts(t, "shop only", suggested(t, b, 10, "", SuggestOptions{}), "shop: buy punch Ø21.4 with die Ø22.6 for the standard holder of north bay")
	b = examplePlate("p", 200, 140)
	b.slot(60, 70, 18, 38)
	wantTexts(t, "asked for", suggested(t, b, 10, "", SuggestOptions{Drawing: true}),
		"shop: buy punch slot 18 x 38 with die slot 19.2 x 39.2 for the standard holder of north bay",
		"drawing: would the designer accept slot S1 as 18 mm x 36 mm instead of slot 18 mm x 38 mm?")
	noBuy := func(p *shop.Profile, _ *plan.Job) { p.Buy = false; p.Also = nil }
	wantTexts(t, "nothing else", suggested(t, b, 10, "", SuggestOptions{}, noBuy),
		"drawing: would the designer accept slot S1 as 18 mm x 36 mm instead of slot 18 mm x 38 mm?")
}

// A size is changed only within the holes of one bolt: Ø15 is none of M16's.
func TestSizeKeepsTheBolt(t *testing.T) {
	noBuy := func(p *shop.Profile, _ *plan.Job) { p.Buy = false; p.Also = nil }
	b := examplePlate("p", 200, 140)
	b.hole(60, 70, 21.4) // by 0.6 off M20's 22: of no bolt
	wantTexts(t, "Ø21.4", suggested(t, b, 10, "", SuggestOptions{}, noBuy))
	for _, c := range []struct {
		a, b float64
		same bool
	}{{22.4, 22, true}, {22, 22, true}, {15, 16, false}, {22, 24, false}, {17.4, 18, false}, {23, 22, false}, {19, 18, false}} {
		if got := sameBolt(shop.BuiltIn(), "", c.a, c.b); got != c.same {
			t.Errorf("Ø%g and Ø%g: %v", c.a, c.b, got)
		}
	}
}

// Moving an edge by hand: what comes out is the part as it would be drawn.
func TestEdgeIsMovedLikeDrawn(t *testing.T) {
	small, large := examplePlate("p", 200, 140), examplePlate("p", 202, 141)
	small.hole(25, 70, 22)
	large.hole(25, 70, 22)
	got, _, _, ok := change.Apply(small.p, shop.BuiltIn(), plan.Job{}, []change.Step{
		{Kind: change.Edge, Along: geom.Point{X: 1}, ByMM: 2}, {Kind: change.Edge, Along: geom.Point{Y: 1}, ByMM: 1}})
	if !ok || !reflect.DeepEqual(got.Outline, large.p.Outline) || got.Box != large.p.Box || math.Abs(got.AreaMM2-large.p.AreaMM2) > 1e-6 || math.Abs(got.PerimeterMM-large.p.PerimeterMM) > 1e-6 {
		t.Fatalf("ok %v: %+v", ok, got)
	}
	for i := range got.Features {
		a, b := got.Features[i], large.p.Features[i]
		if a.Kind == features.RoundHole {
			a.Ring, b.Ring = nil, nil
		}
		if math.Abs(a.LengthMM-b.LengthMM) > 1e-9 || math.Abs(a.CutLengthMM-b.CutLengthMM) > 1e-9 || a.At.Dist(b.At) > 1e-9 || a.From.Dist(b.From) > 1e-9 || a.To.Dist(b.To) > 1e-9 {
			t.Errorf("%s: %+v, drawn %+v", a.ID, a, b)
		}
	}
	if small.p.Box.Max.X != 200 || small.p.Outline[0].To.X != 200 {
		t.Error("the part itself was changed")
	}
	for name, c := range map[string]struct {
		b *exampleBuilder
		n geom.Point
	}{
		"notch on that edge": {exampleNotched("p", 300, 200, 80, 40), geom.Point{Y: 1}},
		"taper":              {exampleMitre("p", 400, 100, 30), geom.Point{X: 1}},
		"bend":               {exampleBent("p", 300, 200), geom.Point{X: 1}},
	} {
		if _, _, _, ok := change.Apply(c.b.p, shop.BuiltIn(), plan.Job{}, []change.Step{{Kind: change.Edge, Along: c.n, ByMM: 2}}); ok {
			t.Errorf("%s: the edge was moved", name)
		}
	}
	// Rounded and clipped corners go with the edge as they are.
	for _, b := range []*exampleBuilder{exampleRounded("p", 250, 120, 10), exampleClipped("p", 250, 120, 20)} {
		q, _, _, ok := change.Apply(b.p, shop.BuiltIn(), plan.Job{}, []change.Step{{Kind: change.Edge, Along: geom.Point{X: -1}, ByMM: 5}})
		if !ok || math.Abs(q.AreaMM2-b.p.AreaMM2-5*120) > 1e-6 || q.Box.Min.X != -5 {
			t.Errorf("rounded: ok %v, %+v", ok, q)
		}
	}
}
