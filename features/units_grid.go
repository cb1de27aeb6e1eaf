package features

import (
	"fmt"
	"math"
	"slices"
)

// onGrid tells whether x is a multiple of step within tol.
func onGrid(x, step, tol float64) bool {
	r := x / step
	return math.Abs(r-math.Round(r))*step <= tol
}

// clearanceSizes are the hole sizes met most, in millimetres: clearance holes
// of M8 to M30 by structural practice (EN 1090-2 table 11, from memory) and, in
// smallSizes, those of M3 to M10 and tap drills that lie off the half
// millimetre (ISO 273, ISO 261, from memory).
func clearanceSizes() []float64 { return []float64{9, 11, 13.5, 14, 17.5, 18, 22, 24, 26, 30, 33} }

func smallSizes() []float64 {
	return []float64{3.2, 3.4, 4.2, 4.3, 4.8, 5.3, 5.8, 6.4, 6.6, 6.8, 8.4, 10.2}
}

// clearanceInches are standard holes of 1/2 to 1 in bolts (AISC 360 table
// J3.3, from memory: 1/16 in over the bolt, 1/8 from 1 in on).
func clearanceInches() []float64 {
	return []float64{9. / 16, 11. / 16, 13. / 16, 15. / 16, 1.0625, 1.125, 1.25}
}

func nearAny(x, tol float64, list []float64) bool {
	return slices.ContainsFunc(list, func(v float64) bool { return math.Abs(v-x) <= tol })
}

// gridChance is the chance that a diameter taken at random lies on the grid of
// usual sizes as this one does: 0.5 mm from 3 to 60 mm and the odd small sizes, or
// 1/32 in from 3/16 to 3 in; 0 it does not.
func gridChance(mm float64, inch bool) float64 {
	if inch {
		x := mm / 25.4
		if x < 0.1875-1e-6 || x > 3+1e-6 {
			return 0
		}
		for _, step := range []float64{0.125, 0.0625, 0.03125} {
			if onGrid(x, step, nominalMM/25.4) {
				return 2 * nominalMM / (step * 25.4)
			}
		}
		return 0
	}
	if mm < 3-1e-6 || mm > 60+1e-6 {
		return 0
	}
	for _, step := range []float64{1, 0.5} {
		if onGrid(mm, step, nominalMM) {
			return 2 * nominalMM / step
		}
	}
	if nearAny(mm, nominalMM, smallSizes()) {
		// Twelve sizes on eight millimetres.
		return 2 * nominalMM * 12 / 8
	}
	return 0
}

// loose tells that a size lies on its grid by rounding only, by more than three
// thousandths: numbers in files have more digits than that as a rule.
func loose(mm float64, inch bool) bool {
	const tol = 0.003
	if inch {
		return !onGrid(mm, 25.4/32, tol)
	}
	return !onGrid(mm, 0.5, tol) && !nearAny(mm, tol, smallSizes())
}

// diameterEvidence weighs each kind of diameter by the chance of meeting the
// grid of usual hole sizes by luck. One that is on both grids of one reading
// says nothing. One that is on the other grid only was designed in the other
// unit, which says a little for this reading.
func diameterEvidence(diameters []float64) []UnitsEvidence {
	var list []UnitsEvidence
	if len(diameters) > maxVoteKinds {
		diameters = diameters[:maxVoteKinds]
	}
	for _, d := range diameters {
		inches := gridChance(d*25.4, true) > 0
		for _, u := range voteUnits() {
			mm := d * u.mm
			metric, inch := gridChance(mm, false), gridChance(mm, true)
			isInch := u.name == "in" || u.name == "ft"
			if u.name == "ft" && inches {
				continue // a binary fraction is one of feet too
			}
			w, what := 0.0, fmt.Sprintf("diameter %s is a usual size in %s", shortNumber(d), u.name)
			switch {
			case isInch && inch > 0 && metric == 0:
				w = -math.Log10(inch)
				if nearAny(mm/25.4, nominalMM/25.4, clearanceInches()) {
					w += weightClearance
				}
			case !isInch && metric > 0 && inch == 0:
				w = -math.Log10(metric)
				if nearAny(mm, nominalMM, clearanceSizes()) {
					w += weightClearance
				}
			case u.name == "mm" && inch > 0 && metric == 0:
				w, what = weightRatio, fmt.Sprintf("diameter %s is %s in", shortNumber(d), shortNumber(mm/25.4))
			case u.name == "in" && metric > 0 && inch == 0:
				w, what = weightRatio, fmt.Sprintf("diameter %s is %s mm", shortNumber(d), shortNumber(mm))
			default:
				continue
			}
			if loose(mm, inch > 0) {
				// Three decimals of an inch are common, hundredths of a
				// millimetre that are off are not.
				if w /= 2; inch == 0 {
					w /= 2
				}
			}
			list = append(list, UnitsEvidence{What: what, For: u.name, Weight: w})
		}
	}
	return list
}

