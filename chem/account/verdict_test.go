package account

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
)

// ranks are causes with their tenths.
func ranks(tenths map[Cause]int, order ...Cause) (list []Ranked) {
	for _, c := range order {
		list = append(list, Ranked{Cause: c, Odds: inTen(tenths[c]), tenths: tenths[c]})
	}
	return list
}

// TestLikelyInWords: what is even is told as even, what is certain without a number, and acid
// that was left out once.
func TestLikelyInWords(t *testing.T) {
	c, r := firstRun(t)
	c.Plan.SlurryAcid = 50
	p := Start(c, r)
	of := map[Cause]int{GasLost: 5, Spill: 5, NoAcid: 7, PoorOxide: 3, EarlyEnd: 10, LiquorLeft: 2}
	for _, w := range []struct {
		want string
		list []Ranked
	}{
		{"either (5 in 10) much of the gas passed by without reacting, or (5 in 10) salt was spilt or left behind on the way to the jar", ranks(of, GasLost, Spill)},
		{"almost certainly the gas was ended early", ranks(of, EarlyEnd)},
		{"most likely (5 in 10) much of the gas passed by without reacting; next (3 in 10) the cells held far less oxide than the plan takes them to; then (2 in 10) a part of the salt stayed in a liquor that was poured off", ranks(of, GasLost, PoorOxide, LiquorLeft)},
	} {
		assert.Equal(t, w.want, p.likely(w.list))
	}
	c.Plan.SlurryAcid = 0
	p = Start(c, r)
	assert.Equal(t, "no dilute acid went in; besides, either (5 in 10) much of the gas passed by without reacting, or (5 in 10) salt was spilt or left behind on the way to the jar", p.likely(ranks(of, GasLost, Spill)))
	assert.Equal(t, "no dilute acid went in, and most likely (7 in 10) that is all that went wrong: little dissolves without it; next (3 in 10) the cells held far less oxide than the plan takes them to", p.likely(ranks(of, NoAcid, PoorOxide)))
	c.Plan.SlurryAcid = quantity.Millilitre(quantity.Blank)
	p = Start(c, r)
	p.none = 0.95
	assert.Contains(t, p.likely(ranks(of, GasLost, Spill)), "very likely no dilute acid went in; besides, either (5 in 10) much")
	p.none = 0.5
	assert.NotContains(t, p.likely(ranks(of, GasLost, Spill)), "very likely")
}

// TestTwoQuestions: whether anything need be wrong is told before what it is if something is, and
// a run that most likely went as planned is accused of nothing.
func TestTwoQuestions(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid = 108
	r := NewRecord()
	r.Product, r.Residue = 34, 10
	p := quickly(c, r)
	require.True(t, p.OK())
	p.shares = [Causes]float64{GasLost: 0.6, Spill: 0.4}
	for _, w := range []struct {
		planned float64
		says    string
	}{
		{0.01, "Something went wrong, as hardly any run that weighs this went as planned. Most likely (6 in 10) much of the gas"},
		{0.10, "Something very likely went wrong, as only 1 in 10 runs that weigh this went as planned. Most likely (6 in 10) much of the gas"},
		{0.40, "Nothing need have gone wrong, as 4 in 10 runs that weigh this went as planned. If something did, most likely (6 in 10) much of the gas"},
		{0.97, "Most likely nothing went wrong, as nearly all runs that weigh this went as planned. If something did, most likely (6 in 10) much of the gas"},
		{0.70, "Most likely nothing went wrong, as 7 in 10 runs that weigh this went as planned. If something did, most likely (6 in 10) much of the gas"},
	} {
		p.planned = w.planned
		v := p.Verdict()
		assert.True(t, strings.HasPrefix(v.Sentence, w.says), v.Sentence)
		require.Len(t, v.Ranked, 2)
		assert.Equal(t, []string{"6 in 10", "4 in 10"}, []string{v.Ranked[0].Odds, v.Ranked[1].Odds})
		if w.planned < 0.5 {
			require.Len(t, v.Advice, 2)
			assert.Equal(t, GasLost, v.Advice[0].Cause)
			assert.Equal(t, GasLost, p.Mostly())
			continue
		}
		assert.Equal(t, AsPlanned, p.Mostly())
		require.Len(t, v.Advice, 1)
		assert.Contains(t, v.Advice[0].Do, "Do it again as you did")
	}
	// Where the weighings do not go together nobody is told that all is well.
	p.missed = []Miss{{Key: KeyResidue, Found: 10, Fitted: 7, Halves: 3}}
	assert.Empty(t, p.Advice())
	assert.Empty(t, p.Verdict().Advice)
	assert.NotContains(t, p.Verdict().Sentence, "nothing went wrong")
	p.missed = nil
	// The likeliest cause is told what to do about, be it ever so little the likeliest.
	p.planned, p.shares = 0.1, [Causes]float64{GasLost: 0.25, EarlyEnd: 0.2, PoorOxide: 0.2, Spill: 0.2, LiquorLeft: 0.15}
	require.Len(t, p.Advice(), 1)
	assert.Equal(t, GasLost, p.Advice()[0].Cause)
	// Where it was said that no dilute acid went in, nothing went as planned.
	c.Plan.SlurryAcid = 0
	p = quickly(c, r)
	require.True(t, p.OK())
	assert.Zero(t, p.Planned())
	assert.Empty(t, p.Verdict().Planned)
	assert.NotContains(t, p.Verdict().Sentence, "went as planned")
}

