package tabs

import (
	"fmt"
	"strings"
	"time"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/link"
	"rosesalt/web/runs"
)

// Words says what a state is, such as "the run of Tuesday, 14:05, 2 × R20, 3 of 9 stages
// done, two weighings". The day is told as from now, in now's zone.
func (s *State) Words(now time.Time) string {
	c, _ := link.Decode(s.Plan)
	kind := "plan"
	if c.Run != nil {
		kind = "run"
	}
	holds := []string{strings.ReplaceAll(runs.Cells(&c.Plan), " × ", "\u00a0×\u00a0")} // read in one piece
	if c.Run != nil && c.Run.Done > 0 {
		holds = append(holds, fmt.Sprintf("%d of %d stages done", c.Run.Done, route.Stages))
	}
	add := func(n int, one, many string) {
		if n > 0 {
			holds = append(holds, counted(n, one, many))
		}
	}
	add(weighings(&c), "weighing", "weighings")
	add(len(c.Assays)+len(c.Log), "other reading", "other readings")
	add(len(s.Unread), "entry that cannot be read", "entries that cannot be read")
	if c.Notes != "" {
		holds = append(holds, "notes")
	}
	at, err := time.Parse(time.RFC3339, s.At)
	if err != nil {
		return "the " + kind + ", " + strings.Join(holds, ", ")
	}
	return "the " + kind + " of " + day(at.In(now.Location()), now) + ", " + strings.Join(holds, ", ")
}

// weighings are how many of the things to be weighed or measured have their value.
func weighings(c *link.Content) (n int) {
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; in.Standing == route.Measured && !in.IsDefault(&c.Plan) {
			n++
		}
	}
	for _, in := range account.Inputs() {
		if in.Kind == field.Fact {
			continue
		}
		read := 0
		dish, _ := account.DishInputs(in.Key)
		for _, reading := range dish {
			if quantity.Given(c.Found.Value(reading.Key)) {
				read++
			}
		}
		if read == 0 && quantity.Given(c.Found.Value(in.Key)) {
			read = 1
		}
		n += read
	}
	return n
}

// day is a time as people tell it who look back from now.
func day(at, now time.Time) string {
	midnight := func(t time.Time) time.Time {
		return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
	}
	clock := at.Format(", 15:04")
	switch days := int(midnight(now).Sub(midnight(at)).Hours() / 24); {
	case days == 0:
		return "today" + clock
	case days == 1:
		return "yesterday" + clock
	case days > 1 && days < 7:
		return at.Weekday().String() + clock
	case at.Year() == now.Year():
		return at.Format("2 January") + clock
	}
	return at.Format("2 January 2006") + clock
}

var words = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

func counted(n int, one, many string) string {
	number := fmt.Sprint(n)
	if n < len(words) {
		number = words[n]
	}
	if n == 1 {
		return number + " " + one
	}
	return number + " " + many
}
