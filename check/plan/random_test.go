package plan

import (
	"math"
	"reflect"
	"testing"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
	"pgregory.net/rapid"
)

// drawPart makes a random convex part: a rectangle with up to four corners cut
// off, lying at any angle, with some holes.
func drawPart(rt *rapid.T) *features.Part {
	l := rapid.Float64Range(60, 1500).Draw(rt, "l")
	w := rapid.SampledFrom([]float64{50, 60, 80, 100, 120, 150, 200, 333, 500}).Draw(rt, "w")
	var c []geom.Point
	corner := []geom.Point{pt(0, 0), pt(l, 0), pt(l, w), pt(0, w)}
	var cuts []int
	for i, p := range corner {
		if !rapid.Bool().Draw(rt, "clip") {
			c = append(c, p)
			continue
		}
		next, last := corner[(i+1)%4].Sub(p).Unit(), corner[(i+3)%4].Sub(p).Unit()
		a := rapid.Float64Range(5, min(l, w)*0.45).Draw(rt, "a")
		b := rapid.Float64Range(5, min(l, w)*0.45).Draw(rt, "b")
		cuts = append(cuts, len(c))
		c = append(c, p.Add(last.Mul(b)), p.Add(next.Mul(a)))
	}
	m := geom.NewTurn(rapid.Float64Range(0, 2*math.Pi).Draw(rt, "turn")).Then(geom.NewShift(pt(rapid.Float64Range(-1e4, 1e4).Draw(rt, "x"), 77)))
	for i := range c {
		c[i] = m.Apply(c[i])
	}
	p := clip(poly("random", c...), cuts...)
	for range rapid.IntRange(0, 5).Draw(rt, "holes") {
		d := rapid.SampledFrom([]float64{14, 16, 22, 26, 45}).Draw(rt, "d")
		holes(p, d, m.Apply(pt(rapid.Float64Range(0.2, 0.8).Draw(rt, "hx")*l, rapid.Float64Range(0.2, 0.8).Draw(rt, "hy")*w)))
	}
	return p
}

// Whatever the part: every feature has one make, every edge one kind, and the
// cuts are real ones: each covers the edges that it makes and leaves the part
// whole on one side.
func TestCutsMakeThePart(t *testing.T) {
	cuts := 0
	rapid.Check(t, func(rt *rapid.T) {
		part := drawPart(rt)
		th := rapid.SampledFrom([]float64{3, 6, 10, 12, 20, 30}).Draw(rt, "t")
		p := yard()
		if rapid.Bool().Draw(rt, "no stock") {
			p.Stock = shop.Stock{}
		}
		j := job(th)
		j.BlankGiven = rapid.Bool().Draw(rt, "given")
		pl := MakePlan(part, p, j)
		if len(pl.Makes) != len(part.Features) || len(pl.Edges) != len(part.Outline) {
			rt.Fatalf("%d makes of %d features", len(pl.Makes), len(part.Features))
		}
		for i, mk := range pl.Makes {
			if mk.Feature != i || mk.MadeBy == "" {
				rt.Fatalf("make %d: %+v", i, mk)
			}
		}
		blank := geom.Box{Min: pt(0, 0), Max: pt(pl.Blank.LengthMM, pl.Blank.WidthMM)}.Grow(1e-6)
		f := frame{origin: pl.Blank.Corners[0], u: pt(math.Cos(pl.Blank.AngleRad), math.Sin(pl.Blank.AngleRad))}
		f.u = pl.Blank.Corners[1].Sub(pl.Blank.Corners[0]).Unit()
		f.v = f.u.Left()
		for _, e := range part.Outline {
			if !blank.Contains(f.in(e.From)) {
				rt.Fatalf("the part does not lie in its blank %+v", pl.Blank)
			}
		}
		if pl.Work.Known && pl.Work.GrossKG < pl.Work.NetKG-1e-9 {
			rt.Fatalf("gross %v under net %v", pl.Work.GrossKG, pl.Work.NetKG)
		}
		for _, c := range pl.Cuts {
			cuts++
			d := c.To.Sub(c.From)
			if d.Len() < 1 || c.LengthMM < d.Len()-1e-6 && c.What != "strip cut" {
				rt.Fatalf("cut %+v", c)
			}
			if len(c.Features) != 1 || c.What == "strip cut" || c.OnBar && c.What == "end cut" {
				continue
			}
			ft := part.Features[c.Features[0]]
			for _, q := range []geom.Point{ft.From, ft.To} {
				along := q.Sub(c.From).Dot(d.Unit())
				if off := math.Abs(q.Sub(c.From).Cross(d.Unit())); off > onSide || along < -onSide || along > d.Len()+onSide {
					rt.Fatalf("cut %v - %v does not make %s at %v", c.From, c.To, ft.ID, q)
				}
			}
			lo, hi := 0.0, 0.0
			for _, e := range part.Outline {
				h := e.From.Sub(c.From).Cross(d.Unit())
				lo, hi = min(lo, h), max(hi, h)
			}
			if min(-lo, hi) > onSide {
				rt.Fatalf("cut %v - %v goes through the part", c.From, c.To)
			}
		}
	})
	if cuts == 0 {
		t.Error("no cut was looked at")
	}
}

