package route

import (
	"cmp"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/room"
)

// reductant is a way to bring the oxide to Mn(II): a file that declares it, and a row
// below. Either gas is made in the generator and led in, or something is stirred
// straight into the acid slurry. Whoever asks, asks what a way is capable of, or takes
// what it declares, never which one it is.
type reductant struct {
	word, name string   // of the option of gas.source
	conditions []string // of texts, that hold in this way; several ways may share one

	// What goes in, beside acid and water.
	bought  string // its name as bought, without its strength
	called  string // in a sentence; "" for as bought
	charge  *Input // as given, in the unit of used; Blank for as much as needed
	shelf   string // key of what says how much of it is at hand, in the unit of used; "" where none does
	used    FigureID
	needed  FigureID
	frees   FigureID    // the sulfur dioxide that it makes or sets free, mmol; 0 for none
	handled []Substance // that a hand meets with it

	// What it is capable of.
	hotAcid    bool             // the generator is strong acid over a flame
	copperSalt bool             // the generator's liquid holds copper sulfate, to be crystallised
	warm       bool             // the slurry is kept warm for hours, not cooled
	bath       string           // key of the slurry's temperature; "" for slurry.temperature
	bears      quantity.Celsius // the heat that the salt bears for what the way leaves in it; 0 for any

	gas  *generator // of a way that makes gas
	stir *stirred   // of a way that stirs in

	figures   []Figure            // rows of those that no other way has, at its stage
	constants []Constant          // that it counts with
	forms     map[FigureID]string // of figures of all ways, that follow otherwise in this one
	absent    Reason              // of its own figures in plans that go another way; OtherReductant where it is not said

	// What only this way asks of a plan and says of it; each may be nil.
	end    func(p *Plan, share float64)     // lets the gas end at a share; nil where a smaller charge does
	check  func(p *Plan) []Problem          // pairs of values that do not go together in this way
	settle func(p *Plan)                    // puts such right, where estimates met
	says   func(p *Plan, s *Sheet) []string // keys of notices, at its stage
}

// reductants in the order of gas.source.
var reductants = []*reductant{
	FromCopper:        &copperWay,
	FromMetabisulfite: &metabisulfiteWay,
	BySalt:            &saltWay,
	ByPeroxide:        &peroxideWay,
	ByOxalic:          &oxalicWay,
}

// stage is where it is charged, and where its figures stand.
func (r *reductant) stage() Stage {
	if r.stir == nil {
		return Gas
	}
	return Slurry
}

// lacking is why its own figures have no value in plans that go another way.
func (r *reductant) lacking() Reason { return cmp.Or(r.absent, OtherReductant) }

// reducing is the way of a plan.
func reducing(p *Plan) *reductant { return reductants[p.GasSource] }

// Reductant is what does the work in a plan, beside acid and water.
type Reductant struct {
	Bought  string      // its name as bought
	Name    string      // in a sentence
	Charge  *Input      // of how much goes in
	Shelf   string      // key of what says how much of it is at hand (package stock); "" where none does
	Used    FigureID    // how much goes in
	Needed  FigureID    // how much the oxide wants
	Handled []Substance // that a hand meets with it, in the order of their harm

	way *reductant
}

// ChargesUsed are the figures of how much goes in, in the order of the ways.
func ChargesUsed() (list []FigureID) {
	for _, r := range reductants {
		list = append(list, r.used)
	}
	return list
}

// ReductantOf is what does the work in a plan.
func ReductantOf(p *Plan) Reductant {
	r := reducing(p)
	in, _ := InputByKey(r.charge.Key)
	bought := r.bought
	if r.stir != nil && r.stir.strength != nil {
		bought += ", " + percent(quantity.Percent(r.stir.strength.Value(p)))
	}
	return Reductant{bought, cmp.Or(r.called, phrase.Lower(bought)), in, r.shelf, r.used, r.needed, r.handled, r}
}

// Charges are the inputs of how much goes in to reduce the oxide: the acid of a generator, and what
// does the work.
func Charges(p *Plan) []*Input {
	does := ReductantOf(p).Charge
	if !Gaseous(p) {
		return []*Input{does}
	}
	acid, _ := InputByKey("gas.acid")
	return []*Input{acid, does}
}

// Formulas are those of its figures in a plan.
func (r *Reductant) Formulas(p *Plan) *Formulas {
	if r.way.stir != nil {
		return r.way.stir.formulas(r.way)
	}
	return r.way.gas.formulas(r.way, p)
}

// Title is its name at the head of a line.
func (r *Reductant) Title() string { return phrase.Capital(r.Name) }

// Need is the reductant as bought, of a plan's sheet.
func (r *Reductant) Need(p *Plan, s *Sheet) Need {
	into := "generator"
	if !Gaseous(p) {
		into = "stirred into the slurry"
	}
	need := Need{r.Bought, 0, r.Used.Info().Unit, into}
	if s.Reason(r.Used) == Defined {
		need.Amount = s.Value(r.Used)
	}
	return need
}

// Uses tells whether an input has a meaning in the plan, by what its row asks of one and, below, by
// what the way declares: those of other reductants, of the other way of finishing, of other kinds of
// cell, and of a scrubber that is not there have none. How crystals are grown
// and drained always has one: what would grow again
// out of the jar's salt is told of every plan ([Purify]).
func Uses(p *Plan, key string) bool {
	if in, ok := InputByKey(key); ok && (in.Of&^conditionsOf(p) != 0 || in.means != nil && !in.means(p)) {
		return false
	}
	switch key {
	case "slurry.temperature":
		return reducing(p).bath == ""
	case "stir.excess":
		return reducing(p).stir.excess != nil
	case "crop.vessel":
		return MakesCopperSalt(p) || p.DryWay == ToCrystals
	}
	return true
}

