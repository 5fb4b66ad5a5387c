package desk

import (
	"maps"

	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// readings are those of the assays or of the gas log, as typed and as read. They stand
// beside the plan: nothing of it moves until a result is used.
type readings struct {
	find     func(key string) (*route.Input, bool)
	texts    map[string]string
	problems map[string]string
	read     map[string]float64
}

func openReadings(find func(string) (*route.Input, bool), from map[string]float64) readings {
	r := readings{find: find, texts: map[string]string{}, problems: map[string]string{}, read: map[string]float64{}}
	maps.Copy(r.read, from)
	return r
}

// edit takes the text of a reading. One that cannot be read keeps its text and counts
// as not read: a result must not stand on what the field no longer shows.
func (r *readings) edit(key, text string) bool {
	in, ok := r.find(key)
	if !ok {
		return false
	}
	r.texts[key] = text
	delete(r.problems, key)
	delete(r.read, key)
	v, err := assay.Read(in, text)
	switch {
	case err != nil:
		r.problems[key] = err.Error()
	case quantity.Given(v):
		r.read[key] = v
	}
	return true
}

// text is what stands in the field of a reading.
func (r *readings) text(key string) string {
	if text, ok := r.texts[key]; ok {
		return text
	}
	in, ok := r.find(key)
	if !ok {
		return ""
	}
	if v, ok := r.read[key]; ok {
		return assay.Write(in, v)
	}
	if in.Options != nil {
		return assay.Write(in, in.Default)
	}
	return ""
}

// Assays are where all assays stand.
func (d *Desk) Assays() []assay.Outcome {
	return assay.Work(d.assays.read, assay.Air{Pressure: d.plan.AirPressure})
}

// AssayProblem is what keeps a reading from being taken, or "".
func (d *Desk) AssayProblem(key string) string { return d.assays.problems[key] }

// AssayText is what stands in the field of a reading.
func (d *Desk) AssayText(key string) string { return d.assays.text(key) }

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
func (d *Desk) AsksAssay(key string) bool { return assay.Asks(key, d.assays.read) }
