package route

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/cell"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table/tabletest"
)

// allWorks is 100 g of pure MnO2 and a reductant of which nothing is lost.
var allWorks = with(pureDioxide, "stir.excess=0", "salt.kept=100", "peroxide.lost=0", "oxalic.done=100", "slurry.beaker=50000")

// TestConsumptionOfWhatIsStirredIn against the card of 100 g of MnO2.
func TestConsumptionOfWhatIsStirredIn(t *testing.T) {
	_, salt := run(t, with(allWorks, "gas.source=slurrysalt")...)
	_, weak := run(t, with(allWorks, "gas.source=peroxide")...)
	_, strong := run(t, with(allWorks, "gas.source=peroxide", "peroxide.strength=30")...)
	_, oxalic := run(t, with(allWorks, "gas.source=oxalic")...)
	checks := map[string]float64{
		"card.Na2S2O5": salt.Value(SaltUsed),
		"card.H2O2.3":  weak.Value(PeroxideMass),
		"card.H2O2":    strong.Value(PeroxideMass) * 0.30,
		"card.oxalic":  oxalic.Value(OxalicUsed),
	}
	found := 0
	for _, r := range tabletest.Rows(t, "consumption") {
		if have, ok := checks[r.Check()]; ok {
			r.Meets(t, have)
			found++
		}
		for _, s := range []*Sheet{salt, weak, strong, oxalic} {
			if r.Check() == "card.MnSO4·H2O" {
				r.Meets(t, s.Value(ProductMono))
			}
		}
	}
	assert.Equal(t, len(checks), found)

	moles := 100 / mass(ManganeseDioxide)
	near(t, moles/2*1000, salt.Value(DemandAcid), 1e-9, "half a mole of acid frees a mole of gas")
	near(t, moles*1000, weak.Value(DemandAcid), 1e-9, "peroxide brings no sulfate: each manganese takes an acid")
	near(t, moles*1000, oxalic.Value(DemandAcid), 1e-9, "nor does oxalic acid")
	near(t, moles/2*mass(SodiumSulfate), salt.Value(ProductSodium), 1e-9, "half a sodium sulfate to a manganese stays")
	near(t, moles/2*mass(SodiumSulfate)+salt.Value(ProductMono), salt.Value(ProductMass), 1e-9, "and is weighed with it")
	near(t, 100*salt.Value(ProductMono)/salt.Value(ProductMass), salt.Value(ProductPurity), 1e-9, "and costs purity")
	for _, s := range []*Sheet{weak, oxalic} {
		near(t, 100, s.Value(ReduceConversion), 1e-9, "conversion")
		near(t, 100, s.Value(ProductPurity), 1e-9, "nothing else stays")
	}
	near(t, moles*24.055, weak.Value(StirFroth), 1e-3, "a mole of oxygen to a manganese, 24.055 L at 20 °C (CODATA)")
	near(t, 2*moles*24.055, oxalic.Value(StirFroth), 1e-3, "two of carbon dioxide")
	near(t, moles*(520.0+187.8-220.8-2*285.8)*-1, weak.Value(ReduceHeat), 1e-3, "heat with peroxide, by the formation heats")
	near(t, moles*(-520.0-829.9+220.8+2*393.5+2*285.8), oxalic.Value(ReduceHeat), 1e-3, "with oxalic acid")
	near(t, moles*(-520.0-626.2+220.8+909.3+285.8), salt.Value(ReduceHeat), 1e-3, "with hydrogensulfite")
}

// TestTrapsOfWhatIsStirredIn: the wrong readings give other numbers.
func TestTrapsOfWhatIsStirredIn(t *testing.T) {
	_, oxalic := run(t, with(allWorks, "gas.source=oxalic")...)
	moles := 100 / mass(ManganeseDioxide)
	assert.Greater(t, oxalic.Value(OxalicUsed)-moles*mass(OxalicAcid), 40.0, "the acid without its crystal water")
	_, peroxide := run(t, with(allWorks, "gas.source=peroxide", "peroxide.strength=30")...)
	ml, grams := peroxide.Value(PeroxideUsed), peroxide.Value(PeroxideMass)
	near(t, 1.1126, grams/ml, 1e-9, "as bought it is denser than water (Laliberté 2009)")
	assert.Greater(t, grams-ml, 10.0, "grams taken for millilitres")
	_, salt := run(t, with(allWorks, "gas.source=slurrysalt")...)
	hydrogensulfite := moles * 104.055 // NaHSO3, one to a manganese
	assert.Greater(t, hydrogensulfite-salt.Value(SaltUsed), 10.0, "the salt of another formula")
}

// TestDithionateWantsMoreSalt: half of the reducing power to dithionate is half as much
// salt again, of 190.10 g a mole for two moles of MnO2.
func TestDithionateWantsMoreSalt(t *testing.T) {
	_, s := run(t, with(allWorks, "gas.source=slurrysalt", "slurry.dithionate=50")...)
	near(t, 1.5*100/86.936/2*190.10, s.Value(SaltNeeded), 1e-4, "g to 100 g")
	near(t, 100, s.Value(ReduceConversion), 1e-9, "which does it")
}

// TestAgedOxideGivesTheSameHeat: both are counted as half an Mn2O3 to a manganese.
func TestAgedOxideGivesTheSameHeat(t *testing.T) {
	for _, o := range input(t, "gas.source").Options {
		heat := func(aged string) float64 {
			_, s := run(t, with(spentPlan, "gas.source="+o.Word, "gas.excess=500", "stir.excess=500", "slurry.acid=5000", "oxalic.done=100",
				"oxalic.falls=0", "salt.kept=100", "peroxide.lost=0", "cell.aged="+aged)...)
			near(t, 100, s.Value(ReduceConversion), 1e-9, o.Word)
			return s.Value(ReduceHeat)
		}
		near(t, heat("0"), heat("100"), 1e-9, o.Word)
	}
}

