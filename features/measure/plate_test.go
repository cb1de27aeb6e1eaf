package measure

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

func TestPlateNote(t *testing.T) {
	for text, want := range map[string]Plate{
		"PL 3/8 x 6":              {Thickness: in(.375), Width: in(6)},
		"PL 3/8\" x 6\"":          {Thickness: in(.375), Width: in(6)},
		"PL 3/8 x 6 x 1'-2\"":     {Thickness: in(.375), Width: in(6), Length: LengthValue{MM: 355.6, Unit: "ft"}},
		"2-PL 3/8\" x 6 x 14\"":   {Thickness: in(.375), Width: in(6), Length: in(14)},
		"PL 10x200x300":           {Thickness: bare(10), Width: bare(200), Length: bare(300)},
		"PL 200x300x10":           {Thickness: bare(10), Width: bare(200), Length: bare(300)},
		"PL10x200":                {Thickness: bare(10), Width: bare(200)},
		"PL 10":                   {Thickness: bare(10)},
		"PL10mm":                  {Thickness: mm(10)},
		"4 PL 10 S275":            {Thickness: bare(10)},
		"FL 100x10":               {Thickness: bare(10), Width: bare(100)},
		"FLAT BAR 100 x 10 mm":    {Thickness: mm(10), Width: mm(100)},
		"FB 100 x 10":             {Thickness: bare(10), Width: bare(100)},
		"t=10":                    {Thickness: bare(10)},
		"T = 10 S275":             {Thickness: bare(10)},
		"t = 1/4\"":               {Thickness: in(.25)},
		"s = 6 mm":                {Thickness: mm(6)},
		"THK 10 mm":               {Thickness: mm(10)},
		"THK. 10":                 {Thickness: bare(10)},
		"THICKNESS: 0.375":        {Thickness: bare(.375)},
		"10 THK":                  {Thickness: bare(10)},
		"10mm THICK":              {Thickness: mm(10)},
		"1/2\" PLATE":             {Thickness: in(.5)},
		"½\" PLATE":               {Thickness: in(.5)},
		"1/4\" THK PLATE":         {Thickness: in(.25)},
		"PLATE 10 mm THK":         {Thickness: mm(10)},
		"PLATE THK 12":            {Thickness: bare(12)},
		"10 GA":                   {Gauge: 10},
		"11 gauge sheet":          {Gauge: 11},
		"GA. 12":                  {Gauge: 12},
		"Blech 8":                 {Thickness: bare(8)},
		"Blech t=8":               {Thickness: bare(8)},
		"Blechdicke 8 mm":         {Thickness: mm(8)},
		"12,5 mm Blech":           {Thickness: mm(12.5)},
		"10 mm dick":              {Thickness: mm(10)},
		"ep. 10":                  {Thickness: bare(10)},
		"Tôle ép. 6":              {Thickness: bare(6)},
		"épaisseur = 8":           {Thickness: bare(8)},
		"sp. 5":                   {Thickness: bare(5)},
		"spessore 5 mm":           {Thickness: mm(5)},
		"espesor 8":               {Thickness: bare(8)},
		"dikte 8":                 {Thickness: bare(8)},
		"tjocklek 8 mm":           {Thickness: mm(8)},
		"tl. 10":                  {Thickness: bare(10)},
		"толщина 8":               {Thickness: bare(8)},
		"PL 10 x 200, t = 10":     {Thickness: bare(10), Width: bare(200)},
		"MATERIAL S275 10 mm THK": {Thickness: mm(10)},
		"NOT TO SCALE, t=10":      {Thickness: bare(10)},
	} {
		got, ok := PlateNote(text)
		same := func(a, b LengthValue) bool { return math.Abs(a.MM-b.MM) < 1e-9 && a.Unit == b.Unit }
		if !ok || got.Gauge != want.Gauge || !same(got.Thickness, want.Thickness) || !same(got.Width, want.Width) || !same(got.Length, want.Length) {
			t.Errorf("PlateNote(%q) = %+v, %v\nwant %+v", text, got, ok, want)
		}
	}
}

