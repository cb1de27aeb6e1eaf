package check

import (
	"context"
	"fmt"
	"slices"
	"sort"
	"strings"

	"burrside/check/change"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
)

// Suggestion is a change that was found by search and confirmed by running all
// rules again: the findings that it resolves are gone, no other of their
// severity came, and the verdict is no worse.
type Suggestion struct {
	By       string // "shop": needs nobody's leave; "drawing": a question to the designer
	Who      string // "shop", "buy", "designer"
	Text     string // an order to the shop, or a question
	Features []string
	Resolves []Resolved
	After    Verdict // of the part with this change alone
	Steps    []change.Step
}

// Resolved names a finding that a suggestion clears.
type Resolved struct {
	Finding  int // index in PartReport.Findings
	Rule     string
	Features []string
}

// SuggestOptions steer the search. The zero value asks the designer only where
// the shop cannot help itself.
type SuggestOptions struct {
	Drawing  bool // questions to the designer also where the shop can help itself
	MostRuns int  // how often the rules may be run again for one part; 0: 60
}

// mostRuns is how often the rules are run again for one part, so that a part
// with a hundred findings does not take a hundred times as long.
const mostRuns = 60

// keptRuns are kept of these for dropping steps that are not needed.
const keptRuns = 6

// mostWork bounds runs times features of one part: rules take their time from
// the number of features (judgement, no source).
const mostWork = 30_000

// mostAsked is how many ways to the same end the designer is asked about.
const mostAsked = 3

// Suggest searches changes that would pass, for every part of a report, and puts
// them into it. asked is the job that the report was made for. It ends early
// with ctx; what was found until then stays.
func Suggest(ctx context.Context, rep *Report, asked plan.Job, opt SuggestOptions) {
	if rep.Sheet == nil || rep.Shop == nil {
		return
	}
	for i, p := range rep.Parts {
		if ctx.Err() != nil || i >= len(rep.Sheet.Parts) {
			return
		}
		c := around(rep.Sheet, i, rep.Findings)
		c.ctx = ctx
		p.Changes = suggest(p, rep.Shop, asked, c, opt)
	}
}

// SuggestPart is Suggest for a part by itself, as RunPart judges it.
func SuggestPart(ctx context.Context, rep *PartReport, prof *shop.Profile, asked plan.Job, opt SuggestOptions) {
	rep.Changes = suggest(rep, prof, asked, circumstances{inch: prof.Units == "in", ctx: ctx}, opt)
}

// trial is a part judged with some steps taken.
type trial struct {
	rep   *PartReport
	pass  *Pass
	worst map[string]int // severity rank by finding, see findingKey
	byOne map[string]int // the same by rule and single feature
}

// suggester searches for one part.
type suggester struct {
	rep      *PartReport
	pass     *Pass // of the part as it is
	prof     *shop.Profile
	asked    plan.Job
	c        circumstances
	rules    []Rule
	prepared *plan.Prepared
	base     *trial
	at       *trial     // with the steps taken so far: what is still lacking is looked up here
	keys     [][]string // of each finding of the report
	keySets  []map[string]bool
	groups   [][]string // patterns of holes, each hole in one
	groupOf  map[string]int
	index    map[string]int  // of features, by ID
	mustNot  map[string]bool // be punched to size
	left     int             // runs
	keep     int             // of them for dropping what is not needed
	tried    map[string]*trial
}

func suggest(rep *PartReport, prof *shop.Profile, asked plan.Job, c circumstances, opt SuggestOptions) []Suggestion {
	if !(rep.Job.ThicknessMM > 0) || !hasSteel(&rep.Job) || c.ended() {
		return nil // nothing can be confirmed
	}
	s := &suggester{rep: rep, prof: prof, asked: asked, c: c, left: opt.MostRuns, tried: map[string]*trial{}}
	var targets []int
	for i := range rep.Findings {
		if f := &rep.Findings[i]; (f.Severity == Error || f.Severity == Warning) && !f.CannotTell && isChangeable(f.Rule) {
			targets = append(targets, i)
		}
	}
	if len(targets) == 0 {
		return nil
	}
	if s.left == 0 {
		s.left = mostRuns
	}
	s.left = min(s.left, mostWork/max(1, len(rep.Part.Features)))
	if s.left < 2 {
		return nil
	}
	s.rules = Rules()
	s.prepared = plan.PrepareWithin(c.ctx, rep.Part)
	if s.base = s.try(nil); s.base == nil {
		return nil
	}
	s.at = s.base
	s.pass = s.base.pass
	s.keys = make([][]string, len(rep.Findings))
	of := map[string]int{}
	for i := range rep.Findings {
		of[rep.Findings[i].key()] = i
	}
	for i := range s.pass.kept {
		f := &s.pass.kept[i]
		if k, ok := of[f.key()]; ok {
			s.keys[k] = append(s.keys[k], findingKey(f))
		}
	}
	s.groups = patternsOf(rep.Part)
	var out []Suggestion
	for _, cluster := range s.clusters(targets) {
		out = append(out, s.solve(cluster, opt)...)
	}
	return out
}

