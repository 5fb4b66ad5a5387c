package web

import (
	"errors"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/account"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/link"
	"rosesalt/web/runs"
)

// The actions about runs that are kept.
const (
	keepAction   = "keep"   // with nothing
	openAction   = "open"   // with a run's ID
	forgetAction = "forget" // with a run's ID
	exportAction = "export" // with "json" or "csv"
	importAction = "import" // with nothing
)

// localShelf is the browser's local storage, which may be full or forbidden.
type localShelf struct{}

func (localShelf) Load(key string) (text string, err error) {
	defer func() {
		if recover() != nil {
			err = runs.ErrForbidden
		}
	}()
	if v := app.Window().Get("localStorage").Call("getItem", key); v.Truthy() {
		text = v.String()
	}
	return text, nil
}

func (localShelf) Save(key, value string) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = runs.ErrForbidden
			if e, ok := r.(error); ok && strings.Contains(e.Error(), "quota") {
				err = errors.Join(runs.ErrFull, e)
			}
		}
	}()
	app.Window().Get("localStorage").Call("setItem", key, value)
	return nil
}

// keptView is the list of runs that are kept.
type keptView struct {
	Runs     []keptRun
	Can      bool // there is something measured to keep
	Troubles []string
}

type keptRun struct{ ID, Kept, Name, Planned, Found string }

func (p *page) kept() keptView {
	v := keptView{Can: !p.desk.Found().Empty(), Troubles: p.troubled}
	if p.store == nil {
		return v
	}
	for _, run := range p.store.List() {
		row := keptRun{ID: run.ID, Kept: run.Kept, Name: run.Name}
		if at, err := time.Parse(time.RFC3339, run.Kept); err == nil {
			row.Kept = at.Format("2 January 2006, 15:04")
		}
		c, _ := link.Decode(run.Plan)
		sheet := new(route.Bench).Run(&c.Plan)
		row.Planned = orDash(sheet.Value(route.ProductMass), "g")
		row.Found = "–"
		if g, ok := run.Found[account.KeyProduct]; ok {
			row.Found = route.Print(g, "g")
		}
		v.Runs = append(v.Runs, row)
	}
	return v
}

// openStore opens what this browser keeps, and listens to other pages.
func (p *page) openStore() {
	p.store, _ = p.tell(runs.Open(localShelf{}))
	p.closers = append(p.closers, app.Window().AddEventListener("storage", func(app.Context, app.Event) {
		p.say(p.store.Sync())
		p.redraw()
	}))
}

func (p *page) tell(store *runs.Store, troubles []runs.Trouble) (*runs.Store, []runs.Trouble) {
	p.say(troubles)
	return store, troubles
}

// say keeps what went wrong for the reader.
func (p *page) say(troubles []runs.Trouble) {
	p.troubled = nil
	for _, t := range troubles {
		p.troubled = append(p.troubled, t.String())
	}
}

func (p *page) onKeep(_ app.Context, _ app.Action) {
	run := runs.Run{Kept: time.Now().UTC().Format(time.RFC3339), Plan: p.desk.Fragment(), Found: map[string]float64{}}
	for _, in := range account.Inputs() {
		if v := p.desk.Found().Value(in.Key); quantity.Given(v) && !(account.IsFact(in.Key) && v == 0) {
			run.Found[in.Key] = v
		}
	}
	_, troubles := p.store.Keep(run)
	p.say(troubles)
	p.redraw()
}

func (p *page) onOpen(ctx app.Context, a app.Action) {
	id, _ := a.Value.(string)
	run, ok := p.store.Get(id)
	if !ok {
		return
	}
	p.desk.Open(run.Plan)
	p.opened, p.pushed = true, false // Back returns to the plan before
	p.changed(ctx)
}

func (p *page) onForget(_ app.Context, a app.Action) {
	id, _ := a.Value.(string)
	p.say(p.store.Drop(id))
	p.redraw()
}

