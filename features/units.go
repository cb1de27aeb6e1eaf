package features

import (
	"fmt"
	"math"
	"sort"

	"burrside/features/measure"
)

// voteData is what the units vote looks at, in drawing units.
type voteData struct {
	diameters     []float64 // of round things, each kind once, ascending
	lengths       []float64 // of straight pieces, each kind once, ascending
	width, height float64   // of all geometry
	texts         []string
	dims          []voteDim
}

// voteDim is a dimension whose measured value was typed over with a unit.
type voteDim struct {
	measured float64
	text     string
}

// Weights and limits of the vote in decades; judgement, no source.
const (
	weightCallOut    = 2.0
	limitText        = 6.0
	weightUnitWord   = 1.0
	limitDiameters   = 4.0
	limitLengths     = 1.5
	weightRatio      = 0.5
	limitSize        = 2.0
	decideAt         = 1.5 // best less second, to infer
	doubtAt          = 3.0 // best less the header's, to doubt it
	nominalMM        = 0.02
	maxVoteKinds     = 500 // diameters looked at, far more than the limit needs
	maxVoteTexts     = 20000
	sizeCentreMM     = 250.0 // the middle of plausible sizes of a drawing
	sizeSpread       = 0.7   // decades
	holeCentreMM     = 10.0
	holeSpread       = 0.45 // decades
	strongestWitness = 12   // how many witnesses are kept
)

