package web

import (
	"crypto/rand"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/atbench"
	"rosesalt/web/browser"
	"rosesalt/web/bubbles"
	"rosesalt/web/doc"
	"rosesalt/web/section"
	"rosesalt/web/tabs"
)

const (
	tabKey   = "rosesalt.tab" // in the tab's storage: its name
	keepWait = 300 * time.Millisecond
	askWait  = time.Second // for other pages to say that they are there
)

// tabParts are the keys of what else the tab's storage holds, which goes with a last state.
var tabParts = [...]string{labelsKey, bubbles.TapsKey}

// lasting is what the page knows of last states: its own, and those that were left.
type lasting struct {
	store  *tabs.Store
	gone   map[string]bool // tabs that were gone when this one was opened, or since; nil while that is not known
	left   []tabs.Left     // what they left
	offers []section.Offer // the same in words
	free   func()          // says that this tab is gone
	due    bool            // a saving is
	word   string          // that other pages were asked with
	undo   undo
}

// undo is how to get back what was taken away last.
type undo struct {
	label string
	do    func(app.Context)
}

// openLast finds what this tab was doing before a reload, and what others left.
func (p *page) openLast() {
	var id string
	if !browser.RecallFromTab(tabKey, &id) || !tabs.IsID(id) {
		id = rand.Text()
	}
	l := &p.last
	l.store = tabs.Open(browser.Local, id)
	own, ok := l.store.Own()
	same := ok && own.Plan == p.desk.Fragment()
	if _, _, entered := entry(); !same && p.bench.Open && !entered { // a link: it does not begin at a step of what was here
		p.bench = atbench.State{}
		p.bench.Keep()
	}
	switch {
	case same:
		p.desk.Recall(&own.Draft)
		p.kept.name, p.kept.Opened = own.Name, own.Kept
	case ok: // another plan was opened here since, so that one was left
		l.store.ContinueAs(rand.Text())
	}
	if app.IsServer {
		return
	}
	// The loader asked when the page was loaded.
	if held := app.Window().Get("rosesaltTabs"); held.Truthy() {
		p.find(named(held))
	}
}

// named tells which tabs live, by the names of the locks that are held.
func named(locks app.Value) (lives func(id string) bool) {
	held := map[string]bool{}
	for i := range locks.Length() {
		held[locks.Index(i).Get("name").String()] = true
	}
	return func(id string) bool { return held[tabs.Prefix+id] }
}

// askTabs asks the browser which tabs live; nil where it does not tell.
func askTabs(do func(lives func(id string) bool)) {
	locks := app.Window().Get("navigator").Get("locks")
	if !locks.Truthy() {
		do(nil)
		return
	}
	browser.Then(locks.Call("query"), func(all app.Value) { do(named(all.Get("held"))) }, func(app.Value) { do(nil) })
}

// find takes a name that no other tab has, and looks for what was left by tabs that do not
// live.
func (p *page) find(lives func(id string) bool) {
	if lives(p.last.store.ID()) { // a tab that was doubled has its double's
		p.last.store.ContinueAs(rand.Text())
	}
	p.last.gone = map[string]bool{}
	for _, id := range p.last.store.Gone(lives) {
		p.last.gone[id] = true
	}
	p.lookLeft()
}

// lives tells whether what a tab keeps is its own business. One that was opened later than
// this page is not known here, and so does.
func (l *lasting) lives(id string) bool { return !l.gone[id] }

// lookLeft looks at what was left, and leaves out what is on this page already.
func (p *page) lookLeft() {
	l := &p.last
	l.left = l.store.Left(l.lives)
	if len(l.left) > 0 {
		now := p.state()
		l.left = slices.DeleteFunc(l.left, func(left tabs.Left) bool { return left.Same(&now) })
	}
	l.offers = nil
	for i := range l.left {
		l.offers = append(l.offers, section.Offer{ID: l.left[i].ID, Words: l.left[i].Words(time.Now())})
	}
}

