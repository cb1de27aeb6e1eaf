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
)

// drawingPaths expands the arguments of a command: a file is taken as it is, a
// folder gives every .dxf below it in order of name, "-" stands for names on
// standard input, one a line. Nothing is taken twice.
func drawingPaths(args []string, stdin io.Reader) ([]string, error) {
	var paths []string
	seen := map[string]bool{}
	add := func(p string) {
		key := filepath.Clean(p)
		if !seen[key] {
			seen[key] = true
			paths = append(paths, p)
		}
	}
	addAny := func(p string) error {
		info, err := os.Stat(p)
		if err != nil {
			return notThere(p, err)
		}
		if !info.IsDir() {
			add(p)
			return nil
		}
		found, err := drawingsBelow(p)
		if err != nil {
			return err
		}
		if len(found) == 0 {
			return fmt.Errorf("%s: no .dxf file in this folder", p)
		}
		for _, f := range found {
			add(f)
		}
		return nil
	}
	for _, a := range args {
		// Go's own wildcard for "everything below" is what many will type.
		a = strings.TrimSuffix(a, string(filepath.Separator)+"...")
		if a != "-" {
			if err := addAny(a); err != nil {
				return nil, err
			}
			continue
		}
		sc := bufio.NewScanner(stdin)
		sc.Buffer(nil, 1<<20)
		for sc.Scan() {
			if name := strings.TrimSpace(sc.Text()); name != "" {
				if err := addAny(name); err != nil {
					return nil, err
				}
			}
		}
		if err := sc.Err(); err != nil {
			return nil, fmt.Errorf("names on standard input: %w", err)
		}
	}
	if len(paths) == 0 {
		return nil, errors.New("no drawing named")
	}
	return paths, nil
}

func drawingsBelow(dir string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !e.IsDir() && strings.EqualFold(filepath.Ext(p), ".dxf") {
			found = append(found, p)
		}
		return nil
	})
	sort.Strings(found)
	return found, err
}

func notThere(p string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	h := hinted{err: fmt.Errorf("%s: no such file or folder", p)}
	if near, e := filepath.Glob(filepath.Join(filepath.Dir(p), "*.[dD][xX][fF]")); e == nil && len(near) > 0 {
		h.hint = fmt.Sprintf("%d drawings are in %s, among them %s", len(near), filepath.Dir(p), filepath.Base(near[0]))
	}
	return h
}

// writeWhole writes a file whole or not at all: into a temporary file beside
// it, which then takes its name.
func writeWhole(path string, write func(io.Writer) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	b := bufio.NewWriterSize(f, 1<<16)
	if err = write(b); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if err = b.Flush(); err != nil {
		return err
	}
	if err = f.Chmod(0o644); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
