// Package check judges parts: rules are run over a part, its plan, the shop and
// the job; findings and a verdict come out. Nothing here reads a drawing.
package check

import (
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/cutlist"
	"burrside/features/geom"
)

// Verdict is the answer about a part or a drawing; the values are those of the
// JSON report.
type Verdict string

// The verdicts, from best to worst.
const (
	Fits       Verdict = "fits"
	WithCare   Verdict = "fits-with-care"
	CannotTell Verdict = "cannot-tell"
	DoesNotFit Verdict = "does-not-fit"
)

// Severity of a finding.
type Severity string

// Severities: error cannot or must not be made so; warning can be made with
// care; note is worth knowing.
const (
	Error   Severity = "error"
	Warning Severity = "warning"
	Note    Severity = "note"
)

// Quantity is a number with its unit.
type Quantity struct {
	Value float64
	Unit  string
}

// Finding is what a rule says about one or several features.
type Finding struct {
	Rule                   string
	Severity               Severity
	Features               []string // IDs, worst first; empty: the part or the drawing
	Count                  int
	At                     geom.Point
	HasAt                  bool
	To                     *geom.Point // other end of the offending distance, for the picture
	Machine, Station, Tool string
	Tried                  []string // other machines that were looked at and do it no better
	Who                    string   // "shop", "buy", "designer", "customer"
	Got, Limit             *Quantity
	Message                string
	Basis                  string // the arithmetic on one line
	Fix                    string
	FixBy                  string   // "shop", "drawing"
	Sources                []string // published sources, or "common practice, no source"
	CannotTell             bool     // a datum is missing: the part is at best cannot-tell
	Source                 []features.Source

	cause  string  // findings of one rule, limit and remedy are one finding only if this is equal
	remedy string  // the fix without its numbers, where it has some; "" Fix itself
	worse  float64 // the larger, the worse, among findings that become one
}

// Skipped names a rule that was not run, with the reason.
type Skipped struct {
	Rule, Why string
}

// Limit is the answer for one stock thickness and material, when the drawing
// does not state them.
type Limit struct {
	Material    string
	ThicknessMM float64
	Verdict     Verdict
	StoppedBy   string // rule, "" if it fits
	Features    []string
	Text        string
}

// PartReport is the judgement of one part.
type PartReport struct {
	Part       *features.Part
	Job        plan.Job
	Plan       *plan.Plan
	Verdict    Verdict
	Reason     string    // a few words for the heading: "punch force on H1", "no thickness"
	Findings   []Finding // worst first
	Suppressed []Suppressed
	Skipped    []Skipped
	Limits     []Limit
	Features   []FeatureVerdict // one for each feature of the part
	Questions  []string         // plain sentences for the customer
	Cautions   []string         // at most four, chosen by what the part does
	// Changes that would pass, by Suggest; nil while they are not asked for.
	Changes []Suggestion
}

// Suppressed is a finding left out because another makes it pointless.
type Suppressed struct {
	Rule     string
	Features []string
	By       string
}

// FeatureVerdict is the worst finding on one feature; "" none.
type FeatureVerdict struct {
	ID      string
	Verdict Severity
}

// Reading is the judgement of the drawing read in one unit, when the unit is in
// doubt or not known.
type Reading struct {
	Unit    string  // "mm", "in", ...
	MM      float64 // millimetres of one drawing unit
	Verdict Verdict
	Parts   []*PartReport
}

// Report is the judgement of one drawing.
type Report struct {
	Drawing  string          // name of the file as given
	Sheet    *features.Sheet // nil if it could not be read
	Shop     *shop.Profile
	Code     string // full name of the code, "" none
	Verdict  Verdict
	Parts    []*PartReport
	List     *cutlist.List // of a cut list, which has no sheet and no parts; nil else
	Bars     []*BarReport  // one for each line of the list
	Findings []Finding     // about the drawing
	// Readings are both readings when the unit is in doubt or not known: the
	// first is that of Parts, the second is in the other unit, with all lengths
	// in its own millimetres. nil when the unit is sure.
	Readings []Reading
	Skipped  []Skipped
	Err      error // why it could not be read or analysed
	ErrLine  int64 // line of the drawing (byte offset of a binary one) that Err is about; 0 unknown
}
