package route

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/cell"
	"rosesalt/chem/quantity"
)

// The stable keys of the model. Those of room, account and found come with the
// stages that use them.
var inputKeys = strings.Fields(`
	cell.size cell.kind cell.count cell.charge cell.aged
	mix.carbon mix.inert mix.ammonium mix.zinc mix.wet mix.washed mix.assay
	wash.soak wash.times wash.each wash.held wash.mixing wash.acid wash.hydrolysis wash.target
	batch.share
	gas.source gas.strength gas.acid gas.copper gas.salt gas.excess gas.end gas.sulfide gas.steam gas.uptake
	gas.minutes gas.flask gas.purge
	slurry.water slurry.temperature slurry.acid slurry.dithionate slurry.split slurry.reach slurry.vessel
	rinse.times rinse.each loss.transfer
	dry.temperature dry.rate dry.dithionate
	copper.water copper.hot copper.cold
	air.temperature air.pressure`)

var figureKeys = map[string]string{
	"mix.mass": "g", "mix.manganese": "mmol", "mix.oxide": "g", "can.zinc": "g",
	"wash.chloride": "mg", "wash.bound": "mg", "wash.last": "mg/L", "wash.liquor": "mL", "wash.enough": "",
	"batch.manganese": "mmol", "demand.gas": "mmol", "demand.acid": "mmol",
	"gas.made": "mmol", "gas.volume": "L", "gas.acid.needed": "mL", "gas.copper.needed": "g", "gas.salt.needed": "g",
	"gas.limit": "", "gas.strength.end": "%",
	"uptake.taken": "mmol", "vent.gas": "mmol", "reduce.conversion": "%", "reduce.left": "g", "filtrate.volume": "mL",
	"product.anhydrous": "g", "product.mono": "g", "product.tetra": "g", "product.penta": "g", "product.mass": "g",
	"product.form": "", "product.yield": "%", "product.purity": "%",
	"copper.sulfate": "g", "copper.crop": "g", "copper.left": "g",
	"scrub.soda": "g", "scrub.hydroxide": "g", "waste.base": "g",
}

func TestStableKeys(t *testing.T) {
	for _, key := range inputKeys {
		_, ok := InputByKey(key)
		assert.True(t, ok, "input %s", key)
	}
	for key, unit := range figureKeys {
		id, ok := FigureByKey(key)
		if assert.True(t, ok, "figure %s", key) {
			assert.Equal(t, unit, id.Info().Unit, key)
		}
	}
	for _, key := range []string{"gas.limit", "product.form"} {
		id, _ := FigureByKey(key)
		assert.NotEmpty(t, id.Info().Words, key)
	}
	_, ok := InputByKey("gas.nothing")
	assert.False(t, ok)
	_, ok = FigureByKey("gas.nothing")
	assert.False(t, ok)
}

func TestKeysStandOnce(t *testing.T) {
	seen := map[string]bool{}
	for i := range Inputs() {
		in := &Inputs()[i]
		assert.False(t, seen[in.Key], in.Key)
		seen[in.Key] = true
		found, ok := InputByKey(in.Key)
		assert.True(t, ok && found == in, in.Key)
	}
	for id := range FigureID(len(Figures())) {
		f := id.Info()
		assert.False(t, seen[f.Key], "%s is a figure too", f.Key)
		seen[f.Key] = true
		found, ok := FigureByKey(f.Key)
		assert.True(t, ok && found == id, f.Key)
		assert.NotEmpty(t, f.Name, f.Key)
	}
	for key := range seen {
		assert.Regexp(t, `^[a-z]+(\.[a-z0-9]+)+$`, key)
	}
}

// TestEveryNumberHasItsOwnField: two inputs that write to one field would undo
// each other.
func TestEveryNumberHasItsOwnField(t *testing.T) {
	var p Plan
	seen := map[any]string{}
	for i := range Inputs() {
		in := &Inputs()[i]
		var at any
		if in.IsChoice() {
			at = in.choice(&p)
		} else {
			at = in.number(&p)
		}
		assert.Empty(t, seen[at], in.Key)
		seen[at] = in.Key
	}
}

