package route

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// planOf is the default plan with entries in place of its own, as they stand in
// a link: "gas.source=metabisulfite"; nothing behind the sign leaves it blank.
func planOf(t testing.TB, entries ...string) *Plan {
	t.Helper()
	p := PlanOf(1) // what was worked out by hand was worked out of these decisions
	alter(t, &p, entries...)
	return &p
}

func alter(t testing.TB, p *Plan, entries ...string) {
	t.Helper()
	for _, entry := range entries {
		key, value, ok := strings.Cut(entry, "=")
		require.True(t, ok, entry)
		in := input(t, key)
		if in.IsChoice() {
			require.NoError(t, in.Choose(p, value), entry)
			continue
		}
		v, err := in.Read(value)
		require.NoError(t, err, entry)
		require.NoError(t, in.Set(p, v), entry)
	}
}

func input(t testing.TB, key string) *Input {
	t.Helper()
	in, ok := InputByKey(key)
	require.True(t, ok, key)
	return in
}

// link writes what differs from the default plan, so that a failing plan can be
// typed in again.
func link(p *Plan) string {
	var b strings.Builder
	for i := range Inputs() {
		in := &Inputs()[i]
		if in.IsDefault(p) {
			continue
		}
		value := ""
		switch v := in.Value(p); {
		case in.IsChoice():
			value = in.Word(p)
		case quantity.Given(v):
			value = strconv.FormatFloat(v, 'g', -1, 64)
		}
		fmt.Fprintf(&b, " %s=%s", in.Key, value)
	}
	if b.Len() == 0 {
		return " the default plan"
	}
	return b.String()
}

// run runs a plan that must be good and whose ledger must close.
func run(t testing.TB, entries ...string) (*Runner, *Sheet) {
	t.Helper()
	p := planOf(t, entries...)
	require.Empty(t, Check(p))
	var b Runner
	s := b.Run(p)
	require.NoError(t, b.Err())
	return &b, s
}

// pureDioxide turns the mix into 100 g of pure MnO2 that all reacts and of which
// nothing is lost, with gas for it and no more.
var pureDioxide = []string{
	"mix.carbon=0", "mix.inert=0", "mix.ammonium=0", "mix.zinc=0", "cell.charge=100", "mix.washed=100",
	"batch.share=100", "loss.transfer=0", "slurry.dithionate=0", "slurry.reach=100",
	"gas.uptake=100", "gas.excess=0", "gas.purge=0", "gas.sulfide=0",
}

func with(base []string, more ...string) []string {
	return append(append([]string(nil), base...), more...)
}

func near(t testing.TB, want, have, relative float64, what string) {
	t.Helper()
	if math.Abs(have-want) > relative*math.Abs(want) {
		t.Errorf("%s: have %.8g, want %.8g", what, have, want)
	}
}

func TestDefaultPlanRuns(t *testing.T) {
	b, s := run(t)
	for id := range FigureID(len(Figures())) {
		if s.Reason(id) == NotReached {
			t.Errorf("%s is never written", id.Info().Key)
		}
	}
	assert.Positive(t, s.Value(ProductMass))
	assert.Positive(t, s.Value(CopperCrop))
	assert.Empty(t, b.Book().Bookings(), "nothing is kept unless asked for")
}

func TestNoCells(t *testing.T) {
	for name, entries := range map[string][]string{
		"all rejected":              {"cell.count=3", "cell.rejects=3"},
		"all rejected, weighed":     {"cell.count=3", "cell.rejects=3", "mix.wet=100"},
		"all rejected, assayed":     {"cell.count=3", "cell.rejects=3", "mix.assay=50"},
		"all rejected, with salt":   {"cell.count=3", "cell.rejects=3", "gas.source=metabisulfite"},
		"all rejected, with charge": {"cell.count=3", "cell.rejects=3", "gas.copper=5", "gas.acid=20"},
	} {
		t.Run(name, func(t *testing.T) {
			_, s := run(t, entries...)
			assert.Zero(t, s.Value(CellsOpened))
			assert.Equal(t, 3.0, s.Value(CellsRefused))
			assert.Zero(t, s.Value(ProductMass))
			assert.Equal(t, NoCells, s.Reason(ProductYield))
			for id := range FigureID(len(Figures())) {
				assert.NotEqual(t, NotReached, s.Reason(id), id.Info().Key)
			}
		})
	}
}

