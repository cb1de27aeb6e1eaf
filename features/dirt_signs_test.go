package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtSigns: closed lines of the sheet that are no parts, each beside a drawing
// in which the like is one.
func dirtSigns(l *dirtList) {
	plate := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140) }
	box := func(b *dxftest.Builder, rows ...string) *dxftest.Builder {
		b.Polyline(true, dxftest.Rect(0, -60, 120, 30)...).Layer("NOTES")
		for i, row := range rows {
			b.Text(5, -40-float64(10*i), 4, row)
		}
		return b.Layer("CUT")
	}
	taken := func(b *dxftest.Builder, what string) *dxftest.Builder {
		return b.Want(0, 0, 0, "note code=symbol-taken-out anywhere says="+what)
	}
	part := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Want(0, -60, 0.02, "part w=120 h=30 area=3600 cuts=4")
	}
	doubt := func(b *dxftest.Builder) *dxftest.Builder {
		return part(b).Want(0, -60, 0.02, "doubt code=maybe-text-box grave=yes")
	}
	all := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Want(0, 0, 0, "note code=text-for-all count=2 anywhere")
	}

	// A rectangle round notes. Dimensioned, or without a heading, it may be a
	// part; with a mark and a thickness in it, it is one.
	l.add("notes-box", taken(box(plate(), "NOTES:", "DEBURR"), "box_round_a_text"))
	l.add("notes-box-general", taken(box(plate(), "ALL HOLES 22 DIA", "UNLESS NOTED"), "box_round_a_text"))
	l.add("notes-box-measured", all(doubt(box(plate(), "NOTES:", "DEBURR").Dimension(0, -60, 120, -60, 60, -75, 0, 120, ""))))
	l.add("notes-box-bare", all(doubt(box(plate(), "REMOVE SHARP EDGES", "PAINT GREY"))))
	l.add("notes-box-marked", part(box(plate(), "P2", "PL 8 S275", "QTY 4")))
	l.add("notes-box-named", all(part(box(plate(), "STIFFENER"))))
	// The only thickness of the drawing in a rectangle of its own.
	alone := dirtInside(dxftest.New(dxftest.MM).Layer("CUT"))
	l.add("notes-box-for-all", doubt(box(dirtSides(dirtWant(alone, ""), 0, 0, 200, 140), "PL 10 S275", "QTY 4")))

	// The scale drawn as bars; flat bars in a row with marks beside.
	bars := func(b *dxftest.Builder, n int, below ...string) *dxftest.Builder {
		for i := range n {
			b.Polyline(true, dxftest.Rect(float64(25*i), -40, 25, 3)...)
		}
		for i, text := range below {
			b.Text(float64(25*i)-1, -48, 3, text)
		}
		return b
	}
	l.add("scale-bar", taken(bars(plate(), 4, "0", "10", "20", "30", "40 m"), "scale_bar"))
	hollow := plate().Polyline(true, dxftest.Rect(0, -40, 25, 3)...).Polyline(true, dxftest.Rect(50, -40, 25, 3)...)
	l.add("scale-bar-filled", taken(hollow.Text(-1, -35, 3, "0").Text(24, -35, 3, "1").Text(49, -35, 3, "2").Text(74, -35, 3, "3"), "scale_bar"))
	l.add("scale-bar-lines", taken(dirtSides(plate(), 0, -40, 100, 3).Line(25, -40, 25, -37).Line(50, -40, 50, -37).Line(75, -40, 75, -37).
		Text(-1, -35, 3, "0").Text(49, -35, 3, "50").Text(99, -35, 3, "100"), "scale_bar"))

	// The sign of the projection method without a text or an axis; a gusset beside
	// a washer of other sizes.
	sign := func(high float64) *dxftest.Builder {
		return dirtSides(dirtWant(dirtInside(dxftest.New(dxftest.MM).Layer("CUT")), ""), 0, 0, 200, 140).Circle(260, -50, 8).Circle(260, -50, 4).
			Polyline(true, dxftest.V{X: 280, Y: -50 - high}, dxftest.V{X: 300, Y: -54}, dxftest.V{X: 300, Y: -46}, dxftest.V{X: 280, Y: -50 + high}).
			Want(0, 0, 0, "verdict is=cannot-tell anywhere") // no thickness
	}
	l.add("projection-bare", taken(sign(8), "sign_of_the_projection"))
	l.add("gusset-and-washer", sign(11).Want(252, -58, 0.02, "part w=16 h=16 area=150.80").Want(260, -50, 0.02, "feature round-hole d=8").Want(280, -61, 0.02, "part w=20 h=22 area=300 cuts=4"))

	// Dots at the ends of dimension lines and leaders. Two small holes with their
	// distance between them, and a small hole with its call-out, are holes.
	dim := func(y, x1, x2, r float64, beyond float64) *dxftest.Builder {
		return plate().Circle(x1, y, r).Circle(x2, y, r).Line(x1, y, x2, y).Line(x1, y+20, x1, y-beyond).Line(x2, y+20, x2, y-beyond)
	}
	pieces := "note code=dimension-exploded anywhere"
	l.add("dim-dots-beside", dim(-30, 0, 200, 1, 2).Text(95, -28, 4, "200").Want(0, 0, 0, pieces))
	l.add("dim-dots-rims", plate().Circle(0, -30, 1).Circle(200, -30, 1).Line(1, -30, 199, -30).Line(0, -5, 0, -32).Line(200, -5, 200, -32).Text(95, -28, 4, "200").Want(0, 0, 0, pieces))
	l.add("dim-dots-on-part", dim(20, 60, 140, 1, 2).Text(95, 22, 4, "80").Want(0, 0, 0, pieces))
	small := dirtSides(dirtInside(dirtNotes(dxftest.MM, 1)), 0, 0, 200, 140).Circle(40, 20, 2).Circle(160, 20, 2).Line(40, 20, 160, 20).Text(95, 22, 4, "120").
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot-8*math.Pi))
	l.add("small-holes-and-distance", small.Want(100, 20, 60.1, "feature round-hole d=4 count=2").Want(0, 0, 0, "doubt code=reading-doubt grave=yes anywhere says=nothing_says"))
	lead := "note code=leader anywhere"
	l.add("leader-dot-beside", taken(plate().Circle(220, 30, 1).Line(220, 30, 240, -20).Text(241, -21, 4, "PAINT"), "dot_at_the_end").Want(0, 0, 0, lead))
	hole := func(r float64) *dxftest.Builder {
		return dirtSides(dirtInside(dirtNotes(dxftest.MM, 1)), 0, 0, 200, 140).Circle(100, 20, r).Line(100, 20, 120, -30).Want(100, 20, 0.02, "feature round-hole").Want(0, 0, 0, lead).
			Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot-math.Pi*r*r))
	}
	l.add("leader-dot-on-part", hole(1).Text(121, -31, 4, "PAINT").Want(100, 20, 0.02, "doubt code=reading-doubt grave=yes says=dot_of_the_leader"))
	l.add("leader-to-small-hole", hole(2).Text(121, -31, 4, "1 HOLE 4 DIA"))
	l.add("leader-to-large-hole", hole(7).Text(121, -31, 4, "PIN"))

	// A revision cloud over a corner of the plate, and beside it about a text;
	// a plate whose edge is scallops.
	cloud := func(b *dxftest.Builder, x, y, bulge float64) *dxftest.Builder {
		var v []dxftest.V
		for i := range 4 {
			v = append(v, dxftest.V{X: x + 15*float64(i), Y: y, Bulge: bulge})
		}
		for i := range 3 {
			v = append(v, dxftest.V{X: x + 60, Y: y + 15*float64(i), Bulge: bulge})
		}
		for i := range 4 {
			v = append(v, dxftest.V{X: x + 60 - 15*float64(i), Y: y + 45, Bulge: bulge})
		}
		for i := range 3 {
			v = append(v, dxftest.V{X: x, Y: y + 45 - 15*float64(i), Bulge: bulge})
		}
		return b.Polyline(true, v...)
	}
	// Half circles of 15 on all sides of 60 x 45.
	scallops := 60*45 + 14*math.Pi*7.5*7.5/2
	area := fmt.Sprintf("part w=75 h=60 area=%.2f", scallops)
	l.add("cloud-about-text", all(cloud(plate(), 230, 0, 1).Text(240, 20, 4, "REV B").Want(222.5, -7.5, 0.02, area).
		Want(222.5, -7.5, 0.02, "doubt code=reading-doubt grave=yes says=cloud count=2")))
	l.add("scalloped-plate", cloud(dirtNotes(dxftest.MM, 1), 0, 0, 1).Circle(30, 20, 6).Want(-7.5, -7.5, 0.02, fmt.Sprintf("part w=75 h=60 area=%.2f", scallops-36*math.Pi)).
		Want(30, 20, 0.02, "feature round-hole d=12"))
}
