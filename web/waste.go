package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

const bottlesTitle = "Waste bottles"

// bottlesView is the register of the waste, and what a room would breathe.
type bottlesView struct {
	Bottles []bottleView
	Never   [][]string // all that must never meet, or was considered
	Limits  [][]string
	Running [][]string // of all kept runs together
	Runs    int
	Room    string
}

type bottleView struct {
	Name, Amount, Holds, Soda, Treat, Keep string
	Never                                  []string
}

func bottlesOf(d *desk.Desk) bottlesView {
	var v bottlesView
	for _, b := range safety.Bottles(d.Plan(), d.Bench().Book(), d.Sheet()) {
		v.Bottles = append(v.Bottles, bottleOf(b))
	}
	for _, m := range safety.MeetingsOf(d.Plan()) {
		comes := m.Comes + "."
		if !m.Harm {
			comes = "Considered: " + comes
		}
		if m.Instead != "" {
			comes += " Instead: " + m.Instead
		}
		v.Never = append(v.Never, []string{safety.Listed(m.Of), safety.Listed(m.With), comes, m.Source})
	}
	for _, h := range route.HeldAgainst(d.Plan(), d.Sheet()) {
		source := h.Limit.Source
		if h.Limit.Memory {
			source += " (from memory)"
		}
		printed := route.Print(float64(h.Limit.PPM), "ppm")
		if h.Limit.MgPerM3 > 0 {
			printed += ", " + route.Print(h.Limit.MgPerM3, "mg/m³")
		}
		v.Limits = append(v.Limits, []string{
			h.Limit.Name, h.Limit.Jurisdiction, printed, route.Print(float64(h.Mean), "ppm"),
			route.Print(float64(h.Mean/h.Limit.PPM), "×"), source,
		})
	}
	p := d.Plan()
	v.Room = "If " + route.Print(float64(route.Escapes(p)), "%") + " of the gas not taken up got into a room of " +
		route.Print(float64(p.RoomVolume), "m³") + " whose air is changed " + route.Print(float64(p.RoomChanges), "×") + " an hour"
	return v
}

// running adds up the bottles of the plans of kept runs.
func running(fragments []string) [][]string {
	var all [][]safety.Bottle
	var bench route.Bench
	for _, f := range fragments {
		c, _ := link.Decode(f)
		sheet := bench.Run(&c.Plan)
		all = append(all, safety.Bottles(&c.Plan, bench.Book(), sheet))
	}
	var rows [][]string
	for _, b := range safety.Together(all...) {
		if b.Mass <= 0 {
			continue
		}
		v := bottleOf(b)
		soda := "–"
		if b.Soda > 0 {
			soda = route.Print(float64(b.Soda), "g")
		}
		rows = append(rows, []string{b.Name, v.Amount, route.Print(float64(b.Metals[0]), "g"), route.Print(float64(b.Metals[1]), "g"), route.Print(float64(b.Metals[2]), "g"), soda})
	}
	return rows
}

func runningTable(v bottlesView) app.UI {
	if len(v.Running) == 0 {
		return nil
	}
	title := "What stands in the bottles after the " + route.Print(float64(v.Runs), "") + " kept runs"
	if v.Runs == 1 {
		title = "What stands in the bottles after the one kept run"
	}
	return app.Elem("details").Body(
		app.Elem("summary").Text(title),
		table([]string{"Bottle", "Holds", "Copper", "Zinc", "Manganese", "Soda for it"}, v.Running, "Waste of all kept runs"),
	)
}

func bottleOf(b safety.Bottle) bottleView {
	v := bottleView{Name: b.Name, Treat: b.Treat, Keep: b.Keep, Never: b.Never}
	switch {
	case b.Volume > 0:
		v.Amount = route.Print(float64(b.Volume), "mL") + " of water in it"
	case b.Mass > 0:
		v.Amount = route.Print(float64(b.Mass), "g") + ", damp"
	}
	const most = 6 // lines that a label has room for
	for i, h := range b.Holds {
		if i == most {
			v.Holds += ", and traces"
			break
		}
		if i > 0 {
			v.Holds += ", "
		}
		v.Holds += route.Print(float64(h.Mass), "g") + " " + h.Name
	}
	if b.Soda > 0 {
		v.Soda = "About " + route.Print(float64(b.Soda), "g") + " of soda, anhydrous, for its acid and metals."
	}
	if b.Acid > 0 {
		v.Soda = "About " + route.Print(float64(b.Acid), "mL") + " of dilute acid, 1 mol/L; stop at pH 9."
	}
	return v
}

