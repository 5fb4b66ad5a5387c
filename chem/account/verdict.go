package account

import (
	"fmt"
	"math"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Verdict says in plain words what most likely happened.
type Verdict struct {
	Question string   // what must be answered before the verdict means much; empty where nothing
	Sentence string   // the question, and "Most likely (7 in 10) …; next (2 in 10) …."
	Ranked   []Ranked // all causes that are worth a word, the likeliest first
	Others   string   // what the rest have together, "1 in 10"; empty for next to nothing
	Unsaid   string   // what was never noted and is uncertain for that; empty for nothing
	Settles  *Settles // the one measurement that would settle it; nil where none would help
	Misfit   bool     // even the best point misses: more than one thing may have gone wrong
	Missing  string   // where the missing manganese most likely is; empty where none is told
}

// Ranked is a cause and its weight.
type Ranked struct {
	Cause       Cause
	Probability float64
	Odds        string // "7 in 10"
}

// Settles is a measurement not yet made and what it would do: how often the likeliest
// cause would then be the true one, in the mean, and how often it is now.
type Settles struct {
	Key        string
	Input      *field.Field
	Now, After float64
	Sentence   string
}

const worthWord = 0.05

// Verdict ranks the causes.
func (p *Posterior) Verdict() Verdict {
	var v Verdict
	if !p.OK() {
		v.Sentence = p.Why()
		return v
	}
	v.Ranked, v.Others = p.ranked()
	if p.empty != nil {
		v.Sentence = "Nothing was measured yet: all that can be said is the plan."
		return v
	}
	var b strings.Builder
	if v.Question = p.question(); v.Question != "" {
		b.WriteString(v.Question + " Until that is answered: ")
	}
	v.Unsaid = p.unsaid()
	for i, r := range v.Ranked {
		switch i {
		case 0:
			most := "Most likely"
			if b.Len() > 0 {
				most = "most likely"
			}
			fmt.Fprintf(&b, "%s (%s) %s", most, r.Odds, p.says(r.Cause))
		case 1:
			fmt.Fprintf(&b, "; next (%s) %s", r.Odds, p.says(r.Cause))
		case 2:
			fmt.Fprintf(&b, "; then (%s) %s", r.Odds, p.says(r.Cause))
		}
	}
	b.WriteString(".")
	if v.Others != "" {
		b.WriteString(" One of the other causes: " + v.Others + ".")
	}
	if v.Misfit = p.misfit(); v.Misfit {
		b.WriteString(" Even so it fits badly: more than one thing may have gone wrong, or a weighing is off.")
	}
	v.Sentence = b.String()
	v.Settles = p.settles()
	v.Missing = p.missing()
	return v
}

// ranked are the causes that are worth a word, with tenths that add up to ten with those of
// the others: each has its whole tenths, and who has most beyond gets one of those left.
func (p *Posterior) ranked() (list []Ranked, others string) {
	for _, c := range p.Ranked() {
		if q := p.shares[c]; q >= worthWord {
			list = append(list, Ranked{Cause: c, Probability: q})
		}
	}
	for {
		shares, rest := make([]float64, 0, len(list)+1), 1.0
		for _, r := range list {
			shares = append(shares, r.Probability)
			rest -= r.Probability
		}
		tenths := apportion(append(shares, rest))
		if n := len(list); n > 1 && tenths[n-1] == 0 {
			list = list[:n-1]
			continue
		}
		for i := range list {
			list[i].Odds = inTen(tenths[i])
		}
		if n := tenths[len(list)]; n > 0 {
			others = inTen(n)
		}
		return list, others
	}
}

// apportion gives ten tenths to shares that add up to one, by the largest remainder.
func apportion(shares []float64) []int {
	tenths, left := make([]int, len(shares)), 10
	for i, q := range shares {
		tenths[i] = int(math.Floor(10*q + hair))
		left -= tenths[i]
	}
	for range left {
		most := 0
		for i, q := range shares {
			if 10*q-float64(tenths[i]) > 10*shares[most]-float64(tenths[most]) {
				most = i
			}
		}
		tenths[most]++
	}
	return tenths
}

func inTen(tenths int) string {
	if tenths >= 10 {
		return "almost certain"
	}
	return fmt.Sprintf("%d in 10", tenths)
}

// hangs is the weight from which on a cause that one answer could settle is asked about.
const hangs = 0.05

// question is what is to be asked before the verdict: whether dilute acid was poured in,
// where that was never said and could be what happened.
func (p *Posterior) question() string {
	if !p.m.asked || p.shares[NoAcid] < hangs {
		return ""
	}
	return "First a question: was dilute acid poured in? None, as planned, or how much?"
}

// Poured is how much dilute acid the plan would have poured in, mL of 1 mol/L, for who answers
// “as planned”; not ok where nothing needs to be asked.
func (p *Posterior) Poured() (planned float64, ok bool) {
	return float64(p.m.base.SlurryAcid), p.m.asked
}

// unsaid says what was never noted.
func (p *Posterior) unsaid() string {
	var list []string
	if !p.m.charged() {
		list = append(list, "what was charged")
	}
	if p.m.asked {
		list = append(list, "how much dilute acid went in")
	}
	if list == nil {
		return ""
	}
	return "Nobody noted " + strings.Join(list, ", or ") + ": it is uncertain here. Type what you really took, and the verdict is surer."
}

// misfit tells whether even the best point misses the measurements by far: the sum of the squares, in
// standard deviations, beyond 8 and one more for each measurement.
func (p *Posterior) misfit() bool {
	best, told := math.Inf(-1), 0.0
	for _, l := range p.s.log {
		best = math.Max(best, l)
	}
	for _, sd := range p.sd {
		if sd > 0 {
			told++
		}
	}
	return -2*best > 8+told
}

// missing says where the manganese is that is not in the jar.
func (p *Posterior) missing() string {
	intactly, _ := p.Account(KeyIntact)
	caked, _ := p.Account(KeyCake)
	lostly, _ := p.Account(KeyLost)
	batch, ok := p.Interval(route.BatchManganese)
	if !ok || batch.Median == 0 {
		return ""
	}
	return fmt.Sprintf("Of %s of manganese in this run, most likely %s was never dissolved, %s more stayed in the cake, and %s was lost in handling.",
		route.Print(batch.Median, "mmol"), route.Print(intactly.Median, "mmol"),
		route.Print(math.Max(0, caked.Median-intactly.Median), "mmol"), route.Print(lostly.Median, "mmol"))
}

var settleDo = [measurements]string{
	product:  "weigh the dry manganese sulfate",
	crystals: "drain, dry and weigh the blue crystals",
	metal:    "rinse, dry and weigh the copper that is left",
	residue:  "dry the black residue and weigh it",
	assay:    "titrate the manganese in the salt",
	gas:      "count the bubbles of the next run",
}

// settles looks, for each measurement not made, how well it would tell the causes
// apart: were it to find what one of the points gives, how much weight would that
// point's cause have. Gas cannot be counted afterwards and is not asked for.
func (p *Posterior) settles() *Settles {
	n := len(p.s.label)
	now := p.shares[p.Ranked()[0]]
	if now > 0.9 {
		return nil
	}
	const least = 0.05
	best := Settles{Now: now, After: now + least}
	found := false
	for f := range measurement(measurements) {
		copper := f == crystals || f == metal
		if f == gas || quantity.Given(p.m.rec.at(f)) || copper && !route.MakesCopperSalt(&p.m.base) {
			continue
		}
		column := p.column(p.foundAt(f))
		random := seed
		sum, asked := 0.0, 0
		for i := 0; i < n; i += max(1, n/64) {
			// What would be found, with an error of its own.
			sd := usualHalf(measurementKeys[f], column[i]) / 2
			y := column[i] + sd*normal(&random)
			var by [Causes]float64
			for j := range n {
				z := (y - column[j]) / sd
				by[p.s.label[j]] += math.Exp(-float64(z*z) / 2)
			}
			top, total := 0.0, 0.0
			for _, w := range by {
				total += w
				top = math.Max(top, w)
			}
			if total > 0 {
				sum += top / total
				asked++
			}
		}
		if after := sum / float64(max(asked, 1)); after > best.After {
			best.After, best.Key, found = after, measurementKeys[f], true
			best.Sentence = fmt.Sprintf("To settle it, %s: the likeliest cause would then be the true one %s, in place of %s.",
				settleDo[f], times(after), times(now))
		}
	}
	if !found {
		return nil
	}
	best.Input, _ = InputByKey(best.Key)
	return &best
}

func times(p float64) string {
	if p > 0.95 {
		return "nearly always"
	}
	if p < 0.15 {
		return "once in 10"
	}
	return fmt.Sprintf("%d times in 10", int(math.Round(10*p)))
}

// normal is a number from the normal distribution, near enough for a look ahead: the
// sum of twelve even ones.
func normal(g *generator) float64 {
	sum := -6.0
	for range 12 {
		sum += g.unit()
	}
	return sum
}

// Change is what the next run does otherwise.
type Change struct {
	Key      string // of the input or figure
	Name     string
	Unit     string
	Was, Now float64 // Blank where a word says it
	// Low and High are the band that the next run now gives; Blank where none is told.
	Low, High float64
	Sentence  string
}

// nextDraws is how many plans tell what the next run gives.
const nextDraws = 1024

// Learned is what one run, or several, tell of an input for the next.
type Learned struct {
	Input *route.Input
	Interval
}

// Learned are the inputs that the run told something of: whose interval it made
// narrower by a fifth or moved by three tenths of its width; less may be chance. Empty where nothing was
// measured, and where nothing that was drawn meets what was.
func (p *Posterior) Learned() []Learned {
	if !p.OK() || p.empty != nil || p.misfit() {
		return nil
	}
	var list []Learned
	for k := range p.m.uncertain {
		u := &p.m.uncertain[k]
		now, ok := p.interval(p.inputAt(k))
		if !ok {
			continue
		}
		wide := u.At(0.9) - u.At(0.1)
		moved := math.Abs(now.Median - u.At(0.5))
		if now.High-now.Low < 0.8*wide || moved > 0.3*wide {
			list = append(list, Learned{u.Input, now})
		}
	}
	return list
}

// tail is how far the tenth and the ninetieth percentile of what is drawn lie from the
// median, of the whole way to the ends: 1 - √0.2 (see spread.Uncertain.At).
var tail = 1 - math.Sqrt(0.2)

// Next is the case of a next run from the same bag: the learned values in place of the
// estimates, with their intervals, and what changes by it.
func Next(p *Posterior) (spread.Case, []Change) {
	return NextFrom(p, p.Learned())
}

// NextFrom is Next with what several runs told; see Combine.
func NextFrom(p *Posterior, learned []Learned) (spread.Case, []Change) {
	return NextInto(p, p.m.c.Plan, learned)
}

// NextInto is NextFrom with another plan to put the learned values into: the run's own
// without what only this run took.
func NextInto(p *Posterior, base route.Plan, learned []Learned) (spread.Case, []Change) {
	from := p.m.c
	from.Plan = base
	c := learn(from, learned)
	return c, changes(&p.m.c, &c, &p.m.best, learned, p.advice())
}

// NextOf is the case of a next run after a plan, from what several runs told, where no
// account of that plan is at hand.
func NextOf(c spread.Case, learned []Learned) (spread.Case, []Change) {
	next := learn(c, learned)
	return next, changes(&c, &next, new(route.Runner).Run(&c.Plan), learned, nil)
}

// learn puts learned values and their intervals in place of the estimates.
func learn(from spread.Case, learned []Learned) spread.Case {
	c := from
	given := make(map[string]spread.Interval, len(c.Given)+len(learned))
	for key, i := range c.Given {
		given[key] = i
	}
	for _, l := range learned {
		in := l.Input
		best := math.Min(math.Max(l.Median, in.Min), in.Max)
		low := math.Max(in.Min, best-(l.Median-l.Low)/tail)
		high := math.Min(in.Max, best+(l.High-l.Median)/tail)
		r := spread.Round(best, low, high) // no more digits than mean something
		best, low, high = math.Min(math.Max(r.Best, in.Min), in.Max), math.Max(in.Min, r.Low), math.Min(in.Max, r.High)
		if in.Whole {
			best = math.Round(best)
		}
		if in.Set(&c.Plan, best) == nil {
			given[in.Key] = spread.Interval{Low: low, High: high}
		}
	}
	c.Given = given
	route.Settle(&c.Plan)
	if len(route.Check(&c.Plan)) > 0 {
		// The learned values do not go together; the plan stays as it was.
		return from
	}
	return c
}

// What is looked at between two plans: what the chemist does otherwise, by the charges
// and washes, then what comes of it.
// The charge of the generator is that of the plan.
var compared = [...]struct {
	id  route.FigureID
	say string
}{
	{route.WashEnough, "Washes that would do: %s in place of %s."},
	{route.GasAcidUsed, "Acid into the generator: %s in place of %s."},
	{charge, "%s in place of %s."},
	{route.SlurryAcidUsed, "Dilute acid into the slurry: %s in place of %s."},
	{route.GasMade, "Gas to make: %s in place of %s."},
}

const charge = route.FigureID(-1)

func changes(from, to *spread.Case, was *route.Sheet, learned []Learned, advice []Change) []Change {
	var list []Change
	var runner route.Runner
	for _, l := range learned {
		old, ok := l.Input.Value(&from.Plan), true
		if !quantity.Given(old) {
			old, ok = l.Input.WorkedOut(&from.Plan, was)
		}
		if !ok {
			old = quantity.Blank
		}
		list = append(list, Change{
			l.Input.Key, l.Input.Name, l.Input.Unit, old, l.Median, l.Low, l.High,
			fmt.Sprintf("%s: %s, learned, in place of %s.", l.Input.Name, route.Print(l.Median, l.Input.Unit), route.Print(old, l.Input.Unit)),
		})
	}
	now := runner.Run(&to.Plan)
	for _, look := range compared {
		if look.id == charge {
			if !route.Gaseous(&to.Plan) {
				continue
			}
			look.id = route.ReductantOf(&to.Plan).Used
			look.say = look.id.Info().Name + ": " + look.say
		}
		a, b := was.Value(look.id), now.Value(look.id)
		if a != a || b != b || math.Abs(b-a) <= 0.01*math.Max(a, b) {
			continue
		}
		info := look.id.Info()
		list = append(list, Change{
			info.Key, info.Name, info.Unit, a, b, quantity.Blank, quantity.Blank,
			fmt.Sprintf(look.say, route.Print(b, info.Unit), route.Print(a, info.Unit)),
		})
	}
	list = append(list, advice...)
	run := spread.Start(*to, nextDraws).Finish()
	if low, high, ok := run.Band(route.ProductMass); ok {
		a, b := was.Value(route.ProductMass), now.Value(route.ProductMass)
		list = append(list, Change{
			route.ProductMass.Info().Key, route.ProductMass.Info().Name, "g", a, b, low, high,
			fmt.Sprintf("Manganese sulfate to expect: %s, eight times in ten %s to %s; the plan before said %s.",
				route.Print(b, "g"), route.Print(low, "g"), route.Print(high, "g"), route.Print(a, "g")),
		})
	}
	return list
}

// remedies are what to do otherwise after each cause: the input or figure that it is
// about, and how; for where gas is led in, and for where something is stirred in.
var remedies = map[Cause]struct{ key, say, stirKey, stirSay string }{
	PoorOxide:    {key: "mix.washed", say: "Weigh the washed, dried black mix before you charge, and plan by that weight."},
	GasLost:      {"gas.uptake", "Lead the gas slower, the tube deep in the slurry or through a second absorber, and stir.", "stir.excess", "Add the reductant more slowly, well stirred: more of it was lost than planned."},
	EarlyEnd:     {"gas.minutes", "Keep a pinch of the cake, and let the gas run until " + route.PinchTest + ", or the charge is spent.", "stir.excess", "Stir the whole charge in, and go on until " + route.PinchTest + "."},
	Unrinsed:     {key: "rinse.times", say: "Suck or press the cake dry, and rinse it twice with little water."},
	OtherHydrate: {key: "dry.temperature", say: "Dry until two weighings an hour apart agree, and note the temperature."},
	Spill:        {key: "loss.transfer", say: "Weigh each beaker after emptying it: salt stayed behind somewhere."},
	NoAcid:       {key: "slurry.acid", say: "Pour in the dilute acid before the gas, as much as the plan says: the spent half of the oxide needs it."},
	OtherCharge:  {"gas.acid", "Measure acid and metal or salt, and note both.", "stir.excess", "Weigh what is stirred in, and note it."},
	DarkCopper:   {key: "gas.copper", say: "Wash the copper bright in dilute acid and rinse it before you weigh it."},
	LiquorLeft:   {key: "dry.temperature", say: "Boil the liquor on for a second crop, or to dryness, before you pour it off."},
}

// Remedy is what to do otherwise in the next run if a cause was the one; "" where nothing
// would be done otherwise.
func (p *Posterior) Remedy(c Cause) string {
	_, say := p.remedy(c)
	return say
}

func (p *Posterior) remedy(c Cause) (key, say string) {
	r := remedies[c]
	if r.stirKey != "" && !route.Gaseous(&p.m.c.Plan) {
		return r.stirKey, r.stirSay
	}
	return r.key, r.say
}

// advice is what to do otherwise for the causes that are likely.
func (p *Posterior) advice() []Change {
	var list []Change
	if p.OK() && p.empty == nil {
		for _, cause := range p.Ranked() {
			if key, say := p.remedy(cause); say != "" && p.shares[cause] >= 0.3 {
				list = append(list, Change{key, p.Called(cause), "", quantity.Blank, quantity.Blank, quantity.Blank, quantity.Blank, say})
			}
		}
	}
	return list
}
