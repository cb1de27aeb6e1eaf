package render

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"burrside/check"
	"burrside/check/plan"
	"burrside/features"
	"burrside/features/measure"
)

// TextOptions steer the terminal report.
type TextOptions struct {
	Colour bool
	All    bool // notes beyond the first twelve lines too
	Why    bool // arithmetic of each finding
	Width  int  // columns, 0: 100
}

// mostFindings is how many findings of a part are shown before the rest is
// only counted.
const mostFindings = 12

// Text writes the report for a terminal: the verdict first, then each part with
// its findings, what makes it, its limits, its work and its cautions. Without
// Colour it is plain text without any escape sequence; names from the drawing
// never bring one in.
func Text(w io.Writer, rep *check.Report, opt TextOptions) error {
	if opt.Width <= 0 {
		opt.Width = 100
	}
	opt.Width = max(opt.Width, 30)
	t := &textReport{opt: opt, unit: shopUnit(rep)}
	t.drawing(rep)
	_, err := io.WriteString(w, t.b.String())
	return err
}

// shopUnit is the unit that lengths are shown in.
func shopUnit(rep *check.Report) string {
	if rep.Shop != nil && rep.Shop.Units == "in" {
		return "in"
	}
	return "mm"
}

// shopLine names the shop; the built-in one is called an example in the same breath.
func shopLine(rep *check.Report) string {
	switch {
	case rep.Shop == nil:
		return ""
	case rep.Shop.BuiltIn:
		return fmt.Sprintf("example shop %q, because no shop file was given: its figures are invented", rep.Shop.Name)
	case rep.Shop.Name == "":
		return "shop " + rep.Shop.Path
	}
	return "shop " + rep.Shop.Name
}

type textReport struct {
	b    strings.Builder
	opt  TextOptions
	unit string

	titles map[string]string // of the rules, once one is asked for
}

func (t *textReport) drawing(rep *check.Report) {
	t.paint(verdictColour(rep.Verdict), fmt.Sprintf("%s  (%s)", drawingHeading(rep), rep.Drawing), 0, 2)
	t.line(disclaimer, 0, 2)
	if s := shopLine(rep); s != "" {
		t.line(s, 0, 2)
	}
	if rep.Code != "" {
		t.line("code: "+rep.Code, 0, 2)
	}
	if rep.Err != nil {
		t.line("could not be read: "+errorText(rep), 0, 2)
	}
	if rep.Sheet != nil {
		t.line(unitsLine(&rep.Sheet.Units), 0, 2)
	}
	t.findings(rep.Findings, "in the drawing: ", nil)
	if rep.Sheet != nil {
		for i, l := range rep.Sheet.Loose {
			if i == 5 && !t.opt.All {
				t.line(fmt.Sprintf("+ %d more open chains (--all)", len(rep.Sheet.Loose)-i), 2, 4)
				break
			}
			t.line(fmt.Sprintf("open chain %s long: ends %s apart, at %s and %s", lengthText(l.LengthMM, t.unit),
				lengthText(l.GapMM, t.unit), pointText(l.From.X, l.From.Y), pointText(l.To.X, l.To.Y)), 2, 4)
		}
	}
	for i, p := range rep.Parts {
		t.b.WriteByte('\n')
		t.part(rep, i, p)
	}
	t.bars(rep)
	t.skipped(rep.Skipped)
	t.notes(rep.Sheet)
}

func (t *textReport) part(rep *check.Report, i int, p *check.PartReport) {
	if len(rep.Parts) > 1 {
		v, words := partOnPaper(rep, p)
		t.paint(verdictColour(v), p.Part.Name+": "+words, 0, 2)
	}
	t.line(partLine(p, t.unit), 0, 2)
	if p.Part.Angle != nil {
		t.line(angleLine(p.Part, t.unit), 0, 2)
	}
	if p.Plan != nil && p.Plan.Blank.Text != "" {
		t.line("blank: "+blankText(&p.Plan.Blank), 0, 2)
	}
	t.findings(p.Findings, "", p.Part)
	t.changes(p)
	if len(p.Findings) == 0 && len(rep.Findings) == 0 {
		t.line("nothing found against it", 2, 4)
	}
	t.list("made by", madeByLines(p, t.unit))
	if lines := readingLines(rep, i, t.unit); len(lines) > 0 {
		t.list("in doubt", lines)
	} else {
		for _, s := range limitLines(p, t.unit) {
			t.line("limits: "+s, 0, 2)
		}
	}
	t.skipped(p.Skipped)
	if p.Plan != nil {
		t.line(workLine(&p.Plan.Work), 0, 2)
		if len(p.Plan.Work.Buy) > 0 {
			t.line("to buy: "+strings.Join(p.Plan.Work.Buy, "; "), 0, 2)
		}
		if p.Plan.Work.Known && len(p.Plan.Work.Assumptions) > 0 {
			t.line("assumed: "+strings.Join(p.Plan.Work.Assumptions, "; "), 0, 2)
		}
	}
	for _, q := range fewAlike(p.Questions) {
		t.line("to ask: "+q, 0, 2)
	}
	for _, c := range p.Cautions {
		t.paint(colourCare, "caution: "+c, 0, 2)
	}
}

