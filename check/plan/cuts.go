package plan

import (
	"fmt"
	"math"
	"slices"

	"burrside/check/station"
)

// judge asks every machine, and other processes, for a cut.
func (pl *planner) judge(c Cut) Cut {
	if !pl.known() {
		c.Use = pl.unknownUse("shear")
		return c
	}
	var uses []station.Use
	for _, m := range pl.machines {
		uses = append(uses, station.Shear(pl.prof, m, pl.pc, station.CutRequest{
			LengthMM: c.LengthMM, OffSquareRad: c.OffSquareRad, OnBar: c.OnBar, HeldMM: c.HeldMM, OffcutMM: c.OffcutMM}))
	}
	kinds := []string{"thermal", "bought-cutting"}
	q := station.ProcessRequest{DiameterMM: c.LengthMM}
	if pl.saws(&c) {
		kinds = append([]string{"saw"}, kinds...)
	}
	if c.What == "clip" && len(c.Features) == 1 {
		// A clip no longer than the grinder's radius is ground like one.
		ft := &pl.part.Features[c.Features[0]]
		g := q
		g.RadiusMM = max(ft.Long[0], ft.Long[1])
		if g.RadiusMM == 0 {
			g.RadiusMM = c.LengthMM / math.Sqrt2
		}
		uses = pl.offer(uses, []string{"grinder"}, "shear-row", g)
	}
	uses = pl.offer(uses, kinds, "shear-row", q)
	if len(uses) == 0 {
		uses = []station.Use{{Station: "shear", Aspects: []station.Aspect{{Rule: "shear-row", Grade: station.Fail, Text: "no shear in this shop"}}}}
	}
	route(uses, nil)
	c.Use, c.Tried = pickUse(uses)
	return c
}

// saws tells whether a saw may make a cut: one across a bar always; one on a
// loose piece if it is no longer than the saw is stated to take, or than
// looseSawMM where nothing is stated; never one that frees a strip from plate.
func (pl *planner) saws(c *Cut) bool {
	switch c.What {
	case "strip cut":
		return false
	case "end cut":
		return true
	}
	most := pl.prof.Process("saw").MaxDiameterMM
	if most == 0 {
		most = looseSawMM
	}
	return c.LengthMM <= most
}

// looseSawMM is the longest cut that is taken to be sawn in a loose piece of
// plate, by hand or on a band saw; common practice, no source.
const looseSawMM = 300

// pickUse takes the first use. Where all fail, the machine's own failure says
// more than that of a process which the shop may not even have.
func pickUse(uses []station.Use) (best station.Use, tried []station.Use) {
	k := 0
	if uses[0].Grade() == station.Fail {
		if m := slices.IndexFunc(uses, func(u station.Use) bool { return !isProcess(u) }); m >= 0 {
			k = m
		}
	}
	tried = append(append(tried, uses[:k]...), uses[k+1:]...)
	return uses[k], tried
}

// stripCut frees a strip from plate, or brings a flat to its width.
func (pl *planner) stripCut(ly *layout, length float64) Cut {
	n := pl.needsOf(&layout{frame: ly.frame, l: ly.l, w: ly.w})
	c := Cut{LengthMM: length, What: "strip cut", OnBar: true, Features: append(slices.Clone(n.low), n.high...)}
	r := rectangle(ly.l, ly.w)
	ly.place(&c, polygon{r[3], r[2]})
	return pl.judge(c)
}

// barCuts plans the cuts of a part that is cut off a bar or strip whose sides
// are there already, of the kind given. Either end may lead; what the leading
// end needs is cut while the bar is held. Mitres are cut on the bar, or on the
// loose piece where only that works.
func (pl *planner) barCuts(ly *layout, side EdgeKind) {
	n := pl.needsOf(ly)
	for _, i := range append(slices.Clone(n.low), n.high...) {
		ly.sides[i] = side
	}
	var best []Cut
	var bestBad [3]int
	loose := n.loose()
	for k, order := range []struct {
		needs      needs
		rightLeads bool
	}{{n, true}, {n, false}, {loose, true}, {loose, false}} {
		if k > 1 && n.mitreL == nil && n.mitreR == nil {
			break
		}
		cuts := pl.barOrder(ly, order.needs, order.rightLeads)
		if k > 1 {
			sayLoose(cuts, n)
		}
		bad := [3]int{} // the worst grade, cuts in trouble, cuts on the loose piece
		for _, c := range cuts {
			g := c.Use.Grade()
			bad[0] = max(bad[0], int(g))
			if g > station.Remark {
				bad[1]++
			}
			if !c.OnBar {
				bad[2]++
			}
		}
		if bad[0] == int(station.Remark) {
			bad[0] = int(station.OK)
		}
		if best == nil || slices.Compare(bad[:], bestBad[:]) < 0 {
			best, bestBad = cuts, bad
		}
		if bestBad == [3]int{} {
			break
		}
	}
	ly.cuts = best
}

