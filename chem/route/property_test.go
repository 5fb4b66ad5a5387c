package route

import (
	"flag"
	"math"
	"os"
	"regexp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rosesalt/chem/cell"
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/scripts/long"
)

// TestMain asks for thousands of random plans instead of a hundred, unless the
// command line says how many. They guard what must hold for any plan: every element's
// sum, amounts that are not below zero, figures that are numbers.
func TestMain(m *testing.M) {
	flag.Parse()
	asked := false
	flag.Visit(func(f *flag.Flag) { asked = asked || f.Name == "rapid.checks" })
	if err := flag.Set("rapid.nofailfile", "true"); err != nil { // link says what failed
		panic(err)
	}
	if !asked {
		if err := flag.Set("rapid.checks", long.Of("300", "2000", "20000")); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// How a value of an input is drawn. The first is what a failing plan is shrunk
// towards.
const (
	asDefault = iota
	atMin
	atMax
	atLow
	atHigh
	blank
	anywhere
	byMagnitude
	ways
)

// drawGasPlan draws a plan that leads gas in.
func drawGasPlan(t *rapid.T) *Plan {
	p := drawPlan(t)
	if !Gaseous(p) {
		p.GasSource = FromCopper
		settle(t, p)
	}
	return p
}

// drawPlan draws any plan that the page accepts: every input within its limits,
// choices and blanks too. What Check would refuse is put right.
func drawPlan(t *rapid.T) *Plan {
	p := NewPlan()
	rows := rapid.IntRange(1, MaxRows).Draw(t, "rows")
	for i := range Inputs() {
		in := &Inputs()[i]
		if in.Row > rows {
			continue
		}
		drawInput(t, &p, in)
	}
	settle(t, &p)
	return &p
}

func drawInput(t *rapid.T, p *Plan, in *Input) {
	way := rapid.IntRange(0, ways-1).Draw(t, in.Key)
	if way == asDefault {
		return
	}
	if in.IsChoice() {
		*in.choice(p) = Choice(rapid.IntRange(0, len(in.Options)-1).Draw(t, in.Key+" word"))
		return
	}
	var v float64
	switch way {
	case atMin:
		v = in.Min
	case atMax:
		v = in.Max
	case atLow, atHigh:
		if in.Low == in.High {
			return
		}
		v = in.Low
		if way == atHigh {
			v = in.High
		}
	case blank:
		if in.Blank == "" {
			return
		}
		v = quantity.Blank
	case byMagnitude:
		least := math.Max(in.Min, in.Max*1e-6)
		v = least * math.Pow(in.Max/least, rapid.Float64Range(0, 1).Draw(t, in.Key+" magnitude"))
		v = math.Min(math.Max(v, in.Min), in.Max)
	default:
		v = rapid.Float64Range(in.Min, in.Max).Draw(t, in.Key+" value")
	}
	if in.Whole && quantity.Given(v) {
		v = math.Round(v)
	}
	if err := in.Set(p, v); err != nil {
		t.Fatalf("%s refuses %v, which is within its limits: %v", in.Key, v, err)
	}
}

// settle puts right what Check refuses, as a user would.
func settle(t *rapid.T, p *Plan) {
	for i := range p.Rows {
		if caustic(&p.Rows[i]) != caustic(&p.Rows[0]) {
			p.Rows[i].Kind = p.Rows[0].Kind
		}
	}
	for i := range p.Rows {
		if row := &p.Rows[i]; row.present() && row.Rejects > row.Count {
			row.Rejects = math.Mod(row.Rejects, row.Count+1)
		}
	}
	if heated(p) && p.GasStrength <= usualEnd {
		p.GasStrength = 96
	}
	if end := endStrength(p); !heated(p) && end >= p.GasStrength {
		p.GasEnd = p.GasStrength * quantity.Percent(rapid.Float64Range(0.1, 0.999).Draw(t, "end of strength"))
	}
	if p.CopperCold > p.CopperHot {
		p.CopperCold, p.CopperHot = p.CopperHot, p.CopperCold
	}
	if p.CopperCold == p.CopperHot {
		p.CopperCold, p.CopperHot = 10, 80
	}
	if problems := checkAssay(p); len(problems) > 0 {
		h := p.WashHydrolysis.Fraction()
		none, full := bag(p, 0), bag(p, 1)
		least, most := none.assay(h), full.assay(h)
		p.MixAssay = quantity.Percent(least + (most-least)*rapid.Float64Range(0, 1).Draw(t, "assay between"))
		if p.MixAssay < 1 || len(checkAssay(p)) > 0 {
			p.MixAssay = quantity.Percent(quantity.Blank)
		}
	}
	if len(Check(p)) > 0 {
		p.CakeTaken = quantity.Gram(quantity.Blank) // of which there may be less
	}
	if problems := Check(p); len(problems) > 0 {
		t.Skip(problems[0].Message)
	}
}

const (
	tiny    = 1e-9  // relative
	nothing = 1e-18 // mol: some hundred thousand molecules
)

// TestAnyPlanKeepsItsBooks holds what must be so for every plan.
func TestAnyPlanKeepsItsBooks(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		b.Run(p)
		booksClose(t, p, &b)
	})
}

