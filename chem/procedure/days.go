package procedure

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Days are when the work is to be done: from a start, or to be over by a finish. At most
// one of the two is given; a time that is not given is zero. Times are those of the
// clock on the wall: they have no zone.
type Days struct {
	Start, Finish time.Time
	Session
}

// NewDays are working days from nine to six, without a date, with nothing left out.
func NewDays() (d Days) {
	for _, f := range dayFields {
		f.Put(&d, f.Default)
	}
	return d
}

// Limits of a session: in less than half an hour no step fits, and a day has 24 hours.
const (
	ShortestSession = 30 * time.Minute
	LongestSession  = 24 * time.Hour
)

// MostApart is how many days sessions may lie apart: a month's meeting of a club.
const MostApart = 31

// The keys of when the work is done; TimePrefix goes before the key of a step.
const (
	StartKey   = "days.start"
	FinishKey  = "days.finish"
	FromKey    = "days.from"
	LongKey    = "days.long"
	EveryKey   = "days.every"
	SecondKey  = "days.second"
	MostKey    = "days.most"
	OutKey     = "days.out"
	TimePrefix = "time."
)

const bothEnds = "a start and a finish cannot both be given; the first was taken"

var dayFields = []field.Of[Days]{
	{
		Field: field.Field{
			Key: StartKey, Name: "Begin", Kind: field.Day, Default: quantity.Blank, Clears: FinishKey, Both: bothEnds,
			Why: "Day and time of the first cell. If nothing is set: next Saturday.",
		},
		Get: func(d *Days) float64 { return field.Minutes(d.Start) },
		Put: func(d *Days, v float64) { d.Start, d.Finish = instead(v, d.Finish) },
	},
	{
		Field: field.Field{
			Key: FinishKey, Name: "Or be done by", Kind: field.Day, Default: quantity.Blank, Clears: StartKey, Both: bothEnds,
			Why: "Takes the place of the beginning: the latest one is sought.",
		},
		Get: func(d *Days) float64 { return field.Minutes(d.Finish) },
		Put: func(d *Days, v float64) { d.Finish, d.Start = instead(v, d.Start) },
	},
	{
		Field: field.Field{
			Key: FromKey, Name: "At the bench from", Kind: field.Clock, Default: 9 * 60,
			Why: "Each day, or each evening of a club.",
		},
		Get: func(d *Days) float64 { return d.From.Minutes() },
		Put: func(d *Days, v float64) { d.From = quantity.Minute(v).Duration() },
	},
	{
		Field: field.Field{
			Key: LongKey, Name: "For so long", Unit: "min", Default: 9 * 60, Parse: readSession, Several: bothHours,
			Why: "A session; “3 h”, “to 18:00” or “14 to 18” will do. Steps that cannot be broken off are put into the next one.",
		},
		Get: func(d *Days) float64 { return d.Long.Minutes() },
		Put: func(d *Days, v float64) { d.Long = quantity.Minute(v).Duration() },
	},
	{
		Field: field.Field{
			Key: EveryKey, Name: "Next session after", Unit: "days", Default: 1, Parse: readApart,
			Why: "1 is each day, 7 a club that meets weekly. What cannot stand so long is then done in one session.",
		},
		Get: func(d *Days) float64 { return float64(d.Apart()) },
		Put: func(d *Days, v float64) { d.Every = int(v) },
	},
	{
		Field: field.Field{
			Key: SecondKey, Name: "And once more after", Unit: "days", Default: 0, Max: MostApart, Whole: true, Blank: "no second session",
			Why:    "A second session in the same round: 1 is the day after, 2 from Tuesday is Thursday. 0: none.",
			Remedy: "Give less than the days to the next session.",
		},
		Get: func(d *Days) float64 { return float64(d.Second) },
		Put: func(d *Days, v float64) { d.Second = int(v) },
	},
	{
		Field: field.Field{
			Key: MostKey, Name: "So many sessions at most", Default: 0, Max: mostSessions, Whole: true, Blank: "as many as it takes",
			Why:    "How often somebody can be there: two afternoons are 2. 0: as many as it takes.",
			Remedy: "Longer work wants longer sessions.",
		},
		Get: func(d *Days) float64 { return float64(d.Most) },
		Put: func(d *Days, v float64) { d.Most = int(v) },
	},
}

