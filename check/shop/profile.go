// Package shop holds what one fabrication shop has: machines with their
// stations, tooling, materials, stock, other processes, rates and settings. A
// shop file is TOML, read strictly: all problems at once, with line and column.
// Lengths are millimetres, forces kilonewtons, strengths megapascals, angles
// radians, times seconds.
package shop

import "math"

// Profile is one shop. It is not modified after Load returns it. The zero value
// is a shop that has nothing.
type Profile struct {
	Name      string
	BuiltIn   bool   // the example shop, used because none was given
	Path      string // of the file; "" built in
	Units     string // "mm" or "in": how lengths are shown
	Machines  []Machine
	Punches   []Punch
	Notchers  []NotchTool
	Ends      []EndTool
	Materials []Material // the built-in table with the file's changes and additions
	Default   string     // name of the material that capacity rows mean: "mild" unless set; always in Materials
	Stock     Stock
	Also      []Process // what the shop has beside its machines, one of each kind, in the order of ProcessKinds
	Rates     Rates
	Settings  map[string]map[string]float64 // rule -> parameter -> value in the parameter's unit; missing: the rule's default
	Places    map[string]map[string]Setting // the same settings with unit and place in the file
	Layers    map[string][]string           // purpose -> words, see features.LayerWords; a missing purpose: the default words
	Buy       bool                          // missing tools may be bought unless a tool says otherwise; true unless set
	Problems  []Problem                     // warnings; errors keep Load from giving a profile
}

// Machine is one punch-and-shear machine, or a single press or shear. A nil
// station is one that the machine has not got.
type Machine struct {
	Name  string
	Punch *PunchStation
	Shear *ShearStation
	Notch *NotchStation
	Angle *AngleStation
	Bars  []BarStation
	Tubes []TubeStation
	Brake *BrakeStation
	Table bool // has a tool table
}

// Rating is a force with the basis it is stated on.
type Rating struct {
	ForceKN     float64 // as on the name plate; 0 not stated
	Ton         string  // "US", "metric", "long", "" if given in kN, lbf or kip
	UsableShare float64 // as stated, else 0.90; plays no part when FromRow is set
	// UsableKN is what may be used: the force of the heaviest row at its basis,
	// of those that stay within ForceKN if there are any, and never above
	// ForceKN; without rows ForceKN x UsableShare. 0: not known, because
	// the file gives neither a force nor rows that a force can be computed
	// from; only the rows, if any, can then judge.
	UsableKN      float64
	FromRow       bool    // UsableKN comes from a row
	HeaviestRow   int     // index of that row in the station's Rows; 0 unless FromRow is set
	BasisMPa      float64 // shear strength at which rows are meant: as stated, else that of BasisMaterial
	BasisMaterial string  // material that rows are meant in; always in Profile.Materials
}

// Row is one capacity row: this thickness up to this size (hole diameter of a
// punch, length of cut of a shear).
type Row struct{ ThicknessMM, SizeMM float64 }

// PunchStation is the punch press.
type PunchStation struct {
	Rating
	Rows           []Row    // hole diameter in thickness, by descending thickness; nil none stated
	ThroatMM       float64  // always stated
	Holders        []Holder // by greatest body, ascending; at least one
	DieHalfMM      float64  // half-width of the die block toward an upstanding leg; 0 not stated
	StripperHalfMM float64  // 0 not stated
	OffsetDie      *OffsetDie
	LegUpMM        float64 // clear height over the die, under ram and frame, for a leg that stands up; 0 not stated
	StripperGapMM  float64 // clear gap under the stripper, default 45
	MaxThicknessMM float64 // opening; 0 not stated, then there are rows
	Stop           bool    // has a gauge or stop table
	Strokes        float64 // per minute; 0 not stated
}

// Holder takes punches up to a greatest diameter or diagonal.
type Holder struct {
	Name  string
	MaxMM float64
	Keys  []float64 // rad, the turns at which a shaped tool can be keyed; nil: 0 and 90 degrees
}

// OffsetDie reaches close to a leg or flange.
type OffsetDie struct {
	HalfMM  float64
	ForceKN float64 // 0: the station's
}

// ShearStation cuts plate and flat bar.
type ShearStation struct {
	Rating
	Rows       []Row   // length of cut in thickness, by descending thickness; nil none stated
	BladeMM    float64 // always stated
	RakeRad    float64 // 0 not stated, or a parallel blade
	HoldDownMM float64 // how far the work must reach under the hold-down; 0 not stated
	PivotMM    float64 // from the pivot to the near end of the blade; 0 not stated
	OpeningMM  float64 // between the blades; 0 not stated: no thickness above the rows
	MitreRad   float64 // greatest angle off square for flat bar; 0: any that the table takes
}

