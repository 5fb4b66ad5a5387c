package chart

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
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

func flowsOf(p *route.Plan) Picture {
	b := route.Bench{Keep: true}
	b.Run(p)
	return Flows(&b)
}

// swept sweeps the cells without an engine: a third to either side stands for the
// interval.
func swept(p *route.Plan) Picture {
	var b route.Bench
	plan := *p
	var tries []Try
	for n := 1.0; n <= 12; n++ {
		plan.Rows[0].Count = n
		s := b.Run(&plan)
		v := s.Value(route.ProductMass)
		tries = append(tries, Try{X: n, Best: v, Low: v * 2 / 3, High: v * 4 / 3, OK: s.Reason(route.ProductMass) == route.Defined, Sure: true, Limit: s.Word(route.GasLimit)})
	}
	return Swept(ByCells(p.Rows[0].Count, tries, false))
}

func all(p route.Plan) map[string]Picture {
	return map[string]Picture{
		"chloride": Chloride(&p), "acid": Acid(&p), "solubility": Solubility(&p), "flow": flowsOf(&p), "cells": swept(&p), "temperature": Temperature(&p),
	}
}

func texts(list []tick) []string {
	var all []string
	for _, t := range list {
		all = append(all, t.text)
	}
	return all
}

func TestTicksAreRound(t *testing.T) {
	for name, c := range map[string]struct {
		axis      Axis
		low, high float64
		want      []string
	}{
		"from zero":  {Axis{}, 3, 86, []string{"0", "20", "40", "60", "80", "100"}},
		"fractions":  {Axis{}, 0, 0.37, []string{"0", "0.1", "0.2", "0.3", "0.4"}},
		"free":       {Axis{Free: true}, 74.9, 96, []string{"70", "75", "80", "85", "90", "95", "100"}},
		"whole":      {Axis{Whole: true}, 0, 2, []string{"0", "1", "2"}},
		"below zero": {Axis{}, -3, 4, []string{"−4", "−2", "0", "2", "4"}},
		"thousands":  {Axis{}, 0, 43000, []string{"0", "10\u202f000", "20\u202f000", "30\u202f000", "40\u202f000", "50\u202f000"}},
		"named zero": {Axis{Zero: "soak", Whole: true}, 0, 3, []string{"soak", "1", "2", "3"}},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, c.want, texts(newScale(c.axis, c.low, c.high, 6, true).ticks()))
		})
	}
}

func TestLogTicksAreDecades(t *testing.T) {
	log := Axis{Log: true}
	assert.Equal(t, []string{"1", "10", "100", "1000", "10\u202f000"}, texts(newScale(log, 0.9, 12000, 5, true).ticks()))
	assert.Equal(t, []string{"1", "10"}, texts(newScale(log, 2, 4, 5, true).ticks()), "two decades at least")
	assert.Equal(t, []string{"1", "10"}, texts(newScale(log, 3, 3, 5, true).ticks()))
	many := newScale(log, 1e-20, 1e4, 5, true).ticks()
	assert.LessOrEqual(t, len(many), 6)
	assert.Contains(t, texts(many), "10⁻²⁰")
	for _, k := range many {
		power := math.Log10(k.at)
		assert.InDelta(t, math.Round(power), power, 1e-9)
	}
}

func TestTicksOfAnyRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Axis{Log: rapid.Bool().Draw(t, "log"), Whole: rapid.Bool().Draw(t, "whole"), Free: rapid.Bool().Draw(t, "free")}
		low := rapid.Float64().Draw(t, "low")
		high := rapid.Float64().Draw(t, "high")
		n := rapid.IntRange(1, 10).Draw(t, "n")
		s := newScale(a, low, high, n, rapid.Bool().Draw(t, "rounded"))
		list := s.ticks()
		if !a.Whole && len(list) > n+2 {
			t.Fatalf("%d ticks where %d were asked for: %v", len(list), n, list)
		}
		for i, k := range list {
			place, ok := s.place(k.at)
			if !ok || !(place > -0.01 && place < 1.01) {
				t.Fatalf("tick %v lies at %v", k, place)
			}
			if i > 0 && !(k.at > list[i-1].at) {
				t.Fatalf("ticks do not rise: %v", list)
			}
		}
		for _, v := range []float64{low, high} {
			place, ok := s.place(v)
			if ok && math.IsNaN(place) {
				t.Fatalf("%v has no place", v)
			}
		}
	})
}

