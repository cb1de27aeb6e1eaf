package features_test

import (
	"context"
	"testing"

	"burrside/dxfread"
	"burrside/features"
)

// BenchmarkSheet is a plate in a double frame with zones and a title block.
func BenchmarkSheet(b *testing.B) {
	var c sheetCase
	for _, s := range sheetCases() {
		if s.name == "A3 double line, ticks, zones, title block" {
			c = s
		}
	}
	d, err := dxfread.Decode(context.Background(), drawSheet(c, habits()[1]).Bytes(), dxfread.Limits{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := features.Build(context.Background(), d, features.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
