// Package cutlist reads lists of bars and sections that are cut to length
// without a drawing: CSV with the columns section, length, quantity, material
// and end. It knows how the trade names bars, angles, channels and tubes, and
// knows no shop. Lengths are millimetres, angles radians.
package cutlist

import (
	"fmt"
	"math"

	"burrside/features/measure"
	"burrside/features/section"
)

// Kind is what a section is.
type Kind string

// The kinds of section. A square tube may be rectangular.
const (
	Flat       Kind = "flat"
	Angle      Kind = "angle"
	Round      Kind = "round"
	Square     Kind = "square"
	Channel    Kind = "channel"
	SquareTube Kind = "square tube"
	RoundTube  Kind = "round tube"
)

// Kinds lists the kinds of section.
func Kinds() []Kind { return []Kind{Flat, Angle, Round, Square, Channel, SquareTube, RoundTube} }

// Section is the cross section of a bar. A zero number is not known.
type Section struct {
	Kind Kind
	Text string // as it is written
	Name string // for people, with the unit: "flat 100 x 10 mm"
	List string // of the table that it was found in; "" none
	// SizeMM is the greater width of a flat, both legs of an angle, the diameter
	// or side of a bar, depth and flange of a channel, both sides of a tube, the
	// longer first; what has one size only leaves the second 0.
	SizeMM            [2]float64
	ThicknessMM       float64 // of a flat or a leg; the web of a channel; the wall of a tube; the size of a solid bar
	FlangeThicknessMM float64 // of a channel
	RootMM, ToRootMM  float64 // of an angle
	AreaMM2           float64 // of the section, from the table where there is one
	// Taken tells of what the text leaves open how it was taken: the unit of
	// bare numbers; "" all is stated.
	Taken Unit
	// ByFraction tells that bare sizes were taken as inches for a fraction bar.
	ByFraction bool
}

// Unit is a unit of length: "mm" or "in"; "" none.
type Unit string

// Solid tells that the bar is full: its size is what a blade goes through.
func (s *Section) Solid() bool { return s.Kind == Round || s.Kind == Square }

