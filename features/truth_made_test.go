package features_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
)

// madeSheet is a plate with a hole, a slot and a square opening, and beside it
// a lug with rounded top and a polygon of 24 chords for a hole.
func madeSheet() *dxftest.Builder {
	return dxftest.New(dxftest.MM).
		Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(30, 50, 9).
		Polyline(true, dxftest.Slot(100, 50, 14, 40)...).Polyline(true, dxftest.Rect(150, 40, 20, 20)...).
		Polyline(true, dxftest.V{X: 300}, dxftest.V{X: 360}, dxftest.V{X: 360, Y: 50, Bulge: 1}, dxftest.V{X: 300, Y: 50}).
		Circle(330, 40, 5.5)
}

const truthHead = "path\tparts\tinner_contours\tfull_round_holes\tround_diameters(d x n)\tpolygon_circles(d x n)\tslots\t" +
	"slot_sizes(width x overall x n)\tother_inner(kinds)\touter_bbox_w_x_h(all parts)\toutline_has_arcs(per part)\n"

// TestTruthCounts holds the counting itself: a true table agrees in every fact,
// each wrong field of another is one miss, and an invented part is two.
func TestTruthCounts(t *testing.T) {
	s := build(t, madeSheet())
	for _, c := range []struct {
		name, row    string
		agree, total int
		misses       string
	}{
		{name: "true", row: "a.dxf\t2\t4\t2\t18x1 11x1\t-\t1\t14x40x1\trect:1\t200x100; 60x80\tno; yes", agree: 9, total: 9},
		{name: "true, a hole of chords", row: "a.dxf\t2\t4\t1\t18x1\t11x1\t1\t14x40x1\t\t200x100; 60x80\tno; yes", agree: 9, total: 9},
		{name: "unknown fields", row: "a.dxf\t2\t\t\t\t\t\t\t\t\t", agree: 1, total: 1},
		{name: "a part invented", row: "a.dxf\t1\t4\t2\t18x1 11x1\t-\t1\t14x40x1\t\t200x100\tno", agree: 6, total: 9, misses: "parts: 2, known 1"},
		{name: "a part missed", row: "a.dxf\t3\t4\t2\t18x1 11x1\t-\t1\t14x40x1\t\t200x100; 60x80; 30x30\tno; yes; no", agree: 8, total: 10, misses: "box: not among , known 30x30"},
		{name: "another diameter", row: "a.dxf\t2\t4\t2\t18x1 11.2x1\t-\t1\t14x40x1\t\t200x100; 60x80\tno; yes", agree: 8, total: 9, misses: "diameters: not as many of 11.2x1 (0 found) not known 11x1"},
		{name: "another count", row: "a.dxf\t2\t4\t2\t18x2\t-\t1\t14x40x1\t\t200x100; 60x80\tno; yes", agree: 8, total: 9, misses: "diameters: not as many of 18x2 (1 found) not known 11x1"},
		{name: "another slot", row: "a.dxf\t2\t4\t2\t18x1 11x1\t-\t1\t14x42x1\t\t200x100; 60x80\tno; yes", agree: 8, total: 9, misses: "slot sizes: not as many of 14x42x1 (0 found) not known 14x40x1"},
		{name: "another box", row: "a.dxf\t2\t4\t2\t18x1 11x1\t-\t1\t14x40x1\t\t200x101; 60x80\tno; yes", agree: 8, total: 9, misses: "box: not among 200x100"},
		{name: "no arcs", row: "a.dxf\t2\t4\t2\t18x1 11x1\t-\t1\t14x40x1\t\t200x100; 60x80\tno; no", agree: 8, total: 9, misses: "outlines with arcs: 1, known 0"},
	} {
		rows, err := readTruth(strings.NewReader(truthHead + c.row + "\n"))
		if err != nil {
			t.Fatal(err)
		}
		got := judge(s, rows[0])
		if all := strings.Join(got.misses, "\n"); got.agree != c.agree || got.total != c.total || !strings.Contains(all, c.misses) {
			t.Errorf("%s: %d of %d agree, want %d of %d; misses: %s", c.name, got.agree, got.total, c.agree, c.total, all)
		}
	}
	rows, _ := readTruth(strings.NewReader(truthHead + "a.dxf\t1\t4\t2\t18x1 11x1\t-\t1\t14x40x1\t\t200x100\tno\n"))
	if got := judge(nil, rows[0]); got.agree != 1 || got.total != 8 { // an outline without arcs is the one that agrees
		t.Errorf("a drawing that was not read: %d of %d agree", got.agree, got.total)
	}
}

// TestTroublesCounts holds the table of troubles on made drawings.
func TestTroublesCounts(t *testing.T) {
	tr := newTroubles()
	whole := madeSheet().Bytes()
	tr.drawing("whole.dxf", whole)
	tr.drawing("cut.dxf", whole[:len(whole)-40])
	tr.drawing("text.dxf", dxftest.New(dxftest.MM).Text(0, 0, 3, "see sheet 2").Bytes())
	tr.drawing("open.dxf", dxftest.New(dxftest.MM).Line(0, 0, 100, 0).Line(100, 0, 100, 60).Line(100, 60, 0, 60).Bytes())
	tr.drawing("none.dxf", []byte("no drawing"))
	tr.drawing("unit.dxf", dxftest.New(dxftest.NoUnit).Polyline(true, dxftest.Rect(0, 0, 100, 60)...).Bytes())
	got := tr.String()
	for _, want := range []string{
		"6 drawings: 4 read to the end",
		"no part: all is left out, most of it as text (text.dxf)",
		"no part: an outline is open (open.dxf)",
		"fault of the drawing: open-outline (open.dxf)",
		"not read: the file ends too early (cut.dxf)",
		"not read: not a DXF file (none.dxf)",
		"unit: unknown (unit.dxf)",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the table lacks %q", want)
		}
	}
	if t.Failed() {
		t.Log(got)
	}
}

// TestTruthFolder writes a folder and compares it as a folder of one's own is.
func TestTruthFolder(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.dxf"), madeSheet().Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	s := buildFile(t, filepath.Join(dir, "a.dxf"))
	rows, err := readTruth(strings.NewReader("slots\tpath\tparts\n1\ta.dxf\t2\n")) // any order, any columns
	if err != nil {
		t.Fatal(err)
	}
	if got := judge(s, rows[0]); got.agree != 2 || got.total != 2 {
		t.Errorf("%d of %d agree: %v", got.agree, got.total, got.misses)
	}
}