// TestDischargeOrder: the salts of a cell are used up one after the other.
func TestDischargeOrder(t *testing.T) {
	amounts := func(charge string) (diammine, basic, oxide float64) {
		p := planOf(t, "cell.charge="+charge, "cell.aged=0", "wash.hydrolysis=0")
		c := bag(p, quantity.Blank)
		return c.byAmmonium, c.byChloride, c.byOxide
	}
	diammine, basic, oxide := amounts("95")
	assert.Positive(t, diammine)
	assert.Zero(t, basic)
	assert.Zero(t, oxide)
	first, basic, oxide := amounts("60")
	assert.Greater(t, first, diammine)
	assert.Positive(t, basic)
	assert.Zero(t, oxide)
	second, _, oxide := amounts("20")
	assert.InDelta(t, first, second, 1e-12, "the ammonium chloride is used up")
	assert.Positive(t, oxide)
}

// TestChargeIsWhatIsLeft: the charge is the share of the manganese that is still
// Mn(IV), and the assay counts one for it and a half for Mn(III).
func TestChargeIsWhatIsLeft(t *testing.T) {
	for _, charge := range []string{"0", "20", "45", "100"} {
		b, s := run(t, "cell.charge="+charge, "cell.deep=0", "batch.share=100", "loss.transfer=0", "slurry.acid=0", "gas.copper=0.01", "gas.acid=0.1")
		want, _ := strconv.ParseFloat(charge, 64)
		near(t, want, s.Value(MixCharge), 1e-9, "charge "+charge)
		oxide := s.Value(MixManganese) / 1000 * (1 + want/100) / 2 * 86.936
		near(t, oxide, s.Value(MixOxide), 1e-4, "oxide as MnO2")
		in, _ := b.Book().Balance(reaction.Mn)
		near(t, float64(in)*1000, s.Value(MixManganese), 1e-12, "manganese")
	}
}

// TestAgeing: the share that is asked for ages. Discharge leaves zinc enough for
// all of it, one Zn or more for two MnOOH, so that it never stops short: not where
// the diammine is all of that zinc either, in hardly used cells.
func TestAgeing(t *testing.T) {
	for _, aged := range []string{"0", "20", "100"} {
		for _, kind := range []string{"ammonium", "zincchloride"} {
			for charge, spent := range map[string]float64{"0": 1, "95": 0.05} {
				b, s := run(t, "cell.charge="+charge, "cell.deep=0", "cell.kind="+kind, "cell.aged="+aged)
				var want float64
				fmt.Sscan(aged, &want)
				near(t, want, s.Value(AgedReached), 1e-9, "aged")
				near(t, want/100*spent/2*s.Value(MixManganese)/1000*mass(reaction.Hetaerolite), s.Value(MixHetaerolite), 1e-9, "hetaerolite")
				in, out := b.Book().Balance(reaction.Zn)
				near(t, float64(in), float64(out), 1e-9, "zinc")
			}
		}
	}
	_, s := run(t, "cell.charge=100")
	assert.Zero(t, s.Value(AgedReached))
	assert.Zero(t, s.Value(MixHetaerolite))
}

// TestWeighings: a weighing scales the mix and does not change what it is made
// of; the dry one counts before the wet one and brings no water.
func TestWeighings(t *testing.T) {
	_, s := run(t, "mix.wet=200")
	near(t, 200, s.Value(MixMass), 1e-12, "wet")
	share := s.Value(MixManganese) / s.Value(MixMass)
	_, s = run(t, "mix.wet=100")
	near(t, share, s.Value(MixManganese)/s.Value(MixMass), 1e-12, "composition")

	for _, hydrolysis := range []string{"0", "60", "100"} {
		b, s := run(t, "mix.washed=80", "mix.wet=900", "wash.hydrolysis="+hydrolysis)
		near(t, 80, s.Value(MixDry), 1e-12, "washed and dry")
		near(t, 80, s.Value(WashCake), 1e-9, "the washed cake weighs what was weighed")
		assert.Positive(t, b.Book().Amount(ledger.Losses, reaction.Water))
	}
	_, s = run(t, "wash.soak=0", "wash.times=0", "mix.washed=80")
	assert.Equal(t, NothingDrains, s.Reason(WashLast))
}

