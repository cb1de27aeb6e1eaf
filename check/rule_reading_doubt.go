package check

import (
	"fmt"
	"slices"
	"strings"

	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

func ruleReadingDoubt() Rule {
	return Rule{
		ID:      "reading-doubt",
		Title:   "The drawing can be read in another way",
		Why:     "A guess that is not said aloud ends as a wrong part.",
		Measure: "What the recogniser doubts about the part. A grave doubt keeps the part from any answer; the others are notes. A call-out whose number of holes is not the number drawn, one that no hole drawn answers to, holes of another size than a call-out of all holes says, and a plate's stated size that is not the part's are warnings.",
		Fix:     "Ask which reading is meant.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 297, 210)
			b.p.Doubts = append(b.p.Doubts, features.Doubt{Code: "maybe-frame", Grave: true, At: geom.Point{}, Text: "the rectangle may be a drawing frame"})
			return b.example("a rectangle 297 x 210 that may be a frame", 10, "")
		},
		Part: func(p *Pass) {
			p.Aspects()
			p.doubts(func(d *features.Doubt) bool {
				return d.Code != "line-unexplained" && d.Code != "leg-not-drawn" && !ofQuantity(d)
			})
			p.callOuts()
			p.statedSizes()
			p.unowned()
			strangeFaults(p.Faults, func(*features.Fault) bool { return true }, p.Report)
		},
		Sheet: func(p *SheetPass) {
			strangeFaults(p.Sheet.Faults, func(f *features.Fault) bool { return !p.ofPart(f) }, p.Report)
		},
	}
}

// statedSizeMM is how far a stated width or length may be from the part's: 1/32
// in, where inches are stated, else 0.5 mm.
func statedSizeMM(l measure.LengthValue) float64 {
	if l.Unit == "in" || l.Unit == "ft" {
		return 25.4 / 32
	}
	return 0.5
}

// statedSizes compares the width and length of plate notes, "PL 10 x 90 x 200",
// with the size of the part, in either order. A width alone may be either side.
func (p *Pass) statedSizes() {
	if p.Part.Angle != nil {
		return // three sizes are those of its section
	}
	long, short := max(p.Part.Box.Width(), p.Part.Box.Height()), min(p.Part.Box.Width(), p.Part.Box.Height())
	seen := map[string]bool{}
	for _, text := range append([]string{p.Part.Thickness.Text}, p.texts...) {
		if seen[text] {
			continue
		}
		seen[text] = true
		n, ok := measure.PlateNote(text)
		if sides, t, is := measure.OutlineSize(text); !ok && is {
			n, ok = measure.Plate{Thickness: t, Width: sides[0]}, true
			if len(sides) > 1 {
				n.Length = sides[1]
			}
			// Three sizes are the part's if one is its thickness.
			ok = !(t.MM > 0) || abs(p.statedMM(t)-p.Job.ThicknessMM) < 0.01 || abs(p.statedMM(t)-p.said.statedMM) < 0.01
		}
		if !ok || !(n.Width.MM > 0) {
			continue
		}
		if low := " " + strings.ToLower(text); strings.Contains(low, " from ") || strings.Contains(low, " stock") {
			continue // the plate that it is cut from
		}
		w, l := p.statedMM(n.Width), p.statedMM(n.Length)
		tol := max(statedSizeMM(n.Width), statedSizeMM(n.Length))
		got, limit := 0.0, 0.0
		switch {
		case l > 0 && abs(max(w, l)-long) > tol:
			got, limit = long, max(w, l)
		case l > 0 && abs(min(w, l)-short) > tol:
			got, limit = short, min(w, l)
		case !(l > 0) && abs(w-short) > tol && abs(w-long) > tol:
			got, limit = short, w
		default:
			continue
		}
		f := Finding{Severity: Warning, Who: "designer", FixBy: "drawing", Got: &Quantity{got, "mm"}, Limit: &Quantity{limit, "mm"}, cause: text,
			Message: fmt.Sprintf("%q states %s, the part drawn measures %s (%s x %s)", text, p.length(limit), p.length(got), p.length(long), p.length(short)),
			Fix:     "which size holds?"}
		if text == p.Part.Thickness.Text {
			f = stated(f, &p.Part.Thickness)
		} else {
			f.At, f.HasAt = p.noteAt[text]
		}
		p.Report(f)
	}
}

