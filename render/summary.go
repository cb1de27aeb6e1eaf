package render

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"burrside/check"
	"burrside/features"
	"burrside/features/measure"
)

// summaryColumns lists the columns of summary.csv. Columns named total are for all
// pieces, those named each for one.
func summaryColumns() []string {
	return []string{"file", "part", "pieces", "thickness_mm", "material", "blank", "kg_total", "holes_each", "hits_total", "cuts_total",
		"bites_total", "bends_total", "minutes_each", "minutes_total", "verdict", "first_reason", "who",
		"form", "section", "length_mm"}
}

// Entry is what summary.csv and questions.txt say of one drawing. It keeps
// nothing of the report that it comes from.
type Entry struct {
	rows      []summaryRow
	total     summaryTotal
	questions []string
	drawing   string
}

// EntryOf gathers the entry of a drawing.
func EntryOf(rep *check.Report) Entry {
	e := Entry{drawing: rep.Drawing, questions: drawingQuestions(rep)}
	if rep.List != nil && rep.Err == nil {
		for _, b := range rep.Bars {
			e.rows = append(e.rows, barRow(rep, b, &e.total))
		}
		return e
	}
	if len(rep.Parts) == 0 || rep.Err != nil {
		row := summaryRow{file: rep.Drawing, verdict: string(verdictJSON(rep.Verdict))}
		row.reason, row.who = drawingReason(rep)
		e.rows = []summaryRow{row}
		e.total.uncounted = 1
		return e
	}
	for _, p := range rep.Parts {
		e.rows = append(e.rows, partRow(rep, p, &e.total))
	}
	return e
}

// SummaryWriter writes summary.csv (RFC 4180) drawing by drawing: one line a
// part, one for each drawing without a part, and a line of totals. What is not
// known is an empty cell, never 0. Minutes are those of each part made alone, so
// that their total is above that of a job whose tool changes are shared. A cell
// whose text comes from a drawing and begins like a formula gets an apostrophe
// in front.
type SummaryWriter struct {
	out   *csv.Writer
	total summaryTotal
}

// NewSummary begins summary.csv. Errors of w are told by Close.
func NewSummary(w io.Writer) *SummaryWriter {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	out.Write(summaryColumns())
	return &SummaryWriter{out: out}
}

// Add writes the lines of a drawing.
func (s *SummaryWriter) Add(e Entry) {
	for _, r := range e.rows {
		s.out.Write(r.cells())
	}
	s.total.add(&e.total)
}

// Close writes the totals. It leaves the writer below open.
func (s *SummaryWriter) Close() error {
	s.out.Write(s.total.row().cells())
	s.out.Flush()
	return s.out.Error()
}

// Summary writes summary.csv at once.
func Summary(w io.Writer, reps []*check.Report) error {
	s := NewSummary(w)
	for _, rep := range reps {
		s.Add(EntryOf(rep))
	}
	return s.Close()
}

type summaryRow struct {
	file, part, pieces, thickness, material, blank, kg, holes, hits, cuts, bites, bends, each, total, verdict, reason, who,
	form, section, length string
}

func (r summaryRow) cells() []string {
	c := []string{r.file, r.part, r.pieces, r.thickness, r.material, r.blank, r.kg, r.holes, r.hits, r.cuts, r.bites, r.bends, r.each, r.total,
		r.verdict, r.reason, r.who, r.form, r.section, r.length}
	for i := range c {
		c[i] = guardCell(c[i])
	}
	return c
}

// guardCell keeps a spreadsheet from taking a foreign text as a formula, and
// control characters out of the file.
func guardCell(s string) string {
	s = plainLine(s)
	if t := strings.TrimLeft(s, " "); t != "" && strings.ContainsRune("=+-@", rune(t[0])) {
		return "'" + s
	}
	return s
}

type summaryTotal struct {
	parts, pieces, hits, cuts, bites, bends, uncounted int
	kg, minutes                                        float64
	kgMissing                                          int
}

func (t *summaryTotal) add(u *summaryTotal) {
	t.parts += u.parts
	t.pieces += u.pieces
	t.hits += u.hits
	t.cuts += u.cuts
	t.bites += u.bites
	t.bends += u.bends
	t.uncounted += u.uncounted
	t.kg += u.kg
	t.minutes += u.minutes
	t.kgMissing += u.kgMissing
}

func (t *summaryTotal) row() summaryRow {
	r := summaryRow{file: "total", part: plural(t.parts, "part"), pieces: strconv.Itoa(t.pieces), kg: measure.FormatNumber(t.kg, 2), hits: strconv.Itoa(t.hits),
		cuts: strconv.Itoa(t.cuts), bites: strconv.Itoa(t.bites), bends: strconv.Itoa(t.bends), total: measure.FormatNumber(t.minutes, 1)}
	var missing []string
	if t.uncounted > 0 {
		missing = append(missing, "not counted: "+strconv.Itoa(t.uncounted))
	}
	if t.kgMissing > 0 {
		missing = append(missing, "not weighed: "+strconv.Itoa(t.kgMissing))
	}
	r.reason = strings.Join(missing, "; ")
	return r
}

// pieces is how many pieces are to be made: the quantity if it is stated, else
// the copies drawn.
func pieces(p *check.PartReport) int {
	if p.Job.Quantity > 0 {
		return p.Job.Quantity
	}
	if p.Part.Quantity > 0 {
		return p.Part.Quantity
	}
	return max(1, p.Part.Copies())
}