// TestAnyPlanAtTheLastDigitKeepsItsBooks: where two shares meet, the last digits of their
// difference ask for more than stands. The shares drawn lie on their limits, or on
// the numbers next to them.
func TestAnyPlanAtTheLastDigitKeepsItsBooks(t *testing.T) {
	var b Runner
	edge := func(t *rapid.T, in *Input) float64 {
		v := rapid.SampledFrom([]float64{in.Min, in.Max}).Draw(t, in.Key)
		if beside := rapid.IntRange(0, 64).Draw(t, in.Key+" beside"); beside > 0 {
			off := math.Ldexp(float64(rapid.IntRange(1, 3).Draw(t, in.Key+" steps")), -beside)
			v = math.Min(math.Max(v-off, in.Min), in.Max)
			if v == in.Min {
				v = math.Min(in.Min+off, in.Max)
			}
		}
		return v
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		if rapid.Bool().Draw(t, "alkaline") {
			caustic := slices.IndexFunc(cell.Kinds(), func(k cell.Kind) bool { return k.Caustic })
			for i := range p.Rows {
				p.Rows[i].Kind = Choice(caustic)
			}
		}
		inputs := Inputs()
		for i := range inputs {
			in := &inputs[i]
			if in.Unit == "%" && in.Row <= 1 && in.Key != "mix.assay" && rapid.Bool().Draw(t, in.Key+" at its edge") {
				before := *p
				if in.Set(p, edge(t, in)) != nil || len(Check(p)) > 0 {
					*p = before
				}
			}
		}
		settle(t, p)
		s := b.Run(p)
		booksClose(t, p, &b)
		mayStand(t, p, s)
	})
}

// TestGelThatIsTheLastDigit is one such plan: all spent oxide aged, and so nearly all zinc
// oxide in it that the gel's share is the last digit of what there was.
func TestGelThatIsTheLastDigit(t *testing.T) {
	for _, gel := range []string{"99.99999999999999", "99.99999999999997", "99.9999999999999", "99.999999999999"} {
		p := planOf(t, "cell.kind=alkaline", "cell.aged=100", "mix.gel="+gel)
		var b Runner
		s := b.Run(p)
		booksClose(t, p, &b)
		mayStand(t, p, s)
	}
}

// TestSpentOxideHasNoChargeLeft: of a mix that by its assay is wholly spent nothing is left,
// and not less.
func TestSpentOxideHasNoChargeLeft(t *testing.T) {
	p := planOf(t, "mix.assay=28.03488251585687", "mix.inert=0", "mix.water=10")
	var b Runner
	mayStand(t, p, b.Run(p))
}

