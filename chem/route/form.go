package route

import (
	"sync"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
)

var planFields = sync.OnceValue(func() (list []*field.Field) {
	for i := range inputs {
		list = append(list, &inputs[i].Field)
	}
	return list
})

// Form is the plan as it is typed. What is typed must go together too: see Check.
func (p *Plan) Form() field.Form {
	form := field.Form{Affects: field.Figures, Fields: planFields(), Find: func(key string) (*field.Field, bool) {
		if in, ok := InputByKey(key); ok {
			return &in.Field, true
		}
		return nil, false
	}}
	return form.Values(func(f *field.Field) (float64, bool) {
		in := &inputs[inputIndex[f.Key]]
		return in.Value(p), !in.IsDefault(p)
	}, func(f *field.Field, v float64) error {
		err := inputs[inputIndex[f.Key]].put(p, v)
		if other, ok := inputIndex[f.Clears]; ok && err == nil && quantity.Given(v) {
			_ = inputs[other].put(p, quantity.Blank) // refused where it cannot be blank: then it stands for later
		}
		return err
	})
}
