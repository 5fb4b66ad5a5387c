package web

import (
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/link"
	"rosesalt/web/picture"
)

const (
	afterTitle = "After the run"
	nextAction = "next" // with nothing
)

// afterView is what was measured of a run, and the account of it.
type afterView struct {
	Fields         []measureView
	Facts          []fieldView
	Tolerances     []fieldView
	Bounds         []boundView
	Contradictions []route.Notice
	Verdict        string
	Causes         []string
	Missing        string
	Settles        string
	Found          []figureView
	Compared       []compareView
	Against        chart.Picture // planned against found
	Flow           chart.Picture // as it most likely ran
	Learned        []string
	Size           string
	Waiting        bool
	Begun          bool
}

// measureView is a measurement with the readings of its dish, where it takes any.
type measureView struct {
	Field  fieldView
	Dish   []fieldView
	Drying string
}

// boundView is a figure that follows with few assumptions, and those.
type boundView struct {
	Figure  figureView
	Assumes []string
	Working string
}

// expectedOf is the figure that a measurement is held against.
var expectedOf = map[string]route.FigureID{
	account.KeyProduct: route.ProductMass, account.KeyCopper: route.CopperCrop, account.KeyMetal: route.CopperLeft,
	account.KeyResidue: route.ResidueMass, account.KeyGas: route.GasMade,
}

func afterOf(d *desk.Desk) afterView {
	var v afterView
	for _, in := range account.Inputs() {
		f := fieldView{
			Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why, Problem: d.Problem(in.Key),
			Tag: "not weighed", Line: "open",
		}
		if quantity.Given(d.Found().Value(in.Key)) {
			f.Tag, f.Line = "you weighed", "weighed"
		}
		if in.Kind == field.Fact {
			f.Options = []optionView{{Word: "0", Name: "no", Chosen: d.Text(in.Key) != "1"}, {Word: "1", Name: "yes", Chosen: d.Text(in.Key) == "1"}}
			f.Tag = ""
			v.Facts = append(v.Facts, f)
			continue
		}
		if id, ok := expectedOf[in.Key]; ok && d.Sheet().Reason(id) == route.Defined {
			r := readFigure(d, id)
			f.Usual = readAs(d, id)
			f.Range = "To expect: " + r.Number + unitAfter(r.Unit) + inRange(r.Range) + "."
		}
		v.Fields = append(v.Fields, measureOf(d, f))
		v.Tolerances = append(v.Tolerances, toleranceOf(d, in)...)
	}
	p := d.After()
	if p == nil {
		return v
	}
	v.Begun, v.Waiting = true, !d.Accounted()
	for _, b := range p.Bounds.List() {
		v.Bounds = append(v.Bounds, boundView{viewBound(b), b.Assumes, b.Working})
	}
	for _, c := range p.Contradictions {
		v.Contradictions = append(v.Contradictions, route.Notice{Tone: route.Mind, Text: c.Sentence()})
	}
	if !d.Accounted() {
		return v
	}
	if !p.OK() {
		v.Verdict = p.Why()
		return v
	}
	verdict := p.Verdict()
	v.Verdict, v.Missing = verdict.Sentence, verdict.Missing
	for _, r := range verdict.Ranked {
		v.Causes = append(v.Causes, p.Called(r.Cause)+", "+r.Odds)
	}
	if verdict.Settles != nil {
		v.Settles = verdict.Settles.Sentence
	}
	for _, f := range account.Figures() {
		if i, ok := p.Account(f.Key); ok {
			v.Found = append(v.Found, viewInterval(f.Key, f.Name, f.Unit, i))
		}
	}
	held := heldUpOf(d, p)
	v.Compared = heldAgainst(held)
	v.Against = picture.Against(weighedOf(d, held))
	v.Flow = likeliestFlow(p)
	for _, l := range p.Learned() {
		v.Learned = append(v.Learned, l.Input.Name+": "+reads(l.Median, l.Low, l.High, l.Input.Unit))
	}
	size := p.Size()
	v.Size = "Effective number of points " + route.Print(size.Points, "") + " of " + route.Print(float64(size.Draws), "") + " runs weighed."
	return v
}

