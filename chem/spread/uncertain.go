package spread

import (
	"math"
	"slices"
	"strings"

	"rosesalt/chem/cell"
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/stock"
)

// Interval is what the truth of an input should seldom leave, in the input's
// unit. One without width says that the value is known.
type Interval struct{ Low, High float64 }

func (i Interval) sound() bool { return i.Low <= i.High } // false for not-a-number too

// Case is a plan and what is known of its inputs. The plan must be in order:
// route.Check has nothing to say about it.
type Case struct {
	Plan route.Plan
	// Given are the intervals that the user set, by the input's key. Those of
	// choices, of rows and weighings that are not there, and those whose ends are not
	// in order are passed over.
	Given map[string]Interval
	// Follow lets charges and volumes that are left blank follow each draw, as if
	// the chemist knew the truth beforehand; else they are held at what the best
	// estimate needs.
	Follow bool
	// Shelf bounds the share of the mix while nobody set one; nil where nothing does.
	Shelf stock.Shelf
}

// With is the case with changes made of its plan; a share that is among them stands, whatever
// the shelf holds. Not ok where they do not go together.
func (c Case) With(set []field.Change) (with Case, ok bool) {
	if slices.ContainsFunc(set, func(change field.Change) bool { return change.Key == route.ShareKey }) {
		c.Shelf = nil
	}
	c.Plan, ok = c.Plan.With(set)
	return c, ok
}

// Sized is the case with the share that its shelf allows, which follows nothing from then on,
// and how its plan stands to the shelf.
func (c Case) Sized() (sized Case, fitted stock.Fitted) {
	shelf := c.Shelf
	c.Shelf = nil
	if !shelf.Says() {
		return c, stock.Fitted{Share: c.Plan.BatchShare, Own: c.Plan.BatchShare}
	}
	plan := c.middled()
	_, set := c.Given[route.ShareKey]
	if fitted = shelf.Fit(&plan, set); fitted.Less() {
		c.Plan.BatchShare = fitted.Share
	}
	return c, fitted
}

// Planned is the plan to compute: that of the case, with its share within the shelf, and with
// the middle of an interval that was given in the place of a value at its end or outside, which
// cannot be a median.
func (c *Case) Planned() route.Plan {
	if !c.Shelf.Says() { // then nothing is allocated
		return c.middled()
	}
	sized, _ := c.Sized()
	return sized.middled()
}

// runs is about how many plans are run to compute one of the case.
func (c *Case) runs() int {
	if c.Shelf.Says() {
		return 16 // each thing on the shelf takes some eight
	}
	return 1
}

// Ways are the plan with each reductant, its share within the shelf; another that the shelf shuts has
// that as its problem.
func (c *Case) Ways() []route.Way {
	list := route.Ways(&c.Plan, c.changed)
	for i := range list {
		if w := &list[i]; w.Problem == "" && w.Plan.GasSource != c.Plan.GasSource {
			w.Problem = c.Shelf.Shut(&w.Plan)
		}
	}
	return list
}

// Purity is what each step would take out of the jar, with the share within the shelf; not ok
// where there is no salt.
func (c *Case) Purity() (route.Purity, bool) { return route.Purify(&c.Plan, c.changed) }

// changed is the plan to compute with another one in the place of the case's.
func (c *Case) changed(p *route.Plan) route.Plan {
	with := *c
	with.Plan = *p
	return with.Planned()
}

// middled is the plan with the middles of intervals, whatever the shelf holds.
func (c *Case) middled() route.Plan {
	if len(c.Given) == 0 {
		return c.Plan
	}
	p := c.Plan
	inputs := route.Inputs()
	for _, blank := range [...]bool{false, true, true} { // what stands in for a blank follows the others, blank ones too
		for i := range inputs {
			in := &inputs[i]
			given, ok := c.Given[in.Key]
			if !ok || in.IsChoice() || !given.sound() || !matters(in, &p) || quantity.Given(in.Value(&c.Plan)) == blank {
				continue
			}
			v := in.Value(&p)
			if !quantity.Given(v) {
				if v, ok = in.WorkedOut(&p, new(route.Runner).Run(&p)); !ok {
					continue
				}
			}
			low, high := math.Max(given.Low, in.Min), math.Min(given.High, in.Most(&p))
			if low >= high || low < v && v < high {
				continue
			}
			if v = low + (high-low)/2; in.Whole {
				v = math.Round(v)
			}
			set(in, &p, v)
		}
	}
	route.Reconcile(&p)
	if len(route.Check(&p)) > 0 {
		return c.Plan // the middles do not go together
	}
	return p
}

// Uncertain is an input that is drawn. Low and High are never outside the limits
// of the input. Best is the median: the value that the plan holds, or that stands in
// for it while it is blank; half of the draws lie on each side of it.
type Uncertain struct {
	Input           *route.Input
	Low, Best, High float64
	Given           bool // the interval is the user's

	coordinate int
}

