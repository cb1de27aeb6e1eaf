package features_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"sync/atomic"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// sketch collects strokes and the features that they must give.
type sketch struct {
	strokes []stroke
	want    []features.Feature
	x, y    float64 // pen
}

func (k *sketch) moveTo(x, y float64) { k.x, k.y = x, y }

func (k *sketch) lineTo(x, y float64) {
	k.strokes = append(k.strokes, stroke{x1: k.x, y1: k.y, x2: x, y2: y})
	k.x, k.y = x, y
}

func (k *sketch) poly(p ...float64) {
	k.moveTo(p[0], p[1])
	for i := 2; i+1 < len(p); i += 2 {
		k.lineTo(p[i], p[i+1])
	}
	k.lineTo(p[0], p[1])
}

func (k *sketch) expect(f features.Feature) { k.want = append(k.want, f) }

// hole puts a random opening about (x, y), no larger than 36 mm across.
func (k *sketch) hole(rng *rand.Rand, x, y float64) {
	switch rng.Intn(7) {
	case 0:
		r := 2 + 14*rng.Float64()
		k.strokes = append(k.strokes, stroke{x1: x, y1: y, r: r, a1: 360})
		k.expect(features.Feature{Kind: features.RoundHole, DiameterMM: 2 * r})
	case 1: // slot
		r, c := 3+5*rng.Float64(), 2+7*rng.Float64()
		k.moveTo(x-c, y-r)
		k.lineTo(x+c, y-r)
		k.strokes = append(k.strokes, stroke{x1: x + c, y1: y, r: r, a0: 270, a1: 450}, stroke{x1: x - c, y1: y, r: r, a0: 90, a1: 270})
		k.moveTo(x+c, y+r)
		k.lineTo(x-c, y+r)
		k.expect(features.Feature{Kind: features.Slot, WidthMM: 2 * r, LengthMM: 2 * (r + c)})
	case 2: // rectangle
		w, h := 6+10*rng.Float64(), 18+14*rng.Float64()
		k.poly(x-w/2, y-h/2, x+w/2, y-h/2, x+w/2, y+h/2, x-w/2, y+h/2)
		k.expect(features.Feature{Kind: features.RectangularHole, WidthMM: w, LengthMM: h})
	case 3: // hexagon
		r := 6 + 8*rng.Float64()
		var p []float64
		for i := range 6 {
			s, c := math.Sincos(math.Pi / 3 * float64(i))
			p = append(p, x+r*c, y+r*s)
		}
		k.poly(p...)
		k.expect(features.Feature{Kind: features.PolygonHole, Sides: 6, AcrossFlatsMM: r * math.Sqrt(3)})
	case 4: // a circle of chords
		r, n := 3+12*rng.Float64(), 12+rng.Intn(40)
		var p []float64
		for i := range n {
			s, c := math.Sincos(0.1 + 2*math.Pi*float64(i)/float64(n))
			p = append(p, x+r*c, y+r*s)
		}
		k.poly(p...)
		k.expect(features.Feature{Kind: features.RoundHole, DiameterMM: 2 * r})
	case 5: // seat
		r := 3 + 5*rng.Float64()
		k.strokes = append(k.strokes, stroke{x1: x, y1: y, r: r, a1: 360}, stroke{x1: x, y1: y, r: 2 * r, a1: 360})
		k.expect(features.Feature{Kind: features.HoleWithSeat, DiameterMM: 2 * r, SeatMM: 4 * r})
	case 6: // thread
		r := 3 + 5*rng.Float64()
		k.strokes = append(k.strokes, stroke{x1: x, y1: y, r: r, a1: 360}, stroke{x1: x, y1: y, r: 1.2 * r, a0: 10, a1: 285})
		k.expect(features.Feature{Kind: features.TappedHole, DiameterMM: 2 * r, SeatMM: 2.4 * r})
	}
}

