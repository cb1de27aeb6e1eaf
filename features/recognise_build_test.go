package features

import (
	"math"
	"math/rand/v2"

	"burrside/features/geom"
)

// pt is a vertex of a drawn outline with the bulge of the edge that follows.
type pt struct{ x, y, b float64 }

// ringOf makes a ring of vertices with bulges.
func ringOf(v ...pt) geom.Ring {
	var r geom.Ring
	for i, p := range v {
		q := v[(i+1)%len(v)]
		r = append(r, geom.BulgeEdge(geom.Point{X: p.x, Y: p.y}, geom.Point{X: q.x, Y: q.y}, p.b))
	}
	return r
}

// bulgeOf is the bulge of an arc of the given sweep.
func bulgeOf(sweep float64) float64 { return math.Tan(sweep / 4) }

// quarter is the bulge of a quarter circle.
var quarter = bulgeOf(math.Pi / 2)

// want is what a feature must be read as. Zero numbers are wanted zero.
type want struct {
	Kind           Kind
	Shape          NotchShape
	Subkind        string
	Relief         string
	In             bool
	Undercut       bool
	ShapeOfPart    bool
	At             geom.Point
	Width, Length  float64
	Cut, Depth     float64
	Radius, Sweep  float64
	Included       float64
	Bottom, Corner float64
	Long           [2]float64
	Steps          [][2]float64
	Diameter       float64
	Sides          int
	Flats          float64
	Angle          float64
	noAt, noAngle  bool
	tol            float64 // added to the tolerance of this feature
}

// bit is a notch or treatment in the axes of an edge: x along it, y into the metal.
type bit struct {
	v     []pt    // from the mouth's start to its end; the last bulge is not used
	width float64 // along the edge
	wants []want  // At in the bit's axes
}

func walls(v ...pt) []pt { return v }

// rectBit is a rectangular notch with corner radius r, or with dog-bone reliefs of radius rel.
func rectBit(w, d, r, rel float64) bit {
	b := bit{width: w, wants: []want{{Kind: Notch, Shape: NotchRectangular, Width: w, Depth: d, Corner: r, At: geom.Point{X: w / 2}}}}
	switch {
	case rel > 0:
		// A circle of radius rel centred on the corner: three quarters of it are cut.
		s := -bulgeOf(3 * math.Pi / 2)
		b.v = walls(pt{0, 0, 0}, pt{0, d - rel, s}, pt{rel, d, 0}, pt{w - rel, d, s}, pt{w, d - rel, 0}, pt{w, 0, 0})
		b.v[1].b, b.v[3].b = -bulgeOf(3*math.Pi/2), -bulgeOf(3*math.Pi/2)
		b.wants[0].Relief, b.wants[0].Corner = "dog-bone", rel
	case r > 0:
		b.v = walls(pt{0, 0, 0}, pt{0, d - r, -quarter}, pt{r, d, 0}, pt{w - r, d, -quarter}, pt{w, d - r, 0}, pt{w, 0, 0})
	default:
		b.v = walls(pt{0, 0, 0}, pt{0, d, 0}, pt{w, d, 0}, pt{w, 0, 0})
	}
	return b
}

// veeBit is a vee with its tip at x = k w.
func veeBit(w, d, k float64) bit {
	a := math.Atan2(k*w, d) + math.Atan2((1-k)*w, d)
	return bit{v: walls(pt{0, 0, 0}, pt{k * w, d, 0}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchVee, Width: w, Depth: d, Included: a, At: geom.Point{X: w / 2}}}}
}

// roundVeeBit is a symmetric vee with a tip of radius r; d is to the virtual tip.
func roundVeeBit(w, d, r float64) bit {
	half := math.Atan2(w/2, d)
	sweep := math.Pi - 2*half
	t := r / math.Tan(half) // from the tip to the tangent points, along the sides
	sx, sy := math.Sin(half)*t, math.Cos(half)*t
	deep := d - r/math.Sin(half) + r
	return bit{v: walls(pt{0, 0, 0}, pt{w/2 - sx, d - sy, -bulgeOf(sweep)}, pt{w/2 + sx, d - sy, 0}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchVee, Width: w, Depth: deep, Included: 2 * half, Corner: r, At: geom.Point{X: w / 2}}}}
}

// slotBit is an open slot.
func slotBit(w, d float64) bit {
	return bit{v: walls(pt{0, 0, 0}, pt{0, d - w/2, -1}, pt{w, d - w/2, 0}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchOpenSlot, Width: w, Depth: d, Radius: w / 2, At: geom.Point{X: w / 2}}}}
}

