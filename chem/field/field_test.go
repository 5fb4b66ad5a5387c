package field_test

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
)

// TestKindsReadAndWrite: what is typed, what it is taken for, and how a link has it.
func TestKindsReadAndWrite(t *testing.T) {
	number := field.Field{Name: "Acid", Unit: "mL", Max: 100, Blank: "none"}
	choice := field.Field{Name: "Glass", Options: field.Words("A", "class A", "B", "class B")}
	for name, c := range map[string]struct {
		field field.Field
		text  string
		want  float64
		says  string
	}{
		"number":            {number, "0,05 L", 50, "50"},
		"no number":         {number, " ", quantity.Blank, ""},
		"choice":            {choice, "B", 1, "B"},
		"fact":              {field.Field{Kind: field.Fact, Max: 1, Whole: true}, "1", 1, "1"},
		"day":               {field.Field{Kind: field.Day}, " 2026-03-02T09:00 ", 1772442000 / 60, "2026-03-02T09:00"},
		"the first minute":  {field.Field{Kind: field.Day}, "2000-01-01T00:00", 946684800 / 60, "2000-01-01T00:00"},
		"no day":            {field.Field{Kind: field.Day}, "", quantity.Blank, ""},
		"clock":             {field.Field{Kind: field.Clock}, "14:30", 14*60 + 30, "14:30"},
		"midnight":          {field.Field{Kind: field.Clock}, "00:00", 0, "00:00"},
		"in its own way":    {field.Field{Max: 1, Parse: func(string) (float64, error) { return 7, nil }}, "seven", 7, "7"},
		"nothing of a word": {field.Field{Standing: field.Measured, Options: choice.Options, Blank: "not read"}, "", quantity.Blank, ""},
	} {
		t.Run(name, func(t *testing.T) {
			v, err := c.field.Take(c.text)
			require.NoError(t, err)
			assert.Equal(t, quantity.Given(c.want), quantity.Given(v))
			if quantity.Given(c.want) {
				assert.Equal(t, c.want, v)
			}
			assert.Equal(t, c.says, c.field.Write(v))
		})
	}
}

func TestRefusalsNameTextLimitAndRemedy(t *testing.T) {
	number := field.Field{Name: "Acid", Unit: "mL", Min: 1, Max: 100, Whole: true, Default: 5, Remedy: "Take less."}
	chosen := field.Field{Name: "Glass", Options: field.Words("A", "class A", "B", "class B"), Remedy: "Look at it."}
	reading := chosen
	reading.Standing = field.Measured
	for _, c := range []struct {
		field      field.Field
		text, says string
	}{
		{number, "", "Acid: Nothing is given. Give a whole number from 1\u202fmL to 100\u202fmL."},
		{number, "some", "Acid: “some” cannot be read as a number in mL. Type one such as 5\u202fmL."},
		{number, "0", "Acid: 0\u202fmL is below the least, 1\u202fmL. Take less."},
		{number, "20 L", "Acid: 20\u202f000\u202fmL is above the limit of 100\u202fmL. Take less."},
		{number, "2.5", "Acid: 2.5\u202fmL is not a whole number. Give a whole number from 1\u202fmL to 100\u202fmL."},
		{chosen, "C", "Glass: “C” is not offered. Choose one of: A, B. Look at it."},
		{chosen, "", "Glass: “” is not offered. Choose one of: A, B. Look at it."},
		{reading, "C", "Glass: “C” is not offered."},
		{field.Field{Name: "Begin", Kind: field.Day}, "1999-12-31T23:59", "“1999-12-31T23:59” is no day and time. Give one such as 2026-03-02T09:00, between the years 2000 and 2199."},
		{field.Field{Name: "Begin", Kind: field.Day}, "2026-02-30T09:00", "“2026-02-30T09:00” is no day and time. Give one such as 2026-03-02T09:00, between the years 2000 and 2199."},
		{field.Field{Name: "Begin", Kind: field.Day}, "2200-01-01T00:00", "“2200-01-01T00:00” is no day and time. Give one such as 2026-03-02T09:00, between the years 2000 and 2199."},
		{field.Field{Name: "From", Kind: field.Clock}, "24:00", "“24:00” is no time of the day. Give one such as 09:00."},
		{field.Field{Name: "Its own", Parse: func(string) (float64, error) { return 0, errors.New("Never.") }}, "x", "Never."},
	} {
		_, err := c.field.Take(c.text)
		if assert.Error(t, err, c.says) {
			assert.Equal(t, c.says, c.field.Says(err))
		}
	}
}

