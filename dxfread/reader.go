package dxfread

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// reader builds a Drawing from the pairs of a scanner.
type reader struct {
	s     scanner
	d     *Drawing
	coder textCoder
	notes notebook

	layers, types, blocks map[string]int32 // by folded name
	layerRaw, typeRaw     rawCache
	insertRaw             rawCache // into insertNames
	insertNames           []string
	layerRows, typeRows   []int32            // indices of the rows of the tables, in their order
	records               map[string]record  // block records by folded name
	layoutOf              map[uint64]string  // layout names by handle of the block record
	styles                map[string]dimVars // dimension styles by folded name
	layoutAt              map[string]int     // index in Drawing.Layouts by folded name

	paper    bool   // group 67 of the current entity
	tab      string // group 410 of the current entity
	spoiled  string // why the current entity cannot be used; "" if it can
	sealed   bool   // a subclass other than AcDbEntity has begun
	seen     map[string]bool
	entities bool // the section ENTITIES was read to its end

	store
	dimStyles []dimRef

	chunking chunking

	// Of a reader of a chunk: the reader of the file, and the numbers of the
	// first layer and linetype that are not in its tables.
	base                *reader
	layerBase, typeBase int
}

// record is what a BLOCK_RECORD tells about the block of its name.
type record struct {
	handle uint64
	units  int
}

// dimRef is a dimension whose factor comes from its style.
type dimRef struct {
	dim   *Dimension
	style string
	own   dimVars // its overrides
}

// rawCache finds the index of a name that was met before by its bytes, without
// decoding it again; most entities use one of a few layers.
type rawCache struct {
	recent [16]rawName // at a number made of length and last byte
	all    map[string]int32
	base   map[string]int32 // of a chunk: what was found before it
}

type rawName struct {
	raw   []byte
	index int32
}

// find gives the index of a name, which resolve finds where it is new.
func (c *rawCache) find(raw []byte, resolve func([]byte) int32) int32 {
	slot := &c.recent[0]
	if n := len(raw); n > 0 {
		slot = &c.recent[(n+int(raw[n-1]))%len(c.recent)]
	}
	if slot.raw != nil && bytes.Equal(raw, slot.raw) {
		return slot.index
	}
	i, ok := c.all[string(raw)]
	if !ok {
		i, ok = c.base[string(raw)]
	}
	if !ok {
		i = resolve(raw)
		if c.all == nil {
			c.all = map[string]int32{}
		}
		c.all[string(raw)] = i
	}
	*slot = rawName{raw, i}
	return i
}

func newReader(s scanner, d *Drawing) *reader {
	r := &reader{s: s, d: d,
		layers: map[string]int32{}, types: map[string]int32{}, blocks: map[string]int32{},
		records: map[string]record{}, layoutOf: map[uint64]string{}, styles: map[string]dimVars{},
		layoutAt: map[string]int{}, seen: map[string]bool{}}
	d.Binary = s.form != formASCII
	r.coder, _ = chooseText("", "", bytes.HasPrefix(s.data, []byte("\xef\xbb\xbf")))
	return r
}

// fold makes names comparable: DXF does not tell upper from lower case.
func fold(name string) string { return strings.ToUpper(name) }

// file reads all sections.
func (r *reader) file() error {
	first := true
	inside := false // the pair at hand is already a section's start
	for inside || r.s.next() {
		inside = false
		if r.s.code != 0 {
			if first {
				return r.notDXF()
			}
			r.note("stray-pair", "a pair between sections was passed over")
			continue
		}
		switch name := r.token(); {
		case name == "EOF":
			return r.atEOF()
		case name == "SECTION":
			first = false
			inside = r.section()
		case first:
			return r.notDXF()
		case name == "ENDSEC":
			r.note("stray-pair", "ENDSEC without a section")
		default:
			r.note("stray-pair", "a pair between sections was passed over")
		}
	}
	if r.s.err != nil {
		if _, ok := r.s.err.(*SyntaxError); ok && first {
			return r.notDXF()
		}
		return r.s.err
	}
	if !r.entities {
		if first {
			return r.notDXF()
		}
		return r.truncated()
	}
	r.note("no-eof", "the file has no EOF mark")
	return nil
}

// truncated tells that the data ended in the middle of something.
func (r *reader) truncated() error {
	if r.s.err == nil {
		r.s.at = r.s.line
		if r.s.form != formASCII {
			r.s.at = int64(r.s.pos)
		}
		r.s.fail(ErrTruncated)
	}
	return r.s.err
}

