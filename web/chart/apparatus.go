package chart

import (
	"math"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
)

// Apparatus is a plan's vessels drawn as they stand, with what each must hold.
type Apparatus struct {
	Says string // the drawing in words
	d    drawing
}

// benchTop is the height at which all vessels stand, lineTop that of the tubes above
// them, in units of the drawing; em is the height of its letters.
const (
	apparatusEm = 12.0
	benchTop    = 158.0
	lineTop     = 22.0
)

// Line draws how the plan's vessels stand: from the flask through the empty trap and the
// counting bottle to the funnel over the slurry, and behind a closed vessel the second
// trap and the scrubber. A way that leads no gas has the slurry in its bath and nothing
// else. The liquids stand as high as they do in vessels of the sizes told.
func Line(p *route.Plan, s *route.Sheet) Apparatus {
	l := line{p: p, s: s}
	l.d.em = apparatusEm
	gas := p.GasSource == route.FromCopper || p.GasSource == route.FromMetabisulfite
	closed := p.SlurryVessel == route.ClosedVessel && gas
	if gas {
		l.flask(p.GasSource == route.FromCopper)
		l.trap("Empty trap", "Empty trap", "takes the whole slurry if it is drawn back")
		l.counter()
	}
	l.slurry(gas, closed)
	if closed {
		l.trap("Second empty trap", "Second empty trap", "")
		l.scrubber()
	}
	l.d.width = math.Ceil(l.x)
	l.d.height = math.Ceil(l.deep + 2)
	l.d.path("ground", new(pen).op('M', 0, benchTop+1).op('H', l.x).String())
	l.tubes()
	return Apparatus{Says: "The vessels in a row: " + strings.Join(l.says, "; ") + ".", d: l.d}
}

// Draw makes the drawing's elements.
func (a Apparatus) Draw() app.UI {
	return app.Elem("div").Class("apparatus").Role("img").Aria("label", a.Says).Body(picture(&a.d, "line"))
}

// line is a row of vessels being drawn.
type line struct {
	p    *route.Plan
	s    *route.Sheet
	d    drawing
	x    float64 // where the next vessel's place begins
	deep float64 // the lowest word
	says []string
	tube []string // drawn last, over the glass
	from spot     // where the tube leaves the last vessel
}

// vessel is a vessel of the plan; a zero one where it has none of that name.
func (l *line) vessel(name string) route.Vessel {
	for _, v := range route.Vessels(l.p, l.s) {
		if v.Name == name {
			return v
		}
	}
	return route.Vessel{}
}

// tooSmall says that a vessel does not hold what is poured; "" where it does.
func tooSmall(v *route.Vessel) string {
	if !v.TooSmall() {
		return ""
	}
	return "too small: " + v.LeastText() + " or more"
}

// amount is what one batch takes of a figure, as read.
func (l *line) amount(id route.FigureID) string {
	return route.Print(l.figure(id)/route.Runs(l.p), id.Info().Unit)
}

func (l *line) figure(id route.FigureID) float64 {
	if l.s.Reason(id) != route.Defined {
		return 0
	}
	return l.s.Value(id)
}

// words writes a vessel's name and what else is to be said under it, and takes its place
// in the row.
func (l *line) words(width float64, name string, more ...string) {
	middle, y := l.x+width/2, benchTop+4+apparatusEm
	told := name
	for _, text := range wrap(name, width-8, apparatusEm) {
		l.d.write("head", text, middle, y, "middle")
		y += apparatusEm * 1.15
	}
	for _, m := range more {
		if m == "" {
			continue
		}
		told += ", " + m
		for _, text := range wrap(m, width-8, apparatusEm*0.92) {
			l.d.write("name", text, middle, y, "middle")
			y += apparatusEm * 1.1
		}
	}
	l.deep = math.Max(l.deep, y-apparatusEm*0.8)
	l.says = append(l.says, told)
	l.x += width
}

// pipe leads from the last vessel over the line's top down to a place.
func (l *line) pipe(x, down float64) {
	var p pen
	p.op('M', l.from.x, l.from.y).op('V', lineTop).op('H', x).op('V', down)
	l.tube = append(l.tube, p.String())
}

