package web

import (
	"errors"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/club"
	"rosesalt/chem/field"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

const daysTitle = "The days"

// daysView is the work laid out on the days.
type daysView struct {
	Nothing bool // no cell is opened
	Over    bool // all of a run is done
	Apart   bool // sessions lie days apart: what stands until the next is told beside each
	Says    string
	Club    string // that the days are one group's, where others wait for their turn
	Fields  []dayField
	Evening []procedure.Ready
	Days    []dayView
	Loose   []slotView // the steps while they cannot be laid out, so that their times can be set
}

// dayField is a field of when the work is done.
type dayField struct {
	Key, Name, Kind, Unit string
	Why, Problem          string
}

type dayView struct {
	Title string
	Brief string // what is done, in a line
	Until string // when the work goes on
	Stand string // how long what is left until then may stand, and how
	Slots []slotView
}

// slotView is a step at its time.
type slotView struct {
	Key, At, Title, Watch string
	Rule                  string // what must be known before it is begun
	Usual, Problem        string // of its minutes
	Asked, First          bool
}

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

const (
	dayForm   = "Monday 2 January 2006"
	clockForm = "15:04"
)

func daysOf(d *desk.Desk) daysView {
	t, err := d.Timetable(firstDay(d))
	v := daysView{Nothing: t.Steps == nil, Over: t.Left == 0, Fields: dayFields(d)}
	if v.Nothing || v.Over {
		return v
	}
	v.Club = daysOfOne(d, t.Steps)
	v.Evening = procedure.Evening(d.Plan(), d.Sheet())
	if err != nil {
		blameSession(&v, t.Steps, err)
		for _, i := range t.Todo {
			slot := slotOf(d, &t.Steps[i], procedure.Slot{Step: i, Of: 1})
			slot.At, slot.First = "–", t.Steps[i].Batch <= 1
			v.Loose = append(v.Loose, slot)
		}
		return v
	}
	apart := d.Days().Apart()
	v.Apart = apart > 1
	v.Says = daysSay(d, t.Start, t.Slots)
	seen := map[string]bool{} // the time is that of the step in every batch
	for i, s := range t.Slots {
		title := dayTitle(s, apart)
		if n := len(v.Days); n == 0 || v.Days[n-1].Title != title {
			v.Days = append(v.Days, dayView{Title: title})
			if n > 0 {
				v.Days[n-1].rest(t, i, apart)
			}
		}
		day := &v.Days[len(v.Days)-1]
		slot := slotOf(d, &t.Steps[s.Step], s)
		slot.First = !seen[slot.Key]
		seen[slot.Key] = true
		day.Slots = append(day.Slots, slot)
		if day.Brief != "" {
			day.Brief += ", "
		}
		day.Brief += s.Start.Format(clockForm) + " " + section.Lower(slot.Title)
	}
	return v
}

// daysOfOne says how much longer the gas takes where several groups take turns at it.
// Every plan has a club's usual number, so it says so only of a club that was set, or
// where sessions lie days apart.
func daysOfOne(d *desk.Desk, steps []procedure.Step) string {
	c := d.Club()
	turn := club.Turn(steps)
	if c.Turns() <= 1 || turn <= 0 || (c == club.New() && d.Days().Apart() == 1) {
		return ""
	}
	all := quantity.Minute(c.Turns() * float64(turn))
	what := "the gas"
	if !route.Gaseous(d.Plan()) {
		what = "stirring in"
	}
	return "These days are those of one group. With the " + route.Print(c.Groups, "") + " groups of “" + clubTitle + "”, " + what + " takes " + countOf(c.Turns(), "turn") + ", " + procedure.Hours(all) + " in all in place of " + procedure.Hours(turn) + ": plan for " + procedure.Hours(all-turn) + " more, or more sessions."
}

// rest says what stands until the slot that begins the next day: of the steps since the
// last that stood at all, what the last of them leaves, and what goes on beside it.
func (v *dayView) rest(t desk.Timetable, next, apart int) {
	v.Until = t.Slots[next].Start.Format("Monday 2 January, " + clockForm)
	last := &t.Steps[t.Slots[next-1].Step]
	v.Stand = section.Lower(last.Pause.Stand.String()) + ". " + last.Pause.How
	for i := next - 1; i >= 0 && t.Slots[i].Day == t.Slots[next-1].Day; i-- {
		st := &t.Steps[t.Slots[i].Step]
		if st.Beside && st != last {
			v.Stand += " " + st.Pause.How
		}
		if procedure.ComeBack(st, t.Slots[i], apart) {
			v.Stand += " " + comeBack(t.Slots[i])
		}
	}
}

// comeBack says when somebody has to see to what cooled by itself.
func comeBack(s procedure.Slot) string {
	return "The flask is not left like that until the next session: it is cold at about " + s.End.Format(clockForm+" on Monday") + " at the earliest, and somebody stays or comes back then to feel that it is, stopper it, label it and lock it away. If nobody can, begin the gas earlier."
}

// dayTitle names a day; where sessions lie apart, a session by its number.
func dayTitle(s procedure.Slot, apart int) string {
	date := s.Start.Format(dayForm)
	switch {
	case s.Day == 0:
		return "The evening before, " + date
	case apart > 1 && (s.Day-1)%apart == 0:
		return "Session " + route.Print(float64((s.Day-1)/apart+1), "") + ", " + date
	case apart > 1:
		return "Between sessions, " + date
	}
	return "Day " + route.Print(float64(s.Day), "") + ", " + date
}

func slotOf(d *desk.Desk, st *procedure.Step, s procedure.Slot) slotView {
	v := slotView{
		Key: st.Key, Title: st.Title, Watch: st.Watch.String(), Asked: st.Asked,
		At:    s.Start.Format(clockForm) + "–" + s.End.Format(clockForm),
		Usual: route.Print(float64(st.Minutes), ""), Problem: d.Problem(procedure.TimePrefix + st.Key),
	}
	if s.Of > 1 {
		v.Title += ", part " + route.Print(float64(s.Part), "") + " of " + route.Print(float64(s.Of), "")
	}
	if s.End.YearDay() != s.Start.YearDay() {
		v.At += s.End.Format(" (Mon)")
	}
	switch {
	case procedure.ComeBack(st, s, d.Days().Apart()):
		v.Watch, v.Rule = "somebody comes back", comeBack(s)
	case s.Late > 0:
		v.Rule = "The session runs over by " + route.Print(s.Late.Minutes(), "min") + ": so little is not put off for days."
	case st.Key == "gas" && d.Plan().GasSource == route.FromCopper:
		v.Rule = "Light the flame only if two hours remain; with the last test it takes " + procedure.Hours(st.Room) + "."
	case st.Room > st.Minutes:
		v.Rule = "Begin only if " + procedure.Hours(st.Room) + " of the session remain: what follows must not wait."
	case st.Key == "dissolve":
		v.Rule = "Only when the flask is quite cold: it needs the night."
	}
	return v
}

// daysSay is the timetable in a sentence.
func daysSay(d *desk.Desk, start time.Time, slots []procedure.Slot) string {
	end, days := start, 0
	for _, s := range slots {
		if days == 0 && s.Day > 0 {
			start = s.Start // the sessions may begin later than the day
		}
		if s.End.After(end) {
			end = s.End
		}
		days = max(days, s.Day)
	}
	count := route.Print(float64(days), "") + " days"
	if days == 1 {
		count = "a day"
	}
	if apart := d.Days().Apart(); apart > 1 {
		count = route.Print(float64((days-1)/apart+1), "") + " sessions over " + count
	}
	say, work := "Begun", "the work"
	if d.Text(procedure.FinishKey) != "" {
		say = "Begin at the latest"
	}
	if run := d.Started(); run != nil && run.Done > 0 {
		say, work = "Gone on with", "what is left"
		if d.Text(procedure.FinishKey) != "" {
			say = "Go on at the latest"
		}
	}
	return say + " on " + start.Format(dayForm+", "+clockForm) + ", " + work + " takes " + count + " and is over on " + end.Format(dayForm+", "+clockForm) + "."
}

// blameSession puts what does not fit at the field of the session, with the step's name.
func blameSession(v *daysView, steps []procedure.Step, err error) {
	text := err.Error()
	if long, ok := errors.AsType[procedure.TooLong](err); ok {
		name := "“" + steps[long.Step].Title + "”"
		if long.Through != long.Step {
			name += " to “" + steps[long.Through].Title + "”"
		}
		text = name + ": " + text
	}
	if many, ok := errors.AsType[procedure.TooMany](err); ok {
		text = "“" + steps[many.Step].Title + "”: " + text
	}
	for i := range v.Fields {
		if f := &v.Fields[i]; f.Key == procedure.LongKey && f.Problem == "" {
			f.Problem = text + "."
		}
	}
	v.Says = "The work does not fit into these sessions."
}

func dayFields(d *desk.Desk) (list []dayField) {
	all := d.Days()
	for _, f := range all.Form().Fields {
		list = append(list, dayFieldOf(d, f))
	}
	if run := d.Started(); run != nil && run.Done > 0 {
		list[0].Name, list[0].Why = "Go on", "Day and time of the first step that is left. If nothing is set: next Saturday."
	}
	return list
}

// controls are what a browser offers for a kind of field.
var controls = map[field.Kind]string{field.Number: "text", field.Day: "datetime-local", field.Clock: "time"}

func dayFieldOf(d *desk.Desk, f *field.Field) dayField {
	return dayField{Key: f.Key, Name: f.Name, Kind: controls[f.Kind], Unit: f.Unit, Why: f.Why, Problem: d.Problem(f.Key)}
}

// days is the section of the timetable. The table is made when it is opened.
type days struct {
	app.Compo
	View daysView

	open bool
}

func (s *days) Render() app.UI {
	v := s.View
	if v.Nothing {
		return plainSection(daysTitle, "when what is done", app.Elem("p").Class("lede").Text("No cell is opened in this plan, so there is nothing to do."))
	}
	if v.Over {
		return plainSection(daysTitle, "when what is done", app.Elem("p").Class("lede").Text("All stages of this run are done: nothing is left to lay out."))
	}
	return plainSection(daysTitle, "when what is done, and what may stand",
		app.Elem("div").Class("cols").Body(
			app.Elem("div").Class("rows").Body(app.Range(v.Fields).Slice(func(i int) app.UI { return drawDayField(v.Fields[i]) })),
			app.Elem("div").Body(
				app.Elem("p").Class("says-days").Text(v.Says),
				app.If(v.Club != "", app.Elem("p").Class("why").Text(v.Club)),
				app.Elem("dl").Class("advised days").Body(app.Range(v.Days).Slice(func(i int) app.UI {
					return app.Elem("div").Body(app.Elem("dt").Body(app.Elem("b").Text(v.Days[i].Title)), app.Elem("dd").Body(app.Text(v.Days[i].Brief+"."), app.If(v.Apart && v.Days[i].Until != "", app.Elem("p").Class("why").Text("Until "+v.Days[i].Until+": "+v.Days[i].Stand))))
				})),
			),
		),
		app.Elem("details").On("toggle", s.onToggle).Body(
			app.Elem("summary").Text("Step by step: how long each takes, and what may be left"),
			app.Elem("p").Class("lede").Text("Each time is an estimate out of volumes, rates and minutes of the plan, or common practice. Type your own; blank brings the estimate back."),
			s.table(),
		),
		app.Elem("details").Body(
			app.Elem("summary").Text("The evening before: bought, made up, cooled"),
			app.Elem("dl").Class("advised eve").Body(app.Range(v.Evening).Slice(func(i int) app.UI {
				return app.Elem("div").Body(app.Elem("dt").Body(app.Elem("b").Text(v.Evening[i].Do)), app.Elem("dd").Text(strings.Join(v.Evening[i].List, "; ")+"."))
			})),
		),
	)
}

func (s *days) onToggle(ctx app.Context, _ app.Event) {
	s.open = ctx.JSSrc().Get("open").Bool()
	ctx.NewAction(fillAction)
}

func (p *page) onFill(ctx app.Context, _ app.Action) { ctx.Defer(func(app.Context) { p.fill() }) }

func (s *days) table() app.UI {
	if !s.open {
		return nil
	}
	list := s.View.Days
	return app.Elem("div").Class("scroll").Body(app.Elem("table").Class("hours").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(
			app.Elem("th").Attr("scope", "col").Text("Step"), app.Elem("th").Attr("scope", "col").Text("Time"),
			app.Elem("th").Attr("scope", "col").Text("Minutes"), app.Elem("th").Attr("scope", "col").Text("Meanwhile"))),
		app.Range(list).Slice(func(i int) app.UI {
			day := list[i]
			return app.Elem("tbody").Body(
				app.Elem("tr").Body(app.Elem("th").Class("day").Attr("colspan", "4").Attr("scope", "rowgroup").Text(day.Title)),
				app.Range(day.Slots).Slice(func(j int) app.UI { return slotRow(day.Slots[j]) }),
				app.If(day.Until != "", app.Elem("tr").Class("meanwhile").Body(app.Elem("td").Attr("colspan", "4").Body(app.Elem("b").Text("Until "+day.Until+": "), app.Text(day.Stand)))),
			)
		}),
		app.If(len(s.View.Loose) > 0, app.Elem("tbody").Body(
			app.Elem("tr").Body(app.Elem("th").Class("day").Attr("colspan", "4").Attr("scope", "rowgroup").Text("Not laid out: it does not fit into these sessions")),
			app.Range(s.View.Loose).Slice(func(i int) app.UI { return slotRow(s.View.Loose[i]) }),
		)),
	))
}

