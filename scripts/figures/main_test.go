package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

const schemaFile = "../../testdata/figures/schema.json"

// plans are one of each sort that prints otherwise than the others.
var plans = []struct{ name, fragment string }{
	{"the plan that the page starts with", ""},
	{"copper", "v=1&cell.count=8"},
	{"metabisulfite", "v=1&gas.source=metabisulfite"},
	{"metabisulfite in the slurry", "v=1&gas.source=slurrysalt"},
	{"peroxide", "v=1&gas.source=peroxide"},
	{"oxalic acid", "v=1&gas.source=oxalic"},
	{"crystals", "v=1&dry.way=crystals"},
	{"alkaline cells", "v=1&cell.kind=alkaline"},
	{"no cell opened", "v=1&cell.rejects=6"},
	{"no cell at all", "v=1&cell.count=0"},
	{"vessels too small", "v=1&gas.flask=20&slurry.beaker=50&gas.trap=20&dry.dish=20&crop.vessel=50"},
	{"a broken link", "v=9&cell.count=several&tea=yes&gas.acid&mix.wet=-3&gas.strength=200"},
	{"a weighed run", "v=1&found.product=26&found.copper=44&found.residue=14"},
	{"a run with one weighing", "v=1&found.product=26"},
	{"a weighed run of peroxide", "v=1&gas.source=peroxide&found.product=12"},
	{"weighings that cannot be", "v=1&found.product=500&found.copper=500&found.metal=90"},
}

// printed is what the command prints of a plan.
func printed(t *testing.T, fragment string) []byte {
	t.Helper()
	var out, complaints bytes.Buffer
	require.Zero(t, run([]string{fragment}, &out, &complaints), complaints.String())
	require.Empty(t, complaints.String())
	return out.Bytes()
}

func readReport(t *testing.T, text []byte) report {
	t.Helper()
	var r report
	strict := json.NewDecoder(bytes.NewReader(text))
	strict.DisallowUnknownFields()
	require.NoError(t, strict.Decode(&r))
	return r
}

func TestWhatIsPrintedFollowsTheSchema(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile(schemaFile)
	require.NoError(t, err)
	for _, p := range plans {
		t.Run(p.name, func(t *testing.T) {
			text := printed(t, p.fragment)
			v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
			require.NoError(t, err)
			require.NoError(t, schema.Validate(v))

			r := readReport(t, text)
			for i := range route.Figures() {
				assert.Contains(t, r.Figures, route.Figures()[i].Key)
			}
			_, troubles := link.Decode(p.fragment)
			require.Len(t, r.Troubles, len(troubles))
			for i, trouble := range troubles {
				assert.Equal(t, trouble.Why, r.Troubles[i].Why)
			}
			weighed := strings.Contains(p.fragment, "found.")
			require.Equal(t, weighed, r.Account != nil)
			if weighed {
				sum := 0.0
				for _, c := range r.Account.Causes {
					sum += c.Share
				}
				assert.Equal(t, r.Account.Why == "", len(r.Account.Causes) > 0)
				if r.Account.Why == "" {
					assert.InDelta(t, 1, sum, 1e-9)
				}
			}
		})
	}
}

