package desk

import (
	"rosesalt/chem/assay"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Assays are where all assays stand.
func (d *Desk) Assays() []assay.Outcome {
	return assay.Evaluate(d.is.Assays, assay.Air{Pressure: d.plan.AirPressure})
}

// HandText is a result as its field takes it: value, and interval for the plan's or
// half-width for the record's, "" where there is none.
func HandText(h *assay.Handover) (value, tolerance string) {
	r := spread.Round(h.Value, h.Low, h.High)
	switch {
	case !(h.Low < h.High):
	case h.ToRecord:
		tolerance = route.Plain(spread.HalfWidth(h.Half))
	default:
		tolerance = route.Plain(r.Low) + " to " + route.Plain(r.High)
	}
	return route.Plain(r.Best), tolerance
}

// UseAssay hands the result of a method to the plan or to what was found after the
// run, with its interval, as if it had been typed there. It tells whether there was a
// result that can be handed over; what does not fit the plan has a problem at its own
// field then.
func (d *Desk) UseAssay(method string) bool {
	for _, o := range d.Assays() {
		if o.Method.Key != method || o.Result == nil || o.Result.Handover == nil {
			continue
		}
		h := o.Result.Handover
		if form, f, ok := d.Find(h.Key); !ok || !d.takes(form, f) {
			return false
		}
		value, tolerance := HandText(h)
		d.Edit(h.Key, value)
		if tolerance != "" {
			d.Edit(h.Key+"~", tolerance)
		}
		return true
	}
	return false
}

// UsesAssay tells whether the plan or the record holds what a result hands over.
func (d *Desk) UsesAssay(h *assay.Handover) bool {
	value, _ := HandText(h)
	return d.Problem(h.Key) == "" && d.HeldText(h.Key) == value
}

// AsksAssay tells whether a reading has any use beside the others.
func (d *Desk) AsksAssay(key string) bool { return assay.Asks(key, d.is.Assays) }
