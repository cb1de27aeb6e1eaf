package features_test

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
)

// listSheet draws two plates of 180 x 90 and 150 x 80 mm, or what plates draws, and
// a parts list on a sheet.
func listSheet(t *testing.T, rows [][]string, more func(p *paper)) *features.Sheet {
	t.Helper()
	p := newPaper("0")
	p.frame(594, 420)
	p.titleAbove(594, []cell{{110, "TITLE", "STAIR PLATES"}, {70, "DRAWING NUMBER", "AF-411"}}, []cell{{90, "SCALE", "1:1"}, {90, "DATE", "MAY 4"}})
	p.table(404, 34, 8, []float64{20, 20, 80, 60}, rows...)
	p.b.Layer("0")
	legBox(p.b, 60, 250, 180, 90)
	bolts(p.b, 18, 90, 295, 210, 295)
	legBox(p.b, 340, 250, 150, 80)
	bolts(p.b, 22, 370, 290, 460, 290)
	if more != nil {
		more(p)
	}
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

// facts writes what is stated of each part.
func facts(s *features.Sheet) string {
	var out []string
	for i := range s.Parts {
		p := &s.Parts[i]
		line := fmt.Sprintf("%.0fx%.0f t=%.4g %s qty=%d", p.Box.Width(), p.Box.Height(), p.Thickness.MM, p.Material.Text, p.Quantity)
		for _, d := range p.Doubts {
			line += " " + d.Code
		}
		out = append(out, line)
	}
	return strings.Join(out, "; ")
}

func TestPartsList(t *testing.T) {
	head := []string{"ITEM", "QTY", "DESCRIPTION", "MATERIAL"}
	two := [][]string{head, {"1", "4", "PL 10 BASE PLATE", "S275JR"}, {"2", "2", "PL 20 CAP PLATE", "S355J2"}}
	const first, second = "180x90 t=10 S275JR qty=4", "150x80 t=20 S355J2 qty=2"
	const bare1, bare2 = "180x90 t=0  qty=0", "150x80 t=0  qty=0"
	both := func(p *paper) {
		p.balloon(50, 370, 80, 330, "1")
		p.balloon(330, 370, 360, 320, "2")
	}
	for _, c := range []struct {
		name string
		rows [][]string
		more func(p *paper)
		want string
		note bool
	}{
		{"balloons", two, both, first + "; " + second, false},
		{"crossed balloons", two, func(p *paper) {
			p.balloon(290, 370, 220, 330, "1") // nearer to the other plate
			p.balloon(280, 350, 360, 320, "2")
		}, first + "; " + second, false},
		{"exchanged", two, func(p *paper) {
			p.balloon(50, 370, 80, 330, "2")
			p.balloon(330, 370, 360, 320, "1")
		}, "180x90 t=20 S355J2 qty=2; 150x80 t=10 S275JR qty=4", false},
		{"heads at the bottom", [][]string{two[2], two[1], head}, both, first + "; " + second, false},
		{"no balloons", two, nil, bare1 + "; " + bare2, true},
		{"one balloon", two, func(p *paper) { p.balloon(50, 370, 80, 330, "1") }, first + "; " + bare2, true},
		{"two numbers at one plate", two, func(p *paper) {
			both(p)
			p.balloon(150, 370, 160, 330, "2")
		}, bare1 + "; " + second, true},
		{"a number that the list has not", two, func(p *paper) {
			p.balloon(50, 370, 80, 330, "3")
			p.balloon(330, 370, 360, 320, "2")
		}, bare1 + "; " + second, true},
		{"a number twice in the list", [][]string{head, two[1], {"1", "2", "PL 20 CAP PLATE", "S355J2"}}, both, bare1 + "; " + bare2, true},
		{"a plate and an angle without balloons", [][]string{head, {"1", "4", "PL 10", "S275JR"}, {"2", "2", "BOLT M20", "8.8"}}, nil, bare1 + "; " + bare2, true},
		{"one material for all", [][]string{head, {"1", "4", "PL 10", "S275JR"}, {"2", "2", "PL 20", "S275JR"}}, nil, "180x90 t=0 S275JR qty=0; 150x80 t=0 S275JR qty=0", true},
		{"circles without leaders", two, func(p *paper) {
			for i, x := range []float64{150, 415} {
				p.b.Layer("0").Circle(x, 350, 5)
				p.b.Text(x-1.2, 348.25, 3.5, fmt.Sprint(i+1))
			}
		}, first + "; " + second, false},
		{"titles under the plates", two, func(p *paper) {
			p.b.Text(120, 235, 5, "POS 1")
			p.b.Text(400, 235, 5, "POS 2")
		}, first + "; " + second, false},
		{"leaders with an elbow", two, func(p *paper) {
			p.b.Layer("0").Circle(260, 380, 5).Line(255, 380, 230, 380).Line(230, 380, 200, 330)
			p.b.Text(258.8, 378.25, 3.5, "1")
			p.b.Circle(300, 380, 5).Line(305, 380, 330, 380).Line(330, 380, 360, 320)
			p.b.Text(298.8, 378.25, 3.5, "2")
		}, first + "; " + second, false},
		{"German columns", [][]string{{"Pos.", "Stück", "Benennung", "Dicke"}, {"1", "4", "Fußplatte", "10"}, {"2", "2", "Kopfplatte", "20"}}, both, "180x90 t=10  qty=4; 150x80 t=20  qty=2", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := listSheet(t, c.rows, c.more)
			if got := facts(s); got != c.want {
				t.Errorf("\n got %s\nwant %s\n%v", got, c.want, s.Notes)
			}
			said := false
			for _, n := range s.Notes {
				said = said || n.Code == "text-not-tied"
			}
			if said != c.note {
				t.Errorf("said %v, want %v: %v", said, c.note, s.Notes)
			}
		})
	}
}

