package check

import "burrside/check/station"

func ruleSlotHits(set []station.Setting) Rule {
	return Rule{
		ID:      "slot-hits",
		Title:   "Slot or opening in several hits",
		Why:     "Every hit after the first is loaded on one side: the punch is pushed over and the cusps stay.",
		Measure: "With a slot punch W x Lt: 1 + ceil((L - Lt)/(Lt - W)) hits, ends first. Nibbling with a round punch only where the shop allows it.",
		Fix:     "Buy a slot punch of the length, or punch the ends first and the middle last.",
		Params:  stationParams(set, "slot-hits"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.slot(100, 70, 22, 80)
			return b.example("a slot 22 x 80 in a plate 200 x 140 x 10", 10, "")
		},
		Part: byStations,
	}
}
