package route

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/cell"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// TestDemandByElements works the demand out another way: from the elements that
// stand in the reserve, which is the other half of the batch. H2SO4 is all Mn and
// Zn, half the N and K, less half the Cl and what sulfate is there but iron's, less half the
// electrons where SO2 takes them, and one to a metabisulfite; SO2 is half the electrons and the share of dithionate again.
func TestDemandByElements(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.BatchShare = 50
		s := b.Run(p)
		book := b.Book()
		of := func(e Element) float64 { return float64(book.Element(ledger.Reserve, e)) }
		has := func(sub Substance) float64 { return float64(book.Amount(ledger.Reserve, sub)) }
		electrons := 2*has(ManganeseDioxide) + has(Manganite) + 2*has(Hetaerolite) + 2*has(Hausmannite)
		acid := of(Mn) + of(Zn) + of(N)/2 + of(K)/2 - of(Cl)/2 - (of(S) - has(SulfuricAcid) - 3*has(FerricSulfate)) - electrons/2
		switch p.GasSource {
		case BySalt:
			acid += s.Value(SaltUsed) / mass(SodiumMetabisulfite)
		case ByPeroxide, ByOxalic:
			acid += electrons / 2
		}
		gas := electrons / 2 * (1 + s.Value(DemandDithionate)/100)
		slack := tiny * (1 + of(Mn) + of(Zn) + of(N) + of(K) + of(Cl) + of(S) + acid) * 1000
		if d := s.Value(DemandAcid) - acid*1000; math.Abs(d) > slack {
			t.Fatalf("demand.acid is %v, by the elements %v\nplan:%s", s.Value(DemandAcid), acid*1000, link(p))
		}
		if d := s.Value(DemandGas) - gas*1000; math.Abs(d) > slack {
			t.Fatalf("demand.gas is %v, by the electrons %v\nplan:%s", s.Value(DemandGas), gas*1000, link(p))
		}
	})
}

// TestGasIsNotWasted: as long as oxide that can be reached is left, what arrives
// is used up: nothing stays dissolved, nothing more passes by.
func TestGasIsNotWasted(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.SlurryWater, p.SlurryReach = 1e6, 100 // water enough to react in
		s := b.Run(p)
		arrives := (s.Value(GasMade) - s.Value(GasPurged)) * s.Value(UptakeShare) / 100
		if s.Value(ReduceLeft) < 1e-6*(1+s.Value(BatchDry)) {
			return
		}
		slack := 1e-7 * (1 + s.Value(GasMade))
		if s.Value(UptakeDissolved) > slack || math.Abs(s.Value(UptakeTaken)-arrives) > slack {
			t.Fatalf("%v g of oxide left, but of %v mmol that arrive %v stay dissolved and %v are taken\nplan:%s",
				s.Value(ReduceLeft), arrives, s.Value(UptakeDissolved), s.Value(UptakeTaken), link(p))
		}
	})
}

// spentPlan has all three oxides and every zinc salt, reached and not lost, and
// as much gas as its entries say.
var spentPlan = []string{
	"cell.charge=30", "cell.aged=40", "batch.share=100", "loss.transfer=0", "slurry.reach=100", "slurry.split=0",
	"gas.uptake=100", "gas.purge=0", "gas.sulfide=0", "gas.flask=20000", "slurry.beaker=50000",
}

// TestBillInFull: with too little dilute acid, or none, the gas at which the
// demand is said to be met reduces everything, and a little less does not.
func TestBillInFull(t *testing.T) {
	for _, acid := range []string{"0", "150", "300"} {
		for _, kind := range []string{"ammonium", "zincchloride"} {
			base := with(spentPlan, "cell.kind="+kind, "slurry.acid="+acid, "gas.acid=5000")
			_, s := run(t, with(base, "gas.copper=400")...)
			near(t, 100, s.Value(ReduceConversion), 1e-9, "conversion")
			require.Equal(t, Defined, s.Reason(MetShare))
			copper := func(of float64) string {
				return fmt.Sprintf("gas.copper=%.12g", 400*s.Value(MetShare)/100*of)
			}
			_, met := run(t, with(base, copper(1))...)
			near(t, 100, met.Value(ReduceConversion), 1e-9, "conversion at the bill")
			assert.InDelta(t, 0, met.Value(UptakeDissolved), 1e-6)
			_, short := run(t, with(base, copper(0.999))...)
			assert.Less(t, short.Value(ReduceConversion), 100-0.01)
			assert.Equal(t, NotMet, short.Reason(MetShare))
		}
	}
}

// TestShortageIsShared: while dilute acid lasts, Mn(IV) and Mn(III) share a shortage of
// gas in proportion to their demands. Where it is used up Mn(III) waits until the dioxide
// is gone, and what bases are there turn dioxide into more of it.
func TestShortageIsShared(t *testing.T) {
	for _, acid := range []string{"0", "150", "700", "1000", "5000"} {
		left := func(copper string) (dioxide, manganite, hetaerolite float64) {
			b, _ := run(t, with(spentPlan, "slurry.acid="+acid, "gas.acid=5000", "gas.copper="+copper)...)
			amount := func(sub Substance) float64 { return float64(b.Book().Amount(ledger.Residue, sub)) }
			return amount(ManganeseDioxide), amount(Manganite), amount(Hetaerolite)
		}
		d0, m0, h0 := left("0.01")
		d, m, h := left("8")
		require.Less(t, d, 0.97*d0)
		require.Positive(t, d)
		if acid == "0" || acid == "150" {
			assert.Greater(t, m, m0, "MnOOH grows with "+acid+" mL")
			near(t, h0, h, 1e-6, "hetaerolite waits with "+acid+" mL")
			continue
		}
		near(t, d/d0, m/m0, 1e-3, "MnOOH with "+acid+" mL")
		near(t, d/d0, h/h0, 1e-3, "hetaerolite with "+acid+" mL")
	}
}

