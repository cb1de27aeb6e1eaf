package plan

import (
	"fmt"
	"math"
	"testing"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, tol)
	}
}

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func mild() *shop.Material {
	return &shop.Material{Name: "mild", Group: "mild", ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 250, TensileMPa: 450, DensityKgM3: 7850, ClearanceShare: 0.12, Punchable: true}
}

// poly makes a part from the corners of its outline, counter-clockwise. Each
// side is a straight cut; sides between corners listed in clips are clips.
func poly(name string, corners ...geom.Point) *features.Part {
	p := &features.Part{Name: name, Form: features.FormFlat, DrawnAt: make([]features.Placement, 1)}
	for i, a := range corners {
		p.Outline = append(p.Outline, geom.LineEdge(a, corners[(i+1)%len(corners)]))
	}
	p.Box = p.Outline.Bounds()
	p.AreaMM2 = p.Outline.Area()
	for i, e := range p.Outline {
		p.Features = append(p.Features, features.Feature{ID: fmt.Sprintf("E%d", i+1), Kind: features.StraightCut, Hole: -1,
			At: e.Mid(), From: e.From, To: e.To, LengthMM: e.Length(), CutLengthMM: e.Length(), Edges: []int{i}})
	}
	return p
}

// rect is a rectangle l x w with its corner at the origin.
func rect(name string, l, w float64) *features.Part {
	return poly(name, pt(0, 0), pt(l, 0), pt(l, w), pt(0, w))
}

// clip makes the side i a corner clip.
func clip(p *features.Part, is ...int) *features.Part {
	for _, i := range is {
		f := &p.Features[i]
		f.Kind = features.CornerClip
		d := f.To.Sub(f.From)
		f.Long = [2]float64{math.Abs(d.X), math.Abs(d.Y)}
	}
	return p
}

// holes adds round holes.
func holes(p *features.Part, d float64, at ...geom.Point) *features.Part {
	for _, a := range at {
		n := 0
		for _, f := range p.Features {
			if f.IsInside() {
				n++
			}
		}
		ring := geom.Ring{geom.CircleEdge(a, d/2)}
		p.Holes = append(p.Holes, ring)
		p.AreaMM2 -= math.Pi * d * d / 4
		p.Features = append(p.Features, features.Feature{ID: fmt.Sprintf("H%d", n+1), Kind: features.RoundHole, At: a, DiameterMM: d,
			Ring: ring, Hole: len(p.Holes) - 1, AreaMM2: math.Pi * d * d / 4, PerimeterMM: math.Pi * d})
	}
	return p
}

func add(p *features.Part, f features.Feature) *features.Part {
	p.Features = append(p.Features, f)
	return p
}

