package main

import (
	"context"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	beCommand()
	testscript.Main(m, map[string]func(){
		"burrside": func() {
			os.Exit(run(context.Background(), os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr}))
		},
	})
}

// TestScripts runs the real command line through the scripts in testdata.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "../../testdata/script",
		UpdateScripts: os.Getenv("UPDATE_GOLDEN") != "",
	})
}
