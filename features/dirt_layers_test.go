package features_test

import (
	"bytes"
	"fmt"

	"burrside/dxfread/dxftest"
)

// dirtLayers: drawings on the wrong layer, with the wrong line, or in the wrong
// space.
func dirtLayers(l *dirtList) {
	plate := func(b *dxftest.Builder) *dxftest.Builder {
		return dirtSides(b, 0, 0, 200, 140).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...)
	}
	want := func(b *dxftest.Builder) *dxftest.Builder {
		return dirtWant(b, "").Want(60, 70, 0.02, "feature round-hole d=22").Want(140, 70, 0.02, "feature slot w=18 l=50")
	}
	l.add("layer-defpoints", want(plate(dirtNotes(dxftest.MM, 1).Layer("DEFPOINTS"))).Want(0, 0, 0, "note code=layer-brought-back anywhere"))
	// The outline on a layer that is off: what is left are holes without a part.
	l.add("layer-outline-off", dirtSides(dirtNotes(dxftest.MM, 1).LayerWith("OUTLINE", dxftest.LayerOptions{Off: true}), 0, 0, 200, 140).Layer("CUT").Circle(60, 70, 11).Circle(140, 70, 11).
		Want(0, 0, 0, "fault code=no-part says=off anywhere").Want(0, 0, 0, "note code=outline-not-shown count=2 anywhere"))
	l.add("layer-outline-off-one-hole", dirtSides(dirtNotes(dxftest.MM, 1).LayerWith("OUTLINE", dxftest.LayerOptions{Off: true}), 0, 0, 200, 140).Layer("CUT").Circle(60, 70, 11).
		Want(0, 0, 0, "fault code=no-part says=off anywhere").Want(0, 0, 0, "note code=outline-not-shown anywhere"))
	l.add("layer-all-off", plate(dirtNotes(dxftest.MM, 1).LayerWith("OUTLINE", dxftest.LayerOptions{Off: true})).Layer("CUT").
		Want(0, 0, 0, "fault code=no-part says=off anywhere"))
	l.add("layer-all-frozen", plate(dirtNotes(dxftest.MM, 1).LayerWith("OUTLINE", dxftest.LayerOptions{Frozen: true})).Layer("CUT").
		Want(0, 0, 0, "fault code=no-part says=frozen anywhere"))
	l.add("layer-second-off", want(plate(dirtNotes(dxftest.MM, 1))).LayerWith("OLD", dxftest.LayerOptions{Off: true}).Polyline(true, dxftest.Rect(10, 10, 20, 20)...).Layer("CUT"))
	// Dashed outlines: all of it, and the outline alone with whole holes.
	l.add("dashed-all", want(plate(dirtNotes(dxftest.MM, 1).Linetype("ZZ", 6, -3).UseLinetype("ZZ"))).UseLinetype("").
		Want(0, 0, 0, "note code=layer-brought-back anywhere").Want(0, 0, 0, "doubt code=reading-doubt grave=yes anywhere"))
	l.add("dashed-outline", dirtSides(dirtNotes(dxftest.MM, 1).Linetype("ZZ", 6, -3).UseLinetype("ZZ"), 0, 0, 200, 140).UseLinetype("").Circle(60, 70, 11).Circle(140, 70, 8).
		Want(49, 59, 0.02, "part w=22 h=22").Want(132, 62, 0.02, "part w=16 h=16").Want(0, 0, 0, "doubt code=reading-doubt grave=yes count=4 anywhere").
		Want(0, 0, 0, "note code=text-for-all count=2 anywhere"))
	// Cut and print: the same part on two layers.
	l.add("paper-only", want(dirtNotes(dxftest.MM, 1).Paper(func(b *dxftest.Builder) { plate(b) })).Want(0, 0, 0, "note code=paper-space anywhere").Want(0, 0, 0, "verdict is=cannot-tell anywhere"))
	l.add("paper-and-model", want(plate(dirtNotes(dxftest.MM, 1))).Paper(func(b *dxftest.Builder) { plate(b) }))
	l.add("paper-frame-only", want(plate(dirtNotes(dxftest.MM, 1))).Paper(func(b *dxftest.Builder) {
		b.Polyline(true, dxftest.Rect(0, 0, 420, 297)...).Polyline(true, dxftest.Rect(10, 10, 400, 277)...)
	}))

	// Old minimal files: a section ENTITIES and nothing else.
	bare := func(b *dxftest.Builder) []byte {
		raw := b.As(dxftest.ASCIIR12)
		i := bytes.Index(raw, []byte("  0\nSECTION\n  2\nENTITIES"))
		return raw[i:]
	}
	unsaid := want(dirtSides(dxftest.New(dxftest.NoUnit).Layer("CUT"), 0, 0, 200, 140).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...)).
		Want(0, 0, 0, "verdict is=cannot-tell anywhere") // no thickness
	*l = append(*l, dirtDrawing{"minimal-entities", bare(unsaid)})
	noted := want(plate(dirtNotes(dxftest.NoUnit, 1)))
	*l = append(*l, dirtDrawing{"minimal-entities-noted", bare(noted)})
	l.addAs("old-r12", dxftest.ASCIIR12, want(plate(dirtNotes(dxftest.NoUnit, 1))))
	l.addAs("old-r12-binary", dxftest.BinaryR12, want(plate(dirtNotes(dxftest.NoUnit, 1))))
}

