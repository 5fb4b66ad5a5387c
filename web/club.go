package web

import (
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

const (
	clubTitle  = "With a club"
	clubAction = "club" // with nothing: print the club sheet
)

// clubView is a run of several groups.
type clubView struct {
	Nothing  bool // no cell is opened
	Fields   []dayField
	Says     []string
	Gas      clubGasView
	Reagents [][]string
	Vessels  [][]string
	Waste    [][]string
	Tasks    []club.Task
	Groups   int
}

// clubGasView is what comes at once, and what a room would breathe of it.
type clubGasView struct {
	Come   string // what comes; empty where no sulfur dioxide comes into the plan
	Breath string // what the room would breathe of what passes by
	Leak   string // and of all of it
	Remedy string
	Over   bool
	Limits [][]string
}

func clubOf(d *desk.Desk) clubView {
	p, s, c := d.Plan(), d.Sheet(), d.Club()
	steps := d.Steps()
	v := clubView{Nothing: steps == nil, Groups: int(c.Groups)}
	for _, f := range c.Form().Fields {
		shown := dayFieldOf(d, f)
		if shown.Problem == "" && f.Key == club.AtOnceKey {
			shown.Problem = c.Trouble()
		}
		v.Fields = append(v.Fields, shown)
	}
	if v.Nothing {
		return v
	}
	v.Says = append(v.Says, clubSays(d, steps)...)
	if g, ok := c.Gas(p, s); ok {
		v.Gas = clubGasOf(p, c, g)
	}
	for _, n := range c.Reagents(p, s) {
		v.Reagents = append(v.Reagents, []string{n.Name, route.Print(n.Amount, n.Unit), route.Print(n.All, n.Unit)})
	}
	for _, n := range c.Vessels(p, s) {
		v.Vessels = append(v.Vessels, []string{n.Name, n.LeastText(), nextSize(n.Vessel), route.Print(n.Count, "×")})
	}
	for _, b := range c.Waste(p, d.Bench().Book(), s) {
		help := "–"
		switch {
		case b.Soda > 0:
			help = route.Print(float64(b.Soda), "g") + " of soda"
		case b.Acid > 0:
			help = route.Print(float64(b.Acid), "mL") + " of dilute acid"
		}
		v.Waste = append(v.Waste, []string{b.Name, section.Amount(&b), help})
	}
	v.Tasks = club.Tasks(p, d.Bench().Book(), steps)
	return v
}

// nextSize is the size of a vessel that stands on the bench: the plan's own, or that in
// which it is sold.
func nextSize(v route.Vessel) string {
	switch {
	case v.TooSmall():
		return v.SizeText() + ", too small"
	case !v.Given() && v.Common() == 0:
		return "several"
	}
	return v.SizeText()
}

// clubSays is the club in sentences.
func clubSays(d *desk.Desk, steps []procedure.Step) []string {
	p, s, c := d.Plan(), d.Sheet(), d.Club()
	cells := s.Value(route.CellsOpened)
	groups := route.Print(c.Groups, "") + " groups"
	if c.Groups == 1 {
		groups = "One group"
	}
	list := []string{groups + ", each with this plan: " + countOf(c.Groups*cells, "cell") + " to open in all."}
	if bags := c.Bags(p); bags < c.Groups {
		list = append(list, "Washed together, the mix of "+countOf(bags*cells, "cell")+" is enough, since each group takes "+route.Print(float64(p.BatchShare), "%")+" of a bag of "+route.Print(cells, "")+": cells, wash water and wash liquor then are those of "+countOf(bags, "bag")+".")
	}
	if turn := club.Turn(steps); turn > 0 {
		what := "The gas"
		if !route.Gaseous(p) {
			what = "Stirring in"
		}
		all := c.Turns() * float64(turn)
		list = append(list, what+" goes in "+countOf(c.Turns(), "turn")+", at most "+countOf(c.Running(), "group")+" at a time; a turn takes "+procedure.Hours(turn)+" with its last test, all of them "+procedure.Hours(quantity.Minute(all))+".")
	}
	return list
}

// countOf is a number of things, such as "1 turn" or "2 turns".
func countOf(n float64, thing string) string { return route.Count(n, thing) }

func clubGasOf(p *route.Plan, c club.Club, g club.Gas) clubGasView {
	n := c.Running()
	source := countOf(n, "generator")
	if !route.Gaseous(p) {
		source = countOf(n, "open vessel")
	}
	limit := g.Limit.Name + ", " + route.Print(float64(g.Limit.PPM), "ppm") + " (" + g.Limit.Source + memory(g.Limit.Memory) + ")"
	where := "a room of " + route.Print(float64(p.RoomVolume), "m³") + " whose air is changed " + route.Print(float64(p.RoomChanges), "×") + " an hour"
	v := clubGasView{Over: g.Over(c), Come: "At once " + route.Print(g.Litres, "L") + " of sulfur dioxide from " + source + ", in " + route.Print(float64(g.Minutes), "min") + "."}
	if g.Passing != nil {
		mean := g.Passing[p.RoomLimit].Mean
		v.Breath = "If " + route.Print(float64(route.Escapes(p)), "%") + " of what is not taken up got into " + where + ", it would breathe " + route.Print(float64(mean), "ppm") + ": " +
			route.Print(float64(mean/g.Limit.PPM), "×") + " the limit of " + limit + "."
	}
	leak := "If a joint opened and all of it got out there: "
	if !route.Gaseous(p) {
		leak = "If the slurry took none of it up: "
	}
	v.Leak = leak + route.Print(float64(g.Leak[p.RoomLimit].Mean), "ppm") + ", " + route.Print(float64(g.Leak[p.RoomLimit].Mean/g.Limit.PPM), "×") + " that limit."
	switch {
	case v.Over && g.Most < 1:
		v.Remedy = "Not even one stays below the limit there: outdoors or in a working fume cupboard only, and still one at a time."
	case v.Over:
		v.Remedy = "That is over the limit: at most " + route.Print(g.Most, "") + " at a time, and better none indoors. Outdoors or in a working fume cupboard."
	default:
		v.Remedy = "By this reckoning it stays below, but near a leak it is several times more, and a figure under a limit is no permit: outdoors or in a working fume cupboard all the same."
	}
	for i, h := range g.Leak {
		passing := "–"
		if g.Passing != nil {
			passing = route.Print(float64(g.Passing[i].Mean), "ppm") + ", " + route.Print(float64(g.Passing[i].Mean/h.Limit.PPM), "×")
		}
		v.Limits = append(v.Limits, []string{
			h.Limit.Name, route.Print(float64(h.Limit.PPM), "ppm"), passing,
			route.Print(float64(h.Mean), "ppm") + ", " + route.Print(float64(h.Mean/h.Limit.PPM), "×"),
		})
	}
	return v
}

func memory(from bool) string {
	if from {
		return ", from memory"
	}
	return ""
}

// theClub is the section of a run of several groups.
type theClub struct {
	app.Compo
	View clubView
}

func (s *theClub) Render() app.UI {
	v := s.View
	if v.Nothing {
		return plainSection(clubTitle, "several groups, one plan", app.Elem("p").Class("lede").Text("No cell is opened in this plan, so there is nothing to share out."))
	}
	return plainSection(clubTitle, "several groups, one plan each",
		app.Elem("div").Class("cols").Body(
			app.Elem("div").Class("rows").Body(
				app.Range(v.Fields).Slice(func(i int) app.UI { return drawDayField(v.Fields[i]) }),
				app.Elem("p").Class("step-done").Body(app.Elem("button").Attr("type", "button").Class("plain").ID("club.print").Text("Print the club sheet").OnClick(s.onPrint)),
			),
			app.Elem("div").Body(
				app.Range(v.Says).Slice(func(i int) app.UI { return app.Elem("p").Class("club-says").Text(v.Says[i]) }),
				clubGas(v.Gas),
			),
		),
		app.Elem("details").Class("club-more").Body(
			app.Elem("summary").Text("To buy and weigh out for all, and the waste of all"),
			table([]string{"Reagent", "One group", "All groups"}, v.Reagents, "Reagents for all groups"),
			table([]string{"Vessel", "At least", "Size", "So many"}, v.Vessels, "Vessels for all groups"),
			app.Elem("p").Class("why").Text("The gas line goes from group to group: as many as have gas at the same time."),
			table([]string{"Waste", "All groups", "To neutralise it"}, v.Waste, "Waste of all groups"),
		),
		app.Elem("details").Class("club-more club-who").Body(
			app.Elem("summary").Text("Who may do what"),
			app.Elem("p").Class("lede").Text(pupils),
			table([]string{"Step", "Who", "What can harm"}, taskRows(v.Tasks), "Who may do what"),
		),
		clubLimits(v.Gas),
	)
}

// pupils says what the page does not know.
const pupils = "Adults who have done it before make the gas and handle strong acid. What children, pupils and newcomers of what age may do is for the local code and the rules of the school or the house: ask before, and write it on the sheet."

func taskRows(list []club.Task) [][]string {
	var rows [][]string
	for _, t := range list {
		rows = append(rows, []string{t.Step, whoMay(t), t.Why})
	}
	return rows
}

func whoMay(t club.Task) string {
	if t.Adult {
		return "adults only"
	}
	return "by the local code"
}

func clubGas(g clubGasView) app.UI {
	if g.Come == "" {
		return app.Elem("p").Class("note").Text("No sulfur dioxide comes into this plan, so there is nothing to hold against a limit in the air. Outdoors all the same: acid mist, froth, dust.")
	}
	lead, class := "Mind. ", "note mind"
	if g.Over {
		lead, class = "Stop. ", "note stop"
	}
	return app.Elem("div").Class(class).Body(
		app.Elem("p").Body(app.Elem("b").Text(lead+g.Come+" "), app.Text(g.Breath+" "+g.Leak+" "), app.Elem("b").Text(g.Remedy)),
	)
}

func clubLimits(g clubGasView) app.UI {
	if len(g.Limits) == 0 {
		return nil
	}
	return app.Elem("details").Class("club-more").Body(
		app.Elem("summary").Text("All at once, held against each published limit"),
		app.Elem("p").Class("lede").Text("Worst means over each limit's time, and how many times the limit that is. The room is that of “Scrub and waste”, its air well mixed, which no real one is."),
		table([]string{"Limit", "As printed", "Of what passes by", "If all of it got out"}, g.Limits, "Gas of all that run at once"),
	)
}

func (s *theClub) onPrint(ctx app.Context, _ app.Event) { ctx.NewAction(clubAction) }

// clubSheetView is the club sheet on paper.
type clubSheetView struct {
	On       bool
	Plan     string
	Loudest  string
	Club     clubView
	Question string
	Blanks   []string
	Risks    []club.Risk
}

func clubSheetOf(d *desk.Desk) clubSheetView {
	p := d.Plan()
	return clubSheetView{
		On: true, Plan: planWords(d), Loudest: stripOf(d).Stop, Club: clubOf(d),
		Question: club.Question(p), Blanks: club.Blanks(p), Risks: club.Risks(p),
	}
}

// onClub prints the club sheet as onSheet does the bench sheet.
func (p *page) onClub(ctx app.Context, _ app.Action) {
	p.clubSheet = clubSheetOf(p.desk)
	p.Update()
	ctx.Defer(func(app.Context) {
		alone(true)
		app.Window().Call("print")
	})
}

// clubSheet is the club sheet on the page; screens do not show it.
type clubSheet struct {
	app.Compo
	View clubSheetView
}

func (b *clubSheet) Render() app.UI {
	v := b.View
	if !v.On {
		return app.Elem("div").Class("sheet none")
	}
	c := v.Club
	return app.Elem("div").Class("sheet club-sheet").Role("main").Body(
		app.Elem("h1").Text("Club sheet"),
		app.Elem("p").Class("sheet-plan").Text("Each group: "+v.Plan),
		app.Elem("p").Class("sheet-lines").Body(toWrite("Date", 7), toWrite("Place", 10), toWrite("Person responsible", 10), toWrite("Signed", 10)),
		app.Elem("p").Body(app.Elem("b").Text(v.Loudest+". "), app.Text(safety.Deference())),
		app.Elem("h2").Text("Before anything is opened"),
		app.Elem("div").Class("club-blanks").Body(app.Range(v.Blanks).Slice(func(i int) app.UI { return toFill(v.Blanks[i]) })),
		clubQuestion(v.Question),
		app.Elem("h2").Text("Groups and gas"),
		app.Elem("p").Text(strings.Join(c.Says, " ")),
		clubGas(c.Gas),
		app.Elem("h2").Text("To buy, and to weigh out"),
		paperTable([]string{"Reagent", "One group", "All " + strconv.Itoa(c.Groups), "Weighed out, a box a group"}, withTicks(c.Reagents, c.Groups)),
		app.Elem("h2").Text("Waste of all, to collection"),
		paperTable([]string{"Bottle", "Holds", "To neutralise it"}, asUI(c.Waste)),
		app.Elem("p").Text("Each in its own bottle, labelled and dated, caps loose overnight. Nothing down the drain."),
		app.Elem("div").Class("club-part").Body(
			app.Elem("h2").Text("On the benches"),
			paperTable([]string{"Vessel", "At least", "Size", "So many"}, asUI(c.Vessels)),
			app.Elem("h2").Text("Who may do what"),
			app.Elem("p").Text(pupils),
			paperTable([]string{"Step", "What can harm", "Who", "From what age, by which rule", "Done by"}, whoRows(c.Tasks)),
		),
		app.Elem("div").Class("club-risk").Body(
			app.Elem("h1").Text("For a risk assessment: a draft to be finished"),
			app.Elem("p").Body(app.Elem("b").Text(club.Draft())),
			paperTable([]string{"Stage, and what can harm", "Who could be harmed", "Measures that the page’s cautions name", "Done here, by whom"}, riskRows(v.Risks)),
			app.Elem("p").Text("Hazard statements are those of the pure substance, the stricter where sources differ; the supplier’s sheet of what you really have comes first."),
			app.Elem("div").Class("club-blanks club-open").Body(app.Range(club.Unfinished()).Slice(func(i int) app.UI { return toFill(club.Unfinished()[i]) })),
			app.Elem("p").Class("sheet-lines").Body(toWrite("Finished and checked by", 16), toWrite("Signature", 16), toWrite("Date", 7), toWrite("Look again on", 7)),
		),
	)
}

// toFill is a line to be filled in.
func toFill(name string) app.UI {
	return app.Elem("p").Class("blank").Body(app.Elem("span").Text(name), app.Elem("i"))
}

func clubQuestion(text string) app.UI {
	if text == "" {
		return nil
	}
	return app.Elem("div").Class("sheet-stop").Body(
		stopSign(), app.Elem("b").Text("The asthma question, before gas is made. "), app.Text(text),
		app.Elem("p").Class("sheet-lines").Body(
			app.Elem("span").Body(app.Elem("i").Class("sheet-tick"), app.Text("everyone has answered")), toWrite("Asked by", 10), toWrite("At", 4)),
	)
}

func asUI(rows [][]string) [][]app.UI {
	var list [][]app.UI
	for _, row := range rows {
		var cells []app.UI
		for _, text := range row {
			cells = append(cells, app.Text(text))
		}
		list = append(list, cells)
	}
	return list
}

// mostTicks is how many boxes a row has room for.
const mostTicks = 12

// withTicks puts a box for each group behind each row, or a line for a count.
func withTicks(rows [][]string, groups int) [][]app.UI {
	list := asUI(rows)
	for i := range list {
		boxes := toWrite("groups done:", 10)
		if groups <= mostTicks {
			ticks := make([]int, groups)
			boxes = app.Elem("span").Body(app.Range(ticks).Slice(func(int) app.UI { return app.Elem("i").Class("sheet-tick") }))
		}
		list[i] = append(list[i], boxes)
	}
	return list
}

func whoRows(list []club.Task) [][]app.UI {
	var rows [][]app.UI
	for _, t := range list {
		rule := app.UI(app.Elem("i").Class("w10"))
		if t.Adult {
			rule = app.Text("–")
		}
		rows = append(rows, []app.UI{app.Text(t.Step), app.Text(t.Why), app.Text(whoMay(t)), rule, app.Elem("i").Class("w10")})
	}
	return rows
}

func riskRows(list []club.Risk) [][]app.UI {
	var rows [][]app.UI
	for _, r := range list {
		var measures []app.UI
		for _, m := range r.Measures {
			measures = append(measures, app.Elem("p").Body(app.Elem("b").Text(m.Lead+" "), app.Text(m.Text)))
		}
		var hazards []app.UI
		for _, h := range r.Hazards {
			hazards = append(hazards, app.Elem("p").Text(h))
		}
		title := stageTitle[r.Stage].Title
		rows = append(rows, []app.UI{
			app.Elem("div").Body(append([]app.UI{app.Elem("b").Text(title)}, hazards...)...),
			app.Text(r.Harmed), app.Elem("div").Body(measures...), app.Text(""),
		})
	}
	return rows
}

// paperTable is a table on paper, the first cell of each row its name.
func paperTable(heads []string, rows [][]app.UI) app.UI {
	return app.Elem("table").Class("paper").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(app.Range(heads).Slice(func(i int) app.UI { return app.Elem("th").Attr("scope", "col").Text(heads[i]) }))),
		app.Elem("tbody").Body(app.Range(rows).Slice(func(i int) app.UI {
			row := rows[i]
			return app.Elem("tr").Body(app.Range(row).Slice(func(j int) app.UI {
				if j == 0 {
					return app.Elem("th").Attr("scope", "row").Body(row[j])
				}
				return app.Elem("td").Body(row[j])
			}))
		})),
	)
}
