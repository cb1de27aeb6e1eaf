package measure

// HoleCall is a hole call-out.
type HoleCall struct {
	Count     int // 0 not stated
	Diameter  LengthValue
	Process   string         // "", "drill", "ream", "tap", "countersink", "counterbore", "punch"
	Seat      LengthValue    // of a countersink or counterbore
	Bolt      string         // "M20" or "3/4" when the call-out names a bolt or thread
	Slot      [2]LengthValue // width and overall length of a slot call-out
	Fit       string         // "H7"
	Tolerance float64        // plus or minus, mm; 0 not stated
}

// HoleCallOut reads "4 HOLES 13/16 DIA", "6x Ø22", "%%c22 (4)", "(6) 13/16\" HOLES",
// "4-Ø14 DRILL", "M12 TAP", "SLOT 22x50"; ok is false when the text is none.
func HoleCallOut(text string) (call HoleCall, ok bool) { panic("measure: not written yet") }

// Plate is a thickness or plate note.
type Plate struct {
	Thickness LengthValue
	Width     LengthValue // of "PL 3/8 x 6", "FL 100x10"
	Length    LengthValue
}

// PlateNote reads "PL 3/8 x 6", "t=10", "THK 10 mm", "10 THK", "1/2\" PLATE",
// "Blech 8", "s = 6 mm", "ep. 10", "sp. 5"; ok is false when the text is none.
func PlateNote(text string) (p Plate, ok bool) { panic("measure: not written yet") }

// Quantity reads "QTY 4", "4 REQ'D", "Stk. 4", "4 off", "Menge: 4"; ok false when the text is none.
func Quantity(text string) (n int, ok bool) { panic("measure: not written yet") }

// MaterialNote finds a grade named in a text: "S355J2", "A36", "A572-50", "304",
// "1.4301"; it gives the name as written.
func MaterialNote(text string) (grade string, ok bool) { panic("measure: not written yet") }
