package check

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

func at(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// What is cut through the heel, along a leg or through one leg alone is no work
// of an angle shear, a notcher or a punch, and never goes by in silence.
func TestAngleOddShapes(t *testing.T) {
	// A mitre in leg a, a cope at the heel's end, an opening through the heel, a
	// notch in the toe of b.
	odd := exampleAngle(300, 100, 75, 8, 10)
	odd.legs[0].Outline = geom.RingOf(at(0, -100), at(200, -100), at(300, 0), at(180, 0), at(180, -20), at(120, -20), at(120, 0), at(30, 0), at(30, -40), at(0, -40))
	odd.legs[1].Outline = geom.RingOf(at(0, 0), at(120, 0), at(120, 15), at(180, 15), at(180, 0), at(300, 0), at(300, 75), at(240, 75), at(240, 55), at(220, 55), at(220, 75), at(0, 75))
	rep := angleJob(t, odd.part(), nil)
	if rep.Verdict != DoesNotFit {
		t.Errorf("%s", rep.Verdict)
	}
	by := map[string]string{}
	for _, m := range rep.Plan.Makes {
		f := &rep.Part.Features[m.Feature]
		by[f.ID] = string(f.Kind) + " " + m.MadeBy
	}
	for id, want := range map[string]string{"C1": "rectangular-hole nothing", "N1": "notch saw"} {
		if by[id] != want {
			t.Errorf("%s: %q, want %q", id, by[id], want)
		}
	}
	cutAway := exampleAngle(400, 75, 75, 8, 9)
	cutAway.legs[1].Outline = geom.RingOf(at(60, 0), at(400, 0), at(400, 75), at(60, 75))
	rep = angleJob(t, cutAway.part(), nil)
	if rep.Verdict != WithCare || len(of(rep, "edge-process")) != 2 || rep.Plan.Work.Cuts != 1 {
		t.Errorf("%s, %d cuts: %+v", rep.Verdict, rep.Plan.Work.Cuts, rep.Findings)
	}
	rep = angleJob(t, cutAway.part(), func(s *shop.Profile, _ *plan.Job) { s.Also = nil })
	if rep.Verdict != DoesNotFit {
		t.Errorf("without a saw: %s", rep.Verdict)
	}
	clip := exampleAngle(400, 75, 75, 8, 9)
	clip.legs[1].Outline = geom.RingOf(at(0, 0), at(400, 0), at(400, 75), at(20, 75), at(0, 55))
	rep = angleJob(t, clip.part(), nil)
	if rep.Verdict != WithCare || len(of(rep, "edge-process")) != 1 {
		t.Errorf("clip: %s %+v", rep.Verdict, rep.Findings)
	}
	// A leg narrower along a part of its length, and one skew through both legs.
	ripped := exampleAngle(400, 75, 75, 8, 9)
	ripped.legs[0].Outline = geom.RingOf(at(0, -75), at(200, -75), at(200, -50), at(400, -50), at(400, 0), at(0, 0))
	if rep = angleJob(t, ripped.part(), nil); rep.Verdict == Fits {
		t.Error("a ripped leg fits")
	}
	skew := exampleAngle(400, 75, 75, 8, 9)
	skew.legs[0].Outline = geom.RingOf(at(0, -75), at(380, -75), at(400, 0), at(0, 0))
	skew.legs[1].Outline = geom.RingOf(at(0, 0), at(400, 0), at(420, 75), at(0, 75))
	if rep = angleJob(t, skew.part(), nil); rep.Verdict != WithCare || len(of(rep, "angle-mitre")) != 1 {
		t.Errorf("skew: %s %+v", rep.Verdict, rep.Findings)
	}
}

// A blank that comes cut needs no end cuts; a part longer than the bar is bought.
func TestAngleBlank(t *testing.T) {
	b := exampleAngle(60, 50, 50, 5, 7)
	b.hole(0, 30, 45, 9)
	rep := angleJob(t, b.part(), func(_ *shop.Profile, j *plan.Job) { j.BlankGiven = true })
	if rep.Plan.Work.Cuts != 0 || rep.Plan.Blank.Form != "given" || rep.Plan.Blank.PiecesPerBar != 0 {
		t.Errorf("%+v %+v", rep.Plan.Work, rep.Plan.Blank)
	}
	if f := wantSeverity(t, rep, "small-part", Warning); f != nil && f.Fix != "hold it with tongs or a jig" {
		t.Errorf("%+v", f)
	}
	for length, want := range map[float64]Severity{5990: "", 5991: Warning, 6001: Warning} {
		l := exampleAngle(length, 75, 75, 8, 9)
		wantSeverity(t, angleJob(t, l.part(), nil), "blank", want)
	}
	l := exampleAngle(6001, 75, 75, 8, 9)
	wantSeverity(t, angleJob(t, l.part(), func(s *shop.Profile, _ *plan.Job) { s.Buy = false }), "blank", Error)
	l = exampleAngle(400, 85, 85, 8, 9)
	wantSeverity(t, angleJob(t, l.part(), func(s *shop.Profile, _ *plan.Job) { s.Buy = false }), "blank", Error)
	// A shop that lists no angles: assumed aloud, no more.
	rep = angleJob(t, exampleAngle(400, 75, 75, 8, 9).part(), func(s *shop.Profile, _ *plan.Job) { s.Stock.Angles = nil })
	wantSeverity(t, rep, "blank", Note)
	if rep.Verdict != Fits || !rep.Plan.Blank.Assumed {
		t.Errorf("%s %+v", rep.Verdict, rep.Plan.Blank)
	}
	// Thickness left open: judged for the thicknesses of such angles on the rack.
	p := exampleAngle(400, 75, 75, 8, 9).part()
	p.Angle.ThicknessMM = 0
	rep = angleJob(t, p, nil)
	if rep.Verdict != CannotTell || len(rep.Limits) != 1 || rep.Limits[0].ThicknessMM != 8 {
		t.Errorf("%s %+v", rep.Verdict, rep.Limits)
	}
	// Plates of the rack say nothing of an angle: 7.1 is no plate of 7 nor 8.
	p = exampleAngle(400, 75, 75, 7.1, 9).part()
	if rep = angleJob(t, p, nil); rep.Job.ThicknessMM != 7.1 {
		t.Errorf("%g", rep.Job.ThicknessMM)
	}
}

// A mitre is no inside corner, whichever way it runs.
func TestAngleMitreIsNoCorner(t *testing.T) {
	b := exampleAngle(400, 75, 75, 8, 9)
	b.mitre(45)
	wantSeverity(t, angleJob(t, b.part(), nil), "inside-corner", "")
	b.legs[0].Outline = geom.RingOf(at(0, -75), at(475, -75), at(400, 0), at(0, 0))
	rep := angleJob(t, b.part(), nil)
	wantSeverity(t, rep, "inside-corner", "")
	if rep.Plan.Blank.LengthMM != 475 {
		t.Errorf("%g", rep.Plan.Blank.LengthMM)
	}
}

// Angles at random: whichever leg is called a, and wherever and however it lies,
// the same is said of it, and nothing panics.
func TestRandomAngles(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 7))
	for n := range 120 {
		type hole struct{ leg, x, g, d, slot float64 }
		var hs []hole
		legs := [2]float64{40 + 5*float64(r.IntN(18)), 40 + 5*float64(r.IntN(18))}
		th := 4 + float64(r.IntN(10))
		length := 80 + 10*float64(r.IntN(60))
		for range r.IntN(5) {
			l := r.IntN(2)
			hs = append(hs, hole{float64(l), 15 + r.Float64()*(length-30), 12 + r.Float64()*(legs[l]-20), 9 + float64(r.IntN(14)), float64(r.IntN(3))})
		}
		notch := r.IntN(4) == 0
		mitre := float64(r.IntN(3)) * 20
		build := func(swap bool, m geom.Motion) *features.Part {
			k := func(l int) int {
				if swap {
					return 1 - l
				}
				return l
			}
			b := exampleAngle(length, legs[k(0)], legs[k(1)], th, 8)
			for _, h := range hs {
				if h.slot == 2 {
					b.slot(k(int(h.leg)), h.x, h.g, h.d, 2*h.d)
				} else {
					b.hole(k(int(h.leg)), h.x, h.g, h.d)
				}
			}
			if notch {
				b.notch(k(0), length/2, 30, 15)
			} else if mitre > 0 && !swap {
				b.mitre(mitre)
			} else if mitre > 0 {
				back := b.widths[1] * tan(mitre)
				b.legs[1].Outline = geom.RingOf(at(0, 0), at(length, 0), at(length-back, b.widths[1]), at(0, b.widths[1]))
			}
			for i := range b.legs {
				l := &b.legs[i]
				l.Outline = l.Outline.Apply(m).CCW()
				for j := range l.Holes {
					l.Holes[j] = l.Holes[j].Apply(m).CCW()
				}
				l.Heel, l.Toe = [2]geom.Point{m.Apply(l.Heel[0]), m.Apply(l.Heel[1])}, m.ApplyDir(l.Toe)
			}
			return b.part()
		}
		told := func(p *features.Part) string {
			rep := angleJob(t, p, nil)
			var l []string
			for _, f := range rep.Findings {
				l = append(l, fmt.Sprint(f.Rule, f.Severity, f.CannotTell, f.Count))
			}
			slices.Sort(l)
			w := rep.Plan.Work
			return fmt.Sprintf("%s %v %d hits %d cuts %d bites %d turns %.4f kg %.4f kg", rep.Verdict, l, w.Hits, w.Cuts, w.Bites, w.Turns, w.GrossKG, w.NetKG)
		}
		want := told(build(false, geom.NewTurn(0)))
		for i, m := range []geom.Motion{geom.NewTurn(0.7).Then(geom.NewShift(at(-2000, 500))), geom.NewTurn(2), geom.NewMirror()} {
			if got := told(build(i == 1, m)); got != want {
				t.Errorf("angle %d laid otherwise (%d):\n%s\nas drawn:\n%s", n, i, got, want)
			}
		}
	}
}

