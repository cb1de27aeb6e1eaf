package features_test

import (
	"fmt"
	"math"
	"math/rand"
	"sync/atomic"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// soil makes the strokes of a sketch careless: drawn twice, a little off, over
// each other, short of each other. Nothing of it may change what is read.
// worst is the greatest way that any end moves.
func soil(rng *rand.Rand, strokes []stroke) (out []stroke, worst float64) {
	const gap = 0.02
	for _, s := range strokes {
		length := math.Sqrt((s.x2-s.x1)*(s.x2-s.x1) + (s.y2-s.y1)*(s.y2-s.y1))
		switch {
		case rng.Intn(3) > 0:
			out = append(out, s)
		case s.r != 0:
			out = append(out, soilArc(rng, s)...)
		case length < 8: // chords of a circle
			out = append(out, s)
			if rng.Intn(4) == 0 {
				out = append(out, s)
			}
		default:
			ux, uy := (s.x2-s.x1)/length, (s.y2-s.y1)/length
			at := func(t float64) (float64, float64) { return s.x1 + t*ux, s.y1 + t*uy }
			piece := func(from, to, off float64) {
				x1, y1 := at(from)
				x2, y2 := at(to)
				p := stroke{x1: x1 - off*uy, y1: y1 + off*ux, x2: x2 - off*uy, y2: y2 + off*ux}
				if rng.Intn(2) == 0 {
					p.x1, p.y1, p.x2, p.y2 = p.x2, p.y2, p.x1, p.y1
				}
				out = append(out, p)
			}
			switch rng.Intn(6) {
			case 0: // twice
				piece(0, length, 0)
				piece(0, length, 0)
			case 1: // twice, a little apart
				piece(0, length, 0)
				piece(0, length, 0.01*rng.Float64())
			case 2: // in two that overlap
				piece(0, 0.6*length, 0)
				piece(0.4*length, length, 0)
			case 3: // a piece over it
				piece(0, length, 0)
				piece(0.2*length, (0.3+0.6*rng.Float64())*length, 0)
			case 4: // short of its ends
				piece(gap*rng.Float64(), length-gap*rng.Float64(), 0)
				worst = gap
			case 5: // in two that do not quite meet
				piece(0, 0.5*length-gap*rng.Float64(), 0)
				piece(0.5*length, length, 0)
				worst = gap
			}
		}
	}
	rng.Shuffle(len(out), func(a, b int) { out[a], out[b] = out[b], out[a] })
	return out, worst
}

func soilArc(rng *rand.Rand, s stroke) []stroke {
	piece := func(from, to float64) stroke {
		p := s
		p.a0, p.a1 = s.a0+from*(s.a1-s.a0), s.a0+to*(s.a1-s.a0)
		return p
	}
	off := s
	off.x1, off.y1 = s.x1+0.005*rng.Float64(), s.y1+0.005*rng.Float64()
	kind := rng.Intn(5)
	if sweep := s.a1 - s.a0; sweep > 270 && sweep < 360 {
		kind = 0 // the arc of a thread is known by being one
	}
	switch kind {
	case 0:
		return []stroke{s, s}
	case 1:
		return []stroke{s, off}
	case 2:
		return []stroke{piece(0, 0.6), piece(0.4, 1)}
	case 3:
		return []stroke{piece(0, 0.3), piece(0.3, 0.7), piece(0.7, 1)}
	}
	return []stroke{s, piece(0.2, 0.5)}
}

// TestRandomDirt: what was drawn is what is found, however carelessly. Lines
// drawn twice are told; nothing is doubted.
func TestRandomDirt(t *testing.T) {
	const chunks = 8
	n := 3000
	if testing.Short() {
		n = 240
	}
	var read atomic.Int64
	t.Run("seeds", func(t *testing.T) {
		for c := range chunks {
			t.Run(fmt.Sprint(c), func(t *testing.T) {
				t.Parallel()
				failed := 0
				for seed := c; seed < n && failed < 2; seed += chunks {
					read.Add(1)
					rng := rand.New(rand.NewSource(int64(seed)))
					k := randomPart(rng)
					strokes, worst := soil(rng, k.strokes)
					b := moved(strokes, 360*rng.Float64(), rng.Intn(2) == 0, 1000*rng.Float64(), 1000*rng.Float64(), 1, dxftest.MM)
					s := build(t, b)
					var faults []features.Fault
					for _, f := range s.Faults {
						if f.Code != "duplicate-lines" {
							faults = append(faults, f)
						}
					}
					s.Faults = faults
					if why := compareSketch(s, k, 0.025+2*worst); why != "" {
						t.Errorf("seed %d: %s\n%s", seed, why, describe(s))
						failed++
					}
				}
			})
		}
	})
	if int(read.Load()) != n {
		t.Errorf("%d of %d drawings were read", read.Load(), n)
	}
}
