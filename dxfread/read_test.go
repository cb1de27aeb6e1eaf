package dxfread_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"
	"time"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// pairs writes a file from "code value" items parted by "|".
func pairs(items string) []byte {
	var out strings.Builder
	for _, item := range strings.Split(items, "|") {
		code, value, _ := strings.Cut(item, " ")
		out.WriteString(code + "\n" + value + "\n")
	}
	return []byte(out.String())
}

// entities wraps entities into a file.
func entities(items string) []byte {
	return pairs("0 SECTION|2 ENTITIES|" + items + "|0 ENDSEC|0 EOF")
}

func decode(t *testing.T, data []byte) (*dxfread.Drawing, error) {
	t.Helper()
	d, err := dxfread.Decode(context.Background(), data, dxfread.Limits{})
	checkDrawing(t, d)
	return d, err
}

// read is decode where no error is expected.
func read(t *testing.T, data []byte) *dxfread.Drawing {
	t.Helper()
	d, err := decode(t, data)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func noteCount(d *dxfread.Drawing, code string) (n int) {
	for _, note := range d.Notes {
		if note.Code == code {
			n += note.Count
		}
	}
	return n
}

func TestNotDXF(t *testing.T) {
	for name, c := range map[string]struct {
		data string
		err  error
		part string
	}{
		"nothing":      {"", dxfread.ErrNotDXF, "empty"},
		"one byte":     {"0", dxfread.ErrNotDXF, ""},
		"one letter":   {"x", dxfread.ErrNotDXF, ""},
		"blanks":       {"  \n\n ", dxfread.ErrNotDXF, ""},
		"DWG":          {"AC1032\x00\x00\x00", dxfread.ErrDWG, "DWG"},
		"JPEG":         {"\xff\xd8\xff\xe0\x00\x10JFIF", dxfread.ErrNotDXF, "JPEG"},
		"PDF":          {"%PDF-1.7\n", dxfread.ErrNotDXF, "PDF"},
		"text":         {"Dear shop,\nplease find attached\n", dxfread.ErrNotDXF, ""},
		"numbers":      {"1\n2\n3\n4\n", dxfread.ErrNotDXF, ""},
		"random":       {"\x13\x9f\x00\x02\x88\x10\n\x03", dxfread.ErrNotDXF, ""},
		"magic alone":  {"AutoCAD Binary DXF\r\n\x1a\x00", dxfread.ErrNotDXF, ""},
		"no section":   {"0\nLINE\n8\n0\n0\nEOF\n", dxfread.ErrNotDXF, "section"},
		"UTF-16":       {"\xff\xfe0\x00\n\x00", dxfread.ErrNotDXF, "UTF-16"},
		"section only": {"0\nSECTION\n", dxfread.ErrTruncated, ""},
	} {
		d, err := decode(t, []byte(c.data))
		var syntax *dxfread.SyntaxError
		if !errors.Is(err, c.err) || !errors.As(err, &syntax) || !strings.Contains(err.Error(), c.part) {
			t.Errorf("%s: %v, want %v", name, err, c.err)
		}
		if len(d.Model) != 0 {
			t.Errorf("%s gave entities", name)
		}
	}
}

// TestTruncated cuts a file after every byte: what comes back is the beginning
// of the whole, and unless only the EOF mark is missing, an error with a place.
func TestTruncated(t *testing.T) {
	b := plate()
	for _, f := range []dxftest.Form{dxftest.ASCII2007, dxftest.ASCIIR12, dxftest.Binary2007, dxftest.BinaryR12} {
		data := b.As(f)
		whole := read(t, data)
		if len(whole.Notes) > 0 {
			t.Fatalf("%v: notes on a clean file: %+v", f, whole.Notes)
		}
		silent := 0
		for n := 1; n < len(data); n++ {
			d, err := dxfread.Decode(context.Background(), data[:n], dxfread.Limits{})
			var syntax *dxfread.SyntaxError
			if err != nil && (!errors.As(err, &syntax) || syntax.Line < 1) {
				t.Fatalf("%v cut at %d: %v", f, n, err)
			}
			if err == nil {
				silent++
				if len(d.Model) != len(whole.Model) {
					t.Fatalf("%v cut at %d: %d of %d entities and no error", f, n, len(d.Model), len(whole.Model))
				}
				if noteCount(d, "no-eof") == 0 && n < len(data)-2 {
					t.Fatalf("%v cut at %d: neither error nor note", f, n)
				}
			} else if n > 200 && !errors.Is(err, dxfread.ErrTruncated) && !errors.Is(err, dxfread.ErrNotDXF) {
				t.Fatalf("%v cut at %d: %v", f, n, err)
			}
			for i, e := range d.Model {
				if e.Name() != whole.Model[i].Name() || e.Base().Line != whole.Model[i].Base().Line {
					t.Fatalf("%v cut at %d: entity %d is %s of line %d", f, n, i, e.Name(), e.Base().Line)
				}
			}
		}
		if silent == 0 || silent > 20 {
			t.Errorf("%v: %d places to cut in silence", f, silent)
		}
	}
}

func plate() *dxftest.Builder {
	b := dxftest.New(dxftest.MM)
	b.Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	b.Circle(40, 100, 11).Arc(160, 30, 7.5, 350, 80.25).Line(1, 2, 3, 4)
	b.Block("PAIR", 0, 0, func(b *dxftest.Builder) { b.Circle(0, 0, 4) })
	b.Insert("PAIR", 50, 60, dxftest.Placing{Attributes: []dxftest.Attribute{{Tag: "NO", Value: "7", Height: 3}}})
	return b.Text(5, -20, 5, "PL 10")
}

func TestEnds(t *testing.T) {
	line := "0 LINE|8 0|10 1|20 2|11 3|21 4"
	for _, c := range []struct {
		name, data, note string
		err              bool
		model            int
	}{
		{"whole", "0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC|0 EOF", "", false, 1},
		{"no EOF", "0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC", "no-eof", false, 1},
		{"no ENDSEC", "0 SECTION|2 ENTITIES|" + line + "|0 EOF", "endsec-missing", false, 1},
		{"neither", "0 SECTION|2 ENTITIES|" + line, "", true, 0},
		{"neither, one more begun", "0 SECTION|2 ENTITIES|" + line + "|0 LINE", "", true, 1},
		{"next section begins", "0 SECTION|2 ENTITIES|" + line + "|0 SECTION|2 OBJECTS|0 ENDSEC|0 EOF", "endsec-missing", false, 1},
		{"past EOF", "0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC|0 EOF|0 LINE", "data-past-eof", false, 1},
		{"cut in OBJECTS", "0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC|0 SECTION|2 OBJECTS|0 DICTIONARY", "", true, 1},
		{"cut before ENTITIES", "0 SECTION|2 HEADER|9 $ACADVER|1 AC1009|0 ENDSEC", "", true, 0},
		{"no ENTITIES", "0 SECTION|2 HEADER|9 $ACADVER|1 AC1009|0 ENDSEC|0 EOF", "no-entities", false, 0},
		{"two ENTITIES", "0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC|0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC|0 EOF", "section-repeated", false, 2},
		{"only EOF", "0 EOF", "no-entities", false, 0},
		{"comments", "999 x|0 SECTION|999 y|2 ENTITIES|0 LINE|999 10|8 0|10 1|999 z|20 2|11 3|21 4|0 ENDSEC|0 EOF", "", false, 1},
		{"unknown section", "0 SECTION|2 ACDSDATA|70 2|0 X|10 1|0 ENDSEC|0 SECTION|2 ENTITIES|" + line + "|0 ENDSEC|0 EOF", "", false, 1},
	} {
		d, err := decode(t, pairs(c.data))
		if (err != nil) != c.err || c.err && !errors.Is(err, dxfread.ErrTruncated) {
			t.Errorf("%s: %v", c.name, err)
		}
		if len(d.Model) != c.model {
			t.Errorf("%s: %d entities, want %d", c.name, len(d.Model), c.model)
		}
		if c.note != "" && noteCount(d, c.note) != 1 || c.note == "" && len(d.Notes) > 0 {
			t.Errorf("%s: notes %+v, want %q", c.name, d.Notes, c.note)
		}
	}
}

// TestBadNumbers: text that is no number ends the reading at its place, with
// what came before; a number that is none in the sense of IEEE 754 spoils its
// entity only.
func TestBadNumbers(t *testing.T) {
	good := "0 LINE|8 0|10 1|20 2|11 3|21 4"
	d, err := decode(t, entities(good+"|0 CIRCLE|8 0|10 1|20 x7|40 5|"+good))
	var syntax *dxfread.SyntaxError
	if !errors.As(err, &syntax) || syntax.Line != 23 || !strings.Contains(err.Error(), `"x7"`) || len(d.Model) != 1 {
		t.Errorf("error %v with %d entities", err, len(d.Model))
	}
	for _, bad := range []string{"nan", "NaN", "-nan(ind)", "inf", "-Infinity", "1.#QNAN", "-1.#IND00", "1.#INF", "1e400", "1e18", "-2e30"} {
		for _, code := range []string{"10", "20", "30", "40"} {
			d := read(t, entities(good+"|0 CIRCLE|5 AB|8 CUT|10 1|20 2|40 5|"+code+" "+bad+"|"+good))
			o, ok := d.Model[1].(*dxfread.Other)
			if len(d.Model) != 3 || !ok || o.Kind != "CIRCLE" || o.Handle != 0xab || d.Layers[o.Layer].Name != "CUT" || noteCount(d, "entity-skipped") != 1 {
				t.Errorf("%s in group %s: %+v, %+v", bad, code, d.Model[1], d.Notes)
			}
		}
	}
	for items, kind := range map[string]string{
		"0 CIRCLE|8 0|10 1|20 2|40 0":                    "CIRCLE",
		"0 CIRCLE|8 0|10 1|20 2|40 -3":                   "CIRCLE",
		"0 CIRCLE|8 0|10 1|40 2":                         "CIRCLE",
		"0 LINE|8 0|10 1|20 2|11 3":                      "LINE",
		"0 LINE|8 0|10 1|20 2":                           "LINE",
		"0 ARC|8 0|10 1|20 2|40 5|50 0":                  "ARC",
		"0 LWPOLYLINE|8 0|90 3|10 0|20 0|10 1|10 2|20 2": "LWPOLYLINE",
		"0 POLYLINE|8 0|66 1|0 VERTEX|10 1|0 VERTEX|10 1|20 2|0 VERTEX|10 1|20 3|0 SEQEND": "POLYLINE",
		"0 INSERT|8 0|2 A|10 1":                                                "INSERT",
		"0 CIRCLE|8 0|10 1|20 2":                                               "CIRCLE",
		"0 ARC|8 0|10 1|20 2|40 0|50 0|51 90":                                  "ARC",
		"0 ELLIPSE|8 0|10 1|20 2|11 0|21 0|40 1":                               "ELLIPSE",
		"0 ELLIPSE|8 0|10 1|20 2|11 4|21 0|40 0":                               "ELLIPSE",
		"0 LWPOLYLINE|8 0|90 1|10 0|20 0":                                      "LWPOLYLINE",
		"0 LWPOLYLINE|8 0|90 2000000000":                                       "LWPOLYLINE",
		"0 POLYLINE|8 0|66 1|0 SEQEND":                                         "POLYLINE",
		"0 POLYLINE|8 0|66 1|0 VERTEX|10 1|20 nan|0 VERTEX|10 1|20 2|0 SEQEND": "POLYLINE",
		"0 POLYLINE|8 0|66 1|70 64|0 VERTEX|70 192|10 1|20 2|0 SEQEND":         "POLYLINE",
		"0 SPLINE|8 0|70 8|71 3|72 2000000000|73 2000000000":                   "SPLINE",
		"0 3DSOLID|8 0|1 abc":                                                  "3DSOLID",
		"0 REGION|8 0|10 nan":                                                  "REGION",
		"0 XLINE|8 0|10 1|20 2":                                                "XLINE",
		"0 WIDGET|8 0|10 1|20 2|1001 ACAD|1010 5":                              "WIDGET",
	} {
		d := read(t, entities(items))
		if len(d.Model) != 1 || noteCount(d, "entity-skipped") != 1 {
			t.Errorf("%s: %+v %+v", items, d.Model, d.Notes)
			continue
		}
		if o, ok := d.Model[0].(*dxfread.Other); !ok || o.Kind != kind {
			t.Errorf("%s: %+v", items, d.Model[0])
		}
	}
	d = read(t, entities(strings.Repeat("0 3DSOLID|8 0|1 abc|", 3)+"0 BODY|8 0"))
	if len(d.Notes) != 2 || d.Notes[0].Count != 3 || d.Notes[0].Line != 5 {
		t.Errorf("notes %+v", d.Notes)
	}
}

// TestManyKinds bounds the notes of a file with ever new kinds.
func TestManyKinds(t *testing.T) {
	var items []string
	for i := range 5000 {
		items = append(items, "0 KIND"+strconv.Itoa(i)+"|8 0")
	}
	d := read(t, entities(strings.Join(items, "|")))
	if len(d.Notes) > 510 || noteCount(d, "entity-skipped") != 5000 {
		t.Errorf("%d notes count %d entities", len(d.Notes), noteCount(d, "entity-skipped"))
	}
}

func TestHandles(t *testing.T) {
	d := read(t, entities("0 POINT|5 ff|8 0|0 POINT|5 FF|8 0|0 POINT|5 |8 0|0 POINT|5 xyz|8 0|0 POINT|5 123456789ABCDEF01|8 0"))
	want := []uint64{0xff, 0xff, 0, 0, 0}
	for i, e := range d.Model {
		if e.Base().Handle != want[i] {
			t.Errorf("handle %d is %X", i, e.Base().Handle)
		}
	}
	if len(d.Model) != 5 || noteCount(d, "handle-bad") != 2 {
		t.Errorf("%d entities, notes %+v", len(d.Model), d.Notes)
	}
}

// slow gives one byte and then waits.
type slow struct{ done chan struct{} }

func (s slow) Read(p []byte) (int, error) {
	<-s.done
	return 0, io.EOF
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("the cable is out") }

func TestRead(t *testing.T) {
	data := plate().Bytes()
	for name, r := range map[string]io.Reader{
		"bytes":  bytes.NewReader(data),
		"stream": io.MultiReader(bytes.NewReader(data[:100]), bytes.NewReader(data[100:])),
	} {
		d, err := dxfread.Read(context.Background(), r, dxfread.Limits{})
		if err != nil || len(d.Model) != 6 || d.Bytes != int64(len(data)) {
			t.Errorf("%s: %v", name, err)
		}
	}
	d, err := dxfread.Read(context.Background(), bytes.NewReader(data), dxfread.Limits{Bytes: 1000})
	if !errors.Is(err, dxfread.ErrTooLarge) || d == nil {
		t.Errorf("a limit of 1000 bytes: %v", err)
	}
	if _, err := dxfread.Read(context.Background(), bytes.NewReader(data), dxfread.Limits{Bytes: int64(len(data))}); err != nil {
		t.Errorf("a limit that is just met: %v", err)
	}
	if d, err := dxfread.Read(context.Background(), broken{}, dxfread.Limits{}); d != nil || err == nil || !strings.Contains(err.Error(), "cable") {
		t.Errorf("a broken reader: %v", err)
	}
	s := slow{make(chan struct{})}
	defer close(s.done)
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Millisecond)
	defer cancel()
	if d, err := dxfread.Read(ctx, s, dxfread.Limits{}); d != nil || !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("a reader that waits: %v", err)
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := dxfread.Decode(ended, data, dxfread.Limits{}); !errors.Is(err, context.Canceled) {
		t.Errorf("an ended context: %v", err)
	}
}

