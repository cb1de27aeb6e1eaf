package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// Pipe is a size of steel pipe by its nominal name.
type Pipe struct {
	NPS  string  // nominal pipe size in inches as it is written: "1-1/2"
	DN   int     // the same in the metric naming
	ODMM float64 // outside diameter
}

type pipeRow struct {
	Pipe
	wall40, wall80 float64 // mm, schedules 40 and 80
}

// pipeTable gives outside diameters and walls of ASME B36.10M, metric columns.
// 1/2 to 2 in were read (public schedule charts) and stand in testdata; the
// others are from memory.
func pipeTable() []pipeRow {
	return []pipeRow{
		{Pipe{"1/8", 6, 10.3}, 1.73, 2.41},
		{Pipe{"1/4", 8, 13.7}, 2.24, 3.02},
		{Pipe{"3/8", 10, 17.1}, 2.31, 3.20},
		{Pipe{"1/2", 15, 21.3}, 2.77, 3.73},
		{Pipe{"3/4", 20, 26.7}, 2.87, 3.91},
		{Pipe{"1", 25, 33.4}, 3.38, 4.55},
		{Pipe{"1-1/4", 32, 42.2}, 3.56, 4.85},
		{Pipe{"1-1/2", 40, 48.3}, 3.68, 5.08},
		{Pipe{"2", 50, 60.3}, 3.91, 5.54},
		{Pipe{"2-1/2", 65, 73.0}, 5.16, 7.01},
		{Pipe{"3", 80, 88.9}, 5.49, 7.62},
		{Pipe{"3-1/2", 90, 101.6}, 5.74, 8.08},
		{Pipe{"4", 100, 114.3}, 6.02, 8.56},
		{Pipe{"5", 125, 141.3}, 6.55, 9.53},
		{Pipe{"6", 150, 168.3}, 7.11, 10.97},
		{Pipe{"8", 200, 219.1}, 8.18, 12.70},
	}
}

// PipeByNPS finds a pipe by its nominal size in inches: "1-1/2", "1 1/2", "1.5".
func PipeByNPS(text string) (Pipe, bool) {
	if strings.HasPrefix(strings.TrimSpace(text), "-") {
		return Pipe{}, false
	}
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, "-", " ")), " ")
	for _, r := range pipeTable() {
		if strings.ReplaceAll(r.NPS, "-", " ") == text {
			return r.Pipe, true
		}
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return Pipe{}, false
	}
	for _, r := range pipeTable() {
		if l, err := Length(strings.ReplaceAll(r.NPS, "-", " ")); err == nil && l.MM == v { // a text without a unit: the bare number
			return r.Pipe, true
		}
	}
	return Pipe{}, false
}

// PipeByDN finds a pipe by its metric nominal size.
func PipeByDN(dn int) (Pipe, bool) {
	for _, r := range pipeTable() {
		if r.DN == dn {
			return r.Pipe, true
		}
	}
	return Pipe{}, false
}

// PipeByOD finds the pipe of an outside diameter, within half a millimetre.
func PipeByOD(odMM float64) (Pipe, bool) {
	for _, r := range pipeTable() {
		if d := r.ODMM - odMM; d >= -0.5 && d <= 0.5 {
			return r.Pipe, true
		}
	}
	return Pipe{}, false
}

// TwoDiameters gives the other outside diameter in use under the same metric
// name, 0 if there is none: the threaded tubes of EN 10255 differ from ASME
// B36.10M at these sizes. From memory.
func (p Pipe) TwoDiameters() float64 {
	switch p.DN {
	case 65:
		return 76.1
	case 125:
		return 139.7
	case 150:
		return 165.1
	}
	return 0
}

// WallMM is the wall of a schedule: "40", "80", "STD" and "XS", which are the
// same as 40 and 80 in all sizes of the table. ok is false for others.
func (p Pipe) WallMM(schedule string) (mm float64, ok bool) {
	for _, r := range pipeTable() {
		if r.NPS != p.NPS {
			continue
		}
		switch strings.ToUpper(strings.TrimSpace(schedule)) {
		case "40", "STD":
			return r.wall40, true
		case "80", "XS", "XH":
			return r.wall80, true
		}
	}
	return 0, false
}

// String names a pipe: `NPS 1-1/2 (DN 40)`.
func (p Pipe) String() string { return fmt.Sprintf("NPS %s (DN %d)", p.NPS, p.DN) }
