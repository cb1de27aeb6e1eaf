package features

import (
	"fmt"
	"math"
	"sort"
)

// voteData is what the units vote looks at, in drawing units.
type voteData struct {
	diameters     []float64    // of round things, each kind once, ascending
	lengths       []float64    // of straight pieces and pitches of round things, each kind once, ascending
	boxes         [][2]float64 // of closed rectangles, long side first, each kind once, ascending
	width, height float64      // of all geometry
	texts         []string
	dims          []voteDim
	factors       []float64 // by which dimensions turn what they measure into what they show
}

// voteDim is a dimension whose measured value was typed over.
type voteDim struct {
	measured float64
	text     string
}

// Weights and limits of the vote in decades; judgement, no source.
const (
	weightCallOut    = 2.0
	limitText        = 6.0
	weightStatement  = 3.5
	weightUnitWord   = 1.0
	weightBox        = 3.0
	limitDiameters   = 4.0
	limitLengths     = 1.5
	weightRatio      = 0.5
	weightClearance  = 0.3
	limitSize        = 2.0
	limitAbsurd      = 2.0 // beside limitSize, of what is out of all measure
	absurdFrom       = 4.0 // decades less plausible than the best
	offGrid          = -0.25
	limitOffGrid     = -1.0
	decideAt         = 1.5 // best less second, to infer
	doubtAt          = 0.4 // best less the header's, to doubt it
	nominalMM        = 0.02
	maxVoteKinds     = 500 // diameters looked at, far more than the limit needs
	maxVoteTexts     = 20000
	sizeCentreMM     = 250.0 // the middle of plausible sizes of a drawing
	sizeSpread       = 0.7   // decades
	holeCentreMM     = 10.0
	holeSpread       = 0.45 // decades
	strongestWitness = 12   // how many witnesses are kept
)

// headerWeight is what a header counts for the unit that it names: millimetres
// are set on purpose, inches are what many writers put in when nobody asks.
func headerWeight(unit string) float64 {
	if unit == "mm" {
		return 2
	}
	return 1
}

// rareUnit is what speaks against a unit before anything is looked at: parts of
// plate are drawn in millimetres or inches.
func rareUnit(unit string) float64 {
	switch unit {
	case "cm", "m":
		return 0.7
	case "ft":
		return 1.2
	}
	return 0
}

// decideUnits settles the unit: the flag, the header, else the vote. Evidence
// is always gathered, so that a header that it contradicts is doubted.
func decideUnits(flag string, header *int, data voteData) (Units, []Note) {
	var notes []Note
	evidence, text := gatherEvidence(data)
	named, hasHeader := insUnit{}, false
	if header != nil && *header != 0 {
		if named, hasHeader = insUnits(*header); !hasHeader {
			notes = append(notes, Note{Code: "units-code-unknown", Count: 1,
				Text: fmt.Sprintf("the header's $INSUNITS is %d, which is no unit", *header)})
		}
	}
	if hasHeader {
		evidence = append(evidence, UnitsEvidence{What: "the file's header", For: named.name, Weight: headerWeight(named.name)})
	}
	score := map[string]float64{}
	for _, e := range evidence {
		score[e.For] += e.Weight
	}
	for _, u := range voteUnits() {
		// Who names a unit, or states a size that is drawn in it, means it.
		if text[u.name] < weightCallOut && !(hasHeader && named.name == u.name) {
			score[u.name] -= rareUnit(u.name)
		}
	}
	best, second := rankUnits(score)
	u := Units{Name: "mm", MM: 1, From: UnitsUnknown}
	known := false
	if flag != "" {
		if mm, ok := flagUnit(flag); ok {
			u.Name, u.MM, u.From, known = flag, mm, UnitsFlag, true
		} else {
			notes = append(notes, Note{Code: "units-flag-unknown", Count: 1,
				Text: fmt.Sprintf("the unit %q asked for is not one of mm, in, cm, m, ft; it was left out of account", flag)})
		}
	}
	if !known && hasHeader {
		u.Name, u.MM, u.From, known = named.name, named.mm, UnitsHeader, true
		// A header in a unit that no vote knows has no witness but itself.
		if best.name != named.name && score[best.name]-score[named.name] >= doubtAt {
			u.Doubt, u.Other, u.OtherMM = true, best.name, best.mm
		}
	}
	if !known {
		margin := score[best.name] - score[second.name]
		switch {
		case margin >= decideAt && text[best.name] >= weightCallOut:
			u.Name, u.MM, u.From, u.Confidence = best.name, best.mm, UnitsText, margin
		case margin >= decideAt:
			u.Name, u.MM, u.From, u.Confidence = best.name, best.mm, UnitsInferred, margin
		default:
			u.Confidence = margin
			other := best
			if other.name == u.Name {
				other = second
			}
			u.Other, u.OtherMM = other.name, other.mm
			notes = append(notes, Note{Code: "units-unknown", Count: 1,
				Text: fmt.Sprintf("the drawing does not say its unit; millimetres are assumed (%s), the next reading is %s (%s)",
					sizesUnder(data, 1, "mm"), other.name, sizesUnder(data, other.mm, "mm"))})
		}
	}
	sortEvidence(evidence)
	if said := doubtStated(&u, data); said != "" {
		u.Said = clip(said)
		notes = append(notes, Note{Code: "units-doubt", Count: 1,
			Text: fmt.Sprintf("the drawing is read in %s (%s), but the text %q speaks for %s (%s)",
				u.Name, sizesUnder(data, u.MM, "mm"), u.Said, u.Other, sizesUnder(data, u.OtherMM, "mm"))})
	} else if u.Doubt {
		notes = append(notes, Note{Code: "units-doubt", Count: 1,
			Text: fmt.Sprintf("the header says %s (%s), but the drawing speaks for %s (%s): %s",
				u.Name, sizesUnder(data, u.MM, "mm"), u.Other, sizesUnder(data, u.OtherMM, "mm"), witnesses(evidence, u.Other))})
	}
	if len(evidence) > strongestWitness {
		evidence = evidence[:strongestWitness]
	}
	u.Evidence = evidence
	return u, notes
}

