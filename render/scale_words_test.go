package render

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread"
	"burrside/features"
)

// That sizes were brought to their true ones is said wherever the sizes are.
func TestScaleIsSaid(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "testdata", "sheets", "sheet-a1-fifth.dxf"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := dxfread.Read(context.Background(), f, dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := features.Build(context.Background(), d, features.Options{})
	if err != nil {
		t.Fatal(err)
	}
	prof := shop.BuiltIn()
	rep, err := check.Run(context.Background(), "sheet-a1-fifth.dxf", sheet, prof, plan.Job{})
	if err != nil || len(rep.Parts) != 1 {
		t.Fatal(err, len(rep.Parts))
	}
	if s := partLine(rep.Parts[0], "mm"); !strings.Contains(s, "1500 x 800 mm") || !strings.Contains(s, "drawn 1:5, brought to true size: 3 dimensions say so") {
		t.Errorf("the part's line: %s", s)
	}
}
