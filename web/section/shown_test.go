package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

// TestNoButtonWritesMoreDigitsThanAnyoneReads: into the fields of the plan and
// the days, of plans whose remedies and offers are worked out.
func TestNoButtonWritesMoreDigitsThanAnyoneReads(t *testing.T) {
	seen := 0
	for _, fragment := range []string{
		"v=2&gas.flask=15&gas.minutes=100&batch.runs=3",
		"v=2&cell.count=23&gas.flask=120&dry.dish=30&slurry.beaker=133",
		"v=2&cell.count=23&dry.rate=31&shelf.acid=33.3&shelf.copper=17",
		"v=1&wash.acid=0&cell.count=7",
		"v=2&wash.acid=100&dry.way=crystals&cell.count=7",
		"v=2&days.long=45&gas.minutes=100.5",
	} {
		s := from(fragment)
		writes := func(changes ...field.Change) {
			for _, c := range changes {
				number := strings.Trim(strings.ReplaceAll(c.Text, ".", ""), "0")
				if c.Text == "" || strings.Trim(number, "0123456789") != "" {
					continue
				}
				seen++
				assert.LessOrEqual(t, len(number), 4, "%s=%s in %s", c.Key, c.Text, fragment)
			}
		}
		nodes := Glance(s)
		for _, stage := range Stages(s, &Pictures{}, false, nil) {
			nodes = append(nodes, stage.Of...)
		}
		for _, b := range doctest.Find[doc.Button](nodes...) {
			if key, text, ok := strings.Cut(b.Value, "="); ok && (b.Action == Edit || b.Action == Mended) {
				writes(field.Change{Key: key, Text: text})
			}
		}
		for _, n := range s.Notices() {
			for _, m := range n.Mends {
				writes(field.Change{Key: "gas.minutes", Text: route.Plain(m.Minutes)})
			}
		}
		for _, o := range append(s.Offers(true), s.Quicker()...) {
			writes(o.Set...)
		}
		if strings.Contains(fragment, "days.") {
			for _, o := range s.Work(s.Begin).Offers() {
				writes(o.Set...)
			}
		}
		for _, step := range route.PuritySteps(s.Plan(), s.Sheet()) {
			writes(step.Set...)
		}
	}
	require.Greater(t, seen, 50)
}
