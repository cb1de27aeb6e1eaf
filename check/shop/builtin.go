package shop

import (
	_ "embed"
	"strings"
)

//go:embed builtin.toml
var builtInText string

//go:embed template_mm.toml
var templateMM string

//go:embed template_in.toml
var templateIn string

// BuiltIn is the example shop of a footbridge builder. Each call gives a new one.
func BuiltIn() *Profile {
	p, err := Load(strings.NewReader(builtInText), "built-in shop")
	if err != nil {
		panic("shop: the built-in shop does not load: " + err.Error()) // a test holds that it does
	}
	p.Path, p.BuiltIn = "", true
	return p
}

// BuiltInText is the example shop as a file.
func BuiltInText() string { return builtInText }

// Template is a commented shop file to fill in, in inches when units is "in",
// else in millimetres. It loads as it stands.
func Template(units string) string {
	if units == "in" {
		return templateIn
	}
	return templateMM
}
