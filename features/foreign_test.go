package features_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"burrside/dxfread"
	"burrside/features"
)

// corpus is the folder of foreign drawings; the test is skipped aloud without.
func corpus(t testing.TB) string {
	dir := os.Getenv("BURRSIDE_DRAWINGS")
	if dir == "" {
		t.Skip("BURRSIDE_DRAWINGS is not set: no foreign drawings to build")
	}
	return dir
}

func buildFile(t testing.TB, path string) *features.Sheet {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Error(err)
		return nil
	}
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	d, readErr := dxfread.Decode(ctx, data, dxfread.Limits{})
	if d == nil {
		return nil
	}
	s, err := features.Build(ctx, d, features.Options{Name: strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)), ReadError: readErr})
	if err != nil {
		t.Errorf("%s: %v", path, err)
		return nil
	}
	return s
}

// TestEveryDrawing builds every foreign drawing: no panic, no hang (30 s), and
// the invariants hold for whatever parts come out.
func TestEveryDrawing(t *testing.T) {
	dir := corpus(t)
	files, parts := 0, 0
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.EqualFold(filepath.Ext(path), ".dxf") {
			return err
		}
		files++
		start := time.Now()
		s := buildFile(t, path)
		if d := time.Since(start); d > 5*time.Second {
			t.Logf("%s took %v", path, d)
		}
		if s == nil {
			return nil
		}
		parts += len(s.Parts)
		checkInvariants(t, filepath.Base(path), s)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files == 0 {
		t.Fatalf("no drawing in %s", dir)
	}
	t.Logf("%d drawings, %d parts", files, parts)
}