// numbersIn gives the numbers in path data; they must be finite.
func numbersIn(t require.TestingT, d string) (list []float64) {
	for _, word := range strings.FieldsFunc(d, func(r rune) bool { return r == ' ' || r == ',' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' }) {
		v, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err, "in %q", d)
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "in %q", d)
		list = append(list, v)
	}
	require.NotContains(t, d, "NaN")
	require.NotContains(t, d, "Inf")
	return list
}

// sound checks a picture's drawings: finite numbers, and nothing beyond the edges.
func faultless(t require.TestingT, p *Picture) {
	for _, wide := range []bool{true, false} {
		d := draw(p, wide)
		require.Less(t, d.height, 3000.0)
		for _, n := range d.paths {
			require.NotEmpty(t, n.d)
			numbersIn(t, n.d)
		}
		for _, n := range d.texts {
			require.True(t, drawable(n.x) && drawable(n.y), "%q", n.text)
			require.GreaterOrEqual(t, n.x, -0.01, n.text)
			require.LessOrEqual(t, n.x, d.width+0.01, n.text)
			require.LessOrEqual(t, n.y, d.height, n.text)
			require.NotContains(t, n.text, "NaN")
		}
	}
}

func TestDegenerateDataIsDrawn(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for name, points := range map[string][]Point{
		"nothing":      nil,
		"one":          {at(3, 4, true)},
		"one at zero":  {at(0, 0, true)},
		"all equal":    {at(1, 5, true), at(2, 5, true), at(3, 5, true)},
		"one place":    {at(1, 5, true), at(1, 5, true)},
		"all gaps":     {at(1, 0, false), at(2, nan, true)},
		"not numbers":  {at(nan, 1, true), at(1, inf, true), at(2, 3, true)},
		"gaps between": {at(1, 1, true), at(2, 0, false), at(3, 3, true), at(4, 4, true), at(5, nan, true)},
		"huge":         {at(1, 1e14, true), at(2, -1e14, true), at(3, 1e300, true)},
		"tiny":         {at(1, 1e-300, true), at(2, 2e-300, true)},
	} {
		for _, axis := range []Axis{{}, {Log: true}, {Free: true}, {Whole: true}} {
			t.Run(name, func(t *testing.T) {
				p := Picture{X: Axis{Name: "x"}, Panels: []Panel{{
					Y:      axis,
					Series: []Series{{Label: "line", Dots: Round, Interval: "between", Points: points}},
					Limits: []Limit{{At: 2, Text: "here"}, {At: 2, Upright: true, Text: "there"}},
					Marks:  []Mark{{X: 2, Y: 3, Shape: Ring, Text: "mark"}},
				}}}
				faultless(t, &p)
				wellFormed(t, File(p))
			})
		}
	}
}

func TestGapsBreakTheLine(t *testing.T) {
	p := Picture{Panels: []Panel{{Series: []Series{{Points: []Point{
		at(0, 1, true), at(1, 2, true), at(2, math.NaN(), true), at(3, 2, true), at(4, 1, true), at(5, 0, false), at(6, 3, true),
	}}}}}}
	for _, n := range draw(&p, true).paths {
		if strings.HasPrefix(n.part, "line") {
			assert.Equal(t, 3, strings.Count(n.d, "M"), "one path, three pieces: %s", n.d)
			assert.Contains(t, n.d, "h0", "a lone point is a dot")
		}
	}
}

func TestOnePathPerLine(t *testing.T) {
	for name, pic := range all(plan(t, nil)) {
		d := draw(&pic, true)
		assert.Less(t, len(d.paths)+len(d.texts), 70, name)
	}
}

func TestPicturesOfAllPlans(t *testing.T) {
	for name, set := range plans {
		t.Run(name, func(t *testing.T) {
			for kind, pic := range all(plan(t, set)) {
				if pic.Why != "" {
					continue
				}
				assert.NotEmpty(t, pic.Title, kind)
				assert.NotEmpty(t, pic.Table.Rows, kind)
				faultless(t, &pic)
				wellFormed(t, File(pic))
				assert.Contains(t, File(pic), "<title>"+escape(pic.Title)+"</title>", kind)
			}
		})
	}
}

