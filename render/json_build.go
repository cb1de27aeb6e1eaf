package render

import (
	"fmt"
	"math"

	"burrside/check"
	"burrside/check/plan"
	"burrside/features"
	"burrside/features/geom"
)

func drawingJSON(rep *check.Report) *jsonDrawing {
	d := &jsonDrawing{
		Format: jsonFormat, Drawing: rep.Drawing, Verdict: verdictJSON(rep.Verdict),
		Units: jsonUnits{Name: "mm", From: jsonUnitsFrom(features.UnitsUnknown), Evidence: []jsonEvidence{}},
		Code:  orNull(rep.Code), Parts: []jsonPart{}, Findings: []jsonFinding{}, Skipped: skippedJSON(rep.Skipped),
		Loose: []jsonLoose{}, Notes: []jsonNote{}, Ignored: []jsonIgnored{}, Disclaimer: disclaimer, ShopIs: "none",
	}
	if rep.Shop != nil {
		d.Shop, d.ShopIs = rep.Shop.Name, "given"
		if rep.Shop.BuiltIn {
			d.ShopIs = "example"
		}
	}
	src := sourcer{rep.Sheet}
	for i := range rep.Findings {
		d.Findings = append(d.Findings, findingJSON(&rep.Findings[i], src))
	}
	if rep.Sheet != nil {
		sheetJSON(d, rep.Sheet, src)
	}
	if l := rep.List; l != nil && l.Unit != "" {
		d.Units.Name = string(l.Unit)
		switch l.UnitFrom {
		case "heading":
			d.Units.From = jsonUnitsFrom(features.UnitsText)
		case "asked":
			d.Units.From = jsonUnitsFrom(features.UnitsFlag)
		default:
			d.Units.From = unitsFromShop
		}
	}
	if rep.Err != nil {
		d.Error = &jsonError{Text: rep.Err.Error()}
		if rep.ErrLine > 0 {
			line := rep.ErrLine
			d.Error.Line = &line
		}
		return d // an unreadable drawing has no parts, whatever was read before
	}
	for _, p := range rep.Parts {
		d.Parts = append(d.Parts, partJSON(p, src))
	}
	d.List = listJSON(rep)
	for _, r := range rep.Readings {
		j := jsonReading{Unit: r.Unit, UnitMM: known(r.MM), Verdict: verdictJSON(r.Verdict), Parts: []jsonReadingPart{}}
		for _, p := range r.Parts {
			b := partBox(p.Part)
			jp := jsonReadingPart{Name: p.Part.Name, BoxMM: jsonAt(b.Width, b.Height), Verdict: verdictJSON(p.Verdict), Reason: p.Reason,
				Limits: limitsJSON(p.Limits), Findings: []jsonFinding{}}
			for i := range p.Findings {
				jp.Findings = append(jp.Findings, findingJSON(&p.Findings[i], src))
			}
			j.Parts = append(j.Parts, jp)
		}
		d.Readings = append(d.Readings, j)
	}
	return d
}

func limitsJSON(l []check.Limit) []jsonLimit {
	out := []jsonLimit{}
	for _, v := range l {
		out = append(out, jsonLimit{Material: v.Material, ThicknessMM: round4(v.ThicknessMM), Verdict: verdictJSON(v.Verdict),
			StoppedBy: orNull(v.StoppedBy), Features: list(v.Features), Text: v.Text})
	}
	return out
}

// verdictJSON is the verdict; one that was never set is no pass.
func verdictJSON(v check.Verdict) jsonVerdict {
	if v == "" {
		v = check.CannotTell
	}
	return jsonVerdict(v)
}

