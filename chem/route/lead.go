package route

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// oxides are what a reductant can reduce in the slurry, in the order in which what is said of
// each of them is listed.
var oxides = [...]Substance{ManganeseDioxide, Manganite, Hetaerolite, Hausmannite}

// work is what a reductant can find in the slurry once the dilute acid has worked, in mol.
type work struct {
	dioxide, manganite, hetaerolite, hausmannite float64 // that can be reached
	bases                                        float64 // pairs of charges that potash, ammonia and zinc compounds still hold; none while acid is left
	gas                                          float64 // SO2 for all the oxide, with acid enough
	acid                                         float64 // H2SO4 beside it
	have                                         float64 // H2SO4 at hand
	dithionate                                   float64 // share of the reduced equivalents that ends as dithionate, 0 to 1
}

func (b *Runner) work() work {
	reach := func(s Substance, kept quantity.Mole) float64 {
		return greater(0, float64(b.has(ledger.Slurry, s)-kept))
	}
	w := work{
		dioxide:     reach(ManganeseDioxide, b.carry.kept[0]),
		manganite:   reach(Manganite, b.carry.kept[1]),
		hetaerolite: reach(Hetaerolite, b.carry.kept[2]),
		hausmannite: reach(Hausmannite, b.carry.kept[3]),
		have:        float64(b.has(ledger.Slurry, SulfuricAcid)),
		dithionate:  b.carry.dithionate,
	}
	w.bases = float64((b.has(ledger.Slurry, Potash)+b.has(ledger.Slurry, Ammonia))/2 + b.has(ledger.Slurry, ZincDiammine) +
		4*b.has(ledger.Slurry, BasicZincChloride) + b.has(ledger.Slurry, ZincOxide))
	w.gas = w.pairs() * (1 + w.dithionate)
	w.acid = w.manganite/2 + 2*w.spinels()
	return w
}

// plenty is the share of the oxide that the dilute acid at hand is enough for.
func (w work) plenty() float64 {
	switch {
	case w.bases > 0:
		return 0
	case w.acid <= w.have:
		return 1
	}
	return w.have / w.acid
}

// lead is what an amount of gas does in the slurry, in three steps one after the other.
type lead struct {
	// While dilute acid lasts, Mn(IV) and Mn(III) share the gas in proportion to their
	// demands: the share of all oxide in reach that is reduced, 0 to 1.
	share float64

	// The acid used up and MnO2 still there, gas brings as many electrons as charges:
	// MnO2 dissolves mole for mole and Mn(III) waits. A base takes one mole of gas to each
	// two charges, and the electrons that come with it turn two MnO2 to MnOOH. In mol of
	// MnO2 dissolved, of it as dithionate, and of pairs of charges.
	dioxide, asDithionate, bases float64

	// The MnO2 used up, gas has to bring the protons too, two moles for each H2SO4 that is
	// missing: the share of the bases left, then that of the Mn(III) left, 0 to 1.
	basesLeft, manganiteLeft, spinelLeft float64 // mol
	baseShare, oxideShare                float64

	used  float64 // gas that found something to do, mol
	saved float64 // gas that full dilute acid would have saved, mol; it stays as hydrogensulfite
}

// lead follows an amount of gas, mol. First is how far the bases take gas before the
// oxide does while MnO2 is there: 0 where both share it in proportion to their demands, 1
// where the bases have all they want before.
//
// That gas is no dead end while MnO2 is left follows G. Senanayake, Hydrometallurgy 73
// (2004) 215: hydrogensulfite attacks the dioxide like dissolved gas. Where bases have
// bound sulfate, the dithionate that their share of the gas makes is booked on manganese.
func (w work) lead(gas, first float64) lead {
	var l lead
	enough := w.plenty()
	if w.gas > 0 {
		l.share = lesser(enough, gas/w.gas)
		l.used = l.share * w.gas
	}
	rest := gas - l.used

	dioxide := (1 - enough) * w.dioxide
	d := w.dithionate
	if rest > 0 && dioxide > 0 {
		before := lesser(lesser(first*w.bases, dioxide/2), rest)
		left, bases := dioxide-2*before, w.bases-before
		if end := left + 2*bases; end > 0 { // both are used in one ratio until the dioxide is gone
			direct, bound := left*(left/end), left*(bases/end)
			part := 0.0
			if direct+bound > 0 { // whichever of the two bounds on dithionate holds
				part = greater((rest-before)/(2*direct+bound), (rest-(1+d)*before)/((1+d)*(direct+bound)))
				part = greater(0, lesser(1, part))
			}
			l.dioxide, l.bases = part*direct, before+part*bound
		} else {
			l.bases = before
		}
		l.asDithionate = lesser(l.dioxide, d*(l.dioxide+l.bases))
		spent := l.dioxide + l.bases + l.asDithionate
		l.used += spent
		rest -= spent
	}

	l.basesLeft = w.bases - l.bases
	l.manganiteLeft = (1-enough)*w.manganite + 2*l.bases
	l.spinelLeft = (1 - enough) * w.spinels()
	if over := l.dioxide + 2*l.bases; rest <= 0 || over < dioxide*(1-speck) {
		return l
	}
	if wants := 2 * l.basesLeft; wants > 0 {
		l.baseShare = lesser(1, rest/wants)
		l.used += l.baseShare * wants
		l.saved += l.baseShare * wants
		rest -= l.baseShare * wants
	}
	acid := l.manganiteLeft/2 + 2*l.spinelLeft
	if wants := (l.manganiteLeft/2+l.spinelLeft)*(1+d) + 2*acid; rest > 0 && wants > 0 {
		l.oxideShare = lesser(1, rest/wants)
		l.used += l.oxideShare * wants
		l.saved += l.oxideShare * 2 * acid
	}
	return l
}

