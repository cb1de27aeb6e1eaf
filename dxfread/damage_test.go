package dxfread_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// damage spoils a file in one of the ways that transfers and editors do.
func damage(rng *rand.Rand, data []byte) []byte {
	out := bytes.Clone(data)
	if len(out) == 0 {
		return out
	}
	at := rng.IntN(len(out))
	switch rng.IntN(6) {
	case 0: // cut
		return out[:at]
	case 1: // flip bits
		for range 1 + rng.IntN(5) {
			out[rng.IntN(len(out))] ^= byte(1 << rng.IntN(8))
		}
	case 2: // lose a piece
		end := min(at+1+rng.IntN(200), len(out))
		return append(out[:at], out[end:]...)
	case 3: // a piece twice
		end := min(at+1+rng.IntN(200), len(out))
		return append(append(bytes.Clone(out[:end]), out[at:end]...), out[end:]...)
	case 4: // lose a line
		lines := bytes.SplitAfter(out, []byte("\n"))
		i := rng.IntN(len(lines))
		return bytes.Join(append(lines[:i:i], lines[i+1:]...), nil)
	case 5: // line ends changed in one half
		return append(out[:at:at], bytes.ReplaceAll(out[at:], []byte("\r\n"), []byte("\n"))...)
	}
	return out
}

func checkDamaged(t *testing.T, rng *rand.Rand, name string, data []byte, times int) {
	t.Helper()
	for range times {
		bad := damage(rng, data)
		d, err := dxfread.Decode(context.Background(), bad, dxfread.Limits{})
		var syntax *dxfread.SyntaxError
		if err != nil && (!errors.As(err, &syntax) || syntax.Line < 1 && !syntax.Binary) {
			t.Fatalf("%s: error without a place: %v", name, err)
		}
		checkDrawing(t, d)
	}
}

func TestDamaged(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	b := plate()
	for _, f := range dxftest.Forms() {
		checkDamaged(t, rng, f.String(), b.As(f), 300)
	}
	for _, path := range dxfFiles(t, "testdata") {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		checkDamaged(t, rng, path, data, 300)
	}
	dir := os.Getenv("BURRSIDE_DRAWINGS")
	if dir == "" {
		t.Log("BURRSIDE_DRAWINGS is not set: no foreign drawings were damaged")
		return
	}
	for _, path := range dxfFiles(t, dir) {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		checkDamaged(t, rng, path, data, max(2, min(60, 4<<20/(len(data)+1))))
	}
}
