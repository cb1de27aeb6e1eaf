package shop

import (
	"strings"
	"testing"
)

func BenchmarkLoad(b *testing.B) {
	text := BuiltInText()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := Load(strings.NewReader(text), ""); err != nil {
			b.Fatal(err)
		}
	}
}
