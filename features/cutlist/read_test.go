package cutlist

import (
	"errors"
	"strings"
	"testing"
)

func read(t *testing.T, text string, opt Options) *List {
	t.Helper()
	l, err := Read(strings.NewReader(text), opt)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return l
}

// The same line in the ways that spreadsheets write it.
func TestReadForms(t *testing.T) {
	for name, text := range map[string]string{
		"plain":             "section,length,quantity,material,end\nFL 100x10,1200,4,S275,mitre 45\n",
		"any order":         "Material,END,Section,Quantity,Length\nS275,mitre 45,FL 100x10,4,1200\n",
		"semicolon":         "section;length;quantity;material;end\nFL 100x10;1200,0;4;S275;mitre 45,0\n",
		"quoted":            "\"section\",\"length\",\"quantity\",\"material\",\"end\"\n\"FL 100x10\",\"1200 mm\",\"4\",\"S275\",\"mitre 45\"\n",
		"BOM, CRLF, spaces": "\ufeff section , length (mm), quantity, material, end \r\n FL 100x10 , 1.2 m , 4 , S275 , mitre 45 \r\n\r\n,,,,\r\n",
		"metres":            "section,length,quantity,material,end\nFL 100 x 10 mm,1.2 m,4,S275,mitre 45 deg\n",
		"no last line end":  "section,length,quantity,material,end\nFL 100x10,120 cm,4,S275,mitre 45",
	} {
		l := read(t, text, Options{Unit: "mm", From: "as the shop works"})
		if len(l.Lines) != 1 {
			t.Errorf("%s: %+v", name, l)
			continue
		}
		g := l.Lines[0]
		if len(g.Problems) > 0 || g.Section.Name != "flat 100 x 10 mm" || !near(g.LengthMM, 1200, 1e-9) || g.Quantity != 4 || g.Material != "S275" || g.Ends[0].Work != "mitre" || g.Ends[1].Work != "square" || !g.EndStated || g.Number != 2 {
			t.Errorf("%s: %+v", name, g)
		}
	}
}

// Units: the cell's own, then a fraction, then the heading's, then the option's.
func TestReadUnits(t *testing.T) {
	for _, c := range []struct {
		head, section, length string
		opt                   Unit
		size, want            float64
		noted                 bool
	}{
		{"section,length", "RD 20", "100", "mm", 20, 100, true},
		{"section,length", "RD 3/4", "10", "in", 19.05, 254, true},
		{"section,length", "RD 20 mm", "100 mm", "in", 20, 100, false},
		{"section,length (in)", "RD 20 mm", "10", "mm", 20, 254, false},
		{"section,length in", "RD 20 mm", `10-1/2"`, "mm", 20, 266.7, false},
		{"section (in),length_mm", "RD 1", "100", "mm", 25.4, 100, false},
		{"section,length", "RD 3/4", "10 1/2", "mm", 19.05, 266.7, false},
		{"section,length", "RD 20 mm", "2 ft", "mm", 20, 609.6, false},
	} {
		l := read(t, c.head+"\n"+c.section+","+c.length+"\n", Options{Unit: c.opt})
		g := l.Lines[0]
		if len(g.Problems) > 0 || !near(g.Section.SizeMM[0], c.size, 1e-9) || !near(g.LengthMM, c.want, 1e-9) {
			t.Errorf("%+v: %+v", c, g)
		}
		noted := strings.Contains(strings.Join(l.Notes, "\n"), "numbers without a unit")
		if noted != c.noted {
			t.Errorf("%+v: notes %q", c, l.Notes)
		}
	}
}

// What is not understood has its line and column, and keeps no other line back.
func TestReadProblems(t *testing.T) {
	l := read(t, "section,length,quantity,material,end,colour\nFL 100x10,,1,S275,\nIPE 200,1200,1,S275,\n  RD 20,  12q,1,S275,\nRD 20,100,1.5,S275,\nRD 20,100,1,S275,mitre\nRD 20,0,1,S275,\nRD 20,-5,1,S275,\nRD 20,\"1,500\",1,S275,\nRD 20,100,,,\n", Options{Unit: "mm"})
	want := []struct {
		line, column int
		field, text  string
	}{
		{2, 11, "length", "missing"}, {3, 1, "section", "no kind of section"}, {4, 11, "length", "12q"}, {5, 11, "quantity", "whole number"}, {6, 18, "end", "angle of the mitre"}, {7, 7, "length", "more than zero"}, {8, 7, "length", ""}, {9, 7, "length", "1,500"},
	}
	if len(l.Lines) != 9 {
		t.Fatalf("%d lines", len(l.Lines))
	}
	for i, w := range want {
		p := l.Lines[i].Problems
		if len(p) != 1 || p[0].Line != w.line || p[0].Column != w.column || p[0].Field != w.field || !strings.Contains(p[0].Text, w.text) {
			t.Errorf("line %d: %+v, want %+v", i+2, p, w)
		}
	}
	if last := l.Lines[8]; len(last.Problems) != 0 || last.Quantity != 0 || last.Material != "" || last.EndStated {
		t.Errorf("%+v", last)
	}
	if !strings.Contains(strings.Join(l.Notes, "\n"), "columns left aside: colour") {
		t.Errorf("%q", l.Notes)
	}
}

