package reaction

// Discharge of the cell. Linden's Handbook of Batteries, ch. 9 (from memory),
// taken in this order: until the ammonium chloride, the zinc chloride, or the
// stated charge is used up. Larcin et al., Electrochim. Acta 44 (1998) 191 (abstract), tell
// three such stages of a cell with ammonium chloride by the potential of its zinc, and confirm
// the reactions of the first two; with zinc chloride the basic salt takes up more of it.
var (
	DischargeAmmonium = equation("2 MnO2 + Zn + 2 NH4Cl -> 2 MnOOH + Zn(NH3)2Cl2")
	DischargeChloride = equation("8 MnO2 + 4 Zn + ZnCl2 + 9 H2O -> 8 MnOOH + Zn5(OH)8Cl2·H2O")
	DischargeOxide    = equation("2 MnO2 + Zn + H2O -> 2 MnOOH + ZnO")
)

// DischargeDeep is what goes on in a cell that is left in its lamp (Linden's Handbook of
// Batteries, ch. 9, from memory). Khan and Kurny, J. Miner. Mater. Charact. Eng. 11 (2012)
// 641, saw Mn3O4 in spent cells by their X-rays.
var DischargeDeep = equation("6 MnOOH + Zn -> 2 Mn3O4 + ZnO + 3 H2O")

// Ageing of the discharged mix to hetaerolite, by the zinc that it takes.
var (
	AgeOxide    = equation("2 MnOOH + ZnO -> ZnMn2O4 + H2O")
	AgeBasic    = equation("8 MnOOH + Zn5(OH)8Cl2·H2O -> 4 ZnMn2O4 + ZnCl2 + 9 H2O")
	AgeDiammine = equation("2 MnOOH + Zn(NH3)2Cl2 -> ZnMn2O4 + 2 NH4Cl")
)

// Hydrolysis is what diluting with wash water does to the diammine.
var Hydrolysis = equation("5 Zn(NH3)2Cl2 + 9 H2O -> Zn5(OH)8Cl2·H2O + 8 NH4Cl + 2 NH3")

// Dilute acid on what the washed cake holds.
var (
	AcidPotash       = equation("2 KOH + H2SO4 -> K2SO4 + 2 H2O")
	AcidAmmonia      = equation("2 NH3 + H2SO4 -> (NH4)2SO4")
	AcidDiammine     = equation("Zn(NH3)2Cl2 + H2SO4 -> ZnCl2 + (NH4)2SO4")
	AcidBasic        = equation("Zn5(OH)8Cl2·H2O + 4 H2SO4 -> 4 ZnSO4 + ZnCl2 + 9 H2O")
	AcidZincOxide    = equation("ZnO + H2SO4 -> ZnSO4 + H2O")
	SplitManganite   = equation("2 MnOOH + H2SO4 -> MnO2 + MnSO4 + 2 H2O")
	SplitHetaerolite = equation("ZnMn2O4 + 2 H2SO4 -> MnO2 + MnSO4 + ZnSO4 + 2 H2O")
	SplitHausmannite = equation("Mn3O4 + 2 H2SO4 -> MnO2 + 2 MnSO4 + 2 H2O")
)

// Reduction by sulfur dioxide, the sulfate way and the dithionate way
// (Greenwood and Earnshaw, Chemistry of the Elements, 2nd ed., pp. 715-716, for
// the dithionate).
var (
	ReduceDioxide               = equation("MnO2 + SO2 -> MnSO4")
	ReduceDioxideDithionate     = equation("MnO2 + 2 SO2 -> MnS2O6")
	ReduceManganite             = equation("2 MnOOH + SO2 + H2SO4 -> 2 MnSO4 + 2 H2O")
	ReduceManganiteDithionate   = equation("2 MnOOH + 2 SO2 + H2SO4 -> MnS2O6 + MnSO4 + 2 H2O")
	ReduceHetaerolite           = equation("ZnMn2O4 + SO2 + 2 H2SO4 -> 2 MnSO4 + ZnSO4 + 2 H2O")
	ReduceHetaeroliteDithionate = equation("ZnMn2O4 + 2 SO2 + 2 H2SO4 -> MnS2O6 + MnSO4 + ZnSO4 + 2 H2O")
	ReduceHausmannite           = equation("Mn3O4 + SO2 + 2 H2SO4 -> 3 MnSO4 + 2 H2O")
	ReduceHausmanniteDithionate = equation("Mn3O4 + 2 SO2 + 2 H2SO4 -> MnS2O6 + 2 MnSO4 + 2 H2O")
)