// A wrong thickness is worse than none: marks, spacings, edge distances, sheet
// numbers, levels, grades, welds and coatings are not thicknesses.
func TestNoPlateNote(t *testing.T) {
	for _, text := range []string{
		"", "10", "PL10", "EP3", "SP5", "PLATE 3", "10 PLATES", "SHEET 1", "SHEET 1 OF 2", "Лист 2", "FL 100", "FL +3.200", "BL 2", "e=40", "s=70", "a=5", "A572 GR 50",
		"WELD THROAT t=5", "GASKET t=3 BY OTHERS", "SHIM PLATE 2 mm BELOW", "WELD TO PL 12 S355", "BOLT TO PL 12", "SEE PL 10 x 200", "EXISTING PL 12", "DICHTUNG t=3 BAUSEITS", "GROUT 25 THK", "t=3 guarnizione", "t = 5 soudure",
		"t10", "part 10", "THROAT THICKNESS 5", "COATING THICKNESS 85 µm", "THK 85 um", "EQ SP 75", "t = 10 and t = 12", "THK 10-12", "THK.5", "t=10/12", "t = 1,500", "PL 500", "45° THK", "10 x 200", "M12", "Ø22", "t=", "THK",
	} {
		if got, ok := PlateNote(text); ok {
			t.Errorf("PlateNote(%q) = %+v, want none", text, got)
		}
	}
}

func TestQuantity(t *testing.T) {
	for text, want := range map[string]int{
		"QTY 4": 4, "QTY. 4": 4, "QTY.4": 4, "QTY-4": 4, "QTY - 4": 4, "QTY: 4": 4, "QTY=4": 4, "Quantity 12": 12, "4 REQ'D": 4, "4 REQD.": 4, "REQ'D: 8": 8, "4 REQUIRED": 4, "4 OFF": 4, "4-OFF": 4, "NO. OFF: 6": 6, "No off 6": 6, "MAKE 4": 4, "4 THUS": 4,
		"4 PCS": 4, "4 EA": 4, "QTY: 4 PCS": 4, "Stk. 4": 4, "4 Stk": 4, "4 Stück": 4, "STÜCKZAHL = 12": 12, "Menge: 4": 4, "Anzahl 3": 3, "Qté : 3": 3, "Cant. 5": 5, "N. pezzi 6": 6, "Aantal: 2": 2, "Antal 2": 2, "5 szt.": 5, "Кол-во 5": 5, "5 шт": 5,
		"S235 PCS 3": 3, "PL10 QTY 4": 4, "QTY4 PCS": 4,
		"PL 10 x 200 QTY 4": 4, "QTY 4 / 4 REQ'D": 4,
	} {
		if n, ok := Quantity(text); !ok || n != want {
			t.Errorf("Quantity(%q) = %d, %v; want %d", text, n, ok, want)
		}
	}
	for _, text := range []string{"", "4", "REV 4", "4 HOLES REQ'D", "4 OFF M16 BOLTS", "4 NUTS", "2 WASHERS REQ'D", "QTY 4 NUTS", "S235 PCS", "4 Muttern, 4 Stk", "Ø22 4 OFF", "2 REQ'D AS SHOWN, 2 OPP", "QTY 4, QTY 6", "QTY 2.5", "QTY 0", "QTY -4", "QTY 4 mm", "QTY 1,000", "QTY", "OFF", "QTY 200000", "SHEET 1 OF 2"} {
		if n, ok := Quantity(text); ok {
			t.Errorf("Quantity(%q) = %d, want none", text, n)
		}
	}
}

