package web

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/desk"
)

func TestThePaperLogStandsWhereThereIsRoom(t *testing.T) {
	logs := func(fragment string) (n int) {
		v := sheetOf(desk.New(fragment), "")
		for _, s := range v.Steps {
			n += s.Log
		}
		return n
	}
	assert.Equal(t, 90, logs(""), "the minutes of the gas")
	assert.Zero(t, logs("v=1&wash.acid=50"), "a step more, and it would take a third page")
	assert.Zero(t, logs("v=1&gas.source=peroxide"), "nothing is led in")
}

func TestThePaperLogCoversTheGas(t *testing.T) {
	assert.Nil(t, paperLog(0), "nothing is led in")
	for _, c := range []struct {
		minutes     int
		first, last string
	}{{40, ">5<", ">45<"}, {90, ">10<", ">90<"}, {100, ">15<", ">135<"}} {
		text := html(t, paperLog(c.minutes))
		assert.Contains(t, text, c.first)
		assert.Contains(t, text, c.last)
	}
}
