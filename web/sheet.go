package web

import (
	"strconv"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/gaslog"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
	"rosesalt/web/section"
)

// mostFields is how many fields to a side a code on the sheet may have: on 32 mm each is
// then 0.4 mm wide, about the least that a telephone reads off paper (estimate).
const mostFields = 80

// sheetView is the bench sheet: what a plan says to a person without a screen.
type sheetView struct {
	On        bool
	Plan      string
	Loudest   string
	Reagents  []route.Need
	Vessels   []route.Vessel
	Apparatus chart.Apparatus
	Steps     []sheetStep
	Card      doc.Node
	Link      string
	Code      chart.Code
	Served    bool
}

type sheetStep struct {
	procedure.Step
	Number int
	When   string
	Log    int // minutes that a log of the gas is kept for
}

// sheetOf makes the bench sheet. The address is that of the page, or empty for a file
// opened from disk, whose address means nothing elsewhere.
func sheetOf(d *desk.Desk, address string) sheetView {
	p, s := d.Plan(), d.Sheet()
	v := sheetView{
		On: true, Reagents: route.Reagents(p, s), Vessels: route.Vessels(p, s), Apparatus: picture.Apparatus(p, s), Card: section.Card(p, s),
		Link: address + "#" + d.Fragment(), Served: address != "", Loudest: stripOf(d).Stop,
	}
	v.Plan = planWords(d)
	v.Code, _ = chart.NewCode(v.Link, mostFields)
	at := map[int]time.Time{}
	days, err := d.Timetable(firstDay(d))
	if err == nil && (d.Text(procedure.StartKey) != "" || d.Text(procedure.FinishKey) != "") {
		for _, slot := range days.Slots {
			if _, there := at[slot.Step]; !there {
				at[slot.Step] = slot.Start
			}
		}
	}
	for i, st := range days.Steps {
		step := sheetStep{Step: st, Number: i + 1, When: route.Print(float64(st.Minutes), "min")}
		if st.Minutes >= 100 {
			step.When = procedure.Hours(st.Minutes)
		}
		if t, ok := at[i]; ok {
			step.When = t.Format("Mon "+clockForm) + ", " + step.When
		}
		if st.Key == gasStep && route.Gaseous(p) && (len(days.Steps) <= stepsWithLog || st.Batch > 0 && route.Runs(p) > 1) {
			step.Log = int(float64(p.GasMinutes) / route.Runs(p))
		}
		v.Steps = append(v.Steps, step)
	}
	return v
}

// planWords is the plan in its sentence, without how much of it is a guess.
func planWords(d *desk.Desk) string {
	count, _ := route.InputByKey("cell.count")
	size, _ := route.InputByKey("cell.size")
	words := d.Text(count.Key) + " dead " + size.OptionName(d.Plan(), int(size.Value(d.Plan())))
	for _, part := range sentenceOf(d).Parts {
		if part.Tint != "soft" {
			words += part.Text
		}
	}
	return words
}

// onSheet prints the bench sheet: it is put on the page, shown alone on paper, and taken
// away when printing is over.
func (p *page) onSheet(ctx app.Context, _ app.Event) {
	address := ""
	if served() {
		where := app.Window().Get("location")
		address = where.Get("origin").String() + where.Get("pathname").String()
	}
	p.sheet = sheetOf(p.desk, address)
	p.Update()
	ctx.Defer(func(app.Context) {
		alone(true)
		app.Window().Call("print")
	})
}

// printed takes the sheets away again.
func (p *page) printed(ctx app.Context) {
	alone(false)
	if p.sheet.On || p.clubSheet.On {
		p.sheet, p.clubSheet = sheetView{}, clubSheetView{}
		p.Update()
	}
}

// alone has paper show nothing but the bench sheet, or the page again.
func alone(sheet bool) {
	app.Window().Get("document").Get("documentElement").Get("classList").Call("toggle", "sheeted", sheet)
}

// benchSheet is the sheet on the page; screens do not show it.
type benchSheet struct {
	app.Compo
	View sheetView
}

