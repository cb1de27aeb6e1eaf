package measure

import (
	"math"
	"strings"
	"testing"
)

// Exact by definition: 1 lbf = 0.45359237 kg x 9.80665 m/s2 = 4.4482216152605 N
// (international pound 1959, standard gravity of the 3rd CGPM 1901); a short ton is
// 2,000, a long ton 2,240, a kip 1,000 of them; a metric ton-force 1,000 kgf.
func TestForce(t *testing.T) {
	for _, c := range []struct {
		text string
		kn   float64
		ton  string
	}{
		{"550 kN", 550, ""}, {"550kN", 550, ""}, {"550 KN", 550, ""}, {"2500 N", 2.5, ""}, {"1.2 MN", 1200, ""}, {"100 daN", 1, ""}, {"550,5 kN", 550.5, ""},
		{"1 short ton", 8.896443230521, "US"}, {"1 US ton", 8.896443230521, "US"}, {"1 U.S. ton", 8.896443230521, "US"}, {"60 US tons", 533.78659383126, "US"}, {"1 ton US", 8.896443230521, "US"}, {"1 ton (short)", 8.896443230521, "US"}, {"1 short-ton", 8.896443230521, "US"}, {"1 us tonf", 8.896443230521, "US"},
		{"1 metric ton", 9.80665, "metric"}, {"1 tonne", 9.80665, "metric"}, {"1 metric tonnes", 9.80665, "metric"}, {"65 metric tonf", 637.43225, "metric"}, {"1 tf", 9.80665, "metric"}, {"1 t metric", 9.80665, "metric"},
		{"1 long ton", 9.96401641818352, "long"}, {"1 UK ton", 9.96401641818352, "long"}, {"1 imperial tons", 9.96401641818352, "long"},
		{"12000 lbf", 53.378659383126, ""}, {"1 kip", 4.4482216152605, ""}, {"2 kips", 8.896443230521, ""}, {"1000 kgf", 9.80665, ""},
		// Common practice, no source: 65 short tons are 578 kN, 65 metric 637 kN.
		{"65 US ton", 578.268809983865, "US"},
	} {
		v, err := ForceAndTon(c.text)
		if err != nil || math.Abs(v.KN-c.kn) > 1e-9*c.kn || v.Ton != c.ton {
			t.Errorf("ForceAndTon(%q) = %v, %v; want %v kN, %q", c.text, v, err, c.kn, c.ton)
		}
	}
}

// A bare ton is refused with the three that it may mean and what each would be.
func TestBareTonIsRefused(t *testing.T) {
	for _, text := range []string{"60 ton", "60 tons", "60 t", "60t", "60 Ton", "60 T", "60 tonf", "60 tons-force", "60 t."} {
		v, err := Force(text)
		if err == nil {
			t.Errorf("Force(%q) = %v, want it refused", text, v)
			continue
		}
		for _, want := range []string{"60 US ton", "533.8 kN", "60 metric ton", "588.4 kN", "60 long ton", "597.8 kN", text} {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("Force(%q): %v; want %q in it", text, err, want)
			}
		}
	}
}

func TestForceRefuses(t *testing.T) {
	for text, why := range map[string]string{
		"60": "unit is missing", "60 lb": "is a mass", "60 kg": "is a mass", "-60 kN": "sign", "60 MPa": "no unit", "": "no number", "kN": "no number", "60 kN x": "no unit", "60 green ton": "no unit", "1e9 kN": "no unit", "9999999999 N": "too large",
	} {
		if v, err := Force(text); err == nil || !strings.Contains(err.Error(), why) || v != 0 {
			t.Errorf("Force(%q) = %v, %v; want %q", text, v, err, why)
		}
	}
}

// 1 ksi = 1,000 lbf / 645.16 mm2 = 6.894757293168361 MPa (NIST SP 811, Table B.8,
// prints 6.894757); the density of steel 0.2836 lb/in3 is 7850 kg/m3 (common
// practice, no source).
func TestOtherUnits(t *testing.T) {
	for _, c := range []struct {
		name string
		read func(string) (float64, error)
		text string
		want float64
	}{
		{"Stress", Stress, "345 MPa", 345}, {"Stress", Stress, "345 N/mm2", 345}, {"Stress", Stress, "345 N/mm²", 345}, {"Stress", Stress, "50 ksi", 344.7378646584181}, {"Stress", Stress, "50000 psi", 344.7378646584181}, {"Stress", Stress, "0.2 GPa", 200},
		{"Angle", Angle, "45 deg", math.Pi / 4}, {"Angle", Angle, "45°", math.Pi / 4}, {"Angle", Angle, "7°30'", math.Pi / 24}, {"Angle", Angle, "1 rad", 1}, {"Angle", Angle, "22,5 deg", math.Pi / 8},
		{"Mass", Mass, "25 kg", 25}, {"Mass", Mass, "50 lb", 22.6796185}, {"Mass", Mass, "1 US ton", 907.18474}, {"Mass", Mass, "1 tonne", 1000},
		{"Density", Density, "7850 kg/m3", 7850}, {"Density", Density, "7.85 g/cm3", 7850}, {"Density", Density, "0.2836 lb/in3", 7850},
		{"Seconds", Seconds, "2 min", 120}, {"Seconds", Seconds, "8 s", 8}, {"Speed", Speed, "1 m/min", 1}, {"Share", Share, "90 %", 0.9}, {"Share", Share, "90%", 0.9},
	} {
		got, err := c.read(c.text)
		tol := 1e-9
		if c.text == "0.2836 lb/in3" {
			tol = 1e-4
		}
		if err != nil || math.Abs(got-c.want) > tol*c.want {
			t.Errorf("%s(%q) = %v, %v; want %v", c.name, c.text, got, err, c.want)
		}
	}
	for _, c := range []struct {
		read func(string) (float64, error)
		text string
	}{{Stress, "345"}, {Stress, "345 kN"}, {Angle, "45"}, {Angle, "45 mm"}, {Angle, "7°75'"}, {Mass, "25"}, {Mass, "2 t"}, {Mass, "2 ton"}, {Density, "7850"}, {Seconds, "8"}, {Speed, "1"}, {Share, "0.9"}, {Share, "90"}} {
		if v, err := c.read(c.text); err == nil || v != 0 || !strings.Contains(err.Error(), c.text) {
			t.Errorf("%q is read as %v, %v; want it refused", c.text, v, err)
		}
	}
}

func FuzzUnits(f *testing.F) {
	for _, s := range []string{"60 US ton", "60 t", "345 N/mm2", "7°30'", "25 kg", "90 %", "1 m/min", "ton", "1 ton (", "²"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func(string) (float64, error){Force, Stress, Angle, Mass, Density, Seconds, Speed, Share} {
			v, err := read(text)
			sane(t, text, v, err)
		}
	})
}
