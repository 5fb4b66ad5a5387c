// Package club is a run of several groups side by side: what all of them need, what gas
// comes at once, who may do what, and the draft of a risk assessment.
//
// The plan is one group's: its cells, its charge, its waste; or one batch for all groups, who
// then share its work and its salt. Nothing is computed anew; the
// plan's figures are counted as often as there are batches, or generators at once. What
// people of what age may do is for the local code, which no program knows: it is left
// blank to be filled in.
package club

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/room"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// Club is how many groups there are, and how many make gas, or stir in what takes its
// place, at the same time. Both are whole and at least 1.
type Club struct {
	Groups, AtOnce float64
	Batch          float64 // Own or One
	Pupils         float64 // in all groups together; 0 where nobody said
}

// What a group works.
const (
	OwnBatch    = iota // a batch of its own, as the plan says
	SharedBatch        // its part of one batch for all
)

// The keys of a club, as in a link.
const (
	GroupsKey = "club.groups"
	AtOnceKey = "club.atonce"
	BatchKey  = "club.batch"
	PupilsKey = "club.pupils"
)

// most is the most groups that a sheet has room for, and mostPupils so many as ten to each.
const most, mostPupils = 30, 300

var fields = []field.Of[Club]{
	{
		Field: field.Field{
			Key: GroupsKey, Name: "Groups", Default: 4, Min: 1, Max: most, Whole: true,
			Why:    "Those who work together, at one place.",
			Remedy: "Plan larger clubs in parts.",
		},
		Get: func(c *Club) float64 { return c.Groups },
		Put: func(c *Club, v float64) { c.Groups = v },
	},
	{
		Field: field.Field{
			Key: AtOnceKey, Name: "Of these, with gas at the same time", Default: 1, Min: 1, Max: most, Whole: true,
			Why:    "One at a time is the least to watch and the least in the air.",
			Remedy: "Let the groups take turns.",
		},
		Get: func(c *Club) float64 { return c.AtOnce },
		Put: func(c *Club, v float64) { c.AtOnce = v },
	},
	{
		Field: field.Field{
			Key: BatchKey, Name: "What a group works", Options: field.Words("own", "this plan by itself: its own cells, its own charge", "one", "its part of this plan: one batch for all"),
			Why: "One batch is made once, by an adult; the groups share the cells, the washing, and the salt.",
		},
		Get: func(c *Club) float64 { return c.Batch },
		Put: func(c *Club, v float64) { c.Batch = v },
	},
	{
		Field: field.Field{
			Key: PupilsKey, Name: "Pupils in all", Max: mostPupils, Whole: true, Blank: "not said",
			Why: "For how many there are to a group. 0: not said.", Remedy: "Plan larger clubs in parts.",
		},
		Get: func(c *Club) float64 { return c.Pupils },
		Put: func(c *Club, v float64) { c.Pupils = v },
	},
}

// Batches is how often the plan is worked.
func (c Club) Batches() float64 {
	if c.Batch == SharedBatch {
		return 1
	}
	return c.Groups
}

// New is the club that every link is read against.
func New() (c Club) {
	for _, f := range fields {
		f.Put(&c, f.Default)
	}
	return c
}

// Form is the club as it is typed. A club of no groups was never set, and counts as the
// usual one.
func (c *Club) Form() field.Form {
	if *c == (Club{}) {
		*c = New()
	}
	return field.Over(field.Club, fields, c)
}

// Each is how many pupils there are to a group, as read: "3", or "3 to 4".
func (c Club) Each() string {
	few, many := math.Floor(c.Pupils/c.Groups), math.Ceil(c.Pupils/c.Groups)
	if few == many {
		return route.Print(few, "")
	}
	return route.Print(few, "") + " to " + route.Print(many, "")
}

// Trouble is what does not go together, or "": the figures count Running then.
func (c Club) Trouble() string {
	if c.AtOnce <= c.Groups || c.Batch == SharedBatch {
		return ""
	}
	return route.Print(c.AtOnce, "") + " at the same time are more than the number of groups, " + route.Print(c.Groups, "") + ", so only these are counted. Give fewer here, or more groups."
}

