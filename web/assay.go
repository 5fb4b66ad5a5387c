package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/assay"
	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

const (
	assayTitle = "Assays"
	useAction  = "use"        // with a method's key
	fillAction = doc.Unfolded // with nothing
)

// assayView is what one method shows.
type assayView struct {
	Key, Name string
	Purpose   assay.Purpose
	Burette   bool
	Begun     bool
	Steps     []string
	Fields    []fieldView
	Rare      []fieldView
	Figures   []figureView
	Doubt     string // how sure, and what makes it so
	Working   []string
	Notes     []string
	Wanting   string
	Use       string // the label of what hands it over; "" where nothing is handed over
	Used      bool
	NoUse     string // why not, or what the plan says to it
}

// assaysView is all of them.
type assaysView struct {
	Methods []assayView
	Shared  []fieldView // of the burette methods
	Recipes []string
	Begun   bool
	Burette bool // a burette method is begun
}

func assaysOf(d *desk.Desk) assaysView {
	var v assaysView
	outcomes := d.Assays()
	problems := map[string]string{}
	for _, o := range outcomes {
		for key, text := range o.Problems {
			if problems[key] == "" {
				problems[key] = text
			}
		}
	}
	for i := range assay.Shared {
		v.Shared = append(v.Shared, viewAssayed(d, &assay.Shared[i], problems))
	}
	for _, o := range outcomes {
		m := viewAssay(d, &o, problems)
		v.Begun = v.Begun || m.Begun
		v.Burette = v.Burette || m.Begun && m.Burette
		v.Methods = append(v.Methods, m)
	}
	for _, r := range assay.Recipes() {
		v.Recipes = append(v.Recipes, r.String())
	}
	return v
}

// spoken is what a reading came to, in words: what is wrong with it, what its methods
// still want, or their results. Shared readings belong to several methods.
func (v *assaysView) spoken(key string) string {
	var said []string
	for i := range v.Methods {
		m := &v.Methods[i]
		for _, list := range [][]fieldView{m.Fields, m.Rare, v.Shared} {
			for _, f := range list {
				switch {
				case f.Key == key && f.Problem != "":
					return f.Problem
				case f.Key == key && m.Begun && len(m.Figures) > 0:
					result := m.Figures[0]
					said = append(said, result.Name+" "+result.Number+unitAfter(result.Unit)+inRange(result.Range)+".")
				case f.Key == key && m.Begun:
					said = append(said, m.Wanting)
				}
			}
		}
	}
	return strings.Join(said, " ")
}

// viewAssayed is a field of an assay, with what its method finds wrong.
func viewAssayed(d *desk.Desk, in *field.Field, problems map[string]string) fieldView {
	f := viewReading(d, in)
	if f.Problem == "" {
		f.Problem = problems[in.Key]
	}
	if !in.IsChoice() && in.Blank != "not read" {
		f.Range = "Blank: " + in.Blank + "."
	}
	return f
}

func viewAssay(d *desk.Desk, o *assay.Outcome, problems map[string]string) assayView {
	m := o.Method
	v := assayView{Key: m.Key, Name: m.Name, Purpose: m.Purpose, Burette: m.Burette, Begun: o.Begun, Steps: m.Steps}
	for i := range m.Inputs {
		in := &m.Inputs[i]
		switch {
		case !d.AsksAssay(in.Key):
		case in.Rare:
			v.Rare = append(v.Rare, viewAssayed(d, in, problems))
		default:
			v.Fields = append(v.Fields, viewAssayed(d, in, problems))
		}
	}
	if o.Begun && len(o.Wanting) > 0 {
		v.Wanting = "Still wanted: " + wanted(o) + "."
	}
	r := o.Result
	if r == nil {
		return v
	}
	v.Figures = append(v.Figures, viewResult(m.Key, r.Name, r.Unit, r.Value, r.U))
	for _, other := range r.Others {
		v.Figures = append(v.Figures, viewResult("", other.Name, other.Unit, other.Value, other.U))
	}
	v.Doubt = doubtOf(r)
	v.Working, v.Notes = r.Working, r.Notes
	v.NoUse = r.NoHand
	if r.Hand != nil {
		handOver(d, r.Hand, &v)
	}
	return v
}