// What hot acid does to dithionate while oxide is left: it breaks up to sulfate and gas, which
// the oxide takes at once (counted from the two steps).
var (
	RestDioxide     = equation("MnS2O6 + MnO2 -> 2 MnSO4")
	RestManganite   = equation("MnS2O6 + 2 MnOOH + H2SO4 -> 3 MnSO4 + 2 H2O")
	RestHetaerolite = equation("MnS2O6 + ZnMn2O4 + 2 H2SO4 -> 3 MnSO4 + ZnSO4 + 2 H2O")
	RestHausmannite = equation("MnS2O6 + Mn3O4 + 2 H2SO4 -> 4 MnSO4 + 2 H2O")
)

// What bases take of the gas where no dilute acid is left and the dioxide still is: a
// mole to each two charges, as the dioxide takes the electrons up and binds the protons
// (counted from electrons and charges; no print gives these equations).
var (
	BasePotash    = equation("2 KOH + SO2 + 2 MnO2 -> K2SO4 + 2 MnOOH")
	BaseAmmonia   = equation("2 NH3 + SO2 + 2 MnO2 + 2 H2O -> (NH4)2SO4 + 2 MnOOH")
	BaseDiammine  = equation("Zn(NH3)2Cl2 + SO2 + 2 MnO2 + 2 H2O -> ZnCl2 + (NH4)2SO4 + 2 MnOOH")
	BaseBasic     = equation("Zn5(OH)8Cl2·H2O + 4 SO2 + 8 MnO2 -> 4 ZnSO4 + ZnCl2 + 8 MnOOH + H2O")
	BaseZincOxide = equation("ZnO + SO2 + 2 MnO2 + H2O -> ZnSO4 + 2 MnOOH")
)

// The same, and the reduction of what Mn(III) is left, where neither dilute acid nor
// dioxide is: two moles of gas bring the protons of each mole of acid that is missing.
var (
	GasManganite             = equation("2 MnOOH + 3 SO2 -> MnSO4 + Mn(HSO3)2")
	GasManganiteDithionate   = equation("2 MnOOH + 4 SO2 -> MnS2O6 + Mn(HSO3)2")
	GasHetaerolite           = equation("ZnMn2O4 + 5 SO2 + 2 H2O -> MnSO4 + Mn(HSO3)2 + Zn(HSO3)2")
	GasHetaeroliteDithionate = equation("ZnMn2O4 + 6 SO2 + 2 H2O -> MnS2O6 + Mn(HSO3)2 + Zn(HSO3)2")
	GasHausmannite           = equation("Mn3O4 + 5 SO2 + 2 H2O -> MnSO4 + 2 Mn(HSO3)2")
	GasHausmanniteDithionate = equation("Mn3O4 + 6 SO2 + 2 H2O -> MnS2O6 + 2 Mn(HSO3)2")
	GasPotash                = equation("KOH + SO2 -> KHSO3")
	GasAmmonia               = equation("NH3 + SO2 + H2O -> NH4HSO3")
	GasDiammine              = equation("Zn(NH3)2Cl2 + 2 SO2 + 2 H2O -> ZnCl2 + 2 NH4HSO3")
	GasBasic                 = equation("Zn5(OH)8Cl2·H2O + 8 SO2 -> 4 Zn(HSO3)2 + ZnCl2 + H2O")
	GasZincOxide             = equation("ZnO + 2 SO2 + H2O -> Zn(HSO3)2")
)

// Reduction by hydrogen peroxide with dilute acid, and what the oxide does to
// peroxide that it does not use: it breaks it up (common knowledge of the school
// bench).
var (
	PeroxideDioxide     = equation("MnO2 + H2O2 + H2SO4 -> MnSO4 + O2 + 2 H2O")
	PeroxideManganite   = equation("2 MnOOH + H2O2 + 2 H2SO4 -> 2 MnSO4 + O2 + 4 H2O")
	PeroxideHetaerolite = equation("ZnMn2O4 + H2O2 + 3 H2SO4 -> 2 MnSO4 + ZnSO4 + O2 + 4 H2O")
	PeroxideHausmannite = equation("Mn3O4 + H2O2 + 3 H2SO4 -> 3 MnSO4 + O2 + 4 H2O")
	PeroxideBreaks      = equation("2 H2O2 -> 2 H2O + O2")
)

