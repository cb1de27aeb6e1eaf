package render

import (
	"errors"
	"fmt"
	"math"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

// The reports below are put together by hand: every drawing, number and
// message is invented, so that these tests need nothing of the floors below.

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func line(a, b geom.Point) geom.Edge { return geom.Edge{From: a, To: b} }

func circle(c geom.Point, d float64) geom.Ring {
	s := pt(c.X+d/2, c.Y)
	return geom.Ring{{From: s, To: s, Centre: c, Radius: d / 2, CCW: true}}
}

func polygon(pts ...geom.Point) geom.Ring {
	var r geom.Ring
	for i := range pts {
		r = append(r, line(pts[i], pts[(i+1)%len(pts)]))
	}
	return r
}

func rect(x0, y0, x1, y1 float64) geom.Ring {
	return polygon(pt(x0, y0), pt(x1, y0), pt(x1, y1), pt(x0, y1))
}

// obround is a slot ring of overall length l and width w along angle a.
func obround(c geom.Point, w, l, a float64) geom.Ring {
	d := pt(math.Cos(a), math.Sin(a))
	n := pt(-d.Y, d.X)
	h := (l - w) / 2
	c1, c2 := pt(c.X+d.X*h, c.Y+d.Y*h), pt(c.X-d.X*h, c.Y-d.Y*h)
	r := w / 2
	p := func(c geom.Point, s float64) geom.Point { return pt(c.X+n.X*r*s, c.Y+n.Y*r*s) }
	return geom.Ring{
		line(p(c2, -1), p(c1, -1)), {From: p(c1, -1), To: p(c1, 1), Centre: c1, Radius: r, CCW: true},
		line(p(c1, 1), p(c2, 1)), {From: p(c2, 1), To: p(c2, -1), Centre: c2, Radius: r, CCW: true},
	}
}

// partBuilder puts a part together feature by feature.
type partBuilder struct {
	p *features.Part
	n map[string]int
}

func newPart(name string, outline geom.Ring) *partBuilder {
	b, _ := edgesBox(outline)
	return &partBuilder{n: map[string]int{}, p: &features.Part{
		Name: name, Form: features.FormFlat, Outline: outline,
		Box:     geom.Box{Min: pt(b.MinX, b.MinY), Max: pt(b.MaxX, b.MaxY)},
		AreaMM2: (b.MaxX - b.MinX) * (b.MaxY - b.MinY), PerimeterMM: 2 * (b.MaxX - b.MinX + b.MaxY - b.MinY),
		DrawnAt: []features.Placement{{Origin: pt(b.MinX, b.MinY)}}, Clean: true,
	}}
}

func (b *partBuilder) add(letter string, f features.Feature) string {
	b.n[letter]++
	f.ID = fmt.Sprintf("%s%d", letter, b.n[letter])
	if f.Ring != nil && f.Kind != features.Notch {
		f.Hole = len(b.p.Holes)
		b.p.Holes = append(b.p.Holes, f.Ring)
	} else {
		f.Hole = -1
	}
	f.Source = []features.Source{{Entity: int32(len(b.p.Features) % 3)}}
	b.p.Features = append(b.p.Features, f)
	return f.ID
}

func (b *partBuilder) hole(x, y, d float64) string {
	return b.add("H", features.Feature{Kind: features.RoundHole, At: pt(x, y), DiameterMM: d, Ring: circle(pt(x, y), d),
		AreaMM2: math.Pi * d * d / 4, PerimeterMM: math.Pi * d})
}

func (b *partBuilder) slot(x, y, w, l, a float64) string {
	return b.add("S", features.Feature{Kind: features.Slot, At: pt(x, y), WidthMM: w, LengthMM: l, AngleRad: a, Ring: obround(pt(x, y), w, l, a)})
}

func (b *partBuilder) cut(i int, length float64) string {
	e := b.p.Outline[i]
	return b.add("E", features.Feature{Kind: features.StraightCut, At: pt((e.From.X+e.To.X)/2, (e.From.Y+e.To.Y)/2),
		LengthMM: length, CutLengthMM: length, Edges: []int{i}, From: e.From, To: e.To})
}

func (b *partBuilder) bend(a, c geom.Point) string {
	return b.add("B", features.Feature{Kind: features.Bend, At: pt((a.X+c.X)/2, (a.Y+c.Y)/2), LengthMM: math.Sqrt((a.X-c.X)*(a.X-c.X) + (a.Y-c.Y)*(a.Y-c.Y)),
		From: a, To: c, Open: geom.Ring{line(a, c)}})
}

func exampleShop() *shop.Profile {
	return &shop.Profile{Name: "Alder Ford Footbridge Works", BuiltIn: true, Units: "mm", Default: "mild",
		Machines: []shop.Machine{{Name: "north bay"}, {Name: "south bay"}}}
}

func mild() *shop.Material {
	return &shop.Material{Name: "S275", Group: "mild", ShearMPa: 345, ShearUpperMPa: 415, DensityKgM3: 7850, Punchable: true}
}

// judged makes a report of one part with a plan in which the punch makes each
// hole and the stock or the shear each edge.
func judged(file string, p *features.Part, t float64, findings ...check.Finding) *check.Report {
	pr := &check.PartReport{Part: p, Findings: findings,
		Job:     plan.Job{ThicknessMM: t, ThicknessFrom: "text", Material: mild(), MaterialName: "S275", MaterialFrom: "text", Quantity: 4, QuantityFrom: "flag"},
		Skipped: []check.Skipped{{Rule: "edge-distance", Why: "no code chosen"}, {Rule: "hole-pitch", Why: "no code chosen"}},
	}
	b := partBox(p)
	pl := &plan.Plan{Part: p, Blank: plan.Blank{Form: "bar", WidthMM: b.Height, LengthMM: b.Width, Stock: "flat",
		Text:    fmt.Sprintf("flat bar %s x %s mm, cut to %s mm", measure.FormatNumber(b.Height, 1), measure.FormatNumber(t, 1), measure.FormatNumber(b.Width, 1)),
		Corners: [4]geom.Point{pt(b.MinX, b.MinY), pt(b.MaxX, b.MinY), pt(b.MaxX, b.MaxY), pt(b.MinX, b.MaxY)}}}
	hits := 0
	for i := range p.Features {
		m := plan.Make{Feature: i}
		switch f := &p.Features[i]; {
		case f.IsInside():
			hits++
			m.MadeBy = "punch"
			m.Use = station.Use{Machine: "north bay", Station: "punch", Tool: "Ø" + measure.FormatNumber(f.DiameterMM+f.WidthMM, 1), Die: "Ø" + measure.FormatNumber(f.DiameterMM+f.WidthMM+1.2, 1), Hits: 1, ForceKN: 238.5, LimitKN: 540, Share: 0.4417}
			m.Tried = []station.Use{{Machine: "south bay", Station: "punch", Hits: 1, Aspects: []station.Aspect{{Rule: "tool", Grade: station.Fail, Text: "no holder takes it"}}}}
		case f.Kind == features.StraightCut && i%2 == 0:
			m.MadeBy = "stock"
		case f.Kind == features.Notch:
			m.MadeBy = "notch"
			m.Use = station.Use{Machine: "south bay", Station: "notcher", Tool: "80 x 60", Hits: 1}
		case f.Kind == features.Bend:
			m.MadeBy = "unknown"
		case f.Kind == features.Mark:
			m.MadeBy = "unknown"
		default:
			m.MadeBy = "shear"
			m.Use = station.Use{Machine: "north bay", Station: "shear", Hits: 1}
		}
		pl.Makes = append(pl.Makes, m)
	}
	pl.Steps = []plan.Step{{What: "shear", Features: []string{"E2"}, Machine: "north bay", Station: "shear"}, {What: "punch", Features: []string{"H1"}, Machine: "north bay", Station: "punch", Tool: "Ø22", Hits: hits}}
	pl.Work = plan.Work{Hits: hits, Cuts: 2, ToolChanges: 1, Settings: 2, SetUpMinutes: 5, MinutesEach: 1.8, MinutesTotal: 12.2, Quantity: 4,
		GrossKG: 2.4, NetKG: 2.2, Known: true, Assumptions: []string{"hits against a stop, 8 s each", "availability 80 %"}}
	pl.Machines = []plan.MachineUse{{Name: "north bay", Grade: station.OK, Limiting: station.Aspect{Rule: "punch-force"}, Features: []string{"H1"}, Share: 0.4417},
		{Name: "south bay", Grade: station.Fail, Limiting: station.Aspect{Rule: "tool"}, Features: []string{"H1"}}}
	pr.Plan = pl
	worst := check.Fits
	fv := map[string]check.Severity{}
	for _, f := range findings {
		switch {
		case f.Severity == check.Error:
			worst = check.DoesNotFit
			if pr.Reason == "" {
				pr.Reason = ruleWords(f.Rule) + " on " + idList(f.Features)
			}
		case f.CannotTell && worst != check.DoesNotFit:
			worst = check.CannotTell
			pr.Reason = ruleWords(f.Rule)
		case f.Severity == check.Warning && worst == check.Fits:
			worst = check.WithCare
		}
		for _, id := range f.Features {
			if s, ok := fv[id]; !ok || severityRank(f.Severity) < severityRank(s) {
				fv[id] = f.Severity
			}
		}
	}
	for i := range p.Features {
		pr.Features = append(pr.Features, check.FeatureVerdict{ID: p.Features[i].ID, Verdict: fv[p.Features[i].ID]})
	}
	pr.Verdict = worst
	return &check.Report{Drawing: file, Shop: exampleShop(), Verdict: worst, Parts: []*check.PartReport{pr},
		Sheet: &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsHeader},
			Entities: []features.EntityInfo{{Line: 912, Handle: 0x3A, Layer: "CUT", Kind: "CIRCLE"}, {Line: 40, Layer: "CUT", Kind: "LINE", Block: []string{"A", "B"}}, {Line: 1200, Handle: 0x1F, Layer: "0", Kind: "LWPOLYLINE"}},
			Notes:    []features.Note{{Code: "gap-closed", At: pt(0, 0), HasAt: true, Count: 1, Text: "a gap of 0.02 mm was closed", Source: []features.Source{{Entity: 1}}}},
			Ignored:  []features.Ignored{{What: "dimension", Count: 5}, {What: "text", Count: 3}}, SnapMM: 0.001, BridgeMM: 0.5, ArcDevMM: 0.01}}
}

