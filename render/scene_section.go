package render

import (
	"math"

	"burrside/check"
	"burrside/features"
	"burrside/features/measure"
)

// The key of an angle's picture: its section, and what the thin lines mean.
const (
	keyWidth   = 244 // beside the drawing
	keyHeight  = 148 // below it
	keyBeside  = 1000
	keySection = 112 // the longer leg of the section
)

// keyBelow tells whether the key stands below the drawing: in a narrow one, and
// where the part is so slender that it needs all of the width.
func (l *layout) keyBelow(w float64) bool {
	b := partBox(l.lv.p.Part)
	return w < keyBeside*l.u || b.Width > 1.3*slenderMost*b.Height
}

// keyArea is where the key of an angle stands in the area of its drawing: a
// strip at the right or at the bottom, nowhere (no height) where the drawing
// would have no room left.
func (l *layout) keyArea(a area) area {
	u := l.u
	if !l.keyBelow(a.w) {
		return area{a.right() - keyWidth*u, a.y, keyWidth * u, a.h}
	}
	if a.h < 470*u {
		return area{}
	}
	return area{a.x, a.bottom() - keyHeight*u, a.w, keyHeight * u}
}

// keyLeast is the least height of an angle's drawing in a width.
func (l *layout) keyLeast(w float64) float64 {
	if !l.keyBelow(w) {
		return 400 * l.u
	}
	return 520 * l.u
}

// keyLine is an entry of the key: words beside a sample of a line.
type keyLine struct{ style, words string }

// keyLines explains the lines that the picture of an angle has.
func (l *layout) keyLines(p *features.Part) []keyLine {
	a := p.Angle
	list := []keyLine{{"heel-line", "heel, legs folded flat"}}
	switch {
	case a.ToRootMM > 0:
		list = append(list, keyLine{"root-zone", "root fillet to " + lengthText(a.ToRootMM, l.unit)})
	case a.ThicknessMM > 0:
		list = append(list, keyLine{"root-zone", "other leg; fillet not known"})
	}
	if len(gaugesOf(p)) > 0 {
		list = append(list, keyLine{"gauge-line", "gauge, from the heel"})
	}
	for i := range a.Legs {
		if !a.Legs[i].Drawn {
			list = append(list, keyLine{"not-drawn", "leg " + legName(i) + " not drawn: taken as plain"})
		}
	}
	if len(l.lv.breaks) > 0 {
		list = append(list, keyLine{"thin", "shortened at the gaps"})
	}
	if l.lv.turned {
		list = append(list, keyLine{"", "turned to lie level"})
	}
	return list
}

// sectionLines are the words under the section.
func (l *layout) sectionLines(a *features.Angle) []string {
	out := []string{sectionWords(a, l.unit)}
	switch {
	case a.RootMM > 0 && a.ThicknessMM > 0:
		out = append(out, "t "+lengthText(a.ThicknessMM, l.unit)+", root radius "+lengthText(a.RootMM, l.unit))
	case a.ThicknessMM > 0:
		out = append(out, "t "+lengthText(a.ThicknessMM, l.unit))
	default:
		out = append(out, "thickness not known")
	}
	if a.MassKgM > 0 {
		out = append(out, measure.FormatNumber(a.MassKgM, 2)+" kg/m")
	}
	if a.Hand == features.HandUnknown {
		out = append(out, "hand not told by the drawing")
	}
	return out
}

