package check

import "burrside/check/station"

func ruleChannelShear(set []station.Setting) Rule {
	return Rule{
		ID:    "channel-shear",
		Title: "Channel within the channel shear",
		Why:   "The blades are shaped to one size: a deeper channel does not go in, a smaller one bends, a thicker or stronger one stalls the shear.",
		Measure: "Depth, width of flange and thickness of web against the channels that the blades are for, as far as the shop file states them; steel stronger than the list means by t S / S of the list, softer steel never thicker. " +
			"Where the list gives no thickness, stronger steel is judged by area x shear strength, an upper bound, against the station's force; where that is not known either, it cannot be told. Channels are cut square only.",
		Fix:     "Saw it.",
		Params:  stationParams(set, "channel-shear"),
		Sources: []Cite{shopPractice(), {Text: "EN 10365 and AISC Manual Tables 1-5 and 1-6, sizes of channels"}},
		Example: func() Example { return exampleList("four pieces of UPN 120, 1.5 m long", "UPN 120,1500 mm,4,S275,") },
		Bar:     barByStations,
	}
}
