package render

import (
	"math"
	"testing"

	"burrside/features/geom"
)

// TestSizesClearOfBlank: the line of a blank that lies askew runs through no
// label of an overall size.
func TestSizesClearOfBlank(t *testing.T) {
	shown := 0
	for deg := 1; deg < 90; deg++ {
		r := plateReport()
		p := r.Parts[0]
		p.Part.Outline = polygon(pt(12, 0), pt(25, 0), pt(25, 55), pt(0, 55), pt(0, 35), pt(12, 25))
		p.Part.Holes, p.Part.Features, p.Part.Box = nil, nil, p.Part.Outline.Bounds()
		p.Part.AreaMM2 = p.Part.Outline.Area()
		s, c := math.Sincos(float64(deg) * math.Pi / 180)
		u := geom.Point{X: c, Y: s}
		rect := geom.RectAlong(p.Part.Outline, u)
		p.Plan.Blank.Corners = rect.Corners()
		scene := NewScene(r, 0, SceneOptions{})
		var blank [][4]float64
		for i := range scene.items {
			if it := &scene.items[i]; it.style == "blank-line" {
				var pts [][2]float64
				for _, q := range it.path {
					if q.op != segClose {
						pts = append(pts, [2]float64{q.x, q.y})
					}
				}
				for k := range pts {
					n := pts[(k+1)%len(pts)]
					blank = append(blank, [4]float64{pts[k][0], pts[k][1], n[0], n[1]})
				}
				shown++
			}
		}
		for i := range scene.items {
			it := &scene.items[i]
			a, ok := it.label()
			if !ok || it.style != "size-dimension" {
				continue
			}
			for _, n := range blank {
				if crossesArea(n, a) {
					t.Errorf("at %d degrees the blank's line runs through %q", deg, it.lines)
				}
			}
		}
	}
	if shown == 0 {
		t.Error("no blank was shown")
	}
}
