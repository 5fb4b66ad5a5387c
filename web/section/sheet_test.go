package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestThePaperLogStandsAtEachBatch(t *testing.T) {
	logs := func(fragment string) (n int) {
		for _, table := range doctest.Find[doc.Table](BenchSheet(from(fragment), "")...) {
			assert.Equal(t, "sheet-log", table.Class)
			n++
		}
		return n
	}
	assert.Equal(t, 1, logs("v=2&wash.acid=0"))
	assert.Equal(t, 2, logs("v=2&batch.runs=2"), "each batch has its own")
	assert.Equal(t, 1, logs("v=2&wash.acid=50"))
	assert.Zero(t, logs("v=2&gas.source=peroxide"), "nothing is led in")
}

func TestThePaperLogCoversTheGas(t *testing.T) {
	assert.Nil(t, paperLog(0, false), "nothing is led in")
	for _, c := range []struct {
		minutes     int
		first, last string
	}{{40, "5", "45"}, {90, "10", "90"}, {100, "15", "135"}} {
		minutes := paperLog(c.minutes, false).(doc.Table).Rows[0]
		assert.Equal(t, doc.Text(c.first), minutes[1])
		assert.Equal(t, doc.Text(c.last), minutes[len(minutes)-1])
	}
}

// TestSheetListsAllThatItDraws: whoever goes by the list has every vessel of the drawing.
func TestSheetListsAllThatItDraws(t *testing.T) {
	for _, fragment := range []string{"", "gas.source=metabisulfite", "gas.source=peroxide", "slurry.vessel=open", "gas.flask=50", "batch.runs=2"} {
		s := from(fragment)
		sheet := BenchSheet(s, "")
		drawn := doctest.Find[doc.Apparatus](sheet...)[0].Says
		listed := strings.ToLower(doctest.Text(paperVessels(s)))
		for _, name := range []string{"Empty trap", "Counting bottle", "Second empty trap"} {
			if strings.Contains(drawn, name) {
				assert.Contains(t, listed, strings.ToLower(name), fragment)
			}
		}
		for word, name := range map[string]string{"Flask, ": "generator flask", "Slurry, ": "slurry vessel", "Scrubber, ": "scrubber bottle"} {
			if strings.Contains(drawn, word) {
				assert.Contains(t, listed, name, fragment)
			}
		}
	}
	small := doctest.Text(paperVessels(from("gas.flask=50")))
	assert.Contains(t, small, "50\u202fmL generator flask, too small")
	assert.Contains(t, doctest.Text(paperVessels(from("gas.flask=500"))), "500\u202fmL generator flask", "the plan's own, not the next that is sold")
}

func TestSheetCountsBubblesAsAPersonCan(t *testing.T) {
	many := doctest.Text(BenchSheet(from(""), "")...)
	assert.Contains(t, many, "too many bubbles come to count, 112 in ten seconds")
	assert.NotContains(t, many, "642 bubbles")
	assert.Contains(t, many, "Bubbles/10 s")
	few := doctest.Text(BenchSheet(from("batch.share=5"), "")...)
	assert.Contains(t, few, "bubbles come in a minute")
	assert.Contains(t, few, "Bubbles/min")
}

func TestSheetSaysWhoDoesAStep(t *testing.T) {
	heads := ""
	for _, title := range doctest.Find[doc.Title](BenchSheet(from(school), "")...) {
		heads += doctest.Text(title) + "\n"
	}
	assert.Contains(t, heads, "Wash 4 times an adult, between sessions, 3\u202fh\u202f00")
	assert.Contains(t, heads, "Make the gas shown, then by an adult, 1\u202fh\u202f50")
	assert.Contains(t, heads, "Leave the liquor to dry left to the air, for days")
	assert.Contains(t, heads, "Open the cells Tue 14:00")
}

func TestSheetSaysTimesOnlyWhenADayIsSet(t *testing.T) {
	third := func(sheet []doc.Node) string { return doctest.Text(doctest.Find[doc.Title](sheet...)[3]) }
	plain := BenchSheet(from(""), "")
	assert.NotContains(t, third(plain), ":")
	assert.Contains(t, doctest.Find[doc.Code](plain...), doc.Code("#v=2"))
	assert.Contains(t, doctest.Text(plain...), "6 dead R14")
	dated := BenchSheet(from("days.start=2026-03-07T09:00"), "https://example.org/r.html")
	assert.Contains(t, third(dated), "Sat 09:00")
	assert.Contains(t, string(doctest.Find[doc.Code](dated...)[0]), "https://example.org/r.html#v=2")
	assert.NotZero(t, doctest.Find[doc.QR](dated...)[0].Side)
}