// TestSplitIsShared: acid too little for all splits MnOOH and hetaerolite alike,
// and is used up.
func TestSplitIsShared(t *testing.T) {
	remains := func(acid string) (manganite, hetaerolite float64, b *Runner) {
		b, _ = run(t, with(spentPlan, "slurry.split=100", "mix.ammonium=0", "mix.zinc=0", "slurry.acid="+acid, "gas.acid=0.1", "gas.copper=0.01")...)
		book := b.Book()
		return float64(book.Amount(ledger.Residue, Manganite)), float64(book.Amount(ledger.Residue, Hetaerolite)), b
	}
	m0, h0, _ := remains("0")
	m, h, b := remains("400")
	require.Less(t, m, 0.95*m0)
	near(t, m/m0, h/h0, 5e-3, "what is left of each")
	assert.Less(t, float64(b.Book().Amount(ledger.Dish, SulfuricAcid)+b.Book().Amount(ledger.ProductJar, SulfuricAcid)), 1e-9)
}

// TestEndIsReached: a charge that its acid limits ends at the strength at which
// the gas fades, sulfide and steam counted.
func TestEndIsReached(t *testing.T) {
	for _, sulfide := range []string{"0", "10", "40"} {
		for _, steam := range []string{"0", "40", "100"} {
			b, s := run(t, "gas.acid=100", "gas.copper=500", "gas.sulfide="+sulfide, "gas.steam="+steam, "gas.end=72")
			near(t, 72, s.Value(GasStrengthEnd), 1e-9, "end with "+sulfide+" % sulfide and "+steam+" % steam")
			assert.Equal(t, steam == "0", b.Book().Amount(ledger.Trap, Water) == 0)
		}
	}
	b, s := run(t, "gas.acid=100", "gas.copper=10", "gas.steam=30", "gas.sulfide=0")
	near(t, 2*10/mass(Copper)*0.3, float64(b.Book().Amount(ledger.Trap, Water)), 1e-9, "steam in the trap")
	near(t, 10/mass(Copper)*1000, s.Value(GasMade), 1e-9, "gas")
}

// TestTransfersLose: four transfers lose what is said, three of them on the way
// of the manganese.
func TestTransfersLose(t *testing.T) {
	lossy := with(pureDioxide, "loss.transfer=10")
	b, s := run(t, lossy...)
	near(t, 90, s.Value(ReduceConversion), 1e-9, "cake to slurry")
	near(t, 72.9, s.Value(ProductYield), 1e-9, "and filtrate to dish, and salt to jar")
	near(t, 0.271*s.Value(BatchManganese)/1000, float64(b.Book().Element(ledger.Losses, Mn)), 1e-9, "lost")
	_, s = run(t, with(lossy, "dry.way=crystals", "crop.held=0", "crop.cold=10")...)
	_, all := run(t, with(pureDioxide, "loss.transfer=0", "dry.way=crystals", "crop.held=0", "crop.cold=10")...)
	near(t, 0.729*all.Value(ProductYield), s.Value(ProductYield), 1e-6, "crystals lose as much")

	b, s = run(t, "loss.transfer=10")
	made := s.Value(CopperSulfatePenta) / (mass(CopperSulfate) + 5*mass(Water))
	there := float64(b.Book().Amount(ledger.CopperJar, CopperSulfate) + b.Book().Amount(ledger.CopperLiquor, CopperSulfate))
	near(t, 0.9*made, there, 1e-9, "copper liquor to its dish")
}

// TestCompanionsLeave: chloride of ammonium from 338 °C, free acid from 340,
// ammonium sulfate from 450.
func TestCompanionsLeave(t *testing.T) {
	dried := func(celsius string, more ...string) *Runner {
		b, _ := run(t, with(more, "wash.times=0", "wash.soak=10", "dry.temperature="+celsius)...)
		return b
	}
	in := func(b *Runner, sub Substance) float64 { return float64(b.Book().Amount(ledger.ProductJar, sub)) }
	sour := []string{"slurry.acid=2000"}
	assert.Positive(t, in(dried("100"), AmmoniumChloride))
	assert.Positive(t, in(dried("337"), AmmoniumChloride))
	assert.Zero(t, in(dried("338"), AmmoniumChloride))
	assert.Positive(t, in(dried("336", sour...), SulfuricAcid))
	assert.Zero(t, in(dried("337", sour...), SulfuricAcid))
	assert.Positive(t, in(dried("449", sour...), AmmoniumSulfate))
	assert.Zero(t, in(dried("450", sour...), AmmoniumSulfate))

	// Free acid and chloride give hydrogen chloride from 110 °C on.
	b := dried("109", sour...)
	assert.Zero(t, float64(b.Book().Amount(ledger.Vent, HydrogenChloride)))
	assert.Positive(t, in(b, ZincChloride))
	b = dried("110", sour...)
	assert.Positive(t, float64(b.Book().Amount(ledger.Vent, HydrogenChloride)))
	assert.Zero(t, in(b, ZincChloride))

	// Dithionates break up dry at 258 °C, whatever the boiling leaves.
	b, s := run(t, "dry.dithionate=100", "dry.temperature=257")
	assert.Positive(t, in(b, ManganeseDithionate))
	assert.Positive(t, s.Value(ProductDithionate))
	b, _ = run(t, "dry.dithionate=100", "dry.temperature=258")
	assert.Zero(t, in(b, ManganeseDithionate))
}

