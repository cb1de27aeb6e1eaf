package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// namedTable adds an ACAD_TABLE of two rows and two columns at 300, 100.
func namedTable(b *dxftest.Builder, cells ...string) {
	put := []dxftest.Pair{{Code: 2, Value: "*T7"}, {Code: 10, Value: 300.0}, {Code: 20, Value: 100.0}, {Code: 30, Value: 0.0}, {Code: 100, Value: "AcDbTable"},
		{Code: 11, Value: 1.0}, {Code: 21, Value: 0.0}, {Code: 91, Value: 2}, {Code: 92, Value: len(cells) / 2}, {Code: 141, Value: 10.0}, {Code: 141, Value: 10.0}}
	for range len(cells) / 2 {
		put = append(put, dxftest.Pair{Code: 142, Value: 40.0})
	}
	for _, c := range cells {
		put = append(put, dxftest.Pair{Code: 171, Value: 1}, dxftest.Pair{Code: 301, Value: "CELL_VALUE"}, dxftest.Pair{Code: 302, Value: c}, dxftest.Pair{Code: 304, Value: "ACVALUE_END"})
	}
	b.Raw("ACAD_TABLE", "AcDbBlockReference", put...)
}

// picture draws such a table as its block does, with a picture in its last cell.
func picture(b *dxftest.Builder, cells ...string) {
	b.Block("*T7", 0, 0, func(b *dxftest.Builder) {
		n := len(cells) / 2
		for j := range 3 {
			b.Line(0, -10*float64(j), 40*float64(n), -10*float64(j))
		}
		for i := range n + 1 {
			b.Line(40*float64(i), 0, 40*float64(i), -20)
		}
		for i, c := range cells {
			b.MText(40*float64(i%n)+2, -10*float64(i/n)-3, 4, c)
		}
		b.Circle(40*float64(n)-5, -15, 3)
	})
}

// TestNamedTableIsWords: a table that the file names as one is no metal, whether
// its picture is there or not, and its words are read once.
func TestNamedTableIsWords(t *testing.T) {
	cells := []string{"MATERIAL", "THICKNESS", "QTY", "S275JR", "10", "4"}
	for name, make := range map[string]func(*dxftest.Builder){
		"cells alone":          func(b *dxftest.Builder) { namedTable(b, cells...) },
		"picture and cells":    func(b *dxftest.Builder) { picture(b, cells...); namedTable(b, cells...) },
		"picture as an insert": func(b *dxftest.Builder) { picture(b, cells...); b.Insert("*T7", 300, 100) },
		"picture without texts": func(b *dxftest.Builder) {
			picture(b)
			namedTable(b, cells...)
		},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(50, 50, 9)
		make(b)
		s := build(t, b)
		if len(s.Parts) != 1 || len(s.Faults) != 0 {
			t.Errorf("%s: %s", name, describe(s))
			continue
		}
		p := &s.Parts[0]
		if p.Thickness.MM != 10 || p.Material.Text != "S275JR" || p.Quantity != 4 || len(p.Doubts) != 0 || len(p.Features) != 5 || p.Features[0].DiameterMM != 18 {
			t.Errorf("%s: thickness %+v material %+v quantity %d %s", name, p.Thickness, p.Material, p.Quantity, describe(s))
		}
		n := 0
		for _, x := range s.Texts {
			if x.Value == "S275JR" {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%s: S275JR stands %d times", name, n)
		}
	}
}

// TestNamedTableContradicts: a picture that is older than its cells, and a table
// against a note, are doubted.
func TestNamedTableContradicts(t *testing.T) {
	for name, make := range map[string]func(*dxftest.Builder){
		"old picture": func(b *dxftest.Builder) {
			picture(b, "MATERIAL: S275JR", "10 THK")
			namedTable(b, "MATERIAL: S275JR", "12 THK")
		},
		"note": func(b *dxftest.Builder) {
			namedTable(b, "MATERIAL: S275JR", "12 THK")
			b.Text(0, -20, 4, "10 THK")
		},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
		make(b)
		s := build(t, b)
		grave := len(s.Parts) == 1 && doubtOf(&s.Parts[0], "text-conflict") != nil && doubtOf(&s.Parts[0], "text-conflict").Grave
		if !grave && (len(s.Parts) != 1 || s.Parts[0].Thickness.From != "") {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}

// TestNamedHoleTable: the rows of a hole table speak of holes, and are no parts.
func TestNamedHoleTable(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(50, 50, 9).Circle(150, 50, 9)
	picture(b, "HOLE", "SIZE", "QTY", "A", "Ø18 THRU", "2")
	namedTable(b, "HOLE", "SIZE", "QTY", "A", "Ø18 THRU", "2")
	s := build(t, b)
	p := onePart(t, s)
	if len(p.Doubts) != 0 || len(p.CallOuts) != 1 || len(p.CallOuts[0].Features) != 2 {
		t.Errorf("%s: %+v", describe(s), p.CallOuts)
	}
}
