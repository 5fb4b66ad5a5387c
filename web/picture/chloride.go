package picture

import (
	"strconv"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// Chloride shows the chloride in each washing of a plan against the number of washes, with
// what silver nitrate still sees. The acid rinse, which comes after all of them, has a mark of
// its own.
func Chloride(washing route.Washing) chart.Picture {
	pic := chart.Picture{
		Name:  "chloride",
		X:     chart.Axis{Name: "washes after the soak", Whole: true, Zero: "soak"},
		Table: chart.Table{Head: []string{"After", "Chloride, mg/L", "Silver nitrate"}},
	}
	row := func(name string, q chart.Point) {
		cells := []string{name, "–", "nothing drains"}
		if q.OK {
			cells[1], cells[2] = route.Print(q.Y, ""), "stays clear"
			if q.Y > route.SilverLimit {
				cells[2] = "clouds"
			}
		}
		pic.Table.Rows = append(pic.Table.Rows, cells)
	}
	planned := washing.Own
	line, some := chart.Series{Role: chart.Ink, Dots: chart.Round}, false
	for n, v := range washing.After {
		q := chart.At(float64(n), v)
		line.Points = append(line.Points, q)
		some = some || q.Y > 0
		name := "wash " + strconv.Itoa(n)
		if n == 0 {
			name = "the soak"
		}
		row(name, q)
	}
	panel := chart.Panel{
		Y: chart.Axis{Name: "chloride in the washing", Unit: "mg/L", Log: true}, Series: []chart.Series{line},
		Limits: []chart.Limit{{At: route.SilverLimit, Text: "silver nitrate clouds above " + route.Print(route.SilverLimit, "mg/L")}},
	}
	if mine := line.Points[planned]; mine.Y > 0 {
		panel.Marks = append(panel.Marks, thisPlan(mine.X, mine.Y, "mg/L", chart.Rose))
	}
	if washing.Rinsed > 0 {
		q := chart.At(float64(planned+washing.Behind), washing.Rinsed)
		panel.Marks = append(panel.Marks, chart.Mark{X: q.X, Y: q.Y, Shape: chart.Diamond, Role: chart.Ochre, Text: "after the acid rinse: " + route.Print(q.Y, "mg/L")})
		name := "the acid rinse and its wash"
		if washing.Behind > 1 {
			name = "the acid rinse and its " + strconv.Itoa(washing.Behind) + " washes"
		}
		row(name, q)
	}
	if !some {
		pic.Why = "There is no washing with chloride in it to show."
		return pic
	}
	pic.Panels = []chart.Panel{panel}
	pic.Title = chlorideTitle(washing, planned)
	return pic
}

func chlorideTitle(w route.Washing, planned int) string {
	clear := strconv.Itoa(w.Clear)
	switch {
	case w.Rinsed > route.SilverLimit:
		return "After the acid rinse the wash still holds " + route.Print(w.Rinsed, "mg/L") + " of chloride: silver nitrate clouds"
	case w.Behind > 1:
		return "Silver nitrate stays clear after " + route.Count(float64(w.Own), "wash", "washes") + ", the acid rinse and " + strconv.Itoa(w.Behind) + " more"
	case w.Clear < 0:
		return "Silver nitrate still clouds after " + strconv.Itoa(route.MostWashes) + " washes of this size"
	case w.Clear == 0:
		return "Silver nitrate stays clear right after the soak"
	case planned < w.Clear:
		return "Silver nitrate stays clear after wash " + clear + "; this plan stops at " + strconv.Itoa(planned)
	}
	return "Silver nitrate stays clear after wash " + clear
}
