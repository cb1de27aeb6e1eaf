package render

import (
	"image"
	"image/color"
	"math"
)

// mixSteps is how many steps lie between two colours that meet at an edge.
const mixSteps = 6

// palette lists the colours of all styles and what their soft edges mix to,
// 256 at most.
func palette() color.Palette {
	var out color.Palette
	seen := map[color.RGBA]bool{}
	add := func(c color.RGBA) {
		if !seen[c] && len(out) < 256 {
			seen[c] = true
			out = append(out, c)
		}
	}
	grounds := []uint32{hexPaper, hexMetal, hexTintE, hexTintC, hexTintN, hexTintF, hexShaded}
	inks := []uint32{hexInk, hexError, hexCare, hexNote, hexGrey, hexFits, hexFaint, 0xA03000, 0x6E4B00, 0x9A6A00, 0x4A535E}
	for _, c := range append(append([]uint32(nil), grounds...), inks...) {
		add(rgb(c))
	}
	mix := func(a, b uint32, steps int) {
		x, y := rgb(a), rgb(b)
		for i := 1; i < steps; i++ {
			m := func(p, q uint8) uint8 { return uint8((int(p)*(steps-i) + int(q)*i) / steps) }
			add(color.RGBA{m(x.R, y.R), m(x.G, y.G), m(x.B, y.B), 255})
		}
	}
	mix(hexInk, hexPaper, 16)
	mix(hexInk, hexMetal, 8)
	for _, ink := range inks {
		mix(ink, hexPaper, mixSteps)
	}
	for _, ink := range inks[:5] {
		mix(ink, hexMetal, mixSteps)
	}
	for _, g := range grounds[1:] {
		mix(hexInk, g, 5)
	}
	mix(hexError, hexInk, 5)
	mix(hexCare, hexInk, 5)
	return out
}

// toPalette maps each pixel to the nearest colour of the palette. Colours are
// looked up by their upper five bits, so that a picture costs a table look-up a
// pixel; the palette's own colours are exact.
func toPalette(img *image.RGBA) *image.Paletted {
	pal := palette()
	out := image.NewPaletted(img.Rect, pal)
	exact := map[uint32]uint8{}
	for i, c := range pal {
		q := c.(color.RGBA)
		exact[uint32(q.R)<<16|uint32(q.G)<<8|uint32(q.B)] = uint8(i)
	}
	var table [1 << 15]int16
	last, lastIndex := uint32(1<<24), uint8(0)
	for y := range img.Rect.Dy() {
		src := img.Pix[y*img.Stride : y*img.Stride+4*img.Rect.Dx()]
		dst := out.Pix[y*out.Stride : y*out.Stride+img.Rect.Dx()]
		for x := range dst {
			v := uint32(src[4*x])<<16 | uint32(src[4*x+1])<<8 | uint32(src[4*x+2])
			if v != last {
				last = v
				if i, ok := exact[v]; ok {
					lastIndex = i
				} else {
					k := (v >> 9 & 0x7c00) | (v >> 6 & 0x3e0) | (v >> 3 & 0x1f)
					if table[k] == 0 {
						table[k] = int16(nearestColour(pal, k)) + 1
					}
					lastIndex = uint8(table[k] - 1)
				}
			}
			dst[x] = lastIndex
		}
	}
	return out
}

// nearestColour is the palette's colour nearest to the middle of a cell of the table.
func nearestColour(pal color.Palette, k uint32) int {
	r, g, b := int(k>>10&31)*8+4, int(k>>5&31)*8+4, int(k&31)*8+4
	best, bestD := 0, math.MaxInt
	for i, c := range pal {
		q := c.(color.RGBA)
		dr, dg, db := int(q.R)-r, int(q.G)-g, int(q.B)-b
		// The eye weighs green most; the weights are those usual for luma.
		if d := 3*dr*dr + 6*dg*dg + db*db; d < bestD {
			best, bestD = i, d
		}
	}
	return best
}