func TestMaterialNote(t *testing.T) {
	for text, want := range map[string]string{
		"S355J2": "S355J2", "S355J2+N": "S355J2+N", "S355 J2 + N": "S355 J2 + N", "PL 10 S275JR": "S275JR", "S235": "S235", "STEEL: S275": "S275", "EN 10025-2 S355J0": "S355J0", "(S275)": "S275", "S275, t=10": "S275",
		"A36": "A36", "ASTM A36": "A36", "A572-50": "A572-50", "A572 GR 50": "A572 GR 50", "ASTM A572 GR. 50": "A572 GR. 50", "A572 GRADE 50": "A572 GRADE 50", "A572 Gr50": "A572 Gr50",
		"AISI 304": "AISI 304", "SS304": "SS304", "304 SS": "304 SS", "304L": "304L", "STAINLESS STEEL 304": "STAINLESS STEEL 304", "MATERIAL: 304": "304", "1.4301": "1.4301", "1.0038": "1.0038",
		"Werkstoff: St 37-2": "St 37-2", "St52-3": "St52-3", "Q235B": "Q235B", "SS400": "SS400", "6061-T6": "6061-T6", "EN AW-5754 H111": "AW-5754 H111", "AL 5052": "AL 5052", "AR400": "AR400",
		"HARDENED TO 55 HRC": "HARDENED", "55 HRC": "55 HRC", "450 HB": "450 HB", "WEAR PLATE": "WEAR PLATE", "AR 500": "AR 500", "Q&T": "Q&T", "SPRING STEEL": "SPRING STEEL", "CAST IRON": "CAST IRON", "S275 HARDENED": "S275 HARDENED", "AR400 WEAR PLATE": "AR400",
		"MATERIAL Own 40": "Own 40", "WERKSTOFF Eigen7": "Eigen7", "GRADE XY 50": "XY 50", "S690QL QUENCHED": "S690QL",
		"MATERIAL: MILD STEEL": "MILD STEEL", "mild steel plate": "mild steel", "Mat'l: Own Grade 7": "Own Grade 7", "Matière: S235": "S235", "S275 THK 10 S275": "S275", "STAINLESS STEEL": "STAINLESS STEEL",
	} {
		if g, ok := MaterialNote(text); !ok || g != want {
			t.Errorf("MaterialNote(%q) = %q, %v; want %q", text, g, ok, want)
		}
	}
	for _, text := range []string{"", "304", "1.4375", "S275 / S355", "NOT S275", "WELD TO PL 12 S355", "GASKET S275 BY OTHERS", "HARDENED WASHERS", "GRADE 8.8 BOLTS", "MATERIAL THICKNESS 10", "MATERIAL LIST 2", "AR 2", "S275 OR S355", "A325 BOLTS", "A4", "SECTION A36-A36 NORTH", "M20", "S1", "S123", "MATERIAL: SEE BOM", "MATERIAL:", "MATERIAL: -", "SCALE 1:5", "STEEL", "10 mm"} {
		if g, ok := MaterialNote(text); ok {
			t.Errorf("MaterialNote(%q) = %q, want none", text, g)
		}
	}
}

// testdata/sheet_gauge.csv: Manufacturers' Standard Gauge, as printed in
// Machinery's Handbook; the table prints hundredths of a millimetre. Weight over
// 41.82 lb/ft2 an inch gives the thickness again (check of the table itself).
func TestSheetGauge(t *testing.T) {
	f, err := os.Open("testdata/sheet_gauge.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 29 {
		t.Fatalf("%d rows, want 28 and a head", len(rows))
	}
	for _, row := range rows[1:] {
		n, _ := strconv.Atoi(row[0])
		inches, _ := strconv.ParseFloat(row[1], 64)
		metric, _ := strconv.ParseFloat(row[2], 64)
		weight, _ := strconv.ParseFloat(row[3], 64)
		got, ok := SheetGauge(n)
		if !ok || math.Abs(got-inches*25.4) > 1e-9 || math.Abs(got-metric) > 0.01 || math.Abs(got/25.4-weight/41.82) > 0.00006 {
			t.Errorf("gauge %d is %v, %v; the table has %v in, %v mm, %v lb/ft2", n, got, ok, inches, metric, weight)
		}
	}
	for _, n := range []int{-1, 0, 2, 31} {
		if _, ok := SheetGauge(n); ok {
			t.Errorf("gauge %d is known", n)
		}
	}
}
