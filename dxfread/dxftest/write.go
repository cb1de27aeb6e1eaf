package dxftest

import (
	"encoding/binary"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"
)

// Form is a version and storage form of DXF.
type Form int

// The forms that a Builder writes.
const (
	ASCII2007  Form = iota // AC1021, UTF-8, LF
	ASCIIR12               // AC1009, POLYLINE instead of LWPOLYLINE, no handles
	ASCIICRLF              // AC1021 with CR LF
	ASCIICR                // AC1021 with bare CR
	Binary2007             // group codes of two bytes
	BinaryR12              // group codes of one byte
)

func (f Form) isR12() bool { return f == ASCIIR12 || f == BinaryR12 }

// Forms lists all forms, for tests that must hold in each.
func Forms() []Form {
	return []Form{ASCII2007, ASCIIR12, ASCIICRLF, ASCIICR, Binary2007, BinaryR12}
}

// String names the form.
func (f Form) String() string {
	return [...]string{"ascii2007", "asciiR12", "asciiCRLF", "asciiCR", "binary2007", "binaryR12"}[f]
}

// Bytes writes the drawing as ASCII of 2007. The same calls give the same
// bytes. It writes group codes itself, because the library that ByLibrary uses
// knows neither blocks nor inserts nor the other forms.
func (b *Builder) Bytes() []byte { return b.As(ASCII2007) }

// As writes the drawing in a form.
func (b *Builder) As(f Form) []byte {
	w := &writer{r12: f.isR12(), handle: 0x100}
	w.drawing(b)
	return Encode(f, w.pairs)
}

// Encode stores pairs in a form; use it to build files that no drawing program
// would write.
func Encode(f Form, pairs []Pair) []byte {
	var out []byte
	switch f {
	case Binary2007, BinaryR12:
		out = append(out, "AutoCAD Binary DXF\r\n\x1a\x00"...)
		for _, p := range pairs {
			if f == Binary2007 {
				out = binary.LittleEndian.AppendUint16(out, uint16(p.Code))
			} else if p.Code < 255 {
				out = append(out, byte(p.Code))
			} else {
				out = binary.LittleEndian.AppendUint16(append(out, 255), uint16(p.Code))
			}
			out = appendValue(out, p)
		}
		return out
	}
	end := "\n"
	switch f {
	case ASCIICRLF:
		end = "\r\n"
	case ASCIICR:
		end = "\r"
	}
	for _, p := range pairs {
		out = append(out, fmt.Sprintf("%3d%s", p.Code, end)...)
		switch v := p.Value.(type) {
		case string:
			out = append(out, v...)
		case int:
			out = strconv.AppendInt(out, int64(v), 10)
		case float64:
			out = append(out, number(v)...)
		default:
			panic(fmt.Sprintf("dxftest: group %d has a %T", p.Code, p.Value))
		}
		out = append(out, end...)
	}
	return out
}

// number gives the shortest text that reads back as the same number.
func number(v float64) string {
	t := strconv.FormatFloat(v, 'f', -1, 64)
	if len(t) > 25 {
		t = strconv.FormatFloat(v, 'E', -1, 64)
	}
	if !strings.ContainsAny(t, ".EN") {
		t += ".0"
	}
	return t
}

// appendValue stores a value as the binary form wants it for its code: the
// sizes are those of the DXF reference ("Group Code Value Types"), written
// down here a second time on purpose.
func appendValue(out []byte, p Pair) []byte {
	c := p.Code
	in := func(from, to int) bool { return c >= from && c <= to }
	whole := func() int64 {
		switch v := p.Value.(type) {
		case int:
			return int64(v)
		case float64:
			return int64(v)
		}
		panic(fmt.Sprintf("dxftest: group %d wants a whole number, not %v", c, p.Value))
	}
	switch {
	case in(10, 59), in(110, 149), in(210, 239), in(460, 469), in(1010, 1059):
		v, ok := p.Value.(float64)
		if !ok {
			v = float64(whole())
		}
		return binary.LittleEndian.AppendUint64(out, math.Float64bits(v))
	case in(60, 79), in(170, 179), in(270, 289), in(370, 389), in(400, 409), in(1060, 1070):
		return binary.LittleEndian.AppendUint16(out, uint16(whole()))
	case in(90, 99), in(420, 429), in(440, 459), c == 1071:
		return binary.LittleEndian.AppendUint32(out, uint32(whole()))
	case in(160, 169):
		return binary.LittleEndian.AppendUint64(out, uint64(whole()))
	case in(290, 299):
		return append(out, byte(whole()))
	case in(310, 319), c == 1004:
		v := p.Value.(string)
		return append(append(out, byte(len(v))), v...)
	}
	v, ok := p.Value.(string)
	if !ok {
		panic(fmt.Sprintf("dxftest: group %d wants text, not %v", c, p.Value))
	}
	return append(append(out, v...), 0)
}

// writer turns a Builder into pairs.
type writer struct {
	pairs  []Pair
	r12    bool
	handle int
}

// put adds pairs. R12 knows no UTF-8: other letters than ASCII become \U+XXXX.
func (w *writer) put(pairs ...Pair) {
	for _, p := range pairs {
		if t, ok := p.Value.(string); ok && w.r12 {
			p.Value = escapeLetters(t)
		}
		w.pairs = append(w.pairs, p)
	}
}