// notDXF tells that the file does not even begin like one.
func (r *reader) notDXF() error {
	at := max(r.s.at, 1)
	return &SyntaxError{Line: at, Binary: r.s.form != formASCII,
		Err: fmt.Errorf("%w: it does not begin with a section", ErrNotDXF)}
}

// atEOF looks at what stands behind the EOF mark.
func (r *reader) atEOF() error {
	if len(bytes.Trim(r.s.data[r.s.pos:], " \t\r\n\x00\x1a")) > 0 {
		r.noteAt("data-past-eof", "data behind the EOF mark was not read", r.s.at)
	}
	if !r.seen["ENTITIES"] {
		r.note("no-entities", "the file has no section ENTITIES")
	}
	return nil
}

// section reads the section whose start is at hand. It returns true if the
// next section began before this one had ended.
func (r *reader) section() bool {
	if !r.s.next() {
		r.truncatedIfEnded()
		return false
	}
	if r.s.code != 2 {
		r.note("section-name", "a section without a name was passed over")
		return r.s.code == 0 && r.skipSection()
	}
	name := strings.ToUpper(r.token())
	if r.seen[name] {
		r.note("section-repeated", "the section "+quote(name)+" occurs more than once")
	}
	r.seen[name] = true
	var open bool
	switch name {
	case "HEADER":
		open = r.header()
	case "TABLES":
		open = r.tables()
	case "BLOCKS":
		open = r.blockSection()
	case "ENTITIES":
		open = r.entitySection()
		r.entities = r.entities || r.s.err == nil
	case "OBJECTS":
		open = r.objects()
	default:
		open = r.skip()
	}
	if open {
		r.note("endsec-missing", "the section "+quote(name)+" has no end")
	}
	return open
}

func (r *reader) truncatedIfEnded() {
	if r.s.err == nil {
		r.truncated()
	}
}

// skip passes over pairs until the section ends.
func (r *reader) skip() bool {
	for r.s.next() {
		if r.s.code == 0 {
			if done, open := r.ends(); done {
				return open
			}
		}
	}
	r.truncatedIfEnded()
	return false
}

// skipSection is skip for a section whose first pair is at hand.
func (r *reader) skipSection() bool {
	if done, open := r.ends(); done {
		return open
	}
	return r.skip()
}

// ends tells whether the pair at hand, of code 0, ends a section, and whether
// the section was left open: the next one began, or the file ended, before it.
func (r *reader) ends() (done, open bool) {
	switch string(bytes.TrimSpace(r.s.val())) {
	case "ENDSEC":
		return true, false
	case "SECTION":
		return true, true
	case "EOF":
		return true, true
	}
	return false, false
}

// note notes something at the pair at hand.
func (r *reader) note(code, text string) { r.noteAt(code, text, r.s.at) }

func (r *reader) noteAt(code, text string, line int64) { r.notes.add(code, text, line, 0) }

// token is the value at hand as a keyword.
func (r *reader) token() string { return string(bytes.TrimSpace(r.s.val())) }

// str is the value at hand as text, with letters resolved.
func (r *reader) str() string {
	if r.s.cls != classText {
		return ""
	}
	return plainName(r.coder.text(r.s.val()))
}

// tooFar bounds coordinates and sizes: larger ones are no drawing, and their
// squares and products must stay finite.
const tooFar = 1e18

// float is the number at hand. Text that is no number ends the reading there;
// not-a-number, infinity and absurd sizes spoil the current entity only.
func (r *reader) float() float64 {
	s := &r.s
	if s.cls != classFloat {
		return float64(r.int())
	}
	if !s.ok {
		s.fail(fmt.Errorf("%w: %s", errNumber, quote(string(s.val()))))
		s.pos = len(s.data)
		return 0
	}
	if v := s.num; v > -tooFar && v < tooFar {
		return v
	}
	if r.spoiled == "" {
		r.spoiled = "a number is infinite, not a number or beyond 1e18"
	}
	return 0
}

// int is the whole number at hand.
func (r *reader) int() int {
	s := &r.s
	switch s.cls {
	case classInt16, classInt32, classInt64, classBool:
	default:
		return 0
	}
	if !s.ok {
		s.fail(fmt.Errorf("%w: %s", errNumber, quote(string(s.val()))))
		s.pos = len(s.data)
		return 0
	}
	return int(min(max(s.whol, math.MinInt32), math.MaxInt32))
}

