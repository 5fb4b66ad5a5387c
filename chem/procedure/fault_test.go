package procedure_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// TestFaultsNameTheirStepsInAnyList: a fault of a part of the steps is told of the whole list, and
// explained by the titles that the steps have there.
func TestFaultsNameTheirStepsInAnyList(t *testing.T) {
	list := []procedure.Step{{Title: "A"}, {Title: "B"}, {Title: "C"}, {Title: "D"}}
	place := []int{1, 3}
	for _, c := range []struct {
		fault procedure.Fault
		names string
	}{
		{procedure.TooLong{Step: 1, Through: 1, Needs: 90, Allows: 60}, "“D”: it needs"},
		{procedure.TooLong{Step: 0, Through: 1, Needs: 90, Allows: 60}, "“B” to “D”: without a pause"},
		{procedure.TooLate{Step: 1, After: 0, Days: 6}, "“D”, after “B”: what is there"},
		{procedure.TooMany{Step: 1, Apart: 1}, "“D”: it is reached"},
		{procedure.TooFew{Step: 0, Needs: 3, Most: 2}, "“B”: it comes after session 2"},
	} {
		said := procedure.Explain(procedure.Among(c.fault, place), list)
		assert.Contains(t, said, c.names)
		assert.Equal(t, ".", said[len(said)-1:])
	}
	plain := errors.New("no day is left")
	assert.Equal(t, plain, procedure.Among(plain, place))
	assert.Equal(t, "no day is left.", procedure.Explain(plain, list))
}

// TestTheTimeOfATimetableIsWholeAndCountedOnce: its parts are the minutes of all steps but those that
// stand overnight, whoever does them.
func TestTheTimeOfATimetableIsWholeAndCountedOnce(t *testing.T) {
	p := route.NewPlan()
	days := procedure.NewDays()
	days.Start = monday
	for _, hands := range []procedure.Hands{nil, {"evaporate": procedure.Staff}} {
		sheet := new(route.Runner).Run(&p)
		list := procedure.WithHands(&p, sheet, steps(&p, nil), hands, nil)
		_, slots, err := days.Lay(list, monday)
		assert.NoError(t, err)
		var want procedure.Spent
		for i := range list {
			switch st := &list[i]; {
			case st.Watch == procedure.Overnight:
			case st.Eve:
				want.Before += st.Minutes
			case st.By.Away():
				want.Between += st.Minutes
			case st.Watch == procedure.Unattended:
				want.Waits += st.Minutes
			default:
				want.AtIt += st.Minutes
			}
		}
		got := procedure.TimeOf(list, slots)
		for _, part := range [][2]quantity.Minute{{want.AtIt, got.AtIt}, {want.Waits, got.Waits}, {want.Before, got.Before}, {want.Between, got.Between}} {
			assert.InDelta(t, float64(part[0]), float64(part[1]), 2)
		}
		assert.Positive(t, got.Waits)
		assert.Equal(t, hands != nil, got.Between > 0)
	}
}
