package render

import (
	"fmt"
	"math"
	"strings"

	"burrside/check"
)

// SceneOptions steer the picture of one part.
type SceneOptions struct {
	WidthPX  int    // default 1600, at least 600, at most 8000
	HeightPX int    // default: fits the content
	Units    string // "mm", "in"; "" as the shop
}

// layout puts the parts of a picture below each other. y is where the next one begins.
type layout struct {
	s      *Scene
	r      *ruler
	rep    *check.Report
	unit   string
	u      float64 // pixels for one pixel of a picture 1600 wide
	margin float64
	w, y   float64 // inner width, and the next free place
	most   float64 // height of the picture at most
	fixed  bool    // the height was asked for
}

func newLayout(rep *check.Report, opt SceneOptions) *layout {
	width := opt.WidthPX
	if width <= 0 {
		width = 1600
	}
	width = min(max(width, 600), 8000)
	// Below 1200 px the letters stay at three quarters of their size: smaller
	// ones cannot be read.
	u := max(0.75, float64(width)/1600)
	l := &layout{s: &Scene{WidthPX: width}, r: newRuler(u), rep: rep, unit: opt.Units, u: u, margin: math.Round(24 * u), most: 2400 * max(1, u)}
	if l.unit == "" {
		l.unit = shopUnit(rep)
	}
	if opt.HeightPX > 0 {
		l.most, l.fixed = float64(min(max(opt.HeightPX, 600), 20000)), true
	}
	l.w = float64(width) - 2*l.margin
	l.y = l.margin
	return l
}

// finish sets the height.
func (l *layout) finish() *Scene {
	h := math.Ceil(l.y + l.margin)
	if l.fixed {
		h = max(h, l.most)
	}
	l.s.HeightPX = int(max(h, math.Round(300*l.u)))
	return l.s
}

// text puts lines of text and gives the height that they take.
func (l *layout) text(x, y float64, lines []string, style string) float64 {
	lh := l.r.lineHeight(style)
	for i, s := range lines {
		if s != "" {
			l.s.add(item{kind: itemText, style: style, x: x, y: y + float64(i)*lh, w: l.r.width(s, style), h: lh, lines: []string{s}})
		}
	}
	return float64(len(lines)) * lh
}

// NewScene lays out the marked-up picture of one part of a report; a part that
// the report does not have gives the picture of the drawing. The same report
// gives the same scene.
func NewScene(rep *check.Report, part int, opt SceneOptions) *Scene {
	if part < 0 || part >= len(rep.Parts) || rep.Parts[part].Part == nil {
		return NewDrawingScene(rep, opt)
	}
	p := rep.Parts[part]
	l := newLayout(rep, opt)
	verdict, reason, findings := partOnPaper(rep, p)
	l.header(verdict, heading(verdict, reason, findings), partInfo(rep, p, l.unit))
	rows := l.tableRows(findings)
	footer := l.partFooter(p)
	l.body(p, rows, l.blocksHeight(footer))
	l.blocks(footer)
	return l.finish()
}

// partOnPaper is the verdict of a part as it may be shown by itself: a fault of
// the drawing that spoils the reading keeps a part from being called good.
func partOnPaper(rep *check.Report, p *check.PartReport) (check.Verdict, string, []check.Finding) {
	v, reason := p.Verdict, p.Reason
	if v == "" {
		v = check.CannotTell
	}
	worse := func(to check.Verdict, why string) {
		if verdictRank(to) > verdictRank(v) {
			v, reason = to, why
		}
	}
	if len(rep.Parts) == 1 && rep.Verdict != "" {
		worse(rep.Verdict, "")
	}
	for i := range rep.Findings {
		switch f := &rep.Findings[i]; {
		case f.CannotTell || f.Severity == check.Error:
			worse(check.CannotTell, ruleWords(f.Rule))
		case f.Severity == check.Warning:
			worse(check.WithCare, "")
		}
	}
	if reason == "" && v != check.Fits && v != check.WithCare {
		if f := firstFinding(rep.Findings); f != nil {
			reason = ruleWords(f.Rule)
		}
	}
	return v, reason, joinFindings(p.Findings, rep.Findings)
}

func verdictRank(v check.Verdict) int {
	switch v {
	case check.Fits:
		return 0
	case check.WithCare:
		return 1
	case check.CannotTell, "":
		return 2
	case check.DoesNotFit:
		return 3
	}
	panic(fmt.Sprintf("render: unknown verdict %q", v))
}

// info is a cell of the title strip.
type info struct{ name, value string }