// TestAssayFixesTheCharge: an assay made from a charge gives it back.
func TestAssayFixesTheCharge(t *testing.T) {
	for _, charge := range []string{"0.5", "12", "45", "80", "99.9"} {
		_, s := run(t, "cell.charge="+charge)
		assay := 100 * s.Value(MixOxide) / s.Value(MixDry)
		_, s = run(t, "cell.charge=1", fmt.Sprintf("mix.assay=%.15g", assay))
		want, _ := strconv.ParseFloat(charge, 64)
		assert.InDelta(t, want, s.Value(MixCharge), 1e-6, "charge "+charge)
		near(t, assay, 100*s.Value(MixOxide)/s.Value(MixDry), 1e-9, "assay")
	}
}

// TestRows: sorts add up, rejects count and stay shut, a charge left blank
// follows the first row.
func TestRows(t *testing.T) {
	_, one := run(t, "cell.count=6")
	mass := one.Value(MixMass)
	_, s := run(t, "cell.count=4", "cell.2.count=4", "cell.2.rejects=2")
	near(t, mass, s.Value(MixMass), 1e-12, "two rows of the same")
	assert.Equal(t, 6.0, s.Value(CellsOpened))
	assert.Equal(t, 2.0, s.Value(CellsRefused))

	_, s = run(t, "cell.count=3", "cell.charge=30", "cell.2.count=3", "cell.2.charge=60")
	near(t, 45, s.Value(MixCharge), 1e-9, "charge of both")
	_, s = run(t, "cell.count=3", "cell.charge=30", "cell.2.count=3")
	near(t, 30, s.Value(MixCharge), 1e-9, "charge followed")
	_, s = run(t, "cell.count=3", "cell.8.size=4R25", "cell.8.count=1", "cell.8.kind=zincchloride")
	assert.Equal(t, 4.0, s.Value(CellsOpened))
}

// TestShortOfAcid: where dilute acid is short, two moles of gas stand in for
// each mole of it (chemistry: 2 MnOOH + 3 SO2 -> MnSO4 + Mn(HSO3)2).
func TestShortOfAcid(t *testing.T) {
	spent := []string{
		"cell.charge=0", "cell.aged=0", "cell.deep=0", "mix.ammonium=0", "mix.zinc=0", "slurry.split=0", "slurry.dithionate=0",
		"slurry.reach=100", "batch.share=100", "loss.transfer=0", "gas.uptake=100", "gas.purge=0", "gas.excess=500",
	}
	_, s := run(t, with(spent, "slurry.acid=0")...)
	b, _ := run(t, with(spent, "slurry.acid=0")...)
	zincOxide := 0.5 * s.Value(BatchManganese) // one a pair of MnOOH
	near(t, 100, s.Value(ReduceConversion), 1e-9, "conversion")
	near(t, 2*s.Value(DemandAcid), s.Value(AcidSaves), 1e-9, "gas in place of acid")
	near(t, s.Value(BatchManganese)/4+zincOxide, s.Value(DemandAcid), 1, "acid")
	assert.Positive(t, float64(b.Book().Amount(ledger.ProductJar, reaction.ManganeseSulfite)))
	_, s = run(t, spent...)
	assert.InDelta(t, 0, s.Value(AcidSaves), 1e-9)
	assert.InDelta(t, 0, s.Value(ProductSulfite), 1e-9)
}

// TestSplitAtHalfTheGas: acid alone splits the Mn(III), so that at half the gas
// a wholly spent mix gives a half more product than without.
func TestSplitAtHalfTheGas(t *testing.T) {
	base := []string{
		"cell.charge=0", "cell.aged=0", "cell.deep=0", "mix.ammonium=0", "mix.zinc=0", "slurry.dithionate=0",
		"slurry.reach=100", "batch.share=100", "loss.transfer=0", "gas.uptake=100", "gas.purge=0", "gas.sulfide=0",
	}
	_, s := run(t, base...)
	copper := s.Value(DemandGas) / 2 / 1000 * 63.546
	half := fmt.Sprintf("gas.copper=%.12g", copper)
	_, s = run(t, with(base, half, "slurry.split=0")...)
	near(t, 50, s.Value(ReduceConversion), 1e-4, "without")
	_, s = run(t, with(base, half, "slurry.split=100")...)
	near(t, 75, s.Value(ReduceConversion), 1e-4, "with")
}

