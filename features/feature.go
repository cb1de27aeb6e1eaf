package features

import "burrside/features/geom"

// Kind is the kind of a feature; the values are those of the JSON report.
type Kind string

// All kinds. The set is closed; Kinds lists it.
const (
	RoundHole       Kind = "round-hole"
	HoleWithSeat    Kind = "hole-with-seat"
	TappedHole      Kind = "tapped-hole"
	Slot            Kind = "slot"
	CurvedSlot      Kind = "curved-slot"
	RectangularHole Kind = "rectangular-hole"
	PolygonHole     Kind = "polygon-hole"
	Cutout          Kind = "cutout"
	StraightCut     Kind = "straight-cut"
	ArcCut          Kind = "arc-cut"
	CornerClip      Kind = "corner-clip"
	CornerRadius    Kind = "corner-radius"
	Notch           Kind = "notch"
	Bend            Kind = "bend"
	Mark            Kind = "mark"
)

// Kinds lists every Kind.
func Kinds() []Kind {
	return []Kind{RoundHole, HoleWithSeat, TappedHole, Slot, CurvedSlot, RectangularHole, PolygonHole, Cutout,
		StraightCut, ArcCut, CornerClip, CornerRadius, Notch, Bend, Mark}
}

// NotchShape names the shape of a notch.
type NotchShape string

// All shapes of a notch.
const (
	NotchRectangular NotchShape = "rectangular"
	NotchCorner      NotchShape = "corner"
	NotchVee         NotchShape = "vee"
	NotchOpenSlot    NotchShape = "open-slot"
	NotchRound       NotchShape = "round"
	NotchStepped     NotchShape = "stepped"
	NotchTrapezoid   NotchShape = "trapezoid"
	NotchFree        NotchShape = "free"
)

// NotchShapes lists every NotchShape.
func NotchShapes() []NotchShape {
	return []NotchShape{NotchRectangular, NotchCorner, NotchVee, NotchOpenSlot, NotchRound, NotchStepped, NotchTrapezoid, NotchFree}
}

// Feature is one hole, slot, notch, cut, bend or mark of a part. A number that
// does not apply or is not known is 0.
type Feature struct {
	ID   string // "H1" holes, "S1" slots, "C1" cut-outs, "N1" notches, "E1" edges (cuts, clips, radii, arcs), "B1" bends, "M1" marks
	Kind Kind
	At   geom.Point // hole: centre; slot, cut-out: centroid; notch: middle of the mouth; clip, cut: middle

	DiameterMM     float64 // round-hole; hole-with-seat: through hole; tapped-hole: drilled hole
	SeatMM         float64 // hole-with-seat: outer circle; tapped-hole: thread diameter
	WidthMM        float64 // slot; rectangular-hole: short side; notch: along the mouth; cutout: least rectangle
	LengthMM       float64 // overall; cuts: metal cut
	CutLengthMM    float64 // straight-cut: from first to last metal, gaps included
	DepthMM        float64 // notch
	RadiusMM       float64 // curved slot: centre line; corner radius; arc cut; round notch; rectangular hole: corner radius; bend: inside, as noted
	SweepRad       float64 // curved slot, arc cut
	AngleRad       float64 // slot, rectangle: of the long side in 0..pi; straight cut: direction in 0..pi
	IncludedRad    float64 // vee notch
	BentRad        float64 // bend: the angle that its note states; 0 none
	BottomMM       float64 // trapezoid: width of the bottom
	CornerRadiusMM float64 // notch: radius of its inside corners, 0 sharp
	Sides          int     // polygon
	AcrossFlatsMM  float64 // polygon
	AreaMM2        float64 // inside features and notches: metal removed
	PerimeterMM    float64 // inside features: cut length; notch: cut length

	Shape          NotchShape
	Subkind        string        // cutout: "d", "keyhole", "double-d", "teardrop", "keyed", "free"; straight-cut: "mitre"
	Relief         string        // notch: "", "pre-punched", "dog-bone"
	Steps          [][2]float64  // stepped notch: width, depth
	Mouth          [2]geom.Point // notch: the ends of the mouth
	Long           [2]float64    // corner notch and corner clip: the two legs along the edges
	In             string        // notch: ID of the notch whose wall holds it
	BentTo         string        // bend: "up", "down", as its note states; "" none
	Undercut       bool
	ShapeOfPart    bool // notch: over 40 % of the blank's area
	CrossesOutline bool // hole that crosses the outline

	// Of an angle: the leg that has it, "a" or "b", "" both; its distances from
	// the heel, outside, and from the start of the length. 0 for a flat part.
	Leg         string
	FromHeelMM  float64
	FromStartMM float64

	Ring            geom.Ring  // inside feature: contour, counter-clockwise; notch: the bite closed over the mouth; else nil
	Edges           []int      // outline feature: indices of Part.Outline edges that it owns
	Hole            int        // inside feature: index in Part.Holes; -1 none
	Open            geom.Ring  // bend, mark: its chain, not closed
	From, To        geom.Point // bend, straight-cut
	Fitted          bool       // taken from facets or a curve within Sheet.ArcDevMM
	Note            string     // e.g. call-out that names its process
	Process         string     // from a call-out: "drill", "ream", "tap", "countersink", "counterbore"; "" none
	BoltDesignation string     // from a call-out, e.g. "M20", "3/4"; "" none
	Source          []Source
}

// IsInside tells whether the feature is within the outline.
func (f *Feature) IsInside() bool {
	switch f.Kind {
	case RoundHole, HoleWithSeat, TappedHole, Slot, CurvedSlot, RectangularHole, PolygonHole, Cutout:
		return true
	}
	return false
}

// Pattern is a regular arrangement of equal holes.
type Pattern struct {
	Kind    string // "row", "grid", "circle"
	Members []string
	PitchMM []float64
}
