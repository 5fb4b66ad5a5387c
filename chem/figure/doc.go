// Package figure is the language in which figures are declared: formulas as text, with
// units, which are read, printed and worked out, once or for thousands of rows of numbers
// at a time. What the names in them stand for is the caller's.
//
//	f := figure.Parse("gas.made/1000[mmol/mol]*M(SO2)")
//
// A formula is the program's own: one that cannot be read panics.
package figure
