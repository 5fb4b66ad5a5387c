package route

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// extents sums up how far each reaction of a stage went, in moles.
func extents(t *testing.T, stage Stage, entries ...string) map[*Equation]float64 {
	t.Helper()
	p := planOf(t, entries...)
	require.Empty(t, Check(p))
	b := Runner{Keep: true}
	b.Run(p)
	require.NoError(t, b.Err())
	sum := map[*Equation]float64{}
	for _, line := range b.Book().Bookings() {
		if line.Equation != nil && Stage(line.Stage) == stage {
			sum[line.Equation] += float64(line.Moles)
		}
	}
	return sum
}

// TestSlurryVolume: the water put in, that of the dilute acid and that which the cake
// holds, and the room of its solids. A litre of 1 mol/L acid is 9.25 % and weighs
// 1061 g (CRC Handbook, Concentrative Properties): 963 g of it are water.
func TestSlurryVolume(t *testing.T) {
	base := with(pureDioxide, "wash.held=0.05", "slurry.water=1000")
	_, none := run(t, with(base, "slurry.acid=0")...)
	near(t, 1000+none.Value(BatchDry)*(0.05+1/3.5), none.Value(SlurryVolume), 1e-9, "mL")
	_, litre := run(t, with(base, "slurry.acid=1000")...)
	near(t, 963, litre.Value(SlurryVolume)-none.Value(SlurryVolume), 1e-3, "with a litre of acid")
}

// TestShortageOfTheSalts: gas that does not even take up the zinc salts, ammonia and
// lye serves them alike: twice the gas does twice as much to each. With dioxide in reach
// that takes one mole of gas to two charges, without it two.
func TestShortageOfTheSalts(t *testing.T) {
	for _, c := range []struct {
		kind, charge string
		copper       [2]string
		want         []*Equation
	}{
		{"ammonium", "cell.charge=20", [2]string{"gas.copper=0.5", "gas.copper=1"}, []*Equation{BaseAmmonia, BaseDiammine, BaseBasic, BaseZincOxide}},
		{"alkaline", "cell.charge=20", [2]string{"gas.copper=0.25", "gas.copper=0.5"}, []*Equation{BasePotash, BaseZincOxide}},
		{"ammonium", "cell.charge=0", [2]string{"gas.copper=1", "gas.copper=2"}, []*Equation{GasAmmonia, GasDiammine, GasBasic, GasZincOxide}},
		{"alkaline", "cell.charge=0", [2]string{"gas.copper=0.5", "gas.copper=1"}, []*Equation{GasPotash, GasZincOxide}},
	} {
		base := with(spentPlan, "cell.kind="+c.kind, c.charge, "slurry.acid=0", "slurry.bases=100", "gas.acid=500", "gas.end=20", "wash.times=0", "wash.soak=100", "cell.aged=0")
		once, twice := extents(t, Slurry, with(base, c.copper[0])...), extents(t, Slurry, with(base, c.copper[1])...)
		for _, e := range c.want {
			require.Positive(t, once[e], e.String())
			near(t, 2*once[e], twice[e], 1e-9, e.String())
		}
		assert.Len(t, twice, len(c.want), "nothing else happens")
	}
}

// TestEndFirst: the oxide is used up for certain when it has had the gas for what can
// be reached of it and got into the slurry.
func TestEndFirst(t *testing.T) {
	for _, c := range []struct {
		entries []string
		want    float64
	}{{nil, 100}, {[]string{"slurry.reach=80"}, 80}, {[]string{"slurry.reach=80", "loss.transfer=10"}, 72}} {
		_, s := run(t, with(pureDioxide, c.entries...)...)
		near(t, c.want, s.Value(EndFirst), 1e-9, "percent of the demand")
	}
}

