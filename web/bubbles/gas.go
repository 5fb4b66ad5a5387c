// Package bubbles counts the gas by its bubbles, tapped or heard in a recording, and shows what
// they tell.
package bubbles

import (
	"cmp"
	"errors"
	"math"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/web/counting"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// Action is the action of the section, with a Use, a Rows, or the size of a bubble.
const Action = "gas"

type (
	// Use is gas that was counted, to be handed over, in mmol. Focus is what gets the focus
	// once that is drawn.
	Use struct {
		Made  sound.Band
		Focus string
	}

	// Rows are readings for the log. Focus is what gets the focus once they are drawn, if
	// anything.
	Rows struct {
		Rows  []field.Change
		Focus string
	}
)

// View is what the section shows of the gas that is counted.
type View struct {
	Leads   bool // the plan leads gas in
	Setup   []doc.Field
	Outlook outlookView
	Gauge   Gauge
	Tapped  []doc.Field
	Heard   []doc.Field
	Rows    []gasRow
	Log     doc.Figures
	LogSays string
	LogWhy  string // why the rows tell no gas
	LogMade sound.Band
	Begun   bool // the log has something in it
	Bubble  bubbleUse
}

type outlookView struct {
	Says  string
	Helps []string
}

// Gauge is what counted bubbles are reckoned with.
type Gauge struct {
	Outlet  sound.Outlet
	Bubble  sound.Band // one, in mL
	Wanted  string     // why its size is not known, or ""
	Caught  bool       // some were caught, so its size is sure
	Need    float64    // mmol to come over until the demand is met; 0 where there is none
	Before  sound.Second
	Midway  bool   // a recording begins in the middle of the run
	Held    string // what the account's field holds, and its half-width
	HeldOff string
	Next    int // minute of the row of the log after the last one with a rate

	Touching bool // no bubbles form where the gas comes out

	PerSecond float64 // bubbles at the plan's pace; 0 where that is not known
	Started   bool    // a run is under way
	Box       Box
}

// Box is the bench's field for the bubbles of a minute, and what stands in it; without a key where
// there is none.
type Box struct{ Key, ID, Text string }

// bubbleUse says how large a bubble is, and offers that to the plan.
type bubbleUse struct {
	Label string // "" where nothing is offered
	Done  string
}

// gasRow is a row of the log.
type gasRow struct {
	Minute int
	Fields [3]doc.Field
	Gas    string
	Ahead  string
}

// ViewOf makes the view of a plan.
func ViewOf(d *desk.Desk) View {
	p, s := d.Plan(), d.Sheet()
	v := View{Leads: route.Gaseous(p)}
	if !v.Leads {
		return v
	}
	r := d.GasReadings()
	v.Begun = len(r) > 0
	asks := []string{gaslog.KeyWhere, gaslog.KeyDepth, gaslog.KeyWay}
	switch r.Value(gaslog.KeyWay) {
	case gaslog.FromBore:
		asks = append(asks, gaslog.KeyBore)
	case gaslog.Caught:
		asks = append(asks, gaslog.KeyCaught, gaslog.KeyFilled)
	}
	for _, key := range asks {
		v.Setup = append(v.Setup, gasField(d, key))
	}
	v.Tapped = []doc.Field{gasField(d, gaslog.KeyBefore)}
	v.Heard = []doc.Field{gasField(d, gaslog.KeyBegins)}
	v.Gauge = GaugeOf(d)
	bubble, err := d.GasBubble()
	v.Outlook = outlookOf(s, bubble, r.Value(gaslog.KeyWhere) == gaslog.JustTouching)
	if route.BatchCount(p) > 1 {
		v.Outlook.Says += ofAllBatches
	}
	v.Bubble = bubbleUseOf(d, r, bubble, err)
	v.rows(d, err == nil && !v.Gauge.Touching)
	return v
}

// GaugeOf is what counted bubbles of a plan are reckoned with.
func GaugeOf(d *desk.Desk) Gauge {
	r := d.GasReadings()
	g := Gauge{
		Outlet: d.GasOutlet(), Before: sound.Second(60 * r.Value(gaslog.KeyBefore)), Midway: r.Value(gaslog.KeyBegins) == gaslog.InTheMiddle,
		Held: d.Text(account.KeyGas), HeldOff: d.Text(account.KeyGas + "~"), Next: gaslog.Each,
		Started: d.Started() != nil,
	}
	for key := range r {
		if minute, ok := gaslog.Minute(key); ok && key == gaslog.Key(minute, gaslog.Rate) {
			g.Next = max(g.Next, minute+gaslog.Each)
		}
	}
	if need := d.GasNeed(); quantity.Given(need) {
		g.Need = need
	}
	if r.Value(gaslog.KeyWhere) == gaslog.JustTouching {
		g.Touching, g.Wanted = true, touches
		return g
	}
	bubble, err := d.GasBubble()
	if err != nil {
		g.Wanted = why(err)
		return g
	}
	g.Bubble, g.Caught = bubble, r.Value(gaslog.KeyWay) == gaslog.Caught
	if s := d.Sheet(); s.Reason(route.GasRate) == route.Defined {
		g.PerSecond = sound.Foresee(s.Value(route.GasRate), bubble, false).Rate.Best
	}
	return g
}

// ofAllBatches: the plan's demand and pace, which the log is held against, are those of all.
const ofAllBatches = " The log is of all batches together: its minutes run on from one to the next, and what it calls enough is enough for all. When one batch has enough, its step says."

// touches says why nothing is reckoned where no bubbles form.
const touches = "A funnel that only touches makes no bubbles, so none tell it."

// why is an error of the core as a sentence of the page.
func why(err error) string {
	if wanted, ok := errors.AsType[gaslog.MissingReading](err); ok {
		return wanted.Error()
	}
	return "The gas cannot be reckoned here (" + strings.TrimPrefix(err.Error(), "sound: ") + "). Count where it is cooler, such as in a bottle of water before the slurry."
}

func gasField(d *desk.Desk, key string) doc.Field {
	in, _ := gaslog.InputByKey(key)
	return section.BenchField(d, in)
}

var answers = map[sound.Answer]string{sound.Yes: "it can be counted", sound.Barely: "it can barely be counted", sound.No: "it cannot be counted"}

// outlookOf says before the run whether the plan's gas will be countable.
func outlookOf(s *route.Sheet, bubble sound.Band, touching bool) outlookView {
	if s.Reason(route.GasRate) != route.Defined || !(s.Value(route.GasRate) > 0) {
		return outlookView{Says: "This plan makes no gas."}
	}
	if !(bubble.Best > 0) && !touching {
		return outlookView{}
	}
	o := sound.Foresee(s.Value(route.GasRate), bubble, touching)
	v := outlookView{Helps: o.Helps}
	if !touching {
		v.Says = "At the plan's pace some " + route.Print(o.Rate.Best, "") + " bubbles come in a second (" + route.Print(o.Rate.Low, "") + "–" + route.Print(o.Rate.High, "") + "). "
	}
	if o.ByTapping == o.ByRecording {
		v.Says += "By tapping and from a recording alike " + answers[o.ByTapping] + "."
	} else {
		v.Says += "By tapping " + answers[o.ByTapping] + ", from a recording " + answers[o.ByRecording] + "."
	}
	return v
}

// bubbleUseOf says how large a bubble is taken to be, and offers it to the plan where it was
// found out.
func bubbleUseOf(d *desk.Desk, r gaslog.Readings, bubble sound.Band, err error) bubbleUse {
	if err != nil || r.Value(gaslog.KeyWhere) == gaslog.JustTouching {
		return bubbleUse{}
	}
	size := reads(bubble, "mL")
	if r.Value(gaslog.KeyWay) == gaslog.AsPlanned {
		return bubbleUse{Done: "One bubble is taken as the plan has it: " + size + ". The bore of your tube, or some bubbles caught, tell your own."}
	}
	in, _ := route.InputByKey("gas.bubble")
	if d.Locked(in) {
		return bubbleUse{Done: "One bubble: " + size + ". The plan of a run under way keeps its own."}
	}
	if d.HoldsBubble(bubble) {
		return bubbleUse{Done: "One bubble: " + size + ". The plan holds it."}
	}
	return bubbleUse{Label: "Use in the plan: one bubble is " + size}
}

// rows fills in the log; known tells whether the size of a bubble is.
func (v *View) rows(d *desk.Desk, known bool) {
	log, err := d.GasLog()
	says := map[int]gaslog.Row{}
	last := 0
	for _, row := range log.Rows {
		says[row.Minute] = row
	}
	for key := range d.GasReadings() {
		if minute, ok := gaslog.Minute(key); ok {
			last = max(last, minute)
		}
	}
	for minute := gaslog.Each; minute <= gaslog.Longest; minute += gaslog.Each {
		row := gasRow{Minute: minute}
		typed := false
		for i, what := range [...]string{gaslog.Rate, gaslog.Celsius, gaslog.Paper} {
			f := gasField(d, gaslog.Key(minute, what))
			typed = typed || f.Problem != ""
			row.Fields[i] = f
		}
		if minute > max(last+gaslog.Each, 3*gaslog.Each) && !typed {
			continue // the next one comes when the last is filled
		}
		if said, ok := says[minute]; ok && known && err == nil && quantity.Given(said.Rate) {
			row.Gas = reads(said.Gas, "mmol")
			row.Ahead = aheadWords(float64(said.Ahead))
		}
		v.Rows = append(v.Rows, row)
	}
	if err != nil {
		v.LogWhy = why(err)
		return
	}
	if log.Last == 0 {
		return
	}
	if v.Gauge.Touching {
		v.LogWhy = "The gas: " + touches
		return
	}
	v.LogMade = log.Made
	v.Log = doc.Figures{
		bandFigure("log.gas", "Gas led in until minute "+strconv.Itoa(log.Last), "mmol", log.Gas),
	}
	v.LogSays = metWords(log.Met, log.Reached)
}

// aheadWords says how far the gas is against the plan.
func aheadWords(minutes float64) string {
	switch {
	case !quantity.Given(minutes):
		return ""
	case math.Abs(minutes) < 1:
		return "on time"
	case minutes > 0:
		return route.Print(math.Round(minutes), "min") + " ahead"
	}
	return route.Print(math.Round(-minutes), "min") + " behind"
}

// metWords says when the demand is met; met in minutes since the gas began.
func metWords(met sound.Band, reached bool) string {
	switch {
	case !quantity.Given(met.Best):
		return ""
	case math.IsInf(met.Best, 1):
		return "At this pace the demand is never met."
	}
	minute := func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }
	says := "At this pace the demand is met at about minute " + minute(met.Best)
	if reached {
		says = "The demand was met at about minute " + minute(met.Best)
	}
	if math.IsInf(met.High, 1) || !quantity.Given(met.High) {
		return says + " (" + minute(met.Low) + " at the earliest)."
	}
	return says + " (" + minute(met.Low) + "–" + minute(met.High) + ")."
}

