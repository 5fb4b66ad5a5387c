package picture

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/table"
	"rosesalt/web/chart"
	"rosesalt/web/chart/charttest"
)

// plan is the page's own plan with a few inputs set.
func plan(t testing.TB, set map[string]string) route.Plan {
	p := route.NewPlan()
	for key, text := range set {
		in, ok := route.InputByKey(key)
		require.True(t, ok, key)
		if in.IsChoice() {
			require.NoError(t, in.Choose(&p, text), key)
			continue
		}
		v, err := in.Read(text)
		require.NoError(t, err, key)
		require.NoError(t, in.Set(&p, v), key)
	}
	return p
}

// plans are ordinary and odd ones.
var plans = map[string]map[string]string{
	"demo":          {},
	"metabisulfite": {"gas.source": "metabisulfite", "dry.way": "crystals"},
	"acid rinse":    {"wash.acid": "100", "wash.times": "6"},
	"short":         {"gas.acid": "40", "gas.copper": "9", "slurry.vessel": "open", "batch.share": "100"},
	"much copper":   {"gas.acid": "20", "gas.copper": "500"},
	"no water":      {"wash.soak": "0", "wash.each": "0", "wash.times": "0"},
	"fifty":         {"wash.times": "50"},
	"tiny":          {"batch.share": "0.1", "mix.wet": "1"},
	"huge":          {"cell.count": "2000", "cell.size": "4R25", "batch.share": "100"},
	"rejects":       {"cell.rejects": "6"},
	"equal":         {"copper.hot": "80", "copper.cold": "79.9", "copper.factor": "150"},
	"too acid":      {"copper.water": "0"},
	"slurry salt":   {"gas.source": "slurrysalt"},
	"peroxide":      {"gas.source": "peroxide", "cell.kind": "alkaline"},
	"oxalic":        {"gas.source": "oxalic", "slurry.acid": "0"},
}

// ran runs a plan and keeps its bookings.
func ran(p *route.Plan) *route.Runner {
	b := &route.Runner{Keep: true}
	b.Run(p)
	return b
}

func solubility(p *route.Plan) chart.Picture { return Solubility(p, new(route.Runner).Run(p)) }

func chloride(p *route.Plan) chart.Picture { return Chloride(route.AlongWashes(p)) }

func acid(p *route.Plan) chart.Picture { return Acid(route.AlongCopper(p)) }

func temperature(p *route.Plan) chart.Picture {
	w := Warmth{Gaseous: route.Gaseous(p), Along: route.AlongTemperature(p, []float64{0, 20, 40, 60, 90}), Ends: route.Anchors(p)}
	if w.Along != nil {
		w.Own = route.AlongTemperature(p, []float64{float64(p.SlurryTemperature)})[0]
	}
	return Temperature(&w)
}

func flows(p *route.Plan) chart.Picture { return Flows(ran(p).Book()) }

// overCells sweeps the cells with a few draws.
func overCells(t require.TestingT, p *route.Plan) chart.Picture {
	var values []float64
	for n := range 12 {
		values = append(values, float64(n+1))
	}
	s, err := spread.NewSweep(spread.Case{Plan: *p}, "cell.count", values, 16, route.ProductMass)
	require.NoError(t, err)
	return Sweep(s.Input(), p.Rows[0].Count, s.Finish(), true)
}

func all(t require.TestingT, p route.Plan) map[string]chart.Picture {
	return map[string]chart.Picture{
		"chloride": chloride(&p), "acid": acid(&p), "solubility": solubility(&p), "flow": flows(&p), "cells": overCells(t, &p), "temperature": temperature(&p),
	}
}

// drawn draws a picture in both layouts and checks them, and its file.
func drawn(t require.TestingT, p chart.Picture) []charttest.Drawing {
	charttest.File(t, chart.File(p))
	return charttest.Drawings(t, app.HTMLString((&chart.Figure{Picture: p}).Render()))
}

func TestOnePathPerLine(t *testing.T) {
	for name, pic := range all(t, plan(t, nil)) {
		assert.Less(t, len(drawn(t, pic)[0].Parts), 70, name)
	}
}

func TestPicturesOfAllPlans(t *testing.T) {
	for name, set := range plans {
		t.Run(name, func(t *testing.T) {
			for kind, pic := range all(t, plan(t, set)) {
				if pic.Why != "" {
					continue
				}
				assert.NotEmpty(t, pic.Title, kind)
				assert.NotEmpty(t, pic.Table.Rows, kind)
				drawn(t, pic)
				assert.Contains(t, chart.File(pic), "<title>"+pic.Title+"</title>", kind)
			}
		})
	}
}

