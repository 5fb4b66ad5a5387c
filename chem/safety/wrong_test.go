package safety_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// card gives the card of a plan by name, each as one text.
func card(p *route.Plan) map[string]string {
	var b route.Runner
	m := map[string]string{}
	for _, c := range safety.Mishaps(p, b.Run(p)) {
		m[c.Name] = c.Sign + " " + strings.Join(c.Do, " ") + " " + c.Not
	}
	return m
}

// TestSodaForAcid holds the soda against an analyst's numbers by hand: 96 % acid is
// 18.0 mol/L (CRC Handbook, concentrative properties), so 10 mL are 0.180 mol and take
// 0.180 · 105.99 = 19.1 g. Counting one proton, or forgetting the strength, gives 9.5 or
// 19.9 g.
func TestSodaForAcid(t *testing.T) {
	soda, err := safety.SodaFor(10, 96)
	require.NoError(t, err)
	assert.InDelta(t, 19.1, float64(soda), 0.1)
	half, err := safety.SodaFor(10, 50)
	require.NoError(t, err)
	assert.InDelta(t, 7.1*1.06, float64(half), 0.15, "50 %% acid is 7.1 mol/L")
	_, err = safety.SodaFor(10, 130)
	assert.Error(t, err)
	assert.InDelta(t, 2*84.007/105.988, safety.Bicarbonate, 0.0005)
}

func TestTheCardHasThePlansAmounts(t *testing.T) {
	p := route.NewPlan()
	var b route.Runner
	sheet := b.Run(&p)
	acid := quantity.Millilitre(sheet.Value(route.GasAcidUsed))
	soda, err := safety.SodaFor(acid, p.GasStrength)
	require.NoError(t, err)
	volume := route.Print(sheet.Value(route.SlurryVolume), "mL")
	c := card(&p)
	assert.Contains(t, c["Acid is spilt"], "charge of "+route.Print(float64(acid), "mL")+" about "+route.Print(float64(soda), "g"))
	assert.Contains(t, c["Liquid is drawn back"], volume)
	assert.Contains(t, c["The gas stops early"], "8.5\u202fL")
	p.GasAcid = 25
	assert.Contains(t, card(&p)["Acid is spilt"], "25\u202fmL about 48\u202fg", "half the acid, half the soda")
}

// TestTheCardSpeaksOfOneBatch: of what stands on the bench, not of all batches together.
func TestTheCardSpeaksOfOneBatch(t *testing.T) {
	p := route.NewPlan()
	p.BatchRuns = 2
	sheet := *new(route.Runner).Run(&p)
	half := func(id route.FigureID) string { return route.Print(sheet.Value(id)/2, id.Info().Unit) }
	minute, _, _ := strings.Cut(half(route.MetMinute), "\u202f")
	c := card(&p)
	assert.Contains(t, c["Liquid is drawn back"], "all of the slurry, "+half(route.SlurryVolume))
	assert.Contains(t, c["The gas stops early"], half(route.GasVolume))
	assert.Contains(t, c["The paper bleaches too early"], "long before minute "+minute+",")
	assert.Contains(t, c["The paste sets solid"], "about "+route.Print(sheet.Value(route.SlurryWaterUsed)/4, "mL"))
	assert.Contains(t, c["Acid is spilt"], "the whole charge of "+half(route.GasAcidUsed))
}

func TestTheCardFollowsTheWay(t *testing.T) {
	p := route.NewPlan()
	copper := card(&p)
	require.Len(t, copper, 11, "flame, tube, suck-back, gas stops, paper, paste, spill, gas in the room, bottles, flask, fire")
	for name, words := range map[string][]string{
		"The flame goes out":               {"before anything else", "hot lamp"},
		"A tube is blocked":                {"Lift the funnel out", "stopper"},
		"Liquid is drawn back":             {"Do not take the flame away"},
		"The paper bleaches too early":     {"not that the oxide is used up", "minute"},
		"The paste sets solid":             {"cold water"},
		"Acid is spilt":                    {"running water at once and for half an hour", "held open", "lens", "In all cases then to a doctor", "No soda on skin", "Swallowed", "no vomiting", "sand"},
		"The flask cracks":                 {"Everybody back", "No water on it"},
		"Clothes or the table burn":        {"Clothes: to the ground", "by hot acid sand alone, never water", "fire brigade"},
		"Two bottles were poured together": {"Wash liquor and chlorine bleach: chloramines", "say both names", "No lid"},
		"Gas in the room, or in your face": {"emergency number", "upwind"},
	} {
		for _, word := range words {
			assert.Contains(t, copper[name], word, name)
		}
	}
	p.GasSource = route.FromMetabisulfite
	for name, text := range card(&p) {
		assert.NotContains(t, name+text, "flame", name)
		assert.NotContains(t, name+text, "lamp", name)
	}
	assert.Len(t, card(&p), 9)
}