func sheetJSON(d *jsonDrawing, s *features.Sheet, src sourcer) {
	u := &s.Units
	if u.Name != "" {
		d.Units.Name = u.Name
	}
	if u.From != "" {
		d.Units.From = jsonUnitsFrom(u.From)
	}
	if u.From == features.UnitsInferred {
		d.Units.Confidence = stated(u.Confidence)
	}
	if u.Doubt {
		d.Units.Doubt, d.Units.Other = true, u.Other
	}
	for _, e := range u.Evidence {
		d.Units.Evidence = append(d.Units.Evidence, jsonEvidence{What: e.What, For: e.For, Weight: stated(e.Weight)})
	}
	for _, l := range s.Loose {
		d.Loose = append(d.Loose, jsonLoose{AtMM: []jsonPoint{jsonAt(l.From.X, l.From.Y), jsonAt(l.To.X, l.To.Y)},
			GapMM: stated(l.GapMM), LengthMM: known(l.LengthMM), Holes: l.Holes, Source: src.list(l.Source)})
	}
	for i := range s.Notes {
		n := &s.Notes[i]
		j := jsonNote{Code: n.Code, Count: max(1, n.Count), Text: n.Text, Source: src.list(n.Source)}
		if n.HasAt {
			j.AtMM = pointJSON(n.At)
		}
		d.Notes = append(d.Notes, j)
	}
	for _, f := range s.Title {
		d.Title = append(d.Title, jsonTitle{Field: f.Field, Text: f.Text, AtMM: pointJSON(f.At)})
	}
	for _, g := range s.Ignored {
		d.Ignored = append(d.Ignored, jsonIgnored{What: g.What, Count: g.Count})
	}
	d.Tolerances = &jsonTolerances{SnapMM: known(s.SnapMM), BridgeMM: known(s.BridgeMM), ArcMM: known(s.ArcDevMM)}
}

func partJSON(p *check.PartReport, src sourcer) jsonPart {
	b := partBox(p.Part)
	j := jsonPart{
		Name: p.Part.Name, Form: string(p.Part.Form), Copies: max(1, p.Part.Copies()),
		Quantity: knownInt(wanted(p)), BoxMM: jsonAt(b.Width, b.Height),
		ThicknessMM: known(p.Job.ThicknessMM), AreaMM2: knownArea(p.Part.AreaMM2), PerimeterMM: known(p.Part.PerimeterMM),
		Material: p.Job.MaterialName, Verdict: verdictJSON(p.Verdict), Reason: p.Reason,
		Machines: []jsonMachine{}, Limits: limitsJSON(p.Limits), Features: []jsonFeature{}, Patterns: []jsonPattern{},
		Findings: []jsonFinding{}, Skipped: skippedJSON(p.Skipped), Suppressed: []jsonSuppressed{}, DrawnAt: []jsonPlacement{},
		Route: []jsonStep{}, Doubts: []jsonDoubt{}, CallOuts: []jsonCallOut{}, Questions: list(p.Questions), Cautions: list(p.Cautions),
		Source: []jsonPlace{},
	}
	if len(j.Cautions) > 4 {
		j.Cautions = j.Cautions[:4]
	}
	if j.Form == "" {
		j.Form = string(features.FormFlat)
	}
	if j.Quantity != nil {
		j.QuantityFrom = p.Job.QuantityFrom
	}
	if j.ThicknessMM != nil {
		j.ThicknessFrom = p.Job.ThicknessFrom
	}
	if p.Job.Material != nil && j.Material == "" {
		j.Material = p.Job.Material.Name
	}
	if j.Material != "" {
		has := p.Job.Material != nil
		j.MaterialKnown, j.MaterialFrom = &has, p.Job.MaterialFrom
	}
	if t, m := p.Job.ThicknessMM, p.Job.Material; t > 0 && m != nil && m.DensityKgM3 > 0 {
		j.MassKG = known(p.Part.AreaMM2 * t * m.DensityKgM3 / 1e9) // mm3 to m3
	}
	for _, t := range p.Part.Patterns {
		pt := jsonPattern{Kind: t.Kind, Members: list(t.Members), PitchMM: []float64{}}
		for _, v := range t.PitchMM {
			pt.PitchMM = append(pt.PitchMM, round4(v))
		}
		j.Patterns = append(j.Patterns, pt)
	}
	for i := range p.Findings {
		j.Findings = append(j.Findings, findingJSON(&p.Findings[i], src))
	}
	for i := range p.Changes {
		j.Changes = append(j.Changes, changeJSON(&p.Changes[i]))
	}
	for _, s := range p.Suppressed {
		j.Suppressed = append(j.Suppressed, jsonSuppressed{Rule: s.Rule, Features: list(s.Features), By: s.By})
	}
	for _, a := range p.Part.DrawnAt {
		j.DrawnAt = append(j.DrawnAt, jsonPlacement{OriginMM: jsonAt(a.Origin.X, a.Origin.Y), AngleDeg: degrees(a.AngleRad), Mirrored: a.Mirrored})
	}
	for _, d := range p.Part.Doubts {
		j.Doubts = append(j.Doubts, jsonDoubt{Code: d.Code, Grave: d.Grave, AtMM: pointJSON(d.At), Text: d.Text, Source: src.list(d.Source)})
	}
	for _, c := range p.Part.CallOuts {
		j.CallOuts = append(j.CallOuts, jsonCallOut{Text: c.Text, AtMM: pointJSON(c.At), Count: knownInt(c.Count), DiameterMM: known(c.DiameterMM),
			Process: c.Process, Features: list(c.Features), Source: src.list(c.Source)})
	}
	var own []features.Source
	for _, s := range p.Part.OutlineSource {
		own = append(own, s...)
	}
	j.Source = src.list(own)
	origin, angle := datumOf(p)
	j.Datum = &jsonDatum{AtMM: jsonAt(origin.X, origin.Y), AngleDeg: degrees(angle)}
	if p.Plan != nil {
		planJSON(&j, p.Plan)
	}
	featuresJSON(&j, p, src, origin, angle)
	angleJSON(&j, p)
	placesJSON(&j, p)
	return j
}

