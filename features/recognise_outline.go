package features

import (
	"fmt"
	"math"
	"sort"

	"burrside/features/geom"
)

// shapeShare: a bite of more than this share of the part's least rectangle is
// the part's shape (the inside of an L or a U), not a notch that a tool makes.
const shapeShare = 0.4

// leastBiteMM: what does not reach into the metal by more, rounding apart, is no
// notch.
const leastBiteMM = 1e-6

// outlineReading collects the features of one outline.
type outlineReading struct {
	ring  geom.Ring
	m     *mender
	owner []int // per span: 1 + index of its feature; 0 none yet
	out   []Feature
	biteF map[int]int // bite -> its feature
}

// recogniseOutline finds the outline's features: notches, clips, radii, arc
// cuts, straight cuts. Every edge of outline is in exactly one Feature.Edges.
// outline is counter-clockwise and free of crossings; of other rings the edges
// are shared out likewise, but the names mean little. Each ID is "#" and the
// index in the result, for the caller to replace; In of a notch in the wall of
// another is the other's. The order is by place (bottom, left of At, 0.001 mm).
func recogniseOutline(outline geom.Ring) []Feature { return readOutline(outline).features }

// outlineFound are the features of an outline. spent tells that the outline was
// too complex to explain every bite, so that some are free notches as wide as
// the hull.
type outlineFound struct {
	features []Feature
	spent    bool
}

// readOutline is recogniseOutline with what it could not do.
func readOutline(outline geom.Ring) outlineFound {
	r := outline
	reversed := isTame(r) && r.Area() < 0
	if reversed {
		r = r.Reverse()
	}
	if len(outline) == 0 {
		return outlineFound{}
	}
	var spans []span
	if isTame(r) {
		spans = compact(r)
	}
	if len(spans) == 0 {
		f := Feature{ID: "#0", Kind: StraightCut, At: outline[0].From, Hole: -1}
		for i := range outline {
			f.Edges = append(f.Edges, i)
		}
		return outlineFound{features: []Feature{f}}
	}
	m := newMender(spans)
	m.mend()
	o := &outlineReading{ring: r, m: m, owner: make([]int, len(spans)), biteF: map[int]int{}}
	o.notches()
	o.edges()
	o.rest()
	for s, w := range o.owner {
		f := &o.out[w-1]
		for k := 0; k < spans[s].n; k++ {
			e := (spans[s].first + k) % len(r)
			if reversed {
				e = len(r) - 1 - e
			}
			f.Edges = append(f.Edges, e)
		}
	}
	return outlineFound{o.sorted(), m.isSpent()}
}

// sorted orders the features by place and finishes them.
func (o *outlineReading) sorted() []Feature {
	order := make([]int, len(o.out))
	for i := range order {
		order[i] = i
		sort.Ints(o.out[i].Edges)
	}
	key := func(f *Feature) [4]float64 {
		return [4]float64{math.Round(f.At.Y * 1000), math.Round(f.At.X * 1000), math.Round(f.WidthMM * 1000), math.Round(f.LengthMM * 1000)}
	}
	sort.SliceStable(order, func(i, j int) bool {
		a, b := &o.out[order[i]], &o.out[order[j]]
		ka, kb := key(a), key(b)
		for k := range ka {
			if ka[k] != kb[k] {
				return ka[k] < kb[k]
			}
		}
		return a.Kind < b.Kind
	})
	at := make([]int, len(order))
	for i, k := range order {
		at[k] = i
	}
	out := make([]Feature, len(order))
	for i, k := range order {
		out[i] = o.out[k]
		out[i].ID = fmt.Sprintf("#%d", i)
	}
	for b, f := range o.biteF {
		if h := o.hostOf(b); h >= 0 {
			out[at[f]].In = out[at[o.biteF[h]]].ID
		}
	}
	return out
}

// hostOf is the bite that holds bite b in a wall, -1 none.
func (o *outlineReading) hostOf(b int) int {
	h := o.m.bites[b].host - 1
	for h >= 0 && o.m.bites[h].into > 0 {
		h = o.m.bites[h].into - 1
	}
	return h
}

