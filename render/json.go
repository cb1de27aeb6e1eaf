package render

import (
	"bytes"
	"encoding/json"
	"io"
	"math"

	"burrside/check"
	"burrside/features"

	_ "embed"
)

// jsonFormat is the first key of every line: readers look at it before they
// trust the others. Keys may be added under the same number, never changed.
const jsonFormat = "burrside/1"

//go:embed schema.json
var schemaText string

// Schema is the JSON Schema of one line of JSON. It is generated from the types
// of this file by the tests (UPDATE_GOLDEN=1 renews it) and kept as a file.
func Schema() []byte { return []byte(schemaText) }

// JSON writes the report as one line of JSON Lines, format "burrside/1".
func JSON(w io.Writer, rep *check.Report) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(drawingJSON(rep)); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

// The types below are the contract, key by key. A pointer without omitempty is
// a key that is always there and may be null; a pointer with omitempty is a
// number or a word that may be unknown and is then absent.

type jsonDrawing struct {
	Format     string          `json:"format" jsonschema:"enum=burrside/1"`
	Drawing    string          `json:"drawing"`
	Verdict    jsonVerdict     `json:"verdict"`
	Error      *jsonError      `json:"error,omitempty" jsonschema:"description=why the drawing could not be read; there are no parts then"`
	Units      jsonUnits       `json:"units"`
	Shop       string          `json:"shop"`
	ShopIs     string          `json:"shop_is" jsonschema:"enum=given,enum=example,enum=none,description=example: no shop file was given and the figures are invented"`
	Code       *string         `json:"code" jsonschema:"nullable,description=full name of the code for bolt holes; null if none was asked for"`
	Title      []jsonTitle     `json:"title,omitempty" jsonschema:"description=fields of the title block as they are written"`
	Parts      []jsonPart      `json:"parts"`
	List       *jsonList       `json:"list,omitempty" jsonschema:"description=of a cut list; there are no parts then"`
	Readings   []jsonReading   `json:"readings,omitempty" jsonschema:"description=both readings when the unit is in doubt or not known; the first is that of parts"`
	Findings   []jsonFinding   `json:"findings" jsonschema:"description=about the drawing itself"`
	Skipped    []jsonSkipped   `json:"skipped"`
	Loose      []jsonLoose     `json:"loose"`
	Notes      []jsonNote      `json:"notes"`
	Ignored    []jsonIgnored   `json:"ignored" jsonschema:"description=entities that were taken as no geometry"`
	Tolerances *jsonTolerances `json:"tolerances,omitempty"`
	Disclaimer string          `json:"disclaimer"`
}

type jsonTitle struct {
	Field string     `json:"field" jsonschema:"enum=name,enum=number,enum=revision,enum=scale,enum=material,enum=thickness,enum=quantity,enum=finish"`
	Text  string     `json:"text"`
	AtMM  *jsonPoint `json:"at_mm,omitempty"`
}

type jsonError struct {
	Line *int64 `json:"line,omitempty" jsonschema:"minimum=1"`
	Text string `json:"text"`
}

type jsonUnits struct {
	Name       string         `json:"name" jsonschema:"minLength=1,description=mm or in or cm or m or ft; or what the header names beside these: yd or dm or km ..."`
	From       jsonUnitsFrom  `json:"from"`
	Confidence *float64       `json:"confidence,omitempty"`
	Doubt      bool           `json:"doubt,omitempty"`
	Other      string         `json:"other,omitempty"`
	Evidence   []jsonEvidence `json:"evidence"`
}

type jsonEvidence struct {
	What   string   `json:"what"`
	For    string   `json:"for"`
	Weight *float64 `json:"weight,omitempty"`
}

type jsonTolerances struct {
	SnapMM   *float64 `json:"snap_mm,omitempty"`
	BridgeMM *float64 `json:"bridge_mm,omitempty"`
	ArcMM    *float64 `json:"arc_mm,omitempty"`
}

