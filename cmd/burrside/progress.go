package main

import (
	"io"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
)

// progress is a bar on a terminal for many drawings; elsewhere it is silent.
type progress struct {
	all *mpb.Progress
	bar *mpb.Bar
}

// progressAbove is the number of drawings from which a bar is worth its line.
const progressAbove = 20

func newProgress(w io.Writer, total int, quietOutput bool) *progress {
	if total < progressAbove || !quietOutput || !isTerminal(w) {
		return &progress{}
	}
	all := mpb.New(mpb.WithOutput(w), mpb.WithWidth(60))
	bar := all.AddBar(int64(total), mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.CountersNoUnit("%d of %d drawings ")),
		mpb.AppendDecorators(decor.Percentage()))
	return &progress{all, bar}
}

func (p *progress) step() {
	if p.bar != nil {
		p.bar.Increment()
	}
}

// done ends the bar, also when the work ended early.
func (p *progress) done() {
	if p.bar != nil {
		p.bar.Abort(true)
		p.all.Wait()
	}
}
