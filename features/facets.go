package features

import (
	"fmt"
	"math"
	"sort"

	"burrside/features/geom"
)

// Limits for chords that stand for a circle.
const (
	facetMaxRad     = 31 * math.Pi / 180 // no chord spans more: a 12-gon passes, an 11-gon does not
	facetRoundMM    = 0.01               // corners of a circle or a run lie within this of it
	facetRoundRel   = 0.002              // of the diameter, for a whole circle
	facetRoundSmall = 0.01               // of the diameter under facetSmallMM
	facetSmallMM    = 5.0
	facetMinRun     = 4   // chords
	facetTurns      = 1.5 // whole turns of a polygon that stands for a circle, to and fro together
	facetUneven     = 3   // times the longer neighbour: a longer chord is a straight side
)

// facetNote counts circles and arcs that were taken from chords.
type facetNote struct {
	sides, count int
	diameter     float64
	flats        float64
	spread       float64
	circle       bool
	at           geom.Point
	sources      []int32
}

// roundFacets replaces a many-sided polygon by its circle, and runs of chords
// by arcs. The loop must be settled; it is settled again.
func (l *loop) roundFacets() []facetNote {
	if n, ok := l.polygonCircle(); ok {
		return []facetNote{n}
	}
	return l.facetRuns()
}

// polygonCircle turns a loop of lines whose corners all lie on one circle into
// that circle, if no side spans more than 31 degrees of it.
func (l *loop) polygonCircle() (facetNote, bool) {
	n := len(l.pieces)
	if n < 12 {
		return facetNote{}, false
	}
	pts := make([]geom.Point, n)
	for i, p := range l.pieces {
		if p.edge.IsArc() {
			return facetNote{}, false
		}
		pts[i] = p.edge.From
	}
	// A polygon that is no circle is mostly seen by its box.
	w, h := l.box.Width(), l.box.Height()
	if math.Abs(w-h) > 0.1*math.Max(w, h) {
		return facetNote{}, false
	}
	centre, r, ok := meanCircle(pts)
	if !ok {
		return facetNote{}, false
	}
	tol := math.Max(facetRoundMM, facetRoundRel*2*r)
	if 2*r < facetSmallMM {
		tol = math.Max(facetRoundMM, facetRoundSmall*2*r)
	}
	worst, longest := 0.0, 0.0
	flats := math.Inf(1)
	for i, p := range pts {
		worst = math.Max(worst, math.Abs(p.Dist(centre)-r))
		longest = math.Max(longest, l.pieces[i].edge.Length())
		flats = math.Min(flats, 2*l.pieces[i].edge.Dist(centre))
	}
	if worst > tol || longest > 2*r*math.Sin(facetMaxRad/2) {
		return facetNote{}, false
	}
	// All on the circle and once round: the area says so. Teeth, however small,
	// turn to and fro; digits that are few do so by less.
	if l.area < 0.9*math.Pi*r*r || l.turned() > facetTurns*2*math.Pi {
		return facetNote{}, false
	}
	note := facetNote{sides: n, count: 1, diameter: 2 * r, flats: flats, spread: worst, circle: true, at: centre}
	whole := piece{edge: geom.CircleEdge(centre, r), style: l.pieces[0].style, fitted: true}
	for _, p := range l.pieces {
		whole.sources = append(whole.sources, p.sources...)
	}
	sortUnique(&whole.sources)
	note.sources = whole.sources
	l.pieces = []piece{whole}
	l.settle()
	return note, true
}

// turned is how much a loop of straight pieces turns, to and fro together, in
// radians.
func (l *loop) turned() float64 {
	n := len(l.pieces)
	// Where every turn is to the left it is so many whole turns as the direction
	// comes up from below: no angle is needed.
	whole, left := 0, true
	d := l.pieces[n-1].edge.To.Sub(l.pieces[n-1].edge.From)
	for i := 0; i < n && left; i++ {
		e := l.pieces[i].edge.To.Sub(l.pieces[i].edge.From)
		left = d.Cross(e) > 0
		if d.Y < 0 && e.Y >= 0 {
			whole++
		}
		d = e
	}
	if left {
		return float64(whole) * 2 * math.Pi
	}
	sum := 0.0
	for i := range l.pieces {
		sum += math.Abs(turnBetween(l.pieces[i].edge, l.pieces[(i+1)%n].edge))
	}
	return sum
}