// roundBit is a bite of a circle of radius r, with the given sweep.
func roundBit(r, sweep float64) bit {
	w := 2 * r * math.Sin(sweep/2)
	return bit{v: walls(pt{0, 0, -bulgeOf(sweep)}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchRound, Width: w, Depth: r - r*math.Cos(sweep/2), Radius: r, Undercut: sweep > math.Pi+0.1, At: geom.Point{X: w / 2}}}}
}

// trapezoidBit has a bottom of width b from x = x0 on.
func trapezoidBit(w, b, x0, d float64) bit {
	return bit{v: walls(pt{0, 0, 0}, pt{x0, d, 0}, pt{x0 + b, d, 0}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchTrapezoid, Width: w, Depth: d, Bottom: b, At: geom.Point{X: w / 2}}}}
}

// steppedBit has floors of the given widths and depths.
func steppedBit(steps ...[2]float64) bit {
	var b bit
	x, deep := 0.0, 0.0
	b.v = append(b.v, pt{0, 0, 0})
	for _, s := range steps {
		b.v = append(b.v, pt{x, s[1], 0}, pt{x + s[0], s[1], 0})
		x += s[0]
		deep = math.Max(deep, s[1])
	}
	b.v = append(b.v, pt{x, 0, 0})
	b.width = x
	b.wants = []want{{Kind: Notch, Shape: NotchStepped, Width: x, Depth: deep, Steps: leastOrder(steps), At: geom.Point{X: x / 2}}}
	return b
}

// teeBit is a slot that widens below the mouth.
func teeBit(w, d, wide, deep float64) bit {
	s := (wide - w) / 2
	return bit{v: walls(pt{0, 0, 0}, pt{0, d, 0}, pt{-s, d, 0}, pt{-s, deep, 0}, pt{w + s, deep, 0}, pt{w + s, d, 0}, pt{w, d, 0}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchFree, Undercut: true, Width: w, Depth: deep, At: geom.Point{X: w / 2}}}}
}

// sawBit is n touching vees.
func sawBit(n int, w, d float64) bit {
	b := bit{width: float64(n) * w, v: []pt{{0, 0, 0}}}
	for i := 0; i < n; i++ {
		x := float64(i) * w
		b.v = append(b.v, pt{x + w/2, d, 0}, pt{x + w, 0, 0})
		b.wants = append(b.wants, want{Kind: Notch, Shape: NotchVee, Width: w, Depth: d, Included: 2 * math.Atan2(w/2, d), At: geom.Point{X: x + w/2}})
	}
	return b
}

// hostBit is a rectangular notch with a vee in its floor.
func hostBit(w, d, vw, vd, at float64) bit {
	return bit{v: walls(pt{0, 0, 0}, pt{0, d, 0}, pt{at, d, 0}, pt{at + vw/2, d + vd, 0}, pt{at + vw, d, 0}, pt{w, d, 0}, pt{w, 0, 0}), width: w,
		wants: []want{
			{Kind: Notch, Shape: NotchRectangular, Width: w, Depth: d, At: geom.Point{X: w / 2}},
			{Kind: Notch, Shape: NotchVee, Width: vw, Depth: vd, Included: 2 * math.Atan2(vw/2, vd), In: true, At: geom.Point{X: at + vw/2, Y: d}},
		}}
}

// mitredWalls is a rectangular notch with clips at both mouth corners.
func clippedBit(w, d, c float64) bit {
	l := c * math.Sqrt2
	return bit{v: walls(pt{0, 0, 0}, pt{c, c, 0}, pt{c, d, 0}, pt{c + w, d, 0}, pt{c + w, c, 0}, pt{w + 2*c, 0, 0}), width: w + 2*c,
		wants: []want{
			{Kind: Notch, Shape: NotchRectangular, Width: w, Depth: d, At: geom.Point{X: c + w/2}},
			{Kind: CornerClip, Length: l, Long: [2]float64{c, c}, At: geom.Point{X: c / 2, Y: c / 2}, noAngle: true},
			{Kind: CornerClip, Length: l, Long: [2]float64{c, c}, At: geom.Point{X: w + 2*c - c/2, Y: c / 2}, noAngle: true},
		}}
}

