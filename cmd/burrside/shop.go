package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"burrside/check"
	"burrside/check/shop"
)

func newShop(io streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "shop",
		Short: "Write, check or show a shop file",
		Long: `A shop file says what one shop has: machines with their capacities, punches with
all their dies, notching tools, stock, other processes, rates and settings.`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newShopNew(io), newShopCheck(io), newShopShow(io))
	return cmd
}

func newShopNew(io streams) *cobra.Command {
	var units string
	var example bool
	cmd := &cobra.Command{
		Use:     "new [FILE]",
		Short:   "Write a commented shop file to fill in",
		Long:    "Writes a commented shop file to FILE, or to standard output. A file that is there already is left alone.",
		Example: "  burrside shop new our-shop.toml --units in",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			text := shop.BuiltInText()
			if !example {
				if units != "mm" && units != "in" {
					return fmt.Errorf("--units: %q is not one of mm, in", units)
				}
				text = shop.Template(units)
			}
			if len(args) == 0 {
				_, err := fmt.Fprint(io.out, text)
				return err
			}
			// O_EXCL: a shop file holds an hour of somebody's work.
			f, err := os.OpenFile(args[0], os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
			if errors.Is(err, os.ErrExist) {
				return hinted{err: fmt.Errorf("%s is there already and was left alone", args[0]), hint: "name another file"}
			}
			if err != nil {
				return err
			}
			if _, err := f.WriteString(text); err != nil {
				f.Close()
				os.Remove(args[0])
				return err
			}
			if err := f.Close(); err != nil {
				return err
			}
			fmt.Fprintf(io.out, "%s written; fill it in, then: burrside shop check %s\n", args[0], args[0])
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "mm", "`unit` of the example values: mm or in")
	cmd.Flags().BoolVar(&example, "example", false, "write the example shop instead of the form")
	return cmd
}

func newShopCheck(io streams) *cobra.Command {
	return &cobra.Command{
		Use:     "check FILE",
		Short:   "Check a shop file: all problems at once",
		Long:    "Reads a shop file strictly and prints every problem with its line and column. Exit 0 when only warnings remain, 2 otherwise.",
		Example: "  burrside shop check our-shop.toml",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := os.Open(args[0])
			if err != nil {
				return err
			}
			defer f.Close()
			prof, err := shop.Load(f, args[0])
			var le *shop.LoadError
			if errors.As(err, &le) {
				fmt.Fprint(io.err, shop.FormatProblems(args[0], le.Problems))
				return fmt.Errorf("%s: %s", args[0], problemCount(le.Problems))
			}
			if err != nil {
				return err
			}
			problems := append(prof.Problems[:len(prof.Problems):len(prof.Problems)], check.CheckSettings(prof)...)
			fmt.Fprint(io.out, shop.FormatProblems(args[0], problems))
			for _, p := range problems {
				if !p.Warning {
					return fmt.Errorf("%s: %s", args[0], problemCount(problems))
				}
			}
			fmt.Fprintf(io.out, "%s: good; machines: %d, punches: %d, notching tools: %d, materials: %d", args[0], len(prof.Machines), len(prof.Punches), len(prof.Notchers), len(prof.Materials))
			if len(problems) > 0 {
				fmt.Fprintf(io.out, "; %s", problemCount(problems))
			}
			fmt.Fprintln(io.out)
			return nil
		},
	}
}

func problemCount(ps []shop.Problem) string {
	var errs, warns int
	for _, p := range ps {
		if p.Warning {
			warns++
		} else {
			errs++
		}
	}
	s := fmt.Sprintf("%d problems", errs)
	if errs == 0 {
		s = fmt.Sprintf("%d warnings", warns)
	} else if warns > 0 {
		s += fmt.Sprintf(", %d warnings", warns)
	}
	return s
}

func newShopShow(io streams) *cobra.Command {
	return &cobra.Command{
		Use:     "show [FILE]",
		Short:   "Show what was understood of a shop file",
		Long:    "Prints what a shop file says in plain words, with the forces that may be used and where they come from. Without FILE it shows the example shop.",
		Example: "  burrside shop show\n  burrside shop show our-shop.toml",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			path := ""
			if len(args) == 1 {
				path = args[0]
			}
			prof, err := loadShop(path)
			if err != nil {
				return err
			}
			_, err = fmt.Fprint(io.out, shop.Describe(prof))
			return err
		},
	}
}
