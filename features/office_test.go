package features_test

import (
	"bytes"
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
)

// The drawings of testdata/sheets are as drawing offices make them: angles in
// their views, bordered sheets with title blocks, tables and dimensions. What
// must be read from each stands in the file NAME.want beside it, one thing a
// line, in millimetres; the words are those of the lines below:
//
//	angle a=75 b=50 t=6 length=400 section=L75x50x6 kg=5.65 root=7 copies=2 material=S275JR qty=4 from=two_views hand=none
//	plate w=200 h=140 t=10 area=27000          box, outside dimensions
//	hole leg=a heel=45 start=40 d=22           of the angle above it: from the heel, from the start
//	hole x=40 y=30 d=22                        of the plate above it: from its bottom left
//	slot, rectangle, cutout, notch, clip, radius, bend, mark, mitre      likewise
//	doubt code=section-conflict grave=yes says=200   must be said; count=2
//	may-doubt code=...                         may be said
//	fault code=... ; note code=... says=... ; no-note code=...
//	verdict is=cannot-tell                     of the whole command
//	only as-drawn=yes                          no turned, mirrored and nested copies
//	only unmirrored=yes                        no mirrored copy
//
// Every part, feature, doubt and fault must be wanted; of notes only those named
// are looked at. Angles begin at the left, or the lower, end; of equal legs the
// upper view is leg a, else the left one. Underscores stand for spaces.

var officeFolder = filepath.Join("..", "testdata", "sheets")

// officeDrawing is one drawing with what is wanted of it.
type officeDrawing struct {
	name string
	raw  []byte
	want string
}

type officeList []officeDrawing

func (l *officeList) add(name string, form officeForm, b *dxftest.Builder, want string) {
	*l = append(*l, officeDrawing{name, form.bytes(b), strings.TrimSpace(strings.ReplaceAll(want, "\n\t\t", "\n")) + "\n"})
}

// addSheet adds a bordered sheet: nobody mirrors one with its title block.
func (l *officeList) addSheet(name string, form officeForm, b *dxftest.Builder, want string) {
	l.add(name, form, b, want+"\nonly unmirrored=yes")
}

// officeForm is a way to store a drawing: a form and, where it is not empty,
// another value of $ACADVER.
type officeForm struct {
	form    dxftest.Form
	version string
}

var (
	r12   = officeForm{form: dxftest.ASCIIR12}
	r2000 = officeForm{dxftest.ASCIICRLF, "AC1015"}
	r2004 = officeForm{dxftest.ASCII2007, "AC1018"}
	r2007 = officeForm{form: dxftest.ASCII2007}
	r2010 = officeForm{dxftest.ASCIICRLF, "AC1024"}
	r2013 = officeForm{dxftest.ASCII2007, "AC1027"}
	r2018 = officeForm{dxftest.ASCII2007, "AC1032"}
)

// bytes writes a drawing. Before 2007 letters beyond ASCII are escapes.
func (f officeForm) bytes(b *dxftest.Builder) []byte {
	raw := b.As(f.form)
	if f.version == "" {
		return raw
	}
	return bytes.Replace(raw, []byte("AC1021"), []byte(f.version), 1)
}

// officeDrawn lists all drawings.
func officeDrawn() []officeDrawing {
	var out officeList
	for _, family := range []func(*officeList){officeAngles, officeWorked, officeMoreAngles, officeNoAngles, officeOddAngles, officeAnglesAlone, officeSheets, officeScaled, officeOddSheets, officeMoreSheets, officeViewSheets} {
		family(&out)
	}
	return out
}