func partInfo(rep *check.Report, p *check.PartReport, unit string) []info {
	b := partBox(p.Part)
	t := "not stated"
	if p.Job.ThicknessMM > 0 {
		t = lengthText(p.Job.ThicknessMM, unit) + fromText(p.Job.ThicknessFrom)
	}
	m := materialText(p)
	if p.Job.MaterialName == "" && p.Job.Material == nil {
		m = "not stated"
	}
	q := fmt.Sprintf("%d drawn, quantity not stated", max(1, p.Part.Copies()))
	if p.Job.Quantity > 0 {
		q = fmt.Sprintf("%d%s", p.Job.Quantity, fromText(p.Job.QuantityFrom))
		if c := p.Part.Copies(); c > 1 {
			q += fmt.Sprintf(", %d drawn", c)
		}
	}
	l := []info{{"drawing", rep.Drawing}, {"part", p.Part.Name}, {"size", pairText(b.Width, b.Height, unit)},
		{"thickness", t}, {"material", m}, {"pieces", q}}
	return append(l, shopInfo(rep)...)
}

func shopInfo(rep *check.Report) []info {
	var l []info
	if rep.Sheet != nil {
		u := &rep.Sheet.Units
		s := u.Name
		if u.From != "" {
			s += " (" + string(u.From) + ")"
		}
		if u.Doubt && u.Other != "" {
			s += ", could be " + u.Other
		}
		l = append(l, info{"drawing units", s})
	}
	if rep.Code != "" {
		l = append(l, info{"code", rep.Code})
	}
	if rep.Shop != nil {
		name := rep.Shop.Name
		if name == "" {
			name = rep.Shop.Path
		}
		if rep.Shop.BuiltIn {
			name += " (example shop, invented figures)"
		}
		l = append(l, info{"shop", name})
	}
	return l
}

// header is the verdict with its sign, the reminder below it, and the title strip.
func (l *layout) header(v check.Verdict, words string, cells []info) {
	u := l.u
	sg, style, tint := verdictSign(v)
	icon := math.Round(52 * u)
	x := l.margin + icon + math.Round(40*u)
	lines := l.r.wrap(words, "verdict", l.w-icon-60*u, 2)
	h := float64(len(lines))*l.r.lineHeight("verdict") + l.r.lineHeight("body") + 24*u
	band := area{l.margin, l.y, l.w, h}
	l.s.add(item{kind: itemFill, style: tint, path: rectSegs(band)})
	l.s.add(item{kind: itemMarker, style: style, sign: sg, x: l.margin + icon/2 + 20*u, y: l.y + h/2, w: icon})
	ty := l.y + 12*u
	ty += l.text(x, ty, lines, "verdict")
	l.text(x, ty, l.r.wrap(disclaimer, "body", l.w-icon-60*u, 1), "body")
	l.y += h + 12*u

	// The title strip flows: cells of their own width, as many as a line takes.
	cx, gap := l.margin, 30*u
	row := 0.0
	for _, c := range cells {
		most := l.w * 0.42
		val := l.r.wrap(c.value, "value", most, 2)
		cw := l.r.width(l.r.clean(c.name), "small")
		for _, s := range val {
			cw = max(cw, l.r.width(s, "value"))
		}
		if cx > l.margin && cx+cw > l.margin+l.w {
			cx, l.y = l.margin, l.y+row+6*u
			row = 0
		}
		hh := l.text(cx, l.y, []string{l.r.clean(c.name)}, "small")
		hh += l.text(cx, l.y+hh, val, "value")
		row = max(row, hh)
		cx += cw + gap
	}
	l.y += row + 8*u
	l.s.add(item{kind: itemStroke, style: "frame", path: lineSegs(l.margin, l.y, l.margin+l.w, l.y)})
	l.y += 10 * u
}

// body is the drawing with the table beside it or below it. below is the height
// that is still needed under both.
func (l *layout) body(p *check.PartReport, rows []tableRow, below float64) {
	u := l.u
	b := partBox(p.Part)
	aspect := 1.0
	if b.Width > 0 && b.Height > 0 {
		aspect = b.Width / b.Height
	}
	room := l.most - l.y - below - l.margin - 10*u
	beside := len(rows) > 0 && aspect < 2.4 && l.w >= 1000
	if !beside {
		table := l.newTable(rows, l.w)
		dh := min(l.wishHeight(p, l.w, aspect, len(rows)), max(room-min(table.height, room*0.5), 260*u))
		a := area{l.margin, l.y, l.w, math.Round(dh)}
		left := max(room-dh-10*u, 90*u)
		l.drawing(p, rows[:table.fit(l, left)], rows, a)
		l.y = a.bottom() + 10*u
		if len(rows) > 0 {
			l.y += l.drawTable(table, l.margin, l.y, left) + 14*u
		}
		return
	}
	tw := math.Round(min(l.w*0.46, 720*u))
	if aspect < 0.45 {
		tw = math.Round(l.w * 0.62)
	}
	gap := 18 * u
	dw := l.w - tw - gap
	table := l.newTable(rows, tw)
	dh := max(l.wishHeight(p, dw, aspect, len(rows)), table.height)
	dh = math.Round(max(min(dh, room), 260*u))
	a := area{l.margin, l.y, math.Round(dw), dh}
	l.drawing(p, rows[:table.fit(l, dh)], rows, a)
	l.drawTable(table, a.right()+gap, l.y, dh)
	l.y = a.bottom() + 14*u
}

