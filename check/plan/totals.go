package plan

import (
	"fmt"
	"slices"

	"burrside/check/shop"
)

// JobTotals adds works over a folder: hits by tool, tool changes counted over
// the group, minutes.
type JobTotals struct {
	Parts, Pieces, Hits, Bites, Cuts       int
	ToolChanges                            int // with all parts sorted by punch and die
	SetUpMinutes, RunMinutes, TotalMinutes float64
	NetKG, GrossKG                         float64
	Buy                                    []string
	Assumptions                            []string
	Uncounted                              int // parts whose work is not known
}

// Totals counts a whole job. Tool changes are counted over the group, each
// punch with its die once, as the parts are sorted by them; a part's own
// Work.ToolChanges holds if it is made alone. jobs is beside plans and tells the
// quantities that a plan was made for; it may be nil.
func Totals(plans []*Plan, jobs []Job, prof *shop.Profile) JobTotals {
	var t JobTotals
	var tools []setup
	settings, firsts := 0, 0
	for i, p := range plans {
		w := &p.Work
		n := max(1, w.Quantity)
		if i < len(jobs) && jobs[i].Quantity > 0 {
			n = jobs[i].Quantity
		}
		t.Parts++
		t.Pieces += n
		t.Hits += n * w.Hits
		t.Bites += n * w.Bites
		t.Cuts += n * w.Cuts
		t.NetKG += float64(n) * w.NetKG
		t.GrossKG += float64(n) * w.GrossKG
		for _, b := range w.Buy {
			if !slices.Contains(t.Buy, b) {
				t.Buy = append(t.Buy, b)
			}
		}
		if !w.Known {
			t.Uncounted++
			continue
		}
		t.RunMinutes += float64(n) * w.MinutesEach
		settings += w.Settings
		firsts += w.FirstOffs
		for _, s := range p.setups() {
			if !slices.Contains(tools, s) {
				tools = append(tools, s)
			}
		}
	}
	slices.Sort(t.Buy)
	r := &prof.Rates
	t.ToolChanges = len(tools)
	t.SetUpMinutes = (float64(len(tools))*r.PunchChange + float64(settings)*r.Setting + float64(firsts)*r.FirstOff) / availability(r) / 60
	t.TotalMinutes = t.SetUpMinutes + t.RunMinutes
	t.Assumptions = append(t.Assumptions, count(t.ToolChanges, "tool change")+", all parts sorted by punch and die")
	if t.Uncounted > 0 {
		t.Assumptions = append(t.Assumptions, fmt.Sprintf("%d of %s not in the minutes: the work is not known", t.Uncounted, count(t.Parts, "part")))
	}
	return t
}
