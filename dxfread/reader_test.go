package dxfread_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread"
)

// TestTablesLast: the tables come after what uses them, and the layers before
// the linetypes; declared rows still stand first, and every index still names
// what the file names.
func TestTablesLast(t *testing.T) {
	d := read(t, pairs("0 SECTION|2 BLOCKS|0 BLOCK|8 0|2 A|70 0|10 0|20 0|0 LINE|8 LATE|6 DASH|10 0|20 0|11 1|21 1|0 ENDBLK|0 ENDSEC|"+
		"0 SECTION|2 ENTITIES|0 POINT|8 USED|6 DOT|10 0|20 0|0 INSERT|8 LATE|2 A|66 1|10 0|20 0|0 ATTRIB|8 LATE|6 DASH|10 0|20 0|40 1|1 x|2 T|0 SEQEND|"+
		"0 POINT|67 1|8 LATE|10 0|20 0|0 ENDSEC|"+
		"0 SECTION|2 TABLES|0 TABLE|2 LAYER|70 2|0 LAYER|2 FIRST|70 0|62 1|6 DOT|0 LAYER|2 late|70 0|62 2|6 DASH|0 ENDTAB|"+
		"0 TABLE|2 LTYPE|70 1|0 LTYPE|2 Dash|70 0|73 2|49 5|49 -3|0 ENDTAB|0 ENDSEC|0 EOF"))
	var names []string
	for _, l := range d.Layers {
		lt := "-"
		if l.Linetype >= 0 {
			lt = d.Types[l.Linetype].Name
		}
		names = append(names, l.Name+":"+lt)
	}
	if got := strings.Join(names, " "); got != "FIRST:DOT late:Dash USED:-" {
		t.Errorf("layers %s", got)
	}
	if len(d.Types) != 2 || d.Types[0].Name != "Dash" || !d.Types[0].Declared || d.Types[1].Name != "DOT" || d.Types[1].Declared {
		t.Errorf("linetypes %+v", d.Types)
	}
	check := func(c *dxfread.Common, layer, linetype string) {
		t.Helper()
		if got := d.Layers[c.Layer].Name; !strings.EqualFold(got, layer) {
			t.Errorf("layer %s, want %s", got, layer)
		}
		if linetype != "" && (c.Linetype < 0 || !strings.EqualFold(d.Types[c.Linetype].Name, linetype)) {
			t.Errorf("linetype %d, want %s", c.Linetype, linetype)
		}
	}
	check(d.Model[0].Base(), "USED", "DOT")
	check(d.Model[1].Base(), "LATE", "")
	check(d.Model[1].(*dxfread.Insert).Attributes[0].Base(), "LATE", "DASH")
	check(d.Blocks[0].Entities[0].Base(), "LATE", "DASH")
	check(d.Layouts[0].Entities[0].Base(), "LATE", "")
}

