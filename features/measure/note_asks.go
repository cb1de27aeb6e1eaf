package measure

import (
	"slices"
	"strings"
)

// Kinds of what a note asks for beyond the shape that is drawn.
const (
	AsksRelease = "release" // the drawing is not released: preliminary, on hold, void
	AsksScale   = "scale"   // it is not to scale
	AsksBend    = "bend"
	AsksEdge    = "edge"    // bevelled, chamfered, tapered edges
	AsksSink    = "sink"    // countersunk holes without their size
	AsksMachine = "machine" // machined all over, ground
	AsksHeat    = "heat"    // hardened after cutting
	AsksCut     = "cut"     // a process of cutting is named
	AsksHand    = "hand"    // an opposite hand is wanted too
	AsksWeld    = "weld"
	AsksFinish  = "finish" // a roughness of surfaces
	AsksForm    = "form"   // flatness, straightness and the like
)

// NoteAsks tells what a note asks for beyond the shape that is drawn; "" nothing.
// Deburring, broken edges, paint and zinc are asked of every plate and are not
// told, nor is what a general note or a label says.
func NoteAsks(text string) string {
	if len(text) > maxNote || IsGeneralNote(text) {
		return ""
	}
	low := strings.ToLower(strings.Join(strings.Fields(text), " "))
	words := strings.FieldsFunc(low, func(r rune) bool { return !isLetter(r) && r != '\'' })
	has := func(list ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	phrase := func(list ...string) bool {
		return slices.ContainsFunc(list, func(p string) bool { return strings.Contains(low, p) })
	}
	only := func(list ...string) bool { return slices.Contains(list, strings.Trim(low, " .!*-:()")) }
	negated := has("no", "not", "without", "nicht", "kein", "keine", "ohne", "sans", "pas", "non", "sin", "senza", "niet", "geen", "bez", "nie", "не")
	switch {
	case phrase("not for manufactur", "not for construction", "not for fabrication", "not for production", "do not make", "do not manufactur", "do not cut", "do not use", "for approval only", "for information only", "for review only", "for quotation only",
		"nicht freigegeben", "nicht zur fertigung", "nicht fertigen", "non valide pour", "ne pas fabriquer", "no fabricar", "non eseguire", "niet voor productie", "nie wykonywać", "не изготавливать"),
		only("preliminary", "prelim", "draft", "hold", "on hold", "superseded", "void", "cancelled", "canceled", "obsolete", "withdrawn", "vorläufig", "vorabzug", "entwurf", "ungültig", "gesperrt", "préliminaire", "provisoire", "annulé", "borrador", "anulado", "obsoleto", "bozza", "annullato", "voorlopig", "vervallen", "concept", "wstępny", "anulowane", "předběžné", "neplatné", "предварительный", "аннулирован"),
		phrase("preliminary drawing", "preliminary issue", "drawing superseded"):
		return AsksRelease
	case only("nts", "n.t.s", "not to scale", "scale nts", "scale: nts", "scale: n.t.s", "nicht maßstäblich", "unmaßstäblich", "ohne maßstab", "pas à l'échelle", "hors échelle", "sin escala", "no a escala", "fuori scala", "non in scala", "niet op schaal", "bez měřítka", "не в масштабе"),
		phrase("drawing not to scale", "drawn not to scale"):
		return AsksScale
	case negated:
	case phrase("opp hand", "opposite hand", "opp. hand", "other hand", "mirror part", "mirrored part", "mirror image", "1 opp", "gespiegelt", "spiegelbildlich", "gegenstück", "symétrique", "pièce symétrique", "simétrica", "mano contraria", "speculare", "gespiegeld", "lustrzane", "zrcadlov", "зеркальн"):
		return AsksHand
	case phrase("case hard", "heat treat", "quench", "temper after", "harden after", "induction hard", "flame hard", "einsatzgehärtet", "härten nach", "wärmebehand", "nitriert", "nitrid", "traitement thermique", "tratamiento térmico", "trattamento termico", "warmtebehandel", "hartować", "zakalit", "закал"), has("carburise", "carburize", "carburised", "nitride", "nitrided"):
		return AsksHeat
	case phrase("machine all over", "machined all over", "mach. all over", "grind all over", "ground all over", "allseitig bearbeitet", "allseits bearbeitet", "usiné partout", "lavorato su tutte"):
		return AsksMachine
	case has("bend", "bends", "bent", "fold", "folded", "press-brake", "gekantet", "abgekantet", "biegen", "gebogen", "abkanten", "kantung", "plier", "pliage", "plié", "plegar", "plegado", "doblar", "doblado", "piegare", "piega", "pieghe", "piegato", "dobrar", "dobra", "zetten", "gezet", "buigen", "bocka", "giąć", "gięcie", "ohnout", "ohyb", "гнуть", "гибка") && !phrase("bend test", "bend radius", "bend allow", "bend deduct", "bend table", "biegeradius", "biegelinie", "bend line", "k-factor", "k factor"),
		phrase("roll to", "rolled to r", "rolled to a", "gerollt", "gewalzt auf r", "rouler à", "cintré", "calandrat", "calandrado", "curvado a"):
		return AsksBend
	case has("bevel", "bevels", "bevelled", "beveled", "chamfer", "chamfers", "chamfered", "cham", "tapered", "fase", "fasen", "angefast", "anfasen", "chanfrein", "chanfreins", "chanfreiner", "chanfreiné", "bisel", "biselado", "biselar", "chaflán", "smusso", "smussi", "smussare", "cianfrino", "chanfro", "afschuinen", "afschuining", "fazować", "fazowanie", "sražení", "srazit", "фаска", "фаски"),
		phrase("weld prep", "weld preparation", "edge prep", "schweißnahtvorbereitung", "nahtvorbereitung", "lasnaadvoorbereiding", "taper ", "j-prep", "v-prep"):
		return AsksEdge
	case has("csk", "c'sk", "countersink", "countersunk", "c'sunk", "senken", "gesenkt", "ansenken", "fraiser", "fraisé", "fraisés", "avellanar", "avellanado", "avellanados", "svasare", "svasati", "verzinken", "verzonken", "pogłębić", "zahloubit", "зенковать"):
		if _, sized := HoleCallOut(text); !sized {
			return AsksSink
		}
	case asksFinish(text):
		return AsksFinish
	case isForm(GeometricTolerance(text)):
		return AsksForm
	case has("weld", "welds", "welded", "welding", "fillet", "seam-weld", "schweißen", "geschweißt", "schweißnaht", "kehlnaht", "soudure", "souder", "soudé", "cordon", "soldar", "soldadura", "saldatura", "saldare", "lassen", "gelast", "hoeklas", "svets", "svejs", "spoina", "spawać", "svařit", "svar", "сварка", "сварить", "шов"), isThroat(text):
		return AsksWeld
	case has("laser", "plasma") && (len(words) == 1 || phrase("cut", "schn", "coup", "cort", "tagli", "snij")), has("lasercut", "lasered", "waterjet", "lasern", "lasergeschnitten", "lasergesneden", "laserschneiden", "oxyfuel", "autogen", "гидрорезка"), phrase("water jet", "flame cut", "oxy cut", "oxy-cut", "gas cut", "brennschneiden", "brenngeschnitten", "découpe laser", "découpé au laser", "corte láser", "corte por láser", "taglio laser", "jet d'eau", "cięte laserem", "лазерная"):
		return AsksCut
	}
	return ""
}

// OutlineSize reads a text that states the size of the part or its blank and
// nothing else: "BLANK 210 x 140", "200 x 150 x 10", "LENGTH 300", "L=300", "150
// WIDE", "Zuschnitt 300x200". Sides are one or two, thickness that of three sizes,
// the smallest.
func OutlineSize(text string) (sides []LengthValue, thickness LengthValue, ok bool) {
	list := tokens(text)
	if len(list) == 0 || len(list) > 9 {
		return nil, LengthValue{}, false
	}
	var sizes []LengthValue
	keyed := false
	for i, t := range list {
		switch {
		case t.kind == tokenNumber && t.size.MM > 0 && (i == 0 || list[i-1].is("x") || list[i-1].is("=") || list[i-1].is(":") || list[i-1].kind == tokenWord):
			sizes = append(sizes, t.size)
		case t.is("x") && i > 0 && list[i-1].kind == tokenNumber, t.is("="), t.is(":"):
		case t.word("blank", "zuschnitt", "flan", "overall", "oa", "size", "cut", "zuschnittmaß", "fertigmaß", "desarrollo", "sviluppo", "length", "len", "lg", "long", "länge", "lang", "longueur", "longitud", "lunghezza", "comprimento", "lengte", "délka", "długość", "длина",
			"width", "wide", "breite", "breit", "largeur", "ancho", "larghezza", "largura", "breedte", "šířka", "szerokość", "ширина"):
			keyed = true
		case t.word("l", "b", "w") && i == 0 && len(list) > 2 && (list[1].is("=") || list[1].is(":")):
			keyed = true
		default:
			return nil, LengthValue{}, false
		}
	}
	unit := ""
	for _, v := range sizes {
		if v.Unit != "" {
			unit = v.Unit
		}
	}
	for i := range sizes {
		if sizes[i].Unit == "" && unit != "" {
			sizes[i] = sizes[i].in(unit)
		}
	}
	slices.SortFunc(sizes, func(a, b LengthValue) int {
		switch {
		case a.MM > b.MM:
			return -1
		case a.MM < b.MM:
			return 1
		}
		return 0
	})
	switch {
	case len(sizes) == 3:
		return sizes[:2], sizes[2], true
	case keyed && (len(sizes) == 1 || len(sizes) == 2):
		return sizes, LengthValue{}, true
	}
	return nil, LengthValue{}, false
}

// BoltNote gives the bolt that a text names without a call-out of its holes:
// "M24 BOLTS", "FIX WITH 4 M20 8.8"; "" none.
func BoltNote(text string) string {
	list := tokens(text)
	c := &caller{list: list, used: make([]bool, len(list))}
	bolts := false
	for _, t := range list {
		if t.kind == tokenWord && (hasHoleWord(t.text) || processOf(t.text) != "") {
			return ""
		}
		bolts = bolts || t.kind == tokenWord && isBoltWord(t.text)
	}
	if !bolts {
		return ""
	}
	c.thread()
	return c.call.Bolt
}
