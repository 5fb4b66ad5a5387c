package stock

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Offer is a change, or several at one touch, by which a plan keeps within what is at hand.
type Offer struct {
	Text  string // what is done
	Gives string // what the plan is then
	Done  string // that it is done
	Set   []field.Change
}

// holds tells whether a plan keeps within the shelf, its vessels hold what is poured, and its
// acid is work for a bench.
func (s Shelf) holds(p *route.Plan, b *route.Runner) bool {
	sheet := b.Run(p)
	for i := range items {
		if has, ok := s.bounds(&items[i], p); ok && items[i].asks(p, sheet) > has {
			return false
		}
	}
	return !route.BeyondBench(p, sheet) && !slices.ContainsFunc(route.Vessels(p, sheet), func(v route.Vessel) bool { return v.TooSmall() })
}

// Unfit says what does not fit in a plan: the vessels that are too small, with what they must hold
// and why, and a flask for more acid than is work for a bench; "" where all fits.
func Unfit(p *route.Plan, sheet *route.Sheet) string { return unfit(p, sheet, nil) }

// UnfitThen is [Unfit] of a plan that another one would become: of the vessels that are too small now
// already it names those that stay so; "" too where nothing changes of it.
func UnfitThen(then *route.Plan, thenSheet *route.Sheet, now *route.Plan, nowSheet *route.Sheet) string {
	if Unfit(then, thenSheet) == Unfit(now, nowSheet) {
		return ""
	}
	var already []string
	for _, v := range route.Vessels(now, nowSheet) {
		if v.TooSmall() {
			already = append(already, v.Word())
		}
	}
	return unfit(then, thenSheet, already)
}

// unfit says what does not fit in a plan, in short of vessels of which it is known.
func unfit(p *route.Plan, sheet *route.Sheet, known []string) string {
	var list []string
	for _, v := range route.Vessels(p, sheet) {
		if v.TooSmall() {
			key := "small"
			if slices.Contains(known, v.Word()) {
				key = "still"
			}
			list = append(list, says(key, p, sheet, "vessel", v.Word(), "least", v.LeastText(), "why", v.For))
		}
	}
	if route.BeyondBench(p, sheet) {
		list = append(list, says("beyond", p, sheet))
	}
	return strings.Join(list, "; ")
}

// gives says in a line what a plan gives and takes.
func gives(p *route.Plan, b *route.Runner) string {
	sheet := b.Run(p)
	reductant := route.ReductantOf(p)
	need := reductant.Need(p, sheet)
	return says("gives", p, sheet, "acid", some(route.StrongAcid(p, sheet).All(), "mL"), "charge", some(need.Amount, need.Unit), "reductant", reductant.Name)
}

// some is an amount as read; "" for none.
func some(amount float64, unit string) string {
	if amount > 0 {
		return route.Print(amount, unit)
	}
	return ""
}

// Offers are what keeps a plan within the shelf and its vessels, where something is too
// scarce or too small: a smaller share, other ways, and for who has done no run yet two
// cells. Each is worked out before it is offered, and fits. The plan is the one that is
// computed, with the share that it was fitted to.
func (s Shelf) Offers(p *route.Plan, f *Fitted, first bool) (list []Offer) {
	var b route.Runner
	_, scarce := f.Scarce()
	shut, fits := s.Shut(p) != "", s.holds(p, &b)
	if !scarce && !shut && fits {
		return nil
	}
	if !shut && !fits {
		list = append(list, s.smaller(p, &b)...)
	}
	if scarce || shut {
		list = append(list, s.otherWays(p, &b, shut)...)
	}
	if first {
		list = append(list, s.twoCells(p, &b, shut)...)
	}
	return list
}

// Sure is a share for which what stands on the shelf is enough in nine runs of ten, where no more of
// it may be bought, by how much more these ask for than the plan; not ok where it is enough.
func (s Shelf) Sure(p *route.Plan, more *route.Amounts) (o Offer, ok bool) {
	var b route.Runner
	sure := func(q *route.Plan) bool {
		for _, r := range more.Enough(route.Reagents(q, b.Run(q))) {
			it := itemOf(q, r.ID)
			if it == nil || s[it.buy] != notToBeHad {
				continue
			}
			if has, bounds := s.bounds(it, q); bounds && has < r.Buy {
				return false
			}
		}
		return true
	}
	if sure(p) || s.Shut(p) != "" {
		return o, false
	}
	of := largest(p, &b, 0, sure)
	q, set, ok := b.Resized(p, []field.Change{share(of)})
	if of == 0 || of >= p.BatchShare || !ok || pure(b.Run(&q)) == 0 {
		return o, false
	}
	return offer(tell("sure", &q, nil, "share", percent(of), "gives", gives(&q, &b)), set), true
}

