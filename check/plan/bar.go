package plan

import (
	"fmt"
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features/cutlist"
	"burrside/features/measure"
)

// Bar is a piece of a section cut to length without a drawing.
type Bar struct {
	Section   cutlist.Section
	LengthMM  float64 // overall
	Ends      [2]cutlist.End
	EndStated bool // else both are taken as square
}

// BarCut is one kind of cut or end work on a piece.
type BarCut struct {
	What  string // "cut to length", "mitre 45 deg", "saddle at 90 deg to its own size", "point"
	Count int    // ends of a piece that are made so
	Use   station.Use
	Tried []station.Use // the others that were looked at, best first
}

// BarStock is the bar that pieces come from.
type BarStock struct {
	LengthMM                   float64 // as bought; 0 the shop file does not state it
	PiecesPerBar, Bars         int     // 0 not known
	TrimMM, LastDropMM, KerfMM float64
	DropMM                     float64 // what is left of all bars, trim and kerf aside; 0 not known
	BarKG                      float64 // of one bar as bought; 0 not known
	PieceNetKG, NetKG, GrossKG float64 // one piece; all pieces; all bars; 0 not known
	Text                       string
}

// BarPlan is how the shop makes the pieces of one line of a cut list.
type BarPlan struct {
	Bar      Bar
	Cuts     []BarCut
	Stock    BarStock
	Aspects  []station.Aspect // about the stock: rule "blank"
	Steps    []Step
	Work     Work
	Machines []MachineUse
}

// barPlanner plans one bar.
type barPlanner struct {
	prof     *shop.Profile
	job      Job
	machines []*shop.Machine
	pc       station.Piece
	out      *BarPlan
}

// MakeBarPlan plans a bar. It always gives a plan; what is missing shows as
// Unknown. Of the job it takes material, quantity and machine.
func MakeBarPlan(bar Bar, prof *shop.Profile, job Job) *BarPlan {
	p := &barPlanner{prof: prof, job: job, out: &BarPlan{Bar: bar}}
	p.pc = station.Piece{ThicknessMM: bar.Section.ThicknessMM, Material: job.Material}
	for i := range prof.Machines {
		if m := &prof.Machines[i]; job.Machine == "" || m.Name == job.Machine {
			p.machines = append(p.machines, m)
		}
	}
	for _, w := range p.wanted() {
		p.out.Cuts = append(p.out.Cuts, p.judge(w))
	}
	p.stock()
	p.out.Machines = p.machineUses()
	p.steps()
	p.work()
	return p.out
}

// want is one kind of cut or end work that is asked for.
type want struct {
	end   cutlist.End // work "square" for a cut to length
	count int
}

// wanted lists the cuts of a piece, each kind once: every end that is not mitred
// is first cut square to length.
func (p *barPlanner) wanted() []want {
	var out []want
	add := func(e cutlist.End) {
		for i := range out {
			if out[i].end == e {
				out[i].count++
				return
			}
		}
		out = append(out, want{e, 1})
	}
	for _, e := range p.out.Bar.Ends {
		if e.Work != cutlist.Mitre {
			add(cutlist.End{Work: cutlist.SquareEnd})
		}
	}
	for _, e := range p.out.Bar.Ends {
		if e.Work != cutlist.SquareEnd {
			add(e)
		}
	}
	return out
}

