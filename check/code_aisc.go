package check

// ANSI/AISC 360: sizes of bolt holes (Tables J3.3, J3.3M), least edge distance
// from the centre of a standard hole (Tables J3.4, J3.4M) and what is added for
// other holes (Tables J3.5, J3.5M). Edition 360-22 was read; some fractions of
// the tables were filled in from memory, as the copy that was read had lost
// them. The rows above 1-1/4 in and at M36 are worked out from the tables' own
// expressions.
//
// Editions differ so: up to 360-10 a standard hole for a bolt of 1 in and more
// is d + 1/16 in (since 360-16 d + 1/8 in); the metric holes are the same. In
// 360-05 a sheared edge asks for more than a rolled or gas cut one; its metric
// column was read in a handbook, its inch column is from memory.

// aiscInch gives the rows of the inch tables of an edition.
func aiscInch(code string) []boltRow {
	rows := []struct {
		name                                                 string
		d, std, ovs, short, long, edge, sheared, cOvs, cShrt float64
	}{
		{"1/2 in", 0.5, 0.5625, 0.625, 0.6875, 1.25, 0.75, 0.875, 0.0625, 0.125},
		{"5/8 in", 0.625, 0.6875, 0.8125, 0.875, 1.5625, 0.875, 1.125, 0.0625, 0.125},
		{"3/4 in", 0.75, 0.8125, 0.9375, 1, 1.875, 1, 1.25, 0.0625, 0.125},
		{"7/8 in", 0.875, 0.9375, 1.0625, 1.125, 2.1875, 1.125, 1.5, 0.0625, 0.125},
		{"1 in", 1, 1.125, 1.25, 1.3125, 2.5, 1.25, 1.75, 0.125, 0.125},
		{"1-1/8 in", 1.125, 1.25, 1.4375, 1.5, 2.8125, 1.5, 2, 0.125, 0.1875},
		{"1-1/4 in", 1.25, 1.375, 1.5625, 1.625, 3.125, 1.625, 2.25, 0.125, 0.1875},
		{"1-3/8 in", 1.375, 1.5, 1.6875, 1.75, 3.4375, 1.25 * 1.375, 1.75 * 1.375, 0.125, 0.1875},
		{"1-1/2 in", 1.5, 1.625, 1.8125, 1.875, 3.75, 1.25 * 1.5, 1.75 * 1.5, 0.125, 0.1875},
	}
	out := make([]boltRow, len(rows))
	for i, r := range rows {
		if code != "aisc" && r.d >= 1 {
			r.std = r.d + 0.0625
		}
		if code != "aisc-2005" {
			r.sheared = r.edge
		}
		out[i] = boltRow{name: r.name, boltMM: r.d * 25.4, standardMM: r.std * 25.4, oversizeMM: r.ovs * 25.4, slotMM: r.std * 25.4,
			shortMM: r.short * 25.4, longMM: r.long * 25.4, edgeMM: r.edge * 25.4, shearedMM: r.sheared * 25.4,
			addOversizeMM: r.cOvs * 25.4, addShortMM: r.cShrt * 25.4, addLongMM: 0.75 * r.d * 25.4}
	}
	return out
}

// aiscInchBeyond is the row of a bolt over 1-1/2 in, d in inches, by the tables'
// expressions.
func aiscInchBeyond(code string, d float64) boltRow {
	std, sheared := d+0.125, 1.25*d
	if code != "aisc" {
		std = d + 0.0625
	}
	if code == "aisc-2005" {
		sheared = 1.75 * d
	}
	return boltRow{boltMM: d * 25.4, standardMM: std * 25.4, oversizeMM: (d + 0.3125) * 25.4, slotMM: std * 25.4, shortMM: (d + 0.375) * 25.4,
		longMM: 2.5 * d * 25.4, edgeMM: 1.25 * d * 25.4, shearedMM: sheared * 25.4, addOversizeMM: 0.125 * 25.4, addShortMM: 0.1875 * 25.4, addLongMM: 0.75 * d * 25.4}
}

// aiscMetric gives the rows of the metric tables of an edition.
func aiscMetric(code string) []boltRow {
	rows := []struct {
		name                                                 string
		d, std, ovs, short, long, edge, sheared, cOvs, cShrt float64
	}{
		{"M12", 12, 14, 16, 18, 30, 18, 22, 2, 3},
		{"M16", 16, 18, 20, 22, 40, 22, 28, 2, 3},
		{"M20", 20, 22, 24, 26, 50, 26, 34, 2, 3},
		{"M22", 22, 24, 28, 30, 55, 28, 38, 2, 3},
		{"M24", 24, 27, 30, 32, 60, 30, 42, 3, 3},
		{"M27", 27, 30, 35, 37, 67, 34, 48, 3, 5},
		{"M30", 30, 33, 38, 40, 75, 38, 52, 3, 5},
		{"M36", 36, 39, 44, 46, 90, 46, 64, 3, 5},
	}
	out := make([]boltRow, len(rows))
	for i, r := range rows {
		if code != "aisc-2005" {
			r.sheared = r.edge
		}
		out[i] = boltRow{name: r.name, boltMM: r.d, standardMM: r.std, oversizeMM: r.ovs, slotMM: r.std, shortMM: r.short, longMM: r.long,
			edgeMM: r.edge, shearedMM: r.sheared, addOversizeMM: r.cOvs, addShortMM: r.cShrt, addLongMM: 0.75 * r.d}
	}
	return out
}

// aiscMetricBeyond is the row of a bolt over M36, by the tables' expressions.
func aiscMetricBeyond(code string, d float64) boltRow {
	sheared := 1.25 * d
	if code == "aisc-2005" {
		sheared = 1.75 * d
	}
	return boltRow{boltMM: d, standardMM: d + 3, oversizeMM: d + 8, slotMM: d + 3, shortMM: d + 10, longMM: 2.5 * d, edgeMM: 1.25 * d, shearedMM: sheared,
		addOversizeMM: 3, addShortMM: 5, addLongMM: 0.75 * d}
}
