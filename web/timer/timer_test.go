package timer_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/web/timer"
)

var noon = time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)

func at(minutes float64) time.Time { return noon.Add(time.Duration(minutes * float64(time.Minute))) }

func started(t *testing.T, minutes int) timer.Timer {
	t.Helper()
	s, err := timer.Start("soak.1", "Soak", time.Duration(minutes)*time.Minute, noon)
	require.NoError(t, err)
	return s
}

func TestTimerCountsDown(t *testing.T) {
	s := started(t, 60)
	assert.Equal(t, time.Hour, s.Remaining(noon))
	assert.Equal(t, 15*time.Minute, s.Remaining(at(45)))
	assert.True(t, s.Runs(at(59.9)))
	assert.False(t, s.Done(at(59.99)))
	assert.True(t, s.Done(at(60)))
	assert.Zero(t, s.Over(at(60)))
	assert.Zero(t, s.Remaining(at(500)), "never negative")
	assert.Equal(t, 440*time.Minute, s.Over(at(500)), "over a closed lid too")
}

func TestPauseStandsStill(t *testing.T) {
	s := started(t, 60)
	s.Pause(at(20))
	assert.Equal(t, 40*time.Minute, s.Remaining(at(1000)))
	assert.False(t, s.Runs(at(1000)))
	s.Pause(at(1000))
	s.Resume(at(1010))
	assert.Equal(t, 30*time.Minute, s.Remaining(at(1020)))
	s.Resume(at(1025))
	assert.True(t, s.Done(at(1050)))
	s.Pause(at(1060))
	assert.False(t, s.Paused(), "what is done is not paused")
	assert.Equal(t, 10*time.Minute, s.Over(at(1060)))
}

func TestClockPutBackIsToldAndNothingRunsBackwards(t *testing.T) {
	s := started(t, 60)
	assert.Zero(t, s.Observe(at(20)))
	assert.Equal(t, time.Hour, s.Observe(at(-40)))
	assert.Equal(t, 40*time.Minute, s.Remaining(at(-40)), "it goes on from where it stood")
	assert.Equal(t, 30*time.Minute, s.Remaining(at(-30)))
	assert.Zero(t, s.Observe(at(-30)), "it is told once")
	assert.Equal(t, time.Hour, s.PutBack())
	// Unseen: a page that was closed meanwhile. It waits too long, never shows more than it is.
	s = started(t, 60)
	assert.Equal(t, time.Hour, s.Remaining(at(-600)))
	assert.Zero(t, s.Over(at(-600)))
}

func TestTrimmedClockIsNoMatter(t *testing.T) {
	s := started(t, 1)
	s.Observe(at(0.5))
	assert.Zero(t, s.Observe(at(0.5).Add(-time.Second)))
	assert.Zero(t, s.PutBack())
	assert.Equal(t, 30*time.Second, s.Remaining(at(0.5).Add(-time.Second)))
}

func TestPausedTimerAndTheClockPutBack(t *testing.T) {
	s := started(t, 60)
	s.Pause(at(20))
	s.Observe(at(30))
	s.Resume(at(-90))
	assert.Equal(t, 40*time.Minute, s.Remaining(at(-90)))
	assert.Equal(t, 2*time.Hour, s.PutBack())
	assert.Equal(t, 40*time.Minute, s.Remaining(at(-200)), "what ran before the pause is not given back")
	assert.Equal(t, 20*time.Minute, s.Ran(at(-200)))
}

func TestMonotonicPartIsDropped(t *testing.T) {
	now := time.Now()
	s, err := timer.Start("a", "A", time.Minute, now)
	require.NoError(t, err)
	// As after a sleep: the wall went on by a minute, the monotonic clock did not.
	assert.True(t, s.Done(now.Round(0).Add(time.Minute)))
}

func TestSoonest(t *testing.T) {
	long, short, standing := started(t, 60), started(t, 30), started(t, 10)
	standing.Pause(at(5))
	list := []timer.Timer{long, short, standing}
	assert.Equal(t, 1, timer.Soonest(list, at(6)))
	assert.Equal(t, 1, timer.Soonest(list, at(90)), "done longest")
	assert.Equal(t, -1, timer.Soonest(list[2:], at(6)))
	assert.Equal(t, -1, timer.Soonest(nil, noon))
}

func TestKeptAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := time.Duration(rapid.Int64Range(1, 7*24*3600).Draw(t, "length")) * time.Second
		s, err := timer.Start("id", rapid.StringMatching(`[a-zé <"]{1,20}`).Draw(t, "name"), length, noon)
		require.NoError(t, err)
		now := noon
		for range rapid.IntRange(0, 6).Draw(t, "steps") {
			now = now.Add(time.Duration(rapid.Int64Range(-3600, 7200).Draw(t, "by")) * time.Second)
			before := s.Remaining(now)
			switch rapid.IntRange(0, 2).Draw(t, "what") {
			case 0:
				s.Pause(now)
			case 1:
				s.Resume(now)
			case 2:
				s.Observe(now)
			}
			left := s.Remaining(now)
			require.True(t, left >= 0 && left <= length, "%v", left)
			require.LessOrEqual(t, left, before, "what has run is not given back")
		}
		read, err := timer.Decode(s.Encode())
		require.NoError(t, err)
		for _, later := range []time.Duration{0, time.Minute, 30 * time.Hour} {
			require.Equal(t, s.Remaining(now.Add(later)), read.Remaining(now.Add(later)))
			require.Equal(t, s.Over(now.Add(later)), read.Over(now.Add(later)))
		}
		require.Equal(t, s.Observe(now.Add(-time.Hour)), read.Observe(now.Add(-time.Hour)))
		require.Equal(t, s.PutBack(), read.PutBack())
	})
}

func TestDamagedIsRefused(t *testing.T) {
	good := started(t, 60)
	for name, text := range map[string]string{
		"empty":          "",
		"not json":       "soak",
		"newer":          strings.Replace(good.Encode(), `"v":1`, `"v":2`, 1),
		"no length":      strings.Replace(good.Encode(), `"length":3600000`, `"length":0`, 1),
		"too long":       strings.Replace(good.Encode(), `"length":3600000`, `"length":604800001`, 1),
		"negative":       strings.Replace(good.Encode(), `"length":3600000`, `"length":-5`, 1),
		"past all years": strings.Replace(good.Encode(), `"seen":`, `"seen":9`, 1),
		"no name":        strings.Replace(good.Encode(), `"name":"Soak"`, `"name":""`, 1),
		"long name":      strings.Replace(good.Encode(), `"Soak"`, `"`+strings.Repeat("x", 200)+`"`, 1),
		"no id":          strings.Replace(good.Encode(), `"soak.1"`, `""`, 1),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := timer.Decode(text)
			assert.ErrorContains(t, err, "timer: ")
		})
	}
	_, err := timer.Start("a", "A", 8*24*time.Hour, noon)
	assert.ErrorContains(t, err, "length")
}

func TestClockAndWords(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0:00", -time.Hour: "0:00", time.Millisecond: "0:01", 59*time.Second + time.Millisecond: "1:00",
		245 * time.Second: "4:05", time.Hour: "1:00:00", 3845 * time.Second: "1:04:05", 100 * time.Hour: "100:00:00",
	} {
		assert.Equal(t, want, timer.Clock(d))
	}
	for d, want := range map[time.Duration]string{
		59 * time.Second: "less than a minute", time.Minute: "1\u202fmin", time.Hour: "1\u202fh", 65 * time.Minute: "1\u202fh 5\u202fmin",
	} {
		assert.Equal(t, want, timer.Words(d))
	}
}

// TestClockDecadesAheadAndBack: a clock that was decades ahead for a moment, as one with
// an empty battery may be, and then put right.
func TestClockDecadesAheadAndBack(t *testing.T) {
	s := started(t, 60)
	s.Observe(noon.AddDate(90, 0, 0))
	assert.True(t, s.Done(noon.AddDate(90, 0, 0)))
	assert.Positive(t, s.Observe(at(5)))
	again, err := timer.Decode(s.Encode())
	require.NoError(t, err, "it outlives a reload")
	assert.True(t, again.Done(at(5)), "who may be late is told to look at another clock, not to wait")
	for range 9 {
		s.Observe(noon.AddDate(90, 0, 0))
		s.Observe(at(5))
	}
	again, err = timer.Decode(s.Encode())
	require.NoError(t, err)
	assert.Equal(t, s.PutBack(), again.PutBack())
}
