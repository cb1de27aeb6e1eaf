package check

import (
	"strings"

	"burrside/check/station"
)

// Rules lists all rules, in the order of the handbook RULES.md: holes, then
// edges, then the part, the codes, and the drawing.
func Rules() []Rule {
	return []Rule{
		rulePunchForce(),
		rulePunchRatio(),
		ruleTool(),
		ruleDieClearance(),
		ruleDieHolder(),
		ruleThroatReach(),
		ruleSlotHits(),
		ruleOpening(),
		ruleHoleProcess(),
		ruleWeb(),
		ruleHoleOnOutline(),
		ruleStripping(),
		ruleStrap(),

		ruleBlank(),
		ruleShearRow(),
		ruleMitre(),
		ruleSliver(),
		ruleHoldDown(),
		ruleNotchTool(),
		ruleNotchForce(),
		ruleInsideCorner(),
		ruleEdgeProcess(),
		ruleBend(),

		ruleMaterial(),
		ruleLift(),
		ruleSmallPart(),
		ruleQuantityConflict(),
		ruleThicknessMissing(),
		ruleMaterialMissing(),

		ruleEdgeDistance(),
		ruleHolePitch(),

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

// stationParams are the settings that the stations read under the id of a rule.
func stationParams(id string) []Param {
	var out []Param
	for _, s := range station.Settings() {
		if s.Rule == id {
			out = append(out, Param{s.Name, s.Unit, s.Default, s.Min, s.Max, s.Doc})
		}
	}
	return out
}

// stationSources cites what the rule is given and the sources of the stations'
// settings.
func stationSources(id string, more ...Cite) []Cite {
	out := more
	add := func(c Cite) {
		for _, o := range out {
			if o.Text == c.Text {
				return
			}
		}
		out = append(out, c)
	}
	for _, s := range station.Settings() {
		if s.Rule == id && s.Source != "" {
			text, memory := strings.CutSuffix(s.Source, ", from memory")
			add(Cite{Text: text, Memory: memory})
		}
	}
	if len(out) == 0 {
		add(shopPractice())
	}
	return out
}