// TestWhatToWeighNext: what would tell the causes that are open, and no more than two things.
func TestWhatToWeighNext(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid = 108
	r := NewRecord()
	r.Product = 20
	for _, w := range []struct {
		want   string
		shares map[Cause]float64
	}{
		{"Nothing more needs to be weighed for this run.", map[Cause]float64{GasLost: 0.95, Spill: 0.05}},
		{"Nothing more needs to be weighed for this run.", map[Cause]float64{AsPlanned: sureOfTwo, GasLost: 0.6, Spill: 0.4}},
		{"next time count the bubbles.", map[Cause]float64{AsPlanned: 0.6, GasLost: 0.95}},
		{"unless the liquor still stands: boil it to dryness", map[Cause]float64{LiquorLeft: 0.6, Spill: 0.4}},
		{"next time count the bubbles and weigh what you charge.", map[Cause]float64{EarlyEnd: 0.5, OtherCharge: 0.3, GasLost: 0.2}},
		{"next time weigh the dry residue, rinse it and weigh it dry again.", map[Cause]float64{AsPlanned: 0.6, Unrinsed: 0.8}},
		{"next time weigh the washed, dried black mix before you begin.", map[Cause]float64{AsPlanned: 0.6, NoAcid: 0.8}},
	} {
		p := Start(c, r)
		for cause, q := range w.shares {
			p.shares[cause] = q
		}
		p.planned, p.shares[AsPlanned] = p.shares[AsPlanned], 0
		assert.Contains(t, p.weighNext(nil), w.want)
	}
	// Bubbles that were counted are not asked for again.
	r.Gas = 100
	p := Start(c, r)
	p.shares[GasLost], p.shares[PoorOxide] = 0.5, 0.5
	assert.Contains(t, p.weighNext(nil), "next time weigh the washed, dried black mix before you begin.")
	// What does not go with the rest is weighed again.
	p.missed = []Miss{{Key: KeyCopper, Halves: 3}}
	assert.Contains(t, p.weighNext(nil), "Weigh again what does not go with the rest: “Blue crystals, weighed”.")
}

// TestSaltInTheCakeWeighsWhatTheJarLacks: a residue that is heavier by far less, or by far more,
// is not told as one that holds the salt.
func TestSaltInTheCakeWeighsWhatTheJarLacks(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid = 108
	r := NewRecord()
	r.Product, r.Residue = 30, 30
	p := quickly(c, r)
	jar, _ := p.Expected(KeyProduct)
	dry, _ := p.Expected(KeyResidue)
	for more, want := range map[float64]bool{5: false, 9: true, 11: true, 14: false, 40: false} {
		p.m.rec.Product, p.m.rec.Residue = jar.Median-10, dry.Median+more
		assert.Equal(t, want, p.saltInCake(), "%v g more, 10 g less", more)
	}
}
