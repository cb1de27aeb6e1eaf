package plan

import (
	"fmt"
	"math"
	"slices"

	"burrside/check/station"
)

// request is what a shear is asked for.
func (s *step) request() station.CutRequest {
	return station.CutRequest{LengthMM: s.LengthMM, OffSquareRad: s.OffSquareRad, OnBar: s.OnBar, HeldMM: s.HeldMM, OffcutMM: s.OffcutMM, StripMM: s.stripMM, PieceMM: s.PieceMM}
}

// others lists the processes beside the machines that may make a cut, in the
// order in which they are asked.
func (pl *planner) others(s *step) []string {
	kinds := [4]string{"grinder", "saw", "thermal", "bought-cutting"}
	all := kinds[:0]
	for _, k := range kinds {
		switch {
		case k == "grinder" && s.grindMM == 0, k == "saw" && !pl.saws(&s.Cut):
			continue
		}
		all = append(all, k)
	}
	return all
}

// asked is what a process is asked for: a clip no longer than the grinder's
// radius is ground like one.
func (pl *planner) asked(s *step, kind string) station.ProcessRequest {
	q := station.ProcessRequest{Kind: kind, DiameterMM: s.LengthMM, ThicknessMM: pl.pc.ThicknessMM}
	if kind == "grinder" {
		q.RadiusMM = s.grindMM
	}
	return q
}

// judge asks every machine, and other processes, for a cut.
func (pl *planner) judge(s *step) Cut {
	c := s.Cut
	c.Features = slices.Clone(c.Features)
	switch {
	case !pl.known():
		c.Use = pl.unknownUse("shear")
	default:
		var uses []station.Use
		for _, m := range pl.machines {
			uses = append(uses, station.Shear(pl.prof, m, pl.pc, s.request()))
		}
		for _, k := range pl.others(s) {
			uses = pl.offer(uses, []string{k}, "shear-row", pl.asked(s, k))
		}
		route(uses, nil)
		c.Use, c.Tried = pickUse(uses)
	}
	if s.looseOff > 0 {
		sayLoose(&c, s.looseOff)
	}
	return c
}

// gradeOf is the grade of the use that judge picks, without working out its
// words; process tells that no machine makes the cut as well.
func (pl *planner) gradeOf(s *step) (g station.Grade, process bool) {
	if !pl.known() {
		return station.Unknown, false
	}
	g, process = station.Fail, len(pl.machines) == 0
	q := s.request()
	for _, m := range pl.machines {
		g = min(g, station.ShearGrade(pl.prof, m, pl.pc, q))
	}
	if process || g > station.Remark {
		for _, k := range pl.others(s) {
			if o := station.OtherGrade(pl.prof, pl.asked(s, k)); o < g {
				g, process = o, true
			}
		}
	}
	if s.looseOff > 0 && !process {
		g = max(g, station.Care)
	}
	return g, process
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
	return c.LengthMM <= pl.sawMost()
}

// sawMost is the longest cut that the saw takes in a loose piece.
func (pl *planner) sawMost() float64 {
	if most := pl.prof.Process("saw").MaxDiameterMM; most > 0 {
		return most
	}
	return looseSawMM
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

// sayLoose makes a mitre on the loose piece a matter of care: another cut, set
// to a mark.
func sayLoose(c *Cut, offRad float64) {
	off := offRad * 180 / math.Pi
	a := station.Aspect{Rule: "mitre", Grade: station.Care, Got: off, HasGot: true, Unit: "deg",
		Text: fmt.Sprintf("the bar is not cut at %.0f deg off square: the mitre is cut on the loose piece", off),
		Fix:  "cut it off square first, then the mitre to a mark", FixBy: "shop"}
	if c.Use.Station == "shear" {
		c.Use.Aspects = append(c.Use.Aspects, a)
	}
	for i := range c.Tried {
		if u := &c.Tried[i]; u.Station == "shear" {
			u.Aspects = append(u.Aspects, a)
		}
	}
}

// standing is how a list of cuts does: the worst grade (a remark is no
// trouble), the cuts in trouble, the cuts on the loose piece.
type standing [3]int

// stands judges a list of cuts, once for a plan.
func (pl *planner) stands(c *cutList) standing {
	if st, ok := pl.standings[c]; ok {
		return st
	}
	var st standing
	for i := range c.steps {
		g, _ := pl.gradeOf(&c.steps[i])
		st[0] = max(st[0], int(g))
		if g > station.Remark {
			st[1]++
		}
		if !c.steps[i].OnBar {
			st[2]++
		}
	}
	if st[0] == int(station.Remark) {
		st[0] = int(station.OK)
	}
	pl.standings[c] = st
	return st
}

// barCuts picks the cuts of a part that is cut off a bar or strip. Either end may
// lead; what the leading end needs is cut while the bar is held. Mitres are cut on
// the bar, or on the loose piece where only that works.
func (pl *planner) barCuts(g *placing) *cutList {
	var best *cutList
	var bestAt standing
	for k := range g.orders {
		c, ok := g.order(k)
		if !ok {
			break
		}
		at := pl.stands(c)
		if best == nil || slices.Compare(at[:], bestAt[:]) < 0 {
			best, bestAt = c, at
		}
		if bestAt == (standing{}) {
			break
		}
	}
	return best
}