func finding(rule string, sev check.Severity, got, limit float64, unit, msg, fix string, ids ...string) check.Finding {
	return check.Finding{Rule: rule, Severity: sev, Features: ids, Count: max(1, len(ids)), Got: &check.Quantity{Value: got, Unit: unit},
		Limit: &check.Quantity{Value: limit, Unit: unit}, Message: msg, Fix: fix, FixBy: "shop", Who: "shop",
		Sources: []string{"common practice, no source"}, Basis: "the sum of the case", Source: []features.Source{{Entity: 0}}}
}

func (b *partBuilder) at(id string) geom.Point {
	for i := range b.p.Features {
		if b.p.Features[i].ID == id {
			return b.p.Features[i].At
		}
	}
	panic("no such feature")
}

func span(f check.Finding, a, b geom.Point) check.Finding {
	f.At, f.HasAt, f.To = a, true, &b
	return f
}

func place(f check.Finding, a geom.Point) check.Finding {
	f.At, f.HasAt = a, true
	return f
}

// plateReport: a plate of 200 x 140 with four holes, one too near the edge.
func plateReport() *check.Report {
	b := newPart("g7", rect(0, 0, 200, 140))
	h1, h2 := b.hole(20, 100, 22), b.hole(40, 40, 22)
	h3, h4 := b.hole(160, 40, 22), b.hole(160, 100, 26)
	for i, l := range []float64{200, 140, 200, 140} {
		b.cut(i, l)
	}
	f := finding("edge-distance", check.Error, 20, 26.4, "mm", "hole Ø22 mm is 20 mm from the edge", "would the designer accept a plate 207 mm long?", h1)
	f.FixBy, f.Who, f.Sources = "drawing", "designer", []string{"EN 1993-1-8:2005 Table 3.3"}
	g := finding("punch-force", check.Warning, 573.7, 540, "kN", "tight: at the upper strength it needs 573.7 kN of 540 kN", "punch it on south bay", h4)
	g.Machine, g.Station = "north bay", "punch"
	n := finding("die-clearance", check.Note, 11.7, 12, "%", "die Ø24.2 gives 11.7 %", "", h2, h3)
	r := judged("g7.dxf", b.p, 10, span(f, b.at(h1), pt(0, 100)), place(g, b.at(h4)), place(n, b.at(h2)))
	r.Code = "EN 1993-1-8:2005"
	r.Parts[0].Cautions = []string{"keep hands clear of the stripper", "two people lift the bar"}
	r.Parts[0].Suppressed = []check.Suppressed{{Rule: "punch-ratio", Features: []string{h1}, By: "thickness-missing"}}
	b.p.Patterns = []features.Pattern{{Kind: "row", Members: []string{h2, h3}, PitchMM: []float64{120}}}
	return r
}

