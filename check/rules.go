package check

import (
	"strings"

	"burrside/check/station"
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
		ruleWeb(),
		ruleHoleOnOutline(),
		ruleStripping(),
		ruleStrap(),

		ruleBlank(set),
		ruleShearRow(set),
		ruleMitre(set),
		ruleSliver(set),
		ruleHoldDown(set),
		ruleNotchTool(set),
		ruleNotchForce(set),
		ruleInsideCorner(),
		ruleEdgeProcess(set),
		ruleBend(set),

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
func stationParams(set []station.Setting, id string) []Param {
	var out []Param
	for _, s := range set {
		if s.Rule == id {
			out = append(out, Param{s.Name, s.Unit, s.Default, s.Min, s.Max, s.Doc})
		}
	}
	return out
}

// stationSources cites what the rule is given and the sources of the stations'
// settings.
func stationSources(set []station.Setting, id string, more ...Cite) []Cite {
	out := more
	add := func(c Cite) {
		for _, o := range out {
			if o.Text == c.Text {
				return
			}
		}
		out = append(out, c)
	}
	for _, s := range set {
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
