package features_test

import (
	"context"
	"encoding/csv"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"burrside/dxfread"
	"burrside/features"
	"burrside/features/geom"
)

// corpus is the folder of foreign drawings; the test is skipped aloud without.
func corpus(t testing.TB) string {
	dir := os.Getenv("BURRSIDE_DRAWINGS")
	if dir == "" {
		t.Skip("BURRSIDE_DRAWINGS is not set: no foreign drawings to build")
	}
	return dir
}

func buildFile(t testing.TB, path string) *features.Sheet {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	d, readErr := dxfread.Decode(ctx, data, dxfread.Limits{})
	if d == nil {
		return nil
	}
	s, err := features.Build(ctx, d, features.Options{Name: strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)), ReadError: readErr})
	if err != nil {
		t.Errorf("%s: %v", path, err)
		return nil
	}
	return s
}

// TestEveryDrawing builds every foreign drawing: no panic, no hang (30 s), and
// the invariants hold for whatever parts come out.
func TestEveryDrawing(t *testing.T) {
	dir := corpus(t)
	files, parts := 0, 0
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.EqualFold(filepath.Ext(path), ".dxf") {
			return err
		}
		files++
		start := time.Now()
		s := buildFile(t, path)
		if d := time.Since(start); d > 5*time.Second {
			t.Logf("%s took %v", path, d)
		}
		if s == nil {
			return nil
		}
		parts += len(s.Parts)
		checkInvariants(t, filepath.Base(path), s)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files == 0 {
		t.Fatalf("no drawing in %s", dir)
	}
	t.Logf("%d drawings, %d parts", files, parts)
}

// checkInvariants holds what must be true of every sheet: each outline edge in
// exactly one feature, each hole owned by exactly one, areas that add up, and
// sources that exist.
func checkInvariants(t testing.TB, name string, s *features.Sheet) {
	t.Helper()
	for _, p := range s.Parts {
		owned := make([]int, len(p.Outline))
		holes := make([]int, len(p.Holes))
		ids := map[string]bool{}
		for _, f := range p.Features {
			if ids[f.ID] || f.ID == "" {
				t.Errorf("%s %s: feature name %q is used twice or empty", name, p.Name, f.ID)
			}
			ids[f.ID] = true
			for _, e := range f.Edges {
				owned[e]++
			}
			if f.IsInside() && f.Hole >= 0 {
				holes[f.Hole]++
			}
			if far := p.Box.Min.Dist(p.Box.Max) * (1 + 1e-6); f.Kind == features.Notch && !(f.DepthMM > 0 && f.DepthMM <= far && f.WidthMM > 0 && f.WidthMM <= far) {
				t.Errorf("%s %s: the notch %s on a part of %.3f mm across", name, p.Name, featureLine(&f), far)
			}
			if len(f.Source) == 0 {
				t.Errorf("%s %s: feature %s has no source", name, p.Name, f.ID)
			}
			for _, src := range f.Source {
				if src.Entity < 0 || int(src.Entity) >= len(s.Entities) {
					t.Fatalf("%s %s: feature %s points at entity %d of %d", name, p.Name, f.ID, src.Entity, len(s.Entities))
				}
			}
		}
		for i, n := range owned {
			if n != 1 {
				t.Errorf("%s %s: outline edge %d of %d belongs to %d features", name, p.Name, i, len(owned), n)
				break
			}
		}
		for i, n := range holes {
			if n != 1 {
				t.Errorf("%s %s: hole %d belongs to %d features", name, p.Name, i, n)
			}
		}
		area := p.Outline.Area()
		for _, h := range p.Holes {
			if h.Area() <= 0 {
				t.Errorf("%s %s: a hole has the area %g", name, p.Name, h.Area())
			}
			area -= h.Area()
		}
		if math.Abs(area-p.AreaMM2) > 1e-9*p.Outline.Area() {
			t.Errorf("%s %s: area %g, outline less holes %g", name, p.Name, p.AreaMM2, area)
		}
		if len(p.DrawnAt) == 0 || p.DrawnAt[0].AngleRad != 0 || p.DrawnAt[0].Mirrored {
			t.Errorf("%s %s: placements %v", name, p.Name, p.DrawnAt)
		}
		if len(p.OutlineSource) != len(p.Outline) {
			t.Errorf("%s %s: %d sources for %d edges", name, p.Name, len(p.OutlineSource), len(p.Outline))
		}
	}
	for i := range s.Parts {
		for _, r := range append([]geom.Ring{s.Parts[i].Outline}, s.Parts[i].Holes...) {
			for k, e := range r {
				if e.To.Dist(r[(k+1)%len(r)].From) > 1e-6 {
					t.Errorf("%s: a ring is open at %v", name, e.To)
				}
			}
		}
	}
}

