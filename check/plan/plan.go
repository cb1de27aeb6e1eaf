// Package plan decides how a shop would make a part before any rule speaks:
// the blank, what makes each feature (machine, station, tool), the order, and
// the counts and minutes. Millimetres, kilonewtons, seconds.
package plan

import (
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// Job is what is asked for one part. A zero number is unknown.
type Job struct {
	ThicknessMM   float64
	ThicknessFrom string // "flag", "answers", "text", "view"; "" unknown
	Material      *shop.Material
	MaterialName  string // as stated, also when the shop knows none of that name
	MaterialFrom  string
	Quantity      int // 0: one, not stated
	QuantityFrom  string
	Machine       string // restricts to one machine; "" the whole shop
	Code          string // of bolt holes: "aisc", "aisc-2010", "aisc-2005", "en", "csa", "is"; "" none
	WeldCode      string // of inside corners of a welded structure: "aws"; "" none
	// ExecutionClass is the class 1 to 4 of EN 1090-2; 0 not stated.
	ExecutionClass int
	Bolts          bool  // all round holes are to be taken as bolt holes
	BlankGiven     bool  // the blank comes cut to the outline's rectangle
	Exposure       bool  // greatest distances and preferred pitches too
	Weathering     bool  // with Exposure: unpainted weathering steel
	Ways           []Way // decisions of the shop about single features
	// NotPunched are the features, as indices in Part.Features, that are to be
	// made in another way than by a punch: the metal beside them is too thin.
	NotPunched []int
}

// EdgeKind is how an edge of the finished part came to be.
type EdgeKind string

// The kinds of edge.
const (
	EdgeMill    EdgeKind = "mill"
	EdgeSheared EdgeKind = "sheared"
	EdgeNotched EdgeKind = "notched"
	EdgeThermal EdgeKind = "thermal"
	EdgeGround  EdgeKind = "ground"
	EdgeUnknown EdgeKind = "unknown"
)

// Blank is the piece of stock that the part is cut from.
type Blank struct {
	Form     string  // "bar", "strip", "plate", "given", "disc", "angle"
	WidthMM  float64 // across a bar or strip; the shorter side of a plate blank; the diameter of a disc; both legs of an angle
	LengthMM float64
	AngleRad float64 // of the length against the drawing's x axis
	Corners  [4]geom.Point
	Assumed  bool             // the shop file has no stock, or nothing matches
	Stock    string           // what is taken from the rack, e.g. "flat 100 x 10"
	Aspects  []station.Aspect // rule "blank"
	Text     string
	// PiecesPerBar is how many pieces a stock bar gives; 0 not known, or no bar.
	PiecesPerBar int
}

// Cut is one straight shear cut really made.
type Cut struct {
	From, To     geom.Point
	LengthMM     float64 // of metal under the blade at that step
	OffSquareRad float64 // mitre
	Features     []int   // straight cuts and clips that it makes; empty: cutting the blank free
	What         string  // "end cut", "strip cut", "clip", "side cut"; "squaring cut" of a plate, once for each
	HeldMM       float64 // extent of the held piece square to the cut
	OffcutMM     float64 // least width of the offcut; 0 none
	PieceMM      float64 // extent square to the cut of the piece that falls off a bar; 0 none falls
	OnBar        bool
	Use          station.Use
	Tried        []station.Use
}

// Make tells how one feature is made.
type Make struct {
	Feature int           // index in Part.Features
	MadeBy  string        // "punch", "shear", "notch", "drill", "thermal", "grind", "tap", "countersink", "saw", "bought", "stock" (a mill edge), "bend", "nothing", "unknown" (no thickness)
	Use     station.Use   // the best way
	Tried   []station.Use // the others that were looked at, best first
	Also    *shop.Process // when a process beside the machines makes it
	// Before is what is punched first: the hole under a seat, at the bottom of an
	// open slot, or the two ends of a slot that is then cut out; nil none. Its grade is already in Use.
	Before *station.Use
	// AfterCuts tells that the hole is within the throat only once the outline is cut.
	AfterCuts bool
}

// Step is one step of the work.
type Step struct {
	What                   string // "shear", "punch", "notch", "drill", ...
	Features               []string
	Machine, Station, Tool string
	Hits                   int
	Leg, Lay               string // of an angle: the leg that is worked and how it lies on the die; "" else
}

// Work is counts and minutes for one piece made by itself. Total is for Quantity.
type Work struct {
	Hits, Bites, Cuts, Bends int
	ToolChanges              int // if made alone
	Settings                 int // of stops, fences and back gauges
	FirstOffs                int // first pieces checked
	Turns                    int // of the piece, for each piece
	Visits                   int // to a station, for each piece
	DeburrMM                 float64
	SetUpMinutes             float64
	MinutesEach              float64 // run time of one piece, without set-up: Total = SetUp + Quantity x Each
	MinutesTotal             float64
	Quantity                 int
	GrossKG, NetKG           float64
	Assumptions              []string
	Buy                      []string
	// Known is false when something is not countable (no thickness, nothing
	// makes a feature); Why says what.
	Known bool
	Why   string
}

// MachineUse is the part against one machine alone.
type MachineUse struct {
	Name     string
	Grade    station.Grade
	Limiting station.Aspect
	Features []string
	Share    float64
}

// Plan is how the shop makes the part.
type Plan struct {
	Part         *features.Part
	Blank        Blank
	Alternatives []Blank
	Edges        []EdgeKind // one for each edge of Part.Outline
	Cuts         []Cut
	Makes        []Make // one for each feature, in order
	Steps        []Step
	Work         Work
	Machines     []MachineUse
}

// Plan plans the prepared part. It always gives a plan; what is missing shows as
// Unknown.
func (p *Prepared) Plan(prof *shop.Profile, job Job) *Plan {
	part := p.part
	pl := &planner{part: part, prof: prof, job: job, prep: p, out: &Plan{Part: part}, cache: map[holeKey]*punched{}, standings: map[*cutList]standing{}}
	pl.pc = station.Piece{ThicknessMM: job.ThicknessMM, Material: job.Material}
	pl.lacks = pl.missing()
	for i := range prof.Machines {
		if m := &prof.Machines[i]; job.Machine == "" || m.Name == job.Machine {
			pl.machines = append(pl.machines, m)
		}
	}
	if len(part.Outline) == 0 || part.Form == features.FormAngle && part.Angle == nil {
		pl.unplanned()
		return pl.out
	}
	if part.Angle != nil {
		pl.planAngle()
		return pl.out
	}
	pl.chooseBlank()
	pl.turned = []float64{pl.layout.blank.AngleRad}
	for _, g := range p.finish {
		a := angleFolded(math.Atan2(g.normal.X, -g.normal.Y))
		if !slices.ContainsFunc(pl.turned, func(b float64) bool { return math.Abs(a-b) < 1e-6 }) {
			pl.turned = append(pl.turned, a)
		}
	}
	pl.makes()
	if pl.ended() {
		return pl.out
	}
	pl.out.Edges = pl.edges()
	switch b := &pl.out.Blank; b.Form {
	case "bar", "strip":
		if pl.prof.Stock.FlatLengthMM > 0 && len(pl.out.Cuts) > 0 {
			b.PiecesPerBar = PiecesPerBar(pl.prof.Stock.FlatLengthMM, trimMM, pl.lastDrop(), b.LengthMM, 0)
		}
	}
	pl.out.Machines = pl.machineUses()
	if pl.ended() {
		return pl.out
	}
	pl.steps()
	pl.work()
	return pl.out
}

// ended tells that nobody waits for the plan any more.
func (pl *planner) ended() bool { return pl.prep.ctx.Err() != nil }

// unplanned fills a plan for what is not planned: a part without an outline, or
// an angle of which nothing more is known.
func (pl *planner) unplanned() {
	text := "the part has no outline"
	if pl.part.Form == features.FormAngle {
		text = "the legs of the angle are not known"
	}
	for i := range pl.part.Features {
		pl.out.Makes = append(pl.out.Makes, Make{Feature: i, MadeBy: "unknown", Use: station.Use{Aspects: []station.Aspect{{Rule: "reading-doubt", Grade: station.Unknown, Text: text}}}})
	}
	pl.out.Edges = make([]EdgeKind, len(pl.part.Outline))
	for i := range pl.out.Edges {
		pl.out.Edges[i] = EdgeUnknown
	}
	pl.out.Work = Work{Quantity: pl.quantity(), Why: text}
}

// makes decides how each feature is made. The machine that makes most of the
// features as well as any is preferred for all of them.
func (pl *planner) makes() {
	n := len(pl.part.Features)
	uses := make([][]station.Use, n)
	after := make([]map[string]bool, n)
	for i := range pl.part.Features {
		if i%256 == 255 && pl.ended() {
			return
		}
		f := &pl.part.Features[i]
		if !f.IsInside() || !pl.known() || doubt(f) != "" {
			continue
		}
		uses[i], after[i] = pl.insideUses(i)
	}
	prefer := pl.preferred(uses)
	for k := range pl.out.Cuts {
		c := &pl.out.Cuts[k]
		all := append([]station.Use{c.Use}, c.Tried...)
		route(all, prefer)
		c.Use, c.Tried = pickUse(all)
		pl.decideCut(c)
	}
	for i := range pl.part.Features {
		if i%256 == 255 && pl.ended() {
			return
		}
		f := &pl.part.Features[i]
		var mk Make
		if d := doubt(f); d != "" && pl.known() {
			pl.out.Makes = append(pl.out.Makes, Make{Feature: i, MadeBy: "unknown", Use: station.Use{Aspects: []station.Aspect{{Rule: "reading-doubt", Grade: station.Unknown, Text: d}}}})
			continue
		}
		switch f.Kind {
		case features.RoundHole, features.HoleWithSeat, features.TappedHole, features.Slot, features.CurvedSlot,
			features.RectangularHole, features.PolygonHole, features.Cutout:
			if !pl.known() {
				mk = Make{Feature: i, MadeBy: "unknown", Use: pl.unknownUse("punch")}
				break
			}
			mk = pl.makeHole(i, uses[i], after[i], prefer)
		case features.StraightCut, features.CornerClip:
			mk = pl.makeStraight(i)
		case features.ArcCut, features.CornerRadius:
			mk = pl.makeRound(i)
		case features.Notch:
			mk = pl.makeNotch(i, prefer)
		case features.Bend:
			mk = pl.makeBend(i, prefer)
		case features.Mark:
			mk = pl.makeMark(i)
		default:
			panic("plan: no way to make a feature of kind " + string(f.Kind))
		}
		pl.decide(&mk)
		pl.out.Makes = append(pl.out.Makes, mk)
	}
}
