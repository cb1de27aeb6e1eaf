package station

import (
	"math"

	"burrside/check/shop"
)

// DieToBuy is the bore of the die that gives a punch the clearance aimed at in
// this metal, rounded to 0.1 mm, or to 1/64 in where the shop works in inches;
// ok is false when so rounded it leaves no clearance.
func DieToBuy(prof *shop.Profile, punchMM, thicknessMM float64, m *shop.Material) (boreMM float64, ok bool) {
	step := dieStep(prof)
	boreMM = math.Round((punchMM+aim(prof, m)*thicknessMM)/step) * step
	if boreMM <= punchMM+relative {
		boreMM += step
	}
	return boreMM, boreMM > punchMM+relative && isSize(boreMM)
}

// dieStep is the step in which dies are to be had.
func dieStep(prof *shop.Profile) float64 {
	if prof.Units == "in" {
		return 25.4 / 64
	}
	return 0.1
}

// SizeName names the size of a tool or hole: "Ø22", "slot 22 x 50".
func SizeName(prof *shop.Profile, shape string, widthMM, lengthMM float64) string {
	return size(prof, shape, widthMM, lengthMM)
}