// tubes draws all of them: a dark line, and a bright bore in it.
func (l *line) tubes() {
	for _, part := range []string{"tube", "bore"} {
		for _, d := range l.tube {
			l.d.path(part, d)
		}
	}
}

// part is how full a vessel stands, kept where it can be drawn.
func part(holds, of float64) float64 {
	if !(of > 0) {
		return 0
	}
	return math.Min(0.92, math.Max(0.06, holds/of))
}

// flask is the generator: round over a flame, or under a dropping funnel.
func (l *line) flask(flame bool) {
	const width, r = 132.0, 34.0
	c := spot{l.x + 62, benchTop - 2 - r}
	if flame {
		c.y -= 34
	}
	neck, mouth := 8.0, c.y-r-18
	v := l.vessel("Generator flask")
	// The level, as a share of the height: near enough the share of the volume.
	level := c.y + r - 2*r*part(v.Pours, v.Stands())
	half := math.Sqrt(math.Max(0, r*r-(level-c.y)*(level-c.y)))
	large := 0.0
	if level < c.y {
		large = 1
	}
	l.d.path("liquor", new(pen).op('M', c.x-half, level).op('H', c.x+half).op('A', r, r, 0, large, 1, c.x-half, level).op('Z').String())
	shoulder := math.Sqrt(r*r - neck*neck)
	l.d.path("glass", new(pen).op('M', c.x-neck, mouth).op('V', c.y-shoulder).op('A', r, r, 0, 1, 0, c.x+neck, c.y-shoulder).op('V', mouth).String())
	l.stopper(c.x, mouth, neck)
	l.from = spot{c.x, mouth + 8}
	if flame {
		l.d.path("glass", new(pen).op('M', c.x-44, c.y+r+4).op('H', c.x+44).op('M', c.x-38, c.y+r+4).op('L', c.x-46, benchTop).op('M', c.x+38, c.y+r+4).op('L', c.x+46, benchTop).String())
		l.d.path("glass", new(pen).op('M', c.x, c.y+r+9).op('q', 9, 10, 0, 17).op('q', -9, -7, 0, -17).op('Z').op('M', c.x-7, benchTop).op('v', -5).op('h', 14).op('v', 5).String())
		for i := range 5 {
			x := c.x - 16 + float64(i)*8
			l.d.path("solid", new(pen).op('M', x-3, c.y+r-5-math.Mod(float64(i), 2)*3).op('h', 6).String())
		}
		l.words(width, "Flask, "+v.SizeText(), tooSmall(&v), "copper "+l.amount(route.GasCopperUsed)+", acid "+l.amount(route.GasAcidUsed), "in a sand bath, at most half full")
		return
	}
	// The dropping funnel's stem stands beside the tube.
	x := c.x - 20
	var p pen
	p.op('M', x, c.y-10).op('V', mouth-14).op('m', -10, -22).op('h', 20).op('l', -5, 18).op('q', -5, 5, -10, 0).op('Z')
	l.d.path("glass", new(pen).op('M', x-4, mouth-9).op('h', 8).String()) // its tap
	l.d.path("glass", p.String())
	l.words(width, "Flask, "+v.SizeText(), tooSmall(&v), "metabisulfite "+l.amount(route.GasSaltUsed)+"; dilute acid drips in")
}

func (l *line) stopper(x, mouth, half float64) {
	l.d.path("solid", new(pen).op('M', x-half-2, mouth-5).op('h', 2*half+4).op('l', -2, 12).op('h', -2*half).op('Z').String())
}

// bottle is a stoppered bottle with two tubes: it gives their places and the level.
func (l *line) bottle(x, wide, high, full float64, liquor string) (in, out, level float64) {
	top, neck := benchTop-high, wide*0.3
	level = benchTop - 2 - (high-18)*full
	if full > 0 {
		l.d.path(liquor, new(pen).op('M', x-wide/2+1, level).op('H', x+wide/2-1).op('V', benchTop-1).op('H', x-wide/2+1).op('Z').String())
	}
	var p pen
	p.op('M', x-neck, top).op('V', top+10).op('L', x-wide/2, top+18).op('V', benchTop).op('H', x+wide/2).op('V', top+18).op('L', x+neck, top+10).op('V', top)
	l.d.path("glass", p.String())
	l.stopper(x, top, neck)
	return x - neck*0.55, x + neck*0.55, level
}

