package check

import (
	"fmt"

	"burrside/check/station"
)

// VerdictOf is the verdict that a station's grade stands for: a remark still
// fits, and what is not known is never a pass.
func VerdictOf(g station.Grade) Verdict {
	switch g {
	case station.OK, station.Remark:
		return Fits
	case station.Care:
		return WithCare
	case station.Unknown:
		return CannotTell
	case station.Fail:
		return DoesNotFit
	}
	panic(fmt.Sprintf("check: unknown grade %d", g))
}
