package working

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
)

// TestMain asks for hundreds of random plans, unless the command line says how many.
func TestMain(m *testing.M) {
	flag.Parse()
	asked := false
	flag.Visit(func(f *flag.Flag) { asked = asked || f.Name == "rapid.checks" })
	if err := flag.Set("rapid.nofailfile", "true"); err != nil { // the plan says what failed
		panic(err)
	}
	if !asked {
		if err := flag.Set("rapid.checks", long.Of("40", "120", "2000")); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// drawPlan draws plans over all that a bench can hold, half of the inputs at their start.
func drawPlan(t *rapid.T) *route.Plan {
	p := route.NewPlan()
	rows := rapid.IntRange(1, 3).Draw(t, "rows")
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		if in.Row > rows {
			continue
		}
		if in.IsChoice() {
			option := rapid.IntRange(0, len(in.Options)-1).Draw(t, in.Key)
			if err := in.Choose(&p, in.Options[option].Word); err != nil {
				t.Fatal(err)
			}
			continue
		}
		drawNumber(t, &p, in)
	}
	settle(t, &p)
	return &p
}

func drawNumber(t *rapid.T, p *route.Plan, in *route.Input) {
	// A ton of water on a tenth of a gram of mix costs the ledger itself its digits.
	low, high := in.Min, math.Min(in.Max, 5000)
	if in.Unit == "g" && in.Stage == route.Cells && in.Max > 1000 || in.Key == "batch.share" {
		low = 5
	}
	v := in.Default
	switch rapid.IntRange(0, 7).Draw(t, in.Key) {
	case 0:
		v = low
	case 1:
		v = high
	case 2:
		v = rapid.Float64Range(low, high).Draw(t, "anywhere")
	case 3: // by magnitude
		least := math.Max(low, high*1e-5)
		v = math.Min(high, least*math.Pow(high/least, rapid.Float64Range(0, 1).Draw(t, "magnitude")))
	case 4:
		if in.Blank != "" {
			v = quantity.Blank
		}
	}
	if v < 1e-3 {
		v = low
	}
	if in.Whole && quantity.Given(v) {
		v = math.Round(v)
	}
	if in.Key == "mix.assay" {
		v = quantity.Blank // settle draws it
	}
	if err := in.Set(p, v); err != nil {
		t.Fatal(err)
	}
}

func settle(t *rapid.T, p *route.Plan) {
	for i := range p.Rows {
		if r := &p.Rows[i]; quantity.Given(r.Count) && r.Rejects > r.Count {
			r.Rejects = math.Mod(r.Rejects, r.Count+1)
		}
	}
	if quantity.Given(p.GasEnd) {
		p.GasEnd = min(p.GasEnd, p.GasStrength*0.95)
	}
	if quantity.Given(p.GasSteam) {
		// With all water gone and all acid used, the strength of what is left is rounding.
		p.GasSteam = min(p.GasSteam, 99)
	}
	if p.CopperCold >= p.CopperHot {
		p.CopperCold, p.CopperHot = 10, 80
	}
	if len(route.Check(p)) > 0 {
		t.Skip("not in order")
	}
	if rapid.IntRange(0, 3).Draw(t, "assayed") == 0 {
		s := new(route.Runner).Run(p)
		least, most := s.Value(route.AssayLeast), s.Value(route.AssayMost)
		p.MixAssay = quantity.Percent(least + (most-least)*rapid.Float64Range(0.01, 0.99).Draw(t, "assay"))
		if !(p.MixAssay >= 1) || len(route.Check(p)) > 0 {
			p.MixAssay = quantity.Percent(quantity.Blank)
		}
	}
}

// link writes what differs from the plan that the page starts with.
func link(p *route.Plan) string {
	var b strings.Builder
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		switch v := in.Value(p); {
		case in.IsDefault(p):
		case in.IsChoice():
			b.WriteString(" " + in.Key + "=" + in.Word(p))
		case quantity.Given(v):
			fmt.Fprintf(&b, " %s=%v", in.Key, v)
		default:
			b.WriteString(" " + in.Key + "=")
		}
	}
	return b.String()
}

