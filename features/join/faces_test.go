package join

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"
)

// TestFacesOfDisc: a disc with a chord at half its radius. The segment beyond
// it has r*r*(acos(1/2) - sqrt(3)/4).
func TestFacesOfDisc(t *testing.T) {
	h := math.Sqrt(75)
	r := (&drawing{}).loose(circle(0, 0, 10), line(-h, 5, h, 5)).join(t, Options{})
	if len(r.Contours) != 1 || len(r.Dividers) != 1 {
		t.Fatal(text(r))
	}
	f, err := Faces(context.Background(), &r.Contours[0], r.Dividers, Options{})
	if err != nil || len(f) != 2 {
		t.Fatal(err, f)
	}
	small := 100 * (math.Acos(0.5) - math.Sqrt(3)/4)
	a := []float64{f[0].Ring().Area(), f[1].Ring().Area()}
	slices.Sort(a)
	if math.Abs(a[0]-small) > 1e-3 || math.Abs(a[1]-(100*math.Pi-small)) > 1e-3 {
		t.Errorf("areas %v, want %g", a, small)
	}
}

func TestFacesWithoutDividers(t *testing.T) {
	r := (&drawing{}).closed(rect(0, 0, 10, 10)...).loose(circle(50, 50, 5)).join(t, Options{})
	for i := range r.Contours {
		f, err := Faces(context.Background(), &r.Contours[i], nil, Options{})
		if err != nil || len(f) != 1 || math.Abs(f[0].Ring().Area()-r.Contours[i].Ring().Area()) > 1e-9 {
			t.Errorf("contour %d: %v %v", i, err, f)
		}
	}
}

// TestSourcesAndStyles: what was merged is listed, a bridge has no source, and
// a divider keeps its style.
func TestSourcesAndStyles(t *testing.T) {
	var in []Input
	for i, e := range rect(0, 0, 10, 10) {
		in = append(in, Input{Edge: e, Source: int32(10 + i), Style: 2}, Input{Edge: e.Reverse(), Source: int32(20 + i), Style: 1})
	}
	in = append(in, Input{Edge: line(5, 0, 5, 10), Source: 7, Style: 9})
	r := (&drawing{in: in}).join(t, Options{})
	if len(r.Contours) != 1 || len(r.Dividers) != 1 {
		t.Fatal(text(r))
	}
	for i, p := range r.Contours[0].Pieces {
		if want := []int32{int32(10 + i), int32(20 + i)}; !slices.Equal(p.Sources, want) || p.Style != 1 {
			t.Errorf("piece %d: sources %v style %d", i, p.Sources, p.Style)
		}
	}
	if p := r.Dividers[0].Pieces[0]; p.Style != 9 || !slices.Equal(p.Sources, []int32{7}) {
		t.Errorf("divider: %v", p)
	}
	u := (&drawing{}).loose(line(0, 0, 10, 0), line(10, 0, 10, 10), line(10, 10, 0, 10), line(0, 10, 0, 5), line(0, 4.8, 0, 0)).join(t, Options{})
	none := 0
	for _, p := range u.Contours[0].Pieces {
		if len(p.Sources) == 0 {
			none++
		}
	}
	if none != 1 {
		t.Errorf("%d pieces without source, want the bridge alone: %s", none, text(u))
	}
}

