package web

import (
	"slices"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/listen"
	"rosesalt/web/picture"
	"rosesalt/web/section"
)

// bagRow is one row of the bag.
type bagRow struct {
	Number       int
	Fields, Rare []fieldView
}

// sectionView is what one stage of the page shows.
type sectionView struct {
	Stage          route.Stage
	ID, Title, Sub string
	Bag            []bagRow
	CanAdd         bool
	Fields, Rare   []fieldView
	Main, More     []figureView
	Notices        []route.Notice
	Cautions       []safety.Caution
	Spine          spineView
	Pictures       []chart.Picture
	Opens          bool // whether figures can be opened to their workings
	Run            runState
}

// stageSection is one stage of the page.
type stageSection struct {
	app.Compo
	View sectionView
}

// slow is what is drawn once typing pauses: pictures, lists, and what rests on
// the draws. It is not there at all before the figures stand for the first time.
type slow struct {
	drawn    bool
	pictures [route.Stages][]chart.Picture
	parts    [len(section.Parts)]doc.Section
	labels   labelsView
	sure     sureView
	whatIf   whatIfView
	after    afterView
	assays   assaysView
	gas      gasView
	kept     keptView
	days     daysView
	club     clubView
}

func slowOf(d *desk.Desk, kept []string) slow {
	s := slow{
		drawn: true, days: daysOf(d), club: clubOf(d), labels: labelsOf(d),
		assays: assaysOf(d), gas: gasOf(d),
	}
	for stage := range route.Stage(route.Stages) {
		s.pictures[stage] = picturesOf(d, stage)
	}
	s.make(&section.Source{Desk: d, Kept: kept}, section.Rested)
	s.certain(d)
	return s
}

// certain makes the views anew that draws are still being made for after the bands stand.
func (s *slow) certain(d *desk.Desk) {
	s.sure, s.whatIf, s.after = sureOf(d), whatIfOf(d), afterOf(d)
	s.make(&section.Source{Desk: d}, section.Surer)
}

// make makes the parts of a step anew.
func (s *slow) make(source *section.Source, step section.Step) {
	for i := range section.Parts {
		if p := &section.Parts[i]; p.Make != nil && p.Step == step {
			s.parts[i] = p.Of(source)
		}
	}
}

// table draws a table of text outside a document.
func table(heads []string, rows [][]string, label string) app.UI {
	return doc.Draw(doc.Table{Label: label, Heads: doc.Texts(heads), Rows: doc.Rows(rows)})[0]
}

// sectionsOf cuts the desk into the sections of the page.
func sectionsOf(d *desk.Desk, late *slow, taps *listen.Taps, heard *ear) []app.UI {
	notices := route.Notices(d.Plan(), d.Sheet())
	spines := spinesOf(d)
	var list []app.UI
	for stage := range route.Stage(route.Stages) {
		view := viewSection(d, stage, notices, spines[stage])
		view.Pictures, view.Opens = late.pictures[stage], late.drawn
		list = append(list, &stageSection{View: view})
	}
	if !late.drawn {
		return list
	}
	own := map[string]app.UI{ // parts that are no documents
		daysTitle: &days{View: late.days}, clubTitle: &theClub{View: late.club},
		labelsTitle: &jarLabels{View: late.labels}, sureTitle: &sure{View: late.sure}, whatIfTitle: &whatIf{View: late.whatIf}, assayTitle: &assays{View: late.assays},
		gasTitle: &gas{View: late.gas, Taps: taps, Presses: taps.Presses(), Ear: heard}, afterTitle: &after{View: late.after}, keptTitle: &keptRuns{View: late.kept},
	}
	for i := range section.Parts {
		if ui := own[section.Parts[i].Title]; ui != nil {
			list = append(list, ui)
		} else {
			list = append(list, &doc.View{Section: late.parts[i]})
		}
	}
	return list
}

// stirredSub is what stages are about where no gas is led in.
var stirredSub = map[route.Stage]string{
	route.Gas: "no flask in this way", route.Slurry: "the reductant into black mud", route.CopperSalt: "none in this way",
}

func stageID(stage route.Stage) string { return section.ID(stageTitle[stage].Title) }

func viewSection(d *desk.Desk, stage route.Stage, notices []route.Notice, spine spineView) sectionView {
	v := sectionView{
		Stage: stage, ID: stageID(stage), Title: stageTitle[stage].Title, Sub: stageTitle[stage].Sub,
		Cautions: safety.Cautions(stage, d.Plan()), Spine: spine, Run: runStateOf(d, stage),
	}
	if sub, ok := stirredSub[stage]; ok && !route.Gaseous(d.Plan()) {
		v.Sub = sub
	}
	for _, n := range notices {
		if n.Stage == stage {
			v.Notices = append(v.Notices, open(d, n))
		}
	}
	inputs := route.Inputs()
	if stage == route.Cells {
		rows := d.Rows()
		v.CanAdd = len(rows) < route.MaxRows && d.Started() == nil
		for _, number := range rows {
			row := bagRow{Number: number}
			for i := range inputs {
				if inputs[i].Row == number {
					row.Fields, row.Rare = place(d, &inputs[i], row.Fields, row.Rare)
				}
			}
			v.Bag = append(v.Bag, row)
		}
	}
	for i := range inputs {
		if in := &inputs[i]; in.Stage == stage && in.Row == 0 && route.Uses(d.Plan(), in.Key) {
			v.Fields, v.Rare = place(d, in, v.Fields, v.Rare)
		}
	}
	old := stage >= d.OldFrom()
	for _, f := range route.FiguresOf(stage) {
		seen := viewFigure(d, f.ID, old, f.Main)
		if f.Main && !d.Sheet().Reason(f.ID).OtherWay() {
			v.Main = append(v.Main, seen)
		} else {
			v.More = append(v.More, seen)
		}
	}
	return v
}