// TestCut leaves a share of what is stirred in, where it is given, and no less than
// may be set; gas and what is left blank stay.
func TestCut(t *testing.T) {
	for source, key := range map[string]string{"slurrysalt": "salt.charge", "peroxide": "peroxide.charge", "oxalic": "oxalic.charge"} {
		p := planOf(t, "gas.source="+source, key+"=80")
		CutCharge(p, 0.25)
		assert.Equal(t, 20.0, input(t, key).Value(p), source)
		CutCharge(p, 1e-9)
		assert.InDelta(t, input(t, key).Min, input(t, key).Value(p), 1e-6, source)
		p = planOf(t, "gas.source="+source)
		before := *p
		CutCharge(p, 0.25)
		assert.Equal(t, link(&before), link(p), "blank stays blank")
	}
	p := planOf(t, "gas.copper=20", "peroxide.charge=80")
	before := *p
	CutCharge(p, 0.25)
	assert.Equal(t, link(&before), link(p), "gas is not cut")
}

// TestChargeOf gives back the charge that an assay was made from, and nothing where
// there is no assay or no cell.
func TestChargeOf(t *testing.T) {
	_, s := run(t, "cell.charge=37")
	p := planOf(t, fmt.Sprintf("mix.assay=%.15g", s.Value(MixAssay)))
	assert.InDelta(t, 0.37, ChargeOf(p), 1e-9)
	assert.False(t, quantity.Given(ChargeOf(planOf(t))))
	p.Rows[0].Rejects = p.Rows[0].Count
	assert.False(t, quantity.Given(ChargeOf(p)))
}

// TestRoot: smooth functions take few steps, as do those that stand still over most of
// the interval; a jump takes three to a halving at most.
func TestRoot(t *testing.T) {
	steps := 0
	count := func(f func(float64) float64) func(float64) float64 {
		steps = 0
		return func(x float64) float64 { steps++; return f(x) }
	}
	find := func(f func(float64) float64, low, high float64) float64 {
		return root(count(f), low, f(low), high, f(high), 1e-13)
	}
	assert.InDelta(t, math.Sqrt2, find(func(x float64) float64 { return x*x - 2 }, 0, 2), 1e-12)
	assert.LessOrEqual(t, steps, 16)
	assert.InDelta(t, math.Ln2, find(func(x float64) float64 { return math.Exp(x) - 2 }, 0, 5), 1e-12)
	assert.LessOrEqual(t, steps, 24)
	assert.InDelta(t, 3*math.Pi/4, find(func(x float64) float64 { return -math.Sin(x) - math.Cos(x) + x - 3*math.Pi/4 }, 0, 3), 1e-12)
	assert.LessOrEqual(t, steps, 7)
	assert.InDelta(t, 0.9995, find(func(x float64) float64 { return math.Max(-1, 2000*(x-0.9995)) }, 0, 1), 1e-12)
	assert.LessOrEqual(t, steps, 10)
	assert.InDelta(t, 0.0005, find(func(x float64) float64 { return math.Min(1, 2000*(x-0.0005)) }, 0, 1), 1e-12)
	assert.LessOrEqual(t, steps, 10)
	// A step: the place of the jump, to the last digits.
	assert.InEpsilon(t, 0.3, find(func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1), 2e-15)
	assert.Less(t, steps, 100, "and ends when they are met")
	// A jump so lopsided that only the halvings find it, and so near to the end that fifty
	// of them leave its last digits open: between the last two points that were tried.
	low, high := 0.0, 1.0
	last := find(func(x float64) float64 {
		if x < 1e-6 {
			low = math.Max(low, x)
			return -1
		}
		high = math.Min(high, x)
		return 1e30
	}, 0, 1)
	assert.Equal(t, 150, steps, "it gives up")
	assert.InDelta(t, 1e-6, last, 1e-15)
	assert.True(t, low < last && last < high, "%v in %v to %v", last, low, high)
}

func TestThingsAreCounted(t *testing.T) {
	assert.Equal(t, "1 wash", Count(1, "wash", "washes"))
	assert.Equal(t, "12 washes", Count(12, "wash", "washes"))
	assert.Equal(t, "0 cells", Count(0, "cell"))
	n, ok := notice(t, "The last wash still shows", "wash.times=0", "wash.each=5000", "wash.target=900")
	if assert.True(t, ok) {
		assert.Contains(t, n.Text, " 1 wash of this size")
	}
	p := planOf(t, "cell.count=1", "cell.rejects=2")
	require.Len(t, Check(p), 1)
	assert.Contains(t, Check(p)[0].Message, "2 rejects are more than the 1 cell of this type")
}