// decideUnits settles the unit: the flag, the header, else the vote. Evidence
// is always gathered, so that a header that it contradicts is doubted.
func decideUnits(flag string, header *int, data voteData) (Units, []Note) {
	var notes []Note
	evidence, text := gatherEvidence(data)
	score := map[string]float64{}
	for _, e := range evidence {
		score[e.For] += e.Weight
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
	if !known && header != nil && *header != 0 {
		if h, ok := insUnits(*header); ok {
			u.Name, u.MM, u.From, known = h.name, h.mm, UnitsHeader, true
			// A header in a unit that no vote knows has no witness but itself.
			if best.name != h.name && score[best.name]-score[h.name] > doubtAt {
				u.Doubt, u.Other, u.OtherMM = true, best.name, best.mm
			}
		} else {
			notes = append(notes, Note{Code: "units-code-unknown", Count: 1,
				Text: fmt.Sprintf("the header's $INSUNITS is %d, which is no unit", *header)})
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
	if u.Doubt {
		notes = append(notes, Note{Code: "units-doubt", Count: 1,
			Text: fmt.Sprintf("the header says %s (%s), but the drawing speaks for %s (%s)",
				u.Name, sizesUnder(data, u.MM, "mm"), u.Other, sizesUnder(data, u.OtherMM, "mm"))})
	}
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
	if len(evidence) > strongestWitness {
		evidence = evidence[:strongestWitness]
	}
	u.Evidence = evidence
	return u, notes
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
	for _, e := range textEvidence(data) {
		if w := math.Min(e.Weight, limitText-text[e.For]); w > 0 {
			e.Weight = w
			text[e.For] += w
			list = append(list, e)
		}
	}
	list = append(list, limited(diameterEvidence(data.diameters), limitDiameters)...)
	list = append(list, limited(lengthEvidence(data.lengths), limitLengths)...)
	list = append(list, sizeEvidence(data)...)
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

// textEvidence looks for texts that name a unit: best when the size that they
// state is drawn.
func textEvidence(data voteData) []UnitsEvidence {
	var list []UnitsEvidence
	seen := map[string]bool{}
	add := func(what, unit string, w float64) {
		if !seen[what+"\x00"+unit] {
			seen[what+"\x00"+unit] = true
			list = append(list, UnitsEvidence{What: what, For: unit, Weight: w})
		}
	}
	texts := data.texts
	if len(texts) > maxVoteTexts {
		texts = texts[:maxVoteTexts]
	}
	words := map[string]int{}
	for _, t := range texts {
		if call, ok := measure.HoleCallOut(t); ok && call.Diameter.Unit != "" && call.Diameter.MM > 0 {
			for _, u := range voteUnits() {
				if hasNear(data.diameters, call.Diameter.MM/u.mm, nominalMM/u.mm) {
					add(fmt.Sprintf("the text %q and a drawn diameter", clip(t)), u.name, weightCallOut)
				}
			}
			words[call.Diameter.Unit]++
			continue
		}
		if p, ok := measure.PlateNote(t); ok && p.Thickness.Unit != "" {
			words[p.Thickness.Unit]++
		}
	}
	for _, d := range data.dims {
		l, err := measure.Length(d.text)
		if err != nil || l.Unit == "" || !(l.MM > 0) {
			continue
		}
		for _, u := range voteUnits() {
			if math.Abs(d.measured*u.mm-l.MM) <= 0.002*l.MM+nominalMM {
				add(fmt.Sprintf("the dimension %q measures %s", clip(d.text), shortNumber(d.measured)), u.name, weightCallOut)
			}
		}
		words[l.Unit]++
	}
	for _, u := range voteUnits() {
		if n := words[u.name]; n > 0 {
			add(fmt.Sprintf("texts in %s (%d)", u.name, n), u.name, weightUnitWord)
		}
	}
	return list
}

// clip shortens a text for a message.
func clip(s string) string {
	r := []rune(s)
	if len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}

// hasNear searches an ascending list.
func hasNear(sorted []float64, x, tol float64) bool {
	i := sort.SearchFloat64s(sorted, x-tol)
	return i < len(sorted) && sorted[i] <= x+tol
}

// onGrid tells whether x is a multiple of step within tol.
func onGrid(x, step, tol float64) bool {
	r := x / step
	return math.Abs(r-math.Round(r))*step <= tol
}

// diameterEvidence weighs each kind of diameter by the chance of meeting the
// grid of usual hole sizes by luck: 0.5 mm from 3 to 60 mm, 1/32 in from 3/16 to
// 3 in. One that is on both grids of one reading says nothing.
func diameterEvidence(diameters []float64) []UnitsEvidence {
	var list []UnitsEvidence
	if len(diameters) > maxVoteKinds {
		diameters = diameters[:maxVoteKinds]
	}
	for _, d := range diameters {
		for _, u := range voteUnits() {
			mm := d * u.mm
			metric, metricStep := gridHit(mm, 3, 60, []float64{1, 0.5})
			inch, inchStep := gridHit(mm/25.4, 0.1875, 3, []float64{0.125, 0.0625, 0.03125})
			isInch := u.name == "in" || u.name == "ft"
			var chance float64
			switch {
			case isInch && inch && !metric:
				chance = 2 * nominalMM / (inchStep * 25.4)
			case !isInch && metric && !inch:
				chance = 2 * nominalMM / metricStep
			case u.name == "mm" && inch && !metric:
				// Drawn in millimetres, designed in inches.
				list = append(list, UnitsEvidence{What: fmt.Sprintf("diameter %s is %s in", shortNumber(d), shortNumber(mm/25.4)), For: u.name, Weight: weightRatio})
				continue
			default:
				continue
			}
			list = append(list, UnitsEvidence{What: fmt.Sprintf("diameter %s is a usual size in %s", shortNumber(d), u.name), For: u.name, Weight: -math.Log10(chance)})
		}
	}
	return list
}

func gridHit(x, lo, hi float64, steps []float64) (bool, float64) {
	if x < lo-1e-6 || x > hi+1e-6 {
		return false, 0
	}
	tol := nominalMM
	if hi == 3 {
		tol /= 25.4
	}
	for _, s := range steps {
		if onGrid(x, s, tol) {
			return true, s
		}
	}
	return false, 0
}

// lengthEvidence tells binary fractions from decimal ones. A length on both
// grids, as every multiple of a half is, says nothing.
func lengthEvidence(lengths []float64) []UnitsEvidence {
	const tol = 1e-4 // drawing units: four decimals are written at least
	inch, metric := 0, 0
	for _, l := range lengths {
		if l < 0.1 {
			continue
		}
		binary, decimal := onGrid(l, 0.0625, tol), onGrid(l, 0.1, tol)
		switch {
		case binary && !decimal && l < 500:
			inch++
		case decimal && !binary:
			metric++
		}
	}
	n := float64(inch + metric)
	if n == 0 {
		return nil
	}
	var list []UnitsEvidence
	// The share decides, not the count: a metric file has quarters too.
	if w := limitLengths * (float64(inch) - float64(metric)) / n; inch > metric {
		list = append(list, UnitsEvidence{What: fmt.Sprintf("%d lengths are sixteenths and not tenths", inch), For: "in", Weight: w})
	} else if metric > inch {
		list = append(list, UnitsEvidence{What: fmt.Sprintf("%d lengths are tenths and not sixteenths", metric), For: "mm", Weight: -w})
	}
	return list
}

// sizeEvidence weighs how plausible the sizes are, by log-normal spreads about
// 250 mm for the drawing and 10 mm for the smallest hole, relative to the least
// plausible reading.
func sizeEvidence(data voteData) []UnitsEvidence {
	size := math.Max(data.width, data.height)
	if !(size > 0) {
		return nil
	}
	units := voteUnits()
	var s [len(units)]float64
	best := math.Inf(-1)
	for i, u := range units {
		s[i] = decadesOff(size*u.mm, sizeCentreMM, sizeSpread)
		if len(data.diameters) > 0 {
			s[i] += decadesOff(data.diameters[0]*u.mm, holeCentreMM, holeSpread)
		}
		best = math.Max(best, s[i])
	}
	var list []UnitsEvidence
	for i, u := range units {
		if w := limitSize + math.Max(s[i]-best, -limitSize); w > 0 {
			list = append(list, UnitsEvidence{What: "plausible sizes: " + sizesUnder(data, u.mm, "mm"), For: u.name, Weight: w})
		}
	}
	return list
}

// decadesOff is the log10 of a log-normal likelihood relative to its middle.
func decadesOff(x, centre, spread float64) float64 {
	z := math.Log10(x/centre) / spread
	return -0.5 * z * z * math.Log10E
}
