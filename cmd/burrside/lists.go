package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"burrside/check"
	"burrside/check/plan"
	"burrside/features/cutlist"
)

// isCSV tells a cut list by its name.
func isCSV(path string) bool { return strings.EqualFold(filepath.Ext(path), ".csv") }

// isList tells whether a CSV file has the columns of a cut list; another, as an
// answers file, is none and is passed over in a folder.
func isList(path string) bool {
	f, err := openDrawing(path)
	if err != nil {
		return false
	}
	defer f.Close()
	return cutlist.IsList(f)
}

// judgeList reads a cut list and judges its lines.
func (q *question) judgeList(ctx context.Context, path string) (*check.Report, error) {
	f, err := openDrawing(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	opt := cutlist.Options{Unit: "mm", From: "the shop's unit"}
	if q.shop.Units == "in" {
		opt.Unit = "in"
	}
	stated := q.stated.over(q.answers.of(path))
	switch stated.units {
	case "mm", "in":
		opt.Unit, opt.From, opt.Stated = cutlist.Unit(stated.units), "as stated", true
	}
	list, err := cutlist.Read(f, opt)
	if err != nil {
		return nil, err
	}
	job := q.jobFor(path)
	list.Notes = append(list.Notes, idleForLists(stated, &job)...)
	return check.RunList(ctx, filepath.ToSlash(path), list, q.shop, job)
}

// idleForLists says what was asked for and does nothing to a cut list, so that
// nobody takes it for done.
func idleForLists(stated facts, job *plan.Job) []string {
	var out []string
	if stated.thicknessMM > 0 {
		out = append(out, "the thickness asked for does nothing here: each section names its own")
	}
	if u := stated.units; u != "" && u != "mm" && u != "in" {
		out = append(out, fmt.Sprintf("the unit %s does nothing here: bare numbers of a list are in mm or in inches", u))
	}
	if job.Code != "" || job.Bolts {
		out = append(out, "no code is held against a list: it names no holes")
	}
	if job.BlankGiven {
		out = append(out, "blanks that come cut are for drawings: the pieces of a list are cut from bars")
	}
	return out
}
