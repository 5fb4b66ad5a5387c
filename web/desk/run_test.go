package desk_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

func TestRunFixesThePlan(t *testing.T) {
	d := desk.New("v=2&cell.count=8")
	require.True(t, d.StartRun())
	before := d.Fragment()
	for key, text := range map[string]string{
		"cell.size": "R20", "cell.charge": "70", "gas.uptake": "50", "gas.source": "metabisulfite",
		"gas.uptake~": "40 to 60", "gas.excess": "50", "mix.carbon": "12",
	} {
		d.Edit(key, text)
		assert.Equal(t, before, d.Fragment(), "a touch on %s changes nothing", key)
	}
	assert.False(t, d.AddRow())
	d.RemoveRow(1)
	assert.Equal(t, before, d.Fragment())
}

func TestWhatWasTakenReplansOnlyWhatIsAhead(t *testing.T) {
	d := desk.New("")
	require.True(t, d.StartRun())
	acid := input(t, "gas.acid")
	planned, ok := d.Planned(acid)
	require.True(t, ok)

	d.Edit("batch.share", "30")
	now, _ := acid.WorkedOut(d.Plan(), d.Sheet())
	assert.Greater(t, now, 1.15*planned, "the gas is still ahead: more oxide, more acid")
	still, _ := d.Planned(acid)
	assert.Equal(t, planned, still, "the plan stays what it was")

	require.True(t, d.StageDone(route.Gas))
	taken := acid.Value(d.Plan())
	assert.InEpsilon(t, now, taken, 1e-3, "taken as worked out")
	d.Edit("gas.acid", "1")
	assert.Equal(t, taken, acid.Value(d.Plan()), "what is done is locked")

	d.Edit("slurry.temperature", "40")
	d.Edit("rinse.times", "3")
	assert.Equal(t, taken, acid.Value(d.Plan()), "nothing reaches back")

	d.Edit("mix.assay", "45")
	assert.Equal(t, 45.0, float64(d.Plan().MixAssay), "an assay that comes late is still a fact")
	assert.Equal(t, taken, acid.Value(d.Plan()))

	d.Reopen(route.Gas)
	d.Edit("gas.acid", "25")
	assert.Equal(t, 25.0, acid.Value(d.Plan()))
}

func TestRunGoesWithTheLink(t *testing.T) {
	d := desk.New("v=2&gas.uptake~=60,90")
	require.True(t, d.StartRun())
	d.Edit("gas.copper", "9")
	require.True(t, d.StageDone(route.Gas))
	d.Edit(link.NotesKey, "blue & 50 % green; ice ran out")
	d.Edit("found.product.empty", "84,1")
	d.Edit("found.product.full", "96.1")
	d.Edit("found.product~", "0.5")
	e := desk.New(d.Fragment())
	assert.Empty(t, e.Troubles())
	assert.Equal(t, d.Fragment(), e.Fragment())
	require.NotNil(t, e.Started())
	assert.Equal(t, route.Slurry, e.Started().Done)
	assert.Equal(t, "blue & 50 % green; ice ran out", e.Notes())
	assert.Equal(t, 12.0, e.Record().Product)
	assert.Equal(t, 0.5, e.Record().Half("found.product"))
	planned, _ := e.Planned(input(t, "gas.copper"))
	was, _ := d.Planned(input(t, "gas.copper"))
	assert.Equal(t, was, planned)
	assert.NotNil(t, e.Pinned(), "the plan stands beside the run")

	e.DropRun()
	assert.Nil(t, e.Started())
	assert.Nil(t, e.Pinned())
	assert.Equal(t, "blue & 50 % green; ice ran out", e.Notes(), "what was noted is nobody's to throw away")
	e.Edit(link.NotesKey, "")
	assert.Equal(t, "v=2&gas.uptake~=60,90", e.Fragment())
}

// TestWeighingsFromBeforeARunOutliveIt: a run that is started and dropped takes only with
// it what was weighed in it, through a link too.
func TestWeighingsFromBeforeARunOutliveIt(t *testing.T) {
	d := desk.New("v=2&mix.wet=150&found.residue=12&found.residue~=0.5&found.product.empty=84.1")
	before := d.Fragment()
	require.True(t, d.StartRun())
	d.Edit("found.product.full", "96.1")
	d.Edit("found.residue", "13")
	d = desk.New(d.Fragment())
	assert.Empty(t, d.Troubles())
	d.DropRun()
	assert.Equal(t, before, d.Fragment())
}

func TestRunDoesNotStartFromAPlanWithABadField(t *testing.T) {
	d := desk.New("")
	d.Edit("gas.copper", "much")
	assert.False(t, d.StartRun())
	d.Edit("gas.copper", "")
	require.True(t, d.StartRun())
	d.Edit("gas.copper", "much")
	assert.False(t, d.StageDone(route.Gas), "a bad reading is not taken as planned")
}

