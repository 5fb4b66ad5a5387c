package counting

import (
	"encoding/json"
	"errors"
	"math"
	"slices"

	"rosesalt/chem/sound"
)

// written is how taps are stored, in milliseconds since 1970, so that a page that is opened
// again can go on with them.
type written struct {
	Sessions []writtenSession `json:"sessions"`
	Each     int              `json:"each"`
	Ended    *int64           `json:"ended,omitempty"` // when the gas stopped; nil while it comes
	Past     bool             `json:"past,omitempty"`
	Seen     int64            `json:"seen"`             // when it was written
	Before   *written         `json:"before,omitempty"` // what was taken back all at once
}

// writtenSession is one session: when its clock started, and the gaps between the taps.
type writtenSession struct {
	From int64   `json:"from"`
	Gaps []int64 `json:"gaps"`
	Each int     `json:"each"` // bubbles that each of these taps stands for
}

// Write stores the taps as of now. Opened is when the page was opened, in seconds since
// 1970; the times of the taps count from there.
func (t *Taps) Write(opened, now sound.Second) []byte {
	w := t.write(opened)
	w.Seen = milli(opened + now)
	b, err := json.Marshal(w)
	if err != nil {
		panic(err) // whole numbers can always be written
	}
	return b
}

func (t *Taps) write(opened sound.Second) *written {
	w := written{Each: t.PerPress(), Past: t.past}
	if t.before != nil {
		w.Before = t.before.write(opened)
	}
	if t.ended {
		w.Ended = new(milli(opened + t.end))
	}
	for _, s := range t.sessions {
		last := milli(opened + s.From)
		k := writtenSession{From: last, Each: 1}
		for _, tap := range s.Taps {
			at := milli(opened + tap.At)
			k.Gaps, k.Each, last = append(k.Gaps, at-last), tap.Bubbles, at
		}
		w.Sessions = append(w.Sessions, k)
	}
	return &w
}

func milli(at sound.Second) int64 { return int64(math.Round(float64(at) * 1000)) }

// errTaps says that a text holds no taps.
var errTaps = errors.New("what was written down of the taps cannot be read")

// latest is later than any time of a browser (ECMA-262, 21.4.1.1: 8.64e15 ms on both sides
// of 1970); whole numbers up to it are exact.
const latest = 1 << 53

// away is how long nothing may have been pressed, seconds, until the gas of a page that is
// opened again is taken to be over: nobody leaves a flask so long while it gives gas
// (estimate).
const away sound.Second = 3600

// Read gives the taps that Write stored to a page opened later, at a time in seconds since
// 1970; their times lie before its opening. The next press begins a session, since bubbles
// may have come in between. Where nothing was pressed for an hour or more, the gas is taken
// to have stopped at the last tap, and the next press starts a new count. Where the clock was
// put back, the time in between is unknown and counts as none. Read refuses what Write does
// not write.
func Read(text []byte, opened sound.Second) (Taps, error) {
	var w written
	if err := json.Unmarshal(text, &w); err != nil {
		return Taps{}, errTaps
	}
	last, err := w.last()
	if err != nil {
		return Taps{}, err
	}
	t := w.taps(max(last, milli(opened)))
	if opened-sound.Second(float64(max(last, w.Seen))/1000) >= away {
		t.leave()
	}
	return t, nil
}

// leave takes the gas to be over, and each one before it.
func (t *Taps) leave() {
	for ; t != nil; t = t.before {
		if t.None() {
			continue
		}
		t.past = true
		if !t.ended {
			t.ended, t.end = true, t.Last()
		}
	}
}

// taps are those that are written down, as a page knows them that was opened at a time.
func (w *written) taps(now int64) Taps {
	here := func(at int64) sound.Second { return sound.Second(float64(at-now) / 1000) }
	t := Taps{stopped: len(w.Sessions) > 0, each: w.Each, ended: w.Ended != nil, past: w.Past}
	if t.ended {
		t.end = here(*w.Ended)
	}
	if w.Before != nil {
		t.before = new(w.Before.taps(now))
	}
	for _, k := range w.Sessions {
		at := k.From
		s := sound.Session{From: here(at), Until: here(at)}
		for _, gap := range k.Gaps {
			at += gap
			s.Until = here(at)
			s.Taps = append(s.Taps, sound.Tap{At: s.Until, Bubbles: k.Each})
		}
		t.sessions = append(t.sessions, s)
	}
	return t
}

// last is the last time that is written down, of times that follow each other.
func (w *written) last() (int64, error) {
	last := int64(-latest)
	if !slices.Contains(PerPressChoices[:], w.Each) || w.Past && len(w.Sessions) == 0 || w.Seen > latest {
		return 0, errTaps
	}
	if w.Before != nil {
		var err error
		if last, err = w.Before.last(); err != nil {
			return 0, err
		}
	}
	for _, k := range w.Sessions {
		if k.From < last || k.From > latest || !slices.Contains(PerPressChoices[:], k.Each) {
			return 0, errTaps
		}
		last = k.From
		for _, gap := range k.Gaps {
			if gap < 0 || gap > latest-last {
				return 0, errTaps
			}
			last += gap
		}
	}
	switch {
	case w.Ended == nil:
		return last, nil
	case len(w.Sessions) == 0 || *w.Ended < last || *w.Ended > latest:
		return 0, errTaps
	}
	return *w.Ended, nil
}
