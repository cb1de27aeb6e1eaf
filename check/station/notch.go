package station

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/check/shop"
	"burrside/features/measure"
)

// The shapes of a notch that a notcher is asked for. Any other has no tool.
const (
	NotchRectangular = "rectangular"
	NotchCorner      = "corner"
	NotchVee         = "vee"
	NotchStepped     = "stepped"
)

// NotchRequest is one notch asked of a notcher.
type NotchRequest struct {
	Shape          string
	WidthMM        float64      // along the mouth; of a corner the one leg
	DepthMM        float64      // into the plate; of a corner the other leg
	IncludedRad    float64      // vee
	Steps          [][2]float64 // stepped: width and depth of the floors, side by side along the mouth
	CornerRadiusMM float64      // of the inside corners, 0 sharp
	Relief         string       // "", "pre-punched", "dog-bone"
	Undercut       bool         // wider inside than at the mouth
}

// Notch gives the best way to make a notch at a machine's notcher. A machine
// without a notcher fails under the rule "notch-tool".
func Notch(prof *shop.Profile, m *shop.Machine, pc Piece, n NotchRequest) Use {
	u := Use{Machine: m.Name, Station: "notcher"}
	if m.Notch == nil {
		u.add(Aspect{Rule: "notch-tool", Grade: Fail, Text: m.Name + " has no notcher"}, 0)
		return u
	}
	if a, ok := pc.missing(); !ok {
		u.add(a, 0)
		return u
	}
	if !isSize(n.WidthMM) || !isSize(n.DepthMM) {
		u.add(noSize(), 0)
		return u
	}
	var uses []Use
	why := ""
	for i := range prof.Notchers {
		tool := &prof.Notchers[i]
		if !onMachine(tool.Machine, m) {
			continue
		}
		bite, reason := biteOf(prof, tool, pc, n)
		if reason != "" {
			if why == "" || tool.Shape == n.Shape {
				why = reason
			}
			continue
		}
		uses = append(uses, notchWith(prof, m, pc, n, tool, bite))
	}
	if len(uses) == 0 {
		switch {
		case n.Undercut:
			why = "it is wider inside than at its mouth"
		case why == "":
			why = "the rack has no notching tool for " + m.Name
		}
		u.add(Aspect{Rule: "notch-tool", Grade: Fail, Text: fmt.Sprintf("no notching tool makes this %s notch: %s", n.Shape, why)}, 0)
		return u
	}
	slices.SortStableFunc(uses, func(a, b Use) int {
		switch {
		case better(&a, &b):
			return -1
		case better(&b, &a):
			return 1
		}
		return strings.Compare(a.Tool, b.Tool)
	})
	return uses[0]
}

// bite is how a tool makes a notch.
type bite struct {
	n       int
	cutMM   float64 // length cut by the heaviest bite
	cutText string
	basis   string
	oneSide float64 // least width that a bite takes on one side only; 0: every bite is full or held on both sides
	across  float64 // the tool's width that oneSide is set against
	tilted  string
}

// biteOf says how a tool makes the notch; reason tells why it does not.
func biteOf(prof *shop.Profile, tool *shop.NotchTool, pc Piece, n NotchRequest) (b bite, reason string) {
	if n.Undercut {
		return b, "it is wider inside than at its mouth"
	}
	ln := func(v float64) string { return Length(prof, v) }
	if tool.MaxThicknessMM > 0 && !atMost(pc.ThicknessMM, tool.MaxThicknessMM) {
		return b, fmt.Sprintf("%s takes at most %s", tool.Name, ln(tool.MaxThicknessMM))
	}
	switch tool.Shape {
	case "rectangular":
		switch n.Shape {
		case NotchRectangular:
			return edgeBites(prof, tool, pc, n.WidthMM, n.DepthMM)
		case NotchStepped:
			return stepBites(prof, tool, pc, n)
		case NotchCorner:
			return cornerBites(prof, tool, pc, n.WidthMM, n.DepthMM)
		}
		return b, fmt.Sprintf("%s is rectangular", tool.Name)
	case "corner":
		if n.Shape != NotchCorner {
			return b, fmt.Sprintf("%s makes corner notches only", tool.Name)
		}
		return cornerToolBite(prof, tool, pc, n.WidthMM, n.DepthMM)
	case "vee":
		if n.Shape != NotchVee {
			return b, fmt.Sprintf("%s makes vees only", tool.Name)
		}
		return veeBites(prof, tool, n)
	}
	return b, fmt.Sprintf("%s is of no shape that is known", tool.Name)
}