func partRow(rep *check.Report, p *check.PartReport, total *summaryTotal) summaryRow {
	n := pieces(p)
	r := summaryRow{file: rep.Drawing, part: p.Part.Name, pieces: strconv.Itoa(n), form: formWord(p.Part.Form), material: p.Job.MaterialName, holes: holesBySize(p.Part, every)}
	if a := p.Part.Angle; a != nil {
		r.section, r.holes = sectionWords(a, "mm"), holesByLeg(p.Part)
		if a.LengthMM > 0 {
			r.length = measure.FormatNumber(a.LengthMM, 2)
		}
	}
	v, _ := partOnPaper(rep, p)
	r.verdict = string(v)
	total.parts++
	total.pieces += n
	if p.Job.ThicknessMM > 0 {
		r.thickness = measure.FormatNumber(p.Job.ThicknessMM, 3)
	}
	if r.material == "" && p.Job.Material != nil {
		r.material = p.Job.Material.Name
	}
	r.reason, r.who = partReason(rep, p)
	if p.Plan == nil {
		total.uncounted++
		total.kgMissing++
		return r
	}
	r.blank = blankText(&p.Plan.Blank)
	wk := &p.Plan.Work
	if wk.NetKG > 0 {
		r.kg = measure.FormatNumber(wk.NetKG*float64(n), 2)
		total.kg += wk.NetKG * float64(n)
	} else {
		total.kgMissing++
	}
	if !wk.Known {
		total.uncounted++
		return r
	}
	minutes := wk.SetUpMinutes + wk.MinutesEach*float64(n)
	if wk.Quantity == n {
		minutes = wk.MinutesTotal
	}
	r.hits, r.cuts = strconv.Itoa(wk.Hits*n), strconv.Itoa(wk.Cuts*n)
	r.bites, r.bends = strconv.Itoa(wk.Bites*n), strconv.Itoa(wk.Bends*n)
	r.each, r.total = measure.FormatNumber(wk.MinutesEach, 2), measure.FormatNumber(minutes, 1)
	total.hits += wk.Hits * n
	total.cuts += wk.Cuts * n
	total.bites += wk.Bites * n
	total.bends += wk.Bends * n
	total.minutes += minutes
	return r
}

// holesBySize counts the inside features of one piece by what they are:
// "4 x Ø22, 1 x slot 22x50", round holes first, the smaller before the larger.
func holesBySize(p *features.Part, counts func(*features.Feature) bool) string {
	type kind struct {
		rank  int
		size  float64
		words string
	}
	var kinds []kind
	count := map[string]int{}
	for i := range p.Features {
		f := &p.Features[i]
		if !f.IsInside() || !counts(f) {
			continue
		}
		k := kind{rank: 1, size: f.WidthMM, words: featureWords(f, "mm")}
		if f.Kind == features.RoundHole {
			k = kind{size: f.DiameterMM, words: "Ø" + measure.FormatNumber(f.DiameterMM, 2)}
		}
		if count[k.words] == 0 {
			kinds = append(kinds, k)
		}
		count[k.words]++
	}
	slices.SortFunc(kinds, func(a, b kind) int {
		switch {
		case a.rank != b.rank:
			return a.rank - b.rank
		case a.size < b.size:
			return -1
		case a.size > b.size:
			return 1
		}
		return strings.Compare(a.words, b.words)
	})
	var s []string
	for _, k := range kinds {
		s = append(s, fmt.Sprintf("%d x %s", count[k.words], k.words))
	}
	return strings.Join(s, ", ")
}

// holesByLeg counts the inside features of an angle leg by leg: "a: 4 x Ø22; b:
// 2 x Ø18".
func holesByLeg(p *features.Part) string {
	var s []string
	for _, leg := range []string{"a", "b", ""} {
		if h := holesBySize(p, onLeg(leg)); h != "" {
			s = append(s, cmp.Or(leg, "across the heel")+": "+h)
		}
	}
	return strings.Join(s, "; ")
}

func every(*features.Feature) bool { return true }

// onLeg tells the features of one leg, "" those of both.
func onLeg(leg string) func(*features.Feature) bool {
	return func(f *features.Feature) bool { return f.Leg == leg }
}

// partReason is the first thing that keeps a part from plainly fitting, and
// whose business it is.
func partReason(rep *check.Report, p *check.PartReport) (reason, who string) {
	if f := firstFinding(p.Findings); f != nil {
		return shortFinding(f), f.Who
	}
	if f := firstFinding(rep.Findings); f != nil && p.Verdict != check.Fits {
		return shortFinding(f), f.Who
	}
	return p.Reason, ""
}

func drawingReason(rep *check.Report) (reason, who string) {
	if rep.Err != nil {
		return "could not be read: " + errorText(rep), "customer"
	}
	if f := firstFinding(rep.Findings); f != nil {
		return shortFinding(f), f.Who
	}
	return "no part found", "customer"
}

// firstFinding is the worst finding that is no note; nil if there is none.
func firstFinding(l []check.Finding) *check.Finding {
	var best *check.Finding
	for i := range l {
		if l[i].Severity == check.Note && !l[i].CannotTell {
			continue
		}
		if best == nil || severityRank(l[i].Severity) < severityRank(best.Severity) {
			best = &l[i]
		}
	}
	return best
}

func shortFinding(f *check.Finding) string {
	s := ruleWords(f.Rule)
	if len(f.Features) > 0 {
		s += " on " + idList(f.Features)
	}
	if f.Message != "" {
		s += ": " + f.Message
	}
	return s
}
