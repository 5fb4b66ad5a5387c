package ledger_test

import (
	"fmt"

	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
)

// A tenth of a mole of manganese dioxide and as much of the gas become manganese sulfate, of
// which a part sticks to the vessel. The manganese that was brought in is all still there.
func Example() {
	var b ledger.Book
	b.Reset(true)
	b.Bring(ledger.Slurry, reaction.ManganeseDioxide, 0.1)
	b.Bring(ledger.Slurry, reaction.SulfurDioxide, 0.1)
	b.React(ledger.Slurry, reaction.ReduceDioxide, 0.1)
	b.MoveShare(ledger.Slurry, ledger.ProductJar, reaction.ManganeseSulfate, 0.98)
	in, out := b.Balance(reaction.Mn)
	fmt.Printf("%.3f mol in the jar, %.3f mol of manganese in, %.3f mol there\n", float64(b.Amount(ledger.ProductJar, reaction.ManganeseSulfate)), float64(in), float64(out))

	b.Move(ledger.Slurry, ledger.ProductJar, reaction.ManganeseSulfate, 0.5) // more than is there
	fmt.Println(b.Err() != nil)
	// Output:
	// 0.098 mol in the jar, 0.100 mol of manganese in, 0.100 mol there
	// true
}
