package measure

import (
	"math"
	"slices"
	"testing"
)

func mm(v float64) LengthValue   { return LengthValue{MM: v, Unit: "mm"} }
func bare(v float64) LengthValue { return LengthValue{MM: v} }
func in(v float64) LengthValue   { return LengthValue{MM: v * 25.4, Unit: "in", Fraction: true} }

// The ways of writing are those seen on public drawings and in drafting
// practice (common practice, no source); 13/16 in is 20.6375 mm.
func TestHoleCallOut(t *testing.T) {
	for text, want := range map[string]HoleCall{
		"4 HOLES 13/16 DIA":          {Count: 4, Diameter: in(13. / 16)},
		"13/16 DIA. 4 HOLES":         {Count: 4, Diameter: in(13. / 16)},
		"6x Ø22":                     {Count: 6, Diameter: bare(22)},
		"6 x Ø22":                    {Count: 6, Diameter: bare(22)},
		"6XØ22 mm":                   {Count: 6, Diameter: mm(22)},
		"6 × ⌀22":                    {Count: 6, Diameter: bare(22)},
		"Ø22 (4)":                    {Count: 4, Diameter: bare(22)},
		"Ø22 (4x)":                   {Count: 4, Diameter: bare(22)},
		"Ø22 4X":                     {Count: 4, Diameter: bare(22)},
		"4 Ø22":                      {Count: 4, Diameter: bare(22)},
		"(6) 13/16\" HOLES":          {Count: 6, Diameter: in(13. / 16)},
		"4-Ø14 DRILL":                {Count: 4, Diameter: bare(14), Process: "drill"},
		"4-13/16Ø HOLES":             {Count: 4, Diameter: in(13. / 16), Alt: in(4 + 13./16)},
		"4 13/16 DIA HOLES":          {Count: 4, Diameter: in(13. / 16), Alt: in(4 + 13./16)},
		"4-13/16 DIA HOLE":           {Diameter: in(4 + 13./16)},
		"2 HOLES 1-1/16 DIA":         {Count: 2, Diameter: in(1 + 1./16)},
		"1-1/16 DIA HOLES":           {Diameter: in(1 + 1./16)},
		"Ø22":                        {Diameter: bare(22)},
		"Ø 22,5":                     {Diameter: bare(22.5)},
		"Ø.875":                      {Diameter: bare(.875)},
		"13/16Ø TYP":                 {Diameter: in(13. / 16)},
		"DIA 22":                     {Diameter: bare(22)},
		"22 DIA":                     {Diameter: bare(22)},
		"22 DRILL":                   {Diameter: bare(22), Process: "drill"},
		"DRILL 22 THRU 4 PLACES":     {Count: 4, Diameter: bare(22), Process: "drill"},
		"4x 22 DRILL":                {Count: 4, Diameter: bare(22), Process: "drill"},
		"Ø22\n4 PLCS":                {Count: 4, Diameter: bare(22)},
		"Ø22 TYP 4":                  {Count: 4, Diameter: bare(22)},
		"Ø22 4 OFF":                  {Count: 4, Diameter: bare(22)},
		"4 PUNCHED HOLES Ø22":        {Count: 4, Diameter: bare(22), Process: "punch"},
		"Ø22 x 4":                    {Diameter: bare(22)}, // a depth or a number: not settled
		"4x Ø22 H7 THRU":             {Count: 4, Diameter: bare(22), Fit: "H7", Process: "ream"},
		"Ø22 H11":                    {Diameter: bare(22), Fit: "H11"},
		"Ø22 H9":                     {Diameter: bare(22), Fit: "H9", Process: "ream"},
		"2x Ø14 CSK 90 DEG Ø26":      {Count: 2, Diameter: bare(14), Process: "countersink", Seat: bare(26)},
		"Ø14 CSK 90° x Ø26":          {Diameter: bare(14), Process: "countersink", Seat: bare(26)},
		"2 HOLES Ø14, C/SUNK Ø26":    {Count: 2, Diameter: bare(14), Process: "countersink", Seat: bare(26)},
		"Ø14 C-SINK Ø26":             {Diameter: bare(14), Process: "countersink", Seat: bare(26)},
		"Ø14 C/BORE Ø26":             {Diameter: bare(14), Process: "counterbore", Seat: bare(26)},
		"Ø14 COUNTER BORE Ø26 x 5":   {Diameter: bare(14), Process: "counterbore", Seat: bare(26)},
		"2x Ø14 CSK":                 {Count: 2, Diameter: bare(14), Process: "countersink"},
		"2 - 11/16\" HOLES":          {Count: 2, Diameter: in(11. / 16)},
		"Ø20 H7 REAM":                {Diameter: bare(20), Fit: "H7", Process: "ream"},
		"Ø22 ±0.1":                   {Diameter: bare(22), Tolerance: 0.1},
		"Ø22 +/-0.1":                 {Diameter: bare(22), Tolerance: 0.1},
		"Ø22 +0.2/-0":                {Diameter: bare(22), Tolerance: 0.1},
		"Ø22 +0.3 -0.1":              {Diameter: bare(22), Tolerance: 0.2},
		"M12 TAP":                    {Bolt: "M12", Process: "tap"},
		"TAP M12":                    {Bolt: "M12", Process: "tap"},
		"4xM12":                      {Count: 4, Bolt: "M12"},
		"4 отв. М12":                 {Count: 4, Bolt: "M12"},
		"4 M12 TAP":                  {Count: 4, Bolt: "M12", Process: "tap"},
		"4 x M12x1.75":               {Count: 4, Bolt: "M12", Process: "tap"},
		"4-M12 TAPPED HOLES":         {Count: 4, Bolt: "M12", Process: "tap"},
		"Ø10.2 M12":                  {Diameter: bare(10.2), Bolt: "M12"},
		"DRILL 10.2 TAP M12":         {Diameter: bare(10.2), Bolt: "M12", Process: "tap"},
		"1/2-13 UNC - 4 PLCS":        {Count: 4, Bolt: "1/2", Process: "tap"},
		"HOLES FOR M20 BOLTS":        {Bolt: "M20"},
		"Ø22 FOR M20":                {Diameter: bare(22), Bolt: "M20"},
		"4 HOLES Ø22 FOR M20 BOLTS":  {Count: 4, Diameter: bare(22), Bolt: "M20"},
		"13/16 HOLES FOR 3/4 BOLTS":  {Diameter: in(13. / 16), Bolt: "3/4"},
		"HOLES FOR 3/4\" DIA BOLTS":  {Bolt: "3/4"},
		"SLOT 22x50":                 {Slot: [2]LengthValue{bare(22), bare(50)}},
		"SLOT 50 x 22":               {Slot: [2]LengthValue{bare(22), bare(50)}},
		"2 SLOTS 22 x 50":            {Count: 2, Slot: [2]LengthValue{bare(22), bare(50)}},
		"2 x SLOT 22 x 50":           {Count: 2, Slot: [2]LengthValue{bare(22), bare(50)}},
		"2 x 22 x 50 SLOT":           {Count: 2, Slot: [2]LengthValue{bare(22), bare(50)}},
		"SLOT 22x50 mm":              {Slot: [2]LengthValue{mm(22), mm(50)}},
		"LSL 13/16 x 1-7/8":          {Slot: [2]LengthValue{in(13. / 16), in(1 + 7./8)}},
		"4 Langlöcher 22x50":         {Count: 4, Slot: [2]LengthValue{bare(22), bare(50)}},
		"4 trous oblongs 22x50":      {Count: 4, Slot: [2]LengthValue{bare(22), bare(50)}},
		"Ø14 CSK Ø28":                {Diameter: bare(14), Process: "countersink", Seat: bare(28)},
		"Ø14 THRU, CSK 28 x 90°":     {Diameter: bare(14), Process: "countersink", Seat: bare(28)},
		"4x Ø14 ⌵ Ø28 X 90°":         {Count: 4, Diameter: bare(14), Process: "countersink", Seat: bare(28)},
		"Ø14 C'BORE Ø26 x 10 DEEP":   {Diameter: bare(14), Process: "counterbore", Seat: bare(26)},
		"C'BORE Ø26 x 10 DEEP":       {Process: "counterbore", Seat: bare(26)},
		"4 HOLES Ø14 ON 120 P.C.D.":  {Count: 4, Diameter: bare(14)},
		"4 HOLES Ø14 ON Ø120 PCD":    {Count: 4, Diameter: bare(14)},
		"6 HOLES Ø14 @ 75 CTRS":      {Count: 6, Diameter: bare(14)},
		"4 Bohrungen Ø22":            {Count: 4, Diameter: bare(22)},
		"Ø14 gebohrt":                {Diameter: bare(14), Process: "drill"},
		"Gewinde M12":                {Bolt: "M12", Process: "tap"},
		"Ø14 Senkung Ø28":            {Diameter: bare(14), Process: "countersink", Seat: bare(28)},
		"4 trous Ø22":                {Count: 4, Diameter: bare(22)},
		"4 agujeros Ø22":             {Count: 4, Diameter: bare(22)},
		"n. 4 fori Ø22":              {Count: 4, Diameter: bare(22)},
		"4 gaten Ø22":                {Count: 4, Diameter: bare(22)},
		"4 hål Ø22":                  {Count: 4, Diameter: bare(22)},
		"4 otwory Ø22":               {Count: 4, Diameter: bare(22)},
		"8 отв. Ф22":                 {Count: 8, Diameter: bare(22)},
		"HOLES Ø22 U.N.O.":           {Diameter: bare(22)},
		"ALL HOLES 13/16\" DIA TYP.": {Diameter: in(13. / 16)},
	} {
		got, ok := HoleCallOut(text)
		if !ok || !sameCall(got, want) {
			t.Errorf("HoleCallOut(%q) = %+v, %v\nwant %+v", text, got, ok, want)
		}
	}
}

