package features_test

import (
	"context"
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestInsUnits holds every code of $INSUNITS against the table of the DXF
// reference.
func TestInsUnits(t *testing.T) {
	f, err := os.Open("testdata/insunits.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 26 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, r := range rows[1:] {
		code, _ := strconv.Atoi(r[0])
		s := build(t, dxftest.New(dxftest.Unit(code)).Circle(0, 0, 0.5))
		if code == 0 {
			if s.Units.From == features.UnitsHeader {
				t.Errorf("unitless counts as a unit: %+v", s.Units)
			}
			continue
		}
		if s.Units.From != features.UnitsHeader {
			t.Errorf("code %d (%s): from %s", code, r[1], s.Units.From)
		}
		if r[2] == "" {
			continue // the table states no size
		}
		want, _ := strconv.ParseFloat(r[2], 64)
		if math.Abs(s.Units.MM-want) > 1e-9*want {
			t.Errorf("code %d (%s) is %g mm, want %g", code, r[1], s.Units.MM, want)
		}
	}
}

func plate(u dxftest.Unit, k float64) *dxftest.Builder {
	b := dxftest.New(u)
	b.Polyline(true, dxftest.Rect(0, 0, 200*k, 140*k)...)
	b.Circle(40*k, 100*k, 11*k).Circle(160*k, 100*k, 11*k).Circle(40*k, 40*k, 7*k)
	return b
}

func TestUnits(t *testing.T) {
	t.Run("flag decides", func(t *testing.T) {
		s := build(t, plate(dxftest.MM, 1), features.Options{Units: "in"})
		if s.Units.Name != "in" || s.Units.From != features.UnitsFlag || !close(s.Parts[0].Box.Width(), 5080, 1e-6) {
			t.Errorf("%+v", s.Units)
		}
	})
	t.Run("unknown flag is told", func(t *testing.T) {
		s := build(t, plate(dxftest.MM, 1), features.Options{Units: "cubit"})
		if s.Units.From != features.UnitsHeader || !hasNote(s, "units-flag-unknown") {
			t.Errorf("%+v\n%s", s.Units, describe(s))
		}
	})
	t.Run("inch and mm twins", func(t *testing.T) {
		a, b := onePart(t, build(t, plate(dxftest.MM, 1))), onePart(t, build(t, plate(dxftest.Inch, 1/25.4)))
		if sizesOf(a) != sizesOf(b) {
			t.Errorf("mm:\n%s\ninch:\n%s", sizesOf(a), sizesOf(b))
		}
	})
	t.Run("vote for mm", func(t *testing.T) {
		for _, u := range []dxftest.Unit{dxftest.NoUnit, dxftest.Unitless} {
			s := build(t, plate(u, 1))
			if s.Units.Name != "mm" || s.Units.From != features.UnitsInferred || s.Units.Confidence < 1.5 || len(s.Units.Evidence) == 0 {
				t.Errorf("%+v", s.Units)
			}
		}
	})
	t.Run("vote for inch", func(t *testing.T) {
		b := dxftest.New(dxftest.NoUnit)
		b.Polyline(true, dxftest.Rect(0, 0, 8.0625, 5.5)...)
		b.Circle(1.5, 4, 0.40625).Circle(6.5, 4, 0.40625).Circle(1.5, 1.5, 0.28125)
		s := build(t, b)
		if s.Units.Name != "in" || s.Units.From != features.UnitsInferred {
			t.Errorf("%+v", s.Units)
		}
		if d := kinds(onePart(t, s), features.RoundHole); len(d) != 3 || !close(d[0].DiameterMM, 0.5625*25.4, 1e-6) {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("nothing to go by", func(t *testing.T) {
		b := dxftest.New(dxftest.NoUnit)
		b.Polyline(true, dxftest.Rect(0, 0, 61.3, 47.7)...)
		s := build(t, b)
		if s.Units.From != features.UnitsUnknown || s.Units.Name != "mm" || s.Units.MM != 1 || s.Units.Other == "" || !hasNote(s, "units-unknown") {
			t.Errorf("%+v", s.Units)
		}
	})
	t.Run("header against the evidence", func(t *testing.T) {
		// A plate of 6 m by 3.5 m with holes of 560 mm is a drawing in mm
		// with an inch header.
		b := dxftest.New(dxftest.Inch)
		b.Polyline(true, dxftest.Rect(0, 0, 240.3, 140.7)...)
		for i, r := range []float64{4.5, 5.5, 6.75, 8.75, 11, 13, 16.5} {
			b.Circle(20+30*float64(i), 60, r)
		}
		s := build(t, b)
		if s.Units.Name != "in" || !s.Units.Doubt || s.Units.Other != "mm" || s.Units.OtherMM != 1 || !hasNote(s, "units-doubt") {
			t.Errorf("%+v", s.Units)
		}
		if s := build(t, plate(dxftest.MM, 1)); s.Units.Doubt {
			t.Errorf("a good header is doubted: %+v", s.Units)
		}
		if s := build(t, plate(dxftest.Inch, 1/25.4)); s.Units.Doubt {
			t.Errorf("a good header is doubted: %+v", s.Units)
		}
	})
}

// TestPaperSpace: model space empty and the part in a layout; never when the
// model has a part or an outline with a gap.
func TestPaperSpace(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Paper(func(b *dxftest.Builder) { plateInto(b) })
	s := build(t, b)
	if onePart(t, s); s.Layout == "" || !hasNote(s, "paper-space") {
		t.Errorf("layout %q\n%s", s.Layout, describe(s))
	}
	b = plate(dxftest.MM, 1)
	b.Paper(func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(0, 0, 420, 297)...) })
	if s := build(t, b); s.Layout != "" || len(s.Parts) != 1 || !close(s.Parts[0].Box.Width(), 200, 1e-9) {
		t.Errorf("%s", describe(s))
	}
	b = dxftest.New(dxftest.MM)
	b.Line(0, 0, 100, 0).Line(100, 0, 100, 50).Line(100, 50, 0, 50).Line(0, 50, 0, 3)
	b.Paper(func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(0, 0, 420, 297)...) })
	if s := build(t, b); s.Layout != "" || len(s.Parts) != 0 || faultOf(s, "open-outline") == nil {
		t.Errorf("%s", describe(s))
	}
}