// lipBit is a rectangular notch with rounded mouth corners of radius r.
func lipBit(w, d, r float64) bit {
	k := r * (1 - math.Sqrt2/2)
	return bit{v: walls(pt{-r, 0, quarter}, pt{0, r, 0}, pt{0, d, 0}, pt{w, d, 0}, pt{w, r, quarter}, pt{w + r, 0, 0}), width: w,
		wants: []want{
			{Kind: Notch, Shape: NotchRectangular, Width: w, Depth: d, At: geom.Point{X: w / 2}},
			{Kind: CornerRadius, Radius: r, Sweep: math.Pi / 2, Length: r * math.Pi / 2, At: geom.Point{X: -k, Y: k}},
			{Kind: CornerRadius, Radius: r, Sweep: math.Pi / 2, Length: r * math.Pi / 2, At: geom.Point{X: w + k, Y: k}},
		}}
}

// freeBit is a bite that has no name.
func freeBit(w, d float64) bit {
	return bit{v: walls(pt{0, 0, 0}, pt{0.1 * w, d, 0}, pt{0.5 * w, 0.6 * d, 0}, pt{0.8 * w, 0.9 * d, 0}, pt{w, 0, 0}), width: w,
		wants: []want{{Kind: Notch, Shape: NotchFree, Width: w, Depth: d, At: geom.Point{X: w / 2}}}}
}

// cornerBit is what is done to a corner of a polygon: how much of the edge
// before and after it takes, and the points between, in axes with the corner
// at the origin, x against the direction of the edge before (so along it away
// from the corner), y along the edge after. Its wants are in these axes.
type cornerBit struct {
	before, after float64
	v             []pt
	wants         []want
}

func sharpBit() cornerBit { return cornerBit{v: []pt{{0, 0, 0}}} }

// For a right-angled corner.
func clipBit(a, b float64) cornerBit {
	return cornerBit{before: a, after: b, v: walls(pt{a, 0, 0}, pt{0, b, 0}),
		wants: []want{{Kind: CornerClip, Length: math.Sqrt(a*a + b*b), Long: [2]float64{math.Max(a, b), math.Min(a, b)}, At: geom.Point{X: a / 2, Y: b / 2}, noAngle: true}}}
}

func radiusBit(r float64) cornerBit {
	k := r * (1 - math.Sqrt2/2)
	return cornerBit{before: r, after: r, v: walls(pt{r, 0, quarter}, pt{0, r, 0}),
		wants: []want{{Kind: CornerRadius, Radius: r, Sweep: math.Pi / 2, Length: r * math.Pi / 2, At: geom.Point{X: k, Y: k}}}}
}

// notchBit is a corner notch a along the edge before by b along the edge after.
func notchBit(a, b, r float64) cornerBit {
	c := cornerBit{before: a, after: b, v: walls(pt{a, 0, 0}, pt{a, b, 0}, pt{0, b, 0})}
	if r > 0 {
		c.v = walls(pt{a, 0, 0}, pt{a, b - r, -quarter}, pt{a - r, b, 0}, pt{0, b, 0})
	}
	c.wants = []want{{Kind: Notch, Shape: NotchCorner, Width: math.Max(a, b), Depth: math.Min(a, b), Corner: r,
		Long: [2]float64{math.Max(a, b), math.Min(a, b)}, At: geom.Point{X: a / 2, Y: b / 2}}}
	return c
}

// arcNotchBit is a cope by a quarter circle about the corner.
func arcNotchBit(r float64) cornerBit {
	return cornerBit{before: r, after: r, v: walls(pt{r, 0, -quarter}, pt{0, r, 0}),
		wants: []want{{Kind: Notch, Shape: NotchRound, Width: r, Depth: r, Radius: r, Long: [2]float64{r, r}, At: geom.Point{X: r / 2, Y: r / 2}}}}
}

// stairBit is a corner notch of two steps: a1 x b1 and a2 x b2 with a1 > a2, b1 < b2.
func stairBit(a1, b1, a2, b2 float64) cornerBit {
	c := cornerBit{before: a1, after: b2, v: walls(pt{a1, 0, 0}, pt{a1, b1, 0}, pt{a2, b1, 0}, pt{a2, b2, 0}, pt{0, b2, 0})}
	// Mouth along the edge before: floors a1-a2 deep b1, a2 deep b2.
	one := leastOrder([][2]float64{{a1 - a2, b1}, {a2, b2}})
	two := leastOrder([][2]float64{{b1, a1}, {b2 - b1, a2}})
	w := want{Kind: Notch, Shape: NotchStepped, Width: a1, Depth: b2, Steps: one, Long: [2]float64{math.Max(a1, b2), math.Min(a1, b2)}, At: geom.Point{X: a1 / 2, Y: b2 / 2}}
	if b2 > a1 {
		w.Width, w.Depth, w.Steps = b2, a1, two
	}
	c.wants = []want{w}
	return c
}