// side runs from the pen by length along an angle in quarter turns, perhaps
// with a notch into the metal on its left.
func (k *sketch) side(rng *rand.Rand, length float64, quarter int) {
	s := []float64{0, 1, 0, -1}[quarter]
	c := []float64{1, 0, -1, 0}[quarter]
	go2 := func(along, in float64) (float64, float64) { return along*c - in*s, along*s + in*c }
	x0, y0 := k.x, k.y
	to := func(along, in float64) {
		dx, dy := go2(along, in)
		k.lineTo(x0+dx, y0+dy)
	}
	at, w, d := length*(0.3+0.3*rng.Float64()), 8+10*rng.Float64(), 5+9*rng.Float64()
	switch rng.Intn(3) {
	case 0:
		to(at, 0)
		to(at, d)
		to(at+w, d)
		to(at+w, 0)
		k.expect(features.Feature{Kind: features.Notch, Shape: features.NotchRectangular, WidthMM: w, DepthMM: d})
	case 1:
		to(at, 0)
		to(at+w/2, d)
		to(at+w, 0)
		k.expect(features.Feature{Kind: features.Notch, Shape: features.NotchVee, WidthMM: w, DepthMM: d})
	}
	to(length, 0)
}

// randomPart draws a plate with random corners, notches and openings.
func randomPart(rng *rand.Rand) *sketch {
	k := &sketch{}
	w, h := 220+200*rng.Float64(), 160+100*rng.Float64()
	cut := [4]float64{}
	kind := [4]int{}
	for i := range cut {
		if kind[i] = rng.Intn(3); kind[i] > 0 {
			cut[i] = 8 + 8*rng.Float64()
		}
	}
	k.moveTo(cut[0], 0)
	ends := [4][2]float64{{w, 0}, {w, h}, {0, h}, {0, 0}}
	for q := range 4 {
		length := []float64{w, h, w, h}[q] - cut[q] - cut[(q+1)%4]
		k.side(rng, length, q)
		c := cut[(q+1)%4]
		e := ends[q]
		// The next side starts c along from the corner.
		dx, dy := []float64{0, -1, 0, 1}[q], []float64{1, 0, -1, 0}[q]
		switch kind[(q+1)%4] {
		case 1:
			k.lineTo(e[0]+c*dx, e[1]+c*dy)
			k.expect(features.Feature{Kind: features.CornerClip, LengthMM: c * math.Sqrt2})
		case 2:
			bx, by := []float64{-1, 0, 1, 0}[q], []float64{0, -1, 0, 1}[q]
			k.strokes = append(k.strokes, stroke{x1: e[0] + c*(dx+bx), y1: e[1] + c*(dy+by), r: c, a0: float64(270 + 90*q), a1: float64(360 + 90*q)})
			k.expect(features.Feature{Kind: features.CornerRadius, RadiusMM: c})
		}
		k.moveTo(e[0]+c*dx, e[1]+c*dy)
	}
	for x := 45.0; x < w-45; x += 44 {
		for y := 45.0; y < h-45; y += 44 {
			if rng.Intn(3) > 0 {
				k.hole(rng, x, y)
			}
		}
	}
	return k
}

// disturb splits lines, reverses and shuffles, and moves every end by jitter.
func (k *sketch) disturb(rng *rand.Rand, jitter float64) []stroke {
	var out []stroke
	j := func() float64 { return jitter * (2*rng.Float64() - 1) / math.Sqrt2 }
	for _, s := range k.strokes {
		if s.r != 0 {
			s.x1, s.y1 = s.x1+j()/2, s.y1+j()/2
			out = append(out, s)
			continue
		}
		parts := []stroke{s}
		// A split piece would count as a side of a circle of chords.
		if l := math.Sqrt((s.x2-s.x1)*(s.x2-s.x1) + (s.y2-s.y1)*(s.y2-s.y1)); l > 40 && rng.Intn(3) == 0 {
			f := 0.3 + 0.4*rng.Float64()
			mx, my := s.x1+f*(s.x2-s.x1), s.y1+f*(s.y2-s.y1)
			parts = []stroke{{x1: s.x1, y1: s.y1, x2: mx, y2: my}, {x1: mx, y1: my, x2: s.x2, y2: s.y2}}
		}
		for _, p := range parts {
			p.x1, p.y1, p.x2, p.y2 = p.x1+j(), p.y1+j(), p.x2+j(), p.y2+j()
			if rng.Intn(2) == 0 {
				p.x1, p.y1, p.x2, p.y2 = p.x2, p.y2, p.x1, p.y1
			}
			out = append(out, p)
		}
	}
	rng.Shuffle(len(out), func(a, b int) { out[a], out[b] = out[b], out[a] })
	return out
}

