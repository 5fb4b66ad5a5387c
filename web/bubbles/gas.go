// Package bubbles counts the gas by its bubbles, tapped or heard in a recording, and shows what
// they tell.
package bubbles

import (
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
	"rosesalt/web/browser"
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
	Log     []doc.Figure
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
}

// bubbleUse says how large a bubble is, and offers that to the plan.
type bubbleUse struct {
	Label string // "" where nothing is offered
	Done  string
}

// gasRow is a row of the log.
type gasRow struct {
	Minute   int
	Fields   [3]doc.Field
	Gas      string
	Ahead    string
	Problems []string
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
			if f.Problem != "" {
				row.Problems = append(row.Problems, f.Key)
			}
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
	v.Log = []doc.Figure{
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
	return section.Interval(key, name, unit, account.Interval{Low: b.Low, Median: b.Best, High: b.High})
}

// folds are the parts of a section that a user has unfolded or folded, by key. That is
// the page's concern only.
type folds struct{ said map[string]bool }

func (f *folds) open(key string, usually bool) bool {
	if open, said := f.said[key]; said {
		return open
	}
	return usually
}

// fold is a button that unfolds what belongs to it: it is not there while folded, since
// sixty fields cost every keystroke.
func (f *folds) fold(key, label string, usually bool, body func() []app.UI) app.UI {
	open := f.open(key, usually)
	parts := []app.UI{
		browser.Button().Class("plain").ID("fold."+key).Aria("expanded", strconv.FormatBool(open)).Text(label).OnClick(f.onFold(key, !open), key, open),
	}
	if open {
		parts = append(parts, body()...)
	}
	return app.Elem("div").Body(parts...)
}

func (f *folds) onFold(key string, open bool) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		if f.said == nil {
			f.said = map[string]bool{}
		}
		f.said[key] = open
		ctx.NewAction(doc.Unfolded)
	}
}

// Section is the section of the gas that is counted. It is not there until asked for.
type Section struct {
	app.Compo
	folds
	View View
	Taps *counting.Taps
	Ear  *Ear
	// Presses changes when the bench view's pad was tapped: then this one is drawn again.
	Presses int
	Shut    bool
	Found   string // what it would say, while it is shut
}

// around puts elements into the section, under its title.
func (g *Section) around(sub string, body ...app.UI) app.UI {
	return (&doc.Section{ID: section.ID(section.GasTitle), Title: section.GasTitle, Sub: sub, Shut: g.Shut, Found: g.Found}).Around(body...)
}

// para draws a paragraph of plain words.
func para(class, words string) app.HTMLElem { return app.Elem("p").Class(class).Text(words) }

// fields draws fields.
func fields(list []doc.Field) app.UI { return doc.Draw(doc.Fields(list))[0] }

// Render draws the section.
func (g *Section) Render() app.UI {
	v := g.View
	if !v.Leads {
		return g.around("nothing is led in", para("lede", "This plan leads no gas in, so there are no bubbles to count."))
	}
	const sub = "tapped, or heard in a recording"
	if g.Shut {
		return g.around(sub)
	}
	return g.around(sub,
		para("lede", "Nobody weighs the gas, but every bubble can be counted. A minute of tapping now and then tells when it is enough; a phone beside the beaker counts on its own."),
		g.fold("gas", "Count the gas by its bubbles", v.Begun, func() []app.UI {
			return []app.UI{
				g.setup(),
				g.fold("gas.tap", "Tap at each bubble", false, func() []app.UI {
					return []app.UI{app.Elem("div").Class("cols").Body(&Pad{Taps: g.Taps, Gauge: v.Gauge, Presses: g.Presses}, app.Elem("div").Body(fields(v.Tapped)))}
				}),
				g.fold("gas.hear", "Have a recording counted", false, func() []app.UI {
					return []app.UI{&hearing{Ear: g.Ear, Gauge: v.Gauge, Fields: v.Heard}}
				}),
				g.fold("gas.log", "The log of the gas, every five minutes", v.Begun, g.log),
			}
		}),
	)
}

func (g *Section) setup() app.UI {
	v := g.View
	right := []app.UI{app.Elem("h3").Text("Will it be countable?"), app.Elem("p").ID("gas.outlook").Aria("live", "polite").Text(v.Outlook.Says)}
	if v.Gauge.Wanted != "" && !v.Gauge.Touching { // that is said of the outlook
		right = append(right, para("lede soft", v.Gauge.Wanted))
	}
	if len(v.Outlook.Helps) > 0 {
		right = append(right, app.Elem("ul").Class("gear").Body(app.Range(v.Outlook.Helps).Slice(func(i int) app.UI { return app.Elem("li").Text(v.Outlook.Helps[i]) })))
	}
	if v.Bubble.Label != "" {
		right = append(right, browser.Button().Class("do").ID("use.bubble").Text(v.Bubble.Label).OnClick(func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(Action, v.Gauge.Bubble) }, v.Bubble.Label))
	}
	if v.Bubble.Done != "" {
		right = append(right, para("lede soft", v.Bubble.Done))
	}
	return app.Elem("div").Class("cols").Body(app.Elem("div").Body(fields(v.Setup)), app.Elem("div").Body(right...))
}

