package section

import (
	"strings"
	"testing"
)

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		Find(76, 76, 6.3, 0.5)
	}
}

// What long texts cost; all hold figures and a sign, so that they are read.
func BenchmarkMentions(b *testing.B) {
	for _, c := range []struct{ name, text string }{
		{"angles", strings.Repeat("2L75x75x8 S275 x 1200 LG, ", 400)},
		{"words", strings.Repeat("ALL WELDS 6x6 FILLET U.N.O. ", 400)},
		{"signs", "1x" + strings.Repeat("L ", 5000)},
		{"sizes", strings.Repeat("1x", 5000)},
		{"spaces", "1xL" + strings.Repeat(" ", 10000)},
		{"numbers", "x" + strings.Repeat("75 ", 3500)},
		{"dashes", "1xANGLE" + strings.Repeat("-", 10000)},
		{"newlines", strings.Repeat("L75x75x8\n", 1000)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.text)))
			for b.Loop() {
				Mentions(c.text)
			}
		})
	}
}
