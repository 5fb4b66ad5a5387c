//go:build !js

package web

import (
	"cmp"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/route"
	pages "rosesalt/scripts/page" // page is the root here
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
	"rosesalt/web/section"
)

func TestMain(m *testing.M) { os.Exit(pages.Run(m)) }

// printed is a figure as it stands on the page.
type printed struct {
	Value     string // in full
	Text      string // with its unit, or why there is none
	Low, High string // of the interval, in full
	Range     string // as read
}

// printedOf is how a figure is to stand there.
func printedOf(v doc.Figure) printed {
	text := v.Number
	switch {
	case v.Why != "":
		text = "–" + v.Why
	case v.Unit != "":
		text += "\u202f" + v.Unit
	}
	return printed{v.Value, text, v.Low, v.High, v.Range}
}

// stood is a desk on which all has been worked out, natively.
func stood(fragment string, edits [][2]string) *desk.Desk {
	d := desk.New(fragment)
	for _, e := range edits {
		d.Edit(e[0], e[1])
	}
	for !d.StepBands(512) {
	}
	for !d.StepRest(512) {
	}
	return d
}

// TestAnyBrowserFiguresAsNatively: whatever the browser, opened from disk, each
// figure is to the last digit what the same program gives without one, its
// interval and the account of a run with it.
func TestAnyBrowserFiguresAsNatively(t *testing.T) {
	const weighed = "&found.product=30&found.copper=60&found.residue=14"
	p := pages.Open(t, pages.File(t), "")
	const stands = `!document.querySelector(".settling, .early, .drawing, .waiting") && document.getElementById("stage.How-sure")`
	p.Wait(stands)
	// The stages, and the account of the run, which is in another place; fields stand there too.
	p.Eval(`(async () => {
		for (const place of ["after", "plan"]) {
			document.getElementById("go." + place).click();
			while (document.getElementById("place." + place).hidden) await new Promise((done) => setTimeout(done, 30));
		}
		for (const shut of document.querySelectorAll("main section.shut .inside")) shut.dispatchEvent(new Event("beforematch", { bubbles: true }));
	})()`, nil)
	for _, c := range []struct {
		name, fragment string
		edits          [][2]string
	}{
		{name: "demo"},
		{name: "zinc chloride cells, metabisulfite", fragment: "v=1&gas.source=metabisulfite&cell.count=10&cell.size=R20&cell.kind=zincchloride"},
		{name: "crystals in an open vessel", fragment: "v=1&dry.way=crystals&slurry.vessel=open&batch.share=100"},
		{name: "metabisulfite in the slurry", fragment: "v=1&gas.source=slurrysalt&slurry.acid=100"},
		{name: "alkaline cells, peroxide", fragment: "v=1&gas.source=peroxide&peroxide.strength=6&cell.kind=alkaline"},
		{name: "oxalic acid", fragment: "v=1&gas.source=oxalic&oxalic.charge=15"},
		{name: "intervals of one's own", fragment: "v=1&cell.count=10&cell.size=R20&mix.wet=480&gas.uptake~=60,90&rinse.times=3"},
		{name: "numbers as people write them", edits: [][2]string{
			{"cell.count", "1 000"}, {"wash.soak", "0,5 L"}, {"batch.share", "12,5"}, {"gas.strength", "95.5"}, {"mix.wet", "24,15kg"},
		}},
		{name: "a weighed run", fragment: "v=1&cell.count=9" + weighed},
		{name: "a weighed run with peroxide", fragment: "v=1&gas.source=peroxide&cell.count=9&found.product=30&found.residue=14"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := stood(c.fragment, c.edits)
			want := map[string]printed{}
			for i, f := range route.Figures() {
				want[f.Key] = printedOf(section.Figure(d, route.FigureID(i), false, false))
			}
			after, begun := part(d, section.AfterTitle), d.Account() != nil
			for _, list := range doctest.Find[doc.Figures](after.Of...) {
				for _, f := range list {
					want[f.Key] = printedOf(f)
				}
			}

			p.Address("v=2&cell.count=7") // nothing that was typed before stays
			p.Address(cmp.Or(c.fragment, "v=2"))
			for _, e := range c.edits {
				p.Eval(fmt.Sprintf(`document.getElementsByName(%q)[0].closest("details")?.setAttribute("open", "")`, e[0]), nil)
				p.Type(e[0], e[1])
				assert.Equal(t, e[1], p.Typed(e[0]), "what was typed stays")
				require.Empty(t, d.Problem(e[0]))
			}
			p.Wait(stands)
			if begun {
				p.Wait(`!!document.querySelector(".verdict")`)
				require.Greater(t, len(want), len(route.Figures())+len(account.Figures())/2, "the account has figures")
			}
			p.Wait(fmt.Sprintf(`document.querySelectorAll("data[id]").length === %d`, len(want)))
			var got map[string]printed
			p.Eval(`Object.fromEntries([...document.querySelectorAll("data[id]")].map((d) => [d.id, {
				Value: d.value, Text: d.textContent, Low: d.dataset.low ?? "", High: d.dataset.high ?? "",
				Range: d.closest("dd").querySelector(".range")?.textContent ?? "",
			}]))`, &got)
			for key, w := range want {
				assert.Equal(t, w, got[key], key)
			}
			banded := 0
			for _, w := range want {
				if w.Range != "" {
					banded++
				}
			}
			assert.Greater(t, banded, 20, "intervals stand there")
			if begun {
				var said string
				p.Eval(`document.getElementById("stage.After-the-run").textContent`, &said)
				for _, list := range doctest.Find[doc.List](after.Of...) {
					for _, item := range list.Items {
						assert.Contains(t, said, doctest.Text(item))
					}
				}
				assert.Contains(t, said, d.Account().Verdict().Sentence)
			}
		})
	}
}
