package desk_test

import (
	"encoding/json"
	"flag"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

var update = flag.Bool("update", false, "write what is opened now as what is to be opened")

// opened is a link or what is typed, and what it opens to.
type opened struct {
	Name     string
	Fragment string
	Edits    [][2]string       `json:",omitempty"` // keys and texts, typed one after the other
	Writes   string            // the link that is written of it
	Stands   map[string]string // texts in fields that an empty link leaves otherwise, by key
	Problems map[string]string `json:",omitempty"`
	Unread   map[string]string `json:",omitempty"`
	Troubles [][2]string       `json:",omitempty"`
	Notes    string            `json:",omitempty"`
	Product  string            // grams, to twelve digits
}

func (o *opened) open() *desk.Desk {
	d, fresh := desk.New(o.Fragment), desk.New("")
	for _, e := range o.Edits {
		d.Edit(e[0], e[1])
	}
	o.Writes, o.Notes, o.Unread = d.Fragment(), d.Notes(), d.Unread()
	o.Stands, o.Problems, o.Troubles = map[string]string{}, map[string]string{}, nil
	for _, key := range editable {
		if text := d.Text(key); text != fresh.Text(key) {
			o.Stands[key] = text
		}
		if text := problemOf(d, key); text != "" {
			o.Problems[key] = text
		}
	}
	for _, t := range d.Troubles() {
		o.Troubles = append(o.Troubles, [2]string{t.Part, t.Why})
	}
	o.Product = strconv.FormatFloat(d.Sheet().Value(route.ProductMass), 'g', 12, 64)
	return d
}

// TestOldLinksOpenAsBefore: a link of every kind of what may be typed, and typing into
// every kind of field, gives what it gave when it was first written.
func TestOldLinksOpenAsBefore(t *testing.T) {
	const file = "testdata/opened.json"
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	var list []opened
	require.NoError(t, json.Unmarshal(raw, &list))
	require.NotEmpty(t, list)
	var now []opened
	for _, want := range list {
		got := opened{Name: want.Name, Fragment: want.Fragment, Edits: want.Edits}
		d := got.open()
		again := desk.New(got.Writes)
		assert.Empty(t, again.Troubles(), want.Name)
		assert.Equal(t, got.Writes, again.Fragment(), want.Name)
		assert.Equal(t, d.Sheet().Value(route.ProductMass), again.Sheet().Value(route.ProductMass), want.Name)
		now = append(now, got)
	}
	text, err := json.MarshalIndent(now, "", "\t")
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile(file, append(text, '\n'), 0o644))
	}
	assert.Equal(t, strings.TrimSpace(string(raw)), string(text))
}
