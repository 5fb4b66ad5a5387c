// Package web is the page: components that show what package desk holds.
//
// Data goes one way. A field's text goes to the desk by an action; the desk
// works out plan and figures; package section makes documents of them, and a part
// of the page is drawn again only when its document differs. No component computes
// chemistry.
package web

import (
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
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/drawer"
	"rosesalt/web/listen"
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
	drawer    *drawer.Drawer
	written   string // the fragment that the address holds
	read      string // the fragment that was opened last
	means     string // the same, as the desk writes it
	pushed    bool   // whether this visit has its own entry in the history
	said      string // what the live region says
	touched   string // the key of the field that was typed in since that
	copied    string
	closers   []func()
	late      slow
	kept      keeper
	writtenAt time.Time
	waiting   bool // a writing of the address is due
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
	taps      listen.Taps // at bubbles
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
	p.drawer = drawer.New(p, p.desk, p.drew)
	p.bench = atbench.Recall()
	p.recallLabels()
	p.taps = bubbles.RecallTaps()
	p.open.recallOpen()
	p.openLast()
	p.openFaults()
	p.recallPlace()
}

// fragment is the address's fragment as it stands, still escaped.
func fragment() string {
	if app.IsServer {
		return ""
	}
	return strings.TrimPrefix(app.Window().Get("location").Get("hash").String(), "#")
}

