package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// The shapes of a punch.
const (
	Round     = "round"
	Slot      = "slot"
	Square    = "square"
	Rectangle = "rectangle"
	Hexagon   = "hexagon"
)

// Piece is the metal that is worked: its thickness and what it is made of.
type Piece struct {
	ThicknessMM float64
	Material    *shop.Material
}

// missing gives the aspect of a datum that is not known; ok is true if all is known.
func (p Piece) missing() (a Aspect, ok bool) {
	switch {
	case !isSize(p.ThicknessMM):
		return Aspect{Rule: "thickness-missing", Grade: Unknown, Text: "the thickness is not known"}, false
	case p.Material == nil || !(p.Material.ShearMPa > 0):
		return Aspect{Rule: "material-missing", Grade: Unknown, Text: "the material's strength is not known"}, false
	}
	return Aspect{}, true
}

// upper is the strength of the second look, never below the nominal one.
func (p Piece) upper() float64 { return max(p.Material.ShearUpperMPa, p.Material.ShearMPa) }

// CutLength is the length that a punch of this shape cuts, mm: pi d; 4a;
// 2(a + b); 2(L - W) + pi W of a slot W x L overall; 6/sqrt 3 s of a hexagon
// across flats s. Plane geometry.
func CutLength(shape string, widthMM, lengthMM float64) float64 {
	switch shape {
	case Round:
		return math.Pi * widthMM
	case Square:
		return 4 * widthMM
	case Rectangle:
		return 2 * (widthMM + lengthMM)
	case Slot:
		return float64(2*(lengthMM-widthMM)) + float64(math.Pi*widthMM)
	case Hexagon:
		return 6 / math.Sqrt(3) * widthMM
	}
	panic("station: no cut length for shape " + shape)
}

// sectionArea is the area of a punch of this shape, mm2.
func sectionArea(shape string, w, l float64) float64 {
	switch shape {
	case Round:
		return math.Pi * w * w / 4
	case Square:
		return w * w
	case Rectangle:
		return w * l
	case Slot:
		return float64(w*(l-w)) + float64(math.Pi*w*w/4)
	case Hexagon:
		return math.Sqrt(3) / 2 * w * w
	}
	panic("station: no area for shape " + shape)
}

// body is the greatest width of a punch of this shape: its diameter, diagonal,
// overall length or width across corners. It must fit in the holder.
func body(shape string, w, l float64) float64 {
	switch shape {
	case Round:
		return w
	case Square:
		return math.Sqrt2 * w
	case Rectangle:
		return math.Sqrt(float64(w*w) + float64(l*l))
	case Slot:
		return max(w, l)
	case Hexagon:
		return 2 / math.Sqrt(3) * w
	}
	panic("station: no body for shape " + shape)
}

// ShearForceKN is the force L t S of a closed or open line of cut, kN. Strength
// of materials: the cut surface times the shear strength.
func ShearForceKN(cutMM, thicknessMM, shearMPa float64) float64 {
	return cutMM * thicknessMM * shearMPa / 1000
}

// GroundShearFactor is what shear ground on the tool lowers the force to, as a
// share: with the height I of the shear and fracture at p t, p t / I where
// I >= p t; p t / (p t + I) in other textbooks. The larger of the two holds,
// never above 1 and, by shop practice, never below 0.5. penetration is p.
func GroundShearFactor(heightMM, thicknessMM, penetration float64) float64 {
	if !(heightMM > 0) {
		return 1
	}
	pt := penetration * thicknessMM
	f := max(pt/heightMM, pt/(pt+heightMM))
	return max(0.5, min(1, f))
}

// basisMPa is the strength at which a station's rows are meant.
func basisMPa(r *shop.Rating) float64 {
	if r.BasisMPa > 0 {
		return r.BasisMPa
	}
	return 345 // mild steel of common capacity charts
}

// usable is the force that a station may use, with how that is known; ok is
// false if the shop file does not tell. heaviest is the force of its heaviest
// row, 0 without rows.
func usable(r *shop.Rating, heaviestKN float64) (kn float64, how string, ok bool) {
	if kn, ok = usableKN(r, heaviestKN); !ok {
		return 0, "", false
	}
	return kn, usableHow(r, heaviestKN), true
}

func usableKN(r *shop.Rating, heaviestKN float64) (kn float64, ok bool) {
	switch {
	case r.UsableKN > 0:
		return r.UsableKN, true
	case heaviestKN > 0 && r.ForceKN > 0:
		return min(heaviestKN, r.ForceKN), true
	case heaviestKN > 0:
		return heaviestKN, true
	case r.ForceKN > 0:
		return usableShare(r) * r.ForceKN, true
	}
	return 0, false
}

// usableShare is the share of the rated force that may be used.
func usableShare(r *shop.Rating) float64 {
	if r.UsableShare > 0 {
		return r.UsableShare
	}
	return 0.9
}

