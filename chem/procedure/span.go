package procedure

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"

	"rosesalt/chem/field"
)

// Span is dates in a row, both of its ends included: midnights, without a zone.
type Span struct{ First, Last time.Time }

// Limits of what is left out: so many spans, and so many days in all.
const (
	mostSpans = 40
	mostOut   = 730
)

// dateForms are how a date is written: as a link has it, in words, or by day, month and year
// with points between. With strokes nobody knows which is the day.
var dateForms = [...]string{time.DateOnly, "2 January 2006", "2 Jan 2006", "2.1.2006"}

// spanEnds part the ends of a span.
var spanEnds = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\s*(?:\.\.|–|—|\bto\b|\buntil\b| - )\s*`)
})

// ReadSpans reads dates and spans of them: 2026-04-03, 2026-07-20..2026-08-30, or in words as
// in 20 July to 30 August 2026, parted by commas. They come in order.
func ReadSpans(text string) (list []Span, err error) {
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		first, last := part, part
		if ends := spanEnds().Split(part, -1); len(ends) == 2 {
			first, last = complete(ends[0], ends[1]), ends[1]
		}
		from, ok := readDate(first)
		to, also := readDate(last)
		switch {
		case !ok || !also:
			return nil, fmt.Errorf("“%s” is no date and no span of dates. Give some such as 2026-04-03, 2026-07-20..2026-08-30 or 20 July to 30 August 2026, with commas between.", clip(part))
		case to.Before(from):
			return nil, fmt.Errorf("“%s” ends before it begins. Give the first date first.", clip(part))
		}
		list = append(list, Span{from, to})
	}
	if len(list) > mostSpans {
		return nil, fmt.Errorf("%d dates and spans are left out, and %d is the limit. Put those together that follow each other.", len(list), mostSpans)
	}
	if n := (Session{Out: list}).daysOut(); n > mostOut {
		return nil, fmt.Errorf("%d days are left out, and %d is the limit. Leave out those of two years at most.", n, mostOut)
	}
	slices.SortFunc(list, func(a, b Span) int { return a.First.Compare(b.First) })
	return list, nil
}

// complete gives the first of two dates the month and the year that it leaves to the second.
func complete(first, last string) string {
	for i := len(last); i > 0; i-- {
		if i == len(last) || last[i] == ' ' || last[i-1] == '.' {
			if _, ok := readDate(first + last[i:]); ok {
				return first + last[i:]
			}
		}
	}
	return first
}

func readDate(text string) (time.Time, bool) {
	text = strings.TrimSpace(text)
	for _, form := range dateForms {
		if t, err := time.Parse(form, text); err == nil && t.Year() >= field.FirstYear && t.Year() <= field.LastYear {
			return t, true
		}
	}
	return time.Time{}, false
}

// WriteSpans writes them as a link has them.
func WriteSpans(list []Span) string {
	var all []string
	for _, s := range list {
		text := s.First.Format(time.DateOnly)
		if s.Last.After(s.First) {
			text += ".." + s.Last.Format(time.DateOnly)
		}
		all = append(all, text)
	}
	return strings.Join(all, ",")
}

// out tells whether the day of a time is left out.
func (s Session) out(t time.Time) bool {
	if len(s.Out) == 0 {
		return false
	}
	y, m, d := t.Date()
	day := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	return slices.ContainsFunc(s.Out, func(o Span) bool { return !day.Before(o.First) && !day.After(o.Last) })
}

// daysOut is how many days are left out, those told twice counted twice.
func (s Session) daysOut() (n int) {
	for _, o := range s.Out {
		n += between(o.First, o.Last) + 1
	}
	return n
}
