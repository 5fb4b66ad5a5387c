package route

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
)

func notice(t *testing.T, words string, entries ...string) (Notice, bool) {
	t.Helper()
	p := planOf(t, entries...)
	require.Empty(t, Check(p))
	var b Runner
	for _, n := range Notices(p, b.Run(p)) {
		assert.NotContains(t, n.Text, "%!", "a fault of the format")
		assert.NotContains(t, n.Text, "NaN")
		if strings.Contains(n.Text, words) {
			return n, true
		}
	}
	return Notice{}, false
}

// TestNotices: each is said where it is due, and not where it is not.
func TestNotices(t *testing.T) {
	for _, c := range []struct {
		name, words string
		stage       Stage
		due, not    []string
	}{
		{"weighed wet for dry", "weighed wet for dry", Cells, []string{"mix.washed=250"}, []string{"mix.washed=100"}},
		{"the dish weighed too", "was the dish weighed too", Cells, []string{"mix.wet=400"}, []string{"mix.wet=150"}},
		{"the size is wrong", "Is the size or the count right", Cells, []string{"mix.wet=50"}, []string{"mix.wet=150"}},
		{"nothing weighed", "Weigh the wet black mix", Cells, nil, []string{"mix.washed=100"}},
		{"no cell", "No cell is opened", Cells, []string{"cell.rejects=6"}, nil},
		{"nothing drains", "Nothing drains", Wash, []string{"mix.washed=100", "wash.soak=0", "wash.each=0"}, nil},
		{"silver still clouds", "The last wash still shows", Wash, []string{"wash.times=1"}, []string{"wash.times=20"}},
		{"bound chloride", "locked in zinc salts", Wash, nil, []string{"cell.charge=100"}},
		{"a share weighed for all of the cake", "Was only the share weighed", Batch, []string{"cake.damp=30"}, []string{"cake.damp=250"}},
		{"a share of a cake that nobody weighed", "that nobody weighed", Batch, []string{"cake.taken=60"}, []string{"cake.taken=60", "cake.damp=250"}},
		{"a small flask", "The flask is too small", Batch, []string{"gas.flask=20"}, []string{"gas.flask=2000"}},
		{"a small vessel", "The slurry vessel is too small", Batch, []string{"slurry.beaker=50", "gas.flask=2000"}, []string{"slurry.beaker=5000"}},
		{"the acid runs out", "acid runs out", Gas, []string{"gas.acid=5"}, []string{"gas.flask=500"}},
		{"the copper runs out", "copper runs out", Gas, []string{"gas.copper=2"}, nil},
		{"the salt runs out", "metabisulfite runs out", Gas, []string{"gas.source=metabisulfite", "gas.salt=5"}, nil},
		{"no gas leaves", "makes no gas that leaves", Gas, []string{"gas.source=metabisulfite", "gas.salt=1", "gas.warm=10", "gas.water=100"}, nil},
		{"acid is short", "Dilute acid is short", Slurry, []string{"slurry.acid=0"}, nil},
		{"spent oxide waits", "spent oxide waits", Slurry, []string{"slurry.acid=0", "gas.copper=4"}, []string{"slurry.acid=0"}},
		{"gas of the salt stands in", "two moles for one", Slurry, []string{"gas.source=slurrysalt", "slurry.acid=180"}, []string{"gas.source=slurrysalt", "slurry.acid=120"}},
		{"no spent oxide waits for that gas", "spent oxide waits", Slurry, []string{"gas.source=slurrysalt", "slurry.acid=120"}, []string{"gas.source=slurrysalt", "slurry.acid=180"}},
		{"ice-cold", "ends as dithionate", Slurry, []string{"slurry.temperature=2"}, []string{"slurry.temperature=60"}},
		{"the tube blocks", "block it", Slurry, []string{"slurry.temperature=2"}, nil},
		{"a paste", "cannot be stirred", Slurry, []string{"slurry.water=0", "slurry.acid=0"}, []string{"slurry.acid=0"}},
		{"boils", "the slurry would boil", Slurry, []string{"slurry.water=30", "cell.charge=90"}, []string{"cell.charge=90"}},
		{"heat", "or it warms by", Slurry, []string{"cell.charge=90"}, []string{"slurry.water=30", "cell.charge=90"}},
		{"heat", "ice and water", Slurry, []string{"slurry.water=30", "cell.charge=90"}, []string{"slurry.water=3000"}},
		{"not rinsed", "Not rinsed", Filter, []string{"rinse.times=0"}, nil},
		{"iron tints", "tint the salt", Filter, []string{"mix.iron=15", "iron.dissolves=80"}, []string{"mix.iron=15", "iron.dissolves=80", "iron.way=thrown", "iron.kept=5"}},
		{"too little kept back", "Keep more back", Filter, []string{"iron.way=thrown", "iron.kept=0"}, []string{"iron.way=thrown"}},
		{"gas off the dish", "come off the dish", Dry, []string{"slurry.dithionate=70"}, []string{"slurry.dithionate=0", "gas.excess=0", "slurry.reach=100", "loss.transfer=0"}},
		{"pores", "keeps liquor in its pores", Dry, []string{"dry.temperature=90"}, nil},
		{"between forms", "the last water leaves little by little", Dry, []string{"dry.temperature=300"}, nil},
		{"too much acid", "keeps it sticky", Dry, []string{"slurry.acid=900"}, nil},
		{"nothing grows", "boil down further", Dry, []string{"dry.way=crystals", "crop.water=10000", "slurry.water=10000"}, nil},
		{"too acid", "no longer forms", CopperSalt, []string{"copper.water=1"}, []string{"copper.water=300"}},
		{"too much water", "there is too much water", CopperSalt, []string{"copper.water=5000"}, nil},
		{"too little salt", "are too few", Slurry, []string{"gas.source=slurrysalt", "salt.charge=5"}, []string{"gas.source=slurrysalt"}},
		{"no acid for peroxide", "only breaks up", Slurry, []string{"gas.source=peroxide", "slurry.acid=0"}, []string{"gas.source=peroxide"}},
		{"no acid for oxalic acid", "falls out as oxalate", Slurry, []string{"gas.source=oxalic", "slurry.acid=0"}, []string{"gas.source=oxalic", "oxalic.falls=0"}},
		{"froth", "froth out", Slurry, []string{"gas.source=peroxide"}, []string{"gas.source=slurrysalt"}},
		{"strong peroxide", "boil and spit", Slurry, []string{"gas.source=peroxide", "peroxide.strength=30"}, []string{"gas.source=peroxide"}},
		{"cold oxalic acid", "hardly works", Slurry, []string{"gas.source=oxalic", "oxalic.warm=20"}, []string{"gas.source=oxalic"}},
		{"sodium", "The sodium stays", Slurry, []string{"gas.source=slurrysalt"}, []string{"gas.source=metabisulfite"}},
		{"sodium in the jar", "Sodium sulfate weighs most", Dry, []string{"gas.source=slurrysalt"}, nil},
		{"no acid at all", "times the gas", Slurry, []string{"slurry.acid=0"}, []string{"slurry.acid=100"}},
		{"oxalate in the oven", "breaks up to oxide", Dry, []string{"gas.source=oxalic", "dry.temperature=400"}, []string{"gas.source=oxalic"}},
		{"no oxalate in the oven", "breaks up to oxide", Dry, []string{"gas.source=oxalic", "dry.temperature=400"}, []string{"dry.temperature=400"}},
		{"monohydrate in the hot dish", "falls out while the dish is hot", Dry, []string{"dry.way=crystals"}, []string{"dry.way=crystals", "crop.water=10000", "slurry.water=10000"}},
		{"potash left", "of potash, costs", Wash, []string{"cell.kind=alkaline"}, []string{"cell.kind=alkaline", "wash.acid=2000"}},
		{"lye", "stop at pH 9", Waste, []string{"cell.kind=alkaline"}, []string{"cell.kind=ammonium"}},
		{"pH paper", "pH paper", Wash, []string{"cell.kind=alkaline"}, nil},
		{"salt in an open vessel", "Salt is stirred into an open vessel", Waste, []string{"gas.source=slurrysalt"}, []string{"gas.source=peroxide"}},
		{"all of it gets out", "If all of what", Waste, []string{"gas.source=slurrysalt", "room.escape=10"}, []string{"room.escape=10"}},
		{"an open beaker", "An open beaker feeds no scrubber", Waste, []string{"slurry.vessel=open"}, []string{"slurry.vessel=closed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			n, ok := notice(t, c.words, c.due...)
			require.True(t, ok, "is due")
			assert.Equal(t, c.stage, n.Stage)
			if c.not != nil {
				_, ok = notice(t, c.words, c.not...)
				assert.False(t, ok, "is not due")
			} else if c.due != nil {
				_, ok = notice(t, c.words)
				assert.False(t, ok, "is not due in the default plan")
			}
		})
	}
}

