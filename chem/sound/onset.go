package sound

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// The sound is cut into overlapping windows, which advance by an eighth of their length, a
// hop. A frame is the spectrum of one window. A bubble starts where a window holds a pitch
// that the window ending at its beginning does not; the pitch then decays undisturbed.
//
// Small bubbles ring high and die soon (1 mm: 3 kHz, in 3 ms), large ones low and long. So
// pitches below and above the seam are looked for apart, in windows of about 16 ms and 5 ms.
const (
	seam       = 1300  // Hz
	atSeam     = 0.04  // share of the pitch by which the bands overlap
	lowRate    = 7000  // lowest rate that pitches below the seam are analysed at, samples a second
	highRate   = 11500 // the same above it: pitches up to 5 kHz pass, and what folds back lies above them
	lowWindow  = 0.016 // s
	highWindow = 0.005
)

const (
	hops  = 8  // to a window
	after = 4  // hops from a start to the middle of the window after it
	back  = 24 // frames kept before the newest
	ring  = 32 // frames in memory, a power of two above back
)

// Thresholds of a start, found on synthetic recordings (estimates).
const (
	overFloor = 7.0  // power of the new ring over the noise of its bin
	overPast  = 1.7  // power of the new ring over what rang at its pitch before
	sharpness = 0.30 // share of all new power that lies within two bins
	dies      = 1.8  // least factor by which the power falls within two windows
	grows     = 1.9  // largest factor by which the power may still rise
	echoes    = 1.0  // power of the earlier ring left over that of an echo
	lingers   = 0.45 // share of the fall due to a bubble's ring below which it is none
	crowded   = 0.06 // s around a start in which others count as simultaneous
	echoing   = 0.15 // s, how long a start may have echoes: new starts that are its own ring, changing pitch
	onceOver  = 0.01 // s within which both bands may find one start near the seam
	apart     = 0.12 // difference of the logarithms from which two pitches count as different
)

// Noise floor of a bin: a low quantile, followed step by step.
const (
	floorShare = 0.2
	floorStep  = 0.02
	floorMean  = 4.48  // mean of noise over its quantile: -1/ln(1-floorShare)
	floorLeast = 2e-10 // a quiet bin of a recording of 16 bits holds no more than its rounding
	floorReach = 10    // bins on each side
	floorEvery = 16    // frames
)

// start is a bubble's beginning as it was found.
type start struct {
	at      float32 // s
	pitch   float32 // Hz
	power   float32 // of the ring at its loudest, full-scale sine is 0.5
	snr     float32 // power over the noise of its bin
	share   float32 // of the new power
	drop    float32 // factor by which the power falls
	others  int16   // how many strong others with a tenth of its power or more start at the same moment
	sure    float32 // that it is a bubble, 0 to 1
	settled bool    // whether its neighbours have been counted
	plain   bool    // whether it looks like a bubble's by itself
	high    bool    // whether the high band found it
	slow    bool    // whether it rings on longer than a bubble of its pitch
}

// finder finds the starts in samples as they come.
type finder struct {
	bands   [2]band
	found   []start
	pending []start // in order of time
	clear   int     // of those found, how many are well over the noise
}

// band looks for starts among a part of the pitches, in samples of a lowered rate.
type band struct {
	down      *decimator
	rate      float64 // lowered
	late      float64 // delay of the filter, s
	window    int     // samples
	hop       int
	from, to  Hertz // the band's own pitches
	low, high int   // bins looked at
	weights   []float64
	fft       *fourier.FFT
	block     []float64 // the newest window of samples
	filled    int
	work      []float64
	frames    [ring][]complex128
	power     [ring][]float64
	fresh     [ring][]float64 // new power of a start at the frame, for the window after it
	floor     []float64
	noise     []float64
	n         int // frames so far
	scale     float64
	starts    []start // found and not yet taken
}

func newFinder(rate int, highest Hertz) *finder {
	return &finder{bands: [2]band{
		newBand(rate, lowRate, lowWindow, lowest, min(seam, highest)),
		newBand(rate, highRate, highWindow, max(seam, lowest), highest),
	}}
}

func newBand(rate, least int, window float64, from, to Hertz) band {
	b := band{down: newDecimator(rate, least, float64(to)), from: from, to: to}
	b.rate, b.late = float64(rate)/float64(b.down.factor), b.down.delay(rate)
	b.hop = int(math.Round(window * b.rate / hops))
	b.window = hops * b.hop
	bin := b.rate / float64(b.window)
	b.low = max(2, int(float64(from)/bin)-1)
	b.high = min(b.window/2-3, int(float64(to)/bin)+2)
	b.weights = make([]float64, b.window)
	sum := 0.0
	for i := range b.weights {
		b.weights[i] = 0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/float64(b.window))
		sum += b.weights[i]
	}
	b.scale = 2 / (sum * sum) // a full-scale sine gives 0.5
	b.fft = fourier.NewFFT(b.window)
	b.block, b.work = make([]float64, b.window), make([]float64, b.window)
	for i := range b.frames {
		b.frames[i] = make([]complex128, b.window/2+1)
		b.power[i] = make([]float64, b.window/2+1)
		b.fresh[i] = make([]float64, b.window/2+1)
	}
	b.floor, b.noise = make([]float64, b.window/2+1), make([]float64, b.window/2+1)
	return b
}

