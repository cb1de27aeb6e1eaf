package render

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"

	"burrside/check"
	"burrside/dxfread"
)

// marked is a circle or a text of the marks as an independent decoding sees it.
type marked struct {
	layer, text string
	x, y, r     float64
}

func readMarks(t *testing.T, rep *check.Report) []marked {
	t.Helper()
	out, ok := Marks(rep)
	if !ok {
		t.Fatal("nothing is marked")
	}
	var b bytes.Buffer
	if err := out.Write(&b); err != nil {
		t.Fatal(err)
	}
	d, err := dxfread.Decode(context.Background(), b.Bytes(), dxfread.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	var list []marked
	for _, e := range d.Model {
		m := marked{layer: d.Layers[e.Base().Layer].Name}
		switch e := e.(type) {
		case *dxfread.Circle:
			m.x, m.y, m.r = e.Centre.X, e.Centre.Y, e.Radius
		case *dxfread.Text:
			m.x, m.y, m.text = e.At.X, e.At.Y, e.Value
		default:
			m.text = e.Name()
		}
		list = append(list, m)
	}
	return list
}

// Marks stand where the drawing has the features: those of leg b in its own view.
func TestMarksStandOnTheDrawing(t *testing.T) {
	list := readMarks(t, bracketReport())
	find := func(layer string, x, y float64) bool {
		for _, m := range list {
			if m.layer == layer && m.r > 0 && math.Abs(m.x-x) < 1e-6 && math.Abs(m.y-y) < 1e-6 {
				return true
			}
		}
		return false
	}
	// The views: leg a from y 0 to its heel at 100, leg b from its heel at 400 up.
	if !find(marksError, 50, 100-55) {
		t.Errorf("no mark on the hole of leg a: %v", list)
	}
	if !find(marksCare, 140, 400+25) {
		t.Errorf("no mark on the hole of leg b: %v", list)
	}
	text := ""
	for _, m := range list {
		text += m.text + "\n"
	}
	for _, w := range []string{disclaimer, "1 ERROR: H1 edge distance: the hole is too near the edge (20 mm, at least 26.4 mm)", "2 CARE: H3 punch force", "LINE"} {
		if !strings.Contains(text, w) {
			t.Errorf("no %q in\n%s", w, text)
		}
	}
}

// Numbers of several findings on one feature stand beside each other.
func TestMarksNumbersStandApart(t *testing.T) {
	rep := bracketReport()
	p := rep.Parts[0]
	p.Findings = append(p.Findings, p.Findings[0], p.Findings[0])
	p.Findings[2].To, p.Findings[3].To = nil, nil
	var x []float64
	for _, m := range readMarks(t, rep) {
		if m.text == "1" || m.text == "3" || m.text == "4" {
			x = append(x, m.x)
		}
	}
	if len(x) != 3 || x[1]-x[0] < 2 || x[2]-x[1] < 2 {
		t.Errorf("the numbers stand at %v", x)
	}
}

func TestMarksInInches(t *testing.T) {
	rep := plateReport()
	before := readMarks(t, rep)
	rep.Sheet.Units.Name, rep.Sheet.Units.MM = "in", 25.4
	after := readMarks(t, rep)
	n := 0
	for i, m := range before {
		if m.r > 0 {
			n++
			if d := after[i]; math.Abs(d.x*25.4-m.x) > 1e-4 || math.Abs(d.r*25.4-m.r) > 1e-4 {
				t.Errorf("%v became %v", m, d)
			}
		}
	}
	if n == 0 {
		t.Error("no circle")
	}
}

// Every report can be marked or has nothing to mark, odd ones too.
func TestMarksOfEveryReport(t *testing.T) {
	n := 0
	for _, r := range sceneReports() {
		out, ok := Marks(r.rep)
		if want := r.rep.Err == nil && r.rep.Sheet != nil && len(r.rep.Findings)+findingsOf(r.rep) > 0; ok != want {
			t.Errorf("%s: marked %v, want %v", r.name, ok, want)
		}
		if !ok {
			continue
		}
		n++
		if err := out.Write(new(bytes.Buffer)); err != nil {
			t.Errorf("%s: %v", r.name, err)
		}
	}
	if n < 5 {
		t.Errorf("only %d were marked", n)
	}
	rep := bracketReport()
	rep.Parts[0].Part.Features[0].At.X = math.NaN()
	rep.Parts[0].Findings[0].At.X = math.Inf(1)
	if out, ok := Marks(rep); !ok || out.Write(new(bytes.Buffer)) != nil {
		t.Error("a place that is none spoils the file")
	}
}

func findingsOf(rep *check.Report) int {
	n := 0
	for _, p := range rep.Parts {
		n += len(p.Findings)
	}
	return n
}
