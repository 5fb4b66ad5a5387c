package section

import (
	"strings"
	"time"

	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
	"rosesalt/web/runs"
	"rosesalt/web/tabs"
)

// KeptTitle is the title of the kept runs.
const KeptTitle = "Kept runs"

// The actions about kept runs.
const (
	KeepRun      = "runs.keep"     // with nothing
	ChangeRun    = "runs.change"   // with a state's identifier
	OpenRun      = "runs.open"     // the same
	ForgetRun    = "runs.forget"   // the same
	UndoForget   = "runs.undo"     // with nothing
	CountRun     = "runs.count"    // with a state's identifier
	ExportRuns   = "runs.export"   // with "json", "csv" or "text"
	ImportRuns   = "runs.import"   // with nothing: the text that stands there
	PlanTogether = "runs.together" // with nothing
)

// The identifiers of the controls for kept runs.
const (
	RunName = "runs.name"
	RunText = "runs.text"
	RunFile = "runs.file"
	RunUndo = "runs.undo"
)

// Kept is the kept runs as the page has them.
type Kept struct {
	Store   *runs.Store
	Counted map[string]bool // states that are to be taken together
	Opened  string          // the state that was opened last
	Undo    *runs.State     // that was forgotten last
	Says    []string        // what came of the last act

	runner route.Runner
	cells  map[string][6]string // of a state's row, worked out once
}

// list are the runs; none before the store is opened.
func (k *Kept) list() []runs.Kept {
	if k == nil || k.Store == nil {
		return nil
	}
	return k.Store.Book().List()
}

// Plans are the plans of the runs, as fragments.
func (k *Kept) Plans() (list []string) {
	for _, r := range k.list() {
		list = append(list, r.Plan)
	}
	return list
}

// Together are the runs that are ticked, and what they tell: how many that tell anything, and
// how many of them count already.
func (k *Kept) Together() (learned []account.Learned, n, left int) {
	var chosen []runs.Kept
	for _, r := range k.list() {
		if k.Counted[r.ID] {
			chosen = append(chosen, r)
		}
	}
	told, left := runs.Together(chosen)
	return account.Combine(told...), len(told), left
}

// RunTitle is what a run is called in a sentence. Marks in its name that would turn the direction
// of the sentence are replaced.
func RunTitle(r *runs.State) string {
	if r.Name != "" {
		return "“" + route.Clip(r.Name, runs.MaxName) + "”"
	}
	return "the run of " + when(r.Kept)
}

func when(kept string) string {
	at, err := time.Parse(time.RFC3339, kept)
	if err != nil {
		return kept
	}
	return at.Local().Format("2 January 2006, 15:04")
}

// press is a button of the section.
func press(action, value, text string) doc.Button {
	return doc.Button{Class: "plain", Text: text, Action: action, Value: value}
}

// kept is the kept runs, side by side.
func kept(s *Source) doc.Section {
	made := doc.Section{Of: doc.Nodes{
		doc.PText("lede", "A run is kept with its plan, what you weighed, and what the account made of it, in this browser only. Clearing its data clears them: save a file too."),
	}}
	if s.Kept == nil || s.Kept.Store == nil {
		return made
	}
	k := s.Kept
	keep := doc.Div("keep",
		doc.Label{For: RunName, Text: "Name of this run"},
		doc.Control{ID: RunName, Kind: "text", Most: runs.MaxName, Raw: true},
		press(KeepRun, "", "Keep this run"),
	)
	if opened, ok := k.Store.Book().Known(k.Opened); ok {
		keep.Of = append(keep.Of, press(ChangeRun, opened.ID, "Keep it in place of "+RunTitle(&opened)))
	}
	if s.Record().Empty() {
		keep.Of = append(keep.Of, doc.PText("lede soft", "Nothing is weighed yet: it is kept as a plan, and tells nothing of uptake and charge."))
	}
	made.Of = append(made.Of, keep, doc.Live{Of: doc.Nodes{paragraphs("note tip", k.Says...), paragraphs("note mind", k.Store.Standing().Troubles()...)}})
	if k.Undo != nil {
		undo := press(UndoForget, "", "Bring "+RunTitle(k.Undo)+" back")
		undo.ID = RunUndo
		made.Of = append(made.Of, undo)
	}
	if list := k.list(); len(list) > 0 {
		made.Of = append(made.Of, k.table(list), together(k))
	}
	made.Of = append(made.Of, doc.Fold{Title: "Save runs as a file or table, or bring runs in", Of: doc.Nodes{
		doc.Div("ask",
			press(ExportRuns, "json", "Save as a file (JSON)"),
			press(ExportRuns, "csv", "Save as a table (CSV)"),
			press(ExportRuns, "text", "Write the file into the box below"),
		),
		doc.Div("ask",
			doc.Label{For: RunFile, Text: "Bring in a file that was saved here"},
			doc.Control{ID: RunFile, Kind: "file", Accept: ".json,application/json"},
		),
		doc.Label{For: RunText, Text: "Or paste the text of such a file"},
		doc.Control{ID: RunText, Rows: 5, Raw: true},
		press(ImportRuns, "", "Bring these runs in"),
	}}, doc.Box{Of: doc.Nodes{
		doc.Heading("What this browser keeps while you type"),
		doc.PText("lede", "What stands on a page is kept in this browser as it is typed, names on labels too, so that a tab that is closed or a browser that dies loses nothing. The next page offers it. Of tabs that are gone the last "+route.Print(tabs.MostLeft, "")+" are kept."),
		doc.Button{Class: "plain", ID: "left.forget", Text: "Forget what is kept of this page and of tabs that are gone", Action: ForgetAll},
	}})
	return made
}

