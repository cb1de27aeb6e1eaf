package features

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"burrside/features/geom"
)

// between is a random number from lo to hi, to 0.01.
func between(rng *rand.Rand, lo, hi float64) float64 {
	return math.Round((lo+rng.Float64()*(hi-lo))*100) / 100
}

// randomBit is a notch at most w wide and d deep.
func randomBit(rng *rand.Rand, w, d float64) bit {
	w, d = between(rng, 4, w), between(rng, 4, d)
	switch rng.IntN(13) {
	case 0:
		return rectBit(w, d, 0, 0)
	case 1:
		r := between(rng, 0.5, math.Min(w/3, d/2))
		return rectBit(w, d, r, 0)
	case 2:
		r := between(rng, 0.4, math.Min(w, d)/4)
		return rectBit(w, d, 0, r)
	case 3:
		return veeBit(w, d, 0.2+0.6*rng.Float64())
	case 4:
		d = math.Min(d, 2.5*w)
		return roundVeeBit(w, d, 0.1*math.Min(w, d))
	case 5:
		return slotBit(math.Min(w, d), math.Min(w, d)+between(rng, 1, 20))
	case 6:
		return roundBit(w/2, between(rng, 1.2, 3.1))
	case 7:
		b := between(rng, 0.2*w, 0.7*w)
		return trapezoidBit(w, b, between(rng, 0.1*w, 0.25*w), d)
	case 8:
		return steppedBit([2]float64{w * 0.4, d}, [2]float64{w * 0.6, d * 0.5})
	case 9:
		return steppedBit([2]float64{w * 0.3, d * 0.4}, [2]float64{w * 0.4, d}, [2]float64{w * 0.3, d * 0.7})
	case 10:
		return sawBit(2+rng.IntN(5), w/5+2, math.Min(d, w/3))
	case 11:
		return teeBit(w/2+2, d/2, w/2+2+w/4, d)
	default:
		if rng.IntN(2) == 0 {
			return lipBit(w, d, math.Min(w, d)*0.2)
		}
		return freeBit(w, d)
	}
}

// hosted are rarer notches.
func rareBit(rng *rand.Rand, w, d float64) bit {
	switch rng.IntN(3) {
	case 0:
		w = between(rng, 12, math.Max(13, w))
		return hostBit(w, d/2, w*0.3, d*0.3, w*(0.2+0.3*rng.Float64()))
	case 1:
		c := between(rng, 1, 3)
		return clippedBit(between(rng, 5, w), 4*c+between(rng, 0, 10), c)
	default:
		return roundBit(w/2, between(rng, 3.6, 4.8))
	}
}

func randomCorner(rng *rand.Rand, most float64) cornerBit {
	a, b := between(rng, 3, most), between(rng, 3, most)
	switch rng.IntN(9) {
	case 0, 1:
		return clipBit(a, b)
	case 2:
		return radiusBit(a)
	case 3:
		return notchBit(a, b, 0)
	case 4:
		return notchBit(a, b, 0.3*math.Min(a, b))
	case 5:
		return arcNotchBit(a)
	case 6:
		return stairBit(a, 0.4*b, 0.5*a, b)
	case 7:
		k := 0.3 * math.Min(a, b)
		return notchAndClipBit(a, b, k)
	}
	return sharpBit()
}

// fillEdge places notches on an edge of length l, keeping clear of its ends.
func fillEdge(rng *rand.Rand, l, clear, depth float64, most int) []placedBit {
	var out []placedBit
	x := clear
	for k := rng.IntN(most + 1); k > 0; k-- {
		room := l - clear - x
		if room < 30 {
			break
		}
		b := randomBit(rng, math.Min(40, room/2), depth)
		if rng.IntN(5) == 0 {
			b = rareBit(rng, math.Min(40, room/2), depth)
		}
		// Nothing reaches the other side's notches.
		if deepest(b.v) > 2.2*depth {
			continue
		}
		wide := b.width + 14 // for undercuts and lips
		if wide > room {
			break
		}
		at := x + 7 + rng.Float64()*(room-wide)/2
		out = append(out, placedBit{at, b})
		x = at + b.width + 10
	}
	return out
}

