package features_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
)

// The drawings of testdata/dirt are as careless as customers draw. What must be
// read from each stands in it as TEXT on layer WANT, its place in drawing units
// and its height how far off the answer may be; sizes are millimetres:
//
//	part w=200 h=140 area=27000 copies=2 cuts=4 clean=no   box, net area; place: bottom left
//	feature round-hole d=22 count=3 anywhere
//	doubt code=line-unexplained grave=yes
//	fault code=gap-bridged value=0.3
//	note code=gap-closed count=2
//	ignored what=point count=4
//	verdict is=does-not-fit
//
// Every part, every feature but the cuts, and every doubt, fault and note must
// be wanted: what a drawing does not want may not be said of it. A clean drawing
// wants no doubt and no fault. Underscores stand for spaces in a value.

var dirtFolder = filepath.Join("..", "testdata", "dirt")

// TestDirt reads every drawing, as it stands and with its entities in other
// orders, and holds it against what is written inside.
func TestDirt(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(dirtFolder, "*.dxf"))
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < len(dirtDrawn()) {
		t.Errorf("%d drawings, %d are drawn", len(files), len(dirtDrawn()))
	}
	for _, path := range files {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".dxf"), func(t *testing.T) {
			raw, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			d, readErr := dxfread.Decode(context.Background(), raw, dxfread.Limits{})
			if d == nil {
				t.Fatal(readErr)
			}
			wants, err := dxftest.Wants(d)
			if err != nil {
				t.Fatal(err)
			}
			if len(wants) == 0 {
				t.Fatal("the drawing wants nothing")
			}
			s := dirtSheet(t, d, readErr)
			checkInvariants(t, filepath.Base(path), s)
			if wrong := dirtWrong(s, wants); len(wrong) > 0 {
				t.Errorf("\n%s", strings.Join(wrong, "\n"))
				if testing.Verbose() {
					t.Log(describe(s))
				}
			}
			rnd := rand.New(rand.NewPCG(7, uint64(len(raw))))
			for k := range 4 {
				slices.Reverse(d.Model)
				if k > 0 {
					rnd.Shuffle(len(d.Model), func(i, j int) { d.Model[i], d.Model[j] = d.Model[j], d.Model[i] })
				}
				if got, want := describe(dirtSheet(t, d, readErr)), describe(s); got != want {
					t.Errorf("in another order of entities:\n%s\nas drawn:\n%s", got, want)
					break
				}
			}
		})
	}
}