// Used takes off the shelf what a run used, as it went; not ok where that is done, or nothing that
// it used is said to stand there.
func (s Shelf) Used(p *route.Plan, sheet *route.Sheet) (o Offer, ok bool) {
	if s[TakenKey] == taken {
		return o, false
	}
	var left []string
	for i := range items {
		it := &items[i]
		has, said := s.has(it)
		used := it.asks(p, sheet)
		if !said || has == 0 || used == 0 {
			continue
		}
		stays := 0.0
		if has > used {
			stays = roundedDown(has-used, usedDigits)
		}
		in, _ := fields.Find(it.key)
		left = append(left, field.Plain(stays)+"\u202f"+in.Unit+" of "+it.word)
		o.Set = append(o.Set, field.Change{Key: it.key, Text: field.Plain(stays)})
	}
	told := tell("used", p, sheet, "left", strings.Join(left, " and "))
	return offer(told, append(o.Set, field.Change{Key: TakenKey, Text: "yes"})), left != nil
}

// With is the shelf with the changes of an offer made.
func (s Shelf) With(set []field.Change) Shelf {
	s = maps.Clone(s)
	form := s.Form()
	for _, c := range set {
		if f, ok := form.Find(c.Key); ok {
			_ = form.Set(f, c.Text) // an offer sets what its field takes
		}
	}
	return s
}

// usedDigits are the digits of what stays on the shelf: as a balance or a measure tells it.
const usedDigits = 3

// offer is an offer as it is told, and its changes.
func offer(told phrase.Told, set []field.Change) Offer {
	return Offer{told.One("do"), told.One("gives"), told.One("done"), set}
}

// fitting is the largest share, at most so much, with which a plan keeps within the shelf and
// its vessels; 0 where none does.
func (s Shelf) fitting(p *route.Plan, b *route.Runner, most quantity.Percent) quantity.Percent {
	return min(most, largest(p, b, 0, func(q *route.Plan) bool { return s.holds(q, b) }))
}

// bound names the vessel that keeps a plan from a share larger than it has, at most so large; "" where
// none does, or it has as much.
func bound(p *route.Plan, b *route.Runner, most quantity.Percent) string {
	if p.BatchShare >= most {
		return ""
	}
	more := *p
	next := quantity.Percent(math.Pow10(1 - shareDigits + int(math.Floor(math.Log10(float64(p.BatchShare))))))
	more.BatchShare = min(most, p.BatchShare+next)
	b.Proportion(&more, p)
	vessels := route.Vessels(&more, b.Run(&more))
	for i := range vessels {
		if v := &vessels[i]; v.TooSmall() {
			return v.Word()
		}
	}
	return ""
}

// percent is a share as read.
func percent(share quantity.Percent) string { return route.Print(float64(share), "%") }

// share is the change that sets a share.
func share(of quantity.Percent) field.Change {
	return field.Change{Key: route.ShareKey, Text: route.Plain(float64(of))}
}

func (s Shelf) smaller(p *route.Plan, b *route.Runner) []Offer {
	of := s.fitting(p, b, p.BatchShare)
	q, set, ok := b.Resized(p, []field.Change{share(of)})
	if of == 0 || !ok || pure(b.Run(&q)) == 0 {
		return nil
	}
	return []Offer{offer(tell("share", &q, nil, "share", percent(of), "gives", gives(&q, b), "vessel", bound(&q, b, p.BatchShare)), set)}
}

// Way is one of the ways to reduce the oxide, as the shelf allows it.
type Way struct {
	Name string
	Shut string // why it is not open; "" where it is
	Own  bool   // it is the plan's
	Offer
	salt float64 // g, pure
}

