package club

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/stock"
)

// Work is a plan and all that decides when it is done, and by whom.
type Work struct {
	Case  spread.Case
	Times procedure.Durations
	Hands procedure.Hands
	Days  procedure.Days
	Club  Club
	Start time.Time // where the days have none
	Fixed bool      // the plan may not be changed: a run is under way

	// Behind tells of a step that it is done already; nil where none is.
	Behind func(steps []procedure.Step, i int) bool
}

// Offer is a change, or several at one touch, by which the work fits its sessions, or needs
// fewer of them.
type Offer struct {
	Text  string // what is done
	Cost  string // what it costs
	Gives string // what the timetable is then
	Fits  bool   // nothing is too long any more
	Takes int    // sessions that the work is then laid out in; 0 where something is too long for one
	Set   []field.Change
}

// laid is how a work lies on its days.
type laid struct {
	Work
	plan     route.Plan // as it is computed
	sheet    route.Sheet
	plain    []procedure.Step // all of the plan, as if all were done in sessions
	steps    []procedure.Step // that are left
	tasks    map[string]bool  // by their keys: for adults only
	slots    []procedure.Slot
	err      error
	sessions int
	salt     float64         // g
	staff    quantity.Minute // of an adult's, between sessions, for all groups
}

// lay lays a work out.
func (w *Work) lay() *laid {
	l := laid{Work: *w, plan: w.Case.Planned(), tasks: map[string]bool{}}
	var runner route.Runner
	l.sheet = *runner.Run(&l.plan)
	l.plain = procedure.Steps(&l.plan, &l.sheet, l.Times)
	once := slices.DeleteFunc(slices.Clone(l.plain), func(st procedure.Step) bool { return st.Batch > 1 })
	for i, task := range Tasks(&l.plan, runner.Book(), once) {
		l.tasks[once[i].Key] = task.Adult
	}
	l.salt = l.sheet.Value(route.ProductMass)
	l.layHanded()
	return &l
}

// layHanded lays the steps out as they are given to hands.
func (l *laid) layHanded() {
	steps := procedure.WithHands(&l.plan, &l.sheet, slices.Clone(l.plain), l.Hands, l.Times)
	l.steps = nil
	for i := range steps {
		if l.Behind == nil || !l.Behind(steps, i) {
			l.steps = append(l.steps, steps[i])
		}
	}
	_, l.slots, l.err = l.Days.Lay(l.steps, l.Start)
	l.sessions = 0
	for i := range l.slots {
		l.sessions = max(l.sessions, l.slots[i].Session)
	}
	l.staff = StaffTime(l.Club, l.steps)
}

// given is the work laid out after changes that leave the plan alone.
func (l *laid) given(set []field.Change) *laid {
	next := *l
	next.Work, _ = l.with(set)
	next.layHanded()
	return &next
}

// after is the work laid out after changes of any kind; not ok where one is not taken.
func (l *laid) after(set []field.Change) (then *laid, ok bool) {
	work, ok := l.with(set)
	for _, change := range set {
		if _, plan := route.InputByKey(change.Key); plan && ok {
			return work.lay(), true
		}
	}
	return l.given(set), ok
}

// inTurn are the steps that groups do one after the other, since they share the gas line or an
// adult's hands.
var inTurn = []string{"line", "charge", "gas", "stir", "end"}

// StaffTime is how much of an adult's time the work of all groups asks for between sessions.
func StaffTime(c Club, steps []procedure.Step) (sum quantity.Minute) {
	for i := range steps {
		if st := &steps[i]; st.By.Away() && st.Watch != procedure.Overnight {
			times := 1.0
			if slices.Contains(inTurn, st.Key) {
				times = c.Turns()
			}
			sum += st.Minutes * quantity.Minute(times)
		}
	}
	return sum
}

// with is the work with fields changed; not ok where one does not take it.
func (w *Work) with(set []field.Change) (Work, bool) {
	next := *w
	next.Hands = procedure.Hands{}
	maps.Copy(next.Hands, w.Hands)
	forms := []field.Form{next.Days.Form(), next.Hands.Form(), next.Club.Form()}
	var plan []field.Change
	for _, change := range set {
		_, done := route.InputByKey(change.Key)
		if done {
			plan = append(plan, change)
		}
		for _, form := range forms {
			if f, ok := form.Find(change.Key); ok {
				done = form.Set(f, change.Text) == nil
			}
		}
		if !done {
			return next, false
		}
	}
	var ok bool
	next.Case, ok = w.Case.With(plan)
	return next, ok
}

