package chart

import (
	"math"
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Flows shows where the manganese, the sulfur and the copper of a run came from
// and where they stand after it, out of the ledger and of nothing else. The run
// must have kept its bookings.
func Flows(b *route.Bench) Picture {
	pic := Picture{
		Name:  "flow",
		Note:  "Widths are moles, all to the same measure.",
		Table: Table{Head: []string{"Element", "Where", "Amount", "Share"}},
	}
	for _, e := range [...]struct {
		element reaction.Element
		name    string
		role    Role
	}{{reaction.Mn, "Manganese", Rose}, {reaction.S, "Sulfur", Ochre}, {reaction.Cu, "Copper", Blue}} {
		f := flowOf(b.Book(), e.element)
		f.Element, f.Role = e.name, e.role
		total := f.Total()
		if !(total > 0) || !drawable(total) {
			continue
		}
		pic.Flows = append(pic.Flows, f)
		for _, in := range f.In {
			pic.Table.Rows = append(pic.Table.Rows, []string{e.name, "brought: " + in.Name, amount(in.Moles), share(in.Moles / total)})
		}
		for _, out := range f.Out {
			pic.Table.Rows = append(pic.Table.Rows, []string{e.name, out.Name, amount(out.Moles), share(out.Moles / total)})
		}
	}
	if len(pic.Flows) == 0 {
		pic.Why = "Nothing has been brought in."
		return pic
	}
	pic.Title = flowTitle(b.Book(), &pic.Flows[0])
	return pic
}

// ends are the vessels in the order in which the picture lists them, with what it
// calls them.
var ends = [...]struct {
	vessel ledger.Vessel
	name   string
	role   Role
	lost   bool
}{
	{ledger.ProductJar, "in the jar", Rose, false},
	{ledger.CopperJar, "in blue crystals", Blue, false},
	{ledger.Reserve, "kept for later runs", Zinc, false},
	{ledger.Cells, "in the cells", Zinc, false},
	{ledger.Tray, "with cans and rods", Zinc, false},
	{ledger.Mix, "in the black mix", Zinc, false},
	{ledger.WashLiquor, "in the wash liquor", Zinc, false},
	{ledger.Generator, "left in the flask", Zinc, false},
	{ledger.Trap, "in the trap", Zinc, false},
	{ledger.Slurry, "in the slurry", Zinc, false},
	{ledger.Residue, "in the black residue", Zinc, false},
	{ledger.Filtrate, "in the filtrate", Zinc, false},
	{ledger.Dish, "in the dish", Zinc, false},
	{ledger.MotherLiquor, "in the pink mother liquor", Zinc, false},
	{ledger.CopperResidue, "filtered off, black", Zinc, false},
	{ledger.CopperLiquor, "in the blue mother liquor", Zinc, false},
	{ledger.Scrubber, "in the scrubber", Ochre, false},
	{ledger.Vent, "to the air", Ochre, true},
	{ledger.Losses, "lost on the way", Zinc, true},
}

// flowOf reads one element off the book.
func flowOf(book *ledger.Book, e reaction.Element) Flow {
	var f Flow
	for _, line := range book.Bookings() {
		if line.Kind != ledger.Brought {
			continue
		}
		n := float64(line.Moles) * line.Substance.Atoms(e)
		if n == 0 {
			continue
		}
		name := bring(line)
		at := len(f.In)
		for i := range f.In {
			if f.In[i].Name == name {
				at = i
			}
		}
		if at == len(f.In) {
			f.In = append(f.In, Band{Name: name})
		}
		f.In[at].Moles += n
	}
	for _, end := range ends {
		if n := float64(book.Element(end.vessel, e)); n > 0 {
			f.Out = append(f.Out, Band{Name: end.name, Moles: n, Role: end.role, Lost: end.lost})
		}
	}
	return f
}

// bring says in what the matter came.
func bring(line ledger.Booking) string {
	acid := line.Substance == reaction.SulfuricAcid
	switch {
	case line.To == ledger.Cells:
		return "the cells"
	case acid && line.To == ledger.Generator:
		return "strong acid"
	case acid && line.To == ledger.Mix:
		return "rinsing acid"
	case acid:
		return "dilute acid"
	case line.Substance == reaction.SodiumMetabisulfite:
		return "metabisulfite"
	}
	return line.Substance.Name()
}

func flowTitle(book *ledger.Book, f *Flow) string {
	e := reaction.Mn
	jar := float64(book.Element(ledger.ProductJar, e))
	if f.Element != "Manganese" {
		return "Of " + amount(f.Total()) + " of " + strings.ToLower(f.Element) + " the jar holds none"
	}
	title := "Of " + amount(f.Total()) + " of manganese, " + amount(jar) + " reach the jar"
	if kept := float64(book.Element(ledger.Reserve, e)); kept > 0.005*f.Total() {
		title += " and " + amount(kept) + " are kept for later runs"
	}
	return title
}

func share(part float64) string { return route.Print(100*part, "%") }

// shown are the bands that get a ribbon: small ones, if there are several, go
// together.
func (f *Flow) shown() []Band {
	const small = 0.004
	total, few := f.Total(), 0
	for _, b := range f.Out {
		if b.Moles < small*total {
			few++
		}
	}
	if few < 2 {
		return f.Out
	}
	rest := Band{Name: "elsewhere", Role: Zinc, Lost: true}
	list := make([]Band, 0, len(f.Out))
	for _, b := range f.Out {
		if b.Moles < small*total {
			rest.Moles += b.Moles
		} else {
			list = append(list, b)
		}
	}
	return append(list, rest)
}

// widestBand is how wide the largest total is drawn.
const widestBand = 78

// flows lays the flows out one below the other, all to one measure; one that
// would be too thin to see is drawn ten times as wide, and says so.
func (d *drawing) flows(p *Picture) {
	most := 0.0
	for i := range p.Flows {
		most = math.Max(most, p.Flows[i].Total())
	}
	top := 0.0
	for i := range p.Flows {
		f := &p.Flows[i]
		times, name := 1.0, ""
		for f.Total()*times*10 <= most && times < 1e6 {
			times *= 10
		}
		if times > 1 {
			name = " (drawn " + fixed(times, 0) + " times as wide)"
		}
		top = d.flow(f, top, widestBand/most*times, name)
	}
	d.height = top - 10
}

// flow draws one element: a trunk of all that was brought in, cut where its
// sources meet, and a ribbon to each place where it stands at the end.
func (d *drawing) flow(f *Flow, top, scale float64, note string) float64 {
	head := f.Element + ", " + amount(f.Total())
	if len(f.In) == 1 && f.In[0].Name != strings.ToLower(f.Element) {
		head += " out of " + f.In[0].Name
	} else if len(f.In) > 1 {
		var parts []string
		for _, in := range f.In {
			parts = append(parts, amount(in.Moles)+" as "+in.Name)
		}
		head += ": " + strings.Join(parts, ", ")
	}
	for _, line := range wrap(head+note, d.width, d.em*1.16) {
		d.write("head", line, 0, top+d.em, "")
		top += d.line()
	}
	top += 8

	trunk, turn := 0.16*d.width, 0.4*d.width
	words := turn + 10
	var cuts pen
	y := top
	for i, in := range f.In {
		if y += in.Moles * scale; i+1 < len(f.In) {
			cuts.op('M', 0, y).op('H', trunk)
		}
	}
	var trunkPath pen
	trunkPath.op('M', 0, top).op('H', trunk).op('V', y).op('H', 0).op('Z')

	from, to := top, top
	for _, b := range f.shown() {
		w := b.Moles * scale
		lines := wrap(amount(b.Moles)+" "+b.Name, d.width-words, d.em)
		slot := math.Max(w, float64(len(lines))*d.line())
		at := to
		if to > top { // all but the first stand in the middle of their place
			at += (slot - w) / 2
		}
		middle := (trunk + turn) / 2
		var p pen
		p.op('M', trunk, from).op('C', middle, from, middle, at, turn, at).op('v', w)
		p.op('C', middle, at+w, middle, from+w, trunk, from+w).op('Z')
		part := "flow " + string(b.Role)
		if b.Lost {
			part += " lost"
		}
		d.path(part, p.String())
		first := math.Max(at+w/2-float64(len(lines))*d.line()/2, to-7)
		for i, l := range lines {
			d.write("name", l, words, first+float64(i)*d.line()+d.em*0.98, "")
		}
		from += w
		to += slot + 6
	}
	d.path("flow "+string(f.Role), trunkPath.String())
	d.path("cut "+string(f.Role), cuts.String())
	return math.Max(to, y) + 16
}
