package render

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"burrside/check"
	"burrside/features"
	"burrside/features/measure"
)

// sectionWords names the section of an angle: as its list writes it, else by its
// sizes as far as they are known.
func sectionWords(a *features.Angle, unit string) string {
	if a.Section != "" {
		return a.Section
	}
	size := func(mm float64) string {
		if !(mm > 0) {
			return "?"
		}
		return strings.ReplaceAll(trimUnit(lengthText(mm, unit), unit), " ", "-")
	}
	s := "L" + size(a.LegMM[0]) + "x" + size(a.LegMM[1]) + "x" + size(a.ThicknessMM)
	if unit == "in" {
		s += " in"
	}
	return s
}

// angleWords is the section with the length: "L75x75x8, 1200 mm long".
func angleWords(a *features.Angle, unit string) string {
	s := sectionWords(a, unit)
	if a.LengthMM > 0 {
		s += ", " + lengthText(a.LengthMM, unit) + " long"
	}
	return s
}

// listWords tells which list has the section and what a metre weighs.
func listWords(a *features.Angle) string {
	s := a.SectionList
	if a.MassKgM > 0 {
		if s != "" {
			s += ", "
		}
		s += measure.FormatNumber(a.MassKgM, 2) + " kg/m"
	}
	return s
}

// handWords tells how sure it is which of two mirror images is meant; "" if
// there is one only.
func handWords(h features.Hand) string {
	switch h {
	case features.HandNone:
		return ""
	case features.HandFirst:
		return "as drawn, views by first-angle projection"
	case features.HandThird:
		return "as drawn, views by third-angle projection"
	case features.HandUnknown:
		return "not told by the drawing"
	}
	panic(fmt.Sprintf("render: unknown hand %q", h))
}

// viewWords tells what shows the angle, and which leg nothing shows.
func viewWords(a *features.Angle) string {
	s := a.From
	for i := range a.Legs {
		if !a.Legs[i].Drawn {
			s = strings.TrimPrefix(s+", ", ", ") + "leg " + legName(i) + " not drawn: taken as plain"
		}
	}
	return s
}

func legName(i int) string { return string(rune('a' + i)) }

// endWords names the ends of an angle's length as they lie on the drawing: the
// start, and the other one.
func endWords(a *features.Angle) [2]string {
	d := a.Heel[1].Sub(a.Heel[0])
	switch {
	case math.Abs(d.X) >= math.Abs(d.Y) && d.X >= 0:
		return [2]string{"left", "right"}
	case math.Abs(d.X) >= math.Abs(d.Y):
		return [2]string{"right", "left"}
	case d.Y > 0:
		return [2]string{"lower", "upper"}
	}
	return [2]string{"upper", "lower"}
}

// placeInAngle tells where features of an angle lie: "leg a, 45 mm from the
// heel, 60 mm from the left end" of a hole; of several what they share: the leg
// and the gauge, or the leg; "" where there is nothing to tell.
func placeInAngle(p *features.Part, ids []string, unit string) string {
	a := p.Angle
	if a == nil {
		return ""
	}
	leg, heel, start := "", math.NaN(), math.NaN()
	found := 0
	for _, id := range ids {
		f := featureByID(p, id)
		if f == nil {
			continue
		}
		if found++; found == 1 {
			leg = f.Leg
			if f.IsInside() {
				heel, start = f.FromHeelMM, f.FromStartMM
			}
			continue
		}
		if f.Leg != leg {
			return "both legs"
		}
		start = math.NaN()
		if !f.IsInside() || !(math.Abs(f.FromHeelMM-heel) < 0.01) {
			heel = math.NaN()
		}
	}
	switch {
	case found == 0:
		return ""
	case leg == "":
		return "both legs"
	}
	s := "leg " + leg
	if !finite(heel) {
		return s
	}
	s += ", " + lengthText(heel, unit) + " from the heel"
	if !finite(start) || !(a.LengthMM > 0) {
		return s
	}
	end, ends := start, endWords(a)
	name := ends[0]
	if rest := a.LengthMM - start; rest < end-1e-6 {
		end, name = rest, ends[1]
	}
	return s + fmt.Sprintf(", %s from the %s end", lengthText(end, unit), name)
}

// legOf is the leg that all features named lie in: "leg a"; "" if it is not one.
func legOf(p *features.Part, ids []string) string {
	if s, _, _ := strings.Cut(placeInAngle(p, ids, "mm"), ","); s != "both legs" {
		return s
	}
	return ""
}

// angleInfo are the cells of the title strip that an angle has instead of its size.
func angleInfo(p *check.PartReport, unit string) []info {
	a := p.Part.Angle
	l := []info{{"angle", strings.Replace(angleWords(a, unit), ", ", " x ", 1)}}
	if s := listWords(a); s != "" {
		l = append(l, info{"section", s})
	}
	if s := handWords(a.Hand); s != "" {
		l = append(l, info{"hand", s})
	}
	return append(l, info{"shown by", viewWords(a)})
}

// angleLine tells of an angle what its part's line does not: where it is shown,
// legs, hand, list and mass, and the holes in each leg.
func angleLine(p *features.Part, unit string) string {
	a := p.Angle
	var s []string
	if a.LegMM[0] > 0 && a.LegMM[1] > 0 {
		s = append(s, "leg a "+lengthText(a.LegMM[0], unit)+", leg b "+lengthText(a.LegMM[1], unit))
	}
	if w := listWords(a); w != "" {
		s = append(s, w)
	}
	s = append(s, "shown by "+viewWords(a))
	if h := handWords(a.Hand); h != "" {
		s = append(s, "hand "+h)
	}
	return "angle: " + strings.Join(append(s, holesOfLegs(p)), "; ")
}

// holesOfLegs counts the holes by leg: "holes in leg a 4 x Ø22, in leg b none".
func holesOfLegs(p *features.Part) string {
	var s []string
	for i := range p.Angle.Legs {
		s = append(s, "in leg "+legName(i)+" "+cmp.Or(holesBySize(p, onLeg(legName(i))), "none"))
	}
	if h := holesBySize(p, onLeg("")); h != "" {
		s = append(s, "across the heel "+h)
	}
	return "holes " + strings.Join(s, ", ")
}

// AngleText tells in plain lines what an angle was taken for: section and length,
// what shows it, and where each leg stands on the drawing, in millimetres.
// Nothing for a part that is no angle.
func AngleText(p *features.Part, unit string) []string {
	a := p.Angle
	if a == nil {
		return nil
	}
	out := []string{plainLine(angleWords(a, unit)), plainLine(strings.TrimPrefix(angleLine(p, unit), "angle: "))}
	for i := range a.Legs {
		leg := &a.Legs[i]
		if !leg.Drawn || len(leg.Ring) == 0 {
			continue
		}
		b := leg.Ring.Apply(leg.Move).Bounds()
		out = append(out, fmt.Sprintf("leg %s stands at %s to %s mm on the drawing", legName(i), pointText(b.Min.X, b.Min.Y), pointText(b.Max.X, b.Max.Y)))
	}
	return out
}
