package features_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// randomNest lays marked plates, strips and discs in rows, drawn apart or with
// common lines, and tells how many there are.
func randomNest(p *pen, r *rand.Rand) int {
	n := 0
	y := 0.0
	for range 1 + r.IntN(4) {
		high := []float64{15, 40, 80, 150, 260}[r.IntN(5)]
		x, gap := 0.0, []float64{5, 10, 25}[r.IntN(3)]
		same := 30 + 300*r.Float64()
		for range 1 + r.IntN(4) {
			w := 30 + 300*r.Float64()
			if r.IntN(2) == 0 {
				w = same
			}
			n++
			text := []string{"P1", "PL 10", "A", "1007", "PL 8 mm", "2 x P3", "10", "St-4", "M1"}[r.IntN(9)]
			size := []float64{4, 6, 10, 15}[r.IntN(4)]
			if r.IntN(8) == 0 {
				d := high
				p.circle(x+d/2, y+d/2, d)
				if r.IntN(2) == 0 {
					p.text(x+0.4*d, y+0.45*d, size, text)
				}
				x += d + gap
				continue
			}
			p.rect(x, y, w, high)
			switch {
			case high >= 80 && w >= 60 && r.IntN(2) == 0:
				for _, c := range [][2]float64{{20, 20}, {w - 20, 20}, {20, high - 20}} {
					p.circle(x+c[0], y+c[1], 12)
					if r.IntN(3) == 0 {
						p.text(x+c[0]-2, y+c[1]-2, 4, "B")
					}
				}
			}
			if r.IntN(3) > 0 {
				p.text(x+0.3*w, y+0.3*high, size, text)
			}
			x += w + gap
		}
		y += high + gap
	}
	return n
}

// TestMarkedPlatesStay: plates that carry texts are never taken for tables,
// boxes or balloons without a word: all are there, or the sheet is doubted.
func TestMarkedPlatesStay(t *testing.T) {
	n := 200
	if testing.Short() {
		n = 40
	}
	for i := range n {
		r := rand.New(rand.NewPCG(3, uint64(i)))
		h := habits()[r.IntN(3)]
		want := 0
		s := build(t, drawSheet(sheetCase{draw: func(p *pen) { want = randomNest(p, r) }}, h))
		got, doubted := 0, false
		for k := range s.Parts {
			got += s.Parts[k].Copies()
			doubted = doubted || grave(&s.Parts[k])
		}
		if got < want && !doubted || got > want {
			t.Errorf("%s: %d parts of %d", fmt.Sprintf("nest %d, %s", i, h.name), got, want)
			for _, n := range s.Notes {
				t.Log(n.Code, n.Text)
			}
		}
	}
}
