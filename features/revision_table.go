package features

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/measure"
)

// A table of revisions says what has changed: REV, DESCRIPTION, DATE, BY over
// rows such as "B, MATERIAL WAS S235". Its rows are no source of facts; what holds
// is drawn and stated elsewhere.

// mostRevision is how many letters the mark of a revision has.
const mostRevision = 3

// revisionHead tells what the head of a column of a table of revisions asks for:
// "mark", "what", "when", "who"; "" none of these. Words are those of drawings in
// ten languages (common practice, no source).
func revisionHead(text string) string {
	folded := strings.Join(strings.FieldsFunc(foldText(text), func(r rune) bool { return !unicode.IsLetter(r) }), " ")
	switch folded {
	case "rev", "revision", "rev no", "rev nr", "index", "indice", "ind", "issue", "revisie", "revisione", "revisao", "rewizja", "rev mark", "mark", "ltr", "zone rev", "version", "ausgabe", "stand", "no", "nr":
		return "mark"
	case "description", "change", "changes", "revision description", "description of change", "description of revision", "modification", "modifications", "revisions", "remarks", "reason", "details",
		"anderung", "anderungen", "aenderung", "art der anderung", "beschreibung", "bemerkung", "nature", "nature de la modification", "nature des modifications", "designation", "libelle", "objet",
		"modifica", "modifiche", "descrizione", "descripcion", "modificacion", "modificaciones", "cambio", "cambios", "descricao", "alteracao", "alteracoes", "modificacao",
		"wijziging", "wijzigingen", "omschrijving", "zmiana", "opis", "opis zmiany", "andring", "beskrivning", "beskrivelse", "muutos", "selite", "zmena", "popis":
		return "what"
	case "date", "datum", "data", "fecha", "dato", "pvm", "dated":
		return "when"
	case "by", "drn", "drawn", "drawn by", "chk", "chkd", "ckd", "checked", "checked by", "appd", "app", "apr", "approved", "approved by", "init", "initials", "sign", "signed", "name", "gez", "gepr", "bearb", "bearbeiter",
		"dessine", "verifie", "visa", "par", "auteur", "firma", "disegnato", "dis", "dibujado", "por", "aprobado", "desenhou", "visto", "door", "getekend", "get", "autor", "podpis", "nazwisko", "sig":
		return "who"
	}
	return ""
}

// isRevisionMark tells of "A", "0", "P1", "-".
func isRevisionMark(text string) bool {
	text = strings.TrimSpace(text)
	n := 0
	for _, r := range text {
		if n++; !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' {
			return false
		}
	}
	return n > 0 && n <= mostRevision
}

// markRevisions marks the texts of tables of revisions.
func (b *builder) markRevisions() error {
	for _, texts := range b.textsOfTables() {
		for _, h := range texts {
			if revisionHead(b.sheet.Texts[h].Value) == "mark" {
				b.revisionsUnder(h, texts)
			}
		}
	}
	return nil
}

// revisionsUnder marks the rows that hang under a head REV, or stand on it, and
// the heads. The head must be the first of its row, with one for what was changed
// and one for when or by whom: in a title block, where a value may stand under
// each label too, the revision comes behind the name.
func (b *builder) revisionsUnder(head int, texts []int) {
	h := &b.sheet.Texts[head]
	sin, cos := math.Sincos(h.AngleRad)
	along := geom.Point{X: cos, Y: sin}
	place := b.spanOf(h, along)
	var heads []listCell
	var rest []int
	kinds := map[string]bool{}
	for _, i := range texts {
		t := &b.sheet.Texts[i]
		s := b.spanOf(t, along)
		if math.Abs(s.level-place.level) > listRowHeights*math.Max(t.HeightMM, h.HeightMM) {
			rest = append(rest, i)
			continue
		}
		kind := revisionHead(t.Value)
		switch measure.FieldKind(t.Value) {
		case "quantity", "material", "thickness", "item", "section", "weight", "scale", "length":
			if kind != "mark" {
				return
			}
		}
		if kind == "" || kind == "what" && s.from < place.from {
			continue
		}
		kinds[kind] = true
		heads = append(heads, listCell{i, kind})
	}
	if !kinds["what"] || !kinds["when"] && !kinds["who"] || len(heads) < 3 {
		return
	}
	off := func(i int) float64 { return b.spanOf(&b.sheet.Texts[i], along).level - place.level }
	var rows []int
	for _, side := range [2]float64{-1, 1} {
		var list []int
		for _, i := range rest {
			if side*off(i) > 0 && isRevisionMark(b.sheet.Texts[i].Value) && b.columnOf(i, heads, along) == head {
				list = append(list, i)
			}
		}
		slices.SortStableFunc(list, func(p, q int) int { return compareFloats(math.Abs(off(p)), math.Abs(off(q))) })
		last, step, n := 0.0, 0.0, 0
		for _, i := range list {
			d := math.Abs(off(i)) - last
			if n == 0 && d > 6*math.Max(h.HeightMM, b.sheet.Texts[i].HeightMM) || n > 0 && d > 2*listStep*step {
				break // a change of several lines takes some rows
			}
			step, last = math.Max(step, d), math.Abs(off(i))
			n++
		}
		if n > len(rows) {
			rows = list[:n]
		}
	}
	if len(rows) == 0 {
		return
	}
	last := off(rows[len(rows)-1])
	first, end := math.Min(last, 0), math.Max(last, 0)
	// A further line of the last change hangs under its mark.
	if first -= 0.5 * h.HeightMM; last < 0 {
		first -= 2 * h.HeightMM
	}
	end += 0.5 * h.HeightMM
	for _, i := range rest {
		if at := off(i); at < first || at > end || b.columnOf(i, heads, along) < 0 {
			continue
		}
		b.sheet.Texts[i].Revision = true
	}
	for _, c := range heads {
		b.sheet.Texts[c.text].Revision = true
	}
}
