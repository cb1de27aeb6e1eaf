package features_test

import "burrside/dxfread"

// arrayDrawing is a plate with a block of one hole set out n times in an array
// of a single insert.
func arrayDrawing(n int) *dxfread.Drawing {
	columns := 1
	for columns*columns < n {
		columns++
	}
	rows := (n + columns - 1) / columns
	hole := &dxfread.Circle{Radius: 3}
	hole.Linetype, hole.Colour, hole.Extrusion = -1, 256, dxfread.Vec{Z: 1}
	in := &dxfread.Insert{Block: "HOLE", At: dxfread.Vec{X: 10, Y: 10}, Scale: dxfread.Vec{X: 1, Y: 1, Z: 1},
		Columns: columns, Rows: rows, ColSpacing: 10, RowSpacing: 10}
	in.Linetype, in.Colour, in.Extrusion = -1, 256, dxfread.Vec{Z: 1}
	d := drawingOf(append(rectLines(0, 0, float64(columns+1)*10, float64(rows+1)*10), in))
	d.Blocks = []dxfread.Block{{Name: "HOLE", Entities: []dxfread.Entity{hole}}}
	return d
}