// judge asks every machine for a cut, then the processes beside them.
func (p *barPlanner) judge(w want) BarCut {
	c := BarCut{What: w.end.Text(p.prof.Units), Count: w.count}
	if w.end.Work == cutlist.SquareEnd {
		c.What = "cut to length"
	}
	if !p.known() {
		c.Use.Aspects = []station.Aspect{{Rule: "material-missing", Grade: station.Unknown, Text: "the material's strength is not known"}}
		if s := &p.out.Bar.Section; s.ThicknessMM == 0 && s.Kind == cutlist.RoundTube {
			c.Use.Aspects = append(c.Use.Aspects, station.Aspect{Rule: "thickness-missing", Grade: station.Unknown, Text: "the wall of " + s.Name + " is not known"})
		}
		return c
	}
	var uses []station.Use
	for _, m := range p.machines {
		uses = append(uses, p.ask(m, w))
	}
	if len(uses) == 0 {
		uses = append(uses, station.Use{Aspects: []station.Aspect{{Rule: p.rule(w), Grade: station.Fail, Text: "the shop has no machine"}}})
	}
	best := clearest(uses)
	if best.Grade() >= station.Unknown {
		uses = append(uses, p.others(w, limiting(best))...)
	}
	route(uses, nil)
	c.Use, c.Tried = pickUse(uses)
	if c.Use.Grade() == station.Fail {
		all := append([]station.Use{c.Use}, c.Tried...)
		i := slices.IndexFunc(all, func(u station.Use) bool { return u.Machine == best.Machine && u.Station == best.Station })
		if i > 0 {
			all[0], all[i] = all[i], all[0]
			c.Use, c.Tried = all[0], all[1:]
		}
	}
	return c
}

// clearest is the use of the best grade that tells the most: one that has the
// station or tool and misses a limit before one that has not got it.
func clearest(uses []station.Use) station.Use {
	rank := func(u station.Use) int {
		r := 2 * int(u.Grade())
		if a := limiting(u); u.Grade() == station.Fail && !a.HasGot && u.Tool == "" {
			r++
		}
		return r
	}
	return slices.MinFunc(uses, func(a, b station.Use) int { return rank(a) - rank(b) })
}

// known tells that the material's strength is known; without it nothing is.
func (p *barPlanner) known() bool { return p.job.Material != nil && p.job.Material.ShearMPa > 0 }

// ask puts a cut to the station of a machine that is for the section. A piece
// too short for the blades is told wherever they could cut it.
func (p *barPlanner) ask(m *shop.Machine, w want) station.Use {
	u, s := p.askStation(m, w), &p.out.Bar.Section
	if cut := w.end.Work == cutlist.Mitre || w.end.Work == cutlist.SquareEnd; cut && s.Kind != cutlist.Flat && u.Grade() < station.Unknown {
		if a, ok := station.ShortPiece(p.prof, p.pc, s.Solid(), p.out.Bar.LengthMM); ok {
			u.Aspects = append(u.Aspects, a)
		}
	}
	return u
}

func (p *barPlanner) askStation(m *shop.Machine, w want) station.Use {
	s := &p.out.Bar.Section
	off := 0.0
	if w.end.Work == cutlist.Mitre {
		off = w.end.AngleRad
	}
	if w.end.Work != cutlist.Mitre && w.end.Work != cutlist.SquareEnd {
		return station.EndWork(p.prof, m, p.pc, station.EndRequest{Work: w.end.Work, Shape: endShape(s), Name: s.Name, SizeMM: s.SizeMM[0], HeaderMM: w.end.HeaderMM, AngleRad: w.end.AngleRad})
	}
	switch s.Kind {
	case cutlist.Flat:
		return station.Shear(p.prof, m, p.pc, station.CutRequest{LengthMM: s.SizeMM[0] / math.Cos(off), OffSquareRad: off, OnBar: true, PieceMM: p.out.Bar.LengthMM})
	case cutlist.Angle:
		c := station.AngleCut{Section: station.Section{LegMM: s.SizeMM, ThicknessMM: s.ThicknessMM, RootMM: s.RootMM, ToRootMM: s.ToRootMM, AreaMM2: s.AreaMM2}}
		c.OffSquareRad[0] = off
		// Two mitred ends are taken to meet others in a frame: mitred to both sides.
		c.Turned = off > 0 && p.out.Bar.Ends[0].Work == cutlist.Mitre && p.out.Bar.Ends[1].Work == cutlist.Mitre
		return station.AngleShear(p.prof, m, p.pc, c)
	case cutlist.Round, cutlist.Square:
		shape := station.Round
		if s.Kind == cutlist.Square {
			shape = station.Square
		}
		return station.BarShear(p.prof, m, p.pc, station.BarCut{Shape: shape, OffSquareRad: off})
	case cutlist.Channel:
		return station.ChannelShear(p.prof, m, p.pc, station.Channel{Name: s.Name, DepthMM: s.SizeMM[0], FlangeMM: s.SizeMM[1], WebMM: s.ThicknessMM,
			FlangeThicknessMM: s.FlangeThicknessMM, AreaMM2: s.AreaMM2, OffSquareRad: off})
	case cutlist.SquareTube, cutlist.RoundTube:
		return station.TubeShear(p.prof, m, p.pc, station.TubeCut{Name: s.Name, Round: s.Kind == cutlist.RoundTube, SizeMM: s.SizeMM[0], OffSquareRad: off})
	}
	panic("plan: no way to cut a section of kind " + string(s.Kind))
}

