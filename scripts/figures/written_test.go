package main

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/web/desk"
)

// differs are the runs of which the account says something else than the chemist, and why.
var differs = map[string]string{
	"first run, nothing said of dilute acid": "with some manganese in the jar, lost gas and a spill are as likely as each other",
	"first run, no dilute acid":              "with some manganese in the jar, lost gas and a spill are as likely as each other",
	"flame out too early/account.made.most":  "nobody noted the charge, so that the bound allows for twice the copper",
	"cake neither drained nor rinsed":        "with the planned volumes no cake that the model knows holds a third of the salt; the account takes the oxide for undissolved, and asks for the residue to be rinsed",
}

// TestWrittenRuns holds the account to runs as a person writes them down, with the verdict
// that a chemist would give, which were written before the account was asked.
func TestWrittenRuns(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/account/written.json")
	require.NoError(t, err)
	var list []struct {
		Name, Link  string
		First       []string
		Asks        bool
		Least, Most map[string]float64
	}
	require.NoError(t, json.Unmarshal(raw, &list))
	require.Len(t, list, 10)
	for _, w := range list {
		t.Run(w.Name, func(t *testing.T) {
			d := desk.New(w.Link)
			require.Empty(t, d.Troubles())
			for !d.Accounted() {
				d.StepRest(desk.Draws)
			}
			p := d.Account()
			require.True(t, p.OK(), p.Why())
			v := p.Verdict()
			for _, says := range []string{p.Bounds.Sure(), v.Sentence, v.Missing, v.Weigh} {
				t.Log(says)
			}
			for _, a := range v.Advice {
				t.Log(a.Sentence())
			}
			assert.Equal(t, w.Asks, v.Question != "")
			for _, b := range p.Bounds.List() {
				if least, ok := w.Least[b.Key]; ok {
					assert.InDelta(t, least, b.Value, 0.002*least+0.05, b.Key)
				}
				if most, ok := w.Most[b.Key]; ok && differs[w.Name+"/"+b.Key] == "" {
					assert.InDelta(t, most, b.Value, 0.002*most+0.05, b.Key)
				}
			}
			assert.Equal(t, w.Name == "cake neither drained nor rinsed", strings.Contains(v.Weigh, "as salt left in it does"))
			assert.Equal(t, w.Name == "cake neither drained nor rinsed", strings.Contains(v.Sentence, "unless the residue holds salt"))
			if why := differs[w.Name]; why != "" {
				t.Log("differs: " + why)
				return
			}
			assert.True(t, slices.Contains(w.First, p.Mostly().Key()), p.Mostly().Key())
		})
	}
}
