package shop

import (
	"strings"
	"testing"
)

// Without rows nothing but max_thickness tells how thick metal a punch or a
// notcher takes; with rows the thickest of them speaks.
func TestThickestMetalIsStated(t *testing.T) {
	bare := strings.ReplaceAll(minimal, "max_thickness = \"300 mm\"\n", "")
	if got := problems(bare); !strings.Contains(got, "7:10: machine[0].punch.max_thickness is missing") {
		t.Errorf("got %q", got)
	}
	rows := strings.ReplaceAll(bare, "rated = \"550 kN\" #punch", "rows = [{ hole = \"22 mm\", thickness = \"20 mm\" }]")
	if got := problems(rows); got != "" {
		t.Errorf("with rows: %q", got)
	}
}
