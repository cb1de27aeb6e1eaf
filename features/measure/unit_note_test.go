package measure

import "testing"

// Notes as title blocks carry them, in several languages (common practice, no
// source).
func TestUnitStatement(t *testing.T) {
	for text, want := range map[string]string{
		"ALL DIMENSIONS IN MM": "mm", "ALL DIMENSIONS ARE IN MILLIMETRES": "mm", "DIMENSIONS IN MILLIMETERS U.N.O.": "mm", "ALL DIMS IN mm": "mm", "DIMS. IN MM": "mm", "UNITS: MM": "mm", "Units = mm": "mm", "UNLESS NOTED ALL DIMENSIONS ARE IN INCHES": "in", "DIMENSIONS IN IN.": "in", "UNITS: IN": "in", "DIMENSIONS (IN)": "in", "DIMENSIONS IN FEET": "ft", "dimensions in cm": "cm", "DIMENSIONS IN METRES": "m",
		"Alle Maße in mm": "mm", "Maße in Millimeter": "mm", "Masse in mm": "mm", "Cotes en mm": "mm", "Toutes les cotes sont en mm": "mm", "Dimensions en millimètres": "mm", "Cotas en mm": "mm", "Medidas en milímetros": "mm", "Quote in mm": "mm", "Misure in millimetri": "mm", "Maten in mm": "mm", "Alla mått i mm": "mm", "Wymiary w mm": "mm", "Rozměry v mm": "mm", "Размеры в мм": "mm", "Medidas en pulgadas": "in", "Maße in Zoll": "in",
		"": "", "MM": "", "DIMENSIONS": "", "DIMENSIONS IN": "", "DIMENSIONS IN MM (INCHES)": "mm", "10 mm": "", "SEE DIMENSIONS, 10 MM THK": "", "DIMENSIONS IN MM. DIMENSIONS IN INCHES": "", "MAX DIMENSION X": "", "MAX DIMENSION M": "", "UNIT WEIGHT KG/M": "", "WELD SIZES IN MM": "", "DIMENSIONS [M]": "m", "Cotes en m": "m",
	} {
		if got, ok := UnitStatement(text); got != want || ok != (want != "") {
			t.Errorf("UnitStatement(%q) = %q, %v; want %q", text, got, ok, want)
		}
	}
}

// Notes on tolerances as title blocks carry them (common practice, no source).
func TestGeneralTolerance(t *testing.T) {
	for text, want := range map[string]LengthValue{
		"TOLERANCES ±0.5": bare(.5), "TOL. ±0.2 mm": mm(.2), "UNLESS NOTED TOLERANCE +/-1/16\"": in(.0625), "GENERAL TOLERANCE: ±1.0": bare(1), "Allgemeintoleranzen ±0,3": bare(.3), "tolérances ±0,5": bare(.5), "ISO 2768-f": mm(.1), "ISO 2768-fH": mm(.1), "TOLERANCE +-0.1": bare(.1),
		"HOLE POSITION ±0.1": bare(.1), "Lochbild ±0,2": bare(.2), "ISO 2768-m": {}, "ISO 2768-mK": {}, "ISO 2768-c": {}, "±0.5": {}, "TOLERANCE": {}, "TOLERANCES: .X ±0.1 .XX ±0.05": {}, "ANGULAR TOLERANCE ±1°": {}, "HOLE TOLERANCE ±0.1": {}, "": {},
	} {
		got, ok := GeneralTolerance(text)
		if got.MM != want.MM || got.Unit != want.Unit || ok != (want.MM > 0) {
			t.Errorf("GeneralTolerance(%q) = %+v, %v; want %+v", text, got, ok, want)
		}
	}
}
