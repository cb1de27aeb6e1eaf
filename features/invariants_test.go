package features_test

import (
	"math"
	"testing"

	"burrside/features"
	"burrside/features/geom"
)

// checkInvariants holds what must be true of every sheet: each outline edge in
// exactly one feature, each hole owned by exactly one, areas that add up, and
// sources that exist.
func checkInvariants(t testing.TB, name string, s *features.Sheet) {
	t.Helper()
	for _, p := range s.Parts {
		owned := make([]int, len(p.Outline))
		holes := make([]int, len(p.Holes))
		ids := map[string]bool{}
		for _, f := range p.Features {
			if ids[f.ID] || f.ID == "" {
				t.Errorf("%s %s: feature name %q is used twice or empty", name, p.Name, f.ID)
			}
			ids[f.ID] = true
			for _, e := range f.Edges {
				owned[e]++
			}
			if f.IsInside() && f.Hole >= 0 {
				holes[f.Hole]++
			}
			if far := p.Box.Min.Dist(p.Box.Max) * (1 + 1e-6); f.Kind == features.Notch && !(f.DepthMM > 0 && f.DepthMM <= far && f.WidthMM > 0 && f.WidthMM <= far) {
				t.Errorf("%s %s: the notch %s on a part of %.3f mm across", name, p.Name, featureLine(&f), far)
			}
			if len(f.Source) == 0 {
				t.Errorf("%s %s: feature %s has no source", name, p.Name, f.ID)
			}
			for _, src := range f.Source {
				if src.Entity < 0 || int(src.Entity) >= len(s.Entities) {
					t.Fatalf("%s %s: feature %s points at entity %d of %d", name, p.Name, f.ID, src.Entity, len(s.Entities))
				}
			}
		}
		for i, n := range owned {
			if n != 1 {
				t.Errorf("%s %s: outline edge %d of %d belongs to %d features", name, p.Name, i, len(owned), n)
				break
			}
		}
		for i, n := range holes {
			if n != 1 {
				t.Errorf("%s %s: hole %d belongs to %d features", name, p.Name, i, n)
			}
		}
		area := p.Outline.Area()
		for _, h := range p.Holes {
			if h.Area() <= 0 {
				t.Errorf("%s %s: a hole has the area %g", name, p.Name, h.Area())
			}
			area -= h.Area()
		}
		if math.Abs(area-p.AreaMM2) > 1e-9*p.Outline.Area() {
			t.Errorf("%s %s: area %g, outline less holes %g", name, p.Name, p.AreaMM2, area)
		}
		if len(p.DrawnAt) == 0 || p.DrawnAt[0].AngleRad != 0 || p.DrawnAt[0].Mirrored {
			t.Errorf("%s %s: placements %v", name, p.Name, p.DrawnAt)
		}
		if len(p.OutlineSource) != len(p.Outline) {
			t.Errorf("%s %s: %d sources for %d edges", name, p.Name, len(p.OutlineSource), len(p.Outline))
		}
	}
	for i := range s.Parts {
		for _, r := range append([]geom.Ring{s.Parts[i].Outline}, s.Parts[i].Holes...) {
			for k, e := range r {
				if e.To.Dist(r[(k+1)%len(r)].From) > 1e-6 {
					t.Errorf("%s: a ring is open at %v", name, e.To)
				}
			}
		}
	}
}