// measureOf adds the readings of a dish to the field of a mass, each with the reading to
// expect.
func measureOf(d *desk.Desk, f fieldView) measureView {
	m := measureView{Field: f}
	inputs, logged := account.DishInputs(f.Key)
	if inputs == nil {
		return m
	}
	dish := d.Found().Dish(f.Key)
	m.Field.Locked = d.Found().InDish(f.Key)
	if m.Field.Locked {
		m.Field.Tag = "full less empty"
	}
	for i := range inputs {
		if i > dish.Weighed()+1 {
			break // the next one comes when this one is filled
		}
		in := inputs[i]
		r := fieldView{Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why, Problem: d.Problem(in.Key), Line: "open"}
		if quantity.Given(d.Found().Value(in.Key)) {
			r.Line = "weighed"
		}
		if id, ok := expectedOf[f.Key]; ok && i > 0 && quantity.Given(dish.Empty) && d.Sheet().Reason(id) == route.Defined {
			band := d.Band(id)
			r.Why = "To expect: about " + route.Print(dish.Empty+band.Expected(d.Sheet().Value(id)), in.Unit)
			if band.OK {
				r.Why += inRange(route.Print(dish.Empty+band.Low, "") + "–" + route.Print(dish.Empty+band.High, ""))
			}
			r.Why += "."
		}
		m.Dish = append(m.Dish, r)
	}
	if logged {
		m.Drying = dryingOf(dish)
	}
	return m
}

func dryingOf(dish *account.Dish) string {
	switch state, change := dish.Drying(); state {
	case account.WeighedOnce:
		return "Dry on for an hour and weigh again: it is dry when two weighings agree."
	case account.NoDish:
		return "Give the empty dish too: without it nobody can tell whether what is in it is dry."
	case account.Constant:
		return "Two weighings agree: it is dry."
	case account.StillLosing:
		return "It lost " + route.Print(-change, "g") + " since the time before: not dry yet. The last weighing is used."
	case account.Gaining:
		return "It gained " + route.Print(change, "g") + " since the time before: it drew water while it cooled, or a reading slipped. Dry and weigh again."
	}
	return ""
}

// toleranceOf is the field of a measurement's half-width; none for what takes none.
func toleranceOf(d *desk.Desk, in *field.Field) []fieldView {
	probe := account.NewRecord()
	if err := probe.Set(in.Key+"~", 1); err != nil {
		return nil
	}
	f := fieldView{Key: in.Key + "~", Name: in.Name, Unit: in.Unit, Problem: d.Problem(in.Key + "~"), Line: "guess"}
	if half := d.Found().Half(in.Key); quantity.Given(half) {
		f.Usual = "± " + route.Print(half, "")
	}
	if quantity.Given(d.Found().OwnHalf(in.Key)) {
		f.Line = "set"
	}
	return []fieldView{f}
}

// measure is a measurement and, folded, its dish.
func measure(m measureView) app.UI {
	if m.Dish == nil {
		return drawField(m.Field)
	}
	return app.Elem("div").Class("measure").Body(
		drawField(m.Field),
		app.Elem("details").Aria("label", m.Field.Name).Body(
			app.Elem("summary").Text("Weighed with its dish: empty and full"),
			fields(m.Dish),
			app.Elem("p").Class("why").Aria("live", "polite").Text(m.Drying),
		),
	)
}

func notesField() app.UI {
	return app.Elem("div").Class("notes").Body(
		app.Elem("label").Attr("for", "in.notes").Text("Notes on the run"),
		app.Elem("textarea").ID("in.notes").Attr("name", link.NotesKey).Attr("rows", "4").Attr("maxlength", strconv.Itoa(link.MaxNotes)),
	)
}

// toExpect is what the plan, with what was taken, says that a measurement will show:
// the figure as it stands on the page, where there is one.
func toExpect(d *desk.Desk, p *account.Posterior, key string) (account.Interval, bool) {
	id, ok := expectedOf[key]
	if band := d.Band(id); ok && band.OK && d.Sheet().Reason(id) == route.Defined {
		return account.Interval{Low: band.Low, Median: band.Expected(d.Sheet().Value(id)), High: band.High}, true
	}
	return p.Expected(key)
}

