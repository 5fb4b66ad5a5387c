package recording

import "math"

// Mixer makes one channel of several. Microphones of a phone may hear a pitch in opposite
// phase, and then the sum is silent; so it follows whether sum or difference of the first
// two channels is louder among the pitches of bubbles, and fades to that. Channels beyond
// two are left out.
type Mixer struct {
	channels   int
	decay      float64 // of the powers, per sample
	sum, diff  float64 // powers
	before     [2]float64
	early      [2]float64
	sign, want float64 // of the second channel
	step       float64
}

// NewMixer mixes a number of channels, one or more, at a rate in samples a second.
func NewMixer(channels, rate int) *Mixer {
	return &Mixer{
		channels: channels, sign: 1, want: 1,
		decay: math.Exp(-1 / (0.5 * float64(rate))),
		step:  1 / (0.05 * float64(rate)), // faded within a tenth of a second
	}
}

// Planar mixes blocks of equal length, a channel each, into out, which is as long.
func (m *Mixer) Planar(out []float32, channels ...[]float32) {
	if len(channels) == 1 {
		copy(out, channels[0])
		return
	}
	left, right := channels[0], channels[1]
	for i := range out {
		out[i] = m.two(left[i], right[i])
	}
}

// interleaved mixes frames of samples that follow one another.
func (m *Mixer) interleaved(out, in []float32) {
	if m.channels == 1 {
		copy(out, in)
		return
	}
	for i := range out {
		out[i] = m.two(in[i*m.channels], in[i*m.channels+1])
	}
}

func (m *Mixer) two(left, right float32) float32 {
	l, r := float64(left), float64(right)
	s, d := l+r, l-r
	// Two differences, so that rumble does not decide.
	hs, hd := s-2*m.before[0]+m.early[0], d-2*m.before[1]+m.early[1]
	m.early, m.before = m.before, [2]float64{s, d}
	m.sum = m.sum*m.decay + hs*hs
	m.diff = m.diff*m.decay + hd*hd
	// Only where it is clear, so that noise in both does not make it waver.
	switch {
	case m.diff > 2*m.sum:
		m.want = -1
	case m.sum > 2*m.diff:
		m.want = 1
	}
	if m.sign < m.want {
		m.sign = math.Min(m.want, m.sign+m.step)
	} else if m.sign > m.want {
		m.sign = math.Max(m.want, m.sign-m.step)
	}
	return float32((l + m.sign*r) / 2)
}
