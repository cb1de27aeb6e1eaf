package check

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"burrside/check/change"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// randomShop is the built-in shop with something taken away or given.
func randomShop(r *rand.Rand) *shop.Profile {
	p := *shop.BuiltIn()
	p.Machines = slices.Clone(p.Machines)
	for i := range p.Machines {
		m := &p.Machines[i]
		if m.Punch != nil {
			st := *m.Punch
			m.Punch = &st
			switch r.IntN(6) {
			case 0:
				st.Rows = st.Rows[:r.IntN(len(st.Rows)+1)]
				st.UsableKN, st.FromRow = 0, false
			case 1:
				st.Holders = st.Holders[:1]
			case 2:
				st.StripperGapMM = []float64{30, 60, 90}[r.IntN(3)]
			case 3:
				st.ThroatMM = 120
			}
		}
		if m.Shear != nil && r.IntN(6) == 0 {
			st := *m.Shear
			st.Rows = st.Rows[:1+r.IntN(len(st.Rows))]
			m.Shear = &st
		}
		if m.Notch != nil && r.IntN(6) == 0 {
			m.Notch = nil
		}
	}
	if r.IntN(8) == 0 {
		p.Machines = p.Machines[r.IntN(len(p.Machines)):][:1]
	}
	p.Punches = slices.Clone(p.Punches)
	for range r.IntN(12) {
		k := r.IntN(len(p.Punches))
		p.Punches = slices.Delete(p.Punches, k, k+1)
	}
	for i := range p.Punches {
		if len(p.Punches[i].Dies) > 1 && r.IntN(4) == 0 {
			p.Punches[i].Dies = p.Punches[i].Dies[:1]
		}
		if r.IntN(20) == 0 {
			p.Punches[i].Holder = "standard"
		}
	}
	p.Also = slices.Clone(p.Also)
	for i := range p.Also {
		switch a := &p.Also[i]; {
		case a.Kind == "drill" && r.IntN(3) == 0:
			a.Have = false
		case a.Kind == "thermal" && r.IntN(4) == 0:
			a.Have = true
		case r.IntN(8) == 0:
			a.Have = false
		}
	}
	p.Buy = r.IntN(4) > 0
	if r.IntN(6) == 0 {
		p.Units = "in"
	}
	return &p
}

// randomBoltedPart is a strap, a gusset or an end plate with its bolts in rows,
// often a little too near an edge or each other.
func randomBoltedPart(r *rand.Rand) *exampleBuilder {
	near := func(v float64) float64 { return math.Round((v+r.Float64()*16-8)*10) / 10 }
	d := []float64{13, 14, 15, 18, 20, 22, 22, 24, 26, 30, 21.4, 17.2}[r.IntN(12)]
	e := max(d*0.7, near(1.25*d))
	n, rows := 1+r.IntN(4), 1+r.IntN(2)
	pitch, across := max(1.3*d, near(2.6*d)), max(1.3*d, near(2.7*d))
	w, h := 2*e+float64(n-1)*pitch, 2*max(d*0.7, near(1.3*d))+float64(rows-1)*across
	if r.IntN(3) == 0 {
		h = []float64{50, 60, 80, 100, 150}[r.IntN(5)]
	}
	if r.IntN(3) == 0 {
		w += 200
	}
	if h < float64(rows-1)*across+1.4*d {
		h = float64(rows-1)*across + 1.4*d
	}
	b := examplePlate("p", w, h)
	switch {
	case r.IntN(6) == 0 && min(w, h) > 60:
		b = exampleRounded("p", w, h, 8)
	case r.IntN(6) == 0 && min(w, h) > 60:
		b = exampleClipped("p", w, h, 12)
	case r.IntN(6) == 0 && w > 120:
		b = exampleNotched("p", w, h, math.Round(20+r.Float64()*40), math.Round(h/5))
	}
	y0 := (h - float64(rows-1)*across) / 2
	if r.IntN(3) == 0 {
		y0 = max(d*0.7, y0+near(0))
	}
	for i := range n {
		for k := range rows {
			x, y := e+float64(i)*pitch, y0+float64(k)*across
			if y > h-d*0.6 || x > w-d*0.6 {
				continue
			}
			if d < 20 && r.IntN(12) == 0 {
				b.slotAt(x, y, d, math.Round(1.6*d), []float64{0, math.Pi / 2}[r.IntN(2)])
			} else {
				b.hole(x, y, d)
			}
		}
	}
	return b
}

