package dxfread_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"

	"github.com/google/go-cmp/cmp"
)

// TestGoldens prints every drawing of testdata and compares with the text
// beside it. UPDATE_GOLDEN=1 renews the texts: read the diff.
func TestGoldens(t *testing.T) {
	paths, err := filepath.Glob("testdata/*.dxf")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no drawings in testdata: %v", err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		d, err := decode(t, data)
		got := dxftest.Golden(d, true)
		if err != nil {
			got += "error " + err.Error() + "\n"
		}
		golden := strings.TrimSuffix(path, ".dxf") + ".golden"
		if os.Getenv("UPDATE_GOLDEN") != "" {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s (-golden +now):\n%s", path, diff)
		}
	}
}
