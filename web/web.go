// Package web is the page: components that show what package desk holds.
//
// Data goes one way. A field's text goes to the desk by an action; the desk
// works out plan and figures; package section makes documents of them, and a part
// of the page is drawn again only when its document differs. No component computes
// chemistry.
package web

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/atbench"
	"rosesalt/web/browser"
	"rosesalt/web/bubbles"
	"rosesalt/web/chart"
	"rosesalt/web/counting"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/draws"
	"rosesalt/web/section"
	"rosesalt/web/timerbar"
)

// New makes the root component of the page.
func New() app.Composer { return &page{} }

// page is the root: it owns the desk and keeps the address in step with it.
type page struct {
	app.Compo
	Turn      int // another one has the page drawn at once
	desk      *desk.Desk
	draws     *draws.Maker
	written   string // the fragment that the address holds
	read      string // the fragment that was opened last
	means     string // the same, as the desk writes it
	pushed    bool   // whether this visit has its own entry in the history
	said      string // what the live region says
	touched   string // the key of the field that was typed in since that
	copied    string
	changes   []doc.Node // below that, folded
	closers   []func()
	late      slow
	kept      keeper
	writtenAt time.Time
	waiting   bool // a writing of the address is due
	astray    bool // another address came, and is not opened yet
	comes     int  // so many came
	opened    bool // another plan was opened: fields being typed in are written too
	round     int  // of the last working out of bands
	drawn     int  // the round that pictures and lists were last drawn in
	ticket    int  // of the last edit, for what waits until typing pauses
	how       opened
	open      opening
	at        whereabouts
	sending   bool // what keeps and sends is open
	bench     atbench.State
	from      original // the saved copy that this is
	sheet     []doc.Node
	taps      counting.Taps // at bubbles
	heard     bubbles.Ear
	clubSheet []doc.Node
	paste     pasting
	labels    section.Labels
	last      lasting
	unread    map[string]map[string]string // texts of fields that could not be read, by the fragment that was left
}

func (p *page) OnInit() {
	p.written = fragment()
	p.from = p.openCopy()
	p.desk = desk.New(p.planAt(p.written))
	p.read, p.means = p.written, p.desk.Fragment()
	p.draws = draws.New(p, p.desk, p.drew)
	p.bench = atbench.Recall()
	p.recallLabels()
	p.taps = bubbles.RecallTaps()
	p.open.recallOpen()
	p.openLast()
	p.openFaults()
	p.recallPlace()
}

func (p *page) OnMount(ctx app.Context) {
	if demo := app.Window().GetElementByID("demo"); demo.Truthy() {
		demo.Call("remove") // this page stands in its place
	}
	ctx.Handle(section.Edit, p.onEdit)
	ctx.Handle(section.AsPlanned, p.onAsPlanned)
	ctx.Handle(section.Add, p.onAdd)
	ctx.Handle(section.Purer, p.onPurer)
	ctx.Handle(section.AddRow, p.onAddRow)
	ctx.Handle(section.DropRow, p.onDrop)
	ctx.Handle(section.Pin, p.onPin)
	ctx.Handle(section.PlanNext, p.onNext)
	ctx.Handle(section.EndRun, p.onEnd)
	ctx.Handle(section.StartRun, p.onStart)
	ctx.Handle(section.StartOver, p.onReset)
	ctx.Handle(section.Done, p.onDone)
	ctx.Handle(section.Reopen, p.onReopen)
	ctx.Handle(section.ToPlanning, p.onToPlanning)
	ctx.Handle(section.Jump, p.onJump)
	ctx.Handle(atbench.Action, p.onBenchMove)
	ctx.Handle(section.Use, p.onUse)
	ctx.Handle(section.TickLabel, p.onTickLabel)
	ctx.Handle(section.TickLabels, p.onTickLabels)
	ctx.Handle(section.PrintLabels, p.onPrintLabels)
	ctx.Handle(doc.Unfolded, p.onFill)
	ctx.Handle(bubbles.Action, p.onGas)
	ctx.Handle(section.PrintClub, p.onClub)
	ctx.Handle(section.PrintShelf, p.onShelf)
	ctx.Handle(section.Mended, p.onMend)
	ctx.Handle(section.Fit, p.onFit)
	ctx.Handle(section.Suit, p.onSuit)
	ctx.Handle(section.ShowPaste, p.onPaste)
	ctx.Handle(section.OpenPaste, p.onPasted)
	p.handleKept(ctx)
	p.handleOpen(ctx)
	p.handlePlaces(ctx)
	p.markNumbers()
	p.closers = append(p.closers, browser.OnWindow("hashchange", func(app.Value) { p.came(ctx) }))
	p.closers = append(p.closers, app.Window().AddEventListener("afterprint", func(ctx app.Context, _ app.Event) { p.printed(ctx) }))
	p.closers = append(p.closers, browser.OnDocument("keydown", p.onKey))
	p.hearHands(ctx)
	ctx.Handle(chart.SaveAction, p.onSave)
	p.fill()
	app.Window().Get("document").Get("documentElement").Call("setAttribute", "data-ready", "")
	p.mountLast(ctx)
	ctx.Async(func() { // once the page is seen
		time.Sleep(time.Millisecond)
		ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Next, Source: p, Function: p.doubt})
	})
}