// log is the table of the log and what it says.
func (g *Section) log() []app.UI {
	v := g.View
	heads := []string{"Minute", "Bubbles a minute", "Slurry, °C", "Paper at the vent", "Gas led in", "Against the plan"}
	parts := []app.UI{
		para("lede", "Minute 0 is the first bubble. Count for the last minute before each row; leave out what nobody saw. The log goes with the run, in its link and its kept copy."),
		app.Elem("div").Class("scroll").Body(app.Elem("table").Class("gaslog").Aria("label", "The log of the gas").Body(
			app.Elem("thead").Body(app.Elem("tr").Body(app.Range(heads).Slice(func(i int) app.UI { return app.Elem("th").Attr("scope", "col").Text(heads[i]) }))),
			app.Elem("tbody").Body(app.Range(v.Rows).Slice(func(i int) app.UI { return drawGasRow(v.Rows[i]) })),
		)),
	}
	if v.LogWhy != "" {
		parts = append(parts, para("lede soft", v.LogWhy))
	}
	if len(v.Log) > 0 {
		parts = append(parts,
			app.Elem("dl").Class("gasfigures").Body(app.Range(v.Log).Slice(func(i int) app.UI { return doc.Draw(v.Log[i])[0] })),
			app.If(v.LogSays != "", app.Elem("p").Class("says-days").ID("log.met").Aria("live", "polite").Text(v.LogSays)),
			handGas("use.log", v.LogMade, "from the rows of the log", v.Gauge),
		)
	}
	return parts
}

func drawGasRow(r gasRow) app.UI {
	cells := []app.UI{app.Elem("th").Attr("scope", "row").Body(app.Text(strconv.Itoa(r.Minute)), app.Range(r.Problems).Slice(func(i int) app.UI {
		for _, f := range r.Fields {
			if f.Key == r.Problems[i] {
				return app.Elem("p").Class("problem").ID("problem." + f.Key).Text(f.Name + ": " + f.Problem)
			}
		}
		return nil
	}))}
	for _, f := range r.Fields {
		if f.Options != nil {
			cells = append(cells, app.Elem("td").Body(doc.Draw(doc.Control{ID: "in." + f.Key, Key: f.Key, Label: f.Name, Options: f.Options})...))
			continue
		}
		unit := f.Unit
		if unit == "" {
			unit = "/min"
		}
		input := app.ElemSelfClosing("input").ID("in."+f.Key).Attr("name", f.Key).Attr("placeholder", unit).Attr("inputmode", "decimal").Attr("autocomplete", "off").Aria("label", f.Name)
		if f.Problem != "" {
			input = input.Aria("invalid", "true").Aria("describedby", "problem."+f.Key)
		}
		cells = append(cells, app.Elem("td").Body(app.Elem("div").Class("in "+f.Line).Body(input)))
	}
	cells = append(cells, app.Elem("td").Text(r.Gas), app.Elem("td").Text(r.Ahead))
	class := ""
	if len(r.Problems) > 0 {
		class = "bad"
	}
	return app.Elem("tr").Class(class).Body(cells...)
}

// handGas is the one button that writes counted gas to the account, and says what it
// writes and from what.
func handGas(id string, made sound.Band, from string, g Gauge) app.UI {
	if !(made.Best > 0) {
		return nil
	}
	value, half := desk.GasCounted(made)
	text := value + " mmol"
	if half != "" {
		text = value + " ± " + half + " mmol"
	}
	if g.Held == value && g.HeldOff == half {
		return app.Elem("p").Class("lede").ID(id + ".done").TabIndex(-1).Text("Handed over: the account holds " + text + " of gas as counted, " + from + ".")
	}
	label := "Write “Gas counted, " + text + "” to the account, " + from
	if g.Held != "" {
		label += ", in place of " + g.Held + " mmol"
	}
	return app.Elem("div").Class("gas-hand").Body(
		browser.Button().Class("do").ID(id).Text(label).OnClick(func(ctx app.Context, _ app.Event) {
			ctx.NewActionWithValue(Action, Use{made, id + ".done"})
		}, label),
		app.Elem("p").Class("why").Text("That is the gas made: it counts every bubble, those of air too, since the gas that pushed the air out stays in the flask."),
	)
}
