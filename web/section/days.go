package section

import (
	"errors"
	"strings"
	"time"

	"rosesalt/chem/club"
	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// DaysTitle is the title of the timetable.
const DaysTitle = "The days"

const (
	dayForm   = "Monday 2 January 2006"
	clockForm = "15:04"
)

// days is the work laid out on the days.
func days(s *Source) doc.Section {
	t, err := s.Timetable(s.Begin)
	if t.Left == 0 {
		says := doc.Node(doc.Screen{doc.P("lede", doc.Text("No cell is opened in this plan, so there is nothing to do."))})
		if t.Steps != nil {
			says = doc.P("lede", doc.Text("All stages of this run are done: nothing is left to lay out."))
		}
		return doc.Section{Of: []doc.Node{says}}
	}
	fields, says := dayFields(s), "The work does not fit into these sessions."
	list := doc.Terms{Class: "advised days"}
	hours := doc.Table{Class: "hours", Heads: doc.Texts([]string{"Step", "Time", "Minutes", "Meanwhile"})}
	if err == nil {
		says = daysSay(s, t.Start, t.Slots)
		list.List, hours.Rows = laidOut(s, &t)
	} else {
		blameSession(fields, t.Steps, err)
		hours.Rows = [][]doc.Node{{doc.Heading("Not laid out: it does not fit into these sessions")}}
		for _, i := range t.Todo {
			row := slotRow(s, &t.Steps[i], &procedure.Slot{Step: i, Of: 1}, t.Steps[i].Batch <= 1)
			row[1] = doc.Text("–")
			hours.Rows = append(hours.Rows, row)
		}
	}
	var problems, own doc.Told
	for _, f := range fields {
		if f.Problem != "" {
			problems = append(problems, doc.P("", doc.Text(f.Name+": "+f.Problem)))
		}
	}
	for _, st := range t.Steps {
		if st.Asked && st.Batch <= 1 {
			own = append(own, doc.P("", doc.Text(st.Name+": "+procedure.Hours(st.Minutes)+", by you")))
		}
	}
	evening := doc.Terms{Class: "advised eve"}
	for _, r := range procedure.Evening(s.Plan(), s.Sheet()) {
		evening.List = append(evening.List, doc.Term{Name: r.Do, Says: strings.Join(r.List, "; ") + "."})
	}
	return doc.Section{Of: []doc.Node{
		doc.Box{Class: "cols", Of: []doc.Node{
			fields,
			doc.Box{Of: []doc.Node{doc.P("says-days", doc.Text(says)), problems, doc.Screen(paragraphs("why", daysOfOne(s, t.Steps))), list}},
		}},
		own,
		doc.Fold{Late: true, Title: "Step by step: how long each takes, and what may be left", Of: []doc.Node{
			doc.P("lede", doc.Text("Each time is an estimate out of volumes, rates and minutes of the plan, or common practice. Type your own; blank brings the estimate back.")),
			hours,
		}},
		doc.Fold{Title: "The evening before: bought, made up, cooled", Of: []doc.Node{evening}},
	}}
}

// laidOut are the days in brief, and their steps a row each.
func laidOut(s *Source, t *desk.Timetable) (list []doc.Term, rows [][]doc.Node) {
	apart := s.Days().Apart()
	seen := map[string]bool{} // the time is that of the step in every batch
	for i := 0; i < len(t.Slots); {
		day := doc.Term{Name: dayTitle(&t.Slots[i], apart)}
		rows = append(rows, []doc.Node{doc.Heading(day.Name)})
		for ; i < len(t.Slots) && dayTitle(&t.Slots[i], apart) == day.Name; i++ {
			slot := &t.Slots[i]
			st := &t.Steps[slot.Step]
			rows = append(rows, slotRow(s, st, slot, !seen[st.Key]))
			seen[st.Key] = true
			if day.Says != "" {
				day.Says += ", "
			}
			day.Says += slot.Start.Format(clockForm) + " " + phrase.Lower(slotTitle(st, slot))
		}
		day.Says += "."
		if i < len(t.Slots) {
			until, stand := "Until "+t.Slots[i].Start.Format("Monday 2 January, "+clockForm)+": ", standing(t, i, apart)
			rows = append(rows, []doc.Node{doc.Run{doc.Strong(until), doc.Text(stand)}})
			day.More = doc.P("why", doc.Text(until+stand))
			if apart == 1 { // the table has it
				day.More = doc.Told{day.More}
			}
		}
		list = append(list, day)
	}
	return list, rows
}

// daysOfOne says how much longer the gas takes where several groups take turns at it.
// Every plan has a club's usual number, so it says so only of a club that was set, or
// where sessions lie days apart.
func daysOfOne(s *Source, steps []procedure.Step) string {
	c := s.Club()
	turn := club.Turn(steps)
	if c.Turns() <= 1 || turn <= 0 || (c == club.New() && s.Days().Apart() == 1) {
		return ""
	}
	all := quantity.Minute(c.Turns() * float64(turn))
	what := "the gas"
	if !route.Gaseous(s.Plan()) {
		what = "stirring in"
	}
	return "These days are those of one group. With the " + route.Print(c.Groups, "") + " groups of “" + ClubTitle + "”, " + what + " takes " + route.Count(c.Turns(), "turn") + ", " + procedure.Hours(all) + " in all in place of " + procedure.Hours(turn) + ": plan for " + procedure.Hours(all-turn) + " more, or more sessions."
}

// standing says what stands until the slot that begins the next day: of the steps since the
// last that stood at all, what the last of them leaves, and what goes on beside it.
func standing(t *desk.Timetable, next, apart int) string {
	last := &t.Steps[t.Slots[next-1].Step]
	says := phrase.Lower(last.Pause.Stand.String()) + ". " + last.Pause.How
	for i := next - 1; i >= 0 && t.Slots[i].Day == t.Slots[next-1].Day; i-- {
		st := &t.Steps[t.Slots[i].Step]
		if st.Beside && st != last {
			says += " " + st.Pause.How
		}
		if procedure.ComeBack(st, t.Slots[i], apart) {
			says += " " + comeBack(&t.Slots[i])
		}
	}
	return says
}

// comeBack says when somebody has to see to what cooled by itself.
func comeBack(slot *procedure.Slot) string {
	return "The flask is not left like that until the next session: it is cold at about " + slot.End.Format(clockForm+" on Monday") + " at the earliest, and somebody stays or comes back then to feel that it is, stopper it, label it and lock it away. If nobody can, begin the gas earlier."
}

// dayTitle names a day; where sessions lie apart, a session by its number.
func dayTitle(slot *procedure.Slot, apart int) string {
	date := slot.Start.Format(dayForm)
	switch {
	case slot.Day == 0:
		return "The evening before, " + date
	case apart > 1 && (slot.Day-1)%apart == 0:
		return "Session " + route.Print(float64((slot.Day-1)/apart+1), "") + ", " + date
	case apart > 1:
		return "Between sessions, " + date
	}
	return "Day " + route.Print(float64(slot.Day), "") + ", " + date
}

func slotTitle(st *procedure.Step, slot *procedure.Slot) string {
	if slot.Of > 1 {
		return st.Title + ", part " + route.Print(float64(slot.Part), "") + " of " + route.Print(float64(slot.Of), "")
	}
	return st.Title
}

// slotRow is a step at its time; the first of its batches has the field of its minutes.
func slotRow(s *Source, st *procedure.Step, slot *procedure.Slot, first bool) []doc.Node {
	title, watch, rule := slotTitle(st, slot), st.Watch.String(), ""
	switch {
	case procedure.ComeBack(st, *slot, s.Days().Apart()):
		watch, rule = "somebody comes back", comeBack(slot)
	case slot.Late > 0:
		rule = "The session runs over by " + route.Print(slot.Late.Minutes(), "min") + ": so little is not put off for days."
	case st.Key == "gas" && route.HotAcid(s.Plan()):
		rule = "Light the flame only if two hours remain; with the last test it takes " + procedure.Hours(st.Room) + "."
	case st.Room > st.Minutes:
		rule = "Begin only if " + procedure.Hours(st.Room) + " of the session remain: what follows must not wait."
	case st.Key == "dissolve":
		rule = "Only when the flask is quite cold: it needs the night."
	}
	at := slot.Start.Format(clockForm) + "–" + slot.End.Format(clockForm)
	if slot.End.YearDay() != slot.Start.YearDay() {
		at += slot.End.Format(" (Mon)")
	}
	var minutes doc.Node
	if first {
		key := procedure.TimePrefix + st.Key
		c := doc.Control{Key: key, Label: "Minutes of “" + title + "”", Kind: "text", Mode: "text", Usual: route.Print(float64(st.Minutes), ""), Unit: "min", Line: "guess"}
		if st.Asked {
			c.Line = "set"
		}
		minutes = checked(s, c)
	}
	return []doc.Node{append(doc.Run{doc.Text(title)}, paragraphs("why", rule)...), doc.Text(at), minutes, doc.Text(watch)}
}

// daysSay is the timetable in a sentence.
func daysSay(s *Source, start time.Time, slots []procedure.Slot) string {
	end, days := start, 0
	for _, slot := range slots {
		if days == 0 && slot.Day > 0 {
			start = slot.Start // the sessions may begin later than the day
		}
		if slot.End.After(end) {
			end = slot.End
		}
		days = max(days, slot.Day)
	}
	count := route.Print(float64(days), "") + " days"
	if days == 1 {
		count = "a day"
	}
	if apart := s.Days().Apart(); apart > 1 {
		count = route.Print(float64((days-1)/apart+1), "") + " sessions over " + count
	}
	say, work := "Begun", "the work"
	if s.Text(procedure.FinishKey) != "" {
		say = "Begin at the latest"
	}
	if run := s.Started(); run != nil && run.Done > 0 {
		say, work = "Gone on with", "what is left"
		if s.Text(procedure.FinishKey) != "" {
			say = "Go on at the latest"
		}
	}
	return say + " on " + start.Format(dayForm+", "+clockForm) + ", " + work + " takes " + count + " and is over on " + end.Format(dayForm+", "+clockForm) + "."
}

// blameSession puts what does not fit at the field of the session, with the step's name.
func blameSession(asked doc.Fields, steps []procedure.Step, err error) {
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
	for i := range asked {
		if f := &asked[i]; f.Key == procedure.LongKey && f.Problem == "" {
			f.Problem = text + "."
		}
	}
}

func dayFields(s *Source) (list doc.Fields) {
	all := s.Days()
	for _, f := range all.Form().Fields {
		list = append(list, asked(s, f))
	}
	if run := s.Started(); run != nil && run.Done > 0 {
		list[0].Name, list[0].Why = "Go on", "Day and time of the first step that is left. If nothing is set: next Saturday."
	}
	return list
}
