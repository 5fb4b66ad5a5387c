package web

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/web/runs"
)

const keptTitle = "Kept runs"

// The actions about kept runs.
const (
	keepAction     = "runs.keep"     // with nothing
	changeAction   = "runs.change"   // with a state's identifier
	openAction     = "runs.open"     // the same
	forgetAction   = "runs.forget"   // the same
	undoAction     = "runs.undo"     // with nothing
	countAction    = "runs.count"    // with a state's identifier
	exportAction   = "runs.export"   // with "json", "csv" or "text"
	importAction   = "runs.import"   // with nothing: the text that stands there
	chooseAction   = "runs.choose"   // with nothing: the file that was chosen
	arriveAction   = "runs.arrive"   // with a file's text
	togetherAction = "runs.together" // with nothing
)

// The identifiers of the section's controls.
const (
	nameID  = "runs.name"
	notesID = "runs.notes"
	textID  = "runs.text"
	fileID  = "runs.file"
	undoID  = "runs.undo"
)

// localShelf is the browser's local storage, which may be full or forbidden. Where it is
// forbidden, to look at it is an error: a call hears of it, a plain look would end the
// program.
type localShelf struct{}

func storage() app.Value {
	return app.Window().Get("Reflect").Call("get", app.Window(), "localStorage")
}

func (localShelf) try(do func(app.Value)) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = runs.ErrForbidden
			if e, ok := r.(error); ok && strings.Contains(strings.ToLower(e.Error()), "quota") {
				err = errors.Join(runs.ErrFull, e)
			}
		}
	}()
	s := storage()
	if !s.Truthy() || s.Get("lent").Truthy() { // the loader lends one that does not last
		return runs.ErrForbidden
	}
	do(s)
	return nil
}

func (l localShelf) Keys() (keys []string, err error) {
	err = l.try(func(s app.Value) {
		for i := range s.Get("length").Int() {
			if key := s.Call("key", i); key.Truthy() {
				keys = append(keys, key.String())
			}
		}
	})
	return keys, err
}

func (l localShelf) Load(key string) (text string, err error) {
	err = l.try(func(s app.Value) {
		if v := s.Call("getItem", key); v.Truthy() {
			text = v.String()
		}
	})
	return text, err
}

func (l localShelf) Save(key, text string) error {
	return l.try(func(s app.Value) { s.Call("setItem", key, text) })
}

func (l localShelf) Remove(key string) error {
	return l.try(func(s app.Value) { s.Call("removeItem", key) })
}

// keeper is what the page knows of kept runs.
type keeper struct {
	store   *runs.Store // nil until it is first shown
	bench   route.Bench
	rows    map[string]keptRow // by state, worked out once
	counted map[string]bool    // states that are to be taken together
	opened  string             // the state that was opened last
	undo    *runs.State        // that was forgotten last
	says    []string           // what came of the last act
	view    keptView
}

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

// calls is what a run is called in a sentence.
func (r *keptRow) calls() string {
	if r.Name != "" {
		return "“" + r.Name + "”"
	}
	return "the run of " + r.When
}

func when(kept string) string {
	at, err := time.Parse(time.RFC3339, kept)
	if err != nil {
		return kept
	}
	return at.Local().Format("2 January 2006, 15:04")
}

func learnedText(s *runs.State, key string) string {
	i, ok := s.Learned[key]
	if !ok {
		return "–"
	}
	return reads(i[1], i[0], i[2], "%")
}

// row works a state out, once.
func (k *keeper) row(s *runs.Kept) keptRow {
	r, ok := k.rows[s.ID]
	if !ok {
		w := runs.RowOf(&s.State, &k.bench)
		r = keptRow{
			ID: s.ID, Name: s.Name, When: when(s.Kept), Notes: s.Notes, Cells: w.Cells,
			Planned: orDash(w.Planned, "g"), Found: orDash(w.Found, "g"), Yield: orDash(w.Yield, "%"),
			Uptake: learnedText(&s.State, runs.Uptake), Charge: learnedText(&s.State, runs.Charge),
			Tells: len(s.Told) > 0,
		}
		k.rows[s.ID] = r
	}
	r.Split, r.Counted = s.Split, k.counted[s.ID]
	return r
}

// together are the runs that are ticked, and what they tell.
func (k *keeper) together() (learned []account.Learned, n, left int) {
	var chosen []runs.Kept
	for _, s := range k.store.Book().List() {
		if k.counted[s.ID] {
			chosen = append(chosen, s)
		}
	}
	told, left := runs.Together(chosen)
	return account.Combine(told...), len(told), left
}

