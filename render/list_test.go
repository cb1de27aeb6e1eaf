package render

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features/cutlist"

	santhosh "github.com/santhosh-tekuri/jsonschema/v6"
)

// listReport judges a cut list in the built-in shop.
func listReport(t *testing.T, name, text string, job plan.Job) *check.Report {
	t.Helper()
	list, err := cutlist.Read(strings.NewReader(text), cutlist.Options{Unit: "mm", From: "as the shop works"})
	if err != nil {
		t.Fatal(err)
	}
	rep, err := check.RunList(context.Background(), name, list, shop.BuiltIn(), job)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

const everyBar = `section,length,quantity,material,end
FL 100x10,1200,4,S275,mitre 45/45
L75x75x8,600 mm,2,S275,mitre 45
RD 20,300,24,mild,point
SQ 12,250,10,,
UPN 100,1500,4,S275,square
C 100,1500,4,S355,
SHS 40x40x3,1 m,6,S235,mitre 30
CHS 48.3x3.2,900,8,S235,saddle 90/90
DN40,900,,steel as usual,saddle 90 to 60.3
IPE 100,900,1,S275,
FL 100x10,8 m,1,S275,
`

// A list in every form: text, JSON by the schema, one line, summary, questions.
func TestListReport(t *testing.T) {
	rep := listReport(t, "railing.csv", everyBar, plan.Job{})
	golden(t, "list.txt", []byte(textOf(t, rep, TextOptions{Why: true})))
	line := lineOf(t, rep)
	golden(t, "list.json", append(line, '\n'))
	doc, err := santhosh.UnmarshalJSON(bytes.NewReader(line))
	if err != nil {
		t.Fatal(err)
	}
	if err := compile(t, reflectSchema(true)).Validate(doc); err != nil {
		t.Error(err)
	}
	var b bytes.Buffer
	if err := Brief(&b, rep); err != nil || strings.Count(b.String(), "\n") != 1 {
		t.Errorf("%q %v", b.String(), err)
	}
	if err := Summary(&b, []*check.Report{rep}); err != nil {
		t.Error(err)
	}
	if err := Questions(&b, []*check.Report{rep}); err != nil {
		t.Error(err)
	}
	golden(t, "list-files.txt", b.Bytes())
	for l := range strings.SplitSeq(textOf(t, rep, TextOptions{All: true, Why: true}), "\n") {
		if columns(l) > 100 {
			t.Errorf("a line of %d columns: %q", columns(l), l)
		}
	}
}
