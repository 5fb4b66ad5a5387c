package spread

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Form is the intervals as they are typed, those of all inputs that are numbers: the key of
// each is the input's with a tilde behind it. Nothing typed brings back the usual one.
func (c *Case) Form() field.Form {
	of := func(f *field.Field) string { return strings.TrimSuffix(f.Key, "~") }
	return field.Form{
		Affects: field.Figures, Fields: intervalFields(),
		Find: func(key string) (*field.Field, bool) {
			name, is := strings.CutSuffix(key, "~")
			in, ok := route.InputByKey(name)
			if !is || !ok || in.IsChoice() {
				return nil, false
			}
			return intervalOf(in), true
		},
		Text: func(f *field.Field) string {
			if given, ok := c.Given[of(f)]; ok {
				return field.Plain(given.Low) + " to " + field.Plain(given.High)
			}
			return ""
		},
		Written: func(f *field.Field) (string, bool) {
			given, ok := c.Given[of(f)]
			if !ok {
				return "", false
			}
			return field.Plain(given.Low) + "," + field.Plain(given.High), true
		},
		Set: func(f *field.Field, text string) error {
			if strings.TrimSpace(text) == "" {
				delete(c.Given, of(f))
				return nil
			}
			given, err := ReadInterval(f, text)
			if err == nil {
				c.Given[of(f)] = given
			}
			return err
		},
	}
}

func intervalOf(in *route.Input) *field.Field {
	f := in.Field
	f.Key, f.Kind = in.Key+"~", field.Interval
	return &f
}

var intervalFields = sync.OnceValue(func() (list []*field.Field) {
	inputs := route.Inputs()
	for i := range inputs {
		if !inputs[i].IsChoice() {
			list = append(list, intervalOf(&inputs[i]))
		}
	}
	return list
})

// ReadInterval reads "50,95", "50-95", "50 to 95" or "50–95" as an interval of an input.
// The ends must be in order and within the limits of the input.
func ReadInterval(f *field.Field, text string) (Interval, error) {
	low, high, ok := field.Ends(text, ";", ",")
	if !ok {
		return Interval{}, fmt.Errorf("“%s” is not an interval. Give the low and the high, such as 50 to 95.", field.Clip(text, 60))
	}
	var v [2]float64
	for i, end := range [...]string{low, high} {
		x, err := f.Read(end)
		if err != nil {
			return Interval{}, err
		}
		if !quantity.Given(x) {
			return Interval{}, fmt.Errorf("“%s” is not an interval. Give the low and the high.", field.Clip(text, 60))
		}
		if err := f.Accept(math.Round(x)); f.Whole && err != nil {
			return Interval{}, err
		}
		if err := f.Accept(x); !f.Whole && err != nil {
			return Interval{}, err
		}
		v[i] = x
	}
	if v[0] > v[1] {
		return Interval{}, fmt.Errorf("“%s” has its high before its low. Turn them round.", field.Clip(text, 60))
	}
	return Interval{Low: v[0], High: v[1]}, nil
}
