package sound

import (
	"math"
	"slices"

	"rosesalt/chem/quantity"
)

// Bubble is one that was heard, or added by hand.
type Bubble struct {
	At       Second
	Pitch    Hertz      // zero where only its moment is known
	Radius   Millimetre // of the sphere that rings so
	Volume   quantity.Millilitre
	Loudness Decibel // of its loudest moment
	Sure     float64 // 0 to 1: how likely it is a bubble at all
	ByHand   bool
}

// Span is a stretch of the recording.
type Span struct {
	From, Until Second
	Why         string // why it is not trusted; blank where it is
}

// Level is one column of the picture of loudness: between At and the next column's At.
type Level struct {
	At         Second
	Mean, Peak Decibel // -100 where it is silent
	BubbleBand Decibel // of the pitches that bubbles have
}

// Point of the gas over time.
type Point struct {
	At      Second
	Bubbles float64 // so far
	Rate    float64 // a second, about this moment
	Gas     Band    // mmol of SO2 so far
}

// Sizes of the bubbles that have a pitch.
type Sizes struct {
	Radius Band    // middle one with the tenth and ninetieth hundredth, mm
	Pitch  Band    // likewise, Hz
	Volume Band    // likewise, mL
	Mean   float64 // mean volume, mL
}

// Result is what was heard. Where Trouble is not blank the recording cannot be counted
// and says why in a sentence; Bubbles then holds what was found all the same.
type Result struct {
	Settings Settings
	Length   Second
	Trouble  string
	Notices  []string // sentences: what the count leaves out, where it is weak
	Spans    []Span   // trusted and not, end to end
	Bubbles  []Bubble
	Count    Band // in the whole recording; stretches not trusted at the rate beside them
	Rate     Band // a second, mean
	Sizes    Sizes
	Volume   Band // mL in bubbles, air and all
	Gas      Band // mmol of SO2
	Over     []Point
	Levels   []Level // at most MostLevels
}

// MostLevels bounds the picture's columns, MostPoints those of the gas over time.
const (
	MostLevels = 4000
	MostPoints = 400
)

// With is the result when these are the bubbles: the machine's after some were taken away
// or added by hand. Spans, levels and trouble stay.
func (r Result) With(bubbles []Bubble) Result {
	r.Bubbles = slices.Clone(bubbles)
	slices.SortStableFunc(r.Bubbles, func(a, b Bubble) int {
		switch {
		case a.At < b.At:
			return -1
		case a.At > b.At:
			return 1
		}
		return 0
	})
	r.reckon()
	return r
}

// Add is the result with a bubble more at a moment, of the middle size.
func (r Result) Add(at Second) Result {
	b := Bubble{At: at, Sure: 1, ByHand: true}
	return r.With(append(slices.Clone(r.Bubbles), b))
}

// Remove is the result without its i-th bubble.
func (r Result) Remove(i int) Result {
	return r.With(slices.Delete(slices.Clone(r.Bubbles), i, i+1))
}

// Nearest is the index of the bubble nearest to a moment, if one lies within so many
// seconds of it.
func (r Result) Nearest(at, within Second) (i int, ok bool) {
	best := float64(within)
	for j, b := range r.Bubbles {
		if d := math.Abs(float64(b.At - at)); d <= best {
			i, ok, best = j, true, d
		}
	}
	return i, ok
}

// Met is when the demand in mmol is met, in minutes from the beginning of the recording:
// ok is false where it is not met within it. Low is the earliest.
func (r Result) Met(demand float64) (minutes Band, ok bool) {
	at := func(gas func(Point) float64) float64 {
		before := Point{}
		for _, p := range r.Over {
			if g := gas(p); g >= demand {
				from := gas(before)
				if g == from {
					return float64(p.At) / 60
				}
				return float64(before.At+Second((demand-from)/(g-from))*(p.At-before.At)) / 60
			}
			before = p
		}
		return math.Inf(1)
	}
	minutes = Band{
		at(func(p Point) float64 { return p.Gas.High }),
		at(func(p Point) float64 { return p.Gas.Best }),
		at(func(p Point) float64 { return p.Gas.Low }),
	}
	return minutes, !math.IsInf(minutes.Best, 1)
}

// reckon fills what follows from the bubbles.
func (r *Result) reckon() {
	l := r.Settings.Line
	var pitches []float64
	for _, b := range r.Bubbles {
		if b.Pitch > 0 {
			pitches = append(pitches, float64(b.Pitch))
		}
	}
	slices.Sort(pitches)
	middle := Hertz(0)
	if n := len(pitches); n > 0 {
		middle = Hertz(pitches[n/2])
	}
	total := 0.0
	var volumes, radii []float64
	r.Over = nil
	for i := range r.Bubbles {
		b := &r.Bubbles[i]
		f := b.Pitch
		if f == 0 {
			f = middle
		}
		if f > 0 {
			b.Radius = l.Radius(f, l.airShare(total))
			b.Volume = quantity.Millilitre(b.Radius.Millilitres())
		}
		total += float64(b.Volume)
		volumes, radii = append(volumes, float64(b.Volume)), append(radii, float64(b.Radius))
	}
	slices.Sort(volumes)
	slices.Sort(radii)
	quantile := func(x []float64) Band {
		if len(x) == 0 {
			return Band{}
		}
		at := func(p float64) float64 { return x[int(p*float64(len(x)-1)+0.5)] }
		return Band{at(0.1), at(0.5), at(0.9)}
	}
	r.Sizes = Sizes{Radius: quantile(radii), Pitch: quantile(pitches), Volume: quantile(volumes)}
	n := float64(len(r.Bubbles))
	if n > 0 {
		r.Sizes.Mean = total / n
	}
	r.Count = Band{n * 0.95, n, n * 1.05}
	if r.Length > 0 {
		r.Rate = r.Count.Times(1 / float64(r.Length))
	}
	r.Volume = Exactly(total).By(r.Settings.Scale)
	r.Gas, _ = l.Amount(r.Volume)
	step := r.Length / MostPoints
	j, sum := 0, 0.0
	for i := 1; i <= MostPoints && step > 0; i++ {
		p := Point{At: step * Second(i)}
		before := j
		for j < len(r.Bubbles) && r.Bubbles[j].At <= p.At {
			sum += float64(r.Bubbles[j].Volume)
			j++
		}
		p.Bubbles, p.Rate = float64(j), float64(j-before)/float64(step)
		p.Gas, _ = l.Amount(Exactly(sum).By(r.Settings.Scale))
		r.Over = append(r.Over, p)
	}
}