func TestPrintAtTheEdges(t *testing.T) {
	for v, want := range map[float64]string{9.95: "10", 999.5: "1000", 1e-10: "0", -1e-10: "0", 0.005: "0.0050", 4: "4", 99999: "100\u202f000", 1e-9: "0.0000000010"} {
		assert.Equal(t, want, Print(v, ""), "%g", v)
	}
	for _, c := range []struct {
		v          float64
		unit, want string
	}{
		{999.9, "mmol", "1000\u202fmmol"},
		{1000, "mmol", "1\u202fmol"},
		{-2500, "mL", "−2.5\u202fL"},
		{1234, "mg", "1.2\u202fg"},
		{1234, "g", "1.2\u202fkg"},
		{1234, "kJ", "1.2\u202fMJ"},
		{1234, "K", "1230\u202fK"},
	} {
		assert.Equal(t, c.want, Print(c.v, c.unit), "%g %s", c.v, c.unit)
		number, unit := PrintParts(c.v, c.unit)
		assert.Equal(t, c.want, number+"\u202f"+unit)
	}
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{1234.5, 1, "1234.5"},
		{12345.67, 2, "12\u202f345.67"},
		{1234567, 0, "1\u202f234\u202f567"},
		{-0.04, 1, "0.0"},
		{-0.05, 2, "−0.05"},
		{0, 2, "0.00"},
		{7, -3, "7"},
		{-12345, 0, "−12\u202f345"},
		{12345.6, -1, "12\u202f346"},
	} {
		assert.Equal(t, c.want, Fixed(c.v, c.decimals), "%g", c.v)
	}
	for v, want := range map[float64]string{1e6: "1000000", 0.1: "0.1", -2.50: "-2.5", 1e-7: "0.0000001"} {
		assert.Equal(t, want, Plain(v))
	}
	for _, c := range []struct {
		v, factor float64
		unit, in  string
	}{{1000, 0.001, "mL", "L"}, {-1000, 0.001, "g", "kg"}, {999, 1, "mL", "mL"}, {5000, 1, "K", "K"}} {
		factor, in := Scale(c.v, c.unit)
		assert.Equal(t, c.factor, factor)
		assert.Equal(t, c.in, in)
	}
}

// TestAnyMixIsWhatWasMovedToIt: what is told of the opened cells is what the ledger
// moved to the basin and the tray.
func TestAnyMixIsWhatWasMovedToIt(t *testing.T) {
	b := Runner{Keep: true}
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		s := b.Run(p)
		var weight, manganese, oxide, hetaerolite, cans, rods, potash float64
		for _, line := range b.Book().Bookings() {
			if Stage(line.Stage) != Cells {
				continue
			}
			n, sub := float64(line.Moles), line.Substance
			switch {
			case line.Kind == ledger.Moved && line.To == ledger.Mix:
				weight += n * mass(sub)
				manganese += n * sub.Atoms(Mn)
				switch sub {
				case ManganeseDioxide:
					oxide += n
				case Manganite:
					oxide += n / 2
				case Hetaerolite: // two manganese(III)
					oxide += n
					hetaerolite += n * mass(sub)
				case Hausmannite: // likewise
					oxide += n
				case Potash:
					potash += n * mass(sub)
				}
			case line.To == ledger.Tray && sub == Zinc:
				cans += n * mass(sub)
			case line.To == ledger.Tray && sub == Carbon:
				rods += n * mass(sub)
			}
		}
		for id, want := range map[FigureID]float64{
			MixMass: weight, MixManganese: manganese * 1000, MixOxide: oxide * mass(ManganeseDioxide),
			MixHetaerolite: hetaerolite, CanZinc: cans, RodCarbon: rods,
		} {
			if have := s.Value(id); math.Abs(have-want) > tiny*(1+want) {
				t.Fatalf("%s is %v, the ledger says %v\nplan:%s", id.Info().Key, have, want, link(p))
			}
		}
		if have := s.Value(MixPotash); s.Reason(MixPotash) == Defined && math.Abs(have-potash) > tiny*(1+potash) {
			t.Fatalf("%v g of potash told, %v on the ledger\nplan:%s", have, potash, link(p))
		}
	})
}

