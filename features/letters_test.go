package features_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// fontData are the fonts that letters are drawn with in tests.
func fontData() map[string][]byte {
	return map[string][]byte{"regular": goregular.TTF, "bold": gobold.TTF, "mono": gomono.TTF, "italic": goitalic.TTF}
}

// writing draws text as the outlines of a font's glyphs.
type writing struct {
	font     string
	x, y     float64 // where the base line begins
	capMM    float64 // height of capitals
	angleDeg float64
	mirror   bool
	splines  bool // curves as splines, else as chords
	scale    float64
}

// draw adds the letters to a drawing and returns the number of contours.
func (w writing) draw(t testing.TB, b *dxftest.Builder, text string) int {
	t.Helper()
	f, err := sfnt.Parse(fontData()[w.font])
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	const ppem = 1000
	m, err := f.Metrics(&buf, fixed.I(ppem), font.HintingNone)
	if err != nil {
		t.Fatal(err)
	}
	k := w.capMM / (float64(m.CapHeight) / 64)
	s, c := math.Sincos(w.angleDeg * math.Pi / 180)
	scale := w.scale
	if scale == 0 {
		scale = 1
	}
	pen := 0.0
	at := func(p fixed.Point26_6) dxftest.V {
		x, y := k*(pen+float64(p.X)/64), -k*float64(p.Y)/64
		if w.mirror {
			x = -x
		}
		return dxftest.V{X: scale * (w.x + x*c - y*s), Y: scale * (w.y + x*s + y*c)}
	}
	contours := 0
	for _, r := range text {
		g, err := f.GlyphIndex(&buf, r)
		if err != nil || g == 0 {
			t.Fatalf("%s has no glyph for %q: %v", w.font, r, err)
		}
		segs, err := f.LoadGlyph(&buf, g, fixed.I(ppem), nil)
		if err != nil {
			t.Fatal(err)
		}
		var poly []dxftest.V
		flush := func() {
			if n := len(poly); n > 1 && math.Abs(poly[0].X-poly[n-1].X)+math.Abs(poly[0].Y-poly[n-1].Y) < 1e-9 {
				poly = poly[:n-1]
			}
			if len(poly) > 2 {
				b.Polyline(true, poly...)
				contours++
			}
			poly = nil
		}
		var last, start dxftest.V
		curved := false
		closeLoose := func() {
			if curved && (last.X != start.X || last.Y != start.Y) {
				b.Line(last.X, last.Y, start.X, start.Y)
			}
		}
		for _, sg := range segs {
			switch sg.Op {
			case sfnt.SegmentOpMoveTo:
				if w.splines {
					closeLoose()
					contours++
				} else {
					flush()
				}
				last, start, curved = at(sg.Args[0]), at(sg.Args[0]), true
				poly = append(poly, last)
			case sfnt.SegmentOpLineTo:
				p := at(sg.Args[0])
				if w.splines && (p.X != last.X || p.Y != last.Y) {
					b.Line(last.X, last.Y, p.X, p.Y)
				}
				last = p
				poly = append(poly, p)
			case sfnt.SegmentOpQuadTo:
				q, p := at(sg.Args[0]), at(sg.Args[1])
				if w.splines {
					b.Spline(2, false, []float64{0, 0, 0, 1, 1, 1}, []float64{last.X, last.Y, q.X, q.Y, p.X, p.Y}, nil)
				}
				for i := 1; i <= 6; i++ {
					u := float64(i) / 6
					poly = append(poly, dxftest.V{X: (1-u)*(1-u)*last.X + 2*u*(1-u)*q.X + u*u*p.X, Y: (1-u)*(1-u)*last.Y + 2*u*(1-u)*q.Y + u*u*p.Y})
				}
				last = p
			default:
				t.Fatalf("segment %v", sg.Op)
			}
		}
		if w.splines {
			closeLoose()
			poly = nil
		} else {
			flush()
		}
		adv, err := f.GlyphAdvance(&buf, g, fixed.I(ppem), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		pen += float64(adv) / 64
	}
	return contours
}

// lettersOn builds the plate of 200 x 140 mm with letters on it, and fails if
// they are not one mark for each text, or if anything else changed.
func lettersOn(t *testing.T, name string, marks int, draw func(b *dxftest.Builder)) {
	t.Helper()
	want := sizesOf(onePart(t, build(t, plate(dxftest.MM, 1))))
	b := plate(dxftest.MM, 1)
	draw(b)
	s := build(t, b)
	if len(s.Parts) != 1 {
		t.Errorf("%s: %s", name, describe(s))
		return
	}
	p := &s.Parts[0]
	got := kinds(p, features.Mark)
	var rest []string
	for _, l := range strings.Split(sizesOf(p), "\n") {
		if !strings.HasPrefix(l, "mark") {
			rest = append(rest, l)
		}
	}
	if len(got) != marks || strings.Join(rest, "\n") != want || len(p.Doubts) > 0 || len(s.Faults) > 0 || len(s.Loose) > 0 {
		t.Errorf("%s: %s", name, describe(s))
	}
}

// TestLettersOfFonts: words in four fonts, in capitals, small letters, digits
// and Cyrillic, level, turned, upside down and mirrored, as chords and as
// splines, are one mark.
func TestLettersOfFonts(t *testing.T) {
	words := []string{"PLATE 4", "AF-1021", "North bay", "ЛИСТ 12", "плита", "8080", "XVIII-3", "typography", "Q235B", "WMM 7"}
	for font := range fontData() {
		for i, word := range words {
			for _, angle := range []float64{0, 90, 180, 37, -64} {
				if testing.Short() && (i+int(angle))%3 != 0 {
					continue
				}
				for _, splines := range []bool{false, true} {
					s, c := math.Sincos(angle * math.Pi / 180)
					lettersOn(t, fmt.Sprintf("%s %q at %g splines %v", font, word, angle, splines), 1, func(b *dxftest.Builder) {
						writing{font: font, x: 100 - 22*c, y: 72 - 22*s, capMM: 5, angleDeg: angle, splines: splines}.draw(t, b, word)
					})
				}
			}
		}
	}
}

// strokeText draws text in a font of single strokes made by hand: each letter is 4
// wide and 6 high.
func strokeText(b *dxftest.Builder, x, y, height, angleDeg float64, text string) {
	k := height / 6
	s, c := math.Sincos(angleDeg * math.Pi / 180)
	at := func(px, py float64) dxftest.V {
		px, py = px*k, py*k
		return dxftest.V{X: x + px*c - py*s, Y: y + px*s + py*c}
	}
	font := map[rune][]string{
		'A': {"00 26 40", "12 32"}, 'B': {"00 06 36 45 44 33 03", "33 42 41 30 00"}, 'C': {"45 36 16 05 01 10 30 41"}, 'D': {"00 06 26 44 42 20 00"},
		'E': {"46 06 00 40", "03 33"}, 'F': {"46 06 00", "03 33"}, 'H': {"06 00", "46 40", "03 43"}, 'L': {"06 00 40"}, 'M': {"00 06 23 46 40"}, 'N': {"00 06 40 46"},
		'O': {"10 01 05 16 36 45 41 30 10"}, 'P': {"00 06 36 45 44 33 03"}, 'R': {"00 06 36 45 44 33 03", "23 40"}, 'S': {"45 36 16 05 04 13 33 42 41 30 10 01"}, 'T': {"06 46", "26 20"},
		'X': {"00 46", "06 40"}, '0': {"10 01 05 16 36 45 41 30 10"}, '1': {"15 26 20"}, '2': {"05 16 36 45 44 00 40"}, '3': {"05 16 36 45 44 33 42 41 30 10 01", "13 33"},
		'4': {"30 36 02 42"}, '5': {"46 06 03 33 42 41 30 10 01"}, '6': {"46 16 05 01 10 30 41 42 33 03"}, '7': {"06 46 10"}, '8': {"13 04 05 16 36 45 44 33 42 41 30 10 01 02 13"}, '9': {"10 30 41 45 36 16 05 04 13 43"}, '-': {"13 33"}, ' ': nil,
	}
	for i, r := range text {
		strokes, ok := font[r]
		if !ok {
			panic(string(r))
		}
		for _, chain := range strokes {
			var last dxftest.V
			for n, p := range strings.Fields(chain) {
				v := at(float64(6*i)+float64(p[0]-'0'), float64(p[1]-'0'))
				if n > 0 {
					b.Line(last.X, last.Y, v.X, v.Y)
				}
				last = v
			}
		}
	}
}

// TestLettersOfStrokes: letters of single lines are one mark, noughts among
// them too.
func TestLettersOfStrokes(t *testing.T) {
	for _, text := range []string{"PART 4", "M10X25", "AF-102", "100", "2000", "BOLT", "XBL", "7-1-4", "808 A", "ABCDEFHL", "MNOPRSTX", "0123456789"} {
		for _, angle := range []float64{0, 90, 180, 25, -71} {
			s, c := math.Sincos(angle * math.Pi / 180)
			lettersOn(t, fmt.Sprintf("%q at %g", text, angle), 1, func(b *dxftest.Builder) { strokeText(b, 100-20*c, 72-20*s, 5, angle, text) })
		}
	}
}

// TestLettersInPlaces: two lines of text are two marks; letters outside and in
// an opening are left out; each copy has its own.
func TestLettersInPlaces(t *testing.T) {
	lettersOn(t, "two lines", 2, func(b *dxftest.Builder) {
		writing{font: "regular", x: 70, y: 60, capMM: 6}.draw(t, b, "Alder Ford")
		writing{font: "regular", x: 70, y: 50, capMM: 6}.draw(t, b, "plate 12")
	})
	lettersOn(t, "stroke lines", 3, func(b *dxftest.Builder) {
		for i, l := range []string{"PART 4", "S355", "2 OF"} {
			if i == 2 {
				l = "2 OR 3"
			}
			strokeText(b, 70, 80-8*float64(i), 5, 0, strings.ReplaceAll(l, "S355", "S35 5"))
		}
	})
	lettersOn(t, "mirrored", 1, func(b *dxftest.Builder) {
		writing{font: "mono", x: 130, y: 60, capMM: 5, mirror: true}.draw(t, b, "Bridge 7")
	})
	lettersOn(t, "outside", 0, func(b *dxftest.Builder) {
		writing{font: "regular", x: 0, y: -30, capMM: 10}.draw(t, b, "Part list 12")
		strokeText(b, 0, -60, 5, 0, "SCALE 1")
	})
	// In a window.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Polyline(true, dxftest.Rect(50, 40, 100, 60)...)
	writing{font: "regular", x: 70, y: 60, capMM: 8}.draw(t, b, "scrap 8")
	s := build(t, b)
	p := onePart(t, s)
	clean(t, s)
	if len(p.Holes) != 1 || len(kinds(p, features.Mark)) != 0 || ignored(s, "letters") == 0 || !hasNote(s, "letters-left-out") {
		t.Errorf("%s", describe(s))
	}
	// Two equal plates with equal text, one of them turned about.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Polyline(true, dxftest.Rect(300, 0, 200, 140)...)
	writing{font: "bold", x: 20, y: 20, capMM: 8}.draw(t, b, "Deck B8")
	writing{font: "bold", x: 480, y: 120, capMM: 8, angleDeg: 180}.draw(t, b, "Deck B8")
	s = build(t, b)
	if p := onePart(t, s); p.Copies() != 2 || len(kinds(p, features.Mark)) != 1 {
		t.Errorf("%s", describe(s))
	}
	clean(t, s)
	// In inches.
	b = plate(dxftest.Inch, 1/25.4)
	writing{font: "regular", x: 70, y: 60, capMM: 6, scale: 1 / 25.4}.draw(t, b, "Alder Ford 8")
	s = build(t, b)
	if p := onePart(t, s); len(kinds(p, features.Mark)) != 1 || len(p.Holes) != 3 {
		t.Errorf("%s", describe(s))
	}
	clean(t, s)
}

// TestLettersNearTheirLimits: a quarter of the part, one and a half heights
// between letters, three of them.
func TestLettersNearTheirLimits(t *testing.T) {
	marks := func(draw func(b *dxftest.Builder)) int {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 400, 100)...)
		draw(b)
		s := build(t, b)
		return len(kinds(&s.Parts[0], features.Mark))
	}
	word := func(h float64, text string) func(b *dxftest.Builder) {
		return func(b *dxftest.Builder) { writing{font: "regular", x: 10, y: 30, capMM: h}.draw(t, b, text) }
	}
	if n := marks(word(24.6, "HEB")); n != 1 {
		t.Errorf("letters under a quarter of the part: %d marks", n)
	}
	if n := marks(word(25.6, "HEB")); n != 0 {
		t.Errorf("letters over a quarter of the part: %d marks", n)
	}
	if n := marks(word(20, "EB")); n != 0 {
		t.Errorf("two letters: %d marks", n)
	}
	apart := func(gap float64) func(b *dxftest.Builder) {
		return func(b *dxftest.Builder) {
			for i, r := range "ABE" {
				strokeText(b, 10+float64(i)*(8+gap), 30, 12, 0, string(r))
			}
		}
	}
	if n := marks(apart(17.8)); n != 1 {
		t.Errorf("gaps under 1.5 heights: %d marks", n)
	}
	if n := marks(apart(18.2)); n != 0 {
		t.Errorf("gaps over 1.5 heights: %d marks", n)
	}
}

