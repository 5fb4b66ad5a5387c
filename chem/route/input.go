package route

import (
	"fmt"
	"math"

	"rosesalt/chem/cell"
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
)

// Stage is a part of the work, in bench order.
type Stage uint8

// The stages.
const (
	Cells Stage = iota
	Wash
	Batch
	Gas
	Slurry
	Filter
	Dry
	CopperSalt
	Waste
	// Stages is how many there are.
	Stages = iota
)

// The standings of a default; see package field.
const (
	Chosen    = field.Chosen
	Estimated = field.Estimated
	Measured  = field.Measured
	WorkedOut = field.WorkedOut
)

// Input is a field of the plan: where it belongs, and the way to its value.
type Input struct {
	field.Field
	Stage     Stage     // set by the list that it stands in
	Of        Condition // what a plan must have for it to have a meaning; see [Uses]
	Row       int       // for the inputs of a row of the bag, its number from 1; else 0
	Sizes     bool      // it says how a charge is worked out, and is not measured out itself
	DrawGroup int       // 0 for the first inputs; each group that is added gets the next number, so that package spread draws the older ones as before

	earlier []float64 // of a decision: its defaults in the versions before this one, from the first; nil where none

	means func(*Plan) bool // what it asks of a plan beside Of; nil for nothing

	number func(*Plan) *float64
	choice func(*Plan) *Choice
	// below gives another value of the plan that it must stay below; nil where none.
	below func(*Plan) float64
	// usual is the estimate that stands in for it while it is blank, not ok in plans that
	// have no need of one; nil where none ever does.
	usual func(*Plan) (v float64, ok bool)
	// named gives an option's name where it depends on the plan; nil where not.
	named func(p *Plan, option int) string
}

// Value is the number the plan holds; Blank where it is left open. For a choice
// it is the place of the word.
func (in *Input) Value(p *Plan) float64 {
	if in.choice != nil {
		return float64(*in.choice(p))
	}
	return *in.number(p)
}

// fraction is an input of percents as a number of which 1 is the whole; where there is none, a
// way has so much without it.
func (in *Input) fraction(p *Plan, without float64) float64 {
	if in == nil {
		return without
	}
	return *in.number(p) / 100
}

// Most is the highest value that it may have in a plan.
func (in *Input) Most(p *Plan) float64 {
	if in.below == nil {
		return in.Max
	}
	return math.Min(in.Max, in.below(p))
}

// IsDefault tells whether the plan holds what NewPlan gives.
func (in *Input) IsDefault(p *Plan) bool {
	v := in.Value(p)
	return v == in.Default || !quantity.Given(v) && !quantity.Given(in.Default)
}

// Word is the chosen word of a choice.
func (in *Input) Word(p *Plan) string { return in.Options[*in.choice(p)].Word }

// OptionName is an option's name as read in this plan: an alkaline cell of the size
// R14 has the mark LR14.
func (in *Input) OptionName(p *Plan, option int) string {
	if in.named != nil {
		return in.named(p, option)
	}
	return in.Options[option].Name
}

func (in *Input) reset(p *Plan) {
	if in.choice != nil {
		*in.choice(p) = Choice(in.Default)
		return
	}
	*in.number(p) = in.Default
}

// Set puts a number into the plan, Blank included. It refuses, and changes
// nothing, what Accept refuses.
func (in *Input) Set(p *Plan, v float64) error {
	if in.IsChoice() {
		return fmt.Errorf("%s takes one of its words, not a number", in.Name)
	}
	if err := in.Accept(v); err != nil {
		return err
	}
	*in.number(p) = v
	return nil
}

// Choose puts a word into the plan. It refuses a word that is not an option.
func (in *Input) Choose(p *Plan, word string) error {
	v, err := in.Read(word)
	if err == nil {
		*in.choice(p) = Choice(v)
	}
	return err
}

// put sets what was read or worked out: a number, Blank, or the place of a word.
func (in *Input) put(p *Plan, v float64) error {
	if in.choice != nil {
		*in.choice(p) = Choice(v)
		return nil
	}
	return in.Set(p, v)
}