// Reduction by oxalic acid with dilute acid (De Michelis et al., J. Power Sources
// 172 (2007) 975, for the first), and where dilute acid is short: then oxalic acid
// brings the protons too, and its salts fall out. The oxalate also falls out of a
// liquor that holds both manganese and oxalic acid.
var (
	OxalicDioxide         = equation("MnO2 + H2C2O4 + H2SO4 -> MnSO4 + 2 CO2 + 2 H2O")
	OxalicManganite       = equation("2 MnOOH + H2C2O4 + 2 H2SO4 -> 2 MnSO4 + 2 CO2 + 4 H2O")
	OxalicHetaerolite     = equation("ZnMn2O4 + H2C2O4 + 3 H2SO4 -> 2 MnSO4 + ZnSO4 + 2 CO2 + 4 H2O")
	OxalicHausmannite     = equation("Mn3O4 + H2C2O4 + 3 H2SO4 -> 3 MnSO4 + 2 CO2 + 4 H2O")
	OxalicDioxideBare     = equation("MnO2 + 2 H2C2O4 -> MnC2O4 + 2 CO2 + 2 H2O")
	OxalicManganiteBare   = equation("2 MnOOH + 3 H2C2O4 -> 2 MnC2O4 + 2 CO2 + 4 H2O")
	OxalicHetaeroliteBare = equation("ZnMn2O4 + 4 H2C2O4 -> 2 MnC2O4 + ZnC2O4 + 2 CO2 + 4 H2O")
	OxalicHausmanniteBare = equation("Mn3O4 + 4 H2C2O4 -> 3 MnC2O4 + 2 CO2 + 4 H2O")
	OxalicZincOxide       = equation("ZnO + H2C2O4 -> ZnC2O4 + H2O")
	OxalicBasic           = equation("Zn5(OH)8Cl2·H2O + 4 H2C2O4 -> 4 ZnC2O4 + ZnCl2 + 9 H2O")
	OxalateFalls          = equation("MnSO4 + H2C2O4 -> MnC2O4 + H2SO4")
)

// Iron in the acid slurry: dilute acid dissolves it, and gas that the manganese leaves
// reduces it (balanced from the electrons; the couple of iron and dioxide by Zhang and
// Cheng, Hydrometallurgy 89 (2007) 137). Thrown down: the oxide that was kept back oxidises
// iron(II), and where the acid is taken up iron(III) falls out; soda takes the acid up.
var (
	AcidIron        = equation("2 FeOOH + 3 H2SO4 -> Fe2(SO4)3 + 4 H2O")
	ReduceIron      = equation("2 FeOOH + SO2 + H2SO4 -> 2 FeSO4 + 2 H2O")
	ReduceFerric    = equation("Fe2(SO4)3 + SO2 + 2 H2O -> 2 FeSO4 + 2 H2SO4")
	DioxideOnIron   = equation("2 FeSO4 + MnO2 + 2 H2O -> 2 FeOOH + MnSO4 + H2SO4")
	ManganiteOnIron = equation("FeSO4 + MnOOH -> FeOOH + MnSO4")
	IronFalls       = equation("Fe2(SO4)3 + 4 H2O -> 2 FeOOH + 3 H2SO4")
	SodaOnAcid      = equation("H2SO4 + Na2CO3 -> Na2SO4 + CO2 + H2O")
)

// The gas generators. The sulfide: Pickering, J. Chem. Soc. Trans. 33 (1878)
// 112 (from memory).
var (
	CopperGas        = equation("Cu + 2 H2SO4 -> CuSO4 + SO2 + 2 H2O")
	CopperSide       = equation("5 Cu + 4 H2SO4 -> Cu2S + 3 CuSO4 + 4 H2O")
	MetabisulfiteGas = equation("Na2S2O5 + H2SO4 -> Na2SO4 + 2 SO2 + H2O")
)

// In the dish and in the oven.
var (
	BoilDithionate         = equation("MnS2O6 -> MnSO4 + SO2")
	BoilManganese          = equation("Mn(HSO3)2 -> MnSO3 + SO2 + H2O")
	BoilZinc               = equation("Zn(HSO3)2 -> ZnSO3 + SO2 + H2O")
	BoilAmmonium           = equation("NH4HSO3 -> NH3 + SO2 + H2O")
	AcidOnZincChloride     = equation("ZnCl2 + H2SO4 -> ZnSO4 + 2 HCl")
	AcidOnAmmoniumChloride = equation("2 NH4Cl + H2SO4 -> (NH4)2SO4 + 2 HCl")
)

// Scrub is the gas in washing soda, to the sulfite.
var Scrub = equation("Na2CO3 + SO2 -> Na2SO3 + CO2")