// findingKey is equal for findings of one rule on the same features.
func findingKey(f *Finding) string {
	ids := slices.Clone(f.Features)
	slices.Sort(ids)
	return f.Rule + "|" + strings.Join(ids, ",")
}

// try judges the part with steps taken; nil when they cannot be taken, or the
// search is over.
func (s *suggester) try(steps []change.Step) *trial {
	key := stepsKey(steps)
	if t, ok := s.tried[key]; ok {
		return t
	}
	if s.left <= s.keep || s.c.ended() {
		return nil
	}
	part, prof, job, ok := change.Apply(s.rep.Part, s.prof, s.asked, steps)
	if !ok {
		s.tried[key] = nil
		return nil
	}
	s.left--
	t := judgeChanged(s.rules, part, prof, job, s.c, func(p *features.Part, prof *shop.Profile, job plan.Job) *plan.Plan {
		if p == s.rep.Part {
			return s.prepared.Plan(prof, job)
		}
		return plan.PrepareWithin(s.c.ctx, p).Plan(prof, job)
	})
	if s.c.ended() {
		return nil
	}
	s.tried[key] = t
	return t
}

// stepsKey is equal for the same steps.
func stepsKey(steps []change.Step) string {
	var b strings.Builder
	for i := range steps {
		c := steps[i]
		if c.Tool != nil {
			fmt.Fprintf(&b, "%+v", *c.Tool)
		}
		c.Tool, c.Angle = nil, nil
		fmt.Fprintf(&b, "%+v;", c)
	}
	return b.String()
}

// judgeChanged runs the rules over a part that steps were taken on. What is
// made beside the machines by decision fits with care at best, as any part that
// needs more than the machines.
func judgeChanged(rules []Rule, part *features.Part, prof *shop.Profile, job plan.Job, c circumstances, makePlan planner) *trial {
	rep, pass := judgeBy(rules, part, prof, job, c, makePlan)
	if slices.ContainsFunc(job.Ways, func(w plan.Way) bool { return w.Process != "" || w.Lay }) {
		rep.Verdict = worse(rep.Verdict, WithCare)
	}
	t := &trial{rep: rep, pass: pass, worst: map[string]int{}, byOne: map[string]int{}}
	note := func(m map[string]int, k string, r int) {
		if old, ok := m[k]; !ok || r < old {
			m[k] = r
		}
	}
	for i := range pass.kept {
		f := &pass.kept[i]
		r := severityRank(f)
		note(t.worst, findingKey(f), r)
		for _, id := range f.Features {
			note(t.byOne, f.Rule+"|"+id, r)
		}
	}
	return t
}

// moreRounds is how often more of the same is added for one finding: a hole has
// four sides.
const moreRounds = 3

// clears tells that a trial has no finding under these keys that is as bad as
// they were.
func (s *suggester) clears(t *trial, keys []string) bool {
	for _, k := range keys {
		if r, ok := t.worst[k]; ok && r <= s.base.worst[k] {
			return false
		}
	}
	return len(keys) > 0
}

// admits tells that a trial brought no finding of severity rank most or worse
// that was not there before, and no worse verdict.
func (s *suggester) admits(t *trial, most int) bool {
	if verdictRank(t.rep.Verdict) > verdictRank(s.base.rep.Verdict) {
		return false
	}
	for i := range t.pass.kept {
		f := &t.pass.kept[i]
		r := severityRank(f)
		if r > most && !neverNew(f, r) {
			continue
		}
		k := findingKey(f)
		if old, ok := s.base.worst[k]; ok && old <= r {
			continue
		}
		if byCuts(f.Rule) && len(f.Features) > 0 && !slices.ContainsFunc(f.Features, func(id string) bool {
			old, ok := s.base.byOne[f.Rule+"|"+id]
			return !ok || old > r
		}) {
			continue // the same cuts, put together otherwise
		}
		return false
	}
	return true
}

