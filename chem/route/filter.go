package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

var filterInputs = []Input{
	{
		Field: field.Field{
			Key: "rinse.times", Name: "Rinses of the residue", Unit: "×", Default: 2, Min: 0, Max: 20, Whole: true,
			Why: "The black residue holds liquor; rinse it into the filtrate.",
		},
		number: func(p *Plan) *float64 { return &p.RinseTimes },
	},
	{
		Field: field.Field{
			Key: "rinse.each", Name: "Water for each", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "2 mL to each gram of dry residue", Why: "Small: all of it must be boiled off again.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.RinseEach) },
	},
}

const rinseToResidue = 2.0 // mL to a gram of dry residue

var filterConstants = []Constant{
	{"rinseToResidue", rinseToResidue, "mL/g", "water for a rinse, to dry residue", "common practice"},
}

// Figures of the filtration, in the order of the page.
const (
	FiltrateVolume FigureID = endOfSlurry + iota
	RinseLeft0
	RinseLeft1
	RinseLeft2
	RinseLeft3
	RinseUsed
	ResidueMass
	ResidueHeld
	ResidueManganese
	FiltrateSalt
	FiltrateDensity
	// FiltrateIron is what all iron in solution weighs, to the volume of filtrate and rinses.
	FiltrateIron
	SpotIron
	// IronSoda takes up the free acid of the slurry and of the iron that falls.
	IronSoda

	endOfFilter
)

var filterFigures = []Figure{
	{ID: FiltrateVolume, Key: "filtrate.volume", Unit: "mL", Name: "Filtrate and rinses, to evaporate", Main: true},
	{ID: RinseLeft0, Key: "rinse.left.0", Unit: "%", Name: "Product left in the cake, not rinsed", Main: true},
	{ID: RinseLeft1, Key: "rinse.left.1", Unit: "%", Name: "Product left after one rinse", Main: true},
	{ID: RinseLeft2, Key: "rinse.left.2", Unit: "%", Name: "Product left after two", Main: true},
	{ID: RinseLeft3, Key: "rinse.left.3", Unit: "%", Name: "Product left after three", Main: true},
	{ID: RinseUsed, Key: "rinse.each.used", Unit: "mL", Name: "Water for each rinse", For: "rinse.each", Poured: true},
	{ID: ResidueMass, Key: "residue.mass", Unit: "g", Name: "Black residue, if it were dry"},
	{ID: ResidueHeld, Key: "residue.held", Unit: "mL", Name: "Liquor that the residue holds"},
	{ID: ResidueManganese, Key: "residue.manganese", Unit: "mmol", Name: "Manganese that stays in the cake"},
	{ID: FiltrateSalt, Key: "filtrate.strength", Unit: "%", Name: "Manganese sulfate in the filtrate, by mass", Else: NoWater},
	{ID: FiltrateDensity, Key: "filtrate.density", Unit: "g/mL", Name: "Density of the filtrate, if it held nothing else", Else: TooConcentrated},
	{ID: FiltrateIron, Key: "filtrate.iron", Unit: "mg/L", Name: "Iron in the filtrate", Else: NoWater},
	{ID: SpotIron, Key: "spot.iron", Name: "Thiocyanate on the filtrate, boiled and with peroxide", Words: []string{"stays clear", "turns red"}, Else: NoWater},
	{
		ID: IronSoda, Key: "iron.soda", Unit: "g", Name: "Soda, anhydrous, that throws the iron down, about", Of: isIronThrown,
	},
}

// filter drains the slurry from its residue and rinses it. The first drain takes
// liquor as it is; a rinse mixes as well as a wash does.
func (b *Runner) filter(p *Plan) {
	b.settle(p)
	dry := b.solids(ledger.Residue)
	held := quantity.Millilitre(float64(p.WashHeld) * float64(dry))
	each := orElse(p.RinseEach, quantity.Millilitre(rinseToResidue*float64(dry)))
	mixing := p.WashMixing.Fraction()

	b.rinseTable(held, each, mixing)
	b.drain(ledger.Residue, ledger.Filtrate, held, 1)
	for range int(p.RinseTimes) {
		b.pour(ledger.Residue, each)
		b.drain(ledger.Residue, ledger.Filtrate, held, mixing)
	}

	b.grams(ResidueMass, dry)
	b.set(ResidueHeld, float64(b.water(ledger.Residue)))
	b.set(RinseUsed, float64(each))
	b.millimoles(ResidueManganese, b.book.Element(ledger.Residue, Mn))
	volume := b.water(ledger.Filtrate)
	b.set(FiltrateVolume, float64(volume))
	b.strength(volume)
	b.spotIron(volume)

	b.book.MoveAll(ledger.Filtrate, ledger.Losses, p.LossTransfer.Fraction())
	b.book.MoveAll(ledger.Filtrate, ledger.Dish, 1)
}

// rinseTable says what is left in the cake after 0 to 3 rinses.
func (b *Runner) rinseTable(held, each quantity.Millilitre, mixing float64) {
	has := b.water(ledger.Residue)
	left := keeps(has, 0, held, 1)
	has = lesser(has, held)
	for _, id := range [...]FigureID{RinseLeft0, RinseLeft1, RinseLeft2, RinseLeft3} {
		b.set(id, 100*left)
		left *= keeps(has, each, held, mixing)
		has = lesser(has+each, held)
	}
}

func (b *Runner) strength(volume quantity.Millilitre) {
	salt := float64(b.book.Mass(ledger.Filtrate, ManganeseSulfate))
	if volume == 0 {
		b.sheet.undefined(FiltrateDensity, NoWater)
		return
	}
	percent := 100 * salt / (salt + float64(volume))
	b.set(FiltrateSalt, percent)
	low, high := table.ManganeseSulfateDensity.Range()
	if percent <= high {
		b.set(FiltrateDensity, at(table.ManganeseSulfateDensity, greater(percent, low))) // the last digit of nothing may be below it
	}
}
