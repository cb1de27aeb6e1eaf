// Package join turns loose edges into closed rings and open chains: end points
// are snapped, duplicates and overlaps merged, gaps bridged between loose ends
// only, and faces traced where edges meet or cross. Geometry in, geometry out;
// it knows no drawing. Millimetres throughout.
package join

import (
	"context"

	"burrside/features/geom"
)

// Input is one edge with the number of where it came from.
type Input struct {
	Edge   geom.Edge
	Source int32 // given back in Piece.Sources; equal numbers may repeat
	Group  int32 // edges of one closed entity share a positive group; 0: loose
	// Closed tells that the edges of Group form one closed entity: a contour
	// by themselves unless they cross something.
	Closed bool
	Style  int32 // layer/linetype class given by the caller; dividers report it
}

// Options are the tolerances. The zero value means the defaults.
type Options struct {
	SnapMM    float64 // makes end points equal; default 1e-3, see GEOMETRY of DEVELOPERS.md
	BridgeMM  float64 // joins loose ends pairwise; default 0.5
	MaxSplits int     // crossings, default 20 x edges
}

// Piece is an edge of a result with the inputs that it came from.
type Piece struct {
	Edge    geom.Edge
	Sources []int32 // several when duplicates were merged; empty for a bridge
	Style   int32
}

// Contour is a closed ring, counter-clockwise, starting at its canonical
// vertex, with one piece per edge.
type Contour struct {
	Pieces []Piece
	// Parent is the index of the least contour that holds this one, -1 outside.
	Parent int
	Depth  int
	// Region numbers the connected component of the arrangement.
	Component int
	// Face tells that the ring was traced as a face of an arrangement.
	Face bool
	// ToolMark: a closed entity that crosses an outline; kept whole here and
	// not subtracted from any ring. Crosses lists the contours it crosses.
	ToolMark bool
	Crosses  []int
}

// Chain is an open run of pieces. Ends tells what each end touches.
type Chain struct {
	Pieces []Piece
	// OnContour is the contour whose edge each end lies on within snap; -1 loose.
	OnContour [2]int
	// Inside is the least contour that holds the chain, -1 outside all.
	Inside int
}

// Divider is a chain that runs inside an outline from outline to outline; the
// faces on its sides have been merged, so that Contours holds the undivided
// outline. Split gives the two (or more) rings that it would make.
type Divider struct {
	Chain
	Contour int
}

// Note tells of a repair or a doubt.
type Note struct {
	Code    string // "gap-closed", "duplicate-merged", "overlap-merged", "zero-length", "junction-unclear", "coarse-coordinates", "too-many-crossings", ...
	At      geom.Point
	SizeMM  float64 // gap, length
	Count   int
	Sources []int32
}

// Gap is the distance between two loose ends that were not joined.
type Gap struct {
	From, To geom.Point
	SizeMM   float64
	Chain    int
}

// Result is what Join found. Order is by geometry, never by input order.
type Result struct {
	Contours []Contour
	Dividers []Divider
	Chains   []Chain // open chains that are no dividers
	Gaps     []Gap
	Notes    []Note
	SnapMM   float64 // used
	BridgeMM float64
}

// Ring gives the edges of a contour.
func (c *Contour) Ring() geom.Ring {
	r := make(geom.Ring, len(c.Pieces))
	for i, p := range c.Pieces {
		r[i] = p.Edge
	}
	return r
}

// Join does the work in O(n log n) for planar input. The error is ctx's.
func Join(ctx context.Context, in []Input, opt Options) (*Result, error) {
	panic("join: not written yet")
}

// Faces splits a contour along dividers: the rings on the sides of them.
func Faces(ctx context.Context, c *Contour, dividers []Divider, opt Options) ([]Contour, error) {
	panic("join: not written yet")
}
