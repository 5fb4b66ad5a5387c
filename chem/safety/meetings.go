package safety

// Sources of the table.
const (
	practice    = "common practice"
	bleachCard  = "ICSC 0482 (2017), apart from acids; the gases by health departments' warnings against mixing bleach with ammonia and with acids"
	acidCard    = "ICSC 0362 (2015): risk of fire and explosion with bases, combustible, oxidizing, reducing and organic substances, and water"
	oxideCard   = "ICSC 0175 (2003): strong oxidant, no contact with combustible substances, no sawdust"
	peroxideSDS = "ICSC 0164 (2018), above 60 %: may ignite combustible materials, fire and explosion with metal catalysts; weaker ones alike by common practice"
	hillFinster = "Hill and Finster, Laboratory Safety for Chemistry Students, as the American Chemical Society prints its list of incompatible chemicals"
	sulfiteSDS  = "supplier's sheet of sodium metabisulfite: contact with acids liberates toxic gas"
	mellor      = "CAMEO Chemicals (NOAA), strong bases with active metals, after Mellor, Modern Inorganic Chemistry (1967), pp. 717 and 745"
	dioxideSum  = "a maker's product summary of manganese dioxide (2012): chlorine with hydrochloric acid"
	carboxylic  = "CAMEO Chemicals (NOAA), carboxylic acids with strong oxidizing acids: nitrogen oxides among the gases; of the others, and of oxalic acid in particular, from memory"
	britannica  = "Encyclopaedia Britannica, 11th ed., vol. 6, Chlorine: made of manganese dioxide, common salt and concentrated sulfuric acid"
	mcPherson   = "McPherson and Henderson, An Elementary Study of Chemistry: metals and concentrated acid; hydrogen sulfide from memory"
	bretherick  = "Bretherick's Handbook of Reactive Chemical Hazards, Silver: fulminate with nitric acid and ethanol; the oxalate explodes at 140 °C"
	kaye        = "Wikipedia, Ammonium permanganate, after Kaye, Encyclopedia of Explosives and Related Items, vol. 8 (1978), p. 178"
	pinkSheet   = "supplier's sheet of potassium permanganate: H272, keep away from combustible materials"
	piranha     = "University of Kentucky, Research Safety, Piranha Solution, for 30 % peroxide; weaker alike by common practice"
	prussiate   = "ABC of Safety in the Biological Sciences, potassium ferrocyanide: hydrocyanic acid with acids; with strong hot ones by common practice"
	silverNews  = "Klinger, Scheele and Steele, Chem. Eng. News 74 (1996), no. 2, p. 2"
)

