package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/field"
	. "rosesalt/chem/reaction"
)

// sixth is a way of the tests alone: sulfur dioxide dissolved in water, poured into the
// slurry, which is kept warm. It borrows its charge, its strength and its figures from other
// ways, since a plan and a sheet have as many as were compiled in.
var sixth = reductant{
	word: "sulfurouswater", name: "sulfur dioxide in water",
	bought:  "Sulfur dioxide in water",
	charge:  &saltCharge,
	used:    SaltUsed,
	needed:  SaltNeeded,
	handled: []Substance{SulfurDioxide},
	warm:    true,
	bears:   150,
	stir:    newStirred(stirred{pure: SulfurDioxide, strength: &peroxideStrength, excess: &stirExcess, kept: &saltKept, more: heatBisulfite}),
}

// AddSixth lets plans be reduced in a sixth way while a test runs, and gives its word.
func AddSixth(t testing.TB) string {
	t.Helper()
	source := input(t, "gas.source")
	waysBefore, options := reductants, source.Options
	reductants = append(reductants[:len(reductants):len(reductants)], &sixth)
	source.Options = append(options[:len(options):len(options)], field.Option{Word: sixth.word, Name: sixth.name})
	t.Cleanup(func() { reductants, source.Options = waysBefore, options })
	for _, of := range []*Condition{
		&figures[SaltUsed].Of, &figures[SaltNeeded].Of,
		&input(t, saltCharge.Key).Of, &input(t, saltKept.Key).Of, &input(t, peroxideStrength.Key).Of,
	} {
		before := *of
		*of = byStirring
		t.Cleanup(func() { *of = before })
	}
	return sixth.word
}

// TestASixthWayKeepsItsBooks: what a file declares and the list of ways holds is planned as
// the others are.
func TestASixthWayKeepsItsBooks(t *testing.T) {
	word, source := AddSixth(t), input(t, "gas.source")
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		if err := source.Choose(p, word); err != nil {
			t.Fatal(err)
		}
		settle(t, p)
		s := b.Run(p)
		booksClose(t, p, &b)
		mayStand(t, p, s)
	})
}

// TestAWayReducesNoMoreThanThereIs: one that brings protons of its own and stops at no share of
// the oxide, with far more of it than the oxide takes and too little dilute acid.
func TestAWayReducesNoMoreThanThereIs(t *testing.T) {
	way, stir := oxalicWay, *oxalicWay.stir
	stir.done, way.stir = nil, &stir
	reductants[ByOxalic] = &way
	t.Cleanup(func() { reductants[ByOxalic] = &oxalicWay })
	plan := []string{"gas.source=oxalic", "oxalic.charge=500", "slurry.reach=90"}
	_, plenty := run(t, with(plan, "slurry.acid=5000")...)
	_, short := run(t, with(plan, "slurry.acid=30")...)
	require.Positive(t, plenty.Value(ReduceLeft), "out of reach")
	assert.InEpsilon(t, plenty.Value(ReduceLeft), short.Value(ReduceLeft), 1e-9)
}
