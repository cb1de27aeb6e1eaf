package shop

import (
	"math"
	"strings"
	"testing"
)

// The built-in shop and both templates are files like any other, and carry no
// problem, not even a warning.
func TestOwnFilesLoadWithoutAProblem(t *testing.T) {
	for name, text := range map[string]string{"built in": BuiltInText(), "mm": Template("mm"), "in": Template("in")} {
		p, err := Load(strings.NewReader(text), name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(p.Problems) > 0 {
			t.Errorf("%s:\n%s", name, FormatProblems(name, p.Problems))
		}
		if len(p.Machines) == 0 || len(p.Punches) == 0 {
			t.Errorf("%s: no machines or punches", name)
		}
	}
}

// Every row of the built-in shop takes between 60 % and 100 % of its station's
// rated force at 345 MPa by F = L t S; the sums are done here anew.
func TestBuiltInRowsAgreeWithTheForceModel(t *testing.T) {
	rows := 0
	for _, m := range BuiltIn().Machines {
		for _, r := range m.Punch.Rows {
			rows++
			if share := math.Pi * r.SizeMM * r.ThicknessMM * 345e-3 / m.Punch.ForceKN; share < 0.85 || share > 1 {
				t.Errorf("%s punch row %v takes %.0f %%", m.Name, r, share*100)
			}
		}
		for _, r := range m.Notch.Rows {
			rows++
			if share := r.SizeMM * r.ThicknessMM * 345e-3 / m.Notch.ForceKN; share < 0.85 || share > 1 {
				t.Errorf("%s notcher row %v takes %.0f %%", m.Name, r, share*100)
			}
		}
		for _, r := range m.Shear.Rows {
			rows++
			if f := 345e-3 * r.ThicknessMM * r.ThicknessMM / 2 / math.Tan(m.Shear.RakeRad); f > m.Shear.ForceKN {
				t.Errorf("%s shear row %v takes %.0f kN", m.Name, r, f)
			}
		}
	}
	if rows != 21 {
		t.Errorf("looked at %d rows, the file has 21", rows)
	}
}

func TestBuiltInIsNewEachTime(t *testing.T) {
	a, b := BuiltIn(), BuiltIn()
	a.Machines[0].Name = "changed"
	a.Punches[0].Dies[0].WidthMM = 1
	if b.Machines[0].Name != "north bay" || b.Punches[0].Dies[0].WidthMM == 1 {
		t.Error("two profiles share memory")
	}
	if !b.BuiltIn || b.Path != "" || b.Name != "Alder Ford Footbridge Works" {
		t.Errorf("built in %v, path %q, name %q", b.BuiltIn, b.Path, b.Name)
	}
}
