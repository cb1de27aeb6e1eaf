package features_test

import (
	"fmt"
	"math"
	"strings"

	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
)

// officeWant is what is wanted of a drawing.
type officeWant struct {
	parts      []officePart
	said       []dxftest.Want // doubts, faults and notes
	asDrawn    bool           // not in a block, turned or mirrored
	unmirrored bool
}

// officePart is a wanted part with its features.
type officePart struct {
	head     dxftest.Want
	features []dxftest.Want
}

// officeKinds are the words for features.
func officeKinds() map[string]features.Kind {
	return map[string]features.Kind{"hole": features.RoundHole, "seat": features.HoleWithSeat, "tapped": features.TappedHole, "slot": features.Slot, "rectangle": features.RectangularHole,
		"cutout": features.Cutout, "notch": features.Notch, "clip": features.CornerClip, "radius": features.CornerRadius, "bend": features.Bend, "mark": features.Mark, "mitre": features.StraightCut}
}

func parseOffice(text string) (*officeWant, error) {
	wants, err := dxftest.ParseWants(text)
	if err != nil {
		return nil, err
	}
	out := &officeWant{}
	kinds := officeKinds()
	for _, w := range wants {
		_, feature := kinds[w.Name]
		switch {
		case w.Name == "angle", w.Name == "plate":
			out.parts = append(out.parts, officePart{head: w})
		case feature && len(out.parts) > 0:
			p := &out.parts[len(out.parts)-1]
			p.features = append(p.features, w)
		case w.Name == "doubt", w.Name == "may-doubt", w.Name == "fault", w.Name == "note", w.Name == "no-note":
			out.said = append(out.said, w)
		case w.Name == "only":
			for _, v := range w.Values {
				out.asDrawn = out.asDrawn || v.Key == "as-drawn"
				out.unmirrored = out.unmirrored || v.Key == "unmirrored"
			}
		case w.Name == "verdict":
		default:
			return nil, fmt.Errorf("line %d: what is %q?", w.Line, w.Text)
		}
	}
	return out, nil
}

// wrong lists what was wanted and is not there, and what nobody wanted. A moved
// drawing may begin at the other end and change equal legs.
func (w *officeWant) wrong(s *features.Sheet, isMoved bool) []string {
	var wrong []string
	used := make([]bool, len(s.Parts))
	for i := range w.parts {
		var nearest []string
		found := false
		for k := range s.Parts {
			if used[k] {
				continue
			}
			bad := w.parts[i].differs(&s.Parts[k], isMoved)
			if len(bad) == 0 {
				used[k], found = true, true
				break
			}
			if nearest == nil || len(bad) < len(nearest) {
				nearest = bad
			}
		}
		if !found {
			wrong = append(wrong, fmt.Sprintf("line %d: no such part: %s", w.parts[i].head.Line, w.parts[i].head.Text))
			for _, n := range nearest {
				wrong = append(wrong, "    the nearest: "+n)
			}
		}
	}
	for k := range s.Parts {
		if !used[k] {
			wrong = append(wrong, "not wanted: "+officePartLine(&s.Parts[k]))
		}
	}
	return append(wrong, w.saidWrong(s)...)
}

// saidWrong looks at doubts, faults and notes.
func (w *officeWant) saidWrong(s *features.Sheet) []string {
	var wrong []string
	doubts, faults := map[[2]int]bool{}, map[int]bool{}
	for i := range w.said {
		want := &w.said[i]
		number, counted := want.Number("count")
		found := 0
		switch want.Name {
		case "doubt", "may-doubt":
			for k := range s.Parts {
				for j, d := range s.Parts[k].Doubts {
					if !doubts[[2]int{k, j}] && (!counted || found < int(number)) && dirtSays(want, d.Code, d.Grave, d.Text, 0) {
						doubts[[2]int{k, j}] = true
						found++
					}
				}
			}
		case "fault":
			for k, f := range s.Faults {
				if !faults[k] && dirtSays(want, f.Code, true, f.Text, f.Value) {
					faults[k] = true
					found++
				}
			}
		default:
			for _, n := range s.Notes {
				if dirtSays(want, n.Code, false, n.Text, 0) {
					found++
				}
			}
		}
		switch {
		case want.Name == "may-doubt":
		case want.Name == "no-note" && found > 0, want.Name != "no-note" && found == 0, counted && found != int(number):
			wrong = append(wrong, fmt.Sprintf("line %d: said %d times: %s", want.Line, found, want.Text))
		}
	}
	for k := range s.Parts {
		for j, d := range s.Parts[k].Doubts {
			if !doubts[[2]int{k, j}] {
				wrong = append(wrong, fmt.Sprintf("not wanted: doubt %s grave=%v at %.1f,%.1f: %s", d.Code, d.Grave, d.At.X, d.At.Y, d.Text))
			}
		}
	}
	for k, f := range s.Faults {
		if !faults[k] {
			wrong = append(wrong, fmt.Sprintf("not wanted: fault %s value=%.5g: %s", f.Code, f.Value, f.Text))
		}
	}
	return wrong
}

