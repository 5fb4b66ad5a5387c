package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// TestTheShareFollowsWhatWasWeighedOut of the cake, whether or not a run is under way, and a link
// opens to the same.
func TestTheShareFollowsWhatWasWeighedOut(t *testing.T) {
	for name, started := range map[string]bool{"planned": false, "under way": true} {
		t.Run(name, func(t *testing.T) {
			d := desk.New("v=2&batch.share=30")
			if started {
				require.True(t, d.StartRun())
			}
			d.Edit("cake.damp", "400")
			d.Edit("cake.taken", "95")
			share := desk.New("v=2&batch.share=23.75&cake.damp=400")
			for _, is := range []*desk.Desk{d, desk.New(d.Fragment())} {
				assert.Equal(t, "23.75", is.Text("batch.share"))
				assert.Equal(t, "95", is.Text("cake.taken"))
				assert.InEpsilon(t, 95, is.Sheet().Value(route.BatchDamp), 1e-12)
				assert.InEpsilon(t, share.Sheet().Value(route.ProductMass), is.Sheet().Value(route.ProductMass), 1e-12)
				assert.InEpsilon(t, 23.75, float64(is.Case().Plan.BatchShare), 1e-12, "the account goes by it")
				following := is.Following()
				assert.InEpsilon(t, 23.75, float64(following.Plan.BatchShare), 1e-12)
				assert.False(t, quantity.Given(following.Plan.CakeTaken), "what may be otherwise knows no grams")
				assert.Zero(t, is.FaultCount())
				assert.Empty(t, is.Troubles())
			}
			d.Edit("cake.damp", "500")
			assert.Equal(t, "19", d.Text("batch.share"))
			d.Edit("cake.taken", "")
			assert.Equal(t, "30", d.Text("batch.share"), "as it was planned")
		})
	}
}

// TestTheShareOrTheGrams: never both; the one that is typed later stands.
func TestTheShareOrTheGrams(t *testing.T) {
	d := desk.New("v=2&cake.damp=400&cake.taken=95&batch.share~=20,30")
	assert.Equal(t, "23.75", d.Text("batch.share"))
	assert.NotContains(t, d.Case().Given, "batch.share", "a share that was weighed is known")
	d.Edit("batch.share", "28")
	assert.Equal(t, "", d.Text("cake.taken"))
	assert.Equal(t, "28", d.Text("batch.share"))
	assert.Equal(t, "v=2&batch.share=28&cake.damp=400&batch.share~=20,30", d.Fragment())
	d.Edit("cake.taken", "100")
	assert.Equal(t, "25", d.Text("batch.share"))
	d.Edit("batch.share", "250")
	assert.NotEmpty(t, d.Problem("batch.share"))
	assert.InEpsilon(t, 100, d.Sheet().Value(route.BatchDamp), 1e-12, "the last good one")
	d.Edit("cake.taken", "96")
	assert.Empty(t, d.Problem("batch.share"))
	assert.Equal(t, "24", d.Text("batch.share"))
}

// TestMoreThanAllOfTheCake is refused at the field that was typed; the last good one stands.
func TestMoreThanAllOfTheCake(t *testing.T) {
	d := desk.New("v=2&cake.damp=400")
	d.Edit("cake.taken", "95")
	d.Edit("cake.taken", "950")
	assert.Equal(t, "950\u202fg weighed out is more than all of the damp cake, 400\u202fg. Weigh both in grams, the dishes taken off.", d.Problem("cake.taken"))
	assert.InEpsilon(t, 95, d.Sheet().Value(route.BatchDamp), 1e-12)
	d.Edit("cake.taken", "95")
	d.Edit("cake.damp", "90")
	assert.Contains(t, d.Problem("cake.damp"), "is more than all of the damp cake, 90\u202fg")
	d.Edit("cake.damp", "")
	d.Edit("cake.taken", "9500")
	assert.Contains(t, d.Problem("cake.taken"), "by the plan. Weigh all of it too, or give the share in per cent instead.")
	troubles := desk.New("v=2&cake.damp=400&cake.taken=401").Troubles()
	if assert.Len(t, troubles, 1) {
		assert.Contains(t, troubles[0].Why, "401\u202fg weighed out is more than all of the damp cake")
	}
}

// TestAWeighedShareDoesNotFollowTheShelf, even where it is the usual one.
func TestAWeighedShareDoesNotFollowTheShelf(t *testing.T) {
	d := desk.New("v=2&shelf.acid=30&shelf.buy.acid=no")
	require.NotEqual(t, "25", d.Text("batch.share"))
	d.Edit("cake.damp", "400")
	d.Edit("cake.taken", "100")
	assert.Equal(t, "25", d.Text("batch.share"))
}

// TestTheAccountGoesByTheWeighedShare, as by the same share in per cent; the next run knows neither.
func TestTheAccountGoesByTheWeighedShare(t *testing.T) {
	var told []string
	for _, typed := range [][2]string{{"cake.taken", "80"}, {"batch.share", "20"}} {
		d := desk.New("v=2&batch.share=40")
		require.True(t, d.StartRun())
		d.Edit("cake.damp", "400")
		d.Edit(typed[0], typed[1])
		require.True(t, d.StageDone(route.CopperSalt))
		d.Edit("found.product", "12")
		d.Edit("found.copper", "35")
		for !d.Accounted() {
			d.StepRest(1000)
		}
		v := d.Account().Verdict()
		told = append(told, v.Sentence+v.Answer)
		_, ok := d.PlanNext(desk.Next{})
		require.True(t, ok)
		assert.Equal(t, "40", d.Text("batch.share"), "as planned")
		assert.Equal(t, "", d.Text("cake.taken"))
		assert.Equal(t, "", d.Text("cake.damp"))
	}
	assert.NotEmpty(t, told[0])
	assert.Equal(t, told[1], told[0])
}

// TestTheNextShareOfAWeighedCakeIsToFourDigits, from new cells as from the jar.
func TestTheNextShareOfAWeighedCakeIsToFourDigits(t *testing.T) {
	for jar, share := range map[bool]string{false: "83.3", true: "16.7"} {
		d := desk.New("v=2&cake.damp=437&cake.taken=364")
		d.End()
		_, ok := d.PlanNext(desk.Next{Jar: jar})
		require.True(t, ok)
		assert.Equal(t, share, d.Text("batch.share"))
	}
}
