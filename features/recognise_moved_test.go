package features

import (
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// randomBlocks is the outline of cells of an uneven grid that hang together,
// without a hole or a place where only corners touch: ells, tees, hooks, stairs.
func randomBlocks(rng *rand.Rand, even bool) geom.Ring {
	const n = 5
	xs, ys := make([]float64, n+1), make([]float64, n+1)
	for i := 1; i <= n; i++ {
		if even {
			xs[i], ys[i] = xs[i-1]+float64(5*(1+rng.IntN(3))), ys[i-1]+float64(5*(1+rng.IntN(3)))
		} else {
			xs[i], ys[i] = xs[i-1]+between(rng, 4, 60), ys[i-1]+between(rng, 4, 60)
		}
	}
	var fill [n][n]bool
	fill[2][2] = true
	for k := 4 + rng.IntN(14); k > 0; k-- {
		i, j := rng.IntN(n), rng.IntN(n)
		if i > 0 && fill[i-1][j] || i < n-1 && fill[i+1][j] || j > 0 && fill[i][j-1] || j < n-1 && fill[i][j+1] {
			fill[i][j] = true
		}
	}
	at := func(i, j int) bool { return i >= 0 && j >= 0 && i < n && j < n && fill[i][j] }
	type node struct{ i, j int }
	next := map[node]node{}
	add := func(a, b node) bool {
		_, twice := next[a]
		next[a] = b
		return !twice
	}
	var first node
	for i := 0; i < n; i++ {
		for j := 0; j < n; j++ {
			if !fill[i][j] {
				continue
			}
			ok := (at(i, j-1) || add(node{i, j}, node{i + 1, j})) && (at(i+1, j) || add(node{i + 1, j}, node{i + 1, j + 1})) &&
				(at(i, j+1) || add(node{i + 1, j + 1}, node{i, j + 1})) && (at(i-1, j) || add(node{i, j + 1}, node{i, j}))
			if !ok {
				return nil
			}
			if !at(i, j-1) {
				first = node{i, j}
			}
		}
	}
	var xy []float64
	for p, k := first, 0; k == 0 || p != first; k++ {
		xy = append(xy, xs[p.i], ys[p.j])
		p = next[p]
	}
	if len(xy)/2 != len(next) {
		return nil // a hole
	}
	return pointsRing(xy...)
}

// randomStar is a ring around the origin of lines and arcs.
func randomStar(rng *rand.Rand) geom.Ring {
	n := 4 + rng.IntN(12)
	var v []pt
	for i := 0; i < n; i++ {
		a := (float64(i) + 0.6*rng.Float64()) * 2 * math.Pi / float64(n)
		r := between(rng, 40, 120)
		b := 0.0
		if rng.IntN(3) == 0 {
			b = rng.Float64()*0.6 - 0.3
		}
		v = append(v, pt{r * math.Cos(a), r * math.Sin(a), b})
	}
	r := ringOf(v...)
	if len(r) < 4 || r.Area() < 0 {
		return nil
	}
	for i := range r { // arcs may run into each other
		for j := i + 1; j < len(r); j++ {
			for _, p := range geom.Intersect(r[i], r[j], 1e-6).Points {
				if p.Dist(r[i].From) > 1e-4 && p.Dist(r[i].To) > 1e-4 {
					return nil
				}
			}
		}
	}
	return r
}

// wanted turns a feature into what a moved part must show.
func wanted(f *Feature) want {
	return want{Kind: f.Kind, Shape: f.Shape, Subkind: f.Subkind, Relief: f.Relief, In: f.In != "", Undercut: f.Undercut, ShapeOfPart: f.ShapeOfPart,
		At: f.At, Width: f.WidthMM, Length: f.LengthMM, Cut: f.CutLengthMM, Depth: f.DepthMM, Radius: f.RadiusMM, Sweep: f.SweepRad, Included: f.IncludedRad,
		Bottom: f.BottomMM, Corner: f.CornerRadiusMM, Long: f.Long, Steps: f.Steps, Diameter: f.DiameterMM, Sides: f.Sides, Flats: f.AcrossFlatsMM,
		Angle: f.AngleRad, noAt: f.Kind == ArcCut && f.SweepRad > 6.28}
}

// TestMovedOutlines: whatever a ring is read as, the moved, mirrored,
// reversed, split and started-elsewhere ring is read as the same.
func TestMovedOutlines(t *testing.T) {
	n := partCount(t, 6000)
	bad, read := 0, 0
	for k := 0; k < n; k++ {
		rng := rand.New(rand.NewPCG(13, uint64(k)))
		var r geom.Ring
		switch k % 3 {
		case 0:
			r = randomBlocks(rng, true)
		case 1:
			r = randomBlocks(rng, false)
		default:
			r = randomStar(rng)
		}
		if r == nil {
			continue
		}
		read++
		fs := recogniseOutline(r)
		var ws []want
		for i := range fs {
			ws = append(ws, wanted(&fs[i]))
		}
		m := randomRigid(rng)
		x := disturb(rng, m.ring(r), 0)
		if rng.IntN(2) == 0 {
			x = x.Reverse()
		}
		gs := recogniseOutline(x)
		msg := compareWants(gs, ws, m, 1e-4)
		// Everything that is cut is told once, and what was bitten off makes
		// up the difference to the mended outline.
		total := 0.0
		for i := range gs {
			if gs[i].Kind == Notch {
				total += gs[i].PerimeterMM
			} else {
				total += gs[i].LengthMM
			}
		}
		if math.Abs(total-x.Length()) > 1e-6*total {
			msg += "lengths do not add up\n"
		}
		if msg += ownedOnce(gs, len(x)) + notchSound(gs, x); msg != "" {
			if bad++; bad <= 4 {
				t.Errorf("ring %d:\n%s\nfrom\n%s", k, msg, describeAll(fs))
			}
		}
	}
	if bad > 0 {
		t.Errorf("%d of %d rings", bad, read)
	}
	if read < n/2 {
		t.Errorf("only %d of %d rings", read, n)
	}
}

func describeAll(fs []Feature) string {
	s := ""
	for i := range fs {
		s += showFeature(&fs[i]) + "\n"
	}
	return s
}
