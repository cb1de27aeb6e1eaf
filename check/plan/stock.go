package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/check/station"
)

// barTolerance is by how much a flat may differ from the part: 0.5 mm, or 1/32
// in where stock is in inches. ShopPractice.
func (pl *planner) barTolerance() float64 {
	if pl.prof.Units == "in" {
		return 25.4 / 32
	}
	return 0.5
}

// IsUsualFlat tells whether flats of a width are to be had everywhere: the usual
// widths in millimetres and inches, whatever the shop measures in. Common
// practice, no source.
func IsUsualFlat(w float64) bool {
	within := func(tol float64, widths []float64, unit float64) bool {
		return slices.ContainsFunc(widths, func(u float64) bool { return math.Abs(u*unit-w) <= tol+1e-9 })
	}
	return within(0.5, []float64{20, 25, 30, 35, 40, 45, 50, 60, 65, 70, 75, 80, 90, 100, 110, 120, 125, 130, 140, 150, 160, 180, 200, 220, 250, 300}, 1) ||
		within(25.4/32, []float64{1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 10, 12}, 25.4)
}

// sized writes width x thickness as stock is named, or the width alone while the
// thickness is not known; a leading length makes it a blank.
func (pl *planner) sized(sizes ...float64) string {
	if pl.pc.ThicknessMM > 0 {
		sizes = append(sizes, pl.pc.ThicknessMM)
	}
	var ss []string
	for _, v := range sizes {
		s := pl.ln(v)
		if pl.prof.Units != "in" {
			s = strings.TrimSuffix(s, " mm")
		}
		ss = append(ss, s)
	}
	return strings.Join(ss, " x ")
}

// trimMM is cut off the mill end of a bar; common practice, 10 to 25 mm.
const trimMM = 10

// PiecesPerBar is how many pieces of a length come off a stock bar, all in mm:
// floor((bar - trim - drop + kerf) / (length + kerf)). The last drop must still
// reach under the hold-down. A shear has no kerf.
func PiecesPerBar(barMM, trimMM, dropMM, lengthMM, kerfMM float64) int {
	if !(lengthMM > 0) {
		return 0
	}
	return max(0, int(math.Floor((barMM-trimMM-dropMM+kerfMM)/(lengthMM+kerfMM)+1e-9)))
}

// lastDrop is the least end of a bar that can still be held.
func (pl *planner) lastDrop() float64 {
	for _, c := range pl.out.Cuts {
		for _, m := range pl.machines {
			if c.What == "end cut" && c.Use.Station == "shear" && m.Name == c.Use.Machine && m.Shear != nil && m.Shear.HoldDownMM > 0 {
				return m.Shear.HoldDownMM
			}
		}
	}
	for _, s := range station.Settings() {
		if s.Rule == "hold-down" && s.Name == "assumed" {
			if v, ok := pl.prof.Settings[s.Rule][s.Name]; ok {
				return v
			}
			return s.Default
		}
	}
	return 0
}