// trap is an empty bottle: the tube from the flask ends high in it, that to the liquid
// low, so that what is drawn back stays in it and is pressed out again.
func (l *line) trap(vessel, name, why string) {
	const width, high = 92.0, 84.0
	in, out, _ := l.bottle(l.x+width/2, 54, high, 0, "")
	l.pipe(in, benchTop-high+24)
	l.from = spot{out, benchTop - 8}
	v := l.vessel(vessel)
	l.words(width, name+", "+v.SizeText(), tooSmall(&v), why)
}

// counter is a bottle in which bubbles can be counted.
func (l *line) counter() {
	const width, high = 88.0, 66.0
	in, out, level := l.bottle(l.x+width/2, 36, high, 0.28, "liquor")
	l.pipe(in, level+6)
	l.from = spot{out, benchTop - high + 18}
	l.words(width, "Counting bottle", "a finger of strong acid; may be left out")
}

// slurry is the vessel in its bath, under a funnel where gas is led in.
func (l *line) slurry(gas, closed bool) {
	const width, wide, high = 140.0, 70.0, 88.0
	x := l.x + width/2
	l.d.path("water", new(pen).op('M', x-wide/2-14, benchTop-44).op('H', x+wide/2+14).op('V', benchTop-1).op('H', x-wide/2-14).op('Z').String())
	l.d.path("glass", new(pen).op('M', x-wide/2-14, benchTop-52).op('V', benchTop).op('H', x+wide/2+14).op('V', benchTop-52).String())
	v := l.vessel("Slurry vessel")
	full := part(v.Pours, v.Stands())
	floor := benchTop - 6
	level := floor - (high-20)*full
	l.d.path("mud", new(pen).op('M', x-wide/2+1, level).op('H', x+wide/2-1).op('V', floor-1).op('H', x-wide/2+1).op('Z').String())
	if closed {
		top, neck := floor-high-8, 22.0
		l.d.path("glass", new(pen).op('M', x-neck, top).op('V', top+10).op('L', x-wide/2, top+20).op('V', floor).op('H', x+wide/2).op('V', top+20).op('L', x+neck, top+10).op('V', top).String())
		l.stopper(x, top, neck)
	} else {
		l.d.path("glass", new(pen).op('M', x-wide/2-4, floor-high).op('l', 4, 4).op('V', floor).op('H', x+wide/2).op('V', floor-high+4).op('l', 4, -4).String())
	}
	if gas {
		at := x
		if closed {
			at = x - 9
		}
		l.pipe(at, level-17)
		// The rim only just meets the liquid.
		l.d.path("funnel", new(pen).op('M', at-3, level-18).op('L', at-20, level+2).op('H', at+20).op('L', at+3, level-18).op('Z').String())
		l.from = spot{x + 14, floor - high + 14}
	}
	vessel := "beaker"
	if closed {
		vessel = "closed vessel"
	}
	more := []string{vessel + " of " + v.SizeText()}
	if ice := l.figure(route.ReduceIce); ice > 0 {
		more[0] += ", bath with " + l.amount(route.ReduceIce) + " of ice"
	}
	more = append(more, tooSmall(&v))
	if gas {
		more = append(more, "inverted funnel, its rim only just in the slurry")
	}
	l.words(width, "Slurry, "+l.amount(route.SlurryVolume), more...)
}

// scrubber takes up what passes the closed vessel; its way out stays open.
func (l *line) scrubber() {
	const width, high = 110.0, 78.0
	x := l.x + width/2
	v := l.vessel("Scrubber bottle")
	in, out, level := l.bottle(x, 56, high, part(l.figure(route.ScrubLiquid), v.Stands()), "water")
	l.pipe(in, level-9)
	l.d.path("funnel", new(pen).op('M', in-3, level-10).op('L', in-9, level+2).op('H', in+9).op('L', in+3, level-10).op('Z').String())
	l.tube = append(l.tube, new(pen).op('M', out, benchTop-high+16).op('V', benchTop-high-14).op('h', 16).String())
	l.words(width, "Scrubber, "+v.SizeText(), route.Print(l.figure(route.ScrubAdvised), "g")+" of soda in "+route.Print(l.figure(route.ScrubLiquid), "mL"), "its outlet stays open")
}
