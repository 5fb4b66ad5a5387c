package counting

import (
	"encoding/binary"
	"math"
	"sync"

	"rosesalt/chem/sound"
)

// Kept is a recording as it is kept while the page is open: one channel, eleven to sixteen
// thousand samples a second, a byte each by the μ-law, so that ten minutes take 7 to 10 MB.
// Bubbles ring below 5 kHz and are all there.
type Kept struct {
	Rate  int // samples a second
	bytes []byte

	every int // of the samples that come in, so many make one
	sum   float32
	n     int
}

// KeptRate is near the rate that sound is kept at, samples a second: the recording's own
// rate is divided by a whole number. MostKept is the longest recording that is kept, which
// takes 40 to 58 MB.
const (
	KeptRate              = 11025
	MostKept sound.Second = 3600
)

// Keep begins to keep samples that come at a rate.
func Keep(rate int) *Kept {
	fillCompressed()
	every := max(1, int(math.Round(float64(rate)/KeptRate)))
	return &Kept{Rate: rate / every, every: every}
}

// Write keeps samples, full scale ±1, up to MostKept. Neighbours are averaged: enough of a
// filter for an ear that looks for bubbles.
func (k *Kept) Write(samples []float32) {
	most := int(MostKept) * k.Rate
	for _, s := range samples {
		k.sum += s
		if k.n++; k.n == k.every {
			if len(k.bytes) >= most {
				return
			}
			k.bytes = append(k.bytes, compress(k.sum/float32(k.every)))
			k.sum, k.n = 0, 0
		}
	}
}

// Length is the duration of what is kept.
func (k *Kept) Length() sound.Second {
	if k == nil || k.Rate == 0 {
		return 0
	}
	return sound.Second(float64(len(k.bytes)) / float64(k.Rate))
}

// part is the samples of a stretch, as far as they are kept.
func (k *Kept) part(from, until sound.Second) []byte {
	if k == nil {
		return nil
	}
	at := func(t sound.Second) int {
		return int(math.Max(0, math.Min(float64(len(k.bytes)), math.Round(float64(t)*float64(k.Rate)))))
	}
	a, b := at(from), at(until)
	return k.bytes[a:max(a, b)]
}

// below is a first-order high pass in Hz that takes rumble, breath and flame off the
// picture: bubbles ring above 300 Hz.
const below = 300

// Peaks are the peak levels of a stretch in a number of columns, without the rumble.
func (k *Kept) Peaks(from, until sound.Second, columns int) []sound.Decibel {
	if k == nil || columns < 1 {
		return nil
	}
	settle := sound.Second(0.02) // until the filter has forgotten where it began
	lead := len(k.part(from-settle, from))
	part := k.part(from-settle, until)
	// Smith, Introduction to Digital Filters (2007), DC blocker; the pole from the RC filter
	// that it stands for.
	pole := float32(1 / (1 + 2*math.Pi*below/float64(k.Rate)))
	peaks := make([]float32, columns)
	var before, out float32
	expanded := expanded()
	hear := func(part []byte) (peak float32) {
		for _, b := range part {
			x := expanded[b]
			out = pole * (out + x - before)
			before = x
			peak = max(peak, out, -out)
		}
		return peak
	}
	hear(part[:lead])
	part = part[lead:]
	wide := float64(until-from) * float64(k.Rate) / float64(columns) // samples in a column
	for c := range peaks {
		first, end := min(len(part), int(float64(c)*wide)), min(len(part), int(float64(c+1)*wide))
		peaks[c] = hear(part[first:end])
	}
	list := make([]sound.Decibel, columns)
	for i, p := range peaks {
		list[i] = sound.Decibel(math.Max(Silence, 20*math.Log10(float64(p))))
	}
	return list
}

// Silence is the lowest level that is shown, in dB of full scale: the μ-law resolves nothing
// below it.
const Silence = -72

// WAV is a stretch as a WAV file of 16 bits, for an audio element.
func (k *Kept) WAV(from, until sound.Second) []byte {
	part := k.part(from, until)
	const head = 44
	b := make([]byte, head+2*len(part))
	copy(b, "RIFF")
	binary.LittleEndian.PutUint32(b[4:], uint32(len(b)-8))
	copy(b[8:], "WAVEfmt ")
	binary.LittleEndian.PutUint32(b[16:], 16)
	binary.LittleEndian.PutUint16(b[20:], 1)
	binary.LittleEndian.PutUint16(b[22:], 1)
	binary.LittleEndian.PutUint32(b[24:], uint32(k.Rate))
	binary.LittleEndian.PutUint32(b[28:], uint32(2*k.Rate))
	binary.LittleEndian.PutUint16(b[32:], 2)
	binary.LittleEndian.PutUint16(b[34:], 16)
	copy(b[36:], "data")
	binary.LittleEndian.PutUint32(b[40:], uint32(2*len(part)))
	expanded := expanded()
	for i, s := range part {
		binary.LittleEndian.PutUint16(b[head+2*i:], uint16(int16(expanded[s]*math.MaxInt16)))
	}
	return b
}

// mu of the law (ITU-T Recommendation G.711, whose segments follow this curve).
const mu = 255

// compress and expanded are the μ-law as its formula has it: ±ln(1+μ|x|)/ln(1+μ). A
// logarithm for each sample would cost as much as to count it, so samples of 16 bits are
// looked up.
func compress(x float32) byte {
	switch {
	case x != x:
		x = 0
	case x > 1:
		x = 1
	case x < -1:
		x = -1
	}
	return compressed[int(x*math.MaxInt16)+math.MaxInt16]
}

var (
	compressed     [2*math.MaxInt16 + 1]byte
	fillCompressed = sync.OnceFunc(func() {
		for i := range compressed {
			x := float64(i-math.MaxInt16) / math.MaxInt16
			y := math.Copysign(math.Log1p(mu*math.Abs(x))/math.Log1p(mu), x)
			compressed[i] = byte(math.Round(127*y) + 128)
		}
	})
)

var expanded = sync.OnceValue(func() *[256]float32 {
	var table [256]float32
	for i := range table {
		y := math.Max(-1, float64(i-128)/127)
		table[i] = float32(math.Copysign(math.Expm1(math.Abs(y)*math.Log1p(mu))/mu, y))
	}
	return &table
})
