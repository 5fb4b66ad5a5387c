// Package field describes what a person can type: a number in a unit, one of several
// words, a fact, a day, a time of the day, an interval, a text.
//
// A Field says all of it once: key, name, unit, limits, what blank means, why it is asked
// for, what to do when a limit is passed. It reads texts, prints values as a link takes
// them, and refuses what it does not take with a sentence for the user. A Form is an
// ordered set of fields over a store of values; whoever shows, keeps or sends what was
// typed goes through forms and needs to know nothing of the stores.
//
//	f := field.Field{Name: "Strength of the acid", Unit: "%", Min: 10, Max: 100, Remedy: "Read it off the label."}
//	v, err := f.Take("96,5") // 96.5
//	_, err = f.Take("0.96")  // 0.96 % is below the least, 10 %. Read it off the label.
package field

import (
	"fmt"
	"strings"
	"time"

	"rosesalt/chem/quantity"
)

// Kind is what a field takes.
type Kind uint8

// The kinds. A field with Options is a choice: its value is the place of the word.
const (
	Number   Kind = iota
	Fact          // yes or no: 1 or 0
	Day           // a day and a time by the clock on the wall, in minutes from 1970
	Clock         // a time of the day, in minutes from midnight
	Interval      // the low and the high of a number
	Text          // as it stands
)

// How days and times of the day are written: by the clock on the wall, without a zone.
const (
	DayForm   = "2006-01-02T15:04"
	ClockForm = "15:04"
)

// Standing says what a value of a field is worth before the user touches it.
type Standing uint8

// The standings of a default.
const (
	Chosen    Standing = iota // a free choice, with a sensible start
	Estimated                 // a guess, with low and high, until something is weighed
	Measured                  // blank until the user weighs, titrates or reads
	WorkedOut                 // blank means as much as needed
)

// Option is one word of a choice.
type Option struct {
	Word string // as in a link
	Name string // as read
}

// Words are the options of a choice: what a link says of each, and what is read.
func Words(pairs ...string) (list []Option) {
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, Option{pairs[i], pairs[i+1]})
	}
	return list
}

// Field is one thing that the user can type. The low and high of an estimate bound what
// the truth is likely to be, and its default is the median: the truth is as likely above
// it as below. Min and Max bound what is accepted.
type Field struct {
	Key      string
	Name     string
	Unit     string // as printed after the number; "" for a count or a choice
	Why      string // one short sentence beside the field
	Kind     Kind
	Standing Standing
	Rare     bool // seldom changed: may be folded away

	Default   float64
	Low, High float64 // of an estimate
	Min, Max  float64
	Whole     bool   // only whole numbers
	Blank     string // what blank means; "" where blank is not accepted
	Remedy    string // what to do when a limit is passed

	Options []Option

	// Parse reads a text in the field's own way, limits and all; its messages name what
	// they are about. Nil where a text is read as others of the kind.
	Parse func(text string) (float64, error)

	// Several parts a text that tells of several fields of one form at once, as "14 to 18"
	// tells when a session begins and when it is over; nil where it tells of this one alone.
	Several func(text string) []Change

	Clears string // the key of a field whose text no longer counts once this one is typed; or ""
	Both   string // the message for a link that gives this field and the one it clears; "" where a link may give both
}

// Change is a field, by its key, and what is to stand in it.
type Change struct{ Key, Text string }

// IsChoice tells whether the field is a choice of words.
func (f *Field) IsChoice() bool { return f.Options != nil }

// Read makes a value of what was typed: a number as people write it, the word of a choice,
// a day, a time. Nothing at all is Blank. The error names what was typed and what is
// wanted; limits are Accept's concern.
func (f *Field) Read(text string) (float64, error) {
	switch {
	case f.Parse != nil:
		return f.Parse(text)
	case f.IsChoice():
		return f.word(text)
	case f.Kind == Day || f.Kind == Clock:
		return f.time(text)
	}
	return f.number(text)
}

// Take is a value that was read and is accepted.
func (f *Field) Take(text string) (float64, error) {
	v, err := f.Read(text)
	if err == nil {
		err = f.Accept(v)
	}
	return v, err
}

