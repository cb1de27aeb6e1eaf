package station

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/check/shop"
	"burrside/features/measure"
)

// Hole is a hole asked of a punch station. Reach is kept apart (see Reach), as
// holes of one size differ in nothing else.
type Hole struct {
	Shape          string  // Round, Slot, Square, Rectangle or Hexagon; any other has no punch
	WidthMM        float64 // diameter; width; short side; across flats
	LengthMM       float64 // overall, of a slot or rectangle
	CornerRadiusMM float64 // of a rectangle's corners, 0 sharp
	// TurnsRad are the angles of the long side (of a side, for squares and
	// hexagons) against each edge that the piece can be gauged on. nil: not
	// asked, keying is then not looked at.
	TurnsRad []float64
}

// Punch gives the best way to make a hole at a machine's punch station: by a
// tool of the rack, else by one to buy, in one hit or several. A machine
// without a punch fails under the rule "tool".
func Punch(prof *shop.Profile, m *shop.Machine, pc Piece, h Hole) Use {
	u, ok := startPunch(prof, m, pc)
	if !ok {
		return u
	}
	switch h.Shape {
	case Round, Square, Hexagon:
		h.LengthMM = h.WidthMM
	case Slot, Rectangle:
	default:
		u.add(Aspect{Rule: "opening", Grade: Fail, Text: "no punch makes this shape"}, 0)
		return u
	}
	if !isSize(h.WidthMM) || !isSize(h.LengthMM) {
		u.add(noSize(), 0)
		return u
	}
	switch h.Shape {
	case Round:
		return oneHit(prof, m, pc, h)[0]
	case Square, Hexagon:
		return bestOf(oneHit(prof, m, pc, h), openings(prof, m, pc, h))
	case Rectangle:
		h.WidthMM, h.LengthMM = min(h.WidthMM, h.LengthMM), max(h.WidthMM, h.LengthMM)
		return bestOf(oneHit(prof, m, pc, h), openings(prof, m, pc, h))
	case Slot:
		h.WidthMM, h.LengthMM = min(h.WidthMM, h.LengthMM), max(h.WidthMM, h.LengthMM)
		return bestOf(oneHit(prof, m, pc, h), slots(prof, m, pc, h))
	}
	panic("station: no way to punch shape " + h.Shape) // the first switch lets none through
}

func noSize() Aspect {
	return Aspect{Rule: "reading-doubt", Grade: Unknown, Text: "its size is not known"}
}

// isSize tells whether a length can be that of a hole or notch.
func isSize(mm float64) bool { return mm > 0 && mm < 1e6 }