// TestEveryMendChangesThePlan: nothing is offered that stands so already, least of all more time for
// the gas where a plan has the most.
func TestEveryMendChangesThePlan(t *testing.T) {
	check := func(p *Plan) (keys []string) {
		for _, n := range Notices(p, new(Runner).Run(p)) {
			keys = append(keys, n.Key)
			for _, m := range n.Mends {
				assert.NotEqual(t, input(t, m.Key).Value(p), m.Value, "%s: %s", n.Key, m.Text)
			}
		}
		return keys
	}
	long := "gas.minutes=" + strconv.Itoa(mostMinutes)
	p := planOf(t, "cell.count=600", "cell.size=R20", "batch.share=100", long)
	assert.Contains(t, check(p), "gas.fast")
	p = planOf(t, "cell.count=200", "batch.share=40", "slurry.temperature=95", long)
	assert.Contains(t, check(p), "gas.passes")
	n, _ := notice(t, "passes the slurry by", "cell.count=200", "batch.share=40", "slurry.temperature=95", long)
	assert.Contains(t, n.Text, "no more time than this")
	p = planOf(t, "cell.count=200", "batch.share=40", "slurry.temperature=95", long, "slurry.vessel=open")
	assert.Contains(t, check(p), "gas.passes")
	n, _ = notice(t, "passes the slurry by", "cell.count=200", "batch.share=40", "slurry.temperature=95", long, "slurry.vessel=open")
	assert.Contains(t, n.Text, "a smaller run")
}