// TestOfficeIsDrawn checks that the files are those that officeDrawn makes, and
// writes them under UPDATE_GOLDEN.
func TestOfficeIsDrawn(t *testing.T) {
	made := map[string]bool{}
	update := os.Getenv("UPDATE_GOLDEN") != ""
	if update {
		if err := os.MkdirAll(officeFolder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, d := range officeDrawn() {
		for ending, data := range map[string][]byte{".dxf": d.raw, ".want": []byte(d.want)} {
			path := filepath.Join(officeFolder, d.name+ending)
			if made[path] {
				t.Errorf("%s is drawn twice", path)
			}
			made[path] = true
			if update {
				if err := os.WriteFile(path, data, 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			if old, err := os.ReadFile(path); err != nil || !bytes.Equal(old, data) {
				t.Errorf("%s is not as drawn: UPDATE_GOLDEN=1 go test ./features -run OfficeIsDrawn (%v)", path, err)
			}
		}
	}
	files, _ := filepath.Glob(filepath.Join(officeFolder, "*.*"))
	for _, f := range files {
		if !made[f] && filepath.Base(f) != "pending.txt" {
			t.Errorf("%s is drawn by nobody", f)
		}
	}
	for name := range officePending(t) {
		if base, _, _ := strings.Cut(name, "/"); !made[filepath.Join(officeFolder, base+".dxf")] {
			t.Errorf("%q is pending and drawn by nobody", name)
		}
	}
}

// TestOffice reads every drawing: as it stands, with its entities in other
// orders, as one block, turned by a quarter and mirrored. What pending.txt lists must
// not be right yet.
func TestOffice(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(officeFolder, "*.dxf"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	pending := officePending(t)
	for _, path := range files {
		name := strings.TrimSuffix(filepath.Base(path), ".dxf")
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(strings.TrimSuffix(path, ".dxf") + ".want")
		if err != nil {
			t.Fatal(err)
		}
		want, err := parseOffice(string(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, way := range officeWays() {
			label := name + "/" + way.name
			_, all := pending[name]
			why, later := pending[label]
			if all && way.name != "as-drawn" || want.asDrawn && way.in != nil || want.unmirrored && way.in != nil && way.in.Scale.X < 0 {
				continue
			}
			if all {
				why, later = pending[name], true
			}
			t.Run(label, func(t *testing.T) {
				d, readErr := dxfread.Decode(context.Background(), raw, dxfread.Limits{})
				if d == nil || readErr != nil {
					t.Fatal(readErr)
				}
				way.change(d)
				s := dirtSheet(t, d, nil)
				checkInvariants(t, label, s)
				wrong := want.wrong(s, way.in != nil)
				switch {
				case later && len(wrong) == 0:
					t.Errorf("this is right now: take %q out of pending.txt", why)
				case later:
					t.Logf("pending: %s\n%s", why, strings.Join(wrong, "\n"))
				case len(wrong) > 0:
					t.Errorf("\n%s", strings.Join(wrong, "\n"))
					if testing.Verbose() {
						t.Log(officeDescribe(s))
					}
				}
			})
		}
	}
}

// officeWay is a way to change a drawing without changing what it shows.
type officeWay struct {
	name    string
	shuffle uint64
	in      *dxfread.Insert
}

func officeWays() []officeWay {
	one := dxfread.Vec{X: 1, Y: 1, Z: 1}
	return []officeWay{
		{name: "as-drawn"},
		{name: "backward", shuffle: 1},
		{name: "shuffled", shuffle: 2},
		{name: "shuffled-again", shuffle: 3},
		{name: "block", in: &dxfread.Insert{Scale: one, At: dxfread.Vec{X: 250, Y: -100}}},
		{name: "turned", in: &dxfread.Insert{Scale: one, AngleDeg: 90, At: dxfread.Vec{X: 3000, Y: -500}}},
		{name: "mirrored", in: &dxfread.Insert{Scale: dxfread.Vec{X: -1, Y: 1, Z: 1}}},
	}
}

func (w *officeWay) change(d *dxfread.Drawing) {
	switch {
	case w.shuffle == 1:
		slices.Reverse(d.Model)
	case w.shuffle > 1:
		rnd := rand.New(rand.NewPCG(w.shuffle, uint64(d.Bytes)))
		rnd.Shuffle(len(d.Model), func(i, j int) { d.Model[i], d.Model[j] = d.Model[j], d.Model[i] })
	case w.in != nil:
		in := *w.in
		in.Block, in.Columns, in.Rows, in.Linetype, in.Colour, in.Extrusion = "THE WHOLE SHEET", 1, 1, -1, 256, dxfread.Vec{Z: 1}
		d.Blocks = append(d.Blocks, dxfread.Block{Name: in.Block, Entities: d.Model})
		d.Model = []dxfread.Entity{&in}
	}
}

// officeDescribe prints a sheet with what its angles have.
func officeDescribe(s *features.Sheet) string {
	out := describe(s)
	for i := range s.Parts {
		p := &s.Parts[i]
		out += officePartLine(p) + "\n" + describeLegs(p)
	}
	return out
}
