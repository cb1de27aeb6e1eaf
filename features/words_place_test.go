package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestAttributes: the values of a title block's attributes are read by their
// tags, in several languages; the same values without them say nothing.
func TestAttributes(t *testing.T) {
	for _, tags := range [][3]string{{"THK", "MATL", "QTY"}, {"THICKNESS", "MATERIAL", "QTY_REQD"}, {"DICKE", "WERKSTOFF", "STUECKZAHL"}, {"EPAISSEUR", "MATIERE", "QTE"}, {"SPESSORE", "MATERIALE", "PEZZI"}, {"ESPESOR", "MATERIAL_1", "CANTIDAD"}, {"TLOUSTKA", "MATERIÁL", "KS"}} {
		b := plate(dxftest.MM, 1)
		b.Block("TITLE", 0, 0, func(b *dxftest.Builder) { b.Point(0, 0) })
		b.Insert("TITLE", 300, -100, dxftest.Placing{Attributes: []dxftest.Attribute{{Tag: tags[0], Value: "10", X: 300, Y: -100, Height: 4}, {Tag: tags[1], Value: "S275JR", X: 300, Y: -110, Height: 4}, {Tag: tags[2], Value: "4", X: 300, Y: -120, Height: 4}}})
		p := onePart(t, build(t, b))
		if p.Thickness.MM != 10 || p.Material.Text != "S275JR" || p.Quantity != 4 || len(p.Doubts) != 0 {
			t.Errorf("%v: %+v %+v %d %+v", tags, p.Thickness, p.Material, p.Quantity, p.Doubts)
		}
	}
	b := plate(dxftest.MM, 1)
	b.Block("TITLE", 0, 0, func(b *dxftest.Builder) { b.Point(0, 0) })
	b.Insert("TITLE", 300, -100, dxftest.Placing{Attributes: []dxftest.Attribute{{Tag: "SHEET", Value: "10", X: 300, Y: -100, Height: 4}, {Tag: "THK", Value: "-", X: 300, Y: -110, Height: 4}, {Tag: "QTY", Value: "", X: 300, Y: -120, Height: 4}}})
	if p := onePart(t, build(t, b)); p.Thickness.From != "" || p.Quantity != 0 {
		t.Errorf("%+v %d", p.Thickness, p.Quantity)
	}
}

// TestLabels: a value beside or below its label in a title block.
func TestLabels(t *testing.T) {
	for name, put := range map[string]func(*dxftest.Builder){
		"beside": func(b *dxftest.Builder) {
			b.Text(300, 100, 4, "THICKNESS:").Text(340, 100, 4, "10").Text(300, 80, 4, "QTY").Text(340, 80, 4, "4")
		},
		"below": func(b *dxftest.Builder) {
			b.Text(300, 100, 2, "THICKNESS").Text(300, 94, 4, "10").Text(400, 100, 2, "QTY").Text(400, 94, 4, "4")
		},
		"German": func(b *dxftest.Builder) {
			b.Text(300, 100, 4, "Dicke").Text(340, 100, 4, "10 mm").Text(300, 80, 4, "Anzahl").Text(340, 80, 4, "4")
		},
		"columns": func(b *dxftest.Builder) {
			b.Text(300, 100, 4, "THK").Text(400, 100, 4, "QTY").Text(300, 92, 4, "10").Text(400, 92, 4, "4")
		},
	} {
		b := plate(dxftest.MM, 1)
		put(b)
		if p := onePart(t, build(t, b)); p.Thickness.MM != 10 || p.Quantity != 4 || len(p.Doubts) != 0 {
			t.Errorf("%s: %+v %d %+v", name, p.Thickness, p.Quantity, p.Doubts)
		}
	}
	// The column of a list is not told apart, and a number far off is no value.
	b := plate(dxftest.MM, 1)
	b.Text(300, 100, 4, "QTY").Text(300, 92, 4, "4").Text(300, 84, 4, "6").Text(300, -100, 4, "THICKNESS").Text(900, -100, 4, "10").Text(300, -300, 4, "SHEET").Text(330, -300, 4, "1")
	if p := onePart(t, build(t, b)); p.Thickness.From != "" || p.Quantity != 0 {
		t.Errorf("%+v %d", p.Thickness, p.Quantity)
	}
}

