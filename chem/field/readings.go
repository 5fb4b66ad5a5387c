package field

import "rosesalt/chem/quantity"

// Readings are the fields of what is read at the bench, in order, found by their keys. The
// values are kept in a map by key, each in the unit of its field; one that is not there, or
// is Blank, was not read.
type Readings struct {
	Fields []*Field
	byKey  map[string]*Field
}

// notRead is what blank means in the field of a reading.
const notRead = "not read"

// Add puts a field at the end. Where it does not say what blank means, nothing was read.
func (r *Readings) Add(f *Field) {
	f.Standing = Measured
	switch {
	case f.IsChoice():
		f.Max, f.Whole = float64(len(f.Options)-1), true
	case f.Blank == "":
		f.Blank, f.Default = notRead, quantity.Blank
	}
	if r.byKey == nil {
		r.byKey = map[string]*Field{}
	}
	r.Fields, r.byKey[f.Key] = append(r.Fields, f), f
}

// Find looks a field up.
func (r *Readings) Find(key string) (*Field, bool) {
	f, ok := r.byKey[key]
	return f, ok
}

// Has tells whether a key is one of a field.
func (r *Readings) Has(key string) bool { return r.byKey[key] != nil }

// Value is a reading; the default of its field where there is none: Blank, a word of a
// choice, or a usual number.
func (r *Readings) Value(of map[string]float64, key string) float64 {
	if v, ok := of[key]; ok && quantity.Given(v) {
		return v
	}
	if f, ok := r.byKey[key]; ok {
		return f.Default
	}
	return quantity.Blank
}

// Form makes a form of values. What cannot be read counts as not read: a result must not
// stand on what a field no longer shows. Links leave out the usual word of a choice.
func (r *Readings) Form(affects Affects, of map[string]float64) Form {
	form := Form{Affects: affects, Fields: r.Fields, Find: r.Find}.Values(func(f *Field) (float64, bool) {
		v, ok := of[f.Key]
		if !ok {
			v = quantity.Blank
		}
		if !ok && f.IsChoice() {
			v = f.Default
		}
		return v, ok && quantity.Given(v) && !(f.IsChoice() && v == f.Default)
	}, nil)
	form.Set = func(f *Field, text string) error {
		delete(of, f.Key)
		v, err := f.Take(text)
		if err == nil && quantity.Given(v) {
			of[f.Key] = v
		}
		return err
	}
	return form
}