// notchAndClipBit is a corner notch whose mouth corner on the edge before is clipped.
func notchAndClipBit(a, b, k float64) cornerBit {
	c := cornerBit{before: a + k, after: b, v: walls(pt{a + k, 0, 0}, pt{a, k, 0}, pt{a, b, 0}, pt{0, b, 0})}
	c.wants = append(notchBit(a, b, 0).wants, want{Kind: CornerClip, Length: k * math.Sqrt2, Long: [2]float64{k, k}, At: geom.Point{X: a + k/2, Y: k / 2}, noAngle: true})
	return c
}

// drawnPart is a part as drawn, with what must be read from it.
type drawnPart struct {
	ring  geom.Ring
	wants []want
	gross float64 // area before anything was cut off; 0 not stated
}

func drawnAs(r geom.Ring, ws []want) drawnPart { return drawnPart{ring: r, wants: ws} }

// placedBit is a bit at a distance along an edge.
type placedBit struct {
	at float64
	bit
}

// polygonPart draws a convex polygon with treated corners and notched edges.
// skew[i] tells that edge i (from corner i to i+1) is a mitre; clip[i] that it
// is read as a corner clip with these legs.
func polygonPart(poly []geom.Point, cs []cornerBit, edges [][]placedBit, skew []bool, clip [][2]float64) drawnPart {
	n := len(poly)
	var v []pt
	var d drawnPart
	for i := range poly {
		prev, at, next := poly[(i+n-1)%n], poly[i], poly[(i+1)%n]
		ux, uy := prev.Sub(at).Unit(), next.Sub(at).Unit()
		in := func(p geom.Point) geom.Point { return at.Add(ux.Mul(p.X)).Add(uy.Mul(p.Y)) }
		for _, p := range cs[i].v {
			q := in(geom.Point{X: p.x, Y: p.y})
			v = append(v, pt{q.X, q.Y, p.b})
		}
		for _, w := range cs[i].wants {
			w.At = in(w.At)
			d.wants = append(d.wants, w)
		}
		// The edge.
		l := at.Dist(next)
		a, z := cs[i].after, l-cs[(i+1)%n].before
		u, up := uy, uy.Left()
		on := func(p geom.Point) geom.Point { return at.Add(u.Mul(p.X)).Add(up.Mul(p.Y)) }
		metal := z - a
		for _, b := range edges[i] {
			first, last := b.at+b.v[0].x, b.at+b.v[len(b.v)-1].x
			for _, p := range b.v {
				q := on(geom.Point{X: b.at + p.x, Y: p.y})
				v = append(v, pt{q.X, q.Y, p.b})
			}
			v[len(v)-1].b = 0
			for _, w := range b.wants {
				w.At = on(geom.Point{X: b.at + w.At.X, Y: w.At.Y})
				d.wants = append(d.wants, w)
			}
			metal -= last - first
		}
		w := want{Kind: StraightCut, Length: metal, Cut: z - a, At: on(geom.Point{X: (a + z) / 2}), Angle: lineAngle(u)}
		if skew != nil && skew[i] {
			w.Subkind = "mitre"
		}
		if clip != nil && clip[i] != [2]float64{} {
			w = want{Kind: CornerClip, Length: metal, Long: clip[i], At: w.At, Angle: w.Angle}
		}
		d.wants = append(d.wants, w)
	}
	d.ring = ringOf(dedupe(v)...)
	d.gross = geom.RingOf(poly...).Area()
	for _, c := range clip {
		d.gross += c[0] * c[1] / 2
	}
	return d
}

// dedupe drops vertices that coincide with the one after.
func dedupe(v []pt) []pt {
	var out []pt
	for i, p := range v {
		q := v[(i+1)%len(v)]
		if math.Abs(p.x-q.x)+math.Abs(p.y-q.y) < 1e-9 {
			continue
		}
		out = append(out, p)
	}
	return out
}