// endShape is what an end tool calls the section; "" no end tool takes it.
func endShape(s *cutlist.Section) string {
	switch s.Kind {
	case cutlist.Flat:
		return station.FlatBar
	case cutlist.Round:
		return station.RoundBar
	case cutlist.Square:
		return station.SquareBar
	case cutlist.RoundTube:
		return station.RoundTube
	case cutlist.SquareTube:
		return station.SquareTube
	}
	return ""
}

// rule is the rule that a cut is judged by.
func (p *barPlanner) rule(w want) string {
	if w.end.Work != cutlist.Mitre && w.end.Work != cutlist.SquareEnd {
		return "end-tool"
	}
	switch p.out.Bar.Section.Kind {
	case cutlist.Flat:
		return "shear-row"
	case cutlist.Angle:
		return "angle-shear"
	case cutlist.Channel:
		return "channel-shear"
	case cutlist.SquareTube, cutlist.RoundTube:
		return "tube-shear"
	}
	return "bar-shear"
}

// others offers what the shop has beside its machines: a saw for plain cuts,
// thermal cutting for any.
func (p *barPlanner) others(w want, why station.Aspect) []station.Use {
	s := &p.out.Bar.Section
	rule := p.rule(w)
	if why.Grade == station.Fail && why.Rule != "" {
		rule = why.Rule
	}
	var out []station.Use
	for _, kind := range []string{"saw", "thermal"} {
		q := p.prof.Process(kind)
		if kind == "saw" && w.end.Work != cutlist.Mitre && w.end.Work != cutlist.SquareEnd || !q.Have {
			continue
		}
		t := max(s.ThicknessMM, s.FlangeThicknessMM)
		if t == 0 && s.Kind == cutlist.Channel && !(q.MaxThicknessMM > 0) {
			t = s.SizeMM[0] / 8 // no limit that it could pass
		}
		across := max(s.SizeMM[0], s.SizeMM[1])
		if w.end.Work == cutlist.Mitre {
			across /= math.Cos(w.end.AngleRad)
		}
		from := why
		out = append(out, station.Other(p.prof, station.ProcessRequest{Kind: kind, Rule: rule, Why: why.Text, DiameterMM: across, ThicknessMM: t, From: &from}))
	}
	return out
}

// machineUses sets the bar against each machine alone.
func (p *barPlanner) machineUses() []MachineUse {
	var out []MachineUse
	for _, m := range p.machines {
		mu := MachineUse{Name: m.Name}
		if !p.known() && len(p.out.Cuts) > 0 {
			mu.Grade, mu.Limiting = station.Unknown, limiting(p.out.Cuts[0].Use)
		}
		look := func(a station.Aspect, share float64) {
			if a.Grade > mu.Grade || mu.Limiting.Rule == "" || a.Grade == mu.Grade && share > mu.Share+1e-9 {
				mu.Grade, mu.Limiting, mu.Share = max(mu.Grade, a.Grade), a, share
			}
		}
		for i := range p.out.Cuts {
			c := &p.out.Cuts[i]
			for _, u := range append([]station.Use{c.Use}, c.Tried...) {
				if u.Machine == m.Name {
					look(limitingShare(u), u.Share)
				}
			}
		}
		for _, a := range p.out.Aspects {
			if a.Grade > mu.Grade {
				mu.Grade, mu.Limiting = a.Grade, a
			}
		}
		out = append(out, mu)
	}
	return out
}

