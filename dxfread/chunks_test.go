package dxfread

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// sameInChunks holds that a file decoded in chunks of several lengths gives the
// drawing and the error of reading it in one go. It tells how many chunks were
// taken in all.
func sameInChunks(t *testing.T, name string, data []byte) {
	t.Helper()
	want, wantErr := decode(context.Background(), data, Limits{}, chunking{})
	for _, length := range []int{1, 64, 500, 3000} {
		got, err := decode(context.Background(), data, Limits{}, chunking{workers: 3, bytes: length})
		if fmt.Sprint(err) != fmt.Sprint(wantErr) {
			t.Fatalf("%s, %d bytes, chunks of %d: error %v, in one go %v", name, len(data), length, err, wantErr)
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("%s, %d bytes, chunks of %d: %s", name, len(data), length, difference(got, want))
		}
	}
}

// difference shows the first thing in which two drawings differ.
func difference(got, want *Drawing) string {
	if got == nil || want == nil {
		return fmt.Sprintf("drawing %v, in one go %v", got != nil, want != nil)
	}
	for i := range min(len(got.Model), len(want.Model)) {
		if !reflect.DeepEqual(got.Model[i], want.Model[i]) {
			return fmt.Sprintf("entity %d is %+v, in one go %+v", i, got.Model[i], want.Model[i])
		}
	}
	g, w := reflect.ValueOf(*got), reflect.ValueOf(*want)
	for i := range g.NumField() {
		if !reflect.DeepEqual(g.Field(i).Interface(), w.Field(i).Interface()) {
			return fmt.Sprintf("%s is %+v, in one go %+v", g.Type().Field(i).Name, g.Field(i), w.Field(i))
		}
	}
	return "no field differs"
}

// oddFile gives a file with everything that the order of reading matters for:
// layers and linetypes met first in entities, names in upper and lower case,
// paper space with several layouts, entities of several records, notes of many
// kinds, and values that look like the start of an entity.
func oddFile(seed uint64, entities int) []byte {
	rng := rand.New(rand.NewPCG(seed, 3))
	end := []string{"\n", "\r\n", "\r"}[rng.IntN(3)]
	code := []string{"%d", "%3d", " %d"}[rng.IntN(3)]
	var b bytes.Buffer
	put := func(pairs ...any) {
		for i := 0; i < len(pairs); i += 2 {
			fmt.Fprintf(&b, code+"%s%v%s", pairs[i], end, pairs[i+1], end)
		}
	}
	pick := func(of ...string) string { return of[rng.IntN(len(of))] }
	put(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, pick("AC1009", "AC1021"), 0, "ENDSEC")
	put(0, "SECTION", 2, "TABLES", 0, "LAYER", 2, "CUT", 62, 1, 0, "DIMSTYLE", 2, "S", 144, 2.5, 0, "ENDSEC")
	put(0, "SECTION", 2, "ENTITIES")
	for range entities {
		common := func() {
			if rng.IntN(8) > 0 {
				put(8, pick("0", "CUT", "cut", "A", "a", "B", "  0", "LINE", fmt.Sprint("L", rng.IntN(entities))))
			}
			if rng.IntN(3) == 0 {
				put(6, pick("DASHED", "dashed", "BYBLOCK", "T1", "T2"))
			}
			if rng.IntN(6) == 0 {
				put(67, 1)
				if rng.IntN(2) == 0 {
					put(410, pick("Sheet 1", "SHEET 1", "Sheet 2"))
				}
			}
			if rng.IntN(20) == 0 {
				put(999, "  0", 102, "{X", 10, 5, 102, "}")
			}
		}
		switch rng.IntN(12) {
		case 0:
			put(0, "CIRCLE")
			common()
			put(10, 1, 20, 2, 40, pick("3", "0", "-1", "nan", "1e30"))
		case 1:
			put(0, "POLYLINE")
			common()
			for range rng.IntN(5) {
				put(0, "VERTEX", 8, "V", 10, 1, 20, rng.IntN(9))
			}
			if rng.IntN(6) > 0 {
				put(0, "SEQEND", 8, "0")
			}
		case 2:
			put(0, "INSERT", 2, "HOLE")
			common()
			put(10, 1, 20, 2, 41, rng.IntN(2))
			for range rng.IntN(3) {
				put(0, "ATTRIB", 8, pick("N", "n", "M"), 10, 1, 20, 2, 1, "V", 2, "T")
			}
			if rng.IntN(3) > 0 {
				put(0, "SEQEND")
			}
		case 3:
			put(0, "TEXT")
			common()
			put(10, 1, 20, 2, 1, pick("  0", "LINE", "0", "caf\xe9", "caf\xc3\xa9"))
		case 4:
			put(0, "DIMENSION")
			common()
			put(3, pick("S", "other"), 10, 1, 20, 2, 70, rng.IntN(8))
		case 5:
			put(0, pick("REGION", "BODY", "VERTEX", "SEQEND", "ENDBLK", fmt.Sprint("KIND", rng.IntN(entities))))
			common()
		case 6:
			put(0, "LWPOLYLINE")
			common()
			for range rng.IntN(9) {
				put(10, rng.IntN(9), 20, 1, 42, 0.5)
			}
		case 7:
			put(0, "SPLINE")
			common()
			put(71, 2, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 10, 0, 20, 0, 10, 1, 20, 1, 10, 2, 20, 0)
		default:
			put(0, "LINE", 5, pick("AB", "XY"))
			common()
			put(10, rng.Float64(), 20, 2, 11, 3, 21, 4)
		}
	}
	put(0, "ENDSEC", 0, "SECTION", 2, "OBJECTS", 0, "DICTIONARY", 5, "C", 0, "LINE", 8, "NOT A LAYER", 0, "LAYOUT", 1, "x", 0, "ENDSEC", 0, "EOF")
	return b.Bytes()
}

