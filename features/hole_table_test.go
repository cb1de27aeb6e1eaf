package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
)

// tabledPlate draws a plate of 200 x 100 with holes of 14, 14 and 22 mm and a hole
// table beside it; tags stand beside the holes where they are given.
func tabledPlate(rows [][]string, tags ...string) *dxftest.Builder {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(30, 40, 200, 100)...)
	b.Circle(60, 60, 7).Circle(200, 60, 7).Circle(130, 100, 11)
	for i, xy := range [][2]float64{{69, 64}, {209, 64}, {143, 104}} {
		if i < len(tags) {
			b.Text(xy[0], xy[1], 4, tags[i])
		}
	}
	for i, row := range rows {
		for k, cell := range row {
			b.Text(300+25*float64(k), 200-8*float64(i), 4, cell)
		}
	}
	return b
}

func TestHoleTable(t *testing.T) {
	xy := []string{"HOLE", "X", "Y", "SIZE"}
	kinds := []string{"TAG", "QTY", "HOLE DIA"}
	tags := []string{"A1", "A2", "B1"}
	right := [][]string{xy, {"A1", "30", "20", "14"}, {"A2", "170", "20", "14"}, {"B1", "100", "60", "Ø22"}}
	row := func(n int, cells ...string) [][]string {
		out := append([][]string(nil), right...)
		out[n] = cells
		return out
	}
	for _, c := range []struct {
		name string
		rows [][]string
		tags []string
		says string // of the one grave doubt; "" no doubt at all
		x, y float64
	}{
		{"agrees by tags", right, tags, "", 0, 0},
		{"agrees by places", right, nil, "", 0, 0},
		{"from the other corner", [][]string{xy, {"A1", "170", "80", "14"}, {"A2", "30", "80", "14"}, {"B1", "100", "40", "22"}}, nil, "", 0, 0},
		{"from a hole", [][]string{xy, {"A1", "0", "0", "14"}, {"A2", "140", "0", "14"}, {"B1", "70", "40", "22"}}, nil, "", 0, 0},
		{"German", [][]string{{"Nr", "X", "Y", "Durchmesser"}, {"1", "30", "20", "14"}, {"2", "170", "20", "14"}, {"3", "100", "60", "22"}}, nil, "", 0, 0},
		{"kinds", [][]string{kinds, {"A", "2", "14"}, {"B", "1", "22"}}, []string{"A", "A", "B"}, "", 0, 0},
		{"kinds without tags", [][]string{kinds, {"A", "2", "14"}, {"B", "1", "22"}}, nil, "", 0, 0},
		{"size by tag", row(3, "B1", "100", "60", "20"), tags, "row B1", 130, 100},
		{"size by place", row(3, "B1", "100", "60", "20"), nil, "row B1", 130, 100},
		{"place", row(3, "B1", "100", "50", "22"), nil, "none is drawn", 130, 90},
		{"place by tag", row(3, "B1", "100", "50", "22"), tags, "none is drawn", 130, 90},
		{"tags exchanged", right, []string{"A2", "A1", "B1"}, "stands 140 mm", 0, 0},
		{"count", [][]string{kinds, {"A", "3", "14"}, {"B", "1", "22"}}, nil, "lists 3", 300, 192},
		{"size by count", [][]string{kinds, {"A", "2", "14"}, {"B", "1", "20"}}, nil, "no such hole", 300, 184},
		{"parts list", [][]string{{"ITEM", "QTY", "DESCRIPTION"}, {"1", "2", "14"}}, nil, "", 0, 0},
	} {
		s := build(t, tabledPlate(c.rows, c.tags...))
		p := onePart(t, s)
		if c.says == "" {
			if len(p.Doubts) != 0 {
				t.Errorf("%s: %+v", c.name, p.Doubts)
			}
			continue
		}
		d := doubtOf(p, "reading-doubt")
		if d == nil || !d.Grave || !strings.Contains(d.Text, c.says) {
			t.Errorf("%s: %+v", c.name, p.Doubts)
			continue
		}
		if c.x != 0 && (!close(d.At.X, c.x, 1e-6) || !close(d.At.Y, c.y, 1e-6)) {
			t.Errorf("%s: at %v, want %v, %v", c.name, d.At, c.x, c.y)
		}
	}
}
