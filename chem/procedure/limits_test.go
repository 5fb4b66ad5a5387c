package procedure_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// options are the words of a choice.
func options(key string) []string {
	in, _ := route.InputByKey(key)
	var words []string
	for _, o := range in.Options {
		words = append(words, o.Word)
	}
	return words
}

// planOf is the usual plan with words chosen, in the order key, word.
func planOf(t require.TestingT, chosen ...string) route.Plan {
	p := route.NewPlan()
	for i := 0; i+1 < len(chosen); i += 2 {
		in, ok := route.InputByKey(chosen[i])
		require.True(t, ok, chosen[i])
		require.NoError(t, in.Choose(&p, chosen[i+1]))
	}
	return p
}

// numeric are the inputs that take a number.
func numeric() []*route.Input {
	var list []*route.Input
	for i := range route.Inputs() {
		if in := &route.Inputs()[i]; !in.IsChoice() {
			list = append(list, in)
		}
	}
	return list
}

// ends are the least and most that an input takes, and nothing where it takes that.
func ends(in *route.Input) []float64 {
	list := []float64{in.Min, in.Max}
	for _, v := range []float64{0, quantity.Blank} {
		if in.Accept(v) == nil {
			list = append(list, v)
		}
	}
	return list
}

// mustStand draws up all that this package makes of a plan, and looks for what no plan
// may have; false for a plan that must not be run.
func mustStand(t require.TestingT, b *route.Runner, p *route.Plan, what string) bool {
	if route.Check(p) != nil {
		return false
	}
	s := b.Run(p)
	var (
		list    []procedure.Step
		counts  []procedure.Countdown
		slots   []procedure.Slot
		err     error
		evening []procedure.Ready
	)
	require.NotPanics(t, func() {
		list = procedure.Steps(p, s, nil)
		for i := range list {
			counts = append(counts, procedure.Countdowns(p, &list[i])...)
		}
		slots, err = procedure.Schedule(list, monday, procedure.Session{From: 9 * time.Hour, Long: 9 * time.Hour})
		evening = eveningBefore(p, s)
	}, what)
	for _, st := range list {
		minutes := float64(st.Minutes)
		require.False(t, math.IsNaN(minutes) || math.IsInf(minutes, 0) || minutes < 0, "%s: %s takes %v minutes", what, st.Key, minutes)
		for _, text := range append([]string{st.Title, st.See, st.Stop}, st.Do...) {
			require.NotRegexp(t, "NaN|Inf", text, "%s: %s", what, st.Key)
		}
		for _, a := range st.Take {
			require.Positive(t, a.Value, "%s: %s, %s", what, st.Key, a.Name)
		}
	}
	for _, c := range counts {
		require.True(t, c.Minutes >= 1 && c.Minutes <= procedure.Longest, "%s: %s counts %v", what, c.Name, c.Minutes)
	}
	if err == nil {
		require.GreaterOrEqual(t, len(slots), len(list), what)
	}
	for _, slot := range slots {
		require.False(t, slot.End.Before(slot.Start), "%s: %s", what, list[slot.Step].Key)
	}
	for _, r := range evening {
		require.NotEmpty(t, r.List, "%s: nothing stands under “%s”", what, r.Do)
	}
	var water []string
	if id := route.SlurryWaterUsed; list != nil && s.Reason(id) == route.Defined && s.Value(id) > 0 {
		water = []string{"Water for the slurry, " + route.Print(s.Value(id), "mL")}
	}
	require.Equal(t, water, beginning(evening, "Water for the slurry"), what)
	return true
}

// beginning are the entries of a list for the evening that begin with some words.
func beginning(evening []procedure.Ready, words string) []string {
	var found []string
	for _, r := range evening {
		for _, text := range r.List {
			if strings.HasPrefix(text, words) {
				found = append(found, text)
			}
		}
	}
	return found
}

func TestEveryNumberAtItsEnds(t *testing.T) {
	var b route.Runner
	ran := map[string]bool{}
	for _, source := range options("gas.source") {
		for _, kind := range []string{"ammonium", "alkaline"} {
			for _, way := range options("dry.way") {
				for _, in := range numeric() {
					for _, v := range ends(in) {
						p := planOf(t, "gas.source", source, "cell.kind", kind, "dry.way", way)
						require.NoError(t, in.Set(&p, v))
						if mustStand(t, &b, &p, strings.Join([]string{source, kind, way, in.Key, route.Plain(v)}, " ")) {
							ran[in.Key] = true
						}
					}
				}
			}
		}
	}
	for _, in := range numeric() {
		if !strings.HasSuffix(in.Key, ".rejects") {
			assert.True(t, ran[in.Key], "no plan ran with an end of %s", in.Key)
		}
	}
}

func TestSeveralNumbersAtTheirEnds(t *testing.T) {
	var all []string
	for _, in := range numeric() {
		all = append(all, in.Key)
	}
	var b route.Runner
	rapid.Check(t, func(t *rapid.T) {
		p := planOf(t,
			"gas.source", rapid.SampledFrom(options("gas.source")).Draw(t, "source"),
			"cell.kind", rapid.SampledFrom(options("cell.kind")).Draw(t, "kind"),
			"dry.way", rapid.SampledFrom(options("dry.way")).Draw(t, "way"))
		for range rapid.IntRange(2, 6).Draw(t, "how many") {
			in, _ := route.InputByKey(rapid.SampledFrom(all).Draw(t, "input"))
			require.NoError(t, in.Set(&p, rapid.SampledFrom(ends(in)).Draw(t, in.Key)))
		}
		mustStand(t, &b, &p, "several")
	})
}

func TestNoLiquidAtAll(t *testing.T) {
	var b route.Runner
	for _, source := range options("gas.source") {
		p := planOf(t, "gas.source", source)
		p.SlurryWater, p.SlurryAcid, p.CopperWater = 0, 0, 0
		require.True(t, mustStand(t, &b, &p, source))
		assert.Empty(t, beginning(eveningBefore(&p, b.Run(&p)), "Water for the"), "%s: nothing is cooled that is not taken", source)
	}
	p := route.NewPlan()
	p.SlurryWater = 0
	s := b.Run(&p)
	require.Positive(t, s.Value(route.SlurryAcidUsed))
	assert.Empty(t, beginning(eveningBefore(&p, s), "Water for the slurry"), "the dilute acid is not water")
}