func tan(degrees float64) float64 { return math.Tan(degrees * math.Pi / 180) }

// Rules made for flat parts look at one leg of an angle.
func TestAngleFlatRules(t *testing.T) {
	// Small: 80 long with legs of 60; just at the size it is not.
	for length, want := range map[float64]Severity{80: Warning, 99.9: Warning, 100: ""} {
		b := exampleAngle(length, 60, 60, 6, 8)
		b.hole(0, length/2, 35, 9)
		wantSeverity(t, angleJob(t, b.part(), nil), "small-part", want)
	}
	// A row off the middle of both legs together is no strap: the other leg
	// stiffens it.
	b := exampleAngle(600, 50, 50, 5, 7)
	for x := 100.0; x < 400; x += 45 {
		b.hole(0, x, 28, 14)
	}
	wantSeverity(t, angleJob(t, b.part(), nil), "strap", "")
	// Stripping: 22.5 mm to the heel, or metal on both sides along the angle.
	for g, want := range map[float64]Severity{22.5: "", 22.4: Warning} {
		b := exampleAngle(400, 75, 75, 8, 9)
		b.hole(0, 15, g, 9)
		rep := angleJob(t, b.part(), func(s *shop.Profile, _ *plan.Job) {
			for i := range s.Machines {
				s.Machines[i].Punch.DieHalfMM = 2
			}
		})
		wantSeverity(t, rep, "stripping", want)
	}
	// The greatest edge distance (AISC 360-22 J3.6: 12 t = 96 mm) is to an edge of
	// the hole's own leg: 140 mm to the toe, not 90 over the heel.
	b = exampleAngle(1000, 200, 30, 8, 9)
	b.hole(0, 400, 60, 22)
	b.hole(0, 600, 60, 22)
	rep := angleJob(t, b.part(), func(_ *shop.Profile, j *plan.Job) { j.Code, j.Exposure = "aisc", true })
	if f := wantSeverity(t, rep, "edge-distance", Note); f != nil {
		near(t, "to the toe", f.Got.Value, 140, 1e-9)
	}
	// Weight as handled: 7850 kg/m3 x A x L.
	b = exampleAngle(2200, 75, 75, 8, 9)
	rep = angleJob(t, b.part(), nil)
	wantSeverity(t, rep, "lift", "")
	b = exampleAngle(5500, 75, 75, 8, 9)
	if f := wantSeverity(t, angleJob(t, b.part(), nil), "lift", Warning); f != nil {
		// L75x75x8 by EN 10056-1 weighs 8.99 kg/m; with sharp toes a little more.
		near(t, "kg", f.Got.Value, 8.99*5.5, 0.01*8.99*5.5)
	}
}

// A shear that mitres to one side: both ends of a frame's side need a turn of
// the bar, ends that run alike do not.
func TestAngleMitreOneWay(t *testing.T) {
	oneWay := func(s *shop.Profile, _ *plan.Job) {
		for i := range s.Machines {
			s.Machines[i].Angle.MitreOneWay = true
		}
	}
	b := exampleAngle(400, 75, 75, 8, 9)
	b.legs[0].Outline = geom.RingOf(at(75, -75), at(325, -75), at(400, 0), at(0, 0))
	rep := angleJob(t, b.part(), oneWay)
	if f := wantSeverity(t, rep, "angle-mitre", Warning); f == nil || len(rep.Plan.Cuts) != 2 {
		t.Errorf("%+v", rep.Findings)
	}
	wantSeverity(t, angleJob(t, b.part(), nil), "angle-mitre", "")
	b.legs[0].Outline = geom.RingOf(at(75, -75), at(475, -75), at(400, 0), at(0, 0))
	wantSeverity(t, angleJob(t, b.part(), oneWay), "angle-mitre", "")
}
