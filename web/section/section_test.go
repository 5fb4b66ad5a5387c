package section

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func from(fragment string) *Source { return &Source{Desk: desk.New(fragment)} }

// TestPartsAreNamedOnce: the list of stages jumps by the ids.
func TestPartsAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for i := range Parts {
		id := ID(Parts[i].Title)
		assert.False(t, seen[id], id)
		assert.NotContains(t, id, " ")
		seen[id] = true
	}
}

// TestDocumentsAreValues: made twice they are equal, and so left alone by the page; and what
// one shows is no part of what the other does.
func TestDocumentsAreValues(t *testing.T) {
	s := from("cell.2.count=4")
	for i := range Parts {
		p := &Parts[i]
		first := p.Of(s)
		was := fmt.Sprintf("%#v", first)
		require.Equal(t, first, p.Of(s), p.Title)
		s.Edit("cell.count", "60")
		p.Of(s)
		require.Equal(t, was, fmt.Sprintf("%#v", first), p.Title)
		s.Edit("cell.count", "6")
	}
}

// column are the cells of a table's column, as text.
func column(t doc.Table, i int) (cells []string) {
	for _, row := range t.Rows {
		cells = append(cells, doctest.Text(row[i]))
	}
	return cells
}

func TestWaysAreSetSideBySide(t *testing.T) {
	made := ways(from("gas.source=oxalic&gas.strength=50"))
	table := doctest.Find[doc.Table](made.Of...)[0]
	in, _ := route.InputByKey("gas.source")
	require.Len(t, table.Heads, len(in.Options)+1)
	dashes, chosen := 0, 0
	for i, head := range table.Heads[1:] {
		cells := column(table, i+1)
		buttons := doctest.Find[doc.Button](head)
		if cells[0] == "–" {
			dashes++
			assert.Empty(t, buttons, "a way that cannot be gone is not offered")
		}
		for _, cell := range cells {
			assert.NotContains(t, cell, "NaN")
		}
		assert.NotEmpty(t, cells[8])
		if len(doctest.Find[doc.Para](head)) == 1 && len(buttons) == 0 {
			chosen++
			assert.Contains(t, doctest.Text(head), "This is the plan.")
			assert.Contains(t, doctest.Text(head), "xalic")
		}
	}
	assert.Equal(t, 1, dashes, "acid of 50 % is too weak for copper alone")
	assert.Equal(t, 1, chosen)
	html := doctest.HTML(made)
	assert.Contains(t, html, "way.peroxide")
	assert.NotContains(t, html, "way.copper")
}

func TestPurityTableHoldsWhatIsThere(t *testing.T) {
	table := func(fragment string) doc.Table {
		return doctest.Find[doc.Table](purity(from(fragment)).Of...)[0]
	}
	demo := table("")
	assert.Contains(t, demo.Heads, doc.Text("dithionate"))
	assert.Contains(t, demo.Heads, doc.Text("iron sulfates"))
	assert.NotContains(t, table("mix.iron=0").Heads, doc.Text("iron sulfates"))
	assert.NotContains(t, table("mix.iron=0").Heads, doc.Text("sodium sulfate"))
	assert.Contains(t, table("gas.source=slurrysalt").Heads, doc.Text("sodium sulfate"))
	for _, row := range demo.Rows {
		assert.Len(t, row, len(demo.Heads))
	}
	assert.Contains(t, doctest.Text(purity(from("")).Of...), "zinc salts")
	assert.Contains(t, doctest.Text(purity(from("cell.rejects=6")).Of...), "no salt in the jar")
}

// TestAFieldThatAnIntervalMovesIsNotSet: who gave an interval set no value.
func TestAFieldThatAnIntervalMovesIsNotSet(t *testing.T) {
	for fragment, key := range map[string]string{"gas.uptake~=20,30": "gas.uptake", "mix.carbon~=30,40": "mix.carbon", "batch.share~=60,70": "batch.share", "batch.share=80&batch.share~=60,70": "batch.share"} {
		in, _ := route.InputByKey(key)
		f := Field(from(fragment).Desk, in)
		assert.Equal(t, "your interval", f.Tag, fragment)
		assert.Contains(t, f.Range, "the middle of your interval", fragment)
	}
	uptake, _ := route.InputByKey("gas.uptake")
	assert.Equal(t, "you set", Field(from("gas.uptake=25&gas.uptake~=20,30").Desk, uptake).Tag)
}