// onNext plans the next run; Back returns to the account of this one.
func (p *page) onNext(ctx app.Context, a app.Action) {
	was := p.state()
	p.leave()
	value, _ := a.Value.(string)
	how, took := section.NextOf(value), p.desk.Plan().BatchShare
	changes, ok := p.desk.PlanNext(how)
	if !ok {
		return
	}
	p.took(&was, "Plan the next run")
	p.opened, p.pushed = true, false
	p.enter(false, "") // so that Back tells where the account was
	p.at.scroll[section.Plan] = 0
	p.show(ctx, section.Plan)
	p.changed(ctx)
	p.kept.Opened = "" // it is another run from here on
	p.nameRun("")
	browser.FocusLater(ctx, "said")
	p.copied, p.changes = section.Lesson(p.source(), changes)
	if how.Jar {
		p.copied += " " + section.FromJar(took)
	}
}

// onEnd takes the run to be over.
func (p *page) onEnd(ctx app.Context, _ app.Action) {
	p.desk.End()
	p.changed(ctx)
	p.late.remake(section.AfterTitle, p.source())
	ctx.Defer(func(app.Context) { focusFirst(".next button") })
}

func (p *page) onPin(ctx app.Context, a app.Action) {
	if a.Value != "" {
		p.desk.PinPlan()
	} else {
		was := p.state()
		p.desk.Unpin()
		p.took(&was, "Let the pinned plan go")
	}
	p.doubt(ctx)
}

// typed takes the text of a field, and draws at once what it makes anew beside the plan;
// what rests on the plan waits for typing to pause.
func (p *page) typed(ctx app.Context, key, text string) {
	labels := p.labels.Texts.Form()
	if f, ok := labels.Find(key); ok {
		_ = labels.Set(f, text) // as it stands
		browser.KeepInTab(labelsKey, p.labels.Texts.Kept())
		p.late.remake(section.LabelsTitle, p.source())
		p.Update()
		return
	}
	if p.astray { // it is for the plan that came
		p.follow(ctx)
	}
	p.touched = key
	affects := p.desk.Edit(key, text)
	switch affects {
	case field.Assays:
		p.late.remake(section.AssaysTitle, sourceOf(p.desk, nil))
	case field.Gas:
		p.late.gas = bubbles.ViewOf(p.desk)
	case field.Days:
		p.late.remake(section.DaysTitle, sourceOf(p.desk, nil))
	case field.Club:
		p.late.remake(section.ClubTitle, sourceOf(p.desk, nil))
	}
	if !affects.Beside() {
		p.changed(ctx)
		return
	}
	p.address(ctx)
	p.announce(ctx)
	ctx.Defer(func(app.Context) { p.fill() })
}