// handle is the value at hand as a handle; 0 with a note if it is none.
func (r *reader) handle() uint64 {
	t := bytes.TrimSpace(r.s.val())
	h := uint64(0)
	for _, c := range t {
		switch {
		case c >= '0' && c <= '9':
			c -= '0'
		case c >= 'A' && c <= 'F':
			c -= 'A' - 10
		case c >= 'a' && c <= 'f':
			c -= 'a' - 10
		default:
			r.note("handle-bad", "a handle is not a hexadecimal number")
			return 0
		}
		h = h<<4 | uint64(c)
	}
	if len(t) > 16 {
		r.note("handle-bad", "a handle has more than 16 digits")
		return 0
	}
	return h
}

// header reads the variables.
func (r *reader) header() bool {
	h := &r.d.Header
	name := ""
	var vec *[3]float64
	for r.s.next() {
		switch r.s.code {
		case 0:
			if done, open := r.ends(); done {
				r.chooseText()
				return open
			}
			continue
		case 9:
			name, vec = strings.ToUpper(r.token()), nil
			switch name {
			case "$EXTMIN":
				h.ExtMin = &[3]float64{}
				vec = h.ExtMin
			case "$EXTMAX":
				h.ExtMax = &[3]float64{}
				vec = h.ExtMax
			}
			continue
		}
		switch name {
		case "$ACADVER":
			if r.s.code == 1 {
				r.d.Version = r.token()
			}
		case "$DWGCODEPAGE":
			if r.s.cls == classText {
				h.CodePage = r.token()
			}
		case "$INSUNITS":
			h.InsUnits = r.headerInt()
		case "$MEASUREMENT":
			h.Measurement = r.headerInt()
		case "$LUNITS":
			h.LUnits = r.headerInt()
		case "$DIMSCALE":
			h.DimScale = r.headerFloat()
		case "$DIMLFAC":
			h.LinearFactor = r.headerFloat()
		case "$EXTMIN", "$EXTMAX":
			if i := r.s.code/10 - 1; i >= 0 && i < 3 && r.s.code%10 == 0 {
				if v := r.headerFloat(); v != nil {
					vec[i] = *v
				} else if name == "$EXTMIN" {
					h.ExtMin, vec = nil, &[3]float64{}
				} else {
					h.ExtMax, vec = nil, &[3]float64{}
				}
			}
		}
	}
	r.chooseText()
	r.truncatedIfEnded()
	return false
}

// headerInt and headerFloat take a header value, nil with a note where it is
// none: a bad variable is no reason to give up the drawing.
func (r *reader) headerInt() *int {
	s := &r.s
	if s.cls == classFloat && s.ok && s.num == math.Trunc(s.num) && math.Abs(s.num) < 1e6 {
		v := int(s.num)
		return &v
	}
	if s.cls < classInt16 || s.cls > classBool || !s.ok {
		r.note("header-bad", "a header variable has no usable value")
		return nil
	}
	v := r.int()
	return &v
}

func (r *reader) headerFloat() *float64 {
	s := &r.s
	if s.cls != classFloat || !s.ok || math.IsNaN(s.num) || math.IsInf(s.num, 0) {
		r.note("header-bad", "a header variable has no usable value")
		return nil
	}
	v := s.num
	return &v
}

// chooseText settles the encoding once the header is known.
func (r *reader) chooseText() {
	bom := bytes.HasPrefix(r.s.data, []byte("\xef\xbb\xbf"))
	known := true
	r.insertRaw = rawCache{} // the same bytes may now be another name
	r.coder, known = chooseText(r.d.Version, r.d.Header.CodePage, bom)
	if !known {
		r.note("code-page-unknown", "the code page "+quote(r.d.Header.CodePage)+" is not known; windows-1252 is assumed")
	}
}

// finish completes the drawing after the last pair, or after an error.
func (r *reader) finish() {
	d := r.d
	for _, ref := range r.dimStyles {
		ref.own.over(r.styles[fold(ref.style)]).apply(ref.dim)
	}
	r.placeLayouts()
	r.orderTables()
	if r.coder.wrong {
		r.noteAt("text-encoding", "some text is not valid in "+r.coder.page.name+"; it is read as windows-1252", 0)
	}
	if r.coder.other {
		r.noteAt("text-encoding", "some text is UTF-8 although the file says "+r.coder.page.name+"; it is read as UTF-8", 0)
	}
	d.Encoding = r.coder.page.name
	d.Notes = r.notes.notes
}

// whole gives a number for a message.
func whole(n int) string { return strconv.Itoa(n) }
