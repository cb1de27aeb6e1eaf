package features

import (
	"fmt"
	"math"
	"strings"
)

// longFirst is a box with its longer side first.
func longFirst(a, b float64) [2]float64 { return [2]float64{math.Max(a, b), math.Min(a, b)} }

// sameBox tells whether a box has these sides, in either order.
func sameBox(box [2]float64, a, b, tol float64) bool {
	s := longFirst(a, b)
	return math.Abs(box[0]-s[0]) <= tol && math.Abs(box[1]-s[1]) <= tol
}

// sheet is a size of paper or of stock plate.
type sheet struct {
	name  string
	mm    [2]float64
	unit  string // in which it is drawn at full size by habit
	plate bool
}

// sheetSizes are papers (ISO 216; ANSI/ASME Y14.1) and the stock plates met most
// (common practice, no source).
func sheetSizes() []sheet {
	inch := func(name string, a, b float64) sheet {
		return sheet{name, [2]float64{a * 25.4, b * 25.4}, "in", strings.Contains(name, " x ")}
	}
	return []sheet{
		{"A0", [2]float64{1189, 841}, "mm", false}, {"A1", [2]float64{841, 594}, "mm", false}, {"A2", [2]float64{594, 420}, "mm", false}, {"A3", [2]float64{420, 297}, "mm", false}, {"A4", [2]float64{297, 210}, "mm", false},
		inch("A", 11, 8.5), inch("B", 17, 11), inch("C", 22, 17), inch("D", 34, 22), inch("E", 44, 34),
		{"2000 x 1000", [2]float64{2000, 1000}, "mm", true}, {"2500 x 1250", [2]float64{2500, 1250}, "mm", true}, {"3000 x 1500", [2]float64{3000, 1500}, "mm", true}, {"4000 x 2000", [2]float64{4000, 2000}, "mm", true}, {"6000 x 2000", [2]float64{6000, 2000}, "mm", true},
		inch("96 x 48 in", 96, 48), inch("120 x 48 in", 120, 48), inch("120 x 60 in", 120, 60), inch("144 x 72 in", 144, 72), inch("240 x 96 in", 240, 96),
	}
}

// boxEvidence looks for rectangles that are a sheet of paper or a stock plate in
// a unit. Both sides must be met, of which chance is small; a plate of 96 x 48
// millimetres is likelier than one of 96 x 48 metres all the same, so that a size
// in inches that is a part's in millimetres counts less.
func boxEvidence(data voteData) []UnitsEvidence {
	boxes := append(append([][2]float64{}, data.boxes...), longFirst(data.width, data.height))
	var list []UnitsEvidence
	for _, s := range sheetSizes() {
		for _, u := range voteUnits() {
			if u.name == "m" || u.name == "ft" || u.name == "cm" && (s.unit == "in" || s.plate) {
				continue // 200 x 100, 250 x 125 and 300 x 150 are everyday parts in millimetres
			}
			for i, box := range boxes {
				if !sameBox(box, s.mm[0]/u.mm, s.mm[1]/u.mm, 0.05/u.mm) {
					continue
				}
				w := weightBox
				if s.unit == "in" && u.name == "in" && box[0] >= 40 || i == len(data.boxes) && i > 0 {
					w = 1
				}
				list = append(list, UnitsEvidence{What: fmt.Sprintf("a rectangle %s x %s is a sheet %s", shortNumber(box[0]), shortNumber(box[1]), s.name), For: u.name, Weight: w})
				break
			}
		}
	}
	return list
}

// sizeEvidence weighs how plausible the sizes are, by log-normal spreads about
// 250 mm for the drawing and 10 mm for the smallest hole, relative to the least
// plausible reading. A hole of less than half the thickness counts against.
func sizeEvidence(data voteData, thicknessMM float64) []UnitsEvidence {
	size := math.Max(data.width, data.height)
	if !(size > 0) {
		return nil
	}
	units := voteUnits()
	var s [len(units)]float64
	best := math.Inf(-1)
	for i, u := range units {
		s[i] = decadesOff(size*u.mm, sizeCentreMM, sizeSpread)
		if len(data.diameters) > 0 {
			s[i] += decadesOff(data.diameters[0]*u.mm, holeCentreMM, holeSpread)
			if r := data.diameters[0] * u.mm / thicknessMM; thicknessMM > 0 && r < 0.5 {
				s[i] += math.Max(math.Log10(r/0.5), -1)
			}
		}
		best = math.Max(best, s[i])
	}
	var list []UnitsEvidence
	for i, u := range units {
		gap := best - s[i]
		loss := math.Min(gap, limitSize) + math.Min(math.Max(gap-absurdFrom, 0), limitAbsurd)
		if w := limitSize + limitAbsurd - loss; w > 0 {
			list = append(list, UnitsEvidence{What: "plausible sizes: " + sizesUnder(data, u.mm, "mm"), For: u.name, Weight: w})
		}
	}
	return list
}

// decadesOff is the log10 of a log-normal likelihood relative to its middle.
func decadesOff(x, centre, spread float64) float64 {
	z := math.Log10(x/centre) / spread
	return -0.5 * z * z * math.Log10E
}