// stands is what is to stand in a field, and what is known of it.
func (p *page) stands(key string) (text string, f *field.Field, ok bool) {
	labels := p.labels.Texts.Form()
	if f, ok = labels.Find(key); ok {
		return labels.Text(f), f, true
	}
	_, f, ok = p.desk.Find(key)
	return fieldText(p.desk, key), f, ok
}

// fill writes into every control what the desk holds for it, except where the
// user is typing: that may be ahead of the desk.
func (p *page) fill() {
	document := app.Window().Get("document")
	active := document.Get("activeElement")
	controls := document.Call("querySelectorAll", "input, select, textarea")
	for i := range controls.Length() {
		control := controls.Index(i)
		text, f, ok := p.stands(keyOf(control))
		if ok && (!control.Equal(active) || p.opened || f.IsChoice()) && control.Get("value").String() != text {
			control.Set("value", text)
		}
	}
	// These have no key, and are not there from the first.
	for id, text := range map[string]string{section.RunName: p.kept.name, section.GramsID: p.desk.Wish().Text} {
		if text != "" && typed(id) == "" && !(active.Truthy() && active.Get("id").String() == id) {
			write(id, text)
		}
	}
	p.fillPure(active)
	p.opened = false
}

// fillPure writes how pure the salt is wanted into both of its fields, but not into the one
// that has the focus.
func (p *page) fillPure(active app.Value) {
	for _, id := range [...]string{section.PureID, section.PureTableID} {
		if active == nil || !active.Truthy() || active.Get("id").String() != id {
			write(id, p.desk.Pure().Text)
		}
	}
}

func (p *page) OnDismount() {
	for _, c := range p.closers {
		c()
	}
}

func (p *page) onEdit(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	key, text, ok := strings.Cut(value, "=")
	if !ok {
		return
	}
	p.desk.Edit(key, text)
	p.changed(ctx)
}

func (p *page) onAsPlanned(ctx app.Context, a app.Action) {
	var set []field.Change
	value, _ := a.Value.(string)
	for line := range strings.Lines(value) {
		if key, text, ok := strings.Cut(strings.TrimSpace(line), "="); ok {
			set = append(set, field.Change{Key: key, Text: text})
		}
	}
	p.pushed = false
	p.make(ctx, set, "All as planned", "What was charged is noted as planned. Back takes it back.")
}

func (p *page) onAdd(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	key, text, _ := strings.Cut(value, "=")
	if by, err := strconv.ParseFloat(text, 64); err == nil {
		p.desk.Add(key, by)
		p.changed(ctx)
	}
}

func (p *page) onAddRow(ctx app.Context, _ app.Action) {
	p.desk.AddRow()
	p.changed(ctx)
	rows := p.desk.Rows()
	browser.FocusLater(ctx, "in.cell."+route.Print(float64(rows[len(rows)-1]), "")+".size")
}

func (p *page) onDrop(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	if row, err := strconv.Atoi(value); err == nil {
		was := p.state()
		p.desk.RemoveRow(row)
		p.took(&was, "Take out type "+value)
		p.changed(ctx)
		browser.FocusLater(ctx, "add.row")
	}
}

// changed follows every change of the desk.
func (p *page) changed(ctx app.Context) {
	p.copied, p.changes = "", nil
	p.openFaults()
	browser.AfterDraw(ctx, p, func() { // asked by the page: what was pressed may be gone by then
		p.fill()
		p.address(ctx) // browsers take their time to write it
	})
	p.announce(ctx)
	p.doubt(ctx)
}

// announce tells a screen reader what came of a change once typing pauses.
func (p *page) announce(ctx app.Context) {
	p.ticket++
	ticket := p.ticket
	ctx.After(announcePause, func(ctx app.Context) {
		if ticket == p.ticket {
			p.said, p.touched = p.spoken(), ""
			p.Update()
		}
	})
}