// wishHeight is the height at which the part fills the width of its area, within reason.
func (l *layout) wishHeight(p *check.PartReport, w, aspect float64, rows int) float64 {
	pad := l.pads(p, rows)
	inner := w - pad.left - pad.right
	return min(max(inner/aspect+pad.top+pad.bottom, 360*l.u), 1000*l.u)
}

// block is a paragraph under the drawing.
type block struct {
	title string
	lines []string
	grid  *limitGrid
	sign  bool // a caution
}

// partFooter lists what stands under the drawing.
func (l *layout) partFooter(p *check.PartReport) []block {
	var out []block
	if len(p.Limits) > 0 {
		out = append(out, block{title: "limits over stock thicknesses", lines: limitLines(p, l.unit), grid: newLimitGrid(p.Limits, l.unit)})
	}
	if len(p.Cautions) > 0 {
		out = append(out, block{title: "cautions", lines: p.Cautions[:min(4, len(p.Cautions))], sign: true})
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
		if len(w.Assumptions) > 0 {
			lines = append(lines, "assumed: "+strings.Join(w.Assumptions, "; "))
		}
		out = append(out, block{title: name, lines: lines})
		if len(w.Buy) > 0 {
			out = append(out, block{title: "to buy", lines: []string{strings.Join(w.Buy, "; ")}})
		}
	}
	if len(p.Questions) > 0 {
		out = append(out, block{title: "to ask", lines: p.Questions})
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

// placedBlock is a block with its lines broken and its place.
type placedBlock struct {
	block
	title  string
	text   []string
	x, y   float64 // y from the top of the footer
	height float64
}

// placeBlocks flows blocks into two columns, each into the shorter one.
func (l *layout) placeBlocks(list []block) ([]placedBlock, float64) {
	u, gap := l.u, 30*l.u
	columns := 2
	if l.w < 900*u {
		columns = 1
	}
	cw := (l.w - gap*float64(columns-1)) / float64(columns)
	depth := make([]float64, columns)
	var out []placedBlock
	for _, b := range list {
		pb := placedBlock{block: b, title: l.r.clean(b.title)}
		indent := 0.0
		if b.sign {
			indent = 24 * u
		}
		for i, s := range b.lines {
			if i == 10 {
				pb.text = append(pb.text, fmt.Sprintf("+ %d more", len(b.lines)-i))
				break
			}
			w := l.r.wrap(s, "body", cw-indent-16*u, 5)
			for j := range w {
				if j > 0 {
					w[j] = "\u0000" + w[j] // a hanging line
				}
			}
			pb.text = append(pb.text, w...)
		}
		pb.height = l.r.lineHeight("heading") + float64(len(pb.text))*l.r.lineHeight("body") + 12*u
		if b.grid != nil {
			pb.height += b.grid.height(l, cw)
		}
		k := 0
		for i := range depth {
			if depth[i] < depth[k]-0.5 {
				k = i
			}
		}
		pb.x, pb.y = l.margin+float64(k)*(cw+gap), depth[k]
		depth[k] += pb.height
		out = append(out, pb)
	}
	h := 0.0
	for _, d := range depth {
		h = max(h, d)
	}
	return out, h
}

func (l *layout) blocksHeight(list []block) float64 {
	_, h := l.placeBlocks(list)
	return h + 30*l.u
}

// blocks draws the footer; what would be lower than the picture may be is left
// out, and that is said.
func (l *layout) blocks(list []block) {
	u := l.u
	if len(list) == 0 {
		return
	}
	l.s.add(item{kind: itemStroke, style: "frame", path: lineSegs(l.margin, l.y, l.margin+l.w, l.y)})
	l.y += 10 * u
	placed, h := l.placeBlocks(list)
	room := l.most - l.margin - l.y
	if h > room {
		room -= l.r.lineHeight("small")
	}
	left := 0
	lowest := 0.0
	for _, b := range placed {
		if b.y+b.height > room {
			left++
			continue
		}
		lowest = max(lowest, b.y+b.height)
		y := l.y + b.y
		y += l.text(b.x, y, []string{b.title}, "heading")
		if b.grid != nil {
			cw := (l.w - 30*u) / 2
			if l.w < 900*u {
				cw = l.w
			}
			y += b.grid.draw(l, b.x, y, cw)
		}
		for _, s := range b.text {
			x := b.x
			if b.sign {
				if !strings.HasPrefix(s, "\u0000") {
					l.s.add(item{kind: itemMarker, style: "warning", sign: signCare, x: x + 9*u, y: y + l.r.lineHeight("body")/2, w: 15 * u})
				}
				x += 24 * u
			}
			if strings.HasPrefix(s, "\u0000") {
				s = s[1:]
				x += 16 * u
			}
			y += l.text(x, y, []string{s}, "body")
		}
	}
	l.y += lowest
	if left > 0 {
		l.y += l.text(l.margin, l.y, []string{plural(left, "paragraph") + " left out for want of room: see the text report"}, "small")
	}
}