// reads is a band in words.
func reads(b sound.Band, unit string) string {
	return section.Reads(account.Interval{Low: b.Low, Median: b.Best, High: b.High}, unit)
}

// bandFigure is a band as a figure.
func bandFigure(key, name, unit string, b sound.Band) doc.Figure {
	if math.IsInf(b.High, 1) {
		v := doc.Figure{Key: key, Name: name, Value: strconv.FormatFloat(b.Best, 'g', -1, 64)}
		v.Number, v.Unit = route.PrintParts(b.Best, unit)
		if math.IsInf(b.Best, 1) {
			v.Value, v.Number, v.Unit, v.Why = "", "", "", "not at this pace"
		} else {
			v.Range = "at least " + route.Print(b.Low, unit)
		}
		return v
	}
	f := section.Interval(key, name, unit, account.Interval{Low: b.Low, Median: b.Best, High: b.High})
	if b.High-b.Low < sharp*b.Best {
		f.Number, f.Unit = route.PrintParts(b.Best, unit)
		f.Range = ""
	}
	return f
}

// sharp is the width of a band, of its figure, below which the figure is printed as any other: what
// the band does not hold, such as the doubt of the plan's demand, is more (estimate).
const sharp = 0.02

// Section is the section of the gas that is counted. It is not there until asked for.
type Section struct {
	app.Compo
	View View
	Taps *counting.Taps
	Ear  *Ear
	// Presses changes when the bench view's pad was tapped: then this one is drawn again.
	Presses int
	Shut    bool
	Found   string // what it would say, while it is shut

	said map[string]bool // the parts that a user has unfolded or folded, by key
}