func planJSON(j *jsonPart, pl *plan.Plan) {
	if b := &pl.Blank; b.Form != "" {
		j.Blank = &jsonBlank{Form: b.Form, Assumed: b.Assumed, Stock: b.Stock, Text: b.Text, AngleDeg: degrees(b.AngleRad)}
		if b.LengthMM > 0 && b.WidthMM > 0 {
			size := jsonAt(b.LengthMM, b.WidthMM)
			j.Blank.SizeMM, j.Blank.AreaMM2 = &size, knownArea(b.LengthMM*b.WidthMM)
		}
	}
	for _, m := range pl.Machines {
		jm := jsonMachine{Name: m.Name, Verdict: verdictJSON(check.VerdictOf(m.Grade))}
		if m.Limiting.Rule != "" {
			jm.Limiting = &jsonLimiting{Rule: m.Limiting.Rule, Features: list(m.Features), Share: known(m.Share)}
		}
		j.Machines = append(j.Machines, jm)
	}
	for i, s := range pl.Steps {
		j.Route = append(j.Route, jsonStep{Step: i + 1, What: s.What, Features: list(s.Features), Machine: orNull(s.Machine),
			Station: orNull(s.Station), Tool: orNull(s.Tool), Hits: knownInt(s.Hits)})
	}
	j.Work = workOf(&pl.Work)
}

// workOf is a plan's work; counts are given only where all of it is known.
func workOf(w *plan.Work) *jsonWork {
	jw := &jsonWork{Known: w.Known, Why: w.Why, Assumptions: list(w.Assumptions), Buy: list(w.Buy), GrossKG: known(w.GrossKG),
		NetKG: known(w.NetKG), Quantity: knownInt(w.Quantity)}
	if w.Known {
		// A part of the counts would read as all of them: none is given
		// unless all are known.
		jw.Hits, jw.Bites, jw.Cuts, jw.Bends = statedInt(w.Hits), statedInt(w.Bites), statedInt(w.Cuts), statedInt(w.Bends)
		jw.ToolChanges, jw.Settings, jw.FirstOffs = statedInt(w.ToolChanges), statedInt(w.Settings), statedInt(w.FirstOffs)
		jw.Turns, jw.Visits, jw.DeburrMM = statedInt(w.Turns), statedInt(w.Visits), stated(w.DeburrMM)
		jw.SetUpMinutes, jw.MinutesEach, jw.MinutesTotal = stated(w.SetUpMinutes), stated(w.MinutesEach), stated(w.MinutesTotal)
	}
	return jw
}

