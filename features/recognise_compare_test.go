package features

import (
	"fmt"
	"math"
	"strings"

	"burrside/features/geom"
)

// baseTol is the tolerance of numbers read from parts jittered by 1e-4 mm.
const baseTol = 2e-3

// matches compares a feature with what is wanted; "" if they agree. m moved
// the part, tol is in mm.
func matchWant(f *Feature, w *want, m rigid, tol float64) string {
	tol += w.tol
	if f.Kind != w.Kind || f.Shape != w.Shape || f.Subkind != w.Subkind || f.Relief != w.Relief {
		return fmt.Sprintf("is %s/%s/%s/%s", f.Kind, f.Shape, f.Subkind, f.Relief)
	}
	if (f.In != "") != w.In || f.Undercut != w.Undercut || f.ShapeOfPart != w.ShapeOfPart || f.Sides != w.Sides {
		return fmt.Sprintf("in %q undercut %v shape of part %v sides %d", f.In, f.Undercut, f.ShapeOfPart, f.Sides)
	}
	if !w.noAt {
		if d := f.At.Dist(m.point(w.At)); d > 3*tol {
			return fmt.Sprintf("lies %.4f off", d)
		}
	}
	type num struct {
		name      string
		got, want float64
		scale     float64
	}
	// Angles move by what tol does over the feature's size.
	size := math.Max(1, math.Min(8, math.Min(nonZero(w.Width), math.Min(nonZero(w.Length), nonZero(w.Depth)))))
	nums := []num{
		{"width", f.WidthMM, w.Width, 1}, {"length", f.LengthMM, w.Length, 1}, {"cut", f.CutLengthMM, w.Cut, 1},
		{"depth", f.DepthMM, w.Depth, 1}, {"radius", f.RadiusMM, w.Radius, 1}, {"bottom", f.BottomMM, w.Bottom, 1},
		{"corner radius", f.CornerRadiusMM, w.Corner, 1}, {"leg", f.Long[0], w.Long[0], 1}, {"leg", f.Long[1], w.Long[1], 1},
		{"diameter", f.DiameterMM, w.Diameter, 1}, {"flats", f.AcrossFlatsMM, w.Flats, 1},
		{"included", f.IncludedRad, w.Included, 1 / size}, {"sweep", f.SweepRad, w.Sweep, 1 / math.Max(1, w.Radius)},
	}
	var bad []string
	for _, n := range nums {
		if !(math.Abs(n.got-n.want) <= tol*math.Max(n.scale, 0.02)) {
			bad = append(bad, fmt.Sprintf("%s %.4f for %.4f", n.name, n.got, n.want))
		}
	}
	if (w.Angle != 0 || w.Kind == StraightCut) && !w.noAngle {
		d := math.Abs(turnRad(doubled(f.AngleRad), doubled(m.line(w.Angle)))) / 2
		if d > 2e-3 {
			bad = append(bad, fmt.Sprintf("angle %.5f for %.5f", f.AngleRad, m.line(w.Angle)))
		}
	}
	if len(f.Steps) != len(w.Steps) {
		bad = append(bad, fmt.Sprintf("steps %v for %v", f.Steps, w.Steps))
	} else {
		for i := range f.Steps {
			if math.Abs(f.Steps[i][0]-w.Steps[i][0]) > tol || math.Abs(f.Steps[i][1]-w.Steps[i][1]) > tol {
				bad = append(bad, fmt.Sprintf("steps %v for %v", f.Steps, w.Steps))
				break
			}
		}
	}
	return strings.Join(bad, ", ")
}

func nonZero(x float64) float64 {
	if x == 0 {
		return math.Inf(1)
	}
	return x
}

// doubled is the direction of twice the angle a, so that 0 and pi are equal.
func doubled(a float64) geom.Point { return geom.Point{X: math.Cos(2 * a), Y: math.Sin(2 * a)} }

// compare matches features with wants one to one; "" if all agree.
func compareWants(fs []Feature, ws []want, m rigid, tol float64) string {
	var b strings.Builder
	used := make([]bool, len(fs))
	for i := range ws {
		w := &ws[i]
		best, why := -1, "missing"
		for k := range fs {
			if used[k] {
				continue
			}
			s := matchWant(&fs[k], w, m, tol)
			if s == "" {
				best = k
				break
			}
			if fs[k].Kind == w.Kind && fs[k].At.Dist(m.point(w.At)) < 1 {
				why = s
			}
		}
		if best < 0 {
			fmt.Fprintf(&b, "want %+v: %s\n", *w, why)
			continue
		}
		used[best] = true
	}
	for k := range fs {
		if !used[k] {
			fmt.Fprintf(&b, "surplus %s\n", showFeature(&fs[k]))
		}
	}
	return b.String()
}

// show prints a feature's numbers that are not zero.
func showFeature(f *Feature) string {
	g := *f
	g.Ring, g.Edges = nil, nil
	s := fmt.Sprintf("%s %s%s at (%.3f,%.3f)", g.Kind, g.Shape, g.Subkind, g.At.X, g.At.Y)
	for _, n := range []struct {
		n string
		v float64
	}{{"w", g.WidthMM}, {"l", g.LengthMM}, {"cut", g.CutLengthMM}, {"d", g.DepthMM}, {"r", g.RadiusMM}, {"sweep", g.SweepRad},
		{"incl", g.IncludedRad}, {"bottom", g.BottomMM}, {"cr", g.CornerRadiusMM}, {"long0", g.Long[0]}, {"long1", g.Long[1]},
		{"dia", g.DiameterMM}, {"flats", g.AcrossFlatsMM}, {"area", g.AreaMM2}, {"perimeter", g.PerimeterMM}} {
		if n.v != 0 {
			s += fmt.Sprintf(" %s=%.4g", n.n, n.v)
		}
	}
	if len(g.Steps) > 0 {
		s += fmt.Sprintf(" steps=%.4g", g.Steps)
	}
	if g.In != "" {
		s += " in " + g.In
	}
	if g.Undercut {
		s += " undercut"
	}
	if g.ShapeOfPart {
		s += " shape-of-part"
	}
	if g.Relief != "" {
		s += " " + g.Relief
	}
	return s + fmt.Sprintf(" edges=%v", f.Edges)
}

// ownedOnce tells what is wrong with the sharing of n edges among fs.
func ownedOnce(fs []Feature, n int) string {
	count := make([]int, n)
	for i := range fs {
		if len(fs[i].Edges) == 0 {
			return fmt.Sprintf("%s owns no edge", showFeature(&fs[i]))
		}
		for _, e := range fs[i].Edges {
			if e < 0 || e >= n {
				return fmt.Sprintf("edge %d of %d", e, n)
			}
			count[e]++
		}
	}
	for e, c := range count {
		if c != 1 {
			return fmt.Sprintf("edge %d is owned %d times", e, c)
		}
	}
	return ""
}
