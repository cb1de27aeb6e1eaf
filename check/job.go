package check

import (
	"strings"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
)

// statements keep what is said about a part and by whom, for the rules that
// compare it.
type statements struct {
	asked       plan.Job // flags and answers alone
	statedMM    float64  // thickness before it became a stock size
	snapped     bool
	drawnMM     float64 // thickness by the drawing, as a stock size; 0 not stated
	drawnSteel  *shop.Material
	drawnName   string
	drawnPieces int
}

// resolve fills what flags and answers leave open from the drawing's own words.
// Flags win. A thickness near a stock size becomes it. A material that the shop
// does not know stays unknown, with its name; the number of copies counts only
// when no quantity is stated.
func resolve(part *features.Part, prof *shop.Profile, job plan.Job) (plan.Job, statements) {
	s := statements{asked: job, drawnName: strings.TrimSpace(part.Material.Text), drawnPieces: part.Quantity}
	stated, from := part.Thickness.MM, part.Thickness.From
	// A rolled section's thickness is its own and no plate's of the rack.
	snap := prof.SnapThickness
	if a := part.Angle; a != nil {
		if a.ThicknessMM > 0 && (!(stated > 0) || a.Section != "") {
			stated, from = a.ThicknessMM, "section"
		}
		snap = func(mm float64) (float64, bool) {
			if a.ThicknessMM > 0 && abs(mm-a.ThicknessMM) <= max(0.15, 0.015*a.ThicknessMM) {
				return a.ThicknessMM, mm != a.ThicknessMM
			}
			return mm, false
		}
	}
	if stated > 0 {
		s.drawnMM, _ = snap(stated)
	}
	if s.drawnName != "" {
		if m, ok := prof.Material(s.drawnName); ok {
			s.drawnSteel = m
		}
	}
	if !(job.ThicknessMM > 0) {
		job.ThicknessMM, job.ThicknessFrom = 0, ""
		if stated > 0 {
			job.ThicknessMM, job.ThicknessFrom = stated, from
		}
	}
	if job.ThicknessMM > 0 {
		s.statedMM = job.ThicknessMM
		job.ThicknessMM, s.snapped = snap(job.ThicknessMM)
	}
	if job.Material == nil && job.MaterialName != "" {
		if m, ok := prof.Material(job.MaterialName); ok {
			job.Material = m
		}
	}
	if job.Material == nil && job.MaterialName == "" && s.drawnName != "" {
		job.Material, job.MaterialName, job.MaterialFrom = s.drawnSteel, s.drawnName, part.Material.From
	}
	if job.Material != nil && job.MaterialName == "" {
		job.MaterialName = job.Material.Name
	}
	switch {
	case job.Quantity > 0:
	case part.Quantity > 0:
		job.Quantity, job.QuantityFrom = part.Quantity, orText(part.QuantityFrom, "text")
	case part.Copies() > 1:
		job.Quantity, job.QuantityFrom = part.Copies(), "drawn"
	}
	return job, s
}

// hasSteel tells that the material is one whose strength is known.
func hasSteel(job *plan.Job) bool { return job.Material != nil && job.Material.ShearMPa > 0 }