// Two pictures of one plan are equal, so that nothing is drawn again.
func TestPicturesCompare(t *testing.T) {
	for name, set := range plans {
		a, b := all(plan(t, set)), all(plan(t, set))
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
		for _, pic := range all(p) {
			if pic.Why == "" {
				faultless(t, &pic)
				wellFormed(t, File(pic))
			}
		}
	})
}

func TestChlorideTitles(t *testing.T) {
	for name, c := range map[string]struct {
		set  map[string]string
		want string
	}{
		"demo":   {nil, "Silver nitrate stays clear after wash 8; this plan stops at 4"},
		"enough": {map[string]string{"wash.times": "9"}, "Silver nitrate stays clear after wash 8"},
		"never":  {map[string]string{"wash.each": "20"}, "Silver nitrate still clouds after 50 washes of this size"},
		"acid":   {map[string]string{"wash.acid": "100"}, "After the acid rinse the wash still holds "},
	} {
		t.Run(name, func(t *testing.T) {
			p := plan(t, c.set)
			assert.True(t, strings.HasPrefix(Chloride(&p).Title, c.want), Chloride(&p).Title)
		})
	}
}

// The series is what the core says: each point is the figure of the plan with so
// many washes.
func TestChlorideIsTheCores(t *testing.T) {
	p := plan(t, nil)
	pic := Chloride(&p)
	points := pic.Panels[0].Series[0].Points
	require.Len(t, pic.Table.Rows, len(points))
	var b route.Bench
	for i, q := range points {
		at := p
		at.WashTimes = q.X
		s := b.Run(&at)
		assert.Equal(t, s.Value(route.WashLast), q.Y)
		assert.Equal(t, route.Print(q.Y, ""), pic.Table.Rows[i][1])
	}
	enough := int(b.Run(&p).Value(route.WashEnough))
	assert.Greater(t, points[enough-1].Y, float64(route.SilverSees))
	assert.LessOrEqual(t, points[enough].Y, float64(route.SilverSees))
	assert.Equal(t, Mark{X: 4, Y: points[4].Y, Shape: Ring, Role: Rose, Text: "this plan: " + route.Print(points[4].Y, "mg/L")}, pic.Panels[0].Marks[0])
}

func TestAcidTitles(t *testing.T) {
	p := plan(t, map[string]string{"gas.acid": "40"})
	assert.Regexp(t, `^Acid has weakened to 75.% when [0-9.]+.g of copper have dissolved$`, Acid(&p).Title)
	p = plan(t, map[string]string{"gas.acid": "40", "gas.copper": "9"})
	assert.Regexp(t, `^Acid is still [0-9]+.% strong when all 9.g of copper have dissolved$`, Acid(&p).Title)
	p = plan(t, map[string]string{"gas.acid": "40", "gas.copper": "500"})
	assert.Regexp(t, `^Acid has weakened to 75.% when [0-9.]+.g of copper have dissolved; [0-9]+.g stay$`, Acid(&p).Title)
	p = plan(t, map[string]string{"gas.source": "metabisulfite"})
	assert.Equal(t, "No copper goes into this way of making the gas.", Acid(&p).Why)
}

func TestAcidRunsFromBoughtToFaded(t *testing.T) {
	p := plan(t, map[string]string{"gas.acid": "40"})
	pic := Acid(&p)
	strength, gas := pic.Panels[0].Series[0].Points, pic.Panels[1].Series[0].Points
	last := len(strength) - 1
	assert.Equal(t, 96.0, strength[0].Y)
	assert.InDelta(t, 75, strength[last].Y, 1e-6)
	var b route.Bench
	s := b.Run(&p)
	assert.InDelta(t, s.Value(route.GasVolume), gas[last].Y, 1e-6)
	assert.InDelta(t, s.Value(route.GasCopperUsed), gas[last].X, 1e-6)
	for i := 1; i <= last; i++ {
		assert.Less(t, strength[i].Y, strength[i-1].Y)
		assert.Greater(t, gas[i].Y, gas[i-1].Y)
		assert.Equal(t, route.Print(strength[i].Y, ""), pic.Table.Rows[i][1])
		assert.Equal(t, route.Print(gas[i].Y, ""), pic.Table.Rows[i][2])
	}
}

