// Package render turns a judged drawing into pictures, text, JSON and CSV. One
// scene, many forms: the PNG is drawn from a Scene that also has a text form.
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

// TextOptions steer the terminal report.
type TextOptions struct {
	Colour bool
	All    bool // notes beyond the first twelve lines too
	Why    bool // arithmetic of each finding
	Width  int  // columns, 0: 100
}

// Text writes the report for a terminal.
func Text(w io.Writer, rep *check.Report, opt TextOptions) error { panic("render: not written yet") }

// JSON writes the report as one line of JSON Lines, format "burrside/1".
func JSON(w io.Writer, rep *check.Report) error { panic("render: not written yet") }

// Schema is the JSON Schema of one line of JSON.
func Schema() []byte { panic("render: not written yet") }

// Summary writes summary.csv: one line a part and a totals line.
func Summary(w io.Writer, reps []*check.Report) error { panic("render: not written yet") }

// Questions writes questions.txt: one plain sentence for each open question.
func Questions(w io.Writer, reps []*check.Report) error { panic("render: not written yet") }
