package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
	"rosesalt/web/runs"
)

func TestKeptRunsPourIntoTheSameBottles(t *testing.T) {
	rows := func(kept ...string) [][]doc.Node { return doctest.Find[doc.Table](running(kept))[0].Rows }
	one, two := rows("v=1"), rows("v=1", "v=1")
	require.Equal(t, len(one), len(two))
	require.NotEmpty(t, one)
	assert.Equal(t, doc.Text("Wash liquor"), one[0][0])
	assert.Contains(t, doctest.Text(one[0][1]), "1.9\u202fL")
	assert.Contains(t, doctest.Text(two[0][1]), "3.8\u202fL", "twice 1.88")
	assert.Nil(t, running(nil))
}

// TestKeptRunsAreComputedAsTheyWerePlanned: with the middle of an interval that does not hold the
// value, and with the share that follows the shelf, in the tables and beside the plan.
func TestKeptRunsAreComputedAsTheyWerePlanned(t *testing.T) {
	for _, fragment := range []string{"gas.uptake=20&gas.uptake~=60,90", "gas.acid=100&gas.acid~=20,30", "shelf.acid=40", "shelf.acid=40&loss.transfer=1&loss.transfer~=5,9"} {
		s := from(fragment)
		planned := s.Sheet().Value(route.ProductMass)
		row := runs.RowOf(&runs.State{Plan: fragment}, new(route.Runner))
		assert.Equal(t, planned, row.Planned, fragment)
		var amounts []string
		for _, b := range safety.PourTogether(safety.Bottles(s.Plan(), s.Runner().Book(), s.Sheet())) {
			if b.Mass > 0 {
				amounts = append(amounts, Amount(&b))
			}
		}
		assert.Equal(t, amounts, column(doctest.Find[doc.Table](running([]string{fragment}))[0], 1), fragment)
		s.PinPlan()
		assert.Equal(t, planned, s.Pinned().Sheet.Value(route.ProductMass), fragment)
		s.Unpin()
		require.True(t, s.StartRun())
		assert.Equal(t, planned, s.Pinned().Sheet.Value(route.ProductMass), fragment)
	}
}

// TestWasteShowsWhatNeverMeets: the section has the whole table of the plan, what harms
// before what was considered, and every row its source.
func TestWasteShowsWhatNeverMeets(t *testing.T) {
	for _, fragment := range []string{"", "gas.source=oxalic&cell.kind=alkaline"} {
		s := from(fragment)
		fold := doctest.Find[doc.Fold](bottles(s).Of...)[0]
		require.Equal(t, "never", fold.Key)
		table, meetings := doctest.Find[doc.Table](fold)[0], safety.MeetingsOf(s.Plan())
		require.Len(t, table.Rows, len(meetings))
		comes, sources := column(table, 2), column(table, 3)
		considered := false
		for i, m := range meetings {
			assert.Contains(t, comes[i], m.Comes)
			assert.Equal(t, m.Source, sources[i])
			spared := strings.HasPrefix(comes[i], "Considered: ")
			assert.Equal(t, !m.Harm, spared, comes[i])
			assert.False(t, considered && !spared, "harm stands first")
			considered = considered || spared
		}
		assert.True(t, considered)
	}
}
