package check

import "fmt"

// CSA S16-09 Table 6: least distance from the centre of a bolt hole to a
// sheared edge, and to a rolled, sawn or gas cut one. Holes by 22.3.5, pitch
// 2.7 d by 22.3.1 and the factors beyond M36 are from memory.
const csaPitchFactor = 2.7

func csaRows() []boltRow {
	rows := []struct{ d, sheared, rolled float64 }{
		{16, 28, 22}, {20, 34, 26}, {22, 38, 28}, {24, 42, 30}, {27, 48, 34}, {30, 52, 38}, {36, 64, 46},
	}
	out := make([]boltRow, len(rows))
	for i, r := range rows {
		out[i] = csaHoles(r.d)
		out[i].edgeMM, out[i].shearedMM = r.rolled, r.sheared
	}
	return out
}

// csaHoles are the holes of a bolt: 2 mm over it up to M24 (there 3 mm too),
// 3 mm above; oversize by 4, 6 and 8 mm; short slots by 6, 8 and 10 mm; long
// ones 2.5 d. From memory.
func csaHoles(d float64) boltRow {
	r := boltRow{name: fmt.Sprintf("M%g", d), boltMM: d, standardMM: d + 3, oversizeMM: d + 8, shortMM: d + 10, longMM: 2.5 * d}
	switch {
	case d <= 22:
		r.standardMM, r.oversizeMM, r.shortMM = d+2, d+4, d+6
	case d <= 24:
		r.alsoMM, r.oversizeMM, r.shortMM = d+2, d+6, d+8
	}
	r.slotMM = r.standardMM
	return r
}

// csaBeyond is a bolt over M36: 1.25 d, at a sheared edge 1.75 d. From memory.
func csaBeyond(d float64) boltRow {
	r := csaHoles(d)
	r.edgeMM, r.shearedMM = 1.25*d, 1.75*d
	return r
}

// IS 800:2007 10.2.2 (pitch, of the bolt) and 10.2.4.2 (edge, of the hole). The
// factor of sheared and hand flame cut edges is from memory.
const (
	isPitchFactor   = 2.5
	isEdgeFactor    = 1.5
	isShearedFactor = 1.7
)