// TestDithionateInTheDish: what the boiling breaks up gives a mole of gas each.
func TestDithionateInTheDish(t *testing.T) {
	base := with(pureDioxide, "slurry.dithionate=40")
	_, s := run(t, with(base, "dry.dithionate=100")...)
	near(t, 0.4*s.Value(BatchManganese)/1000*mass(ManganeseDithionate), s.Value(ProductDithionate), 1e-9, "all of it")
	assert.InDelta(t, 0, s.Value(DryGas), 1e-6)
	_, s = run(t, with(base, "dry.dithionate=25")...)
	near(t, 0.4*0.75*s.Value(BatchManganese), s.Value(DryGas), 1e-9, "gas off the dish")
	near(t, 100, s.Value(ProductYield), 1e-9, "manganese is not lost")
}

// TestDithionateFollowsTheSlurry: blank, it is what the table says at the
// slurry's temperature; ice-cold a half, hot and acid a few hundredths.
func TestDithionateFollowsTheSlurry(t *testing.T) {
	for celsius, want := range map[string]float64{"0": 50, "5": 50, "20": 35, "50": 3, "90": 2} {
		_, s := run(t, "slurry.temperature="+celsius)
		near(t, want, s.Value(DemandDithionate), 1e-9, celsius+" °C")
	}
	_, s := run(t, "slurry.dithionate=22")
	near(t, 22, s.Value(DemandDithionate), 1e-12, "as given")
}

// TestWetMix: what the discharge dissolves from the can stands in the mix, not
// on the tray.
func TestWetMix(t *testing.T) {
	for _, charge := range []string{"0", "45", "100"} {
		_, s := run(t, "cell.size=R20", "cell.count=7", "cell.rejects=2", "cell.charge="+charge)
		size := cell.Sizes()[3]
		require.Equal(t, "R20", size.Mark)
		near(t, 5*(size.Mix.Best+size.Can.Best), s.Value(MixMass)+s.Value(CanZinc), 1e-9, "mix and cans")
		near(t, 5*size.Rod.Best, s.Value(RodCarbon), 1e-9, "rods")
	}
	_, s := run(t, "cell.fill=80", "cell.charge=100")
	near(t, 0.8*6*cell.Sizes()[2].Mix.Best, s.Value(MixMass), 1e-9, "filled to four fifths")
	for kind, k := range cell.Kinds() { // new, it weighs what the table fills in, whatever it is made of
		_, s := run(t, "cell.size=R20", "cell.count=5", "cell.charge=100", "cell.kind="+k.Word)
		near(t, 5*cell.PartsOf(3, kind).Mix.Best, s.Value(MixMass), 1e-9, k.Word)
	}
}

// TestDefaultVolumes: what is left blank is as the field says.
func TestDefaultVolumes(t *testing.T) {
	_, s := run(t, "loss.transfer=0", "batch.share=100")
	near(t, 4*s.Value(MixDry), s.Value(WashSoakUsed), 1e-9, input(t, "wash.soak").Blank)
	near(t, 3*s.Value(MixDry), s.Value(WashEachUsed), 1e-9, input(t, "wash.each").Blank)
	near(t, 6*s.Value(BatchDry), s.Value(SlurryWaterUsed), 1e-9, input(t, "slurry.water").Blank)
	near(t, 2*s.Value(ResidueMass), s.Value(RinseUsed), 1e-9, input(t, "rinse.each").Blank)
	near(t, s.Value(DemandAcid), s.Value(SlurryAcidUsed), 1e-9, "1 mol/L: a mmol is a mL")
	near(t, s.Value(GasHeadspace)+30, s.Value(GasPurgeUsed), 1e-9, input(t, "gas.purge").Blank)
	_, s = run(t, "dry.way=crystals", "slurry.dithionate=0", "loss.transfer=0")
	near(t, s.Value(ProductAnhydrous)+s.Value(CropLeft)/1000*mass(ManganeseSulfate), s.Value(CropWaterUsed), 1e-6, input(t, "crop.water").Blank)
}

// TestRinseTable: what the table says after so many rinses is what so many rinses
// leave.
func TestRinseTable(t *testing.T) {
	for times, id := range []FigureID{RinseLeft0, RinseLeft1, RinseLeft2, RinseLeft3} {
		b, s := run(t, fmt.Sprintf("rinse.times=%d", times), "rinse.each=20", "slurry.dithionate=0", "loss.transfer=0")
		residue := float64(b.Book().Amount(ledger.Residue, ManganeseSulfate))
		whole := residue + float64(b.Book().Amount(ledger.ProductJar, ManganeseSulfate))
		near(t, 100*residue/whole, s.Value(id), 1e-9, fmt.Sprintf("%d rinses", times))
	}
}

