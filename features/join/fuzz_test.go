package join

import (
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// fromBytes reads a drawing: six bytes an edge. Coordinates are whole and
// half millimetres, now and then off by less than the snap or the bridge.
func fromBytes(data []byte) []Input {
	var in []Input
	offs := [4]float64{0, 0.5, 0.0004, 0.2}
	for len(data) >= 6 && len(in) < 200 {
		k := data[:6]
		data = data[6:]
		a := pt{X: float64(k[1]%32) + offs[k[0]>>6], Y: float64(k[2] % 32)}
		b := pt{X: float64(k[3] % 32), Y: float64(k[4]%32) + offs[k[0]>>4&3]}
		i := Input{Source: int32(len(in)), Group: int32(k[5] >> 5), Closed: k[5]&16 != 0, Style: int32(k[5] & 3)}
		switch k[0] & 7 {
		case 0:
			i.Edge = geom.CircleEdge(a, float64(k[3]%16)/2)
		case 1, 2:
			i.Edge = geom.BulgeEdge(a, b, float64(int8(k[5]))/50)
		case 3:
			i.Edge = geom.ArcAngles(a, float64(k[3]%16), float64(k[4])/20, float64(k[5])/20)
		case 4:
			i.Edge = geom.Edge{From: a, To: b, Centre: a, Radius: float64(k[5]) - 10, CCW: k[3]&1 == 0} // off the circle
		default:
			i.Edge = geom.LineEdge(a, b)
		}
		in = append(in, i)
	}
	return in
}

func FuzzJoin(f *testing.F) {
	f.Add([]byte("\x07\x00\x00\x0a\x00\x00\x07\x0a\x00\x0a\x0a\x00\x07\x0a\x0a\x00\x0a\x00\x07\x00\x0a\x00\x00\x00"))
	f.Add([]byte("\x00\x05\x05\x04\x00\x00\x00\x05\x05\x04\x00\x00\x07\x00\x05\x1f\x05\x00"))
	f.Add([]byte("\x01\x00\x00\x0a\x0a\x30\x02\x0a\x0a\x00\x00\x30\x03\x04\x04\x05\x10\x60"))
	f.Fuzz(func(t *testing.T, data []byte) {
		in := fromBytes(data)
		r := (&drawing{in: in}).join(t, Options{})
		for i := range r.Contours {
			ring := r.Contours[i].Ring()
			if a := ring.Area(); math.IsNaN(a) {
				t.Fatalf("area %g", a)
			}
		}
		want := text(r)
		s := (&drawing{in: shuffled(in, rand.New(rand.NewPCG(5, 5)))}).join(t, Options{})
		if got := text(s); got != want {
			t.Fatalf("%s\nshuffled:\n%s\n%v", want, got, in)
		}
	})
}