func (p *page) Render() app.UI {
	class := "page"
	if !p.desk.BandsStand() {
		class += " settling"
	}
	if !p.late.drawn {
		class += " early"
	}
	if !p.desk.AllDrawn() {
		class += " drawing"
	}
	if p.late.drawn && p.drawn != p.round {
		class += " stale"
	}
	if p.bench.Open {
		class += " at-bench"
	}
	return app.Elem("div").Class(class).Body(
		app.Elem("header").Body(
			app.Elem("p").Class("brand").Text("Rosesalt"),
			browser.Button().Class("plain").ID("send").Attr("aria-expanded", strconv.FormatBool(p.sending)).Attr("aria-controls", "tools").Text("Keep and send").OnClick(p.onSending),
			p.places(),
			app.Elem("div").ID("tools").Class("tools").Body(p.tools()...),
		),
		app.Elem("p").Class("copied").ID("said").TabIndex(-1).Attr("aria-live", "polite").Text(p.copied),
		&doc.Aside{Class: "undo", Of: p.undoOffer()},
		&doc.Aside{Class: "changes", Of: p.changes},
		&doc.Aside{Class: "left", Label: "What this browser keeps", Of: section.Left(p.last.store.Trouble(), p.last.offers)},
		&doc.Aside{Class: "paste", Label: section.PasteLabel, Of: p.pasteNodes()},
		app.Elem("main").ID("plan").Body(
			&doc.Aside{Class: "troubles", Role: "alert", Of: section.Troubles(p.troubles())},
			&doc.Aside{Class: "since", Label: "Since this plan was written", Of: section.Since(p.desk)},
			&doc.Aside{Class: "run", Label: "The run", Of: section.RunBar(p.desk)},
			p.place(section.Plan, p.plan),
			p.place(section.MakeReady, func() []app.UI { return p.titled(section.MakeReady) }),
			p.place(section.Afterwards, func() []app.UI { return p.titled(section.Afterwards) }),
		),
		app.Elem("footer").Body(
			app.Elem("p").Text(safety.Deference()),
			app.Elem("p").Class("soft").Text("Estimates carry a mark and give way to what you weigh. Figures that rest on a value nobody looked up say “from memory”."),
		),
		app.Elem("p").Class("unseen").Role("status").Attr("aria-live", "polite").Text(p.said),
		app.Range(p.beside()).Slice(func(i int) app.UI { return p.drawWorking() }),
		&timerbar.Bar{},
		p.place(section.Bench, func() []app.UI { return append([]app.UI{p.benchUI()}, p.parts(section.Bench, false)...) }),
		&doc.Aside{Class: "sheet", Role: "main", Of: p.sheet},
		&doc.Aside{Class: "sheet club-sheet", Role: "main", Of: p.clubSheet},
	)
}

// plan is the first place: the first screen, and the route in lines.
func (p *page) plan() []app.UI {
	source := p.source()
	acts := []app.UI{
		doc.Asks(browser.Button().Class("main").Text("Take it to the bench"), section.GoTo, section.Bench.Word()),
		button("Print the bench sheet", p.onSheet),
	}
	if p.desk.Started() == nil {
		// They go with the press, so the page itself hears it: what a button puts off is
		// forgotten once it is gone.
		acts = append(acts, doc.Draw(doc.Button{Text: "Start this run", Action: section.StartRun}, doc.Button{Class: "plain", Text: "Start over", Action: section.StartOver})...)
	}
	list := []app.UI{
		doc.Draw(section.Sentence(source))[0],
		doc.Draw(section.Near(source))[0],
		&doc.Aside{Class: "certain", Of: section.Certain(source)},
		&doc.Aside{Class: "glance", Of: section.Glance(source)},
		app.Elem("div").Class("acts").Body(append(acts, openAll(section.Plan))...),
		&doc.Aside{Class: "strip", Label: "Summary", Of: section.Strip(source)},
	}
	deeper := app.Elem("div").Class("deeper").Body(p.parts(section.Plan, false)...)
	return append(slices.Concat(list, p.parts(section.Plan, true), p.stages()), deeper)
}

