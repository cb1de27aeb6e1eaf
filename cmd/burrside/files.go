package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"burrside/render"
)

// drawings are the files that a command is asked about.
type drawings struct {
	paths    []string
	troubles []error // arguments and folders that give none, or not all of theirs
	seen     map[string]bool
	lists    bool // cut lists are taken from folders too
}

// findDrawings expands the arguments of a command: a file is taken as it is, a
// folder gives every .dxf below it in order of name, "-" stands for names on
// standard input, one a line. With lists a folder gives its cut lists too: each
// .csv whose first line names their columns. Nothing is taken twice. What is not there is a
// trouble and keeps nothing else from being done; the error is that nothing is
// left to do.
func findDrawings(args []string, stdin io.Reader, lists bool) (*drawings, error) {
	d := &drawings{seen: map[string]bool{}, lists: lists}
	for _, a := range args {
		// Go's own wildcard for "everything below" is what many will type.
		a = strings.TrimSuffix(a, string(filepath.Separator)+"...")
		if a != "-" {
			d.add(a)
			continue
		}
		sc := bufio.NewScanner(stdin)
		sc.Buffer(nil, 1<<20)
		for sc.Scan() {
			if name := strings.TrimSpace(sc.Text()); name != "" {
				d.add(name)
			}
		}
		if err := sc.Err(); err != nil {
			d.troubles = append(d.troubles, fmt.Errorf("names on standard input: %w", err))
		}
	}
	if len(d.paths) > 0 {
		return d, nil
	}
	switch len(d.troubles) {
	case 0:
		return nil, errors.New("no drawing named")
	case 1:
		return nil, d.troubles[0]
	}
	return nil, errors.Join(d.troubles...)
}

// say writes the troubles for people.
func (d *drawings) say(w io.Writer) {
	for _, err := range d.troubles {
		sayError(w, err)
	}
}

// add takes a file, or all drawings of a folder.
func (d *drawings) add(path string) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		d.troubles = append(d.troubles, notThere(path, err))
	case !info.IsDir():
		d.one(path)
	default:
		before, said := len(d.paths), len(d.troubles)
		d.below(path)
		if len(d.paths) == before && len(d.troubles) == said {
			what := ""
			if d.lists {
				what = " and no cut list"
			}
			d.troubles = append(d.troubles, fmt.Errorf("%s: no .dxf file%s in this folder", path, what))
		}
	}
}

func (d *drawings) one(path string) {
	if key := filepath.Clean(path); !d.seen[key] {
		d.seen[key] = true
		d.paths = append(d.paths, path)
	}
}

// below takes every .dxf below a folder. A folder that cannot be listed is a
// trouble; what lies beside it is still taken.
func (d *drawings) below(dir string) {
	var found []string
	// The error is none: the function gives none.
	filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			d.troubles = append(d.troubles, err)
			return nil
		}
		if !e.IsDir() && strings.EqualFold(filepath.Ext(p), ".dxf") && !isMarks(p) {
			found = append(found, p)
		}
		if d.lists && !e.IsDir() && isCSV(p) && isList(p) {
			found = append(found, p)
		}
		return nil
	})
	sort.Strings(found)
	for _, p := range found {
		d.one(p)
	}
}

// marksEnd is how the name of a file of red-lines ends.
const marksEnd = "-marks.dxf"

// isMarks tells whether a file is one of red-lines that an earlier run wrote
// among the drawings: no drawing to be judged. Named by itself it is taken all
// the same.
func isMarks(path string) bool {
	if !strings.HasSuffix(path, marksEnd) {
		return false
	}
	f, err := openDrawing(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, len(render.MarksHead))
	_, err = io.ReadFull(f, head)
	return err == nil && string(head) == render.MarksHead
}

// openDrawing opens a regular file. A pipe, a device or a socket is refused
// before it is opened: it may keep its reader waiting for ever.
func openDrawing(path string) (*os.File, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, reason(err)
	}
	switch mode := info.Mode(); {
	case mode.IsRegular():
	case mode.IsDir():
		return nil, errors.New("it is a folder, not a file")
	case mode&fs.ModeNamedPipe != 0:
		return nil, errors.New("it is a pipe, not a file; save what comes out of it as a file first")
	default:
		return nil, errors.New("it is a device or a socket, not a file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, reason(err)
	}
	return f, nil
}

// reason leaves the name of the file out of an error that is told beside it.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

func notThere(p string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: %w", p, reason(err))
	}
	h := hinted{err: fmt.Errorf("%s: no such file or folder", p)}
	if near, e := filepath.Glob(filepath.Join(filepath.Dir(p), "*.[dD][xX][fF]")); e == nil && len(near) > 0 {
		h.hint = fmt.Sprintf("%d drawings are in %s, among them %s", len(near), filepath.Dir(p), filepath.Base(near[0]))
	}
	return h
}

// wholeFile is a file that appears whole or not at all: it is written beside
// its place and takes its name when it is done.
type wholeFile struct {
	*bufio.Writer
	f    *os.File
	path string
}

func createWhole(path string) (*wholeFile, error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return nil, err
	}
	return &wholeFile{bufio.NewWriterSize(f, 1<<16), f, path}, nil
}

// finish gives the file its name.
func (w *wholeFile) finish() error {
	err := w.Flush()
	if err == nil {
		err = w.f.Chmod(0o644)
	}
	if err != nil {
		w.drop()
		return err
	}
	if err = w.f.Close(); err == nil {
		err = os.Rename(w.f.Name(), w.path)
	}
	if err != nil {
		os.Remove(w.f.Name())
	}
	return err
}

// drop leaves nothing behind.
func (w *wholeFile) drop() {
	w.f.Close()
	os.Remove(w.f.Name())
}

// writeWhole writes a file whole or not at all.
func writeWhole(path string, write func(io.Writer) error) error {
	w, err := createWhole(path)
	if err != nil {
		return err
	}
	if err := write(w); err != nil {
		w.drop()
		return fmt.Errorf("%s: %w", path, err)
	}
	return w.finish()
}