// Uncertains are the inputs that are uncertain in this case, in bench order:
//
//   - estimates that the user has not touched;
//   - blank inputs whose stand-in is an estimate: the composition of the mix, the
//     share of dithionate, the solubility of the blue salt in acid;
//   - a weighing or an assay, within its tolerance;
//   - the temperature of drying or of the crystals, where the solid turns near it;
//   - any input that an interval is given for.
//
// What the plan has no use for is not drawn: the copper's inputs with
// metabisulfite, the crystals' when dried down, the fill of a cell when its mix was
// weighed, the charge when it was assayed.
func Uncertains(c *Case) []Uncertain {
	planned := *c
	planned.Plan = c.Planned()
	return uncertains(nil, &planned, new(route.Runner).Run(&planned.Plan))
}

// uncertains appends them to list, given the best figures.
func uncertains(list []Uncertain, c *Case, best *route.Sheet) []Uncertain {
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		if in.IsChoice() || !matters(in, &c.Plan) {
			continue
		}
		u := Uncertain{Input: in, coordinate: coordinates[i]}
		ok := false
		if given, is := c.Given[in.Key]; is && given.sound() {
			u.Given = true
			u.Best, ok = in.InEffect(&c.Plan, best)
			u.Low, u.High = given.Low, given.High
		} else {
			u.Low, u.Best, u.High, ok = usual(in, &c.Plan, best)
		}
		if ok && u.shape(&c.Plan) {
			list = append(list, u)
		}
	}
	return list
}

// shape cuts the ends to the limits; false when no width is left.
func (u *Uncertain) shape(p *route.Plan) bool {
	in := u.Input
	u.Low, u.High = math.Max(u.Low, in.Min), math.Min(u.High, in.Most(p))
	if !(u.Low < u.High) {
		return false
	}
	u.Best = math.Min(math.Max(u.Best, u.Low), u.High)
	return true
}

// At is the value below which the share p of the draws lies; a whole number where the
// input takes only those.
func (u *Uncertain) At(p float64) float64 {
	var v float64
	if p < 0.5 {
		v = u.Low + float64((u.Best-u.Low)*math.Sqrt(2*p))
	} else {
		v = u.High - float64((u.High-u.Best)*math.Sqrt(2*(1-p)))
	}
	// By hand: in wasm the builtin min and max of floats are calls.
	if v < u.Low {
		v = u.Low
	} else if v > u.High {
		v = u.High
	}
	if u.Input.Whole {
		return math.Round(v)
	}
	return v
}

// matters tells whether the plan has any use for the input.
func matters(in *route.Input, p *route.Plan) bool {
	if in.Row > 0 && !quantity.Given(p.Rows[in.Row-1].Count) {
		return false
	}
	switch in.Key {
	case "cell.fill":
		return !quantity.Given(p.MixWet) && !quantity.Given(p.MixWashed)
	case "mix.wet":
		return quantity.Given(p.MixWet) && !quantity.Given(p.MixWashed)
	case "mix.washed":
		return quantity.Given(p.MixWashed)
	case "mix.assay":
		return quantity.Given(p.MixAssay)
	case "wash.split", "wash.after":
		return route.Rinses(p)
	case "slurry.decay":
		if p.SlurryRest == 0 {
			return false
		}
	case "dry.temperature":
		return true // crystals left in the air are dried too
	case "crop.cold", "crop.held", "crop.taken":
		return p.DryWay == route.ToCrystals // what comes with the salt is told of the best plan alone
	}
	if !route.Uses(p, in.Key) {
		return false
	}
	if isCharge(in) {
		return !quantity.Given(p.MixAssay)
	}
	return true
}

func isCharge(in *route.Input) bool {
	return in.Row > 0 && strings.HasSuffix(in.Key, "charge")
}

// usual is what the input is worth when no interval is given for it.
func usual(in *route.Input, p *route.Plan, sheet *route.Sheet) (low, best, high float64, ok bool) {
	v := in.Value(p)
	switch in.Standing {
	case route.Estimated:
		return in.Low, in.Default, in.High, in.IsDefault(p)
	case route.Measured:
		if !quantity.Given(v) {
			return 0, 0, 0, false
		}
		half := tolerance(in.Key, v)
		return v - half, v, v + half, half > 0
	case route.WorkedOut:
		if quantity.Given(v) || in.Low >= in.High {
			return 0, 0, 0, false
		}
	default:
		// A few degrees decide which solid it is: the thermometer's doubt is the figure's.
		_, from, upto, near := route.TransitionNear(p, in.Key)
		return float64(from), v, float64(upto), near
	}
	switch in.Key {
	case "gas.uptake":
		best, ok = in.WorkedOut(p, sheet)
		low, high = route.UptakeBetween(best)
	case "slurry.dithionate":
		low, high = dithionateEnds.at(float64(p.SlurryTemperature))
		best, ok = in.WorkedOut(p, sheet)
	case "slurry.split":
		low, high = splitEnds.at(route.WarmthInput(p).Value(p))
		if best, ok = in.WorkedOut(p, sheet); ok {
			of := best / 100 / route.SplitAt(route.WarmthInput(p).Value(p)) // what the acid is enough for
			low, high = low*of, high*of
		}
	case "copper.factor":
		// A table from memory, at one temperature only: half and double, as far as the
		// input's own ends, and no lower than where the acid takes twice as much away.
		// Without free acid nothing is taken, and that is known.
		best, ok = in.WorkedOut(p, sheet)
		low, high = math.Max(in.Low, best/2), math.Min(in.High, best*2)
		low = math.Max(low, in.High-2*(in.High-best))
	default:
		if low, best, high, ok = recipe(in.Key, p); !ok {
			best, ok = in.Usual(p)
			low, high = in.Low, in.High
		}
	}
	low, high = math.Min(low, best), math.Max(high, best)
	return low, best, high, ok
}

