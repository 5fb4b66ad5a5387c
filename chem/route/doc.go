// Package route plans the whole way from a bag of dead zinc-carbon cells to
// jars of manganese(II) sulfate and copper(II) sulfate.
//
// A Plan holds what the user chose, weighed or left open. A Runner runs it: the
// stages follow one another in bench order, each a file of this package, each
// booking what it moves or reacts on one ledger. What a chemist wants to read
// is written on a Sheet of figures.
//
//	var runner route.Runner
//	sheet := runner.Run(&plan)
//	grams := sheet.Value(route.ProductMass)
//
// Volumes of liquor are counted as the water in them, 1 g as 1 mL. Salts add
// little: a 20 % solution of manganese sulfate takes 2.4 % more room than its
// water (CRC Handbook, 102nd ed., "Concentrative Properties of Aqueous
// Solutions"), which is below what a beaker's mark can tell.
package route

var liquorConstants = []Constant{
	{"liquor", 1, "g/mL", "density of liquor, counted as its water", "common practice; salts take little room (CRC Handbook, 102nd ed., Concentrative Properties of Aqueous Solutions)"},
}
