package features

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"burrside/dxfread"
)

// Options steer Build. The zero value means the defaults.
type Options struct {
	Name      string  // base name of the parts
	Units     string  // "mm", "in", "cm", "m", "ft"; "" from the drawing
	BridgeMM  float64 // default 0.5
	ArcDevMM  float64 // default 0.01: how far an arc may lie from the curve that it stands for
	Layers    LayerWords
	ReadError error          // what the reader said about the file, nil if it was whole
	Limits    dxfread.Limits // Placed 0 means 1,000,000
}

// LayerWords are words that name the purpose of a layer. A nil list means the
// default words, an empty one none; the entry "+" stands for the default words.
// Upper case and accents count for nothing; an entry of several words matches
// where they follow each other.
type LayerWords struct {
	Bend, Mark, Centre, Hidden, Construction, Dimension, Frame, Text []string
	// Cut and Hole are words for what is cut: a layer with one of them is no
	// centre, hidden or construction layer for another word of its name.
	Cut, Hole []string
}

// Build analyses a drawing. The error is ctx's or a limit's; whatever is wrong
// with the drawing is in the Sheet.
//
// Model space is read. If it holds no closed contour, each paper layout is
// tried by itself, and the one with the most parts is taken, with a note;
// layouts are never merged.
func Build(ctx context.Context, d *dxfread.Drawing, opt Options) (*Sheet, error) {
	best, err := buildSpace(ctx, d, d.Model, "", opt)
	if err != nil {
		return nil, err
	}
	if len(best.sheet.Parts) > 0 || len(best.sheet.Loose) > 0 {
		return best.finish(), nil
	}
	layouts := append([]dxfread.Layout(nil), d.Layouts...)
	sort.SliceStable(layouts, func(i, j int) bool { return layouts[i].Name < layouts[j].Name })
	for _, l := range layouts {
		b, err := buildSpace(ctx, d, l.Entities, l.Name, opt)
		if err != nil {
			return nil, err
		}
		if len(b.sheet.Parts) > len(best.sheet.Parts) {
			best = b
		}
	}
	if best.sheet.Layout != "" {
		best.note(Note{Code: "paper-space", Text: fmt.Sprintf("model space holds no closed contour; the layout %q was read instead", best.sheet.Layout)})
	}
	return best.finish(), nil
}

