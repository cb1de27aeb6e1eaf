package check

// ANSI/AISC 360-22: sizes of bolt holes (Tables J3.3, J3.3M), least edge
// distance from the centre of a standard hole (Tables J3.4, J3.4M) and what is
// added for other holes (Tables J3.5, J3.5M). Values of one row in the row's
// own unit. Some fractions of the tables were filled in from memory, as the
// copy that was read had lost them; the rows above 1-1/4 in and at M36 are
// worked out from the tables' own expressions.

// aiscRow is one bolt: hole sizes and distances, in millimetres.
type aiscRow struct {
	name                      string
	boltMM                    float64
	standardMM, oversizeMM    float64
	slotMM                    float64 // width of both slots
	shortMM, longMM           float64 // overall length of short and long slot
	edgeMM                    float64 // J3.4
	addOversizeMM, addShortMM float64 // J3.5
	addLongMM                 float64
}

// aiscInch gives the rows of the inch tables.
func aiscInch() []aiscRow {
	rows := []struct {
		name                                        string
		d, std, ovs, short, long, edge, cOvs, cShrt float64
	}{
		{"1/2 in", 0.5, 0.5625, 0.625, 0.6875, 1.25, 0.75, 0.0625, 0.125},
		{"5/8 in", 0.625, 0.6875, 0.8125, 0.875, 1.5625, 0.875, 0.0625, 0.125},
		{"3/4 in", 0.75, 0.8125, 0.9375, 1, 1.875, 1, 0.0625, 0.125},
		{"7/8 in", 0.875, 0.9375, 1.0625, 1.125, 2.1875, 1.125, 0.0625, 0.125},
		{"1 in", 1, 1.125, 1.25, 1.3125, 2.5, 1.25, 0.125, 0.125},
		{"1-1/8 in", 1.125, 1.25, 1.4375, 1.5, 2.8125, 1.5, 0.125, 0.1875},
		{"1-1/4 in", 1.25, 1.375, 1.5625, 1.625, 3.125, 1.625, 0.125, 0.1875},
		{"1-3/8 in", 1.375, 1.5, 1.6875, 1.75, 3.4375, 1.25 * 1.375, 0.125, 0.1875},
		{"1-1/2 in", 1.5, 1.625, 1.8125, 1.875, 3.75, 1.25 * 1.5, 0.125, 0.1875},
	}
	out := make([]aiscRow, len(rows))
	for i, r := range rows {
		out[i] = aiscRow{r.name, r.d * 25.4, r.std * 25.4, r.ovs * 25.4, r.std * 25.4, r.short * 25.4, r.long * 25.4,
			r.edge * 25.4, r.cOvs * 25.4, r.cShrt * 25.4, 0.75 * r.d * 25.4}
	}
	return out
}

// aiscMetric gives the rows of the metric tables.
func aiscMetric() []aiscRow {
	rows := []struct {
		name                                        string
		d, std, ovs, short, long, edge, cOvs, cShrt float64
	}{
		{"M12", 12, 14, 16, 18, 30, 18, 2, 3},
		{"M16", 16, 18, 20, 22, 40, 22, 2, 3},
		{"M20", 20, 22, 24, 26, 50, 26, 2, 3},
		{"M22", 22, 24, 28, 30, 55, 28, 2, 3},
		{"M24", 24, 27, 30, 32, 60, 30, 3, 3},
		{"M27", 27, 30, 35, 37, 67, 34, 3, 5},
		{"M30", 30, 33, 38, 40, 75, 38, 3, 5},
		{"M36", 36, 39, 44, 46, 90, 46, 3, 5},
	}
	out := make([]aiscRow, len(rows))
	for i, r := range rows {
		out[i] = aiscRow{r.name, r.d, r.std, r.ovs, r.std, r.short, r.long, r.edge, r.cOvs, r.cShrt, 0.75 * r.d}
	}
	return out
}

// The classes of bolt holes.
const (
	classStandard  = "standard"
	classOversize  = "oversized"
	classShortSlot = "short-slotted"
	classLongSlot  = "long-slotted"
	classSupposed  = "no size of the table"
)