// TestLossesOfPeroxide: what is lost asks for more; the estimate ends at twice the theory.
func TestLossesOfPeroxide(t *testing.T) {
	_, theory := run(t, with(allWorks, "gas.source=peroxide")...)
	for lost, times := range map[string]float64{"33.333333333333333": 1.5, "50": 2, "66.6666666666666667": 3} {
		_, s := run(t, with(allWorks, "gas.source=peroxide", "peroxide.lost="+lost)...)
		near(t, times*theory.Value(PeroxideUsed), s.Value(PeroxideUsed), 1e-9, lost)
		near(t, 100, s.Value(ReduceConversion), 1e-9, "and does as much")
		near(t, (1+(times-1)/2)*theory.Value(StirFroth), s.Value(StirFroth), 1e-9, "what breaks up gives half its oxygen")
	}
	_, s := run(t, with(allWorks, "gas.source=peroxide", "peroxide.lost=60", fmt.Sprintf("peroxide.charge=%.15g", theory.Value(PeroxideUsed)))...)
	near(t, 40, s.Value(ReduceConversion), 1e-9, "the theory, of which three fifths are lost")
	broken := 0.6 * 100 / mass(ManganeseDioxide) * (285.8 - 187.8) // formation heats of water and of peroxide
	near(t, 0.4*theory.Value(ReduceHeat)+broken, s.Value(ReduceHeat), 1e-3, "what only breaks up gives heat too")
	in := input(t, "peroxide.lost")
	near(t, 1.05, 1/(1-in.Low/100), 0.01, "its interval")
	near(t, 2, 1/(1-in.High/100), 0.02, "its interval")
}

// TestGivenChargesLimit: half the charge does half the work; without dilute acid
// peroxide does nothing, and oxalic acid brings manganese down.
func TestGivenChargesLimit(t *testing.T) {
	for source, charge := range map[string]struct {
		key string
		id  FigureID
	}{"slurrysalt": {"salt.charge", SaltUsed}, "peroxide": {"peroxide.charge", PeroxideUsed}, "oxalic": {"oxalic.charge", OxalicUsed}} {
		base := with(allWorks, "gas.source="+source)
		_, s := run(t, base...)
		_, half := run(t, with(base, fmt.Sprintf("%s=%.15g", charge.key, s.Value(charge.id)/2))...)
		near(t, 50, half.Value(ReduceConversion), 1e-9, source)
		near(t, 50, half.Value(StirServes), 1e-9, source)
		near(t, s.Value(ReduceHeat)/2, half.Value(ReduceHeat), 1e-9, source)
		_, twice := run(t, with(base, "oxalic.falls=0", fmt.Sprintf("%s=%.15g", charge.key, s.Value(charge.id)*2))...)
		near(t, 100, twice.Value(ReduceConversion), 1e-9, source)
	}
	_, bare := run(t, with(allWorks, "gas.source=peroxide", "slurry.acid=0")...)
	assert.Zero(t, bare.Value(ReduceConversion))
	b, bare := run(t, with(allWorks, "gas.source=oxalic", "slurry.acid=0")...)
	near(t, 50, 100*bare.Value(OxalicLost)/bare.Value(BatchManganese), 1e-9, "two of oxalic acid to a manganese, then")
	assert.Zero(t, bare.Value(ReduceConversion), "none of it in solution")
	assert.Zero(t, b.Book().Amount(ledger.ProductJar, OxalicAcid))
}

// shortOfAcid is a mix of all three oxides of which half goes into the slurry, so that the
// reserve tells what stood there.
var shortOfAcid = []string{
	"cell.charge=30", "cell.aged=40", "batch.share=50", "loss.transfer=0", "slurry.reach=100", "slurry.split=0", "slurry.beaker=50000",
	"wash.soak=1000", "peroxide.lost=0", "oxalic.falls=0", "oxalic.done=100",
}

// TestStirredShortageIsShared: where dilute acid or the reductant is short, each oxide
// gets the same share of what there is, and what is short is used up to the last.
func TestStirredShortageIsShared(t *testing.T) {
	oxides := []struct {
		oxide                Substance
		peroxide, acid, bare *Equation
	}{
		{ManganeseDioxide, PeroxideDioxide, OxalicDioxide, OxalicDioxideBare},
		{Manganite, PeroxideManganite, OxalicManganite, OxalicManganiteBare},
		{Hetaerolite, PeroxideHetaerolite, OxalicHetaerolite, OxalicHetaeroliteBare},
		{Hausmannite, PeroxideHausmannite, OxalicHausmannite, OxalicHausmanniteBare},
	}
	for _, c := range []struct {
		entries []string
		short   []Substance
		bare    bool // oxalic acid brings protons too
	}{
		{[]string{"gas.source=peroxide", "slurry.acid=300"}, []Substance{SulfuricAcid}, false},
		{[]string{"gas.source=peroxide", "slurry.acid=2000", "peroxide.charge=150"}, []Substance{HydrogenPeroxide}, false},
		{[]string{"gas.source=oxalic", "slurry.acid=2000", "oxalic.charge=20"}, []Substance{OxalicAcid}, false},
		{[]string{"gas.source=oxalic", "slurry.acid=300", "oxalic.charge=40"}, []Substance{SulfuricAcid, OxalicAcid}, true},
		{[]string{"gas.source=oxalic", "slurry.acid=150", "oxalic.charge=20"}, []Substance{SulfuricAcid, OxalicAcid}, true},
		// A single cell, and a bag of two hundred.
		{[]string{"gas.source=oxalic", "slurry.acid=300", "oxalic.charge=3", "cell.count=1"}, []Substance{OxalicAcid}, false},
		{[]string{"gas.source=oxalic", "slurry.acid=8000", "oxalic.charge=1200", "cell.count=200", "wash.soak=30000"}, []Substance{SulfuricAcid, OxalicAcid}, true},
	} {
		entries := with(shortOfAcid, c.entries...)
		b, _ := run(t, entries...)
		far := extents(t, Slurry, entries...)
		// A mole of dioxide, of hetaerolite and of hausmannite, two of manganite to an equation.
		share := func(s Substance, extent float64) float64 {
			if s == Manganite {
				extent *= 2
			}
			return extent / float64(b.Book().Amount(ledger.Reserve, s))
		}
		way := func(i int) (acid, bare float64) {
			o := oxides[i]
			return share(o.oxide, far[o.peroxide]+far[o.acid]), share(o.oxide, far[o.bare])
		}
		acid, bare := way(0)
		require.True(t, acid > 0.02 && acid+bare < 0.95, "%v: %v and %v", c.entries, acid, bare)
		assert.Equal(t, c.bare, bare > 0.02, "%v: %v", c.entries, bare)
		for i := range oxides {
			a, without := way(i)
			assert.InDelta(t, acid, a, 1e-9, "%v: %s with acid", c.entries, oxides[i].oxide.Formula())
			assert.InDelta(t, bare, without, 1e-9, "%v: %s without", c.entries, oxides[i].oxide.Formula())
		}
		for _, s := range c.short {
			left := b.Book().Amount(ledger.Residue, s) + b.Book().Amount(ledger.Dish, s) + b.Book().Amount(ledger.ProductJar, s)
			assert.InDelta(t, 0, float64(left), 1e-9, "%v: %s is used up", c.entries, s.Formula())
		}
	}
}

