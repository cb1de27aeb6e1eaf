package change

import (
	"math"
	"slices"

	"burrside/features"
	"burrside/features/geom"
)

// shiftHole moves an inside feature.
func shiftHole(p *features.Part, f *features.Feature, by geom.Point) bool {
	if f.CrossesOutline || len(f.Ring) == 0 {
		return false
	}
	f.At = f.At.Add(by)
	if f.Leg != "" && p.Angle != nil {
		f.FromHeelMM, f.FromStartMM = p.Angle.FromHeelMM(f.At), p.Angle.FromStartMM(f.At)
	}
	setRing(p, f, f.Ring.Apply(geom.NewShift(by)))
	return true
}

// setRing gives an inside feature its contour, in the part's list as well.
func setRing(p *features.Part, f *features.Feature, r geom.Ring) {
	f.Ring = r
	if f.Hole >= 0 && f.Hole < len(p.Holes) {
		p.Holes[f.Hole] = r
	}
}

// spread widens a pattern along one direction about its middle, so that what was
// one pitch becomes the other. The middle and everything across stay.
func (w *work) spread(s *Step) bool {
	if !(s.PitchMM[0] > 0) || !(s.PitchMM[1] > s.PitchMM[0]) {
		return false
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, id := range s.Features {
		i := indexOf(w.part, id)
		if i < 0 {
			return false
		}
		at := w.part.Features[i].At.Dot(s.Along)
		low, high = min(low, at), max(high, at)
	}
	mid := (low + high) / 2
	factor := s.PitchMM[1]/s.PitchMM[0] - 1
	w.part.Patterns = slices.Clone(w.part.Patterns)
	for i := range w.part.Patterns {
		t := &w.part.Patterns[i]
		if !slices.ContainsFunc(t.Members, func(id string) bool { return slices.Contains(s.Features, id) }) {
			continue
		}
		t.PitchMM = slices.Clone(t.PitchMM)
		for k := range t.PitchMM {
			if math.Abs(t.PitchMM[k]-s.PitchMM[0]) < 0.1 {
				t.PitchMM[k] = s.PitchMM[1]
			}
		}
	}
	return w.each(s, func(f *features.Feature) bool {
		return shiftHole(w.part, f, s.Along.Mul((f.At.Dot(s.Along)-mid)*factor))
	})
}

// resize gives a round hole another diameter, or a slot another width and
// overall length, about the same centre. Seats and threads are left alone.
func resize(p *features.Part, f *features.Feature, width, length float64) bool {
	if f.CrossesOutline || len(f.Ring) == 0 || !(width > 0) {
		return false
	}
	switch f.Kind {
	case features.RoundHole:
		if length != 0 {
			return false
		}
		f.DiameterMM = width
		setRing(p, f, geom.Ring{geom.CircleEdge(f.At, width/2)})
	case features.Slot:
		if !(length > width) {
			return false
		}
		f.WidthMM, f.LengthMM = width, length
		setRing(p, f, slotRing(f.At, width, length, f.AngleRad))
	default:
		return false
	}
	f.AreaMM2, f.PerimeterMM = f.Ring.Area(), f.Ring.Length()
	return true
}

// slotRing is the contour of a slot, counter-clockwise.
func slotRing(c geom.Point, width, length, angle float64) geom.Ring {
	u := geom.Point{X: math.Cos(angle), Y: math.Sin(angle)}
	h, r := u.Mul((length-width)/2), u.Left().Mul(width/2)
	a, z := c.Sub(h), c.Add(h)
	return geom.Ring{geom.LineEdge(a.Sub(r), z.Sub(r)), geom.ArcEdge(z, z.Sub(r), z.Add(r), true),
		geom.LineEdge(z.Add(r), a.Add(r)), geom.ArcEdge(a, a.Add(r), a.Sub(r), true)}
}
