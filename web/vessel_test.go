package web

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/club"
	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
	"rosesalt/web/atbench"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
	"rosesalt/web/link"
	"rosesalt/web/picture"
	"rosesalt/web/section"
)

const large = "v=1&cell.size=R20&cell.count=12"

func deskOf(p route.Plan) *desk.Desk {
	return desk.New(link.Encode(&link.Content{Case: spread.Case{Plan: p}, Found: account.NewRecord(), Days: procedure.NewDays(), Club: club.New()}))
}

// mendsOf are the changes that the box above the stages offers.
func mendsOf(d *desk.Desk) []doc.Button {
	return doctest.Find[doc.Button](section.TooSmallBox(d)...)
}

// TestTwelveR20AreToldEverywhere: neither the usual flask nor the slurry vessel holds them,
// and every view says so.
func TestTwelveR20AreToldEverywhere(t *testing.T) {
	d := desk.New(large)
	const flask, slurry = "250\u202fmL flask", "1\u202fL slurry vessel"
	for name, text := range map[string]string{
		"sentence": section.Words(d, true), "strip": summary(d), "sheet": section.Words(d, false), "text": section.PlanText(sourceOf(d, nil)),
	} {
		assert.Contains(t, text, flask, name)
		assert.Contains(t, text, slurry, name)
	}
	for _, at := range []string{"charge", "slurry"} {
		st := atbench.StepOf(d, &atbench.State{Step: at})
		require.Equal(t, at, st.Key)
		assert.Contains(t, st.Full, "Make 2 equal batches, 90\u202fmin of gas for each, or take a")
	}
	charge := atbench.StepOf(d, &atbench.State{Step: "charge"})
	assert.Equal(t, doc.Amount{Name: "Copper, bare, one of 2 equal batches", Number: "43", Unit: "g", Beside: "all: 86\u202fg"}, charge.Take[0])
	assert.Equal(t, "85", charge.Take[1].Number)
	assert.Equal(t, "all: 170\u202fmL", charge.Take[1].Beside)
	says := picture.Apparatus(d.Plan(), d.Sheet()).Says
	assert.Contains(t, says, "Flask, 250\u202fmL, too small: 359\u202fmL or more")
	assert.Contains(t, says, "closed vessel of 1\u202fL")

	// Each remedy is one press, and mends it.
	require.Len(t, doctest.Find[doc.Para](section.TooSmallBox(d)...), 3, "two vessels, and the buttons")
	all := mendsOf(d)
	require.Len(t, all, 3, "batches once, and a size for each vessel")
	apply := func(mends ...doc.Button) *desk.Desk {
		d := desk.New(large)
		for _, b := range mends {
			m, ok := section.MendOf(d, b.Value)
			require.True(t, ok, b.Value)
			assert.Equal(t, b.Text, m.Text)
			section.Mend(d, m)
		}
		require.Zero(t, d.FaultCount())
		return d
	}
	assert.Empty(t, section.TooSmallBox(apply(all[0])))
	assert.Empty(t, section.TooSmallBox(apply(all[1], all[2])))
	assert.Len(t, section.TooSmallBox(apply(all[1])), 2, "one vessel, and its buttons")
	_, ok := section.MendOf(desk.New(""), all[0].Value)
	assert.False(t, ok, "no plan is changed in a way that it does not offer")
	cut := apply(all[0])
	assert.Contains(t, cut.Fragment(), "batch.runs=2")
	assert.Contains(t, cut.Fragment(), "gas.minutes=180")
	assert.Contains(t, section.Words(cut, true), "in 2 equal batches")
	assert.Equal(t, "Charge the flask, batch 2 of 2", atbench.StepOf(cut, &atbench.State{Step: "charge.2"}).Title)
	assert.Contains(t, section.PlanText(sourceOf(cut, nil)), "batch 2 of 2")
	assert.Contains(t, section.PlanText(sourceOf(cut, nil)), "one for each batch")
	cut.Edit("time.gas", "75")
	assert.Equal(t, 1, strings.Count(section.PlanText(sourceOf(cut, nil)), "Make the gas: 1\u202fh\u202f15, by you"), "one time for all batches")
	fields := 0
	for _, c := range doctest.Find[doc.Control](part(cut, section.DaysTitle).Of...) {
		if c.Key == procedure.TimePrefix+"gas" {
			fields++
		}
	}
	assert.Equal(t, 1, fields)

	// A run has its plan fixed: what it does not allow is not offered.
	require.True(t, d.StartRun())
	require.NotEmpty(t, mendsOf(d))
	for _, b := range mendsOf(d) {
		assert.Contains(t, b.Value, "batch.runs=")
	}
}