// neverNew tells that a finding of care must not come from a change whatever it
// clears: what loads a machine or a person more than before.
func neverNew(f *Finding, rank int) bool {
	if rank > severityRank(&Finding{Severity: Warning}) {
		return false
	}
	switch f.Rule {
	case "punch-force", "punch-ratio", "notch-force", "shear-row", "stripping", "slot-hits", "hold-down", "sliver", "small-part", "lift", "material":
		return true
	}
	return false
}

// byCuts tells that a rule's findings are about cuts, which name the edges that
// they make.
func byCuts(rule string) bool {
	switch rule {
	case "shear-row", "sliver", "hold-down", "mitre", "angle-shear", "angle-mitre":
		return true
	}
	return false
}

// isChangeable tells whether a change of shop or drawing can be searched for a
// rule's findings; the others ask for an answer, or for care.
func isChangeable(rule string) bool {
	switch rule {
	case "punch-force", "punch-ratio", "tool", "die-clearance", "die-holder", "throat-reach", "slot-hits", "opening", "hole-process", "punching-class", "punching-limit",
		"web", "stripping", "strap", "leg-clearance", "root-fillet", "blank", "shear-row", "sliver", "hold-down", "notch-tool", "notch-force",
		"edge-process", "edge-distance", "hole-pitch", "material", "tolerance", "small-part", "mitre", "angle-shear", "angle-mitre":
		return true
	}
	return false
}

// clusters puts findings together that speak of the same features, or of holes
// of one pattern; those of no feature by their rule. Worst first, as listed.
func (s *suggester) clusters(targets []int) [][]int {
	root := map[string]string{}
	var find func(string) string
	find = func(a string) string {
		if p, ok := root[a]; ok && p != a {
			r := find(p)
			root[a] = r
			return r
		}
		root[a] = a
		return a
	}
	for _, g := range s.groups {
		for _, id := range g[1:] {
			root[find(id)] = find(g[0])
		}
	}
	name := func(i int) string {
		f := &s.rep.Findings[i]
		if len(f.Features) == 0 || byCuts(f.Rule) || f.Rule == "blank" {
			return "of the blank"
		}
		return f.Features[0]
	}
	for _, i := range targets {
		f := &s.rep.Findings[i]
		a := find(name(i))
		if a == "of the blank" {
			continue
		}
		for _, id := range f.Features {
			root[find(id)] = find(a)
		}
	}
	var order []string
	of := map[string][]int{}
	for _, i := range targets {
		r := find(name(i))
		if of[r] == nil {
			order = append(order, r)
		}
		of[r] = append(of[r], i)
	}
	out := make([][]int, 0, len(order))
	for _, r := range order {
		out = append(out, of[r])
	}
	return out
}

// solve gives the suggestions for findings that belong together: the shop's,
// then the designer's for what is left.
func (s *suggester) solve(cluster []int, opt SuggestOptions) []Suggestion {
	var out []Suggestion
	left := slices.Clone(cluster)
	if g, ok := s.build(cluster, s.shopSteps, "shop"); ok {
		if !s.isPlanned(g.Steps) {
			out = append(out, g)
		}
		if !opt.Drawing {
			left = slices.DeleteFunc(left, func(i int) bool {
				return slices.ContainsFunc(g.Resolves, func(r Resolved) bool { return r.Finding == i })
			})
		}
	}
	if len(left) == 0 {
		return out
	}
	var asked []Suggestion
	for _, first := range []change.Kind{change.Size, change.Edge, change.Move, change.Pitch, change.Notch, change.Thickness} {
		if len(asked) >= mostAsked || first == change.Thickness && len(asked) > 0 {
			break
		}
		g, ok := s.build(left, func(i int, done []change.Step) [][]change.Step { return s.drawingSteps(i, first) }, "drawing")
		if ok && !slices.ContainsFunc(asked, func(o Suggestion) bool { return o.Text == g.Text }) {
			asked = append(asked, g)
		}
	}
	// The way that clears the most comes first.
	sort.SliceStable(asked, func(i, j int) bool { return len(asked[i].Resolves) > len(asked[j].Resolves) })
	return append(out, asked...)
}