// strapReport: a strap of 3000 x 40 with a row of holes.
func strapReport() *check.Report {
	b := newPart("strap", rect(0, 0, 3000, 40))
	var ids []string
	for i := range 15 {
		ids = append(ids, b.hole(100+float64(i)*200, 20, 14))
	}
	b.cut(0, 3000)
	b.cut(1, 40)
	s := finding("strap", check.Warning, 1.4, 1.2, "", "the strap bends when stripped", "use a stripper that supports it around the hole", ids...)
	e := finding("web", check.Error, 5, 6, "mm", "5 mm of metal to the edge", "move to the drill", ids[3])
	return judged("long strap with a rather long file name, revision B (as sent by the customer).dxf", b.p, 12,
		span(e, pt(700, 13), pt(700, 0)), place(s, b.at(ids[0])))
}

// clipReport: a clip of 15 x 10 with one hole.
func clipReport() *check.Report {
	b := newPart("clip", rect(0, 0, 15, 10))
	h := b.hole(7.5, 5, 5)
	b.cut(0, 15)
	f := finding("small-part", check.Warning, 15, 100, "mm", "shorter than 100 mm both ways", "punch on the bar before cutting off", h)
	w := finding("web", check.Warning, 2.5, 3, "mm", "2.5 mm of metal to the edge", "punch before cutting off", h)
	r := judged("clip.dxf", b.p, 3, place(f, pt(7.5, 5)), span(w, pt(7.5, 2.5), pt(7.5, 0)))
	r.Parts[0].Cautions = []string{"small part: fingers stay 75 mm away from the tool"}
	return r
}