// mountLast begins to keep what is done here.
func (p *page) mountLast(ctx app.Context) {
	l := &p.last
	now := p.state()
	l.store.MarkSaved(&now)
	switch {
	case l.store.Trouble() != "":
	case l.gone != nil:
		l.begin()
	default: // the browser was slow, or does not tell
		askTabs(func(lives func(id string) bool) {
			ctx.Dispatch(func(ctx app.Context) {
				if lives == nil {
					p.askPages(ctx)
					return
				}
				p.find(lives)
				l.begin()
			})
		})
	}
	ctx.Handle(section.GoOn, p.onGoOn)
	ctx.Handle(section.Forget, p.onForget)
	ctx.Handle(section.ForgetAll, p.onForgetAll)
	ctx.Handle(undoAction, p.onUndo)
	soon := func(app.Value) { p.keepSoon(ctx) }
	p.closers = append(
		p.closers,
		browser.OnDocument("input", soon), browser.OnDocument("click", soon), browser.OnDocument("keyup", soon),
		browser.OnDocument("visibilitychange", func(app.Value) { p.keepNow() }),
		browser.OnWindow("pagehide", func(app.Value) {
			p.keepNow()
			l.store.Leave()
			l.letGo()
		}),
		browser.OnWindow("pageshow", func(e app.Value) {
			if e.Get("persisted").Bool() { // it was put by, and is back
				askTabs(func(lives func(id string) bool) {
					id := l.store.ID()
					if lives != nil && lives(id) { // another tab took up what was left here
						id = rand.Text()
					}
					l.become(id)
				})
			}
		}),
		browser.OnWindow("hashchange", soon),
		browser.OnWindow("storage", func(e app.Value) { p.heardOf(ctx, e) }),
	)
}

// begin takes the tab's name for good.
func (l *lasting) begin() {
	browser.KeepInTab(tabKey, l.store.ID())
	l.hold()
	l.store.Try()
}

// askPages asks the other pages themselves whether they live.
func (p *page) askPages(ctx app.Context) {
	p.last.word = rand.Text()
	p.last.store.Ask(p.last.word)
	ctx.After(askWait, func(app.Context) {
		p.find(p.last.store.Heard(p.last.word))
		p.last.begin()
		p.Update()
	})
}

// state is what the page is doing.
func (p *page) state() tabs.State {
	s := tabs.State{At: time.Now().Format(time.RFC3339), Draft: p.desk.Draft(), Name: p.kept.name, Kept: p.kept.Opened, Bench: p.bench.Text()}
	for _, key := range tabParts {
		var kept json.RawMessage
		if browser.RecallFromTab(key, &kept) {
			if s.Tab == nil {
				s.Tab = map[string]json.RawMessage{}
			}
			s.Tab[key] = kept
		}
	}
	return s
}

// keepSoon saves what is being done, a moment from now.
func (p *page) keepSoon(ctx app.Context) {
	if p.last.due {
		return
	}
	p.last.due = true
	browser.Later(ctx, p, keepWait, func(app.Context) {
		p.last.due = false
		if p.keepNow() {
			p.Update()
		}
	})
}

// keepNow saves what is being done, once the tab has its name, and tells whether there is
// something new to be said of the storage.
func (p *page) keepNow() (news bool) {
	store := p.last.store
	if p.last.gone == nil {
		return false
	}
	before, now := store.Trouble(), p.state()
	store.Save(&now)
	return store.Trouble() != before
}

// hold has the browser tell other pages that this tab lives, for as long as it does.
func (l *lasting) hold() {
	l.letGo()
	locks := app.Window().Get("navigator").Get("locks")
	if !locks.Truthy() {
		return
	}
	var free app.Value
	executor := app.FuncOf(func(_ app.Value, args []app.Value) any {
		free = args[0]
		return nil
	})
	defer executor.Release()
	held := app.Window().Get("Promise").New(executor)
	l.free = func() { free.Invoke() }
	// The lock is held until the promise that this gives is settled.
	until := held.Get("then").Call("bind", held)
	browser.Then(locks.Call("request", tabs.Prefix+l.store.ID(), until), func(app.Value) {}, func(app.Value) {})
}

func (l *lasting) letGo() {
	if l.free != nil {
		l.free()
		l.free = nil
	}
}

// become goes on under another name; what stands under the one before is left.
func (l *lasting) become(id string) {
	if l.gone != nil {
		l.gone[l.store.ID()] = true
	}
	l.store.ContinueAs(id)
	browser.KeepInTab(tabKey, id)
	l.hold()
}

// heardOf hears what other pages do with what was left.
func (p *page) heardOf(ctx app.Context, e app.Value) {
	key, value := e.Get("key"), e.Get("newValue")
	if !key.Truthy() {
		return
	}
	l := &p.last
	if key.String() == tabs.AskKey && value.Truthy() {
		l.store.Answer(value.String())
		return
	}
	if strings.HasPrefix(key.String(), tabs.HerePrefix) && l.word != "" && l.gone != nil { // a late answer
		lives := l.store.Heard(l.word)
		maps.DeleteFunc(l.gone, func(id string, _ bool) bool { return lives(id) })
		ctx.Dispatch(func(app.Context) { p.lookLeft() })
		return
	}
	id, ours := strings.CutPrefix(key.String(), tabs.Prefix)
	if !ours || !slices.ContainsFunc(l.left, func(left tabs.Left) bool { return left.ID == id }) {
		return
	}
	ctx.Dispatch(func(app.Context) { p.drop(id) })
}

