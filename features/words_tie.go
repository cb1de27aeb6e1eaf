package features

import (
	"fmt"
	"math"
	"strings"

	"burrside/features/geom"
)

// partsOf are the parts that a statement concerns: the only one; the one that
// it lies in; the nearest if it is clearly nearer than the next; all of them
// if the sheet says nothing else of this kind; else none, with a note.
func (b *builder) partsOf(s statement, unique, only bool) []int {
	if s.of != nil {
		return s.of
	}
	sheet := b.sheetOf(s.text.At)
	var every []int
	for i := range b.sheet.Parts {
		if b.onSheet(i, sheet) {
			every = append(every, i)
		}
	}
	if len(every) < 2 {
		return every
	}
	if s.inTable || s.kind != "call-out" && (s.general || isForAll(s.whole)) || s.kind == "quantity" && isForEach(s.whole) {
		return every
	}
	best, second := math.Inf(1), math.Inf(1)
	at := -1
	inside, least := -1, math.Inf(1)
	all := b.instances[0].box
	for _, in := range b.instances {
		if sheet >= 0 && !b.onSheet(in.part, sheet) {
			continue
		}
		all = all.Union(in.box)
		d := boxDist(in.box, s.at)
		if a := in.ring.Area(); d == 0 && a < least && in.ring.Inside(s.at, 1e-6) == geom.In {
			inside, least = in.part, a
		}
		if d == 0 && in.ring.Inside(s.at, 1e-6) != geom.In {
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
	if best < 0.5*second || b.inLineWithOne(s, at, 2*best) {
		return []int{at}
	}
	if unique {
		return every
	}
	b.note(Note{Code: "text-not-tied", At: s.text.At, HasAt: true, Source: []Source{s.text.Source},
		Text: fmt.Sprintf("the text %q may belong to more than one part and was left out of account", clip(s.line))})
	return nil
}

// inLineWithOne tells whether a text stands over, under or beside a part, within
// its width or its height, while of the other parts within reach none has it
// so: a title under a part is that part's, though the corner of its neighbour
// is hardly further off.
func (b *builder) inLineWithOne(s statement, part int, reach float64) bool {
	of := false
	for _, in := range b.instances {
		box := in.box.Grow(s.text.HeightMM)
		inLine := s.at.X >= box.Min.X && s.at.X <= box.Max.X || s.at.Y >= box.Min.Y && s.at.Y <= box.Max.Y
		switch {
		case !inLine || boxDist(in.box, s.at) > reach:
		case in.part != part:
			return false
		default:
			of = true
		}
	}
	return of
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

// isForEach tells of a number of pieces that is meant for each part: "4 OFF EACH".
func isForEach(line string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(line), func(r rune) bool { return strings.ContainsRune(" \t,;:.=()", r) }) {
		switch w {
		case "each", "je", "jeweils", "chaque", "chacun", "chacune", "cada", "cadauna", "ciascuno", "ciascuna", "elk", "vardera", "każdy", "każda", "každý", "каждая", "каждого":
			return true
		}
	}
	return false
}

func boxDist(box geom.Box, p geom.Point) float64 {
	x := math.Max(math.Max(box.Min.X-p.X, p.X-box.Max.X), 0)
	y := math.Max(math.Max(box.Min.Y-p.Y, p.Y-box.Max.Y), 0)
	return math.Sqrt(float64(x*x) + float64(y*y))
}

// leader is an arrow with the place where its text stands.
type leader struct{ tip, end geom.Point }

// pointedAt gives the place that a text speaks of: where its leader's arrow
// points, tip is then true, else where it stands.
func (b *builder) pointedAt(t Text) (at geom.Point, tip bool) {
	h := t.HeightMM
	if !(h > 0) || len(b.leaders) == 0 {
		return t.At, t.Leader
	}
	// The box of the text, by letters of two thirds of their height, all round
	// larger by two heights: leaders end beside the first or the last letter.
	box := geom.Box{Min: t.At, Max: geom.Point{X: t.At.X + 2./3*h*float64(longestLine(t.Value)), Y: t.At.Y + h}}
	box.Min.Y -= 1.7 * h * float64(strings.Count(t.Value, "\n"))
	box = box.Grow(2 * h)
	best := math.Inf(1)
	at = t.At
	for _, l := range b.leaders {
		if d := boxDist(box, l.end); d == 0 && l.end.Dist(t.At) < best {
			best, at, tip = l.end.Dist(t.At), l.tip, true
		}
	}
	return at, tip
}

func longestLine(s string) int {
	n := 0
	for _, line := range strings.Split(s, "\n") {
		n = max(n, len([]rune(line)))
	}
	return n
}

// pointMM is how far an arrow's tip may be from the edge of the hole that it
// points at.
const pointMM = 0.5

// pointedHole doubts a call-out whose leader points at a round hole of another
// size.
func (b *builder) pointedHole(p *Part, s statement) {
	if !s.tip || !(s.holeMM > 0) {
		return
	}
	for i := range p.Features {
		f := &p.Features[i]
		if f.Kind != RoundHole && f.Kind != HoleWithSeat && f.Kind != TappedHole {
			continue
		}
		r, k := p.OnDrawing(f.At).Dist(s.at), p.Scale.shrink()
		if r > k*f.DiameterMM/2+pointMM && (f.SeatMM == 0 || math.Abs(r-k*f.SeatMM/2) > pointMM) {
			continue
		}
		if b.callMatches(f, s) || clearanceOf(p, s) > 0 {
			return
		}
		p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", Grave: true, At: p.OnDrawing(f.At), Source: []Source{s.text.Source},
			Text: fmt.Sprintf("the call-out %q points at a hole of %s mm", clip(s.line), shortNumber(f.DiameterMM))})
		return
	}
}
