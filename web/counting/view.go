package counting

import (
	"math"

	"rosesalt/chem/sound"
)

// View is the stretch of a recording that is shown, and the mark in it.
type View struct {
	From, Until, Mark sound.Second
	Length            sound.Second // of the recording
}

// Shortest is the shortest stretch that is shown, in seconds.
const Shortest sound.Second = 0.5

// Whole shows all of a recording.
func Whole(length sound.Second) View { return View{Until: length, Length: length} }

// Width is the duration of the stretch.
func (v View) Width() sound.Second { return v.Until - v.From }

// Zoom makes the stretch wider by a factor. The mark keeps its place where it is in sight,
// and comes to the middle otherwise.
func (v View) Zoom(times float64) View {
	wide := max(min(Shortest, v.Length), min(v.Length, v.Width()*sound.Second(times)))
	share := sound.Second(0.5)
	if v.Mark < v.From || v.Mark > v.Until {
		v.Mark = (v.From + v.Until) / 2
	}
	if v.Width() > 0 {
		share = (v.Mark - v.From) / v.Width()
	}
	v.From = v.Mark - share*wide
	v.Until = v.From + wide
	return v.within()
}

// Move shifts the stretch by a number of its widths.
func (v View) Move(widths float64) View {
	by := v.Width() * sound.Second(widths)
	was := v.From
	v.From, v.Until = v.From+by, v.Until+by
	v = v.within()
	v.Mark += v.From - was
	return v.within()
}

// At puts the mark, and follows it where it leaves the stretch.
func (v View) At(mark sound.Second) View {
	v.Mark = max(0, min(v.Length, mark))
	wide := v.Width()
	switch {
	case v.Mark < v.From:
		v.From = v.Mark - wide/4
	case v.Mark > v.Until:
		v.From = v.Mark - 3*wide/4
	}
	v.Until = v.From + wide
	return v.within()
}

func (v View) within() View {
	wide := min(v.Width(), v.Length)
	v.From = max(0, min(v.From, v.Length-wide))
	v.Until = v.From + wide
	v.Mark = max(v.From, min(v.Until, v.Mark))
	return v
}

// Chosen is the bubble at the mark: the nearest one within a fiftieth of the stretch. Below
// zero there is none.
func (v View) Chosen(r *sound.Result) int {
	if i, ok := r.Nearest(v.Mark, v.Width()/50); ok {
		return i
	}
	return -1
}

// Next is the next bubble after the mark, or before it; ok is false where there is none.
func (v View) Next(r *sound.Result, back bool) (at sound.Second, ok bool) {
	const hair = 1e-6
	best := sound.Second(math.Inf(1))
	for _, b := range r.Bubbles {
		d := b.At - v.Mark
		if back {
			d = -d
		}
		if d > hair && d < best {
			best, at, ok = d, b.At, true
		}
	}
	return at, ok
}
