package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
)

const (
	waysTitle   = "Other ways"
	purityTitle = "Purity"
)

// wayView is a column of the table of ways: the plan with one reductant.
type wayView struct {
	Word, Name string
	Chosen     bool
	Problem    string
	Cells      []string // as waysHeads
	Cautions   []string
}

// waysView is the table of ways.
type waysView struct {
	Ways  []wayView
	Fixed bool // a run has its plan fixed
}

// waysHeads name the rows of the table.
var waysHeads = [...]string{"Reductant, as bought", "Sulfuric acid, concentrated", "Gas to handle", "Heat", "Froth", "In the jar", "Of it manganese sulfate", "Left in it besides"}

func waysOf(d *desk.Desk) waysView {
	v := waysView{Fixed: d.Started() != nil}
	ways := route.Ways(d.Plan())
	for i := range ways {
		w := &ways[i]
		column := wayView{Word: w.Word, Name: w.Name, Chosen: w.Plan.GasSource == d.Plan().GasSource, Problem: w.Problem}
		if w.Problem == "" {
			column.Cells = wayCells(w)
			column.Cautions = ownCautions(w)
		}
		v.Ways = append(v.Ways, column)
	}
	return v
}

func wayCells(w *route.Way) []string {
	print := func(id route.FigureID) string { return orDash(w.Sheet.Value(id), id.Info().Unit) }
	froth := "none"
	if v := w.Sheet.Value(route.StirFroth); v > 0 {
		froth = route.Print(v, "L")
	}
	return []string{
		route.Print(w.Reductant.Amount, w.Reductant.Unit) + " " + lower(w.Reductant.Name), route.Print(w.Acid.Amount, w.Acid.Unit),
		listed(w.Gases), print(route.ReduceHeat), froth, print(route.ProductMass), print(route.ProductPurity), listed(w.Leaves),
	}
}

// lower begins a name in the middle of a sentence.
func lower(name string) string { return strings.ToLower(name[:1]) + name[1:] }

// listed writes needs as a list in words.
func listed(list []route.Need) string {
	var words []string
	for _, n := range list {
		s := route.Print(n.Amount, n.Unit) + " " + n.Name
		if n.For != "" {
			s += " " + n.For
		}
		words = append(words, s)
	}
	if words == nil {
		return "nothing to speak of"
	}
	return strings.Join(words, "; ")
}

// ownCautions are the leads of what a way asks for while the oxide is reduced.
func ownCautions(w *route.Way) []string {
	var list []string
	for _, stage := range []route.Stage{route.Gas, route.Slurry, route.CopperSalt} {
		for _, c := range safety.Cautions(stage, &w.Plan) {
			list = append(list, c.Lead)
		}
	}
	return list
}

// ways sets the reductants side by side.
type ways struct {
	app.Compo
	View waysView
}

func (w *ways) Render() app.UI {
	list := w.View.Ways
	return plainSection(waysTitle, "the same salt by another reductant",
		app.Elem("p").Class("lede").Text("The plan as it stands, worked out with each reductant. A charge that you gave for one means nothing in another; dilute acid that you gave stays, so leave it blank to compare them fairly."),
		app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", "The ways side by side").Body(app.Elem("table").Class("ways").Body(
			app.Elem("thead").Body(app.Elem("tr").Body(
				app.Elem("td"),
				app.Range(list).Slice(func(i int) app.UI { return w.head(&list[i]) }),
			)),
			app.Elem("tbody").Body(
				app.Range(waysHeads[:]).Slice(func(row int) app.UI {
					return app.Elem("tr").Body(app.Elem("th").Attr("scope", "row").Text(waysHeads[row]), app.Range(list).Slice(func(i int) app.UI {
						if list[i].Problem != "" {
							return app.Elem("td").Text("–")
						}
						return app.Elem("td").Text(list[i].Cells[row])
					}))
				}),
				app.Elem("tr").Body(app.Elem("th").Attr("scope", "row").Text("Mind"), app.Range(list).Slice(func(i int) app.UI {
					text := strings.Join(list[i].Cautions, " ")
					if list[i].Problem != "" {
						text = list[i].Problem
					}
					return app.Elem("td").Text(text)
				})),
			),
		)),
	)
}