// part is the document of a part of the page.
func part(d *desk.Desk, title string) doc.Section {
	return section.Parts[section.Index(title)].Of(sourceOf(d, nil))
}

// TestNoViewContradictsAnother about a vessel or the strong acid, whatever the plan.
func TestNoViewContradictsAnother(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 3))
	plans := long.Of(100, 500, 4000)
	tight := 0
	for range plans {
		d := deskOf(routetest.Plan(r))
		p, s := d.Plan(), d.Sheet()
		if s.Value(route.CellsOpened) == 0 {
			continue
		}
		small := map[string]bool{} // by step
		for _, h := range routetest.Vessels(p, s) {
			if h.TooMuch() {
				small[h.Step] = true
			}
		}
		if len(small) > 0 {
			tight++
		}
		sheet := section.BenchSheet(sourceOf(d, nil), "")
		onPaper := doctest.Text(sheet...)
		text, sentence, strip := section.PlanText(sourceOf(d, nil)), section.Words(d, true), summary(d)
		hint := "plan " + d.Fragment()

		require.Equal(t, len(small) > 0, strings.Contains(sentence, "Too small for what is poured"), hint)
		require.Equal(t, len(small) > 0, strings.Contains(strip, "Too small"), hint)
		require.Equal(t, len(small) > 0, strings.Contains(section.Words(d, false), "Too small for"), hint)
		require.Contains(t, onPaper, section.Words(d, false), hint)
		require.Equal(t, len(small) > 0, section.TooSmallBox(d) != nil, hint)

		ready := doctest.Find[doc.Amounts](part(d, section.ReadyTitle).Of...)
		for k, v := range route.Vessels(p, s) {
			said := ready[len(ready)-1][k].Beside
			require.Equal(t, small[v.Step] && v.Step != "", strings.Contains(said, "too small"), "%s: %s", v.Name, hint)
			require.Contains(t, text, doctest.Text(doc.Amounts{ready[len(ready)-1][k]}))
			require.Contains(t, onPaper, v.SizeText()+" "+phrase.Lower(v.Name), v.Name)
			if small[v.Step] {
				require.Contains(t, sentence, v.Word(), hint)
				require.Contains(t, strip, v.Word(), hint)
				require.Contains(t, text, v.Warning(), hint)
			}
		}
		says := picture.Apparatus(p, s).Says
		require.Equal(t, small["charge"] || small["line"] || small["slurry"], strings.Contains(says, "too small"), "%s: %s", says, hint)

		acid := route.StrongAcid(p, s)
		poured := 0.0
		for k, st := range d.Steps() {
			at := atbench.StepOf(d, &atbench.State{Step: st.ID})
			require.Equal(t, k+1, at.Place, st.ID)
			require.Equal(t, st.Full, at.Full, st.ID)
			require.Equal(t, small[st.Key], st.Full != "", "%s: %s", st.ID, hint)
			require.Contains(t, onPaper, st.Full, hint)
			require.Equal(t, len(st.Take), len(at.Take))
			for n, a := range st.Take {
				name, beside := a.Name, ""
				if st.Equal > 0 {
					name, beside, a = a.Name+", one of "+strconv.Itoa(st.Equal)+" equal batches", "all: "+a.Text(), st.OfOne[n]
				}
				number, unit := route.PrintParts(a.Value, a.Unit)
				require.Equal(t, doc.Amount{Name: name, Number: number, Unit: unit, Beside: beside}, at.Take[n])
			}
			for _, a := range st.Take {
				if strings.HasPrefix(a.Name, "Strong acid") || strings.HasPrefix(a.Name, "Acid, ") {
					poured += a.Value
				}
			}
			// What the flask holds is drawn as it is poured.
			if st.Key == "charge" && p.GasSource == route.FromCopper && len(st.Take) == 2 {
				require.Contains(t, says, "copper "+st.Take[0].Text()+", acid "+st.Take[1].Text(), hint)
			}
		}
		require.InDelta(t, acid.All(), poured, 1e-6*math.Max(1, acid.All()), "the acid of all steps: %s", hint)
		all := route.Print(acid.All(), "mL")
		require.Contains(t, sentence, all+" of "+route.Print(float64(p.GasStrength), "%")+" sulfuric acid in all", hint)
		for _, n := range ready[0] {
			if strings.HasPrefix(n.Name, "Sulfuric acid") {
				require.Equal(t, "…", n.Number, hint)
				require.Equal(t, "the plan takes "+all, n.Beside, hint)
				require.Contains(t, text, n.Name+" ("+n.For+"): "+"…"+doc.Unit(n.Unit)+", the plan takes "+all)
			}
		}
		for _, item := range section.Summary(d) {
			require.NotEqual(t, "Acid", item.Name, "one number alone says that it is all")
			if item.Name == "Acid to pour" {
				require.Equal(t, all, item.Number+doc.Unit(item.Unit), hint)
			}
		}
		glance := section.Glance(sourceOf(d, nil))
		for _, list := range doctest.Find[doc.Figures](glance...) {
			for _, f := range list {
				if strings.HasPrefix(f.Name, "Sulfuric acid") {
					require.Equal(t, "…", f.Number, hint)
					require.Equal(t, "the plan takes "+all+": "+acid.Where(), f.For)
				}
			}
		}
		require.Equal(t, len(small) > 0, strings.Contains(doctest.Text(section.Sentence(sourceOf(d, nil))), "Too small for what is poured"), hint)
		require.Equal(t, len(small) > 0, strings.Contains(doctest.Text(glance...), section.TooSmallWord), hint)
		require.Equal(t, len(small) == 0 && !route.BeyondBench(p, s), strings.Contains(doctest.Text(glance...), "Fits."), hint)
		table := doctest.Find[doc.Table](part(d, section.WaysTitle).Of...)[0]
		ofAcid := slices.IndexFunc(table.Rows, func(row []doc.Node) bool { return doctest.Text(row[0]) == "Sulfuric acid, concentrated" })
		for k, head := range table.Heads[1:] {
			if cell := table.Rows[ofAcid][k+1]; strings.Contains(doctest.Text(head), "This is the plan.") && cell != doc.Text("–") {
				require.Equal(t, doc.Text(all), cell, hint)
			}
		}
	}
	assert.Greater(t, tight, plans/4, "the plans try it")
}