// pressed is the action of the section's own buttons: the key of a part to unfold or fold, or one
// of the words below.
const pressed = "gas.press"

const (
	foldAll  = "gas"
	foldTap  = "gas.tap"
	foldHear = "gas.hear"
	foldLog  = "gas.log"

	useBubble = "bubble" // one bubble, in the plan
	useGas    = "use"    // the gas counted, in the account
)

// OnMount hears the buttons.
func (g *Section) OnMount(ctx app.Context) { ctx.Handle(pressed, g.onPress) }

func (g *Section) onPress(ctx app.Context, a app.Action) {
	switch word, _ := a.Value.(string); word {
	case useBubble:
		ctx.NewActionWithValue(Action, g.View.Gauge.Bubble)
	case useGas:
		ctx.NewActionWithValue(Action, Use{g.View.LogMade, handedOver("use.log")})
	default:
		g.fold(word)
		ctx.NewAction(doc.Unfolded)
	}
}

// open tells whether a part is unfolded: as it was left, or what has a log from the beginning.
func (g *Section) open(key string) bool {
	if open, said := g.said[key]; said {
		return open
	}
	return g.View.Begun && (key == foldAll || key == foldLog)
}

func (g *Section) fold(key string) {
	if g.said == nil {
		g.said = map[string]bool{}
	}
	g.said[key] = !g.open(key)
}

