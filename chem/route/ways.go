package route

import (
	"rosesalt/chem/ledger"
	. "rosesalt/chem/reaction"
)

// Way is the plan carried out with one of the reductants, to be set beside the
// others. It is a full plan: its Plan run again gives its Sheet.
type Way struct {
	Word, Name string // of the option of gas.source
	Plan       Plan
	Sheet      Sheet
	Problem    string // why this plan cannot go this way; nothing below means anything then
	Reductant  Need   // as bought
	Acid       Need   // concentrated, all uses together
	Gases      []Need // that come off, in L at room temperature and pressure
	Leaves     []Need // in the jar, beside manganese sulfate, in g
}

// companions are what the jar may hold beside manganese sulfate.
var companions = [...]struct {
	id   FigureID
	name string
}{
	{ProductZinc, "zinc salts"},
	{ProductAmmonium, "ammonium salts"},
	{ProductChloride, "chloride, as the ion"},
	{ProductDithionate, "dithionate"},
	{ProductSulfite, "sulfites"},
	{ProductAcid, "free acid"},
	{ProductSodium, "sodium sulfate"},
	{ProductPotassium, "potassium salts"},
	{ProductOxalate, "oxalates"},
	{ProductIron, "iron sulfates"},
}

// trace is the share of the jar below which a companion is not spoken of.
const trace = 0.0005

// Ways runs the plan with each reductant, everything else as it stands: charges that
// are given for one way mean nothing in another. Planned is what is computed of a plan.
func Ways(p *Plan, planned func(*Plan) Plan) []Way {
	var b Runner
	list := make([]Way, 0, len(reductants))
	for i, r := range reductants {
		w := Way{Word: r.word, Name: r.name, Plan: *p}
		w.Plan.GasSource = Choice(i)
		if problems := Check(&w.Plan); len(problems) > 0 {
			w.Problem = problems[0].Message
			list = append(list, w)
			continue
		}
		w.Plan = planned(&w.Plan)
		w.Sheet = *b.Run(&w.Plan)
		w.fill(&b)
		list = append(list, w)
	}
	return list
}

func (w *Way) fill(b *Runner) {
	v := w.Sheet.Amount
	reductant := ReductantOf(&w.Plan)
	w.Reductant = reductant.Need(&w.Plan, &w.Sheet)
	w.Acid = Need{"Sulfuric acid, " + percent(w.Plan.GasStrength), StrongAcid(&w.Plan, &w.Sheet).All(), "mL", ""}
	_, made := SulfurDioxideFreed(&w.Plan, &w.Sheet)
	w.Gases = present([]Need{
		{"sulfur dioxide", made, "L", "made"},
		{"sulfur dioxide", v(VentVolume), "L", "past the slurry"},
		{"sulfur dioxide", v(DryGasVolume), "L", "off the dish"},
		{"oxygen", float64(b.has(ledger.Vent, Oxygen)) * perfectLitre(&w.Plan), "L", "out of the slurry"},
		{"carbon dioxide", float64(b.has(ledger.Vent, CarbonDioxide)) * perfectLitre(&w.Plan), "L", "out of the slurry"},
	})
	for _, c := range companions {
		if g := v(c.id); g > trace*v(ProductMass) {
			w.Leaves = append(w.Leaves, Need{c.name, g, "g", ""})
		}
	}
}
