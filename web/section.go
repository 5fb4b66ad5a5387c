package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/bubbles"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// slow is what is drawn once typing pauses: pictures, lists, and what rests on
// the draws. It is not there at all before the figures stand for the first time.
type slow struct {
	drawn    bool
	visited  *[section.Places]bool
	pictures section.Pictures
	parts    [len(section.Parts)]doc.Section
	gas      bubbles.View
	found    map[string]string // what is found in sections that are shut, by their ids
}

// slowOf makes what is seen in the places that were visited.
func slowOf(source *section.Source, visited *[section.Places]bool) slow {
	s := slow{visited: visited, drawn: true, pictures: section.PicturesOf(source.Plan(), source.Sheet()), gas: bubbles.ViewOf(source.Desk)}
	s.found = map[string]string{}
	for _, stage := range section.Stages(source, &s.pictures, true, nil) {
		s.found[stage.ID] = stage.Words()
	}
	s.make(source, section.Rested)
	s.certain(source.Desk)
	return s
}

// certain makes the views anew that draws are still being made for after the bands stand.
func (s *slow) certain(d *desk.Desk) {
	s.make(sourceOf(d, nil), section.Surer)
}

// sourceOf is what the parts of the page are made from.
func sourceOf(d *desk.Desk, kept *section.Kept) *section.Source {
	return &section.Source{Desk: d, Kept: kept, Begin: firstDay(d)}
}

// settled is what paper and texts that go out are made from: they cannot wait for the draws of what to buy.
func (p *page) settled() *section.Source {
	p.desk.SettleBuying()
	return sourceOf(p.desk, nil)
}

// source is the same with what the page knows beside the desk.
func (p *page) source() *section.Source {
	s := sourceOf(p.desk, &p.kept.Kept)
	s.Labels = &p.labels
	return s
}

// make makes the parts of a moment anew.
func (s *slow) make(source *section.Source, moment section.Moment) {
	for i := range section.Parts {
		if p := &section.Parts[i]; p.Moment == moment && s.visited[p.Place] {
			s.remake(p.Title, source)
		}
	}
}

// makePlace makes the parts of a place that was not visited before.
func (s *slow) makePlace(place section.Place, source *section.Source) {
	for i := range section.Parts {
		if p := &section.Parts[i]; p.Place == place {
			s.remake(p.Title, source)
		}
	}
}

// remake makes one part anew, for a change that shall be seen at once.
func (s *slow) remake(title string, source *section.Source) {
	i := section.Index(title)
	s.parts[i] = section.Parts[i].Of(source)
	if s.found == nil {
		s.found = map[string]string{}
	}
	s.found[s.parts[i].ID] = s.parts[i].Words()
}

// stages are the stages of the page.
func (p *page) stages() (list []app.UI) {
	found := func(stage route.Stage) (string, bool) {
		id := section.StageID(stage)
		return p.late.found[id], !p.open.has(id)
	}
	for _, stage := range section.Stages(sourceOf(p.desk, nil), &p.late.pictures, p.late.drawn, found) {
		list = append(list, &doc.View{Section: stage})
	}
	return list
}

// parts are the parts of a place, in their lines until they are made: those before the stages,
// or the others.
func (p *page) parts(place section.Place, first bool) (list []app.UI) {
	for i := range section.Parts {
		part := &section.Parts[i]
		if part.Place != place || part.First != first {
			continue
		}
		made := p.late.parts[i]
		if made.ID == "" {
			made = doc.Section{ID: section.ID(part.Title), Title: part.Title, Sub: part.Sub}
		}
		shut := !p.open.has(made.ID) || !p.late.drawn
		switch {
		case part.Live: // of the gas alone
			list = append(list, &bubbles.Section{View: p.late.gas, Taps: &p.taps, Presses: p.taps.Presses(), Ear: &p.heard, Shut: shut, Found: p.late.found[made.ID]})
		case shut:
			list = append(list, &doc.View{Section: made.Closed(p.late.found[made.ID])})
		default:
			list = append(list, &doc.View{Section: made})
		}
	}
	return list
}
