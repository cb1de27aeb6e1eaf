package render

import (
	"fmt"
	"image/color"

	"burrside/check"
)

// The colours keep apart for people who see red and green alike: vermilion,
// amber, blue and a bluish green differ in brightness as well, and no meaning
// hangs on colour alone: each severity and verdict has a sign of its own shape.
// The hues are those of the palette for colour vision deficiency by M. Okabe
// and K. Ito, "Color Universal Design", 2008 (from memory).

// pen is how a style looks.
type pen struct {
	fill, line color.RGBA // alpha 0: none
	width      float64    // of the line, pixels at 1600 px of width
	dash       []float64
	font       fontName
	size       float64 // of text, pixels at 1600 px of width
	ink        color.RGBA
}

func rgb(hex uint32) color.RGBA {
	return color.RGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

const (
	hexPaper  = 0xFFFFFF
	hexInk    = 0x1B2430
	hexGrey   = 0x6B7480
	hexFaint  = 0xC9CFD6
	hexMetal  = 0xDCE3EA
	hexError  = 0xC23B00
	hexCare   = 0xE6A100
	hexNote   = 0x0067A5
	hexFits   = 0x007A5A
	hexTintE  = 0xFBE6DD
	hexTintC  = 0xFDF3D9
	hexTintN  = 0xE1EEF7
	hexTintF  = 0xDDF1EA
	hexShaded = 0xF3F5F7
)

// penOf gives the look of a style. The set of styles is closed.
func penOf(style string) pen {
	ink, grey, paper := rgb(hexInk), rgb(hexGrey), rgb(hexPaper)
	switch style {
	// shapes
	case "paper":
		return pen{fill: paper}
	case "metal":
		return pen{fill: rgb(hexMetal)}
	case "outline":
		return pen{line: ink, width: 2.4}
	case "hole":
		return pen{line: ink, width: 1.6}
	case "bend-line":
		return pen{line: ink, width: 1.6, dash: []float64{14, 6}}
	case "mark-line":
		return pen{line: grey, width: 1.4, dash: []float64{2, 4}}
	case "blank-line":
		return pen{line: grey, width: 1.2, dash: []float64{6, 5}}
	case "heel-line":
		return pen{line: ink, width: 1.2, dash: []float64{18, 4, 3, 4}}
	case "gauge-line":
		return pen{line: grey, width: 1, dash: []float64{10, 4, 2, 4}}
	case "root-zone":
		return pen{line: grey, width: 0.8}
	case "not-drawn":
		return pen{line: ink, width: 1.8, dash: []float64{7, 5}}
	case "break":
		return pen{fill: paper}
	case "loose":
		return pen{line: ink, width: 1.6, dash: []float64{10, 5}}
	case "gap":
		return pen{line: rgb(hexError), width: 3}
	case "thin":
		return pen{line: grey, width: 1}
	case "rule":
		return pen{line: rgb(hexFaint), width: 1}
	case "frame":
		return pen{line: rgb(hexFaint), width: 1.2}
	case "scale-dark":
		return pen{fill: ink, line: ink, width: 1.2}
	case "scale-light":
		return pen{fill: paper, line: ink, width: 1.2}
	case "error-mark":
		return pen{line: rgb(hexError), width: 3.6}
	case "warning-mark":
		return pen{line: rgb(hexCare), width: 3.6}
	case "note-mark":
		return pen{line: rgb(hexNote), width: 2.4}
	case "error-fine":
		return pen{line: rgb(hexError), width: 1.8}
	case "warning-fine":
		return pen{line: rgb(hexCare), width: 1.8}
	case "note-fine":
		return pen{line: rgb(hexNote), width: 1.4}
	case "error-tint":
		return pen{fill: rgb(hexTintE)}
	case "warning-tint":
		return pen{fill: rgb(hexTintC)}
	case "note-tint":
		return pen{fill: rgb(hexTintN)}
	case "fits-tint":
		return pen{fill: rgb(hexTintF)}
	case "shade":
		return pen{fill: rgb(hexShaded)}
	// signs, balloons and dimensions
	case "error":
		return pen{fill: rgb(hexError), line: rgb(hexError), width: 1.6, font: fontBold, size: 17, ink: paper}
	case "warning":
		return pen{fill: rgb(hexCare), line: ink, width: 1.6, font: fontBold, size: 17, ink: ink}
	case "note":
		return pen{fill: paper, line: rgb(hexNote), width: 2.2, font: fontBold, size: 17, ink: rgb(hexNote)}
	case "fits":
		return pen{fill: rgb(hexFits), line: rgb(hexFits), width: 1.6, font: fontBold, size: 17, ink: paper}
	case "unknown":
		return pen{fill: paper, line: ink, width: 2.4, font: fontBold, size: 14, ink: ink}
	case "error-dimension":
		return pen{fill: paper, line: rgb(hexError), width: 1.6, font: fontRegular, size: 16, ink: rgb(0xA03000)}
	case "warning-dimension":
		return pen{fill: paper, line: rgb(0x9A6A00), width: 1.6, font: fontRegular, size: 16, ink: rgb(0x6E4B00)}
	case "note-dimension":
		return pen{fill: paper, line: rgb(hexNote), width: 1.6, font: fontRegular, size: 16, ink: rgb(hexNote)}
	case "size-dimension":
		return pen{line: ink, width: 1.2, font: fontRegular, size: 17, ink: ink}
	// text
	case "verdict":
		return pen{font: fontBold, size: 32, ink: ink}
	case "heading":
		return pen{font: fontBold, size: 17, ink: ink}
	case "body":
		return pen{font: fontRegular, size: 16, ink: ink}
	case "strong":
		return pen{font: fontBold, size: 16, ink: ink}
	case "small":
		return pen{font: fontRegular, size: 14, ink: rgb(0x4A535E)}
	case "value":
		return pen{font: fontRegular, size: 18, ink: ink}
	case "feature-id":
		return pen{font: fontRegular, size: 14, ink: ink}
	case "mono":
		return pen{font: fontMono, size: 15, ink: ink}
	}
	panic(fmt.Sprintf("render: unknown style %q", style))
}

// sign is a shape that carries a meaning without its colour. The set is closed.
type sign string

const (
	signError   sign = "square"  // an error: a square with a bar cut out
	signCare    sign = "hexagon" // a warning
	signNote    sign = "disc"    // a note
	signFits    sign = "tick"    // a disc with a tick
	signUnknown sign = "lozenge" // a lozenge with a question mark
	signDot     sign = "dot"     // the end of a leader
)

// severitySign gives the sign and style of a severity.
func severitySign(s check.Severity) (sign, string) {
	switch s {
	case check.Error:
		return signError, "error"
	case check.Warning:
		return signCare, "warning"
	case check.Note:
		return signNote, "note"
	}
	panic(fmt.Sprintf("render: unknown severity %q", s))
}

// findingSign gives the sign and style of a finding: a question has the sign of
// what cannot be told yet.
func findingSign(f *check.Finding) (sign, string) {
	if f.CannotTell && f.Severity != check.Error {
		return signUnknown, "unknown"
	}
	return severitySign(f.Severity)
}

// verdictSign gives the sign, style and tint of a verdict.
func verdictSign(v check.Verdict) (sign, string, string) {
	switch v {
	case check.Fits:
		return signFits, "fits", "fits-tint"
	case check.WithCare:
		return signCare, "warning", "warning-tint"
	case check.DoesNotFit:
		return signError, "error", "error-tint"
	case check.CannotTell, "":
		return signUnknown, "unknown", "note-tint"
	}
	panic(fmt.Sprintf("render: unknown verdict %q", v))
}
