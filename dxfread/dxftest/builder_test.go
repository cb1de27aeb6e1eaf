package dxftest_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"

	"github.com/google/go-cmp/cmp"
)

// plate is a drawing that the writing library can write too.
func plate() *dxftest.Builder {
	b := dxftest.New(dxftest.MM)
	b.Linetype("CENTRE2", 12.5, -2.5, 2.5, -2.5)
	b.LayerWith("MID", dxftest.LayerOptions{Colour: 3, Linetype: "CENTRE2"}).Line(-10, 70, 210.125, 70)
	b.Layer("CUT").Polyline(true, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 140, Bulge: -0.414214}, dxftest.V{Y: 140, Bulge: 0.5})
	b.Polyline(true, dxftest.Slot(100, 70, 14, 40.000001)...)
	b.Circle(40, 100, 11).Arc(160, 30, 7.5, 350, 80.25).Point(1, 2)
	b.Line3(0, 0, 0, 1, 2, 3)
	b.Layer("TEXT").Text(5, -20, 5, "PL 10 S275 Ø22 ±0,5 Плита")
	b.Want(40, 100, 0.5, "edge-distance got=20 limit=26.4")
	return b
}

func TestFormsAgree(t *testing.T) {
	b := plate()
	b.LayerWith("OFF", dxftest.LayerOptions{Colour: 5, Off: true}).LayerWith("FROZEN", dxftest.LayerOptions{Frozen: true, Locked: true})
	b.UseColour(2).UseLinetype("BYBLOCK").UseExtrusion(0, 0, -1)
	b.Circle(1, 2, 3)
	b.UseColour(256).UseLinetype("").UseExtrusion(0, 0, 1)
	b.Layer("0").Block("PAIR", 1, 1, func(b *dxftest.Builder) { b.Circle(0, 0, 4).Line(0, 0, 1, 1) })
	b.Layer("CUT").Insert("PAIR", 50, 60, dxftest.Placing{ScaleX: -2, AngleDeg: 30, Columns: 3, Rows: 2, ColSpacing: 20, RowSpacing: 15,
		Attributes: []dxftest.Attribute{{Tag: "NO", Value: "7", X: 1, Y: 2, Height: 3}}})
	b.MText(0, 0, 2.5, `{\fArial;4 HOLES\P1\S1/16; DIA}`)
	b.Ellipse(10, 10, 5, 0, 0.5, 0, 1.5).Spline(2, false, []float64{0, 0, 0, 1, 1, 1}, []float64{0, 0, 1, 2, 3, 0}, []float64{1, 0.5, 1})
	b.Dimension(0, 0, 200, 0, 100, -10, 0, 200, "")
	b.Paper(func(b *dxftest.Builder) { b.Line(0, 0, 297, 210) })
	want := dxftest.Golden(b.Drawing(t), false)
	for _, f := range dxftest.Forms() {
		d, err := dxfread.Decode(context.Background(), b.As(f), dxfread.Limits{})
		if err != nil {
			t.Errorf("%v: %v", f, err)
			continue
		}
		if diff := cmp.Diff(want, dxftest.Golden(d, false)); diff != "" {
			t.Errorf("%v reads otherwise than %v (-want +got):\n%s", f, dxftest.ASCII2007, diff)
		}
	}
}

