package measure

import "testing"

// Notes as drawings carry them (common practice, no source).
func TestNoteAsks(t *testing.T) {
	for text, want := range map[string]string{
		"NOT FOR MANUFACTURE": AsksRelease, "NOT FOR CONSTRUCTION": AsksRelease, "PRELIMINARY": AsksRelease, "** HOLD **": AsksRelease, "VOID": AsksRelease, "Vorabzug": AsksRelease, "FOR APPROVAL ONLY": AsksRelease, "SUPERSEDED": AsksRelease, "ENTWURF": AsksRelease,
		"NTS": AsksScale, "N.T.S.": AsksScale, "NOT TO SCALE": AsksScale, "SCALE: NTS": AsksScale, "nicht maßstäblich": AsksScale,
		"BEND 90° UP": AsksBend, "2 BENDS 90 DEG": AsksBend, "ROLL TO R500": AsksBend, "90° gekantet": AsksBend, "plier à 90°": AsksBend, "piega 90°": AsksBend,
		"CHAMFER ALL EDGES 5x45°": AsksEdge, "BEVEL 30° FOR WELD": AsksEdge, "WELD PREP 45°": AsksEdge, "Fase 5x45°": AsksEdge, "chanfrein 5x45°": AsksEdge, "TAPER 10 TO 6": AsksEdge,
		"COUNTERSINK HOLES": AsksSink, "CSK BOTH SIDES": AsksSink, "MACHINE ALL OVER": AsksMachine, "HEAT TREAT AFTER CUTTING": AsksHeat, "CASE HARDEN 0.5 DEEP": AsksHeat, "NITRIDE": AsksHeat, "LASER CUT": AsksCut, "FLAME CUT EDGES": AsksCut, "Laserschneiden": AsksCut,
		"1 AS SHOWN 1 OPP HAND": AsksHand, "MIRROR PART ALSO REQUIRED": AsksHand, "2 Stk gespiegelt": AsksHand,
		"": "", "APPROVED BY": "", "ISSUED FOR APPROVAL": "", "DO NOT SCALE": "", "SCALE 1:5": "", "BREAK ALL SHARP EDGES": "", "REMOVE BURRS": "", "HOT DIP GALVANISED": "", "FLAME CUTTING NOT PERMITTED": "", "DO NOT BEND": "", "BEND RADIUS 5": "", "BEND LINE": "", "PAINT RAL 7035": "", "CHAMFERS 1x45° UNLESS NOTED": "", "2x Ø14 CSK Ø28": "", "WELD ALL ROUND": AsksWeld, "6 mm FILLET WELD": AsksWeld, "a4": AsksWeld, "z6": AsksWeld, "A4": "", "a": "", "a40x": "", "Kehlnaht a5": AsksWeld, "NO WELD": "", "Ra 6.3": AsksFinish, "Ra6.3": AsksFinish, "√ 3.2": AsksFinish, "Rz 25": AsksFinish, "RAL 7035": "", "R 25": "", "R12.5": "", "RA": "", "√": "",
		"FLATNESS 0.5": AsksForm, "flatness 0.5 | A": AsksForm, "Ebenheit 0,3": AsksForm, "STRAIGHTNESS 1": AsksForm, "FLATNESS": "", "POSITION Ø0.2": "", "POSITION 3": "", "PROFILE VIEW 2": "", "FLATNESS TO STANDARD": "", "CONCEPTION": "", "THRESHOLD": "", "NO CHAMFER": "", "Kanten gratfrei": "", "alle Kanten gebrochen": "", "LASER LEVEL DATUM": "", "LASER": AsksCut, "PLASMA CUT": AsksCut,
	} {
		if got := NoteAsks(text); got != want {
			t.Errorf("NoteAsks(%q) = %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string][]float64{
		"BLANK 210 x 140": {210, 140}, "200 x 150 x 10": {200, 150, 10}, "10x150x200": {200, 150, 10}, "LENGTH 300": {300}, "L=300": {300}, "L = 300 mm": {300}, "150 WIDE": {150}, "Zuschnitt 300x200": {300, 200}, "CUT SIZE 300 x 200": {300, 200}, "OVERALL 300 x 200": {300, 200}, "Länge 300": {300},
		"": nil, "200 x 150": nil, "L 300": nil, "SLOT 22x50": nil, "Ø22": nil, "4 x 50": nil, "L=": nil, "300": nil, "BLANK": nil, "10/12/2024": nil, "1:5": nil, "L 100x100x10": nil, "M12 x 40 LONG": nil,
	} {
		sides, thin, ok := OutlineSize(text)
		var got []float64
		for _, s := range sides {
			got = append(got, s.MM)
		}
		if thin.MM > 0 {
			got = append(got, thin.MM)
		}
		same := len(got) == len(want) && ok == (want != nil)
		for i := range got {
			same = same && got[i] == want[i]
		}
		if !same {
			t.Errorf("OutlineSize(%q) = %v, %v; want %v", text, got, ok, want)
		}
	}
	for text, want := range map[string]string{"M24 BOLTS": "M24", "4 M20 BOLTS 8.8": "M20", "M20x60 Schrauben": "M20", "7/8 A325 BOLTS": "7/8", "3/4\" DIA BOLTS": "3/4", "ALL BOLTS M20 GR 8.8": "M20", "HOLES FOR M20 BOLTS": "", "M24": "", "BOLTS": "", "": "", "TAP M12 FOR BOLT": ""} {
		if got := BoltNote(text); got != want {
			t.Errorf("BoltNote(%q) = %q, want %q", text, got, want)
		}
	}
}