// push takes a sample; power is that of the pitches listened to, where a frame of the low
// band is complete.
func (f *finder) push(x float64) (power float64, ok bool) {
	for i := range f.bands {
		b := &f.bands[i]
		y, whole := b.down.push(x)
		if !whole || !b.push(y) {
			continue
		}
		for _, s := range b.starts {
			at, _ := slices.BinarySearchFunc(f.pending, s.at, func(o start, at float32) int { return cmp.Compare(o.at, at) })
			f.pending = slices.Insert(f.pending, at, s)
		}
		b.starts = b.starts[:0]
		if i == 0 {
			power, ok = b.loud()+f.bands[1].loud(), true
			f.settle(math.Min(f.bands[0].known(), f.bands[1].known()))
		}
	}
	return power, ok
}

// push takes a sample of the lowered rate; frames are made a hop at a time.
func (f *band) push(x float64) bool {
	f.block[f.window-f.hop+f.filled] = x
	f.filled++
	if f.filled < f.hop {
		return false
	}
	f.frame()
	copy(f.block, f.block[f.hop:])
	f.filled = 0
	return true
}

// loud is the power in the newest frame of the pitches listened to.
func (f *band) loud() float64 {
	sum := 0.0
	p := f.power[(f.n-1)&(ring-1)]
	for _, x := range p[f.low : f.high+1] {
		sum += x
	}
	return sum * 2 / 3 // a Hann window spreads a pitch over 1.5 bins
}

// time of the middle of a frame, in the recording.
func (f *band) time(frame int) float64 {
	return (float64(frame+1)*float64(f.hop)-float64(f.window)/2)/f.rate - f.late
}

// known is the time up to which all starts are known.
func (f *band) known() float64 { return f.time(f.n - back) }

// frame adds the spectrum of the newest window, follows the floor of each bin, and looks
// at the frame that lies far enough back.
func (f *band) frame() {
	i := f.n & (ring - 1)
	for j, w := range f.weights {
		f.work[j] = w * f.block[j]
	}
	x, p := f.frames[i], f.power[i]
	f.fft.Coefficients(x, f.work)
	// In the first tenths of a second the floor has far to go.
	step := floorStep * (1 + 15*math.Exp(-float64(f.n)/150))
	up, down := math.Exp(step*floorShare), math.Exp(-step*(1-floorShare))
	for k := f.low - 2; k <= f.high+2; k++ {
		re, im := real(x[k]), imag(x[k])
		p[k] = (re*re+im*im)*f.scale + 1e-16 // never zero, as ratios are taken
		switch {
		case f.n < hops:
			f.floor[k] = math.Max(floorLeast, (f.floor[k]*float64(f.n)+p[k]*floorShare)/float64(f.n+1))
		case p[k] > f.floor[k]:
			f.floor[k] *= up
		default:
			f.floor[k] = math.Max(floorLeast, f.floor[k]*down)
		}
	}
	before := f.power[(f.n-2*after)&(ring-1)]
	e := f.fresh[i]
	for k := f.low - 2; k <= f.high+2; k++ {
		e[k] = p[k] - before[k]
	}
	if f.n%floorEvery == 0 {
		f.quiet()
	}
	f.n++
	if f.n > back+2*after {
		f.look(f.n - 1 - back + 2*after)
	}
}

// quiet sets the noise of each bin. Rings lift the floor of their own bins where bubbles
// come fast, so the level of noise is taken from the bins around; what stands steadily in
// a bin, as hum does, counts for itself.
func (f *band) quiet() {
	var around [2*floorReach + 1]float64
	for k := f.low - 2; k <= f.high+2; k++ {
		// As many on each side, since most noise falls with the pitch.
		r := min(floorReach, k-f.low+2, f.high+2-k)
		n := copy(around[:], f.floor[k-r:k+r+1])
		slices.Sort(around[:n])
		f.noise[k] = math.Max(f.floor[k], around[n*2/5]*floorMean)
	}
}

