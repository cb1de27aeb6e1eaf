package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"burrside/dxfread"
	"burrside/features"
	"burrside/render"
)

const (
	// inspectMost is up to how many entities inspect looks for angles: it is for
	// a glance, and check tells of larger drawings.
	inspectMost = 50_000
	// inspectTime is how long the search may take.
	inspectTime = 20 * time.Second
)

// inspectedAngle is an angle that the drawing shows, in millimetres.
type inspectedAngle struct {
	Part     string     `json:"part"`
	Section  string     `json:"section,omitempty"` // as its list writes it
	LegsMM   [2]float64 `json:"legs_mm"`
	ThickMM  float64    `json:"thickness_mm,omitempty"`
	LengthMM float64    `json:"length_mm"`
	Views    string     `json:"views"`          // what shows it
	Hand     string     `json:"hand,omitempty"` // "unknown" if the drawing does not tell
	Undrawn  string     `json:"undrawn,omitempty"`
	Lines    []string   `json:"-"`
}

// inspectSheet also reads the fields of the title block. It looks for angles; the note tells why it did not.
func inspectSheet(ctx context.Context, path string, d *dxfread.Drawing, placed int) (out []inspectedAngle, title []inspectedTitle, note string) {
	if placed > inspectMost {
		return nil, nil, fmt.Sprintf("angles were not looked for among more than %d entities", inspectMost)
	}
	defer func() {
		if r := recover(); r != nil {
			out, title, note = nil, nil, fmt.Sprintf("angles were not looked for: a fault of burrside itself: %v (%s)", r, faultPlace())
		}
	}()
	ctx, stop := context.WithTimeout(ctx, inspectTime)
	defer stop()
	s, err := features.Build(ctx, d, features.Options{Name: strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))})
	if err != nil {
		return nil, nil, "angles were not looked for: " + err.Error()
	}
	for _, f := range s.Title {
		title = append(title, inspectedTitle{f.Field, f.Text})
	}
	for i := range s.Parts {
		p := &s.Parts[i]
		a := p.Angle
		if a == nil {
			continue
		}
		row := inspectedAngle{Part: p.Name, Section: a.Section, LegsMM: a.LegMM, ThickMM: a.ThicknessMM, LengthMM: a.LengthMM,
			Views: a.From, Hand: string(a.Hand), Lines: render.AngleText(p, "mm")}
		for k, name := range []string{"a", "b"} {
			if !a.Legs[k].Drawn {
				row.Undrawn = name
			}
		}
		out = append(out, row)
	}
	return out, title, ""
}
