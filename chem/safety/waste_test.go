package safety_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// ways is how many ways there are to reduce the oxide.
var ways = func() int {
	in, _ := route.InputByKey("gas.source")
	return len(in.Options)
}()

func bottles(p *route.Plan) ([]safety.Bottle, *route.Sheet, *ledger.Book) {
	var b route.Runner
	sheet := *b.Run(p)
	return safety.Bottles(p, b.Book(), &sheet), &sheet, b.Book()
}

func named(t *testing.T, list []safety.Bottle, name string) safety.Bottle {
	t.Helper()
	for _, b := range list {
		if strings.HasPrefix(b.Name, name) {
			return b
		}
	}
	require.Fail(t, "no bottle "+name)
	return safety.Bottle{}
}

func TestBottlesAreTheLedger(t *testing.T) {
	p := route.NewPlan()
	list, sheet, book := bottles(&p)
	wash, blue := named(t, list, "Wash liquor"), named(t, list, "Blue mother liquor")
	assert.InEpsilon(t, sheet.Value(route.WasteBaseWash), float64(wash.Soda), 1e-9, "the same soda as the figure's")
	assert.InEpsilon(t, sheet.Value(route.WasteBaseCopper), float64(blue.Soda), 1e-9)
	assert.InEpsilon(t, sheet.Value(route.WasteZinc), float64(wash.Metals[1]), 1e-9)
	assert.InEpsilon(t, sheet.Value(route.WasteCopper), float64(blue.Metals[0]), 1e-9)
	for _, c := range []struct {
		vessel ledger.Vessel
		bottle safety.Bottle
	}{{ledger.WashLiquor, wash}, {ledger.CopperLiquor, blue}} {
		sum := float64(c.bottle.Volume)
		for _, h := range c.bottle.Holds {
			sum += float64(h.Mass)
		}
		assert.InDelta(t, float64(book.TotalMass(c.vessel)), sum, 0.3, "but for traces, contents and water are all of it")
	}
	assert.Equal(t, "zinc sulfate", wash.Holds[0].Name, "of the acid rinse")
	assert.Zero(t, named(t, list, "Black residue").Volume)
	assert.InEpsilon(t, sheet.Value(route.ScrubLiquid), float64(named(t, list, "Scrubber").Volume), 1e-9)
}

// TestBottlesAskForTheSodaOfTheFigure: what the bottles ask for is what is bought, in any
// way, whichever way the salt is finished.
func TestBottlesAskForTheSodaOfTheFigure(t *testing.T) {
	for source := range route.Choice(ways) {
		for _, dry := range []route.Choice{route.ToDryness, route.ToCrystals} {
			for kind := range route.Choice(3) {
				p := route.NewPlan()
				p.GasSource, p.DryWay, p.Rows[0].Kind, p.WashAcid = source, dry, kind, 20
				list, sheet, _ := bottles(&p)
				sum := 0.0
				for _, b := range list {
					sum += float64(b.Soda)
				}
				assert.InDelta(t, sheet.Value(route.WasteBase), sum, 1e-9, "%d %d %d", source, dry, kind)
			}
		}
	}
}

// A gram of soda to a gram of acid: 105.99/98.08 (formula weights).
func TestSodaForAcidAlone(t *testing.T) {
	assert.InDelta(t, 1.0807, float64(formula.MustParse("Na2CO3").MolarMass()/formula.MustParse("H2SO4").MolarMass()), 1e-4)
}

func TestWhatMustNeverMeetStandsAtEachBottle(t *testing.T) {
	p := route.NewPlan()
	list, _, _ := bottles(&p)
	for name, never := range map[string]string{
		"Wash liquor": "caustic", "Blue mother": "sulfur dioxide, which comes back", "Scrubber": "dilute acid",
		"Black residue": "hydrochloric acid", "Small things": "ammonia",
	} {
		assert.Contains(t, strings.Join(named(t, list, name).Never, "; "), never, name)
	}
	assert.Contains(t, named(t, list, "Wash liquor").Treat, "ammonia")
	assert.Contains(t, named(t, list, "Blue mother").Keep, "loose overnight")
	for _, b := range list {
		assert.NotEmpty(t, b.Keep, b.Name)
		assert.NotContains(t, b.Treat+b.Keep, "drain")
	}
}

