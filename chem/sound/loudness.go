package sound

import "math"

// loudness collects the loudness of a recording in columns of equal duration. When there are
// too many, pairs are merged and the duration doubles.
type loudness struct {
	span  float64 // of a column, s
	until float64 // end of the open column, s
	all   []column
	open  column
}

type column struct {
	sum, peak float64 // of squares
	samples   int
	ringing   float64
	frames    int
}

func (p *loudness) hear(x float64) {
	q := x * x
	p.open.sum += q
	p.open.samples++
	p.open.peak = math.Max(p.open.peak, q)
}

func (p *loudness) ring(power float64) {
	p.open.ringing += power
	p.open.frames++
}

// column closes the open column.
func (p *loudness) column() {
	if p.open.samples > 0 {
		p.all = append(p.all, p.open)
	}
	p.open = column{}
	if len(p.all) == MostLevels {
		for i := range MostLevels / 2 {
			p.all[i] = p.all[2*i].and(p.all[2*i+1])
		}
		p.all = p.all[:MostLevels/2]
		p.span *= 2
	}
	p.until = float64(len(p.all)+1) * p.span
}

func (c column) and(d column) column {
	return column{c.sum + d.sum, math.Max(c.peak, d.peak), c.samples + d.samples, c.ringing + d.ringing, c.frames + d.frames}
}

func (p *loudness) levels() []Level {
	if p.open.samples > 0 && len(p.all) < MostLevels-1 {
		p.all = append(p.all, p.open)
		p.open = column{}
	}
	list := make([]Level, len(p.all))
	for i, c := range p.all {
		// A full-scale sine is 0 dB: its mean square is a half.
		list[i] = Level{
			At:         Second(float64(i) * p.span),
			Mean:       decibel(2 * c.sum / float64(c.samples)),
			Peak:       decibel(c.peak),
			BubbleBand: decibel(2 * c.ringing / float64(max(1, c.frames))),
		}
	}
	return list
}

// decibel of a power over that of a full-scale sine.
func decibel(power float64) Decibel {
	return Decibel(10 * math.Log10(math.Max(power, 1e-10)))
}