// part is a button that unfolds what belongs to it, which is not there while folded: sixty fields
// cost every keystroke.
func (g *Section) part(key, label string, body func() []app.UI) app.UI {
	parts := doc.Draw(doc.Button{Class: "plain", ID: "fold." + key, Text: label, Action: pressed, Value: key, Opens: "part." + key, Shown: g.open(key)})
	inside := app.Elem("div").ID("part." + key)
	if g.open(key) {
		inside = inside.Body(body()...)
	}
	return app.Elem("div").Body(append(parts, inside)...)
}

// Render draws the section.
func (g *Section) Render() app.UI {
	v := g.View
	s := doc.Section{ID: section.ID(section.GasTitle), Title: section.GasTitle, Sub: "tapped, or heard in a recording", Shut: g.Shut, Found: g.Found}
	switch {
	case !v.Leads:
		s.Sub = "nothing is led in"
		return s.Around(doc.Draw(doc.PText("lede", "This plan leads no gas in, so there are no bubbles to count."))...)
	case g.Shut:
		return s.Around()
	}
	lede := doc.Draw(doc.PText("lede", "Nobody weighs the gas, but every bubble can be counted. A minute of tapping now and then tells when it is enough; a phone beside the beaker counts on its own."))
	return s.Around(append(lede, g.part(foldAll, "Count the gas by its bubbles", func() []app.UI {
		return append(doc.Draw(v.setup()),
			g.part(foldTap, "Tap at each bubble", func() []app.UI {
				return []app.UI{app.Elem("div").Class("cols").Body(append([]app.UI{&Pad{Taps: g.Taps, Gauge: v.Gauge, Presses: g.Presses}}, doc.Draw(doc.Div("", doc.Fields(v.Tapped)))...)...)}
			}),
			g.part(foldHear, "Have a recording counted", func() []app.UI {
				return []app.UI{&hearing{Ear: g.Ear, Gauge: v.Gauge, Fields: v.Heard}}
			}),
			g.part(foldLog, "The log of the gas, every five minutes", func() []app.UI { return doc.Draw(v.log()...) }),
		)
	}))...)
}

