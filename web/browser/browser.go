// Package browser is what the page asks of the browser beside what it shows: storages, events
// of the document, promises, the focus.
package browser

import (
	"errors"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
)

// Button is a button that sends no form.
func Button() app.HTMLElem { return app.Elem("button").Attr("type", "button") }

// OnDocument hears an event of the document at once, before the browser forgets that
// a person caused it.
func OnDocument(event string, do func(event app.Value)) (stop func()) {
	return on(app.Window().Get("document"), event, do)
}

// OnWindow hears an event of the window at once: a page that is left runs nothing later.
func OnWindow(event string, do func(event app.Value)) (stop func()) {
	return on(app.Window(), event, do)
}

func on(target app.Value, event string, do func(event app.Value)) (stop func()) {
	f := app.FuncOf(func(_ app.Value, args []app.Value) any {
		do(args[0])
		return nil
	})
	target.Call("addEventListener", event, f, true)
	return func() {
		target.Call("removeEventListener", event, f, true)
		f.Release()
	}
}

// Then hears both ends of a promise: a refusal that nobody hears is reported as an error.
func Then(promise app.Value, well, badly func(app.Value)) {
	var ends [2]app.Func
	end := func(do func(app.Value)) app.Func {
		return app.FuncOf(func(_ app.Value, args []app.Value) any {
			var v app.Value
			if len(args) > 0 {
				v = args[0]
			}
			do(v)
			ends[0].Release()
			ends[1].Release()
			return nil
		})
	}
	ends[0], ends[1] = end(well), end(badly)
	promise.Call("then", ends[0], ends[1])
}

// Await waits for a promise; not to be called by what handles an event.
func Await(promise app.Value) (v app.Value, err error) {
	done := make(chan struct{})
	Then(promise, func(got app.Value) {
		v = got
		close(done)
	}, func(why app.Value) {
		err = errors.New("unknown")
		if why.Truthy() {
			err = errors.New(why.Call("toString").String())
		}
		close(done)
	})
	<-done
	return v, err
}

// SinceOpened is the time since the page was opened, ms.
func SinceOpened() float64 { return app.Window().Get("performance").Call("now").Float() }

// FocusLater puts the focus where the work goes on, once the page is drawn.
func FocusLater(ctx app.Context, id string) { FocusAfter(ctx, ctx.Src(), id) }

// FocusAfter is FocusLater for what is pressed on something that goes away with it:
// the library forgets what a button put off once the button is gone, so a component
// that stays must ask.
func FocusAfter(ctx app.Context, stays app.UI, id string) {
	AfterDraw(ctx, stays, func() {
		if e := app.Window().GetElementByID(id); e.Truthy() {
			e.Call("focus")
		}
	})
}

// AfterDraw calls do once the page is drawn, if the component that asks is still there then.
func AfterDraw(ctx app.Context, stays app.UI, do func()) {
	ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Defer, Source: stays, Function: func(app.Context) { do() }})
}

// Later does something after a while, if what asks for it stands then, and draws nothing.
func Later(ctx app.Context, stays app.UI, wait time.Duration, do func(app.Context)) {
	ctx.Async(func() {
		time.Sleep(wait)
		ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Next, Source: stays, Function: do})
	})
}

// FocusStill puts the focus somewhere once the page is drawn, and scrolls nothing.
func FocusStill(ctx app.Context, id string) {
	ctx.Defer(func(app.Context) {
		if e := app.Window().GetElementByID(id); e.Truthy() {
			e.Call("focus", map[string]any{"preventScroll": true})
		}
	})
}
