package render

import (
	"fmt"
	"strings"

	"burrside/check"
	"burrside/check/change"
)

// changeLines are the changes that would pass, one a line: the shop's as orders,
// the designer's as questions.
func changeLines(p *check.PartReport) []string {
	var out []string
	for i := range p.Changes {
		g := &p.Changes[i]
		var what []string
		for k, r := range g.Resolves {
			if k == 2 && len(g.Resolves) > 3 {
				what = append(what, fmt.Sprintf("%d more", len(g.Resolves)-k))
				break
			}
			s := ruleWords(r.Rule)
			if len(r.Features) > 0 {
				s += " on " + idList(r.Features)
			}
			what = append(what, s)
		}
		out = append(out, fmt.Sprintf("%s [clears %s; then %s]", g.Text, strings.Join(what, ", "), strings.ToLower(verdictWords(g.After))))
	}
	return out
}

// changes writes the changes that would pass under the findings.
func (t *textReport) changes(p *check.PartReport) {
	shop, drawing := true, true
	for i, s := range changeLines(p) {
		word := "or: "
		switch by := p.Changes[i].By; {
		case by == "shop":
			word = "change: "
			if !shop {
				word = "and: "
			}
			shop = false
		case drawing || !sameResolves(p.Changes[i-1].Resolves, p.Changes[i].Resolves):
			word, drawing = "to ask the designer: ", false
		}
		if i == mostFindings && !t.opt.All {
			t.line(fmt.Sprintf("+ %d more changes (--all)", len(p.Changes)-i), 2, 4)
			return
		}
		t.line(word+s, 2, 4)
	}
}

// sameResolves tells that two changes are ways to the same end.
func sameResolves(a, b []check.Resolved) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Finding != b[i].Finding {
			return false
		}
	}
	return true
}

// jsonChange is a change that was confirmed by running the rules again.
type jsonChange struct {
	By       string           `json:"by" jsonschema:"enum=shop,enum=drawing,description=drawing: needs the designer's leave"`
	Who      string           `json:"who" jsonschema:"enum=shop,enum=buy,enum=designer"`
	Text     string           `json:"text"`
	Features []string         `json:"features"`
	Resolves []jsonResolved   `json:"resolves" jsonschema:"minItems=1"`
	After    jsonVerdict      `json:"verdict_after" jsonschema:"description=of the part with this change alone"`
	Steps    []jsonChangeStep `json:"steps" jsonschema:"minItems=1,description=what is changed; all of it is needed"`
}

type jsonResolved struct {
	Finding  int      `json:"finding" jsonschema:"minimum=0,description=index in findings of the part"`
	Rule     string   `json:"rule"`
	Features []string `json:"features"`
}

type jsonChangeStep struct {
	Kind        jsonChangeKind `json:"kind"`
	Features    []string       `json:"features,omitempty"`
	Tool        string         `json:"tool,omitempty" jsonschema:"description=punch to buy or punch of the rack"`
	DieMM       *float64       `json:"die_mm,omitempty" jsonschema:"description=bore of the die"`
	Holder      string         `json:"holder,omitempty"`
	Machine     string         `json:"machine,omitempty"`
	Process     string         `json:"process,omitempty"`
	Order       string         `json:"order,omitempty"`
	StockWidth  *float64       `json:"stock_width_mm,omitempty"`
	BlankMM     *jsonPoint     `json:"blank_mm,omitempty" jsonschema:"description=length and width of a blank that comes cut"`
	MoveMM      *jsonPoint     `json:"move_mm,omitempty"`
	Along       *jsonPoint     `json:"along,omitempty" jsonschema:"description=unit vector: of a pitch; of an edge outward"`
	OutMM       *float64       `json:"out_mm,omitempty" jsonschema:"description=how far the edge goes out"`
	PitchFromMM *float64       `json:"pitch_from_mm,omitempty"`
	PitchToMM   *float64       `json:"pitch_to_mm,omitempty"`
	WidthMM     *float64       `json:"width_mm,omitempty" jsonschema:"description=diameter of a round hole"`
	LengthMM    *float64       `json:"length_mm,omitempty"`
	DepthMM     *float64       `json:"depth_mm,omitempty"`
	ThicknessMM *float64       `json:"thickness_mm,omitempty"`
}

type jsonChangeKind string

// changeKinds are the kinds of change that the schema lists.
func changeKinds() []change.Kind { return change.Kinds() }

func changeJSON(g *check.Suggestion) jsonChange {
	j := jsonChange{By: g.By, Who: g.Who, Text: g.Text, Features: list(g.Features), After: verdictJSON(g.After)}
	for _, r := range g.Resolves {
		j.Resolves = append(j.Resolves, jsonResolved{Finding: r.Finding, Rule: r.Rule, Features: list(r.Features)})
	}
	for i := range g.Steps {
		c := &g.Steps[i]
		s := jsonChangeStep{Kind: jsonChangeKind(c.Kind), Features: c.Features, Tool: c.Name, DieMM: known(c.DieMM), Holder: c.Holder, Machine: c.Machine,
			Process: c.Process, Order: c.Order, StockWidth: known(c.FlatMM), OutMM: known(c.ByMM), PitchFromMM: known(c.PitchMM[0]), PitchToMM: known(c.PitchMM[1]),
			WidthMM: known(c.WidthMM), LengthMM: known(c.LengthMM), DepthMM: known(c.DepthMM), ThicknessMM: known(c.ThickMM)}
		if s.Machine == "" {
			s.Machine = c.On
		}
		if t := c.Tool; t != nil {
			s.Tool, s.WidthMM, s.LengthMM = t.Name, known(t.WidthMM), known(t.LengthMM)
			if len(t.Dies) > 0 {
				s.DieMM = known(t.Dies[0].WidthMM)
			}
		}
		if c.Given {
			p := jsonAt(c.SizeMM[0], c.SizeMM[1])
			s.BlankMM = &p
		}
		if c.Kind == change.Move {
			s.MoveMM = pointJSON(c.By)
		}
		if c.Along.Len() > 0 {
			s.Along = pointJSON(c.Along)
		}
		j.Steps = append(j.Steps, s)
	}
	return j
}