// findings writes findings, the worst first, within the noise budget. part is
// nil for those about the drawing.
func (t *textReport) findings(list []check.Finding, where string, part *features.Part) {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b check.Finding) int { return severityRank(a.Severity) - severityRank(b.Severity) })
	for i := range list {
		if i == mostFindings && !t.opt.All {
			t.line(restLine(list[i:])+" (--all)", 2, 4)
			return
		}
		f := &list[i]
		word := severityWord(f.Severity)
		if f.CannotTell && f.Severity != check.Error {
			word = "ASK"
		}
		t.finding(word, findingText(f, t.unit, where, part), severityColour(f.Severity))
		if t.opt.Why {
			if why := t.whyLine(f); why != "" {
				t.line("because "+why, 9, 11)
			}
		}
	}
}

// restLine counts findings that are not shown, by severity.
func restLine(list []check.Finding) string {
	var n [3]int
	for i := range list {
		n[severityRank(list[i].Severity)]++
	}
	var s []string
	for i, word := range []string{"error", "care point", "note"} {
		if n[i] > 0 {
			s = append(s, plural(n[i], word))
		}
	}
	return "+ " + strings.Join(s, ", ")
}

// findingText is one finding in words: feature, rule, message, found and
// needed where the message does not have them, place, what to do, source.
func findingText(f *check.Finding, unit, where string, part *features.Part) string {
	var b strings.Builder
	b.WriteString(where)
	if len(f.Features) > 0 {
		b.WriteString(idList(f.Features) + " ")
		if part != nil {
			if s := placeInAngle(part, f.Features, unit); s != "" {
				b.WriteString("(" + s + ") ")
			}
		}
	}
	b.WriteString(ruleWords(f.Rule))
	if f.Machine != "" {
		b.WriteString(" (" + f.Machine)
		if f.Station != "" && f.Station != f.Machine {
			b.WriteString(", " + f.Station)
		}
		b.WriteString(")")
	}
	if f.Message != "" {
		b.WriteString(": " + strings.TrimSuffix(f.Message, "."))
	}
	found, limit := foundNeeded(f, unit)
	bare := strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(limit, "at least "), "at most "), "limit "), "usual ")
	if found != "" && !strings.Contains(f.Message, found) || bare != "" && !strings.Contains(f.Message, bare) {
		sep := "; "
		if f.Message == "" {
			sep = ": "
		}
		switch {
		case found == "":
			b.WriteString(sep + limit)
		case limit == "":
			b.WriteString(sep + "found " + found)
		default:
			b.WriteString(sep + "found " + found + ", " + limit)
		}
	}
	if f.HasAt && len(f.Features) == 0 {
		b.WriteString(" at " + pointText(f.At.X, f.At.Y))
	}
	b.WriteString(".")
	if len(f.Tried) > 0 {
		b.WriteString(" No better: " + strings.Join(f.Tried, ", ") + ".")
	}
	if f.Fix != "" {
		word := " Do: "
		if f.FixBy == "drawing" {
			word = " Ask: "
		}
		b.WriteString(word + strings.TrimSuffix(f.Fix, "."))
		if !strings.HasSuffix(f.Fix, "?") {
			b.WriteString(".")
		}
	}
	// What the shop does itself needs no address.
	if f.Who != "" && f.Who != "shop" {
		b.WriteString(" For " + whoWords(f.Who) + ".")
	}
	if len(f.Sources) > 0 {
		b.WriteString(" [" + strings.Join(f.Sources, "; ") + "]")
	}
	return b.String()
}

func (t *textReport) list(name string, lines []string) {
	for i, s := range lines {
		if i == 0 {
			t.line(name+": "+s, 0, 2)
			continue
		}
		if i == 14 && !t.opt.All {
			t.line(fmt.Sprintf("+ %d more (--all)", len(lines)-i), len(name)+2, len(name)+4)
			return
		}
		t.line(s, len(name)+2, len(name)+4)
	}
}

