package station

import (
	"fmt"
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/features/measure"
)

// The kinds of bar and tube that an end tool can be for.
const (
	RoundBar   = "round bar"
	SquareBar  = "square bar"
	FlatBar    = "flat bar"
	RoundTube  = "round tube"
	SquareTube = "square tube"
)

// TubeCut is one cut through a hollow section. The wall is the piece's
// thickness.
type TubeCut struct {
	Name         string  // as it is called, for people
	Round        bool    // else square or rectangular
	SizeMM       float64 // greater side, or outside diameter
	OffSquareRad float64
}

// wallOf rounds a wall to the hundredth of a millimetre that pipe tables give:
// 0.145 in and 3.68 mm are one wall.
func wallOf(mm float64) float64 { return math.Round(mm*100) / 100 }

// TubeShear judges a cut at the tube shears of a machine, by rows of side and
// wall. A machine without one fails under "tube-shear".
func TubeShear(prof *shop.Profile, m *shop.Machine, pc Piece, c TubeCut) Use {
	shape := Square
	if c.Round {
		shape = Round
	}
	var best *Use
	for i := range m.Tubes {
		if m.Tubes[i].Shape != shape {
			continue
		}
		u := Use{Machine: m.Name, Station: shape + " tube shear", Hits: 1}
		u.addTube(prof, &m.Tubes[i], pc, &c)
		if best == nil || better(&u, best) {
			best = &u
		}
	}
	if best != nil {
		return *best
	}
	u := Use{Machine: m.Name, Station: shape + " tube shear", Hits: 1}
	u.add(Aspect{Rule: "tube-shear", Grade: Fail, Text: fmt.Sprintf("%s has no shear for %s tube", m.Name, shape)}, 0)
	return u
}

