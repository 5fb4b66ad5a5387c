package field

import "rosesalt/chem/quantity"

// Affects is what a change of a form makes anew, beside what shows the field itself.
type Affects uint8

// What can be made anew.
const (
	Nothing Affects = iota
	Figures         // all of the plan, and what rests on it
	Account         // the run held against the plan
	Assays          // what the readings of assays give
	Gas             // what the log of the gas gives
	Days            // the timetable
	Club            // what several groups need
)

// Beside tells whether the fields of the form stand beside the plan: one that cannot be
// read counts as not given, and stops nothing.
func (a Affects) Beside() bool { return a == Assays || a == Gas }

// Form is an ordered set of fields over a store of values.
type Form struct {
	Affects Affects

	Fields []*Field // in the order of a link
	Find   func(key string) (*Field, bool)

	// Text is what the store holds for a field, as it stands there; "" for Blank.
	Text func(f *Field) string
	// Written is what a link carries of it; not ok where links leave the field out.
	Written func(f *Field) (text string, ok bool)
	// Set puts what was typed into the store. It refuses what the field does not take, with
	// a sentence for the user.
	Set func(f *Field, text string) error
}

// Values makes a form over values that are numbers, one for each field. Get tells too
// whether the value is worth writing; put refuses what the field does not take.
func (m Form) Values(get func(f *Field) (v float64, own bool), put func(f *Field, v float64) error) Form {
	m.Text = func(f *Field) string {
		v, _ := get(f)
		return f.Write(v)
	}
	m.Written = func(f *Field) (string, bool) {
		v, own := get(f)
		return f.Write(v), own
	}
	m.Set = func(f *Field, text string) error {
		v, err := f.Read(text)
		if err != nil {
			return err
		}
		return put(f, v)
	}
	return m
}

// Of is a field with the way to its value in a store.
type Of[S any] struct {
	Field
	Get func(*S) float64
	Put func(*S, float64)
}

// Over makes a form of fields with their ways into a store. Blank brings back the default,
// which links leave out.
func Over[S any](affects Affects, rows []Of[S], store *S) Form {
	m := Form{Affects: affects}
	for i := range rows {
		m.Fields = append(m.Fields, &rows[i].Field)
	}
	at := func(f *Field) *Of[S] {
		for i := range rows {
			if &rows[i].Field == f {
				return &rows[i]
			}
		}
		panic("field: no field “" + f.Key + "” in this form")
	}
	m.Find = func(key string) (*Field, bool) { return Find(m.Fields, key) }
	return m.Values(func(f *Field) (float64, bool) {
		v := at(f).Get(store)
		return v, quantity.Given(v) && v != f.Default
	}, func(f *Field, v float64) error {
		if !quantity.Given(v) {
			v = f.Default
		} else if err := f.Accept(v); err != nil {
			return err
		}
		at(f).Put(store, v)
		return nil
	})
}

// Find looks a key up among few fields.
func Find(fields []*Field, key string) (*Field, bool) {
	for _, f := range fields {
		if f.Key == key {
			return f, true
		}
	}
	return nil, false
}
