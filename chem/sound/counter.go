package sound

import (
	"fmt"
	"math"

	"rosesalt/chem/quantity"
)

// Settings of a Counter.
type Settings struct {
	Line Line
	// Lowest and Highest bound the pitches that are analysed; the usual ones cover bubbles
	// of about 1.5 to 10 mm radius.
	Lowest, Highest Hertz
	// Scale is the true volume of a bubble over that of the sphere of its pitch, see
	// Line.VolumeUncertainty; a calibration makes it narrower.
	Scale Band
}

// UsualSettings are those for a line that nothing was calibrated on.
func UsualSettings(l Line) Settings {
	return Settings{Line: l, Lowest: 300, Highest: 2500, Scale: l.VolumeUncertainty()}
}

// Calibrated gives settings with the Scale that a measurement tells: caught is the volume of
// a bubble caught under water, in mL, heard the mean volume by pitch in a recording made
// beside it.
func (s Settings) Calibrated(caught Band, heard quantity.Millilitre) Settings {
	if heard > 0 {
		s.Scale = caught.Times(1 / float64(heard))
	}
	return s
}

// VolumeUncertainty is the factor between a bubble's true volume and that of the sphere of
// its pitch. It covers the shape of a bubble that has just detached and the tube beside it
// (estimate: 5 % of the pitch, which is 15 % of the volume), a glass wall two radii away,
// which lowers the pitch, and the surface over the mouth, which raises it, all computed for
// a bubble of 4 mm.
func (l Line) VolumeUncertainty() Band {
	const radius = 4
	low := math.Pow(WallFactor(radius, 2*radius), 3)
	high := math.Pow(SurfaceFactor(radius, l.Depth+radius), 3)
	shape := Band{1 / 1.15, 1, 1.15}
	return shape.By(Band{low, 1, 1}).By(Band{1, 1, high})
}

// Progress is how far a Counter is. Until the end, when all starts are judged together,
// each that looks like a bubble by itself counts as one.
type Progress struct {
	Heard   Second
	Bubbles int
}

// Counter counts the bubbles in a recording. Its memory grows by some tens of bytes for
// each bubble, and not with the length.
type Counter struct {
	settings Settings
	rate     int
	samples  int
	down     *decimator
	find     *finder
	loudness loudness
	clipped  int
	loudest  float32
}

// Rates that a Counter takes, in samples a second.
const (
	LowestRate  = 8000
	HighestRate = 192000
)

// NewCounter begins a count of samples that come at a rate, in samples a second.
func NewCounter(rate int, s Settings) (*Counter, error) {
	if rate < LowestRate || rate > HighestRate {
		return nil, fmt.Errorf("sound: %d samples a second are outside %d to %d", rate, LowestRate, HighestRate)
	}
	if err := s.Line.Check(); err != nil {
		return nil, err
	}
	if !(s.Lowest >= 100 && s.Highest <= 2500 && s.Highest >= 2*s.Lowest) {
		return nil, fmt.Errorf("sound: pitches %g to %g Hz are outside 100 to 2500, or less than an octave", float64(s.Lowest), float64(s.Highest))
	}
	if b := s.Scale; !(b.Low > 0 && b.Low <= b.Best && b.Best <= b.High) {
		return nil, fmt.Errorf("sound: scale %g (%g to %g) is not a factor with an interval", b.Best, b.Low, b.High)
	}
	c := &Counter{settings: s, rate: rate, down: newDecimator(rate, float64(s.Highest))}
	c.find = newFinder(float64(rate)/float64(c.down.factor), s.Lowest, s.Highest)
	c.loudness.span, c.loudness.until = 0.02, 0.02
	return c, nil
}

// Write takes samples of one channel, full scale ±1. What is not a number counts as
// silence.
func (c *Counter) Write(samples []float32) {
	for _, x := range samples {
		if !(x >= -8 && x <= 8) { // not a number, or no sound
			x = 0
		}
		size := max(x, -x)
		if size >= 0.999 {
			c.clipped++
		}
		c.loudest = max(c.loudest, size)
		c.loudness.hear(float64(x))
		y, ok := c.down.push(float64(x))
		if ok && c.find.push(y) {
			c.loudness.ring(c.find.bandPower())
		}
		c.samples++
		if float64(c.samples)/float64(c.rate) >= c.loudness.until {
			c.loudness.column()
		}
	}
}

// Progress is how far the count is.
func (c *Counter) Progress() Progress {
	return Progress{Heard: Second(float64(c.samples) / float64(c.rate)), Bubbles: len(c.find.found)}
}

// Finish ends the count and gives its result. The counter must not be used afterwards.
func (c *Counter) Finish() Result {
	r := Result{Settings: c.settings, Length: c.Progress().Heard, Levels: c.loudness.levels()}
	c.find.settle(math.Inf(1))
	j := judge(c.find.found, float64(r.Length), c.settings.Lowest, c.settings.Highest)
	switch {
	case c.samples == 0:
		j.trouble = "This recording cannot be counted, because it is empty."
	case r.Length < shortest:
		j.trouble = fmt.Sprintf("This recording cannot be counted, because it lasts %.1f s; give it %g s or more.", float64(r.Length), shortest)
	case c.loudest < silent:
		j.trouble = "This recording cannot be counted, because it is silent: was the microphone off?"
	}
	r.Trouble, r.Spans = j.trouble, j.spans(r.Length)
	if r.Trouble == "" {
		late := c.down.delay(c.rate)
		for _, s := range j.kept {
			r.Bubbles = append(r.Bubbles, Bubble{
				At:       Second(math.Max(0, float64(s.at)-late)),
				Pitch:    Hertz(s.pitch),
				Loudness: decibel(2 * float64(s.power)),
				Sure:     float64(s.sure),
			})
			if float64(s.snr) < 2*j.least {
				r.faint++
			}
		}
		if r.clipped = float64(c.clipped) / float64(c.samples); r.clipped > 1e-3 {
			r.Notices = append(r.Notices, "The recording is overdriven: move the microphone away.")
		}
	}
	r.derive()
	if r.Trouble == "" {
		r.notice()
	}
	return r
}

// What is too little to listen to: seconds, and the loudest sample (-76 dB).
const (
	shortest = 2.0
	silent   = 1.6e-4
)