// randomPart draws one of the base shapes with known features.
func randomPart(rng *rand.Rand) drawnPart {
	switch rng.IntN(8) {
	case 0: // disc
		r := between(rng, 30, 200)
		n := rng.IntN(4)
		var angles []float64
		var bits []bit
		for k := 0; k < n; k++ {
			w := math.Min(40, 0.5*r)
			var b bit
			switch rng.IntN(4) {
			case 0:
				b = rectBit(between(rng, 4, w), between(rng, 3, r/3), 0, 0)
			case 1:
				b = veeBit(between(rng, 4, w), between(rng, 3, r/3), 0.5)
			case 2:
				b = slotBit(between(rng, 4, w/2), w/2+between(rng, 1, r/4))
			default:
				b = roundBit(between(rng, 2, w/3), between(rng, 1.5, 3.1))
			}
			bits = append(bits, b)
			angles = append(angles, (float64(k)+0.3*rng.Float64())*2*math.Pi/float64(n))
		}
		return discPart(r, angles, bits)
	case 1: // bar with full-radius ends
		return obround(rng)
	case 2: // gusset
		return randomGusset(rng)
	}
	// Plate or bar.
	w, h := between(rng, 60, 600), between(rng, 50, 400)
	poly := []geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}
	most := math.Min(40, math.Min(w, h)/5)
	depth := math.Min(w, h) / 5
	cs := make([]cornerBit, 4)
	edges := make([][]placedBit, 4)
	for i := range cs {
		cs[i] = sharpBit()
		if rng.IntN(2) == 0 {
			cs[i] = randomCorner(rng, most)
		}
		// Notches keep clear of what is at the corners and of notches of the
		// edge around the corner.
		edges[i] = fillEdge(rng, poly[i].Dist(poly[(i+1)%4]), 1.35*most+depth+10, depth, 3)
	}
	return polygonPart(poly, cs, edges, nil, nil)
}

// deepest is how far a bit reaches into the metal.
func deepest(v []pt) float64 {
	d := 0.0
	for i := 0; i+1 < len(v); i++ {
		e := geom.BulgeEdge(geom.Point{X: v[i].x, Y: v[i].y}, geom.Point{X: v[i+1].x, Y: v[i+1].y}, v[i].b)
		d = math.Max(d, e.Bounds().Max.Y)
	}
	return d
}

func obround(rng *rand.Rand) drawnPart {
	h := between(rng, 20, 120)
	l := between(rng, 60, 400)
	depth := h / 5
	one, two := fillEdge(rng, l, 5, depth, 2), fillEdge(rng, l, 5, depth, 2)
	var v []pt
	var d drawnPart
	edge := func(at, u geom.Point, bits []placedBit) {
		up := u.Left()
		on := func(p geom.Point) geom.Point { return at.Add(u.Mul(p.X)).Add(up.Mul(p.Y)) }
		p := on(geom.Point{})
		v = append(v, pt{p.X, p.Y, 0})
		metal := l
		for _, b := range bits {
			for _, q := range b.v {
				w := on(geom.Point{X: b.at + q.x, Y: q.y})
				v = append(v, pt{w.X, w.Y, q.b})
			}
			metal -= b.v[len(b.v)-1].x - b.v[0].x
			for _, w := range b.wants {
				w.At = on(geom.Point{X: b.at + w.At.X, Y: w.At.Y})
				d.wants = append(d.wants, w)
			}
		}
		p = on(geom.Point{X: l})
		v = append(v, pt{p.X, p.Y, 1})
		d.wants = append(d.wants, want{Kind: StraightCut, Length: metal, Cut: l, At: on(geom.Point{X: l / 2}), Angle: lineAngle(u)},
			want{Kind: ArcCut, Radius: h / 2, Sweep: math.Pi, Length: math.Pi * h / 2, At: on(geom.Point{X: l + h/2, Y: h / 2})})
	}
	edge(geom.Point{}, geom.Point{X: 1}, one)
	edge(geom.Point{X: l, Y: h}, geom.Point{X: -1}, two)
	d.ring = ringOf(v...)
	d.gross = l*h + math.Pi*h*h/4
	return d
}

