package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	santhosh "github.com/santhosh-tekuri/jsonschema/v6"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
	"burrside/render"
)

// fuzzLimit is how long one small drawing may take, some thousand times what it
// should: a loop that does not end is found, a busy machine is not.
const fuzzLimit = 30 * time.Second

// reportSeeds are the sample drawings and small ones of every kind of shape.
func reportSeeds(f *testing.F) [][]byte {
	var all [][]byte
	paths, _ := filepath.Glob(filepath.Join(partsDir, "*.dxf"))
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		all = append(all, data)
	}
	if len(all) == 0 {
		f.Fatal("no sample drawings")
	}
	notched := []dxftest.V{{X: 0, Y: 0}, {X: 80, Y: 0}, {X: 80, Y: 20}, {X: 60, Y: 20}, {X: 60, Y: 40}, {X: 45, Y: 40}, {X: 40, Y: 30}, {X: 35, Y: 40}, {X: 10, Y: 40, Bulge: 0.41421356}, {X: 0, Y: 30}}
	mixed := dxftest.New(dxftest.MM).Layer("CUT").Polyline(true, notched...)
	mixed.Circle(20, 15, 4).Polyline(true, dxftest.Slot(45, 15, 6, 20)...).Layer("BEND").Line(30, 0, 30, 40)
	mixed.Text(0, -10, 3, "PL 10 S275").Text(0, -20, 3, "4 HOLES %%c8")
	loose := dxftest.New(dxftest.Inch).Line(0, 0, 4, 0).Line(4, 0, 4, 2).Line(4, 2, 0, 2.001).Line(0, 2, 0, 0).Arc(2, 1, 0.25, 0, 350)
	nested := dxftest.New(dxftest.NoUnit).Circle(0, 0, 60).Circle(0, 0, 40).Circle(0, 0, 20)
	nested.Block("B", 0, 0, func(b *dxftest.Builder) { b.Circle(0, 0, 3).Arc(5, 5, 2, 0, 90) })
	nested.Insert("B", 50, 0, dxftest.Placing{ScaleX: -1, Columns: 2, Rows: 2, ColSpacing: 9, RowSpacing: 9})
	for _, b := range []*dxftest.Builder{goodPlate(), mixed, loose, nested} {
		for _, form := range dxftest.Forms() {
			all = append(all, b.As(form))
		}
	}
	// The least that is read, so that a change of one byte is a change of shape.
	bare := func(entities string) []byte {
		return []byte("0\nSECTION\n2\nENTITIES\n" + entities + "0\nENDSEC\n0\nEOF\n")
	}
	poly := func(closed string, xy ...string) string {
		s := "0\nLWPOLYLINE\n70\n" + closed + "\n"
		for i, v := range xy {
			s += []string{"10", "20", "42"}[i%3] + "\n" + v + "\n"
		}
		return s
	}
	circle := func(x, y, r string) string { return "0\nCIRCLE\n10\n" + x + "\n20\n" + y + "\n40\n" + r + "\n" }
	text := "0\nTEXT\n10\n0\n20\n-9\n40\n3\n1\nPL 10 S275\n"
	plate := poly("1", "0", "0", "0", "90", "0", "0", "90", "60", "0", "0", "60", "0")
	return append(all,
		bare(plate+circle("30", "30", "7")+text),
		bare(poly("1", "0", "0", "1", "90", "0", "1")+circle("30", "0", "7")+text),
		bare(plate+poly("0", "10", "0", "0", "10", "60", "0")+text),
		bare(plate+"0\nELLIPSE\n10\n40\n20\n30\n11\n20\n21\n0\n40\n.5\n41\n0\n42\n6.283185307179586\n"+text),
		bare(plate+"0\nSPLINE\n70\n1\n71\n2\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n10\n10\n20\n10\n10\n50\n20\n50\n10\n70\n20\n10\n"),
		bare(plate+"0\nDIMENSION\n70\n0\n13\n0\n23\n0\n14\n90\n24\n0\n10\n0\n20\n-20\n42\n90\n1\n<>\n"),
		bare(plate+"0\nHATCH\n91\n1\n92\n2\n93\n4\n10\n1\n20\n1\n10\n9\n20\n1\n10\n9\n20\n9\n10\n1\n20\n9\n"),
		bare(plate+circle("1e308", "nan", "inf")+circle("-1e17", "1e17", "1e9")),
	)
}

