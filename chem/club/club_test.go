package club_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/room"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// planOf is a plan with a way, and its bench.
func planOf(t require.TestingT, source string) (*route.Plan, *route.Runner, *route.Sheet) {
	p, b := route.NewPlan(), new(route.Runner)
	in, _ := route.InputByKey("gas.source")
	require.NoError(t, in.Choose(&p, source))
	return &p, b, b.Run(&p)
}

var sources = []string{"copper", "metabisulfite", "slurrysalt", "peroxide", "oxalic"}

func TestAllIsOneTimesTheGroups(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, b, s := planOf(t, rapid.SampledFrom(sources).Draw(t, "source"))
		c := club.Club{Groups: float64(rapid.IntRange(1, 30).Draw(t, "groups")), AtOnce: float64(rapid.IntRange(1, 30).Draw(t, "at once"))}
		one := route.Reagents(p, s)
		all := c.Reagents(one)
		require.Len(t, all, len(one))
		for i, n := range all {
			require.InEpsilon(t, one[i].Amount*c.Groups, n.Buy, 1e-12, n.Name)
			n.Buy = one[i].Buy
			require.Equal(t, one[i], n)
		}
		want := 0.0
		for _, bottle := range safety.Bottles(p, b.Book(), s) {
			want += float64(bottle.Mass)
		}
		got := 0.0
		for _, bottle := range c.Waste(p, b.Book(), s) {
			got += float64(bottle.Mass)
		}
		require.InEpsilon(t, c.Groups*want, got, 1e-12)
		require.LessOrEqual(t, c.Running(), c.Groups)
		require.GreaterOrEqual(t, c.Turns()*c.Running(), c.Groups, "everybody has a turn")
		require.Less(t, (c.Turns()-1)*c.Running(), c.Groups, "and no turn is empty")
		for _, v := range c.Vessels(p, s) {
			if v.Line && !(v.Name == "Generator flask" && route.HotAcid(p)) {
				require.Equal(t, c.Running(), v.Count, v.Name)
			} else {
				require.Equal(t, c.Groups, v.Count, v.Name)
			}
		}
	})
}

func TestLineIsSharedInTurn(t *testing.T) {
	p, _, s := planOf(t, "copper")
	count := map[string]float64{}
	for _, v := range (club.Club{Groups: 6, AtOnce: 2}).Vessels(p, s) {
		count[v.Name] = v.Count
	}
	assert.Equal(t, 6.0, count["Generator flask"], "one that held hot acid cools until the next day")
	assert.Equal(t, 2.0, count["Scrubber bottle"])
	assert.Equal(t, 6.0, count["Slurry vessel"])
	p, _, s = planOf(t, "metabisulfite")
	for _, v := range (club.Club{Groups: 6, AtOnce: 2}).Vessels(p, s) {
		if v.Name == "Generator flask" {
			assert.Equal(t, 2.0, v.Count)
		}
	}
}

// TestGasInTheRoom holds what the room would breathe against the balance of a well-mixed
// room, written out here: c = G/(nV)·(1 − e^−nt) at the end, and never more over a time.
func TestGasInTheRoom(t *testing.T) {
	p, _, s := planOf(t, "copper")
	p.RoomVolume, p.RoomChanges, p.RoomEscape = 200, 2, 10
	c := club.Club{Groups: 5, AtOnce: 3}
	g, ok := c.Gas(p, s)
	require.True(t, ok)
	assert.InEpsilon(t, 3*s.Value(route.GasVolume), g.Litres, 1e-12)
	hours := float64(p.GasMinutes) / 60
	litre := 8.314462618 * (273.15 + float64(p.AirTemperature)) / float64(p.AirPressure)
	peak := func(mmol float64) float64 {
		cubic := mmol / 1000 * litre / 1000
		return cubic / hours / (2 * 200) * (1 - math.Exp(-2*hours)) * 1e6
	}
	passing, leak := peak(0.1*3*s.Value(route.VentGas)), peak(3*s.Value(route.GasMade))
	for i, h := range g.Passing {
		if h.Limit.Averaged <= 0.25 {
			assert.InEpsilon(t, passing, float64(h.Mean), 0.2, "a quarter of an hour's mean is near the peak")
			assert.Less(t, float64(h.Mean), passing)
			assert.InEpsilon(t, leak, float64(g.Leak[i].Mean), 0.2)
		}
		assert.Greater(t, g.Leak[i].Mean, h.Mean)
	}
}

