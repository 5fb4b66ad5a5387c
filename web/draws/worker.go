package draws

import (
	"encoding/json"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/desk"
)

// worker is the program once more beside the page, as the page sees it.
type worker struct {
	state state
	js    app.Value
	post  func(round int, errand string)
}

type state uint8

const (
	untried state = iota
	starting
	ready
	silent // for too long: the page does the work until it is heard again
	refused
)

// message is what a worker says.
type message struct {
	ready, ended bool
	round        int
	stage        Progress
	packed       []byte
}

// start asks the loader for the worker. Where the browser refuses one, it says so by an
// exception, here, or by an event.
func (w *worker) start(hear func(message)) {
	if app.IsServer {
		w.state = refused
		return
	}
	defer func() {
		if recover() != nil {
			w.end()
		}
	}()
	w.state = starting
	w.js = app.Window().Call("rosesaltWorker")
	w.post = func(round int, errand string) {
		w.js.Call("postMessage", map[string]any{"round": round, "errand": errand})
	}
	on := func(event string, say func(app.Value) message) {
		w.js.Call("addEventListener", event, app.FuncOf(func(_ app.Value, args []app.Value) any {
			hear(say(args[0]))
			return nil
		}))
	}
	on("message", func(e app.Value) message { return read(e.Get("data")) })
	for _, event := range []string{"error", "messageerror"} {
		on(event, func(app.Value) message { return message{ended: true} })
	}
}

// read reads what the worker posted: that it stands, or stops, or a round, a stage and the
// packed results.
func read(data app.Value) message {
	if data.Type() == app.TypeString {
		return message{ready: data.String() == stands, ended: data.String() != stands}
	}
	from := data.Get("packed")
	said := message{round: data.Get("round").Int(), stage: Progress(data.Get("stage").Int()), packed: make([]byte, from.Get("length").Int())}
	app.CopyBytesToGo(said.packed, from)
	return said
}

// stands is what the worker says when it can take errands.
const stands = "stands"

// end ends it for good.
func (w *worker) end() {
	w.state = refused
	if w.js != nil {
		w.js.Call("terminate")
	}
}

// Serve makes the draws for a page, if the program runs in its worker, and then does not
// return; else it tells that this is the page.
func Serve() bool {
	if app.IsServer || app.Window().Get("document").Truthy() {
		return false
	}
	s := server{work: begin(desk.New(""))}
	turn := app.Window().Get("MessageChannel").New()
	s.next = func() { turn.Get("port2").Call("postMessage", 0) }
	turn.Get("port1").Set("onmessage", app.FuncOf(func(app.Value, []app.Value) any {
		s.turn()
		return nil
	}))
	app.Window().Call("addEventListener", "message", app.FuncOf(func(_ app.Value, args []app.Value) any {
		data := args[0].Get("data")
		s.take(data.Get("round").Int(), data.Get("errand").String())
		return nil
	}))
	app.Window().Call("postMessage", stands)
	select {}
}

// server is the worker's side.
type server struct {
	work  work
	round int
	next  func() // asks the browser for another turn, after the messages that wait
	turns bool   // one is asked for
	all   bool   // nothing is left to do
}

// take takes up an errand in the place of the one before.
func (s *server) take(round int, text string) {
	var e desk.Errand
	if err := json.Unmarshal([]byte(text), &e); err != nil {
		panic(err) // the page of the same program wrote it
	}
	s.work.desk.RunErrand(&e)
	s.work, s.round, s.all = begin(s.work.desk), round, false
	s.ask()
}

func (s *server) ask() {
	if !s.turns {
		s.turns = true
		s.next()
	}
}

// turn does a step of the work.
func (s *server) turn() {
	s.turns = false
	if s.all {
		return
	}
	stage := s.work.step()
	s.all = stage == All
	if stage != Nothing {
		b := pack(s.work.desk.Results(parts[stage]))
		array := app.Window().Get("Uint8Array").New(len(b))
		app.CopyBytesToJS(array, b)
		app.Window().Call(
			"postMessage", map[string]any{"round": s.round, "stage": int(stage), "packed": array},
			app.Window().Get("Array").Call("of", array.Get("buffer")), // handed over, not copied
		)
	}
	if !s.all {
		s.ask()
	}
}
