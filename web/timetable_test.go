package web

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/procedure"
	"rosesalt/web/desk"
	"rosesalt/web/doc/doctest"
	"rosesalt/web/section"
)

func TestTheStartIsTheNextSaturday(t *testing.T) {
	saturday := time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)
	for day := 28 - 31; day <= 3; day++ { // Saturday 28 February to Friday 6 March
		now := time.Date(2026, 3, day+3, 23, 30, 0, 0, time.UTC)
		if now.Weekday() == time.Saturday {
			continue
		}
		assert.Equal(t, saturday, theStart(now, 9*time.Hour), "from %s", now.Format("Monday 2 January"))
	}
	assert.Equal(t, saturday.AddDate(0, 0, 7), theStart(saturday, 9*time.Hour), "on a Saturday, the next one")
}

// TestBeginFollowsTheSession: the start that is counted from is one at which a session
// begins.
func TestBeginFollowsTheSession(t *testing.T) {
	d := desk.New("days.from=14:30")
	assert.Contains(t, fieldText(d, procedure.StartKey), "T14:30")
	assert.Contains(t, doctest.Text(part(d, section.DaysTitle).Of...), "14:30")
}
