package dxfread_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"burrside/dxfread"
)

// tableFile is a drawing of model space alone with what stands between the marks
// of BLOCKS and ENTITIES; "|" parts the pairs "code value", "~" is an empty value.
func tableFile(blocks, entities string) []byte {
	var b strings.Builder
	for _, section := range [][2]string{{"BLOCKS", blocks}, {"ENTITIES", entities}} {
		fmt.Fprintf(&b, "0\nSECTION\n2\n%s\n", section[0])
		for pair := range strings.SplitSeq(section[1], "|") {
			if code, value, ok := strings.Cut(pair, " "); ok {
				fmt.Fprintf(&b, "%s\n%s\n", code, strings.ReplaceAll(value, "~", ""))
			}
		}
		b.WriteString("0\nENDSEC\n")
	}
	b.WriteString("0\nEOF\n")
	return []byte(b.String())
}

// Groups and their order are those of the DXF reference (ENTITIES, TABLE) and of
// files of the releases named; the values are made.
const (
	tableHead = "0 ACAD_TABLE|5 2A|100 AcDbEntity|8 NOTES|92 40|100 AcDbBlockReference|2 *T7|10 100|20 50|30 0|100 AcDbTable|280 0|342 87|343 570|11 1|21 0|31 0|90 22|91 2|92 2|93 0|94 0|95 0|96 0|"
	tableGrid = "141 8|141 10|142 30|142 40|"
	// Up to 2004: the text in 1, pieces before it in 2.
	oldCells = "171 1|172 0|173 0|174 0|175 2|176 1|177 0|178 0|145 0|140 3|1 \\pxqc;PARTS|171 1|172 0|173 1|1 ~|171 1|172 0|2 MATERIAL: |1 {\\fArial;S275JR}|171 1|1 10 THK"
	// From 2007: a raw value and the one shown; 140 among them is a number's value.
	newCells = "171 1|172 0|173 0|175 2|91 262144|178 0|145 0|140 3|92 0|301 CELL_VALUE|93 6|90 4|1 PARTS|94 0|300 ~|302 PARTS|304 ACVALUE_END|171 1|173 1|92 0|301 CELL_VALUE|93 7|90 0|94 0|300 ~|302 ~|304 ACVALUE_END|171 1|301 CELL_VALUE|90 4|2 MATERIAL: |1 S275JR|94 0|300 ~|303 MATERIAL: |302 S275JR|304 ACVALUE_END|171 1|301 CELL_VALUE|93 2|90 2|140 10.0|94 0|300 %lu2|302 10 THK|304 ACVALUE_END"
	picture  = "0 BLOCK|2 *T7|70 1|10 0|20 0|30 0|0 LINE|8 0|10 0|20 0|11 70|21 0|0 MTEXT|8 0|10 35|20 -4|40 3|71 5|1 PARTS|0 MTEXT|8 0|10 1|20 -9|40 4|71 1|1 MATERIAL:\\PS275JR|0 ENDBLK"
)

func TestTablesOfBothForms(t *testing.T) {
	for name, cells := range map[string]string{"2004": oldCells, "2007": newCells} {
		d, err := dxfread.Decode(context.Background(), tableFile("", tableHead+tableGrid+cells), dxfread.Limits{})
		if err != nil {
			t.Fatal(name, err)
		}
		checkDrawing(t, d)
		e, ok := d.Model[0].(*dxfread.Table)
		if !ok || e.Block != "*T7" || e.At != (dxfread.Vec{X: 100, Y: 50}) || e.Rows != 2 || e.Columns != 2 || len(d.Notes) != 0 || d.Layers[e.Layer].Name != "NOTES" {
			t.Fatalf("%s: %+v, notes %v", name, d.Model[0], d.Notes)
		}
		want := []dxfread.TableCell{{0, 0, 3, "PARTS"}, {1, 0, 0, "MATERIAL: S275JR"}, {1, 1, 0, "10 THK"}}
		if fmt.Sprint(e.Cells) != fmt.Sprint(want) {
			t.Errorf("%s: cells %v, want %v", name, e.Cells, want)
		}
		// Worked by hand: rows of 8 and 10 from y 50 down, columns of 30 and 40 from
		// x 100; texts of 3 where stated, else 0.4 of the row, half of that from the
		// left and in the middle of the row.
		wantAt := []dxfread.Vec{{X: 101.5, Y: 47.5}, {X: 102, Y: 39}, {X: 132, Y: 39}}
		var texts []*dxfread.Text
		for p := range d.Place(d.Model, dxfread.Limits{}).All(context.Background()) {
			if x, ok := p.Entity.(*dxfread.Text); ok {
				texts = append(texts, x)
			}
		}
		if len(texts) != 3 {
			t.Fatalf("%s: %d texts", name, len(texts))
		}
		for i, x := range texts {
			if x.Value != want[i].Value || x.At != wantAt[i] || x.Height != []float64{3, 4, 4}[i] {
				t.Errorf("%s: %q at %v height %g, want %q at %v", name, x.Value, x.At, x.Height, want[i].Value, wantAt[i])
			}
		}
	}
}