type jsonPart struct {
	Name          string           `json:"name"`
	Form          string           `json:"form" jsonschema:"enum=flat,enum=angle"`
	Copies        int              `json:"copies" jsonschema:"minimum=1"`
	Quantity      *int             `json:"quantity,omitempty" jsonschema:"minimum=1"`
	QuantityFrom  string           `json:"quantity_from,omitempty"`
	ThicknessMM   *float64         `json:"thickness_mm,omitempty" jsonschema:"exclusiveMinimum=0"`
	ThicknessFrom string           `json:"thickness_from,omitempty"`
	Material      string           `json:"material,omitempty"`
	MaterialFrom  string           `json:"material_from,omitempty"`
	MaterialKnown *bool            `json:"material_known,omitempty" jsonschema:"description=false: the shop lists no material of that name"`
	BoxMM         jsonPoint        `json:"bbox_mm" jsonschema:"description=of an angle: of both legs folded out into one plane"`
	LegsMM        *jsonPoint       `json:"legs_mm,omitempty" jsonschema:"description=angle: outside widths of legs a and b"`
	LengthMM      *float64         `json:"length_mm,omitempty" jsonschema:"description=angle: along the heel"`
	Section       string           `json:"section,omitempty" jsonschema:"description=angle: the listed section that it is"`
	SectionList   string           `json:"section_list,omitempty"`
	SectionText   string           `json:"section_text,omitempty" jsonschema:"description=angle: the section as the drawing names it"`
	MassKgM       *float64         `json:"mass_kg_m,omitempty" jsonschema:"exclusiveMinimum=0"`
	RootRadiusMM  *float64         `json:"root_radius_mm,omitempty" jsonschema:"exclusiveMinimum=0"`
	ToRootMM      *float64         `json:"to_root_mm,omitempty" jsonschema:"description=angle: from the outside of the heel to the toe of the root fillet"`
	ViewsFrom     string           `json:"views,omitempty" jsonschema:"description=angle: what shows it"`
	Hand          string           `json:"hand,omitempty" jsonschema:"enum=as-drawn-first,enum=as-drawn-third,enum=unknown"`
	AreaMM2       *float64         `json:"area_mm2,omitempty"`
	PerimeterMM   *float64         `json:"perimeter_mm,omitempty"`
	MassKG        *float64         `json:"mass_kg,omitempty"`
	Verdict       jsonVerdict      `json:"verdict"`
	Reason        string           `json:"reason,omitempty"`
	Scale         *jsonScale       `json:"scale,omitempty" jsonschema:"description=of the view; sizes are true and places are the drawing's"`
	Blank         *jsonBlank       `json:"blank,omitempty"`
	Datum         *jsonDatum       `json:"datum,omitempty" jsonschema:"description=corner of the blank that u_mm and v_mm are measured from"`
	Machines      []jsonMachine    `json:"machines"`
	Limits        []jsonLimit      `json:"limits"`
	Features      []jsonFeature    `json:"features"`
	Patterns      []jsonPattern    `json:"patterns"`
	Findings      []jsonFinding    `json:"findings"`
	Changes       []jsonChange     `json:"changes,omitempty" jsonschema:"description=changes that would pass; only when asked for"`
	Skipped       []jsonSkipped    `json:"skipped"`
	Suppressed    []jsonSuppressed `json:"suppressed"`
	DrawnAt       []jsonPlacement  `json:"drawn_at"`
	Route         []jsonStep       `json:"route"`
	Work          *jsonWork        `json:"work,omitempty"`
	Doubts        []jsonDoubt      `json:"doubts"`
	CallOuts      []jsonCallOut    `json:"call_outs"`
	Questions     []string         `json:"questions"`
	Cautions      []string         `json:"cautions" jsonschema:"maxItems=4"`
	Source        []jsonPlace      `json:"source"`
}

