package chart

import (
	"strconv"

	"rosesalt/chem/route"
)

// mostWashes is where looking for a clear wash ends.
const mostWashes = 50

// Chloride shows the chloride in each washing against the number of washes, with
// what silver nitrate still sees. The plan is run once for each number; an acid
// rinse, which comes after all of them, has a mark of its own.
func Chloride(p *route.Plan) Picture {
	pic := Picture{
		Name:   "chloride",
		X:      Axis{Name: "washes after the soak", Whole: true, Zero: "soak"},
		Panels: []Panel{{Y: Axis{Name: "chloride in the washing", Unit: "mg/L", Log: true}}},
		Table:  Table{Head: []string{"After", "Chloride, mg/L", "Silver nitrate"}},
	}
	var bench route.Bench
	run := func(plan *route.Plan) (float64, bool) {
		s := bench.Run(plan)
		return s.Value(route.WashLast), s.Reason(route.WashLast) == route.Defined
	}
	plan, planned := *p, int(p.WashTimes)
	plan.WashAcid = 0
	var points []Point
	clear, some := -1, false
	for n := 0; n <= mostWashes; n++ {
		plan.WashTimes = float64(n)
		v, ok := run(&plan)
		points = append(points, at(float64(n), v, ok))
		some = some || ok && v > 0
		if ok && clear < 0 && v <= route.SilverSees {
			clear = n
		}
		if clear >= 0 && n > max(planned, clear, 3) {
			break
		}
	}
	if !some {
		pic.Why = "There is no washing with chloride in it to show."
		return pic
	}
	if clear < 0 {
		points = points[:min(len(points), max(planned+2, 12)+1)]
	}
	panel := &pic.Panels[0]
	panel.Series = []Series{{Role: Ink, Dots: Round, Points: points}}
	panel.Limits = []Limit{{At: route.SilverSees, Text: "silver nitrate clouds above " + route.Print(route.SilverSees, "mg/L")}}
	if mine := points[planned]; mine.OK && mine.Y > 0 {
		panel.Marks = append(panel.Marks, Mark{
			X: mine.X, Y: mine.Y, Shape: Ring, Role: Rose,
			Text: "this plan: " + route.Print(mine.Y, "mg/L"),
		})
	}
	for _, q := range points {
		pic.Table.Rows = append(pic.Table.Rows, chlorideRow(after(int(q.X)), q))
	}
	rinsed := Point{}
	if p.WashAcid > 0 {
		v, ok := run(p)
		if rinsed = at(float64(planned)+1, v, ok && v > 0); rinsed.OK {
			panel.Marks = append(panel.Marks, Mark{X: rinsed.X, Y: rinsed.Y, Shape: Diamond, Role: Ochre, Text: "after the acid rinse: " + route.Print(v, "mg/L")})
			pic.Table.Rows = append(pic.Table.Rows, chlorideRow("the acid rinse and its wash", rinsed))
		}
	}
	pic.Title = chlorideTitle(clear, planned, rinsed)
	return pic
}

func chlorideTitle(clear, planned int, rinsed Point) string {
	switch {
	case rinsed.OK && rinsed.Y > route.SilverSees:
		return "After the acid rinse the wash still holds " + route.Print(rinsed.Y, "mg/L") + " of chloride: silver nitrate clouds"
	case clear < 0:
		return "Silver nitrate still clouds after " + strconv.Itoa(mostWashes) + " washes of this size"
	case clear == 0:
		return "Silver nitrate stays clear right after the soak"
	case planned < clear:
		return "Silver nitrate stays clear after wash " + strconv.Itoa(clear) + "; this plan stops at " + strconv.Itoa(planned)
	}
	return "Silver nitrate stays clear after wash " + strconv.Itoa(clear)
}

func chlorideRow(name string, q Point) []string {
	if !q.OK {
		return []string{name, "–", "nothing drains"}
	}
	if q.Y > route.SilverSees {
		return []string{name, route.Print(q.Y, ""), "clouds"}
	}
	return []string{name, route.Print(q.Y, ""), "stays clear"}
}

func after(n int) string {
	if n == 0 {
		return "the soak"
	}
	return "wash " + strconv.Itoa(n)
}
