// Command compare times burrside's reading and joining against libraries that
// do the same, side by side in one run on one machine. It is for contributors:
// a figure in DEVELOPERS.md is worth something only if anybody can get it again.
//
//	go run ./cmd/compare                      generated files of 1, 10 and 50 MB
//	go run ./cmd/compare -sizes 5 plate.dxf   one of 5 MB, and a file of yours
//	go run ./cmd/compare -install             what to install for all of it
//
// What is missing on the machine is said and left out.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
)

// countWord as the first argument makes the command a reader itself: it counts
// the entities of one file and ends, so that ours is timed as a process too.
const countWord = "count-entities"

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	var err error
	if len(os.Args) == 3 && os.Args[1] == countWord {
		err = printCounts(ctx, os.Stdout, os.Args[2])
	} else {
		err = compare(ctx, os.Stdout, os.Args[1:])
	}
	if errors.Is(err, flag.ErrHelp) {
		return
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "compare:", err)
		os.Exit(2)
	}
}

// options are what is asked for.
type options struct {
	sizes   []int // MB of generated files
	times   int
	edges   int
	modules string // folder of npm's modules
	install bool
	files   []string
}

func parse(args []string) (options, error) {
	var o options
	fs := flag.NewFlagSet("compare", flag.ContinueOnError)
	fs.Usage = func() {
		fmt.Fprintf(fs.Output(), "usage: compare [flags] [FILE.dxf ...]\n\nTimes reading and joining against other libraries.\n\n")
		fs.PrintDefaults()
	}
	sizes := fs.String("sizes", "1,10,50", "`MB` of the files to generate, parted by commas; empty for none")
	fs.IntVar(&o.times, "times", 3, "runs of each, the best counts; fewer where they are long")
	fs.IntVar(&o.edges, "edges", 100_000, "loose edges to join; 0 for none")
	fs.StringVar(&o.modules, "modules", filepath.Join(os.TempDir(), "burrside-compare"), "`folder` that npm installed dxf-parser into")
	fs.BoolVar(&o.install, "install", false, "only print the commands that install the other libraries")
	if err := fs.Parse(args); err != nil {
		return o, err
	}
	for _, s := range strings.FieldsFunc(*sizes, func(r rune) bool { return r == ',' }) {
		n, err := strconv.Atoi(strings.TrimSpace(s))
		if err != nil || n < 1 || n > 1000 {
			return o, fmt.Errorf("-sizes: %q is not a number of MB from 1 to 1000", s)
		}
		o.sizes = append(o.sizes, n)
	}
	if o.times < 1 {
		return o, fmt.Errorf("-times: %d is less than 1", o.times)
	}
	o.files = fs.Args()
	return o, nil
}

func compare(ctx context.Context, w io.Writer, args []string) error {
	o, err := parse(args)
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "compare-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if o.install {
		printInstall(w, o.modules)
		return nil
	}
	readers, err := findReaders(ctx, w, dir, o.modules)
	if err != nil {
		return err
	}
	for _, mb := range o.sizes {
		path := filepath.Join(dir, fmt.Sprintf("generated-%dMB.dxf", mb))
		if err := writeDrawing(path, mb<<20); err != nil {
			return err
		}
		if err := compareReading(ctx, w, readers, path, o.times); err != nil {
			return err
		}
		os.Remove(path)
	}
	for _, path := range o.files {
		if err := compareReading(ctx, w, readers, path, o.times); err != nil {
			return err
		}
	}
	if o.edges > 0 {
		return compareJoining(ctx, w, dir, o.edges, o.times)
	}
	return nil
}
