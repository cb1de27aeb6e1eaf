package render

import (
	"fmt"
	"math"

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
	w, y   float64   // inner width, and the next free place
	most   float64   // height of the picture at most
	fixed  bool      // the height was asked for
	lv     *levelled // of an angle: how it is shown
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
	verdict, words := partOnPaper(rep, p)
	l.header(verdict, words, partInfo(rep, p, l.unit))
	footer := l.partFooter(part, p)
	sheet := rep.Findings
	if p.Part.Angle != nil {
		l.lv, sheet = levelAngle(p, sheet)
		p = l.lv.p
	} else if p.Part.Scale.Factor > 0 {
		p, sheet = scaledReport(p, sheet)
	}
	l.blocks(l.body(p, tableRows(p.Findings, sheet), footer))
	return l.finish()
}

// partOnPaper is the verdict of a part as it may be shown by itself, with its
// heading: a fault of the drawing that spoils every reading of it keeps a part
// from being called good, and so does any fault if the part is the only one.
func partOnPaper(rep *check.Report, p *check.PartReport) (check.Verdict, string) {
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
		switch f := &rep.Findings[i]; f.Rule {
		case "units-doubt", "units-unknown", "read-incomplete":
			if f.CannotTell || f.Severity == check.Error {
				worse(check.CannotTell, ruleWords(f.Rule))
			}
		}
	}
	if reason == "" && v != check.Fits && v != check.WithCare {
		if f := firstFinding(rep.Findings); f != nil {
			reason = ruleWords(f.Rule)
		}
	}
	return v, heading(v, reason, joinFindings(p.Findings, rep.Findings))
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
	if wanted(p) > 0 {
		q = fmt.Sprintf("%d%s", p.Job.Quantity, fromText(p.Job.QuantityFrom))
		if c := p.Part.Copies(); c > 1 {
			q += fmt.Sprintf(", %d drawn", c)
		}
	}
	l := []info{{"drawing", rep.Drawing}, {"part", p.Part.Name}}
	if p.Part.Angle != nil {
		l = append(l, angleInfo(p, unit)...)
	} else {
		l = append(l, info{"size", pairText(b.Width, b.Height, unit)})
	}
	if v := scaleWords(p); v != "" {
		l = append(l, info{"view", v})
	}
	l = append(l, info{"thickness", t}, info{"material", m}, info{"pieces", q})
	return append(l, shopInfo(rep)...)
}

func shopInfo(rep *check.Report) []info {
	var l []info
	if rep.Sheet != nil {
		u := &rep.Sheet.Units
		s := unitWord(u.Name)
		if u.From != "" {
			s += " (" + string(u.From) + ")"
		}
		if u.Doubt && u.Other != "" {
			s += ", could be " + unitWord(u.Other)
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

// body is the drawing with the table beside it or below it. Blocks that fit
// under a table beside the drawing are put there; the others are given back.
func (l *layout) body(p *check.PartReport, rows []tableRow, list []block) []block {
	u := l.u
	b := partBox(p.Part)
	aspect := 1.0
	if b.Width > 0 && b.Height > 0 && finite(b.Width/b.Height) {
		aspect = b.Width / b.Height
	}
	room := l.most - l.y - l.blocksHeight(list) - l.margin - 10*u
	if aspect >= 2.4 || l.w < 1000*max(1, u) {
		t := l.newTable(rows, l.w)
		dh := math.Round(min(l.wishHeight(p, l.w, aspect, len(rows)), max(room-min(t.height, room*0.5), 360*u)))
		left := max(room-dh-10*u, 90*u)
		a := area{l.margin, l.y, l.w, dh}
		l.drawing(p, rows[:t.fit(l, left)], rows, a)
		l.y = a.bottom() + 10*u
		if len(rows) > 0 {
			l.y += l.drawTable(t, l.margin, l.y, left) + 14*u
		}
		return list
	}
	tw := math.Round(min(l.w*0.46, 720*u))
	if aspect < 0.45 {
		tw = math.Round(l.w * 0.62)
	}
	gap := 18 * u
	dw := math.Round(l.w - tw - gap)
	t := l.newTable(rows, tw)
	dh := max(l.wishHeight(p, dw, aspect, len(rows)), t.height)
	dh = math.Round(max(min(dh, room), min(dh, 460*u)))
	a := area{l.margin, l.y, dw, dh}
	l.drawing(p, rows[:t.fit(l, dh)], rows, a)
	x, y := a.right()+gap, l.y
	if len(rows) > 0 {
		y += l.drawTable(t, x, y, dh) + 12*u
	}
	list = l.stack(list, x, y, tw, a.bottom()-y)
	l.y = a.bottom() + 14*u
	return list
}

// wishHeight is the height at which the part fills the width of its area, within reason.
func (l *layout) wishHeight(p *check.PartReport, w, aspect float64, rows int) float64 {
	pad := l.pads(p, rows, w, math.Inf(1))
	inner := w - pad.left - pad.right
	least := 330 * l.u
	if l.lv != nil {
		least = l.keyLeast(w)
	}
	return min(max(inner/aspect+pad.top+pad.bottom, least), 1000*l.u)
}
