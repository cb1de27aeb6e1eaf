package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"burrside/check/change"
	"burrside/check/station"
	"burrside/features/geom"
)

// words writes steps as one order to the shop, or as one question to the designer.
func (s *suggester) words(steps []change.Step, by string) string {
	var list []string
	for i := range steps {
		list = append(list, s.stepWords(&steps[i]))
	}
	text := list[0]
	for i, w := range list[1:] {
		if i == len(list)-2 {
			text += " and " + w
		} else {
			text += ", " + w
		}
	}
	if slices.ContainsFunc(steps, func(c change.Step) bool { return c.Kind == change.Edge }) {
		if part, _, _, ok := change.Apply(s.rep.Part, s.prof, s.asked, steps); ok {
			r := geom.RectAlong(part.Outline, s.axes()[0])
			text += fmt.Sprintf(", %s x %s in all", s.ln(max(r.Width, r.Height)), s.ln(min(r.Width, r.Height)))
		}
	}
	if by == "drawing" {
		return "would the designer accept " + text + "?"
	}
	return text
}

// stepWords is one step as part of an order or a question.
func (s *suggester) stepWords(c *change.Step) string {
	ids := s.idsText(c.Features)
	switch c.Kind {
	case change.Die:
		die := station.SizeName(s.prof, station.Round, c.DieMM, c.DieMM)
		for i := range s.prof.Punches {
			if p := &s.prof.Punches[i]; p.Name == c.Name && (c.On == "" || p.Machine == c.On) {
				die = station.SizeName(s.prof, p.Shape, c.DieMM, c.DieMM-p.WidthMM+p.LengthMM)
			}
		}
		return fmt.Sprintf("buy die %s for punch %s", die, c.Name)
	case change.Punch:
		t := c.Tool
		text := fmt.Sprintf("buy punch %s with die %s", t.Name, station.SizeName(s.prof, t.Shape, t.Dies[0].WidthMM, t.Dies[0].WidthMM-t.WidthMM+t.LengthMM))
		switch {
		case c.Holder != "" && c.On != "":
			text += fmt.Sprintf(" for the %s holder of %s", c.Holder, c.On)
		case c.On != "":
			text += " for " + c.On
		}
		return text
	case change.Holder:
		return fmt.Sprintf("set %s in the %s holder of %s", c.Name, c.Holder, c.On)
	case change.Machine:
		do := "punch"
		if m := s.makeOf(c.Features[0]); m != nil && m.Use.Station == "notcher" {
			do = "notch"
		}
		return fmt.Sprintf("%s %s on %s", do, ids, theMachine(c.Machine))
	case change.Process:
		switch c.Process {
		case "thermal":
			return fmt.Sprintf("cut %s thermally", ids)
		case "bought-cutting":
			return fmt.Sprintf("have %s cut outside", ids)
		case "grinder":
			return "grind " + ids
		case "tap":
			return "drill and tap " + ids
		}
		return c.Process + " " + ids
	case change.Order:
		return fmt.Sprintf("punch %s with %s", ids, c.Order)
	case change.Blank:
		switch {
		case c.Given:
			return fmt.Sprintf("have the blank supplied cut to %s x %s", s.ln(c.SizeMM[0]), s.ln(c.SizeMM[1]))
		case c.Angle != nil:
			return "buy " + s.base.rep.Plan.Blank.Stock
		}
		return fmt.Sprintf("buy flat %s x %s and cut it to length", strings.TrimSuffix(s.ln(c.FlatMM), " mm"), s.ln(s.rep.Job.ThicknessMM))
	case change.Size:
		f := s.feature(c.Features[0])
		if c.LengthMM > 0 {
			return fmt.Sprintf("%s as %s x %s instead of %s", slotWords(len(c.Features), ids), s.ln(c.WidthMM), s.ln(c.LengthMM), sizeText(s.prof, f))
		}
		return fmt.Sprintf("%s as Ø%s instead of Ø%s", ids, s.ln(c.WidthMM), s.ln(f.DiameterMM))
	case change.Move:
		return fmt.Sprintf("%s moved %s", ids, s.wayWords(c.Features[0], c.By))
	case change.Pitch:
		return fmt.Sprintf("%s at a pitch of %s instead of %s %s", ids, s.ln(c.PitchMM[1]), s.ln(c.PitchMM[0]), s.acrossWords(c.Along))
	case change.Edge:
		return fmt.Sprintf("the part %s larger at its %s", s.ln(c.ByMM), sideWords(c.Along))
	case change.Notch:
		f := s.feature(c.Features[0])
		return fmt.Sprintf("%s %s wide and %s deep instead of %s x %s", ids, s.ln(c.WidthMM), s.ln(c.DepthMM), s.ln(f.WidthMM), s.ln(f.DepthMM))
	case change.Thickness:
		return fmt.Sprintf("the part %s thick instead of %s", s.ln(c.ThickMM), s.ln(s.rep.Job.ThicknessMM))
	}
	panic("check: no words for a change of kind " + string(c.Kind))
}