// TestDissolvedGas: gas that is over stays dissolved up to the solubility at the
// slurry's temperature and the air's pressure less the water's vapour.
func TestDissolvedGas(t *testing.T) {
	for _, c := range []struct{ slurry, air string }{{"5", "101.325"}, {"20", "101.325"}, {"20", "80"}, {"50", "101.325"}} {
		_, s := run(t, "gas.excess=500", "slurry.temperature="+c.slurry, "air.pressure="+c.air, "air.temperature=30")
		var celsius, air float64
		fmt.Sscan(c.slurry, &celsius)
		fmt.Sscan(c.air, &air)
		at, err := table.GasSolubility.At(celsius)
		require.NoError(t, err)
		vapour, err := table.WaterVapourPressure.At(celsius)
		require.NoError(t, err)
		water := s.Value(SlurryWaterUsed)
		grams := s.Value(UptakeDissolved) / 1000 * mass(SulfurDioxide)
		assert.Greater(t, grams, water*at/100*(air-vapour)/101.325, "the acid's water and the cake's hold some too")
		assert.Less(t, grams, 2*water*at/100*(air-vapour)/101.325)
	}
	// To the digit, where the water is known: pure oxide holds none after the wash
	// but what the cake holds.
	_, s := run(t, with(pureDioxide, "gas.excess=300", "slurry.water=1000", "wash.held=0.05", "slurry.temperature=20", "air.temperature=35")...)
	assert.InEpsilon(t, 10.63*(101.325-2.33)/101.325*10.05, s.Value(UptakeDissolved)/1000*mass(SulfurDioxide), 0.01)
}

// TestGasVolumes: real gas, at the air's temperature and pressure; half the
// pressure is twice the volume.
func TestGasVolumes(t *testing.T) {
	for _, c := range []struct {
		celsius, kilopascal string
		litres              float64
	}{{"0", "101.325", 21.879}, {"20", "101.325", 23.621}, {"20", "50.6625", 2 * 23.621}, {"40", "101.325", 25.336}} {
		_, s := run(t, "air.temperature="+c.celsius, "air.pressure="+c.kilopascal, "gas.copper=10", "gas.acid=50")
		molar := c.litres
		near(t, s.Value(GasMade)/1000*molar, s.Value(GasVolume), 1e-9, "volume")
		near(t, s.Value(VentGas)/1000*molar, s.Value(VentVolume), 1e-9, "vented")
		near(t, s.Value(DryGas)/1000*molar, s.Value(DryGasVolume), 1e-9, "off the dish")
		near(t, s.Value(GasVolume)*1000/90, s.Value(GasRate), 1e-9, "mL/min in 90 minutes")
		near(t, s.Value(GasRate)/60/0.14, s.Value(GasBubbles), 1e-9, "bubbles of 0.14 mL")
		near(t, s.Value(GasHeadspace)+30, s.Value(GasPurged)*molar, 1e-9, "purge")
	}
}

// TestWhenTheDemandIsMet: share, minute and bubbles tell the same.
func TestWhenTheDemandIsMet(t *testing.T) {
	_, s := run(t, "gas.copper=40", "gas.acid=150", "gas.minutes=80", "gas.bubble=0.2")
	share := s.Value(MetShare) / 100
	require.Less(t, share, 0.9)
	near(t, 80*share, s.Value(MetMinute), 1e-9, "minute")
	near(t, share*s.Value(GasVolume)*1000/0.2, s.Value(MetBubbles), 1e-9, "bubbles")
}

// TestDilutingWhatIsNotPure: acid as bought has given part of its heat already.
// From 57.64 % (4 mol of water a mole) the rest is 54.06 kJ less than from pure
// acid (Koretsky, Engineering and Chemical Thermodynamics, Table 6.1, by differences).
func TestDilutingWhatIsNotPure(t *testing.T) {
	heat := func(percent quantity.Percent) float64 {
		_, _, rise := acidOf(percent).dilution(1000)
		return rise * waterHeat * 1000 * diluteWater / 1000
	}
	assert.InDelta(t, 54.06, heat(100)-heat(57.64), 0.01)
	assert.InDelta(t, 15.73, heat(100)-heat(91.59), 0.01)
	assert.InDelta(t, 73.4, heat(100), 0.1)

	// The same for the generator's residue: heat of its acid and of its salt.
	b, s := run(t, "gas.acid=100", "gas.copper=20", "gas.sulfide=0", "gas.steam=0", "copper.water=500", "loss.transfer=0", "gas.end=50")
	acid := float64(b.Book().Amount(ledger.CopperLiquor, SulfuricAcid))
	salt := s.Value(CopperSulfatePenta) / (mass(CopperSulfate) + 5*mass(Water))
	ends := mixingHeat(100 * acid * mass(SulfuricAcid) / (acid*mass(SulfuricAcid) + 500 + strongWater))
	near(t, salt*73.1+acid*(ends-mixingHeat(s.Value(GasStrengthEnd))), s.Value(CopperHeat), 1e-9, "heat")
	near(t, s.Value(CopperHeat)/(4.18*(500+strongWater))*1000, s.Value(CopperRise), 1e-9, "rise")
}

