// Package section knows standard rolled angles: their sizes, masses and usual
// gauge lines, and how texts name them. It knows no drawing and no shop.
package section

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

const mmPerInch = 25.4

// Names of the lists that angles stand in.
const (
	ListEN   = "EN 10056-1"
	ListMill = "EN mill range" // sizes that mills roll in the manner of EN 10056-1, with or without it
	ListAISC = "AISC"          // AISC Shapes Database, Steel Construction Manual Table 1-7
	ListBar  = "US bar size"   // angles under 2 in, which Table 1-7 leaves out
)

// Angle is a rolled angle of a standard list. Lengths are in millimetres. The
// zero value is no angle.
type Angle struct {
	Name        string     // "L75x75x8", "L3X3X1/4": as its list writes it
	LegMM       [2]float64 // outside widths, the longer first
	ThicknessMM float64
	MassKgM     float64 // as tabulated, in kg/m (lb/ft converted), rounded as its list rounds it
	AreaMM2     float64 // as tabulated; 0 not tabulated
	RootMM      float64 // root radius r1 between the legs; 0 not tabulated (American lists give k instead)
	// ToRootMM is k: from the outside of the heel to the toe of the fillet,
	// where the flat inside of a leg begins. It is kdet where a list has it and
	// t + r1 elsewhere; 0 neither is known.
	ToRootMM float64
	ToeMM    float64 // toe radius r2 at the ends of the legs; 0 not tabulated
	List     string  // ListEN, ListMill, ListAISC or ListBar
	Units    string  // "mm" or "in": what the list is written in
}

// Angles gives all listed angles, list by list and the smaller first in each.
// A size that stands in EN 10056-1 is not repeated from the mills' range.
func Angles() []Angle {
	en, mill, aisc, bar := standardRows(), millRows(), aiscRows(), barRows()
	list := make([]Angle, 0, len(en)+len(mill)+len(aisc)+len(bar))
	for _, r := range en {
		list = append(list, r.angle(ListEN))
	}
	for _, r := range mill {
		list = append(list, r.angle(ListMill))
	}
	for _, r := range aisc {
		list = append(list, r.angle(ListAISC))
	}
	for _, r := range bar {
		list = append(list, r.angle(ListBar))
	}
	return list
}

func (r enRow) angle(list string) Angle {
	return Angle{
		Name:        "L" + plainNumber(r.a) + "x" + plainNumber(r.b) + "x" + plainNumber(r.t),
		LegMM:       [2]float64{r.a, r.b},
		ThicknessMM: r.t,
		MassKgM:     r.kgM,
		AreaMM2:     tidy(r.cm2 * 100),
		RootMM:      r.r1,
		ToRootMM:    r.t + r.r1,
		ToeMM:       r.r2,
		List:        list,
		Units:       "mm",
	}
}

// kgMPerLbFt turns lb/ft into kg/m: the international pound of 0.45359237 kg on
// the international foot of 0.3048 m.
const kgMPerLbFt = 0.45359237 / 0.3048

func (r usRow) angle(list string) Angle {
	return Angle{
		Name:        r.name,
		LegMM:       [2]float64{tidy(r.a * mmPerInch), tidy(r.b * mmPerInch)},
		ThicknessMM: tidy(r.t * mmPerInch),
		MassKgM:     r.lbFt * kgMPerLbFt,
		AreaMM2:     tidy(r.in2 * mmPerInch * mmPerInch),
		ToRootMM:    tidy(r.k * mmPerInch),
		List:        list,
		Units:       "in",
	}
}

// Find gives the listed angles with these legs, in either order, and this
// thickness, each within tolMM (equal counts as within), the nearest by the sum
// of the three differences first and then in the order of Angles. Sizes that are
// not finite find nothing.
func Find(leg1MM, leg2MM, thicknessMM, tolMM float64) []Angle {
	return find(leg1MM, leg2MM, tolMM, func(tMM float64) (float64, bool) {
		off := math.Abs(tMM - thicknessMM)
		return off, off <= tolMM+sizeSlackMM
	})
}

// FindLegs is Find for any thickness: all listed angles with these legs.
func FindLegs(leg1MM, leg2MM, tolMM float64) []Angle {
	return find(leg1MM, leg2MM, tolMM, func(float64) (float64, bool) { return 0, true })
}

// sizeSlackMM lets a difference that is equal to the tolerance count as within
// it in spite of the last binary digits; it is far below any size's tolerance.
const sizeSlackMM = 1e-6

// find makes the Angle only of the rows that fit: names cost more than the search.
func find(leg1MM, leg2MM, tolMM float64, thickness func(tMM float64) (offMM float64, ok bool)) []Angle {
	long, short := max(leg1MM, leg2MM), min(leg1MM, leg2MM)
	type hit struct {
		a     Angle
		offMM float64
	}
	var hits []hit
	look := func(a, b, t float64, whole func() Angle) {
		d1, d2 := math.Abs(a-long), math.Abs(b-short)
		if !(d1 <= tolMM+sizeSlackMM && d2 <= tolMM+sizeSlackMM) {
			return
		}
		if d3, ok := thickness(t); ok {
			// Rounded, so that equal differences are equal and keep the lists' order.
			hits = append(hits, hit{whole(), math.Round((d1+d2+d3)*1e6) / 1e6})
		}
	}
	for _, r := range standardRows() {
		look(r.a, r.b, r.t, func() Angle { return r.angle(ListEN) })
	}
	for _, r := range millRows() {
		look(r.a, r.b, r.t, func() Angle { return r.angle(ListMill) })
	}
	for _, r := range aiscRows() {
		look(r.a*mmPerInch, r.b*mmPerInch, r.t*mmPerInch, func() Angle { return r.angle(ListAISC) })
	}
	for _, r := range barRows() {
		look(r.a*mmPerInch, r.b*mmPerInch, r.t*mmPerInch, func() Angle { return r.angle(ListBar) })
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(a.offMM, b.offMM) })
	list := make([]Angle, len(hits))
	for i, h := range hits {
		list[i] = h.a
	}
	return list
}

// MassKgM computes the mass in kg/m of an angle of steel, 7850 kg/m3 (EN
// 10056-1 and EN 1991-1-1:2002 Table A.4 reckon steel so), from its section: two
// sharp rectangles and, if the root radius is known, the metal of the fillet.
// Toe radii are left out; they take off at most 1 % of listed angles. It is 0 if
// the sizes are no section: not finite, not above zero, or a thickness that is
// not less than both legs.
func MassKgM(leg1MM, leg2MM, thicknessMM, rootMM float64) float64 {
	for _, v := range []float64{leg1MM, leg2MM, thicknessMM} {
		if !(v > 0) || math.IsInf(v, 0) {
			return 0
		}
	}
	if thicknessMM >= min(leg1MM, leg2MM) {
		return 0
	}
	areaMM2 := float64(thicknessMM * (leg1MM + leg2MM - thicknessMM))
	if rootMM > 0 && !math.IsInf(rootMM, 0) {
		areaMM2 += float64((1 - math.Pi/4) * rootMM * rootMM)
	}
	return areaMM2 * 7850e-6
}

// tidy takes the last binary digits off a product, so that 3/4 in is 19.05 mm.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