// TestLimits: the snap at, just below and just above 1e-3, the bridge at 0.5,
// and the rule of 0.3 of the shorter edge.
func TestLimits(t *testing.T) {
	open := func(gap float64) *drawing {
		return (&drawing{}).loose(line(0, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 20+gap), line(0, 20, 0, 0))
	}
	for _, c := range []struct {
		gap      float64
		opt      Options
		contours int
		notes    int
	}{
		{0.0009, Options{}, 1, 0},
		{0.0011, Options{}, 1, 1},
		{0.0009, Options{SnapMM: 5e-4}, 1, 1},
		{0.499, Options{}, 1, 1},
		{0.501, Options{}, 0, 0},
		{0.501, Options{BridgeMM: 1}, 1, 1},
		{0.2, Options{BridgeMM: -1}, 0, 0},
	} {
		r := open(c.gap).join(t, c.opt)
		if len(r.Contours) != c.contours || len(r.Notes) != c.notes {
			t.Errorf("gap %g %+v: %s", c.gap, c.opt, text(r))
		}
		if c.notes == 1 && (r.Notes[0].Code != "gap-closed" || math.Abs(r.Notes[0].SizeMM-c.gap) > 1e-9) {
			t.Errorf("gap %g: note %+v", c.gap, r.Notes[0])
		}
		if c.contours == 0 && (len(r.Gaps) != 1 || math.Abs(r.Gaps[0].SizeMM-c.gap) > 1e-9) {
			t.Errorf("gap %g: gaps %+v", c.gap, r.Gaps)
		}
	}
	// A neighbour of 1.2 mm takes a bridge of 0.35, not of 0.37.
	for gap, want := range map[float64]int{0.35: 1, 0.37: 0} {
		d := (&drawing{}).loose(line(0, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 1.2+gap), line(0, 1.2, 0, 0))
		if r := d.join(t, Options{}); len(r.Contours) != want {
			t.Errorf("gap %g: %s", gap, text(r))
		}
	}
}

// TestNoChaining: ends 0.8 um apart in a row do not run together.
func TestNoChaining(t *testing.T) {
	d := &drawing{}
	for i := range 50 {
		x := float64(i) * 0.0008
		d.loose(line(x, 0, x+10, 5+float64(i)))
	}
	b := newBase(context.Background(), d.in, Options{})
	if err := b.prepare(); err != nil {
		t.Fatal(err)
	}
	if len(b.edges) != 50 {
		t.Fatalf("%d edges", len(b.edges))
	}
	moved := 0
	for i := range b.edges {
		e, in := &b.edges[i], &d.in[b.sources(b.edges[i].src)[0]]
		if m := max(min(e.From.Dist(in.Edge.From), e.From.Dist(in.Edge.To)), min(e.To.Dist(in.Edge.From), e.To.Dist(in.Edge.To))); m > 1e-3+1e-12 {
			t.Errorf("edge %d: an end moved by %g", i, m)
		} else if m > 0 {
			moved++
		}
	}
	if moved == 0 {
		t.Error("nothing was snapped")
	}
}

// TestCoarse: coordinates of three digits, with ends that differ by one in the
// last place, close without a bridge; the snap used is told.
func TestCoarse(t *testing.T) {
	r := (&drawing{}).loose(line(0.001, 0.002, 33.337, 0.004), line(33.338, 0.005, 17.003, 41.779), line(17.004, 41.778, 0.003, 0.001)).join(t, Options{})
	if len(r.Contours) != 1 || math.Abs(r.SnapMM-0.002) > 1e-12 {
		t.Errorf("snap %g: %s", r.SnapMM, text(r))
	}
}

func TestCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Join(ctx, (&drawing{}).loose(rect(0, 0, 1, 1)...).in, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}

func TestEmpty(t *testing.T) {
	r := (&drawing{}).join(t, Options{})
	if len(r.Contours)+len(r.Chains)+len(r.Dividers)+len(r.Notes) != 0 || r.SnapMM != 1e-3 || r.BridgeMM != 0.5 {
		t.Errorf("%+v", r)
	}
}

// TestTooMany: 60 lines across 60 with room for 100 crossings: none is used,
// and that is said.
func TestTooMany(t *testing.T) {
	d := &drawing{}
	for i := range 60 {
		d.loose(line(0, float64(i), 60, float64(i)+0.5), line(float64(i), -1, float64(i)+0.5, 61))
	}
	r := d.join(t, Options{MaxSplits: 100})
	if len(r.Contours) != 0 || len(r.Notes) == 0 || r.Notes[len(r.Notes)-1].Code != "too-many-crossings" {
		t.Errorf("%d contours, notes %v", len(r.Contours), r.Notes)
	}
	if r := d.join(t, Options{MaxSplits: 4000}); len(r.Contours) != 1 {
		t.Errorf("%d contours", len(r.Contours))
	}
}
