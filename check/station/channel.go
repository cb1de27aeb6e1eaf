package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// Channel is the section of a channel; 0 is not known.
type Channel struct {
	Name                               string // as it is called, for people
	DepthMM                            float64
	FlangeMM, WebMM, FlangeThicknessMM float64
	AreaMM2                            float64
	OffSquareRad                       float64 // of the cut
}

// ChannelShear judges a cut through a channel. Its blades are shaped: the list
// of channels that they are for decides, by depth and, where it states them,
// flange and web. Steel stronger than the list means counts by its strength,
// softer steel never thicker. A machine without one fails under "channel-shear".
func ChannelShear(prof *shop.Profile, m *shop.Machine, pc Piece, c Channel) Use {
	var best *Use
	for i := range m.Bars {
		if m.Bars[i].Shape != "channel" {
			continue
		}
		u := Use{Machine: m.Name, Station: "channel shear", Hits: 1}
		u.addChannel(prof, &m.Bars[i], pc, &c)
		if best == nil || better(&u, best) {
			best = &u
		}
	}
	if best != nil {
		return *best
	}
	u := Use{Machine: m.Name, Station: "channel shear", Hits: 1}
	u.add(Aspect{Rule: "channel-shear", Grade: Fail, Text: m.Name + " has no shear for channels"}, 0)
	return u
}

