package shop

import (
	"math"
	"testing"
)

func TestSnapThickness(t *testing.T) {
	metric := load(t, minimal)
	inch := load(t, `name = "t"
units = "in"
[[machine]]
name = "m"
[machine.punch]
rated = "60 US ton"
max_thickness = "1 in"
throat = "12 in"
holders = [{ max = "2 in" }]
[stock]
gauges = [10, 12]
`)
	for _, c := range []struct {
		p        *Profile
		mm, want float64
	}{
		// 0.15 mm or 1.5 %, just below, at and above, on both sides.
		{metric, 10, 10}, {metric, 9.851, 10}, {metric, 9.85, 10}, {metric, 9.849, 9.849}, {metric, 10.15, 10}, {metric, 10.151, 10}, {metric, 10.1522, 10}, {metric, 10.153, 10.153},
		// 1.5 % of t above 10 mm: 20 mm is reached from 19.7044 (t x 0.015 = 0.2956).
		{metric, 19.71, 20}, {metric, 19.70, 19.70}, {metric, 20.304, 20}, {metric, 20.31, 20.31},
		{metric, 3.14, 3}, {metric, 3.16, 3.16},
		// a 10 mm plate is not 3/8 in, nor the other way round
		{metric, 9.525, 9.525}, {inch, 10, 10}, {inch, 9.5, 9.525}, {inch, 9.52, 9.525}, {inch, 6.35, 6.35}, {inch, 6.3, 6.35},
		// 10 gauge is 0.1345 in = 3.4163 mm: only where the shop lists it
		{inch, 3.4, 3.4163}, {metric, 3.4, 3.4}, {inch, 2.66, 2.65684}, {inch, 3.04, 3.175},
		{metric, 0, 0}, {metric, -1, -1}, {metric, 500, 500},
	} {
		got, changed := c.p.SnapThickness(c.mm)
		if math.Abs(got-c.want) > 1e-9 || changed != (got != c.mm) {
			t.Errorf("%s: SnapThickness(%v) = %v, %v; want %v", c.p.Units, c.mm, got, changed, c.want)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		if _, changed := metric.SnapThickness(v); changed {
			t.Errorf("%v is snapped", v)
		}
	}
	// Exactly a stock size is not changed.
	if got, changed := inch.SnapThickness(9.525); got != 9.525 || changed {
		t.Errorf("3/8 in becomes %v", got)
	}
}

// The usual series: 3 4 5 6 8 10 12 15 16 20 25 mm, and 1/8 to 1 in (common
// practice, no source); a list of the file takes its place.
func TestThicknessSeries(t *testing.T) {
	p := load(t, minimal)
	if len(p.Stock.ThicknessMM) != 11 || p.Stock.ThicknessMM[10] != 25 || p.Stock.Stated || p.Stock.ThicknessStated {
		t.Errorf("%+v", p.Stock)
	}
	in := seriesIn()
	if in[0] != 3.175 || in[len(in)-1] != 25.4 || len(in) != 10 {
		t.Errorf("%v", in)
	}
	p = load(t, with("end", "[stock]\nthicknesses = [\"6 mm\", \"3/8 in\"]"))
	if len(p.Stock.ThicknessMM) != 2 || p.Stock.ThicknessMM[1] != 9.525 || !p.Stock.ThicknessStated || !p.Stock.Stated {
		t.Errorf("%+v", p.Stock)
	}
	p = load(t, with("end", "[stock]\nthicknesses = []"))
	if len(p.Stock.ThicknessMM) != 0 {
		t.Errorf("an empty list is a shop without plate: %+v", p.Stock)
	}
}
