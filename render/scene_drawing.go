package render

import (
	"fmt"
	"math"

	"burrside/check"
	"burrside/features/geom"
)

// NewDrawingScene lays out the picture of a drawing that has no part: its open
// chains with the gaps ringed, the reasons, and what to ask. A
// drawing that could not be read gets the reason alone.
func NewDrawingScene(rep *check.Report, opt SceneOptions) *Scene {
	l := newLayout(rep, opt)
	v := rep.Verdict
	if v == "" || v == check.Fits || v == check.WithCare {
		v = check.CannotTell // without a part nothing can fit
	}
	words := drawingHeading(rep)
	if v != rep.Verdict {
		words = heading(v, "no part found in the drawing", nil)
	}
	l.header(v, words, append([]info{{"drawing", rep.Drawing}}, shopInfo(rep)...))
	var blocks []block
	if rep.Err != nil {
		blocks = append(blocks, block{title: "why", lines: []string{errorText(rep)}})
	}
	if q := drawingQuestions(rep); len(q) > 0 {
		blocks = append(blocks, block{title: "to ask", lines: q})
	}
	if s := skippedText(rep.Skipped); s != "" {
		blocks = append(blocks, block{title: "not checked", lines: []string{s}})
	}
	if rep.Sheet != nil && len(rep.Sheet.Notes) > 0 {
		b := block{title: "on the reading"}
		for i := range rep.Sheet.Notes {
			b.lines = append(b.lines, rep.Sheet.Notes[i].Text)
		}
		blocks = append(blocks, b)
	}
	rows := tableRows(nil, rep.Findings)
	room := l.most - l.y - l.blocksHeight(blocks) - l.margin
	if rep.Sheet != nil && len(rep.Sheet.Loose) > 0 {
		h := math.Round(min(420*l.u, max(room*0.6, 240*l.u)))
		l.loose(area{l.margin, l.y, l.w, h})
		l.y += h + 12*l.u
		room -= h + 12*l.u
	}
	if len(rows) > 0 {
		l.y += l.drawTable(l.newTable(rows, l.w), l.margin, l.y, max(room, 90*l.u)) + 14*l.u
	}
	l.blocks(blocks)
	return l.finish()
}

// loose draws the open chains, the gap between their ends ringed.
func (l *layout) loose(a area) {
	u := l.u
	l.s.add(item{kind: itemStroke, style: "frame", path: rectSegs(a)})
	var edges []geom.Edge
	for _, c := range l.rep.Sheet.Loose {
		edges = append(append(edges, geom.Edge{From: c.From, To: c.To}), c.Edges...)
	}
	b, ok := edgesBox(edges)
	if !ok {
		return
	}
	b.Width, b.Height = b.MaxX-b.MinX, b.MaxY-b.MinY
	pad := 80 * u
	v := view{scale: math.Inf(1)}
	if b.Width > 0 {
		v.scale = min(v.scale, (a.w-2*pad)/b.Width)
	}
	if b.Height > 0 {
		v.scale = min(v.scale, (a.h-2*pad)/b.Height)
	}
	if math.IsInf(v.scale, 0) {
		v.scale = 1
	}
	cx, cy := a.centre()
	v.x0, v.y0 = cx-(b.MinX+b.MaxX)/2*v.scale, cy+(b.MinY+b.MaxY)/2*v.scale
	p := &placer{l: l, v: v, room: a.grow(-4 * u)}
	p.scaleBar()
	for i, c := range l.rep.Sheet.Loose {
		if i == 20 {
			break
		}
		for _, e := range c.Edges {
			l.s.add(item{kind: itemStroke, style: "outline", path: v.edges([]geom.Edge{e}, false)})
			x1, y1 := v.at(e.From)
			x2, y2 := v.at(e.To)
			p.lines = append(p.lines, [4]float64{x1, y1, x2, y2})
		}
	}
	type gap struct {
		x1, y1, x2, y2, r float64
		words             string
	}
	var gaps []gap
	for i, c := range l.rep.Sheet.Loose {
		if i == 20 {
			break
		}
		x1, y1 := v.at(c.From)
		x2, y2 := v.at(c.To)
		d := math.Sqrt(float64((x2-x1)*(x2-x1)) + float64((y2-y1)*(y2-y1)))
		g := gap{x1, y1, x2, y2, 0, "gap " + lengthText(c.GapMM, l.unit)}
		if c.LengthMM > 0 {
			g.words += fmt.Sprintf(" in a chain of %s", lengthText(c.LengthMM, l.unit))
		}
		g.r = min(d/2+10*u, 40*u)
		l.s.add(item{kind: itemStroke, style: "gap", path: lineSegs(x1, y1, x2, y2)})
		if d/2+10*u <= 40*u {
			l.ring((x1+x2)/2, (y1+y2)/2, g.r)
			p.small = append(p.small, area{(x1+x2)/2 - g.r, (y1+y2)/2 - g.r, 2 * g.r, 2 * g.r})
		} else {
			g.r = 12 * u
			l.ring(x1, y1, g.r)
			l.ring(x2, y2, g.r)
			p.small = append(p.small, area{x1 - g.r, y1 - g.r, 2 * g.r, 2 * g.r}, area{x2 - g.r, y2 - g.r, 2 * g.r, 2 * g.r})
			p.lines = append(p.lines, [4]float64{x1, y1, x2, y2})
		}
		gaps = append(gaps, g)
	}
	lh := l.r.lineHeight("body")
	for _, g := range gaps {
		w := l.r.width(g.words, "body")
		mx, my := (g.x1+g.x2)/2, (g.y1+g.y2)/2
		lab, ok := p.near(mx, my, w, lh, [4]float64{g.x1, g.y1, g.x2, g.y2})
		if !ok {
			continue
		}
		tx, ty := nearestOf(lab, mx, my)
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(mx, my, tx, ty)})
		l.s.add(item{kind: itemText, style: "body", x: lab.x, y: lab.y, w: w, h: lh, lines: []string{g.words}})
		p.take(lab)
	}
}

func (l *layout) ring(x, y, r float64) {
	l.s.add(item{kind: itemStroke, style: "error-mark", path: []seg{{op: segMove, x: x + r, y: y},
		{op: segArc, x: x + r, y: y, cx: x, cy: y, r: r, sweep: 2 * math.Pi}, {op: segClose}}})
}
