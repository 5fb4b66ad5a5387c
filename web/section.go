package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/bubbles"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/listen"
	"rosesalt/web/section"
)

// slow is what is drawn once typing pauses: pictures, lists, and what rests on
// the draws. It is not there at all before the figures stand for the first time.
type slow struct {
	drawn    bool
	pictures section.Pictures
	parts    [len(section.Parts)]doc.Section
	gas      bubbles.View
}

func slowOf(source *section.Source) slow {
	s := slow{drawn: true, pictures: section.PicturesOf(source.Plan(), source.Sheet()), gas: bubbles.Of(source.Desk)}
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

// source is the same with what the page knows beside the desk.
func (p *page) source() *section.Source {
	s := sourceOf(p.desk, &p.kept.Kept)
	s.Labels = &p.labels
	return s
}

// make makes the parts of a step anew.
func (s *slow) make(source *section.Source, step section.Step) {
	for i := range section.Parts {
		if p := &section.Parts[i]; !p.Live && p.Step == step {
			s.parts[i] = p.Of(source)
		}
	}
}

// remake makes one part anew, for a change that shall be seen at once.
func (s *slow) remake(title string, source *section.Source) {
	i := section.Index(title)
	s.parts[i] = section.Parts[i].Of(source)
}

// sectionsOf cuts the desk into the sections of the page.
func sectionsOf(d *desk.Desk, late *slow, taps *listen.Taps, heard *bubbles.Ear) []app.UI {
	var list []app.UI
	for _, stage := range section.Stages(sourceOf(d, nil), &late.pictures, late.drawn) {
		list = append(list, &doc.View{Section: stage})
	}
	if !late.drawn {
		return list
	}
	for i := range section.Parts {
		if section.Parts[i].Live { // of the gas alone
			list = append(list, &bubbles.Section{View: late.gas, Taps: taps, Presses: taps.Presses(), Ear: heard})
		} else {
			list = append(list, &doc.View{Section: late.parts[i]})
		}
	}
	return list
}
