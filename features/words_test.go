package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestTexts: thickness, material, quantity and call-outs from the drawing's
// texts, tied to the part.
func TestTexts(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Text(210, 120, 4, "PL 10 mm S275").Text(210, 110, 4, "QTY 4").Text(210, 100, 4, "2x %%c22").Text(210, 90, 4, "%%c14 REAM")
	s := build(t, b)
	p := onePart(t, s)
	if p.Thickness.MM != 10 || p.Thickness.From != "text" || len(p.Thickness.Source) == 0 {
		t.Errorf("thickness %+v", p.Thickness)
	}
	if p.Material.Text != "S275" || p.Material.From != "text" {
		t.Errorf("material %+v", p.Material)
	}
	if p.Quantity != 4 {
		t.Errorf("quantity %d", p.Quantity)
	}
	if len(p.CallOuts) != 2 || len(p.CallOuts[0].Features) != 2 || p.CallOuts[0].Count != 2 || len(p.CallOuts[1].Features) != 1 {
		t.Fatalf("call-outs %+v", p.CallOuts)
	}
	for _, f := range kinds(p, features.RoundHole) {
		want := ""
		if close(f.DiameterMM, 14, 1e-6) {
			want = "ream"
		}
		if f.Process != want {
			t.Errorf("%s of %g has the process %q", f.ID, f.DiameterMM, f.Process)
		}
	}
	clean(t, s)
	if ignored(s, "text") != 4 {
		t.Errorf("%v", s.Ignored)
	}
}

// TestInchTexts: a fraction without a unit is in inches, a bare number in the
// drawing's unit.
func TestInchTexts(t *testing.T) {
	b := plate(dxftest.Inch, 1/25.4)
	b.Text(9, 5, 0.15, "PL 3/8").Text(9, 4, 0.15, "A36")
	p := onePart(t, build(t, b))
	if !close(p.Thickness.MM, 9.525, 1e-9) || p.Material.Text != "A36" {
		t.Errorf("%+v %+v", p.Thickness, p.Material)
	}
	b = plate(dxftest.Inch, 1/25.4)
	b.Text(9, 5, 0.15, "t=0.25")
	if p := onePart(t, build(t, b)); !close(p.Thickness.MM, 6.35, 1e-9) {
		t.Errorf("%+v", p.Thickness)
	}
}

// TestConflicts: two thicknesses for one part are a grave doubt.
func TestConflicts(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Text(210, 120, 4, "t=10").Text(210, 100, 4, "THK 12 mm")
	p := onePart(t, build(t, b))
	if d := doubtOf(p, "text-conflict"); d == nil || !d.Grave {
		t.Errorf("%+v", p.Doubts)
	}
	b = plate(dxftest.MM, 1)
	b.Text(210, 120, 4, "t=10").Text(210, 100, 4, "THK 10 mm")
	if p := onePart(t, build(t, b)); len(p.Doubts) != 0 || len(p.Thickness.Source) != 2 {
		t.Errorf("%+v", p.Doubts)
	}
}

// TestTextsOfSeveralParts: a text goes to the part that it clearly belongs to;
// one that stands alone goes to all.
func TestTextsOfSeveralParts(t *testing.T) {
	two := func() *dxftest.Builder {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...)
		b.Polyline(true, dxftest.Rect(400, 0, 150, 60)...)
		return b
	}
	b := two()
	b.Text(10, 65, 4, "t=8").Text(410, 65, 4, "t=12")
	s := build(t, b)
	if len(s.Parts) != 2 || s.Parts[0].Thickness.MM != 8 || s.Parts[1].Thickness.MM != 12 {
		t.Errorf("%s", describe(s))
	}
	b = two()
	b.Text(250, 300, 4, "ALL PLATES t=8")
	b.Text(250, 200, 4, "t=8")
	s = build(t, b)
	if s.Parts[0].Thickness.MM != 8 || s.Parts[1].Thickness.MM != 8 {
		t.Errorf("%+v %+v", s.Parts[0].Thickness, s.Parts[1].Thickness)
	}
	b = two()
	b.Text(250, 300, 4, "t=8").Text(250, 200, 4, "t=12")
	s = build(t, b)
	if s.Parts[0].Thickness.MM != 0 || s.Parts[1].Thickness.MM != 0 || !hasNote(s, "text-not-tied") {
		t.Errorf("%+v %+v\n%s", s.Parts[0].Thickness, s.Parts[1].Thickness, describe(s))
	}
}

// TestFileName: what no text states is taken from the file's name and told; it
// never stands against a text.
func TestFileName(t *testing.T) {
	for name, want := range map[string]float64{"g7_t10": 10, "base-10mm": 10, "t1000": 0, "tray": 0, "g7": 0, "part_6.5mm": 6.5} {
		s := build(t, plate(dxftest.MM, 1), features.Options{Name: name})
		p := onePart(t, s)
		if p.Thickness.MM != want || hasNote(s, "file-name") != (want > 0) || want > 0 && p.Thickness.From != "file name" {
			t.Errorf("%s: %+v %s", name, p.Thickness, describe(s))
		}
		if p.Name != name {
			t.Errorf("part %q", p.Name)
		}
	}
	s := build(t, plate(dxftest.MM, 1).Text(210, 120, 4, "t=12 S355").Text(210, 100, 4, "2 OFF"), features.Options{Name: "PL10_S275_4pcs"})
	if p := onePart(t, s); p.Thickness.MM != 12 || p.Thickness.From != "text" || p.Material.Text != "S355" || p.Quantity != 2 || len(p.Doubts) != 0 || !hasNote(s, "file-name") {
		t.Errorf("%+v %s", p, describe(s))
	}
	s = build(t, plate(dxftest.MM, 1), features.Options{Name: "PL10_S275_4pcs"})
	if p := onePart(t, s); p.Thickness.MM != 10 || p.Material.Text != "S275" || p.Material.From != "file name" || p.Quantity != 4 {
		t.Errorf("%+v %s", p, describe(s))
	}
	s = build(t, plate(dxftest.MM, 1).Text(210, 120, 4, "A36"), features.Options{Name: "panel-10ga"})
	if p := onePart(t, s); !close(p.Thickness.MM, 3.4163, 1e-4) || p.Thickness.From != "file name" {
		t.Errorf("%+v", p.Thickness)
	}
}

