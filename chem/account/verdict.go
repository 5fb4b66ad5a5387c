package account

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Verdict says in plain words what most likely happened.
type Verdict struct {
	Question string   // what must be answered before the verdict means much; empty where nothing
	Answer   string   // whether anything need be wrong, and "Most likely (7 in 10) …; next (2 in 10) …."
	Sentence string   // the question, if there is one, and the answer
	Planned  string   // how many runs that weigh this went as planned, "4 in 10"; empty where none can have
	Ranked   []Ranked // all causes that are worth a word, the likeliest first, of what went wrong if anything did
	Others   string   // what the rest have together, "1 in 10"; empty for next to nothing
	Unsaid   string   // what was never noted and is uncertain for that; empty for nothing
	Settles  *Settles // the one measurement that would settle it; nil where none would help
	Weigh    string   // what to weigh, or that nothing more would help; empty where it is settled
	Advice   []Advice // what to do otherwise, for the likeliest cause first
	Misfit   bool     // even the best point misses: more than one thing may have gone wrong
	Missing  string   // where the missing manganese most likely is; empty where none is told
}

// Ranked is a cause and its weight.
type Ranked struct {
	Cause       Cause
	Probability float64
	Odds        string // "7 in 10"
	tenths      int
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
		return v.answered(p.Why())
	}
	tenths := 0
	v.Ranked, tenths = p.ranked()
	if tenths > 0 {
		v.Others = inTen(tenths)
	}
	if p.empty != nil {
		return v.answered("Nothing was measured yet: all that can be said is the plan.")
	}
	var b strings.Builder
	v.Planned = p.went()
	if v.Question = p.question(); v.Question != "" {
		b.WriteString("Until that is answered: " + p.told(v.Ranked))
	} else {
		b.WriteString(p.without() + phrase.Capital(p.told(v.Ranked)))
	}
	v.Unsaid = p.unsaid()
	for _, r := range v.Ranked[min(len(v.Ranked), p.worthTelling()):] {
		tenths += r.tenths
	}
	if tenths > 0 {
		b.WriteString(" One of the other causes: " + inTen(tenths) + ".")
	}
	if v.Misfit = p.misfit(); v.Misfit {
		b.WriteString(" " + p.together())
	}
	v = v.answered(b.String())
	v.Settles = p.settles()
	v.Weigh = p.weighNext(v.Settles)
	if v.Advice = p.Advice(); len(v.Advice) == 0 && !v.Misfit {
		v.Advice = []Advice{{Cause: AsPlanned, Do: "Do it again as you did: nothing that was weighed asks for a change."}}
	}
	v.Missing = p.missing()
	return v
}

// answered is the verdict with its answer, and its sentence.
func (v Verdict) answered(answer string) Verdict {
	v.Answer, v.Sentence = answer, answer
	if v.Question != "" {
		v.Sentence = v.Question + " " + answer
	}
	return v
}

// worthTelling is how many causes stand in a sentence: fewer where none of them is likely.
func (p *Posterior) worthTelling() int {
	if p.Mostly() == AsPlanned {
		return 2
	}
	return 3
}

// went is how many of the runs that weigh this went as planned; empty where what was said of the
// dilute acid leaves none.
func (p *Posterior) went() string {
	tenths := int(math.Round(10 * p.planned))
	switch {
	case p.m.without:
		return ""
	case tenths == 0:
		return "hardly any"
	case tenths == 10:
		return "nearly all"
	}
	return inTen(tenths)
}

// told answers the two questions of who reads an account: need anything be wrong, and what is it
// most likely if something is. It begins with a small letter.
func (p *Posterior) told(list []Ranked) string {
	went, likely := p.went(), p.likely(list)
	as := went + " runs that weigh this went as planned"
	switch tenths := math.Round(10 * p.planned); {
	case went == "":
		return likely + "."
	case tenths == 0:
		return "something went wrong, as " + went + " run that weighs this went as planned. " + phrase.Capital(likely) + "."
	case tenths == 1:
		return "something very likely went wrong, as only " + as + ". " + phrase.Capital(likely) + "."
	case p.Mostly() == AsPlanned && !p.misfit():
		return "most likely nothing went wrong, as " + as + ". If something did, " + likely + "."
	default:
		return "nothing need have gone wrong, as " + as + ". If something did, " + likely + "."
	}
}

