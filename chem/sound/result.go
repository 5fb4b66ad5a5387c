package sound

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"rosesalt/chem/quantity"
)

// Bubble is one that was heard, or added by hand.
type Bubble struct {
	At       Second
	Pitch    Hertz      // zero where only its moment is known
	Radius   Millimetre // of the sphere that rings so
	Volume   quantity.Millilitre
	Loudness Decibel // of its loudest moment
	Sure     float64 // 0 to 1: the probability that it is a bubble
	ByHand   bool
}

// Span is a stretch of the recording.
type Span struct {
	From, Until Second
	Why         string // why it is not trusted; empty where it is
}

// Level is one column of the loudness: between At and the next column's At.
type Level struct {
	At         Second
	Mean, Peak Decibel // -100 where it is silent
	BubbleBand Decibel // of the pitches that bubbles have
}

// Point is the count at one moment of a recording.
type Point struct {
	At      Second
	Bubbles float64 // so far
	Rate    float64 // bubbles a second around this moment
	Gas     Band    // mmol of SO2 so far
}

// Sizes are those of the bubbles that have a pitch.
type Sizes struct {
	Radius Band    // median with the 10th and 90th percentile, mm
	Pitch  Band    // likewise, Hz
	Volume Band    // likewise, mL
	Mean   float64 // mean volume, mL
}

// Result is what was counted in a recording. Where it cannot be counted, Trouble says why in
// a sentence, and there are no bubbles but those added by hand.
type Result struct {
	Settings Settings
	Length   Second
	Trouble  string
	Notices  []string // sentences: what the count leaves out, where it is weak
	Spans    []Span   // trusted and not, end to end
	Bubbles  []Bubble
	Count    Band // in the whole recording; spans not trusted count at the rate beside them
	Rate     Band // a second, mean
	Sizes    Sizes
	Volume   Band // mL in bubbles, air and all
	Gas      Band // mmol of SO2
	Over     []Point
	Levels   []Level // at most MostLevels

	lost    float64 // share of the bubbles that noise hides
	left    float64 // bubbles among fainter starts that were left out
	dim     float64 // share of the bubbles that are faint
	others  float64 // clear starts whose pitch is not that of the bubbles; they may be bubbles or not
	clipped float64 // share of the samples that are at full scale
}

// Limits beyond which a count is only the least there were: bubbles that noise hides as a
// share of all, and samples at full scale (estimates from synthetic recordings).
const (
	mostLost    = 0.18
	mostLeft    = 0.25
	mostClipped = 0.05
	mostDim     = 0.7 // share of the bubbles that are faint
)

// LeastOnly tells whether so many bubbles are lost, in noise or because the recording is
// overdriven, that the count is only the least there were: the high ends of count, rate,
// volume and gas do not hold then.
func (r Result) LeastOnly() bool {
	return r.left > mostLeft*float64(len(r.Bubbles)) || r.clipped > mostClipped || r.lost > mostLost || r.clipped > overdriven && r.lost > mostLost/4 ||
		r.dim > mostDim
}

// MostLevels is the most columns of loudness, MostPoints the most points of the gas over
// time.
const (
	MostLevels = 4000
	MostPoints = 400
)

// With is the result with another list of bubbles, to which some were added or from which
// some were removed by hand. Levels and Trouble stay. A span that was not trusted counts as
// trusted once a bubble was added in it by hand.
func (r Result) With(bubbles []Bubble) Result {
	r.Bubbles = slices.Clone(bubbles)
	slices.SortStableFunc(r.Bubbles, func(a, b Bubble) int { return cmp.Compare(a.At, b.At) })
	r.derive()
	return r
}

// Add is the result with one more bubble at a moment, of the median pitch.
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

// Trusted is how much of the recording is trusted, 0 to 1.
func (r Result) Trusted() float64 {
	if r.Length <= 0 {
		return 0
	}
	sum := Second(0)
	for _, s := range r.Spans {
		if s.Why == "" {
			sum += s.Until - s.From
		}
	}
	return float64(sum / r.Length)
}

// Met is when the gas reaches the demand in mmol, in minutes from the beginning of the
// recording; Low is the earliest. It is not ok where the recording ends before.
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

