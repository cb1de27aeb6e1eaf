// Package features turns the entities of a drawing into parts and their
// features: holes, slots, notches, cuts. Numbers are millimetres and radians.
// A bad drawing is data: what was skipped, repaired or doubted comes out as
// Notes and Faults, never as an error.
package features

import (
	"burrside/features/geom"
)

// Sheet is what one drawing shows. It is not modified after Build returns it.
type Sheet struct {
	Units    Units
	Entities []EntityInfo // what Source.Entity points at
	Parts    []Part       // equal parts once; by (bottom, left) of the first instance
	Loose    []Loose
	Faults   []Fault // what is wrong with the drawing itself; rules judge it
	Notes    []Note
	Ignored  []Ignored    // what was taken as no geometry, by reason
	Texts    []Text       // all text of the space in use
	Title    []TitleField // of the title blocks, in order of the fields
	SnapMM   float64
	BridgeMM float64
	ArcDevMM float64 // greatest deviation allowed when curves and chords became arcs
	Layout   string  // name of the paper layout in use; "" model space
}

// Units says which unit the drawing is in and how that is known.
type Units struct {
	Name       string  // "mm", "in", "cm", "m", "ft", rarely another of $INSUNITS; "mm" if unknown
	MM         float64 // millimetres of one drawing unit
	From       UnitsFrom
	Confidence float64         // decades between the best and the second reading, inferred only
	Evidence   []UnitsEvidence // strongest first
	// Doubt tells that evidence contradicts the unit in use. Other is then the
	// unit that the evidence speaks for, OtherMM its size.
	Doubt   bool
	Other   string
	OtherMM float64
	Said    string // a text that states the other unit, "" none does
}

// UnitsFrom tells where the unit comes from.
type UnitsFrom string

// Where a unit can come from.
const (
	UnitsFlag     UnitsFrom = "flag"
	UnitsHeader   UnitsFrom = "header"
	UnitsText     UnitsFrom = "text"
	UnitsInferred UnitsFrom = "inferred"
	UnitsUnknown  UnitsFrom = "unknown"
)

// UnitsEvidence is one witness: what it is, the unit it speaks for, and its
// weight in decades of likelihood.
type UnitsEvidence struct {
	What   string
	For    string
	Weight float64
}

// EntityInfo is where an entity stands in the file.
type EntityInfo struct {
	Line   int64
	Handle uint64
	Layer  string
	Kind   string
	Block  []string // outermost first; nil at the top
}

// Source points into Sheet.Entities.
type Source struct{ Entity int32 }

// Stated is a fact about a part with where it comes from. The zero value is
// "not stated".
type Stated struct {
	Text   string  // as written
	MM     float64 // a length; 0 if it is none or unknown
	From   string  // "text", "view", "flag", "answers", "file name"; "" if not stated
	At     geom.Point
	Source []Source
}

// Form is flat or angle.
type Form string

// The forms of a part.
const (
	FormFlat  Form = "flat"
	FormAngle Form = "angle"
)

// Part is one part with its features.
type Part struct {
	Name          string // unique in the sheet; the drawing's name, or name-1, name-2
	Form          Form
	Outline       geom.Ring   // counter-clockwise, in the drawing's coordinates times Units.MM; simplified
	OutlineSource [][]Source  // one list for each edge of Outline
	Holes         []geom.Ring // all inner rings, counter-clockwise, each owned by one inside feature
	Box           geom.Box
	AreaMM2       float64 // net of holes
	PerimeterMM   float64 // of the outline
	Features      []Feature
	Patterns      []Pattern
	DrawnAt       []Placement // one for each copy, the first is the identity
	Thickness     Stated
	Material      Stated
	Quantity      int        // asked for in the drawing's text; 0 not stated
	QuantityFrom  string     // "text", "file name"; "" not stated
	QuantityAt    geom.Point // where the text stands
	CallOuts      []CallOut
	Tolerances    []Tolerance // of dimensions
	Doubts        []Doubt     // what keeps the part from a sure reading
	Clean         bool        // no repair longer than 0.05 mm was made on it
	Angle         *Angle      // of FormAngle, else nil
	Scale         Scale       // of its view; all sizes above are true, places of doubts and texts as drawn
}

// Copies is how many equal parts the drawing shows.
func (p *Part) Copies() int { return len(p.DrawnAt) }

// Placement is how a copy lies relative to the first instance.
type Placement struct {
	Origin   geom.Point // bottom left of the copy's box
	AngleRad float64
	Mirrored bool
}

// Doubt is a reading that could be otherwise; it makes the part cannot-tell
// when Grave, else it is a note.
type Doubt struct {
	Code   string // "line-unexplained", "maybe-letter", "maybe-frame", ...
	Grave  bool
	At     geom.Point
	Text   string
	Source []Source
}

// Loose is an open chain that looks like an outline that does not close.
type Loose struct {
	From, To geom.Point
	GapMM    float64
	LengthMM float64
	Holes    int // closed contours within its box
	// Edges are its pieces, several runs where more than one gap is open; at
	// most 2,000.
	Edges  []geom.Edge
	Source []Source
}

// Fault is a fault of the drawing; Code is one of "open-outline",
// "duplicate-lines", "gap-bridged", "self-crossing", "hole-on-outline",
// "no-part", "too-many-placed", "read-incomplete".
type Fault struct {
	Code   string
	At     geom.Point
	Value  float64 // gap, length or count
	Count  int
	Part   int // index in Parts, -1 the drawing
	Text   string
	Source []Source
}

// Note tells of something skipped, repaired or guessed.
type Note struct {
	Code   string
	At     geom.Point
	HasAt  bool
	Count  int
	Text   string
	Source []Source
}

// Ignored counts entities that were taken as no geometry.
type Ignored struct {
	What  string // "dimension", "text", "hatch", "layer off", "centre line", ...
	Count int
}

// Text is a text of the drawing, at its place in millimetres.
type Text struct {
	Value    string
	At       geom.Point
	HeightMM float64
	AngleRad float64 // of its line, -pi..pi
	Tag      string  // of an attribute of a block
	Leader   bool    // At is where the text's leader points
	Revision bool    // of a table of revisions: it says what has changed, not what holds
	Source   Source
}

// CallOut is a hole call-out read from a text and tied to a part.
type CallOut struct {
	Text       string
	At         geom.Point
	Count      int // stated number of holes; 0 not stated
	DiameterMM float64
	Process    string   // "", "drill", "ream", "tap", "countersink", "counterbore", "punch"
	Features   []string // features that match
	Source     []Source
}