func slotRow(v slotView) app.UI {
	name := app.Elem("th").Attr("scope", "row").Body(app.Text(v.Title), app.If(v.Rule != "", app.Elem("p").Class("why").Text(v.Rule)))
	minutes := app.Elem("td")
	if v.First {
		key := procedure.TimePrefix + v.Key
		line, input := "guess", app.ElemSelfClosing("input").Attr("type", "text").Attr("inputmode", "text").Attr("name", key).
			Aria("label", "Minutes of “"+v.Title+"”").Attr("placeholder", doc.Proposal(v.Usual))
		if v.Asked {
			line = "set"
		}
		if v.Problem != "" {
			input = input.Aria("invalid", "true").Aria("describedby", "problem."+key)
		}
		box := app.Elem("div").Class("in "+line).Body(input, app.Elem("span").Text("min"))
		minutes = app.Elem("td").Body(box, dayProblem(key, v.Problem))
	}
	return app.Elem("tr").Body(name, app.Elem("td").Class("clock").Text(v.At), minutes, app.Elem("td").Text(v.Watch))
}

func drawDayField(f dayField) app.UI {
	id, class := "in."+f.Key, "row"
	input := app.ElemSelfClosing("input").ID(id).Attr("type", f.Kind).Attr("name", f.Key).Aria("describedby", "why."+f.Key)
	if f.Problem != "" {
		class += " bad"
		input = input.Aria("invalid", "true").Aria("describedby", "why."+f.Key+" problem."+f.Key)
	}
	return app.Elem("div").Class(class+" when").Body(
		app.Elem("label").Attr("for", id).Text(f.Name),
		app.Elem("div").Class("in").Body(input, app.If(f.Unit != "", app.Elem("span").Text(f.Unit))),
		app.Elem("p").Class("why").ID("why."+f.Key).Text(f.Why),
		dayProblem(f.Key, f.Problem),
	)
}

// dayProblem is what is wrong with a field; nil if nothing is.
func dayProblem(key, text string) app.UI {
	if text == "" {
		return nil
	}
	return doc.Draw(doc.Problem{Key: key, Says: text})[0]
}