// Running is how many make gas at the same time.
func (c Club) Running() float64 { return math.Min(c.AtOnce, c.Batches()) }

// Turns is how many times somebody makes gas until all batches have theirs.
func (c Club) Turns() float64 { return math.Ceil(c.Batches() / c.Running()) }

// Reagents are what one group takes, and what is to be bought for all. The luck of all is taken to be
// the same, since their cells come from few makers.
func (c Club) Reagents(each []route.Reagent) (list []route.Reagent) {
	for _, r := range each {
		r.Buy *= c.Batches()
		list = append(list, r)
	}
	return list
}

// Vessels are vessels of one kind: as many as there are batches, or as make gas at once.
type Vessels struct {
	route.Vessel
	Count float64
}

// Vessels are what stands on the benches. The gas line goes from group to group.
func (c Club) Vessels(p *route.Plan, s *route.Sheet) []Vessels {
	var list []Vessels
	for _, v := range route.Vessels(p, s) {
		count := c.Batches()
		if v.Line {
			count = c.Running()
		}
		if v.Each {
			count *= route.BatchCount(p)
		}
		list = append(list, Vessels{v, count})
	}
	return list
}

// Waste is all groups' waste, each stream poured together; small things, which nobody
// weighs, are left out.
func (c Club) Waste(p *route.Plan, book *ledger.Book, s *route.Sheet) []safety.Bottle {
	var list []safety.Bottle
	for _, b := range safety.Bottles(p, book, s) {
		if b.Mass <= 0 {
			continue
		}
		b.Volume *= quantity.Millilitre(c.Batches())
		b.Mass *= quantity.Gram(c.Batches())
		b.Soda *= quantity.Gram(c.Batches())
		b.Acid *= quantity.Millilitre(c.Batches())
		list = append(list, b)
	}
	return list
}

// Bags is how many bags of the plan's cells all groups need if they wash one lot of mix
// together and each takes its share of it.
func (c Club) Bags(p *route.Plan) float64 {
	return math.Ceil(c.Batches()/math.Floor(100/float64(p.BatchShare)) - 1e-9)
}

// Gas is the sulfur dioxide that comes at once.
type Gas struct {
	Litres  float64          // of all that run at once, at room temperature and pressure
	Minutes quantity.Minute  // in which it comes
	Limit   room.Limit       // that the plan is held against
	Passing []route.Exposure // what the plan's room would breathe of what is not taken up and gets out
	Leak    []route.Exposure // the same, if all that the ones running at once make got out
	Most    float64          // how many at once stay below the limit, of what passes; 0 for not even one
}

// Gas works out what comes at once; not ok where no sulfur dioxide comes into the plan.
func (c Club) Gas(p *route.Plan, s *route.Sheet) (g Gas, ok bool) {
	amount, litres := route.SulfurDioxideFreed(p, s)
	if !(amount > 0) {
		return Gas{}, false
	}
	n := c.Running()
	passing := quantity.Mole(route.Escapes(p).Fraction() * s.Value(route.VentGas) / 1000)
	g = Gas{
		Litres: n * litres, Minutes: p.GasMinutes, Limit: room.Limits()[p.RoomLimit],
		Passing: route.ExposuresIf(p, quantity.Mole(n)*passing), Leak: route.ExposuresIf(p, quantity.Mole(n)*amount), Most: most,
	}
	if one := route.ExposuresIf(p, passing); one != nil {
		g.Most = math.Min(most, math.Floor(float64(g.Limit.PPM/one[p.RoomLimit].Mean)))
	}
	return g, true
}

// Over tells whether what passes by brings the room above the limit.
func (g Gas) Over(c Club) bool { return c.Running() > g.Most }

// TurnTime is how long one turn at the gas, or at stirring in, takes, with the steps that must
// follow it in one go; that of all its batches together, where a plan is worked in several.
func TurnTime(steps []procedure.Step) quantity.Minute {
	all := quantity.Minute(0)
	for i, st := range steps {
		if st.Onward && (i == 0 || !steps[i-1].Onward) {
			all += max(st.Minutes, st.Room)
		}
	}
	return all
}