// picturesOf are the pictures that stand at a stage.
func picturesOf(d *desk.Desk, stage route.Stage) []chart.Picture {
	switch {
	case stage == route.Wash:
		return []chart.Picture{picture.Chloride(d.Plan())}
	case stage == route.Gas && d.Plan().GasSource == route.FromCopper:
		return []chart.Picture{picture.Acid(d.Plan())}
	case stage == route.Slurry && route.Sulfurous(d.Plan()):
		return []chart.Picture{picture.Temperature(d.Plan())}
	case stage == route.CopperSalt && d.Plan().GasSource == route.FromCopper,
		stage == route.Dry && d.Plan().GasSource != route.FromCopper && d.Plan().DryWay == route.ToCrystals:
		return []chart.Picture{picture.Solubility(d.Plan(), d.Sheet())}
	}
	return nil
}

func place(d *desk.Desk, in *route.Input, fields, rare []fieldView) ([]fieldView, []fieldView) {
	if in.Rare {
		return fields, append(rare, viewField(d, in))
	}
	return append(fields, viewField(d, in)), rare
}

func (s *stageSection) Render() app.UI {
	v := s.View
	return app.Elem("section").ID(v.ID).Aria("labelledby", v.ID+".title").Body(
		&spine{View: v.Spine},
		app.Elem("div").Class("body").Body(
			app.Elem("h2").ID(v.ID+".title").TabIndex(-1).Body(app.Text(v.Title+" "), app.Elem("small").Text(v.Sub)),
			app.Elem("div").Class("cols").Body(
				app.Elem("div").Class("inputs").Body(
					app.Range(v.Bag).Slice(func(i int) app.UI { return s.row(v.Bag[i], len(v.Bag)) }),
					app.If(v.CanAdd, app.Elem("button").Attr("type", "button").Class("plain").ID("add.row").Text("Another type of cell in the bag").OnClick(s.onAdd)),
					fields(v.Fields),
					folded(v.Rare),
					s.done(),
				),
				app.Elem("div").Class("figures").Body(
					figures(v.Main, v.Opens),
					app.If(len(v.More) > 0, app.Elem("details").Body(
						app.Elem("summary").Text("More figures"),
						figures(v.More, v.Opens),
					)),
					app.Range(v.Notices).Slice(func(i int) app.UI { return notice(v.Notices[i]) }),
				),
			),
			// Pictures come late, and the library would move the cautions' elements on by one.
			app.Elem("div").Body(
				app.Range(v.Pictures).Slice(func(i int) app.UI { return &chart.Figure{Picture: v.Pictures[i]} }),
			),
			app.Range(v.Cautions).Slice(func(i int) app.UI {
				c := v.Cautions[i]
				return app.Elem("p").Class("note stop").Body(app.Elem("b").Text("Stop. "+c.Lead), app.Text(" "+c.Text))
			}),
		),
	)
}

// folded puts away fields that are seldom changed, and names the first of them.
func folded(list []fieldView) app.UI {
	if len(list) == 0 {
		return nil
	}
	title := "Seldom changed: " + list[0].Name
	if len(list) > 1 {
		title += ", and " + route.Print(float64(len(list)-1), "") + " more"
	}
	body := []app.UI{app.Elem("summary").Text(title), fields(list)}
	if slices.ContainsFunc(list, func(f fieldView) bool { return f.Problem != "" }) {
		return app.Elem("details").Attr("open", true).Body(body...)
	}
	return app.Elem("details").Body(body...)
}

func notice(n route.Notice) app.UI {
	if n.Tone == route.Mind {
		return app.Elem("div").Class("note mind").Body(app.Elem("b").Text("Mind. "), app.Text(n.Text), mends(n.Mends))
	}
	return app.Elem("p").Class("note tip").Body(app.Elem("b").Text("Tip. "), app.Text(n.Text))
}

func fields(list []fieldView) app.UI {
	return app.Elem("div").Class("rows").Body(app.Range(list).Slice(func(i int) app.UI { return drawField(list[i]) }))
}

func figures(list []figureView, opens bool) app.UI {
	for i := range list {
		list[i].Opens = opens
	}
	return doc.Draw(doc.Figures(list))[0]
}

func (s *stageSection) row(r bagRow, of int) app.UI {
	row := app.Elem("div").Class("bagrow")
	if of > 1 {
		row = row.Role("group").Aria("label", "Type "+route.Print(float64(r.Number), ""))
	}
	return row.Body(
		app.If(r.Number > 1 && s.View.Run == planning, app.Elem("div").Class("bagtitle").Body(
			app.Elem("span").Text("Type "+route.Print(float64(r.Number), "")),
			app.Elem("button").Attr("type", "button").Class("plain").Text("Take out").Aria("label", "Take out type "+route.Print(float64(r.Number), "")).OnClick(s.onDrop(r.Number), r.Number),
		)),
		fields(r.Fields),
		folded(r.Rare),
	)
}

func (s *stageSection) onAdd(ctx app.Context, _ app.Event) { ctx.NewAction(addRowAction) }

func (s *stageSection) onDrop(row int) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(dropAction, row) }
}
