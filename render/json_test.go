package render

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"burrside/check"
	"burrside/features"

	"github.com/google/go-cmp/cmp"
	"github.com/invopop/jsonschema"
	santhosh "github.com/santhosh-tekuri/jsonschema/v6"
)

// golden compares got with testdata/name; UPDATE_GOLDEN=1 writes it.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s differs (-want +got), UPDATE_GOLDEN=1 renews it:\n%s", name, d)
	}
}

// reflectSchema makes the schema from the types. A strict one allows no other keys.
func reflectSchema(strict bool) []byte {
	words := func(v ...any) *jsonschema.Schema { return &jsonschema.Schema{Type: "string", Enum: v} }
	anys := func(n int, at func(int) string) []any {
		var l []any
		for i := range n {
			l = append(l, at(i))
		}
		return l
	}
	v, s, k, sh, m, u := verdicts(), severities(), features.Kinds(), features.NotchShapes(), madeBys(), unitsFroms()
	enums := map[reflect.Type]*jsonschema.Schema{
		reflect.TypeFor[jsonVerdict]():    words(anys(len(v), func(i int) string { return string(v[i]) })...),
		reflect.TypeFor[jsonSeverity]():   words(anys(len(s), func(i int) string { return string(s[i]) })...),
		reflect.TypeFor[jsonKind]():       words(anys(len(k), func(i int) string { return string(k[i]) })...),
		reflect.TypeFor[jsonShape]():      words(anys(len(sh), func(i int) string { return string(sh[i]) })...),
		reflect.TypeFor[jsonMadeBy]():     words(anys(len(m), func(i int) string { return m[i] })...),
		reflect.TypeFor[jsonChangeKind](): words(anys(len(changeKinds()), func(i int) string { return string(changeKinds()[i]) })...),
		reflect.TypeFor[jsonUnitsFrom]():  words(anys(len(u), func(i int) string { return string(u[i]) })...),
	}
	r := jsonschema.Reflector{
		Anonymous: true, AllowAdditionalProperties: !strict, ExpandedStruct: true,
		Namer:  func(t reflect.Type) string { return strings.ToLower(strings.TrimPrefix(t.Name(), "json")) },
		Mapper: func(t reflect.Type) *jsonschema.Schema { return enums[t] },
	}
	schema := r.Reflect(&jsonDrawing{})
	schema.Title = "one drawing judged by burrside"
	b, err := json.MarshalIndent(schema, "", " ")
	if err != nil {
		panic(err)
	}
	return append(b, '\n')
}

