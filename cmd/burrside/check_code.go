package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"burrside/check"
	"burrside/check/plan"
)

// codeFlags are the flags that choose codes and what depends on one.
type codeFlags struct {
	codes, exposure, class string
	bolts                  bool
}

// exposures are the values of --exposure; alone it means the first.
func exposures() []string { return []string{"painted", "weathering"} }

// executionClasses are those of EN 1090-2.
func executionClasses() []string { return []string{"EXC1", "EXC2", "EXC3", "EXC4"} }

func (f *codeFlags) add(cmd *cobra.Command) {
	fl := cmd.Flags()
	fl.StringVar(&f.codes, "code", "", "`codes` to hold bolt holes and corners against: "+codeHelp())
	fl.BoolVar(&f.bolts, "bolts", false, "take all round holes and slots as bolt holes for --code")
	fl.StringVar(&f.exposure, "exposure", "", "also note the code's greatest distances and preferred pitches, of `steel` painted or weathering")
	fl.Lookup("exposure").NoOptDefVal = exposures()[0]
	fl.StringVar(&f.class, "execution-class", "", "execution `class` of EN 1090-2: EXC1 to EXC4")
	for name, values := range map[string]func() []string{"code": codeValues, "exposure": exposures, "execution-class": executionClasses} {
		if err := cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(values(), cobra.ShellCompDirectiveNoFileComp)); err != nil {
			panic(err) // the flag was added above
		}
	}
}

// codeHelp lists the codes for the help text.
func codeHelp() string {
	var l []string
	for _, c := range check.Codes() {
		l = append(l, c.ID+" ("+c.Name+")")
	}
	return strings.Join(l, ", ") + "; one for bolts, aws beside it"
}

// codeValues completes --code, with the name of each beside it.
func codeValues() []string {
	var l []string
	for _, c := range check.Codes() {
		l = append(l, c.ID+"\t"+c.Name)
	}
	return l
}

// set enters the flags into a job.
func (f *codeFlags) set(job *plan.Job) error {
	job.Bolts = f.bolts
	for _, s := range strings.Split(f.codes, ",") {
		s = strings.ToLower(strings.TrimSpace(s))
		if s == "" {
			continue
		}
		code, ok := findCode(s)
		to := &job.Code
		if ok && !code.Bolts {
			to = &job.WeldCode
		}
		switch {
		case !ok:
			var ids []string
			for _, c := range check.Codes() {
				ids = append(ids, c.ID)
			}
			return fmt.Errorf("--code: %q is not one of %s", s, strings.Join(ids, ", "))
		case *to != "" && *to != s:
			return fmt.Errorf("--code: %s and %s: one code for bolt holes at a time", *to, s)
		}
		*to = s
	}
	switch e := strings.ToLower(f.exposure); e {
	case "", "no", "false":
	case "painted", "true", "yes":
		job.Exposure = true
	case "weathering":
		job.Exposure, job.Weathering = true, true
	default:
		return fmt.Errorf("--exposure: %q is not one of %s", f.exposure, strings.Join(exposures(), ", "))
	}
	if f.class != "" {
		c := strings.TrimPrefix(strings.ReplaceAll(strings.ToUpper(f.class), " ", ""), "EXC")
		if len(c) != 1 || c < "1" || c > "4" {
			return fmt.Errorf("--execution-class: %q is not one of %s", f.class, strings.Join(executionClasses(), ", "))
		}
		job.ExecutionClass = int(c[0] - '0')
	}
	return nil
}

func findCode(id string) (check.Code, bool) {
	for _, c := range check.Codes() {
		if c.ID == id {
			return c, true
		}
	}
	return check.Code{}, false
}