func TestSolubilityIsTheTables(t *testing.T) {
	p := plan(t, nil)
	pic := Solubility(&p)
	assert.Regexp(t, `^Cooled from 80 to 10.°C, the acid liquor lets go of 70.% of the copper sulfate it could hold$`, pic.Title)
	for i, r := range table.ManganeseSulfateSolubility.Rows() {
		assert.Equal(t, r.Y, pic.Panels[0].Series[0].Points[i].Y)
		assert.Equal(t, route.Print(r.Y, ""), pic.Table.Rows[i][1])
	}
	require.Len(t, pic.Panels[0].Marks, 2)
	assert.Equal(t, 80.0, pic.Panels[0].Marks[0].X)
	var b route.Bench
	factor := b.Run(&p).Value(route.CopperFactorUsed) / 100
	assert.InDelta(t, 16.82*factor, pic.Panels[0].Marks[1].Y, 1e-9)
	p = plan(t, map[string]string{"gas.source": "metabisulfite", "dry.way": "crystals"})
	pic = Solubility(&p)
	require.Len(t, pic.Panels[0].Marks, 1)
	assert.Equal(t, float64(p.CropCold), pic.Panels[0].Marks[0].X)
	p = plan(t, map[string]string{"gas.source": "metabisulfite"})
	assert.Empty(t, Solubility(&p).Panels[0].Marks)
}

func TestSweepTitles(t *testing.T) {
	tries := []Try{{X: 5, Best: 35, OK: true, Limit: "neither"}, {X: 6, Best: 42, OK: true, Limit: "neither"}, {X: 10, Best: 71, OK: true, Limit: "neither"}, {X: 20, OK: false}}
	s := ByCells(6, tries, false)
	assert.Equal(t, "6 cells give 42\u202fg; 10 would give 71\u202fg", Swept(s).Title)
	s.Tries = append(s.Tries[:2:2], Try{X: 10, Best: 50, OK: true, Limit: "acid"})
	pic := Swept(s)
	assert.Equal(t, "From 10 cells on the acid runs out first; 10 cells would give 50\u202fg", pic.Title)
	require.Len(t, pic.Panels[0].Limits, 1)
	assert.Equal(t, Limit{At: 10, Upright: true, Text: "from 10 on the acid runs out first"}, pic.Panels[0].Limits[0])
	s = ByCells(1, []Try{{X: 1, Best: 7, OK: true}}, false)
	assert.Equal(t, "1 cell gives 7\u202fg", Swept(s).Title)
	s = Sweep{
		Input: Axis{Name: "gas that the slurry takes up", Unit: "%"}, Figure: Axis{Name: "product", Unit: "g"}, Own: 80,
		Tries: []Try{{X: 70, Best: 40, OK: true}, {X: 90, Best: 46, OK: true}},
	}
	assert.Equal(t, "Gas that the slurry takes up: 80\u202f% gives 43\u202fg; 90\u202f% would give 46\u202fg", Swept(s).Title)
	s.Input, s.Own, s.Tries = Axis{Name: "further washes", Unit: "×", Whole: true}, 4, []Try{{X: 4, Best: 40, OK: true}, {X: 0, Best: 38, OK: true}}
	assert.Equal(t, "Further washes: 4 gives 40\u202fg; 0 would give 38\u202fg", Swept(s).Title)
	s.Tries[1].Best = 40
	assert.Equal(t, "Further washes: anything here gives 40\u202fg", Swept(s).Title)
	s = ByCells(6, tries, false)
	s.Turns = []Turn{{At: 8, To: "copper"}}
	assert.Equal(t, "From 8 cells on the copper runs out first; 10 cells would give 71\u202fg", Swept(s).Title)
	s = ByCells(math.NaN(), tries[:1], false)
	assert.Equal(t, "5 cells would give 35\u202fg", Swept(s).Title)
	waiting := Swept(ByCells(6, nil, true))
	assert.Equal(t, "Manganese sulfate in the jar against cells in the bag", waiting.Title)
	assert.True(t, waiting.Waiting)
}