// aiscReading is one way to read a hole: which bolt it is for, and of what class.
type aiscReading struct {
	bolt   string
	boltMM float64
	class  string
	edgeMM float64 // J3.4, for a standard hole
	addMM  float64 // C2 of J3.5, toward an edge that the long axis points to; 0 along it
}

// needMM is the least distance from the centre to an edge.
func (r *aiscReading) needMM(alongEdge bool) float64 {
	if alongEdge && (r.class == classShortSlot || r.class == classLongSlot) {
		return r.edgeMM
	}
	return r.edgeMM + r.addMM
}

// pitchMM is the least distance between centres: 2-2/3 d. Source: AISC 360-22 J3.
func (r *aiscReading) pitchMM() float64 { return r.boltMM * 8 / 3 }

// aiscRound reads a round hole within tol (mm) of a standard or oversized hole.
func aiscRound(rows []aiscRow, diameterMM, tol float64) []aiscReading {
	var out []aiscReading
	for _, r := range rows {
		if abs(diameterMM-r.standardMM) <= tol+1e-9 {
			out = append(out, aiscReading{r.name, r.boltMM, classStandard, r.edgeMM, 0})
		}
		if abs(diameterMM-r.oversizeMM) <= tol+1e-9 {
			out = append(out, aiscReading{r.name, r.boltMM, classOversize, r.edgeMM, r.addOversizeMM})
		}
	}
	return out
}

// aiscSlot reads a slot of a table width within tol (mm). Longer than a short
// slot is long-slotted; longer than a long slot is read as one and full C2
// holds. Where a slot is shorter than the table's, C2 falls by half the
// difference. Source: AISC 360-22 Table J3.5, note; FAQ 5.1.1 of the AISC
// Steel Solutions Center for the classes.
func aiscSlot(rows []aiscRow, widthMM, lengthMM, tol float64) []aiscReading {
	var out []aiscReading
	for _, r := range rows {
		if abs(widthMM-r.slotMM) > tol+1e-9 {
			continue
		}
		add := func(class string, c2, most float64) {
			c2 -= max(0, (most-lengthMM)/2)
			out = append(out, aiscReading{r.name, r.boltMM, class, r.edgeMM, max(0, c2)})
		}
		if lengthMM <= r.shortMM+tol+1e-9 {
			add(classShortSlot, r.addShortMM, r.shortMM)
		} else {
			add(classLongSlot, r.addLongMM, r.longMM)
		}
	}
	return out
}

// aiscByBolt reads a hole whose bolt is named: by the class that its size
// allows, else as the largest class.
func aiscByBolt(row aiscRow, slot bool, widthMM, lengthMM, tol float64) aiscReading {
	switch {
	case slot && lengthMM <= row.shortMM+tol:
		return aiscReading{row.name, row.boltMM, classShortSlot, row.edgeMM, row.addShortMM}
	case slot:
		return aiscReading{row.name, row.boltMM, classLongSlot, row.edgeMM, row.addLongMM}
	case widthMM <= row.standardMM+tol:
		return aiscReading{row.name, row.boltMM, classStandard, row.edgeMM, 0}
	}
	return aiscReading{row.name, row.boltMM, classOversize, row.edgeMM, row.addOversizeMM}
}

// aiscSupposed reads a hole that is declared a bolt hole but has no size of the
// table: as for a bolt as large as the hole, which asks for the most.
func aiscSupposed(rows []aiscRow, widthMM, lengthMM float64) aiscReading {
	r := aiscReading{bolt: "a bolt as large as the hole", boltMM: widthMM, class: classSupposed, edgeMM: 1.25 * widthMM}
	for _, row := range rows {
		if row.boltMM >= widthMM-1e-9 {
			r.edgeMM = max(r.edgeMM, row.edgeMM)
			break
		}
	}
	if lengthMM > widthMM {
		r.class, r.addMM = classLongSlot, 0.75*widthMM
	}
	return r
}