// strongWater is the water, g, in the generator of the plan above at its end: that
// of 100 mL of 96 % acid, and two moles a mole of copper.
var strongWater = 100*acidOf(96).density*0.04 + 2*20/mass(Copper)*mass(Water)

// TestAcidRinse: the acid that is said to be needed takes out every zinc salt that
// water leaves, and a little less does not; acid takes the ammonia first.
func TestAcidRinse(t *testing.T) {
	zinc := func(acid float64) float64 {
		b, _ := run(t, fmt.Sprintf("wash.acid=%.12g", acid), "wash.split=0", "cell.aged=0", "batch.share=50")
		sum := 0.0
		for _, sub := range []Substance{ZincOxide, BasicZincChloride, ZincDiammine} {
			sum += float64(b.Book().Amount(ledger.Reserve, sub))
		}
		return sum
	}
	_, s := run(t, "cell.aged=0")
	needed := s.Value(WashAcidNeeded)
	require.Positive(t, needed)
	assert.InDelta(t, 0, zinc(needed*(1+1e-9)), 1e-9)
	assert.Greater(t, zinc(needed*0.99), 1e-5)
	_, s = run(t, "cell.aged=0", "wash.split=0", fmt.Sprintf("wash.acid=%.12g", needed))
	near(t, needed, s.Value(WashSpent), 1e-9, "acid used, mmol of 1 mol/L")
	assert.InDelta(t, 0, s.Value(WashBound), 1e-6)
	assert.Zero(t, s.Value(WashManganese))
	_, s = run(t, fmt.Sprintf("wash.acid=%.12g", 3*needed), "wash.split=30")
	assert.Positive(t, s.Value(WashManganese), "more of it dissolves manganese")
	// Two MnOOH to a mole of acid: of a wholly spent mix so much a mole of manganese.
	spent := []string{"cell.charge=0", "cell.aged=0", "cell.deep=0", "wash.acid=3000", "wash.split=30"}
	_, s = run(t, spent...)
	near(t, 0.3*s.Value(MixManganese)/1000/2, extents(t, Wash, spent...)[SplitManganite], 1e-9, "split")
}

// TestSplitKeepsTheHeat: acid that splits the oxide first changes nothing in the
// sum of the heats.
func TestSplitKeepsTheHeat(t *testing.T) {
	plenty := with(spentPlan, "gas.acid=5000", "gas.copper=400")
	_, without := run(t, with(plenty, "slurry.split=0")...)
	_, all := run(t, with(plenty, "slurry.split=100")...)
	near(t, without.Value(ReduceHeat), all.Value(ReduceHeat), 1e-9, "heat")
	_, s := run(t, with(plenty, "slurry.split=100", "gas.copper=0.01")...)
	assert.Positive(t, s.Value(ReduceHeat), "splitting alone gives heat")
	assert.Less(t, s.Value(ReduceHeat), 0.2*all.Value(ReduceHeat))
}

// TestDampCake: the share is weighed out with the liquor that it holds.
func TestDampCake(t *testing.T) {
	_, s := run(t, "wash.held=1.5", "batch.share=40")
	near(t, 0.4*s.Value(WashCake), s.Value(BatchDry), 1e-9, "dry")
	assert.InEpsilon(t, 2.5*s.Value(BatchDry), s.Value(BatchDamp), 1e-3, "damp; the last wash holds little salt")
	near(t, 0.6*s.Value(MixManganese), s.Value(BatchReserve), 1e-9, "reserve")
}

// TestDampCakeIsSharedByItsWeight: who weighed all of it takes the share of that, and nothing else in
// the plan rests on how damp it is; blank, its weight is worked out.
func TestDampCakeIsSharedByItsWeight(t *testing.T) {
	_, bare := run(t, "batch.share=40")
	in, ok := InputByKey("cake.damp")
	require.True(t, ok)
	all, ok := in.WorkedOut(planOf(t, "batch.share=40"), bare)
	require.True(t, ok)
	assert.InEpsilon(t, bare.Value(BatchDamp), 0.4*all, 1e-12)
	_, s := run(t, "batch.share=40", "cake.damp=500")
	assert.InEpsilon(t, 200, s.Value(BatchDamp), 1e-12)
	for id := range figures {
		if id := FigureID(id); id != BatchDamp && bare.Reason(id) == Defined {
			assert.Equal(t, bare.Value(id), s.Value(id), id.Info().Key)
		}
	}
}