// usableHow tells where usableKN comes from.
func usableHow(r *shop.Rating, heaviestKN float64) string {
	switch {
	case r.UsableKN > 0 && r.FromRow, !(r.UsableKN > 0) && heaviestKN > 0:
		return fmt.Sprintf("heaviest row at %s MPa", measure.FormatNumber(basisMPa(r), 0))
	case r.UsableKN > 0 && r.ForceKN > 0:
		return fmt.Sprintf("%s x %s kN rated", measure.FormatNumber(r.UsableKN/r.ForceKN, 2), measure.FormatNumber(r.ForceKN, 1))
	case r.UsableKN > 0:
		return "as stated"
	case r.ForceKN > 0:
		return fmt.Sprintf("%s x %s kN rated", measure.FormatNumber(usableShare(r), 2), measure.FormatNumber(r.ForceKN, 1))
	}
	return ""
}

// load is a force to be set against what a station may use.
type load struct {
	rule      string
	what      string // "Ø22 in 10 mm mild"
	nominalKN float64
	upperKN   float64
	usableKN  float64
	how       string // where usable comes from
	known     bool   // usable is known
	row       *shop.Row
	basis     string // arithmetic of nominal
	fix       string
	quiet     bool // no words
}

// judge applies the one margin: fail if the nominal force is above what may be
// used, care if only the upper one is, plain pass where a row covers.
func (l load) judge(prof *shop.Profile) (a Aspect, share float64) {
	a = Aspect{Rule: l.rule, Got: l.nominalKN, HasGot: true, Unit: "kN", Basis: l.basis}
	if !l.known {
		a.Grade = Unknown
	} else {
		a.Limit, a.HasLimit = l.usableKN, true
		share = l.nominalKN / l.usableKN
		switch {
		case l.row != nil:
			share = min(share, 1) // a row is a promise, also where it contradicts the rating
		case !atMost(l.nominalKN, l.usableKN):
			a.Grade = Fail
		case !atMost(l.upperKN, l.usableKN):
			a.Grade = Care
		}
	}
	if !l.quiet {
		l.tell(prof, &a, share)
	}
	return a, share
}

// tell writes the words of an aspect that is judged.
func (l *load) tell(prof *shop.Profile, a *Aspect, share float64) {
	if !l.known {
		a.Text = fmt.Sprintf("%s needs %s, but the shop file states no force for this station", l.what, Force(prof, l.nominalKN))
		return
	}
	a.Basis += fmt.Sprintf("; usable %s kN (%s)", measure.FormatNumber(l.usableKN, 1), l.how)
	switch {
	case l.row != nil:
		a.Text = fmt.Sprintf("%s is covered by the row %s in %s", l.what, Length(prof, l.row.SizeMM), Length(prof, l.row.ThicknessMM))
	case a.Grade == Fail:
		a.Text = fmt.Sprintf("%s needs %s, but only %s may be used (%s)", l.what, Force(prof, l.nominalKN), Force(prof, l.usableKN), percent(share))
		if a.Fix = l.fix; a.Fix != "" {
			a.FixBy = "shop"
		}
	case a.Grade == Care:
		a.Text = fmt.Sprintf("%s needs %s, tight at the upper strength: %s of %s", l.what, Force(prof, l.nominalKN), Force(prof, l.upperKN), Force(prof, l.usableKN))
		a.Basis += fmt.Sprintf("; at the upper strength %s kN", measure.FormatNumber(l.upperKN, 1))
		a.Fix, a.FixBy = "use a sharp punch, and stop if the machine stalls", "shop"
	default:
		a.Text = fmt.Sprintf("%s needs %s of %s (%s)", l.what, Force(prof, l.nominalKN), Force(prof, l.usableKN), percent(share))
	}
}

// add appends an aspect and keeps the greatest share.
func (u *Use) add(a Aspect, share float64) {
	u.Aspects = append(u.Aspects, a)
	u.Share = max(u.Share, share)
}

// Buys tells whether the use needs something that is to be bought.
func (u Use) Buys() bool {
	for i := range u.Aspects {
		if u.Aspects[i].Buy != "" {
			return true
		}
	}
	return false
}

// better tells whether u is to be preferred to v: the better grade, then what
// the rack has, then fewer hits, then the smaller share of the limits, then the
// tool's name.
func better(u, v *Use) bool {
	if gu, gv := u.Grade(), v.Grade(); gu != gv {
		return gu < gv
	}
	if bu, bv := u.Buys(), v.Buys(); bu != bv {
		return bv
	}
	if u.Hits != v.Hits {
		return u.Hits < v.Hits
	}
	if math.Abs(u.Share-v.Share) > 1e-9 {
		return u.Share < v.Share
	}
	return u.Tool < v.Tool
}
