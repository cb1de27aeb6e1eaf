package features

import (
	"fmt"
	"math"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/measure"
)

const (
	// dimShare is how far a dimension may be from what it measures before the
	// doubt is grave: rounding of the last digit comes on top.
	dimShare = 0.005
	// dimAboutShare is how far one may be that says that it is about.
	dimAboutShare = 0.025
	// dimNearMM is the least difference beyond rounding that is told.
	dimNearMM = 0.1
)

// dimVerdict is how a dimension's text stands to what it measures.
type dimVerdict int

const (
	dimSilent dimVerdict = iota // it says nothing
	dimAgrees
	dimNear   // off by more than rounding, by less than dimShare
	dimOdd    // it says another size
	dimUnread // it holds a number that is not understood
	dimOpen   // it leaves the size open
)

// dimAnswer is the verdict with what it rests on.
type dimAnswer struct {
	verdict dimVerdict
	says    float64 // in the unit of the text, of an odd one; 0 unknown
	why     string  // how the doubt names the dimension
}

// judgeDim compares a dimension's text with the geometry; k is the drawing's
// unit in millimetres.
func judgeDim(d *drawnDim, k float64) dimAnswer {
	if d.typed == "" {
		switch {
		case !(d.stated > 0):
			return dimAnswer{}
		case !d.statedHolds(k):
			return dimAnswer{dimOdd, d.stated, "of " + shortNumber(d.stated)}
		}
		return dimAnswer{verdict: dimAgrees}
	}
	n := measure.DimText(d.typed)
	shown := fmt.Sprintf("typed %q", clip(d.typed))
	switch {
	case n.Open:
		return dimAnswer{dimOpen, 0, shown}
	case n.Unread:
		return dimAnswer{dimUnread, 0, shown}
	case len(n.Sizes) == 0 && !n.Measured:
		return dimAnswer{}
	case n.Measured:
		// The measured value, with words about it; group 42 holds it.
		a := dimAnswer{verdict: dimAgrees}
		if d.stated > 0 && !d.statedHolds(k) {
			a = dimAnswer{dimOdd, d.stated, "of " + shortNumber(d.stated)}
		}
		return a
	}
	settleDual(&n)
	j := dimJudge{d: d, n: &n, k: k, best: math.Inf(1)}
	j.all()
	switch {
	case j.clash != "":
		return dimAnswer{dimOdd, 0, shown + ", " + j.clash + ","}
	case j.best <= 0:
		return dimAnswer{verdict: dimAgrees}
	case j.best*k <= dimNearMM:
		return dimAnswer{verdict: dimAgrees}
	case j.best <= dimShare*d.drawn:
		return dimAnswer{dimNear, j.says, shown}
	}
	return dimAnswer{dimOdd, j.says, shown}
}

// statedHolds tells whether the measured value that a dimension states is what
// is drawn, in the unit of the text or, where a factor of its style turns the
// drawing's unit into another, in millimetres or inches.
func (d *drawnDim) statedHolds(k float64) bool {
	is := func(length float64) bool { return math.Abs(d.stated-length) <= dimShare*length }
	return is(d.length) || d.byFactor && (is(d.drawn*k) || is(d.drawn*k/25.4))
}

// settleDual finds the units of "200 [7.87]": two numbers whose ratio is that
// of inch and millimetre name both units.
func settleDual(n *measure.DimNote) {
	if len(n.Sizes) == 0 || len(n.Other) == 0 {
		return
	}
	for i := range n.Sizes {
		for _, o := range n.Other {
			a := &n.Sizes[i]
			if a.Unit != "" || o.Unit != "" {
				continue
			}
			in := func(mm, inch measure.DimSize) bool {
				return math.Abs(mm.MM-25.4*inch.MM) <= mm.Step+25.4*inch.Step
			}
			switch {
			case in(*a, o):
				a.Unit = "mm"
			case in(o, *a):
				a.Unit, a.MM, a.Step = "in", a.MM*25.4, a.Step*25.4
			default:
				continue
			}
			n.Sizes = n.Sizes[i : i+1]
			return
		}
	}
}

