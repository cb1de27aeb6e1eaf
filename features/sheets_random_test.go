package features_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// randomTitle splits a box into cells at random, as title blocks are, and writes
// into most of them.
func randomTitle(p *pen, r *rand.Rand, x, y, w, h float64, row float64) {
	words := []string{"Scale", "Date", "Drawn", "Checked", "Title", "Material", "Sheet", "1:1", "R. Fell", "2024-05-02", "S355J2", "AF-0117", "1/1", "Rev", "A", "Gusset", "Weight", "12.4 kg", "Alder Ford"}
	var split func(x, y, w, h float64)
	split = func(x, y, w, h float64) {
		switch {
		case h >= 2*row && (h > w/3 || w < 30 || r.IntN(2) == 0):
			at := row * float64(1+r.IntN(int(h/row)-1))
			p.paperLine(x, y+at, x+w, y+at)
			split(x, y, w, at)
			split(x, y+at, w, h-at)
		case w >= 45 && (h < 2*row || r.IntN(3) > 0):
			at := 18 + (w-36)*r.Float64()
			p.paperLine(x+at, y, x+at, y+h)
			split(x, y, at, h)
			split(x+at, y, w-at, h)
		default:
			if r.IntN(6) == 0 {
				return
			}
			size := 0.3 * row
			if r.IntN(2) == 0 { // a label above a value
				p.paperText(x+0.1*row, y+h-1.3*0.22*row, 0.22*row, words[r.IntN(len(words))])
			}
			p.paperText(x+0.15*row, y+0.15*row, size+0.15*row*r.Float64(), words[r.IntN(len(words))])
		}
	}
	// Four cells at least.
	p.paperLine(x, y+row, x+w, y+row)
	for _, half := range [][2]float64{{y, row}, {y + row, h - row}} {
		p.paperLine(x+w/2, half[0], x+w/2, half[0]+half[1])
		split(x, half[0], w/2, half[1])
		split(x+w/2, half[0], w/2, half[1])
	}
}

// sloppy draws a line of the sheet that may run past its ends or stop a little
// short of them, or is drawn twice.
func sloppy(p *pen, r *rand.Rand, x1, y1, x2, y2, f float64) {
	d := 0.0
	switch r.IntN(5) {
	case 0:
		d = 2 * f
	case 1:
		d = -0.05
	case 2:
		p.paperLine(x1, y1, x2, y2)
	}
	if x1 == x2 {
		p.paperLine(x1, y1-d, x2, y2+d)
		return
	}
	p.paperLine(x1-d, y1, x2+d, y2)
}

// randomSheet draws one plate in the frame of a sheet.
func randomSheet(p *pen, r *rand.Rand) (w, h float64, holes int) {
	sizes := [][2]float64{{297, 210}, {420, 297}, {594, 420}, {431.8, 279.4}, {609.6, 457.2}, {300, 230}}
	s := sizes[r.IntN(len(sizes))]
	f := []float64{1, 1, 2, 5}[r.IntN(4)]
	sw, sh := s[0]*f, s[1]*f
	x, y := -sw*0.3+20*r.Float64(), -sh*0.55
	margin := 10 * f
	row := (6 + 3*r.Float64()) * f
	tw, th := 120*f+60*f*r.Float64(), row*float64(3+r.IntN(4))
	double := r.IntN(3) > 0
	if double {
		p.frame(x, y, sw, sh)
	}
	ix, iy, iw, ih := x+margin, y+margin, sw-2*margin, sh-2*margin
	p.frame(ix, iy, iw, ih)
	if double && r.IntN(2) == 0 {
		p.zones(x, y, sw, sh, margin)
	}
	tx := ix + iw - tw
	switch r.IntN(4) {
	case 0: // all along the lower side
		tx, tw = ix, iw
	case 1: // apart from the frame
		tx -= 3 * f
		iy += 3 * f
		p.frame(tx, iy, tw, th)
		randomTitle(p, r, tx, iy, tw, th, row)
		tw = 0
	}
	if tw > 0 {
		sloppy(p, r, tx, iy+th, tx+tw, iy+th, f)
		if tx > ix {
			sloppy(p, r, tx, iy, tx, iy+th, f)
		}
		randomTitle(p, r, tx, iy, tw, th, row)
	}
	w, h = math.Max(120, sw*(0.2+0.2*r.Float64())), math.Max(80, sh*(0.15+0.2*r.Float64()))
	switch r.IntN(5) {
	case 0:
		p.rect(0, 0, w, h)
	case 1: // a gusset
		c := 0.4 * h
		for _, l := range [][4]float64{{0, 0, w, 0}, {w, 0, w, h - c}, {w, h - c, w - c, h}, {w - c, h, 0, h}, {0, h, 0, 0}} {
			p.line(l[0], l[1], l[2], l[3])
		}
		p.circle(0.3*w, 0.4*h, 18)
		holes = 1
	case 2:
		p.plate(0, 0, w, h)
		p.rect(0.45*w, 0.35*h, 0.2*w, 0.3*h)
		holes = 5
	default:
		p.plate(0, 0, w, h)
		holes = 4
	}
	if r.IntN(2) == 0 {
		p.dim(0, 0, w, 0, -10*f)
	}
	if r.IntN(3) == 0 {
		p.text(0, -20*f, 4*f, "t = 10 mm")
	}
	return w, h, holes
}

// TestRandomSheets: whatever the frame and the title block, there is one plate.
func TestRandomSheets(t *testing.T) {
	n := 150
	if testing.Short() {
		n = 30
	}
	for i := range n {
		r := rand.New(rand.NewPCG(11, uint64(i)))
		h := habits()[r.IntN(len(habits()))]
		var w, high float64
		var holes int
		b := drawSheet(sheetCase{draw: func(p *pen) { w, high, holes = randomSheet(p, r) }}, h)
		s := build(t, b)
		if h.turned {
			w, high = high, w
		}
		name := fmt.Sprintf("sheet %d, %s", i, h.name)
		if len(s.Parts) != 1 {
			t.Errorf("%s: %d parts\n%s", name, len(s.Parts), describe(s))
			continue
		}
		p := &s.Parts[0]
		if !close(p.Box.Width(), w, 1e-3) || !close(p.Box.Height(), high, 1e-3) || len(p.Holes) != holes || grave(p) || len(s.Faults) > 0 {
			t.Errorf("%s: want %g x %g\n%s", name, w, high, describe(s))
		}
	}
}