// TestWhatWasWeighedOutIsAShareOfTheCake: of its weight, or where nobody weighed it, of that which the
// plan makes of it; never more than there is, nor less than any share.
func TestWhatWasWeighedOutIsAShareOfTheCake(t *testing.T) {
	p := planOf(t, "cake.taken=95", "cake.damp=400")
	assert.InEpsilon(t, 23.75, float64(p.ShareWeighed()), 1e-12)
	_, bare := run(t)
	all := bare.Value(BatchDamp) / 0.25
	for _, share := range []string{"10", "80"} { // which was planned
		p = planOf(t, "batch.share="+share, "cake.taken=60")
		assert.InEpsilon(t, 100*60/all, float64(p.ShareWeighed()), 1e-12)
	}
	usual := NewPlan()
	for _, c := range []struct{ taken, damp, says string }{
		{"400", "400", ""},
		{"401", "400", "401\u202fg weighed out is more than all of the damp cake, 400\u202fg. Weigh both"},
		{"0.3", "400", "0.30\u202fg weighed out is less than 0.10\u202f% of all of the damp cake, 400\u202fg. Weigh both"},
		{"1900", "", "1.9\u202fkg weighed out is more than all of the damp cake, " + Print(float64(usual.AllOfCake()), "g") + " by the plan. Weigh all of it too, or give the share in per cent"},
	} {
		p := NewPlan()
		form := p.Form()
		for key, text := range map[string]string{TakenKey: c.taken, "cake.damp": c.damp} {
			f, _ := form.Find(key)
			require.NoError(t, form.Set(f, text))
		}
		problems := Check(&p)
		if c.says == "" {
			assert.Empty(t, problems)
			assert.EqualValues(t, 100, p.ShareWeighed())
			continue
		}
		if assert.Len(t, problems, 1, c.says) {
			assert.Contains(t, problems[0].Message, c.says)
			assert.Equal(t, []string{TakenKey, "cake.damp"}, problems[0].Keys)
		}
	}
}

// TestAShareTakesThePlaceOfGrams: the one that is typed later stands; a share stands for when the
// grams are taken away again.
func TestAShareTakesThePlaceOfGrams(t *testing.T) {
	p := NewPlan()
	form := p.Form()
	set := func(key, text string) error {
		f, _ := form.Find(key)
		return form.Set(f, text)
	}
	require.NoError(t, set(ShareKey, "30"))
	require.NoError(t, set(TakenKey, "60"))
	assert.EqualValues(t, 60, p.CakeTaken)
	require.Error(t, set(ShareKey, "130"))
	assert.EqualValues(t, 60, p.CakeTaken, "what is refused takes no place")
	require.NoError(t, set(TakenKey, ""))
	assert.EqualValues(t, 30, p.BatchShare)
	require.NoError(t, set(TakenKey, "60"))
	require.NoError(t, set(ShareKey, "35"))
	assert.False(t, quantity.Given(p.CakeTaken))
}

// TestVesselsFit: half a flask and two thirds of a beaker are filled at most.
func TestVesselsFit(t *testing.T) {
	_, s := run(t, "gas.copper=20", "gas.acid=60")
	near(t, 2*(60+20/8.96), s.Value(GasFlaskLeast), 1e-9, "flask")
	flask := func(ml float64) float64 {
		_, s := run(t, "gas.copper=20", "gas.acid=60", fmt.Sprintf("gas.flask=%.12g", ml))
		return s.Value(GasBatches)
	}
	least := s.Value(GasFlaskLeast)
	assert.Equal(t, 1.0, flask(least))
	assert.Equal(t, 2.0, flask(least-0.1))
	assert.Equal(t, 2.0, flask(least/2))
	assert.Equal(t, 3.0, flask(least/2-0.1))
	beaker := func(ml float64) float64 {
		_, s := run(t, fmt.Sprintf("slurry.beaker=%.12g", ml))
		return s.Value(SlurryBatches)
	}
	_, s = run(t)
	volume := s.Value(SlurryVolume)
	assert.Equal(t, 1.0, beaker(1.5*volume))
	assert.Equal(t, 2.0, beaker(1.5*volume-0.1))
	near(t, 2*(s.Value(CopperWaterUsed)+s.Value(GasAcidUsed)), s.Value(CopperVessel), 1e-9, "copper liquor, half full")
}

// TestSuckBack: no more is drawn back than there is slurry, or room for it.
func TestSuckBack(t *testing.T) {
	_, s := run(t, "gas.flask=10000")
	near(t, s.Value(SlurryVolume), s.Value(SuckBack), 1e-9, "all of the slurry")
	_, s = run(t, "gas.flask=150", "gas.tube=20")
	near(t, s.Value(GasHeadspace)+20, s.Value(SuckBack), 1e-9, "what flask and tube take")
}

// TestBoilingOff: water by the rate, and heat to warm it from the air's
// temperature and turn it to steam (steam tables, 2257 kJ/kg at 100 °C).
func TestBoilingOff(t *testing.T) {
	_, s := run(t, "dry.rate=50", "air.temperature=10")
	near(t, s.Value(DryWater)/50, s.Value(DryHours), 1e-9, "hours")
	near(t, s.Value(DryWater)*(2.257+4.18*90/1000), s.Value(DryEnergy), 1e-9, "kJ")
	_, s = run(t, with(pureDioxide, "rinse.times=0")...)
	left := s.Value(ProductMono) - s.Value(ProductAnhydrous)
	near(t, s.Value(FiltrateVolume)-left, s.Value(DryWater), 1e-9, "all but the water that the salt keeps")
}

