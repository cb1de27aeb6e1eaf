package main

import (
	"fmt"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"burrside/check"
)

func newRules(io streams) *cobra.Command {
	var shopFile string
	cmd := &cobra.Command{
		Use:   "rules [ID]",
		Short: "List the rules, or explain one",
		Long: `Without ID lists every rule in a line. With the ID of a rule explains it: what is
measured and how, its parameters with the values of the shop, where the limits
come from, and an example worked by the program itself.`,
		Example: `  burrside rules
  burrside rules punch-force`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			prof, err := loadShop(shopFile)
			if err != nil {
				return err
			}
			if len(args) == 1 {
				text, err := check.Explain(args[0], prof)
				if err != nil {
					return hinted{err: err, hint: "burrside rules lists them all"}
				}
				_, err = fmt.Fprint(io.out, text)
				return err
			}
			t := tabwriter.NewWriter(io.out, 0, 8, 2, ' ', 0)
			for _, r := range check.Rules() {
				fmt.Fprintf(t, "%s\t%s\n", r.ID, r.Title)
			}
			return t.Flush()
		},
	}
	cmd.Flags().StringVar(&shopFile, "shop", "", "shop `file` whose settings are shown")
	return cmd
}