// burst is the first thing that does not fit: steps, by their places, and how long they are;
// not ok where all fits, or nothing can be offered.
func (l *laid) burst() (from, through int, needs quantity.Minute, ok bool) {
	if long, is := errors.AsType[procedure.TooLong](l.err); is {
		return long.Step, long.Through, long.Needs, true
	}
	if waits, is := errors.AsType[procedure.TooLate](l.err); is {
		return waits.Step, waits.Step, l.steps[waits.Step].Minutes, true
	}
	return 0, 0, 0, false
}

// tooFew is by how much there are too few sessions; not ok where there are enough, or something
// is too long for one.
func (l *laid) tooFew() (few procedure.TooFew, ok bool) {
	return errors.AsType[procedure.TooFew](l.err)
}

// apart tells whether sessions lie so far apart that an adult finds time between them.
func (l *laid) apart() bool { return l.Days.Apart() > 1 }

// purity is how much of the salt is manganese sulfate, in percent.
func purity(s *route.Sheet) float64 {
	if s.Reason(route.ProductPurity) != route.Defined {
		return quantity.Blank
	}
	return s.Value(route.ProductPurity)
}

// Offers are what makes the work fit its sessions, each alone; where nothing is too long, what
// saves sessions that lie days apart, or an adult's time between them. What fits stands first.
func (w Work) Offers() []Offer {
	l := w.lay()
	if l.err != nil {
		_, _, _, burst := l.burst()
		if _, few := l.tooFew(); !burst && !few {
			return nil
		}
	} else if !l.apart() {
		return nil
	}
	var list []Offer
	if l.apart() {
		list = append(list, l.school()...)
	}
	for _, offer := range slices.Concat(l.byAdult(), l.dayAfter(), l.more(), l.longer(), l.otherWays(), l.smaller(), l.washing(), l.fewerWashes(), l.drying()) {
		then, ok := l.after(offer.Set)
		if !ok {
			continue
		}
		if offer.Gives, ok = l.better(then); !ok {
			offer.Gives, ok = l.spares(then)
		}
		if !ok {
			continue
		}
		offer.Fits = then.err == nil
		if few, short := then.tooFew(); short {
			offer.Takes = few.Needs
		} else if offer.Fits {
			offer.Takes = then.sessions
		}
		if unfit := stock.UnfitThen(&then.plan, &then.sheet, &l.plan, &l.sheet); unfit != "" {
			offer.Cost += " " + phrase.Capital(unfit) + "."
		}
		list = append(list, offer)
	}
	slices.SortStableFunc(list, func(a, b Offer) int {
		switch {
		case a.Fits == b.Fits:
			return 0
		case a.Fits:
			return -1
		}
		return 1
	})
	return list
}

// Least says that nothing offered brings the work into the sessions that there are to be at most, and
// in how many it comes to at the least; "" where something does, or they are not too few.
func (w Work) Least(offers []Offer) string {
	l, least := w.lay(), 0
	if _, few := l.tooFew(); !few {
		return ""
	}
	for i := range offers {
		switch o := &offers[i]; {
		case o.Fits && o.Takes <= w.Days.Most:
			return ""
		case o.Takes > 0 && (least == 0 || o.Takes < least):
			least = o.Takes
		}
	}
	return l.says("least", "most", route.Count(float64(w.Days.Most), l.unit()), "least", route.Count(float64(least), l.unit()))
}

// offer is the offer of a key, with its changes. Behind them stand the places of its text that are no
// keys of figures or inputs, each with what stands there.
func (l *laid) offer(key string, set []field.Change, places ...string) Offer {
	told := l.tell(key, places)
	return Offer{Text: told.One("do"), Cost: told.One("cost"), Set: set}
}

// says is a sentence about the work as it is laid out.
func (l *laid) says(key string, places ...string) string { return l.tell(key, places).One("says") }

func (l *laid) tell(key string, places []string) phrase.Told {
	return route.Tell(offers, key, &l.plan, &l.sheet, places...)
}

