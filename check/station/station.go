// Package station models what one station of one machine can do: a request
// (shape, size, thickness, steel) goes in, a Use comes out: which tool and row,
// what share of the limit, and every aspect that was looked at. Pure functions;
// no part, no order of work. The numbers that rules report are computed here
// and nowhere else.
package station

// Grade is how an aspect stands.
type Grade int

// Grades, in ascending order of trouble. Unknown is a datum missing: never a pass.
const (
	OK Grade = iota
	Remark
	Care
	Unknown
	Fail
)

// Aspect is one thing that was looked at, under the id of the rule that reports it.
type Aspect struct {
	Rule             string // "punch-force", "punch-ratio", "tool", "die-clearance", "die-holder", "throat-reach", "slot-hits", "shear-row", "notch-tool", ...
	Grade            Grade
	Got              float64 // in Unit; NaN never, absent: HasGot false
	Limit            float64
	HasGot, HasLimit bool
	Unit             string // "kN", "mm", "MPa", "%", "deg"
	Text             string // what and why, one clause, lower case, numbers with units
	Basis            string // the arithmetic on one line, e.g. "pi x 22 mm x 10 mm x 345 MPa = 238.5 kN"
	Fix              string // the shop's own change that would help, an order; "" none
	FixBy            string // "shop", "drawing"
	Buy              string // a tool for the buying list, e.g. "punch Ø16 with die Ø17.2"
}

// Use is one way to make one feature at one station.
type Use struct {
	Machine string
	Station string // "punch", "shear", "notcher", "angle shear", ... or the kind of another process
	Tool    string // as on the rack; "" none needed
	Die     string // of a punch
	Holder  string
	Lay     string // how a leg of an angle lies on the die, LayDown or LayUp; "" not an angle
	Hits    int    // hits, bites or cuts for one feature
	// BoreMM is the width of the die that a punch goes into; 0 no punch.
	BoreMM float64
	// Place tells where on the blade a cut belongs; "" anywhere.
	Place string
	// BendRadiusMM is the inside radius that a bend comes out with; 0 no bend.
	BendRadiusMM float64
	ForceKN      float64
	LimitKN      float64
	Share        float64 // greatest share of a limit over the aspects that have one
	Aspects      []Aspect
}

// Grade is the worst grade of the aspects.
func (u Use) Grade() Grade {
	g := OK
	for i := range u.Aspects {
		g = max(g, u.Aspects[i].Grade)
	}
	return g
}
