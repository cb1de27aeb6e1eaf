package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/check/station"
	"burrside/features/geom"
)

// barTolerance is by how much a flat may differ from the part: 0.5 mm, or 1/32
// in where stock is in inches. ShopPractice.
func (pl *planner) barTolerance() float64 {
	if pl.prof.Units == "in" {
		return 25.4 / 32
	}
	return 0.5
}

// isUsualFlat tells whether flats of a width are to be had everywhere: the usual
// widths in millimetres or inches, common practice, no source.
func (pl *planner) isUsualFlat(w float64) bool {
	usual, unit := []float64{20, 25, 30, 35, 40, 45, 50, 60, 65, 70, 75, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200, 220, 250, 300}, 1.0
	if pl.prof.Units == "in" {
		usual, unit = []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12}, 25.4
	}
	return slices.ContainsFunc(usual, func(u float64) bool { return math.Abs(u*unit-w) <= pl.barTolerance()+1e-9 })
}

// isDisc tells whether one circle makes over 70 % of the outline, and gives an
// edge of it.
func (pl *planner) isDisc() (arc geom.Edge, ok bool) {
	total := 0.0
	for _, e := range pl.part.Outline {
		total += e.Length()
	}
	for _, e := range pl.part.Outline {
		if !e.IsArc() || !e.CCW {
			continue
		}
		run := 0.0
		for _, o := range pl.part.Outline {
			if o.IsArc() && o.CCW && o.Centre.Dist(e.Centre) <= onLine && math.Abs(o.Radius-e.Radius) <= onLine {
				run += o.Length()
			}
		}
		if run > 0.7*total {
			return e, true
		}
	}
	return arc, false
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
			if c.What == "end cut" && m.Name == c.Use.Machine && m.Shear != nil && m.Shear.HoldDownMM > 0 {
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

// layoutsAlong lists the ways to take the part from stock with its sides along u.
func (pl *planner) layoutsAlong(u geom.Point) []layout {
	f, l, w := pl.box(u)
	if pl.job.BlankGiven {
		if w > l {
			f, l, w = turnedFrame(f, l, w)
		}
		ly := pl.newLayout("given", f, l, w, 0)
		ly.blank.Text = fmt.Sprintf("the blank comes cut to %s x %s", pl.ln(l), pl.ln(w))
		pl.givenCuts(&ly)
		return []layout{ly}
	}
	st := pl.prof.Stock
	var all []layout
	tf, tl, tw := turnedFrame(f, l, w)
	both := []struct {
		f    frame
		l, w float64
	}{{f, l, w}, {tf, tl, tw}}
	if w > l {
		both[0], both[1] = both[1], both[0]
	}
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
			ly := pl.newLayout("bar", o.f, o.l, o.w, 0)
			ly.blank.Stock = "flat " + pl.sized(flat)
			ly.blank.Text = "cut to length from " + ly.blank.Stock
			pl.barCuts(&ly, EdgeMill)
			all = append(all, ly)
		}
		if !matched && st.Stated && pl.prof.Buy && o.w <= o.l && pl.isUsualFlat(o.w) {
			ly := pl.newLayout("bar", o.f, o.l, o.w, 5)
			ly.blank.Assumed, ly.blank.Stock = true, "flat "+pl.sized(o.w)
			ly.blank.Text = "cut to length from " + ly.blank.Stock + ", to be bought"
			ly.blank.Aspects = append(ly.blank.Aspects, station.Aspect{Rule: "blank", Grade: station.Care, Buy: ly.blank.Stock,
				Text: "the rack has no " + ly.blank.Stock, Fix: "buy " + ly.blank.Stock, FixBy: "shop"})
			pl.barCuts(&ly, EdgeMill)
			all = append(all, ly)
		}
		if matched || o.w > o.l {
			continue
		}
		// The narrowest flat whose offcut is wide enough; four are tried.
		slices.Sort(wider)
		for k, fw := range wider[:min(len(wider), 4)] {
			ly := pl.newLayout("strip", o.f, o.l, o.w, 1)
			ly.stockMM = fw
			ly.blank.Stock = "flat " + pl.sized(fw)
			ly.blank.Text = fmt.Sprintf("a strip of %s cut from %s", pl.ln(o.w), ly.blank.Stock)
			pl.stripCuts(&ly, fw)
			if k > 0 && worstCut(ly.cuts) >= worstCut(all[len(all)-1].cuts) {
				continue // its offcut is as narrow
			}
			all = append(all, ly)
			if len(ly.cuts) < 2 || limiting(machineUse(ly.cuts[1])).Rule != "sliver" {
				break // a wider flat would not help
			}
		}
	}
	o := both[0]
	for _, p := range st.Plates {
		if ly, ok := pl.plateLayout(o.f, o.l, o.w, min(p[0], p[1]), max(p[0], p[1])); ok {
			all = append(all, ly)
		}
	}
	if len(all) == 0 {
		all = append(all, pl.assumed(o.f, o.l, o.w)...)
	}
	return all
}

