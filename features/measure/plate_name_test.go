package measure

import "testing"

// Names that stand for a make of hard plate are invented; the wordings about them
// are common practice, no source.
func TestUnknownPlateNames(t *testing.T) {
	for text, want := range map[string]string{
		"10 THK QUORLIN 450": "QUORLIN 450", "PL 10 QUORLIN450": "QUORLIN450", "t=10 XYZ 400": "XYZ 400", "S275 XYZ 400": "S275 XYZ 400", "XYZ 400 / S275": "XYZ 400 / S275", "QUORLIN 500 10 THK": "QUORLIN 500", "S355 QUORLIN 450 10 THK": "S355 QUORLIN 450",
		"PL 10 400 HB": "400 HB", "10 THK HB450": "HB450", "10 THK WEAR PLATE": "WEAR PLATE", "S275 WEAR PLATE": "S275 WEAR PLATE", "S275 HB450": "S275 HB450", "S275 400 HB": "S275 400 HB",
		"S275 LENGTH 450": "S275", "S275 GUSSET 450": "S275", "S275 QUORLIN 450 x 300": "S275", "PL 10 x 400": "", "10 THK WIDTH 450": "", "PL 10 LG 450": "", "S275 CTRS 450": "S275", "10 THK RADIUS 500": "", "S355 BEAM 450": "S355", "QUORLIN 450": "", "S275 10 THK": "S275", "S355J2+N EN 10025": "S355J2+N", "10 THK S275 TO BS 4360": "S275",
	} {
		got, ok := MaterialNote(text)
		if got != want || ok != (want != "") {
			t.Errorf("MaterialNote(%q) = %q, %v; want %q", text, got, ok, want)
		}
	}
}
