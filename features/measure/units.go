package measure

import (
	"math"
	"strings"
	"unicode"
)

func isLetter(c rune) bool { return unicode.IsLetter(c) }

// Forces in kilonewtons. The pound-force is 4.4482216152605 N exactly: the
// pound of 0.45359237 kg (international yard and pound agreement, 1959) times
// standard gravity 9.80665 m/s2 (3rd CGPM, 1901).
const (
	kNPerLbf       = 4.4482216152605e-3
	kNPerShortTon  = 2000 * kNPerLbf
	kNPerLongTon   = 2240 * kNPerLbf
	kNPerMetricTon = 9.80665
)

// KNPerTon is the force in kilonewtons that a ton of this kind stands for: "US",
// "metric" or "long"; 0 for any other word.
func KNPerTon(kind string) float64 {
	switch kind {
	case "US":
		return kNPerShortTon
	case "metric":
		return kNPerMetricTon
	case "long":
		return kNPerLongTon
	}
	return 0
}

// A ForceValue is a force with the ton that it was written in.
type ForceValue struct {
	KN  float64
	Ton string // "US", "metric", "long"; "" if it was not written in tons
}

// Force reads "550 kN", "60 US ton", "60 short ton", "60 metric ton", "60 long ton", "12000 lbf",
// in kilonewtons. A bare "ton" or "t" is refused with the three that it may mean.
func Force(text string) (float64, error) {
	v, err := ForceAndTon(text)
	return v.KN, err
}

// ForceAndTon reads a force as Force does and tells which ton it was written in.
func ForceAndTon(text string) (ForceValue, error) {
	ton := ""
	kn, err := value("force", text, "550 kN", func(word string) (float64, string) {
		factor, which, why := forceUnit(word)
		ton = which
		if why == bareTon {
			why = tonMeanings(text)
		}
		return factor, why
	})
	if err != nil {
		return ForceValue{}, err
	}
	return ForceValue{KN: kn, Ton: ton}, nil
}

const bareTon = "bare ton"

// tonMeanings words the refusal of a bare ton, with the kilonewtons of each.
func tonMeanings(text string) string {
	s := newScan(text)
	s.space()
	n, _, _ := s.number()
	one := func(name string, kn float64) string {
		return "\"" + trimmed(n.value, 3) + " " + name + "\" (" + trimmed(n.value*kn, 1) + " kN)"
	}
	return "which ton is meant? write " + one("US ton", kNPerShortTon) + ", " +
		one("metric ton", kNPerMetricTon) + " or " + one("long ton", kNPerLongTon)
}

func forceUnit(word string) (factor float64, ton, why string) {
	word = strings.TrimSuffix(word, ".")
	switch word {
	case "n", "newton", "newtons":
		return 1e-3, "", ""
	case "kn", "kilonewton", "kilonewtons":
		return 1, "", ""
	case "mn":
		return 1000, "", ""
	case "dan":
		return 1e-2, "", ""
	case "lbf", "pound-force", "pounds-force":
		return kNPerLbf, "", ""
	case "kip", "kips", "klbf":
		return 1000 * kNPerLbf, "", ""
	case "kgf", "kp":
		return kNPerMetricTon / 1000, "", ""
	case "lb", "lbs", "kg":
		return 0, "", "\"" + word + "\" is a mass, write lbf, kgf or kN for a force"
	case "tf":
		return kNPerMetricTon, "metric", ""
	}
	kind := word
	for _, t := range []string{"tonnes-force", "tonne-force", "tons-force", "ton-force", "tonnes", "tonne", "tons", "tonf", "ton", "t"} {
		rest, found := strings.CutSuffix(word, t)
		if !found {
			rest, found = strings.CutPrefix(word, t+" ")
		}
		if !found {
			continue
		}
		kind = strings.Trim(rest, " -.()")
		if strings.HasPrefix(t, "tonne") && kind == "" {
			kind = "metric" // a tonne is 1,000 kg in every habit
		}
		switch kind {
		case "us", "u.s", "short", "us short", "american":
			return kNPerShortTon, "US", ""
		case "metric":
			return kNPerMetricTon, "metric", ""
		case "long", "uk", "imperial", "british":
			return kNPerLongTon, "long", ""
		case "":
			return 0, "", bareTon
		}
		break
	}
	return 0, "", "\"" + word + "\" is no unit of force (kN, lbf, kip, US ton, metric ton, long ton)"
}