// edgeBites is the rectangular notch W x H in an edge by a tool w x D: it needs
// H <= D and W >= w; the ends are cut first, the middle last, spread evenly.
func edgeBites(prof *shop.Profile, tool *shop.NotchTool, pc Piece, width, depth float64) (b bite, reason string) {
	set := settingsOf(prof)
	ln := func(v float64) string { return Length(prof, v) }
	w, over, fit := tool.WidthMM, Overlap(prof, pc.ThicknessMM), set.value("notch-tool", "fit")
	if !atMost(depth, tool.DepthMM) {
		return b, fmt.Sprintf("%s goes %s deep, the notch is %s", tool.Name, ln(tool.DepthMM), ln(depth))
	}
	if width < w-fit-relative {
		return b, fmt.Sprintf("%s is %s wide, wider than the notch of %s", tool.Name, ln(w), ln(width))
	}
	count, ok := bites(width, w, over, fit)
	if !ok {
		return b, fmt.Sprintf("%s is no wider than the overlap of %s", tool.Name, ln(over))
	}
	b = bite{n: count, cutMM: w + 2*depth, across: w}
	b.cutText = fmt.Sprintf("(%s + 2 x %s)", measure.FormatNumber(w, 2), measure.FormatNumber(depth, 2))
	if count == 1 {
		b.basis = fmt.Sprintf("notch %s mm, tool %s mm wide", measure.FormatNumber(width, 2), measure.FormatNumber(w, 2))
		return b, ""
	}
	b.basis = fmt.Sprintf("1 + ceil((%s - %s) / (%s - %s)) = %d", measure.FormatNumber(width, 2), measure.FormatNumber(w, 2), measure.FormatNumber(w, 2), measure.FormatNumber(over, 2), count)
	// Ends first: the second bite is an end, and takes new metal on one side
	// where the two ends overlap; with four bites and more the first of the
	// middle bites does. The last middle bite has metal in its middle or is held
	// by gaps on both sides.
	step := (width - w) / float64(count-1)
	switch {
	case count == 2, count > 3:
		b.oneSide = step
	}
	return b, ""
}

// layers turns floors that lie side by side into rectangular notches that
// together take the same metal: for every depth, each run of floors at least
// that deep. Shallow ones first.
func layers(steps [][2]float64) [][2]float64 {
	var depths []float64
	for _, s := range steps {
		depths = append(depths, s[1])
	}
	slices.Sort(depths)
	var out [][2]float64
	for _, d := range slices.Compact(depths) {
		run := 0.0
		for i := 0; i <= len(steps); i++ {
			if i < len(steps) && steps[i][1] >= d {
				run += steps[i][0]
				continue
			}
			if run > 0 {
				out = append(out, [2]float64{run, d})
			}
			run = 0
		}
	}
	return out
}

// stepBites makes a stepped notch of rectangular bites, one set for each step.
func stepBites(prof *shop.Profile, tool *shop.NotchTool, pc Piece, n NotchRequest) (b bite, reason string) {
	if len(n.Steps) == 0 {
		return b, "its steps are not known"
	}
	for _, s := range layers(n.Steps) {
		if !isSize(s[0]) || !isSize(s[1]) {
			return bite{}, "its steps are not known"
		}
		one, reason := edgeBites(prof, tool, pc, s[0], s[1])
		if reason != "" {
			return bite{}, reason
		}
		b.n += one.n
		if one.cutMM > b.cutMM {
			b.cutMM, b.cutText = one.cutMM, one.cutText
		}
		if one.oneSide > 0 && (b.oneSide == 0 || one.oneSide < b.oneSide) {
			b.oneSide, b.across = one.oneSide, one.across
		}
		if b.basis != "" {
			b.basis += "; "
		}
		b.basis += one.basis
	}
	b.tilted = "the steps are cut one by one, set by a mark"
	return b, ""
}

