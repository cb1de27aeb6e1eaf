package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Red-lines that lie among the drawings are none, however they got there; a
// customer's drawing of such a name is one.
func TestFolderLeavesRedLines(t *testing.T) {
	dir := t.TempDir()
	part := filepath.Join(dir, "cleat.dxf")
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "parts", "pin-plate.dxf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{part, filepath.Join(dir, "chalk-marks.dxf")} {
		if err := os.WriteFile(name, text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	cmd := newRoot(streams{in: strings.NewReader(""), out: &strings.Builder{}, err: &strings.Builder{}})
	cmd.SetArgs([]string{"check", part, "--out", dir, "--marks"})
	cmd.Execute()
	if _, err := os.Stat(filepath.Join(dir, "cleat-marks.dxf")); err != nil {
		t.Fatal(err)
	}
	d, err := findDrawings([]string{dir}, nil, false)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range d.paths {
		names = append(names, filepath.Base(p))
	}
	if got := strings.Join(names, " "); got != "chalk-marks.dxf cleat.dxf" {
		t.Errorf("drawings of the folder: %s", got)
	}
	if d, err := findDrawings([]string{filepath.Join(dir, "cleat-marks.dxf")}, nil, false); err != nil || len(d.paths) != 1 {
		t.Errorf("named by itself: %v, %v", d, err)
	}
}
