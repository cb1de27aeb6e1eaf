package measure

import (
	"fmt"
	"strings"
	"testing"
)

// spelling is one text with what it says: "t=" thickness, "g=" gauge, "w=" and
// "l=" a plate's sides, "m=" material, "q=" pieces, "n=" holes, "d=" diameter,
// "s=" slot, "p=" process, "b=" bolt or thread, "c=" seat, "f=" fit, "tol=" half
// the tolerance. Numbers have their unit where the text names one. "" says
// nothing of these.
type spelling struct{ habit, text, want string }

// spell writes what the readers make of a text.
func spell(text string) string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	size := func(v LengthValue) string { return trimmed(v.MM, 4) + v.Unit }
	c, isCall := HoleCallOut(text)
	if p, ok := PlateNote(text); ok && !isCall {
		if p.Gauge > 0 {
			add("g=%d", p.Gauge)
		} else {
			add("t=%s", size(p.Thickness))
		}
		if p.Width.MM > 0 {
			add("w=%s", size(p.Width))
		}
		if p.Length.MM > 0 {
			add("l=%s", size(p.Length))
		}
	}
	if m, ok := MaterialNote(text); ok {
		add("m=%s", m)
	}
	if q, ok := Quantity(text); ok {
		add("q=%d", q)
	}
	if isCall {
		if c.Count > 0 {
			add("n=%d", c.Count)
		}
		if c.Diameter.MM > 0 {
			add("d=%s", size(c.Diameter))
		}
		if c.Slot[0].MM > 0 {
			add("s=%sx%s", size(c.Slot[0]), size(c.Slot[1]))
		}
		if c.Process != "" {
			add("p=%s", c.Process)
		}
		if c.Bolt != "" {
			add("b=%s", c.Bolt)
		}
		if c.Seat.MM > 0 {
			add("c=%s", size(c.Seat))
		}
		if c.Fit != "" {
			add("f=%s", c.Fit)
		}
		if c.Tolerance > 0 {
			add("tol=%s", trimmed(c.Tolerance, 4))
		}
	}
	return strings.Join(out, " ")
}

// TestSpellings: texts as drawings of several countries carry them (common
// practice, no source).
func TestSpellings(t *testing.T) {
	list := spellings()
	if len(list) < 300 {
		t.Errorf("only %d spellings", len(list))
	}
	seen := map[string]bool{}
	for _, s := range list {
		if seen[s.text] {
			t.Errorf("%q stands twice", s.text)
		}
		seen[s.text] = true
		if got := spell(s.text); got != s.want {
			t.Errorf("%s: %q gives %q, want %q", s.habit, s.text, got, s.want)
		}
	}
}

