package shop

import (
	"strconv"
	"strings"
	"testing"
)

// What stands beyond the cut of a notcher must be a length, and is told with its
// line where it is none.
func TestNotcherBesideLeg(t *testing.T) {
	file := func(line string) string {
		return minimal + "\n[machine.notcher]\nrows = [{ thickness = \"8 mm\", cut = \"90 mm\" }]\n" + line + "\n"
	}
	for line, says := range map[string]string{
		`die_beyond = "0 mm"`:    "die_beyond",
		`die_beyond = 18`:        "die_beyond",
		`tool_beyond = "-4 mm"`:  "tool_beyond",
		`leg_up = "9000 mm"`:     "leg_up",
		`dies_beyond = "18 mm"`:  "die_beyond",
		`die_beyond = "900 deg"`: "die_beyond",
	} {
		text := file(line)
		at := strings.Count(text, "\n")
		got := problems(text)

		if !strings.Contains(got, says) || !strings.Contains(got, strconv.Itoa(at)+":") {
			t.Errorf("%s, line %d: %q", line, at, got)
		}
	}
	if got := problems(file(`die_beyond = "18 mm"`)); got != "" {
		t.Errorf("%q", got)
	}
}