// TestBoilingForCrystals: left to crystallise, the dish is only boiled down to the water
// that is asked for; none of the rest is boiled off.
func TestBoilingForCrystals(t *testing.T) {
	for _, left := range []float64{40, 90} {
		_, s := run(t, "dry.way=crystals", "loss.transfer=0", fmt.Sprintf("crop.water=%g", left))
		require.Equal(t, left, s.Value(CropWaterUsed))
		near(t, s.Value(FiltrateVolume)-left, s.Value(DryWater), 1e-9, "mL")
		near(t, s.Value(DryWater)/76, s.Value(DryHours), 1e-9, "hours, 76 mL in each")
	}
}

// TestWaterInTheJar: each salt keeps the water of its own hydrate at the temperature of
// drying: manganese sulfate (and iron(II)'s with it) 7, 5, 1 and none, zinc sulfate 7 up to 39 °C and then as
// much as manganese sulfate, sodium sulfate 10 up to 32.4 °C (makers' pages).
func TestWaterInTheJar(t *testing.T) {
	for celsius, want := range map[string][3]float64{
		"0": {7, 7, 10}, "8.9": {7, 7, 10}, "9": {5, 7, 10}, "24.9": {5, 7, 10}, "25": {1, 7, 10}, "32.3": {1, 7, 10}, "32.4": {1, 7, 0},
		"38.9": {1, 7, 0}, "39": {1, 1, 0}, "120": {1, 1, 0}, "200": {1, 1, 0}, "300": {0.5, 0.5, 0}, "400": {0, 0, 0},
	} {
		b, _ := run(t, "gas.source=slurrysalt", "dry.temperature="+celsius)
		in := func(sub Substance) float64 { return float64(b.Book().Amount(ledger.ProductJar, sub)) }
		require.True(t, in(ZincSulfate) > 0 && in(SodiumSulfate) > 0)
		water := want[0]*(in(ManganeseSulfate)+in(FerrousSulfate)) + want[1]*in(ZincSulfate) + want[2]*in(SodiumSulfate)
		assert.InDelta(t, water, in(Water), 1e-9, "mol at %s °C", celsius)
	}
}

// TestWashLiquor: what went with it, and what is asked of the soda.
func TestWashLiquor(t *testing.T) {
	b, s := run(t, "cell.charge=100", "mix.zinc=8", "mix.ammonium=12")
	book := b.Book()
	near(t, float64(book.Mass(ledger.WashLiquor, ZincChloride))*65.38/136.28, s.Value(WashZinc), 1e-4, "zinc")
	near(t, s.Value(WashZinc), s.Value(WasteZinc), 1e-12, "zinc, again")
	near(t, float64(book.Mass(ledger.WashLiquor, AmmoniumChloride)), s.Value(WashAmmonia), 1e-12, "sal ammoniac")
	p := planOf(t, "cell.charge=100", "mix.zinc=8", "mix.ammonium=12")
	c := bag(p, quantity.Blank)
	held := s.Value(WashChloride) / 1000 / chlorideMass
	there := float64(book.Amount(ledger.WashLiquor, AmmoniumChloride)) + 2*float64(book.Amount(ledger.WashLiquor, ZincChloride))
	near(t, c.ammonium+2*c.zinc, held+there, 1e-9, "chloride, held and gone")
	near(t, (s.Value(WashChloride)+s.Value(WashBound))/s.Value(WashCake), s.Value(WashPerGram), 1e-12, "to a gram")
	assert.Equal(t, s.Value(WashLast) > 2, s.Word(WashSilver) == "still clouds")
}

// TestAcidRinseTakesWhatItNeeds: more acid than the zinc salts want drains unused, with the
// water that it brings: a litre of 1 mol/L acid weighs 1061 g (CRC Handbook, density of
// sulfuric acid at 20 °C, from memory), 98.08 g of it acid.
func TestAcidRinseTakesWhatItNeeds(t *testing.T) {
	rinse := func(acid string) *Sheet {
		_, s := run(t, "wash.split=0", "iron.dissolves=0", "wash.acid="+acid)
		return s
	}
	short, one, two := rinse("100"), rinse("1000"), rinse("2000")
	near(t, 100, short.Value(WashSpent), 1e-9, "all of too little")
	near(t, one.Value(WashAcidNeeded), one.Value(WashSpent), 1e-9, "no more than needed")
	near(t, one.Value(WashAcidNeeded), two.Value(WashSpent), 1e-9, "no more than needed")
	near(t, 1061-98.08, two.Value(WashLiquor)-one.Value(WashLiquor), 2e-3, "the water of a litre")
}

// TestCrystalsHoldLiquor: to a gram of crystals so much liquor dries on them, with
// all that is dissolved in it.
func TestCrystalsHoldLiquor(t *testing.T) {
	zinc := func(held string) (jar, liquor, crystals float64) {
		b, s := run(t, "dry.way=crystals", "loss.transfer=0", "crop.taken=0", "crop.held="+held)
		book := b.Book()
		if held == "0" {
			crystals = s.Value(ProductMass)
		}
		return float64(book.Amount(ledger.ProductJar, ZincSulfate)), float64(book.Amount(ledger.MotherLiquor, ZincSulfate)),
			crystals
	}
	clean, whole, crystals := zinc("0")
	assert.Zero(t, clean)
	b, _ := run(t, "dry.way=crystals", "loss.transfer=0", "crop.taken=0", "crop.held=0")
	water := float64(b.Book().Mass(ledger.MotherLiquor, Water))
	jar, rest, _ := zinc("0.2")
	near(t, whole, jar+rest, 1e-9, "zinc")
	near(t, whole*0.2*crystals/water, jar, 1e-9, "zinc in the liquor held")
}

