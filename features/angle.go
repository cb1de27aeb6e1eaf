package features

import (
	"math"

	"burrside/features/geom"
)

// Angle is what an angle has beside the features of its legs. Its part lies in
// a frame of its own: leg a where its view shows it, in the drawing's
// coordinates, and leg b folded out about the heel onto the other side, so that
// the outline is that of both legs in one plane. Leg a is index 0, b is 1.
type Angle struct {
	LegMM       [2]float64 // outside widths, from the heel to the toe; 0 not known
	ThicknessMM float64    // 0 not known
	LengthMM    float64    // along the heel, over all

	Section     string  // the listed angle that it is, e.g. "L75x75x8"; "" none
	SectionList string  // the list that has it: "EN 10056-1", "AISC", ...
	SectionText Stated  // the section as the drawing names it
	MassKgM     float64 // of the section, tabulated if listed, else computed; 0 not known
	RootMM      float64 // radius of the fillet inside, 0 not known
	// ToRootMM is from the outside of the heel to the toe of the fillet, by the
	// table, else thickness + RootMM; 0 not known.
	ToRootMM float64

	From string // what shows it: "two views", "developed view", "one view"
	Hand Hand
	Heel [2]geom.Point // the line of the heel, from the start of the length to its end
	Legs [2]Leg
}

// Hand tells how sure it is which way the second leg stands, for an angle that
// has a mirror image of its own.
type Hand string

// The hands of an angle.
const (
	HandNone    Hand = ""               // its mirror image is the same angle
	HandFirst   Hand = "as-drawn-first" // views by first-angle projection
	HandThird   Hand = "as-drawn-third" // views by third-angle projection
	HandUnknown Hand = "unknown"        // the drawing does not tell
)

// Leg is one leg in the frame of its part.
type Leg struct {
	Drawn bool       // a view shows it; else it is taken as plain
	Ring  geom.Ring  // its outline, the heel's edge included; counter-clockwise
	Toe   geom.Point // unit vector square to the heel, toward the toe
	// Move brings the leg to where its view stands on the drawing; the zero
	// Motion for leg a.
	Move geom.Motion
}

// legName is the name of a leg by its index.
func legName(i int) string { return string(rune('a' + i)) }

// LegAt is the index of the leg on whose side of the heel a place of the part's
// frame lies; leg a for a place on the heel.
func (a *Angle) LegAt(p geom.Point) int {
	if p.Sub(a.Heel[0]).Dot(a.Legs[0].Toe) < -1e-9 {
		return 1
	}
	return 0
}

// OnDrawing is where a place of the part's frame stands on the drawing.
func (a *Angle) OnDrawing(p geom.Point) geom.Point { return a.Legs[a.LegAt(p)].Move.Apply(p) }

// FromHeelMM is the distance of a place from the heel, outside.
func (a *Angle) FromHeelMM(p geom.Point) float64 {
	return math.Abs(p.Sub(a.Heel[0]).Dot(a.Legs[0].Toe))
}

// FromStartMM is the distance of a place from the start of the length, along
// the heel.
func (a *Angle) FromStartMM(p geom.Point) float64 {
	return p.Sub(a.Heel[0]).Dot(a.Heel[1].Sub(a.Heel[0]).Unit())
}
