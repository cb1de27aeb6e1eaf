package features

import (
	"math"
	"testing"

	"burrside/features/geom"
)

var plain = []cornerBit{sharpBit(), sharpBit(), sharpBit(), sharpBit()}

// rectPoly is a rectangle from the origin.
func rectPoly(w, h float64) []geom.Point {
	return []geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}
}

// plate is a 200 x 100 rectangle with the given bits on its lower edge.
func plate(bits ...placedBit) drawnPart {
	return polygonPart(rectPoly(200, 100), plain, [][]placedBit{bits, nil, nil, nil}, nil, nil)
}

// cornered is a 200 x 100 rectangle with the given corners from the origin on.
func cornered(cs ...cornerBit) drawnPart {
	for len(cs) < 4 {
		cs = append(cs, sharpBit())
	}
	return polygonPart(rectPoly(200, 100), cs, make([][]placedBit, 4), nil, nil)
}

func cutWant(metal, whole, x, y, deg float64) want {
	return want{Kind: StraightCut, Length: metal, Cut: whole, At: geom.Point{X: x, Y: y}, Angle: deg * math.Pi / 180}
}

func pointsRing(xy ...float64) geom.Ring {
	var v []pt
	for i := 0; i+1 < len(xy); i += 2 {
		v = append(v, pt{xy[i], xy[i+1], 0})
	}
	return ringOf(v...)
}