// together is what the ticked runs tell.
func together(k *Kept) doc.Node {
	told, n, left := k.Together()
	note := ""
	switch {
	case n == 1:
		note = "From one run."
	case n > 1:
		note = "From " + route.Print(float64(n), "") + " runs, multiplied, over the usual estimates."
	}
	if left > 0 {
		note += " Not counted again: " + route.Print(float64(left), "") + ", of a run or of the very weighings that count already."
	}
	if len(told) == 0 {
		return doc.PText("lede", strings.TrimSpace("Tick weighed runs of one bag on one setup, to see what they tell together: the oxide still unused is the bag's, the uptake the setup's. "+note))
	}
	return doc.Box{Of: doc.Nodes{
		doc.Heading("What the ticked runs tell together"),
		doc.List{Class: "gear", ID: "runs.together", Items: learned(told)},
		doc.PText("lede soft", note+" They must be of one bag on one setup."),
		press(PlanTogether, "", "Plan the next run from these"),
	}}
}

func (k *Kept) table(list []runs.Kept) doc.Node {
	table := doc.Table{Class: "kept", Label: "Kept runs side by side", Heads: doc.Texts([]string{"Run", "Count", "Cells", "Planned", "Found", "Of the plan", "Gas taken up", "Oxide unused"})}
	table.Heads = append(table.Heads, nil) // over the buttons
	for i := range list {
		r := &list[i]
		name := doc.Nodes{doc.Text(strings.TrimSpace(r.Name)), doc.Small{Class: "for", Text: when(r.Kept)}}
		if r.Split {
			name = append(name, doc.Small{Class: "for", Text: "Changed on two pages: both are kept."})
		}
		if r.Notes != "" {
			name = append(name, doc.Small{Class: "for", Text: r.Notes})
		}
		calls, count := RunTitle(&r.State), doc.Node(doc.Text("not weighed"))
		if len(r.Told) > 0 {
			count = doc.Tick{Class: "tick", Label: "Count " + calls + " together with others", Action: CountRun, Value: r.ID, On: k.Counted[r.ID]}
		}
		open, forget := press(OpenRun, r.ID, "Open"), press(ForgetRun, r.ID, "Forget")
		open.Label, forget.Label = "Open "+calls, "Forget "+calls
		cells := k.row(&r.State)
		table.Rows = append(table.Rows, append(append(doc.Nodes{name, count}, doc.Texts(cells[:])...), doc.Nodes{open, forget}))
	}
	return table
}

// row works a state out, once.
func (k *Kept) row(r *runs.State) [6]string {
	cells, ok := k.cells[r.ID]
	if !ok {
		w := runs.RowOf(r, &k.runner)
		cells = [...]string{w.Cells, orDash(w.Planned, "g"), orDash(w.Found, "g"), orDash(w.Yield, "%"), learnedOf(r, runs.Uptake), learnedOf(r, runs.Charge)}
		if k.cells == nil {
			k.cells = map[string][6]string{}
		}
		k.cells[r.ID] = cells
	}
	return cells
}

func learnedOf(r *runs.State, key string) string {
	i, ok := r.Learned[key]
	if !ok {
		return "–"
	}
	return Reads(account.Interval{Low: i[0], Median: i[1], High: i[2]}, "%")
}
