package cell_test

import (
	"fmt"

	"rosesalt/chem/cell"
	"rosesalt/chem/formula"
)

// The manganese in new zinc-carbon cells, as a share of the whole cell: the comment at Size.Mix
// says 14 to 19 percent.
func Example() {
	inOxide := formula.MustParse("MnO2").MassFraction("Mn")
	recipe := cell.Kinds()[0].Composition() // with 100 g of oxide and carbon
	oxide := float64(100-recipe.Carbon) * (1 - recipe.Inert.Fraction())
	mix := float64(100 + recipe.Ammonium + recipe.Zinc + recipe.Water)
	for i, size := range cell.Sizes() {
		if size.Letter == "AA" || size.Letter == "D" {
			parts := cell.PartsOf(i, 0)
			fmt.Printf("%s: %.0f g, %.0f %% manganese\n", size.Mark, parts.Cell.Best, 100*inOxide*oxide/mix*parts.Mix.Best/parts.Cell.Best)
		}
	}
	// Output:
	// R6: 20 g, 16 % manganese
	// R20: 92 g, 16 % manganese
}
