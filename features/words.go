package features

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// callOutMM is how far a drawn diameter may be from the one in a call-out:
// decimals of an inch fraction are often cut off.
const callOutMM = 0.1

// statement is one fact that a text states.
type statement struct {
	whole  string // the line of text that it stands in
	kind   string // "thickness", "material", "quantity", "call-out"
	value  string // what makes two of them equal
	text   Text
	line   string
	mm     float64
	count  int
	call   measure.HoleCall
	holeMM float64
	// inTable tells that it stands in a title block or a table: it is for all
	// parts, not for the nearest.
	inTable bool
}

// readTexts ties what the texts say to the parts that it concerns.
func (b *builder) readTexts() error {
	b.nameThickness()
	b.stateViews()
	if len(b.sheet.Parts) == 0 {
		return nil
	}
	var all []statement
	for i, t := range b.sheet.Texts {
		if i%256 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		for _, line := range strings.Split(t.Value, "\n") {
			if line = strings.TrimSpace(line); line != "" && len(line) < 400 {
				for _, s := range b.statementsOf(t, line) {
					s.whole = line
					all = append(all, s)
				}
			}
		}
	}
	all = b.sortTableWords(all)
	for _, kind := range []string{"thickness", "material", "quantity", "call-out"} {
		var list []statement
		for _, s := range all {
			if s.kind == kind {
				list = append(list, s)
			}
		}
		for _, s := range list {
			for _, p := range b.partsOf(s, uniqueValue(list), len(list) == 1) {
				b.apply(p, s)
			}
		}
	}
	return nil
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
	call, isCall := measure.HoleCallOut(line)
	if isCall {
		s := statement{kind: "call-out", text: t, line: line, call: call, value: line, holeMM: b.lengthMM(call.Diameter)}
		out = append(out, s)
	}
	if p, ok := measure.PlateNote(line); ok && !isCall {
		if p.Gauge > 0 {
			b.gaugeNote(t, line, p.Gauge)
		}
		if mm := b.lengthMM(p.Thickness); mm > 0 {
			out = append(out, statement{kind: "thickness", text: t, line: line, mm: mm, value: fmt.Sprintf("%.2f", mm)})
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

// gaugeNote tells what a sheet gauge may mean; it depends on the metal, so it is
// not taken for a thickness.
func (b *builder) gaugeNote(t Text, line string, gauge int) {
	text := fmt.Sprintf("the text %q names a gauge, which is no thickness until the metal is known", clip(line))
	if mm, ok := measure.SheetGauge(gauge); ok {
		text += fmt.Sprintf("; in uncoated steel sheet it is %s mm", shortNumber(mm))
	}
	b.note(Note{Code: "maybe-thickness", At: t.At, HasAt: true, Text: text, Source: []Source{t.Source}})
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

// partsOf are the parts that a statement concerns: the only one; the one that
// it lies in; the nearest if it is clearly nearer than the next; all of them
// if the sheet says nothing else of this kind; else none, with a note.
func (b *builder) partsOf(s statement, unique, only bool) []int {
	n := len(b.sheet.Parts)
	if n == 1 {
		return []int{0}
	}
	every := make([]int, n)
	for i := range every {
		every[i] = i
	}
	if s.inTable || s.kind != "call-out" && isForAll(s.whole) {
		return every
	}
	best, second := math.Inf(1), math.Inf(1)
	at := -1
	inside, least := -1, math.Inf(1)
	all := b.instances[0].box
	for _, in := range b.instances {
		all = all.Union(in.box)
		d := boxDist(in.box, s.text.At)
		if a := in.ring.Area(); d == 0 && a < least && in.ring.Inside(s.text.At, 1e-6) == geom.In {
			inside, least = in.part, a
		}
		if d == 0 && in.ring.Inside(s.text.At, 1e-6) != geom.In {
			d = 1e-3 // within the box only
		}
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
		return []int{inside} // of a part within a part's opening the inner one
	}
	if only && s.kind != "call-out" && s.kind != "quantity" && best > math.Max(all.Width(), all.Height())/2 {
		b.note(Note{Code: "text-for-all", At: s.text.At, HasAt: true, Source: []Source{s.text.Source},
			Text: fmt.Sprintf("the text %q stands away from all parts and is the only %s; it was taken for all of them", clip(s.line), s.kind)})
		return every
	}
	if best < 0.5*second {
		return []int{at}
	}
	if unique {
		return every
	}
	b.note(Note{Code: "text-not-tied", At: s.text.At, HasAt: true, Source: []Source{s.text.Source},
		Text: fmt.Sprintf("the text %q may belong to more than one part and was left out of account", clip(s.line))})
	return nil
}

// isForAll tells whether a note says that it is for all parts: "ALL t=6", "ALL
// PARTS 10 THK", "alle Teile t=6", "toutes les pièces ép 6". "All" before
// anything but parts, as in "all holes", is none.
func isForAll(line string) bool {
	words := strings.FieldsFunc(strings.ToLower(line), func(r rune) bool { return strings.ContainsRune(" \t,;:.=()", r) })
	for i, w := range words {
		switch w {
		case "all", "alle", "allen", "toutes", "tous", "todas", "todos", "tutte", "tutti", "alla", "wszystkie", "všechny", "все":
		default:
			continue
		}
		for i++; i < len(words); i++ {
			switch words[i] {
			case "the", "les", "las", "los", "le", "i", "as", "os":
				continue
			case "parts", "part", "plates", "plate", "pieces", "items", "teile", "bleche", "platten", "pièces", "tôles", "toles", "piezas", "chapas", "peças", "pezzi", "parti", "lamiere", "piastre", "delen", "onderdelen", "platen", "delar", "plåtar", "części", "blachy", "díly", "детали",
				"t", "thk", "thickness", "material", "mat", "pl", "s235", "s275", "s355":
				return true
			}
			return false
		}
	}
	return false
}

func boxDist(box geom.Box, p geom.Point) float64 {
	x := math.Max(math.Max(box.Min.X-p.X, p.X-box.Max.X), 0)
	y := math.Max(math.Max(box.Min.Y-p.Y, p.Y-box.Max.Y), 0)
	return math.Sqrt(float64(x*x) + float64(y*y))
}

// apply enters a statement into a part; one that contradicts an earlier one is
// a grave doubt.
func (b *builder) apply(part int, s statement) {
	p := &b.sheet.Parts[part]
	src := []Source{s.text.Source}
	switch s.kind {
	case "thickness":
		b.state(p, &p.Thickness, s, math.Abs(p.Thickness.MM-s.mm) < 0.005)
	case "material":
		same := measure.SameGrade(p.Material.Text, s.line)
		if same && len(s.line) > len(p.Material.Text) {
			p.Material.Text = s.line // S355J2 says more than S355
		}
		b.state(p, &p.Material, s, same)
	case "quantity":
		if p.Quantity != 0 && p.Quantity != s.count {
			b.conflict(p, s, strconv.Itoa(p.Quantity))
			return
		}
		p.Quantity = s.count
	case "call-out":
		s = b.drawnReading(p, s)
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

// state enters a stated fact, or doubts it if another stands there.
func (b *builder) state(p *Part, to *Stated, s statement, same bool) {
	if to.From == "" {
		*to = Stated{Text: s.line, MM: s.mm, From: "text", At: s.text.At, Source: []Source{s.text.Source}}
		return
	}
	if same {
		to.Source = append(to.Source, s.text.Source)
		return
	}
	b.conflict(p, s, to.Text)
}

func (b *builder) conflict(p *Part, s statement, other string) {
	p.Doubts = append(p.Doubts, Doubt{Code: "text-conflict", Grave: true, At: s.text.At, Source: []Source{s.text.Source},
		Text: fmt.Sprintf("the drawing states the %s twice: %q and %q", s.kind, clip(other), clip(s.line))})
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

// drawnReading settles a call-out that can be read in two ways, as "4-13/16 DIA"
// can, by what is drawn: the other reading counts if only its size is there.
func (b *builder) drawnReading(p *Part, s statement) statement {
	other := b.lengthMM(s.call.Alt)
	if other <= 0 {
		return s
	}
	alt := s
	alt.holeMM, alt.call.Count = other, 0
	hasAlt := false
	for i := range p.Features {
		if b.callMatches(&p.Features[i], s) {
			return s
		}
		hasAlt = hasAlt || b.callMatches(&p.Features[i], alt)
	}
	if hasAlt {
		return alt
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

// nameThickness looks for a thickness in the drawing's name, such as "g7_t10"
// or "base_10mm". It is told, never taken: names are copied.
func (b *builder) nameThickness() {
	for _, w := range strings.FieldsFunc(strings.ToLower(b.opt.Name), func(r rune) bool { return strings.ContainsRune(" _-()[]", r) }) {
		num := ""
		switch {
		case strings.HasPrefix(w, "t") && len(w) > 1:
			num = strings.TrimSuffix(w[1:], "mm")
		case strings.HasSuffix(w, "mm"):
			num = strings.TrimSuffix(w, "mm")
		default:
			continue
		}
		if strings.ContainsFunc(num, func(r rune) bool { return r != '.' && (r < '0' || r > '9') }) {
			continue
		}
		mm, err := strconv.ParseFloat(num, 64)
		if err != nil || mm < 0.3 || mm > 150 {
			continue
		}
		b.note(Note{Code: "maybe-thickness", Text: fmt.Sprintf("the name %q may speak of a thickness of %s mm; it was not taken", b.opt.Name, shortNumber(mm))})
	}
}
