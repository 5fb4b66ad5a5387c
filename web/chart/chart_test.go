package chart

import (
	"go/build"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/web/chart/charttest"
)

// TestPicturesRunNoModel: what is drawn is given; nothing of the program is imported.
func TestPicturesRunNoModel(t *testing.T) {
	here, err := build.ImportDir(".", 0)
	require.NoError(t, err)
	require.Contains(t, here.Imports, "strings")
	for _, path := range here.Imports {
		assert.False(t, strings.HasPrefix(path, "rosesalt/"), path)
	}
}

// oneLine is a picture of one line.
func oneLine(x, y Axis, points ...Point) Picture {
	return Picture{Name: "line", Title: "A line", X: x, Panels: []Panel{{Y: y, Series: []Series{{Points: points}}}}}
}

func rendered(p Picture) string { return app.HTMLString((&Figure{Picture: p, open: true}).Render()) }

// faultless checks both layouts of a picture, and its file.
func faultless(t require.TestingT, p Picture) {
	charttest.Drawings(t, rendered(p))
	charttest.File(t, File(p))
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
		"millions":   {Axis{}, 0, 4.3e7, []string{"0", "1·10⁷", "2·10⁷", "3·10⁷", "4·10⁷", "5·10⁷"}},
		"tiny":       {Axis{}, 0, 4.3e-7, []string{"0", "1·10⁻⁷", "2·10⁻⁷", "3·10⁻⁷", "4·10⁻⁷", "5·10⁻⁷"}},
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

func TestDegenerateDataIsDrawn(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for name, points := range map[string][]Point{
		"nothing":      nil,
		"one":          {At(3, 4)},
		"one at zero":  {At(0, 0)},
		"all equal":    {At(1, 5), At(2, 5), At(3, 5)},
		"one place":    {At(1, 5), At(1, 5)},
		"all gaps":     {Point{X: 1}, At(2, nan)},
		"not numbers":  {At(nan, 1), At(1, inf), At(2, 3)},
		"gaps between": {At(1, 1), Point{X: 2}, At(3, 3), At(4, 4), At(5, nan)},
		"huge":         {At(1, 1e14), At(2, -1e14), At(3, 1e300)},
		"tiny":         {At(1, 1e-300), At(2, 2e-300)},
	} {
		for _, axis := range []Axis{{}, {Log: true}, {Free: true}, {Whole: true}} {
			t.Run(name, func(t *testing.T) {
				p := Picture{X: Axis{Name: "x"}, Panels: []Panel{{
					Y:      axis,
					Series: []Series{{Label: "line", Dots: Round, Interval: "between", Points: points}},
					Limits: []Limit{{At: 2, Text: "here"}, {At: 2, Upright: true, Text: "there"}},
					Marks:  []Mark{{X: 2, Y: 3, Shape: Ring, Text: "mark"}},
				}}}
				faultless(t, p)
			})
		}
	}
}

func TestGapsBreakTheLine(t *testing.T) {
	p := Picture{Panels: []Panel{{Series: []Series{{Points: []Point{
		At(0, 1), At(1, 2), At(2, math.NaN()), At(3, 2), At(4, 1), {X: 5}, At(6, 3),
	}}}}}}
	for _, n := range draw(&p, true).paths {
		if strings.HasPrefix(n.part, "line") {
			assert.Equal(t, 3, strings.Count(n.d, "M"), "one path, three pieces: %s", n.d)
			assert.Contains(t, n.d, "h0", "a lone point is a dot")
		}
	}
}

// TestAnyDataIsDrawn: lines with gaps, intervals, limits and marks of any values.
func TestAnyDataIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := math.Pow10(rapid.IntRange(-3, 6).Draw(t, "size"))
		number := rapid.OneOf(rapid.Map(rapid.IntRange(-999, 999), func(n int) float64 { return float64(n) * size }), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -1e300}))
		words := rapid.SampledFrom([]string{"", "mark", "from 12 cells on the acid runs out first, and the copper stays"})
		p := Picture{X: Axis{Name: "x", Whole: rapid.Bool().Draw(t, "whole"), Free: rapid.Bool().Draw(t, "free")}}
		for range rapid.IntRange(1, 2).Draw(t, "panels") {
			panel := Panel{Y: Axis{Name: "y", Log: rapid.Bool().Draw(t, "log"), Free: rapid.Bool().Draw(t, "free")}}
			for range rapid.IntRange(0, 2).Draw(t, "lines") {
				s := Series{Dots: Round, Label: words.Draw(t, "label"), Interval: words.Draw(t, "interval")}
				for range rapid.IntRange(0, 5).Draw(t, "points") {
					q := At(number.Draw(t, "x"), number.Draw(t, "y"))
					if q.OK && rapid.Bool().Draw(t, "sure") {
						q.Low, q.High = number.Draw(t, "low"), number.Draw(t, "high")
					}
					s.Points = append(s.Points, q)
				}
				panel.Series = append(panel.Series, s)
			}
			panel.Limits = []Limit{{At: number.Draw(t, "limit"), Upright: rapid.Bool().Draw(t, "upright"), Text: words.Draw(t, "limit")}}
			panel.Marks = []Mark{{X: number.Draw(t, "x"), Y: number.Draw(t, "y"), Shape: Ring, Text: words.Draw(t, "mark")}}
			p.Panels = append(p.Panels, panel)
		}
		faultless(t, p)
	})
}

