package cutlist

import (
	"strings"
	"testing"
)

// A mitre across a height h at an angle a off square takes h tan a of the length,
// by plane geometry; 100 tan 45 deg = 100, 60 tan 30 deg = 34.64.
func TestMitresTakeLength(t *testing.T) {
	for _, c := range []struct {
		line, want string
	}{
		{"FL 100x10,50,1,S275,mitre 45", "takes 100 mm"},
		{"FL 100x10,99.9,1,S275,mitre 45", "takes 100 mm"},
		{"FL 100x10,101,1,S275,mitre 45", ""},
		{"FL 100x10,199,1,S275,mitre 45/45", "200 mm of it together"},
		{"FL 100x10,201,1,S275,mitre 45/45", ""},
		{"L60x60x6,34,1,S275,mitre 30", "takes 34.6 mm"},
		{"L60x60x6,36,1,S275,mitre 30", ""},
		// A tube may be mitred either way: the lesser side counts.
		{"RHS 60x40x3,39,1,S235,mitre 45", "takes 40 mm"},
		{"RHS 60x40x3,50,1,S235,mitre 45", ""},
		{"RD 20,19,1,S235,mitre 45", "takes 20 mm"},
		{"FL 100x10,50,1,S275,square", ""},
		// A saddle on a tube of its own size goes in by its radius.
		{"CHS 48.3x3.2,48,1,S235,saddle 90/90", "leave nothing"},
		{"CHS 48.3x3.2,49,1,S235,saddle 90/90", ""},
		{"CHS 48.3x3.2,24,1,S235,saddle 90", "leave nothing"},
		{"CHS 48.3x3.2,20,1,S235,saddle 90 to 114.3", ""},
	} {
		l := read(t, "section,length,quantity,material,end\n"+c.line+"\n", Options{Unit: "mm"})
		var got string
		for _, p := range l.Lines[0].Problems {
			got += p.Field + " " + p.Text
		}
		if c.want == "" && got != "" || c.want != "" && (!strings.Contains(got, c.want) || !strings.HasPrefix(got, "length")) {
			t.Errorf("%s: %q, want %q", c.line, got, c.want)
		}
	}
}

// A fraction bar makes inches of a number; that is said where others are in mm,
// and is not understood under a heading in mm.
func TestFractionsAmongMillimetres(t *testing.T) {
	const said = "fraction bar are taken as inches"
	for _, c := range []struct {
		head, line string
		opt        Options
		noted      bool
		problem    string
	}{
		{"section,length", "RD 20,12 1/2", Options{Unit: "mm"}, true, ""},
		{"section,length", "RD 3/4,100", Options{Unit: "mm"}, true, ""},
		{"section,length", "RD 3/4,12 1/2", Options{Unit: "in"}, false, ""},
		{"section,length", "RD 3/4 in,12 1/2 in", Options{Unit: "mm"}, false, ""},
		{"section,length", "PIPE 1-1/2 SCH 40,100", Options{Unit: "mm"}, false, ""},
		{"section,length (mm)", "RD 20,1/2", Options{Unit: "mm"}, false, "length"},
		{"section,length (mm)", "RD 20,1/2 in", Options{Unit: "mm"}, false, ""},
		{"section (mm),length", "FL 2x1/4,100", Options{Unit: "mm"}, true, "section"},
	} {
		l := read(t, c.head+"\n"+c.line+"\n", c.opt)
		field := ""
		for _, p := range l.Lines[0].Problems {
			field += p.Field
		}
		if noted := strings.Contains(strings.Join(l.Notes, "\n"), said); noted != c.noted || field != c.problem {
			t.Errorf("%+v: notes %q, problems %+v", c, l.Notes, l.Lines[0].Problems)
		}
	}
}

// Who named the unit of bare lengths.
func TestUnitOfAList(t *testing.T) {
	for _, c := range []struct {
		head       string
		opt        Options
		unit, from string
	}{
		{"section,length", Options{Unit: "in"}, "in", ""}, {"section,length", Options{}, "mm", ""},
		{"section,length (in)", Options{Unit: "mm", Stated: true}, "in", "heading"}, {"section,length", Options{Unit: "in", Stated: true}, "in", "asked"},
	} {
		l := read(t, c.head+"\nRD 20 mm,100\n", c.opt)
		if string(l.Unit) != c.unit || l.UnitFrom != c.from {
			t.Errorf("%+v: %q from %q", c, l.Unit, l.UnitFrom)
		}
	}
}
