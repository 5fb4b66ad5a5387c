package web

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/account"
	"rosesalt/web/browser"
	"rosesalt/web/desk"
	"rosesalt/web/link"
	"rosesalt/web/runs"
	"rosesalt/web/section"
)

// keeper is what the page knows of kept runs.
type keeper struct {
	section.Kept
	name   string // as it is being typed
	inCopy []byte // runs of the saved copy that the page was opened from, until they are joined
}

// The actions about a file of runs that was chosen.
const (
	chooseAction = "runs.choose" // with nothing
	arriveAction = "runs.arrive" // with its text
)

// openKept opens what this browser keeps when it is first shown, and listens to other
// pages. The start does not wait for it.
func (p *page) openKept() {
	k := &p.kept
	if k.Store != nil || app.IsServer {
		return
	}
	k.Counted, k.Store = map[string]bool{}, runs.Open(browser.Local)
	if k.inCopy != nil {
		k.Says, k.inCopy = k.Store.Join(k.inCopy), nil
	}
	p.closers = append(p.closers, app.Window().AddEventListener("storage", func(ctx app.Context, e app.Event) {
		if key := e.Get("key"); key.Truthy() && !strings.HasPrefix(key.String(), runs.Prefix) {
			return
		}
		k.Store.Look()
		p.redraw(ctx)
	}))
}

func (p *page) handleKept(ctx app.Context) {
	for action, do := range map[string]func(app.Context, string){
		section.KeepRun: p.keepRun, section.ChangeRun: p.changeRun, section.OpenRun: p.openRun, section.ForgetRun: p.forgetRun, section.UndoForget: p.undoForget,
		section.CountRun: p.countRun, section.ExportRuns: p.exportRuns, section.ImportRuns: p.importText, chooseAction: p.chooseFile, arriveAction: p.importRuns,
		section.PlanTogether: p.planTogether,
	} {
		ctx.Handle(action, func(ctx app.Context, a app.Action) {
			if p.kept.Store == nil {
				return
			}
			value, _ := a.Value.(string)
			p.kept.Says = nil
			do(ctx, value)
			p.redraw(ctx)
		})
	}
}

// runNow is the run as it stands on the page; the account is worked out first, since what
// it tells is kept too.
func (p *page) runNow() runs.State {
	for p.desk.Account() != nil && !p.desk.Accounted() {
		p.desk.StepRest(desk.Draws)
	}
	s := runs.State{
		Kept: time.Now().UTC().Format(time.RFC3339), Plan: p.desk.Fragment(), Name: typed(section.RunName), Notes: p.desk.Notes(),
	}
	after := p.desk.Account()
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
	write(section.RunName, name)
}

// tell says what came of keeping.
func (k *keeper) tell(id string, err error, done string) {
	if err != nil {
		k.Says = []string{err.Error()}
		return
	}
	k.Opened = id
	k.Says = []string{done}
	if k.Store.Standing().Unsaved > 0 {
		k.Says = []string{done + " It is not saved yet: see below."}
	}
}

func (p *page) keepRun(_ app.Context, _ string) {
	id, err := p.kept.Store.Keep(p.runNow())
	done := "The run is kept."
	if n := p.desk.FaultCount(); n > 0 {
		done = "The run is kept, with the last good values of the fields that cannot be read."
	}
	p.kept.tell(id, err, done)
}

func (p *page) changeRun(_ app.Context, id string) {
	id, err := p.kept.Store.Change(id, p.runNow())
	p.kept.tell(id, err, "The run is kept in place of what it was.")
}

func (p *page) openRun(ctx app.Context, id string) {
	run, ok := p.kept.Store.Book().Get(id)
	if !ok {
		return
	}
	was := p.state()
	p.kept.Opened = run.ID
	p.leave()
	p.desk.Open(run.Plan)
	p.opened, p.pushed = true, false // Back returns to the plan before
	p.changed(ctx)
	p.nameRun(run.Name)
	p.took(&was, "Open")
	if p.desk.Notes() == "" { // a file written by hand may have them beside the plan
		p.desk.Edit(link.NotesKey, run.Notes)
	}
	p.kept.Says = []string{"Opened: " + section.RunTitle(&run.State) + ". Back returns to the plan before."}
	for _, t := range p.desk.Troubles() {
		p.kept.Says = append(p.kept.Says, "Not taken from its plan: "+t.Part+", "+t.Why+".")
	}
}

func (p *page) forgetRun(ctx app.Context, id string) {
	gone, err := p.kept.Store.Forget(id)
	if err != nil {
		p.kept.Says = []string{err.Error()}
		return
	}
	delete(p.kept.Counted, id)
	if p.kept.Opened == id {
		p.kept.Opened = ""
	}
	p.kept.Undo = &gone
	p.kept.Says = []string{"Forgotten: " + section.RunTitle(&gone) + "."}
	browser.FocusLater(ctx, section.RunUndo)
}

func (p *page) undoForget(ctx app.Context, _ string) {
	if p.kept.Undo == nil {
		return
	}
	p.kept.Store.Undo(*p.kept.Undo)
	p.kept.Undo = nil
	p.kept.Says = []string{"The run is back."}
	browser.FocusLater(ctx, section.ID(section.KeptTitle)+".title")
}

func (p *page) countRun(_ app.Context, id string) { p.kept.Counted[id] = !p.kept.Counted[id] }

func (p *page) exportRuns(_ app.Context, kind string) {
	list := p.kept.Store.Book().List()
	file := string(runs.Encode(list))
	switch kind {
	case "json":
		save("rosesalt-runs.json", "application/json", file)
	case "text":
		write(section.RunText, file)
	case "csv":
		var b strings.Builder
		if err := runs.WriteTable(&b, list); err == nil {
			save("rosesalt-runs.csv", "text/csv", b.String())
		}
	}
}

func (p *page) importText(ctx app.Context, _ string) { p.importRuns(ctx, typed(section.RunText)) }

func (p *page) importRuns(_ app.Context, text string) {
	if strings.TrimSpace(text) == "" {
		p.kept.Says = []string{"There is nothing to bring in. Choose a file that was saved here, or paste its text."}
		return
	}
	p.kept.Says = p.kept.Store.Import([]byte(text))
}

// chooseFile reads the file that was chosen; its text comes by an action.
func (p *page) chooseFile(ctx app.Context, _ string) {
	input := app.Window().GetElementByID(section.RunFile)
	if !input.Truthy() || input.Get("files").Get("length").Int() == 0 {
		return
	}
	file := input.Get("files").Index(0)
	if size := file.Get("size").Int(); size > runs.MaxFile {
		p.kept.Says = []string{fmt.Sprintf("That file has %d bytes; more than %d are no runs. Choose the file that was saved here.", size, runs.MaxFile)}
		return
	}
	file.Call("text").Then(func(text app.Value) {
		input.Set("value", "") // so that the same file can be chosen again
		ctx.NewActionWithValue(arriveAction, text.String())
	})
}

// planTogether plans the next run from what the ticked runs tell.
func (p *page) planTogether(ctx app.Context, _ string) {
	learned, _, _ := p.kept.Together()
	was := p.state()
	changes := p.desk.PlanFrom(learned)
	if len(changes) == 0 {
		return
	}
	p.took(&was, "Plan the next run from these")
	p.opened, p.pushed = true, false
	p.changed(ctx)
	p.kept.Says = []string{"The plan now starts from these runs. Back returns to the plan before."}
	for _, c := range changes {
		p.kept.Says = append(p.kept.Says, c.Sentence)
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
