//go:build !js

package web

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

// TestDemoHoldsTheFiguresOfTheDesk: what is read before the program runs is what it will say,
// to the last digit.
func TestDemoHoldsTheFiguresOfTheDesk(t *testing.T) {
	demo, err := Demo()
	require.NoError(t, err)
	again, err := Demo()
	require.NoError(t, err)
	assert.True(t, demo == again, "two builds differ")

	d := desk.New("")
	figures := regexp.MustCompile(`<data data-key="([^"]+)" value="([^"]+)">([^<]*)`).FindAllStringSubmatch(demo, -1)
	require.Len(t, figures, 3, "product, purity, blue crystals")
	for _, f := range figures {
		id, ok := route.FigureByKey(f[1])
		require.True(t, ok, f[1])
		of := section.Figure(d, id, false, false)
		assert.Equal(t, []string{of.Value, of.Number}, f[2:], f[1])
	}
	for _, r := range d.Reagents()[:route.SodaReagent+1] {
		assert.Contains(t, demo, "the plan takes "+route.Print(r.Amount, r.Unit), r.Name)
	}
	assert.Equal(t, int(route.SodaReagent)+1, strings.Count(demo, `<span class="num">…<`), "what to buy is not known yet")
	for _, in := range []string{`data-key="cell.count" inputmode="numeric" tabindex="-1" type="text" value="` + d.Text("cell.count") + `"`, "What you need", "What you get", "What can hurt"} {
		assert.Contains(t, demo, in)
	}
	assert.NotRegexp(t, `(selected|disabled|hidden)="false"|aria-hidden=""|[0-9]{4}-[0-9]{2}-[0-9]{2}|keeps nothing|</input>|\n`, demo)
}

func TestStillIsReadAsTheElementsAre(t *testing.T) {
	stands := func(key string) string { return "of " + key }
	for written, is := range map[string]string{
		"<p id=\"a\" class=\"b\">\none\n<b>two</b>\n</p>":              `<p class="b" id="a">one<b>two</b></p>`,
		`<input name="x" disabled="false" readonly></input>`:           `<input name="x" readonly="" tabindex="-1" value="of x">`,
		`<select data-key="y"><option selected>1</option></select>`:    `<select data-key="y" tabindex="-1"><option selected="">1</option></select>`,
		`<svg aria-hidden viewBox="0 0 1 1" data-at="2\u202fg"></svg>`: "<svg aria-hidden=\"true\" data-at=\"2\u202fg\" viewBox=\"0 0 1 1\"></svg>",
		`<b aria-label="a \"b\" & c">a &#34;b&#34; &amp; c</b>`:        `<b aria-label="a &quot;b&quot; &amp; c">a "b" &amp; c</b>`,
		`<div Hidden="until-found" aria-expanded="false">x</div>`:      `<div aria-expanded="false" hidden="until-found">x</div>`,
	} {
		got, err := still(written, stands)
		require.NoError(t, err, written)
		assert.Equal(t, is, got)
	}
	_, err := still(`<p class="b>`, stands)
	assert.ErrorContains(t, err, "web: p of the demo: class")
}
