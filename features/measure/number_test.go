package measure

import (
	"math"
	"testing"
)

func TestFormatNumber(t *testing.T) {
	for _, c := range []struct {
		v    float64
		dec  int
		want string
	}{{12, 2, "12"}, {12.5, 2, "12.5"}, {12.499, 2, "12.5"}, {100, 0, "100"}, {-0.001, 2, "0"}, {22.225, 2, "22.23"}, {22.2249999999, 2, "22.23"}, {22.2250000001, 2, "22.23"}, {22.2249, 2, "22.22"}, {-21.25, 1, "-21.3"}, {0.125, 3, "0.125"}, {math.NaN(), 2, "?"}, {math.Inf(-1), 0, "?"}} {
		if got := FormatNumber(c.v, c.dec); got != c.want {
			t.Errorf("%v with %d decimals: %q, want %q", c.v, c.dec, got, c.want)
		}
	}
}