// TestWaterOfWhatIsStirredIn: 30 % peroxide of 1.1126 g/mL is seven tenths water, and of
// oxalic acid dihydrate, 126.065 g/mol, 36.031 g are.
func TestWaterOfWhatIsStirredIn(t *testing.T) {
	for _, c := range []struct {
		entries []string
		key     string
		water   float64 // mL in 100 mL or 100 g
	}{
		{[]string{"gas.source=peroxide", "peroxide.strength=30"}, "peroxide.charge", 0.7 * 111.26},
		{[]string{"gas.source=oxalic"}, "oxalic.charge", 100 * 36.031 / 126.065},
	} {
		volume := func(charge string) float64 {
			_, s := run(t, with(c.entries, "slurry.acid=100", c.key+"="+charge)...)
			return s.Value(SlurryVolume)
		}
		near(t, c.water, volume("200")-volume("100"), 1e-4, c.key)
	}
}

// TestNoDithionateWithoutSulfurDioxide, nor any gas to scrub; every figure of gas says
// why it has no value.
func TestNoDithionateWithoutSulfurDioxide(t *testing.T) {
	for _, source := range []string{"peroxide", "oxalic"} {
		b, s := run(t, "gas.source="+source, "slurry.temperature=1")
		assert.Zero(t, s.Value(ProductDithionate), source)
		assert.Zero(t, s.Value(ProductSulfite), source)
		assert.Equal(t, source == "oxalic", s.Reason(ReduceIce) == KeptWarm, "ice for what is kept warm")
		assert.Zero(t, s.Value(DemandDithionate), source)
		for v := range ledger.Vessel(ledger.Vessels) {
			assert.Zero(t, b.Book().Amount(v, SulfurDioxide), "%s in the %v", source, v)
		}
		for _, id := range []FigureID{VentGas, VentVolume, UptakeTaken, UptakeDissolved, DemandGas, ScrubSoda, ScrubHydroxide} {
			assert.Equal(t, NoSulfurDioxide, s.Reason(id), "%s %s", source, id.Info().Key)
		}
	}
	for _, source := range []string{"slurrysalt", "peroxide", "oxalic"} {
		_, s := run(t, "gas.source="+source)
		for id := range FigureID(len(Figures())) {
			if id.Info().Stage == Gas {
				assert.Equal(t, StirredIn, s.Reason(id), "%s %s", source, id.Info().Key)
			}
		}
		assert.Equal(t, NoCopper, s.Reason(CopperCrop), source)
	}
	_, salt := run(t, "gas.source=slurrysalt")
	_, gas := run(t, "gas.source=metabisulfite")
	assert.Positive(t, salt.Value(ProductDithionate), "metabisulfite works by its gas")
	assert.Zero(t, gas.Value(ProductSodium), "out of a flask no sodium comes along")
}

// TestWaysAreFullPlans: each, run again, gives what it shows, and its books close.
func TestWaysAreFullPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		list := Ways(p, asIs)
		require.Len(t, list, len(reductants))
		for i := range list {
			w := &list[i]
			if w.Problem != "" {
				continue
			}
			var b Runner
			s := b.Run(&w.Plan)
			if id, ok := same(&w.Sheet, s); !ok {
				t.Fatalf("%s: %s differs\nplan:%s", w.Word, id.Info().Key, link(&w.Plan))
			}
			if err := b.Err(); err != nil {
				t.Fatalf("%s: %v\nplan:%s", w.Word, err, link(&w.Plan))
			}
			for _, e := range []Element{Mn, S, C, K, Na, Zn, N, Cl, O, H} {
				in, out := b.Book().Balance(e)
				if d := float64(in - out); d > tiny*float64(in)+nothing || -d > tiny*float64(in)+nothing {
					t.Fatalf("%s: %v of %v in, %v out\nplan:%s", w.Word, in, e, out, link(&w.Plan))
				}
			}
		}
	})
}

