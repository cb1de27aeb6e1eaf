package check

// boltRow is one bolt of a code: the largest holes of each class, and the
// least distances that the code lists by bolt. Millimetres; 0 not listed.
type boltRow struct {
	name                   string
	boltMM                 float64
	standardMM, oversizeMM float64
	alsoMM                 float64 // another standard size in use; 0 none
	slotMM                 float64 // width of both slots
	shortMM, longMM        float64 // overall length of short and long slot

	edgeMM    float64 // centre of a standard hole to a rolled, sawn or gas cut edge, or to any
	shearedMM float64 // to a sheared one

	addOversizeMM, addShortMM, addLongMM float64 // C2 of AISC 360
}

// The classes of bolt holes.
const (
	classStandard  = "standard"
	classOversize  = "oversized"
	classShortSlot = "short-slotted"
	classLongSlot  = "long-slotted"
	classSupposed  = "no size of the table"
)

// boltReading is one way to read a hole: which bolt it is for, and of what class.
type boltReading struct {
	bolt      string
	boltMM    float64
	class     string
	edgeMM    float64 // as in the row
	shearedMM float64
	addMM     float64 // C2, toward an edge that the long axis points to; 0 along it
}

func (r *boltRow) as(class string, addMM float64) boltReading {
	return boltReading{bolt: r.name, boltMM: r.boltMM, class: class, edgeMM: r.edgeMM, shearedMM: r.shearedMM, addMM: addMM}
}

// needMM is the least distance from the centre to an edge.
func (r *boltReading) needMM(alongEdge, sheared bool) float64 {
	need := r.edgeMM
	if sheared {
		need = r.shearedMM
	}
	if alongEdge && (r.class == classShortSlot || r.class == classLongSlot) {
		return need
	}
	return need + r.addMM
}

// readRound reads a round hole within tol (mm) of a standard or oversized hole.
func readRound(rows []boltRow, diameterMM, tol float64) []boltReading {
	var out []boltReading
	for i := range rows {
		r := &rows[i]
		if abs(diameterMM-r.standardMM) <= tol+1e-9 || r.alsoMM > 0 && abs(diameterMM-r.alsoMM) <= tol+1e-9 {
			out = append(out, r.as(classStandard, 0))
		}
		if abs(diameterMM-r.oversizeMM) <= tol+1e-9 {
			out = append(out, r.as(classOversize, r.addOversizeMM))
		}
	}
	return out
}

// slotAs reads a slot of a row. Longer than a short slot is long-slotted;
// longer than a long slot is read as one and full C2 holds. Where a slot is
// shorter than the table's, C2 falls by half the difference. Source: AISC
// 360-22 Table J3.5, note; FAQ 5.1.1 of the AISC Steel Solutions Center for
// the classes.
func (r *boltRow) slotAs(lengthMM, tol float64) boltReading {
	class, c2, most := classLongSlot, r.addLongMM, r.longMM
	if lengthMM <= r.shortMM+tol+1e-9 {
		class, c2, most = classShortSlot, r.addShortMM, r.shortMM
	}
	return r.as(class, max(0, c2-max(0, (most-lengthMM)/2)))
}

// readSlot reads a slot of a table width within tol (mm).
func readSlot(rows []boltRow, widthMM, lengthMM, tol float64) []boltReading {
	var out []boltReading
	for i := range rows {
		if r := &rows[i]; abs(widthMM-r.slotMM) <= tol+1e-9 || r.alsoMM > 0 && abs(widthMM-r.alsoMM) <= tol+1e-9 {
			out = append(out, r.slotAs(lengthMM, tol))
		}
	}
	return out
}

// readNamed reads a hole whose bolt is named: by the class that its size
// allows, else as the largest class.
func readNamed(row boltRow, slot bool, widthMM, lengthMM, tol float64) boltReading {
	switch {
	case slot:
		return row.slotAs(lengthMM, tol)
	case widthMM <= max(row.standardMM, row.alsoMM)+tol+1e-9:
		return row.as(classStandard, 0)
	}
	return row.as(classOversize, row.addOversizeMM)
}

// readSupposed reads a hole that is declared a bolt hole but has no size of the
// table: as for a bolt as large as the hole, which asks for the most.
func readSupposed(rows []boltRow, widthMM, lengthMM float64) boltReading {
	r := boltReading{bolt: "a bolt as large as the hole", boltMM: widthMM, class: classSupposed, edgeMM: 1.25 * widthMM, shearedMM: 1.75 * widthMM}
	for _, row := range rows {
		if row.boltMM >= widthMM-1e-9 {
			r.edgeMM, r.shearedMM = max(r.edgeMM, row.edgeMM), max(r.shearedMM, row.shearedMM)
			break
		}
	}
	if lengthMM > widthMM {
		r.class, r.addMM = classLongSlot, 0.75*widthMM
	}
	return r
}
