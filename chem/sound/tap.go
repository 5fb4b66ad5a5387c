package sound

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Tap is one press, which stands for one, five or ten bubbles.
type Tap struct {
	At      Second
	Bubbles int
}

// Session is a stretch in which every bubble was tapped. From is when counting began: the
// moment of the start button, or that of a first tap that is then not in Taps. A tap for
// five or ten is pressed at the last of them.
type Session struct {
	From, Until Second
	Taps        []Tap
}

// Bubbles is how many were counted in the session.
func (s Session) Bubbles() int {
	n := 0
	for _, t := range s.Taps {
		n += t.Bubbles
	}
	return n
}

// reaction is how far a start or a stop by hand may be off, seconds (estimate).
const reaction = 0.3

// confidence of all intervals.
const confidence = 0.8

// Poisson is the exact interval of the mean at eight in ten, when n events were counted.
func Poisson(n int) Band { return PoissonAt(n, confidence) }

// PoissonAt is Poisson at a two-sided confidence between 0 and 1 (Garwood,
// Biometrika 28 (1936) 437): halves of quantiles of chi-squared. Best is the count.
func PoissonAt(n int, confidence float64) Band {
	b := Band{Best: float64(n)}
	tail := (1 - confidence) / 2
	if n > 0 {
		b.Low = distuv.ChiSquared{K: 2 * float64(n)}.Quantile(tail) / 2
	}
	b.High = distuv.ChiSquared{K: 2*float64(n) + 2}.Quantile(1-tail) / 2
	return b
}

// Rate is that of the session, bubbles a second: the exact interval of the count over a
// duration whose two ends may each be off by a reaction time.
func (s Session) Rate() Band {
	length := float64(s.Until - s.From)
	if !(length > 0) {
		return Band{}
	}
	n := Poisson(s.Bubbles())
	off := math.Hypot(reaction, reaction) / length
	r := n.Times(1 / length)
	if r.Best == 0 {
		return Band{0, 0, r.High * (1 + off)}
	}
	return r.By(Band{1 / (1 + off), 1, 1 + off})
}

// Tapping is gas counted by hand, in one session or in several short ones. Between sessions
// the rate is taken to change linearly, before the first and after the last to be constant.
type Tapping struct {
	Outlet   Outlet
	Bubble   Band   // one bubble in mL: Detached, Caught or an estimate
	Began    Second // when the gas began to come
	Sessions []Session
}

// Tally is the result of tapping up to a moment.
type Tally struct {
	At      Second
	Counted int  // bubbles tapped
	Rate    Band // bubbles a second, of the last session
	Passed  Band // bubbles since the gas began, tapped or not
	Volume  Band // mL in bubbles, air and all
	Gas     Band // mmol of SO2
	Stream  Band // mmol of SO2 a minute, at the last session's rate

	line Outlet
	flow Band // mL of bubbles a minute, at the last session's rate
	per  Band // mmol in a mL without air
}

// At gives the tally at a moment. Sessions follow one another; what lies later than the
// moment is left out.
func (t Tapping) At(now Second) (Tally, error) {
	y := Tally{At: now, line: t.Outlet}
	if err := t.check(); err != nil {
		return y, err
	}
	var sessions []Session
	for _, s := range t.Sessions {
		if s.From >= now {
			break
		}
		sessions = append(sessions, s.before(now))
	}
	if len(sessions) == 0 {
		return y, nil
	}
	var low, high float64 // squares of distances
	for i, s := range sessions {
		// Each session's rate stands for the time nearest to it.
		r, share := s.Rate(), t.share(sessions, i, now)
		n := s.Bubbles()
		y.Counted += n
		y.Passed.Best += r.Best * share
		low += math.Pow((r.Best-r.Low)*(share-float64(s.Until-s.From)), 2)
		high += math.Pow((r.High-r.Best)*(share-float64(s.Until-s.From)), 2)
	}
	y.Passed.Low, y.Passed.High = y.Passed.Best-math.Sqrt(low), y.Passed.Best+math.Sqrt(high)
	y.Passed.Low = math.Max(y.Passed.Low, float64(y.Counted))
	y.Rate = sessions[len(sessions)-1].Rate()
	y.Volume = y.Passed.By(t.Bubble)
	var err error
	if y.Gas, err = t.Outlet.Amount(y.Volume); err != nil {
		return y, err
	}
	if y.per, err = t.Outlet.perMillilitre(); err != nil {
		return y, err
	}
	y.flow = y.Rate.Times(60).By(t.Bubble)
	y.Stream = y.flow.By(y.per).Times(1 - t.Outlet.airShare(y.Volume.Best))
	return y, nil
}

// before is the part of a session that lies before a moment.
func (s Session) before(now Second) Session {
	if s.Until <= now {
		return s
	}
	c := Session{From: s.From, Until: now}
	for _, t := range s.Taps {
		if t.At <= now {
			c.Taps = append(c.Taps, t)
		}
	}
	return c
}

// share is the time for which a session's rate stands: its own, and half of the gap to
// each neighbour; from the beginning for the first, until now for the last.
func (t Tapping) share(s []Session, i int, now Second) float64 {
	from, until := t.Began, now
	if i > 0 {
		from = (s[i-1].Until + s[i].From) / 2
	}
	if i < len(s)-1 {
		until = (s[i].Until + s[i+1].From) / 2
	}
	return float64(until - from)
}

func (t Tapping) check() error {
	if err := t.Outlet.Check(); err != nil {
		return err
	}
	if b := t.Bubble; !(b.Low > 0 && b.Low <= b.Best && b.Best <= b.High) {
		return fmt.Errorf("sound: bubble of %g mL (%g to %g) is not a volume with an interval", b.Best, b.Low, b.High)
	}
	last := t.Began
	for _, s := range t.Sessions {
		if s.From < last || s.Until < s.From {
			return fmt.Errorf("sound: session from %g to %g s does not follow what was before", float64(s.From), float64(s.Until))
		}
		last = s.Until
		at := s.From
		for _, p := range s.Taps {
			if p.Bubbles < 1 || p.At < at || p.At > s.Until {
				return fmt.Errorf("sound: tap for %d bubbles at %g s does not fit its session", p.Bubbles, float64(p.At))
			}
			at = p.At
		}
	}
	return nil
}

// Left is the minutes until the demand in mmol is met, if bubbles keep coming at the last
// session's rate with less and less air in them; zero once it is met. The high end is
// infinite where the gas may have stopped.
func (y Tally) Left(demand float64) Band {
	at := func(gas, volume, flow, per float64, plug bool) float64 {
		switch {
		case gas >= demand:
			return 0
		case flow <= 0:
			return math.Inf(1)
		}
		return math.Max(0, y.line.volumeOf(demand/per, plug)-volume) / flow
	}
	return Band{
		at(y.Gas.High, y.Volume.High, y.flow.High, y.per.High, false),
		at(y.Gas.Best, y.Volume.Best, y.flow.Best, y.per.Best, false),
		at(y.Gas.Low, y.Volume.Low, y.flow.Low, y.per.Low, true),
	}
}

// The least bubbles and seconds of a session whose rate is of use (estimates: the rate of ten
// bubbles is good to two fifths, and a hand's reaction is too large a part of less than half
// a minute).
const (
	tellingBubbles        = 10
	tellingTime    Second = 30
)

// LongEnough tells whether the session is long enough for its rate to be of use.
func (s Session) LongEnough() bool {
	return s.Bubbles() >= tellingBubbles && s.Until-s.From >= tellingTime
}
