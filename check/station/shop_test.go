package station

import (
	"math"
	"testing"

	"burrside/check/shop"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, tol)
	}
}

func wantGrade(t *testing.T, what string, got, want Grade) {
	t.Helper()
	if got != want {
		t.Errorf("%s: got grade %d, want %d", what, got, want)
	}
}

// aspect is the worst aspect under a rule.
func aspect(t *testing.T, u Use, rule string) Aspect {
	t.Helper()
	var worst *Aspect
	for i := range u.Aspects {
		if a := &u.Aspects[i]; a.Rule == rule && (worst == nil || a.Grade > worst.Grade) {
			worst = a
		}
	}
	if worst == nil {
		t.Fatalf("no aspect %q in %+v", rule, u)
	}
	return *worst
}

func mild() *shop.Material {
	return &shop.Material{Name: "mild", Group: "mild", ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 250, TensileMPa: 450, DensityKgM3: 7850, ClearanceShare: 0.12, Punchable: true}
}

func strong(name string, shear, upper float64) *shop.Material {
	m := mild()
	m.Name, m.ShearMPa, m.ShearUpperMPa = name, shear, upper
	return m
}

// yard is a shop invented for these tests.
func yard() *shop.Profile {
	return &shop.Profile{Name: "yard", Units: "mm", Buy: true,
		Machines: []shop.Machine{{Name: "one", Punch: &shop.PunchStation{
			Rating: shop.Rating{ForceKN: 600, UsableShare: 0.9, UsableKN: 540, BasisMPa: 345}, ThroatMM: 300, Stop: true,
			Holders: []shop.Holder{{Name: "standard", MaxMM: 40}, {Name: "oversize", MaxMM: 100}}},
			Shear: &shop.ShearStation{Rating: shop.Rating{ForceKN: 800, BasisMPa: 345}, BladeMM: 600, HoldDownMM: 70,
				Rows: []shop.Row{{ThicknessMM: 6, SizeMM: 600}, {ThicknessMM: 12, SizeMM: 300}, {ThicknessMM: 20, SizeMM: 150}}},
			Notch: &shop.NotchStation{Rating: shop.Rating{ForceKN: 600, UsableKN: 540, BasisMPa: 345}, MaxThicknessMM: 12}}},
		Punches: []shop.Punch{
			{Name: "Ø22", Shape: Round, WidthMM: 22, Dies: []shop.Die{{WidthMM: 22.7}, {WidthMM: 23.2}, {WidthMM: 24.2}}},
			{Name: "Ø26", Shape: Round, WidthMM: 26, Dies: []shop.Die{{WidthMM: 28.4}}},
			{Name: "slot 22 x 50", Shape: Slot, WidthMM: 22, LengthMM: 50, Dies: []shop.Die{{WidthMM: 23.2}}},
			{Name: "square 20", Shape: Square, WidthMM: 20, Dies: []shop.Die{{WidthMM: 21}}},
		},
		Notchers: []shop.NotchTool{
			{Name: "box 80 x 60", Shape: "rectangular", WidthMM: 80, DepthMM: 60},
			{Name: "vee 90", Shape: "vee", AngleRad: math.Pi / 2, DepthMM: 60},
		},
		Also: []shop.Process{{Kind: "drill", Have: true, MaxDiameterMM: 40}, {Kind: "grinder", Have: true, MaxRadiusMM: 15, MaxThicknessMM: 12}},
	}
}

func round(d float64) Hole { return Hole{Shape: Round, WidthMM: d} }
