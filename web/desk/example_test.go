package desk_test

import (
	"fmt"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func Example() {
	d := desk.New("cell.count=8")
	d.Edit("gas.minutes", "2000")
	fmt.Println(d.Problem("gas.minutes") != "", d.Plan().GasMinutes)
	d.Edit("gas.minutes", "120")
	fmt.Println(d.Problem("gas.minutes") != "", d.Plan().GasMinutes)
	fmt.Println(d.Sheet().Value(route.CellsOpened))
	// Output:
	// true 90
	// false 120
	// 8
}