func (w *ways) head(v *wayView) app.UI {
	choose := app.Elem("p")
	if v.Chosen {
		choose = choose.Class("soft").Text("This is the plan.")
	}
	if !v.Chosen && v.Problem == "" && !w.View.Fixed {
		choose = app.Elem("p").Body(app.Elem("button").Attr("type", "button").Class("plain").ID("way."+v.Word).Text("Make this the plan").
			Aria("label", "Make this the plan: "+v.Name).OnClick(w.onChoose(v.Word), v.Word))
	}
	return app.Elem("th").Attr("scope", "col").Body(app.Text(v.Name), choose)
}

func (w *ways) onChoose(word string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(editAction, edit{"gas.source", word}) }
}

// purityRow is a step of the table of purity.
type purityRow struct {
	Name, How string
	Cells     []string
}

// purityView is what lies in the jar beside the salt, and what takes it out.
type purityView struct {
	Heads   []string
	Rows    []purityRow
	Taken   string // how much grows into crystals
	Remains string
}

func purityOf(d *desk.Desk) purityView {
	q, ok := route.Purify(d.Plan())
	if !ok {
		return purityView{}
	}
	rows := append([]route.Remedy{q.Now}, q.Steps...)
	rows = append(rows, q.All)
	v := purityView{Heads: []string{"Step", "In the jar", "Manganese sulfate", "Pure salt, of this plan’s"}}
	var shown []int // companions that any row holds
	for i, name := range q.Companions {
		for _, r := range rows {
			if r.Left[i] >= 0.05 {
				shown = append(shown, i)
				v.Heads = append(v.Heads, name)
				break
			}
		}
	}
	for _, r := range rows {
		row := purityRow{Name: r.Name, How: r.How, Cells: []string{route.Print(r.Product, "g"), orDash(r.Purity, "%"), orDash(r.Keeps, "%")}}
		for _, i := range shown {
			left := "–"
			if quantity.Given(r.Left[i]) {
				left = route.Fixed(r.Left[i], 1)
			}
			row.Cells = append(row.Cells, left)
		}
		v.Rows = append(v.Rows, row)
	}
	v.Taken = "Of the zinc and the ammonium a part grows into the crystals, here " + route.Print(float64(d.Plan().CropTaken), "%") + " of an even share: what is washed out before the oxide dissolves is gone for good."
	v.Remains = "All of them together leave hardly anything."
	if remains := q.Remains(); len(remains) > 0 {
		v.Remains = "All of them together still leave, to 100 g of salt: " + listed(remains) + "."
	}
	return v
}

// purity is the section of purity.
type purity struct {
	app.Compo
	View purityView
}

func (p *purity) Render() app.UI {
	v := p.View
	if len(v.Rows) == 0 {
		return plainSection(purityTitle, "what comes with the salt", app.Elem("p").Class("lede").Text("There is no salt in the jar."))
	}
	return plainSection(purityTitle, "what comes with the salt, and what takes it out",
		app.Elem("p").Class("lede").Text("Grams of each companion to 100 g of anhydrous manganese sulfate. Each step is the plan run again with that one thing changed, or the jar recrystallised. "+v.Taken),
		app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", "What each step takes out").Body(app.Elem("table").Body(
			app.Elem("thead").Body(app.Elem("tr").Body(app.Range(v.Heads).Slice(func(i int) app.UI { return app.Elem("th").Attr("scope", "col").Text(v.Heads[i]) }))),
			app.Elem("tbody").Body(app.Range(v.Rows).Slice(func(i int) app.UI {
				r := v.Rows[i]
				name := app.Elem("th").Attr("scope", "row").Text(r.Name)
				if r.How != "" {
					name = app.Elem("th").Attr("scope", "row").Body(app.Text(r.Name), app.Elem("small").Text(" "+r.How))
				}
				return app.Elem("tr").Body(name, app.Range(r.Cells).Slice(func(j int) app.UI { return app.Elem("td").Text(r.Cells[j]) }))
			})),
		)),
		app.Elem("p").Class("lede").Text(v.Remains+" It is not for food, feed or plants, whatever is done."),
	)
}
