package section

import (
	"math"
	"strings"
	"testing"
)

// want is what is expected of a text that names one angle: legs, thickness and
// length in the unit told, mm for bare numbers.
type want struct {
	text   string
	a, b   float64
	t      float64
	length float64
	count  int
	double bool
	unit   string
	listed string
}

func check(t *testing.T, w want) {
	t.Helper()
	list := Mentions(w.text)
	if len(list) != 1 {
		t.Errorf("%q: %+v, want one angle", w.text, list)
		return
	}
	m, f := list[0], 1.0
	if w.unit == "in" {
		f = 25.4
	}
	for i, got := range []float64{m.LegMM[0], m.LegMM[1], m.ThicknessMM, m.LengthMM} {
		if want := []float64{w.a, w.b, w.t, w.length}[i] * f; math.Abs(got-want) > 1e-6 {
			t.Errorf("%q: %+v, want %v", w.text, m, w)
			return
		}
	}
	if m.Count != w.count || m.Double != w.double || m.Unit != w.unit || m.Listed != w.listed {
		t.Errorf("%q: %+v, want %v", w.text, m, w)
	}
	if !strings.Contains(w.text, m.Text) || m.Text == "" {
		t.Errorf("%q: text %q", w.text, m.Text)
	}
}

// The ways to name an angle in the trade; common practice, no source.
func TestAngleIsNamed(t *testing.T) {
	for _, s := range []string{
		"L75x75x8", "L 75 x 75 x 8", "L75*75*8", "L75X75X8", "L75×75×8", "L75/75/8", "L 75/8", "L75x8", "L. 75x75x8", "L-75x75x8", "l 75x75x8", "L (75x75x8)",
		"∠75x75x8", "∟75x75x8", "∟ 75 x 75 x 8", "└75x75x8", "L75х75х8",
		"75x75x8 RSA", "75x75x8 R.S.A.", "75 x 75 x 8 EA", "75x75x8 ANGLE", "75x75x8 M.S. ANGLE", "75x75x8 THK. ANGLE", "75x75x8 equal angle",
		"ANGLE 75x75x8", "ANGLE: 75x75x8", "ANG. 75x75x8", "ANGLE IRON 75x75x8", "ANGLE SIZE = 75x75x8", "M.S. ANGLE 75x75x8", "cornière à ailes égales 75x75x8", "Kutni profil 75x75x8", "UNEQUAL ANGLE 75x75x8", "RSA 75x75x8", "ISA 75x75x8", "ISA 75 x 75 x 8",
		"Winkel 75x75x8", "Winkelstahl 75x75x8", "Winkelprofil 75x75x8", "WINKEL L 75x75x8", "Cornière 75x75x8", "CORNIERE 75x75x8", "Cornie\u0300re 75x75x8", "cornières 75x75x8", "angolare 75x75x8", "profilo L 75x75x8", "angular 75x75x8", "perfil angular 75x75x8",
		"cantoneira 75x75x8", "hoekstaal 75x75x8", "hoeklijn 75x75x8", "hoekprofiel 75x75x8", "kątownik 75x75x8", "KĄTOWNIK 75x75x8", "L-profil 75x75x8", "L-Profil: 75x75x8", "úhelník 75x75x8", "ÚHELNÍK 75x75x8", "kutnik 75x75x8",
		"уголок 75х75х8", "УГОЛОК 75x75x8", "LNP 75x75x8", "vinkelstång 75x75x8", "szögacél 75x75x8", "köşebent 75x75x8", "角钢L75x75x8", "角钢 75x75x8",
		"MATERIAL: L75x75x8 S275JR", "WELD L75x75x8 TO PLATE", "L75x75x8 TYP.", "(L75x75x8)",
	} {
		check(t, want{text: s, a: 75, b: 75, t: 8, listed: "L75x75x8"})
	}
	for _, s := range []string{"L 3 x 3 x 1/4", "L3X3X1/4", `L3"x3"x1/4"`, `L 3" x 3" x 1/4"`, "L3x3x¼", "ANGLE 3x3x1/4", "3 x 3 x 1/4 ANGLE", "∠ 3x3x1/4", `L 3" x 1/4"`, "L3x1/4", "L3x3x.25 in", "L 3 in x 3 in x 1/4 in", "L3x3x1⁄4"} {
		check(t, want{text: s, a: 3, b: 3, t: 0.25, unit: "in", listed: "L3X3X1/4"})
	}
	for _, w := range []want{
		{text: "L 75x50x8", a: 75, b: 50, t: 8, listed: "L75x50x8"},
		{text: "L 50x75x8", a: 50, b: 75, t: 8, listed: "L75x50x8"},
		{text: "100 x 75 x 8 UA", a: 100, b: 75, t: 8, listed: "L100x75x8"},
		{text: "L50x5", a: 50, b: 50, t: 5, listed: "L50x50x5"},
		{text: "L45x45x4,5", a: 45, b: 45, t: 4.5, listed: "L45x45x4.5"},
		{text: "L45x45x4.5", a: 45, b: 45, t: 4.5, listed: "L45x45x4.5"},
		{text: "ISA 5050x6", a: 50, b: 50, t: 6, unit: "mm", listed: "L50x50x6"},
		{text: "ISA 10075 x 8", a: 100, b: 75, t: 8, unit: "mm", listed: "L100x75x8"},
		{text: "ISA 100100x10", a: 100, b: 100, t: 10, unit: "mm", listed: "L100x100x10"},
		{text: "L2-1/2x2-1/2x3/16", a: 2.5, b: 2.5, t: 0.1875, unit: "in", listed: "L2-1/2X2-1/2X3/16"},
		{text: "L 2 1/2 x 2 x 1/4", a: 2.5, b: 2, t: 0.25, unit: "in", listed: "L2-1/2X2X1/4"},
		{text: "L 2½ x 2½ x ¼", a: 2.5, b: 2.5, t: 0.25, unit: "in", listed: "L2-1/2X2-1/2X1/4"},
		{text: "L6X4X3/8 LLV", a: 6, b: 4, t: 0.375, unit: "in", listed: "L6X4X3/8"},
		{text: "L1-1/2x1-1/2x1/8", a: 1.5, b: 1.5, t: 0.125, unit: "in", listed: "L1-1/2X1-1/2X1/8"},
		{text: "L75mmx75mmx8mm", a: 75, b: 75, t: 8, unit: "mm", listed: "L75x75x8"},
		{text: "L 75 x 75 x 8 mm", a: 75, b: 75, t: 8, unit: "mm", listed: "L75x75x8"},
		{text: "L3x3x.25", a: 3, b: 3, t: 0.25, listed: "L3X3X1/4"},
		{text: "L3x3x0.25", a: 3, b: 3, t: 0.25, listed: "L3X3X1/4"},
		{text: "L3.5x3.5x.188", a: 3.5, b: 3.5, t: 0.188},
		{text: "L2.5x2.5x.188", a: 2.5, b: 2.5, t: 0.188, listed: "L2-1/2X2-1/2X3/16"},
		// Designations of A6/A6M in millimetres: L76x76x6.4 is L3x3x1/4.
		{text: "L76x76x6.4", a: 76, b: 76, t: 6.4, listed: "L3X3X1/4"},
		{text: "L102x102x12.7", a: 102, b: 102, t: 12.7, listed: "L4X4X1/2"},
		{text: "L76x76x6", a: 76, b: 76, t: 6},
		// Folded, or of another standard: an angle all the same.
		{text: "L 82x82x4", a: 82, b: 82, t: 4},
		{text: "ANGLE 400x200x6", a: 400, b: 200, t: 6},
		{text: "ANGLE 75x75", a: 75, b: 75},
		{text: "L75x75", a: 75, b: 75},
	} {
		check(t, w)
	}
}

