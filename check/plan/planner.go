package plan

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// planner holds what is worked out on the way to a Plan.
type planner struct {
	part     *features.Part
	prof     *shop.Profile
	job      Job
	pc       station.Piece
	machines []*shop.Machine
	prep     *Prepared
	lacks    []station.Aspect // data that are not known
	out      *Plan

	layout    *layout          // of the chosen blank
	sides     map[int]EdgeKind // straight features that the blank or a neighbour's cut makes
	standings map[*cutList]standing
	turned    []float64 // directions of edges to gauge on, rad
	cache     map[holeKey]*punched
	ways      map[string]Way // by feature, of job.Ways
}

// missing gives the aspects of data that are not known.
func (pl *planner) missing() []station.Aspect {
	var as []station.Aspect
	if !isSize(pl.pc.ThicknessMM) {
		as = append(as, station.Aspect{Rule: "thickness-missing", Grade: station.Unknown, Text: "the thickness is not known"})
	}
	if pl.pc.Material == nil || !(pl.pc.Material.ShearMPa > 0) {
		text := "the material is not known"
		if pl.job.MaterialName != "" {
			text = "the shop knows no material " + quote(pl.job.MaterialName)
		}
		as = append(as, station.Aspect{Rule: "material-missing", Grade: station.Unknown, Text: text})
	}
	return as
}

// isSize tells whether a number can be a length of a feature.
func isSize(mm float64) bool { return mm > 0 && mm < 1e6 }

// doubt tells what of a feature is not known, "" nothing: no way of making it
// is looked for then. Readers give sizes; this is for a reading that went wrong.
func doubt(f *features.Feature) string {
	sized := true
	switch f.Kind {
	case features.RoundHole, features.HoleWithSeat, features.TappedHole:
		sized = isSize(f.DiameterMM)
	case features.Slot, features.RectangularHole:
		sized = isSize(f.WidthMM) && isSize(f.LengthMM)
	case features.PolygonHole:
		sized = isSize(f.AcrossFlatsMM)
	case features.Notch:
		sized = isSize(f.WidthMM) && isSize(f.DepthMM)
	}
	switch {
	case !sized:
		return "its size is not known"
	case !(math.Abs(f.At.X) < 1e12 && math.Abs(f.At.Y) < 1e12):
		return "its place is not known"
	}
	return ""
}

func (pl *planner) known() bool { return len(pl.lacks) == 0 }

func quote(s string) string { return `"` + s + `"` }

func (pl *planner) ln(mm float64) string { return station.Length(pl.prof, mm) }

// unknownUse names the station that would do the work, without judging it.
func (pl *planner) unknownUse(at string) station.Use {
	u := station.Use{Station: at, Hits: 1, Aspects: pl.missing()}
	for _, m := range pl.machines {
		has := false
		switch at {
		case "punch":
			has = m.Punch != nil
		case "shear":
			has = m.Shear != nil
		case "angle shear":
			has = m.Angle != nil
		case "notcher":
			has = m.Notch != nil
		case "brake":
			has = m.Brake != nil
		}
		if has {
			u.Machine = m.Name
			break
		}
	}
	return u
}

// limiting is the aspect that decides a use's grade: the first of the worst.
func limiting(u station.Use) station.Aspect {
	var worst station.Aspect
	for i, a := range u.Aspects {
		if i == 0 || a.Grade > worst.Grade {
			worst = a
		}
	}
	return worst
}

// isProcess tells whether a use is one beside the machines.
func isProcess(u station.Use) bool { return u.Machine == "" }