func TestWaysSideBySide(t *testing.T) {
	p := planOf(t)
	list := Ways(p, asIs)
	leaves := func(w *Way, name string) float64 {
		for _, n := range w.Leaves {
			if n.Name == name {
				return n.Amount
			}
		}
		return 0
	}
	by := map[string]*Way{}
	for i := range list {
		by[list[i].Word] = &list[i]
		assert.Positive(t, list[i].Reductant.Amount, list[i].Word)
		assert.Positive(t, list[i].Acid.Amount, list[i].Word)
		assert.NotEmpty(t, list[i].Gases, list[i].Word)
	}
	var b Runner
	assert.Equal(t, b.Run(p).Value(ProductMass), by["copper"].Sheet.Value(ProductMass), "the plan itself is one of them")
	assert.Positive(t, leaves(by["slurrysalt"], "sodium sulfate"))
	assert.Positive(t, leaves(by["copper"], "dithionate"))
	assert.Zero(t, leaves(by["peroxide"], "dithionate"))
	assert.Zero(t, leaves(by["oxalic"], "oxalates"), "the proposed charge leaves none")
	much := Ways(planOf(t, "oxalic.charge=60"), asIs)
	assert.Positive(t, leaves(&much[ByOxalic], "oxalates"))
	for _, word := range []string{"slurrysalt", "peroxide", "oxalic"} {
		assert.Greater(t, by["copper"].Acid.Amount, 2*by[word].Acid.Amount, "hot acid takes most: %s", word)
	}
	weak := Ways(planOf(t, "gas.strength=50"), asIs)
	assert.NotEmpty(t, weak[FromCopper].Problem, "acid too weak for copper")
	assert.Empty(t, weak[ByPeroxide].Problem)
}

// TestWaysTellTheirGases in litres at 20 °C: real sulfur dioxide, 23.621 L/mol, and
// perfect oxygen and carbon dioxide, 24.055 L/mol (CODATA).
func TestWaysTellTheirGases(t *testing.T) {
	p := planOf(t, with(allWorks, "gas.uptake=80", "salt.kept=90")...)
	moles := 100 / mass(ManganeseDioxide)
	want := map[string]map[string]float64{
		"copper":        {"made": moles / 0.8 * 23.621, "past the slurry": moles * 0.2 / 0.8 * 23.621},
		"metabisulfite": {"made": moles / 0.8 * 23.621, "past the slurry": moles * 0.2 / 0.8 * 23.621},
		"slurrysalt":    {"made": moles / 0.9 * 23.621, "past the slurry": moles * 0.1 / 0.9 * 23.621},
		"peroxide":      {"out of the slurry": moles * 24.055},     // MnO2 + H2O2 gives one of oxygen
		"oxalic":        {"out of the slurry": 2 * moles * 24.055}, // MnO2 + H2C2O4 two of carbon dioxide
	}
	for _, w := range Ways(p, asIs) {
		have := map[string]float64{}
		for _, g := range w.Gases {
			have[g.For] = g.Amount
			assert.Equal(t, "L", g.Unit)
		}
		for what, litres := range want[w.Word] {
			near(t, litres, have[what], 1e-3, w.Word+", "+what)
		}
		assert.Len(t, have, len(want[w.Word]), "%s: nothing off the dish", w.Word)
	}
}

// TestWaysTellWhatWeighs: what is half a gram or more in a kilogram of the jar.
func TestWaysTellWhatWeighs(t *testing.T) {
	for _, entries := range [][]string{nil, {"batch.share=100", "cell.count=60"}, {"cell.kind=alkaline"}, {"wash.times=20", "wash.acid=300"}} {
		for _, w := range Ways(planOf(t, entries...), asIs) {
			told := map[string]bool{}
			for _, n := range w.Leaves {
				told[n.Name] = true
			}
			kilograms := w.Sheet.Value(ProductMass) / 1000
			for _, c := range companions {
				assert.Equal(t, w.Sheet.Value(c.id) > 0.5*kilograms, told[c.name], "%v, %s: %v g of %s in %v kg", entries, w.Word, w.Sheet.Value(c.id), c.name, kilograms)
			}
		}
	}
}

// TestUses: an input has a meaning in some plan, and one of another way none.
func TestUses(t *testing.T) {
	for _, c := range []struct {
		key, yes, no string
	}{
		{"gas.copper", "gas.source=copper", "gas.source=peroxide"},
		{"gas.uptake", "gas.source=metabisulfite", "gas.source=slurrysalt"},
		{"slurry.temperature", "gas.source=peroxide", "gas.source=oxalic"},
		{"slurry.dithionate", "gas.source=slurrysalt", "gas.source=peroxide"},
		{"oxalic.warm", "gas.source=oxalic", "gas.source=copper"},
		{"slurry.vessel", "gas.source=metabisulfite", "gas.source=slurrysalt"},
		{"room.escape", "slurry.vessel=closed", "slurry.vessel=open"},
		{"room.escape", "gas.source=copper", "gas.source=slurrysalt"},
		{"mix.potash", "cell.kind=alkaline", "cell.kind=ammonium"},
		{"mix.zinc", "cell.kind=ammonium", "cell.kind=alkaline"},
		{"crop.water", "dry.way=crystals", "dry.way=dry"},
	} {
		assert.True(t, Uses(planOf(t, c.yes), c.key), c.key)
		assert.False(t, Uses(planOf(t, c.no), c.key), c.key)
	}
}

// TestUnusedInputsChangeNothing: what Uses says has no meaning has none.
func TestUnusedInputsChangeNothing(t *testing.T) {
	var b, c Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		other := *p
		for i := range Inputs() {
			in := &Inputs()[i]
			// The temperature of drying tells the form of crystals too.
			if !Uses(p, in.Key) && !in.IsChoice() && in.Key != "dry.temperature" {
				fresh := NewPlan()
				in.Copy(&other, &fresh)
			}
		}
		if len(Check(&other)) > 0 {
			t.Skip("not in order")
		}
		if id, ok := same(b.Run(p), c.Run(&other)); !ok {
			t.Fatalf("%s differs\nplan:%s\nother:%s", id.Info().Key, link(p), link(&other))
		}
		jar, _ := Purify(p, asIs)
		if twin, _ := Purify(&other, asIs); fmt.Sprint(jar) != fmt.Sprint(twin) { // blanks are no numbers, and so never equal
			t.Fatalf("what comes with the salt differs\nplan:%s\nother:%s", link(p), link(&other))
		}
	})
}

