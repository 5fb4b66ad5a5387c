package chart

import "math"

// box is where something stands that no label may cover.
type box struct{ left, top, right, bottom float64 }

func (b box) overlap(c box) float64 {
	w, h := math.Min(b.right, c.right)-math.Max(b.left, c.left), math.Min(b.bottom, c.bottom)-math.Max(b.top, c.top)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

// outside is how far a box sticks out of another.
func (b box) outside(frame box) float64 {
	return math.Max(0, frame.left-b.left) + math.Max(0, b.right-frame.right) +
		math.Max(0, frame.top-b.top) + math.Max(0, b.bottom-frame.bottom)
}

// crossed tells whether the line from a to c enters the box (Liang and Barsky's
// clipping).
func (b box) crossed(a, c spot) bool {
	t0, t1 := 0.0, 1.0
	dx, dy := c.x-a.x, c.y-a.y
	for _, e := range [...][2]float64{{-dx, a.x - b.left}, {dx, b.right - a.x}, {-dy, a.y - b.top}, {dy, b.bottom - a.y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return false
		case p < 0:
			t0 = math.Max(t0, q/p)
		case p > 0:
			t1 = math.Min(t1, q/p)
		}
	}
	return t0 <= t1
}

// plot is one panel being drawn.
type plot struct {
	*drawing
	frame  box // the field between the axes
	x, y   scale
	taken  []box
	curves [][]spot
}

// Heights of the field of a panel.
func fieldHeight(panels int, wide bool) float64 {
	switch {
	case panels > 1:
		return 120
	case wide:
		return 200
	}
	return 190
}

// layout is the scales of a picture's panels, and where their field begins and ends.
func (d *drawing) layout(p *Picture, wide bool) (x scale, ys []scale, left, right float64) {
	nx, ny := 6, 4
	if wide {
		nx, ny = 10, 5
	}
	if len(p.Panels) > 1 {
		ny = 3
	}
	ys = make([]scale, len(p.Panels))
	for i := range p.Panels {
		ys[i] = spanY(&p.Panels[i], ny)
		for _, t := range ys[i].ticks() { // an empty panel has none
			left = math.Max(left, length(t.text, d.em))
		}
	}
	return spanX(p, nx), ys, math.Round(left + 9), d.width - 14
}

// ValueAt is the value on the X axis at a share of the drawn picture's width, of either
// layout, no further than the axis goes.
func (p *Picture) ValueAt(share float64, wide bool) float64 {
	d := newDrawing(wide)
	x, _, left, right := d.layout(p, wide)
	t := math.Max(0, math.Min(1, (share*d.width-left)/(right-left)))
	return x.low + t*(x.hig-x.low)
}

// panels lays out panels one above the other on one X axis.
func (d *drawing) panels(p *Picture, wide bool) {
	high := fieldHeight(len(p.Panels), wide)
	x, ys, left, right := d.layout(p, wide)
	top := 0.0
	for i := range p.Panels {
		panel := &p.Panels[i]
		d.write("name", panel.Y.title(), 0, top+d.em, "")
		top += d.line() + 10
		f := &plot{drawing: d, frame: box{left, top, right, top + high}, x: x, y: ys[i]}
		f.taken = []box{{0, top - 10 - d.line(), length(panel.Y.title(), d.em), top - 8}}
		f.grid()
		f.data(panel)
		top += high + 12
	}
	d.below(p, x, box{left, 0, right, top - 12})
	d.height = top - 12 + 2*d.line() + 10
}

func spanX(p *Picture, n int) scale {
	low, high := math.Inf(1), math.Inf(-1)
	take := func(v float64) { low, high = math.Min(low, v), math.Max(high, v) }
	for i := range p.Panels {
		for _, s := range p.Panels[i].Series {
			for _, q := range s.Points {
				take(q.X)
			}
		}
		for _, m := range p.Panels[i].Marks {
			take(m.X)
		}
	}
	return newScale(p.X, low, high, n, false)
}

func spanY(p *Panel, n int) scale {
	low, high := math.Inf(1), math.Inf(-1)
	take := func(v float64) {
		if drawable(v) && (v > 0 || !p.Y.Log) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	for _, s := range p.Series {
		for _, q := range s.Points {
			if q.OK {
				take(q.Y)
				if s.Interval != "" {
					take(q.Low)
					take(q.High)
				}
			}
		}
	}
	for _, m := range p.Marks {
		take(m.Y)
	}
	for _, l := range p.Limits {
		if !l.Upright {
			take(l.At)
		}
	}
	return newScale(p.Y, low, high, n, true)
}

// spot is where a value lies in the field.
func (f *plot) spot(x, y float64) (spot, bool) {
	tx, okx := f.x.place(x)
	ty, oky := f.y.place(y)
	return spot{f.frame.left + tx*(f.frame.right-f.frame.left), f.frame.bottom - ty*(f.frame.bottom-f.frame.top)}, okx && oky
}

// grid draws the level lines at the ticks of the Y axis, and their numbers.
func (f *plot) grid() {
	var lines, base pen
	for _, t := range f.y.ticks() {
		ty, _ := f.y.place(t.at)
		y := f.frame.bottom - ty*(f.frame.bottom-f.frame.top)
		if y < f.frame.bottom-0.5 {
			lines.op('M', f.frame.left, y).op('H', f.frame.right)
		}
		f.write("tick", t.text, f.frame.left-8, y+f.em*0.35, "end")
	}
	base.op('M', f.frame.left, f.frame.bottom).op('H', f.frame.right)
	f.path("grid", lines.String())
	f.path("axis", base.String())
}

// below draws the X axis under the last panel.
func (d *drawing) below(p *Picture, x scale, frame box) {
	var marks pen
	end := math.Inf(-1)
	for _, t := range x.ticks() {
		tx, _ := x.place(t.at)
		at := frame.left + tx*(frame.right-frame.left)
		marks.op('M', at, frame.bottom).op('v', 5)
		half := length(t.text, d.em) / 2
		if middle := math.Min(at, d.width-half); middle-half > end {
			d.write("tick", t.text, middle, frame.bottom+6+d.em, "middle")
			end = middle + half + 4
		}
	}
	d.path("axis", marks.String())
	d.write("name", p.X.title(), d.width-14, frame.bottom+6+d.em+d.line(), "end")
}

// data draws what the panel holds, then finds room for the words.
func (f *plot) data(p *Panel) {
	for i := range p.Series {
		f.band(&p.Series[i])
	}
	for _, l := range p.Limits {
		f.limit(l)
	}
	middles := make([][]spot, len(p.Series))
	for i := range p.Series {
		middles[i] = f.series(&p.Series[i])
	}
	for _, m := range p.Marks {
		f.mark(m)
	}
	for _, l := range p.Limits {
		f.limitLabel(l)
	}
	for _, m := range p.Marks {
		if s, ok := f.spot(m.X, m.Y); ok {
			f.label("label "+string(m.Role), m.Text, []spot{s}, 11)
		}
	}
	for i := range p.Series {
		f.label("label "+string(p.Series[i].Role), p.Series[i].Label, middles[i], 8)
	}
	for i := range p.Series {
		f.bandLabel(&p.Series[i])
	}
}

// runs cuts a series at its gaps.
func (f *plot) runs(points []Point, y func(Point) float64) [][]spot {
	var all [][]spot
	var run []spot
	for _, q := range points {
		s, ok := spot{}, q.OK
		if ok {
			s, ok = f.spot(q.X, y(q))
		}
		if ok {
			run = append(run, s)
		} else if run != nil {
			all, run = append(all, run), nil
		}
	}
	if run != nil {
		all = append(all, run)
	}
	return all
}

// series draws a line and its dots, and gives places along it for its label.
func (f *plot) series(s *Series) []spot {
	var line, dots pen
	var along []spot
	for _, run := range f.runs(s.Points, func(q Point) float64 { return q.Y }) {
		for i, at := range run {
			if i == 0 {
				line.op('M', at.x, at.y)
			} else {
				line.op('L', at.x, at.y)
			}
			dots.dot(s.Dots, at)
		}
		if len(run) == 1 {
			line.op('h', 0) // a round end makes it a dot
		}
		f.curves = append(f.curves, run)
		for _, share := range [...]float64{0.55, 0.7, 0.4, 0.85, 0.25, 1, 0} {
			along = append(along, run[int(share*float64(len(run)-1)+0.5)])
		}
	}
	part := "line " + string(s.Role)
	if s.Dash != Solid {
		part += " " + string(s.Dash)
	}
	f.path(part, line.String())
	f.path("dots "+string(s.Role), dots.String())
	return along
}

// band draws the interval of a series.
func (f *plot) band(s *Series) {
	if s.Interval == "" {
		return
	}
	var p pen
	low := f.runs(s.Points, func(q Point) float64 { return q.Low })
	high := f.runs(s.Points, func(q Point) float64 { return q.High })
	if len(low) != len(high) {
		return
	}
	for i, up := range high {
		down := low[i]
		if len(up) != len(down) {
			continue
		}
		if len(up) == 1 { // a lone interval is a whisker
			p.op('M', up[0].x-3, up[0].y).op('h', 6).op('V', down[0].y).op('h', -6).op('Z')
			continue
		}
		for j, at := range up {
			p.op("ML"[min(j, 1)], at.x, at.y)
		}
		for j := len(down) - 1; j >= 0; j-- {
			p.op('L', down[j].x, down[j].y)
		}
		p.op('Z')
		f.curves = append(f.curves, up, down)
	}
	f.path("band "+string(s.Role), p.String())
}

func (f *plot) bandLabel(s *Series) {
	if s.Interval == "" {
		return
	}
	high := f.runs(s.Points, func(q Point) float64 { return q.High })
	low := f.runs(s.Points, func(q Point) float64 { return q.Low })
	var along []spot
	for i := range high {
		for _, share := range [...]float64{0.8, 0.6, 0.4, 0.9} {
			if i < len(low) {
				along = append(along, high[i][int(share*float64(len(high[i])-1)+0.5)], low[i][int(share*float64(len(low[i])-1)+0.5)])
			}
		}
	}
	f.label("label soft", s.Interval, along, 7)
}

// stretch is where a limit lies, from end to end.
func (f *plot) stretch(l Limit) (from, to spot, ok bool) {
	if l.Upright {
		t, ok := f.x.place(l.At)
		x := f.frame.left + t*(f.frame.right-f.frame.left)
		return spot{x, f.frame.top - 4}, spot{x, f.frame.bottom}, ok
	}
	t, ok := f.y.place(l.At)
	y := f.frame.bottom - t*(f.frame.bottom-f.frame.top)
	return spot{f.frame.left, y}, spot{f.frame.right, y}, ok
}

func (f *plot) limit(l Limit) {
	from, to, ok := f.stretch(l)
	if !ok {
		return
	}
	var p pen
	p.op('M', from.x, from.y).op('L', to.x, to.y)
	f.path("limit", p.String())
	f.curves = append(f.curves, []spot{from, to})
}

func (f *plot) limitLabel(l Limit) {
	from, to, ok := f.stretch(l)
	if !ok {
		return
	}
	var along []spot
	for _, share := range [...]float64{0, 1, 0.1, 0.25, 0.5, 0.75, 0.9} {
		along = append(along, spot{from.x + share*(to.x-from.x), from.y + share*(to.y-from.y)})
	}
	f.label("label", l.Text, along, 6)
}

func (f *plot) mark(m Mark) {
	at, ok := f.spot(m.X, m.Y)
	if !ok || m.Shape == None {
		return
	}
	var p pen
	p.dot(m.Shape, at)
	part := "dots " + string(m.Role)
	if m.Shape == Ring {
		part = "ring " + string(m.Role)
	}
	f.path(part, p.String())
	f.taken = append(f.taken, box{at.x - 6, at.y - 6, at.x + 6, at.y + 6})
}

// label writes words near one of several places, broken or not, where they cover
// least.
func (f *plot) label(part, text string, near []spot, away float64) {
	if text == "" || len(near) == 0 {
		return
	}
	best, cost := box{}, math.Inf(1)
	var words []string
	for _, share := range [...]float64{0.62, 0.95, 0.4} {
		lines := wrap(text, (f.frame.right-f.frame.left)*share, f.em)
		if share != 0.62 && len(lines) == len(words) {
			continue
		}
		w := 0.0
		for _, l := range lines {
			w = math.Max(w, length(l, f.em))
		}
		h := float64(len(lines)) * f.line()
		for i, at := range near {
			for j, b := range beside(at, w, h, away) {
				now := float64(len(lines))*2 + float64(i)*1.5 + float64(j)*0.4
				if b, now = f.cost(b, now, cost); now < cost {
					best, cost, words = b, now, lines
				}
			}
		}
	}
	f.taken = append(f.taken, best)
	for i, l := range words {
		f.write(part, l, best.left, best.top+float64(i)*f.line()+f.em*0.98, "")
	}
}

// beside are the boxes of a size around a place, the best first.
func beside(at spot, w, h, away float64) [8]box {
	near := away * 0.6
	var list [8]box
	for i, c := range [...]spot{ // left upper corners
		{at.x + near, at.y - near - h},
		{at.x - near - w, at.y - near - h},
		{at.x - w/2, at.y - away - h},
		{at.x + near, at.y + near},
		{at.x - near - w, at.y + near},
		{at.x - w/2, at.y + away},
		{at.x + away, at.y - h/2},
		{at.x - away - w, at.y - h/2},
	} {
		list[i] = box{c.x, c.y, c.x + w, c.y + h}
	}
	return list
}

// cost is what it costs to write in a box, drawn in from the sides: what it covers
// and where it sticks out. Beyond what is too much it stops counting.
func (f *plot) cost(b box, now, tooMuch float64) (box, float64) {
	room := box{f.frame.left + 2, f.frame.top - 11, f.width, f.frame.bottom - 1}
	w := b.right - b.left
	b.left = math.Max(room.left, math.Min(b.left, room.right-w))
	b.right = b.left + w
	now += 60*b.outside(room) + 0.25*math.Max(0, b.right-f.frame.right)
	for _, t := range f.taken {
		if o := b.overlap(t); o > 0 {
			now += 200 + 2*o
		}
	}
	if now >= tooMuch {
		return b, now
	}
	for _, run := range f.curves {
		for k := 1; k < len(run); k++ {
			if b.crossed(run[k-1], run[k]) {
				now += 12
			}
		}
	}
	return b, now
}
