package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// A plate of 300 x 250 with four holes is plain in millimetres (common practice,
// no source), yet a note that states another unit is doubted, and one that
// states the same is not. Wordings as title blocks carry them (common practice,
// no source).
func TestStatedUnitIsAWitness(t *testing.T) {
	metric, _ := madePlates()
	for _, c := range []struct {
		texts  []string
		header dxftest.Unit
		doubt  string // the other unit, "" none
	}{
		{[]string{"DIMENSIONS IN INCHES"}, dxftest.MM, "in"},
		{[]string{"ALL DIMENSIONS IN INCHES"}, dxftest.MM, "in"},
		{[]string{"UNLESS OTHERWISE SPECIFIED DIMENSIONS ARE IN INCHES"}, dxftest.MM, "in"},
		{[]string{"MASSE IN CM"}, dxftest.MM, "cm"},
		{[]string{"Alle Maße in cm", "PL 10"}, dxftest.MM, "cm"},
		{[]string{"cotes en m"}, dxftest.MM, "m"},
		{[]string{"ALL DIMENSIONS IN INCHES"}, dxftest.NoUnit, "in"},
		{[]string{"DIMENSIONS IN MM"}, dxftest.MM, ""},
		{[]string{"DIMENSIONS IN MM (INCHES)"}, dxftest.MM, ""},
		{[]string{"DIMENSIONS IN MM", "DIMENSIONS IN INCHES"}, dxftest.MM, ""},
		{[]string{"WELD SIZES IN INCHES"}, dxftest.MM, ""},
		{[]string{"ALL DIMENSIONS IN MM"}, dxftest.NoUnit, ""},
	} {
		m := metric[0]
		m.texts = c.texts
		u := build(t, m.draw(c.header, 1)).Units
		if u.Name != "mm" || u.Doubt != (c.doubt != "") || u.Doubt && (u.Other != c.doubt || !strings.HasPrefix(c.texts[0], strings.TrimSuffix(u.Said, "…")) || u.Said == "") {
			t.Errorf("%q, header %v: %+v", c.texts, c.header, u)
		}
		if s := build(t, m.draw(c.header, 1), features.Options{Units: "mm"}); s.Units.Doubt {
			t.Errorf("%q with the unit asked for: %+v", c.texts, s.Units)
		}
	}
	// Dimensions that show inches of a drawing in millimetres.
	m := metric[0]
	m.texts = []string{"ALL DIMENSIONS IN INCHES"}
	b := m.draw(dxftest.MM, 1).Header("$DIMLFAC", dxftest.Pair{Code: 40, Value: 1 / 25.4})
	b.Dimension(0, 0, 300, 0, 150, -60, 0, 300, "")
	if u := build(t, b).Units; u.Doubt {
		t.Errorf("dimensions that show inches: %+v", u)
	}
}