func (u *Use) addChannel(prof *shop.Profile, st *shop.BarStation, pc Piece, c *Channel) {
	if !isSize(c.DepthMM) {
		u.add(Aspect{Rule: "reading-doubt", Grade: Unknown, Text: "the depth of the channel is not known"}, 0)
		return
	}
	if pc.Material == nil || !(pc.Material.ShearMPa > 0) {
		u.add(Aspect{Rule: "material-missing", Grade: Unknown, Text: "the material's strength is not known"}, 0)
		return
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	if off := math.Abs(c.OffSquareRad); off > squareRad {
		u.add(squareOnly("channel-shear", "channel", off), 0)
	}
	rows := st.Channels
	if len(rows) == 0 {
		rows = []shop.ChannelRow{{DepthMM: st.MaxMM}}
	}
	var best []Aspect
	bestGrade, bestShare, tool := Fail+1, 0.0, ""
	for i := range rows {
		as, share := channelRow(prof, st, pc, c, &rows[i])
		g := OK
		for _, a := range as {
			g = max(g, a.Grade)
		}
		// Of rows that are as good the last is the deepest: in trouble it is the
		// one that speaks of the limit.
		if g < bestGrade || g == bestGrade && g >= Unknown {
			best, bestGrade, bestShare = as, g, share
			if len(st.Channels) > 0 {
				tool = "blades for " + Length(prof, rows[i].DepthMM)
			}
		}
	}
	for _, a := range best {
		u.add(a, 0)
	}
	u.Share = max(u.Share, bestShare)
	if bestGrade < Unknown {
		u.Tool = tool
	}
	if c.AreaMM2 > 0 {
		u.ForceKN = c.AreaMM2 * pc.Material.ShearMPa / 1000
		u.LimitKN, _ = usableKN(&st.Rating, 0)
	}
}

// channelRow sets a channel against one that the blades are for.
func channelRow(prof *shop.Profile, st *shop.BarStation, pc Piece, c *Channel, row *shop.ChannelRow) (out []Aspect, share float64) {
	S, up, base := pc.Material.ShearMPa, pc.upper(), basisMPa(&st.Rating)
	put := func(a Aspect, sh float64) { out, share = append(out, a), max(share, sh) }
	size := func(got, limit float64, what string) Aspect {
		a := Aspect{Rule: "channel-shear", Got: got, HasGot: true, Limit: limit, HasLimit: true, Unit: "mm"}
		a.Text = fmt.Sprintf("%s: %s %s, the shear takes %s", c.Name, what, Length(prof, got), Length(prof, limit))
		if !atMost(got, limit) {
			a.Grade = Fail
		}
		return a
	}
	put(size(c.DepthMM, row.DepthMM, "depth"), c.DepthMM/row.DepthMM)
	if out[0].Grade == Fail {
		return out, share
	}
	ask := func(what string) {
		put(Aspect{Rule: "channel-shear", Grade: Unknown,
			Text: fmt.Sprintf("%s does not tell the channel's %s, which the shear's list limits", c.Name, what), Fix: "what is its " + what + "?", FixBy: "drawing"}, 0)
	}
	if row.FlangeMM > 0 {
		if c.FlangeMM > 0 {
			put(size(c.FlangeMM, row.FlangeMM, "flange"), c.FlangeMM/row.FlangeMM)
		} else {
			ask("width of flange")
		}
	}
	// Walls: by their thickness in the steel of the list.
	limited := false
	for _, wall := range []struct {
		got, most float64
		what      string
	}{{c.WebMM, row.WebMM, "web"}, {c.FlangeThicknessMM, row.FlangeThicknessMM, "flange thickness"}} {
		switch {
		case !(wall.most > 0):
		case !(wall.got > 0):
			ask(map[string]string{"web": "thickness of web"}[wall.what] + map[string]string{"flange thickness": "thickness of flange"}[wall.what])
			limited = true
		default:
			limited = true
			te := max(wall.got, wall.got*S/base)
			a := size(te, wall.most, wall.what)
			if te > wall.got+1e-9 {
				a.Text = fmt.Sprintf("%s: %s %s in %s counts as %s of the list's steel, the shear takes %s", c.Name, wall.what, Length(prof, wall.got), materialName(pc.Material), Length(prof, math.Round(te*100)/100), Length(prof, wall.most))
				a.Basis = fmt.Sprintf("t = %s mm x %s / %s MPa = %s mm", measure.FormatNumber(wall.got, 3), measure.FormatNumber(S, 0), measure.FormatNumber(base, 0), measure.FormatNumber(te, 2))
			}
			if a.Grade == OK && !atMost(S, base) && !atMost(wall.got*up/base, wall.most) {
				a.Grade = Care
				a.Text = fmt.Sprintf("%s is tight at the upper strength of %s", c.Name, materialName(pc.Material))
				a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
			}
			put(a, te/wall.most)
		}
	}
	if !limited && !atMost(S, base) {
		put(channelForce(prof, st, pc, c))
	}
	fit := settingsOf(prof).value("channel-shear", "fit")
	switch {
	case len(st.Channels) == 0:
		put(Aspect{Rule: "channel-shear", Grade: Remark, Text: "the shop file names no blades: see that they match the channel's depth and the slope of its flanges"}, 0)
	case !atMost(row.DepthMM-c.DepthMM, fit):
		put(Aspect{Rule: "channel-shear", Grade: Care, Got: row.DepthMM - c.DepthMM, HasGot: true, Limit: fit, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("%s lies loose in blades for a depth of %s: web and flanges bend", c.Name, Length(prof, row.DepthMM)),
			Fix:  "pack it tight, or saw it", FixBy: "shop"}, 0)
	}
	return out, share
}

// channelForce judges a steel stronger than the list means where the list gives
// no thickness: by A x S, an upper bound, against the station's force.
func channelForce(prof *shop.Profile, st *shop.BarStation, pc Piece, c *Channel) (Aspect, float64) {
	a := Aspect{Rule: "channel-shear"}
	usable, how, known := usable(&st.Rating, 0)
	if !known || !(c.AreaMM2 > 0) {
		a.Grade = Unknown
		why := "the shop file states neither a force nor a web for it"
		if known {
			why = "the area of the section is not known"
		}
		a.Text = fmt.Sprintf("%s in %s is stronger than the shear's list means, and %s", c.Name, materialName(pc.Material), why)
		return a, 0
	}
	force, upper := c.AreaMM2*pc.Material.ShearMPa/1000, c.AreaMM2*pc.upper()/1000
	a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit = force, true, usable, true, "kN"
	a.Basis = fmt.Sprintf("A x S = %s mm2 x %s MPa = %s kN at most; usable %s kN (%s)", measure.FormatNumber(c.AreaMM2, 0), measure.FormatNumber(pc.Material.ShearMPa, 0), measure.FormatNumber(force, 1), measure.FormatNumber(usable, 1), how)
	a.Text = fmt.Sprintf("%s in %s needs at most %s of %s", c.Name, materialName(pc.Material), Force(prof, force), Force(prof, usable))
	switch {
	case !atMost(force, usable):
		a.Grade = Fail
	case !atMost(upper, usable):
		a.Grade = Care
		a.Text = fmt.Sprintf("%s is tight at the upper strength of %s: %s of %s", c.Name, materialName(pc.Material), Force(prof, upper), Force(prof, usable))
		a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
	}
	return a, force / usable
}
