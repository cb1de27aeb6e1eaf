package check

import (
	"fmt"
	"slices"

	"burrside/check/shop"
	"burrside/features/measure"
)

// CheckSettings tells which settings of a shop file name no rule or parameter,
// or are out of range.
func CheckSettings(prof *shop.Profile) []shop.Problem {
	rules := Rules()
	var out []shop.Problem
	add := func(id, name, key, message, hint string) {
		at := prof.Places[id][name] // the zero value where the shop was not loaded from a file
		out = append(out, shop.Problem{Line: at.Line, Column: at.Column, Key: key, Message: message, Hint: hint})
	}
	for _, id := range sortedKeys(prof.Settings) {
		key := "rules." + id
		i := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == id })
		if i < 0 {
			first := ""
			if names := sortedKeys(prof.Settings[id]); len(names) > 0 {
				first = names[0]
			}
			add(id, first, key, fmt.Sprintf("no rule %q", id), nearest(id, ruleIDs(rules)))
			continue
		}
		for _, name := range sortedKeys(prof.Settings[id]) {
			k := slices.IndexFunc(rules[i].Params, func(q Param) bool { return q.Name == name })
			if k < 0 {
				var names []string
				for _, q := range rules[i].Params {
					names = append(names, q.Name)
				}
				add(id, name, key+"."+name, fmt.Sprintf("rule %q has no setting %q", id, name), nearest(name, names))
				continue
			}
			q, v := &rules[i].Params[k], prof.Settings[id][name]
			// Written so that NaN is out of range.
			if !(v >= q.Min && v <= q.Max) {
				add(id, name, key+"."+name, fmt.Sprintf("%s is not between %s and %s", withUnit(v, q.Unit), withUnit(q.Min, q.Unit), withUnit(q.Max, q.Unit)), "")
			}
			if u := prof.Places[id][name].Unit; u != "" && u != q.Unit {
				add(id, name, key+"."+name, fmt.Sprintf("stated in %s, the setting is in %s", u, orText(q.Unit, "a bare number")), "")
			}
		}
		if id == "web" || id == "sliver" || id == "hole-to-bend" {
			if lo, hi := value(&rules[i], rules[i].Params, prof, "error"), value(&rules[i], rules[i].Params, prof, "care"); lo > hi {
				add(id, "care", key+".care", fmt.Sprintf("care (%s) is below error (%s)", measure.FormatNumber(hi, 3), measure.FormatNumber(lo, 3)), "")
			}
		}
	}
	return out
}

func ruleIDs(rules []Rule) []string {
	ids := make([]string, len(rules))
	for i := range rules {
		ids[i] = rules[i].ID
	}
	return ids
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func withUnit(v float64, unit string) string {
	s := measure.FormatNumber(v, 6)
	if unit != "" {
		s += " " + unit
	}
	return s
}

// nearest is the word of the list with the fewest letters changed, at most a
// third of them; "" none is near. Ties go to the first in the alphabet.
func nearest(word string, list []string) string {
	best, least := "", max(2, len(word)/3)+1
	for _, w := range slices.Sorted(slices.Values(list)) {
		if d := editDistance(word, w); d < least {
			best, least = w, d
		}
	}
	return best
}

// editDistance counts letters inserted, left out or changed.
func editDistance(a, b string) int {
	prev := make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := range len(a) {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range len(b) {
			next[j+1] = min(prev[j+1]+1, next[j]+1, prev[j]+1)
			if a[i] == b[j] {
				next[j+1] = min(next[j+1], prev[j])
			}
		}
		prev = next
	}
	return prev[len(b)]
}
