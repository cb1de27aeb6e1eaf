package section

import (
	"math"
	"testing"
)

// Ways to state a length by itself; common practice, no source. 3'-11 1/4" is
// 47.25 in, 1200.15 mm.
func TestStatedLength(t *testing.T) {
	metric := Mention{LegMM: [2]float64{75, 50}, ThicknessMM: 6, Unit: "mm"}
	inches := Mention{LegMM: [2]float64{101.6, 101.6}, ThicknessMM: 12.7, Unit: "in"}
	for text, want := range map[string]float64{
		"LG=1200": 1200, "1200 LG": 1200, "L = 1200": 1200, "LENGTH 1200": 1200, "LENGTH: 1200 mm": 1200, "L=1200 mm": 1200, "1200 LONG": 1200, "1200mm LG.": 1200, "(1200 LG)": 1200,
		"TOTAL LENGTH = 1200": 1200, "Länge 1200": 1200, "L = 1200 ±2": 1200, "LENGTH 1,200": 1200, "1.2 m LG": 1200,
		"": 0, "1200": 0, "L1 = 300": 0, "SLOT 40 LG": 0, "x 1200": 0, "- 1200": 0, "BAR LENGTH 6000": 0, "LENGTH": 0, "L": 0, "L=1200 TO L=1300": 0, "L75x50x6": 0, "2 x 40 LG": 0, "LG 1200 SHEET 2": 0, "1200 x 50 LG": 0,
	} {
		if got, ok := StatedLength(text, metric); ok != (want > 0) || ok && math.Abs(got-want) > 1e-6 {
			t.Errorf("%q: %v %v, want %v", text, got, ok, want)
		}
	}
	for text, want := range map[string]float64{"47.25 LG": 1200.15, "L=3'-11 1/4\"": 1200.15, "3'-11 1/4 LG": 1200.15, "1200 mm LG": 1200} {
		if got, ok := StatedLength(text, inches); !ok || math.Abs(got-want) > 1e-6 {
			t.Errorf("%q: %v %v, want %v", text, got, ok, want)
		}
	}
	for text, want := range map[string]bool{"LENGTH": true, "Length:": true, "TOTAL LENGTH": true, "LG.": true, "LÄNGE": true, "LENGTH 1200": false, "QTY": false, "": false, "LENGTHS OF ALL": false} {
		if IsLengthLabel(text) != want {
			t.Errorf("%q: a label of a length: %v", text, !want)
		}
	}
}
