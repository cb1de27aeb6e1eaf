package features

import (
	"slices"

	"burrside/features/geom"
)

// Several sheets may stand in one file, each in a frame of its own. What is
// written in one of them speaks of the parts in it.

// sheetFrames are the outermost frames that lie beside each other, by place; nil
// if there are fewer than two.
func (b *builder) sheetFrames() []geom.Box {
	var out []geom.Box
	for i := range b.areas {
		a := &b.areas[i]
		if !a.frame {
			continue
		}
		inner := false
		for k := range b.areas {
			o := &b.areas[k]
			if k != i && o.frame && o.box != a.box && o.box.Grow(meshTolMM).ContainsBox(a.box) {
				inner = true
			}
		}
		if !inner && !slices.Contains(out, a.box) {
			out = append(out, a.box)
		}
	}
	if len(out) < 2 {
		return nil
	}
	slices.SortFunc(out, func(p, q geom.Box) int { return comparePlace(p.Min, q.Min) })
	for i := range out {
		for k := range i {
			if w := out[i].Grow(-meshTolMM); w.Min.X < out[k].Max.X && w.Max.X > out[k].Min.X && w.Min.Y < out[k].Max.Y && w.Max.Y > out[k].Min.Y {
				return nil // they overlap: no sheets beside each other
			}
		}
	}
	return out
}

// sheetOf is the sheet that a point lies on, -1 if there is but one or the point
// is on none.
func (b *builder) sheetOf(p geom.Point) int {
	return slices.IndexFunc(b.sheets, func(f geom.Box) bool { return f.Contains(p) })
}

// onSheet tells whether a part is drawn on a sheet; -1 is any.
func (b *builder) onSheet(part, sheet int) bool {
	if sheet < 0 {
		return true
	}
	return slices.ContainsFunc(b.instances, func(in instance) bool {
		return in.part == part && b.sheets[sheet].Contains(in.box.Centre())
	})
}