// Ways are all ways, each with as much of the mix as shelf and vessels allow, at most as much
// as the plan takes, or the usual share.
func (s Shelf) Ways(p *route.Plan) (list []Way) {
	var b route.Runner
	source, _ := route.InputByKey("gas.source")
	for i, o := range source.Options {
		set := []field.Change{{Key: source.Key, Text: o.Word}}
		w := Way{Name: o.Name, Own: i == int(p.GasSource)}
		most := p.BatchShare
		if !w.Own {
			most = usualShare(p)
		}
		q := *p
		if form := q.Form(); form.Set(&source.Field, o.Word) != nil {
			continue
		}
		if problems := route.Check(&q); len(problems) > 0 {
			w.Shut = problems[0].Message
		} else if w.Shut = s.Shut(&q); w.Shut == "" {
			if q.BatchShare = s.fitting(&q, &b, most); q.BatchShare == 0 {
				w.Shut = says("shut.share", &q, nil)
			}
		}
		if w.Shut == "" {
			if q.BatchShare != p.BatchShare || !shareInput.IsDefault(&q) { // that of the plan may follow the shelf, which knows no vessels
				set = append(set, share(q.BatchShare))
			}
			q, set, _ = b.Resized(p, set)
			if pure(b.Run(&q)) == 0 {
				w.Shut = says("shut.salt", &q, nil)
			}
		}
		if w.Shut == "" {
			reductant, share, vessel := route.ReductantOf(&q), "", ""
			if q.BatchShare != p.BatchShare {
				share, vessel = percent(q.BatchShare), bound(&q, &b, most)
			}
			told := tell("way", &q, nil, "reductant", reductant.Name, "share", share, "gives", gives(&q, &b), "vessel", vessel, "name", o.Name)
			w.salt, w.Offer = pure(b.Run(&q)), offer(told, set)
		}
		list = append(list, w)
	}
	return list
}

// pure is the manganese sulfate in the jar, g.
func pure(s *route.Sheet) float64 {
	return s.Amount(route.ProductMass) * s.Amount(route.ProductPurity) / 100
}

// otherWays are the ways that are open and give more of the pure salt within the shelf, the best
// two; where the plan's own is shut all that are open.
func (s Shelf) otherWays(p *route.Plan, b *route.Runner, shut bool) (list []Offer) {
	own := pure(b.Run(p))
	ways := slices.DeleteFunc(s.Ways(p), func(w Way) bool { return w.Own || w.Shut != "" || !shut && w.salt < worthIt*own })
	slices.SortStableFunc(ways, func(a, b Way) int { return cmp.Compare(b.salt, a.salt) })
	for i := range ways {
		if shut || i < mostWays {
			list = append(list, ways[i].Offer)
		}
	}
	return list
}

const (
	worthIt  = 1.1 // times the salt, for which another way is offered (judgement)
	mostWays = 2   // that are offered where the plan's own is open
)

// usualShare is the most that another way is offered with: the plan's own share, or where
// that is less, the usual one.
func usualShare(p *route.Plan) quantity.Percent {
	return max(p.BatchShare, quantity.Percent(shareInput.Default))
}

// twoCells is a first run of two cells of the first type alone.
func (s Shelf) twoCells(p *route.Plan, b *route.Runner, shut bool) []Offer {
	const two = 2
	row := &p.Rows[0]
	if shut || row.Count-row.Rejects <= two || slices.ContainsFunc(p.Rows[1:], func(r route.Row) bool { return quantity.Given(r.Count) }) || quantity.Given(p.MixWet) || quantity.Given(p.MixWashed) {
		return nil
	}
	set := []field.Change{{Key: "cell.rejects", Text: "0"}, {Key: "cell.count", Text: route.Plain(two)}}
	q, _, ok := b.Resized(p, set)
	if !ok {
		return nil
	}
	of := s.fitting(&q, b, 100)
	if of == 0 {
		return nil
	}
	q, set, ok = b.Resized(p, append(set, share(of)))
	if !ok || pure(b.Run(&q)) == 0 {
		return nil
	}
	words := "all of their mix"
	if of < 100 {
		words = percent(of) + " of their mix"
	}
	return []Offer{offer(tell("cells", &q, nil, "words", words, "gives", gives(&q, b), "vessel", bound(&q, b, 100)), set)}
}
