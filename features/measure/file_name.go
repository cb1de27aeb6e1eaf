package measure

import (
	"strconv"
	"strings"
)

// FileNote is what a file's name says of the part: the weakest of witnesses,
// since files are copied and renamed.
type FileNote struct {
	Thickness LengthValue // with its unit, or without where the name has none
	Gauge     int
	Material  string
	Quantity  int
}

// FileName reads a name without its folder and ending: "PL10_S275_4pcs", "g7_t10",
// "tray 3mm", "panel-10ga". Two thicknesses, grades or numbers of pieces that
// differ count as none.
func FileName(name string) FileNote {
	var n FileNote
	if len(name) > 255 {
		return n
	}
	var sizes []LengthValue
	var gauges, pieces []int
	var grades []string
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" _()[],;+=", r) })
	for _, word := range words {
		if g, ok := MaterialNote(strings.ToUpper(word)); ok && gradeFamily(squeeze(g)) != "" {
			grades = append(grades, g)
			continue
		}
		for _, w := range strings.Split(word, "-") {
			if g, ok := MaterialNote(strings.ToUpper(w)); ok && gradeFamily(squeeze(g)) != "" {
				grades = append(grades, g)
				continue
			}
			if v, ok := nameThickness(w); ok {
				sizes = append(sizes, v)
			} else if g, ok := affix(w, "ga", "gauge"); ok && g >= 3 && g <= 30 {
				gauges = append(gauges, int(g))
			} else if q, ok := namePieces(w); ok {
				pieces = append(pieces, q)
			}
		}
	}
	if len(sizes) > 0 && same(sizes) {
		n.Thickness = sizes[0]
	}
	if len(gauges) > 0 && same(gauges) && len(sizes) == 0 {
		n.Gauge = gauges[0]
	}
	if len(pieces) > 0 && same(pieces) {
		n.Quantity = pieces[0]
	}
	if len(grades) > 0 && same(grades) {
		n.Material = grades[0]
	}
	return n
}

func same[T comparable](list []T) bool {
	for _, v := range list {
		if v != list[0] {
			return false
		}
	}
	return true
}

// affix reads the number of a word that begins or ends with one of the given.
func affix(w string, marks ...string) (float64, bool) {
	for _, m := range marks {
		rest, ok := strings.CutPrefix(w, m)
		if !ok {
			rest, ok = strings.CutSuffix(w, m)
		}
		if !ok || rest == "" || strings.Trim(rest, "0123456789.") != "" {
			continue
		}
		v, err := strconv.ParseFloat(rest, 64)
		if err == nil && v > 0 && v < 1e6 {
			return v, true
		}
	}
	return 0, false
}

// nameThickness reads "t10", "10mm", "pl10", "thk6", "t10mm", "0.25in". Sizes that
// no plate of a shop has are passed over: 0.3 to 150 mm.
func nameThickness(w string) (LengthValue, bool) {
	unit := ""
	core := w
	if c, ok := strings.CutSuffix(w, "mm"); ok {
		core, unit = c, "mm"
	} else if c, ok := strings.CutSuffix(w, "in"); ok {
		core, unit = c, "in"
	}
	v, ok := affix(core, "thk", "pl", "bl", "ep", "sp")
	if !ok {
		if c, cut := strings.CutPrefix(core, "t"); cut && c != "" && strings.Trim(c, "0123456789.") == "" {
			v, ok = affix(core, "t")
		}
	}
	if !ok && unit != "" && core != "" && strings.Trim(core, "0123456789.") == "" {
		f, err := strconv.ParseFloat(core, 64)
		v, ok = f, err == nil
	}
	l := LengthValue{MM: v, Unit: unit}
	if unit == "in" {
		l.MM = tidy(v * mmPerInch)
	}
	if !ok || l.MM < 0.05 || l.MM > 150 || unit != "" && l.MM < 0.3 {
		return LengthValue{}, false
	}
	return l, true
}

// namePieces reads "4pcs", "qty4", "4off", "x4", "4x".
func namePieces(w string) (int, bool) {
	v, ok := affix(w, "pcs", "pc", "off", "qty", "stk", "st", "x", "ks", "szt", "kom", "pz", "шт", "ea", "nos")
	if !ok || v != float64(int(v)) || v < 1 || v > 9999 {
		return 0, false
	}
	return int(v), true
}
