package plan

import (
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features/geom"
)

// facets makes an outline of n short lines on a circle: a curve drawn in facets.
func facets(n int, r float64) []geom.Point {
	var ps []geom.Point
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ps = append(ps, pt(r*cos, r*sin))
	}
	return ps
}

func variety() []*Prepared {
	var all []*Prepared
	for _, p := range []struct{ ps []geom.Point }{
		{[]geom.Point{pt(0, 0), pt(400, 0), pt(400, 100), pt(0, 100)}},
		{[]geom.Point{pt(0, 0), pt(275, 0), pt(300, 25), pt(300, 100), pt(0, 100)}},
		{[]geom.Point{pt(0, 0), pt(400, 0), pt(300, 100), pt(100, 100)}},
		{[]geom.Point{pt(0, 0), pt(900, 0), pt(300, 100), pt(280, 100)}},
		{[]geom.Point{pt(0, 0), pt(200, 0), pt(200, 60), pt(60, 200), pt(0, 200)}},
		{[]geom.Point{pt(0, 0), pt(1200, 0), pt(1200, 600), pt(600, 600), pt(600, 1200), pt(0, 1200)}},
		{facets(12, 150)}, {facets(70, 300)},
	} {
		part := poly("p", p.ps...)
		holes(part, 22, pt(60, 40))
		all = append(all, Prepare(part))
	}
	return all
}

func shops() []*shop.Profile {
	bare, weak, built := yard(), yard(), shop.BuiltIn()
	bare.Stock = shop.Stock{}
	weak.Machines[0].Shear.MitreRad = 0.5
	weak.Machines[0].Shear.BladeMM = 120
	weak.Also = append(weak.Also, shop.Process{Kind: "thermal", Have: true, MaxThicknessMM: 15})
	return []*shop.Profile{yard(), bare, weak, built}
}

// A prepared part gives the plan that the part alone gives, whatever was planned
// before, and from several goroutines.
func TestPreparedPlansAlike(t *testing.T) {
	for i, prep := range variety() {
		var wait sync.WaitGroup
		for _, prof := range shops() {
			for _, th := range []float64{0, 5, 10, 16, 25} {
				wait.Add(1)
				go func() {
					defer wait.Done()
					j := job(th)
					j.BlankGiven = th == 16
					if got, want := prep.Plan(prof, j), MakePlan(prep.part, prof, j); !reflect.DeepEqual(got, want) {
						t.Errorf("part %d, t %v: two plans", i, th)
					}
				}()
			}
		}
		wait.Wait()
	}
}

// What is set against each other without words is what is judged in the end.
func TestGradeOfIsJudge(t *testing.T) {
	seen := map[station.Grade]int{}
	for _, prep := range variety() {
		for _, prof := range shops() {
			for _, th := range []float64{5, 10, 16, 25} {
				pl := &planner{part: prep.part, prof: prof, prep: prep, pc: station.Piece{ThicknessMM: th, Material: mild()}, standings: map[*cutList]standing{}}
				for i := range prof.Machines {
					pl.machines = append(pl.machines, &prof.Machines[i])
				}
				for _, both := range prep.dirs {
					for _, g := range both {
						lists := []*cutList{g.piece(), {steps: append(g.offFlat(g.w+20), g.strip(g.l))}}
						for k := range g.orders {
							if c, ok := g.order(k); ok {
								lists = append(lists, c)
							}
						}
						for _, c := range lists {
							for i := range c.steps {
								grade, process := pl.gradeOf(&c.steps[i])
								u := pl.judge(&c.steps[i]).Use
								if grade != u.Grade() || grade < station.Fail && process != isProcess(u) {
									t.Errorf("%s at t %v: grade %d, process %v; judged %d by %s", c.steps[i].What, th, grade, process, u.Grade(), u.Station)
								}
								seen[grade]++
							}
						}
					}
				}
			}
		}
	}
	if len(seen) < 3 {
		t.Errorf("grades %v", seen)
	}
}

// A curve drawn in 70 short lines is no work for a shear, in words; a polygon of
// 12 sides is.
func TestManyShortLines(t *testing.T) {
	p := yard()
	pl := MakePlan(poly("round", facets(70, 250)...), p, job(10))
	if len(pl.Cuts) > 6 {
		t.Errorf("%d cuts", len(pl.Cuts))
	}
	none := 0
	for _, mk := range pl.Makes {
		if a := limiting(mk.Use); mk.MadeBy == "nothing" && a.Rule == "edge-process" && a.Grade == station.Fail && strings.Contains(a.Text, "over 40 straight cuts") {
			none++
		}
	}
	if none < 60 || pl.Work.Known {
		t.Errorf("%d of 70 not made", none)
	}
	p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true})
	pl = MakePlan(poly("round", facets(70, 250)...), p, job(10))
	if g := grade(pl); g != station.Care {
		t.Errorf("grade %d with thermal cutting", g)
	}
	if n := len(MakePlan(poly("twelve", facets(12, 150)...), yard(), job(10)).Cuts); n < 8 {
		t.Errorf("%d cuts for 12 sides", n)
	}
	// A hundred pieces of one line are one cut, however often it is interrupted.
	var ps []geom.Point
	ps = append(ps, pt(0, 0), pt(2600, 0), pt(2600, 200))
	for x := 2500.0; x >= 100; x -= 50 {
		y := 200 + (2600-x)*0.1
		ps = append(ps, pt(x+10, y-1), pt(x+10, y-30), pt(x-10, y-30), pt(x-10, y+1))
	}
	ps = append(ps, pt(0, 460))
	for i := 3; i < len(ps)-1; i++ { // onto the slope
		if (i-3)%4 == 0 || (i-3)%4 == 3 {
			ps[i].Y = 200 + (2600-ps[i].X)*0.1
		}
	}
	part := poly("comb", ps...)
	g := Prepare(part).dirs[0][0]
	if n := g.need(); len(n.many) != 0 {
		t.Errorf("%d of the comb's pieces are too many", len(n.many))
	}
	slope := 0
	for _, s := range g.piece().steps {
		if off := math.Abs(s.From.Y-s.To.Y) / math.Abs(s.From.X-s.To.X); math.Abs(off-0.1) < 1e-6 {
			slope++
		}
	}
	if slope != 1 {
		t.Errorf("%d cuts along the slope", slope)
	}
}

// Two pieces of one clip, with a notch between, are one cut on the bar, not two.
func TestOneLineOneCut(t *testing.T) {
	p := yard()
	plain := poly("plain", pt(0, 0), pt(260, 0), pt(300, 40), pt(300, 100), pt(0, 100))
	split := poly("split", pt(0, 0), pt(260, 0), pt(275, 15), pt(272, 21), pt(279, 28), pt(285, 25), pt(300, 40), pt(300, 100), pt(0, 100))
	want := len(MakePlan(plain, p, job(6)).Cuts)
	pl := MakePlan(split, p, job(6))
	n := 0
	for _, c := range pl.Cuts {
		if c.What == "side cut" || c.What == "clip" {
			n++
		}
	}
	if n != 1 || len(pl.Cuts) != want {
		t.Errorf("%d cuts, %d on the clip's line; the plain part has %d", len(pl.Cuts), n, want)
	}
	for _, id := range []string{"E2", "E6"} {
		if mk := made(t, pl, id); mk.MadeBy != "shear" {
			t.Errorf("%s by %s", id, mk.MadeBy)
		}
	}
}
