package chart

import "math"

// Band is one end of a flow: so many moles that stand somewhere.
type Band struct {
	Text  string // written behind it
	Moles float64
	Role  Role
	Lost  bool // drawn with a broken edge
}

// Flow is where one element comes from and where it goes.
type Flow struct {
	Head string // written above it
	Role Role
	In   []float64 // moles brought in, each from another source
	Out  []Band
}

// Total is the moles brought in.
func (f *Flow) Total() float64 {
	sum := 0.0
	for _, moles := range f.In {
		sum += moles
	}
	return sum
}

// widestFlow is how wide the largest total is drawn.
const widestFlow = 78

// flows lays the flows out one below the other, all to one measure; one that would be too
// thin to see is drawn ten times as wide, or more, and says so.
func (d *drawing) flows(list []Flow) {
	most := 0.0
	for i := range list {
		most = math.Max(most, list[i].Total())
	}
	top := 0.0
	for i := range list {
		f := &list[i]
		times, head := 1.0, f.Head
		for f.Total()*times*10 <= most && times < 1e6 {
			times *= 10
		}
		if times > 1 {
			head += " (drawn " + Fixed(times, 0) + " times as wide)"
		}
		top = d.lines("head", wrap(head, d.width, d.em*1.16), 0, top+d.em, d.line(), "") - d.em
		top = d.flow(f, top+8, widestFlow/most*times) + 16
	}
	d.height = top - 10
}

// flow draws one element: a trunk of all that was brought in, cut where its sources meet,
// and a ribbon to each place where it stands at the end. It tells how far down they reach.
func (d *drawing) flow(f *Flow, top, scale float64) float64 {
	trunk, turn := 0.16*d.width, 0.4*d.width
	words, middle := turn+10, (trunk+turn)/2
	var cuts pen
	bottom := top
	for i, moles := range f.In {
		if i > 0 {
			cuts.add("MH", 0, bottom, trunk)
		}
		bottom += moles * scale
	}
	from, to := top, top
	for _, b := range f.Out {
		w := b.Moles * scale
		lines := wrap(b.Text, d.width-words, d.em)
		high := float64(len(lines)) * d.line()
		slot := math.Max(w, high)
		at := to
		if to > top { // all but the first stand in the middle of their place
			at += (slot - w) / 2
		}
		part := "flow " + string(b.Role)
		if b.Lost {
			part += " lost"
		}
		d.shape(part, "MCvCZ", trunk, from, middle, from, middle, at, turn, at, w, middle, at+w, middle, from+w, trunk, from+w)
		d.lines("name", lines, words, math.Max(at+w/2-high/2, to-7)+d.em*0.98, d.line(), "")
		from += w
		to += slot + 6
	}
	d.shape("flow "+string(f.Role), "MHVHZ", 0, top, trunk, bottom, 0)
	d.path("cut "+string(f.Role), cuts)
	return math.Max(to, bottom)
}
