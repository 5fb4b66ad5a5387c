package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func input(t *testing.T, key string) *route.Input {
	t.Helper()
	in, ok := route.InputByKey(key)
	require.True(t, ok, key)
	return in
}

func TestBadTextKeepsTheLastGoodValue(t *testing.T) {
	d := desk.New("cell.count=4")
	good := d.Sheet().Value(route.ProductMass)
	d.Edit("cell.count", "four")
	assert.Equal(t, "four", d.Text("cell.count"))
	assert.Contains(t, d.Problem("cell.count"), "“four” cannot be read")
	assert.Equal(t, good, d.Sheet().Value(route.ProductMass))
	assert.Equal(t, route.Cells, d.OldFrom())
	assert.Equal(t, "v=2&cell.count=4", d.Fragment())

	d.Edit("cell.count", "8")
	assert.Empty(t, d.Problem("cell.count"))
	assert.Equal(t, route.Stage(route.Stages), d.OldFrom())
	assert.InDelta(t, 2*good, d.Sheet().Value(route.ProductMass), 0.05*good)
}

// TestBadInputIsToldAtItsField: one case for each thing that can be wrong.
func TestBadInputIsToldAtItsField(t *testing.T) {
	for name, c := range map[string]struct{ key, text, says string }{
		"empty":               {"cell.count", "", "Nothing is given"},
		"minus":               {"cell.count", "-3", "−3 is below the least"},
		"none":                {"cell.count", "0 cells", "0 is below the least"},
		"too many":            {"cell.count", "1e9", "above the limit of 2000"},
		"a half":              {"cell.count", "1,5", "not a whole number"},
		"a sentence":          {"gas.acid", "about as much as last time", "cannot be read as a number in mL"},
		"strength above 100":  {"gas.strength", "120", "above the limit of 100"},
		"end above the start": {"gas.end", "98", "cannot weaken"},
		"hot below cold":      {"copper.hot", "5", "nothing would crystallise"},
		"no charge":           {"gas.copper", "0", "no gas is made"},
		"no uptake":           {"gas.uptake", "0", "no charge is large enough"},
	} {
		t.Run(name, func(t *testing.T) {
			d := desk.New("v=2&cell.count=9")
			good := d.Sheet().Value(route.ProductMass)
			d.Edit(c.key, c.text)
			assert.Contains(t, d.Problem(c.key), c.says)
			assert.Equal(t, c.text, d.Text(c.key), "what was typed stays")
			assert.Equal(t, good, d.Sheet().Value(route.ProductMass), "the last good figure stays")
			assert.Less(t, int(d.OldFrom()), route.Stages, "and is marked as old")
			d.Edit("rinse.times", "4")
			assert.Contains(t, d.Fragment(), "rinse.times=4", "the other fields go on")
		})
	}
}

func TestPairsThatDoNotGoTogetherBlameWhatWasTyped(t *testing.T) {
	d := desk.New("")
	d.Edit("gas.strength", "70")
	assert.Contains(t, d.Problem("gas.strength"), "boils before")
	d.Edit("gas.end", "75")
	assert.Contains(t, d.Problem("gas.end"), "cannot weaken")
	d.Edit("gas.end", "60")
	assert.Empty(t, d.Problem("gas.strength"), "with the other half typed the pair is good")
	assert.Equal(t, 70.0, float64(d.Plan().GasStrength))
}

func TestSeveralBadFieldsAtOnce(t *testing.T) {
	d := desk.New("")
	d.Edit("copper.cold", "x")
	d.Edit("gas.flask", "-1")
	d.Edit("cell.count", "12")
	assert.Equal(t, 2, d.FaultCount())
	assert.Equal(t, 12.0, d.Plan().Rows[0].Count)
	assert.Equal(t, route.Gas, d.OldFrom())
}

