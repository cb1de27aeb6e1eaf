package features

import "math"

// sheetSize is a size of drawing sheets, lying.
type sheetSize struct {
	name          string
	width, height float64 // mm
}

// paperSizes lists the sizes that drawings are printed on: ISO 216 A4 to A0,
// ASME Y14.1 A to F, and the architectural sizes (common practice).
func paperSizes() []sheetSize {
	const in = 25.4
	return []sheetSize{
		{"A4", 297, 210}, {"A3", 420, 297}, {"A2", 594, 420}, {"A1", 841, 594}, {"A0", 1189, 841},
		{"ANSI A", 11 * in, 8.5 * in}, {"ANSI B", 17 * in, 11 * in}, {"ANSI C", 22 * in, 17 * in}, {"ANSI D", 34 * in, 22 * in},
		{"ANSI E", 44 * in, 34 * in}, {"ANSI F", 40 * in, 28 * in},
		{"Arch A", 12 * in, 9 * in}, {"Arch B", 18 * in, 12 * in}, {"Arch C", 24 * in, 18 * in}, {"Arch D", 36 * in, 24 * in},
		{"Arch E", 48 * in, 36 * in}, {"Arch E1", 42 * in, 30 * in},
	}
}

// sheetScales are the scales that sheets are drawn at round parts of full size:
// those of ISO 5455, the enlargements of it, and the whole inches to the foot.
func sheetScales() []float64 {
	return []float64{1, 2, 2.5, 3, 4, 5, 8, 10, 12, 15, 16, 20, 24, 25, 30, 40, 48, 50, 100, 0.5, 0.2, 0.1}
}

// isSheet tells whether a rectangle is a sheet of standard size at a usual
// scale, within a thousandth, and which.
func isSheet(width, height float64) (name string, scale float64, ok bool) {
	w, h := math.Max(width, height), math.Min(width, height)
	for _, f := range sheetScales() {
		for _, s := range paperSizes() {
			if math.Abs(w-s.width*f) <= 1e-3*w && math.Abs(h-s.height*f) <= 1e-3*h {
				return s.name, f, true
			}
		}
	}
	return "", 0, false
}

// stockPlateMM lists usual thicknesses of steel plate and flat bar: those of
// EN 10058 (flat bars, table 1, from memory) with 16 mm, and of sheet (common
// practice, no source).
func stockPlateMM() []float64 {
	return []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 35, 40, 50, 60}
}
