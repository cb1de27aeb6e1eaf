package features

import (
	"fmt"
	"math"

	"burrside/features/measure"
)

// gauge turns a gauge's number into a thickness by the metal that its line or
// the part names. Without one it is no thickness, and that is told.
func (b *builder) gauge(p *Part, s *statement) bool {
	metal := measure.GaugeMetal(s.whole)
	if metal == "" {
		metal = measure.GaugeMetal(p.Material.Text)
	}
	note := Note{Code: "maybe-thickness", At: s.text.At, HasAt: true, Source: []Source{s.text.Source}}
	mm, ok := measure.GaugeThickness(s.gauge, metal)
	if metal == "" || !ok {
		note.Text = fmt.Sprintf("the text %q names a gauge, which is no thickness until the metal is known", clip(s.line))
		if mm, ok := measure.SheetGauge(s.gauge); ok {
			note.Text += fmt.Sprintf("; in uncoated steel sheet it is %s mm", shortNumber(mm))
		}
		b.note(note)
		return false
	}
	s.mm = mm
	note.Code = "gauge"
	note.Text = fmt.Sprintf("the text %q was taken as %s mm, the gauge of %s sheet", clip(s.line), measure.FormatNumber(mm, 3), metal)
	b.note(note)
	return true
}

// readFileName fills what no text states from the file's name, and says so. It
// never stands against a text: names are copied.
func (b *builder) readFileName() {
	n := measure.FileName(b.opt.Name)
	quoted := fmt.Sprintf("the file's name %q", clip(b.opt.Name))
	for i := range b.sheet.Parts {
		p := &b.sheet.Parts[i]
		if n.Material != "" {
			switch {
			case p.Material.From == "":
				p.Material = Stated{Text: n.Material, From: "file name", At: p.Box.Centre()}
				b.note(Note{Code: "file-name", Text: fmt.Sprintf("%s names %s; nothing in the drawing says the material of %s", quoted, n.Material, p.Name)})
			case !measure.SameGrade(p.Material.Text, n.Material):
				b.note(Note{Code: "file-name", Text: fmt.Sprintf("%s names %s, the drawing %s; the drawing holds", quoted, n.Material, p.Material.Text)})
			}
		}
		mm := b.lengthMM(n.Thickness)
		if n.Thickness.Unit == "" && mm > 0 && b.sheet.Units.MM > 1 && b.sheet.Units.Name != "in" && b.sheet.Units.Name != "ft" {
			mm = n.Thickness.MM // plates are named in millimetres where drawings are in cm or m
		}
		if n.Gauge > 0 {
			mm, _ = measure.GaugeThickness(n.Gauge, measure.GaugeMetal(p.Material.Text))
			if mm == 0 && p.Thickness.From == "" {
				b.note(Note{Code: "maybe-thickness", Text: fmt.Sprintf("%s names a gauge, which is no thickness until the metal is known", quoted)})
			}
		}
		if mm >= 0.3 && mm <= 150 {
			switch {
			case p.Thickness.From == "":
				p.Thickness = Stated{Text: b.opt.Name, MM: mm, From: "file name", At: p.Box.Centre()}
				b.note(Note{Code: "file-name", Text: fmt.Sprintf("%s may speak of a thickness of %s mm; nothing in the drawing says the thickness of %s", quoted, shortNumber(mm), p.Name)})
			case math.Abs(p.Thickness.MM-mm) > 0.005:
				b.note(Note{Code: "file-name", Text: fmt.Sprintf("%s may speak of a thickness of %s mm, the drawing says %s mm; the drawing holds", quoted, shortNumber(mm), shortNumber(p.Thickness.MM))})
			}
		}
		if n.Quantity > 0 && p.Quantity == 0 && len(b.sheet.Parts) == 1 && p.Copies() <= 1 {
			p.Quantity, p.QuantityFrom, p.QuantityAt = n.Quantity, "file name", p.Box.Centre()
			b.note(Note{Code: "file-name", Text: fmt.Sprintf("%s may speak of %s; the drawing does not say how many of %s", quoted, counted(n.Quantity, "piece"), p.Name)})
		}
	}
}
