package render

import (
	"math"

	"burrside/check"
	"burrside/check/plan"
	"burrside/features/cutlist"
)

// jsonList is a cut list: the lines of a CSV without drawings.
type jsonList struct {
	Notes []string  `json:"notes"`
	Bars  []jsonBar `json:"bars"`
}

type jsonBar struct {
	Name          string        `json:"name"`
	Line          int           `json:"line" jsonschema:"minimum=1"`
	SectionText   string        `json:"section_text,omitempty" jsonschema:"description=as the list writes it"`
	Section       *jsonSection  `json:"section,omitempty" jsonschema:"description=absent: not understood"`
	LengthMM      *float64      `json:"length_mm,omitempty" jsonschema:"description=overall; to the longest point of a mitre"`
	Ends          []jsonEnd     `json:"ends" jsonschema:"maxItems=2"`
	EndsTaken     bool          `json:"ends_taken,omitempty" jsonschema:"description=true: the list states none and both are taken as square"`
	Quantity      *int          `json:"quantity,omitempty" jsonschema:"minimum=1"`
	QuantityFrom  string        `json:"quantity_from,omitempty"`
	Material      string        `json:"material,omitempty"`
	MaterialFrom  string        `json:"material_from,omitempty"`
	MaterialKnown *bool         `json:"material_known,omitempty" jsonschema:"description=false: the shop lists no material of that name"`
	Verdict       jsonVerdict   `json:"verdict"`
	Reason        string        `json:"reason,omitempty"`
	Machines      []jsonMachine `json:"machines"`
	Limits        []jsonSteel   `json:"limits" jsonschema:"description=by material; where it is not known"`
	Cuts          []jsonBarCut  `json:"cuts"`
	Stock         *jsonStock    `json:"stock,omitempty"`
	Findings      []jsonFinding `json:"findings"`
	Route         []jsonStep    `json:"route"`
	Work          *jsonWork     `json:"work,omitempty"`
	Questions     []string      `json:"questions"`
	Cautions      []string      `json:"cautions" jsonschema:"maxItems=4"`
}

type jsonSection struct {
	Kind              string    `json:"kind" jsonschema:"enum=flat,enum=angle,enum=round,enum=square,enum=channel,enum=square tube,enum=round tube"`
	Name              string    `json:"name"`
	List              string    `json:"list,omitempty" jsonschema:"description=of the table that it was found in"`
	SizesMM           []float64 `json:"sizes_mm" jsonschema:"description=width; legs; diameter or side; depth and flange; sides"`
	ThicknessMM       *float64  `json:"thickness_mm,omitempty" jsonschema:"description=of a flat or leg or web or wall; the size of a solid bar"`
	FlangeThicknessMM *float64  `json:"flange_thickness_mm,omitempty"`
	AreaMM2           *float64  `json:"area_mm2,omitempty"`
}

type jsonEnd struct {
	Work     string   `json:"work"`
	AngleDeg *float64 `json:"angle_deg,omitempty" jsonschema:"description=of a mitre off square; of a saddle between the axes"`
	HeaderMM *float64 `json:"header_mm,omitempty" jsonschema:"description=pipe that a saddle fits to; absent: one of its own size"`
}

type jsonBarCut struct {
	What    string      `json:"what"`
	Ends    int         `json:"ends" jsonschema:"minimum=1"`
	Verdict jsonVerdict `json:"verdict"`
	Machine *string     `json:"machine" jsonschema:"nullable"`
	Station *string     `json:"station" jsonschema:"nullable"`
	Tool    *string     `json:"tool" jsonschema:"nullable"`
	ForceKN *float64    `json:"force_kn,omitempty"`
	LimitKN *float64    `json:"limit_kn,omitempty"`
	Share   *float64    `json:"share,omitempty"`
	Tried   []jsonTried `json:"tried"`
}

type jsonSteel struct {
	Material  string      `json:"material"`
	Verdict   jsonVerdict `json:"verdict"`
	StoppedBy *string     `json:"stopped_by" jsonschema:"nullable"`
	Text      string      `json:"text,omitempty"`
}

type jsonStock struct {
	LengthMM     *float64 `json:"length_mm,omitempty" jsonschema:"description=absent: the shop file does not state it"`
	PiecesPerBar *int     `json:"pieces_per_bar,omitempty"`
	Bars         *int     `json:"bars,omitempty"`
	TrimMM       *float64 `json:"trim_mm,omitempty"`
	LastDropMM   *float64 `json:"last_drop_mm,omitempty"`
	KerfMM       *float64 `json:"kerf_mm,omitempty"`
	DropMM       *float64 `json:"drop_mm,omitempty"`
	PieceKG      *float64 `json:"piece_kg,omitempty"`
	NetKG        *float64 `json:"net_kg,omitempty" jsonschema:"description=all pieces"`
	GrossKG      *float64 `json:"gross_kg,omitempty" jsonschema:"description=all bars"`
	Text         string   `json:"text,omitempty"`
}

// listJSON is the cut list of a report, nil for a drawing.
func listJSON(rep *check.Report) *jsonList {
	if rep.List == nil {
		return nil
	}
	out := &jsonList{Notes: list(rep.List.Notes), Bars: []jsonBar{}}
	for _, b := range rep.Bars {
		out.Bars = append(out.Bars, barJSON(b))
	}
	return out
}

