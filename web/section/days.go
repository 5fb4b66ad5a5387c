package section

import (
	"errors"
	"math"
	"slices"
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
		says := doc.Node(doc.ScreenOnly{doc.PText("lede", "No cell is opened in this plan, so there is nothing to do.")})
		if t.Steps != nil {
			says = doc.PText("lede", "All stages of this run are done: nothing is left to lay out.")
		}
		return doc.Section{Of: doc.Nodes{says}}
	}
	fields := dayFields(s, &t)
	list := doc.Terms{Class: "advised days"}
	hours := doc.Table{Class: "hours", Heads: doc.Texts([]string{"Step", "Time", "Minutes", "Meanwhile"})}
	if s.Days().Apart() > 1 {
		hours.Heads = append(hours.Heads, doc.Text("Done by"))
	}
	says := "The work does not fit into these sessions."
	list.List, hours.Rows = laidOut(s, &t)
	if err == nil {
		says = daysSay(s, t.Start, t.Slots)
	} else {
		blameSession(fields, err, procedure.Explain(err, t.Steps))
	}
	var problems, own doc.TextOnly
	for _, f := range fields {
		if f.Problem != "" {
			problems = append(problems, doc.PText("", f.Name+": "+f.Problem))
		}
	}
	for _, st := range t.Steps {
		if st.TimeSet && st.Batch <= 1 {
			own = append(own, doc.PText("", st.Name+": "+procedure.Hours(st.Minutes)+", by you"))
		}
	}
	evening := doc.Terms{Class: "advised eve"}
	for _, r := range procedure.Evening(s.Plan(), s.Sheet(), s.Reagents()) {
		evening.List = append(evening.List, doc.Term{Name: r.Do, Says: strings.Join(r.List, "; ") + "."})
	}
	return doc.Section{Of: doc.Nodes{
		doc.Div("cols",
			fields,
			doc.Box{Of: doc.Nodes{doc.PText("says-days", says), problems, doc.ScreenOnly(paragraphs("why", flaskTurns(s, &t), daysOfOne(s, t.Steps), adultsTime(s, t.Steps))), offers(s, err), list}},
		),
		own,
		doc.Fold{Late: true, Title: "Step by step: how long each takes, and what may be left", Of: doc.Nodes{
			doc.PText("lede", "Each time is an estimate out of volumes, rates and minutes of the plan, or common practice. Type your own; blank brings the estimate back."),
			hours,
		}},
		doc.Fold{Title: "The evening before: bought, made up, cooled", Of: doc.Nodes{evening}},
	}}
}

// gathered are slots that are told together: those of a session, of a day, or of what an adult
// does between two sessions.
type gathered struct {
	name       string
	from, to   int // slots, by their place; the last left out
	adult      bool
	begun, end int // sessions before and after; 0 where there is none
}

// gather puts slots together.
func gather(t *desk.Timetable, apart int) (list []gathered) {
	for i := 0; i < len(t.Slots); {
		g := gathered{from: i, to: i}
		if t.Slots[i].Session == 0 && t.Slots[i].Day > 0 { // until the next session
			for g.to < len(t.Slots) && t.Slots[g.to].Session == 0 {
				g.adult = g.adult || t.Slots[g.to].By == procedure.Staff
				g.to++
			}
		}
		if g.adult {
			if i > 0 {
				g.begun = t.Slots[i-1].Session
			}
			if g.to < len(t.Slots) {
				g.end = t.Slots[g.to].Session
			}
			g.name = betweenTitle(&g)
		} else {
			g.name = dayTitle(&t.Slots[i], apart)
			for g.to = i; g.to < len(t.Slots) && dayTitle(&t.Slots[g.to], apart) == g.name && !(g.to > i && t.Slots[g.to].By == procedure.Staff && t.Slots[g.to].Day > 0); {
				g.to++
			}
		}
		list = append(list, g)
		i = g.to
	}
	return list
}

func betweenTitle(g *gathered) string {
	from, to := route.Print(float64(g.begun), ""), route.Print(float64(g.end), "")
	switch {
	case g.end == 0:
		return "After session " + from + ", by an adult"
	case g.begun == 0:
		return "Before session " + to + ", by an adult"
	}
	return "Between sessions " + from + " and " + to + ", by an adult"
}

