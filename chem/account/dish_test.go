package account_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/account"
	"rosesalt/chem/quantity"
)

func TestMassFollowsFromItsDish(t *testing.T) {
	r := account.NewRecord()
	require.NoError(t, r.Set("found.product.empty", 84.1))
	assert.False(t, quantity.Given(r.Product), "an empty dish says nothing yet")
	require.NoError(t, r.Set("found.product.full", 126.3))
	assert.Equal(t, 42.2, r.Product, "no dust of binary fractions")
	assert.Error(t, r.Set("found.product", 40), "the mass itself is worked out now")
	assert.Equal(t, 42.2, r.Product)

	require.NoError(t, r.Set("found.product.full.2", 125.1))
	assert.Equal(t, 41.0, r.Product, "the last weighing counts")

	require.NoError(t, r.Set("found.product.empty", quantity.Blank))
	assert.False(t, quantity.Given(r.Product), "without the dish the mass is not known")
	require.NoError(t, r.Set("found.product", 40))
	assert.Equal(t, 40.0, r.Product)
}

func TestFullLighterThanEmptyIsRefused(t *testing.T) {
	r := account.NewRecord()
	require.NoError(t, r.Set("found.copper.empty", 250))
	err := r.Set("found.copper.full", 210)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "210")
	assert.Contains(t, err.Error(), "250")
	assert.False(t, quantity.Given(r.Copper))
	assert.False(t, quantity.Given(r.Value("found.copper.full")), "nothing is changed by what is refused")
}

func TestDryingIsNotJudgedWithTheDish(t *testing.T) {
	r := account.NewRecord()
	require.NoError(t, r.Set("found.product.full", 230))
	require.NoError(t, r.Set("found.product.full.2", 229.5))
	state, _ := r.Dish("found.product").Drying()
	assert.Equal(t, account.NoDish, state, "half a gram is little of dish and salt")
	require.NoError(t, r.Set("found.product.empty", 200))
	state, _ = r.Dish("found.product").Drying()
	assert.Equal(t, account.StillLosing, state, "and much of the salt")
}

func TestDryingEndsWhenTwoWeighingsAgree(t *testing.T) {
	for _, c := range []struct {
		full  []float64
		state account.Drying
	}{
		{nil, account.NotWeighed},
		{[]float64{126.3}, account.WeighedOnce},
		{[]float64{131, 126.3}, account.StillLosing},
		{[]float64{131, 126.3, 126.3}, account.Constant},
		{[]float64{131, 126.3, 126.2}, account.Constant},
		{[]float64{131, 126.3, 126.0}, account.StillLosing},
		{[]float64{126.3, 127.5}, account.Gaining},
	} {
		r := account.NewRecord()
		require.NoError(t, r.Set("found.product.empty", 84.1))
		inputs, logged := account.DishInputs("found.product")
		require.True(t, logged)
		for i, v := range c.full {
			require.NoError(t, r.Set(inputs[1+i].Key, v))
		}
		state, _ := r.Dish("found.product").Drying()
		assert.Equal(t, c.state, state, "%v", c.full)
		assert.Equal(t, len(c.full), r.Dish("found.product").Weighed())
	}
}

// A gap in the log is bridged, in whatever order the readings come.
func TestReadingsInAnyOrderGiveOneMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inputs, _ := account.DishInputs("found.residue")
		empty := rapid.Float64Range(1, 300).Draw(t, "empty")
		values := map[string]float64{inputs[0].Key: empty}
		keys, last := []string{inputs[0].Key}, -1.0
		for _, in := range inputs[1:] {
			if rapid.Bool().Draw(t, in.Key) {
				last = empty + rapid.Float64Range(0, 500).Draw(t, in.Key+" full")
				values[in.Key], keys = last, append(keys, in.Key)
			}
		}
		r := account.NewRecord()
		for _, key := range rapid.Permutation(keys).Draw(t, "order") {
			require.NoError(t, r.Set(key, values[key]))
		}
		if last < 0 {
			assert.False(t, quantity.Given(r.Residue))
			return
		}
		assert.InDelta(t, last-empty, r.Residue, 1e-6)
	})
}

func TestEveryReadingBelongsToItsMass(t *testing.T) {
	for _, in := range account.Inputs() {
		list, _ := account.DishInputs(in.Key)
		for i := range list {
			assert.Equal(t, in.Key, list[i].Clears, "what is read in the dish counts from then on")
			found, ok := account.InputByKey(list[i].Key)
			require.True(t, ok)
			assert.Equal(t, list[i].Name, found.Name)
		}
	}
	list, _ := account.DishInputs("found.gas")
	assert.Empty(t, list, "bubbles are not weighed")
}