// derive fills what follows from the bubbles.
func (r *Result) derive() {
	r.size()
	c := r.counted()
	r.Count = c.band()
	r.Rate, r.Volume, r.Gas, r.Over = Band{}, Band{}, Band{}, nil
	if r.Length <= 0 || len(r.Bubbles) == 0 {
		return
	}
	r.Rate = r.Count.Times(1 / float64(r.Length))
	r.Volume = r.Count.Times(r.Sizes.Mean).By(r.Settings.Scale).By(polytropic)
	// The settings were checked when the counter was made, so the line has an amount.
	r.Gas, _ = r.Settings.Outlet.Amount(r.Volume)
	r.trace(c)
}

// polytropic is the uncertainty of the volume, as a factor, by heat that flows in and out of
// the bubble: under 1 % at these sizes (Prosperetti, J. Acoust. Soc. Am. 61 (1977) 17, read
// in a transcription), and by the stiffness of the gas itself (estimate).
var polytropic = Band{0.98, 1, 1.01}

// size gives each bubble its radius and volume. The first gas is mostly air, and γ follows
// its share.
func (r *Result) size() {
	l := r.Settings.Outlet
	var pitches, radii, volumes []float64
	for _, b := range r.Bubbles {
		if b.Pitch > 0 {
			pitches = append(pitches, float64(b.Pitch))
		}
	}
	slices.Sort(pitches)
	total := 0.0
	for i := range r.Bubbles {
		b := &r.Bubbles[i]
		pitch := b.Pitch
		if pitch == 0 && len(pitches) > 0 {
			pitch = Hertz(pitches[len(pitches)/2])
		}
		if pitch > 0 {
			b.Radius = l.Radius(pitch, l.airShare(total))
			b.Volume = quantity.Millilitre(b.Radius.Millilitres())
		}
		total += float64(b.Volume)
		radii, volumes = append(radii, float64(b.Radius)), append(volumes, float64(b.Volume))
	}
	slices.Sort(radii)
	slices.Sort(volumes)
	r.Sizes = Sizes{Radius: tenths(radii), Pitch: tenths(pitches), Volume: tenths(volumes)}
	if len(volumes) > 0 {
		r.Sizes.Mean = total / float64(len(volumes))
	}
}

// tenths gives the median, the 10th and the 90th percentile of sorted numbers.
func tenths(sorted []float64) Band {
	if len(sorted) == 0 {
		return Band{}
	}
	at := func(p float64) float64 { return sorted[int(p*float64(len(sorted)-1)+0.5)] }
	return Band{at(0.1), at(0.5), at(0.9)}
}

// count holds the parts that make up the number of bubbles.
type count struct {
	of          *Result
	listed      float64
	hand        float64
	overlaid    float64 // lost in the ring of one shortly before
	overlaidVar float64 // its variance
	unheard     float64 // in stretches not trusted, at the rate beside them
	nearby      float64 // bubbles that tell that rate
	strays      float64
	deaf        []Span // the spans counted at the rate beside them
	rates       []float64
}

// resolved is the gap after a bubble from which the next one is told apart, in seconds, and
// beyond that the gaps that tell how many were shorter (found on synthetic recordings).
const (
	resolvedLow  = 0.017 // below the seam
	resolvedLong = 0.6   // and no less than this time of decay
	resolvedHigh = 0.4   // above it, in times of decay and over a window
	alike        = 0.25  // difference of the logarithms of sizes below which one hides in the ring of the other
	nearly       = 0.004 // from there on, all are
	beyond       = 0.006
)

func (r *Result) counted() count {
	c := count{of: r, listed: float64(len(r.Bubbles))}
	for _, b := range r.Bubbles {
		if b.ByHand {
			c.hand++
		} else {
			c.strays += 1 - b.Sure
		}
	}
	c.overlaid, c.overlaidVar = r.overlaid()
	for _, s := range r.Spans {
		if s.Why == "" || r.handIn(s) {
			continue
		}
		near, time := r.beside(s)
		rate := 0.0
		if time > 0 {
			rate = near / time
		}
		c.deaf, c.rates = append(c.deaf, s), append(c.rates, rate)
		c.unheard += rate * float64(s.Until-s.From)
		c.nearby = math.Max(c.nearby, near)
	}
	return c
}