// Trouble is a sentence on a second session that does not go with the first, and is left
// out for that; "" where there is none.
func (s Session) Trouble() string {
	if s.Second == 0 || s.Second < s.Apart() {
		return ""
	}
	return fmt.Sprintf("The next session is after %d days anyway, so there is none after %d. Give less here, or more days to the next session.", s.Apart(), s.Second)
}

// End is the time of the day at which a session is over.
func (s Session) End() time.Time { return time.Time{}.Add(s.From + s.Long) }

// Later says why the work begins later than at the start that was typed, and whether on another
// day; "" where it begins then, or no start was typed.
func (d Days) Later(steps []Step, slots []Slot) (says string, otherDay bool) {
	first := slices.IndexFunc(slots, func(s Slot) bool { return s.Session > 0 })
	if d.Start.IsZero() || first < 0 || !slots[first].Start.After(d.Start) {
		return "", false
	}
	begins, day := slots[first].Start, midnight(d.Start)
	on, to := day.Format("Monday 2 January"), day.Add(d.From+d.Long)
	step := &steps[slots[first].Step]
	for _, slot := range slots[:first] { // of a run: what goes on by itself is begun before anybody is there
		if before := &steps[slot.Step]; step.Needs == before.ID && slot.End.After(d.Start) {
			return "“" + step.Title + "” waits for “" + before.Title + "”, which is over on " + slot.End.Format("Monday 2 January, 15:04") + " at the earliest.", false
		}
	}
	then := " So the work begins on " + begins.Format("Monday 2 January, 15:04") + "."
	switch {
	case d.out(day):
		return on + " is left out by “" + outField.Name + "”." + then, true
	case begins.Equal(day.Add(d.From)):
		return "It begins at " + begins.Format("15:04") + ": before that nobody is at the bench.", false
	case !d.Start.Before(to):
		return "Nobody is at the bench on " + on + " after " + to.Format("15:04") + "." + then + " Begin earlier, or be at the bench from " + d.Start.Format("15:04") + ".", true
	}
	return "After " + d.Start.Format("15:04") + " too little is left of the session for “" + step.Title + "”." + then + " Begin earlier, or be at the bench for longer.", true
}

// outField is the dates that are left out.
var outField = field.Field{
	Key: OutKey, Name: "Not on", Why: "Holidays and the like: 2026-04-03, or 20 July to 30 August 2026, with commas between.",
	Parse: func(string) (float64, error) { return quantity.Blank, nil }, // the form reads it
}

// instead is one end of the work and what becomes of the other: a start takes the place of
// a finish, and the other way round.
func instead(v float64, other time.Time) (this, then time.Time) {
	if !quantity.Given(v) {
		return time.Time{}, other
	}
	return field.Time(v), time.Time{}
}

func readSession(text string) (float64, error) {
	m, err := ReadMinutes(strings.TrimSpace(text))
	if err != nil {
		return 0, fmt.Errorf("“%s” cannot be read as the length of a session. Give minutes such as 240, hours such as 4 h, its end such as to 18:00, or both ends such as 14 to 18.", clip(text))
	}
	if long := m.Duration(); quantity.Given(m) && (long < ShortestSession || long > LongestSession) {
		err = fmt.Errorf("A session of %s min is too short or too long. Give 30 to 1440 minutes, or hours such as 3 h.", field.Plain(float64(m)))
	}
	return float64(m), err
}

