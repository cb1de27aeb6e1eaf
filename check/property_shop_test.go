package check

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
)

// exampleShopText is the file of the example shop.
func exampleShopText(t *testing.T) []string {
	t.Helper()
	data, err := os.ReadFile("shop/builtin.toml")
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(string(data), "\n")
}

// without loads the example shop with one line of its file left out; ok is
// false where the file cannot do without it.
func without(lines []string, i int) (p *shop.Profile, ok bool) {
	rest := slices.Concat(lines[:i], lines[i+1:])
	p, err := shop.Load(strings.NewReader(strings.Join(rest, "\n")), "test.toml")
	return p, err == nil
}

// A shop that leaves out one datum, whichever, passes no part that it did not
// pass with it: a limit that is not stated is not a limit that is kept.
func TestDatumLeftOutNeverPasses(t *testing.T) {
	parts := uint64(100)
	if testing.Short() {
		parts = 40
	}
	lines := exampleShopText(t)
	full := shop.BuiltIn()
	type judgedPart struct {
		b   *exampleBuilder
		job plan.Job
	}
	var list []judgedPart
	for seed := range parts {
		r := rand.New(rand.NewPCG(seed, 11))
		b, job := randomPart(r), randomJob(r, full)
		for _, machine := range []string{"", "north bay", "south bay"} {
			job.Machine = machine
			if v := RunPart(b.p, full, job).Verdict; v != Fits {
				list = append(list, judgedPart{b, job})
			}
		}
	}
	// The rules' own examples too: angles, bends, notches, slots.
	for _, rule := range Rules() {
		if rule.Example == nil {
			continue
		}
		if e := rule.Example(); e.Part != nil && e.Job.Material != nil {
			for _, machine := range []string{"", "north bay", "south bay"} {
				e.Job.Machine, e.Job.MaterialName = machine, e.Job.Material.Name
				if v := RunPart(e.Part, full, e.Job).Verdict; v != Fits {
					list = append(list, judgedPart{&exampleBuilder{p: e.Part}, e.Job})
				}
			}
		}
	}
	left, runs := 0, 0
	for i, line := range lines {
		if !strings.Contains(line, " = ") && !strings.HasPrefix(strings.TrimSpace(line), "{") {
			continue
		}
		p, ok := without(lines, i)
		if !ok {
			continue
		}
		left++
		bad := 0
		for k := range list {
			q := &list[k]
			if q.job.Machine != "" && !slices.ContainsFunc(p.Machines, func(m shop.Machine) bool { return m.Name == q.job.Machine }) {
				continue
			}
			runs++
			job := q.job
			job.Material, _ = p.Material(job.MaterialName)
			if v := RunPart(q.b.p, p, job).Verdict; v == Fits {
				if bad++; bad == 1 {
					before := RunPart(q.b.p, full, q.job)
					t.Errorf("line %d %q left out: a part that %s now fits; before: %s", i+1, strings.TrimSpace(line), before.Verdict, firstMessages(before))
				}
			}
		}
	}
	if left < 40 || runs < 1000 {
		t.Errorf("only %d lines left out, %d parts judged", left, runs)
	}
	t.Logf("%d lines left out, %d parts judged", left, runs)
}

func firstMessages(rep *PartReport) string {
	var l []string
	for i := range rep.Findings {
		if f := &rep.Findings[i]; f.Severity != Note {
			l = append(l, fmt.Sprintf("%s %s: %s", f.Rule, f.Severity, f.Message))
		}
	}
	return strings.Join(l[:min(len(l), 3)], " | ")
}

// own is a shop with machines, tools and stock of its own to change.
func own(of *shop.Profile) *shop.Profile {
	p := *of
	p.Machines = slices.Clone(p.Machines)
	for i := range p.Machines {
		m := &p.Machines[i]
		if m.Punch != nil {
			c := *m.Punch
			m.Punch = &c
		}
		if m.Shear != nil {
			c := *m.Shear
			c.Rows = slices.Clone(c.Rows)
			m.Shear = &c
		}
		if m.Notch != nil {
			c := *m.Notch
			c.Rows = slices.Clone(c.Rows)
			m.Notch = &c
		}
	}
	p.Punches, p.Notchers, p.Also = slices.Clone(p.Punches), slices.Clone(p.Notchers), slices.Clone(p.Also)
	p.Stock.FlatWidthsMM = slices.Clone(p.Stock.FlatWidthsMM)
	return &p
}

