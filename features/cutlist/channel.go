package cutlist

import (
	"fmt"
	"math"
	"strings"

	"burrside/features/measure"
)

// series gives the rows of a list of channels by the letters of its names, and
// its units.
func series(name string) (rows []channelRow, list string, inch bool) {
	switch name {
	case "UPN":
		return upnRows(), "EN 10365 UPN", false
	case "UPE":
		return upeRows(), "EN 10365 UPE", false
	case "PFC":
		return pfcRows(), "EN 10365 PFC", false
	case "C":
		return cRows(), "AISC C", true
	case "MC":
		return mcRows(), "AISC MC", true
	}
	return nil, "", false
}

// section makes a section of a row.
func (r channelRow) section(name, list string, inch bool) Section {
	k, area := 1.0, 100.0
	if inch {
		k, area = 25.4, 645.16
	}
	s := Section{Kind: Channel, Name: name, List: list, SizeMM: [2]float64{r.depth * k, r.flange * k}, ThicknessMM: r.web * k, FlangeThicknessMM: r.flangeThickness * k}
	s.AreaMM2 = r.area * area
	return s
}

// listedChannel finds a channel that is named by a series with its size or with
// size and mass (C4x5.4, PFC 100x50x10). found is false if the text is of
// another kind: a size without a series, or with web and flange.
func listedChannel(word string, sizes []float64) (s Section, found bool, err error) {
	switch word {
	case "UNP", "U":
		word = "UPN"
	}
	rows, list, inch := series(word)
	if rows == nil {
		return s, false, nil
	}
	n := func(v float64) string { return measure.FormatNumber(v, 2) }
	var hits []channelRow
	name := ""
	switch {
	case !inch && word != "PFC" && len(sizes) == 1:
		name = word + " " + n(sizes[0])
		for _, r := range rows {
			if r.depth == sizes[0] {
				hits = append(hits, r)
			}
		}
	case word == "PFC" && (len(sizes) == 2 || len(sizes) == 3):
		for _, r := range rows {
			// The third number is the mass in whole kilograms.
			if r.depth == sizes[0] && r.flange == sizes[1] && (len(sizes) == 2 || math.Abs(r.mass-sizes[2]) <= 0.5) {
				hits = append(hits, r)
				name = fmt.Sprintf("PFC %s x %s x %s", n(r.depth), n(r.flange), measure.FormatNumber(r.mass, 0))
			}
		}
	case inch && len(sizes) == 2:
		name = word + n(sizes[0]) + "x" + n(sizes[1])
		for _, r := range rows {
			if r.depth == sizes[0] && math.Abs(r.mass-sizes[1]) < 0.001 {
				hits = append(hits, r)
			}
		}
	default:
		return s, false, nil
	}
	if len(hits) != 1 {
		return s, true, fmt.Errorf("%s has no channel %s", list, strings.Join(numbers(sizes), " x "))
	}
	return hits[0].section(name, list, inch), true, nil
}

func numbers(v []float64) []string {
	out := make([]string, len(v))
	for i := range v {
		out[i] = measure.FormatNumber(v[i], 3)
	}
	return out
}
