package main

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"burrside/check"
	"burrside/dxfread/dxftest"
)

// hostileLimit is far above what any drawing of these tests takes, and far below
// what a loop that does not end takes.
const hostileLimit = 60 * time.Second

// checkAll runs the real command over files and gives its output, its words on
// the error stream and its status. It fails if the command does not end in time.
func checkAll(t *testing.T, args ...string) (out, errs string, code int) {
	t.Helper()
	ctx, stop := context.WithTimeout(context.Background(), hostileLimit)
	defer stop()
	var stdout, stderr bytes.Buffer
	code = run(ctx, append([]string{"check"}, args...), streams{in: strings.NewReader(""), out: &stdout, err: &stderr})
	if ctx.Err() != nil {
		t.Fatalf("check %v: not done after %v", args, hostileLimit)
	}
	return stdout.String(), stderr.String(), code
}

// write puts a file into a folder and gives its path.
func write(t *testing.T, dir, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// goodPlate is a plate with two holes, its thickness and its steel, which the
// example shop makes.
func goodPlate() *dxftest.Builder {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(50, 50, 9).Circle(150, 50, 9)
	return b.Text(10, -20, 5, "PL 10 S275")
}

func inUTF16(text string, order func(uint16) [2]byte) []byte {
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		b := order(u)
		out = append(out, b[:]...)
	}
	return out
}

func zipped(t *testing.T, data []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create("plate.dxf")
	if err != nil {
		t.Fatal(err)
	}
	w.Write(data)
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestNotDrawings: what is sent under the name of a drawing and is none is told
// by what it is, with exit status 2, and keeps no other file from being judged.
func TestNotDrawings(t *testing.T) {
	good := string(goodPlate().Bytes())
	var photo, shot bytes.Buffer
	picture := image.NewGray(image.Rect(0, 0, 40, 30))
	if err := jpeg.Encode(&photo, picture, nil); err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(&shot, picture); err != nil {
		t.Fatal(err)
	}
	little := func(u uint16) [2]byte { return [2]byte{byte(u), byte(u >> 8)} }
	big := func(u uint16) [2]byte { return [2]byte{byte(u >> 8), byte(u)} }
	noise := make([]byte, 5000)
	rng := rand.New(rand.NewPCG(3, 3))
	for i := range noise {
		noise[i] = byte(rng.Uint32())
	}
	dwg := append([]byte("AC1032\x00\x00\x00\x00\x00\x03"), noise[:600]...)
	dir := t.TempDir()
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"empty", nil, "not a DXF file: the file is empty"},
		{"one-byte", []byte("0"), "not a DXF file"},
		{"noise", noise, "not a DXF file"},
		{"photo", photo.Bytes(), "it is a JPEG picture"},
		{"screenshot", shot.Bytes(), "it is a PNG picture"},
		{"document", []byte("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n"), "it is a PDF document"},
		{"archive", zipped(t, []byte(good)), "it is a ZIP archive"},
		{"page", []byte("\r\n<!DOCTYPE html>\n<html><head><title>Sign in</title>"), "it is a web page"},
		{"vectors", []byte("<?xml version=\"1.0\"?>\n<svg></svg>"), "it is a text with tags"},
		{"dwg-2018", dwg, "this is a DWG file; export it as DXF (ASCII, 2000 or later)"},
		{"dwg-oldest", append([]byte("AC1.50\x00"), noise[:300]...), "this is a DWG file; export it as DXF (ASCII, 2000 or later)"},
		{"two-byte-text", append([]byte("\xff\xfe"), inUTF16(good, little)...), "it is text in UTF-16; save it as plain text"},
		{"two-byte-text-unmarked", inUTF16(good, little), "it is text in UTF-16; save it as plain text"},
		{"two-byte-text-swapped", inUTF16(good, big), "it is text in UTF-16; save it as plain text"},
		{"zeros", make([]byte, 4096), "nothing but zero bytes"},
		{"blanks", bytes.Repeat([]byte(" \r\n"), 2000), "not a DXF file"},
	} {
		path := write(t, dir, c.name+".dxf", c.data)
		out, _, code := checkAll(t, path, "--brief")
		if code != exitTrouble || !strings.Contains(out, "COULD NOT BE READ") || !strings.Contains(out, c.want) {
			t.Errorf("%s: exit %d, want %d with %q:\n%s", c.name, code, exitTrouble, c.want, out)
		}
	}

	// All of them in one folder with a good one.
	write(t, dir, "good.dxf", []byte(good))
	out, _, code := checkAll(t, dir, "--json")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	if code != exitTrouble || len(lines) != 17 {
		t.Fatalf("exit %d and %d lines, want %d and 17", code, len(lines), exitTrouble)
	}
	for _, line := range lines {
		var d struct {
			Drawing, Verdict string
			Error            *struct{ Text string }
		}
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			t.Fatal(err)
		}
		isGood := strings.HasSuffix(d.Drawing, "/good.dxf")
		if isGood != (d.Verdict == "fits") || isGood != (d.Error == nil) {
			t.Errorf("%s: %s, error %v", d.Drawing, d.Verdict, d.Error)
		}
	}
}

