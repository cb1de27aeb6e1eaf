package features_test

import (
	"strings"
	"testing"

	"burrside/features"
)

// angleList draws angles of one section, 300 and 340 long, each in its two views,
// with a parts list of two rows; items are the balloons at the first and second.
func angleList(t *testing.T, rows [2]string, items [2]string) *features.Sheet {
	t.Helper()
	p := newPaper("0")
	p.frame(594, 420)
	p.titleAbove(594, []cell{{110, "TITLE", "BRACKET ANGLES"}, {70, "DRAWING NUMBER", "AF-431"}}, []cell{{90, "SCALE", "1:1"}, {90, "DATE", "MAY 4"}})
	p.table(404, 34, 8, []float64{20, 20, 80, 60}, []string{"ITEM", "QTY", "DESCRIPTION", "MATERIAL"}, []string{"1", "4", rows[0], "S275JR"}, []string{"2", "2", rows[1], "S275JR"})
	p.b.Layer("0")
	for i, long := range []float64{300, 340} {
		x, y := 40.0, 240-190*float64(i)
		p.b.Layer("0")
		legBox(p.b, x, y+70, long, 60)
		p.b.Line(x, y+76, x+long, y+76)
		legBox(p.b, x, y, long, 60)
		p.b.Line(x, y+54, x+long, y+54)
		bolts(p.b, 18, x+40, y+105, x+long-60, y+25)
		if items[i] != "" {
			p.balloon(x+long+30, y+150, x+long-20, y+128, items[i])
		}
	}
	return sheetOf(t, p)
}

// Rows of one section and different lengths speak of different angles; only the
// row that a balloon ties must agree.
func TestAngleRowsOfUnlikeLength(t *testing.T) {
	for _, c := range []struct {
		rows, items [2]string
		want        [2]string // what a doubt of the part says
	}{
		{[2]string{"L60x60x6 x 300", "L60x60x6 x 340"}, [2]string{}, [2]string{}},
		{[2]string{"L60x60x6 x 300", "L60x60x6 x 340"}, [2]string{"1", "2"}, [2]string{}},
		{[2]string{"L60x60x6 x 300", "L60x60x6 x 340"}, [2]string{"2", "1"}, [2]string{"length of 340 mm", "length of 300 mm"}},
		{[2]string{"L60x60x6 x 300", "L60x60x6 x 420"}, [2]string{}, [2]string{"", "length of 300 mm"}},
		{[2]string{"L60x60x6 x 300", "L70x70x7 x 340"}, [2]string{"1", "2"}, [2]string{"", "70 x 70 x 7"}},
	} {
		s := angleList(t, c.rows, c.items)
		if len(s.Parts) != 2 || s.Parts[0].Angle == nil || s.Parts[1].Angle == nil {
			t.Errorf("%v: %s", c, describe(s))
			continue
		}
		for i := range s.Parts {
			k := 0
			if s.Parts[i].Angle.LengthMM > 320 {
				k = 1
			}
			said := ""
			for _, d := range s.Parts[i].Doubts {
				if d.Code == "section-conflict" && d.Grave {
					said += d.Text + "; "
				}
			}
			if (said == "") != (c.want[k] == "") || !strings.Contains(said, c.want[k]) {
				t.Errorf("%v at angle %d: %q, want %q", c, k+1, said, c.want[k])
			}
		}
	}
}
