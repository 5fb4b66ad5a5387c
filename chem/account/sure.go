package account

import (
	"fmt"
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// seen is an amount of gas or of the reductant, mmol, with what one sees of it at the bench: the
// litres of the gas, or so much of the charge.
func (m *model) seen(n float64) string {
	text, unit := route.Print(n, "mmol")+" of gas", "L"
	took := n / m.best.Value(route.GasMade) * m.best.Value(route.GasVolume)
	if !route.Sulfurous(&m.base) {
		charge := route.ReductantOf(&m.base).Charge
		text, unit = route.Print(n, "mmol")+" of the reductant", charge.Unit
		took = n / m.brought() * charge.Value(&m.base)
	}
	if quantity.Given(took) && took > 0 {
		text += " (" + route.Print(took, unit) + ")"
	}
	return text
}

// sure says in words what the bounds prove. What did nothing is the difference of the two
// numbers as printed.
func (m *model) sure(b *Bounds) string {
	had, is := b.Made.Value, b.Made.OK()
	by := "At least %s were made"
	if !is && !m.meant(crystals) {
		had = m.brought()
		is = quantity.Given(had)
		if by = "The charge could bring %s"; !route.Sulfurous(&m.base) {
			by = "%s were stirred in"
		}
	}
	least := "no manganese that is in the jar proves that any worked"
	if b.Used.OK() && b.Used.Value > 0 {
		least = "what is in the jar took " + route.Print(b.Used.Value, "mmol") + " at least"
	}
	switch {
	case is && b.UsedMost.OK():
		made, used := asPrinted(had, grain(had)), asPrinted(b.UsedMost.Value, grain(b.UsedMost.Value))
		if idle := made - used; idle > 0 {
			return fmt.Sprintf(by+"; all that is in the jar can have used %s at most: so %s or more, %s, did no work that reached the jar.",
				m.seen(made), route.Print(used, "mmol"), route.Print(idle, "mmol"), part(idle/made))
		}
		return fmt.Sprintf(by+". The weighings alone cannot show whether any of it was lost: what is in the jar can have used all of it.", m.seen(made))
	case is:
		if b.MadeMost.OK() && b.Made.OK() {
			by += " and " + route.Print(b.MadeMost.Value, "mmol") + " at most"
		}
		return fmt.Sprintf(by+"; how much of it worked only the weighed salt can tell.", m.seen(had))
	case b.UsedMost.OK():
		most := ""
		if b.MadeMost.OK() {
			most = ", of " + route.Print(b.MadeMost.Value, "mmol") + " that the charge could give at most"
		}
		return fmt.Sprintf("All that is in the jar can have used %s at most%s; %s. How much was made the blue crystals would tell.",
			m.seen(b.UsedMost.Value), most, least)
	case b.MadeMost.OK():
		return fmt.Sprintf("The charge could bring %s at most. More is sure once the salt or the blue crystals are weighed.", m.seen(b.MadeMost.Value))
	}
	return ""
}

// grain is the last digit that [route.Print] gives of an amount in mmol.
func grain(v float64) float64 {
	switch {
	case v <= 0:
		return 0
	case v >= 1000: // printed in mol
		return 1000 * grain(v/1000)
	}
	return math.Pow10(min(0, int(math.Floor(math.Log10(v)))-1))
}

// asPrinted is a number in whole grains.
func asPrinted(v, grain float64) float64 {
	if grain == 0 {
		return 0
	}
	return math.Round(v/grain) * grain
}

// part is a share in words.
func part(share float64) string {
	switch {
	case share > 0.9:
		return "nearly all of it"
	case share > 2./3:
		return "more than two thirds"
	case share > 0.5:
		return "over half"
	case share > 0.4:
		return "nearly half"
	case share > 1./3:
		return "more than a third"
	case share > 0.25:
		return "more than a quarter"
	case share > 0.1:
		return "more than a tenth"
	}
	return "a small part"
}
