package station

import (
	"strings"
	"testing"

	"burrside/check/shop"
)

// L75x75x8 with r 9: the root ends at 17. Die 18 beyond the cut: 35 must be
// left; tool 22: 39. The other leg stands 67 high. Common practice, no source.
func TestNotchLegLimits(t *testing.T) {
	for _, c := range []struct {
		what               string
		left, die, tool, h float64
		root               float64
		want               Grade
		says               string
	}{
		{"hangs clear at the limit", 35, 18, 22, 90, 9, OK, "hangs clear"},
		{"hangs clear above", 35.1, 18, 0, 0, 9, OK, ""},
		{"just below, nothing else", 34.9, 18, 22, 90, 9, Fail, "35 mm needed"},
		{"below, standing up not told", 34.9, 18, 0, 0, 9, Unknown, "tool_beyond"},
		{"below, height not told", 34.9, 18, 10, 0, 9, Unknown, "leg_up"},
		{"stands up at the limit", 34, 18, 17, 67, 9, Care, "standing up"},
		{"tool fouls", 33.9, 18, 17, 67, 9, Fail, ""},
		{"leg too high", 34, 18, 17, 66.9, 9, Fail, ""},
		{"nothing told", 35, 0, 0, 0, 9, Care, "die_beyond"},
		{"die not told, tool fouls", 35, 0, 22, 90, 9, Unknown, "die_beyond"},
		{"die not told, stands up", 39, 0, 22, 90, 9, Care, "standing up"},
		{"root at the limit", 17, 0, 0, 0, 9, Care, ""},
		{"into the root", 16.9, 18, 22, 90, 9, Fail, "fillet"},
		// Root not known: 8 + min(20, 15) = 23 at most.
		{"unknown root cleared", 41, 18, 0, 0, 0, OK, "41 mm needed"},
		{"unknown root decides", 40.9, 18, 0, 0, 0, Unknown, "radius"},
		{"unknown root does not matter", 25.9, 18, 40, 90, 0, Fail, ""},
	} {
		p := yard()
		m := &p.Machines[0]
		m.Notch = &shop.NotchStation{DieBeyondMM: c.die, ToolBeyondMM: c.tool, LegUpMM: c.h}
		u := NotchLeg(p, m, Use{Machine: m.Name}, LegNotch{Section: equalLeg(75, 8, c.root), LeftMM: c.left, OtherMM: 75})
		wantGrade(t, c.what, u.Grade(), c.want)
		if a := aspect(t, u, "leg-notch"); !strings.Contains(a.Text, c.says) {
			t.Errorf("%s: %q", c.what, a.Text)
		}
	}
	p := yard()
	p.Machines[0].Notch = &shop.NotchStation{DieBeyondMM: 18}
	for hits, want := range map[int]Grade{1: OK, 2: Care} {
		wantGrade(t, "bites", NotchLeg(p, &p.Machines[0], Use{Hits: hits}, LegNotch{Section: equalLeg(75, 8, 9), LeftMM: 60, OtherMM: 75}).Grade(), want)
	}
	wantGrade(t, "through the heel", NotchLeg(p, &p.Machines[0], Use{}, LegNotch{Section: equalLeg(75, 8, 9), LeftMM: 60, OtherMM: 75, Through: true}).Grade(), Fail)
}
