package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/safety"
	"rosesalt/web/desk"
)

// TestWasteShowsWhatNeverMeets: the section has the whole table of the plan, what harms
// before what was considered, and every row its source.
func TestWasteShowsWhatNeverMeets(t *testing.T) {
	for _, fragment := range []string{"", "gas.source=oxalic&cell.kind=alkaline"} {
		d := desk.New(fragment)
		rows, meetings := bottlesOf(d).Never, safety.MeetingsOf(d.Plan())
		require.Len(t, rows, len(meetings))
		considered := false
		for i, row := range rows {
			assert.Contains(t, row[2], meetings[i].Comes)
			assert.Equal(t, meetings[i].Source, row[3])
			spared := strings.HasPrefix(row[2], "Considered: ")
			assert.Equal(t, !meetings[i].Harm, spared, row)
			assert.False(t, considered && !spared, "harm stands first")
			considered = considered || spared
		}
		assert.True(t, considered)
	}
}