// better says how a work lies on its days after a change; not ok where that is no better. What
// is less too long by a fifth is better too.
func (l *laid) better(then *laid) (gives string, ok bool) {
	_, _, before, burst := l.burst()
	from, through, needs, still := then.burst()
	few, short := then.tooFew()
	was, scarce := l.tooFew()
	switch {
	case short && (burst || scarce && (few.Needs < was.Needs || few.Work <= was.Work*(1-worthIt))):
		saves := ""
		if scarce {
			saves = procedure.Hours(was.Work)
		}
		return l.says("few", "still", route.If(scarce && few.Needs == was.Needs), "sessions", route.Count(float64(few.Needs), l.unit()), "work", procedure.Hours(few.Work), "was", saves), true
	case scarce && then.err == nil:
		return then.gives(), true
	case then.err == nil && (burst || then.sessions < l.sessions):
		return then.gives(), true
	case !still || !burst:
		return "", false
	}
	name := "“" + then.steps[from].Title + "”"
	if through > from {
		name += " to “" + then.steps[through].Title + "”"
	}
	if needs < before*4/5 || then.steps[from].Key != l.steps[first(l)].Key {
		return l.says("next", "steps", name, "time", procedure.Hours(needs)), true
	}
	return "", false
}

// spares says how a work that fits lies on its days after a change that only saves an adult's
// time, and how much.
func (l *laid) spares(then *laid) (gives string, ok bool) {
	spared := l.staff - then.staff
	return l.says("spares", "fits", then.gives(), "time", procedure.Hours(spared)), l.err == nil && then.err == nil && then.sessions == l.sessions && spared >= worthSparing
}

// Less of an adult's time is no reason to change a plan, nor is a smaller part of all work where
// there are as many sessions too few as before (judgement).
const (
	worthSparing = quantity.Minute(30)
	worthIt      = 0.1
)

func first(l *laid) int {
	from, _, _, _ := l.burst()
	return from
}

// unit is what a session is called: where there is one each day, a day.
func (l *laid) unit() string {
	if l.apart() {
		return "session"
	}
	return "day"
}

// gives says how the work lies on its days.
func (l *laid) gives() string {
	end := time.Time{}
	for i := range l.slots {
		if l.slots[i].End.After(end) {
			end = l.slots[i].End
		}
	}
	return l.says("fits", "sessions", route.Count(float64(l.sessions), l.unit()), "end", end.Format("Monday 2 January"))
}

// named are steps as a person lists them.
func named(steps []procedure.Step) string {
	var names []string
	for i := range steps {
		if steps[i].Watch != procedure.Overnight {
			names = append(names, "“"+steps[i].Name+"”")
		}
	}
	return phrase.List(names, "and")
}

// give gives steps to a hand.
func give(steps []procedure.Step, hand procedure.Hand) (set []field.Change) {
	for i := range steps {
		change := field.Change{Key: procedure.HandPrefix + steps[i].Key, Text: hand.String()}
		if steps[i].By == procedure.InSession && steps[i].Watch != procedure.Overnight && !slices.Contains(set, change) {
			set = append(set, change)
		}
	}
	return set
}

// adultRange is that part of what does not fit that an adult should do: as much as is for adults anyway, and
// no more of their time than it takes.
func (l *laid) adultRange() (steps []procedure.Step, ok bool) {
	from, through, _, burst := l.burst()
	if !burst {
		return nil, false
	}
	best := quantity.Minute(0)
	for a := from; a <= through; a++ {
		for b := a; b <= through; b++ {
			then := l.given(give(l.steps[a:b+1], procedure.Staff))
			if f, _, _, still := then.burst(); still && f <= through {
				continue
			}
			cost := then.staff
			for i := from; i <= through; i++ {
				if (i < a || i > b) && l.tasks[l.steps[i].Key] {
					cost += 24 * 60
				}
			}
			if steps == nil || cost < best {
				steps, best, ok = l.steps[a:b+1], cost, true
			}
		}
	}
	return steps, ok
}

// byAdult gives what does not fit to an adult, and then with its main step shown.
func (l *laid) byAdult() []Offer {
	if !l.apart() {
		return nil
	}
	steps, ok := l.adultRange()
	if !ok {
		return nil
	}
	set := give(steps, procedure.Staff)
	time, groups := procedure.Hours(l.given(set).staff-l.staff), l.inTurns(steps)
	list := []Offer{l.offer("adult", set, "steps", named(steps), "time", time, "groups", groups)}
	if main := reduction(steps); main != nil {
		shown := field.Change{Key: procedure.HandPrefix + main.Key, Text: procedure.ShownFirst.String()}
		list = append(list, l.offer("shown", append(slices.Clone(set), shown), "step", main.Name, "time", time, "groups", groups))
	}
	return list
}

