package section

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestThePaperLogStandsWhereThereIsRoom(t *testing.T) {
	logs := func(fragment string) (n int) {
		for _, table := range doctest.Find[doc.Table](BenchSheet(from(fragment), "")...) {
			assert.Equal(t, "sheet-log", table.Class)
			n++
		}
		return n
	}
	assert.Equal(t, 1, logs("v=2&wash.acid=0"))
	assert.Equal(t, 2, logs("v=2&batch.runs=2"), "each batch has its own")
	assert.Zero(t, logs(""), "with an acid rinse it would take a third page")
	assert.Zero(t, logs("v=2&gas.source=peroxide"), "nothing is led in")
}

func TestThePaperLogCoversTheGas(t *testing.T) {
	assert.Nil(t, paperLog(0), "nothing is led in")
	for _, c := range []struct {
		minutes     int
		first, last string
	}{{40, "5", "45"}, {90, "10", "90"}, {100, "15", "135"}} {
		minutes := paperLog(c.minutes).(doc.Table).Rows[0]
		assert.Equal(t, doc.Text(c.first), minutes[1])
		assert.Equal(t, doc.Text(c.last), minutes[len(minutes)-1])
	}
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