// TestGauge: a gauge is a thickness where the metal is known, and is told.
func TestGauge(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Text(10, 150, 4, "10 GA")
	s := build(t, b)
	if onePart(t, s).Thickness.From != "" || !hasNote(s, "maybe-thickness") {
		t.Errorf("%s", describe(s))
	}
	for _, c := range []struct {
		texts []string
		mm    float64
	}{{[]string{"10 GA", "A36"}, 3.4163}, {[]string{"16 GA GALV"}, 1.6134}, {[]string{"16 GA", "AISI 304"}, 1.5875}, {[]string{"11 GA CRS"}, 3.03784}, {[]string{"10 GA", "ALUMINUM"}, 0}} {
		b := plate(dxftest.MM, 1)
		for i, text := range c.texts {
			b.Text(210, 120-20*float64(i), 4, text)
		}
		s := build(t, b)
		if p := onePart(t, s); !close(p.Thickness.MM, c.mm, 1e-3) || len(p.Doubts) != 0 || !hasNote(s, "gauge") && c.mm > 0 {
			t.Errorf("%v: %+v", c.texts, p.Thickness)
		}
	}
}

// TestTapCallOut ties a bolt's name to the holes it fits.
func TestTapCallOut(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	b.Circle(50, 50, 5.1).Circle(100, 50, 11)
	b.Text(10, 150, 4, "M12 TAP")
	p := onePart(t, build(t, b))
	for _, f := range kinds(p, features.RoundHole) {
		small := close(f.DiameterMM, 10.2, 1e-6)
		if (f.Process == "tap") != small || (f.BoltDesignation == "M12") != small {
			t.Errorf("%s of %g: %q %q", f.ID, f.DiameterMM, f.Process, f.BoltDesignation)
		}
	}
}

// TestBoltCallOut: bolts without a hole size go to the one size that clears
// them (M20 in 22: EN 1090-2 table 11, from memory).
func TestBoltCallOut(t *testing.T) {
	bolts := func(b *dxftest.Builder) (n int) {
		p := onePart(t, build(t, b))
		for _, f := range kinds(p, features.RoundHole) {
			if f.BoltDesignation == "M20" {
				n++
			}
		}
		return n
	}
	b := plate(dxftest.MM, 1) // two of 22, one of 14
	b.Text(10, 150, 4, "2 HOLES FOR M20 BOLTS")
	if n := bolts(b); n != 2 {
		t.Errorf("%d holes for M20", n)
	}
	b.Circle(160, 40, 12) // 24 clears it too
	if n := bolts(b); n != 0 {
		t.Errorf("%d holes for M20 where two sizes clear it", n)
	}
}

// TestUnitsFromText: a call-out with a unit whose size is drawn settles the
// unit, and dimensions that name one do.
func TestUnitsFromText(t *testing.T) {
	b := dxftest.New(dxftest.NoUnit)
	b.Polyline(true, dxftest.Rect(0, 0, 20, 14)...)
	b.Circle(4, 4, 1.1).Circle(16, 4, 1.1)
	b.Text(1, 15, 0.5, "2 HOLES 22 mm DIA")
	s := build(t, b)
	if s.Units.Name != "cm" || s.Units.From != features.UnitsText {
		t.Errorf("%+v", s.Units)
	}
	// A fraction is in inches even on a drawing in millimetres.
	b = plate(dxftest.MM, 1)
	b.Circle(100, 70, 20.6375/2).Text(1, 150, 5, "1 HOLE 13/16 DIA REAM")
	p := onePart(t, build(t, b))
	n := 0
	for _, f := range kinds(p, features.RoundHole) {
		if f.Process == "ream" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d holes reamed: %+v", n, p.CallOuts)
	}
}

// TestTwoReadings: "2-13/16 DIA HOLES" is two holes of 13/16 or holes of 2 13/16,
// whichever is drawn.
func TestTwoReadings(t *testing.T) {
	for _, c := range []struct {
		d     float64
		count int
	}{{20.6375, 2}, {71.4375, 0}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 300, 140)...)
		b.Circle(70, 70, c.d/2).Circle(200, 70, c.d/2).Text(1, 150, 5, "2-13/16 DIA HOLES")
		p := onePart(t, build(t, b))
		if len(p.CallOuts) != 1 || p.CallOuts[0].Count != c.count || len(p.CallOuts[0].Features) != 2 || !close(p.CallOuts[0].DiameterMM, c.d, 1e-9) {
			t.Errorf("drawn %g: %+v", c.d, p.CallOuts)
		}
	}
}