func sameCall(a, b HoleCall) bool {
	length := func(x, y LengthValue) bool { return math.Abs(x.MM-y.MM) < 1e-9 && x.Unit == y.Unit }
	return a.Count == b.Count && a.Process == b.Process && a.Bolt == b.Bolt && a.Fit == b.Fit && math.Abs(a.Tolerance-b.Tolerance) < 1e-9 &&
		length(a.Diameter, b.Diameter) && length(a.Seat, b.Seat) && length(a.Alt, b.Alt) && length(a.Slot[0], b.Slot[0]) && length(a.Slot[1], b.Slot[1])
}

// What is no call-out, or could be two things, is not read as one.
func TestNoHoleCallOut(t *testing.T) {
	for _, text := range []string{
		"", "10 HOLES", "R20", "4 R10", "PIPE Ø60.3 x 4", "Ø48.3 TUBE", "ROD Ø20", "M20 x 60 BOLT", "4 M20 BOLTS", "DRAWN BY", "SCALE 1:5", "1,500 DIA",
		"DRILL AFTER GALVANISING", "PL 10 x 200", "45°", "22", "22 x 50", "SEE NOTE 4", "HOLES AT 75 CTRS", "Ø120 PCD", "Ø14 AND Ø18", "t=10", "A-A", "S275JR", "REV B 2024",
		"HOLES 14 OR 18", "450 g/m2", "M92", "M2", "M1", "m2 of paint",
	} {
		if got, ok := HoleCallOut(text); ok {
			t.Errorf("HoleCallOut(%q) = %+v, want none", text, got)
		}
	}
}