// dimJudge tries the readings of a text.
type dimJudge struct {
	d     *drawnDim
	n     *measure.DimNote
	k     float64
	best  float64 // least miss beyond rounding, drawing units
	says  float64 // of the best, in the unit of the text
	clash string
}

func (j *dimJudge) all() {
	n := j.n
	factor := 1.0
	switch {
	case j.d.kind == dxfread.DimDiameter && n.Radius && !n.Diameter:
		factor = 2
	case j.d.kind == dxfread.DimRadius && n.Diameter && !n.Radius:
		factor = 0.5
	}
	for _, s := range n.Sizes {
		j.try(s, factor, true)
		if n.Count > 1 {
			// That many equal spaces, or places of one size.
			j.try(s, factor*float64(n.Count), false)
		}
	}
	for _, s := range n.Sizes {
		if s.Unit != "" || n.About || n.Most || n.Least {
			continue
		}
		// Texts in millimetres on a drawing in another unit, in inches on one in
		// millimetres: a match to the last digit is no chance.
		for _, mm := range []float64{1, 25.4} {
			if mm == j.k {
				continue
			}
			other := measure.DimSize{LengthValue: measure.LengthValue{MM: s.MM * mm, Unit: "mm"}, Step: s.Step * mm}
			j.try(other, factor, false)
			if n.Count > 1 {
				j.try(other, factor*float64(n.Count), false)
			}
		}
	}
	for _, s := range n.Pair {
		j.try(s, factor, false)
	}
	if n.Count >= 10 {
		j.try(measure.DimSize{LengthValue: measure.LengthValue{MM: float64(n.Count)}, Step: 0.501}, 1, false) // "100x10" is a pair
	}
	for _, t := range n.Total {
		j.try(t, factor, false)
		if n.Count < 1 {
			continue
		}
		fits := false
		for _, s := range n.Sizes {
			sum := s.MM * float64(n.Count)
			fits = fits || math.Abs(sum-t.MM) <= s.Step*float64(n.Count)+t.Step+1e-9
		}
		if !fits && len(n.Sizes) > 0 {
			j.clash = fmt.Sprintf("which does not add up (%d times %s is %s)", n.Count, shortNumber(n.Sizes[0].MM), shortNumber(float64(n.Count)*n.Sizes[0].MM))
		}
	}
}

// try compares one reading times a factor; first tells that it is what the
// message names unless another is nearer.
func (j *dimJudge) try(s measure.DimSize, factor float64, first bool) {
	says, tol, plus, minus := s.MM*factor, s.Step*factor, j.n.Plus, j.n.Minus
	toDrawing, got := 1.0, j.d.length
	if s.Unit != "" {
		toDrawing, got = 1/j.k, j.d.drawn*j.k
	} else if j.d.length > 0 {
		toDrawing = j.d.drawn / j.d.length
	}
	if j.n.About {
		tol += dimAboutShare * says
	}
	miss := math.Max(got-(says+math.Max(plus, 0)), says-math.Max(minus, 0)-got) - tol
	switch {
	case j.n.Most && got <= says+tol, j.n.Least && got >= says-tol:
		miss = 0
	}
	miss = math.Max(miss*toDrawing, 0)
	j.best = math.Min(miss, j.best)
	if first && j.says == 0 {
		j.says = says
		if s.Unit != "" {
			j.says = says * toDrawing * j.d.length / math.Max(j.d.drawn, 1e-12)
		}
	}
}