func escapeLetters(t string) string {
	var b strings.Builder
	for _, r := range t {
		if r < 0x80 {
			b.WriteRune(r)
			continue
		}
		for _, u := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&b, `\U+%04X`, u)
		}
	}
	return b.String()
}

// newer puts pairs that R12 does not know.
func (w *writer) newer(pairs ...Pair) {
	if !w.r12 {
		w.put(pairs...)
	}
}

func (w *writer) nextHandle() string {
	w.handle++
	return strconv.FormatInt(int64(w.handle), 16)
}

func (w *writer) drawing(b *Builder) {
	version := "AC1021"
	if w.r12 {
		version = "AC1009"
	}
	w.put(Pair{0, "SECTION"}, Pair{2, "HEADER"}, Pair{9, "$ACADVER"}, Pair{1, version})
	if w.r12 {
		w.put(Pair{9, "$DWGCODEPAGE"}, Pair{3, "ANSI_1252"})
	}
	if b.unit != NoUnit {
		w.put(Pair{9, "$INSUNITS"}, Pair{70, int(b.unit)})
	}
	w.put(b.header...)
	w.put(Pair{0, "ENDSEC"}, Pair{0, "SECTION"}, Pair{2, "TABLES"})
	w.tables(b)
	w.put(Pair{0, "ENDSEC"}, Pair{0, "SECTION"}, Pair{2, "BLOCKS"})
	if !w.r12 {
		w.block(&blockDef{name: "*Model_Space"}, false)
		w.block(&blockDef{name: "*Paper_Space"}, true)
	}
	for _, def := range b.blocks {
		w.block(def, false)
	}
	w.put(Pair{0, "ENDSEC"}, Pair{0, "SECTION"}, Pair{2, "ENTITIES"})
	for i := range b.model {
		w.shape(&b.model[i], false)
	}
	for i := range b.paper {
		w.shape(&b.paper[i], true)
	}
	w.put(Pair{0, "ENDSEC"})
	w.newer(Pair{0, "SECTION"}, Pair{2, "OBJECTS"}, Pair{0, "DICTIONARY"}, Pair{5, "C"}, Pair{100, "AcDbDictionary"}, Pair{0, "ENDSEC"})
	w.put(Pair{0, "EOF"})
}

func (w *writer) tables(b *Builder) {
	table := func(name string, rows int, body func()) {
		w.put(Pair{0, "TABLE"}, Pair{2, name})
		w.newer(Pair{5, w.nextHandle()}, Pair{100, "AcDbSymbolTable"})
		w.put(Pair{70, rows})
		body()
		w.put(Pair{0, "ENDTAB"})
	}
	row := func(kind, subclass, name string, flags int) {
		w.put(Pair{0, kind})
		w.newer(Pair{5, w.nextHandle()}, Pair{100, "AcDbSymbolTableRecord"}, Pair{100, subclass})
		w.put(Pair{2, name}, Pair{70, flags})
	}
	types := append([]typeRow{{"CONTINUOUS", nil}}, b.types...)
	table("LTYPE", len(types), func() {
		for _, t := range types {
			row("LTYPE", "AcDbLinetypeTableRecord", t.name, 0)
			sum := 0.0
			for _, d := range t.dashes {
				sum += math.Abs(d)
			}
			w.put(Pair{3, ""}, Pair{72, 65}, Pair{73, len(t.dashes)}, Pair{40, sum})
			for _, d := range t.dashes {
				w.put(Pair{49, d})
				w.newer(Pair{74, 0})
			}
		}
	})
	table("LAYER", len(b.layers), func() {
		for _, l := range b.layers {
			flags, colour, linetype := 0, l.opt.Colour, l.opt.Linetype
			if l.opt.Frozen {
				flags |= 1
			}
			if l.opt.Locked {
				flags |= 4
			}
			if colour == 0 {
				colour = 7
			}
			if l.opt.Off {
				colour = -colour
			}
			if linetype == "" {
				linetype = "CONTINUOUS"
			}
			row("LAYER", "AcDbLayerTableRecord", l.name, flags)
			w.put(Pair{62, colour}, Pair{6, linetype})
			if l.opt.NoPlot {
				w.newer(Pair{290, 0})
			}
		}
	})
	if w.r12 {
		return
	}
	table("BLOCK_RECORD", len(b.blocks)+2, func() {
		for _, name := range []string{"*Model_Space", "*Paper_Space"} {
			row("BLOCK_RECORD", "AcDbBlockTableRecord", name, 0)
		}
		for _, def := range b.blocks {
			row("BLOCK_RECORD", "AcDbBlockTableRecord", def.name, int(def.units))
		}
	})
}

func (w *writer) block(def *blockDef, paper bool) {
	w.put(Pair{0, "BLOCK"})
	w.newer(Pair{5, w.nextHandle()}, Pair{100, "AcDbEntity"})
	if paper {
		w.newer(Pair{67, 1})
	}
	w.put(Pair{8, "0"})
	w.newer(Pair{100, "AcDbBlockBegin"})
	w.put(Pair{2, def.name}, Pair{70, 0}, Pair{10, def.bx}, Pair{20, def.by}, Pair{30, 0.0}, Pair{3, def.name}, Pair{1, ""})
	for i := range def.shapes {
		w.shape(&def.shapes[i], false)
	}
	w.put(Pair{0, "ENDBLK"})
	w.newer(Pair{5, w.nextHandle()}, Pair{100, "AcDbEntity"})
	w.put(Pair{8, "0"})
	w.newer(Pair{100, "AcDbBlockEnd"})
}
