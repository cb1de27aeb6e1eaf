package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"burrside/render"
)

func newSample(io streams) *cobra.Command {
	return &cobra.Command{
		Use:   "sample DIR",
		Short: "Write the drawings of an invented job to try things on",
		Long: `Writes the drawings of an invented job, parts of a small timber-and-steel
footbridge, a cut list of its railing, and an answers.csv for the drawings that
leave something open. Some parts
fit the example shop, some do not, one drawing is broken: all on purpose.
Files that are there already are left alone, and then nothing is written.`,
		Example: "  burrside sample footbridge\n  burrside check footbridge --answers footbridge/answers.csv --out report",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return hinted{err: errors.New("sample: one folder is needed"), hint: "burrside sample DIR"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runSample(io, args[0]) },
	}
}

func runSample(out streams, dir string) error {
	parts := sampleParts()
	names := []string{"answers.csv", sampleListFile}
	for _, p := range parts {
		names = append(names, p.file)
	}
	for _, n := range names {
		if _, err := os.Lstat(filepath.Join(dir, n)); err == nil {
			return hinted{err: fmt.Errorf("%s is there already; nothing was written", filepath.Join(dir, n)), hint: "name a new folder"}
		}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, p := range parts {
		if err := writeWhole(filepath.Join(dir, p.file), p.draw().Write); err != nil {
			return err
		}
		fmt.Fprintf(out.out, "%-24s %s\n", p.file, p.about)
	}
	if err := writeWhole(filepath.Join(dir, "answers.csv"), writeSampleAnswers); err != nil {
		return err
	}
	if err := writeWhole(filepath.Join(dir, sampleListFile), writeSampleList); err != nil {
		return err
	}
	fmt.Fprintf(out.out, "%-24s %s\n", sampleListFile, "cut list of the railing: bars, channel, tubes and pipe without drawings")
	fmt.Fprintf(out.out, "%-24s %s\n", "answers.csv", "what the customer answered about hinge-leaf and rail-bracket")
	return nil
}

func writeSampleAnswers(w io.Writer) error {
	_, err := io.WriteString(w, "file,thickness,material,quantity,units\nrail-bracket.dxf,10 mm,S275,24,\nhinge-leaf.dxf,,mild,6,\n")
	return err
}

// samplePart is one drawing of the invented job.
type samplePart struct {
	file  string
	about string
	draw  func() *render.DXFOut
}
