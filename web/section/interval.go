package section

import (
	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/doc"
)

// Interval is what was learned of a figure, with its interval.
func Interval(key, name, unit string, i account.Interval) doc.Figure {
	factor, in := route.Scale(i.Median, unit)
	r := spread.Round(i.Median*factor, i.Low*factor, i.High*factor)
	return doc.Figure{
		Key: key, Name: name, Value: full(i.Median), Number: route.Fixed(r.Best, r.Decimals), Unit: in,
		Low: full(i.Low), High: full(i.High), Range: route.Fixed(r.Low, r.Decimals) + "–" + route.Fixed(r.High, r.Decimals),
	}
}

// Reads is an interval in words, such as "30.0 g (28.0–33.0)".
func Reads(i account.Interval, unit string) string {
	v := Interval("", "", unit, i)
	return v.Number + doc.Unit(v.Unit) + inRange(v.Range)
}

// inRange is a range behind the figure that lies in it.
func inRange(text string) string {
	if text == "" {
		return ""
	}
	return " (" + text + ")"
}

// learned is what was learned of inputs, a line each.
func learned(list []account.Learned) []doc.Node {
	var lines []doc.Node
	for _, l := range list {
		lines = append(lines, doc.Text(l.Input.Name+": "+Reads(l.Interval, l.Input.Unit)))
	}
	return lines
}
