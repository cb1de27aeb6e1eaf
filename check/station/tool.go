package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// aim is the total die clearance aimed at, as a share of the thickness.
func aim(prof *shop.Profile, m *shop.Material) float64 {
	if m.ClearanceShare > 0 {
		return m.ClearanceShare
	}
	return settingsOf(prof).value("die-clearance", "aim") / 100
}

// addDie picks the die whose total clearance is nearest to the one aimed at,
// and judges it.
func (u *Use) addDie(prof *shop.Profile, pc Piece, p *shop.Punch) {
	set := settingsOf(prof)
	t := pc.ThicknessMM
	want := aim(prof, pc.Material) * t
	var die *shop.Die
	for i := range p.Dies {
		d := &p.Dies[i]
		c := d.WidthMM - p.WidthMM
		switch {
		case die == nil:
			die = d
		case (c > relative) != (die.WidthMM-p.WidthMM > relative):
			if c > relative {
				die = d
			}
		case dieOff(d, p, want) < dieOff(die, p, want)-1e-9,
			math.Abs(dieOff(d, p, want)-dieOff(die, p, want)) <= 1e-9 && d.WidthMM > die.WidthMM:
			die = d
		}
	}
	may := prof.Buy
	if p.Buy != nil {
		may = *p.Buy
	}
	wanted := dieName(prof, p.Shape, p.WidthMM+want, p.LengthMM+want)
	a := Aspect{Rule: "die-clearance", Unit: "%"}
	if die == nil {
		a.Grade, a.Text = Fail, fmt.Sprintf("the rack has no die for %s", p.Name)
		if may {
			a.Grade, a.Buy = Care, fmt.Sprintf("%s for punch %s", wanted, p.Name)
			a.Fix, a.FixBy = "buy "+a.Buy, "shop"
		}
		u.add(a, 0)
		return
	}
	u.BoreMM = die.WidthMM
	u.Die = dieName(prof, p.Shape, die.WidthMM, die.WidthMM-p.WidthMM+p.LengthMM)
	c := die.WidthMM - p.WidthMM
	share := 100 * c / t
	low, high := set.value("die-clearance", "care-below"), set.value("die-clearance", "care-above")
	a.Got, a.HasGot = share, true
	a.Basis = fmt.Sprintf("(%s - %s) mm / %s mm = %s %% of t; aimed at %s %%", measure.FormatNumber(die.WidthMM, 3), measure.FormatNumber(p.WidthMM, 3), measure.FormatNumber(t, 3), measure.FormatNumber(share, 1), measure.FormatNumber(100*aim(prof, pc.Material), 1))
	switch {
	case c <= relative:
		a.Grade, a.Limit, a.HasLimit = Fail, 0, true
		a.Text = fmt.Sprintf("%s leaves no clearance round the punch %s", u.Die, p.Name)
		a.Fix, a.FixBy = fmt.Sprintf("use %s", wanted), "shop"
	case !atMost(low, share):
		a.Grade, a.Limit, a.HasLimit = Care, low, true
		a.Text = fmt.Sprintf("clearance %s is %s %% of the thickness, under %s %%: the punch sticks and the force rises", Length(prof, c), measure.FormatNumber(share, 1), measure.FormatNumber(low, 0))
		a.Fix, a.FixBy = fmt.Sprintf("use %s", wanted), "shop"
	case !atMost(share, high):
		a.Grade, a.Limit, a.HasLimit = Care, high, true
		a.Text = fmt.Sprintf("clearance %s is %s %% of the thickness, over %s %%: rolled edge and heavy burr", Length(prof, c), measure.FormatNumber(share, 1), measure.FormatNumber(high, 0))
		a.Fix, a.FixBy = fmt.Sprintf("use %s", wanted), "shop"
	default:
		a.Limit, a.HasLimit = high, true
		a.Text = fmt.Sprintf("%s gives a clearance of %s %% of the thickness", u.Die, measure.FormatNumber(share, 1))
	}
	u.add(a, 0)
}

func dieOff(d *shop.Die, p *shop.Punch, want float64) float64 {
	return math.Abs(d.WidthMM - p.WidthMM - want)
}

// dieName names a die by its bore, rounded to 0.1 mm, or to 1/64 in where the
// shop works in inches.
func dieName(prof *shop.Profile, shape string, w, l float64) string {
	step := dieStep(prof)
	w, l = math.Round(w/step)*step, math.Round(l/step)*step
	return "die " + size(prof, shape, w, l)
}

