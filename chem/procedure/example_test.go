package procedure_test

import (
	"fmt"
	"time"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
)

// The work of the usual plan, begun on a Monday, within six hours of each day; then the latest
// day on which it may begin to be over by Friday evening.
func ExampleSchedule() {
	plan := route.NewPlan()
	steps := procedure.Steps(&plan, new(route.Runner).Run(&plan), nil)
	day := procedure.Session{From: 9 * time.Hour, Long: 6 * time.Hour}
	monday := time.Date(2025, time.May, 5, 9, 0, 0, 0, time.UTC)
	slots, err := procedure.Schedule(steps, monday, day)
	if err != nil {
		fmt.Println(err)
		return
	}
	last := slots[len(slots)-1]
	fmt.Println("over on", last.End.Weekday(), "in session", last.Session)

	friday := time.Date(2025, time.May, 9, 18, 0, 0, 0, time.UTC)
	begin, _, err := procedure.FinishBy(steps, friday, day)
	fmt.Println("to begin on", begin.Weekday(), err)
	// Output:
	// over on Friday in session 5
	// to begin on Monday <nil>
}

// A time as people write it.
func ExampleReadMinutes() {
	m, err := procedure.ReadMinutes("1 h 30 min")
	fmt.Println(float64(m), procedure.Hours(m), err)
	// Output: 90 1 h 30 <nil>
}
