package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// ringDot is a dot as drawing programs draw one: a polyline of two half circles of
// radius r about (x,y), wide enough to fill it.
func ringDot(b *dxftest.Builder, x, y, r float64) *dxftest.Builder {
	type P = dxftest.Pair
	return b.Raw("LWPOLYLINE", "AcDbPolyline", P{Code: 90, Value: 2}, P{Code: 70, Value: 1}, P{Code: 43, Value: 2 * r},
		P{Code: 10, Value: x - r}, P{Code: 20, Value: y}, P{Code: 42, Value: 1.0}, P{Code: 10, Value: x + r}, P{Code: 20, Value: y}, P{Code: 42, Value: 1.0})
}

// A wide dot at the end of a leader is asked about once; without the leader its
// width is.
func TestWideDotIsDoubtedOnce(t *testing.T) {
	for name, c := range map[string]struct {
		draw func(b *dxftest.Builder)
		says string
	}{
		"to the centre": {func(b *dxftest.Builder) { ringDot(b, 100, 70, 1).Line(100, 70, 120, -30).Text(121, -31, 4, "PAINT") }, "dot of the leader"},
		"no leader":     {func(b *dxftest.Builder) { ringDot(b, 100, 70, 1).Text(121, -31, 4, "PAINT") }, "mm wide"},
	} {
		b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
		c.draw(b)
		s := build(t, b)
		var said []string
		for _, d := range onePart(t, s).Doubts {
			if d.Grave {
				said = append(said, d.Text)
			}
		}
		if len(said) != 1 || !strings.Contains(said[0], c.says) {
			t.Errorf("%s: %q", name, said)
		}
		if s.Parts[0].Features[0].Kind != features.RoundHole {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}
