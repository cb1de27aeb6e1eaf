package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"path/filepath"
	"text/tabwriter"
	"time"

	"burrside/features/geom"
	"burrside/features/join"
)

// jitterMM is how far ends that belong together lie apart in our edges.
const jitterMM = 1e-4

// looseEdges are n edges of polygons with 20 corners, every second with a line
// across it from corner to corner, so that one corner in twenty is a junction;
// in any order and direction. moved are the same with every end off by up to
// half the jitter, so that no two ends are equal.
func looseEdges(n int) (exact, moved []geom.Edge) {
	rng := rand.New(rand.NewPCG(2, 2))
	side := int(math.Ceil(math.Sqrt(float64(n) / 20)))
	add := func(a, b geom.Point) {
		if rng.IntN(2) == 0 {
			a, b = b, a
		}
		off := func(p geom.Point) geom.Point {
			return geom.Point{X: p.X + (rng.Float64()-0.5)*jitterMM, Y: p.Y + (rng.Float64()-0.5)*jitterMM}
		}
		exact, moved = append(exact, geom.LineEdge(a, b)), append(moved, geom.LineEdge(off(a), off(b)))
	}
	for g := 0; len(exact)+21 <= n; g++ {
		centre := geom.Point{X: float64(g%side) * 10, Y: float64(g/side) * 10}
		var corner [20]geom.Point
		for k := range corner {
			a := float64(k) * math.Pi / 10
			corner[k] = geom.Point{X: centre.X + 4*math.Cos(a), Y: centre.Y + 4*math.Sin(a)}
		}
		for k := range corner {
			add(corner[k], corner[(k+1)%len(corner)])
		}
		if g%2 == 0 {
			add(corner[3], corner[13])
		}
	}
	rng.Shuffle(len(exact), func(i, k int) {
		exact[i], exact[k] = exact[k], exact[i]
		moved[i], moved[k] = moved[k], moved[i]
	})
	return exact, moved
}

// joinedFaces joins edges and counts the bounded faces: a contour is one, and
// more where lines divide it.
func joinedFaces(ctx context.Context, edges []geom.Edge) (int, error) {
	in := make([]join.Input, len(edges))
	for i, e := range edges {
		in[i] = join.Input{Edge: e, Source: int32(i)}
	}
	res, err := join.Join(ctx, in, join.Options{})
	if err != nil {
		return 0, err
	}
	dividers := map[int][]join.Divider{}
	for _, d := range res.Dividers {
		dividers[d.Contour] = append(dividers[d.Contour], d)
	}
	faces := len(res.Contours) - len(dividers)
	for i, list := range dividers {
		parts, err := join.Faces(ctx, &res.Contours[i], list, join.Options{})
		if err != nil {
			return 0, err
		}
		faces += len(parts)
	}
	return faces, nil
}

// compareJoining prints a table for joining the same loose edges, in process on
// both sides: ours with ends apart and with ends equal, shapely's polygonize
// with ends equal only, since it finds nothing where they are apart.
func compareJoining(ctx context.Context, w io.Writer, dir string, n, times int) error {
	exact, moved := looseEdges(n)
	fmt.Fprintf(w, "\njoining %d loose edges to faces, one corner in twenty a junction\n", len(exact))
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\tby\tbest of\ts\tfaces")
	for _, c := range []struct {
		name  string
		edges []geom.Edge
	}{{fmt.Sprintf("burrside, ends %g mm apart", jitterMM), moved}, {"burrside, ends equal", exact}} {
		faces := 0
		best, err := bestOf(times, func() (_ time.Duration, err error) {
			faces, err = joinedFaces(ctx, c.edges)
			return 0, err
		})
		if err != nil {
			return err
		}
		fmt.Fprintf(t, "\t%s\t%d\t%.3f\t%d\n", c.name, best.runs, best.wall.Seconds(), faces)
	}
	for _, c := range []struct {
		name  string
		edges []geom.Edge
	}{{"shapely polygonize, ends equal", exact}, {fmt.Sprintf("shapely polygonize, ends %g mm apart", jitterMM), moved}} {
		faces, seconds, err := polygonize(ctx, dir, c.edges, times)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			t.Flush()
			fmt.Fprintf(w, "LEFT OUT: shapely is not on this machine (%v); %s\n", err, aptCommand())
			return nil
		}
		fmt.Fprintf(t, "\t%s\t%d\t%.3f\t%d\n", c.name, times, seconds, faces)
	}
	return t.Flush()
}

// polygonize hands edges to shapely and gives the faces and its best time.
func polygonize(ctx context.Context, dir string, edges []geom.Edge, times int) (faces int, seconds float64, err error) {
	var in bytes.Buffer
	for i := range edges {
		e := &edges[i]
		fmt.Fprintln(&in, e.From.X, e.From.Y, e.To.X, e.To.Y)
	}
	out, _, err := runProgram(ctx, nil, &in, []string{pythonPath, filepath.Join(dir, "helpers", "polygonize.py"), fmt.Sprint(times)})
	if err != nil {
		return 0, 0, err
	}
	if _, err := fmt.Sscan(string(out), &faces, &seconds); err != nil {
		return 0, 0, fmt.Errorf("%q is not a number of faces and seconds", out)
	}
	return faces, seconds, nil
}
