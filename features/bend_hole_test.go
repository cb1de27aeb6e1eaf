package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestBendOverHole: a bend line whose middle lies in a hole is a bend of the
// part all the same.
func TestBendOverHole(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 300, 100)...).Circle(150, 50, 7)
	b.Layer("BEND").Line(150, 0, 150, 100)
	s := build(t, b)
	bends := 0
	for _, f := range s.Parts[0].Features {
		if f.Kind == features.Bend {
			bends++
		}
	}
	if bends != 1 {
		t.Errorf("%d bends, want 1: %s", bends, describe(s))
	}
}
