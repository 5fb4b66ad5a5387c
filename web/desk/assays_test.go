package desk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/assay"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func typeIn(d *Desk, pairs ...string) {
	for i := 0; i < len(pairs); i += 2 {
		d.Edit(pairs[i], pairs[i+1])
	}
}

var titration = []string{
	"assay.permanganate.known", "0.02", "assay.oxalate.sample", "0,500", "assay.oxalate.mass", "0.500", "assay.oxalate.titre", "24.1",
}

func resultOf(t *testing.T, d *Desk, method string) *assay.Result {
	t.Helper()
	for _, o := range d.Assays() {
		if o.Method.Key == method {
			return o.Result
		}
	}
	t.Fatal(method)
	return nil
}

func TestReadingsMoveNothingUntilUsed(t *testing.T) {
	d := New("")
	before := d.Sheet().Value(route.ProductMass)
	typeIn(d, titration...)
	r := resultOf(t, d, "assay.oxalate")
	require.NotNil(t, r)
	assert.Equal(t, before, d.Sheet().Value(route.ProductMass))
	assert.Empty(t, d.Case().Given)
	assert.Equal(t, "0,500", d.Text("assay.oxalate.sample"), "what was typed stays")
	assert.Equal(t, "acid", d.Text("assay.oxalate.reductant"), "a choice shows its first word")

	require.True(t, d.UseAssay("assay.oxalate"))
	assert.InDelta(t, r.Value, float64(d.Plan().MixAssay), 0.5)
	given := d.Case().Given["mix.assay"]
	assert.InDelta(t, r.Handover.Low, given.Low, 0.1)
	assert.InDelta(t, r.Handover.High, given.High, 0.1)
	assert.True(t, d.UsesAssay(r.Handover))
	assert.NotEqual(t, before, d.Sheet().Value(route.ProductMass))
	d.Edit("mix.assay", "40")
	assert.False(t, d.UsesAssay(r.Handover))
}

func TestBadReadingTakesItsResultAway(t *testing.T) {
	d := New("")
	typeIn(d, titration...)
	d.Edit("assay.oxalate.titre", "a lot")
	assert.Nil(t, resultOf(t, d, "assay.oxalate"))
	assert.Contains(t, d.Problem("assay.oxalate.titre"), "cannot be read")
	assert.Zero(t, d.FaultCount(), "it keeps no run from being started")
	assert.Equal(t, "a lot", d.Text("assay.oxalate.titre"))
	assert.False(t, d.UseAssay("assay.oxalate"))
	assert.Zero(t, d.FaultCount(), "the plan has nothing wrong with it")
	d.Edit("assay.oxalate.titre", "24.1")
	assert.Empty(t, d.Problem("assay.oxalate.titre"))
	assert.NotNil(t, resultOf(t, d, "assay.oxalate"))
	d.Edit("assay.oxalate.reductant", "vinegar")
	assert.Contains(t, d.Problem("assay.oxalate.reductant"), "not offered")
}

func TestReadingsTravelWithTheLink(t *testing.T) {
	d := New("")
	typeIn(d, titration...)
	typeIn(d, "assay.volhard.medium", "acid", "assay.glass", "A")
	back := New(d.Fragment())
	assert.Empty(t, back.Troubles())
	assert.Equal(t, "0.5", back.Text("assay.oxalate.sample"))
	assert.Equal(t, "acid", back.Text("assay.volhard.medium"))
	assert.Equal(t, "A", back.Text("assay.glass"))
	assert.Equal(t, resultOf(t, d, "assay.oxalate").Value, resultOf(t, back, "assay.oxalate").Value)
	assert.Equal(t, d.Fragment(), back.Fragment())
	bad := New("v=2&assay.oxalate.sample=-3&assay.volhard.medium=wine&assay.oxalate.titre=24")
	assert.Len(t, bad.Troubles(), 2)
	assert.Equal(t, "24", bad.Text("assay.oxalate.titre"), "the rest stands")
}

// A result that the rest of the plan cannot have is refused where it was put, with
// the range that the plan allows.
func TestPlanRefusesWhatItCannotBe(t *testing.T) {
	d := New("")
	typeIn(d, titration...)
	typeIn(d, "assay.oxalate.titre", "0.5", "assay.oxalate.sample", "0.45")
	r := resultOf(t, d, "assay.oxalate")
	require.NotNil(t, r)
	require.Greater(t, r.Value, d.Sheet().Value(route.AssayMost))
	assert.True(t, d.UseAssay("assay.oxalate"))
	assert.Contains(t, d.Problem("mix.assay"), "outside 0 to 100")
	assert.False(t, d.UsesAssay(r.Handover))
}

func TestProductAssayGoesToTheAccount(t *testing.T) {
	d := New("")
	typeIn(d, "assay.permanganate.known", "0.02", "assay.volhard.sample", "1", "assay.volhard.titre", "50", "assay.volhard.flask", "250", "assay.volhard.part", "70",
		"assay.volhard.medium", "neutral", "assay.volhard.clean", "none")
	r := resultOf(t, d, "assay.volhard")
	require.NotNil(t, r)
	require.True(t, d.UseAssay("assay.volhard"))
	assert.InDelta(t, r.Value, d.Record().Value("found.assay"), 0.2)
	assert.InEpsilon(t, r.Handover.Half, d.Record().Half("found.assay"), 0.06)
	assert.True(t, d.UsesAssay(r.Handover))
	assert.False(t, d.UseAssay("assay.chelate"), "nothing was found")
}

func TestRunTakesAnAssayAsAFact(t *testing.T) {
	d := New("")
	typeIn(d, titration...)
	require.True(t, d.StartRun())
	before := d.Started().Plan.MixAssay
	assert.True(t, d.UseAssay("assay.oxalate"))
	assert.True(t, quantity.Given(float64(d.Plan().MixAssay)))
	assert.False(t, quantity.Given(float64(before)), "the fixed plan stays as it was")
}

// TestResultsWithoutIntervalAreRounded: nobody reads a titre's quotient to sixteen digits.
func TestResultsWithoutIntervalAreRounded(t *testing.T) {
	value, tolerance := HandText(&assay.Handover{Value: 200.0 / 3, Low: 200.0 / 3, High: 200.0 / 3})
	assert.Equal(t, "66.67", value)
	assert.Empty(t, tolerance)
}
