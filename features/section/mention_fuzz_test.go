package section

import (
	"math"
	"strings"
	"testing"
)

// FuzzMentions holds what is true of the mentions of any text: all numbers are
// finite and those of an angle, the words are pieces of the text in its order,
// and the drawing's unit settles what the text leaves open.
func FuzzMentions(f *testing.F) {
	for _, s := range []string{
		"L75x75x8", "2L 75x75x8 S275 L=1250", `4-L3x3x1/4x1'-6"`, "2 No. 75x75x8 RSA x 1200 LG", "L75/75/8", "ISA 10075x8", "уголок 50х50х5", "L 2 1/2 x 2½ x ¼", "DOUBLE ANGLE 3x3x1/4 x 1,250\nL=3", "(2) ∟ 50x5",
		"角钢L75x75x8", "Cornie\u0300re 75,5x75x8 B/B", "L\xff75x75x8", "75x75x8 M.S. ANGLE BACK TO BACK", "L75mmx75mmx8mm - 1.250 m",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rest := text
		for _, m := range Mentions(text) {
			k := strings.Index(rest, m.Text)
			if k < 0 || m.Text == "" {
				t.Fatalf("%q: %q is no piece of %q", text, m.Text, rest)
			}
			rest = rest[k+len(m.Text):]
			for _, unit := range []string{"mm", "in", "m", "?"} {
				n := m.In(unit)
				if n.Unit != "mm" && n.Unit != "in" || m.Unit != "" && n != m {
					t.Fatalf("%q in %s: %+v becomes %+v", text, unit, m, n)
				}
				for _, v := range []float64{n.LegMM[0], n.LegMM[1], n.ThicknessMM, n.LengthMM} {
					if !(v >= 0) || math.IsInf(v, 0) {
						t.Fatalf("%q in %s: %+v", text, unit, n)
					}
				}
				if !(n.LegMM[0] > 2*n.ThicknessMM && n.LegMM[1] > 2*n.ThicknessMM && max(n.LegMM[0], n.LegMM[1]) <= 600) {
					t.Fatalf("%q in %s: %+v is no angle", text, unit, n)
				}
			}
			if m.Count < 0 || m.Count > 999 {
				t.Fatalf("%q: count %d", text, m.Count)
			}
		}
	})
}
