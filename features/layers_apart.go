package features

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"burrside/features/geom"
	"burrside/features/join"
)

// Parts that lie on a sheet edge to edge, each on a layer of its own, are one
// tangle of lines when they are joined together. Where every layer closes by
// itself, and the outlines lie beside each other, the layers say what belongs
// together: they are joined one by one. It is said aloud.

// tangle is what hangs together in the joined drawing, by index in the result.
type tangle struct {
	contours, dividers, chains []int
	traced                     bool
	sources                    map[int32]bool
}

// layerGroup is one layer, or several that belong together, of a tangle.
type layerGroup struct {
	of     *tangle
	layers []string // in order
	result *join.Result
	sides  *sides
	first  int // of its contours, in the new result
}

// joinByLayer takes the tangles apart whose layers close by themselves.
func (b *builder) joinByLayer(res *join.Result) (*join.Result, error) {
	var apart []*tangle
	for _, t := range b.layerTangles(res) {
		groups, err := b.groupLayers(t, res)
		if err != nil {
			return nil, err
		}
		if len(groups) > 1 {
			apart = append(apart, t)
			b.apart = append(b.apart, groups...)
		}
	}
	if len(apart) == 0 {
		return res, nil
	}
	return replaceTangles(res, apart, b.apart), nil
}

// layerTangles lists what hangs together, is more than contours as they stand,
// and lies on more than one layer.
func (b *builder) layerTangles(res *join.Result) []*tangle {
	any := len(res.Dividers) > 0
	for i := range res.Contours {
		any = any || res.Contours[i].Face || res.Contours[i].ToolMark
	}
	if !any {
		return nil
	}
	var list []*tangle
	of := map[int]*tangle{} // by component
	add := func(t *tangle, pieces []join.Piece) {
		for i := range pieces {
			for _, s := range pieces[i].Sources {
				t.sources[s] = true
			}
		}
	}
	for i := range res.Contours {
		c := &res.Contours[i]
		t := of[c.Component]
		if t == nil {
			t = &tangle{sources: map[int32]bool{}}
			of[c.Component] = t
			list = append(list, t)
		}
		t.contours = append(t.contours, i)
		t.traced = t.traced || c.Face || c.ToolMark
		add(t, c.Pieces)
	}
	for i := range res.Dividers {
		t := of[res.Contours[res.Dividers[i].Contour].Component]
		t.dividers = append(t.dividers, i)
		t.traced = true
		add(t, res.Dividers[i].Pieces)
	}
	for i := range res.Chains {
		on := max(res.Chains[i].OnContour[0], res.Chains[i].OnContour[1])
		if on < 0 {
			continue
		}
		t := of[res.Contours[on].Component]
		t.chains = append(t.chains, i)
		add(t, res.Chains[i].Pieces)
	}
	return slices.DeleteFunc(list, func(t *tangle) bool { return !t.traced || len(b.layersOf(t)) < 2 })
}

// layersOf lists the layers of a tangle, in order.
func (b *builder) layersOf(t *tangle) []string {
	var list []string
	seen := map[string]bool{}
	for s := range t.sources {
		if l := b.sheet.Entities[s].Layer; !seen[l] {
			seen[l] = true
			list = append(list, l)
		}
	}
	sort.Strings(list)
	return list
}

// groupLayers joins every layer of a tangle by itself and puts those together
// that do not close so, or whose outlines do not lie beside each other. One
// group, or none, means that the tangle stays as it is.
func (b *builder) groupLayers(t *tangle, res *join.Result) ([]layerGroup, error) {
	layers := b.layersOf(t)
	const mostLayers = 200 // each is joined by itself
	if len(layers) > mostLayers {
		return nil, nil
	}
	open := map[int32]bool{} // what the drawing as a whole leaves open too
	for _, i := range t.chains {
		for _, p := range res.Chains[i].Pieces {
			for _, s := range p.Sources {
				open[s] = true
			}
		}
	}
	number := map[string]int{}
	for i, l := range layers {
		number[l] = i
	}
	inputs := make([][]join.Input, len(layers))
	for i := range b.items {
		it := &b.items[i]
		if t.sources[it.info] {
			l := number[b.sheet.Entities[it.info].Layer]
			inputs[l] = append(inputs[l], b.inputs[b.start[i]:b.start[i+1]]...)
		}
	}
	round := contoursRound(res, t)
	alone := make([]layerGroup, len(layers))
	closed := 0
	for i := range layers {
		r, err := b.join(inputs[i])
		if err != nil {
			return nil, err
		}
		alone[i] = layerGroup{of: t, layers: layers[i : i+1 : i+1], result: r}
		if closesAlone(r, open) {
			alone[i].sides = newSides(r, b.metalRound(res, round, layers[i]))
			closed++
		}
	}
	if closed < 2 {
		return nil, nil
	}
	// In the metal of a part, contours that touch are one opening, unless one
	// is a window of the part and the other lies in it.
	group := newGroups(len(layers))
	for i := range alone {
		for k := range i {
			if b.ctx.Err() != nil {
				return nil, b.ctx.Err()
			}
			same := alone[i].sides != nil && alone[k].sides != nil && alone[i].sides.round == alone[k].sides.round
			if len(round)%2 == 1 && same || !beside(&alone[i], &alone[k], inputs[i], inputs[k]) {
				group.unite(i, k)
			}
		}
	}
	var out []layerGroup
	for _, m := range group.members() {
		g := alone[m[0]]
		if len(m) > 1 {
			g = layerGroup{of: t}
			var in []join.Input
			for _, i := range m {
				g.layers = append(g.layers, layers[i])
				in = append(in, inputs[i]...)
			}
			r, err := b.join(in)
			if err != nil {
				return nil, err
			}
			if len(r.Contours) == 0 {
				return nil, nil
			}
			g.result, g.sides = r, newSides(r, false)
		} else if g.sides == nil {
			return nil, nil // lines that belong to nothing: keep them where they were
		}
		out = append(out, g)
	}
	return out, nil
}

