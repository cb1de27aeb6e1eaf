package features_test

import (
	"context"
	"fmt"
	"math"
	"sort"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// build reads and builds a drawing made in a test, and holds the invariants.
func build(t testing.TB, b *dxftest.Builder, opt ...features.Options) *features.Sheet {
	t.Helper()
	var o features.Options
	if len(opt) > 0 {
		o = opt[0]
	}
	s, err := features.Build(context.Background(), b.Drawing(t), o)
	if err != nil {
		t.Fatal(err)
	}
	checkInvariants(t, "made", s)
	return s
}

// onePart is the only part of a sheet.
func onePart(t testing.TB, s *features.Sheet) *features.Part {
	t.Helper()
	if len(s.Parts) != 1 {
		t.Fatalf("%d parts, want 1\n%s", len(s.Parts), describe(s))
	}
	return &s.Parts[0]
}

// describe prints what a sheet says, for failures.
func describe(s *features.Sheet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "unit %s from %s\n", s.Units.Name, s.Units.From)
	for _, p := range s.Parts {
		fmt.Fprintf(&b, "part %s x%d box %.3f x %.3f\n", p.Name, p.Copies(), p.Box.Width(), p.Box.Height())
		for _, f := range p.Features {
			fmt.Fprintf(&b, "  %s\n", featureLine(&f))
		}
		for _, d := range p.Doubts {
			fmt.Fprintf(&b, "  doubt %s grave=%v %s\n", d.Code, d.Grave, d.Text)
		}
	}
	for _, f := range s.Faults {
		fmt.Fprintf(&b, "fault %s %s\n", f.Code, f.Text)
	}
	for _, n := range s.Notes {
		fmt.Fprintf(&b, "note %s %s\n", n.Code, n.Text)
	}
	for _, i := range s.Ignored {
		fmt.Fprintf(&b, "ignored %s %d\n", i.What, i.Count)
	}
	return b.String()
}

func featureLine(f *features.Feature) string {
	return fmt.Sprintf("%s %s at %.2f,%.2f d=%.3f seat=%.3f w=%.3f l=%.3f depth=%.3f r=%.3f %s", f.ID, f.Kind, f.At.X, f.At.Y, f.DiameterMM, f.SeatMM, f.WidthMM, f.LengthMM, f.DepthMM, f.RadiusMM, f.Shape)
}

// sizesOf lists kind and sizes of a part's features without their place.
func sizesOf(p *features.Part) string {
	var list []string
	for _, f := range p.Features {
		list = append(list, fmt.Sprintf("%s %s d=%s w=%s l=%s t=%s r=%s", f.Kind, f.Shape, r2(f.DiameterMM), r2(f.WidthMM), r2(f.LengthMM), r2(f.DepthMM), r2(f.RadiusMM)))
	}
	sort.Strings(list)
	return strings.Join(list, "\n")
}

func r2(f float64) string { return fmt.Sprintf("%.2f", math.Round(f*100)/100+0) }

func hasNote(s *features.Sheet, code string) bool {
	for _, n := range s.Notes {
		if n.Code == code {
			return true
		}
	}
	return false
}

func faultOf(s *features.Sheet, code string) *features.Fault {
	for i := range s.Faults {
		if s.Faults[i].Code == code {
			return &s.Faults[i]
		}
	}
	return nil
}

func doubtOf(p *features.Part, code string) *features.Doubt {
	for i := range p.Doubts {
		if p.Doubts[i].Code == code {
			return &p.Doubts[i]
		}
	}
	return nil
}

func kinds(p *features.Part, k features.Kind) []features.Feature {
	var out []features.Feature
	for _, f := range p.Features {
		if f.Kind == k {
			out = append(out, f)
		}
	}
	return out
}

// clean fails on anything that a clean drawing must not raise.
func clean(t testing.TB, s *features.Sheet) {
	t.Helper()
	for _, p := range s.Parts {
		if len(p.Doubts) > 0 || !p.Clean {
			t.Errorf("a clean drawing is doubted:\n%s", describe(s))
			return
		}
	}
	if len(s.Faults) > 0 || len(s.Loose) > 0 {
		t.Errorf("a clean drawing has faults:\n%s", describe(s))
	}
}

func close(a, b, tol float64) bool { return math.Abs(a-b) <= tol }