// TestTablePictureIsPlacedOnce: what the picture shows is not said again by the
// cells; what it does not show is.
func TestTablePictureIsPlacedOnce(t *testing.T) {
	d, err := dxfread.Decode(context.Background(), tableFile(picture, tableHead+tableGrid+newCells), dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	p := d.Place(d.Model, dxfread.Limits{})
	var got []string
	for e := range p.All(context.Background()) {
		s := e.Entity.Name()
		switch x := e.Entity.(type) {
		case *dxfread.Text:
			at := e.Map.Apply(x.At)
			s += fmt.Sprintf(" %q %g,%g", x.Value, at.X, at.Y)
		case *dxfread.Line:
			at := e.Map.Apply(x.To)
			s += fmt.Sprintf(" %g,%g", at.X, at.Y)
		}
		got = append(got, fmt.Sprint(s, " ", p.Path(e.Block)))
	}
	want := []string{"ACAD_TABLE []", "LINE 170,50 [*T7]", `MTEXT "PARTS" 135,46 [*T7]`, `MTEXT "MATERIAL:\nS275JR" 101,41 [*T7]`, `ACAD_TABLE "10 THK" 132,39 []`}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("placed\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestTableTurned: cells run along the direction, up where the table flows up.
func TestTableTurned(t *testing.T) {
	head := strings.ReplaceAll(strings.ReplaceAll(tableHead, "11 1|21 0", "11 0|21 1"), "96 0|", "96 0|70 1|")
	d, err := dxfread.Decode(context.Background(), tableFile("", head+tableGrid+newCells), dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	// Along +Y from (100, 50), "up" is then -X: the second row from 8 to 18, its
	// text of 4 at 15 from the base line of the table, at 2 and at 32 along it.
	want := []dxfread.Vec{{X: 94.5, Y: 51.5}, {X: 85, Y: 52}, {X: 85, Y: 82}}
	i := 0
	for p := range d.Place(d.Model, dxfread.Limits{}).All(context.Background()) {
		if x, ok := p.Entity.(*dxfread.Text); ok {
			if i < 3 && x.At != want[i] || x.AngleDeg != 90 {
				t.Errorf("%q at %v angle %g, want %v", x.Value, x.At, x.AngleDeg, want[i])
			}
			i++
		}
	}
	if i != 3 {
		t.Errorf("%d texts", i)
	}
}

// TestTableBroken: what the numbers of rows and columns promise is not believed,
// and a table that the file cuts short is an error with a place.
func TestTableBroken(t *testing.T) {
	for _, c := range []struct {
		name, entities string
		rows, columns  int
		noted          bool
	}{
		{"absurd counts", strings.ReplaceAll(tableHead, "91 2|92 2", "91 2000000000|92 2000000000") + tableGrid + newCells, 2, 2, true},
		{"negative counts", strings.ReplaceAll(tableHead, "91 2|92 2", "91 -4|92 -1") + tableGrid + newCells, 2, 2, true},
		{"no counts, no sizes", strings.ReplaceAll(tableHead, "91 2|92 2|", "") + newCells, 4, 1, false},
		{"a cell is missing", tableHead + tableGrid + newCells[:strings.LastIndex(newCells, "|171")], 2, 2, true},
		{"no cells", tableHead + tableGrid[:len(tableGrid)-1], 0, 1, true},
		{"a value without its end", tableHead + tableGrid + strings.ReplaceAll(newCells, "|304 ACVALUE_END", ""), 2, 2, false},
	} {
		d, err := dxfread.Decode(context.Background(), tableFile("", c.entities), dxfread.Limits{})
		if err != nil {
			t.Fatal(c.name, err)
		}
		checkDrawing(t, d)
		e := d.Model[0].(*dxfread.Table)
		if e.Rows != c.rows || e.Columns != c.columns || (len(d.Notes) == 1 && d.Notes[0].Code == "table-cells") != c.noted {
			t.Errorf("%s: %d x %d, notes %v", c.name, e.Rows, e.Columns, d.Notes)
		}
	}
	whole := tableFile("", tableHead+tableGrid+newCells)
	for cut := len(whole) - 60; cut > 200; cut -= 37 {
		d, err := dxfread.Decode(context.Background(), whole[:cut], dxfread.Limits{})
		var syntax *dxfread.SyntaxError
		if !errors.As(err, &syntax) {
			t.Fatalf("cut at %d: error %v", cut, err)
		}
		checkDrawing(t, d)
	}
	// A table that stands in its own picture ends.
	d, err := dxfread.Decode(context.Background(), tableFile("0 BLOCK|2 *T7|70 1|10 0|20 0|"+tableHead+tableGrid+newCells+"|0 ENDBLK", tableHead+tableGrid+newCells), dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	checkDrawing(t, d)
	// A number beyond all drawings leaves the table out, aloud.
	d, _ = dxfread.Decode(context.Background(), tableFile("", tableHead+strings.Replace(tableGrid, "141 8", "141 1e300", 1)+newCells), dxfread.Limits{})
	if o, ok := d.Model[0].(*dxfread.Other); !ok || o.Kind != "ACAD_TABLE" || len(d.Notes) != 1 {
		t.Errorf("absurd row: %+v %v", d.Model[0], d.Notes)
	}
}
