package web

import (
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// How the doubt is worked out beside typing: a few draws at a time, and between
// them the browser has its turn; a newer change drops older work.
const (
	bandDraws  = 512                    // a step, a few milliseconds
	breath     = time.Millisecond       // between steps
	restPause  = 200 * time.Millisecond // typing must rest so long before the rest is begun
	redrawEach = 6                      // steps of the rest between two drawings

	accountDraws = 4 * bandDraws // a step of the account, which somebody waits for
)

// doubt begins to work out how sure the figures are.
func (p *page) doubt(ctx app.Context) {
	p.round++
	if p.late.drawn && p.desk.BandsStand() { // only a measurement has changed
		p.late.after = afterOf(p.desk)
		p.later(ctx, breath, p.round, func(ctx app.Context, round int) { p.stepRest(ctx, round, 1) })
		return
	}
	p.later(ctx, breath, p.round, p.stepBands)
}

// later does something after a while without drawing the page again, unless a
// newer round has begun.
func (p *page) later(ctx app.Context, wait time.Duration, round int, do func(app.Context, int)) {
	source := ctx.Src()
	ctx.Async(func() {
		time.Sleep(wait)
		ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Next, Source: source, Function: func(ctx app.Context) {
			if round == p.round {
				do(ctx, round)
			}
		}})
	})
}

func (p *page) stepBands(ctx app.Context, round int) {
	if !p.desk.StepBands(bandDraws) {
		p.later(ctx, breath, round, p.stepBands)
		return
	}
	p.Update()
	p.later(ctx, restPause, round, func(ctx app.Context, round int) {
		p.redraw(ctx)
		p.stepRest(ctx, round, 1)
	})
}

// stepRest works out what can wait, and draws it now and then.
func (p *page) stepRest(ctx app.Context, round, step int) {
	accounted := p.desk.Accounted()
	draws := bandDraws
	if waited := p.desk.After() != nil && !accounted; waited {
		draws = accountDraws
		step = 1 // nothing else is drawn meanwhile
	}
	if p.desk.StepRest(draws) {
		p.finish(ctx)
		return
	}
	if !accounted && p.desk.Accounted() { // the account is waited for
		p.late.after = afterOf(p.desk)
		p.Update()
		ctx.Defer(func(app.Context) { p.fill() })
	}
	if step%redrawEach == 0 {
		p.late.certain(p.desk)
		p.Update()
	}
	p.later(ctx, breath, round, func(ctx app.Context, round int) { p.stepRest(ctx, round, step+1) })
}

// finish draws what the last of the rest gave; all else, unless it stands already for the
// plan as it is.
func (p *page) finish(ctx app.Context) {
	if p.drawn != p.round {
		p.redraw(ctx)
		return
	}
	p.late.certain(p.desk)
	p.Update()
	ctx.Defer(func(app.Context) { p.fill() })
}

// redraw draws everything, what waits for typing to pause too; fields that were not
// there before are filled.
func (p *page) redraw(ctx app.Context) {
	p.openKept()
	p.late, p.drawn = slowOf(p.desk, &p.kept.Kept), p.round
	p.late.labels.Texts = p.labels
	p.Update()
	ctx.Defer(func(app.Context) { p.fill() })
}

// onAsk hears the controls that are about certainty, not about the plan.
func (p *page) onAsk(ctx app.Context, target app.Value) bool {
	ask := target.Get("dataset").Get("ask")
	if !ask.Truthy() {
		return false
	}
	text := target.Get("value").String()
	wish := p.desk.Wish()
	switch ask.String() {
	case "about":
		if id, ok := route.FigureByKey(text); ok {
			p.desk.Ask(id)
		}
	case "along":
		p.desk.SweepAlong(text)
	case "grams":
		wish.Text = text
		p.desk.Want(wish)
	case "salt":
		if id, ok := route.FigureByKey(text); ok {
			wish.Figure = id
			p.desk.Want(wish)
		}
	case "by":
		wish.ByShare = text == "share"
		p.desk.Want(wish)
	}
	p.round++
	p.later(ctx, breath, p.round, func(ctx app.Context, round int) {
		if p.desk.BandsStand() {
			p.stepRest(ctx, round, 1)
		} else {
			p.stepBands(ctx, round)
		}
	})
	return true
}

// onSave hands a picture to the browser as a file.
func (p *page) onSave(_ app.Context, a app.Action) {
	saved, ok := a.Value.(chart.Saved)
	if !ok {
		return
	}
	save("rosesalt-"+saved.Name+".svg", "image/svg+xml", saved.Text)
}

const (
	sureTitle   = "How sure"
	whatIfTitle = "What if"
)

// sureView is what to measure next, and what the doubt rests on.
type sureView struct {
	About   []optionView
	Figure  string
	Now     string // the figure with its band
	Advice  []adviceView
	Waiting bool
	Most    string // the inputs that explain most, in words
	Inputs  []doubtView
}

type adviceView struct{ Do, How, Before, After string }

type doubtView struct {
	Key, Name, Usual, Problem string
	Share                     string
}

// worthWhile is how much of a band may be left for a measurement to be worth
// naming.
const worthWhile = 0.95

// askable are the figures that one may want to be surer of.
var askable = []route.FigureID{
	route.ProductMass, route.ProductAnhydrous, route.ProductPurity, route.CopperCrop, route.GasNeeded, route.GasAcidNeeded,
	route.ReduceConversion, route.VentGas, route.WashEnough, route.WasteBase,
}

