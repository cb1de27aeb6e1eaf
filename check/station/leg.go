package station

import (
	"fmt"

	"burrside/check/shop"
	"burrside/features/measure"
)

// The ways to lay a leg on the die.
const (
	LayDown = "other leg down, burr inside"
	LayUp   = "other leg up, burr outside"
)

// LegHole is a hole in one leg of an angle.
type LegHole struct {
	Hole
	Section
	GaugeMM float64 // from the outside of the heel to the hole's centre
	EdgeMM  float64 // from the outside of the heel to the hole's edge; 0 not asked
	TurnRad float64 // of the hole's long side against the heel
	// NearMM is from the outside of the heel to the centre of the hit nearest to
	// it, of a hole that takes several hits; 0 to be told from the tool.
	NearMM  float64
	LegMM   float64 // outside width of the leg that is punched
	OtherMM float64 // outside width of the other

	across float64 // how far the tool's hit reaches across the leg
}

// lay is one way to lay a leg, judged.
type lay struct {
	name  string
	die   string
	a     Aspect
	extra []Aspect
	grade Grade
}

// PunchLeg gives the best way to punch a hole in a leg: tool and force as in
// plate, then how the leg is laid. The other leg hangs down beside the die (burr
// inside), by the standard die or an offset one, or stands up beside the
// stripper (burr outside). What the shop file or the section does not tell is
// never taken as a pass.
func PunchLeg(prof *shop.Profile, m *shop.Machine, pc Piece, h LegHole) Use {
	u := Punch(prof, m, pc, h.Hole)
	u.Aspects = append([]Aspect(nil), u.Aspects...)
	if m.Punch == nil {
		return u
	}
	if _, ok := pc.missing(); !ok {
		return u
	}
	h.ThicknessMM = pc.ThicknessMM
	if !isSize(h.LegMM) || !isSize(h.OtherMM) || !isSize(h.GaugeMM) {
		u.add(Aspect{Rule: "reading-doubt", Grade: Unknown, Text: "the hole's place in the leg is not known"}, 0)
		return u
	}
	if h.acrossTool(prof, m, &u); !(h.NearMM > 0) {
		h.NearMM = h.nearHit(&u)
	}
	lays := []lay{h.down(prof, m, false), h.down(prof, m, true), h.up(prof, m)}
	if o := m.Punch.OffsetDie; o != nil {
		lays[1].addOffset(prof, m, &u, h)
	}
	best := 0
	for i := range lays {
		l := &lays[i]
		l.grade = l.a.Grade
		for _, e := range l.extra {
			l.grade = max(l.grade, e.Grade)
		}
		if l.grade < lays[best].grade {
			best = i
		}
	}
	l := &lays[best]
	if l.grade >= Unknown {
		l.a.Text = lays[0].a.Text
		for _, o := range lays[1:] {
			if o.a.Text != "" {
				l.a.Text += "; " + o.a.Text
			}
		}
	}
	if l.a.Grade == Fail {
		if do := insteadOf(prof, pc, h.Hole); do != "" {
			l.a.Fix, l.a.FixBy = do, "shop"
		}
	}
	u.Lay = l.name
	if l.die != "" {
		u.Die = l.die + u.Die
	}
	u.add(l.a, 0)
	for _, e := range l.extra {
		u.add(e, 0)
	}
	u.addLegReach(prof, m, &h)
	return u
}

// rootWords writes t + r of a section and, where the radius is not known, how it
// is bounded.
func (h *LegHole) rootWords(prof *shop.Profile) string {
	k, known := h.Root()
	if known {
		return fmt.Sprintf("heel to root %s", Length(prof, k))
	}
	return fmt.Sprintf("heel to root not known, at most %s", Length(prof, k))
}

// needs judges a half width against the room between the hole and the root. The
// aspect passes where even the bound of an unknown root is cleared, and is
// Unknown where only less is.
func (h *LegHole) needs(prof *shop.Profile, half float64, what, has string) Aspect {
	a := Aspect{Rule: "leg-clearance", Got: h.NearMM, HasGot: true, Unit: "mm"}
	if !(half > 0) {
		a.Got, a.HasGot, a.Unit = 0, false, ""
		a.Grade, a.Text = Unknown, "the shop file does not tell "+has
		return a
	}
	k, known := h.Root()
	need := k + half
	a.Limit, a.HasLimit = need, true
	a.Basis = fmt.Sprintf("%s + %s %s = %s", h.rootWords(prof), what, Length(prof, half), Length(prof, need))
	switch {
	case atMost(need, h.NearMM):
		a.Text = fmt.Sprintf("%s clears the other leg: %s from the heel, needs %s", what, Length(prof, h.NearMM), Length(prof, need))
	case !known && atMost(h.ThicknessMM+half, h.NearMM):
		a.Grade = Unknown
		a.Text = fmt.Sprintf("%s may foul the fillet of the heel: its radius is not known, %s from the heel, needs up to %s", what, Length(prof, h.NearMM), Length(prof, need))
	default:
		a.Grade = Fail
		if !known {
			a.Limit = h.ThicknessMM + half
		}
		a.Text = fmt.Sprintf("%s fouls the other leg: %s from the heel, needs %s", what, Length(prof, h.NearMM), Length(prof, a.Limit))
	}
	return a
}

