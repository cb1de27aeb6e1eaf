package features

import (
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// Balloons tie the rows of a parts list to the parts: a short text in a circle,
// with a leader to the part or beside it; or a text POS 1, ITEM 1.

const (
	// A balloon's leader ends on its circle within this share of its radius.
	balloonOff = 0.15
	// tipHeights is how far from a part the end of a leader may be, in heights of
	// the balloon's text.
	tipHeights = 1.5
	// nearHeights is how far from a part a balloon without a leader may stand.
	nearHeights = 15.0
	// mostBalloonLooks is up to how many lines are compared with balloons.
	mostBalloonLooks = 20_000_000
)

// tieItems gives the item that each part of the list's sheet is, "" if nothing
// tells it or two items claim the part.
func (b *builder) tieItems(l *partsList) []string {
	n := len(b.sheet.Parts)
	out := make([]string, n)
	tip, near := make([][]string, n), make([][]string, n)
	looked := 0
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		mark, said := itemNamed(t.Value)
		if mark == "" || !(t.HeightMM > 0) || !slices.ContainsFunc(l.rows, func(r listRow) bool { return r.mark == mark }) || b.tableOf(t) >= 0 || l.sheet >= 0 && b.sheetOf(t.At) != l.sheet {
			continue
		}
		if looked += len(b.inputs); looked > mostBalloonLooks {
			return make([]string, n)
		}
		places, round := b.balloonTips(t)
		sure := len(places) > 0
		if !sure && (round || said) {
			places = []geom.Point{b.textMiddle(t)}
		}
		for _, p := range places {
			k := b.itemAt(p, t.HeightMM, sure, l.sheet)
			switch {
			case k < 0:
			case sure:
				tip[k] = append(tip[k], mark)
			default:
				near[k] = append(near[k], mark)
			}
		}
	}
	for k := range out {
		list := tip[k]
		if len(list) == 0 {
			list = near[k]
		}
		if len(list) > 0 && !slices.ContainsFunc(list, func(m string) bool { return m != list[0] }) {
			out[k] = list[0]
		}
	}
	// Two rows of one number are two items.
	for k := range out {
		rows := 0
		for i := range l.rows {
			if l.rows[i].mark == out[k] {
				rows++
			}
		}
		if rows > 1 {
			out[k] = ""
		}
	}
	return out
}

// itemNamed reads "1", and "POS 1", "ITEM 1", of which said is true.
func itemNamed(text string) (mark string, said bool) {
	text = strings.TrimSpace(text)
	if m := markOf(text); m != "" {
		return m, false
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '.' || r == ':' })
	if len(words) == 2 && measure.FieldKind(words[0]) == "item" {
		return markOf(words[1]), true
	}
	return "", false
}

// balloonTips gives the places that the leaders of a text's circle end at; round
// tells that there is a circle.
func (b *builder) balloonTips(t *Text) (tips []geom.Point, round bool) {
	if t.Leader {
		return []geom.Point{t.At}, true
	}
	h, mid := t.HeightMM, b.textMiddle(t)
	if p, ok := b.pointedAt(*t); ok {
		tips = append(tips, p)
	}
	var centre geom.Point
	radius := 0.0
	for i := range b.inputs {
		e := &b.inputs[i].Edge
		if !e.IsArc() || 2*e.Radius < h/balloonMost || 2*e.Radius > h/balloonLeast || e.Centre.Dist(mid) > e.Radius || radius > 0 && e.Radius >= radius {
			continue
		}
		centre, radius = e.Centre, e.Radius
	}
	if radius <= 0 {
		return tips, false
	}
	for _, l := range b.leaders {
		if math.Abs(l.end.Dist(centre)-radius) <= 2*balloonOff*radius {
			tips = append(tips, l.tip)
		}
	}
	for i := range b.inputs {
		e := &b.inputs[i].Edge
		if e.IsArc() {
			continue
		}
		for _, ends := range [2][2]geom.Point{{e.From, e.To}, {e.To, e.From}} {
			if math.Abs(ends[0].Dist(centre)-radius) <= balloonOff*radius && ends[1].Dist(centre) > (1+2*balloonOff)*radius {
				tips = append(tips, b.followLeader(i, ends[1], h))
			}
		}
	}
	return tips, true
}

// followLeader goes on from the end of a line while exactly one more begins there
// and no part is reached.
func (b *builder) followLeader(from int, p geom.Point, high float64) geom.Point {
	for range 3 {
		if b.touchesPart(p) {
			return p
		}
		next, n := -1, 0
		var end geom.Point
		for i := range b.inputs {
			e := &b.inputs[i].Edge
			if i == from || e.IsArc() || e.Length() <= 1.5*high {
				continue
			}
			switch {
			case e.From.Dist(p) <= leaderMM:
				next, end = i, e.To
				n++
			case e.To.Dist(p) <= leaderMM:
				next, end = i, e.From
				n++
			}
		}
		if n != 1 {
			return p
		}
		from, p = next, end
	}
	return p
}

func (b *builder) touchesPart(p geom.Point) bool {
	return slices.ContainsFunc(b.instances, func(in instance) bool {
		return in.box.Grow(leaderMM).Contains(p) && in.ring.Inside(p, leaderMM) != geom.Out
	})
}

// itemAt is the part that a place speaks of: the innermost that it lies on, else
// the nearest one if it is near and no other is nearly so; -1 none.
func (b *builder) itemAt(p geom.Point, high float64, tip bool, sheet int) int {
	reach := nearHeights * high
	if tip {
		reach = tipHeights * high
	}
	inside, least := -1, math.Inf(1)
	best, second, at := math.Inf(1), math.Inf(1), -1
	for _, in := range b.instances {
		if sheet >= 0 && !b.sheets[sheet].Contains(in.box.Centre()) {
			continue
		}
		if in.box.Grow(leaderMM).Contains(p) && in.ring.Inside(p, leaderMM) != geom.Out && in.ring.Area() < least {
			inside, least = in.part, in.ring.Area()
		}
		d := boxDist(in.box, p)
		switch {
		case d < best:
			if in.part != at {
				second = best
			}
			best, at = d, in.part
		case d < second && in.part != at:
			second = d
		}
	}
	if inside >= 0 {
		return inside
	}
	if at >= 0 && best <= reach && best < 0.5*second {
		return at
	}
	return -1
}