// dropSome takes some of the rows, tools and stock away, so that the random
// shops differ.
func dropSome(r *rand.Rand, p *shop.Profile) {
	drop := func(n int) bool { return n > 1 && r.IntN(3) == 0 }
	for i := range p.Machines {
		m := &p.Machines[i]
		if m.Shear != nil && drop(len(m.Shear.Rows)) {
			m.Shear.Rows = slices.Delete(m.Shear.Rows, 0, 1)
		}
		if m.Notch != nil && drop(len(m.Notch.Rows)) {
			m.Notch.Rows = slices.Delete(m.Notch.Rows, 0, 1)
		}
		if m.Punch != nil {
			m.Punch.ThroatMM *= 0.3 + 0.7*r.Float64()
		}
	}
	if r.IntN(3) == 0 {
		k := r.IntN(len(p.Machines))
		p.Machines = slices.Delete(p.Machines, k, k+1)
	}
	p.Punches = slices.DeleteFunc(p.Punches, func(shop.Punch) bool { return r.IntN(3) == 0 })
	p.Notchers = slices.DeleteFunc(p.Notchers, func(shop.NotchTool) bool { return r.IntN(3) == 0 })
	p.Stock.FlatWidthsMM = slices.DeleteFunc(p.Stock.FlatWidthsMM, func(float64) bool { return r.IntN(3) == 0 })
}

// A shop that has more passes what it passed with less: force, throat, blade,
// opening, rows, tools, machines, flats on the rack, other processes.
func TestMoreNeverWorse(t *testing.T) {
	more := []struct {
		name string
		do   func(r *rand.Rand, p *shop.Profile)
	}{
		{"force of the punches", func(r *rand.Rand, p *shop.Profile) {
			k := 1 + r.Float64()
			for i := range p.Machines {
				if st := p.Machines[i].Punch; st != nil {
					st.ForceKN, st.UsableKN = st.ForceKN*k, st.UsableKN*k
				}
			}
		}},
		{"throat", func(r *rand.Rand, p *shop.Profile) {
			k := 1 + r.Float64()
			for i := range p.Machines {
				if st := p.Machines[i].Punch; st != nil {
					st.ThroatMM *= k
				}
			}
		}},
		{"blade", func(r *rand.Rand, p *shop.Profile) {
			k := 1 + r.Float64()
			for i := range p.Machines {
				if st := p.Machines[i].Shear; st != nil {
					st.BladeMM *= k
				}
			}
		}},
		{"a row of the shears", func(r *rand.Rand, p *shop.Profile) {
			row := shop.Row{ThicknessMM: float64(4 + r.IntN(20)), SizeMM: float64(50 + r.IntN(300))}
			for i := range p.Machines {
				if st := p.Machines[i].Shear; st != nil {
					st.Rows = append(st.Rows, row)
				}
			}
		}},
		{"a reach of the hold-down", func(r *rand.Rand, p *shop.Profile) {
			for i := range p.Machines {
				if st := p.Machines[i].Shear; st != nil {
					st.HoldDownMM *= 0.5
				}
			}
		}},
		{"a punch", func(r *rand.Rand, p *shop.Profile) {
			d := []float64{9, 11, 14, 18, 22, 26, 37}[r.IntN(7)]
			p.Punches = append(p.Punches, shop.Punch{Name: "another", Shape: "round", WidthMM: d, Dies: []shop.Die{{WidthMM: d * 1.04}, {WidthMM: d * 1.08}}, Wear: 1})
		}},
		{"a notching tool", func(r *rand.Rand, p *shop.Profile) {
			p.Notchers = append(p.Notchers, shop.NotchTool{Name: "another", Shape: "rectangular", WidthMM: float64(10 + r.IntN(90)), DepthMM: float64(10 + r.IntN(90))})
		}},
		{"a machine", func(r *rand.Rand, p *shop.Profile) {
			m := own(shop.BuiltIn()).Machines[r.IntN(2)]
			m.Name = "east bay"
			p.Machines = append(p.Machines, m)
		}},
		{"a flat on the rack", func(r *rand.Rand, p *shop.Profile) {
			w := []float64{50, 100, 150, 200}[r.IntN(4)]
			if !slices.Contains(p.Stock.FlatWidthsMM, w) {
				p.Stock.FlatWidthsMM = append(p.Stock.FlatWidthsMM, w)
				slices.Sort(p.Stock.FlatWidthsMM)
			}
		}},
		{"thermal cutting", func(r *rand.Rand, p *shop.Profile) {
			for i := range p.Also {
				if p.Also[i].Kind == "thermal" {
					p.Also[i].Have = true
				}
			}
		}},
	}
	seeds := uint64(1500)
	if testing.Short() {
		seeds = 150
	}
	runs, better := 0, 0
	for seed := range seeds {
		r := rand.New(rand.NewPCG(seed, 12))
		less := own(shop.BuiltIn())
		dropSome(r, less)
		b, job := randomPart(r), randomJob(r, less)
		before := RunPart(b.p, less, job)
		for _, m := range more {
			q := own(less)
			m.do(r, q)
			after := RunPart(b.p, q, job)
			runs++
			if verdictRank(after.Verdict) > verdictRank(before.Verdict) {
				t.Errorf("seed %d, more %s: %s became %s: %s", seed, m.name, before.Verdict, after.Verdict, firstMessages(after))
			}
			if verdictRank(after.Verdict) < verdictRank(before.Verdict) {
				better++
			}
		}
	}
	if runs < 1000 || better < runs/100 {
		t.Errorf("%d runs, %d better: the changes change nothing", runs, better)
	}
	t.Logf("%d runs, %d better", runs, better)
}

