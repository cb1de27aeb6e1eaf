package check

import "burrside/check/station"

func ruleEndTool(set []station.Setting) Rule {
	return Rule{
		ID:    "end-tool",
		Title: "End of a bar or tube within an end tool",
		Why:   "A saddle tool fits one pipe: on another the joint gapes. A wall too thick or a bar too large breaks the tool.",
		Measure: "A saddle: outside diameters of the tube and of the pipe that it fits to against the tool's sizes, the wall against the tool's greatest, the angle between the axes against its least. Other tools: greatest size and thickness. " +
			"Steel stronger than the tool is meant for counts by its strength: walls t S / S of the tool, solid bars d sqrt(S / S of the tool).",
		Fix:     "Cut the end thermally or with a saw and grinder, or buy the tool.",
		Params:  stationParams(set, "end-tool"),
		Sources: []Cite{shopPractice(), {Text: "ASME B36.10M, diameters and walls of pipe"}},
		Example: func() Example {
			return exampleList("eight rails of 1-1/2 in pipe, schedule 80, coped to their own size", "PIPE 1-1/2 SCH 80,900 mm,8,S275,saddle 90/90")
		},
		Bar: barByStations,
	}
}