// contoursRound lists the contours that lie round all of a tangle.
func contoursRound(res *join.Result, t *tangle) []int {
	var list []int
	for p := res.Contours[t.contours[0]].Parent; p >= 0; p = res.Contours[p].Parent {
		if !slices.Contains(t.contours, p) {
			list = append(list, p)
		}
	}
	return list
}

// metalRound tells whether a layer has metal round a tangle, by the contours
// round it that were drawn on the layer.
func (b *builder) metalRound(res *join.Result, round []int, layer string) bool {
	metal := false
	for _, c := range round {
		if slices.Contains(b.layersOfPieces(b.pieces(res.Contours[c].Pieces)), layer) {
			metal = !metal
		}
	}
	return metal
}

// closesAlone tells whether a layer by itself is nothing but contours, but for
// lines that are left open in any case.
func closesAlone(r *join.Result, open map[int32]bool) bool {
	if len(r.Contours) == 0 || len(r.Dividers) > 0 {
		return false
	}
	for i := range r.Contours {
		if r.Contours[i].ToolMark || r.Contours[i].Face {
			return false
		}
	}
	for i := range r.Chains {
		for _, p := range r.Chains[i].Pieces {
			for _, s := range p.Sources {
				if !open[s] {
					return false
				}
			}
		}
	}
	return !slices.ContainsFunc(r.Notes, func(n join.Note) bool {
		switch n.Code {
		case "self-crossing", "self-touching", "junction-unclear", "too-many-crossings", "tracing-failed":
			return true
		}
		return false
	})
}

// replaceTangles puts the contours of the groups in the place of the tangles'.
func replaceTangles(res *join.Result, tangles []*tangle, groups []layerGroup) *join.Result {
	out := &join.Result{SnapMM: res.SnapMM, BridgeMM: res.BridgeMM}
	to := make([]int, len(res.Contours)) // new numbers of the contours that stay
	goneContour, goneDivider, goneChain := make([]bool, len(res.Contours)), make([]bool, len(res.Dividers)), make([]bool, len(res.Chains))
	sources := map[int32]bool{}
	for _, t := range tangles {
		mark(goneContour, t.contours)
		mark(goneDivider, t.dividers)
		mark(goneChain, t.chains)
		for s := range t.sources {
			sources[s] = true
		}
	}
	component := 0
	for i := range res.Contours {
		component = max(component, res.Contours[i].Component+1)
		to[i] = -1
		if !goneContour[i] {
			to[i] = len(out.Contours)
			out.Contours = append(out.Contours, res.Contours[i])
		}
	}
	stayed := func(i int) int { return to[i] }
	var fresh []freshLoop
	for g := range groups {
		grp := &groups[g]
		grp.first = len(out.Contours)
		for k, c := range grp.result.Contours {
			c.Component += component
			out.Contours = append(out.Contours, c)
			fresh = append(fresh, freshLoop{grp.sides, &grp.sides.loops[k], grp.first + k})
		}
		component += len(grp.result.Contours)
	}
	// outside is the least contour round a contour of the old result that stays.
	outside := func(parent int) int {
		for parent >= 0 && to[parent] < 0 {
			parent = res.Contours[parent].Parent
		}
		if parent < 0 {
			return -1
		}
		return to[parent]
	}
	for i := range res.Contours {
		if to[i] < 0 {
			continue
		}
		c := &out.Contours[to[i]]
		c.Crosses = renumbered(c.Crosses, stayed) // of one component: all stay
		// What lay in a closed contour that crossed another lay outside in the
		// old result.
		c.Parent = leastRound(out, fresh, outside(res.Contours[i].Parent), c, nil)
	}
	for g := range groups {
		grp := &groups[g]
		round := outside(res.Contours[grp.of.contours[0]].Parent)
		later := func(i int) int { return i + grp.first }
		for k := range grp.result.Contours {
			c := &out.Contours[grp.first+k]
			c.Crosses = renumbered(c.Crosses, later)
			if c.Parent >= 0 {
				c.Parent += grp.first
			} else {
				c.Parent = round
			}
			c.Parent = leastRound(out, fresh, c.Parent, c, grp.sides)
		}
		for _, d := range grp.result.Dividers {
			d.Contour, d.Chain = later(d.Contour), chainOn(d.Chain, later)
			out.Dividers = append(out.Dividers, d)
		}
		for _, c := range grp.result.Chains {
			out.Chains = append(out.Chains, chainOn(c, later))
		}
		out.Notes = append(out.Notes, grp.result.Notes...)
	}
	for i := range out.Contours {
		d := 0
		for p := out.Contours[i].Parent; p >= 0; p = out.Contours[p].Parent {
			d++
		}
		out.Contours[i].Depth = d
	}
	for i, d := range res.Dividers {
		if !goneDivider[i] {
			d.Contour, d.Chain = stayed(d.Contour), chainOn(d.Chain, stayed)
			out.Dividers = append(out.Dividers, d)
		}
	}
	for i, c := range res.Chains {
		if !goneChain[i] {
			out.Chains = append(out.Chains, chainOn(c, stayed))
		}
	}
	for _, n := range res.Notes {
		if len(n.Sources) == 0 || slices.ContainsFunc(n.Sources, func(s int32) bool { return !sources[s] }) {
			out.Notes = append(out.Notes, n)
		}
	}
	return out
}

