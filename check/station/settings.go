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
	return []Setting{
		{"bend", "factor", "", 1.42, 1, 2, "factor C of the bending force C x Rm x L x t^2 / V", "common in metric charts; 1.33 in textbooks"},
		{"bend", "factor-care", "", 1.6, 1, 2.5, "the higher factor of the second look; 575 t^2/V in US units", shopPractice},
		{"bend", "flange", "V", 0.7, 0.5, 1, "least flange, times the die opening", shopPractice},
		{"die-clearance", "aim", "%", 12, 1, 40, "total die clearance aimed at, share of the thickness, where the material states none", shopPractice},
		{"die-clearance", "care-above", "%", 30, 10, 60, "total die clearance above which the edge rolls and the burr is heavy", shopPractice},
		{"die-clearance", "care-below", "%", 5, 0, 20, "total die clearance below which the punch sticks", shopPractice},
		{"hold-down", "assumed", "mm", 60, 10, 200, "reach of the hold-down where the shop file states none", shopPractice},
		{"notch-tool", "engagement", "", 0.5, 0.1, 1, "least share of the tool's width that a bite takes on one side only", shopPractice},
		{"notch-tool", "fit", "mm", 0.5, 0, 2, "difference of notch and tool that still counts as equal", shopPractice},
		{"notch-tool", "overlap", "mm", 3, 0.5, 20, "least overlap of two bites", shopPractice},
		{"notch-tool", "overlap-share", "t", 0.25, 0, 1, "least overlap of two bites, times the thickness", shopPractice},
		{"punch-force", "penetration", "", 0.4, 0.1, 1, "share of the thickness at which mild steel breaks, for shear ground on the tool", "order of magnitude, from memory"},
		{"punch-ratio", "care", "MPa", 1400, 500, 3000, "pressure in the punch above which it needs care", "hardened tool steel in compression, order of magnitude, from memory"},
		{"punch-ratio", "error", "MPa", 1700, 500, 3000, "pressure in the punch above which it breaks", "hardened tool steel in compression, order of magnitude, from memory"},
		{"punch-ratio", "tolerance", "mm", 0.05, 0, 0.5, "by how much the hole may be smaller than the plate is thick", shopPractice},
		{"sliver", "care", "t", 2, 0.5, 5, "width of an offcut below which it needs care", shopPractice},
		{"sliver", "care-least", "mm", 5, 0, 30, "width of an offcut below which it needs care, whatever the thickness", shopPractice},
		{"sliver", "error", "t", 1, 0.2, 3, "width of an offcut below which it wedges between the blades", shopPractice},
		{"slot-hits", "cusp", "mm", 0.5, 0.05, 2, "height of the cusps left when a slot is nibbled", shopPractice},
		{"slot-hits", "nibble", "", 0, 0, 1, "1 allows slots to be nibbled with a round punch", shopPractice},
		{"slot-hits", "nibble-thickness", "mm", 6, 1, 12, "thickest plate that is nibbled", shopPractice},
		{"throat-reach", "margin", "mm", 3, 0, 20, "scale and burr: within this of the throat's depth the set-up needs care", shopPractice},
		{"tool", "over", "mm", 0.5, 0, 2, "by how much a tool of the rack may be larger than drawn", "EN 1090-2 hole tolerance of 0.5 mm, from memory"},
		{"tool", "over-care", "mm", 1, 0, 3, "by how much it may be larger with care", shopPractice},
		{"tool", "remark", "mm", 0.1, 0, 1, "difference from the drawn size that is remarked", shopPractice},
		{"tool", "under", "mm", 0.2, 0, 1, "by how much a tool of the rack may be smaller than drawn", shopPractice},
	}
}

// settings are the values in force for one shop.
type settings struct{ shop map[string]map[string]float64 }

func settingsOf(prof *shop.Profile) settings { return settings{prof.Settings} }

// value gives what the shop file sets, else the default.
func (s settings) value(rule, name string) float64 {
	if v, ok := s.shop[rule][name]; ok {
		return v
	}
	for _, d := range Settings() {
		if d.Rule == rule && d.Name == name {
			return d.Default
		}
	}
	panic("station: no setting " + rule + "." + name) // a slip of this package, not of a shop file
}
