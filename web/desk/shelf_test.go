package desk

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/stock"
	"rosesalt/web/link"
)

// TestAShareThatNobodySetFollowsTheShelf, in figures, draws and fields alike; the link says
// nothing of it, and opens to the same.
func TestAShareThatNobodySetFollowsTheShelf(t *testing.T) {
	d := New("")
	whole := d.Sheet().Value(route.ProductMass)
	d.Edit("shelf.acid", "40 mL")
	share := d.Fitted().Share
	require.Less(t, share, quantity.Percent(25))
	assert.Equal(t, share, d.Plan().BatchShare)
	assert.Equal(t, share, d.Case().Plan.BatchShare)
	assert.Less(t, d.Sheet().Value(route.ProductMass), whole)
	assert.LessOrEqual(t, route.StrongAcid(d.Plan(), d.Sheet()).All(), 40.0)
	assert.Equal(t, route.Plain(float64(share)), d.Text("batch.share"))
	assert.Equal(t, link.NewPlan+"&shelf.acid=40", d.Fragment())
	assert.Equal(t, share, New(d.Fragment()).Plan().BatchShare)
	c, _, _ := link.ReadText(d.PlainLink())
	assert.Equal(t, d.Fragment(), link.Encode(&c))

	d.Edit("shelf.acid", "30")
	assert.Less(t, d.Plan().BatchShare, share, "it follows")
	d.Edit("cell.count", "3")
	assert.Greater(t, d.Plan().BatchShare, share, "of fewer cells it is more")
	d.Edit("cell.count", "6")
	d.Edit("shelf.acid", "")
	assert.Equal(t, quantity.Percent(25), d.Plan().BatchShare)
	assert.Equal(t, whole, d.Sheet().Value(route.ProductMass))
	assert.Equal(t, link.NewPlan, d.Fragment())
}

// TestAShareThatWasTypedStands, the usual one too.
func TestAShareThatWasTypedStands(t *testing.T) {
	for _, share := range []string{"50", "25"} {
		d := New("")
		d.Edit("shelf.acid", "40")
		d.Edit("batch.share", share)
		for _, d := range []*Desk{d, New(d.Fragment())} {
			assert.Equal(t, share, route.Plain(float64(d.Plan().BatchShare)))
			assert.Equal(t, share, d.Text("batch.share"))
			_, scarce := d.Fitted().Scarce()
			assert.True(t, scarce)
		}
	}
	d := New("")
	d.Edit("batch.share", "25")
	d.Edit("shelf.acid", "40")
	assert.Equal(t, quantity.Percent(25), d.Plan().BatchShare, "typed before there was a shelf")
	d.Edit(stock.ShareKey, "within")
	assert.Less(t, d.Plan().BatchShare, quantity.Percent(25), "it follows the shelf again")
	assert.NotEqual(t, "25", d.Text("batch.share"))
	d = New("shelf.acid=40&batch.share~=20,30")
	assert.Equal(t, quantity.Percent(25), d.Plan().BatchShare, "an interval was set")
	assert.False(t, d.Fitted().Less())
}

// TestARunKeepsTheShareItWasStartedWith, whatever becomes of the shelf.
func TestARunKeepsTheShareItWasStartedWith(t *testing.T) {
	d := New("shelf.acid=500")
	require.True(t, d.StartRun())
	d.Edit("shelf.acid", "20")
	assert.Equal(t, quantity.Percent(25), d.Plan().BatchShare, "the usual share too")
	d = New("shelf.acid=40")
	share := d.Plan().BatchShare
	require.True(t, d.StartRun())
	d.Edit("shelf.acid", "20")
	for _, d := range []*Desk{d, New(d.Fragment())} {
		assert.Equal(t, share, d.Plan().BatchShare)
		assert.Equal(t, share, d.Started().Plan.BatchShare)
		assert.Nil(t, d.Offers(true))
		assert.Nil(t, d.Quicker())
	}
	d.DropRun()
	assert.Equal(t, share, d.Plan().BatchShare)
	assert.Equal(t, 20.0, d.Shelf()["shelf.acid"], "what stands on the shelf stays")
}

// TestAnotherDeskFollowsTheShelf: the one that makes the draws, when only the shelf changes.
func TestAnotherDeskFollowsTheShelf(t *testing.T) {
	d, other := New(""), New("")
	for _, acid := range []string{"500", "40", "30", "500", ""} {
		d.Edit("shelf.acid", acid)
		e := d.Errand()
		other.RunErrand(&e)
		assert.Equal(t, d.Plan().BatchShare, other.Plan().BatchShare, acid)
		assert.Equal(t, *d.Fitted(), *other.Fitted(), acid)
	}
	d.Edit("shelf.acid", "40")
	d.PinPlan()
	assert.Equal(t, d.Sheet().Value(route.ProductMass), d.Pinned().Sheet.Value(route.ProductMass))
	draft := d.Draft()
	again := New("")
	again.TakeDraft(&draft)
	assert.Equal(t, d.Pinned().Sheet.Value(route.ProductMass), again.Pinned().Sheet.Value(route.ProductMass))
}