// sayLoose makes mitres on the loose piece a matter of care: another cut, set to
// a mark.
func sayLoose(cuts []Cut, n needs) {
	for i := range cuts {
		c := &cuts[i]
		for _, m := range []*wanted{n.mitreL, n.mitreR} {
			if m == nil || c.OnBar || !slices.Contains(c.Features, m.feature) {
				continue
			}
			off := offSquare(m.ln) * 180 / math.Pi
			a := station.Aspect{Rule: "mitre", Grade: station.Care, Got: off, HasGot: true, Unit: "deg",
				Text: fmt.Sprintf("the bar is not cut at %.0f deg off square: the mitre is cut on the loose piece", off),
				Fix:  "cut it off square first, then the mitre to a mark", FixBy: "shop"}
			for _, u := range append([]*station.Use{&c.Use}, pointers(c.Tried)...) {
				if u.Station == "shear" {
					u.Aspects = append(u.Aspects, a)
				}
			}
		}
	}
}

func pointers(us []station.Use) []*station.Use {
	var ps []*station.Use
	for i := range us {
		ps = append(ps, &us[i])
	}
	return ps
}

// barOrder lists the cuts in order when one end leads: the leading end if it is
// not what the cut before left, its clips, the cut-off, and the rest on the piece.
func (pl *planner) barOrder(ly *layout, n needs, rightLeads bool) []Cut {
	left := line{at: rectangle(ly.l, ly.w)[0]}
	left.normal.X = -1
	right := line{at: rectangle(ly.l, ly.w)[1]}
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
	var cuts []Cut
	metal := rectangle(ly.l, ly.w)
	end := func(ln line, feats []int) {
		keep, _, a, b, chord := metal.split(ln)
		c := Cut{LengthMM: chord, OffSquareRad: offSquare(ln), Features: feats, What: "end cut", OnBar: true}
		if c.OffSquareRad < 1e-3 {
			c.OffSquareRad, c.LengthMM = 0, ly.w // the bar goes on behind the piece
		}
		ly.place(&c, polygon{a, b})
		cuts = append(cuts, pl.judge(c))
		metal = keep
	}
	if shared {
		metal, _, _, _, _ = metal.split(lead)
	} else {
		end(lead, leadFeats)
	}
	rest := slices.Clone(n.rest)
	rest = slices.DeleteFunc(rest, func(w wanted) bool {
		keep, off, a, b, chord := metal.split(w.ln)
		if chord < onLine {
			ly.sides[w.feature] = EdgeSheared // already made by a neighbour's cut
			return true
		}
		for _, p := range off {
			if -trail.height(p) < 1 {
				return false // reaches the trailing end: there the bar goes on
			}
		}
		c := Cut{LengthMM: chord, OffSquareRad: offSquare(w.ln), Features: []int{w.feature}, What: cutName(w), OnBar: true, OffcutMM: off.width()}
		ly.place(&c, polygon{a, b})
		cuts = append(cuts, pl.judge(c))
		metal = keep
		return true
	})
	feats := trailFeats
	if shared {
		feats = append(slices.Clone(trailFeats), leadFeats...)
	}
	end(trail, feats)
	return append(cuts, pl.pieceCuts(ly, metal, rest)...)
}

// pieceCuts cuts what is left on the loose piece, always the cut next that has
// the least metal to be held by, as every cut takes more away.
func (pl *planner) pieceCuts(ly *layout, metal polygon, rest []wanted) []Cut {
	var cuts []Cut
	for len(rest) > 0 {
		k := 0
		for i := range rest {
			if metal.beyond(rest[i].ln) < metal.beyond(rest[k].ln)-1e-6 {
				k = i
			}
		}
		w := rest[k]
		rest = slices.Delete(rest, k, k+1)
		keep, off, a, b, chord := metal.split(w.ln)
		if chord < onLine || len(off) < 3 {
			ly.sides[w.feature] = EdgeSheared
			continue
		}
		c := Cut{LengthMM: chord, OffSquareRad: offSquare(w.ln), Features: []int{w.feature}, What: cutName(w), HeldMM: keep.beyond(w.ln), OffcutMM: off.width()}
		ly.place(&c, polygon{a, b})
		cuts = append(cuts, pl.judge(c))
		metal = keep
	}
	return cuts
}

// givenCuts plans the cuts on a blank that comes with its four sides made.
func (pl *planner) givenCuts(ly *layout) {
	n := pl.needsOf(ly)
	for _, is := range [][]int{n.low, n.high, n.left, n.right} {
		for _, i := range is {
			ly.sides[i] = EdgeUnknown
		}
	}
	ly.cuts = pl.pieceCuts(ly, rectangle(ly.l, ly.w), n.loose().rest)
}

// stripCuts cuts a length off a wider flat, the strip off that, and the rest.
func (pl *planner) stripCuts(ly *layout, wider float64) {
	n := pl.needsOf(ly)
	for _, i := range n.low {
		ly.sides[i] = EdgeMill
	}
	r := rectangle(ly.l, ly.w)
	off := Cut{LengthMM: wider, Features: append(slices.Clone(n.left), n.right...), What: "end cut", OnBar: true}
	ly.place(&off, polygon{r[0], r[3]})
	side := Cut{LengthMM: ly.l, Features: n.high, What: "side cut", HeldMM: ly.w, OffcutMM: wider - ly.w, OffSquareRad: math.Pi / 2}
	ly.place(&side, polygon{r[3], r[2]})
	ly.cuts = append([]Cut{pl.judge(off), pl.judge(side)}, pl.pieceCuts(ly, r, n.loose().rest)...)
}