// Accept tells whether a value, or Blank, is within what the field takes: inside the
// limits, whole where it must be, not blank where something must be given. The message
// names the value, the limit and the remedy.
func (f *Field) Accept(v float64) error {
	switch {
	case v >= f.Min && v <= f.Max && !f.Whole: // the usual case, and frequent in each draw
		return nil
	case f.Parse != nil || f.Kind == Day || f.Kind == Clock || f.IsChoice() && quantity.Given(v):
		return nil // as it was read
	case !quantity.Given(v) && f.Blank == "":
		return fmt.Errorf("Nothing is given. Give %s.", f.between())
	case !quantity.Given(v):
		return nil
	case v < f.Min:
		return fmt.Errorf("%s is below the least, %s.%s", f.Print(v), f.Print(f.Min), f.remedy())
	case v > f.Max:
		return fmt.Errorf("%s is above the limit of %s.%s", f.Print(v), f.Print(f.Max), f.remedy())
	case f.Whole && v != float64(int64(v)):
		return fmt.Errorf("%s is not a whole number. Give %s.", f.Print(v), f.between())
	}
	return nil
}

// Write is a value as Read takes it and a link carries it; "" for Blank.
func (f *Field) Write(v float64) string {
	switch {
	case !quantity.Given(v):
		return ""
	case f.IsChoice():
		return f.Options[int(v)].Word
	case f.Kind == Day:
		return Time(v).Format(DayForm)
	case f.Kind == Clock:
		return Time(v).Format(ClockForm)
	}
	return Plain(v)
}

// Says is a refusal with the field's name before it, where the message does not name it.
func (f *Field) Says(err error) string {
	if f.Name == "" || f.Parse != nil || f.Kind == Day || f.Kind == Clock {
		return err.Error()
	}
	return f.Name + ": " + err.Error()
}

// word is the place of the word of a choice. Words that somebody may type are listed in
// the message; readings are chosen from a list.
func (f *Field) word(text string) (float64, error) {
	words := ""
	for i, o := range f.Options {
		if o.Word == text {
			return float64(i), nil
		}
		if i > 0 {
			words += ", "
		}
		words += o.Word
	}
	switch {
	case f.Standing != Measured:
		return 0, fmt.Errorf("“%s” is not offered. Choose one of: %s.%s", clip(text), words, f.remedy())
	case strings.TrimSpace(text) == "":
		return quantity.Blank, nil
	}
	return 0, fmt.Errorf("“%s” is not offered.", clip(text))
}

// The years between which days are taken.
const FirstYear, LastYear = 2000, 2199

func (f *Field) time(text string) (float64, error) {
	if strings.TrimSpace(text) == "" {
		return quantity.Blank, nil
	}
	text = strings.TrimSpace(text)
	if f.Kind == Clock {
		t, err := time.Parse(ClockForm, text)
		if err != nil {
			return 0, fmt.Errorf("“%s” is no time of the day. Give one such as 09:00.", Clip(text, 60))
		}
		return float64(60*t.Hour() + t.Minute()), nil
	}
	t, err := time.Parse(DayForm, text)
	if err != nil || t.Year() < FirstYear || t.Year() > LastYear {
		return 0, fmt.Errorf("“%s” is no day and time. Give one such as 2026-03-02T09:00, between the years %d and %d.", Clip(text, 60), FirstYear, LastYear)
	}
	return Minutes(t), nil
}

// Time is a day and time out of the value of its field.
func Time(minutes float64) time.Time { return time.Unix(60*int64(minutes), 0).UTC() }

// Minutes is the value of a day and time; Blank for none.
func Minutes(t time.Time) float64 {
	if t.IsZero() {
		return quantity.Blank
	}
	return float64(t.Unix() / 60)
}

func (f *Field) between() string {
	s := "a number"
	if f.Whole {
		s = "a whole number"
	}
	return s + " from " + f.Print(f.Min) + " to " + f.Print(f.Max)
}

func (f *Field) remedy() string {
	if f.Remedy == "" {
		return ""
	}
	return " " + f.Remedy
}