func compileSchema(t testing.TB) *santhosh.Schema {
	doc, err := santhosh.UnmarshalJSON(bytes.NewReader(render.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := santhosh.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// FuzzReport takes any bytes through the whole path, from the reader to text,
// JSON and picture: nothing panics or goes on for ever, the JSON keeps to its
// schema, twice gives the same, and nothing fits by mistake.
func FuzzReport(f *testing.F) {
	for _, s := range reportSeeds(f) {
		f.Add(s)
	}
	schema := compileSchema(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<16 {
			return
		}
		ctx, stop := context.WithTimeout(context.Background(), fuzzLimit)
		defer stop()
		// The unit is stated in every second run, so that bytes without a header
		// come as far as a verdict.
		q := &question{shop: shop.BuiltIn(), job: plan.Job{Bolts: true, Code: "en"}, limits: dxfread.Limits{Placed: 3000}}
		if len(data)%2 == 0 {
			q.stated.units = "mm"
		}
		rep := reportOf(t, ctx, q, data)
		checkReport(t, schema, rep)
		if again := reportOf(t, ctx, q, data); !bytes.Equal(asJSON(t, rep), asJSON(t, again)) {
			t.Fatal("judging twice gives two answers")
		}
	})
}

// reportOf goes the way of the command, without a file and without its net.
func reportOf(t *testing.T, ctx context.Context, q *question, data []byte) *check.Report {
	d, readErr := dxfread.Decode(ctx, data, q.limits)
	rep, err := q.judgeDrawing(ctx, "fuzz.dxf", d, readErr)
	if ctx.Err() != nil {
		t.Fatalf("not done after %v", fuzzLimit)
	}
	if err != nil {
		rep = unreadable("fuzz.dxf", q.shop, err)
	}
	if rep.Verdict == check.Fits && readErr != nil {
		t.Fatalf("it fits, though: %v", readErr)
	}
	return rep
}

func asJSON(t *testing.T, rep *check.Report) []byte {
	var b bytes.Buffer
	if err := render.JSON(&b, rep); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// checkReport holds what must be true of every report.
func checkReport(t *testing.T, schema *santhosh.Schema, rep *check.Report) {
	line := asJSON(t, rep)
	doc, err := santhosh.UnmarshalJSON(bytes.NewReader(line))
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(doc); err != nil {
		t.Fatalf("not of the schema: %v", err)
	}
	var text bytes.Buffer
	if err := render.Text(&text, rep, render.TextOptions{All: true, Why: true}); err != nil {
		t.Fatal(err)
	}
	if err := render.Brief(&text, rep); err != nil {
		t.Fatal(err)
	}
	if strings.ContainsAny(text.String(), "\x00\x1b\x07") || strings.Contains(text.String(), "NaN") {
		t.Fatalf("control characters or no numbers in the text:\n%q", text.String())
	}
	s := render.NewSummary(&text)
	s.Add(render.EntryOf(rep))
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	checkVerdict(t, rep)
	if rep.Err != nil {
		return
	}
	if len(rep.Parts) == 0 {
		err = render.NewDrawingScene(rep, render.SceneOptions{WidthPX: 600, HeightPX: 400}).PNG(io.Discard)
	}
	for i := range min(len(rep.Parts), 2) {
		err = errors.Join(err, render.NewScene(rep, i, render.SceneOptions{WidthPX: 600, HeightPX: 400}).PNG(io.Discard))
	}
	if err != nil {
		t.Fatal(err)
	}
}

// checkVerdict holds the verdict against everything that speaks against it.
func checkVerdict(t *testing.T, rep *check.Report) {
	tl := newTally(false)
	tl.add(&answer{verdict: rep.Verdict, unreadable: rep.Err != nil})
	want := map[check.Verdict]int{check.Fits: exitFits, check.WithCare: exitFits, check.CannotTell: exitDoesNot, check.DoesNotFit: exitDoesNot}[rep.Verdict]
	if rep.Err != nil {
		want = exitTrouble
		if rep.Verdict != check.CannotTell || len(rep.Parts) > 0 {
			t.Fatalf("unreadable, and yet %s with %d parts", rep.Verdict, len(rep.Parts))
		}
	}
	if got := tl.status(); got != want {
		t.Fatalf("%s gives exit %d, want %d", rep.Verdict, got, want)
	}
	if rep.Err != nil {
		return
	}
	pass := rep.Verdict == check.Fits || rep.Verdict == check.WithCare
	if pass && len(rep.Parts) == 0 {
		t.Fatal("a drawing without a part fits")
	}
	for i := range rep.Sheet.Faults {
		switch code := rep.Sheet.Faults[i].Code; code {
		case "read-incomplete", "too-many-placed", "no-part", "self-crossing", "open-outline":
			if pass {
				t.Fatalf("%s, though %s: %s", rep.Verdict, code, rep.Sheet.Faults[i].Text)
			}
		}
	}
	for _, p := range rep.Parts {
		if rep.Verdict == check.Fits && p.Verdict != check.Fits || pass && p.Verdict != check.Fits && p.Verdict != check.WithCare {
			t.Fatalf("the drawing: %s, its part %s: %s", rep.Verdict, p.Part.Name, p.Verdict)
		}
		checkPart(t, p)
	}
}

func checkPart(t *testing.T, p *check.PartReport) {
	pass := p.Verdict == check.Fits || p.Verdict == check.WithCare
	for _, d := range p.Part.Doubts {
		if pass && d.Grave {
			t.Fatalf("%s: %s, though in grave doubt: %s", p.Part.Name, p.Verdict, d.Text)
		}
	}
	for i := range p.Findings {
		f := &p.Findings[i]
		if pass && f.Severity == check.Error || p.Verdict == check.Fits && f.Severity == check.Warning {
			t.Fatalf("%s: %s, though %s: %s", p.Part.Name, p.Verdict, f.Rule, f.Message)
		}
	}
	if pass && (!(p.Job.ThicknessMM > 0) || p.Job.Material == nil) {
		t.Fatalf("%s: %s without thickness or material", p.Part.Name, p.Verdict)
	}
	if pass && p.Plan == nil {
		t.Fatalf("%s: %s without a plan", p.Part.Name, p.Verdict)
	}
	box := p.Part.Box
	for _, v := range []float64{box.Min.X, box.Min.Y, box.Max.X, box.Max.Y, p.Part.AreaMM2, p.Part.PerimeterMM} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s: %v of a box or an area", p.Part.Name, v)
		}
	}
	if pass {
		checkSteel(t, p)
	}
}

// checkSteel looks at a part that fits from outside: what is cut out of it lies
// in it, and is less than it.
func checkSteel(t *testing.T, p *check.PartReport) {
	whole := p.Part.Outline.Area()
	if !(whole > 0) || !(p.Part.AreaMM2 > 0) || p.Part.AreaMM2 > whole*(1+1e-9)+1e-6 {
		t.Fatalf("%s: %g mm2 of %g mm2 are left", p.Part.Name, p.Part.AreaMM2, whole)
	}
	for _, h := range p.Part.Holes {
		if !p.Part.Box.Grow(0.01).ContainsBox(h.Bounds()) || p.Part.Outline.Inside(h.InnerPoint(), 0) == geom.Out {
			t.Fatalf("%s: a hole lies outside the part that it is cut from", p.Part.Name)
		}
	}
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if f.Kind == features.RoundHole && !(f.DiameterMM > 0) {
			t.Fatalf("%s: %s of %g mm", p.Part.Name, f.ID, f.DiameterMM)
		}
	}
	if p.Plan.Work.Known && p.Plan.Work.Hits < 0 {
		t.Fatalf("%s: %d hits", p.Part.Name, p.Plan.Work.Hits)
	}
}