// Thinner metal never fails where thicker passes, by force, by the rows of the
// shear, by the pressure in the punch and by the metal left.
func TestThinnerNeverFails(t *testing.T) {
	seeds := uint64(1500)
	if testing.Short() {
		seeds = 200
	}
	series := []float64{3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25}
	rules := []string{"punch-force", "shear-row", "punch-ratio", "web"}
	pairs, failed := 0, 0
	for seed := range seeds {
		r := rand.New(rand.NewPCG(seed, 13))
		prof := own(shop.BuiltIn())
		dropSome(r, prof)
		b, job := randomPart(r), randomJob(r, prof)
		job.Machine = prof.Machines[r.IntN(len(prof.Machines))].Name
		k := 1 + r.IntN(len(series)-1)
		at := func(mm float64) []Finding {
			job.ThicknessMM = mm
			return slices.DeleteFunc(RunPart(b.p, prof, job).Findings, func(f Finding) bool { return f.Severity != Error })
		}
		thick, thin := at(series[k]), at(series[r.IntN(k)])
		pairs++
		failed += min(len(thick), 1)
		// Any rule's error at the thicker one will do: it silences the others on
		// the same feature, and those between it and its neighbours.
		told := func(f *Finding) bool {
			return slices.ContainsFunc(thick, func(g Finding) bool {
				return f.Rule == g.Rule && len(f.Features)+len(g.Features) == 0 ||
					slices.ContainsFunc(f.Features, func(id string) bool { return slices.Contains(g.Features, id) })
			})
		}
		for i := range thin {
			if f := &thin[i]; slices.Contains(rules, f.Rule) && !told(f) {
				t.Errorf("seed %d, %v: fails at the thinner of %g mm only: %s: %s", seed, f.Features, series[k], f.Rule, f.Message)
			}
		}
	}
	if failed < pairs/20 {
		t.Errorf("only %d of %d thicker parts fail", failed, pairs)
	}
	t.Logf("%d pairs, %d of the thicker fail", pairs, failed)
}