func TestMostAtOnceIsTheLastBelowTheLimit(t *testing.T) {
	p, _, s := planOf(t, "copper")
	p.RoomVolume, p.RoomChanges, p.RoomEscape = 100, 4, 1
	g, ok := club.Club{Groups: 30, AtOnce: 1}.Gas(p, s)
	require.True(t, ok)
	require.Greater(t, g.Most, 1.0)
	require.Less(t, g.Most, 30.0)
	mean := func(n float64) room.PartPerMillion {
		g, _ := club.Club{Groups: 30, AtOnce: n}.Gas(p, s)
		assert.Equal(t, n > g.Most, g.Over(club.Club{Groups: 30, AtOnce: n}))
		return g.Passing[p.RoomLimit].Mean
	}
	assert.LessOrEqual(t, mean(g.Most), g.Limit.PPM)
	assert.Greater(t, mean(g.Most+1), g.Limit.PPM)
	p.RoomVolume, p.RoomEscape = 30, 100
	g, _ = club.Club{Groups: 30, AtOnce: 1}.Gas(p, s)
	assert.Zero(t, g.Most, "in a small room not even one")
}

func TestGasOnlyWhereThereIsAny(t *testing.T) {
	for source, want := range map[string]bool{"copper": true, "metabisulfite": true, "slurrysalt": true, "peroxide": false, "oxalic": false} {
		p, _, s := planOf(t, source)
		g, ok := club.New().Gas(p, s)
		assert.Equal(t, want, ok, source)
		assert.Equal(t, want, club.Question(p) != "", source)
		assert.Equal(t, want, g.Litres > 1, source)
	}
	p, _, s := planOf(t, "slurrysalt")
	g, _ := club.Club{Groups: 4, AtOnce: 2}.Gas(p, s)
	assert.InEpsilon(t, 2*s.Value(route.SaltFreed)/1000*23.621, g.Litres, 1e-3, "real gas at 20 °C (Gao et al., J. Chem. Eng. Data 2016)")
}

func TestLimitsSayWhatToDo(t *testing.T) {
	c := club.New()
	set := func(key, text string) error {
		form := c.Form()
		f, ok := form.Find(key)
		require.True(t, ok)
		return form.Set(f, text)
	}
	for key, text := range map[string]string{club.GroupsKey: "31", club.AtOnceKey: "2.5"} {
		err := set(key, text)
		require.Error(t, err)
		assert.Contains(t, err.Error(), text)
	}
	assert.ErrorContains(t, set(club.GroupsKey, "0"), "below the least")
	assert.Equal(t, club.New(), c, "what is refused changes nothing")
	require.NoError(t, set(club.GroupsKey, "3"))
	require.NoError(t, set(club.AtOnceKey, "5"))
	assert.Contains(t, c.Trouble(), "more than the number of groups, 3")
	assert.Equal(t, 3.0, c.Running())
	require.NoError(t, set(club.AtOnceKey, ""))
	assert.Equal(t, 1.0, c.AtOnce)
	assert.Empty(t, c.Trouble())
}

func TestBagsWashedTogether(t *testing.T) {
	p := route.NewPlan()
	for share, want := range map[quantity.Percent]float64{25: 2, 30: 2, 100: 5, 50: 3, 20: 1, 10: 1, 60: 5} {
		p.BatchShare = share
		assert.Equal(t, want, club.Club{Groups: 5, AtOnce: 1}.Bags(&p), "%v %%", share)
	}
}

func TestAdultsMakeTheGas(t *testing.T) {
	for _, source := range sources {
		p, b, s := planOf(t, source)
		steps := procedure.Steps(p, s, nil)
		tasks := club.Tasks(p, b.Book(), steps)
		require.Len(t, tasks, len(steps))
		for i, st := range steps {
			assert.Equal(t, st.Title, tasks[i].Step)
			assert.NotEmpty(t, tasks[i].Why, st.Key)
			switch st.Key {
			case "dilute", "charge", "gas", "stir", "evaporate", "dissolve", "waste":
				assert.True(t, tasks[i].Adult, "%s: %s", source, st.Key)
			case "divide":
				assert.False(t, tasks[i].Adult, "%s is for the local code", st.Key)
			}
			if st.Watch == procedure.NeverLeave {
				assert.True(t, tasks[i].Adult, st.Key)
			}
		}
	}
}

