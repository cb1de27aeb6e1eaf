package station

import (
	"fmt"

	"burrside/check/shop"
)

// LegNotch is a notch in one leg of an angle.
type LegNotch struct {
	Section
	LeftMM  float64 // from the outside of the heel to the nearest metal cut away
	OtherMM float64 // outside width of the other leg
	Through bool    // it goes through the heel
}

// NotchLeg adds to a notcher's use how the notch lies beside the other leg: the
// metal left at the heel must be as wide as the root, or the tool runs into the
// fillet, and the other leg must clear the die (it hangs down, burr inside) or
// the tool (it stands up, burr outside). It passes where the shop file tells
// that it hangs clear and one bite makes it. Where the file tells nothing of it the notch is tried
// with the machine off.
func NotchLeg(prof *shop.Profile, m *shop.Machine, u Use, n LegNotch) Use {
	a := Aspect{Rule: "leg-notch", Unit: "mm", Got: n.LeftMM, HasGot: true}
	k, known := n.Root()
	a.Limit, a.HasLimit = k, true
	switch {
	case n.Through:
		a = Aspect{Rule: "leg-notch", Grade: Fail, Text: "it is cut through the heel: a notcher cuts one thickness of flat metal"}
	case !atMost(k, n.LeftMM) && (known || !atMost(n.ThicknessMM, n.LeftMM)):
		if a.Grade = Fail; !known {
			a.Limit = n.ThicknessMM
		}
		a.Text = fmt.Sprintf("%s are left of the leg, the root takes %s: the notching tool runs into the fillet", Length(prof, n.LeftMM), Length(prof, a.Limit))
	case !atMost(k, n.LeftMM):
		a.Grade = Unknown
		a.Text = fmt.Sprintf("%s are left of the leg, the root takes up to %s: its radius is not known", Length(prof, n.LeftMM), Length(prof, k))
	case m.Notch == nil:
		return u // it has been said
	default:
		a = n.beside(prof, m, a, k, known)
		if a.Grade == OK && u.Hits > 1 {
			a.Grade = Care
			a.Text += fmt.Sprintf("; the angle is moved along for %d bites", u.Hits)
			a.Fix, a.FixBy = "set every bite by a stop, and keep the leg flat on the die", "shop"
		}
	}
	u.add(a, 0)
	return u
}

// beside judges the other leg beside die and tool.
func (n *LegNotch) beside(prof *shop.Profile, m *shop.Machine, a Aspect, k float64, known bool) Aspect {
	st := m.Notch
	down, needDown := n.clears(k, known, st.DieBeyondMM)
	up, needUp := n.clears(k, known, st.ToolBeyondMM)
	high := n.OtherMM - n.ThicknessMM
	switch {
	case up == Fail:
	case !(st.LegUpMM > 0) || !isSize(n.OtherMM):
		up = Unknown
	case !atMost(high, st.LegUpMM):
		up = Fail
	}
	root := "heel to root " + Length(prof, k)
	if !known {
		root = "heel to root at most " + Length(prof, k)
	}
	left := Length(prof, n.LeftMM)
	switch {
	case down == OK:
		a.Limit = needDown
		a.Basis = fmt.Sprintf("%s + die beyond the cut %s = %s", root, Length(prof, st.DieBeyondMM), Length(prof, needDown))
		a.Text = fmt.Sprintf("%s are left at the heel, %s needed: the other leg hangs clear of the die", left, Length(prof, needDown))
	case up == OK:
		a.Grade, a.Limit = Care, needUp
		a.Basis = fmt.Sprintf("%s + tool beyond the cut %s = %s; leg %s high, room %s", root, Length(prof, st.ToolBeyondMM), Length(prof, needUp), Length(prof, high), Length(prof, st.LegUpMM))
		a.Text = fmt.Sprintf("%s are left at the heel: the other leg clears the tool standing up; the burr comes out on the outside, the face that mates", left)
		a.Fix, a.FixBy = "lay it with the other leg up, and take the burr off the outside", "shop"
	case !(st.DieBeyondMM > 0) && up == Unknown:
		a.Grade = Care
		a.Text = fmt.Sprintf("a notch in one leg, %s are left at the heel: the shop file does not tell how far the die of %s reaches beyond the cut (die_beyond), where the other leg hangs", left, m.Name)
		a.Fix, a.FixBy = "try with the machine off that the other leg clears the tool and its bed", "shop"
	case down == Unknown || up == Unknown:
		a.Grade, a.Limit = Unknown, needDown
		a.Text = fmt.Sprintf("%s are left at the heel: ", left)
		switch {
		case down == Fail:
			a.Text += fmt.Sprintf("the die fouls the other leg, %s needed, and the shop file does not tell whether it may stand up (tool_beyond, leg_up)", Length(prof, needDown))
		case !(st.DieBeyondMM > 0):
			a.HasLimit = false
			a.Text += "the tool fouls the other leg standing up, and the shop file does not tell how far the die reaches beyond the cut (die_beyond)"
		default:
			a.Text += fmt.Sprintf("the other leg may foul the die: the radius of the fillet is not known, up to %s needed", Length(prof, needDown))
		}
	default:
		a.Grade, a.Limit = Fail, needDown
		a.Text = fmt.Sprintf("%s are left at the heel: the die fouls the other leg hanging down, %s needed, and the tool or the ram fouls it standing up", left, Length(prof, needDown))
	}
	return a
}

// clears judges what stands beyond the end of the cut against the metal left;
// Unknown where it is not stated, or where the bound of an unknown root decides.
func (n *LegNotch) clears(k float64, known bool, beyond float64) (Grade, float64) {
	need := k + beyond
	switch {
	case !(beyond > 0):
		return Unknown, need
	case atMost(need, n.LeftMM):
		return OK, need
	case !known && atMost(n.ThicknessMM+beyond, n.LeftMM):
		return Unknown, need
	}
	return Fail, need
}
