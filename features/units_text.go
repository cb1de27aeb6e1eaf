package features

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"burrside/features/measure"
)

// textVote gathers what texts say about the unit.
type textVote struct {
	data        voteData
	list        []UnitsEvidence
	seen        map[string]bool
	words       map[string]int
	thicknessMM float64 // least that a text states with its unit; 0 none
}

// textEvidence looks for texts that name a unit: best when the size that they
// state is drawn. It also gives the thickness, where a text states it with its
// unit.
func textEvidence(data voteData) ([]UnitsEvidence, float64) {
	v := textVote{data: data, seen: map[string]bool{}, words: map[string]int{}}
	texts := data.texts
	if len(texts) > maxVoteTexts {
		texts = texts[:maxVoteTexts]
	}
	for _, t := range texts {
		for _, line := range strings.Split(t, "\n") {
			v.text(line)
		}
	}
	for _, d := range data.dims {
		v.dim(d)
	}
	for _, u := range voteUnits() {
		if n := v.words[u.name]; n > 0 {
			v.add(fmt.Sprintf("texts in %s (%d)", u.name, n), u.name, weightUnitWord)
		}
	}
	return v.list, v.thicknessMM
}

func (v *textVote) add(what, unit string, w float64) {
	if !v.seen[what+"\x00"+unit] {
		v.seen[what+"\x00"+unit] = true
		v.list = append(v.list, UnitsEvidence{What: what, For: unit, Weight: w})
	}
}

func (v *textVote) text(t string) {
	if unit, ok := measure.UnitStatement(t); ok {
		v.add(fmt.Sprintf("the text %q", clip(t)), unit, weightStatement)
		return
	}
	if call, ok := measure.HoleCallOut(t); ok && call.Diameter.MM > 0 {
		v.callOut(t, call.Diameter)
		return
	}
	p, ok := measure.PlateNote(t)
	if !ok {
		return
	}
	if unit := p.Thickness.Unit; unit != "" {
		v.words[unit]++
		if mm := p.Thickness.MM; v.thicknessMM == 0 || mm < v.thicknessMM {
			v.thicknessMM = mm
		}
	}
	if p.Width.Unit != "" && p.Length.Unit != "" {
		v.box(t, p.Width.MM, p.Length.MM)
	} else if p.Width.Unit == "" && p.Length.Unit == "" && !p.Width.Fraction && !p.Length.Fraction && p.Width.MM > 0 && p.Length.MM > 0 {
		v.bareBox(t, p.Width.MM, p.Length.MM)
	}
}

// bareBox weighs a plate's size without a unit, which stands in the drawing's:
// unless no such rectangle is drawn, but one of that many millimetres or inches.
func (v *textVote) bareBox(t string, a, b float64) {
	for _, box := range v.boxes() {
		if sameBox(box, a, b, 0.5) {
			return
		}
	}
	for _, u := range voteUnits() {
		for _, box := range v.boxes() {
			if u.mm != 1 && sameBox(box, a/u.mm, b/u.mm, 0.5/u.mm) || u.mm != 25.4 && sameBox(box, a*25.4/u.mm, b*25.4/u.mm, 0.5/u.mm) {
				v.add(fmt.Sprintf("the text %q and a rectangle of that size", clip(t)), u.name, weightBox)
				break
			}
		}
	}
}

// callOut weighs a hole's size in a text against the diameters drawn.
func (v *textVote) callOut(t string, d measure.LengthValue) {
	what := fmt.Sprintf("the text %q and a drawn diameter", clip(t))
	if d.Unit != "" {
		v.words[d.Unit]++
		for _, u := range voteUnits() {
			if hasNear(v.data.diameters, d.MM/u.mm, nominalMM/u.mm) {
				v.add(what, u.name, weightCallOut)
			}
		}
		return
	}
	// Without a unit it stands in the drawing's, which tells nothing: unless no
	// such hole is drawn, but one of that many millimetres or inches.
	if hasNear(v.data.diameters, d.MM, nominalMM) {
		return
	}
	for _, u := range voteUnits() {
		if u.mm != 1 && hasNear(v.data.diameters, d.MM/u.mm, nominalMM/u.mm) {
			v.add(what, u.name, weightCallOut)
		}
		if u.mm != 25.4 && hasNear(v.data.diameters, d.MM*25.4/u.mm, nominalMM/u.mm) {
			v.add(what, u.name, weightCallOut)
		}
	}
}

// box weighs a plate's stated size against the rectangles drawn.
func (v *textVote) box(t string, a, b float64) {
	for _, u := range voteUnits() {
		for _, box := range v.boxes() {
			if sameBox(box, a/u.mm, b/u.mm, 0.5/u.mm) {
				v.add(fmt.Sprintf("the text %q and a rectangle of that size", clip(t)), u.name, weightBox)
				break
			}
		}
	}
}

func (v *textVote) boxes() [][2]float64 {
	return append([][2]float64{longFirst(v.data.width, v.data.height)}, v.data.boxes...)
}

// dim weighs a text typed over a dimension against what it measures.
func (v *textVote) dim(d voteDim) {
	n := measure.DimText(d.text)
	settleDual(&n)
	for _, s := range n.Sizes {
		if s.Unit == "" {
			continue
		}
		v.words[s.Unit]++
		if !(s.MM > 0) {
			continue
		}
		for _, u := range voteUnits() {
			if math.Abs(d.measured*u.mm-s.MM) <= math.Min(s.Step, 0.02*s.MM)+nominalMM {
				v.add(fmt.Sprintf("the dimension %q measures %s", clip(d.text), shortNumber(d.measured)), u.name, weightCallOut)
			}
		}
	}
}

// hasNear searches an ascending list.
func hasNear(sorted []float64, x, tol float64) bool {
	i := sort.SearchFloat64s(sorted, x-tol)
	return i < len(sorted) && sorted[i] <= x+tol
}
