package check

import (
	"context"
	"math"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features/cutlist"

	"pgregory.net/rapid"
)

// lineOf judges one line of a cut list.
func lineOf(t testing.TB, prof *shop.Profile, line string) *BarReport {
	list, err := cutlist.Read(strings.NewReader("section,length,quantity,material,end\n"+line+"\n"), cutlist.Options{Unit: "mm"})
	if err != nil {
		t.Fatal(err)
	}
	rep, err := RunList(context.Background(), "list.csv", list, prof, plan.Job{})
	if err != nil {
		t.Fatal(err)
	}
	if len(rep.Bars) != 1 || rep.Verdict != rep.Bars[0].Verdict {
		t.Fatalf("%s: %d bars, %s", line, len(rep.Bars), rep.Verdict)
	}
	return rep.Bars[0]
}

// machinesAlone is the example shop that has nothing beside its machines.
func machinesAlone() *shop.Profile {
	p := shop.BuiltIn()
	p.Also = nil
	return p
}

// Lines just below, at and just above the limits of the example shop, with the
// rule that decides. No saw helps.
func TestBarLimits(t *testing.T) {
	prof := machinesAlone()
	for _, c := range []struct {
		line string
		want Verdict
		rule string // of the worst finding; "" none
	}{
		// Round bar: cavities to 39 mm; pi/4 39^2 x 0.345 = 412.1 of 432 kN, at 415 MPa
		// 495.8: tight. 36.4 mm at 415 MPa needs 431.9 kN.
		{"RD 39,300,1,S275,", WithCare, "bar-shear"}, {"RD 39.1,300,1,S275,", DoesNotFit, "bar-shear"},
		{"RD 35,300,1,S275,", Fits, ""}, {"RD 34,300,1,S275,", Fits, ""}, {"RD 33.9,300,1,S275,", WithCare, "bar-shear"},
		{"RD 25,300,1,S275,mitre 45", DoesNotFit, "bar-shear"},
		// Square 35: 1225 x 0.345 = 422.6 of 432 kN, at 415 508.4: tight; 1225 x 0.430 = 526.8.
		{"SQ 30,300,1,S275,", Fits, ""}, {"SQ 35,300,1,S275,", WithCare, "bar-shear"}, {"SQ 35,300,1,S355,", DoesNotFit, "bar-shear"},
		// Channel: blades for 100 x 50 x 6. UPN 80 has its own blades; UPE 100 has
		// flanges of 55.
		{"UPN 100,900,1,S275,", Fits, ""}, {"UPN 80,900,1,S275,", Fits, ""}, {"UPN 120,900,1,S275,", DoesNotFit, "channel-shear"}, {"UPE 100,900,1,S275,", DoesNotFit, "channel-shear"},
		{"UPN 100,900,1,S355,", DoesNotFit, "channel-shear"}, {"C 100,900,1,S275,", CannotTell, "channel-shear"},
		{"C 100x50x6,900,1,S275,", Fits, ""}, {"C 100x50.1x6,900,1,S275,", DoesNotFit, "channel-shear"}, {"C 98.9x50x6,900,1,S275,", WithCare, "channel-shear"}, {"C 99x50x6,900,1,S275,", Fits, ""},
		// Square tube: rows 40 x 4 and 60 x 3.
		{"SHS 40x40x4,900,1,S275,", Fits, ""}, {"RHS 60x40x3,900,1,S275,", Fits, ""}, {"SHS 40x40x4.1,900,1,S275,", DoesNotFit, "tube-shear"}, {"RHS 60.7x40x3,900,1,S275,", DoesNotFit, "tube-shear"},
		{"SHS 50x50x3.2,900,1,S275,", WithCare, "tube-shear"}, {"SHS 40x40x2.7,900,1,S355,", Fits, ""}, {"SHS 40x40x3,900,1,S355,", WithCare, "tube-shear"}, {"SHS 40x40x3.5,900,1,S355,", DoesNotFit, "tube-shear"},
		// Ends.
		{"RD 20,300,1,S275,point", Fits, ""}, {"RD 20,300,1,S275,dome", DoesNotFit, "end-tool"}, {"RD 25,300,1,S275,point", DoesNotFit, "end-tool"},
		// Flat bar as a drawing's end cut: 300 x 20 in the row, mitred longer.
		{"FL 300x20,500,1,S275,", Fits, ""}, {"FL 200x20,600,1,S275,mitre 45", Fits, ""}, {"FL 250x20,600,1,S275,mitre 45", DoesNotFit, "shear-row"}, {"FL 250x12,600,1,S275,mitre 46", DoesNotFit, "mitre"}, {"FL 250x12,600,1,S275,mitre 45", Fits, ""},
		// Angle as a drawing's: 120 x 12 square, 80 x 8 mitred.
		{"L120x120x12,300,1,S275,", Fits, ""}, {"L80x80x8,600,1,S275,mitre 45", Fits, ""}, {"L90x90x9,600,1,S275,mitre 45", DoesNotFit, "angle-mitre"}, {"L150x150x14,300,1,S275,", DoesNotFit, "angle-shear"},
		// Weight: 1350 mm2 x 7850 kg/m3 is 10.6 kg/m: 2359 mm weigh 25.0 kg.
		{"UPN 100,2359,1,S275,", Fits, ""}, {"UPN 100,2360,1,S275,", WithCare, "lift"},
	} {
		b := lineOf(t, prof, c.line)
		rule := ""
		if len(b.Findings) > 0 {
			rule = b.Findings[0].Rule
		}
		if b.Verdict != c.want || rule != c.rule {
			t.Errorf("%s: %s by %q, want %s by %q: %+v", c.line, b.Verdict, rule, c.want, c.rule, b.Findings)
		}
	}
}