func TestLimitsAndDefaults(t *testing.T) {
	p := NewPlan()
	for i := range Inputs() {
		in := &Inputs()[i]
		t.Run(in.Key, func(t *testing.T) {
			assert.NotEmpty(t, in.Name)
			assert.NotEmpty(t, in.Why)
			assert.True(t, in.IsDefault(&p))
			assert.Less(t, int(in.Stage), int(Stages))
			if in.IsChoice() {
				require.NotEmpty(t, in.Options)
				assert.Less(t, int(in.Default), len(in.Options))
				assert.Equal(t, in.Options[int(in.Default)].Word, in.Word(&p))
				return
			}
			assert.Less(t, in.Min, in.Max)
			if quantity.Given(in.Default) {
				assert.NoError(t, in.Set(&p, in.Default), "the default is within its limits")
			} else {
				assert.NotEmpty(t, in.Blank, "a default that is blank says what blank means")
			}
			if in.Standing == Estimated {
				assert.Less(t, in.Low, in.High, "an estimate has an interval")
				assert.LessOrEqual(t, in.Low, in.Default)
				assert.LessOrEqual(t, in.Default, in.High)
			}
			if in.Low != in.High {
				assert.LessOrEqual(t, in.Min, in.Low)
				assert.LessOrEqual(t, in.High, in.Max)
			}
			if in.Whole {
				for _, v := range []float64{in.Min, in.Max} {
					assert.Equal(t, math.Trunc(v), v)
				}
			}
			if in.Standing == Measured {
				assert.False(t, quantity.Given(in.Default), "nothing is weighed before the user weighs it")
			}
		})
	}
}

// TestIntervalsHoldTheKinds: an input that follows the electrolyte while blank
// has that electrolyte's best guess within its interval.
func TestIntervalsHoldTheKinds(t *testing.T) {
	for _, k := range cell.Kinds() {
		c := k.Composition()
		for key, v := range map[string]float64{
			"mix.carbon": float64(c.Carbon), "mix.inert": float64(c.Inert), "mix.ammonium": float64(c.Ammonium),
			"mix.zinc": float64(c.Zinc), "mix.water": float64(c.Water),
		} {
			in := input(t, key)
			assert.LessOrEqual(t, in.Low, v, "%s of %s", key, k.Word)
			assert.LessOrEqual(t, v, in.High, "%s of %s", key, k.Word)
		}
	}
}

func TestSet(t *testing.T) {
	for _, c := range []struct {
		name, key string
		value     float64
		says      []string // nothing where it is taken
	}{
		{"within", "gas.uptake", 55, nil},
		{"the least", "gas.uptake", 1, nil},
		{"the most", "gas.uptake", 100, nil},
		{"a hair below", "gas.uptake", 0.999999, []string{"0.999999\u202f%", "below the least", "1\u202f%", "a funnel at the surface"}},
		{"above", "gas.uptake", 120, []string{"120\u202f%", "above the limit", "100\u202f%", "a funnel at the surface"}},
		{"below nothing", "loss.transfer", -3, []string{"−3\u202f%", "below the least", "0\u202f%"}},
		{"endless", "slurry.water", math.Inf(1), []string{"above the limit", "mL"}},
		{"endless below", "slurry.water", math.Inf(-1), []string{"below the least"}},
		{"half a cell", "cell.count", 2.5, []string{"2.5", "not a whole number", "1 to 2000"}},
		{"no cell", "cell.count", 0, []string{"below the least, 1", "Count the cells in the bag"}},
		{"too many cells", "cell.count", 2001, []string{"2001", "limit of 2000"}},
		{"blank where needed", "cell.count", quantity.Blank, []string{"Nothing is given", "a whole number from 1 to 2000"}},
		{"blank where worked out", "gas.acid", quantity.Blank, nil},
		{"blank where weighed", "mix.wet", quantity.Blank, nil},
		{"no acid at all", "gas.acid", 0, []string{"0\u202fmL", "below the least", "leave the field blank"}},
		{"too hot", "dry.temperature", 700, []string{"700\u202f°C", "650\u202f°C", "the sulfate itself breaks up"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := NewPlan()
			in := input(t, c.key)
			before := in.Value(&p)
			err := in.Set(&p, c.value)
			if c.says == nil {
				require.NoError(t, err)
				if quantity.Given(c.value) {
					assert.Equal(t, c.value, in.Value(&p))
				} else {
					assert.False(t, quantity.Given(in.Value(&p)))
				}
				return
			}
			require.Error(t, err)
			for _, says := range c.says {
				assert.Contains(t, err.Error(), says)
			}
			if quantity.Given(before) || quantity.Given(in.Value(&p)) {
				assert.Equal(t, before, in.Value(&p), "nothing changes")
			}
		})
	}
	p := NewPlan()
	assert.Error(t, input(t, "gas.source").Set(&p, 1), "a choice takes words")
}

