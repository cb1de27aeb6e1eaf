package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread"
	"burrside/features"
	"burrside/features/cutlist"
)

// question is everything that is asked about drawings, the same for all of them.
type question struct {
	shop     *shop.Profile
	stated   facts // by flags
	answers  *answers
	job      plan.Job // machine, code and other choices; facts are filled for each drawing
	bridgeMM float64

	changes bool // search the changes that would pass
	suggest check.SuggestOptions

	limits    dxfread.Limits
	timeLimit time.Duration // for one drawing; 0 none
	large     sync.Mutex    // held while a large drawing is analysed
}

// analyse gives the report on a drawing. A file that cannot be read, or takes
// longer than the limit, gives a report that says so. The error is ctx's.
func (q *question) analyse(ctx context.Context, path string) (*check.Report, error) {
	if info, err := os.Stat(path); err == nil && info.Size() > largeBytes {
		q.large.Lock()
		defer q.large.Unlock()
	}
	limited, stop := q.limited(ctx)
	defer stop()
	type result struct {
		rep *check.Report
		err error
	}
	done := make(chan result, 1)
	go func() {
		rep, err := q.guarded(limited, path)
		done <- result{rep, err}
	}()
	var res result
	select {
	case res = <-done:
	case <-limited.Done():
		// The reader and the search for parts end by themselves now. The rules do
		// not look at the clock: they are left behind rather than waited for, so
		// that the other drawings, or the person at the keyboard, are not held up.
		select {
		case res = <-done:
		case <-time.After(graceTime):
			res.err = q.tooLong()
		}
	}
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if res.err != nil {
		return unreadable(path, q.shop, res.err), nil
	}
	return res.rep, nil
}

// graceTime is how long a drawing that was given up may take to notice it.
const graceTime = time.Second

func (q *question) tooLong() error {
	return fmt.Errorf("it took longer than %v and was given up; --time-limit gives it more", q.timeLimit)
}

// largeBytes is the size above which drawings are analysed one at a time, so
// that memory is that of one large drawing, not of as many as there are cores.
// A drawing in memory takes some three times its file.
const largeBytes = 64 << 20

// limited gives the context of one drawing.
func (q *question) limited(ctx context.Context) (context.Context, context.CancelFunc) {
	if q.timeLimit <= 0 {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, q.timeLimit)
}

// guarded is judge with a net under it: a fault of ours on one drawing must not
// lose the answers about all others.
func (q *question) guarded(ctx context.Context, path string) (rep *check.Report, err error) {
	defer func() {
		if r := recover(); r != nil {
			rep, err = nil, fmt.Errorf("a fault of burrside itself, not of the drawing; please report it with the file: %v (%s)", r, faultPlace())
		}
	}()
	rep, err = q.judge(ctx, path)
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return nil, q.tooLong()
	}
	return rep, err
}

// faultPlace is where our own code panicked.
func faultPlace() string {
	pc := make([]uintptr, 64)
	frames := runtime.CallersFrames(pc[:runtime.Callers(3, pc)])
	for {
		f, more := frames.Next()
		if strings.HasPrefix(f.Function, "burrside/") {
			return fmt.Sprintf("%s:%d", filepath.Base(f.File), f.Line)
		}
		if !more {
			return "place unknown"
		}
	}
}

// judge reads a file and judges what it holds. The error is ctx's, or tells why
// the file could not be read.
func (q *question) judge(ctx context.Context, path string) (*check.Report, error) {
	if isCSV(path) {
		return q.judgeList(ctx, path)
	}
	d, err := readDrawing(ctx, path, q.limits)
	return q.judgeDrawing(ctx, path, d, err)
}

// judgeDrawing is the one pipeline from what was read of a file to its report:
// find the parts, judge.
func (q *question) judgeDrawing(ctx context.Context, path string, d *dxfread.Drawing, readErr error) (*check.Report, error) {
	var syntax *dxfread.SyntaxError
	if readErr != nil && (d == nil || !errors.As(readErr, &syntax) || nothingRead(d)) {
		return nil, readErr
	}
	stated := q.stated.over(q.answers.of(path))
	sheet, err := features.Build(ctx, d, features.Options{
		Name:      strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)),
		Units:     stated.units,
		BridgeMM:  q.bridgeMM,
		Layers:    layerWords(q.shop),
		ReadError: readErr,
		Limits:    q.limits,
	})
	if err != nil {
		return nil, err
	}
	job := q.jobFor(path)
	rep, err := check.Run(ctx, filepath.ToSlash(path), sheet, q.shop, job)
	if err == nil && q.changes {
		search, stop := halfOf(ctx)
		defer stop()
		check.Suggest(search, rep, job, q.suggest)
	}
	return rep, err
}

// halfOf ends when half of the time that ctx leaves is over: what comes on top
// of a report must not cost the report.
func halfOf(ctx context.Context) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	if !ok {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, time.Until(end)/2)
}

// jobFor joins what flags and answers say about a drawing; flags win.
func (q *question) jobFor(path string) plan.Job {
	job := q.job
	answer := q.answers.of(path)
	all := q.stated.over(answer)
	from := func(byFlag bool) string {
		if byFlag {
			return "flag"
		}
		return "answers"
	}
	if all.thicknessMM > 0 {
		job.ThicknessMM, job.ThicknessFrom = all.thicknessMM, from(q.stated.thicknessMM > 0)
	}
	if all.material != "" {
		job.MaterialName, job.MaterialFrom = all.material, from(q.stated.material != "")
		if m, ok := q.shop.Material(all.material); ok {
			job.Material = m
		}
	}
	if all.quantity > 0 {
		job.Quantity, job.QuantityFrom = all.quantity, from(q.stated.quantity > 0)
	}
	return job
}

func readDrawing(ctx context.Context, path string, lim dxfread.Limits) (*dxfread.Drawing, error) {
	f, err := openDrawing(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return dxfread.Read(ctx, f, lim)
}

// nothingRead tells that no entity came before the place of an error, so that
// there is nothing to look for parts in.
func nothingRead(d *dxfread.Drawing) bool {
	n := len(d.Model)
	for _, l := range d.Layouts {
		n += len(l.Entities)
	}
	return n == 0
}

func unreadable(path string, prof *shop.Profile, err error) *check.Report {
	rep := check.Unreadable(filepath.ToSlash(path), prof, err)
	var syntax *dxfread.SyntaxError
	if errors.As(err, &syntax) {
		rep.ErrLine = syntax.Line
	}
	var list *cutlist.Error
	if errors.As(err, &list) {
		rep.ErrLine = int64(list.Line)
	}
	return rep
}

// layerWords hands the shop's words for layers to the recogniser.
func layerWords(p *shop.Profile) features.LayerWords {
	return features.LayerWords{
		Bend: p.Layers["bend"], Mark: p.Layers["mark"], Centre: p.Layers["centre"], Hidden: p.Layers["hidden"],
		Construction: p.Layers["construction"], Dimension: p.Layers["dimension"], Frame: p.Layers["frame"], Text: p.Layers["text"],
		Cut: p.Layers["cut"], Hole: p.Layers["hole"],
	}
}

// loadShop reads the shop file, or takes the example shop when none is named.
func loadShop(path string) (*shop.Profile, error) {
	if path == "" {
		return shop.BuiltIn(), nil
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	prof, err := shop.Load(f, path)
	if err != nil {
		return nil, err
	}
	for _, p := range check.CheckSettings(prof) {
		if !p.Warning {
			return nil, hinted{err: fmt.Errorf("%s: %s: %s", path, p.Key, p.Message), hint: p.Hint}
		}
	}
	return prof, nil
}
