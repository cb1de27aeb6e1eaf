package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors is the table of who may import whom: of the project's own packages,
// and of modules outside the standard library. Tests may import more.
var floors = map[string]struct{ own, outside []string }{
	"dxfread":          {nil, []string{"golang.org/x/text"}},
	"dxfread/dxftest":  {[]string{"dxfread"}, []string{"github.com/yofu/dxf"}},
	"features/geom":    {nil, nil},
	"features/measure": {nil, nil},
	"features/section": {[]string{"features/measure"}, nil},
	"features/cutlist": {[]string{"features/measure", "features/section"}, nil},
	"features/join":    {[]string{"features/geom"}, nil},
	"features":         {[]string{"dxfread", "features/geom", "features/join", "features/measure", "features/section"}, nil},
	"check/shop":       {[]string{"features/measure"}, []string{"github.com/pelletier/go-toml/v2"}},
	"check/station":    {[]string{"check/shop", "features/measure"}, nil},
	"check/plan":       {[]string{"features", "features/cutlist", "features/geom", "features/measure", "check/shop", "check/station"}, nil},
	"check/change":     {[]string{"features", "features/geom", "check/shop", "check/plan"}, nil},
	"check":            {[]string{"features", "features/cutlist", "features/geom", "features/measure", "features/section", "check/shop", "check/station", "check/plan", "check/change"}, nil},
	"render": {[]string{"features", "features/cutlist", "features/geom", "features/measure", "check", "check/shop", "check/plan", "check/change"},
		[]string{"github.com/fogleman/gg", "golang.org/x/image", "github.com/yofu/dxf", "github.com/mattn/go-runewidth"}},
	"cmd/compare": {[]string{"dxfread", "features/geom", "features/join"}, nil},
	"cmd/burrside": {[]string{"dxfread", "features", "features/cutlist", "features/measure", "check", "check/plan", "check/shop", "render"},
		[]string{"github.com/spf13/cobra", "github.com/vbauerster/mpb/v8"}},
}

func TestFloors(t *testing.T) {
	root := filepath.Join("..", "..")
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, path)
		if e.IsDir() {
			if name := e.Name(); rel != "." && (strings.HasPrefix(name, ".") || name == "testdata") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(rel, ".go") || strings.HasSuffix(rel, "_test.go") {
			return nil
		}
		pkg := filepath.ToSlash(filepath.Dir(rel))
		row, ok := floors[pkg]
		if !ok {
			t.Errorf("%s: package %s has no row in the table of floors", rel, pkg)
			return nil
		}
		seen[pkg] = true
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, im := range f.Imports {
			name, err := strconv.Unquote(im.Path.Value)
			if err != nil {
				return err
			}
			switch first, _, _ := strings.Cut(name, "/"); {
			case first == "burrside":
				if own := strings.TrimPrefix(name, "burrside/"); !slices.Contains(row.own, own) {
					t.Errorf("%s imports %s: not on a floor below %s", rel, own, pkg)
				}
			case strings.Contains(first, "."):
				if !slices.ContainsFunc(row.outside, func(m string) bool { return name == m || strings.HasPrefix(name, m+"/") }) {
					t.Errorf("%s imports %s: no such dependency in the row of %s", rel, name, pkg)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for pkg := range floors {
		if !seen[pkg] {
			t.Errorf("the table of floors has a row for %s, which has no Go file", pkg)
		}
	}
}
