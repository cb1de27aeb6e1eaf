package check

import (
	"fmt"
	"slices"
	"strings"

	"burrside/features"
)

func punchingClassParams() []Param {
	return []Param{
		{"thickness", "mm", 3, 0, 100, "EXC3 and EXC4: thickness above which a hole is not punched to size",
			Cite{Text: "EN 1090-2, 6.6.3", Memory: true}},
		{"under", "mm", 2, 0, 10, "how much under size a hole may be punched before it is reamed",
			Cite{Text: "EN 1090-2, 6.6.3", Memory: true}},
	}
}

func rulePunchingClass() Rule {
	return Rule{
		ID:    "punching-class",
		Title: "Notes that forbid punching to size",
		Why:   "A punched edge is hardened and torn: execution classes, fatigue and many owners ask for drilled or reamed holes.",
		Measure: "The drawing's texts, in many languages: holes to be drilled, no punching, execution class EXC3 or EXC4, fatigue. " +
			"A warning when the shop drills, an error when it does not. For EXC3 and EXC4 a hole above the thickness set here is punched under size and reamed; for fatigue likewise. The execution class may also be asked for (--execution-class).",
		Fix:     "Drill the holes, or punch them under size and ream them.",
		Params:  punchingClassParams(),
		Sources: []Cite{{Text: "EN 1090-2, 6.6.3: punching without reaming only in EXC1 and EXC2", Memory: true}, shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(60, 70, 22)
			b.p.CallOuts = append(b.p.CallOuts, features.CallOut{Text: "ALL HOLES TO BE DRILLED"})
			return b.example("a plate 200 x 140 x 10 with the note ALL HOLES TO BE DRILLED", 10, "")
		},
		Part: checkPunchingClass,
	}
}

func checkPunchingClass(p *Pass) {
	var punched []string
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		if f := &p.Part.Features[m.Feature]; f.IsInside() && f.Process != "drill" && f.Process != "ream" && m.MadeBy != "drill" && m.MadeBy != "tap" {
			punched = append(punched, f.ID)
		}
	}
	if len(punched) == 0 {
		return
	}
	lines := slices.Clone(p.notes)
	tied := map[string]bool{}
	for i := range p.Part.CallOuts {
		c := &p.Part.CallOuts[i]
		lines = append(lines, c.Text)
		// What a call-out asks of the holes that it names is theirs alone:
		// rule hole-process speaks of it.
		tied[c.Text] = tied[c.Text] || len(c.Features) > 0
	}
	for _, c := range p.elsewhere {
		tied[c.Text] = true
	}
	slices.Sort(lines)
	told := map[string]bool{}
	asked := ""
	if c := p.Job.ExecutionClass; c >= 3 {
		// Asked for: the drawing's own words then say no more.
		asked = fmt.Sprintf("EXC%d", c)
		lines = append([]string{asked}, lines...)
	}
	for _, line := range lines {
		kind := punchingNote(line)
		if kind == "" || told[kind] || kind == "drill" && tied[line] {
			continue
		}
		fix := "drill the holes"
		if kind == "class" {
			if p.Job.ThicknessMM > 0 && !isAbove(p.Job.ThicknessMM, p.Value("thickness")) {
				continue
			}
		}
		if kind != "drill" {
			fix = "drill the holes, or punch them " + p.length(p.Value("under")) + " under size and ream them"
		}
		told[kind] = true
		f := Finding{Severity: Warning, Features: slices.Clone(punched), Count: len(punched), FixBy: "shop", Fix: fix, cause: kind,
			Message: "the drawing says \"" + line + "\": holes are not punched to size"}
		if line == asked {
			f.Message = "execution class " + asked + ": holes are not punched to size"
		} else {
			f.At, f.HasAt = p.noteAt[line]
		}
		if !p.Shop.Process("drill").Have {
			f.Severity, f.Fix = Error, "have the holes made by a shop that drills"
			f.Message += ", and the shop has no drill"
		}
		p.Report(f)
	}
}

// punchingNote tells what a line of text asks of all holes: "drill", "class"
// (EXC3 or EXC4), "fatigue"; "" nothing.
func punchingNote(line string) string {
	words := strings.FieldsFunc(strings.ToLower(line), func(r rune) bool {
		return strings.ContainsRune(" \t,;:.()/-_\"'!", r)
	})
	has := func(list ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	for i, w := range words {
		// "execution class 3", "Ausführungsklasse 3", "classe d'exécution 4".
		if (w == "class" && i > 0 && words[i-1] == "execution" || w == "ausführungsklasse" || w == "ausfuehrungsklasse" || w == "exécution" && has("classe") || w == "ejecución" && has("clase") || w == "esecuzione" && has("classe") || w == "uitvoeringsklasse" || w == "wykonania" && has("klasa")) &&
			i+1 < len(words) && (words[i+1] == "3" || words[i+1] == "4") {
			return "class"
		}
		if w == "exc3" || w == "exc4" || w == "exc" && i+1 < len(words) && (words[i+1] == "3" || words[i+1] == "4") {
			return "class"
		}
	}
	holes := has("holes", "hole", "bohrungen", "löcher", "loecher", "locher", "trous", "agujeros", "taladros", "fori", "furos", "gaten", "hål", "otwory", "otwór", "díry", "otvory", "отверстия")
	drilled := has("drilled", "drill", "gebohrt", "bohren", "percés", "perces", "percer", "taladrados", "taladrar", "forati", "trapanati", "furados", "geboord", "borras", "borrade", "wiercone", "wiercić", "vrtané", "vrtat", "сверлить", "сверлёные",
		"reamed", "ream", "gerieben", "reiben", "alésés", "aléser", "escariados", "alesati", "geruimd", "rozwiercane", "vystružené")
	switch {
	case has("fatigue", "cyclic", "ermüdung", "ermuedung", "fatiga", "fatica", "fadiga", "vermoeiing", "zmęczenie", "zmęczeniowe", "únava", "únavové", "utmattning", "усталость"):
		return "fatigue"
	case has("punching", "punch", "punched", "stanzen", "gestanzt", "poinçonnage", "poinconnage", "poinçonnés", "punzonado", "punzonatura", "punzonati", "punzonar", "punzonados", "ponsen", "geponst", "wykrawanie", "wykrawać", "wykrawane", "děrovat", "děrování", "пробивка", "пробивать") &&
		has("no", "not", "never", "without", "prohibited", "forbidden", "nicht", "kein", "keine", "ohne", "verboten", "untersagt",
			"non", "pas", "interdit", "interdite", "sin", "vietata", "vietato", "prohibido", "prohibida", "niet", "geen", "nie", "zakaz", "bez", "nepovoleno", "zakázáno", "не", "запрещена"):
		return "drill"
	case drilled && (holes || len(words) == 1 || has("only", "nur", "all", "alle")):
		return "drill"
	}
	return ""
}