// startPunch gives an empty use of the station; ok is false when the use is
// already decided, because the station or a datum is missing.
func startPunch(prof *shop.Profile, m *shop.Machine, pc Piece) (u Use, ok bool) {
	u = Use{Machine: m.Name, Station: "punch"}
	if m.Punch == nil {
		u.add(Aspect{Rule: "tool", Grade: Fail, Text: m.Name + " has no punch"}, 0)
		return u, false
	}
	if a, ok := pc.missing(); !ok {
		u.add(a, 0)
		return u, false
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	u.addThickest(prof, "punch-force", "punch station", m.Punch.MaxThicknessMM, m.Punch.Rows, pc.ThicknessMM)
	return u, true
}

// addThickest sets the metal against the thickest that a station takes. Where
// the shop file does not state it, rows speak for metal as thick as the thickest
// of them; beyond that force alone does not tell whether it goes in. A shop
// file has one of the two.
func (u *Use) addThickest(prof *shop.Profile, rule, what string, mostMM float64, rows []shop.Row, t float64) {
	stated := mostMM > 0
	for _, r := range rows {
		if !stated {
			mostMM = max(mostMM, r.ThicknessMM)
		}
	}
	if !(mostMM > 0) || atMost(t, mostMM) {
		return
	}
	a := Aspect{Rule: rule, Grade: Fail, Got: t, HasGot: true, Limit: mostMM, HasLimit: true, Unit: "mm",
		Text: fmt.Sprintf("%s is thicker than the %s that the %s takes", Length(prof, t), Length(prof, mostMM), what)}
	if stated {
		u.add(a, t/mostMM)
		return
	}
	a.Grade, a.Fix, a.FixBy = Care, "see that the metal goes in, and state max_thickness in the shop file", "shop"
	a.Text = fmt.Sprintf("%s is thicker than any row, and the shop file does not state the thickest metal that the %s takes", Length(prof, t), what)
	u.add(a, 0)
}

// hardened refuses metal that must not be punched, cut or notched.
func hardened(pc Piece) (Aspect, bool) {
	m := pc.Material
	if m.Punchable && m.Group != "hardened" {
		return Aspect{}, false
	}
	return Aspect{Rule: "material", Grade: Fail, Text: fmt.Sprintf("%s must not be punched, notched or sheared: it may shatter", materialName(m))}, true
}

// bestOf gives the best use; the first wins a tie.
func bestOf(uses ...[]Use) Use {
	var best *Use
	for _, us := range uses {
		for i := range us {
			if best == nil || better(&us[i], best) {
				best = &us[i]
			}
		}
	}
	return *best
}

// oneHit gives the use that makes the hole in one hit, as a list of one: a tool
// of the rack within the tolerance, or what buying one would give.
func oneHit(prof *shop.Profile, m *shop.Machine, pc Piece, h Hole) []Use {
	var rack []Use
	for i := range prof.Punches {
		p := &prof.Punches[i]
		w, l, ok := sized(p)
		if !ok || !fitsShape(p.Shape, h.Shape) || !onMachine(p.Machine, m) {
			continue
		}
		fit, ok := sizeAspect(prof, h, p, w, l)
		if !ok {
			continue
		}
		u, _ := startPunch(prof, m, pc)
		u.Hits, u.Tool = 1, p.Name
		u.add(fit, 0)
		u.addDie(prof, pc, p)
		u.addHolder(prof, m, p.Shape, w, l, p.Holder, false)
		u.addKey(m, h, u.Holder)
		u.addCorners(prof, h)
		u.addForce(prof, m, pc, h, p, p.Shape, w, l)
		u.addRatio(prof, pc, h, p.Shape, w, l)
		rack = append(rack, u)
	}
	slices.SortStableFunc(rack, func(a, b Use) int { return compareTools(&a, &b) })
	for i := range rack {
		if rack[i].Grade() < Unknown {
			return rack[i : i+1]
		}
	}
	bought := buyPunch(prof, m, pc, h)
	if len(rack) > 0 && rack[0].Grade() <= bought.Grade() {
		return rack[:1]
	}
	return []Use{bought}
}

// compareTools orders tools that make the same hole: the grade, how far the
// size is off, the larger one first (a bolt goes in), the name.
func compareTools(a, b *Use) int {
	if c := int(a.Grade()) - int(b.Grade()); c != 0 {
		return c
	}
	da, db := sizeOff(a), sizeOff(b)
	if d := math.Abs(da) - math.Abs(db); math.Abs(d) > 1e-6 {
		if d < 0 {
			return -1
		}
		return 1
	}
	if d := da - db; math.Abs(d) > 1e-6 {
		if d > 0 {
			return -1
		}
		return 1
	}
	return strings.Compare(a.Tool, b.Tool)
}

// sizeOff is by how much the chosen tool is larger than drawn.
func sizeOff(u *Use) float64 {
	for _, a := range u.Aspects {
		if a.Rule == "tool" && a.HasGot {
			return a.Got
		}
	}
	return 0
}

// sized gives a punch's two sizes; ok is false if the shop file leaves one out.
func sized(p *shop.Punch) (w, l float64, ok bool) {
	w, l = p.WidthMM, p.LengthMM
	switch p.Shape {
	case Round, Square, Hexagon:
		l = w
	case Slot:
		if l < w {
			return 0, 0, false
		}
	case Rectangle:
		w, l = min(w, l), max(w, l)
	default:
		return 0, 0, false
	}
	return w, l, w > 0 && l > 0
}

// fitsShape tells whether a punch of shape tool can make a hole of shape hole.
func fitsShape(tool, hole string) bool {
	if tool == hole {
		return true
	}
	switch {
	case tool == Square && hole == Rectangle, tool == Rectangle && hole == Square:
		return true // the sizes decide
	}
	return false
}

func onMachine(name string, m *shop.Machine) bool { return name == "" || name == m.Name }

// sizeAspect sets a tool's size against the drawn one; ok is false when the tool
// is outside of what passes with care.
func sizeAspect(prof *shop.Profile, h Hole, p *shop.Punch, w, l float64) (a Aspect, ok bool) {
	set := settingsOf(prof)
	under, over, care := set.value("tool", "under"), set.value("tool", "over"), set.value("tool", "over-care")
	low, high := min(w-h.WidthMM, l-h.LengthMM), max(w-h.WidthMM, l-h.LengthMM)
	if low < -under-relative || high > max(over, care)+relative {
		return a, false
	}
	off := high
	if -low > high {
		off = low
	}
	drawn := size(prof, h.Shape, h.WidthMM, h.LengthMM)
	a = Aspect{Rule: "tool", Got: off, HasGot: true, Limit: over, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("tool - drawn = %s; -%s to +%s passes, to +%s with care", Length(prof, off), Length(prof, under), Length(prof, over), Length(prof, care))}
	switch {
	case high > over+relative:
		a.Grade = Care
		a.Text = fmt.Sprintf("%s is the nearest tool for %s: the hole comes out %s larger", p.Name, drawn, Length(prof, off))
		a.Fix, a.FixBy = fmt.Sprintf("use %s if the larger hole is allowed, or buy a punch %s", p.Name, drawn), "shop"
	case math.Abs(off) > set.value("tool", "remark")+relative:
		a.Grade = Remark
		word := "larger"
		if off < 0 {
			word = "smaller"
		}
		a.Text = fmt.Sprintf("%s makes %s, %s %s than drawn", p.Name, drawn, Length(prof, math.Abs(off)), word)
	default:
		a.Text = fmt.Sprintf("%s makes %s", p.Name, drawn)
	}
	return a, true
}

// addCorners tells that a punch's corners are sharp where round ones are drawn.
func (u *Use) addCorners(prof *shop.Profile, h Hole) {
	if h.CornerRadiusMM > 0.1 && (h.Shape == Square || h.Shape == Rectangle) {
		u.add(Aspect{Rule: "opening", Grade: Care, Got: 0, HasGot: true, Limit: h.CornerRadiusMM, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("the punch leaves sharp corners, drawn with radius %s", Length(prof, h.CornerRadiusMM)),
			Fix:  "punch round holes at the corners first", FixBy: "shop"}, 0)
	}
}

// addForce sets the force of one hit against the station; h is the hole drawn,
// shape, w and l are the tool's.
func (u *Use) addForce(prof *shop.Profile, m *shop.Machine, pc Piece, h Hole, p *shop.Punch, shape string, w, l float64) {
	st := m.Punch
	t, S := pc.ThicknessMM, pc.Material.ShearMPa
	cut := CutLength(shape, w, l)
	factor, words := 1.0, ""
	if p != nil {
		if p.Wear > 0 && p.Wear != 1 {
			factor *= p.Wear
			words += fmt.Sprintf(" x %s worn tool", measure.FormatNumber(p.Wear, 2))
		}
		if g := GroundShearFactor(p.ShearMM, t, settingsOf(prof).value("punch-force", "penetration")); g < 1 {
			factor *= g
			words += fmt.Sprintf(" x %s shear ground on the tool", measure.FormatNumber(g, 2))
		}
	}
	nominal := factor * ShearForceKN(cut, t, S)
	line := fmt.Sprintf("%s mm", measure.FormatNumber(cut, 1))
	if shape == Round {
		line = fmt.Sprintf("pi x %s mm", measure.FormatNumber(w, 3))
	}
	ld := load{rule: "punch-force", nominalKN: nominal, upperKN: factor * ShearForceKN(cut, t, pc.upper()),
		what:  fmt.Sprintf("%s in %s %s", size(prof, shape, w, l), Length(prof, t), materialName(pc.Material)),
		basis: fmt.Sprintf("%s x %s mm x %s MPa%s = %s kN", line, measure.FormatNumber(t, 3), measure.FormatNumber(S, 0), words, measure.FormatNumber(nominal, 1))}
	ld.usableKN, ld.how, ld.known = usable(&st.Rating, heaviestHole(st))
	if shape == Round && atMost(S, basisMPa(&st.Rating)) {
		for i := range st.Rows {
			if r := &st.Rows[i]; atMost(t, r.ThicknessMM) && atMost(w, r.SizeMM) {
				ld.row = r
				break
			}
		}
	}
	ld.fix = insteadOf(prof, pc, h)
	a, share := ld.judge(prof)
	u.add(a, share)
	u.ForceKN, u.LimitKN = nominal, ld.usableKN
}

// heaviestHole is the force of the heaviest row at its basis, kN; 0 without rows.
func heaviestHole(st *shop.PunchStation) float64 {
	f := 0.0
	for _, r := range st.Rows {
		f = max(f, ShearForceKN(math.Pi*r.SizeMM, r.ThicknessMM, basisMPa(&st.Rating)))
	}
	return f
}

// addRatio judges the punch itself: the least width against the thickness, and
// the pressure L t S / A in it (4 t S / d of a round one). h is the hole drawn,
// shape, w and l are the tool's.
func (u *Use) addRatio(prof *shop.Profile, pc Piece, h Hole, shape string, w, l float64) {
	set := settingsOf(prof)
	t, S := pc.ThicknessMM, pc.Material.ShearMPa
	least, tol := min(w, l), set.value("punch-ratio", "tolerance")
	care, bad := set.value("punch-ratio", "care"), set.value("punch-ratio", "error")
	sigma := CutLength(shape, w, l) * t * S / sectionArea(shape, w, l)
	name := size(prof, shape, w, l)
	basis := fmt.Sprintf("%s mm x %s mm x %s MPa / %s mm2 = %s MPa", measure.FormatNumber(CutLength(shape, w, l), 1), measure.FormatNumber(t, 3), measure.FormatNumber(S, 0), measure.FormatNumber(sectionArea(shape, w, l), 1), measure.FormatNumber(sigma, 0))
	if shape == Round {
		basis = fmt.Sprintf("4 x %s mm x %s MPa / %s mm = %s MPa", measure.FormatNumber(t, 3), measure.FormatNumber(S, 0), measure.FormatNumber(w, 3), measure.FormatNumber(sigma, 0))
	}
	fix, by := insteadOf(prof, pc, h), "shop"
	if fix == "" {
		by = ""
	}
	a := Aspect{Rule: "punch-ratio", Got: sigma, HasGot: true, Limit: care, HasLimit: true, Unit: "MPa", Basis: basis}
	switch {
	case least < t-tol-relative:
		// People know the hole that they drew, not the tool nearest to it.
		what, got := holeName(prof, h), min(h.WidthMM, h.LengthMM)
		if h.Shape == Round {
			got = h.WidthMM
		}
		if got >= t-tol-relative {
			what, got = "the punch "+name, least
		}
		a.Grade, a.Fix, a.FixBy = Fail, fix, by
		a.Got, a.Limit, a.Unit = got, t, "mm"
		a.Text = fmt.Sprintf("%s is smaller than the %s that the metal is thick: the punch breaks", what, Length(prof, t))
		a.Basis = fmt.Sprintf("least width %s mm < thickness %s mm", measure.FormatNumber(got, 3), measure.FormatNumber(t, 3))
	case !atMost(sigma, bad):
		a.Grade, a.Fix, a.FixBy, a.Limit = Fail, fix, by, bad
		a.Text = fmt.Sprintf("pressure of %s MPa in the punch %s breaks it, at most %s MPa", measure.FormatNumber(sigma, 0), name, measure.FormatNumber(bad, 0))
	case !atMost(sigma, care):
		a.Grade, a.Fix, a.FixBy = Care, fix, by
		a.Text = fmt.Sprintf("pressure of %s MPa in the punch %s, care above %s MPa", measure.FormatNumber(sigma, 0), name, measure.FormatNumber(care, 0))
	default:
		a.Text = fmt.Sprintf("pressure of %s MPa in the punch %s", measure.FormatNumber(sigma, 0), name)
	}
	u.add(a, 0)
}
