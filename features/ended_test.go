package features_test

import (
	"context"
	"errors"
	"testing"

	"burrside/features"
)

// countdown is a context that ends after it was looked at so many times.
type countdown struct {
	context.Context
	left  int // looks until it ends; negative: never
	looks int
}

func (c *countdown) Err() error {
	if c.looks++; c.left >= 0 && c.looks > c.left {
		return context.Canceled
	}
	return nil
}

// TestEndedContext: wherever in the work on a large drawing the context ends,
// Build gives its error and no sheet, and hardly looks again: nothing more is
// done. How far apart the looks are, TestGrowth of package join prints.
func TestEndedContext(t *testing.T) {
	for _, c := range growthCases {
		n := c.sizes[1]
		if testing.Short() {
			n = c.sizes[0]
		}
		d := c.draw(n)
		whole := &countdown{Context: context.Background(), left: -1}
		if _, err := features.Build(whole, d, features.Options{}); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if whole.looks < 15 {
			t.Errorf("%s: the context was looked at %d times", c.name, whole.looks)
		}
		const tries = 25
		for k := range tries {
			ctx := &countdown{Context: context.Background(), left: whole.looks * k / tries}
			s, err := features.Build(ctx, d, features.Options{})
			if !errors.Is(err, context.Canceled) || s != nil {
				t.Fatalf("%s: ended at look %d of %d, and gave %v", c.name, ctx.left, whole.looks, err)
			}
			if more := ctx.looks - ctx.left; more > 6 {
				t.Errorf("%s: ended at look %d of %d, and looked %d times more", c.name, ctx.left, whole.looks, more)
			}
		}
	}
}
