package features_test

import (
	"slices"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// A ring with a word in it beside a larger plate may be a stamp; one with a mark,
// a size or nothing in it is a ring.
func TestStampIsDoubted(t *testing.T) {
	for text, want := range map[string]bool{"APPROVED": true, "FREIGABE": true, "": false, "P4": false, "PL 10": false, "Ø36": false} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(50, 70, 11)
		b.Circle(260, 20, 18).Circle(260, 20, 14)
		if text != "" {
			b.Text(250, 19, 3, text)
		}
		s := build(t, b)
		doubted := 0
		for i := range s.Parts {
			if slices.ContainsFunc(s.Parts[i].Doubts, func(d features.Doubt) bool { return d.Code == "maybe-letter" && d.Grave }) {
				doubted++
			}
		}
		if (doubted == 1) != want || doubted > 1 {
			t.Errorf("%q in the ring: %d parts doubted", text, doubted)
		}
	}
}