// Inputs are all inputs in bench order. The caller must not change them.
func Inputs() []Input { return inputs }

// InputByKey finds an input by its key.
func InputByKey(key string) (*Input, bool) {
	i, ok := inputIndex[key]
	if !ok {
		return nil, false
	}
	return &inputs[i], true
}

var inputs = buildInputs()

var inputIndex = indexInputs()

// indexInputs finds the place of each input by its key.
func indexInputs() map[string]int {
	index := make(map[string]int, len(inputs))
	for i := range inputs {
		index[inputs[i].Key] = i
	}
	return index
}

func buildInputs() (all []Input) {
	add := func(stage Stage, of Condition, list []Input) {
		for _, in := range list {
			in.Stage, in.Of = stage, in.Of|of
			if in.Standing == Measured || in.Standing == WorkedOut {
				in.Default = quantity.Blank
			}
			all = append(all, in)
		}
	}
	for row := 1; row <= MaxRows; row++ {
		add(Cells, 0, rowInputs(row))
	}
	add(Cells, 0, mixInputs)
	add(Wash, 0, washInputs)
	add(Batch, 0, batchInputs)
	add(Gas, 0, gasInputs)
	add(Slurry, 0, slurryInputs)
	add(Slurry, byStirring, stirInputs)
	for i, way := range reductants {
		if way.stir != nil {
			add(Slurry, ofWay<<i, way.stir.inputs)
		}
	}
	add(Filter, 0, filterInputs)
	add(Slurry, 0, dissolvedIronInputs)
	add(Filter, 0, ironInputs)
	add(Dry, 0, dryInputs)
	add(CopperSalt, leavesCopperSalt, copperInputs)
	add(Waste, bySulfurDioxide, roomInputs)
	return all
}

// rowInputs are the inputs of one row of the bag. The keys of the first row are
// plain ("cell.size"); further rows are numbered ("cell.2.size").
func rowInputs(row int) []Input {
	prefix, count, blank := rowPrefix(row), 6.0, ""
	if row > 1 {
		count, blank = quantity.Blank, "no further type"
	}
	var sizes, kinds []string
	for _, s := range cell.Sizes() {
		sizes = append(sizes, s.Mark, s.NameAs(&cell.Kinds()[0]))
	}
	for _, k := range cell.Kinds() {
		kinds = append(kinds, k.Word, k.Name)
	}
	at := row - 1
	list := []Input{
		{
			Field: field.Field{
				Key: prefix + "size", Name: "Size", Default: 2, Options: field.Words(sizes...),
				Why:    "The mark on the cell: an R with no letter before it, or 6F22. An alkaline one has an L before the R.",
				Remedy: "LR is alkaline: plan it as its own kind. Any other mark (FR, CR, HR and the like) is another kind of cell and stays shut.",
			},
			choice: func(p *Plan) *Choice { return &p.Rows[at].Size },
			named: func(p *Plan, option int) string {
				return cell.Sizes()[option].NameAs(&cell.Kinds()[p.Rows[at].Kind])
			},
		},
		{
			Field: field.Field{
				Key: prefix + "count", Name: "How many cells", Default: count, Min: 1, Max: 2000, Whole: true, Blank: blank,
				Why:    "All of this type in the bag, the rejects among them.",
				Remedy: "Count the cells in the bag; leave out a type that is not there.",
			},
			number: func(p *Plan) *float64 { return &p.Rows[at].Count },
		},
		{
			Field: field.Field{
				Key: prefix + "rejects", Name: "Of these, never opened", Default: 0, Min: 0, Max: 2000, Whole: true,
				Why:    "Leaking, swollen, unmarked, undated or from before 1997: to collection, shut.",
				Remedy: "No more cells can be rejected than there are.",
			},
			number: func(p *Plan) *float64 { return &p.Rows[at].Rejects },
		},
		{
			Field: field.Field{
				Key: prefix + "kind", Name: "Electrolyte", Default: 0, Options: field.Words(kinds...), Rare: true,
				Why: "“Heavy duty” on the can usually means zinc chloride; plain old cells hold ammonium chloride; LR is alkaline, and never goes with the others.",
			},
			choice: func(p *Plan) *Choice { return &p.Rows[at].Kind },
		},
		{
			Field: field.Field{
				Key: prefix + "charge", Name: "Oxide still unused", Unit: "%", Standing: Estimated, Default: 45, Low: 20, High: 70, Min: 0, Max: 100,
				Why:    "A dead cell is seldom empty. Titrate a gram of the washed mix and you know it.",
				Remedy: "It is a share of the manganese: 0 is spent, 100 is new.",
			},
			number: func(p *Plan) *float64 { return (*float64)(&p.Rows[at].Charge) },
		},
		{
			Field: field.Field{
				Key: prefix + "weight", Name: "One of them, shut, on the balance", Unit: "g", Standing: Measured, Rare: true, Min: 1, Max: 2000,
				Blank: "not weighed", Why: "An alkaline cell is a fifth to a half heavier than a zinc-carbon one of its size.",
				Remedy: "Weigh one cell in grams.",
			},
			DrawGroup: 1,
			number:    func(p *Plan) *float64 { return (*float64)(&p.Rows[at].Weight) },
		},
	}
	for i := range list {
		list[i].Row = row
	}
	if row > 1 {
		charge := &list[len(list)-2]
		charge.Standing, charge.Blank = WorkedOut, "as the first type"
	}
	return list
}