func booksClose(t rapid.TB, p *Plan, b *Runner) {
	t.Helper()
	if err := b.Err(); err != nil {
		t.Fatalf("%v\nplan:%s", err, link(p))
	}
	for e := range reaction.Element(reaction.Elements) {
		in, out := b.Book().Balance(e)
		if math.Abs(float64(in-out)) > tiny*float64(in)+nothing {
			t.Fatalf("%v: %v mol in, %v mol out\nplan:%s", e, in, out, link(p))
		}
	}
	for v := range ledger.Vessel(ledger.Vessels) {
		for sub := range reaction.Substance(reaction.Substances) {
			if a := float64(b.Book().Amount(v, sub)); !(a >= 0) || math.IsInf(a, 1) {
				t.Fatalf("%v holds %v mol of %v\nplan:%s", v, a, sub, link(p))
			}
		}
	}
}

// TestEveryLimit: every plan that has one input at a limit, blank, or at another
// word, in all ways to reduce and both to finish, of lye and with no cells too. A random plan
// rarely stands exactly there.
func TestEveryLimit(t *testing.T) {
	var bases []*Plan
	for _, source := range input(t, "gas.source").Options {
		for _, other := range []string{"dry.way=dry", "dry.way=crystals", "cell.kind=alkaline", "cell.rejects=6"} {
			bases = append(bases, planOf(t, "gas.source="+source.Word, other))
		}
	}
	runs := 0
	var b Runner
	try := func(p *Plan) {
		if len(Check(p)) > 0 {
			return
		}
		runs++
		s := b.Run(p)
		booksClose(t, p, &b)
		mayStand(t, p, s)
	}
	for _, base := range bases {
		for i := range Inputs() {
			in := &Inputs()[i]
			if in.IsChoice() {
				for word := range in.Options {
					p := *base
					*in.choice(&p) = Choice(word)
					try(&p)
				}
				continue
			}
			ends := []float64{in.Min, in.Max}
			if in.Blank != "" {
				ends = append(ends, quantity.Blank)
			}
			for _, v := range ends {
				p := *base
				if err := in.Set(&p, v); err != nil {
					t.Fatal(err)
				}
				try(&p)
			}
		}
	}
	if runs < 4000 {
		t.Errorf("only %d plans", runs)
	}
}

// atMostHundred are the figures that are a share of something.
var atMostHundred = []FigureID{
	MixCharge, AgedReached, AssayLeast, AssayMost, GasStrengthEnd, ReduceConversion, EndFirst, MetShare,
	RinseLeft0, RinseLeft1, RinseLeft2, RinseLeft3, FiltrateSalt, ProductYield, ProductPurity, CopperAcid, DemandDithionate,
}

// TestAnyPlanHasFigures: every figure is finite or says why not, never both;
// none is below zero; a share is at most the whole.
func TestAnyPlanHasFigures(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		mayStand(t, p, b.Run(p))
	})
}

// mayStand fails where a sheet could not be shown.
func mayStand(t rapid.TB, p *Plan, s *Sheet) {
	t.Helper()
	for id := range FigureID(len(Figures())) {
		v, why, key := s.Value(id), s.Reason(id), id.Info().Key
		switch {
		case why == NotReached:
			t.Fatalf("%s is not written\nplan:%s", key, link(p))
		case why != Defined && !math.IsNaN(v):
			t.Fatalf("%s has the value %v and no value (%v)\nplan:%s", key, v, why, link(p))
		case why == Defined && (math.IsNaN(v) || math.IsInf(v, 0)):
			t.Fatalf("%s is %v and does not say why\nplan:%s", key, v, link(p))
		case v < -tiny || v < 0 && id == MixCharge:
			t.Fatalf("%s is %v\nplan:%s", key, v, link(p))
		}
		if words := id.Info().Words; words != nil && why == Defined && (v != math.Trunc(v) || int(v) >= len(words)) {
			t.Fatalf("%s picks word %v\nplan:%s", key, v, link(p))
		}
	}
	for _, id := range atMostHundred {
		if v := s.Value(id); v > 100*(1+tiny) {
			t.Fatalf("%s is %v\nplan:%s", id.Info().Key, v, link(p))
		}
	}
	said := map[string]bool{}
	for _, n := range Notices(p, s) {
		if !noticeKey.MatchString(n.Key) || said[n.Key] && !oneEachRow[n.Key] {
			t.Fatalf("the notice “%s” has the key %q, which is none or another's\nplan:%s", n.Text, n.Key, link(p))
		}
		said[n.Key] = true
		if oneOfMany.MatchString(n.Text) {
			t.Fatalf("the notice “%s” counts one as many\nplan:%s", n.Text, link(p))
		}
	}
	for _, need := range append(needsIn(Reagents(p, s)), needsOf(Vessels(p, s))...) {
		if !(need.Amount > 0) || math.IsInf(need.Amount, 0) {
			t.Fatalf("have ready: %v of %s\nplan:%s", need.Amount, need.Name, link(p))
		}
	}
}