// TestPotashTakesAcid: one LR20, all of its potash in the cake, against the published
// figure; washed, the same cell takes next to none.
func TestPotashTakesAcid(t *testing.T) {
	for _, r := range tabletest.Rows(t, "alkaline") {
		i := 0
		for cell.Sizes()[i].Mark != r.Text("mark") {
			i++
		}
		size := &cell.Sizes()[i]
		if r.Text("potash_percent") == "" {
			r.Meets(t, size.Alkaline.Best)
			continue
		}
		base := []string{"cell.kind=alkaline", "cell.size=R20", "cell.count=1", "cell.charge=100", "mix.water=100", "batch.share=100"}
		_, s := run(t, with(base, "wash.soak=0", "wash.times=0")...)
		// The mix of the plan holds the potash of its estimate; the published figure is
		// that of all in the cell.
		whole := r.Float("cell_g") * r.Float("potash_percent") / 100
		acid := s.Value(DemandAcid) / 1000 * mass(SulfuricAcid) * whole / s.Value(MixPotash)
		r.Meets(t, acid)
		assert.NotEqual(t, 0.0, s.Value(ProductPotassium))
		_, washed := run(t, with(base, "wash.times=6")...)
		assert.Less(t, washed.Value(DemandAcid), 0.02*s.Value(DemandAcid))
		assert.Less(t, washed.Value(WashPotash), 0.02*1000*s.Value(MixPotash))
	}
}

// TestAlkalineCells: lye and no chloride, no can and no rod to keep, the gel left out.
func TestAlkalineCells(t *testing.T) {
	b, s := run(t, "cell.kind=alkaline")
	assert.Zero(t, s.Value(CanZinc))
	assert.Zero(t, s.Value(RodCarbon))
	assert.Zero(t, s.Value(WashChloride)+s.Value(WashBound)+s.Value(ProductChloride)+s.Value(ProductAmmonium))
	assert.Positive(t, b.Book().Amount(ledger.Tray, ZincOxide), "most spent zinc stays in the gel")
	zinc := func(gel string) float64 {
		_, s := run(t, "cell.kind=alkaline", "mix.gel="+gel)
		return s.Value(ProductZinc)
	}
	assert.Greater(t, zinc("100"), 4*zinc("10"))
	assert.Zero(t, zinc("0"))
	_, zincCarbon := run(t)
	assert.Equal(t, NoPotash, zincCarbon.Reason(MixPotash))

	near(t, s.Value(WashLye)/2/mass(Potash)*1000, s.Value(WasteAcid), 1e-9, "half a mole of acid to a mole of lye")
	near(t, s.Value(MixPotash), s.Value(WashLye)+s.Value(WashPotash)/1000, 1e-9, "what is not in the liquor is in the cake")

	// Acid short, the potash takes gas: half of what it is, a mole to a mole.
	_, bare := run(t, "cell.kind=alkaline", "wash.soak=0", "wash.times=0", "slurry.acid=0")
	assert.Positive(t, bare.Value(ProductPotassium))
	assert.Positive(t, bare.Value(AcidSaves))
}

func TestAlkalineIsNeverMixed(t *testing.T) {
	problems := Check(planOf(t, "cell.2.count=3", "cell.2.kind=alkaline"))
	require.Len(t, problems, 1)
	assert.Equal(t, []string{"cell.2.kind", "cell.kind"}, problems[0].Keys)
	assert.Contains(t, problems[0].Message, "never go into one batch")
	assert.Empty(t, Check(planOf(t, "cell.2.count=3", "cell.2.kind=alkaline", "cell.kind=alkaline")))
	assert.Empty(t, Check(planOf(t, "cell.2.count=3", "cell.2.kind=alkaline", "cell.2.rejects=3")), "those that stay shut do not mix")
	assert.Empty(t, Check(planOf(t, "cell.2.count=3", "cell.2.kind=zincchloride")))
	p := NewPlan()
	assert.False(t, Alkaline(&p), "off by default")
}

func TestWeighingTellsAlkaline(t *testing.T) {
	for name, c := range map[string]struct {
		words    string
		due, not []string
	}{
		"likely alkaline":    {"is likely alkaline", []string{"cell.weight=69"}, []string{"cell.weight=46"}},
		"likely zinc-carbon": {"is likely zinc-carbon", []string{"cell.kind=alkaline", "cell.weight=46"}, []string{"cell.kind=alkaline", "cell.weight=69"}},
		"neither":            {"fits neither kind", []string{"cell.weight=55"}, nil},
		"a block":            {"A 6F22 of 45", []string{"cell.size=6F22", "cell.weight=45"}, []string{"cell.size=6F22", "cell.weight=36"}},
		"another row":        {"An R6 of 24", []string{"cell.2.count=4", "cell.2.size=R6", "cell.2.weight=24"}, []string{"cell.2.count=4", "cell.2.size=R6", "cell.2.weight=20"}},
	} {
		_, due := notice(t, c.words, c.due...)
		assert.True(t, due, name)
		_, due = notice(t, c.words, c.not...)
		assert.False(t, due, name)
	}
	_, light := run(t, "cell.weight=46")
	_, none := run(t)
	assert.Equal(t, none.Value(ProductMass), light.Value(ProductMass), "it tells the kind and nothing else")
}