func TestDishIsReadInAnyOrder(t *testing.T) {
	d := desk.New("")
	d.Edit("found.product.full", "126.3")
	d.Edit("found.product.empty", "84.1")
	assert.Equal(t, "42.2", d.Text("found.product"))
	d.Edit("found.product.empty", "184.1")
	assert.Contains(t, d.Problem("found.product.full"), "lighter than empty")
	d.Edit("found.product.full", "226.3")
	assert.Zero(t, d.FaultCount(), "both readings corrected, one after the other")
	assert.Equal(t, "42.2", d.Text("found.product"))
	d.Edit("found.product.full", "2x6")
	assert.Equal(t, "42.2", d.Text("found.product"), "a slip keeps the last good figure")
	d.Edit("found.product.full", "")
	assert.Equal(t, "", d.Text("found.product"))
	d.Edit("found.product", "40")
	assert.Equal(t, 40.0, d.Record().Product)
}

func TestNextRunForgetsWhatOnlyThisOneTook(t *testing.T) {
	d := desk.New("")
	require.True(t, d.StartRun())
	d.Edit("gas.acid", "44")
	d.Edit("cake.damp", "300")
	require.True(t, d.StageDone(route.CopperSalt))
	d.Edit("found.product", "12")
	d.Edit("found.copper", "35")
	for !d.Accounted() {
		d.StepRest(1000)
	}
	changes, ok := d.PlanNext(desk.Next{})
	require.True(t, ok)
	require.NotEmpty(t, changes)
	assert.Nil(t, d.Started())
	assert.False(t, quantity.Given(input(t, "gas.acid").Value(d.Plan())), "as much as needed, again")
	assert.False(t, quantity.Given(input(t, "cake.damp").Value(d.Plan())), "the next cake is another one")
	said := ""
	for _, c := range changes {
		said += c.Sentence
	}
	assert.Contains(t, said, "Acid into the generator")
}

// TestNextRunTakesWhatWasUsedOffTheShelf, where that is wanted, whether or not the run was started by
// name; its share follows what is left, as that of this run did, and one that was typed stands.
func TestNextRunTakesWhatWasUsedOffTheShelf(t *testing.T) {
	for name, c := range map[string]struct {
		typed   string
		started bool
	}{"started": {"", true}, "only weighed": {"", false}, "a share that was typed": {"10", true}} {
		t.Run(name, func(t *testing.T) {
			next := func(takeOff bool) *desk.Desk {
				d := desk.New("shelf.acid=40")
				if c.typed != "" {
					d.Edit(route.ShareKey, c.typed)
				}
				if c.started {
					require.True(t, d.StartRun())
				}
				_, ok := d.PlanNext(desk.Next{TakeOff: takeOff})
				require.False(t, ok, "it is not over")
				d.Edit("found.product", "15")
				_, ok = d.PlanNext(desk.Next{TakeOff: takeOff})
				require.False(t, ok, "the account is not made")
				finish(t, d)
				o, ok := d.UsedUp()
				require.True(t, ok)
				require.Equal(t, "shelf.acid", o.Set[0].Key)
				changes, ok := d.PlanNext(desk.Next{TakeOff: takeOff})
				require.True(t, ok)
				assert.True(t, d.Record().Empty())
				told := changes[len(changes)-1]
				require.Equal(t, "product.mass", told.Key)
				assert.Equal(t, route.Print(d.Sheet().Value(route.ProductMass), "g"), route.Print(told.Now, "g"), "with the share that it has")
				if takeOff {
					assert.Equal(t, o.Set[0].Text, d.Text("shelf.acid"))
				}
				_, ok = d.UsedUp()
				assert.False(t, ok, "nothing is used yet")
				return d
			}
			kept, taken := next(false), next(true)
			assert.Equal(t, "40", kept.Text("shelf.acid"))
			if c.typed != "" {
				assert.Equal(t, 10.0, float64(taken.Plan().BatchShare))
				return
			}
			assert.True(t, kept.Fitted().Less(), "it follows the shelf again")
			_, scarce := taken.Fitted().Scarce()
			assert.True(t, scarce, "the bottle is empty")
			assert.False(t, taken.Fitted().Set)
		})
	}
}

// TestNextRunNeedsNoWeighing once all stages are done.
func TestNextRunNeedsNoWeighing(t *testing.T) {
	d := desk.New("cell.count=7")
	require.True(t, d.StartRun())
	require.True(t, d.StageDone(route.CopperSalt))
	assert.False(t, d.Over())
	require.True(t, d.StageDone(route.Waste))
	assert.True(t, d.Over())
	changes, ok := d.PlanNext(desk.Next{})
	assert.True(t, ok)
	assert.Empty(t, changes)
	assert.Nil(t, d.Started())
	assert.Equal(t, 7.0, d.Plan().Rows[0].Count)
}

