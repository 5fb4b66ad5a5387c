package desk_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// texts are what people type, and worse.
var texts = []string{"", "1", "3", "12", "0,5", "95", "120", "-3", "40 to 60", "60 to 40", "tea", "2x6", "R20", "metabisulfite", "1e999", "2026-03-02T09:00", "\u202e<b>"}

// TestDraftBringsAllOfItBack: whatever was typed, on another desk the draft makes the same
// plan, with the same texts in the same fields and the same said of them.
func TestDraftBringsAllOfItBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := desk.New(rapid.SampledFrom([]string{"", "v=2&cell.2.count=3&cell.2.size=R6", "v=2&run=v%3D2&run.done=3", "v=2&cell.kind=alkaline", "v=2&found.product.empty=84"}).Draw(t, "link"))
		if rapid.Bool().Draw(t, "pinned") && d.Started() == nil {
			d.PinPlan()
		}
		for range rapid.IntRange(0, 12).Draw(t, "edits") {
			d.Edit(rapid.SampledFrom(editable).Draw(t, "key"), rapid.SampledFrom(texts).Draw(t, "text"))
		}
		if rapid.Bool().Draw(t, "run") {
			d.StartRun()
		}
		was := d.Draft()
		stored, err := json.Marshal(was)
		require.NoError(t, err)
		var draft desk.Draft
		require.NoError(t, json.Unmarshal(stored, &draft))
		e := desk.New("v=2&cell.count=44")
		e.TakeDraft(&draft)
		require.Empty(t, e.Troubles())
		for key, text := range was.Unread {
			require.Equal(t, d.Problem(key), e.Problem(key), "%s: %q", key, text)
		}
		require.Equal(t, was.Plan, e.Draft().Plan)
		if len(was.Unread) > 0 {
			require.Equal(t, was.Unread, e.Draft().Unread)
		}
		require.Equal(t, was.Pinned, e.Draft().Pinned)
	})
}

func TestDraftBringsWhatIsPinnedWantedAndTold(t *testing.T) {
	d := desk.New("v=2&tea=1")
	d.PinPlan()
	d.Edit("cell.count", "12")
	d.Want(desk.Wish{Text: "about 50", Figure: route.CopperCrop, ByShare: true})
	d.WantPure("about 95")
	draft := d.Draft()
	require.NotEmpty(t, d.Troubles())
	d.Reset()
	d.Unpin()
	d.Want(desk.Wish{Figure: route.ProductMass})
	d.WantPure("")
	d.TakeDraft(&draft)
	assert.Equal(t, "v=2&cell.count=12", d.Fragment())
	assert.Len(t, d.Troubles(), 1, "what the link held that was not taken is told again")
	require.NotNil(t, d.Pinned())
	assert.Equal(t, "v=2", d.Pinned().Fragment)
	assert.Equal(t, desk.New("").Sheet().Value(route.ProductMass), d.Pinned().Sheet.Value(route.ProductMass))
	w := d.Wish()
	assert.Equal(t, "about 50", w.Text)
	assert.Equal(t, route.CopperCrop, w.Figure)
	assert.True(t, w.ByShare)
	assert.Equal(t, "about 95", d.Pure().Text)
}

// TestDraftOfSomebodyElse: a stored draft may hold anything.
func TestDraftOfSomebodyElse(t *testing.T) {
	d := desk.New("")
	d.TakeDraft(&desk.Draft{Plan: "tea", Unread: map[string]string{"tea": "1", "": "2", "cell.count": "9", "notes": "x", "gas.source~": "1 to 2", "__proto__": "3"}, Pinned: "%%%", Wanted: desk.Wanted{Grams: "1", Figure: "tea"}})
	assert.Equal(t, "v=2&cell.count=9", d.Fragment(), "a text that can be read is")
	assert.Empty(t, d.Unread())
	assert.Equal(t, route.ProductMass, d.Wish().Figure)
}
