package check

import (
	"fmt"
	"strings"

	"burrside/features"
	"burrside/features/measure"
)

// questions are plain sentences for the customer about one part: what only the
// customer can answer, and nothing of the shop.
func questions(p *Pass, rep *PartReport) []string {
	var out []string
	name := rep.Part.Name
	if name == "" {
		name = "the part"
	}
	for i := range rep.Findings {
		f := &rep.Findings[i]
		switch f.Rule {
		case "thickness-missing":
			switch {
			case f.CannotTell && f.Got != nil:
				out = append(out, fmt.Sprintf("What is the thickness of %s, and in which unit is %q?", name, rep.Part.Thickness.Text))
			case f.CannotTell && rep.Part.Thickness.Text != "":
				out = append(out, fmt.Sprintf("What is the thickness of %s? We cannot read %q.", name, rep.Part.Thickness.Text))
			case f.CannotTell:
				out = append(out, fmt.Sprintf("What is the thickness of %s?", name))
			case f.Severity == Warning && f.Limit == nil:
				out = append(out, fmt.Sprintf("How thick is %s? %s.", name, asSentence(f.Message)))
			case f.Severity == Warning:
				out = append(out, fmt.Sprintf("Is %s %s thick, as the drawing says, or %s?", name, p.length(f.Got.Value), p.length(f.Limit.Value)))
			}
		case "material-missing":
			switch {
			case f.CannotTell && rep.Job.MaterialName != "" && f.Who == "customer":
				out = append(out, fmt.Sprintf("Which grade is %q, the material of %s?", rep.Job.MaterialName, name))
			case f.CannotTell && f.Who == "customer":
				out = append(out, fmt.Sprintf("Which grade of steel is %s?", name))
			case f.Severity == Warning && rep.Job.MaterialFrom == "file name":
				out = append(out, fmt.Sprintf("Which grade of steel is %s? %s.", name, asSentence(f.Message)))
			case f.Severity == Warning && f.Who == "customer":
				out = append(out, fmt.Sprintf("Is %s of %q, as the drawing says, or of %s?", name, p.said.drawnName, rep.Job.MaterialName))
			}
		case "quantity-conflict":
			if f.Got == nil || f.Limit == nil {
				out = append(out, fmt.Sprintf("About %s: %s. How many pieces are wanted?", name, f.Message))
				continue
			}
			out = append(out, fmt.Sprintf("How many pieces of %s are wanted: %s or %s?", name, measure.FormatNumber(f.Limit.Value, 0), measure.FormatNumber(f.Got.Value, 0)))
		case "note-asks", "tolerance":
			if f.Who == "customer" && f.Severity == Warning {
				out = append(out, fmt.Sprintf("About %s%s: %s. %s", name, placeWords(f), f.Message, asSentence(f.Fix)))
			}
		case "line-unexplained":
			if f.Count > 1 {
				out = append(out, fmt.Sprintf("What are the %d lines across %s, one of them%s: bends, cuts or marks?", f.Count, name, placeWords(f)))
			} else {
				out = append(out, fmt.Sprintf("What is the line%s of %s: a bend, a cut or a mark?", placeWords(f), name))
			}
		case "reading-doubt":
			if f.CannotTell {
				out = append(out, fmt.Sprintf("About %s%s: %s. Which is meant?", name, placeWords(f), f.Message))
			} else if f.Severity == Warning && f.Limit != nil {
				out = append(out, fmt.Sprintf("About %s%s: %s. %s", name, placeWords(f), f.Message, asSentence(f.Fix)))
			}
		case "leg-not-drawn":
			out = append(out, fmt.Sprintf("Is the leg of %s that is not drawn plain?", name))
		case "angle-hand":
			if f.CannotTell {
				out = append(out, fmt.Sprintf("Which hand is %s: which leg stands toward the viewer?", name))
			}
		case "root-fillet":
			if f.CannotTell {
				out = append(out, fmt.Sprintf("Which section is %s, and what is its root radius?", name))
			} else if f.Severity == Error {
				out = append(out, fmt.Sprintf("%s of %s: %s; %s", idList(f.Features), name, f.Message, f.Fix))
			}
		case "hole-on-outline":
			out = append(out, fmt.Sprintf("Is %s of %s meant to break through the edge?", orText(idList(f.Features), "the contour"+placeWords(f)), name))
		case "gap-bridged":
			if f.Severity == Warning {
				out = append(out, fmt.Sprintf("The outline of %s has a gap%s: is it meant to close there?", name, placeWords(f)))
			}
		case "self-crossing":
			out = append(out, fmt.Sprintf("The outline of %s crosses itself%s: which way does it run?", name, placeWords(f)))
		case "open-outline":
			out = append(out, fmt.Sprintf("The outline of %s is open%s: how should it close?", name, placeWords(f)))
		case "edge-distance", "hole-pitch":
			if f.Severity != Note {
				out = append(out, fmt.Sprintf("%s of %s: %s; %s", idList(f.Features), name, f.Message, f.Fix))
			}
		case "bend":
			if f.FixBy == "drawing" && f.Fix != "" {
				out = append(out, fmt.Sprintf("%s of %s: %s; %s", idList(f.Features), name, f.Message, f.Fix))
			}
		case "web", "hole-to-bend":
			if f.Severity == Error {
				out = append(out, fmt.Sprintf("%s of %s: %s; %s", idList(f.Features), name, f.Message, f.Fix))
			}
		}
	}
	var seats []string
	for i := range rep.Part.Features {
		if f := &rep.Part.Features[i]; f.Kind == features.HoleWithSeat && f.Process == "" {
			seats = append(seats, f.ID)
		}
	}
	if len(seats) > 0 {
		out = append(out, fmt.Sprintf("What is the outer circle of %s of %s: a countersink, a counterbore, a spot face, or a bolt or washer drawn in its place?", idList(seats), name))
	}
	return out
}