// own gives the n spans from first on to feature f, as far as they are free.
func (o *outlineReading) own(f, first, n int) {
	for k := 0; k < n; k++ {
		if s := (first + k) % len(o.owner); o.owner[s] == 0 {
			o.owner[s] = f + 1
		}
	}
}

func (o *outlineReading) add(f Feature) int {
	f.Hole = -1
	o.out = append(o.out, f)
	return len(o.out) - 1
}

// notches makes the features of all bites that no later bite took in: inner
// ones first, as they own their spans.
func (o *outlineReading) notches() {
	sheet := leastRect(o.ring)
	box := o.ring.Bounds()
	reach := box.Min.Dist(box.Max)
	limit := shapeShare * sheet.Width * sheet.Height * (1 + 1e-6) // at the limit it is a notch
	for i := range o.m.bites {
		b := &o.m.bites[i]
		if b.into > 0 {
			continue
		}
		f, clips := o.m.notchFeature(b)
		if f.WidthMM > reach || f.DepthMM > reach {
			o.m.fromChord(&f, b)
		}
		if !(f.DepthMM > leastBiteMM && f.WidthMM > leastBiteMM) {
			continue // nothing was cut into the metal: its sides are cuts
		}
		f.ShapeOfPart = f.AreaMM2 > limit
		for _, c := range clips {
			k := o.add(o.clip(c.sd.e, c.corner))
			o.own(k, c.sd.first, c.sd.n)
		}
		k := o.add(f)
		o.biteF[i] = k
		for n := 0; n < b.n; n++ {
			if s := (b.first + n) % len(o.owner); o.owner[s] == 0 {
				o.owner[s] = k + 1
				o.out[k].PerimeterMM += o.m.spans[s].e.Length()
			}
		}
		for _, j := range []joint{b.start, b.end} {
			o.corner(j)
		}
	}
}

// corner makes the feature of a rounded outside corner.
func (o *outlineReading) corner(j joint) {
	if j.kind == sharpCorner || o.owner[j.arc.first] != 0 {
		return
	}
	e := j.arc.e
	kind := CornerRadius
	if e.Sweep() < 0 || j.kind == reliefCorner {
		kind = ArcCut
	}
	k := o.add(Feature{Kind: kind, At: e.Mid(), RadiusMM: e.Radius, SweepRad: math.Abs(e.Sweep()), LengthMM: e.Length()})
	o.own(k, j.arc.first, j.arc.n)
}

func (o *outlineReading) clip(e geom.Edge, v geom.Point) Feature {
	a, b := v.Dist(e.From), v.Dist(e.To)
	return Feature{Kind: CornerClip, At: e.Mid(), LengthMM: e.Length(), Long: [2]float64{math.Max(a, b), math.Min(a, b)},
		AngleRad: lineAngle(e.StartDir()), From: e.From, To: e.To}
}

// lineAngle is the direction of a line, 0 to pi; what rounds to pi is 0.
func lineAngle(d geom.Point) float64 {
	a := math.Atan2(d.Y, d.X)
	if a < 0 {
		a += math.Pi
	}
	if a > math.Pi-1e-7 || a < 0 {
		a = 0
	}
	return a
}

// rest gives spans that nobody owns features of their own, so that every edge
// has one. Only rings that cross themselves have such spans.
func (o *outlineReading) rest() {
	for s, w := range o.owner {
		if w == 0 {
			e := o.m.spans[s].e
			f := Feature{Kind: StraightCut, At: e.Mid(), LengthMM: e.Length(), CutLengthMM: e.Length(), From: e.From, To: e.To}
			if e.IsArc() {
				f = Feature{Kind: ArcCut, At: e.Mid(), RadiusMM: e.Radius, SweepRad: math.Abs(e.Sweep()), LengthMM: e.Length()}
			} else {
				f.AngleRad = lineAngle(e.StartDir())
			}
			o.own(o.add(f), s, 1)
		}
	}
}