func planOf(t testing.TB, entries ...string) *route.Plan {
	t.Helper()
	p := route.NewPlan()
	for _, entry := range entries {
		key, value, _ := strings.Cut(entry, "=")
		in, ok := route.InputByKey(key)
		require.True(t, ok, key)
		if in.IsChoice() {
			require.NoError(t, in.Choose(&p, value))
			continue
		}
		v, err := in.Read(value)
		require.NoError(t, err)
		require.NoError(t, in.Set(&p, v))
	}
	require.Empty(t, route.Check(&p))
	return &p
}

// near tells whether two values are the same to a tenth of what is printed, or to a
// nanomole, a microgram: the ledger itself may miss that where a litre was boiled off a
// trace of salt. Size is how large the numbers were that they were worked out from.
func near(a, b, size float64) bool {
	return math.Abs(a-b) <= 1e-6*math.Max(math.Abs(a), math.Abs(b))+1e-11*size+1e-6
}

// verify holds all workings of a plan: that the formulas give the sheet's figures,
// and that the printed text gives what is printed.
func verify(p *route.Plan) error {
	w := New(&spread.Case{Plan: *p})
	for id := range route.FigureID(len(route.Figures())) {
		if err := verifyOne(w, id); err != nil {
			return err
		}
	}
	return nil
}

func verifyOne(w *Workings, id route.FigureID) (err error) {
	info, s := id.Info(), w.Sheet()
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%s: %v", info.Key, r)
		}
	}()
	steps := w.Of(id)
	if reason := s.Reason(id); reason != route.Defined {
		if steps.Reason != reason.String() || len(steps.Steps) > 0 {
			return fmt.Errorf("%s has no value (%s), its working says %q", info.Key, reason, steps.Reason)
		}
		return nil
	}
	if len(steps.Steps) == 0 {
		return fmt.Errorf("%s has no steps", info.Key)
	}
	told := map[string]bool{}
	for i := range steps.Steps {
		if err := reread(&steps.Steps[i]); err != nil {
			return fmt.Errorf("%s: %w\n%s", info.Key, err, steps.Text())
		}
		name := steps.Steps[i].Name
		if told[name] && name != "since" {
			return fmt.Errorf("%s: two steps are called %q\n%s", info.Key, name, steps.Text())
		}
		told[name] = true
	}
	last := steps.Steps[len(steps.Steps)-1]
	if info.Words != nil {
		if last.Result != s.Word(id) {
			return fmt.Errorf("%s is %q, its working says %q", info.Key, s.Word(id), last.Result)
		}
		return nil
	}
	if last.Unit != info.Unit {
		return fmt.Errorf("%s is in %q, its working in %q", info.Key, info.Unit, last.Unit)
	}
	if size := sizeOf(&last); !near(last.Value, s.Value(id), size) {
		return fmt.Errorf("%s is %v, its working says %v\n%s", info.Key, s.Value(id), last.Value, steps.Text())
	}
	return nil
}

func TestEveryFigureHasItsWorking(t *testing.T) {
	for name, entries := range map[string][]string{
		"demo":          nil,
		"metabisulfite": {"gas.source=metabisulfite"},
		"crystals":      {"dry.way=crystals", "slurry.vessel=open"},
		"acid rinse":    {"wash.acid=100"},
		"weighed":       {"mix.wet=150"},
		"washed":        {"mix.washed=110"},
		"assay":         {"mix.assay=55", "cell.2.count=3", "cell.2.kind=zincchloride"},
		"no cells":      {"cell.rejects=6"},
		"alkaline":      {"cell.kind=alkaline", "wash.acid=100"},
		"salt":          {"gas.source=slurrysalt", "room.escape=10"},
		"peroxide":      {"gas.source=peroxide"},
		"oxalic":        {"gas.source=oxalic", "dry.way=crystals"},
		"hot rest":      {"slurry.rest=5", "slurry.acid=600", "gas.excess=0"},
		"short of acid": {"slurry.acid=5", "gas.acid=20", "gas.copper=30"},
	} {
		t.Run(name, func(t *testing.T) {
			p := planOf(t, entries...)
			w := New(&spread.Case{Plan: *p})
			for id := range route.FigureID(len(route.Figures())) {
				if err := verifyOne(w, id); err != nil {
					t.Error(err)
				}
			}
		})
	}
}

// TestAnyPrintedWorkingGivesItsFigure: what is printed, read again by arithmetic of
// this test's own, gives the figure, for any plan.
func TestAnyPrintedWorkingGivesItsFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		if err := verify(p); err != nil {
			t.Fatalf("%v\nplan:%s", err, link(p))
		}
	})
}
