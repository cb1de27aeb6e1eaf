package shop

import (
	"io"
	"strings"
)

// LoadError holds all problems of a shop file; the message lists them, a line each.
type LoadError struct {
	Path     string
	Problems []Problem
}

func (e *LoadError) Error() string { return "" }

// Load reads a shop file. path is used in messages only. The error is a
// *LoadError with every problem of the file, or one of reading.
func Load(r io.Reader, path string) (*Profile, error) { panic("shop: not written yet") }

// BuiltIn is the example shop of a footbridge builder.
func BuiltIn() *Profile { panic("shop: not written yet") }

// BuiltInText is the example shop as a file.
func BuiltInText() string { panic("shop: not written yet") }

// Template is a commented shop file to fill in.
func Template(units string) string { panic("shop: not written yet") }

// Material finds a material by name or alias, whatever the case and spaces; ok
// is false if the shop knows none. It never guesses.
func (p *Profile) Material(name string) (m *Material, ok bool) {
	_ = strings.ToLower
	panic("shop: not written yet")
}

// SnapThickness gives the stock or gauge thickness within 0.15 mm or 1.5 % of
// t, and whether it changed.
func (p *Profile) SnapThickness(mm float64) (snapped float64, changed bool) {
	panic("shop: not written yet")
}
