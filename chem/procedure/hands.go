package procedure

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Hand is who does a step where there are sessions, and when.
type Hand uint8

// The hands.
const (
	InSession  Hand = iota // who is at the session
	Staff                  // an adult, between two sessions
	ShownFirst             // an adult between two sessions, after a small piece of it was shown in one
	LeftToAir              // nobody: the liquor stands open until it is dry
)

// handOptions are the hands as words of a choice.
var handOptions = field.Words("class", "in the session", "staff", "an adult, between sessions", "shown", "shown, then by an adult", "air", "left to the air, for days")

// Away tells whether the step takes none of a session, since an adult does it between two.
func (h Hand) Away() bool { return h == Staff || h == ShownFirst }

// doing is who does the step itself, whoever it is shown to.
func (h Hand) doing() Hand {
	if h == ShownFirst {
		return Staff
	}
	return h
}

// Hands are who does the steps, by their keys; InSession where nothing is said.
type Hands map[string]Hand

// HandPrefix goes before the key of a step whose hand is given.
const HandPrefix = "by."

// handed are the steps that are done in a session unless something else is said.
var handed = slices.DeleteFunc(slices.Clone(keys[:]), func(key string) bool {
	return slices.Contains([]string{"ready", "dilute", "cool", "blue"}, key) // the evening before, or by themselves
})

var handFields = sync.OnceValue(func() (list []*field.Field) {
	for _, key := range handed {
		options := handOptions
		if key != "evaporate" {
			options = options[:LeftToAir]
		}
		list = append(list, &field.Field{Key: HandPrefix + key, Name: "Done by", Options: options})
	}
	return list
})

// Form is who does the steps, as it is chosen.
func (h Hands) Form() field.Form {
	step := func(f *field.Field) string { return strings.TrimPrefix(f.Key, HandPrefix) }
	form := field.Form{Affects: field.Days, Fields: handFields(), Find: func(key string) (*field.Field, bool) { return field.Find(handFields(), key) }}
	return form.Values(func(f *field.Field) (float64, bool) {
		hand, ok := h[step(f)]
		return float64(hand), ok
	}, func(f *field.Field, v float64) error {
		if !quantity.Given(v) || v == 0 {
			delete(h, step(f))
		} else {
			h[step(f)] = Hand(v)
		}
		return nil
	})
}

const (
	showTime quantity.Minute = 15 // of what is shown of a step (common practice)

	// What is left to the air stands so deep at most, mm, and loses so much in a day. Of
	// water at 20 °C in a room of half the humidity, pools' rule of 25 kg/(m² h) times the
	// difference of the humidity ratios would take 4 mm; in still air, and with salt in it,
	// it is a quarter (estimate).
	airDeep, airDaily = 5, 1

	airTime = quantity.Minute(24 * 60 * airDeep / airDaily)
)

// WithHands gives the steps of a plan the hands that do them. What must follow in one go goes to
// an adult as a whole; the flask then cools under the adult's eyes. Liquor that is to
// crystallise is not left to the air: nobody would stop it in time.
func WithHands(p *route.Plan, s *route.Sheet, steps []Step, by Hands, times Durations) []Step {
	if len(by) == 0 {
		return steps
	}
	for i := range steps {
		st := &steps[i]
		if st.Watch == Overnight {
			continue // it goes by itself
		}
		switch st.By = by[st.Key]; {
		case st.By == ShownFirst:
			st.Show = min(showTime, st.Minutes)
		case st.By == LeftToAir && !Dries(p):
			st.By = InSession
		case st.By == LeftToAir:
			st.leaveToAir(p, s, times)
		}
	}
	for i := 0; i < len(steps); i++ {
		end := i
		for end < len(steps)-1 && steps[end].Onward {
			end++
		}
		if chain := steps[i : end+1]; slices.ContainsFunc(chain, func(st Step) bool { return st.By.Away() }) {
			for k := range chain {
				if chain[k].By == InSession {
					chain[k].By = Staff
				}
			}
			if next := end + 1; next < len(steps) && steps[next].Key == "cool" {
				steps[next].By = Staff
			}
		}
		i = end
	}
	return steps
}

// Dries tells whether the liquor of a plan may be left to the air.
func Dries(p *route.Plan) bool { return p.DryWay == route.ToDryness }

// leaveToAir turns boiling down into standing open.
func (st *Step) leaveToAir(p *route.Plan, s *route.Sheet, times Durations) {
	m := newMaker(p, s, nil)
	told := texts.At("air", m.t)
	st.Do, st.Stop, st.See = told.All("do"), told.One("stop"), told.One("see")
	st.Pause.How = told.One("pause")
	st.Watch, st.Parts, st.MostlyWaiting = Overnight, false, false
	st.Title, st.Name = told.One("title"), told.One("title")
	if _, ok := times[st.Key]; !ok {
		st.Minutes = airTime
	}
}

// HandName is who does a step, as read.
func HandName(h Hand) string { return phrase.Lower(handOptions[h].Name) }

// String is the hand as a link has it.
func (h Hand) String() string {
	if int(h) < len(handOptions) {
		return handOptions[h].Word
	}
	return fmt.Sprintf("hand %d", uint8(h))
}