func TestShopping(t *testing.T) {
	amount := func(list []Need, name string) float64 {
		for _, n := range list {
			if strings.HasPrefix(n.Name, name) {
				return n.Amount
			}
		}
		return 0
	}
	p := planOf(t, "slurry.vessel=closed", "wash.acid=100")
	var b Runner
	s := b.Run(p)
	reagents, vessels := needsIn(Reagents(p, s)), needsOf(Vessels(p, s))
	rinse, _, _ := acidOf(96).dilution(100)
	near(t, s.Value(GasAcidUsed)+s.Value(SlurryAcidStrong)+float64(rinse), amount(reagents, "Sulfuric acid"), 1e-12, "acid for all its uses")
	near(t, s.Value(WasteBase)+s.Value(ScrubAdvised), amount(reagents, "Soda"), 1e-12, "soda for both its uses")
	fills := Fills(p, s)
	near(t, s.Value(SlurryAcidUsed)+100, amount(fills, "Dilute acid"), 1e-12, "dilute acid for both its uses")
	assert.Contains(t, fills[0].For, Print(s.Value(SlurryAcidStrong)+float64(rinse), "mL")+" of the acid")
	near(t, s.Value(ScrubLiquid), amount(fills, "Liquid of the scrubber"), 1e-12, "the scrubber's filling")
	near(t, countingAcid, amount(fills, "Counting bottle"), 1e-12, "and the counting bottle's")
	assert.Contains(t, StrongAcid(p, s).Where(), "; 15\u202fmL more if you use a counting bottle")
	none := planOf(t, "gas.source=oxalic", "slurry.acid=0", "wash.acid=0")
	assert.Empty(t, Fills(none, new(Runner).Run(none)))
	assert.Positive(t, amount(vessels, "Scrubber bottle"))
	assert.Positive(t, amount(vessels, "Second empty trap"))
	assert.GreaterOrEqual(t, amount(vessels, "Empty trap"), s.Value(SlurryVolume), "the trap takes the whole slurry")
	assert.GreaterOrEqual(t, amount(vessels, "Generator flask"), s.Value(GasFlaskLeast))

	p = planOf(t, "slurry.vessel=closed", "gas.source=slurrysalt")
	s = b.Run(p)
	require.Positive(t, s.Value(VentGas))
	reagents, vessels = needsIn(Reagents(p, s)), needsOf(Vessels(p, s))
	near(t, s.Value(WasteBase), amount(reagents, "Soda"), 1e-12, "salt is stirred into an open vessel")
	assert.Zero(t, amount(vessels, "Scrubber"))
	assert.Zero(t, amount(vessels, "Second empty trap"))

	p = planOf(t, "slurry.vessel=open", "gas.source=metabisulfite")
	s = b.Run(p)
	reagents, vessels = needsIn(Reagents(p, s)), needsOf(Vessels(p, s))
	near(t, s.Value(WasteBase), amount(reagents, "Soda"), 1e-12, "no scrubber, no soda for it")
	assert.Zero(t, amount(vessels, "Scrubber"))
	assert.Zero(t, amount(reagents, "Copper"))
	near(t, s.Value(GasSaltUsed), amount(reagents, "Sodium metabisulfite"), 1e-12, "salt")
}

