package safety_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// household are the things that stand in a house or school, in any plan.
var household = []safety.Thing{
	"chlorine bleach", "caustic drain cleaner", "acid drain cleaner", "lime", "soda", "permanganate", "nitric acid", "hydrochloric acid",
	"food acids such as vinegar", "hydrogen peroxide", "ammonia", "metals such as zinc", "anything that burns",
}

func rowsOf(a, b safety.Thing) (harm, spared int) {
	for _, m := range safety.Meetings() {
		if slices.Contains(m.Of, a) && slices.Contains(m.With, b) || slices.Contains(m.Of, b) && slices.Contains(m.With, a) {
			if m.Harm {
				harm++
			} else {
				spared++
			}
		}
	}
	return harm, spared
}

// TestEveryPairIsConsideredOnce: from what the plan makes to what stands in a house or
// school; and of two things that a plan makes never twice.
func TestEveryPairIsConsideredOnce(t *testing.T) {
	for _, a := range safety.Things() {
		for _, b := range safety.Things() {
			harm, spared := rowsOf(a, b)
			switch {
			case slices.Contains(household, a) && slices.Contains(household, b):
				assert.Zero(t, harm+spared, "%s, %s: none of it is the plan's", a, b)
			case slices.Contains(household, a) != slices.Contains(household, b):
				assert.Equal(t, 1, harm+spared, "%s, %s", a, b)
			default:
				assert.LessOrEqual(t, harm, 1, "%s, %s", a, b)
				assert.Zero(t, spared, "%s, %s", a, b)
			}
			m, ok := safety.Meet(a, b)
			back, okBack := safety.Meet(b, a)
			assert.Equal(t, ok, okBack)
			assert.Equal(t, m.Comes, back.Comes)
			assert.Equal(t, ok, harm+spared > 0)
		}
	}
}

func TestEveryMeetingHasItsWordsAndSource(t *testing.T) {
	for _, m := range safety.Meetings() {
		assert.NotEmpty(t, m.Comes, m)
		assert.False(t, strings.HasSuffix(m.Comes, "."), m.Comes)
		assert.NotEmpty(t, m.Source, m.Comes)
		assert.NotContains(t, m.Comes+m.Instead, "safe", "nothing is promised")
		assert.True(t, m.Instead == "" || strings.HasSuffix(m.Instead, "."), m.Instead)
		assert.True(t, m.Harm || m.Instead == "", m.Comes)
		for _, of := range m.Of {
			assert.False(t, slices.Contains(household, of), "%s stands on the plan's side", of)
		}
	}
}

// TestKnownHarms are those that a chemist would ask for, each from both sides.
func TestKnownHarms(t *testing.T) {
	for _, c := range []struct {
		a, b  safety.Thing
		comes string
	}{
		{"wash liquor", "chlorine bleach", "chloramines"},
		{"blue mother liquor", "chlorine bleach", "chlorine"},
		{"silver drops", "chlorine bleach", "chlorine"},
		{"wash liquor", "lime", "ammonia"},
		{"wash liquor", "caustic drain cleaner", "ammonia"},
		{"scrubber liquid", "food acids such as vinegar", "sulfur dioxide"},
		{"scrubber liquid", "blue mother liquor", "sulfur dioxide"},
		{"spare metabisulfite", "hydrochloric acid", "sulfur dioxide"},
		{"black mix", "hydrochloric acid", "chlorine"},
		{"permanganate papers", "hydrochloric acid", "chlorine"},
		{"silver drops", "ammonia", "explode"},
		{"silver drops", "wash liquor", "explode"},
		{"strong acid", "permanganate", "explodes"},
		{"strong acid", "zinc cans", "poisonous"},
		{"wash lye", "metals such as zinc", "hydrogen"},
		{"zinc gel", "food acids such as vinegar", "hydrogen"},
		{"spare oxalic acid", "strong acid", "carbon monoxide"},
		{"spare peroxide", "food acids such as vinegar", "peracetic"},
		{"spare peroxide", "anything that burns", "fire"},
		{"black powder from the generator", "nitric acid", "nitrogen dioxide"},
		{"wash lye", "acid drain cleaner", "boils"},
		{"slurry", "strong acid", "boils"},
		{"wash liquor", "strong acid", "boils"},
		{"black mix", "strong acid", "chlorine"},
		{"scrubber liquid", "pink mother liquor", "sulfur dioxide"},
		{"spent liquid of the generator", "zinc cans", "hydrogen sulfide"},
		{"blue crystals", "metals such as zinc", "hydrogen"},
		{"silver drops", "metals such as zinc", "nitrogen dioxide"},
		{"spare peroxide", "ammonia", "oxygen"},
	} {
		m, ok := safety.Meet(c.b, c.a)
		require.True(t, ok && m.Harm, "%s, %s", c.a, c.b)
		assert.Contains(t, m.Comes, c.comes, "%s, %s", c.a, c.b)
		p := route.NewPlan()
		if c.a.In(&p) && c.b.In(&p) {
			assert.Contains(t, strings.Join(safety.Never(c.a, &p, 99), "\n"), string(c.b))
			assert.Contains(t, strings.Join(safety.Never(c.b, &p, 99), "\n"), string(c.a))
		}
	}
	for _, c := range [][2]safety.Thing{
		{"blue mother liquor", "nitric acid"}, // there is no metal in it
		{"zinc cans", "permanganate"},
	} {
		m, _ := safety.Meet(c[0], c[1])
		assert.False(t, m.Harm, "%s, %s", c[0], c[1])
	}
	assert.Panics(t, func() { safety.Warn("wash lye", "food acids such as vinegar") }, "what is spared is no warning")
}