// TestGeneralNotes give way to particular ones, and only to those.
func TestGeneralNotes(t *testing.T) {
	two := func() *dxftest.Builder {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...).Polyline(true, dxftest.Rect(400, 0, 150, 60)...)
		return b
	}
	for _, note := range []string{"ALL PLATES 10 THK UNLESS NOTED", "PL 10 U.N.O.", "Bleche t=10, wenn nicht anders angegeben", "tôles ép. 10 sauf indication contraire"} {
		b := two()
		b.Text(10, 65, 4, note).Text(410, 20, 4, "t=12")
		s := build(t, b)
		if s.Parts[0].Thickness.MM != 10 || s.Parts[1].Thickness.MM != 12 || len(s.Parts[1].Doubts) != 0 || !hasNote(s, "general-note") {
			t.Errorf("%q: %+v %+v %+v", note, s.Parts[0].Thickness, s.Parts[1].Thickness, s.Parts[1].Doubts)
		}
	}
	b := two()
	b.Text(10, 65, 4, "PL 10 U.N.O.").Text(410, 120, 4, "PL 12 U.N.O.")
	if s := build(t, b); doubtOf(&s.Parts[0], "text-conflict") == nil {
		t.Errorf("two general notes: %+v", s.Parts[0])
	}
	b = two()
	b.Text(10, 65, 4, "4 OFF EACH")
	if s := build(t, b); s.Parts[0].Quantity != 4 || s.Parts[1].Quantity != 4 {
		t.Errorf("each: %d %d", s.Parts[0].Quantity, s.Parts[1].Quantity)
	}
}

// TestTwoThicknessesInOneText are a grave doubt, whatever else is stated.
func TestTwoThicknessesInOneText(t *testing.T) {
	for _, texts := range [][]string{{"t=10 or t=12"}, {"t=10", "PL 10 OR PL 12"}} {
		b := plate(dxftest.MM, 1)
		for i, text := range texts {
			b.Text(210, 120-20*float64(i), 4, text)
		}
		if d := doubtOf(onePart(t, build(t, b)), "text-conflict"); d == nil || !d.Grave || d.At.X != 210 {
			t.Errorf("%v: %+v", texts, d)
		}
	}
	// One steel under two names is one.
	b := plate(dxftest.MM, 1)
	b.Text(210, 120, 4, "S235JR").Text(210, 100, 4, "1.0038").Text(210, 80, 4, "S235")
	if p := onePart(t, build(t, b)); len(p.Doubts) != 0 || p.Material.Text != "S235JR" {
		t.Errorf("%+v %+v", p.Material, p.Doubts)
	}
}

// TestLeaders: a text belongs to what its leader points at, and a call-out that
// points at a hole of another size is a grave doubt.
func TestLeaders(t *testing.T) {
	arrow := func(b *dxftest.Builder, x1, y1, x2, y2 float64) *dxftest.Builder {
		return b.Raw("LEADER", "AcDbLeader", dxftest.Pair{Code: 3, Value: "STANDARD"}, dxftest.Pair{Code: 71, Value: 1}, dxftest.Pair{Code: 76, Value: 2},
			dxftest.Pair{Code: 10, Value: x1}, dxftest.Pair{Code: 20, Value: y1}, dxftest.Pair{Code: 30, Value: 0.0},
			dxftest.Pair{Code: 10, Value: x2}, dxftest.Pair{Code: 20, Value: y2}, dxftest.Pair{Code: 30, Value: 0.0})
	}
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...).Polyline(true, dxftest.Rect(400, 0, 150, 60)...)
	b.Text(120, 30, 4, "t=12").Text(10, 65, 4, "t=8")
	arrow(b, 410, 30, 135, 32)
	s := build(t, b)
	if s.Parts[0].Thickness.MM != 8 || s.Parts[1].Thickness.MM != 12 {
		t.Errorf("%+v %+v", s.Parts[0].Thickness, s.Parts[1].Thickness)
	}
	for _, c := range []struct {
		x   float64
		odd bool
	}{{40, false}, {160, true}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(40, 70, 11).Circle(160, 70, 9)
		b.Text(230, 100, 4, "%%c22")
		arrow(b, c.x+map[bool]float64{false: 11, true: 9}[c.odd], 70, 228, 102)
		d := doubtOf(onePart(t, build(t, b)), "reading-doubt")
		if odd := d != nil && d.Grave && strings.Contains(d.Text, "points at"); odd != c.odd {
			t.Errorf("pointing at x=%g: %+v", c.x, d)
		}
	}
}

