package cutlist

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"burrside/features/measure"
)

// sectionReader takes sizes out of a text.
type sectionReader struct {
	bare     Unit // what numbers without a unit are taken in; "" they are refused
	taken    bool // a bare number was met
	fraction bool // no unit was met, but a fraction bar
}

// ParseSection reads how a section is named: FL 100x10, 100x10, L75x75x8, RD 25,
// Ø25, SQ 20, UPN 100, C4x5.4, SHS 40x40x3, CHS 48.3x3.2, PIPE 1-1/2 SCH 40,
// DN40. Numbers without a unit are taken in bare, but in inches where one is
// written with a fraction bar; names that state their unit themselves (UPN, C4x5.4,
// NPS) need none. What is not understood, or no section that there is, is an
// error; nothing is guessed.
func ParseSection(text string, bare Unit) (Section, error) {
	s, err := parseSection(text, bare)
	s.Text = strings.TrimSpace(text)
	return s, err
}

func parseSection(text string, bare Unit) (Section, error) {
	if len(text) > 120 {
		return Section{}, errors.New("it is longer than any section's name")
	}
	t := tidy(text)
	if t == "" {
		return Section{}, errors.New("the section is missing")
	}
	if s, ok, err := pipe(t); ok || err != nil {
		return s, err
	}
	word, rest, diameter := split(t)
	kind, known := kindOf(word)
	if word != "" && !known {
		return Section{}, fmt.Errorf("%q is no kind of section that is known here", strings.ToLower(word))
	}
	if diameter && word == "" {
		kind = Round
	}
	if diameter && kind == SquareTube && tubeWord(word) {
		kind = RoundTube
	}
	r := &sectionReader{bare: bare}
	parts := strings.Split(rest, "X")
	plain := make([]float64, 0, len(parts))
	for _, p := range parts {
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(p), ",", ".", 1), 64)
		if err != nil || v <= 0 || v > 1e5 {
			plain = nil
			break
		}
		plain = append(plain, v)
	}
	if kind == Channel && plain != nil {
		if s, found, err := listedChannel(channelSeries(word), plain); found {
			if err == nil {
				err = s.finish("mm")
			}
			return s, err
		}
	}
	sizes, unit, err := r.sizes(parts)
	if err != nil {
		return Section{}, err
	}
	s := Section{Kind: kind, ByFraction: r.fraction}
	if r.taken {
		s.Taken = unit
	}
	count := func(n ...int) error {
		for _, k := range n {
			if len(sizes) == k {
				return nil
			}
		}
		what := map[Kind]string{Flat: "width x thickness", Angle: "leg x leg x thickness", Round: "one diameter", Square: "one size", Channel: "a depth, or depth x flange x web",
			SquareTube: "side x side x wall", RoundTube: "diameter x wall"}[kind]
		return fmt.Errorf("%d sizes for a %s; it needs %s", len(sizes), kind, what)
	}
	switch kind {
	case "": // sizes alone
		if len(sizes) != 2 {
			return Section{}, errors.New("sizes alone are a flat bar, width x thickness; name any other section")
		}
		s.Kind = Flat
		s.SizeMM[0], s.ThicknessMM = sizes[0], sizes[1]
	case Flat:
		if err := count(2); err != nil {
			return Section{}, err
		}
		s.SizeMM[0], s.ThicknessMM = sizes[0], sizes[1]
	case Angle:
		if err := count(2, 3); err != nil {
			return Section{}, err
		}
		s.SizeMM = [2]float64{sizes[0], sizes[len(sizes)-2]}
		s.ThicknessMM = sizes[len(sizes)-1]
	case Round, Square:
		if kind == Round && diameter && word == "" && len(sizes) == 2 {
			s.Kind = RoundTube
			s.SizeMM[0], s.ThicknessMM = sizes[0], sizes[1]
			break
		}
		if kind == Square && len(sizes) == 2 && sizes[0] == sizes[1] {
			sizes = sizes[:1]
		}
		if err := count(1); err != nil {
			return Section{}, err
		}
		s.SizeMM[0] = sizes[0]
	case Channel:
		if err := count(1, 3); err != nil {
			return Section{}, err
		}
		s.SizeMM[0] = sizes[0]
		if len(sizes) == 3 {
			s.SizeMM[1], s.ThicknessMM = sizes[1], sizes[2]
		}
	case SquareTube:
		if tubeWord(word) && len(sizes) == 2 {
			return Section{}, errors.New("is the tube round (Ø48.3 x 3) or square (40 x 40 x 3)?")
		}
		if word == "HSS" && len(sizes) == 2 {
			s.Kind = RoundTube
			s.SizeMM[0], s.ThicknessMM = sizes[0], sizes[1]
			break
		}
		if word == "SHS" && len(sizes) == 2 {
			sizes = []float64{sizes[0], sizes[0], sizes[1]}
		}
		if err := count(3); err != nil {
			return Section{}, err
		}
		s.SizeMM, s.ThicknessMM = [2]float64{sizes[0], sizes[1]}, sizes[2]
	case RoundTube:
		if err := count(2); err != nil {
			return Section{}, err
		}
		s.SizeMM[0], s.ThicknessMM = sizes[0], sizes[1]
	}
	return s, s.finish(unit)
}

