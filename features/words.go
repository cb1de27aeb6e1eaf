package features

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
	"burrside/features/section"
)

// callOutMM is how far a drawn diameter may be from the one in a call-out:
// decimals of an inch fraction are often cut off.
const callOutMM = 0.1

// statement is one fact that a text states.
type statement struct {
	whole   string // the line of text that it stands in
	kind    string // "thickness", "material", "quantity", "call-out"
	value   string // what makes two of them equal
	text    Text
	at      geom.Point // what it points at, else its place
	tip     bool       // at is where its leader points
	line    string
	mm      float64
	count   int
	gauge   int
	call    measure.HoleCall
	holeMM  float64
	general bool // it gives way to a particular one: "unless noted"
	several bool // it names two values
	bare    bool // it names no unit
	// inTable tells that it stands in a title block or a table: it is for all
	// parts, not for the nearest.
	inTable bool
	of      []int // parts that a row of a parts list is tied to
}

// readTexts ties what the texts say to the parts that it concerns.
func (b *builder) readTexts() error {
	b.stateViews()
	b.readTitle()
	if len(b.sheet.Parts) == 0 {
		return nil
	}
	b.general = map[partFact]bool{}
	var all []statement
	for i, t := range b.sheet.Texts {
		if i%256 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		b.longText(t)
		if t.Revision {
			continue
		}
		at, tip := b.pointedAt(t)
		for _, line := range statedLines(t) {
			for _, s := range b.statementsOf(t, line) {
				s.whole, s.at, s.tip = line, at, tip
				s.general = s.kind != "call-out" && measure.IsGeneralNote(line)
				all = append(all, s)
			}
		}
	}
	b.sheets = b.sheetFrames()
	all = b.sortTableWords(b.readLists(append(all, b.labelled()...)))
	// The metal comes first: a gauge has no thickness without it. Particular
	// notes come before general ones, which give way to them.
	for _, kind := range []string{"material", "thickness", "quantity", "call-out"} {
		for _, general := range []bool{false, true} {
			var list []statement
			for _, s := range all {
				if s.kind == kind && s.general == general {
					list = append(list, s)
				}
			}
			for _, s := range list {
				for _, p := range b.partsOf(s, uniqueValue(list), len(list) == 1) {
					b.apply(p, s)
				}
			}
		}
	}
	b.readFileName()
	b.readHardNames()
	b.readAngleTexts()
	b.tieTolerances()
	b.compareHoleTables()
	b.doubtScaledTwins()
	b.askScale()
	return nil
}

// statedLines gives the lines of a text that are looked at. The value of an
// attribute is read with its tag before it: "10" under THK is a thickness.
func statedLines(t Text) []string {
	lines, _ := measure.Lines(t.Value)
	for i := 0; i+1 < len(lines); i++ {
		// A label and its value as two lines of one text.
		if measure.LabelKind(strings.TrimSuffix(strings.TrimSpace(lines[i]), ":")) == "material" && !isHeading(lines[i+1]) {
			if note, ok := measure.StatedMaterial(lines[i+1]); ok {
				lines[i+1] = note
			}
		}
	}
	if t.Tag != "" {
		for i := range lines {
			lines[i] = measure.TaggedNote(t.Tag, lines[i])
		}
	}
	return lines
}

// longText doubts every part where a text was too long to be read: it may say
// anything.
func (b *builder) longText(t Text) {
	if _, tooLong := measure.Lines(t.Value); !tooLong {
		return
	}
	for i := range b.sheet.Parts {
		p := &b.sheet.Parts[i]
		p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", Grave: true, At: t.At, Source: []Source{t.Source},
			Text: fmt.Sprintf("the text %q is too long to be read", clip(t.Value))})
	}
}

// uniqueValue tells whether all statements say the same.
func uniqueValue(list []statement) bool {
	for _, s := range list {
		if s.value != list[0].value {
			return false
		}
	}
	return true
}