// TestAlkalineGoesByWhatIsOpened, whichever row it stands in; where all stay shut, by
// the first.
func TestAlkalineGoesByWhatIsOpened(t *testing.T) {
	for _, c := range []struct {
		entries []string
		want    bool
	}{
		{nil, false},
		{[]string{"cell.kind=alkaline"}, true},
		{[]string{"cell.rejects=6", "cell.2.count=3", "cell.2.kind=alkaline"}, true},
		{[]string{"cell.kind=alkaline", "cell.rejects=6", "cell.2.count=3", "cell.2.kind=ammonium"}, false},
		{[]string{"cell.kind=alkaline", "cell.rejects=6"}, true},
		{[]string{"cell.2.count=3", "cell.2.kind=alkaline", "cell.2.rejects=3"}, false},
	} {
		assert.Equal(t, c.want, Alkaline(planOf(t, c.entries...)), "%v", c.entries)
	}
}

// TestAssayAtItsEnds: what no charge and full charge give is within, a hair beyond is
// not.
func TestAssayAtItsEnds(t *testing.T) {
	p := planOf(t)
	least, most := bag(p, 0), bag(p, 1)
	h := p.WashHydrolysis.Fraction()
	ends := [2]float64{least.assay(h), most.assay(h)}
	for i, end := range ends {
		p.MixAssay = quantity.Percent(end)
		assert.Empty(t, Check(p), "%v", end)
		assert.InDelta(t, float64(i), ChargeOf(p), 1e-9)
		p.MixAssay = quantity.Percent(math.Nextafter(end, 1000*(2*float64(i)-1)))
		require.Len(t, Check(p), 1)
		assert.Equal(t, []string{"mix.assay"}, Check(p)[0].Keys)
	}
}

// TestRinseOfLye: of alkaline cells the acid that is said to be needed takes up the
// potash and dissolves the zinc oxide, to the last of both.
func TestRinseOfLye(t *testing.T) {
	base := []string{"cell.kind=alkaline", "cell.aged=0", "wash.split=0", "wash.soak=100", "wash.times=0", "batch.share=50", "wash.held=3"}
	_, s := run(t, base...)
	needed := s.Value(WashAcidNeeded)
	b, rinsed := run(t, with(base, fmt.Sprintf("wash.acid=%.15g", needed))...)
	near(t, needed, rinsed.Value(WashSpent), 1e-9, "mmol of acid, a mL each")
	for _, sub := range []Substance{Potash, ZincOxide} {
		assert.InDelta(t, 0, float64(b.Book().Amount(ledger.Reserve, sub)), 1e-9, sub.Formula())
	}
	b, _ = run(t, with(base, fmt.Sprintf("wash.acid=%.15g", 0.98*needed))...)
	assert.Greater(t, float64(b.Book().Amount(ledger.Reserve, ZincOxide)), 1e-4, "a little less leaves some")
}

// TestDryMixIsSoakedFirst: a mix that discharge left too dry for the diammine to break up
// takes that water from the soak, and breaks up all the same.
func TestDryMixIsSoakedFirst(t *testing.T) {
	base := []string{"cell.charge=0", "cell.aged=0", "mix.ammonium=60", "mix.zinc=0", "mix.water=10", "batch.share=50"}
	for _, share := range []float64{0, 40, 100} {
		far := extents(t, Wash, with(base, fmt.Sprintf("wash.hydrolysis=%g", share))...)
		whole := extents(t, Cells, base...)[DischargeAmmonium] // a diammine each
		require.Positive(t, whole)
		assert.InDelta(t, share/100*whole/5, far[Hydrolysis], 1e-12, "%g %%", share)
	}
}

// TestEnoughWashesAreFifty at most: then the page says that it is never enough.
func TestEnoughWashesAreFifty(t *testing.T) {
	most := 0.0
	for i := range 400 {
		target := 1000 * math.Pow(0.97, float64(i))
		_, s := run(t, "wash.mixing=20", fmt.Sprintf("wash.target=%g", target))
		if s.Reason(WashEnough) == NeverEnough {
			break
		}
		most = s.Value(WashEnough)
	}
	assert.Equal(t, 50.0, most)
}