// datumOf is the corner of the blank with the least u and v, u along the
// blank's length; without a blank the bottom left of the part's box.
func datumOf(p *check.PartReport) (geom.Point, float64) {
	b := partBox(p.Part)
	if p.Plan == nil || p.Plan.Blank.Corners == [4]geom.Point{} {
		return geom.Point{X: b.MinX, Y: b.MinY}, 0
	}
	angle := p.Plan.Blank.AngleRad
	cos, sin := math.Cos(angle), math.Sin(angle)
	u, v := math.Inf(1), math.Inf(1)
	for _, c := range p.Plan.Blank.Corners {
		u = min(u, float64(c.X*cos)+float64(c.Y*sin))
		v = min(v, float64(c.Y*cos)-float64(c.X*sin))
	}
	return geom.Point{X: float64(u*cos) - float64(v*sin), Y: float64(u*sin) + float64(v*cos)}, angle
}

func featuresJSON(j *jsonPart, p *check.PartReport, src sourcer, origin geom.Point, angle float64) {
	verdict := map[string]check.Severity{}
	for _, v := range p.Features {
		verdict[v.ID] = v.Verdict
	}
	makes := map[int]*plan.Make{}
	if p.Plan != nil {
		for i := range p.Plan.Makes {
			makes[p.Plan.Makes[i].Feature] = &p.Plan.Makes[i]
		}
	}
	cos, sin := math.Cos(angle), math.Sin(angle)
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		jf := featureJSON(f)
		dx, dy := f.At.X-origin.X, f.At.Y-origin.Y
		jf.UMM = stated(float64(dx*cos) + float64(dy*sin))
		jf.VMM = stated(float64(dy*cos) - float64(dx*sin))
		if s := verdict[f.ID]; s != "" {
			js := jsonSeverity(s)
			jf.Verdict = &js
		}
		if m := makes[i]; m != nil {
			makeJSON(&jf, m)
		}
		jf.Source = src.list(f.Source)
		j.Features = append(j.Features, jf)
	}
}

// featureJSON is what the drawing shows of a feature; each kind has the numbers
// that are its own.
func featureJSON(f *features.Feature) jsonFeature {
	j := jsonFeature{
		ID: f.ID, Kind: jsonKind(f.Kind), AtMM: jsonAt(f.At.X, f.At.Y), DiameterMM: known(f.DiameterMM), SeatMM: known(f.SeatMM),
		WidthMM: known(f.WidthMM), LengthMM: known(f.LengthMM), CutLengthMM: known(f.CutLengthMM), DepthMM: known(f.DepthMM),
		RadiusMM: known(f.RadiusMM), BottomWidthMM: known(f.BottomMM), CornerRadiusMM: known(f.CornerRadiusMM),
		Sides: knownInt(f.Sides), AcrossFlatsMM: known(f.AcrossFlatsMM), AreaMM2: knownArea(f.AreaMM2), PerimeterMM: known(f.PerimeterMM),
		Shape: jsonShape(f.Shape), Subkind: f.Subkind, Relief: f.Relief, In: f.In, Undercut: f.Undercut, ShapeOfPart: f.ShapeOfPart,
		CrossesOutline: f.CrossesOutline, Fitted: f.Fitted, Note: f.Note, Process: f.Process, BoltDesignation: f.BoltDesignation,
		MadeBy: "unknown", Tried: []jsonTried{},
	}
	switch f.Kind {
	case features.Slot, features.RectangularHole, features.Cutout, features.CurvedSlot:
		j.AngleDeg = degrees(f.AngleRad) // 0 is along x, and known
	case features.StraightCut:
		j.AngleDeg, j.MetalLengthMM = degrees(f.AngleRad), known(f.LengthMM)
		j.FromMM, j.ToMM = pointJSON(f.From), pointJSON(f.To)
	case features.Bend:
		j.FromMM, j.ToMM = pointJSON(f.From), pointJSON(f.To)
		j.BentTo = f.BentTo
		if f.BentRad > 0 {
			j.BentDeg = degrees(f.BentRad)
		}
	case features.Notch:
		j.OpenAtMM = []jsonPoint{jsonAt(f.Mouth[0].X, f.Mouth[0].Y), jsonAt(f.Mouth[1].X, f.Mouth[1].Y)}
		if f.Shape == features.NotchVee && f.IncludedRad > 0 {
			j.AngleDeg, j.IncludedDeg = degrees(f.IncludedRad), degrees(f.IncludedRad)
		}
		for _, s := range f.Steps {
			j.Steps = append(j.Steps, jsonAt(s[0], s[1]))
		}
	}
	if f.Long[0] > 0 && f.Long[1] > 0 {
		legs := jsonAt(f.Long[0], f.Long[1])
		j.LegsMM = &legs
	}
	if (f.Kind == features.CurvedSlot || f.Kind == features.ArcCut || f.Kind == features.CornerRadius) && f.SweepRad != 0 {
		j.SweepDeg = degrees(math.Abs(f.SweepRad))
	}
	return j
}