// jsonScale is the scale that a part's view is drawn at.
type jsonScale struct {
	Ratio  string  `json:"ratio" jsonschema:"description=as drawings write it such as 1:5"`
	Factor float64 `json:"factor" jsonschema:"description=true size over drawn size"`
	From   string  `json:"from" jsonschema:"description=what tells it"`
}

type jsonReading struct {
	Unit    string            `json:"unit"`
	UnitMM  *float64          `json:"unit_mm,omitempty"`
	Verdict jsonVerdict       `json:"verdict"`
	Parts   []jsonReadingPart `json:"parts"`
}

type jsonReadingPart struct {
	Name     string        `json:"name"`
	BoxMM    jsonPoint     `json:"bbox_mm"`
	Verdict  jsonVerdict   `json:"verdict"`
	Reason   string        `json:"reason,omitempty"`
	Limits   []jsonLimit   `json:"limits"`
	Findings []jsonFinding `json:"findings"`
}

type jsonBlank struct {
	Form     string     `json:"form"`
	SizeMM   *jsonPoint `json:"size_mm,omitempty" jsonschema:"description=length and width"`
	AngleDeg *float64   `json:"angle_deg,omitempty"`
	AreaMM2  *float64   `json:"area_mm2,omitempty"`
	Assumed  bool       `json:"assumed"`
	Stock    string     `json:"stock,omitempty"`
	Text     string     `json:"text,omitempty"`
}

type jsonDatum struct {
	AtMM     jsonPoint `json:"at_mm"`
	AngleDeg *float64  `json:"angle_deg,omitempty"`
}

type jsonMachine struct {
	Name     string        `json:"name"`
	Verdict  jsonVerdict   `json:"verdict"`
	Limiting *jsonLimiting `json:"limiting" jsonschema:"nullable"`
}

type jsonLimiting struct {
	Rule     string   `json:"rule"`
	Features []string `json:"features"`
	Share    *float64 `json:"share,omitempty"`
}

type jsonLimit struct {
	Material    string      `json:"material"`
	ThicknessMM float64     `json:"thickness_mm" jsonschema:"exclusiveMinimum=0"`
	Verdict     jsonVerdict `json:"verdict"`
	StoppedBy   *string     `json:"stopped_by" jsonschema:"nullable"`
	Features    []string    `json:"features"`
	Text        string      `json:"text,omitempty"`
}