func (p *page) onExport(_ app.Context, a app.Action) {
	if a.Value == "csv" {
		var b strings.Builder
		if err := p.store.Book().WriteCSV(&b, runs.Expected("product.mass"), runs.Expected("copper.crop")); err == nil {
			save("rosesalt-runs.csv", "text/csv", b.String())
		}
		return
	}
	save("rosesalt-runs.json", "application/json", string(p.store.Book().Encode()))
}

// onImport takes the runs of a text that was pasted.
func (p *page) onImport(_ app.Context, _ app.Action) {
	area := app.Window().GetElementByID("runs.text")
	if !area.Truthy() {
		return
	}
	book, troubles := runs.Decode(strings.NewReader(area.Get("value").String()))
	report, more := p.store.Merge(book)
	p.say(append(troubles, more...))
	p.troubled = append([]string{report.String()}, p.troubled...)
	area.Set("value", "")
	p.redraw()
}

// save hands a text to the browser as a file.
func save(name, kind, text string) {
	blob := app.Window().Get("Blob").New([]any{text}, map[string]any{"type": kind})
	address := app.Window().Get("URL").Call("createObjectURL", blob)
	link := app.Window().Get("document").Call("createElement", "a")
	link.Set("href", address)
	link.Set("download", name)
	link.Call("click")
	app.Window().Get("URL").Call("revokeObjectURL", address)
}

// keptRuns is the list of runs, with what can be done with them.
type keptRuns struct {
	app.Compo
	View keptView
}

func (k *keptRuns) Render() app.UI {
	v := k.View
	return app.Elem("div").Class("next").Body(
		app.Elem("h3").Text("Runs kept in this browser"),
		app.Range(v.Troubles).Slice(func(i int) app.UI { return app.Elem("p").Class("note mind").Role("status").Text(v.Troubles[i]) }),
		keepButton(v.Can),
		keptTable(v.Runs),
		app.Elem("details").Body(
			app.Elem("summary").Text("Take runs to another browser, or bring them here"),
			app.Elem("p").Body(
				app.Elem("button").Attr("type", "button").Class("plain").Text("Save all as a file (JSON)").OnClick(send(exportAction, "json"), "json"), app.Text(" "),
				app.Elem("button").Attr("type", "button").Class("plain").Text("Save as a table (CSV)").OnClick(send(exportAction, "csv"), "csv"),
			),
			app.Elem("label").Attr("for", "runs.text").Text("Paste the text of such a file here"),
			app.Elem("textarea").ID("runs.text").Attr("rows", "4"),
			app.Elem("button").Attr("type", "button").Class("plain").Text("Bring these runs in").OnClick(send(importAction, ""), importAction),
		),
	)
}

func keepButton(can bool) app.UI {
	if !can {
		return app.Elem("p").Class("lede soft").Text("Type a weighing above, and the run can be kept.")
	}
	return app.Elem("button").Attr("type", "button").Class("plain").Text("Keep this run, plan and weighings").OnClick(send(keepAction, ""), keepAction)
}

func keptTable(list []keptRun) app.UI {
	if len(list) == 0 {
		return nil
	}
	heads := []string{"Kept", "Planned", "Found", ""}
	return app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", "Runs kept").Body(app.Elem("table").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(app.Range(heads).Slice(func(i int) app.UI { return app.Elem("th").Attr("scope", "col").Text(heads[i]) }))),
		app.Elem("tbody").Body(app.Range(list).Slice(func(i int) app.UI {
			r := list[i]
			return app.Elem("tr").Body(
				app.Elem("th").Attr("scope", "row").Text(strings.TrimSpace(r.Kept+" "+r.Name)),
				app.Elem("td").Text(r.Planned), app.Elem("td").Text(r.Found),
				app.Elem("td").Body(
					app.Elem("button").Attr("type", "button").Class("plain").Text("Open").Aria("label", "Open the run kept "+r.Kept).OnClick(send(openAction, r.ID), r.ID), app.Text(" "),
					app.Elem("button").Attr("type", "button").Class("plain").Text("Forget").Aria("label", "Forget the run kept "+r.Kept).OnClick(send(forgetAction, r.ID), r.ID),
				),
			)
		})),
	))
}

func send(action, value string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(action, value) }
}
