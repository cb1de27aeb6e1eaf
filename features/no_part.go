package features

import (
	"fmt"
	"sort"
	"strings"

	"burrside/dxfread"
)

// noPartText says that no outline was found, what the drawing holds instead, and
// what to export.
func (b *builder) noPartText() string {
	text := "no closed outline was found in the drawing"
	counts := map[string]int{}
	off := 0
	for what, n := range b.ignored {
		if what == "layer off" || what == "layer frozen" {
			off += n
		}
		what = strings.TrimPrefix(what, "other ")
		if what == "polyline" {
			what = "mesh" // of the polylines only meshes are not decoded
		}
		counts[what] += n
	}
	for i := range b.items {
		if it := &b.items[i]; it.class == classCut {
			counts[strings.ToLower(it.placed.Entity.Name())]++
		}
	}
	if len(counts) == 0 {
		blocks := 0
		for i := range b.d.Blocks {
			if k := &b.d.Blocks[i]; !k.Layout && len(k.Entities) > 0 {
				blocks++
			}
		}
		if blocks > 0 {
			return text + "; nothing is placed in it, but it defines " + countedKind(blocks, "block") + ": insert the block of the part"
		}
		return text + ": it is empty"
	}
	kinds := make([]string, 0, len(counts))
	for k := range counts {
		kinds = append(kinds, k)
	}
	sort.Slice(kinds, func(i, j int) bool {
		if counts[kinds[i]] != counts[kinds[j]] {
			return counts[kinds[i]] > counts[kinds[j]]
		}
		return kinds[i] < kinds[j]
	})
	const most = 6
	var list []string
	for _, k := range kinds[:min(most, len(kinds))] {
		list = append(list, countedKind(counts[k], k))
	}
	if len(kinds) > most {
		list = append(list, "and others")
	}
	text += "; it holds " + strings.Join(list, ", ")
	switch {
	case off > 0 && len(b.items) == 0:
		text += ": turn the layers on, or export with all layers shown"
	case counts["line"]+counts["arc"]+counts["lwpolyline"]+counts["polyline"]+counts["circle"]+counts["spline"]+counts["ellipse"] == 0:
		text += ": export the outline as lines, arcs, circles or polylines"
	}
	return text
}

// countedKind writes a number of things that a drawing holds.
func countedKind(n int, what string) string {
	switch what {
	case "layer off":
		return fmt.Sprintf("%d on layers that are off", n)
	case "layer frozen":
		return fmt.Sprintf("%d on frozen layers", n)
	case "out of the plane", "invisible":
		return fmt.Sprintf("%d %s", n, what)
	}
	if strings.HasSuffix(what, " layer") || strings.HasSuffix(what, " linetype") {
		return fmt.Sprintf("%d by their %s", n, what)
	}
	switch {
	case n == 1:
	case strings.HasSuffix(what, "sh"), strings.HasSuffix(what, "ch"):
		what += "es"
	case strings.HasSuffix(what, "y"):
		what = strings.TrimSuffix(what, "y") + "ies"
	default:
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

// addOff keeps a line or curve on a layer that is off or frozen.
func (b *builder) addOff(p dxfread.Placed) {
	switch p.Entity.(type) {
	case *dxfread.Line, *dxfread.Arc, *dxfread.Circle, *dxfread.Ellipse, *dxfread.Polyline, *dxfread.Spline:
		if len(b.off) < maxOff {
			b.off = append(b.off, p)
		}
	}
}