// laidOut are the days in brief, and their steps a row each.
func laidOut(s *Source, t *desk.Timetable) (list []doc.Term, rows [][]doc.Node) {
	apart := s.Days().Apart()
	seen, laid := map[string]bool{}, map[int]bool{} // the time is that of the step in every batch
	for _, g := range gather(t, apart) {
		day := doc.Term{Name: g.name}
		rows = append(rows, doc.Nodes{doc.Heading(day.Name)})
		var marks, more doc.Nodes
		var told []string
		for i := g.from; i < g.to; i++ {
			slot := &t.Slots[i]
			st := &t.Steps[slot.Step]
			rows = append(rows, slotRow(s, st, slot, !seen[st.Key], g.adult))
			seen[st.Key], laid[slot.Step] = true, true
			told = append(told, briefly(st, slot, g.adult))
			marks = append(marks, bursts(t, i)...)
		}
		day.Says = phrase.Capital(strings.Join(told, ", ")) + "."
		more = append(more, paragraphs("", whenAway(t.Slots[g.from:g.to]))...)
		if g.to < len(t.Slots) {
			next := &t.Slots[g.to]
			until, stand := "Until "+next.Start.Format("Monday 2 January, "+clockForm)+": ", standing(t, g.to, apart)
			if next.Session == 0 && next.By == procedure.Staff || g.adult && next.Session == 0 {
				until, stand = "", ""
			}
			if until != "" {
				rows = append(rows, doc.Nodes{doc.Nodes{doc.Strong(until), doc.Text(stand)}})
				more = append(more, doc.PText("why", until+stand))
			}
			if apart > 1 && g.from > 0 {
				more = append(more, standsOnShelf(s, t, g.to)...)
			}
			if apart == 1 { // the table has it
				more = doc.Nodes{doc.TextOnly(more)}
			}
		}
		if marks = append(append(marks, beyond(t, &g, s.Days().Most)...), more...); marks != nil {
			day.More = marks
		}
		list = append(list, day)
	}
	if len(laid) < len(t.Todo) {
		rows = append(rows, doc.Nodes{doc.Heading("Not laid out: it does not fit into these sessions")})
		for _, i := range t.Todo {
			if !laid[i] {
				row := slotRow(s, &t.Steps[i], &procedure.Slot{Step: i, Of: 1}, t.Steps[i].Batch <= 1, false)
				row[1] = doc.Text("–")
				rows = append(rows, row)
			}
		}
	}
	return list, rows
}

// briefly is a slot in some words.
func briefly(st *procedure.Step, slot *procedure.Slot, adult bool) string {
	title := phrase.Lower(slotTitle(st, slot))
	switch {
	case !adult:
		return slot.Start.Format(clockForm) + " " + title
	case st.By == procedure.LeftToAir:
		return title + ", about " + route.Count(math.Round(float64(st.Minutes)/24/60), "day")
	case st.Watch == procedure.Overnight:
		return title
	}
	return title + ", " + lasts(st.Minutes)
}

// bursts says behind the last of the steps that do not fit into their session by how much.
func bursts(t *desk.Timetable, i int) []doc.Node {
	slot := &t.Slots[i]
	if !slot.Overfull {
		return nil
	}
	first := i
	for k := i - 1; k >= 0 && t.Slots[k].Session == slot.Session; k-- {
		if t.Slots[k].Overfull {
			first = k
		}
	}
	for _, later := range t.Slots[i+1:] {
		if later.Overfull && later.Session == slot.Session {
			return nil
		}
	}
	name := "“" + t.Steps[t.Slots[first].Step].Title + "”"
	if first != i {
		name += " to “" + t.Steps[slot.Step].Title + "”"
	}
	says := ": what is there by then cannot stand so long."
	if slot.Late > 0 {
		says = ": over the end of the session by " + procedure.Hours(quantity.Minute(slot.Late.Minutes())) + "."
	}
	return doc.Nodes{doc.P("bursts", doc.Strong("Does not fit. "), doc.Text(name+says))}
}

// beyond says of the first session that is more than there are to be that it is.
func beyond(t *desk.Timetable, g *gathered, most int) []doc.Node {
	first := slices.IndexFunc(t.Slots, func(slot procedure.Slot) bool { return slot.Beyond })
	if first < g.from || first >= g.to {
		return nil
	}
	return doc.Nodes{doc.P("bursts", doc.Strong("Does not fit. "), doc.Text("There are to be "+route.Count(float64(most), "session")+", and this is one more."))}
}

// whenAway says within which days an adult does what the pupils do not.
func whenAway(slots []procedure.Slot) string {
	soon, just := false, false
	for i := range slots {
		soon, just = soon || slots[i].Soon, just || slots[i].Just
	}
	switch {
	case soon:
		return "Begun the same day or the day after: what the pupils leave stands no longer."
	case just:
		return "Ended not before the day before the next session: what it leaves stands no longer."
	}
	return ""
}

// standsOnShelf is what stands until the slot that begins the next part of the timetable.
func standsOnShelf(s *Source, t *desk.Timetable, next int) []doc.Node {
	var names []string
	for _, thing := range procedure.Shelf(s.Plan(), s.Sheet(), t.Steps, t.Slots, next) {
		names = append(names, phrase.Lower(thing.Name))
	}
	if names == nil {
		return nil
	}
	return doc.Nodes{doc.PText("why", "On the shelf: "+strings.Join(names, "; ")+".")}
}