func sortUnique(s *[]int32) {
	v := *s
	if len(v) < 2 {
		return
	}
	sort.Slice(v, func(i, j int) bool { return v[i] < v[j] })
	out := v[:0]
	for i, x := range v {
		if i == 0 || x != v[i-1] {
			out = append(out, x)
		}
	}
	*s = out
}

// facetRuns turns every run of at least four chords with one turning sense
// whose corners lie on a circle into an arc, the longest run from each start.
func (l *loop) facetRuns() []facetNote {
	n := len(l.pieces)
	if n < facetMinRun {
		return nil
	}
	// Wherever the search starts, the first run that it meets ends where a run
	// ends: from there on no run is cut in two.
	start := -1
	double := append(append([]piece{}, l.pieces...), l.pieces...)
	ahead := chordsAhead(double)
	for i := 0; i < n && start < 0; i++ {
		if k := facetRun(double[i:], min(ahead[i], n)); k >= facetMinRun {
			start = (i + k) % n
		}
	}
	if start < 0 {
		return nil
	}
	ring := double[start : start+n]
	var out []piece
	var notes []facetNote
	for i := 0; i < n; {
		k := facetRun(ring[i:], min(ahead[start+i], n-i))
		if k < facetMinRun {
			out = append(out, ring[i])
			i++
			continue
		}
		arc, note := runArc(ring[i : i+k])
		out = append(out, arc)
		notes = append(notes, note)
		i += k
	}
	if notes == nil {
		return nil
	}
	l.pieces = out
	l.settle()
	return notes
}

// turnBetween is the signed angle from the end of a to the start of b.
func turnBetween(a, b geom.Edge) float64 {
	u, v := a.EndDir(), b.StartDir()
	return math.Atan2(u.Cross(v), u.Dot(v))
}

