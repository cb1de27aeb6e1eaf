package geom

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"
)

// TestShapely compares 500 random parts with an independent engine (GEOS
// through shapely): area, perimeter and centroid of an outline less its holes,
// least distances between the rings and the convex hull. GEOS knows no arcs, so
// the rings go over flattened with chords at most eps from them. A polygon so
// inscribed differs in area by at most eps times the length, in perimeter by
// eps/3 times all sweeps (an arc of chords at eps has steps a with a*a = 8 eps/r,
// and each lacks a*a/24 of its length), and in any distance or support by at
// most eps a ring. With eps = 1e-4: area 1e-4 x length, centroid 1e-2 (the
// area's error over the area, times the size), distances 2e-4.
func TestShapely(t *testing.T) {
	const python, eps = "/usr/bin/python3", 1e-4
	if out, err := exec.Command(python, "-c", "import shapely; print(shapely.__version__)").CombinedOutput(); err != nil {
		t.Skipf("no shapely: %v %s", err, out)
	}
	type part struct{ rings []Ring }
	rng := rand.New(rand.NewPCG(21, 22))
	var parts []part
	var data [][][][2]float64
	for range 500 {
		at := Point{rng.Float64() * 500, rng.Float64() * 500}
		p := part{[]Ring{randomRing(rng, at, 60)}}
		for range rng.IntN(4) { // holes: within the inner half of the outline
			c := at.Add(onCircle(Point{}, 16*rng.Float64(), 7*rng.Float64()))
			if rng.IntN(2) == 0 {
				p.rings = append(p.rings, Ring{CircleEdge(c, 1+4*rng.Float64())})
			} else {
				p.rings = append(p.rings, randomRing(rng, c, 2+4*rng.Float64()))
			}
		}
		var flat [][][2]float64
		for _, r := range p.rings {
			var f [][2]float64
			for _, q := range r.Flatten(eps) {
				f = append(f, [2]float64{q.X, q.Y})
			}
			flat = append(flat, f)
		}
		parts, data = append(parts, p), append(data, flat)
	}
	js, err := json.Marshal(data)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-c", `
import sys, json
from shapely.geometry import Polygon, LinearRing
out = []
for rings in json.load(sys.stdin):
    ps = [Polygon(r) for r in rings]
    ls = [LinearRing(r) for r in rings]
    dist = [[ls[i].distance(ls[j]) for j in range(i)] for i in range(len(ls))]
    h = ps[0].convex_hull
    out.append({"area": [p.area for p in ps], "length": [l.length for l in ls],
        "centroid": [[p.centroid.x, p.centroid.y] for p in ps], "dist": dist,
        "hullArea": h.area, "hullLength": h.exterior.length})
json.dump(out, sys.stdout)
`)
	cmd.Stdin = bytes.NewReader(js)
	res, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var want []struct {
		Area, Length         []float64
		Centroid             [][2]float64
		Dist                 [][]float64
		HullArea, HullLength float64
	}
	if err := json.Unmarshal(res, &want); err != nil {
		t.Fatal(err)
	}
	distances := 0
	for i, p := range parts {
		w := want[i]
		for k, r := range p.rings {
			near(t, "area", math.Abs(r.Area()), w.Area[k], eps*r.Length())
			sweeps := 0.0
			for _, e := range r {
				sweeps += math.Abs(e.Sweep())
			}
			near(t, "length", r.Length(), w.Length[k], eps/3*sweeps*1.01+1e-9)
			near(t, "centroid", r.Centroid().Dist(Point{w.Centroid[k][0], w.Centroid[k][1]}), 0, 1e-2)
			for j := range k {
				pa, pb, d := RingDist(r, p.rings[j])
				near(t, "distance", d, w.Dist[k][j], 2*eps)
				near(t, "feet", pa.Dist(pb), d, 1e-9)
				distances++
			}
		}
		h := Hull(p.rings[0])
		near(t, "hull area", h.Area(), w.HullArea, eps*h.Length())
		near(t, "hull length", h.Length(), w.HullLength, 20*eps)
		// No direction gives a rectangle that is less by more than arcs allow,
		// and ours is one that fits: GEOS' hull is not needed for that.
		rc, best := LeastRectangle(p.rings[0]), math.Inf(1)
		for d := range 1800 {
			best = min(best, RectAlong(h, onCircle(Point{}, 1, float64(d)*math.Pi/3600)).Area())
		}
		fit := RectAlong(h, onCircle(Point{}, 1, rc.AngleRad))
		near(t, "rectangle that fits", rc.Area(), fit.Area(), 1e-6*rc.Area())
		if rc.Area() > 1.05*best {
			t.Errorf("part %d: least rectangle %g, a scan finds %g", i, rc.Area(), best)
		}
		if t.Failed() {
			t.Fatalf("part %d: %v", i, p)
		}
	}
	if distances < 500 {
		t.Errorf("only %d distances compared", distances)
	}
}