// TestSizesAreCalledByTheirKind: an alkaline cell has an L in its mark (IEC 60086-1, from
// memory), whichever row it stands in; other options are called the same in every plan.
func TestSizesAreCalledByTheirKind(t *testing.T) {
	name := func(p *Plan, key, word string) string {
		in := input(t, key)
		for i, o := range in.Options {
			if o.Word == word {
				return in.OptionName(p, i)
			}
		}
		t.Fatalf("%s offers no %s", key, word)
		return ""
	}
	p := planOf(t, "cell.2.count=2", "cell.2.kind=alkaline")
	assert.Equal(t, "R14 (C)", name(p, "cell.size", "R14"))
	assert.Equal(t, "LR14 (C)", name(p, "cell.2.size", "R14"))
	assert.Equal(t, "6LF22 (9 V block)", name(p, "cell.2.size", "6F22"))
	for _, p := range []*Plan{p, planOf(t)} {
		assert.Equal(t, "boiled down and dried", name(p, "dry.way", "dry"))
	}
}

// TestThreefoldPrice: wholly spent oxide without dithionate takes three times the gas
// when no dilute acid goes in (2 MnOOH + 3 SO2 for 2 MnOOH + SO2 + H2SO4), and leaves
// the sulfite that boiling makes of it.
func TestThreefoldPrice(t *testing.T) {
	spent := []string{
		"cell.charge=0", "cell.aged=0", "cell.deep=0", "mix.ammonium=0", "mix.zinc=0", "wash.times=0", "slurry.dithionate=0", "slurry.split=0",
		"gas.purge=0", "slurry.reach=100", "loss.transfer=0", "wash.acid=0",
	}
	// Zinc chloride would take acid too; what zinc oxide takes is taken off.
	b, s := run(t, spent...)
	zinc := float64(b.Book().Element(ledger.Reserve, Zn)) / 3 * 1000 // a quarter is in the batch
	near(t, 3*s.Value(DemandGas)+2*zinc, s.Value(DemandBare), 1e-9, "the bill of gas without acid")
	near(t, s.Value(DemandBare)/s.Value(DemandGas), s.Value(DemandTimes), 1e-12, "and so many times")
	assert.Greater(t, s.Value(DemandTimes), 3.0)
	_, none := run(t, with(pureDioxide)...)
	near(t, 1, none.Value(DemandTimes), 1e-9, "fresh oxide asks for no acid")

	_, with0 := run(t, "slurry.acid=0", "gas.excess=200")
	_, with1 := run(t)
	assert.Positive(t, with0.Value(SlurrySulfite))
	assert.Positive(t, with0.Value(ProductSulfite))
	assert.Zero(t, with1.Value(SlurrySulfite))
	assert.Zero(t, with1.Value(ProductSulfite))
}

// TestRecrystallise: C7 and C8, manganese sulfate saturated at 25 °C with 100 g of
// water, by the hydrate that forms at the temperature of growing.
func TestRecrystallise(t *testing.T) {
	salt := 63.67 / mass(ManganeseSulfate)
	for _, r := range tabletest.Rows(t, "crops") {
		at, ok := map[string]quantity.Celsius{"C7.100": 100, "C7.80": 80, "C8.0": 0, "C8.10.penta": 10}[r.Check()]
		if !ok {
			continue
		}
		got, err := Recrystallise(salt, 25, at, 1)
		require.NoError(t, err)
		near(t, 100, got.Water, 1e-9, "water")
		r.Meets(t, got.Crop*(mass(ManganeseSulfate)+got.Waters*mass(Water)))
	}
	hot, err := Recrystallise(salt, 25, 100, 1.0/3)
	require.NoError(t, err)
	cold, err := Recrystallise(salt, 25, 15, 1)
	require.NoError(t, err)
	assert.Equal(t, 1.0, hot.Waters, "hot it is the monohydrate")
	assert.Equal(t, 5.0, cold.Waters)
	near(t, 100.0/3-hot.Crop*mass(Water), hot.Liquor, 1e-9, "what the crystals did not take of the water")
	near(t, 100-5*cold.Crop*mass(Water), cold.Liquor, 1e-9, "what the crystals did not take of the water")
	assert.Greater(t, hot.Crop, 5*cold.Crop, "chilling it gives next to nothing: it is retrograde")
	_, err = Recrystallise(salt, 25, 120, 1)
	assert.Error(t, err, "outside the table")
}

// asIs computes a plan as it stands.
func asIs(p *Plan) Plan { return *p }

func TestPurify(t *testing.T) {
	q, ok := Purify(planOf(t), asIs)
	require.True(t, ok)
	of := func(r *Jar, name string) float64 {
		for i, c := range q.Companions {
			if c == name {
				return r.Left[i]
			}
		}
		t.Fatal(name)
		return 0
	}
	step := map[string]*Jar{}
	for i := range q.Steps {
		step[q.Steps[i].Key] = &q.Steps[i]
	}
	_, s := run(t)
	near(t, s.Value(ProductPurity), q.Now.Purity, 1e-9, "the plan as it is")
	near(t, s.Value(ProductMass), q.Now.Product, 1e-12, "the plan as it is")
	near(t, 100, q.Now.Keeps, 1e-12, "the plan as it is")
	near(t, 100*s.Value(ProductDithionate)/(float64(jarSalt(t))*mass(ManganeseSulfate)), of(&q.Now, "dithionate"), 1e-9, "to 100 g of salt")
	less := func(key, name string, share float64) {
		assert.Less(t, of(step[key], name), share*of(&q.Now, name), "%s of %s", key, name)
	}
	less("rinse", "zinc salts", 0.5)
	less("rinse", "ammonium salts", 0.5)
	less("warm", "dithionate", 0.5)
	less("bake", "dithionate", 0.001)
	less("glow", "ammonium salts", 0.001)
	less("hot", "dithionate", 0.5)
	less("hot", "chloride, as the ion", 0.5)
	even, ok := Purify(planOf(t, "crop.taken=100"), asIs)
	require.True(t, ok)
	for _, s := range even.Steps {
		if s.Key == "cold" || s.Key == "hot" {
			for _, name := range []string{"zinc salts", "ammonium salts"} {
				near(t, of(&q.Now, name), of(&s, name), 1e-9, "no recrystallising takes it out where all of it grows in: "+name)
				less(s.Key, name, 0.9)
			}
		}
	}
	assert.Contains(t, step["cold"].How, "pentahydrate")
	assert.Contains(t, step["hot"].How, "monohydrate")
	assert.Greater(t, step["hot"].Keeps, step["cold"].Keeps)
	remains := q.Remains()
	require.NotEmpty(t, remains)
	assert.Equal(t, "zinc salts", remains[0].Name, "that of the hetaerolite dissolves with the oxide")
	assert.Greater(t, q.All.Purity, q.Now.Purity)

	_, ok = Purify(planOf(t, "cell.rejects=6"), asIs)
	assert.False(t, ok)
}

