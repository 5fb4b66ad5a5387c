package route

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/ledger"
	. "rosesalt/chem/reaction"
)

// rusty is a plan with all manganese as dioxide, gas enough, iron that all dissolves, and
// nothing lost.
var rusty = []string{
	"cell.charge=100", "mix.iron=10", "iron.dissolves=100", "slurry.reach=100", "loss.transfer=0", "slurry.acid=500",
	"slurry.dithionate=0", "wash.soak=5000", "wash.each=5000",
}

// TestIronBalance: of a plan's iron nothing is lost, and the mix holds what its gangue says:
// 10 % of 15 % of 87 g to 100 g of oxide and carbon.
func TestIronBalance(t *testing.T) {
	b, s := run(t, rusty...)
	book := b.Book()
	in, _ := book.Balance(Fe)
	dioxide, _ := book.Balance(Mn)
	near(t, 87*0.15*0.10/55.845, float64(in)*87*0.85/86.936/float64(dioxide), 1e-4, "iron to 100 g")
	assert.Positive(t, s.Value(ProductIron))
	for _, no := range []string{"mix.iron=0", "mix.inert=0"} {
		b, s = run(t, with(rusty, no)...)
		in, _ = b.Book().Balance(Fe)
		assert.Zero(t, float64(in), no)
		assert.Zero(t, s.Value(ProductIron), no)
		assert.Equal(t, "stays clear", s.Word(SpotIron), no)
	}
}

// TestIronAfterTheManganese: while oxide in reach is left there is no iron(II); gas that is
// left reduces all that dissolves, one mole to two; without gas it is iron(III), which takes
// one and a half acid each. Without acid it stays in the cake.
func TestIronAfterTheManganese(t *testing.T) {
	in := func(b *Runner, v ledger.Vessel, sub Substance) float64 { return float64(b.Book().Amount(v, sub)) }
	b, s := run(t, rusty...)
	iron, _ := b.Book().Balance(Fe)
	part := float64(iron) / 4 // a quarter of the cake is worked
	require.Positive(t, s.Value(UptakeDissolved))
	near(t, part, in(b, ledger.ProductJar, FerrousSulfate)+in(b, ledger.Residue, FerrousSulfate), 1e-9, "all as iron(II)")
	assert.Zero(t, in(b, ledger.ProductJar, FerricSulfate))

	b, s = run(t, with(rusty, "gas.copper=2")...)
	require.Greater(t, s.Value(ReduceLeft), 1.0)
	assert.Zero(t, in(b, ledger.ProductJar, FerrousSulfate))
	assert.Positive(t, in(b, ledger.ProductJar, FerricSulfate))

	b, _ = run(t, with(rusty, "gas.source=peroxide")...)
	near(t, part, 2*(in(b, ledger.ProductJar, FerricSulfate)+in(b, ledger.Residue, FerricSulfate)), 1e-9, "all as iron(III)")

	b, s = run(t, with(rusty, "slurry.acid=0")...)
	near(t, part, in(b, ledger.Residue, IronHydroxide), 1e-9, "rust stays without acid")
	assert.Zero(t, s.Value(ProductIron))
}

// TestIronThrownDown: the cake kept back turns iron(II) over, soda takes the acid up, and the
// filtrate holds neither iron nor acid; where too little is kept back iron(II) stays.
func TestIronThrownDown(t *testing.T) {
	for _, way := range []string{"copper", "slurrysalt", "peroxide"} {
		plan := with(rusty, "gas.source="+way, "iron.way=thrown")
		b, s := run(t, with(plan, "iron.kept=5")...)
		book := b.Book()
		assert.Zero(t, s.Value(FiltrateIron), way)
		assert.Zero(t, s.Value(ProductIron), way)
		assert.Zero(t, s.Value(ProductAcid), way)
		assert.Equal(t, "stays clear", s.Word(SpotIron), way)
		iron, _ := book.Balance(Fe)
		near(t, float64(iron)/4, float64(book.Amount(ledger.Residue, IronHydroxide)), 1e-9, "iron in the residue, "+way)
		brought, _ := book.Balance(Na)
		if way != "slurrysalt" {
			near(t, float64(brought)/2, (s.Value(IronSoda)+s.Value(ScrubAdvised))/mass(SodiumCarbonate), 1e-9, "soda, "+way)
		}
		near(t, s.Value(ProductMass), float64(book.TotalMass(ledger.ProductJar)), 1e-12, "the jar, "+way)
	}
	b, _ := run(t, "mix.inert=60", "mix.iron=60", "wash.held=0.05", "wash.mixing=1", "wash.acid=1e6", "slurry.water=0", "slurry.acid=0", "iron.way=thrown", "iron.kept=50")
	assert.LessOrEqual(t, float64(b.Book().Amount(ledger.ProductJar, FerricSulfate)), nothing, "a slurry that is all but dry: what falls needs water, and soda on acid makes some")
	_, some := run(t, with(rusty, "iron.way=thrown", "iron.kept=0")...)
	assert.Positive(t, some.Value(ProductIron), "nothing was kept back")
	assert.Equal(t, "turns red", some.Word(SpotIron))
	_, left := run(t, rusty...)
	near(t, left.Value(ProductIron), some.Value(ProductIron), 1e-3, "soda alone leaves iron(II); it makes a little water")
	assert.Equal(t, IronLeftIn, left.Reason(IronSoda))
}