// randomAngle is an angle with holes at usual and unusual gauges.
func randomAngle(r *rand.Rand) *exampleBuilder {
	s := [][3]float64{{75, 8, 9}, {60, 6, 8}, {100, 10, 12}, {90, 9, 11}}[r.IntN(4)]
	b := exampleAngle(300+math.Round(r.Float64()*500), s[0], s[0], s[1], s[2])
	for leg := range 2 {
		g := math.Round(s[0]*(0.25+0.55*r.Float64())*2) / 2
		d := []float64{14, 15, 18, 22}[r.IntN(4)]
		for i := range r.IntN(4) {
			b.hole(leg, 20+math.Round(r.Float64()*20)+float64(i)*math.Round(2.2*d+r.Float64()*d), g, d)
		}
	}
	return &exampleBuilder{p: b.part()}
}

// standing is the worst severity of each finding of a part, by rule and exactly
// the features that it names, with a pass of the rules of its own.
func standing(part *features.Part, prof *shop.Profile, job plan.Job) (*PartReport, map[string]int, []Finding) {
	rep, pass := judgeOnce(part, prof, job, circumstances{inch: prof.Units == "in"}, plan.MakePlan)
	out := map[string]int{}
	for i := range pass.kept {
		f := &pass.kept[i]
		ids := slices.Clone(f.Features)
		slices.Sort(ids)
		k := f.Rule + " on " + strings.Join(ids, " ")
		if old, ok := out[k]; !ok || severityRank(f) < old {
			out[k] = severityRank(f)
		}
	}
	return rep, out, pass.kept
}

// before is a part as it was.
type before struct {
	rep    *PartReport
	was    map[string]int
	single []Finding
}

// promise tells what a suggestion does not keep when its steps are taken anew;
// "" it keeps all.
func promise(before *before, prof *shop.Profile, asked plan.Job, steps []change.Step, resolves []Resolved, after Verdict) string {
	rep, was := before.rep, before.was
	part, prof2, job2, ok := change.Apply(rep.Part, prof, asked, steps)
	if !ok {
		return "it cannot be carried out"
	}
	got, is, _ := standing(part, prof2, job2)
	v := got.Verdict
	for _, w := range job2.Ways {
		if w.Process != "" || w.Lay {
			v = worse(v, WithCare)
		}
	}
	if after != "" && v != after {
		return fmt.Sprintf("the part is %s, promised %s", v, after)
	}
	if verdictRank(v) > verdictRank(rep.Verdict) {
		return fmt.Sprintf("the part was %s and is %s", rep.Verdict, v)
	}
	most := 0
	for _, x := range resolves {
		f := &rep.Findings[x.Finding]
		most = max(most, severityRank(f))
		for i := range before.single {
			g := &before.single[i]
			if g.key() != f.key() {
				continue
			}
			ids := slices.Clone(g.Features)
			slices.Sort(ids)
			k := g.Rule + " on " + strings.Join(ids, " ")
			if r, ok := is[k]; ok && r <= was[k] {
				return k + " is still there"
			}
		}
	}
	// What loads a machine or a person more than before is no change to suggest,
	// even where it is only care in place of an error.
	loads := []string{"punch-force", "punch-ratio", "notch-force", "shear-row", "stripping", "slot-hits", "hold-down", "sliver", "small-part", "lift", "material"}
	for k, r := range is {
		rule, _, _ := strings.Cut(k, " on ")
		if slices.Contains(loads, rule) && r <= severityRank(&Finding{Severity: Warning}) {
			r = min(r, most)
		}
		if old, ok := was[k]; r <= most && (!ok || old > is[k]) && !regrouped(k, is[k], was) {
			return k + " came"
		}
	}
	return ""
}