// The same bar is judged alike from a list and from a drawing: verdict and
// worst rule of the examples of parts.
func TestListAgreesWithDrawing(t *testing.T) {
	prof := shop.BuiltIn()
	for _, c := range []struct {
		line string
		e    Example
	}{
		{"FL 100x10,600,1,S275,", examplePlate("bar", 600, 100).example("", 10, "")},
		{"FL 250x12,900,1,S275,mitre 45", exampleMitre("bar", 900, 250, 45).example("", 12, "")},
		{"L150x150x14,400,1,S275,", exampleAngle(400, 150, 150, 14, 16).example("", 14, "")},
	} {
		if m, ok := prof.Material("S275"); ok {
			c.e.Job.Material, c.e.Job.MaterialName = m, m.Name
		}
		one, two := RunPart(c.e.Part, prof, c.e.Job), lineOf(t, prof, c.line)
		if one.Verdict != two.Verdict {
			t.Errorf("%s: drawn %s %+v, listed %s %+v", c.line, one.Verdict, one.Findings, two.Verdict, two.Findings)
		}
	}
}

// Pieces a bar: floor((6000 - 10 - drop + kerf) / (length + kerf)). Clips of 50
// under a hold-down of 70 mm: (6000 - 10 - 70) / 50 = 118 (worked by hand).
func TestPiecesFromBars(t *testing.T) {
	for _, c := range []struct {
		line               string
		pieces, bars       int
		drop, kerf         float64
		net, gross, length float64
	}{
		{"FL 50x6,50,118,S275,", 118, 1, 90, 0, 13.895, 14.13, 6000},
		{"FL 50x6,50,119,S275,", 118, 2, 6030, 0, 14.012, 28.26, 6000},
		// Sawn: (6000 - 10 - 60 + 3) / 1003 = 5; 2 x 5990 - 6 x 1003 left over.
		{"CHS 48.3x3.2,1000,6,S275,", 5, 2, 5962, 3, 21.36, 42.7, 6000},
		{"UPN 100,5985,1,S275,", 1, 1, 5, 0, 63.4, 63.6, 6000},
	} {
		b := lineOf(t, shop.BuiltIn(), c.line)
		s := b.Plan.Stock
		if s.PiecesPerBar != c.pieces || s.Bars != c.bars || math.Abs(s.DropMM-c.drop) > 0.5 || s.KerfMM != c.kerf || s.LengthMM != c.length ||
			math.Abs(s.NetKG-c.net) > 0.004*c.net || math.Abs(s.GrossKG-c.gross) > 0.004*c.gross {
			t.Errorf("%s: %+v", c.line, s)
		}
	}
	// No length of stock stated: said, and nothing counted.
	prof := shop.BuiltIn()
	prof.Stock.BarLengthMM = 0
	if s := lineOf(t, prof, "RD 20,300,4,S275,").Plan.Stock; s.PiecesPerBar != 0 || s.Bars != 0 || !strings.Contains(s.Text, "states no length of stock") {
		t.Errorf("%+v", s)
	}
	// Longer than the bar: bought longer, or not at all.
	if b := lineOf(t, shop.BuiltIn(), "SQ 20,6001,1,S275,"); b.Verdict != WithCare || b.Findings[0].Rule != "blank" || b.Findings[0].Who != "buy" {
		t.Errorf("%s %+v", b.Verdict, b.Findings)
	}
	prof.Stock.BarLengthMM, prof.Buy = 6000, false
	if b := lineOf(t, prof, "SQ 20,6001,1,S275,"); b.Verdict != DoesNotFit {
		t.Errorf("%s %+v", b.Verdict, b.Findings)
	}
}

// Minutes of a square cut bar by the shop's rates: setting and first-off 180 s
// each; 2 cuts at 15 s, a visit of 20 s, burr of 8 x 20 mm at 1 m a minute; at
// work 80 % of the time (worked by hand).
func TestBarMinutes(t *testing.T) {
	w := lineOf(t, shop.BuiltIn(), "SQ 20,300,10,S275,").Plan.Work
	each := (2*15 + 20 + 0.16*60) / 0.8 / 60
	if !w.Known || w.Cuts != 2 || math.Abs(w.MinutesEach-each) > 1e-9 || math.Abs(w.SetUpMinutes-7.5) > 1e-9 || math.Abs(w.MinutesTotal-7.5-10*each) > 1e-9 {
		t.Errorf("%+v", w)
	}
}

