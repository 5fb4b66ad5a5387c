package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/safety"
	"rosesalt/web/desk"
)

func TestKeptRunsPourIntoTheSameBottles(t *testing.T) {
	one, two := running([]string{"v=1"}), running([]string{"v=1", "v=1"})
	require.Equal(t, len(one), len(two))
	require.NotEmpty(t, one)
	assert.Equal(t, "Wash liquor", one[0][0])
	assert.Contains(t, one[0][1], "1.9\u202fL")
	assert.Contains(t, two[0][1], "3.8\u202fL", "twice 1.88")
	assert.Empty(t, running(nil))
}

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