// TestLastWashesAreDistilled: the water of those is on the list as such, and only once.
func TestLastWashesAreDistilled(t *testing.T) {
	water := func(entries ...string) (clean, tap, each, soak float64) {
		p := planOf(t, append(entries, "slurry.vessel=open")...)
		s := new(Runner).Run(p)
		takes := Takes(p, s)
		return takes[cleanWater], takes[tapWater], s.Value(WashEachUsed), s.Value(WashSoakUsed)
	}
	without, tap, each, soak := water("wash.acid=0", "wash.times=0")
	near(t, soak, tap, 1e-12, "the soak")
	for times, distilled := range map[float64]float64{1: 1, 2: 2, 5: 2} {
		clean, tap, _, _ := water("wash.acid=0", fmt.Sprintf("wash.times=%g", times))
		near(t, distilled*each, clean-without, 0.005, "distilled, and a little for what the washes change behind")
		near(t, soak+(times-distilled)*each, tap, 1e-9, "tap")
	}
	rinsed, _, _, _ := water("wash.acid=100", "wash.times=1", "wash.after=1")
	more, tap, _, _ := water("wash.acid=100", "wash.times=1", "wash.after=4")
	near(t, soak+3*each, tap, 1e-9, "tap, of five washes")
	assert.Positive(t, rinsed)
	near(t, rinsed, more, 0.005, "two of two, two of five")
}

// TestShoppingFollowsTheWay: what a test asks for is on the list, and nothing else's.
func TestShoppingFollowsTheWay(t *testing.T) {
	list := func(entries ...string) map[string]string {
		p := planOf(t, entries...)
		m := map[string]string{}
		for _, n := range Reagents(p, new(Runner).Run(p)) {
			m[n.Name] = n.For
		}
		return m
	}
	const drops, papers, silver, soda = "Hydrogen peroxide, 3 %", "Permanganate paper", "Silver nitrate, 1 to 2 %, and dilute nitric acid", "Soda (sodium carbonate), anhydrous"
	for word, c := range map[string]struct{ drops, papers, scrubber bool }{
		"copper": {true, true, true}, "metabisulfite": {true, true, true}, "slurrysalt": {true, true, false},
		"peroxide": {false, false, false}, "oxalic": {true, false, false},
	} {
		have := list("gas.source="+word, "peroxide.strength=6")
		assert.Equal(t, c.drops, have[drops] != "", word)
		assert.Equal(t, c.papers, have[papers] != "", word)
		assert.Equal(t, c.scrubber, strings.Contains(have[soda], "scrubber"), word)
		assert.NotEmpty(t, have[silver], word)
	}
	assert.Empty(t, list("cell.kind=alkaline")[silver], "the washes are judged by pH")
	assert.Contains(t, strings.Join(Gear(planOf(t, "cell.kind=alkaline")), "; "), "pH paper")
}

