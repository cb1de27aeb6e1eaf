package measure

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// Outside diameter, wall and weight of every pipe of testdata/facts/pipes.csv
// (ASME B36.10M by public schedule charts), in millimetres and inches.
func TestPipesOfTheTable(t *testing.T) {
	f, err := os.Open("../../testdata/facts/pipes.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		num := func(i int) float64 {
			v, err := strconv.ParseFloat(r[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		p, ok := PipeByNPS(r[0])
		if !ok {
			t.Errorf("no pipe %q", r[0])
			continue
		}
		wall, ok := p.WallMM(r[1])
		if !ok || math.Abs(p.ODMM-num(4)) > 1e-9 || math.Abs(wall-num(5)) > 1e-9 {
			t.Errorf("%s schedule %s: %v x %v, want %s x %s", r[0], r[1], p.ODMM, wall, r[4], r[5])
		}
		// The inch columns are the same sizes before rounding.
		if math.Abs(p.ODMM-num(2)*25.4) > 0.05 || math.Abs(wall-num(3)*25.4) > 0.0051 {
			t.Errorf("%s schedule %s is %v x %v in inches", r[0], r[1], p.ODMM/25.4, wall/25.4)
		}
		// pi (D - t) t of steel of 7850 kg/m3, in lb/ft.
		if lb := math.Pi * (p.ODMM - wall) * wall * 7850e-6 / 0.45359237 * 0.3048; math.Abs(lb-num(6)) > 0.01*num(6)+0.005 {
			t.Errorf("%s schedule %s weighs %v lb/ft, want %s", r[0], r[1], lb, r[6])
		}
	}
	if len(rows) != 13 {
		t.Errorf("%d rows", len(rows))
	}
}

// Heavier schedules, spellings, and names that are none. DN to NPS: ISO 6708
// with ASME B36.10M, from memory.
func TestPipeNames(t *testing.T) {
	for _, r := range pipeTable() {
		if !(r.wall40 < r.wall80 && r.wall80 < r.ODMM/2) {
			t.Errorf("%+v", r)
		}
		if p, ok := PipeByDN(r.DN); !ok || p != r.Pipe {
			t.Errorf("DN %d", r.DN)
		}
		if p, ok := PipeByOD(r.ODMM + 0.4); !ok || p != r.Pipe {
			t.Errorf("OD %v", r.ODMM)
		}
	}
	for _, s := range []string{"1-1/2", "1 1/2", "1.5"} {
		if p, ok := PipeByNPS(s); !ok || p.DN != 40 {
			t.Errorf("%q: %+v %v", s, p, ok)
		}
	}
	for _, s := range []string{"", "1-1/3", "7", "x", "-1", "1/2 in"} {
		if p, ok := PipeByNPS(s); ok {
			t.Errorf("%q is %+v", s, p)
		}
	}
	p, _ := PipeByNPS("2")
	for _, s := range []string{"", "10", "160", "4 0"} {
		if w, ok := p.WallMM(s); ok {
			t.Errorf("schedule %q: %v", s, w)
		}
	}
	if w, ok := p.WallMM("std"); !ok || w != 3.91 {
		t.Errorf("std: %v", w)
	}
}
