package check

import (
	"fmt"
	"slices"

	"burrside/features"
	"burrside/features/geom"
)

func ruleReadingDoubt() Rule {
	return Rule{
		ID:      "reading-doubt",
		Title:   "The drawing can be read in another way",
		Why:     "A guess that is not said aloud ends as a wrong part.",
		Measure: "What the recogniser doubts about the part. A grave doubt keeps the part from any answer; the others are notes. A call-out whose number of holes is not the number drawn is a warning.",
		Fix:     "Ask which reading is meant.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 297, 210)
			b.p.Doubts = append(b.p.Doubts, features.Doubt{Code: "maybe-frame", Grave: true, At: geom.Point{}, Text: "the rectangle may be a drawing frame"})
			return b.example("a rectangle 297 x 210 that may be a frame", 10, "")
		},
		Part: func(p *Pass) {
			p.Aspects()
			p.doubts(func(d *features.Doubt) bool { return d.Code != "line-unexplained" })
			p.callOuts()
			p.unowned()
			strangeFaults(p.Faults, func(*features.Fault) bool { return true }, p.Report)
		},
		Sheet: func(p *SheetPass) {
			strangeFaults(p.Sheet.Faults, func(f *features.Fault) bool { return !p.ofPart(f) }, p.Report)
		},
	}
}

// callOuts reports call-outs whose number of holes is not what is drawn, in the
// part or in all of its copies.
func (p *Pass) callOuts() {
	for i := range p.Part.CallOuts {
		c := &p.Part.CallOuts[i]
		drawn := len(c.Features)
		if c.Count == 0 || drawn == 0 || drawn == c.Count || drawn*p.Part.Copies() == c.Count {
			continue
		}
		p.Report(Finding{Severity: Warning, Who: "customer", FixBy: "drawing", Features: slices.Clone(c.Features), At: c.At, HasAt: true, Source: c.Source,
			Got: &Quantity{float64(drawn), ""}, Limit: &Quantity{float64(c.Count), ""}, cause: c.Text,
			Message: fmt.Sprintf("%q speaks of %d holes, %d are drawn", c.Text, c.Count, drawn), Fix: "which number holds?"})
	}
}

// unowned reports what would go by unjudged: numbers that are none, edges and
// inner contours that no feature owns, features that the plan left out. The
// recogniser and the planner see to it that there is none of these; a part is
// not passed on their word.
func (p *Pass) unowned() {
	say := func(format string, args ...any) {
		p.Report(Finding{Severity: Warning, CannotTell: true, Who: "shop", FixBy: "shop", Message: fmt.Sprintf(format, args...), Fix: "look at the drawing by eye"})
	}
	finite := func(q geom.Point) bool { return q.X-q.X == 0 && q.Y-q.Y == 0 } // false for NaN and infinities
	contours := append([]geom.Ring{p.Part.Outline}, p.Part.Holes...)
	for _, r := range contours {
		for _, e := range r {
			if !finite(e.From) || !finite(e.To) || !finite(e.Centre) || e.Radius-e.Radius != 0 {
				say("a contour has a point that is nowhere")
				return
			}
		}
	}
	edges, holes := 0, make([]bool, len(p.Part.Holes))
	for _, o := range p.distances().owner {
		if o < 0 {
			edges++
		}
	}
	planned := make([]bool, len(p.Part.Features))
	for i := range p.Plan.Makes {
		if k := p.Plan.Makes[i].Feature; k >= 0 && k < len(planned) {
			planned[k] = true
		}
	}
	var left []string
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if f.IsInside() && f.Hole >= 0 && f.Hole < len(holes) {
			holes[f.Hole] = true
		}
		if !planned[i] {
			left = append(left, f.ID)
		}
	}
	if edges > 0 {
		say("%s of the outline were not recognised", plural(edges, "edge"))
	}
	if n := len(holes) - countTrue(holes); n > 0 {
		say("%s inside were not recognised", plural(n, "contour"))
	}
	if len(left) > 0 {
		say("nothing was planned for %s", idList(left))
	}
}

func countTrue(l []bool) int {
	n := 0
	for _, v := range l {
		if v {
			n++
		}
	}
	return n
}

// strangeFaults reports faults of a kind that no rule knows: better asked than
// passed over.
func strangeFaults(faults []features.Fault, mine func(*features.Fault) bool, report func(Finding)) {
	for i := range faults {
		f := &faults[i]
		switch f.Code {
		case "open-outline", "duplicate-lines", "gap-bridged", "self-crossing", "hole-on-outline", "no-part", "too-many-placed", "read-incomplete", "line-unexplained":
			continue
		}
		if mine(f) {
			report(faultFinding(f, Warning, true, ruleWords(f.Code), "which reading is meant?"))
		}
	}
}