// setup is where it bubbles and how large a bubble is, and whether that can be counted.
func (v *View) setup() doc.Node {
	right := doc.Nodes{doc.Heading("Will it be countable?"), doc.Live{ID: "gas.outlook", Of: doc.Nodes{doc.Text(v.Outlook.Says)}}}
	if v.Gauge.Wanted != "" && !v.Gauge.Touching { // that is said of the outlook
		right = append(right, doc.PText("lede soft", v.Gauge.Wanted))
	}
	if len(v.Outlook.Helps) > 0 {
		right = append(right, doc.List{Class: "gear", Items: doc.Texts(v.Outlook.Helps)})
	}
	if v.Bubble.Label != "" {
		right = append(right, doc.Button{Class: "do", ID: "use.bubble", Text: v.Bubble.Label, Action: pressed, Value: useBubble})
	}
	if v.Bubble.Done != "" {
		right = append(right, doc.PText("lede soft", v.Bubble.Done))
	}
	return doc.Div("cols", doc.Div("", doc.Fields(v.Setup)), doc.Div("", right...))
}

// log is the table of the log and what it says.
func (v *View) log() []doc.Node {
	table := doc.Table{Class: "gaslog", Heads: doc.Texts([]string{"Minute", "Bubbles a minute", "Slurry, °C", "Paper at the vent", "Gas led in", "Against the plan"})}
	for i := range v.Rows {
		table.Rows = append(table.Rows, v.Rows[i].cells())
	}
	list := doc.Nodes{
		doc.PText("lede", "Minute 0 is the first bubble. Count for the last minute before each row; leave out what nobody saw. The log goes with the run, in its link and its kept copy."),
		doc.Box{Role: "group", Label: "The log of the gas", Of: doc.Nodes{table}},
	}
	if v.LogWhy != "" {
		list = append(list, doc.PText("lede soft", v.LogWhy))
	}
	if len(v.Log) > 0 {
		list = append(list, doc.Div("gasfigures", v.Log), doc.Live{Class: "says-days", ID: "log.met", Of: doc.Nodes{doc.Text(v.LogSays)}}, handGas(pressed, "use.log", v.LogMade, "from the rows of the log", &v.Gauge))
	}
	return list
}

// cells are a row of the log: the minute with what is wrong in it, the fields, and what they tell.
func (r *gasRow) cells() []doc.Node {
	minute := doc.Nodes{doc.Text(strconv.Itoa(r.Minute))}
	row := doc.Nodes{nil}
	for _, f := range r.Fields {
		c := doc.Control{ID: "in." + f.Key, Key: f.Key, Label: f.Name, Options: f.Options, Line: f.Line}
		if f.Options == nil {
			c.Mode, c.Raw, c.Hint = "decimal", true, cmp.Or(f.Unit, "/min")
		}
		if f.Problem != "" {
			c.Bad, c.Described = true, "problem."+f.Key
			minute = append(minute, doc.Problem{Key: f.Key, Says: f.Name + ": " + f.Problem})
		}
		row = append(row, c)
	}
	row[0] = minute
	return append(row, doc.Text(r.Gas), doc.Text(r.Ahead))
}

// handedOver is the id of what says that counted gas was handed over, by that of its button.
func handedOver(id string) string { return id + ".done" }

// handGas is the one button that writes counted gas to the account, and says what it writes and
// from what.
func handGas(action, id string, made sound.Band, from string, g *Gauge) doc.Node {
	if !(made.Best > 0) {
		return nil
	}
	value, half := desk.GasCounted(made)
	text := value + " mmol"
	if half != "" {
		text = value + " ± " + half + " mmol"
	}
	if g.Held == value && g.HeldOff == half {
		return doc.Para{Class: "lede", ID: handedOver(id), Focus: true, Of: doc.Nodes{doc.Text("Handed over: the account holds " + text + " of gas as counted, " + from + ".")}}
	}
	label := "Write “Gas counted, " + text + "” to the account, " + from
	if g.Held != "" {
		label += ", in place of " + g.Held + " mmol"
	}
	return doc.Div("gas-hand",
		doc.Button{Class: "do", ID: id, Text: label, Action: action, Value: useGas},
		doc.PText("why", "That is the gas made: it counts every bubble, those of air too, since the gas that pushed the air out stays in the flask."),
	)
}
