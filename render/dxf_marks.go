package render

import (
	"fmt"
	"math"
	"strconv"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// Layers of the marks.
const (
	marksError = "MARKS-ERROR"
	marksCare  = "MARKS-CARE"
	marksAsk   = "MARKS-ASK"
	marksNote  = "MARKS-NOTE"
	marksText  = "MARKS-TEXT"
)

const marksComment = "red-lines by burrside: no drawing of a part"

// MarksHead is how every file of red-lines begins.
const MarksHead = "999\n" + marksComment + "\n"

// Marks is a drawing of red-lines in the coordinates and the unit of the drawing
// that a report is about, to be laid over it: each feature with a finding is
// circled or drawn over, the offending distances are drawn, and the findings
// are listed below the parts by their numbers. Of equal parts the first is
// marked; a leg that no view shows has no marks. ok is false if there is nothing
// to mark.
func Marks(rep *check.Report) (out *DXFOut, ok bool) {
	if rep.Sheet == nil || rep.Err != nil {
		return nil, false
	}
	perMM := 1.0
	if rep.Sheet.Units.MM > 0 {
		perMM = 1 / rep.Sheet.Units.MM
	}
	m := &marker{out: &DXFOut{Comment: marksComment}, perMM: perMM, unit: shopUnit(rep)}
	switch rep.Sheet.Units.Name {
	case "mm", "in":
		m.out.Units = rep.Sheet.Units.Name
	}
	for _, l := range []DXFLayer{{Name: marksError, Colour: 1}, {Name: marksCare, Colour: 30}, {Name: marksAsk, Colour: 6}, {Name: marksNote, Colour: 5}, {Name: marksText, Colour: 7}} {
		m.out.Layer(l)
	}
	for _, p := range rep.Parts {
		if p.Part != nil {
			m.part(p)
		}
	}
	m.list(rep.Findings, nil)
	m.write()
	return m.out, m.number > 0
}

// marker draws marks; its places are millimetres of the drawing.
type marker struct {
	out    *DXFOut
	perMM  float64 // drawing units in a millimetre
	unit   string
	number int
	lines  []string
	box    geom.Box // of all that is marked
	any    bool
	height float64 // of text, mm
	// numbered is how many letters of numbers stand at a feature of the part
	// that is being marked.
	numbered map[string]int
}

func marksLayer(f *check.Finding) string {
	switch {
	case f.CannotTell && f.Severity != check.Error:
		return marksAsk
	case f.Severity == check.Error:
		return marksError
	case f.Severity == check.Warning:
		return marksCare
	}
	return marksNote
}

func (m *marker) part(p *check.PartReport) {
	if _, ok := edgesBox(p.Part.Outline); !ok {
		return
	}
	on := func(q geom.Point) (geom.Point, bool) {
		a := p.Part.Angle
		return p.Part.OnDrawing(q), a == nil || a.Legs[a.LegAt(q)].Drawn
	}
	size := 0.0
	grow := func(q geom.Point) {
		d, ok := on(q)
		if !ok || !finite(d.X+d.Y) {
			return
		}
		if !m.any {
			m.box, m.any = geom.BoxOf(d), true
		}
		m.box = m.box.Add(d)
	}
	for _, e := range p.Part.Outline {
		grow(e.From)
		grow(e.To)
	}
	b := partBox(p.Part)
	size = drawnShare(p.Part) * math.Sqrt(float64(b.Width*b.Height))
	// Letters of a thirtieth of the part, as large as those of a print of it.
	if h := max(2, min(size/30, 40)); m.height == 0 || h < m.height {
		m.height = h
	}
	m.numbered = map[string]int{}
	m.list(p.Findings, func(f *check.Finding, number string) {
		layer := marksLayer(f)
		for i, id := range f.Features {
			if g := featureByID(p.Part, id); g != nil {
				m.feature(p.Part, g, layer, on, number, i == 0)
			}
		}
		if f.To == nil || !f.HasAt {
			return
		}
		x, seen1 := on(f.At)
		y, seen2 := on(*f.To)
		if a := p.Part.Angle; !seen1 || !seen2 || a != nil && a.LegAt(f.At) != a.LegAt(*f.To) {
			return // over the heel: the drawing has no such distance
		}
		m.line(layer, x, y)
		found, limit := foundNeeded(f, m.unit)
		if found != "" {
			m.text(layer, x.Add(y).Mul(0.5).Add(geom.Point{X: m.height / 3, Y: m.height / 3}), trimJoin(found, limit))
		}
	})
}

// drawnShare is drawn over true size.
func drawnShare(p *features.Part) float64 {
	if p.Scale.Factor > 0 {
		return 1 / p.Scale.Factor
	}
	return 1
}

func trimJoin(found, limit string) string {
	if limit == "" {
		return found
	}
	return found + ", " + limit
}

// list numbers findings and lists them; draw marks one on the drawing.
func (m *marker) list(findings []check.Finding, draw func(f *check.Finding, number string)) {
	for i := range findings {
		f := &findings[i]
		m.number++
		number := strconv.Itoa(m.number)
		ids := idList(f.Features)
		if ids != "" {
			ids += " "
		}
		s := fmt.Sprintf("%s %s: %s%s", number, severityWord(f.Severity), ids, ruleWords(f.Rule))
		if f.Message != "" {
			s += ": " + f.Message
		}
		if found, limit := foundNeeded(f, m.unit); found+limit != "" {
			s += " (" + trimJoin(found, limit) + ")"
		}
		m.lines = append(m.lines, plainLine(s))
		if draw != nil {
			draw(f, number)
		}
	}
}

// feature circles an opening and draws over the edges of anything else.
func (m *marker) feature(p *features.Part, f *features.Feature, layer string, on func(geom.Point) (geom.Point, bool), number string, first bool) {
	at, seen := on(f.At)
	if f.IsInside() {
		if !seen || !finite(at.X+at.Y) {
			return
		}
		r := f.DiameterMM / 2
		if e, ok := edgesBox(f.Ring); ok {
			dx, dy := e.MaxX-e.MinX, e.MaxY-e.MinY
			r = max(r, math.Sqrt(float64(dx*dx)+float64(dy*dy))/2)
			if f.Kind == features.RoundHole {
				r = max(dx, dy) / 2
			}
		}
		r = drawnShare(p)*r + m.height/2
		m.out.Circle(layer, at.X*m.perMM, at.Y*m.perMM, r*m.perMM)
		if first {
			m.label(f.ID, layer, at.Add(geom.Point{X: r * 0.75, Y: r * 0.75}), number)
		}
		return
	}
	done := false
	draw := func(e geom.Edge) {
		a, ok := on(e.Mid())
		if !ok || !finite(a.X+a.Y) {
			return
		}
		m.edge(p, e, layer)
		if first && !done {
			m.label(f.ID, layer, a.Add(geom.Point{X: m.height / 3, Y: m.height / 3}), number)
			done = true
		}
	}
	for _, i := range f.Edges {
		if i >= 0 && i < len(p.Outline) {
			draw(p.Outline[i])
		}
	}
	for _, e := range f.Open {
		draw(e)
	}
}

// edge draws over an edge of the part's frame, where its leg stands.
func (m *marker) edge(p *features.Part, e geom.Edge, layer string) {
	e = p.EdgeOnDrawing(e)
	bulge := 0.0
	if e.IsArc() && !e.IsCircle() {
		bulge = e.Bulge()
	}
	if !finite(e.From.X + e.From.Y + e.To.X + e.To.Y + bulge) {
		return
	}
	if e.IsCircle() {
		m.out.Circle(layer, e.Centre.X*m.perMM, e.Centre.Y*m.perMM, e.Radius*m.perMM)
		return
	}
	m.out.Polyline(layer, false, DXFVertex{e.From.X * m.perMM, e.From.Y * m.perMM, bulge}, DXFVertex{X: e.To.X * m.perMM, Y: e.To.Y * m.perMM})
}

func (m *marker) line(layer string, a, b geom.Point) {
	if finite(a.X + a.Y + b.X + b.Y) {
		m.out.Line(layer, a.X*m.perMM, a.Y*m.perMM, b.X*m.perMM, b.Y*m.perMM)
	}
}

// label puts a number at a feature, beside those that stand there.
func (m *marker) label(id, layer string, at geom.Point, number string) {
	m.text(layer, at.Add(geom.Point{X: 0.9 * m.height * float64(m.numbered[id])}), number)
	m.numbered[id] += len(number) + 1
}

func (m *marker) text(layer string, at geom.Point, s string) {
	if finite(at.X + at.Y) {
		m.out.Text(layer, at.X*m.perMM, at.Y*m.perMM, m.height*m.perMM, plainLine(s))
	}
}

// write puts the list of findings below all parts, well clear of what stands
// close under them.
func (m *marker) write() {
	if m.height == 0 {
		m.height = 5
	}
	at := geom.Point{X: m.box.Min.X, Y: m.box.Min.Y - 12*m.height}
	head := append([]string{disclaimer}, m.lines...)
	for i, s := range head {
		m.text(marksText, at.Add(geom.Point{Y: -1.8 * m.height * float64(i)}), s)
	}
}
