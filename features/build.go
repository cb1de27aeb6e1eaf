package features

import (
	"context"

	"burrside/dxfread"
)

// Options steer Build. The zero value means the defaults.
type Options struct {
	Name      string  // base name of the parts
	Units     string  // "mm", "in", "cm", "m", "ft"; "" from the drawing
	BridgeMM  float64 // default 0.5
	Layers    LayerWords
	ReadError error // what the reader said about the file, nil if it was whole
	Limits    dxfread.Limits
}

// LayerWords are words, in lower case, that name the purpose of a layer. A nil
// list means the default words, an empty one none.
type LayerWords struct {
	Bend, Mark, Centre, Hidden, Construction, Dimension, Frame, Text []string
}

// Build analyses a drawing. The error is ctx's or a limit's; whatever is wrong
// with the drawing is in the Sheet.
func Build(ctx context.Context, d *dxfread.Drawing, opt Options) (*Sheet, error) {
	panic("features: not written yet")
}