// TestEqualPlatesOfTwoItems: plates of one outline are one part, though their
// balloons name two thicknesses: neither may be taken.
func TestEqualPlatesOfTwoItems(t *testing.T) {
	s := listSheet(t, [][]string{{"ITEM", "QTY", "DESCRIPTION", "MATERIAL"}, {"1", "4", "PL 10", "S275JR"}, {"2", "2", "PL 20", "S275JR"}, {"3", "2", "PL 12", "S275JR"}}, func(p *paper) {
		legBox(p.b, 60, 130, 180, 90)
		bolts(p.b, 18, 90, 175, 210, 175)
		p.balloon(50, 370, 80, 330, "1")
		p.balloon(330, 370, 360, 320, "3")
		p.balloon(30, 200, 70, 180, "2")
	})
	if got, want := facts(s), "180x90 t=0 S275JR qty=0; 150x80 t=12 S275JR qty=2"; got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}

// TestNoteOfOneSheet: what stands on one of two sheets, in a table or not, does
// not reach the other.
func TestNoteOfOneSheet(t *testing.T) {
	p := newPaper("0")
	for i, title := range []string{"BASE PLATE", "CAP PLATE"} {
		p.x = 320 * float64(i)
		p.frame(297, 210)
		p.titleAbove(297, []cell{{110, "TITLE", title}, {70, "DRAWING NUMBER", fmt.Sprintf("AF-41%d", i)}}, []cell{{90, "SCALE", "1:1"}, {90, "DATE", "MAY 4"}})
	}
	p.b.Layer("0")
	legBox(p.b, 60, 90, 180, 90)
	bolts(p.b, 18, 90, 135, 210, 135)
	legBox(p.b, 390, 90, 150, 80)
	bolts(p.b, 22, 420, 130, 510, 130)
	p.b.Text(60, 60, 4, "ALL PLATES 12 THK")
	raw := p.b.As(dxftest.ASCII2007)
	d, err := dxfread.Decode(context.Background(), bytes.Clone(raw), dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := features.Build(context.Background(), d, features.Options{Name: "sheet"})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := facts(s), "180x90 t=12  qty=0; 150x80 t=0  qty=0"; got != want {
		t.Errorf("\n got %s\nwant %s\n%v", got, want, s.Notes)
	}
}
