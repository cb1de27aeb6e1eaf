package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"burrside/check"
	"burrside/check/plan"
	"burrside/features/measure"
	"burrside/render"
)

// briefAbove is the number of drawings above which a terminal report is one
// line a drawing unless the flag says otherwise.
const briefAbove = 8

// checkFlags are the flags of the check command.
type checkFlags struct {
	shop, machine              string
	thickness, material, units string
	quantity                   int
	codes                      codeFlags
	answers, out, bridge       string
	json, strict, all, why     bool
	brief, cut                 bool
	marks, changes, designer   bool
	timeLimit                  time.Duration
}

func newCheck(io streams) *cobra.Command {
	var f checkFlags
	cmd := &cobra.Command{
		Use:   "check PATH...",
		Short: "Judge drawings against a shop",
		Long: `Judges the parts of each drawing against the machines, tools and stock of a shop:
what fits, what fits with care, what does not and why, and what cannot be told.

PATH is a DXF file, a cut list (.csv with the columns section,length,quantity,
material,end; see README), a folder (every .dxf below it, and every .csv with
these columns), or - for names on standard input. Without --shop an example shop serves, and every report says so.
A fact that neither the drawing nor a flag states is never assumed: the answer
is then CANNOT TELL YET, with the stock thicknesses that would fit.`,
		Example: `  burrside check plate.dxf --thickness 10mm --material S275
  burrside check plate.dxf --code en --bolts
  burrside check incoming/ --answers answers.csv --out report/
  burrside check footbridge/railing.csv incoming/
  find . -name '*.dxf' | burrside check - --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return hinted{err: errors.New("check: no drawing named"), hint: "burrside check FILE-OR-FOLDER; burrside sample DIR writes drawings to try"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return runCheck(cmd.Context(), io, f, cmd.Flags().Changed("brief"), args)
		},
	}
	fl := cmd.Flags()
	fl.StringVar(&f.shop, "shop", "", "shop `file`; without it an example shop serves")
	fl.StringVar(&f.machine, "machine", "", "judge by this machine alone, by `name`")
	fl.StringVarP(&f.thickness, "thickness", "t", "", "`thickness` with its unit: 10mm, 3/8in")
	fl.StringVarP(&f.material, "material", "m", "", "`material` as the shop file names it: S275, A36, mild")
	fl.IntVarP(&f.quantity, "quantity", "q", 0, "`pieces` asked for")
	fl.StringVar(&f.units, "units", "", "`unit` of the drawing: mm, in, cm, m, ft")
	f.codes.add(cmd)
	fl.StringVar(&f.answers, "answers", "", "CSV `file` with columns file,thickness,material,quantity,units")
	fl.BoolVar(&f.cut, "blank-given", false, "the blank comes cut to the part's rectangle")
	fl.DurationVar(&f.timeLimit, "time-limit", 2*time.Minute, "give up a drawing after this `time`; 0 never")
	fl.StringVar(&f.bridge, "bridge", "", "longest `gap` closed between loose ends (default 0.5mm)")
	fl.BoolVar(&f.json, "json", false, "JSON Lines, one object a drawing")
	fl.StringVar(&f.out, "out", "", "`folder` for pictures, summary.csv and questions.txt")
	fl.BoolVar(&f.marks, "marks", false, "with --out: also NAME-marks.dxf, red-lines to lay over each drawing")
	fl.BoolVar(&f.strict, "strict", false, "exit 1 also when a part fits with care only")
	fl.BoolVar(&f.all, "all", false, "print every note")
	fl.BoolVar(&f.why, "why", false, "print the arithmetic of each finding")
	fl.BoolVar(&f.changes, "changes", false, "search changes that would pass also for --json")
	fl.BoolVar(&f.designer, "ask-designer", false, "ask for changes of the drawing also where the shop can help itself")
	fl.BoolVar(&f.brief, "brief", false, fmt.Sprintf("one line a drawing (by itself above %d drawings)", briefAbove))
	return cmd
}

// ask turns flags into the question that is put to every drawing.
func (f *checkFlags) ask() (*question, error) {
	prof, err := loadShop(f.shop)
	if err != nil {
		return nil, err
	}
	q := &question{shop: prof, job: plan.Job{BlankGiven: f.cut}, timeLimit: f.timeLimit}
	for _, s := range []struct{ name, text string }{
		{"thickness", f.thickness}, {"material", f.material}, {"units", f.units},
	} {
		if s.text != "" {
			if err := q.stated.set(s.name, s.text); err != nil {
				return nil, fmt.Errorf("--%s: %w", s.name, err)
			}
		}
	}
	if f.quantity < 0 {
		return nil, fmt.Errorf("--quantity: %d is not a number of pieces", f.quantity)
	}
	q.stated.quantity = f.quantity
	if f.material != "" {
		if _, ok := prof.Material(f.material); !ok {
			return nil, hinted{err: fmt.Errorf("--material: %q is not in the shop's list of materials", f.material),
				hint: "burrside shop show lists them; a shop file can add one under [[material]]"}
		}
	}
	if f.machine != "" {
		if err := q.restrict(f.machine); err != nil {
			return nil, err
		}
	}
	if err := f.codes.set(&q.job); err != nil {
		return nil, err
	}
	if f.bridge != "" {
		v, err := measure.Length(f.bridge)
		if err != nil {
			return nil, fmt.Errorf("--bridge: %w", err)
		}
		if v.MM <= 0 || v.MM > 5 {
			return nil, fmt.Errorf("--bridge: %q is not above 0 and at most 5 mm", f.bridge)
		}
		q.bridgeMM = v.MM
	}
	if f.answers != "" {
		if q.answers, err = readAnswers(f.answers); err != nil {
			return nil, err
		}
	}
	return q, nil
}

func (q *question) restrict(name string) error {
	var names []string
	for _, m := range q.shop.Machines {
		if strings.EqualFold(m.Name, name) {
			q.job.Machine = m.Name
			return nil
		}
		names = append(names, fmt.Sprintf("%q", m.Name))
	}
	return fmt.Errorf("--machine: the shop has no machine %q; it has %s", name, strings.Join(names, ", "))
}

func runCheck(ctx context.Context, io streams, f checkFlags, briefSet bool, args []string) error {
	if f.marks && f.out == "" {
		return hinted{err: errors.New("--marks: no folder to write red-lines to"), hint: "--out FOLDER names it"}
	}
	q, err := f.ask()
	if err != nil {
		return err
	}
	drawings, err := findDrawings(args, io.in, true)
	if err != nil {
		return err
	}
	drawings.say(io.err)
	paths := drawings.paths
	if !briefSet {
		f.brief = len(paths) > briefAbove
	}
	q.changes = f.json && f.changes || !f.json && !f.brief
	q.suggest = check.SuggestOptions{Drawing: f.designer}
	var out *outFolder
	if f.out != "" {
		if out, err = openOut(f.out, paths); err != nil {
			return err
		}
		out.marks = f.marks
		defer out.drop()
	}
	if len(paths) >= progressAbove {
		defer runtime.KeepAlive(ballast())
	}
	tally := newTally(f.strict)
	tally.missing = len(drawings.troubles)
	bar := newProgress(io.err, len(paths), f.json || f.brief)
	printed := 0
	err = inOrder(ctx, runtime.GOMAXPROCS(0), paths, func(path string) (*answer, error) {
		rep, err := q.analyse(ctx, path)
		if err != nil {
			return nil, err
		}
		if out != nil {
			if err := out.pictures(path, rep); err != nil {
				return nil, err
			}
		}
		return f.answer(io, rep, out != nil)
	}, func(path string, a *answer) error {
		bar.step()
		tally.add(a)
		if out != nil {
			out.add(a)
		}
		if printed > 0 && !f.json && !f.brief {
			fmt.Fprintln(io.out)
		}
		printed++
		_, err := io.out.Write(a.text)
		return err
	})
	bar.done()
	if err != nil {
		return err
	}
	if out != nil {
		if err := out.finish(); err != nil {
			return err
		}
	}
	for _, name := range q.answers.unused() {
		fmt.Fprintf(io.err, "burrside: %s: line %d: %q answers no drawing that was checked\n", f.answers, q.answers.line[name], name)
	}
	if len(paths) > 1 && !f.json {
		fmt.Fprintln(io.out)
		fmt.Fprintln(io.out, tally.line())
	}
	if out != nil && !f.json {
		fmt.Fprintln(io.out, out.line())
	}
	if code := tally.status(); code != exitFits {
		return status(code)
	}
	return nil
}

// ballast is memory that is never touched, and so never real. The collector runs
// when the heap has doubled: a drawing lives in a few megabytes, and without a
// ballast a quarter of the time over a folder goes into collecting them.
func ballast() []byte { return make([]byte, 64<<20) }

// answer is what is kept of a drawing once it is judged, so that little waits
// in memory for its turn.
type answer struct {
	text       []byte // as it is printed
	entry      render.Entry
	verdict    check.Verdict
	unreadable bool
	list       bool // of a cut list
	pictures   int
}

func (f *checkFlags) answer(io streams, rep *check.Report, entry bool) (*answer, error) {
	a := &answer{verdict: rep.Verdict, unreadable: rep.Err != nil, list: rep.List != nil || rep.Err != nil && isCSV(rep.Drawing)}
	if entry {
		a.entry = render.EntryOf(rep)
		if rep.Err == nil && rep.List == nil {
			a.pictures = max(1, len(rep.Parts))
		}
	}
	var b bytes.Buffer
	err := f.print(&b, isTerminal(io.out), rep)
	a.text = b.Bytes()
	return a, err
}

func (f *checkFlags) print(w io.Writer, terminal bool, rep *check.Report) error {
	switch {
	case f.json:
		return render.JSON(w, rep)
	case f.brief:
		return render.Brief(w, rep)
	}
	return render.Text(w, rep, render.TextOptions{
		Colour: terminal && os.Getenv("NO_COLOR") == "",
		All:    f.all,
		Why:    f.why,
	})
}

// tally counts verdicts for the last line and the exit status.
type tally struct {
	strict     bool
	drawings   int
	lists      int // of them, cut lists
	verdicts   map[check.Verdict]int
	unreadable int
	missing    int // arguments and folders that gave nothing
}

func newTally(strict bool) *tally { return &tally{strict: strict, verdicts: map[check.Verdict]int{}} }

func (t *tally) add(a *answer) {
	t.drawings++
	if a.list {
		t.lists++
	}
	if a.unreadable {
		t.unreadable++
		return
	}
	t.verdicts[a.verdict]++
}

func (t *tally) status() int {
	switch {
	case t.unreadable+t.missing > 0:
		return exitTrouble
	case t.verdicts[check.DoesNotFit]+t.verdicts[check.CannotTell] > 0:
		return exitDoesNot
	case t.strict && t.verdicts[check.WithCare] > 0:
		return exitDoesNot
	}
	return exitFits
}

func (t *tally) line() string {
	what := fmt.Sprintf("%d drawings", t.drawings)
	switch t.lists {
	case 0:
	case 1:
		what = fmt.Sprintf("%d drawings and 1 cut list", t.drawings-1)
	default:
		what = fmt.Sprintf("%d drawings and %d cut lists", t.drawings-t.lists, t.lists)
	}
	s := fmt.Sprintf("%s: %d fit, %d fit with care, %d do not fit, %d cannot be told",
		what, t.verdicts[check.Fits], t.verdicts[check.WithCare], t.verdicts[check.DoesNotFit], t.verdicts[check.CannotTell])
	if t.unreadable > 0 {
		s += fmt.Sprintf(", %d could not be read", t.unreadable)
	}
	return s
}

// outFolder writes what --out asks for.
type outFolder struct {
	dir       string
	names     map[string]string // drawing -> base name of its pictures
	count     int               // pictures
	marks     bool              // also red-lines
	files     [2]*wholeFile     // of the two below
	summary   *render.SummaryWriter
	questions *render.QuestionsWriter
	done      bool
}

// openOut makes the folder and gives each drawing a name of its own there.
func openOut(dir string, paths []string) (*outFolder, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	o := &outFolder{dir: dir, names: map[string]string{}}
	taken := map[string]bool{}
	for _, p := range paths {
		base := strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
		name := base
		for n := 2; taken[strings.ToLower(name)]; n++ {
			name = fmt.Sprintf("%s~%d", base, n)
		}
		taken[strings.ToLower(name)] = true
		o.names[p] = name
	}
	for i, name := range []string{"summary.csv", "questions.txt"} {
		f, err := createWhole(filepath.Join(dir, name))
		if err != nil {
			o.drop()
			return nil, err
		}
		o.files[i] = f
	}
	o.summary, o.questions = render.NewSummary(o.files[0]), render.NewQuestions(o.files[1])
	return o, nil
}

// pictures writes one picture for each part of a drawing, and its red-lines if
// they are asked for. It may run for
// several drawings at once.
func (o *outFolder) pictures(path string, rep *check.Report) error {
	if rep.Err != nil || rep.List != nil {
		return nil // a list has no shape to draw
	}
	base := filepath.Join(o.dir, o.names[path])
	if o.marks {
		if d, ok := render.Marks(rep); ok {
			if err := writeWhole(base+marksEnd, d.Write); err != nil {
				return err
			}
		}
	}
	if len(rep.Parts) == 0 {
		return writeWhole(base+".png", render.NewDrawingScene(rep, render.SceneOptions{}).PNG)
	}
	for i := range rep.Parts {
		name := base + ".png"
		if len(rep.Parts) > 1 {
			name = fmt.Sprintf("%s-%d.png", base, i+1)
		}
		if err := writeWhole(name, render.NewScene(rep, i, render.SceneOptions{}).PNG); err != nil {
			return err
		}
	}
	return nil
}

func (o *outFolder) add(a *answer) {
	o.summary.Add(a.entry)
	o.questions.Add(a.entry)
	o.count += a.pictures
}

// finish gives summary and questions their names.
func (o *outFolder) finish() error {
	if err := errors.Join(o.summary.Close(), o.questions.Close()); err != nil {
		return err
	}
	o.done = true
	return errors.Join(o.files[0].finish(), o.files[1].finish())
}

// drop leaves nothing half-written behind if finish was not reached.
func (o *outFolder) drop() {
	for _, f := range o.files {
		if f != nil && !o.done {
			f.drop()
		}
	}
}

func (o *outFolder) line() string {
	return fmt.Sprintf("written to %s: %d pictures, summary.csv, questions.txt", o.dir, o.count)
}
