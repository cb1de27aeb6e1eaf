package features

import (
	"maps"
	"slices"

	"burrside/dxfread"
	"burrside/features/geom"
)

// A table that the file names as one is drawn by a block of its own: *T and a
// number. Its lines and pictures are no metal, and its texts are words of a table.

// isTablePicture tells whether a path of blocks leads into the picture of a table.
func isTablePicture(path []string) bool {
	for _, name := range path {
		if len(name) > 2 && name[0] == '*' && name[1]|0x20 == 't' && name[2] >= '0' && name[2] <= '9' {
			return true
		}
	}
	return false
}

// addTable keeps the corners of a table, in drawing units.
func (b *builder) addTable(t *dxfread.Table, p dxfread.Placed) {
	corners, ok := t.Corners()
	if !ok {
		return
	}
	m := p.Full()
	for i := range corners {
		corners[i] = m.Apply(corners[i])
	}
	b.tables = append(b.tables, corners)
}

// tableAreas enters the places of such tables: of those that are named by their
// sizes, of others by their lines.
func (b *builder) tableAreas() {
	var boxes []geom.Box
	for _, c := range b.tables {
		box := geom.BoxOf(b.frame.point(c[0]), b.frame.point(c[1]), b.frame.point(c[2]), b.frame.point(c[3]))
		if isNumber(box.Width()) && isNumber(box.Height()) {
			boxes = append(boxes, box.Grow(meshTolMM))
		}
	}
	drawn := map[int32]geom.Box{}
	for i := range b.items {
		if it := &b.items[i]; it.what != tableTaken || it.strength != sure {
			continue
		}
		for k := b.start[i]; k < b.start[i+1]; k++ {
			box := b.inputs[k].Edge.Bounds()
			if old, ok := drawn[b.items[i].placed.Block]; ok {
				box = box.Union(old)
			}
			drawn[b.items[i].placed.Block] = box
		}
	}
	for _, block := range slices.Sorted(maps.Keys(drawn)) {
		box := drawn[block].Grow(meshTolMM)
		if !slices.ContainsFunc(boxes, func(have geom.Box) bool { return have.Contains(box.Centre()) }) {
			boxes = append(boxes, box)
		}
	}
	slices.SortFunc(boxes, func(p, q geom.Box) int {
		if c := comparePlace(p.Min, q.Min); c != 0 {
			return c
		}
		return comparePlace(p.Max, q.Max)
	})
	for _, box := range boxes {
		words := 0
		for i := range b.sheet.Texts {
			if t := &b.sheet.Texts[i]; box.Contains(t.At) {
				words += headingWords(t.Value)
			}
		}
		b.areas = append(b.areas, sheetArea{box: box, title: words >= 2})
	}
}
