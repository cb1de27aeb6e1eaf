package plan

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// placing is a rectangle laid round the part in one way, with the cuts that
// this needs; nothing of it depends on thickness, steel or shop.
type placing struct {
	prep    *Prepared
	frame   frame
	l, w    float64
	angle   float64 // of the length, 0 to pi
	run     float64 // the longest straight piece along the length
	corners [4]geom.Point
	round   polygon // the metal of a disc; nil: the rectangle

	needs  *needs
	orders [4]*cutList
	loose  *cutList
}

// cutList is a way to cut the part from a blank: the cuts in order, and the
// straight features that fall with a neighbour's cut.
type cutList struct {
	steps   []step
	sheared []int
}

// step is a cut that is not judged yet.
type step struct {
	Cut
	grindMM  float64 // of a clip: the radius that a grinder would need; 0 no clip
	looseOff float64 // of a mitre that is left to the loose piece: how far off square, rad
	stripMM  float64 // width of the strip that falls and is the work; 0 none
}

func (p *Prepared) place(f frame, l, w float64) *placing {
	a := math.Atan2(f.u.Y, f.u.X)
	if a < -1e-9 {
		a += math.Pi
	}
	if a > math.Pi-1e-9 {
		a -= math.Pi
	}
	if math.Abs(a) < 1e-9 {
		a = 0
	}
	pg := &placing{prep: p, frame: f, l: l, w: w, angle: a}
	for _, e := range p.part.Outline {
		if !e.IsArc() && math.Abs(e.To.Sub(e.From).Unit().Cross(f.u)) < 2e-4 {
			pg.run = max(pg.run, e.Length())
		}
	}
	for i, q := range rectangle(l, w) {
		pg.corners[i] = f.out(q)
	}
	return pg
}

// need gives the needs, worked out once.
func (g *placing) need() *needs {
	g.prep.mu.Lock()
	defer g.prep.mu.Unlock()
	return g.needed()
}

func (g *placing) needed() *needs {
	if g.needs == nil {
		n := g.prep.needsOf(g)
		g.needs = &n
	}
	return g.needs
}

// order gives the cuts off a bar: k is even where the right end leads; from 2 on
// the mitres are left to the loose piece. ok is false where that is nothing new.
func (g *placing) order(k int) (c *cutList, ok bool) {
	g.prep.mu.Lock()
	defer g.prep.mu.Unlock()
	n := *g.needed()
	if k > 1 {
		if n.mitreL == nil && n.mitreR == nil {
			return nil, false
		}
		n = n.loose()
	}
	if g.orders[k] == nil {
		c := g.barOrder(n, k%2 == 0)
		if k > 1 {
			markLoose(c.steps, g.needs)
		}
		g.orders[k] = c
	}
	return g.orders[k], true
}

// markLoose marks the mitres that are cut on the loose piece.
func markLoose(steps []step, n *needs) {
	for i := range steps {
		s := &steps[i]
		for _, m := range []*wanted{n.mitreL, n.mitreR} {
			if m != nil && !s.OnBar && slices.Contains(s.Features, m.feature) {
				s.looseOff = offSquare(m.ln)
			}
		}
	}
}

// piece gives the cuts on a loose blank whose four sides, or rim, are made.
func (g *placing) piece() *cutList {
	g.prep.mu.Lock()
	defer g.prep.mu.Unlock()
	if g.loose == nil {
		metal := g.round
		if metal == nil {
			metal = rectangle(g.l, g.w)
		}
		g.loose = &cutList{}
		g.pieceCuts(g.loose, metal, g.needed().loose().rest)
	}
	return g.loose
}

