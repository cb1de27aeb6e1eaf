package main

import "io"

// sampleListFile is the cut list of the invented job.
const sampleListFile = "railing.csv"

// writeSampleList writes the cut list of the footbridge's railing: every kind of
// section, pieces that fit, that need care, that do not fit and that leave
// something open.
func writeSampleList(w io.Writer) error {
	_, err := io.WriteString(w, `section,length,quantity,material,end
FL 50x8,1480 mm,12,S275,mitre 45/45
L60x60x6,2400 mm,4,S275,mitre 45
RD 20,950 mm,64,S235,point
SQ 16,1100 mm,18,S235,
UPN 100,3200 mm,2,S275,square
SHS 40x40x3,1100 mm,10,S235,square
RHS 60x40x3,2 m,4,S235,mitre 45/45
PIPE 1-1/2 SCH 40,1430 mm,20,S235,saddle 90/90
RD 18,400 mm,8,S355,square
CHS 48.3x5,300 mm,2,S235,saddle 90
DN40,800 mm,2,S235,square
`)
	return err
}