func barJSON(b *check.BarReport) jsonBar {
	l := b.Line
	j := jsonBar{Name: b.Name, Line: l.Number, SectionText: plainLine(l.Section.Text), LengthMM: known(l.LengthMM), Ends: []jsonEnd{}, EndsTaken: !l.EndStated,
		Quantity: knownInt(b.Job.Quantity), Material: b.Job.MaterialName, Verdict: verdictJSON(b.Verdict), Reason: b.Reason,
		Machines: []jsonMachine{}, Limits: []jsonSteel{}, Cuts: []jsonBarCut{}, Findings: []jsonFinding{}, Route: []jsonStep{},
		Questions: list(b.Questions), Cautions: list(b.Cautions)}
	if j.Quantity != nil {
		j.QuantityFrom = b.Job.QuantityFrom
	}
	if j.Material != "" {
		yes := b.Job.Material != nil
		j.MaterialFrom, j.MaterialKnown = b.Job.MaterialFrom, &yes
	}
	for i := range b.Findings {
		j.Findings = append(j.Findings, findingJSON(&b.Findings[i], sourcer{}))
	}
	if b.Plan == nil {
		return j
	}
	s := &b.Plan.Bar.Section
	js := &jsonSection{Kind: string(s.Kind), Name: s.Name, List: s.List, SizesMM: []float64{round4(s.SizeMM[0])}, ThicknessMM: known(s.ThicknessMM),
		FlangeThicknessMM: known(s.FlangeThicknessMM), AreaMM2: knownArea(s.AreaMM2)}
	if s.SizeMM[1] > 0 {
		js.SizesMM = append(js.SizesMM, round4(s.SizeMM[1]))
	}
	j.Section = js
	for _, e := range b.Plan.Bar.Ends {
		j.Ends = append(j.Ends, jsonEnd{Work: e.Work, AngleDeg: known(e.AngleRad * 180 / math.Pi), HeaderMM: known(e.HeaderMM)})
	}
	for _, x := range b.Limits {
		j.Limits = append(j.Limits, jsonSteel{Material: x.Material, Verdict: verdictJSON(x.Verdict), StoppedBy: orNull(x.StoppedBy), Text: x.Text})
	}
	for i := range b.Plan.Cuts {
		j.Cuts = append(j.Cuts, barCutJSON(&b.Plan.Cuts[i]))
	}
	for _, m := range b.Plan.Machines {
		jm := jsonMachine{Name: m.Name, Verdict: verdictJSON(check.VerdictOf(m.Grade))}
		if m.Limiting.Rule != "" {
			jm.Limiting = &jsonLimiting{Rule: m.Limiting.Rule, Features: []string{}, Share: known(m.Share)}
		}
		j.Machines = append(j.Machines, jm)
	}
	for i, s := range b.Plan.Steps {
		j.Route = append(j.Route, jsonStep{Step: i + 1, What: s.What, Features: list(s.Features), Machine: orNull(s.Machine), Station: orNull(s.Station), Tool: orNull(s.Tool), Hits: knownInt(s.Hits)})
	}
	st := &b.Plan.Stock
	j.Stock = &jsonStock{LengthMM: known(st.LengthMM), PiecesPerBar: knownInt(st.PiecesPerBar), Bars: knownInt(st.Bars), PieceKG: known(st.PieceNetKG), NetKG: known(st.NetKG), GrossKG: known(st.GrossKG), Text: st.Text}
	if st.PiecesPerBar > 0 {
		j.Stock.TrimMM, j.Stock.LastDropMM, j.Stock.KerfMM, j.Stock.DropMM = stated(st.TrimMM), stated(st.LastDropMM), stated(st.KerfMM), stated(st.DropMM)
	}
	j.Work = workOf(&b.Plan.Work)
	return j
}

func barCutJSON(c *plan.BarCut) jsonBarCut {
	j := jsonBarCut{What: c.What, Ends: c.Count, Verdict: verdictJSON(check.VerdictOf(c.Use.Grade())), Machine: orNull(c.Use.Machine), Station: orNull(c.Use.Station), Tool: orNull(c.Use.Tool),
		ForceKN: known(c.Use.ForceKN), LimitKN: known(c.Use.LimitKN), Share: known(c.Use.Share), Tried: []jsonTried{}}
	for i := range c.Tried {
		u := &c.Tried[i]
		t := jsonTried{Machine: u.Machine, Station: u.Station, Tool: u.Tool, Verdict: verdictJSON(check.VerdictOf(u.Grade())), Share: known(u.Share)}
		for _, a := range u.Aspects {
			if a.Grade == u.Grade() && check.VerdictOf(a.Grade) != check.Fits {
				t.StoppedBy, t.Text = orNull(a.Rule), a.Text
				break
			}
		}
		j.Tried = append(j.Tried, t)
	}
	return j
}

// endsWords tells both ends of a piece in words.
func endsWords(p *plan.Bar, unit string) string {
	a, b := p.Ends[0].Text(unit), p.Ends[1].Text(unit)
	switch {
	case !p.EndStated:
		return "both ends taken as square, the list states none"
	case a == b && p.Ends[0].Work == cutlist.SquareEnd:
		return "both ends square"
	case a == b:
		return "both ends " + a
	}
	return "one end " + a + ", the other " + b
}
