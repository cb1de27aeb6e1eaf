package check

import "fmt"

// EN 1993-1-8:2005 Table 3.3, least distances as factors of the hole diameter d0.
const (
	enEdgeFactor  = 1.2 // e1, e2: from the centre of a round hole
	enSlotFactor  = 1.5 // e3, e4: from the axis of a slot, and from the centre of its end
	enPitchFactor = 2.2 // p1: in the direction of the load
	enLineFactor  = 2.4 // p2: across it; also L between staggered bolts
	enStagger     = 1.2 // p2 of staggered rows, where L >= 2.4 d0
)

// enRow is a bolt of EN 1090-2 Table 11: the hole is larger than the bolt by
// 1 mm to M14, 2 mm to M24, 3 mm above; oversize by 3, 4 (M16), 6 (M24) and
// 8 mm; a short slot is longer by 4, 6, 8 and 10 mm; a long one 2.5 d overall.
// Source: the table as it stands in a fabricator's holing procedure, columns
// completed from memory. IS 800:2007 Table 19 has the same figures, from memory.
func enRow(d float64) boltRow {
	normal, over, short := 3.0, 8.0, 10.0
	switch {
	case d < 16:
		normal, over, short = 1, 3, 4
	case d < 24:
		normal, over, short = 2, 4, 6
	case d < 27:
		normal, over, short = 2, 6, 8
	}
	return boltRow{name: fmt.Sprintf("M%g", d), boltMM: d, standardMM: d + normal, oversizeMM: d + over, slotMM: d + normal, shortMM: d + short, longMM: 2.5 * d}
}

// enRows gives bolts M12 to M36.
func enRows() []boltRow {
	var out []boltRow
	for _, d := range []float64{12, 14, 16, 18, 20, 22, 24, 27, 30, 33, 36} {
		out = append(out, enRow(d))
	}
	return out
}
