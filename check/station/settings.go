package station

import "burrside/check/shop"

// A Setting is a number that a shop file may change, under the rule that it
// belongs to. The zero value is none.
type Setting struct {
	Rule, Name string
	Unit       string // "mm", "MPa", "t" (times the thickness), "%", "V" (times the die opening), ""
	Default    float64
	Min, Max   float64
	Doc        string
	Source     string
}

const shopPractice = "common practice, no source"

// Settings lists every setting that the stations read, by rule and name.
func Settings() []Setting {
	all := []Setting{
		{"bar-shear", "slack", "mm", 0, 0.1, 10, "by how much a cavity may be larger than the bar", shopPractice},
		{"bend", "clear", "mm", 0, 0, 100, "how far the open tool stands over the metal, so that it goes in", shopPractice},
		{"bend", "factor", "", 0, 1, 2, "factor C of the bending force C x Rm x L x t^2 / V", "common in metric charts; 1.33 in textbooks"},
		{"bend", "factor-care", "", 0, 1, 2.5, "the higher factor of the second look; 575 t^2/V in US units", shopPractice},
		{"bend", "flange", "V", 0, 0.5, 1, "least flange, times the die opening", shopPractice},
		{"bend", "radius-fit", "", 0, 0.05, 1, "by what share of itself the radius of a note may differ from the one that comes out; 1 mm at least", shopPractice},
		{"channel-shear", "fit", "mm", 0, 0.1, 10, "by how much a channel may be less deep than its blades", shopPractice},
		{"die-clearance", "aim", "%", 0, 1, 40, "total die clearance aimed at, share of the thickness, where the material states none", shopPractice},
		{"die-clearance", "care-above", "%", 0, 10, 60, "total die clearance above which the edge rolls and the burr is heavy", shopPractice},
		{"die-clearance", "care-below", "%", 0, 0, 20, "total die clearance below which the punch sticks", shopPractice},
		{"end-tool", "fit", "mm", 0, 0.05, 3, "difference of tube or pipe and saddle tool that still counts as equal", shopPractice},
		{"end-tool", "fit-care", "mm", 0, 0.1, 6, "difference up to which the saddle is made with care", shopPractice},
		{"hold-down", "assumed", "mm", 0, 10, 200, "reach of the hold-down where the shop file states none", shopPractice},
		{"leg-clearance", "wall", "mm", 0, 1, 10, "least wall of an offset die beside the hole, die clearance included", shopPractice},
		{"notch-tool", "engagement", "", 0, 0.1, 1, "least share of the tool's width that a bite takes on one side only", shopPractice},
		{"notch-tool", "fit", "mm", 0, 0, 2, "difference of notch and tool that still counts as equal", shopPractice},
		{"notch-tool", "overlap", "mm", 0, 0.5, 20, "least overlap of two bites", shopPractice},
		{"notch-tool", "overlap-share", "t", 0, 0, 1, "least overlap of two bites, times the thickness", shopPractice},
		{"punch-force", "penetration", "", 0, 0.1, 1, "share of the thickness at which mild steel breaks, for shear ground on the tool", "order of magnitude, from memory"},
		{"punch-ratio", "care", "MPa", 0, 500, 3000, "pressure in the punch above which it needs care", "hardened tool steel in compression, order of magnitude, from memory"},
		{"punch-ratio", "error", "MPa", 0, 500, 3000, "pressure in the punch above which it breaks", "hardened tool steel in compression, order of magnitude, from memory"},
		{"punch-ratio", "tolerance", "mm", 0, 0, 0.5, "by how much the hole may be smaller than the plate is thick", shopPractice},
		{"sliver", "care", "t", 0, 0.5, 5, "width of an offcut below which it needs care", shopPractice},
		{"sliver", "care-least", "mm", 0, 0, 30, "width of an offcut below which it needs care, whatever the thickness", shopPractice},
		{"sliver", "error", "t", 0, 0.2, 3, "width of an offcut below which it wedges between the blades", shopPractice},
		{"slot-hits", "cusp", "mm", 0, 0.05, 2, "height of the cusps left when a slot is nibbled", shopPractice},
		{"slot-hits", "nibble", "", 0, 0, 1, "1 allows slots to be nibbled with a round punch", shopPractice},
		{"slot-hits", "nibble-thickness", "mm", 0, 1, 12, "thickest plate that is nibbled", shopPractice},
		{"throat-reach", "margin", "mm", 0, 0, 20, "scale and burr: within this of the throat's depth the set-up needs care", shopPractice},
		{"tool", "over", "mm", 0, 0, 2, "by how much a tool of the rack may be larger than drawn", "EN 1090-2 hole tolerance of 0.5 mm, from memory"},
		{"tool", "over-care", "mm", 0, 0, 3, "by how much it may be larger with care", shopPractice},
		{"tool", "remark", "mm", 0, 0, 1, "difference from the drawn size that is remarked", shopPractice},
		{"tool", "under", "mm", 0, 0, 1, "by how much a tool of the rack may be smaller than drawn", shopPractice},
		{"twist", "width", "t", 0, 1, 20, "width of a strip below which it twists as it falls from the shear", shopPractice},
	}
	for i := range all {
		all[i].Default = defaultOf(all[i].Rule, all[i].Name)
	}
	return all
}