// dirtNoPart: drawings of which no part, or not all of it, can be read; each
// says what was there.
func dirtNoPart(l *dirtList) {
	type P = dxftest.Pair
	sides := func() *dxftest.Builder { return dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140) }
	quad := func(b *dxftest.Builder, kind, sub string) *dxftest.Builder {
		return b.Raw(kind, sub, P{Code: 10, Value: 0.0}, P{Code: 20, Value: 0.0}, P{Code: 30, Value: 0.0}, P{Code: 11, Value: 200.0}, P{Code: 21, Value: 0.0}, P{Code: 31, Value: 0.0},
			P{Code: 12, Value: 0.0}, P{Code: 22, Value: 140.0}, P{Code: 32, Value: 0.0}, P{Code: 13, Value: 200.0}, P{Code: 23, Value: 140.0}, P{Code: 33, Value: 0.0})
	}
	none := func(says string) string { return "fault code=no-part says=" + says + " anywhere" }
	incomplete := "fault code=read-incomplete anywhere"
	l.add("only-solid", quad(dirtNotes(dxftest.MM, 1), "SOLID", "AcDbTrace").Want(0, 0, 0, none("solid")))
	l.add("only-trace", quad(dirtNotes(dxftest.MM, 1), "TRACE", "AcDbTrace").Want(0, 0, 0, none("solid")))
	l.add("only-3dface", quad(dirtNotes(dxftest.MM, 1), "3DFACE", "AcDbFace").Want(0, 0, 0, none("3dface")))
	for _, kind := range []string{"REGION", "3DSOLID", "BODY"} {
		l.add("only-"+kind, dirtNotes(dxftest.MM, 1).Raw(kind, "AcDbModelerGeometry", P{Code: 70, Value: 1}, P{Code: 1, Value: "mnhg"}).
			Want(0, 0, 0, none(map[string]string{"REGION": "region", "3DSOLID": "3dsolid", "BODY": "body"}[kind])).Want(0, 0, 0, incomplete).Want(0, 0, 0, "note anywhere code=entity-skipped"))
	}
	mesh := dirtNotes(dxftest.MM, 1).Raw("POLYLINE", "AcDbPolyFaceMesh", P{Code: 66, Value: 1}, P{Code: 10, Value: 0.0}, P{Code: 20, Value: 0.0}, P{Code: 30, Value: 0.0}, P{Code: 70, Value: 64}, P{Code: 71, Value: 4}, P{Code: 72, Value: 1})
	for _, v := range dxftest.Rect(0, 0, 200, 140) {
		mesh.Raw("VERTEX", "AcDbVertex", P{Code: 100, Value: "AcDbPolyFaceMeshVertex"}, P{Code: 10, Value: v.X}, P{Code: 20, Value: v.Y}, P{Code: 30, Value: 0.0}, P{Code: 70, Value: 192})
	}
	mesh.Raw("VERTEX", "AcDbFaceRecord", P{Code: 10, Value: 0.0}, P{Code: 20, Value: 0.0}, P{Code: 30, Value: 0.0}, P{Code: 70, Value: 128}, P{Code: 71, Value: 1}, P{Code: 72, Value: 2}, P{Code: 73, Value: 3}, P{Code: 74, Value: 4}).Raw("SEQEND", "")
	l.add("only-mesh", mesh.Want(0, 0, 0, none("mesh")).Want(0, 0, 0, incomplete).Want(0, 0, 0, "note anywhere code=entity-skipped"))
	l.add("only-text", dirtNotes(dxftest.MM, 1).Text(0, 0, 5, "PLATE 200 x 140").Want(0, 0, 0, none("text")))
	l.add("only-points", dirtNotes(dxftest.MM, 1).Point(0, 0).Point(200, 0).Point(200, 140).Point(0, 140).Want(0, 0, 0, none("point")))
	l.add("only-dimensions", dirtNotes(dxftest.MM, 1).Dimension(0, 0, 200, 0, 100, -10, 0, 200, "").Want(0, 0, 0, none("dimension")))
	l.add("only-hatch", dirtNotes(dxftest.MM, 1).Raw("HATCH", "AcDbHatch", P{Code: 10, Value: 0.0}, P{Code: 20, Value: 0.0}, P{Code: 30, Value: 0.0}, P{Code: 2, Value: "SOLID"}, P{Code: 70, Value: 1}, P{Code: 71, Value: 0}, P{Code: 91, Value: 1},
		P{Code: 92, Value: 2}, P{Code: 72, Value: 0}, P{Code: 73, Value: 1}, P{Code: 93, Value: 4},
		P{Code: 10, Value: 0.0}, P{Code: 20, Value: 0.0}, P{Code: 10, Value: 200.0}, P{Code: 20, Value: 0.0}, P{Code: 10, Value: 200.0}, P{Code: 20, Value: 140.0}, P{Code: 10, Value: 0.0}, P{Code: 20, Value: 140.0},
		P{Code: 97, Value: 0}, P{Code: 75, Value: 0}, P{Code: 76, Value: 1}, P{Code: 98, Value: 0}).Want(0, 0, 0, none("hatch")))
	l.add("empty", dirtNotes(dxftest.MM, 1).Want(0, 0, 0, "fault code=no-part anywhere"))
	l.add("one-line", dirtNotes(dxftest.MM, 1).Line(0, 0, 200, 0).Want(0, 0, 0, "fault code=no-part anywhere").Want(0, 0, 0, "note code=stray-line anywhere"))
	// A solid beside a drawn plate is a filled arrow; a region may be a part.
	l.add("plate-and-region", dirtSides(dirtPlate(), 0, 0, 200, 140).Raw("REGION", "AcDbModelerGeometry", P{Code: 70, Value: 1}, P{Code: 1, Value: "mnhg"}).
		Want(0, 0, 0, incomplete).Want(0, 0, 0, "note anywhere code=entity-skipped"))

	// Holes that are marked and not drawn: points, symbols of nothing but a
	// point or a text, and crosses.
	bare := func(b *dxftest.Builder, more string) *dxftest.Builder {
		return b.Want(0, 0, 0.02, "part w=200 h=140 area=28000 cuts=4"+more)
	}
	doubt := "doubt code=maybe-opening grave=yes anywhere"
	l.add("points-in-holes", dirtSides(dirtPlate(), 0, 0, 200, 140).Point(60, 70).Point(124, 70).Point(156, 70).Point(0, 0).Point(200, 140).Want(0, 0, 0, "ignored what=point count=5 anywhere"))
	l.add("holes-as-points", bare(sides(), "").Point(60, 70).Point(140, 70).Want(0, 0, 0, doubt))
	l.add("holes-as-points-one-drawn", sides().Circle(60, 70, 11).Point(60, 70).Point(140, 70).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole)).
		Want(60, 70, 0.02, "feature round-hole d=22").Want(140, 70, 0.02, "doubt code=maybe-opening grave=yes"))
	l.add("holes-as-symbols", bare(sides(), "").Block("HOLE22", 0, 0, func(b *dxftest.Builder) { b.Point(0, 0) }).Insert("HOLE22", 60, 70).Insert("HOLE22", 140, 70).Want(0, 0, 0, doubt))
	l.add("holes-as-empty-blocks", bare(sides(), "").Block("HOLE22", 0, 0, func(b *dxftest.Builder) {}).Insert("HOLE22", 60, 70).Insert("HOLE22", 140, 70).Want(0, 0, 0, doubt))
	l.add("holes-as-missing-blocks", bare(sides(), "").Insert("HOLE22", 60, 70).Want(0, 0, 0, incomplete).Want(0, 0, 0, "note anywhere code=block-missing"))
	l.add("holes-as-crosses", bare(sides(), "").Line(50, 70, 70, 70).Line(60, 60, 60, 80).Want(60, 70, 12, "doubt code=reading-doubt grave=yes count=4"))
	l.add("holes-as-solids", quad(bare(sides(), ""), "SOLID", "AcDbTrace"))
	l.add("hole-circle-dashed", bare(sides(), "").Linetype("ZZ", 6, -3).UseLinetype("ZZ").Circle(60, 70, 11).UseLinetype("").Want(0, 0, 0, "doubt code=maybe-opening grave=yes anywhere"))
}
