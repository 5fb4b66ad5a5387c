package procedure

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// How long things take, in minutes: all common practice, to be set by who knows better.
const (
	openStart, openEach   = 15, 5 // set out, and each cell
	soakTime              = 60    // electrolyte comes out slowly
	soakBegin             = 15    // to break up the lumps and stir; longer soaking does no harm
	washEach              = 45    // stir 10, settle 30, pour off 5
	setUp                 = 30    // to build and test the line
	flaskAnew             = 30    // to rinse the flask of the last batch, and dry it; or to empty it of what still holds gas
	coolSlurry            = 30    // in its bath
	heatUp                = 20    // until the acid gives gas
	lastPaper             = 20    // the test with the paper, and with peroxide
	standStirred          = route.PinchApart
	ironTime              = 75     // to warm it, and the cake and the soda their time
	filterTime, rinseEach = 30, 15 // gravity through a folded paper
	coolFlask             = 480    // overnight, shut to nothing
	dryTime               = 120    // two weighings an hour apart
	dissolveTime          = 40     // the residue in portions, hot filtration
	growTime              = 720    // crystals, overnight in the cold
	growHot               = 90     // and where the salt is the less soluble the hotter it is: an hour at the heat, and to drain it hot
	drainTime             = 60     // crystals on paper
	clearUp               = 60     // neutralise, label, wash hands
	flameRoom             = 120    // light the flame only if so much remains
	stirTime              = 60     // salt or peroxide, in portions
	warmTime              = 300    // of a slurry that is kept warm: published leaches of spent cells with oxalic acid take hours
)

// before are the steps until the batches part.
func (m *maker) before() {
	m.add(Step{Key: "ready", Stage: route.Cells, Eve: true, Watch: Attended, Minutes: 45})
	m.add(Step{Key: "dilute", Stage: route.Slurry, Eve: true, Watch: Attended, Minutes: 20})
	m.add(Step{Key: "open", Stage: route.Cells, Parts: true, Watch: Attended, Minutes: quantity.Minute(openStart + openEach*m.v(route.CellsOpened))})
	m.add(Step{Key: "soak", Stage: route.Wash, Watch: Unattended, Minutes: soakTime, Begin: soakBegin, MostlyWaiting: true})
	m.add(Step{Key: "wash", Stage: route.Wash, Parts: true, Watch: Unattended, Repeats: m.v(route.WashTimesUsed), Minutes: quantity.Minute(washEach * m.v(route.WashTimesUsed)), MostlyWaiting: true})
	m.add(Step{Key: "acid", Stage: route.Wash, Watch: Attended, Repeats: 2, Minutes: 2 * washEach})
	m.add(Step{Key: "clear", Stage: route.Wash, Parts: true, Watch: Unattended, Repeats: m.behind(), Minutes: quantity.Minute(washEach * m.behind()), MostlyWaiting: true})
	m.add(Step{Key: "divide", Stage: route.Batch, Watch: Attended, Minutes: 15})
}

// work are the steps of one batch.
func (m *maker) work() {
	gas := Step{Key: "gas", Stage: route.Gas, Watch: NeverLeave, Minutes: m.gasMinutes(), Enough: m.enough(), Onward: true}
	if route.HotAcid(m.p) {
		gas.Minutes, gas.Room = gas.Minutes+heatUp, flameRoom
	}
	line := Step{Key: "line", Stage: route.Gas, Watch: Attended, Minutes: setUp}
	if m.batch > 1 {
		line.Minutes += flaskAnew
	}
	stir := Step{Key: "stir", Stage: route.Slurry, Watch: NeverLeave, Minutes: stirTime, Onward: true}
	if route.WorksWarm(m.p) {
		stir.Watch, stir.Minutes = Attended, warmTime
	}
	m.add(Step{Key: "slurry", Stage: route.Slurry, Watch: Attended, Minutes: coolSlurry})
	m.add(line)
	m.add(Step{Key: "charge", Stage: route.Gas, Watch: Attended, Minutes: 10, Onward: true})
	m.add(gas)
	m.add(stir)
	m.add(Step{Key: "end", Stage: route.Slurry, Watch: Attended, Minutes: lastPaper + standStirred})
	m.add(Step{Key: "rest", Stage: route.Slurry, Watch: Attended, Minutes: quantity.Minute(60 * m.p.SlurryRest)})
	m.add(Step{Key: "cool", Stage: route.Gas, Beside: true, Watch: Overnight, Minutes: coolFlask, MostlyWaiting: true})
	m.add(Step{Key: "iron", Stage: route.Filter, Watch: Attended, Minutes: ironTime})
	m.add(Step{Key: "filter", Stage: route.Filter, Watch: Unattended, Minutes: quantity.Minute(filterTime + rinseEach*m.p.RinseTimes), MostlyWaiting: true})
	m.add(Step{Key: "dissolve", Stage: route.CopperSalt, Needs: idOf("cool", m.batch), Watch: Attended, Minutes: dissolveTime})
	m.add(Step{Key: "blue", Stage: route.CopperSalt, Beside: true, Watch: Overnight, Minutes: growTime, MostlyWaiting: true})
}

// after are the steps for all batches together. The blue crystals grow while the liquor is
// dried.
func (m *maker) after() {
	m.add(Step{Key: "evaporate", Stage: route.Dry, Parts: true, Watch: Attended, Minutes: quantity.Minute(m.v(route.DryHours) * 60), MostlyWaiting: true})
	m.add(Step{Key: "dry", Stage: route.Dry, Parts: true, Watch: Unattended, Minutes: dryTime, MostlyWaiting: true})
	grow := Step{Key: "grow", Stage: route.Dry, Watch: Overnight, Minutes: growTime, MostlyWaiting: true}
	if route.GrownHot(m.p) {
		grow.Watch, grow.Minutes = Attended, growHot
	}
	m.add(grow)
	m.add(Step{Key: "drain", Stage: route.CopperSalt, Needs: idOf("blue", int(m.runs)), Watch: Unattended, Minutes: drainTime, MostlyWaiting: true})
	m.add(Step{Key: "waste", Stage: route.Waste, Watch: Attended, Minutes: clearUp})
}

// gasMinutes are the minutes in which a batch's gas is passed: the same stream as if all
// came at once.
func (m *maker) gasMinutes() quantity.Minute {
	return quantity.Minute(m.share(float64(m.p.GasMinutes)))
}

// enough are the first of these minutes by whose end a batch has had all the gas that it takes;
// 0 where it takes all.
func (m *maker) enough() quantity.Minute {
	if m.has(route.MetMinute) && m.v(route.MetMinute) < float64(m.p.GasMinutes) {
		return quantity.Minute(m.share(m.v(route.MetMinute)))
	}
	return 0
}