// down is the lay with the other leg down beside the die.
func (h *LegHole) down(prof *shop.Profile, m *shop.Machine, offset bool) lay {
	l := lay{name: LayDown}
	if !offset {
		l.a = h.needs(prof, m.Punch.DieHalfMM, "the die block", "how wide the die block of "+m.Name+" is")
		return l
	}
	if m.Punch.OffsetDie == nil {
		l.a = Aspect{Rule: "leg-clearance", Grade: Fail}
		return l
	}
	l.die = "offset "
	l.a = h.needs(prof, m.Punch.OffsetDie.HalfMM, "the offset die", "how wide the offset die of "+m.Name+" is")
	if l.a.Grade == OK {
		l.a.Grade = Care
		l.a.Text = "the standard die block fouls the other leg; " + l.a.Text
		l.a.Fix, l.a.FixBy = "use the offset die, "+LayDown, "shop"
	}
	return l
}

// addOffset judges hole and force against the offset die. Its side toward the
// other leg is near: what counts is how far the tool reaches across the leg. A
// slot along the heel needs no more room there than a round hole of its width.
func (l *lay) addOffset(prof *shop.Profile, m *shop.Machine, u *Use, h LegHole) {
	o := m.Punch.OffsetDie
	width := h.across
	wall := settingsOf(prof).value("leg-clearance", "wall")
	if o.HalfMM > 0 && !atMost(width/2+wall, o.HalfMM) {
		how := ""
		if h.Shape != Round {
			how = " across the leg"
		}
		l.extra = append(l.extra, Aspect{Rule: "leg-clearance", Grade: Fail, Got: width, HasGot: true, Limit: 2 * (o.HalfMM - wall), HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("an offset die of half width %s has no room for a hole of %s%s", Length(prof, o.HalfMM), Length(prof, width), how)})
		l.a.Text = fmt.Sprintf("the offset die has no room for a hole of %s%s", Length(prof, width), how)
	}
	if h.Shape != Round && l.a.Grade == Care {
		l.a.Fix += "; see that its insert takes a " + h.Shape
	}
	if o.ForceKN > 0 && u.ForceKN > 0 && !atMost(u.ForceKN, o.ForceKN) {
		l.extra = append(l.extra, Aspect{Rule: "punch-force", Grade: Fail, Got: u.ForceKN, HasGot: true, Limit: o.ForceKN, HasLimit: true, Unit: "kN",
			Text: fmt.Sprintf("the hole needs %s, the offset die bears %s", Force(prof, u.ForceKN), Force(prof, o.ForceKN))})
		l.a.Text = fmt.Sprintf("the offset die bears %s of the %s needed", Force(prof, o.ForceKN), Force(prof, u.ForceKN))
	}
}

// up is the lay with the other leg up beside the stripper.
func (h *LegHole) up(prof *shop.Profile, m *shop.Machine) lay {
	st := m.Punch
	l := lay{name: LayUp, a: h.needs(prof, st.StripperHalfMM, "the stripper", "how wide the stripper of "+m.Name+" is")}
	if l.a.Grade != OK {
		return l
	}
	high := h.OtherMM - h.ThicknessMM
	room := st.LegUpMM
	b := Aspect{Rule: "leg-clearance", Got: high, HasGot: true, Unit: "mm"}
	switch {
	case !(room > 0):
		b.Grade = Unknown
		b.Text = fmt.Sprintf("the shop file does not tell how high a leg may stand under the ram of %s (leg_up)", m.Name)
		l.a.Text = b.Text
		l.extra = append(l.extra, b)
	case !atMost(high, room):
		b.Grade, b.Limit, b.HasLimit = Fail, room, true
		b.Text = fmt.Sprintf("the other leg stands %s above the die, %s fit under the ram", Length(prof, high), Length(prof, room))
		l.a.Text = b.Text
		l.extra = append(l.extra, b)
	default:
		l.a.Grade = Care
		l.a.Text = fmt.Sprintf("punched with the other leg up: %s; the burr comes out on the outside, the face that mates", l.a.Text)
		l.a.Basis += fmt.Sprintf("; leg %s high, room %s", Length(prof, high), Length(prof, room))
		l.a.Fix, l.a.FixBy = "lay it with the "+LayUp+", and take the burr off the outside", "shop"
	}
	return l
}

// addLegReach judges the throat: the toe toward it needs leg - g; where that is
// too deep the heel toward it needs g, and the other leg must stand up in the
// gap.
func (u *Use) addLegReach(prof *shop.Profile, m *shop.Machine, h *LegHole) {
	depth := max(h.LegMM-h.GaugeMM, 0)
	a, share := Reach(prof, m, depth, depth)
	if a.Grade > Care && a.Grade != Unknown && u.Lay == LayUp && m.Punch.LegUpMM > 0 {
		if b, s := Reach(prof, m, h.GaugeMM, h.GaugeMM); b.Grade < a.Grade {
			a, share = b, s
			a.Grade = max(a.Grade, Care)
			a.Text = "reached with the heel toward the throat only: " + a.Text
			a.Fix, a.FixBy = "lay the heel toward the throat", "shop"
		}
	}
	a.Basis = fmt.Sprintf("toe toward the throat: leg %s - gauge %s = %s mm; %s", measure.FormatNumber(h.LegMM, 1), measure.FormatNumber(h.GaugeMM, 1), measure.FormatNumber(depth, 1), a.Basis)
	u.add(a, share)
}
