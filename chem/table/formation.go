package table

import "fmt"

// formation is the file of standard heats of formation, read at the start.
var formation, formationSource = loadFormation()

// FormationSource names the publication of the heats of formation.
func FormationSource() string { return formationSource }

// FormationHeat gives the standard molar enthalpy of formation at 25 °C in
// kJ/mol, negative where forming the substance gives off heat. The formula is
// the name: ions in water carry their charge ("Mn^2+", "SO4^2-"), SO2
// and CO2 are gases, H2O, H2SO4 and H2O2 are liquids, all else is solid; copper
// and H^+ are zero by convention. Any other name is an error. The heat that a reaction gives off is the sum
// over what goes in less the sum over what comes out.
// Source: CRC Handbook, Standard Thermodynamic Properties of Chemical
// Substances and Thermodynamic Properties of Aqueous Ions.
func FormationHeat(formula string) (float64, error) {
	heat, ok := formation[formula]
	if !ok {
		return 0, fmt.Errorf("table: no heat of formation of %q", formula)
	}
	return heat, nil
}

func loadFormation() (map[string]float64, string) {
	f, err := parseFile(text("formation-heat"))
	if err != nil {
		panic(err)
	}
	heats := map[string]float64{}
	for _, cells := range f.rows {
		value, err := number(cells[1])
		if err != nil {
			panic(fmt.Errorf("table: formation-heat: %w", err))
		}
		heats[cells[0]] = value
	}
	return heats, f.head["source"]
}