// bottles is the section of the waste.
type bottles struct {
	app.Compo
	folds
	View bottlesView
}

func (b *bottles) Render() app.UI {
	v := b.View
	return plainSection(bottlesTitle, "each stream on its own, with what is in it",
		app.Elem("p").Class("lede").Text("A bottle for each, labelled and dated, for collection. Whether you may treat anything yourself is for your waste authority; treating only makes a bottle less harmful, never fit for the drain."),
		app.Elem("div").Class("bottles").Body(app.Range(v.Bottles).Slice(func(i int) app.UI { return bottle(v.Bottles[i]) })),
		b.fold("never", "What must never meet, pair by pair, and what was considered", false, func() []app.UI { return neverTable(v) }),
		runningTable(v),
		limitsTable(v),
	)
}

func bottle(b bottleView) app.UI {
	body := []app.UI{app.Elem("h3").Text(b.Name)}
	if b.Amount != "" {
		body = append(body, app.Elem("p").Class("amount num").Text(b.Amount))
	}
	if b.Holds != "" {
		body = append(body, app.Elem("p").Class("soft").Text("In it: "+b.Holds+"."))
	}
	body = append(body,
		app.Elem("p").Body(app.Elem("b").Text("Never meets ")),
		app.Elem("ul").Class("gear").Body(app.Range(b.Never).Slice(func(i int) app.UI { return app.Elem("li").Text(b.Never[i]) })),
	)
	for _, text := range []string{b.Treat, b.Soda, b.Keep} {
		if text != "" {
			body = append(body, app.Elem("p").Text(text))
		}
	}
	return app.Elem("div").Class("bottle").Body(body...)
}

func neverTable(v bottlesView) []app.UI {
	return []app.UI{
		app.Elem("p").Class("lede").Text("Each of the first column with each of the second, the gravest first. “Considered” is no leave to pour them together: each stream stays on its own. What is not here has not been considered."),
		table([]string{"This", "With", "What comes of it", "Source"}, v.Never, "What must never meet"),
	}
}

func limitsTable(v bottlesView) app.UI {
	if len(v.Limits) == 0 {
		return nil
	}
	return app.Elem("details").Body(
		app.Elem("summary").Text("Held against each published limit: what a room would breathe"),
		app.Elem("p").Class("lede").Text(v.Room+". Well-mixed air is assumed; near the leak it is several times more. A room is no control for this gas, and a figure under a limit is no permit."),
		table([]string{"Limit", "Where", "As printed", "Worst mean", "Of the limit", "Source"}, v.Limits, "Published limits for sulfur dioxide"),
	)
}

// table is a table of text, the first cell of each row its name.
func table(heads []string, rows [][]string, label string) app.UI {
	return app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", label).Body(app.Elem("table").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(app.Range(heads).Slice(func(i int) app.UI { return app.Elem("th").Attr("scope", "col").Text(heads[i]) }))),
		app.Elem("tbody").Body(app.Range(rows).Slice(func(i int) app.UI {
			row := rows[i]
			return app.Elem("tr").Body(app.Range(row).Slice(func(j int) app.UI {
				if j == 0 {
					return app.Elem("th").Attr("scope", "row").Text(row[j])
				}
				return app.Elem("td").Text(row[j])
			}))
		})),
	))
}

// runningBottles are those of all kept runs.
func (p *page) runningBottles() (rows [][]string, runs int) {
	if p.kept.store == nil {
		return nil, 0
	}
	var fragments []string
	for _, s := range p.kept.store.Book().List() {
		fragments = append(fragments, s.Plan)
	}
	return running(fragments), len(fragments)
}
