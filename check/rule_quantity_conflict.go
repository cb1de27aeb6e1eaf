package check

import (
	"fmt"
	"strings"

	"burrside/features"
)

func ruleQuantityConflict() Rule {
	return Rule{
		ID:      "quantity-conflict",
		Title:   "Pieces stated and drawn do not agree",
		Why:     "The wrong number of parts is made, or billed.",
		Measure: "Pieces by flag or answers, by the drawing's text, and copies drawn when there is more than one. The first that is stated holds; two numbers in the drawing's texts cannot be told apart unless a flag or the answers settle it.",
		Fix:     "Ask how many pieces are wanted.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 150)
			b.p.Quantity = 4
			e := b.example(`"4 OFF" beside two copies of a plate 200 x 150 x 10`, 10, "")
			e.Part.DrawnAt = append(e.Part.DrawnAt, e.Part.DrawnAt[0])
			return e
		},
		Part: checkQuantity,
	}
}

// ofQuantity tells a doubt about two numbers of pieces in the drawing's texts.
func ofQuantity(d *features.Doubt) bool {
	return d.Code == "text-conflict" && strings.Contains(d.Text, "states the quantity twice")
}

func checkQuantity(p *Pass) {
	p.doubts(ofQuantity)
	type statement struct {
		n    int
		from string
	}
	var said []statement
	if n := p.said.asked.Quantity; n > 0 {
		said = append(said, statement{n, "asked for"})
	}
	if n := p.said.drawnPieces; n > 0 {
		from := "stated in the drawing"
		if p.Part.QuantityFrom == "file name" {
			from = "by the file's name"
		}
		said = append(said, statement{n, from})
	}
	if n := p.Part.Copies(); n > 1 {
		said = append(said, statement{n, "drawn"})
	}
	for i := 1; i < len(said); i++ {
		if said[i].n == said[0].n {
			continue
		}
		p.Report(Finding{Severity: Warning, Who: "customer", FixBy: "drawing", At: p.Part.QuantityAt, HasAt: p.Part.QuantityFrom == "text",
			Got: &Quantity{float64(said[i].n), ""}, Limit: &Quantity{float64(said[0].n), ""},
			Message: fmt.Sprintf("%d pieces %s, %d %s: %d counted", said[0].n, said[0].from, said[i].n, said[i].from, said[0].n),
			Fix:     "how many pieces are wanted?", cause: said[i].from})
	}
}