func randomGusset(rng *rand.Rand) drawnPart {
	w, h := between(rng, 120, 400), between(rng, 120, 400)
	n, m := between(rng, 15, 0.3*h), between(rng, 15, 0.3*w)
	var poly []geom.Point
	var skew []bool
	var clip [][2]float64
	switch rng.IntN(4) {
	case 0:
		poly = []geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: 0, Y: h}}
		skew, clip = []bool{false, true, false}, make([][2]float64, 3)
	case 1:
		poly = []geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: n}, {X: 0, Y: h}}
		skew, clip = []bool{false, false, true, false}, make([][2]float64, 4)
	case 2: // trapezoid: a bar mitred at both ends
		h = between(rng, 40, 100)
		poly = []geom.Point{{X: 0, Y: 0}, {X: w + 2*h, Y: 0}, {X: w + h, Y: h}, {X: 0.6 * h, Y: h}}
		skew, clip = []bool{false, true, false, true}, make([][2]float64, 4)
	default:
		poly = []geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: n}, {X: m, Y: h}, {X: 0, Y: h}}
		skew, clip = make([]bool, 5), make([][2]float64, 5)
		clip[2] = [2]float64{math.Max(w-m, h-n), math.Min(w-m, h-n)}
	}
	cs := make([]cornerBit, len(poly))
	edges := make([][]placedBit, len(poly))
	for i := range cs {
		cs[i] = sharpBit()
		a, b := poly[i], poly[(i+1)%len(poly)]
		if clip[i] == [2]float64{} && a.Dist(b) > 100 {
			edges[i] = fillEdge(rng, a.Dist(b), 0.3*a.Dist(b), 12, 1)
		}
	}
	if rng.IntN(2) == 0 && poly[1].Y == 0 && len(poly) != 4 {
		c := between(rng, 5, 15)
		cs[0] = []cornerBit{clipBit(c, c), radiusBit(c), notchBit(c, c+2, 0)}[rng.IntN(3)]
	}
	d := polygonPart(poly, cs, edges, skew, clip)
	for i := range d.wants {
		if d.wants[i].Kind == CornerClip && d.wants[i].At.Dist(poly[0]) > 20 {
			// The corner lies where two short edges meet that are known to
			// 1e-4 mm at their ends: that error grows with the distance.
			d.wants[i].tol = 3e-4 * d.wants[i].Long[0] / math.Min(n, m)
		}
	}
	return d
}

// parts is how many random parts are read; BURRSIDE_PARTS sets another number.
func partCount(t *testing.T, n int) int {
	if s := os.Getenv("BURRSIDE_PARTS"); s != "" {
		k, err := strconv.Atoi(s)
		if err != nil {
			t.Fatal(err)
		}
		return k
	}
	if testing.Short() {
		return n / 10
	}
	return n
}

// TestRandomOutlines draws parts with known features, moves, mirrors, splits
// and shakes them, and wants the same features and no other.
func TestRandomOutlines(t *testing.T) {
	n := partCount(t, 20000)
	bad, kinds := 0, map[string]int{}
	for k := 0; k < n; k++ {
		rng := rand.New(rand.NewPCG(7, uint64(k)))
		d := randomPart(rng)
		m := randomRigid(rng)
		r := disturb(rng, m.ring(d.ring), 1e-4)
		if rng.IntN(3) == 0 {
			r = r.Reverse()
		}
		fs := recogniseOutline(r)
		msg := compareWants(fs, d.wants, m, baseTol)
		msg += ownedOnce(fs, len(r)) + notchSound(fs, r)
		// Part and everything that was cut off make up the blank; everything
		// that was cut makes up the outline. Clips and radii here are at square
		// corners.
		area, length := math.Abs(r.Area()), 0.0
		for i := range fs {
			f := &fs[i]
			switch f.Kind {
			case Notch:
				area += f.AreaMM2
				length += f.PerimeterMM
				if f.Ring.Area() < 0 || math.Abs(f.Ring.Area()-f.AreaMM2) > 1e-6 {
					msg += "ring of " + showFeature(f) + "\n"
				}
				continue
			case CornerClip:
				area += f.Long[0] * f.Long[1] / 2
			case CornerRadius:
				area += f.RadiusMM * f.RadiusMM * (1 - math.Pi/4)
			}
			length += f.LengthMM
		}
		tol := 4e-4 * r.Length()
		for i := range d.wants {
			tol += 2 * d.wants[i].tol * d.wants[i].Long[0]
		}
		if d.gross == 0 || math.Abs(area-d.gross) > tol {
			msg += fmt.Sprintf("area %.3f for %.3f\n", area, d.gross)
		}
		if math.Abs(length-r.Length()) > 1e-3 {
			msg += fmt.Sprintf("length %.4f for %.4f\n", length, r.Length())
		}
		for i := range d.wants {
			kinds[string(d.wants[i].Kind)+" "+string(d.wants[i].Shape)]++
		}
		if msg != "" {
			if bad++; bad <= 5 {
				t.Errorf("part %d (%d edges):\n%s", k, len(r), msg)
			}
		}
	}
	if bad > 0 {
		t.Errorf("%d of %d parts", bad, n)
	}
	t.Log(fmt.Sprint(kinds))
	if len(kinds) < 12 {
		t.Errorf("only %d kinds were drawn", len(kinds))
	}
}