func TestSeveralCallOutsInOneText(t *testing.T) {
	got := HoleCallOuts("4x Ø14\n2x Ø18; 2 SLOTS 22x50\nDRAWN 2024")
	want := []HoleCall{
		{Count: 4, Diameter: bare(14)}, {Count: 2, Diameter: bare(18)}, {Count: 2, Slot: [2]LengthValue{bare(22), bare(50)}},
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for text, sizes := range map[string][]float64{
		"2 HOLES Ø14, 4 HOLES Ø18": {14, 18}, "Ø14 & Ø18": {14, 18}, "2x Ø14 and 4x Ø18, M12 TAP": {14, 18, 0}, "Ø14, Ø18, SEE NOTE": nil, "Ø14 AND 18": nil, "": nil, ";;\n;": nil, "Ø14\n\nØ18\nØ14": {14, 18, 14},
	} {
		var found []float64
		for _, c := range HoleCallOuts(text) {
			found = append(found, c.Diameter.MM)
		}
		if !slices.Equal(found, sizes) {
			t.Errorf("HoleCallOuts(%q) gives %v, want %v", text, found, sizes)
		}
	}
	for i := range want {
		if !sameCall(got[i], want[i]) {
			t.Errorf("call-out %d is %+v, want %+v", i, got[i], want[i])
		}
	}
}

func FuzzCallOuts(f *testing.F) {
	for _, s := range []string{"4 HOLES 13/16 DIA", "Ø14 CSK Ø28 x 90°", "M12x1.75", "SLOT 22x50", "PL 3/8 x 6 x 1'-2\"", "t=10", "QTY: 4", "S355 J2 + N", "A572 GR. 50", "10 GA", "+-/x(", "Ø", "4-", "MATERIAL: ", "\xff\xfe", "½Ø"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		fine := func(v float64) {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("%q gives %v", text, v)
			}
		}
		for _, c := range HoleCallOuts(text) {
			for _, v := range []float64{c.Diameter.MM, c.Seat.MM, c.Slot[0].MM, c.Slot[1].MM, c.Alt.MM, c.Tolerance, float64(c.Count)} {
				fine(v)
			}
			if c.Slot[0].MM > c.Slot[1].MM {
				t.Fatalf("%q: slot %v", text, c.Slot)
			}
			if c.Diameter.MM == 0 && c.Slot[0].MM == 0 && c.Bolt == "" && c.Seat.MM == 0 {
				t.Fatalf("%q: an empty call-out", text)
			}
		}
		p, ok := PlateNote(text)
		for _, v := range []float64{p.Thickness.MM, p.Width.MM, p.Length.MM} {
			fine(v)
		}
		if ok != (p.Thickness.MM > 0 || p.Gauge > 0) || p.Width.MM > 0 && p.Width.MM < p.Thickness.MM {
			t.Fatalf("%q: plate %+v, %v", text, p, ok)
		}
		if n, ok := Quantity(text); ok != (n > 0) || n > maxQuantity {
			t.Fatalf("%q: quantity %d, %v", text, n, ok)
		}
		if g, ok := MaterialNote(text); ok != (g != "") {
			t.Fatalf("%q: material %q, %v", text, g, ok)
		}
	})
}

// TestTypedTolerances: the sign of plus and minus is typed in several ways.
func TestTypedTolerances(t *testing.T) {
	for _, text := range []string{"Ø22 ±0.1", "Ø22 +-0.1", "Ø22 +/-0.1", "2x Ø22 ±0.1"} {
		if c, ok := HoleCallOut(text); !ok || c.Diameter.MM != 22 || c.Tolerance != 0.1 {
			t.Errorf("%q: %v %+v", text, ok, c)
		}
	}
}
