package recording

// Mixer makes one channel of several, for what the browser decoded as for the files here.
type Mixer struct {
	channels int
}

// NewMixer for so many channels, one or more, at a rate in samples a second.
func NewMixer(channels, rate int) *Mixer { return &Mixer{channels: channels} }

// Planar mixes blocks of equal length, a channel each, into out, which must be as long.
func (m *Mixer) Planar(out []float32, channels ...[]float32) {
	for i := range out {
		s := float32(0)
		for _, c := range channels {
			s += c[i]
		}
		out[i] = s / float32(len(channels))
	}
}