func placeWords(f *Finding) string {
	if !f.HasAt {
		return ""
	}
	return fmt.Sprintf(" near (%s, %s)", measure.FormatNumber(f.At.X, 1), measure.FormatNumber(f.At.Y, 1))
}

// mostCautions is how many cautions a part gets: a longer list is not read.
const mostCautions = 4

// cautions are orders for whoever makes the part, chosen by what the part does.
func cautions(rep *PartReport) []string {
	has := map[string]bool{}
	for i := range rep.Findings {
		if f := &rep.Findings[i]; f.Severity != Note && !f.CannotTell {
			has[f.Rule] = true
		}
	}
	var many, punched, notched, bent, ground bool
	for i := range rep.Plan.Makes {
		m := &rep.Plan.Makes[i]
		switch m.MadeBy {
		case "punch":
			punched = true
			many = many || m.Use.Hits > 1
		case "notch":
			notched = true
		case "bend":
			bent = true
		case "grind":
			ground = true
		}
	}
	cut, place := false, ""
	for i := range rep.Plan.Cuts {
		u := &rep.Plan.Cuts[i].Use
		cut = cut || u.Station == "shear"
		if place == "" && u.Place != "" {
			place = u.Machine + ": " + u.Place
		}
	}
	long := max(rep.Plan.Blank.LengthMM, rep.Part.Box.Width(), rep.Part.Box.Height())
	for i := range rep.Plan.Cuts {
		long = max(long, rep.Plan.Cuts[i].HeldMM)
	}
	strong := rep.Job.Material != nil && rep.Job.Material.Group != "mild" && rep.Job.Material.Group != "aluminium"
	var out []string
	say := func(when bool, text string) {
		if when && len(out) < mostCautions {
			out = append(out, text)
		}
	}
	say(has["material"], "do not punch, notch or shear this metal: it shatters")
	say(has["lift"], "lift the blank with two people or a hoist; keep feet clear")
	say(has["small-part"], "keep fingers out: work it on the bar, or hold it with tongs or a jig")
	say(has["hold-down"], "stand clear of the piece that the hold-down does not hold")
	say(many, "never punch part of a hole without support: end hits first, middle last")
	say(has["hole-on-outline"], "never punch a hole that runs over the edge")
	say(has["sliver"], "clear slivers from the blades with the machine stopped")
	say(place != "", place)
	say(long > 1500 && (punched || cut), "support long stock on both sides; keep clear of the end that swings")
	say(has["stripping"] || has["strap"], "set the stripper just above the plate, with metal under it on both sides")
	say(punched && strong, "stand to the side and wear eye and ear protection: slugs of strong metal fly")
	say(punched && rep.Plan.Work.Hits > 0, "check punch and die for match and alignment before the first hit")
	say(cut, "keep hands clear of the hold-down and of the piece that falls")
	say(notched, "keep the guard of the notcher down; never reach for the slug")
	say(bent, "keep hands clear of the plate as it swings up")
	say(ground, "wear eye protection when grinding")
	return out
}

// asSentence begins with a capital.
func asSentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
