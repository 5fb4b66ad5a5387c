package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/assay"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/link"
	"rosesalt/web/section"
)

// busy is a desk that holds something of everything.
func busy(t *testing.T) *desk.Desk {
	d := desk.New("v=2&cell.count=9&gas.uptake~=60,90&time.gas=75&days.start=2026-03-07T09:00&club.groups=6")
	require.True(t, d.StartRun())
	d.Edit("gas.acid", "52")
	require.True(t, d.StageDone(route.Batch))
	d.Edit("found.product", "31.5")
	d.Edit("found.product~", "0.2")
	d.Edit(link.NotesKey, "paper grey, see\n#v=2&cell.count=3 “too”")
	for _, in := range assay.Inputs() {
		if in.Options == nil && strings.HasPrefix(in.Key, "loss.") || strings.HasPrefix(in.Key, "assay.loss") && in.Options == nil {
			d.Edit(in.Key, route.Plain(in.Min))
			break
		}
	}
	d.Edit("log.10.rate", "40")
	d.Edit("log.20.rate", "38")
	require.Zero(t, d.FaultCount())
	return d
}

func TestPlanTextIsWholeAndComesBack(t *testing.T) {
	d := busy(t)
	text := section.PlanText(sourceOf(d, nil))
	for _, part := range []string{
		"A run is under way. Done: Cells, Wash, Batch. Next: Gas.", "by you from 60 to 90", "Planned: ", "The days", "1\u202fh\u202f15, by you",
		"With a club", "6 groups", "Assays", "Gas by its bubbles", "minute 10: 40", "By minute 20", "After the run", "31.5\u202fg ± 0.20\u202fg, by you", "paper grey, see", "7 March 2026",
	} {
		assert.Contains(t, text, part)
	}
	for name, mangled := range map[string]string{
		"as it is": text,
		"by mail":  "> " + strings.ReplaceAll(strings.ReplaceAll(text, " ", "\u00a0"), "\n", "\r\n> "),
	} {
		c, troubles, ok := link.ReadText(mangled)
		require.True(t, ok, name)
		assert.Empty(t, troubles, name)
		back := desk.New("")
		back.OpenContent(&c, troubles)
		assert.Equal(t, d.Fragment(), back.Fragment(), name)
		assert.Equal(t, d.Notes(), back.Notes(), name)
	}
}

// TestTypedTextIsNoPlan: what stands in a field and cannot be used is in the text, and
// must not be taken for its plan.
func TestTypedTextIsNoPlan(t *testing.T) {
	d := desk.New("cell.count=9")
	d.Edit("cell.count", "#v=2&cell.count=3")
	c, troubles, ok := link.ReadText(section.PlanText(sourceOf(d, nil)))
	require.True(t, ok)
	assert.Empty(t, troubles)
	assert.Equal(t, 9.0, c.Plan.Rows[0].Count)
}