// inTurns is how many groups an adult's time is that of, one after the other; "" for all at once.
func (l *laid) inTurns(steps []procedure.Step) string {
	if l.Club.Turns() > 1 && slices.ContainsFunc(steps, func(st procedure.Step) bool { return slices.Contains(inTurn, st.Key) }) {
		return route.Print(l.Club.Batches(), "")
	}
	return ""
}

// reduction is the step that is worth showing: that in which the oxide is reduced.
func reduction(steps []procedure.Step) *procedure.Step {
	for i := range steps {
		if k := steps[i].Key; k == "gas" || k == "stir" {
			return &steps[i]
		}
	}
	return nil
}

// dayAfter lets people meet on the day after as well.
func (l *laid) dayAfter() []Offer {
	if l.Days.Every <= 2 || l.Days.Second > 0 || l.err == nil {
		return nil
	}
	return []Offer{l.offer("day after", []field.Change{{Key: procedure.SecondKey, Text: "1"}})}
}

// more takes as many sessions as the work needs.
func (l *laid) more() []Offer {
	few, ok := l.tooFew()
	if !ok {
		return nil
	}
	set := []field.Change{{Key: procedure.MostKey, Text: route.Plain(float64(few.Needs))}}
	return []Offer{l.offer("more", set, "sessions", route.Count(float64(few.Needs), l.unit()), "more", route.Print(float64(few.Needs-few.Most), ""))}
}

// longest is the longest session that is offered: more is no day for one person (judgement).
const longest quantity.Minute = 12 * 60

// longer makes the sessions as long as what does not fit, or so long that there are enough.
func (l *laid) longer() []Offer {
	_, _, needs, ok := l.burst()
	if _, few := l.tooFew(); few {
		for needs = 30 * quantity.Minute(math.Floor(l.Days.Long.Minutes()/30)+1); needs <= longest; needs += 30 {
			then := l.given([]field.Change{{Key: procedure.LongKey, Text: route.Plain(float64(needs))}})
			if ok = then.err == nil; ok {
				break
			}
		}
	}
	if !ok {
		return nil
	}
	set := []field.Change{{Key: procedure.LongKey, Text: route.Plain(float64(needs))}}
	return []Offer{l.offer("longer", set, "long", procedure.Hours(needs), "more", procedure.Hours(needs-quantity.Minute(l.Days.Long.Minutes())))}
}

// otherWays are the reductants with which less has to be done in one go.
func (l *laid) otherWays() (list []Offer) {
	if l.Fixed || l.err == nil {
		return nil
	}
	ways := l.Case.Ways()
	for i := range ways {
		way := &ways[i]
		if way.Problem != "" || way.Plan.GasSource == l.plan.GasSource {
			continue
		}
		is, was := route.PrintGiven(purity(&way.Sheet), "%"), ""
		if is != "" {
			was = phrase.Otherwise(route.PrintGiven(purity(&l.sheet), "%"), is)
		}
		water := phrase.Otherwise(route.Print(l.sheet.Value(route.DryWater), "mL"), route.Print(way.Sheet.Value(route.DryWater), "mL"))
		then := laid{plan: way.Plan, sheet: way.Sheet}
		list = append(list, then.offer("way", []field.Change{{Key: "gas.source", Text: way.Word}},
			"way", phrase.Lower(way.Name), "salt", l.inPlace(way.Sheet.Value(route.ProductMass)), "purity", is, "pure now", was,
			"charge", route.Print(way.Reductant.Amount, way.Reductant.Unit), "reductant", phrase.Lower(way.Reductant.Name), "water", water))
	}
	return list
}