// hourForms are how people write a time of the day, and before it which end of a session it is:
// "18:00", "to 18:00", "until 6.30", "to 18".
var hourForms = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(from|to|until|till)? *([01]?\d|2[0-4])(?:[:.]([0-5]\d))?$`)
})

// readHour reads such a time, and the word before it.
func readHour(text string) (word string, at time.Duration, ok bool) {
	part := hourForms().FindStringSubmatch(strings.ToLower(strings.TrimSpace(text)))
	if part == nil {
		return "", 0, false
	}
	hours, _ := strconv.Atoi(part[2])
	minutes, _ := strconv.Atoi(part[3]) // empty is nothing
	return part[1], time.Duration(hours)*time.Hour + time.Duration(minutes)*time.Minute, true
}

// bothHours parts "14 to 18" into when a session begins and when it is over.
func bothHours(text string) []field.Change {
	from, to, _ := field.Ends(strings.ToLower(text))
	word, begins, ok := readHour(from)
	_, _, ends := readHour("to " + to)
	if !ok || !ends || word != "" && word != "from" || begins >= 24*time.Hour {
		return nil
	}
	return []field.Change{{Key: FromKey, Text: time.Time{}.Add(begins).Format(field.ClockForm)}, {Key: LongKey, Text: "to " + strings.TrimSpace(to)}}
}

// upTo makes a length of the end of a session; any other text stays what it is.
func (s Session) upTo(text string) string {
	word, ends, ok := readHour(text)
	if !ok || word == "" || word == "from" {
		return text
	}
	long := ends - s.From
	if long <= 0 {
		long += 24 * time.Hour // it is over on the next day
	}
	return field.Plain(long.Minutes())
}

func readApart(text string) (float64, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return quantity.Blank, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > MostApart {
		return 0, fmt.Errorf("“%s” is no number of days from one session to the next. Give a whole number from 1, each day, to %d; 7 is once a week.", field.Clip(text, 60), MostApart)
	}
	return float64(n), nil
}

// Form is the days as they are typed. Sessions of no length were never set, and count as
// the usual ones.
func (d *Days) Form() field.Form {
	if d.Long == 0 {
		d.Session = NewDays().Session
	}
	form := field.Over(field.Days, dayFields, d)
	rows := form
	form.Fields = append(form.Fields, &outField)
	form.Find = func(key string) (*field.Field, bool) { return field.Find(form.Fields, key) }
	form.Text = func(f *field.Field) string {
		if f == &outField {
			return strings.ReplaceAll(WriteSpans(d.Out), ",", ", ")
		}
		return rows.Text(f)
	}
	form.Written = func(f *field.Field) (string, bool) {
		if f == &outField {
			return WriteSpans(d.Out), len(d.Out) > 0
		}
		return rows.Written(f)
	}
	form.Set = func(f *field.Field, text string) (err error) {
		if f.Key == LongKey {
			if both := bothHours(text); both != nil { // of a link
				from, _ := form.Find(FromKey)
				_ = rows.Set(from, both[0].Text) // a time that was read
				text = both[1].Text
			}
			text = d.upTo(text)
		}
		if f != &outField {
			return rows.Set(f, text)
		}
		out, err := ReadSpans(text)
		if err == nil {
			d.Out = out
		}
		return err
	}
	return form
}

// Form is the times of the steps as they are typed, in minutes. A step that no plan has is
// told by its key.
func (t Durations) Form() field.Form {
	step := func(f *field.Field) string { return strings.TrimPrefix(f.Key, TimePrefix) }
	form := field.Form{Affects: field.Days, Fields: stepFields(), Find: func(key string) (*field.Field, bool) {
		f, ok := field.Find(stepFields(), key)
		if name, is := strings.CutPrefix(key, TimePrefix); !ok && is {
			return &field.Field{Key: key, Parse: func(string) (float64, error) {
				return 0, fmt.Errorf("This version does not know a step “%s”.", field.Clip(name, 60))
			}}, true
		}
		return f, ok
	}}
	return form.Values(func(f *field.Field) (float64, bool) {
		m, ok := t[step(f)]
		if !ok {
			return quantity.Blank, false
		}
		return math.Round(float64(m)), true
	}, func(f *field.Field, v float64) error { return t.Set(step(f), quantity.Minute(v)) })
}

var stepFields = sync.OnceValue(func() (list []*field.Field) {
	for _, key := range keys {
		list = append(list, &field.Field{Key: TimePrefix + key, Unit: "min", Parse: func(text string) (float64, error) {
			m, err := ReadMinutes(strings.TrimSpace(text))
			return float64(m), err
		}})
	}
	return list
})

// Lay lays steps out on the days, from the start otherwise given where the days have
// neither start nor finish. It gives the time of the first step of the day itself.
func (d Days) Lay(steps []Step, otherwise time.Time) (time.Time, []Slot, error) {
	if !d.Finish.IsZero() {
		return FinishBy(steps, d.Finish, d.Session)
	}
	start := d.Start
	if start.IsZero() {
		start = otherwise
	}
	slots, err := Schedule(steps, start, d.Session)
	return start, slots, err
}

// minutesForms are how people write how long something takes: "90", "90 min", "1 h 30",
// "1.5 h", "1:30".
var minutesForms = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:(\d+(?:[.,]\d+)?) ?h(?:ours?|rs?)?)? ?(?:(\d+(?:[.,]\d+)?) ?(?:m|min|minutes?)?)?$|^(\d+):([0-5]\d)$`)
})