// idsText names features in the part's order, runs of them by their ends:
// "H1-H4, H7".
func (s *suggester) idsText(ids []string) string {
	type run struct {
		first, last, head string
		from, to          int
	}
	var runs []run
	named := make(map[string]bool, len(ids))
	for _, id := range ids {
		named[id] = true
	}
	for i := range s.rep.Part.Features {
		id := s.rep.Part.Features[i].ID
		if !named[id] {
			continue
		}
		head := strings.TrimRight(id, "0123456789")
		n, err := strconv.Atoi(id[len(head):])
		if k := len(runs) - 1; err == nil && k >= 0 && runs[k].head == head && runs[k].to == n-1 {
			runs[k].last, runs[k].to = id, n
			continue
		}
		runs = append(runs, run{id, id, head, n, n})
	}
	var out []string
	for _, r := range runs {
		switch {
		case r.to-r.from > 1:
			out = append(out, r.first+"-"+r.last)
		case r.to > r.from:
			out = append(out, r.first, r.last)
		default:
			out = append(out, r.first)
		}
	}
	return idList(out)
}

func (s *suggester) ln(mm float64) string { return lengthText(s.prof, mm) }

func slotWords(n int, ids string) string {
	if n == 1 {
		return "slot " + ids
	}
	return "slots " + ids
}

// theMachine names a machine in a sentence.
func theMachine(name string) string {
	if strings.HasPrefix(name, "the ") {
		return name
	}
	return "the " + name
}

// wayWords tells how far and which way something moves, as the drawing lies; of
// an angle along and across its leg.
func (s *suggester) wayWords(id string, by geom.Point) string {
	if a := s.rep.Part.Angle; a != nil {
		u := a.Heel[1].Sub(a.Heel[0]).Unit()
		var out []string
		if v := by.Dot(u); math.Abs(v) > 1e-6 {
			out = append(out, s.ln(math.Abs(v))+map[bool]string{true: " further from the start", false: " nearer to the start"}[v > 0])
		}
		if v := by.Dot(a.Legs[a.LegOf(s.feature(id))].Toe); math.Abs(v) > 1e-6 {
			out = append(out, s.ln(math.Abs(v))+map[bool]string{true: " further from the heel", false: " nearer to the heel"}[v > 0])
		}
		return strings.Join(out, " and ")
	}
	var out []string
	rest := by
	for _, d := range []struct {
		p    geom.Point
		word string
	}{{geom.Point{X: 1}, "to the right"}, {geom.Point{X: -1}, "to the left"}, {geom.Point{Y: 1}, "up"}, {geom.Point{Y: -1}, "down"}} {
		if by.Cross(d.p) == 0 && by.Dot(d.p) > 0 || by.X != 0 && by.Y != 0 && s.squareToDrawing() && by.Dot(d.p) > 1e-6 {
			v := by.Dot(d.p)
			out = append(out, s.ln(v)+" "+d.word)
			rest = rest.Sub(d.p.Mul(v))
		}
	}
	if len(out) == 0 || rest.Len() > 1e-6 {
		return fmt.Sprintf("%s at %s to the right", s.ln(by.Len()), degText(math.Atan2(by.Y, by.X)))
	}
	return strings.Join(out, " and ")
}

// squareToDrawing tells that the blank lies along the drawing's axes.
func (s *suggester) squareToDrawing() bool {
	a := s.axes()[0]
	return a.X == 0 || a.Y == 0
}

func degText(rad float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", rad*180/math.Pi), ".0") + " deg"
}

// sideWords names the side of a part that faces along a unit vector.
func sideWords(n geom.Point) string {
	names := []struct {
		p    geom.Point
		word string
	}{{geom.Point{X: 1}, "right side"}, {geom.Point{X: -1}, "left side"}, {geom.Point{Y: 1}, "top"}, {geom.Point{Y: -1}, "bottom"}}
	k := slices.IndexFunc(names, func(a struct {
		p    geom.Point
		word string
	}) bool {
		return n.Dot(a.p) > math.Cos(math.Pi/4)-1e-9
	})
	return names[max(k, 0)].word
}

// acrossWords tells which way a pitch runs.
func (s *suggester) acrossWords(along geom.Point) string {
	if math.Abs(along.Dot(s.axes()[0])) > 0.5 {
		return "along the blank"
	}
	return "across the blank"
}