// TestAcidInAllIsStruckOutWhileAFieldIsWrong: it rests on the gas and on the slurry.
func TestAcidInAllIsStruckOutWhileAFieldIsWrong(t *testing.T) {
	old := func(key, text string) bool {
		d := desk.New("")
		d.Edit(key, text)
		for _, item := range section.Summary(d) {
			if item.Name == "Acid to pour" {
				return item.Old
			}
		}
		return false
	}
	assert.False(t, old("gas.strength", "90"))
	assert.True(t, old("gas.strength", "120"))
	assert.True(t, old("slurry.acid", "tea"))
	assert.False(t, old("dry.rate", "tea"))
}

// TestProposalsStandInTheUnitOfTheirField, and no one takes them for something typed.
func TestProposalsStandInTheUnitOfTheirField(t *testing.T) {
	d := desk.New(large + "&batch.share=100&gas.flask=5000&slurry.beaker=20000")
	require.Greater(t, d.Sheet().Value(route.GasMade), 2000.0, "more than two moles")
	for !d.StepBands(desk.Draws) {
	}
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		v, ok := in.WorkedOut(d.Plan(), d.Sheet())
		if in.IsChoice() || !ok || in.Key == "wash.soak" && v == 0 {
			continue
		}
		f := section.Field(d, in)
		if f.Usual == "" {
			continue
		}
		got, err := in.Read(f.Usual)
		require.NoError(t, err, in.Key)
		assert.InDelta(t, v, got, 0.06*math.Abs(v)+1e-9, "%s: %s %s", in.Key, f.Usual, f.Unit)
	}
	assert.Equal(t, "(1240)", doc.Proposal("1240"))
	assert.Empty(t, doc.Proposal(""))
}