// tidy makes capitals, one spelling of the signs and single spaces.
func tidy(text string) string {
	r := strings.NewReplacer("×", "X", "✕", "X", "*", "X", "⌀", "Ø", "ø", "Ø", "∅", "Ø", "”", `"`, "“", `"`, "″", `"`, "''", `"`,
		"¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "–", "-", "\u00a0", " ")
	return strings.Join(strings.Fields(strings.ToUpper(r.Replace(text))), " ")
}

// split parts a text in the words, the sizes, and whether a diameter sign stands
// before them. Words may stand before or after the sizes.
func split(t string) (word, sizes string, diameter bool) {
	i := strings.IndexFunc(t, func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == 'Ø' })
	if i < 0 {
		return t, "", false
	}
	word, t = strings.TrimSpace(t[:i]), t[i:]
	if strings.HasPrefix(t, "Ø") {
		diameter = true
		t = strings.TrimSpace(strings.TrimPrefix(t, "Ø"))
	}
	// A word behind: letters after the last size that are no unit.
	fields := strings.Fields(t)
	k := len(fields)
	for k > 0 && isWord(fields[k-1]) {
		k--
	}
	if k < len(fields) && k > 0 {
		behind := strings.Join(fields[k:], " ")
		if word != "" {
			behind = word + " " + behind
		}
		word, t = behind, strings.Join(fields[:k], " ")
	}
	return strings.Trim(word, " .:-"), t, diameter
}

// isWord tells of letters alone that are neither a unit nor the sign between
// sizes.
func isWord(f string) bool {
	switch f {
	case "MM", "IN", "INCH", "INCHES", "CM", "X", "M", "FT":
		return false
	}
	return !strings.ContainsFunc(f, func(r rune) bool { return !unicode.IsLetter(r) && r != '.' })
}

// kindOf tells the kind that words name: English, German, French.
func kindOf(word string) (Kind, bool) {
	w := strings.Join(strings.Fields(strings.ReplaceAll(word, ".", " ")), " ")
	w = strings.TrimSuffix(strings.TrimSuffix(w, " STEEL"), " SECTION")
	switch w {
	case "":
		return "", true
	case "FL", "FLT", "FLAT", "FLATS", "FB", "FLAT BAR", "FLACH", "FLACHSTAHL", "FLACHEISEN", "PLAT", "FER PLAT":
		return Flat, true
	case "L", "ANGLE", "RSA", "EA", "UA", "L ANGLE", "ANGLE IRON", "WINKEL", "L WINKEL", "WINKELSTAHL", "CORNIERE", "CORNIÈRE", "LNP", "L EA", "L UA", "EQUAL ANGLE", "UNEQUAL ANGLE":
		return Angle, true
	case "RD", "RB", "ROUND", "ROUND BAR", "DIA", "DIAMETER", "RUND", "RUNDSTAHL", "ROND", "BAR ROUND":
		return Round, true
	case "SQ", "SQUARE", "SQUARE BAR", "SQ BAR", "VKT", "VIERKANT", "VIERKANTSTAHL", "CARRE", "CARRÉ", "BAR SQUARE":
		return Square, true
	case "C", "MC", "UPN", "UPE", "UNP", "U", "PFC", "CH", "CHANNEL", "RSC":
		return Channel, true
	case "SHS", "RHS", "HSS", "TUBE", "BOX", "SQUARE TUBE", "TUBE SQUARE", "RECTANGULAR TUBE", "QUADRATROHR", "VIERKANTROHR", "RECHTECKROHR", "TUBE CARRE", "TUBE CARRÉ", "QRO", "RRO":
		return SquareTube, true
	case "CHS", "PIPE", "ROUND TUBE", "TUBE ROUND", "ROHR", "RUNDROHR", "TUBE ROND", "RO":
		return RoundTube, true
	}
	return "", false
}

