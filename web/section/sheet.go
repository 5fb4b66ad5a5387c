package section

import (
	"strconv"

	"rosesalt/chem/gaslog"
	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
)

// mostFields is how many fields to a side a code on the sheet may have: on 32 mm each is
// then 0.4 mm wide, about the least that a telephone reads off paper (estimate).
const mostFields = 80

// BenchSheet is what a plan says to a person without a screen. The address is that of the page,
// or empty for a file opened from disk, whose address means nothing elsewhere.
func BenchSheet(s *Source, address string) []doc.Node {
	days, err := s.Timetable(s.Begin)
	if err != nil {
		days.Slots = nil
	}
	link := address + "#" + s.Fragment()
	steps := doc.Box{Class: "sheet-steps"}
	for i := range days.Steps {
		steps.Of = append(steps.Of, paperStep(s, &days, i))
	}
	whole := "This plan: "
	if address == "" {
		whole = "This plan, to be pasted into “" + PasteLabel + "” on the page: "
	}
	steps.Of = append(steps.Of, doc.Div("sheet-step sheet-end",
		doc.P("sheet-lines", doc.Write{Name: "Begun", Width: 10}, doc.Write{Name: "Ended", Width: 10}, doc.Write{Name: "Signed", Width: 14}, doc.Write{Name: "Seen by", Width: 10}),
		doc.P("sheet-link", doc.Text(whole), doc.Code(link)),
	))
	return doc.Nodes{
		doc.Div("sheet-head",
			doc.Box{Of: doc.Nodes{
				h1("Bench sheet"),
				doc.PText("sheet-plan", Words(s.Desk, false)+pureOnPaper(s)),
				doc.P("sheet-lines", doc.Write{Name: "Date", Width: 7}, doc.Write{Name: "At the bench", Width: 12}, doc.Write{Name: "Second person", Width: 12}, doc.Write{Name: "Run", Width: 4}),
				doc.P("", doc.Strong(safety.MainCaution(s.Plan())+". "), doc.Text(safety.Deference())),
			}},
			code(link, address != ""),
		),
		doc.Apparatus{Apparatus: picture.Apparatus(s.Plan(), s.Sheet())},
		doc.Div("sheet-needs", paperReagents(s), paperVessels(s)),
		steps,
		doc.Div("sheet-card",
			h2(WrongTitle),
			doc.P("sheet-lines", doc.Write{Name: "Emergency number", Width: 10}, doc.Write{Name: "Nearest running water", Width: 12}, doc.Write{Name: "Who has a car", Width: 10}),
			mishaps(s.Plan(), s.Sheet()),
		),
	}
}

// code is the link to be scanned.
func code(link string, served bool) doc.Node {
	code, _ := chart.NewCode(link, mostFields)
	says := "The plan's link"
	switch {
	case code.Side == 0:
		return doc.PText("sheet-code", "The link is too long for a code that can be read off paper.")
	case !served:
		says = "The plan: scan it, paste it into “" + PasteLabel + "”"
	}
	return doc.Div("sheet-code", doc.QR{Code: code, Says: says}, doc.PText("", says))
}

func paperReagents(s *Source) doc.Node {
	list := doc.P("", doc.Strong("Reagents, what the plan takes. "))
	for _, r := range s.Reagents() {
		list.Of = append(list.Of, paperNeed(route.Print(r.Amount, r.Unit), r.Name))
	}
	return list
}

// paperVessels are the plan's own, or in the sizes in which they are sold: the sheet has no
// room for what is just enough as well, but where a vessel is too small.
func paperVessels(s *Source) doc.Node {
	list := doc.P("", doc.Strong("Vessels, the plan’s or the next size sold. "))
	for _, v := range s.Vessels() {
		name := v.Name + Each(&v)
		if v.TooSmall() {
			name = v.Name + ", " + Beside(&v)
		}
		list.Of = append(list.Of, paperNeed(v.SizeText(), name))
	}
	return list
}

func paperNeed(amount, name string) doc.Node {
	return doc.Span{Of: doc.Nodes{doc.Write{}, doc.Strong(amount + " "), doc.Text(phrase.Lower(name))}}
}

