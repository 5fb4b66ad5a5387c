// Figures prints what a plan gives as one JSON object, for those who script: the numbers
// that the page shows, to the last digit.
//
//	go run ./scripts/figures 'v=2&cell.count=8'
//
// The plan is what stands in a link behind the "#"; a whole link will do. What is printed
// is described by testdata/figures/schema.json. The code is 0, or 1 with a message where
// the command is used wrongly; a part of the link that cannot be taken is no such fault,
// and stands among the troubles.
package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"rosesalt/web/desk"
)

const usage = "figures: give one plan, as it stands in a link behind the “#”, in quotes: go run ./scripts/figures 'v=2&cell.count=8'"

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, complaints io.Writer) int {
	if len(args) != 1 || strings.HasPrefix(args[0], "-") {
		fmt.Fprintln(complaints, usage)
		return 1
	}
	plan := args[0]
	if _, fragment, ok := strings.Cut(plan, "#"); ok {
		plan = fragment
	}
	d := desk.New(plan)
	d.StepBands(desk.Draws)
	for d.Account() != nil && !d.Accounted() {
		d.StepRest(desk.Draws)
	}
	write := json.NewEncoder(out)
	write.SetEscapeHTML(false)
	write.SetIndent("", "  ")
	if err := write.Encode(reportOf(d)); err != nil {
		fmt.Fprintf(complaints, "figures: %v\n", err)
		return 1
	}
	return 0
}
