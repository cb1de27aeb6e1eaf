package check

import (
	"fmt"
	"slices"

	"burrside/features"
	"burrside/features/measure"
)

func ruleNoteAsks() Rule {
	return Rule{
		ID:    "note-asks",
		Title: "Notes that ask for more than is drawn",
		Why:   "A bevel, a bend, an opposite hand or a hold stands in words only, and no outline shows it.",
		Measure: "The drawing's texts, in a dozen languages: not released, not to scale, bends where none is drawn, bevels and chamfers, countersinks without a size, machining all over, hardening, welding, roughness, tolerances of form, a process of cutting, an opposite hand, bolts that no hole drawn lets through. " +
			"Deburring, broken edges, paint and zinc are not told, nor is what is said unless noted.",
		Fix:     "Ask what is wanted, and plan it beside what is counted here.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(60, 70, 22)
			b.p.CallOuts = append(b.p.CallOuts, features.CallOut{Text: "BEVEL 30 DEG"})
			return b.example("a plate 200 x 140 x 10 with the note BEVEL 30 DEG", 10, "")
		},
		Part: checkNoteAsks,
	}
}

func checkNoteAsks(p *Pass) {
	told := map[string]bool{}
	lines := slices.Clone(p.notes)
	for i := range p.Part.CallOuts {
		lines = append(lines, p.Part.CallOuts[i].Text)
	}
	for _, line := range lines {
		kind := measure.NoteAsks(line)
		f := Finding{Severity: Warning, Who: "customer", FixBy: "drawing", cause: kind}
		switch kind {
		case measure.AsksRelease:
			f.Message, f.Fix = fmt.Sprintf("the drawing says %q", line), "is it released to be made?"
		case measure.AsksScale:
			f.Message, f.Fix = fmt.Sprintf("the drawing says %q: sizes are judged as drawn", line), "is it drawn at full size?"
		case measure.AsksBend:
			if hasKind(p.Part, features.Bend) {
				continue
			}
			f.Message, f.Fix = fmt.Sprintf("%q: no bend is drawn, none was judged", line), "where is the bend?"
		case measure.AsksEdge:
			f.Message, f.Fix, f.FixBy = fmt.Sprintf("%q: a punch and a shear leave square edges", line), "plan the edge as work of its own", "shop"
		case measure.AsksSink:
			f.Message, f.Fix = fmt.Sprintf("%q gives no size of a countersink", line), "which holes, and of what size?"
		case measure.AsksMachine:
			f.Message, f.Fix, f.FixBy = fmt.Sprintf("%q: machining is not judged or counted here", line), "plan it as work of its own", "shop"
		case measure.AsksHeat:
			f.Message, f.Fix, f.FixBy = fmt.Sprintf("%q: punched and sheared edges may crack when hardened", line), "ask who hardens, and what steel it is", "drawing"
		case measure.AsksCut:
			f.Message, f.Fix = fmt.Sprintf("%q names a process of cutting", line), "may it be punched and sheared?"
		case measure.AsksHand:
			f.Message, f.Fix = fmt.Sprintf("%q: only the hand that is drawn was counted", line), "how many of each hand?"
		case measure.AsksWeld:
			f.Severity, f.FixBy = Note, "shop"
			f.Message, f.Fix = fmt.Sprintf("%q: welding is not judged or counted here", line), "plan it as work of its own"
		case measure.AsksFinish:
			f.Severity, f.FixBy = Note, "shop"
			f.Message, f.Fix = fmt.Sprintf("%q: the roughness of surfaces and edges is not judged", line), "is it asked of the cut edges?"
		case measure.AsksForm:
			f.Message, f.Fix = fmt.Sprintf("%q: flatness and form are not judged; punching and shearing bow and twist a plate", line), "plan to straighten and measure it, or ask for a wider tolerance"
		default:
			p.boltsTooLarge(line, told)
			continue
		}
		if told[kind] {
			continue
		}
		told[kind] = true
		f.At, f.HasAt = p.noteAt[line]
		p.Report(f)
	}
}

// boltsTooLarge reports bolts of a note that no hole of the part lets through.
func (p *Pass) boltsTooLarge(line string, told map[string]bool) {
	bolt := measure.BoltNote(line)
	if bolt == "" || told[bolt] {
		return
	}
	size, ok := boltSizeMM(bolt)
	largest := 0.0
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		switch f.Kind {
		case features.RoundHole, features.HoleWithSeat:
			largest = max(largest, f.DiameterMM)
		case features.Slot, features.CurvedSlot, features.RectangularHole, features.Cutout, features.PolygonHole:
			largest = max(largest, f.WidthMM, f.AcrossFlatsMM)
		case features.TappedHole:
			return
		}
	}
	if !ok || largest == 0 || !isBelow(largest, size) {
		return
	}
	told[bolt] = true
	at, has := p.noteAt[line]
	p.Report(Finding{Severity: Warning, Who: "designer", FixBy: "drawing", At: at, HasAt: has, Got: &Quantity{largest, "mm"}, Limit: &Quantity{size, "mm"}, cause: bolt,
		Message: fmt.Sprintf("%q: the largest hole drawn is Ø%s", line, p.length(largest)), Fix: "which holds, the bolt or the hole?"})
}

func hasKind(part *features.Part, k features.Kind) bool {
	for i := range part.Features {
		if part.Features[i].Kind == k {
			return true
		}
	}
	return false
}
