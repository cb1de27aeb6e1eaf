package render

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"

	santhosh "github.com/santhosh-tekuri/jsonschema/v6"
)

func sceneReports() []namedReport {
	return append(append(allReports(), angleReports()...), namedReport{"tall", tallReport()}, namedReport{"full", fullReport()}, namedReport{"step", stepReport()})
}

// TestPictures draws each report; when BURRSIDE_PICTURES names a folder the
// pictures are left there for looking at.
func TestPictures(t *testing.T) {
	dir := os.Getenv("BURRSIDE_PICTURES")
	n := 0
	for _, r := range sceneReports() {
		s := NewScene(r.rep, 0, SceneOptions{})
		var b, again bytes.Buffer
		if err := s.PNG(&b); err != nil {
			t.Fatal(err)
		}
		if err := NewScene(r.rep, 0, SceneOptions{}).PNG(&again); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			t.Errorf("%s: the bytes differ from run to run (%v)", r.name, err)
		}
		img, err := png.Decode(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		if img.Bounds().Dx() != 1600 || img.Bounds().Dy() != s.HeightPX || s.HeightPX < 300 || s.HeightPX > 2400 {
			t.Errorf("%s: bounds %v", r.name, img.Bounds())
		}
		if got := color.RGBAModel.Convert(img.At(2, 2)); got != (color.RGBA{255, 255, 255, 255}) {
			t.Errorf("%s: the paper is %v", r.name, got)
		}
		if dir != "" {
			if err := os.WriteFile(filepath.Join(dir, r.name+".png"), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		n++
	}
	if n == 0 {
		t.Fatal("nothing drawn")
	}
}

func TestSceneGoldens(t *testing.T) {
	for _, r := range sceneReports() {
		switch r.name {
		case "plate", "strap", "gusset", "nothick", "open", "unreadable", "angle bracket", "angle post", "angle rail", "angle undrawn":
			golden(t, "scene/"+strings.ReplaceAll(r.name, " ", "-")+".txt", []byte(NewScene(r.rep, 0, SceneOptions{}).Text()))
		}
	}
}

// checkScene holds what must be so in every scene: labels lie apart and within
// the canvas, shapes within it too, balloons and the labels of dimensions off
// the small features.
func checkScene(s *Scene, small []area) error {
	type named struct {
		a    area
		what string
		kind itemKind
	}
	canvas := area{0, 0, float64(s.WidthPX), float64(s.HeightPX)}
	var labels []named
	for i := range s.items {
		it := &s.items[i]
		if a, ok := it.label(); ok {
			labels = append(labels, named{a, fmt.Sprintf("%s %q", it.kind, it.lines), it.kind})
		}
		for _, p := range it.path {
			if !finite(p.x+p.y) || p.op != segClose && !canvas.grow(1).holds(area{p.x, p.y, 0, 0}) {
				return fmt.Errorf("%s %s %q leaves the canvas at %v, %v of %d x %d", it.kind, it.style, it.lines, p.x, p.y, s.WidthPX, s.HeightPX)
			}
		}
	}
	if len(labels) < 4 {
		return fmt.Errorf("only %d labels", len(labels))
	}
	for i, l := range labels {
		if !finite(l.a.x+l.a.y+l.a.w+l.a.h) || !canvas.holds(l.a) {
			return fmt.Errorf("%s lies outside the canvas: %v of %d x %d", l.what, l.a, s.WidthPX, s.HeightPX)
		}
		for _, m := range labels[:i] {
			if l.a.overlaps(m.a) {
				return fmt.Errorf("%s at %v overlaps %s at %v", l.what, l.a, m.what, m.a)
			}
		}
		if l.kind == itemBalloon || l.kind == itemDimension {
			for _, f := range small {
				if l.a.overlaps(f) {
					return fmt.Errorf("%s at %v lies on a small feature at %v", l.what, l.a, f)
				}
			}
		}
	}
	return nil
}

// smallFeatures finds the holes of a scene that are small: its paper fills.
func smallFeatures(s *Scene) []area {
	var out []area
	for i := range s.items {
		it := &s.items[i]
		if it.kind != itemFill || it.style != "paper" {
			continue
		}
		a := area{math.Inf(1), math.Inf(1), 0, 0}
		x1, y1 := math.Inf(-1), math.Inf(-1)
		for _, p := range it.path {
			pts := [][2]float64{{p.x, p.y}}
			switch {
			case p.op == segClose:
				continue
			case p.op == segArc && math.Abs(p.sweep) > 6:
				pts = [][2]float64{{p.cx - p.r, p.cy - p.r}, {p.cx + p.r, p.cy + p.r}}
			}
			for _, q := range pts {
				a.x, a.y, x1, y1 = min(a.x, q[0]), min(a.y, q[1]), max(x1, q[0]), max(y1, q[1])
			}
		}
		a.w, a.h = x1-a.x, y1-a.y
		if min(a.w, a.h) < 60*max(0.75, float64(s.WidthPX)/1600) {
			out = append(out, a)
		}
	}
	return out
}

func TestLabelsLieApart(t *testing.T) {
	n := 0
	for _, r := range sceneReports() {
		for _, opt := range []SceneOptions{{}, {WidthPX: 800}, {WidthPX: 3200}, {HeightPX: 700}, {WidthPX: 600, HeightPX: 1200}, {Units: "in"}} {
			s := NewScene(r.rep, 0, opt)
			if err := checkScene(s, smallFeatures(s)); err != nil {
				t.Errorf("%s %+v: %v", r.name, opt, err)
			}
			if opt.HeightPX > 0 && s.HeightPX != max(600, opt.HeightPX) {
				t.Logf("%s %+v: %d px high", r.name, opt, s.HeightPX)
			}
			n++
		}
	}
	if n == 0 {
		t.Fatal("no scene")
	}
}

func TestLabelsOfRandomReportsLieApart(t *testing.T) {
	n := 150
	if testing.Short() {
		n = 30
	}
	balloons, dimensions := 0, 0
	for seed := range n {
		rnd := rand.New(rand.NewPCG(uint64(seed), 7))
		rep := randomReport(rnd)
		opt := []SceneOptions{{}, {}, {WidthPX: 1000}, {WidthPX: 2400}, {HeightPX: 800}}[seed%5]
		s := NewScene(rep, 0, opt)
		if err := checkScene(s, smallFeatures(s)); err != nil {
			t.Errorf("seed %d %+v: %v", seed, opt, err)
		}
		for i := range s.items {
			switch s.items[i].kind {
			case itemBalloon:
				balloons++
			case itemDimension:
				dimensions++
			}
		}
	}
	if balloons < n || dimensions < 3*n {
		t.Errorf("too little was tried: %d balloons and %d dimensions in %d scenes", balloons, dimensions, n)
	}
}

func TestRandomReportsInEveryForm(t *testing.T) {
	strict := compile(t, reflectSchema(true))
	for seed := range 120 {
		rep := randomReport(rand.New(rand.NewPCG(uint64(seed), 8)))
		doc, err := santhosh.UnmarshalJSON(bytes.NewReader(lineOf(t, rep)))
		if err != nil {
			t.Fatal(err)
		}
		if err := strict.Validate(doc); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		for l := range strings.SplitSeq(textOf(t, rep, TextOptions{Width: 60, Why: true, All: seed%2 == 0}), "\n") {
			if columns(l) > 60 {
				t.Errorf("seed %d: a line of %d columns: %q", seed, columns(l), l)
			}
		}
	}
}

// The numbers of the balloons are those of the table's rows, each once.
func TestBalloonsMatchTheTable(t *testing.T) {
	n := 0
	for _, r := range sceneReports() {
		s := NewScene(r.rep, 0, SceneOptions{})
		in, on := map[string]string{}, map[string]string{}
		for i := range s.items {
			it := &s.items[i]
			switch {
			case it.kind == itemBalloon:
				if on[it.lines[0]] != "" {
					t.Errorf("%s: two balloons %s", r.name, it.lines[0])
				}
				on[it.lines[0]] = it.style
				n++
			case it.kind == itemMarker && len(it.lines) > 0:
				in[it.lines[0]] = it.style
			}
		}
		if fmt.Sprint(in) != fmt.Sprint(on) {
			t.Errorf("%s: the table numbers %v, the balloons %v", r.name, in, on)
		}
	}
	if n < 20 {
		t.Errorf("only %d balloons", n)
	}
}

// What a reader must find in words on every picture.
func TestPictureSaysWhatItMust(t *testing.T) {
	words := func(s *Scene) string {
		var b strings.Builder
		for i := range s.items {
			b.WriteString(strings.Join(s.items[i].lines, " ") + "\n")
		}
		return b.String()
	}
	for _, r := range sceneReports() {
		text := words(NewScene(r.rep, 0, SceneOptions{}))
		for _, want := range []string{disclaimer, "drawing"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q", r.name, want)
			}
		}
		if r.rep.Shop.BuiltIn && !strings.Contains(text, "example shop") {
			t.Errorf("%s: nothing says that the shop is an example", r.name)
		}
	}
	for _, c := range []struct {
		rep  *check.Report
		want []string
	}{
		{plateReport(), []string{"DOES NOT FIT THIS SHOP: edge distance on H1", "found 20 mm", "at least 26.4 mm", "200 mm", "140 mm", "50 mm", "keep hands clear"}},
		{noThicknessReport(), []string{"CANNOT TELL YET", "not stated", "mild", "S355", "What is the thickness of BR-17?"}},
		{fullReport(), []string{"DOES NOT FIT", "+ 4 more in the text report", "could be inch"}},
		{tallReport(), []string{"[652F][67B6]Ø22 (!)", "59.055 in", "1-1/2 in", "at least 3/8 in", "платина"}},
		{openReport(), []string{"CANNOT TELL YET: open outline", "gap 3 mm", "should it be closed there"}},
		{unreadableReport(), []string{"the file ends too early", "4711"}},
		{fineReport(), []string{"FITS THIS SHOP", "nothing found against it", "Mill Lane"}},
		{doubtReport(), []string{"CANNOT TELL", "both readings", "read in mm: 200 x 150 mm", "read in inch: 5080 x 3810 mm", "no stock is so wide"}},
		{manyReport(), []string{"14 findings of this kind"}},
	} {
		text := words(NewScene(c.rep, 0, SceneOptions{}))
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: no %q in\n%s", c.rep.Drawing, w, text)
			}
		}
	}
}

