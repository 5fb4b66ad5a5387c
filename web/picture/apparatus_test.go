package picture

import (
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
	"rosesalt/web/chart/charttest"
)

func apparatus(p route.Plan) chart.Apparatus {
	var b route.Runner
	s := b.Run(&p)
	return Apparatus(&p, s)
}

func drawing(t require.TestingT, a chart.Apparatus) charttest.Drawing {
	return charttest.Drawings(t, app.HTMLString(a.Draw()))[0]
}

func wordsOf(t require.TestingT, a chart.Apparatus) string {
	var list []string
	for _, part := range drawing(t, a).Parts {
		if part.Path == "" {
			list = append(list, part.Text)
		}
	}
	return strings.Join(list, " ")
}

func TestApparatusSaysWhatThePlanNeeds(t *testing.T) {
	p := route.NewPlan()
	var b route.Runner
	s := b.Run(&p)
	p.SlurryVessel = route.OpenVessel
	open := apparatus(p)
	for _, word := range []string{"Flask,", "Empty trap,", "Counting", "inverted funnel", "ice", route.Print(s.Value(route.SlurryVolume), "mL"), route.Print(s.Value(route.GasAcidUsed), "mL")} {
		assert.Contains(t, wordsOf(t, open), word)
	}
	assert.NotContains(t, wordsOf(t, open), "Scrubber", "an open vessel cannot feed one")
	p.SlurryVessel = route.ClosedVessel
	closed := apparatus(p)
	assert.Contains(t, wordsOf(t, closed), "Second")
	assert.Contains(t, wordsOf(t, closed), "its outlet stays open")
	q := p
	for _, v := range route.Vessels(&q, b.Run(&q)) {
		switch v.Name {
		case "Generator flask", "Empty trap", "Slurry vessel", "Second empty trap", "Scrubber bottle":
			assert.Contains(t, closed.Says, v.SizeText(), v.Name)
		}
	}
	assert.Contains(t, closed.Says, "Scrubber, 500\u202fmL, 22\u202fg of soda in 219\u202fmL")
	assert.Less(t, strings.Index(closed.Says, "Slurry"), strings.Index(closed.Says, "Second empty trap"))
	assert.Less(t, strings.Index(closed.Says, "Second empty trap"), strings.Index(closed.Says, "Scrubber"))
	assert.Greater(t, drawing(t, closed).Width, drawing(t, open).Width)
	p.GasSource = route.FromMetabisulfite
	assert.Contains(t, wordsOf(t, apparatus(p)), "dilute acid drips in")
}

// TestApparatusStaysInItsFrame draws plans from all over the limits: no word outside, no
// coordinate that is not a number.
func TestApparatusStaysInItsFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := route.NewPlan()
		p.Rows[0].Count = float64(rapid.IntRange(0, 2000).Draw(t, "cells"))
		p.GasSource = route.Choice(rapid.IntRange(0, 1).Draw(t, "source"))
		p.SlurryVessel = route.Choice(rapid.IntRange(0, 1).Draw(t, "vessel"))
		a := apparatus(p)
		d := drawing(t, a)
		for _, part := range d.Parts {
			half := float64(len([]rune(part.Text))) * 0.55 * 12 / 2 // letters are 12 high, and little more than half as wide
			require.True(t, part.Path != "" || part.X-half >= -4 && part.X+half <= d.Width+4, part.Text)
		}
	})
}