type jsonFeature struct {
	ID              string        `json:"id" jsonschema:"minLength=1"`
	Kind            jsonKind      `json:"kind"`
	AtMM            jsonPoint     `json:"at_mm"`
	UMM             *float64      `json:"u_mm,omitempty"`
	VMM             *float64      `json:"v_mm,omitempty"`
	DiameterMM      *float64      `json:"diameter_mm,omitempty"`
	SeatMM          *float64      `json:"seat_mm,omitempty"`
	WidthMM         *float64      `json:"width_mm,omitempty"`
	LengthMM        *float64      `json:"length_mm,omitempty"`
	CutLengthMM     *float64      `json:"cut_length_mm,omitempty"`
	MetalLengthMM   *float64      `json:"metal_length_mm,omitempty"`
	DepthMM         *float64      `json:"depth_mm,omitempty"`
	RadiusMM        *float64      `json:"radius_mm,omitempty"`
	SweepDeg        *float64      `json:"sweep_deg,omitempty"`
	AngleDeg        *float64      `json:"angle_deg,omitempty"`
	IncludedDeg     *float64      `json:"included_deg,omitempty"`
	BentDeg         *float64      `json:"bent_deg,omitempty" jsonschema:"description=bend: the angle that the note beside it states"`
	BentTo          string        `json:"bent_to,omitempty" jsonschema:"enum=up,enum=down"`
	BottomWidthMM   *float64      `json:"bottom_width_mm,omitempty"`
	CornerRadiusMM  *float64      `json:"corner_radius_mm,omitempty"`
	Sides           *int          `json:"sides,omitempty"`
	AcrossFlatsMM   *float64      `json:"across_flats_mm,omitempty"`
	AreaMM2         *float64      `json:"area_mm2,omitempty"`
	PerimeterMM     *float64      `json:"perimeter_mm,omitempty"`
	Shape           jsonShape     `json:"shape,omitempty"`
	Subkind         string        `json:"subkind,omitempty"`
	Relief          string        `json:"relief,omitempty"`
	Steps           []jsonPoint   `json:"steps,omitempty"`
	OpenAtMM        []jsonPoint   `json:"open_at_mm,omitempty"`
	Leg             string        `json:"leg,omitempty" jsonschema:"enum=a,enum=b,description=angle: the leg that has it; absent: both"`
	FromHeelMM      *float64      `json:"from_heel_mm,omitempty" jsonschema:"description=angle: distance from the outside of the heel"`
	FromEndMM       *float64      `json:"from_end_mm,omitempty" jsonschema:"description=angle: distance from the start of its length"`
	LegsMM          *jsonPoint    `json:"legs_mm,omitempty" jsonschema:"description=corner notch or clip: the two legs along the edges"`
	In              string        `json:"in,omitempty"`
	Undercut        bool          `json:"undercut,omitempty"`
	ShapeOfPart     bool          `json:"shape_of_part,omitempty"`
	CrossesOutline  bool          `json:"crosses_outline,omitempty"`
	FromMM          *jsonPoint    `json:"from_mm,omitempty"`
	ToMM            *jsonPoint    `json:"to_mm,omitempty"`
	Fitted          bool          `json:"fitted,omitempty"`
	Note            string        `json:"note,omitempty"`
	Process         string        `json:"process,omitempty"`
	BoltDesignation string        `json:"bolt,omitempty"`
	MadeBy          jsonMadeBy    `json:"made_by"`
	Machine         *string       `json:"machine" jsonschema:"nullable"`
	Station         *string       `json:"station" jsonschema:"nullable"`
	Tool            *string       `json:"tool" jsonschema:"nullable"`
	Die             string        `json:"die,omitempty"`
	Holder          string        `json:"holder,omitempty"`
	Hits            *int          `json:"hits,omitempty"`
	ForceKN         *float64      `json:"force_kn,omitempty"`
	LimitKN         *float64      `json:"limit_kn,omitempty"`
	Share           *float64      `json:"share,omitempty"`
	Before          *jsonBefore   `json:"before,omitempty"`
	AfterCuts       bool          `json:"after_cuts,omitempty" jsonschema:"description=it is within the throat only once the outline is cut"`
	Verdict         *jsonSeverity `json:"verdict" jsonschema:"nullable,description=worst finding on it; null: none"`
	Tried           []jsonTried   `json:"tried"`
	Source          []jsonPlace   `json:"source"`
}

// jsonBefore is the hole that is made first: under a seat, or at the bottom of
// an open slot.
type jsonBefore struct {
	Machine *string `json:"machine" jsonschema:"nullable"`
	Station *string `json:"station" jsonschema:"nullable"`
	Tool    *string `json:"tool" jsonschema:"nullable"`
	Die     string  `json:"die,omitempty"`
}

type jsonTried struct {
	Machine   string      `json:"machine"`
	Station   string      `json:"station"`
	Tool      string      `json:"tool,omitempty"`
	Verdict   jsonVerdict `json:"verdict"`
	StoppedBy *string     `json:"stopped_by" jsonschema:"nullable"`
	Share     *float64    `json:"share,omitempty"`
	Text      string      `json:"text,omitempty"`
}

type jsonPattern struct {
	Kind    string    `json:"kind" jsonschema:"enum=row,enum=grid,enum=circle"`
	Members []string  `json:"members"`
	PitchMM []float64 `json:"pitch_mm"`
}