// compareDimensions doubts the parts whose dimensions say another size than
// the geometry has: typed over, stale, or a view drawn to no usual scale; views
// drawn to a usual one have their true size already. The sizes are judged as
// they are, and the doubt is grave. A text that is off by little or is not
// understood is told.
func (b *builder) compareDimensions() {
	type odd struct {
		d *drawnDim
		a dimAnswer
	}
	var odds, told []odd
	agree := 0
	for i := range b.drawnDims {
		d := &b.drawnDims[i]
		if b.ofDetail(d) {
			continue
		}
		switch a := judgeScaled(d, b.sheet.Units.MM, b.factorOfDim(d)); a.verdict {
		case dimOdd:
			odds = append(odds, odd{d, a})
		case dimNear, dimUnread, dimOpen:
			told = append(told, odd{d, a})
		case dimAgrees:
			agree++
		}
	}
	if len(odds) > 0 {
		ratio := odds[0].a.says / odds[0].d.length
		same := len(odds) >= 2 && agree == 0 && ratio > 0
		for _, o := range odds {
			same = same && math.Abs(o.a.says/o.d.length-ratio) <= 0.01*ratio
		}
		if same {
			var src []int32
			for _, o := range odds {
				src = append(src, o.d.info)
			}
			b.sheetDoubts = append(b.sheetDoubts, Doubt{Code: "reading-doubt", Grave: true, At: mid(odds[0].d.from, odds[0].d.to).Mul(b.sheet.Units.MM), Source: sourcesOf(src),
				Text: fmt.Sprintf("all %d dimensions say %s times what is drawn: a view drawn to a scale? sizes are judged as drawn", len(odds), shortNumber(ratio))})
			odds = nil
		}
	}
	for _, o := range odds {
		b.doubtDim(o.d, true, fmt.Sprintf("a dimension %s measures %s", o.a.why, shortNumber(o.d.length)))
	}
	for _, o := range told {
		switch o.a.verdict {
		case dimNear:
			b.doubtDim(o.d, false, fmt.Sprintf("a dimension %s measures %s", o.a.why, exactNumber(o.d.length)))
		case dimOpen:
			b.doubtDim(o.d, true, fmt.Sprintf("a dimension %s leaves the size open, %s is drawn", o.a.why, exactNumber(o.d.length)))
		default:
			b.doubtDim(o.d, false, fmt.Sprintf("a dimension %s was not understood; %s is drawn", o.a.why, exactNumber(o.d.length)))
		}
	}
}

// exactNumber writes a length with three decimals at most.
func exactNumber(f float64) string { return measure.FormatNumber(f, 3) }

// doubtDim enters a doubt about a dimension into the parts that hold its
// points, else into the sheet.
func (b *builder) doubtDim(d *drawnDim, grave bool, text string) {
	k := b.sheet.Units.MM
	from, to := d.from.Mul(k), d.to.Mul(k)
	doubt := Doubt{Code: "reading-doubt", Grave: grave, At: mid(from, to), Source: sourcesOf([]int32{d.info}),
		Text: fmt.Sprintf("%s between (%s, %s) and (%s, %s)", text, shortPlace(from.X), shortPlace(from.Y), shortPlace(to.X), shortPlace(to.Y))}
	var about, on []int
	for i := range b.drafts {
		if box := b.loops[b.drafts[i].outline].box.Grow(1); !box.Contains(from) || !box.Contains(to) {
			continue
		}
		about = append(about, i)
		if b.endsOn(i, from) && b.endsOn(i, to) {
			on = append(on, i)
		}
	}
	// A part that lies in another's opening lies in its box too: the one whose
	// edges and centres the dimension ends at is meant.
	if len(on) > 0 {
		about = on
	}
	for _, i := range about {
		b.drafts[i].doubts = append(b.drafts[i].doubts, doubt)
	}
	if len(about) == 0 {
		b.sheetDoubts = append(b.sheetDoubts, doubt)
	}
}

// dimEndMM is how far a dimension's end may lie from the edge or the centre that
// it measures to.
const dimEndMM = 0.1

// endsOn tells whether a point lies on an edge of a draft or at the centre of
// one of its holes.
func (b *builder) endsOn(draft int, p geom.Point) bool {
	d := &b.drafts[draft]
	on := func(loop int) bool {
		l := &b.loops[loop]
		if !l.box.Grow(dimEndMM).Contains(p) {
			return false
		}
		if l.box.Centre().Dist(p) <= dimEndMM && loop != d.outline {
			return true
		}
		return l.ring.Inside(p, dimEndMM) == geom.On
	}
	if on(d.outline) {
		return true
	}
	for _, h := range d.holes {
		if on(h) {
			return true
		}
	}
	return false
}