func TestDataIsNotKept(t *testing.T) {
	data := plate().Bytes()
	d := read(t, data)
	before := dxftest.Golden(d, true)
	for i := range data {
		data[i] = 'x'
	}
	if dxftest.Golden(d, true) != before {
		t.Error("the drawing changed with the bytes that it was read from")
	}
}

// TestInvisible: group 60 counts for every kind.
func TestInvisible(t *testing.T) {
	for _, body := range []string{"LINE|10 0|20 0|11 1|21 1", "MTEXT|100 AcDbEntity|8 0|60 1|100 AcDbMText|10 0|20 0|40 1|1 x",
		"TEXT|10 0|20 0|40 1|1 x", "INSERT|2 A|10 0|20 0", "LWPOLYLINE|10 0|20 0|10 1|20 1", "CIRCLE|10 0|20 0|40 1",
		"POLYLINE|66 1|0 VERTEX|10 1|20 1|0 VERTEX|10 1|20 2|0 SEQEND", "HATCH|2 SOLID|70 1", "DIMENSION|70 0"} {
		name, rest, _ := strings.Cut(body, "|")
		e := read(t, entities("0 "+name+"|8 0|60 1|"+rest)).Model[0]
		if !e.Base().Invisible || e.Name() != name {
			t.Errorf("%s is seen", name)
		}
	}
}
