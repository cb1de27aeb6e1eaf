package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// SlotHits is how many hits a slot punch of overall length tool and width w
// takes for a slot of overall length slot: 1 if equal, else
// 1 + ceil((L - Lt) / (Lt - W)), as the flat sides must meet. ok is false if
// the punch is longer than the slot or has no flats.
func SlotHits(slotMM, toolMM, widthMM float64) (n int, ok bool) {
	step := toolMM - widthMM
	switch {
	case math.Abs(slotMM-toolMM) <= relative:
		return 1, true
	case toolMM > slotMM || step <= relative:
		return 0, false
	}
	return 1 + ceil((slotMM-toolMM)/step), true
}

// NibbleHits is how many hits a round punch of diameter w takes for a slot w x
// slot overall that leaves cusps of height cusp: 1 + ceil((L - W) / (2 sqrt(h (W - h)))).
func NibbleHits(slotMM, widthMM, cuspMM float64) int {
	return 1 + ceil((slotMM-widthMM)/(2*math.Sqrt(cuspMM*(widthMM-cuspMM))))
}

func hits(n int) string {
	if n == 1 {
		return "1 hit"
	}
	return fmt.Sprintf("%d hits", n)
}

// ceil rounds up, forgiving the error of the arithmetic.
func ceil(v float64) int {
	if v > 1e6 {
		v = 1e6 // more hits than anyone strikes
	}
	return int(math.Ceil(v - 1e-9))
}

// slots lists the uses that make a slot in several hits.
func slots(prof *shop.Profile, m *shop.Machine, pc Piece, h Hole) []Use {
	set := settingsOf(prof)
	under, over := set.value("tool", "under"), set.value("tool", "over")
	var uses []Use
	for i := range prof.Punches {
		p := &prof.Punches[i]
		w, l, ok := sized(p)
		if !ok || !onMachine(p.Machine, m) || w < h.WidthMM-under-relative || w > h.WidthMM+over+relative {
			continue
		}
		u, _ := startPunch(prof, m, pc)
		u.Tool = p.Name
		// The width is judged like that of a tool for one hit; the length is made by the hits.
		fit, _ := sizeAspect(prof, Hole{Shape: h.Shape, WidthMM: h.WidthMM, LengthMM: l}, p, w, l)
		fit.Text = fmt.Sprintf("%s makes %s in several hits", p.Name, size(prof, h.Shape, h.WidthMM, h.LengthMM))
		switch {
		case p.Shape == Slot && l < h.LengthMM-under:
			n, ok := SlotHits(h.LengthMM, l, w)
			if !ok {
				continue
			}
			u.Hits = n
			u.add(fit, 0)
			u.add(Aspect{Rule: "slot-hits", Grade: Care, Got: float64(n), HasGot: true, Limit: 1, HasLimit: true,
				Text:  fmt.Sprintf("%s takes %s with %s", size(prof, h.Shape, h.WidthMM, h.LengthMM), hits(n), p.Name),
				Basis: fmt.Sprintf("1 + ceil((%s - %s) / (%s - %s)) = %d", measure.FormatNumber(h.LengthMM, 3), measure.FormatNumber(l, 3), measure.FormatNumber(l, 3), measure.FormatNumber(w, 3), n),
				Fix:   "punch the two ends first", FixBy: "shop"}, 0)
		case p.Shape == Round && set.value("slot-hits", "nibble") >= 0.5:
			most := set.value("slot-hits", "nibble-thickness")
			cusp := min(set.value("slot-hits", "cusp"), w/2)
			n := NibbleHits(h.LengthMM, w, cusp)
			u.Hits = n
			u.add(fit, 0)
			a := Aspect{Rule: "slot-hits", Grade: Care, Got: float64(n), HasGot: true, Limit: 1, HasLimit: true,
				Text:  fmt.Sprintf("%s nibbled in %s with %s", size(prof, h.Shape, h.WidthMM, h.LengthMM), hits(n), p.Name),
				Basis: fmt.Sprintf("1 + ceil((%s - %s) / (2 sqrt(%s (%s - %s)))) = %d", measure.FormatNumber(h.LengthMM, 3), measure.FormatNumber(w, 3), measure.FormatNumber(cusp, 2), measure.FormatNumber(w, 3), measure.FormatNumber(cusp, 2), n),
				Fix:   "punch the two ends first, and dress the cusps", FixBy: "shop"}
			if !atMost(pc.ThicknessMM, most) {
				a.Grade, a.Fix, a.FixBy = Fail, "", ""
				a.Got, a.Limit, a.Unit = pc.ThicknessMM, most, "mm"
				a.Text = fmt.Sprintf("not nibbled above %s: the punch is pushed sideways", Length(prof, most))
			}
			u.add(a, 0)
		default:
			continue
		}
		u.addDie(prof, pc, p)
		u.addHolder(prof, m, p.Shape, w, l, p.Holder, false)
		if p.Shape == Slot {
			u.addKey(m, h, u.Holder)
		}
		u.addForce(prof, m, pc, h, p, p.Shape, w, l)
		u.addRatio(prof, pc, h, p.Shape, w, l)
		uses = append(uses, u)
	}
	return uses
}