// TestReach: grains that nothing reaches stay behind, however much gas comes.
func TestReach(t *testing.T) {
	_, s := run(t, "slurry.reach=80", "loss.transfer=0", "gas.excess=500")
	near(t, 80, s.Value(ReduceConversion), 1e-9, "conversion")
	_, s = run(t, "slurry.reach=0", "loss.transfer=0", "gas.excess=500")
	assert.InDelta(t, 0, s.Value(ReduceConversion), 1e-9)
	_, s = run(t, "slurry.reach=80", "loss.transfer=0", "gas.excess=500", "slurry.acid=0", "cell.aged=60")
	near(t, 80, s.Value(ReduceConversion), 1e-9, "conversion where gas stands in for acid")
	for _, source := range []string{"slurrysalt", "peroxide", "oxalic"} {
		_, s = run(t, "gas.source="+source, "slurry.reach=80", "loss.transfer=0", "stir.excess=500", "slurry.acid=5000", "cell.aged=60", "oxalic.done=100", "oxalic.falls=0")
		near(t, 80, s.Value(ReduceConversion), 1e-9, "conversion with "+source)
	}
}

// TestMetShare: stopped at the share of the charge at which the demand is met,
// the slurry converts as much as with all of it.
func TestMetShare(t *testing.T) {
	_, s := run(t, "gas.copper=40", "gas.acid=200", "gas.flask=500", "gas.purge=300", "gas.uptake=80")
	full, met, copper := s.Value(ReduceConversion), s.Value(MetShare), s.Value(GasCopperUsed)
	require.Less(t, met, 90.0)
	made := s.Value(GasMade)
	limit := "copper"
	require.Equal(t, limit, s.Word(GasLimit))
	_, s = run(t, fmt.Sprintf("gas.copper=%.12g", copper*met/100), "gas.acid=200", "gas.flask=500", "gas.purge=300", "gas.uptake=80")
	near(t, made*met/100, s.Value(GasMade), 1e-9, "gas")
	near(t, full, s.Value(ReduceConversion), 1e-9, "conversion")
	_, s = run(t, fmt.Sprintf("gas.copper=%.12g", copper*met/100*0.99), "gas.acid=200", "gas.flask=500", "gas.purge=300", "gas.uptake=80")
	assert.Less(t, s.Value(ReduceConversion), full)
	assert.Equal(t, NotMet, s.Reason(MetShare))
}

// TestNeededIsEnough: charges that are given as the page says are needed give
// the gas that is needed.
func TestNeededIsEnough(t *testing.T) {
	for name, entries := range map[string][]string{
		"copper":                {},
		"copper, all of it":     {"batch.share=100", "gas.flask=2000"},
		"copper, full flask":    {"batch.share=100", "gas.flask=50"},
		"copper, purge given":   {"gas.purge=100"},
		"metabisulfite":         {"gas.source=metabisulfite", "gas.strength=40"},
		"metabisulfite, cold":   {"gas.source=metabisulfite", "gas.strength=96", "gas.warm=20"},
		"metabisulfite, no gas": {"gas.source=metabisulfite", "gas.strength=96", "gas.water=0"},
	} {
		t.Run(name, func(t *testing.T) {
			_, s := run(t, entries...)
			needed := s.Value(GasNeeded)
			near(t, needed, s.Value(GasMade), 1e-9, "gas made")
			assert.Equal(t, NeitherFirst, s.Word(GasLimit))
			p := planOf(t, entries...)
			want := s.Value(DemandGas) * (1 + p.GasExcess.Fraction())
			have := (s.Value(GasMade) - s.Value(GasPurged)) * s.Value(UptakeShare) / 100
			near(t, want, have, 1e-9, "gas that reaches the slurry")
			solid := fmt.Sprintf("gas.copper=%.15g", s.Value(GasCopperNeeded))
			if p.GasSource == FromMetabisulfite {
				solid = fmt.Sprintf("gas.salt=%.15g", s.Value(GasSaltNeeded))
			}
			_, s = run(t, with(entries, solid, fmt.Sprintf("gas.acid=%.15g", s.Value(GasAcidNeeded)))...)
			near(t, needed, s.Value(GasMade), 1e-9, "gas made of the charges given")
		})
	}
}