// Copy gives the plan the value that another plan holds.
func (in *Input) Copy(to, from *Plan) {
	if in.choice != nil {
		*in.choice(to) = *in.choice(from)
		return
	}
	*in.number(to) = *in.number(from)
}

// Usual is the estimate that stands in for a blank input in plans that need one; it is as
// unsure as the input's low and high say.
func (in *Input) Usual(p *Plan) (v float64, ok bool) {
	if in.usual == nil {
		return 0, false
	}
	return in.usual(p)
}

// InEffect is the number, in the input's unit, that counts in a plan: its own, or what stands in
// for it; not ok where nothing does.
func (in *Input) InEffect(p *Plan, s *Sheet) (v float64, ok bool) {
	if v = in.Value(p); quantity.Given(v) {
		return v, true
	}
	return in.WorkedOut(p, s)
}

// WorkedOut is the number, in the input's unit, that stands in for it while it is
// blank; not ok where blank stands for no number.
func (in *Input) WorkedOut(p *Plan, s *Sheet) (v float64, ok bool) {
	if v, ok := in.Usual(p); ok {
		return v, true
	}
	if id, ok := figureFor(in.Key); ok {
		return s.Value(id), s.Reason(id) == Defined
	}
	usual := cell.Kinds()[p.Rows[0].Kind].Composition()
	switch in.Key {
	case "mix.carbon":
		return float64(usual.Carbon), true
	case "mix.inert":
		return float64(usual.Inert), true
	case "mix.ammonium":
		return float64(usual.Ammonium), true
	case "mix.zinc":
		return float64(usual.Zinc), true
	case "mix.water":
		return float64(usual.Water), true
	case "mix.potash":
		return float64(usual.Potash), true
	case "mix.iron":
		return float64(usual.Iron), true
	case "batch.runs":
		return BatchCount(p), true
	case "cake.damp":
		return s.Value(BatchDamp) / p.BatchShare.Fraction(), s.Reason(BatchDamp) == Defined
	case TakenKey:
		return s.Value(BatchDamp), s.Reason(BatchDamp) == Defined
	case "gas.trap", "dry.dish", "crop.vessel":
		most := 0.0
		for _, v := range Vessels(p, s) {
			if v.Key == in.Key {
				most = math.Max(most, v.Stands())
			}
		}
		return most, most > 0
	}
	if in.Row > 1 && in.Key == rowPrefix(in.Row)+"charge" {
		return float64(p.Rows[0].Charge), true
	}
	return 0, false
}