func dirtSheet(t *testing.T, d *dxfread.Drawing, readErr error) *features.Sheet {
	t.Helper()
	s, err := features.Build(context.Background(), d, features.Options{ReadError: readErr})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// dirtWrong lists what was wanted and is not there, and what nobody wanted.
func dirtWrong(s *features.Sheet, wants []dxftest.Want) []string {
	var wrong []string
	parts, feats, doubts := map[int]bool{}, map[[2]int]bool{}, map[[2]int]bool{}
	faults, notes := map[int]bool{}, map[int]bool{}
	for i := range wants {
		w := &wants[i]
		at := geom.Point{X: w.X * s.Units.MM, Y: w.Y * s.Units.MM}
		near := func(p geom.Point) bool { return w.Anywhere || p.Dist(at) <= w.Tolerance*s.Units.MM }
		found := 0
		want, _ := w.Number("count")
		switch {
		case w.Feature:
			for k := range s.Parts {
				for j := range s.Parts[k].Features {
					f := &s.Parts[k].Features[j]
					if !feats[[2]int{k, j}] && string(f.Kind) == w.Name && near(f.At) && dirtFeature(f, w) && found < int(max(want, 1)) {
						feats[[2]int{k, j}] = true
						found++
					}
				}
			}
		case w.Name == "part":
			for k := range s.Parts {
				if p := &s.Parts[k]; !parts[k] && found == 0 && near(p.Box.Min) && dirtPart(p, w) {
					parts[k], found = true, 1
				}
			}
		case w.Name == "doubt":
			for k := range s.Parts {
				for j, d := range s.Parts[k].Doubts {
					if !doubts[[2]int{k, j}] && near(d.At) && found < int(max(want, 1)) && dirtSays(w, d.Code, d.Grave, d.Text, 0) {
						doubts[[2]int{k, j}] = true
						found++
					}
				}
			}
		case w.Name == "fault":
			for k, f := range s.Faults {
				if !faults[k] && near(f.At) && found < int(max(want, 1)) && dirtSays(w, f.Code, true, f.Text, f.Value) {
					faults[k] = true
					found++
				}
			}
		case w.Name == "note":
			for k, n := range s.Notes {
				if !notes[k] && (near(n.At) || !n.HasAt) && dirtSays(w, n.Code, false, n.Text, 0) {
					notes[k] = true
					found += n.Count
				}
			}
			if want == 0 {
				found = min(found, 1)
			}
		case w.Name == "ignored":
			for _, g := range s.Ignored {
				if dirtSays(w, g.What, false, "", 0) {
					found += g.Count
				}
			}
		case w.Name == "verdict":
			found = 1 // of the whole command; see the test beside it
		default:
			wrong = append(wrong, fmt.Sprintf("line %d: what is %q?", w.Line, w.Text))
			continue
		}
		if found != int(max(want, 1)) {
			wrong = append(wrong, fmt.Sprintf("line %d: found %d times: %q at %g,%g", w.Line, found, w.Text, w.X, w.Y))
		}
	}
	for k := range s.Parts {
		p := &s.Parts[k]
		if !parts[k] {
			wrong = append(wrong, fmt.Sprintf("not wanted: part %s of %.4f x %.4f, area %.4f, at %.4f,%.4f", p.Name, p.Box.Width(), p.Box.Height(), p.AreaMM2, p.Box.Min.X, p.Box.Min.Y))
		}
		for j := range p.Features {
			if f := &p.Features[j]; !feats[[2]int{k, j}] && f.Kind != features.StraightCut && f.Kind != features.ArcCut {
				wrong = append(wrong, "not wanted: "+featureLine(f))
			}
		}
		for j, d := range p.Doubts {
			if !doubts[[2]int{k, j}] {
				wrong = append(wrong, fmt.Sprintf("not wanted: doubt %s grave=%v at %.3f,%.3f: %s", d.Code, d.Grave, d.At.X, d.At.Y, d.Text))
			}
		}
	}
	for k, f := range s.Faults {
		if !faults[k] {
			wrong = append(wrong, fmt.Sprintf("not wanted: fault %s value=%.5g at %.3f,%.3f: %s", f.Code, f.Value, f.At.X, f.At.Y, f.Text))
		}
	}
	for k, n := range s.Notes {
		if !notes[k] {
			wrong = append(wrong, fmt.Sprintf("not wanted: note %s count=%d at %.3f,%.3f: %s", n.Code, n.Count, n.At.X, n.At.Y, n.Text))
		}
	}
	return wrong
}

// dirtPart compares a part: its box within 0.05 mm, its net area within 0.02 %
// and 0.5 mm2; unless said otherwise it is one copy and clean.
func dirtPart(p *features.Part, w *dxftest.Want) bool {
	copies, clean := 1.0, "yes"
	for _, v := range w.Values {
		ok := true
		switch v.Key {
		case "w":
			ok = math.Abs(p.Box.Width()-v.Number) <= 0.05
		case "h":
			ok = math.Abs(p.Box.Height()-v.Number) <= 0.05
		case "area":
			ok = math.Abs(p.AreaMM2-v.Number) <= 0.5+2e-4*v.Number
		case "copies":
			copies = v.Number
		case "clean":
			clean = v.Text
		case "cuts":
			n := 0
			for _, f := range p.Features {
				if f.Kind == features.StraightCut {
					n++
				}
			}
			ok = float64(n) == v.Number
		default:
			ok = false
		}
		if !ok {
			return false
		}
	}
	return float64(p.Copies()) == copies && p.Clean == (clean == "yes")
}

// sizeNamed is the size of a feature that expectations name d, w, l, r or depth;
// NaN for any other name.
func sizeNamed(f *features.Feature, key string) float64 {
	switch key {
	case "d":
		return f.DiameterMM
	case "w":
		return f.WidthMM
	case "l":
		return f.LengthMM
	case "r":
		return f.RadiusMM
	case "depth":
		return f.DepthMM
	}
	return math.NaN()
}

// dirtFeature compares the sizes of a feature, within 0.02 mm.
func dirtFeature(f *features.Feature, w *dxftest.Want) bool {
	for _, v := range w.Values {
		got := sizeNamed(f, v.Key)
		switch v.Key {
		case "count":
			continue
		case "seat":
			got = f.SeatMM
		case "sides":
			got = float64(f.Sides)
		case "corner":
			got = f.CornerRadiusMM
		case "shape":
			if string(f.Shape) != v.Text {
				return false
			}
			continue
		case "subkind":
			if f.Subkind != v.Text {
				return false
			}
			continue
		case "relief":
			if f.Relief != strings.TrimPrefix(v.Text, "none") {
				return false
			}
			continue
		case "crosses":
			if f.CrossesOutline != (v.Text == "yes") {
				return false
			}
			continue
		}
		if !(math.Abs(got-v.Number) <= 0.02) {
			return false
		}
	}
	return true
}

// dirtSays compares what was said with a want.
func dirtSays(w *dxftest.Want, code string, grave bool, text string, value float64) bool {
	for _, v := range w.Values {
		ok := true
		switch v.Key {
		case "code", "what":
			ok = code == strings.ReplaceAll(v.Text, "_", " ")
		case "grave":
			ok = grave == (v.Text == "yes")
		case "value":
			ok = math.Abs(value-v.Number) <= 0.002+1e-3*math.Abs(v.Number)
		case "says":
			ok = strings.Contains(text, strings.ReplaceAll(v.Text, "_", " "))
		case "count":
		default:
			ok = false
		}
		if !ok {
			return false
		}
	}
	return true
}

// dirtDrawing is one drawing of the corpus: a builder with a form, or bytes.
type dirtDrawing struct {
	name string
	raw  []byte
}

// TestDirtIsDrawn checks that the files are those that dirtDrawn makes, and
// writes them under UPDATE_GOLDEN.
func TestDirtIsDrawn(t *testing.T) {
	made := map[string]bool{}
	update := os.Getenv("UPDATE_GOLDEN") != ""
	if update {
		if err := os.MkdirAll(dirtFolder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, d := range dirtDrawn() {
		path := filepath.Join(dirtFolder, d.name+".dxf")
		if made[path] {
			t.Errorf("%s is drawn twice", path)
		}
		made[path] = true
		if update {
			if err := os.WriteFile(path, d.raw, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		old, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(old, d.raw) {
			t.Errorf("%s is not as drawn: UPDATE_GOLDEN=1 go test ./features -run DirtIsDrawn (%v)", path, err)
		}
	}
	files, _ := filepath.Glob(filepath.Join(dirtFolder, "*.dxf"))
	for _, f := range files {
		if !made[f] {
			t.Errorf("%s is drawn by nobody", f)
		}
	}
}

// dirtDrawn lists all drawings of the corpus.
func dirtDrawn() []dirtDrawing {
	var out dirtList
	for _, family := range []func(*dirtList){dirtLines, dirtGaps, dirtTouching, dirtNests, dirtDividers, dirtSpace, dirtScale, dirtCurves, dirtLayers, dirtLayersApart, dirtMarks, dirtNoPart, dirtOutlines, dirtHarmless, dirtSigns} {
		family(&out)
	}
	return out
}

// dirtList collects drawings.
type dirtList []dirtDrawing

func (l *dirtList) add(name string, b *dxftest.Builder) { l.addAs(name, dxftest.ASCII2007, b) }

func (l *dirtList) addAs(name string, form dxftest.Form, b *dxftest.Builder) {
	*l = append(*l, dirtDrawing{name, b.As(form)})
}

// dirtNotes begins a drawing whose texts state thickness and steel, in units of
// which k are a millimetre.
func dirtNotes(u dxftest.Unit, k float64) *dxftest.Builder {
	return dxftest.New(u).Layer("NOTES").Text(-150*k, 40*k, 5*k, "t = 10 mm").Text(-150*k, 30*k, 5*k, "S275").Layer("CUT")
}

// The plate of most drawings: 200 x 140, a hole of 22 at (60,70), a slot of
// 18 x 50 at (140,70).
const dirtHole, dirtSlot = math.Pi * 121, 18*32 + math.Pi*81

// dirtInside draws the hole and the slot and wants them.
func dirtInside(b *dxftest.Builder) *dxftest.Builder {
	return b.Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...).
		Want(60, 70, 0.02, "feature round-hole d=22").Want(140, 70, 0.02, "feature slot w=18 l=50")
}

// dirtWant wants the plate; more follows in the text.
func dirtWant(b *dxftest.Builder, more string) *dxftest.Builder {
	return b.Want(0, 0, 0.05, strings.TrimSpace(fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4 %s", 28000-dirtHole-dirtSlot, more)))
}

// dirtPlate draws the inside only and wants the plate: the outline is the
// caller's.
func dirtPlate() *dxftest.Builder { return dirtWant(dirtInside(dirtNotes(dxftest.MM, 1)), "") }

// dirtSides draws the four sides of a rectangle as lines.
func dirtSides(b *dxftest.Builder, x, y, w, h float64) *dxftest.Builder {
	return b.Line(x, y, x+w, y).Line(x+w, y, x+w, y+h).Line(x+w, y+h, x, y+h).Line(x, y+h, x, y)
}