// titled is a place that has no more than its parts, under its name.
func (p *page) titled(place section.Place) []app.UI {
	return append([]app.UI{
		app.Elem("h1").Class("place-title").Text(place.Name()),
		app.Elem("p").Class("lede").Text(place.About()),
		app.Elem("div").Class("acts").Body(openAll(place)),
	}, p.parts(place, false)...)
}

// openAll opens and shuts all sections of a place.
func openAll(place section.Place) app.UI {
	of := " of “" + place.Name() + "”"
	return app.Elem("div").Class("all").Body(doc.Draw(
		doc.Button{Class: "plain", Text: "Open all", Label: "Open all" + of, Action: section.OpenAll, Value: "open"},
		doc.Button{Class: "plain", Text: "Close all", Label: "Close all" + of, Action: section.OpenAll},
	)...)
}

// tools are what keeps and sends the plan, while they are open.
func (p *page) tools() []app.UI {
	if !p.sending {
		return nil
	}
	list := []app.UI{
		button("Copy plan text", p.onCopyText),
		doc.Asks(browser.Button().ID("paste.show").Attr("aria-expanded", strconv.FormatBool(p.paste.open)).Text(section.PasteLabel), section.ShowPaste, ""),
		browser.Button().ID("save.copy").Text("Save a copy").OnClick(p.onSaveCopy),
		button("Print the plan", p.onPrint),
	}
	if served() {
		list = append([]app.UI{button("Copy link", p.onCopyLink)}, list...)
	}
	if shares() {
		list = append([]app.UI{button("Send", p.onSend)}, list...)
	}
	return list
}

func (p *page) onSending(app.Context, app.Event) { p.sending = !p.sending }

// shares tells whether the system sends things on, as telephones do.
func shares() bool {
	return !app.IsServer && app.Window().Get("navigator").Get("share").Truthy()
}

// onSend hands the plan to what the system sends things by: its link, where the page has an
// address, else its text.
func (p *page) onSend(app.Context, app.Event) {
	what := map[string]any{"title": "Rosesalt", "text": section.PlanText(p.settled())}
	if served() {
		what = map[string]any{"title": "Rosesalt", "text": section.Words(p.desk, false), "url": app.Window().Get("location").Get("href").String()}
	}
	browser.Then(app.Window().Get("navigator").Call("share", what), func(app.Value) {}, func(app.Value) {})
}

// beside tells what stands beside the page: the open working, or nothing.
func (p *page) beside() []string {
	if p.how.key == "" {
		return nil
	}
	return []string{p.how.key}
}

func (p *page) onReset(ctx app.Context, _ app.Action) {
	was := p.state()
	p.leave()
	p.desk.Reset()
	p.took(&was, "Start over")
	p.from.troubles = nil
	p.opened, p.pushed = true, false // Back brings the plan back
	p.changed(ctx)
	p.copied = "A new plan."
}

func button(label string, do app.EventHandler) app.UI {
	return browser.Button().Text(label).OnClick(do)
}

// served tells whether the page came from a server, so that its address means
// something to a friend.
func served() bool {
	return !app.IsServer && strings.HasPrefix(app.Window().Get("location").Get("protocol").String(), "http")
}

func (p *page) onCopyLink(ctx app.Context, _ app.Event) {
	p.copy(ctx, app.Window().Get("location").Get("href").String(), "Link copied.")
}

func (p *page) onCopyText(ctx app.Context, _ app.Event) {
	p.copy(ctx, section.PlanText(p.settled()), "Plan copied as text.")
}

// copy puts text on the clipboard the old way, which a file opened from disk may
// use in every browser.
func (p *page) copy(ctx app.Context, text, done string) {
	document := app.Window().Get("document")
	active := document.Get("activeElement")
	area := document.Call("createElement", "textarea")
	area.Set("value", text)
	area.Call("setAttribute", "class", "unseen")
	document.Get("body").Call("appendChild", area)
	area.Call("select")
	ok := document.Call("execCommand", "copy").Bool()
	area.Call("remove")
	if active.Truthy() {
		active.Call("focus")
	}
	if !ok {
		done = "The browser refused the clipboard."
	}
	p.copied = done
}