// TestNextRunFromTheJarTakesWhatIsLeft of the same cake: its weight stands, and the share is at most the
// rest. With new cells the share stays and the cake is another one.
func TestNextRunFromTheJarTakesWhatIsLeft(t *testing.T) {
	for _, c := range []struct {
		share, jar float64
	}{{25, 25}, {60, 40}, {100, 100}} {
		for _, jar := range []bool{true, false} {
			d := desk.New("cake.damp=400&cell.count=7&batch.share=" + route.Plain(c.share))
			whole := d.Runner().Book().Mass(ledger.Reserve, reaction.Manganite)
			left, ok := d.Jar()
			assert.Equal(t, c.share < 100, ok)
			assert.InDelta(t, 4*(100-c.share), float64(left.Damp), 1e-9)
			assert.GreaterOrEqual(t, left.Oxide, whole)
			d.End()
			_, ok = d.PlanNext(desk.Next{Jar: jar})
			require.True(t, ok)
			assert.Equal(t, 7.0, d.Plan().Rows[0].Count)
			assert.False(t, d.Over(), "it is another run")
			share, damp := c.share, ""
			if jar && c.share < 100 {
				share, damp = c.jar, "400"
			}
			assert.Equal(t, share, float64(d.Plan().BatchShare))
			assert.Equal(t, damp, d.Text("cake.damp"))
		}
	}
}

// TestARunIsOverWhenItsProductIsWeighed, or when the user says so, which a draft keeps.
func TestARunIsOverWhenItsProductIsWeighed(t *testing.T) {
	d := desk.New("found.residue=20")
	assert.False(t, d.Over(), "a weighing in the middle of it")
	d.End()
	assert.True(t, d.Over())
	draft, again := d.Draft(), desk.New("")
	again.TakeDraft(&draft)
	assert.True(t, again.Over())
	again.Open("found.residue=20")
	assert.False(t, again.Over())
	assert.True(t, desk.New("found.product=20").Over())
}

func TestNotesAreCutBetweenLetters(t *testing.T) {
	d := desk.New("")
	d.Edit(link.NotesKey, strings.Repeat("µ", 5000))
	e := desk.New(d.Fragment())
	assert.Empty(t, e.Troubles())
	assert.Equal(t, d.Notes(), e.Notes())
	assert.NotContains(t, e.Notes(), "\ufffd")
}

func TestAssayDuringARunIsAFact(t *testing.T) {
	d := desk.New("")
	require.True(t, d.StartRun())
	d.Edit("mix.assay", "45")
	d.Edit("mix.assay~", "43 to 47")
	assert.Zero(t, d.FaultCount())
	assert.Contains(t, d.Fragment(), "mix.assay~=43,47")
	d.Edit("gas.uptake~", "10 to 20")
	assert.NotContains(t, d.Fragment(), "gas.uptake~")
}

// TestARunIsComputedWithWhatWasTaken: an interval of the plan that does not hold it moves it to no
// middle, since nobody can change that interval any more.
func TestARunIsComputedWithWhatWasTaken(t *testing.T) {
	acid := input(t, "gas.acid")
	for _, c := range []struct {
		taken string
		keeps bool
	}{{"28", true}, {"30", false}, {"45", false}} {
		d := desk.New("gas.acid=25&gas.uptake~=70,90")
		d.Edit("gas.acid~", "20 to 30")
		require.True(t, d.StartRun())
		d.Edit("gas.acid", c.taken)
		d.Edit("gas.minutes", "70")
		for _, d := range []*desk.Desk{d, desk.New(d.Fragment())} {
			assert.Equal(t, c.taken, route.Plain(acid.Value(d.Plan())))
			assert.False(t, d.Moved(acid))
			_, has := d.Case().Given["gas.acid"]
			assert.Equal(t, c.keeps, has, c.taken)
			assert.Contains(t, d.Case().Given, "gas.uptake")
		}
		d.DropRun()
		assert.Contains(t, d.Case().Given, "gas.acid", "the plan keeps it")
	}
}

// TestTheStartOfARunIsTakenBackAlone: what was typed since stands in its fields, in the record and in
// the plan, read or not; what a stage took as planned is worked out again.
func TestTheStartOfARunIsTakenBackAlone(t *testing.T) {
	d := desk.New("cell.count=6&found.residue=20")
	d.Edit("gas.acid~", "20 to 60")
	d.PinPlan()
	before := d.Draft()
	d.TakeBackStart(&before)
	assert.Equal(t, before, d.Draft(), "nothing was started")

	require.True(t, d.StartRun())
	d.TakeBackStart(&before)
	assert.Equal(t, before, d.Draft(), "nothing was typed")

	require.True(t, d.StartRun())
	d.Edit("gas.acid", "70")
	d.Edit("found.product", "12.5")
	d.Edit("found.residue", "")
	d.Edit("log.5.rate", "80")
	d.Edit(link.NotesKey, "rose at once")
	require.True(t, d.StageDone(route.Gas))
	require.True(t, quantity.Given(input(t, "gas.copper").Value(d.Plan())))
	d.Edit("slurry.acid", "much")
	d.TakeBackStart(&before)
	assert.Nil(t, d.Started())
	for key, text := range map[string]string{
		"cell.count": "6", "gas.acid": "70", "gas.copper": "", "found.product": "12.5", "found.residue": "", "log.5.rate": "80", link.NotesKey: "rose at once", "slurry.acid": "much",
	} {
		assert.Equal(t, text, d.Text(key), key)
	}
	assert.Equal(t, 12.5, d.Record().Product)
	assert.NotNil(t, d.Pinned(), "what the start let go is back")
	assert.Equal(t, d.Text("found.product"), desk.New(d.Fragment()).Text("found.product"))
}