// ln writes a length in the shop's unit.
func (p *barPlanner) ln(mm float64) string { return station.Length(p.prof, mm) }

// stock finds the bar on the rack and how many pieces it gives.
func (p *barPlanner) stock() {
	b, st, s := &p.out.Stock, &p.prof.Stock, &p.out.Bar.Section
	b.LengthMM = st.BarLengthMM
	onRack := true
	switch s.Kind {
	case cutlist.Flat:
		b.LengthMM = st.FlatLengthMM
		onRack = len(st.FlatWidthsMM) == 0 || slices.ContainsFunc(st.FlatWidthsMM, func(w float64) bool { return math.Abs(w-s.SizeMM[0]) <= 0.8 })
	case cutlist.Angle:
		b.LengthMM = st.AngleLengthMM
		onRack = len(st.Angles) == 0 || slices.ContainsFunc(st.Angles, func(a shop.AngleBar) bool {
			return math.Abs(a.LegMM[0]-s.SizeMM[0]) <= 0.5 && math.Abs(a.LegMM[1]-s.SizeMM[1]) <= 0.5 && math.Abs(a.ThicknessMM-s.ThicknessMM) <= 0.1
		})
	}
	if !onRack {
		a := station.Aspect{Rule: "blank", Grade: station.Fail, Text: "the rack has no " + s.Name}
		if p.prof.Buy {
			a.Grade, a.Buy, a.Fix, a.FixBy = station.Care, s.Name, "buy "+s.Name, "shop"
		}
		p.out.Aspects = append(p.out.Aspects, a)
	}
	b.TrimMM, b.LastDropMM, b.KerfMM = trimMM, p.lastDrop(), 0
	for _, c := range p.out.Cuts {
		if c.Use.Station == "saw" || c.Use.Station == "thermal" {
			b.KerfMM = sawKerfMM
		}
	}
	length := p.out.Bar.LengthMM
	p.weigh()
	switch {
	case !(b.LengthMM > 0):
		b.Text = "the shop file states no length of stock for it: pieces a bar not known"
		return
	case length > b.LengthMM+1e-6:
		a := station.Aspect{Rule: "blank", Grade: station.Fail, Got: length, HasGot: true, Limit: b.LengthMM, HasLimit: true, Unit: "mm",
			Text:  fmt.Sprintf("the piece of %s is longer than the bar of %s", p.ln(length), p.ln(b.LengthMM)),
			Basis: fmt.Sprintf("%s mm - %s mm = %s mm too long", measure.FormatNumber(length, 1), measure.FormatNumber(b.LengthMM, 1), measure.FormatNumber(length-b.LengthMM, 1))}
		if p.prof.Buy {
			a.Grade, a.Buy = station.Care, fmt.Sprintf("%s, at least %s long", s.Name, p.ln(length+trimMM))
			a.Fix, a.FixBy = "buy a longer bar", "shop"
		}
		p.out.Aspects = append(p.out.Aspects, a)
		b.Text = "a longer bar is needed"
		return
	case length > b.LengthMM-trimMM:
		p.out.Aspects = append(p.out.Aspects, station.Aspect{Rule: "blank", Grade: station.Care, Got: length, HasGot: true, Limit: b.LengthMM, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("the piece of %s takes the whole bar of %s, without the trim of %s at a mill end", p.ln(length), p.ln(b.LengthMM), p.ln(trimMM)),
			Fix:  "take a longer bar, or check the mill end and its squareness", FixBy: "shop"})
	case length > b.LengthMM-trimMM-b.LastDropMM+1e-6:
		drop, least := b.LengthMM-trimMM-length, b.LengthMM-trimMM-b.LastDropMM
		p.out.Aspects = append(p.out.Aspects, station.Aspect{Rule: "blank", Grade: station.Care, Got: length, HasGot: true, Limit: least, HasLimit: true, Unit: "mm",
			Text:  fmt.Sprintf("the piece of %s leaves %s of the bar of %s, too short to be held: that takes %s", p.ln(length), p.ln(math.Round(drop*10)/10), p.ln(b.LengthMM), p.ln(b.LastDropMM)),
			Basis: fmt.Sprintf("%s mm - trim %s mm - last drop %s mm = %s mm", measure.FormatNumber(b.LengthMM, 1), measure.FormatNumber(trimMM, 1), measure.FormatNumber(b.LastDropMM, 1), measure.FormatNumber(least, 1)),
			Fix:   "hold the piece and let the short end fall, or take a longer bar", FixBy: "shop"})
	}
	b.PiecesPerBar = max(1, PiecesPerBar(b.LengthMM, b.TrimMM, b.LastDropMM, length, b.KerfMM))
	n := p.quantity()
	b.Bars = (n + b.PiecesPerBar - 1) / b.PiecesPerBar
	b.DropMM = max(0, float64(b.Bars)*(b.LengthMM-b.TrimMM)-float64(n)*(length+b.KerfMM))
	if k := s.KgPerM(p.density()); k > 0 {
		b.BarKG = k * b.LengthMM / 1000
		b.GrossKG = b.BarKG * float64(b.Bars)
	}
	b.Text = fmt.Sprintf("%s from a bar of %s: %s for %s, %s left over", count(b.PiecesPerBar, "piece"), p.ln(b.LengthMM), count(b.Bars, "bar"), count(n, "piece"), p.ln(math.Round(b.DropMM)))
}

