package desk

import (
	"maps"
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/stock"
)

// Shelf is what is said of the shelf.
func (d *Desk) Shelf() stock.Shelf { return d.is.Shelf }

// Fitted is how the plan stands to the shelf.
func (d *Desk) Fitted() *stock.Fitted { return &d.fitted }

// size brings the plan within the shelf.
func (d *Desk) size() {
	d.sized, d.fitted = d.content().Sized()
	d.offers = nil
}

// setShare takes note that the usual share was typed: it stands then, whatever the shelf
// holds. One that shall follow the shelf again stands no longer.
func (d *Desk) setShare(key string) {
	in, _ := route.InputByKey(route.ShareKey)
	switch form, f, _ := d.Find(stock.ShareKey); {
	case key == route.ShareKey && d.problems[key] == "" && in.IsDefault(&d.is.Plan):
		delete(d.texts, stock.ShareKey)
		_ = form.Set(f, stock.Usual)
	case key == stock.ShareKey && in.IsDefault(&d.is.Plan):
		delete(d.texts, route.ShareKey)
	}
}

// Offers are what keeps the plan within the shelf and its vessels; first tells that no run was
// kept yet. Nothing is offered while a run is under way. They are worked out once for each
// plan.
func (d *Desk) Offers(first bool) []stock.Offer {
	small := func(v route.Vessel) bool { return v.TooSmall() }
	if d.run != nil || !d.is.Shelf.Says() && !slices.ContainsFunc(d.vessels, small) {
		return nil
	}
	if d.offers == nil {
		d.offers = map[bool][]stock.Offer{}
	}
	list, ok := d.offers[first]
	if !ok {
		list = d.is.Shelf.Offers(&d.plan, &d.fitted, first)
		d.offers[first] = list
	}
	return list
}

// Sure is a share for which what stands on the shelf is enough in nine runs of ten, where no more of it
// may be bought, by the last draws of what to buy; not ok where it is enough, before that is known, and
// while a run is under way.
func (d *Desk) Sure() (stock.Offer, bool) {
	if d.run != nil || !d.is.Shelf.Says() || !d.KnowsWhatToBuy() {
		return stock.Offer{}, false
	}
	return d.is.Shelf.Sure(&d.plan, &d.doubts.more)
}

// Over tells whether the run is over: the product was weighed, all of its stages are done, or the user
// says so.
func (d *Desk) Over() bool {
	return d.ended || quantity.Given(d.is.Found.Product) || d.run != nil && d.run.Done >= route.Stages
}

// End says that the run is over, whatever was weighed of it.
func (d *Desk) End() { d.ended = true }

// Used takes off the shelf what a run that was started used, once it is over; not ok before, and where
// nothing is to be taken off. Of a plan that nobody started the share would follow the shelf.
func (d *Desk) Used() (stock.Offer, bool) {
	if d.run == nil {
		return stock.Offer{}, false
	}
	return d.UsedUp()
}

// UsedUp is the same of any run that is over, for the next one.
func (d *Desk) UsedUp() (stock.Offer, bool) {
	if !d.Over() {
		return stock.Offer{}, false
	}
	return d.is.Shelf.Used(&d.plan, d.sheet)
}

// nextShare is the share of the mix for a next run: the usual one, which follows the shelf, where the
// share of this run followed it, and else its own.
func (d *Desk) nextShare(own quantity.Percent) quantity.Percent {
	in, _ := route.InputByKey(route.ShareKey)
	follows := d.Following()
	if d.run != nil {
		follows = d.run.content.Planned
		follows.Shelf = d.is.Shelf
	}
	follows.Plan.BatchShare = quantity.Percent(in.Default)
	if sized, fitted := follows.Sized(); fitted.Less() && sized.Plan.BatchShare == own {
		return follows.Plan.BatchShare
	}
	return own
}

// another is the shelf for another run, of which nothing was taken off it yet.
func another(s stock.Shelf) stock.Shelf {
	s = maps.Clone(s)
	delete(s, stock.TakenKey)
	return s
}

// Quicker is what shortens the boiling down where it takes long; nothing while a run is under
// way.
func (d *Desk) Quicker() []stock.Offer {
	if d.run != nil {
		return nil
	}
	return stock.Quicker(&d.plan, d.sheet)
}
