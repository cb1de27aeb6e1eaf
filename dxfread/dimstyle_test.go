package dxfread_test

import (
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// TestDimensionStyles: tolerance, factor and what stands about the value, from
// the overrides of a dimension (variables by their group codes in the DXF
// reference, DIMSTYLE).
func TestDimensionStyles(t *testing.T) {
	p := func(code int, v any) dxftest.Pair { return dxftest.Pair{Code: code, Value: v} }
	b := dxftest.New(dxftest.MM)
	base := []dxftest.Pair{p(10, 100.0), p(20, -20.0), p(30, 0.0), p(11, 50.0), p(21, -20.0), p(31, 0.0), p(70, 32), p(42, 100.0), p(3, "STANDARD"), p(100, "AcDbAlignedDimension"),
		p(13, 0.0), p(23, 0.0), p(33, 0.0), p(14, 100.0), p(24, 0.0), p(34, 0.0), p(50, 0.0), p(100, "AcDbRotatedDimension")}
	own := func(pairs ...dxftest.Pair) []dxftest.Pair {
		out := append([]dxftest.Pair{}, base...)
		out = append(out, p(1001, "ACAD"), p(1000, "DSTYLE"), p(1002, "{"))
		return append(append(out, pairs...), p(1002, "}"))
	}
	b.Raw("DIMENSION", "AcDbDimension", own(p(1070, 71), p(1070, 1), p(1070, 47), p(1040, 0.2), p(1070, 48), p(1040, 0.1))...)
	b.Raw("DIMENSION", "AcDbDimension", own(p(1070, 144), p(1040, 25.4), p(1070, 3), p(1000, "<> mm"))...)
	b.Raw("DIMENSION", "AcDbDimension", own(p(1070, 71), p(1070, 0), p(1070, 47), p(1040, 0.2))...)
	b.Raw("DIMENSION", "AcDbDimension", base...)
	var got []dxfread.Dimension
	for _, e := range b.Drawing(t).Model {
		if d, ok := e.(*dxfread.Dimension); ok {
			got = append(got, *d)
		}
	}
	if len(got) != 4 {
		t.Fatalf("%d dimensions", len(got))
	}
	if d := got[0]; !d.HasTolerance || d.Plus != 0.2 || d.Minus != 0.1 {
		t.Errorf("tolerance: %+v", d)
	}
	if d := got[1]; d.HasTolerance || d.LinearFac != 25.4 || d.Post != "<> mm" {
		t.Errorf("factor and text: %+v", d)
	}
	for _, d := range got[2:] {
		if d.HasTolerance || d.Plus != 0 {
			t.Errorf("no tolerance: %+v", d)
		}
	}
}
