package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// dissolvedIronInputs are those of the iron that the slurry's acid takes up.
var dissolvedIronInputs = []Input{
	{
		Field: field.Field{
			Key: "iron.dissolves", Name: "Iron that dilute acid dissolves, where acid is left", Unit: "%", Standing: Estimated, Rare: true, Default: 30, Low: 5, High: 80, Min: 0, Max: 100,
			Why: "A judgement: fresh rust dissolves readily, the iron of ores hardly, 2 % of it in an hour in warm acid. It takes only the acid that oxide and zinc leave.",
		},
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return (*float64)(&p.IronDissolves) },
	},
}

// ironInputs are those of what is done about the iron before the slurry is filtered.
var ironInputs = []Input{
	{
		Field: field.Field{
			Key: "iron.way", Name: "Iron in the slurry is", Default: float64(IronLeft),
			Options: field.Words("left", "left as it is", "thrown", "thrown down before it is filtered"),
			Why:     "Left, it tints the salt. Thrown down, it costs an hour, and soda that stays in the salt as sodium sulfate: only where the thiocyanate test turns red and the tint matters.",
		},
		DrawGroup: 4,
		choice:    func(p *Plan) *Choice { return &p.IronWay },
	},
	{
		Field: field.Field{
			Key: "iron.kept", Name: "Washed cake kept back for the iron", Unit: "%", Rare: true, Default: usualKept, Min: 0, Max: 50,
			Why: "Of this run's cake, for where the iron is thrown down: its oxide turns iron(II) into iron(III), which falls out. What it does not use stays in the residue.",
		},
		Of:        isIronThrown,
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return (*float64)(&p.IronKept) },
	},
}

// usualKept is the cake kept back for the iron, %: some four times what the usual iron asks
// for (estimate).
const usualKept = 2

var ironMass = float64(formula.MustParse("Fe").MolarMass())

// ThiocyanateLimit is the iron, mg/L, that a careful eye sees as red with thiocyanate.
const ThiocyanateLimit = 1

var ironConstants = []Constant{
	{"thiocyanateSees", ThiocyanateLimit, "mg/L", "iron that turns red with thiocyanate", "United States Pharmacopeia 28, <241> Iron: colours are compared at 10 µg in 50 mL, 0.2 mg/L; five times that in a pink liquor, an estimate"},
}

// ThrowsIronDown tells whether the iron is thrown down before the slurry is filtered.
func ThrowsIronDown(p *Plan) bool { return p.IronWay == IronThrownDown }

// keepBack puts a little of the batch's cake aside, in the vessel of the residue, where the
// slurry joins it again.
func (b *Runner) keepBack(p *Plan) {
	if ThrowsIronDown(p) {
		b.book.MoveAll(ledger.Mix, ledger.Residue, p.IronKept.Fraction())
	}
}

// dissolveIron lets the acid that is left in a vessel dissolve its share of the iron, last
// of all. Gas that is left brings it to iron(II), which takes less acid; there is none while
// oxide in reach is left, which would turn it back. Its heat is not counted. Without acid the
// iron stays: there it would only fall out again.
func (b *Runner) dissolveIron(p *Plan, v ledger.Vessel) {
	b.react(v, ReduceFerric, unlimited)
	goes := b.has(v, IronHydroxide) * quantity.Mole(p.IronDissolves.Fraction())
	goes -= 2 * b.react(v, ReduceIron, goes/2)
	b.react(v, AcidIron, goes/2)
}

// settle brings the slurry to the filter, its iron thrown down where that is asked for: the
// gas boiled off, the cake that was kept back stirred in, and soda added until the acid is
// taken up, to about pH 5, where iron(III) is gone from solution and neither zinc nor
// manganese falls. The zinc salts of that cake take acid first.
func (b *Runner) settle(p *Plan) {
	if !ThrowsIronDown(p) {
		b.book.MoveAll(ledger.Slurry, ledger.Residue, 1)
		return
	}
	const (
		v        = ledger.Residue
		noneLeft = quantity.Mole(1e-20) // some thousand molecules; where water is short each turn lets fall less than the one before
	)
	dioxide, manganite := b.has(v, ManganeseDioxide), b.has(v, Manganite)
	b.book.MoveShare(ledger.Slurry, ledger.Vent, SulfurDioxide, 1)
	b.book.MoveAll(ledger.Slurry, v, 1)
	b.acidOnZinc(v)
	b.react(v, DioxideOnIron, dioxide)
	b.react(v, ManganiteOnIron, manganite)
	var soda quantity.Mole
	for fell := unlimited; fell > noneLeft; {
		fell = b.react(v, IronFalls, unlimited)
		acid := b.has(v, SulfuricAcid)
		b.book.Bring(v, SodiumCarbonate, acid)
		b.react(v, SodaOnAcid, acid) // gives water, by which more falls where the slurry is all but dry
		soda += acid
	}
	b.book.MoveShare(v, ledger.Vent, CarbonDioxide, 1)
	b.grams(IronSoda, SodiumCarbonate.Mass(soda))
}

// spotIron says how much iron the filtrate holds, and whether thiocyanate shows it.
func (b *Runner) spotIron(volume quantity.Millilitre) {
	if volume == 0 {
		return
	}
	iron := float64(b.book.Element(ledger.Filtrate, Fe)) * ironMass * 1e6 / float64(volume)
	b.set(FiltrateIron, iron)
	b.set(SpotIron, boolean(iron > ThiocyanateLimit))
}
