package features

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/join"
)

// comparePlace orders places by bottom, then left, rounded to 0.001 mm.
func comparePlace(p, q geom.Point) int {
	py, qy := math.Round(p.Y*1000), math.Round(q.Y*1000)
	switch {
	case py < qy:
		return -1
	case py > qy:
		return 1
	}
	px, qx := math.Round(p.X*1000), math.Round(q.X*1000)
	switch {
	case px < qx:
		return -1
	case px > qx:
		return 1
	}
	return 0
}

// drawEdges turns every item into edges. b.start[i] is where the edges of item
// i begin in b.inputs; one more entry ends the last.
func (b *builder) drawEdges() error {
	b.start = make([]int, 0, len(b.items)+1)
	b.inputs = slices.Grow(b.inputs, len(b.items))
	tol := b.opt.ArcDevMM
	type count struct {
		n    int
		info []int32
	}
	notes := map[[2]string]*count{}
	tell := func(code, text string, info int32) {
		k := [2]string{code, text}
		c := notes[k]
		if c == nil {
			c = &count{}
			notes[k] = c
		}
		c.n++
		if len(c.info) < 10 {
			c.info = append(c.info, info)
		}
	}
	flat := b.frame == flatFrame(b.frame.scale)
	for i := range b.items {
		if i%256 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		it := &b.items[i]
		b.start = append(b.start, len(b.inputs))
		if e, ok := it.placed.Entity.(*dxfread.Line); ok { // most of what is drawn
			var edge geom.Edge
			if flat {
				edge.From, edge.To = it.line[0].Mul(b.frame.scale), it.line[1].Mul(b.frame.scale)
			} else {
				edge.From, edge.To = b.frame.point(it.placed.Map.Apply(e.From)), b.frame.point(it.placed.Map.Apply(e.To))
			}
			if withinBounds(&edge) {
				b.inputs = append(b.inputs, join.Input{Edge: edge, Source: it.info, Style: it.style})
				continue
			}
		}
		d := edgesOf(b.ctx, it.placed, b.frame, tol)
		name := it.placed.Entity.Name()
		if d.fault != "" {
			tell("entity-skipped", fmt.Sprintf("%s was left out: %s", name, d.fault), it.info)
			if !harmless(d.fault) {
				b.faultOnce("read-incomplete", d.fault+name, fmt.Sprintf("a %s could not be used: %s", name, d.fault), it.info)
			}
			continue
		}
		for _, n := range d.notes {
			tell("curve-guessed", fmt.Sprintf("%s: %s", name, n), it.info)
		}
		if d.fitted {
			b.fitted[it.info] = true
			tell("curve-to-arcs", fmt.Sprintf("%s became arcs that lie within %s mm of it", name, shortNumber(tol)), it.info)
		}
		b.inputs = joinInput(b.inputs, d, it.info, int32(i+1), it.style)
	}
	b.start = append(b.start, len(b.inputs))
	keys := make([][2]string, 0, len(notes))
	for k := range notes {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool { return keys[i][0]+keys[i][1] < keys[j][0]+keys[j][1] })
	for _, k := range keys {
		b.note(Note{Code: k[0], Text: k[1], Count: notes[k].n, Source: sourcesOf(notes[k].info)})
	}
	return nil
}

// harmless faults leave nothing out that could be metal.
func harmless(fault string) bool {
	return fault == "it has no length" || fault == "it has fewer than two points" || fault == "its radius is 0"
}

// inputsOf gathers the edges of the items that pass.
func (b *builder) inputsOf(pass func(*item) bool) []join.Input {
	n := 0
	for i := range b.items {
		if pass(&b.items[i]) {
			n += b.start[i+1] - b.start[i]
		}
	}
	if n == len(b.inputs) {
		return slices.Clip(b.inputs)
	}
	out := make([]join.Input, 0, n)
	for i := range b.items {
		if pass(&b.items[i]) {
			out = append(out, b.inputs[b.start[i]:b.start[i+1]]...)
		}
	}
	return out
}

func (b *builder) join(in []join.Input) (*join.Result, error) {
	return join.Join(b.ctx, in, join.Options{BridgeMM: b.opt.BridgeMM})
}

// weakestOrder ends the list of layer words; strong noise comes back last.
const weakestOrder = 9

// joinEdges takes the declared noise out and joins what is left. Noise that is
// only declared by a layer's name, or by a dash pattern, must not delete the
// drawing: if no closed contour remains it comes back, weakest first.
func (b *builder) joinEdges() error {
	isCut := func(it *item) bool { return (it.class == classCut || it.back) && !it.thread }
	res, err := b.join(b.inputsOf(isCut))
	if err != nil {
		return err
	}
	if len(res.Contours) == 0 {
		if res, err = b.bringBack(res, isCut); err != nil {
			return err
		}
	}
	if res, err = b.joinByLayer(res); err != nil {
		return err
	}
	b.joined = res
	b.doubtLayersApart()
	b.sheet.SnapMM, b.sheet.BridgeMM = res.SnapMM, res.BridgeMM
	b.countNoise()
	b.loops = slices.Grow(b.loops, len(res.Contours))
	for _, c := range res.Contours {
		l := loop{pieces: b.pieces(c.Pieces), parent: c.Parent, depth: c.Depth, toolMark: c.ToolMark, crosses: c.Crosses}
		b.loops = append(b.loops, l)
	}
	return nil
}

