package section

import "rosesalt/chem/route"

// figuresOf lists the figures of a stage in reading order: those that answer the
// stage's question, and those for the reader who wants more. A test holds that
// every figure of the sheet stands on the page once.
var figuresOf = [route.Stages]struct{ main, more []route.FigureID }{
	route.Cells: {
		[]route.FigureID{route.MixMass, route.MixManganese, route.MixOxide, route.MixCharge, route.CanZinc, route.RodCarbon},
		[]route.FigureID{route.CellsOpened, route.CellsRefused, route.MixDry, route.MixHetaerol, route.AgedReached, route.MixPotash, route.MixAssay, route.AssayLeast, route.AssayMost},
	},
	route.Wash: {
		[]route.FigureID{route.WashLast, route.WashSilver, route.WashEnough, route.WashChloride, route.WashBound, route.WashLiquor},
		[]route.FigureID{route.WashSoakUsed, route.WashEachUsed, route.WashPerGram, route.WashSingle, route.WashCake, route.WashZinc, route.WashAmmonia, route.WashAcidNeeded, route.WashSpent, route.WashManganese, route.WashPotash, route.WashLye},
	},
	route.Batch: {
		[]route.FigureID{route.BatchDamp, route.BatchManganese, route.DemandGas, route.DemandAcid},
		[]route.FigureID{route.BatchDry, route.BatchReserve, route.DemandDithionate, route.DemandBare, route.DemandTimes},
	},
	route.Gas: {
		[]route.FigureID{route.GasVolume, route.GasMade, route.GasLimit, route.GasStrengthEnd, route.GasFlaskLeast, route.GasBubbles},
		[]route.FigureID{route.GasAcidUsed, route.GasCopperUsed, route.GasSaltUsed, route.GasMass, route.GasNeeded, route.GasAcidNeeded, route.GasAcidMass, route.GasCopperNeeded, route.GasSaltNeeded, route.GasHeld, route.GasPurged, route.GasPurgeUsed, route.GasHeadspace, route.GasBatches, route.GasRate},
	},
	route.Slurry: {
		[]route.FigureID{route.SaltUsed, route.PeroxideUsed, route.OxalicUsed, route.StirFroth, route.SlurryAcidStrong, route.SlurryAcidWater, route.ReduceConversion, route.ReduceLeft, route.UptakeTaken, route.VentVolume, route.MetMinute, route.ReduceIce},
		[]route.FigureID{
			route.SlurryWaterUsed, route.SlurryAcidUsed, route.SlurryAcidRise, route.SlurryVolume, route.SlurryBatches, route.UptakeDissolved, route.VentGas, route.ReduceHeat, route.ReduceRise, route.SuckBack, route.EndFirst, route.MetShare, route.MetBubbles, route.AcidSaves, route.SlurrySulfite,
			route.StirServes, route.SaltNeeded, route.SaltFreed, route.PeroxideNeeded, route.PeroxideMass, route.OxalicNeeded, route.OxalicLost,
		},
	},
	route.Filter: {
		[]route.FigureID{route.FiltrateVol, route.RinseLeft0, route.RinseLeft1, route.RinseLeft2, route.RinseLeft3},
		[]route.FigureID{route.RinseUsed, route.ResidueMass, route.ResidueHeld, route.ResidueMn, route.FiltrateSalt, route.FiltrateDens},
	},
	route.Dry: {
		[]route.FigureID{route.ProductMass, route.ProductForm, route.ProductYield, route.ProductPurity, route.DryWater, route.DryHours, route.DryGasVolume},
		[]route.FigureID{route.ProductAnhydrous, route.ProductMono, route.ProductTetra, route.ProductPenta, route.ProductWaters, route.ProductZinc, route.ProductAmmonium, route.ProductChloride, route.ProductDithionate, route.ProductSulfite, route.ProductAcid, route.ProductSodium, route.ProductPotassium, route.ProductOxalate, route.DryEnergy, route.DryGas, route.DryFumes, route.CropWaterUsed, route.CropLeft},
	},
	route.CopperSalt: {
		[]route.FigureID{route.CopperCrop, route.CopperSulfatePenta, route.CopperRise, route.CopperLeft, route.CopperSulfideLeft},
		[]route.FigureID{route.CopperWaterUsed, route.CopperWaterLeast, route.CopperHeat, route.CopperAcid, route.CopperFactorUsed, route.CopperMother, route.CopperMotherAcid, route.CopperVessel},
	},
	route.Waste: {
		[]route.FigureID{route.WasteBase, route.WasteVolume, route.WasteResidue, route.ScrubSoda, route.ScrubHydroxide},
		[]route.FigureID{route.WasteBaseCopper, route.WasteBaseWash, route.WasteBasePink, route.WasteAcid, route.WasteCopper, route.WasteZinc, route.WasteManganese, route.ScrubAdvised, route.ScrubLiquid, route.ScrubHeat, route.ScrubRise, route.RoomPeak, route.RoomMean, route.RoomTimes, route.RoomFlow, route.RoomEscape},
	},
}

// tint is the colour role of the figures that a stage is about.
var tint = map[route.FigureID]string{
	route.ProductMass: "rose", route.CopperCrop: "blue", route.GasVolume: "ochre",
}
