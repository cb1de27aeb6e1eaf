package check

import (
	"fmt"
	"slices"

	"burrside/check/shop"
)

// CheckSettings tells which settings of a shop file name no rule or parameter,
// or are out of range.
func CheckSettings(prof *shop.Profile) []shop.Problem {
	rules := Rules()
	var out []shop.Problem
	for _, id := range sortedKeys(prof.Settings) {
		key := "rules." + id
		i := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == id })
		if i < 0 {
			out = append(out, shop.Problem{Key: key, Message: fmt.Sprintf("no rule %q", id), Hint: nearest(id, ruleIDs(rules))})
			continue
		}
		for _, name := range sortedKeys(prof.Settings[id]) {
			k := slices.IndexFunc(rules[i].Params, func(q Param) bool { return q.Name == name })
			if k < 0 {
				var names []string
				for _, q := range rules[i].Params {
					names = append(names, q.Name)
				}
				out = append(out, shop.Problem{Key: key + "." + name, Message: fmt.Sprintf("rule %q has no setting %q", id, name), Hint: nearest(name, names)})
				continue
			}
			q, v := &rules[i].Params[k], prof.Settings[id][name]
			// Written so that NaN is out of range.
			if !(v >= q.Min && v <= q.Max) {
				out = append(out, shop.Problem{Key: key + "." + name,
					Message: fmt.Sprintf("%s is not between %s and %s", number(v, 6), withUnit(q.Min, q.Unit), withUnit(q.Max, q.Unit))})
			}
		}
		if id == "web" || id == "sliver" {
			if lo, hi := value(&rules[i], rules[i].Params, prof, "error"), value(&rules[i], rules[i].Params, prof, "care"); lo > hi {
				out = append(out, shop.Problem{Key: key + ".care", Message: fmt.Sprintf("care (%s) is below error (%s)", number(hi, 3), number(lo, 3))})
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
	s := number(v, 6)
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