// TestTheNumbersAreThePagesOwn holds every digit to the desk, which is stepped in small
// parts as the page does it.
func TestTheNumbersAreThePagesOwn(t *testing.T) {
	const part = 192 // no divisor of the draws
	same := func(t *testing.T, want float64, got *float64, of string) {
		t.Helper()
		if !quantity.Given(want) {
			assert.Nil(t, got, of)
			return
		}
		if assert.NotNil(t, got, of) {
			assert.Equal(t, want, *got, of)
		}
	}
	for _, p := range plans {
		t.Run(p.name, func(t *testing.T) {
			r := readReport(t, printed(t, p.fragment))
			d := desk.New(p.fragment)
			for !d.StepBands(part) {
			}
			for i := range route.Figures() {
				id := route.FigureID(i)
				key, s := id.Info().Key, d.Sheet()
				f := r.Figures[key]
				assert.Equal(t, s.Reason(id).String(), f.Reason, key)
				if id.Info().Words != nil {
					assert.Equal(t, s.Word(id), f.Text, key)
					continue
				}
				assert.Equal(t, id.Info().Unit, *f.Unit, key)
				same(t, s.Value(id), f.Value, key)
				if band := d.Band(id); band.OK && f.Reason == "" {
					same(t, band.Low, f.Low, key)
					same(t, band.High, f.High, key)
				} else {
					assert.Nil(t, f.Low, key)
				}
			}
			for i, of := range d.Reagents() {
				assert.Equal(t, reagent{need{of.Name, of.Buy, of.Unit, of.For}, of.Amount}, r.Needs.Reagents[i])
			}
			if d.Account() == nil {
				return
			}
			for !d.Accounted() {
				d.StepRest(part)
			}
			after := d.Account()
			for _, f := range account.Figures() {
				if i, ok := after.Shown(f.Key); ok {
					same(t, i.Low, r.Figures[f.Key].Low, f.Key)
					same(t, i.Median, r.Figures[f.Key].Value, f.Key)
					same(t, i.High, r.Figures[f.Key].High, f.Key)
				}
			}
			for _, b := range after.Bounds.List() {
				same(t, b.Value, r.Figures[b.Key].Value, b.Key)
			}
			if after.OK() {
				same(t, after.Planned(), r.Account.Planned, "planned")
			}
			sum := 0.0
			for _, c := range r.Account.Causes {
				assert.NotEqual(t, account.AsPlanned.Key(), c.Key)
				sum += c.Share
			}
			assert.True(t, !after.OK() && sum == 0 || math.Abs(sum-1) < 1e-9, "the shares add up to %v", sum)
			for i, c := range after.Ranked()[:len(r.Account.Causes)] {
				assert.Equal(t, cause{c.Key(), after.Probability(c), after.Remedy(c)}, r.Account.Causes[i])
			}
		})
	}
}

// TestTheFlowKeepsTheElements holds what stands anywhere after a run to what was brought
// in for it, what was spilt with it.
func TestTheFlowKeepsTheElements(t *testing.T) {
	const spilt = "v=1&found.product=4&found.product~=0.1&found.copper=48&found.copper~=1&found.residue=10&found.residue~=0.3&found.assay=21&found.assay~=0.5"
	r := readReport(t, printed(t, spilt))
	require.Equal(t, account.Spill.Key(), r.Account.Causes[0].Key)
	d := desk.New(spilt)
	for !d.StepBands(desk.Draws) {
	}
	for !d.Accounted() {
		d.StepRest(desk.Draws)
	}
	plan, _, share, ok := d.Account().Likeliest()
	require.True(t, ok)
	require.Greater(t, share, 0.1)
	var b route.Runner
	sheet := b.Run(&plan)
	for _, e := range []string{"Mn", "S", "Cu"} {
		sum := 0.0
		for _, n := range r.Account.Flow[e] {
			sum += n
		}
		for _, of := range elements {
			if of.String() == e {
				_, stands := b.Book().Balance(of)
				assert.InEpsilon(t, stands.Millimoles(), sum, 1e-12, e)
			}
		}
	}
	assert.InEpsilon(t, (1-share)*sheet.Value(route.ProductAnhydrous)/0.151, r.Account.Flow["Mn"]["jar"], 0.02, "what was spilt is not in the jar")
}

func TestWrongUseIsTold(t *testing.T) {
	for _, args := range [][]string{nil, {"v=1", "v=1"}, {"-h"}} {
		var out, complaints bytes.Buffer
		assert.Equal(t, 1, run(args, &out, &complaints))
		assert.Empty(t, out.String())
		assert.Contains(t, complaints.String(), "go run ./scripts/figures")
	}
}

func TestAWholeLinkWillDo(t *testing.T) {
	assert.Equal(t, printed(t, "v=1&cell.count=8"), printed(t, "file:///home/rosesalt.html#v=1&cell.count=8"))
}