// TestPurifyOffersWhatIsStillOpen: a step that the plan takes already is not offered.
func TestPurifyOffersWhatIsStillOpen(t *testing.T) {
	how := func(key string, entries ...string) string {
		q, ok := Purify(planOf(t, entries...), asIs)
		require.True(t, ok)
		for _, s := range q.Steps {
			if s.Key == key {
				return strings.ReplaceAll(s.How, thin, " ")
			}
		}
		return ""
	}
	_, s := run(t)
	rinse, enough := Plain(s.Value(WashAcidNeeded)), s.Value(WashEnough)
	require.Greater(t, enough, 4.0)
	for _, c := range []struct{ key, want, entries string }{
		{"wash", Print(enough, "") + " in place of 4", ""},
		{"wash", "", "wash.times=" + Plain(enough)},
		{"wash", "", "wash.times=" + Plain(enough+1)},
		{"wash", "40 in place of 20", "wash.times=20 wash.mixing=1"}, // never enough: twice as many
		{"wash", "50 in place of 30", "wash.times=30 wash.mixing=1"}, // the most that may be given
		{"wash", "6 in place of 3", "wash.times=3 cell.kind=alkaline"},
		{"rinse", Print(s.Value(WashAcidNeeded), "mL") + " of dilute acid", ""},
		{"rinse", "", "wash.acid=" + rinse},
		{"warm", "at 60 °C", "slurry.temperature=59"},
		{"warm", "", "slurry.temperature=60"},
		{"bake", "at 270 °C", "dry.temperature=269"},
		{"bake", "", "dry.temperature=270"},
		{"glow", "at 460 °C", "dry.temperature=459"},
		{"glow", "", "dry.temperature=460"},
		{"glow", "", "dry.way=crystals"},
	} {
		assert.Equal(t, strings.ReplaceAll(c.want, thin, " "), how(c.key, strings.Fields(c.entries)...), "%s with %q", c.key, c.entries)
	}
}

// TestRecrystallisedCrystalsHoldLiquor: so much to a gram as the plan says, at most all of
// it, with its share of the salt that did not grow and of what is only dissolved in it.
func TestRecrystallisedCrystalsHoldLiquor(t *testing.T) {
	const chloride = "chloride, as the ion"
	for _, held := range []float64{0, 0.1, 0.3, 2} {
		for _, way := range []struct {
			key   string
			grown quantity.Celsius
			left  float64
		}{{"cold", 15, 1}, {"hot", 100, 1.0 / 3}} {
			entry := fmt.Sprintf("crop.held=%g", held)
			bare := "crop.taken=0"
			q, ok := Purify(planOf(t, entry, bare), asIs)
			require.True(t, ok)
			b, _ := run(t, entry)
			salt := float64(b.Book().Amount(ledger.ProductJar, ManganeseSulfate))
			r, err := Recrystallise(salt, 25, way.grown, way.left)
			require.NoError(t, err)
			hydrate := mass(ManganeseSulfate) + r.Waters*mass(Water)
			share := math.Min(1, held*r.Crop*hydrate/r.Liquor)
			kept := r.Crop + share*(salt-r.Crop)
			for _, step := range q.Steps {
				if step.Key != way.key {
					continue
				}
				near(t, 100*kept/salt, step.Keeps, 1e-9, "salt")
				near(t, kept*hydrate, step.Product*step.Purity/100, 1e-9, "salt with its water")
				others := 0.0
				for i, name := range q.Companions {
					if name == chloride {
						near(t, share*q.Now.Left[i]*salt/kept, step.Left[i], 1e-9, name)
						continue // counted with its salts
					}
					others += step.Left[i] / 100 * kept * mass(ManganeseSulfate)
				}
				near(t, kept*hydrate+others, step.Product, 1e-9, "all that is weighed")
			}
		}
	}
}

// TestRecrystallisedToASolidDish: where zinc in the crystals binds all water, all that the jar
// held stays in it.
func TestRecrystallisedToASolidDish(t *testing.T) {
	p := planOf(t, "crop.cold=5", "crop.taken=100", "crop.held=0")
	j := jarful{salt: 0.1, grams: [len(companions)]float64{0: 0.1 * mass(ZincSulfate), 3: 2}}
	assert.Equal(t, ProductZinc, companions[0].id)
	assert.Equal(t, ProductDithionate, companions[3].id)
	out := j.recrystallise(p, p.CropCold, 1)
	near(t, j.salt, out.salt, 1e-9, "salt")
	near(t, 2, out.grams[3], 1e-9, "dithionate")
	near(t, j.grams[0], out.grams[0], 1e-9, "zinc")
	j.grams[0] = 0
	assert.Zero(t, j.recrystallise(p, p.CropCold, 1).grams[3], "with liquor to drain, it is gone")
}

