// Package section makes the documents of the parts of the page: for each part a file, with a
// function that makes its document from the desk, and a row in Parts.
//
// A document is plain data (package doc): it is drawn as elements, printed, and written as
// plain text, each by one renderer, so a part is written once. It knows no elements and no
// events. A button in it names an action of this package and a value, both text, which the
// page hears and carries out on the desk; then the part is made anew.
//
//	bottles := section.Parts[section.Index(section.BottlesTitle)]
//	text := bottles.Of(&section.Source{Desk: desk.New("cell.count=8")}).Plain()
package section

import (
	"slices"
	"strings"
	"time"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// OpenAll is the action that opens all sections of the place that is shown, or with no value
// shuts them.
const OpenAll = "section.all"

// GoTo is the action that shows a place, its value the word of the place.
const GoTo = "place"

// Place is one of the places of the page, in the order of the work.
type Place int

// The places.
const (
	Plan Place = iota
	MakeReady
	Bench
	Afterwards
	// Places is how many there are.
	Places = iota
)

var places = [Places]struct{ word, name, about string }{
	{"plan", "Plan", ""},
	{"ready", "Make ready", "What to buy and put out, when to do what, who does it, what to do if it goes wrong, and what goes onto jars and bottles."},
	{"bench", "At the bench", ""},
	{"after", "Afterwards", "What you weighed, where it all went, what the next run learns from it, and the runs that are kept."},
}

// Word is the place in a word.
func (p Place) Word() string { return places[p].word }

// Name is the place as the head of the page names it.
func (p Place) Name() string { return places[p].name }

// About says in a sentence what the place is for.
func (p Place) About() string { return places[p].about }

// PlaceOf is the place of a word, the first for one that is not known.
func PlaceOf(word string) Place {
	for i := range places {
		if places[i].word == word {
			return Place(i)
		}
	}
	return Plan
}

// The actions on a field of the plan: Edit writes into it, its value "key=text"; Add changes
// its number by so much, its value "key=by", so that presses add up however quick they are.
const (
	Edit = "edit"
	Add  = "edit.add"
)

// Source is what the parts of the page are made from.
type Source struct {
	*desk.Desk
	Kept   *Kept     // nil until it is first shown
	Labels *Labels   // nil: nothing typed, all to be printed
	Begin  time.Time // when the work begins if nobody says
}

// Moment is when a part of the page is made.
type Moment int

// The moments.
const (
	Rested Moment = iota // once typing rests
	Surer                // and again while draws are still being made for it
)

// Part is a part of the page.
type Part struct {
	Title  string
	Sub    string // what it is about, in a line
	Place  Place
	Moment Moment
	Told   bool // it stands in the plan text too
	First  bool // before the stages
	Live   bool // the page draws a component of its own, and the text alone shows the document
	Make   func(*Source) doc.Section
}

// Parts are the parts of the page beside the stages, in their order at each place.
var Parts = [...]Part{
	{Title: ShelfTitle, Sub: "what it is enough for, and what may be bought here", First: true, Make: shelf},
	{Title: SureTitle, Sub: "and what to weigh next", Moment: Surer, Make: sure},
	{Title: WhatIfTitle, Sub: "more cells, a wanted jar, two plans side by side", Moment: Surer, Make: whatIf},
	{Title: WaysTitle, Sub: "the same salt by another reductant", Make: ways},
	{Title: PurityTitle, Sub: "what comes with the salt, and what takes it out", Moment: Surer, Make: purity},
	{Title: WhereTitle, Sub: "every mole, when the work is done", Make: where},
	{Title: ReadyTitle, Sub: "every reagent, vessel and tool, and which kind to ask for", Place: MakeReady, Told: true, Make: ready},
	{Title: DaysTitle, Sub: "what is done on which day, and what may stand meanwhile", Place: MakeReady, Told: true, Make: days},
	{Title: ClubTitle, Sub: "several groups, one plan each", Place: MakeReady, Told: true, Make: groups},
	{Title: WrongTitle, Sub: "read it before, hang it up beside the bench", Place: MakeReady, Make: wrong},
	{Title: LabelsTitle, Sub: "what each jar holds and its hazards, to cut out", Place: MakeReady, Make: labels},
	{Title: BottlesTitle, Sub: "each stream on its own, with what is in it", Place: MakeReady, Make: bottles},
	{Title: AssaysTitle, Sub: "what the mix and the jar really hold", Told: true, Make: assays},
	{Title: GasTitle, Sub: "tapped, or heard in a recording", Place: Bench, Told: true, Live: true, Make: gas},
	{Title: AfterTitle, Sub: "what you weighed, and where it all went", Place: Afterwards, Moment: Surer, Told: true, Make: after},
	{Title: KeptTitle, Sub: "in this browser, side by side, and what they tell together", Place: Afterwards, Make: kept},
}

// Index is where the part with a title stands in Parts.
func Index(title string) int {
	return slices.IndexFunc(Parts[:], func(p Part) bool { return p.Title == title })
}

// IDs are the ids of the sections of a place, in their order there.
func IDs(place Place) (list []string) {
	parts := func(first bool) {
		for i := range Parts {
			if p := &Parts[i]; p.Place == place && p.First == first {
				list = append(list, ID(p.Title))
			}
		}
	}
	parts(true)
	if place == Plan {
		for stage := range route.Stage(route.Stages) {
			list = append(list, StageID(stage))
		}
	}
	parts(false)
	return list
}

// PlaceAt is the place of the section with an id.
func PlaceAt(id string) Place {
	for i := range Parts {
		if ID(Parts[i].Title) == id {
			return Parts[i].Place
		}
	}
	return Plan
}

// Of makes the document of a part.
func (p *Part) Of(s *Source) doc.Section {
	made := p.Make(s)
	made.ID, made.Title, made.Sub = ID(p.Title), p.Title, p.Sub
	return withTerms(made)
}

// ID is the id of the part with a title: one word, since a list of ids is parted by spaces.
func ID(title string) string { return "stage." + strings.ReplaceAll(title, " ", "-") }
