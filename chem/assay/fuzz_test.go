package assay

import (
	"fmt"
	"math"
	"net/url"
	"strings"
	"testing"
	"unicode/utf8"

	"rosesalt/chem/quantity"
)

// FuzzWork: whatever is typed into the fields of the assays, written as a query, every
// result is a number within its bounds, and every message stands at a field there is.
func FuzzWork(f *testing.F) {
	query := func(readings string) string { return strings.ReplaceAll(readings, ";", "&") }
	for _, base := range []string{gasLost, backed, neutral, chelated, ignited, pinked, zinced, backed + ";" + ignited + ";balance=0.1", "oxalate.sample=1e-300;oxalate.titre=1e300", "loss.kind=tea", "ignition.dish=−1"} {
		f.Add(query(base), 101.325)
	}
	f.Fuzz(func(t *testing.T, text string, kilopascal float64) {
		if !(kilopascal >= 50 && kilopascal <= 120) { // what the plan takes
			kilopascal = 101.325
		}
		fields, err := url.ParseQuery(text)
		if err != nil {
			return
		}
		r := Readings{}
		for key, list := range fields {
			in, ok := inputs.Find("assay." + key)
			if !ok {
				continue
			}
			v, err := in.Take(list[0])
			if err != nil {
				if said := err.Error(); !utf8.ValidString(said) || utf8.RuneCountInString(said) > 400 {
					t.Fatalf("%s: %q: the message %q", key, list[0], said)
				}
				continue
			}
			if quantity.Given(v) {
				if back, err := in.Take(in.Write(v)); err != nil || back != v {
					t.Fatalf("%s: %q is %v, and that reads back as %v, %v", key, list[0], v, back, err)
				}
				r[in.Key] = v
			}
		}
		number := func(of string, list ...float64) {
			for _, v := range list {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%v: %s is %v", r, of, v)
				}
			}
		}
		for _, o := range Evaluate(r, Air{Pressure: quantity.Kilopascal(kilopascal)}) {
			for _, key := range o.Wanting {
				if _, ok := inputs.Find(key); !ok {
					t.Fatalf("%v: wanting %s, which is no reading", r, key)
				}
			}
			said := ""
			for key, message := range o.Problems {
				if _, ok := inputs.Find(key); !ok {
					t.Fatalf("%v: a problem at %s, which is no reading", r, key)
				}
				said += message
			}
			if o.Result != nil {
				number(o.Method.Key, o.Result.Value, o.Result.U, float64(o.Result.Moles))
				for _, s := range o.Result.Shares {
					number(o.Method.Key+" share", s.Of)
				}
				for _, other := range o.Result.Others {
					number(o.Method.Key+" "+other.Name, other.Value, other.U)
				}
				if h := o.Result.Handover; h != nil {
					number(o.Method.Key+" handed over", h.Value, h.Low, h.High, h.Half)
					if !(h.Low <= h.Value && h.Value <= h.High) {
						t.Fatalf("%v: %s hands over %v, outside of %v to %v", r, o.Method.Key, h.Value, h.Low, h.High)
					}
				}
				said += fmt.Sprint(o.Result.Working, o.Result.Notes)
			}
			for _, no := range []string{"NaN", "Inf", "%!"} {
				if strings.Contains(said, no) {
					t.Fatalf("%v: %s says %s", r, o.Method.Key, said)
				}
			}
		}
	})
}
