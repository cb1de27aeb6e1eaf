package dxfread

// Vec is a point or direction of the drawing, in drawing units.
type Vec struct{ X, Y, Z float64 }

// Common is what all entities share.
type Common struct {
	Line      int64  // where the entity starts: line of the file, or byte offset if binary
	Handle    uint64 // 0 if none
	Layer     int32  // index in Drawing.Layers
	Linetype  int32  // index in Drawing.Types; -1: by layer, -2: by block
	Colour    int16  // colour index; 256: by layer, 0: by block
	Invisible bool   // group 60
	Extrusion Vec    // normal of the entity's own plane; (0,0,1) if unstated
	Thickness float64
}

// Base gives the common part; it also seals Entity.
func (c *Common) Base() *Common { return c }

// Entity is one of *Line, *Arc, *Circle, *Ellipse, *Polyline, *Spline, *Point,
// *Text, *Dimension, *Leader, *Hatch, *Solid, *Insert, *Table, *Viewport, *Other.
// The set is closed: a type switch over it ends in a panic for the unknown.
type Entity interface {
	Base() *Common
	// Name is the DXF name of the entity, e.g. "LWPOLYLINE".
	Name() string
}

// Line is a straight piece between two points of the world.
type Line struct {
	Common
	From, To Vec
}

// Arc runs counter-clockwise about the extrusion from Start to End, degrees
// (see SweepDeg).
// Centre is in the entity's own plane.
type Arc struct {
	Common
	Centre     Vec
	Radius     float64
	Start, End float64
}

// Circle has its centre in the entity's own plane.
type Circle struct {
	Common
	Centre Vec
	Radius float64
}

// Ellipse has its centre and the vector to the end of the major axis in the
// world; Start and End are parameters in radians, counter-clockwise about the
// extrusion; a whole ellipse has End-Start = 2 pi.
type Ellipse struct {
	Common
	Centre, Major Vec
	Ratio         float64 // minor to major
	Start, End    float64
}

// Polyline is an LWPOLYLINE or a POLYLINE of two or three dimensions. The
// vertices of flat ones are in the entity's own plane (Z is the elevation);
// those of a ThreeD one are in the world and have no bulge.
type Polyline struct {
	Common
	Vertices []Vertex
	Closed   bool
	ThreeD   bool
	Light    bool    // LWPOLYLINE
	Width    float64 // widest stroke; 0 a thin line. The vertices are its middle.
}

// Vertex is a corner of a polyline. Bulge is the tangent of a quarter of the
// angle of the arc to the next vertex, positive counter-clockwise, 0 straight.
type Vertex struct {
	At    Vec
	Bulge float64
}

// Spline is a B-spline in the world; it may have fit points only.
type Spline struct {
	Common
	Degree   int
	Closed   bool
	Rational bool
	Knots    []float64
	Control  []Vec
	Weights  []float64 // empty, or one for each control point
	Fit      []Vec
	StartTan *Vec
	EndTan   *Vec
}

// Point is a POINT.
type Point struct {
	Common
	At Vec
}

// Text is a TEXT, MTEXT, ATTRIB or ATTDEF, with its escapes resolved to plain
// text; the lines of an MTEXT are separated by "\n".
type Text struct {
	Common
	Kind     string // "TEXT", "MTEXT", "ATTRIB", "ATTDEF"
	At       Vec    // in the world
	Height   float64
	AngleDeg float64
	Value    string
	Tag      string // of an attribute
	Constant bool   // an ATTDEF whose value is the same in every insert

	// Justification of TEXT, ATTRIB and ATTDEF: HAlign 0 left, 1 centre,
	// 2 right, 3 aligned, 4 middle, 5 fit; VAlign 0 base line, 1 bottom,
	// 2 middle, 3 top. If either is not 0, AlignAt is the point that the text
	// is justified to, in the world; At is its left end, where the writer of
	// the file has worked it out.
	HAlign, VAlign int8
	HasAlign       bool
	AlignAt        Vec

	Attach int8    // of an MTEXT: 1 top left, 2 top centre .. 9 bottom right; 0 unstated
	Width  float64 // of an MTEXT: width of its column, 0 unstated
}

// Dimension measures something. Measured is the value that the file states,
// or nil. Override is the text typed over it; "" or "<>" means none.
type Dimension struct {
	Common
	Kind      DimensionKind
	Measured  *float64
	Override  string
	Block     string // name of the block with its picture
	TextAt    Vec
	Defs      [5]Vec // group codes 10, 13, 14, 15, 16
	HasDef    [5]bool
	AngleDeg  float64 // of a rotated dimension
	LinearFac float64 // factor of its style, 0 unstated

	// Post is what its style puts about the value, "<>" standing for it, or
	// behind it where there is no "<>": "<> TYP", "mm". Plus and Minus are the
	// tolerance that its style shows, as stored: Minus counts downward.
	Post         string
	HasTolerance bool
	Plus, Minus  float64
}

// DimensionKind is the low part of group 70.
type DimensionKind int

// The kinds of dimension.
const (
	DimRotated DimensionKind = iota
	DimAligned
	DimAngular
	DimDiameter
	DimRadius
	DimAngular3
	DimOrdinate
)

// Leader is a LEADER or the leader line of a MULTILEADER, from its arrow to
// its landing, in the world. A MULTILEADER may have no line at all.
type Leader struct {
	Common
	Vertices []Vec
	Multi    bool    // MULTILEADER
	Text     string  // of a MULTILEADER
	TextAt   Vec     // of a MULTILEADER
	More     [][]Vec // further leader lines of a MULTILEADER
}

// Hatch is a filling; it is no geometry of the part. Pattern is its name.
type Hatch struct {
	Common
	Pattern string
	Solid   bool
}

// Solid is a SOLID, TRACE or 3DFACE; it is no geometry of the part.
type Solid struct {
	Common
	Kind    string
	Corners [4]Vec
}

// Insert places a block. Scale zero counts as one, with a note.
type Insert struct {
	Common
	Block      string
	At         Vec // in the entity's own plane
	Scale      Vec
	AngleDeg   float64
	Columns    int // at least 1
	Rows       int // at least 1
	ColSpacing float64
	RowSpacing float64
	Attributes []*Text
}

// Table is an ACAD_TABLE: rows of cells from the insertion point along the angle,
// downward unless Up. Block names its picture, lines and texts. Placing yields the
// table itself, then its picture, then as *Text those cells that the picture does
// not show.
type Table struct {
	Common
	Block           string
	At              Vec // in the entity's own plane
	AngleDeg        float64
	Up              bool
	Rows, Columns   int       // as many as there are cells for
	Heights, Widths []float64 // of rows and columns, as far as stated
	Height          float64   // of texts, 0 unstated
	Cells           []TableCell
}

// TableCell is a cell that holds a text, in plain text as it is shown.
type TableCell struct {
	Row, Column int32
	Height      float64 // of the text, 0 unstated
	Value       string
}

// Viewport is a window of a layout into model space.
type Viewport struct {
	Common
	ID            int // 1 is the sheet itself
	Centre        Vec
	Width, Height float64 // in paper units
	ViewHeight    float64 // in model units
}

// Other is any entity that is not decoded: REGION, 3DSOLID, proxies, images,
// unknown names. Each has been told in a Note.
type Other struct {
	Common
	Kind string
	// At is the centre of a CIRCLE or ARC of radius 0, in the world; HasAt tells
	// that it is one.
	At    Vec
	HasAt bool
}
