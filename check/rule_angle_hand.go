package check

import "burrside/features"

func ruleAngleHand() Rule {
	return Rule{
		ID:      "angle-hand",
		Title:   "Right or left hand of an angle",
		Why:     "Two views of the legs make two angles, one the mirror image of the other. Of ten made to the wrong hand all ten are scrap.",
		Measure: "An angle that is not its own mirror image, of which the drawing does not tell which hand it is: it cannot be told. Where both hands are drawn, the two are made alike in number and it is a note.",
		Fix:     "Ask which hand is meant.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 60, 50, 18)
			b.hole(1, 100, 50, 18)
			b.hand = features.HandUnknown
			return b.example("an angle 75 x 75 x 8 with holes in both legs, of unknown hand", 8, "")
		},
		Part: func(p *Pass) {
			a := p.Part.Angle
			if a == nil || a.Hand != features.HandUnknown {
				return
			}
			f := Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", At: p.Part.OnDrawing(a.Heel[0]), HasAt: true,
				Message: "the drawing does not tell which hand the angle is: its mirror image has the same views", Fix: "which leg stands toward the viewer?"}
			if plain, turned := bothHands(p.Part); plain > 0 && plain == turned && (p.Job.Quantity == 0 || p.Job.Quantity == plain+turned) {
				f.Severity, f.CannotTell = Note, false
				f.Message = "which of the two hands drawn is which is not told, but as many are drawn of one as of the other"
			}
			p.Report(f)
		},
	}
}

// bothHands counts the copies drawn one way and those drawn as mirror images.
func bothHands(part *features.Part) (plain, turned int) {
	for _, d := range part.DrawnAt {
		if d.Mirrored {
			turned++
		} else {
			plain++
		}
	}
	return plain, turned
}