// Gaseous tells whether the plan leads gas from a generator into the slurry.
func Gaseous(p *Plan) bool { return reducing(p).stir == nil }

// HotAcid tells whether the gas is made in strong acid over a flame.
func HotAcid(p *Plan) bool { return reducing(p).hotAcid }

// MakesCopperSalt tells whether the spent generator holds copper sulfate, which is
// crystallised.
func MakesCopperSalt(p *Plan) bool { return reducing(p).copperSalt }

// WorksWarm tells whether the slurry is kept warm for hours, not cooled.
func WorksWarm(p *Plan) bool { return reducing(p).warm }

// WarmthInput is the input that says how warm the slurry is.
func WarmthInput(p *Plan) *Input {
	return &inputs[inputIndex[cmp.Or(reducing(p).bath, "slurry.temperature")]]
}

// Uptake is the share of the sulfur dioxide that the slurry keeps, %; Blank where none comes
// into the plan.
func Uptake(p *Plan, s *Sheet) float64 {
	switch {
	case Gaseous(p):
		return s.Value(UptakeShare)
	case !Sulfurous(p):
		return quantity.Blank
	}
	return reducing(p).stir.kept.Value(p)
}

// closed tells whether the slurry stands in a closed vessel.
func closed(p *Plan) bool { return p.SlurryVessel == ClosedVessel }

// Scrubbed tells whether the gas not taken up is led into a scrubber: gas of a generator,
// into a closed vessel. What is stirred in goes into an open one.
func Scrubbed(p *Plan) bool { return Gaseous(p) && closed(p) }

// Sulfurous tells whether sulfur dioxide does the work, led in or set free.
func Sulfurous(p *Plan) bool { return Gaseous(p) || reducing(p).stir.kept != nil }

// MostBrought is the most that a plan's charges can bring by the formulas alone, mol: of
// sulfur dioxide, whatever fades, boils off or goes to sulfide, or where none does the work,
// of what is stirred in. Blank where a charge is blank.
func MostBrought(p *Plan) quantity.Mole {
	if r := reducing(p); r.stir != nil {
		n := r.charge.Value(p) / r.stir.asBought(p)
		if Sulfurous(p) {
			n *= r.stir.pairs
		}
		return quantity.Mole(n)
	}
	return quantity.Mole(lesser(float64(MostByAcid(p)), float64(MostBySolid(p))))
}

// MostBySolid is the most gas that the copper or the salt of a generator can make by the
// formulas alone, mol.
func MostBySolid(p *Plan) quantity.Mole {
	c := p.strict()
	return c.solid.Moles(quantity.Gram(reducing(p).charge.Value(p))) * quantity.Mole(c.perSolid)
}

// MostByAcid is the most gas that the acid of a generator can make by the formulas alone, mol.
func MostByAcid(p *Plan) quantity.Mole {
	return quantity.Mole(float64(p.GasAcid) * p.strict().perMillilitre)
}

// strict is the charge of a plan's generator if all that is in it went to gas.
func (p *Plan) strict() charge {
	best, r := *p, reducing(p)
	if r.gas.strict != nil {
		r.gas.strict(&best)
	}
	return r.gas.charge(&best, acidOf(p.GasStrength), r.charge)
}

// CutCharge leaves a share of the given charge of what is stirred in.
func CutCharge(p *Plan, share float64) {
	if !Gaseous(p) {
		reducing(p).cut(p, share)
	}
}

// EndAt stops the reduction at a share of the charge, as if only so much of it had worked.
func EndAt(p *Plan, share float64) {
	r := reducing(p)
	if r.end != nil {
		r.end(p, share)
		return
	}
	r.cut(p, share)
}

func (r *reductant) cut(p *Plan, share float64) {
	if charge := r.charge.number(p); quantity.Given(*charge) {
		*charge = greater(*charge*share, r.charge.Min)
	}
}

// Reconcile puts right what [Check] would refuse, where estimates met that do not go together.
func Reconcile(p *Plan) {
	if settle := reducing(p).settle; settle != nil {
		settle(p)
	}
	for i := range p.Rows {
		if row := &p.Rows[i]; row.Rejects > row.Count {
			row.Rejects = row.Count
		}
	}
}

// perfectLitre is a mole of perfect gas in L at room temperature and pressure.
func perfectLitre(p *Plan) float64 {
	return room.MolarVolume(p.AirTemperature.Kelvin(), float64(p.AirPressure))
}

// pairs and cations are what the oxides in reach take: electrons by the pair, and
// sulfate.
func (w *work) pairs() float64   { return w.dioxide + w.manganite/2 + w.spinels() }
func (w *work) cations() float64 { return w.dioxide + w.manganite + 3*w.spinels() }

// spinels are hetaerolite and hausmannite, which take and give alike, save for the heat.
func (w *work) spinels() float64 { return w.hetaerolite + w.hausmannite }

// The heat, kJ, that reducing the spinels, and all that is not dioxide, gives off with gas.
func (w *work) spinelHeat() float64 {
	return 2*w.hetaerolite*heatTrivalent + w.hausmannite*heatHausmannite
}
func (w *work) trivalentHeat() float64 { return w.manganite*heatTrivalent + w.spinelHeat() }

// heat is what reducing a share of the oxides gives off, kJ, when a pair gives off
// so much more than with gas.
func (w *work) heat(share, more float64) float64 {
	return share * (w.dioxide*heatDioxide + w.trivalentHeat() + w.pairs()*more)
}