// TestStrongLiquorIsForAdults: who may handle a mother liquor is what its acid decides.
func TestStrongLiquorIsForAdults(t *testing.T) {
	adult := func(water quantity.Millilitre) map[string]bool {
		p, b := route.PlanOf(1), new(route.Runner) // without an acid rinse
		p.GasSpare = 1.2
		way, _ := route.InputByKey("dry.way")
		require.NoError(t, way.Choose(&p, "crystals"))
		p.CopperWater = water
		s := b.Run(&p)
		steps := procedure.Steps(&p, s, nil)
		list := map[string]bool{}
		for i, task := range club.Tasks(&p, b.Book(), steps) {
			list[steps[i].Key] = task.Adult
			if steps[i].Key == "drain" {
				assert.Contains(t, task.Why, "acid liquor")
			}
		}
		return list
	}
	usual := adult(quantity.Millilitre(quantity.Blank))
	assert.True(t, usual["blue"], "its liquor holds free acid that burns")
	assert.True(t, usual["drain"])
	assert.True(t, usual["grow"], "with its zinc chloride this one burns too")
	thin := adult(400)
	assert.False(t, thin["blue"], "in much water it is for the local code")
	assert.False(t, thin["drain"])
}

func TestRisksHoldEveryCaution(t *testing.T) {
	for _, source := range sources {
		p, _, _ := planOf(t, source)
		text, seen := "", 0
		for _, r := range club.Risks(p) {
			assert.NotEmpty(t, r.Hazards, "%s: %d", source, r.Stage)
			assert.NotEmpty(t, r.Harmed)
			seen += len(r.Measures)
			text += strings.Join(r.Hazards, "\n")
		}
		all := 0
		for stage := range route.Stage(route.Stages) {
			all += len(safety.Cautions(stage, p))
		}
		assert.Equal(t, all, seen, "%s: every caution of the page is a measure", source)
		assert.Equal(t, 1, strings.Count(text, "Sulfuric acid: May be"), "%s: told once", source)
		assert.Equal(t, route.Sulfurous(p), strings.Contains(text, "H331"), source)
		assert.Equal(t, source == "oxalic", strings.Contains(text, "Oxalic"), source)
	}
	assert.Contains(t, club.DraftHeading(), "not a risk assessment")
	assert.Contains(t, club.DraftHeading(), "local code")
}

// TestRisksNameEveryReagent: whatever is to be bought and can harm has a line.
func TestRisksNameEveryReagent(t *testing.T) {
	harmless := []string{"Tap water", "Distilled water or rain", "Ice", "Copper"}
	for _, source := range sources {
		p, _, s := planOf(t, source)
		text := ""
		for _, r := range club.Risks(p) {
			text += "\n" + strings.ToLower(strings.Join(r.Hazards, "\n"))
		}
		for _, n := range route.Reagents(p, s) {
			for _, name := range strings.Split(n.Name, ", and dilute ") {
				name, _, _ = strings.Cut(name, ",")
				if slices.Contains(harmless, name) {
					continue
				}
				if _, inside, ok := strings.Cut(name, "("); ok {
					name = strings.TrimSuffix(inside, ")")
				}
				name = strings.TrimSuffix(strings.TrimSuffix(name, " paper"), " dihydrate")
				assert.Regexp(t, `(?m)^`+regexp.QuoteMeta(strings.ToLower(name))+`\b.*: .`, text, source)
			}
		}
	}
}

func TestTurnHoldsWhatMustFollow(t *testing.T) {
	p, _, s := planOf(t, "copper")
	assert.Equal(t, quantity.Minute(155), club.TurnTime(procedure.Steps(p, s, nil)), "10 to charge, 110 of gas, 35 for the end")
	p, _, s = planOf(t, "peroxide")
	assert.Equal(t, quantity.Minute(60+35), club.TurnTime(procedure.Steps(p, s, nil)))
}