// layoutsAlong lists the ways to take the part from stock with its sides along
// one direction; both has the longer side along the length first.
func (pl *planner) layoutsAlong(both [2]*placing) []layout {
	if pl.job.BlankGiven {
		ly := newLayout("given", both[0], 0)
		ly.blank.Text = fmt.Sprintf("the blank comes cut to %s x %s", pl.ln(ly.l), pl.ln(ly.w))
		givenCuts(&ly, EdgeUnknown)
		return []layout{ly}
	}
	st := pl.prof.Stock
	var all []layout
	for _, o := range both {
		if st.FlatLengthMM > 0 && o.l > st.FlatLengthMM {
			continue
		}
		flat, matched := 0.0, false
		var wider []float64
		for _, fw := range st.FlatWidthsMM {
			switch {
			case math.Abs(fw-o.w) <= pl.barTolerance()+1e-9:
				if !matched || math.Abs(fw-o.w) < math.Abs(flat-o.w) {
					flat, matched = fw, true
				}
			case fw > o.w:
				wider = append(wider, fw)
			}
		}
		if matched {
			ly := newLayout("bar", o, 0)
			ly.blank.Stock = "flat " + pl.sized(flat)
			ly.blank.Text = "cut to length from " + ly.blank.Stock
			if left := st.FlatLengthMM - o.l; st.FlatLengthMM > 0 && left < trimMM-1e-6 {
				ly.blank.Aspects = append(ly.blank.Aspects, station.Aspect{Rule: "blank", Grade: station.Care, Got: left, HasGot: true, Limit: trimMM, HasLimit: true, Unit: "mm",
					Text: fmt.Sprintf("the part takes the whole bar of %s: %s are left, less than the trim of %s at a mill end", pl.ln(st.FlatLengthMM), pl.ln(left), pl.ln(trimMM)),
					Fix:  "take a longer bar, or check the mill end and its squareness", FixBy: "shop"})
			}
			pl.offBar(&ly, EdgeMill)
			all = append(all, ly)
		}
		if !matched && st.Stated && pl.prof.Buy && o.w <= o.l && IsUsualFlat(o.w) {
			ly := newLayout("bar", o, 5)
			ly.blank.Assumed, ly.blank.Stock = true, "flat "+pl.sized(o.w)
			ly.blank.Text = "cut to length from " + ly.blank.Stock + ", to be bought"
			ly.blank.Aspects = append(ly.blank.Aspects, station.Aspect{Rule: "blank", Grade: station.Care, Buy: ly.blank.Stock,
				Text: "the rack has no " + ly.blank.Stock, Fix: "buy " + ly.blank.Stock, FixBy: "shop"})
			pl.offBar(&ly, EdgeMill)
			all = append(all, ly)
		}
		if matched || o.w > o.l {
			continue
		}
		// The narrowest flat whose offcut is wide enough; four are tried.
		slices.Sort(wider)
		for k, fw := range wider[:min(len(wider), 4)] {
			ly := newLayout("strip", o, 1)
			ly.stockMM = fw
			ly.blank.Stock = "flat " + pl.sized(fw)
			ly.blank.Text = fmt.Sprintf("a strip of %s cut from %s", pl.ln(o.w), ly.blank.Stock)
			ly.lead, ly.rest, ly.low = o.offFlat(fw), o.piece(), EdgeMill
			if k > 0 && pl.worst(&ly) >= pl.worst(&all[len(all)-1]) {
				continue // its offcut is as narrow
			}
			all = append(all, ly)
			if limiting(machineUse(pl.judge(&ly.lead[1]))).Rule != "sliver" {
				break // a wider flat would not help
			}
		}
	}
	o := both[0]
	for _, p := range st.Plates {
		if ly, ok := pl.plateLayout(o, min(p[0], p[1]), max(p[0], p[1])); ok {
			all = append(all, ly)
		}
	}
	if len(all) == 0 {
		all = append(all, pl.assumed(o)...)
	}
	return all
}

// offBar cuts the part off a bar or strip whose sides are there already, of the
// kind given.
func (pl *planner) offBar(ly *layout, side EdgeKind) {
	ly.rest = pl.barCuts(ly.placing)
	ly.low, ly.high = side, side
}

// givenCuts plans the cuts on a blank that comes with its four sides made.
func givenCuts(ly *layout, side EdgeKind) {
	ly.rest = ly.piece()
	ly.low, ly.high, ly.ends = side, side, side
}

// plateLayout cuts a strip off a plate across its width, or along its length
// where the part is longer than the plate is wide, and the part off the strip.
func (pl *planner) plateLayout(o *placing, pw, plen float64) (layout, bool) {
	l, w, first := o.l, o.w, pw
	switch {
	case l <= pw && w <= plen:
	case l <= plen && w <= pw:
		first = plen
	default:
		return layout{}, false
	}
	ly := newLayout("plate", o, 2)
	ly.blank.Stock = fmt.Sprintf("plate %s x %s", pl.ln(pw), pl.ln(plen))
	ly.blank.Text = fmt.Sprintf("a strip of %s cut across %s", pl.ln(w), ly.blank.Stock)
	cut := o.strip(first)
	if g, process := pl.gradeOf(&cut); !pl.known() || g < station.Unknown && !process {
		pl.offBar(&ly, EdgeSheared)
		ly.lead = []step{cut}
		return ly, true
	}
	pl.boughtBlank(&ly, cut)
	return ly, true
}

// machineUse is a cut's best use by a machine, the chosen one if there is none.
func machineUse(c Cut) station.Use {
	for _, u := range append([]station.Use{c.Use}, c.Tried...) {
		if !isProcess(u) {
			return u
		}
	}
	return c.Use
}

