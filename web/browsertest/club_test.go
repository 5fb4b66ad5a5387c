//go:build !js

package browsertest

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/scripts/page"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// pictures is the folder for pictures: the one asked for, or one that goes away.
func pictures(t *testing.T) string {
	if folder := os.Getenv("ROSESALT_PICTURES"); folder != "" {
		return folder
	}
	return t.TempDir()
}

// openClubSheet opens a plan and asks for the club sheet.
func openClubSheet(t *testing.T, fragment string) *page.Page {
	t.Helper()
	p := page.Load(t, page.File(t), fragment, `window.print = () => { window.asked = document.documentElement.classList.contains('sheeted') }`)
	ready(p)
	p.Wait(`!!document.getElementById('club.print')`)
	enter(p, "club.print")
	p.Wait(`window.asked !== undefined`)
	return p
}

func TestClubIsTypedAndComesBack(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	product := p.Value("product.mass")
	p.Type("club.groups", "6")
	p.Type("club.atonce", "3")
	p.Wait(`location.hash.includes('club.groups=6&club.atonce=3')`)
	section := `[id="stage.With-a-club"]`
	p.Wait(`document.querySelector('` + section + `').textContent.includes('36 cells to open in all')`)
	says := p.Text(section)
	assert.Contains(t, says, "2 turns")
	sheet := sheetOf("")
	assert.Contains(t, says, route.Print(3*sheet.Value(route.GasVolume), "L")+" of sulfur dioxide from 3 generators")
	assert.Contains(t, says, "Stop.")
	assert.Contains(t, says, "outdoors or in a working fume cupboard only")
	assert.Equal(t, product, p.Value("product.mass"), "the plan is one group's")

	p.Type("club.groups", "2")
	p.Wait(`!!document.getElementById('problem.club.atonce')`)
	assert.Contains(t, p.Text(`[id="problem.club.atonce"]`), "more than the number of groups, 2")
	p.Type("club.groups", "99")
	p.Wait(`!!document.getElementById('problem.club.groups')`)
	assert.Contains(t, p.Text(`[id="problem.club.groups"]`), "above the limit of 30")
	assert.Equal(t, "99", p.Typed("club.groups"))
	p.Type("club.groups", "5")
	p.Wait(`location.hash.includes('club.groups=5')`)
	again(p)
	settle(p)
	assert.Equal(t, "5", p.Typed("club.groups"))
	assert.Equal(t, "3", p.Typed("club.atonce"))
	c, troubles := link.Decode(p.Fragment())
	require.Empty(t, troubles)
	assert.Equal(t, club.Club{Groups: 5, AtOnce: 3}, c.Club)
}

func TestClubSheetHoldsWhatACodeAsksFor(t *testing.T) {
	p := openClubSheet(t, "v=2&club.groups=5")
	plan := route.NewPlan()
	var b route.Runner
	s := b.Run(&plan)
	text := p.Text(".club-sheet")
	has := func(part, of string) {
		assert.True(t, strings.Contains(text, part), "%s is not on the sheet: %s", part, of)
	}
	d := desk.New("v=2")
	d.StepBands(desk.Draws)
	for _, n := range (club.Club{Groups: 5, AtOnce: 1}).Reagents(d.Reagents()) {
		has(route.Print(n.Amount, n.Unit), n.Name)
		has(n.ToBuyText(), n.Name)
	}
	for _, st := range procedure.Steps(&plan, s, nil) {
		has(st.Title, st.Key)
	}
	for _, r := range club.Risks(&plan) {
		for _, m := range r.Measures {
			has(m.Lead, "a caution")
		}
	}
	for _, word := range append(club.ToFindOut(&plan), "The asthma question", "not a risk assessment", "Signature", "local code") {
		has(word, "what a code asks for")
	}
	var ticks, lines int
	p.Eval(`document.querySelectorAll('.club-sheet tbody .sheet-tick').length`, &ticks)
	assert.Equal(t, 5*len(route.Reagents(&plan, s)), ticks, "a box for each group and reagent")
	p.Eval(`document.querySelectorAll('.club-sheet .blank i').length`, &lines)
	assert.Equal(t, len(club.ToFindOut(&plan))+len(club.Unfinished()), lines)
	var shown bool
	p.Eval(`document.querySelector('.club-sheet').offsetParent !== null`, &shown)
	assert.False(t, shown, "no screen shows it")
	p.Eval(`dispatchEvent(new Event('afterprint'))`, nil)
	p.Wait(`!document.querySelector('.club-sheet')`)
}

// clubPages is the most that a club sheet may take: what is needed and who may do what,
// and the draft.
const clubPages = 6