// sawKerfMM is the width of a saw's cut; common practice, 3 mm or 1/8 in.
const sawKerfMM = 3

func (p *barPlanner) density() float64 {
	if p.job.Material == nil {
		return 0
	}
	return p.job.Material.DensityKgM3
}

func (p *barPlanner) quantity() int { return max(1, p.job.Quantity) }

// weigh works out the mass of a piece: a mitre across a section that is alike on
// both sides takes half of its height times tan of the angle off the length.
func (p *barPlanner) weigh() {
	s := &p.out.Bar.Section
	k := s.KgPerM(p.density())
	if !(k > 0) {
		return
	}
	l := p.out.Bar.LengthMM
	for _, e := range p.out.Bar.Ends {
		if e.Work == cutlist.Mitre && s.Kind != cutlist.Angle && s.Kind != cutlist.Channel && (s.SizeMM[1] == 0 || s.SizeMM[1] == s.SizeMM[0]) {
			l -= s.SizeMM[0] * math.Tan(e.AngleRad) / 2
		}
	}
	p.out.Stock.PieceNetKG = max(0, k*l/1000)
	p.out.Stock.NetKG = p.out.Stock.PieceNetKG * float64(p.quantity())
}

// lastDrop is the least end of a bar that can still be held: the reach of the
// hold-down that cuts it, else what is assumed for one.
func (p *barPlanner) lastDrop() float64 {
	for _, c := range p.out.Cuts {
		for _, m := range p.machines {
			if c.Use.Station == "shear" && m.Name == c.Use.Machine && m.Shear != nil && m.Shear.HoldDownMM > 0 {
				return m.Shear.HoldDownMM
			}
		}
	}
	pl := &planner{prof: p.prof, out: &Plan{}}
	return pl.lastDrop()
}

// steps lists the work in order: cuts first, then the ends.
func (p *barPlanner) steps() {
	for _, c := range p.out.Cuts {
		what := "shear"
		switch {
		case isProcess(c.Use):
			what = madeByStep(c.Use)
		case c.Use.Station == "end tool":
			what = "end"
		}
		if c.Use.Grade() == station.Fail {
			continue
		}
		p.out.Steps = append(p.out.Steps, Step{What: what, Features: []string{c.What}, Machine: c.Use.Machine, Station: c.Use.Station, Tool: c.Use.Tool, Hits: c.Count})
	}
}