func TestChoose(t *testing.T) {
	p := NewPlan()
	require.NoError(t, input(t, "cell.size").Choose(&p, "4R25"))
	assert.Equal(t, "4R25", input(t, "cell.size").Word(&p))
	assert.False(t, input(t, "cell.size").IsDefault(&p))
	require.NoError(t, input(t, "gas.source").Choose(&p, "metabisulfite"))
	assert.Equal(t, FromMetabisulfite, p.GasSource)
	require.NoError(t, input(t, "slurry.vessel").Choose(&p, "closed"))
	assert.Equal(t, ClosedVessel, p.SlurryVessel)
	require.NoError(t, input(t, "dry.way").Choose(&p, "crystals"))
	assert.Equal(t, ToCrystals, p.DryWay)

	// A mark read wrongly: an alkaline, a lithium, a rechargeable cell, a common
	// name instead of a mark, the wrong case.
	for _, mark := range []string{"LR6", "FR6", "CR2032", "HR6", "AA", "r6", "", "R6 "} {
		err := input(t, "cell.size").Choose(&p, mark)
		require.Error(t, err, mark)
		assert.Contains(t, err.Error(), "“"+mark+"”")
		for _, offered := range []string{"R03", "R6", "R14", "R20", "3R12", "6F22", "4R25"} {
			assert.Contains(t, err.Error(), offered)
		}
		assert.Contains(t, err.Error(), "another kind of cell and stays shut")
		assert.Equal(t, "4R25", input(t, "cell.size").Word(&p), "nothing changes")
	}
	long := strings.Repeat("a long story ", 100)
	err := input(t, "cell.kind").Choose(&p, long)
	require.Error(t, err)
	assert.Less(t, len(err.Error()), 200)
}

func TestRead(t *testing.T) {
	for _, c := range []struct {
		key, text string
		want      float64
	}{
		{"gas.acid", "25", 25},
		{"gas.acid", "  25  ", 25},
		{"gas.acid", "25.5", 25.5},
		{"gas.acid", "25,5", 25.5},
		{"gas.acid", ".5", 0.5},
		{"gas.acid", "10 mL", 10},
		{"gas.acid", "10mL", 10},
		{"gas.acid", "10 ml", 10},
		{"gas.acid", "10\u202fmL", 10},
		{"gas.acid", "0.5 L", 500},
		{"gas.acid", "0,5 litre", 500},
		{"gas.acid", "30 cc", 30},
		{"gas.acid", "30 cm³", 30},
		{"slurry.water", "1 000", 1000},
		{"slurry.water", "1\u202f000 mL", 1000},
		{"slurry.water", "1\u00a0000,5", 1000.5},
		{"slurry.water", "1,234.5", 1234.5},
		{"slurry.water", "1,234,567.5", 1234567.5},
		{"slurry.water", "1e9", 1e9},
		{"slurry.water", "1.5E3 mL", 1500},
		{"slurry.water", "2e-1", 0.2},
		{"slurry.water", "-3", -3},
		{"slurry.water", "−3", -3},
		{"slurry.water", "–3 mL", -3},
		{"slurry.water", "+3", 3},
		{"gas.copper", "8 g", 8},
		{"gas.copper", "0.25 kg", 250},
		{"gas.copper", "500 mg", 0.5},
		{"cell.charge", "45 %", 45},
		{"cell.charge", "45 percent", 45},
		{"dry.temperature", "120 °C", 120},
		{"dry.temperature", "120 c", 120},
		{"gas.minutes", "1.5 h", 90},
		{"air.pressure", "1013.25 hPa", 101.325},
		{"air.pressure", "1 bar", 100},
		{"dry.rate", "76 mL/h", 76},
		{"wash.held", "1 mL/g", 1},
		{"wash.target", "2 ppm", 2},
		{"wash.times", "4 ×", 4},
		{"wash.times", "4x", 4},
		{"cell.count", "6 cells", 6},
	} {
		t.Run(c.key+" "+c.text, func(t *testing.T) {
			v, err := input(t, c.key).Read(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.want, v, 1e-12*math.Abs(c.want))
		})
	}
	for _, nothing := range []string{"", " ", "\u202f", "\t\n"} {
		v, err := input(t, "gas.acid").Read(nothing)
		require.NoError(t, err)
		assert.False(t, quantity.Given(v))
	}
}

