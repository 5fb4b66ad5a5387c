package web

import (
	"bytes"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/runs"
	"rosesalt/web/section"
	"rosesalt/web/tabs"
)

func html(t *testing.T, ui app.UI) string {
	t.Helper()
	var b bytes.Buffer
	app.PrintHTML(&b, ui)
	return b.String()
}

func TestWhatIsTypedIsNeverMarkup(t *testing.T) {
	d := desk.New("v=1&" + "tea%3Cimg%3E=%3Cscript%3E")
	d.Edit("cell.count", `<script>alert(1)</script>`)
	in, _ := route.InputByKey("cell.count")
	out := html(t, doc.Draw(section.Field(d, in))[0]) + html(t, &doc.Aside{Class: "troubles", Of: section.Troubles(d.Troubles())})
	assert.NotContains(t, out, "<script>")
	assert.NotContains(t, out, "<img>")
	assert.Contains(t, out, "&lt;script&gt;")
}

func TestPlanTextCarriesItsLink(t *testing.T) {
	text := section.PlanText(sourceOf(desk.New("cell.count=9"), nil))
	assert.Contains(t, text, "#v=2&cell.count=9&end=")
	assert.Contains(t, text, "Manganese sulfate in the jar")
}

// TestAlkalineCellsHaveTheirOwnMarks: each row of the bag by its own kind.
func TestAlkalineCellsHaveTheirOwnMarks(t *testing.T) {
	names := func(fragment, key string) (list []string) {
		in, _ := route.InputByKey(key)
		for _, o := range section.Field(desk.New(fragment), in).Options {
			list = append(list, o.Name)
		}
		return list
	}
	assert.Contains(t, names("cell.kind=alkaline", "cell.size"), "LR14 (C)")
	assert.Contains(t, names("cell.kind=alkaline", "cell.2.size"), "R14 (C)")
	assert.NotContains(t, names("", "cell.size"), "LR14 (C)")
	assert.Contains(t, section.PlanText(sourceOf(desk.New("cell.kind=alkaline&cell.size=3R12"), nil)), "3LR12 (4.5 V pocket lamp)")
}

func TestRunsNameTurnsNoSentence(t *testing.T) {
	assert.Equal(t, "“lamp� bag�”", section.RunTitle(&runs.State{Name: "lamp\u202e bag\n"}))
}

// TestEveryPartIsDrawnOnce: as a document, or by a component of its own.
func TestEveryPartIsDrawnOnce(t *testing.T) {
	d := desk.New("")
	p := &page{desk: d, late: slowOf(sourceOf(d, nil), &[section.Places]bool{})}
	assert.Len(t, p.stages(), route.Stages)
	drawn := map[string]bool{}
	for place := range section.Place(section.Places) {
		var all string
		list := append(p.parts(place, true), p.parts(place, false)...)
		for _, ui := range list {
			all += html(t, ui)
		}
		for i := range section.Parts {
			part := &section.Parts[i]
			there := strings.Contains(all, `id="`+section.ID(part.Title)+`.title"`)
			assert.Equal(t, part.Place == place, there, part.Title)
			drawn[part.Title] = drawn[part.Title] || there
		}
	}
	assert.Len(t, drawn, len(section.Parts))
}

// TestTheBenchOffersTheUndoOfTheStartAlone: once another change can be undone, the button that
// stands beside the start of the run would take back that.
func TestTheBenchOffersTheUndoOfTheStartAlone(t *testing.T) {
	p := &page{}
	p.bench.Began = "divide"
	p.took(&tabs.State{}, "Use the gas counted")
	assert.Empty(t, p.bench.Began)
}