func TestRows(t *testing.T) {
	d := desk.New("cell.3.count=2")
	assert.Equal(t, []int{1, 3}, d.Rows())
	require.True(t, d.AddRow())
	assert.Equal(t, []int{1, 2, 3}, d.Rows())
	d.Edit("cell.2.count", "")
	assert.Equal(t, []int{1, 2, 3}, d.Rows(), "a row being typed in stays")
	d.RemoveRow(2)
	assert.Equal(t, []int{1, 3}, d.Rows())
	for range route.MaxRows - 2 {
		require.True(t, d.AddRow())
	}
	assert.False(t, d.AddRow(), "the bag is full")
}

func TestOpenForgetsTexts(t *testing.T) {
	d := desk.New("")
	d.Edit("cell.count", "seven")
	d.Open("v=2&cell.count=3")
	assert.Equal(t, "3", d.Text("cell.count"))
	assert.Zero(t, d.FaultCount())
}

func TestUnknownKeyChangesNothing(t *testing.T) {
	d := desk.New("")
	d.Edit("tea.sugar", "2")
	assert.Equal(t, "v=2", d.Fragment())
}

func finish(t *testing.T, d *desk.Desk) {
	t.Helper()
	for range 10000 {
		if d.StepBands(512) && d.StepRest(4096) {
			return
		}
	}
	t.Fatal("never done")
}

func TestBandsFollowThePlan(t *testing.T) {
	d := desk.New("")
	assert.False(t, d.BandsStand())
	finish(t, d)
	band := d.Band(route.ProductMass)
	require.True(t, band.OK)
	assert.Less(t, band.Low, band.High)
	d.Edit("cell.count", "12")
	assert.False(t, d.BandsStand())
	assert.Equal(t, band, d.Band(route.ProductMass), "the last band stays until the new one stands")
	finish(t, d)
	assert.InDelta(t, 2, d.Band(route.ProductMass).High/band.High, 0.1)
}

// TestWhatToBuyStandsWithTheBands: whatever the steps, and also where work was dropped; until
// then the last ratios to what the plan takes stand.
func TestWhatToBuyStandsWithTheBands(t *testing.T) {
	var want []route.Reagent
	for _, part := range []int{4096, 64, 192, 512, 1024, 1500, 2047, 2048, 3000} {
		d := desk.New("")
		d.Edit("cell.count", "9")
		for range 2600/part + 1 { // with small steps amid what is drawn to know what to buy
			d.StepBands(part)
		}
		d.Edit("cell.count", "6")
		for _, r := range d.Reagents() {
			assert.False(t, r.Buy < r.Amount, r.Name)
		}
		for !d.StepBands(part) {
		}
		if want == nil {
			want = d.Reagents()
			assert.Greater(t, want[0].Buy, 1.1*want[0].Amount)
		}
		assert.Equal(t, want, d.Reagents(), part)
		d.Edit("cell.count", "60")
		for i, r := range d.Reagents() {
			assert.InDelta(t, want[i].Buy/want[i].Amount, r.Buy/r.Amount, 0.1, r.Name)
		}
	}
}

func TestTopSuggestionNarrowsAsPromised(t *testing.T) {
	d := desk.New("")
	finish(t, d)
	list, told := d.Suggestions()
	require.True(t, told)
	require.NotEmpty(t, list)
	top := list[0]
	assert.Less(t, top.HighAfter-top.LowAfter, 0.95*(top.High-top.Low))
}

func TestIntervalsAreTheUsers(t *testing.T) {
	d := desk.New("")
	finish(t, d)
	wide := d.Band(route.VentGas)
	d.Edit("gas.uptake~", "79 to 81")
	assert.Contains(t, d.Fragment(), "gas.uptake~=79,81")
	finish(t, d)
	narrow := d.Band(route.VentGas)
	assert.Less(t, narrow.High-narrow.Low, (wide.High-wide.Low)/2)
	d.Edit("gas.uptake~", "eighty")
	assert.NotEmpty(t, d.Problem("gas.uptake~"))
	d.Edit("gas.uptake~", "")
	assert.Equal(t, "v=2", d.Fragment())
}

