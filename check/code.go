package check

import (
	"slices"
	"strings"

	"burrside/check/plan"
)

// Code is a set of rules that a drawing can be held against on request.
type Code struct {
	ID    string // as --code names it
	Name  string // standard and edition
	Bolts bool   // has rules for bolt holes; if not, for inside corners only
}

// Codes lists the codes that can be chosen. None is chosen unless asked for.
func Codes() []Code {
	return []Code{
		{"aisc", "ANSI/AISC 360-22", true},
		{"aisc-2010", "ANSI/AISC 360-10", true},
		{"aisc-2005", "ANSI/AISC 360-05", true},
		{"en", "EN 1993-1-8:2005", true},
		{"csa", "CSA S16-09", true},
		{"is", "IS 800:2007", true},
		{"aws", "AWS D1.1", false},
	}
}

// codeName is the full name of a code by its short one.
func codeName(id string) string {
	for _, c := range Codes() {
		if c.ID == id {
			return c.Name
		}
	}
	return id
}

// codeNames names all codes of a job, for the head of a report; "" none.
func codeNames(job *plan.Job) string {
	var names []string
	for _, id := range []string{job.Code, job.WeldCode} {
		if id != "" {
			names = append(names, codeName(id))
		}
	}
	return strings.Join(names, " and ")
}

// isAISC tells an edition of ANSI/AISC 360.
func isAISC(code string) bool { return code == "aisc" || strings.HasPrefix(code, "aisc-") }

// noCode tells that no code for bolt holes is chosen, and says so.
func (p *Pass) noCode() bool {
	switch {
	case slices.ContainsFunc(Codes(), func(c Code) bool { return c.Bolts && c.ID == p.Job.Code }):
		return false
	case p.Job.Code == "":
		p.Skip("no code chosen, see --code")
	default:
		p.Skip("unknown code %q", p.Job.Code)
	}
	return true
}

// codeSources cites the tables of the chosen code.
func codeSources(code string) []string {
	switch code {
	case "en":
		return []string{"EN 1993-1-8:2005 Table 3.3"}
	case "csa":
		return []string{"CSA S16-09 Table 6"}
	case "is":
		return []string{"IS 800:2007 10.2"}
	}
	return []string{codeName(code) + " Tables J3.3, J3.4, J3.5 (in metric: J3.3M, J3.4M, J3.5M)"}
}

// boltTable is a code's list of bolts, by unit.
type boltTable struct {
	metric, inch []boltRow
	// beyond makes the row of a bolt larger than the last of its list, from the
	// code's own expressions.
	beyond func(dMM float64, inch bool) boltRow
}

// tableOf gives the bolts of a code; an empty table for a code that has none.
func tableOf(code string) boltTable {
	switch code {
	case "en", "is":
		return boltTable{metric: enRows(), beyond: func(d float64, _ bool) boltRow { return enRow(d) }}
	case "csa":
		return boltTable{metric: csaRows(), beyond: func(d float64, _ bool) boltRow { return csaBeyond(d) }}
	}
	if !isAISC(code) {
		return boltTable{}
	}
	return boltTable{metric: aiscMetric(code), inch: aiscInch(code), beyond: func(d float64, inch bool) boltRow {
		if inch {
			return aiscInchBeyond(code, d/25.4)
		}
		return aiscMetricBeyond(code, d)
	}}
}

// rowOf gives the row of a named bolt. A size that the table has not takes the
// row of the next larger one, and note says so.
func (t *boltTable) rowOf(designation string) (row boltRow, note string, ok bool) {
	d, ok := boltSizeMM(designation)
	if !ok || len(t.metric) == 0 {
		return boltRow{}, "", false
	}
	own, other := t.inch, t.metric
	if strings.HasPrefix(strings.ToUpper(strings.TrimSpace(designation)), "M") {
		own, other = t.metric, t.inch
	}
	for _, rows := range [][]boltRow{own, other} {
		for _, r := range rows {
			if abs(d-r.boltMM) < 0.01 {
				return r, "", true
			}
		}
	}
	if len(own) == 0 {
		own = t.metric
	}
	for _, r := range own {
		if r.boltMM > d {
			r.boltMM, note = d, "the code lists no bolt "+designation+": the row of "+r.name+" is taken"
			r.name = designation
			return r, note, true
		}
	}
	row = t.beyond(d, len(t.inch) > 0 && own[0].boltMM == t.inch[0].boltMM)
	row.name = designation
	return row, "", true
}
