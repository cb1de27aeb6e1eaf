package dxfread

import "math"

// Matrix is an affine map of the drawing: p -> M p + T.
type Matrix struct {
	M [3][3]float64
	T Vec
}

// Identity maps every point to itself.
func Identity() Matrix {
	return Matrix{M: [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}
}

// unit gives the vector at length one; false if it has no length.
func (v Vec) unit() (Vec, bool) {
	big := max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z))
	if !(big > 0) || math.IsInf(big, 0) {
		return Vec{}, false
	}
	x, y, z := v.X/big, v.Y/big, v.Z/big // squares of tiny parts must not vanish
	l := math.Sqrt(float64(x*x) + float64(y*y) + float64(z*z))
	return Vec{x / l, y / l, z / l}, true
}

func cross(a, b Vec) Vec {
	return Vec{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// OCS gives the map from the plane of an entity with this extrusion to the
// world, by the arbitrary axis rule of DXF: the x axis is (0,1,0) x N where
// both |N.x| and |N.y| are below 1/64, else (0,0,1) x N (DXF reference,
// "Arbitrary Axis Algorithm"). An extrusion of length zero counts as (0,0,1).
func OCS(extrusion Vec) Matrix {
	if extrusion == (Vec{Z: 1}) {
		return Identity()
	}
	n, ok := extrusion.unit()
	if !ok {
		return Identity()
	}
	up := Vec{Z: 1}
	if math.Abs(n.X) < 1.0/64 && math.Abs(n.Y) < 1.0/64 {
		up = Vec{Y: 1}
	}
	x, _ := cross(up, n).unit()
	y, _ := cross(n, x).unit()
	return Matrix{M: [3][3]float64{
		{x.X, y.X, n.X},
		{x.Y, y.Y, n.Y},
		{x.Z, y.Z, n.Z},
	}}
}

// Apply maps a point. The products are rounded one by one, so that processors
// that can multiply and add in one step give the same bits as others.
func (m Matrix) Apply(v Vec) Vec {
	return Vec{
		float64(m.M[0][0]*v.X) + float64(m.M[0][1]*v.Y) + float64(m.M[0][2]*v.Z) + m.T.X,
		float64(m.M[1][0]*v.X) + float64(m.M[1][1]*v.Y) + float64(m.M[1][2]*v.Z) + m.T.Y,
		float64(m.M[2][0]*v.X) + float64(m.M[2][1]*v.Y) + float64(m.M[2][2]*v.Z) + m.T.Z,
	}
}

// Direction maps a direction: the shift is left out.
func (m Matrix) Direction(v Vec) Vec {
	m.T = Vec{}
	return m.Apply(v)
}

// Then gives the map that applies m first and n after it.
func (m Matrix) Then(n Matrix) Matrix {
	var out Matrix
	for i := range 3 {
		for j := range 3 {
			out.M[i][j] = float64(n.M[i][0]*m.M[0][j]) + float64(n.M[i][1]*m.M[1][j]) + float64(n.M[i][2]*m.M[2][j])
		}
	}
	out.T = n.Apply(m.T)
	return out
}

// IsIdentity tells a map that moves nothing.
func (m Matrix) IsIdentity() bool { return m == Identity() }

// Det is the determinant of the linear part: the factor of volumes, negative
// where the map mirrors space.
func (m Matrix) Det() float64 {
	a := m.M
	return float64(a[0][0]*(float64(a[1][1]*a[2][2])-float64(a[1][2]*a[2][1]))) -
		float64(a[0][1]*(float64(a[1][0]*a[2][2])-float64(a[1][2]*a[2][0]))) +
		float64(a[0][2]*(float64(a[1][0]*a[2][1])-float64(a[1][1]*a[2][0])))
}

// DetXY is the determinant of the map of the xy plane seen from above: the
// factor of areas, negative where counter-clockwise becomes clockwise. An
// extrusion of (0,0,-1) has Det 1, but DetXY -1: seen from above it mirrors.
func (m Matrix) DetXY() float64 {
	return float64(m.M[0][0]*m.M[1][1]) - float64(m.M[0][1]*m.M[1][0])
}

// KeepsLevel tells whether horizontal planes stay horizontal: no point of the
// xy plane gains a height of more than tol times its distance.
func (m Matrix) KeepsLevel(tol float64) bool {
	return math.Abs(m.M[2][0]) <= tol && math.Abs(m.M[2][1]) <= tol
}

// ScaleXY gives the lengths of the images of the x and y unit vectors.
func (m Matrix) ScaleXY() (x, y float64) {
	col := func(j int) float64 {
		return math.Sqrt(float64(m.M[0][j]*m.M[0][j]) + float64(m.M[1][j]*m.M[1][j]) + float64(m.M[2][j]*m.M[2][j]))
	}
	return col(0), col(1)
}

// IsSimilarity tells whether circles of the xy plane stay circles: the images
// of the unit vectors x and y have equal length and are square to each other,
// each within tol of their length (1e-9 forgives rounding only). Mirroring is
// allowed. Scale then is the factor of lengths; it is 1 where false.
func (m Matrix) IsSimilarity(tol float64) (scale float64, ok bool) {
	x, y := m.ScaleXY()
	dot := float64(m.M[0][0]*m.M[0][1]) + float64(m.M[1][0]*m.M[1][1]) + float64(m.M[2][0]*m.M[2][1])
	big := max(x, y)
	if !(big > 0) || math.Abs(x-y) > tol*big || math.Abs(dot) > tol*big*big {
		return 1, false
	}
	return x, true
}

// bounded tells whether all numbers are usable: finite and below tooFar.
func (m Matrix) bounded() bool {
	for _, row := range m.M {
		for _, v := range row {
			if !(math.Abs(v) < tooFar) {
				return false
			}
		}
	}
	return math.Abs(m.T.X) < tooFar && math.Abs(m.T.Y) < tooFar && math.Abs(m.T.Z) < tooFar
}

// insertMap gives the map of one cell of an insert: from the coordinates of
// the block to those of the space that the insert stands in. Rows and columns
// run along the turned axes of the insert and are not scaled by it.
func insertMap(in *Insert, base Vec, col, row int) Matrix {
	sin, cos := sincosDeg(in.AngleDeg)
	dx, dy := float64(col)*in.ColSpacing, float64(row)*in.RowSpacing
	m := Matrix{M: [3][3]float64{
		{in.Scale.X * cos, -in.Scale.Y * sin, 0},
		{in.Scale.X * sin, in.Scale.Y * cos, 0},
		{0, 0, in.Scale.Z},
	}}
	at := m.Direction(Vec{-base.X, -base.Y, -base.Z})
	m.T = Vec{
		at.X + in.At.X + float64(dx*cos) - float64(dy*sin),
		at.Y + in.At.Y + float64(dx*sin) + float64(dy*cos),
		at.Z + in.At.Z,
	}
	if in.Extrusion != (Vec{Z: 1}) {
		m = m.Then(OCS(in.Extrusion))
	}
	return m
}

// sincosDeg is exact at multiples of 90 degrees: a block turned by them keeps
// its lines exactly square.
func sincosDeg(deg float64) (sin, cos float64) {
	switch math.Mod(deg, 360) {
	case 0:
		return 0, 1
	case 90, -270:
		return 1, 0
	case 180, -180:
		return 0, -1
	case 270, -90:
		return -1, 0
	}
	return math.Sincos(deg * (math.Pi / 180))
}
