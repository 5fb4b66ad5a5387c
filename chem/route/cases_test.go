package route

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTwoNumbersAreNotOne(t *testing.T) {
	in, _ := InputByKey("wash.soak")
	for _, text := range []string{"12 13", "2 5", "1 00", "1 2 000"} {
		_, err := in.Read(text)
		assert.Error(t, err, text)
	}
	v, err := in.Read("1 234,5 mL")
	require.NoError(t, err)
	assert.Equal(t, 1234.5, v)
}

func TestEndlessNumbersAreNotRead(t *testing.T) {
	in, _ := InputByKey("slurry.water")
	for _, text := range []string{"1e999", "-1e999"} {
		_, err := in.Read(text)
		assert.ErrorContains(t, err, "cannot be read", text)
	}
}

func TestPowersOfTenAndLongNumbers(t *testing.T) {
	in, _ := InputByKey("slurry.water")
	long := strings.Repeat("0", 397) + "512"
	require.Len(t, long, 400, "the longest that is read")
	for text, want := range map[string]float64{"1e0": 1, "2e10 mL": 2e10, "5E+09": 5e9, "1.5e-10": 1.5e-10, "9e90": 9e90, long: 512} {
		v, err := in.Read(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, v, text)
	}
	for _, text := range []string{"0" + long, "e5", "1e", "1e+", "1e5e"} {
		_, err := in.Read(text)
		assert.ErrorContains(t, err, "cannot be read", text)
	}
}

func TestRefusalsNameWhatIsOffered(t *testing.T) {
	p := planOf(t)
	assert.EqualError(t, input(t, "dry.way").Choose(p, "oven"), "“oven” is not offered. Choose one of: dry, crystals.")
	for v, want := range map[float64]string{1e4 + 1: "10 001 mL is above the limit of 10 000 mL.", 1e14: "100 000 000 000 000 mL", 1e15: "1e+15 mL"} {
		err := input(t, "gas.water").Set(p, v)
		require.Error(t, err)
		assert.Contains(t, strings.ReplaceAll(err.Error(), thin, " "), want)
	}
}

func TestThousandsOrDecimals(t *testing.T) {
	in, _ := InputByKey("wash.soak")
	for _, text := range []string{"1,000", "12,500", "125,000", "1,999", "-1,000 mL", "1.000", "12.500 mL"} {
		_, err := in.Read(text)
		assert.ErrorContains(t, err, "may be one and a bit", text)
	}
	_, err := in.Read("1.000 mL")
	assert.EqualError(t, err, "“1.000 mL” may be one and a bit or a thousand and more. Type 1.00 mL or 1000 mL.")
	for text, want := range map[string]float64{"0,125": 0.125, "1,5": 1.5, "1,0000": 1, "1,234.5": 1234.5, "12.345": 12.345, "0.100": 0.1, "1.0000": 1, "1 234.500": 1234.5} {
		v, err := in.Read(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, v, text)
	}
}

func TestLeftoverMetabisulfiteWantsSoda(t *testing.T) {
	few := new(Runner).Run(planOf(t, "gas.source=metabisulfite", "gas.acid=5", "gas.salt=30")).Value(WasteBaseCopper)
	many := new(Runner).Run(planOf(t, "gas.source=metabisulfite", "gas.acid=5", "gas.salt=100")).Value(WasteBaseCopper)
	assert.InDelta(t, 70/190.095*105.988, many-few, 1e-3, "a mole of soda to a mole of salt")
}

func TestWaterToHaveReadyIsAllOfIt(t *testing.T) {
	amount := func(name string, entries ...string) float64 {
		p := planOf(t, entries...)
		for _, n := range Reagents(p, new(Runner).Run(p)) {
			if n.Name == name {
				return n.Amount
			}
		}
		return 0
	}
	open := "slurry.vessel=open" // no scrubber
	assert.InDelta(t, 372.3, amount("Tap water", "wash.acid=165", open)-amount("Tap water", open), 0.1, "one more wash after the acid")
	liquid := new(Runner).Run(planOf(t)).Value(ScrubLiquid)
	assert.InDelta(t, liquid, amount("Tap water")-amount("Tap water", open), 1e-9, "the scrubber")
	p := planOf(t, "wash.acid=165")
	sheet := new(Runner).Run(p)
	rest := sheet.Value(SlurryWaterUsed) + sheet.Value(SlurryAcidWater) + p.RinseTimes*sheet.Value(RinseUsed) + sheet.Value(CopperWaterUsed) + DistilledWashes*sheet.Value(WashEachUsed)
	assert.InDelta(t, 158, amount("Distilled water or rain", "wash.acid=165")-rest, 1, "water for the dilute acid of the rinse")
	assert.InDelta(t, 270, amount("Distilled water or rain", "gas.source=metabisulfite", "gas.water=300")-amount("Distilled water or rain", "gas.source=metabisulfite"), 1e-6)
}