// Two pictures of one plan are equal, so that nothing is drawn again.
func TestPicturesCompare(t *testing.T) {
	for name, set := range plans {
		a, b := all(t, plan(t, set)), all(t, plan(t, set))
		for kind := range a {
			assert.True(t, reflect.DeepEqual(a[kind], b[kind]), "%s of %s", kind, name)
		}
	}
}

func TestPicturesOfRandomPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := route.NewPlan()
		for range rapid.IntRange(1, 12).Draw(t, "changes") {
			in := &route.Inputs()[rapid.IntRange(0, len(route.Inputs())-1).Draw(t, "input")]
			if in.IsChoice() || in.Row > 1 {
				continue
			}
			before := p
			v := in.Min + (in.Max-in.Min)*math.Pow(rapid.Float64Range(0, 1).Draw(t, "share"), 3)
			if in.Whole {
				v = math.Round(v)
			}
			if in.Set(&p, v) != nil || len(route.Check(&p)) > 0 {
				p = before
			}
		}
		for _, pic := range all(t, p) {
			if pic.Why == "" {
				drawn(t, pic)
			}
		}
	})
}

func TestChlorideTitles(t *testing.T) {
	for name, c := range map[string]struct {
		set  map[string]string
		want string
	}{
		"demo":   {nil, "Silver nitrate stays clear after 1 wash, the acid rinse and 8 more"},
		"short":  {map[string]string{"wash.times": "4", "wash.acid": "0"}, "Silver nitrate stays clear after wash 8; this plan stops at 4"},
		"enough": {map[string]string{"wash.times": "9", "wash.acid": "0"}, "Silver nitrate stays clear after wash 8"},
		"never":  {map[string]string{"wash.each": "20", "wash.acid": "0"}, "Silver nitrate still clouds after 50 washes of this size"},
		"acid":   {map[string]string{"wash.acid": "100", "wash.after": "1"}, "After the acid rinse the wash still holds "},
	} {
		t.Run(name, func(t *testing.T) {
			p := plan(t, c.set)
			assert.True(t, strings.HasPrefix(chloride(&p).Title, c.want), chloride(&p).Title)
		})
	}
}

// The series is what the core says: each point is the figure of the plan with so
// many washes.
func TestChlorideIsTheCores(t *testing.T) {
	p := plan(t, map[string]string{"wash.times": "4", "wash.acid": "0"})
	pic := chloride(&p)
	points := pic.Panels[0].Series[0].Points
	require.Len(t, pic.Table.Rows, len(points))
	var b route.Runner
	for i, q := range points {
		at := p
		at.WashTimes = q.X
		s := b.Run(&at)
		assert.Equal(t, s.Value(route.WashLast), q.Y)
		assert.Equal(t, route.Print(q.Y, ""), pic.Table.Rows[i][1])
	}
	enough := int(b.Run(&p).Value(route.WashEnough))
	assert.Greater(t, points[enough-1].Y, float64(route.SilverLimit))
	assert.LessOrEqual(t, points[enough].Y, float64(route.SilverLimit))
	assert.Equal(t, chart.Mark{X: 4, Y: points[4].Y, Shape: chart.Ring, Role: chart.Rose, Text: "this plan: " + route.Print(points[4].Y, "mg/L")}, pic.Panels[0].Marks[0])
}

// TestTheAcidRinseComesAfterAllWashes: its mark stands as many places beyond the plan's own as
// washes follow it.
func TestTheAcidRinseComesAfterAllWashes(t *testing.T) {
	p := plan(t, plans["acid rinse"])
	pic := chloride(&p)
	require.Len(t, pic.Panels[0].Marks, 2)
	assert.Equal(t, 14.0, pic.Panels[0].Marks[1].X)
	assert.Equal(t, new(route.Runner).Run(&p).Value(route.WashLast), pic.Panels[0].Marks[1].Y)
	assert.Equal(t, "the acid rinse and its 8 washes", pic.Table.Rows[len(pic.Table.Rows)-1][0])
}