func (t *textReport) skipped(list []check.Skipped) {
	if s := skippedText(list); s != "" {
		t.line("not checked: "+s, 0, 2)
	}
}

// skippedText lists the rules that were not run, those with one reason together.
func skippedText(list []check.Skipped) string {
	var whys []string
	rules := map[string][]string{}
	for _, s := range list {
		if rules[s.Why] == nil {
			whys = append(whys, s.Why)
		}
		if r := ruleWords(s.Rule); !slices.Contains(rules[s.Why], r) {
			rules[s.Why] = append(rules[s.Why], r)
		}
	}
	var out []string
	for _, why := range whys {
		s := strings.Join(rules[why], ", ")
		if why != "" {
			s += " (" + why + ")"
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

func (t *textReport) notes(s *features.Sheet) {
	if s == nil {
		return
	}
	if len(s.Ignored) > 0 {
		var what []string
		for _, g := range s.Ignored {
			what = append(what, fmt.Sprintf("%d %s", g.Count, g.What))
		}
		t.line("taken as no geometry: "+strings.Join(what, ", "), 0, 2)
	}
	if !t.opt.All {
		if len(s.Notes) > 0 {
			t.line("+ "+plural(len(s.Notes), "note")+" on the reading (--all)", 0, 2)
		}
		return
	}
	for i := range s.Notes {
		n := &s.Notes[i]
		at := ""
		if n.HasAt {
			at = " at " + pointText(n.At.X, n.At.Y)
		}
		times := ""
		if n.Count > 1 {
			times = fmt.Sprintf(" (%d times)", n.Count)
		}
		t.line("reading: "+n.Text+at+times, 0, 2)
	}
	t.line(fmt.Sprintf("joined within %s mm, gaps bridged to %s mm, curves taken as arcs within %s mm",
		measure.FormatNumber(s.SnapMM, 4), measure.FormatNumber(s.BridgeMM, 3), measure.FormatNumber(s.ArcDevMM, 4)), 0, 2)
}

// unitsLine says the unit and how it is known.
func unitsLine(u *features.Units) string {
	name := u.Name
	if name == "" {
		name = "mm"
	}
	s := "units: " + unitWord(name)
	switch u.From {
	case features.UnitsUnknown, "":
		s += ", assumed: the drawing does not say"
	default:
		s += " (" + string(u.From) + ")"
	}
	if u.Doubt && u.Other != "" {
		s += ", in doubt: it could be " + unitWord(u.Other)
	}
	// Where the unit is stated and nothing speaks against it, the witnesses
	// would only be noise.
	if (u.From == features.UnitsFlag || u.From == features.UnitsHeader) && !u.Doubt {
		return s
	}
	for i, e := range u.Evidence {
		if i == 3 {
			break
		}
		s += "; " + e.What + ": for " + unitWord(e.For)
	}
	return s
}

// partLine is form, size, thickness, material, copies and quantity of a part.
func partLine(p *check.PartReport, unit string) string {
	b := partBox(p.Part)
	size := pairText(b.Width, b.Height, unit)
	if p.Part.Angle != nil {
		size = angleWords(p.Part.Angle, unit)
	}
	s := fmt.Sprintf("%s: %s %s", p.Part.Name, formWord(p.Part.Form), size)
	s += ", " + thicknessText(p, unit) + ", " + materialText(p)
	s += ", " + piecesText(p)
	if v := scaleWords(p); v != "" {
		s += "; " + v + ": " + p.Part.Scale.From
	}
	return s
}

// scaleWords tells that the view is drawn to a scale, "" at full size.
func scaleWords(p *check.PartReport) string {
	if !(p.Part.Scale.Factor > 0) {
		return ""
	}
	return "drawn " + p.Part.Scale.Ratio + ", brought to true size"
}

func formWord(f features.Form) string {
	if f == "" {
		return "part"
	}
	return string(f)
}

func fromText(from string) string {
	if from == "" {
		return ""
	}
	return " (" + from + ")"
}

func thicknessText(p *check.PartReport, unit string) string {
	if !(p.Job.ThicknessMM > 0) {
		return "thickness not stated"
	}
	return lengthText(p.Job.ThicknessMM, unit) + " thick" + fromText(p.Job.ThicknessFrom)
}

func materialText(p *check.PartReport) string {
	switch {
	case p.Job.MaterialName == "" && p.Job.Material == nil:
		return "material not stated"
	case p.Job.Material == nil:
		return p.Job.MaterialName + fromText(p.Job.MaterialFrom) + ", a material that the shop does not list"
	case p.Job.MaterialName == "" || p.Job.MaterialName == p.Job.Material.Name:
		return p.Job.Material.Name + fromText(p.Job.MaterialFrom)
	}
	return p.Job.MaterialName + fromText(p.Job.MaterialFrom) + ", taken as " + p.Job.Material.Name
}

// wanted is the quantity asked for; 0 if nothing states it and the pieces are
// those drawn.
func wanted(p *check.PartReport) int {
	if p.Job.QuantityFrom == "drawn" {
		return 0
	}
	return p.Job.Quantity
}

func piecesText(p *check.PartReport) string {
	s := fmt.Sprintf("%d drawn", max(1, p.Part.Copies()))
	if wanted(p) > 0 {
		return s + fmt.Sprintf(", %d wanted", p.Job.Quantity) + fromText(p.Job.QuantityFrom)
	}
	return s + ", quantity not stated"
}

func blankText(b *plan.Blank) string {
	if b.Assumed && !strings.Contains(b.Text, "assumed") {
		return b.Text + " (assumed)"
	}
	return b.Text
}

// workLine is the count of one piece and the minutes, or why they are not known.
func workLine(w *plan.Work) string {
	if !w.Known {
		s := "work: not counted"
		if w.Why != "" {
			s += ", " + w.Why
		}
		return s
	}
	s := fmt.Sprintf("work for one piece: %s, %s, %s", plural(w.Hits, "hit"), plural(w.Bites, "bite"), plural(w.Cuts, "cut"))
	if w.Bends > 0 {
		s += ", " + plural(w.Bends, "bend")
	}
	s += fmt.Sprintf("; %s, %s; set-up %s, %s each", plural(w.ToolChanges, "tool change"), plural(w.Settings, "gauge setting"),
		minutesText(w.SetUpMinutes), minutesText(w.MinutesEach))
	if w.Quantity > 0 {
		s += fmt.Sprintf(", %s for %d", minutesText(w.MinutesTotal), w.Quantity)
	}
	if w.NetKG > 0 {
		s += "; " + massText(w.NetKG)
		if w.GrossKG > w.NetKG {
			s += " (blank " + massText(w.GrossKG) + ")"
		}
	}
	return s
}

func massText(kg float64) string {
	if kg < 1 {
		return measure.FormatNumber(kg, 2) + " kg"
	}
	return measure.FormatNumber(kg, 1) + " kg"
}

func pointText(x, y float64) string {
	return "(" + measure.FormatNumber(x, 2) + ", " + measure.FormatNumber(y, 2) + ")"
}

func errorText(rep *check.Report) string {
	s := rep.Err.Error()
	if rep.ErrLine > 0 && !strings.Contains(s, fmt.Sprint(rep.ErrLine)) {
		return fmt.Sprintf("line %d: %s", rep.ErrLine, s)
	}
	return s
}

// Colours of the terminal: never the only sign, each line has its word too.
const (
	colourNone  = ""
	colourError = "\x1b[1;31m"
	colourCare  = "\x1b[33m"
	colourNote  = "\x1b[36m"
	colourFits  = "\x1b[1;32m"
)

func severityColour(s check.Severity) string {
	return []string{colourError, colourCare, colourNote, colourNone}[severityRank(s)]
}

func verdictColour(v check.Verdict) string {
	switch v {
	case check.Fits:
		return colourFits
	case check.DoesNotFit:
		return colourError
	}
	return colourCare
}

func (t *textReport) line(s string, indent, hang int) { t.paint(colourNone, s, indent, hang) }

// finding writes a finding with its word of severity, the word alone coloured.
func (t *textReport) finding(word, s, colour string) {
	for i, l := range wrapColumns(plainLine(s), t.opt.Width-9) {
		if i > 0 {
			t.b.WriteString(strings.Repeat(" ", 9) + l + "\n")
			continue
		}
		pad := strings.Repeat(" ", max(0, 7-len(word)))
		if t.opt.Colour {
			word = colour + word + "\x1b[0m"
		}
		t.b.WriteString("  " + word + pad + l + "\n")
	}
}

func (t *textReport) paint(colour, s string, indent, hang int) {
	for i, l := range wrapHang(plainLine(s), t.opt.Width-indent, t.opt.Width-hang) {
		in := indent
		if i > 0 {
			in = hang
		}
		if t.opt.Colour && colour != "" {
			l = colour + l + "\x1b[0m"
		}
		t.b.WriteString(strings.Repeat(" ", in) + l + "\n")
	}
}