// look makes the view anew, after the runs or the ticks changed.
func (k *keeper) look() {
	k.view = keptView{Says: k.says, Troubles: k.store.Standing().Troubles()}
	for _, s := range k.store.Book().List() {
		k.view.Rows = append(k.view.Rows, k.row(&s))
	}
	if k.undo != nil {
		r := keptRow{Name: k.undo.Name, When: when(k.undo.Kept)}
		k.view.Undo = r.calls()
	}
	if s, ok := k.store.Book().Get(k.opened); ok {
		r := k.row(&s)
		k.view.Opened, k.view.OpenName = s.ID, r.calls()
	}
	learned, n, left := k.together()
	for _, l := range learned {
		k.view.Together = append(k.view.Together, l.Input.Name+": "+reads(l.Median, l.Low, l.High, l.Input.Unit))
	}
	if n > 0 {
		k.view.Note = "From one run."
		if n > 1 {
			k.view.Note = "From " + route.Print(float64(n), "") + " runs, multiplied, over the usual estimates."
		}
	}
	if left > 0 {
		k.view.Note += " Not counted again: " + route.Print(float64(left), "") + ", of a run or of the very weighings that count already."
	}
}

// openKept opens what this browser keeps when it is first shown, and listens to other
// pages. The start does not wait for it.
func (p *page) openKept() {
	k := &p.kept
	if k.store != nil {
		return
	}
	k.rows, k.counted = map[string]keptRow{}, map[string]bool{}
	k.store = runs.Open(localShelf{})
	k.look()
	p.closers = append(p.closers, app.Window().AddEventListener("storage", func(app.Context, app.Event) {
		k.store.Look()
		k.look()
		p.redraw()
	}))
}

// keptView is the section as it is now.
func (p *page) keptView() keptView {
	if app.IsServer {
		return keptView{}
	}
	p.openKept()
	v := p.kept.view
	v.Weighed = !p.desk.Found().Empty()
	return v
}

func (p *page) handleKept(ctx app.Context) {
	for action, do := range map[string]func(app.Context, string){
		keepAction: p.keepRun, changeAction: p.changeRun, openAction: p.openRun, forgetAction: p.forgetRun, undoAction: p.undoForget,
		countAction: p.countRun, exportAction: p.exportRuns, importAction: p.importText, chooseAction: p.chooseFile, arriveAction: p.importRuns,
		togetherAction: p.planTogether,
	} {
		ctx.Handle(action, func(ctx app.Context, a app.Action) {
			if p.kept.store == nil {
				return
			}
			value, _ := a.Value.(string)
			p.kept.says = nil
			do(ctx, value)
			p.kept.look()
			p.redraw()
		})
	}
}

// runNow is the run as it stands on the page; the account is worked out first, since what
// it tells is kept too.
func (p *page) runNow() runs.State {
	for p.desk.After() != nil && !p.desk.Accounted() {
		p.desk.StepRest(bandDraws)
	}
	s := runs.State{
		Kept: time.Now().UTC().Format(time.RFC3339), Plan: p.desk.Fragment(), Name: typed(nameID), Notes: typed(notesID),
	}
	after := p.desk.After()
	if after == nil || !after.OK() {
		return s
	}
	s.Learned, s.Told = map[string]runs.Interval{}, after.Told()
	for _, l := range after.Learned() {
		s.Learned[l.Input.Key] = runs.Interval{l.Low, l.Median, l.High}
	}
	for _, key := range []string{runs.Uptake, runs.Charge} {
		if i, ok := after.Input(key); ok {
			s.Learned[key] = runs.Interval{i.Low, i.Median, i.High}
		}
	}
	return s
}

func typed(id string) string {
	if e := app.Window().GetElementByID(id); e.Truthy() {
		return e.Get("value").String()
	}
	return ""
}

func write(id, text string) {
	if e := app.Window().GetElementByID(id); e.Truthy() {
		e.Set("value", text)
	}
}

// tell says what came of keeping.
func (k *keeper) tell(id string, err error, done string) {
	if err != nil {
		k.says = []string{err.Error()}
		return
	}
	k.opened = id
	k.says = []string{done}
	if k.store.Standing().Unsaved > 0 {
		k.says = []string{done + " It is not saved yet: see below."}
	}
}

func (p *page) keepRun(_ app.Context, _ string) {
	id, err := p.kept.store.Keep(p.runNow())
	done := "The run is kept."
	if n := p.desk.Wrong(); n > 0 {
		done = "The run is kept, with the last good values of the fields that cannot be read."
	}
	p.kept.tell(id, err, done)
}

func (p *page) changeRun(_ app.Context, id string) {
	id, err := p.kept.store.Change(id, p.runNow())
	p.kept.tell(id, err, "The run is kept in place of what it was.")
}

func (p *page) openRun(ctx app.Context, id string) {
	run, ok := p.kept.store.Book().Get(id)
	if !ok {
		return
	}
	p.kept.opened = run.ID
	p.desk.Open(run.Plan)
	p.opened, p.pushed = true, false // Back returns to the plan before
	p.changed(ctx)
	write(nameID, run.Name)
	write(notesID, run.Notes)
	r := p.kept.row(&run)
	p.kept.says = []string{"Opened: " + r.calls() + ". Back returns to the plan before."}
	for _, t := range p.desk.Troubles() {
		p.kept.says = append(p.kept.says, "Not taken from its plan: "+t.Part+", "+t.Why+".")
	}
}

