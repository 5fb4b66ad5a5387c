package web

import (
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
)

func TestTypeset(t *testing.T) {
	for text, want := range map[string]string{
		"H₂SO₄":             "H<sub>2</sub>SO<sub>4</sub>",
		"5.7×10⁻⁴ mol":      "5.7×10<sup>−4</sup> mol",
		"[gas made] × M(X)": "<var>gas made</var> × M(X)",
		"[SO₂ held] / 2":    "<var>SO<sub>2</sub> held</var> / 2",
		"Zn₁₀":              "Zn<sub>10</sub>",
		"SO₄²⁻":             "SO<sub>4</sub><sup>2−</sup>",
		"a [ b":             "a [ b",
		"2 < 3 <b>":         "2 &lt; 3 &lt;b&gt;",
	} {
		assert.Contains(t, squeezed(html(t, app.Elem("p").Body(typeset(text)...))), squeezed("<p>"+want+"</p>"), text)
	}
}

// squeezed takes out all white space, with which the library's printing is generous.
func squeezed(s string) string { return strings.Join(strings.Fields(s), "") }