func TestWish(t *testing.T) {
	d := desk.New("batch.share=100")
	d.Want(desk.Wish{Text: "50", Figure: route.ProductMass})
	finish(t, d)
	w := d.Wish()
	require.True(t, w.Known)
	assert.GreaterOrEqual(t, w.Answer.BestMakes, 50.0)
	assert.GreaterOrEqual(t, w.Answer.Sure, w.Answer.Best)
	d.Want(desk.Wish{Text: "lots", Figure: route.ProductMass})
	finish(t, d)
	assert.NotEmpty(t, d.Wish().Problem)
	assert.False(t, d.Wish().Known)
}

func TestPurityWanted(t *testing.T) {
	d := desk.New("")
	d.WantPure("95 %")
	finish(t, d)
	w := d.Pure()
	require.True(t, w.Known)
	assert.True(t, w.Answer.Best.Reaches)
	d.Edit("cell.count", "9")
	assert.False(t, d.Pure().Known, "it was about another plan")
	assert.Equal(t, "95 %", d.Pure().Text)
	for _, wrong := range []string{"lots", "101"} {
		d.WantPure(wrong)
		finish(t, d)
		assert.NotEmpty(t, d.Pure().Problem)
		assert.False(t, d.Pure().Known)
	}
	d.WantPure("")
	finish(t, d)
	assert.Equal(t, desk.Pure{}, d.Pure())
}

func TestPinnedPlan(t *testing.T) {
	d := desk.New("")
	d.PinPlan()
	finish(t, d)
	assert.Equal(t, desk.Differs{Differs: false, Known: true}, d.Differs(route.ProductMass), "the same plan does not differ from itself")
	d.Edit("cell.count", "12")
	finish(t, d)
	assert.Equal(t, desk.Differs{Differs: true, Known: true}, d.Differs(route.ProductMass))
	d.Unpin()
	assert.Nil(t, d.Pinned())
}

func TestSweepAlongAnyNumber(t *testing.T) {
	d := desk.New("")
	for _, key := range []string{"cell.count", "batch.share", "gas.uptake", "gas.acid", "mix.wet", "slurry.temperature", "crop.water"} {
		d.SweepAlong(key)
		finish(t, d)
		assert.True(t, d.Swept(), key)
		assert.GreaterOrEqual(t, len(d.Sweep().Line(0)), 10, key)
	}
}

func TestAccountOfARun(t *testing.T) {
	d := desk.New("")
	assert.Nil(t, d.Account(), "nothing measured, nothing to account for")
	d.Edit("found.product", "19")
	d.Edit("found.copper", "45")
	finish(t, d)
	require.NotNil(t, d.Account())
	require.True(t, d.Accounted())
	require.True(t, d.Account().OK(), d.Account().Why())
	assert.Contains(t, d.Account().Verdict().Sentence, "in 10")
	assert.Contains(t, d.Fragment(), "found.product=19&found.copper=45")
	d.Edit("found.product", "much")
	assert.NotEmpty(t, d.Problem("found.product"))
	assert.Equal(t, 19.0, d.Record().Product, "the last good weighing stays")

	again := desk.New("v=2&found.copper=45&found.product=19")
	assert.Equal(t, 45.0, again.Record().Copper)
}

func TestNextRunStartsFromWhatWasLearned(t *testing.T) {
	d := desk.New("")
	d.Edit("found.product", "30")
	d.Edit("found.copper", "49")
	d.Edit("found.residue", "12")
	finish(t, d)
	require.True(t, d.Account().OK(), d.Account().Why())
	changes, ok := d.PlanNext(desk.Next{})
	require.True(t, ok)
	require.NotEmpty(t, changes)
	assert.True(t, d.Record().Empty())
	assert.Contains(t, d.Fragment(), "~=", "with intervals")
	finish(t, d)
	assert.True(t, d.Band(route.ProductMass).OK)
}

