package section_test

import (
	"fmt"
	"strings"

	"rosesalt/web/desk"
	"rosesalt/web/section"
)

func Example() {
	bottles := section.Parts[section.Index(section.BottlesTitle)]
	part := bottles.Of(&section.Source{Desk: desk.New("cell.count=8")})
	fmt.Println(strings.Contains(part.Plain(), "Never meets"))
	// Output: true
}
