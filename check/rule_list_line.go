package check

import (
	"fmt"
	"strings"
)

func ruleListLine() Rule {
	return Rule{
		ID:      "list-line",
		Title:   "Line of a cut list understood",
		Why:     "A section, length or end that is guessed at becomes scrap.",
		Measure: "Section, length, quantity, material and end of each line; what is missing or not understood is told with its line and column, and the other lines are judged all the same.",
		Fix:     "Write the line again.",
		Sources: []Cite{shopPractice()},
		Example: func() Example { return exampleList("a flat bar without its length", "FL 100x10,,4,S275,square") },
		Bar:     checkListLine,
	}
}

func checkListLine(p *BarPass) {
	for _, q := range p.Line.Problems {
		where := fmt.Sprintf("line %d, column %d", q.Line, q.Column)
		if q.Field != "" {
			where += ", " + q.Field
		}
		p.Report(Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Message: where + ": " + strings.TrimSuffix(q.Text, "?"), Fix: "what is meant?", cause: where})
	}
}