func plateInto(b *dxftest.Builder) {
	b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...)
	b.Circle(50, 30, 9)
}

func TestPlanes(t *testing.T) {
	t.Run("seen from the front", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.Line3(0, 0, 0, 100, 0, 0).Line3(100, 0, 0, 100, 0, 60).Line3(100, 0, 60, 0, 0, 60).Line3(0, 0, 60, 0, 0, 0)
		s := build(t, b)
		p := onePart(t, s)
		if !close(p.Box.Width(), 100, 1e-9) || !close(p.Box.Height(), 60, 1e-9) || !hasNote(s, "plane-turned") {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("elevation dropped", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.Line3(0, 0, 5, 100, 0, 5).Line3(100, 0, 5, 100, 60, 5).Line3(100, 60, 5, 0, 60, 5).Line3(0, 60, 5, 0, 0, 5)
		s := build(t, b)
		onePart(t, s)
		if !hasNote(s, "elevation-dropped") || len(s.Faults) != 0 {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("mixed", func(t *testing.T) {
		b := plate(dxftest.MM, 1)
		b.Line3(0, 0, 0, 0, 0, 50)
		s := build(t, b)
		onePart(t, s)
		if !hasNote(s, "mixed-planes") || faultOf(s, "read-incomplete") == nil {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("a hair of slope", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.Line3(0, 0, 0, 100, 0, 0.4).Line3(100, 0, 0, 100, 60, 0).Line3(100, 60, 0, 0, 60, 0).Line3(0, 60, 0, 0, 0, 0)
		s := build(t, b)
		onePart(t, s)
		if faultOf(s, "read-incomplete") != nil {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("mirrored by extrusion", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.UseExtrusion(0, 0, -1)
		b.Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: 80, Y: 0, Bulge: 1}, dxftest.V{X: 80, Y: 40}, dxftest.V{X: 0, Y: 40})
		s := build(t, b)
		p := onePart(t, s)
		// The end bulges outwards and to the left: 80 + 20 long.
		if !close(p.Box.Min.X, -100, 1e-9) || !close(p.AreaMM2, 80*40+math.Pi*200, 1e-6) {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("mirrored insert", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.Block("P", 0, 0, func(b *dxftest.Builder) {
			b.Line(0, 0, 60, 0).Arc(60, 20, 20, 270, 90).Line(60, 40, 0, 40).Line(0, 40, 0, 0)
		})
		b.Insert("P", 0, 0, dxftest.Placing{ScaleX: -1, ScaleY: 1})
		p := onePart(t, build(t, b))
		if !close(p.Box.Min.X, -80, 1e-9) || !close(p.AreaMM2, 60*40+math.Pi*200, 1e-6) {
			t.Errorf("box %v area %g", p.Box, p.AreaMM2)
		}
	})
	t.Run("stretched insert", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.Block("P", 0, 0, func(b *dxftest.Builder) { b.Circle(0, 0, 30) })
		b.Insert("P", 0, 0, dxftest.Placing{ScaleX: 2, ScaleY: 1})
		p := onePart(t, build(t, b))
		// An ellipse of 60 by 30: area pi a b, arcs within 0.01 mm.
		if !close(p.AreaMM2, math.Pi*60*30, 1) || len(p.Outline) < 4 || !p.Features[0].Fitted {
			t.Errorf("area %g, %d edges", p.AreaMM2, len(p.Outline))
		}
	})
}

// TestContext: a context that has ended ends the work at once, and one that
// ends on the way within 100 ms.
func TestContext(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	for i := range 4000 {
		b.Circle(float64(i%64)*20, float64(i/64)*20, 5)
	}
	d := b.Drawing(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := features.Build(ctx, d, features.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	ctx, cancel = context.WithTimeout(context.Background(), 5*time.Millisecond)
	defer cancel()
	start := time.Now()
	_, err := features.Build(ctx, d, features.Options{})
	if err != nil && time.Since(start) > 2*time.Second {
		t.Errorf("ended after %v", time.Since(start))
	}
}