// heldUp is a measurement that the plan says something of: what was to be expected, what was
// found, and what the account makes of it.
type heldUp struct {
	in       *field.Field
	planned  account.Interval
	found    float64 // Blank where it was not measured
	fitted   account.Interval
	isFitted bool
}

func heldUpOf(d *desk.Desk, p *account.Posterior) []heldUp {
	var list []heldUp
	for _, in := range account.Inputs() {
		h := heldUp{in: in, found: d.Found().Value(in.Key)}
		var ok bool
		if h.planned, ok = toExpect(d, p, h.in.Key); ok {
			h.fitted, h.isFitted = p.Fitted(h.in.Key)
			list = append(list, h)
		}
	}
	return list
}

// weighedOf sets planned, found and made of it side by side for a picture.
func weighedOf(d *desk.Desk, all []heldUp) []picture.Weighed {
	var list []picture.Weighed
	for _, h := range all {
		if !(h.planned.Median > 0) {
			continue
		}
		w := picture.Weighed{Name: h.in.Name, Unit: h.in.Unit, Comparison: chart.Comparison{Planned: chart.Span(h.planned)}}
		if quantity.Given(h.found) {
			half := d.Found().Half(h.in.Key)
			w.Found, w.IsFound = chart.Span{Low: h.found - half, Median: h.found, High: h.found + half}, true
		}
		if h.isFitted {
			w.Account, w.HasAccount = chart.Span(h.fitted), true
		}
		list = append(list, w)
	}
	return list
}

// likeliestFlow is where everything went in the run as it most likely was.
func likeliestFlow(p *account.Posterior) chart.Picture {
	plan, cause, spilt, ok := p.Likeliest()
	if !ok {
		return chart.Picture{}
	}
	bench := route.Bench{Keep: true}
	bench.Run(&plan)
	pic := picture.Flows(bench.Book())
	pic.Name = "likeliest"
	if pic.Title != "" {
		pic.Title = "Most likely, " + strings.ToLower(pic.Title[:1]) + pic.Title[1:]
	}
	pic.Note = "As it most likely ran: " + p.Called(cause) + "."
	if spilt > 0 {
		pic.Note += " Of what stands in the jar here, " + route.Print(100*spilt, "%") + " was spilt."
	}
	return pic
}

// viewBound shows a bound as a figure.
func viewBound(b *account.Bound) figureView {
	v := figureView{Key: b.Key, Name: b.Name, Why: b.Why}
	if b.OK() {
		v.Why, v.Value = "", full(b.Value)
		v.Number, v.Unit = route.PrintParts(b.Value, b.Unit)
	}
	return v
}

// viewInterval shows what was learned of a figure, with its interval.
func viewInterval(key, name, unit string, i account.Interval) figureView {
	factor, in := route.Scale(i.Median, unit)
	r := spread.Round(i.Median*factor, i.Low*factor, i.High*factor)
	return figureView{
		Key: key, Name: name, Value: full(i.Median), Number: route.Fixed(r.Best, r.Decimals), Unit: in,
		Low: full(i.Low), High: full(i.High), Range: route.Fixed(r.Low, r.Decimals) + "–" + route.Fixed(r.High, r.Decimals),
	}
}

func reads(best, low, high float64, unit string) string {
	v := viewInterval("", "", unit, account.Interval{Low: low, Median: best, High: high})
	return v.Number + unitAfter(v.Unit) + inRange(v.Range)
}

// heldAgainst sets what was planned beside what was found and what the account
// makes of it.
func heldAgainst(all []heldUp) []compareView {
	var list []compareView
	for _, h := range all {
		if !quantity.Given(h.found) {
			continue
		}
		row := compareView{Name: h.in.Name, Pinned: reads(h.planned.Median, h.planned.Low, h.planned.High, h.in.Unit), Now: route.Print(h.found, h.in.Unit)}
		if h.isFitted {
			row.Change = reads(h.fitted.Median, h.fitted.Low, h.fitted.High, h.in.Unit)
		}
		list = append(list, row)
	}
	return list
}

// after is the section of the account.
type after struct {
	app.Compo
	View afterView
}

