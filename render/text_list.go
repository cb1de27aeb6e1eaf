package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"burrside/check"
	"burrside/features/cutlist"
	"burrside/features/measure"
)

// listHeading is the verdict of a whole cut list.
func listHeading(rep *check.Report) string {
	reason := ""
	var all []check.Finding
	for _, b := range rep.Bars {
		if b.Verdict == rep.Verdict && reason == "" && b.Reason != "" {
			reason = b.Name + ": " + b.Reason
		}
		all = append(all, b.Findings...)
	}
	return heading(rep.Verdict, reason, all)
}

// bars writes the lines of a cut list.
func (t *textReport) bars(rep *check.Report) {
	if rep.List == nil {
		return
	}
	for _, n := range rep.List.Notes {
		t.line("list: "+n, 0, 2)
	}
	for _, b := range rep.Bars {
		t.b.WriteByte('\n')
		t.bar(rep, b)
	}
}

func (t *textReport) bar(rep *check.Report, b *check.BarReport) {
	if len(rep.Bars) > 1 {
		t.paint(verdictColour(b.Verdict), b.Name+": "+heading(b.Verdict, b.Reason, b.Findings), 0, 2)
	}
	t.line(barLine(b, t.unit), 0, 2)
	if p := b.Plan; p != nil {
		if p.Stock.Text != "" {
			t.line("stock: "+p.Stock.Text, 0, 2)
		}
	}
	t.findings(b.Findings, "", nil)
	if len(b.Findings) == 0 {
		t.line("nothing found against it", 2, 4)
	}
	if b.Plan == nil {
		t.asks(b)
		return
	}
	var made []string
	for i := range b.Plan.Cuts {
		c := &b.Plan.Cuts[i]
		s := c.What
		if c.Count > 1 {
			s += " at both ends"
		}
		switch v := check.VerdictOf(c.Use.Grade()); {
		case v == check.DoesNotFit:
			s += ": nothing in this shop"
		case v == check.CannotTell:
			s += ": cannot be told yet"
		case c.Use.Machine == "":
			s += ": " + c.Use.Station
		default:
			s += ": " + c.Use.Machine + ", " + c.Use.Station
			if c.Use.Tool != "" {
				s += ", " + c.Use.Tool
			}
		}
		made = append(made, s)
	}
	t.list("made by", made)
	if len(b.Limits) > 0 {
		var s []string
		for _, l := range b.Limits {
			s = append(s, l.Text)
		}
		t.line("limits: "+strings.Join(s, "; "), 0, 2)
	}
	t.line(barWorkLine(b), 0, 2)
	if w := &b.Plan.Work; len(w.Buy) > 0 {
		t.line("to buy: "+strings.Join(w.Buy, "; "), 0, 2)
	}
	if w := &b.Plan.Work; w.Known && len(w.Assumptions) > 0 {
		t.line("assumed: "+strings.Join(w.Assumptions, "; "), 0, 2)
	}
	t.asks(b)
	for _, c := range b.Cautions {
		t.paint(colourCare, "caution: "+c, 0, 2)
	}
}

func (t *textReport) asks(b *check.BarReport) {
	for _, q := range fewAlike(b.Questions) {
		t.line("to ask: "+q, 0, 2)
	}
}

