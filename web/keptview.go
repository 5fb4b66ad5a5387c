package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/runs"
)

// keptView is the section of kept runs.
type keptView struct {
	Rows     []keptRow
	Troubles []string // how storage stands
	Says     []string
	Undo     string // the run that was forgotten last
	Opened   string // state, and its name
	OpenName string
	Together []string // what the runs that are ticked tell
	Note     string
	Weighed  bool // there is something weighed on the page
}

type keptRow struct {
	ID, Name, When, Notes                                string
	Cells, Planned, Copper, Found, Yield, Uptake, Charge string
	Split, Tells, Counted                                bool
}

// calls is what a run is called in a sentence, which its name must not turn round.
func (r *keptRow) calls() string {
	if r.Name != "" {
		return "“" + route.Clip(r.Name, runs.MaxName) + "”"
	}
	return "the run of " + r.When
}

// keptRuns is the section of kept runs.
type keptRuns struct {
	app.Compo
	View keptView
}

func (k *keptRuns) Render() app.UI {
	v := k.View
	return plainSection(keptTitle, "in this browser, side by side, and what they tell together",
		app.Elem("p").Class("lede").Text("A run is kept with its plan, what you weighed, and what the account made of it, in this browser only. Clearing its data clears them: save a file too."),
		app.Elem("div").Class("keep").Body(
			app.Elem("label").Attr("for", nameID).Text("Name of this run"),
			app.Elem("div").Class("in").Body(app.ElemSelfClosing("input").Attr("type", "text").ID(nameID).Attr("maxlength", runs.MaxName).Attr("autocomplete", "off")),
			act(keepAction, "", "Keep this run", ""),
			app.If(v.Opened != "", act(changeAction, v.Opened, "Keep it in place of "+v.OpenName, "")),
			app.If(!v.Weighed, app.Elem("p").Class("lede soft").Text("Nothing is weighed yet: it is kept as a plan, and tells nothing of uptake and charge.")),
		),
		app.Elem("div").Role("status").Aria("live", "polite").Body(
			lines("note tip", v.Says), lines("note mind", v.Troubles),
		),
		app.If(v.Undo != "", app.Elem("button").Attr("type", "button").Class("plain").ID(undoID).Text("Bring "+v.Undo+" back").OnClick(send(undoAction, ""))),
		keptTable(v.Rows),
		k.together(),
		app.Elem("details").Body(
			app.Elem("summary").Text("Save runs as a file or table, or bring runs in"),
			app.Elem("div").Class("ask").Body(
				act(exportAction, "json", "Save as a file (JSON)", ""),
				act(exportAction, "csv", "Save as a table (CSV)", ""),
				act(exportAction, "text", "Write the file into the box below", ""),
			),
			app.Elem("div").Class("ask").Body(
				app.Elem("label").Attr("for", fileID).Text("Bring in a file that was saved here"),
				app.ElemSelfClosing("input").Attr("type", "file").ID(fileID).Attr("accept", ".json,application/json").OnChange(send(chooseAction, "")),
			),
			app.Elem("label").Attr("for", textID).Text("Or paste the text of such a file"),
			app.Elem("textarea").ID(textID).Attr("rows", "5").Attr("spellcheck", "false"),
			act(importAction, "", "Bring these runs in", ""),
		),
		forgetLast(),
	)
}

func lines(class string, list []string) app.UI {
	return app.Range(list).Slice(func(i int) app.UI { return app.Elem("p").Class(class).Text(list[i]) })
}

// together is what the ticked runs tell.
func (k *keptRuns) together() app.UI {
	v := k.View
	if len(v.Rows) == 0 {
		return nil
	}
	if len(v.Together) == 0 {
		return app.Elem("p").Class("lede").Text(strings.TrimSpace("Tick weighed runs of one bag on one setup, to see what they tell together: the oxide still unused is the bag's, the uptake the setup's. " + v.Note))
	}
	return app.Elem("div").Body(
		app.Elem("h3").Text("What the ticked runs tell together"),
		app.Elem("ul").Class("gear").ID("runs.together").Body(app.Range(v.Together).Slice(func(i int) app.UI { return app.Elem("li").Text(v.Together[i]) })),
		app.Elem("p").Class("lede soft").Text(v.Note+" They must be of one bag on one setup."),
		act(togetherAction, "", "Plan the next run from these", ""),
	)
}

var keptHeads = []string{"Run", "Count", "Cells", "Planned", "Found", "Of the plan", "Gas taken up", "Oxide unused", ""}

func keptTable(list []keptRow) app.UI {
	if len(list) == 0 {
		return nil
	}
	return app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", "Kept runs side by side").Body(app.Elem("table").Class("kept").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(app.Range(keptHeads).Slice(func(i int) app.UI {
			if keptHeads[i] == "" { // over the buttons
				return app.Elem("td")
			}
			return app.Elem("th").Attr("scope", "col").Text(keptHeads[i])
		}))),
		app.Elem("tbody").Body(app.Range(list).Slice(func(i int) app.UI { return keptLine(&list[i]) })),
	))
}

func keptLine(r *keptRow) app.UI {
	name := []app.UI{app.Text(strings.TrimSpace(r.Name + " "))}
	name = append(name, app.Elem("small").Class("for").Text(r.When))
	if r.Split {
		name = append(name, app.Elem("small").Class("for").Text("Changed on two pages: both are kept."))
	}
	if r.Notes != "" {
		name = append(name, app.Elem("small").Class("for").Text(r.Notes))
	}
	count := app.Elem("td").Text("not weighed")
	if r.Tells {
		count = app.Elem("td").Body(app.Elem("label").Class("tick").Body(
			app.ElemSelfClosing("input").Attr("type", "checkbox").Attr("checked", r.Counted).Aria("label", "Count "+r.calls()+" together with others").OnChange(send(countAction, r.ID), r.ID),
		))
	}
	cells := []app.UI{app.Elem("th").Attr("scope", "row").Body(name...), count}
	for _, text := range []string{r.Cells, r.Planned, r.Found, r.Yield, r.Uptake, r.Charge} {
		cells = append(cells, app.Elem("td").Text(text))
	}
	cells = append(cells, app.Elem("td").Body(
		act(openAction, r.ID, "Open", "Open "+r.calls()), act(forgetAction, r.ID, "Forget", "Forget "+r.calls()),
	))
	return app.Elem("tr").Body(cells...)
}

// act is a button that sends an action.
func act(action, value, text, label string) app.UI {
	b := app.Elem("button").Attr("type", "button").Class("plain").Text(text).OnClick(send(action, value), action+value)
	if label != "" {
		b = b.Aria("label", label)
	}
	return b
}

func send(action, value string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(action, value) }
}
