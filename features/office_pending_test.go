package features_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// officePending reads the list of what is not read right yet, with the reasons.
func officePending(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(officeFolder, "pending.txt"))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, line := range strings.Split(string(text), "\n") {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		name, why, ok := strings.Cut(line, ": ")
		if !ok || why == "" {
			t.Fatalf("pending without a reason: %q", line)
		}
		out[name] = why
	}
	return out
}