func (b *builder) bringBack(res *join.Result, isCut func(*item) bool) (*join.Result, error) {
	for order := 1; order <= weakestOrder; order++ {
		layers := map[string]int{}
		dashed := false
		for i := range b.items {
			it := &b.items[i]
			if it.class == classCut || it.back {
				continue
			}
			if it.strength == weak && it.order == order || it.strength == strong && order == weakestOrder {
				it.back = true
				dashed = dashed || it.strength == strong
				layers[b.sheet.Entities[it.info].Layer]++
			}
		}
		if len(layers) == 0 {
			continue
		}
		again, err := b.join(b.inputsOf(isCut))
		if err != nil {
			return nil, err
		}
		if len(again.Contours) == 0 {
			b.broughtBack = append(b.broughtBack, layers)
			continue
		}
		b.broughtBack = append(b.broughtBack, layers)
		names := map[string]int{}
		for _, m := range b.broughtBack {
			for l, n := range m {
				names[l] += n
			}
		}
		var list []string
		total := 0
		for l, n := range names {
			list = append(list, fmt.Sprintf("%q", l))
			total += n
		}
		sort.Strings(list)
		why := "whose names speak against it"
		if dashed {
			why = "that are dashed or whose names speak against it"
		}
		text := fmt.Sprintf("nothing else closes, so %d entities %s were read as outlines: layer %s", total, why, strings.Join(list, ", "))
		b.note(Note{Code: "layer-brought-back", Count: total, Text: text})
		if dashed {
			b.sheetDoubts = append(b.sheetDoubts, Doubt{Code: "reading-doubt", Grave: true, Text: text})
		}
		return again, nil
	}
	// Nothing closes in any reading: stay with the first.
	for i := range b.items {
		b.items[i].back = false
	}
	return res, nil
}

// countNoise counts what was left out, and names the layers left out by name.
func (b *builder) countNoise() {
	byLayer := map[[2]string]int{}
	for i := range b.items {
		it := &b.items[i]
		if it.class != classNoise || it.back {
			continue
		}
		b.ignored[it.what]++
		if it.strength == weak {
			byLayer[[2]string{b.sheet.Entities[it.info].Layer, it.what}]++
		}
	}
	keys := make([][2]string, 0, len(byLayer))
	for k := range byLayer {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool { return keys[i][0] < keys[j][0] })
	for _, k := range keys {
		b.note(Note{Code: "layer-left-out", Count: byLayer[k], Text: fmt.Sprintf("%d entities on layer %q were taken for a %s by its name", byLayer[k], k[0], k[1])})
	}
}

// roundLoops turns polygons and runs of chords into circles and arcs.
func (b *builder) roundLoops() error {
	var notes []facetNote
	for i := range b.loops {
		if i%256 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		l := &b.loops[i]
		l.roundBridges()
		l.wholeCircle()
		l.dropSpecks()
		l.mergeArcs()
		l.smoothTangents()
		l.settle()
		// A contour that encloses nothing is a line drawn to and fro.
		if !(l.area > 1e-3*math.Max(1e-3, l.ring.Length())) {
			l.dead = true
			b.note(Note{Code: "flat-contour", At: l.box.Centre(), HasAt: true, Source: l.sources(), Text: "a closed line encloses no area and was left out"})
			continue
		}
		notes = append(notes, l.roundFacets()...)
		b.noteTiny(l)
		b.noteJogs(l)
		l.startCanonical()
	}
	b.facetNotes(notes)
	b.takeDots()
	return nil
}

// children fills the lists of children of the live loops that are no marks.
func (b *builder) settleChildren() {
	for i := range b.loops {
		b.loops[i].children = nil
	}
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || l.toolMark {
			continue
		}
		for l.parent >= 0 && (b.loops[l.parent].dead || b.loops[l.parent].toolMark) {
			l.parent = b.loops[l.parent].parent
		}
		if l.parent >= 0 {
			p := &b.loops[l.parent]
			p.children = append(p.children, i)
		}
	}
	for i := range b.loops {
		c := b.loops[i].children
		slices.SortStableFunc(c, func(x, y int) int { return b.compareLoops(x, y) })
	}
}

func (b *builder) compareLoops(x, y int) int {
	p, q := &b.loops[x], &b.loops[y]
	if c := comparePlace(p.box.Min, q.box.Min); c != 0 {
		return c
	}
	switch {
	case p.area < q.area:
		return -1
	case p.area > q.area:
		return 1
	}
	return 0
}
