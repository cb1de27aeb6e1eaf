package render

import (
	"fmt"
	"io"

	"burrside/check"
)

// Brief writes a drawing in one line for a terminal: its verdict with the
// reason, and its name.
func Brief(w io.Writer, rep *check.Report) error {
	text := drawingHeading(rep)
	if rep.Err != nil {
		text = "COULD NOT BE READ: " + errorText(rep)
	}
	_, err := fmt.Fprintf(w, "%s  %s\n", plainLine(rep.Drawing), plainLine(text))
	return err
}
