package picture

import (
	"math"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// Weighed is a quantity as it was planned, as it was found, and as the account has it.
type Weighed struct {
	Name, Unit string
	chart.Comparison
}

// Against sets what was found against what was planned: a row for each quantity, all to
// one scale on which the plan is 100 %.
func Against(list []Weighed) chart.Picture {
	pic := chart.Picture{
		Name:  "against",
		Note:  "Pale: to expect, eight times in ten. Dot: found, and how far the reading may be off. Thin line: as the account has it, eight times in ten.",
		Table: chart.Table{Head: []string{"Weighed", "To expect", "Eight times in ten between", "Found", "As the account has it"}},
	}
	if len(list) == 0 {
		pic.Why = "Nothing is to expect that could be weighed."
		return pic
	}
	for _, w := range list {
		expected, found, fitted := route.Print(w.Planned.Median, w.Unit), "–", "–"
		w.Says = w.Name + ": to expect " + expected
		if w.IsFound {
			found = route.Print(w.Found.Median, w.Unit)
			w.Says += ", found " + found
		}
		if w.HasAccount {
			fitted = between(w.Account, w.Unit)
		}
		pic.Table.Rows = append(pic.Table.Rows, []string{w.Name, expected, between(w.Planned, ""), found, fitted})
		pic.Compared = append(pic.Compared, w.Comparison)
	}
	pic.Title = againstTitle(list)
	return pic
}

func between(s chart.Span, unit string) string {
	return route.Print(s.Low, "") + " and " + route.Print(s.High, unit)
}

// againstTitle names the quantity that came out farthest from its plan.
func againstTitle(list []Weighed) string {
	title, most := "What the plan says that the balance will show", -1.0
	for _, w := range list {
		off := math.Abs(w.Found.Median/w.Planned.Median - 1)
		if !w.IsFound || !(off > most) {
			continue
		}
		most = off
		inside := "outside"
		if w.Found.Median >= w.Planned.Low && w.Found.Median <= w.Planned.High {
			inside = "within"
		}
		title = w.Name + ": " + route.Print(100*w.Found.Median/w.Planned.Median, "%") + " of what was to expect, " + inside + " what is seen eight times in ten"
	}
	return title
}