func TestSweepTableIsTheSeries(t *testing.T) {
	tries := []Try{{X: 1, Best: 7, Low: 4, High: 9, OK: true, Sure: true, Limit: "copper"}, {X: 2, OK: false}, {X: 3, Best: 20, OK: true, Limit: "acid"}}
	assert.Equal(t, Table{
		Head: []string{"Cells in the bag", "Manganese sulfate in the jar, g", "Eight times in ten between", "What runs out first"},
		Rows: [][]string{{"1", "7", "4 and 9", "copper"}, {"2", "–", "–", ""}, {"3", "20", "–", "acid"}},
	}, Swept(ByCells(1, tries, false)).Table)
}

// A picture that waits is as high as the one it waits for.
func TestWaitingKeepsTheHeight(t *testing.T) {
	p := plan(t, nil)
	full, wait := swept(&p), Swept(ByCells(6, nil, true))
	for _, wide := range []bool{true, false} {
		assert.Equal(t, draw(&full, wide).height, draw(&wait, wide).height)
	}
}

// While the next is worked out, the last drawing stays, pale.
func TestWaitingKeepsTheDrawing(t *testing.T) {
	p := plan(t, nil)
	full := swept(&p)
	f := &Figure{Picture: full}
	require.Contains(t, app.HTMLString(f.Render()), "Save as SVG")
	f.Picture = Swept(ByCells(12, nil, true))
	assert.Len(t, draw(f.drawn(), true).paths, len(draw(&full, true).paths))
	assert.Contains(t, app.HTMLString(f.Render()), "working…")
	assert.NotContains(t, app.HTMLString(f.Render()), "Save as SVG")
	f.Picture = Swept(Sweep{Name: "cells", Input: Axis{Name: "another"}, Waiting: true})
	assert.Len(t, draw(f.drawn(), true).texts, 1, "another input has no last drawing")
	f = &Figure{Picture: Swept(ByCells(12, nil, true))}
	assert.Contains(t, app.HTMLString(f.Render()), "working…")
}

func TestFlowsSumToWhatWasBrought(t *testing.T) {
	for name, set := range plans {
		t.Run(name, func(t *testing.T) {
			p := plan(t, set)
			b := route.Bench{Keep: true}
			b.Run(&p)
			for _, f := range Flows(&b).Flows {
				e := map[string]reaction.Element{"Manganese": reaction.Mn, "Sulfur": reaction.S, "Copper": reaction.Cu}[f.Element]
				brought, _ := b.Book().Balance(e)
				out, shown := 0.0, 0.0
				for _, band := range f.Out {
					out += band.Moles
				}
				for _, band := range f.shown() {
					shown += band.Moles
				}
				assert.InEpsilon(t, float64(brought), f.Total(), 1e-9, f.Element)
				assert.InEpsilon(t, f.Total(), out, 1e-9, f.Element)
				assert.InEpsilon(t, f.Total(), shown, 1e-9, f.Element)
			}
		})
	}
}

// The ribbons that leave a trunk are as wide together as the trunk.
func TestRibbonsAreMoles(t *testing.T) {
	p := plan(t, nil)
	pic := flowsOf(&p)
	d := draw(&pic, true)
	scale := 0.0
	for _, f := range pic.Flows {
		scale = math.Max(scale, f.Total())
	}
	i := 0
	for _, f := range pic.Flows {
		for _, band := range f.shown() {
			n := numbersIn(t, strings.Replace(d.paths[i].d, "v", " v", 1))
			wide := n[8] // M x y C six v
			assert.InDelta(t, band.Moles/scale*widestBand, wide, 0.051, "%s %s", f.Element, band.Name)
			i++
		}
		i++ // the trunk
		if len(f.In) > 1 {
			i++ // its cut
		}
	}
}