// regrouped tells that a finding about cuts names edges that such findings were
// about before, only put together otherwise.
func regrouped(k string, rank int, was map[string]int) bool {
	rule, ids, _ := strings.Cut(k, " on ")
	if !slices.Contains([]string{"shear-row", "sliver", "hold-down", "mitre"}, rule) || ids == "" {
		return false
	}
	for _, id := range strings.Fields(ids) {
		found := false
		for o, r := range was {
			or, oids, _ := strings.Cut(o, " on ")
			found = found || or == rule && r <= rank && slices.Contains(strings.Fields(oids), id)
		}
		if !found {
			return false
		}
	}
	return true
}

func ringOf(part *features.Part, id string) geom.Ring {
	for i := range part.Features {
		if f := &part.Features[i]; f.ID == id {
			return f.Ring
		}
	}
	return nil
}

// neverDone tells what a suggestion does that none may do; "" nothing.
func neverDone(rep *PartReport, prof *shop.Profile, asked plan.Job, g *Suggestion) string {
	part, prof2, job2, ok := change.Apply(rep.Part, prof, asked, g.Steps)
	if !ok {
		return "cannot be carried out"
	}
	if !reflect.DeepEqual(prof.Machines, prof2.Machines) || !reflect.DeepEqual(prof.Settings, prof2.Settings) || !reflect.DeepEqual(prof.Materials, prof2.Materials) || !reflect.DeepEqual(prof.Notchers, prof2.Notchers) || !reflect.DeepEqual(prof.Also, prof2.Also) {
		return "a machine, its rows, its stripper or a limit is another"
	}
	if job2.Material != asked.Material || job2.Code != asked.Code || job2.Machine != asked.Machine || job2.Bolts != asked.Bolts {
		return "the job is another"
	}
	for i := range g.Steps {
		c := &g.Steps[i]
		if c.Kind.ByShop() != (g.By == "shop") {
			return "a step of kind " + string(c.Kind) + " by " + g.By
		}
	}
	switch g.By {
	case "shop":
		if part != rep.Part || job2.ThicknessMM != asked.ThicknessMM {
			return "the shop changes the drawing"
		}
	case "drawing":
		if !strings.HasPrefix(g.Text, "would the designer accept ") || !strings.HasSuffix(g.Text, "?") || g.Who != "designer" {
			return "no question: " + g.Text
		}
		if t := job2.ThicknessMM / asked.ThicknessMM; t > 1.51 || t < 1/1.51 {
			return "another thickness altogether"
		}
		for _, p := range rep.Part.Patterns {
			changed := 0
			for _, id := range p.Members {
				if !reflect.DeepEqual(ringOf(part, id), ringOf(rep.Part, id)) {
					changed++
				}
			}
			// The middle of a pattern that is spread stays where it is.
			if changed > 0 && changed < len(p.Members)-1 && !slices.ContainsFunc(g.Steps, func(c change.Step) bool { return c.Kind == change.Pitch }) {
				return "one hole of a pattern"
			}
		}
	default:
		return "by " + g.By
	}
	for i := range part.Features {
		f := &part.Features[i]
		if f.CrossesOutline && !rep.Part.Features[i].CrossesOutline {
			return "part of a hole is punched"
		}
	}
	// No hole is punched beyond what the station may use, in more metal than before.
	for _, m := range RunPart(part, prof2, job2).Plan.Makes {
		if m.MadeBy == "punch" && m.Use.LimitKN > 0 && m.Use.Grade() < 2 && m.Use.ForceKN > m.Use.LimitKN*1.000001 && m.Use.Share > 1 {
			return "more force than may be used"
		}
	}
	return ""
}

