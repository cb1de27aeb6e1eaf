package measure

import "testing"

// Names of files as customers send them (common practice, no source).
func TestFileName(t *testing.T) {
	for name, want := range map[string]FileNote{
		"PL10_S275_4pcs": {Thickness: bare(10), Material: "S275", Quantity: 4}, "3mm": {Thickness: mm(3)}, "10ga": {Gauge: 10}, "panel-10GA": {Gauge: 10}, "g7_t10": {Thickness: bare(10)}, "base-10mm": {Thickness: mm(10)},
		"part_6.5mm": {Thickness: mm(6.5)}, "tray 3mm x4": {Thickness: mm(3), Quantity: 4}, "bracket_t6mm_S355J2": {Thickness: mm(6), Material: "S355J2"}, "gusset_A36_0.25in_qty2": {Thickness: LengthValue{MM: 6.35, Unit: "in"}, Material: "A36", Quantity: 2},
		"A572-50_PL12": {Thickness: bare(12), Material: "A572-50"}, "flange (2off) 12mm": {Thickness: mm(12), Quantity: 2}, "thk8_plate": {Thickness: bare(8)}, "plate_ss304_2mm": {Thickness: mm(2), Material: "SS304"}, "S235_10mm_4stk": {Thickness: mm(10), Material: "S235", Quantity: 4},
		"": {}, "tray": {}, "g7": {}, "t1000": {}, "rev2": {}, "drawing_1234": {}, "100mm_x_50mm_10mm": {}, "S275_S355": {}, "part-10": {}, "test": {}, "plan": {}, "BR-17": {}, "2024-05-10": {}, "10mm_10mm": {Thickness: mm(10)},
	} {
		if got := FileName(name); got != want {
			t.Errorf("FileName(%q) = %+v, want %+v", name, got, want)
		}
	}
}

func FuzzFileName(f *testing.F) {
	for _, s := range []string{"PL10_S275_4pcs", "t10", "x4", "10ga", "\xff_1e9mm", "t.", "..mm", "9999999999999999999pcs"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		n := FileName(name)
		if n.Thickness.MM < 0 || n.Thickness.MM > 150 || n.Quantity < 0 || n.Gauge < 0 || n.Gauge > 30 {
			t.Fatalf("%q: %+v", name, n)
		}
	})
}
