package dxfread_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"unicode/utf8"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// seeds gives small drawings in all forms.
func seeds(f *testing.F) (all [][]byte) {
	paths, _ := filepath.Glob("testdata/*.dxf")
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		all = append(all, data)
	}
	small := dxftest.New(dxftest.Inch).Layer("CUT")
	small.Polyline(true, dxftest.Slot(0, 0, 2, 5)...).Circle(1, 1, 0.5).Text(0, 0, 1, "%%c1 \\U+00D8")
	small.MText(0, 0, 1, `{\H2;1\S1/16;}\P`).Block("B", 0, 0, func(b *dxftest.Builder) { b.Arc(0, 0, 1, 0, 90).Insert("B", 1, 1) })
	small.Insert("B", 3, 4, dxftest.Placing{ScaleX: -1, Columns: 2, Rows: 2, ColSpacing: 1, RowSpacing: 1})
	for _, form := range dxftest.Forms() {
		all = append(all, small.As(form))
	}
	for _, cells := range []string{oldCells, newCells} {
		all = append(all, tableFile(picture, tableHead+tableGrid+cells))
	}
	for _, s := range []string{"", "0", "AC1015", "AutoCAD Binary DXF\r\n\x1a\x00", "\xff\xd8\xff", "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nnan\n0\nENDSEC\n0\nEOF\n"} {
		all = append(all, []byte(s))
	}
	return all
}

// FuzzDecode reads and places any bytes: no panic, memory within bounds of the
// input, errors with a place, usable numbers, and twice the same answer.
func FuzzDecode(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		d, err := dxfread.Decode(context.Background(), data, dxfread.Limits{Placed: 2000})
		runtime.ReadMemStats(&after)
		// 64 bytes of memory a byte of the file is what the shortest entity, a
		// bare "0 CIRCLE", costs; 2 MiB are slabs and tables.
		if used := after.TotalAlloc - before.TotalAlloc; used > 2<<20+64*uint64(len(data)) {
			t.Fatalf("%d bytes of memory for %d bytes of data", used, len(data))
		}
		var syntax *dxfread.SyntaxError
		if err != nil && (!errors.As(err, &syntax) || syntax.Line < 0 || syntax.Err == nil || !utf8.ValidString(err.Error())) {
			t.Fatalf("error %v", err)
		}
		checkDrawing(t, d)
		again, err2 := dxfread.Decode(context.Background(), data, dxfread.Limits{Placed: 2000})
		if (err == nil) != (err2 == nil) || err != nil && err.Error() != err2.Error() || dxftest.Golden(d, true) != dxftest.Golden(again, true) {
			t.Fatal("reading twice gives two answers")
		}
	})
}
