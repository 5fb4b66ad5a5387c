package account

// Cause is one way in which a run may have gone wrong.
type Cause uint8

// The causes. AsPlanned is none of them: it stands for a run whose every part went as the
// plan's estimates allow, and is told apart from them (Posterior.Planned).
const (
	AsPlanned Cause = iota
	PoorOxide
	GasLost
	EarlyEnd
	Unrinsed
	OtherHydrate
	Spill
	NoAcid
	OtherCharge
	DarkCopper
	LiquorLeft
	// Causes is how many there are.
	Causes = iota
)

// causes with their prior weights: estimates, from how newcomers' runs are told to go
// wrong. They are what an empty record leaves.
var causes = [Causes]struct {
	key, name, says string
	prior           float64
}{
	AsPlanned:    {"planned", "as planned", "it all went as the plan's estimates allow", 0.36},
	PoorOxide:    {"oxide", "more or less oxide", "the cells held far less oxide than the plan takes them to", 0.12},
	GasLost:      {"gas", "gas lost", "much of the gas passed by without reacting", 0.12},
	EarlyEnd:     {"end", "early end", "the gas was ended early", 0.07},
	Unrinsed:     {"cake", "cake not drained", "the black cake was hardly drained and rinsed, and salt stayed in it", 0.08},
	OtherHydrate: {"hydrate", "wet, or another hydrate", "the salt holds another share of water than its drying gives", 0.05},
	Spill:        {"spill", "a spill", "salt was spilt or left behind on the way to the jar", 0.025},
	NoAcid:       {"acid", "no dilute acid", "no dilute acid went in, so that spent oxide and zinc took the gas and little dissolved", 0.075},
	OtherCharge:  {"charge", "another charge", "less acid and metal was charged than planned", 0.07},
	DarkCopper:   {"copper", "copper not bright", "the copper carried oxide, which gives blue salt without gas", 0.25},
	LiquorLeft:   {"crop", "salt left in the liquor", "a part of the salt stayed in a liquor that was poured off", 0.03},
}

// Key is the cause in a word, as stored.
func (c Cause) Key() string { return causes[c].key }

// Name is the cause as read.
func (c Cause) Name() string { return causes[c].name }

// Says is the cause as the half of a sentence.
func (c Cause) Says() string { return causes[c].says }

// Prior is the weight of the cause before anything is measured, AsPlanned beside the causes. All
// sum to one but for DarkCopper, which counts only where it is said that the copper was dark.
// A cause that a plan rules out has none in it, and the others share its weight.
func (c Cause) Prior() float64 { return causes[c].prior }

// What the causes reach, all estimates: the ends of the shares that are drawn evenly
// between.
const (
	// Poor oxide: of the mix that was drawn so much is there. Where the mix was weighed
	// it is there, and gangue stands in for oxide.
	poorLeast, poorMost = 0.30, 0.75
	richLeast, richMost = 1.30, 1.80
	// Another charge: of what was planned.
	lessLeast, lessMost = 0.35, 0.75
	moreLeast, moreMost = 1.30, 2.00
	// How often either is too little; else it is too much.
	lessOften = 0.7
	// Copper that is not bright: of its mass, oxide, beside what is called scrap.
	darkLeast, darkMost = 0.08, 0.40
	// Left in the liquor: of the salt.
	leftLeast, leftMost = 0.15, 0.60
	// No dilute acid: of what the plan asks for, so little is none.
	nextToNone = 0.1
	// Gas lost: of the uptake that was drawn.
	lostLeast, lostMost = 0.10, 0.65
	// Early end: of the charge.
	endLeast, endMost = 0.15, 0.85
	// Not rinsed: the cake is left as it is, and sopping: it holds so many times more.
	soppingLeast, soppingMost = 2.0, 5.0
	// Spill: of the salt, beyond loss.transfer.
	spillLeast, spillMost = 0.12, 0.80
	// Wet crystals hold up to so much liquor, of their dry mass; scrap up to so much of
	// its mass as oxide.
	wetMost   = 0.25
	oxideMost = 0.06
)

// besides is how likely something goes wrong beside a lack of dilute acid, of how likely it does
// where acid was poured in. The account takes one thing at a time to go wrong; this is the one pair
// that it allows, and takes for half as likely as chance alone would have it. An estimate, set after
// simulated runs had been seen.
const besides = 0.5

// hydrateApart is by how much water to a manganese sulfate another hydrate differs from that
// of the drying; less is not told apart. An estimate.
const hydrateApart = 0.75