// officePlace is how a part may lie otherwise than drawn: an angle with its
// other end first and its legs changed, a plate turned and mirrored.
type officePlace struct {
	flip, swap bool
	quarters   int
	mirror     bool
}

func (w *officePart) places(isMoved bool) []officePlace {
	out := []officePlace{{}}
	if !isMoved {
		return out
	}
	if w.head.Name == "angle" {
		a, _ := w.head.Number("a")
		b, _ := w.head.Number("b")
		out = append(out, officePlace{flip: true})
		if a == b {
			out = append(out, officePlace{swap: true}, officePlace{flip: true, swap: true})
		}
		return out
	}
	for q := range 4 {
		out = append(out, officePlace{quarters: q}, officePlace{quarters: q, mirror: true})
	}
	return out
}

// differs tells in what a part is not the wanted one; nil if in nothing.
func (w *officePart) differs(p *features.Part, isMoved bool) []string {
	var least []string
	for _, how := range w.places(isMoved) {
		bad := w.headWrong(p, how)
		bad = append(bad, w.featuresWrong(p, how)...)
		if len(bad) == 0 {
			return nil
		}
		if least == nil || len(bad) < len(least) {
			least = bad
		}
	}
	return least
}

// headWrong compares the part without its features.
func (w *officePart) headWrong(p *features.Part, how officePlace) []string {
	var bad []string
	form, copies := features.FormFlat, 1.0
	if w.head.Name == "angle" {
		form = features.FormAngle
	}
	if p.Form != form || (p.Angle != nil) != (form == features.FormAngle) {
		return []string{officePartLine(p)}
	}
	wide, high := p.Box.Width(), p.Box.Height()
	if how.quarters%2 == 1 {
		wide, high = high, wide
	}
	a := p.Angle
	if a == nil {
		a = &features.Angle{}
	}
	for _, v := range w.head.Values {
		got, text, off := math.NaN(), "", 0.02
		switch v.Key {
		case "a":
			got = a.LegMM[0]
		case "b":
			got = a.LegMM[1]
		case "w":
			got = wide
		case "h":
			got = high
		case "t":
			got = p.Thickness.MM
			if p.Thickness.From == "" {
				got = math.NaN()
			}
			if a.ThicknessMM != 0 && math.Abs(a.ThicknessMM-v.Number) > 0.02 {
				bad = append(bad, fmt.Sprintf("the angle's thickness is %v", a.ThicknessMM))
			}
		case "length":
			got = a.LengthMM
		case "kg":
			got, off = a.MassKgM, 0.006
		case "root":
			got = a.RootMM
		case "k":
			got = a.ToRootMM
		case "area":
			got, off = p.AreaMM2, 0.5+2e-4*v.Number
		case "qty":
			got = float64(p.Quantity)
		case "copies":
			copies = v.Number
			continue
		case "section":
			text = a.Section
		case "list":
			text = a.SectionList
		case "from":
			text = a.From
		case "hand":
			text = string(a.Hand)
		case "material":
			text = p.Material.Text
		default:
			bad = append(bad, "what is "+v.Key+"?")
			continue
		}
		if math.IsNaN(got) {
			if text == "" {
				text = "none"
			}
			if text != strings.ReplaceAll(v.Text, "_", " ") {
				bad = append(bad, fmt.Sprintf("%s is %q, want %q", v.Key, text, v.Text))
			}
			continue
		}
		if math.Abs(got-v.Number) > off {
			bad = append(bad, fmt.Sprintf("%s is %.4g, want %s", v.Key, got, v.Text))
		}
	}
	if float64(p.Copies()) != copies {
		bad = append(bad, fmt.Sprintf("%d copies, want %g", p.Copies(), copies))
	}
	if !p.Clean {
		bad = append(bad, "the part is not clean")
	}
	return bad
}

