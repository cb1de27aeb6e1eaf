package check_test

import (
	"fmt"

	"burrside/dxfread/dxftest"
)

// drawnCodes are the drawings of rules that a chosen code asks for; the code is
// the end of the name.
func drawnCodes() []drawing {
	var out []drawing
	add := func(rule, name string, b *dxftest.Builder) { out = append(out, drawing{rule: rule, name: name, b: b}) }
	// called is a plate with two holes that a text calls.
	called := func(t, steel string, d float64, text string) *dxftest.Builder {
		return holes(sheetOf(t, steel).Polyline(true, dxftest.Rect(0, 0, 300, 160)...).Layer("NOTES").Text(90, 200, 5, text).Layer("CUT"), d, at{100, 80}, at{200, 80})
	}
	m20 := func(t, steel string, d float64) *dxftest.Builder {
		return called(t, steel, d, fmt.Sprintf("2x %%%%c%g FOR M20 BOLTS", d))
	}
	add("punching-limit", "bad-is", m20("16", "S355", 22).Want(100, 80, 0.1, "punching-limit got=16 limit=15.77465 severity=warning count=2"))
	add("punching-limit", "ok-is", m20("20", "S275", 22))
	add("punching-limit", "bad-csa", m20("25", "S275", 26).Want(100, 80, 0.1, "punching-limit got=25 limit=24 severity=warning count=2").Want(0, 0, 0, "hole-class anywhere got=26 limit=24").Want(0, 0, 0, "shear-row anywhere"))
	add("punching-limit", "ok-csa", m20("20", "S275", 22))
	add("punching-limit", "bad-aisc-2005", m20("25", "S275", 26).Want(100, 80, 0.1, "punching-limit got=25 limit=23 severity=warning count=2").Want(0, 0, 0, "hole-class anywhere got=26 limit=24").Want(0, 0, 0, "shear-row anywhere"))
	add("punching-limit", "ok-aisc-2005", m20("20", "S275", 22))
	add("punching-limit", "ok-aisc", m20("20", "S275", 22))

	add("hole-class", "bad-aisc", called("10", "S275", 26, "2x %%c26 STD FOR M20 BOLTS").Want(100, 80, 0.1, "hole-class got=26 limit=22 severity=warning count=2"))
	add("hole-class", "bad-over-aisc", called("10", "S275", 26, "2x %%c26 FOR M20 BOLTS").Want(100, 80, 0.1, "hole-class got=26 limit=24 severity=warning count=2"))
	add("hole-class", "ok-over-aisc", called("10", "S275", 24, "2x %%c24 OVS FOR M20 BOLTS"))
	add("hole-class", "bad-std-en", called("10", "S275", 24, "2x %%c24 STD FOR M20 BOLTS").Want(100, 80, 0.1, "hole-class got=24 limit=22 severity=warning count=2"))
	add("hole-class", "ok-en", called("10", "S275", 22, "2x %%c22 STD FOR M20 BOLTS"))

	// The inside corners of an opening.
	add("inside-corner", "bad-radius-en", opening(plate(200, 140, "6"), 100, 70, 60, 40, 4).
		Want(0, 0, 0, "inside-corner anywhere got=4 limit=5 severity=warning").Want(0, 0, 0, "opening anywhere").Want(0, 0, 0, "opening anywhere"))
	add("inside-corner", "ok-radius-en", opening(plate(200, 140, "6"), 100, 70, 60, 40, 5).Want(100, 70, 0.1, "feature rectangular-hole w=40 l=60").Want(0, 0, 0, "opening anywhere").Want(0, 0, 0, "opening anywhere"))
	add("inside-corner", "bad-radius-aws", opening(plate(200, 140, "6"), 100, 70, 80, 60, 24.9).
		Want(0, 0, 0, "inside-corner anywhere got=24.9 limit=25 severity=warning").Want(0, 0, 0, "opening anywhere").Want(0, 0, 0, "opening anywhere"))
	return out
}