// gridReport: a plate of 200 holes, all too small for its thickness.
func gridReport() *check.Report {
	b := newPart("grid", rect(0, 0, 420, 220))
	var ids []string
	for y := range 10 {
		for x := range 20 {
			ids = append(ids, b.hole(20+float64(x)*20, 20+float64(y)*20, 8))
		}
	}
	b.cut(0, 420)
	f := finding("punch-ratio", check.Error, 8, 10, "mm", "hole Ø8 mm in 10 mm", "drill them", ids...)
	g := finding("tool", check.Warning, 8, 8, "mm", "no punch Ø8 on the rack", "buy punch Ø8 with die Ø9.2", ids...)
	n := finding("web", check.Warning, 9, 10, "mm", "9 mm of metal between holes", "punch every second hole first", ids[40:60]...)
	return judged("grid.dxf", b.p, 10, place(f, b.at(ids[0])), place(g, b.at(ids[0])), span(n, pt(24, 60), pt(36, 60)))
}

// manyReport: 40 different findings of three rules on a plate of 40 holes.
func manyReport() *check.Report {
	b := newPart("many", rect(0, 0, 500, 260))
	var fs []check.Finding
	rules := []string{"web", "throat-reach", "die-clearance"}
	for i := range 40 {
		x, y := 25+float64(i%10)*50, 40+float64(i/10)*60
		id := b.hole(x, y, 12+float64(i%7))
		sev := []check.Severity{check.Error, check.Warning, check.Note}[i%3]
		fs = append(fs, place(finding(rules[i%3], sev, float64(i), float64(i)+1, "mm", fmt.Sprintf("cause number %d", i), "do something about it", id), pt(x, y)))
	}
	return judged("many.dxf", b.p, 8, fs...)
}

// ringReport: a ring with a bolt circle.
func ringReport() *check.Report {
	b := newPart("ring", circle(pt(1000, 1000), 300))
	b.add("C", features.Feature{Kind: features.RoundHole, At: pt(1000, 1000), DiameterMM: 180, Ring: circle(pt(1000, 1000), 180)})
	var ids []string
	for i := range 8 {
		a := float64(i) * math.Pi / 4
		ids = append(ids, b.hole(1000+120*math.Cos(a), 1000+120*math.Sin(a), 18))
	}
	b.add("E", features.Feature{Kind: features.ArcCut, At: pt(1150, 1000), RadiusMM: 150, SweepRad: 2 * math.Pi, Edges: []int{0}})
	e := finding("edge-process", check.Error, 150, 15, "mm", "no station cuts an arc of R150 mm", "have the ring cut by a shop with thermal cutting", "E1")
	o := finding("opening", check.Error, 180, 40, "mm", "no single tool makes an opening of Ø180 mm", "have it cut out", "C1")
	w := finding("web", check.Note, 21, 10, "mm", "21 mm of metal to the outside", "", ids...)
	return judged("ring.dxf", b.p, 10, place(e, pt(1150, 1000)), place(o, pt(1090, 1000)), place(w, b.at(ids[0])))
}