func (a *after) Render() app.UI {
	v := a.View
	return plainSection(afterTitle, "what you weighed, and where it all went",
		app.Elem("p").Class("lede").Text("Type what you weighed; leave out what you did not. For what really went into the flask and the beakers, change the fields above. Two or three weighings are enough for an account."),
		app.Elem("div").Class("cols").Body(
			app.Elem("div").Body(
				app.Range(v.Fields).Slice(func(i int) app.UI { return measure(v.Fields[i]) }),
				fields(v.Facts),
				app.Elem("details").Body(
					app.Elem("summary").Text("How far each reading may be off"),
					app.Elem("p").Class("lede soft").Text("Half-widths: the balance, and what handling may cost. Blank: the usual one."),
					fields(v.Tolerances),
				),
				notesField(),
			),
			app.Elem("div").Class("figures").Body(
				boundsList(v.Bounds),
				app.Range(v.Contradictions).Slice(func(i int) app.UI { return notice(v.Contradictions[i]) }),
				verdictOf(v),
				app.Elem("p").Class("unseen").Role("status").Text(v.Verdict),
			),
		),
		a.learned(),
	)
}

func boundsList(list []boundView) app.UI {
	if len(list) == 0 {
		return nil
	}
	return app.Elem("div").Body(
		app.Elem("h3").Text("Sure, on few assumptions"),
		app.Elem("dl").Body(app.Range(list).Slice(func(i int) app.UI { return doc.Draw(list[i].Figure)[0] })),
		app.Elem("details").Body(
			app.Elem("summary").Text("What that rests on"),
			app.Range(list).Slice(func(i int) app.UI {
				b := list[i]
				return app.Elem("div").Body(
					app.Elem("p").Class("lede").Body(app.Elem("b").Text(b.Figure.Name+". "), app.Text(b.Working)),
					app.Elem("ul").Class("gear").Body(app.Range(b.Assumes).Slice(func(j int) app.UI { return app.Elem("li").Text(b.Assumes[j]) })),
				)
			}),
		),
	)
}

func verdictOf(v afterView) app.UI {
	switch {
	case !v.Begun:
		return nil
	case v.Waiting:
		return app.Elem("p").Class("lede waiting").Text("Weighing the runs that fit …")
	}
	body := []app.UI{app.Elem("h3").Text("Most likely"), app.Elem("p").Class("verdict").Text(v.Verdict)}
	for _, text := range []string{v.Missing, v.Settles} {
		if text != "" {
			body = append(body, app.Elem("p").Class("note tip").Text(text))
		}
	}
	if len(v.Found) > 0 {
		body = append(body, figures(v.Found, false))
	}
	if len(v.Causes) > 0 {
		body = append(body, app.Elem("details").Body(
			app.Elem("summary").Text("How likely each cause is"),
			app.Elem("ul").Class("gear").Body(app.Range(v.Causes).Slice(func(i int) app.UI { return app.Elem("li").Text(v.Causes[i]) })),
			app.Elem("p").Class("lede soft").Text(v.Size),
		))
	}
	return app.Elem("div").Body(body...)
}

// learned sets what was to expect beside what was found, and offers the next run.
func (a *after) learned() app.UI {
	v := a.View
	if len(v.Compared) == 0 {
		return nil
	}
	pictures := []app.UI{&chart.Figure{Picture: v.Against}}
	if v.Flow.Name != "" {
		pictures = append(pictures, &chart.Figure{Picture: v.Flow})
	}
	heads := []string{"Weighed", "To expect", "Found", "As the account has it"}
	var rows [][]string
	for _, c := range v.Compared {
		rows = append(rows, []string{c.Name, c.Pinned, c.Now, c.Change})
	}
	parts := []app.UI{table(heads, rows, "Expected against found")}
	if len(v.Learned) > 0 {
		parts = append(parts,
			app.Elem("h3").Text("What the next run may start from"),
			app.Elem("ul").Class("gear").Body(app.Range(v.Learned).Slice(func(i int) app.UI { return app.Elem("li").Text(v.Learned[i]) })),
			app.Elem("button").Attr("type", "button").Class("plain").Text("Plan the next run from this one").OnClick(a.onNext),
		)
	}
	return app.Elem("div").Class("next").Body(append(parts, pictures...)...)
}

func (a *after) onNext(ctx app.Context, _ app.Event) { ctx.NewAction(nextAction) }
