package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
	"rosesalt/web/desk"
)

const rate = 16000

// bubbling is a minute of a tube that bubbles four times a second in a quiet room.
func bubbling(noise float64) ([]float32, []soundtest.Bubble) {
	const loud = 0.1
	return soundtest.Scene{
		Rate: rate, Seconds: 60, Seed: 71, Gas: soundtest.SulfurDioxide, Pascal: float64(sound.UsualOutlet().Pressure()) * 1000,
		Voices: []soundtest.Voice{{PerSecond: 4, Jitter: 0.2, Radius: 4, Spread: 0.05, Loud: loud, LoudSpread: 0.3, Chirp: 0.01}},
		Noises: []soundtest.Noise{{Kind: soundtest.White, RMS: soundtest.Under(loud, noise)}},
	}.Make()
}

func stored(t *testing.T, content []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "gas.wav")
	require.NoError(t, os.WriteFile(name, content, 0o600))
	return name
}

func printed(t *testing.T, args ...string) (h heard, fields map[string]any) {
	t.Helper()
	var out, complaints bytes.Buffer
	require.Zero(t, run(args, &out, &complaints), complaints.String())
	require.NoError(t, json.Unmarshal(out.Bytes(), &h))
	require.NoError(t, json.Unmarshal(out.Bytes(), &fields))
	return h, fields
}

func TestARecordingIsCounted(t *testing.T) {
	samples, truth := bubbling(20)
	h, fields := printed(t, stored(t, soundtest.WAV(samples, rate, 1)))
	require.True(t, h.Counted, h.Reason)
	assert.NotContains(t, fields, "reason")
	assert.InEpsilon(t, len(truth), h.Bubbles.Value, 0.05)
	gas, err := sound.UsualOutlet().Amount(sound.Exactly(soundtest.Millilitres(truth)))
	require.NoError(t, err)
	assert.Less(t, h.Gas.Low, gas.Best)
	assert.Greater(t, h.Gas.High, gas.Best)
	for name, b := range map[string]*band{"bubbles": h.Bubbles, "gas": h.Gas} {
		assert.LessOrEqual(t, b.Low, b.Value, name)
		assert.LessOrEqual(t, b.Value, b.High, name)
		assert.Len(t, fields[name], 3)
	}
}

// TestThePlanSaysWhereItBubbles: the air of the flask comes first, and a shallow or cold
// line holds another amount in a bubble; the page counts with the same line.
func TestThePlanSaysWhereItBubbles(t *testing.T) {
	samples, _ := bubbling(20)
	name := stored(t, soundtest.WAV(samples, rate, 1))
	const plan = "v=1&log.depth=200&gas.tube=20"
	h, _ := printed(t, name, "file:///rosesalt.html#"+plan)
	line := desk.New(plan).GasOutlet()
	require.Equal(t, sound.Millimetre(200), line.Depth)
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	want, err := listen(file, line, sound.Band{})
	require.NoError(t, err)
	assert.Equal(t, want, h)
	plain, _ := printed(t, name)
	assert.Less(t, h.Gas.Value, 0.9*plain.Gas.Value, "the air of the flask is no gas")
}

// A funnel's bubbles tell no size by their pitch: the plan's bubble does.
func TestACaughtBubbleTellsTheGas(t *testing.T) {
	samples, truth := soundtest.Scene{
		Rate: rate, Seconds: 40, Seed: 72, Gas: soundtest.SulfurDioxide,
		Voices: []soundtest.Voice{{PerSecond: 4, Jitter: 0.2, Radius: 2.5, Spread: 0.25, Loud: 0.1, LoudSpread: 0.3}},
		Noises: []soundtest.Noise{{Kind: soundtest.White, RMS: soundtest.Under(0.1, 20)}},
	}.Make()
	name := stored(t, soundtest.WAV(samples, rate, 1))
	h, fields := printed(t, name)
	require.True(t, h.Counted, h.Reason)
	assert.InEpsilon(t, len(truth), h.Bubbles.Value, 0.05)
	assert.NotContains(t, fields, "gas")
	assert.Contains(t, h.Notices[0], "catch some to know it")
	const plan = "v=1&log.bubble=caught&log.caught=50&log.filled=100"
	h, _ = printed(t, name, plan)
	gas, err := desk.New(plan).GasOutlet().Amount(sound.Exactly(2 * float64(len(truth))))
	require.NoError(t, err)
	assert.InEpsilon(t, gas.Best, h.Gas.Value, 0.15)
}

func TestWhatCannotBeCountedSaysWhy(t *testing.T) {
	noise, _ := bubbling(-20)
	short, _ := bubbling(20)
	loud := slices.Clone(short)
	for i := range loud {
		loud[i] *= 200
	}
	for name, c := range map[string]struct {
		content []byte
		says    string
	}{
		"nothing but noise": {soundtest.WAV(noise, rate, 1), "nothing in it rings"},
		"overdriven":        {soundtest.WAV(loud, rate, 1), "only the least there were"},
		"too short":         {soundtest.WAV(short[:rate], rate, 1), "it lasts 1.0 s"},
		"no recording":      {[]byte("Dear diary, today the gas came freely and I counted nothing."), "neither an MP3 nor a WAV"},
		"empty":             {nil, "is empty"},
		"too slow":          {soundtest.WAV(short, 4000, 1), "4000 samples a second"},
	} {
		t.Run(name, func(t *testing.T) {
			h, fields := printed(t, stored(t, c.content))
			assert.False(t, h.Counted)
			assert.Contains(t, h.Reason, c.says)
			assert.Contains(t, fields, "counted")
			assert.NotContains(t, fields, "bubbles")
			assert.NotContains(t, fields, "gas")
		})
	}
}

func TestWrongUseIsTold(t *testing.T) {
	for _, args := range [][]string{nil, {"-h"}, {"a", "b", "c"}, {filepath.Join(t.TempDir(), "none.wav")}, {stored(t, nil), "v=1&tea=1"}} {
		var out, complaints bytes.Buffer
		assert.Equal(t, 1, run(args, &out, &complaints))
		assert.Empty(t, out.String())
		assert.Contains(t, complaints.String(), "hear: ")
	}
}