// wanted names the readings that are still wanted.
func wanted(o *assay.Outcome) string {
	var names []string
	for _, key := range o.Wanting {
		in, _ := assay.InputByKey(key)
		name := "“" + in.Name + "”"
		if !strings.HasPrefix(key, o.Method.Key+".") {
			name = "the strength of the titrant, above"
		}
		if len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

// viewResult shows a number with two standard uncertainties to either side.
func viewResult(key, name, unit string, value, u float64) figureView {
	r := spread.Round(value, value-2*u, value+2*u)
	v := figureView{Key: key, Name: name, Value: full(value), Number: route.Fixed(r.Best, r.Decimals), Unit: unit}
	if u > 0 {
		v.Low, v.High = full(value-2*u), full(value+2*u)
		v.Range = route.Fixed(r.Low, r.Decimals) + "–" + route.Fixed(r.High, r.Decimals)
	}
	return v
}

func doubtOf(r *assay.Result) string {
	if !(r.U > 0) {
		return ""
	}
	text := "The range is that of balance and glass, nineteen times in twenty."
	if len(r.Shares) > 1 && r.Shares[0].Of > 0.3 {
		text += " The largest part comes from " + r.Shares[0].Name + ", " + route.Print(100*r.Shares[0].Of, "%") + " of the variance."
	}
	return text
}

// handOver says what one touch would do, or has done.
func handOver(d *desk.Desk, h *assay.Hand, v *assayView) {
	value, tolerance := desk.HandText(h)
	unit := "%"
	into := "the plan, as the assay of the washed mix"
	switch h.Key {
	case "found.assay":
		into = "the account after the run, as the manganese found"
	case "found.dried":
		unit, into = "°C", "the account after the run, as what it was dried at"
	}
	v.Used = d.UsesAssay(h)
	v.Use = "Use this in the plan"
	if h.Key != "mix.assay" {
		v.Use = "Use this in the account"
	}
	v.NoUse = "Puts " + value + "\u202f" + unit
	switch {
	case strings.Contains(tolerance, "to"):
		v.NoUse += " (" + tolerance + ")"
	case tolerance != "":
		v.NoUse += " ± " + tolerance
	}
	v.NoUse += " into " + into + "."
	if tolerance != "" {
		v.NoUse += " The width allows for a sample that is not quite like the rest."
	}
	switch {
	case v.Used:
		v.NoUse = "Used: " + strings.TrimPrefix(v.NoUse, "Puts ")
	case d.Problem(h.Key) != "":
		v.NoUse = "It is not taken there: " + d.Problem(h.Key)
	}
}

// assays is the section of the assays.
type assays struct {
	app.Compo
	folds
	View assaysView
}

// folds are the parts of a section that a user has unfolded or folded, by key. That is
// the page's concern only.
type folds struct{ said map[string]bool }

func (f *folds) open(key string, usually bool) bool {
	if open, said := f.said[key]; said {
		return open
	}
	return usually
}

// fold is a button that unfolds what belongs to it: it is not there while folded, since
// sixty fields cost every keystroke.
func (f *folds) fold(key, label string, usually bool, body func() []app.UI) app.UI {
	open := f.open(key, usually)
	parts := []app.UI{
		app.Elem("button").Attr("type", "button").Class("plain").ID("fold."+key).Aria("expanded", yesNo(open)).Text(label).OnClick(f.onFold(key, !open), key, open),
	}
	if open {
		parts = append(parts, body()...)
	}
	return app.Elem("div").Body(parts...)
}

func yesNo(is bool) string {
	if is {
		return "true"
	}
	return "false"
}

func (f *folds) onFold(key string, open bool) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		if f.said == nil {
			f.said = map[string]bool{}
		}
		f.said[key] = open
		ctx.NewAction(fillAction)
	}
}

func (a *assays) Render() app.UI {
	v := a.View
	return plainSection(assayTitle, "what the mix and the jar really hold",
		app.Elem("p").Class("lede").Text("One assay of the washed mix is worth more than all guesses about its charge. A balance that reads to 0.01 g is enough; with a burette it is surer."),
		a.fold("assays", "Assay the mix or the product", v.Begun, func() []app.UI {
			return []app.UI{
				a.group("The black mix, without a burette", func(m *assayView) bool { return m.Purpose == assay.OfMix && !m.Burette }),
				a.group("The product, without a burette", func(m *assayView) bool { return m.Purpose == assay.OfProduct && !m.Burette }),
				a.fold("burette", "Titrate with a burette", v.Burette, a.titrations),
			}
		}),
	)
}