// angleKey draws the key of an angle and gives what is left of its area.
func (l *layout) angleKey(p *check.PartReport, a area) area {
	u := l.u
	k := l.keyArea(a)
	if k.h <= 0 {
		return a
	}
	an := p.Part.Angle
	x, y := k.x+16*u, k.y+14*u
	sec := l.section(an, x, y)
	x2, w2 := x, k.w-28*u // of the words
	y2 := sec.bottom() + 10*u
	beside := k.y <= a.y
	if beside {
		l.s.add(item{kind: itemStroke, style: "frame", path: lineSegs(k.x, k.y, k.x, k.bottom())})
	} else {
		l.s.add(item{kind: itemStroke, style: "frame", path: lineSegs(k.x, k.y, k.right(), k.y)})
		x2, y2 = x+(keySection+44)*u, y
		w2 = (k.right()-x2)*0.42 - 14*u
	}
	for i, s := range l.sectionLines(an) {
		style := "small"
		if i == 0 {
			style = "strong"
		}
		y2 += l.text(x2, y2, l.r.wrap(s, style, w2, 2), style)
	}
	if beside {
		y2 += 12 * u
	} else {
		x2, y2 = x2+w2+14*u, y
		w2 = k.right() - x2 - 12*u
	}
	lh := l.r.lineHeight("small")
	for _, e := range l.keyLines(p.Part) {
		lines := l.r.wrap(e.words, "small", w2-46*u, 2)
		if y2+float64(len(lines))*lh > k.bottom()-4*u {
			break
		}
		sw := area{x2, y2 + 2*u, 38 * u, lh - 4*u}
		switch e.style {
		case "":
		case "root-zone":
			l.hatch(sw, boxLines(sw))
		default:
			_, cy := sw.centre()
			l.s.add(item{kind: itemStroke, style: e.style, path: lineSegs(sw.x, cy, sw.right(), cy)})
		}
		y2 += l.text(x2+46*u, y2, lines, "small") + 3*u
	}
	if beside {
		a.w -= k.w
	} else {
		a.h -= k.h
	}
	return a
}

func boxLines(a area) [][4]float64 {
	return [][4]float64{{a.x, a.y, a.right(), a.y}, {a.right(), a.y, a.right(), a.bottom()},
		{a.right(), a.bottom(), a.x, a.bottom()}, {a.x, a.bottom(), a.x, a.y}}
}

// section draws the section with its heel at the left, leg a standing or
// hanging as it lies in the picture, leg b to the right; it gives the area used.
// It tells the sizes only: from which end it is seen is not said.
func (l *layout) section(a *features.Angle, x, y float64) area {
	u := l.u
	box := area{x, y, (keySection + 20) * u, (keySection + 4) * u}
	long := max(a.LegMM[0], a.LegMM[1])
	if !(long > 0) || !finite(long) {
		return area{x, y, 0, 0}
	}
	k := keySection * u / long
	la, lb := a.LegMM[0]*k, a.LegMM[1]*k
	if !(la > 0) {
		la = lb // not known: drawn like the other, and its size is not said
	}
	if !(lb > 0) {
		lb = la
	}
	t := a.ThicknessMM * k
	r := a.RootMM
	if r <= 0 {
		r = a.ToRootMM - a.ThicknessMM // k of the American lists reaches to the toe of the fillet
	}
	r = max(0, min(r*k, la-t, lb-t))
	box.h = max(la, 40*u) + 4*u
	up := -1.0 // y runs down
	y0 := y + la
	if a.Legs[0].Toe.Y < 0 {
		up, y0 = 1, y
	}
	at := func(dx, dy float64) (float64, float64) { return x + dx, y0 + up*dy }
	lines := func(list ...float64) []seg {
		var pts []float64
		for i := 0; i+1 < len(list); i += 2 {
			px, py := at(list[i], list[i+1])
			pts = append(pts, px, py)
		}
		return lineSegs(pts...)
	}
	if t > 0 && t < min(la, lb) {
		path := lines(0, 0, lb, 0, lb, t, t+r, t)
		if r > 0 {
			cx, cy := at(t+r, t+r)
			ex, ey := at(t, t+r)
			path = append(path, seg{op: segArc, x: ex, y: ey, cx: cx, cy: cy, r: r, start: -up * math.Pi / 2, sweep: -up * math.Pi / 2})
		}
		end := lines(t, t+r, t, la, 0, la)
		end[0].op = segLine
		path = append(append(path, end...), seg{op: segClose})
		l.s.add(item{kind: itemFill, style: "metal", path: path})
		l.s.add(item{kind: itemStroke, style: "hole", path: path})
	} else {
		l.s.add(item{kind: itemStroke, style: "outline", path: lines(0, la, 0, 0, lb, 0)})
	}
	lh := l.r.lineHeight("small")
	name := func(s string, cx, cy float64) {
		w := l.r.width(s, "small")
		l.s.add(item{kind: itemText, style: "small", x: cx - w/2, y: cy - lh/2, w: w, h: lh, lines: []string{s}})
	}
	ax, ay := at(t+11*u, la-lh/2)
	name("a", ax, ay)
	bx, by := at(max(lb-7*u, t+30*u), t+lh/2+2*u)
	name("b", bx, by)
	return box
}
