//go:build !js

package browsertest

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/scripts/page"
)

// shut tells that a stage is a line and a text to be found, and nothing else.
func shut(p *page.Page, stage string) (is bool) {
	p.Eval(`(() => {
		const e = document.getElementById("stage.`+stage+`"), inside = document.getElementById("stage.`+stage+`.inside");
		return e.querySelector("h2 button").ariaExpanded === "false" && inside.getAttribute("hidden") === "until-found" && inside.children.length === 0 && inside.childNodes.length === 1;
	})()`, &is)
	return is
}

// TestStagesAreLinesUntilPressed by pointer, anywhere on the line, and by key; many may be open.
func TestStagesAreLinesUntilPressed(t *testing.T) {
	p := closed(t, "")
	settle(p)
	var fields, figures int
	p.Eval(`document.querySelectorAll("main [name]").length`, &fields)
	p.Eval(`document.querySelectorAll("main data[id]").length`, &figures)
	assert.Zero(t, fields)
	assert.Zero(t, figures)
	for _, stage := range []string{"Cells", "Gas", "Purity", "How-sure"} {
		assert.True(t, shut(p, stage), stage)
	}
	assert.Contains(t, p.Text(`[id="stage.Gas"] .line`), "on "+route.Print(sheetOf("").Value(route.GasCopperUsed), "g")+" of copper")
	assert.Contains(t, p.Text(`[id="stage.Gas"] .marks`), "hot acid")
	p.Click(`[id="stage.Gas"] .line`)
	p.Click(`[id="stage.Dry.title"]`)
	assert.False(t, shut(p, "Gas"))
	assert.False(t, shut(p, "Dry"))
	assert.Equal(t, "90", p.Typed("gas.minutes"), "fields are filled")
	p.Eval(`document.getElementById("stage.Gas.title").focus()`, nil)
	p.Press(page.Enter)
	assert.True(t, shut(p, "Gas"))
	var focus string
	p.Eval(`document.activeElement.id`, &focus)
	assert.Equal(t, "stage.Gas.title", focus)
	p.Type("dry.temperature", "150")
	assert.Contains(t, p.Text(`[id="stage.Dry"] .line`), "150\u202f°C", "the line follows")
	assert.False(t, shut(p, "Dry"), "what is open stays open")
}

// TestWhatIsShutIsFound by the browser's own search, which tells the element that it found.
func TestWhatIsShutIsFound(t *testing.T) {
	p := closed(t, "v=1") // which boils chloride down
	settle(p)
	for _, c := range []struct{ stage, words string }{
		{"Gas", "Strength of the sulfuric acid as bought"}, // a field
		{"Gas", "Seldom changed"},
		{"Dry", "The dish evaporates"}, // a field with its reason
		{"Dry", "hydrogen chloride"},   // a notice
		{"Cells", "leave it shut and take it to collection"},
		{"Assays", "burette"},
		{"Other-ways", "hydrogen peroxide and dilute acid"},
	} {
		var found bool
		p.Eval(fmt.Sprintf(`document.getElementById("stage.%s.inside").textContent.includes(%q)`, c.stage, c.words), &found)
		assert.True(t, found, "%s: %s", c.stage, c.words)
	}
	p.Eval(`window.inside = document.getElementById("stage.Gas.inside"), inside.dispatchEvent(new Event("beforematch", { bubbles: true }))`, nil)
	var filled bool
	p.Eval(`document.getElementById("stage.Gas.inside") === window.inside && inside.children.length > 1 && !inside.hasAttribute("hidden")`, &filled)
	assert.True(t, filled, "filled at once, and the same element")
	assert.False(t, shut(p, "Gas"))
	assert.True(t, shut(p, "Dry"))
}

// TestWhatIsShutIsPrinted by the browser's own print and by the page's, and shut again after.
func TestWhatIsShutIsPrinted(t *testing.T) {
	p := page.Load(t, page.File(t), "", `window.print = () => { window.printed = document.querySelectorAll("data[id]").length }`)
	p.Ready()
	settle(p)
	p.Click(`[id="stage.Gas.title"]`)
	var there int
	p.Eval(`dispatchEvent(new Event("beforeprint")), document.querySelectorAll("data[id]").length`, &there)
	assert.Greater(t, there, 160, "within the event")
	p.Eval(`void dispatchEvent(new Event("afterprint"))`, nil)
	p.Wait(`document.querySelectorAll("main section:not(.shut)").length === 1`)
	pressTool(p, "Print the plan")
	p.Wait(`window.printed > 160`)
	p.Eval(`void dispatchEvent(new Event("afterprint"))`, nil)
	p.Wait(`document.querySelectorAll("main section:not(.shut)").length === 1`)
	assert.False(t, shut(p, "Gas"))
}

// TestFaultsOpenTheirStage, wherever they come from, and it stays open when they are mended.
func TestFaultsOpenTheirStage(t *testing.T) {
	p := closed(t, "")
	assert.True(t, shut(p, "Cells"))
	p.Eval(`document.querySelector(".count").focus(), document.querySelector(".count").select()`, nil)
	p.Press("x")
	assert.False(t, shut(p, "Cells"))
	assert.Contains(t, p.Text(`[id="problem.cell.count"]`), "x")
	assert.Contains(t, p.Text(`[id="stage.Cells"] .marks`), "fields to mend")
	p.Type("cell.count", "7")
	assert.False(t, shut(p, "Cells"))
	assert.True(t, shut(p, "Gas"))
}

// TestWhatIsOpenOutlivesAReload of the tab.
func TestWhatIsOpenOutlivesAReload(t *testing.T) {
	p := page.Open(t, page.Serve(t, page.File(t)), "")
	settle(p)
	p.Click(`[id="stage.Filter.title"]`)
	p.Click(`[id="stage.Purity.title"]`)
	p.Reload()
	settle(p)
	assert.False(t, shut(p, "Filter"))
	assert.False(t, shut(p, "Purity"))
	assert.True(t, shut(p, "Gas"))
	openAll(p)
	p.Click(`[data-do="section.all"][data-value=""]`)
	p.Wait(`!document.querySelector("[id='place.plan'] section:not(.shut)")`)
	var kept string
	p.Eval(`sessionStorage.getItem("rosesalt.open")`, &kept)
	require.NotContains(t, kept, "Filter")
	require.Contains(t, kept, "Buy-and-put-out", "those of another place are left")
}

// TestLinesLeadOnByKeys: arrows, the first and the last, and Escape out of what is open.
func TestLinesLeadOnByKeys(t *testing.T) {
	p := closed(t, "")
	settle(p)
	at := func() (id string) {
		p.Eval(`document.activeElement.id || document.activeElement.textContent`, &id)
		return id
	}
	p.Press(page.Escape)
	assert.Equal(t, "stage.What-I-have-on-the-shelf.title", at())
	p.Press(page.ArrowDown)
	assert.Equal(t, "stage.Cells.title", at())
	p.Press(page.ArrowDown)
	p.Press(page.ArrowDown)
	assert.Equal(t, "stage.Batch.title", at())
	p.Press(page.Enter)
	p.Eval(`document.getElementsByName("batch.share")[0].focus()`, nil)
	p.Press(page.Escape)
	assert.Equal(t, "stage.Batch.title", at())
	p.Press(page.ArrowUp)
	assert.Equal(t, "stage.Wash.title", at())
	p.Press(page.Escape)
	var head bool
	p.Eval(`!!document.activeElement.closest("header")`, &head)
	assert.True(t, head)
}