func TestAcidTitles(t *testing.T) {
	p := plan(t, map[string]string{"gas.acid": "30", "gas.copper.over": "0"})
	assert.Regexp(t, `^Acid has weakened to 85.% when [0-9.]+.g of copper have dissolved$`, acid(&p).Title)
	p = plan(t, map[string]string{"gas.acid": "30", "gas.copper": "9"})
	assert.Regexp(t, `^Acid is still [0-9]+.% strong when all 9.g of copper have dissolved$`, acid(&p).Title)
	p = plan(t, map[string]string{"gas.acid": "30", "gas.copper": "500"})
	assert.Regexp(t, `^Acid has weakened to 85.% when [0-9.]+.g of copper have dissolved; [0-9]+.g stay$`, acid(&p).Title)
	assert.Equal(t, "at 85\u202f% water boils off", acid(&p).Panels[0].Limits[0].Text)
	p = plan(t, map[string]string{"gas.acid": "30", "gas.end": "75", "gas.copper.over": "0"})
	assert.Regexp(t, `^Acid has weakened to 75.% when [0-9.]+.g of copper have dissolved$`, acid(&p).Title)
	assert.Equal(t, "gas fades at 75\u202f%", acid(&p).Panels[0].Limits[0].Text)
	p = plan(t, map[string]string{"gas.source": "metabisulfite"})
	assert.Equal(t, "No gas is made.", acid(&p).Why)
}

func TestAcidRunsFromBoughtToFaded(t *testing.T) {
	p := plan(t, map[string]string{"gas.acid": "30", "gas.copper.over": "0"})
	pic := acid(&p)
	strength, gas := pic.Panels[0].Series[0].Points, pic.Panels[1].Series[0].Points
	last := len(strength) - 1
	assert.Equal(t, 96.0, strength[0].Y)
	assert.InDelta(t, 85.161, strength[last].Y, 1e-3)
	var b route.Runner
	s := b.Run(&p)
	assert.InDelta(t, s.Value(route.GasVolume), gas[last].Y, 1e-6)
	assert.InDelta(t, s.Value(route.GasCopperUsed), gas[last].X, 1e-6)
	for i := 1; i <= last; i++ {
		assert.LessOrEqual(t, strength[i].Y, strength[i-1].Y+1e-9)
		assert.Greater(t, gas[i].Y, gas[i-1].Y)
		assert.Equal(t, route.Print(strength[i].Y, ""), pic.Table.Rows[i][1])
		assert.Equal(t, route.Print(gas[i].Y, ""), pic.Table.Rows[i][2])
	}
}

func TestSolubilityIsTheTables(t *testing.T) {
	p := plan(t, nil)
	pic := solubility(&p)
	assert.Regexp(t, `^Cooled from 80 to 10.°C, the acid liquor lets go of 70.% of the copper sulfate it could hold$`, pic.Title)
	for i, r := range table.ManganeseSulfateSolubility.Rows() {
		assert.Equal(t, r.Y, pic.Panels[0].Series[0].Points[i].Y)
		assert.Equal(t, route.Print(r.Y, ""), pic.Table.Rows[i][1])
	}
	require.Len(t, pic.Panels[0].Marks, 2)
	assert.Equal(t, 80.0, pic.Panels[0].Marks[0].X)
	var b route.Runner
	factor := b.Run(&p).Value(route.CopperFactorUsed) / 100
	assert.InDelta(t, 16.82*factor, pic.Panels[0].Marks[1].Y, 1e-9)
	p = plan(t, map[string]string{"gas.source": "metabisulfite", "dry.way": "crystals"})
	pic = solubility(&p)
	require.Len(t, pic.Panels[0].Marks, 1)
	assert.Equal(t, float64(p.CropCold), pic.Panels[0].Marks[0].X)
	p = plan(t, map[string]string{"gas.source": "metabisulfite"})
	assert.Empty(t, solubility(&p).Panels[0].Marks)
}

// unsure is a point of a sweep without a band.
func unsure(at, best float64) spread.Point {
	return spread.Point{At: at, Best: best, Low: quantity.Blank, High: quantity.Blank}
}

// ofCells is a sweep of the cells.
func ofCells(own float64, limits []string, points ...spread.Point) *swept {
	return &swept{input: chart.Axis{Name: "cells in the bag", Whole: true}, things: "cells", own: own, points: points, limits: limits}
}