// NotchStation carries the notching tools.
type NotchStation struct {
	Rating
	MaxThicknessMM float64 // 0 not stated, then there are rows
	Rows           []Row   // length of cut in thickness, by descending thickness; nil none stated
	// How far die block and tool reach beyond the end of the cut, toward the
	// other leg of an angle that hangs down or stands up there; 0 not stated.
	DieBeyondMM, ToolBeyondMM float64
	LegUpMM                   float64 // clear height over the die for a leg that stands up; 0 not stated
}

// AngleStation cuts angles square, and mitred up to Mitre.
type AngleStation struct {
	Rating
	MaxLegMM, MaxThicknessMM     float64 // cut square; always stated
	MitreRad                     float64 // 0: cuts square only
	MitreLegMM, MitreThicknessMM float64 // as MaxLegMM, MaxThicknessMM unless stated; 0 without a mitre
	UnequalNeedsBlade            bool
	MitreOneWay                  bool // mitres to one side only: for the other the bar is turned end for end
}

// BarStation cuts round or square bar, or channel, square to its length.
type BarStation struct {
	Rating
	Shape string // "round", "square", "channel"
	// MaxMM is the largest bar, or the greatest depth of a channel: as stated,
	// else that of the largest cavity or channel; always stated.
	MaxMM      float64
	CavitiesMM []float64    // sizes of the openings in the blade, ascending; nil not stated
	ByForce    bool         // one force governs all cavities; else each cavity is a row of its own
	Channels   []ChannelRow // by depth, ascending; nil not stated
}

// ChannelRow is a channel that the blades are shaped for.
type ChannelRow struct {
	DepthMM           float64
	FlangeMM, WebMM   float64 // greatest width of flange and thickness of web; 0 not stated
	FlangeThicknessMM float64 // greatest; 0 not stated
}

// TubeStation cuts hollow sections square to their length.
type TubeStation struct {
	Rating
	Shape string // "square" (and rectangular), "round"
	Rows  []Row  // side or diameter by wall, by descending wall; at least one
}

// EndTool works the end of a bar or tube: copes it to a pipe, points it, or
// whatever the shop calls it.
type EndTool struct {
	Name   string
	Work   string    // "saddle", or the shop's own word, small letters
	Shapes []string  // bars that it takes: "round bar", "square bar", "flat bar", "round tube", "square tube"
	Sizes  []EndSize // ascending; at least one
	// LeastAngleRad is the smallest angle between the axes that a saddle is made
	// at; a right angle unless stated. 0 for other work.
	LeastAngleRad float64
	BasisMPa      float64 // strength of the steel that the sizes are meant in
	BasisMaterial string
	Machine       string // "" any
}

// EndSize is what an end tool takes: up to a size and thickness, or, of a
// saddle, a tube of one diameter up to a wall.
type EndSize struct {
	SizeMM      float64
	ThicknessMM float64 // of a wall or a flat; 0 not stated, for solid bar
	HeaderMM    float64 // of a saddle: outside diameter of the pipe that it fits to
}

// BrakeStation is the press brake on the tool table.
type BrakeStation struct {
	Rating
	LengthMM            float64
	VMM                 []float64 // ascending; at least one
	PivotMM, PivotRefMM float64   // of the tool's place, and where the force is rated; 0 not stated
	StrokeMM            float64   // of the tool where the force is rated; 0 not stated
}

// Punch is a punch on the rack with all its dies.
type Punch struct {
	Name     string  // "Ø22", or the shop's own; unique on its machine
	Shape    string  // "round", "slot", "square", "rectangle", "hexagon"
	WidthMM  float64 // diameter of a round one; across flats of a hexagon
	LengthMM float64 // overall length of a slot or rectangle
	Holder   string  // "" any that takes it
	Dies     []Die   // ascending; at least one, unless Buy is true
	Wear     float64 // factor on the force, 1 unless set
	ShearMM  float64 // shear ground on the tool, 0 none
	Buy      *bool   // nil: as the shop
	Machine  string  // "" any
}

// Die has the bore that its punch works with: WidthMM is that of the punch plus
// the total clearance.
type Die struct{ WidthMM float64 }

