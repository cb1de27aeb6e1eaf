package features

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"burrside/features/geom"
)

// meshTolMM is how far lines of a frame or a table may miss each other and
// still meet: they are drawn by eye, and no metal depends on them.
const meshTolMM = 0.1

// Limits of the arrangement of a mesh. Beyond them a drawing is left as it is:
// the lines stay geometry and are doubted as such.
const (
	mostRuns      = 20_000
	mostMeets     = 200_000
	mostMeshCells = 400_000
	mostLooked    = 200_000_000
)

// axisRun is a straight line along an axis, put together from all edges that
// continue or cover each other.
type axisRun struct {
	vertical bool
	at       float64 // x of a vertical one, y of a level one
	from, to float64
	inputs   []int32 // indices in builder.inputs
}

// mesh is a connected figure of runs with its faces.
type mesh struct {
	runs  []axisRun
	box   geom.Box // of the runs
	body  geom.Box // of the faces: lines may run past them
	xs    []float64
	ys    []float64
	cell  []int32 // face of each grid cell, -1 outside
	faces []meshFace
}

// meshFace is an area that runs bound all round.
type meshFace struct {
	box     geom.Box
	area    float64
	rect    bool
	texts   []int // indices in Sheet.Texts
	circles int   // other geometry in it: full circles
	lines   int   // and all else
	rim     bool  // touches the outside of the mesh along its whole length
}

func (f *meshFace) width() float64  { return f.box.Width() }
func (f *meshFace) height() float64 { return f.box.Height() }

// least is the shorter side.
func (f *meshFace) least() float64 { return math.Min(f.box.Width(), f.box.Height()) }

// axisRuns puts the edges along the axes together to runs, level ones first,
// by place. It gives nil if there are too many.
func (b *builder) axisRuns(use func(input int) bool) []axisRun {
	var all []axisRun
	for i := range b.inputs {
		e := &b.inputs[i].Edge
		if e.IsArc() || !use(i) {
			continue
		}
		dx, dy := math.Abs(e.To.X-e.From.X), math.Abs(e.To.Y-e.From.Y)
		switch {
		case dy <= meshTolMM/2 && dx > dy && dy <= 1e-3*dx:
			all = append(all, axisRun{false, (e.From.Y + e.To.Y) / 2, math.Min(e.From.X, e.To.X), math.Max(e.From.X, e.To.X), []int32{int32(i)}})
		case dx <= meshTolMM/2 && dy > dx && dx <= 1e-3*dy:
			all = append(all, axisRun{true, (e.From.X + e.To.X) / 2, math.Min(e.From.Y, e.To.Y), math.Max(e.From.Y, e.To.Y), []int32{int32(i)}})
		}
	}
	slices.SortStableFunc(all, compareRuns)
	var out []axisRun
	for i := 0; i < len(all); {
		k := i + 1
		for k < len(all) && all[k].vertical == all[i].vertical && all[k].at-all[i].at <= meshTolMM {
			k++
		}
		line := slices.Clone(all[i:k])
		at := all[i].at
		sort.SliceStable(line, func(x, y int) bool { return line[x].from < line[y].from })
		for j := range line {
			if n := len(out); j > 0 && line[j].from <= out[n-1].to+meshTolMM {
				out[n-1].to = math.Max(out[n-1].to, line[j].to)
				out[n-1].inputs = append(out[n-1].inputs, line[j].inputs...)
				continue
			}
			line[j].at = at
			out = append(out, line[j])
		}
		i = k
	}
	if len(out) > mostRuns {
		return nil
	}
	return out
}

func compareRuns(p, q axisRun) int {
	switch {
	case p.vertical != q.vertical && !p.vertical:
		return -1
	case p.vertical != q.vertical:
		return 1
	case p.at != q.at:
		return cmp.Compare(p.at, q.at)
	case p.from != q.from:
		return cmp.Compare(p.from, q.from)
	}
	return cmp.Compare(p.to, q.to)
}

// meshesOf groups runs that meet, and arranges each group of four or more.
func meshesOf(runs []axisRun) []mesh {
	first := len(runs) // of the vertical ones
	for i := range runs {
		if runs[i].vertical {
			first = i
			break
		}
	}
	group := newGroups(len(runs))
	meets := 0
	for h := range runs[:first] {
		r := &runs[h]
		lo := first + sort.Search(len(runs)-first, func(k int) bool { return runs[first+k].at >= r.from-meshTolMM })
		for v := lo; v < len(runs) && runs[v].at <= r.to+meshTolMM; v++ {
			if r.at < runs[v].from-meshTolMM || r.at > runs[v].to+meshTolMM {
				continue
			}
			if meets++; meets > mostMeets {
				return nil
			}
			group.unite(h, v)
		}
	}
	var out []mesh
	for _, list := range group.members() {
		if len(list) < 4 {
			continue
		}
		var m mesh
		for _, i := range list {
			m.runs = append(m.runs, runs[i])
		}
		if m.arrange() {
			out = append(out, m)
		}
	}
	return out
}

func (r *axisRun) box() geom.Box {
	if r.vertical {
		return geom.Box{Min: geom.Point{X: r.at, Y: r.from}, Max: geom.Point{X: r.at, Y: r.to}}
	}
	return geom.Box{Min: geom.Point{X: r.from, Y: r.at}, Max: geom.Point{X: r.to, Y: r.at}}
}

