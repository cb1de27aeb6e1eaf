package measure

import "testing"

// Names are invented; how such names are written is common practice, no source.
func TestHardNames(t *testing.T) {
	for name, want := range map[string][2]string{ // of a file, of a layer
		"PL10_XYZ400": {"XYZ400", "XYZ400"}, "xyz-450 10mm": {"xyz 450", "xyz 450"}, "10MM QUORLIN 500": {"QUORLIN 500", "QUORLIN 500"}, "QUORLIN500": {"", "QUORLIN500"}, "XYZ 400": {"", "XYZ 400"},
		"AR400_10mm": {"AR400", "AR400"}, "AR 400": {"AR 400", "AR 400"}, "HB450": {"HB450", "HB450"}, "wear-plate": {"wear plate", "wear plate"},
		"bracket_400_t10": {"", ""}, "housing 500": {"", ""}, "LASER 400": {"", ""}, "panel-600x400": {"", ""}, "t10 S275": {"", ""}, "XYZ 400 x 300": {"", ""}, "XYZ 400 300 10mm": {"", ""}, "CUT": {"", ""}, "PL10x400": {"", ""}, "g7_t10": {"", ""}, "0": {"", ""}, "": {"", ""},
	} {
		if got, _ := HardName(name, false); got != want[0] {
			t.Errorf("HardName(%q, false) = %q, want %q", name, got, want[0])
		}
		if got, _ := HardName(name, true); got != want[1] {
			t.Errorf("HardName(%q, true) = %q, want %q", name, got, want[1])
		}
	}
}

func TestStatedMaterial(t *testing.T) {
	for text, want := range map[string]string{
		"304": "304", "1.4301": "1.4301", "CS": "CS", "XYZ 400": "XYZ 400", "S275JR": "S275JR", "QUORLIN": "QUORLIN", "MS": "MS", "6061": "6061",
		"": "", "-": "", "1:5": "", "12/03/24": "", "SEE NOTES": "", "120": "", "10 mm": "", "A\nB": "", "QTY": "", "TBC": "", "J": "", "N/A": "", "10 THK": "",
	} {
		note, ok := StatedMaterial(text)
		got, _ := MaterialNote(note)
		if ok != (want != "") || ok && got != want {
			t.Errorf("StatedMaterial(%q) = %q (%q), %v; want %q", text, note, got, ok, want)
		}
	}
}
