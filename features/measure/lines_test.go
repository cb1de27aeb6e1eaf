package measure

import (
	"strings"
	"testing"
)

func TestLines(t *testing.T) {
	long := strings.Repeat("REMOVE ALL BURRS. ", 30) + "ALL HOLES TO BE DRILLED"
	if l, tooLong := Lines(long); tooLong || len(l) != 31 || l[30] != "ALL HOLES TO BE DRILLED" {
		t.Errorf("%d lines, %v", len(l), tooLong)
	}
	if l, tooLong := Lines("t=10. S275\n\n QTY 4 "); tooLong || len(l) != 2 || l[0] != "t=10. S275" || l[1] != "QTY 4" {
		t.Errorf("%q %v", l, tooLong)
	}
	if l, tooLong := Lines(strings.Repeat("A", 400)); !tooLong || len(l) != 0 {
		t.Errorf("%d lines, %v", len(l), tooLong)
	}
}