// Files that are no list are refused with a place; a quote left open does not
// swallow the rest in silence.
func TestReadNoList(t *testing.T) {
	for text, want := range map[string]string{
		"":                        "names no columns",
		"\n\n":                    "names no columns",
		"file,thickness\na,b\n":   `no column named "section"`,
		"section,quantity\na,b\n": `no column named "length"`,
		"section,length\n":        "no line follows",
		"section,length\x00\n":    "UTF-8",
		"\xff\xfes\x00e\x00":      "UTF-8",
	} {
		_, err := Read(strings.NewReader(text), Options{})
		var e *Error
		if !errors.As(err, &e) || e.Line != 1 || e.Column != 1 || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	l := read(t, "section,length,quantity,material,end\n\"RD 20,100,1,S275,\nRD 25,100,1,S275,\n", Options{})
	if len(l.Lines) != 2 || len(l.Lines[0].Problems) != 1 || !strings.Contains(l.Lines[0].Problems[0].Text, "does not close") || len(l.Lines[1].Problems) != 0 || l.Lines[1].Number != 3 {
		t.Errorf("%+v", l)
	}
	// An inch mark in a plain cell is no quotation.
	l = read(t, "section,length\nFL 4\" x 3/8\",10\"\n", Options{})
	if g := l.Lines[0]; len(g.Problems) > 0 || g.Section.Name != "flat 4 in x 3/8 in" || !near(g.LengthMM, 254, 1e-9) {
		t.Errorf("%+v", g)
	}
	// The Western code page of a spreadsheet: 0xd8 is Ø.
	l = read(t, "section,length\n\xd825,100\n", Options{})
	if g := l.Lines[0]; g.Section.Kind != Round || len(l.Notes) == 0 {
		t.Errorf("%+v", l)
	}
}

func TestIsList(t *testing.T) {
	for text, want := range map[string]bool{
		"section,length,quantity,material,end\n":                      true,
		"\ufeffEnd;Material;Quantity;Length (mm);Section;Colour\r\n1": true,
		"section,length,quantity,material\n":                          false,
		"file,thickness,material,quantity,units\n":                    false,
		"": false, "\x00\x01": false, "section": false,
	} {
		if got := IsList(strings.NewReader(text)); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add("section,length,quantity,material,end\nFL 100x10,1200,4,S275,mitre 45/45\nDN40,2 ft,,,saddle 90 to 60.3\n", true)
	f.Add("section;length;quantity;material;end\nØ25;1,5 m;2;S355;point both\n\"", false)
	f.Add("length,section\n1e9,C4x5.4\n1,L75x75x8 RSA\n", false)
	f.Add("section,length\nPIPE 1-1/2 SCH 40,1/0\n", true)
	f.Fuzz(func(t *testing.T, text string, inch bool) {
		opt := Options{Unit: "mm"}
		if inch {
			opt.Unit = "in"
		}
		l, err := Read(strings.NewReader(text), opt)
		if err != nil {
			return
		}
		lines := strings.Count(text, "\n") + 1
		for _, g := range l.Lines {
			if g.Number < 2 || g.Number > lines {
				t.Fatalf("line %d of %d", g.Number, lines)
			}
			for _, p := range g.Problems {
				if p.Line < 1 || p.Line > lines || p.Column < 1 || p.Text == "" {
					t.Fatalf("%+v", p)
				}
			}
			if len(g.Problems) > 0 {
				continue
			}
			s := g.Section
			if s.Kind == "" || s.Name == "" || !(s.SizeMM[0] > 0) || !(g.LengthMM > 0) || g.Ends[0].Work == "" || g.Ends[1].Work == "" || s.Perimeter() <= 0 || s.KgPerM(7850) < 0 {
				t.Fatalf("%+v", g)
			}
			if s.Kind != Channel && s.Kind != RoundTube && !(s.ThicknessMM > 0 && s.KgPerM(7850) > 0) {
				t.Fatalf("%+v", g)
			}
		}
	})
}
