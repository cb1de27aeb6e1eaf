package geom

// Ring is a closed outline: each edge starts where the one before ends, the
// last ends where the first starts. A ring is simple unless a function says
// it takes others. The area is positive counter-clockwise.
type Ring []Edge