var (
	oneOfMany  = regexp.MustCompile(`(^|[^0-9.,\x{202f}])1 (batches|bubbles|cells|washes)\b`)
	noticeKey  = regexp.MustCompile(`^[a-z]+\.[a-z]+$`)
	oneEachRow = map[string]bool{"cells.alkaline": true, "cells.zinccarbon": true, "cells.unsure": true}
)

func TestAnyPlanAccountsForItsGas(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		s := b.Run(p)
		made, taken, vent := s.Value(GasMade), s.Value(UptakeTaken), s.Value(VentGas)
		uptake := (made - s.Value(GasPurged)) * s.Value(UptakeShare) / 100
		switch p.GasSource {
		case ByPeroxide, ByOxalic:
			if s.Reason(UptakeTaken) != NoSulfurDioxide {
				t.Fatalf("%v of gas where there is none\nplan:%s", taken, link(p))
			}
			return
		case BySalt:
			made = s.Value(SaltFreed)
			uptake = made * p.SaltKept.Fraction()
		}
		if math.Abs(made-taken-vent) > tiny*math.Max(1, made) {
			t.Fatalf("%v made, %v taken, %v passed by\nplan:%s", made, taken, vent, link(p))
		}
		if dissolved := s.Value(UptakeDissolved); dissolved > taken+tiny*math.Max(1, made) { // taken is what is made less what is vented
			t.Fatalf("%v dissolved of %v taken\nplan:%s", dissolved, taken, link(p))
		}
		// What is dissolved and what the uptake leaves over is all that can pass by.
		least := made - uptake
		if vent < least-tiny*math.Max(1, made) {
			t.Fatalf("%v passed by, at least %v must\nplan:%s", vent, least, link(p))
		}
	})
}

// TestMoreAcidNeverGivesLessGas: with a charge of copper or salt given, more
// acid never makes less gas. Left open, that charge follows what is needed, and
// more acid leaves less air to drive out, and the slower stream is taken up better: then
// it is the gas that reaches the slurry that never gets less.
func TestMoreAcidNeverGivesLessGas(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawGasPlan(t)
		in, _ := InputByKey("gas.acid")
		less := rapid.Float64Range(in.Min, in.Max).Draw(t, "less")
		more := rapid.Float64Range(less, in.Max).Draw(t, "more")
		gas := func(acid float64) (made, reaches float64) {
			p.GasAcid = quantity.Millilitre(acid)
			s := b.Run(p)
			return s.Value(GasMade), (s.Value(GasMade) - s.Value(GasPurged)) * s.Value(UptakeShare) / 100
		}
		made, reaches := gas(less)
		madeMore, reachesMore := gas(more)
		slack := tiny * math.Max(1, made)
		given := quantity.Given(p.GasCopper)
		if p.GasSource == FromMetabisulfite {
			given = quantity.Given(p.GasSalt)
		}
		if given && madeMore < made-slack || reachesMore < reaches-slack {
			t.Fatalf("%v mL of acid make %v (%v reach the slurry), %v mL make %v (%v)\nplan:%s",
				less, made, reaches, more, madeMore, reachesMore, link(p))
		}
	})
}

