package check

import (
	"slices"

	"burrside/check/plan"
	"burrside/features"
)

// viewAgreesMM is how far a thickness that is asked for may be from that of an
// edge view to be the same: the step in which plates are measured on paper
// (common practice, no source).
const viewAgreesMM = 0.05

// liftDoubts is the part without the doubts that a flag or the answers settle:
// whether a rectangle beside a plate is a view of its edge is told by its
// thickness alone; asked for at the same one, it has a second witness.
func liftDoubts(part *features.Part, asked *plan.Job) *features.Part {
	t := &part.Thickness
	if from := asked.ThicknessFrom; from != "flag" && from != "answers" || t.From != "view" || !(abs(asked.ThicknessMM-t.MM) <= viewAgreesMM) {
		return part
	}
	isLifted := func(d features.Doubt) bool { return d.Code == "maybe-edge-view" }
	if !slices.ContainsFunc(part.Doubts, isLifted) {
		return part
	}
	q := *part
	q.Doubts = slices.DeleteFunc(slices.Clone(part.Doubts), isLifted)
	return &q
}
