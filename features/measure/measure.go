// Package measure reads lengths, fractions, forces, strengths, call-outs and
// section names from text. It knows no drawing.
package measure

// A LengthValue is a length with how it was written.
type LengthValue struct {
	MM   float64
	Unit string // "mm", "in", "ft", "cm", "m"; "" if the text names none
}

// Length reads "10 mm", "3/8 in", "1-1/16\"", "1 1/16 in", "2'-6 1/2\"", "0.375in",
// "12" (Unit "", MM set as if millimetres). The error quotes the text.
func Length(text string) (LengthValue, error) { panic("measure: not written yet") }

// Force reads "550 kN", "60 US ton", "60 short ton", "60 metric ton", "60 long ton", "12000 lbf",
// in kilonewtons. A bare "ton" or "t" is refused with the three that it may mean.
func Force(text string) (float64, error) { panic("measure: not written yet") }

// Stress reads "345 MPa", "50 ksi", "345 N/mm2", in megapascals.
func Stress(text string) (float64, error) { panic("measure: not written yet") }

// Angle reads "45 deg", "45°", in radians.
func Angle(text string) (float64, error) { panic("measure: not written yet") }

// Mass reads "25 kg", "50 lb", in kilograms.
func Mass(text string) (float64, error) { panic("measure: not written yet") }

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

// FormatLength writes a length for people: millimetres with at most two decimals
// when unit is "mm", the nearest 1/32 in as a fraction (or decimals if it is off
// by more than 0.02 mm) when it is "in". The unit is appended.
func FormatLength(mm float64, unit string) string { panic("measure: not written yet") }