func TestTheCardPromisesNothing(t *testing.T) {
	for source := range route.Choice(ways) {
		p := route.NewPlan()
		p.GasSource = source
		for name, text := range card(&p) {
			assert.NotContains(t, strings.ToLower(text), "safe ", name)
			assert.NotContains(t, text, "NaN", name)
		}
	}
}

// TestTubeComesOutBeforeTheHeatGoes: whatever goes wrong with the line, the liquid is
// taken from the tube first.
func TestTubeComesOutBeforeTheHeatGoes(t *testing.T) {
	p := route.NewPlan()
	c := card(&p)
	for _, name := range []string{"The flame goes out", "A tube is blocked", "Liquid is drawn back", "The gas stops early"} {
		lift := strings.Index(c[name], "Lift the funnel")
		require.GreaterOrEqual(t, lift, 0, name)
		for _, later := range []string{"heat away", "see to the flame", "open the line", "more heat"} {
			if at := strings.Index(c[name], later); at >= 0 {
				assert.Less(t, lift, at, "%s: %s", name, later)
			}
		}
	}
}

// TestTheCardKnowsTheLye: where every cell of the first type is rejected, the kind is that
// of the second.
func TestTheCardKnowsTheLye(t *testing.T) {
	p := route.NewPlan()
	for key, value := range map[string]string{"cell.2.kind": "alkaline", "cell.2.size": "R6"} {
		in, _ := route.InputByKey(key)
		require.NoError(t, in.Choose(&p, value))
	}
	p.Rows[1].Count, p.Rows[0].Rejects = 4, p.Rows[0].Count
	assert.Contains(t, card(&p), "Lye on skin or in an eye")
	assert.NotContains(t, card(&p)["Two bottles were poured together"], "chloramines", "no ammonium is there")
	assert.Contains(t, card(&p)["Two bottles were poured together"], "Filtrate and chlorine bleach: chlorine")
	p.Rows[1].Rejects, p.Rows[0].Rejects = 4, 0
	assert.NotContains(t, card(&p), "Lye on skin or in an eye")
}

func TestTheCardFollowsWhatIsStirredIn(t *testing.T) {
	for source, c := range map[route.Choice]struct{ has, hasNot []string }{
		route.BySalt:     {[]string{"The slurry froths over", "Gas in the room, or in your face"}, []string{"Peroxide is spilt", "A tube is blocked"}},
		route.ByPeroxide: {[]string{"The slurry froths over", "Peroxide is spilt"}, []string{"Gas in the room, or in your face", "The paper bleaches too early"}},
		route.ByOxalic:   {[]string{"The slurry froths over", "Oxalic acid is spilt, or swallowed"}, []string{"Gas in the room, or in your face", "Peroxide is spilt"}},
	} {
		p := route.NewPlan()
		p.GasSource = source
		have := card(&p)
		for _, name := range c.has {
			assert.Contains(t, have, name, source)
		}
		for _, name := range c.hasNot {
			assert.NotContains(t, have, name, source)
		}
		paste := have["The paste sets solid"]
		assert.Equal(t, source != route.ByOxalic, strings.Contains(paste, "Do not warm it"), "oxalic acid works warm")
		assert.NotContains(t, paste, "the gas finds")
	}
}

// TestCardAndCautionJudgeTheEndAlike: as the step does, and as the account advises.
func TestCardAndCautionJudgeTheEndAlike(t *testing.T) {
	p := route.NewPlan()
	assert.Contains(t, card(&p)["The paper bleaches too early"], route.PinchTest)
	for source := range route.Choice(ways) {
		p.GasSource = source
		assert.Equal(t, route.Sulfurous(&p), strings.Contains(words(route.Slurry, &p), route.PinchTest), source)
		for name, text := range card(&p) {
			assert.NotRegexp(t, `no longer froths|not froth\b`, text, name)
		}
	}
}