// Fit is the action that makes the changes of an offer, its value the offer's text.
const Fit = "days.fit"

// offers are what would make the work fit its sessions, each at one touch.
func offers(s *Source, err error) doc.Node {
	if err == nil && s.Days().Apart() == 1 {
		return nil
	}
	work := s.Work(s.Begin)
	list := work.Offers()
	if list == nil {
		return nil
	}
	head := "What would fit"
	if _, few := errors.AsType[procedure.TooFew](err); few {
		head = "What would fit, or take less time"
	} else if err == nil {
		head = "What would take fewer sessions, or less of an adult’s time"
	}
	all := doc.List{Class: "offers"}
	for _, o := range list {
		all.Items = append(all.Items, doc.Nodes{
			doc.P("", doc.Strong(o.Text)), doc.PText("why", o.Cost), doc.PText("", o.Gives),
			doc.Button{Class: "do", Text: "Do this", Label: "Do this: " + o.Text, Action: Fit, Value: o.Text},
		})
	}
	box := doc.Div("offered", doc.Heading(head))
	box.Of = append(append(box.Of, paragraphs("lede", work.Least(list))...), all)
	return doc.ScreenOnly{box}
}

// FitOf is the offer that a button asks for.
func FitOf(s *Source, value string) (club.Offer, bool) {
	for _, o := range s.Work(s.Begin).Offers() {
		if o.Text == value {
			return o, true
		}
	}
	return club.Offer{}, false
}

// adultsTime says how much of an adult's time the work asks for between sessions.
func adultsTime(s *Source, steps []procedure.Step) string {
	c := s.Club()
	sum := club.StaffTime(c, steps)
	if sum == 0 {
		return ""
	}
	says := "Between sessions an adult works " + procedure.Hours(sum)
	if c.Turns() > 1 {
		says += ", with the gas or the stirring in for " + route.Count(c.Batches(), "group") + " in turn"
	}
	return says + "."
}

// flaskTurns says how often the one flask of a plan in batches is charged, and what it wants
// between two turns.
func flaskTurns(s *Source, t *desk.Timetable) string {
	turns, most, today, day := 0, 0, 0, 0
	for i := range t.Slots {
		slot := &t.Slots[i]
		if t.Steps[slot.Step].Key != GasStep || slot.By == procedure.ShownFirst {
			continue
		}
		if slot.Day != day {
			today, day = 0, slot.Day
		}
		turns, today = turns+1, today+1
		most = max(most, today)
	}
	if turns < 2 {
		return ""
	}
	between := "emptied outdoors, in small portions, into soda and water, and rinsed"
	if cools := coolOf(t.Steps); cools != "" {
		between = cools + "emptied, rinsed and dried before hot acid goes in again"
	}
	return "The gas is made in " + route.Count(float64(turns), "turn") + " with one flask, at most " + route.Print(float64(most), "") + " a day: between two of them it is " + between + ". These days count that time."
}

// coolOf says how long a flask of hot acid cools, in front of what is done with it then; "" where
// none does.
func coolOf(steps []procedure.Step) string {
	for i := range steps {
		if steps[i].Key == "cool" {
			return "left to cool for " + procedure.Hours(steps[i].Minutes) + ", "
		}
	}
	return ""
}

// ownFlasks says that groups with hot acid cannot take turns with one flask.
func ownFlasks(s *Source) string {
	cools := coolOf(s.Steps())
	if cools == "" || s.Club().Turns() <= 1 {
		return ""
	}
	return " Every turn has a flask of its own: one that held hot acid is " + cools + "emptied, rinsed and dried before it is charged again."
}

// daysOfOne says how much longer the gas takes where several groups take turns at it.
// Every plan has a club's usual number, so it says so only of a club that was set, or
// where sessions lie days apart.
func daysOfOne(s *Source, steps []procedure.Step) string {
	c := s.Club()
	turn := club.TurnTime(steps)
	for i := range steps {
		if steps[i].Onward && steps[i].By.Away() {
			return "" // these are an adult's hours, and told as such
		}
	}
	if c.Turns() <= 1 || turn <= 0 || (c == club.New() && s.Days().Apart() == 1) {
		return ""
	}
	all := quantity.Minute(c.Turns() * float64(turn))
	return answered(s.Desk, "days.groups", "groups", route.Print(c.Groups, ""), "club", ClubTitle, "turns", route.Count(c.Turns(), "turn"),
		"all", procedure.Hours(all), "one", procedure.Hours(turn), "more", procedure.Hours(all-turn)) + ownFlasks(s)
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
	case slot.Day == 0 && slot.By == procedure.Staff:
		return "Before the first session, by an adult"
	case slot.Day == 0:
		return "The evening before, " + date
	case apart > 1 && slot.Session > 0:
		return "Session " + route.Print(float64(slot.Session), "") + ", " + date
	case apart > 1:
		return "Between sessions, " + date
	}
	return "Day " + route.Print(float64(slot.Day), "") + ", " + date
}