func mark(list []bool, which []int) {
	for _, i := range which {
		list[i] = true
	}
}

// freshLoop is a contour that takes the place of a tangle's.
type freshLoop struct {
	sides *sides // of its group
	loop  *sideLoop
	at    int // in the new result
}

// leastRound is the least contour round c: the one that is known, or one of the
// new ones of other groups.
func leastRound(out *join.Result, fresh []freshLoop, known int, c *join.Contour, own *sides) int {
	ring := c.Ring()
	box, area := ring.Bounds(), math.Abs(ring.Area())
	least := math.Inf(1)
	if known >= 0 {
		least = math.Abs(out.Contours[known].Ring().Area())
	}
	var inner geom.Point
	sought := false
	for _, f := range fresh {
		if f.sides == own || f.loop.area <= area || f.loop.area >= least || !f.loop.box.Grow(slipMM).ContainsBox(box) {
			continue
		}
		if !sought {
			inner, sought = ring.InnerPoint(), true
		}
		if f.loop.ring.Winding(inner) != 0 {
			known, least = f.at, f.loop.area
		}
	}
	return known
}

// chainOn gives the contours that a chain is tied to their new numbers.
func chainOn(c join.Chain, to func(int) int) join.Chain {
	for _, i := range []*int{&c.Inside, &c.OnContour[0], &c.OnContour[1]} {
		if *i >= 0 {
			*i = to(*i)
		}
	}
	return c
}

func renumbered(list []int, to func(int) int) []int {
	out := slices.Clone(list)
	for i := range out {
		out[i] = to(out[i])
	}
	return out
}

// doubtLayersApart says what was taken apart, and doubts the parts by how
// their outlines lie to each other.
func (b *builder) doubtLayersApart() {
	for i := range b.apart {
		for k := range b.apart[:i] {
			g, h := &b.apart[k], &b.apart[i]
			if g.of != h.of {
				continue
			}
			for x := range g.sides.loops {
				for y := range h.sides.loops {
					b.doubtBeside(g, h, x, y)
				}
			}
		}
	}
}

func (b *builder) doubtBeside(g, h *layerGroup, x, y int) {
	m := meetOf(&g.sides.loops[x], &h.sides.loops[y], g.sides, h.sides)
	if !m.touch {
		return
	}
	how := "touch"
	switch {
	case m.depthMM > touchingMM:
		how = fmt.Sprintf("overlap by %s mm", shortNumber(math.Round(m.depthMM*100)/100))
	case m.along:
		how = "lie edge to edge"
	}
	text := fmt.Sprintf("contours of %s and %s %s; each closes by itself, so they were taken as separate parts", layerNames(g.layers), layerNames(h.layers), how)
	if m.depthMM > slipMM {
		text += ", which cannot lie so on one plate"
	}
	var all []int32
	for _, c := range []*join.Contour{&g.result.Contours[x], &h.result.Contours[y]} {
		for _, p := range c.Pieces {
			all = append(all, p.Sources...)
		}
	}
	b.note(Note{Code: "layers-apart", At: m.at, HasAt: true, Text: text, Source: sourcesOf(all)})
	if m.depthMM <= touchingMM && !m.along {
		return // a corner that touches leaves nothing to doubt
	}
	d := Doubt{Code: "reading-doubt", Grave: m.depthMM > slipMM || m.small, At: m.at, Text: text, Source: sourcesOf(all)}
	b.loopDoubts = append(b.loopDoubts, loopDoubt{g.first + x, d}, loopDoubt{h.first + y, d})
}

// layerNames lists layers for people: layer "A", or layers "A", "B" and "C".
func layerNames(layers []string) string {
	if len(layers) == 1 {
		return fmt.Sprintf("layer %q", layers[0])
	}
	quoted := make([]string, len(layers))
	for i, l := range layers {
		quoted[i] = fmt.Sprintf("%q", l)
	}
	last := len(quoted) - 1
	return "layers " + strings.Join(quoted[:last], ", ") + " and " + quoted[last]
}
