package measure

import (
	"math"
	"testing"
)

func TestBendNote(t *testing.T) {
	for _, c := range []struct {
		text   string
		angle  float64
		radius float64
		unit   string
		to     string
		word   bool
	}{
		{"BEND UP 90 R6", 90, 6, "", "up", true},
		{"UP 90 R10", 90, 10, "", "up", true},
		{"90° DN IR 3", 90, 3, "", "down", true},
		{"90%%d DOWN", 90, 0, "", "down", true},
		{"UP 45", 45, 0, "", "up", true},
		{"BEND 135 DEG", 135, 0, "", "", true},
		{"R10", 0, 10, "", "", false},
		{"R.25", 0, 0.25, "", "", false},
		{"R 1/4", 0, 6.35, "in", "", false},
		{"UP 90° R1/4\"", 90, 6.35, "in", "up", true},
		{"BEND RADIUS 3 mm", 0, 3, "mm", "", true},
		{"Biegung 90° nach oben Ri=5", 90, 5, "", "up", true},
		{"pli 90° vers le bas R8", 90, 8, "", "down", true},
		{"90° hoch R 12,5", 90, 12.5, "", "up", true},
		{"BEND UP OR DOWN 90", 0, 0, "", "", true}, // which way is not said, and 90 follows neither for sure
	} {
		got, ok := BendNote(c.text)
		if c.text == "BEND UP OR DOWN 90" {
			if got.To != "" {
				t.Errorf("%q: %+v", c.text, got)
			}
			continue
		}
		if !ok || math.Abs(got.AngleRad*180/math.Pi-c.angle) > 1e-9 || math.Abs(got.Radius.MM-c.radius) > 1e-9 || got.Radius.Unit != c.unit || got.To != c.to || got.Word != c.word {
			t.Errorf("%q: %+v %v", c.text, got, ok)
		}
	}
	for _, text := range []string{"", "t = 6", "S275", "4 x Ø22", "BR-17 REV A", "PL 10 x 200", "CUT TO LENGTH", "SCALE 1:5"} {
		if got, ok := BendNote(text); ok {
			t.Errorf("%q: %+v", text, got)
		}
	}
}
