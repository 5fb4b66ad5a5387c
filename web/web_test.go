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
	"rosesalt/web/section"
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
	out := html(t, drawField(viewField(d, in))) + html(t, &troubles{List: d.Troubles()})
	assert.NotContains(t, out, "<script>")
	assert.NotContains(t, out, "<img>")
	assert.Contains(t, out, "&lt;script&gt;")
}

func TestKindsOfNumber(t *testing.T) {
	cases := map[string]struct{ fragment, key, tag string }{
		"estimate":     {"", "gas.uptake", "estimate"},
		"you set":      {"gas.uptake=60", "gas.uptake", "you set"},
		"worked out":   {"", "gas.acid", "worked out"},
		"given charge": {"gas.acid=20", "gas.acid", "you set"},
		"not weighed":  {"", "mix.wet", "not weighed"},
		"you weighed":  {"mix.wet=150", "mix.wet", "you weighed"},
		"free choice":  {"", "gas.minutes", ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			in, _ := route.InputByKey(c.key)
			assert.Equal(t, c.tag, viewField(desk.New(c.fragment), in).Tag)
		})
	}
}

func TestSentence(t *testing.T) {
	cases := map[string]struct{ fragment, says string }{
		"demo":          {"", "A quarter of it"},
		"all":           {"batch.share=100", "All of it"},
		"odd share":     {"batch.share=33", "33\u202f% of it"},
		"metabisulfite": {"gas.source=metabisulfite", "of metabisulfite, gives"},
		"peroxide":      {"gas.source=peroxide", "of hydrogen peroxide, 3 %, gives"},
		"mixed bag":     {"cell.2.count=4", "cells and 4 of other types"},
		"all rejected":  {"cell.rejects=6", "none of which is opened"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			var b strings.Builder
			for _, part := range sentenceOf(desk.New(c.fragment)).Parts {
				b.WriteString(part.Text)
			}
			assert.Contains(t, b.String(), c.says)
		})
	}
}

func TestStreamIsAsWideAsItsMatter(t *testing.T) {
	d := desk.New("")
	spines := spinesOf(d)
	legs := d.Legs()
	scale := streamWidth / float64(legs[0].In)
	for _, leg := range legs {
		assert.InDelta(t, float64(leg.Out)*scale, number(spines[leg.Stage].Out), 0.06, "stage %d", leg.Stage)
	}
	assert.NotEmpty(t, spines[route.Batch].Labels, "what is kept leaves visibly")
	assert.NotEmpty(t, spines[route.Slurry].Joins)
	assert.NotEmpty(t, spines[route.Dry].Jar)
	assert.NotEmpty(t, spines[route.CopperSalt].BlueLabel)
}

func TestPlanTextCarriesItsLink(t *testing.T) {
	text := planText(desk.New("cell.count=9"))
	assert.Contains(t, text, "#v=1&cell.count=9&end=")
	assert.Contains(t, text, "Manganese sulfate in the jar")
}

func TestShelfSaysWhatChargesAllow(t *testing.T) {
	v := whatIfOf(desk.New("gas.acid=25&gas.copper=8"))
	for _, part := range []string{"runs out first", "would use", "of this oxide"} {
		assert.Contains(t, v.Shelf, part)
	}
	assert.Empty(t, whatIfOf(desk.New("")).Shelf, "with nothing given there is nothing to say")
}

func TestLabelLeavesItsLinesToThePencil(t *testing.T) {
	for _, fragment := range []string{"", "cell.count=60"} {
		for _, l := range labelsOf(desk.New(fragment)).Labels {
			if l.Name == "Wash liquor" && fragment != "" {
				assert.Equal(t, "L", l.Unit, "in the unit of what to expect")
				assert.Equal(t, " large", l.Size)
			}
			out := html(t, (&jarLabels{}).label(l))
			assert.Equal(t, 4, strings.Count(out, `class="blank"`), l.Name)
			assert.Equal(t, len(l.Pictograms), strings.Count(out, "<svg"), l.Name)
			for _, h := range l.Hazards {
				assert.Contains(t, out, h)
			}
		}
	}
	closed := html(t, (&jarLabels{View: labelsOf(desk.New(""))}).Render())
	assert.Contains(t, closed, "Show the labels")
	assert.NotContains(t, closed, `class="jarlabel`, "none before they are asked for")
}

// TestABestAtTheEndOfItsBandShowsTheMiddle: in the list of figures and in what a
// weighing may be expected to show.
func TestABestAtTheEndOfItsBandShowsTheMiddle(t *testing.T) {
	d := desk.New("")
	for !d.StepBands(desk.Draws) {
	}
	band, best := d.Band(route.ProductMass), d.Sheet().Value(route.ProductMass)
	assert.Greater(t, best, band.High)
	assert.True(t, band.Low < band.Expected(best) && band.Expected(best) < band.High)
	assert.Contains(t, readFigure(d, route.ProductMass).Range, ", middle ")
	assert.NotContains(t, readFigure(d, route.MixMass).Range, "middle")
	assert.Equal(t, 5.0, d.Band(route.MixMass).Expected(5))
}

// TestAlkalineCellsHaveTheirOwnMarks: each row of the bag by its own kind.
func TestAlkalineCellsHaveTheirOwnMarks(t *testing.T) {
	names := func(fragment, key string) (list []string) {
		in, _ := route.InputByKey(key)
		for _, o := range viewField(desk.New(fragment), in).Options {
			list = append(list, o.Name)
		}
		return list
	}
	assert.Contains(t, names("cell.kind=alkaline", "cell.size"), "LR14 (C)")
	assert.Contains(t, names("cell.kind=alkaline", "cell.2.size"), "R14 (C)")
	assert.NotContains(t, names("", "cell.size"), "LR14 (C)")
	assert.Contains(t, planText(desk.New("cell.kind=alkaline&cell.size=3R12")), "3LR12 (4.5 V pocket lamp)")
}

func TestRunsNameTurnsNoSentence(t *testing.T) {
	r := keptRow{Name: "lamp\u202e bag\n"}
	assert.Equal(t, "“lamp� bag�”", r.calls())
}

// TestEveryPartIsDrawnOnce: as a document, or by a component of its own.
func TestEveryPartIsDrawnOnce(t *testing.T) {
	d := desk.New("")
	p := &page{late: slowOf(d, nil)}
	list := sectionsOf(d, &p.late, &p.taps, &p.heard)
	assert.Len(t, list, route.Stages+len(section.Parts))
	for i := range section.Parts {
		part, out := &section.Parts[i], html(t, list[route.Stages+i])
		_, isDoc := list[route.Stages+i].(*doc.View)
		assert.Equal(t, part.Make != nil, isDoc, part.Title)
		assert.Contains(t, out, `id="`+section.ID(part.Title)+`.title"`)
	}
}