// TestDimensionCallOuts: "4X <>" over a diameter is a call-out of four.
func TestDimensionCallOuts(t *testing.T) {
	for typed, want := range map[string]features.CallOut{"4X <>": {Count: 4, DiameterMM: 22}, "<> H7": {DiameterMM: 22, Process: "ream"}, "4x %%c22": {Count: 4, DiameterMM: 22}, "<>": {}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(40, 70, 11).Circle(160, 70, 11)
		b.Raw("DIMENSION", "AcDbDimension", dxftest.Pair{Code: 10, Value: 51.0}, dxftest.Pair{Code: 20, Value: 70.0}, dxftest.Pair{Code: 30, Value: 0.0}, dxftest.Pair{Code: 11, Value: 60.0}, dxftest.Pair{Code: 21, Value: 90.0}, dxftest.Pair{Code: 31, Value: 0.0},
			dxftest.Pair{Code: 70, Value: 35}, dxftest.Pair{Code: 1, Value: typed}, dxftest.Pair{Code: 42, Value: 22.0}, dxftest.Pair{Code: 3, Value: "STANDARD"}, dxftest.Pair{Code: 100, Value: "AcDbDiametricDimension"},
			dxftest.Pair{Code: 15, Value: 29.0}, dxftest.Pair{Code: 25, Value: 70.0}, dxftest.Pair{Code: 35, Value: 0.0}, dxftest.Pair{Code: 40, Value: 0.0})
		p := onePart(t, build(t, b))
		var got features.CallOut
		if len(p.CallOuts) > 0 {
			got = p.CallOuts[0]
		}
		if got.Count != want.Count || got.DiameterMM != want.DiameterMM || got.Process != want.Process || len(p.Doubts) != 0 {
			t.Errorf("%q: %+v %+v", typed, got, p.Doubts)
		}
	}
}

// TestBareNumbersInOtherUnits: call-outs in millimetres on drawings in other
// units go to the holes drawn; a bare thickness is in millimetres on a drawing in
// metres, and a grave doubt on one in centimetres.
func TestBareNumbersInOtherUnits(t *testing.T) {
	for _, c := range []struct {
		header dxftest.Unit
		unit   float64
		doubt  bool
	}{{dxftest.MM, 1, false}, {dxftest.Inch, 25.4, false}, {dxftest.CM, 10, true}, {dxftest.Metre, 1000, false}} {
		b := dxftest.New(c.header)
		k := 1 / c.unit
		b.Polyline(true, dxftest.Rect(0, 0, 200*k, 140*k)...).Circle(40*k, 70*k, 11*k).Circle(160*k, 70*k, 11*k)
		b.Text(0, -20*k, 4*k, "2x %%c22")
		if c.header != dxftest.Inch {
			b.Text(0, -40*k, 4*k, "t=10")
		}
		p := onePart(t, build(t, b))
		if len(p.CallOuts) != 1 || len(p.CallOuts[0].Features) != 2 || !close(p.CallOuts[0].DiameterMM, 22, 1e-9) {
			t.Errorf("unit %g: %+v", c.unit, p.CallOuts)
		}
		if d := doubtOf(p, "text-conflict"); (d != nil && d.Grave) != c.doubt || c.header != dxftest.Inch && !close(p.Thickness.MM, 10, 1e-9) {
			t.Errorf("unit %g: %+v %+v", c.unit, p.Thickness, p.Doubts)
		}
	}
}