// ReadMinutes reads how long something takes, in minutes unless the text says hours; at
// most a week. Nothing at all is Blank.
func ReadMinutes(text string) (quantity.Minute, error) {
	s := strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(text)), " "))
	if s == "" {
		return quantity.Minute(quantity.Blank), nil
	}
	part := minutesForms().FindStringSubmatch(s)
	if part == nil || len(s) > 30 {
		return 0, fmt.Errorf("“%s” cannot be read as minutes. Type some such as 90, or 1 h 30.", clip(text))
	}
	number := func(s string) float64 {
		v, _ := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64) // empty is nothing
		return v
	}
	v := quantity.Minute(math.Round(60*number(part[1]) + number(part[2]) + 60*number(part[3]) + number(part[4])))
	if v > Longest {
		return 0, fmt.Errorf("“%s” is more than a week. Type less than %.0f minutes.", clip(text), float64(Longest))
	}
	return v, nil
}

func clip(s string) string { return route.Clip(s, 40) }

// Set takes the time that the user gives a step. Blank brings back the estimate.
func (t Durations) Set(key string, m quantity.Minute) error {
	switch {
	case !slices.Contains(keys[:], key):
		return fmt.Errorf("procedure: no plan has a step %q", key)
	case !quantity.Given(m):
		delete(t, key)
	case m < 0 || m > Longest:
		return fmt.Errorf("procedure: step %q cannot take %g minutes", key, float64(m))
	default:
		t[key] = m
	}
	return nil
}

// Ready is something to see to the evening before.
type Ready struct {
	Do   string // what to do with it
	List []string
}

// Evening is what must be bought, made up and cooled the evening before; of the three,
// those that a plan has anything for.
func Evening(p *route.Plan, s *route.Sheet, reagents []route.Reagent) []Ready {
	if !opens(s) {
		return nil
	}
	var list []Ready
	for _, told := range ready.Of(newMaker(p, s, nil).t, "") {
		r := Ready{told.One("do"), told.All("item")}
		if told.Key == "bought" {
			for _, n := range reagents {
				if n.Name != "Ice" && n.Name != "Permanganate paper" { // told of below
					r.List = append(r.List, n.Name+", "+n.ToBuyText())
				}
			}
		}
		if len(r.List) > 0 {
			list = append(list, r)
		}
	}
	return list
}
