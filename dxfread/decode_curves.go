package dxfread

import "math"

// Bits for the groups that an entity must have.
const (
	hasX = 1 << iota
	hasY
	hasX2
	hasY2
	hasSize
	hasStart
	hasEnd
)

// lacking tells that an entity misses one of the groups that it needs: a place
// is never made up.
func lacking(has, needs int) string {
	if has&needs == needs {
		return ""
	}
	return "one of its coordinates or sizes is missing"
}

func (r *reader) line() Entity {
	e := r.lines.take()
	r.start(&e.Common)
	has := 0
	for r.tag() {
		switch r.s.code {
		case 10:
			e.From.X = r.float()
			has |= hasX
		case 20:
			e.From.Y = r.float()
			has |= hasY
		case 30:
			e.From.Z = r.float()
		case 11:
			e.To.X = r.float()
			has |= hasX2
		case 21:
			e.To.Y = r.float()
			has |= hasY2
		case 31:
			e.To.Z = r.float()
		default:
			r.common(&e.Common)
		}
	}
	return r.usable(e, lacking(has, hasX|hasY|hasX2|hasY2))
}

func (r *reader) point() Entity {
	e := r.points.take()
	r.start(&e.Common)
	for r.tag() {
		if !r.vec(&e.At, 10) {
			r.common(&e.Common)
		}
	}
	return r.usable(e, "")
}

// vec takes the pair at hand if it is a coordinate of the point whose x has
// this code (y is 10 more, z 20 more).
func (r *reader) vec(v *Vec, x int) bool {
	switch r.s.code {
	case x:
		v.X = r.float()
	case x + 10:
		v.Y = r.float()
	case x + 20:
		v.Z = r.float()
	default:
		return false
	}
	return true
}

func (r *reader) circle() Entity {
	e := r.circles.take()
	r.start(&e.Common)
	has := 0
	for r.tag() {
		switch r.s.code {
		case 10:
			e.Centre.X = r.float()
			has |= hasX
		case 20:
			e.Centre.Y = r.float()
			has |= hasY
		case 30:
			e.Centre.Z = r.float()
		case 40:
			e.Radius = r.float()
			has |= hasSize
		default:
			r.common(&e.Common)
		}
	}
	return r.roundOf(e, badRadius(e.Radius, lacking(has, hasX|hasY|hasSize)), e.Centre)
}

// noRadius says of a circle or an arc that it is a mere place.
const noRadius = "its radius is 0"

func badRadius(radius float64, lacks string) string {
	switch {
	case radius > 0 || lacks != "":
		return lacks
	case radius == 0:
		return noRadius
	}
	return "its radius is not above 0"
}

// roundOf gives a circle or an arc, or what is left of it: of one without a
// radius its place.
func (r *reader) roundOf(e Entity, why string, centre Vec) Entity {
	out := r.usable(e, why)
	if o, ok := out.(*Other); ok && why == noRadius && r.spoiled == "" {
		o.At, o.HasAt = OCS(e.Base().Extrusion).Apply(centre), true
	}
	return out
}

func (r *reader) arc() Entity {
	e := r.arcs.take()
	r.start(&e.Common)
	has := 0
	for r.tag() {
		switch r.s.code {
		case 10:
			e.Centre.X = r.float()
			has |= hasX
		case 20:
			e.Centre.Y = r.float()
			has |= hasY
		case 30:
			e.Centre.Z = r.float()
		case 40:
			e.Radius = r.float()
			has |= hasSize
		case 50:
			e.Start = r.float()
			has |= hasStart
		case 51:
			e.End = r.float()
			has |= hasEnd
		default:
			r.common(&e.Common)
		}
	}
	out := r.roundOf(e, badRadius(e.Radius, lacking(has, hasX|hasY|hasSize|hasStart|hasEnd)), e.Centre)
	if out == Entity(e) && e.Start == e.End {
		r.noteOf(&e.Common, "arc-whole", "an ARC with equal angles counts as a whole circle")
	}
	return out
}

func (r *reader) ellipse() Entity {
	e := r.ellipses.take()
	r.start(&e.Common)
	e.Ratio, e.End = 1, 2*math.Pi
	for r.tag() {
		switch {
		case r.vec(&e.Centre, 10), r.vec(&e.Major, 11):
		case r.s.code == 40:
			e.Ratio = r.float()
		case r.s.code == 41:
			e.Start = r.float()
		case r.s.code == 42:
			e.End = r.float()
		default:
			r.common(&e.Common)
		}
	}
	why := ""
	if _, ok := e.Major.unit(); !ok {
		why = "its major axis has no length"
	} else if e.Ratio == 0 {
		why = "its minor axis has no length"
	}
	out := r.usable(e, why)
	if out != Entity(e) {
		return out
	}
	if e.Ratio < 0 {
		// The minor axis is ratio times normal x major: turning both signs
		// gives the same points.
		e.Ratio = -e.Ratio
		e.Extrusion = Vec{-e.Extrusion.X, -e.Extrusion.Y, -e.Extrusion.Z}
		r.noteOf(&e.Common, "ellipse-ratio", "an ELLIPSE has a negative ratio of its axes; its normal was turned")
	}
	r.ellipseRange(e)
	return out
}

