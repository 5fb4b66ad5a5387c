package draws

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// helped is a desk whose draws another one makes, by way of what is posted.
type helped struct {
	*desk.Desk
	server work
}

func newHelped() *helped { return &helped{desk.New(""), begin(desk.New(""))} }

// run does the whole of the work, or so many steps of it, and gives the stages.
func (h *helped) run(t *testing.T, steps int) (told []Progress) {
	t.Helper()
	text, err := json.Marshal(h.Errand())
	require.NoError(t, err)
	var e desk.Errand
	require.NoError(t, json.Unmarshal(text, &e))
	h.server.desk.RunErrand(&e)
	h.server = begin(h.server.desk)
	for ; steps != 0; steps-- {
		stage := h.server.step()
		if stage == Nothing {
			continue
		}
		var r desk.Results
		require.NoError(t, unpack(pack(h.server.desk.Results(parts[stage])), &r))
		h.TakeResults(&r)
		if told = append(told, stage); stage == All {
			break
		}
	}
	return told
}

// finish does the work on the desk itself.
func finish(d *desk.Desk) {
	for w := begin(d); w.step() != All; {
	}
}

// requireSame holds all that is drawn of two desks to each other.
func requireSame(t *testing.T, a, b *desk.Desk) {
	t.Helper()
	require.True(t, a.AllDrawn() && b.AllDrawn())
	for id := range route.FigureID(len(route.Figures())) {
		key := id.Info().Key
		of, is := a.Band(id), b.Band(id)
		require.Equal(t, of.OK, is.OK, key)
		if of.OK {
			require.Equal(t, of, is, key)
		}
		require.Equal(t, a.Differs(id), b.Differs(id), key)
	}
	require.Equal(t, a.Shares(), b.Shares())
	require.Equal(t, a.Reagents(), b.Reagents())
	listA, toldA := a.Suggestions()
	listB, toldB := b.Suggestions()
	require.True(t, toldA && toldB)
	require.Len(t, listB, len(listA))
	for i := range listA {
		require.Equal(t, listA[i].Key, listB[i].Key)
		require.Equal(t, [4]float64{listA[i].Low, listA[i].High, listA[i].LowAfter, listA[i].HighAfter}, [4]float64{listB[i].Low, listB[i].High, listB[i].LowAfter, listB[i].HighAfter})
	}
	require.True(t, a.Swept() && b.Swept())
	require.True(t, bytes.Equal(pack(a.Sweep().Found()), pack(b.Sweep().Found())), "sweep")
	require.True(t, bytes.Equal(pack(a.Wish()), pack(b.Wish())), "wish")
	require.True(t, bytes.Equal(pack(a.Pure()), pack(b.Pure())), "purity")
	require.Equal(t, a.Accounted(), b.Accounted())
	if a.Account() != nil {
		of, _ := a.Account().Work()
		is, _ := b.Account().Work()
		require.True(t, bytes.Equal(pack(of), pack(is)), "account")
		require.Equal(t, a.Account().Verdict().Sentence, b.Account().Verdict().Sentence)
	}
}