// smaller works a part of the share; where gas is made and that alone does not fit, with the same
// stream for a part of the time too.
func (l *laid) smaller() (list []Offer) {
	if l.Fixed {
		return nil
	}
	var b route.Runner
	takenUp := func(s *route.Sheet) string { return route.Print(s.Value(route.UptakeShare), "%") }
	for _, sooner := range [...]bool{false, true} {
		if sooner && !route.Gaseous(&l.plan) {
			break
		}
		for _, share := range [...]float64{80, 60, 50, 40, 30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2} {
			part := share / float64(l.plan.BatchShare)
			if part >= 1 || part < leastPart {
				continue
			}
			set, minutes := []field.Change{{Key: route.ShareKey, Text: route.Plain(share)}}, ""
			if sooner {
				time := 5 * math.Ceil(float64(l.plan.GasMinutes)*part/5)
				set, minutes = append(set, field.Change{Key: "gas.minutes", Text: route.Plain(time)}), route.Print(time, "min")
			}
			_, set, ok := b.Resized(&l.plan, set)
			if !ok {
				continue
			}
			then, ok := l.after(set)
			few, short := then.tooFew()
			if was, scarce := l.tooFew(); !ok || then.salt == 0 || scarce && short && few.Needs >= was.Needs {
				continue // less salt in as many days
			}
			offer := l.offer("smaller", set, "share", route.Print(share, "%"), "salt", l.inPlace(then.salt),
				"minutes", minutes, "had", route.Print(float64(l.plan.GasMinutes), "min"), "takes", takenUp(&then.sheet), "took", takenUp(&l.sheet))
			switch _, better := l.better(then); {
			case better && then.err == nil:
				return []Offer{offer}
			case better && list == nil:
				list = []Offer{offer}
			}
		}
	}
	return list
}

// leastPart is the least part of a plan's share that is offered: less is hardly the same plan.
const leastPart = 0.2

// inPlace says what of salt there is in place of the plan's.
func (l *laid) inPlace(salt float64) string {
	is := route.Print(salt, "g")
	return l.says("salt", "was", phrase.Otherwise(route.Print(l.salt, "g"), is), "is", is)
}

// of are the steps of a key that are done in a session.
func (l *laid) of(key string) []procedure.Step {
	return slices.DeleteFunc(slices.Clone(l.steps), func(st procedure.Step) bool { return st.Key != key || st.By != procedure.InSession })
}

// washes are the steps that are washing, behind an acid rinse and before it.
var washes = [...]string{"clear", "wash"}

// washing leaves it to an adult.
func (l *laid) washing() []Offer {
	var steps []procedure.Step
	for _, key := range washes {
		steps = append(steps, l.of(key)...)
	}
	if len(steps) == 0 || !l.apart() {
		return nil
	}
	long := quantity.Minute(0)
	for _, st := range steps {
		long += st.Minutes
	}
	return []Offer{l.offer("technician", give(steps, procedure.Staff), "time", procedure.Hours(long))}
}

// fewerWashes leaves out washes without which the salt is hardly less pure, and the acid rinse,
// without which it is.
func (l *laid) fewerWashes() (list []Offer) {
	if _, few := l.tooFew(); l.Fixed || !l.apart() && !few {
		return nil
	}
	add := func(offer, key string, now route.FigureID, set ...field.Change) {
		if n, then, ok := l.fewest(key, set); ok {
			set = append(set, field.Change{Key: key, Text: route.Plain(n)})
			list = append(list, l.offer(offer, set, "washes", route.Count(n, "wash", "washes"), "now", route.Print(l.sheet.Value(now), ""), "purer", l.lessPure(then)))
		}
	}
	if route.Rinses(&l.plan) {
		add("fewer behind", "wash.after", route.WashAfterUsed)
		add("no rinse", "wash.times", route.WashTimesUsed, field.Change{Key: "wash.acid", Text: "0"}, field.Change{Key: "wash.times", Text: ""})
	} else {
		add("fewer", "wash.times", route.WashTimesUsed)
	}
	return list
}

// For fewer washes the salt may be so much less pure, in percentage points, and so much more
// hydrogen chloride may come off while it dries, in mmol (judgement: no bench notices either).
// Below so many, the liquor in the cake is still that of the soak (common practice).
const lessPurity, moreFumes, fewWashes = 0.5, 0.1, 4

// fewest is the least number of washes, beside other changes, with which the salt is hardly less
// pure than with those of the plan so changed, and what it is then; not ok where that needs
// them all.
func (l *laid) fewest(key string, set []field.Change) (n float64, then *route.Sheet, ok bool) {
	var runner route.Runner
	work, ok := l.with(set)
	if !ok {
		return 0, nil, false
	}
	plan := work.Case.Planned()
	all := *runner.Run(&plan)
	washes := all.Value(route.WashTimesUsed)
	if key == "wash.after" {
		washes = all.Value(route.WashAfterUsed)
	}
	for n = fewWashes; n < washes; n++ {
		if work, ok = l.with(append(slices.Clone(set), field.Change{Key: key, Text: route.Plain(n)})); !ok {
			return 0, nil, false
		}
		plan = work.Case.Planned()
		then = runner.Run(&plan)
		if purity(then) >= purity(&all)-lessPurity && then.Amount(route.DryFumes) <= all.Amount(route.DryFumes)+moreFumes {
			return n, then, true
		}
	}
	return 0, nil, false
}

