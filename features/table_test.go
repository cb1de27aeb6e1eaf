package features_test

import (
	"fmt"
	"testing"

	"burrside/dxfread/dxftest"
)

// TestTableIsNoNest: a grid of cells with a text in each is not a nest of
// plates; without texts it is, with a note.
func TestTableIsNoNest(t *testing.T) {
	grid := func(words bool) *dxftest.Builder {
		b := dxftest.New(dxftest.MM)
		for i := range 5 {
			b.Line(30*float64(i), 0, 30*float64(i), 24)
		}
		for j := range 4 {
			b.Line(0, 8*float64(j), 120, 8*float64(j))
		}
		for i := range 12 {
			if words {
				b.Text(30*float64(i%4)+3, 8*float64(i/4)+2, 4, fmt.Sprintf("CELL %d", i))
			}
		}
		return b
	}
	if s := build(t, grid(false)); len(s.Parts) != 1 || s.Parts[0].Copies() != 12 {
		t.Errorf("an empty grid: %s", describe(s))
	}
	s := build(t, grid(true))
	for i := range s.Parts {
		if d := doubtOf(&s.Parts[i], "line-unexplained"); d == nil || !d.Grave {
			t.Errorf("a table passes for plates: %s", describe(s))
		}
	}
}
