package link

import (
	"net/url"
	"strings"

	"rosesalt/chem/assay"
	"rosesalt/chem/quantity"
)

// encodeAssays writes the readings of the assays, in the order of their inputs; a
// choice by its word, and only where it is not the first.
func encodeAssays(b *strings.Builder, r assay.Readings) {
	for _, in := range assay.Inputs() {
		v, ok := r[in.Key]
		if !ok || !quantity.Given(v) || in.Options != nil && v == in.Default {
			continue
		}
		b.WriteString("&" + in.Key + "=" + url.QueryEscape(assay.Write(in, v)))
	}
}

// assay reads a reading of an assay.
func (r *reader) assay(part, key, value string) bool {
	in, ok := assay.InputByKey(key)
	if !ok || r.inner {
		return false
	}
	v, err := assay.Read(in, value)
	if err != nil {
		r.trouble(part, in.Name+": "+err.Error())
		return true
	}
	if quantity.Given(v) {
		if r.assays == nil {
			r.assays = assay.Readings{}
		}
		r.assays[key] = v
	}
	return true
}
