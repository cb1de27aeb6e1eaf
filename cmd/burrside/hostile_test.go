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
	for _, want := range []string{"nowhere.dxf: no such file or folder", "empty: no .dxf file in this folder"} {
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
