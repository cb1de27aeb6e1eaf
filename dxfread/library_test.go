package dxfread_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// libraryCounts counts like dxftest.ReadByLibrary.
func libraryCounts(d *dxfread.Drawing) map[string]dxftest.LibraryCount {
	all := append([]dxfread.Entity{}, d.Model...)
	for _, l := range d.Layouts {
		all = append(all, l.Entities...) // that reader does not tell spaces apart
	}
	out := map[string]dxftest.LibraryCount{}
	for _, e := range all {
		name := e.Name()
		var vs []float64
		switch e := e.(type) {
		case *dxfread.Line:
			vs = []float64{e.From.X, e.From.Y, e.From.Z, e.To.X, e.To.Y, e.To.Z}
		case *dxfread.Arc:
			vs = []float64{e.Centre.X, e.Centre.Y, e.Centre.Z, e.Radius, e.Start, e.End}
		case *dxfread.Circle:
			vs = []float64{e.Centre.X, e.Centre.Y, e.Centre.Z, e.Radius}
		case *dxfread.Polyline:
			for _, v := range e.Vertices {
				vs = append(vs, v.At.X, v.At.Y)
			}
		case *dxfread.Point:
			vs = []float64{e.At.X, e.At.Y, e.At.Z}
		case *dxfread.Text:
			vs = []float64{e.Height}
		default:
			name = "other"
		}
		c := out[name]
		c.Count++
		for _, v := range vs {
			c.Sum += math.Abs(v)
		}
		out[name] = c
	}
	return out
}

func sameCounts(t *testing.T, what string, ours, theirs map[string]dxftest.LibraryCount) bool {
	t.Helper()
	ok := true
	for _, m := range []map[string]dxftest.LibraryCount{ours, theirs} {
		for kind := range m {
			a, b := ours[kind], theirs[kind]
			if a.Count != b.Count || math.Abs(a.Sum-b.Sum) > 1e-9*(1+b.Sum) {
				t.Errorf("%s: %s: ours %+v, library %+v", what, kind, a, b)
				ok = false
			}
		}
	}
	return ok
}

// TestLibraryReader: where the reader of github.com/yofu/dxf opens a file, it
// finds the same entities as ours. A bulge on a last vertex would make it
// refuse, so there is none.
func TestLibraryReader(t *testing.T) {
	b := dxftest.New(dxftest.MM).Layer("CUT")
	b.Polyline(true, dxftest.V{}, dxftest.V{X: 200, Bulge: 0.5}, dxftest.V{X: 200, Y: 140.25}, dxftest.V{Y: 140})
	b.Line3(1, 2, 3, 4, 5, 6).Circle(40, 100, 11).Arc(1, 2, 3, 10, 350).Point(7, 8).Text(0, 0, 5, "PL 10")
	raw, err := b.ByLibrary()
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := dxftest.ReadByLibrary(raw)
	if err != nil {
		t.Fatal(err)
	}
	if len(theirs) != 6 {
		t.Fatalf("the library finds %v", theirs)
	}
	sameCounts(t, "built", libraryCounts(read(t, raw)), theirs)
}

// TestLibraryReaderForeign makes the same comparison on foreign drawings, each
// in a process of its own, because that reader may hang or eat all memory.
func TestLibraryReaderForeign(t *testing.T) {
	if path := os.Getenv("BURRSIDE_LIBRARY_FILE"); path != "" {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		counts, err := dxftest.ReadByLibrary(data)
		if err != nil {
			os.Exit(3)
		}
		json.NewEncoder(os.Stdout).Encode(counts)
		os.Exit(0)
	}
	dir := os.Getenv("BURRSIDE_DRAWINGS")
	if dir == "" {
		t.Skip("BURRSIDE_DRAWINGS is not set: no foreign drawings were compared")
	}
	opened, agree := 0, 0
	paths := dxfFiles(t, dir)
	for _, path := range paths {
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		cmd := exec.CommandContext(ctx, "sh", "-c", `ulimit -v 4000000; exec "$0" -test.run '^TestLibraryReaderForeign$'`, os.Args[0])
		cmd.Env = append(os.Environ(), "BURRSIDE_LIBRARY_FILE="+path)
		out, err := cmd.Output()
		cancel()
		theirs := map[string]dxftest.LibraryCount{}
		if err != nil || json.Unmarshal(out, &theirs) != nil {
			continue
		}
		opened++
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		d, _ := decode(t, data)
		rel, _ := filepath.Rel(dir, path)
		if why := libraryDifferences[filepath.ToSlash(rel)]; why != "" {
			t.Logf("%s differs: %s", rel, why)
			continue
		}
		if sameCounts(t, rel, libraryCounts(d), theirs) {
			agree++
		}
	}
	t.Logf("%d files, %d opened by the library, %d agree", len(paths), opened, agree)
	if opened == 0 {
		t.Error("nothing was compared")
	}
}

// libraryDifferences are the files in which the library and we differ, with
// the reason why ours is right.
var libraryDifferences = map[string]string{
	"CadQuery__cadquery/tests/testdata/genshi.dxf":      "a polyline of one vertex is no curve; we keep it as not read, with a note",
	"mozman__ezdxf/examples_dxf/circle_radius_le_0.dxf": "circles with a radius of 0 or less are no curves; we keep them as not read, with a note",
}
