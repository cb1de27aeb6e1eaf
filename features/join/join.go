// Package join turns loose edges into closed rings and open chains: end points
// are snapped, duplicates and overlaps merged, gaps bridged between loose ends
// only, and faces traced where edges meet or cross. Geometry in, geometry out;
// it knows no drawing. Millimetres throughout.
//
// A closed entity, and every run of edges whose ends meet in pairs, is a
// contour as it stands. Only where more than two edges meet, or edges overlap,
// are outlines traced, and then the outermost way round: two rectangles side by
// side with a common edge are one contour with one divider, and a sheet cut
// into many cells is one contour with many dividers that meet each other. What
// a divider means (bend, common cut, thickness line, slip of the pen) is for
// the caller to say; Faces gives the rings that dividers would make.
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
	// by themselves unless they overlap something or cross themselves.
	Closed bool
	Style  int32 // layer/linetype class given by the caller; dividers report it
}

// Options are the tolerances. The zero value means the defaults.
type Options struct {
	// SnapMM makes end points equal; default 1e-3. By default it is raised to
	// twice the step of the coordinates, at most 0.02, when these have few
	// digits and ends that stay loose find a partner so.
	SnapMM    float64
	BridgeMM  float64 // joins loose ends pairwise; default 0.5; negative: no bridges
	MaxSplits int     // crossings, default 20 x edges and at most 2,000,000; more than that and none is used
}

// Piece is an edge of a result with the inputs that it came from.
type Piece struct {
	Edge    geom.Edge
	Sources []int32 // several when duplicates were merged; empty for a bridge
	Style   int32   // the lowest of the merged ones
}

// Contour is a closed ring, counter-clockwise, starting at its canonical
// vertex, with one piece per edge.
type Contour struct {
	Pieces []Piece
	// Parent is the index of the least contour that holds this one, -1 outside.
	// A tool mark holds nothing; its own parent is that of what it crosses.
	Parent int
	Depth  int // number of contours that hold this one
	// Component numbers the connected pieces of the drawing: contours with
	// equal numbers touch each other or hang together by lines.
	Component int
	// Face tells that the ring was traced in an arrangement.
	Face bool
	// ToolMark: a closed entity that crosses a larger one; kept whole here and
	// not subtracted from any ring. Crosses lists the contours it crosses.
	ToolMark bool
	Crosses  []int
}

// Chain is an open run of pieces. Ends tells what each end touches.
type Chain struct {
	Pieces []Piece
	// OnContour is the contour whose edge each end lies on within snap; -1 loose
	// or at another chain.
	OnContour [2]int
	// Loose tells for each end that nothing meets it.
	Loose [2]bool
	// Inside is the least contour that holds the chain, -1 outside all.
	Inside int
}

// Divider is a chain that runs inside a contour from outline to outline, or to
// other dividers or holes, such that it parts the inside in two; the faces on
// its sides are not parted in Contours. A divider that crosses a hole goes on
// behind it. Faces gives the rings that dividers would make.
type Divider struct {
	Chain
	Contour int // that it divides
}

// Note tells of a repair or a doubt. Of one kind at most 100 are given one by
// one; the last of them counts the rest.
type Note struct {
	// Code is one of "gap-closed", "duplicate-merged", "overlap-merged",
	// "zero-length", "junction-unclear", "coarse-coordinates", "snap-raised",
	// "too-many-crossings", "self-crossing", "self-touching", "not-finite",
	// "tracing-failed" (a defect: the contours cannot be relied on).
	Code    string
	At      geom.Point
	SizeMM  float64 // gap, length; of several that are told at once their sum
	Count   int     // how many, 0 one
	Sources []int32
}