func (p *page) OnMount(ctx app.Context) {
	if demo := app.Window().GetElementByID("demo"); demo.Truthy() {
		demo.Call("remove") // this page stands in its place
	}
	ctx.Handle(section.Edit, p.onEdit)
	ctx.Handle(section.AddRow, p.onAddRow)
	ctx.Handle(section.DropRow, p.onDrop)
	ctx.Handle(section.Pin, p.onPin)
	ctx.Handle(section.PlanNext, p.onNext)
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
	ctx.Handle(section.ShowPaste, p.onPaste)
	ctx.Handle(section.OpenPaste, p.onPasted)
	p.handleKept(ctx)
	p.handleOpen(ctx)
	p.handlePlaces(ctx)
	p.markNumbers()
	p.closers = append(p.closers, app.Window().AddEventListener("hashchange", func(ctx app.Context, _ app.Event) { p.follow(ctx) }))
	p.closers = append(p.closers, app.Window().AddEventListener("afterprint", func(ctx app.Context, _ app.Event) { p.printed(ctx) }))
	p.closers = append(p.closers, browser.OnDocument("keydown", p.onKey))
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
func (p *page) onNext(ctx app.Context, _ app.Action) {
	was := p.state()
	p.leave()
	changes := p.desk.PlanNext()
	if changes == nil {
		return
	}
	p.took(&was, "Plan the next run")
	p.opened, p.pushed = true, false
	p.changed(ctx)
	p.kept.Opened = "" // it is another run from here on
	p.nameRun("")
	browser.FocusLater(ctx, "said")
	p.copied = "The next run: "
	for _, c := range changes {
		p.copied += c.Sentence + " "
	}
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

// onInput hears every field of the page: one listener is cheaper to set up than
// one for each.
func (p *page) onInput(ctx app.Context, e app.Event) {
	target := e.Get("target")
	if p.onAsk(ctx, target) {
		return
	}
	key := keyOf(target)
	if key == "" {
		switch target.Get("id").String() {
		case section.RunName:
			p.kept.name = target.Get("value").String()
		case section.RunFile:
			ctx.NewAction(chooseAction)
		}
		return
	}
	p.typed(ctx, key, target.Get("value").String())
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
	p.touched = key
	anew := p.desk.Edit(key, text)
	switch anew {
	case field.Assays:
		p.late.remake(section.AssaysTitle, sourceOf(p.desk, nil))
	case field.Gas:
		p.late.gas = bubbles.Of(p.desk)
	case field.Days:
		p.late.remake(section.DaysTitle, sourceOf(p.desk, nil))
	case field.Club:
		p.late.remake(section.ClubTitle, sourceOf(p.desk, nil))
	}
	if !anew.Beside() {
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

// keyOf is the key of the input that a control sets: its name, or for the
// sentence's controls, which double a named one, what they say.
func keyOf(control app.Value) string {
	if name := control.Get("name"); name.Truthy() {
		return name.String()
	}
	if key := control.Get("dataset").Get("key"); key.Truthy() {
		return key.String()
	}
	return ""
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
	p.opened = false
}

func (p *page) OnDismount() {
	for _, c := range p.closers {
		c()
	}
}

// follow opens the plan of an address that someone else wrote: Back, Forward, or
// a link pasted over this one.
func (p *page) follow(ctx app.Context) {
	now := fragment()
	if now == p.written {
		return
	}
	p.remember()
	p.written, p.pushed = now, false
	p.from.troubles = nil
	p.desk.Open(p.planAt(now))
	p.read, p.means = now, p.desk.Fragment()
	p.recall()
	p.openFaults()
	p.opened = true
	ctx.Defer(func(app.Context) { p.fill() })
	p.announce(ctx)
	p.doubt(ctx)
	p.Update()
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
		p.desk.Clear(row)
		p.took(&was, "Take out type "+value)
		p.changed(ctx)
		browser.FocusLater(ctx, "add.row")
	}
}

// changed follows every change of the desk.
func (p *page) changed(ctx app.Context) {
	p.copied = ""
	p.openFaults()
	browser.Drawn(ctx, p, func() { // asked by the page: what was pressed may be gone by then
		p.fill()
		p.address(ctx) // browsers take their time to write it
	})
	p.announce(ctx)
	p.doubt(ctx)
}

// address brings the address into step: at once, or in a burst of typing at most
// once in addressPause, since browsers refuse a page that writes it too often.
func (p *page) address(ctx app.Context) {
	if wait := addressPause - time.Since(p.writtenAt); wait > 0 {
		if !p.waiting {
			p.waiting = true
			ctx.After(wait, func(ctx app.Context) {
				p.waiting = false
				p.address(ctx)
			})
		}
		return
	}
	f := p.desk.Fragment()
	if p.inAddress(f) {
		return
	}
	p.writtenAt = time.Now()
	p.write(f)
}

// inAddress tells whether the address says what a fragment says: it is the same, or what was
// opened, written by another version or not at all.
func (p *page) inAddress(f string) bool {
	return f == p.written || p.written == p.read && f == p.means
}

// write puts a fragment into the address. The first change of a visit makes an
// entry of its own, so that Back returns to the plan as it was opened; further
// ones write over it, so that typing does not fill the history.
func (p *page) write(fragment string) {
	anew := !p.pushed
	if anew {
		p.enter(false, "") // so that coming back tells which plan this was
		p.at.edition++
	}
	p.enter(anew, "#"+fragment)
	p.pushed, p.written = true, fragment
}

// addressPause is the least time between two writings of the address.
const addressPause = 120 * time.Millisecond

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
	if !p.desk.Drawn() {
		class += " drawing"
	}
	if p.late.drawn && p.drawn != p.round {
		class += " stale"
	}
	if p.bench.Open {
		class += " at-bench"
	}
	return app.Elem("div").Class(class).OnInput(p.onInput).OnClick(p.onPress).Body(
		app.Elem("header").Body(
			app.Elem("p").Class("brand").Text("Rosesalt"),
			app.Elem("button").Attr("type", "button").Class("plain").ID("send").Aria("expanded", word(p.sending)).Aria("controls", "tools").Text("Keep and send").OnClick(p.onSending),
			p.places(),
			app.Elem("div").ID("tools").Class("tools").Body(p.tools()...),
		),
		app.Elem("p").Class("copied").ID("said").TabIndex(-1).Aria("live", "polite").Text(p.copied),
		&doc.Aside{Class: "undo", Of: p.undoOffer()},
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
		app.Elem("p").Class("unseen").Role("status").Aria("live", "polite").Text(p.said),
		app.Range(p.beside()).Slice(func(i int) app.UI { return p.drawWorking() }),
		&timerbar.Bar{},
		p.place(section.Bench, func() []app.UI { return append([]app.UI{p.benchUI()}, p.parts(section.Bench)...) }),
		&doc.Aside{Class: "sheet", Role: "main", Of: p.sheet},
		&doc.Aside{Class: "sheet club-sheet", Role: "main", Of: p.clubSheet},
	)
}

// plan is the first place: the first screen, and the route in lines.
func (p *page) plan() []app.UI {
	source := sourceOf(p.desk, nil)
	acts := []app.UI{
		app.Elem("button").Attr("type", "button").Class("main").Text("Take it to the bench").DataSet(doc.ActionData, section.GoTo).DataSet(doc.ValueData, section.Bench.Word()),
		button("Print the bench sheet", p.onSheet),
	}
	if p.desk.Started() == nil {
		// They go with the press, so the page itself hears it: what a button puts off is
		// forgotten once it is gone.
		acts = append(acts, doc.Draw(doc.Button{Text: "Start this run", Action: section.StartRun}, doc.Button{Class: "plain", Text: "Start over", Action: section.StartOver})...)
	}
	list := []app.UI{
		doc.Draw(section.Sentence(source))[0],
		&doc.Aside{Class: "certain", Of: section.Certain(source)},
		&doc.Aside{Class: "glance", Of: section.Glance(source)},
		app.Elem("div").Class("acts").Body(append(acts, openAll(section.Plan))...),
		&doc.Aside{Class: "strip", Label: "Summary", Of: section.Strip(source)},
	}
	return append(append(list, p.stages()...), p.parts(section.Plan)...)
}

// titled is a place that has no more than its parts, under its name.
func (p *page) titled(place section.Place) []app.UI {
	return append([]app.UI{
		app.Elem("h1").Class("place-title").Text(place.Name()),
		app.Elem("p").Class("lede").Text(place.About()),
		app.Elem("div").Class("acts").Body(openAll(place)),
	}, p.parts(place)...)
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
		app.Elem("button").Attr("type", "button").ID("paste.show").Aria("expanded", word(p.paste.open)).Text(section.PasteLabel).DataSet(doc.ActionData, section.ShowPaste),
		app.Elem("button").Attr("type", "button").ID("save.copy").Text("Save a copy").OnClick(p.onSaveCopy),
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

// word is a yes or no as attributes say it.
func word(is bool) string {
	if is {
		return "true"
	}
	return "false"
}

// shares tells whether the system sends things on, as telephones do.
func shares() bool {
	return !app.IsServer && app.Window().Get("navigator").Get("share").Truthy()
}

// onSend hands the plan to what the system sends things by: its link, where the page has an
// address, else its text.
func (p *page) onSend(app.Context, app.Event) {
	what := map[string]any{"title": "Rosesalt", "text": section.PlanText(sourceOf(p.desk, nil))}
	if served() {
		what = map[string]any{"title": "Rosesalt", "text": section.Words(p.desk, false), "url": app.Window().Get("location").Get("href").String()}
	}
	browser.Settled(app.Window().Get("navigator").Call("share", what), func(app.Value) {}, func(app.Value) {})
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
	return app.Elem("button").Attr("type", "button").Text(label).OnClick(do)
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
	p.copy(ctx, section.PlanText(sourceOf(p.desk, nil)), "Plan copied as text.")
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