// TestGearStandsTheHeat: the acid goes to 280 °C, where a thermometer for water bursts and
// glass with a scratch cracks; each piece says what it is for.
func TestGearStandsTheHeat(t *testing.T) {
	gear := func(words ...string) string { return strings.Join(Gear(planOf(t, words...)), ". ") }
	hot := gear()
	for _, word := range []string{"borosilicate", "star crack", "bumping", "porcelain, put in cold", "Never chalk", "hold all its acid", "bursts in the flask", "to 280\u202f°C", "to 360 °C"} {
		assert.Contains(t, hot, word)
	}
	for _, source := range []string{"metabisulfite", "slurrysalt", "peroxide", "oxalic"} {
		cool := gear("gas.source=" + source)
		assert.Contains(t, cool, "borosilicate", source)
		assert.NotContains(t, cool, "280", source)
		assert.NotContains(t, cool, "bumping", source)
	}
	for _, words := range [][]string{{"dry.temperature=110"}, {"dry.temperature=450", "dry.way=crystals"}} {
		assert.NotContains(t, gear(words...), "Oven", words)
	}
	assert.Contains(t, gear("dry.temperature=111"), "Oven with a thermometer of its own, for drying at 111")
	_, s := run(t)
	p := NewPlan()
	said := ""
	for _, n := range Notices(&p, s) {
		said += n.Text
	}
	assert.Contains(t, said, "200 to 280\u202f°C", "where the gas begins is told once")
}

// TestOxalateIsNotBaked: no advice sends a salt that may hold oxalate above the heat that
// it bears, and none speaks of dithionate where there is none.
func TestOxalateIsNotBaked(t *testing.T) {
	offered := func(word string) (list []string) {
		q, ok := Purify(planOf(t, "gas.source="+word, "dry.temperature=110"), asIs)
		require.True(t, ok)
		for _, s := range q.Steps {
			list = append(list, s.Key)
		}
		return list
	}
	assert.NotContains(t, offered("oxalic"), "bake")
	assert.NotContains(t, offered("oxalic"), "glow")
	assert.NotContains(t, offered("peroxide"), "bake")
	assert.Contains(t, offered("peroxide"), "glow")
	assert.Subset(t, offered("slurrysalt"), []string{"bake", "glow"})
	_, due := notice(t, "Not above 120", "gas.source=oxalic", "dry.temperature=130")
	assert.True(t, due)
	for _, entries := range [][]string{{"wash.times=1"}, {"wash.times=1", "mix.zinc=0.1"}} {
		_, hot := notice(t, "leave at 450", append(entries, "gas.source=oxalic")...)
		assert.False(t, hot)
	}
}

// needsOf are vessels as plain needs.
func needsOf(vessels []Vessel) []Need {
	var list []Need
	for _, v := range vessels {
		list = append(list, v.Need)
	}
	return list
}

// needsIn are reagents as plain needs.
func needsIn(reagents []Reagent) []Need {
	var list []Need
	for _, r := range reagents {
		list = append(list, r.Need)
	}
	return list
}

// TestBoughtIsRoundedUpToTwoDigits: by no more than their step, and not for the last digits of
// the arithmetic.
func TestBoughtIsRoundedUpToTwoDigits(t *testing.T) {
	for v, want := range map[float64]float64{
		71.3: 72, 40: 40, 40.1: 41, 99.2: 100, 100: 100, 100.1: 110, 3846: 3900, 0.0101: 0.011, 9.01: 9.1, 3.7: 3.7, 40.0000000001: 40, 1e-9: 1e-9, 99999: 100000,
	} {
		assert.Equal(t, want, roundUp(v), v)
	}
	var more Amounts
	more[SodaReagent] = 1.5
	list := more.Enough([]Reagent{{Need{Amount: 61}, SodaReagent, 61}, {Need{Amount: 61.7}, ReductantReagent, 61.7}})
	assert.Equal(t, 92.0, list[0].Buy)
	assert.Equal(t, 61.7, list[1].Buy, "nothing is said of it: as the plan takes it")
}

