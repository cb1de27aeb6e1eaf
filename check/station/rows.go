package station

import (
	"cmp"
	"math"
	"slices"

	"burrside/check/shop"
)

// frontier gives the rows that no other row covers, thin to thick, lengths
// falling, in buf where they fit.
func frontier(buf, rows []shop.Row) []shop.Row {
	rs := append(buf[:0], rows...)
	slices.SortFunc(rs, func(a, b shop.Row) int {
		return cmp.Or(cmp.Compare(b.ThicknessMM, a.ThicknessMM), cmp.Compare(b.SizeMM, a.SizeMM))
	})
	out := rs[:0]
	longest := 0.0
	for _, r := range rs {
		if r.SizeMM > longest {
			out = append(out, r)
			longest = r.SizeMM
		}
	}
	slices.Reverse(out)
	return out
}

// RowGrade sets a thickness and a length of cut, in the rows' own material,
// against capacity rows: OK if one row covers both; Care if none does, but the
// point lies on or below the polyline through neighbouring rows in the
// logarithms of both, and above neither the thickest nor the longest; else
// Fail. limitMM is the longest cut that passes at that grade or better at this
// thickness (0 if none), row the one that covers, nil if none.
func RowGrade(rows []shop.Row, thicknessMM, lengthMM float64) (g Grade, limitMM float64, row *shop.Row) {
	g, limitMM, r := rowGrade(rows, thicknessMM, lengthMM)
	if g == OK {
		row = &r
	}
	return g, limitMM, row
}

// rowGrade is RowGrade; row is the zero row unless the grade is OK.
func rowGrade(rows []shop.Row, thicknessMM, lengthMM float64) (g Grade, limitMM float64, row shop.Row) {
	var buf [16]shop.Row
	rs := frontier(buf[:], rows)
	covered := false
	for i := len(rs) - 1; i >= 0; i-- {
		if atMost(thicknessMM, rs[i].ThicknessMM) {
			limitMM = max(limitMM, rs[i].SizeMM)
			if !covered && atMost(lengthMM, rs[i].SizeMM) {
				row, covered = rs[i], true
			}
		}
	}
	if covered {
		return OK, limitMM, row
	}
	for i := 0; i+1 < len(rs); i++ {
		a, b := rs[i], rs[i+1]
		if thicknessMM <= a.ThicknessMM || !atMost(thicknessMM, b.ThicknessMM) {
			continue
		}
		f := math.Log(thicknessMM/a.ThicknessMM) / math.Log(b.ThicknessMM/a.ThicknessMM)
		most := math.Exp(math.Log(a.SizeMM) + f*math.Log(b.SizeMM/a.SizeMM))
		if atMost(lengthMM, most) {
			return Care, most, shop.Row{}
		}
		limitMM = max(limitMM, most)
	}
	return Fail, limitMM, shop.Row{}
}

// rakedVolume is the force of a raked blade over the shear strength, mm2:
// t^2 / (2 tan a) once the whole thickness is engaged (L >= t / tan a), else
// L t - L^2 tan a / 2. Without rake L t, the whole section at once. Statics of
// the engaged triangle.
func rakedVolume(t, length, rakeRad float64) float64 {
	tan := math.Tan(rakeRad)
	switch {
	case !(rakeRad > 0):
		return length * t
	case length*tan >= t:
		return t * t / (2 * tan)
	}
	return float64(length*t) - float64(length*length*tan/2)
}

// RakedForceKN is the force of a raked blade without regard to earlier
// fracture, kN; rake 0 is a parallel blade.
func RakedForceKN(thicknessMM, lengthMM, rakeRad, shearMPa float64) float64 {
	return shearMPa * rakedVolume(thicknessMM, lengthMM, rakeRad) / 1000
}

// EqualThickness is the thickness in a material of strength row that needs the
// same force as this one in a material of strength shear. Without rake it is
// linear in the strength, which is safe.
func EqualThickness(thicknessMM, lengthMM, rakeRad, shearMPa, rowMPa float64) float64 {
	if !(rakeRad > 0) {
		return thicknessMM * shearMPa / rowMPa
	}
	tan := math.Tan(rakeRad)
	v := rakedVolume(thicknessMM, lengthMM, rakeRad) * shearMPa / rowMPa
	if half := length2(lengthMM) * tan / 2; v > half {
		return (v + half) / lengthMM
	}
	return math.Sqrt(2 * tan * v)
}

func length2(l float64) float64 { return l * l }