func compile(t testing.TB, text []byte) *santhosh.Schema {
	t.Helper()
	doc, err := santhosh.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := santhosh.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSchemaIsFresh(t *testing.T) {
	fresh := reflectSchema(false)
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile("schema.json", fresh, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(string(Schema()), string(fresh)); d != "" {
		t.Errorf("schema.json is stale, UPDATE_GOLDEN=1 renews it:\n%s", d)
	}
}

func lineOf(t testing.TB, rep *check.Report) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := JSON(&b, rep); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestJSONFollowsItsSchema(t *testing.T) {
	schemas := []*santhosh.Schema{compile(t, reflectSchema(false)), compile(t, reflectSchema(true))}
	n := 0
	for _, r := range allReports() {
		text := lineOf(t, r.rep)
		if bytes.Count(text, []byte("\n")) != 1 || text[len(text)-1] != '\n' {
			t.Errorf("%s: not one line", r.name)
		}
		doc, err := santhosh.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", r.name, err)
		}
		for _, s := range schemas {
			if err := s.Validate(doc); err != nil {
				t.Errorf("%s: %v\n%s", r.name, err, text)
			}
			n++
		}
		if again := lineOf(t, r.rep); !bytes.Equal(text, again) {
			t.Errorf("%s: the bytes differ from run to run", r.name)
		}
	}
	if n == 0 {
		t.Fatal("nothing was validated")
	}
}

func TestSchemaRefusesWrongReports(t *testing.T) {
	s := compile(t, Schema())
	good := string(lineOf(t, plateReport()))
	for name, edit := range map[string][2]string{
		"format":             {`"format":"burrside/1"`, `"format":"burrside/0"`},
		"verdict":            {`"verdict":"does-not-fit"`, `"verdict":"approved"`},
		"severity":           {`"severity":"error"`, `"severity":"fatal"`},
		"kind":               {`"kind":"round-hole"`, `"kind":"hole"`},
		"made_by":            {`"made_by":"punch"`, `"made_by":"laser"`},
		"no findings":        {`"loose":[],`, ``},
		"null list":          {`"loose":[]`, `"loose":null`},
		"number as text":     {`"diameter_mm":22`, `"diameter_mm":"22"`},
		"point of three":     {`"at_mm":[20,100]`, `"at_mm":[20,100,0]`},
		"handle":             {`"handle":"3A"`, `"handle":"0x3a"`},
		"zero thickness":     {`"thickness_mm":10`, `"thickness_mm":0`},
		"machine must stand": {`"machine":"north bay","station":"punch","tool":null,`, `"station":"punch","tool":null,`},
	} {
		if !strings.Contains(good, edit[0]) {
			t.Errorf("%s: %q is not in the report", name, edit[0])
			continue
		}
		doc, err := santhosh.UnmarshalJSON(strings.NewReader(strings.Replace(good, edit[0], edit[1], 1)))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if s.Validate(doc) == nil {
			t.Errorf("%s: the schema takes %q", name, edit[1])
		}
	}
}

func TestJSONGoldens(t *testing.T) {
	for _, r := range allReports() {
		switch r.name {
		case "plate", "gusset", "nothick", "open", "unreadable":
			var b bytes.Buffer
			if err := json.Indent(&b, lineOf(t, r.rep), "", " "); err != nil {
				t.Fatal(err)
			}
			golden(t, "json/"+r.name+".json", b.Bytes())
		}
	}
}

// The keys of the contract, as the design lists them, must all be there with
// the values of the case.
func TestJSONKeysOfTheContract(t *testing.T) {
	text := string(lineOf(t, plateReport()))
	for _, want := range []string{`"format":"burrside/1"`, `"drawing":"g7.dxf"`, `"units":{"name":"mm","from":"header"`, `"code":"EN 1993-1-8:2005"`,
		`"form":"flat"`, `"copies":1`, `"quantity":4`, `"thickness_mm":10,"thickness_from":"text"`, `"material":"S275"`, `"bbox_mm":[200,140]`,
		`"blank":{"form":"bar","size_mm":[200,140]`, `"limiting":{"rule":"punch-force","features":["H1"],"share":0.4417}`,
		`"id":"H1","kind":"round-hole","at_mm":[20,100]`, `"made_by":"punch","machine":"north bay","station":"punch","tool":"Ø22"`,
		`"rule":"edge-distance","severity":"error","features":["H1"],"count":1,"at_mm":[20,100]`, `"got":{"value":20,"unit":"mm"},"limit":{"value":26.4,"unit":"mm"}`,
		`"fix_by":"drawing"`, `"sources":["EN 1993-1-8:2005 Table 3.3"]`, `"skipped":[{"rule":"edge-distance","why":"no code chosen"}`,
		`"hits":4,"bites":0,"cuts":2,"bends":0,"tool_changes":1`, `"set_up_minutes":5,"minutes_each":1.8,"minutes_total":12.2`, `"loose":[]`,
		`"source":[{"line":912,"handle":"3A","layer":"CUT","block":[]}]`, `"block":["A","B"]`, `"code":"gap-closed","at_mm":[0,0]`, `"suppressed_by":"thickness-missing"`,
		`"u_mm":20,"v_mm":100`} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
	if text := string(lineOf(t, noThicknessReport())); strings.Contains(text, `"thickness_mm":0`) || strings.Contains(text, `"hits":0`) ||
		!strings.Contains(text, `{"material":"mild","thickness_mm":16,"verdict":"fits","stopped_by":null`) {
		t.Errorf("unknown numbers or limits are wrong:\n%s", text)
	}
	if text := string(lineOf(t, unreadableReport())); !strings.Contains(text, `"error":{"line":4711,"text":"line 4711: the file ends too early"}`) || !strings.Contains(text, `"parts":[]`) {
		t.Errorf("unreadable: %s", text)
	}
	r := check.Unreadable("x.dxf", nil, errors.New("no such thing"))
	if text := string(lineOf(t, r)); !strings.Contains(text, `"error":{"text":"no such thing"}`) {
		t.Errorf("an unknown line must be absent: %s", text)
	}
}

func TestNumbersOfJSON(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{{1.00004, 1}, {1.00006, 1.0001}, {-0.00001, 0}, {math.NaN(), 0}, {math.Inf(1), 0}, {-3.14159265, -3.1416}, {1e15, 1e15}} {
		if got := round4(c.in); got != c.want || math.Signbit(got) != math.Signbit(c.want) {
			t.Errorf("round4(%v) = %v, want %v", c.in, got, c.want)
		}
	}
	r := plateReport()
	r.Parts[0].Part.Features[0].DiameterMM = math.NaN()
	r.Parts[0].Part.Features[0].At.X = math.Inf(1)
	r.Parts[0].Findings[0].Got.Value = math.NaN()
	r.Parts[0].Findings[0].At.X = math.NaN()
	r.Parts[0].Plan.Work.MinutesEach = math.Inf(-1)
	text := lineOf(t, r)
	doc, err := santhosh.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if err := compile(t, Schema()).Validate(doc); err != nil {
		t.Error(err)
	}
}