func TestCountAndLength(t *testing.T) {
	const l8 = "L75x75x8"
	for _, w := range []want{
		{text: "2L75x75x8", a: 75, b: 75, t: 8, count: 2, double: true, listed: l8},
		{text: "2L 75x75x8", a: 75, b: 75, t: 8, count: 2, double: true, listed: l8},
		{text: "2∟75x75x8", a: 75, b: 75, t: 8, count: 2, double: true, listed: l8},
		{text: "DOUBLE ANGLE 75x75x8", a: 75, b: 75, t: 8, double: true, listed: l8},
		{text: "75x75x8 ANGLES BACK TO BACK", a: 75, b: 75, t: 8, double: true, listed: l8},
		{text: "4L75x75x8", a: 75, b: 75, t: 8, count: 4, listed: l8},
		{text: "2 L 75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "2xL75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "2 x L75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "4 - L75x75x8", a: 75, b: 75, t: 8, count: 4, listed: l8},
		{text: "2-Ls 75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "(2) L75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "2nos L75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "4 Stk. L75x75x8", a: 75, b: 75, t: 8, count: 4, listed: l8},
		{text: "4 szt. kątownik 75x75x8", a: 75, b: 75, t: 8, count: 4, listed: l8},
		{text: "2 x 75 x 75 x 8 RSA x 600 LONG", a: 75, b: 75, t: 8, length: 600, count: 2, listed: l8},
		{text: "2-75x75x8 RSA", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "2 No. L75x75x8 x 1200 LG", a: 75, b: 75, t: 8, length: 1200, count: 2, listed: l8},
		{text: "2Nos-ISA 75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "2 No. - L75x75x8", a: 75, b: 75, t: 8, count: 2, listed: l8},
		{text: "4 EA L75x75x8", a: 75, b: 75, t: 8, count: 4, listed: l8},
		{text: "QTY 4: L75x75x8", a: 75, b: 75, t: 8, count: 4, listed: l8},
		// Numbers that count nothing.
		{text: "12: L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "NOTE 4: L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "POS 3 L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "ITEM 4 - L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "PL 10 - L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "M20 - L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "GRID 4 L75x75x8", a: 75, b: 75, t: 8, listed: l8},

		{text: "L 75x75x8x1200", a: 75, b: 75, t: 8, length: 1200, listed: l8},
		{text: "75x75x8x1200 RSA", a: 75, b: 75, t: 8, length: 1200, listed: l8},
		{text: "L75x8x1200", a: 75, b: 75, t: 8, length: 1200, listed: l8},
		{text: "L75x75x8 LG = 1200", a: 75, b: 75, t: 8, length: 1200, listed: l8},
		{text: "L75x75x8 - 1250 LG", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8 - 1250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8, 1250 LONG", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8 S275 L=1250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8 (S355J2+N), LENGTH: 1250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8\nL=500", a: 75, b: 75, t: 8, length: 500, listed: l8},
		{text: "L 75x75x8 Länge 1250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "уголок 75х75х8 длина 1250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8 x 1,250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8 x 1.250", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "L75x75x8 x 1.25 m", a: 75, b: 75, t: 8, length: 1250, unit: "mm", listed: l8},
		{text: "L75x75x8 x 1.250 m", a: 75, b: 75, t: 8, length: 1250, unit: "mm", listed: l8},
		{text: "L75x75x8 x 1250mm LG", a: 75, b: 75, t: 8, length: 1250, unit: "mm", listed: l8},
		{text: `L75x75x8 x 4'-0"`, a: 75, b: 75, t: 8, length: 1219.2, unit: "mm", listed: l8},
		{text: "L75x75x8 x 60 LG", a: 75, b: 75, t: 8, length: 60, listed: l8},
		{text: "75x75x8 RSA CLEAT 200 LONG", a: 75, b: 75, t: 8, length: 200, listed: l8},
		{text: "L 75x75x8 DIN EN 10056-1 S235JR 1250 lg.", a: 75, b: 75, t: 8, length: 1250, listed: l8},
		{text: "∟75х8 ГОСТ 8509-93 L=300", a: 75, b: 75, t: 8, length: 300, listed: l8},
		{text: "angolare 75x75x8 L.300", a: 75, b: 75, t: 8, length: 300, listed: l8},
		{text: "L75x75 t=8", a: 75, b: 75, t: 8, listed: l8},
		{text: "ANGLE 75x75 THK 8 mm L=300", a: 75, b: 75, t: 8, length: 300, unit: "mm", listed: l8},
		{text: "ANGLE 75x75 - 8 THK", a: 75, b: 75, t: 8, listed: l8},
		{text: "cornière 75 x 75 ép 8", a: 75, b: 75, t: 8, listed: l8},
		{text: "ANGLE 3 x 3, 1/4 THK", a: 3, b: 3, t: 0.25, unit: "in", listed: "L3X3X1/4"},
		// What follows is no thickness, no length.
		{text: "L75x75 - 8", a: 75, b: 75},
		{text: "L75x75 t=75", a: 75, b: 75},
		{text: "L75x75x8 x 6 OFF", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 - 2 OFF", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 - 100", a: 75, b: 75, t: 8, listed: l8},
		{text: "L3x3x1/4 x 1'-18\"", a: 3, b: 3, t: 0.25, unit: "in", listed: "L3X3X1/4"},
		{text: "NOTE (2) L75x75x8", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 - 12", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 @ 1200 CRS", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 - 300 CRS", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 WITH PL 100x10 L=200", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8 M16 BOLTS 50 LONG", a: 75, b: 75, t: 8, listed: l8},
		{text: "L75x75x8-2", a: 75, b: 75, t: 8, listed: l8},

		{text: `4-L3x3x1/4x1'-6"`, a: 3, b: 3, t: 0.25, length: 18, count: 4, unit: "in", listed: "L3X3X1/4"},
		{text: `L3x3x1/4 x 1'-6`, a: 3, b: 3, t: 0.25, length: 18, unit: "in", listed: "L3X3X1/4"},
		{text: "L3x3x1/4 x 1-6", a: 3, b: 3, t: 0.25, length: 18, unit: "in", listed: "L3X3X1/4"},
		{text: "L3x3x1/4 x 0-11 1/2", a: 3, b: 3, t: 0.25, length: 11.5, unit: "in", listed: "L3X3X1/4"},
		{text: "L3x3x1/4 x 18", a: 3, b: 3, t: 0.25, length: 18, unit: "in", listed: "L3X3X1/4"},
		{text: "L3x3x1/4 x 18.125", a: 3, b: 3, t: 0.25, length: 18.125, unit: "in", listed: "L3X3X1/4"},
		{text: "L3x3x1/4 x 1-1/2", a: 3, b: 3, t: 0.25, length: 1.5, unit: "in", listed: "L3X3X1/4"},
		{text: `L3x3x1/4 - 4'-6"`, a: 3, b: 3, t: 0.25, length: 54, unit: "in", listed: "L3X3X1/4"},
		{text: `L3x3x.25 x 18"`, a: 3, b: 3, t: 0.25, length: 18, unit: "in", listed: "L3X3X1/4"},
		{text: "L3x3x.25 x 18", a: 3, b: 3, t: 0.25, length: 18, listed: "L3X3X1/4"},
		{text: "L3x3x.25 x 508 mm", a: 3, b: 3, t: 0.25, length: 20, unit: "in", listed: "L3X3X1/4"},
		{text: `(2) L 4x4x1/2 A36 x 2'-3 1/2" LG`, a: 4, b: 4, t: 0.5, length: 27.5, count: 2, unit: "in", listed: "L4X4X1/2"},
	} {
		check(t, w)
	}
}

func TestNoAngleIsNamed(t *testing.T) {
	for _, s := range []string{
		"", "L", "L=1200", "L 1200", "L: 1200", "LENGTH 75", "LENGTH 75x75x8", "75x75x8", "PL 75x8", "Level 3", "LEVEL 75x75x8", "L2", "L-1", "L.3", "L1/L2", "LG 1200", "L/300", "L/2", "L1/2", "1/2 L",
		"L-75-75-8", "75-75-8 RSA", "L75-75-8", "DWG L-75-75-8", "L 1200 x 100 x 10", "L=1200x100x10", "L 300 x 200", "L 2x4", "L6x1", "L3x3rd", "L 3x2", "SLOT L 50x18", "SLOT L 50x5", "L 82x4", "B 100 x L 200 x 20", "W100 x L200 x 20", "100 x L 200 x 20", "PLATE L 150x100x10", "BLECH L 150x100x10", "L 40x14", "L 75x75x75",
		"RHS 75x75x8", "RHS 75x75x8 EA", "PL 75x75x8 EA", "PLATE 100x100x10 EA", "75x8 EA", "100x75x8 EA", "75x75x8 UA", "75x75x8 4 EA", "PL75x75x8", "FL75x8", "XL75x75x8", "A-L75x75x8", "B1/L75x75x8",
		"ANGLE 45", "ANGLE 45°", "45° ANGLE", "WELD ANGLE 60° x 3", "ANGLE 0.5 x 45°", "6 x 45° ANGLE", "WINKEL 90", "ANGLE OF PL 75x75x8", "L 01/02/2024", "L12/11/24", "M20x60", "4 x Ø18",
		"75x75x8L", "U 75x75x8", "T75x75x8", "C 75x75x8", "L\n75x75x8", "L75°x75x8", "L 99999999x75x8", "L0x0x0", "L75x75x0", "LL75x75x8", "ANGULAR 5", "1.5 x 45 deg ANGLE",
	} {
		if list := Mentions(s); len(list) > 0 {
			t.Errorf("%q: %+v", s, list)
		}
	}
}