func (b *benchSheet) Render() app.UI {
	v := b.View
	if !v.On {
		return app.Elem("div").Class("sheet none")
	}
	card := doc.Draw(v.Card)
	return app.Elem("div").Class("sheet").Role("main").Body( // paper shows it in the place of the page's own
		app.Elem("div").Class("sheet-head").Body(
			app.Elem("div").Body(
				app.Elem("h1").Text("Bench sheet"),
				app.Elem("p").Class("sheet-plan").Text(v.Plan),
				app.Elem("p").Class("sheet-lines").Body(toWrite("Date", 7), toWrite("At the bench", 12), toWrite("Second person", 12), toWrite("Run", 4)),
				app.Elem("p").Body(app.Elem("b").Text(v.Loudest+". "), app.Text(safety.Deference())),
			),
			sheetCode(v),
		),
		v.Apparatus.Draw(),
		app.Elem("div").Class("sheet-needs").Body(sheetNeeds("Reagents", v.Reagents), sheetVessels(v.Vessels)),
		app.Elem("div").Class("sheet-steps").Body(
			app.Range(v.Steps).Slice(func(i int) app.UI { return paperStep(v.Steps[i]) }),
			app.Elem("div").Class("sheet-step sheet-end").Body(
				app.Elem("p").Class("sheet-lines").Body(toWrite("Begun", 10), toWrite("Ended", 10), toWrite("Signed", 14), toWrite("Seen by", 10)),
				app.Elem("p").Class("sheet-link").Body(app.Text(linkWords(v)), app.Elem("code").Text(v.Link)),
			),
		),
		app.Elem("div").Class("sheet-card").Body(app.Elem("h2").Text(section.WrongTitle), app.Range(card).Slice(func(i int) app.UI { return card[i] }), app.Elem("p").Class("sheet-lines").Body(toWrite("Emergency number", 10), toWrite("Nearest running water", 16), toWrite("Who has a car", 12))),
	)
}

func linkWords(v sheetView) string {
	if v.Served {
		return "This plan: "
	}
	return "This plan, to be pasted into “" + pasteLabel + "” on the page: "
}

func sheetCode(v sheetView) app.UI {
	if v.Code.Side == 0 {
		return app.Elem("p").Class("sheet-code").Text("The link is too long for a code that can be read off paper.")
	}
	says := "The plan's link"
	if !v.Served {
		says = "The plan: scan it, paste it into “" + pasteLabel + "”"
	}
	return app.Elem("div").Class("sheet-code").Body(v.Code.Draw(says), app.Elem("p").Text(says))
}

// toWrite is a place to write, so many letters wide.
func toWrite(name string, width int) app.UI {
	return app.Elem("span").Body(app.Text(name+" "), app.Elem("i").Class("w"+strconv.Itoa(width)))
}

func sheetNeeds(title string, list []route.Need) app.UI {
	return app.Elem("p").Body(app.Elem("b").Text(title+". "), app.Range(list).Slice(func(i int) app.UI {
		return sheetNeed(route.Print(list[i].Amount, list[i].Unit), list[i].Name)
	}))
}

// sheetVessels are the plan's own, or in the sizes in which they are sold: the sheet has no
// room for what is just enough as well, but where a vessel is too small.
func sheetVessels(list []route.Vessel) app.UI {
	return app.Elem("p").Body(app.Elem("b").Text("Vessels, the plan’s or the next size sold. "), app.Range(list).Slice(func(i int) app.UI {
		v := list[i]
		name := v.Name + section.Each(&v)
		if v.TooSmall() {
			name = v.Name + ", " + section.Beside(&v)
		}
		return sheetNeed(v.SizeText(), name)
	}))
}

func sheetNeed(amount, name string) app.UI {
	return app.Elem("span").Body(app.Elem("i").Class("sheet-tick"), app.Elem("b").Text(amount+" "), app.Text(section.Lower(name)))
}

