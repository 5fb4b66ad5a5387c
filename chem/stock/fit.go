package stock

import (
	"cmp"
	"math"
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Limit is something on the shelf of which a plan takes some.
type Limit struct {
	Word, Unit string
	Has        float64          // what stands there
	Asks       float64          // what the plan takes at the share that it has by itself
	Enough     quantity.Percent // the share of the mix for which it does; 0 where it does for none
}

// Fitted is a plan held against a shelf.
type Fitted struct {
	Share  quantity.Percent // that the plan is to take: its own, or less where the shelf holds less
	Own    quantity.Percent // that it has by itself
	Set    bool             // somebody set that
	Limits []Limit          // the scarcest first
	Unsaid string           // what it takes and nobody said anything of; "" where there is none
}

// Less tells whether the shelf makes the share smaller.
func (f *Fitted) Less() bool { return f.Share < f.Own }

// Scarce is what does not suffice for the share that the plan has by itself; not ok where all
// does.
func (f *Fitted) Scarce() (l Limit, ok bool) {
	if len(f.Limits) == 0 || f.Limits[0].Enough >= f.Own {
		return Limit{}, false
	}
	return f.Limits[0], true
}

// Short says what does not suffice for the share that the plan has by itself, and for how much it is
// enough; own is that share in words. "" where all does.
func (f *Fitted) Short(own string) string {
	l, scarce := f.Scarce()
	key := "limit.set"
	switch {
	case !scarce:
		return ""
	case l.Enough == 0:
		key = "limit.never"
	case f.Less():
		key = "limit.less"
	}
	return says(key, nil, nil, "has", route.Plain(l.Has)+"\u202f"+l.Unit, "word", l.Word, "enough", percent(l.Enough),
		"own", own, "takes", route.Print(l.Asks, l.Unit), "more", route.Print(l.Asks-l.Has, l.Unit))
}

// Enough says for how much of the mix the shelf is enough, and what would run out first; not ok where
// nothing stands there that the plan takes.
func (f *Fitted) Enough() (text string, ok bool) {
	if len(f.Limits) == 0 {
		return "", false
	}
	return says("limit.enough", nil, nil, "enough", percent(f.Limits[0].Enough), "word", f.Limits[0].Word, "unsaid", f.Unsaid), true
}

// shareInput is the share of the mix that a plan takes.
var shareInput, _ = route.InputByKey(route.ShareKey)

// Fit holds a plan against the shelf. Set tells that somebody set its share by other means
// than a number that is not the usual one.
func (s Shelf) Fit(p *route.Plan, set bool) Fitted {
	f := Fitted{Share: p.BatchShare, Own: p.BatchShare, Set: set || !shareInput.IsDefault(p) || s[ShareKey] == usually}
	var b route.Runner
	sheet := *b.Run(p)
	for i := range items {
		it := &items[i]
		has, ok := s.bounds(it, p)
		asks := it.asks(p, &sheet)
		if _, said := s.has(it); !said && asks > 0 && s[it.buy] != buyable {
			f.Unsaid = it.word
		}
		if !ok || asks == 0 {
			continue
		}
		least := *p
		least.BatchShare = quantity.Percent(shareInput.Min)
		base := it.asks(&least, b.Run(&least))
		near := float64(least.BatchShare) + float64(p.BatchShare-least.BatchShare)*(has-base)/(asks-base)
		enough := largest(p, &b, near, func(q *route.Plan) bool { return it.asks(q, b.Run(q)) <= has })
		in, _ := fields.Find(it.key)
		f.Limits = append(f.Limits, Limit{it.word, in.Unit, has, asks, enough})
	}
	slices.SortStableFunc(f.Limits, func(a, b Limit) int { return cmp.Compare(a.Enough, b.Enough) })
	if l, ok := f.Scarce(); ok && !f.Set && l.Enough > 0 {
		f.Share = l.Enough
	}
	return f
}

// shareDigits are the digits to which a share is rounded down: nobody weighs a damp cake
// finer.
const shareDigits = 2

// fine is how near a share is looked for, in parts of it.
const fine = 1.0 / 1000

// largest is the largest share of the mix with which a plan is as asked, rounded down; 0 where
// it is with none. What holds for a share holds for smaller ones, or a smaller one is taken.
// It is looked for at first where it is expected, in percent; anything else costs time alone.
func largest(p *route.Plan, b *route.Runner, near float64, holds func(*route.Plan) bool) quantity.Percent {
	in := shareInput
	with := func(share float64) bool {
		q := *p
		q.BatchShare = quantity.Percent(share)
		b.Proportion(&q, p)
		return holds(&q)
	}
	if with(in.Max) {
		return quantity.Percent(in.Max)
	}
	low, high := in.Min, in.Max
	if !with(low) {
		return 0
	}
	try := func(share float64) {
		switch {
		case !(low < share && share < high):
		case with(share):
			low = share
		default:
			high = share
		}
	}
	try(near * (1 - fine/2))
	try(near * (1 + fine/2))
	for high-low > fine*low {
		try((low + high) / 2)
	}
	for _, share := range [...]float64{roundedDown(high, shareDigits), roundedDown(low, shareDigits), roundedDown(low, shareDigits+2)} {
		if share >= in.Min && with(share) {
			return quantity.Percent(share)
		}
	}
	return quantity.Percent(low)
}

func roundedDown(v float64, digits int) float64 {
	scale := math.Pow10(digits - 1 - int(math.Floor(math.Log10(v))))
	return math.Floor(v*scale+1e-9) / scale
}

// Shut says why a plan's way is not open; "" where it is.
func (s Shelf) Shut(p *route.Plan) string {
	for i := range items {
		it := &items[i]
		if !s.none(it) || !needs(p, it) {
			continue
		}
		word := it.word
		if i == 0 {
			word = "strong acid"
		}
		_, named := s.has(it)
		forbidden := it.buy != "" && s[it.buy] == notToBeHad
		return says("shut", p, nil, "word", word, "named", route.If(named), "forbidden", route.If(forbidden), "others", route.If(i == 0))
	}
	return ""
}

// needs tells whether a way cannot be gone without something. Acid that shops sell freely
// does wherever it need not be hot and strong.
func needs(p *route.Plan, it *item) bool {
	return it == &items[0] && route.HotAcid(p) || it.key == route.ReductantOf(p).Shelf
}