// likely tells the likeliest causes in a sentence without its full stop, in small letters. Two
// with the same tenths are told as even. That no dilute acid went in, where it is as good as
// known, is told once and before what else went wrong.
func (p *Posterior) likely(list []Ranked) string {
	list = list[:min(len(list), p.worthTelling())]
	says := make([]string, len(list))
	no := p.m.without || p.m.asked && p.none > 0.9
	for i, r := range list {
		switch {
		case no && r.Cause == NoAcid:
			says[i] = "that is all that went wrong: little dissolves without it"
		case no:
			says[i] = p.alone(r.Cause)
		default:
			says[i] = p.says(r.Cause)
		}
	}
	text := ""
	if no {
		text = "no dilute acid went in"
		if !p.m.without {
			text = "very likely " + text
		}
		if list[0].Cause == NoAcid {
			text += ", and "
		} else {
			text += "; besides, "
		}
	}
	even := len(list) > 1 && list[0].tenths == list[1].tenths
	switch {
	case list[0].tenths == 10 && p.saltInCake():
		return text + "most likely " + says[0] + ", unless the residue holds salt"
	case list[0].tenths == 10:
		return text + "almost certainly " + says[0]
	case even:
		text += fmt.Sprintf("either (%s) %s, or (%s) %s", list[0].Odds, says[0], list[1].Odds, says[1])
	default:
		text += fmt.Sprintf("most likely (%s) %s", list[0].Odds, says[0])
	}
	if len(list) > 1 && !even {
		text += fmt.Sprintf("; next (%s) %s", list[1].Odds, says[1])
	}
	if len(list) > 2 {
		text += fmt.Sprintf("; then (%s) %s", list[2].Odds, says[2])
	}
	return text
}