// TestAnyIronThrownDownLeavesNone: iron(III) never goes on from such a step, nor free acid;
// and no plan holds more iron in the jar than one that leaves it.
func TestAnyIronThrownDownLeavesNone(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.IronWay = IronThrownDown
		b.Run(p)
		booksClose(t, p, &b)
		for _, v := range []ledger.Vessel{ledger.ProductJar, ledger.MotherLiquor, ledger.Losses} {
			if n := float64(b.Book().Amount(v, FerricSulfate)); v != ledger.Losses && n > nothing {
				t.Fatalf("%v mol of iron(III) in the %v\nplan:%s", n, v, link(p))
			}
		}
		iron, all := b.Book().Balance(Fe)
		if math.Abs(float64(iron-all)) > tiny*float64(iron)+nothing {
			t.Fatalf("%v of iron in, %v out\nplan:%s", iron, all, link(p))
		}
	})
}

// TestIronInTheRinse: an acid rinse takes iron only with acid that zinc salts and spent oxide
// leave, and the wash liquor asks for soda for it.
func TestIronInTheRinse(t *testing.T) {
	b, s := run(t, "wash.acid=100", "iron.dissolves=100", "mix.iron=10")
	assert.Zero(t, float64(b.Book().Amount(ledger.WashLiquor, FerricSulfate)), "all of it goes to zinc")
	require.Less(t, 100.0, s.Value(WashAcidNeeded))
	b, s = run(t, "wash.acid=1000", "wash.split=0", "iron.dissolves=100", "mix.iron=10")
	rust := float64(b.Book().Amount(ledger.WashLiquor, FerricSulfate))
	require.Positive(t, rust)
	iron, _ := b.Book().Balance(Fe)
	near(t, s.Value(WashAcidNeeded)+1.5*float64(iron)*1000, s.Value(WashSpent), 1e-9, "three acid to two iron")
}

// TestSpentOxideTurnsIronToo: where the cake that is kept back has no dioxide, its MnOOH turns
// iron(II) over, one to one.
func TestSpentOxideTurnsIronToo(t *testing.T) {
	spent := with(rusty, "cell.charge=0", "cell.aged=0", "slurry.split=0", "mix.iron=2", "iron.way=thrown")
	b, s := run(t, with(spent, "iron.kept=5")...)
	require.Zero(t, float64(b.Book().Amount(ledger.Reserve, ManganeseDioxide)))
	assert.Zero(t, s.Value(FiltrateIron))
	_, s = run(t, with(spent, "iron.kept=0")...)
	assert.Positive(t, s.Value(FiltrateIron))
}

// TestIronOfTheRinseIsReduced: what iron(III) the cake's liquor brings along, gas that is left
// reduces like the rest.
func TestIronOfTheRinseIsReduced(t *testing.T) {
	b, s := run(t, with(rusty, "wash.acid=1000", "wash.split=0", "wash.each=10", "wash.mixing=50")...)
	require.Positive(t, float64(b.Book().Amount(ledger.Reserve, FerricSulfate)))
	require.Positive(t, s.Value(UptakeDissolved))
	assert.Positive(t, float64(b.Book().Amount(ledger.ProductJar, FerrousSulfate)))
	assert.Zero(t, float64(b.Book().Amount(ledger.ProductJar, FerricSulfate)))
}

// TestCakeKeptBackTakesAcid: its zinc salts are bases, and take acid before soda does.
func TestCakeKeptBackTakesAcid(t *testing.T) {
	b, s := run(t, "slurry.acid=400", "iron.way=thrown", "iron.kept=10")
	require.Positive(t, s.Value(IronSoda), "acid is left after them")
	require.Positive(t, float64(b.Book().Amount(ledger.Reserve, BasicZincChloride)))
	for _, base := range []Substance{ZincDiammine, BasicZincChloride, ZincOxide} {
		assert.Zero(t, float64(b.Book().Amount(ledger.Residue, base)), base.Formula())
	}
}

// TestThiocyanateSeesAMilligram: a little less than one in a litre stays clear, a little more
// turns red.
func TestThiocyanateSeesAMilligram(t *testing.T) {
	for of, want := range map[float64]string{0.98: "stays clear", 1.02: "turns red"} {
		_, s := run(t, "mix.iron=0.01")
		require.Positive(t, s.Value(FiltrateIron))
		_, s = run(t, fmt.Sprintf("mix.iron=%g", 0.01*of/s.Value(FiltrateIron)))
		assert.InDelta(t, of, s.Value(FiltrateIron), 0.01)
		assert.Equal(t, want, s.Word(SpotIron))
	}
}