// look asks whether a bubble started before the window of frame t; the frames around it
// are in memory.
func (f *band) look(t int) {
	at := func(d int) int { return (t + d) & (ring - 1) }
	e, p, past := f.fresh[at(0)], f.power[at(0)], f.power[at(-2*after)]
	total := -1.0
	for k := f.low; k <= f.high; k++ {
		noise := f.noise[k]
		if e[k] < overFloor*noise || e[k] < (overPast-1)*math.Max(past[k], math.Max(past[k-1], past[k+1])) {
			continue
		}
		if e[k] < e[k-1] || e[k] <= e[k+1] || e[k] < e[k-2] || e[k] < e[k+2] {
			continue
		}
		// The fullest moment: the frame with most new power.
		fullest := true
		for d := 1; d <= after && fullest; d++ {
			fullest = e[k] >= f.near(at(-d), k) && e[k] > f.near(at(d), k)
		}
		if !fullest {
			continue
		}
		if total < 0 {
			total = 0
			for j := f.low - 2; j <= f.high+2; j++ {
				total += math.Max(0, e[j])
			}
		}
		f.weigh(t, k, total, noise, p, e, at)
	}
}

// near is the new power about a bin of a frame.
func (f *band) near(i, k int) float64 {
	return math.Max(f.fresh[i][k], math.Max(f.fresh[i][k-1], f.fresh[i][k+1]))
}

// weigh a start in bin k before the window of frame t, and note whether it could be a
// bubble's.
func (f *band) weigh(t, k int, total, noise float64, p, e []float64, at func(int) int) {
	own := 0.0
	for j := k - 2; j <= k+2; j++ {
		own += math.Max(0, e[j])
	}
	least, most := p[k], p[k]
	for d := 1; d <= back-2*after; d++ {
		q := f.power[at(d)][k]
		least = math.Min(least, q)
		if d <= hops {
			most = math.Max(most, q)
		}
	}
	s := start{
		at:    float32(f.time(t) - float64(after)*float64(f.hop)/f.rate),
		pitch: float32(f.pitch(t, k)),
		power: float32(p[k]),
		snr:   float32(p[k] / noise),
		share: float32(own / total),
		drop:  float32(p[k] / least),
	}
	// A pitch that is not the bin's belongs to something beside it.
	off := math.Abs(float64(s.pitch)*float64(f.window)/f.rate - float64(k))
	s.plain = off < 1.3 && s.share >= sharpness && s.drop >= dies && most <= grows*p[k]
	fall := math.Min(4*decay(float64(s.pitch))*float64(f.window)/f.rate, math.Log(float64(s.snr)/4))
	s.slow = math.Log(float64(s.drop)) < lingers*fall
	s.high = f.from >= seam
	if s.pitch >= float32(f.from)*(1-atSeam) && s.pitch < float32(f.to)*(1+atSeam) {
		f.starts = append(f.starts, s)
	}
}

// settle looks at starts whose neighbours are all known by now.
func (f *finder) settle(now float64) {
	done := 0
	for i, s := range f.pending {
		if float64(s.at) > now-crowded {
			break
		}
		done = i + 1
		if !s.plain || s.settled {
			continue
		}
		echo := false
		for _, o := range f.pending {
			gap := float64(s.at - o.at)
			if math.Abs(math.Log(float64(o.pitch/s.pitch))) < apart {
				// A ring that dies half as fast as published may still be louder than the start.
				echo = echo || gap > 0 && gap < echoing && float64(o.power)*math.Exp(-decay(float64(s.pitch))*gap) > echoes*float64(s.power) ||
					o.high != s.high && math.Abs(gap) < onceOver && (o.snr > s.snr || o.snr == s.snr && o.high)
				continue
			}
			if math.Abs(gap) > crowded {
				continue
			}
			if o.power > 0.1*s.power && o.snr >= strongSNR {
				s.others++
			}
		}
		f.pending[i].settled = true
		if echo {
			continue
		}
		f.found = append(f.found, s)
		if s.snr >= strongSNR {
			f.clear++
		}
	}
	// What may still be a neighbour stays.
	keep := 0
	for keep < done && float64(f.pending[keep].at) < now-echoing-crowded {
		keep++
	}
	f.pending = append(f.pending[:0], f.pending[keep:]...)
}

// pitch by the advance of the phase from frame to frame, while the ring is loud.
func (f *band) pitch(t, k int) float64 {
	var sum complex128
	for d := -1; d < 4; d++ {
		a, b := f.frames[(t+d)&(ring-1)], f.frames[(t+d+1)&(ring-1)]
		for j := k - 1; j <= k+1; j++ {
			sum += b[j] * complex(real(a[j]), -imag(a[j]))
		}
	}
	advance := math.Atan2(imag(sum), real(sum)) / (2 * math.Pi) // turns a hop, less whole ones
	perHop := float64(f.hop) / f.rate
	centre := float64(k) * f.rate / float64(f.window)
	whole := math.Round(centre*perHop - advance)
	return (whole + advance) / perHop
}