// ranked are the causes that are worth a word, with tenths that add up to ten with those of
// the others: each has its whole tenths, and who has most beyond gets one of those left.
func (p *Posterior) ranked() (list []Ranked, others int) {
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
			list[i].Odds, list[i].tenths = inTen(tenths[i]), tenths[i]
		}
		return list, tenths[len(list)]
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
	if !p.m.asked || p.none < hangs {
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

// misfit tells whether even the best point misses a weighing by more than its error.
func (p *Posterior) misfit() bool { return len(p.Misses()) > 0 }

// together says which weighing does not go with which.
func (p *Posterior) together() string {
	miss := p.Misses()
	if len(miss) == 0 {
		return ""
	}
	name := func(key string) string {
		in, _ := InputByKey(key)
		return "“" + in.Name + "”"
	}
	worst, with := miss[0], []string{}
	for f, sd := range p.sd {
		if key := measurementKeys[f]; sd > 0 && key != worst.Key {
			with = append(with, name(key))
		}
	}
	others := "the plan"
	if len(with) > 0 {
		others = phrase.List(with, "and")
	}
	in, _ := InputByKey(worst.Key)
	return fmt.Sprintf("Even so it fits badly: %s, %s, does not go with %s, with which %s would fit best. More than one thing may have gone wrong, or a weighing is off; the intervals are wide for that.",
		name(worst.Key), route.Print(worst.Found, in.Unit), others, route.Print(worst.Fitted, in.Unit))
}

// hardlyMore is the lead over the next cause up to which the likeliest is so by a hair. An estimate:
// a tenth is the least that the odds tell.
const hardlyMore = 0.1

// Close tells whether the run that stands for all is of a cause that is hardly likelier than the
// next one, and says then of which: “If much of the gas passed by without reacting, the likelier by a
// hair: ”. What is told of that run holds for that cause alone.
func (p *Posterior) Close() (says string, is bool) {
	ranked := p.Ranked()
	if !p.OK() || p.empty != nil || p.Mostly() != ranked[0] || p.shares[ranked[0]]-p.shares[ranked[1]] > hardlyMore+hair {
		return "", false
	}
	return "If " + p.says(ranked[0]) + ", the likelier by a hair: ", true
}

// missing says where the manganese is that is not in the jar, in the run as it most likely
// was, and with how much of it the plan reckoned.
func (p *Posterior) missing() string {
	runner := p.LikeliestRun()
	if runner == nil {
		return ""
	}
	left, _ := undissolved(runner.Book())
	intact := left.Millimoles()
	found := manganeseIn(runner.Book())
	all := found.all()
	if all <= 0 {
		return ""
	}
	var plan route.Runner
	plan.Run(&p.m.base)
	worth := route.Print(all*(massSalt+massWater)/1000, "g") + " of salt"
	if planned := phrase.Otherwise(route.Print(manganeseIn(plan.Book()).all(), "mmol"), route.Print(all, "mmol")); planned != "" {
		worth += "; the plan has " + planned
	}
	begin, went := "Of", ", as it most likely went"
	if says, is := p.Close(); is {
		begin, went = says+"of", ""
	}
	text := fmt.Sprintf("%s %s of manganese in this run%s (%s), %s reached the jar, %s was never dissolved, %s more stayed in the cake",
		begin, route.Print(all, "mmol"), went, worth, route.Print(found.jar, "mmol"), route.Print(intact, "mmol"), route.Print(math.Max(0, found.cake-intact), "mmol"))
	if found.liquor > 0.005*found.jar {
		text += ", " + route.Print(found.liquor, "mmol") + " in the liquor"
	}
	return text + ", and " + route.Print(found.lost, "mmol") + " was lost in handling."
}

// manganese is where that of a run's share is at its end, mmol.
type manganese struct{ jar, cake, liquor, lost float64 }

func manganeseIn(book *ledger.Book) manganese {
	of := func(where ledger.Vessel) float64 { return book.Element(where, reaction.Mn).Millimoles() }
	return manganese{of(ledger.ProductJar), of(residueVessel), of(ledger.MotherLiquor), of(ledger.Losses)}
}

func (m manganese) all() float64 { return m.jar + m.cake + m.liquor + m.lost }

var settleDo = [measurements]string{
	product:  "weigh the dry manganese sulfate",
	crystals: "drain, dry and weigh the blue crystals",
	metal:    "rinse, dry and weigh the copper that is left",
	residue:  "dry the black residue and weigh it",
	assay:    "titrate the manganese in the salt",
	gas:      "count the bubbles of the next run",
}

// tells is what in the next run tells a cause from the others; "" for what is told by itself.
var tells = [Causes]string{
	PoorOxide:    "weigh the washed, dried black mix before you begin",
	GasLost:      "count the bubbles",
	EarlyEnd:     "count the bubbles",
	Unrinsed:     "weigh the dry residue, rinse it and weigh it dry again",
	OtherHydrate: "dry the salt until two weighings agree",
	Spill:        "weigh each beaker before and after it is emptied",
	OtherCharge:  "weigh what you charge",
	LiquorLeft:   "keep the liquor that you pour off",
}

// asGoodAsKnown is the share from which on a cause needs no further weighing.
const asGoodAsKnown = 0.85

// weighNext is what to weigh, or that nothing would help: then what to weigh next time.
func (p *Posterior) weighNext(s *Settles) string {
	ranked := p.Ranked()
	fine := p.Mostly() == AsPlanned
	if miss := p.Misses(); len(miss) > 0 {
		in, _ := InputByKey(miss[0].Key)
		return "Weigh again what does not go with the rest: “" + in.Name + "”."
	}
	switch {
	case p.planned >= asGoodAsKnown:
		return "Nothing more needs to be weighed for this run."
	case s != nil:
		return s.Sentence
	case p.saltInCake():
		return "The residue weighs more by nearly what the jar weighs less, as salt left in it does: rinse it with warm water, dry it and weigh it again, and boil down what ran through."
	case !fine && p.shares[ranked[0]] >= asGoodAsKnown:
		return "Nothing more needs to be weighed for this run."
	case p.shares[Spill]+p.shares[LiquorLeft] > 0.8:
		return "No further weighing of this run would settle it, unless the liquor still stands: boil it to dryness and weigh the salt in it."
	}
	var list []string
	for _, c := range ranked {
		do := tells[c]
		if p.shares[c] < hangs || do == "" || slices.Contains(list, do) || do == tells[GasLost] && (!p.m.meant(gas) || p.sd[gas] > 0) {
			continue
		}
		list = append(list, do)
	}
	if list == nil {
		list = []string{tells[PoorOxide]}
	}
	return "No further weighing of this run would settle it; next time " + phrase.List(list[:min(len(list), 2)], "and") + "."
}

// likeSalt is the least that the residue weighs more, of what the jar weighs less, where that
// may be salt: half-way between the oxide of so much salt, MnO2 to MnSO4·H2O, and the salt
// itself. What the jar weighs less is no smaller part of what the residue weighs more.
var likeSalt = (float64(reaction.ManganeseDioxide.MolarMass())/(massSalt+massWater) + 1) / 2

// saltInCake tells whether the two masses alone say that salt stayed in the cake, be it more
// than any cake holds that the causes here draw.
func (p *Posterior) saltInCake() bool {
	jar, ok := p.Expected(KeyProduct)
	dry, too := p.Expected(KeyResidue)
	less, more := jar.Median-p.m.rec.Product, p.m.rec.Residue-dry.Median
	return ok && too && less > p.m.rec.Half(KeyProduct) && more > p.m.rec.Half(KeyResidue) && more > likeSalt*less && less > likeSalt*more
}

// settles looks, for each measurement not made, how well it would tell the causes
// apart, if something went wrong: were it to find what one of the points gives, how much weight
// would that point's cause have. Gas cannot be counted afterwards and is not asked for.
func (p *Posterior) settles() *Settles {
	var wrong []int
	for i, l := range p.s.label {
		if Cause(l) != AsPlanned {
			wrong = append(wrong, i)
		}
	}
	n := len(wrong)
	now := p.shares[p.Ranked()[0]]
	if now > 0.9 {
		return nil
	}
	const least = 0.1 // less could not be told in words
	settle := "To settle it"
	if math.Round(10*p.planned) > 1 {
		settle = "To tell what went wrong, if anything did"
	}
	best := Settles{Now: now, After: now + least}
	found := false
	for f := range measurement(measurements) {
		if f == gas || quantity.Given(p.m.rec.at(f)) || !p.m.meant(f) {
			continue
		}
		column := p.column(p.foundAt(f))
		random := seed
		sum, asked := 0.0, 0
		for i := 0; i < n; i += max(1, n/64) {
			// What would be found, with an error of its own.
			sd := usualHalf(measurementKeys[f], column[wrong[i]]) / 2
			y := column[wrong[i]] + sd*normal(&random)
			var by [Causes]float64
			for _, j := range wrong {
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
			best.Sentence = fmt.Sprintf("%s, %s: the likeliest cause would then be the true one %s, in place of %s.",
				settle, settleDo[f], times(after), times(now))
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

// before is what a plan had in the place of what was learned; Blank where it had nothing.
func (l *Learned) before(p *route.Plan, s *route.Sheet) float64 {
	v, ok := l.Input.InEffect(p, s)
	if !ok {
		return quantity.Blank
	}
	return v
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

// NextInto is the case of a next run from the same bag, and what changes by it: a plan, the run's own
// without what only this run took, with the learned values that are carried (see Carry) in place of
// the estimates, and their intervals. What was learned may come of several runs (see Combine).
func NextInto(p *Posterior, base route.Plan, learned []Learned) (spread.Case, []Change) {
	from := p.from(base)
	learned, held := Carry(from, learned)
	c := put(from, learned)
	do := heldChanges(held)
	for _, a := range p.advice() {
		if !slices.ContainsFunc(do, func(h Change) bool { return h.Key == a.Key && a.Key == uptakeKey }) { // said already
			do = append(do, a)
		}
	}
	return c, append(p.lesson(), changes(&p.m.c, &c, &p.m.best, learned, do)...)
}

// Carried parts what the run told as a next plan from another plan does; see NextInto and Carry.
func (p *Posterior) Carried(base route.Plan) ([]Learned, []HeldBack) {
	return Carry(p.from(base), p.Learned())
}

// from is the case of a next run before anything that was learned is put in.
func (p *Posterior) from(base route.Plan) spread.Case {
	c := p.m.c
	c.Plan = base
	if p.m.without {
		c.Plan.SlurryAcid = quantity.Millilitre(quantity.Blank) // as much as is needed
	}
	return c
}

// NextOf is the case of a next run after a plan, from what several runs told, where no
// account of that plan is at hand.
func NextOf(c spread.Case, learned []Learned) (spread.Case, []Change) {
	learned, held := Carry(c, learned)
	next := put(c, learned)
	return next, changes(&c, &next, new(route.Runner).Run(&c.Plan), learned, heldChanges(held))
}

// put puts learned values and their intervals in place of the estimates.
func put(from spread.Case, learned []Learned) spread.Case {
	c := from
	c.Given = make(map[string]spread.Interval, len(from.Given)+len(learned))
	maps.Copy(c.Given, from.Given)
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
			c.Given[in.Key] = spread.Interval{Low: low, High: high}
		}
	}
	route.Reconcile(&c.Plan)
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
		old := l.before(&from.Plan, was)
		set := l.Input.Value(&to.Plan) // with the digits that mean something
		list = append(list, Change{
			l.Input.Key, l.Input.Name, l.Input.Unit, old, set, l.Low, l.High,
			fmt.Sprintf("%s: %s, learned, in place of %s.", l.Input.Name, route.Print(set, l.Input.Unit), route.Print(old, l.Input.Unit)),
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
	GasLost:      {uptakeKey, "Lead the gas slower, the tube deep in the slurry or through a second absorber, and stir.", "stir.excess", "Add the reductant more slowly, well stirred: more of it was lost than planned."},
	EarlyEnd:     {"gas.minutes", "Keep a pinch of the cake, and let the gas run until " + route.PinchTest + ", or the charge is spent.", "stir.excess", "Stir the whole charge in, and go on until " + route.PinchTest + "."},
	Unrinsed:     {key: "rinse.times", say: "Suck or press the cake dry, and rinse it twice with little water."},
	OtherHydrate: {key: "dry.temperature", say: "Dry until two weighings an hour apart agree, and note the temperature."},
	Spill:        {key: "loss.transfer", say: "Weigh each beaker after emptying it: salt stayed behind somewhere."},
	NoAcid:       {key: "slurry.acid", say: "Pour in the dilute acid before the gas, as much as the plan says: the spent half of the oxide needs it."},
	OtherCharge:  {"gas.acid", "Measure acid and metal or salt, and note both.", "stir.excess", "Weigh what is stirred in, and note it."},
	DarkCopper:   {say: "Wash the copper bright in dilute acid and rinse it before you weigh it."},
	LiquorLeft:   {key: "dry.temperature", say: "Boil the liquor on for a second crop, or to dryness, before you pour it off."},
}

// Remedy is what to do otherwise in the next run if a cause was the one, and for a likely one
// what that is computed to bring; "" where nothing would be done otherwise.
func (p *Posterior) Remedy(c Cause) string {
	for _, a := range p.Advice() {
		if a.Cause == c {
			return a.Sentence()
		}
	}
	_, say := p.remedy(c)
	return say
}

func (p *Posterior) remedy(c Cause) (key, say string) {
	r := remedies[c]
	if r.stirKey != "" && !route.Gaseous(&p.m.c.Plan) {
		return r.stirKey, r.stirSay
	}
	if c == DarkCopper {
		return route.ReductantOf(&p.m.c.Plan).Charge.Key, r.say
	}
	return r.key, r.say
}

// Advice is what to do otherwise in the next run, and what that is computed to bring.
type Advice struct {
	Cause  Cause
	Key    string  // of the input or figure that it is about
	Do     string  // a sentence
	Effect string  // a sentence: what this run would have given had it been done
	Gain   float64 // g more in the jar
}

// Sentence is what to do and what it brings.
func (a *Advice) Sentence() string { return strings.TrimSpace(a.Do + " " + a.Effect) }

// worthDoing is the weight from which on something is done about a cause.
const worthDoing = 0.3

// Advice is what to do otherwise for the likeliest cause and for others that are likely; nothing
// where the run most likely went as planned. Where dilute acid was left out, or most likely was,
// that comes first whatever else went wrong.
func (p *Posterior) Advice() (list []Advice) {
	if !p.OK() || p.empty != nil {
		return nil
	}
	add := func(c Cause) {
		for _, a := range list {
			if a.Cause == c {
				return
			}
		}
		if key, say := p.remedy(c); say != "" {
			a := Advice{Cause: c, Key: key, Do: say}
			a.Gain, a.Effect = p.effect(c)
			list = append(list, a)
		}
	}
	if p.m.without || p.none > 0.5 {
		add(NoAcid)
	}
	if p.Mostly() == AsPlanned {
		return list
	}
	for i, c := range p.Ranked() {
		if i == 0 || p.shares[c] >= worthDoing {
			add(c)
		}
	}
	return list
}

// effect is what the run as it most likely was under a cause would have given had only that
// not been: g of salt more, and a sentence.
func (p *Posterior) effect(c Cause) (gain float64, says string) {
	at, _ := p.likeliest()
	if Cause(p.s.label[at]) != c {
		for i, l := range p.s.label {
			if Cause(l) == c && (Cause(p.s.label[at]) != c || p.s.log[i] > p.s.log[at]) {
				at = i
			}
		}
	}
	label := Cause(p.s.label[at])
	u := p.s.point(at)
	was, _ := p.m.run(label, u)
	kept := route.Uptake(&p.m.plan, p.m.sheet)
	base, asked := p.m.base, p.m.asked
	defer func() { p.m.base, p.m.asked = base, asked }()
	instead := label
	switch {
	case c == NoAcid:
		p.m.base.SlurryAcid, p.m.asked = p.m.acid, false
	case p.m.none(label, u): // what else went wrong stays as it was
		p.m.base.SlurryAcid, p.m.asked = 0, false
	}
	if label == c {
		instead = AsPlanned
	}
	now, ok := p.m.run(instead, u)
	if !ok {
		return 0, ""
	}
	gain = now.found[product] - was.found[product]
	switch {
	case c == OtherHydrate && gain < 0:
		return gain, fmt.Sprintf("As it most likely ran, %s less would be in the jar, all of it water.", route.Print(-gain, "g"))
	case c == PoorOxide:
		return gain, ""
	case !(gain > 0.02*was.found[product]):
		return gain, ""
	case c == GasLost && route.Sulfurous(&p.m.base):
		return gain, fmt.Sprintf("Uptake from %s to %s: %s more.", route.Print(kept, "%"), route.Print(route.Uptake(&p.m.plan, p.m.sheet), "%"), route.Print(gain, "g"))
	}
	return gain, fmt.Sprintf("This run would then have given %s of salt more.", route.Print(gain, "g"))
}

// without says what leaving out the dilute acid alone would have come to, where it is known
// that none went in.
func (p *Posterior) without() string {
	if !p.m.without {
		return ""
	}
	var runner route.Runner
	none := runner.Run(&p.m.base).Value(route.ProductMass)
	plan := p.m.base
	plan.SlurryAcid = p.m.acid
	with := runner.Run(&plan).Value(route.ProductMass)
	if !(with > none) {
		return ""
	}
	return fmt.Sprintf("Without dilute acid the best estimate is %s of salt, with it %s. ", route.Print(none, "g"), route.Print(with, "g"))
}

// advice is Advice as changes of the next run.
func (p *Posterior) advice() (list []Change) {
	for _, a := range p.Advice() {
		list = append(list, Change{a.Key, p.Called(a.Cause), "", quantity.Blank, quantity.Blank, quantity.Blank, quantity.Blank, a.Sentence()})
	}
	return list
}

// lesson is what the run taught, in a plain sentence before all values; none where nothing
// was weighed.
func (p *Posterior) lesson() []Change {
	if !p.OK() || p.empty != nil {
		return nil
	}
	list, _ := p.ranked()
	b := quantity.Blank
	return []Change{{"", "What was learned", "", b, b, b, b, "Learned from this run: " + p.told(list)}}
}
