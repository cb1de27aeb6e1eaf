package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"burrside/features"
)

// severityRank orders severities, the worst first.
func severityRank(f *Finding) int {
	switch {
	case f.Severity == Error && !f.CannotTell:
		return 0
	case f.Severity == Error:
		return 1
	case f.CannotTell:
		return 2
	case f.Severity == Warning:
		return 3
	case f.Severity == Note:
		return 4
	}
	panic("check: unknown severity " + string(f.Severity))
}

// group makes one finding of all findings that have rule, cause, limit and
// remedy in common: the worst gives place, numbers and words; the features are
// listed worst first. order is the place of each feature in the part.
func group(list []Finding, order map[string]int) []Finding {
	index := map[string]int{}
	var out [][]Finding
	for _, f := range list {
		k := f.key()
		i, ok := index[k]
		if !ok {
			i = len(out)
			index[k] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], f)
	}
	merged := make([]Finding, 0, len(out))
	for _, g := range out {
		merged = append(merged, mergeGroup(g, order))
	}
	return merged
}

// key is equal for findings that are one.
func (f *Finding) key() string {
	limit := ""
	if f.Limit != nil {
		limit = fmt.Sprintf("%.6g %s", f.Limit.Value, f.Limit.Unit)
	}
	return strings.Join([]string{f.Rule, string(f.Severity), fmt.Sprint(f.CannotTell), f.Machine, f.Station, f.Tool, f.Who, orText(f.remedy, f.Fix), limit, f.cause}, "\x00")
}

func mergeGroup(g []Finding, order map[string]int) Finding {
	if len(g) == 1 {
		return g[0]
	}
	slices.SortStableFunc(g, func(a, b Finding) int {
		if d := b.worse - a.worse; abs(d) > 1e-9 {
			return cmp.Compare(b.worse, a.worse)
		}
		return cmp.Or(cmp.Compare(firstOrder(&a, order), firstOrder(&b, order)), comparePlace(&a, &b))
	})
	f := g[0]
	ids := map[string]bool{}
	f.Features, f.Source = nil, nil
	seen := map[features.Source]bool{}
	for i := range g {
		for _, id := range g[i].Features {
			if !ids[id] {
				ids[id] = true
				f.Features = append(f.Features, id)
			}
		}
		for _, s := range g[i].Source {
			if !seen[s] {
				seen[s] = true
				f.Source = append(f.Source, s)
			}
		}
	}
	f.Count = len(f.Features)
	if f.Count == 0 {
		for i := range g {
			f.Count += g[i].Count
		}
	}
	differ := slices.ContainsFunc(g, func(o Finding) bool { return o.Message != g[0].Message })
	// An edge and its cut say the same of one feature: features are counted,
	// where there are any.
	others := len(g) - 1
	if len(f.Features) > 0 {
		others = len(f.Features) - max(1, len(g[0].Features))
	}
	switch {
	case !differ || others == 0:
	case g[len(g)-1].worse < f.worse-1e-9:
		f.Message += fmt.Sprintf("; the worst of %d", others+1)
	default:
		f.Message += fmt.Sprintf("; and %d more like it", others)
	}
	return f
}

func firstOrder(f *Finding, order map[string]int) int {
	if len(f.Features) == 0 {
		return -1
	}
	return order[f.Features[0]]
}

// comparePlace orders findings by place, rounded to a micrometre: bottom, left.
func comparePlace(a, b *Finding) int {
	round := func(v float64) int64 { return int64(v*1000 + 0.5) }
	return cmp.Or(cmp.Compare(round(a.At.Y), round(b.At.Y)), cmp.Compare(round(a.At.X), round(b.At.X)))
}

// sortFindings puts the worst first; equal ones in the order of the handbook,
// then of the features.
func sortFindings(list []Finding, rules []Rule, order map[string]int) {
	at := make(map[string]int, len(rules))
	for i := range rules {
		at[rules[i].ID] = i
	}
	slices.SortStableFunc(list, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(severityRank(&a), severityRank(&b)),
			cmp.Compare(at[a.Rule], at[b.Rule]),
			cmp.Compare(firstOrder(&a, order), firstOrder(&b, order)),
			comparePlace(&a, &b),
			cmp.Compare(a.Message, b.Message),
		)
	})
}

// silencer tells which rules an error of another makes pointless.
type silencer struct {
	by    string
	mutes []string
	cares []string // muted unless an error itself
	part  bool     // everywhere on the part, not on the same feature only
}

func silencers() []silencer {
	punching := []string{"punch-force", "die-clearance", "die-holder", "tool", "slot-hits", "stripping", "strap", "throat-reach", "leg-clearance"}
	handling := []string{"throat-reach", "stripping", "strap"}
	return []silencer{
		{by: "punch-ratio", mutes: punching},
		{by: "die-holder", mutes: []string{"tool", "die-clearance"}, cares: handling},
		{by: "punch-force", mutes: []string{"tool", "die-clearance", "die-holder"}, cares: handling},
		// d < t is one cause, whoever says it.
		{by: "punch-ratio", mutes: []string{"punching-limit"}},
		{by: "root-fillet", mutes: []string{"leg-clearance"}},
		{by: "shear-row", mutes: []string{"sliver", "hold-down", "mitre"}},
		{by: "hole-on-outline", mutes: []string{"web", "edge-distance", "hole-pitch"}},
		{by: "material", mutes: append([]string{"punch-ratio", "notch-force", "shear-row"}, punching...), part: true},
	}
}

// suppress takes out what the error of another rule makes pointless. A finding
// on several features loses those that the error is about.
func suppress(list []Finding) (kept []Finding, out []Suppressed) {
	for _, s := range silencers() {
		hit := map[string]bool{}
		any := false
		for i := range list {
			if list[i].Rule == s.by && list[i].Severity == Error && !list[i].CannotTell {
				any = true
				for _, id := range list[i].Features {
					hit[id] = true
				}
			}
		}
		if !any {
			continue
		}
		kept = nil
		for _, f := range list {
			muted := slices.Contains(s.mutes, f.Rule) || slices.Contains(s.cares, f.Rule) && f.Severity != Error
			if !muted || !s.part && !slices.ContainsFunc(f.Features, func(id string) bool { return hit[id] }) {
				kept = append(kept, f)
				continue
			}
			out = append(out, Suppressed{Rule: f.Rule, Features: f.Features, By: s.by})
		}
		list = kept
	}
	return list, mergeSuppressed(out)
}

func mergeSuppressed(list []Suppressed) []Suppressed {
	var out []Suppressed
	for _, s := range list {
		i := slices.IndexFunc(out, func(o Suppressed) bool { return o.Rule == s.Rule && o.By == s.By })
		if i < 0 {
			out = append(out, Suppressed{Rule: s.Rule, By: s.By})
			i = len(out) - 1
		}
		for _, id := range s.Features {
			if !slices.Contains(out[i].Features, id) {
				out[i].Features = append(out[i].Features, id)
			}
		}
	}
	return out
}
