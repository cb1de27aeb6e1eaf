// Package shop holds what one fabrication shop has: machines with their
// stations, tooling, materials, stock, other processes, rates and settings. A
// shop file is TOML, read strictly: all problems at once, with line and column.
// Lengths are millimetres, forces kilonewtons, strengths megapascals, angles
// radians, times seconds.
package shop

// Profile is one shop. It is not modified after Load returns it.
type Profile struct {
	Name      string
	BuiltIn   bool   // the example shop, used because none was given
	Path      string // of the file; "" built in
	Units     string // "mm" or "in": how lengths are shown
	Machines  []Machine
	Punches   []Punch
	Notchers  []NotchTool
	Materials []Material
	Default   string // name of the material that capacity rows mean, e.g. "mild"
	Stock     Stock
	Also      []Process // what the shop has beside its machines
	Rates     Rates
	Settings  map[string]map[string]float64 // rule -> parameter -> value in the parameter's unit
	Layers    map[string][]string           // purpose -> words, see features.LayerWords
	Buy       bool                          // missing tools may be bought unless a tool says otherwise
	Problems  []Problem                     // warnings; errors keep Load from giving a profile
}

// Machine is one punch-and-shear machine, or a single press or shear.
type Machine struct {
	Name  string
	Punch *PunchStation
	Shear *ShearStation
	Notch *NotchStation
	Angle *AngleStation
	Bars  []BarStation
	Brake *BrakeStation
	Table bool // has a tool table
}

// Rating is a force with the basis it is stated on.
type Rating struct {
	ForceKN       float64 // as on the name plate
	Ton           string  // "US", "metric", "long", "" if given in kN
	UsableShare   float64 // default 0.90
	UsableKN      float64 // what may be used: the heaviest row at its basis (never above ForceKN), else ForceKN x UsableShare
	FromRow       bool
	BasisMPa      float64 // shear strength at which rows are meant, default 345
	BasisMaterial string
}

// Row is one capacity row: this thickness up to this size (hole diameter of a
// punch, length of cut of a shear).
type Row struct{ ThicknessMM, SizeMM float64 }

// PunchStation is the punch press.
type PunchStation struct {
	Rating
	Rows           []Row // hole diameter in thickness
	ThroatMM       float64
	Holders        []Holder // by greatest body, ascending
	DieHalfMM      float64  // half-width of the die block toward an upstanding leg
	StripperHalfMM float64
	OffsetDie      *OffsetDie
	StripperGapMM  float64 // clear gap under the stripper, default 45
	MaxThicknessMM float64 // opening; 0 not stated
	Stop           bool    // has a gauge or stop table
	Strokes        float64 // per minute
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
	Rows       []Row // length of cut in thickness
	BladeMM    float64
	RakeRad    float64 // 0 not stated
	HoldDownMM float64 // how far the work must reach under the hold-down; 0 not stated
	PivotMM    float64 // from the pivot to the near end of the blade; 0 not stated
	OpeningMM  float64
	MitreRad   float64 // greatest angle off square for flat bar; 0: any that the table takes
}

// NotchStation carries the notching tools.
type NotchStation struct {
	Rating
	MaxThicknessMM float64
	Rows           []Row // thickness with cut length
}

// AngleStation cuts angles square, and mitred up to Mitre.
type AngleStation struct {
	Rating
	MaxLegMM, MaxThicknessMM     float64
	MitreRad                     float64
	MitreLegMM, MitreThicknessMM float64
	UnequalNeedsBlade            bool
}

// BarStation cuts round, square or channel.
type BarStation struct {
	Rating
	Shape string // "round", "square", "channel"
	MaxMM float64
}

// BrakeStation is the press brake on the tool table.
type BrakeStation struct {
	Rating
	LengthMM            float64
	VMM                 []float64
	PivotMM, PivotRefMM float64
}

// Punch is a punch on the rack with all its dies.
type Punch struct {
	Name     string  // "Ø22", or the shop's own
	Shape    string  // "round", "slot", "square", "rectangle", "hexagon"
	WidthMM  float64 // diameter of a round one; across flats of a hexagon
	LengthMM float64 // overall length of a slot or rectangle
	Holder   string  // "" any that takes it
	Dies     []Die
	Wear     float64 // factor on the force, 1 unless set
	ShearMM  float64 // shear ground on the tool, 0 none
	Buy      *bool   // nil: as the shop
	Machine  string  // "" any
}

// Die has the bore that its punch works with: WidthMM is that of the punch plus
// the total clearance.
type Die struct{ WidthMM float64 }

// NotchTool is a notching tool.
type NotchTool struct {
	Name           string
	Shape          string  // "rectangular", "vee", "corner"
	WidthMM        float64 // across; of a corner tool the leg along the edge
	DepthMM        float64 // into the plate
	AngleRad       float64 // vee: included
	MaxThicknessMM float64
	Rows           []Row // corner tool: deeper in thinner plate
	Machine        string
}

// Material has the strengths that the rules use.
type Material struct {
	Name                                          string
	Aliases                                       []string
	Group                                         string // "mild", "high-strength", "stainless", "aluminium", "hardened"
	ShearMPa, ShearUpperMPa, YieldMPa, TensileMPa float64
	DensityKgM3                                   float64
	ClearanceShare                                float64 // total die clearance aimed at, share of thickness
	Punchable                                     bool    // false: hardened, spring, cast
	Source                                        string
}

// Stock is what is on the rack.
type Stock struct {
	FlatWidthsMM []float64
	FlatLengthMM float64
	Plates       [][2]float64 // width, length
	ThicknessMM  []float64
	Stated       bool // the file has a stock section
}

// Process is what the shop has beside its machines.
type Process struct {
	Kind                                       string // "drill", "tap", "countersink", "saw", "thermal", "grinder", "bought-cutting"
	Have                                       bool
	MaxDiameterMM, MaxThicknessMM, MaxRadiusMM float64 // 0 no limit
	RatePerMinute                              float64 // money, 0 unknown
	Seconds                                    float64 // for one feature
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

// Problem is one fault of a shop file.
type Problem struct {
	Line, Column int
	Key          string // "machine[0].punch.rated"
	Message      string
	Hint         string // the nearest right word, or ""
	Warning      bool
}

// Also gives a process of this kind, Have false if the shop lacks it.
func (p *Profile) Process(kind string) Process {
	for _, q := range p.Also {
		if q.Kind == kind {
			return q
		}
	}
	return Process{Kind: kind}
}
