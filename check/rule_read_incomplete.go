package check

import (
	"burrside/features"
)

func ruleReadIncomplete() Rule {
	const text, fix = "the drawing was not read to its end", "could the file be sent again, as an ASCII DXF?"
	return Rule{
		ID:      "read-incomplete",
		Title:   "Drawing that was not read to its end",
		Why:     "A hole, a note or a whole part may stand in what is missing.",
		Measure: "What the reader says: the file breaks off or is damaged, or holds more than the limit of placed entities.",
		Fix:     "Ask for the file again, as an ASCII DXF.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return sheetExample("a file that breaks off", features.Fault{Code: "read-incomplete", Count: 1, Part: -1})
		},
		Part: func(p *Pass) {
			p.faults("read-incomplete", Error, true, text, fix)
			p.faults("too-many-placed", Error, true, text, fix)
		},
		Sheet: func(p *SheetPass) { p.faults([]string{"read-incomplete", "too-many-placed"}, Error, true, text, fix) },
	}
}