// witnesses names the three strongest for a unit.
func witnesses(sorted []UnitsEvidence, unit string) string {
	s, n := "", 0
	for _, e := range sorted {
		if e.For != unit || n == 3 {
			continue
		}
		if n++; n > 1 {
			s += "; "
		}
		s += e.What
	}
	return s
}

func sortEvidence(evidence []UnitsEvidence) {
	sort.SliceStable(evidence, func(i, j int) bool {
		a, b := evidence[i], evidence[j]
		if a.Weight != b.Weight {
			return a.Weight > b.Weight
		}
		if a.For != b.For {
			return a.For < b.For
		}
		return a.What < b.What
	})
}

func rankUnits(score map[string]float64) (best, second insUnit) {
	units := voteUnits()
	list := units[:]
	sort.SliceStable(list, func(i, j int) bool { return score[list[i].name] > score[list[j].name] })
	return list[0], list[1]
}

// sizesUnder tells the sizes that a unit would give.
func sizesUnder(data voteData, mm float64, unit string) string {
	s := fmt.Sprintf("%s x %s %s over all", shortNumber(data.width*mm), shortNumber(data.height*mm), unit)
	if n := len(data.diameters); n > 0 {
		s += ", round from " + shortNumber(data.diameters[0]*mm)
		if n > 1 {
			s += " to " + shortNumber(data.diameters[n-1]*mm)
		}
	}
	return s
}

func shortNumber(f float64) string { return fmt.Sprintf("%.4g", f) }

// gatherEvidence weighs every witness. text is the part that rests on texts.
func gatherEvidence(data voteData) (list []UnitsEvidence, text map[string]float64) {
	text = map[string]float64{}
	fromText, thicknessMM := textEvidence(data)
	for _, e := range fromText {
		if w := math.Min(e.Weight, limitText-text[e.For]); w > 0 {
			e.Weight = w
			text[e.For] += w
			list = append(list, e)
		}
	}
	list = append(list, limited(diameterEvidence(data.diameters), limitDiameters)...)
	list = append(list, offGridEvidence(data.diameters)...)
	list = append(list, limited(lengthEvidence(data.lengths), limitLengths)...)
	list = append(list, limited(boxEvidence(data), weightBox)...)
	list = append(list, sizeEvidence(data, thicknessMM)...)
	return list, text
}

// limited caps what one sort of evidence can say for one unit.
func limited(in []UnitsEvidence, limit float64) []UnitsEvidence {
	sum := map[string]float64{}
	var out []UnitsEvidence
	for _, e := range in {
		if w := math.Min(e.Weight, limit-sum[e.For]); w > 0 {
			e.Weight = w
			sum[e.For] += w
			out = append(out, e)
		}
	}
	return out
}

// clip shortens a text for a message.
func clip(s string) string {
	if len(s) > 400 {
		s = s[:400] // forty letters of the longest kind fit into it
	}
	r := []rune(s)
	if len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}