func (b *builder) statementsOf(t Text, line string) []statement {
	var out []statement
	if named := section.Mentions(line); len(named) > 0 {
		if n := named[0].Count; n > 0 && len(named) == 1 {
			out = append(out, statement{kind: "quantity", text: t, line: line, count: n, value: strconv.Itoa(n)})
		}
		line = withoutSections(line)
	}
	call, isCall := measure.HoleCallOut(line)
	if isCall {
		s := statement{kind: "call-out", text: t, line: line, call: call, value: line, holeMM: b.lengthMM(call.Diameter)}
		out = append(out, s)
	}
	if list := measure.PlateNotes(line); len(list) > 0 && !isCall {
		p := list[0]
		s := statement{kind: "thickness", text: t, line: line, mm: b.lengthMM(p.Thickness), gauge: p.Gauge, several: len(list) > 1}
		if s.bare = p.Thickness.Unit == "" && !p.Thickness.Fraction; s.bare && (b.sheet.Units.Name == "m" || b.sheet.Units.Name == "cm") {
			s.mm = p.Thickness.MM // no plate is so many metres thick
		}
		if s.value = fmt.Sprintf("%.2f", s.mm); s.several {
			s.value = line
		}
		if p.Gauge > 0 {
			s.value = fmt.Sprintf("gauge %d", p.Gauge)
		}
		if s.mm > 0 || s.gauge > 0 {
			out = append(out, s)
		}
	}
	if g, ok := measure.MaterialNote(line); ok {
		out = append(out, statement{kind: "material", text: t, line: g, value: strings.ToUpper(strings.Join(strings.Fields(g), ""))})
	}
	if n, ok := measure.Quantity(line); ok && n > 0 {
		out = append(out, statement{kind: "quantity", text: t, line: line, count: n, value: strconv.Itoa(n)})
	}
	return out
}

// lengthMM is a length of a text in millimetres. One without a unit is in the
// drawing's, but a fraction is in inches.
func (b *builder) lengthMM(l measure.LengthValue) float64 {
	switch {
	case l.Unit != "" || l.MM <= 0:
		return l.MM
	case l.Fraction:
		return l.MM * 25.4
	}
	return l.MM * b.sheet.Units.MM
}

// apply enters a statement into a part; one that contradicts an earlier one is
// a grave doubt.
func (b *builder) apply(part int, s statement) {
	p := &b.sheet.Parts[part]
	src := []Source{s.text.Source}
	switch s.kind {
	case "thickness":
		if s.gauge > 0 && !b.gauge(p, &s) {
			return
		}
		if s.bare && b.sheet.Units.Name == "cm" {
			b.grave(p, s, fmt.Sprintf("the thickness %q has no unit, and the drawing is in cm: is it in mm or cm?", clip(s.line)))
		}
		if s.several {
			b.grave(p, s, fmt.Sprintf("the text %q names more than one thickness", clip(s.line)))
			return
		}
		b.state(part, &p.Thickness, s, math.Abs(p.Thickness.MM-s.mm) < 0.005)
	case "material":
		same := measure.SameGrade(p.Material.Text, s.line)
		if same && len(s.line) > len(p.Material.Text) {
			p.Material.Text = s.line // S355J2 says more than S355
		}
		b.state(part, &p.Material, s, same)
	case "quantity":
		if p.Quantity != 0 && s.general && !b.general[partFact{part, s.kind}] {
			return
		}
		b.general[partFact{part, s.kind}] = s.general
		if p.Quantity != 0 && p.Quantity != s.count {
			b.conflict(p, s, strconv.Itoa(p.Quantity))
			return
		}
		if p.Quantity == 0 {
			p.QuantityFrom, p.QuantityAt = "text", s.text.At
		}
		p.Quantity = s.count
	case "call-out":
		s = b.drawnReading(p, s)
		b.pointedHole(p, s)
		c := CallOut{Text: s.line, At: s.text.At, Count: s.call.Count, DiameterMM: s.holeMM, Process: s.call.Process, Source: src}
		clearance := clearanceOf(p, s)
		for i := range p.Features {
			f := &p.Features[i]
			if !b.callMatches(f, s) && !(clearance > 0 && f.Kind == RoundHole && math.Abs(f.DiameterMM-clearance) <= callOutMM) {
				continue
			}
			c.Features = append(c.Features, f.ID)
			if s.call.Process != "" && s.call.Process != "punch" {
				f.Process = s.call.Process
			}
			if s.call.Bolt != "" {
				f.BoltDesignation = s.call.Bolt
			}
			if s.call.Process != "" || s.call.Bolt != "" {
				f.Note = s.line
			}
		}
		p.CallOuts = append(p.CallOuts, c)
	}
}

// partFact names a fact of a part.
type partFact struct {
	part int
	kind string
}

// state enters a stated fact, or doubts it if another stands there. A general
// note gives way to a particular one.
func (b *builder) state(part int, to *Stated, s statement, same bool) {
	p, fact := &b.sheet.Parts[part], partFact{part, s.kind}
	switch {
	case to.From == "":
		*to = Stated{Text: s.line, MM: s.mm, From: "text", At: s.text.At, Source: []Source{s.text.Source}}
		b.general[fact] = s.general
	case same:
		to.Source = append(to.Source, s.text.Source)
	case s.general && !b.general[fact]:
		b.note(Note{Code: "general-note", At: s.text.At, HasAt: true, Source: []Source{s.text.Source},
			Text: fmt.Sprintf("the general note %q gives way to %q on part %s", clip(s.line), clip(to.Text), p.Name)})
	default:
		b.conflict(p, s, to.Text)
	}
}

