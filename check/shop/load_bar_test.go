package shop

import (
	"strings"
	"testing"
)

// What stands wrong in the entries for bar, tube and end tools is told with its
// line, counted from the start of what is written here.
func TestBarAndTubeProblems(t *testing.T) {
	for _, c := range []struct {
		mark, text string
		line       int // 0: no problem at all
		want       string
	}{
		{"machine", "[[machine.bar]]\nshape = \"round\"\ncavities = [\"20 mm\", \"30 mm\"]\n", 0, ""},
		{"machine", "[[machine.bar]]\nshape = \"round\"\n", 1, "max is missing"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\ncavities = [\"30 mm\", \"20 mm\"]\n", 3, "must ascend"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\ncavities = []\n", 3, "is empty"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\ncavities = [\"30 mm\"]\nmax = \"29 mm\"\n", 4, "less than the largest"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\ncavities = [\"30 mm\"]\nmax = \"30 mm\"\n", 0, ""},
		{"machine", "[[machine.bar]]\nshape = \"channel\"\nmax = \"100 mm\"\ncavities = [\"30 mm\"]\n", 4, "a channel shear lists channels"},
		{"machine", "[[machine.bar]]\nshape = \"square\"\nmax = \"30 mm\"\nchannels = [{ depth = \"80 mm\" }]\n", 4, "lists cavities"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\nmax = \"30 mm\"\ngoverns = \"force\"\n", 4, "rated is missing"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\nrated = \"400 kN\"\nmax = \"30 mm\"\ngoverns = \"luck\"\n", 5, "it may be row, force"},
		{"machine", "[[machine.bar]]\nshape = \"channel\"\nmax = \"100 mm\"\ngoverns = \"row\"\n", 4, "governed by its channels"},
		// pi / 4 x 40^2 x 345 MPa = 433.5 kN, 1.00 x 432.0 usable and 1.09 x 397.
		{"machine", "[[machine.bar]]\nshape = \"round\"\nrated = \"480 kN\"\ngoverns = \"force\"\nmax = \"40 mm\"\n", 0, ""},
		{"machine", "[[machine.bar]]\nshape = \"round\"\nrated = \"441 kN\"\ngoverns = \"force\"\nmax = \"40 mm\"\n", 1, "433.5 kN, more than the usable 396.9 kN; the force governs"},
		{"machine", "[[machine.bar]]\nshape = \"round\"\nrated = \"400 kN\"\nmax = \"40 mm\"\n", 4, "433.5 kN, more than the rated 400.0 kN; the size holds"},
		{"machine", "[[machine.bar]]\nshape = \"channel\"\nchannels = [{ flange = \"50 mm\" }]\n", 3, "depth is missing"},
		{"machine", "[[machine.bar]]\nshape = \"channel\"\nchannels = [\n{ depth = \"100 mm\" },\n{ depth = \"100 mm\" },\n]\n", 5, "stands twice"},
		{"machine", "[[machine.bar]]\nshape = \"channel\"\nchannels = [{ depth = \"100 mm\", web = \"50 mm\" }]\n", 3, "no channel's"},
		{"machine", "[[machine.bar]]\nshape = \"channel\"\nchannels = []\n", 3, "is empty"},
		{"machine", "[[machine.tube]]\nshape = \"square\"\n", 1, "rows is missing"},
		{"machine", "[[machine.tube]]\nshape = \"square\"\nrows = [{ diameter = \"50 mm\", thickness = \"3 mm\" }]\n", 3, "side is missing"},
		{"machine", "[[machine.tube]]\nshape = \"round\"\nrows = [{ diameter = \"50 mm\", thickness = \"3 mm\" }]\n", 0, ""},
		{"machine", "[[machine.tube]]\nshape = \"hexagon\"\nrows = [{ side = \"50 mm\", thickness = \"3 mm\" }]\n", 2, "it may be square, round"},
		{"machine", "[[machine.tube]]\nshape = \"square\"\nrows = [{ side = \"50 mm\", thickness = \"25 mm\" }]\n", 3, "half the side"},
		{"machine", "[[machine.tube]]\nshape = \"square\"\nrows = [\n{ side = \"50 mm\", thickness = \"3 mm\" },\n{ side = \"60 mm\", thickness = \"4 mm\" },\n]\n", 5, "contradict each other"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1-1/2\", schedule = \"40\" }]", 0, ""},
		{"end", "[[end_tool]]\nsizes = [{ size = \"20 mm\" }]", 1, "work is missing"},
		{"end", "[[end_tool]]\nwork = \"mitre\"\nsizes = [{ size = \"20 mm\" }]\nshapes = [\"round bar\"]", 2, "a plain cut"},
		{"end", "[[end_tool]]\nwork = \"saddle 90\"\nsizes = [{ size = \"20 mm\" }]\nshapes = [\"round bar\"]", 2, "one word of small letters"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1-1/3\", schedule = \"40\" }]", 3, "no nominal pipe size"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1-1/2\" }]", 3, "schedule is missing"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1-1/2\", schedule = \"160\" }]", 3, "not in the table"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1-1/2\", schedule = \"40\", wall = \"4 mm\" }]", 3, "not both"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ diameter = \"48.3 mm\" }]", 3, "wall is missing"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ diameter = \"48.3 mm\", wall = \"4 mm\", header = \"48.2 mm\" }]", 3, "smaller than the tube"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1\", schedule = \"40\" }]\nleast_angle = \"91 deg\"", 4, "at most 90 deg"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = [{ pipe = \"1\", schedule = \"40\" }]\nshapes = [\"round tube\"]", 4, "round tube only"},
		{"end", "[[end_tool]]\nwork = \"saddle\"\nsizes = []", 3, "is empty"},
		{"end", "[[end_tool]]\nwork = \"point\"\nsizes = [{ size = \"20 mm\" }]", 1, "shapes is missing"},
		{"end", "[[end_tool]]\nwork = \"point\"\nshapes = [\"round bars\"]\nsizes = [{ size = \"20 mm\" }]", 3, "is unknown"},
		{"end", "[[end_tool]]\nwork = \"point\"\nshapes = [\"round bar\"]\nsizes = [{ size = \"20 mm\" }]\nleast_angle = \"45 deg\"", 5, "only a saddle"},
		{"end", "[[end_tool]]\nwork = \"flatten\"\nshapes = [\"round tube\"]\nsizes = [{ size = \"20 mm\" }]", 4, "thickness is missing"},
		{"end", "[[end_tool]]\nwork = \"flatten\"\nshapes = [\"round tube\"]\nsizes = [{ size = \"20 mm\", thickness = \"11 mm\" }]", 4, "more than half"},
		{"end", "[[end_tool]]\nwork = \"point\"\nshapes = [\"round bar\"]\nsizes = [{ size = \"20 mm\" }]\n[[end_tool]]\nwork = \"point\"\nshapes = [\"square bar\"]\nsizes = [{ size = \"20 mm\" }]", 5, "listed twice"},
		{"end", "[[end_tool]]\nwork = \"point\"\nshapes = [\"round bar\"]\nsizes = [{ size = \"20 mm\" }]\nmachine = \"nowhere\"", 5, "there is no machine"},
		{"end", "[stock]\nbar_length = \"6 m\"", 0, ""},
		{"end", "[stock]\nbar_length = \"100 mm\"", 2, "at least"},
	} {
		whole := with(c.mark, c.text)
		first := strings.Count(whole[:strings.Index(whole, c.text)], "\n")
		p, err := Load(strings.NewReader(whole), "")
		var list []Problem
		if le, ok := err.(*LoadError); ok {
			list = le.Problems
		} else if p != nil {
			list = p.Problems
		}
		if c.line == 0 {
			if len(list) > 0 {
				t.Errorf("%s\n%+v", c.text, list)
			}
			continue
		}
		found := false
		for _, q := range list {
			found = found || q.Line-first == c.line && strings.Contains(q.Message, c.want)
		}
		if !found {
			t.Errorf("%s\nwant line %d %q, got %+v", c.text, c.line, c.want, list)
		}
	}
}