func sureOf(d *desk.Desk) sureView {
	about := d.Asked()
	v := sureView{Figure: about.Info().Name}
	for _, id := range askable {
		v.About = append(v.About, optionView{Word: id.Info().Key, Name: id.Info().Name, Chosen: id == about})
	}
	if d.Sheet().Reason(about) == route.Defined {
		r := readFigure(d, about)
		v.Now = r.Number + unitAfter(r.Unit) + inRange(r.Range)
	}
	list, told := d.Suggestions()
	v.Waiting = !told || !d.BandsStand()
	factor, unit := route.Scale(d.Sheet().Value(about), about.Info().Unit)
	for _, s := range list {
		if s.HighAfter-s.LowAfter > worthWhile*(s.High-s.Low) {
			continue
		}
		decimals := spread.Decimals(s.LowAfter*factor, s.HighAfter*factor)
		v.Advice = append(v.Advice, adviceView{s.Do, s.How, span(s.Low*factor, s.High*factor, decimals, unit), span(s.LowAfter*factor, s.HighAfter*factor, decimals, unit)})
	}
	v.Inputs, v.Most = doubtsOf(d, about)
	return v
}

// span writes a band as it is read, to the decimals of the one it is held against.
func span(low, high float64, decimals int, unit string) string {
	return route.Fixed(low, decimals) + "–" + route.Fixed(high, decimals) + unitAfter(unit)
}

// doubtsOf lists the inputs that are drawn, in bench order, so that no row moves
// while an interval is typed in it; and says which explain most.
func doubtsOf(d *desk.Desk, about route.FigureID) (list []doubtView, most string) {
	share := map[string]float64{}
	var words []string
	if d.BandsStand() {
		for _, s := range d.Run().Shares(about) {
			share[s.Input.Key] = s.Of
			if len(words) < 4 && s.Of >= 0.03 {
				words = append(words, s.Input.Name+" ("+route.Print(100*s.Of, "%")+")")
			}
		}
	}
	if len(words) > 0 {
		most = "Most of the doubt comes from: " + strings.Join(words, "; ") + "."
	}
	drawn := d.Run().Uncertains()
	for i := range drawn {
		u := &drawn[i]
		v := doubtView{
			Key: u.Input.Key, Name: u.Input.Name, Problem: d.Problem(u.Input.Key + "~"),
			Usual: route.Print(u.Low, "") + " to " + route.Print(u.High, "") + unitAfter(u.Input.Unit),
		}
		if of := share[u.Input.Key]; of >= 0.005 {
			v.Share = route.Print(100*of, "%")
		}
		list = append(list, v)
	}
	return list, most
}

// sure is the section that says how sure the figures are.
type sure struct {
	app.Compo
	View sureView
}

func (s *sure) Render() app.UI {
	v := s.View
	return plainSection(sureTitle, "and what to weigh next",
		app.Elem("p").Class("lede").Text("Behind each figure stands where eight in ten of 4096 plans lie, drawn from between the low and the high of every estimate. The bar beside it runs from nothing to twice the figure. Charges that you will weigh out are held, and what becomes of them is drawn: at the best guess they just suffice, so most ways of being wrong leave less. Where that puts the best figure at the end of its interval or outside, the middle of the draws stands with it: half of them lie below."),
		app.Elem("div").Class("ask").Body(
			app.Elem("label").Attr("for", "ask.about").Text("To be surer of"),
			app.Elem("div").Class("in pick").Body(options(app.Elem("select").ID("ask.about").DataSet("ask", "about"), v.About)),
		),
		advice(v),
		app.Elem("details").Body(
			app.Elem("summary").Text("What the doubt rests on, and the intervals to change"),
			app.Elem("p").Class("lede").Text(v.Most),
			app.Elem("div").Class("scroll").Body(app.Elem("table").Class("doubts").Body(
				app.Elem("thead").Body(app.Elem("tr").Body(app.Elem("th").Attr("scope", "col").Text("Input"), app.Elem("th").Attr("scope", "col").Text("Drawn from"), app.Elem("th").Attr("scope", "col").Text("Explains"), app.Elem("th").Attr("scope", "col").Text("Your interval"))),
				app.Elem("tbody").Body(app.Range(v.Inputs).Slice(func(i int) app.UI { return doubtRow(v.Inputs[i]) })),
			)),
		),
	)
}

func advice(v sureView) app.UI {
	if len(v.Advice) == 0 {
		text := "No single measurement of this bench would narrow it by more than a twentieth."
		class := "lede"
		if v.Waiting {
			text, class = "Working out what to measure next …", "lede waiting"
		}
		return app.Elem("p").Class(class).Text(text)
	}
	class := "advice"
	if v.Waiting {
		class += " waiting"
	}
	return app.Elem("ol").Class(class).Body(app.Range(v.Advice).Slice(func(i int) app.UI {
		a := v.Advice[i]
		return app.Elem("li").Body(
			app.Elem("b").Text(a.Do+": "), app.Text(a.Before+" becomes "), app.Elem("b").Text(a.After), app.Text(". "),
			app.Elem("span").Class("soft").Text(a.How),
		)
	}))
}

func doubtRow(v doubtView) app.UI {
	input := app.ElemSelfClosing("input").Attr("type", "text").Attr("name", v.Key+"~").Aria("label", v.Name+", low to high").Attr("placeholder", doc.Proposal(v.Usual))
	cell := app.Elem("td").Body(app.Elem("div").Class("in").Body(input))
	if v.Problem != "" {
		cell = app.Elem("td").Body(app.Elem("div").Class("in").Body(input.Aria("invalid", "true").Aria("describedby", "problem."+v.Key+"~")), app.Elem("p").Class("problem").ID("problem."+v.Key+"~").Text(v.Problem))
	}
	return app.Elem("tr").Body(app.Elem("th").Attr("scope", "row").Text(v.Name), app.Elem("td").Text(v.Usual), app.Elem("td").Text(v.Share), cell)
}
