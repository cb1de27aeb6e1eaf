package check

import (
	"burrside/check/plan"
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
	Example func() Example   // a case that the rule speaks about; its numbers are worked out by the code itself
	Code    string           // "aisc" or "en" if it belongs to a code; "" otherwise
	Part    func(*Pass)      // judges a part; nil if the rule is about the drawing
	Sheet   func(*SheetPass) // judges the drawing; nil if it is about a part
	Bar     func(*BarPass)   // judges a line of a cut list; nil if what stations looked at is all there is to say
}

// Param is a parameter of a rule; a shop file may set it within its range.
type Param struct {
	Name     string
	Unit     string // "mm", "MPa", "kN", "t" (times the thickness), "d", "%", ""
	Default  float64
	Min, Max float64
	Doc      string
	Source   Cite // of the default, where it is not that of the rule
}

// Cite names a source: a standard with edition and table, a worked example, or
// "common practice, no source"; Memory tells that the value was not read.
type Cite struct {
	Text   string
	Memory bool
}

// Example is a small case of a rule: a part with its job, or a drawing. The
// example shop judges it.
type Example struct {
	Text  string // what is judged, one line
	Part  *features.Part
	Job   plan.Job
	Sheet *features.Sheet // of a rule about the drawing
	List  string          // of a rule about a cut list: the list
}

// shopPractice cites a habit of the trade that no publication was found for.
func shopPractice() Cite { return Cite{Text: "common practice, no source"} }
