package render

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"

	"burrside/check"
	"burrside/dxfread"
	"burrside/features"
	"burrside/features/geom"
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

// TestMarksOfAScaledView: red-lines of a view at 1:5 lie on the view as drawn, and
// a place of the drawing comes back to the true part.
func TestMarksOfAScaledView(t *testing.T) {
	p := &features.Part{Scale: features.Scale{Factor: 5, About: pt(10, 20)}}
	if got := p.OnDrawing(pt(110, 70)); got.Dist(pt(30, 30)) > 1e-9 {
		t.Errorf("on the drawing at %v, want 30, 30", got)
	}
	if got, ok := p.FromDrawing(pt(30, 30)); !ok || got.Dist(pt(110, 70)) > 1e-9 {
		t.Errorf("true place %v %v, want 110, 70", got, ok)
	}
	e := p.EdgeOnDrawing(geom.Edge{From: pt(110, 70), To: pt(110, 70), Centre: pt(60, 70), Radius: 50, CCW: true})
	if e.Radius != 10 || e.Centre.Dist(pt(20, 30)) > 1e-9 {
		t.Errorf("a circle of 50 at 1:5 is drawn %v at %v", e.Radius, e.Centre)
	}
	// The picture shows the true part: a doubt moves there, a place about a feature
	// is there already.
	rep := &check.PartReport{Part: p, Findings: []check.Finding{{At: pt(30, 30), HasAt: true}, {At: pt(30, 30), HasAt: true, Features: []string{"H1"}}}}
	moved, _ := scaledReport(rep, nil)
	if at := moved.Findings[0].At; at.Dist(pt(110, 70)) > 1e-9 {
		t.Errorf("a doubt is marked at %v, want 110, 70", at)
	}
	if at := moved.Findings[1].At; at != pt(30, 30) {
		t.Errorf("a finding about a feature is marked at %v, want 30, 30", at)
	}
	// Red-lines go round the hole as it is drawn: 10 mm and half a letter.
	p.Form = features.FormFlat
	for i, q := range []geom.Point{pt(10, 20), pt(510, 20), pt(510, 270), pt(10, 270)} {
		p.Outline = append(p.Outline, geom.LineEdge(q, []geom.Point{pt(510, 20), pt(510, 270), pt(10, 270), pt(10, 20)}[i]))
	}
	p.Box = p.Outline.Bounds()
	p.Features = []features.Feature{{ID: "H1", Kind: features.RoundHole, At: pt(60, 70), DiameterMM: 100, Hole: -1}}
	rep.Findings = []check.Finding{{Severity: check.Error, Features: []string{"H1"}}}
	list := readMarks(t, &check.Report{Sheet: &features.Sheet{Units: features.Units{MM: 1}}, Parts: []*check.PartReport{rep}})
	for _, m := range list {
		if m.r > 0 && math.Abs(m.x-20) < 1e-6 && math.Abs(m.y-30) < 1e-6 && m.r > 10 && m.r < 13 {
			return
		}
	}
	t.Errorf("no circle about 20, 30: %v", list)
}