// TestLayouts: paper space by group 67, by the name of the tab, and by blocks.
func TestLayouts(t *testing.T) {
	records := "0 SECTION|2 TABLES|0 TABLE|2 BLOCK_RECORD|0 BLOCK_RECORD|5 1E|2 *Paper_Space|0 BLOCK_RECORD|5 1D|2 *Paper_Space0|0 ENDTAB|0 ENDSEC|"
	objects := "0 SECTION|2 OBJECTS|0 LAYOUT|100 AcDbPlotSettings|1 x|330 9|100 AcDbLayout|1 Front|330 1E|0 LAYOUT|100 AcDbLayout|1 Back|330 1D|0 ENDSEC|"
	point := "0 POINT|67 1|8 0|10 1|20 1|"
	for _, c := range []struct{ name, data, want string }{
		{"R12", "0 SECTION|2 ENTITIES|" + point + "0 POINT|8 0|10 0|20 0|0 ENDSEC|0 EOF", "*Paper_Space:1"},
		{"named", records + "0 SECTION|2 ENTITIES|" + point + "0 ENDSEC|" + objects + "0 EOF", "Front:1"},
		{"tabs", records + "0 SECTION|2 ENTITIES|" + point + "0 POINT|67 1|410 Front|8 0|10 1|20 1|0 POINT|67 1|410 Back|8 0|10 1|20 1|0 ENDSEC|" + objects + "0 EOF", "Front:2 Back:1"},
		{"blocks", records + "0 SECTION|2 BLOCKS|0 BLOCK|8 0|2 *Paper_Space0|70 0|10 0|20 0|0 POINT|8 0|10 0|20 0|0 ENDBLK|0 BLOCK|8 0|2 *Paper_Space|70 0|10 0|20 0|0 POINT|8 0|10 0|20 0|0 ENDBLK|0 ENDSEC|" +
			"0 SECTION|2 ENTITIES|" + point + "0 ENDSEC|" + objects + "0 EOF", "Front:2 Back:1"},
	} {
		d := read(t, pairs(c.data))
		var got []string
		for _, l := range d.Layouts {
			got = append(got, l.Name+":"+string(rune('0'+len(l.Entities))))
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
		for _, b := range d.Blocks {
			if !b.Layout || len(b.Entities) != 0 {
				t.Errorf("%s: block %+v", c.name, b)
			}
		}
	}
	block := "0 SECTION|2 BLOCKS|0 BLOCK|8 0|2 *Model_Space|70 0|10 0|20 0|0 POINT|8 0|10 0|20 0|0 ENDBLK|0 ENDSEC|0 SECTION|2 ENTITIES|"
	if d := read(t, pairs(block+"0 ENDSEC|0 EOF")); len(d.Model) != 1 || noteCount(d, "model-in-block") != 1 {
		t.Errorf("model space in a block: %d entities, %+v", len(d.Model), d.Notes)
	}
	if d := read(t, pairs(block+"0 POINT|8 0|10 0|20 0|0 POINT|8 0|10 0|20 0|0 ENDSEC|0 EOF")); len(d.Model) != 2 || noteCount(d, "model-in-block") != 1 {
		t.Errorf("model space twice: %d entities, %+v", len(d.Model), d.Notes)
	}
}

func TestEllipseRange(t *testing.T) {
	for _, c := range []struct {
		body             string
		start, sweep, nz float64
		note             string
	}{
		{"40 0.5|41 0|42 6.283185307179586", 0, 2 * math.Pi, 1, ""},
		{"40 0.5|41 0|42 6.2831853071", 0, 2 * math.Pi, 1, ""},
		{"40 0.5", 0, 2 * math.Pi, 1, ""},
		{"40 0.5|41 1|42 2", 1, 1, 1, ""},
		{"40 0.5|41 5|42 1", 5, 2*math.Pi - 4, 1, ""},
		{"40 0.5|41 1|42 1", 1, 2 * math.Pi, 1, "arc-whole"},
		{"40 0.5|41 0|42 12", 0, 2 * math.Pi, 1, "arc-whole"},
		{"40 -0.5|41 0|42 1", 0, 1, -1, "ellipse-ratio"},
	} {
		d := read(t, entities("0 ELLIPSE|8 0|10 1|20 2|11 4|21 0|"+c.body))
		e := d.Model[0].(*dxfread.Ellipse)
		if e.Start != c.start || math.Abs(e.End-e.Start-c.sweep) > 1e-12 || e.Extrusion.Z != c.nz || e.Ratio != 0.5 {
			t.Errorf("%s: %+v", c.body, e)
		}
		if c.note != "" && noteCount(d, c.note) != 1 || c.note == "" && len(d.Notes) > 0 {
			t.Errorf("%s: %+v", c.body, d.Notes)
		}
	}
}

func TestArcSweep(t *testing.T) {
	for _, c := range []struct{ from, to, sweep float64 }{{0, 90, 90}, {350, 80, 90}, {0, 360, 360}, {45, 45, 360}, {-90, 90, 180}, {270, -90, 360}, {10, 730, 360}, {90, 0, 270}} {
		if got := (&dxfread.Arc{Start: c.from, End: c.to}).SweepDeg(); math.Abs(got-c.sweep) > 1e-12 {
			t.Errorf("%g to %g: %g, want %g", c.from, c.to, got, c.sweep)
		}
	}
}

func TestSplineFaults(t *testing.T) {
	knots := func(ks ...string) string { return "40 " + strings.Join(ks, "|40 ") + "|" }
	control := "10 0|20 0|10 1|20 1|10 2|20 0|"
	fit := "11 0|21 0|11 5|21 5|"
	good := knots("0", "0", "0", "1", "1", "1")
	for _, c := range []struct {
		name, body string
		read       bool
		note       string
	}{
		{"good", "71 2|" + good + control, true, ""},
		{"weights", "71 2|" + good + control + "41 1|41 0.5|41 1|", true, ""},
		{"fit only", "71 3|" + fit, true, ""},
		{"too few knots", "71 2|" + knots("0", "0", "1", "1") + control, false, "entity-skipped"},
		{"too few knots but fit", "71 2|" + knots("0", "0", "1", "1") + control + fit, true, "spline-fit-only"},
		{"decreasing", "71 2|" + knots("0", "0", "0", "1", "0.5", "1") + control, false, "entity-skipped"},
		{"no span", "71 2|" + knots("1", "1", "1", "1", "1", "1") + control, false, "entity-skipped"},
		{"degree 0", "71 0|" + good + control, false, "entity-skipped"},
		{"degree 30000", "71 30000|" + good + control, false, "entity-skipped"},
		{"too few points", "71 3|" + good + control, false, "entity-skipped"},
		{"weights missing", "71 2|" + good + control + "41 1|", false, "entity-skipped"},
		{"weight 0", "71 2|" + good + control + "41 1|41 0|41 1|", false, "entity-skipped"},
		{"one fit point", "71 3|11 0|21 0|", false, "entity-skipped"},
		{"y before x", "20 5|21 5|71 2|" + good + control, true, ""},
	} {
		d := read(t, entities("0 SPLINE|8 0|70 8|"+strings.TrimSuffix(c.body, "|")))
		if _, ok := d.Model[0].(*dxfread.Spline); ok != c.read {
			t.Errorf("%s: %+v", c.name, d.Model[0])
		}
		if c.note != "" && noteCount(d, c.note) != 1 || c.note == "" && len(d.Notes) > 0 {
			t.Errorf("%s: %+v", c.name, d.Notes)
		}
	}
}

func TestHeader(t *testing.T) {
	d := read(t, pairs("0 SECTION|2 HEADER|9 $ACADVER|1 AC1015|9 $INSUNITS|70 0|9 $MEASUREMENT|70 x|9 $LUNITS|40 2.0|9 $EXTMIN|10 nan|20 1|30 0|9 $EXTMAX|10 5|20 6|30 0|9 $DIMLFAC|40 25.4|9 $OTHER|10 1|0 ENDSEC|"+
		"0 SECTION|5 7|0 ENDSEC|0 SECTION|2 ENTITIES|0 ENDSEC|0 EOF"))
	h := d.Header
	if h.InsUnits == nil || *h.InsUnits != 0 || h.Measurement != nil || h.LUnits == nil || *h.LUnits != 2 || h.ExtMin != nil ||
		h.ExtMax == nil || *h.ExtMax != [3]float64{5, 6, 0} || h.LinearFactor == nil || *h.LinearFactor != 25.4 || h.DimScale != nil {
		t.Errorf("%+v", h)
	}
	if noteCount(d, "header-bad") != 2 || noteCount(d, "section-name") != 1 {
		t.Errorf("%+v", d.Notes)
	}
}

func TestMatrixFacts(t *testing.T) {
	if !dxfread.Identity().IsIdentity() || dxfread.OCS(dxfread.Vec{X: 1}).IsIdentity() {
		t.Error("identity")
	}
	if !dxfread.OCS(dxfread.Vec{Z: -1}).KeepsLevel(1e-12) || dxfread.OCS(dxfread.Vec{Y: 1}).KeepsLevel(1e-12) {
		t.Error("level planes")
	}
	m := dxfread.Matrix{M: [3][3]float64{{0, -3, 0}, {2, 0, 0}, {0, 0, 1}}, T: dxfread.Vec{X: 5}}
	if x, y := m.ScaleXY(); x != 2 || y != 3 || m.Det() != 6 || m.DetXY() != 6 {
		t.Errorf("scales %g %g, determinant %g", x, y, m.Det())
	}
	if v := m.Then(m).Apply(dxfread.Vec{X: 1, Y: 1}); v != m.Apply(m.Apply(dxfread.Vec{X: 1, Y: 1})) {
		t.Errorf("chained %v", v)
	}
}
