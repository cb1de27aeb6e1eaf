package check

import (
	"strings"

	"burrside/check/station"
	"burrside/features"
)

// Rules lists all rules, in the order of the handbook RULES.md: holes, then
// edges, then the part, the codes, and the drawing.
func Rules() []Rule {
	set := station.Settings()
	return []Rule{
		rulePunchForce(set),
		rulePunchRatio(set),
		ruleTool(set),
		ruleDieClearance(set),
		ruleDieHolder(set),
		ruleThroatReach(set),
		ruleSlotHits(set),
		ruleOpening(set),
		ruleHoleProcess(),
		rulePunchingClass(),
		rulePunchingLimit(),
		ruleTolerance(),
		ruleWeb(),
		ruleHoleOnOutline(),
		ruleStripping(),
		ruleDieLand(),
		ruleStrap(),
		ruleLegClearance(set),
		ruleRootFillet(),
		ruleUsualGauge(),
		ruleLegsFoul(),

		ruleBlank(set),
		ruleShearRow(set),
		ruleMitre(set),
		ruleSliver(set),
		ruleTwist(set),
		ruleHoldDown(set),
		ruleNotchTool(set),
		ruleNotchForce(set),
		ruleInsideCorner(),
		ruleAngleShear(set),
		ruleAngleMitre(set),
		ruleBarShear(set),
		ruleChannelShear(set),
		ruleTubeShear(set),
		ruleEndTool(set),
		ruleLegNotch(set),
		ruleEdgeProcess(set),
		ruleBend(set),
		ruleHoleToBend(),

		ruleMaterial(),
		ruleLift(),
		ruleSmallPart(),
		ruleAngleHand(),
		ruleLegNotDrawn(),
		ruleNoteAsks(),
		ruleQuantityConflict(),
		ruleThicknessMissing(),
		ruleMaterialMissing(),

		ruleEdgeDistance(),
		ruleHolePitch(),
		ruleHoleClass(),

		ruleListLine(),
		ruleNoPart(),
		ruleOpenOutline(),
		ruleSelfCrossing(),
		ruleReadIncomplete(),
		ruleUnitsDoubt(),
		ruleUnitsUnknown(),
		ruleLineUnexplained(),
		ruleReadingDoubt(),
		ruleGapBridged(),
		ruleDuplicateLines(),
	}
}

// byStations is the check of a rule whose numbers the stations work out. Where
// they wait for a datum, that is said.
func byStations(p *Pass) {
	if p.Aspects() > 0 || !concerns(p.rule.ID, p.Part) {
		return
	}
	switch {
	case !(p.Job.ThicknessMM > 0):
		p.Skip("needs the thickness")
	case !hasSteel(&p.Job):
		p.Skip("needs the material")
	}
}

// concerns tells that a part has what a rule of the stations looks at.
func concerns(id string, part *features.Part) bool {
	has := func(is func(*features.Feature) bool) bool {
		for i := range part.Features {
			if is(&part.Features[i]) {
				return true
			}
		}
		return false
	}
	switch id {
	case "punch-force", "punch-ratio", "tool", "die-clearance", "die-holder", "throat-reach":
		return has((*features.Feature).IsInside)
	case "slot-hits", "opening":
		return has(func(f *features.Feature) bool { return f.IsInside() && f.Kind != features.RoundHole })
	case "leg-clearance":
		return part.Angle != nil && has((*features.Feature).IsInside)
	case "angle-shear", "angle-mitre":
		return part.Angle != nil
	case "shear-row", "mitre", "sliver", "twist", "hold-down":
		return part.Angle == nil
	case "leg-notch":
		return part.Angle != nil && has(func(f *features.Feature) bool { return f.Kind == features.Notch })
	case "notch-tool", "notch-force":
		return has(func(f *features.Feature) bool { return f.Kind == features.Notch })
	case "edge-process":
		return has(func(f *features.Feature) bool { return f.Kind == features.CornerRadius || f.Kind == features.ArcCut })
	case "bend":
		return has(func(f *features.Feature) bool { return f.Kind == features.Bend })
	}
	return true
}

// stationParams are the settings that the stations read under the id of a rule.
func stationParams(set []station.Setting, id string) []Param {
	var out []Param
	for _, s := range set {
		if s.Rule == id {
			text, memory := strings.CutSuffix(s.Source, ", from memory")
			out = append(out, Param{s.Name, s.Unit, s.Default, s.Min, s.Max, s.Doc, Cite{Text: text, Memory: memory}})
		}
	}
	return out
}
