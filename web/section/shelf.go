package section

import (
	"strconv"

	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// PrintShelf is the action that prints the labels for the shelf, with no value.
const PrintShelf = "club.shelf"

// standingThings are all things that stand from one session to another, each once.
func standingThings(s *Source, t *desk.Timetable) (list []procedure.Thing) {
	seen := map[string]bool{}
	for _, g := range gather(t, s.Days().Apart()) {
		if g.from == 0 { // the evening before
			continue
		}
		for _, thing := range procedure.Shelf(s.Plan(), s.Sheet(), t.Steps, t.Slots, g.to) {
			if !seen[thing.Key] {
				seen[thing.Key] = true
				list = append(list, thing)
			}
		}
	}
	return list
}

// ShelfLabels are the labels of what stands between sessions, for paper: one for each batch.
func ShelfLabels(s *Source) []doc.Node {
	t, _ := s.Timetable(s.Begin) // what does not fit is laid out all the same
	grid := doc.Box{Class: "shelf-labels"}
	c := s.Club()
	for _, thing := range standingThings(s, &t) {
		for group := 1; group <= int(c.Batches()); group++ {
			whose := "Group " + strconv.Itoa(group) + " of " + strconv.Itoa(int(c.Groups))
			if c.Batch == club.SharedBatch || c.Groups == 1 {
				whose = "All groups"
			}
			label := doc.Div("shelf-label",
				doc.P("shelf-head", doc.Strong(thing.Name), doc.Span{Of: doc.Nodes{doc.Text(whose)}}),
				doc.P("shelf-harm", doc.Strong(thing.Harm)),
				doc.PText("", thing.Keep),
			)
			if thing.Amount != "" {
				label.Of = append(label.Of, doc.PText("", "About "+thing.Amount+"."))
			}
			label.Of = append(label.Of, doc.PText("", stands(&t, &thing)), doc.P("sheet-lines", doc.Write{Name: "Filled on", Width: 7}, doc.Write{Name: "by", Width: 10}))
			grid.Of = append(grid.Of, label)
		}
	}
	return doc.Nodes{grid}
}

// stands says from when to when a thing stands, and who goes on with it.
func stands(t *desk.Timetable, thing *procedure.Thing) string {
	const day = "Monday 2 January"
	from, until := &t.Slots[thing.Since], &t.Slots[thing.Until]
	says := "Stands from " + from.Start.Format(day)
	if until.By == procedure.Staff {
		return says + " until an adult goes on with it."
	}
	return says + " until session " + strconv.Itoa(until.Session) + ", " + until.Start.Format(day) + "."
}
