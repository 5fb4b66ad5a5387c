package procedure

import (
	"embed"
	"fmt"
	"math"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

//go:embed text/*/*.txt
var files embed.FS

var (
	texts  = phrase.Open(&files, "steps", "title", "take", "do", "see", "misled", "end", "measure", "stop", "pause")
	shared = phrase.Open(&files, "shared", "text")
	ready  = phrase.Open(&files, "evening", "do", "item")
)

// tell gives a step what the block of its key says; not ok where the plan has no such step.
func (m *maker) tell(st *Step) (ok bool) {
	told, ok := texts.Find(st.Key, m.t)
	for _, l := range told.Lines {
		switch l.Name {
		case "title":
			st.Title = l.Text
		case "take":
			if a := m.t.At(l.About); a.Something() {
				st.Take = append(st.Take, Amount{l.Text, a.Number, a.Unit})
			}
		case "do":
			st.Do = append(st.Do, l.Text)
		case "see":
			st.See = l.Text
		case "misled":
			st.Misled = l.Text
		case "end":
			st.End = l.Text
		case "measure":
			st.Measure = append(st.Measure, m.blank(l))
		case "stop":
			st.Stop = l.Text
		case "pause":
			st.Pause = Pause{standOf(st), l.Text}
		}
	}
	return ok
}

// blank is what is to be written down of a place, or of a unit behind "in". The field of what
// each batch takes is of all of them together: it stands in the last one.
func (m *maker) blank(l phrase.Line) Entry {
	about, field, _ := strings.Cut(l.About, " as ")
	name := l.Text
	if whole, ok := strings.CutSuffix(about, " per batch"); ok && m.several() {
		if float64(m.batch) < m.runs {
			name, field = name+"; the last batch asks for the sum", ""
		} else {
			name, about = name+", in all batches", whole
		}
	}
	if field == "log.rate" {
		field = m.logged()
	}
	if unit, ok := strings.CutPrefix(about, "in "); ok {
		return Entry{name, unit, quantity.Blank, field}
	}
	a := m.t.At(about)
	return Entry{name, a.Unit, a.Number, field}
}

// logged is the key of the bubbles at the middle of a batch in the log of the gas, which has a
// row every five minutes, of all batches together. Package gaslog rests on this one.
func (m *maker) logged() string {
	middle := (float64(max(1, m.batch)) - 0.5) * float64(m.p.GasMinutes) / m.runs
	return fmt.Sprintf("log.%d.rate", 5*int(max(1, math.Round(middle/5))))
}

// countable is how many bubbles in a minute an eye can count (estimate).
const countable = 150

// TooFastToCount tells whether the bubbles of a plan are too many to be counted by eye.
func TooFastToCount(s *route.Sheet) bool {
	return s.Reason(route.GasBubbles) == route.Defined && s.Value(route.GasBubbles)*60 > countable
}

// behind is how often the mix is washed behind the acid rinse and its wash.
func (m *maker) behind() float64 { return math.Max(0, m.v(route.WashAfterUsed)-1) }

// places are those of the texts of steps.
func (m *maker) places(t *route.Teller, name string) (route.PlaceValue, bool) {
	if strings.Contains(name, ".") { // the key of a figure or an input
		return route.PlaceValue{}, false
	}
	number := func(v float64, unit string) (route.PlaceValue, bool) {
		return route.PlaceValue{Number: v, Unit: unit}, true
	}
	once := func(times float64) (route.PlaceValue, bool) { // for a condition
		if times == 1 {
			return route.Words("once"), true
		}
		return route.Words(""), true
	}
	words := func(s string) (route.PlaceValue, bool) { return route.Words(s), true }
	if step, ok := strings.CutPrefix(name, "vessel "); ok { // that the step fills
		if v := m.vessel(step); v != nil {
			return words(v.SizeText())
		}
		return words("any size")
	}
	dish := m.vessel("evaporate")
	bubbles := m.v(route.GasBubbles) * 60
	switch name {
	case "batch before":
		return number(float64(m.batch-1), "")
	case "washes":
		return number(m.v(route.WashTimesUsed), "")
	case "one wash":
		return once(m.v(route.WashTimesUsed))
	case "one wash behind":
		return once(m.behind())
	case "washes behind": // the one that goes with the acid rinse
		return number(m.behind(), "")
	case "washes after": // the acid rinse, with that one
		return number(m.v(route.WashAfterUsed), "")
	case "rinses":
		return number(m.p.RinseTimes, "")
	case "dilute acid": // how much is made, from strong acid
		return number(math.Max(0, m.v(route.SlurryAcidStrong))+m.v(route.WashAcidPoured), "mL")
	case "acid for the rinse":
		return number(route.StrongAcid(m.p, m.s).Rinse, "mL")
	case "water for the acid of the rinse":
		return number(route.StrongAcid(m.p, m.s).RinseWater, "mL")
	case "cake for the iron": // damp, of one batch
		return number(m.v(route.BatchDamp)*m.p.IronKept.Fraction()/m.runs, "g")
	case "dish": // where one is needed
		if dish != nil {
			return words(dish.SizeText())
		}
		return words("")
	case "portion of the dish": // where it does not take all at once
		if dish != nil {
			return number(dish.Portion, "mL")
		}
		return words("")
	case "depth for the air":
		return number(airDeep, "mm")
	case "trays for the air": // their surface: a millilitre a centimetre deep covers a square centimetre
		return number(m.v(route.DryWater)/airDeep*10, "cm²")
	case "days for the air":
		return number(airDeep/airDaily, "days")
	case "bubbles": // in a minute; blank where none come
		if bubbles > 0 {
			return number(math.Round(bubbles), "")
		}
		return words("")
	case "bubbles filmed": // in ten seconds, where they are too many for an eye
		if TooFastToCount(m.s) {
			return number(math.Round(bubbles/6), "")
		}
		return words("")
	case "minute of enough": // where the gas is enough before its end
		if enough := m.enough(); enough > 0 {
			return number(math.Round(float64(enough)), "min")
		}
		return words("")
	case "time of the flame": // and of what must follow it, where that is more than is asked for
		if long := m.minutes("gas", m.gasMinutes()+heatUp) + m.minutes("end", lastPaper+standStirred); long > flameRoom {
			return words(Hours(long))
		}
		return words("")
	}
	if said, ok := t.From(shared, name); ok {
		return said, true
	}
	return safety.Place(t, name)
}