// callOuts reports call-outs whose number of holes is not what is drawn, in the
// part or in all of its copies.
func (p *Pass) callOuts() {
	p.allHoles()
	for i := range p.Part.CallOuts {
		c := &p.Part.CallOuts[i]
		drawn := len(c.Features)
		if drawn == 0 {
			p.notDrawn(c)
			continue
		}
		if c.Count == 0 || drawn == c.Count || drawn*p.Part.Copies() == c.Count {
			continue
		}
		p.Report(Finding{Severity: Warning, Who: "customer", FixBy: "drawing", Features: slices.Clone(c.Features), At: p.calledAt(c.At, c.Features), HasAt: true, Source: c.Source,
			Got: &Quantity{float64(drawn), ""}, Limit: &Quantity{float64(c.Count), ""}, cause: c.Text,
			Message: fmt.Sprintf("%q speaks of %d holes, %d are drawn", c.Text, c.Count, drawn), Fix: "which number holds?"})
	}
}

// allHoles reports holes of another size than a call-out of all holes says, where
// no other call-out names them.
func (p *Pass) allHoles() {
	named := map[string]bool{}
	for i := range p.Part.CallOuts {
		if c := &p.Part.CallOuts[i]; !measure.IsAllHoles(c.Text) {
			for _, id := range c.Features {
				named[id] = true
			}
		}
	}
	for i := range p.Part.CallOuts {
		c := &p.Part.CallOuts[i]
		if !measure.IsAllHoles(c.Text) || len(c.Features) == 0 || !(c.DiameterMM > 0) {
			continue
		}
		var others []string
		size := 0.0
		for k := range p.Part.Features {
			f := &p.Part.Features[k]
			if f.Kind == features.RoundHole && !named[f.ID] && !slices.Contains(c.Features, f.ID) {
				others = append(others, f.ID)
				size = f.DiameterMM
			}
		}
		if len(others) == 0 {
			continue
		}
		p.Report(Finding{Severity: Warning, Who: "designer", FixBy: "drawing", Features: others, Count: len(others), At: p.calledAt(c.At, others), HasAt: true, Source: c.Source, cause: c.Text,
			Got: &Quantity{size, "mm"}, Limit: &Quantity{c.DiameterMM, "mm"},
			Message: fmt.Sprintf("%q is called out, %s of another size", c.Text, areDrawn(len(others))), Fix: "which size holds?"})
	}
}

func areDrawn(n int) string {
	if n == 1 {
		return "1 hole is drawn"
	}
	return plural(n, "hole") + " are drawn"
}

// notDrawn reports a call-out that no hole of the part answers to, with the
// nearest hole that is drawn. One that a hole of another part answers to is that
// part's.
func (p *Pass) notDrawn(c *features.CallOut) {
	if slices.ContainsFunc(p.elsewhere, func(o features.CallOut) bool { return o.Text == c.Text && o.At == c.At }) {
		return
	}
	f := Finding{Severity: Warning, Who: "designer", FixBy: "drawing", At: c.At, HasAt: true, Source: c.Source, cause: c.Text,
		Message: fmt.Sprintf("%q is called out, no such hole is drawn", c.Text), Fix: "which holds, the call-out or the drawing?"}
	call, _ := measure.HoleCallOut(c.Text)
	wanted, slot := c.DiameterMM, call.Slot[0].MM > 0
	switch {
	case slot:
		wanted = p.statedMM(call.Slot[0])
		f.Message = fmt.Sprintf("%q is called out, no such slot is drawn", c.Text)
	case !(wanted > 0) && call.Bolt != "":
		wanted, _ = boltSizeMM(call.Bolt)
	case !(wanted > 0):
		wanted = p.statedMM(call.Seat)
	}
	nearest := 0.0
	for i := range p.Part.Features {
		h := &p.Part.Features[i]
		size := h.DiameterMM
		if slot {
			size = h.WidthMM
			if h.Kind != features.Slot && h.Kind != features.CurvedSlot {
				size = 0
			}
		}
		if !h.IsInside() || !(size > 0) {
			continue
		}
		// Holes of more than one size that may be for the bolt: neither is wrong.
		if !(c.DiameterMM > 0) && !slot && call.Bolt != "" && call.Process != "tap" && size >= wanted+0.4 && size <= wanted+4 {
			return
		}
		if nearest == 0 || abs(size-wanted) < abs(nearest-wanted) {
			nearest = size
		}
	}
	if wanted > 0 {
		f.Limit = &Quantity{wanted, "mm"}
	}
	if nearest > 0 {
		f.Got = &Quantity{nearest, "mm"}
		if slot {
			f.Message += "; the nearest is " + p.length(nearest) + " wide"
		} else {
			f.Message += "; the nearest is Ø" + p.length(nearest)
		}
	}
	p.Report(f)
}

// statedMM is a length of a text in millimetres; one without a unit is taken in
// the drawing's.
func (p *Pass) statedMM(l measure.LengthValue) float64 {
	if l.Unit == "" && (p.Inch || l.Fraction) {
		return l.MM * 25.4
	}
	return l.MM
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