// A part by itself may look good in a drawing that is not: the picture must not
// say that it fits.
func TestFaultOfTheDrawingReachesThePicture(t *testing.T) {
	r := fineReport()
	r.Findings = []check.Finding{{Rule: "units-doubt", Severity: check.Warning, CannotTell: true, Count: 1}}
	r.Parts = append(r.Parts, fineReport().Parts[0])
	r.Verdict = check.CannotTell
	for part := range 2 {
		if text := NewScene(r, part, SceneOptions{}).Text(); strings.Contains(text, "FITS") || !strings.Contains(text, "CANNOT TELL YET: units doubt") {
			t.Errorf("part %d: %s", part, text[:400])
		}
	}
	r.Findings, r.Verdict = nil, check.Fits
	if text := NewScene(r, 0, SceneOptions{}).Text(); !strings.Contains(text, `"FITS THIS SHOP"`) {
		t.Error("without the fault it fits")
	}
}

// No report, however odd its numbers, stops the picture.
func TestOddGeometryIsDrawn(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(r *check.Report){
		"no outline":  func(r *check.Report) { r.Parts[0].Part.Outline = nil },
		"no box":      func(r *check.Report) { r.Parts[0].Part.Outline, r.Parts[0].Part.Box = nil, geom.Box{} },
		"nan outline": func(r *check.Report) { r.Parts[0].Part.Outline[0].From.X = nan },
		"inf outline": func(r *check.Report) { r.Parts[0].Part.Outline[0].To.X = inf },
		"nan hole":    func(r *check.Report) { r.Parts[0].Part.Features[0].At.X = nan },
		"nan ring": func(r *check.Report) {
			r.Parts[0].Part.Features[0].Ring[0].Centre.X = nan
			r.Parts[0].Part.Holes[0][0].From.X = nan
		},
		"nan place":    func(r *check.Report) { r.Parts[0].Findings[0].At.X = nan },
		"far place":    func(r *check.Report) { r.Parts[0].Findings[0].At = pt(1e9, 1e9); r.Parts[0].Findings[0].To = nil },
		"far distance": func(r *check.Report) { *r.Parts[0].Findings[0].To = pt(-1e9, 4) },
		"no feature":   func(r *check.Report) { r.Parts[0].Findings[0].Features = []string{"H99"} },
		"no plan":      func(r *check.Report) { r.Parts[0].Plan = nil },
		"no shop":      func(r *check.Report) { r.Shop = nil },
		"no sheet":     func(r *check.Report) { r.Sheet = nil },
		"no verdict":   func(r *check.Report) { r.Verdict, r.Parts[0].Verdict = "", "" },
		"no parts":     func(r *check.Report) { r.Parts = nil },
		"flat":         func(r *check.Report) { r.Parts[0].Part.Outline = polygon(pt(0, 0), pt(100, 0)) },
		"wrong edges":  func(r *check.Report) { r.Parts[0].Part.Features[4].Edges = []int{-1, 99} },
		"far blank": func(r *check.Report) {
			r.Parts[0].Plan.Blank.Corners = [4]geom.Point{pt(nan, 0), pt(1e9, 0), pt(1e9, 1e9), pt(0, 1e9)}
		},
		"wrong makes": func(r *check.Report) { r.Parts[0].Plan.Makes[0].Feature = 77 },
		"nan numbers": func(r *check.Report) { r.Parts[0].Findings[0].Got.Value, r.Parts[0].Findings[0].Limit.Value = nan, inf },
		"huge": func(r *check.Report) {
			for i := range r.Parts[0].Part.Outline {
				e := &r.Parts[0].Part.Outline[i]
				e.From, e.To = pt(e.From.X*1e12, e.From.Y*1e12), pt(e.To.X*1e12, e.To.Y*1e12)
			}
		},
	} {
		r := plateReport()
		spoil(r)
		var b bytes.Buffer
		if err := NewScene(r, 0, SceneOptions{}).PNG(&b); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := Text(&b, r, TextOptions{All: true, Why: true}); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := JSON(&b, r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := Summary(&b, []*check.Report{r}); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := Questions(&b, []*check.Report{r}); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := (&Scene{}).PNG(&bytes.Buffer{}); err == nil {
		t.Error("a scene of no size is no picture")
	}
}

// Every place of the picture that stands for severity has its own colour and
// its own shape.
func TestSignsDiffer(t *testing.T) {
	signs, fills := map[sign]bool{}, map[color.RGBA]bool{}
	for _, s := range severities() {
		g, style := severitySign(s)
		signs[g] = true
		p := penOf(style)
		fills[p.fill] = true
		// Contrast of at least 3 to 1 between a sign's number and its ground;
		// Web Content Accessibility Guidelines 2.1, 1.4.3, large text (from memory).
		if c := contrast(p.fill, p.ink); c < 3 {
			t.Errorf("%s: contrast %.1f", s, c)
		}
	}
	if len(signs) != 3 || len(fills) != 3 {
		t.Errorf("%d signs, %d fills for 3 severities", len(signs), len(fills))
	}
	signs = map[sign]bool{}
	for _, v := range verdicts() {
		g, _, _ := verdictSign(v)
		signs[g] = true
	}
	if len(signs) != 4 {
		t.Errorf("%d signs for 4 verdicts", len(signs))
	}
}

// contrast is (L1 + 0.05) / (L2 + 0.05) of relative luminances.
func contrast(a, b color.RGBA) float64 {
	lum := func(c color.RGBA) float64 {
		ch := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*ch(c.R) + 0.7152*ch(c.G) + 0.0722*ch(c.B)
	}
	x, y := lum(a), lum(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

func TestNothingVanishesFromText(t *testing.T) {
	r := newRuler(1)
	for in, want := range map[string]string{"⌀22 ∅5 ⚠": "Ø22 Ø5 (!)", "支": "[652F]", "a\nb": "a b", "Ø±≥≤°×½": "Ø±≥≤°×½", "Дa": "Дa", "\x1b": "[1B]", "\xff": "[?]", "\u202e": "[202E]", "😀": "[1F600]"} {
		if got := r.clean(in); got != want {
			t.Errorf("clean(%q) = %q, want %q", in, got, want)
		}
	}
	// Every line that wrap makes fits, and together they are the text.
	text := "one two three averyverylongwordindeedthatmustbecut four 26.4 mm"
	lines := r.wrap(text, "body", 90, 0)
	for _, l := range lines {
		if r.width(l, "body") > 90 {
			t.Errorf("%q is wider than 90", l)
		}
	}
	if strings.ReplaceAll(strings.Join(lines, ""), " ", "") != strings.ReplaceAll(text, " ", "") {
		t.Errorf("%q", lines)
	}
	if !strings.Contains(strings.Join(lines, "|"), "26.4 mm") {
		t.Errorf("a number is parted from its unit: %q", lines)
	}
}

// Pixels of an arc: a ring of a known radius is drawn where its circle is.
func TestArcIsDrawnAsAnArc(t *testing.T) {
	v := view{x0: 100, y0: 100, scale: 1}
	s := &Scene{WidthPX: 200, HeightPX: 200}
	s.add(item{kind: itemFill, style: "scale-dark", path: v.edges(circle(pt(0, 0), 160), true)})
	img := s.paletted()
	for i := range 360 {
		a := float64(i) * math.Pi / 180
		for _, c := range []struct {
			r    float64
			dark bool
		}{{78.5, true}, {81.5, false}} {
			x, y := int(math.Floor(100+c.r*math.Cos(a))), int(math.Floor(100+c.r*math.Sin(a)))
			g, _, _, _ := img.At(x, y).RGBA()
			if (g < 0x8000) != c.dark {
				t.Fatalf("at %d degrees and radius %v: %v", i, c.r, img.At(x, y))
			}
		}
	}
}

// The quarter between 3 and 12 o'clock of the drawing is up and right in the
// picture, whatever way round it is drawn.
func TestArcsTurnTheRightWay(t *testing.T) {
	v := view{x0: 100, y0: 100, scale: 1}
	for name, e := range map[string]geom.Edge{"ccw": {From: pt(50, 0), To: pt(0, 50), Radius: 50, CCW: true}, "cw": {From: pt(0, 50), To: pt(50, 0), Radius: 50}} {
		for _, s := range v.edges([]geom.Edge{e}, false) {
			if s.op == segArc {
				x, y := s.cx+s.r*math.Cos(s.start+s.sweep/2), s.cy+s.r*math.Sin(s.start+s.sweep/2)
				if math.Abs(x-135.36) > 0.01 || math.Abs(y-64.64) > 0.01 {
					t.Errorf("%s: its middle is at %v, %v", name, x, y)
				}
			}
		}
		b, _ := edgesBox([]geom.Edge{e})
		if b.MinX != 0 || b.MaxX != 50 || b.MinY != 0 || b.MaxY != 50 {
			t.Errorf("%s: box %+v", name, b)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	for _, r := range sceneReports() {
		switch r.name {
		case "plate", "gusset", "grid", "full", "strap":
			b.Run(r.name, func(b *testing.B) {
				for b.Loop() {
					var buf bytes.Buffer
					if err := NewScene(r.rep, 0, SceneOptions{}).PNG(&buf); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

func BenchmarkScene(b *testing.B) {
	r := gussetReport()
	for b.Loop() {
		NewScene(r, 0, SceneOptions{})
	}
}

// A thousand holes and an outline of five thousand pieces.
func BenchmarkLargePart(b *testing.B) {
	var pts []geom.Point
	for i := range 5000 {
		a := float64(i) * 2 * math.Pi / 5000
		r := 500 + 3*float64(i%2)
		pts = append(pts, pt(r*math.Cos(a), r*math.Sin(a)))
	}
	p := newPart("large", polygon(pts...))
	var ids []string
	for i := range 1000 {
		ids = append(ids, p.hole(float64(i%32)*20-320, float64(i/32)*20-320, 8))
	}
	p.add("E", features.Feature{Kind: features.StraightCut, At: pts[0], Edges: []int{0}})
	r := judged("large.dxf", p.p, 10, place(finding("web", check.Error, 1, 2, "mm", "x", "y", ids...), pt(-320, -320)))
	for b.Loop() {
		var buf bytes.Buffer
		if err := NewScene(r, 0, SceneOptions{}).PNG(&buf); err != nil {
			b.Fatal(err)
		}
	}
}
