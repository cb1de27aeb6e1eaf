package features

import (
	"slices"

	"burrside/features/geom"
	"burrside/features/join"
)

// openingShare is the share of a line of figures, by length, from which on they
// are openings: in words of common typefaces, what is round or square by itself,
// an I, a hyphen, a full stop, is a small share of the length.
const openingShare = 0.2

// bowlShare is the share of a closed figure's length from which on strokes that
// hang on it make it the bowl of a P or a D, not an opening.
const bowlShare = 0.2

// hangingOn is the length of the chains that end on a ring.
func hangingOn(r geom.Ring, chains []join.Chain) float64 {
	sum := 0.0
	for i := range chains {
		pieces := chains[i].Pieces
		from, to := pieces[0].Edge.From, pieces[len(pieces)-1].Edge.To
		touches := slices.ContainsFunc(r, func(e geom.Edge) bool { return e.Dist(from) <= figureSnapMM || e.Dist(to) <= figureSnapMM })
		if !touches {
			continue
		}
		for _, p := range pieces {
			sum += p.Edge.Length()
		}
	}
	return sum
}

// areOpenings tells whether figures that stand like a line of text are openings
// drawn carelessly: twice, in pieces that overlap, or with gaps, so that each is
// open by itself. Joined as everything is, they close to shapes that a punch
// has; strokes of letters stay open. A piece of a circle that lies on the circle
// makes no letter of it.
func (r *letterReader) areOpenings(line []int) bool {
	var in []join.Input
	all, punched := 0.0, 0.0
	for _, i := range line {
		f := &r.figs[i]
		if f.closed && !f.open {
			s := r.shape(i)
			all += s.length
			if s.round > 0 || s.squared {
				punched += s.length
			}
			continue
		}
		for _, k := range f.inputs {
			in = append(in, r.b.inputs[k])
		}
	}
	if len(in) == 0 {
		return punched > openingShare*all
	}
	res, err := r.b.join(in)
	if err != nil {
		return false // the context's; the caller sees it
	}
	for i := range res.Chains {
		for _, p := range res.Chains[i].Pieces {
			all += p.Edge.Length()
		}
	}
	for i := range res.Contours {
		l := loop{pieces: r.b.pieces(res.Contours[i].Pieces)}
		l.roundBridges()
		l.wholeCircle()
		l.mergeArcs()
		l.smoothTangents()
		l.settle()
		l.roundFacets()
		l.smoothJogs()
		l.ring, _ = simplified(l.ring, l.pieces, simplifyMM)
		n := l.ring.Length()
		all += n
		if recogniseInside(l.ring).Kind != Cutout && hangingOn(l.ring, res.Chains) <= bowlShare*n {
			punched += n
		}
	}
	return punched > openingShare*all
}