// discPart draws a disc with notches centred at the given angles. Each bit is
// drawn in the axes of its chord.
func discPart(r float64, angles []float64, bits []bit) drawnPart {
	d := drawnPart{gross: math.Pi * r * r}
	if len(bits) == 0 {
		d.ring = geom.Ring{geom.CircleEdge(geom.Point{}, r)}
		d.wants = []want{{Kind: ArcCut, Radius: r, Sweep: 2 * math.Pi, Length: 2 * math.Pi * r, noAt: true}}
		return d
	}
	var v []pt
	length := 2 * math.Pi * r
	half := make([]float64, len(bits))
	for i, b := range bits {
		half[i] = math.Asin(b.width / 2 / r)
		length -= 2 * half[i] * r
	}
	for i, b := range bits {
		c := geom.Point{X: math.Cos(angles[i]), Y: math.Sin(angles[i])}
		u, up := c.Left(), c.Mul(-1)
		mid := c.Mul(r * math.Cos(half[i]))
		bulge := r - r*math.Cos(half[i])
		on := func(p geom.Point) geom.Point { return mid.Add(u.Mul(p.X - b.width/2)).Add(up.Mul(p.Y)) }
		for _, p := range b.v {
			q := on(geom.Point{X: p.x, Y: p.y})
			v = append(v, pt{q.X, q.Y, p.b})
		}
		next := angles[(i+1)%len(bits)] - half[(i+1)%len(bits)]
		sweep := math.Mod(next-angles[i]-half[i]+4*math.Pi, 2*math.Pi)
		v[len(v)-1].b = bulgeOf(sweep)
		for _, w := range b.wants {
			w.At = on(w.At)
			w.Depth += bulge
			d.wants = append(d.wants, w)
		}
	}
	d.ring = ringOf(v...)
	d.wants = append(d.wants, want{Kind: ArcCut, Radius: r, Sweep: 2 * math.Pi, Length: length, noAt: true})
	return d
}

// rigid is a random turn, mirror and shift.
type rigid struct {
	cos, sin float64
	mirror   bool
	shift    geom.Point
}

func (m rigid) point(p geom.Point) geom.Point {
	if m.mirror {
		p.Y = -p.Y
	}
	return geom.Point{X: m.cos*p.X - m.sin*p.Y + m.shift.X, Y: m.sin*p.X + m.cos*p.Y + m.shift.Y}
}

func (m rigid) line(a float64) float64 {
	d := m.point(geom.Point{X: math.Cos(a), Y: math.Sin(a)}).Sub(m.shift)
	return lineAngle(d)
}

func (m rigid) ring(r geom.Ring) geom.Ring {
	out := make(geom.Ring, len(r))
	for i, e := range r {
		e.From, e.To = m.point(e.From), m.point(e.To)
		if e.IsArc() {
			e.Centre = m.point(e.Centre)
			e.CCW = e.CCW != m.mirror
		}
		out[i] = e
	}
	if m.mirror {
		out = out.Reverse()
	}
	return out
}

func randomRigid(rng *rand.Rand) rigid {
	a := rng.Float64() * 2 * math.Pi
	if rng.IntN(4) == 0 {
		a = float64(rng.IntN(4)) * math.Pi / 2
	}
	s, c := math.Sincos(a)
	return rigid{c, s, rng.IntN(2) == 0, geom.Point{X: rng.Float64()*2000 - 1000, Y: rng.Float64()*2000 - 1000}}
}

// bulgeOfEdge is the bulge of an edge; arcs of 350 degrees and more give large ones.
func bulgeOfEdge(e geom.Edge) float64 {
	if !e.IsArc() {
		return 0
	}
	return bulgeOf(e.Sweep())
}

// disturb splits edges, moves the start and shakes the vertices by up to
// jitter in each direction.
func disturb(rng *rand.Rand, r geom.Ring, jitter float64) geom.Ring {
	type vb struct {
		p geom.Point
		b float64
	}
	var v []vb
	for _, e := range r {
		cuts := 0
		if l := e.Length(); l > 4 && rng.IntN(4) == 0 {
			cuts = 1 + rng.IntN(2)
		}
		if e.IsCircle() {
			cuts = 2 + rng.IntN(3)
		}
		b := bulgeOfEdge(e)
		if e.IsCircle() {
			b = bulgeOf(2 * math.Pi / float64(cuts))
			for k := 0; k < cuts; k++ {
				v = append(v, vb{e.At(float64(k) / float64(cuts)), b})
			}
			continue
		}
		if e.IsArc() && math.Abs(e.Sweep()) > 5 && cuts == 0 {
			cuts = 1
		}
		if cuts > 0 && e.IsArc() {
			b = bulgeOf(e.Sweep() / float64(cuts+1))
		}
		for k := 0; k <= cuts; k++ {
			v = append(v, vb{e.At(float64(k) / float64(cuts+1)), b})
		}
	}
	n := len(v)
	k := rng.IntN(n)
	v = append(append([]vb{}, v[k:]...), v[:k]...)
	for i := range v {
		v[i].p.X += (rng.Float64()*2 - 1) * jitter
		v[i].p.Y += (rng.Float64()*2 - 1) * jitter
	}
	out := make(geom.Ring, n)
	for i := range v {
		out[i] = geom.BulgeEdge(v[i].p, v[(i+1)%n].p, v[i].b)
	}
	return out
}