// lessPure says how pure the salt is after other washes, and what silver nitrate tells of them.
func (l *laid) lessPure(then *route.Sheet) string {
	is := route.Print(purity(then), "%")
	clouds := route.If(then.Value(route.WashLast) > float64(l.plan.WashTarget))
	return (&laid{plan: l.plan, sheet: *then}).says("less pure", "was", phrase.Otherwise(route.Print(purity(&l.sheet), "%"), is), "is", is, "clouds", clouds)
}

// drying boils down in two dishes, or leaves it to an adult, or to the air.
func (l *laid) drying() (list []Offer) {
	steps := l.of("evaporate")
	if len(steps) == 0 {
		return nil
	}
	if !l.Fixed {
		list = append(list, l.offer("dishes", []field.Change{{Key: "dry.rate", Text: route.Plain(2 * float64(l.plan.DryRate))}}))
	}
	if l.apart() && procedure.Dries(&l.plan) {
		dried := procedure.WithHands(&l.plan, &l.sheet, slices.Clone(steps), procedure.Hands{"evaporate": procedure.LeftToAir}, l.Times)
		set := []field.Change{{Key: procedure.HandPrefix + "evaporate", Text: procedure.LeftToAir.String()}}
		list = append(list, l.offer("air", set, "days", route.Print(float64(dried[0].Minutes)/24/60, "days")))
	}
	if l.apart() {
		list = append(list, l.offer("boil", give(steps, procedure.Staff), "time", procedure.Hours(steps[0].Minutes)))
	}
	return list
}

// school is what a school would do, at one touch: what is for adults only, or does not fit,
// is an adult's; the reduction is shown; the air dries; and where that saves a session, a
// technician washes.
func (l *laid) school() []Offer {
	var set []field.Change
	now := l
	add := func(more []field.Change) { set, now = append(set, more...), now.given(more) }
	if l.Club.Batches() > 1 {
		add([]field.Change{{Key: BatchKey, Text: "one"}})
	}
	if hand := procedure.Staff; len(l.of("evaporate")) > 0 {
		if procedure.Dries(&l.plan) {
			hand = procedure.LeftToAir
		}
		add(give(l.of("evaporate"), hand))
	}
	var own []procedure.Step
	for _, st := range l.steps {
		if l.tasks[st.Key] && !st.Eve && st.By == procedure.InSession && st.Key != "evaporate" && st.Batch <= 1 {
			own = append(own, st)
		}
	}
	add(give(own, procedure.Staff))
	if main := reduction(own); main != nil {
		add([]field.Change{{Key: procedure.HandPrefix + main.Key, Text: procedure.ShownFirst.String()}})
	}
	for range l.steps {
		steps, ok := now.adultRange()
		if !ok {
			break
		}
		add(give(steps, procedure.Staff))
	}
	for _, key := range washes {
		if more := give(l.of(key), procedure.Staff); more != nil && now.given(more).sessions < now.sessions {
			add(more)
		}
	}
	gives, ok := l.better(now)
	if !ok || now.err != nil || len(set) < 2 {
		return nil
	}
	var by []string
	for _, st := range now.steps {
		if st.By.Away() && st.Watch != procedure.Overnight && st.Batch <= 1 {
			by = append(by, "“"+st.Name+"”")
		}
	}
	washing := slices.ContainsFunc(washes[:], func(key string) bool { return now.Hands[key] != l.Hands[key] })
	air, each := now.Hands["evaporate"] == procedure.LeftToAir && procedure.Dries(&now.plan), ""
	if now.Club.Batch == SharedBatch && l.Club.Batch != SharedBatch {
		each = route.Print(now.salt/l.Club.Groups, "g")
	}
	offer := l.offer("school", set, "time", procedure.Hours(now.staff-l.staff), "steps", strings.Join(by, ", "), "washing", route.If(washing), "air", route.If(air), "each", each, "was", route.Print(l.salt, "g"))
	offer.Gives, offer.Fits, offer.Takes = gives, true, now.sessions
	return []Offer{offer}
}
