package features_test

import (
	"os"
	"path/filepath"
	"testing"
)

// TestTruth compares the drawings of a folder with its TRUTH.tsv: what an
// independent measurement found. Of its facts 97 % must agree. Every
// disagreement is a miss and printed, be our answer as defensible as it may.
func TestTruth(t *testing.T) {
	dir := corpus(t)
	f, err := os.Open(filepath.Join(dir, "TRUTH.tsv"))
	if err != nil {
		t.Skip("no TRUTH.tsv in BURRSIDE_DRAWINGS")
	}
	defer f.Close()
	rows, err := readTruth(f)
	if err != nil {
		t.Fatalf("TRUTH.tsv: %v", err)
	}
	var sum score
	for _, row := range rows {
		one := judge(buildFile(t, filepath.Join(dir, row["path"])), row)
		if len(one.misses) > 0 {
			t.Logf("%s: %d of %d facts agree", row["path"], one.agree, one.total)
			for _, m := range one.misses {
				t.Logf("    %s", m)
			}
		}
		sum.add(one)
	}
	if sum.total == 0 {
		t.Fatal("no fact compared")
	}
	t.Logf("%d drawings, %d of %d facts agree (%.1f %%)", len(rows), sum.agree, sum.total, sum.percent())
	if sum.percent() < 97 {
		t.Errorf("only %d of %d facts agree", sum.agree, sum.total)
	}
}
