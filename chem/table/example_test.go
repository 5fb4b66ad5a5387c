package table_test

import (
	"fmt"

	"rosesalt/chem/table"
)

func ExampleTable_At() {
	rho, _ := table.AcidDensity.At(97)
	fmt.Printf("%.4f %s\n", rho, table.AcidDensity.YUnit())
	_, err := table.AcidDensity.At(103)
	fmt.Println(err)
	// Output:
	// 1.8358 g/mL
	// table: sulfuric acid density: 103 % is outside 0 to 100 %
}

func ExampleTable_Inverse() {
	percent, _ := table.AcidMolarity.Inverse(1)
	fmt.Printf("1 mol/L sulfuric acid is %.1f %% by mass\n", percent)
	// Output: 1 mol/L sulfuric acid is 9.2 % by mass
}

func ExampleTable_Standing() {
	fmt.Println(table.CopperSulfateInAcid.Standing())
	// Output: from memory
}