// Every suggestion on random parts in random shops keeps what it promises, does
// what may be done only, and has no step too many.
func TestSuggestionsPassWhenApplied(t *testing.T) {
	parts := uint64(2_500)
	switch {
	case os.Getenv("BURRSIDE_LONG") != "":
		parts = 10_000
	case testing.Short():
		parts = 500
	}
	kinds, shown := map[string]int{}, 0
	all, helped, suggestions := 0, 0, 0
	byRule := map[string][2]int{}
	var mu sync.Mutex // guards the counts
	one := func(seed uint64) {
		r := rand.New(rand.NewPCG(seed, 7))
		prof := randomShop(r)
		b := randomPart(r)
		if r.IntN(2) == 0 {
			b = randomBoltedPart(r)
		}
		asked := randomJob(r, prof)
		if r.IntN(8) == 0 {
			b = randomAngle(r)
			asked.ThicknessMM = b.p.Angle.ThicknessMM
		}
		asked.BlankGiven = r.IntN(8) == 0
		if r.IntN(10) == 0 {
			asked.Machine = prof.Machines[0].Name
		}
		rep := RunPart(b.p, prof, asked)
		opt := SuggestOptions{Drawing: r.IntN(3) == 0}
		SuggestPart(context.Background(), rep, prof, asked, opt)
		was := &before{rep: rep}
		if len(rep.Changes) > 0 {
			_, was.was, was.single = standing(b.p, prof, asked)
		}
		resolved := map[int]bool{}
		bad := func(g *Suggestion, text string) {
			mu.Lock()
			defer mu.Unlock()
			if shown++; shown < 15 {
				t.Errorf("seed %d, %q: %s", seed, g.Text, text)
			}
		}
		for i := range rep.Changes {
			g := &rep.Changes[i]
			for _, x := range g.Resolves {
				resolved[x.Finding] = true
			}
			if why := promise(was, prof, asked, g.Steps, g.Resolves, g.After); why != "" {
				bad(g, why)
			}
			if why := neverDone(rep, prof, asked, g); why != "" {
				bad(g, why)
			}
			if len(g.Resolves) == 0 || g.Text == "" {
				bad(g, "it clears nothing")
			}
			for k := range g.Steps {
				if less := slices.Delete(slices.Clone(g.Steps), k, k+1); promise(was, prof, asked, less, g.Resolves, "") == "" {
					bad(g, fmt.Sprintf("step %d is not needed", k+1))
				}
				c := g.Steps[k]
				step := 1.0
				if prof.Units == "in" {
					step = 25.4 / 16
				}
				if c.Kind == change.Edge && len(g.Steps) == 1 {
					if n := c.ByMM / step; asked.BlankGiven && math.Abs(n-math.Round(n)) > 1e-6 {
						bad(g, "not rounded")
					}
				}
			}
		}
		mu.Lock()
		defer mu.Unlock()
		suggestions += len(rep.Changes)
		for i := range rep.Changes {
			for _, c := range rep.Changes[i].Steps {
				kinds[string(c.Kind)]++
			}
		}
		for i := range rep.Findings {
			if f := &rep.Findings[i]; f.Severity != Note && !f.CannotTell {
				n := byRule[f.Rule]
				all++
				n[0]++
				if resolved[i] {
					helped++
					n[1]++
				}
				byRule[f.Rule] = n
			}
		}
	}
	var wait sync.WaitGroup
	workers := uint64(runtime.GOMAXPROCS(0))
	for w := range workers {
		wait.Go(func() {
			for seed := w; seed < parts; seed += workers {
				one(seed)
			}
		})
	}
	wait.Wait()
	t.Logf("%d parts, %d suggestions for %d of %d errors and warnings (%.0f %%)", parts, suggestions, helped, all, 100*float64(helped)/float64(all))
	t.Logf("steps: %v", kinds)
	t.Logf("by rule, all and helped: %v", byRule)
	for _, k := range change.Kinds() {
		if k != change.Order && k != change.Holder && kinds[string(k)] == 0 {
			t.Errorf("no suggestion of kind %s", k)
		}
	}
	if suggestions < int(parts)/4 {
		t.Errorf("only %d suggestions", suggestions)
	}
}