type jsonFinding struct {
	Rule       string        `json:"rule" jsonschema:"pattern=^[a-z][a-z0-9-]*$"`
	Severity   jsonSeverity  `json:"severity"`
	Features   []string      `json:"features"`
	Count      int           `json:"count" jsonschema:"minimum=1"`
	AtMM       *jsonPoint    `json:"at_mm,omitempty"`
	ToMM       *jsonPoint    `json:"to_mm,omitempty" jsonschema:"description=other end of the offending distance"`
	Machine    *string       `json:"machine" jsonschema:"nullable"`
	Station    *string       `json:"station" jsonschema:"nullable"`
	Tool       *string       `json:"tool" jsonschema:"nullable"`
	Tried      []string      `json:"tried,omitempty" jsonschema:"description=other machines that were looked at and do it no better"`
	Who        string        `json:"who,omitempty" jsonschema:"enum=shop,enum=buy,enum=designer,enum=customer"`
	Got        *jsonQuantity `json:"got,omitempty"`
	Limit      *jsonQuantity `json:"limit,omitempty"`
	Message    string        `json:"message"`
	Basis      string        `json:"basis,omitempty"`
	Fix        string        `json:"fix,omitempty"`
	FixBy      string        `json:"fix_by,omitempty" jsonschema:"enum=shop,enum=drawing"`
	CannotTell bool          `json:"cannot_tell,omitempty"`
	Sources    []string      `json:"sources"`
	Source     []jsonPlace   `json:"source"`
}

type jsonQuantity struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

type jsonSkipped struct {
	Rule string `json:"rule"`
	Why  string `json:"why"`
}

type jsonSuppressed struct {
	Rule     string   `json:"rule"`
	Features []string `json:"features"`
	By       string   `json:"suppressed_by"`
}

type jsonPlacement struct {
	OriginMM jsonPoint `json:"origin_mm"`
	AngleDeg *float64  `json:"angle_deg,omitempty"`
	Mirrored bool      `json:"mirrored"`
}

type jsonStep struct {
	Step     int      `json:"step" jsonschema:"minimum=1"`
	What     string   `json:"what"`
	Features []string `json:"feature_ids"`
	Machine  *string  `json:"machine" jsonschema:"nullable"`
	Station  *string  `json:"station" jsonschema:"nullable"`
	Tool     *string  `json:"tool" jsonschema:"nullable"`
	Hits     *int     `json:"hits,omitempty"`
}

type jsonWork struct {
	Known        bool     `json:"known"`
	Why          string   `json:"why,omitempty"`
	Hits         *int     `json:"hits,omitempty"`
	Bites        *int     `json:"bites,omitempty"`
	Cuts         *int     `json:"cuts,omitempty"`
	Bends        *int     `json:"bends,omitempty"`
	ToolChanges  *int     `json:"tool_changes,omitempty"`
	Settings     *int     `json:"settings,omitempty"`
	FirstOffs    *int     `json:"first_offs,omitempty"`
	Turns        *int     `json:"turns,omitempty"`
	Visits       *int     `json:"visits,omitempty"`
	DeburrMM     *float64 `json:"deburr_mm,omitempty"`
	SetUpMinutes *float64 `json:"set_up_minutes,omitempty"`
	MinutesEach  *float64 `json:"minutes_each,omitempty"`
	MinutesTotal *float64 `json:"minutes_total,omitempty"`
	Quantity     *int     `json:"quantity,omitempty"`
	GrossKG      *float64 `json:"gross_kg,omitempty"`
	NetKG        *float64 `json:"net_kg,omitempty"`
	Assumptions  []string `json:"assumptions"`
	Buy          []string `json:"buy"`
}

type jsonDoubt struct {
	Code   string      `json:"code"`
	Grave  bool        `json:"grave"`
	AtMM   *jsonPoint  `json:"at_mm,omitempty"`
	Text   string      `json:"text"`
	Source []jsonPlace `json:"source"`
}

type jsonCallOut struct {
	Text       string      `json:"text"`
	AtMM       *jsonPoint  `json:"at_mm,omitempty"`
	Count      *int        `json:"count,omitempty"`
	DiameterMM *float64    `json:"diameter_mm,omitempty"`
	Process    string      `json:"process,omitempty"`
	Features   []string    `json:"features"`
	Source     []jsonPlace `json:"source"`
}

