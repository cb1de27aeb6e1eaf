package features_test

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/features"
)

// TestDirtMoved places each drawing as one block, turned, mirrored and far off:
// what is read of it stays the same.
func TestDirtMoved(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(dirtFolder, "*.dxf"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, path := range files {
		name := strings.TrimSuffix(filepath.Base(path), ".dxf")
		if strings.HasPrefix(name, "plane-") || strings.HasPrefix(name, "paper-") || strings.HasPrefix(name, "float32-") {
			continue // turned within the xy plane, or rounded, they are other drawings
		}
		t.Run(name, func(t *testing.T) {
			raw, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			for _, how := range []dxfread.Insert{
				{AngleDeg: 90, At: dxfread.Vec{X: 3000, Y: -500}},
				{Scale: dxfread.Vec{X: -1, Y: 1, Z: 1}},
				{AngleDeg: 37, At: dxfread.Vec{X: 123.4, Y: 77.7}},
			} {
				d, readErr := dxfread.Decode(context.Background(), raw, dxfread.Limits{})
				if d == nil {
					t.Fatal(readErr)
				}
				want := dirtFacts(dirtSheet(t, d, readErr))
				in := how
				if in.Scale == (dxfread.Vec{}) {
					in.Scale = dxfread.Vec{X: 1, Y: 1, Z: 1}
				}
				in.Block, in.Columns, in.Rows, in.Linetype, in.Colour, in.Extrusion = "ALL OF IT", 1, 1, -1, 256, dxfread.Vec{Z: 1}
				d.Blocks = append(d.Blocks, dxfread.Block{Name: in.Block, Entities: d.Model})
				d.Model = []dxfread.Entity{&in}
				if text := dirtDiffers(dirtFacts(dirtSheet(t, d, readErr)), want); text != "" {
					t.Errorf("turned by %g, scale %g: %s", in.AngleDeg, in.Scale.X, text)
				}
			}
		})
	}
}

// dirtFacts lists what does not depend on the place: the parts with their area,
// the features with their sizes, and the codes of what is said, each with its
// numbers behind.
func dirtFacts(s *features.Sheet) []dirtFact {
	var list []dirtFact
	add := func(what string, numbers ...float64) { list = append(list, dirtFact{what, numbers}) }
	for i := range s.Parts {
		p := &s.Parts[i]
		add(fmt.Sprintf("part x%d clean %v", p.Copies(), p.Clean), p.AreaMM2)
		for _, f := range p.Features {
			add(fmt.Sprintf("%s %s sides %d relief %q crosses %v", f.Kind, f.Shape, f.Sides, f.Relief, f.CrossesOutline), f.DiameterMM, f.WidthMM, f.LengthMM, f.DepthMM, f.RadiusMM)
		}
		for _, d := range p.Doubts {
			add(fmt.Sprintf("doubt %s %v", d.Code, d.Grave))
		}
	}
	for _, f := range s.Faults {
		add("fault " + f.Code)
	}
	slices.SortFunc(list, func(a, b dirtFact) int {
		if a.what != b.what {
			return strings.Compare(a.what, b.what)
		}
		for i := range a.numbers {
			if math.Abs(a.numbers[i]-b.numbers[i]) > dirtLimit(i, a.numbers[i]) {
				return cmp.Compare(a.numbers[i], b.numbers[i])
			}
		}
		return 0
	})
	return list
}

type dirtFact struct {
	what    string
	numbers []float64
}

// dirtLimit is how far a number may differ: lengths by the 0.02 mm within which
// lines are one, areas by as much along an edge of 200 mm.
func dirtLimit(i int, n float64) float64 {
	if i == 0 && n > 1000 {
		return 5
	}
	return 0.03
}

// dirtDiffers tells where two lists of facts part.
func dirtDiffers(got, want []dirtFact) string {
	for i := range max(len(got), len(want)) {
		if i >= len(got) || i >= len(want) || got[i].what != want[i].what {
			return fmt.Sprintf("got\n%v\nwant\n%v", got, want)
		}
		for k, n := range want[i].numbers {
			if math.Abs(got[i].numbers[k]-n) > dirtLimit(k, n) {
				return fmt.Sprintf("got %v, want %v", got[i], want[i])
			}
		}
	}
	return ""
}