func makeJSON(j *jsonFeature, m *plan.Make) {
	if m.MadeBy != "" {
		j.MadeBy = jsonMadeBy(m.MadeBy)
	}
	j.Machine, j.Station, j.Tool = orNull(m.Use.Machine), orNull(m.Use.Station), orNull(m.Use.Tool)
	j.Die, j.Holder = m.Use.Die, m.Use.Holder
	if j.MadeBy != "nothing" && j.MadeBy != "unknown" {
		j.Hits, j.ForceKN, j.LimitKN, j.Share = knownInt(m.Use.Hits), known(m.Use.ForceKN), known(m.Use.LimitKN), known(m.Use.Share)
	}
	if u := m.Before; u != nil {
		j.Before = &jsonBefore{Machine: orNull(u.Machine), Station: orNull(u.Station), Tool: orNull(u.Tool), Die: u.Die}
	}
	j.AfterCuts = m.AfterCuts
	for i := range m.Tried {
		u := &m.Tried[i]
		t := jsonTried{Machine: u.Machine, Station: u.Station, Tool: u.Tool, Verdict: verdictJSON(check.VerdictOf(u.Grade())), Share: known(u.Share)}
		for _, a := range u.Aspects {
			if a.Grade == u.Grade() && t.Verdict != jsonVerdict(check.Fits) {
				t.StoppedBy, t.Text = orNull(a.Rule), a.Text
				break
			}
		}
		j.Tried = append(j.Tried, t)
	}
}

func findingJSON(f *check.Finding, src sourcer) jsonFinding {
	j := jsonFinding{
		Rule: f.Rule, Severity: jsonSeverity(f.Severity), Features: list(f.Features), Count: max(1, f.Count, len(f.Features)),
		Machine: orNull(f.Machine), Station: orNull(f.Station), Tool: orNull(f.Tool), Who: f.Who, Got: quantityJSON(f.Got),
		Limit: quantityJSON(f.Limit), Tried: f.Tried, Message: f.Message, Basis: f.Basis, Fix: f.Fix, FixBy: f.FixBy, CannotTell: f.CannotTell,
		Sources: list(f.Sources), Source: src.list(f.Source),
	}
	if f.HasAt {
		j.AtMM = pointJSON(f.At)
	}
	if f.To != nil {
		j.ToMM = pointJSON(*f.To)
	}
	return j
}

func quantityJSON(q *check.Quantity) *jsonQuantity {
	if q == nil || !finite(q.Value) {
		return nil
	}
	return &jsonQuantity{Value: round4(q.Value), Unit: q.Unit}
}

func pointJSON(p geom.Point) *jsonPoint {
	if !finite(p.X) || !finite(p.Y) {
		return nil
	}
	j := jsonAt(p.X, p.Y)
	return &j
}

func skippedJSON(l []check.Skipped) []jsonSkipped {
	out := []jsonSkipped{}
	for _, s := range l {
		out = append(out, jsonSkipped(s))
	}
	return out
}

// sourcer turns a Source into the line, handle, layer and block of its entity.
type sourcer struct{ sheet *features.Sheet }

func (s sourcer) list(l []features.Source) []jsonPlace {
	out := []jsonPlace{}
	if s.sheet == nil {
		return out
	}
	seen := map[int32]bool{}
	for _, v := range l {
		if seen[v.Entity] || v.Entity < 0 || int(v.Entity) >= len(s.sheet.Entities) {
			continue
		}
		seen[v.Entity] = true
		e := &s.sheet.Entities[v.Entity]
		j := jsonPlace{Layer: e.Layer, Block: list(e.Block)}
		if e.Line > 0 {
			line := e.Line
			j.Line = &line
		}
		if e.Handle != 0 {
			j.Handle = fmt.Sprintf("%X", e.Handle)
		}
		out = append(out, j)
	}
	return out
}