func TestSweepTitles(t *testing.T) {
	points := []spread.Point{unsure(5, 35), unsure(6, 42), unsure(10, 71), unsure(20, quantity.Blank)}
	limits := []string{route.NeitherFirst, route.NeitherFirst, route.NeitherFirst, ""}
	assert.Equal(t, "6 cells give 42\u202fg; 10 would give 71\u202fg", ofCells(6, limits, points...).picture().Title)
	s := ofCells(6, []string{route.NeitherFirst, route.NeitherFirst, "acid"}, unsure(5, 35), unsure(6, 42), unsure(10, 50))
	s.turns = []spread.Turn{{At: 10, From: route.NeitherFirst, To: "acid"}}
	pic := s.picture()
	assert.Equal(t, "From 10 cells on the acid runs out first; 10 cells would give 50\u202fg", pic.Title)
	require.Len(t, pic.Panels[0].Limits, 1)
	assert.Equal(t, chart.Limit{At: 10, Upright: true, Text: "from 10 on the acid runs out first"}, pic.Panels[0].Limits[0])
	assert.Equal(t, "1 cell gives 7\u202fg", ofCells(1, []string{""}, unsure(1, 7)).picture().Title)
	s = &swept{
		input: chart.Axis{Name: "gas that the slurry takes up", Unit: "%"}, own: 80, limits: []string{"", ""},
		points: []spread.Point{unsure(70, 40), unsure(90, 46)},
	}
	assert.Equal(t, "Gas that the slurry takes up: 80\u202f% gives 43\u202fg; 90\u202f% would give 46\u202fg", s.picture().Title)
	s.input, s.own, s.points = chart.Axis{Name: "further washes", Unit: "×", Whole: true}, 4, []spread.Point{unsure(4, 40), unsure(0, 38)}
	assert.Equal(t, "Further washes: 4 gives 40\u202fg; 0 would give 38\u202fg", s.picture().Title)
	s.points[1].Best = 40
	assert.Equal(t, "Further washes: anything here gives 40\u202fg", s.picture().Title)
	s = ofCells(6, limits, points...)
	s.turns = []spread.Turn{{At: 8, To: "copper"}}
	assert.Equal(t, "From 8 cells on the copper runs out first; 10 cells would give 71\u202fg", s.picture().Title)
	assert.Equal(t, "5 cells would give 35\u202fg", ofCells(math.NaN(), limits[:1], points[:1]...).picture().Title)
	assert.Equal(t, "3 cells give 20\u202fg; 6 would give 40\u202fg", ofCells(3, []string{"", "", ""}, unsure(3, 20), unsure(6, 40), unsure(7, 50)).picture().Title, "no more than twice as many")
	in, _ := route.InputByKey("cell.count")
	waiting := Sweep(in, 6, nil, false)
	assert.Equal(t, "Manganese sulfate in the jar against cells in the bag", waiting.Title)
	assert.True(t, waiting.Waiting)
}

func TestSweepTableIsTheSeries(t *testing.T) {
	assert.Equal(t, chart.Table{
		Head: []string{"Cells in the bag", "Manganese sulfate in the jar, g", "Eight times in ten between", "What runs out first"},
		Rows: [][]string{{"1", "7", "4 and 9", "copper"}, {"2", "–", "–", ""}, {"3", "20", "–", "acid"}},
	}, ofCells(1, []string{"copper", "", "acid"}, spread.Point{At: 1, Best: 7, Low: 4, High: 9}, unsure(2, quantity.Blank), unsure(3, 20)).picture().Table)
}

// TestSweepIsTheCores: the picture of an input shows the points, the limits and the turns
// of the sweep.
func TestSweepIsTheCores(t *testing.T) {
	p := plan(t, map[string]string{"gas.acid": "40", "gas.copper": "9"})
	s, err := spread.NewSweep(spread.Case{Plan: p}, "gas.acid", []float64{10, 40, 80}, 64, route.ProductMass)
	require.NoError(t, err)
	pic := Sweep(s.Input(), float64(p.GasAcid), s.Finish(), true)
	require.NotEmpty(t, s.Turns())
	assert.Equal(t, s.Turns()[0].At, pic.Panels[0].Limits[0].At)
	assert.True(t, pic.X.Free)
	assert.Equal(t, "mL", pic.X.Unit)
	for i, q := range s.Line(0) {
		at := pic.Panels[0].Series[0].Points[i]
		assert.Equal(t, q, spread.Point{At: at.X, Best: at.Y, Low: at.Low, High: at.High})
		assert.Equal(t, s.Limit(i), pic.Table.Rows[i][3])
	}
	assert.Equal(t, s.Line(0)[1].Best, pic.Panels[0].Marks[0].Y)
	assert.Equal(t, chart.Round, pic.Panels[0].Series[0].Dots, "few points are shown")
}

func TestFlowsSumToWhatWasBrought(t *testing.T) {
	elements := map[string]reaction.Element{"Manganese": reaction.Mn, "Sulfur": reaction.S, "Copper": reaction.Cu}
	for name, set := range plans {
		t.Run(name, func(t *testing.T) {
			p := plan(t, set)
			b := ran(&p)
			for _, f := range Flows(b.Book()).Flows {
				element, _, _ := strings.Cut(f.Head, ",")
				brought, _ := b.Book().Balance(elements[element])
				shown, stands := 0.0, 0.0
				for _, band := range f.Out {
					shown += band.Moles
				}
				for _, a := range standing(b.Book(), elements[element]) {
					stands += a.moles
				}
				assert.InEpsilon(t, float64(brought), f.Total(), 1e-9, f.Head)
				assert.InEpsilon(t, f.Total(), stands, 1e-9, f.Head)
				assert.InEpsilon(t, f.Total(), shown, 1e-9, f.Head)
			}
		})
	}
}

