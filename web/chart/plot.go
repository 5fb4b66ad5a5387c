package chart

import (
	"math"
	"slices"
)

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
	return x.low + t*(x.high-x.low)
}

// panels lays out panels one above the other on one X axis.
func (d *drawing) panels(p *Picture, wide bool) {
	high := fieldHeight(len(p.Panels), wide)
	x, ys, left, right := d.layout(p, wide)
	top := 0.0
	for i := range p.Panels {
		panel := &p.Panels[i]
		d.write("name", panel.Y.Title(), 0, top+d.em, "")
		top += d.line() + 10
		f := &plot{drawing: d, frame: box{left, top, right, top + high}, x: x, y: ys[i]}
		f.taken = []box{{0, top - 10 - d.line(), length(panel.Y.Title(), d.em), top - 8}}
		f.grid()
		f.data(panel)
		top += high + 12
	}
	bottom := top - 12
	ticks := x.ticks()
	for i := range ticks {
		share, _ := x.place(ticks[i].at)
		ticks[i].at = left + share*(right-left)
	}
	d.ticks(nil, ticks, bottom, 4)
	d.write("name", p.X.Title(), right, bottom+6+d.em+d.line(), "end")
	d.height = bottom + 2*d.line() + 10
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

// right and up are where a share of the field's width and height lies.
func (f *plot) right(share float64) float64 {
	return f.frame.left + share*(f.frame.right-f.frame.left)
}

func (f *plot) up(share float64) float64 {
	return f.frame.bottom - share*(f.frame.bottom-f.frame.top)
}

// spot is where a value lies in the field.
func (f *plot) spot(x, y float64) (spot, bool) {
	tx, okx := f.x.place(x)
	ty, oky := f.y.place(y)
	return spot{f.right(tx), f.up(ty)}, okx && oky
}

// grid draws the level lines at the ticks of the Y axis, and their numbers.
func (f *plot) grid() {
	var lines pen
	for _, t := range f.y.ticks() {
		share, _ := f.y.place(t.at)
		y := f.up(share)
		if y < f.frame.bottom-0.5 {
			lines.add("MH", f.frame.left, y, f.frame.right)
		}
		f.write("tick", t.text, f.frame.left-8, y+f.em*0.35, "end")
	}
	f.path("grid", lines)
	f.shape("axis", "MH", f.frame.left, f.frame.bottom, f.frame.right)
}

// words are a text to be put near one of several spots, at a distance from it.
type words struct {
	part, text string
	near       []spot
	away       float64
}

// data draws what the panel holds, then finds room for the words.
func (f *plot) data(p *Panel) {
	var limits, marks, lines, bands []words
	for i := range p.Series {
		bands = append(bands, f.band(&p.Series[i]))
	}
	for _, l := range p.Limits {
		limits = append(limits, f.limit(l))
	}
	for i := range p.Series {
		lines = append(lines, f.series(&p.Series[i]))
	}
	for _, m := range p.Marks {
		marks = append(marks, f.mark(m))
	}
	for _, w := range slices.Concat(limits, marks, lines, bands) {
		f.label(w)
	}
}

// pieces cuts a series at its gaps.
func (f *plot) pieces(points []Point, y func(Point) float64) [][]spot {
	var all [][]spot
	var piece []spot
	for _, q := range points {
		s, ok := spot{}, q.OK
		if ok {
			s, ok = f.spot(q.X, y(q))
		}
		if ok {
			piece = append(piece, s)
		} else if piece != nil {
			all, piece = append(all, piece), nil
		}
	}
	if piece != nil {
		all = append(all, piece)
	}
	return all
}

// pick takes points at shares of a piece's length.
func pick(piece []spot, shares ...float64) []spot {
	var list []spot
	for _, share := range shares {
		list = append(list, piece[int(share*float64(len(piece)-1)+0.5)])
	}
	return list
}

// series draws a line and its dots.
func (f *plot) series(s *Series) words {
	var line, dots pen
	w := words{part: "label " + string(s.Role), text: s.Label, away: 8}
	for _, piece := range f.pieces(s.Points, func(q Point) float64 { return q.Y }) {
		line.through(piece)
		for _, at := range piece {
			dots.dot(s.Dots, at)
		}
		if len(piece) == 1 {
			line.add("h", 0) // a round end makes it a dot
		}
		f.curves = append(f.curves, piece)
		w.near = append(w.near, pick(piece, 0.55, 0.7, 0.4, 0.85, 0.25, 1, 0)...)
	}
	part := "line " + string(s.Role)
	if s.Dash != Solid {
		part += " " + string(s.Dash)
	}
	f.path(part, line)
	f.path("dots "+string(s.Role), dots)
	return w
}

// band draws the interval of a series.
func (f *plot) band(s *Series) words {
	w := words{part: "label soft", text: s.Interval, away: 7}
	low := f.pieces(s.Points, func(q Point) float64 { return q.Low })
	high := f.pieces(s.Points, func(q Point) float64 { return q.High })
	if s.Interval == "" || len(low) != len(high) {
		return w
	}
	var p pen
	for i, up := range high {
		down := low[i]
		if len(up) != len(down) {
			continue
		}
		for j, at := range pick(up, 0.8, 0.6, 0.4, 0.9) {
			w.near = append(w.near, at, pick(down, 0.8, 0.6, 0.4, 0.9)[j])
		}
		if len(up) == 1 { // a lone interval is a whisker
			p.add("MhVhZ", up[0].x-3, up[0].y, 6, down[0].y, -6)
			continue
		}
		f.curves = append(f.curves, up, down)
		back := slices.Clone(down)
		slices.Reverse(back)
		p.through(append(slices.Clone(up), back...))
		p.add("Z")
	}
	f.path("band "+string(s.Role), p)
	return w
}

// limit draws a line across the field.
func (f *plot) limit(l Limit) words {
	w := words{part: "label", text: l.Text, away: 6}
	share, ok := f.y.place(l.At)
	from, to := spot{f.frame.left, f.up(share)}, spot{f.frame.right, f.up(share)}
	if l.Upright {
		share, ok = f.x.place(l.At)
		from, to = spot{f.right(share), f.frame.top - 4}, spot{f.right(share), f.frame.bottom}
	}
	if !ok {
		return w
	}
	f.shape("limit", "ML", from.x, from.y, to.x, to.y)
	f.curves = append(f.curves, []spot{from, to})
	for _, share := range [...]float64{0, 1, 0.1, 0.25, 0.5, 0.75, 0.9} {
		w.near = append(w.near, spot{from.x + share*(to.x-from.x), from.y + share*(to.y-from.y)})
	}
	return w
}

func (f *plot) mark(m Mark) words {
	w := words{part: "label " + string(m.Role), text: m.Text, away: 11}
	at, ok := f.spot(m.X, m.Y)
	if !ok {
		return w
	}
	w.near = []spot{at}
	if m.Shape == None {
		return w
	}
	var p pen
	p.dot(m.Shape, at)
	part := "dots "
	if m.Shape == Ring {
		part = "ring "
	}
	f.path(part+string(m.Role), p)
	f.taken = append(f.taken, box{at.x - 6, at.y - 6, at.x + 6, at.y + 6})
	return w
}

// label writes words near one of their places, broken into lines or not, where they cover
// least.
func (f *plot) label(text words) {
	if text.text == "" || len(text.near) == 0 {
		return
	}
	best, cost := box{}, math.Inf(1)
	var chosen []string
	for _, share := range [...]float64{0.62, 0.95, 0.4} {
		lines := wrap(text.text, (f.frame.right-f.frame.left)*share, f.em)
		if share != 0.62 && len(lines) == len(chosen) {
			continue
		}
		w := 0.0
		for _, l := range lines {
			w = math.Max(w, length(l, f.em))
		}
		h := float64(len(lines)) * f.line()
		for i, at := range text.near {
			for j, b := range beside(at, w, h, text.away) {
				now := float64(len(lines))*2 + float64(i)*1.5 + float64(j)*0.4
				if b, now = f.cost(b, now, cost); now < cost {
					best, cost, chosen = b, now, lines
				}
			}
		}
	}
	f.taken = append(f.taken, best)
	f.lines(text.part, chosen, best.left, best.top+f.em*0.98, f.line(), "")
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

// cost moves a box into the field and tells what it costs to write there: by what it covers,
// and by how far it sticks out. Once that is too much, lines under the box are not counted.
func (f *plot) cost(b box, now, tooMuch float64) (box, float64) {
	room := box{f.frame.left + 2, f.frame.top - 11, f.width, f.frame.bottom - 1}
	w, h := b.right-b.left, b.bottom-b.top
	b.left = math.Max(room.left, math.Min(b.left, room.right-w))
	b.top = math.Max(room.top, math.Min(b.top, room.bottom-h))
	b.right, b.bottom = b.left+w, b.top+h
	now += 60*b.outside(room) + 0.25*math.Max(0, b.right-f.frame.right)
	for _, t := range f.taken {
		if o := b.overlap(t); o > 0 {
			now += 200 + 2*o
		}
	}
	if now >= tooMuch {
		return b, now
	}
	for _, piece := range f.curves {
		for k := 1; k < len(piece); k++ {
			if b.crossed(piece[k-1], piece[k]) {
				now += 12
			}
		}
	}
	return b, now
}