func TestTimesComeBack(t *testing.T) {
	at := time.Date(2199, 12, 31, 23, 59, 0, 0, time.UTC)
	assert.Equal(t, at, field.Time(field.Minutes(at)))
	assert.False(t, quantity.Given(field.Minutes(time.Time{})), "none is given")
}

// pot is a store.
type pot struct{ lids float64 }

func TestFormOverAStore(t *testing.T) {
	p := pot{1}
	form := field.Over(field.Club, []field.Of[pot]{{
		Field: field.Field{Key: "pot.lids", Name: "Lids", Default: 1, Min: 1, Max: 9, Whole: true},
		Get:   func(p *pot) float64 { return p.lids },
		Put:   func(p *pot, v float64) { p.lids = v },
	}}, &p)
	f, ok := form.Find("pot.lids")
	require.True(t, ok)
	_, ok = form.Find("pot")
	assert.False(t, ok)
	_, written := form.Written(f)
	assert.False(t, written, "no link says the usual")
	require.NoError(t, form.Set(f, "3"))
	assert.Equal(t, "3", form.Text(f))
	text, written := form.Written(f)
	assert.True(t, written)
	assert.Equal(t, "3", text)
	require.Error(t, form.Set(f, "12"))
	require.Error(t, form.Set(f, "few"))
	assert.Equal(t, 3.0, p.lids, "what is refused changes nothing")
	require.NoError(t, form.Set(f, ""))
	assert.Equal(t, 1.0, p.lids, "nothing brings back the usual")
}

func TestFormOfReadings(t *testing.T) {
	var inputs field.Readings
	inputs.Add(&field.Field{Key: "mass", Name: "Mass", Unit: "g", Max: 10})
	inputs.Add(&field.Field{Key: "step", Name: "Step", Unit: "g", Max: 1, Default: 0.5, Blank: "0.5 g"})
	inputs.Add(&field.Field{Key: "glass", Name: "Glass", Options: field.Words("A", "class A", "B", "class B")})
	read := map[string]float64{}
	form := inputs.Form(field.Assays, read)
	set := func(key, text string) error {
		f, ok := form.Find(key)
		require.True(t, ok)
		return form.Set(f, text)
	}
	stands := func(key string) (text string, written bool) {
		f, _ := form.Find(key)
		_, written = form.Written(f)
		return form.Text(f), written
	}
	for key, text := range map[string]string{"mass": "", "step": "", "glass": "A"} {
		got, written := stands(key)
		assert.Equal(t, text, got, key)
		assert.False(t, written, key)
	}
	assert.False(t, quantity.Given(inputs.Value(read, "mass")))
	assert.Equal(t, 0.5, inputs.Value(read, "step"))
	require.NoError(t, set("mass", "2"))
	require.NoError(t, set("step", "0.5"))
	require.NoError(t, set("glass", "B"))
	assert.Equal(t, map[string]float64{"mass": 2, "step": 0.5, "glass": 1}, read)
	_, written := stands("step")
	assert.True(t, written, "it was read, if as usual")
	require.NoError(t, set("glass", "A"))
	_, written = stands("glass")
	assert.False(t, written, "a word that nobody had to choose")
	require.Error(t, set("mass", "20"))
	assert.NotContains(t, read, "mass", "a result must not stand on what the field no longer shows")
}