// TestMoreWashesNeverLeaveMoreChloride, in the liquor held. It holds with an acid
// rinse too: washed well, the cake holds less ammonia to take up the acid first, so
// that the rinse frees more chloride, but four times as much went with the ammonia.
func TestMoreWashesNeverLeaveMoreChloride(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.WashAfter = 1 // left blank, it is the more the fewer there are before
		in, _ := InputByKey("wash.times")
		less := rapid.IntRange(0, int(in.Max)).Draw(t, "less")
		more := rapid.IntRange(less, int(in.Max)).Draw(t, "more")
		left := func(times int) float64 {
			p.WashTimes = float64(times)
			return b.Run(p).Value(WashChloride)
		}
		if l, m := left(less), left(more); m > l*(1+tiny)+tiny {
			t.Fatalf("%d washes leave %v mg, %d leave %v mg\nplan:%s", less, l, more, m, link(p))
		}
	})
}

func same(a, b *Sheet) (FigureID, bool) {
	for id := range FigureID(len(Figures())) {
		x, y := a.Value(id), b.Value(id)
		if a.Reason(id) != b.Reason(id) || math.Float64bits(x) != math.Float64bits(y) && !(math.IsNaN(x) && math.IsNaN(y)) {
			return id, false
		}
	}
	return 0, true
}

// TestAnyPlanRunsAlike: run again, after another plan, kept or not, a plan gives
// the same figures to the last bit.
func TestAnyPlanRunsAlike(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p, other := drawPlan(t), drawPlan(t)
		before := *p
		first := *b.Run(p)
		if id, ok := same(&first, b.Run(p)); !ok {
			t.Fatalf("%s differs the second time\nplan:%s", id.Info().Key, link(p))
		}
		b.Run(other)
		if id, ok := same(&first, b.Run(p)); !ok {
			t.Fatalf("%s differs after another plan\nplan:%s\nother:%s", id.Info().Key, link(p), link(other))
		}
		b.Keep = true
		id, ok := same(&first, b.Run(p))
		b.Keep = false
		if !ok {
			t.Fatalf("%s differs when bookings are kept\nplan:%s", id.Info().Key, link(p))
		}
		var fresh Runner
		if id, ok := same(&first, fresh.Run(p)); !ok {
			t.Fatalf("%s differs on a new bench\nplan:%s", id.Info().Key, link(p))
		}
		if link(p) != link(&before) {
			t.Fatalf("running the plan changed it\nbefore:%s\nafter:%s", link(&before), link(p))
		}
	})
}

// TestAnyStreamCloses: each leg of the manganese's way takes in what goes on and
// what leaves, and the last gives what is in the jar.
func TestAnyStreamCloses(t *testing.T) {
	b := Runner{Keep: true}
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		b.Run(p)
		legs := b.Stream()
		in, _ := b.Book().Balance(reaction.Mn)
		whole := float64(in)
		next := whole
		for _, leg := range legs {
			if !(math.Abs(float64(leg.In)-next) <= tiny*whole) {
				t.Fatalf("stage %d takes in %v, the one before gave %v\nplan:%s", leg.Stage, leg.In, next, link(p))
			}
			sum := float64(leg.In - leg.Out)
			for _, l := range leg.Leaves {
				if !(l.Moles > 0) {
					t.Fatalf("stage %d: %v mol leave for the %v\nplan:%s", leg.Stage, l.Moles, l.To, link(p))
				}
				sum -= float64(l.Moles)
			}
			// Leaving less than 1e-9 of the whole is not told.
			if !(math.Abs(sum) <= float64(ledger.Vessels)*1e-9*whole) {
				t.Fatalf("stage %d does not close: %v missing\nplan:%s", leg.Stage, sum, link(p))
			}
			next = float64(leg.Out)
		}
		if jar := float64(b.Book().Element(ledger.ProductJar, reaction.Mn)); !(math.Abs(next-jar) <= tiny*whole) {
			t.Fatalf("the stream ends with %v, the jar holds %v\nplan:%s", next, jar, link(p))
		}
	})
}