func TestFlowTitle(t *testing.T) {
	p := plan(t, nil)
	assert.Equal(t, "Of 816\u202fmmol of manganese, 182\u202fmmol reach the jar and 612\u202fmmol are kept for later runs", flowsOf(&p).Title)
	p = plan(t, map[string]string{"batch.share": "100"})
	assert.NotContains(t, flowsOf(&p).Title, "kept")
	var b route.Bench
	b.Run(&p) // not kept
	assert.NotEmpty(t, Flows(&b).Why)
}

// wellFormed reads a file as XML and checks that every number in it is finite.
func wellFormed(t require.TestingT, text string) {
	r := xml.NewDecoder(strings.NewReader(text))
	depth := 0
	for {
		token, err := r.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			depth++
			require.Equal(t, svgNS, e.Name.Space)
			seen := map[string]bool{}
			for _, a := range e.Attr {
				require.False(t, seen[a.Name.Local], "%s twice", a.Name.Local)
				seen[a.Name.Local] = true
				switch a.Name.Local {
				case "d", "x", "y", "viewBox", "stroke-width", "font-size", "stroke-dasharray":
					numbersIn(t, a.Value)
				case "href", "style", "class":
					require.Fail(t, "a file needs nothing else", a.Name.Local)
				}
			}
		case xml.EndElement:
			depth--
		}
	}
	require.Zero(t, depth)
}

func TestTextIsEscaped(t *testing.T) {
	evil := `<script>"&'</script>`
	p := Picture{
		Name: "x", Title: evil, Note: evil, X: Axis{Name: evil},
		Panels: []Panel{{Y: Axis{Name: evil}, Series: []Series{{Label: evil, Points: []Point{at(1, 1, true), at(2, 2, true)}}}}},
		Table:  Table{Head: []string{evil}, Rows: [][]string{{evil}}},
	}
	file := File(p)
	wellFormed(t, file)
	assert.NotContains(t, file, "<script")
	// What stands in attributes is set as a value; only the library's own writing
	// for tests leaves it bare.
	assert.NotContains(t, app.HTMLString((&Figure{Picture: p, open: true}).Render()), "><script")
}

// Elements of SVG must not get a class, and nothing a style: the library sets the
// one by a property that SVG lacks, and the page's policy forbids the other.
func TestFigureKeepsToThePolicy(t *testing.T) {
	for name, pic := range all(plan(t, nil)) {
		html := app.HTMLString((&Figure{Picture: pic, open: true}).Render())
		assert.NotContains(t, html, "style=", name)
		for _, piece := range strings.Split(html, "<svg")[1:] {
			inside, _, _ := strings.Cut(piece, "</svg>")
			assert.NotContains(t, inside, "class=", name)
		}
		assert.Equal(t, 2, strings.Count(html, "<svg"), name)
		for _, row := range pic.Table.Rows {
			assert.Contains(t, html, row[len(row)-1], name)
		}
	}
}

// TestTemperatureShowsWhatPrintSays: two brackets, at the cold and at the hot end, and
// the plan's own point on the line between.
func TestTemperatureShowsWhatPrintSays(t *testing.T) {
	p := plan(t, nil)
	pic := Temperature(&p)
	require.Len(t, pic.Panels, 2)
	for _, panel := range pic.Panels {
		require.Len(t, panel.Series, 3, "the line and two brackets")
		assert.Equal(t, Dashed, panel.Series[0].Dash, "judgement, not print")
		cold, hot := panel.Series[1].Points, panel.Series[2].Points
		assert.Less(t, cold[0].X, hot[0].X)
		assert.Greater(t, math.Abs(cold[1].Y-cold[0].Y), math.Abs(hot[1].Y-hot[0].Y), "print is wider in ice")
		require.Len(t, panel.Marks, 1)
		assert.Equal(t, 20.0, panel.Marks[0].X)
	}
	var b route.Bench
	s := b.Run(&p)
	assert.InDelta(t, s.Value(route.GasVolume), pic.Panels[0].Marks[0].Y, 1e-9, "the plan makes what it needs")
	assert.Greater(t, pic.Panels[0].Series[0].Points[0].Y, pic.Panels[0].Marks[0].Y, "in ice it is more")
	assert.Contains(t, pic.Note, "judgement")
	peroxide := plan(t, map[string]string{"gas.source": "peroxide"})
	assert.NotEmpty(t, Temperature(&peroxide).Why)
}
