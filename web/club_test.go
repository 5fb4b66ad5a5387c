package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/desk"
)

func TestClubOfEveryWay(t *testing.T) {
	for source, gas := range map[string]bool{"copper": true, "metabisulfite": true, "slurrysalt": true, "peroxide": false, "oxalic": false} {
		d := desk.New("gas.source=" + source + "&club.groups=5&club.atonce=2")
		v := clubOf(d)
		assert.Equal(t, gas, v.Gas.Come != "", source)
		assert.Contains(t, strings.Join(v.Says, " "), "5 groups, each with this plan: 30 cells")
		assert.Contains(t, strings.Join(v.Says, " "), "3 turns", source)
		out := html(t, &theClub{View: v})
		assert.False(t, strings.Contains(out, "NaN"), source)
		assert.Equal(t, gas, strings.Contains(out, "each published limit"), source)
		sheet := html(t, &clubSheet{View: clubSheetOf(d)})
		assert.False(t, strings.Contains(sheet, "NaN"), source)
		assert.Equal(t, gas, strings.Contains(sheet, "The asthma question"), source)
		assert.True(t, strings.Contains(sheet, "not a risk assessment"), source)
	}
}

func TestClubSaysWhatIsOverAndWhatToDo(t *testing.T) {
	small := clubOf(desk.New("club.atonce=2")).Gas
	assert.True(t, small.Over)
	assert.Contains(t, small.Remedy, "outdoors or in a working fume cupboard only")
	some := clubOf(desk.New("club.groups=30&club.atonce=20&room.volume=100&room.changes=4&room.escape=1")).Gas
	assert.True(t, some.Over)
	assert.Contains(t, some.Remedy, "over the limit: at most")
	under := clubOf(desk.New("club.atonce=1&room.volume=100&room.changes=4&room.escape=1")).Gas
	assert.False(t, under.Over)
	assert.Contains(t, under.Remedy, "no permit")
	assert.Contains(t, under.Remedy, "outdoors", "never a promise")
	none := desk.New("cell.rejects=6")
	assert.True(t, clubOf(none).Nothing)
	assert.NotContains(t, html(t, &theClub{View: clubOf(none)}), "club.print")
}