// Gap is the distance between two loose ends that were not joined: the ends
// of one chain, or of a chain and its nearest neighbour.
type Gap struct {
	From, To geom.Point
	SizeMM   float64
	Chain    int // index into Chains of the one that From ends
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
//
// Where copies were drawn a little off each other, a wider snap that makes one
// of them is tried as well, and taken if it closes contours that are open without:
// it moves ends, which costs shapes their straight sides.
func Join(ctx context.Context, in []Input, opt Options) (*Result, error) {
	res, wider, err := joinAt(ctx, in, opt, 0)
	if err != nil || wider == 0 || res.openLength() == 0 {
		return res, err
	}
	other, _, err := joinAt(ctx, in, opt, wider)
	if err != nil {
		return nil, err
	}
	closes := len(other.Contours) > len(res.Contours) || wider <= harmlessSnap ||
		other.openCount()+manyOpen <= res.openCount()
	if closes && other.openLength() < res.openLength() {
		return other, nil
	}
	return res, nil
}

const (
	harmlessSnap = 0.002 // moves no end so far that a shape changes
	manyOpen     = 8     // so many scraps are no lines left over but a contour cut to pieces
)

// openCount is how many chains there are beside the contours.
func (r *Result) openCount() int { return len(r.Chains) + len(r.Dividers) }

// openLength is the length of all that is no contour.
func (r *Result) openLength() float64 {
	sum := 0.0
	for i := range r.Chains {
		for _, p := range r.Chains[i].Pieces {
			sum += p.Edge.Length()
		}
	}
	for i := range r.Dividers {
		for _, p := range r.Dividers[i].Pieces {
			sum += p.Edge.Length()
		}
	}
	return sum
}

// joinAt joins with the snap that the input calls for, or with a wider one if
// that is over 0. It gives the snap that would make one of copies, 0 if there
// are none.
func joinAt(ctx context.Context, in []Input, opt Options, snap float64) (res *Result, wider float64, err error) {
	b := newBase(ctx, in, opt)
	if err := b.prepare(); err != nil {
		return nil, 0, err
	}
	b.findLoops()
	if err := b.findMeets(); err != nil { // its own look at ctx covers findLoops
		return nil, 0, err
	}
	if snap > b.snap {
		b.again(snap)
		b.forgetMeets()
		b.findLoops()
		if err := b.findMeets(); err != nil {
			return nil, 0, err
		}
	} else if s := b.copySnap(); s > b.snap {
		wider = s
	}
	res, err = b.finish()
	return res, wider, err
}

// finish closes gaps and traces the contours of prepared input whose meets are
// known.
func (b *base) finish() (*Result, error) {
	if b.closeTiny() {
		b.forgetMeets()
		b.findLoops()
		if err := b.findMeets(); err != nil {
			return nil, err
		}
	}
	b.demoteOverlaps()
	var w *work
	for {
		w = newWork(b)
		if err := b.check(); err != nil {
			return nil, err
		}
		if err := w.bridgeGaps(); err != nil {
			return nil, err
		}
		w.prune()
		if !w.demoteOuter() {
			break
		}
	}
	w.traceContours()
	if err := b.check(); err != nil {
		return nil, err
	}
	w.verify()
	w.dropCells()
	if err := b.check(); err != nil {
		return nil, err
	}
	return w.result()
}

// Faces splits a contour along dividers: the rings on the sides of them, each
// counter-clockwise, in geometric order, with Face set and nested in nothing.
// Dividers that end in the air change nothing. Without dividers it is the
// contour itself.
func Faces(ctx context.Context, c *Contour, dividers []Divider, opt Options) ([]Contour, error) {
	var in []Input
	for _, p := range c.Pieces {
		in = append(in, Input{Edge: p.Edge, Source: int32(len(in)), Style: p.Style})
	}
	all := append([]Piece(nil), c.Pieces...)
	for i := range dividers {
		for _, p := range dividers[i].Pieces {
			in = append(in, Input{Edge: p.Edge, Source: int32(len(in)), Style: p.Style})
			all = append(all, p)
		}
	}
	b := newBase(ctx, in, opt)
	b.noRaise = true
	if err := b.prepare(); err != nil {
		return nil, err
	}
	if err := b.findMeets(); err != nil {
		return nil, err
	}
	w := newWork(b)
	if err := b.check(); err != nil {
		return nil, err
	}
	w.prune()
	w.traceContours()
	if err := b.check(); err != nil {
		return nil, err
	}
	return w.faces(all), nil
}
