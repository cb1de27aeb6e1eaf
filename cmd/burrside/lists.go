package main

import (
	"context"
	"path/filepath"
	"strings"

	"burrside/check"
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
	switch u := q.stated.over(q.answers.of(path)).units; u {
	case "mm", "in":
		opt.Unit, opt.From = cutlist.Unit(u), "as stated"
	}
	list, err := cutlist.Read(f, opt)
	if err != nil {
		return nil, err
	}
	return check.RunList(ctx, filepath.ToSlash(path), list, q.shop, q.jobFor(path))
}
