package spread

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Measurement is a way to know an input better at this bench.
type Measurement struct {
	Key string // the input that takes the value
	Do  string // in a few words, to stand before a colon
	How string // in a sentence or two
	// Half and Share give the half-width that it leaves, Half + Share times the value,
	// in the input's unit. For a weighing or an assay they are not set: those bring the
	// tolerance that they have once they are given (see Uncertains).
	Half, Share float64
	// Spares are further inputs that it takes the uncertainty from, or that it tells
	// as well.
	Spares []string

	usable func(*route.Plan) bool
}

func unwashed(p *route.Plan) bool { return !quantity.Given(p.MixWashed) }

// measurements, each with what it leaves: estimates, by the ware and the handling.
var measurements = [...]Measurement{
	{
		Key: "mix.wet", Do: "Weigh the wet black mix", Spares: []string{"cell.fill"}, usable: unwashed,
		How: "Put all of it on the kitchen balance as it comes out of the cells, before the first wash, the dish taken off.",
	},
	{
		Key: "mix.washed", Do: "Weigh the mix washed and dry", Spares: []string{"cell.fill", "mix.wet"},
		How: "After the water washes and before any acid, dry all of it at 105 to 120 °C until it loses no more, and weigh it.",
	},
	{
		Key: "mix.assay", Do: "Titrate the washed mix", Spares: []string{"cell.charge"},
		How: "Dissolve 0.2 g of the dry mix in a measured excess of warm acid oxalate and titrate what is left with permanganate; do it three times.",
	},
	{
		Key: "mix.carbon", Do: "Weigh what acid leaves of the mix", Half: 1.5,
		How: "Dissolve 2 g of the washed, dry mix in dilute acid with a little peroxide, drop by drop; dry and weigh the black rest, glow it and weigh again: what burnt is carbon.",
	},
	{
		Key: "mix.water", Do: "Dry a spoonful of the mix", Half: 2,
		How: "Weigh a spoonful of the wet mix in a closed jar, dry it at 105 °C until it loses no more, and weigh it again.",
	},
	{
		Key: "wash.held", Do: "Weigh a spoonful of drained cake wet and dry", Half: 0.02, Share: 0.08,
		How: "Weigh a spoonful of the drained cake, dry it, weigh again: what it lost, divided by what is left.",
	},
	{
		Key: "loss.transfer", Do: "Weigh what sticks", Half: 0.4,
		How: "Weigh a beaker clean and after emptying it, with what sticks to it and to the paper, against what was moved.",
	},
	{
		Key: "gas.uptake", Do: "Weigh the scrubber in a trial", Half: 5, usable: route.Scrubbed,
		How: "Lead a tenth of the gas first and weigh the scrubber before and after: what it gained passed by, the rest was taken up.",
	},
	{
		Key: "gas.spare", Do: "Run a trial charge until the gas fades", Half: 0.1,
		How: "Take a tenth of the acid with plenty of copper, heat until the bubbling fades, let it cool, and weigh the copper that is left, washed and dry: set the spare acid so that the plan's acid to a mole of copper is that of the trial.",
	},
	{
		Key: "gas.sulfide", Do: "Weigh the black sulfide of a trial", Half: 1, Share: 0.1,
		How: "Of a trial charge filter off, wash, dry and weigh the black sulfide, the bright copper picked out. Twice its mass is the copper that this reaction took; divide by the copper used up.",
	},
	{
		Key: "gas.hot", Do: "Put a thermometer into the paste of a trial", Half: 10,
		How: "One that reads to 360 °C, with no alcohol in it: what it shows while the gas comes freely.",
	},
	{
		Key: "gas.warm", Do: "Put a thermometer into the generator", Half: 2,
		How: "Read it in the liquid when the gas has ended.",
	},
	{
		Key: "gas.bubble", Do: "Catch fifty bubbles", Share: 0.05,
		How: "Catch fifty bubbles under water in a measuring cylinder, and divide.",
	},
	{
		Key: "peroxide.lost", Do: "Use up a spoonful in a trial", Half: 5,
		How: "To a tenth of the cake with its dilute acid add peroxide in drops, and go on adding until " + route.PinchTest + "; what it took, against what the plan needs when nothing is lost, is the share that worked.",
	},
	{
		Key: "dry.rate", Do: "Weigh the dish twice", Share: 0.1,
		How: "Weigh the boiling dish, wait a quarter of an hour, weigh again: four times the loss.",
	},
	{
		Key: "crop.held", Do: "Weigh drained crystals damp and dry", Half: 0.01, Share: 0.1,
		How: "Weigh a spoonful of the drained crystals, let it dry in the air, weigh again: what it lost, divided by what is left.",
	},
}

// MeasurementOf finds how to measure an input, or the input that spares it; not
// ok where this bench has no way.
func MeasurementOf(key string) (*Measurement, bool) {
	for _, spare := range []bool{false, true} {
		for i := range measurements {
			if m := &measurements[i]; !spare && m.Key == key || spare && slices.Contains(m.Spares, key) {
				return m, true
			}
		}
	}
	return nil, false
}