// outlineCases are parts with what each must be read as; the numbers are those
// that the part was drawn with.
func outlineCases() map[string]drawnPart {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	cornerNotch := func(a, b, x, y float64) want {
		return want{Kind: Notch, Shape: NotchCorner, Width: math.Max(a, b), Depth: math.Min(a, b), Long: [2]float64{math.Max(a, b), math.Min(a, b)}, At: p(x, y)}
	}
	shape := func(w want) want { w.ShapeOfPart = true; return w }
	mitre := func(w want) want { w.Subkind = "mitre"; return w }
	rectN := func(w, d, x, y float64) want {
		return want{Kind: Notch, Shape: NotchRectangular, Width: w, Depth: d, At: p(x, y)}
	}
	vee := func(w, d, incl, x, y float64) want {
		return want{Kind: Notch, Shape: NotchVee, Width: w, Depth: d, Included: incl, At: p(x, y)}
	}
	root := math.Sqrt
	cases := map[string]drawnPart{
		"rectangle":                  plate(),
		"rectangular notch":          plate(placedBit{50, rectBit(30, 20, 0, 0)}),
		"rounded rectangular notch":  plate(placedBit{50, rectBit(30, 20, 4, 0)}),
		"notch as deep as its radii": {},
		"dog-bone":                   plate(placedBit{50, rectBit(30, 20, 0, 3)}),
		"vee":                        plate(placedBit{50, veeBit(30, 15, 0.5)}),
		"half vee":                   plate(placedBit{50, veeBit(30, 15, 0)}),
		"vee with round tip":         plate(placedBit{50, roundVeeBit(30, 20, 2)}),
		"open slot":                  plate(placedBit{50, slotBit(14, 30)}),
		"round":                      plate(placedBit{50, roundBit(15, math.Pi)}),
		"three quarters round":       plate(placedBit{50, roundBit(15, 1.5*math.Pi)}),
		"trapezoid":                  plate(placedBit{50, trapezoidBit(40, 16, 8, 20)}),
		"stepped":                    plate(placedBit{50, steppedBit([2]float64{20, 30}, [2]float64{15, 10})}),
		"stepped both sides":         plate(placedBit{50, steppedBit([2]float64{10, 10}, [2]float64{20, 30}, [2]float64{15, 20})}),
		"tee slot":                   plate(placedBit{50, teeBit(10, 12, 30, 24)}),
		"free":                       plate(placedBit{50, freeBit(30, 20)}),
		"two equal notches":          plate(placedBit{40, rectBit(30, 20, 0, 0)}, placedBit{120, rectBit(30, 20, 0, 0)}),
		"touching vees":              plate(placedBit{40, sawBit(5, 12, 9)}),
		"vee in the floor":           plate(placedBit{40, hostBit(60, 20, 15, 10, 20)}),
		"clipped mouth":              plate(placedBit{40, clippedBit(30, 25, 3)}),
		"rounded mouth":              plate(placedBit{40, lipBit(30, 25, 3)}),
		"clip":                       cornered(clipBit(20, 15)),
		"four clips":                 cornered(clipBit(20, 15), clipBit(20, 20), clipBit(10, 15), clipBit(5, 5)),
		"radius":                     cornered(radiusBit(12)),
		"rounded rectangle":          cornered(radiusBit(12), radiusBit(12), radiusBit(12), radiusBit(12)),
		"corner notch":               cornered(notchBit(40, 25, 0)),
		"cope with radius":           cornered(notchBit(40, 25, 8)),
		"round cope":                 cornered(arcNotchBit(20)),
		"corner notches at one end":  cornered(sharpBit(), notchBit(40, 25, 0), notchBit(40, 25, 0)),
		"corner notches all around":  cornered(notchBit(40, 25, 0), notchBit(40, 25, 0), notchBit(40, 25, 0), notchBit(40, 25, 0)),
		"stairs":                     cornered(stairBit(40, 10, 15, 30)),
		"steep stairs":               cornered(stairBit(20, 10, 15, 60)),
		"notch with clip":            cornered(notchAndClipBit(40, 30, 6)),
		"notch beside a clip": polygonPart(rectPoly(200, 100), []cornerBit{clipBit(20, 15), sharpBit(), sharpBit(), sharpBit()},
			[][]placedBit{{{15, rectBit(30, 20, 0, 0)}}, nil, nil, nil}, nil, nil),
		"disc":             discPart(50, nil, nil),
		"disc with keyway": discPart(50, []float64{1}, []bit{rectBit(20, 15-(50-root(2500-100)), 0, 0)}),
		"disc with three vees": discPart(50, []float64{0.2, 2.2, 4.5},
			[]bit{veeBit(20, 12, 0.5), veeBit(20, 12, 0.5), veeBit(20, 12, 0.5)}),
	}
	// The edge notch left of a clip, flush with it.
	d := cases["notch beside a clip"]
	cases["notch beside a clip"] = polygonPart(rectPoly(200, 100), []cornerBit{clipBit(20, 15), sharpBit(), sharpBit(), sharpBit()},
		[][]placedBit{{{20, rectBit(30, 20, 0, 0)}}, nil, nil, nil}, nil, nil)
	for i := range cases["notch beside a clip"].wants {
		if w := &cases["notch beside a clip"].wants[i]; w.Kind == StraightCut && w.Length == 150 {
			w.Cut, w.At.X = 150, 125 // metal from 50 to 200 only
		}
	}
	_ = d
	cases["notch as deep as its radii"] = drawnAs(
		ringOf(pt{0, 0, 0}, pt{50, 0, -quarter}, pt{60, 10, 0}, pt{90, 10, -quarter}, pt{100, 0, 0}, pt{200, 0, 0}, pt{200, 100, 0}, pt{0, 100, 0}),
		[]want{{Kind: Notch, Shape: NotchRectangular, Width: 50, Depth: 10, Corner: 10, At: p(75, 0)},
			cutWant(150, 200, 100, 0, 0), cutWant(100, 100, 200, 50, 90), cutWant(200, 200, 100, 100, 0), cutWant(100, 100, 0, 50, 90)})
	cases["disc with keyway"] = discPart(50, []float64{1}, []bit{rectBit(20, 15-(50-root(2500-100)), 0, 0)})
	cases["ring with slit"] = slitRing()
	cases["gusset of three sides"] = drawnAs(pointsRing(0, 0, 150, 0, 0, 100),
		[]want{cutWant(150, 150, 75, 0, 0), mitre(cutWant(root(150*150+100*100), root(150*150+100*100), 75, 50, 180-math.Atan2(100, 150)*180/math.Pi)), cutWant(100, 100, 0, 50, 90)})
	cases["gusset of four sides"] = drawnAs(pointsRing(0, 0, 150, 0, 150, 20, 0, 100),
		[]want{cutWant(150, 150, 75, 0, 0), cutWant(20, 20, 150, 10, 90), mitre(cutWant(170, 170, 75, 60, 180-math.Atan2(80, 150)*180/math.Pi)), cutWant(100, 100, 0, 50, 90)})
	cases["gusset of five sides"] = drawnAs(pointsRing(0, 0, 150, 0, 150, 20, 30, 110, 0, 110),
		[]want{cutWant(150, 150, 75, 0, 0), cutWant(20, 20, 150, 10, 90), {Kind: CornerClip, Length: 150, Long: [2]float64{120, 90}, At: p(90, 65), noAngle: true},
			cutWant(30, 30, 15, 110, 0), cutWant(110, 110, 0, 55, 90)})
	cases["gusset with a snipe"] = drawnAs(pointsRing(15, 0, 150, 0, 0, 100, 0, 15),
		[]want{cutWant(135, 135, 82.5, 0, 0), mitre(cutWant(root(150*150+100*100), root(150*150+100*100), 75, 50, 180-math.Atan2(100, 150)*180/math.Pi)),
			cutWant(85, 85, 0, 57.5, 90), {Kind: CornerClip, Length: 15 * math.Sqrt2, Long: [2]float64{15, 15}, At: p(7.5, 7.5), noAngle: true}})
	cases["obround bar"] = drawnAs(ringOf(pt{0, 0, 0}, pt{100, 0, 1}, pt{100, 40, 0}, pt{0, 40, 1}),
		[]want{cutWant(100, 100, 50, 0, 0), cutWant(100, 100, 50, 40, 0),
			{Kind: ArcCut, Radius: 20, Sweep: math.Pi, Length: 20 * math.Pi, At: p(120, 20)}, {Kind: ArcCut, Radius: 20, Sweep: math.Pi, Length: 20 * math.Pi, At: p(-20, 20)}})
	cases["bar with one round end"] = drawnAs(ringOf(pt{0, 0, 0}, pt{100, 0, 1}, pt{100, 40, 0}, pt{0, 40, 0}),
		[]want{cutWant(100, 100, 50, 0, 0), cutWant(100, 100, 50, 40, 0), cutWant(40, 40, 0, 20, 90), {Kind: ArcCut, Radius: 20, Sweep: math.Pi, Length: 20 * math.Pi, At: p(120, 20)}})
	cases["mitred bar"] = drawnAs(pointsRing(0, 0, 300, 0, 260, 40, 40, 40),
		[]want{cutWant(300, 300, 150, 0, 0), mitre(cutWant(40*math.Sqrt2, 40*math.Sqrt2, 280, 20, 135)), cutWant(220, 220, 150, 40, 0), mitre(cutWant(40*math.Sqrt2, 40*math.Sqrt2, 20, 20, 45))})
	cases["tee"] = drawnAs(pointsRing(40, 0, 60, 0, 60, 80, 100, 80, 100, 100, 0, 100, 0, 80, 40, 80),
		[]want{cutWant(20, 20, 50, 0, 0), cutWant(20, 20, 100, 90, 90), cutWant(100, 100, 50, 100, 0), cutWant(20, 20, 0, 90, 90),
			cornerNotch(40, 80, 80, 40), cornerNotch(40, 80, 20, 40)})
	cases["ell"] = drawnAs(pointsRing(0, 0, 160, 0, 160, 20, 20, 20, 20, 160, 0, 160),
		[]want{cutWant(160, 160, 80, 0, 0), cutWant(20, 20, 160, 10, 90), cutWant(20, 20, 10, 160, 0), cutWant(160, 160, 0, 80, 90), shape(cornerNotch(140, 140, 90, 90))})
	v := vee(20, 15, 2*math.Atan2(10, 15), 90, 20)
	v.In = true
	cases["vee in an ell's inner edge"] = drawnAs(pointsRing(0, 0, 160, 0, 160, 20, 100, 20, 90, 5, 80, 20, 20, 20, 20, 160, 0, 160),
		[]want{cutWant(160, 160, 80, 0, 0), cutWant(20, 20, 160, 10, 90), cutWant(20, 20, 10, 160, 0), cutWant(160, 160, 0, 80, 90), shape(cornerNotch(140, 140, 90, 90)), v})
	cases["u"] = drawnAs(pointsRing(0, 0, 100, 0, 100, 80, 80, 80, 80, 20, 20, 20, 20, 80, 0, 80),
		[]want{cutWant(100, 100, 50, 0, 0), cutWant(80, 80, 100, 40, 90), cutWant(40, 100, 50, 80, 0), cutWant(80, 80, 0, 40, 90), shape(rectN(60, 60, 50, 80))})
	cases["zed"] = drawnAs(pointsRing(0, 0, 60, 0, 60, 40, 100, 40, 100, 60, 40, 60, 40, 20, 0, 20),
		[]want{cutWant(60, 60, 30, 0, 0), cutWant(20, 20, 100, 50, 90), cutWant(60, 60, 70, 60, 0), cutWant(20, 20, 0, 10, 90), cornerNotch(40, 40, 80, 20), cornerNotch(40, 40, 20, 40)})
	cases["plus"] = drawnAs(pointsRing(20, 0, 40, 0, 40, 20, 60, 20, 60, 40, 40, 40, 40, 60, 20, 60, 20, 40, 0, 40, 0, 20, 20, 20),
		[]want{cutWant(20, 20, 30, 0, 0), cutWant(20, 20, 60, 30, 90), cutWant(20, 20, 30, 60, 0), cutWant(20, 20, 0, 30, 90),
			cornerNotch(20, 20, 50, 10), cornerNotch(20, 20, 50, 50), cornerNotch(20, 20, 10, 50), cornerNotch(20, 20, 10, 10)})
	cases["jay"] = drawnAs(pointsRing(0, 0, 100, 0, 100, 80, 80, 80, 80, 20, 20, 20, 20, 50, 0, 50),
		[]want{cutWant(100, 100, 50, 0, 0), cutWant(80, 80, 100, 40, 90), cutWant(20, 20, 90, 80, 0), cutWant(50, 50, 0, 25, 90),
			{Kind: Notch, Shape: NotchStepped, Width: 80, Depth: 60, Long: [2]float64{80, 30}, Steps: [][2]float64{{20, 30}, {60, 60}}, At: p(40, 65), ShapeOfPart: true}})
	// A notch between two edges that are 0.6 degrees out of line.
	cases["taper"] = drawnAs(pointsRing(0, 0, 40, 0, 40, 30, 70, 30, 70, 0.3, 200, 1.6, 200, 100, 0, 100),
		[]want{cutWant(40, 40, 20, 0, 0), cutWant(root(130*130+1.3*1.3), root(130*130+1.3*1.3), 135, 0.95, math.Atan2(1.3, 130)*180/math.Pi), cutWant(98.4, 98.4, 200, 50.8, 90), cutWant(200, 200, 100, 100, 0), cutWant(100, 100, 0, 50, 90),
			{Kind: Notch, Shape: NotchRectangular, Width: 30, Depth: 30, At: p(55, 0.15), tol: 0.4}})
	cases["taper that misses"] = drawnAs(pointsRing(0, 0, 40, 0, 40, 30, 70, 30, 70, 1, 200, 2.6, 200, 100, 0, 100),
		[]want{cutWant(40, 40, 20, 0, 0), cutWant(root(130*130+1.6*1.6), root(130*130+1.6*1.6), 135, 1.8, math.Atan2(1.6, 130)*180/math.Pi), cutWant(97.4, 97.4, 200, 51.3, 90), cutWant(200, 200, 100, 100, 0), cutWant(100, 100, 0, 50, 90),
			{Kind: Notch, Shape: NotchFree, Width: root(901), Depth: 30, At: p(55, 0.5), tol: 1}})
	// Teeth up to both corners: no piece of the toothed edge is left.
	saw := drawnPart{ring: pointsRing(0, 0, 100, 0, 100, 50, 90, 40, 80, 50, 70, 40, 60, 50, 50, 40, 40, 50, 30, 40, 20, 50, 10, 40, 0, 50),
		wants: []want{cutWant(100, 100, 50, 0, 0), cutWant(50, 50, 100, 25, 90), cutWant(50, 50, 0, 25, 90)}}
	for x := 10.0; x < 100; x += 20 {
		saw.wants = append(saw.wants, vee(20, 10, math.Pi/2, x, 50))
	}
	cases["saw from corner to corner"] = saw
	cases["forked end"] = drawnAs(pointsRing(0, 0, 100, 0, 80, 20, 100, 40, 0, 40),
		[]want{cutWant(100, 100, 50, 0, 0), cutWant(100, 100, 50, 40, 0), cutWant(40, 40, 0, 20, 90), vee(40, 20, math.Pi/2, 100, 20)})
	cases["hexagon"] = hexagon(40)
	return cases
}

