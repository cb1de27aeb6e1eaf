package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

// boltHole is a hole that a code's bolt rules apply to.
type boltHole struct {
	feature         int
	centre          geom.Point
	widthMM, longMM float64    // diameter, or width and overall length of a slot
	slot            bool       // straight slot
	axis            geom.Point // unit vector along a slot
	readings        []boltReading
	row             *boltRow // of the bolt that a call-out names; nil none
	known           bool     // named by a call-out or by request, not by its size alone
	note            string   // how an ambiguous size was read; "" plain
}

// The tolerance at which a size is one of the table's: half a millimetre, or
// 1/64 in for the inch tables.
const (
	boltTolMM   = 0.5
	boltTolInch = 25.4 / 64
)

// boltHoles gives the holes that the chosen code's bolt rules apply to: named
// by a call-out, asked for by the job, or of a size in the code's table with at
// least two such holes in the part. others are the holes that are none, with
// the reason.
func (p *Pass) boltHoles() (bolts []boltHole, others []string) {
	type candidate struct {
		b        boltHole
		fromSize bool
	}
	var list []candidate
	sizes := map[int64]int{}
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if !f.IsInside() {
			continue
		}
		b := boltHole{feature: i, centre: f.At}
		switch f.Kind {
		case features.RoundHole, features.HoleWithSeat:
			b.widthMM, b.longMM = f.DiameterMM, f.DiameterMM
		case features.Slot:
			b.widthMM, b.longMM, b.slot = f.WidthMM, f.LengthMM, true
			b.axis = geom.Point{X: math.Cos(f.AngleRad), Y: math.Sin(f.AngleRad)}
		default:
			if f.BoltDesignation != "" || p.Job.Bolts {
				others = append(others, f.ID+" ("+sizeText(p.Shop, f)+"): no bolt rule for this shape")
			}
			continue
		}
		inTable := p.readBolt(&b, f)
		c := candidate{b: b}
		if f.BoltDesignation != "" || p.Job.Bolts {
			c.b.known = true
		} else if inTable {
			c.fromSize = true
			sizes[sizeKey(b.widthMM)]++
		} else {
			others = append(others, f.ID+" ("+sizeText(p.Shop, f)+"): no size of the code's hole table")
			continue
		}
		list = append(list, c)
	}
	for _, c := range list {
		if c.fromSize && sizes[sizeKey(c.b.widthMM)] < 2 {
			f := &p.Part.Features[c.b.feature]
			others = append(others, f.ID+" ("+sizeText(p.Shop, f)+"): the only hole of its size, and no call-out names a bolt")
			continue
		}
		bolts = append(bolts, c.b)
	}
	return bolts, others
}

// sizeKey is equal for holes of one size, within 0.05 mm.
func sizeKey(mm float64) int64 { return int64(math.Round(mm * 10)) }

// readBolt fills in how the code reads the hole; it tells whether the size is
// in the code's table.
func (p *Pass) readBolt(b *boltHole, f *features.Feature) bool {
	table := tableOf(p.Job.Code)
	own, tol := table.metric, boltTolMM
	other, otherTol := table.inch, float64(boltTolInch)
	if p.Inch && len(other) > 0 {
		own, other, tol, otherTol = other, own, otherTol, tol
	}
	if f.BoltDesignation != "" {
		if r, note, ok := table.rowOf(f.BoltDesignation); ok {
			b.row = &r
			// By hole diameter, as in EN and IS, the row changes no distance.
			if p.Job.Code != "en" && p.Job.Code != "is" {
				b.note = note
			}
			b.readings = []boltReading{readNamed(r, b.slot, b.widthMM, b.longMM, tol)}
			return true
		}
	}
	read := func(rows []boltRow, tol float64) []boltReading {
		if !b.slot {
			return readRound(rows, b.widthMM, tol)
		}
		if l := readSlot(rows, b.widthMM, b.longMM, tol); len(l) > 0 || p.Job.Code != "en" && p.Job.Code != "is" {
			return l
		}
		// A slot as wide as an oversized hole: the distances go by its width.
		return readRound(rows, b.widthMM, tol)
	}
	b.readings = read(own, tol)
	if len(b.readings) == 0 {
		b.readings = read(other, otherTol)
	}
	if len(b.readings) == 0 {
		b.readings = []boltReading{readSupposed(own, b.widthMM, b.longMM)}
		if p.Job.Code != "en" {
			b.note = "taken as for a bolt as large as the hole, as its size is not in the table"
		}
		return false
	}
	// By EN 1993-1-8 nothing depends on which bolt it is.
	if len(b.readings) > 1 && p.Job.Code != "en" {
		var names []string
		for _, r := range b.readings {
			names = append(names, r.bolt+" "+r.class)
		}
		b.note = "it may be " + strings.Join(names, " or ") + ": the larger requirement is taken"
	}
	return true
}

// boltSizeMM reads a designation: "M20", "3/4", "1-1/8", "7/8 in".
func boltSizeMM(s string) (float64, bool) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(strings.TrimSpace(s), "in"), `"`))
	if s == "" {
		return 0, false
	}
	if s[0] == 'M' || s[0] == 'm' {
		v, err := strconv.ParseFloat(strings.TrimSpace(s[1:]), 64)
		return v, err == nil && v > 0
	}
	total := 0.0
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return r == '-' || r == ' ' }) {
		num, den, isFraction := strings.Cut(w, "/")
		n, err := strconv.ParseFloat(num, 64)
		if err != nil {
			return 0, false
		}
		if isFraction {
			d, err := strconv.ParseFloat(den, 64)
			if err != nil || d <= 0 {
				return 0, false
			}
			n /= d
		}
		total += n
	}
	return total * 25.4, total > 0
}

// spine is the segment between the centres of a slot's ends; of a round hole
// its centre.
func (b *boltHole) spine() geom.Edge {
	half := b.axis.Mul((b.longMM - b.widthMM) / 2)
	return geom.LineEdge(b.centre.Sub(half), b.centre.Add(half))
}

// boltMM is the largest bolt that the hole is read for.
func (b *boltHole) boltMM() float64 {
	d := 0.0
	for _, r := range b.readings {
		d = max(d, r.boltMM)
	}
	return d
}

// describe names the hole as the code reads it: "M20 standard".
func (r *boltReading) describe() string {
	if r.class == classSupposed {
		return fmt.Sprintf("%s, Ø%s mm", r.bolt, measure.FormatNumber(r.boltMM, 2))
	}
	return r.bolt + " " + r.class
}
