package atbench

import (
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

func TestBenchBeginsWhereTheWorkIs(t *testing.T) {
	list := desk.New("").Steps()
	key := func(at State, done route.Stage) string { return list[at.place(list, done)].Key }
	assert.Equal(t, "ready", key(State{}, 0), "the evening before")
	assert.Equal(t, "soak", key(State{}, route.Wash), "a run has opened its cells")
	assert.Equal(t, "waste", key(State{}, route.Stages), "all is done")
	assert.Equal(t, "gas", key(State{Step: "gas"}, route.Wash), "where one was")
	assert.Equal(t, "ready", key(State{Step: "grow"}, 0), "a step that this plan does not have")
}

func TestBenchGoesFromStepToStep(t *testing.T) {
	d := desk.New("")
	var at State
	assert.False(t, at.Go(d, -1), "the first has none before it")
	assert.True(t, at.Go(d, 1))
	assert.Equal(t, d.Steps()[1].ID, at.Step)
	assert.Equal(t, at, Read(at.Text()))
	at.Step = d.Steps()[len(d.Steps())-1].ID
	assert.False(t, at.Go(d, 1), "nor the last one after it")
}

func TestBenchShowsAllOfEveryStep(t *testing.T) {
	for _, fragment := range []string{"", "gas.source=metabisulfite&dry.way=crystals&wash.acid=50", "slurry.vessel=open"} {
		d := desk.New(fragment)
		for i, st := range d.Steps() {
			v := StepOf(d, &State{Step: st.Key})
			assert.Equal(t, i+1, v.Place)
			assert.Len(t, v.Take, len(st.Take), st.Key)
			assert.Len(t, v.Measure, len(st.Measure), st.Key)
			assert.Equal(t, st.Watch == procedure.NeverLeave, v.Never)
			assert.NotContains(t, app.HTMLString(&View{At: v}), "NaN", st.Key)
		}
	}
	assert.Zero(t, StepOf(desk.New("cell.rejects=6"), &State{}).Of)
}

// TestWhatIsToBeWrittenDownHasItsField: every reading that a step of a run asks for has a field
// of its unit; of equal batches the last asks for all together.
func TestWhatIsToBeWrittenDownHasItsField(t *testing.T) {
	for _, fragment := range []string{
		"", "wash.acid=0", "cell.kind=alkaline&wash.acid=50", "batch.runs=3", "batch.runs=12&gas.minutes=100", "slurry.rest=6&iron.way=thrown", "dry.way=crystals",
		"gas.source=metabisulfite&batch.runs=2", "gas.source=slurrysalt", "gas.source=peroxide&batch.runs=2", "gas.source=oxalic",
	} {
		d := desk.New("v=2&" + fragment)
		require.True(t, d.StartRun(), fragment)
		asked, last := map[string]bool{}, map[string]bool{}
		for _, st := range d.Steps() {
			for i, b := range StepOf(d, &State{Step: st.ID}).Measure {
				if name, sum := strings.CutSuffix(b.Name, "; the last batch asks for the sum"); sum {
					asked[st.Key+name] = true
					continue
				}
				require.NotEmpty(t, b.Field, "%s: %s: %s", fragment, st.ID, b.Name)
				if name, all := strings.CutSuffix(b.Name, ", in all batches"); all {
					last[st.Key+name] = true
					if in, ok := route.InputByKey(b.Field); ok {
						want, _ := in.WorkedOut(&d.Started().Plan, &d.Started().Sheet)
						if quantity.Given(in.Value(&d.Started().Plan)) {
							want = in.Value(&d.Started().Plan)
						}
						assert.InDelta(t, want, st.Measure[i].Expect, 1e-9, b.Name)
					}
				}
				_, f, ok := d.Find(b.Field)
				require.True(t, ok, b.Field)
				assert.Equal(t, f.Unit, b.Unit, b.Field)
			}
		}
		assert.Equal(t, last, asked, fragment)
	}
}

func TestBenchSaysWhatMakesFieldsOfWhatIsTaken(t *testing.T) {
	d := desk.New("v=2")
	says := func() string { return app.HTMLString(&View{At: StepOf(d, &State{Step: "charge"})}) }
	assert.Contains(t, says(), "bench.start")
	assert.NotContains(t, says(), "bench.in.gas.copper")
	d.Edit("gas.acid", "a cup")
	assert.Contains(t, says(), "mend those that are marked there first")
	assert.NotContains(t, says(), "bench.start", "it would be refused")
	d.Edit("gas.acid", "")
	require.True(t, d.StartRun())
	assert.NotContains(t, says(), "bench.start")
	assert.Contains(t, says(), "bench.in.gas.copper")
}

func TestSpotTestsAreShownInTheirStep(t *testing.T) {
	d := desk.New("v=2")
	view := func(touched bool) string {
		b := &View{At: StepOf(d, &State{Step: section.SpotStep}), Spots: section.SpotTests(d)}
		require.Contains(t, strings.Join(b.At.Do, " "), "First the spot tests")
		if touched {
			b.press(spots)
		}
		return app.HTMLString(b)
	}
	assert.NotContains(t, view(false), "thiocyanate")
	assert.Contains(t, view(true), "thiocyanate")
	assert.NotContains(t, app.HTMLString(&View{At: StepOf(d, &State{Step: "gas"})}), "bench.spots")
}

func TestTimerLengthsGoUpAndDownTheSameWay(t *testing.T) {
	for _, from := range []float64{1, 10, 20, 30, 60, 90, 480} {
		c := procedure.Countdown{Name: "Soak", Minutes: quantity.Minute(from)}
		b := &View{At: Step{Key: "soak", Countdowns: []procedure.Countdown{{Name: "Stir", Minutes: 1}, c}}}
		b.press(longer + "1")
		up := b.length(&c).Minutes()
		require.Greater(t, up, from)
		b.press(shorter + "1")
		assert.Equal(t, from, b.length(&c).Minutes(), "from %v to %v and back", from, up)
	}
}

// TestWhatIsTypedAtTheBenchLeavesThePlanAsItWas: what to take and to expect is the plan's, and
// more than a fifth off it is told. What follows goes by what was taken.
func TestWhatIsTypedAtTheBenchLeavesThePlanAsItWas(t *testing.T) {
	d := desk.New("v=2")
	require.True(t, d.StartRun())
	charge := func() Step { return StepOf(d, &State{Step: "charge"}) }
	before := charge()
	require.Len(t, before.Measure, 2)
	soda := StepOf(d, &State{Step: "waste"}).Take
	d.Edit("gas.copper", "45")
	d.Edit("gas.acid", "100")
	require.Zero(t, d.FaultCount())
	then := charge()
	assert.Equal(t, before.Take, then.Take)
	for i, m := range then.Measure {
		assert.Equal(t, before.Measure[i].Expect, m.Expect)
		assert.Empty(t, before.Measure[i].Off)
		assert.Contains(t, m.Off, "more than a fifth off", m.Name)
		assert.Contains(t, app.HTMLString(&View{At: then}), m.Off)
	}
	assert.NotEqual(t, soda, StepOf(d, &State{Step: "waste"}).Take, "what follows goes by what was taken")
	d.Edit("gas.copper", route.Plain(1.1*d.Started().Sheet.Value(route.GasCopperUsed)))
	assert.Empty(t, charge().Measure[0].Off, "a tenth is not far")
	assert.Equal(t, before.Take, charge().Take)
	d.Edit("gas.acid", "")
	d.Edit("gas.copper", "")
	assert.Equal(t, before, charge())
	d.Edit("gas.acid", "100")
	require.True(t, d.StageDone(route.Gas))
	done := charge()
	assert.Equal(t, before.Take, done.Take)
	assert.Empty(t, done.Measure[1].Field, "what is done stands")
	assert.Equal(t, before.Measure[1].Expect+"; taken 100\u202fmL", done.Measure[1].Expect)
	assert.Contains(t, done.Measure[1].Off, "more than a fifth off")
}

// TestABoxThatHoldsThePlansNumberSaysSo: nobody takes it for a reading.
func TestABoxThatHoldsThePlansNumberSaysSo(t *testing.T) {
	d := desk.New("v=2")
	minutes := func() string { return StepOf(d, &State{Step: section.GasStep}).Measure[0].Expect }
	assert.Equal(t, "expect about 90\u202fmin", minutes(), "no box is there yet")
	require.True(t, d.StartRun())
	assert.Equal(t, "by the plan 90\u202fmin: type over it what it was", minutes())
	d.Edit("gas.minutes", "80")
	assert.Equal(t, "expect about 90\u202fmin", minutes())
	assert.Contains(t, StepOf(d, &State{Step: "charge"}).Measure[0].Expect, "expect about", "that box is empty")
}

// TestTheCakeIsDividedByItsWeight: in the step that asks for the weight of all the damp cake, what is
// to be weighed out of it follows what is typed there, whether or not a run is under way; what was to
// be expected does not.
func TestTheCakeIsDividedByItsWeight(t *testing.T) {
	for name, started := range map[string]bool{"planned": false, "under way": true} {
		t.Run(name, func(t *testing.T) {
			d := desk.New("v=2&batch.share=25")
			if started {
				require.True(t, d.StartRun())
			}
			was := StepOf(d, &State{Step: "divide"})
			d.Edit("cake.damp", "400")
			is := StepOf(d, &State{Step: "divide"})
			assert.Equal(t, "100", is.Take[0].Number)
			if started {
				assert.Equal(t, was.Measure[0].Expect, is.Measure[0].Expect)
			}
		})
	}
}

// TestWhatWasWeighedOutStandsBesideWhatWasToBe: the step asks for grams, and says which share they are;
// what was to be weighed out stays what it was.
func TestWhatWasWeighedOutStandsBesideWhatWasToBe(t *testing.T) {
	d := desk.New("v=2&batch.share=25")
	require.True(t, d.StartRun())
	at := func() (Step, Entry) {
		st := StepOf(d, &State{Step: "divide"})
		for _, m := range st.Measure {
			if m.Field == "cake.taken" {
				return st, m
			}
		}
		require.Fail(t, "not asked for")
		return st, Entry{}
	}
	d.Edit("cake.damp", "400")
	st, m := at()
	assert.Equal(t, "100", st.Take[0].Number)
	assert.Equal(t, "expect about 100\u202fg", m.Expect)
	for typed, says := range map[string]string{
		"100": "100\u202fg is 25\u202f% of all of the damp cake, 400\u202fg.",
		"60":  "60\u202fg is 15\u202f% of all of the damp cake, 400\u202fg.",
	} {
		d.Edit("cake.taken", typed)
		st, m = at()
		assert.Equal(t, "100", st.Take[0].Number)
		assert.Equal(t, "expect about 100\u202fg", m.Expect)
		assert.Equal(t, says, m.Says)
		assert.Contains(t, st.Do[0], "the share: 25\u202f% of its weight")
		assert.Equal(t, typed == "60", m.Off != "")
	}
	d.Edit("cake.damp", "")
	_, m = at()
	assert.Contains(t, m.Says, " by the plan, since nobody weighed that.")
}

// TestWhatThePlanGoesByIsNotExpected: a number measured before the run is no expectation of its own.
func TestWhatThePlanGoesByIsNotExpected(t *testing.T) {
	for _, c := range [][2]string{{"open", "mix.wet"}, {"divide", "cake.damp"}} {
		d := desk.New("v=2")
		entry := func() Entry { return StepOf(d, &State{Step: c[0]}).Measure[0] }
		before := entry()
		require.Equal(t, c[1], before.Field)
		assert.Equal(t, c[0] == "open", before.Expect != "")
		d.Edit(c[1], "150")
		assert.Empty(t, entry().Expect)
		require.True(t, d.StartRun())
		assert.Empty(t, entry().Expect)
		d = desk.New("v=2")
		require.True(t, d.StartRun())
		d.Edit(c[1], "150")
		assert.Equal(t, before.Expect, entry().Expect, "a run has its plan")
	}
}