func slotTitle(st *procedure.Step, slot *procedure.Slot) string {
	switch {
	case slot.By == procedure.ShownFirst:
		return st.Title + ", shown"
	case slot.Of > 1:
		return st.Title + ", part " + route.Print(float64(slot.Part), "") + " of " + route.Print(float64(slot.Of), "")
	}
	return st.Title
}

// slotRow is a step at its time; the first of its batches has the field of its minutes.
func slotRow(s *Source, st *procedure.Step, slot *procedure.Slot, first, adult bool) []doc.Node {
	title, watch, rule := slotTitle(st, slot), st.Watch.String(), ""
	switch {
	case procedure.ComeBack(st, *slot, s.Days().Apart()):
		watch, rule = "somebody comes back", comeBack(slot)
	case slot.Overfull:
		rule = "Does not fit into this session."
	case slot.By == procedure.ShownFirst:
		watch, rule = "the pupils watch", "On a small scale; the batch itself an adult makes between sessions."
	case slot.Over && st.Begin > 0:
		rule = "Stirred in, it stands until the next session: longer does no harm."
	case slot.Late > 0:
		rule = "The session runs over by " + route.Print(slot.Late.Minutes(), "min") + ": so little is not put off for days."
	case st.Key == "gas" && route.HotAcid(s.Plan()):
		rule = "Light the flame only if " + procedure.Hours(st.Room) + " remain, from the flame to the last test."
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
		if st.TimeSet {
			c.Line = "set"
		}
		minutes = checked(s, c)
	}
	if adult {
		at = "between sessions"
	}
	row := doc.Nodes{append(doc.Nodes{doc.Text(title)}, paragraphs("why", rule)...), doc.Text(at), minutes, doc.Text(watch)}
	if s.Days().Apart() > 1 {
		row = append(row, doneBy(s, st, first))
	}
	return row
}

// doneBy is the field of who does a step, where it can be somebody else: not of one that goes by
// itself, unless it was left to the air.
func doneBy(s *Source, st *procedure.Step, first bool) doc.Node {
	hands := s.Hands()
	f, ok := hands.Form().Find(procedure.HandPrefix + st.Key)
	if !ok || !first || st.Watch == procedure.Overnight && hands[st.Key] != procedure.LeftToAir {
		return doc.Text("")
	}
	c := doc.Control{Key: f.Key, Label: "Who does “" + st.Name + "”"}
	for i, o := range f.Options {
		if procedure.Hand(i) == procedure.LeftToAir && !procedure.Dries(s.Plan()) {
			continue
		}
		c.Options = append(c.Options, doc.Option{Word: o.Word, Name: o.Name, Chosen: procedure.Hand(i) == hands[st.Key]})
	}
	return c
}

// daysSay is the timetable in a sentence.
func daysSay(s *Source, start time.Time, slots []procedure.Slot) string {
	end, days, sessions := start, 0, 0
	for _, slot := range slots {
		if days == 0 && slot.Day > 0 {
			start = slot.Start // the sessions may begin later than the day
		}
		if slot.End.After(end) {
			end = slot.End
		}
		days, sessions = max(days, slot.Day), max(sessions, slot.Session)
	}
	count := route.Print(float64(days), "") + " days"
	if days == 1 {
		count = "a day"
	}
	if s.Days().Apart() > 1 {
		count = route.Count(float64(sessions), "session") + " over " + count
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

// blameSession puts what does not fit at the field of the session, or of how many there are.
func blameSession(asked doc.Fields, err error, why string) {
	key := procedure.LongKey
	if _, few := errors.AsType[procedure.TooFew](err); few {
		key = procedure.MostKey
	}
	for i := range asked {
		if f := &asked[i]; f.Key == key && f.Problem == "" {
			f.Problem = why
		}
	}
}

// dayFields are the fields of the days, with what came of them on a timetable.
func dayFields(s *Source, t *desk.Timetable) (list doc.Fields) {
	all := s.Days()
	for _, f := range all.Form().Fields {
		made := asked(s, f)
		trouble := ""
		switch f.Key {
		case procedure.SecondKey:
			trouble = all.Trouble()
		case procedure.StartKey:
			if run := s.Started(); run != nil && run.Done > 0 {
				made.Name, made.Why = "Go on", "Day and time of the first step that is left. If nothing is set: next Saturday."
			}
			says, otherDay := all.Later(t.Steps, t.Slots)
			if otherDay {
				trouble = says
			} else if says != "" {
				made.Why = says
			}
		}
		if made.Problem == "" {
			made.Problem = trouble
		}
		list = append(list, made)
	}
	return list
}