// drop no longer offers what a tab left, since another took it up.
func (p *page) drop(id string) {
	delete(p.last.gone, id)
	p.lookLeft()
}

// onGoOn goes on with what a tab left, unless it is open in another one by now.
func (p *page) onGoOn(ctx app.Context, a app.Action) {
	id, _ := a.Value.(string)
	askTabs(func(lives func(id string) bool) {
		ctx.Dispatch(func(ctx app.Context) {
			if lives != nil && lives(id) {
				p.drop(id)
				p.copied = "That is open in another tab now."
				return
			}
			p.goOn(ctx, id)
		})
	})
}

func (p *page) onForget(ctx app.Context, a app.Action) {
	id, _ := a.Value.(string)
	p.forgotten(ctx, p.last.store.Forget(id), "Forgotten.")
}

func (p *page) onForgetAll(ctx app.Context, _ app.Action) {
	now := p.state()
	p.forgotten(ctx, p.last.store.ForgetAll(&now, p.last.lives), "Forgotten. What you change from here on is kept again.")
}

func (p *page) forgotten(ctx app.Context, gone tabs.Forgotten, says string) {
	p.lookLeft()
	p.copied = says
	p.last.undo = undo{"Undo “Forget it”", func(app.Context) {
		p.last.store.Restore(gone)
		p.lookLeft()
		p.last.undo = undo{}
		p.copied = "What was forgotten is back."
	}}
	browser.FocusAfter(ctx, p, "said")
}

// goOn puts what was left in the place of what stands here, which is left in turn.
func (p *page) goOn(ctx app.Context, id string) {
	l := &p.last
	state, ok := l.store.Load(id)
	if !ok {
		p.drop(id)
		p.copied = "That is not kept any more."
		return
	}
	p.keepNow()
	was, name := p.state(), l.store.ID()
	l.become(id)
	p.takeUp(ctx, &state)
	p.copied = "Here is " + state.Words(time.Now()) + "."
	l.undo = undo{"Undo “Go on”", func(ctx app.Context) {
		p.keepNow()
		l.become(name)
		_, kept := l.store.Own()
		if !kept { // nobody had done anything here
			l.store.MarkSaved(&was)
		}
		p.takeUp(ctx, &was)
		l.undo = undo{}
		p.copied = "Everything is as it was before you went on."
	}}
	if !p.bench.Open {
		browser.FocusAfter(ctx, p, "said")
	}
}

// takeUp puts a state in the place of what stands here.
func (p *page) takeUp(ctx app.Context, s *tabs.State) {
	p.leave()
	p.desk.TakeDraft(&s.Draft)
	p.from.troubles = nil
	for _, key := range tabParts {
		if kept, ok := s.Tab[key]; ok {
			browser.KeepInTab(key, kept)
		} else {
			_ = browser.Tab.Remove(key) // refused: nothing was kept
		}
	}
	p.labels.Texts, p.taps = section.LabelTexts{}, bubbles.RecallTaps()
	p.recallLabels()
	p.late.remake(section.LabelsTitle, p.source())
	p.bench = atbench.Read(s.Bench)
	p.bench.Keep()
	p.followBench()
	p.nameRun(s.Name)
	write(section.GramsID, s.Wanted.Grams)
	p.fillPure(nil)
	p.kept.Opened = s.Kept
	p.opened, p.pushed = true, false // Back returns to the plan before
	p.changed(ctx)
	p.keepNow()
	p.lookLeft()
}

// took lets Undo bring back the state that stood before something was taken away. The view at the
// bench offers that of the start of the run, as long as none has come in its place.
func (p *page) took(was *tabs.State, what string) {
	p.bench.Began = ""
	p.last.undo = undo{"Undo “" + what + "”", func(ctx app.Context) {
		now := p.state()
		p.takeUp(ctx, was)
		p.copied = "Everything is back."
		p.took(&now, "bring it back")
	}}
}

// undoOffer is the button that brings back what was taken away last, or nothing.
func (p *page) undoOffer() []doc.Node {
	if p.last.undo.do == nil {
		return nil
	}
	return doc.Nodes{doc.Button{Class: "plain", ID: "undo", Text: p.last.undo.label, Action: undoAction}}
}

const undoAction = "undo" // with nothing

func (p *page) onUndo(ctx app.Context, _ app.Action) {
	if p.last.undo.do != nil {
		p.last.undo.do(ctx)
		if p.bench.Open {
			browser.FocusStill(ctx, "bench.title")
			return
		}
		browser.FocusAfter(ctx, p, "said")
	}
}