// TestRandomDrawings: what was drawn is what is found, however it was turned,
// mirrored, shuffled, split and jittered.
func TestRandomDrawings(t *testing.T) {
	const chunks = 16
	n := 20000
	if testing.Short() {
		n = 320
	}
	var read, wanted atomic.Int64
	t.Run("seeds", func(t *testing.T) {
		for c := range chunks {
			t.Run(fmt.Sprint(c), func(t *testing.T) {
				t.Parallel()
				failed := 0
				for seed := c; seed < n && failed <= 3; seed += chunks {
					read.Add(1)
					wanted.Add(int64(len(randomDrawing(t, seed, &failed))))
				}
			})
		}
	})
	t.Logf("%d drawings with %d known features read", read.Load(), wanted.Load())
	if int(read.Load()) != n || int(wanted.Load()) < 5*n {
		t.Errorf("%d of %d drawings were read, %d features known", read.Load(), n, wanted.Load())
	}
}

// randomDrawing draws one, reads it, and gives the features that it was to have.
func randomDrawing(t *testing.T, seed int, failed *int) []features.Feature {
	rng := rand.New(rand.NewSource(int64(seed)))
	k := randomPart(rng)
	jitter := []float64{0, 0, 1e-4}[rng.Intn(3)]
	deg := 360 * rng.Float64()
	if rng.Intn(4) == 0 {
		deg = 90 * float64(rng.Intn(4))
	}
	u, scale := dxftest.MM, 1.0
	if rng.Intn(2) == 0 {
		u, scale = dxftest.Inch, 1/25.4
	}
	b := moved(k.disturb(rng, jitter), deg, rng.Intn(2) == 0, 2000*rng.Float64()-1000, 2000*rng.Float64()-1000, scale, u)
	s := build(t, b)
	if why := compareSketch(s, k, 2e-3+10*jitter); why != "" {
		t.Errorf("seed %d (turned %.1f, jitter %g): %s\n%s", seed, deg, jitter, why, describe(s))
		*failed++
	}
	return k.want
}

func compareSketch(s *features.Sheet, k *sketch, tol float64) string {
	if len(s.Parts) != 1 {
		return fmt.Sprintf("%d parts", len(s.Parts))
	}
	p := &s.Parts[0]
	if len(p.Doubts) > 0 || len(s.Faults) > 0 || !p.Clean {
		return "it is doubted"
	}
	var left []features.Feature
	for _, f := range p.Features {
		if f.Kind != features.StraightCut {
			left = append(left, f)
		}
	}
	var missing []string
	for _, w := range k.want {
		found := false
		for i, f := range left {
			if f.Kind == w.Kind && f.Shape == w.Shape && (w.Sides == 0 || f.Sides == w.Sides) &&
				agrees(f.DiameterMM, w.DiameterMM, tol) && agrees(f.SeatMM, w.SeatMM, tol) && agrees(f.WidthMM, w.WidthMM, tol) &&
				agrees(f.LengthMM, w.LengthMM, tol) && agrees(f.DepthMM, w.DepthMM, tol) && agrees(f.RadiusMM, w.RadiusMM, tol) && agrees(f.AcrossFlatsMM, w.AcrossFlatsMM, tol) {
				left = append(left[:i], left[i+1:]...)
				found = true
				break
			}
		}
		if !found {
			missing = append(missing, featureLine(&w))
		}
	}
	if len(missing) > 0 || len(left) > 0 {
		var more []string
		for i := range left {
			more = append(more, featureLine(&left[i]))
		}
		return "missing " + strings.Join(missing, "; ") + ", surplus " + strings.Join(more, "; ")
	}
	return ""
}

// agrees compares a number that the sketch states.
func agrees(got, want, tol float64) bool { return want == 0 || math.Abs(got-want) <= tol }