// recipe is the estimate of a part of the mix for the kinds in the bag, each
// weighed by the mix that its opened cells hold.
func recipe(key string, p *route.Plan) (low, best, high float64, ok bool) {
	total := 0.0
	for i := range p.Rows {
		row := &p.Rows[i]
		if !quantity.Given(row.Count) {
			continue
		}
		kind := &cell.Kinds()[row.Kind]
		var e cell.Estimate
		switch key {
		case "mix.carbon":
			e = kind.Carbon
		case "mix.inert":
			e = kind.Inert
		case "mix.ammonium":
			e = kind.Ammonium
		case "mix.zinc":
			e = kind.Zinc
		case "mix.water":
			e = kind.Water
		case "mix.potash":
			e = kind.Potash
		case "mix.iron":
			e = kind.Iron
		default:
			return 0, 0, 0, false
		}
		grams := math.Max(0, row.Count-row.Rejects) * cell.PartsOf(int(row.Size), int(row.Kind)).Mix.Best
		total += grams
		low += grams * e.Low
		best += grams * e.Best
		high += grams * e.High
	}
	if total == 0 {
		return 0, 0, 0, false
	}
	return low / total, best / total, high / total, true
}

// dithionateEnds: percent of the reduced equivalents that end as dithionate, by
// the slurry's temperature, °C. In ice 35 to 75 (Schlessinger, Inorganic
// Laboratory Preparations, 1962, 61, whose yield may be on either of two
// equations). Hot, acid and with oxide in excess below 5 g/L, a few percent at most
// (Ward, US 7 951 282 B2, 2011); three times that is allowed here, since a beaker is
// not so well kept. At 50 °C 2 to 3 percent (Yao Lu et al., Adv. Eng. Sci. 52(5) (2020)
// 250, abstract), and four times that. Between these nothing is published: estimate, wide on
// purpose.
var dithionateEnds = ends{
	{5, 35, 75}, {20, 15, 60}, {50, 1, 12}, {90, 0.5, 6},
}

// splitEnds: percent of the Mn(III) in reach that ample acid splits, by the slurry's
// temperature, °C: estimate, see table.SplitShare. Cold, an oxide as slow as manganese(III)
// oxide hardly splits in an hour or two.
var splitEnds = ends{{0, 10, 85}, {20, 20, 95}, {40, 70, 100}, {60, 90, 100}, {100, 92, 100}}

// ends are those of an estimate that follows a temperature.
type ends []struct{ celsius, low, high float64 }

// at is the interval at a temperature, along straight lines.
func (e ends) at(celsius float64) (low, high float64) {
	last := e[0]
	if celsius <= last.celsius {
		return last.low, last.high
	}
	for _, next := range e[1:] {
		if celsius <= next.celsius {
			t := (celsius - last.celsius) / (next.celsius - last.celsius)
			return last.low + float64(t*(next.low-last.low)), last.high + float64(t*(next.high-last.high))
		}
		last = next
	}
	return last.low, last.high
}

// Tolerances of what is measured, as half-widths. A kitchen balance reads to 1 g
// and errs by two or three of its steps (common practice); who weighs less than 50 g
// takes a pocket scale, so that the balance never costs more than 4 %. Handling is
// an estimate: scraps and paste that come along or stay in the cans; a cake not quite
// dry. The titration: burette, end point, and a gram that may not be like the rest.
const (
	balanceGrams   = 2.0
	balanceShare   = 0.04
	wetHandling    = 0.03
	washedHandling = 0.02
	assayShare     = 0.03
)

func tolerance(key string, v float64) float64 {
	balance := math.Min(balanceGrams, balanceShare*v)
	switch key {
	case "mix.wet":
		return balance + float64(wetHandling*v)
	case "mix.washed":
		return balance + float64(washedHandling*v)
	case "mix.assay":
		return assayShare * v
	}
	return 0
}