// settings are the values in force for one shop.
type settings struct{ shop map[string]map[string]float64 }

func settingsOf(prof *shop.Profile) settings { return settings{prof.Settings} }

// value gives what the shop file sets, else the default.
func (s settings) value(rule, name string) float64 {
	if v, ok := s.shop[rule][name]; ok {
		return v
	}
	return defaultOf(rule, name)
}

// defaultOf is the value of a setting that the shop file leaves alone.
func defaultOf(rule, name string) float64 {
	switch rule {
	case "bar-shear":
		switch name {
		case "slack":
			return 1
		}
	case "channel-shear":
		switch name {
		case "fit":
			return 1
		}
	case "end-tool":
		switch name {
		case "fit":
			return 0.5
		case "fit-care":
			return 1.5
		}
	case "bend":
		switch name {
		case "clear":
			return 3
		case "factor":
			return 1.42
		case "factor-care":
			return 1.6
		case "flange":
			return 0.7
		case "radius-fit":
			return 0.25
		}
	case "die-clearance":
		switch name {
		case "aim":
			return 12
		case "care-above":
			return 30
		case "care-below":
			return 5
		}
	case "hold-down":
		switch name {
		case "assumed":
			return 60
		}
	case "leg-clearance":
		switch name {
		case "wall":
			return 4
		}
	case "notch-tool":
		switch name {
		case "engagement":
			return 0.5
		case "fit":
			return 0.5
		case "overlap":
			return 3
		case "overlap-share":
			return 0.25
		}
	case "punch-force":
		switch name {
		case "penetration":
			return 0.4
		}
	case "punch-ratio":
		switch name {
		case "care":
			return 1400
		case "error":
			return 1700
		case "tolerance":
			return 0.05
		}
	case "sliver":
		switch name {
		case "care":
			return 2
		case "care-least":
			return 5
		case "error":
			return 1
		}
	case "slot-hits":
		switch name {
		case "cusp":
			return 0.5
		case "nibble":
			return 0
		case "nibble-thickness":
			return 6
		}
	case "throat-reach":
		switch name {
		case "margin":
			return 3
		}
	case "tool":
		switch name {
		case "over":
			return 0.5
		case "over-care":
			return 1
		case "remark":
			return 0.1
		case "under":
			return 0.2
		}
	case "twist":
		switch name {
		case "width":
			return 8
		}
	}
	panic("station: no setting " + rule + "." + name) // a slip of this package, not of a shop file
}