func TestBottlesOfTheOtherSource(t *testing.T) {
	p := route.NewPlan()
	p.GasSource, p.DryWay = route.FromMetabisulfite, route.ToCrystals
	list, sheet, _ := bottles(&p)
	assert.InEpsilon(t, sheet.Value(route.WasteBaseCopper), float64(named(t, list, "Spent liquid").Soda), 1e-9)
	named(t, list, "Pink mother liquor")
	for _, b := range list {
		assert.NotContains(t, b.Name, "Blue")
	}
	assert.NotContains(t, advised(&p), "Bare, bright copper")
}

func TestSeveralRunsGoIntoTheSameBottles(t *testing.T) {
	p := route.NewPlan()
	one, _, _ := bottles(&p)
	p.BatchShare = 50
	two, _, _ := bottles(&p)
	all := safety.PourTogether(one, two)
	require.Len(t, all, len(one))
	for i, b := range all {
		assert.InDelta(t, float64(one[i].Volume+two[i].Volume), float64(b.Volume), 1e-9, b.Name)
		assert.InDelta(t, float64(one[i].Soda+two[i].Soda), float64(b.Soda), 1e-9, b.Name)
		sum, want := 0.0, 0.0
		for _, h := range b.Holds {
			sum += float64(h.Mass)
		}
		for _, list := range [][]safety.Content{one[i].Holds, two[i].Holds} {
			for _, h := range list {
				want += float64(h.Mass)
			}
		}
		assert.InDelta(t, want, sum, 1e-9, b.Name)
	}
	again := safety.PourTogether(one)
	again[0].Holds[0].Mass = 0
	assert.NotZero(t, one[0].Holds[0].Mass, "what was poured from is left as it was")
}

func advised(p *route.Plan) string {
	var b strings.Builder
	for _, a := range safety.Buying(p, new(route.Runner).Run(p)) {
		b.WriteString(a.Of + ": " + a.Text + "\n")
	}
	return b.String()
}

func TestBuyingSaysThatLawDecides(t *testing.T) {
	p := route.NewPlan()
	text := advised(&p)
	for _, word := range []string{"Local law decides", "licence", "ask your authority", "dyed", "Bare, bright copper"} {
		assert.Contains(t, text, word)
	}
}

// TestBuyingKnowsHowOftenThePlanWashes: distilled water is asked for as many of the last washes
// as there are.
func TestBuyingKnowsHowOftenThePlanWashes(t *testing.T) {
	p := route.NewPlan()
	p.WashAcid = 0
	for times, want := range map[float64]string{
		0: "at least for all that follows the soak.", 1: "at least for the last wash and all that follows.", 2: "at least for the last 2 washes and all that follows.", 5: "at least for the last 2 washes and",
	} {
		p.WashTimes = times
		assert.Contains(t, advised(&p), want)
	}
}

