package measure

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The inch is 25.4 mm exactly and the foot 304.8 mm (international yard and
// pound agreement, 1959); the sums are done by hand from these.
func TestLength(t *testing.T) {
	for _, c := range []struct {
		text string
		mm   float64
		unit string
	}{
		{"10 mm", 10, "mm"}, {"10mm", 10, "mm"}, {" 10 MM ", 10, "mm"}, {"12", 12, ""}, {"0", 0, ""},
		{"12.5 mm", 12.5, "mm"}, {"12,5 mm", 12.5, "mm"}, {".5 in", 12.7, "in"}, {"0,375 in", 9.525, "in"}, {"0.375in", 9.525, "in"},
		{"3/8 in", 9.525, "in"}, {"3/8\"", 9.525, "in"}, {"3/8''", 9.525, "in"}, {"3⁄8 in", 9.525, "in"}, {"3/8 in.", 9.525, "in"}, {"3/8 inch", 9.525, "in"},
		{"1-1/16\"", 26.9875, "in"}, {"1 1/16 in", 26.9875, "in"}, {"1 1/16\"", 26.9875, "in"}, {"1–1/16″", 26.9875, "in"},
		{"½ in", 12.7, "in"}, {"1½\"", 38.1, "in"}, {"1 ½\"", 38.1, "in"}, {"1-½ in", 38.1, "in"}, {"⅝\"", 15.875, "in"}, {"⅛\"", 3.175, "in"}, {"¾ in", 19.05, "in"}, {"¼″", 6.35, "in"},
		{"2'-6 1/2\"", 774.7, "ft"}, {"2' 6 1/2\"", 774.7, "ft"}, {"2'-6½\"", 774.7, "ft"}, {"2'6\"", 762, "ft"}, {"2'-6", 762, "ft"}, {"2'-0\"", 609.6, "ft"}, {"2'", 609.6, "ft"}, {"2'-1/2\"", 622.3, "ft"}, {"0'-6\"", 152.4, "ft"},
		{"20 ft", 6096, "ft"}, {"2 ft 6 in", 762, "ft"}, {"6 m", 6000, "m"}, {"2.5 cm", 25, "cm"},
		{"Ø22 mm", 22, "mm"}, {"⌀22", 22, ""}, {"Ø 22", 22, ""}, {"Ø13/16\"", 20.6375, "in"},
		{"1,234.5 mm", 1234.5, "mm"}, {"1.234,5 mm", 1234.5, "mm"}, {"1,234,567 mm", 1234567, "mm"}, {"0,500 in", 12.7, "in"}, {"10. mm", 10, "mm"}, {"1.500 mm", 1.5, "mm"}, {"12,70 mm", 12.7, "mm"},
	} {
		v, err := Length(c.text)
		if err != nil || math.Abs(v.MM-c.mm) > 1e-9 || v.Unit != c.unit {
			t.Errorf("Length(%q) = %v, %v; want %v mm in %q", c.text, v, err, c.mm, c.unit)
		}
	}
	if v, err := Length("3/8"); err != nil || v.Unit != "" || !v.Fraction || v.MM != 0.375 {
		t.Errorf("a fraction without a unit: %v, %v", v, err)
	}
}

func TestLengthRefuses(t *testing.T) {
	for text, why := range map[string]string{
		"": "no number", "mm": "no number", "ten mm": "no number", "-10 mm": "sign", "+10 mm": "sign", "−10 mm": "sign",
		"10 foo": "no unit", "10 mm 5": "left over", "10 kN": "no unit", "1/0 in": "zero", "1 5/4 in": "below 1", "1/2/3 in": "goes on", "1/1001 in": "not one",
		"1,500 mm": "1.5", "12,700": "12700", "1,23,4": "grouped", "1.2.3 mm": "grouped", "1e3 mm": "no unit", "2'-13\"": "12 inches",
		"99999999999 mm": "too large", "2000000 m": "too large", "NaN mm": "no number", "Inf": "no number", "10 M": "no unit", "3 ft 100 mm": "left over", "1" + strings.Repeat("0", 50): "digits", "22 x 50": "no unit", "1.5/2 in": "no unit",
	} {
		v, err := Length(text)
		var te *TextError
		if !errors.As(err, &te) {
			t.Errorf("Length(%q) = %v, %v; want it refused", text, v, err)
			continue
		}
		if te.Text != text || !strings.Contains(err.Error(), why) {
			t.Errorf("Length(%q) is refused with %q, want %q in it and the text", text, err, why)
		}
		if v != (LengthValue{}) {
			t.Errorf("Length(%q) gives %v beside the error", text, v)
		}
	}
}

func TestFormatLength(t *testing.T) {
	for _, c := range []struct {
		mm         float64
		unit, want string
	}{
		{22, "mm", "22 mm"}, {22.225, "mm", "22.23 mm"}, {22.2, "mm", "22.2 mm"}, {0, "mm", "0 mm"}, {-0.001, "mm", "0 mm"}, {-3, "mm", "-3 mm"}, {22, "", "22 mm"}, {1e6, "mm", "1000000 mm"},
		{25.4, "in", "1 in"}, {9.525, "in", "3/8 in"}, {26.9875, "in", "1-1/16 in"}, {0.79375, "in", "1/32 in"}, {0, "in", "0 in"}, {-26.9875, "in", "-1-1/16 in"},
		{10, "in", "0.394 in"}, {304.8, "in", "12 in"}, {0.3, "in", "0.012 in"},
		// just at and above 0.02 mm off the fraction 3/8
		{9.5449, "in", "3/8 in"}, {9.5051, "in", "3/8 in"}, {9.5451, "in", "0.376 in"}, {9.5049, "in", "0.374 in"},
		{math.NaN(), "mm", "unknown length"}, {math.Inf(1), "in", "unknown length"},
	} {
		if got := FormatLength(c.mm, c.unit); got != c.want {
			t.Errorf("FormatLength(%v, %q) = %q, want %q", c.mm, c.unit, got, c.want)
		}
	}
}

// Formatting and then reading gives the number back, within what is shown.
func TestFormatThenReadGivesTheLengthBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(0, 1e5).Draw(t, "mm")
		for unit, within := range map[string]float64{"mm": 0.005, "in": 0.02} {
			text := FormatLength(mm, unit)
			v, err := Length(text)
			if err != nil || v.Unit != unit || math.Abs(v.MM-mm) > within*(1+1e-9)+1e-9 {
				t.Fatalf("%v mm is written %q and read back %v, %v", mm, text, v, err)
			}
		}
	})
}

