package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/quantity"
	"rosesalt/chem/sound"
)

func heard() *sound.Result {
	r := sound.Result{Settings: sound.UsualSettings(sound.UsualOutlet()), Length: 100}
	var list []sound.Bubble
	for i := range 50 {
		list = append(list, sound.Bubble{At: sound.Second(2*i + 1), Pitch: 900, Loudness: -20, Sure: 0.9})
	}
	list[3].Sure = 0.2
	r.Spans = []sound.Span{{From: 0, Until: 90}, {From: 90, Until: 100, Why: "wind"}}
	all := r.With(list)
	all = all.Add(50)
	return &all
}

func stretch(from, until sound.Second) Stretch {
	loud := make([]sound.Decibel, 200)
	for i := range loud {
		loud[i] = -50
	}
	return Stretch{From: from, Until: until, Mark: (from + until) / 2, Loud: loud}
}

func TestLoudnessShowsEachBubbleAsItWasFound(t *testing.T) {
	pic := Loudness(heard(), stretch(0, 100))
	assert.Equal(t, "51 bubbles in this stretch", pic.Title)
	series := pic.Panels[0].Series
	assert.Len(t, series[1].Points, 2*49)
	for i, q := range series[1].Points {
		assert.Equal(t, i%2 == 0, q.OK, "no line joins two bubbles")
	}
	assert.Len(t, series[2].Points, 2, "one in doubt")
	assert.Len(t, series[3].Points, 2, "one by hand")
	assert.Equal(t, "not trusted", series[4].Label)
	assert.Len(t, pic.Table.Rows, 51)
	assert.Equal(t, "1 bubble in this stretch", Loudness(heard(), stretch(0, 2)).Title)
	assert.Equal(t, "No bubbles in this stretch", Loudness(heard(), stretch(1.5, 2)).Title)
	for _, s := range [][2]sound.Second{{0, 100}, {3, 4}} {
		p := Loudness(heard(), stretch(s[0], s[1]))
		drawn(t, p)
		for _, wide := range []bool{true, false} {
			assert.Equal(t, float64(s[0]), p.ValueAt(0, wide), "all of the stretch is there")
			assert.Equal(t, float64(s[1]), p.ValueAt(1, wide))
		}
	}
}

func TestGasHeardShowsTheDemandInReach(t *testing.T) {
	r := heard()
	assert.Len(t, GasHeard(r, r.Gas.Best).Panels[1].Limits, 1)
	assert.Empty(t, GasHeard(r, quantity.Blank).Panels[1].Limits)
	assert.Empty(t, GasHeard(r, 100*r.Gas.High).Panels[1].Limits, "it would press the curve flat")
	assert.NotEmpty(t, GasHeard(&sound.Result{}, math.NaN()).Why)
	r.Spans = []sound.Span{{From: 0, Until: 100}}
	all := r.With(r.Bubbles)
	pace := GasHeard(&all, quantity.Blank).Panels[0].Series[0].Points
	assert.InDelta(t, 20, len(pace), 2, "means of some seconds, not single bubbles")
	for _, q := range pace {
		assert.InDelta(t, 0.5, q.Y, 0.25)
	}
}
