package formula_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/formula"
)

func TestParse(t *testing.T) {
	cases := []struct {
		text, written string
		counts        map[string]int
		charge        int
	}{
		{"Zn5(OH)8Cl2·H2O", "", map[string]int{"Zn": 5, "O": 9, "H": 10, "Cl": 2}, 0},
		{"ZnCl2·4Zn(OH)2·H2O", "", map[string]int{"Zn": 5, "O": 9, "H": 10, "Cl": 2}, 0},
		{"CuSO4*5H2O", "CuSO4·5H2O", map[string]int{"Cu": 1, "S": 1, "O": 9, "H": 10}, 0},
		{"CuSO4.5H2O", "CuSO4·5H2O", map[string]int{"Cu": 1, "S": 1, "O": 9, "H": 10}, 0},
		{"(NH4)2Mn(SO4)2·6H2O", "", map[string]int{"N": 2, "H": 20, "Mn": 1, "S": 2, "O": 14}, 0},
		{"K4[Fe(CN)6]", "", map[string]int{"K": 4, "Fe": 1, "C": 6, "N": 6}, 0},
		{"{[(Mn)2]3}4", "", map[string]int{"Mn": 24}, 0},
		{"SO4^2-", "", map[string]int{"S": 1, "O": 4}, -2},
		{"Mn^2+", "", map[string]int{"Mn": 1}, 2},
		{"MnO4^-", "", map[string]int{"Mn": 1, "O": 4}, -1},
		{"MnO4^1-", "MnO4^-", map[string]int{"Mn": 1, "O": 4}, -1},
		{"H+", "H^+", map[string]int{"H": 1}, 1},
		{"OH-", "OH^-", map[string]int{"O": 1, "H": 1}, -1},
		{"[Cu(NH3)4(H2O)2]^2+", "", map[string]int{"Cu": 1, "N": 4, "H": 16, "O": 2}, 2},
		{" MnO2\n", "MnO2", map[string]int{"Mn": 1, "O": 2}, 0},
		{"CO", "", map[string]int{"C": 1, "O": 1}, 0},
		{"Co", "", map[string]int{"Co": 1}, 0},
		{"H1000000", "", map[string]int{"H": 1e6}, 0},
		{strings.Repeat("H", formula.MaxLength), "", map[string]int{"H": formula.MaxLength}, 0},
		{"Mn^9+", "", map[string]int{"Mn": 1}, 9},
		{"Mn^99-", "", map[string]int{"Mn": 1}, -formula.MaxCharge},
	}
	for _, c := range cases {
		t.Run(c.text, func(t *testing.T) {
			f, err := formula.Parse(c.text)
			require.NoError(t, err)
			for symbol, n := range c.counts {
				assert.Equal(t, n, f.Count(symbol), symbol)
			}
			assert.Len(t, f.Elements(), len(c.counts))
			assert.Equal(t, c.charge, f.Charge())
			if c.written == "" {
				c.written = c.text
			}
			assert.Equal(t, c.written, f.String())
		})
	}
}