// bill is the gas that all the oxide and the bases can use, with the acid that there is.
func (w work) bill(first float64) float64 {
	return w.lead(float64(unlimited), first).used
}

// pairs are the pairs of electrons that the gas brought to the oxides, mol.
func (l lead) pairs(w work) float64 {
	return l.share*w.pairs() + l.dioxide + l.bases + l.oxideShare*(l.manganiteLeft/2+l.spinelLeft)
}

// heat is what the reduction gives off, and gas that dissolves as hydrogensulfite, kJ. What
// bases give off with acid is not counted.
func (l lead) heat(w work) float64 {
	spinel := 0.0 // from a mole of those left
	if w.spinels() > 0 {
		spinel = w.spinelHeat() / w.spinels()
	}
	return l.share*(w.dioxide*heatDioxide+w.trivalentHeat()) +
		l.dioxide*heatDioxide + l.bases*2*(heatDioxide-heatTrivalent) +
		l.oxideShare*(l.manganiteLeft*heatTrivalent+l.spinelLeft*spinel) - l.saved*heatBisulfite.kJ
}

// leadIn books what the gas does. The gas is the mol that the slurry takes up.
func (b *Runner) leadIn(w work, gas, first float64) lead {
	l := w.lead(gas, first)
	d := w.dithionate
	do := func(e *Equation, extent float64) { b.react(ledger.Slurry, e, quantity.Mole(extent)) }
	b.onOxides(w, l.share*(1-d), ReduceDioxide, ReduceManganite, ReduceHetaerolite, ReduceHausmannite)
	b.onOxides(w, l.share*d, ReduceDioxideDithionate, ReduceManganiteDithionate, ReduceHetaeroliteDithionate, ReduceHausmanniteDithionate)

	do(ReduceDioxide, l.dioxide-l.asDithionate)
	do(ReduceDioxideDithionate, l.asDithionate)
	if w.bases > 0 {
		b.onBases(l.bases/w.bases, BasePotash, BaseAmmonia, BaseDiammine, BaseBasic, BaseZincOxide)
	}
	b.onBases(l.baseShare, GasPotash, GasAmmonia, GasDiammine, GasBasic, GasZincOxide)
	do(GasManganite, l.oxideShare*l.manganiteLeft/2*(1-d))
	do(GasManganiteDithionate, l.oxideShare*l.manganiteLeft/2*d)
	left := l.oxideShare * (1 - w.plenty())
	do(GasHetaerolite, left*w.hetaerolite*(1-d))
	do(GasHetaeroliteDithionate, left*w.hetaerolite*d)
	do(GasHausmannite, left*w.hausmannite*(1-d))
	do(GasHausmanniteDithionate, left*w.hausmannite*d)
	b.set(AcidSaves, l.saved*1000)
	return l
}

// extents are those of the reactions that reduce all of each of the oxides, in their order.
func (w *work) extents() [len(oxides)]float64 {
	return [...]float64{w.dioxide, w.manganite / 2, w.hetaerolite, w.hausmannite}
}

// onOxides lets a share of each of the oxides react.
func (b *Runner) onOxides(w work, share float64, reactions ...*Equation) {
	for i, extent := range w.extents() {
		b.react(ledger.Slurry, reactions[i], quantity.Mole(share*extent))
	}
}

// onBases lets a share of what the slurry holds of each base react.
func (b *Runner) onBases(share float64, reactions ...*Equation) {
	for i, s := range [...]Substance{Potash, Ammonia, ZincDiammine, BasicZincChloride, ZincOxide} {
		e := reactions[i]
		b.react(ledger.Slurry, e, quantity.Mole(share)*b.has(ledger.Slurry, s)/quantity.Mole(-e.Coefficient(s)))
	}
}
