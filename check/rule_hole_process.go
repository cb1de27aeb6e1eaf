package check

import (
	"fmt"
	"slices"

	"burrside/features"
	"burrside/features/measure"
)

func ruleHoleProcess() Rule {
	return Rule{
		ID:    "hole-process",
		Title: "Holes that are not punched to size",
		Why:   "A punched hole is tapered and 0.5 mm wide of its size: threads, reamed and fitted holes, countersinks and holes called DRILL need another process.",
		Measure: "Tapped holes, holes with a seat, and holes whose call-out names drilling, reaming, tapping, countersinking or counterboring. A warning when the shop has the process, " +
			"an error when it does not. What two circles round one centre mean cannot be told without a call-out: countersink, counterbore and spot face start from the same hole.",
		Fix:     "Make the hole named, then tap, ream or countersink it.",
		Sources: []Cite{shopPractice(), {Text: "EN 1090-2, holes for fitted bolts and tolerance on punched holes", Memory: true}},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(100, 70, 10.2)
			f := &b.p.Features[len(b.p.Features)-1]
			f.Kind, f.SeatMM, f.Process = features.TappedHole, 12, "tap"
			return b.example("a tapped hole M12 (drilled Ø10.2) in a plate 200 x 140 x 10", 10, "")
		},
		Part: checkHoleProcess,
	}
}

func checkHoleProcess(p *Pass) {
	spoken := map[string]bool{}
	n := len(p.findings)
	p.Aspects()
	for _, f := range p.findings[n:] {
		for _, id := range f.Features {
			spoken[id] = true
		}
	}
	p.wideFits()
	// Plan is silent where it waits for another datum: what a hole asks for is
	// known all the same.
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		kind, do, asks := holeProcess(f)
		if !f.IsInside() || spoken[f.ID] || kind == "" {
			continue
		}
		x := Finding{FixBy: "shop", Message: asks, cause: asks}
		if f.Kind == features.HoleWithSeat && f.Process == "" {
			x.Message = "a circle Ø" + p.length(f.SeatMM) + " round the " + sizeText(p.Shop, f) + ": countersink, counterbore or spot face"
			x.cause = x.Message
		}
		if p.Shop.Process(kind).Have {
			x.Severity, x.Fix = Warning, "make the hole Ø"+p.length(f.DiameterMM)+" first, then "+do
			if kind == "drill" {
				x.Fix = do
			}
		} else {
			x.Severity, x.Fix = Error, "have it made by a shop that can "+do
			x.Message += ", and the shop has no " + processNoun(kind)
		}
		p.Report(p.on(i, x))
	}
}

// closeTolMM is the tolerance on a hole's diameter below which it is not punched
// to size. ShopPractice.
const closeTolMM = 0.3

// wideFits tells of close tolerances, and of fits wider than those that are reamed, H10 and more: the
// holes are made as others are, and the fit is for the shop to keep.
func (p *Pass) wideFits() {
	for i := range p.Part.CallOuts {
		c := &p.Part.CallOuts[i]
		call, ok := measure.HoleCallOut(c.Text)
		if call.Diameter.Unit == "" && p.Inch {
			call.Tolerance *= 25.4
		}
		if ok && call.Tolerance > 0 && isBelow(call.Tolerance, closeTolMM) && call.Process != "ream" && call.Process != "drill" && len(c.Features) > 0 {
			x := Finding{Severity: Warning, FixBy: "shop", Features: slices.Clone(c.Features), Count: len(c.Features), At: p.calledAt(c.At, c.Features), HasAt: true, Source: c.Source, cause: c.Text,
				Got: &Quantity{call.Tolerance, "mm"}, Limit: &Quantity{closeTolMM, "mm"},
				Message: fmt.Sprintf("%q asks for +-%s; a punched hole keeps +-%s at best", c.Text, p.length(call.Tolerance), p.length(closeTolMM)), Fix: "drill or ream it"}
			if !p.Shop.Process("drill").Have {
				x.Severity, x.Fix = Error, "have it drilled or reamed by a shop that can"
			}
			p.Report(x)
		}
		if !ok || call.Fit == "" || call.Process == "ream" || len(c.Features) == 0 {
			continue
		}
		p.Report(Finding{Severity: Note, FixBy: "shop", Features: slices.Clone(c.Features), At: p.calledAt(c.At, c.Features), HasAt: true, Source: c.Source, cause: c.Text,
			Message: fmt.Sprintf("%q asks for the fit %s", c.Text, call.Fit), Fix: "measure the first hole; drill it if the punch does not keep the fit"})
	}
}

// holeProcess tells which process a hole asks for; "" none but a plain hole.
func holeProcess(f *features.Feature) (kind, do, asks string) {
	switch {
	case f.Kind == features.TappedHole, f.Process == "tap":
		return "tap", "tap it", "a tapped hole is not punched to size"
	case f.Process == "ream":
		return "drill", "drill or punch it 2 mm under size and ream it", "a reamed hole is not punched to size"
	case f.Process == "drill":
		return "drill", "drill it", "the drawing asks for a drilled hole"
	case f.Process == "countersink":
		return "countersink", "countersink it", "a countersunk hole"
	case f.Process == "counterbore":
		return "countersink", "counterbore it", "a counterbored hole"
	case f.Kind == features.HoleWithSeat:
		return "countersink", "make the seat", "a hole with a seat"
	}
	return "", "", ""
}

func processNoun(kind string) string {
	switch kind {
	case "tap":
		return "taps"
	case "countersink":
		return "countersink"
	}
	return kind
}
