package measure

import (
	"strings"
	"unicode"
)

// MaterialNote finds a grade named in a text: "S355J2+N", "A36", "A572 GR 50",
// "AISI 304", "1.4301", "MATERIAL: MILD STEEL"; it gives the name as written. ok
// is false when there is none, or when the text names two. A bare "304" is taken
// for a length, a bare "1.4301" only for a steel number in common use.
func MaterialNote(text string) (grade string, ok bool) {
	if len(text) > maxNote {
		return "", false
	}
	list := tokens(withoutException(text))
	if toPlate(list) || speaksOf(list, isOtherThing) {
		return "", false
	}
	fields := gradeFields(text)
	hard := hardWords(text)
	for i := 0; i < len(fields); {
		n := gradeAt(fields, i)
		if n == 0 {
			i++
			continue
		}
		name := text[fields[i].from:fields[i+n-1].to]
		if ok && !SameGrade(name, grade) {
			return "", false
		}
		if !ok {
			grade, ok = name, true
			if strangeName(fields, i, i+n) {
				if isMaterialKey(strings.ReplaceAll(fields[0].low, "'", "")) {
					return strings.TrimSpace(text[fields[1].from:]), true
				}
				at, _ := plateName(fields, i, i+n)
				return text[fields[min(i, at[0])].from:fields[max(i+n, at[1])-1].to], true
			}
		}
		i += n
	}
	switch {
	case ok && hard != "" && !isHardPlate(strings.ToLower(grade)) && !isQuenched(strings.ToLower(grade)):
		return grade + " " + hard, true // "S275 HARDENED" is not S275
	case ok:
		return grade, true
	}
	if name, keyed := keyedMaterial(text); keyed {
		return name, true
	}
	if at, found := plateName(fields, 0, 0); hard == "" && found && len(PlateNotes(text)) > 0 {
		return text[fields[at[0]].from:fields[at[1]-1].to], true
	}
	return hard, hard != ""
}

// hardWords gives the words of a text that tell of hardened metal, as written;
// "" none. Hardness by Rockwell, Brinell or Vickers wants its number.
func hardWords(text string) string {
	fields := gradeFields(text)
	number := func(i int) bool {
		return i >= 0 && i < len(fields) && strings.ContainsAny(fields[i].text, "0123456789")
	}
	for i, f := range fields {
		end := i
		switch w := f.low; {
		case isWearWord(w):
		case w == "brinell" && number(i-1):
			return text[fields[i-1].from:f.to]
		case w == "brinell" && number(i+1):
			end = i + 1
		case w == "hardened", w == "quenched", w == "gehärtet", w == "gehaertet", w == "vergütet", w == "verguetet", w == "trempé", w == "templado", w == "temprato":
		case (w == "abrasion" || w == "wear") && i+1 < len(fields) && strings.HasPrefix(fields[i+1].low, "resist"),
			w == "wear" && i+1 < len(fields) && strings.HasPrefix(fields[i+1].low, "plate"),
			w == "ar" && !f.end && i+1 < len(fields) && len(fields[i+1].text) == 3 && allDigits(fields[i+1].text) && fields[i+1].text[0] >= '3' && fields[i+1].text[0] <= '6',
			w == "q" && i+1 < len(fields) && fields[i+1].low == "t":
			end = i + 1
		case w == "verschleißblech", w == "verschleissblech", w == "federstahl", w == "gusseisen", w == "grauguss", w == "fonte", w == "ghisa":
		case (w == "hrc" || w == "hb" || w == "hbw" || w == "hv") && (number(i-1) || number(i+1)):
		case hardNumber(w):
		default:
			continue
		}
		if f.low == "hrc" || f.low == "hb" || f.low == "hbw" || f.low == "hv" {
			if number(i - 1) {
				return text[fields[i-1].from:f.to]
			}
			end = i + 1
		}
		return text[f.from:fields[end].to]
	}
	return ""
}

// isWearWord tells of plate against wear, by its purpose.
func isWearWord(w string) bool {
	switch w {
	case "verschleißblech", "verschleissblech", "verschleißbleche", "verschleissbleche", "verschleißstahl", "verschleissstahl", "verschleißplatte", "wearplate",
		"abrasion-resistant", "wear-resistant", "anti-abrasion", "antiabrasion", "anti-usure", "antiusure", "antidesgaste", "anti-desgaste", "antiusura", "anti-usura", "antiabrasiva", "antiabrasivo", "antiabrasión",
		"trudnościeralna", "trudnościeralny", "trudnościeralne", "износостойкая", "износостойкий", "износостойкой", "kopásálló", "slitstål", "slitplåt":
		return true
	}
	for _, head := range []string{"verschleißfest", "verschleissfest", "slijtvast", "otěruvzdorn", "oteruvzdorn"} {
		if strings.HasPrefix(w, head) {
			return true
		}
	}
	return false
}

