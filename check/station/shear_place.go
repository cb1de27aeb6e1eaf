package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// usualMitreRad is the mitre that every table takes (common practice, no source).
const usualMitreRad = math.Pi/4 + 1e-4

// WorstRadiusMM is how far from the pivot the middle of the zone lies that a raked
// blade is in, at its worst: r0 + L - e/2 at the end of a cut that begins at the
// pivot end of the blade, e the lesser of t / tan(rake) and L. r0 is the distance
// from the pivot to the near end of the blade; the engaged triangle's width is
// plane geometry.
func WorstRadiusMM(r0MM, lengthMM, thicknessMM, rakeRad float64) float64 {
	return r0MM + lengthMM - engagedMM(lengthMM, thicknessMM, rakeRad)/2
}

func engagedMM(length, t, rakeRad float64) float64 {
	if !(rakeRad > 0) {
		return length
	}
	return min(length, t/math.Tan(rakeRad))
}

// RowMomentKNm is the moment about the pivot that a row takes at its worst.
func RowMomentKNm(r shop.Row, r0MM, rakeRad, shearMPa float64) float64 {
	return RakedForceKN(r.ThicknessMM, r.SizeMM, rakeRad, shearMPa) * WorstRadiusMM(r0MM, r.SizeMM, r.ThicknessMM, rakeRad) / 1000
}

// longestCovered is the longest cut that a row covers at a thickness, 0 none.
func longestCovered(rows []shop.Row, t float64) float64 {
	most := 0.0
	for _, r := range rows {
		if atMost(t, r.ThicknessMM) {
			most = max(most, r.SizeMM)
		}
	}
	return most
}

// covered says what the rows do cover where a cut is beyond them: a place on the
// blade is named only where a row covers it, so that none makes this cut pass.
func (s *shearing) covered(st *shop.ShearStation, te, limit float64) string {
	most := longestCovered(st.Rows, te)
	switch {
	case !(most > 0):
		return "; no row covers any cut that thick, at any place on the blade"
	case math.Abs(most-limit) <= relative*most:
		return "; at no other place on the blade does it pass, the rows hold at its pivot end"
	}
	return fmt.Sprintf("; no row covers more than %s, at the pivot end of the blade", Length(s.prof, math.Floor(most*10)/10))
}

// place tells where on the blade a cut belongs that a row covers: rows hold for
// stock at the pivot end. Where the heaviest row's moment would be passed at the
// far end of the blade, the cut stays within the length that a row covers at its
// thickness. The moment only ever tells of less, never of more than a row.
func (s *shearing) place(st *shop.ShearStation) (Aspect, bool) {
	if len(st.Rows) == 0 || !(st.RakeRad > 0) || !(st.PivotMM > 0) || !(st.BladeMM > 0) {
		return Aspect{}, false
	}
	t, l, S := s.pc.ThicknessMM, s.c.LengthMM, s.pc.Material.ShearMPa
	te := equal(st, t, l, S)
	within := longestCovered(st.Rows, te)
	if !atMost(l, within) || atMost(st.BladeMM, within) {
		return Aspect{}, false // no row covers it, or one covers the whole blade
	}
	heaviest := 0.0
	for _, r := range st.Rows {
		heaviest = max(heaviest, RowMomentKNm(r, st.PivotMM, st.RakeRad, basisMPa(&st.Rating)))
	}
	force := RakedForceKN(t, l, st.RakeRad, S)
	r := st.PivotMM + st.BladeMM - engagedMM(l, t, st.RakeRad)/2
	moment := force * r / 1000
	if atMost(moment, heaviest) {
		return Aspect{}, false
	}
	a := Aspect{Rule: "shear-row", Grade: OK, Got: moment, HasGot: true, Limit: heaviest, HasLimit: true, Unit: "kNm"}
	if !s.words {
		return a, true
	}
	a.Text = fmt.Sprintf("cut at the pivot end, within %s of the blade's near end", Length(s.prof, math.Floor(within*10)/10))
	a.Basis = fmt.Sprintf("at the far end of the blade %s kN x %s mm = %s kNm from the pivot; the heaviest row takes %s kNm", measure.FormatNumber(force, 1), measure.FormatNumber(r, 0), measure.FormatNumber(moment, 1), measure.FormatNumber(heaviest, 1))
	a.Fix, a.FixBy = "lay the stock against the pivot end", "shop"
	return a, true
}

// twist notes a narrow strip that falls and curls as it is cut off.
func (s *shearing) twist() (Aspect, bool) {
	need := settingsOf(s.prof).value("twist", "width") * s.pc.ThicknessMM
	if !(s.c.StripMM > 0) || atMost(need, s.c.StripMM) {
		return Aspect{}, false
	}
	a := Aspect{Rule: "twist", Grade: Remark, Got: s.c.StripMM, HasGot: true, Limit: need, HasLimit: true, Unit: "mm"}
	if s.words {
		a.Text = fmt.Sprintf("a strip of %s twists as it falls from the shear, under %s", Length(s.prof, tenth(s.c.StripMM)), Length(s.prof, need))
		a.Basis = fmt.Sprintf("%s x %s mm", measure.FormatNumber(need/s.pc.ThicknessMM, 1), measure.FormatNumber(s.pc.ThicknessMM, 3))
		a.Fix, a.FixBy = "allow time to straighten it, or take flat bar", "shop"
	}
	return a, true
}