// yard is a shop invented for these tests: one machine that does all, with a
// blade of 600 mm, and flats, plates and rates.
func yard() *shop.Profile {
	return &shop.Profile{Name: "yard", Units: "mm", Buy: true, Default: "mild",
		Machines: []shop.Machine{{Name: "one",
			Punch: &shop.PunchStation{Rating: shop.Rating{ForceKN: 600, UsableShare: 0.9, UsableKN: 540, BasisMPa: 345}, ThroatMM: 300, Stop: true,
				Holders: []shop.Holder{{Name: "standard", MaxMM: 40}, {Name: "oversize", MaxMM: 100}}},
			Shear: &shop.ShearStation{Rating: shop.Rating{ForceKN: 800, BasisMPa: 345}, BladeMM: 600, HoldDownMM: 70,
				Rows: []shop.Row{{ThicknessMM: 6, SizeMM: 600}, {ThicknessMM: 12, SizeMM: 300}, {ThicknessMM: 20, SizeMM: 150}}},
			Notch: &shop.NotchStation{Rating: shop.Rating{ForceKN: 600, UsableKN: 540, BasisMPa: 345}, MaxThicknessMM: 12}}},
		Punches: []shop.Punch{
			{Name: "Ø22", Shape: "round", WidthMM: 22, Dies: []shop.Die{{WidthMM: 22.7}, {WidthMM: 23.2}, {WidthMM: 24.2}}},
			{Name: "Ø14", Shape: "round", WidthMM: 14, Dies: []shop.Die{{WidthMM: 14.7}, {WidthMM: 15.2}}},
			{Name: "Ø26", Shape: "round", WidthMM: 26, Dies: []shop.Die{{WidthMM: 28.4}}},
			{Name: "slot 22 x 50", Shape: "slot", WidthMM: 22, LengthMM: 50, Dies: []shop.Die{{WidthMM: 23.2}}},
		},
		Notchers: []shop.NotchTool{
			{Name: "box 80 x 60", Shape: "rectangular", WidthMM: 80, DepthMM: 60},
			{Name: "vee 90", Shape: "vee", AngleRad: math.Pi / 2, DepthMM: 60},
		},
		Materials: []shop.Material{*mild()},
		Stock:     shop.Stock{Stated: true, FlatWidthsMM: []float64{50, 60, 80, 100, 150, 200, 250, 300}, FlatLengthMM: 6000, Plates: [][2]float64{{1500, 3000}}},
		Also: []shop.Process{{Kind: "drill", Have: true, MaxDiameterMM: 40}, {Kind: "tap", Have: true}, {Kind: "countersink", Have: true},
			{Kind: "saw", Have: true, MaxDiameterMM: 300}, {Kind: "grinder", Have: true, MaxRadiusMM: 15, MaxThicknessMM: 12}},
		Rates: shop.Rates{HitStop: 8, HitMark: 25, CutBar: 15, CutPlate: 40, Bite: 12, PunchChange: 120, Setting: 180, FirstOff: 180,
			HandleLight: 20, HandleMedium: 40, HandleHeavy: 120, Drill: 60, Other: 120, Availability: 0.8},
	}
}

func job(t float64) Job { return Job{ThicknessMM: t, Material: mild(), MaterialName: "mild"} }

// grade is the worst grade of a plan: its blank, its cuts and its features.
func grade(p *Plan) station.Grade {
	g := station.OK
	for _, a := range p.Blank.Aspects {
		g = max(g, a.Grade)
	}
	for _, c := range p.Cuts {
		g = max(g, c.Use.Grade())
	}
	for _, mk := range p.Makes {
		g = max(g, mk.Use.Grade())
	}
	return g
}

// made finds how a feature is made.
func made(t *testing.T, p *Plan, id string) Make {
	t.Helper()
	for _, mk := range p.Makes {
		if p.Part.Features[mk.Feature].ID == id {
			return mk
		}
	}
	t.Fatalf("no feature %s", id)
	return Make{}
}

func wantMade(t *testing.T, p *Plan, id, by string, g station.Grade) Make {
	t.Helper()
	mk := made(t, p, id)
	if mk.MadeBy != by || mk.Use.Grade() != g {
		t.Errorf("%s of %s: made by %q, grade %d, want %q, %d: %+v", id, p.Part.Name, mk.MadeBy, mk.Use.Grade(), by, g, mk.Use.Aspects)
	}
	return mk
}

func rule(u station.Use) string { return limiting(u).Rule }

// ell is a rectangle l x w with a corner notch a x b at its upper right.
func ell(name string, l, w, a, b float64) *features.Part {
	p := poly(name, pt(0, 0), pt(l, 0), pt(l, w-b), pt(l-a, w-b), pt(l-a, w), pt(0, w))
	p.Features = append(p.Features[:2:2], p.Features[4:]...)
	return add(p, features.Feature{ID: "N1", Kind: features.Notch, Shape: features.NotchCorner, WidthMM: a, DepthMM: b, Long: [2]float64{a, b},
		At: pt(l-a/2, w-b/2), Mouth: [2]geom.Point{pt(l, w-b), pt(l-a, w)}, Edges: []int{2, 3}, AreaMM2: a * b, PerimeterMM: a + b, Hole: -1})
}
