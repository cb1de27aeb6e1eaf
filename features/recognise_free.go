package features

// freeScore is below any score of a shape that fits.
const freeScore = 0.01

// recogniseFree reads any ring as a cut-out without a name. Corners relieved
// by round cuts ("dog-bone") are told, as the ring around them is then wider
// than the opening.
func recogniseFree(c *ringContext) (Feature, float64) {
	f := c.cutout("free")
	for _, s := range c.sides {
		if s.joint.kind == reliefCorner {
			f.Relief = "dog-bone"
		}
	}
	return f, freeScore
}
