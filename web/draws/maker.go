package draws

import (
	"encoding/json"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/desk"
)

const (
	// breath is what the browser is given between two steps on the page's own thread.
	breath = time.Millisecond
	// RestPause is how long typing must rest before the page's own thread goes on to what
	// comes after the intervals.
	RestPause = 200 * time.Millisecond
	// patience is how long a worker may be silent before the page does its work, until it speaks.
	patience = 5 * time.Second
)

// Maker makes the draws of a desk. All of it happens where the page handles its events.
type Maker struct {
	page app.UI // stays
	desk *desk.Desk
	told func(app.Context, Progress)
	wait func(ctx app.Context, wait time.Duration, do func(app.Context)) // does something after a while

	worker worker
	round  int  // of the last Begin
	heard  int  // how often the worker was heard
	here   bool // the round is stepped on the page's own thread
	done   bool // the round is
}

// New makes the maker of draws of a page's desk. The page is told of each stage that stands on the
// desk, of the work that was begun last.
func New(page app.UI, d *desk.Desk, told func(app.Context, Progress)) *Maker {
	return &Maker{page: page, desk: d, told: told, wait: func(ctx app.Context, wait time.Duration, do func(app.Context)) {
		browser.Later(ctx, page, wait, do)
	}}
}

// Begin begins the work for the desk as it is, and drops what was begun before.
func (d *Maker) Begin(ctx app.Context) {
	d.round++
	d.here, d.done = false, false
	switch d.worker.state {
	case untried:
		d.worker.start(func(said message) {
			ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Next, Source: d.page, Function: func(ctx app.Context) { d.hear(ctx, &said) }})
		})
	case ready:
		d.send()
	}
	switch d.worker.state {
	case silent, refused:
		d.step(ctx)
	default:
		d.watch(ctx)
	}
}

// later does something after a while, without drawing the page again, unless newer work was
// begun.
func (d *Maker) later(ctx app.Context, wait time.Duration, do func(app.Context)) {
	round := d.round
	d.wait(ctx, wait, func(ctx app.Context) {
		if round == d.round {
			do(ctx)
		}
	})
}

// step does the work on the page's own thread, a step at a time.
func (d *Maker) step(ctx app.Context) {
	if d.here || d.done {
		return
	}
	d.here = true
	w := goOn(d.desk)
	var next func(app.Context)
	next = func(ctx app.Context) {
		wait := breath
		if stage := w.step(); stage != Nothing {
			if d.told(ctx, stage); stage == All {
				d.done = true
				return
			}
			if stage == Bands {
				wait = RestPause
			}
		}
		d.later(ctx, wait, next)
	}
	d.later(ctx, breath, next)
}

// send gives the worker the errand of the desk as it is.
func (d *Maker) send() {
	text, err := json.Marshal(d.desk.Errand())
	if err != nil {
		panic(err) // cannot be: it is made of texts
	}
	d.worker.post(d.round, string(text))
}

// watch steps in where the worker is silent, as it may be while the machine has much else to do.
// It is not waited for again, but what comes after it spoke is asked of it.
func (d *Maker) watch(ctx app.Context) {
	heard := d.heard
	d.later(ctx, patience, func(ctx app.Context) {
		switch {
		case d.here || d.done:
		case heard != d.heard:
			d.watch(ctx)
		default:
			d.worker.state = silent
			d.step(ctx)
		}
	})
}

// hear takes what the worker says.
func (d *Maker) hear(ctx app.Context, said *message) {
	d.heard++
	switch {
	case d.worker.state == refused: // it was given up
	case said.ended:
		d.worker.end()
		d.step(ctx)
	case said.ready, d.worker.state == silent:
		d.worker.state = ready
		if !d.here {
			d.send()
		}
	case said.round == d.round && !d.here:
		var r desk.Results
		if err := unpack(said.packed, &r); err != nil {
			d.worker.end()
			d.step(ctx)
			return
		}
		known := goOn(d.desk)
		d.desk.TakeResults(&r)
		d.done = said.stage == All
		if !(said.stage == Bands && known.bands || said.stage == Account && known.accounted) {
			d.told(ctx, said.stage)
		}
	}
}