// TestBuyingKnowsWhereLicencesEnd: Regulation (EU) 2019/1148, annex I, as reprinted: the
// public may have sulfuric acid freely to 15 %, licensed to 40; peroxide to 12 and 35.
func TestBuyingKnowsWhereLicencesEnd(t *testing.T) {
	const free, licensed, never = "wants none", "wants that licence", "stronger than the public may have"
	for _, c := range []struct {
		of, key, word string
		source        route.Choice
		strength      quantity.Percent
	}{
		{"Sulfuric acid", "15", free, route.ByOxalic, 15},
		{"Sulfuric acid", "15", licensed, route.ByOxalic, 15.1},
		{"Sulfuric acid", "40", licensed, route.ByOxalic, 40},
		{"Sulfuric acid", "40", never, route.ByOxalic, 40.1},
		{"Sulfuric acid", "40", never, route.FromCopper, 96},
		{"Hydrogen peroxide", "12", free, route.ByPeroxide, 12},
		{"Hydrogen peroxide", "35", licensed, route.ByPeroxide, 12.5},
		{"Hydrogen peroxide", "35", licensed, route.ByPeroxide, 35},
	} {
		p := route.NewPlan()
		p.GasSource, p.GasStrength, p.PeroxideStrength = c.source, c.strength, c.strength
		for _, a := range safety.Buying(&p, new(route.Runner).Run(&p)) {
			if a.Of != c.of {
				continue
			}
			assert.Contains(t, a.Text, c.key+"\u202f%", c)
			for _, word := range []string{free, licensed, never} {
				assert.Equal(t, word == c.word, strings.Contains(a.Text, word), "%v: %s", c, a.Text)
			}
		}
	}
}

// Only copper asks for strong acid: 1 mol/L, 9.2 %, may be bought by anyone.
func TestBuyingSaysWhereWeakAcidDoes(t *testing.T) {
	for source := range route.Choice(ways) {
		p := route.NewPlan()
		p.GasSource = source
		assert.Equal(t, source != route.FromCopper, strings.Contains(advised(&p), "15\u202f% does"), source)
		p.GasStrength = 15
		if source != route.FromCopper {
			assert.Empty(t, route.Check(&p), "and the plan takes it")
		}
	}
}

func TestLyeWantsAcidNotSoda(t *testing.T) {
	p := route.NewPlan()
	kind, _ := route.InputByKey("cell.kind")
	require.NoError(t, kind.Choose(&p, "alkaline"))
	list, sheet, _ := bottles(&p)
	lye := named(t, list, "Wash lye")
	assert.InEpsilon(t, sheet.Value(route.WasteAcid), float64(lye.Acid), 1e-9)
	assert.Zero(t, lye.Soda)
	assert.Contains(t, strings.Join(lye.Never, "; "), "aluminium")
}

func TestStirredWaysHaveNoGasBottles(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for _, word := range []string{"slurrysalt", "peroxide", "oxalic"} {
		p := route.NewPlan()
		require.NoError(t, source.Choose(&p, word))
		list, _, _ := bottles(&p)
		for _, b := range list {
			assert.NotContains(t, []string{"Spent liquid of the generator", "Blue mother liquor"}, b.Name, word)
		}
		named(t, list, "Wash liquor")
	}
}

func TestBuyingFollowsTheWay(t *testing.T) {
	for source, of := range map[route.Choice]string{
		route.FromCopper: "Copper", route.FromMetabisulfite: "Metabisulfite", route.BySalt: "Metabisulfite",
		route.ByPeroxide: "Hydrogen peroxide", route.ByOxalic: "Oxalic acid",
	} {
		p := route.NewPlan()
		p.GasSource = source
		text := advised(&p)
		for _, other := range []string{"Copper", "Metabisulfite", "Hydrogen peroxide", "Oxalic acid"} {
			assert.Equal(t, other == of, strings.Contains(text, other+": "), "%s of %d", other, source)
		}
		assert.Equal(t, route.Sulfurous(&p), strings.Contains(text, "Permanganate: "))
		assert.Contains(t, text, "Silver nitrate: ")
	}
	p := route.NewPlan()
	p.Rows[0].Kind = 2
	assert.NotContains(t, advised(&p), "Silver nitrate: ")
}

// The dihydrate weighs 126.07, the acid 90.03 (formula weights).
func TestAnhydrousOxalicAcid(t *testing.T) {
	p := route.NewPlan()
	p.GasSource = route.ByOxalic
	assert.Contains(t, advised(&p), fmt.Sprintf("anhydrous acid %.2f times", formula.MustParse("H2C2O4").MolarMass()/formula.MustParse("H6C2O6").MolarMass()))
}