// TestPeroxideIsPeroxide: what is left of the plan's does what a bottle of the house does. Into
// the slurry it goes by the plan.
func TestPeroxideIsPeroxide(t *testing.T) {
	for _, a := range safety.Things() {
		if m, ok := safety.Meet(a, "hydrogen peroxide"); ok && m.Harm && a != "slurry" {
			_, ok = safety.Meet(a, "spare peroxide")
			assert.True(t, ok || !together(a, "spare peroxide"), "%s", a)
		}
	}
}

// together tells whether some plan has both things.
func together(a, b safety.Thing) bool {
	for _, p := range plansToLabel() {
		if a.In(&p) && b.In(&p) {
			return true
		}
	}
	return false
}

// TestBleachMeetsNothing: what people clean up with makes gas of all but the lye.
func TestBleachMeetsNothing(t *testing.T) {
	for _, a := range safety.Things() {
		if !slices.Contains(household, a) {
			m, _ := safety.Meet(a, "chlorine bleach")
			assert.Equal(t, a != "wash lye", m.Harm, a)
		}
	}
	p := route.NewPlan()
	assert.Contains(t, safety.NoBleach(&p), "chloramines")
	p.Rows[0].Kind = 2
	assert.NotContains(t, safety.NoBleach(&p), "chloramines", "lye holds no ammonium")
	assert.Contains(t, safety.NoBleach(&p), ": chlorine.")
}

// gases are words that belong to what comes of a meeting: "bleaches" and "bleached" are the
// paper's, chloride a part of salts.
var gases = regexp.MustCompile(`(?i)chlorine|chloramine|hydrochloric|\bbleach\b|ammonia\b`)

// TestPagesAskTheTable: whatever a card, label, step, caution or mishap says of chlorine,
// chloramines, ammonia or hydrochloric acid is a meeting of the table.
func TestPagesAskTheTable(t *testing.T) {
	var tabled []string
	for _, m := range safety.Meetings() {
		if m.Harm {
			brief, _, _ := strings.Cut(m.Comes, ",")
			tabled = append(tabled, ": "+brief)
		}
	}
	says := func(p *route.Plan, where, text string) {
		if !gases.MatchString(text) {
			return
		}
		for _, comes := range tabled {
			if strings.Contains(text, comes) || strings.Contains(text, safety.NoBleach(p)) {
				return
			}
		}
		assert.Fail(t, "not from the table", "%s: %s", where, text)
	}
	for name, p := range plansToLabel() {
		var b route.Runner
		sheet := *b.Run(&p)
		for _, bottle := range safety.Bottles(&p, b.Book(), &sheet) {
			for _, line := range bottle.Never {
				says(&p, name, line)
			}
			says(&p, name, bottle.Keep)
			assert.NotEmpty(t, bottle.Never, bottle.Name)
		}
		for _, l := range labels(&p) {
			says(&p, name+" "+l.Name, strings.Join(l.Notes, " "))
		}
		for stage := range route.Stage(route.Stages) {
			for _, c := range safety.Cautions(stage, &p) {
				says(&p, name, c.Lead+" "+c.Text)
			}
		}
		for _, st := range procedure.Steps(&p, &sheet, nil) {
			says(&p, name+" "+st.Key, st.Stop)
		}
		for _, m := range safety.Mishaps(&p, &sheet) {
			says(&p, name, m.Sign+" "+m.Not)
		}
		steps := procedure.Steps(&p, &sheet, nil)
		assert.Contains(t, steps[len(steps)-1].Stop, safety.NoBleach(&p), name)
	}
}

// TestEveryStreamHasItsCard: each liquor of the ledger's waste is a thing of the table, and
// says what it must never meet, chlorine bleach first where it makes gas.
func TestEveryStreamHasItsCard(t *testing.T) {
	for name, p := range plansToLabel() {
		list, _, _ := bottles(&p)
		for _, b := range list {
			if !strings.HasPrefix(b.Name, "Wash lye") {
				assert.Contains(t, b.Never[0], "chlorine bleach: ", "%s: %s", name, b.Name)
			}
		}
	}
}

// TestTableOfAPlanHasNoOtherPlansThings: and all of its own.
func TestTableOfAPlanHasNoOtherPlansThings(t *testing.T) {
	for name, p := range plansToLabel() {
		seen := map[safety.Thing]bool{}
		for _, m := range safety.MeetingsOf(&p) {
			assert.NotEmpty(t, m.Of)
			assert.NotEmpty(t, m.With)
			for _, thing := range append(append([]safety.Thing{}, m.Of...), m.With...) {
				assert.True(t, thing.In(&p), "%s: %s", name, thing)
				seen[thing] = true
			}
		}
		for _, thing := range safety.Things() {
			assert.Equal(t, thing.In(&p), seen[thing], "%s: %s", name, thing)
		}
	}
}
