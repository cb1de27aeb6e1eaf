// Package dxfread turns the bytes of a DXF file, ASCII or binary, R12 to 2018,
// into entities in drawing units. It decides nothing about what the entities
// mean: no unit is applied, no geometry is joined, nothing is left out
// without a Note.
package dxfread

// Drawing is what one DXF file holds. It is not modified after Read returns it.
type Drawing struct {
	Version  string // $ACADVER, e.g. "AC1015"; "" if the file does not say
	Binary   bool   // the binary form of DXF
	Encoding string // text encoding in use, e.g. "UTF-8", "windows-1252"
	Header   Header
	Layers   []Layer    // table order; layers that are only used follow, Declared false
	Types    []Linetype // table order; linetypes that are only used follow, Declared false
	Blocks   []Block    // definitions, in file order
	Model    []Entity   // model space, in file order
	Layouts  []Layout   // paper space, one for each layout that holds entities
	Notes    []Note     // everything skipped, repaired or guessed
	Bytes    int64      // size of the input
}

// Header holds the header variables that the project uses. Missing numbers are
// nil, so that a stated 0 and no statement are told apart.
type Header struct {
	InsUnits     *int // $INSUNITS
	Measurement  *int // $MEASUREMENT
	LUnits       *int // $LUNITS
	CodePage     string
	ExtMin       *[3]float64
	ExtMax       *[3]float64
	DimScale     *float64 // $DIMSCALE
	LinearFactor *float64 // $DIMLFAC
}

// Layer is one row of the layer table.
type Layer struct {
	Name       string
	Declared   bool // it stands in the table
	Off        bool // negative colour
	Frozen     bool
	Locked     bool
	NoPlot     bool
	Colour     int   // colour index, always positive; 7 if unstated
	Linetype   int32 // index in Drawing.Types; -1 if unstated
	LineWeight int   // hundredths of a millimetre; negative: by default
}

// Linetype is one row of the linetype table.
type Linetype struct {
	Name     string
	Declared bool
	Dashes   []float64 // pattern lengths, negative for gaps; empty: continuous
}

// Block is a block definition; it is geometry only where an Insert places it.
type Block struct {
	Name     string
	Line     int64
	Base     Vec
	Entities []Entity
	Layout   bool // *Model_Space, *Paper_Space: never placed by name
	XRef     bool // external reference: its geometry is in another file
	Units    int  // insertion units (code 70 of the block record); 0 unstated
}

// Layout is the content of one paper space.
type Layout struct {
	Name     string
	Entities []Entity
}

// Note tells that the reader skipped, repaired or guessed something. Notes of
// one code and text are counted together. The codes are
//
//	entity-skipped    an entity is not decoded, or cannot be drawn: it is an *Other
//	stray-entity      an end mark or an entity where none can stand
//	stray-pair        a pair where none can stand
//	seqend-missing    a polyline or the attributes of an insert have no end mark
//	table-cells       an ACAD_TABLE states other numbers of rows and columns than it has cells for
//	spline-fit-only   a spline whose control points make no curve; its fit points do
//	arc-whole         equal angles, or more than a turn, count as a whole circle
//	ellipse-ratio     a negative ratio of axes was turned into a positive one
//	extrusion-zero    an extrusion of length zero counts as (0,0,1)
//	scale-zero        a scale of 0 of an insert counts as 1
//	handle-bad        a handle is no hexadecimal number; it counts as none
//	layer-repeated    a layer stands twice in the table; the first row holds
//	block-repeated    a block is defined twice; the last definition holds
//	block-base        a base point is no place; (0,0,0) holds
//	endblk-missing    a block has no end mark
//	model-in-block    model space stands in the section BLOCKS
//	section-name, section-repeated, endsec-missing, no-entities, no-eof,
//	data-past-eof     faults of the sections
//	header-bad        a header variable has no usable value
//	code-page-unknown the code page is not known; windows-1252 holds
//	text-encoding     text is not in the encoding that the file states
//
// and of Placing
//
//	block-missing     an insert of a block that is not defined, or is a space
//	block-cycle       a block that contains itself; the inner insert is left out
//	too-deep          inserts nested deeper than Limits.Depth are left out
//	too-many-placed   placing stopped at Limits.Placed
//	placement-absurd  an insert that reaches beyond 1e18 is left out
//	xref              a block in another file (also of the reader)
type Note struct {
	Code   string // slug, e.g. "entity-skipped"
	Line   int64  // line of the file (ASCII) or byte offset (binary); 0 if none
	Handle uint64
	Text   string
	Count  int // how often, at least 1; Line is the first place
}

// Limits bound what a hostile file can cost. A zero field means its default.
type Limits struct {
	Bytes  int64 // input size, default 1 GiB
	Placed int   // placed entities of one space, default 5e6
	Depth  int   // nesting of inserts, default 32
}