// arrange finds the faces; it tells whether there are any.
func (m *mesh) arrange() bool {
	m.box = m.runs[0].box()
	for i := range m.runs {
		r := &m.runs[i]
		m.box = m.box.Union(r.box())
		if r.vertical {
			m.xs = append(m.xs, r.at)
		} else {
			m.ys = append(m.ys, r.at)
		}
	}
	m.xs, m.ys = distinct(m.xs), distinct(m.ys)
	nx, ny := len(m.xs)-1, len(m.ys)-1
	if nx < 1 || ny < 1 || nx*ny > mostMeshCells {
		return false
	}
	// Walls left of and below each cell, with one more row and column.
	left := make([]bool, (nx+1)*ny)
	below := make([]bool, nx*(ny+1))
	for i := range m.runs {
		r := &m.runs[i]
		if r.vertical {
			x := indexOf(m.xs, r.at)
			for y := indexOf(m.ys, r.from-meshTolMM); y < ny && m.ys[y+1] <= r.to+meshTolMM; y++ {
				if m.ys[y] >= r.from-meshTolMM {
					left[y*(nx+1)+x] = true
				}
			}
			continue
		}
		y := indexOf(m.ys, r.at)
		for x := indexOf(m.xs, r.from-meshTolMM); x < nx && m.xs[x+1] <= r.to+meshTolMM; x++ {
			if m.xs[x] >= r.from-meshTolMM {
				below[y*nx+x] = true
			}
		}
	}
	outside := nx * ny
	g := newGroups(outside + 1)
	for y := range ny {
		for x := range nx {
			c := y*nx + x
			if !left[y*(nx+1)+x] {
				if x == 0 {
					g.unite(c, outside)
				} else {
					g.unite(c, c-1)
				}
			}
			if x == nx-1 && !left[y*(nx+1)+nx] {
				g.unite(c, outside)
			}
			if !below[y*nx+x] {
				if y == 0 {
					g.unite(c, outside)
				} else {
					g.unite(c, c-nx)
				}
			}
			if y == ny-1 && !below[ny*nx+x] {
				g.unite(c, outside)
			}
		}
	}
	m.cell = make([]int32, nx*ny)
	number := make([]int32, nx*ny+1)
	for i := range number {
		number[i] = -1
	}
	out := g.root(outside)
	for c := range m.cell {
		r := g.root(c)
		if r == out {
			m.cell[c] = -1
			continue
		}
		x, y := c%nx, c/nx
		box := geom.Box{Min: geom.Point{X: m.xs[x], Y: m.ys[y]}, Max: geom.Point{X: m.xs[x+1], Y: m.ys[y+1]}}
		if number[r] < 0 {
			number[r] = int32(len(m.faces))
			m.faces = append(m.faces, meshFace{box: box})
		}
		f := &m.faces[number[r]]
		f.box = f.box.Union(box)
		f.area += box.Width() * box.Height()
		m.cell[c] = number[r]
		f.rim = f.rim || x == 0 || y == 0 || x == nx-1 || y == ny-1
	}
	for i := range m.faces {
		f := &m.faces[i]
		if i == 0 {
			m.body = f.box
		}
		m.body = m.body.Union(f.box)
		f.rect = math.Abs(f.area-f.width()*f.height()) <= 1e-6*f.area
	}
	return len(m.faces) > 0
}

// distinct sorts numbers and drops those within the tolerance of the one
// before.
func distinct(v []float64) []float64 {
	sort.Float64s(v)
	out := v[:0]
	for _, f := range v {
		if len(out) == 0 || f-out[len(out)-1] > meshTolMM {
			out = append(out, f)
		}
	}
	return out
}

// indexOf is the last index whose number is at most a tolerance above f, at
// least 0.
func indexOf(v []float64, f float64) int {
	return max(0, sort.Search(len(v), func(i int) bool { return v[i] > f+meshTolMM })-1)
}

// boxes are the faces that are rectangles.
func (m *mesh) boxes() []geom.Box {
	var out []geom.Box
	for i := range m.faces {
		if m.faces[i].rect {
			out = append(out, m.faces[i].box)
		}
	}
	return out
}

// faceAt is the face that holds a point, -1 outside.
func (m *mesh) faceAt(p geom.Point) int {
	if !m.box.Contains(p) || p.X < m.xs[0] || p.Y < m.ys[0] {
		return -1
	}
	x := sort.Search(len(m.xs), func(i int) bool { return m.xs[i] > p.X }) - 1
	y := sort.Search(len(m.ys), func(i int) bool { return m.ys[i] > p.Y }) - 1
	if x < 0 || y < 0 || x >= len(m.xs)-1 || y >= len(m.ys)-1 {
		return -1
	}
	return int(m.cell[y*(len(m.xs)-1)+x])
}

// covered tells whether the runs cover all four sides of a box.
func (m *mesh) covered(box geom.Box) bool {
	for _, s := range []struct {
		vertical     bool
		at, from, to float64
	}{
		{false, box.Min.Y, box.Min.X, box.Max.X}, {false, box.Max.Y, box.Min.X, box.Max.X},
		{true, box.Min.X, box.Min.Y, box.Max.Y}, {true, box.Max.X, box.Min.Y, box.Max.Y},
	} {
		ok := false
		for i := range m.runs {
			r := &m.runs[i]
			ok = ok || r.vertical == s.vertical && math.Abs(r.at-s.at) <= meshTolMM && r.from <= s.from+meshTolMM && r.to >= s.to-meshTolMM
		}
		if !ok {
			return false
		}
	}
	return true
}