// tubeWord tells of a word that may be a round or a square tube.
func tubeWord(word string) bool { return word == "TUBE" }

// channelSeries is the list that a word names.
func channelSeries(word string) string {
	switch word {
	case "RSC", "CH", "CHANNEL":
		return ""
	}
	return word
}

// sizes reads the sizes between the signs. All are in one unit unless each
// states its own: the unit of one holds for those without, a fraction makes
// inches of them.
func (r *sectionReader) sizes(parts []string) (mm []float64, unit Unit, err error) {
	list := make([]measure.LengthValue, len(parts))
	stated, fraction := "", false
	for i, p := range parts {
		p = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(p), "Ø"))
		if p == "" {
			return nil, "", errors.New("a size is missing")
		}
		v, err := measure.Length(strings.ToLower(p))
		if err != nil {
			return nil, "", err
		}
		if !(v.MM > 0) {
			return nil, "", fmt.Errorf("a size of %q cannot be", p)
		}
		list[i] = v
		if v.Unit != "" {
			stated = v.Unit
		}
		fraction = fraction || v.Fraction
	}
	unit = "mm"
	bare := 1.0
	switch {
	case stated == "in" || stated == "ft" || stated == "" && fraction:
		unit, bare = "in", 25.4
		r.fraction = stated == ""
	case stated != "":
	default:
		r.taken = true
		switch r.bare {
		case "in":
			unit, bare = "in", 25.4
		case "mm":
		default:
			return nil, "", errors.New("the unit of its sizes is not known")
		}
	}
	switch stated {
	case "cm":
		bare = 10
	case "m":
		bare = 1000
	case "ft":
		bare = 304.8
	}
	for _, v := range list {
		if v.Unit == "" {
			v.MM *= bare
		}
		mm = append(mm, v.MM)
	}
	return mm, unit, nil
}

var pipeText = regexp.MustCompile(`^(?:(PIPE|NPS|DN|TUBE|ROHR|TUBE ROND|RO)\.? ?)?(?:(NPS|DN) ?)?([0-9][0-9 ./-]*?) ?("|IN|INCH)? ?(PIPE|NPS)?(?: ?,? ?(?:SCH(?:EDULE)?\.? ?-?([0-9]+S?|STD|XS|XH|XXS)|(STD|XS|XH|XXS)))?(?: (PIPE))?$`)

// pipe reads pipes by their nominal size: PIPE 1-1/2 SCH 40, NPS 2 SCH80, DN40.
// ok is false for texts of another kind.
func pipe(t string) (s Section, ok bool, err error) {
	m := pipeText.FindStringSubmatch(t)
	if m == nil {
		return s, false, nil
	}
	word, size, schedule := m[1], strings.TrimSpace(m[3]), m[6]+m[7]
	named := word == "PIPE" || word == "NPS" || word == "DN" || m[2] != "" || m[5] != "" || m[8] != ""
	if !named && schedule == "" {
		return s, false, nil
	}
	var p measure.Pipe
	var found bool
	if dn := word == "DN" || m[2] == "DN"; dn {
		if v, err := strconv.Atoi(size); err == nil {
			p, found = measure.PipeByDN(v)
		}
		if other := p.TwoDiameters(); found && other > 0 && schedule == "" {
			return s, true, fmt.Errorf("DN %d is a pipe of Ø%s or a tube of Ø%s; write the outside diameter and the wall", p.DN, measure.FormatNumber(p.ODMM, 1), measure.FormatNumber(other, 1))
		}
	} else {
		p, found = measure.PipeByNPS(size)
	}
	if !found {
		return s, true, fmt.Errorf("%s is no nominal pipe size that is known here", size)
	}
	s = Section{Kind: RoundTube, List: "ASME B36.10M", SizeMM: [2]float64{p.ODMM}, Name: "pipe " + p.String()}
	if schedule != "" {
		wall, known := p.WallMM(schedule)
		if !known {
			return s, true, fmt.Errorf("schedule %s is not in the table; write outside diameter x wall", schedule)
		}
		s.ThicknessMM = wall
		s.Name += fmt.Sprintf(" schedule %s, Ø%s x %s mm", schedule, measure.FormatNumber(p.ODMM, 1), measure.FormatNumber(wall, 2))
	} else {
		s.Name += fmt.Sprintf(", Ø%s mm", measure.FormatNumber(p.ODMM, 1))
	}
	return s, true, s.finish("mm")
}
