// Package section says what each part of the page says: a file a part, in it a function that
// makes the part's document from the desk, and a row in Parts.
package section

import (
	"slices"
	"strings"
	"time"

	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// OpenAll is the action that opens all sections, or with no value shuts them.
const OpenAll = "section.all"

// Edit is the action that writes into a field of the plan, its value "key=text".
const Edit = "edit"

// Source is what the parts of the page are made from.
type Source struct {
	*desk.Desk
	Kept   *Kept     // nil until it is first shown
	Labels *Labels   // nil: nothing typed, all to be printed
	Begin  time.Time // when the work begins if nobody says
}

// Step is when a part of the page is made.
type Step int

// The steps.
const (
	Rested Step = iota // once typing rests
	Surer              // and again while draws are still being made for it
)

// Part is a part of the page.
type Part struct {
	Title string
	Step  Step
	Told  bool // it stands in the plan text too
	Live  bool // the page draws a component of its own, and the text alone shows the document
	Make  func(*Source) doc.Section
}

// Parts are the parts of the page below the stages, in their order.
var Parts = [...]Part{
	{Title: ReadyTitle, Told: true, Make: ready},
	{Title: DaysTitle, Told: true, Make: days},
	{Title: ClubTitle, Told: true, Make: groups},
	{Title: WrongTitle, Make: wrong},
	{Title: WhereTitle, Make: where},
	{Title: BottlesTitle, Make: bottles},
	{Title: LabelsTitle, Make: labels},
	{Title: SureTitle, Step: Surer, Make: sure},
	{Title: WhatIfTitle, Step: Surer, Make: whatIf},
	{Title: WaysTitle, Make: ways},
	{Title: PurityTitle, Make: purity},
	{Title: AssaysTitle, Told: true, Make: assays},
	{Title: GasTitle, Told: true, Live: true, Make: gas},
	{Title: AfterTitle, Step: Surer, Told: true, Make: after},
	{Title: KeptTitle, Make: kept},
}

// Index is where the part with a title stands in Parts.
func Index(title string) int {
	return slices.IndexFunc(Parts[:], func(p Part) bool { return p.Title == title })
}

// IDs are the ids of all sections.
func IDs() (list []string) {
	for _, title := range titles() {
		list = append(list, ID(title))
	}
	return list
}

// Of makes the document of a part.
func (p *Part) Of(s *Source) doc.Section {
	made := p.Make(s)
	made.ID, made.Title = ID(p.Title), p.Title
	return made
}

// ID is the id of the part with a title: one word, since a list of ids is parted by spaces.
func ID(title string) string { return "stage." + strings.ReplaceAll(title, " ", "-") }