// TestAnotherDeskGivesTheSame: what is done to a desk, in any order and whatever became of
// the work before, its draws are to the last bit what it would make itself.
func TestAnotherDeskGivesTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	h, own := newHelped(), desk.New("")
	both := func(do func(d *desk.Desk)) {
		do(h.Desk)
		do(own)
	}
	edit := func(key, text string) func(d *desk.Desk) { return func(d *desk.Desk) { d.Edit(key, text) } }
	acts := []func(d *desk.Desk){
		func(*desk.Desk) {},
		func(d *desk.Desk) { d.Want(desk.Wish{Text: "60", Figure: route.ProductMass}) },
		edit("shelf.acid", "300"),
		edit("shelf.acid", "120"), // which is enough for the plan, but not for the wish
		edit("shelf.acid", ""),
		edit("cell.count", "9"),
		edit("cell.count", "nine"),
		edit("gas.uptake~", "60 to 90"),
		func(d *desk.Desk) { d.PinPlan() },
		edit("batch.share", "40"),
		edit("found.product", "20"),
		edit("found.residue", "9"),
		func(d *desk.Desk) { d.Ask(route.CopperCrop) },
		func(d *desk.Desk) { d.SweepAlong("gas.uptake") },
		func(d *desk.Desk) { d.Want(desk.Wish{Text: "30", Figure: route.ProductMass}) },
		func(d *desk.Desk) { d.Want(desk.Wish{Text: "3x", Figure: route.ProductMass, ByShare: true}) },
		func(d *desk.Desk) { d.WantPure("95") },
		edit("assay.balance", "0.01"),
		func(d *desk.Desk) { d.StartRun() },
		edit("cell.count", "8"),
		func(d *desk.Desk) { d.StartRun() },
		edit("gas.acid", "31"),
		func(d *desk.Desk) { d.StageDone(route.Gas) },
		edit("found.product", "23"),
		func(d *desk.Desk) { d.Unpin() },
		edit("found.product", ""), edit("found.residue", ""),
		func(d *desk.Desk) { d.DropRun() },
		func(d *desk.Desk) { d.Reset() },
	}
	acts = long.First(long.Of(8, len(acts), len(acts)), acts)
	for i, act := range acts {
		both(act)
		if r.IntN(2) == 0 {
			h.run(t, 1+r.IntN(30)) // and dropped for the next
			if r.IntN(2) == 0 {
				both(act)
			}
		}
		told := h.run(t, -1)
		finish(own)
		require.Equal(t, All, told[len(told)-1], i)
		require.Contains(t, told, Bands, i)
		require.True(t, h.Account() == nil || h.Accounted(), i)
		requireSame(t, own, h.Desk)
	}
}

// TestErrandsCarryPlans: to the last bit.
func TestErrandsCarryPlans(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	inputs := route.Inputs()
	server := desk.New("")
	for range long.Of(30, 200, 5000) {
		c := link.NewContent()
		c.Plan = routetest.Plan(r)
		in := &inputs[r.IntN(len(inputs))]
		if !in.IsChoice() {
			c.Given[in.Key] = spread.Interval{Low: in.Min + (in.Max-in.Min)*r.Float64()/3, High: in.Max - (in.Max-in.Min)*r.Float64()/3}
		}
		c.Found = account.NewRecord()
		c.Found.Product = 1000 * r.Float64()
		d := desk.New("")
		d.OpenContent(&c, nil)
		e := d.Errand()
		server.RunErrand(&e)
		is := server.Case()
		for i := range inputs {
			if of := inputs[i].Value(&c.Plan); quantity.Given(of) || quantity.Given(inputs[i].Value(&is.Plan)) {
				require.Equal(t, of, inputs[i].Value(&is.Plan), inputs[i].Key)
			}
		}
		require.Equal(t, d.Case().Given, is.Given)
		require.Equal(t, d.Record().Product, server.Record().Product)
	}
}

// TestWorkIsToldInOrder: first intervals, all, the account, the rest.
func TestWorkIsToldInOrder(t *testing.T) {
	h := newHelped()
	h.Edit("found.product", "20")
	told := h.run(t, -1)
	assert.Equal(t, []Progress{First, Bands, Account}, told[:3])
	for _, stage := range told[3 : len(told)-1] {
		assert.Equal(t, Some, stage)
	}
	assert.Equal(t, []Progress{Bands, Account, All}, h.run(t, -1), "what stands is told at once")
	h.Edit("found.product", "21")
	assert.Equal(t, []Progress{Bands, Account, All}, h.run(t, -1), "of another weighing the account alone is made anew")
	w := goOn(h.Desk)
	finish(h.Desk)
	for w.step() != All {
		t.Fatal("what is known is told again")
	}
}

// TestDeskGoesOnAlone: where the other desk is gone in the middle of the work.
func TestDeskGoesOnAlone(t *testing.T) {
	own := desk.New("cell.count=9&found.product=20")
	own.PinPlan()
	finish(own)
	for _, steps := range []int{1, 3, 9, 12, 30, 70} {
		h := newHelped()
		h.Open("cell.count=9&found.product=20")
		h.PinPlan()
		h.run(t, steps)
		for w := goOn(h.Desk); w.step() != All; {
		}
		requireSame(t, own, h.Desk)
	}
}
