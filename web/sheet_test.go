package web

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

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
