package route

import (
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// Formulas are how the figures of a way of reducing the oxide follow, beside those that
// stand in the figures' rows: package working prints them, and its tests hold them to what
// the stages compute. Definitions are as in package working, one a line: symbol, unit,
// name and formula, or = and the key of a figure, and its formula.
type Formulas struct {
	Reads  []TableRead          // out of tables
	Either func(p *Plan) string // definitions that hang on the plan, beside those; nil for none
	Define string               // definitions
	Counts []*Equation          // whose coefficients stand in them
	By     *Equation            // the reaction that Explains or Extent is about; nil for none

	// Of a way that makes gas: perSolid and perMillilitre, the gas that a mole of the solid
	// and a millilitre of acid give, are among the definitions, and where the liquid holds gas
	// back fixed, heldPerMole and added.
	Holding  string // the input that says how warm the liquid is that holds gas back
	Explains string // the definition that follows from By
	Solid    string // formula of the solid
	Over     string // how many times what the acid takes goes in where it is left blank; "" for once
	Density  string // key of its density

	// Of what is stirred in, amounts in mol of it.
	Need   string      // for the oxide
	Given  string      // a charge that is given
	Blank  string      // one that is left blank
	Brings string      // mL of water that comes along; "" for none
	Acts   []*Equation // that go on while the dilute acid works
	Extent string      // symbol for how far By goes
	More   string      // kJ/mol, how much more a pair gives off than with gas
	Heat   string      // kJ given off besides; "" for none
	// Part is the share of the oxide that is reduced, ShortPart what it is where ShortIf
	// holds. Where sulfur dioxide does the work these are empty, and Arrives is the gas, mol,
	// that is left to do it.
	Part, ShortIf, ShortPart string
	Arrives                  string
}

// TableRead is a number out of a table, read at an input.
type TableRead struct {
	Symbol, Name string
	Table        *table.Table
	At           string
}