// cornerBites is the corner notch a x b by a tool w x D, which may hang over the
// plate's end: it needs min(a, b) <= D.
func cornerBites(prof *shop.Profile, tool *shop.NotchTool, pc Piece, a, c float64) (b bite, reason string) {
	ln := func(v float64) string { return Length(prof, v) }
	short, long := min(a, c), max(a, c)
	if !atMost(short, tool.DepthMM) {
		return b, fmt.Sprintf("%s goes %s deep, the corner is %s from both edges", tool.Name, ln(tool.DepthMM), ln(short))
	}
	w, over := tool.WidthMM, Overlap(prof, pc.ThicknessMM)
	if atMost(long, w) {
		b = bite{n: 1, cutMM: a + c, cutText: fmt.Sprintf("(%s + %s)", measure.FormatNumber(a, 2), measure.FormatNumber(c, 2)), oneSide: long, across: w}
		b.basis = fmt.Sprintf("corner %s x %s mm, tool %s x %s mm", measure.FormatNumber(a, 2), measure.FormatNumber(c, 2), measure.FormatNumber(w, 2), measure.FormatNumber(tool.DepthMM, 2))
		return b, ""
	}
	if w <= over+relative {
		return b, fmt.Sprintf("%s is no wider than the overlap of %s", tool.Name, ln(over))
	}
	n := 1 + ceil((long-w)/(w-over))
	// From the plate's end inward, evenly: every bite cuts at most its width and one side.
	b = bite{n: n, cutMM: w + short, cutText: fmt.Sprintf("(%s + %s)", measure.FormatNumber(w, 2), measure.FormatNumber(short, 2))}
	b.basis = fmt.Sprintf("1 + ceil((%s - %s) / (%s - %s)) = %d", measure.FormatNumber(long, 2), measure.FormatNumber(w, 2), measure.FormatNumber(w, 2), measure.FormatNumber(over, 2), n)
	return b, ""
}

// cornerToolBite is the corner notch a x b by a corner tool, deeper in thinner
// plate by its rows; either leg may lie along the edge.
func cornerToolBite(prof *shop.Profile, tool *shop.NotchTool, pc Piece, a, c float64) (b bite, reason string) {
	ln := func(v float64) string { return Length(prof, v) }
	depth := tool.DepthMM
	if len(tool.Rows) > 0 {
		depth = 0
		for _, r := range tool.Rows {
			if atMost(pc.ThicknessMM, r.ThicknessMM) {
				depth = max(depth, r.SizeMM)
			}
		}
		if depth == 0 {
			return b, fmt.Sprintf("%s has no row for %s", tool.Name, ln(pc.ThicknessMM))
		}
	}
	fits := func(along, deep float64) bool { return atMost(along, tool.WidthMM) && atMost(deep, depth) }
	if !fits(a, c) && !fits(c, a) {
		return b, fmt.Sprintf("%s makes corners up to %s x %s in this thickness", tool.Name, ln(tool.WidthMM), ln(depth))
	}
	b = bite{n: 1, cutMM: a + c, cutText: fmt.Sprintf("(%s + %s)", measure.FormatNumber(a, 2), measure.FormatNumber(c, 2))}
	b.basis = fmt.Sprintf("corner %s x %s mm, tool %s x %s mm", measure.FormatNumber(a, 2), measure.FormatNumber(c, 2), measure.FormatNumber(tool.WidthMM, 2), measure.FormatNumber(depth, 2))
	return b, ""
}

