package check

import (
	"math"
	"slices"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// angleJob judges an angle by the example shop with its real plan.
func angleJob(t *testing.T, part *features.Part, change func(*shop.Profile, *plan.Job)) *PartReport {
	t.Helper()
	prof := shop.BuiltIn()
	job := steel(t, prof, "mild")
	if change != nil {
		change(prof, &job)
	}
	return RunPart(part, prof, job)
}

// pitched is an angle with a row of equal holes in leg a.
func pitched(b *angleBuilder, first, pitch, g, d float64, n int) *angleBuilder {
	for i := range n {
		b.hole(0, first+float64(i)*pitch, g, d)
	}
	return b
}

// usAngle is L4x4x1/2 with three holes for 3/4 bolts at a gage of 2-1/2, 3 in
// apart, the end at 1-1/4.
func usAngle() *angleBuilder {
	const in = 25.4
	b := exampleAngle(8.5*in, 4*in, 4*in, in/2, 0)
	return pitched(b, 1.25*in, 3*in, 2.5*in, 13.0/16*in, 3)
}

// usPart adds what AISC Table 1-7 says of the section: k 7/8 in, 12.8 lb/ft.
func usPart(b *angleBuilder) *features.Part {
	p := b.part()
	a := p.Angle
	a.Section, a.SectionList, a.ToRootMM, a.MassKgM = "L4X4X1/2", "AISC", 0.875*25.4, 12.8*0.45359237/0.3048
	return p
}

// The worked single angle: toe edge 1.5 >= 1, end 1.25 >= 1 (AISC 360-22 Table
// J3.4), spacing 3 >= 2 (2-2/3 d), heel 2.5 - 13/32 = 2.094 >= k 0.875 (AISC
// Table 1-7); punch 13/16 x 1/2 at 60 ksi 38.3 short tons, angle shear at most
// 112.5 at 60 ksi and 93.8 at 50 (F = pi d t S, A S); 12.8 lb/ft.
func TestCaseSingleAngle(t *testing.T) {
	for _, c := range []struct{ ksi, punch, shear float64 }{{60, 38.3, 112.5}, {50, 31.9, 93.8}} {
		mpa := c.ksi * 6.894757293168
		rep := angleJob(t, usPart(usAngle()), func(prof *shop.Profile, job *plan.Job) {
			prof.Units = "in"
			m := *job.Material
			m.Name, m.ShearMPa, m.ShearUpperMPa = "A36", mpa, mpa
			job.Material, job.Code = &m, "aisc"
			job.MaterialName = "A36"
			for i := range prof.Machines {
				// Their lists taken at this strength and for half an inch.
				prof.Machines[i].Angle.BasisMPa, prof.Machines[i].Angle.MaxLegMM, prof.Machines[i].Angle.MaxThicknessMM = mpa, 127, 12.7
			}
		})
		for _, r := range []string{"edge-distance", "hole-pitch", "root-fillet", "usual-gauge", "web", "legs-foul", "angle-shear", "strap", "stripping"} {
			wantSeverity(t, rep, r, "")
		}
		for i := range rep.Plan.Makes {
			if m := &rep.Plan.Makes[i]; m.MadeBy == "punch" {
				near(t, "punch, short tons", m.Use.ForceKN/shortTonKN, c.punch, 0.05)
			}
		}
		if len(rep.Plan.Cuts) != 1 {
			t.Fatalf("%d cuts", len(rep.Plan.Cuts))
		}
		// 0.5 %: 12.8 lb/ft is rounded, 3.403 lb/ft to the square inch.
		near(t, "shear, short tons", rep.Plan.Cuts[0].Use.ForceKN/shortTonKN, c.shear, 0.005*c.shear)
		w := &rep.Plan.Work
		near(t, "lb/ft", w.GrossKG/0.45359237/(8.5/12), 12.8, 1e-6)
		near(t, "net", w.GrossKG-w.NetKG, 3*math.Pi/4*math.Pow(13.0/16*25.4, 2)*12.7*7850e-9, 1e-9)
		if w.Hits != 3 || w.Cuts != 1 || w.Turns != 0 || rep.Job.ThicknessMM != 12.7 || rep.Job.ThicknessFrom != "section" {
			t.Errorf("%+v, %g mm from %q", w, rep.Job.ThicknessMM, rep.Job.ThicknessFrom)
		}
		// The end hole leaves 21.4 mm to the cut, less than 2 t: it is cut first.
		if s := rep.Plan.Steps; len(s) != 2 || s[0].What != "shear" || s[1].What != "punch" || s[1].Leg != "a" || s[1].Lay == "" {
			t.Errorf("%+v", rep.Plan.Steps)
		}
	}
}

// The least distances by AISC 360-22 Table J3.4 for 3/4 bolts, 1 in: measured in
// the hole's own leg only, and never to the heel.
func TestAngleEdgeDistance(t *testing.T) {
	const in = 25.4
	for _, c := range []struct {
		end, g float64
		want   Severity
	}{{1.25, 2.5, ""}, {1, 3, ""}, {0.999, 2.5, Warning}, {1.25, 3.001, Warning}, {1.25, 1.3, ""}, {0.74, 2.5, Error}} {
		b := exampleAngle(8.5*in, 4*in, 4*in, in/2, 0)
		pitched(b, c.end*in, 3*in, c.g*in, 13.0/16*in, 2)
		rep := angleJob(t, usPart(b), func(prof *shop.Profile, job *plan.Job) { prof.Units, job.Code = "in", "aisc" })
		wantSeverity(t, rep, "edge-distance", c.want)
	}
	// A hole beside a hole of the other leg is no pair: 1 in apart over the heel.
	b := exampleAngle(8.5*in, 4*in, 4*in, in/2, 0)
	b.hole(0, 100, 16, 13.0/16*in)
	b.hole(1, 100, 16, 13.0/16*in)
	rep := angleJob(t, usPart(b), func(prof *shop.Profile, job *plan.Job) { prof.Units, job.Code = "in", "aisc" })
	for _, r := range []string{"hole-pitch", "web", "edge-distance"} {
		wantSeverity(t, rep, r, "")
	}
	// Two in one leg are one.
	b = exampleAngle(8.5*in, 4*in, 4*in, in/2, 0)
	b.hole(0, 100, 2.5*in, 13.0/16*in)
	b.hole(0, 125, 2.5*in, 13.0/16*in)
	rep = angleJob(t, usPart(b), func(prof *shop.Profile, job *plan.Job) { prof.Units, job.Code = "in", "aisc" })
	wantSeverity(t, rep, "hole-pitch", Error)
	wantSeverity(t, rep, "web", Error)
}

// Gauge across two legs g1 + g2 - t: ANSI/AISC 360-22 B4.3b, L4x4x1/2 with 2.5 in
// in both legs is 4.5 in.
func TestGaugeAcross(t *testing.T) {
	near(t, "gauge across", gaugeAcross(2.5, 2.5, 0.5), 4.5, 1e-12)
	b := usAngle()
	b.hole(1, 1.25*25.4, 2.5*25.4, 13.0/16*25.4)
	for _, c := range []struct {
		bolts bool
		g     float64
		want  Severity
	}{{false, 1.9, Note}, {true, 1.9, Warning}, {true, 2.5, ""}} {
		b := exampleAngle(300, 101.6, 101.6, 12.7, 0)
		b.hole(0, 100, c.g*25.4, 13.0/16*25.4)
		b.hole(1, 100, c.g*25.4, 13.0/16*25.4)
		rep := angleJob(t, usPart(b), func(_ *shop.Profile, job *plan.Job) { job.Bolts = c.bolts })
		wantSeverity(t, rep, "legs-foul", c.want)
	}
	// L4x4x1/2, bolts 18.64 mm: they foul below g = 12.7 + 2.3 x 18.6375 = 55.57 and
	// nearer than 37.275 mm along the angle.
	for _, c := range []struct {
		g, apart float64
		want     Severity
	}{{55.5, 0, Note}, {55.6, 0, ""}, {50, 37.2, Note}, {50, 37.3, ""}} {
		b := exampleAngle(300, 101.6, 101.6, 12.7, 0)
		b.hole(0, 100, c.g, 13.0/16*25.4)
		b.hole(1, 100+c.apart, c.g, 13.0/16*25.4)
		wantSeverity(t, angleJob(t, usPart(b), nil), "legs-foul", c.want)
	}
}

// Angle web cleat of 10 mm: h = 430 from 6 rows, p1 = 70, e1 = 40 (worked example
// of a published design guide for simple joints: 40 + 5 x 70 + 40 = 430), e2 = 40
// to the toe, holes 22 for M20, by EN 1993-1-8 Table 3.3: 26.4 and 48.4.
func TestCaseWebCleat(t *testing.T) {
	b := exampleAngle(430, 90, 90, 10, 11)
	pitched(b, 40, 70, 50, 22, 6)
	part := b.part()
	part.Angle.Hand = features.HandNone
	rep := angleJob(t, part, func(_ *shop.Profile, job *plan.Job) { job.Code = "en" })
	for _, r := range []string{"edge-distance", "hole-pitch", "web", "root-fillet", "hand", "angle-shear"} {
		wantSeverity(t, rep, r, "")
	}
	if rep.Plan.Work.Hits != 6 || rep.Plan.Blank.LengthMM != 430 || rep.Plan.Blank.Form != "angle" {
		t.Errorf("%+v %+v", rep.Plan.Blank, rep.Plan.Work)
	}
	// The rack has no L90x90x10: it is bought. 6 m give floor((6000-10-60)/430) = 13.
	wantSeverity(t, rep, "blank", Warning)
	if !slices.Contains(rep.Plan.Work.Buy, "angle 90 x 90 x 10") || rep.Plan.Blank.PiecesPerBar != 13 {
		t.Errorf("%v, %d pieces", rep.Plan.Work.Buy, rep.Plan.Blank.PiecesPerBar)
	}
}

// Root: 75x75x8, r 9: warning below 17, error below 12.5, each just below, at and
// just above; L3x3x1/4, k 5/8, g 1-3/4 (AISC Tables 1-7, 1-7A) clears.
func TestRootFillet(t *testing.T) {
	for _, c := range []struct {
		near, root float64
		want       Severity
		ask        bool
	}{{17.01, 9, "", false}, {17, 9, "", false}, {16.99, 9, Warning, false}, {12.5, 9, Warning, false}, {12.49, 9, Error, false},
		// Not known: at most 8 + 15 = 23.
		{23, 0, "", false}, {22.99, 0, Warning, true}, {8, 0, Warning, true}, {7.99, 0, Error, false}} {
		b := exampleAngle(400, 75, 75, 8, c.root)
		b.hole(0, 200, c.near+9, 18)
		f := wantSeverity(t, angleJob(t, b.part(), nil), "root-fillet", c.want)
		if f != nil && f.CannotTell != c.ask {
			t.Errorf("%+v", f)
		}
	}
	const in = 25.4
	b := exampleAngle(10*in, 3*in, 3*in, in/4, 0)
	b.hole(0, 5*in, 1.75*in, 13.0/16*in)
	p := b.part()
	p.Angle.ToRootMM, p.Angle.SectionList = 0.625*in, "AISC"
	rep := angleJob(t, p, nil)
	wantSeverity(t, rep, "root-fillet", "")
	wantSeverity(t, rep, "usual-gauge", "")
	near(t, "hole to heel", p.Angle.NearHeelMM(&p.Features[0])/in, 1.34375, 1e-9)
}

func TestUsualGauge(t *testing.T) {
	for g, want := range map[float64]Severity{45: "", 47: "", 43: "", 47.1: Note, 42.9: Note} {
		b := exampleAngle(400, 75, 75, 8, 9)
		b.hole(0, 200, g, 18)
		f := wantSeverity(t, angleJob(t, b.part(), nil), "usual-gauge", want)
		if f != nil {
			near(t, "usual", f.Limit.Value, 45, 1e-9)
		}
	}
	// CISC Handbook p. 6-168: bolts up to 24 mm in a leg of 75, 20 mm on two lines in
	// one of 125; holes are up to 3 mm larger (EN 1090-2 table 11, from memory).
	for _, c := range []struct {
		leg, g, d, limit float64
		bolt             string
		want             Severity
	}{
		{75, 45, 26.9, 24, "", ""}, {75, 45, 27, 24, "", ""}, {75, 45, 27.1, 24, "", Note}, {75, 45, 30, 24, "M27", Note}, {75, 45, 26, 24, "M24", ""},
		{125, 45, 22, 20, "", ""}, {125, 99, 24, 20, "", Note}, {125, 80, 24, 30, "", ""},
	} {
		b := exampleAngle(400, c.leg, c.leg, 8, 9)
		b.hole(0, 200, c.g, c.d)
		p := b.part()
		p.Features[0].BoltDesignation = c.bolt
		f := wantSeverity(t, angleJob(t, p, nil), "usual-gauge", c.want)
		if f != nil && f.Limit.Value != c.limit {
			t.Errorf("%+v: %+v", c, f.Limit)
		}
	}
	// No leg of the table: nothing is interpolated.
	b := exampleAngle(400, 85, 85, 8, 9)
	b.hole(0, 200, 30, 18)
	wantSeverity(t, angleJob(t, b.part(), nil), "usual-gauge", "")
}

// A notch in a toe of 75 x 75 x 8, r 9: 17 mm must be left of the leg, and 18
// more beside the north bay's die.
func TestLegNotch(t *testing.T) {
	for depth, want := range map[float64]Severity{39.9: "", 40: "", 40.1: Error, 58: Error, 58.1: Error} {
		b := exampleAngle(400, 75, 75, 8, 9)
		b.notch(0, 200, 40, depth)
		rep := angleJob(t, b.part(), nil)
		if (rep.Verdict == Fits) != (want == "") {
			t.Errorf("depth %g: %s", depth, rep.Verdict)
		}
		if want == "" {
			wantSeverity(t, rep, "leg-notch", want)
		}
	}
	// What is left of the leg, asked of the plan itself: just below, at, just above.
	for left, want := range map[float64]station.Grade{16.99: station.Fail, 17: station.Care, 17.01: station.Care} {
		b := exampleAngle(400, 75, 75, 8, 9)
		b.notch(0, 200, 40, 75-left)
		rep := angleJob(t, b.part(), func(prof *shop.Profile, _ *plan.Job) {
			prof.Notchers = []shop.NotchTool{{Name: "deep", Shape: "rectangular", WidthMM: 40, DepthMM: 70}}
			for i := range prof.Machines {
				prof.Machines[i].Notch = &shop.NotchStation{Rating: shop.Rating{UsableKN: 1000, BasisMPa: 345}, MaxThicknessMM: 12}
			}
		})
		got := station.OK
		for _, m := range rep.Plan.Makes {
			for _, a := range m.Use.Aspects {
				if a.Rule == "leg-notch" {
					got = max(got, a.Grade)
				}
			}
		}
		if got != want {
			t.Errorf("%g left: grade %d, want %d", left, got, want)
		}
	}
}

func TestAngleHand(t *testing.T) {
	b := exampleAngle(400, 75, 75, 8, 9)
	b.hole(0, 100, 50, 18)
	for hand, want := range map[features.Hand]Verdict{features.HandNone: Fits, features.HandFirst: Fits, features.HandUnknown: CannotTell} {
		b.hand = hand
		rep := angleJob(t, b.part(), nil)
		if rep.Verdict != want {
			t.Errorf("%q: %s", hand, rep.Verdict)
		}
		if asks := slices.ContainsFunc(rep.Questions, func(q string) bool { return strings.Contains(q, "Which hand") }); asks != (want == CannotTell) {
			t.Errorf("%q: %q", hand, rep.Questions)
		}
	}
	p := b.part()
	p.Angle.Hand = features.HandUnknown
	p.DrawnAt = append(p.DrawnAt, features.Placement{Mirrored: true})
	wantSeverity(t, angleJob(t, p, nil), "angle-hand", Note)
	p.DrawnAt = append(p.DrawnAt, features.Placement{})
	wantSeverity(t, angleJob(t, p, nil), "angle-hand", Warning)
	b.hand, b.notDrawn = features.HandNone, true
	rep := angleJob(t, b.part(), nil)
	if f := wantSeverity(t, rep, "leg-not-drawn", Warning); f == nil || f.CannotTell || len(of(rep, "reading-doubt")) != 0 {
		t.Errorf("%+v", rep.Findings)
	}
}

// A plain angle with holes well off the heel fits; both legs holed is one turn
// and two set-ups.
func TestAnglePlan(t *testing.T) {
	b := exampleAngle(600, 100, 100, 10, 12)
	b.hole(0, 100, 65, 18)
	b.hole(0, 500, 65, 18)
	b.hole(1, 250, 65, 18)
	rep := angleJob(t, b.part(), nil)
	if rep.Verdict != Fits {
		t.Errorf("%s %+v", rep.Verdict, rep.Findings)
	}
	pl := rep.Plan
	w := &pl.Work
	if w.Hits != 3 || w.Cuts != 1 || w.Turns != 1 || w.ToolChanges != 1 || !w.Known || pl.Blank.PiecesPerBar != 9 {
		t.Errorf("%+v, %d pieces", w, pl.Blank.PiecesPerBar)
	}
	var got []string
	for _, s := range pl.Steps {
		got = append(got, s.What+" "+s.Leg+" "+s.Lay)
	}
	if want := []string{"punch a " + station.LayDown, "punch b " + station.LayDown, "shear  "}; !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	// Sharp legs and the fillet: 10 x 190 + 0.2146 x 144 = 1930.9 mm2.
	near(t, "kg", w.GrossKG, 1930.9*600*7850e-9, 1e-3)
	for i, e := range pl.Edges {
		mid := rep.Part.Outline[i].Mid()
		if want := map[bool]plan.EdgeKind{true: plan.EdgeMill, false: plan.EdgeSheared}[mid.X > 1 && mid.X < 599]; e != want {
			t.Errorf("edge at %v: %s", mid, e)
		}
	}
	for _, m := range pl.Machines {
		if m.Name == "south bay" && m.Grade != station.Fail || m.Name == "north bay" && m.Grade != station.OK {
			t.Errorf("%s: %d %+v", m.Name, m.Grade, m.Limiting) // the south bay shears legs up to 80
		}
	}
	// A mitre: two cuts, both legs in one.
	m := exampleAngle(600, 75, 75, 8, 9)
	m.mitre(45)
	rep = angleJob(t, m.part(), nil)
	if len(rep.Plan.Cuts) != 2 || rep.Verdict != Fits {
		t.Errorf("%d cuts, %s %+v", len(rep.Plan.Cuts), rep.Verdict, rep.Findings)
	}
	m.mitre(50)
	if f := wantSeverity(t, angleJob(t, m.part(), nil), "angle-mitre", Warning); f != nil {
		near(t, "mitre", f.Got.Value, 50, 1e-6)
		near(t, "most", f.Limit.Value, 45, 1e-6)
	}
}

// Taking any datum away never turns an angle that does not fit into one that does.
func TestAngleLessIsNoPass(t *testing.T) {
	takes := map[string]func(*features.Part, *shop.Profile, *plan.Job){
		"thickness": func(p *features.Part, _ *shop.Profile, _ *plan.Job) { p.Angle.ThicknessMM = 0 },
		"root":      func(p *features.Part, _ *shop.Profile, _ *plan.Job) { p.Angle.RootMM, p.Angle.ToRootMM = 0, 0 },
		"steel":     func(_ *features.Part, _ *shop.Profile, j *plan.Job) { *j = plan.Job{} },
		"leg":       func(p *features.Part, _ *shop.Profile, _ *plan.Job) { p.Angle.LegMM[1] = 0 },
		"die": func(_ *features.Part, s *shop.Profile, _ *plan.Job) {
			for i := range s.Machines {
				s.Machines[i].Punch.DieHalfMM = 0
			}
		},
		"stripper": func(_ *features.Part, s *shop.Profile, _ *plan.Job) {
			for i := range s.Machines {
				s.Machines[i].Punch.StripperHalfMM = 0
			}
		},
		"height": func(_ *features.Part, s *shop.Profile, _ *plan.Job) {
			for i := range s.Machines {
				s.Machines[i].Punch.LegUpMM = 0
			}
		},
		"offset": func(_ *features.Part, s *shop.Profile, _ *plan.Job) {
			for i := range s.Machines {
				s.Machines[i].Punch.OffsetDie = nil
			}
		},
		"shear": func(_ *features.Part, s *shop.Profile, _ *plan.Job) {
			for i := range s.Machines {
				s.Machines[i].Angle = nil
			}
		},
	}
	for g := 20.0; g <= 70; g += 2.5 {
		build := func() *features.Part {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 200, g, 18)
			return b.part()
		}
		whole := angleJob(t, build(), func(s *shop.Profile, _ *plan.Job) { s.Also = nil })
		for what, take := range takes {
			p := build()
			rep := angleJob(t, p, func(s *shop.Profile, j *plan.Job) { s.Also = nil; take(p, s, j) })
			if verdictRank(rep.Verdict) < verdictRank(whole.Verdict) && (rep.Verdict == Fits || rep.Verdict == WithCare) {
				t.Errorf("g %g without %s: %s, with it %s", g, what, rep.Verdict, whole.Verdict)
			}
			if must := what == "thickness" || what == "steel" || what == "leg" || what == "shear"; must && (rep.Verdict == Fits || rep.Verdict == WithCare) {
				t.Errorf("g %g without %s: %s", g, what, rep.Verdict)
			}
		}
	}
}

// shortTonKN is 2000 lbf in kilonewtons (NIST SP 811, from memory).
const shortTonKN = 8.896443230521