// titrations are the methods with a burette: what they share, the titrants, the mix,
// the product.
func (a *assays) titrations() []app.UI {
	return []app.UI{
		app.Elem("h3").Text("Glass and balance"),
		app.Elem("div").Class("cols").Body(fields(a.View.Shared)),
		app.Elem("details").Body(
			app.Elem("summary").Text("How to make up the solutions"),
			app.Elem("ul").Class("gear").Body(app.Range(a.View.Recipes).Slice(func(i int) app.UI { return app.Elem("li").Text(a.View.Recipes[i]) })),
		),
		a.group("The titrants", func(m *assayView) bool { return m.Purpose == assay.OfTitrant }),
		a.group("The black mix", func(m *assayView) bool { return m.Purpose == assay.OfMix && m.Burette }),
		a.group("The product", func(m *assayView) bool { return m.Purpose == assay.OfProduct && m.Burette }),
	}
}

func (a *assays) group(title string, takes func(*assayView) bool) app.UI {
	parts := []app.UI{app.Elem("h3").Text(title)}
	for i := range a.View.Methods {
		if m := &a.View.Methods[i]; takes(m) {
			parts = append(parts, a.fold(m.Key, m.Name, m.Begun, func() []app.UI { return a.method(m) }))
		}
	}
	return app.Elem("div").Body(parts...)
}

func (a *assays) method(m *assayView) []app.UI {
	return []app.UI{
		app.Elem("ol").Class("gear").Body(app.Range(m.Steps).Slice(func(i int) app.UI { return app.Elem("li").Text(m.Steps[i]) })),
		app.Elem("div").Class("cols").Body(
			app.Elem("div").Body(fields(m.Fields), folded(m.Rare)),
			app.Elem("div").Class("figures").Body(a.result(m)...),
		),
	}
}

func (a *assays) result(m *assayView) []app.UI {
	var parts []app.UI
	line := func(class, text string) {
		if text != "" {
			parts = append(parts, app.Elem("p").Class(class).Text(text))
		}
	}
	line("lede soft", m.Wanting)
	if len(m.Figures) == 0 {
		return parts
	}
	dl := []app.UI{doc.Draw(m.Figures[0])[0]}
	for i := range m.Figures[1:] {
		dl = append(dl, aside(m.Figures[1+i]))
	}
	parts = append(parts, app.Elem("dl").Body(dl...))
	line("lede soft", m.Doubt)
	if m.Use != "" {
		parts = append(parts, app.Elem("button").Attr("type", "button").Class("do").ID("use."+m.Key).Text(m.Use).OnClick(a.onUse(m.Key), m.Key))
	}
	line("lede", m.NoUse)
	for _, n := range m.Notes {
		line("note tip", n)
	}
	return append(parts, app.Elem("details").Body(
		app.Elem("summary").Text("The working"),
		app.Elem("ul").Class("gear").Body(app.Range(m.Working).Slice(func(i int) app.UI { return app.Elem("li").Text(m.Working[i]) })),
	))
}

// aside is a number that follows from a result and has no key of its own.
func aside(v figureView) app.UI {
	dd := []app.UI{app.Elem("span").Class("num").Body(app.Text(v.Number), app.Elem("small").Text(unitAfter(v.Unit)))}
	if v.Range != "" {
		dd = append(dd, app.Elem("small").Class("range").Text(v.Range))
	}
	return app.Elem("div").Class("fig").Body(app.Elem("dt").Text(v.Name), app.Elem("dd").Body(dd...))
}

func (a *assays) onUse(method string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(useAction, method) }
}

// onUse hands a result over; Back takes it back.
func (p *page) onUse(ctx app.Context, a app.Action) {
	was := p.state()
	if method, ok := a.Value.(string); ok && p.desk.UseAssay(method) {
		p.took(&was, "Use the result")
		p.pushed = false
		p.changed(ctx)
		p.late.assays = assaysOf(p.desk)
		p.copied = "The result is handed over. Back takes it back."
	}
}
