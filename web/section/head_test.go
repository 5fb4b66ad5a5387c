package section

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/desk"
)

func TestSentence(t *testing.T) {
	cases := map[string]struct{ fragment, says string }{
		"demo":          {"", "A quarter of it"},
		"all":           {"batch.share=100", "All of it"},
		"odd share":     {"batch.share=33", "33\u202f% of it"},
		"metabisulfite": {"gas.source=metabisulfite", "of metabisulfite, gives"},
		"peroxide":      {"gas.source=peroxide", "of hydrogen peroxide, 3 %, gives"},
		"mixed bag":     {"cell.2.count=4", "cells and 4 of other types"},
		"all rejected":  {"cell.rejects=6", "none of which is opened"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			assert.Contains(t, Words(desk.New(c.fragment), true), c.says)
		})
	}
}
