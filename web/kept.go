package web

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/web/link"
	"rosesalt/web/runs"
	"rosesalt/web/section"
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
	nameID = "runs.name"
	textID = "runs.text"
	fileID = "runs.file"
	undoID = "runs.undo"
)

// keeper is what the page knows of kept runs.
type keeper struct {
	store   *runs.Store // nil until it is first shown
	bench   route.Bench
	rows    map[string]keptRow // by state, worked out once
	counted map[string]bool    // states that are to be taken together
	opened  string             // the state that was opened last
	name    string             // as it is being typed
	undo    *runs.State        // that was forgotten last
	says    []string           // what came of the last act
	view    keptView
	inCopy  []byte // runs of the saved copy that the page was opened from, until they are joined
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
			Planned: section.OrDash(w.Planned, "g"), Found: section.OrDash(w.Found, "g"), Yield: section.OrDash(w.Yield, "%"),
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
	if s, ok := k.store.Book().Known(k.opened); ok {
		r := keptRow{Name: s.Name, When: when(s.Kept)}
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
	k.store = runs.Open(localShelf)
	if k.inCopy != nil {
		k.says, k.inCopy = k.store.Join(k.inCopy), nil
	}
	k.look()
	p.closers = append(p.closers, app.Window().AddEventListener("storage", func(ctx app.Context, e app.Event) {
		if key := e.Get("key"); key.Truthy() && !strings.HasPrefix(key.String(), runs.Prefix) {
			return
		}
		k.store.Look()
		k.look()
		p.redraw(ctx)
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
			p.redraw(ctx)
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
		Kept: time.Now().UTC().Format(time.RFC3339), Plan: p.desk.Fragment(), Name: typed(nameID), Notes: p.desk.Notes(),
	}
	after := p.desk.After()
	if after == nil || !after.OK() {
		return s
	}
	s.Learned, s.Told = map[string]runs.Interval{}, after.Told()
	for _, l := range after.Learned() {
		s.Learned[l.Input.Key] = interval(l.Interval)
	}
	for _, key := range []string{runs.Uptake, runs.Charge} {
		if i, ok := after.Input(key); ok {
			s.Learned[key] = interval(i)
		}
	}
	return s
}

// interval is what was learned, to as many digits as a file is to have.
func interval(i account.Interval) runs.Interval {
	to := func(v float64) float64 { return math.Round(v*1000) / 1000 }
	return runs.Interval{to(i.Low), to(i.Median), to(i.High)}
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

// nameRun puts a name into the field of the run's name.
func (p *page) nameRun(name string) {
	p.kept.name = name
	write(nameID, name)
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
	was := p.state()
	p.kept.opened = run.ID
	p.leave()
	p.desk.Open(run.Plan)
	p.opened, p.pushed = true, false // Back returns to the plan before
	p.changed(ctx)
	p.nameRun(run.Name)
	p.took(&was, "Open")
	if p.desk.Notes() == "" { // a file written by hand may have them beside the plan
		p.desk.Edit(link.NotesKey, run.Notes)
	}
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
	if p.kept.opened == id {
		p.kept.opened = ""
	}
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
	focusLater(ctx, section.ID(keptTitle)+".title")
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
	was := p.state()
	changes := p.desk.PlanFrom(learned)
	if len(changes) == 0 {
		return
	}
	p.took(&was, "Plan the next run from these")
	p.opened, p.pushed = true, false
	p.changed(ctx)
	p.kept.says = []string{"The plan now starts from these runs. Back returns to the plan before."}
	for _, c := range changes {
		p.kept.says = append(p.kept.says, c.Sentence)
	}
}

// save hands a text to the browser as a file.
func save(name, kind, text string) {
	download(name, app.Window().Get("Blob").New([]any{text}, map[string]any{"type": kind}))
}

// download hands bytes to the browser as a file to be kept.
func download(name string, blob app.Value) {
	address := app.Window().Get("URL").Call("createObjectURL", blob)
	link := app.Window().Get("document").Call("createElement", "a")
	link.Set("href", address)
	link.Set("download", name)
	link.Call("click")
	// Some browsers read the bytes after the click.
	time.AfterFunc(time.Minute, func() { app.Window().Get("URL").Call("revokeObjectURL", address) })
}

// keptPlans are the plans of the kept runs, as fragments.
func (p *page) keptPlans() (list []string) {
	if p.kept.store == nil {
		return nil
	}
	for _, s := range p.kept.store.Book().List() {
		list = append(list, s.Plan)
	}
	return list
}