// featuresWrong compares the features of a part, straight cuts that are no
// mitres left out.
func (w *officePart) featuresWrong(p *features.Part, how officePlace) []string {
	var bad []string
	used := make([]bool, len(p.Features))
	for i := range w.features {
		found := false
		for k := range p.Features {
			if f := &p.Features[k]; !used[k] && officeFeature(p, f, &w.features[i], how) {
				used[k], found = true, true
				break
			}
		}
		if !found {
			bad = append(bad, fmt.Sprintf("line %d: no such feature: %s", w.features[i].Line, w.features[i].Text))
		}
	}
	for k := range p.Features {
		f := &p.Features[k]
		if used[k] || f.Kind == features.ArcCut || f.Kind == features.StraightCut && f.Subkind != "mitre" {
			continue
		}
		bad = append(bad, fmt.Sprintf("not wanted: %s leg %q heel %.3f start %.3f", featureLine(f), f.Leg, f.FromHeelMM, f.FromStartMM))
	}
	return bad
}

// officeFeature compares one feature: sizes and places within 0.02 mm.
func officeFeature(p *features.Part, f *features.Feature, w *dxftest.Want, how officePlace) bool {
	if f.Kind != officeKinds()[w.Name] || w.Name == "mitre" && f.Subkind != "mitre" {
		return false
	}
	at := how.plate(f.At, p.Box)
	for _, v := range w.Values {
		got, off := sizeNamed(f, v.Key), 0.02
		switch v.Key {
		case "leg":
			want := strings.TrimPrefix(v.Text, "both")
			if how.swap && want != "" {
				want = map[string]string{"a": "b", "b": "a"}[want]
			}
			if f.Leg != want {
				return false
			}
			continue
		case "heel":
			got = f.FromHeelMM
		case "start":
			got = f.FromStartMM
			if how.flip {
				got = p.Angle.LengthMM - got
			}
		case "x":
			got = at.X
		case "y":
			got = at.Y
		case "long": // one of the two legs of a corner
			got = f.Long[0]
			if math.Abs(got-v.Number) > off {
				got = f.Long[1]
			}
		case "short":
			got = min(f.Long[0], f.Long[1])
		case "shape":
			if string(f.Shape) != v.Text {
				return false
			}
			continue
		case "deg": // of a mitre, off square to the heel
			along := p.Angle.Heel[1].Sub(p.Angle.Heel[0])
			d := math.Abs(math.Mod(f.AngleRad-math.Atan2(along.Y, along.X)+2*math.Pi, math.Pi) - math.Pi/2)
			got = d * 180 / math.Pi
		}
		if !(math.Abs(got-v.Number) <= off) {
			return false
		}
	}
	return true
}

// plate gives a place from the bottom left of a plate that lies otherwise.
func (how officePlace) plate(at geom.Point, box geom.Box) geom.Point {
	p := at.Sub(box.Centre())
	for range how.quarters {
		p = geom.Point{X: p.Y, Y: -p.X}
	}
	w, h := box.Width(), box.Height()
	if how.quarters%2 == 1 {
		w, h = h, w
	}
	if how.mirror {
		p.X = -p.X
	}
	return geom.Point{X: p.X + w/2, Y: p.Y + h/2}
}

// officePartLine prints a part in the words of a want.
func officePartLine(p *features.Part) string {
	more := fmt.Sprintf("t=%g copies=%d material=%s qty=%d", p.Thickness.MM, p.Copies(), p.Material.Text, p.Quantity)
	if a := p.Angle; a != nil {
		return fmt.Sprintf("angle a=%.4f b=%.4f length=%.4f section=%s list=%s kg=%.3f root=%g k=%.3f from=%s hand=%s %s", a.LegMM[0], a.LegMM[1], a.LengthMM, a.Section, a.SectionList, a.MassKgM, a.RootMM, a.ToRootMM, a.From, a.Hand, more)
	}
	return fmt.Sprintf("plate w=%.4f h=%.4f area=%.2f %s", p.Box.Width(), p.Box.Height(), p.AreaMM2, more)
}
