package section

import (
	"math"
	"testing"
)

func within(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %.5g, want %.5g within %.2g %%", what, got, want, share*100)
	}
}

// Mass and area of every row are tabulated from one another and from the sizes;
// a digit mistyped in any of them shows here.
func TestEveryRowIsConsistent(t *testing.T) {
	names, counts := map[string]bool{}, map[string]int{}
	for _, a := range Angles() {
		counts[a.List]++
		if names[a.Name] {
			t.Errorf("%s stands twice", a.Name)
		}
		names[a.Name] = true
		x, y, th := a.LegMM[0], a.LegMM[1], a.ThicknessMM
		if !(x >= y && y > th && th > 0 && a.MassKgM > 0) {
			t.Errorf("%s: sizes %v x %v", a.Name, a.LegMM, th)
		}
		switch a.List {
		case ListEN, ListMill:
			within(t, a.Name+" mass from the tabulated area", a.MassKgM, a.AreaMM2*7850e-6, 0.02)
			// Area of the section with its radii, EN 10056-1.
			area := th*(x+y-th) + (1-math.Pi/4)*(a.RootMM*a.RootMM-2*a.ToeMM*a.ToeMM)
			within(t, a.Name+" area from its sizes", a.AreaMM2, area, 0.02)
			if a.ToRootMM != th+a.RootMM || a.Units != "mm" {
				t.Errorf("%s: k %v, units %s", a.Name, a.ToRootMM, a.Units)
			}
			// The toe radii that MassKgM leaves out.
			within(t, a.Name+" mass computed", MassKgM(x, y, th, a.RootMM), a.MassKgM, 0.035)
		case ListAISC:
			// Weight of steel, 490 lb/ft3: 3.403 lb/ft for a square inch.
			in2, lbFt := a.AreaMM2/645.16, a.MassKgM*0.3048/0.45359237
			within(t, a.Name+" weight from the tabulated area", lbFt, 3.403*in2, 0.03)
			in := a.ToRootMM / 25.4 * 16
			if a.ToRootMM <= th || math.Abs(in-math.Round(in)) > 1e-6 {
				t.Errorf("%s: kdet is %v sixteenths", a.Name, in)
			}
			within(t, a.Name+" mass computed", MassKgM(x, y, th, a.ToRootMM-th), a.MassKgM, 0.06)
		case ListBar:
			within(t, a.Name+" mass computed", MassKgM(x, y, th, 0), a.MassKgM, 0.06)
		default:
			t.Errorf("%s: list %q", a.Name, a.List)
		}
	}
	// 137 angles in the AISC Shapes Database.
	if counts[ListAISC] != 137 || counts[ListEN] != 81 || counts[ListMill] != 175 || counts[ListBar] != 12 {
		t.Errorf("rows: %v", counts)
	}
}

func TestWeightsOfHandbooks(t *testing.T) {
	for _, c := range []struct {
		x, y, t, lbFt, kgM float64
		name               string
	}{
		// Mott, Machine Elements in Mechanical Design, Appendix 16, lb/ft.
		{4 * 25.4, 4 * 25.4, 12.7, 12.8, 0, "L4X4X1/2"},
		{76.2, 76.2, 6.35, 4.9, 0, "L3X3X1/4"},
		{101.6, 152.4, 9.525, 12.3, 0, "L6X4X3/8"},
		// EN 10056-1 section tables, kg/m.
		{100, 100, 10, 0, 15.0, "L100x100x10"},
		{50, 50, 5, 0, 3.77, "L50x50x5"},
		{150, 150, 15, 0, 33.8, "L150x150x15"},
	} {
		list := Find(c.x, c.y, c.t, 0.01)
		if len(list) != 1 || list[0].Name != c.name {
			t.Errorf("Find(%v, %v, %v): %v, want %s", c.x, c.y, c.t, list, c.name)
			continue
		}
		if c.lbFt > 0 {
			within(t, c.name, list[0].MassKgM, c.lbFt*1.488164, 1e-4)
		} else {
			within(t, c.name, list[0].MassKgM, c.kgM, 1e-6)
		}
	}
	// kdet of L3x3x1/4 is 5/8 in, of L4x4x1/2 7/8 in (AISC Shapes Database).
	if k := Find(76.2, 76.2, 6.35, 0.01)[0].ToRootMM; math.Abs(k-15.875) > 1e-9 {
		t.Errorf("k of L3X3X1/4: %v", k)
	}
	// Root radius of L100x100x10 is 12 mm (EN 10056-1).
	if a := Find(100, 100, 10, 0)[0]; a.RootMM != 12 || a.ToRootMM != 22 || a.ToeMM != 6 {
		t.Errorf("radii of L100x100x10: %+v", a)
	}
}

func names(list []Angle) (n []string) {
	for _, a := range list {
		n = append(n, a.Name)
	}
	return n
}

func TestFind(t *testing.T) {
	for _, c := range []struct {
		x, y, t, tol float64
		want         []string
	}{
		{76, 76, 6.3, 0.25, []string{"L3X3X1/4"}},
		{75, 75, 6, 1.3, []string{"L75x75x6", "L75x75x7", "L75x75x5", "L3X3X3/16", "L3X3X1/4"}},
		{50, 75, 8, 0, []string{"L75x50x8"}},
		{75, 50, 8, 0, []string{"L75x50x8"}},
		{75, 75, 8.5, 0.5, []string{"L75x75x8", "L75x75x9"}}, // equal differences keep the order; equal to the limit is within
		{75, 75, 8.5, 0.49, nil},
		{math.NaN(), 75, 8, 1, nil},
		{75, 75, math.Inf(1), 1, nil},
		{0, 0, 0, 0, nil},
	} {
		got := names(Find(c.x, c.y, c.t, c.tol))
		if len(got) != len(c.want) {
			t.Errorf("Find(%v, %v, %v, %v) = %v, want %v", c.x, c.y, c.t, c.tol, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] && c.tol < 1 {
				t.Errorf("Find(%v, %v, %v, %v) = %v, want %v", c.x, c.y, c.t, c.tol, got, c.want)
			}
		}
	}
	// EN 10056-1 has 75 x 50 in 6 and 8 mm.
	if got := names(FindLegs(50, 75, 0.1)); len(got) != 2 || got[0] != "L75x50x6" || got[1] != "L75x50x8" {
		t.Errorf("legs 50 and 75: %v", got)
	}
}

func TestMassOfWhatIsNoSection(t *testing.T) {
	for _, v := range [][3]float64{{0, 50, 5}, {50, -1, 5}, {50, 50, 0}, {50, 50, 50}, {math.NaN(), 50, 5}, {50, 50, math.NaN()}, {math.Inf(1), 50, 5}} {
		if m := MassKgM(v[0], v[1], v[2], 5); m != 0 {
			t.Errorf("%v: %v kg/m", v, m)
		}
	}
	// 50 x 50 x 5 with sharp corners: 475 mm2.
	within(t, "50x50x5", MassKgM(50, 50, 5, 0), 3.72875, 1e-9)
}
