package features_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"

	"burrside/dxfread"
	"burrside/features"
)

// TestTroubles prints, for a folder of drawings, what the reader and the
// recogniser had trouble with: each kind with the number of drawings, how often,
// and the first of them.
func TestTroubles(t *testing.T) {
	dir := corpus(t)
	tr := newTroubles()
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.EqualFold(filepath.Ext(path), ".dxf") {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		tr.drawing(name, data)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if tr.files == 0 {
		t.Fatalf("no drawing in %s", dir)
	}
	t.Log("\n" + tr.String())
}

// troubles counts kinds of trouble over drawings.
type troubles struct {
	files, whole, sure, parts int
	kinds                     map[string]*trouble
	took                      []timed
}

type trouble struct {
	drawings, count int
	first, last     string
}

type timed struct {
	name string
	took time.Duration
	size int
}

func newTroubles() *troubles { return &troubles{kinds: map[string]*trouble{}} }

func (tr *troubles) hit(name, kind string, n int) {
	k := tr.kinds[kind]
	if k == nil {
		k = &trouble{first: name}
		tr.kinds[kind] = k
	}
	if k.last != name {
		k.drawings++
		k.last = name
	}
	k.count += max(n, 1)
}

// drawing reads and builds one drawing and counts what was said about it.
func (tr *troubles) drawing(name string, data []byte) {
	tr.files++
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	start := time.Now()
	defer func() { tr.took = append(tr.took, timed{name, time.Since(start), len(data)}) }()
	d, readErr := dxfread.Decode(ctx, data, dxfread.Limits{})
	if readErr != nil {
		tr.hit(name, "1 not read: "+causeOf(readErr), 1)
	}
	if d == nil || readErr != nil && len(d.Model) == 0 && len(d.Layouts) == 0 {
		return
	}
	s, err := features.Build(ctx, d, features.Options{ReadError: readErr})
	if err != nil {
		tr.hit(name, "1 not built: "+err.Error(), 1)
		return
	}
	if readErr == nil {
		tr.whole++
	}
	tr.sheet(name, d, s)
}

func (tr *troubles) sheet(name string, d *dxfread.Drawing, s *features.Sheet) {
	sure := len(s.Parts) > 0
	for _, p := range s.Parts {
		tr.parts += p.Copies()
		for _, doubt := range p.Doubts {
			grave := "6 doubt about a part: "
			if doubt.Grave {
				grave, sure = "5 grave doubt about a part: ", false
			}
			tr.hit(name, grave+doubt.Code, 1)
		}
	}
	if len(s.Parts) == 0 {
		tr.hit(name, "2 no part: "+noPartReason(d, s), 1)
	}
	switch {
	case s.Units.From == features.UnitsUnknown:
		tr.hit(name, "3 unit: unknown", 1)
	case s.Units.Doubt:
		tr.hit(name, "3 unit: doubted, stated by "+string(s.Units.From), 1)
	case s.Units.From == features.UnitsInferred:
		tr.hit(name, "3 unit: inferred", 1)
	}
	for _, f := range s.Faults {
		if f.Code == "no-part" {
			continue
		}
		tr.hit(name, "4 fault of the drawing: "+f.Code, f.Count)
		if f.Code == "open-outline" {
			sure = false
		}
	}
	if sure {
		tr.sure++
	}
	for _, n := range s.Notes {
		if strings.HasPrefix(n.Code, "units-") {
			continue // counted above
		}
		tr.hit(name, "7 note: "+n.Code, n.Count)
	}
}

// causeOf is why a file could not be read, without the place.
func causeOf(err error) string {
	for _, cause := range []error{dxfread.ErrNotDXF, dxfread.ErrDWG, dxfread.ErrTruncated, dxfread.ErrTooLarge} {
		if errors.Is(err, cause) {
			return cause.Error()
		}
	}
	var syntax *dxfread.SyntaxError
	if errors.As(err, &syntax) {
		return syntax.Err.Error()
	}
	return err.Error()
}

// noPartReason says why a drawing has no part, the nearest reason first.
func noPartReason(d *dxfread.Drawing, s *features.Sheet) string {
	if len(s.Loose) > 0 {
		return "an outline is open"
	}
	left := 0
	var most features.Ignored
	for _, i := range s.Ignored {
		left += i.Count
		if i.Count > most.Count {
			most = i
		}
	}
	switch {
	case len(d.Model) == 0:
		return "model space is empty"
	case left >= len(s.Entities) && left > 0:
		return "all is left out, most of it as " + most.What
	}
	return "the lines enclose nothing"
}

// String is the table.
func (tr *troubles) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d drawings: %d read to the end, %d with parts and no grave doubt or open outline; %d parts\n\n",
		tr.files, tr.whole, tr.sure, tr.parts)
	var names []string
	for k := range tr.kinds {
		names = append(names, k)
	}
	sort.Slice(names, func(i, j int) bool {
		p, q := names[i], names[j]
		if p[0] != q[0] {
			return p[0] < q[0]
		}
		if x, y := tr.kinds[p].drawings, tr.kinds[q].drawings; x != y {
			return x > y
		}
		return p < q
	})
	fmt.Fprintf(&b, "%8s %8s  %s\n", "drawings", "times", "trouble (first drawing)")
	for _, n := range names {
		k := tr.kinds[n]
		fmt.Fprintf(&b, "%8d %8d  %s (%s)\n", k.drawings, k.count, n[2:], k.first)
	}
	sort.SliceStable(tr.took, func(i, j int) bool { return tr.took[i].took > tr.took[j].took })
	fmt.Fprintf(&b, "\nslowest:\n")
	for i, x := range tr.took {
		if i == 5 {
			break
		}
		fmt.Fprintf(&b, "%8.0f ms %8.1f MB  %s\n", x.took.Seconds()*1000, float64(x.size)/1e6, x.name)
	}
	return b.String()
}
