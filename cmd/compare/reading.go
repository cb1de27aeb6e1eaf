package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"
	"time"

	"burrside/dxfread"
)

// longRun is the time after which a reader is not run again.
const longRun = 20 * time.Second

// timing is the least of several runs.
type timing struct {
	runs int
	wall time.Duration // by the clock
	cpu  time.Duration // of a process, on all cores; 0 unknown
}

// bestOf runs work up to times times. What work returns is its CPU time, 0 where
// it is not known.
func bestOf(times int, work func() (time.Duration, error)) (timing, error) {
	var best timing
	begin := time.Now()
	for best.runs < times && (best.runs == 0 || time.Since(begin) < longRun) {
		start := time.Now()
		cpu, err := work()
		if err != nil {
			return best, err
		}
		wall := time.Since(start)
		if best.runs == 0 {
			best.wall, best.cpu = wall, cpu
		}
		best.wall, best.cpu = min(best.wall, wall), min(best.cpu, cpu)
		best.runs++
	}
	return best, nil
}

// compareReading prints a table for one file: each reader as a whole process,
// by the clock and by CPU time (on a busy machine only this can be trusted),
// ours in process as well. A reader that fails on the file says so in its row.
func compareReading(ctx context.Context, w io.Writer, readers []reader, path string, times int) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	mb := float64(len(data)) / 1e6
	fmt.Fprintf(w, "\nreading %s, %.1f MB\n", filepath.Base(path), mb)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "\treader\tbest of\ts\tMB/s\ttimes as long\tCPU s\ttimes as much\tentities")
	var first timing // of burrside as a process
	var ours map[string]int
	row := func(name string, counts map[string]int, best timing, err error) {
		if err != nil {
			fmt.Fprintf(t, "\t%s\t-\t-\t-\t-\t-\t-\tfailed: %v\n", name, err)
			return
		}
		if first.runs == 0 {
			first, ours = best, counts
		}
		cpu, more := "-", "-"
		if best.cpu > 0 && first.cpu > 0 {
			cpu, more = fmt.Sprintf("%.3f", best.cpu.Seconds()), fmt.Sprintf("%.1f", best.cpu.Seconds()/first.cpu.Seconds())
		}
		fmt.Fprintf(t, "\t%s\t%d\t%.3f\t%.1f\t%.1f\t%s\t%s\t%s\n", name, best.runs, best.wall.Seconds(), mb/best.wall.Seconds(),
			best.wall.Seconds()/first.wall.Seconds(), cpu, more, countsText(counts, ours))
	}
	for _, r := range readers {
		var counts map[string]int
		best, err := bestOf(times, func() (time.Duration, error) {
			out, cpu, err := runProgram(ctx, r.env, nil, append(slices.Clone(r.command), path))
			if err == nil {
				counts, err = parseCounts(out)
			}
			return cpu, err
		})
		if ctx.Err() != nil {
			return ctx.Err()
		}
		row(r.name, counts, best, err)
	}
	var counts map[string]int
	best, err := bestOf(times, func() (time.Duration, error) {
		d, err := dxfread.Read(ctx, bytes.NewReader(data), dxfread.Limits{})
		if err == nil {
			counts = countEntities(d)
		}
		return 0, err
	})
	if ctx.Err() != nil {
		return ctx.Err()
	}
	row("burrside in process", counts, best, err)
	return t.Flush()
}

// countsText is the sum of counts, and each kind of which ours are more or less.
func countsText(counts, ours map[string]int) string {
	total := 0
	for _, n := range counts {
		total += n
	}
	var differ []string
	kinds := map[string]bool{}
	if ours != nil {
		for k := range counts {
			kinds[k] = true
		}
		for k := range ours {
			kinds[k] = true
		}
	}
	for _, k := range slices.Sorted(maps.Keys(kinds)) {
		if counts[k] != ours[k] {
			differ = append(differ, fmt.Sprintf("%s %d, burrside %d", k, counts[k], ours[k]))
		}
	}
	switch {
	case ours == nil:
		return fmt.Sprint(total)
	case differ == nil:
		return fmt.Sprintf("%d, the same of each kind", total)
	}
	return fmt.Sprintf("%d (%s)", total, strings.Join(differ, "; "))
}