func TestParseRefuses(t *testing.T) {
	deep := strings.Repeat("(", 11) + "H" + strings.Repeat(")", 11)
	cases := []struct{ name, text, message string }{
		{"nothing", "", "formula: empty"},
		{"spaces only", " \t", "formula: empty"},
		{"unknown element", "XxO", `formula: unknown element "Xx" in "XxO"`},
		{"unknown element to the last letter", "Cz", `formula: unknown element "Cz" in "Cz"`},
		{"capitals", "MNO2", `formula: unknown element "M" in "MNO2"`},
		{"small letters", "mno2", `formula: unexpected "m" in "mno2"`},
		{"not closed", "Mn(OH", `formula: bracket '(' is not closed in "Mn(OH"`},
		{"closed by another", "Mn(OH]2", `formula: bracket '(' is not closed in "Mn(OH]2"`},
		{"not opened", "MnOH)2", `formula: bracket ')' was not opened in "MnOH)2"`},
		{"empty brackets", "Mn()2", `formula: empty brackets in "Mn()2"`},
		{"no atoms", "MnO0", `formula: count 0 in "MnO0"`},
		{"leading zero", "MnO02", `formula: count 02 in "MnO02"`},
		{"count too large", "H1000001", `formula: count 1000001 is over 1000000 in "H1000001"`},
		{"count beyond integers", "H99999999999999999999", `formula: count 99999999999999999999 is over 1000000 in "H99999999999999999999"`},
		{"too many in all", "(H2000)2000", `formula: more than 1000000 atoms of one element in "(H2000)2000"`},
		{"too many over brackets", "((((H999)999)999)999)999", `formula: more than 1000000 atoms of one element in "((((H999)999)999)999)999"`},
		{"too deep", deep, `formula: brackets nested deeper than 10 in "` + deep + `"`},
		{"too long", strings.Repeat("H", 201), "formula: 201 characters are more than 200"},
		{"number before", "2H2O", `formula: number 2 before the formula in "2H2O"`},
		{"number alone", "5", `formula: number 5 before the formula in "5"`},
		{"dot at the end", "CuSO4·", `formula: nothing after "CuSO4·" in "CuSO4·"`},
		{"dot at the start", "·H2O", `formula: unexpected "·" in "·H2O"`},
		{"multiplier alone", "CuSO4·5", `formula: nothing after "CuSO4·5" in "CuSO4·5"`},
		{"decimals", "MnO1.725", `formula: nothing after "MnO1.725" in "MnO1.725"`},
		{"space inside", "Mn O2", `formula: unexpected " " in "Mn O2"`},
		{"charge only", "^2-", `formula: unexpected "^" in "^2-"`},
		{"charge without sign", "SO4^2", `formula: charge "^2" without a sign at its end in "SO4^2"`},
		{"sign first", "SO4^-2", `formula: charge "^-2" without a sign at its end in "SO4^-2"`},
		{"charge of nothing", "SO4^0-", `formula: charge "^0-" is not a number from 1 to 99 and a sign in "SO4^0-"`},
		{"charge too large", "SO4^100-", `formula: charge "^100-" is not a number from 1 to 99 and a sign in "SO4^100-"`},
		{"two charges", "Mn^2+^2+", `formula: charge "^2+^2+" is not a number from 1 to 99 and a sign in "Mn^2+^2+"`},
		{"charge that could be a count", "SO42-", `formula: charge without ^ after a number in "SO42-"`},
		{"charge that could be a ten", "SO40-", `formula: charge without ^ after a number in "SO40-"`},
		{"charge that could be a nine", "SO49-", `formula: charge without ^ after a number in "SO49-"`},
		{"charge in brackets", "(SO4^2-)2", `formula: bracket '(' is not closed in "(SO4^2-)2"`},
		{"charge and more", "Mn+O2", `formula: charge "+O2" without a sign at its end in "Mn+O2"`},
		{"not text", "Mn\xff", `formula: unexpected "\xff" in "Mn\xff"`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := formula.Parse(c.text)
			assert.EqualError(t, err, c.message)
			assert.Panics(t, func() { formula.MustParse(c.text) })
		})
	}
}

// FuzzParse holds that no text makes Parse panic, that what it refuses it names, and
// that what it accepts weighs something and is written so that it reads the same again.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"", "MnO2", "Zn5(OH)8Cl2·H2O", "CuSO4*5H2O", "CuSO4.5H2O", "SO4^2-", "Mn^2+", "H+", "K4[Fe(CN)6]",
		"{[(Mn)2]3}4", "((((H999)999)999)999)999", "SO42-", "Mn(OH", "·", "^", "\xff", "H1000000",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		have, err := formula.Parse(text)
		if err != nil {
			named := strings.Contains(err.Error(), strconv.Quote(strings.TrimSpace(text))) || len(text) > 200 || strings.TrimSpace(text) == ""
			if !strings.HasPrefix(err.Error(), "formula: ") || !named {
				t.Errorf("%q: message %q", text, err)
			}
			return
		}
		if !(have.MolarMass() > 0 && have.MolarMass() < 1e12) || len(have.Elements()) == 0 {
			t.Errorf("%q weighs %v", text, have.MolarMass())
		}
		for _, c := range have.Elements() {
			if c.N < 1 || c.N > formula.MaxCount {
				t.Errorf("%q: %d of %s", text, c.N, c.Symbol)
			}
		}
		again, err := formula.Parse(have.String())
		if err != nil {
			t.Fatalf("%q is written %q: %v", text, have, err)
		}
		assert.Equal(t, have, again, text)
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := formula.Parse("Zn5(OH)8Cl2·H2O"); err != nil {
			b.Fatal(err)
		}
	}
}