func TestFlowTitle(t *testing.T) {
	p := plan(t, nil)
	assert.Equal(t, "Of 816\u202fmmol of manganese, 185\u202fmmol reach the jar and 602\u202fmmol are kept for later runs", flows(&p).Title)
	p = plan(t, map[string]string{"batch.share": "100"})
	assert.NotContains(t, flows(&p).Title, "kept")
	assert.Len(t, together([]place{{moles: 0.999}, {moles: 0.001}}, 1), 2, "one small part keeps its name")
	assert.Len(t, together([]place{{moles: 0.998}, {moles: 0.001}, {moles: 0.001}}, 1), 2)
	assert.Equal(t, "elsewhere", together([]place{{moles: 0.001}, {moles: 0.001}}, 1)[0].name, "small parts go together")
	var b route.Runner
	b.Run(&p) // not kept
	assert.NotEmpty(t, Flows(b.Book()).Why)
}

// TestTemperatureShowsWhatPrintSays: two brackets, at the cold and at the hot end, and
// the plan's own point on the line between.
func TestTemperatureShowsWhatPrintSays(t *testing.T) {
	p := plan(t, nil)
	pic := temperature(&p)
	require.Len(t, pic.Panels, 2)
	for _, panel := range pic.Panels {
		require.Len(t, panel.Series, 3, "the line and two brackets")
		assert.Equal(t, chart.Dashed, panel.Series[0].Dash, "judgement, not print")
		cold, hot := panel.Series[1].Points, panel.Series[2].Points
		assert.Less(t, cold[0].X, hot[0].X)
		assert.Greater(t, math.Abs(cold[1].Y-cold[0].Y), math.Abs(hot[1].Y-hot[0].Y), "print is wider in ice")
		require.Len(t, panel.Marks, 1)
		assert.Equal(t, 20.0, panel.Marks[0].X)
	}
	var b route.Runner
	s := b.Run(&p)
	assert.InDelta(t, s.Value(route.GasVolume), pic.Panels[0].Marks[0].Y, 1e-9, "the plan makes what it needs")
	p.GasUptake = 80
	pic = temperature(&p)
	assert.Greater(t, pic.Panels[0].Series[0].Points[0].Y, pic.Panels[0].Marks[0].Y, "in ice it is more, taken up alike")
	assert.Contains(t, pic.Note, "judgement")
	peroxide := plan(t, map[string]string{"gas.source": "peroxide"})
	assert.NotEmpty(t, temperature(&peroxide).Why)
}

// TestAgainstNamesTheFarthest: the title is of the quantity that came out farthest from its
// plan, of those that were found.
func TestAgainstNamesTheFarthest(t *testing.T) {
	list := []Weighed{
		{"crystals", "g", chart.Comparison{Planned: chart.Span{Low: 8, Median: 10, High: 13}, IsFound: true, Found: chart.Span{Low: 8, Median: 9, High: 10}}},
		{"salt", "g", chart.Comparison{Planned: chart.Span{Low: 20, Median: 30, High: 40}, IsFound: true, Found: chart.Span{Low: 44, Median: 45, High: 46}, HasAccount: true, Account: chart.Span{Low: 25, Median: 38, High: 41}}},
		{"residue", "g", chart.Comparison{Planned: chart.Span{Low: 1, Median: 2, High: 3}}},
	}
	pic := Against(list)
	assert.Equal(t, "salt: 150\u202f% of what was to expect, outside what is seen eight times in ten", pic.Title)
	assert.Equal(t, [][]string{
		{"crystals", "10\u202fg", "8 and 13", "9\u202fg", "–"},
		{"salt", "30\u202fg", "20 and 40", "45\u202fg", "25 and 41\u202fg"},
		{"residue", "2\u202fg", "1 and 3", "–", "–"},
	}, pic.Table.Rows)
	assert.Equal(t, "salt: to expect 30\u202fg, found 45\u202fg", pic.Compared[1].Says)
	drawn(t, pic)
	assert.Equal(t, "What the plan says that the balance will show", Against(list[2:]).Title)
	assert.Contains(t, Against(list[:1]).Title, "crystals: 90\u202f% of what was to expect, within")
	assert.NotEmpty(t, Against(nil).Why)
}