// drawLine draws a line of a list of any kind, and the same with one datum left
// out.
func drawLine(t *rapid.T) (fields [5]string) {
	section := rapid.SampledFrom([]string{"FL 100x10", "FL 250x20", "L75x75x8", "L150x150x14", "RD 20", "RD 18", "RD 45", "SQ 30", "UPN 100", "UPN 140", "C 100", "C 100x50x6", "C4x5.4", "SHS 40x40x3", "RHS 60x40x4",
		"CHS 48.3x3.2", "PIPE 1-1/2 SCH 40", "PIPE 1-1/2 SCH 80", "DN40", "HSS2x2x1/8"}).Draw(t, "section")
	end := rapid.SampledFrom([]string{"square", "mitre 45", "mitre 45/45", "mitre 30", "saddle 90", "saddle 90/90", "saddle 60", "point", "point both", "dome"}).Draw(t, "end")
	return [5]string{section, rapid.SampledFrom([]string{"50", "300", "1200", "5990", "6500"}).Draw(t, "length"), "4", rapid.SampledFrom([]string{"S235", "S275", "S355", "304", "unobtainium"}).Draw(t, "material"), end}
}

// Leaving out a datum never gives a fit, more force never turns a pass into a
// fail, and no line that fits carries an error or a care point.
func TestBarProperties(t *testing.T) {
	shops := []*shop.Profile{shop.BuiltIn(), machinesAlone()}
	rapid.Check(t, func(rt *rapid.T) {
		prof := shops[rapid.IntRange(0, 1).Draw(rt, "shop")]
		f := drawLine(rt)
		b := lineOf(t, prof, strings.Join(f[:], ","))
		for i := range b.Findings {
			if x := &b.Findings[i]; b.Verdict == Fits && x.Severity != Note || x.Message == "" || x.Rule == "" {
				rt.Fatalf("%v fits with %+v", f, *x)
			}
		}
		if b.Verdict != Fits && b.Verdict != WithCare && b.Reason == "" {
			rt.Fatalf("%v: no reason", f)
		}
		if b.Plan == nil { // its mitres or saddles leave nothing of it
			if b.Verdict != CannotTell || f[1] != "50" && f[1] != "300" || !strings.ContainsAny(f[4], "0123456789") {
				rt.Fatalf("%v: not understood, yet %s", f, b.Verdict)
			}
			return
		}
		if b.Plan.Work.Known != (b.Verdict == Fits || b.Verdict == WithCare) {
			rt.Fatalf("%v: %s, work known %v", f, b.Verdict, b.Plan.Work.Known)
		}
		drop := rapid.SampledFrom([]int{0, 1, 3}).Draw(rt, "drop")
		g := f
		g[drop] = ""
		if x := lineOf(t, prof, strings.Join(g[:], ",")); x.Verdict == Fits || x.Verdict == WithCare {
			rt.Fatalf("%v without datum %d: %s", f, drop, x.Verdict)
		}
		stronger := *prof
		stronger.Machines = append([]shop.Machine(nil), prof.Machines...)
		for i := range stronger.Machines {
			m := &stronger.Machines[i]
			m.Bars = append([]shop.BarStation(nil), m.Bars...)
			for k := range m.Bars {
				m.Bars[k].ForceKN *= 1.5
				m.Bars[k].UsableKN *= 1.5
			}
		}
		if x := lineOf(t, &stronger, strings.Join(f[:], ",")); verdictRank(x.Verdict) > verdictRank(b.Verdict) {
			rt.Fatalf("%v: %s, with more force %s", f, b.Verdict, x.Verdict)
		}
	})
}

// A line that is not understood never passes, and keeps no other back.
func TestListLines(t *testing.T) {
	list, err := cutlist.Read(strings.NewReader("section,length,quantity,material,end\nIPE 200,900,1,S275,\nFL 100x10,900,1,S275,\n"), cutlist.Options{})
	if err != nil {
		t.Fatal(err)
	}
	rep, err := RunList(context.Background(), "l.csv", list, shop.BuiltIn(), plan.Job{})
	if err != nil || rep.Verdict != CannotTell || rep.Bars[0].Verdict != CannotTell || rep.Bars[1].Verdict != Fits || rep.Bars[0].Findings[0].Rule != "list-line" || len(rep.Bars[0].Questions) != 1 {
		t.Errorf("%+v %v", rep, err)
	}
	// Flags speak for lines that say nothing; a line's own word holds.
	m, _ := shop.BuiltIn().Material("S355")
	rep, _ = RunList(context.Background(), "l.csv", list, shop.BuiltIn(), plan.Job{Material: m, MaterialName: "S355", MaterialFrom: "flag"})
	if b := rep.Bars[1]; b.Job.MaterialName != "S275" || len(b.Findings) != 1 || b.Findings[0].Severity != Note || b.Verdict != Fits {
		t.Errorf("%+v", b)
	}
	ended, stop := context.WithCancel(context.Background())
	stop()
	if _, err := RunList(ended, "l.csv", list, shop.BuiltIn(), plan.Job{}); err == nil {
		t.Error("an ended context judges on")
	}
}