// TestAnyAssayIsMet: the charge that an assay fixes gives that assay back.
func TestAnyAssayIsMet(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		h := p.WashHydrolysis.Fraction()
		none, full := bag(p, 0), bag(p, 1)
		if none.dioxide == 0 {
			t.Skip("no cells")
		}
		least, most := none.assay(h), full.assay(h)
		p.MixAssay = quantity.Percent(least + (most-least)*rapid.Float64Range(0, 1).Draw(t, "assay"))
		if len(Check(p)) > 0 {
			t.Skip("not in order")
		}
		s := b.Run(p)
		have := 100 * s.Value(MixOxide) / s.Value(MixDry)
		if math.Abs(have-float64(p.MixAssay)) > 1e-9*have {
			t.Fatalf("assay %v is shown as %v\nplan:%s", p.MixAssay, have, link(p))
		}
	})
}

// TestAnyWeighingIsMet: the mix weighs what was weighed, and the washed cake
// what the model says that water leaves.
func TestAnyWeighingIsMet(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.WashAcid = 0
		s := b.Run(p)
		if s.Value(CellsOpened) == 0 {
			t.Skip("no cells")
		}
		weighed, have := float64(p.MixWet), s.Value(MixMass)
		if quantity.Given(p.MixWashed) {
			weighed, have = float64(p.MixWashed), s.Value(MixDry)
		}
		if quantity.Given(weighed) && math.Abs(weighed-have) > tiny*weighed {
			t.Fatalf("%v g weighed, %v g counted\nplan:%s", weighed, have, link(p))
		}
		if cake, dry := s.Value(WashCake), s.Value(MixDry); math.Abs(cake-dry) > tiny*dry {
			t.Fatalf("the washed cake weighs %v g, the mix should give %v g\nplan:%s", cake, dry, link(p))
		}
	})
}

// TestMassIsKept weighs everything at the end against the elements brought in.
func TestMassIsKept(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		b.Run(p)
		var stands quantity.Gram
		for v := range ledger.Vessel(ledger.Vessels) {
			stands += b.Book().TotalMass(v)
		}
		var elements float64
		for e := range reaction.Element(reaction.Elements) {
			in, _ := b.Book().Balance(e)
			elements += float64(in) * elementMass(e)
		}
		if math.Abs(float64(stands)-elements) > tiny*elements+1e-15 {
			t.Fatalf("%v g brought, %v g stand\nplan:%s", elements, stands, link(p))
		}
	})
}

var elementMasses = func() (m [reaction.Elements]float64) {
	for e := range reaction.Element(reaction.Elements) {
		m[e] = float64(formula.MustParse(e.String()).MolarMass())
	}
	return m
}()

func elementMass(e reaction.Element) float64 { return elementMasses[e] }

// TestJarWeighsItsContents: whatever the plan, the salt with its water and what lies
// beside it are no more than the jar, and the purity is the salt's share of it.
func TestJarWeighsItsContents(t *testing.T) {
	grown := 0
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		s := b.Run(p)
		if s.Reason(ProductPurity) != Defined {
			return
		}
		if p.DryWay == ToCrystals {
			grown++
		}
		mass := s.Value(ProductMass)
		slack := 20*dust + 1e-7*mass + 1e-11*s.Value(FiltrateVolume) // the ledger's last digits of the water boiled off
		contents := s.Value(ProductPurity) / 100 * mass
		for _, c := range companions {
			if c.id != ProductChloride { // counted in the salts that hold it
				contents += s.Value(c.id)
			}
		}
		if contents > mass+slack {
			t.Fatalf("%v g in a jar of %v g\nplan:%s", contents, mass, link(p))
		}
		water := float64(b.Book().Mass(ledger.ProductJar, reaction.Water))
		if bound := s.Value(ProductWaters) * float64(reaction.Water.Mass(b.Book().Amount(ledger.ProductJar, reaction.ManganeseSulfate))); bound > water+slack {
			t.Fatalf("%v g of water bound of %v g\nplan:%s", bound, water, link(p))
		}
	})
	if grown == 0 {
		t.Fatal("no plan crystallised")
	}
}
