package procedure

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

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

// NewDays are working days from nine to six, without a date.
func NewDays() Days {
	return Days{Session: Session{From: 9 * time.Hour, Long: 9 * time.Hour, Every: 1}}
}

// Limits of a session: less than half an hour holds no step, more than a day there is not.
const (
	ShortestSession = 30 * time.Minute
	LongestSession  = 24 * time.Hour
)

// MostApart is how many days sessions may lie apart: a month's meeting of a club.
const MostApart = 31

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
var minutesForms = regexp.MustCompile(`^(?:(\d+(?:[.,]\d+)?) ?h(?:ours?|rs?)?)? ?(?:(\d+(?:[.,]\d+)?) ?(?:m|min|minutes?)?)?$|^(\d+):([0-5]\d)$`)

// ReadMinutes reads how long something takes, in minutes unless the text says hours; at
// most a week. Nothing at all is Blank.
func ReadMinutes(text string) (quantity.Minute, error) {
	s := strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(text)), " "))
	if s == "" {
		return quantity.Minute(quantity.Blank), nil
	}
	part := minutesForms.FindStringSubmatch(s)
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
func (t Times) Set(key string, m quantity.Minute) error {
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
func Evening(p *route.Plan, s *route.Sheet) []Ready {
	if !opens(s) {
		return nil
	}
	var list []Ready
	for _, told := range ready.Of(newMaker(p, s, nil).t, "") {
		r := Ready{told.One("do"), told.All("item")}
		if told.Key == "bought" {
			for _, n := range route.Reagents(p, s) {
				if n.Name != "Ice" && n.Name != "Permanganate paper" { // told of below
					r.List = append(r.List, n.Name+", "+route.Print(n.Amount, n.Unit))
				}
			}
		}
		if len(r.List) > 0 {
			list = append(list, r)
		}
	}
	return list
}
