package features

// insUnit is one code of $INSUNITS.
type insUnit struct {
	name string
	mm   float64
}

// insUnits gives the unit of a code of $INSUNITS, 1 to 24; false for 0
// (unitless) and for codes that do not exist. Codes and names: Autodesk DXF
// Reference, system variable INSUNITS. Sizes: the international inch of 25.4 mm
// exactly (yard and pound agreement of 1959); US survey units of 1200/3937 m
// (NIST Special Publication 811, appendix B); the astronomical unit of
// 149597870700 m (IAU 2012 resolution B2), light year and parsec from it.
func insUnits(code int) (insUnit, bool) {
	const inch, survey = 25.4, 1200000.0 / 3937
	table := [...]insUnit{
		1:  {"in", inch},
		2:  {"ft", 12 * inch},
		3:  {"mile", 63360 * inch},
		4:  {"mm", 1},
		5:  {"cm", 10},
		6:  {"m", 1000},
		7:  {"km", 1e6},
		8:  {"microinch", inch * 1e-6},
		9:  {"mil", inch * 1e-3},
		10: {"yd", 36 * inch},
		11: {"angstrom", 1e-7},
		12: {"nm", 1e-6},
		13: {"um", 1e-3},
		14: {"dm", 100},
		15: {"dam", 1e4},
		16: {"hm", 1e5},
		17: {"Gm", 1e12},
		18: {"au", 149597870700e3},
		19: {"light year", 9460730472580800e3},
		20: {"parsec", 3.0856775814913673e19},
		21: {"survey ft", survey},
		22: {"survey in", survey / 12},
		23: {"survey yd", 3 * survey},
		24: {"survey mile", 5280 * survey},
	}
	if code < 1 || code >= len(table) {
		return insUnit{}, false
	}
	return table[code], true
}

// flagUnit gives the size of a unit named by the user.
func flagUnit(name string) (float64, bool) {
	for _, u := range voteUnits() {
		if u.name == name {
			return u.mm, true
		}
	}
	return 0, false
}

// voteUnits are the units that a drawing without a header may be in.
func voteUnits() [5]insUnit {
	return [5]insUnit{{"mm", 1}, {"in", 25.4}, {"cm", 10}, {"m", 1000}, {"ft", 304.8}}
}

// HeaderUnitName names the unit of a code of $INSUNITS: "mm", "in", ...;
// "unitless" for 0 and "unknown" for codes that do not exist.
func HeaderUnitName(code int) string {
	if code == 0 {
		return "unitless"
	}
	if u, ok := insUnits(code); ok {
		return u.name
	}
	return "unknown"
}
