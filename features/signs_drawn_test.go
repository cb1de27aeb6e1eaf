package features_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// signPlate is a dimensioned plate of 200 x 140 with two holes.
func signPlate() *dxftest.Builder {
	return dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(40, 40, 9).Circle(160, 40, 9).
		Dimension(0, 0, 200, 0, 100, -15, 0, 200, "").Text(0, -40, 5, "PL 10 S275JR")
}

// checkSigns builds a drawing of the plate with signs: parts and holes of the first
// are wanted, and what is told of the signs; "" says that none is left out.
func checkSigns(t *testing.T, name string, b *dxftest.Builder, parts, holes int, taken, doubt string) {
	t.Helper()
	s := build(t, b)
	note := ""
	for _, n := range s.Notes {
		if n.Code == "symbol-taken-out" {
			note += n.Text
		}
	}
	var plate *features.Part
	said := ""
	for i := range s.Parts {
		said += graveDoubts(&s.Parts[i])
		if s.Parts[i].Box.Min == (s.Parts[i].Box.Min.Mul(0)) {
			plate = &s.Parts[i]
		}
	}
	n := 0
	for i := range s.Parts {
		n += s.Parts[i].Copies()
	}
	if plate == nil || n != parts || len(plate.Holes) != holes || (note == "") != (taken == "") || !strings.Contains(note, taken) || !strings.Contains(said, doubt) || doubt == "" && said != "" {
		t.Errorf("%s: note %q, doubts %q\n%s", name, note, said, describe(s))
	}
}

func TestToleranceFrameDrawn(t *testing.T) {
	frame := func(b *dxftest.Builder, x, y float64) *dxftest.Builder {
		b.Polyline(true, dxftest.Rect(x, y, 40, 10)...).Line(x+10, y, x+10, y+10).Line(x+28, y, x+28, y+10)
		b.Circle(x+5, y+5, 2.5).Line(x+1, y+5, x+9, y+5).Line(x+5, y+1, x+5, y+9)
		return b.Text(x+12, y+2.5, 5, "0.2").Text(x+32, y+2.5, 5, "A")
	}
	const what = "frame of a tolerance"
	checkSigns(t, "with a leader", frame(signPlate(), 240, 60).Line(240, 65, 220, 65).Line(220, 65, 169, 40), 1, 2, what, "")
	checkSigns(t, "under a call-out", frame(signPlate(), 240, 60).Text(240, 73, 5, "2x %%c18"), 1, 2, what, "")
	checkSigns(t, "with a call-out far off", frame(signPlate(), 240, 60).Text(240, 110, 5, "2x %%c18"), 2, 2, "", what)
	cells := signPlate()
	for _, c := range [][2]float64{{240, 10}, {250, 18}, {268, 12}} {
		cells.Polyline(true, dxftest.Rect(c[0], 60, c[1], 10)...)
	}
	cells.Circle(245, 65, 2.5).Text(252, 62.5, 5, "%%c0.2").Text(272, 62.5, 5, "B").Line(240, 65, 220, 65).Line(220, 65, 169, 40)
	checkSigns(t, "cell by cell", cells, 1, 2, what, "")
	// A bar with two lines across and a mark is none.
	bar := signPlate().Polyline(true, dxftest.Rect(240, 60, 40, 10)...).Line(250, 60, 250, 70).Line(268, 60, 268, 70).Circle(245, 65, 2.5).Text(252, 62.5, 5, "P2")
	checkSigns(t, "a bar with a mark", bar, 2, 2, "", "crosses the part")
}

func TestWeldSignsDrawn(t *testing.T) {
	lead := func() *dxftest.Builder {
		return signPlate().Line(200, 100, 230, 120).Line(230, 120, 290, 120).Text(242, 113, 4, "6")
	}
	triangle := []dxftest.V{{X: 250, Y: 120}, {X: 250, Y: 113}, {X: 257, Y: 120}}
	const what = "sign of a weld"
	checkSigns(t, "fillet of two lines", lead().Line(250, 120, 250, 113).Line(250, 113, 257, 120), 1, 2, what, "")
	checkSigns(t, "fillet all round", lead().Polyline(true, triangle...).Circle(230, 120, 2.5), 1, 2, what, "")
	checkSigns(t, "both sides", lead().Polyline(true, triangle...).Polyline(true, dxftest.V{X: 250, Y: 120}, dxftest.V{X: 250, Y: 127}, dxftest.V{X: 257, Y: 120}), 1, 2, what, "")
	checkSigns(t, "on site", lead().Polyline(true, triangle...).Line(230, 120, 230, 132).Line(230, 132, 238, 129).Line(238, 129, 230, 126), 1, 2, what, "")
	checkSigns(t, "spot", lead().Circle(265, 120, 3), 1, 2, what, "")
	// A hole in the plate keeps, though an arrow's bend stands in it; the arrow
	// lies on metal and is doubted.
	checkSigns(t, "a hole about the bend", signPlate().Line(200, 100, 170, 110).Line(170, 110, 120, 110).Circle(170, 110, 2.5).Text(130, 111, 4, "6"), 1, 3, "", "lies on the part")
	// A disc that the line leads to is a part; so is a triangle apart from it.
	checkSigns(t, "a disc at the end", lead().Circle(294, 120, 4), 2, 2, "", "")
	checkSigns(t, "a triangle apart", lead().Polyline(true, dxftest.V{X: 250, Y: 90}, dxftest.V{X: 250, Y: 83}, dxftest.V{X: 257, Y: 90}), 2, 2, "", "")
	checkSigns(t, "a triangle on a line to nowhere", signPlate().Line(230, 120, 290, 120).Polyline(true, triangle...), 2, 2, "", what)
}

func TestMarksInFigures(t *testing.T) {
	figure := func(b *dxftest.Builder, sides int, x, y float64, mark string) *dxftest.Builder {
		if sides == 0 {
			b.Circle(x, y, 9)
		} else {
			var v []dxftest.V
			for k := range sides {
				sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / float64(sides))
				v = append(v, dxftest.V{X: x + 9*cos, Y: y + 9*sin})
			}
			b.Polyline(true, v...)
		}
		return b.Text(x-4, y-2.5, 5, mark)
	}
	two := func(sides int, first, second string) *dxftest.Builder {
		b := signPlate().Polyline(true, dxftest.Rect(300, 0, 150, 80)...).Text(300, -20, 5, "PL 12 S275JR")
		return figure(figure(b, sides, 100, 170, first), sides, 375, 110, second)
	}
	const what = "balloon"
	for _, sides := range []int{0, 4, 6} {
		checkSigns(t, "marks", two(sides, "P1", "P2"), 2, 2, what, "")
	}
	checkSigns(t, "one mark twice", two(6, "P1", "P1"), 4, 2, "", "marked part")
	checkSigns(t, "with a leader", figure(signPlate(), 6, 230, 160, "P1").Line(222.2057713659, 155.5, 190, 130), 1, 2, what, "")
	checkSigns(t, "alone", figure(signPlate(), 6, 230, 160, "P1"), 2, 2, "", "marked part")
}