func hexagon(r float64) drawnPart {
	var v []pt
	var d drawnPart
	for i := 0; i < 6; i++ {
		a, b := float64(i)*math.Pi/3, float64(i+1)*math.Pi/3
		v = append(v, pt{r * math.Cos(a), r * math.Sin(a), 0})
		m := geom.Point{X: r * (math.Cos(a) + math.Cos(b)) / 2, Y: r * (math.Sin(a) + math.Sin(b)) / 2}
		d.wants = append(d.wants, want{Kind: StraightCut, Length: r, Cut: r, At: m, Angle: lineAngle(m.Left())})
	}
	d.ring = ringOf(v...)
	return d
}

// slitRing is a ring 100/60 with a slit 4 wide.
func slitRing() drawnPart {
	h := 2.0
	xo, xi := math.Sqrt(2500-h*h), math.Sqrt(900-h*h)
	so, si := 2*math.Pi-2*math.Asin(h/50), 2*math.Pi-2*math.Asin(h/30)
	return drawnAs(ringOf(pt{xo, h, bulgeOf(so)}, pt{xo, -h, 0}, pt{xi, -h, -bulgeOf(si)}, pt{xi, h, 0}),
		[]want{{Kind: ArcCut, Radius: 50, Sweep: 2 * math.Pi, Length: 50 * so, noAt: true},
			{Kind: Notch, Shape: NotchFree, Width: 4, Depth: 80, Undercut: true, At: geom.Point{X: xo}}})
}

// TestOutlines reads each case as drawn and moved.
func TestOutlines(t *testing.T) {
	cases := outlineCases()
	if len(cases) < 50 {
		t.Fatalf("only %d cases", len(cases))
	}
	for name, d := range cases {
		t.Run(name, func(t *testing.T) {
			for k, m := range []rigid{{cos: 1}, {cos: 0.8, sin: 0.6, shift: geom.Point{X: 30, Y: -500}}, {cos: 0.28, sin: 0.96, mirror: true}} {
				r := m.ring(d.ring)
				for s := range r {
					for _, back := range []bool{false, true} {
						x := append(append(geom.Ring{}, r[s:]...), r[:s]...)
						if back {
							x = x.Reverse()
						}
						fs := recogniseOutline(x)
						if msg := compareWants(fs, d.wants, m, 1e-6) + ownedOnce(fs, len(x)); msg != "" {
							t.Fatalf("rigid %d start %d reversed %v:\n%s", k, s, back, msg)
						}
					}
				}
			}
		})
	}
}