// TestRowsOfOpenings: whatever stands in a row and has the shape of an opening
// stays one, equal figures of any shape too.
func TestRowsOfOpenings(t *testing.T) {
	v := func(xy ...float64) (out []dxftest.V) {
		for i := 0; i+1 < len(xy); i += 2 {
			out = append(out, dxftest.V{X: xy[i], Y: xy[i+1]})
		}
		return out
	}
	move := func(p []dxftest.V, dx, dy float64) []dxftest.V {
		out := append([]dxftest.V(nil), p...)
		for i := range out {
			out[i].X += dx
			out[i].Y += dy
		}
		return out
	}
	shapes := map[string][]dxftest.V{
		"slots":     dxftest.Slot(0, 0, 5, 12),
		"upright":   {{X: -2, Y: -4}, {X: 2, Y: -4, Bulge: 1}, {X: 2, Y: 4}, {X: -2, Y: 4, Bulge: 1}},
		"squares":   dxftest.Rect(-4, -4, 8, 8),
		"tees":      v(-4, 2, -4, 5, 4, 5, 4, 2, 1, 2, 1, -5, -1, -5, -1, 2),
		"ells":      v(-3, -5, 3, -5, 3, -3, -1, -3, -1, 5, -3, 5),
		"keyholes":  {{X: -1, Y: 5}, {X: -1, Y: -1.5, Bulge: 0}, {X: -2.5, Y: -3, Bulge: 1}, {X: 2.5, Y: -3}, {X: 1, Y: -1.5}, {X: 1, Y: 5}},
		"stars":     star(5, 5, 2),
		"hexagons":  star(3, 5, 5),
		"triangles": v(-4, -4, 4, -4, 0, 5),
		"crosses":   v(-1, -4, 1, -4, 1, -1, 4, -1, 4, 1, 1, 1, 1, 4, -1, 4, -1, 1, -4, 1, -4, -1, -1, -1),
	}
	for name, shape := range shapes {
		for _, n := range []int{3, 9} {
			b := dxftest.New(dxftest.MM)
			b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
			for i := range n {
				b.Polyline(true, move(shape, 20+float64(i)*16, 50)...)
			}
			s := build(t, b)
			if p := onePart(t, s); len(p.Holes) != n || len(kinds(p, features.Mark)) != 0 {
				t.Errorf("%d %s: %s", n, name, describe(s))
			}
			clean(t, s)
		}
	}
	// All shapes that a punch has beside each other, and a louvre of two sizes.
	for name, row := range map[string][][]dxftest.V{
		"punches": {dxftest.Slot(0, 0, 5, 12), dxftest.Rect(-4, -6, 8, 12), shapes["hexagons"], dxftest.Rect(-6, -6, 12, 12), shapes["upright"], shapes["triangles"]},
		"louvres": {dxftest.Slot(0, 0, 3, 30), dxftest.Slot(0, 0, 3, 24), dxftest.Slot(0, 0, 3, 30), dxftest.Slot(0, 0, 3, 24)},
		"panel":   {shapes["ells"], dxftest.Rect(-4, -5, 8, 10), dxftest.Rect(-3, -5, 6, 10), dxftest.Rect(-5, -5, 10, 10)},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
		for i, p := range row {
			b.Polyline(true, move(p, 20+float64(i)*14, 50)...)
		}
		s := build(t, b)
		if len(kinds(&s.Parts[0], features.Mark)) != 0 {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
	// A perforated plate with a word on it keeps every hole, the one that stands
	// in the line of text as well.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	for i := range 12 {
		for k := range 4 {
			b.Circle(10+float64(i)*10, 10+float64(k)*10, 3)
		}
	}
	b.Circle(52, 63, 3)
	writing{font: "bold", x: 60, y: 60, capMM: 6}.draw(t, b, "MESH 8")
	s := build(t, b)
	if p := onePart(t, s); len(p.Holes) != 49 || len(kinds(p, features.Mark)) != 1 {
		t.Errorf("%d holes\n%s", len(p.Holes), describe(s))
	}
}

// TestMaybeLetter: one or two letters alone stay openings, which is said, and
// doubted gravely where they have an eye.
func TestMaybeLetter(t *testing.T) {
	for text, doubted := range map[string]bool{"A": true, "B8": true, "S": false, "2": false} {
		b := plate(dxftest.MM, 1)
		writing{font: "bold", x: 90, y: 60, capMM: 12}.draw(t, b, text)
		s := build(t, b)
		p := onePart(t, s)
		if len(kinds(p, features.Mark)) != 0 || len(kinds(p, features.Cutout)) != len(text) || graveDoubt(p, "maybe-letter") != doubted || doubtOf(p, "maybe-letter") == nil {
			t.Errorf("%s: %s", text, describe(s))
		}
	}
}

// TestRowsOfSigns: angles and tees of two lines in a row are no text, nor is a
// row that runs over the edge of the part.
func TestRowsOfSigns(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	for i := range 7 {
		x := 20 + 15*float64(i)
		b.Line(x, 30, x, 38)
		if i < 4 {
			b.Line(x, 30, x+8, 30)
		} else {
			b.Line(x-4, 38, x+4, 38)
		}
	}
	s := build(t, b)
	if p := onePart(t, s); len(kinds(p, features.Mark)) != 0 || !graveDoubt(p, "reading-doubt") {
		t.Errorf("%s", describe(s))
	}
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	writing{font: "regular", x: 186, y: 30, capMM: 8}.draw(t, b, "EBR")
	s = build(t, b)
	for i := range s.Parts {
		if len(kinds(&s.Parts[i], features.Mark)) != 0 {
			t.Errorf("%s", describe(s))
		}
	}
}

// star is a star of n points, or a polygon of 2 n sides if both radii are equal.
func star(n int, out, in float64) (v []dxftest.V) {
	for i := range 2 * n {
		r := out
		if i%2 == 1 {
			r = in
		}
		s, c := math.Sincos(float64(i)*math.Pi/float64(n) + math.Pi/2)
		v = append(v, dxftest.V{X: r * c, Y: r * s})
	}
	return v
}

// TestSmallPartsInARow: small parts of one height beside a large one are parts,
// though they stand as letters do: by their holes, or by their size.
func TestSmallPartsInARow(t *testing.T) {
	for _, c := range []struct {
		height float64
		holes  bool
	}{{20, true}, {31, false}} {
		b := plate(dxftest.MM, 2)
		k := c.height / 20
		v := func(x float64, xy ...float64) {
			var p []dxftest.V
			for i := 0; i+1 < len(xy); i += 2 {
				p = append(p, dxftest.V{X: x + k*xy[i], Y: -60 + k*xy[i+1]})
			}
			b.Polyline(true, p...)
			if c.holes {
				b.Circle(x+k*3, -60+k*3, k*1.5)
			}
		}
		v(0, 0, 0, 12, 0, 12, 6, 6, 6, 6, 20, 0, 20)
		v(20*k, 0, 0, 6, 0, 6, 14, 14, 14, 14, 20, 0, 20)
		v(40*k, 0, 0, 14, 0, 14, 6, 6, 6, 6, 14, 14, 14, 14, 20, 0, 20)
		v(60*k, 0, 0, 16, 0, 16, 20, 10, 20, 10, 6, 6, 6, 6, 20, 0, 20)
		s := build(t, b)
		if len(s.Parts) != 5 || ignored(s, "letters") != 0 {
			t.Errorf("%+v: %s", c, describe(s))
		}
	}
	// Repeated signs of three lines are no word.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	for i := range 6 {
		x := 20 + 12*float64(i)
		b.Line(x, 30, x, 38).Line(x, 38, x+6, 38)
		if i > 0 {
			b.Line(x+6, 38, x+6, 30)
		}
	}
	s := build(t, b)
	if p := onePart(t, s); len(kinds(p, features.Mark)) != 0 || !graveDoubt(p, "reading-doubt") {
		t.Errorf("%s", describe(s))
	}
}
