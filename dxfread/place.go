package dxfread

import (
	"context"
	"iter"
)

// Matrix is an affine map of the drawing: p -> M p + T.
type Matrix struct {
	M [3][3]float64
	T Vec
}

// Placed is one entity as it stands in a space after all inserts.
type Placed struct {
	Entity   Entity // never an *Insert; attributes come as *Text
	Map      Matrix // from the world of the entity (for flat entities apply OCS(Extrusion) first) to the space
	Layer    int32  // effective: layer 0 in a block takes the insert's
	Linetype int32  // effective, resolved through layer and block; index in Drawing.Types, -1 unknown
	Colour   int16  // effective colour index
	Block    int32  // innermost insert in Placing.Path, -1 at the top
	Depth    uint8  // nesting of inserts, 0 at the top
}

// Placing walks the entities of one space with all blocks placed. It holds no
// copy of the geometry: placing happens while it is walked.
type Placing struct {
	d        *Drawing
	entities []Entity
	limits   Limits
	notes    []Note
	paths    []PathStep
	err      error
}

// PathStep is one insert on the way to a placed entity.
type PathStep struct {
	Block  string
	Parent int32 // index of the outer step, -1 at the top
}

// Place prepares to walk entities (Drawing.Model, or a Layout's Entities).
func (d *Drawing) Place(entities []Entity, lim Limits) *Placing {
	return &Placing{d: d, entities: entities, limits: lim}
}

// All yields every placed entity, in file order. It ends early when ctx does,
// or at Limits.Placed with the note "too-many-placed".
func (p *Placing) All(ctx context.Context) iter.Seq[Placed] {
	panic("dxfread: not written yet")
}

// Notes are what placing skipped or bounded; complete after All has ended.
func (p *Placing) Notes() []Note { return p.notes }

// Path gives the block names from the outermost insert to the one that
// Placed.Block names; nil for -1.
func (p *Placing) Path(block int32) []string {
	panic("dxfread: not written yet")
}

// Err is the context's error if it ended the walk.
func (p *Placing) Err() error { return p.err }

// OCS gives the map from the plane of an entity with this extrusion to the
// world, by the arbitrary axis rule of DXF.
func OCS(extrusion Vec) Matrix {
	panic("dxfread: not written yet")
}

// Apply maps a point.
func (m Matrix) Apply(v Vec) Vec {
	return Vec{
		m.M[0][0]*v.X + m.M[0][1]*v.Y + m.M[0][2]*v.Z + m.T.X,
		m.M[1][0]*v.X + m.M[1][1]*v.Y + m.M[1][2]*v.Z + m.T.Y,
		m.M[2][0]*v.X + m.M[2][1]*v.Y + m.M[2][2]*v.Z + m.T.Z,
	}
}

// Then gives the map that applies m first and n after it.
func (m Matrix) Then(n Matrix) Matrix {
	panic("dxfread: not written yet")
}
