package web

import (
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/procedure"
	"rosesalt/web/browser"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

// theStart is when the work begins if nobody says: on the next Saturday when the session
// begins.
func theStart(now time.Time, from time.Duration) time.Time {
	days := (int(time.Saturday)-int(now.Weekday())+6)%7 + 1
	return time.Date(now.Year(), now.Month(), now.Day()+days, 0, 0, 0, 0, time.UTC).Add(from)
}

// firstDay is theStart by the machine's clock, which only this package reads.
func firstDay(d *desk.Desk) time.Time { return theStart(time.Now(), d.Days().From) }

// fieldText is what stands in a field: what is typed or held; in that of the start, while
// neither it nor a finish is, the one that is counted from.
func fieldText(d *desk.Desk, key string) string {
	text := d.Text(key)
	if key == procedure.StartKey && text == "" && d.Text(procedure.FinishKey) == "" {
		return firstDay(d).Format(field.DayForm)
	}
	return text
}

// onFit makes all changes of an offer, as one that can be undone.
func (p *page) onFit(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	offer, ok := section.FitOf(p.source(), value)
	if !ok {
		return
	}
	p.make(ctx, offer.Set, "Changed for the sessions", offer.Text+" "+offer.Gives)
}

// make makes changes as one that can be undone, and says so.
func (p *page) make(ctx app.Context, set []field.Change, what, says string) {
	was := p.state()
	for _, change := range set {
		p.desk.Edit(change.Key, change.Text)
	}
	p.took(&was, what)
	p.changed(ctx)
	p.copied = says
	browser.FocusAfter(ctx, p, "said")
}

func (p *page) onFill(ctx app.Context, _ app.Action) { ctx.Defer(func(app.Context) { p.fill() }) }