// TestNoFiles: what stands in a folder and cannot be opened as a file is told,
// at once, and keeps no other file from being judged.
func TestNoFiles(t *testing.T) {
	dir := t.TempDir()
	good := goodPlate().Bytes()
	write(t, dir, "a.dxf", good)
	write(t, dir, "z.dxf", good)
	if err := os.MkdirAll(filepath.Join(dir, "folder.dxf"), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "folder.dxf"), "inner.dxf", good)
	want := map[string]string{"dangling.dxf": "no such file", "round.dxf": "too many levels of symbolic links"}
	for name, to := range map[string]string{"dangling.dxf": "nowhere", "round.dxf": "round.dxf"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip("no symbolic links here:", err)
		}
	}
	if err := makePipe(filepath.Join(dir, "pipe.dxf")); err != nil {
		t.Log("no pipe is tried:", err)
	} else {
		want["pipe.dxf"] = "it is a pipe, not a file"
	}
	locked := write(t, dir, "locked.dxf", good)
	if err := os.Chmod(locked, 0); err != nil {
		t.Fatal(err)
	}
	if f, err := os.Open(locked); err == nil {
		f.Close()
		os.Remove(locked)
		t.Log("no locked file is tried: this user may read everything")
	} else {
		want["locked.dxf"] = "permission denied"
	}
	out, _, code := checkAll(t, dir, "--brief")
	if code != exitTrouble {
		t.Errorf("exit %d, want %d", code, exitTrouble)
	}
	for name, text := range want {
		if !lineWith(out, name, "COULD NOT BE READ: "+text) {
			t.Errorf("%s: not told as %q:\n%s", name, text, out)
		}
	}
	for _, name := range []string{"/a.dxf", "/z.dxf", "/folder.dxf/inner.dxf"} {
		if !lineWith(out, name, "FITS THIS SHOP") {
			t.Errorf("%s: not judged:\n%s", name, out)
		}
	}
}

// TestMissingArguments: of several things named, those that are there are judged.
func TestMissingArguments(t *testing.T) {
	dir := t.TempDir()
	a := write(t, dir, "a.dxf", goodPlate().Bytes())
	empty := filepath.Join(dir, "empty")
	if err := os.Mkdir(empty, 0o755); err != nil {
		t.Fatal(err)
	}
	out, errs, code := checkAll(t, filepath.Join(dir, "nowhere.dxf"), empty, a)
	if code != exitTrouble || !strings.Contains(out, "FITS THIS SHOP") {
		t.Errorf("exit %d, want %d and the verdict of a.dxf:\n%s", code, exitTrouble, out)
	}
	for _, want := range []string{"nowhere.dxf: no such file or folder", "empty: no .dxf file and no cut list in this folder"} {
		if !strings.Contains(errs, want) {
			t.Errorf("not said: %q:\n%s", want, errs)
		}
	}
}