// tally is what a drawing shows, as TRUTH.tsv counts it: copies one by one,
// numbers in drawing units.
type tally struct {
	parts, inner, round, slots int
	rounds, slotSizes, boxes   []string
	arcs                       []string
}

func tallyOf(s *features.Sheet) (t tally) {
	mm := s.Units.MM
	rounds, slots := map[string]int{}, map[string]int{}
	type boxed struct {
		w, h float64
		arcs string
	}
	var boxes []boxed
	for _, p := range s.Parts {
		n := p.Copies()
		t.parts += n
		t.inner += n * len(p.Holes)
		// Arcs that were made of chords or curves are none in the file.
		fitted := map[int]bool{}
		for _, f := range p.Features {
			for _, e := range f.Edges {
				fitted[e] = f.Fitted
			}
		}
		arcs := "no"
		for i, e := range p.Outline {
			if e.IsArc() && !fitted[i] {
				arcs = "yes"
			}
		}
		for range p.DrawnAt {
			boxes = append(boxes, boxed{p.Box.Width() / mm, p.Box.Height() / mm, arcs})
		}
		for _, f := range p.Features {
			switch f.Kind {
			case features.RoundHole, features.HoleWithSeat, features.TappedHole:
				t.round += n
				rounds[short(f.DiameterMM/mm)] += n
			case features.Slot, features.CurvedSlot:
				t.slots += n
				slots[short(f.WidthMM/mm)+"x"+short(f.LengthMM/mm)] += n
			}
		}
	}
	sort.SliceStable(boxes, func(i, j int) bool { return boxes[i].w*boxes[i].h > boxes[j].w*boxes[j].h })
	for _, b := range boxes {
		t.boxes = append(t.boxes, short(b.w)+"x"+short(b.h))
		t.arcs = append(t.arcs, b.arcs)
	}
	t.rounds, t.slotSizes = counted(rounds), counted(slots)
	return t
}

func short(f float64) string { return strconv.FormatFloat(math.Round(f*1e4)/1e4, 'g', 6, 64) }

func counted(m map[string]int) []string {
	var out []string
	for k, n := range m {
		out = append(out, fmt.Sprintf("%sx%d", k, n))
	}
	sort.Strings(out)
	return out
}