// barLine is section, length, ends, material and quantity of a line.
func barLine(b *check.BarReport, unit string) string {
	if b.Plan == nil {
		s := b.Name
		if b.Line.Section.Text != "" {
			s += ": " + strconv.Quote(b.Line.Section.Text)
		}
		return s + " is not judged"
	}
	p := &b.Plan.Bar
	name := p.Section.Name
	if p.Section.List != "" && p.Section.Kind == cutlist.Angle {
		name += " (" + p.Section.List + ")"
	}
	s := b.Name + ": " + name + ", " + lengthText(p.LengthMM, unit) + " long, " + endsWords(p, unit)
	switch {
	case b.Job.MaterialName == "" && b.Job.Material == nil:
		s += ", material not stated"
	case b.Job.Material == nil:
		s += ", " + b.Job.MaterialName + fromText(b.Job.MaterialFrom) + ", a material that the shop does not list"
	case b.Job.MaterialName == "" || b.Job.MaterialName == b.Job.Material.Name:
		s += ", " + b.Job.Material.Name + fromText(b.Job.MaterialFrom)
	default:
		s += ", " + b.Job.MaterialName + fromText(b.Job.MaterialFrom) + ", taken as " + b.Job.Material.Name
	}
	if b.Job.Quantity > 0 {
		return s + fmt.Sprintf(", %d wanted", b.Job.Quantity) + fromText(b.Job.QuantityFrom)
	}
	return s + ", quantity not stated"
}

// barWorkLine is the count of one piece, the minutes, and the weights.
func barWorkLine(b *check.BarReport) string {
	w := &b.Plan.Work
	if !w.Known {
		return workLine(w)
	}
	s := fmt.Sprintf("work for one piece: %s", plural(w.Cuts, "cut"))
	if w.Hits > 0 {
		s += ", " + plural(w.Hits, "end") + " worked"
	}
	s += fmt.Sprintf("; %s, %s; set-up %s, %s each, %s for %d", plural(w.ToolChanges, "tool change"), plural(w.Settings, "gauge setting"),
		minutesText(w.SetUpMinutes), minutesText(w.MinutesEach), minutesText(w.MinutesTotal), w.Quantity)
	st := &b.Plan.Stock
	if st.PieceNetKG > 0 {
		s += "; " + massText(st.PieceNetKG) + " each, " + massText(st.NetKG) + " net"
		if st.GrossKG > 0 {
			s += ", " + massText(st.GrossKG) + " gross"
		}
	} else {
		s += "; weight not known"
	}
	return s
}

// barRow is the line of summary.csv of a line of a cut list.
func barRow(rep *check.Report, b *check.BarReport, total *summaryTotal) summaryRow {
	n := max(1, b.Job.Quantity)
	r := summaryRow{file: rep.Drawing, part: b.Name, pieces: strconv.Itoa(n), material: b.Job.MaterialName, verdict: string(verdictJSON(b.Verdict)), form: "bar", section: b.Line.Section.Text}
	if r.material == "" && b.Job.Material != nil {
		r.material = b.Job.Material.Name
	}
	r.reason = b.Reason
	if f := firstFinding(b.Findings); f != nil {
		r.reason, r.who = shortFinding(f), f.Who
	}
	total.parts++
	total.pieces += n
	if b.Line.LengthMM > 0 {
		r.length = measure.FormatNumber(b.Line.LengthMM, 2)
	}
	if b.Plan == nil {
		total.uncounted++
		total.kgMissing++
		return r
	}
	r.section = strings.TrimSuffix(b.Plan.Bar.Section.Name, " mm")
	if t := b.Plan.Bar.Section.ThicknessMM; t > 0 && !b.Plan.Bar.Section.Solid() {
		r.thickness = measure.FormatNumber(t, 3)
	}
	r.blank = b.Plan.Stock.Text
	if kg := b.Plan.Stock.NetKG; kg > 0 && !math.IsInf(kg, 0) {
		r.kg = measure.FormatNumber(kg, 2)
		total.kg += kg
	} else {
		total.kgMissing++
	}
	w := &b.Plan.Work
	if !w.Known {
		total.uncounted++
		return r
	}
	r.hits, r.cuts = strconv.Itoa(w.Hits*n), strconv.Itoa(w.Cuts*n)
	r.each, r.total = measure.FormatNumber(w.MinutesEach, 2), measure.FormatNumber(w.MinutesTotal, 1)
	total.hits += w.Hits * n
	total.cuts += w.Cuts * n
	total.minutes += w.MinutesTotal
	return r
}