func TestTooLittleHotWaterIsTold(t *testing.T) {
	p := planOf(t, "copper.water=100", "copper.hot=30")
	said := ""
	for _, n := range Notices(p, new(Runner).Run(p)) {
		said += n.Text
	}
	assert.Contains(t, said, "do not dissolve all the salt")
}

func TestGivenChargesAreBookedAsGiven(t *testing.T) {
	// 40 mL of 96 % acid on 50 g of salt: 0.263 mol reacts, the rest must be made safe.
	p := planOf(t, "gas.salt=50", "gas.acid=40", "gas.source=metabisulfite")
	s := new(Runner).Run(p)
	assert.Greater(t, s.Value(GasStrengthEnd), 40.0)
	assert.InDelta(t, (0.7185-0.2630)*105.988, s.Value(WasteBaseCopper), 3)
	assert.Equal(t, "metabisulfite", s.Word(GasLimit))
}

func TestBlankPartnerFollowsTheGivenCharge(t *testing.T) {
	p := planOf(t, "gas.copper=5")
	s := new(Runner).Run(p)
	assert.Equal(t, "copper", s.Word(GasLimit))
	assert.Less(t, s.Value(GasAcidUsed), 15.0, "no more acid than five grams of copper can use")
	assert.Greater(t, s.Value(GasAcidNeeded), 30.0, "the needed figures speak of the whole demand")

	for over, times := range map[string]float64{"0": 1, "15": 1.15} {
		p = planOf(t, "gas.acid=20", "gas.copper.over="+over)
		s = new(Runner).Run(p)
		assert.Equal(t, "acid", s.Word(GasLimit))
		reacted := s.Value(CopperSulfatePenta)/249.677*63.546 + s.Value(CopperSulfideLeft)/159.152*2*63.546
		assert.InDelta(t, times*reacted, s.Value(GasCopperUsed), 1e-6, "copper to be weighed is in the salt or the sulfide, or over")
		assert.InDelta(t, (times-1)*reacted, s.Value(CopperLeft), 1e-6)
	}
}

func TestNothingToReduceNeedsNothing(t *testing.T) {
	p := planOf(t, "cell.rejects=6", "gas.source=metabisulfite")
	s := new(Runner).Run(p)
	assert.Zero(t, s.Value(GasSaltUsed))
	assert.Zero(t, s.Value(GasMade))
}

func TestBlankCopperWaterKeepsThePentahydrate(t *testing.T) {
	p := planOf(t, "gas.copper=5", "gas.acid=100")
	s := new(Runner).Run(p)
	assert.InDelta(t, 45, s.Value(CopperAcid), 1e-9, "just so much water that the acid is no stronger")
	assert.Equal(t, Defined, s.Reason(CopperCrop))
}

func TestSplittingFirstChangesNoHeat(t *testing.T) {
	// Hess: the heat depends on the ends, not on whether acid or gas comes first.
	none := planOf(t, "slurry.split=0", "gas.excess=50")
	all := planOf(t, "slurry.split=100", "gas.excess=50")
	a, b := new(Runner).Run(none).Value(ReduceHeat), new(Runner).Run(all).Value(ReduceHeat)
	assert.InDelta(t, a, b, 1e-6*a)
}

func TestCrystalsCarryLiquor(t *testing.T) {
	p := planOf(t, "dry.way=crystals")
	s := new(Runner).Run(p)
	assert.Greater(t, s.Value(ProductMass), 0.0)
	assert.Less(t, s.Value(ProductPurity), 99.5)
	assert.Greater(t, s.Value(CropLeft), 0.0)
}

func TestPrintRoundsToWhatIsRead(t *testing.T) {
	for v, want := range map[float64]string{99.6: "100", 99.4: "99", 9.96: "10", 9.94: "9.9", 0.9996: "1", 1234: "1230", 12345: "12\u202f300", -4.26: "−4.3", 0: "0"} {
		assert.Equal(t, want, Print(v, ""), "%g", v)
	}
}