// TestHydrogensulfiteOfAllMetals: what stands in for acid is told in all its salts, those of
// ammonium and potassium too.
func TestHydrogensulfiteOfAllMetals(t *testing.T) {
	for _, kind := range []string{"ammonium", "alkaline"} {
		entries := []string{"cell.kind=" + kind, "slurry.acid=0", "wash.soak=100", "wash.times=0", "cell.aged=0"}
		_, s := run(t, entries...)
		want, met := 0.0, map[Substance]bool{}
		for e, extent := range extents(t, Slurry, entries...) {
			for _, term := range e.Terms() {
				if strings.Contains(term.Substance.Formula(), "HSO3") {
					want += extent * term.Coefficient * term.Substance.Atoms(S)
					met[term.Substance] = true
				}
			}
		}
		assert.GreaterOrEqual(t, len(met), 3, "manganese, zinc and one more")
		near(t, want*1000, s.Value(SlurrySulfite), 1e-9, "mmol with "+kind)
	}
}

// TestAnyJarIsWhatStandsInIt: each companion's figure is the mass of its substances in the
// jar, and together with the salt and the water they are all of it.
func TestAnyJarIsWhatStandsInIt(t *testing.T) {
	groups := map[FigureID][]Substance{
		ProductZinc: {ZincSulfate, ZincChloride}, ProductAmmonium: {AmmoniumSulfate, AmmoniumChloride},
		ProductDithionate: {ManganeseDithionate}, ProductSulfite: {ManganeseSulfite, ZincSulfite, SodiumMetabisulfite},
		ProductAcid: {SulfuricAcid}, ProductSodium: {SodiumSulfate}, ProductPotassium: {PotassiumSulfate, PotassiumBisulfite, Potash},
		ProductOxalate: {ManganeseOxalate, ZincOxalate, OxalicAcid}, ProductIron: {FerrousSulfate, FerricSulfate},
	}
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		s := b.Run(p)
		in := func(sub Substance) float64 { return float64(b.Book().Mass(ledger.ProductJar, sub)) }
		sum := in(ManganeseSulfate) + in(Water)
		for id, group := range groups {
			want := 0.0
			for _, sub := range group {
				want += in(sub)
			}
			if have := s.Value(id); math.Abs(have-want) > tiny*(1+want) {
				t.Fatalf("%s is %v, the jar holds %v\nplan:%s", id.Info().Key, have, want, link(p))
			}
			sum += want
		}
		ions := float64(b.Book().Amount(ledger.ProductJar, AmmoniumChloride)) + 2*float64(b.Book().Amount(ledger.ProductJar, ZincChloride))
		if have, want := s.Value(ProductChloride), ions*35.45; math.Abs(have-want) > 1e-3*want {
			t.Fatalf("%v g of chloride told, the jar holds %v\nplan:%s", have, want, link(p))
		}
		if have := s.Value(ProductMass); math.Abs(have-sum) > tiny*(1+sum) {
			t.Fatalf("%v g in the jar, %v g named\nplan:%s", have, sum, link(p))
		}
	})
}

// TestAcidFactor: the strength is that of the acid and the water without the salt; the
// factor is the table's there (Foote 1915, from memory), up to where it ends.
func TestAcidFactor(t *testing.T) {
	p := planOf(t)
	at, err := table.CopperSulfateInAcid.At(30)
	require.NoError(t, err)
	factor, percent, ok := acidFactor(p, 30, 70)
	assert.True(t, ok)
	near(t, 30, percent, 1e-12, "percent")
	near(t, at, factor, 1e-12, "of that in water")
	factor, percent, ok = acidFactor(p, 0, 0)
	assert.True(t, ok)
	assert.Zero(t, percent)
	assert.Equal(t, 1.0, factor, "no acid")
	_, most := table.CopperSulfateInAcid.Range()
	_, _, ok = acidFactor(p, most-1e-9, 100-most)
	assert.True(t, ok)
	_, percent, ok = acidFactor(p, most, 100-most)
	assert.True(t, ok && percent == most, "at its last row")
	_, _, ok = acidFactor(p, most+1e-9, 100-most-1e-9)
	assert.False(t, ok, "beyond the table")
	factor, percent, ok = acidFactor(planOf(t, "copper.factor=70"), 80, 20)
	assert.True(t, ok, "as given")
	assert.Equal(t, 0.7, factor)
	near(t, 80, percent, 1e-12, "percent")
}