// overlaid is how many bubbles are lost in the ring of one alike shortly before, and its
// variance. Where gaps just long enough to be resolved are as frequent as among random
// moments, shorter ones are too, and hide bubbles. One tube alone makes none.
func (r *Result) overlaid() (n, variance float64) {
	sizes := make([]float64, len(r.Bubbles)) // logarithms, in order
	for i, b := range r.Bubbles {
		sizes[i] = math.Log(math.Max(1e-3, float64(b.Radius)))
	}
	slices.Sort(sizes)
	time := math.Max(1, float64(r.Length)*r.Trusted())
	hidden, due, short, close := 0.0, 0.0, 0.0, 0.0
	for i, b := range r.Bubbles {
		size := math.Log(math.Max(1e-3, float64(b.Radius)))
		from, _ := slices.BinarySearch(sizes, size-alike)
		until, _ := slices.BinarySearch(sizes, size+alike)
		rate := float64(until-from) / time // of bubbles alike
		resolved := resolvedLow
		switch {
		case b.Pitch > 0 && b.Pitch < seam:
			resolved = math.Max(resolved, resolvedLong/decay(float64(b.Pitch)))
		case b.Pitch >= seam:
			resolved = highWindow + resolvedHigh/decay(float64(b.Pitch))
		}
		hidden += math.Expm1(rate * (1 + rate*resolved) * resolved)
		low, high := Second(resolved+nearly), Second(resolved+nearly+beyond)
		due += math.Exp(-rate*float64(low)) - math.Exp(-rate*float64(high))
		if i > 0 && float64(b.At-r.Bubbles[i-1].At) < time/2/float64(len(r.Bubbles)) {
			close++
		}
		for k := i - 1; k >= 0 && b.At-r.Bubbles[k].At < high; k-- {
			if math.Abs(math.Log(float64(b.Radius/r.Bubbles[k].Radius))) < alike {
				if b.At-r.Bubbles[k].At >= low {
					short++
				}
				break
			}
		}
	}
	share := math.Min(1, (short+0.5)/(due+1))
	wide := math.Sqrt(short+1) / (due + 1)
	switch off := (short - due) / math.Sqrt(due+1); {
	case due <= 6: // too few to tell; but moments that are not random have hardly a gap below half the mean
		random := math.Min(1, close/float64(len(r.Bubbles))/-math.Expm1(-0.5))
		share, wide = share*random, math.Max(wide, 0.5)*random
	case off > 2: // as after a dead time
		share, wide = 0.5, 0.5
	case off > -1.5:
		share, wide = 1, 0.2
	}
	return share * hidden, wide * wide * hidden * hidden
}

// handIn tells whether a bubble was added by hand within the span.
func (r *Result) handIn(s Span) bool {
	inside := r.Bubbles[r.before(s.From):r.before(s.Until)]
	return slices.ContainsFunc(inside, func(b Bubble) bool { return b.ByHand })
}

// before is how many bubbles come before a moment.
func (r *Result) before(at Second) int {
	i, _ := slices.BinarySearchFunc(r.Bubbles, at, func(b Bubble, at Second) int { return cmp.Compare(b.At, at) })
	return i
}

// notice adds sentences on what makes the count of a recording uncertain.
func (r *Result) notice() {
	n := float64(len(r.Bubbles))
	c := r.counted()
	if r.lost > 0.05 || r.dim > 0.4 {
		r.Notices = append(r.Notices, "Many of the bubbles are hardly louder than the noise, and some are missed: put the microphone nearer.")
	}
	if c.strays > 0.03*n {
		r.Notices = append(r.Notices, fmt.Sprintf("About %.0f of the sounds that are marked may be noise; so many are taken off the count.", c.strays))
	}
	if c.overlaid > 0.05*n {
		r.Notices = append(r.Notices, fmt.Sprintf("The bubbles come so fast that some hide in the ring of others: %.0f are added to the count for them.", c.overlaid))
	}
	if r.Uneven() {
		r.Notices = append(r.Notices, "The bubbles differ much in pitch, as from a funnel. They are counted by their starts, and the gas is their number times the volume of one: catch some to know it.")
	}
	if pace, regular := r.regular(); regular {
		r.Notices = append(r.Notices, "This sounds like "+pace+", as from a tap: is it gas?")
	}
	if r.Rate.Best > phoneMost {
		r.Notices = append(r.Notices, "So many bubbles a second are hardly told apart. A slower flame or a wider tube makes the count surer.")
	}
}

// unevenness is the ratio of the 90th to the 10th percentile of the pitches from which sizes
// are not told by them (estimate: bubbles of one tube stay below it, a funnel's do not).
const unevenness = 1.6

// Uneven tells whether the bubbles differ so much in pitch that their sizes are not told by
// it: bubbles that ring close together, as a funnel's do, change each other's pitch. Then
// only their number times the volume of a bubble that was caught tells the gas.
func (r Result) Uneven() bool { return r.Sizes.Pitch.High > unevenness*r.Sizes.Pitch.Low }