// openings lists the uses that make a rectangular opening by several hits of a
// smaller square or rectangular tool, set side by side with overlap.
func openings(prof *shop.Profile, m *shop.Machine, pc Piece, h Hole) []Use {
	if h.Shape != Square && h.Shape != Rectangle {
		return nil
	}
	over := Overlap(prof, pc.ThicknessMM)
	var uses []Use
	for i := range prof.Punches {
		p := &prof.Punches[i]
		w, l, ok := sized(p)
		if !ok || !onMachine(p.Machine, m) || (p.Shape != Square && p.Shape != Rectangle) {
			continue
		}
		for _, s := range [][2]float64{{w, l}, {l, w}} {
			nx, okx := bites(h.WidthMM, s[0], over, relative)
			ny, oky := bites(h.LengthMM, s[1], over, relative)
			if !okx || !oky || nx*ny < 2 {
				continue
			}
			u, _ := startPunch(prof, m, pc)
			u.Tool = p.Name
			u.Hits = nx * ny
			rest := ""
			if h.WidthMM-2*s[0] > relative && h.LengthMM-2*s[1] > relative {
				u.Hits = 2*(nx+ny) - 4 // round the edge; the middle falls out in one piece
				rest = "; the middle falls out in one piece"
			}
			name := size(prof, h.Shape, h.WidthMM, h.LengthMM)
			u.add(Aspect{Rule: "opening", Grade: Care, Got: float64(u.Hits), HasGot: true, Limit: 1, HasLimit: true,
				Text:  fmt.Sprintf("%s takes %s with %s%s", name, hits(u.Hits), p.Name, rest),
				Basis: fmt.Sprintf("%d x %d hits of %s x %s mm with an overlap of at least %s mm", nx, ny, measure.FormatNumber(s[0], 2), measure.FormatNumber(s[1], 2), measure.FormatNumber(over, 2)),
				Fix:   "punch the corners first, every hit against the stop", FixBy: "shop"}, 0)
			u.addDie(prof, pc, p)
			u.addHolder(prof, m, p.Shape, w, l, p.Holder, false)
			u.addKey(m, Hole{Shape: p.Shape, TurnsRad: h.TurnsRad}, u.Holder)
			u.addCorners(prof, h)
			u.addForce(prof, m, pc, h, p, p.Shape, w, l)
			u.addRatio(prof, pc, h, p.Shape, w, l)
			uses = append(uses, u)
		}
	}
	return uses
}

// Overlap is the least overlap of two bites or hits, mm: 3 mm or a quarter of
// the thickness, whichever is more (settings of notch-tool).
func Overlap(prof *shop.Profile, thicknessMM float64) float64 {
	set := settingsOf(prof)
	return max(set.value("notch-tool", "overlap"), set.value("notch-tool", "overlap-share")*thicknessMM)
}

// bites is how many bites of width tool cover width: 1 if they are equal within
// fit, else 1 + ceil((W - w) / (w - o)). ok is false if the tool is wider than
// the notch or no wider than the overlap.
func bites(width, tool, overlap, fit float64) (n int, ok bool) {
	switch {
	case math.Abs(width-tool) <= fit+relative:
		return 1, true
	case tool > width || tool <= overlap+relative:
		return 0, false
	}
	return 1 + ceil((width-tool)/(tool-overlap)), true
}