// addHolder finds the smallest holder that takes a punch by its greatest width.
// For a tool that is to be bought a holder must be known.
func (u *Use) addHolder(prof *shop.Profile, m *shop.Machine, shape string, w, l float64, named string, buy bool) bool {
	st := m.Punch
	need := body(shape, w, l)
	a := Aspect{Rule: "die-holder", Got: need, HasGot: true, Unit: "mm"}
	what := "diameter"
	switch shape {
	case Square, Rectangle:
		what = "diagonal"
	case Slot:
		what = "overall length"
	case Hexagon:
		what = "width across corners"
	}
	a.Basis = fmt.Sprintf("%s of %s = %s mm", what, size(prof, shape, w, l), measure.FormatNumber(need, 2))
	if len(st.Holders) == 0 {
		known := 0.0
		for _, r := range st.Rows {
			known = max(known, r.SizeMM)
		}
		for i := range prof.Punches {
			if p := &prof.Punches[i]; onMachine(p.Machine, m) {
				if pw, pl, ok := sized(p); ok {
					known = max(known, body(p.Shape, pw, pl))
				}
			}
		}
		if !buy {
			a.Text = "the shop file states no holders; the tool is on the rack"
			u.add(a, 0)
			return true
		}
		if atMost(need, known) {
			a.Text = fmt.Sprintf("no larger than the %s that the station is known to take", Length(prof, known))
			u.add(a, 0)
			return true
		}
		a.Grade = Unknown
		a.Text = "the shop file does not tell what the holders of the punch take"
		u.add(a, 0)
		return false
	}
	var best *shop.Holder
	largest := 0.0
	for i := range st.Holders {
		h := &st.Holders[i]
		if named != "" && h.Name != named {
			continue
		}
		largest = max(largest, h.MaxMM)
		if atMost(need, h.MaxMM) && (best == nil || h.MaxMM < best.MaxMM) {
			best = h
		}
	}
	a.Limit, a.HasLimit = largest, true
	if best == nil {
		a.Grade = Fail
		a.Text = fmt.Sprintf("no holder of %s takes %s: its %s is %s, at most %s fits", m.Name, size(prof, shape, w, l), what, Length(prof, need), Length(prof, largest))
		if named != "" && largest == 0 {
			a.HasLimit = false
			a.Text = fmt.Sprintf("%s has no holder %q", m.Name, named)
		}
		u.add(a, 0)
		return false
	}
	u.Holder = best.Name
	a.Limit = best.MaxMM
	a.Text = fmt.Sprintf("the holder takes up to %s", Length(prof, best.MaxMM))
	u.add(a, 0)
	return true
}

// addKey judges whether a shaped tool can be set at the angle that the hole has
// to an edge on which the piece is gauged.
func (u *Use) addKey(m *shop.Machine, h Hole, holder string) {
	if h.Shape == Round || h.TurnsRad == nil {
		return
	}
	keys := []float64{0, math.Pi / 2}
	for _, hd := range m.Punch.Holders {
		if hd.Name == holder && hd.Keys != nil {
			keys = hd.Keys
		}
	}
	period := math.Pi // a slot or rectangle looks the same after half a turn
	switch h.Shape {
	case Square:
		period = math.Pi / 2
	case Hexagon:
		period = math.Pi / 3
	}
	const close = 0.5 * math.Pi / 180 // what a key and a fence hold
	least := math.Inf(1)
	for _, turn := range h.TurnsRad {
		for _, k := range keys {
			d := math.Mod(turn-k, period)
			if d < 0 {
				d += period
			}
			least = min(least, d, period-d)
		}
	}
	if least <= close {
		u.add(Aspect{Rule: "die-holder", Text: "keyed to an edge of the piece"}, 0)
		return
	}
	a := Aspect{Rule: "die-holder", Grade: Care, Text: "the tool cannot be keyed at this angle to an edge of the piece",
		Fix: "mark it out and set the piece by hand, or punch with the piece turned against a wedge", FixBy: "shop"}
	if !math.IsInf(least, 1) {
		a.Got, a.HasGot, a.Unit = least*180/math.Pi, true, "deg"
		a.Text = fmt.Sprintf("the tool cannot be keyed at this angle: %s off the nearest key", degrees(least))
	}
	u.add(a, 0)
}

// buyPunch is what a punch of the drawn size would give, if the shop bought it.
func buyPunch(prof *shop.Profile, m *shop.Machine, pc Piece, h Hole) Use {
	u, _ := startPunch(prof, m, pc)
	u.Hits = 1
	name := size(prof, h.Shape, h.WidthMM, h.LengthMM)
	c := aim(prof, pc.Material) * pc.ThicknessMM
	a := Aspect{Rule: "tool"}
	switch fits := u.addHolder(prof, m, h.Shape, h.WidthMM, h.LengthMM, "", true); {
	case !prof.Buy:
		a.Grade = Fail
		a.Text = fmt.Sprintf("the rack has no tool for %s, and none is to be bought", name)
	case !fits:
		a.Grade = u.Grade()
		a.Text = fmt.Sprintf("the rack has no tool for %s", name)
	default:
		a.Grade = Care
		a.Buy = fmt.Sprintf("punch %s with %s", name, dieName(prof, h.Shape, h.WidthMM+c, h.LengthMM+c))
		a.Text = fmt.Sprintf("the rack has no tool for %s", name)
		a.Fix, a.FixBy = "buy "+a.Buy, "shop"
		u.Tool = name
		u.BoreMM = h.WidthMM + c
		u.Die = dieName(prof, h.Shape, h.WidthMM+c, h.LengthMM+c)
	}
	u.add(a, 0)
	u.addKey(m, h, u.Holder)
	u.addCorners(prof, h)
	u.addForce(prof, m, pc, h, nil, h.Shape, h.WidthMM, h.LengthMM)
	u.addRatio(prof, pc, h, h.Shape, h.WidthMM, h.LengthMM)
	return u
}