// build takes steps for one finding after the other, the worst first, as far as
// each can be cleared without losing what was, and drops what is not needed.
func (s *suggester) build(list []int, candidates func(i int, done []change.Step) [][]change.Step, by string) (Suggestion, bool) {
	s.keep = keptRuns
	defer func() { s.keep = 0 }()
	var steps []change.Step
	var cleared []int
	most := -1 // the least severe that is cleared
	clearsAll := func(t *trial, list []int) bool {
		return !slices.ContainsFunc(list, func(i int) bool { return !s.clears(t, s.keys[i]) })
	}
	for _, i := range list {
		rank := severityRank(&s.rep.Findings[i])
		with := append(slices.Clone(cleared), i)
		if len(steps) > 0 {
			if t := s.try(steps); t != nil && clearsAll(t, with) && s.admits(t, max(most, rank)) {
				cleared, most = with, max(most, rank)
				continue
			}
		}
		now := s.base
		if len(steps) > 0 {
			if now = s.try(steps); now == nil {
				break
			}
		}
		s.at = now
		for _, c := range candidates(i, steps) {
			all := merge(steps, c)
			t := s.try(all)
			// Of a hole that is short of two edges the worse is spoken of first.
			for more := 0; more < moreRounds && by == "drawing" && t != nil && !s.clears(t, s.keys[i]); more++ {
				s.at = t
				next := candidates(i, all)
				if len(next) == 0 || next[0][0].Kind != c[0].Kind {
					break
				}
				all = merge(all, next[0])
				t = s.try(all)
			}
			s.at = now
			if t != nil && clearsAll(t, with) && s.admits(t, max(most, rank)) {
				steps, cleared, most = all, with, max(most, rank)
				break
			}
		}
	}
	if len(steps) == 0 {
		return Suggestion{}, false
	}
	s.keep = 0
	for k := 0; k < len(steps) && len(steps) > 1; {
		if s.left == 0 {
			return Suggestion{}, false // whether all of it is needed cannot be told any more
		}
		less := slices.Delete(slices.Clone(steps), k, k+1)
		if t := s.try(less); t != nil && clearsAll(t, cleared) && s.admits(t, most) {
			steps = less
			continue
		}
		k++
	}
	t := s.try(steps)
	if t == nil {
		return Suggestion{}, false
	}
	g := Suggestion{By: by, Who: "shop", After: t.rep.Verdict, Steps: steps}
	slices.Sort(cleared)
	listed := map[string]bool{}
	for _, i := range cleared {
		f := &s.rep.Findings[i]
		g.Resolves = append(g.Resolves, Resolved{Finding: i, Rule: f.Rule, Features: slices.Clone(f.Features)})
		for _, id := range f.Features {
			if !listed[id] {
				listed[id] = true
				g.Features = append(g.Features, id)
			}
		}
	}
	if by == "drawing" {
		g.Who = "designer"
	} else if slices.ContainsFunc(steps, func(p change.Step) bool {
		return p.Kind == change.Punch || p.Kind == change.Die || p.Kind == change.Blank && !p.Given
	}) {
		g.Who = "buy"
	}
	g.Text = s.words(steps, by)
	return g, true
}

// merge adds steps to those taken. A step that does more of the same takes the
// other's place.
func merge(done, more []change.Step) []change.Step {
	out := slices.Clone(done)
	for _, m := range more {
		i := slices.IndexFunc(out, func(o change.Step) bool {
			if o.Kind != m.Kind {
				return false
			}
			switch m.Kind {
			case change.Move:
				return slices.Equal(o.Features, m.Features)
			case change.Size, change.Pitch, change.Notch, change.Machine, change.Process, change.Order:
				return slices.Equal(o.Features, m.Features) && o.Along == m.Along
			case change.Edge:
				return o.Along == m.Along
			case change.Thickness:
				return true
			case change.Punch:
				return o.Tool.Name == m.Tool.Name && o.On == m.On
			case change.Die, change.Holder:
				return o.Name == m.Name && o.On == m.On
			case change.Blank:
				return o.Given == m.Given && o.FlatMM == m.FlatMM && (o.Angle == nil) == (m.Angle == nil)
			}
			return false
		})
		switch {
		case i < 0:
			out = append(out, m)
		case m.Kind == change.Move:
			out[i].By = out[i].By.Add(m.By)
		case m.Kind == change.Edge:
			out[i].ByMM += m.ByMM
		case m.Kind == change.Pitch:
			out[i].PitchMM[1] *= m.PitchMM[1] / m.PitchMM[0]
		default:
			out[i] = m
		}
	}
	return out
}
