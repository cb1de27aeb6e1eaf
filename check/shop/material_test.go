package shop

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

func TestMaterialByName(t *testing.T) {
	p := load(t, minimal)
	for name, want := range map[string]string{
		"mild": "mild", "Mild Steel": "mild", "MILD-STEEL": "mild", "MS": "mild", "m.s.": "mild",
		"S275": "S275", "s 275": "S275", "S275JR": "S275", "S275 J0": "S275", "S275J2+N": "S275", "S275JR+AR": "S275", "S275+N": "S275", "S235JR": "S235", "1.0044": "S275", "St 37-2": "S235", "ST37-2": "S235", "43A": "S275",
		"S355J2": "S355", "S355 J2 + N": "S355", "S355K2": "S355", "St52-3": "S355", "1.0577": "S355",
		"A36": "A36", "A 36": "A36", "ASTM A36": "A36", "a36": "A36", "A572-50": "A572-50", "A572 GR 50": "A572-50", "A572 GR. 50": "A572-50", "A572 Grade 50": "A572-50", "A572": "A572-50",
		"304": "304", "AISI 304": "304", "SS 304": "", "1.4301": "304", "304L": "304", "316L": "316", "5052-H32": "aluminium 5052", "Aluminum 5052": "aluminium 5052", "6061-T6": "aluminium 6061", "AR400": "wear plate", "wear plate": "wear plate", "spring steel": "spring steel",
		// never guessed
		"": "", " ": "", "S350": "", "S27": "", "S2755": "", "S275X": "", "S355J5": "", "S275JR+Z": "", "A37": "", "A36 mod": "", "30": "", "3045": "", "steel": "", "stainless steel": "", "S420": "", "mild stee": "", "J2": "", "+N": "", "S275+NJR": "", "A572-65": "", "A36JR": "",
	} {
		m, ok := p.Material(name)
		if ok != (want != "") || ok && m.Name != want {
			t.Errorf("Material(%q) = %v, %v; want %q", name, m, ok, want)
		}
	}
}

// No name or alias of one material is one of another's, and each finds its own.
func TestMaterialNamesAreUnique(t *testing.T) {
	p := &Profile{Materials: builtInMaterials()}
	names := 0
	for i := range p.Materials {
		m := &p.Materials[i]
		for _, name := range append([]string{m.Name}, m.Aliases...) {
			names++
			if got, ok := p.Material(name); !ok || got.Name != m.Name {
				t.Errorf("%q of %s finds %v", name, m.Name, got)
			}
		}
		if m.Source == "" || m.ShearMPa <= 0 || m.ShearUpperMPa < m.ShearMPa || m.DensityKgM3 <= 0 || m.ClearanceShare <= 0 {
			t.Errorf("%s is not complete: %+v", m.Name, m)
		}
		if m.Punchable == (m.Group == "hardened") {
			t.Errorf("%s: group %s and punchable %v", m.Name, m.Group, m.Punchable)
		}
	}
	if names < 90 {
		t.Errorf("only %d names looked at", names)
	}
}

