package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"burrside/check"
	"burrside/check/shop"
	"burrside/dxfread/dxftest"
)

// verdictOf writes a drawing and takes it through the whole command.
func verdictOf(t *testing.T, name string, b *dxftest.Builder) *check.Report {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+".dxf")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	q := question{shop: shop.BuiltIn()}
	rep, err := q.analyse(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

// drilled is a plate of 10 mm that the built-in shop makes: a bar of flat stock
// with two holes far from all edges.
func drilled(words ...string) *dxftest.Builder {
	b := dxftest.New(dxftest.MM).Layer("CUT")
	b.Polyline(true, dxftest.Rect(0, 0, 300, 100)...).Circle(60, 50, 9).Circle(240, 50, 9).Layer("TEXT")
	for i, w := range words {
		b.Text(320, 90-10*float64(i), 4, w)
	}
	return b
}

// TestWordsTurnTheVerdict: what a note, a title block, a frame of tolerances, a
// table or a name says of the part reaches the verdict.
func TestWordsTurnTheVerdict(t *testing.T) {
	plain := verdictOf(t, "plate", drilled("10 THK S275JR"))
	if plain.Verdict != check.Fits {
		t.Fatalf("the plain plate: %s %+v", plain.Verdict, plain.Findings)
	}
	title := func(b *dxftest.Builder, material string) *dxftest.Builder {
		for j := range 3 {
			b.Line(0, -100-12*float64(j), 120, -100-12*float64(j))
		}
		for i := range 4 {
			b.Line(40*float64(i), -100, 40*float64(i), -124)
		}
		for i, c := range []string{"TITLE", "MATERIAL", "SCALE", "PLATE", material, "1:5"} {
			b.Text(40*float64(i%3)+2, -108-12*float64(i/3), 3, c)
		}
		return b
	}
	table := func(b *dxftest.Builder, cells ...string) *dxftest.Builder {
		put := []dxftest.Pair{{Code: 2, Value: "*T1"}, {Code: 10, Value: 400.0}, {Code: 20, Value: 100.0}, {Code: 30, Value: 0.0}, {Code: 100, Value: "AcDbTable"}, {Code: 91, Value: 2}, {Code: 92, Value: len(cells) / 2}, {Code: 141, Value: 10.0}, {Code: 141, Value: 10.0}}
		for range len(cells) / 2 {
			put = append(put, dxftest.Pair{Code: 142, Value: 40.0})
		}
		for _, c := range cells {
			put = append(put, dxftest.Pair{Code: 171, Value: 1}, dxftest.Pair{Code: 301, Value: "CELL_VALUE"}, dxftest.Pair{Code: 302, Value: c}, dxftest.Pair{Code: 304, Value: "ACVALUE_END"})
		}
		return b.Raw("ACAD_TABLE", "AcDbBlockReference", put...)
	}
	frame := func(b *dxftest.Builder, code string) *dxftest.Builder {
		return b.Raw("TOLERANCE", "AcDbFcf", dxftest.Pair{Code: 10, Value: 320.0}, dxftest.Pair{Code: 20, Value: 20.0}, dxftest.Pair{Code: 30, Value: 0.0}, dxftest.Pair{Code: 1, Value: code})
	}
	layered := dxftest.New(dxftest.MM).Layer("XYZ 400").Polyline(true, dxftest.Rect(0, 0, 300, 100)...).Layer("TEXT").Text(320, 90, 4, "10 THK S275JR")
	for _, c := range []struct {
		name, file string
		b          *dxftest.Builder
		fits       bool   // else anything but fits
		rule       string // that must speak of the part, "" any
		metal      string // that the part is read as, "" any
	}{
		{"the same grade in the title block", "plate", title(drilled("10 THK S275JR"), "S275JR"), true, "", ""},
		{"a hard name in the title block", "plate", title(drilled("10 THK S275JR"), "XYZ 400"), false, "", ""},
		{"a hard name alone", "plate", title(drilled("10 THK"), "XYZ 400"), false, "", ""},
		{"a bare stainless grade", "plate", title(drilled("10 THK"), "304"), true, "", "304"}, // which the shop works
		{"an abbreviation", "plate", title(drilled("10 THK"), "CS"), false, "", ""},
		{"a hard name in the file's", "PL10_XYZ400", drilled("10 THK S275JR"), false, "", ""},
		{"a hard name of a layer", "plate", layered, false, "", ""},
		{"a table with the grade and the thickness", "plate", table(drilled(), "MATERIAL", "THICKNESS", "QTY", "S275JR", "10", "1"), true, "", ""},
		{"a table with another grade than the note", "plate", table(drilled("10 THK S275JR"), "MATERIAL", "THICKNESS", "QTY", "XYZ 400", "10", "1"), false, "", ""},
		{"a frame: position of the holes", "plate", frame(drilled("10 THK S275JR"), "{\\Fgdt;j}%%v{\\Fgdt;n}0.05%%vA"), false, "", ""},
		{"a frame: flatness", "plate", frame(drilled("10 THK S275JR"), "{\\Fgdt;c}%%v0.1"), false, "", ""},
		{"a note of flatness", "plate", drilled("10 THK S275JR", "FLATNESS 0.1"), false, "", ""},
		{"a weld", "plate", drilled("10 THK S275JR", "FILLET WELD 6 ALL ROUND"), true, "note-asks", ""}, // said, and no work at a punch
	} {
		rep := verdictOf(t, c.file, c.b)
		if (rep.Verdict == check.Fits) != c.fits {
			t.Errorf("%s: %s", c.name, rep.Verdict)
			for _, p := range rep.Parts {
				for _, f := range p.Findings {
					t.Logf("  %s %s: %s", f.Severity, f.Rule, f.Message)
				}
			}
		}
		said := c.rule == ""
		for _, p := range rep.Parts {
			said = said || slices.ContainsFunc(p.Findings, func(f check.Finding) bool { return f.Rule == c.rule })
			if c.metal != "" && p.Part.Material.Text != c.metal {
				t.Errorf("%s: read as %q", c.name, p.Part.Material.Text)
			}
		}
		if !said {
			t.Errorf("%s: %s says nothing", c.name, c.rule)
		}
	}
}