// barOrder lists the cuts in order when one end leads: the leading end if it is
// not what the cut before left, its clips, the cut-off, and the rest on the piece.
func (g *placing) barOrder(n needs, rightLeads bool) *cutList {
	left := line{at: rectangle(g.l, g.w)[0]}
	left.normal.X = -1
	right := line{at: rectangle(g.l, g.w)[1]}
	right.normal.X = 1
	leftFeats, rightFeats := slices.Clone(n.left), slices.Clone(n.right)
	if n.mitreL != nil {
		left, leftFeats = n.mitreL.ln, append(leftFeats, n.mitreL.feature)
	}
	if n.mitreR != nil {
		right, rightFeats = n.mitreR.ln, append(rightFeats, n.mitreR.feature)
	}
	lead, leadFeats, trail, trailFeats := right, rightFeats, left, leftFeats
	if !rightLeads {
		lead, leadFeats, trail, trailFeats = left, leftFeats, right, rightFeats
	}
	// Equal angles: the cut before left the leading end as it must be (a
	// trapezoid is turned over every other time).
	shared := math.Abs(offSquare(lead)-offSquare(trail)) < 2e-3
	out := &cutList{}
	metal := rectangle(g.l, g.w)
	end := func(ln line, feats []int) {
		keep, _, a, b, chord := metal.split(ln)
		c := Cut{LengthMM: chord, OffSquareRad: offSquare(ln), Features: feats, What: "end cut", OnBar: true, PieceMM: g.l}
		if c.OffSquareRad < 1e-3 {
			c.OffSquareRad, c.LengthMM = 0, g.w // the bar goes on behind the piece
		}
		g.set(&c, polygon{a, b})
		out.steps = append(out.steps, step{Cut: c})
		metal = keep
	}
	if shared {
		metal, _, _, _, _ = metal.split(lead)
	} else {
		end(lead, leadFeats)
	}
	rest := slices.DeleteFunc(slices.Clone(n.rest), func(w wanted) bool {
		keep, off, a, b, chord := metal.split(w.ln)
		if chord < onLine || len(off) < 3 {
			out.sheared = append(out.sheared, w.feature) // already made by a neighbour's cut
			return true
		}
		for _, p := range off {
			if -trail.height(p) < 1 {
				return false // reaches the trailing end: there the bar goes on
			}
		}
		c := Cut{LengthMM: chord, OffSquareRad: offSquare(w.ln), Features: []int{w.feature}, What: cutName(w), OnBar: true, OffcutMM: off.width()}
		g.set(&c, polygon{a, b})
		out.steps = append(out.steps, step{Cut: c, grindMM: w.grind(&c)})
		metal = keep
		return true
	})
	feats := trailFeats
	if shared {
		feats = append(slices.Clone(trailFeats), leadFeats...)
	}
	end(trail, feats)
	g.pieceCuts(out, metal, rest)
	return out
}

// pieceCuts cuts what is left on the loose piece, always the cut next that has
// the least metal to be held by, as every cut takes more away.
func (g *placing) pieceCuts(out *cutList, metal polygon, rest []wanted) {
	rest = slices.Clone(rest)
	for len(rest) > 0 {
		// What the cuts before made on their way needs none of its own.
		rest = slices.DeleteFunc(rest, func(w wanted) bool {
			if metal.above(w.ln) > touchMM {
				return false
			}
			out.sheared = append(out.sheared, w.feature)
			return true
		})
		k, least := 0, math.Inf(1)
		for i := range rest {
			if b := metal.beyond(rest[i].ln); b < least-1e-6 {
				k, least = i, b
			}
		}
		if len(rest) == 0 {
			return
		}
		w := rest[k]
		rest = slices.Delete(rest, k, k+1)
		keep, off, a, b, chord := metal.split(w.ln)
		if chord < onLine || len(off) < 3 {
			out.sheared = append(out.sheared, w.feature)
			continue
		}
		c := Cut{LengthMM: chord, OffSquareRad: offSquare(w.ln), Features: []int{w.feature}, What: cutName(w), HeldMM: keep.beyond(w.ln), OffcutMM: off.width()}
		g.set(&c, polygon{a, b})
		out.steps = append(out.steps, step{Cut: c, grindMM: w.grind(&c)})
		metal = keep
	}
}

// set puts a cut's ends into the drawing's coordinates.
func (g *placing) set(c *Cut, ends polygon) {
	c.From, c.To = g.frame.out(ends[0]), g.frame.out(ends[1])
}

// strip frees a strip from plate, or brings a flat to its width.
func (g *placing) strip(length float64) step {
	n := g.need()
	c := Cut{LengthMM: length, What: "strip cut", OnBar: true, Features: append(slices.Clone(n.low), n.high...)}
	r := rectangle(g.l, g.w)
	g.set(&c, polygon{r[3], r[2]})
	return step{Cut: c, stripMM: g.w}
}

// square puts a cut before all others of a part that comes off plate: one side of
// the plate is cut square first, once for each plate, and what follows is gauged
// from it. It is as long as the cut that frees the strip, and no work of the piece.
func (pl *planner) square() {
	ly := pl.layout
	if ly.blank.Form != "plate" || ly.outside || len(pl.out.Cuts) == 0 || pl.out.Cuts[0].What != "strip cut" {
		return
	}
	r := rectangle(ly.l, ly.w)
	c := Cut{What: squaringCut, LengthMM: pl.out.Cuts[0].LengthMM, OnBar: true, Use: pl.out.Cuts[0].Use}
	c.Use.Aspects = nil // the strip's cut says all there is to say
	ly.set(&c, polygon{r[0], r[1]})
	pl.out.Cuts = slices.Insert(pl.out.Cuts, 0, c)
}

const squaringCut = "squaring cut"

// offFlat cuts a length off a wider flat and the strip off that.
func (g *placing) offFlat(wider float64) []step {
	n, r := g.need(), rectangle(g.l, g.w)
	off := Cut{LengthMM: wider, Features: append(slices.Clone(n.left), n.right...), What: "end cut", OnBar: true, PieceMM: g.l}
	g.set(&off, polygon{r[0], r[3]})
	side := Cut{LengthMM: g.l, Features: n.high, What: "side cut", HeldMM: g.w, OffcutMM: wider - g.w, OffSquareRad: math.Pi / 2}
	g.set(&side, polygon{r[3], r[2]})
	return []step{{Cut: off}, {Cut: side, stripMM: g.w}}
}
