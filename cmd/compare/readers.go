package main

import (
	"bytes"
	"context"
	"embed"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"burrside/dxfread"
)

//go:embed helpers
var helpers embed.FS

// reader is a program that counts the entities of one file, timed as a whole.
type reader struct {
	name    string
	command []string // the file follows
	env     []string // beside the usual
}

// pythonPath is Debian's own: another python3 may stand first on the PATH and
// does not see its packages.
const pythonPath = "/usr/bin/python3"

// parserVersion of dxf-parser that the figures in DEVELOPERS.md are of.
const parserVersion = "1.1.2"

func aptCommand() string {
	return "apt-get install g++ libdxflib-dev python3-ezdxf python3-shapely nodejs npm"
}

func npmCommand(modules string) string {
	return fmt.Sprintf("npm install --prefix %s dxf-parser@%s", modules, parserVersion)
}

func printInstall(w io.Writer, modules string) {
	fmt.Fprintln(w, aptCommand())
	fmt.Fprintln(w, npmCommand(modules))
}

// findReaders lists ours and those others that work on this machine; dir takes
// their programs.
func findReaders(ctx context.Context, w io.Writer, dir, modules string) ([]reader, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	list := []reader{{name: "burrside", command: []string{self, countWord}}}
	if err := os.CopyFS(dir, helpers); err != nil {
		return nil, err
	}
	program := func(name string) string { return filepath.Join(dir, "helpers", name) }
	counter := filepath.Join(dir, "count")
	for _, other := range []struct {
		reader
		probe []string // fails where the library is missing, or builds the program
		get   string
	}{
		{reader{name: "dxflib (C++)", command: []string{counter}},
			[]string{"g++", "-O2", "-std=c++17", "-o", counter, program("count.cpp"), "-ldxflib"}, aptCommand()},
		{reader{name: "dxf-parser (node)", command: []string{"node", program("count.js")},
			env: []string{"NODE_PATH=" + filepath.Join(modules, "node_modules")}},
			[]string{"node", "-e", `require("dxf-parser")`}, npmCommand(modules)},
		{reader{name: "ezdxf (Python)", command: []string{pythonPath, program("count.py")}},
			[]string{pythonPath, "-c", "import ezdxf"}, aptCommand()},
	} {
		if _, _, err := runProgram(ctx, other.env, nil, other.probe); err != nil {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			fmt.Fprintf(w, "LEFT OUT: %s is not on this machine (%v); %s\n", other.name, err, other.get)
			continue
		}
		list = append(list, other.reader)
	}
	return list, nil
}

// runProgram runs a command and gives its output and its CPU time; the error
// ends with the line in which the command names the cause.
func runProgram(ctx context.Context, env []string, in io.Reader, command []string) (out []byte, cpu time.Duration, err error) {
	cmd := exec.CommandContext(ctx, command[0], command[1:]...)
	cmd.Env = append(os.Environ(), env...)
	cmd.Stdin = in
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		if said := strings.Split(strings.TrimSpace(stderr.String()), "\n"); said[0] != "" {
			return nil, 0, fmt.Errorf("%w: %s", err, firstLineThatTells(said))
		}
		return nil, 0, err
	}
	return stdout.Bytes(), cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), nil
}

// firstLineThatTells picks the line of an error text that names the cause.
func firstLineThatTells(lines []string) string {
	for _, l := range lines {
		if strings.Contains(strings.ToLower(l), "error") {
			return strings.TrimSpace(l)
		}
	}
	return strings.TrimSpace(lines[len(lines)-1])
}

// kindName is the name under which all readers count a kind of entity.
func kindName(name string) string {
	switch name {
	case "LWPOLYLINE":
		return "POLYLINE"
	case "MTEXT":
		return "TEXT"
	}
	return name
}

func countEntities(d *dxfread.Drawing) map[string]int {
	counts := map[string]int{}
	for _, e := range d.Model {
		counts[kindName(e.Name())]++
	}
	return counts
}

// printCounts reads a file the way the helpers do and prints what they print.
func printCounts(ctx context.Context, w io.Writer, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	d, err := dxfread.Read(ctx, f, dxfread.Limits{})
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	counts := countEntities(d)
	for _, kind := range slices.Sorted(maps.Keys(counts)) {
		fmt.Fprintln(w, kind, counts[kind])
	}
	return nil
}

// parseCounts reads what printCounts and the helpers print.
func parseCounts(text []byte) (map[string]int, error) {
	counts := map[string]int{}
	for line := range strings.Lines(string(text)) {
		var kind string
		var n int
		if _, err := fmt.Sscan(line, &kind, &n); err != nil {
			return nil, fmt.Errorf("%q is not a kind and a count", strings.TrimSpace(line))
		}
		counts[kind] += n
	}
	return counts, nil
}
