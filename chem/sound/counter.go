package sound

import "fmt"

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
	return &Counter{settings: s, rate: rate}, nil
}

// Write hears samples, one channel, full scale ±1. What is not a number counts as silence.
func (c *Counter) Write(samples []float32) {
	c.samples += len(samples)
}

// Progress so far.
func (c *Counter) Progress() Progress {
	return Progress{Heard: Second(float64(c.samples) / float64(c.rate))}
}

// Finish ends the count. The counter is used up.
func (c *Counter) Finish() Result {
	r := Result{Settings: c.settings, Length: c.Progress().Heard}
	if c.samples == 0 {
		r.Trouble = "This recording cannot be counted, because it is empty."
	}
	r.reckon()
	return r
}
