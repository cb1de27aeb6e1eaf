package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// sheetPlate is a plate with a title block of two rows and four columns under it,
// small labels above values or labels beside values (common practice, no source).
func sheetPlate(over bool, cells ...string) *dxftest.Builder {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 100, 200, 200)...).Circle(50, 150, 9)
	b.Text(210, 150, 4, "10 THK")
	for j := range 3 {
		b.Line(0, -12*float64(j), 160, -12*float64(j))
	}
	for i := range 5 {
		b.Line(40*float64(i), 0, 40*float64(i), -24)
	}
	for i, c := range cells {
		x, y := 40*float64(i%4), -12*float64(i/4)
		if over {
			label, value, _ := strings.Cut(c, "|")
			b.Text(x+1, y-3, 2, label)
			if value != "" {
				b.Text(x+2, y-9, 3.5, value)
			}
			continue
		}
		if c != "" {
			b.Text(x+2, y-8, 3, c)
		}
	}
	return b
}

func TestBareMaterialOfTitleBlock(t *testing.T) {
	over := func(mat string) *dxftest.Builder {
		return sheetPlate(true, "TITLE|BASE PLATE", "MATERIAL|"+mat, "FINISH|PAINTED", "SCALE|1:5", "DRAWN|J SMITH", "DATE|12/03/24", "SHEET|1", "REV|B")
	}
	beside := func(label, mat string) *dxftest.Builder {
		return sheetPlate(false, "TITLE", "COVER", label, mat, "DRAWN", "J SMITH", "SCALE", "1:5")
	}
	for name, c := range map[string]struct {
		b    *dxftest.Builder
		want string
	}{
		"304 under":       {over("304"), "304"},
		"CS under":        {over("CS"), "CS"},
		"name under":      {over("QUORLIN"), "QUORLIN"},
		"hard under":      {over("XYZ 400"), "XYZ 400"},
		"grade under":     {over("S275JR"), "S275JR"},
		"empty":           {over(""), ""},
		"dash":            {over("-"), ""},
		"see notes":       {over("SEE NOTES"), ""},
		"1.4301 beside":   {beside("WERKSTOFF", "1.4301"), "1.4301"},
		"CS beside":       {beside("MAT", "CS"), "CS"},
		"304 beside":      {beside("MATERIAL:", "304"), "304"},
		"empty beside":    {beside("MATERIAL", ""), ""},
		"thick is none":   {beside("MATERIAL", "120"), ""},
		"one text of two": {dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 100, 200, 200)...).MText(0, 50, 4, `MATERIAL\P304`), "304"},
	} {
		s := build(t, c.b)
		p := onePart(t, s)
		if p.Material.Text != c.want || len(p.Doubts) != 0 {
			t.Errorf("%s: material %q, want %q; doubts %v", name, p.Material.Text, c.want, p.Doubts)
		}
	}
}

// TestHardNameContradicts: what may be a maker's name of hard plate never stands
// beside a mild grade without a doubt.
func TestHardNameContradicts(t *testing.T) {
	mild := func(layer string) *dxftest.Builder {
		b := dxftest.New(dxftest.MM).Layer(layer)
		return b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Layer("TEXT").Text(210, 50, 4, "10 THK S275JR")
	}
	title := sheetPlate(true, "TITLE|BASE PLATE", "MATERIAL|XYZ 400", "SCALE|1:5", "REV|B").Text(210, 170, 4, "MATERIAL: S275JR")
	for name, c := range map[string]struct {
		b    *dxftest.Builder
		opt  features.Options
		want bool
	}{
		"title block":       {title, features.Options{}, true},
		"file":              {mild("CUT"), features.Options{Name: "PL10_XYZ400"}, true},
		"file, known":       {mild("CUT"), features.Options{Name: "ar400_t10"}, true},
		"layer":             {mild("XYZ 400"), features.Options{}, true},
		"layer, known":      {mild("AR400"), features.Options{}, true},
		"same in the file":  {mild("CUT"), features.Options{Name: "PL10_S275"}, false},
		"a size in a name":  {mild("CUT"), features.Options{Name: "housing_400_t10"}, false},
		"a part in a name":  {mild("CUT"), features.Options{Name: "bracket_400_t10"}, false},
		"a layer's number":  {mild("LASER 400"), features.Options{}, false},
		"a layer of sheets": {mild("PLATES_500"), features.Options{}, false},
	} {
		p := onePart(t, build(t, c.b, c.opt))
		d := doubtOf(p, "text-conflict")
		if (d != nil && d.Grave) != c.want {
			t.Errorf("%s: %v", name, p.Doubts)
		}
	}
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	if p := onePart(t, build(t, b, features.Options{Name: "PL10_XYZ400"})); p.Material.Text != "XYZ400" || len(p.Doubts) != 0 {
		t.Errorf("nothing but the file's name: %+v %v", p.Material, p.Doubts)
	}
}