func jarSalt(t *testing.T) quantity.Mole {
	b, _ := run(t)
	return b.Book().Amount(ledger.ProductJar, ManganeseSulfate)
}

// TestAnyPurity: no share is below nothing, and none of the steps gives manganese that
// was not there.
func TestAnyPurity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		q, ok := Purify(p, asIs)
		if !ok {
			return
		}
		for _, r := range append(q.Steps, q.Now, q.All) {
			empty := r.Product == 0 // then there is nothing to take a share of
			if !(r.Product >= 0) || empty != math.IsNaN(r.Purity) || !empty && !(r.Purity >= 0 && r.Purity <= 100) || !(r.Keeps >= 0) {
				t.Fatalf("%s: %v%% of %v g\nplan:%s", r.Key, r.Purity, r.Product, link(p))
			}
			for i, left := range r.Left {
				if none := !(r.Purity > 0); none != math.IsNaN(left) || left < 0 { // no salt, nothing to 100 g of it
					t.Fatalf("%s: %v of %s\nplan:%s", r.Key, left, q.Companions[i], link(p))
				}
			}
			if (r.Key == "cold" || r.Key == "hot") && r.Keeps > 100*(1+tiny) {
				t.Fatalf("%s keeps %v%%\nplan:%s", r.Key, r.Keeps, link(p))
			}
		}
	})
}

// TestAlongTemperature: the gas bill falls as the slurry warms, where the uptake is given,
// and the anchors are what print says: in ice 35 to 75 %, hot a few percent at most.
func TestAlongTemperature(t *testing.T) {
	free := AlongTemperature(planOf(t), []float64{20, 90})
	assert.Greater(t, free[1].Gas, free[0].Gas, "hot slurry takes gas up so badly that more has to be made")
	p := planOf(t, "gas.uptake=80")
	list := AlongTemperature(p, []float64{0, 20, 50, 90})
	require.Len(t, list, 4)
	_, s := run(t, "gas.uptake=80")
	near(t, s.Value(GasNeeded), list[1].Gas*1000/s.Value(GasVolume)*s.Value(GasMade)/1000, 1e-9, "the plan's own")
	near(t, s.Value(ProductMass), list[1].Product, 1e-12, "the plan's own")
	for i := 1; i < len(list); i++ {
		assert.Less(t, list[i].Gas, list[i-1].Gas)
		assert.Less(t, list[i].Dissolves, list[i-1].Dissolves, "water holds less")
		assert.Greater(t, list[i].Purity, list[i-1].Purity)
	}
	ends := Anchors(p)
	require.Len(t, ends, 2)
	assert.Equal(t, 35.0, ends[0].Low.Dithionate)
	assert.Equal(t, 75.0, ends[0].High.Dithionate)
	assert.LessOrEqual(t, ends[1].High.Dithionate, 3.0)
	for i, end := range ends {
		here := AlongTemperature(p, []float64{end.Low.Celsius})[0]
		assert.LessOrEqual(t, end.Low.Gas, here.Gas, i)
		assert.GreaterOrEqual(t, end.High.Gas, here.Gas, i)
	}
	given := AlongTemperature(planOf(t, "slurry.dithionate=0"), []float64{20})
	assert.Equal(t, 35.0, given[0].Dithionate, "what the plan gives does not flatten it")
	assert.Empty(t, AlongTemperature(planOf(t, "gas.source=peroxide"), []float64{20}))
	assert.Empty(t, Anchors(planOf(t, "gas.source=oxalic")))
	assert.Len(t, AlongTemperature(planOf(t, "gas.source=slurrysalt"), []float64{20}), 1)
}

// TestPeroxideAtItsBest: the charge of peroxide that is proposed, without its excess, is the
// least that gives the best yield.
func TestPeroxideAtItsBest(t *testing.T) {
	for _, base := range [][]string{nil, {"peroxide.lost=60"}, {"slurry.reach=80", "loss.transfer=10"}, {"cell.kind=zincchloride"}, {"slurry.split=0"}} {
		base = with([]string{"gas.source=peroxide", "batch.share=100", "slurry.beaker=50000"}, base...)
		_, s := run(t, with(base, "stir.excess=0")...)
		best, needed := s.Value(ReduceConversion), s.Value(PeroxideNeeded)
		_, with30 := run(t, with(base, "stir.excess=30")...)
		near(t, 1.3*needed, with30.Value(PeroxideNeeded), 1e-9, "with its excess")
		for _, of := range []float64{0.5, 0.9, 0.98, 1.02, 1.5} {
			_, other := run(t, with(base, fmt.Sprintf("peroxide.charge=%.12g", needed*of))...)
			if of < 1 {
				assert.Less(t, other.Value(ReduceConversion), best-1e-6, "%v of the charge with %v", of, base)
			} else {
				near(t, best, other.Value(ReduceConversion), 1e-9, "no more")
			}
		}
	}
}

// TestOxalicAtItsBest: the charge of oxalic acid that is proposed gives the best yield.
func TestOxalicAtItsBest(t *testing.T) {
	for _, base := range [][]string{nil, {"oxalic.done=65"}, {"slurry.reach=80", "loss.transfer=10"}, {"cell.kind=zincchloride"}, {"slurry.split=0"}} {
		base = with([]string{"gas.source=oxalic", "batch.share=100", "slurry.beaker=50000"}, base...)
		_, s := run(t, base...)
		best := s.Value(ReduceConversion)
		require.Equal(t, s.Value(OxalicNeeded), s.Value(OxalicUsed))
		for _, of := range []float64{0.5, 0.9, 0.98, 1.02, 1.1, 1.5} {
			_, other := run(t, with(base, fmt.Sprintf("oxalic.charge=%.12g", s.Value(OxalicNeeded)*of))...)
			assert.Less(t, other.Value(ReduceConversion), best, "%v of the charge with %v", of, base)
		}
	}
}
