package features_test

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"sort"
	"strconv"
	"strings"

	"burrside/features"
)

// truthColumns are the columns of TRUTH.tsv that are compared, by the word
// that the heading begins with; the order and other columns are free.
var truthColumns = []string{"path", "parts", "inner_contours", "full_round_holes", "round_diameters", "polygon_circles",
	"slots", "slot_sizes", "outer_bbox", "outline_has_arcs"}

// truthRow is what is known of one drawing, by the words of truthColumns. An
// empty or missing field is not known and not compared; "-" is none.
type truthRow map[string]string

// readTruth reads a table with tabs between the columns.
func readTruth(in io.Reader) ([]truthRow, error) {
	r := csv.NewReader(in)
	r.Comma = '\t'
	r.LazyQuotes = true
	r.FieldsPerRecord = -1
	lines, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(lines) < 2 {
		return nil, fmt.Errorf("the table has %d lines", len(lines))
	}
	var rows []truthRow
	for _, l := range lines[1:] {
		row := truthRow{}
		for i, head := range lines[0] {
			if i >= len(l) {
				break
			}
			for _, c := range truthColumns {
				// "slots" is one column, "slot_sizes" another.
				if head == c || strings.HasPrefix(head, c+"(") || strings.HasPrefix(head, c+"_") {
					row[c] = strings.TrimSpace(l[i])
				}
			}
		}
		if row["path"] == "" {
			return nil, fmt.Errorf("a line has no path: %q", l)
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// score is how many facts agree. Every fact is one; a part that the drawing
// does not show is two that disagree.
type score struct {
	agree, total int
	misses       []string
}

func (c *score) fact(what, got, want string) {
	c.total++
	if got == want {
		c.agree++
		return
	}
	if want != "" {
		got += ", known " + want
	}
	c.misses = append(c.misses, what+": "+got)
}

func (c *score) add(d score) {
	c.agree, c.total = c.agree+d.agree, c.total+d.total
	c.misses = append(c.misses, d.misses...)
}

func (c *score) percent() float64 {
	if c.total == 0 {
		return 0
	}
	return 100 * float64(c.agree) / float64(c.total)
}

// judge compares a sheet with what is known; a sheet that could not be built
// disagrees with every fact.
func judge(s *features.Sheet, row truthRow) (c score) {
	var got tally
	if s != nil {
		got = tallyOf(s)
	}
	known := func(column string) bool { return row[column] != "" }
	number := func(what, column string, n int) {
		if known(column) {
			c.fact(what, strconv.Itoa(n), row[column])
		}
	}
	number("parts", "parts", got.parts)
	if want, err := strconv.Atoi(row["parts"]); err == nil && got.parts > want {
		// Each invented part is two misses in place of the one counted.
		c.total += 2*(got.parts-want) - 1
	}
	number("inner contours", "inner_contours", got.inner)
	polygons := sizeList(row["polygon_circles"])
	if known("full_round_holes") {
		want, _ := strconv.Atoi(row["full_round_holes"])
		for _, p := range polygons {
			want += p.count
		}
		c.fact("round holes", strconv.Itoa(got.round), strconv.Itoa(want))
	}
	if known("round_diameters") {
		c.sizes("diameters", sizeList(strings.Join(got.rounds, " ")), append(sizeList(row["round_diameters"]), polygons...))
	}
	number("slots", "slots", got.slots)
	if known("slot_sizes") {
		c.sizes("slot sizes", sizeList(strings.Join(got.slotSizes, " ")), sizeList(row["slot_sizes"]))
	}
	if known("outer_bbox") {
		c.boxes(got.boxes, row["outer_bbox"])
	}
	if known("outline_has_arcs") {
		c.fact("outlines with arcs", strconv.Itoa(got.arcs), strconv.Itoa(strings.Count(row["outline_has_arcs"], "yes")))
	}
	return c
}

// sized is one size with its count: "d x n" or "w x l x n" of the table.
type sized struct {
	size  []string // as written, for the digits
	count int
}

func (s sized) String() string { return strings.Join(s.size, "x") + "x" + strconv.Itoa(s.count) }

// sizeList reads "3x8 3.2x26" or "0.125x0.325x1".
func sizeList(text string) (out []sized) {
	for _, f := range strings.Fields(text) {
		if f == "-" {
			continue
		}
		w := strings.Split(f, "x")
		n, err := strconv.Atoi(w[len(w)-1])
		if err != nil || len(w) < 2 {
			w, n = append(w, ""), 1 // a size alone
		}
		out = append(out, sized{w[:len(w)-1], n})
	}
	return out
}

// sizes compares lists of sizes as one fact, within the digits that the known
// list is written with, three to four of them: sizes nearer than that are one
// kind.
func (c *score) sizes(what string, got, want []sized) {
	used := make([]bool, len(got))
	var missing, more []string
	for _, w := range want {
		left := w.count
		for i, g := range got {
			if !used[i] && sameSizes(g.size, w.size) {
				used[i] = true
				left -= g.count
			}
		}
		if left != 0 {
			missing = append(missing, fmt.Sprintf("%v (%d found)", w, w.count-left))
		}
	}
	for i, g := range got {
		if !used[i] {
			more = append(more, g.String())
		}
	}
	sort.Strings(more)
	wrong := ""
	if len(missing) > 0 {
		wrong += "not as many of " + strings.Join(missing, ", ")
	}
	if len(more) > 0 {
		wrong += " not known " + strings.Join(more, ", ")
	}
	c.fact(what, strings.TrimSpace(wrong), "")
}

func sameSizes(got, want []string) bool {
	if len(got) != len(want) {
		return false
	}
	for i := range got {
		u, _ := strconv.ParseFloat(got[i], 64)
		v, _ := strconv.ParseFloat(want[i], 64)
		digits := 0
		if k := strings.Index(want[i], "."); k >= 0 {
			digits = len(want[i]) - k - 1
		}
		if math.Abs(u-v) > 0.51*math.Pow(10, -float64(min(max(digits, 3), 4))) {
			return false
		}
	}
	return true
}

// boxes compares boxes, each one fact, whatever their order. The known ones may
// have been measured on flattened arcs, whose boxes are short by up to 2e-4 of
// the size.
func (c *score) boxes(got [][2]float64, want string) {
	left := append([][2]float64(nil), got...)
	for _, w := range strings.Split(want, ";") {
		w = strings.TrimSpace(w)
		if w == "" || w == "-" {
			continue
		}
		best, off := -1, math.Inf(1)
		for i, g := range left {
			if d := boxOff(g, w); d < off {
				best, off = i, d
			}
		}
		if off <= 1 {
			left = append(left[:best], left[best+1:]...)
			c.fact("box", w, w)
			continue
		}
		var others []string
		for _, g := range left {
			others = append(others, short(g[0])+"x"+short(g[1]))
		}
		if len(others) > 6 {
			others = append(others[:6], "...")
		}
		c.fact("box", "not among "+strings.Join(others, " "), w)
	}
}

// boxOff is the difference of two boxes as a share of what is allowed.
func boxOff(g [2]float64, text string) float64 {
	w := strings.Split(text, "x")
	if len(w) != 2 {
		return math.Inf(1)
	}
	worst := 0.0
	for i := range w {
		v, err := strconv.ParseFloat(strings.TrimSpace(w[i]), 64)
		if err != nil {
			return math.Inf(1)
		}
		worst = math.Max(worst, math.Abs(g[i]-v)/(2e-4*math.Max(1, math.Abs(v))))
	}
	return worst
}