// Narrow is the case after the measurement, had it found the best value; not ok
// where it would tell nothing new.
func (m *Measurement) Narrow(r *Sampling) (Case, bool) {
	c := r.c
	in, known := route.InputByKey(m.Key)
	if !known || m.usable != nil && !m.usable(&c.Plan) || !m.tells(r) {
		return c, false
	}
	if m.Half == 0 && m.Share == 0 {
		v, ok := in.WorkedOut(&c.Plan, &r.best)
		if !ok || quantity.Given(in.Value(&c.Plan)) || in.Set(&c.Plan, v) != nil {
			return c, false
		}
		// An interval kept for it from before would not be what is measured now.
		c.Given = maps.Clone(c.Given)
		delete(c.Given, m.Key)
		return c, true
	}
	for k := range r.uncertain {
		u := &r.uncertain[k]
		if u.Input.Key != m.Key {
			continue
		}
		half := m.Half + m.Share*math.Abs(u.Best)
		now := Interval{math.Max(u.Low, u.Best-half), math.Min(u.High, u.Best+half)}
		if now.High-now.Low >= u.High-u.Low {
			return c, false
		}
		return c.WithInterval(m.Key, now), true
	}
	return c, false
}

// tells whether any input that it is about is uncertain now.
func (m *Measurement) tells(r *Sampling) bool {
	for k := range r.uncertain {
		if m.about(r.uncertain[k].Input) {
			return true
		}
	}
	return false
}

func (m *Measurement) about(in *route.Input) bool {
	if in.Key == m.Key || slices.Contains(m.Spares, in.Key) {
		return true
	}
	return m.Key == "mix.assay" && isCharge(in) // of any row
}

// Suggestion is a measurement and what it would do to the band of a figure.
type Suggestion struct {
	*Measurement
	Input               *route.Input // the input of its key
	Low, High           float64      // the band now
	LowAfter, HighAfter float64      // the band after
}

// Suggester finds out what to measure next. It ranks the measurements by the
// variance that they touch, narrows the first few really, each in a run of its own, and
// puts them in order of the band that is left.
type Suggester struct {
	id         route.FigureID
	top        int
	low, high  float64
	candidates []candidate
	at         int
	run        *Sampling
	draws      int
	list       []Suggestion
}

type candidate struct {
	m     *Measurement
	c     Case
	share float64
}

// spare is how many more measurements are tried than are asked for, since the
// variance that an input explains by itself is not quite the band.
const spare = 2

// worthwhile is what must be left of the band at most for a measurement to be
// suggested.
const worthwhile = 0.97

// NewSuggester prepares suggestions for a figure, given a run that is done; as
// many draws each, best as many as the run's: then both bands meet the same luck. A
// figure without a band, or without spread, has none.
func NewSuggester(r *Sampling, id route.FigureID, top, draws int) *Suggester {
	s := &Suggester{id: id, top: top, draws: draws}
	low, high, ok := r.Band(id)
	if !ok || low == high {
		return s
	}
	s.low, s.high = low, high
	shares := r.Shares(id)
	for i := range measurements {
		m := &measurements[i]
		touched := 0.0
		for _, share := range shares {
			if m.about(share.Input) {
				touched += share.Of
			}
		}
		if touched == 0 {
			continue
		}
		if c, ok := m.Narrow(r); ok {
			s.candidates = append(s.candidates, candidate{m, c, touched})
		}
	}
	slices.SortStableFunc(s.candidates, func(a, b candidate) int { return cmp.Compare(b.share, a.share) })
	s.candidates = s.candidates[:min(len(s.candidates), top+spare)]
	return s
}

// Step does at most n more draws and tells whether all is done.
func (s *Suggester) Step(n int) bool {
	for n > 0 && s.at < len(s.candidates) {
		now := &s.candidates[s.at]
		switch {
		case s.run == nil:
			s.run = Start(now.c, s.draws)
		case s.run.done == s.run.draws: // of the candidate before
			s.run.Restart(now.c)
		}
		made, done := s.run.spend(n)
		if done {
			s.take(now)
			s.at++
		}
		n -= made
	}
	return s.at == len(s.candidates)
}

func (s *Suggester) take(now *candidate) {
	low, high, ok := s.run.Band(s.id)
	if !ok || high-low > worthwhile*(s.high-s.low) {
		return
	}
	in, _ := route.InputByKey(now.m.Key)
	s.list = append(s.list, Suggestion{now.m, in, s.low, s.high, low, high})
	slices.SortStableFunc(s.list, func(a, b Suggestion) int {
		return cmp.Compare(a.HighAfter-a.LowAfter, b.HighAfter-b.LowAfter)
	})
}

// List is what is found so far, the narrowest band first.
func (s *Suggester) List() []Suggestion { return s.list[:min(len(s.list), s.top)] }