func TestLibraryAgrees(t *testing.T) {
	b := plate()
	raw, err := b.ByLibrary()
	if err != nil {
		t.Fatal(err)
	}
	d, err := dxfread.Decode(context.Background(), raw, dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	ours := b.Drawing(t)
	// The library adds its own rows to the tables and $LUNITS to the header;
	// what was drawn must be the same to the last bit.
	if diff := cmp.Diff(dxftest.Golden(&dxfread.Drawing{Layers: ours.Layers, Types: ours.Types, Model: ours.Model}, false),
		dxftest.Golden(&dxfread.Drawing{Layers: ours.Layers, Types: ours.Types, Model: relayer(d, ours)}, false)); diff != "" {
		t.Errorf("what github.com/yofu/dxf wrote reads otherwise (-built +read):\n%s", diff)
	}
	if d.Header.InsUnits == nil || *d.Header.InsUnits != int(dxftest.MM) {
		t.Errorf("$INSUNITS is %v, want 4", d.Header.InsUnits)
	}
	for _, l := range d.Layers {
		if l.Name == "MID" && (l.Colour != 3 || d.Types[l.Linetype].Name != "CENTRE2" || len(d.Types[l.Linetype].Dashes) != 4) {
			t.Errorf("layer MID was read as %+v", l)
		}
	}
	if len(d.Notes) > 0 {
		t.Errorf("notes on a clean file: %+v", d.Notes)
	}
}

// TestLibraryRoundTrip writes random drawings through the library and reads
// them back exactly: it prints 16 decimals, which is more than a float64 above 8
// holds.
func TestLibraryRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 20 {
		b := dxftest.New(dxftest.Inch)
		c := func() float64 { return (8 + rng.Float64()*4000) * float64(1-2*rng.IntN(2)) }
		for range 100 {
			b.Layer([]string{"0", "CUT", "Löcher"}[rng.IntN(3)])
			switch rng.IntN(6) {
			case 0:
				b.Line3(c(), c(), c(), c(), c(), c())
			case 1:
				b.Circle(c(), c(), 8+rng.Float64())
			case 2:
				b.Arc(c(), c(), 8+rng.Float64(), 8+rng.Float64()*340, 8+rng.Float64()*340)
			case 3:
				vs := make([]dxftest.V, 2+rng.IntN(20))
				for i := range vs {
					vs[i] = dxftest.V{X: c(), Y: c(), Bulge: float64(rng.IntN(2)) * (8 + rng.Float64())}
				}
				b.Polyline(rng.IntN(2) == 0, vs...)
			case 4:
				b.Point(c(), c())
			case 5:
				b.Text(c(), c(), 8+rng.Float64(), "Ø13/16 × 4")
			}
		}
		raw, err := b.ByLibrary()
		if err != nil {
			t.Fatal(err)
		}
		d, err := dxfread.Decode(context.Background(), raw, dxfread.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		ours := b.Drawing(t)
		if diff := cmp.Diff(dxftest.Golden(&dxfread.Drawing{Layers: ours.Layers, Types: ours.Types, Model: ours.Model}, false),
			dxftest.Golden(&dxfread.Drawing{Layers: ours.Layers, Types: ours.Types, Model: relayer(d, ours)}, false)); diff != "" {
			t.Fatalf("(-built +read):\n%s", diff)
		}
	}
}

// relayer gives the entities of d the layer indices of other by name.
func relayer(d, other *dxfread.Drawing) []dxfread.Entity {
	for _, e := range d.Model {
		for i, l := range other.Layers {
			if l.Name == d.Layers[e.Base().Layer].Name {
				e.Base().Layer = int32(i)
				break
			}
		}
	}
	return d.Model
}

func TestWants(t *testing.T) {
	b := dxftest.New(dxftest.MM).Want(40, 100, 0.5, "edge-distance got=20 limit=26.4").
		Want(0, 0, 1, "open-outline anywhere").Want(7, 8, 0.1, "feature slot w=5 leg=a")
	b.Text(0, 0, 1, "no expectation")
	ws, err := dxftest.Wants(b.Drawing(t))
	if err != nil || len(ws) != 3 {
		t.Fatalf("%d wants, %v", len(ws), err)
	}
	got, ok := ws[0].Number("limit")
	if !ok || got != 26.4 || ws[0].Name != "edge-distance" || ws[0].Feature || ws[0].X != 40 || ws[0].Y != 100 || ws[0].Tolerance != 0.5 {
		t.Errorf("first want: %+v", ws[0])
	}
	if !ws[1].Anywhere || ws[1].Name != "open-outline" {
		t.Errorf("second want: %+v", ws[1])
	}
	if !ws[2].Feature || ws[2].Name != "slot" || ws[2].Values[1].Text != "a" || ws[2].Values[1].IsNumber {
		t.Errorf("third want: %+v", ws[2])
	}
	if _, err := dxftest.Wants(dxftest.New(dxftest.MM).Want(0, 0, 1, "web got:3").Drawing(t)); err == nil {
		t.Error("a want that is not understood was accepted")
	}
}