// ellipseRange makes Start < End <= Start + 2 pi, and a whole ellipse exact.
// The limit is far above the rounding of printed parameters and far below any
// arc that could be cut.
func (r *reader) ellipseRange(e *Ellipse) {
	const whole, near = 2 * math.Pi, 1e-9
	sweep := e.End - e.Start
	switch {
	case sweep == 0:
		r.noteOf(&e.Common, "arc-whole", "an ELLIPSE with equal parameters counts as whole")
		sweep = whole
	case math.Abs(sweep) >= whole-near:
		if math.Abs(sweep) > whole+1e-6 {
			r.noteOf(&e.Common, "arc-whole", "an ELLIPSE with more than one turn counts as whole")
		}
		sweep = whole
	case sweep < 0:
		sweep += whole
	}
	e.End = e.Start + sweep
}

// SweepDeg is the angle from Start counter-clockwise to End, above 0 and at
// most 360 degrees; equal angles count as a whole turn (the reader notes such
// arcs as "arc-whole").
func (a *Arc) SweepDeg() float64 {
	s := math.Mod(a.End-a.Start, 360)
	if s <= 0 {
		s += 360
	}
	return s
}

func (r *reader) spline() Entity {
	e := r.splines.take()
	r.start(&e.Common)
	e.Degree = 3
	knots, weights := r.scratchNum[:0], r.scratchNum2[:0]
	control, fit := r.scratchVec[:0], r.scratchVec2[:0]
	var tan [2]Vec
	var hasTan [2]bool
	last := func(l []Vec) *Vec {
		if len(l) == 0 {
			return &Vec{}
		}
		return &l[len(l)-1]
	}
	for r.tag() {
		switch r.s.code {
		case 70:
			flags := r.int()
			e.Closed, e.Rational = flags&3 != 0, flags&4 != 0
		case 71:
			e.Degree = r.int()
		case 40:
			knots = append(knots, r.float())
		case 41:
			weights = append(weights, r.float())
		case 10:
			control = append(control, Vec{X: r.float()})
		case 20:
			last(control).Y = r.float()
		case 30:
			last(control).Z = r.float()
		case 11:
			fit = append(fit, Vec{X: r.float()})
		case 21:
			last(fit).Y = r.float()
		case 31:
			last(fit).Z = r.float()
		case 12, 22, 32:
			r.vec(&tan[0], 12)
			hasTan[0] = true
		case 13, 23, 33:
			r.vec(&tan[1], 13)
			hasTan[1] = true
		default:
			r.common(&e.Common)
		}
	}
	r.scratchNum, r.scratchNum2, r.scratchVec, r.scratchVec2 = knots, weights, control, fit
	why := splineFault(e.Degree, knots, weights, len(control))
	if why != "" && len(fit) >= 2 {
		if len(control) > 0 && r.rowOK() {
			r.noteOf(&e.Common, "spline-fit-only", "SPLINE: "+why+"; only its fit points are used")
		}
		why, knots, weights, control = "", nil, nil, nil
	}
	e.Knots, e.Weights = r.floats.keep(knots), r.floats.keep(weights)
	e.Control, e.Fit = r.vecs.keep(control), r.vecs.keep(fit)
	if hasTan[0] {
		e.StartTan = &Vec{tan[0].X, tan[0].Y, tan[0].Z}
	}
	if hasTan[1] {
		e.EndTan = &Vec{tan[1].X, tan[1].Y, tan[1].Z}
	}
	return r.usable(e, why)
}

// splineFault tells why control points and knots make no curve; "" if they do.
func splineFault(degree int, knots, weights []float64, control int) string {
	switch {
	case control == 0:
		return "it has no control points"
	case degree < 1 || degree > 25:
		return "its degree is not 1 to 25"
	case control <= degree:
		return "it has fewer control points than its degree needs"
	case len(knots) != control+degree+1:
		return "its number of knots does not fit"
	case len(weights) != 0 && len(weights) != control:
		return "its number of weights does not fit"
	}
	for i := 1; i < len(knots); i++ {
		if knots[i] < knots[i-1] {
			return "its knots decrease"
		}
	}
	if knots[degree] == knots[control] {
		return "its knots span nothing"
	}
	for _, w := range weights {
		if w <= 0 {
			return "a weight is not above 0"
		}
	}
	return ""
}