// facetRun is the number of chords from the first on that are one arc, of limit
// at most. It doubles its reach and then halves it, as a run that fits has
// parts that fit.
func facetRun(ring []piece, limit int) int {
	if limit < facetMinRun || !isRun(ring[:facetMinRun]) {
		return 0
	}
	lo, hi := facetMinRun, limit+1
	for step := facetMinRun; lo+step < hi; step *= 2 {
		if !isRun(ring[:lo+step]) {
			hi = lo + step
			break
		}
		lo += step
	}
	for lo+1 < hi {
		m := (lo + hi) / 2
		if isRun(ring[:m]) {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

// chordsAhead counts for each piece the lines from it on that turn the same way
// by no more than a chord may, and by less than a whole turn together.
func chordsAhead(ring []piece) []int {
	n := len(ring)
	turn := make([]float64, n) // into piece i from the one before; 0 breaks
	sum := make([]float64, n)  // of the turns up to piece i
	for i := 1; i < n; i++ {
		if !ring[i].edge.IsArc() && !ring[i-1].edge.IsArc() {
			if t := turnBetween(ring[i-1].edge, ring[i].edge); math.Abs(t) >= 1e-6 && math.Abs(t) <= facetMaxRad {
				turn[i] = t
			}
		}
		sum[i] = sum[i-1] + math.Abs(turn[i])
	}
	out := make([]int, n)
	end := n
	for i := n - 1; i >= 0; i-- {
		// A break of the chain stands at i+1, or the sense changes at i+2.
		switch {
		case i+1 < n && turn[i+1] == 0:
			end = i + 1
		case i+2 < n && float64(turn[i+1]*turn[i+2]) < 0:
			end = i + 2
		}
		if ring[i].edge.IsArc() {
			continue
		}
		far := sort.Search(end-i, func(k int) bool { return sum[i+k]-sum[i] > 1.95*math.Pi })
		out[i] = far
	}
	return out
}

// isRun tells whether the corners of some chords lie on one circle, no chord
// spans too much of it, and none is a straight side: the corners of two small
// rounded corners and the side between them lie on one circle too.
func isRun(ring []piece) bool {
	_, _, _, ok := runCircle(ring)
	return ok
}

func runCircle(ring []piece) (centre geom.Point, r, spread float64, ok bool) {
	n := len(ring)
	a, m, z := ring[0].edge.From, ring[n/2].edge.From, ring[n-1].edge.To
	centre, ok = circleCentre(a, m, z)
	if !ok {
		return centre, 0, 0, false
	}
	r = centre.Dist(a)
	chord := 2 * r * math.Sin(facetMaxRad/2)
	before := 0.0
	for i, p := range ring {
		spread = math.Max(spread, math.Abs(p.edge.To.Dist(centre)-r))
		long := p.edge.Length()
		if long > chord {
			return centre, r, spread, false
		}
		after := 0.0
		if i+1 < n {
			after = ring[i+1].edge.Length()
		}
		// An arc that leaves the chord by no more than the corners may harms
		// nobody.
		if long > facetUneven*math.Max(before, after) && float64(long*long) > 8*r*facetRoundMM {
			return centre, r, spread, false
		}
		before = long
	}
	return centre, r, spread, spread <= facetRoundMM
}

// runArc is the arc of a run that fits.
func runArc(ring []piece) (piece, facetNote) {
	centre, r, spread, _ := runCircle(ring)
	a, z := ring[0].edge.From, ring[len(ring)-1].edge.To
	ccw := turnBetween(ring[0].edge, ring[1].edge) > 0
	out := piece{edge: geom.ArcEdge(centre, a, z, ccw), style: ring[0].style, fitted: true}
	for _, p := range ring {
		out.sources = append(out.sources, p.sources...)
	}
	sortUnique(&out.sources)
	return out, facetNote{sides: len(ring), count: 1, diameter: 2 * r, spread: spread, at: centre, sources: out.sources}
}

// facetNotes tells once for each kind what was taken as round.
func (b *builder) facetNotes(list []facetNote) {
	type key struct {
		circle   bool
		sides    int
		diameter int64
	}
	sums := map[key]*facetNote{}
	var keys []key
	for _, f := range list {
		k := key{f.circle, f.sides, int64(math.Round(f.diameter * 100))}
		s, ok := sums[k]
		if !ok {
			c := f
			sums[k] = &c
			keys = append(keys, k)
			continue
		}
		s.count++
		s.spread = math.Max(s.spread, f.spread)
		s.flats = math.Min(s.flats, f.flats)
		s.sources = append(s.sources, f.sources...)
		if f.at.Y < s.at.Y || f.at.Y == s.at.Y && f.at.X < s.at.X {
			s.at = f.at
		}
	}
	sort.Slice(keys, func(i, j int) bool {
		a, c := keys[i], keys[j]
		if a.circle != c.circle {
			return a.circle
		}
		if a.diameter != c.diameter {
			return a.diameter < c.diameter
		}
		return a.sides < c.sides
	})
	for _, k := range keys {
		f := sums[k]
		text := fmt.Sprintf("%d polygons of %d sides were taken as circles of %.3f mm through the corners (%.3f mm across flats, corners within %.4f mm)", f.count, f.sides, f.diameter, f.flats, f.spread)
		if f.count == 1 {
			text = fmt.Sprintf("a polygon of %d sides was taken as a circle of %.3f mm through the corners (%.3f mm across flats, corners within %.4f mm)", f.sides, f.diameter, f.flats, f.spread)
		}
		if !f.circle {
			text = fmt.Sprintf("%d runs of %d chords were taken as arcs of radius %.3f mm (corners within %.4f mm)", f.count, f.sides, f.diameter/2, f.spread)
		}
		code := "facets-to-arc"
		if f.circle {
			code = "facets-to-circle"
		}
		b.note(Note{Code: code, At: f.at, HasAt: true, Count: f.count, Text: text, Source: sourcesOf(f.sources)})
	}
}