// boughtBlank has the blank come cut from elsewhere, as the first cut off the
// plate is too much for the shear: care if the shop has thermal or bought-in
// cutting for it, else it cannot be started. tellBought gives the reason.
func (pl *planner) boughtBlank(ly *layout, first step) {
	a := station.Aspect{Rule: "blank", Grade: station.Fail}
	for _, kind := range []string{"thermal", "bought-cutting"} {
		if station.OtherGrade(pl.prof, station.ProcessRequest{Kind: kind, ThicknessMM: pl.pc.ThicknessMM}) == station.Care {
			a.Grade = station.Care
			a.Fix, a.FixBy = "cut the blank thermally first", "shop"
			if kind == "bought-cutting" {
				a.Fix = fmt.Sprintf("buy the blank cut to %s x %s", pl.ln(ly.l), pl.ln(ly.w))
			}
			break
		}
	}
	ly.outside, ly.first = true, &first
	ly.blank.Aspects = append(ly.blank.Aspects, a)
	ly.blank.Text = fmt.Sprintf("a blank of %s x %s, pre-cut", pl.ln(ly.l), pl.ln(ly.w))
	givenCuts(ly, EdgeUnknown)
}

// tellBought gives the reason why a blank comes cut from elsewhere. It is left
// until the layout is chosen.
func (pl *planner) tellBought(ly *layout) {
	if ly.first == nil {
		return
	}
	ly.blank.Aspects[0].Text = fmt.Sprintf("the first cut off %s is %s long, and %s; needs a bought or pre-cut strip or blank",
		ly.blank.Stock, pl.ln(ly.first.LengthMM), limiting(machineUse(pl.judge(ly.first))).Text)
}

// assumedBarMM is the widest flat that is taken for granted where the shop file
// has no stock: rates of estimators are stated for flats up to 300 mm.
const assumedBarMM = 300

// assumed is the blank when the shop file states no stock, or none that fits.
func (pl *planner) assumed(o *placing) []layout {
	st, l, w := pl.prof.Stock, o.l, o.w
	bar := newLayout("bar", o, 0)
	bar.blank.Assumed, bar.blank.Stock = true, "flat "+pl.sized(w)
	bar.blank.Text = "blank assumed: " + bar.blank.Stock
	pl.offBar(&bar, EdgeMill)
	plate := newLayout("plate", o, 2)
	plate.blank.Assumed = true
	plate.blank.Text = fmt.Sprintf("blank assumed: %s x %s cut from plate", pl.ln(l), pl.ln(w))
	pl.offBar(&plate, EdgeSheared)
	plate.lead = []step{o.strip(l)}
	if st.Stated {
		text := fmt.Sprintf("the rack has no stock for a blank of %s x %s", pl.ln(l), pl.ln(w))
		a := station.Aspect{Rule: "blank", Grade: station.Fail, Text: text}
		if pl.prof.Buy {
			a.Grade, a.Buy = station.Care, bar.blank.Stock
			if w > assumedBarMM {
				a.Buy = "blank " + pl.sized(l, w)
			}
			a.Fix, a.FixBy = "buy "+a.Buy, "shop"
		}
		bar.blank.Aspects = append(bar.blank.Aspects, a)
		return []layout{bar}
	}
	bar.blank.Aspects = append(bar.blank.Aspects, station.Aspect{Rule: "blank", Grade: station.Remark, Text: bar.blank.Text + ", as the shop file states no stock"})
	plate.blank.Aspects = append(plate.blank.Aspects, station.Aspect{Rule: "blank", Grade: station.Remark, Text: plate.blank.Text + ", as the shop file states no stock"})
	if w > assumedBarMM {
		return []layout{plate}
	}
	// The bar is what is meant; the plate is told as the other reading.
	plate.grade, plate.rank = bar.grade, 9
	return []layout{bar, plate}
}

// discLayout is the blank of a round part: no straight cut makes its rim, but
// flats on it are cut from the disc.
func (pl *planner) discLayout(g *placing) layout {
	ly := newLayout("disc", g, 0)
	ly.blank.Text = fmt.Sprintf("a disc of %s", pl.ln(g.l))
	ly.outside, ly.rest = true, g.piece()
	return ly
}
