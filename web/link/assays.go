package link

import (
	"net/url"
	"strings"

	"rosesalt/chem/assay"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// encodeReadings writes readings that stand beside the plan, in the order of their inputs;
// a choice by its word, and only where it is not the first.
func encodeReadings(b *strings.Builder, inputs []*route.Input, r map[string]float64) {
	for _, in := range inputs {
		v, ok := r[in.Key]
		if !ok || !quantity.Given(v) || in.Options != nil && v == in.Default {
			continue
		}
		b.WriteString("&" + in.Key + "=" + url.QueryEscape(assay.Write(in, v)))
	}
}

// reading reads one of an assay, or of the gas log.
func (r *reader) reading(part, key, value string) bool {
	in, ok := assay.InputByKey(key)
	logged := false
	if !ok {
		in, logged = gaslog.InputByKey(key)
	}
	if r.inner || !ok && !logged {
		return false
	}
	v, err := assay.Read(in, value)
	switch {
	case err != nil:
		r.trouble(part, in.Name+": "+err.Error())
	case !quantity.Given(v):
	case logged:
		put(&r.log, key, v)
	default:
		put(&r.assays, key, v)
	}
	return true
}

func put[M ~map[string]float64](m *M, key string, v float64) {
	if *m == nil {
		*m = M{}
	}
	(*m)[key] = v
}
