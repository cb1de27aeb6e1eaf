package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
)

// placeMark is a POINT, a circle or an arc of radius 0, or an insert of a block in which nothing is drawn: a
// sign that something belongs there.
type placeMark struct {
	at   dxfread.Vec // in drawing units
	what string
	info int32
	inMM geom.Point // instead of at, for what is found among the contours
	isMM bool
	// noCentre tells that it is a circle that lost its size: programs mark the
	// middle of a plate by a point, never by that.
	noCentre bool
}

// maxMarks is how many such signs are kept: scanned surfaces have millions.
const maxMarks = 100_000

// addPoint keeps a POINT that no layer's name takes out.
func (b *builder) addPoint(e *dxfread.Point, p dxfread.Placed, path []string) {
	what := "point"
	if b.emptyBlocks[e] {
		what = "block that holds nothing"
	}
	b.addMark(placeMark{at: p.Map.Apply(e.At), what: what, info: b.entity(p, path)})
}

func (b *builder) addMark(m placeMark) {
	if len(b.marks) < maxMarks {
		b.marks = append(b.marks, m)
	}
}

// withEmptyBlocks gives the drawing with a point in every block that holds
// nothing, so that placing tells where such blocks stand, and those points.
// Without such blocks it is the drawing itself.
func withEmptyBlocks(d *dxfread.Drawing) (*dxfread.Drawing, map[*dxfread.Point]bool) {
	layer := slices.IndexFunc(d.Layers, func(l dxfread.Layer) bool { return l.Name == "0" })
	signs := map[*dxfread.Point]bool{}
	if layer < 0 {
		return d, signs
	}
	with := *d
	for i := range d.Blocks {
		if k := &d.Blocks[i]; len(k.Entities) > 0 || k.Layout || k.XRef {
			continue
		}
		if len(signs) == 0 {
			with.Blocks = slices.Clone(d.Blocks)
		}
		sign := &dxfread.Point{Common: dxfread.Common{Layer: int32(layer), Linetype: -1, Colour: 256}, At: with.Blocks[i].Base}
		signs[sign] = true
		with.Blocks[i].Entities = []dxfread.Entity{sign}
	}
	return &with, signs
}

// dotMM is the size up to which a closed line is a dot, if the drawing is at
// least dotOf times as large: no tool makes such a hole, and a drawing in metres
// that is taken for millimetres has none so much smaller than itself.
const (
	dotMM = 0.2
	dotOf = 200
)

// takeDots takes out closed lines of no size. They mark places, as points do. A
// small loop of lines that go on elsewhere is a crossing of an outline with
// itself and stays.
func (b *builder) takeDots() {
	size := 0.0
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead {
			size = math.Max(size, math.Max(l.box.Width(), l.box.Height()))
		}
	}
	var uses map[int32]int
	for i := range b.loops {
		l := &b.loops[i]
		d := math.Max(l.box.Width(), l.box.Height())
		if l.dead || d > dotMM || d*dotOf > size {
			continue
		}
		src := flatSources(l.pieces)
		if uses == nil {
			uses = b.usesOfSources()
		}
		if slices.ContainsFunc(src, func(s int32) bool { return uses[s] > 1 }) {
			continue
		}
		l.dead = true
		b.note(Note{Code: "dot", At: l.box.Centre(), HasAt: true, Source: sourcesOf(src), Text: fmt.Sprintf("a closed line of %s mm is a dot and no opening", shortNumber(d))})
		if len(src) > 0 && len(b.marks) < maxMarks {
			b.marks = append(b.marks, placeMark{what: "dot", info: src[0], inMM: l.box.Centre(), isMM: true})
		}
	}
}

// usesOfSources counts for each entity the loops that it has a piece in.
func (b *builder) usesOfSources() map[int32]int {
	uses := map[int32]int{}
	for i := range b.loops {
		if b.loops[i].dead {
			continue
		}
		src := flatSources(b.loops[i].pieces)
		slices.Sort(src)
		for _, s := range slices.Compact(src) {
			uses[s]++
		}
	}
	return uses
}

// doubtMarks doubts the parts on whose metal such signs stand by themselves:
// holes that are marked and not drawn. Signs on an edge, in an opening, or at
// the centre of an arc of the part mark what is drawn; points in the middle of
// the part's box are put there by some programs.
func (b *builder) doubtMarks() {
	const reach = 0.05
	type found struct {
		at   geom.Point
		n    int
		src  []int32
		what string
	}
	on := map[int]*found{}
	centres := map[int][]geom.Point{}
	for _, m := range b.marks {
		p := b.frame.point(m.at)
		if m.isMM {
			p = m.inMM
		}
		if !isNumber(p.X) || !isNumber(p.Y) {
			continue
		}
		d := b.partAt(p)
		if d < 0 {
			continue
		}
		if _, ok := centres[d]; !ok {
			centres[d] = b.arcCentres(d)
		}
		middle := b.loops[b.drafts[d].outline].box.Centre()
		known := !m.noCentre && middle.Dist(p) <= reach
		for _, c := range centres[d] {
			known = known || c.Dist(p) <= reach
		}
		b.loopsAt(p, func(i int) {
			known = known || b.owner[i] == d && b.loops[i].ring.Inside(p, reach) == geom.On
		})
		if known {
			continue
		}
		f := on[d]
		if f == nil {
			f = &found{at: p, what: m.what}
			on[d] = f
		}
		f.n++
		if comparePlace(p, f.at) < 0 || comparePlace(p, f.at) == 0 && m.what < f.what {
			f.at, f.what = p, m.what
		}
		f.src = append(f.src, m.info)
	}
	for d := range b.drafts {
		if f := on[d]; f != nil {
			b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-opening", Grave: true, At: f.at, Source: sourcesOf(f.src),
				Text: marksText(f.n, f.what)})
		}
	}
}

func marksText(n int, what string) string {
	if n == 1 {
		if strings.HasPrefix(what, "arc") {
			what = "n " + what
		} else {
			what = " " + what
		}
		return fmt.Sprintf("a%s stands on the metal with no hole drawn there: it may be a hole that is marked only", what)
	}
	return fmt.Sprintf("%d marks stand on the metal, the first a %s, with no hole drawn there: they may be holes that are marked only", n, what)
}

// arcCentres are the centres of the arcs of a draft's contours.
func (b *builder) arcCentres(d int) []geom.Point {
	var out []geom.Point
	for _, l := range append([]int{b.drafts[d].outline}, b.drafts[d].holes...) {
		for _, e := range b.loops[l].ring {
			if e.IsArc() && math.Abs(e.Sweep()) > 0.1 {
				out = append(out, e.Centre)
			}
		}
	}
	return out
}