// Body is the least diameter of holder that takes the punch: its diameter, the
// overall length of a slot, the diagonal of a square or rectangle, the distance
// across the corners of a hexagon.
func (p *Punch) Body() float64 {
	switch p.Shape {
	case "round":
		return p.WidthMM
	case "slot":
		return p.LengthMM
	case "square":
		return p.WidthMM * math.Sqrt2
	case "rectangle":
		return math.Sqrt(float64(p.WidthMM*p.WidthMM) + float64(p.LengthMM*p.LengthMM))
	case "hexagon":
		return p.WidthMM * 2 / math.Sqrt(3)
	}
	panic("shop: unknown shape of punch")
}

// MayBuy tells whether the tool may be bought again or with another die.
func (p *Punch) MayBuy(prof *Profile) bool {
	if p.Buy != nil {
		return *p.Buy
	}
	return prof.Buy
}

// NotchTool is a notching tool.
type NotchTool struct {
	Name           string
	Shape          string  // "rectangular", "vee", "corner"
	WidthMM        float64 // across; of a corner tool the leg along the edge
	DepthMM        float64 // into the plate
	AngleRad       float64 // vee: included; 0 for the others
	MaxThicknessMM float64 // 0 the station's
	Rows           []Row   // depth in thickness, by descending thickness: deeper in thinner plate; nil: DepthMM in any
	Machine        string  // "" any
}

// Material has the strengths that the rules use.
type Material struct {
	Name           string
	Aliases        []string
	Group          string  // "mild", "high-strength", "stainless", "aluminium", "copper", "hardened"
	ShearMPa       float64 // nominal: the value that a capacity chart would use; always stated
	ShearUpperMPa  float64 // likely upper value as delivered; ShearMPa unless stated
	YieldMPa       float64 // least by the standard; 0 not stated
	TensileMPa     float64 // upper end of the standard's range, for forces on the safe side; 0 not stated
	DensityKgM3    float64 // always stated
	ClearanceShare float64 // total die clearance aimed at, share of thickness
	Punchable      bool    // false: hardened, spring, cast
	Source         string  // where the strengths come from; "shop file" for the file's own
}

// Stock is what is on the rack.
type Stock struct {
	FlatWidthsMM []float64    // ascending; nil none
	FlatLengthMM float64      // of a bar as bought; 0 not stated
	Plates       [][2]float64 // width, length; the width is the shorter
	// ThicknessMM ascends. When the file lists none it is the usual series of
	// the shop's units and Stated tells nothing about it: see ThicknessStated.
	ThicknessMM     []float64
	ThicknessStated bool
	Gauges          []Gauge    // sheet gauges kept, thickest first; nil none
	Stated          bool       // the file has a stock section
	Angles          []AngleBar // rolled angles kept; nil none listed
	AngleLengthMM   float64    // of an angle as bought; 0 not stated
	BarLengthMM     float64    // of other bars, channels and tubes as bought; 0 not stated
}

// AngleBar is a rolled angle on the rack.
type AngleBar struct {
	LegMM       [2]float64 // the longer first
	ThicknessMM float64
}

// Gauge is a sheet gauge number with its thickness.
type Gauge struct {
	Number int
	MM     float64
}

// Setting is one parameter of a rule as the file sets it.
type Setting struct {
	Value float64 // in Unit; the same as in Profile.Settings
	// Unit is what the file's text was read to: "mm", "kN", "MPa", "deg", "s",
	// "kg", "%", "t" (times the thickness), "d" (times the diameter); "" a bare number,
	// which stands in the parameter's own unit.
	Unit         string
	Line, Column int
}

// Process is what the shop has beside its machines.
type Process struct {
	Kind                                       string // "drill", "tap", "countersink", "saw", "thermal", "grinder", "bought-cutting"
	Have                                       bool
	MaxDiameterMM, MaxThicknessMM, MaxRadiusMM float64 // 0 no limit
	RatePerMinute                              float64 // money, 0 unknown
	Seconds                                    float64 // for one feature; never 0
}

// Rates are the times of work, seconds, and the share of clock time at work.
type Rates struct {
	HitStop, HitMark, CutBar, CutPlate, Bite float64
	PunchChange, Setting, FirstOff           float64
	HandleLight, HandleMedium, HandleHeavy   float64 // a visit: under 10 kg, to 25 kg, above
	Turn                                     float64
	DeburrMPerMinute                         float64
	Drill, Other                             float64
	Availability                             float64
}

// Process gives a process of this kind, Have false if the shop lacks it.
func (p *Profile) Process(kind string) Process {
	for _, q := range p.Also {
		if q.Kind == kind {
			return q
		}
	}
	return Process{Kind: kind}
}