// TestNeededWithAcidGiven: the air to drive out is that above the acid in the flask, and
// in the tube.
func TestNeededWithAcidGiven(t *testing.T) {
	for acid, air := range map[string]float64{"50": 500 - 50 + 30, "450": 500 - 450 + 30, "600": 30} {
		_, s := run(t, "gas.flask=500", "gas.acid="+acid)
		want := s.Value(DemandGas)*1.1/(s.Value(UptakeShare)/100) + air/23.621 // a tenth in excess; L/mol at 20 °C
		near(t, want, s.Value(GasNeeded), 1e-6, "mmol, with "+acid+" mL of acid")
	}
}

// TestLimit names the charge that runs out.
func TestLimit(t *testing.T) {
	for _, c := range []struct {
		want    string
		entries []string
	}{
		{"acid", []string{"gas.acid=5", "gas.copper=50"}},
		{"copper", []string{"gas.acid=100", "gas.copper=1"}},
		{"metabisulfite", []string{"gas.source=metabisulfite", "gas.acid=100", "gas.salt=30"}},
		{"acid", []string{"gas.source=metabisulfite", "gas.acid=5", "gas.salt=300"}},
		{NeitherFirst, nil},
		{NeitherFirst, []string{"gas.copper.over=0"}},
		{NeitherFirst, []string{"gas.acid=500"}}, // copper as much as needed, and what goes in over it stays
		{NeitherFirst, []string{"gas.copper=500"}},
		{"acid", []string{"gas.acid=500", "gas.copper=5000"}},
		{"acid", []string{"gas.acid=5"}},
		{"copper", []string{"gas.copper=5"}},
	} {
		_, s := run(t, c.entries...)
		assert.Equal(t, c.want, s.Word(GasLimit), "%v", c.entries)
		if c.want == "copper" {
			assert.Zero(t, s.Value(CopperLeft), "what runs out first is not left: %v", c.entries)
		}
	}
	// A thousandth too much or too little is told, in the smallest charge too.
	for _, acid := range []string{"gas.acid=0.1", "gas.acid=10"} { // mL, less than is needed
		_, s := run(t, acid, "gas.copper.over=0")
		for want, times := range map[string]float64{"copper": 0.999, "acid": 1.001} {
			_, s := run(t, acid, fmt.Sprintf("gas.copper=%.12g", s.Value(GasCopperUsed)*times))
			assert.Equal(t, want, s.Word(GasLimit), acid)
		}
	}
}

// TestOpenVesselFeedsNoScrubber: only a closed vessel leads the gas on, and salt is
// stirred into an open one whatever the plan's vessel.
func TestOpenVesselFeedsNoScrubber(t *testing.T) {
	b, s := run(t, "slurry.vessel=open")
	assert.Zero(t, b.Book().TotalMass(ledger.Scrubber))
	assert.Positive(t, s.Value(VentGas))
	b, s = run(t, "slurry.vessel=closed", "gas.source=slurrysalt")
	assert.Zero(t, b.Book().TotalMass(ledger.Scrubber))
	near(t, (s.Value(VentGas)+s.Value(DryGas))/1000, float64(b.Book().Amount(ledger.Vent, reaction.SulfurDioxide)), 1e-9, "it stays in the air")
	assert.Positive(t, s.Value(VentGas))
	assert.Equal(t, StirredIn, s.Reason(ScrubAdvised))
	b, s = run(t, "slurry.vessel=closed")
	near(t, s.Value(VentGas)/1000, float64(b.Book().Amount(ledger.Scrubber, reaction.SodiumSulfite)), 1e-9, "sulfite")
	near(t, s.Value(VentGas)/1000, float64(b.Book().Amount(ledger.Scrubber, reaction.SodiumCarbonate)), 1e-9, "as much soda to spare")
}