// TestChunks compares on whole files, on files cut anywhere and on files with
// damaged bytes.
func TestChunks(t *testing.T) {
	paths, err := filepath.Glob("testdata/*.dxf")
	if err != nil || len(paths) == 0 {
		t.Fatal("no test drawings", err)
	}
	files := map[string][]byte{}
	for _, path := range paths {
		if files[path], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	for _, h := range habits() {
		files[h.name] = benchFile(20000, h)
	}
	n, cuts := 60, 40
	if testing.Short() {
		n, cuts = 12, 8
	}
	for seed := range n {
		files[fmt.Sprint("odd ", seed)] = oddFile(uint64(seed), 40)
	}
	rng := rand.New(rand.NewPCG(5, 6))
	for name, data := range files {
		sameInChunks(t, name, data)
		if len(data) > 40000 {
			continue
		}
		for range cuts {
			sameInChunks(t, name+" cut", data[:rng.IntN(len(data)+1)])
			bad := bytes.Clone(data)
			for range 1 + rng.IntN(3) {
				bad[rng.IntN(len(bad))] = "0 \nLA\r9"[rng.IntN(7)]
			}
			sameInChunks(t, name+" damaged", bad)
			// A line too many puts the rest out of step.
			lines := strings.SplitAfter(string(data), "\n")
			i := rng.IntN(len(lines))
			sameInChunks(t, name+" line lost", []byte(strings.Join(lines[:i], "")+strings.Join(lines[min(i+1, len(lines)):], "")))
		}
	}
}

// TestChunksTaken holds that chunks are taken at all: reading in one go would
// pass TestChunks too.
func TestChunksTaken(t *testing.T) {
	data := benchFile(100000, habits()[0])
	s, err := newScanner(context.Background(), data)
	if err != nil {
		t.Fatal(err)
	}
	for !(s.next() && s.code == 2 && string(s.val()) == "ENTITIES") {
	}
	r := newReader(s, &Drawing{})
	r.chunking = chunking{workers: 2, bytes: 1000}
	if !r.s.next() || !r.readBeside() || string(r.s.val()) != "ENDSEC" || len(r.d.Model) < 300 {
		t.Errorf("chunks ended at line %d with %d entities", r.s.at, len(r.d.Model))
	}
}

// TestChunkPassed holds that a chunk whose last entity reaches beyond the place
// where the next one begins says so.
func TestChunkPassed(t *testing.T) {
	data := []byte("  0\nPOLYLINE\n  0\nVERTEX\n 10\n1\n 20\n2\n  0\nVERTEX\n 10\n3\n 20\n4\n  0\nSEQEND\n  0\nLINE\n 10\n1\n")
	for stop, want := range map[int64]bool{3: false, 9: false, 10: false, 17: true, 18: false} {
		s, err := newScanner(context.Background(), data)
		if err != nil {
			t.Fatal(err)
		}
		r := newReader(s, &Drawing{})
		if _, stopped := r.run(r.s.next(), stop); stopped != want {
			t.Errorf("stop at line %d: %v at line %d", stop, stopped, r.s.at)
		}
	}
}

// TestChunksEnd holds that the end of the context ends all chunks.
func TestChunksEnd(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	s, err := newScanner(context.Background(), benchFile(3<<20, habits()[0]))
	if err != nil {
		t.Fatal(err)
	}
	for !(s.next() && s.code == 2 && string(s.val()) == "ENTITIES") {
	}
	r := newReader(s, &Drawing{})
	r.s.ctx = ctx
	r.chunking = chunking{workers: 2, bytes: 1 << 16}
	if r.s.next() && r.readBeside() || r.s.err != context.Canceled {
		t.Errorf("error %v after %d entities", r.s.err, len(r.d.Model))
	}
}

// TestNotebookJoined holds that notes of chunks are bounded as those of one go.
func TestNotebookJoined(t *testing.T) {
	var one, joined notebook
	for part := range 4 {
		piece := notebook{unbounded: true}
		for i := range 2 * maxNotes {
			text := fmt.Sprint(i % (300 + 400*part))
			one.add("code", text, int64(part*10000+i), 7)
			piece.add("code", text, int64(part*10000+i), 7)
		}
		for _, n := range piece.notes {
			joined.addTimes(n.Code, n.Text, n.Line, n.Handle, n.Count)
		}
	}
	if !reflect.DeepEqual(one.notes, joined.notes) || len(one.notes) != maxNotes+1 {
		t.Errorf("%d notes joined, %d in one go", len(joined.notes), len(one.notes))
	}
}
