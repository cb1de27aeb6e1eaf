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

	// Bars of a sign of 4 x 15; the same with a call for parts, and with a
	// dimension on each.
	row := func(b *dxftest.Builder) *dxftest.Builder {
		for i := range 5 {
			b.Polyline(true, dxftest.Rect(float64(8*i), -40, 4, 15)...)
		}
		return b.Want(0, -40, 0.02, "part w=4 h=15 area=60 copies=5 cuts=4").Want(0, 0, 0, "note code=text-for-all count=2 anywhere")
	}
	l.add("sign-of-bars", row(plate()).Want(2, -32.5, 0.02, "doubt code=maybe-letter grave=yes says=letters"))
	l.add("small-bars-called", row(plate()).Text(0, -50, 4, "P2 5 OFF"))
	measured := row(plate())
	for i := range 5 {
		x := float64(8 * i)
		measured.Dimension(x, -40, x+4, -40, x+2, -50, 0, 4, "")
	}
	l.add("small-bars-measured", measured)

	// A head drawn by hand on the rim of a hole: uneven, and askew to its shaft. A
	// triangular opening that nothing leads to is one.
	head := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Polyline(true, dxftest.V{X: 71, Y: 70}, dxftest.V{X: 74, Y: 73}, dxftest.V{X: 75, Y: 71})
	}
	l.add("leader-head-on-rim", head(plate()).Line(74.5, 72, 94, 90).Text(94, 91, 4, "%%c22").Want(0, 0, 0, pieces))
	dirtClouds(l)
}

// dirtClouds: revision clouds, and edges of parts that look like them.
func dirtClouds(l *dirtList) {
	plate := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140) }
	// bulges are nx by ny equal ones on the sides of a rectangle; with a bulge of
	// 1 they are half circles outside it.
	bulges := func(x, y, step float64, nx, ny int, bulge float64) []dxftest.V {
		var v []dxftest.V
		w, h := step*float64(nx), step*float64(ny)
		for i := range nx {
			v = append(v, dxftest.V{X: x + step*float64(i), Y: y, Bulge: bulge})
		}
		for i := range ny {
			v = append(v, dxftest.V{X: x + w, Y: y + step*float64(i), Bulge: bulge})
		}
		for i := range nx {
			v = append(v, dxftest.V{X: x + w - step*float64(i), Y: y + h, Bulge: bulge})
		}
		for i := range ny {
			v = append(v, dxftest.V{X: x, Y: y + h - step*float64(i), Bulge: bulge})
		}
		return v
	}
	cloud := func(b *dxftest.Builder, x, y, bulge float64) *dxftest.Builder {
		return b.Polyline(true, bulges(x, y, 15, 4, 3, bulge)...)
	}
	taken := func(name string, b *dxftest.Builder) {
		l.add(name, b.Want(0, 0, 0, "note code=symbol-taken-out count=1 anywhere says=revision_cloud"))
	}
	taken("cloud-about-text", cloud(plate(), 230, 0, 1).Text(240, 20, 4, "REV B"))
	taken("cloud-over-a-corner", cloud(plate(), 170, 110, 1))
	taken("cloud-about-a-hole", cloud(plate(), 30, 47, 0.5))
	taken("cloud-about-the-plate", plate().Polyline(true, bulges(-20, -20, 20, 12, 9, 0.5)...))
	// Bulges to the inside cross each other in the corners.
	taken("cloud-self-crossing", cloud(plate(), 170, 110, -0.5).Text(190, 150, 4, "B"))
	loose := plate()
	for i := range 10 {
		loose.Arc(150+12*float64(i), 100, 6, 0, 180)
	}
	taken("cloud-of-loose-arcs", loose)

	// Half circles of 15 on all sides of 60 x 45: a plate with such an edge, alone
	// and beside another; with words in it but measured.
	scallops := 60*45 + 14*math.Pi*7.5*7.5/2
	part := func(b *dxftest.Builder, x, y, hole float64) *dxftest.Builder {
		return b.Want(x-7.5, y-7.5, 0.02, fmt.Sprintf("part w=75 h=60 area=%.2f", scallops-math.Pi*hole*hole))
	}
	doubt := func(b *dxftest.Builder, x, y float64) *dxftest.Builder {
		return b.Want(x, y, 0.02, "doubt code=reading-doubt grave=yes says=cloud")
	}
	hole := func(b *dxftest.Builder, x, y, r float64) *dxftest.Builder {
		return b.Circle(x, y, r).Want(x, y, 0.02, fmt.Sprintf("feature round-hole d=%g", 2*r))
	}
	all := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Want(0, 0, 0, "note code=text-for-all count=2 anywhere")
	}
	l.add("scalloped-plate", hole(part(cloud(dirtNotes(dxftest.MM, 1), 0, 0, 1), 0, 0, 6), 30, 20, 6))
	l.add("scalloped-plate-beside", all(doubt(hole(part(cloud(plate(), 230, 0, 1), 230, 0, 6), 260, 20, 6), 222.5, -7.5)))
	l.add("scalloped-plate-measured", all(doubt(part(cloud(plate(), 230, 0, 1), 230, 0, 0), 222.5, -7.5).Text(240, 20, 4, "REV B").Dimension(230, 0, 290, 0, 260, -20, 0, 60, "")))
	opening := dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140)
	l.add("scalloped-opening", doubt(cloud(opening, 70, 45, 1).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-scallops)).
		Want(100, 67.5, 0.1, "feature cutout"), 62.5, 37.5))
	// A wheel with twelve half-round teeth about its bore.
	var wheel []dxftest.V
	for i := range 12 {
		y, x := math.Sincos(float64(i) * math.Pi / 6)
		wheel = append(wheel, dxftest.V{X: 300 + 40*x, Y: 60 + 40*y, Bulge: 1})
	}
	chord := 80 * math.Sin(math.Pi/12)
	reach := 40*math.Pow(math.Cos(math.Pi/12), 2) + chord/2
	l.add("wheel-beside", hole(plate().Polyline(true, wheel...), 300, 60, 12).
		Want(0, 0, 0, "verdict is=cannot-tell anywhere"). // no thickness stands by it
		Want(300-reach, 60-reach, 0.02, fmt.Sprintf("part area=%.2f", 12*(800*math.Sin(math.Pi/6)+math.Pi*chord*chord/8)-144*math.Pi)))
}