func spellings() []spelling {
	return []spelling{
		// Thickness.
		{"English", "t=10", "t=10"}, {"English", "t = 10 mm", "t=10mm"}, {"English", "T=10MM", "t=10mm"}, {"English", "t:10", "t=10"}, {"English", "THK 10", "t=10"}, {"English", "THK. 10", "t=10"}, {"English", "10 THK", "t=10"}, {"English", "10 THK.", "t=10"}, {"English", "10mm THK", "t=10mm"}, {"English", "10MM THK. PLATE", "t=10mm"}, {"English", "THK=10", "t=10"}, {"English", "THK: 10mm", "t=10mm"}, {"English", "THICKNESS 10", "t=10"}, {"English", "THICKNESS: 10 MM", "t=10mm"}, {"English", "PLATE THICKNESS = 12 mm", "t=12mm"}, {"English", "MATERIAL THICKNESS 6mm", "t=6mm"}, {"English", "10 THICK", "t=10"}, {"English", "10mm thick plate", "t=10mm"}, {"English", "PL 10", "t=10"}, {"English", "PL10mm", "t=10mm"}, {"English", "PLATE 10 mm", "t=10mm"}, {"English", "10mm PLATE", "t=10mm"}, {"English", "10mm PL", "t=10mm"}, {"English", "PLT 12", "t=12"}, {"English", "PL 12 x 200 x 300", "t=12 w=200 l=300"}, {"English", "PL 200x300x12", "t=12 w=200 l=300"}, {"English", "FLAT 100 x 10", "t=10 w=100"}, {"English", "FB 80x8", "t=8 w=80"}, {"English", "F.B. 80x8", "t=8 w=80"}, {"English", "FLT 50 x 6", "t=6 w=50"}, {"English", "FLAT BAR 100x12", "t=12 w=100"},
		{"English", "PLATE t=8 S275", "t=8 m=S275"}, {"English", "10 THK S355J2", "t=10 m=S355J2"}, {"English", "4 OFF 10 THK S275", "t=10 m=S275 q=4"}, {"English", "PL 10 - 4 OFF", "t=10 q=4"}, {"English", "ALL PLATES 10 THK U.N.O.", "t=10"}, {"English", "ALL PARTS 10mm THK", "t=10mm"}, {"English", "12 MM. THK", "t=12mm"}, {"English", "THK 6.0", "t=6"}, {"English", "t=6.35", "t=6.35"},
		{"inch", "1/2\" PLATE", "t=12.7in"}, {"inch", "PL 1/2", "t=12.7in"}, {"inch", "PL1/2", "t=12.7in"}, {"inch", "PL 3/8 x 6 x 12", "t=9.525in w=152.4in l=304.8in"}, {"inch", "PL 3/8\" x 6\" x 1'-0\"", "t=9.525in w=152.4in l=304.8ft"}, {"inch", "1/4\" THK", "t=6.35in"}, {"inch", "1/4 THK", "t=6.35in"}, {"inch", ".25 THK", "t=0.25"}, {"inch", "0.25\" THK", "t=6.35in"}, {"inch", "THK .375", "t=0.375"}, {"inch", "t = 3/8\"", "t=9.525in"}, {"inch", "3/8\" A36 PLATE", "t=9.525in m=A36"}, {"inch", "1/2\" A572-50 PL", "t=12.7in m=A572-50"}, {"inch", "5/16 PL", "t=7.9375in"}, {"inch", "BAR 3/8 x 4", "t=9.525in w=101.6in"}, {"inch", "FLAT BAR 1/4 x 2", "t=6.35in w=50.8in"}, {"inch", "FB 1/2 x 6", "t=12.7in w=152.4in"}, {"inch", "1\" THICK PLATE", "t=25.4in"}, {"inch", "½\" THK.", "t=12.7in"}, {"inch", "1-1/4\" PL", "t=31.75in"}, {"inch", "PL 1 1/4 x 8", "t=31.75in w=203.2in"}, {"inch", "MATL: 1/4\" A36", "t=6.35in m=A36"}, {"inch", "MAT'L 3/8 PL A36", "t=9.525in m=A36"}, {"inch", "THICKNESS: 0.250 in", "t=6.35in"},
		{"gauge", "10 GA", "g=10"}, {"gauge", "10GA", "g=10"}, {"gauge", "10 GA.", "g=10"}, {"gauge", "16 ga", "g=16"}, {"gauge", "16 GAUGE", "g=16"}, {"gauge", "GAUGE 12", "g=12"}, {"gauge", "12 gage CRS", "g=12"}, {"gauge", "#10 GA", "g=10"}, {"gauge", "14 GA GALV", "g=14"}, {"gauge", "GA: 14", "g=14"},
		{"German", "t=8 mm", "t=8mm"}, {"German", "Blech 8", "t=8"}, {"German", "Blech 8 mm", "t=8mm"}, {"German, may be sheet 8", "Bl. 8", ""}, {"German, may be sheet 8", "Bl.8", ""}, {"German", "Bl 8 mm", "t=8mm"}, {"German", "BL8x200x300", "t=8 w=200 l=300"}, {"German", "Dicke 8", "t=8"}, {"German", "Dicke: 8 mm", "t=8mm"}, {"German", "Blechdicke = 8", "t=8"}, {"German", "Materialstärke 5 mm", "t=5mm"}, {"German", "Stärke: 5", "t=5"}, {"German", "8 mm dick", "t=8mm"}, {"German", "8mm Blech", "t=8mm"}, {"German", "s=8", "t=8"}, {"German", "s = 8 mm", "t=8mm"}, {"German", "Blech t=10 S235JR", "t=10 m=S235JR"}, {"German", "Fl. 100x10", "t=10 w=100"}, {"German", "Flach 60x8", "t=8 w=60"}, {"German", "Flachstahl 50x5", "t=5 w=50"}, {"German", "FL 80x10", "t=10 w=80"}, {"German", "Platte 20 mm", "t=20mm"}, {"German", "alle Bleche t=6", "t=6"}, {"German", "Blechstärke 3mm", "t=3mm"}, {"German", "Wandstärke 5", ""},
		{"French", "ép. 10", "t=10"}, {"French", "ép 10", "t=10"}, {"French", "Ep. 10 mm", "t=10mm"}, {"French", "ep=10", "t=10"}, {"French", "ép.=8", "t=8"}, {"French", "épaisseur 8 mm", "t=8mm"}, {"French", "EPAISSEUR : 8", "t=8"}, {"French", "tôle 10", "t=10"}, {"French", "Tôle de 10 mm", "t=10mm"}, {"French", "tôle ép. 6", "t=6"}, {"French", "Tôle ep 6 S235", "t=6 m=S235"}, {"French", "plat 60x8", "t=8 w=60"}, {"French", "Plat 100 x 10", "t=10 w=100"}, {"French", "toutes les tôles ép. 8", "t=8"}, {"French", "épais. 5", "t=5"},
		{"Spanish", "espesor 8", "t=8"}, {"Spanish", "espesor: 8 mm", "t=8mm"}, {"Spanish", "esp. 10", "t=10"}, {"Spanish", "ESP=10 mm", "t=10mm"}, {"Spanish", "chapa 10", "t=10"}, {"Spanish", "chapa e=10", "t=10"}, {"Spanish", "chapa de 10 mm", "t=10mm"}, {"Spanish", "pletina 80x8", "t=8 w=80"}, {"Spanish", "placa 12 mm", "t=12mm"}, {"Spanish", "e=10", ""},
		{"Italian", "sp. 5", "t=5"}, {"Italian", "sp.5", "t=5"}, {"Italian", "sp=5", "t=5"}, {"Italian", "SP. 5 mm", "t=5mm"}, {"Italian", "spess. 5", "t=5"}, {"Italian", "spessore 5 mm", "t=5mm"}, {"Italian", "lamiera 5", "t=5"}, {"Italian", "lamiera sp. 5", "t=5"}, {"Italian", "Lamiera sp. 8 S275JR", "t=8 m=S275JR"}, {"Italian", "piatto 100x10", "t=10 w=100"}, {"Italian", "piastra sp.20", "t=20"}, {"Italian", "piastra 20 mm", "t=20mm"},
		{"Portuguese", "espessura 8", "t=8"}, {"Portuguese", "esp. 6 mm", "t=6mm"}, {"Portuguese", "chapa 6 mm", "t=6mm"}, {"Portuguese", "Chapa esp. 8", "t=8"}, {"Portuguese", "barra chata 50x6", "t=6 w=50"},
		{"Dutch", "dikte 8", "t=8"}, {"Dutch", "dikte = 8 mm", "t=8mm"}, {"Dutch", "plaat 10", "t=10"}, {"Dutch", "plaat t=10", "t=10"}, {"Dutch", "10 mm dik", "t=10mm"}, {"Dutch", "plaatdikte 6", "t=6"}, {"Dutch", "strip 80x8", "t=8 w=80"}, {"Dutch", "dik 10", "t=10"},
		{"Swedish", "tjocklek 8 mm", "t=8mm"}, {"Swedish", "plåt 6", "t=6"}, {"Danish", "tykkelse 6", "t=6"}, {"Danish", "plade 8 mm", "t=8mm"},
		{"Polish", "gr. 8", ""}, {"Polish", "gr. 8 mm", "t=8mm"}, {"Polish", "gr=8", "t=8"}, {"Polish", "grubość 8", "t=8"}, {"Polish", "blacha 10", "t=10"}, {"Polish", "bl. gr. 10 mm", "t=10mm"}, {"Polish", "blacha gr. 10", "t=10"}, {"Polish", "Bl. 10x200x300", "t=10 w=200 l=300"}, {"Polish", "blacha gruba 8 mm", "t=8mm"}, {"Polish", "płaskownik 60x8", "t=8 w=60"},
		{"Czech", "tl. 10", "t=10"}, {"Czech", "tl.10", "t=10"}, {"Czech", "tl. 10 mm", "t=10mm"}, {"Czech", "tloušťka 10", "t=10"}, {"Czech", "plech 5", "t=5"}, {"Czech", "plech tl. 5", "t=5"}, {"Czech", "P10x200x300", ""}, {"Slovak", "hr. 8 mm", "t=8mm"}, {"Slovak", "hrúbka 8", "t=8"}, {"Croatian", "debljina 8", "t=8"}, {"Croatian", "debljina = 8 mm", "t=8mm"}, {"Croatian", "lim 8 mm", "t=8mm"}, {"Slovene", "debelina 6 mm", "t=6mm"},
		{"Russian", "толщина 8", "t=8"}, {"Russian", "толщ. 8 мм", "t=8mm"}, {"Russian", "лист 8 мм", "t=8mm"}, {"Russian", "Лист 10x200x300", "t=10 w=200 l=300"}, {"Russian", "s=8 мм", "t=8mm"}, {"Russian", "полоса 60х8", "t=8 w=60"}, {"Hungarian", "vastagság 8", "t=8"}, {"Hungarian", "lemez 8 mm", "t=8mm"}, {"Finnish", "paksuus 8 mm", "t=8mm"},
		// What is none.
		{"none", "SCALE 1:10", ""}, {"none", "SHEET 1 OF 2", ""}, {"none", "REV 3", ""}, {"none", "DETAIL A", ""}, {"none", "e=40", ""}, {"none", "a5", ""}, {"none", "GASKET t=3", ""}, {"none", "WELD 6 mm FILLET", ""}, {"none", "t=10/12", ""}, {"none", "DATE 10/12/2024", ""}, {"none", "DRG NO 1234-10", ""}, {"none", "10", ""}, {"none", "200 x 300", ""}, {"none", "PAINT 80 µm THK", ""}, {"none", "FL +3.200", ""}, {"none", "TOLERANCE ±0.5", ""}, {"none", "ISO 2768-m", ""}, {"none", "GRADE 8.8", ""},
		// Material.
		{"English", "MATERIAL: S275JR", "m=S275JR"}, {"English", "MATL S355", "m=S355"}, {"English", "MATL: A36", "m=A36"}, {"English", "MAT. S275", "m=S275"}, {"English", "GRADE S355J0", "m=S355J0"}, {"English", "STEEL GRADE: S275", "m=S275"}, {"English", "STEEL S355JR", "m=S355JR"}, {"English", "MILD STEEL", "m=MILD STEEL"}, {"English", "M.S. PLATE 10 THK", "t=10"}, {"English", "ASTM A36", "m=A36"}, {"English", "ASTM A572 GR.50", "m=A572 GR.50"}, {"English", "A572 GR 50", "m=A572 GR 50"}, {"English", "AISI 304", "m=AISI 304"}, {"English", "SS 316L", "m=SS 316L"}, {"English", "304 STAINLESS", "m=304 STAINLESS"}, {"English", "STAINLESS STEEL 304", "m=STAINLESS STEEL 304"}, {"English", "S275 TO EN 10025-2", "m=S275"}, {"English", "EN 10025 S355J2+N", "m=S355J2+N"}, {"English", "BS EN 10025-2: S275JR", "m=S275JR"},
		{"German", "Werkstoff: S235JR", "m=S235JR"}, {"German", "Werkstoff S355J2+N", "m=S355J2+N"}, {"German", "Mat.: S235", "m=S235"}, {"German", "Material: 1.4301", "m=1.4301"}, {"German", "S235JR (1.0038)", "m=S235JR"}, {"German", "St37-2", "m=St37-2"}, {"German", "St 52-3", "m=St 52-3"}, {"German", "Stahl S355", "m=S355"}, {"German", "WST S235JR", "m=S235JR"}, {"German", "Baustahl", "m=Baustahl"}, {"German", "Edelstahl 1.4404", "m=1.4404"},
		{"French", "matière : S235JR", "m=S235JR"}, {"French", "Matière: acier S355", "m=S355"}, {"French", "acier S275", "m=S275"}, {"French", "nuance S355J2", "m=S355J2"}, {"Spanish", "acero S275JR", "m=S275JR"}, {"Spanish", "Material: S355J2", "m=S355J2"}, {"Spanish", "material acero S275", "m=S275"}, {"Italian", "acciaio S275JR", "m=S275JR"}, {"Italian", "Materiale: S355J0", "m=S355J0"}, {"Italian", "Fe360B", "m=Fe360B"}, {"Portuguese", "aço S275", "m=S275"}, {"Dutch", "staal S235", "m=S235"}, {"Dutch", "Materiaal: S235JR", "m=S235JR"}, {"Polish", "stal S235JR", "m=S235JR"}, {"Polish", "Materiał: S355J2", "m=S355J2"}, {"Czech", "ocel S235", "m=S235"}, {"Czech", "Materiál: S355J2", "m=S355J2"}, {"Russian", "сталь S235", "m=S235"}, {"Russian", "Ст3", "m=Ст3"}, {"Russian", "Сталь 09Г2С", "m=09Г2С"}, {"Chinese", "Q355B", "m=Q355B"}, {"Japanese", "SS400", "m=SS400"},
		// Hard metal.
		{"hard", "400 HB", "m=400 HB"}, {"hard", "450HB", "m=450HB"}, {"hard", "HB450", "m=HB450"}, {"hard", "HBW 450", "m=HBW 450"}, {"hard", "450 HBW", "m=450 HBW"}, {"hard", "500 HV", "m=500 HV"}, {"hard", "55 HRC", "m=55 HRC"}, {"hard", "HRC 55-60", "m=HRC 55-60"}, {"hard", "HARDNESS 400 BRINELL", "m=400 BRINELL"}, {"hard", "AR400", "m=AR400"}, {"hard", "AR 500", "m=AR 500"}, {"hard", "WEAR PLATE", "m=WEAR PLATE"}, {"hard", "WEAR RESISTANT STEEL", "m=WEAR RESISTANT"}, {"hard", "ABRASION RESISTANT PLATE", "m=ABRASION RESISTANT"}, {"hard", "ABRASION-RESISTANT", "m=ABRASION-RESISTANT"}, {"hard, German", "Verschleißblech", "m=Verschleißblech"}, {"hard, German", "verschleißfester Stahl", "m=verschleißfester"}, {"hard, German", "Verschleissblech 8 mm", "t=8mm m=Verschleissblech"}, {"hard, French", "tôle anti-abrasion", "m=anti-abrasion"}, {"hard, French", "acier anti-usure", "m=anti-usure"}, {"hard, Spanish", "chapa antidesgaste", "m=antidesgaste"}, {"hard, Italian", "lamiera antiusura", "m=antiusura"}, {"hard, Dutch", "slijtvaste plaat", "m=slijtvaste"}, {"hard, Polish", "blacha trudnościeralna", "m=trudnościeralna"}, {"hard, Czech", "otěruvzdorný plech", "m=otěruvzdorný"}, {"hard", "S275 HARDENED", "m=S275 HARDENED"}, {"hard", "S275 450 HB", "m=S275 450 HB"}, {"hard", "S355 WEAR PLATE", "m=S355 WEAR PLATE"}, {"hard", "SPRING STEEL", "m=SPRING STEEL"}, {"a make beside a grade", "MATERIAL: S275 ABCDEF 450", "m=S275 ABCDEF 450"}, {"a make beside a grade", "MATERIAL S355 / ABCDEF450", "m=S355 / ABCDEF450"}, {"a grade and its length", "MATERIAL: S275 LENGTH 400", "m=S275"}, {"hard, German", "vergütet", "m=vergütet"},
		// Pieces.
		{"English", "QTY 4", "q=4"}, {"English", "QTY: 4 OFF", "q=4"}, {"English", "4 OFF", "q=4"}, {"English", "4 No.", "q=4"}, {"English", "4 NOS", "q=4"}, {"English", "No. REQ'D 4", "q=4"}, {"English", "4 REQ'D", "q=4"}, {"English", "REQD: 4", "q=4"}, {"English", "MAKE 4", "q=4"}, {"English", "4 PCS", "q=4"}, {"English", "4pcs", "q=4"}, {"English", "PCS: 4", "q=4"}, {"English", "4 EA", "q=4"}, {"English", "QUANTITY = 4", "q=4"}, {"German", "4 Stück", "q=4"}, {"German", "4 Stk.", "q=4"}, {"German", "4 St.", "q=4"}, {"German", "Stückzahl: 4", "q=4"}, {"German", "Anzahl = 4", "q=4"}, {"German", "Menge 4", "q=4"}, {"French", "Qté: 4", "q=4"}, {"French", "4 pièces", "q=4"}, {"French", "Nb : 4", "q=4"}, {"French", "quantité 4", "q=4"}, {"Spanish", "Cant.: 4", "q=4"}, {"Spanish", "4 uds.", "q=4"}, {"Spanish", "4 piezas", "q=4"}, {"Italian, may be any number", "n° 4", ""}, {"Italian", "N. 4 pezzi", "q=4"}, {"Italian", "4 pz", "q=4"}, {"Italian", "Q.tà 4", "q=4"}, {"Italian", "quantità: 4", "q=4"}, {"Portuguese", "Qtd. 4", "q=4"}, {"Portuguese", "4 peças", "q=4"}, {"Dutch", "4 stuks", "q=4"}, {"Dutch", "Aantal 4", "q=4"}, {"Polish", "4 szt.", "q=4"}, {"Polish", "szt. 4", "q=4"}, {"Czech", "4 ks", "q=4"}, {"Czech", "ks: 4", "q=4"}, {"Croatian", "4 kom", "q=4"}, {"Croatian", "kom. 4", "q=4"}, {"Russian", "4 шт", "q=4"}, {"Russian", "4 шт.", "q=4"}, {"Russian", "Кол. 4", "q=4"}, {"Russian", "Кол-во: 4", "q=4"}, {"Swedish", "4 st", "q=4"}, {"Swedish", "Antal: 4", "q=4"}, {"none", "4 OFF M20 BOLTS", ""}, {"none", "NOTE 4", ""}, {"none", "POS 4", ""}, {"none", "ITEM No. 4", ""}, {"none", "DRG No. 4", ""}, {"none", "PART NO 4", ""},
		// Holes.
		{"English", "4 HOLES Ø22", "n=4 d=22"}, {"English", "4 No. Ø22 HOLES", "n=4 d=22"}, {"English", "4x Ø22 THRU", "n=4 d=22"}, {"English", "4-Ø22", "n=4 d=22"}, {"English", "Ø22 (4 PLACES)", "n=4 d=22"}, {"English", "Ø22 HOLES, 4 OFF", "n=4 d=22"}, {"English", "22 DIA. HOLES (4)", "n=4 d=22"}, {"English", "22Ø", "d=22"}, {"English", "DIA. 22", "d=22"}, {"English, may be a mark", "D22", ""}, {"English", "4 x D22", "n=4 d=22"}, {"English", "22mm DIA HOLE", "d=22mm"}, {"English", "HOLE 22mm", "d=22mm"}, {"English", "Ø22 TYP", "d=22"}, {"English", "Ø22 HOLES FOR M20 BOLTS", "d=22 b=M20"}, {"English", "Ø22 DRILL THRU", "d=22 p=drill"}, {"English", "DRILL Ø22", "d=22 p=drill"}, {"English", "REAM Ø22 H7", "d=22 p=ream f=H7"}, {"English", "TAP M12", "p=tap b=M12"}, {"English", "4x M12 TAPPED", "n=4 p=tap b=M12"}, {"English", "Ø14 CSK Ø28", "d=14 p=countersink c=28"}, {"English", "Ø14 C'BORE Ø26", "d=14 p=counterbore c=26"}, {"English", "22x50 SLOT", "s=22x50"}, {"English", "2 No. SLOTTED HOLES 22x50", "n=2 s=22x50"}, {"English", "SLOT 22 WIDE x 50 LONG", "s=22x50"}, {"English", "Ø22 +0.5/-0", "d=22 tol=0.25"},
		{"inch", "13/16Ø", "d=20.6375in"}, {"inch", "13/16\" DIA (4)", "n=4 d=20.6375in"}, {"inch", "4-13/16\" HOLES", "n=4 d=20.6375in"}, {"inch", "(4) 13/16Ø HOLES", "n=4 d=20.6375in"}, {"inch", "13/16 DIA. HOLES TYP.", "d=20.6375in"}, {"inch", ".8125 DIA 4 PLCS", "n=4 d=0.8125"}, {"inch", "4X Ø.531 THRU", "n=4 d=0.531"}, {"inch", "15/16 HOLE", "d=23.8125in"}, {"inch", "HOLES 15/16 DIA U.N.", "d=23.8125in"}, {"inch", "13/16 x 1-7/8 SLOT", "s=20.6375inx47.625in"}, {"inch", "1/2-13 UNC-2B", "p=tap b=1/2"}, {"inch", "3/8-16 TAP THRU", "p=tap b=3/8"},
		{"German", "4 Bohrungen Ø22", "n=4 d=22"}, {"German", "4 Löcher Ø22", "n=4 d=22"}, {"German", "4 Bohr. Ø22", "n=4 d=22"}, {"German", "Ø22 (4x)", "n=4 d=22"}, {"German", "4x ø 22", "n=4 d=22"}, {"German", "Ø22 durchgehend", "d=22"}, {"German", "4 x Gewinde M12", "n=4 p=tap b=M12"}, {"German", "Langloch 22x50", "s=22x50"}, {"German", "2 Langlöcher 22x50", "n=2 s=22x50"}, {"German", "LL 22x50", "s=22x50"}, {"German", "Senkung Ø28", "p=countersink c=28"}, {"German", "Ø22 gebohrt", "d=22 p=drill"}, {"German", "Ø20 H7 gerieben", "d=20 p=ream f=H7"},
		{"French", "4 trous Ø22", "n=4 d=22"}, {"French", "4 tr. Ø22", "d=22"}, {"French", "4 perçages Ø22", "n=4 d=22"}, {"French", "trou oblong 22x50", "s=22x50"}, {"French", "4 taraudages M12", "n=4 p=tap b=M12"}, {"French", "Ø14 fraisure Ø28", "d=14 p=countersink c=28"}, {"Spanish", "4 taladros Ø22", "n=4 d=22"}, {"Spanish", "4 agujeros Ø22", "n=4 d=22"}, {"Spanish", "4 agujeros de Ø22", "n=4 d=22"}, {"Spanish", "4 roscas M12", "n=4 p=tap b=M12"}, {"Spanish", "coliso 22x50", "s=22x50"}, {"Italian", "4 fori Ø22", "n=4 d=22"}, {"Italian", "n°4 fori Ø22", "n=4 d=22"}, {"Italian", "4 fori filettati M12", "n=4 p=tap b=M12"}, {"Italian", "asola 22x50", "s=22x50"}, {"Portuguese", "4 furos Ø22", "n=4 d=22"}, {"Portuguese", "rasgo 22x50", "s=22x50"}, {"Dutch", "4 gaten Ø22", "n=4 d=22"}, {"Dutch", "4x rond 22", ""}, {"Dutch", "slobgat 22x50", "s=22x50"}, {"Dutch", "4x tapgat M12", "n=4 p=tap b=M12"},
		{"Polish", "4 otwory Ø22", "n=4 d=22"}, {"Polish", "4 otw. Ø22", "n=4 d=22"}, {"Polish", "otwór fasolowy 22x50", "s=22x50"}, {"Polish", "4x gwint M12", "n=4 p=tap b=M12"}, {"Czech", "4 díry Ø22", "n=4 d=22"}, {"Czech", "4 otvory Ø22", "n=4 d=22"}, {"Czech", "4x závit M12", "n=4 p=tap b=M12"}, {"Russian", "4 отв. Ø22", "n=4 d=22"}, {"Russian", "4 отверстия Ø22", "n=4 d=22"}, {"Russian", "4 отв. М12", "n=4 b=M12"}, {"Swedish", "4 hål Ø22", "n=4 d=22"}, {"Croatian", "4 rupe Ø22", "n=4 d=22"}, {"Hungarian", "4 furat Ø22", "n=4 d=22"},
	}
}