// TestTheShelfRefusesWhatItCannotRead and keeps the text.
func TestTheShelfRefusesWhatItCannotRead(t *testing.T) {
	d := New("")
	d.Edit("shelf.acid", "some")
	assert.Contains(t, d.Problem("shelf.acid"), "some")
	assert.Equal(t, "some", d.Text("shelf.acid"))
	assert.Equal(t, quantity.Percent(25), d.Plan().BatchShare)
	_, troubles := link.Decode("shelf.acid=-3&shelf.buy.acid=perhaps")
	require.Len(t, troubles, 2)
	assert.True(t, strings.Contains(troubles[0].Why, "below the least"), troubles[0].Why)
}

// TestWhatARunUsedIsTakenOffTheShelfWhenAsked: at no other time, once for each run, and in the link
// as the shelf is.
func TestWhatARunUsedIsTakenOffTheShelfWhenAsked(t *testing.T) {
	d := New("shelf.acid=100&shelf.copper=50&shelf.oxalic=9")
	offered := func(d *Desk) bool { _, ok := d.Used(); return ok }
	assert.False(t, offered(d), "nothing is used of a plan")
	require.True(t, d.StartRun())
	assert.False(t, offered(d), "the run goes on")
	d.Edit("gas.acid", "44")
	require.True(t, d.StageDone(route.Stages-1))
	require.True(t, offered(d))
	assert.Equal(t, 100.0, d.Shelf()["shelf.acid"], "nothing is taken off silently")
	acid := route.StrongAcid(d.Plan(), d.Sheet()).All()
	copper := d.Sheet().Value(route.GasCopperUsed)
	o, _ := d.Used()
	for _, c := range o.Set {
		d.Edit(c.Key, c.Text)
	}
	for _, d := range []*Desk{d, New(d.Fragment())} {
		assert.Zero(t, d.FaultCount())
		assert.InDelta(t, 100-acid, d.Shelf()["shelf.acid"], 0.1)
		assert.InDelta(t, 50-copper, d.Shelf()["shelf.copper"], 0.1)
		assert.Equal(t, 9.0, d.Shelf()["shelf.oxalic"], "of which the run used none")
		assert.Contains(t, o.Gives, d.Text("shelf.acid")+"\u202fmL of acid and "+d.Text("shelf.copper")+"\u202fg of copper")
		assert.False(t, offered(d), "it is taken off")
	}
	d.DropRun()
	assert.InDelta(t, 100-acid, d.Shelf()["shelf.acid"], 0.1)
	require.True(t, d.StartRun())
	require.True(t, d.StageDone(route.Stages-1))
	require.True(t, offered(d), "another run used more")
	d.Edit("shelf.acid", "1")
	o, _ = d.Used()
	assert.Equal(t, "0", o.Set[0].Text, "more than was said to stand there")

	d = New("shelf.acid=100")
	require.True(t, d.StartRun())
	d.Edit("found.product", "12")
	assert.True(t, offered(d), "it is weighed, and so over")
	d.Edit("shelf.acid", "")
	assert.False(t, offered(d), "nothing is said to stand there")
	assert.False(t, stock.Shelf{stock.TakenKey: 1}.Says())
}

// TestAShareIsOfferedThatIsSure: where no more may be bought of what stands on the shelf, and that is
// not enough in nine runs of ten.
func TestAShareIsOfferedThatIsSure(t *testing.T) {
	drawn := func(fragment string, set ...field.Change) *Desk {
		d, ok := pressed(fragment, set...)
		require.True(t, ok)
		for !d.StepBands(Draws) {
		}
		return d
	}
	for _, fragment := range []string{"shelf.acid=40&shelf.buy.acid=no", "shelf.acid=60&shelf.buy.acid=no&batch.share=30", "gas.source=peroxide&shelf.peroxide=90&shelf.buy.peroxide=no"} {
		_, ok := New(fragment).Sure()
		assert.False(t, ok, "it is not known yet")
		d := drawn(fragment)
		o, ok := d.Sure()
		require.True(t, ok, fragment)
		then := drawn(fragment, o.Set...)
		assert.Less(t, then.Plan().BatchShare, d.Plan().BatchShare)
		assert.Greater(t, then.Plan().BatchShare, d.Plan().BatchShare/2, "no smaller than it takes")
		assert.Contains(t, o.Gives, route.Print(then.Sheet().Value(route.ProductMass), "g")+" of salt")
		for _, r := range then.Reagents() {
			if _, has, stands := then.Shelf().Stands(then.Plan(), r.ID); stands {
				assert.LessOrEqual(t, r.Buy, has, fragment)
			}
		}
		_, ok = then.Sure()
		assert.False(t, ok, "it is sure")
	}
	for _, fragment := range []string{"", "shelf.acid=40", "shelf.acid=40&shelf.buy.acid=yes", "shelf.acid=500&shelf.buy.acid=no", "shelf.buy.acid=no"} {
		_, ok := drawn(fragment).Sure()
		assert.False(t, ok, fragment)
	}
}