// Stress reads "345 MPa", "50 ksi", "345 N/mm2", in megapascals.
func Stress(text string) (float64, error) {
	return value("stress", text, "345 MPa", func(word string) (float64, string) {
		const mpaPerKsi = 1000 * kNPerLbf * 1000 / (mmPerInch * mmPerInch)
		switch strings.ReplaceAll(word, " ", "") {
		case "mpa", "n/mm2", "n/mm²", "n/mm^2":
			return 1, ""
		case "kpa":
			return 1e-3, ""
		case "gpa":
			return 1000, ""
		case "kn/cm2", "kn/cm²", "kn/cm^2":
			return 10, ""
		case "ksi":
			return mpaPerKsi, ""
		case "psi", "lbf/in2", "lbf/in²":
			return mpaPerKsi / 1000, ""
		case "kgf/mm2", "kgf/mm²", "kp/mm2", "kp/mm²":
			return kNPerMetricTon, ""
		}
		return 0, "\"" + word + "\" is no unit of strength (MPa, N/mm2, ksi, psi)"
	})
}

// Angle reads "45 deg", "45°", "7°30'", in radians.
func Angle(text string) (float64, error) {
	const rad = math.Pi / 180
	s := newScan(text)
	s.space()
	if n, ok, why := s.number(); ok && why == "" && s.at('°') {
		s.i++
		s.space()
		if m, ok, why := s.number(); ok && why == "" && s.at('\'') && m.value < 60 {
			s.i++
			if s.rest() == "" {
				return (n.value + m.value/60) * rad, nil
			}
		}
	}
	return value("angle", text, "45 deg", func(word string) (float64, string) {
		switch word {
		case "°", "deg", "deg.", "degree", "degrees":
			return rad, ""
		case "rad":
			return 1, ""
		}
		return 0, "\"" + word + "\" is no unit of angle (deg, °, rad)"
	})
}

// Mass reads "25 kg", "50 lb", in kilograms. A bare "ton" or "t" is refused.
func Mass(text string) (float64, error) {
	const kgPerLb = 0.45359237
	return value("mass", text, "25 kg", func(word string) (float64, string) {
		switch strings.TrimSuffix(word, ".") {
		case "kg", "kilogram", "kilograms":
			return 1, ""
		case "g", "gram", "grams":
			return 1e-3, ""
		case "lb", "lbs", "pound", "pounds":
			return kgPerLb, ""
		case "tonne", "tonnes", "metric ton", "metric tons":
			return 1000, ""
		case "us ton", "us tons", "short ton", "short tons":
			return 2000 * kgPerLb, ""
		case "long ton", "long tons":
			return 2240 * kgPerLb, ""
		case "t", "ton", "tons":
			return 0, "which ton is meant? write \"US ton\" (907.2 kg), \"metric ton\" (1000 kg) or \"long ton\" (1016 kg)"
		}
		return 0, "\"" + word + "\" is no unit of mass (kg, lb)"
	})
}

// Density reads "7850 kg/m3", "0.284 lb/in3", in kilograms a cubic metre.
func Density(text string) (float64, error) {
	return value("density", text, "7850 kg/m3", func(word string) (float64, string) {
		switch strings.ReplaceAll(word, " ", "") {
		case "kg/m3", "kg/m³", "kg/m^3":
			return 1, ""
		case "g/cm3", "g/cm³", "g/cm^3", "kg/dm3", "kg/dm³":
			return 1000, ""
		case "lb/in3", "lb/in³", "lb/in^3":
			return 0.45359237 / (mmPerInch * mmPerInch * mmPerInch * 1e-9), ""
		}
		return 0, "\"" + word + "\" is no unit of density (kg/m3, g/cm3, lb/in3)"
	})
}

// Seconds reads a time: "8 s", "2 min", "1.5 h".
func Seconds(text string) (float64, error) {
	return value("time", text, "8 s", func(word string) (float64, string) {
		switch word {
		case "s", "sec", "second", "seconds":
			return 1, ""
		case "min", "minute", "minutes":
			return 60, ""
		case "h", "hour", "hours":
			return 3600, ""
		}
		return 0, "\"" + word + "\" is no unit of time (s, min, h)"
	})
}

// Speed reads "1 m/min", "3 ft/min", in metres a minute.
func Speed(text string) (float64, error) {
	return value("speed", text, "1 m/min", func(word string) (float64, string) {
		switch strings.ReplaceAll(word, " ", "") {
		case "m/min":
			return 1, ""
		case "ft/min":
			return mmPerFoot / 1000, ""
		case "mm/min":
			return 1e-3, ""
		}
		return 0, "\"" + word + "\" is no unit of speed (m/min, ft/min)"
	})
}

// Share reads "90 %", as 0.9. A number without the sign is refused: 0.9 and 90
// could both be meant.
func Share(text string) (float64, error) {
	return value("share", text, "90 %", func(word string) (float64, string) {
		if word == "%" || word == "percent" {
			return 0.01, ""
		}
		return 0, "\"" + word + "\" is no share, write it in % "
	})
}