// TestBandGoesUpAndComesBack: along the upper ends, and back along the lower ones.
func TestBandGoesUpAndComesBack(t *testing.T) {
	a, b := At(0, 5), At(10, 5)
	a.Low, a.High, b.Low, b.High = 0, 10, 4, 6
	p := oneLine(Axis{}, Axis{}, a, b)
	p.Panels[0].Series[0].Interval = "between"
	d := draw(&p, true)
	require.Equal(t, "band ", d.paths[2].part)
	n := charttest.Numbers(t, d.paths[2].d)
	require.Len(t, n, 8)
	assert.Equal(t, []float64{n[0], n[2]}, []float64{n[6], n[4]}, "the places")
	high := n[7] - n[1]
	assert.InDelta(t, 0.4*high, n[3]-n[1], 0.1)
	assert.InDelta(t, 0.6*high, n[5]-n[1], 0.1)
}

// TestTicksFindRoom: numbers stay within the drawing, and none runs into the next.
func TestTicksFindRoom(t *testing.T) {
	d := newDrawing(false)
	d.ticks(nil, []tick{{0, "first"}, {20, "second"}, {150, "third"}, {300, "fourth"}}, 10, 4)
	require.Len(t, d.texts, 3)
	assert.Equal(t, "third", d.texts[1].text)
	assert.Equal(t, length("first", d.em)/2, d.texts[0].x)
	assert.Equal(t, 300-length("fourth", d.em)/2, d.texts[2].x)
}

// A picture that waits is as high as the one it waits for.
func TestWaitingKeepsTheHeight(t *testing.T) {
	full, wait := oneLine(Axis{}, Axis{}, At(1, 7), At(2, 14)), oneLine(Axis{}, Axis{})
	for _, wide := range []bool{true, false} {
		assert.Equal(t, draw(&full, wide).height, draw(&wait, wide).height)
	}
}

// While the next is worked out, the last drawing stays, pale.
func TestWaitingKeepsTheDrawing(t *testing.T) {
	cells := Axis{Name: "cells"}
	full, wait := oneLine(cells, Axis{}, At(1, 7), At(2, 14)), oneLine(cells, Axis{})
	wait.Waiting = true
	f := &Figure{Picture: full}
	require.Contains(t, app.HTMLString(f.Render()), "Save as SVG")
	f.Picture = wait
	assert.Len(t, draw(f.drawn(), true).paths, len(draw(&full, true).paths))
	assert.Contains(t, app.HTMLString(f.Render()), "working…")
	assert.NotContains(t, app.HTMLString(f.Render()), "Save as SVG")
	f.Picture.X.Name = "another"
	assert.Len(t, draw(f.drawn(), true).texts, 1, "another input has no last drawing")
	f = &Figure{Picture: wait}
	assert.Contains(t, app.HTMLString(f.Render()), "working…")
}

