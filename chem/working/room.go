package working

import (
	"rosesalt/chem/room"
	"rosesalt/chem/route"
)

// room: what a well-mixed room would breathe of the gas, and the published limit.
func (w *Workings) room() {
	if w.sheet.Reason(route.RoomPeak) != route.Defined {
		return
	}
	limit := &room.Limits()[w.plan.RoomLimit]
	source := limit.Source
	if limit.Memory {
		source += ", from memory"
	}
	w.known("limit", "limit of "+limit.Name, "ppm", float64(limit.PPM), &Source{"Limit of " + limit.Name, withUnit(digits(float64(limit.PPM)), "ppm"), source})
	w.known("mean.over", "time over which the limit is a mean", "h", float64(limit.Averaged), nil)
	if w.terms["perfect"] == nil {
		w.define("perfect | L/mol | volume of a mole of perfect gas at the bench | gasConstant*(air.temperature + 273.15[K])/air.pressure")
	}
	of := "" // all of it gets out
	if route.Scrubbed(&w.plan) {
		of = "room.escape/100[%]*"
	}
	w.define(`
		hours | h | time that the gas is passed | gas.minutes/60[min/h]
		escapes | m³/h | gas not taken up, a stream | vent.gas/1000[mmol/mol]*perfect/1000[L/m³]/hours
		rises | ppm/h | rise in still air if all of it got out | escapes/room.volume*1000000[ppm]
		= room.escape.most | min(100[%], 100[%]*limit/worst)
		= room.peak | ` + of + `rises*stays
		= room.mean | ` + of + `worst
		= room.flow | ` + of + `escapes/limit*1000000[ppm]
	`)
	w.airs("stays", "time that counts, what the air carries off taken off", "hours")
	w.define(`
		from | h | when the worst time begins | hours | if room.changes*hours <= 0.000001
		from | h | when the worst time begins | hours - mean.over + ln(1 - exp(0 - room.changes*hours) + exp(room.changes*(mean.over - hours)))/room.changes | if room.changes*hours > 0.000001 | if hours >= mean.over
		from | h | when the worst time begins | ln(1 + (exp(room.changes*hours) - 1)*exp(0 - room.changes*mean.over))/room.changes | if room.changes*hours > 0.000001 | if hours < mean.over
	`)
	w.airs("stays.from", "the same until then", "from")
	w.airs("stays.after", "the same after the gas has ended", "(from + mean.over - hours)")
	w.dose("dose.from", "time squared until then", "from", "stays.from")
	w.dose("dose.hours", "time squared until the gas ends", "hours", "stays")
	w.def("worst", "worst mean if all of it got out", "ppm", "rises*(dose.hours + stays*stays.after - dose.from)/mean.over")
}

// airs defines how long gas counts that comes for a time while the air is changed.
func (w *Workings) airs(symbol, name, time string) {
	w.define(`
		$symbol | h | $name | $time*1 | if room.changes*$time < 0.000000001
		$symbol | h | $name | (1 - exp(0 - room.changes*$time))/room.changes | if room.changes*$time >= 0.000000001
	`, "$symbol", symbol, "$name", name, "$time", time)
}

// dose defines the sum of that over a time.
func (w *Workings) dose(symbol, name, time, stays string) {
	w.define(`
		$symbol | h·h | $name | $time*$time/2 | if room.changes*$time <= 0.000001
		$symbol | h·h | $name | ($time - $stays)/room.changes | if room.changes*$time > 0.000001
	`, "$symbol", symbol, "$name", name, "$time", time, "$stays", stays)
}
