package render

import (
	"fmt"
	"strings"

	"burrside/check"
)

// block is a paragraph under the drawing.
type block struct {
	title string
	lines []string
	grid  *limitGrid
	sign  bool // a caution
}

// partFooter lists what stands under the drawing.
func (l *layout) partFooter(part int, p *check.PartReport) []block {
	var out []block
	if len(p.Findings)+len(l.rep.Findings) == 0 {
		out = append(out, block{title: "findings", lines: []string{"nothing found against it"}})
	}
	if len(p.Cautions) > 0 {
		out = append(out, block{title: "cautions", lines: p.Cautions[:min(4, len(p.Cautions))], sign: true})
	}
	if lines := readingLines(l.rep, part, l.unit); len(lines) > 0 {
		out = append(out, block{title: "the unit is in doubt: both readings", lines: lines})
	} else if len(p.Limits) > 0 {
		out = append(out, block{title: "limits over stock thicknesses", lines: limitLines(p, l.unit), grid: newLimitGrid(p.Limits, l.unit)})
	}
	if lines := madeByLines(p, l.unit); len(lines) > 0 {
		out = append(out, block{title: "made by", lines: lines})
	}
	if p.Plan != nil {
		if p.Plan.Blank.Text != "" {
			out = append(out, block{title: "blank", lines: []string{blankText(&p.Plan.Blank)}})
		}
		w := &p.Plan.Work
		name, rest, _ := strings.Cut(workLine(w), ": ")
		lines := []string{rest}
		if w.Known && len(w.Assumptions) > 0 {
			lines = append(lines, "assumed: "+strings.Join(w.Assumptions, "; "))
		}
		out = append(out, block{title: name, lines: lines})
		if len(w.Buy) > 0 {
			out = append(out, block{title: "to buy", lines: []string{strings.Join(w.Buy, "; ")}})
		}
	}
	if len(p.Questions) > 0 {
		out = append(out, block{title: "to ask", lines: fewAlike(p.Questions)})
	}
	skipped := joinSkipped(p.Skipped, l.rep.Skipped)
	if s := skippedText(skipped); s != "" {
		out = append(out, block{title: "not checked", lines: []string{s}})
	}
	return out
}

func joinSkipped(a, b []check.Skipped) []check.Skipped {
	return append(append([]check.Skipped(nil), a...), b...)
}

// laidBlock is a block with its lines broken.
type laidBlock struct {
	block
	text   []blockLine
	height float64
}

type blockLine struct {
	words string
	hang  bool // it goes on with the line before
}

// layBlock breaks the lines of a block for a width.
func (l *layout) layBlock(b block, w float64) laidBlock {
	lb := laidBlock{block: b}
	for i, s := range b.lines {
		if i == 10 {
			lb.text = append(lb.text, blockLine{words: fmt.Sprintf("+ %d more", len(b.lines)-i)})
			break
		}
		for j, words := range l.r.wrap(s, "body", w-l.blockIndent(b)-16*l.u, 9) {
			lb.text = append(lb.text, blockLine{words, j > 0})
		}
	}
	lb.height = l.r.lineHeight("heading") + float64(len(lb.text))*l.r.lineHeight("body") + 12*l.u
	if b.grid != nil {
		lb.height += b.grid.height(l, w)
	}
	return lb
}

func (l *layout) blockIndent(b block) float64 {
	if b.sign {
		return 24 * l.u
	}
	return 0
}

func (l *layout) drawBlock(b *laidBlock, x, y, w float64) {
	y += l.text(x, y, []string{l.r.clean(b.title)}, "heading")
	if b.grid != nil {
		y += b.grid.draw(l, x, y, w)
	}
	x += l.blockIndent(b.block)
	for _, s := range b.text {
		at := x
		switch {
		case s.hang:
			at += 16 * l.u
		case b.sign:
			l.s.add(item{kind: itemMarker, style: "warning", sign: signCare, x: x - 15*l.u, y: y + l.r.lineHeight("body")/2, w: 15 * l.u})
		}
		y += l.text(at, y, []string{s.words}, "body")
	}
}

// stack puts blocks below each other in one column as far as they fit, and
// gives those back that do not.
func (l *layout) stack(list []block, x, y, w, room float64) []block {
	var rest []block
	for _, b := range list {
		lb := l.layBlock(b, w)
		if lb.height > room {
			rest = append(rest, b)
			continue
		}
		l.drawBlock(&lb, x, y, w)
		y += lb.height
		room -= lb.height
	}
	return rest
}

// footerColumns gives the number, width and distance of the footer's columns.
func (l *layout) footerColumns() (n int, w, gap float64) {
	gap = 30 * l.u
	if l.w < 900*l.u {
		return 1, l.w, gap
	}
	return 2, (l.w - gap) / 2, gap
}

// placedBlock is a block with its place, y from the top of the footer.
type placedBlock struct {
	laidBlock
	x, y float64
}

// placeBlocks flows blocks into columns, each into the shortest.
func (l *layout) placeBlocks(list []block) ([]placedBlock, float64) {
	n, w, gap := l.footerColumns()
	depth := make([]float64, n)
	var out []placedBlock
	deepest := 0.0
	for _, b := range list {
		k := 0
		for i := range depth {
			if depth[i] < depth[k]-0.5 {
				k = i
			}
		}
		pb := placedBlock{l.layBlock(b, w), l.margin + float64(k)*(w+gap), depth[k]}
		depth[k] += pb.height
		deepest = max(deepest, depth[k])
		out = append(out, pb)
	}
	return out, deepest
}

func (l *layout) blocksHeight(list []block) float64 {
	_, h := l.placeBlocks(list)
	return h + 30*l.u
}

// blocks draws the footer; what would be lower than the picture may be is left
// out, and that is said.
func (l *layout) blocks(list []block) {
	if len(list) == 0 {
		return
	}
	l.s.add(item{kind: itemStroke, style: "frame", path: lineSegs(l.margin, l.y, l.margin+l.w, l.y)})
	l.y += 10 * l.u
	placed, h := l.placeBlocks(list)
	room := l.most - l.margin - l.y
	if h > room {
		room -= l.r.lineHeight("small")
	}
	_, w, _ := l.footerColumns()
	left, lowest := 0, 0.0
	for i := range placed {
		b := &placed[i]
		if b.y+b.height > room {
			left++
			continue
		}
		lowest = max(lowest, b.y+b.height)
		l.drawBlock(&b.laidBlock, b.x, l.y+b.y, w)
	}
	l.y += lowest
	if left > 0 {
		l.y += l.text(l.margin, l.y, []string{plural(left, "paragraph") + " left out for want of room: see the text report"}, "small")
	}
}