// offGridEvidence counts the diameters in the range of usual holes that are no
// usual size in a unit, against it.
func offGridEvidence(diameters []float64) []UnitsEvidence {
	if len(diameters) > maxVoteKinds {
		diameters = diameters[:maxVoteKinds]
	}
	var list []UnitsEvidence
	for _, u := range voteUnits() {
		n := 0
		for _, d := range diameters {
			mm := d * u.mm
			if mm >= 3 && mm <= 60 && gridChance(mm, false) == 0 && gridChance(mm, true) == 0 {
				n++
			}
		}
		if n > 0 {
			list = append(list, UnitsEvidence{What: counted(n, "diameter") + " of no usual size", For: u.name, Weight: math.Max(offGrid*float64(n), limitOffGrid)})
		}
	}
	return list
}

// lengthEvidence tells binary fractions from decimal ones, and lengths that are
// round in the other unit: 152.4 and 20.6375 are inches drawn in millimetres,
// 7.874 is 200 mm drawn in inches. A length on both grids, as every multiple of a
// half is, says nothing.
func lengthEvidence(lengths []float64) []UnitsEvidence {
	const tol = 1e-4 // drawing units: four decimals are written at least
	inch, metric, asInch, asMM, n := 0, 0, 0, 0, 0
	for _, l := range lengths {
		if l < 0.1 {
			continue
		}
		n++
		binary, decimal := onGrid(l, 0.0625, tol), onGrid(l, 0.1, tol)
		switch {
		case binary && !decimal && l >= 0.5 && l < 500:
			inch++
		case decimal && !binary && l >= 5:
			metric++
		}
		if l >= 5 && !binary && onGrid(l/25.4, 0.0625, 1.2*tol/25.4) {
			asInch++
		}
		if !binary && !decimal && !onGrid(l, 0.01, tol) && onGrid(l*25.4, 0.5, 25.4*tol) {
			asMM++
		}
	}
	if n == 0 {
		return nil
	}
	var list []UnitsEvidence
	// Lengths of no system meet the other grid now and then: by how much, is
	// taken off three times over.
	more := func(count int, chance float64) float64 { return weightRatio * (float64(count) - 3*chance*float64(n)) }
	if w := more(asInch, 2*1.2*tol/(25.4*0.0625)); w > 0 {
		list = append(list, UnitsEvidence{What: fmt.Sprintf("%s round in inches when read in mm", counted(asInch, "length")), For: "mm", Weight: w})
	}
	if w := more(asMM, 4*25.4*tol); w > 0 {
		list = append(list, UnitsEvidence{What: fmt.Sprintf("%s round in mm when read in inches", counted(asMM, "length")), For: "in", Weight: w})
	}
	// The share decides, not the count: a metric file has quarters too.
	if both := float64(inch + metric); inch > metric {
		list = append(list, UnitsEvidence{What: fmt.Sprintf("%s in sixteenths and not tenths", counted(inch, "length")), For: "in", Weight: limitLengths * float64(inch-metric) / both})
	} else if metric > inch {
		list = append(list, UnitsEvidence{What: fmt.Sprintf("%s in tenths and not sixteenths", counted(metric, "length")), For: "mm", Weight: limitLengths * float64(metric-inch) / both},
			UnitsEvidence{What: fmt.Sprintf("%s in tenths and not sixteenths", counted(metric, "length")), For: "cm", Weight: limitLengths * float64(metric-inch) / both * 2 / 3})
	}
	return list
}

// counted writes "1 length", "2 lengths".
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
