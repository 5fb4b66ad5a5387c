package route

import (
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

func TestGivenChargesAreBookedAsGiven(t *testing.T) {
	// 40 mL of 96 % acid on 50 g of salt: 0.263 mol reacts, the rest must be made safe.
	p := planOf(t, "gas.salt=50", "gas.acid=40", "gas.source=metabisulfite")
	s := new(Bench).Run(p)
	assert.Greater(t, s.Value(GasStrengthEnd), 40.0)
	assert.InDelta(t, (0.7185-0.2630)*105.988, s.Value(WasteBaseCopper), 3)
	assert.Equal(t, "metabisulfite", s.Word(GasLimit))
}

func TestBlankPartnerFollowsTheGivenCharge(t *testing.T) {
	p := planOf(t, "gas.copper=5")
	s := new(Bench).Run(p)
	assert.Equal(t, "copper", s.Word(GasLimit))
	assert.Less(t, s.Value(GasAcidUsed), 15.0, "no more acid than five grams of copper can use")
	assert.Greater(t, s.Value(GasAcidNeeded), 40.0, "the needed figures speak of the whole demand")

	p = planOf(t, "gas.acid=20")
	s = new(Bench).Run(p)
	assert.Equal(t, "acid", s.Word(GasLimit))
	assert.InDelta(t, s.Value(CopperSulfatePenta)/249.677*63.546+s.Value(CopperSulfideLeft)/159.152*2*63.546, s.Value(GasCopperUsed), 1e-6,
		"all copper that is told to be weighed is in the salt or the sulfide")
}

func TestNothingToReduceNeedsNothing(t *testing.T) {
	p := planOf(t, "cell.rejects=6", "gas.source=metabisulfite")
	s := new(Bench).Run(p)
	assert.Zero(t, s.Value(GasSaltUsed))
	assert.Zero(t, s.Value(GasMade))
}

func TestBlankCopperWaterKeepsThePentahydrate(t *testing.T) {
	p := planOf(t, "gas.copper=5", "gas.acid=100")
	s := new(Bench).Run(p)
	assert.LessOrEqual(t, s.Value(CopperAcid), 45.1)
	assert.Equal(t, Defined, s.Reason(CopperCrop))
}

func TestSplittingFirstChangesNoHeat(t *testing.T) {
	// Hess: the heat depends on the ends, not on whether acid or gas comes first.
	none := planOf(t, "slurry.split=0", "gas.excess=50")
	all := planOf(t, "slurry.split=100", "gas.excess=50")
	a, b := new(Bench).Run(none).Value(ReduceHeat), new(Bench).Run(all).Value(ReduceHeat)
	assert.InDelta(t, a, b, 1e-6*a)
}

func TestCrystalsCarryLiquor(t *testing.T) {
	p := planOf(t, "dry.way=crystals")
	s := new(Bench).Run(p)
	assert.Greater(t, s.Value(ProductMass), 0.0)
	assert.Less(t, s.Value(ProductPurity), 99.5)
	assert.Greater(t, s.Value(CropLeft), 0.0)
}

func TestPrintRoundsToWhatIsRead(t *testing.T) {
	for v, want := range map[float64]string{99.6: "100", 99.4: "99", 9.96: "10", 9.94: "9.9", 0.9996: "1", 1234: "1230", 12345: "12\u202f300", -4.26: "−4.3", 0: "0"} {
		assert.Equal(t, want, Print(v, ""), "%g", v)
	}
}
