package section

import "math"

// Gauge is the usual place of bolt holes in a leg of an angle. Lengths are in
// millimetres; 0 is not tabulated. Other places are allowed where clearance and
// edge distances hold.
type Gauge struct {
	LegMM        float64
	OneLineMM    float64 // one line of holes: from the outside of the heel
	FirstMM      float64 // two lines: from the outside of the heel to the first
	SecondMM     float64 // two lines: from the first to the second, in both tables
	OneMaxBoltMM float64 // the largest bolt for one line
	TwoMaxBoltMM float64 // the largest bolt for two lines
	Source       string  // the table, with its doubts
}

// gaugeTolMM is how far a leg may be off the leg of a gauge table. The legs of
// the tables are 3 mm and more apart; a drawing rounds 76.2 to 76.
const gaugeTolMM = 1

// Gauges gives the usual gauge lines of a leg: with units "in" the usual gages
// of the AISC Manual, with "mm" the table of the CISC Handbook. Only a leg that
// is in the table, within 1 mm, has any: nothing is interpolated, and ok is
// false for any other leg and any other unit.
func Gauges(legMM float64, units string) (g Gauge, ok bool) {
	var rows []Gauge
	switch units {
	case "in":
		rows = usualGages()
	case "mm":
		rows = handbookGauges()
	}
	for _, r := range rows {
		if math.Abs(r.LegMM-legMM) <= gaugeTolMM+sizeSlackMM {
			return r, true
		}
	}
	return Gauge{}, false
}

// usualGages are the usual gages for angles of the AISC Steel Construction
// Manual, Table 1-7A. It states no largest bolt.
func usualGages() []Gauge {
	const (
		table = "AISC Steel Construction Manual Table 1-7A, usual gages for angles"
		doubt = table + " (this leg from a copy, not confirmed)"
	)
	return []Gauge{
		gaugeIn(12, 6, 3, 2.5, doubt),
		gaugeIn(10, 5, 3, 2.5, doubt),
		gaugeIn(8, 4.5, 3, 3, table),
		gaugeIn(7, 4, 2.5, 3, table),
		gaugeIn(6, 3.5, 2.25, 2.5, table),
		gaugeIn(5, 3, 2, 1.75, table),
		gaugeIn(4, 2.5, 0, 0, table),
		gaugeIn(3.5, 2, 0, 0, table),
		gaugeIn(3, 1.75, 0, 0, table),
		gaugeIn(2.5, 1.375, 0, 0, table),
		gaugeIn(2, 1.125, 0, 0, table),
		gaugeIn(1.75, 1, 0, 0, table),
		gaugeIn(1.5, 0.875, 0, 0, table),
		gaugeIn(1.375, 0.875, 0, 0, table),
		gaugeIn(1.25, 0.75, 0, 0, table),
		gaugeIn(1, 0.625, 0, 0, table),
	}
}

// gaugeIn turns a row in inches into millimetres.
func gaugeIn(leg, one, first, second float64, source string) Gauge {
	mm := func(in float64) float64 { return tidy(in * mmPerInch) }
	return Gauge{LegMM: mm(leg), OneLineMM: mm(one), FirstMM: mm(first), SecondMM: mm(second), Source: source}
}

// handbookGauges are the usual gauges for angles of the CISC Handbook of Steel
// Construction, with the largest bolt that each is good for.
func handbookGauges() []Gauge {
	const table = "CISC Handbook of Steel Construction p. 6-168, usual gauges for angles"
	rows := []Gauge{
		{LegMM: 45, OneMaxBoltMM: 16, OneLineMM: 23},
		{LegMM: 50, OneMaxBoltMM: 16, OneLineMM: 28},
		{LegMM: 55, OneMaxBoltMM: 22, OneLineMM: 27},
		{LegMM: 60, OneMaxBoltMM: 24, OneLineMM: 35},
		{LegMM: 65, OneMaxBoltMM: 24, OneLineMM: 35},
		{LegMM: 75, OneMaxBoltMM: 24, OneLineMM: 45},
		{LegMM: 80, OneMaxBoltMM: 24, OneLineMM: 50},
		{LegMM: 90, OneMaxBoltMM: 24, OneLineMM: 60},
		{LegMM: 100, OneMaxBoltMM: 27, OneLineMM: 65},
		{LegMM: 125, OneMaxBoltMM: 30, OneLineMM: 80, TwoMaxBoltMM: 20, FirstMM: 45, SecondMM: 54},
		{LegMM: 150, OneMaxBoltMM: 36, OneLineMM: 90, TwoMaxBoltMM: 24, FirstMM: 55, SecondMM: 65},
		{LegMM: 200, OneMaxBoltMM: 36, OneLineMM: 115, TwoMaxBoltMM: 30, FirstMM: 80, SecondMM: 80},
	}
	for i := range rows {
		rows[i].Source = table
	}
	return rows
}