// gussetReport: a notched gusset with a clip, a slot, a bend line and a mark.
func gussetReport() *check.Report {
	o := polygon(pt(0, 0), pt(120, 0), pt(120, 40), pt(180, 40), pt(180, 0), pt(300, 0), pt(300, 150), pt(250, 200), pt(60, 200), pt(60, 140), pt(0, 140))
	b := newPart("gusset", o)
	h1, h2 := b.hole(40, 100, 22), b.hole(240, 60, 22)
	s1 := b.slot(170, 140, 18, 50, 0.4)
	n1 := b.add("N", features.Feature{Kind: features.Notch, Shape: features.NotchRectangular, At: pt(150, 0), WidthMM: 60, DepthMM: 40, Edges: []int{1, 2, 3},
		Mouth: [2]geom.Point{pt(120, 0), pt(180, 0)}, Ring: rect(120, 0, 180, 40)})
	n2 := b.add("N", features.Feature{Kind: features.Notch, Shape: features.NotchCorner, At: pt(30, 140), WidthMM: 60, DepthMM: 60, Long: [2]float64{60, 60}, Edges: []int{8, 9},
		Mouth: [2]geom.Point{pt(60, 200), pt(0, 140)}, Ring: rect(0, 140, 60, 200)})
	e1 := b.add("E", features.Feature{Kind: features.CornerClip, At: pt(275, 175), LengthMM: 70.71, Long: [2]float64{50, 50}, Edges: []int{6}, From: pt(300, 150), To: pt(250, 200)})
	b.cut(0, 120)
	b1 := b.bend(pt(0, 120), pt(300, 120))
	b.add("M", features.Feature{Kind: features.Mark, At: pt(220, 20), Open: geom.Ring{line(pt(200, 20), pt(240, 20))}})
	r := judged("gusset.dxf", b.p, 8,
		place(finding("notch-tool", check.Error, 60, 80, "mm", "the narrowest tool is 80 mm wide, wider than the notch", "mill or cut it by another process", n1), pt(150, 0)),
		place(finding("notch-force", check.Warning, 610, 540, "kN", "two bites", "two bites, ends first", n2), pt(60, 140)),
		span(finding("web", check.Warning, 9, 16, "mm", "9 mm of metal between hole and bend", "punch before bending", h1), pt(40, 111), pt(40, 120)),
		place(finding("slot-hits", check.Warning, 3, 1, "", "three hits with a slot punch 18 x 30", "end hits first, middle last", s1), b.at(s1)),
		place(finding("inside-corner", check.Note, 0, 3, "mm", "four sharp inside corners", "", n1, n2), pt(120, 40)),
		place(finding("hold-down", check.Warning, 49.5, 70, "mm", "the held piece is 49.5 mm", "clip it while it is on the bar", e1), pt(275, 175)),
		place(finding("bend", check.Warning, 0, 0, "", "cannot be judged: no brake in this shop", "", b1), pt(150, 120)),
		span(finding("throat-reach", check.Warning, 247, 250, "mm", "within 3 mm of the throat", "turn the part", h2), b.at(h2), pt(300, 60)),
	)
	r.Parts[0].Findings[6].Got, r.Parts[0].Findings[6].Limit = nil, nil
	return r
}