func TestReadRefuses(t *testing.T) {
	for _, text := range []string{
		"NaN", "nan", "Inf", "-Inf", "+inf", "infinity", "0x10", "0x1p4", "0b1", "1_000", "ten", "mL", "-", ".", ",", "--3", "3-", "1.2.3",
		"1.234,5", "1,000,000", "5 g", "5 kg mL", "5 mL mL", "5%", "3 °C", "1e", "e5", "1/2", "½", "٣", "12 mL of acid", "about 20",
		"Take 25 mL of the strong acid and 8 g of copper turnings, and warm gently.",
		strings.Repeat("9", 401), "<b>5</b>", "5;", "5 mL\x00",
	} {
		t.Run(text, func(t *testing.T) {
			_, err := input(t, "gas.acid").Read(text)
			require.Error(t, err)
			assert.Contains(t, err.Error(), "cannot be read as a number in mL")
			assert.Contains(t, err.Error(), "Type one such as 10\u202fmL, or leave it blank: as much as needed.")
			assert.Less(t, len([]rune(err.Error())), 200, "a pasted page is cut short")
		})
	}
	_, err := input(t, "cell.count").Read("six")
	require.Error(t, err)
	assert.Equal(t, "“six” cannot be read as a number. Type one such as 6.", err.Error())
}

// TestReadAndSet: what Read lets through, Set holds to the limits; whatever is
// typed, the plan stays one that runs.
func TestReadAndSet(t *testing.T) {
	for _, c := range []struct{ key, text, says string }{
		{"slurry.water", "1e9", "above the limit"},
		{"slurry.water", "−3", "−3\u202fmL is below the least, 0\u202fmL"},
		{"gas.acid", "200 L", "200\u202f000\u202fmL is above the limit of 100\u202f000\u202fmL"},
		{"cell.count", "", "Nothing is given"},
		{"cell.count", "2,5", "not a whole number"},
	} {
		t.Run(c.key+" "+c.text, func(t *testing.T) {
			p, fresh := NewPlan(), NewPlan()
			v, err := input(t, c.key).Read(c.text)
			require.NoError(t, err)
			err = input(t, c.key).Set(&p, v)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
			assert.Equal(t, link(&fresh), link(&p))
		})
	}
}

