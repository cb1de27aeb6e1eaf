package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"burrside/dxfread"
	"burrside/features"
)

func newInspect(io streams) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "inspect FILE...",
		Short: "Show what the reader sees in a drawing",
		Long: `Prints what was read of a DXF file and judges nothing: version, unit, layers with
their counts, entities by kind, extents, and a note for all that was skipped,
repaired or guessed. Angles are told with what shows them, their section and
their hand. Counts are of what the file holds and of what stands in the
space after all blocks are placed.`,
		Example: `  burrside inspect plate.dxf
  burrside inspect plate.dxf --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return hinted{err: errors.New("inspect: no drawing named"), hint: "burrside inspect FILE"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return runInspect(cmd.Context(), io, asJSON, args)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "JSON Lines, one object a drawing")
	return cmd
}

// inspection is what inspect tells about one file; its JSON form is a line.
type inspection struct {
	Format   string           `json:"format"`
	Drawing  string           `json:"drawing"`
	Version  string           `json:"version,omitempty"`
	Release  string           `json:"release,omitempty"`
	Binary   bool             `json:"binary"`
	Encoding string           `json:"encoding,omitempty"`
	Bytes    int64            `json:"bytes"`
	Units    inspectedUnits   `json:"units"`
	Layers   []inspectedLayer `json:"layers"`
	Spaces   []inspectedSpace `json:"spaces"`
	Blocks   int              `json:"blocks"`
	Notes    []inspectedNote  `json:"notes"`
	Title    []inspectedTitle `json:"title,omitempty"`
	Angles   []inspectedAngle `json:"angles,omitempty"`
	Error    *inspectedError  `json:"error,omitempty"`
}

type inspectedUnits struct {
	InsUnits    *int   `json:"insunits,omitempty"`
	Name        string `json:"name,omitempty"`
	Measurement *int   `json:"measurement,omitempty"`
}

type inspectedLayer struct {
	Name     string `json:"name"`
	Declared bool   `json:"declared"`
	State    string `json:"state"`
	Linetype string `json:"linetype,omitempty"`
	Colour   int    `json:"colour"`
	Placed   int    `json:"placed"` // model space, blocks placed
}

type inspectedSpace struct {
	Name    string         `json:"name"`
	Stored  map[string]int `json:"stored"`
	Placed  map[string]int `json:"placed"`
	Extents *[4]float64    `json:"extents,omitempty"` // least x, y, greatest x, y in drawing units
}

type inspectedNote struct {
	Code   string `json:"code"`
	Line   int64  `json:"line,omitempty"`
	Handle string `json:"handle,omitempty"`
	Count  int    `json:"count"`
	Text   string `json:"text"`
}

type inspectedError struct {
	Line int64  `json:"line,omitempty"`
	Text string `json:"text"`
}

func runInspect(ctx context.Context, io streams, asJSON bool, args []string) error {
	drawings, err := findDrawings(args, io.in, false)
	if err != nil {
		return err
	}
	drawings.say(io.err)
	code := exitFits
	if len(drawings.troubles) > 0 {
		code = exitTrouble
	}
	for i, p := range drawings.paths {
		d, readErr := readDrawing(ctx, p, dxfread.Limits{})
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if readErr != nil {
			code = exitTrouble
		}
		in := inspect(ctx, p, d, readErr)
		if asJSON {
			enc := json.NewEncoder(io.out)
			enc.SetEscapeHTML(false)
			if err := enc.Encode(in); err != nil {
				return err
			}
			continue
		}
		if i > 0 {
			fmt.Fprintln(io.out)
		}
		if err := in.print(io.out); err != nil {
			return err
		}
	}
	if code != exitFits {
		return status(code)
	}
	return nil
}

func inspect(ctx context.Context, path string, d *dxfread.Drawing, readErr error) *inspection {
	in := &inspection{Format: "burrside-inspect/1", Drawing: filepath.ToSlash(path), Layers: []inspectedLayer{}, Spaces: []inspectedSpace{}, Notes: []inspectedNote{}}
	if readErr != nil {
		in.Error = &inspectedError{Text: readErr.Error()}
		var syntax *dxfread.SyntaxError
		if errors.As(readErr, &syntax) {
			in.Error.Line = syntax.Line
			in.Error.Text = syntax.Err.Error()
		}
	}
	if d == nil {
		return in
	}
	in.Version, in.Release, in.Binary, in.Encoding, in.Bytes = d.Version, dxfread.ReleaseName(d.Version), d.Binary, d.Encoding, d.Bytes
	in.Blocks = len(d.Blocks)
	in.Units = inspectedUnits{InsUnits: d.Header.InsUnits, Measurement: d.Header.Measurement}
	if d.Header.InsUnits != nil {
		in.Units.Name = features.HeaderUnitName(*d.Header.InsUnits)
	}
	notes := slices.Clone(d.Notes)
	onLayer := make([]int, len(d.Layers))
	space := func(name string, entities []dxfread.Entity, count bool) {
		s := inspectedSpace{Name: name, Stored: map[string]int{}, Placed: map[string]int{}}
		for _, e := range entities {
			s.Stored[e.Name()]++
		}
		placing := d.Place(entities, dxfread.Limits{})
		var box dxfread.Extents
		for p := range placing.All(ctx) {
			s.Placed[p.Entity.Name()]++
			if count && p.Layer >= 0 && int(p.Layer) < len(onLayer) {
				onLayer[p.Layer]++
			}
			box.Add(p)
		}
		notes = append(notes, placing.Notes()...)
		if !box.Empty() {
			s.Extents = &[4]float64{box.Min.X, box.Min.Y, box.Max.X, box.Max.Y}
		}
		in.Spaces = append(in.Spaces, s)
	}
	space("model", d.Model, true)
	for _, l := range d.Layouts {
		space(l.Name, l.Entities, false)
	}
	for i, l := range d.Layers {
		var state []string
		for _, s := range []struct {
			on   bool
			name string
		}{{l.Off, "off"}, {l.Frozen, "frozen"}, {l.Locked, "locked"}, {l.NoPlot, "not plotted"}} {
			if s.on {
				state = append(state, s.name)
			}
		}
		if state == nil {
			state = []string{"on"}
		}
		row := inspectedLayer{Name: l.Name, Declared: l.Declared, State: strings.Join(state, ", "), Colour: l.Colour, Placed: onLayer[i]}
		if l.Linetype >= 0 && int(l.Linetype) < len(d.Types) {
			row.Linetype = d.Types[l.Linetype].Name
		}
		in.Layers = append(in.Layers, row)
	}
	if readErr == nil {
		placed := 0
		for _, n := range in.Spaces[0].Placed {
			placed += n
		}
		var note string
		if in.Angles, in.Title, note = inspectSheet(ctx, path, d, placed); note != "" && ctx.Err() == nil {
			notes = append(notes, dxfread.Note{Code: "angles-unread", Count: 1, Text: note})
		}
	}
	for _, n := range notes {
		row := inspectedNote{Code: n.Code, Line: n.Line, Count: max(1, n.Count), Text: n.Text}
		if n.Handle != 0 {
			row.Handle = fmt.Sprintf("%X", n.Handle)
		}
		in.Notes = append(in.Notes, row)
	}
	return in
}

// inspectedTitle is a field of the title block.
type inspectedTitle struct {
	Field string `json:"field"`
	Text  string `json:"text"`
}

// print writes the inspection for a terminal.
func (in *inspection) print(w io.Writer) error {
	place := "line"
	if in.Binary {
		place = "byte"
	}
	t := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	fmt.Fprintf(t, "%s\n", in.Drawing)
	if in.Error != nil {
		at := ""
		if in.Error.Line > 0 {
			at = fmt.Sprintf("%s %d: ", place, in.Error.Line)
		}
		fmt.Fprintf(t, "  error\t%s%s\n", at, in.Error.Text)
	}
	if in.Bytes == 0 && len(in.Spaces) == 0 {
		return t.Flush()
	}
	form := "ASCII"
	if in.Binary {
		form = "binary"
	}
	version := "no version stated"
	if in.Version != "" {
		version = strings.TrimSpace(in.Version + " " + in.Release)
	}
	fmt.Fprintf(t, "  version\t%s, %s, text %s, %d bytes\n", version, form, in.Encoding, in.Bytes)
	units := "not stated"
	if in.Units.InsUnits != nil {
		units = fmt.Sprintf("%s ($INSUNITS %d)", in.Units.Name, *in.Units.InsUnits)
	}
	if in.Units.Measurement != nil {
		units += fmt.Sprintf(", $MEASUREMENT %d", *in.Units.Measurement)
	}
	fmt.Fprintf(t, "  unit\t%s\n  blocks\t%d defined\n", units, in.Blocks)
	for _, s := range in.Spaces {
		fmt.Fprintf(t, "  space %s\tstored: %s\n", s.Name, counts(s.Stored))
		fmt.Fprintf(t, "  \tplaced: %s\n", counts(s.Placed))
		if e := s.Extents; e != nil {
			fmt.Fprintf(t, "  \textents %.6g, %.6g to %.6g, %.6g (%.6g x %.6g drawing units)\n", e[0], e[1], e[2], e[3], e[2]-e[0], e[3]-e[1])
		}
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if len(in.Layers) > 0 {
		fmt.Fprintf(t, "  layer\tplaced in model\tstate\tcolour\tlinetype\n")
		for _, l := range in.Layers {
			name := l.Name
			if !l.Declared {
				name += " (not in the table)"
			}
			fmt.Fprintf(t, "  %s\t%d\t%s\t%d\t%s\n", name, l.Placed, l.State, l.Colour, l.Linetype)
		}
	}
	if err := t.Flush(); err != nil {
		return err
	}
	for _, f := range in.Title {
		fmt.Fprintf(t, "  title block\t%s: %s\n", f.Field, f.Text)
	}
	for i := range in.Angles {
		a := &in.Angles[i]
		for k, l := range a.Lines {
			word := "  "
			if k == 0 {
				word = "angle " + a.Part + ":"
			}
			fmt.Fprintf(w, "  %s %s\n", word, l)
		}
	}
	for _, n := range in.Notes {
		at := ""
		if n.Line > 0 {
			at = fmt.Sprintf(" (%s %d)", place, n.Line)
		}
		times := ""
		if n.Count > 1 {
			times = fmt.Sprintf(" %d times", n.Count)
		}
		fmt.Fprintf(w, "  note %s%s%s: %s\n", n.Code, times, at, n.Text)
	}
	return nil
}

// counts writes "3 CIRCLE, 4 LINE" in order of name.
func counts(m map[string]int) string {
	if len(m) == 0 {
		return "nothing"
	}
	var parts []string
	for _, k := range slices.Sorted(maps.Keys(m)) {
		parts = append(parts, fmt.Sprintf("%d %s", m[k], k))
	}
	return strings.Join(parts, ", ")
}