func (u *Use) addTube(prof *shop.Profile, st *shop.TubeStation, pc Piece, c *TubeCut) {
	if a, ok := pc.missing(); !ok {
		if a.Rule == "thickness-missing" {
			a.Text = "the wall of " + c.Name + " is not known"
		}
		u.add(a, 0)
		return
	}
	if !isSize(c.SizeMM) {
		u.add(Aspect{Rule: "reading-doubt", Grade: Unknown, Text: "the size of the tube is not known"}, 0)
		return
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	if off := math.Abs(c.OffSquareRad); off > squareRad {
		u.add(squareOnly("tube-shear", "tube", off), 0)
	}
	S, up, base := pc.Material.ShearMPa, pc.upper(), basisMPa(&st.Rating)
	rows := make([]shop.Row, len(st.Rows))
	for i, r := range st.Rows {
		rows[i] = shop.Row{ThicknessMM: wallOf(r.ThicknessMM), SizeMM: r.SizeMM}
	}
	t := wallOf(pc.ThicknessMM)
	te := max(t, t*S/base)
	g, limit, row := rowGrade(rows, te, c.SizeMM)
	a := Aspect{Rule: "tube-shear", Grade: g, Got: c.SizeMM, HasGot: true, Limit: limit, HasLimit: limit > 0, Unit: "mm"}
	a.Basis = fmt.Sprintf("wall %s mm, size %s mm", measure.FormatNumber(t, 2), measure.FormatNumber(c.SizeMM, 2))
	as := ""
	if te > t+1e-9 {
		as = fmt.Sprintf(" (wall as %s of the rows' steel)", Length(prof, math.Round(te*100)/100))
		a.Basis = fmt.Sprintf("wall %s mm x %s / %s MPa = %s mm, size %s mm", measure.FormatNumber(t, 2), measure.FormatNumber(S, 0), measure.FormatNumber(base, 0), measure.FormatNumber(te, 2), measure.FormatNumber(c.SizeMM, 2))
	}
	share := 0.0
	if limit > 0 {
		share = c.SizeMM / limit
	}
	switch {
	case g == OK && !atMost(S, base):
		if ug, _, _ := rowGrade(rows, max(t, t*up/base), c.SizeMM); ug != OK {
			a.Grade = Care
			a.Text = fmt.Sprintf("%s is tight at the upper strength of %s", c.Name, materialName(pc.Material))
			a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
			break
		}
		fallthrough
	case g == OK:
		a.Text = fmt.Sprintf("%s%s is covered by the row %s with a wall of %s", c.Name, as, Length(prof, row.SizeMM), Length(prof, row.ThicknessMM))
	case g == Care:
		a.Text = fmt.Sprintf("%s%s lies between two rows: physics allows %s, no row covers it", c.Name, as, Length(prof, math.Floor(limit*10)/10))
		a.Fix, a.FixBy = "try it on scrap first, with sharp blades", "shop"
	case limit > 0:
		a.Text = fmt.Sprintf("%s%s is beyond the rows, at most %s with this wall", c.Name, as, Length(prof, math.Floor(limit*10)/10))
	default:
		thick := 0.0
		for _, r := range rows {
			thick = max(thick, r.ThicknessMM)
		}
		a.Got, a.Limit, a.HasLimit = te, thick, true
		share = te / thick
		a.Text = fmt.Sprintf("%s%s has a thicker wall than any row, at most %s", c.Name, as, Length(prof, thick))
	}
	u.add(a, share)
}

// EndRequest is one end of a bar or tube that a tool is asked to work. The
// wall, the flat's thickness or the bar's size is the piece's thickness.
type EndRequest struct {
	Work     string // "saddle", "point", ... as the shop file names it
	Shape    string // RoundBar, SquareBar, FlatBar, RoundTube, SquareTube; "" another section
	Name     string // as the bar is called, for people
	SizeMM   float64
	HeaderMM float64 // of a saddle: the pipe that it fits to; 0 one of the same size
	AngleRad float64 // of a saddle: between the axes
}

// EndWork judges an end at the end tools of a machine. What no tool of the shop
// does fails under "end-tool".
func EndWork(prof *shop.Profile, m *shop.Machine, pc Piece, r EndRequest) Use {
	var best *Use
	for i := range prof.Ends {
		e := &prof.Ends[i]
		if e.Work != r.Work || !onMachine(e.Machine, m) {
			continue
		}
		u := Use{Machine: m.Name, Station: "end tool", Tool: e.Name, Hits: 1}
		u.addEnd(prof, e, pc, &r)
		if best == nil || better(&u, best) {
			best = &u
		}
	}
	if best != nil {
		return *best
	}
	u := Use{Machine: m.Name, Station: "end tool", Hits: 1}
	u.add(Aspect{Rule: "end-tool", Grade: Fail, Text: fmt.Sprintf("%s has no end tool for %q", m.Name, r.Work)}, 0)
	return u
}

func (u *Use) addEnd(prof *shop.Profile, e *shop.EndTool, pc Piece, r *EndRequest) {
	if !slices.Contains(e.Shapes, r.Shape) {
		what := r.Shape
		if what == "" {
			what = r.Name
		}
		u.add(Aspect{Rule: "end-tool", Grade: Fail, Text: fmt.Sprintf("%s takes %s, not %s", e.Name, listOf(e.Shapes), what)}, 0)
		return
	}
	if a, ok := pc.missing(); !ok {
		if a.Rule == "thickness-missing" {
			a.Text = "the wall of " + r.Name + " is not known"
		}
		u.add(a, 0)
		return
	}
	if !isSize(r.SizeMM) {
		u.add(Aspect{Rule: "reading-doubt", Grade: Unknown, Text: "the size of " + r.Name + " is not known"}, 0)
		return
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	if r.Work == "saddle" {
		u.addSaddle(prof, e, pc, r)
		return
	}
	// Greatest size and thickness: the size whose numbers are least in trouble.
	var best []Aspect
	bestGrade, bestShare := Fail+1, 0.0
	for _, z := range e.Sizes {
		as := []Aspect{sizeWithin(prof, r.Name, "size", r.SizeMM, z.SizeMM)}
		share := r.SizeMM / z.SizeMM
		solid := r.Shape == RoundBar || r.Shape == SquareBar
		switch {
		case !solid && z.ThicknessMM > 0:
			a, sh := wallWithin(prof, e, pc, r, z.ThicknessMM)
			as, share = append(as, a), max(share, sh)
		default: // a solid bar, by its area: its size counts with the root of the strength
			if S, up := pc.Material.ShearMPa, pc.upper(); !atMost(S, e.BasisMPa) {
				as[0], share = strongBar(prof, r, pc, z.SizeMM, S, up, e.BasisMPa)
			}
		}
		g := OK
		for _, a := range as {
			g = max(g, a.Grade)
		}
		if g < bestGrade || g == bestGrade && g == Fail && share < bestShare {
			best, bestGrade, bestShare = as, g, share
		}
	}
	for _, a := range best {
		u.add(a, 0)
	}
	u.Share = max(u.Share, bestShare)
}

func sizeWithin(prof *shop.Profile, name, what string, got, limit float64) Aspect {
	a := Aspect{Rule: "end-tool", Got: got, HasGot: true, Limit: limit, HasLimit: true, Unit: "mm",
		Text: fmt.Sprintf("%s: %s %s, the tool takes %s", name, what, Length(prof, got), Length(prof, limit))}
	if !atMost(got, limit) {
		a.Grade = Fail
	}
	return a
}

// wallWithin sets a wall against the greatest of a tool, linear in the strength
// of the steel where that is above the tool's; softer steel gets no more.
func wallWithin(prof *shop.Profile, e *shop.EndTool, pc Piece, r *EndRequest, limit float64) (Aspect, float64) {
	S, up, t := pc.Material.ShearMPa, pc.upper(), wallOf(pc.ThicknessMM)
	limit = wallOf(limit)
	te := max(t, t*S/e.BasisMPa)
	what := "wall"
	if r.Shape == FlatBar {
		what = "thickness"
	}
	a := sizeWithin(prof, r.Name, what, te, limit)
	if te > t+1e-9 {
		a.Text = fmt.Sprintf("%s: %s %s in %s counts as %s of the steel that the tool is for, which takes %s", r.Name, what, Length(prof, t), materialName(pc.Material), Length(prof, math.Round(te*100)/100), Length(prof, limit))
		a.Basis = fmt.Sprintf("%s mm x %s / %s MPa = %s mm", measure.FormatNumber(t, 2), measure.FormatNumber(S, 0), measure.FormatNumber(e.BasisMPa, 0), measure.FormatNumber(te, 2))
	}
	if a.Grade == OK && !atMost(S, e.BasisMPa) && !atMost(t*up/e.BasisMPa, limit) {
		a.Grade = Care
		a.Text = fmt.Sprintf("%s is tight at the upper strength of %s", r.Name, materialName(pc.Material))
		a.Fix, a.FixBy = "use a sharp tool, and stop if the machine stalls", "shop"
	}
	return a, te / limit
}

// strongBar sets a solid bar of a steel above the tool's against its greatest
// size: the force goes with area times strength.
func strongBar(prof *shop.Profile, r *EndRequest, pc Piece, limit, S, up, base float64) (Aspect, float64) {
	de := r.SizeMM * math.Sqrt(S/base)
	a := sizeWithin(prof, r.Name, "size", de, limit)
	a.Text = fmt.Sprintf("%s in %s counts as %s of the steel that the tool is for, which takes %s", r.Name, materialName(pc.Material), Length(prof, math.Round(de*100)/100), Length(prof, limit))
	a.Basis = fmt.Sprintf("%s mm x sqrt(%s / %s) = %s mm", measure.FormatNumber(r.SizeMM, 2), measure.FormatNumber(S, 0), measure.FormatNumber(base, 0), measure.FormatNumber(de, 2))
	if a.Grade == OK && !atMost(r.SizeMM*math.Sqrt(up/base), limit) {
		a.Grade = Care
		a.Text = fmt.Sprintf("%s is tight at the upper strength of %s", r.Name, materialName(pc.Material))
		a.Fix, a.FixBy = "use a sharp tool, and stop if the machine stalls", "shop"
	}
	return a, de / limit
}

// SaddleDepth is how deep a saddle goes into a tube of radius r that meets a
// pipe of radius R at a right angle, axes crossing: R - sqrt(R^2 - r^2). Plane
// geometry.
func SaddleDepth(r, R float64) float64 {
	if !(R >= r) {
		return r
	}
	return R - math.Sqrt(max(0, float64(R*R)-float64(r*r)))
}

// addSaddle finds the size of a saddle tool that is for this tube and pipe.
func (u *Use) addSaddle(prof *shop.Profile, e *shop.EndTool, pc Piece, r *EndRequest) {
	header := r.HeaderMM
	if !(header > 0) {
		header = r.SizeMM
	}
	set := settingsOf(prof)
	fit, care := set.value("end-tool", "fit"), set.value("end-tool", "fit-care")
	if header < r.SizeMM-fit {
		u.add(Aspect{Rule: "end-tool", Grade: Fail, Got: r.SizeMM, HasGot: true, Limit: header, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("a tube of %s cannot sit on a thinner pipe of %s", Length(prof, r.SizeMM), Length(prof, header))}, 0)
		return
	}
	var best []Aspect
	bestGrade, bestOff, bestShare := Fail+1, 0.0, 0.0
	for _, z := range e.Sizes {
		off := max(math.Abs(z.SizeMM-r.SizeMM), math.Abs(z.HeaderMM-header))
		a := Aspect{Rule: "end-tool", Got: off, HasGot: true, Limit: fit, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("the size for Ø%s to Ø%s fits", Length(prof, z.SizeMM), Length(prof, z.HeaderMM))}
		a.Basis = fmt.Sprintf("saddle %s mm deep", measure.FormatNumber(SaddleDepth(r.SizeMM/2, header/2), 1))
		switch {
		case atMost(off, fit):
		case atMost(off, care):
			a.Grade = Care
			a.Text = fmt.Sprintf("the nearest size is for Ø%s to Ø%s, %s off: the joint gapes", Length(prof, z.SizeMM), Length(prof, z.HeaderMM), Length(prof, math.Round(off*100)/100))
			a.Fix, a.FixBy = "try it on an offcut and grind it to fit", "shop"
		default:
			a.Grade, a.Limit = Fail, care
			a.Text = fmt.Sprintf("no size of %s is for a tube of Ø%s to a pipe of Ø%s; the nearest is Ø%s to Ø%s", e.Name, Length(prof, r.SizeMM), Length(prof, header), Length(prof, z.SizeMM), Length(prof, z.HeaderMM))
		}
		as, share := []Aspect{a}, 0.0
		if a.Grade != Fail {
			w, sh := wallWithin(prof, e, pc, r, z.ThicknessMM)
			as, share = append(as, w), sh
		}
		g := OK
		for _, a := range as {
			g = max(g, a.Grade)
		}
		if g < bestGrade || g == bestGrade && off < bestOff-1e-9 {
			best, bestGrade, bestOff, bestShare = as, g, off, share
		}
	}
	for _, a := range best {
		u.add(a, 0)
	}
	u.Share = max(u.Share, bestShare)
	least := e.LeastAngleRad
	angle := r.AngleRad
	if !(angle > 0) {
		angle = math.Pi / 2
	}
	if angle > math.Pi/2 { // the same saddle from its other side
		angle = math.Pi - angle
	}
	if !atMost(least, angle) {
		u.add(Aspect{Rule: "end-tool", Grade: Fail, Got: angle * 180 / math.Pi, HasGot: true, Limit: least * 180 / math.Pi, HasLimit: true, Unit: "deg",
			Text: fmt.Sprintf("%s makes saddles from %s between the axes, not %s", e.Name, degrees(least), degrees(angle))}, 0)
	}
}

func listOf(words []string) string {
	s := ""
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			s += " and "
		default:
			s += ", "
		}
		s += w
	}
	return s
}
