package route

import (
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// strongAcid is sulfuric acid as bought.
type strongAcid struct {
	strength float64 // mass fraction H2SO4
	density  float64 // g/mL at 20 °C
	acid     float64 // mol H2SO4 in a mL
	water    float64 // mol H2O in a mL
}

func acidOf(strength quantity.Percent) strongAcid {
	density := at(table.AcidDensity, strength)
	w := strength.Fraction()
	return strongAcid{w, density, density * w / mass(SulfuricAcid), density * (1 - w) / mass(Water)}
}

// oneMolar is the mass percent of 1 mol/L acid, and diluteWater the grams of
// water in a millilitre of it (CRC Handbook, 102nd ed., by table.AcidMolarity
// and table.AcidDensity).
var oneMolar, diluteWater = func() (float64, float64) {
	percent, err := table.AcidMolarity.Inverse(1)
	if err != nil {
		panic(err)
	}
	return percent, acidOf(quantity.Percent(percent)).water * mass(Water)
}()

// mixingHeat is the heat in kJ that a mole of H2SO4 gives off from pure acid to
// a liquor of the given mass percent. Weaker than the table's end, half a percent,
// it stays at the end's value, which the next tenfold dilution would raise by a
// tenth.
func mixingHeat(percent float64) float64 {
	low, high := table.AcidMixingHeat.Range()
	return at(table.AcidMixingHeat, lesser(greater(percent, low), high))
}

// dilution is how to make a volume of 1 mol/L acid from the strong one.
func (a strongAcid) dilution(dilute quantity.Millilitre) (strong, water quantity.Millilitre, rise float64) {
	moles := float64(dilute) / 1000
	if moles == 0 {
		return 0, 0, 0
	}
	v := moles / a.acid
	grams := float64(dilute)*diluteWater - v*a.water*mass(Water)
	heat := moles * (mixingHeat(oneMolar) - mixingHeat(100*a.strength))
	return quantity.Millilitre(v), quantity.Millilitre(greater(0, grams)), heat * 1000 / (waterHeat * float64(dilute) * diluteWater)
}

// waterHeat is the heat capacity of water, J/(g·K). Taking only the water of a
// liquor as what is warmed, every rise told is a little high, which is the safe
// side.
const waterHeat = 4.18

var acidConstants = []Constant{
	{"waterHeat", waterHeat, "J/(g·K)", "heat capacity of water", "75.3 J/(mol·K) at 25 °C: CRC Handbook, Standard Thermodynamic Properties of Chemical Substances"},
}

// aDrop is the grams of water below which there is no liquor to warm.
const aDrop = 0.05