// hardNumber tells of a hardness in one piece: 450HB, HB450, 55HRC, HRC55-60.
func hardNumber(w string) bool {
	for _, scale := range []string{"hrc", "hbw", "hb", "hv"} {
		rest, ok := strings.CutPrefix(w, scale)
		if !ok {
			rest, ok = strings.CutSuffix(w, scale)
		}
		if ok && len(rest) >= 2 && allDigits(rest[:2]) && strings.Trim(rest, "0123456789-/") == "" {
			return true
		}
	}
	return false
}

// isQuenched tells a grade whose name says that it is quenched and tempered.
func isQuenched(w string) bool {
	w = strings.TrimPrefix(w, "astm-")
	return strings.HasPrefix(w, "a514") || isEuropean(w) && strings.Contains(w, "q")
}

// gradeField is a piece of text without spaces.
type gradeField struct {
	text string // as written
	low  string
	end  bool // a comma, colon or other stop follows
	from int  // place in the text, bytes
	to   int
}

// gradeFields cuts a text at spaces and stops, keeping - + . / inside a piece.
func gradeFields(text string) []gradeField {
	var list []gradeField
	start := -1
	flush := func(to int, stop bool) {
		if start >= 0 {
			w := text[start:to]
			if cut := strings.Trim(w, ".-/+'"); cut != "" {
				from := start + strings.Index(w, cut)
				list = append(list, gradeField{text: cut, low: strings.ToLower(cut), from: from, to: from + len(cut)})
			}
		}
		start = -1
		if stop && len(list) > 0 {
			list[len(list)-1].end = true
		}
	}
	for i, c := range text {
		switch {
		case unicode.IsSpace(c):
			flush(i, c == '\n' || c == '\r')
		case unicode.IsLetter(c), unicode.IsDigit(c), c == '-', c == '+', c == '.', c == '/', c == '\'':
			if start < 0 {
				start = i
			}
		default:
			flush(i, true)
		}
	}
	flush(len(text), false)
	return list
}

// gradeAt gives how many fields from i on name a grade; 0 none.
func gradeAt(fields []gradeField, i int) int {
	f := fields[i]
	next := func(k int) string {
		if i+k >= len(fields) || fields[i+k-1].end {
			return ""
		}
		return fields[i+k].low
	}
	w := f.low
	switch {
	case isEuropean(w), isNumberedSteel(w), isOldEuropean(w), isAsian(w), isHardPlate(w), isAluminium(w):
		n := 1
		if isEuropean(w) && qualityWord(next(1)) { // "S355 J2"
			n++
			if next(2) == "n" || next(2) == "ar" { // "S355 J2 + N"
				n++
			}
		}
		if isAluminium(w) && temperWord(next(1)) {
			n++
		}
		return n
	case w == "st" && (strings.HasPrefix(next(1), "37") || strings.HasPrefix(next(1), "44") || strings.HasPrefix(next(1), "52")):
		return 2
	case isASTM(w):
		switch {
		case (next(1) == "gr" || next(1) == "grade") && allDigits(next(2)):
			return 3
		case strings.HasPrefix(next(1), "gr") && allDigits(strings.TrimPrefix(strings.TrimPrefix(next(1), "grade"), "gr")) && len(next(1)) > 2:
			return 2
		case strings.HasPrefix(next(1), "gr.") && allDigits(next(1)[3:]):
			return 2
		}
		return 1
	case isStainless(w) && len(w) > 3: // 304L
		return 1
	case isStainless(strings.TrimPrefix(w, "ss")) && strings.HasPrefix(w, "ss"), isStainless(strings.TrimPrefix(w, "aisi")) && strings.HasPrefix(w, "aisi"):
		return 1
	case (w == "aisi" || w == "sus") && isStainless(next(1)):
		return 2
	case (w == "ss" || w == "stainless" || w == "inox" || w == "type") && isStainless(next(1)):
		return 2
	case w == "stainless" && next(1) == "steel" && isStainless(next(2)):
		return 3
	case isStainless(w) && (next(1) == "ss" || next(1) == "stainless" || next(1) == "inox"):
		return 2
	case w == "al" || w == "aluminium" || w == "aluminum" || w == "aw":
		if isAluminium(next(1)) || bareAluminium(next(1)) {
			return 2
		}
	}
	return 0
}

func allDigits(w string) bool {
	for _, c := range w {
		if c < '0' || c > '9' {
			return false
		}
	}
	return w != ""
}

