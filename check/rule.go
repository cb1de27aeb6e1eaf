package check

import (
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
)

// Rule is one rule as a value: what it measures, why, its parameters and
// sources, and the function that judges a part or a drawing.
type Rule struct {
	ID      string // slug, never reused
	Title   string // at most 60 letters, no full stop
	Why     string
	Measure string // what is measured, from where to where, with the formula
	Fix     string
	Params  []Param
	Sources []Cite
	Example string           // a worked example, computed by the code itself
	Code    string           // "aisc" or "en" if it belongs to a code; "" otherwise
	Part    func(*Pass)      // judges a part; nil if the rule is about the drawing
	Sheet   func(*SheetPass) // judges the drawing; nil if it is about a part
}

// Param is a parameter of a rule; a shop file may set it within its range.
type Param struct {
	Name     string
	Unit     string // "mm", "MPa", "kN", "t" (times the thickness), "d", "%", ""
	Default  float64
	Min, Max float64
	Doc      string
}

// Cite names a source: a standard with edition and table, a worked example, or
// "common practice, no source"; Memory tells that the value was not read.
type Cite struct {
	Text   string
	Memory bool
}

// Pass is what a rule sees of one part.
type Pass struct {
	Part *features.Part
	Plan *plan.Plan
	Shop *shop.Profile
	Job  plan.Job

	rule     *Rule
	findings []Finding
	skipped  []Skipped
}

// SheetPass is what a rule sees of one drawing.
type SheetPass struct {
	Sheet *features.Sheet
	Shop  *shop.Profile

	rule     *Rule
	findings []Finding
}

// Rules lists all rules, in the order of the handbook RULES.md.
func Rules() []Rule { panic("check: not written yet") }

// RunPart judges one part.
func RunPart(part *features.Part, prof *shop.Profile, job plan.Job) *PartReport {
	panic("check: not written yet")
}

// Run judges a whole drawing. job holds what flags and answers say; what it
// leaves open is taken from each part's own text.
func Run(drawing string, sheet *features.Sheet, prof *shop.Profile, job plan.Job) *Report {
	panic("check: not written yet")
}

// Unreadable is the report of a drawing that could not be read.
func Unreadable(drawing string, prof *shop.Profile, err error) *Report {
	return &Report{Drawing: drawing, Shop: prof, Verdict: CannotTell, Err: err}
}

// CheckSettings tells which settings of a shop file name no rule or parameter,
// or are out of range.
func CheckSettings(prof *shop.Profile) []shop.Problem { panic("check: not written yet") }