// noThicknessReport: what most customers send.
func noThicknessReport() *check.Report {
	b := newPart("BR-17", rect(0, 0, 200, 150))
	for _, c := range [][2]float64{{30, 30}, {170, 30}, {170, 120}, {30, 120}} {
		b.hole(c[0], c[1], 22)
	}
	f := check.Finding{Rule: "thickness-missing", Severity: check.Warning, Count: 1, CannotTell: true, Who: "customer", Message: "the drawing states no thickness", Fix: "what is the thickness?", FixBy: "drawing"}
	r := judged("BR-17.dxf", b.p, 0, f)
	p := r.Parts[0]
	p.Reason = "the thickness"
	p.Job = plan.Job{}
	p.Plan.Blank.Text, p.Plan.Blank.Assumed = "flat bar 150 mm wide", true
	for i := range p.Plan.Makes {
		p.Plan.Makes[i] = plan.Make{Feature: i, MadeBy: "unknown"}
	}
	p.Plan.Work = plan.Work{Why: "the thickness is not known"}
	p.Plan.Machines = nil
	for _, m := range []string{"mild", "S355"} {
		for _, t := range []float64{3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25} {
			l := check.Limit{Material: m, ThicknessMM: t, Verdict: check.Fits}
			if t == 20 {
				l.Verdict, l.StoppedBy, l.Features, l.Text = check.WithCare, "punch-force", []string{"H1"}, "punch at the upper strength 573.7 kN of 540 kN"
			}
			if t > 20 || m == "S355" && t >= 20 {
				l.Verdict, l.StoppedBy, l.Features, l.Text = check.DoesNotFit, "shear-row", []string{"E1"}, "the shear takes 20 x 150"
			}
			p.Limits = append(p.Limits, l)
		}
	}
	p.Questions = []string{"What is the thickness of BR-17? Drawing units look like mm.", "Which steel is BR-17 made of?"}
	return r
}

// fineReport: nothing is wrong.
func fineReport() *check.Report {
	b := newPart("bearer", rect(0, 0, 500, 100))
	b.hole(50, 50, 22)
	b.hole(450, 50, 22)
	for i, l := range []float64{500, 100, 500, 100} {
		b.cut(i, l)
	}
	r := judged("bearer.dxf", b.p, 10)
	r.Shop = &shop.Profile{Name: "Mill Lane", Units: "mm", Path: "mill.toml"}
	return r
}

// openReport: an outline that does not close; there is no part.
func openReport() *check.Report {
	f := check.Finding{Rule: "open-outline", Severity: check.Error, Count: 1, At: pt(0, 50), HasAt: true, CannotTell: true, Who: "customer", Got: &check.Quantity{Value: 3, Unit: "mm"},
		Limit: &check.Quantity{Value: 0.5, Unit: "mm"}, Message: "the outline does not close: a gap of 3 mm", Fix: "close the outline", FixBy: "drawing"}
	n := check.Finding{Rule: "no-part", Severity: check.Error, Count: 1, CannotTell: true, Who: "customer", Message: "no closed outline in the drawing"}
	return &check.Report{Drawing: "broken loop.dxf", Shop: exampleShop(), Verdict: check.CannotTell, Findings: []check.Finding{f, n},
		Sheet: &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsUnknown, Evidence: []features.UnitsEvidence{{What: "holes of 22 and 26", For: "mm", Weight: 1.2}}},
			Loose:  []features.Loose{{From: pt(3, 50), To: pt(0, 50), GapMM: 3, LengthMM: 300, Holes: 1, Source: []features.Source{{Entity: 0}}}, {From: pt(200, 0), To: pt(260, 40), GapMM: 72.11, LengthMM: 80}},
			Notes:  []features.Note{{Code: "x", Text: "something", Count: 2}},
			SnapMM: 0.001, BridgeMM: 0.5, ArcDevMM: 0.01, Entities: []features.EntityInfo{{Line: 7, Layer: "0"}}}}
}

func unreadableReport() *check.Report {
	r := check.Unreadable("cut off.dxf", exampleShop(), fmt.Errorf("line 4711: %w", errors.New("the file ends too early")))
	r.ErrLine = 4711
	return r
}

// twoPartsReport: a drawing of two parts, with names that mean harm.
func twoPartsReport() *check.Report {
	a, b := plateReport(), clipReport()
	a.Drawing = "=HYPERLINK(\"x\")\x1b[31m.dxf"
	a.Parts = append(a.Parts, b.Parts[0])
	a.Parts[1].Part.Name = "+clip"
	a.Parts[1].Part.DrawnAt = append(a.Parts[1].Part.DrawnAt, features.Placement{Origin: pt(40, 0), AngleRad: math.Pi / 2, Mirrored: true})
	a.Parts[1].Job.Quantity = 0
	return a
}

type namedReport struct {
	name string
	rep  *check.Report
}

func allReports() []namedReport {
	return []namedReport{{"plate", plateReport()}, {"strap", strapReport()}, {"clip", clipReport()}, {"grid", gridReport()}, {"many", manyReport()},
		{"ring", ringReport()}, {"gusset", gussetReport()}, {"nothick", noThicknessReport()}, {"fine", fineReport()}, {"open", openReport()},
		{"unreadable", unreadableReport()}, {"two", twoPartsReport()}, {"doubt", doubtReport()}}
}
