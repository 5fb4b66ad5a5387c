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
		w.def("perfect", "volume of a mole of perfect gas at the bench", "L/mol", "gasConstant*(air.temperature + 273.15[K])/air.pressure")
	}
	w.define(`
		hours | h | time that the gas is passed | gas.minutes/60[min/h]
		escapes | m³/h | gas not taken up, a stream | vent.gas/1000[mmol/mol]*perfect/1000[L/m³]/hours
		rises | ppm/h | rise in still air if all of it got out | escapes/room.volume*1000000[ppm]
		= room.escape.most | min(100[%], 100[%]*limit/worst)
	`)
	of := "" // all of it gets out
	if route.Scrubbed(&w.plan) {
		of = "room.escape/100[%]*"
	}
	w.figure(route.RoomPeak, of+"rises*stays")
	w.figure(route.RoomMean, of+"worst")
	w.figure(route.RoomFlow, of+"escapes/limit*1000000[ppm]")
	w.airs("stays", "time that counts, what the air carries off taken off", "hours")
	const from = "when the worst time begins"
	switch {
	case w.calc("room.changes*hours") <= 1e-6:
		w.def("from", from, "h", "hours")
	case w.calc("hours - mean.over") >= 0:
		w.def("from", from, "h", "hours - mean.over + ln(1 - exp(0 - room.changes*hours) + exp(room.changes*(mean.over - hours)))/room.changes")
	default:
		w.def("from", from, "h", "ln(1 + (exp(room.changes*hours) - 1)*exp(0 - room.changes*mean.over))/room.changes")
	}
	w.airs("stays.from", "the same until then", "from")
	w.airs("stays.after", "the same after the gas has ended", "(from + mean.over - hours)")
	w.dose("dose.from", "time squared until then", "from", "stays.from")
	w.dose("dose.hours", "time squared until the gas ends", "hours", "stays")
	w.def("worst", "worst mean if all of it got out", "ppm", "rises*(dose.hours + stays*stays.after - dose.from)/mean.over")
}

// airs defines how long gas counts that comes for a time while the air is changed.
func (w *Workings) airs(symbol, name, time string) {
	if w.calc("room.changes*"+time) < 1e-9 {
		w.def(symbol, name, "h", time+"*1")
		return
	}
	w.def(symbol, name, "h", "(1 - exp(0 - room.changes*"+time+"))/room.changes")
}

// dose defines the sum of that over a time.
func (w *Workings) dose(symbol, name, time, stays string) {
	if w.calc("room.changes*"+time) <= 1e-6 {
		w.def(symbol, name, "h·h", time+"*"+time+"/2")
		return
	}
	w.def(symbol, name, "h·h", "("+time+" - "+stays+")/room.changes")
}