// TestVesselsComeInCommonSizes: the size named holds what must go in, and the one below
// it would not.
func TestVesselsComeInCommonSizes(t *testing.T) {
	var b Runner
	for _, entry := range []string{"batch.share=25", "gas.source=peroxide", "batch.share=100", "cell.count=200"} {
		p := planOf(t, entry)
		for _, v := range Vessels(p, b.Run(p)) {
			common := float64(v.Common())
			if common == 0 {
				assert.Greater(t, v.Amount, float64(v.sizes[len(v.sizes)-1]), v.Name)
				continue
			}
			assert.GreaterOrEqual(t, common, v.Amount*(1-1e-9), v.Name)
			for _, smaller := range v.sizes {
				assert.False(t, float64(smaller) >= v.Amount && float64(smaller) < common, "%s: %v is enough for %v", v.Name, smaller, v.Amount)
			}
		}
	}
	p := planOf(t)
	for _, v := range Vessels(p, b.Run(p)) {
		if v.Name == "Generator flask" {
			assert.Equal(t, quantity.Millilitre(100), v.Common())
			assert.Equal(t, 250.0, v.Stands())
			assert.False(t, v.Line, "hot acid does not go from group to group")
		}
	}
	p = planOf(t, "gas.source=metabisulfite")
	for _, v := range Vessels(p, b.Run(p)) {
		if v.Name == "Generator flask" {
			assert.True(t, v.Line)
		}
	}
}

// TestVesselsHoldWhatGoesIn, and are as full as they say: a half, a third, two thirds.
func TestVesselsHoldWhatGoesIn(t *testing.T) {
	for _, entries := range [][]string{nil, {"slurry.vessel=open", "gas.flask=2000"}, {"gas.source=peroxide"}, {"dry.way=crystals", "cell.count=1"}} {
		p := planOf(t, entries...)
		s := new(Runner).Run(p)
		v := func(id FigureID) float64 {
			if s.Reason(id) != Defined {
				return 0
			}
			return s.Value(id)
		}
		froths := 1.5
		if p.GasSource == ByPeroxide {
			froths = 3
		}
		last := v(ProductMass) * 2 // the slush at the end
		if p.DryWay == ToCrystals {
			last = v(CropWaterUsed) * 2
		}
		want := map[string]float64{
			"Basin for soaking and washing":          (v(WashSoakUsed) + v(MixDry)/3.5) * 3 / 2,
			"Can for the wash liquor":                v(WashLiquor) * 1.1,
			"Slurry vessel":                          v(SlurryVolume) * froths,
			"Beaker for the filtrate and rinses":     v(FiltrateVolume) * 1.2,
			"Evaporating dish":                       math.Max(math.Min(v(FiltrateVolume), 100), last),
			"Jar for the manganese salt":             v(ProductMass) * 2,
			"Beaker for the copper liquor":           v(CopperVessel),
			"Jar for the mother liquor and its soda": (v(WasteVolume) - v(WashLiquor)) * 2,
		}
		if Gaseous(p) {
			want["Generator flask"] = v(GasFlaskLeast)
			want["Empty trap"] = v(SlurryVolume) * 3 / 2
			want["Counting bottle"] = 50
		}
		if p.DryWay == ToCrystals {
			want["Beaker for the pink crystals"] = v(CropWaterUsed) * 2
		}
		if Scrubbed(p) {
			want["Second empty trap"], want["Scrubber bottle"] = v(ScrubLiquid)*3/2, v(ScrubLiquid)*3/2
		}
		for name, amount := range want {
			if amount == 0 {
				delete(want, name)
			}
		}
		for _, vessel := range Vessels(p, s) {
			near(t, want[vessel.Name], vessel.Amount, 1e-12, vessel.Name)
			delete(want, vessel.Name)
		}
		assert.Empty(t, want, "all are there")
	}
}

// TestNoSizeReadsAsLargeEnoughThatIsNot: where two digits would be the same, more are told.
func TestNoSizeReadsAsLargeEnoughThatIsNot(t *testing.T) {
	p := planOf(t, "cell.size=R20", "cell.count=12")
	var b Runner
	least := 1.5 * b.Run(p).Value(SlurryVolume)
	p.SlurryBeaker = quantity.Millilitre(math.Floor(least))
	for _, v := range Vessels(p, b.Run(p)) {
		if v.Key == "slurry.beaker" {
			require.True(t, v.TooSmall())
			assert.NotEqual(t, v.SizeText(), v.LeastText())
			assert.Contains(t, v.Warning(), "the vessel of "+v.SizeText())
			assert.Equal(t, "2\u202fL", Print(v.Amount, "mL"))
		}
	}
}
