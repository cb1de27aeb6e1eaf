package render

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// TestDraw writes pictures for looking at when BURRSIDE_PICTURES names a folder.
func TestDraw(t *testing.T) {
	dir := os.Getenv("BURRSIDE_PICTURES")
	n := 0
	for _, r := range allReports() {
		s := NewScene(r.rep, 0, SceneOptions{})
		var b bytes.Buffer
		if err := s.PNG(&b); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		if img.Bounds().Dx() != 1600 || img.Bounds().Dy() != s.HeightPX {
			t.Errorf("%s: bounds %v", r.name, img.Bounds())
		}
		if dir != "" {
			if err := os.WriteFile(filepath.Join(dir, r.name+".png"), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		n++
	}
	if n == 0 {
		t.Fatal("nothing drawn")
	}
}