func TestClubSheetFitsItsPages(t *testing.T) {
	page.Needs(t, page.PDF)
	folder := pictures(t)
	for name, fragment := range map[string]string{
		"demo":     "",
		"large":    "v=1&club.groups=30&club.atonce=12&wash.acid=50",
		"salt":     "v=1&gas.source=slurrysalt&club.groups=12",
		"alkaline": "v=1&gas.source=oxalic&cell.kind=alkaline",
		"school":   schoolWeeks + schoolHands,
	} {
		p := openClubSheet(t, fragment)
		for _, paper := range []string{"a4", "letter"} {
			file := filepath.Join(folder, "club-"+name+"-"+paper+".pdf")
			if paper == "letter" {
				p.Letter(file)
			} else {
				p.PDF(file)
			}
			n := pages(t, file)
			most := clubPages
			if name == "school" {
				most++ // the sessions
			}
			assert.LessOrEqual(t, n, most, file)
			assert.Greater(t, n, 2, file)
			p.Eval(`document.documentElement.classList.add('sheeted')`, nil) // a print takes it off
			p.Eval(`document.querySelector('.club-sheet') || document.getElementById('club.print').click()`, nil)
			p.Wait(`!!document.querySelector('.club-sheet')`)
		}
	}
}

// schoolWeeks are double lessons on Tuesdays, in which the plan does not fit.
const schoolWeeks = "v=1&days.start=2026-03-03T14:00&days.from=14:00&days.long=90&days.every=7&club.groups=8&club.pupils=24"

// schoolHands make it fit.
const schoolHands = "&by.wash=staff&by.line=staff&by.gas=shown&by.filter=staff&by.dissolve=staff&by.evaporate=air&club.batch=one"

func TestSchoolWeeksAtOneTouch(t *testing.T) {
	p := fresh(t, schoolWeeks)
	settle(p)
	const days = `[id="stage.The-days"]`
	p.Wait(`!!document.querySelector('` + days + ` .offers')`)
	assert.Contains(t, p.Text(`[id="problem.days.long"]`), "Make the slurry")
	assert.Contains(t, p.Text(days), "Does not fit.")
	p.Eval(`document.querySelector('`+days+` .offers button').focus()`, nil)
	p.Press("\r")
	p.Wait(`location.hash.includes('by.gas=shown')`)
	p.Wait(`!document.getElementById('problem.days.long')`)
	says := p.Text(days)
	assert.Contains(t, says, "the work takes 4 sessions")
	assert.Contains(t, says, "Between sessions 1 and 2, by an adult")
	assert.NotContains(t, says, "Does not fit.")
	assert.Equal(t, "one", p.Typed("club.batch"))
	var focus string
	p.Eval(`document.activeElement.id`, &focus)
	assert.Equal(t, "said", focus)
	p.Type("days.out", "10 March 2026")
	p.Wait(`location.hash.includes('days.out=2026-03-10')`)
	p.Wait(`document.querySelector('` + days + `').textContent.includes('Session 2, Tuesday 17 March')`)
	p.Eval(`[...document.querySelectorAll('.undo button')].find(b => b.textContent.startsWith('Undo')).click()`, nil)
	p.Wait(`!location.hash.includes('by.gas=shown')`)
}

func TestShelfLabelsArePrinted(t *testing.T) {
	folder := pictures(t)
	p := page.Load(t, page.File(t), schoolWeeks+strings.TrimSuffix(schoolHands, "&club.batch=one"), `window.print = () => { window.asked = document.documentElement.classList.contains('sheeted') }`)
	ready(p)
	p.Wait(`!!document.getElementById('club.shelf')`)
	enter(p, "club.shelf")
	p.Wait(`window.asked`)
	var names []string
	p.Eval(`[...document.querySelectorAll('.shelf-label .shelf-head')].map(h => h.textContent)`, &names)
	assert.Len(t, names, 8*8, "eight things, a label for each group")
	assert.Contains(t, names, "Acid slurryGroup 8 of 8")
	assert.Contains(t, p.Text(".shelf-label"), "Stands from")
	if p.Can(page.PDF) {
		file := filepath.Join(folder, "shelf.pdf")
		p.PDF(file)
		assert.LessOrEqual(t, pages(t, file), 8)
	}
}

func TestClubPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	for name, fragment := range map[string]string{"club": "v=1&club.groups=6&club.atonce=2&days.start=2026-03-07T14:00&days.from=14:00&days.long=300&days.every=7", "school": schoolWeeks, "lessons": schoolWeeks + schoolHands} {
		clubPictures(t, folder, name, fragment)
	}
}

func clubPictures(t *testing.T, folder, name, fragment string) {
	p := fresh(t, fragment)
	settle(p)
	for _, id := range []string{"stage.With-a-club", "stage.The-days"} {
		p.Eval(`document.querySelectorAll('[id="`+id+`"] details').forEach(d => d.open = true)`, nil)
	}
	p.Wait(`!!document.querySelector('[name="time.gas"]')`)
	p.Eval(`document.querySelectorAll('.place > section').forEach(s => { if (!['stage.With-a-club', 'stage.The-days'].includes(s.id)) s.style.display = 'none' })`, nil)
	for _, width := range []int{360, 768, 1280} {
		p.Screenshot(filepath.Join(folder, name+"-"+strconv.Itoa(width)+".png"), width, 0, width == 768)
		var over []string
		p.Eval(`(() => { const w = document.documentElement.clientWidth;
			return [...document.querySelectorAll('[id="stage.With-a-club"] *, [id="stage.The-days"] *')].filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > w + 1)
				.map(e => e.tagName + '.' + (e.getAttribute('class') || '') + ' ' + e.textContent.slice(0, 30)).slice(0, 5) })()`, &over)
		assert.Empty(t, over, "at %d px", width)
	}
}