func paperStep(s sheetStep) app.UI {
	body := []app.UI{app.Elem("h2").Body(
		app.Elem("i").Class("sheet-tick"), app.Text(strconv.Itoa(s.Number)+". "+s.Title+" "),
		app.Elem("small").Text(s.When+", "+s.Watch.String()),
	)}
	if s.Stop != "" {
		body = append(body, app.Elem("p").Class("sheet-stop").Body(stopSign(), app.Elem("b").Text("Stop. "), app.Text(s.Stop)))
	}
	if s.Full != "" {
		body = append(body, app.Elem("p").Class("sheet-stop").Body(stopSign(), app.Elem("b").Text(tooSmallWord+". "), app.Text(s.Full)))
	}
	if text := amounts(s.Take); text != "" {
		body = append(body, app.Elem("p").Class("sheet-take").Body(app.Elem("b").Text(text)))
	}
	if text := amounts(s.OfOne); text != "" {
		body = append(body, app.Elem("p").Class("sheet-take").Body(app.Text("One of "+strconv.Itoa(s.Equal)+" equal batches: "), app.Elem("b").Text(text)))
	}
	if s.Batch > 1 {
		s.Do, s.See, s.Misled, s.End = []string{"As in batch 1."}, "", "", ""
	}
	text := ""
	for _, do := range s.Do {
		text += do + " "
	}
	body = append(body, app.Elem("p").Text(text))
	for _, more := range [][2]string{{"See: ", s.See}, {"Misleads: ", s.Misled}, {"Over when: ", s.End}} {
		if more[1] != "" {
			body = append(body, app.Elem("p").Body(app.Elem("b").Text(more[0]), app.Text(more[1])))
		}
	}
	for _, m := range s.Measure {
		body = append(body, blank(m))
	}
	body = append(body, paperLog(s.Log))
	return app.Elem("div").Class("sheet-step").Body(body...)
}

// amounts are what is taken, in a line.
func amounts(list []procedure.Amount) string {
	text := ""
	for i, a := range list {
		if i > 0 {
			text += "; "
		}
		text += a.Name + " " + a.Text()
	}
	return text
}

// stepsWithLog is how many steps leave room for the log of the gas on two pages of the size
// Letter: a plan with an acid rinse has one more. Of batches there are more pages anyway.
const stepsWithLog = 19

// logColumns is how many moments of the log of the gas there is room for on paper.
const logColumns = 9

// paperLog is the log of the gas with nothing in it: a column every five minutes, or where
// that would be too many every ten, fifteen and so on.
func paperLog(minutes int) app.UI {
	if minutes < gaslog.Each {
		return nil
	}
	each := gaslog.Each * max(1, (minutes+gaslog.Each*logColumns-1)/(gaslog.Each*logColumns))
	row := func(name string, cell func(i int) string) app.UI {
		return app.Elem("tr").Body(app.Elem("th").Attr("scope", "row").Text(name), app.Range(make([]int, logColumns)).Slice(func(i int) app.UI {
			return app.Elem("td").Text(cell(i))
		}))
	}
	empty := func(int) string { return "" }
	return app.Elem("table").Class("sheet-log").Body(
		row("Minute", func(i int) string { return strconv.Itoa((i + 1) * each) }), row("Bubbles/min", empty), row("Slurry, °C", empty), row("Paper", empty),
	)
}

// blank is a place for something measured, with what to expect.
func blank(m procedure.Blank) app.UI {
	expect := ""
	if quantity.Given(m.Expect) {
		expect = " about " + route.Print(m.Expect, m.Unit)
	}
	return app.Elem("p").Class("blank").Body(
		app.Elem("span").Text(m.Name), app.Elem("i"), app.Text(m.Unit), app.Elem("small").Text(expect),
	)
}

// stopSign is an eight-sided sign with a bar.
func stopSign() app.UI {
	return svg("svg").Attr("data-part", "sign").Attr("viewBox", "0 0 20 20").Aria("hidden", "true").Body(
		svg("path").Attr("d", "M6 1h8l5 5v8l-5 5H6l-5-5V6Z"), svg("path").Attr("data-part", "bar").Attr("d", "M4.5 10h11"),
	)
}
