package shop

import (
	"bytes"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// everything is a file with every key that there is.
const everything = `
name = "All"
units = "in"
rows_material = "A36"
buy = false

[[machine]]
name = "big"
tool_table = true

[machine.punch]
rated = "100 US ton"
usable_share = "90 %"
basis = "60 ksi"
rows_material = "A36"
throat = "20 in"
holders = [
  { name = "small", max = "1-1/2 in", keys = ["90 deg", "0 deg"] },
  { max = "3 in", keys = [] },
]
die_half_width = "1-1/4 in"
stripper_half_width = "1 in"
leg_up = "4 in"
stripper_gap = "2 in"
offset_die = { half_width = "5/8 in", force = "30 US ton" }
max_thickness = "1 in"
stop = true
strokes = 30

[machine.shear]
rated = "90 US ton"
rows = [
  { thickness = "3/8 in", cut = "18 in" },
  { cut = "12 in", thickness = "3/4 in" },
]
blade = "24 in"
rake = "6 deg"
hold_down = "2-1/2 in"
pivot = "6 in"
opening = "7/8 in"
mitre = "45 deg"

[machine.notcher]
rated = "50 US ton"
rows = [{ thickness = "3/8 in", cut = "4 in" }]
max_thickness = "1/2 in"
die_beyond = "3/4 in"
tool_beyond = "5/8 in"
leg_up = "3-1/2 in"

[machine.angle]
rated = "100 metric ton"
leg = "5 in"
thickness = "1/2 in"
mitre = "45 deg"
mitre_leg = "3 in"
mitre_thickness = "3/8 in"
unequal_needs_blade = true
mitre_one_way = true

[[machine.bar]]
shape = "square"
rated = "60 long ton"
max = "1 in"

[[machine.bar]]
shape = "channel"
max = "4 in"

[[machine.bar]]
shape = "round"
rated = "100 kN"
cavities = ["1/2 in", "5/8 in"]
governs = "force"
rows_material = "mild"

[[machine.bar]]
shape = "channel"
channels = [{ depth = "4 in", flange = "1-3/4 in", web = "1/4 in", flange_thickness = "5/16 in" }, { depth = "3 in" }]

[[machine.tube]]
shape = "square"
rated = "50 kN"
rows = [{ side = "2 in", thickness = "1/8 in" }, { thickness = "3/16 in", side = "1 in" }]

[[machine.tube]]
shape = "round"
basis = "50 ksi"
rows = [{ diameter = "2 in", thickness = "1/8 in" }]

[machine.brake]
rated = "300 kN"
length = "12 in"
v = ["1 in", "2 in"]
pivot = "2 ft"
pivot_rated_at = "1 ft 6 in"
stroke = "1-1/2 in"

[[punch]]
name = "old 13/16"
size = "13/16 in"
dies = ["27/32 in", "7/8 in"]
holder = "SMALL"
wear = 1.1
shear_on_tool = "1/8 in"
buy = true
machine = "BIG"

[[punch]]
shape = "hexagon"
size = "1/2 in"
buy = true

[[notch_tool]]
name = "old vee"
shape = "vee"
depth = "2 in"
width = "4 in"
angle = "90 deg"
max_thickness = "3/8 in"
rows = [{ thickness = "1/4 in", depth = "2 in" }, { thickness = "3/8 in", depth = "1 in" }]
machine = "big"

[[end_tool]]
name = "pipe coper"
work = "saddle"
sizes = [{ pipe = "1-1/2", schedule = "80" }, { diameter = "1 in", wall = "1/8 in", header = "2 in" }, { pipe = "DN32", schedule = "STD" }]
least_angle = "45 deg"
rows_material = "mild"
machine = "big"

[[end_tool]]
work = "point"
shapes = ["round bar", "square bar"]
sizes = [{ size = "1/2 in" }]

[[end_tool]]
work = "flatten"
shapes = ["round tube"]
sizes = [{ size = "2 in", thickness = "1/8 in" }, { size = "1 in", thickness = "1/4 in" }]

[stock]
flat_widths = ["2 in", "3 in"]
flat_length = "20 ft"
plates = [{ width = "96 in", length = "48 in" }]
thicknesses = ["1/4 in", "3/8 in"]
gauges = [12, 10]
angles = [{ leg = "3 in", thickness = "1/4 in" }, { leg = "3 in", other_leg = "4 in", thickness = "3/8 in" }]
angle_length = "20 ft"
bar_length = "24 ft"

[also]
drill = { have = true, max_diameter = "2 in", max_thickness = "4 in", rate_per_minute = 1.5, seconds = "40 s" }
tap = false
thermal = true
grinder = { max_radius = "1 in" }
bought-cutting = { have = false }

[rates]
hit_stop = "1 s"
hit_mark = "2 s"
cut_bar = "3 s"
cut_plate = "4 s"
bite = "5 s"
punch_change = "6 min"
setting = "7 s"
first_off = "8 s"
handle_light = "9 s"
handle_medium = "10 s"
handle_heavy = "11 s"
turn = "0 s"
deburr = "3 ft/min"
drill = "13 s"
other = "14 s"
availability = 0.7

[rules.web]
error_below = 0.4
care_below = "0.9 t"
margin = "1/8 in"
loose = "1.2 d"

[rules.other]
force = "10 US ton"
stress = "1400 MPa"
turn = "30 deg"
time = "2 min"
lift = "50 lb"
share = "30 %"
on = true

[layers]
bend = ["Bend", "FOLD"]
mark = []
`

func TestEveryField(t *testing.T) {
	p := load(t, everything)
	const in = 25.4
	yes := true
	a36 := 60 * 6.894757293168361
	rowForce := func(length, thick float64) float64 { return shearForceKN(length*in, thick*in, 6*math.Pi/180, 414) }
	want := &Profile{
		Name: "All", Path: "shop.toml", Units: "in", Default: "A36", Buy: false,
		Machines: []Machine{{
			Name: "big", Table: true,
			Punch: &PunchStation{
				Rating:   Rating{ForceKN: 889.6443230521, Ton: "US", UsableShare: 0.9, UsableKN: 800.67989074689, BasisMPa: a36, BasisMaterial: "A36"},
				ThroatMM: 20 * in, Holders: []Holder{{Name: "small", MaxMM: 1.5 * in, Keys: []float64{0, math.Pi / 2}}, {Name: "holder 2", MaxMM: 3 * in, Keys: []float64{}}},
				DieHalfMM: 1.25 * in, StripperHalfMM: in, LegUpMM: 4 * in, StripperGapMM: 2 * in, OffsetDie: &OffsetDie{HalfMM: .625 * in, ForceKN: 266.89329691563},
				MaxThicknessMM: in, Stop: true, Strokes: 30,
			},
			Shear: &ShearStation{
				Rating: Rating{ForceKN: 90 * 8.896443230521, Ton: "US", UsableShare: 0.9, UsableKN: rowForce(12, .75), FromRow: true, BasisMPa: 414, BasisMaterial: "A36"},
				Rows:   []Row{{.75 * in, 12 * in}, {.375 * in, 18 * in}}, BladeMM: 24 * in, RakeRad: 6 * math.Pi / 180, HoldDownMM: 2.5 * in, PivotMM: 6 * in, OpeningMM: .875 * in, MitreRad: math.Pi / 4,
			},
			Notch: &NotchStation{
				Rating: Rating{ForceKN: 50 * 8.896443230521, Ton: "US", UsableShare: 0.9, UsableKN: 4 * in * .375 * in * .414, FromRow: true, BasisMPa: 414, BasisMaterial: "A36"},
				Rows:   []Row{{.375 * in, 4 * in}}, MaxThicknessMM: .5 * in, DieBeyondMM: .75 * in, ToolBeyondMM: .625 * in, LegUpMM: 3.5 * in,
			},
			Angle: &AngleStation{
				Rating:   Rating{ForceKN: 980.665, Ton: "metric", UsableShare: 0.9, UsableKN: 882.5985, BasisMPa: 414, BasisMaterial: "A36"},
				MaxLegMM: 5 * in, MaxThicknessMM: .5 * in, MitreRad: math.Pi / 4, MitreLegMM: 3 * in, MitreThicknessMM: .375 * in, UnequalNeedsBlade: true, MitreOneWay: true,
			},
			Bars: []BarStation{
				{Rating: Rating{ForceKN: 60 * 9.96401641818352, Ton: "long", UsableShare: 0.9, UsableKN: 54 * 9.96401641818352, BasisMPa: 414, BasisMaterial: "A36"}, Shape: "square", MaxMM: in},
				{Rating: Rating{UsableShare: 0.9, BasisMPa: 414, BasisMaterial: "A36"}, Shape: "channel", MaxMM: 4 * in},
				{Rating: Rating{ForceKN: 100, UsableShare: 0.9, UsableKN: 90, BasisMPa: 345, BasisMaterial: "mild"}, Shape: "round", MaxMM: .625 * in, CavitiesMM: []float64{.5 * in, .625 * in}, ByForce: true},
				{Rating: Rating{UsableShare: 0.9, BasisMPa: 414, BasisMaterial: "A36"}, Shape: "channel", MaxMM: 4 * in,
					Channels: []ChannelRow{{DepthMM: 3 * in}, {DepthMM: 4 * in, FlangeMM: 1.75 * in, WebMM: .25 * in, FlangeThicknessMM: .3125 * in}}},
			},
			Tubes: []TubeStation{
				{Rating: Rating{ForceKN: 50, UsableShare: 0.9, UsableKN: 45, BasisMPa: 414, BasisMaterial: "A36"}, Shape: "square", Rows: []Row{{.1875 * in, in}, {.125 * in, 2 * in}}},
				{Rating: Rating{UsableShare: 0.9, BasisMPa: 50 * 6.894757293168361, BasisMaterial: "A36"}, Shape: "round", Rows: []Row{{.125 * in, 2 * in}}},
			},
			Brake: &BrakeStation{
				Rating:   Rating{ForceKN: 300, UsableShare: 0.9, UsableKN: 270, BasisMPa: 414, BasisMaterial: "A36"},
				LengthMM: 12 * in, VMM: []float64{in, 2 * in}, PivotMM: 24 * in, PivotRefMM: 18 * in, StrokeMM: 1.5 * in,
			},
		}},
		Punches: []Punch{
			{Name: "old 13/16", Shape: "round", WidthMM: 20.6375, Holder: "small", Dies: []Die{{27. / 32 * in}, {.875 * in}}, Wear: 1.1, ShearMM: 3.175, Buy: &yes, Machine: "big"},
			{Name: "hexagon 1/2 in", Shape: "hexagon", WidthMM: 12.7, Wear: 1, Buy: &yes},
		},
		Notchers: []NotchTool{{Name: "old vee", Shape: "vee", WidthMM: 4 * in, DepthMM: 2 * in, AngleRad: math.Pi / 2, MaxThicknessMM: .375 * in,
			Rows: []Row{{.375 * in, in}, {.25 * in, 2 * in}}, Machine: "big"}},
		Ends: []EndTool{
			// Outside diameters and walls: ASME B36.10M, metric columns.
			{Name: "pipe coper", Work: "saddle", Shapes: []string{"round tube"}, LeastAngleRad: math.Pi / 4, BasisMPa: 345, BasisMaterial: "mild", Machine: "big",
				Sizes: []EndSize{{in, .125 * in, 2 * in}, {42.2, 3.56, 42.2}, {48.3, 5.08, 48.3}}},
			{Name: "point to 1/2 in", Work: "point", Shapes: []string{"round bar", "square bar"}, BasisMPa: 414, BasisMaterial: "A36", Sizes: []EndSize{{.5 * in, 0, 0}}},
			{Name: "flatten to 2 in", Work: "flatten", Shapes: []string{"round tube"}, BasisMPa: 414, BasisMaterial: "A36", Sizes: []EndSize{{in, .25 * in, 0}, {2 * in, .125 * in, 0}}},
		},
		Materials: builtInMaterials(),
		Stock: Stock{FlatWidthsMM: []float64{2 * in, 3 * in}, FlatLengthMM: 6096, Plates: [][2]float64{{48 * in, 96 * in}}, ThicknessMM: []float64{.25 * in, .375 * in}, ThicknessStated: true,
			Gauges: []Gauge{{10, .1345 * in}, {12, .1046 * in}}, Stated: true,
			Angles: []AngleBar{{[2]float64{3 * in, 3 * in}, .25 * in}, {[2]float64{4 * in, 3 * in}, .375 * in}}, AngleLengthMM: 240 * in, BarLengthMM: 288 * in},
		Also: []Process{
			{Kind: "drill", Have: true, MaxDiameterMM: 2 * in, MaxThicknessMM: 4 * in, RatePerMinute: 1.5, Seconds: 40},
			{Kind: "tap", MaxDiameterMM: 24, Seconds: 60},
			{Kind: "countersink", Have: true, MaxDiameterMM: 40, Seconds: 45},
			{Kind: "saw", Have: true, Seconds: 120},
			{Kind: "thermal", Have: true, Seconds: 60},
			{Kind: "grinder", Have: true, MaxThicknessMM: 12, MaxRadiusMM: in, Seconds: 120},
			{Kind: "bought-cutting", Seconds: 1},
		},
		Rates: Rates{HitStop: 1, HitMark: 2, CutBar: 3, CutPlate: 4, Bite: 5, PunchChange: 360, Setting: 7, FirstOff: 8, HandleLight: 9, HandleMedium: 10, HandleHeavy: 11,
			Turn: 0, DeburrMPerMinute: 0.9144, Drill: 13, Other: 14, Availability: 0.7},
		Settings: map[string]map[string]float64{
			"web":   {"error_below": 0.4, "care_below": 0.9, "margin": 3.175, "loose": 1.2},
			"other": {"force": 88.96443230521, "stress": 1400, "turn": 30, "time": 120, "lift": 22.6796185, "share": 30, "on": 1},
		},
		Layers: map[string][]string{"bend": {"bend", "fold"}, "mark": {}},
	}
	opts := cmp.Options{cmpopts.EquateApprox(1e-12, 1e-9), cmpopts.IgnoreFields(Profile{}, "Places")}
	if diff := cmp.Diff(want, p, opts); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	lines := strings.Split(everything, "\n")
	places := 0
	for rule, params := range p.Places {
		for param, s := range params {
			places++
			if s.Value != p.Settings[rule][param] || !strings.HasPrefix(lines[s.Line-1], param+" =") || s.Column != 1 {
				t.Errorf("%s.%s is said to stand at %+v", rule, param, s)
			}
		}
	}
	units := map[string]string{"error_below": "", "care_below": "t", "margin": "mm", "loose": "d"}
	for param, unit := range units {
		if p.Places["web"][param].Unit != unit {
			t.Errorf("%s: unit %q, want %q", param, p.Places["web"][param].Unit, unit)
		}
	}
	for param, unit := range map[string]string{"force": "kN", "stress": "MPa", "turn": "deg", "time": "s", "lift": "kg", "share": "%", "on": ""} {
		if p.Places["other"][param].Unit != unit {
			t.Errorf("%s: unit %q, want %q", param, p.Places["other"][param].Unit, unit)
		}
	}
	if places != 11 {
		t.Errorf("%d places", places)
	}
}

// Defaults of a file that says nothing (judgement and common practice, no source).
func TestDefaults(t *testing.T) {
	p := load(t, minimal)
	if !p.Buy || p.Default != "mild" || p.Settings != nil || p.Layers != nil || len(p.Problems) != 0 {
		t.Errorf("%+v", p)
	}
	if got := p.Machines[0].Punch; got.StripperGapMM != 45 || got.UsableShare != 0.9 || got.Holders[0].Keys != nil {
		t.Errorf("%+v", got)
	}
	for kind, have := range map[string]bool{"drill": true, "tap": true, "countersink": true, "saw": true, "grinder": true, "thermal": false, "bought-cutting": false, "no such": false} {
		if q := p.Process(kind); q.Have != have || q.Kind != kind {
			t.Errorf("%s: %+v", kind, q)
		}
	}
	if g := p.Process("grinder"); g.MaxRadiusMM != 15 || g.MaxThicknessMM != 12 {
		t.Errorf("%+v", g)
	}
	if r := p.Rates; r.HitStop != 8 || r.HitMark != 25 || r.CutBar != 15 || r.CutPlate != 40 || r.Bite != 12 || r.PunchChange != 120 || r.Setting != 180 || r.FirstOff != 180 || r.Availability != 0.8 || r.HandleHeavy != 120 || r.DeburrMPerMinute != 1 {
		t.Errorf("%+v", r)
	}
}

// Limits: just below, at, just above, met when equal.
func TestBounds(t *testing.T) {
	for _, c := range []struct {
		mark, text string
		ok         bool
	}{
		{"punch", "rated = \"1 kN\"", true}, {"punch", "rated = \"0.99 kN\"", false}, {"punch", "rated = \"50000 kN\"", true}, {"punch", "rated = \"50001 kN\"", false},
		{"punch", "rated = \"550 kN\"\nusable_share = 1", true}, {"punch", "rated = \"550 kN\"\nusable_share = 1.001", false}, {"punch", "rated = \"550 kN\"\nusable_share = 0.3", true}, {"punch", "rated = \"550 kN\"\nusable_share = 0.29", false},
		{"punch", "rated = \"550 kN\"\nusable_share = \"100 %\"", true}, {"punch", "rated = \"550 kN\"\nusable_share = \"101 %\"", false}, {"punch", "rated = \"550 kN\"\nusable_share = nan", false}, {"punch", "rated = \"550 kN\"\nstrokes = inf", false},
		{"end", "[machine.notcher]\nrated = \"450 kN\"\nmax_thickness = \"300 mm\"", true}, {"end", "[machine.notcher]\nrated = \"450 kN\"\nmax_thickness = \"300.1 mm\"", false}, {"end", "[machine.notcher]\nrated = \"450 kN\"", false},
		{"end", "[[punch]]\nsize = \"22 mm\"\ndies = [\"22.001 mm\"]", true}, {"end", "[[punch]]\nsize = \"22 mm\"\ndies = [\"22 mm\"]", false}, {"end", "[[punch]]\nsize = \"22 mm\"\ndies = [\"21.9 mm\"]", false},
		{"end", "[[punch]]\nsize = \"20 mm\"\ndies = [\"27 mm\"]", true}, {"end", "[[punch]]\nsize = \"20 mm\"\ndies = [\"27.1 mm\"]", false},
		{"end", "[[punch]]\nsize = \"20 mm\"", false}, {"end", "[[punch]]\nsize = \"20 mm\"\nbuy = true", true}, {"end", "[[punch]]\nsize = \"20 mm\"\nbuy = false", false},
		{"end", "[[punch]]\nshape = \"slot\"\nsize = \"20 mm\"\nlength = \"20 mm\"\ndies = [\"21 mm\"]", false}, {"end", "[[punch]]\nshape = \"slot\"\nsize = \"20 mm\"\nlength = \"20.1 mm\"\ndies = [\"21 mm\"]", true},
		{"end", "[[punch]]\nsize = \"20 mm\"\nlength = \"30 mm\"\ndies = [\"21 mm\"]", false},
		// the holder takes 40: a square of 28.28 has a diagonal of 39.99, one of 28.29 40.01
		{"end", "[[punch]]\nshape = \"square\"\nholder = \"standard\"\nsize = \"28.28 mm\"\ndies = [\"29 mm\"]", true}, {"end", "[[punch]]\nshape = \"square\"\nholder = \"standard\"\nsize = \"28.29 mm\"\ndies = [\"29 mm\"]", false},
		{"end", "[[punch]]\nsize = \"22 mm\"\ndies = [\"23 mm\"]\n[[punch]]\nsize = \"22.0 mm\"\ndies = [\"24 mm\"]", false},
		{"machine", "[machine.shear]\nblade = \"600 mm\"\nopening = \"20 mm\"\nrows = [{ thickness = \"20 mm\", cut = \"600 mm\" }]\n", true},
		{"machine", "[machine.shear]\nblade = \"600 mm\"\nopening = \"19.9 mm\"\nrows = [{ thickness = \"20 mm\", cut = \"600 mm\" }]\n", false},
		{"machine", "[machine.shear]\nblade = \"599 mm\"\nrows = [{ thickness = \"20 mm\", cut = \"600 mm\" }]\n", false},
		{"machine", "[machine.shear]\nblade = \"600 mm\"\nrated = \"500 kN\"\n", false}, {"machine", "[machine.shear]\nblade = \"600 mm\"\nrated = \"500 kN\"\nrake = \"6 deg\"\n", true},
		{"machine", "[machine.shear]\nblade = \"600 mm\"\nrows = [{ thickness = \"20 mm\", cut = \"300 mm\" }, { thickness = \"10 mm\", cut = \"300 mm\" }]\n", true},
		{"machine", "[machine.shear]\nblade = \"600 mm\"\nrows = [{ thickness = \"20 mm\", cut = \"300 mm\" }, { thickness = \"10 mm\", cut = \"299 mm\" }]\n", false},
		{"end", "[[notch_tool]]\nshape = \"vee\"\ndepth = \"50 mm\"\nangle = \"90 deg\"", true}, {"end", "[[notch_tool]]\nshape = \"vee\"\ndepth = \"50 mm\"", false}, {"end", "[[notch_tool]]\nshape = \"vee\"\ndepth = \"50 mm\"\nangle = \"90 deg\"\nwidth = \"102.4 mm\"", true}, {"end", "[[notch_tool]]\nshape = \"vee\"\ndepth = \"50 mm\"\nangle = \"90 deg\"\nwidth = \"102.6 mm\"", false},
		{"end", "[stock]\ngauges = [3, 30]", true}, {"end", "[stock]\ngauges = [2]", false}, {"end", "[stock]\ngauges = [31]", false}, {"end", "[stock]\ngauges = [10, 10]", false}, {"end", "[stock]\ngauges = [10.5]", false},
		{"end", "[stock]\nangles = [{ leg = \"75 mm\", thickness = \"8 mm\" }, { leg = \"75 mm\", other_leg = \"50 mm\", thickness = \"8 mm\" }]", true},
		{"end", "[stock]\nangles = [{ leg = \"75 mm\", other_leg = \"50 mm\", thickness = \"8 mm\" }, { leg = \"50 mm\", other_leg = \"75 mm\", thickness = \"8 mm\" }]", false},
		{"end", "[stock]\nangles = [{ leg = \"75 mm\" }]", false}, {"end", "[stock]\nangles = [{ leg = \"75 mm\", thickness = \"37.5 mm\" }]", false}, {"end", "[stock]\nangles = [\"75x75x8\"]", false},
		{"end", "[stock]\nangle_length = \"6 m\"", true}, {"end", "[stock]\nangle_length = \"100 mm\"", false},
		{"machine", "[machine.angle]\nleg = \"80 mm\"\nthickness = \"8 mm\"\nmitre_one_way = true\n", false}, {"machine", "[machine.angle]\nleg = \"80 mm\"\nthickness = \"8 mm\"\nmitre = \"45 deg\"\nmitre_one_way = true\n", true},
	} {
		_, err := Load(strings.NewReader(with(c.mark, c.text)), "")
		if (err == nil) != c.ok {
			t.Errorf("%s\nok %v, got %v", c.text, c.ok, err)
		}
	}
}

// The vee's mouth from depth and angle: 2 x 50 x tan 45 deg = 100.
func TestVeeWidth(t *testing.T) {
	p := load(t, with("end", "[[notch_tool]]\nshape = \"vee\"\ndepth = \"50 mm\"\nangle = \"90 deg\""))
	if got := p.Notchers[0]; math.Abs(got.WidthMM-100) > 1e-9 || got.Name != "vee 90 deg x 50" {
		t.Errorf("%+v", got)
	}
}

func TestBody(t *testing.T) {
	for _, c := range []struct {
		p    Punch
		want float64
	}{
		{Punch{Shape: "round", WidthMM: 22}, 22}, {Punch{Shape: "slot", WidthMM: 22, LengthMM: 60}, 60},
		{Punch{Shape: "square", WidthMM: 20}, 28.284}, {Punch{Shape: "rectangle", WidthMM: 30, LengthMM: 40}, 50}, {Punch{Shape: "hexagon", WidthMM: 20}, 23.094},
	} {
		if got := c.p.Body(); math.Abs(got-c.want) > 0.001 {
			t.Errorf("%+v: %v", c.p, got)
		}
	}
}

// Names of the rack in both habits.
func TestToolNames(t *testing.T) {
	text := "[[punch]]\nsize = \"22 mm\"\ndies = [\"23 mm\"]\n[[punch]]\nsize = \"13/16 in\"\ndies = [\"7/8 in\"]\n[[punch]]\nshape = \"slot\"\nsize = \"18 mm\"\nlength = \"36 mm\"\ndies = [\"19 mm\"]"
	for units, want := range map[string]string{"mm": "Ø22, Ø13/16 in, slot 18 x 36", "in": "Ø0.866 in, Ø13/16 in, slot 0.709 in x 1.417 in"} {
		p := load(t, strings.Replace(with("end", text), `units = "mm"`, `units = "`+units+`"`, 1))
		var names []string
		for _, q := range p.Punches {
			names = append(names, q.Name)
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("%s: %s, want %s", units, got, want)
		}
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("disk on fire") }

func TestLoadOfWhatIsNoFile(t *testing.T) {
	if _, err := Load(broken{}, "x.toml"); err == nil || !strings.Contains(err.Error(), "disk on fire") || !strings.Contains(err.Error(), "x.toml") {
		t.Errorf("%v", err)
	}
	if _, err := Load(io.MultiReader(strings.NewReader(minimal), strings.NewReader(strings.Repeat("#\n", maxFile/2))), "x.toml"); err == nil || !strings.Contains(err.Error(), "longer than") {
		t.Errorf("%v", err)
	}
	// An empty file asks for what is needed; a binary one is refused with a place.
	if got := problems(""); got != "1:1: machine is missing: a shop has at least one [[machine]]\n1:1: name is missing, for example name = \"Our shop\"\n1:1: units is missing, for example units = \"mm\"\n" {
		t.Errorf("%q", got)
	}
	if got := problems("name = \"a\"\nx\xff"); !strings.HasPrefix(got, "2:2: file is not UTF-8") {
		t.Errorf("%q", got)
	}
	// A byte order mark and the line ends of another system do not matter.
	if got := problems("\ufeff" + strings.ReplaceAll(minimal, "\n", "\r\n")); got != "" {
		t.Errorf("%q", got)
	}
}

func FuzzLoad(f *testing.F) {
	for _, s := range []string{minimal, everything, BuiltInText(), Template("in"), "a = [[[{}]]]", "[[a]]\n[a.b]\n[a]\n", "a.b.c = 1\na.b = 2", "x = 1979-05-27", "rows = [\n{", "name = \xff", "[machine]\npunch = 1", "[[machine]]\nname = 1\n[machine.punch.rows]\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Load(bytes.NewReader(data), "f.toml")
		var list []Problem
		var le *LoadError
		switch {
		case err == nil:
			list = p.Problems
			if p.Name == "" || len(p.Machines) == 0 || p.Units == "" {
				t.Fatalf("a shop without a name, unit or machine: %+v", p)
			}
			_ = Describe(p)
		case errors.As(err, &le):
			list = le.Problems
			if len(list) == 0 {
				t.Fatal("an error without a problem")
			}
		default:
			return
		}
		lines := bytes.Split(data, []byte("\n"))
		for _, q := range list {
			if q.Line < 1 || q.Line > len(lines) || q.Column < 1 || q.Column > len(lines[q.Line-1])+1 || q.Message == "" {
				t.Fatalf("problem without a place in the file: %+v", q)
			}
		}
	})
}
