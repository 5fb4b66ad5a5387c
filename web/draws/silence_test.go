package draws

import (
	"testing"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"

	"rosesalt/web/desk"
)

// rig is a maker of draws whose clock is turned by hand, whose worker takes errands down and says
// what it is told to.
type rig struct {
	*Maker
	asked []int // the rounds that the worker was asked for
	told  []Progress
	waits []waiting
}

type waiting struct {
	long time.Duration
	do   func(app.Context)
}

func newRig() *rig {
	s := &rig{}
	s.Maker = New(nil, desk.New(""), func(_ app.Context, stage Progress) { s.told = append(s.told, stage) })
	s.worker = worker{state: ready, post: func(round int, _ string) { s.asked = append(s.asked, round) }}
	s.wait = func(_ app.Context, long time.Duration, do func(app.Context)) {
		s.waits = append(s.waits, waiting{long, do})
	}
	return s
}

// pass lets so long a time pass, in which all that waits no longer than that comes to its end once.
func (s *rig) pass(long time.Duration) {
	list := s.waits
	s.waits = nil
	for _, w := range list {
		if w.long <= long {
			w.do(nil)
		} else {
			s.waits = append(s.waits, waiting{w.long - long, w.do})
		}
	}
}

// finishHere lets the page's own thread do all of the work.
func (s *rig) finishHere() {
	for !s.done {
		s.pass(RestPause)
	}
}

// TestASilentWorkerIsAskedAgainOnceItSpeaks: until then the page waits for it no more; what it
// says of work that is done meanwhile counts for nothing else.
func TestASilentWorkerIsAskedAgainOnceItSpeaks(t *testing.T) {
	s := newRig()
	s.Begin(nil)
	assert.Equal(t, []int{1}, s.asked)
	s.pass(patience)
	assert.True(t, s.here, "the page steps in")
	s.finishHere()
	assert.Equal(t, All, s.told[len(s.told)-1])

	s.Begin(nil)
	assert.True(t, s.here, "at once")
	assert.Equal(t, []int{1}, s.asked, "nothing more is laid before one that may be gone")
	s.told = nil
	s.hear(nil, &message{round: 1, stage: First})
	assert.Empty(t, s.told, "of a plan that is no more")
	s.finishHere()
	assert.Equal(t, All, s.told[len(s.told)-1], "the page brings its own work to an end")

	s.Begin(nil)
	assert.False(t, s.here)
	assert.Equal(t, []int{1, 3}, s.asked)
	for _, stage := range []Progress{First, Bands, All} {
		s.hear(nil, &message{round: 3, stage: stage, packed: pack(s.desk.Results(parts[stage]))})
	}
	assert.True(t, s.done)
	s.pass(patience)
	assert.Equal(t, ready, s.worker.state)
}

// TestAWorkerThatComesLateIsUsed: what the page began before it stood, the page goes on with.
func TestAWorkerThatComesLateIsUsed(t *testing.T) {
	s := newRig()
	s.worker.state = starting
	s.Begin(nil)
	s.pass(patience)
	assert.True(t, s.here)
	s.hear(nil, &message{ready: true})
	assert.Empty(t, s.asked)
	s.Begin(nil)
	assert.Equal(t, []int{2}, s.asked)
}

// TestAWorkerThatEndedIsNotAskedAgain.
func TestAWorkerThatEndedIsNotAskedAgain(t *testing.T) {
	s := newRig()
	s.Begin(nil)
	s.pass(patience)
	s.hear(nil, &message{ended: true})
	s.hear(nil, &message{ready: true})
	s.Begin(nil)
	assert.True(t, s.here)
	assert.Equal(t, []int{1}, s.asked)
	assert.Equal(t, refused, s.worker.state)
}
