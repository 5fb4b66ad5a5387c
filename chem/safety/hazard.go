package safety

import (
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// Code is the code of a hazard or precautionary statement, such as H318, P280 or EUH031.
type Code string

// Signal is the signal word of a label; empty where none is due.
type Signal string

// The signal words. Danger takes the place of Warning.
const (
	NoSignal Signal = ""
	Warning  Signal = "Warning"
	Danger   Signal = "Danger"
)

// Pictogram is the code of a hazard pictogram; empty where none is due.
type Pictogram string

// The pictograms that this route needs.
const (
	NoPictogram Pictogram = ""
	Corrosion   Pictogram = "GHS05"
	Exclamation Pictogram = "GHS07"
	Health      Pictogram = "GHS08"
	Environment Pictogram = "GHS09"
)

// Statement is a statement with its words.
type Statement struct {
	Code  Code
	Words string
}

// hazard is a hazard statement with what it puts on a label.
type hazard struct {
	Statement
	signal    Signal
	pictogram Pictogram
	gives     []Code // weaker statements that it makes needless
	care      []Code // precautionary statements
}

// hazards in the order in which a label shows them. Words: GHS, annex 3, and for EUH031
// Regulation (EC) No 1272/2008 (CLP), annex II, 1.2.2. Signal words and pictograms: the
// tables of label elements in CLP, annex I, parts 2 to 4 (2.16.2, 3.1.3, 3.2.5, 3.3.5,
// 3.8.4, 3.9.5, 4.1.4), held against testdata/published/label-elements.csv, which says for
// each where it was read; those of H290, the word of H335 and EUH031 from memory.
// The precautionary statements are a choice of those that the tables list.
var hazards = [...]hazard{
	{Statement{"H290", "May be corrosive to metals."}, Warning, Corrosion, nil, []Code{"P390"}},
	{
		Statement{"H314", "Causes severe skin burns and eye damage."},
		Danger, Corrosion,
		[]Code{"H318", "H315", "H319"},
		[]Code{"P260", "P280", "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P310"},
	},
	{Statement{"H318", "Causes serious eye damage."}, Danger, Corrosion, []Code{"H319"}, []Code{"P280", "P305+P351+P338", "P310"}},
	{Statement{"H315", "Causes skin irritation."}, Warning, Exclamation, nil, []Code{"P280", "P302+P352"}},
	{Statement{"H319", "Causes serious eye irritation."}, Warning, Exclamation, nil, []Code{"P280", "P305+P351+P338"}},
	{Statement{"H302", "Harmful if swallowed."}, Warning, Exclamation, nil, []Code{"P270", "P301+P312"}},
	{Statement{"H312", "Harmful in contact with skin."}, Warning, Exclamation, nil, []Code{"P280", "P302+P352"}},
	{Statement{"H332", "Harmful if inhaled."}, Warning, Exclamation, nil, []Code{"P260", "P304+P340"}},
	{Statement{"H335", "May cause respiratory irritation."}, Warning, Exclamation, nil, []Code{"P260", "P304+P340"}},
	{Statement{"H373", "May cause damage to organs through prolonged or repeated exposure."}, Warning, Health, nil, []Code{"P260", "P314"}},
	{Statement{"H400", "Very toxic to aquatic life."}, Warning, Environment, nil, []Code{"P273", "P391"}},
	{Statement{"H410", "Very toxic to aquatic life with long lasting effects."}, Warning, Environment, []Code{"H400", "H411", "H412"}, []Code{"P273", "P391"}},
	{Statement{"H411", "Toxic to aquatic life with long lasting effects."}, NoSignal, Environment, []Code{"H412"}, []Code{"P273", "P391"}},
	{Statement{"H412", "Harmful to aquatic life with long lasting effects."}, NoSignal, NoPictogram, nil, []Code{"P273"}},
	{Statement{"EUH031", "Contact with acids liberates toxic gas."}, NoSignal, NoPictogram, nil, nil},
}

// precautions, the most needed first. Words: GHS, annex 3 (from memory), in the numbers
// of CLP, annex IV; the newest editions of the GHS number the calls for a doctor anew.
var precautions = [...]Statement{
	{"P280", "Wear protective gloves, clothing, eye and face protection."},
	{"P305+P351+P338", "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing."},
	{"P310", "Immediately call a POISON CENTER or doctor."},
	{"P303+P361+P353", "IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water."},
	{"P260", "Do not breathe dust, fumes or mist."},
	{"P273", "Avoid release to the environment."},
	{"P301+P330+P331", "IF SWALLOWED: Rinse mouth. Do NOT induce vomiting."},
	{"P301+P312", "IF SWALLOWED: Call a POISON CENTER or doctor if you feel unwell."},
	{"P304+P340", "IF INHALED: Remove person to fresh air and keep comfortable for breathing."},
	{"P302+P352", "IF ON SKIN: Wash with plenty of water."},
	{"P314", "Get medical advice if you feel unwell."},
	{"P391", "Collect spillage."},
	{"P270", "Do not eat, drink or smoke when using this product."},
	{"P390", "Absorb spillage to prevent material damage."},
}

// disposal stands on every label with a hazard.
var disposal = Statement{"P501", "Dispose of contents and container to hazardous-waste collection, in accordance with local rules."}

// mostPrecautions is how many stand on a label (CLP, article 28(3): not more than six
// unless the hazard asks for them).
const mostPrecautions = 6

func hazardOf(c Code) *hazard {
	for i := range hazards {
		if hazards[i].Code == c {
			return &hazards[i]
		}
	}
	panic("safety: no hazard statement " + string(c))
}

// OnLabel puts codes in the order of a label, each once, and leaves out those that a
// graver one makes needless (CLP, article 27 and annex III, part 1).
func OnLabel(codes []Code) []Code {
	var list []Code
	for i := range hazards {
		c := hazards[i].Code
		if slices.Contains(codes, c) && !slices.ContainsFunc(codes, func(g Code) bool { return slices.Contains(hazardOf(g).gives, c) }) {
			list = append(list, c)
		}
	}
	return list
}

// SignalOf is the signal word of codes.
func SignalOf(codes []Code) Signal {
	word := NoSignal
	for _, c := range codes {
		switch s := hazardOf(c).signal; {
		case s == Danger:
			return Danger
		case s == Warning:
			word = Warning
		}
	}
	return word
}

// PictogramsOf are the pictograms of codes. Where corrosion stands for skin or eyes, the
// exclamation mark does not stand for their irritation (CLP, article 26(1)(c)). Where it
// stands for metals alone the mark is kept: the stricter reading.
func PictogramsOf(codes []Code) []Pictogram {
	burns := slices.Contains(codes, "H314") || slices.Contains(codes, "H318")
	var list []Pictogram
	for _, p := range [...]Pictogram{Corrosion, Exclamation, Health, Environment} {
		if slices.ContainsFunc(codes, func(c Code) bool {
			return hazardOf(c).pictogram == p && !(burns && (c == "H315" || c == "H319"))
		}) {
			list = append(list, p)
		}
	}
	return list
}

// precautionsOf are a few precautionary statements for codes, in the order of their codes.
func precautionsOf(codes []Code) []Statement {
	if len(codes) == 0 {
		return nil
	}
	var list []Statement
	for _, p := range precautions {
		if len(list) < mostPrecautions-1 && slices.ContainsFunc(codes, func(c Code) bool { return slices.Contains(hazardOf(c).care, p.Code) }) {
			list = append(list, p)
		}
	}
	slices.SortFunc(list, func(a, b Statement) int {
		if a.Code < b.Code {
			return -1
		}
		return 1
	})
	return append(list, disposal)
}

// Class is how a pure substance is classified, and from where. Where the lists of
// authorities and suppliers' safety data sheets disagree, the stricter statement stands;
// but a sheet does not stand against a list that rests on a published dose: one sheet
// calls copper sulfate toxic, not harmful, if swallowed.
type Class struct {
	Substance reaction.Substance
	Codes     []Code
	Source    string
	Standing  string // "published", "from memory" or "estimate", as in testdata/published
	// Limits of its own in a mixture; 0 for the general ones.
	burns, irritates, breath quantity.Percent
	blinds, reddens          quantity.Percent // eyes and skin, where they have limits apart from burns and irritates
	acute, chronic           float64          // multiplying factors for aquatic life; 0 for 1
}

const (
	published  = "published"
	fromMemory = "from memory"
	estimate   = "estimate"
)

// classes of all substances that bear a statement. What is not here bears none that the
// sources name: water, carbon, silica, rust, massive zinc and copper, and the sulfates of
// sodium and ammonium.
var classes = [...]Class{
	{
		Substance: reaction.ManganeseDioxide, Codes: []Code{"H302", "H332", "H373"}, Standing: published,
		Source: "supplier's sheet of 2014 for H302 and H332, as CLP annex VI 025-001-00-3; H373 by some suppliers, from memory",
	},
	{Substance: reaction.Manganite, Codes: []Code{"H302", "H332", "H373"}, Source: "as manganese dioxide", Standing: estimate},
	{Substance: reaction.Hetaerolite, Codes: []Code{"H302", "H332", "H373"}, Source: "as manganese dioxide", Standing: estimate},
	{Substance: reaction.Hausmannite, Codes: []Code{"H302", "H332", "H373"}, Source: "as manganese dioxide", Standing: estimate},
	{Substance: reaction.AmmoniumChloride, Codes: []Code{"H302", "H319"}, Source: "supplier's sheet of 2020, as CLP annex VI 017-014-00-8", Standing: published},
	{
		Substance: reaction.ZincChloride, Codes: []Code{"H302", "H314", "H335", "H410"}, Standing: published,
		Source: "suppliers' sheets that quote CLP annex VI 030-003-00-2; H335 by some suppliers, from memory",
	},
	{Substance: reaction.ZincDiammine, Codes: []Code{"H302", "H314", "H335", "H410"}, Source: "as zinc chloride", Standing: estimate},
	{Substance: reaction.ZincOxide, Codes: []Code{"H410"}, Source: "GisChem (BG RCI, Germany), zinc oxide; CLP annex VI 030-013-00-7", Standing: published},
	{Substance: reaction.BasicZincChloride, Codes: []Code{"H410"}, Source: "as zinc oxide", Standing: estimate},
	{Substance: reaction.ZincSulfate, Codes: []Code{"H302", "H318", "H373", "H410"}, Source: "supplier's sheet of 2017, H373 by it alone; the rest as CLP annex VI 030-006-00-9", Standing: published},
	{Substance: reaction.ZincBisulfite, Codes: []Code{"H302", "H318", "H373", "H410", "EUH031"}, Source: "as zinc sulfate, and a sulfite", Standing: estimate},
	{Substance: reaction.ZincSulfite, Codes: []Code{"H302", "H318", "H373", "H410", "EUH031"}, Source: "as zinc sulfate, and a sulfite", Standing: estimate},
	{Substance: reaction.Ammonia, Codes: []Code{"H290", "H314", "H335", "H411"}, burns: 5, breath: 5, Source: "ammonia in water, CLP annex VI 007-001-01-2, as GisChem (BG RCI, Germany) has it from 5 %; H411 by suppliers, from memory", Standing: published},
	{
		Substance: reaction.SulfuricAcid, Codes: []Code{"H290", "H314"}, burns: 15, irritates: 5, Standing: published,
		Source: "supplier's sheet for H290 and H314; CLP annex VI 016-020-00-8, burns from 15 %, irritates from 5 %, in a transcription",
	},
	{Substance: reaction.HydrogenChloride, Codes: []Code{"H290", "H314", "H335"}, burns: 25, irritates: 10, breath: 10, Source: "hydrochloric acid, a labelling guide of 2014; the limits by CLP annex VI 017-002-01-X, from memory", Standing: published},
	{
		Substance: reaction.SulfurDioxide, Codes: []Code{"H314", "H332"}, Standing: published,
		Source: "supplier's sheet for the gas, H314 and H331; dissolved it is weaker, H332 here, an estimate",
	},
	{
		Substance: reaction.ManganeseSulfate, Codes: []Code{"H318", "H373", "H411"}, Standing: published,
		Source: "ICSC 0290 (2018) for H373 and H411; for the eyes it has H319, suppliers H318 (from memory): the stricter stands",
	},
	{Substance: reaction.ManganeseDithionate, Codes: []Code{"H318", "H373", "H411"}, Source: "as manganese sulfate", Standing: estimate},
	{Substance: reaction.ManganeseBisulfite, Codes: []Code{"H318", "H373", "H411", "EUH031"}, Source: "as manganese sulfate, and a sulfite", Standing: estimate},
	{Substance: reaction.ManganeseSulfite, Codes: []Code{"H318", "H373", "H411", "EUH031"}, Source: "as manganese sulfate, and a sulfite", Standing: estimate},
	{Substance: reaction.AmmoniumBisulfite, Codes: []Code{"H319", "EUH031"}, Source: "as other sulfites", Standing: estimate},
	{
		Substance: reaction.CopperSulfate, Codes: []Code{"H302", "H315", "H318", "H410"}, acute: 10, Standing: published,
		Source: "ICSC 1416 (2023), pentahydrate; H315 by ICSC 0751, anhydrous; factor 10 from CLP annex VI 029-023-00-4, from memory",
	},
	{Substance: reaction.CopperSulfide, Codes: []Code{"H411"}, Source: "as copper in grains", Standing: estimate},
	{Substance: reaction.SodiumMetabisulfite, Codes: []Code{"H302", "H318", "EUH031"}, Source: "ICSC 1461 (2022) for H302 and H318; older supplier's sheet in words for EUH031", Standing: published},
	{Substance: reaction.SodiumCarbonate, Codes: []Code{"H319"}, Source: "supplier's sheet of 2016, as CLP annex VI 011-005-00-2", Standing: published},
	{Substance: reaction.SodiumSulfite, Codes: []Code{"EUH031"}, Source: "suppliers' sheets", Standing: fromMemory},
	{Substance: reaction.Potash, Codes: []Code{"H290", "H302", "H314"}, burns: 2, irritates: 0.5, Source: "suppliers' sheets of 2012 and 2019 for lye; CLP annex VI 019-002-00-8, burns from 2 %, irritates from 0.5 %, from memory", Standing: published},
	{Substance: reaction.PotassiumBisulfite, Codes: []Code{"EUH031"}, Source: "as other sulfites", Standing: estimate},
	{Substance: reaction.HydrogenPeroxide, Codes: []Code{"H302", "H314", "H332", "H335"}, burns: 50, blinds: 8, reddens: 35, irritates: 5, breath: 35, Source: "CLP annex VI 008-003-00-9, in water, as GisChem (BG RCI, Germany) has it: eyes for good from 8 %, irritated from 5; skin irritated from 35 %, burnt from 50, these two from memory; that it feeds fire is told of the bottle as bought", Standing: published},
	{Substance: reaction.OxalicAcid, Codes: []Code{"H302", "H312", "H318"}, Source: "supplier's sheet of 2018; ICSC 0707 has burns instead", Standing: published},
	{Substance: reaction.FerrousSulfate, Codes: []Code{"H302", "H315", "H319"}, reddens: 25, Source: "GisChem (BG RCI, Germany), iron(II) sulfate, as CLP annex VI; the limit of 25 % for the skin is that of the heptahydrate", Standing: published},
	{Substance: reaction.FerricSulfate, Codes: []Code{"H302", "H315", "H318"}, Source: "suppliers' sheets", Standing: fromMemory},
	{Substance: reaction.ManganeseOxalate, Codes: []Code{"H302", "H312", "H373"}, Source: "as oxalates and manganese salts", Standing: estimate},
	{Substance: reaction.ZincOxalate, Codes: []Code{"H302", "H312", "H410"}, Source: "as oxalates and zinc salts", Standing: estimate},
}

// Classes tells how each substance is classified. The caller must not change it.
func Classes() []Class { return classes[:] }

func classOf(s reaction.Substance) *Class {
	for i := range classes {
		if classes[i].Substance == s {
			return &classes[i]
		}
	}
	return nil
}

// Words are the hazard statements of a pure substance in a sentence, as printed on labels,
// with their codes; empty where it bears none.
func Words(s reaction.Substance) string {
	c := classOf(s)
	if c == nil {
		return ""
	}
	return sentence(statements(c.Codes...))
}
