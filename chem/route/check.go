package route

import (
	"fmt"

	"rosesalt/chem/cell"
	"rosesalt/chem/quantity"
)

// Problem is a pair of values that each pass but do not go together. Keys are
// the inputs concerned, the likeliest culprit first.
type Problem struct {
	Keys    []string
	Message string
}

// Check finds what Set cannot see because it takes two values to see it. A plan
// with a problem must not be run: its figures would mean nothing.
func Check(p *Plan) []Problem {
	var list []Problem
	for i := range p.Rows {
		row := &p.Rows[i]
		if row.present() && row.Rejects > row.Count {
			prefix := rowPrefix(i + 1)
			list = append(list, Problem{
				[]string{prefix + "rejects", prefix + "count"},
				fmt.Sprintf("%s rejects are more than the %s of this type. No more can be rejected than there are.", digits(row.Rejects), Count(row.Count, "cell")),
			})
		}
	}
	list = append(list, checkKinds(p)...)
	if check := reducing(p).check; check != nil {
		list = append(list, check(p)...)
	}
	list = append(list, checkAssay(p)...)
	if len(list) == 0 && quantity.Given(p.CakeTaken) {
		return checkCake(p)
	}
	return list
}

// checkCake refuses more weighed out of the damp cake than there is, and less than any share.
func checkCake(p *Plan) []Problem {
	all, least := p.AllOfCake(), quantity.Percent(inputs[inputIndex[ShareKey]].Min)
	of, remedy := "all of the damp cake, "+Print(float64(all), "g"), "Weigh both in grams, the dishes taken off."
	if !quantity.Given(p.CakeDamp) {
		of, remedy = of+" by the plan", "Weigh all of it too, or give the share in per cent instead."
	}
	says := ""
	switch {
	case p.CakeTaken > all:
		says = "is more than " + of
	case p.CakeTaken < all*quantity.Gram(least.Fraction()):
		says = "is less than " + percent(least) + " of " + of
	default:
		return nil
	}
	return []Problem{{[]string{TakenKey, "cake.damp"}, Print(float64(p.CakeTaken), "g") + " weighed out " + says + ". " + remedy}}
}

// checkKinds refuses alkaline cells in one bag with others.
func checkKinds(p *Plan) []Problem {
	first := -1
	for i := range p.Rows {
		row := &p.Rows[i]
		if !row.present() || row.opened() <= 0 {
			continue
		}
		if first < 0 {
			first = i
			continue
		}
		if caustic(row) != caustic(&p.Rows[first]) {
			return []Problem{{
				[]string{rowPrefix(i+1) + "kind", rowPrefix(first+1) + "kind"},
				"Alkaline cells never go into one batch with zinc-carbon cells: their lye frees ammonia from the salts and eats the acid. Plan them apart, or take this type out.",
			}}
		}
	}
	return nil
}

func caustic(row *Row) bool { return cell.Kinds()[row.Kind].Caustic }

// zincCarbon tells whether the opened cells of the bag are zinc-carbon ones.
func zincCarbon(p *Plan) bool { return !Alkaline(p) }

// Alkaline tells whether the opened cells of the bag are alkaline.
func Alkaline(p *Plan) bool {
	for i := range p.Rows {
		if row := &p.Rows[i]; row.present() && row.opened() > 0 {
			return caustic(row)
		}
	}
	return caustic(&p.Rows[0])
}

// checkAssay refuses an assay that no charge from 0 to 100 % gives.
func checkAssay(p *Plan) []Problem {
	if !quantity.Given(p.MixAssay) {
		return nil
	}
	hydrolysis := p.WashHydrolysis.Fraction()
	none, full := bag(p, 0), bag(p, 1)
	if none.dioxide == 0 {
		return nil
	}
	least, most := none.assay(hydrolysis), full.assay(hydrolysis)
	if float64(p.MixAssay) >= least && float64(p.MixAssay) <= most {
		return nil
	}
	return []Problem{{
		[]string{"mix.assay"},
		fmt.Sprintf("%s as MnO₂ would ask for a charge outside 0 to 100 %%. With this carbon and gangue an assay lies between %s and %s: check that the sample was washed and dry, or change the carbon.",
			percent(p.MixAssay), percent(quantity.Percent(least)), percent(quantity.Percent(most))),
	}}
}

func percent(p quantity.Percent) string { return Print(float64(p), "%") }

func rowPrefix(row int) string {
	if row == 1 {
		return "cell."
	}
	return fmt.Sprintf("cell.%d.", row)
}