// TestTruth compares with what an independent measurement found (TRUTH.tsv
// beside the drawings). Of its facts 97 % must agree.
func TestTruth(t *testing.T) {
	dir := corpus(t)
	f, err := os.Open(filepath.Join(dir, "TRUTH.tsv"))
	if err != nil {
		t.Skip("no TRUTH.tsv in BURRSIDE_DRAWINGS")
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	r.LazyQuotes = true
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("TRUTH.tsv: %v, %d rows", err, len(rows))
	}
	agree, total := 0, 0
	for _, row := range rows[1:] {
		s := buildFile(t, filepath.Join(dir, row[0]))
		if s == nil {
			t.Errorf("%s: no sheet", row[0])
			continue
		}
		got := tallyOf(s)
		fact := func(what, g, w string) {
			total++
			if g == w {
				agree++
				return
			}
			t.Logf("%s: %s is %s, TRUTH has %s", filepath.Base(row[0]), what, g, w)
		}
		fact("parts", strconv.Itoa(got.parts), row[1])
		fact("inner contours", strconv.Itoa(got.inner), row[2])
		fact("round holes", strconv.Itoa(got.round), row[3])
		factList(fact, "diameters", got.rounds, append(strings.Fields(row[4]), strings.Fields(row[5])...))
		if !strings.Contains(row[15], "curved slot") {
			fact("slots", strconv.Itoa(got.slots), row[6])
			factList(fact, "slot sizes", got.slotSizes, strings.Fields(row[7]))
		}
		boxFacts(fact, got.boxes, strings.Split(row[9], "; "))
		sameCount := "no"
		if count(got.arcs, "yes") == strings.Count(row[10], "yes") {
			sameCount = "yes"
		}
		fact("outlines with arcs as many", sameCount, "yes")
	}
	if total == 0 {
		t.Fatal("no fact compared")
	}
	t.Logf("%d of %d facts agree (%.1f %%)", agree, total, 100*float64(agree)/float64(total))
	if float64(agree) < 0.97*float64(total) {
		t.Errorf("only %d of %d facts agree", agree, total)
	}
}

func count(list []string, s string) int {
	n := 0
	for _, x := range list {
		if x == s {
			n++
		}
	}
	return n
}

// factList compares sizes with their counts, "d x n" or "w x l x n", within the
// digits that the list is written with.
func factList(fact func(what, g, w string), what string, got, want []string) {
	var w []string
	for _, x := range want {
		if x != "-" {
			w = append(w, x)
		}
	}
	// Sizes that differ by less than the list's digits are one kind.
	left := map[string]int{}
	for _, g := range got {
		k := strings.LastIndex(g, "x")
		left[g[:k]], _ = strconv.Atoi(g[k+1:])
	}
	var missing []string
	for _, x := range w {
		k := strings.LastIndex(x, "x")
		n, _ := strconv.Atoi(x[k+1:])
		for g, m := range left {
			if sameSizes(g, x[:k]) {
				n -= m
				delete(left, g)
			}
		}
		if n != 0 {
			missing = append(missing, x)
		}
	}
	var more []string
	for g, m := range left {
		more = append(more, fmt.Sprintf("%sx%d", g, m))
	}
	sort.Strings(more)
	fact(what, strings.Join(more, " "), strings.Join(missing, " "))
}

func sameSizes(g, w string) bool {
	x, y := strings.Split(g, "x"), strings.Split(w, "x")
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		u, _ := strconv.ParseFloat(x[i], 64)
		v, _ := strconv.ParseFloat(y[i], 64)
		digits := 0
		if k := strings.Index(y[i], "."); k >= 0 {
			digits = len(y[i]) - k - 1
		}
		if math.Abs(u-v) > 0.51*math.Pow(10, -float64(max(digits, 3)))+1e-9 {
			return false
		}
	}
	return true
}

// boxFacts compares boxes as a multiset. The list was measured on flattened
// arcs, whose boxes are short by up to 2e-4 of the size. Every copy has the box
// of the first, turned or not.
func boxFacts(fact func(what, g, w string), got, want []string) {
	left := append([]string(nil), got...)
	for _, w := range want {
		found := ""
		for i, g := range left {
			if sameBox(g, w) {
				found = w
				left = append(left[:i], left[i+1:]...)
				break
			}
		}
		if found == "" {
			found = "not among " + strings.Join(left, " ")
		}
		fact("box", found, w)
	}
}

func sameBox(a, b string) bool {
	x, y := strings.Split(a, "x"), strings.Split(b, "x")
	if len(x) != 2 || len(y) != 2 {
		return false
	}
	near := func(p, q string) bool {
		u, _ := strconv.ParseFloat(p, 64)
		v, _ := strconv.ParseFloat(q, 64)
		return math.Abs(u-v) <= 2e-4*math.Max(1, math.Abs(u))
	}
	return near(x[0], y[0]) && near(x[1], y[1])
}
