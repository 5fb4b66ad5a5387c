package sound

import (
	"fmt"
	"math"
)

// Settings of a Counter.
type Settings struct {
	Line Line
	// Lowest and Highest are the pitches listened to; the usual ones hold bubbles of
	// about 1.5 to 10 mm radius.
	Lowest, Highest Hertz
	// Scale is the true volume of a bubble over that of the sphere that its pitch
	// tells, see Unknown; a calibration makes it narrower.
	Scale Band
}

// Usual settings for a line.
func Usual(l Line) Settings {
	return Settings{Line: l, Lowest: 300, Highest: 2500, Scale: Unknown}
}

// Unknown is what the method does not know of a bubble's volume (estimate).
var Unknown = Band{0.75, 1, 1.3}

// Progress of a Counter.
type Progress struct {
	Heard   Second
	Bubbles int
}

// Counter listens to a recording. Its memory does not grow with the length, but for some
// tens of bytes a bubble.
type Counter struct {
	settings Settings
	rate     int
	samples  int
	down     *decimator
	find     *finder
}

// Rates that a Counter takes, in samples a second.
const (
	LowestRate  = 8000
	HighestRate = 192000
)

// NewCounter begins a count at a rate in samples a second.
func NewCounter(rate int, s Settings) (*Counter, error) {
	if rate < LowestRate || rate > HighestRate {
		return nil, fmt.Errorf("sound: %d samples a second are outside %d to %d", rate, LowestRate, HighestRate)
	}
	if err := s.Line.Check(); err != nil {
		return nil, err
	}
	c := &Counter{settings: s, rate: rate, down: newDecimator(rate, float64(s.Highest))}
	c.find = newFinder(float64(rate)/float64(c.down.factor), s.Lowest, s.Highest)
	return c, nil
}

// Write hears samples, one channel, full scale ±1. What is not a number counts as silence.
func (c *Counter) Write(samples []float32) {
	for _, x := range samples {
		if x != x {
			x = 0
		}
		if y, ok := c.down.push(float64(x)); ok {
			c.find.push(y)
		}
	}
	c.samples += len(samples)
}

// Progress so far.
func (c *Counter) Progress() Progress {
	return Progress{Heard: Second(float64(c.samples) / float64(c.rate)), Bubbles: len(c.find.found)}
}

// Finish ends the count. The counter is used up.
func (c *Counter) Finish() Result {
	r := Result{Settings: c.settings, Length: c.Progress().Heard}
	c.find.settle(math.Inf(1))
	j := judge(c.find.found, float64(r.Length), c.settings.Lowest, c.settings.Highest)
	r.Trouble = j.trouble
	r.Spans = j.spans(r.Length)
	for _, s := range j.kept {
		r.Bubbles = append(r.Bubbles, Bubble{At: Second(s.at), Pitch: Hertz(s.pitch), Loudness: Decibel(10 * math.Log10(2*float64(s.power))), Sure: 1})
	}
	r.reckon()
	return r
}
