package features

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/measure"
)

// Two angles of one length, of each of which one leg is drawn, look like the two
// views of one. What tells them apart are their titles: POS 1 under one outline
// and POS 2 under the other, or balloons with these numbers.

// markViews gives the views of legs the numbers of items that stand beside them.
// A view beside which several stand gets none.
func (b *builder) markViews(views []legView) {
	if len(views) < 2 {
		return
	}
	found := make([][]string, len(views))
	looked := 0
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if !(t.HeightMM > 0) || b.tableOf(t) >= 0 {
			continue
		}
		mark := itemTitle(t.Value)
		places := []geom.Point{b.textMiddle(t)}
		reach := nearHeights * t.HeightMM
		if mark == "" {
			// A bare number is one only in a balloon with a leader.
			if mark = markOf(t.Value); mark == "" || !unicode.IsDigit(rune(mark[0])) {
				continue
			}
			if looked += len(b.inputs); looked > mostBalloonLooks {
				return
			}
			tips, round := b.balloonTips(t)
			if !round {
				continue
			}
			places, reach = tips, tipHeights*t.HeightMM
		}
		for _, p := range places {
			loop, near, second := b.outlinesBeside(p)
			if loop < 0 || near > reach || near >= 0.5*second {
				continue
			}
			for k := range views {
				if views[k].loop == loop {
					found[k] = append(found[k], mark)
				}
			}
		}
	}
	for k, list := range found {
		for _, m := range list {
			if m != list[0] {
				list = nil
				break
			}
		}
		if len(list) > 0 {
			views[k].mark = list[0]
		}
	}
}

// itemTitle is the number of an item that a text begins with, before a section
// or alone: "POS 1", "ITEM 2  L60x60x6 x 500"; "" none.
func itemTitle(text string) string {
	line, _, _ := strings.Cut(strings.TrimSpace(text), "\n")
	words := strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(" \t.:=-,;()", r) })
	for n := 1; n <= 2 && n < len(words); n++ {
		switch measure.FieldKind(strings.Join(words[:n], " ")) {
		case "item", "number or item":
			if m := markOf(words[n]); m != "" {
				return m
			}
		}
	}
	return ""
}

// outlinesBeside is the outline nearest to a place, -1 none, with its distance
// and that of the next one.
func (b *builder) outlinesBeside(p geom.Point) (loop int, near, second float64) {
	loop, near, second = -1, math.Inf(1), math.Inf(1)
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || l.toolMark || l.parent >= 0 {
			continue
		}
		switch d := boxDist(l.box, p); {
		case d < near:
			loop, near, second = i, d, near
		case d < second:
			second = d
		}
	}
	return loop, near, second
}

// otherItem tells whether two views bear the numbers of two items.
func (v *legView) otherItem(w *legView) bool {
	return v.mark != "" && w.mark != "" && v.mark != w.mark
}

// doubtTitledViews doubts an angle of two views where a text beside each of them
// names the section: they may as well be two angles of which one leg is drawn.
func (b *builder) doubtTitledViews(p *Part, a *angleDraft) {
	v, w := &a.legs[0], &a.legs[1]
	if a.from != "two views" || v.mark != "" && v.mark == w.mark {
		return
	}
	var of [2]*namedSection
	for i := range a.named {
		n := &a.named[i]
		if n.end || n.inTable || n.text.Leader || !n.fits(p.Angle.LegMM[0], p.Angle.LegMM[1], p.Angle.ThicknessMM) {
			continue
		}
		switch loop, near, second := b.outlinesBeside(n.at); {
		case near >= 0.5*second:
		case loop == v.loop:
			of[0] = n
		case loop == w.loop:
			of[1] = n
		}
	}
	if of[0] == nil || of[1] == nil {
		return
	}
	p.Doubts = append(p.Doubts, Doubt{Code: "angle-unclear", Grave: true, At: of[1].text.At, Source: []Source{of[0].text.Source, of[1].text.Source},
		Text: fmt.Sprintf("a text beside each of the two views names a section, %q and %q: they may be two angles of which one leg each is drawn", clip(of[0].line), clip(of[1].line))})
}