func lineWith(text string, all ...string) bool {
	for _, line := range strings.Split(text, "\n") {
		has := true
		for _, s := range all {
			has = has && strings.Contains(line, s)
		}
		if has {
			return true
		}
	}
	return false
}

// TestTooLarge: a file above the limit is refused by its size and not read.
func TestTooLarge(t *testing.T) {
	path := write(t, t.TempDir(), "sparse.dxf", goodPlate().Bytes())
	if err := os.Truncate(path, 2<<30); err != nil {
		t.Skip("no sparse file here:", err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	out, _, code := checkAll(t, path, "--brief")
	runtime.ReadMemStats(&after)
	if code != exitTrouble || !strings.Contains(out, "the file is larger than the limit of 1 GiB") {
		t.Errorf("exit %d: %s", code, out)
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > 16<<20 {
		t.Errorf("%d MB of memory for a file that is not read", used>>20)
	}
}

// TestCutShort: a file that ends early is never a plain pass, whatever is
// missing, and its place is told; only the mark at the end may be lost.
func TestCutShort(t *testing.T) {
	data := goodPlate().Bytes()
	dir := t.TempDir()
	var names []string
	for percent := range 100 {
		names = append(names, write(t, dir, fmt.Sprintf("cut-%02d.dxf", percent), data[:len(data)*percent/100]))
	}
	out, _, code := checkAll(t, dir, "--json")
	if code != exitTrouble {
		t.Errorf("exit %d, want %d", code, exitTrouble)
	}
	lines := strings.Split(strings.TrimSpace(out), "\n")
	if len(lines) != len(names) {
		t.Fatalf("%d answers for %d files", len(lines), len(names))
	}
	sawPart := false
	for i, line := range lines {
		var d struct {
			Drawing, Verdict string
			Error            *struct {
				Line int64
				Text string
			}
			Findings []struct{ Rule, Message string }
			Parts    []struct{ Name string }
		}
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			t.Fatal(err)
		}
		if filepath.Base(d.Drawing) != filepath.Base(names[i]) {
			t.Fatalf("answer %d is about %s, want %s", i, d.Drawing, names[i])
		}
		ends := int64(bytes.Count(data[:len(data)*i/100], []byte("\n")) + 1)
		switch {
		case d.Verdict != "cannot-tell":
			t.Errorf("%s: %s", d.Drawing, d.Verdict)
		case d.Error != nil:
			// The place is the last line, or the one that should follow, or the pair before.
			if d.Error.Line < max(1, ends-2) || d.Error.Line > ends+1 {
				t.Errorf("%s: told at line %d, ends in line %d: %s", d.Drawing, d.Error.Line, ends, d.Error.Text)
			}
		default:
			sawPart = sawPart || len(d.Parts) > 0
			place := ""
			for _, f := range d.Findings {
				if f.Rule == "read-incomplete" {
					place = f.Message
				}
			}
			if !strings.Contains(place, "line ") {
				t.Errorf("%s: no place in %q", d.Drawing, place)
			}
		}
	}
	if !sawPart {
		t.Error("no file was cut behind the outline")
	}
}

// TestTimeLimit: a drawing that takes too long is given up, and the rest done.
func TestTimeLimit(t *testing.T) {
	dir := t.TempDir()
	b := dxftest.New(dxftest.MM)
	rng := rand.New(rand.NewPCG(5, 5))
	for range 20000 {
		b.Line(rng.Float64()*100, rng.Float64()*100, rng.Float64()*100, rng.Float64()*100)
	}
	slow := write(t, dir, "slow.dxf", b.Bytes())
	out, _, code := checkAll(t, slow, "--brief", "--time-limit", "30ms")
	if code != exitTrouble || !strings.Contains(out, "COULD NOT BE READ: it took longer than 30ms and was given up; --time-limit gives it more") {
		t.Errorf("exit %d: %s", code, out)
	}
}

// raw is a drawing in millimetres of a plate with its thickness and steel, with
// these blocks and further entities.
func raw(blocks, entities string) []byte {
	const plate = "0\nLWPOLYLINE\n8\n0\n90\n4\n70\n1\n10\n0\n20\n0\n10\n200\n20\n0\n10\n200\n20\n100\n10\n0\n20\n100\n" +
		"0\nTEXT\n8\n0\n10\n0\n20\n-20\n40\n5\n1\nPL 10 S275\n"
	return []byte("0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n" + blocks +
		"0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" + plate + entities + "0\nENDSEC\n0\nEOF\n")
}

func rawBlock(name, entities string) string {
	return "0\nBLOCK\n8\n0\n2\n" + name + "\n70\n0\n10\n0\n20\n0\n" + entities + "0\nENDBLK\n"
}

func rawInsert(name, x, y string) string {
	return "0\nINSERT\n8\n0\n2\n" + name + "\n10\n" + x + "\n20\n" + y + "\n"
}

func rawCircle(x, y, r string) string {
	return "0\nCIRCLE\n8\n0\n10\n" + x + "\n20\n" + y + "\n40\n" + r + "\n"
}

func rawLine(x1, y1, x2, y2 string) string {
	return "0\nLINE\n8\n0\n10\n" + x1 + "\n20\n" + y1 + "\n11\n" + x2 + "\n21\n" + y2 + "\n"
}

// repeated joins what each gives for 0 to n-1.
func repeated(n int, each func(i int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(each(i))
	}
	return b.String()
}

// TestHostileDrawings: drawings that are read, and hold what no drawing should,
// end in time, and are no plain pass where a hole may be missing.
func TestHostileDrawings(t *testing.T) {
	deep := func(n int) string {
		return repeated(n, func(i int) string { return rawBlock(fmt.Sprint("B", i), rawInsert(fmt.Sprint("B", i+1), "0", "0")) }) +
			rawBlock(fmt.Sprint("B", n), rawCircle("50", "50", "5"))
	}
	// Ten in ten in ten: 10 to the power of levels circles.
	many := func(levels int) string {
		return repeated(levels, func(l int) string {
			step := fmt.Sprint("1e", l)
			return rawBlock(fmt.Sprint("B", l), repeated(10, func(i int) string {
				return rawInsert(fmt.Sprint("B", l+1), fmt.Sprint(i)+step[1:], "0")
			}))
		}) + rawBlock(fmt.Sprint("B", levels), rawCircle("0.5", "0.5", "0.2"))
	}
	type hostile struct {
		name string
		data []byte
		want string // of the verdict; "" any but a plain pass
		long bool
	}
	cases := []hostile{
		{"deep", raw(deep(100_000), rawInsert("B0", "0", "0")), "cannot-tell", false},
		{"cycle", raw(rawBlock("A", rawCircle("50", "50", "5")+rawInsert("B", "0", "0"))+rawBlock("B", rawInsert("A", "0", "0")), rawInsert("A", "0", "0")), "cannot-tell", false},
		{"blocks-left-open", raw(repeated(50_000, func(i int) string { return fmt.Sprintf("0\nBLOCK\n8\n0\n2\nB%d\n70\n0\n", i) }), rawInsert("B49999", "0", "0")), "cannot-tell", false},
		{"vertices-2e9", raw("", "0\nLWPOLYLINE\n8\n0\n90\n2000000000\n70\n1\n10\n50\n20\n50\n10\n60\n20\n50\n10\n60\n20\n60\n"), "", false},
		{"knots-2e9", raw("", "0\nSPLINE\n8\n0\n70\n8\n71\n2000000000\n72\n2000000000\n73\n2000000000\n10\n1\n20\n1\n10\n5\n20\n1\n"), "cannot-tell", false},
		{"array-of-1e9", raw(rawBlock("A", rawCircle("0", "0", "5")), rawInsert("A", "0", "0")+"70\n32000\n71\n32000\n44\n20\n45\n20\n"), "", true},
		{"inserts-1e9", raw(many(9), rawInsert("B0", "300", "0")), "", true},
		{"inserts-1e6", raw(rawBlock("H", rawCircle("0", "0", "5")), repeated(1_000_000, func(i int) string {
			return rawInsert("H", fmt.Sprint(300+i%1000*20), fmt.Sprint(i/1000*20))
		})), "", true},
		{"line-of-100-MB", raw("", "0\nTEXT\n8\n0\n10\n1\n20\n1\n40\n5\n1\n"+strings.Repeat("A", 100_000_000)+"\n"), "", true},
		{"equal-lines", raw("", strings.Repeat(rawLine("10", "50", "190", "50"), 50_000)), "", false},
	}
	for _, v := range []string{"nan", "inf", "1e308", "-1e308", "1e400", "1e18"} {
		cases = append(cases,
			hostile{"line-to-" + v, raw("", rawLine("50", "50", v, "50")), "", false},
			hostile{"circle-at-" + v, raw("", rawCircle(v, "50", "5")), "", false},
			hostile{"radius-" + v, raw("", rawCircle("50", "50", v)), "", false},
			hostile{"insert-at-" + v, raw(rawBlock("A", rawCircle("0", "0", "5")), rawInsert("A", v, "50")), "", false})
	}
	dir := t.TempDir()
	for _, c := range cases {
		if c.long && testing.Short() {
			continue
		}
		path := write(t, dir, c.name+".dxf", c.data)
		out, _, code := checkAll(t, path, "--json", "--time-limit", "20s")
		os.Remove(path)
		var d struct {
			Verdict string
			Error   *struct{ Text string }
		}
		if err := json.Unmarshal([]byte(out), &d); err != nil {
			t.Fatal(err)
		}
		if d.Verdict == "fits" || c.want != "" && d.Verdict != c.want || code == exitFits && d.Verdict != "fits-with-care" {
			t.Errorf("%s: %s, exit %d, want %s", c.name, d.Verdict, code, c.want)
		}
		if d.Error != nil && !strings.Contains(d.Error.Text, "--time-limit") {
			t.Errorf("%s: %s", c.name, d.Error.Text)
		}
	}
}

// TestNet: a fault of our own on one drawing is told as such and is no verdict.
// Without a shop the judge falls.
func TestNet(t *testing.T) {
	path := write(t, t.TempDir(), "a.dxf", goodPlate().Bytes())
	q := &question{}
	rep, err := q.analyse(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	if rep.Err == nil || !strings.Contains(rep.Err.Error(), "a fault of burrside itself, not of the drawing") || rep.Verdict != check.CannotTell {
		t.Errorf("%s, %v", rep.Verdict, rep.Err)
	}
	tl := newTally(false)
	f := &checkFlags{json: true}
	a, err := f.answer(streams{}, rep, true)
	if err != nil {
		t.Fatal(err)
	}
	if tl.add(a); tl.status() != exitTrouble {
		t.Errorf("exit %d, want %d", tl.status(), exitTrouble)
	}
}

// TestAnswersTogether: an answers file serves drawings that are judged at once,
// and the answers come in the order of names, each time the same.
func TestAnswersTogether(t *testing.T) {
	dir := t.TempDir()
	rows := "file,thickness\n"
	b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	for i := range 300 {
		name := fmt.Sprintf("p%03d.dxf", i)
		write(t, dir, name, b.Bytes())
		rows += fmt.Sprintf("%s,%dmm\n", name, 5+i%8)
	}
	answers := write(t, dir, "answers.csv", []byte(rows))
	first := ""
	for range 3 {
		out, errs, code := checkAll(t, dir, "--json", "--material", "S275", "--answers", answers)
		if errs != "" || code != exitFits {
			t.Fatalf("exit %d: %s", code, errs)
		}
		if first == "" {
			first = out
		}
		if out != first {
			t.Fatal("two runs give two answers")
		}
	}
	for i, line := range strings.Split(strings.TrimSpace(first), "\n") {
		if want := fmt.Sprintf("/p%03d.dxf", i); !strings.Contains(line, want) || !strings.Contains(line, fmt.Sprintf(`"thickness_mm":%d,`, 5+i%8)) {
			t.Fatalf("line %d is not about %s, %d mm", i, want, 5+i%8)
		}
	}
}
