package features

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

func factRows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "facts", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatal(err, len(rows))
	}
	return rows[1:]
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestSheetSizes holds the sizes of sheets against the table of the standards,
// lying, upright and at 1:10, and a size that is none.
func TestSheetSizes(t *testing.T) {
	rows := factRows(t, "sheet_sizes.csv")
	for _, r := range rows {
		w, h := number(t, r[1]), number(t, r[2])
		for _, c := range [][3]float64{{w, h, 1}, {h, w, 1}, {10 * w, 10 * h, 10}} {
			if name, scale, ok := isSheet(c[0], c[1]); !ok || c[2] == 1 && (name != r[0] || scale != 1) {
				t.Errorf("%s %v: %s at %g, %v", r[0], c, name, scale, ok)
			}
		}
		if _, _, ok := isSheet(w, h+2); ok {
			t.Errorf("%s 2 mm wider passes", r[0])
		}
	}
	if len(rows) != len(paperSizes()) {
		t.Errorf("%d sizes, the table has %d", len(paperSizes()), len(rows))
	}
}

// TestStockThickness holds the usual thicknesses against their table.
func TestStockThickness(t *testing.T) {
	rows := factRows(t, "plate_thickness.csv")
	for _, r := range rows {
		if mm := number(t, r[0]); !isStockThickness(mm) || isStockThickness(mm+0.1) && mm != 1.5 {
			t.Errorf("%s mm: %v, and 0.1 more: %v", r[0], isStockThickness(mm), isStockThickness(mm+0.1))
		}
	}
	if len(rows) != len(stockPlateMM()) {
		t.Errorf("%d thicknesses, the table has %d", len(stockPlateMM()), len(rows))
	}
	for _, mm := range []float64{7.3, 9, 11, 0} {
		if isStockThickness(mm) {
			t.Errorf("%g mm passes", mm)
		}
	}
	// 3/8 in: sixteenths of an inch are rolled from 1/8 up.
	if !isStockThickness(9.525) {
		t.Error("3/8 in does not pass")
	}
}