func (b *builder) conflict(p *Part, s statement, other string) {
	b.grave(p, s, fmt.Sprintf("the drawing states the %s twice: %q and %q", s.kind, clip(other), clip(s.line)))
}

// grave enters a grave doubt about a text.
func (b *builder) grave(p *Part, s statement, text string) {
	p.Doubts = append(p.Doubts, Doubt{Code: "text-conflict", Grave: true, At: s.text.At, Source: []Source{s.text.Source}, Text: text})
}

// callMatches tells whether a hole is one that a call-out speaks of: the drawn
// diameter is the stated one, or its seat, or the hole or thread of the bolt
// named.
func (b *builder) callMatches(f *Feature, s statement) bool {
	switch f.Kind {
	case Slot:
		w, l := b.lengthMM(s.call.Slot[0]), b.lengthMM(s.call.Slot[1])
		return w > 0 && math.Abs(f.WidthMM-w) <= callOutMM && (l <= 0 || math.Abs(f.LengthMM-l) <= callOutMM)
	case RoundHole, HoleWithSeat, TappedHole:
	default:
		return false
	}
	if s.call.Slot[0].MM > 0 {
		return false
	}
	if d := s.holeMM; d > 0 && (math.Abs(f.DiameterMM-d) <= callOutMM || f.SeatMM > 0 && math.Abs(f.SeatMM-d) <= callOutMM) {
		return true
	}
	if d := boltMM(s.call.Bolt); d > 0 && s.call.Process == "tap" {
		// The thread's size, or a core hole: 0.78 of it or more (coarse ISO
		// metric threads from M3 up: M3 2.5, M12 10.2; ISO 261, from memory).
		if f.SeatMM > 0 {
			return math.Abs(f.SeatMM-d) <= callOutMM
		}
		return f.DiameterMM >= 0.78*d && f.DiameterMM <= d+callOutMM
	}
	return false
}

// drawnReading settles a call-out that can be read in more than one way by what
// is drawn. "4-13/16 DIA" may be of 13/16 or of 4-13/16; a number without a unit
// is in the drawing's, but where no such hole is drawn and one of that many
// millimetres or inches is, it is that one.
func (b *builder) drawnReading(p *Part, s statement) statement {
	readings := []statement{s}
	if other := b.lengthMM(s.call.Alt); other > 0 {
		alt := s
		alt.holeMM, alt.call.Count = other, 0
		readings = append(readings, alt)
	}
	if s.call.Diameter.Unit == "" && !s.call.Diameter.Fraction && s.call.Diameter.MM > 0 {
		for _, mm := range []float64{1, 25.4} {
			alt := s
			alt.holeMM = s.call.Diameter.MM * mm
			readings = append(readings, alt)
		}
	}
	for _, r := range readings {
		for i := range p.Features {
			if b.callMatches(&p.Features[i], r) {
				return r
			}
		}
	}
	return s
}

// clearanceOf is the diameter of the holes that a call-out for bolts speaks of
// when it states none: those larger than the bolt by up to 4 mm, if the part has
// one such size only (EN 1090-2 table 11: 1 to 3 mm, oversize up to 8; AISC 360
// table J3.3: 1/16 to 1/8 in; from memory). 0 if it cannot be told.
func clearanceOf(p *Part, s statement) float64 {
	d := boltMM(s.call.Bolt)
	if d <= 0 || s.holeMM > 0 || s.call.Slot[0].MM > 0 || s.call.Process == "tap" {
		return 0
	}
	found := 0.0
	for i := range p.Features {
		f := &p.Features[i]
		if f.Kind != RoundHole || f.DiameterMM < d+0.4 || f.DiameterMM > d+4 {
			continue
		}
		if found > 0 && math.Abs(found-f.DiameterMM) > callOutMM {
			return 0
		}
		found = f.DiameterMM
	}
	return found
}

// boltMM is the nominal size of a bolt named "M20" or "3/4"; 0 unknown.
func boltMM(name string) float64 {
	name = strings.TrimSpace(name)
	if name == "" {
		return 0
	}
	if c := name[0]; c == 'M' || c == 'm' {
		num := name[1:]
		if i := strings.IndexAny(num, "xX"); i > 0 {
			num = num[:i]
		}
		f, err := strconv.ParseFloat(num, 64)
		if err != nil || !(f > 0) {
			return 0
		}
		return f
	}
	l, err := measure.Length(name)
	if err != nil {
		return 0
	}
	if l.Unit == "" {
		return l.MM * 25.4 // bolts in millimetres begin with an M
	}
	return l.MM
}