func (p *page) forgetRun(ctx app.Context, id string) {
	gone, err := p.kept.store.Forget(id)
	if err != nil {
		p.kept.says = []string{err.Error()}
		return
	}
	delete(p.kept.counted, id)
	p.kept.undo = &gone
	r := keptRow{Name: gone.Name, When: when(gone.Kept)}
	p.kept.says = []string{"Forgotten: " + r.calls() + "."}
	focusLater(ctx, undoID)
}

func (p *page) undoForget(ctx app.Context, _ string) {
	if p.kept.undo == nil {
		return
	}
	p.kept.store.Undo(*p.kept.undo)
	p.kept.undo = nil
	p.kept.says = []string{"The run is back."}
	focusLater(ctx, sectionID(keptTitle)+".title")
}

func (p *page) countRun(_ app.Context, id string) { p.kept.counted[id] = !p.kept.counted[id] }

func (p *page) exportRuns(_ app.Context, kind string) {
	list := p.kept.store.Book().List()
	file := string(runs.Encode(list))
	switch kind {
	case "json":
		save("rosesalt-runs.json", "application/json", file)
	case "text":
		write(textID, file)
	case "csv":
		var b strings.Builder
		if err := runs.WriteTable(&b, list); err == nil {
			save("rosesalt-runs.csv", "text/csv", b.String())
		}
	}
}

func (p *page) importText(ctx app.Context, _ string) { p.importRuns(ctx, typed(textID)) }

func (p *page) importRuns(_ app.Context, text string) {
	if strings.TrimSpace(text) == "" {
		p.kept.says = []string{"There is nothing to bring in. Choose a file that was saved here, or paste its text."}
		return
	}
	p.kept.says = p.kept.store.Import([]byte(text))
}

// chooseFile reads the file that was chosen; its text comes by an action.
func (p *page) chooseFile(ctx app.Context, _ string) {
	input := app.Window().GetElementByID(fileID)
	if !input.Truthy() || input.Get("files").Get("length").Int() == 0 {
		return
	}
	file := input.Get("files").Index(0)
	if size := file.Get("size").Int(); size > runs.MaxFile {
		p.kept.says = []string{fmt.Sprintf("That file has %d bytes; more than %d are no runs. Choose the file that was saved here.", size, runs.MaxFile)}
		return
	}
	file.Call("text").Then(func(text app.Value) {
		input.Set("value", "") // so that the same file can be chosen again
		ctx.NewActionWithValue(arriveAction, text.String())
	})
}

// planTogether plans the next run from what the ticked runs tell.
func (p *page) planTogether(ctx app.Context, _ string) {
	learned, _, _ := p.kept.together()
	changes := p.desk.PlanFrom(learned)
	if len(changes) == 0 {
		return
	}
	p.opened, p.pushed = true, false
	p.changed(ctx)
	p.kept.says = []string{"The plan now starts from these runs. Back returns to the plan before."}
	for _, c := range changes {
		p.kept.says = append(p.kept.says, c.Sentence)
	}
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
			app.Elem("label").Attr("for", notesID).Text("Notes"),
			app.Elem("textarea").ID(notesID).Attr("rows", "2").Attr("maxlength", runs.MaxNotes),
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
			act(exportAction, "json", "Save as a file (JSON)", ""),
			act(exportAction, "csv", "Save as a table (CSV)", ""),
			act(exportAction, "text", "Write the file into the box below", ""),
			app.Elem("p").Body(
				app.Elem("label").Attr("for", fileID).Text("Bring in a file that was saved here "),
				app.ElemSelfClosing("input").Attr("type", "file").ID(fileID).Attr("accept", ".json,application/json").OnChange(send(chooseAction, "")),
			),
			app.Elem("label").Attr("for", textID).Text("Or paste the text of such a file"),
			app.Elem("textarea").ID(textID).Attr("rows", "5").Attr("spellcheck", "false"),
			act(importAction, "", "Bring these runs in", ""),
		),
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
		return app.Elem("p").Class("lede").Text(strings.TrimSpace("Tick weighed runs of one bag on one setup, to see what they tell together: the charge left is the bag's, the uptake the setup's. " + v.Note))
	}
	return app.Elem("div").Body(
		app.Elem("h3").Text("What the ticked runs tell together"),
		app.Elem("ul").Class("gear").ID("runs.together").Body(app.Range(v.Together).Slice(func(i int) app.UI { return app.Elem("li").Text(v.Together[i]) })),
		app.Elem("p").Class("lede soft").Text(v.Note+" They must be of one bag on one setup."),
		act(togetherAction, "", "Plan the next run from these", ""),
	)
}

var keptHeads = []string{"Run", "Count", "Cells", "Planned", "Found", "Of the plan", "Gas taken up", "Charge left", ""}

func keptTable(list []keptRow) app.UI {
	if len(list) == 0 {
		return nil
	}
	return app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", "Kept runs side by side").Body(app.Elem("table").Class("kept").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(app.Range(keptHeads).Slice(func(i int) app.UI {
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
