package desk

import (
	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// assays are the readings of the assays, as typed and as read. They stand beside the
// plan: nothing of it moves until a result is used.
type assays struct {
	texts    map[string]string
	problems map[string]string
	readings assay.Readings
}

func (a *assays) open(r assay.Readings) {
	a.texts, a.problems, a.readings = map[string]string{}, map[string]string{}, assay.Readings{}
	for key, v := range r {
		a.readings[key] = v
	}
}

// edit takes the text of a reading. One that cannot be read keeps its text and counts
// as not read: a result must not stand on what the field no longer shows.
func (a *assays) edit(key, text string) bool {
	in, ok := assay.InputByKey(key)
	if !ok {
		return false
	}
	a.texts[key] = text
	delete(a.problems, key)
	delete(a.readings, key)
	v, err := assay.Read(in, text)
	switch {
	case err != nil:
		a.problems[key] = err.Error()
	case quantity.Given(v):
		a.readings[key] = v
	}
	return true
}

// Assays are where all assays stand.
func (d *Desk) Assays() []assay.Outcome {
	return assay.Work(d.assays.readings, assay.Air{Pressure: d.plan.AirPressure})
}

// AssayProblem is what keeps a reading from being taken, or "".
func (d *Desk) AssayProblem(key string) string { return d.assays.problems[key] }

// AssayText is what stands in the field of a reading.
func (d *Desk) AssayText(key string) string {
	if text, ok := d.assays.texts[key]; ok {
		return text
	}
	in, ok := assay.InputByKey(key)
	if !ok {
		return ""
	}
	if v, ok := d.assays.readings[key]; ok {
		return assay.Write(in, v)
	}
	if in.Options != nil {
		return assay.Write(in, in.Default)
	}
	return ""
}

// HandText is a result as its field takes it: value, and interval for the plan's or
// half-width for the record's, "" where there is none.
func HandText(h *assay.Hand) (value, tolerance string) {
	if !(h.Low < h.High) {
		return route.Plain(h.Value), ""
	}
	r := spread.Round(h.Value, h.Low, h.High)
	if _, record := account.InputByKey(h.Key); record {
		return route.Plain(r.Best), route.Plain(spread.HalfWidth(h.Half))
	}
	return route.Plain(r.Best), route.Plain(r.Low) + " to " + route.Plain(r.High)
}

// UseAssay hands the result of a method to the plan or to what was found after the
// run, with its interval, as if it had been typed there. It tells whether there was a
// result that can be handed over; what does not fit the plan has a problem at its own
// field then.
func (d *Desk) UseAssay(method string) bool {
	for _, o := range d.Assays() {
		if o.Method.Key != method || o.Result == nil || o.Result.Hand == nil {
			continue
		}
		h := o.Result.Hand
		if in, ok := route.InputByKey(h.Key); ok && d.Locked(in) {
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
func (d *Desk) UsesAssay(h *assay.Hand) bool {
	value, _ := HandText(h)
	if in, ok := route.InputByKey(h.Key); ok {
		return d.Problem(h.Key) == "" && quantity.Given(in.Value(&d.plan)) && route.Plain(in.Value(&d.plan)) == value
	}
	v := d.found.Value(h.Key)
	return d.Problem(h.Key) == "" && quantity.Given(v) && route.Plain(v) == value
}

// AsksAssay tells whether a reading has any use beside the others.
func (d *Desk) AsksAssay(key string) bool { return assay.Asks(key, d.assays.readings) }