// More force, a deeper throat, a longer blade never make a part worse; two runs
// agree to the bit.
func TestPlanMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		part := drawPart(rt)
		j := job(rapid.Float64Range(3, 25).Draw(rt, "t"))
		p := yard()
		p.Machines[0].Punch.UsableKN = rapid.Float64Range(50, 600).Draw(rt, "force")
		p.Machines[0].Punch.ThroatMM = rapid.Float64Range(20, 400).Draw(rt, "throat")
		before := MakePlan(part, p, j)
		if !reflect.DeepEqual(before, MakePlan(part, p, j)) {
			rt.Fatal("two runs differ")
		}
		p.Machines[0].Punch.UsableKN *= rapid.Float64Range(1, 3).Draw(rt, "more force")
		p.Machines[0].Punch.ThroatMM *= rapid.Float64Range(1, 3).Draw(rt, "deeper")
		p.Machines[0].Shear.BladeMM *= rapid.Float64Range(1, 3).Draw(rt, "longer")
		after := MakePlan(part, p, j)
		if grade(after) > grade(before) {
			rt.Fatalf("grade %d became %d", grade(before), grade(after))
		}
		for i := range after.Makes {
			f := &part.Features[i]
			if f.IsInside() && after.Makes[i].Use.Grade() > before.Makes[i].Use.Grade() {
				rt.Fatalf("%s: %d became %d", f.ID, before.Makes[i].Use.Grade(), after.Makes[i].Use.Grade())
			}
		}
	})
}

// A second machine never makes a part worse (A part is judged by its best route).
func TestMoreMachinesAreNoWorse(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		part := drawPart(rt)
		j := job(rapid.Float64Range(3, 25).Draw(rt, "t"))
		p := yard()
		one := MakePlan(part, p, j)
		p.Machines = append(p.Machines, shop.Machine{Name: "two",
			Punch: &shop.PunchStation{Rating: shop.Rating{UsableKN: rapid.Float64Range(50, 1200).Draw(rt, "force")}, ThroatMM: 250, Holders: []shop.Holder{{Name: "any", MaxMM: 60}}},
			Shear: &shop.ShearStation{BladeMM: 800, Rows: []shop.Row{{ThicknessMM: 15, SizeMM: 700}}}})
		both := MakePlan(part, p, j)
		if grade(both) > grade(one) {
			rt.Fatalf("grade %d became %d", grade(one), grade(both))
		}
		for i := range both.Makes {
			if part.Features[i].IsInside() && both.Makes[i].Use.Grade() > one.Makes[i].Use.Grade() {
				rt.Fatalf("%s became worse", part.Features[i].ID)
			}
		}
		for k, m := range both.Machines {
			if m.Grade == station.OK && k == 0 && grade(one) == station.Fail {
				rt.Fatalf("machine %s alone passes, but the shop fails", m.Name)
			}
		}
	})
}

// Whatever a feature holds, a plan comes out, and no number of it is absent.
func TestOddFeatures(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		part := drawPart(rt)
		odd := rapid.SampledFrom([]float64{0, -1, 1e-9, 0.01, 3, 22, 80, 5000, 1e9, math.NaN(), math.Inf(1)})
		some := func(name string) float64 { return odd.Draw(rt, name) }
		for range rapid.IntRange(1, 6).Draw(rt, "n") {
			f := features.Feature{ID: "X", Kind: rapid.SampledFrom(features.Kinds()).Draw(rt, "kind"), At: pt(some("x"), some("y")),
				DiameterMM: some("d"), SeatMM: some("seat"), WidthMM: some("w"), LengthMM: some("l"), DepthMM: some("depth"), RadiusMM: some("r"),
				AngleRad: some("angle"), IncludedRad: some("incl"), CornerRadiusMM: some("cr"), Sides: rapid.IntRange(0, 12).Draw(rt, "sides"), AcrossFlatsMM: some("af"),
				Shape: rapid.SampledFrom(features.NotchShapes()).Draw(rt, "shape"), Steps: [][2]float64{{some("sw"), some("sd")}, {some("sw"), some("sd")}},
				Long: [2]float64{some("la"), some("lb")}, Edges: []int{rapid.IntRange(-2, 12).Draw(rt, "edge")}, Hole: -1,
				From: pt(some("fx"), some("fy")), To: pt(some("tx"), some("ty")), Process: rapid.SampledFrom([]string{"", "drill", "tap", "ream", "countersink"}).Draw(rt, "process")}
			part.Features = append(part.Features, f)
		}
		j := job(some("t"))
		p := yard()
		p.Settings = map[string]map[string]float64{"slot-hits": {"nibble": 1}}
		p.Machines[0].Brake = &shop.BrakeStation{Rating: shop.Rating{UsableKN: 200}, LengthMM: 300, VMM: []float64{50, 0}}
		pl := MakePlan(part, p, j)
		if len(pl.Makes) != len(part.Features) {
			rt.Fatalf("%d makes", len(pl.Makes))
		}
		// A hole without a size is never punched.
		for i, mk := range pl.Makes {
			f := &part.Features[i]
			if f.Kind == features.RoundHole && !(f.DiameterMM > 0 && f.DiameterMM < 1e6) && mk.Use.Grade() < station.Unknown {
				rt.Fatalf("%+v made by %s: %+v", f.DiameterMM, mk.MadeBy, mk.Use)
			}
		}
	})
}