// isEuropean tells S235 .. S960 of EN 10025 and EN 10149 with what follows
// directly: quality, delivery condition.
func isEuropean(w string) bool {
	if len(w) < 4 || w[0] != 's' || !allDigits(w[1:4]) {
		return false
	}
	switch w[1:4] {
	case "185", "235", "275", "315", "355", "420", "450", "460", "500", "550", "600", "650", "690", "700", "890", "960":
	default:
		return false
	}
	rest := w[4:]
	rest = strings.TrimPrefix(rest, "-")
	for _, q := range []string{"jr", "j0", "j2", "k2", "m", "ml", "n", "nl", "mc", "nc", "q", "ql", "ql1", "j0w", "j2w", "k2w", "j2g3", "jrg2", "w", ""} {
		for _, d := range []string{"", "+n", "+ar", "+m", "+z15", "+z25", "+z35", "n", "c+n"} {
			if rest == q+d {
				return true
			}
		}
	}
	return false
}

func qualityWord(w string) bool {
	switch w {
	case "jr", "j0", "j2", "k2", "j2+n", "jr+ar", "j0+n", "jr+n", "j2g3", "k2+n", "+n", "+ar":
		return true
	}
	return false
}

// isNumberedSteel tells the steel numbers (EN 10027-2) in common use for plate.
// Others of the form 1.nnnn could be a length in inches.
func isNumberedSteel(w string) bool {
	switch w {
	case "1.0038", "1.0114", "1.0117", "1.0037", "1.0044", "1.0143", "1.0145", "1.0045", "1.0553", "1.0577", "1.0570", "1.0596", "1.0503", "1.0330", "1.0332",
		"1.4016", "1.4301", "1.4307", "1.4401", "1.4404", "1.4541", "1.4571", "1.4462", "1.4003":
		return true
	}
	return false
}

func isOldEuropean(w string) bool {
	switch w {
	case "st37", "st37-2", "st37-3", "rst37-2", "ust37-2", "st44", "st44-2", "st52", "st52-3", "c45", "c45e", "dc01", "fe360", "fe430", "fe510", "fe360b", "fe430b", "fe510b":
		return true
	}
	return false
}

func isAsian(w string) bool {
	switch w {
	case "ст3", "ст3сп", "ст3пс", "ст3сп5", "ст3пс5", "ст20", "ст45", "09г2с", "с245", "с255", "с345", "ss400", "q235", "q235a", "q235b", "q235c", "q345", "q345b", "q345c", "q345d", "q355", "q355b", "q355c", "q355d", "sm400", "sm490":
		return true
	}
	return false
}

// isHardPlate tells the usual generic names of quenched wear plate.
func isHardPlate(w string) bool {
	switch w {
	case "ar400", "ar450", "ar500", "ar360":
		return true
	}
	return false
}

// isASTM tells the plate and shape standards of ASTM, with a grade joined by a
// dash: A36, A572-50, A572-GR50.
func isASTM(w string) bool {
	w = strings.TrimPrefix(w, "astm-")
	head, grade, _ := strings.Cut(w, "-")
	head, second, _ := strings.Cut(head, "/")
	if second != "" && second != head+"m" {
		return false
	}
	head = strings.TrimSuffix(head, "m")
	switch head {
	case "a36", "a242", "a283", "a514", "a529", "a572", "a588", "a606", "a656", "a709", "a992", "a1011", "a1018":
	default:
		return false
	}
	grade = strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(grade, "grade"), "gr."), "gr")
	return grade == "" || allDigits(strings.TrimRight(grade, "abcs"))
}

func isStainless(w string) bool {
	switch w {
	case "304", "304l", "304h", "316", "316l", "316ti", "321", "409", "430", "2205":
		return true
	}
	return false
}

// isAluminium tells wrought alloys written with their temper, and EN names.
func isAluminium(w string) bool {
	w = strings.TrimPrefix(strings.TrimPrefix(w, "en"), "-")
	w, named := strings.CutPrefix(w, "aw-")
	alloy, temper, tempered := strings.Cut(w, "-")
	if !bareAluminium(alloy) {
		return false
	}
	return named || tempered && temperWord(temper)
}

func bareAluminium(w string) bool {
	switch w {
	case "1050", "1100", "2024", "3003", "5005", "5052", "5083", "5086", "5754", "6005", "6060", "6061", "6063", "6082", "7020", "7075":
		return true
	}
	return false
}

func temperWord(w string) bool {
	return len(w) >= 1 && (w == "o" || (w[0] == 'h' || w[0] == 't') && allDigits(w[1:]) && len(w) <= 5)
}