// lasts is how long something takes, as read: in minutes while these are few.
func lasts(minutes quantity.Minute) string {
	if minutes >= 100 {
		return procedure.Hours(minutes)
	}
	return route.Print(float64(minutes), "min")
}

// stepTime is how long a step takes, and where days were asked for, when it begins.
func stepTime(s *Source, days *desk.Timetable, step int) string {
	text := lasts(days.Steps[step].Minutes)
	if by := days.Steps[step].By; by != procedure.InSession {
		return procedure.HandName(by) + ", " + text
	}
	if s.Text(procedure.StartKey) == "" && s.Text(procedure.FinishKey) == "" {
		return text
	}
	for _, slot := range days.Slots {
		if slot.Step == step {
			return slot.Start.Format("Mon 15:04") + ", " + text
		}
	}
	return text
}

func paperStep(s *Source, days *desk.Timetable, i int) doc.Node {
	st := days.Steps[i]
	head := doc.Div("sheet-top",
		doc.Title{Level: 2, Of: doc.Nodes{doc.Write{}, doc.Text(strconv.Itoa(i+1) + ". " + st.Title + " "), doc.Small{Text: stepTime(s, days, i) + ", " + st.Watch.String()}}},
	)
	if st.Stop != "" {
		head.Of = append(head.Of, doc.P("sheet-stop", doc.Sign{}, doc.Strong("Stop. "), doc.Text(st.Stop)))
	}
	if st.Full != "" {
		head.Of = append(head.Of, doc.P("sheet-stop", doc.Sign{}, doc.Strong(TooSmallWord+". "), doc.Text(st.Full)))
	}
	if text := amounts(st.Take); text != "" {
		head.Of = append(head.Of, doc.P("sheet-take", doc.Strong(text)))
	}
	box := doc.Div("sheet-step", head)
	if i > 0 && days.Steps[i-1].Onward {
		box.Class += " sheet-whole" // once the flask is charged nobody turns the page within a step
	}
	add := func(class string, of ...doc.Node) { box.Of = append(box.Of, doc.P(class, of...)) }
	if text := amounts(st.OfOne); text != "" {
		add("sheet-take", doc.Text("One of "+strconv.Itoa(st.Equal)+" equal batches: "), doc.Strong(text))
	}
	if st.Batch > 1 {
		st.Do, st.See, st.Misled, st.End = []string{"As in batch 1."}, "", "", ""
	}
	text := ""
	for _, do := range st.Do {
		text += do + " "
	}
	add("", doc.Text(text))
	for _, more := range [][2]string{{"See: ", st.See}, {"Misleads: ", st.Misled}, {"Over when: ", st.End}} {
		if more[1] != "" {
			add("", doc.Strong(more[0]), doc.Text(more[1]))
		}
	}
	for _, m := range st.Measure {
		blank := doc.Blank{Name: m.Name, Unit: m.Unit}
		if quantity.Given(m.Expect) {
			blank.Expect = " about " + route.Print(m.Expect, m.Unit)
		}
		box.Of = append(box.Of, blank)
	}
	if st.Key == GasStep {
		box.Of = append(box.Of, paperLog(int(float64(s.Plan().GasMinutes)/route.BatchCount(s.Plan())), procedure.TooFastToCount(s.Sheet())))
	}
	return box
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

// logColumns is how many moments of the log of the gas there is room for on paper.
const logColumns = 9

// paperLog is the log of the gas with nothing in it: a column every five minutes, or where
// that would be too many every ten, fifteen and so on. Bubbles that are too many for an eye
// are filmed.
func paperLog(minutes int, filmed bool) doc.Node {
	if minutes < gaslog.Each {
		return nil
	}
	each := gaslog.Each * max(1, (minutes+gaslog.Each*logColumns-1)/(gaslog.Each*logColumns))
	bubbles := "Bubbles/min"
	if filmed {
		bubbles = "Bubbles/10 s"
	}
	rows := [][]string{{"Minute"}, {bubbles}, {"Slurry, °C"}, {"Paper"}}
	for i := range logColumns {
		for row := range rows {
			cell := ""
			if row == 0 {
				cell = strconv.Itoa((i + 1) * each)
			}
			rows[row] = append(rows[row], cell)
		}
	}
	return doc.Table{Class: "sheet-log", Paper: true, Rows: doc.Rows(rows)}
}
