package render

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
)

// fontName is one of the embedded fonts.
type fontName byte

const (
	fontRegular fontName = iota
	fontBold
	fontMono
)

// faceKey names a font at a size.
type faceKey struct {
	name fontName
	size float64
}

// ruler measures text. It belongs to one scene or one PNG; faces are not safe
// for two goroutines, so nothing of it is shared.
type ruler struct {
	u     float64 // pixels of the picture for one pixel at 1600 px of width
	fonts [3]*opentype.Font
	faces map[faceKey]font.Face
	has   map[rune]bool
	buf   sfnt.Buffer
}

func newRuler(u float64) *ruler {
	r := &ruler{u: u, faces: map[faceKey]font.Face{}, has: map[rune]bool{}}
	for i, data := range [][]byte{goregular.TTF, gobold.TTF, gomono.TTF} {
		f, err := opentype.Parse(data)
		if err != nil {
			panic("render: an embedded font is broken: " + err.Error())
		}
		r.fonts[i] = f
	}
	return r
}

// face gives the face of a font at so many pixels.
func (r *ruler) face(name fontName, size float64) font.Face {
	k := faceKey{name, size * r.u}
	if f := r.faces[k]; f != nil {
		return f
	}
	// At 72 dots an inch a point is a pixel.
	f, err := opentype.NewFace(r.fonts[name], &opentype.FaceOptions{Size: k.size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic("render: an embedded font has no face: " + err.Error())
	}
	r.faces[k] = f
	return f
}

func (r *ruler) styleFace(style string) font.Face {
	p := penOf(style)
	return r.face(p.font, p.size)
}

// width is the width of a text in pixels, rounded up to a tenth so that its box
// never cuts it.
func (r *ruler) width(s, style string) float64 {
	w := font.MeasureString(r.styleFace(style), s)
	return float64((int(w)*10+63)/64)/10 + 0.2
}

// lineHeight is the distance of two lines of text.
func (r *ruler) lineHeight(style string) float64 { return penOf(style).size * 1.25 * r.u }

// clean makes a text drawable: signs that the font lacks but that have an equal
// are replaced by it, control characters by a space, everything else that has
// no glyph by its code in brackets, so that nothing vanishes.
func (r *ruler) clean(s string) string {
	var b strings.Builder
	for _, c := range s {
		switch c {
		case '⌀', '∅', '⊘', 'ø':
			c = 'Ø'
		case '⚠':
			b.WriteString("(!)")
			continue
		case '\u2009', '\u202f', '\u2007', '\u00a0', '\t', '\n', '\r':
			c = ' '
		case '\u2212', '\u2010', '\u2011':
			c = '-'
		}
		switch {
		case c == utf8.RuneError:
			b.WriteString("[?]")
		case unicode.IsControl(c) || unicode.Is(unicode.Cf, c):
			fmt.Fprintf(&b, "[%02X]", c)
		case c == ' ' || r.hasGlyph(c):
			b.WriteRune(c)
		default:
			fmt.Fprintf(&b, "[%04X]", c)
		}
	}
	return b.String()
}

// hasGlyph tells whether all fonts in use draw a character.
func (r *ruler) hasGlyph(c rune) bool {
	if c > ' ' && c < 0x7f {
		return true
	}
	if has, ok := r.has[c]; ok {
		return has
	}
	has := true
	for _, f := range r.fonts {
		if i, err := f.GlyphIndex(&r.buf, c); err != nil || i == 0 {
			has = false
		}
	}
	r.has[c] = has
	return has
}

// wrap cleans a text and breaks it into lines of at most width pixels; a word
// that is wider is cut. With most > 0 the rest is cut off with an ellipsis.
func (r *ruler) wrap(s, style string, width float64, most int) []string {
	var out []string
	line := ""
	for _, word := range glue(strings.Fields(r.clean(s))) {
		try := word
		if line != "" {
			try = line + " " + word
		}
		if r.width(try, style) <= width {
			line = try
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		line = word
		if number, unit, ok := strings.Cut(word, " "); ok && r.width(word, style) > width {
			out = append(out, number)
			line = unit
		}
		for r.width(line, style) > width {
			n := r.cut(line, style, width)
			out = append(out, line[:n])
			line = line[n:]
		}
	}
	if line != "" || len(out) == 0 {
		out = append(out, line)
	}
	if most > 0 && len(out) > most {
		out = out[:most:most]
		out[most-1] = r.shorten(out[most-1]+" ...", style, width)
	}
	return out
}

// cut is how many bytes of s fit into width, at least one character.
func (r *ruler) cut(s, style string, width float64) int {
	n := 0
	for i, c := range s {
		end := i + utf8.RuneLen(c)
		if n > 0 && r.width(s[:end], style) > width {
			break
		}
		n = end
	}
	return n
}

// shorten cuts the middle out of a clean text until it is no wider than width.
func (r *ruler) shorten(s, style string, width float64) string {
	if r.width(s, style) <= width {
		return s
	}
	c := []rune(strings.TrimSuffix(s, " ..."))
	if strings.HasSuffix(s, " ...") {
		for len(c) > 0 && r.width(string(c)+" ...", style) > width {
			c = c[:len(c)-1]
		}
		return strings.TrimSpace(string(c)) + " ..."
	}
	for n := len(c) - 1; n > 1; n-- {
		head := (n + 1) / 2
		t := string(c[:head]) + "..." + string(c[len(c)-(n-head):])
		if r.width(t, style) <= width {
			return t
		}
	}
	return string(c[:1])
}