// route puts the uses in the order of preference: grade, machines before other
// processes, what the rack has before what must be bought, the machine that
// makes most of the part, fewer hits, share, and the names.
func route(uses []station.Use, prefer map[string]int) {
	kind := func(u station.Use) int { return slices.Index(processOrder, u.Station) }
	slices.SortStableFunc(uses, func(a, b station.Use) int {
		if c := int(a.Grade()) - int(b.Grade()); c != 0 {
			return c
		}
		if pa, pb := isProcess(a), isProcess(b); pa != pb {
			if pb {
				return -1
			}
			return 1
		}
		if isProcess(a) {
			return kind(a) - kind(b)
		}
		// Of machines that all fail the one is quoted that is nearest to making it.
		if a.Grade() == station.Fail && math.Abs(a.Share-b.Share) > 1e-6 {
			if a.Share < b.Share {
				return -1
			}
			return 1
		}
		if ba, bb := a.Buys(), b.Buys(); ba != bb {
			if bb {
				return -1
			}
			return 1
		}
		if c := prefer[b.Machine] - prefer[a.Machine]; c != 0 {
			return c
		}
		if c := a.Hits - b.Hits; c != 0 {
			return c
		}
		if math.Abs(a.Share-b.Share) > 1e-6 {
			if a.Share < b.Share {
				return -1
			}
			return 1
		}
		return strings.Compare(a.Machine, b.Machine)
	})
}

// preferred ranks the machines, the best with the greatest number: by how many
// holes and cuts each makes as well as any, then by how little of its limits
// that takes, so that a part goes to few machines.
func (pl *planner) preferred(holes [][]station.Use) map[string]int {
	type tally struct {
		count int
		share float64
	}
	of := map[string]*tally{}
	for _, m := range pl.machines {
		of[m.Name] = &tally{}
	}
	look := func(uses []station.Use) {
		best := station.Fail
		for i := range uses {
			best = min(best, uses[i].Grade())
		}
		for i := range uses {
			if t := of[uses[i].Machine]; t != nil {
				t.share += uses[i].Share
				if uses[i].Grade() == best {
					t.count++
				}
			}
		}
	}
	for _, us := range holes {
		look(us)
	}
	for i := range pl.out.Cuts {
		c := &pl.out.Cuts[i]
		look(append([]station.Use{c.Use}, c.Tried...))
	}
	order := slices.Clone(pl.machines)
	slices.SortStableFunc(order, func(a, b *shop.Machine) int {
		ta, tb := of[a.Name], of[b.Name]
		return cmp.Or(cmp.Compare(ta.count, tb.count), cmp.Compare(math.Round(tb.share*1e6), math.Round(ta.share*1e6)), strings.Compare(b.Name, a.Name))
	})
	rank := map[string]int{}
	for i, m := range order {
		rank[m.Name] = i + 1
	}
	return rank
}

// processOrder is the order in which other processes are offered: what is
// nearest at hand first, what leaves the house last.
var processOrder = []string{"drill", "tap", "countersink", "grinder", "saw", "thermal", "bought-cutting"}

// madeBy names what makes a feature, by the station of a use.
func madeBy(u station.Use) string {
	switch u.Grade() {
	case station.Fail:
		return "nothing"
	case station.Unknown:
		return "unknown"
	}
	switch u.Station {
	case "angle shear":
		return "shear"
	case "notcher":
		return "notch"
	case "brake":
		return "bend"
	case "grinder":
		return "grind"
	case "bought-cutting":
		return "bought"
	}
	return u.Station
}

// offer asks other processes for a feature that no machine makes well; best is
// the best use by a machine, whose limiting rule reports it.
func (pl *planner) offer(uses []station.Use, kinds []string, rule string, q station.ProcessRequest) []station.Use {
	var best *station.Use
	for i := range uses {
		if u := &uses[i]; !isProcess(*u) && (best == nil || u.Grade() < best.Grade()) {
			best = u
		}
	}
	if best != nil {
		if best.Grade() <= station.Remark {
			return uses // nothing else is needed
		}
		if l := limiting(*best); l.Rule != "" {
			rule, q.Why, q.From = l.Rule, l.Text, &l
		}
	}
	q.Rule, q.ThicknessMM = rule, pl.pc.ThicknessMM
	for _, k := range kinds {
		q.Kind = k
		uses = append(uses, station.Other(pl.prof, q))
	}
	return uses
}