// Drops from a tap fall more regularly than gas comes out of a flask, one in some seconds to
// some a second (estimates).
const (
	dropsMost   = 3.0 // a second
	dropsFewest = 8
	dropsVary   = 0.06 // most of the gaps' standard deviation over their mean
)

// regular tells whether the bubbles come as regularly as drops do, and how fast in words.
func (r *Result) regular() (pace string, ok bool) {
	if len(r.Bubbles) < dropsFewest {
		return "", false
	}
	gaps := make([]float64, len(r.Bubbles)-1)
	for i := range gaps {
		gaps[i] = float64(r.Bubbles[i+1].At - r.Bubbles[i].At)
	}
	mean, off := stat.MeanStdDev(gaps, nil)
	if off > dropsVary*mean || mean*dropsMost < 1 {
		return "", false
	}
	switch {
	case mean > 0.8 && mean < 1.25:
		return "one drop a second", true
	case mean < 1:
		return fmt.Sprintf("%.1f drops a second", 1/mean), true
	}
	return fmt.Sprintf("one drop in %.1f seconds", mean), true
}

// beside counts the bubbles and the trusted time within half a minute of a span; more
// where there is no trusted time so near.
func (r *Result) beside(s Span) (bubbles, time float64) {
	for reach := Second(30); ; reach *= 4 {
		from, until := s.From-reach, s.Until+reach
		bubbles, time = 0, 0
		for _, o := range r.Spans {
			if o.Why != "" {
				continue
			}
			time += math.Max(0, float64(min(until, o.Until)-max(from, o.From)))
		}
		bubbles = float64(r.before(until) - r.before(from))
		if time >= 5 || from < 0 && until > r.Length {
			return bubbles, time
		}
	}
}

// missed is the share of bubbles in the clear that a count misses (found on synthetic
// recordings).
const missed = 0.005

// missedFaint and missedUneven are shares by which a count may be off on either side: of its faint
// starts, and of all where bubbles differ so much that some lie beside the pitches of most.
const (
	missedFaint  = 0.08
	missedUneven = 0.035
)

// band of the count. Strays are taken off, what was lost is added.
func (c count) band() Band {
	heard := c.listed - c.hand
	own := math.Max(0, heard-c.strays+c.overlaid+c.of.others/2)
	hidden := own * c.of.lost / (1 - c.of.lost)
	more := hidden
	if c.of.lost > mostLost {
		hidden = 0
	}
	best := c.hand + own + hidden + c.unheard
	if c.listed == 0 {
		return Band{}
	}
	// Where the rate was heard for a while, the rate beside it is good to its own count
	// and to how steady the gas is (estimate: a fifth).
	apart := 0.0
	if c.unheard > 0 {
		apart = c.unheard * math.Hypot(1.28/math.Sqrt(math.Max(1, c.nearby)), 0.2)
	}
	blur := missedFaint * c.of.dim * heard
	if c.of.Uneven() {
		blur = math.Hypot(blur, missedUneven*heard)
	}
	variance := missed*heard + blur*blur + c.strays + c.overlaid + c.overlaidVar + c.of.others*c.of.others/4 + hidden + hidden*hidden/2 + c.of.left*c.of.left
	off := math.Sqrt(0.25 + 1.1*variance + apart*apart)
	return Band{math.Max(0, best-off), best, best + off + more - hidden}
}

// trace follows bubbles and gas over time, so that both end at the whole.
func (r *Result) trace(c count) {
	known := c.listed + c.unheard
	if known <= 0 {
		return
	}
	scale := r.Count.Best / known
	step := r.Length / MostPoints
	heard, volume, deaf := 0, 0.0, 0.0
	for i := 1; i <= MostPoints; i++ {
		p := Point{At: step * Second(i)}
		before := float64(heard) + deaf
		for heard < len(r.Bubbles) && (r.Bubbles[heard].At <= p.At || i == MostPoints) {
			volume += float64(r.Bubbles[heard].Volume)
			heard++
		}
		deaf = 0
		for k, s := range c.deaf {
			deaf += c.rates[k] * math.Max(0, float64(min(p.At, s.Until)-s.From))
		}
		p.Bubbles = scale * (float64(heard) + deaf)
		p.Rate = scale * (float64(heard) + deaf - before) / float64(step)
		so := r.Volume.Times(scale * (volume + deaf*r.Sizes.Mean) / (r.Count.Best * r.Sizes.Mean))
		p.Gas, _ = r.Settings.Outlet.Amount(so)
		r.Over = append(r.Over, p)
	}
}