// meetings, the gravest first. Every thing that a plan makes stands once with every thing of
// the house: as harm, or with the reason why little is to be expected. Of the pairs that a
// plan makes both of, those that harm stand here.
var meetings = [...]Meeting{
	// Chlorine and chloramines.
	{[]Thing{WashLiquor, ZincCans}, []Thing{Bleach}, true, "chloramines, which burn the lungs", "Clean up with water and a little soda, outdoors.", bleachCard},
	{[]Thing{BlackMix}, []Thing{Bleach}, true, "oxygen in a rush, and chloramines where it holds ammonium", "Clean up with water.", bleachCard},
	{
		[]Thing{DiluteAcid, StrongAcid, Slurry, RoseLiquor, PinkLiquor, BlueLiquor, SpentLiquid, BlackResidue, BlackPowder, SilverDrops, PermanganatePapers, PinkSalt, BlueSalt, SpareOxalic},
		[]Thing{Bleach},
		true, "chlorine, which burns the lungs", "Clean up with water and a little soda.", bleachCard,
	},
	{[]Thing{ScrubberLiquid, SpareMetabisulfite}, []Thing{Bleach}, true, "heat, and chlorine as soon as it turns acid", "Clean up with water.", bleachCard},
	{[]Thing{BlackMix, Slurry, BlackResidue, PermanganatePapers}, []Thing{HydrochloricAcid}, true, "chlorine, from the oxide", "Sulfuric acid alone, dilute.", dioxideSum},
	{[]Thing{SparePeroxide}, []Thing{HydrochloricAcid}, true, "chlorine, from strong acid", "", fromMemory},

	// Ammonia.
	{[]Thing{WashLiquor}, []Thing{CausticCleaner, Lime}, true, "ammonia, which chokes", "Soda, outdoors, in small portions, as the bottle's card says.", practice},
	{[]Thing{BlackMix, PinkLiquor, PinkSalt}, []Thing{CausticCleaner, Lime}, true, "ammonia, where it holds ammonium", "Soda, outdoors, in small portions.", practice},
	{[]Thing{Thiocyanate}, []Thing{CausticCleaner, Lime}, true, "a little ammonia, of the ammonium salt", "", practice},
	{[]Thing{WashLiquor}, []Thing{WashLye}, true, "ammonia, which chokes", "Each in its own can.", practice},
	{[]Thing{WashLiquor}, []Thing{Soda}, true, "ammonia, if it is done indoors or all at once", "Outdoors, in small portions.", practice},

	// Sulfur dioxide.
	{[]Thing{ScrubberLiquid, SpareMetabisulfite, SpentLiquid}, []Thing{DiluteAcid, StrongAcid, BlueLiquor, AcidCleaner, HydrochloricAcid, FoodAcid}, true, "sulfur dioxide, which comes back", "", sulfiteSDS},
	{[]Thing{ScrubberLiquid, SpareMetabisulfite, SpentLiquid}, []Thing{RoseLiquor, PinkLiquor}, true, "sulfur dioxide, where they are acid", "", sulfiteSDS},
	{[]Thing{Slurry, RoseLiquor}, []Thing{AcidCleaner}, true, "heat: it spits, and dissolved gas comes out", "The dilute acid of the plan, slowly.", acidCard},

	// What explodes.
	{[]Thing{SilverDrops}, []Thing{Ammonia, WashLiquor, WashLye, CausticCleaner, Lime, Soda}, true, "solids that explode when touched", "Into their jar with a little nitric acid, at once.", silverNews},
	{[]Thing{SilverDrops}, []Thing{Fuel}, true, "with alcohol and nitric acid, an explosive", "", bretherick},
	{[]Thing{SilverDrops}, []Thing{SpareOxalic}, true, "silver oxalate, which goes off when it is dry and warm", "", bretherick},
	{[]Thing{StrongAcid}, []Thing{Permanganate}, true, "an oily oxide that explodes", "The papers take dilute acid alone.", hillFinster},
	{[]Thing{PermanganatePapers}, []Thing{StrongAcid, AcidCleaner}, true, "an oily oxide that explodes", "", hillFinster},
	{[]Thing{WashLiquor}, []Thing{Permanganate}, true, "a salt that can go off when it dries", "", kaye},

	// Prussic acid.
	{[]Thing{Hexacyanoferrate}, []Thing{StrongAcid, AcidCleaner, NitricAcid, HydrochloricAcid}, true, "prussic acid, a deadly gas, when it is hot or strong", "Cold vinegar, in the test.", prussiate},
	{[]Thing{Thiocyanate}, []Thing{StrongAcid, AcidCleaner, HydrochloricAcid}, true, "poisonous gases of sulfur and prussic acid", "A drop of dilute acid, cold, in the test.", fromMemory},
	{[]Thing{Thiocyanate}, []Thing{NitricAcid, Permanganate, PermanganatePapers}, true, "heat, and prussic acid where it is acid", "", fromMemory},
	{[]Thing{Thiocyanate}, []Thing{Peroxide, SparePeroxide}, true, "sulfate and prussic acid, in more than drops", "A drop, in an open tube, as in the test.", fromMemory},
	{[]Thing{Thiocyanate, Hexacyanoferrate}, []Thing{Bleach}, true, "cyanogen chloride, a poison gas", "", fromMemory},

	// Strong acid.
	{[]Thing{StrongAcid, SparePeroxide, PermanganatePapers}, []Thing{NitricAcid}, true, "a mixture that sets fire to what is organic, or makes explosives of it", "", practice},
	{[]Thing{StrongAcid}, []Thing{Peroxide}, true, "heat, and a mixture that sets fire to what is organic", "", piranha},
	{[]Thing{SparePeroxide}, []Thing{StrongAcid, AcidCleaner}, true, "heat, and a mixture that sets fire to what is organic", "", piranha},
	{[]Thing{StrongAcid}, []Thing{Metal, ZincCans, ZincGel}, true, "hydrogen, and when it is hot poisonous gases of sulfur", "", mcPherson},
	{[]Thing{StrongAcid}, []Thing{HydrochloricAcid}, true, "hydrogen chloride, which chokes", "", practice},
	{[]Thing{StrongAcid}, []Thing{FoodAcid}, true, "heat and char; of citric acid carbon monoxide", "", fromMemory},
	{[]Thing{StrongAcid}, []Thing{Fuel}, true, "char, heat and fumes", "Sand or earth for a spill.", acidCard},
	{[]Thing{StrongAcid}, []Thing{CausticCleaner, Lime, Ammonia}, true, "heat: it boils and spits", "Soda in small portions, outdoors, into what is cold and diluted.", acidCard},
	{[]Thing{StrongAcid}, []Thing{AcidCleaner}, true, "tar and foam from its dyes and inhibitors, when it is heated", "", practice},
	{[]Thing{SpareOxalic}, []Thing{StrongAcid, AcidCleaner}, true, "carbon monoxide, when it is warm", "", fromMemory},
	{[]Thing{BlackPowder}, []Thing{StrongAcid, AcidCleaner}, true, "sulfur dioxide from its sulfide, when it is hot", "", practice},
	{[]Thing{WashLye}, []Thing{StrongAcid, AcidCleaner, NitricAcid, HydrochloricAcid}, true, "heat: it boils and spits", "Dilute acid, slowly, stirring.", acidCard},
	{[]Thing{BlackMix, BlackResidue}, []Thing{StrongAcid, AcidCleaner}, true, "heat, and chlorine from chloride that is left in it", "", britannica},
	{[]Thing{WashLiquor, PinkLiquor, PinkSalt}, []Thing{AcidCleaner}, true, "heat, and hydrogen chloride from its chloride", "", fromMemory},
	{[]Thing{DiluteAcid, BlueLiquor, BlueSalt, SilverDrops}, []Thing{AcidCleaner}, true, "heat: it boils and spits", "", acidCard},

	{[]Thing{WashLiquor, DiluteAcid, Slurry, RoseLiquor, PinkLiquor, BlueLiquor}, []Thing{StrongAcid}, true, "heat: it boils and spits, as if it were water", "Acid into plenty of what is cold, slowly, stirring.", acidCard},

	// Hydrogen.
	{[]Thing{Slurry, RoseLiquor, SpentLiquid}, []Thing{Metal, ZincCans, ZincGel}, true, "hydrogen, which burns, and of dissolved gas poisonous hydrogen sulfide", "Plastic or glass, no closed jar.", fromMemory},
	{[]Thing{DiluteAcid, PinkLiquor, BlueLiquor, SpareOxalic, WashLye}, []Thing{Metal, ZincCans, ZincGel}, true, "hydrogen, which burns", "Plastic or glass, no closed jar.", practice},
	{[]Thing{BlueSalt}, []Thing{Metal, ZincCans, ZincGel}, true, "heat and some hydrogen, once it is wet: copper plates out", "Plastic or glass.", practice},
	{[]Thing{ZincCans, ZincGel}, []Thing{AcidCleaner, HydrochloricAcid, FoodAcid}, true, "hydrogen, which burns", "Rinsed, dry, by themselves.", practice},
	{[]Thing{ZincGel}, []Thing{Metal}, true, "hydrogen, which burns", "Wet, in plastic, the lid loose.", mellor},
	{[]Thing{WashLye, ScrubberLiquid, ZincCans, ZincGel}, []Thing{CausticCleaner}, true, "hydrogen, which burns, from zinc or from the aluminium in it", "", mellor},
	{[]Thing{ZincCans, ZincGel}, []Thing{Lime}, true, "hydrogen, slowly: a closed jar bursts", "", mellor},

	// Nitric acid.
	{[]Thing{WashLiquor, BlackMix, BlackResidue}, []Thing{NitricAcid}, true, "chlorine and brown nitrogen dioxide, from strong acid", "A drop of it dilute, for the silver test.", fromMemory},
	{[]Thing{Slurry, RoseLiquor, SpentLiquid, ScrubberLiquid, SpareMetabisulfite, SpareOxalic}, []Thing{NitricAcid}, true, "brown nitrogen dioxide, which harms the lungs hours later", "", carboxylic},
	{[]Thing{ZincCans, ZincGel, BlackPowder}, []Thing{NitricAcid}, true, "brown nitrogen dioxide, which harms the lungs hours later, from any metal", "", practice},
	{[]Thing{SilverDrops}, []Thing{Metal, ZincCans, ZincGel}, true, "hydrogen, or brown nitrogen dioxide from their nitric acid", "", practice},

	// Oxidisers.
	{[]Thing{ScrubberLiquid, SpareMetabisulfite, SpentLiquid, SpareOxalic, SparePeroxide}, []Thing{Permanganate, PermanganatePapers}, true, "heat: it boils up, and dry it can catch fire", "", practice},
	{[]Thing{SpentLiquid, ScrubberLiquid, SpareMetabisulfite}, []Thing{Peroxide}, true, "heat: it boils up", "", practice},
	{[]Thing{BlackMix, BlackResidue}, []Thing{Peroxide, SparePeroxide}, true, "oxygen in a rush: froth, heat, a burst bottle", "Drops alone, in an open vessel.", peroxideSDS},
	{[]Thing{Slurry, PermanganatePapers}, []Thing{Peroxide}, true, "oxygen in a rush: froth, heat, a burst bottle", "Drops alone, in an open vessel.", peroxideSDS},
	{[]Thing{SparePeroxide}, []Thing{Fuel}, true, "fire, where it dries in", "Flood a spill with water.", peroxideSDS},
	{[]Thing{SparePeroxide}, []Thing{Bleach, CausticCleaner, Lime, Soda, Ammonia, Metal}, true, "oxygen: a closed bottle bursts", "", "metals by " + hillFinster + "; the rest common practice"},
	{[]Thing{SparePeroxide}, []Thing{FoodAcid}, true, "peracetic acid, which burns eyes and airways", "", fromMemory},
	{[]Thing{RoseLiquor, PinkLiquor, BlueLiquor, BlackPowder, SilverDrops, PinkSalt, BlueSalt, ZincCans, ZincGel}, []Thing{Peroxide, SparePeroxide}, true, "oxygen, since metals and their salts break it up: a closed bottle bursts", "", hillFinster},
	{[]Thing{WashLye}, []Thing{Peroxide, SparePeroxide}, true, "oxygen: a closed bottle bursts", "", practice},
	{[]Thing{BlackMix, BlackResidue}, []Thing{Fuel}, true, "fire that it feeds, once dry", "Damp, in a lidded pail.", oxideCard},
	{[]Thing{PermanganatePapers}, []Thing{Fuel}, true, "fire, once dry", "Keep them wet.", pinkSheet},
	{[]Thing{BlackMix, BlackResidue, BlackPowder, ZincGel}, []Thing{Permanganate}, true, "fire, once dry", "", pinkSheet + "; that carbon, sulfide and fine zinc burn with it, common practice"},
	{[]Thing{Slurry, RoseLiquor, PinkLiquor, BlueLiquor}, []Thing{Permanganate}, true, "heat, and oxygen or chlorine", "", fromMemory},
	{[]Thing{ZincGel}, []Thing{Bleach}, true, "heat: fine metal and a strong oxidiser", "", practice},

	// Heat, and what spoils the work.
	{[]Thing{DiluteAcid, Slurry, RoseLiquor, BlueLiquor, SpentLiquid, SpareOxalic, SpareMetabisulfite}, []Thing{CausticCleaner}, true, "heat: it boils and spits; from aluminium in it hydrogen", "Soda in small portions, outdoors.", practice},
	{[]Thing{DiluteAcid, Slurry, RoseLiquor, BlueLiquor, SpentLiquid}, []Thing{Lime}, true, "heat: quicklime makes it boil and spit", "Soda in small portions, outdoors.", practice},
	{[]Thing{BlueLiquor}, []Thing{WashLiquor, Ammonia}, true, "copper that stays in solution: ammonia holds it", "", practice},
	{[]Thing{BlueSalt}, []Thing{Ammonia}, true, "copper that stays in solution: ammonia holds it", "", practice},
	{[]Thing{PinkLiquor}, []Thing{BlueLiquor}, true, "copper in the next crop", "", practice},

	// Considered, and little to be expected.
	{[]Thing{Thiocyanate, Hexacyanoferrate}, []Thing{FoodAcid}, false, "too weak, while it is cold; so it serves in the test", "", practice},
	{[]Thing{Thiocyanate, Hexacyanoferrate}, []Thing{Soda, Ammonia, Metal, Fuel}, false, "nothing that is felt in such amounts", "", practice},
	{[]Thing{Hexacyanoferrate}, []Thing{CausticCleaner, Lime}, false, "it bears base", "", practice},
	{[]Thing{Hexacyanoferrate}, []Thing{Permanganate, Peroxide}, false, "it turns to the red salt, and no more", "", fromMemory},
	{[]Thing{WashLye}, []Thing{Bleach}, false, "both are alkaline; it stays lye", "", practice},
	{[]Thing{WashLye, ScrubberLiquid}, []Thing{Lime, Soda}, false, "base to base; it stays lye, or sulfite", "", practice},
	{[]Thing{SpareMetabisulfite}, []Thing{Lime, Soda}, false, "it turns to sulfite, with some heat; soda froths", "", practice},
	{[]Thing{DiluteAcid, StrongAcid, Slurry, RoseLiquor, BlueLiquor, SpentLiquid, SpareOxalic}, []Thing{Soda}, false, "carbon dioxide froths, and takes dissolved gas along: so acid is taken up, cold and diluted, outdoors, in small portions, the jar half full", "", practice},
	{[]Thing{PinkLiquor, PinkSalt}, []Thing{Soda}, false, "its metals fall out, with a trace of ammonia: outdoors, as its card says", "", practice},
	{[]Thing{BlackMix}, []Thing{Soda}, false, "a trace of ammonia, where it holds ammonium", "", practice},
	{[]Thing{SpareOxalic}, []Thing{Lime}, false, "chalky oxalate: it takes up the last of a spill", "", practice},
	{[]Thing{BlackResidue, BlackPowder, PermanganatePapers}, []Thing{CausticCleaner, Lime, Soda}, false, "nothing in it answers to base, once it is rinsed", "", practice},
	{[]Thing{BlueSalt}, []Thing{CausticCleaner, Lime, Soda}, false, "a blue sludge and some heat; as poisonous as before", "", practice},
	{[]Thing{ZincCans, ZincGel}, []Thing{Soda}, false, "soda hardly touches zinc", "", practice},
	{[]Thing{WashLiquor, DiluteAcid, RoseLiquor, PinkLiquor, BlueLiquor, BlackPowder, PinkSalt, BlueSalt, SpareOxalic}, []Thing{HydrochloricAcid}, false, "no gas but its own fumes and what was dissolved; it fouls the salt", "", practice},
	{[]Thing{SilverDrops}, []Thing{HydrochloricAcid}, false, "white silver chloride, as in the test", "", practice},
	{[]Thing{WashLye}, []Thing{FoodAcid}, false, "some heat: it is for lye on the table, never on skin", "", practice},
	{
		[]Thing{WashLiquor, BlackMix, DiluteAcid, Slurry, RoseLiquor, PinkLiquor, BlueLiquor, BlackResidue, BlackPowder, SilverDrops, PermanganatePapers, PinkSalt, BlueSalt, SpareOxalic},
		[]Thing{FoodAcid},
		false, "too weak to set more than a little carbon dioxide free", "", practice,
	},
	{[]Thing{DiluteAcid, PinkLiquor, BlueLiquor, PinkSalt, BlueSalt}, []Thing{NitricAcid}, false, "an acid more, and no gas while it is dilute", "", practice},
	{[]Thing{SilverDrops}, []Thing{NitricAcid}, false, "they stand in it, dilute", "", practice},
	{[]Thing{WashLye, DiluteAcid, SilverDrops, PermanganatePapers, PinkSalt, BlueSalt, ZincCans}, []Thing{Permanganate}, false, "no gas from a pink solution; it stains, and stays an oxidiser", "", practice},
	{[]Thing{WashLiquor, DiluteAcid, SparePeroxide, SpareOxalic}, []Thing{Peroxide}, false, "it weakens slowly, with some oxygen: no closed bottle", "", practice},
	{[]Thing{DiluteAcid, Slurry, RoseLiquor, PinkLiquor, SpentLiquid, SpareOxalic, SpareMetabisulfite}, []Thing{Ammonia}, false, "some heat, and a white mist where the vapours meet", "", practice},
	{[]Thing{WashLiquor, WashLye, BlackMix, ScrubberLiquid, BlackResidue, BlackPowder, PermanganatePapers, PinkSalt, ZincCans, ZincGel}, []Thing{Ammonia}, false, "ammonia's own vapour and no more; lye drives it out faster", "", practice},
	{[]Thing{WashLiquor, BlackMix, ScrubberLiquid, BlackResidue, SpareMetabisulfite}, []Thing{Metal}, false, "it eats metal slowly, with some hydrogen: plastic, the lid loose", "", "ICSC 1051 for ammonium chloride on copper; the rest common practice"},
	{[]Thing{BlackPowder, PermanganatePapers, PinkSalt, ZincCans}, []Thing{Metal}, false, "nothing while it is cold", "", practice},
	{
		[]Thing{WashLiquor, WashLye, DiluteAcid, Slurry, RoseLiquor, PinkLiquor, BlueLiquor, SpentLiquid, ScrubberLiquid, BlackPowder, PinkSalt, BlueSalt, ZincCans, ZincGel, SpareMetabisulfite, SpareOxalic},
		[]Thing{Fuel},
		false, "it feeds no fire; what is acid chars paper as it dries", "", practice,
	},
}