// unmarkedKey parts "MATERIAL XY 40" where no colon does: the key is the first
// word, and a name with a number follows.
func unmarkedKey(line string) (key, value string, found bool) {
	key, value, found = strings.Cut(strings.TrimSpace(line), " ")
	value = strings.TrimSpace(value)
	switch strings.ToLower(key) {
	case "material", "mat", "matl", "mat'l", "mtl", "werkstoff", "matière", "matiere", "materiale", "materiaal", "grade":
	default:
		return "", "", false
	}
	words := strings.Fields(strings.ToLower(value))
	if !found || len(words) == 0 || len(words) > 3 || !strings.ContainsAny(value, "0123456789") {
		return "", "", false
	}
	letters := false
	for _, c := range words[0] {
		letters = letters || unicode.IsLetter(c)
	}
	first := strings.Trim(words[0], ".")
	if len(words) == 1 && !letters || isThickWord(first) || isQuantityKey(first) || first == "no" || first == "nr" || first == "list" || first == "item" || first == "note" || first == "t" || first == "spec" {
		return "", "", false
	}
	if plate, _ := isPlateWord(first); plate || !letters {
		return "", "", false
	}
	return key, value, true
}

// keyedMaterial reads what stands after "MATERIAL:" and the like, and the names
// of metals in words.
func keyedMaterial(text string) (string, bool) {
	low := strings.ToLower(text)
	for _, line := range strings.FieldsFunc(text, func(c rune) bool { return c == '\n' || c == '\r' || c == ';' || c == ',' }) {
		key, value, found := strings.Cut(line, ":")
		if !found {
			key, value, found = strings.Cut(line, "=")
		}
		if !found {
			if key, value, found = unmarkedKey(line); !found {
				continue
			}
		}
		words := strings.FieldsFunc(strings.ToLower(key), func(c rune) bool { return !unicode.IsLetter(c) && c != '\'' })
		if len(words) == 0 || !isMaterialKey(strings.ReplaceAll(words[len(words)-1], "'", "")) {
			continue
		}
		value = strings.TrimSpace(value)
		letters := 0
		for _, c := range value {
			if unicode.IsLetter(c) || unicode.IsDigit(c) {
				letters++
			}
		}
		v := strings.ToLower(value)
		if letters >= 2 && len(value) <= 40 && !strings.HasPrefix(v, "see") && !strings.HasPrefix(v, "as ") && !strings.HasPrefix(v, "var") && !strings.HasPrefix(v, "n/a") && !strings.HasPrefix(v, "tb") {
			return value, true
		}
	}
	found := ""
	for _, name := range []string{"tool steel", "manganese steel", "high manganese", "ar plate", "armor plate", "ballistic steel", "ballistic plate", "titanium", "mild steel", "stainless steel", "spring steel", "weathering steel", "wear plate", "armour plate", "cast iron", "baustahl", "edelstahl", "acier inoxydable", "acero inoxidable", "acciaio inox", "aluminium", "aluminum", "brass", "copper"} {
		i := strings.Index(low, name)
		if i < 0 {
			continue
		}
		if found != "" {
			return "", false
		}
		if len(low) == len(text) {
			found = text[i : i+len(name)]
		} else {
			found = name
		}
	}
	if found == "" {
		found = otherMaterial(text)
	}
	return found, found != ""
}

// otherMaterial gives the word of a text that names a material which is no
// structural steel: stainless by its short name, alloy and tool steels, cast
// iron, plastics, wood.
func otherMaterial(text string) string {
	for _, f := range gradeFields(text) {
		switch f.low {
		case "stainless", "inox", "edelstahl", "rostfrei", "nichtrostend", "v2a", "v4a", "nerez", "roestvast", "rvs", "rostfritt", "нержавейка", "нержавеющая",
			"titanium", "titan", "titane", "magnesium", "bronze", "zinn", "messing", "laiton", "latón", "ottone", "kupfer", "cuivre", "cobre", "rame", "latoen",
			"acrylic", "plexi", "pmma", "plywood", "mdf", "hdpe", "polycarbonate", "pom", "acetal", "nylon", "ptfe", "pvc", "petg", "polypropylene", "multiplex", "sperrholz", "holz", "kunststoff", "birch",
			"werkzeugstahl", "manganstahl", "hartmanganstahl", "vergütungsstahl", "toolsteel", "grauguss", "sphäroguss", "gg20", "gg25", "ggg40", "en-gjl-250", "en-gjs-400",
			"42crmo4", "34crnimo6", "30crnimo8", "51crv4", "50crv4", "16mncr5", "x120mn12", "100cr6", "90mncrv8", "x153crmov12", "34crmo4", "25crmo4", "c60", "c75s", "ck45", "ck60", "65mn", "40х", "65г":
			return text[f.from:f.to]
		}
	}
	return ""
}
