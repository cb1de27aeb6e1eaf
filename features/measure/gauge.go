package measure

import "strings"

// Metals that have a table of gauges of their own.
const (
	GaugeSteel      = "steel"      // uncoated sheet: Manufacturers' Standard Gauge
	GaugeGalvanised = "galvanised" // with its zinc
	GaugeStainless  = "stainless"
)

// gaugeOunces gives the weights of the United States Standard Gauge in ounces a
// square foot, numbers 3 (heaviest) to 30, on which all three tables rest (act of
// Congress of 1893; also printed in Machinery's Handbook; from memory).
func gaugeOunces(number int) (float64, bool) {
	oz := [...]float64{160, 150, 140, 130, 120, 110, 100, 90, 80, 70, 60, 50, 45, 40, 36, 32, 28, 24, 22, 20, 18, 16, 14, 12, 11, 10, 9, 8}
	if number < 3 || number-3 >= len(oz) {
		return 0, false
	}
	return oz[number-3], true
}

// GaugeThickness gives the thickness of a gauge number in a metal, in mm: sheet
// steel by 41.82 lb/ft2 an inch; galvanised sheet with 2.5 oz/ft2 of zinc more by
// the same divisor, numbers 8 to 30; stainless by 40 lb/ft2 an inch. ok is false
// for other metals, which have other tables, and outside the tables.
func GaugeThickness(number int, metal string) (mm float64, ok bool) {
	if metal == GaugeSteel {
		return SheetGauge(number)
	}
	oz, ok := gaugeOunces(number)
	if !ok {
		return 0, false
	}
	switch {
	case metal == GaugeGalvanised && number >= 8:
		return (oz + 2.5) / 16 / 41.82 * mmPerInch, true
	case metal == GaugeStainless:
		return oz / 16 / 40 * mmPerInch, true
	}
	return 0, false
}

// GaugeMetal tells which table of gauges a text speaks of by the metal that it
// names; "" none, or one without a table here. Coated steel is named by its coat.
func GaugeMetal(text string) string {
	metal := ""
	for _, t := range tokens(text) {
		switch {
		case t.kind != tokenWord:
		case strings.HasPrefix(t.text, "galv"), strings.HasPrefix(t.text, "verzinkt"), strings.HasPrefix(t.text, "zinc"), t.word("gi"):
			return GaugeGalvanised
		case t.word("stainless", "inox", "edelstahl", "ss", "sst", "cres"):
			metal = GaugeStainless
		case metal == "" && t.word("crs", "hrs", "hrpo", "cr", "hr", "ms", "mild"):
			metal = GaugeSteel
		}
	}
	if metal != "" {
		return metal
	}
	g, ok := MaterialNote(text)
	if !ok {
		return ""
	}
	w := squeeze(g)
	switch family := gradeFamily(w); {
	case isStainless(family):
		return GaugeStainless
	case w == "aluminium" || w == "aluminum" || w == "brass" || w == "copper" || isAluminium(w):
		return ""
	case family != "", isOldEuropean(w), isAsian(w), w == "mildsteel", w == "baustahl":
		return GaugeSteel
	}
	return ""
}
