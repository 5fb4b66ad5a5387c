package picture

import (
	"strconv"

	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/web/chart"
)

// mostBubbles is how many bubbles are drawn one by one; more would be a smear.
const mostBubbles = 300

// Stretch is the part of a recording to be drawn: how loud it is in columns of equal
// width, and the mark.
type Stretch struct {
	From, Until, Mark sound.Second
	Loud              []sound.Decibel
}

// doubtful is how sure of a bubble the counter must be for it not to be drawn as in doubt.
const doubtful = 0.6

// Loudness shows how loud a stretch of a recording is, with the bubbles in it.
func Loudness(r *sound.Result, s Stretch) chart.Picture {
	unit, per := "s", 1.0
	if s.Until-s.From > 180 {
		unit, per = "min", 60
	}
	x := func(t sound.Second) float64 { return float64(t) / per }
	pic := chart.Picture{
		Name: "loudness", X: chart.Axis{Name: "from the beginning", Unit: unit, Free: true},
		Panels: []chart.Panel{{Y: chart.Axis{Name: "loudness", Unit: "dB", Free: true}}},
		Table:  chart.Table{Head: []string{"At, s", "Pitch, Hz", "Volume, mL", "How found"}},
	}
	panel := &pic.Panels[0]
	least, most := 0.0, -1e9
	// Gaps at both ends: the picture spans all of the stretch, the mark at an end too.
	line := chart.Series{Role: chart.Zinc, Points: []chart.Point{{X: x(s.From)}}}
	for i, l := range s.Loud {
		at := s.From + (s.Until-s.From)*sound.Second(float64(i)+0.5)/sound.Second(len(s.Loud))
		least, most = min(least, float64(l)), max(most, float64(l))
		line.Points = append(line.Points, chart.At(x(at), float64(l)))
	}
	line.Points = append(line.Points, chart.Point{X: x(s.Until)})
	panel.Series = append(panel.Series, line)
	kinds := [...]chart.Series{
		{Role: chart.Ochre, Dots: chart.Round}, {Role: chart.Ochre, Dots: chart.Square}, {Role: chart.Blue, Dots: chart.Diamond},
	}
	words := [...]string{"heard", "heard, in doubt", "added by hand"}
	n := 0
	for _, b := range r.Bubbles {
		if b.At < s.From || b.At > s.Until {
			continue
		}
		n++
		kind, y := 0, float64(b.Loudness)
		switch {
		case b.ByHand:
			kind, y = 2, most
		case b.Sure < doubtful:
			kind = 1
		}
		y = max(least, min(0, y))
		// A gap between any two: no line joins bubbles.
		kinds[kind].Points = append(kinds[kind].Points, chart.At(x(b.At), y), chart.Point{X: x(b.At)})
		pic.Table.Rows = append(pic.Table.Rows, bubbleRow(b, words[kind]))
	}
	pic.Title = "No bubbles in this stretch"
	if n > 0 {
		pic.Title = route.Count(float64(n), "bubble") + " in this stretch"
	}
	if n > mostBubbles {
		pic.Note = "Zoom in to see each bubble."
		pic.Table.Rows = pic.Table.Rows[:0]
	} else {
		panel.Series = append(panel.Series, kinds[:]...)
		pic.Note = "Round: heard. Square: heard, in doubt. Diamond: added by hand."
	}
	for _, span := range r.Spans {
		if span.Why != "" && span.Until > s.From && span.From < s.Until {
			from, until := max(span.From, s.From), min(span.Until, s.Until)
			panel.Series = append(panel.Series, chart.Series{
				Label: "not trusted", Role: chart.Ink, Dash: chart.Dotted,
				Points: []chart.Point{chart.At(x(from), most), chart.At(x(until), most)},
			})
		}
	}
	panel.Limits = []chart.Limit{{At: x(s.Mark), Upright: true, Text: "mark"}}
	return pic
}

func bubbleRow(b sound.Bubble, found string) []string {
	row := []string{chart.Fixed(float64(b.At), 2), "–", "–", found}
	if b.Pitch > 0 {
		row[1] = route.Print(float64(b.Pitch), "")
	}
	if b.Volume > 0 {
		row[2] = route.Print(float64(b.Volume), "")
	}
	return row
}

// A pace is the mean of a window: shorter ones would show each bubble on its own (estimates).
const (
	leastWindow sound.Second = 5
	windows     sound.Second = 40 // in a recording
)

// GasHeard shows how fast the bubbles came in a recording, and the gas so far, with the
// demand in mmol, or quantity.Blank.
func GasHeard(r *sound.Result, need float64) chart.Picture {
	pic := chart.Picture{
		Name: "gas-heard", Title: "Bubbles over time, and the gas so far",
		X: chart.Axis{Name: "from the beginning", Unit: "min"},
		Panels: []chart.Panel{
			{Y: chart.Axis{Name: "bubbles", Unit: "a second"}},
			{Y: chart.Axis{Name: "gas so far", Unit: "mmol"}},
		},
		Table: chart.Table{Head: []string{"At, min", "Bubbles a second", "Bubbles so far", "Gas so far, mmol", "from", "to"}},
	}
	gas := chart.Series{Role: chart.Ochre, Interval: "eight in ten"}
	for _, p := range r.Over {
		q := chart.At(float64(p.At)/60, p.Gas.Best)
		q.Low, q.High = p.Gas.Low, p.Gas.High
		gas.Points = append(gas.Points, q)
	}
	rate := chart.Series{Role: chart.Ink}
	var before sound.Point
	for i, p := range r.Over {
		if p.At-before.At < max(leastWindow, r.Length/windows) && (i < len(r.Over)-1 || len(rate.Points) > 0) {
			continue
		}
		pace := (p.Bubbles - before.Bubbles) / float64(p.At-before.At)
		rate.Points = append(rate.Points, chart.At(float64(before.At+p.At)/120, pace))
		pic.Table.Rows = append(pic.Table.Rows, []string{
			chart.Fixed(float64(p.At)/60, 1), chart.Fixed(pace, 1), strconv.FormatFloat(p.Bubbles, 'f', 0, 64),
			route.Print(p.Gas.Best, ""), route.Print(p.Gas.Low, ""), route.Print(p.Gas.High, ""),
		})
		before = p
	}
	pic.Panels[0].Series, pic.Panels[1].Series = []chart.Series{rate}, []chart.Series{gas}
	if need <= 3*r.Gas.High {
		pic.Panels[1].Limits = []chart.Limit{{At: need, Text: "demand met, " + route.Print(need, "mmol")}}
	}
	if len(r.Over) == 0 {
		pic.Why = "Nothing was heard to show over time."
	}
	return pic
}