type jsonLoose struct {
	AtMM     []jsonPoint `json:"at_mm" jsonschema:"minItems=2,maxItems=2"`
	GapMM    *float64    `json:"gap_mm,omitempty"`
	LengthMM *float64    `json:"length_mm,omitempty"`
	Holes    int         `json:"holes"`
	Source   []jsonPlace `json:"source"`
}

type jsonNote struct {
	Code   string      `json:"code"`
	AtMM   *jsonPoint  `json:"at_mm,omitempty"`
	Count  int         `json:"count" jsonschema:"minimum=1"`
	Text   string      `json:"text"`
	Source []jsonPlace `json:"source"`
}

type jsonIgnored struct {
	What  string `json:"what"`
	Count int    `json:"count"`
}

// jsonPlace is where an entity stands in the file.
type jsonPlace struct {
	Line   *int64   `json:"line,omitempty"`
	Handle string   `json:"handle,omitempty" jsonschema:"pattern=^[0-9A-F]+$"`
	Layer  string   `json:"layer"`
	Block  []string `json:"block"`
}

// jsonPoint is x and y (or two sizes), millimetres.
type jsonPoint [2]float64

// Words from closed sets; the schema lists them.
type (
	jsonVerdict   string
	jsonSeverity  string
	jsonKind      string
	jsonShape     string
	jsonMadeBy    string
	jsonUnitsFrom string
)

// madeBys are all values of made_by.
func madeBys() []string {
	return []string{"punch", "shear", "notch", "drill", "tap", "countersink", "thermal", "grind", "saw", "bend", "bought",
		"stock", "nothing", "unknown"}
}

func verdicts() []check.Verdict {
	return []check.Verdict{check.Fits, check.WithCare, check.CannotTell, check.DoesNotFit}
}

func severities() []check.Severity { return []check.Severity{check.Error, check.Warning, check.Note} }

func unitsFroms() []features.UnitsFrom {
	return []features.UnitsFrom{features.UnitsFlag, features.UnitsHeader, features.UnitsText, features.UnitsInferred, features.UnitsUnknown, unitsFromShop}
}

// unitsFromShop is of a cut list that states no unit: its bare numbers are in the
// shop's.
const unitsFromShop = "shop"

// round4 rounds a length to 1e-4 mm; the zero it gives is never negative. Not a
// number and infinities cannot be written in JSON: they become 0, and callers
// that can leave the key out use known instead.
func round4(v float64) float64 { return roundTo(v, 1e4) }

func roundTo(v, scale float64) float64 {
	if !finite(v) {
		return 0
	}
	if math.Abs(v) > 1e11 {
		return v // no digits left to round
	}
	return math.Round(v*scale)/scale + 0 // + 0 turns a negative zero into 0
}

// known is a number that is present when it is positive; features leave what
// does not apply at 0.
func known(v float64) *float64 { return knownTo(v, 1e4) }

// knownArea is known for areas, rounded to 1e-2 mm2.
func knownArea(v float64) *float64 { return knownTo(v, 1e2) }

func knownTo(v, scale float64) *float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return nil
	}
	r := roundTo(v, scale)
	return &r
}

// stated is a number that is present whatever its value, if it is finite.
func stated(v float64) *float64 {
	if !finite(v) {
		return nil
	}
	r := round4(v)
	return &r
}

func degrees(rad float64) *float64 { return stated(rad * 180 / math.Pi) }

func knownInt(n int) *int {
	if n <= 0 {
		return nil
	}
	return &n
}

func statedInt(n int) *int { return &n }

// orNull is a word, or null when it is empty.
func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// list is l, or an empty list for nil, so that the key shows [] and not null.
func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

func jsonAt(x, y float64) jsonPoint { return jsonPoint{round4(x), round4(y)} }
