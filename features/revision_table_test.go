package features_test

import (
	"context"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestRevisionTables: a plate 12 mm thick of S275JR, four of it, by its title
// block, and a table in which other values are told.
func TestRevisionTables(t *testing.T) {
	want := "180x90 t=12 S275JR qty=4"
	for name, c := range map[string]struct {
		rows    [][]string
		history bool
	}{
		"English":      {[][]string{{"REV", "DESCRIPTION", "DATE", "BY"}, {"B", "MATERIAL WAS S235", "12.03.24", "RH"}, {"A", "THICKNESS WAS 10", "01.02.24", "RH"}}, true},
		"from below":   {[][]string{{"B", "QTY 6", "12.03.24", "RH"}, {"A", "FIRST ISSUE", "01.02.24", "RH"}, {"REV", "DESCRIPTION", "DATE", "BY"}}, true},
		"German":       {[][]string{{"Index", "Änderung", "Datum", "Name"}, {"B", "Werkstoff: S235JR", "12.03.24", "RH"}, {"A", "Dicke 10", "01.02.24", "RH"}}, true},
		"French":       {[][]string{{"IND", "DESIGNATION", "DATE", "DESSINE"}, {"1", "EPAISSEUR 10", "12.03.24", "RH"}, {"0", "EMISSION", "01.02.24", "RH"}}, true},
		"Italian":      {[][]string{{"REV.", "MODIFICA", "DATA", "FIRMA"}, {"1", "SPESSORE 10", "12.03.24", "RH"}, {"0", "EMISSIONE", "01.02.24", "RH"}}, true},
		"Spanish":      {[][]string{{"REV", "DESCRIPCIÓN", "FECHA", "POR"}, {"B", "ESPESOR 10", "12.03.24", "RH"}, {"A", "EMISION", "01.02.24", "RH"}}, true},
		"Dutch":        {[][]string{{"REV", "WIJZIGING", "DATUM", "DOOR"}, {"B", "DIKTE 10", "12.03.24", "RH"}, {"A", "EERSTE UITGAVE", "01.02.24", "RH"}}, true},
		"Polish":       {[][]string{{"Rewizja", "Opis zmiany", "Data", "Podpis"}, {"B", "GRUBOŚĆ 10", "12.03.24", "RH"}, {"A", "WYDANIE", "01.02.24", "RH"}}, true},
		"a parts list": {[][]string{{"MARK", "DESCRIPTION", "QTY", "BY"}, {"B", "CAP PLATE", "4", "RH"}, {"A", "BASE PLATE", "4", "RH"}}, false},
		"notes":        {[][]string{{"NO", "NOTE", "ZONE", "REF"}, {"B", "DRILL", "C4", "7"}, {"A", "GRIND", "B2", "7"}}, false},
	} {
		p := newPaper("0")
		p.frame(420, 297)
		p.titleAbove(420, []cell{{110, "TITLE", "HINGE PLATE"}, {70, "DRAWING NUMBER", "AF-431"}}, []cell{{60, "MATERIAL", "S275JR"}, {60, "THICKNESS", "12"}, {60, "QTY", "4"}})
		p.table(260, 260, 7, []float64{20, 80, 25, 25}, c.rows...)
		p.b.Layer("0")
		legBox(p.b, 60, 120, 180, 90)
		bolts(p.b, 18, 90, 165, 210, 165)
		s := sheetOf(t, p)
		marked := map[string]bool{}
		for i := range s.Texts {
			if s.Texts[i].Revision {
				marked[s.Texts[i].Value] = true
			}
		}
		for _, row := range c.rows {
			for _, cell := range row {
				if marked[cell] != c.history {
					t.Errorf("%s: %q is marked as history: %v", name, cell, marked[cell])
				}
			}
		}
		if got := facts(s); got != want {
			t.Errorf("%s: %s", name, got)
		}
		var title []string
		for _, f := range s.Title {
			title = append(title, f.Field+"="+f.Text)
		}
		if got := strings.Join(title, ", "); c.history && got != "name=HINGE PLATE, number=AF-431, material=S275JR, thickness=12, quantity=4" {
			t.Errorf("%s: the title block says %s", name, got)
		}
	}
}

// sheetOf reads what a paper shows.
func sheetOf(t *testing.T, p *paper) *features.Sheet {
	t.Helper()
	d, err := dxfread.Decode(context.Background(), p.b.As(dxftest.ASCII2007), dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := features.Build(context.Background(), d, features.Options{Name: "sheet"})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestColumnsBetweenLines: a parts list whose heads stand at the left of their
// columns and whose values at the right, so that most stand nearer to the next
// head than to their own.
func TestColumnsBetweenLines(t *testing.T) {
	for name, off := range map[string][2]float64{"values at the right": {1.5, 0.8}, "heads at the right": {8, 0}, "both at the left": {2, 0.05}} {
		p := newPaper("0")
		p.frame(594, 420)
		p.titleAbove(594, []cell{{110, "TITLE", "STAIR PLATES"}, {70, "DRAWING NUMBER", "AF-432"}}, []cell{{90, "SCALE", "1:1"}, {90, "DATE", "MAY 4"}})
		widths := []float64{20, 25, 25, 60, 50}
		p.table(404, 34, 8, widths, make([]string, 5), make([]string, 5), make([]string, 5))
		for r, row := range [][]string{{"ITEM", "QTY", "THK", "DESCRIPTION", "MATERIAL"}, {"1", "2", "12", "BASE PLATE", "S355"}, {"2", "4", "8", "CAP PLATE", "S275"}} {
			x := 404.0
			for k, s := range row {
				at := off[0]
				if r > 0 {
					at = off[1] * (widths[k] - 2*float64(len(s)))
				}
				p.text(x+at, 52-8*float64(r), 3, s)
				x += widths[k]
			}
		}
		p.b.Layer("0")
		legBox(p.b, 60, 250, 180, 90)
		bolts(p.b, 18, 90, 295, 210, 295)
		legBox(p.b, 340, 250, 150, 80)
		bolts(p.b, 22, 370, 290, 460, 290)
		p.balloon(50, 360, 80, 330, "1")
		p.balloon(330, 350, 360, 320, "2")
		if got, want := facts(sheetOf(t, p)), "180x90 t=12 S355 qty=2; 150x80 t=8 S275 qty=4"; got != want {
			t.Errorf("%s: %s", name, got)
		}
	}
}
