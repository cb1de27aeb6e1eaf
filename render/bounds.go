package render

import (
	"math"

	"burrside/features"
	"burrside/features/geom"
)

// extent is an upright rectangle in millimetres.
type extent struct{ MinX, MinY, MaxX, MaxY, Width, Height float64 }

// partBox is the box of a part's outline, arcs included; the stated box serves
// when there is no outline.
func partBox(p *features.Part) extent {
	e, ok := edgesBox(p.Outline)
	if !ok {
		e = extent{MinX: p.Box.Min.X, MinY: p.Box.Min.Y, MaxX: p.Box.Max.X, MaxY: p.Box.Max.Y}
	}
	e.Width, e.Height = e.MaxX-e.MinX, e.MaxY-e.MinY
	return e
}

// edgesBox is the box of edges; ok is false if there is none, or a number in
// them is not finite.
func edgesBox(edges []geom.Edge) (extent, bool) {
	e := extent{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	add := func(x, y float64) {
		e.MinX, e.MaxX = min(e.MinX, x), max(e.MaxX, x)
		e.MinY, e.MaxY = min(e.MinY, y), max(e.MaxY, y)
	}
	for _, d := range edges {
		add(d.From.X, d.From.Y)
		add(d.To.X, d.To.Y)
		if d.Radius > 0 {
			start, sweep := arcAngles(d)
			for q := range 4 {
				a := float64(q) * math.Pi / 2
				if angleWithin(a, start, sweep) {
					// The four quadrants are exact: no cosine of pi/2.
					dx := []float64{1, 0, -1, 0}[q]
					dy := []float64{0, 1, 0, -1}[q]
					add(d.Centre.X+float64(dx*d.Radius), d.Centre.Y+float64(dy*d.Radius))
				}
			}
		}
	}
	ok := len(edges) > 0 && finite(e.MinX) && finite(e.MinY) && finite(e.MaxX) && finite(e.MaxY)
	return e, ok
}

// arcAngles gives the start angle of an arc and its signed sweep, both rad; a
// full circle sweeps 2 pi.
func arcAngles(d geom.Edge) (start, sweep float64) {
	start = math.Atan2(d.From.Y-d.Centre.Y, d.From.X-d.Centre.X)
	end := math.Atan2(d.To.Y-d.Centre.Y, d.To.X-d.Centre.X)
	sweep = end - start
	if d.CCW {
		for sweep <= 1e-12 {
			sweep += 2 * math.Pi
		}
	} else {
		for sweep >= -1e-12 {
			sweep -= 2 * math.Pi
		}
	}
	return start, sweep
}

func angleWithin(a, start, sweep float64) bool {
	if sweep < 0 {
		start, sweep = start+sweep, -sweep
	}
	for a < start {
		a += 2 * math.Pi
	}
	for a >= start+2*math.Pi {
		a -= 2 * math.Pi
	}
	return a <= start+sweep
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