// veeBites is a vee of angle B by a vee tool of angle A: one bite if equal, two
// tilted by (B - A) / 2 if B is larger.
func veeBites(prof *shop.Profile, tool *shop.NotchTool, n NotchRequest) (b bite, reason string) {
	const close = 0.5 * math.Pi / 180 // what a vee tool's angle is stated to
	A, B := tool.AngleRad, n.IncludedRad
	ln := func(v float64) string { return Length(prof, v) }
	switch {
	case !(B > 0 && B < math.Pi):
		return b, "its angle is not known"
	case B < A-close:
		return b, fmt.Sprintf("%s has %s, more than the vee's %s", tool.Name, degrees(A), degrees(B))
	case !atMost(n.DepthMM, tool.DepthMM):
		return b, fmt.Sprintf("%s goes %s deep, the vee is %s", tool.Name, ln(tool.DepthMM), ln(n.DepthMM))
	}
	cut := 2 * n.DepthMM / math.Cos(A/2)
	b = bite{n: 1, cutMM: cut, cutText: fmt.Sprintf("(2 x %s / cos(%s / 2))", measure.FormatNumber(n.DepthMM, 2), degrees(A))}
	b.basis = fmt.Sprintf("vee %s, tool %s", degrees(B), degrees(A))
	if B > A+close {
		// A tilted tool's own side must still reach from the mouth to the tip.
		if side := n.DepthMM / math.Cos(B/2); !atMost(side, tool.DepthMM/math.Cos(A/2)) {
			return bite{}, fmt.Sprintf("tilted, the side of %s is shorter than the vee's %s", tool.Name, ln(side))
		}
		b.n = 2
		b.cutMM = n.DepthMM/math.Cos(B/2) + n.DepthMM/math.Cos(math.Abs(A-B/2))
		b.cutMM = max(b.cutMM, cut)
		b.tilted = fmt.Sprintf("two bites, tilted by %s each way", degrees((B-A)/2))
		b.basis += fmt.Sprintf("; 2 bites tilted +-(%s - %s) / 2", degrees(B), degrees(A))
	}
	if n.WidthMM > 0 {
		even := 2 * n.DepthMM * math.Tan(B/2)
		if math.Abs(n.WidthMM-even) > max(0.5, 0.02*even) {
			b.tilted = "the vee does not stand square to the edge: set the tool to a mark"
		}
	}
	return b, ""
}

// notchWith judges a tool that makes the notch.
func notchWith(prof *shop.Profile, m *shop.Machine, pc Piece, n NotchRequest, tool *shop.NotchTool, b bite) Use {
	st, set := m.Notch, settingsOf(prof)
	u := Use{Machine: m.Name, Station: "notcher", Tool: tool.Name, Hits: b.n}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	t := pc.ThicknessMM
	u.addThickest(prof, "notch-force", "notcher", st.MaxThicknessMM, st.Rows, t)
	bitesWord := "1 bite"
	if b.n != 1 {
		bitesWord = fmt.Sprintf("%d bites", b.n)
	}
	a := Aspect{Rule: "notch-tool", Text: fmt.Sprintf("%s makes it in %s", tool.Name, bitesWord), Basis: b.basis}
	if b.oneSide > 0 {
		need := set.value("notch-tool", "engagement") * b.across
		if !atMost(need, b.oneSide) {
			a.Grade = Care
			a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit = b.oneSide, true, need, true, "mm"
			a.Text = fmt.Sprintf("%s makes it in %s, but a bite takes only %s on one side: the tool is pushed sideways", tool.Name, bitesWord, Length(prof, math.Round(b.oneSide*100)/100))
			a.Fix, a.FixBy = "use a narrower tool, or cut slowly with the plate held down", "shop"
		}
	}
	if b.tilted != "" {
		a.Grade = max(a.Grade, Care)
		a.Text += "; " + b.tilted
	}
	u.add(a, 0)
	u.addCorner(prof, m, n)

	S := pc.Material.ShearMPa
	ld := load{rule: "notch-force", nominalKN: ShearForceKN(b.cutMM, t, S), upperKN: ShearForceKN(b.cutMM, t, pc.upper()),
		what: fmt.Sprintf("a bite of %s in %s %s", tool.Name, Length(prof, t), materialName(pc.Material))}
	ld.basis = fmt.Sprintf("%s mm x %s mm x %s MPa = %s kN", b.cutText, measure.FormatNumber(t, 3), measure.FormatNumber(S, 0), measure.FormatNumber(ld.nominalKN, 1))
	heaviest := 0.0
	for i := range st.Rows {
		r := &st.Rows[i]
		heaviest = max(heaviest, ShearForceKN(r.SizeMM, r.ThicknessMM, basisMPa(&st.Rating)))
		if ld.row == nil && atMost(S, basisMPa(&st.Rating)) && atMost(t, r.ThicknessMM) && atMost(b.cutMM, r.SizeMM) {
			ld.row = r
		}
	}
	ld.usableKN, ld.how, ld.known = usable(&st.Rating, heaviest)
	fa, share := ld.judge(prof)
	if fa.Grade == Care {
		fa.Fix = "use sharp blades, and stop if the machine stalls"
	}
	u.add(fa, share)
	u.ForceKN, u.LimitKN = ld.nominalKN, ld.usableKN
	return u
}