// The ribbons that leave a trunk are as wide together as the trunk.
func TestRibbonsAreMoles(t *testing.T) {
	flow := Flow{Head: "Manganese", In: []float64{0.7, 0.1}, Out: []Band{{Text: "in the jar", Moles: 0.2}, {Text: "kept", Moles: 0.5}, {Text: "lost", Moles: 0.1, Lost: true}}}
	small := Flow{Head: "Copper", In: []float64{0.004}, Out: []Band{{Text: "left", Moles: 0.004}}}
	p := Picture{Flows: []Flow{flow, small}}
	faultless(t, p)
	d := draw(&p, true)
	require.Len(t, d.paths, 3+2+1+1)
	for i, band := range slices.Concat(flow.Out, []Band{{Moles: flow.Total()}}) {
		n := charttest.Numbers(t, strings.Replace(d.paths[i].d, "v", " v", 1))
		wide := n[len(n)-2] - n[1] // of the trunk: M x y H x V y
		if i < len(flow.Out) {
			wide = n[8] // M x y C six v
		}
		assert.InDelta(t, band.Moles/flow.Total()*widestFlow, wide, 0.051, band.Text)
	}
	assert.Equal(t, 100*0.004/0.8*widestFlow, charttest.Numbers(t, strings.Replace(d.paths[5].d, "v", " v", 1))[8])
	assert.Equal(t, "Copper (drawn 100 times as wide)", d.texts[len(d.texts)-2].text)
}

// TestComparisonsStandOnOneScale: the plan's middles stand one below the other, and a slip
// of the decimal point presses nothing to a line.
func TestComparisonsStandOnOneScale(t *testing.T) {
	p := Picture{Compared: []Comparison{
		{Says: "crystals", Planned: Span{8, 10, 13}, IsFound: true, Found: Span{7, 7.5, 8}},
		{Says: "salt", Planned: Span{20, 30, 40}, HasAccount: true, Account: Span{25, 300, 900}},
	}}
	faultless(t, p)
	var at []float64
	d := draw(&p, true)
	for _, n := range d.paths {
		if n.part == "limit" {
			at = append(at, charttest.Numbers(t, n.d)[0])
		}
	}
	require.Len(t, at, 2)
	assert.Equal(t, at[0], at[1])
	assert.InDelta(t, 4+(d.width-12)/widestComparison, at[0], 0.051)
	assert.Contains(t, rendered(p), ">350</text>")
}

func TestTextIsEscaped(t *testing.T) {
	evil := `<script>"&'</script>`
	p := Picture{
		Name: "x", Title: evil, Note: evil, X: Axis{Name: evil},
		Panels: []Panel{{Y: Axis{Name: evil}, Series: []Series{{Label: evil, Points: []Point{At(1, 1), At(2, 2)}}}}},
		Table:  Table{Head: []string{evil}, Rows: [][]string{{evil}}},
	}
	file := File(p)
	charttest.File(t, file)
	assert.NotContains(t, file, "<script")
	// What stands in attributes is set as a value; only the library's own writing
	// for tests leaves it bare.
	assert.NotContains(t, rendered(p), "><script")
}

// Elements of SVG must not get a class, and nothing a style: the library sets the one by a
// property that SVG lacks, and the page's policy forbids the other.
func TestFigureKeepsToThePolicy(t *testing.T) {
	p := oneLine(Axis{}, Axis{}, At(1, 7), At(2, 14))
	p.Table = Table{Head: []string{"x", "y"}, Rows: [][]string{{"1", "seven"}, {"2", "fourteen"}}}
	p.Panels[0].Marks = []Mark{{X: 1, Y: 7, Shape: Ring, Role: Rose, Text: "here"}}
	html := rendered(p)
	assert.NotContains(t, html, "style=")
	for _, piece := range strings.Split(html, "<svg")[1:] {
		inside, _, _ := strings.Cut(piece, "</svg>")
		assert.NotContains(t, inside, "class=")
	}
	assert.Equal(t, 2, strings.Count(html, "<svg"))
	assert.Contains(t, html, "seven")
	assert.Contains(t, html, "fourteen")
}

// TestValueAtTurnsTheDrawingRound: a place on the drawing gives the value that was drawn
// there.
func TestValueAtTurnsTheDrawingRound(t *testing.T) {
	pic := oneLine(Axis{Free: true}, Axis{}, Point{X: 10}, At(12, 3), Point{X: 30})
	for _, wide := range []bool{true, false} {
		d := newDrawing(wide)
		x, _, left, right := d.layout(&pic, wide)
		for _, v := range []float64{12, 20, 29} {
			share, ok := x.place(v)
			assert.True(t, ok)
			at := (left + share*(right-left)) / d.width
			assert.InDelta(t, v, pic.ValueAt(at, wide), 1e-9)
		}
		assert.Equal(t, 10.0, pic.ValueAt(0, wide), "gaps at the ends are in reach")
		assert.Equal(t, 30.0, pic.ValueAt(1, wide))
	}
}
