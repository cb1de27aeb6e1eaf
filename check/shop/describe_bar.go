package shop

import (
	"fmt"
	"math"
	"strings"
)

func (d *describer) barStation(s *BarStation) {
	name := s.Shape + " bar shear"
	if s.Shape == "channel" {
		name = "channel shear"
	}
	d.station(name, &s.Rating, nil, nil)
	switch {
	case len(s.Channels) > 0:
		texts := make([]string, len(s.Channels))
		for i, c := range s.Channels {
			texts[i] = "depth " + d.mm(c.DepthMM)
			for _, part := range []struct {
				word string
				mm   float64
			}{{"flange", c.FlangeMM}, {"web", c.WebMM}, {"flange thickness", c.FlangeThicknessMM}} {
				if part.mm > 0 {
					texts[i] += ", " + part.word + " to " + d.mm(part.mm)
				}
			}
		}
		d.line(2, "blades for %s", strings.Join(texts, "; "))
	case len(s.CavitiesMM) > 0:
		governs := "each its own row"
		if s.ByForce {
			governs = "one force governs"
		}
		d.line(2, "cavities %s; %s", d.list(s.CavitiesMM), governs)
	default:
		d.line(2, "to %s", d.mm(s.MaxMM))
	}
}

func (d *describer) tubeStation(s *TubeStation) {
	d.station(s.Shape+" tube shear", &s.Rating, nil, nil)
	texts := make([]string, len(s.Rows))
	for i, r := range s.Rows {
		texts[i] = d.mm(r.SizeMM) + " with a wall to " + d.mm(r.ThicknessMM)
	}
	d.line(2, "rows in %s at %.4g MPa: %s", s.BasisMaterial, s.BasisMPa, strings.Join(texts, ", "))
}

func (d *describer) endTools() {
	if len(d.p.Ends) == 0 {
		return
	}
	d.head("Tools for ends of bars and tubes (%d)", len(d.p.Ends))
	for i := range d.p.Ends {
		e := &d.p.Ends[i]
		var sizes []string
		for _, z := range e.Sizes {
			text := d.mm(z.SizeMM)
			if z.ThicknessMM > 0 {
				text += " x " + d.mm(z.ThicknessMM)
			}
			if z.HeaderMM > 0 && math.Abs(z.HeaderMM-z.SizeMM) > 1e-9 {
				text += " to a pipe of " + d.mm(z.HeaderMM)
			}
			sizes = append(sizes, text)
		}
		angle := ""
		if e.LeastAngleRad > 0 {
			angle = "at 90 deg"
			if e.LeastAngleRad < math.Pi/2-1e-9 {
				angle = "from " + showDeg(e.LeastAngleRad) + " to 90 deg"
			}
		}
		machine := ""
		if e.Machine != "" {
			machine = e.Machine + " only"
		}
		word := "to "
		if e.Work == "saddle" {
			word = "for tubes "
		}
		d.line(1, "%s: %s", e.Name, opt(e.Work+" on "+strings.Join(e.Shapes, ", "), word+strings.Join(sizes, ", "), angle,
			fmt.Sprintf("meant in %s at %.4g MPa", e.BasisMaterial, e.BasisMPa), machine))
	}
}