// testdata/material_shear.csv is a shear-strength chart, common practice, no
// source; the table agrees with it where both know a metal. The nominal and
// upper values of the plate steels are common practice, no source: 345/415,
// A36 414/448, the 355 class 430/504 (0.8 x 540 and 0.8 x 630), 304 517.
func TestMaterialTable(t *testing.T) {
	f, err := os.Open("testdata/material_shear.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	p := &Profile{Materials: builtInMaterials()}
	checked := 0
	for _, row := range rows[1:] {
		if row[1] == "" {
			continue
		}
		m, ok := p.Material(row[1])
		if !ok {
			t.Errorf("the chart's %q is not known as %q", row[0], row[1])
			continue
		}
		checked++
		ksi, _ := strconv.ParseFloat(row[2], 64)
		// 1 ksi = 6.894757 MPa (NIST SP 811); the chart prints whole MPa, the
		// spring steel's tens.
		if math.Abs(m.ShearMPa-ksi*6.894757) > 1+0.002*m.ShearMPa {
			t.Errorf("%s: shear %g MPa, the chart has %g ksi", m.Name, m.ShearMPa, ksi)
		}
	}
	if checked != 14 {
		t.Errorf("%d metals checked, want 14", checked)
	}
	for name, want := range map[string][4]float64{ // nominal, upper, clearance, density
		"mild": {345, 415, 0.12, 7850}, "S235": {345, 415, 0.12, 7850}, "S275": {345, 415, 0.12, 7850}, "A36": {414, 448, 0.12, 7850},
		"S355": {430, 504, 0.12, 7850}, "A572-50": {430, 504, 0.12, 7850}, "304": {517, 517, 0.14, 7900}, "aluminium 6061": {207, 207, 0.10, 2700},
	} {
		m, ok := p.Material(name)
		if !ok || [4]float64{m.ShearMPa, m.ShearUpperMPa, m.ClearanceShare, m.DensityKgM3} != want {
			t.Errorf("%s: %+v, want %v", name, m, want)
		}
	}
	// EN 10025-2:2019 Table 6, up to 16 mm: yield; tensile range's upper end.
	for name, want := range map[string][2]float64{"S235": {235, 510}, "S275": {275, 560}, "S355": {355, 630}} {
		if m, _ := p.Material(name); m.YieldMPa != want[0] || m.TensileMPa != want[1] {
			t.Errorf("%s: yield %g, tensile %g, want %v", name, m.YieldMPa, m.TensileMPa, want)
		}
	}
}

func TestMaterialsOfTheFile(t *testing.T) {
	p := load(t, with("end", `
[[material]]
name = "S420"
group = "high-strength"
shear = "470 MPa"
yield = "420 MPa"
tensile = "680 MPa"
aliases = ["S420M", "1.8825"]
clearance = "13 %"

[[material]]
name = "s 275"
shear = "360 MPa"

[[material]]
name = "bronze"
group = "copper"
shear = "250 MPa"
shear_upper = "300 MPa"
density = "8.8 g/cm3"
punchable = false
`))
	m, ok := p.Material("s420m")
	if !ok || m.Name != "S420" || m.ShearMPa != 470 || m.ShearUpperMPa != 470 || m.DensityKgM3 != 7850 || m.ClearanceShare != 0.13 || !m.Punchable || m.Source != "shop file" {
		t.Errorf("%+v", m)
	}
	if m, _ := p.Material("S275JR"); m.ShearMPa != 360 || m.ShearUpperMPa != 415 || m.YieldMPa != 275 || m.Source != "shop file" || m.Group != "mild" {
		t.Errorf("%+v", m)
	}
	if m, _ := p.Material("bronze"); m.DensityKgM3 != 8800 || m.Punchable || m.ShearUpperMPa != 300 {
		t.Errorf("%+v", m)
	}
	// The built-in table is not changed by a file.
	if m, _ := load(t, minimal).Material("S275"); m.ShearMPa != 345 {
		t.Errorf("%+v", m)
	}
	for text, want := range map[string]string{
		"[[material]]\nname = \"X\"\ngroup = \"mild\"":                                                               "shear is missing",
		"[[material]]\nname = \"X\"\nshear = \"345 MPa\"":                                                            "group is missing",
		"[[material]]\nname = \"X\"\ngroup = \"mild\"\nshear = \"345 MPa\"\nshear_upper = \"300 MPa\"":               "is less than shear",
		"[[material]]\nname = \"mild steel\"\nshear = \"350 MPa\"\n[[material]]\nname = \"MS\"\nshear = \"350 MPa\"": "is given twice",
	} {
		if got := problems(with("end", text)); !strings.Contains(got, want) || strings.Count(got, "\n") != 1 {
			t.Errorf("%s\ngives %q, want %q", text, got, want)
		}
	}
}
