package sound

import (
	"fmt"
	"math"
)

// Settings of a Counter.
type Settings struct {
	Outlet Outlet
	// Scale is the true volume of a bubble over that of the sphere of its pitch, see
	// Outlet.VolumeUncertainty.
	Scale Band
}

// UsualSettings are those for a line on which no bubble was measured.
func UsualSettings(l Outlet) Settings {
	return Settings{Outlet: l, Scale: l.VolumeUncertainty()}
}

// lowest and highest bound the pitches that are listened for: bubbles of about 1.5 to 10 mm radius
// lie between.
const lowest, highest Hertz = 300, 5000

// VolumeUncertainty is the factor between a bubble's true volume and that of the sphere of
// its pitch. It covers the shape of a bubble that has just detached and the tube beside it
// (estimate: 5 % of the pitch, which is 15 % of the volume), a glass wall two radii away,
// which lowers the pitch, and the surface over the mouth, which raises it, all computed for
// a bubble of 4 mm.
func (l Outlet) VolumeUncertainty() Band {
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
	find     *finder
	loudness loudness
	clipped  int
	loudest  float32

	// Pause is called by Finish between steps that take some milliseconds each, so that others
	// can have their turn; nil for none.
	Pause func()
}

// Rates that a Counter takes, in samples a second.
const (
	LowestRate  = 8000
	HighestRate = 192000
)

// heldClearly is the share of the rate of samples up to which a recording holds pitches clearly.
const heldClearly = 0.45

// NewCounter begins a count of samples that come at a rate, in samples a second.
func NewCounter(rate int, s Settings) (*Counter, error) {
	if rate < LowestRate || rate > HighestRate {
		return nil, fmt.Errorf("sound: %d samples a second are outside %d to %d", rate, LowestRate, HighestRate)
	}
	if err := s.Outlet.Check(); err != nil {
		return nil, err
	}
	if b := s.Scale; !(b.Low > 0 && b.Low <= b.Best && b.Best <= b.High) {
		return nil, fmt.Errorf("sound: scale %g (%g to %g) is not a factor with an interval", b.Best, b.Low, b.High)
	}
	c := &Counter{settings: s, rate: rate, find: newFinder(rate, min(highest, Hertz(heldClearly*float64(rate))))}
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
		if power, ok := c.find.push(float64(x)); ok {
			c.loudness.ring(power)
		}
		c.samples++
		if float64(c.samples)/float64(c.rate) >= c.loudness.until {
			c.loudness.column()
		}
	}
}

// Progress is how far the count is.
func (c *Counter) Progress() Progress {
	return Progress{Heard: Second(float64(c.samples) / float64(c.rate)), Bubbles: c.find.clear}
}

// Finish ends the count and gives its result. The counter must not be used afterwards.
func (c *Counter) Finish() Result {
	r := Result{Settings: c.settings, Length: c.Progress().Heard, Levels: c.loudness.levels()}
	c.find.settle(math.Inf(1))
	switch {
	case c.samples == 0:
		r.Trouble = "it is empty."
	case r.Length < shortest:
		r.Trouble = fmt.Sprintf("it lasts %.1f s; give it %g s or more.", float64(r.Length), shortest)
	case c.loudest < silent:
		r.Trouble = "it is silent: was the microphone off?"
	}
	r.clipped = float64(c.clipped) / float64(max(1, c.samples))
	pause := func() {}
	if c.Pause != nil {
		pause = c.Pause
	}
	r.conclude(c.find, pause)
	if r.Trouble != "" {
		r.Trouble = "This recording cannot be counted, because " + r.Trouble
	}
	return r
}

// conclude judges what was found, unless there is trouble already, and fills the result.
func (r *Result) conclude(f *finder, pause func()) {
	found := f.found
	if r.clipped > overdriven {
		for i := range found {
			found[i].slow = false // rings with flat tops last longer
		}
		r.Notices = append(r.Notices, "The recording is overdriven: move the microphone away.")
	}
	j := judge(found, float64(r.Length), f.bands[1].to, pause)
	if r.Trouble == "" {
		r.Trouble = j.trouble
	}
	r.Spans = j.spans(r.Length)
	if r.Trouble == "" {
		for _, s := range j.kept {
			if float64(s.snr) < faintness[0] {
				r.dim += 1 / float64(len(j.kept))
			}
			r.Bubbles = append(r.Bubbles, Bubble{
				At:       Second(math.Max(0, float64(s.at))),
				Pitch:    Hertz(s.pitch),
				Loudness: decibel(2 * float64(s.power)),
				Sure:     float64(s.sure),
			})
		}
		r.lost, r.others = j.lost(), float64(j.beside)
		r.left = j.left
	}
	pause()
	r.derive()
	if r.Trouble == "" {
		if c := r.counted(); c.overlaid+math.Sqrt(c.overlaidVar) > mostOverlaid*c.listed {
			r.Trouble = fmt.Sprintf("its bubbles come so fast, %.0f and more a second, that too many hide in the ring of others: a slower flame or a smaller tube helps.", float64(len(r.Bubbles))/float64(r.Length))
			r.Bubbles = nil
			r.derive()
			return
		}
		r.notice()
	}
}

// overdriven is the share of samples at full scale from which a recording is (estimate).
const overdriven = 1e-3

// mostOverlaid is the largest share of bubbles hidden in the ring of others, of those heard,
// that is reckoned (estimate).
const mostOverlaid = 0.2

// The shortest recording that is counted, in seconds, and the size of its loudest sample below which
// it counts as silent (-76 dB).
const (
	shortest = 2.0
	silent   = 1.6e-4
)
