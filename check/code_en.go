package check

// EN 1993-1-8:2005 Table 3.3, least distances as factors of the hole diameter d0.
const (
	enEdgeFactor  = 1.2 // e1, e2: from the centre of a round hole
	enSlotFactor  = 1.5 // e3, e4: from the axis of a slot, and from the centre of its end
	enPitchFactor = 2.2 // p1: in the direction of the load
	enLineFactor  = 2.4 // p2: across it; also L between staggered bolts
	enStagger     = 1.2 // p2 of staggered rows, where L >= 2.4 d0
)

// enHoleSizes are the round holes, mm, that bolts M12 to M36 have with normal
// and oversize clearance. Source: EN 1090-2 Table 11, as it stands in a
// fabricator's holing procedure, columns completed from memory.
func enHoleSizes() []float64 {
	return []float64{13, 15, 17, 18, 20, 22, 24, 26, 30, 33, 35, 36, 38, 39, 41, 44}
}