func TestPlanFromSeveralRuns(t *testing.T) {
	d := desk.New("v=2&cell.count=9&found.product=30")
	assert.Nil(t, d.PlanFrom(nil))
	assert.False(t, d.Record().Empty(), "nothing told, nothing changed")
	in, ok := route.InputByKey("gas.uptake")
	require.True(t, ok)
	changes := d.PlanFrom([]account.Learned{{Input: in, Interval: account.Interval{Low: 55, Median: 62, High: 70}}})
	require.NotEmpty(t, changes)
	assert.Contains(t, changes[0].Sentence, "62")
	assert.Equal(t, 62.0, float64(d.Plan().GasUptake))
	assert.Contains(t, d.Case().Given, "gas.uptake")
	assert.Equal(t, 9.0, d.Plan().Rows[0].Count, "the rest stays")
	assert.True(t, d.Record().Empty())
}

// TestWhatBringsAProblemAboutIsTold: a value may be wrong beside one that nobody touched.
// It is told at its own field, and the others go on.
func TestWhatBringsAProblemAboutIsTold(t *testing.T) {
	for name, c := range map[string]struct{ fragment, key, text, says, good string }{
		"carbon beside an assay":    {"v=2&mix.assay=70", "mix.carbon", "60", "change the carbon", ""},
		"a reject that is opened":   {"v=2&cell.2.count=2&cell.2.rejects=2&cell.2.kind=alkaline", "cell.2.rejects", "1", "Alkaline cells never", "2"},
		"a count with more rejects": {"v=2&cell.count=6&cell.rejects=4", "cell.count", "3", "4 rejects are more", "6"},
	} {
		t.Run(name, func(t *testing.T) {
			d := desk.New(c.fragment)
			require.Empty(t, d.Troubles())
			d.Edit(c.key, c.text)
			assert.Contains(t, d.Problem(c.key), c.says)
			assert.Equal(t, 1, d.FaultCount())
			d.Edit("batch.share", "50")
			assert.Equal(t, 50.0, float64(d.Plan().BatchShare), "the others go on")
			assert.Contains(t, d.Problem(c.key), c.says)
			d.Edit(c.key, c.good)
			assert.Zero(t, d.FaultCount())
		})
	}
}

func TestUnreadIsWhatNoLinkCarries(t *testing.T) {
	d := desk.New("")
	assert.Empty(t, d.Unread())
	d.Edit("cell.count", "lots")
	d.Edit("days.long", "a while")
	d.Edit("gas.uptake", "70")
	assert.Equal(t, map[string]string{"cell.count": "lots", "days.long": "a while"}, d.Unread())
}

// TestWhatFitsIsKept: of two values that do not go together only the one that brought it
// about is taken back, and every text that the plan does not hold has its message.
func TestWhatFitsIsKept(t *testing.T) {
	d := desk.New("")
	d.Edit("cell.rejects", "12")
	d.Edit("cell.count", "1")
	assert.Equal(t, "v=2&cell.count=1", d.Fragment())
	assert.Contains(t, d.Problem("cell.rejects"), "more than the 1 cell")
	assert.Empty(t, d.Problem("cell.count"))
	d.Edit("cell.count", "20")
	assert.Equal(t, "v=2&cell.count=20&cell.rejects=12", d.Fragment())
}

// TestWhatToBuyIsOfThePlansWay: what was drawn for the way before says nothing of another
// reductant, and stands while the way does.
func TestWhatToBuyIsOfThePlansWay(t *testing.T) {
	d := desk.New("")
	for !d.StepBands(desk.Draws) {
	}
	require.True(t, d.KnowsWhatToBuy())
	d.Edit("cell.count", "7")
	assert.True(t, d.KnowsWhatToBuy(), "the last draws stand in")
	source, _ := route.InputByKey("gas.source")
	for _, o := range source.Options[1:] {
		d.Edit("gas.source", o.Word)
		assert.False(t, d.KnowsWhatToBuy(), o.Word)
		for _, r := range d.Reagents() {
			assert.False(t, quantity.Given(r.Buy), "%s: %s", o.Word, r.Name)
		}
		d.SettleBuying()
		assert.True(t, d.KnowsWhatToBuy(), o.Word)
		atOnce := d.Reagents()
		for !d.StepBands(desk.Draws) {
		}
		assert.Equal(t, atOnce, d.Reagents(), o.Word)
	}
}
