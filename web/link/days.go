package link

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
)

// How times are written: those of the clock on the wall, without a zone.
const (
	DayForm   = "2006-01-02T15:04"
	ClockForm = "15:04"
)

// The keys of when the work is done; TimePrefix goes before the key of a step.
const (
	StartKey   = "days.start"
	FinishKey  = "days.finish"
	FromKey    = "days.from"
	LongKey    = "days.long"
	EveryKey   = "days.every"
	TimePrefix = "time."
)

// IsDays tells whether a key is one of when the work is done, or of how long a step takes.
func IsDays(key string) bool {
	return key == StartKey || key == FinishKey || key == FromKey || key == LongKey || key == EveryKey || strings.HasPrefix(key, TimePrefix)
}

// DaysText is what stands for a key of the days, as a field and a link take it; empty
// where nothing is given.
func DaysText(days procedure.Days, times procedure.Times, key string) string {
	day := func(t time.Time) string {
		if t.IsZero() {
			return ""
		}
		return t.Format(DayForm)
	}
	switch key {
	case StartKey:
		return day(days.Start)
	case FinishKey:
		return day(days.Finish)
	case FromKey:
		return (time.Time{}).Add(days.From).Format(ClockForm)
	case LongKey:
		return plain(days.Long.Minutes())
	case EveryKey:
		return strconv.Itoa(days.Apart())
	}
	if m, ok := times[strings.TrimPrefix(key, TimePrefix)]; ok {
		return plain(float64(m))
	}
	return ""
}

// SetDays puts what was typed for a key of the days into them. Nothing brings back the
// usual; a start takes the place of a finish, and the other way round.
func SetDays(days *procedure.Days, times procedure.Times, key, text string) error {
	usual := procedure.NewDays()
	text = strings.TrimSpace(text)
	switch key {
	case StartKey, FinishKey:
		at, other := &days.Start, &days.Finish
		if key == FinishKey {
			at, other = other, at
		}
		if text == "" {
			*at = time.Time{}
			return nil
		}
		t, err := time.Parse(DayForm, text)
		if err != nil || t.Year() < 2000 || t.Year() > 2199 {
			return fmt.Errorf("“%s” is no day and time. Give one such as 2026-03-02T09:00, between the years 2000 and 2199.", clip(text))
		}
		*at, *other = t, time.Time{}
	case FromKey:
		if text == "" {
			days.From = usual.From
			return nil
		}
		t, err := time.Parse(ClockForm, text)
		if err != nil {
			return fmt.Errorf("“%s” is no time of the day. Give one such as 09:00.", clip(text))
		}
		days.From = time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute
	case LongKey:
		m, err := procedure.ReadMinutes(text)
		if err != nil {
			return err
		}
		if !quantity.Given(m) {
			days.Long = usual.Long
			return nil
		}
		long := time.Duration(float64(m) * float64(time.Minute))
		if long < procedure.ShortestSession || long > procedure.LongestSession {
			return fmt.Errorf("A session of %s min is too short or too long. Give 30 to 1440 minutes, or hours such as 3 h.", plain(float64(m)))
		}
		days.Long = long
	case EveryKey:
		if text == "" {
			days.Every = usual.Every
			return nil
		}
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > procedure.MostApart {
			return fmt.Errorf("“%s” is no number of days from one session to the next. Give a whole number from 1, each day, to %d; 7 is once a week.", clip(text), procedure.MostApart)
		}
		days.Every = n
	default:
		step := strings.TrimPrefix(key, TimePrefix)
		if !slices.Contains(procedure.Keys(), step) {
			return fmt.Errorf("This version does not know a step “%s”.", clip(step))
		}
		m, err := procedure.ReadMinutes(text)
		if err != nil {
			return err
		}
		return times.Set(step, m)
	}
	return nil
}

// encodeDays writes what differs from the usual; days of no length were never set.
func encodeDays(b *strings.Builder, c *Content) {
	usual, days := procedure.NewDays(), c.Days
	if days.Long == 0 {
		days.Session = usual.Session
	}
	for _, key := range []string{StartKey, FinishKey, FromKey, LongKey, EveryKey} {
		// Neither a colon nor a hyphen needs an escape in a fragment.
		if text := DaysText(days, nil, key); text != DaysText(usual, nil, key) {
			b.WriteString("&" + key + "=" + text)
		}
	}
	for _, step := range procedure.Keys() {
		if m, ok := c.Times[step]; ok {
			b.WriteString("&" + TimePrefix + step + "=" + strconv.FormatFloat(math.Round(float64(m)), 'f', -1, 64))
		}
	}
}

// aboutDays reads what a link says of when the work is done.
func (r *reader) aboutDays(part, key, value string) bool {
	if !IsDays(key) {
		return false
	}
	if key == FinishKey && r.seen[StartKey] || key == StartKey && r.seen[FinishKey] {
		r.trouble(part, "a start and a finish cannot both be given; the first was taken")
		return true
	}
	if err := SetDays(&r.days, r.times, key, value); err != nil {
		r.trouble(part, err.Error())
	}
	return true
}
