package table

import "embed"

//go:embed data/*.csv
var data embed.FS

// The published tables. Source, standing and notes are in the methods of those
// names, and at the head of the file.
var (
	// AcidDensity is the density of sulfuric acid at 20 °C in g/mL by mass
	// percent H2SO4, 0 to 100 %. It has a maximum near 98 %, so it has no
	// Inverse, and from 92 % on it does not tell the strength.
	// Source: CRC Handbook, 102nd ed., Concentrative Properties.
	AcidDensity = load("acid-density")

	// AcidMolarity is the concentration of sulfuric acid at 20 °C in mol/L by
	// mass percent H2SO4, 0 to 100 %; its Inverse gives the strength of "1 mol/L".
	// Source: CRC Handbook, 102nd ed., Concentrative Properties.
	AcidMolarity = load("acid-molarity")

	// AcidMixingHeat is the heat given off in kJ by one mole of pure H2SO4 when
	// it is thinned with water to the given mass percent, 25 °C, 0.54 to 100 %.
	// Between two strengths the difference counts.
	// Source: Koretsky, Engineering and Chemical Thermodynamics, 2nd ed., Table 6.1.
	AcidMixingHeat = load("acid-mixing-heat")

	// GasMolarVolume is the volume in L of one mole of real SO2 at 1 atm by
	// °C, 0 to 40 °C. Derived.
	// Source: equation of state of Gao et al., J. Chem. Eng. Data (2016).
	GasMolarVolume = load("gas-molar-volume")

	// GasSolubility is the SO2 in g that 100 g of water holds under 1 atm of
	// SO2 by °C, 0 to 100 °C. From memory; good to about 5 %.
	// Source: IUPAC Solubility Data Series vol. 12.
	GasSolubility = load("gas-solubility")

	// ManganeseSulfateSolubility is the anhydrous MnSO4 in g that 100 g of
	// water dissolves by °C, 0 to 100 °C. It falls above 30 °C.
	// Source: CRC Handbook, 91st ed., pp. 8-112 to 8-117.
	ManganeseSulfateSolubility = load("manganese-sulfate-solubility")

	// CopperSulfateSolubility is the anhydrous CuSO4 in g that 100 g of water
	// dissolves by °C, 0 to 100 °C; a pentahydrate brings water of its own.
	// Source: CRC Handbook, 91st ed., pp. 8-112 to 8-117.
	CopperSulfateSolubility = load("copper-sulfate-solubility")

	// CopperSulfateInAcid is the solubility of CuSO4 at 25 °C in sulfuric acid
	// as a fraction of that in water (1 at 0 %), by mass percent H2SO4 in acid
	// and water without the copper, 0 to 50.36 %. From memory, and unsure.
	// Source: Foote, J. Am. Chem. Soc. 37 (1915) 288.
	CopperSulfateInAcid = load("copper-sulfate-in-acid")

	// ManganeseSulfateDensity is the density of MnSO4 solution at 20 °C in
	// g/mL by mass percent MnSO4, 0 to 36 %.
	// Source: CRC Handbook, 102nd ed.; above 20 % Laliberté (2009).
	ManganeseSulfateDensity = load("manganese-sulfate-density")

	// CopperSulfateDensity is the density of CuSO4 solution at 20 °C in g/mL
	// by mass percent CuSO4, 0 to 18 %.
	// Source: CRC Handbook, 102nd ed., Concentrative Properties.
	CopperSulfateDensity = load("copper-sulfate-density")

	// AcidBoiling is the mass percent H2SO4 of the sulfuric acid that boils at a °C, under
	// one atmosphere, 140 to 338 °C. From memory; good to some 5 °C.
	AcidBoiling = load("acid-boiling")

	// PeroxideDensity is the density of hydrogen peroxide at 20 °C in g/mL by mass
	// percent H2O2, 0 to 50 %.
	// Source: Laliberté, J. Chem. Eng. Data 54 (2009) 1725, density equation.
	PeroxideDensity = load("peroxide-density")

	// WaterVapourPressure is the vapour pressure of water in kPa by °C, 0 to
	// 100 °C; straight lines are up to 8 % high between 60 and 80 °C.
	// Source: OpenStax, Appendix E.
	WaterVapourPressure = load("water-vapour-pressure")

	// DithionateShare is the share, 0 to 1, of the reduced equivalents that end
	// as dithionate, by the slurry's °C, 0 to 100 °C. An estimate: only its two
	// ends rest on published values.
	DithionateShare = load("dithionate-share")

	// DithionateDecay is the rate at which dithionate breaks up in acid, of that at 90 °C, by
	// the slurry's °C, 0 to 100 °C. An estimate.
	DithionateDecay = load("dithionate-decay")

	// SplitShare is the share, 0 to 1, of the Mn(III) in reach that ample dilute acid
	// splits, by the slurry's °C, 0 to 100 °C. An estimate.
	SplitShare = load("split-share")
)

// All lists the tables, in the order in which the plan uses them. Heats of formation
// are not among them: see FormationHeat.
func All() []*Table {
	return []*Table{
		DithionateShare, DithionateDecay, SplitShare,
		AcidDensity, AcidMolarity, AcidMixingHeat, AcidBoiling, PeroxideDensity,
		GasMolarVolume, GasSolubility, WaterVapourPressure,
		ManganeseSulfateSolubility, ManganeseSulfateDensity,
		CopperSulfateSolubility, CopperSulfateInAcid, CopperSulfateDensity,
	}
}

// load reads an embedded table. A bad file is a programming error that any test
// finds, so it panics.
func load(name string) *Table {
	t, err := parseTable(name, text(name))
	if err != nil {
		panic(err)
	}
	return t
}

// text gives an embedded data file.
func text(name string) string {
	b, err := data.ReadFile("data/" + name + ".csv")
	if err != nil {
		panic(err)
	}
	return string(b)
}
