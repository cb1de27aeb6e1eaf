package features_test

import (
	"fmt"
	"math"
	"sort"
	"strconv"

	"burrside/features"
	"burrside/features/geom"
)

// tally is what a drawing shows, as TRUTH.tsv counts it: copies one by one,
// numbers in drawing units. Round holes count however they are drawn; a slot
// is one with straight sides and round ends, every other opening is other.
type tally struct {
	parts, inner, round, slots int
	rounds, slotSizes          []string
	boxes                      [][2]float64 // largest first
	arcs                       int          // outlines with arcs
}

// tallyOf counts what a sheet shows.
func tallyOf(s *features.Sheet) (t tally) {
	mm := s.Units.MM
	rounds, slots := map[string]int{}, map[string]int{}
	for i := range s.Parts {
		p := &s.Parts[i]
		n := p.Copies()
		t.parts += n
		t.inner += n * len(p.Holes)
		if hasDrawnArcs(p) {
			t.arcs += n
		}
		for _, at := range p.DrawnAt {
			turn := geom.NewTurn(at.AngleRad)
			turn.Mirror = at.Mirrored
			box := p.Outline.Apply(turn).Bounds()
			t.boxes = append(t.boxes, [2]float64{box.Width() / mm, box.Height() / mm})
		}
		for _, f := range p.Features {
			switch f.Kind {
			case features.RoundHole, features.HoleWithSeat, features.TappedHole:
				t.round += n
				rounds[short(f.DiameterMM/mm)] += n
			case features.Slot:
				t.slots += n
				slots[short(f.WidthMM/mm)+"x"+short(f.LengthMM/mm)] += n
			}
		}
	}
	sort.SliceStable(t.boxes, func(i, j int) bool {
		return t.boxes[i][0]*t.boxes[i][1] > t.boxes[j][0]*t.boxes[j][1]
	})
	t.rounds, t.slotSizes = counted(rounds), counted(slots)
	return t
}

// hasDrawnArcs tells whether the outline has arcs that are arcs in the file;
// those made of chords or curves are none.
func hasDrawnArcs(p *features.Part) bool {
	fitted := map[int]bool{}
	for _, f := range p.Features {
		for _, e := range f.Edges {
			fitted[e] = f.Fitted
		}
	}
	for i, e := range p.Outline {
		if e.IsArc() && !fitted[i] {
			return true
		}
	}
	return false
}

func short(f float64) string { return strconv.FormatFloat(math.Round(f*1e6)/1e6, 'g', 8, 64) }

func counted(m map[string]int) []string {
	var out []string
	for k, n := range m {
		out = append(out, fmt.Sprintf("%sx%d", k, n))
	}
	sort.Strings(out)
	return out
}
