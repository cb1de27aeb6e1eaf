package render

import (
	"io"

	"burrside/check"
)

// SceneOptions steer the picture of one part.
type SceneOptions struct {
	WidthPX  int    // default 1600
	HeightPX int    // default: fits the content
	Units    string // "mm", "in"; "" as the shop
}

// NewScene lays out the marked-up picture of one part of a report.
func NewScene(rep *check.Report, part int, opt SceneOptions) *Scene { panic("render: not written yet") }

// NewDrawingScene lays out the picture of a drawing that has no part: loose
// ends and gaps, with the reasons.
func NewDrawingScene(rep *check.Report, opt SceneOptions) *Scene { panic("render: not written yet") }

// Scene is a laid-out picture: shapes and labels in pixels.
type Scene struct{}

// PNG draws the scene.
func (s *Scene) PNG(w io.Writer) error { panic("render: not written yet") }

// Text is the scene as text, for tests: one shape or label a line.
func (s *Scene) Text() string { panic("render: not written yet") }
