package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"
)

// Exit status of every command.
const (
	exitFits    = 0 // everything fits (care allowed, unless strict)
	exitDoesNot = 1 // something does not fit or cannot be told
	exitTrouble = 2 // something could not be read, or was asked for wrongly
)

// streams are what a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// isTerminal tells whether w is a terminal; colours and progress go only there.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// status ends a command with an exit status and nothing more to say.
type status int

func (s status) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// hinted is an error with a line of advice under it.
type hinted struct {
	err  error
	hint string
}

func (h hinted) Error() string { return h.err.Error() }
func (h hinted) Unwrap() error { return h.err }

// run executes one command line and gives its exit status.
func run(ctx context.Context, args []string, io streams) int {
	root := newRoot(io)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return exitFits
	}
	var s status
	if errors.As(err, &s) {
		return int(s)
	}
	if errors.Is(err, context.Canceled) {
		err = errors.New("stopped before all was done")
	}
	sayError(io.err, err)
	return exitTrouble
}

// sayError writes an error for people, with its advice.
func sayError(w io.Writer, err error) {
	fmt.Fprintf(w, "burrside: %v\n", err)
	var h hinted
	if errors.As(err, &h) && h.hint != "" {
		fmt.Fprintf(w, "hint: %s\n", h.hint)
	}
}

func newRoot(io streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "burrside",
		Short: "Can this shop make the part on this drawing?",
		Long: `burrside reads the DXF drawing of a flat steel part, finds every hole, slot, notch
and cut on it, and says which of them the shop's own machines and tools can make,
which they cannot, and why. Then it counts the work.

It judges machine capability only; it is not a check of strength and approves
nothing. Local codes, the machine's manual and a licensed engineer decide.

Exit status: 0 everything fits (care allowed, unless --strict), 1 something does
not fit or cannot be told, 2 something could not be read or was asked for wrongly.`,
		Example: `  burrside check plate.dxf --thickness 10 --material S275
  burrside check incoming/ --answers answers.csv --out report/
  burrside shop new > our-shop.toml`,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			return cmd.Help()
		},
	}
	root.SetIn(io.in)
	root.SetOut(io.out)
	root.SetErr(io.err)
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(
		newCheck(io),
		newInspect(io),
		newRules(io),
		newShop(io),
		newSample(io),
	)
	return root
}
