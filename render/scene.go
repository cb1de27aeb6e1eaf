package render

import (
	"fmt"
	"math"
	"strings"

	"burrside/features/measure"
)

// Scene is a laid-out picture: shapes and labels in pixels, in the order in
// which they are drawn. The origin is the top left corner, y runs down. It is
// not modified once NewScene returns it; the zero value is an empty picture of
// no size, of which PNG makes an error.
type Scene struct {
	WidthPX, HeightPX int
	items             []item
}

// itemKind is the kind of an item of a scene. The set is closed.
type itemKind string

const (
	itemFill      itemKind = "fill"      // closed paths, filled
	itemStroke    itemKind = "stroke"    // an open or closed path, drawn with a pen
	itemMarker    itemKind = "marker"    // a sign of our own, centred at X, Y, W across
	itemText      itemKind = "text"      // one line of text in its box
	itemBalloon   itemKind = "balloon"   // a sign with a number, and a leader to Path's end
	itemDimension itemKind = "dimension" // a dimension line from Path's first to its last point, with a label in its box
	itemCell      itemKind = "cell"      // a cell of a table: its box, with lines of text
)

// item is one shape or label. Which fields count depends on its kind.
type item struct {
	kind       itemKind
	style      string
	x, y, w, h float64  // box of a label or cell; centre and size of a marker and balloon
	path       []seg    // fill, stroke, leader, dimension line
	lines      []string // text
	sign       sign     // marker, balloon
}

// segOp is what a seg does.
type segOp byte

const (
	segMove  segOp = 'M'
	segLine  segOp = 'L'
	segArc   segOp = 'A'
	segClose segOp = 'Z'
)

// seg is a step of a path: to a point, straight or along an arc about cx, cy.
// Angles are radians in the picture's axes (y down).
type seg struct {
	op           segOp
	x, y         float64
	cx, cy, r    float64
	start, sweep float64
}

// area is an upright rectangle in pixels.
type area struct{ x, y, w, h float64 }

func (a area) right() float64  { return a.x + a.w }
func (a area) bottom() float64 { return a.y + a.h }

// overlaps tells whether two areas share more than an edge.
func (a area) overlaps(b area) bool {
	return a.x < b.right()-0.01 && b.x < a.right()-0.01 && a.y < b.bottom()-0.01 && b.y < a.bottom()-0.01
}

func (a area) holds(b area) bool {
	return b.x >= a.x-0.01 && b.y >= a.y-0.01 && b.right() <= a.right()+0.01 && b.bottom() <= a.bottom()+0.01
}

func (a area) grow(d float64) area { return area{a.x - d, a.y - d, a.w + 2*d, a.h + 2*d} }

func (a area) centre() (x, y float64) { return a.x + a.w/2, a.y + a.h/2 }

// label is the area that the text or sign of an item takes; ok is false for
// items without one.
func (it *item) label() (area, bool) {
	switch it.kind {
	case itemText, itemDimension, itemCell:
		return area{it.x, it.y, it.w, it.h}, len(it.lines) > 0
	case itemBalloon, itemMarker:
		return area{it.x - it.w/2, it.y - it.w/2, it.w, it.w}, true
	case itemFill, itemStroke:
		return area{}, false
	}
	panic(fmt.Sprintf("render: unknown item %q", it.kind))
}

// Text is the scene as text, for tests: one shape or label a line, pixels
// rounded to whole ones.
func (s *Scene) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "scene %d x %d\n", s.WidthPX, s.HeightPX)
	for i := range s.items {
		it := &s.items[i]
		fmt.Fprintf(&b, "%s %s", it.kind, it.style)
		switch it.kind {
		case itemText, itemCell, itemDimension:
			fmt.Fprintf(&b, " %s,%s %sx%s", px(it.x), px(it.y), px(it.w), px(it.h))
		case itemMarker, itemBalloon:
			fmt.Fprintf(&b, " %s %s,%s %s", it.sign, px(it.x), px(it.y), px(it.w))
		}
		for _, l := range it.lines {
			fmt.Fprintf(&b, " %q", l)
		}
		for _, p := range it.path {
			switch p.op {
			case segArc:
				fmt.Fprintf(&b, " A%s,%s r%s %s%+.0f", px(p.cx), px(p.cy), px(p.r), px(p.start*180/math.Pi), p.sweep*180/math.Pi)
			case segClose:
				b.WriteString(" Z")
			default:
				fmt.Fprintf(&b, " %c%s,%s", p.op, px(p.x), px(p.y))
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func px(v float64) string { return measure.FormatNumber(v, 0) }

// add puts an item into the scene. A shape that reaches far out of the picture,
// or nowhere, is left out: it shows nothing, and drawing it could take for ever.
func (s *Scene) add(it item) {
	margin := float64(s.WidthPX) + 10000
	for _, p := range it.path {
		if !finite(p.x+p.y+p.cx+p.cy+p.r+p.start+p.sweep) || math.Abs(p.x) > margin || math.Abs(p.y) > margin || p.r > 1e7 {
			return
		}
	}
	s.items = append(s.items, it)
}

func lineSegs(points ...float64) []seg {
	var out []seg
	for i := 0; i+1 < len(points); i += 2 {
		op := segLine
		if i == 0 {
			op = segMove
		}
		out = append(out, seg{op: op, x: points[i], y: points[i+1]})
	}
	return out
}

func rectSegs(a area) []seg {
	return append(lineSegs(a.x, a.y, a.right(), a.y, a.right(), a.bottom(), a.x, a.bottom()), seg{op: segClose})
}
