// Package plan decides how a shop would make a part before any rule speaks:
// the blank, what makes each feature (machine, station, tool), the order, and
// the counts and minutes. Millimetres, kilonewtons, seconds.
package plan

import (
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
	Code          string // "", "aisc", "en"
	Bolts         bool   // all round holes are to be taken as bolt holes
	BlankGiven    bool   // the blank comes cut to the outline's rectangle
	Exposure      bool   // greatest distances and preferred pitches too
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
	Form     string  // "bar", "strip", "plate", "given"
	WidthMM  float64 // across a bar or strip; the shorter side of a plate blank
	LengthMM float64
	AngleRad float64 // of the length against the drawing's x axis
	Corners  [4]geom.Point
	Assumed  bool             // the shop file has no stock, or nothing matches
	Stock    string           // what is taken from the rack, e.g. "flat 100 x 10"
	Aspects  []station.Aspect // rule "blank"
	Text     string
}

// Cut is one straight shear cut really made.
type Cut struct {
	From, To     geom.Point
	LengthMM     float64 // of metal under the blade at that step
	OffSquareRad float64 // mitre
	Features     []int   // straight cuts and clips that it makes; empty: cutting the blank free
	What         string  // "end cut", "strip cut", "clip", "side cut"
	HeldMM       float64 // extent of the held piece square to the cut
	OffcutMM     float64 // least width of the offcut; 0 none
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
}

// Step is one step of the work.
type Step struct {
	What                   string // "shear", "punch", "notch", "drill", ...
	Features               []string
	Machine, Station, Tool string
	Hits                   int
}

// Work is counts and minutes for one piece made by itself. Total is for Quantity.
type Work struct {
	Hits, Bites, Cuts, Bends int
	ToolChanges              int
	Settings                 int
	SetUpMinutes             float64
	MinutesEach              float64
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

// Make plans a part. It always gives a plan; what is missing shows as Unknown.
func MakePlan(part *features.Part, prof *shop.Profile, job Job) *Plan { panic("plan: not written yet") }

// JobTotals adds works over a folder: hits by tool, tool changes counted over
// the group, minutes.
type JobTotals struct {
	Parts, Pieces, Hits, Bites, Cuts       int
	ToolChanges                            int
	SetUpMinutes, RunMinutes, TotalMinutes float64
	NetKG, GrossKG                         float64
	Buy                                    []string
	Assumptions                            []string
	Uncounted                              int // parts whose work is not known
}

// Totals counts a whole job.
func Totals(plans []*Plan, jobs []Job, prof *shop.Profile) JobTotals { panic("plan: not written yet") }