// finish fills in name, area and what a table tells, and checks what cannot be.
// The error says what is impossible; it names no place.
func (s *Section) finish(show Unit) error {
	a, b, t := s.SizeMM[0], s.SizeMM[1], s.ThicknessMM
	n := func(v float64) string { return number(v, show) }
	unit := " mm"
	if show == "in" {
		unit = ""
	}
	within := func(what string, v, least, most float64) error {
		if !(v >= least && v <= most) {
			return fmt.Errorf("a %s of %s is none that is rolled or drawn, from %s to %s; is the unit right?", what,
				measure.FormatLength(v, string(show)), measure.FormatLength(least, string(show)), measure.FormatLength(most, string(show)))
		}
		return nil
	}
	first := func(errs ...error) error {
		for _, err := range errs {
			if err != nil {
				return err
			}
		}
		return nil
	}
	switch s.Kind {
	case Flat:
		if t > a {
			a, t = t, a
		}
		s.SizeMM, s.ThicknessMM = [2]float64{a}, t
		s.Name = "flat " + n(a) + " x " + n(t) + unit
		s.AreaMM2 = a * t
		return first(within("width of flat bar", a, 10, 1000), within("thickness of flat bar", t, 1.5, 150))
	case Angle:
		a, b = max(a, b), min(a, b)
		s.SizeMM = [2]float64{a, b}
		s.Name = "angle " + n(a) + " x " + n(b) + " x " + n(t) + unit
		if err := first(within("leg of an angle", a, 10, 300), within("leg of an angle", b, 10, 300)); err != nil {
			return err
		}
		if !(t >= 1.5 && t < b/2) {
			return fmt.Errorf("an angle of %s with a thickness of %s is none that is rolled; is the unit right?", n(a)+" x "+n(b), measure.FormatLength(t, string(show)))
		}
		if l := section.Find(a, b, t, 0.06); len(l) > 0 {
			s.List, s.RootMM, s.ToRootMM, s.AreaMM2 = l[0].List, l[0].RootMM, l[0].ToRootMM, l[0].AreaMM2
			if s.AreaMM2 == 0 && l[0].MassKgM > 0 {
				s.AreaMM2 = l[0].MassKgM / 7850 * 1e6
			}
		}
	case Round, Square:
		word := "Ø"
		s.AreaMM2 = math.Pi / 4 * a * a
		if s.Kind == Square {
			word, s.AreaMM2 = "", a*a
		}
		s.ThicknessMM = a
		s.Name = string(s.Kind) + " bar " + word + n(a) + unit
		return within(string(s.Kind)+" bar", a, 3, 300)
	case Channel:
		if s.Name == "" {
			s.Name = "channel " + n(a)
			if b > 0 {
				s.Name += " x " + n(b)
			}
			if t > 0 {
				s.Name += " x " + n(t)
			}
			s.Name += unit
		}
		if b > 0 && t > 0 && s.FlangeThicknessMM > 0 && s.AreaMM2 == 0 {
			s.AreaMM2 = float64((a-2*s.FlangeThicknessMM)*t) + float64(2*b*s.FlangeThicknessMM)
		}
		if err := within("depth of a channel", a, 20, 500); err != nil {
			return err
		}
		if b > 0 && (b < 8 || b > a*1.2) || t > 0 && (t < 1.5 || t > a/4 || b > 0 && t > b/2) {
			return fmt.Errorf("a channel of depth %s, flange %s and web %s is none that is rolled; is the unit right?", n(a), n(b), n(t))
		}
	case SquareTube:
		a, b = max(a, b), min(a, b)
		s.SizeMM = [2]float64{a, b}
		s.Name = "tube " + n(a) + " x " + n(b) + " x " + n(t) + unit
		if err := first(within("side of a tube", a, 8, 500), within("side of a tube", b, 8, 500)); err != nil {
			return err
		}
		if !(t >= 0.5 && t < b/2) {
			return fmt.Errorf("a tube of %s with a wall of %s cannot be; is the unit right?", n(a)+" x "+n(b), measure.FormatLength(t, string(show)))
		}
		s.AreaMM2 = tubeArea(a, b, t)
	case RoundTube:
		if s.Name == "" {
			s.Name = "tube Ø" + n(a) + " x " + n(t) + unit
		}
		if err := within("diameter of a tube", a, 5, 700); err != nil {
			return err
		}
		if t > 0 {
			if !(t >= 0.5 && t < a/2) {
				return fmt.Errorf("a tube of Ø%s with a wall of %s cannot be; is the unit right?", n(a), measure.FormatLength(t, string(show)))
			}
			s.AreaMM2 = math.Pi * (a - t) * t
		}
	}
	return nil
}

// tubeArea is the section of a square or rectangular tube with corners of
// radius 2 t outside and t inside, as EN 10219-2 takes them for walls to 6 mm:
// 2 t (a + b - 2 t) - (4 - pi) (ro^2 - ri^2).
func tubeArea(a, b, t float64) float64 {
	return float64(2*t*(a+b-2*t)) - float64((4-math.Pi)*3*t*t)
}

// KgPerM is the mass of a metre at a density; 0 if the section's area is not
// known. An angle that no list has weighs what its two legs weigh.
func (s *Section) KgPerM(densityKgM3 float64) float64 {
	area := s.AreaMM2
	if area == 0 && s.Kind == Angle {
		area = s.ThicknessMM * (s.SizeMM[0] + s.SizeMM[1] - s.ThicknessMM)
	}
	return area * densityKgM3 * 1e-6
}

// Perimeter is how long the burr of a square cut is, mm, about; 0 not known.
func (s *Section) Perimeter() float64 {
	a, b := s.SizeMM[0], s.SizeMM[1]
	switch s.Kind {
	case Flat:
		return 2 * (a + s.ThicknessMM)
	case Angle:
		return 2 * (a + b)
	case Round, RoundTube:
		return math.Pi * a
	case Square:
		return 4 * a
	case SquareTube:
		return 2 * (a + b)
	case Channel:
		return 2 * (a + 2*b)
	}
	panic("cutlist: unknown kind " + string(s.Kind))
}

// number writes a size without its unit, in the unit that it is shown in.
func number(mm float64, show Unit) string {
	if show == "in" {
		return measure.FormatLength(mm, "in")
	}
	return measure.FormatNumber(mm, 2)
}
