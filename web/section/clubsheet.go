package section

import (
	"strconv"
	"strings"

	"rosesalt/chem/club"
	"rosesalt/chem/safety"
	"rosesalt/web/doc"
)

// ClubSheet is the club sheet for paper.
func ClubSheet(s *Source) []doc.Node {
	whose, batches := "Each group: ", int(s.Club().Batches())
	heads, needs := []string{"Reagent", "One group takes", "To buy for all " + strconv.Itoa(batches), "Weighed out, a box a group"}, clubReagents(s)
	if s.Club().Batch == club.SharedBatch {
		whose, heads = "All groups together: ", []string{"Reagent", "The batch takes", "To buy", "Weighed out"}
	}
	return doc.Nodes{
		h1("Club sheet"),
		doc.PText("sheet-plan", whose+Words(s.Desk, false)),
		doc.P("sheet-lines", doc.Write{Name: "Date", Width: 7}, doc.Write{Name: "Place", Width: 10}, doc.Write{Name: "Person responsible", Width: 10}, doc.Write{Name: "Signed", Width: 10}),
		doc.P("", doc.Strong(safety.MainCaution(s.Plan())+". "), doc.Text(safety.Deference())),
		h2("Before anything is opened"),
		blanks("club-blanks", club.ToFindOut(s.Plan())),
		question(club.Question(s.Plan())),
		h2("Groups and gas"),
		doc.PText("", strings.Join(clubSays(s), " ")),
		clubGas(s),
		sessions(s),
		h2("To buy, and to weigh out"),
		paperTable(heads, withTicks(needs, batches)),
		h2("Waste of all, to collection"),
		paperTable([]string{"Bottle", "Holds", "To neutralise it"}, clubWaste(s)),
		doc.PText("", "Each in its own bottle, labelled and dated, caps loose overnight. Nothing down the drain."),
		doc.Div("club-part",
			h2("On the benches"),
			paperTable(clubVesselHeads, clubVessels(s)),
			h2("Who may do what"),
			doc.PText("", answered(s.Desk, "club.pupils")),
			paperTable([]string{"Step", "What can harm", "Who", "From what age, by which rule", "Done by"}, whoRows(s)),
		),
		doc.Div("club-risk",
			h1("For a risk assessment: a draft to be finished"),
			doc.P("", doc.Strong(club.DraftHeading())),
			paperTable([]string{"Stage, and what can harm", "Who could be harmed", "Measures that the page’s cautions name", "Done here, by whom"}, riskRows(s)),
			doc.PText("", "Hazard statements are those of the pure substance, the stricter where sources differ; the supplier’s sheet of what you really have comes first."),
			blanks("club-blanks club-open", club.Unfinished()),
			doc.P("sheet-lines", doc.Write{Name: "Finished and checked by", Width: 16}, doc.Write{Name: "Signature", Width: 16}, doc.Write{Name: "Date", Width: 7}, doc.Write{Name: "Look again on", Width: 7}),
		),
	}
}

// sessions are the days on which a club meets, and what an adult does between them; nothing
// where the days follow each other.
func sessions(s *Source) doc.Node {
	t, err := s.Timetable(s.Begin)
	if s.Days().Apart() == 1 || t.Slots == nil {
		return nil
	}
	list, _ := laidOut(s, &t)
	box := doc.Div("club-days", h2("The sessions"))
	if err != nil {
		box.Of = append(box.Of, doc.P("", doc.Strong("The work does not fit into these sessions; what does not fit is marked. "), doc.Text("Change the plan before this is given to anybody.")))
	} else {
		box.Of = append(box.Of, doc.PText("", daysSay(s, t.Start, t.Slots)+" "+adultsTime(s, t.Steps)))
	}
	var rows [][]doc.Node
	for _, day := range list {
		rows = append(rows, doc.Nodes{doc.Strong(day.Name), doc.Text(day.Says), day.More, doc.Write{}})
	}
	box.Of = append(box.Of, paperTable([]string{"When", "What is done", "What stands, and how", "Done"}, rows))
	return box
}

func h1(text string) doc.Node { return doc.Title{Level: 1, Of: doc.Nodes{doc.Text(text)}} }
func h2(text string) doc.Node { return doc.Title{Level: 2, Of: doc.Nodes{doc.Text(text)}} }

func paperTable(heads []string, rows [][]doc.Node) doc.Node {
	return doc.Table{Class: "paper", Paper: true, Heads: doc.Texts(heads), Rows: rows}
}

// blanks are lines to be filled in.
func blanks(class string, names []string) doc.Node {
	box := doc.Box{Class: class}
	for _, name := range names {
		box.Of = append(box.Of, doc.Blank{Name: name})
	}
	return box
}

// question is what is asked of everyone before there is gas.
func question(text string) doc.Node {
	if text == "" {
		return nil
	}
	return doc.Div("sheet-stop",
		doc.Sign{},
		doc.Strong("The asthma question, before gas is made. "), doc.Text(text),
		doc.P("sheet-lines", doc.Write{Name: "everyone has answered"}, doc.Write{Name: "Asked by", Width: 10}, doc.Write{Name: "At", Width: 4}),
	)
}

// mostTicks is how many boxes a row has room for.
const mostTicks = 12

// withTicks puts a box for each group behind each row, or a line for a count.
func withTicks(rows [][]doc.Node, groups int) [][]doc.Node {
	for i := range rows {
		boxes := doc.Nodes{doc.Write{Name: "groups done:", Width: 10}}
		if groups <= mostTicks {
			boxes = make(doc.Nodes, groups)
			for j := range boxes {
				boxes[j] = doc.Write{}
			}
		}
		rows[i] = append(rows[i], boxes)
	}
	return rows
}

func whoRows(s *Source) (rows [][]doc.Node) {
	line := doc.Write{Width: 10}
	for _, t := range club.Tasks(s.Plan(), s.Runner().Book(), s.Steps()) {
		rule := doc.Node(line)
		if t.Adult {
			rule = doc.Text("–")
		}
		rows = append(rows, append(doc.Texts([]string{t.Step, t.Why, whoMay(&t)}), rule, line))
	}
	return rows
}

func riskRows(s *Source) (rows [][]doc.Node) {
	for _, r := range club.Risks(s.Plan()) {
		var measures doc.Nodes
		for _, m := range r.Measures {
			measures = append(measures, doc.P("", doc.Strong(m.Lead+" "), doc.Text(m.Text)))
		}
		stage := append(doc.Nodes{doc.Strong(StageTitle(r.Stage))}, paragraphs("", r.Hazards...)...)
		rows = append(rows, doc.Nodes{stage, doc.Text(r.Harmed), measures, doc.Text("")})
	}
	return rows
}