// buildSpace runs the steps of Build on one space, in the order of which each
// needs only what the ones before it settled. No later step changes the unit.
func buildSpace(ctx context.Context, d *dxfread.Drawing, entities []dxfread.Entity, layout string, opt Options) (*builder, error) {
	if !(opt.ArcDevMM > 0) {
		opt.ArcDevMM = 0.01
	}
	if opt.Name == "" {
		opt.Name = "part"
	}
	b := &builder{
		ctx: ctx, d: d, opt: opt,
		words:     opt.Layers.withDefaults(),
		sheet:     &Sheet{Layout: layout, ArcDevMM: opt.ArcDevMM},
		ignored:   map[string]int{},
		styleOf:   map[style]int32{},
		fitted:    map[int32]bool{},
		faultSeen: map[string]bool{},
	}
	for _, n := range d.Notes {
		b.readerNote(n)
		if n.Code == "endblk-missing" {
			// What stood between is lost, and nobody knows how much.
			b.fault(Fault{Code: "read-incomplete", Part: -1, Count: n.Count, Text: n.Text})
		}
	}
	for _, step := range []func() error{
		func() error { return b.collect(entities) }, // space, texts, dimensions
		b.settleUnits, // plane, vote, scale
		b.drawEdges,   // curves to lines and arcs
		b.takeFrames,  // frames, title blocks, tables out
		b.markRevisions,
		b.takeSymbols,
		b.takeClouds,   // revision clouds out
		b.takeLineWork, // dashes, dimensions in pieces, centre marks, hatching, letters out
		b.joinEdges,    // declared noise out; snap, merge, bridge; contours
		b.roundLoops,   // polygons and runs of chords to circles and arcs
		b.dropTwice,    // contours that lie on another one
		b.takeBorders,  // stock borders out
		b.takeBroken,   // bars drawn shortened to one outline
		b.takeDetails,  // enlarged views out
		b.takeScales,   // of views, by their dimensions
		b.takeAngles,   // views of the legs of angles, and the lines in them
		b.takeEdgeViews,
		b.takeSections,
		b.sortDividers,
		b.nest, // outlines, cut-outs, parts in cut-outs
		b.placeLines,
		b.sortChains,       // what is left open
		b.mergeInterrupted, // bends on both sides of a hole
		b.readBendNotes,    // angle, radius and way of each bend
		b.scaleUp,          // views to true size
		b.makeParts,        // copies, recognition, patterns
		b.scaleDown,
		b.readTexts,
		b.joinFaults,
	} {
		if err := step(); err != nil {
			return nil, err
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	return b, nil
}

// guessedDevShare is how far arcs may lie from curves, as a share of the
// drawing's size, when the unit is a guess: 0.01 mm on 50 mm.
const guessedDevShare = 2e-4

// settleUnits chooses the drawing's plane and its unit.
func (b *builder) settleUnits() error {
	b.settlePlane()
	votes := b.voteDataOf()
	u, notes := decideUnits(b.opt.Units, b.d.Header.InsUnits, votes)
	b.sheet.Units = u
	if u.From == UnitsUnknown {
		// In whatever unit, a curve keeps its shape.
		if fine := guessedDevShare * math.Max(votes.width, votes.height) * u.MM; fine > 0 && fine < b.opt.ArcDevMM {
			b.opt.ArcDevMM, b.sheet.ArcDevMM = fine, fine
		}
	}
	for _, n := range notes {
		b.note(n)
	}
	b.frame.scale = u.MM
	for _, t := range b.texts {
		p := b.frame.point(t.at)
		if !isNumber(p.X) || !isNumber(p.Y) {
			continue
		}
		b.sheet.Texts = append(b.sheet.Texts, Text{Value: t.value, At: p, HeightMM: t.height * u.MM, AngleRad: t.turn, Tag: t.tag, Leader: t.leader, Source: Source{t.info}})
	}
	for _, a := range b.arrows {
		l := leader{b.frame.point(a[0]), b.frame.point(a[1])}
		if isNumber(l.tip.X) && isNumber(l.tip.Y) && isNumber(l.end.X) && isNumber(l.end.Y) {
			b.leaders = append(b.leaders, l)
		}
	}
	sort.SliceStable(b.sheet.Texts, func(i, j int) bool {
		p, q := b.sheet.Texts[i], b.sheet.Texts[j]
		if p.At.Y != q.At.Y {
			return p.At.Y > q.At.Y // as it is read, from the top
		}
		if p.At.X != q.At.X {
			return p.At.X < q.At.X
		}
		if p.Value != q.Value {
			return p.Value < q.Value
		}
		return p.HeightMM < q.HeightMM
	})
	return nil
}

// finish puts the sheet's lists in an order that does not depend on the file's.
func (b *builder) finish() *Sheet {
	s := b.sheet
	if b.opt.ReadError != nil {
		b.fault(Fault{Code: "read-incomplete", Part: -1, Text: "the file was not read to its end: " + b.opt.ReadError.Error()})
	}
	if len(s.Parts) == 0 && !slices.ContainsFunc(s.Faults, func(f Fault) bool { return f.Code == "no-part" }) {
		b.fault(Fault{Code: "no-part", Part: -1, Text: b.noPartText()})
	}
	for what, n := range b.ignored {
		s.Ignored = append(s.Ignored, Ignored{what, n})
	}
	sort.Slice(s.Ignored, func(i, j int) bool { return s.Ignored[i].What < s.Ignored[j].What })
	sort.SliceStable(s.Notes, func(i, j int) bool {
		p, q := &s.Notes[i], &s.Notes[j]
		if p.Code != q.Code {
			return p.Code < q.Code
		}
		if c := comparePlace(p.At, q.At); c != 0 {
			return c < 0
		}
		return p.Text < q.Text
	})
	sort.SliceStable(s.Faults, func(i, j int) bool {
		p, q := &s.Faults[i], &s.Faults[j]
		if p.Code != q.Code {
			return p.Code < q.Code
		}
		if c := comparePlace(p.At, q.At); c != 0 {
			return c < 0
		}
		return p.Text < q.Text
	})
	return s
}
