package formula

import "strings"

var (
	small   = strings.NewReplacer("0", "₀", "1", "₁", "2", "₂", "3", "₃", "4", "₄", "5", "₅", "6", "₆", "7", "₇", "8", "₈", "9", "₉")
	charges = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "+", "⁺", "-", "⁻")
)

// Typeset writes a formula, or an equation of formulas, with its small figures in their places:
// "2 MnO4^- + 16 H^+ -> …" becomes "2 MnO₄⁻ + 16 H⁺ → …", and "MnSO4·5H2O" "MnSO₄·5H₂O".
func Typeset(text string) string {
	words := strings.Split(strings.ReplaceAll(text, "->", "→"), " ")
	for i, word := range words {
		body, charge, _ := strings.Cut(word, "^")
		parts := strings.Split(body, "·")
		for j, part := range parts {
			one := strings.TrimLeft(part, "0123456789") // behind how many there are
			parts[j] = part[:len(part)-len(one)] + small.Replace(one)
		}
		words[i] = strings.Join(parts, "·") + charges.Replace(charge)
	}
	return strings.Join(words, " ")
}