// TestCrystalsTakeTheirCompanions: of zinc, iron(II) and ammonium so much of the share that manganese
// has in them, whichever salt the book has them as, while it has enough as sulfate; the metals
// with the water of their host; nothing else. What is left is saturated.
func TestCrystalsTakeTheirCompanions(t *testing.T) {
	for _, c := range []struct {
		taken, cold string
		waters      float64
	}{{"0", "15", 5}, {"40", "15", 5}, {"60", "5", 7}, {"40", "40", 1}} {
		b, s := run(t, "dry.way=crystals", "loss.transfer=0", "slurry.dithionate=0", "crop.held=0", "crop.taken="+c.taken, "crop.cold="+c.cold)
		book := b.Book()
		there := func(sub Substance) float64 {
			return float64(book.Amount(ledger.ProductJar, sub) + book.Amount(ledger.MotherLiquor, sub))
		}
		jar := func(sub Substance) float64 { return float64(book.Amount(ledger.ProductJar, sub)) }
		var taken, celsius float64
		fmt.Sscan(c.taken, &taken)
		fmt.Sscan(c.cold, &celsius)
		grown := jar(ManganeseSulfate) / there(ManganeseSulfate)
		require.Greater(t, grown, 0.1)
		require.Less(t, grown, 1.0)
		require.Positive(t, there(ZincChloride))
		require.Positive(t, there(FerrousSulfate))
		near(t, taken/100*grown*(there(ZincSulfate)+there(ZincChloride)), jar(ZincSulfate), 1e-9, "zinc at "+c.taken)
		near(t, taken/100*grown*(there(AmmoniumSulfate)+there(AmmoniumChloride)/2), jar(AmmoniumSulfate), 1e-9, "ammonium at "+c.taken)
		assert.Zero(t, jar(ZincChloride)+jar(AmmoniumChloride)+jar(SulfuricAcid))
		near(t, taken/100*grown*there(FerrousSulfate), jar(FerrousSulfate), 1e-9, "iron at "+c.taken)
		near(t, c.waters*(jar(ManganeseSulfate)+jar(ZincSulfate)+jar(FerrousSulfate)), jar(Water), 1e-9, "a hydrate")
		at, err := table.ManganeseSulfateSolubility.At(celsius)
		require.NoError(t, err)
		left := float64(book.Mass(ledger.MotherLiquor, ManganeseSulfate)) / float64(book.Mass(ledger.MotherLiquor, Water)) * 100
		near(t, at, left, 1e-9, "g in 100 g of water at "+c.cold)
		near(t, s.Value(ProductZinc), float64(book.Mass(ledger.ProductJar, ZincSulfate)), 1e-9, "told")
	}
	b, _ := run(t, "dry.way=crystals", "cell.rejects=6")
	assert.Zero(t, b.Book().Amount(ledger.ProductJar, ZincSulfate), "no salt, nothing to grow into")
}

// TestTheDishSetsSolid: where the crystals bind all water, sooner with zinc in them, with seven
// waters sooner than with one; the notice says so.
func TestTheDishSetsSolid(t *testing.T) {
	for _, c := range []struct {
		cold         string
		solid, moves float64 // mL to a gram of salt
	}{{"15", 0.61, 0.75}, {"5", 0.85, 1.05}, {"40", 0.12, 0.3}} {
		base := []string{"dry.way=crystals", "slurry.dithionate=0", "loss.transfer=0", "crop.cold=" + c.cold}
		_, s := run(t, base...)
		salt := s.Value(ProductAnhydrous) + s.Value(CropLeft)/1000*mass(ManganeseSulfate)
		for perGram, solid := range map[float64]bool{c.solid: true, c.moves: false} {
			entries := with(base, "crop.water="+Plain(perGram*salt))
			b, _ := run(t, entries...)
			assert.Equal(t, solid, b.Book().Mass(ledger.MotherLiquor, Water) < 1e-9, "%v mL/g at %s", perGram, c.cold)
			_, told := notice(t, "the whole dish sets solid", entries...)
			assert.Equal(t, solid, told, "%v mL/g at %s", perGram, c.cold)
		}
	}
}

// TestRoundingIsNoLiquor: a cake that holds exactly what it was given drains nothing,
// and the last digits of the arithmetic are not taken for a first drop.
func TestRoundingIsNoLiquor(t *testing.T) {
	for _, weighed := range []string{"90", "100", "110.3", "5000"} {
		_, s := run(t, "mix.washed="+weighed, "wash.held=10", "wash.times=2", "wash.target=1000")
		assert.Equal(t, NothingDrains, s.Reason(WashLast), "4, 3 and 3 mL to the gram are what a gram holds")
		assert.Zero(t, s.Value(WashLiquor))
		assert.NotEqual(t, 2.0, s.Value(WashEnough))
	}
	_, s := run(t, "wash.each=0")
	_, once := run(t, "wash.times=0")
	assert.Equal(t, once.Value(WashLast), s.Value(WashLast), "no water is no wash")
}
