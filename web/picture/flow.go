package picture

import (
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// Flows shows where the manganese, the sulfur and the copper came from and where they
// stand at the end, out of the ledger and of nothing else. The book must hold its
// bookings.
func Flows(book *ledger.Book) chart.Picture {
	pic := chart.Picture{
		Name:  "flow",
		Note:  "Widths are moles, all to the same measure.",
		Table: chart.Table{Head: []string{"Element", "Where", "Amount", "Share"}},
	}
	for _, e := range [...]struct {
		element reaction.Element
		name    string
		role    chart.Role
	}{{reaction.Mn, "Manganese", chart.Rose}, {reaction.S, "Sulfur", chart.Ochre}, {reaction.Cu, "Copper", chart.Blue}} {
		in, out := sources(book, e.element), standing(book, e.element)
		flow := chart.Flow{Role: e.role}
		for _, a := range in {
			flow.In = append(flow.In, a.moles)
		}
		total := flow.Total()
		if !(total > 0) {
			continue
		}
		row := func(where string, moles float64) {
			pic.Table.Rows = append(pic.Table.Rows, []string{e.name, where, amount(moles), route.Print(100*(moles/total), "%")})
		}
		for _, a := range in {
			row("brought: "+a.name, a.moles)
		}
		for _, a := range out {
			row(a.name, a.moles)
		}
		flow.Head = e.name + ", " + amount(total) + outOf(in, e.name)
		for _, a := range together(out, total) {
			flow.Out = append(flow.Out, chart.Band{Text: amount(a.moles) + " " + a.name, Moles: a.moles, Role: a.role, Lost: a.lost})
		}
		if pic.Title == "" {
			pic.Title = flowTitle(book, e.name, total)
		}
		pic.Flows = append(pic.Flows, flow)
	}
	if pic.Flows == nil {
		pic.Why = "Nothing has been brought in."
	}
	return pic
}

// place is where a part of an element comes from or stands.
type place struct {
	name  string
	moles float64
	role  chart.Role
	lost  bool
}

// ends are the vessels in the order in which the picture lists them, with what it calls
// them.
var ends = [...]struct {
	vessel ledger.Vessel
	name   string
	role   chart.Role
	lost   bool
}{
	{ledger.ProductJar, "in the jar", chart.Rose, false},
	{ledger.CopperJar, "in blue crystals", chart.Blue, false},
	{ledger.Reserve, "kept for later runs", chart.Zinc, false},
	{ledger.Cells, "in the cells", chart.Zinc, false},
	{ledger.Tray, "with cans and rods", chart.Zinc, false},
	{ledger.Mix, "in the black mix", chart.Zinc, false},
	{ledger.WashLiquor, "in the wash liquor", chart.Zinc, false},
	{ledger.Generator, "left in the flask", chart.Zinc, false},
	{ledger.Trap, "in the trap", chart.Zinc, false},
	{ledger.Slurry, "in the slurry", chart.Zinc, false},
	{ledger.Residue, "in the black residue", chart.Zinc, false},
	{ledger.Filtrate, "in the filtrate", chart.Zinc, false},
	{ledger.Dish, "in the dish", chart.Zinc, false},
	{ledger.MotherLiquor, "in the pink mother liquor", chart.Zinc, false},
	{ledger.CopperResidue, "filtered off, black", chart.Zinc, false},
	{ledger.CopperLiquor, "in the blue mother liquor", chart.Zinc, false},
	{ledger.Scrubber, "in the scrubber", chart.Ochre, false},
	{ledger.Vent, "to the air", chart.Ochre, true},
	{ledger.Losses, "lost on the way", chart.Zinc, true},
}

// sources are what brought the element in.
func sources(book *ledger.Book, e reaction.Element) []place {
	var list []place
	at := map[string]int{}
	for _, line := range book.Bookings() {
		n := float64(line.Moles) * line.Substance.Atoms(e)
		if line.Kind != ledger.Brought || n == 0 {
			continue
		}
		name := source(line)
		i, known := at[name]
		if !known {
			i, list = len(list), append(list, place{name: name})
			at[name] = i
		}
		list[i].moles += n
	}
	return list
}

// source says in what the matter came.
func source(line ledger.Booking) string {
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

// standing is where the element stands at the end.
func standing(book *ledger.Book, e reaction.Element) []place {
	var list []place
	for _, end := range ends {
		if n := float64(book.Element(end.vessel, e)); n > 0 {
			list = append(list, place{end.name, n, end.role, end.lost})
		}
	}
	return list
}

// together makes one of the small parts, where there are several.
func together(list []place, total float64) []place {
	const small = 0.004 // of the total
	rest := place{name: "elsewhere", role: chart.Zinc, lost: true}
	var large []place
	for _, a := range list {
		if a.moles < small*total {
			rest.moles += a.moles
		} else {
			large = append(large, a)
		}
	}
	if len(list)-len(large) < 2 {
		return list
	}
	return append(large, rest)
}

// outOf says what the element came in.
func outOf(in []place, element string) string {
	if len(in) == 1 {
		if in[0].name == strings.ToLower(element) {
			return ""
		}
		return " out of " + in[0].name
	}
	var parts []string
	for _, a := range in {
		parts = append(parts, amount(a.moles)+" as "+a.name)
	}
	return ": " + strings.Join(parts, ", ")
}

func flowTitle(book *ledger.Book, element string, total float64) string {
	if element != "Manganese" {
		return "Of " + amount(total) + " of " + strings.ToLower(element) + " the jar holds none"
	}
	title := "Of " + amount(total) + " of manganese, " + amount(float64(book.Element(ledger.ProductJar, reaction.Mn))) + " reach the jar"
	if kept := float64(book.Element(ledger.Reserve, reaction.Mn)); kept > 0.005*total {
		title += " and " + amount(kept) + " are kept for later runs"
	}
	return title
}

// amount writes moles as a person reads them.
func amount(moles float64) string { return route.Print(moles*1000, "mmol") }