// work counts one piece as Plan's work does, with the shop's rates.
func (p *barPlanner) work() {
	w, r := &p.out.Work, &p.prof.Rates
	w.Quantity = p.quantity()
	run := 0.0
	why := ""
	tools := map[string]bool{}
	var shears, hits int
	saws := map[string]int{}
	for _, c := range p.out.Cuts {
		switch g := c.Use.Grade(); {
		case g == station.Fail:
			why = "nothing makes the " + c.What
		case g == station.Unknown:
			why = limiting(c.Use).Text
		case isProcess(c.Use):
			saws[c.Use.Station] += c.Count
			w.Cuts += c.Count
			run += float64(c.Count) * p.processSeconds(c.Use.Station)
		case c.Use.Station == "end tool":
			w.Hits += c.Count
			hits += c.Count
			run += float64(c.Count) * r.HitMark
			tools[c.Use.Machine+c.Use.Tool] = true
		default:
			w.Cuts += c.Count
			shears += c.Count
			run += float64(c.Count) * r.CutBar
		}
		w.DeburrMM += float64(c.Count) * p.out.Bar.Section.Perimeter()
		for _, a := range c.Use.Aspects {
			if a.Buy != "" {
				w.Buy = append(w.Buy, a.Buy)
			}
		}
	}
	for _, a := range p.out.Aspects {
		if a.Grade >= station.Unknown {
			why = "no stock bar"
		}
		if a.Buy != "" {
			w.Buy = append(w.Buy, a.Buy)
		}
	}
	slices.Sort(w.Buy)
	w.Buy = slices.Compact(w.Buy)
	w.ToolChanges, w.Settings = len(tools), len(p.out.Cuts)
	last := ""
	for _, s := range p.out.Steps {
		if at := s.Machine + "\x00" + s.Station; at != last {
			w.Visits++
			last = at
		}
		if s.Machine != "" {
			w.FirstOffs = 1
		}
	}
	w.NetKG, w.GrossKG = p.out.Stock.PieceNetKG, p.out.Bar.Section.KgPerM(p.density())*p.out.Bar.LengthMM/1000
	pl := &planner{prof: p.prof}
	handling := pl.handling(w.GrossKG)
	run += float64(w.Visits) * handling
	if r.DeburrMPerMinute > 0 {
		run += w.DeburrMM / 1000 / r.DeburrMPerMinute * 60
	}
	if w.Why = why; why != "" {
		return
	}
	set := float64(w.ToolChanges)*r.PunchChange + float64(w.Settings)*r.Setting + float64(w.FirstOffs)*r.FirstOff
	av := availability(r)
	w.Known = true
	w.SetUpMinutes, w.MinutesEach = set/av/60, run/av/60
	w.MinutesTotal = w.SetUpMinutes + float64(w.Quantity)*w.MinutesEach
	say := func(format string, args ...any) { w.Assumptions = append(w.Assumptions, fmt.Sprintf(format, args...)) }
	if b := &p.out.Stock; b.PiecesPerBar > 0 {
		say("trim of %s a bar, last drop %s, kerf %s: not in the minutes", p.ln(b.TrimMM), p.ln(b.LastDropMM), p.ln(b.KerfMM))
	}
	if shears > 0 {
		say("%s a cut off a bar", seconds(r.CutBar))
	}
	for _, kind := range []string{"saw", "thermal"} {
		if saws[kind] > 0 {
			say("%s %s", seconds(p.processSeconds(kind)), map[string]string{"saw": "a saw cut", "thermal": "a cut made thermally"}[kind])
		}
	}
	if hits > 0 {
		say("%s an end worked", seconds(r.HitMark))
	}
	say("%s at %s", count(w.Settings, "setting"), seconds(r.Setting))
	say("%s at %s", count(w.Visits, "station visit"), seconds(handling))
	if r.DeburrMPerMinute > 0 {
		say("%s m of burr at %s m a minute", measure.FormatNumber(w.DeburrMM/1000, 2), measure.FormatNumber(r.DeburrMPerMinute, 1))
	}
	say("at work %d %% of the time", int(math.Round(100*av)))
}

func (p *barPlanner) processSeconds(kind string) float64 {
	pl := &planner{prof: p.prof}
	return pl.processSeconds(kind)
}
