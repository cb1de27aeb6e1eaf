package features_test

import (
	"path/filepath"
	"strings"
	"testing"
)

// The fields of title blocks drawn in several habits, as they are written there.
func TestTitleFields(t *testing.T) {
	for name, want := range map[string]string{
		"sheet-a1-fifth":              "name=ABUTMENT BEARING PLATE number=AF-202 scale=1:5 material=S355J2 thickness=40 quantity=2",
		"sheet-a3-german-detail":      "name=Stützenblech number=AF-102 scale=1:1 material=S355J2 thickness=12 quantity=2",
		"sheet-a3-spanish-attributes": "name=CARTELA number=AF-108 scale=1:1 material=S275JR thickness=10 quantity=5",
		"sheet-a4-flange-section":     "name=BASE RING number=AF-109 revision=B material=S275JR thickness=16 mm quantity=3",
		"sheet-a4-polish-hatched":     "name=Blacha węzłowa number=AF-105 scale=1:1 material=S235JR thickness=8 quantity=10",
		"sheet-ansi-b-hole-table":     "name=TOE PLATE number=AF-103 scale=1:1 material=ASTM A36 thickness=3/8 quantity=6",
		// The rows of its parts list are no fields.
		"sheet-ansi-c-parts-list": "name=STAIR SUPPORT PLATES number=AF-104 scale=1:1",
	} {
		s := buildFile(t, filepath.Join(officeFolder, name+".dxf"))
		var got []string
		for _, f := range s.Title {
			got = append(got, f.Field+"="+f.Text)
		}
		if g := strings.Join(got, " "); g != want {
			t.Errorf("%s:\n got %s\nwant %s", name, g, want)
		}
	}
}
