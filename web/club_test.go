package web

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

func TestClubSheetOfEveryWay(t *testing.T) {
	for source, gas := range map[string]bool{"copper": true, "metabisulfite": true, "slurrysalt": true, "peroxide": false, "oxalic": false} {
		sheet := html(t, &doc.Aside{Class: "sheet", Of: section.ClubSheet(sourceOf(desk.New("gas.source="+source+"&club.groups=5&club.atonce=2"), nil))})
		assert.False(t, strings.Contains(sheet, "NaN"), source)
		assert.Equal(t, gas, strings.Contains(sheet, "The asthma question"), source)
		assert.True(t, strings.Contains(sheet, "not a risk assessment"), source)
	}
	assert.NotContains(t, html(t, &doc.Aside{Class: "sheet club-sheet"}), "Club")
}