// addCorner tells what becomes of the inside corners: a notcher leaves them sharp.
// A radius is left there by a hole made first, or by grinding up to the line.
func (u *Use) addCorner(prof *shop.Profile, m *shop.Machine, n NotchRequest) {
	switch {
	case n.Relief != "":
		u.add(Aspect{Rule: "inside-corner", Grade: Remark, Text: "punch the holes at the inside corners before the notch"}, 0)
	case n.CornerRadiusMM > 0.05:
		d := 2 * n.CornerRadiusMM
		a := Aspect{Rule: "inside-corner", Grade: Care, Got: 0, HasGot: true, Limit: n.CornerRadiusMM, HasLimit: true, Unit: "mm", FixBy: "shop",
			Text: fmt.Sprintf("the notcher leaves sharp inside corners, drawn with radius %s", Length(prof, n.CornerRadiusMM))}
		hole := atMost(d, n.WidthMM) && atMost(n.CornerRadiusMM, n.DepthMM) && atMost(d, largestHole(prof, m))
		grinder := prof.Process("grinder")
		grind := grinder.Have && (!(grinder.MaxRadiusMM > 0) || atMost(n.CornerRadiusMM, grinder.MaxRadiusMM))
		switch {
		case hole && grind:
			a.Fix = fmt.Sprintf("make a hole %s at each inside corner first, or grind the radius", size(prof, Round, d, d))
		case hole:
			a.Fix = fmt.Sprintf("make a hole %s at each inside corner first", size(prof, Round, d, d))
		case grind:
			a.Fix = "notch short of the line and grind the radius"
		default:
			a.Grade, a.FixBy = Fail, ""
			a.Text = fmt.Sprintf("the notcher leaves sharp inside corners, and neither a hole nor the grinder makes the radius of %s that is drawn", Length(prof, n.CornerRadiusMM))
		}
		u.add(a, 0)
	default:
		u.add(Aspect{Rule: "inside-corner", Grade: Remark, Text: "the notcher leaves sharp inside corners, as drawn"}, 0)
	}
}

// largestHole is the greatest diameter of a hole that the machine's punch or the
// shop's drill makes, 0 none.
func largestHole(prof *shop.Profile, m *shop.Machine) float64 {
	d := 0.0
	if m.Punch != nil {
		for _, h := range m.Punch.Holders {
			d = max(d, h.MaxMM)
		}
	}
	if p := prof.Process("drill"); p.Have {
		d = max(d, p.MaxDiameterMM)
	}
	return d
}
