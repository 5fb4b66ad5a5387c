package section

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/club"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestClubOfEveryWay(t *testing.T) {
	for source, gas := range map[string]bool{"copper": true, "metabisulfite": true, "slurrysalt": true, "peroxide": false, "oxalic": false} {
		made := groups(from("gas.source=" + source + "&club.groups=5&club.atonce=2"))
		text := doctest.Text(made.Of...)
		assert.Equal(t, gas, strings.Contains(text, "At once "), source)
		assert.Contains(t, text, "5 groups, each with this plan: 30 cells")
		assert.Contains(t, text, "3 turns", source)
		out := doctest.HTML(made)
		assert.False(t, strings.Contains(out, "NaN"), source)
		assert.Equal(t, gas, strings.Contains(out, "each published limit"), source)
	}
}

func TestClubSharesOneBatch(t *testing.T) {
	shared := groups(from("v=1&club.groups=8&club.batch=one&club.pupils=24"))
	fields := doctest.Find[doc.Field](shared.Of...)
	batch := fields[slices.IndexFunc(fields, func(f doc.Field) bool { return f.Key == club.BatchKey })]
	if assert.Len(t, batch.Options, 2, "to be chosen, not typed") {
		assert.True(t, batch.Options[club.SharedBatch].Chosen)
	}
	text := doctest.Text(shared.Of...)
	assert.Contains(t, text, "8 groups of 3, one batch of this plan for all: 6 cells to open, and about 5.5\u202fg of salt for each group.")
	assert.Contains(t, text, "The gas is done once for all; with its last test it takes 2\u202fh\u202f35.")
	assert.NotContains(t, text, "Washed together")
}

// TestClubSheetHasTheSessions: what is given to a colleague says when, what, and what stands.
func TestClubSheetHasTheSessions(t *testing.T) {
	text := doctest.Text(ClubSheet(from(school))...)
	for _, part := range []string{"Session 5, Tuesday 31 March 2026", "Between sessions 1 and 2, by an adult", "Wash 4 times, 3\u202fh\u202f00", "On the shelf: acid slurry; wash liquor."} {
		assert.Contains(t, text, part)
	}
	assert.NotContains(t, text, "does not fit")
	assert.Contains(t, text, "All groups together: 6 dead R14")
	assert.NotContains(t, text, "One group", "there is one batch")
	assert.Contains(t, doctest.Text(ClubSheet(from("days.every=7&days.long=90"))...), "The work does not fit into these sessions")
	assert.NotContains(t, doctest.Text(ClubSheet(from(""))...), "Session 1")
}

func TestShelfLabelsAreOneForEachBatch(t *testing.T) {
	count := func(fragment, words string) int {
		return strings.Count(doctest.Text(ShelfLabels(from(fragment))...), words)
	}
	assert.Equal(t, 1, count(school, "Acid slurry"), "one batch, one label")
	assert.Equal(t, 1, count(school, "until an adult goes on with it"), "that of the slurry: what is waited for is the class's")
	own := strings.Replace(school, "club.batch=one", "club.batch=own", 1)
	assert.Equal(t, 8, count(own, "Acid slurry"))
	assert.Equal(t, 8, count(own, "Group 3 of 8"), "eight things stand")
	assert.Zero(t, count("", "slurry"+"Stands"), "nothing is said of what is done in a day")
}

func TestClubSaysWhatIsOverAndWhatToDo(t *testing.T) {
	gas := func(fragment string) (class, text string) {
		n := clubGas(from(fragment))
		return n.(doc.Box).Class, doctest.Text(n)
	}
	const room = "&room.volume=100&room.changes=4&room.escape=1"
	class, text := gas("club.atonce=2")
	assert.Equal(t, "note stop", class)
	assert.Contains(t, text, "Stop. At once")
	assert.Contains(t, text, "outdoors or in a working fume cupboard only")
	class, text = gas("club.groups=30&club.atonce=20" + room)
	assert.Equal(t, "note stop", class)
	assert.Contains(t, text, "over the limit: at most")
	class, text = gas("club.atonce=1" + room)
	assert.Equal(t, "note mind", class)
	assert.Contains(t, text, "no permit")
	assert.Contains(t, text, "outdoors", "never a promise")
	none := groups(from("cell.rejects=6"))
	assert.NotContains(t, doctest.HTML(none), "club.print")
	assert.Empty(t, none.Plain(), "there is nothing to tell")
}
