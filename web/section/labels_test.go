package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/safety"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestLabelLeavesItsLinesToThePencil(t *testing.T) {
	for _, fragment := range []string{"", "v=1&cell.count=60"} {
		for _, l := range ofLabels(from(fragment).Desk) {
			out := doctest.HTML(doc.Section{Of: []doc.Node{jarLabel(&l, &LabelTexts{})}})
			if l.Name == "Wash liquor" && fragment != "" {
				assert.Contains(t, out, "<span>L</span>", "in the unit of what to expect")
				assert.Contains(t, out, `class="jarlabel large"`)
			}
			assert.Equal(t, 4, strings.Count(out, `class="blank"`), l.Name)
			assert.Equal(t, len(l.Pictograms), strings.Count(out, "<svg"), l.Name)
			for _, h := range l.Hazards {
				assert.Contains(t, out, string(h.Code)+"\u00a0"+h.Words)
			}
		}
	}
	closed := doctest.HTML(labels(from("")))
	assert.Contains(t, closed, "Show the labels")
	assert.NotContains(t, closed, `class="jarlabel"`, "none before they are asked for")
}

func TestLabelsAreTicked(t *testing.T) {
	s := from("")
	s.Labels = &Labels{Texts: LabelTexts{"B7"}}
	off := func() (names []string) {
		for _, tick := range doctest.Find[doc.Tick](labels(s).Of...) {
			if !tick.On {
				names = append(names, tick.Value)
			}
		}
		return names
	}
	require.Empty(t, off())
	var all []string
	for _, l := range safety.Labels(s.Plan(), s.Sheet(), s.Runner().Book()) {
		all = append(all, l.Name)
	}
	assert.Equal(t, len(all), strings.Count(doctest.HTML(doc.Section{Of: doctest.Find[doc.Fold](labels(s).Of...)[0].Of}), ">B7<"))
	s.Labels.Tick(all[1], false)
	assert.Equal(t, all[1:2], off())
	assert.True(t, s.Labels.Any(s.Desk))
	s.Labels.TickAll(s.Desk, false)
	assert.Equal(t, all, off())
	assert.False(t, s.Labels.Any(s.Desk))
	assert.Contains(t, doctest.HTML(doc.Section{Of: doctest.Find[doc.Fold](labels(s).Of...)[0].Of}), "No label is ticked")
	s.Labels.TickAll(s.Desk, true)
	assert.Empty(t, off())
	assert.Empty(t, s.Labels.Said)
}