// TestAnyTextIsReadOrRefused: no text makes Read panic, or Set take what is
// outside its limits.
func TestAnyTextIsReadOrRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := &Inputs()[rapid.IntRange(0, len(Inputs())-1).Draw(t, "input")]
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+−]?[0-9 .,]{0,8}(e[-+]?[0-9]{1,3})? ?[a-zA-Z%°/]{0,4}`)).Draw(t, "text")
		p := NewPlan()
		if in.IsChoice() {
			if err := in.Choose(&p, text); err == nil && in.Word(&p) != text {
				t.Fatalf("%s takes %q for %q", in.Key, text, in.Word(&p))
			}
			return
		}
		v, err := in.Read(text)
		if err != nil {
			return
		}
		if err := in.Set(&p, v); err == nil && quantity.Given(v) && !(v >= in.Min && v <= in.Max) {
			t.Fatalf("%s takes %q as %v", in.Key, text, v)
		}
	})
}

// TestReadOwnPrint: what the page prints as a limit can be typed in again.
func TestReadOwnPrint(t *testing.T) {
	for i := range Inputs() {
		in := &Inputs()[i]
		if in.IsChoice() {
			continue
		}
		for _, v := range []float64{in.Min, in.Max, in.Low, in.High, in.Default} {
			if !quantity.Given(v) {
				continue
			}
			back, err := in.Read(in.Print(v))
			require.NoError(t, err, in.Key)
			assert.InDelta(t, v, back, 1e-5*math.Abs(v), in.Key)
		}
	}
}

func TestCheck(t *testing.T) {
	assert.Empty(t, Check(planOf(t)))
	for name, c := range map[string]struct {
		entries []string
		keys    []string // of the one problem; nothing where there is none
		says    []string
	}{
		"more rejects than cells":        {[]string{"cell.count=3", "cell.rejects=4"}, []string{"cell.rejects", "cell.count"}, []string{"4 rejects", "3 cells", "No more can be rejected"}},
		"as many rejects as cells":       {[]string{"cell.count=3", "cell.rejects=3"}, nil, nil},
		"in the second row":              {[]string{"cell.2.count=3", "cell.2.rejects=4"}, []string{"cell.2.rejects", "cell.2.count"}, []string{"4 rejects"}},
		"in a row that is not there":     {[]string{"cell.2.rejects=4"}, nil, nil},
		"acid too weak for its end":      {[]string{"gas.strength=70", "gas.end=75"}, []string{"gas.end", "gas.strength"}, []string{"70\u202f%", "75\u202f%", "no gas at all"}},
		"acid too weak for copper":       {[]string{"gas.strength=70"}, []string{"gas.strength"}, []string{"70\u202f%", "90 % or more"}},
		"acid that boils down first":     {[]string{"gas.strength=80"}, nil, nil},
		"acid as weak as its end":        {[]string{"gas.strength=75", "gas.steam=30"}, []string{"gas.end", "gas.strength"}, []string{"75\u202f%"}},
		"weak acid for metabisulfite":    {[]string{"gas.strength=20", "gas.source=metabisulfite"}, nil, nil},
		"crystals hotter than dissolved": {[]string{"copper.cold=90"}, []string{"copper.cold", "copper.hot"}, []string{"90 °C", "80 °C", "Grow them colder"}},
		"crystals as hot":                {[]string{"copper.cold=80"}, []string{"copper.cold", "copper.hot"}, []string{"80 °C"}},
		"no crystals from metabisulfite": {[]string{"copper.cold=90", "gas.source=metabisulfite"}, nil, nil},
		"an assay of pure oxide":         {[]string{"mix.assay=100"}, []string{"mix.assay"}, []string{"100\u202f%", "outside 0 to 100", "between"}},
		"an assay of nothing":            {[]string{"mix.assay=2"}, []string{"mix.assay"}, []string{"2\u202f%"}},
		"an assay that is possible":      {[]string{"mix.assay=55"}, nil, nil},
		"an assay of no cells":           {[]string{"mix.assay=2", "cell.rejects=6"}, nil, nil},
	} {
		t.Run(name, func(t *testing.T) {
			problems := Check(planOf(t, c.entries...))
			if c.keys == nil {
				assert.Empty(t, problems)
				return
			}
			require.Len(t, problems, 1)
			assert.Equal(t, c.keys, problems[0].Keys)
			for _, says := range c.says {
				assert.Contains(t, problems[0].Message, says)
			}
			for _, key := range problems[0].Keys {
				input(t, key)
			}
		})
	}
	assert.Len(t, Check(planOf(t, "cell.rejects=7", "gas.strength=70", "copper.cold=90", "mix.assay=1")), 3, "each is told (no cell, no assay)")
}

// TestAssayRange: the range that a refusal names is the range that is taken.
func TestAssayRange(t *testing.T) {
	p := planOf(t)
	none, full := bag(p, 0), bag(p, 1)
	least, most := none.assay(0.6), full.assay(0.6)
	assert.Less(t, least, most)
	p.MixAssay = quantity.Percent(least)
	assert.Empty(t, Check(p))
	p.MixAssay = quantity.Percent(most)
	assert.Empty(t, Check(p))
	p.MixAssay = quantity.Percent(most + 1e-6)
	assert.Len(t, Check(p), 1)
	p.MixAssay = quantity.Percent(least - 1e-6)
	assert.Len(t, Check(p), 1)
}

func TestPrint(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit string
		want string
	}{
		{0, "g", "0\u202fg"},
		{1e-12, "g", "0\u202fg"},
		{4, "", "4"},
		{1, "mL", "1\u202fmL"},
		{0.0123, "g", "0.012\u202fg"},
		{0.5, "%", "0.50\u202f%"},
		{1.25, "g", "1.2\u202fg"},
		{1.26, "g", "1.3\u202fg"},
		{9.96, "g", "10\u202fg"},
		{12.34, "g", "12\u202fg"},
		{99.4, "%", "99\u202f%"},
		{123.4, "mmol", "123\u202fmmol"},
		{999.4, "g", "999\u202fg"},
		{1234, "g", "1.2\u202fkg"},
		{1234, "mL", "1.2\u202fL"},
		{2500, "mmol", "2.5\u202fmol"},
		{1234, "mL/min", "1230\u202fmL/min"},
		{12345, "", "12\u202f300"},
		{1234567, "", "1\u202f230\u202f000"},
		{-3.14, "K", "−3.1\u202fK"},
		{-1234567, "", "−1\u202f230\u202f000"},
	} {
		assert.Equal(t, c.want, Print(c.v, c.unit), "%v %s", c.v, c.unit)
	}
	number, unit := PrintParts(1500, "mg")
	assert.Equal(t, "1.5", number)
	assert.Equal(t, "g", unit)
}

// TestPrintKeepsTheValue: what is shown is within half of its last digit, 5 %.
func TestPrintKeepsTheValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := math.Pow(10, rapid.Float64Range(-8, 9).Draw(t, "magnitude"))
		number, _ := PrintParts(v, "")
		in, _ := InputByKey("cell.count")
		back, err := in.Read(number)
		if err != nil || math.Abs(back-v) > 0.05*v {
			t.Fatalf("%v is shown as %s", v, number)
		}
	})
}

func TestReasonsAreToldInWords(t *testing.T) {
	assert.Empty(t, Defined.String())
	seen := map[string]bool{}
	for r := range reasons {
		if Reason(r) == Defined {
			continue
		}
		assert.NotEmpty(t, Reason(r).String())
		assert.False(t, seen[Reason(r).String()])
		seen[Reason(r).String()] = true
	}
}

// TestCopy: input by input, one plan becomes another.
func TestCopy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPlan(t), drawPlan(t)
		for i := range Inputs() {
			Inputs()[i].Copy(to, from)
		}
		if link(to) != link(from) {
			t.Fatalf("copied:%s\nfrom:%s", link(to), link(from))
		}
	})
}

// TestWorkedOutStandsIn: what stands in for a blank input, typed into it, changes
// nothing that is read, but for two: a mix that is weighed dry brings no water to
// the first soak, and a factor that is given serves for dissolving hot as well.
func TestWorkedOutStandsIn(t *testing.T) {
	read := []FigureID{MixManganese, MixCharge, WashChloride, DemandGas, GasMade, VentGas, ReduceConversion, ProductMass, ProductPurity, CopperCrop, WasteBase}
	for name, entries := range map[string][]string{
		"default":       nil,
		"metabisulfite": {"gas.source=metabisulfite"},
		"crystals":      {"dry.way=crystals"},
		"given end":     {"gas.end=70"},
		"two sorts":     {"cell.2.count=3"},
	} {
		var was, now Runner
		p := planOf(t, entries...)
		s := was.Run(p)
		tried := 0
		for i := range Inputs() {
			in := &Inputs()[i]
			if in.IsChoice() || quantity.Given(in.Value(p)) {
				continue
			}
			v, ok := in.WorkedOut(p, s)
			if !ok {
				continue
			}
			tried++
			q := *p
			require.NoError(t, in.Set(&q, v), "%s: %s", name, in.Key)
			require.Empty(t, Check(&q), "%s: %s", name, in.Key)
			given := now.Run(&q)
			relative := 1e-9
			switch in.Key {
			case "mix.washed":
				relative = 0.3
			case "copper.factor":
				relative = 0.1
			}
			for _, id := range read {
				if assert.Equal(t, s.Reason(id), given.Reason(id), "%s: %s", name, in.Key) && s.Reason(id) == Defined {
					near(t, s.Value(id), given.Value(id), relative, name+": "+in.Key+" changes "+id.Info().Key)
				}
			}
		}
		assert.Greater(t, tried, 12, name)
	}
	p := planOf(t)
	var b Runner
	_, ok := input(t, "gas.excess").WorkedOut(p, b.Run(p))
	assert.False(t, ok)
}

// TestFlatIsNeitherDeadNorASize: the word would mean a discharged cell and the shape of a
// 3R12 at once, so it means neither.
func TestFlatIsNeitherDeadNorASize(t *testing.T) {
	flat := regexp.MustCompile(`(?i)\bflat\b`)
	for i := range Inputs() {
		in := &Inputs()[i]
		assert.NotRegexp(t, flat, in.Name+" "+in.Why+" "+in.Blank+" "+in.Remedy, in.Key)
		for _, o := range in.Options {
			assert.NotRegexp(t, flat, o.Name, in.Key)
		}
	}
}

// TestShownIsWhatIsPrinted: a button writes the very number that it shows.
func TestShownIsWhatIsPrinted(t *testing.T) {
	in, _ := InputByKey("cell.count")
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1, 10).Draw(t, "digits") * math.Pow10(rapid.IntRange(-6, 8).Draw(t, "power"))
		printed, err := in.Read(Print(v, ""))
		require.NoError(t, err)
		assert.Equal(t, printed, Shown(v))
	})
	assert.Zero(t, Shown(0))
}