func worstCut(cuts []Cut) station.Grade {
	g := station.OK
	for i := range cuts {
		g = max(g, cuts[i].Use.Grade())
	}
	return g
}

// plateLayout cuts a strip off a plate across its width, or along its length
// where the part is longer than the plate is wide, and the part off the strip.
func (pl *planner) plateLayout(f frame, l, w, pw, plen float64) (layout, bool) {
	first := pw
	switch {
	case l <= pw && w <= plen:
	case l <= plen && w <= pw:
		first = plen
	default:
		return layout{}, false
	}
	ly := pl.newLayout("plate", f, l, w, 2)
	ly.blank.Stock = fmt.Sprintf("plate %s x %s", pl.ln(pw), pl.ln(plen))
	ly.blank.Text = fmt.Sprintf("a strip of %s cut across %s", pl.ln(w), ly.blank.Stock)
	if !pl.known() {
		pl.barCuts(&ly, EdgeSheared)
		ly.cuts = append([]Cut{pl.stripCut(&ly, first)}, ly.cuts...)
		return ly, true
	}
	cut := pl.stripCut(&ly, first)
	if cut.Use.Grade() < station.Unknown && !isProcess(cut.Use) {
		pl.barCuts(&ly, EdgeSheared)
		ly.cuts = append([]Cut{cut}, ly.cuts...)
		return ly, true
	}
	pl.boughtBlank(&ly, fmt.Sprintf("the first cut off %s is %s long, and %s", ly.blank.Stock, pl.ln(first), limiting(machineUse(cut)).Text))
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

// boughtBlank has the blank come cut from elsewhere: care if the shop has
// thermal or bought-in cutting for it, else it cannot be started.
func (pl *planner) boughtBlank(ly *layout, why string) {
	a := station.Aspect{Rule: "blank", Grade: station.Fail, Text: why + "; needs a bought or pre-cut strip or blank"}
	for _, kind := range []string{"thermal", "bought-cutting"} {
		u := station.Other(pl.prof, station.ProcessRequest{Kind: kind, Rule: "blank", ThicknessMM: pl.pc.ThicknessMM})
		if u.Grade() == station.Care {
			a.Grade = station.Care
			a.Fix, a.FixBy = "cut the blank thermally first", "shop"
			if kind == "bought-cutting" {
				a.Fix = fmt.Sprintf("buy the blank cut to %s x %s", pl.ln(ly.l), pl.ln(ly.w))
			}
			break
		}
	}
	ly.outside = true
	ly.blank.Aspects = append(ly.blank.Aspects, a)
	ly.blank.Text = fmt.Sprintf("a blank of %s x %s, pre-cut", pl.ln(ly.l), pl.ln(ly.w))
	pl.givenCuts(ly)
	kind := EdgeUnknown
	if a.Grade == station.Care {
		kind = EdgeThermal
	}
	for i, k := range ly.sides {
		if k == EdgeUnknown {
			ly.sides[i] = kind
		}
	}
}

// assumedBarMM is the widest flat that is taken for granted where the shop file
// has no stock: rates of estimators are stated for flats up to 300 mm.
const assumedBarMM = 300

// assumed is the blank when the shop file states no stock, or none that fits.
func (pl *planner) assumed(f frame, l, w float64) []layout {
	st := pl.prof.Stock
	bar := pl.newLayout("bar", f, l, w, 0)
	bar.blank.Assumed, bar.blank.Stock = true, "flat "+pl.sized(w)
	bar.blank.Text = "blank assumed: " + bar.blank.Stock
	pl.barCuts(&bar, EdgeMill)
	plate := pl.newLayout("plate", f, l, w, 2)
	plate.blank.Assumed = true
	plate.blank.Text = fmt.Sprintf("blank assumed: %s x %s cut from plate", pl.ln(l), pl.ln(w))
	pl.barCuts(&plate, EdgeSheared)
	plate.cuts = append([]Cut{pl.stripCut(&plate, l)}, plate.cuts...)
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
func (pl *planner) discLayout(u geom.Point, arc geom.Edge) layout {
	r := arc.Radius
	v := u.Left()
	f := frame{origin: arc.Centre.Add(u.Mul(-r)).Add(v.Mul(-r)), u: u, v: v}
	ly := pl.newLayout("disc", f, 2*r, 2*r, 0)
	ly.blank.Text = fmt.Sprintf("a disc of %s", pl.ln(2*r))
	ly.outside = true
	var metal polygon
	const sides = 180 // chords of 2 degrees lie within 0.02 % of the radius
	for i := range sides {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		metal = append(metal, geom.Point{X: r + r*cos, Y: r + r*sin})
	}
	var all []wanted
	for _, i := range pl.straights() {
		ln, _, ok := pl.lineOf(i, f)
		if !ok {
			ly.inner = append(ly.inner, i)
			continue
		}
		all = append(all, wanted{feature: i, ln: ln, at: f.in(pl.part.Features[i].At)})
	}
	slices.SortStableFunc(all, func(a, b wanted) int { return geom.ComparePlace(a.at, b.at) })
	ly.cuts = pl.pieceCuts(&ly, metal, all)
	return ly
}