// Every 64th of an inch to 12 in is read exactly in each of its ways of writing.
func TestFractionsBothWays(t *testing.T) {
	n := 0
	for whole := 0; whole < 12; whole++ {
		for num := 1; num < 64; num++ {
			want := (float64(whole) + float64(num)/64) * 25.4
			for _, text := range []string{frac(whole, "-", num, " in"), frac(whole, " ", num, "\""), frac(whole, "-", num, "''")} {
				n++
				if v, err := Length(text); err != nil || math.Abs(v.MM-want) > 1e-9 {
					t.Fatalf("Length(%q) = %v, %v; want %v", text, v, err, want)
				}
			}
		}
	}
	if n != 12*63*3 {
		t.Fatalf("%d fractions read", n)
	}
}

func frac(whole int, sep string, num int, unit string) string {
	text := trimmed(float64(num), 0) + "/64" + unit
	if whole > 0 {
		text = trimmed(float64(whole), 0) + sep + text
	}
	return text
}

func FuzzLength(f *testing.F) {
	for _, s := range []string{"10 mm", "1-1/16\"", "2'-6 1/2\"", "1,500", "½", "1.234,5 mm", "Ø22", "\xff", "1/0"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := Length(text)
		sane(t, text, v.MM, err)
	})
}

// sane holds for every reader: finite and not negative, or an error with the text.
func sane(t *testing.T, text string, v float64, err error) {
	t.Helper()
	if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
		t.Fatalf("%q is read as %v", text, v)
	}
	var te *TextError
	if err != nil && (!errors.As(err, &te) || te.Text != text || v != 0) {
		t.Fatalf("%q gives %v and the error %v", text, v, err)
	}
}
