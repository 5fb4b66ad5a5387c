// Package link writes a plan into the fragment of an address and reads it back.
//
// A fragment is "v=2&key=value&…", with only the values that differ from a new
// plan's, in the keys and units of package route, numbers in plain decimal. The version is
// that of the defaults of decisions (route.PlanOf): a fragment is read against those that it
// was written by, and one that names no version, which no page writes, against the newest. An
// interval that the user set for an input is "key~=low,high", the tolerance of a
// weighing "found.key~=half". Readings of assays are "assay.…=", those of the gas log
// "log.minute.what=" and "log.…=" for where it bubbles. A run under way adds "run=", the plan as it was fixed
// (a fragment of its own, escaped, with what had been weighed by then), and "run.done=", how many stages are done; notes
// are "notes=". How long a step takes is "time.key=minutes", when the work is done
// "days.start=2026-03-02T09:00" or "days.finish=", in sessions "days.from=09:00" of
// "days.long=minutes", "days.every=days" from one to the next, "days.second=days" to one
// more, but not on "days.out=" dates and spans of them ("..") with commas between. Who does a
// step that is not done in a session is "by.key=staff". How many groups
// work the plan is "club.groups=", of them at once with gas "club.atonce=". What stands on the
// shelf is "shelf.…=". The promise: a link
// written by this version is read by every later one, and a part that a version
// does not know is named and left out, never guessed at.
package link

import (
	"fmt"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/club"
	"rosesalt/chem/field"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/stock"
)

// Version is what this program writes.
const Version = route.Defaults

// Limits of what is read; beyond them a link is damaged or hostile, not a plan.
const (
	MaxLength   = 64 << 10
	MaxParts    = 1000
	MaxTroubles = 20
)

// Trouble is a part of a link that was not taken, and why.
type Trouble struct {
	Part string // as it stood, shortened
	Why  string
}

// MaxNotes is how many bytes of notes a link carries.
const MaxNotes = 4000

// Content is what a link carries: a plan, the intervals that the user set, what stands on the
// shelf, what was measured of a run, and notes.
type Content struct {
	spread.Case
	Version int // that it was read by, at most Version; 0 for one that was made anew
	Found   account.Record
	Run     *Run // nil while nothing is begun
	Notes   string

	Assays assay.Readings      // what was read in assays; may be nil
	Log    gaslog.Readings     // what was read while gas was led in; may be nil
	Times  procedure.Durations // that the user gives the steps
	Days   procedure.Days
	Hands  procedure.Hands // that do the steps
	Club   club.Club
}

// Run is a run under way or done.
type Run struct {
	Planned spread.Case     // as it was when the run was started
	Before  *account.Record // what had been measured by then; may be nil
	Done    int             // how many stages are done, from the first
}

// NewContent is that of an empty link.
func NewContent() Content {
	return Content{
		Case: spread.Case{Plan: route.NewPlan(), Given: map[string]spread.Interval{}, Shelf: stock.Shelf{}}, Found: account.NewRecord(),
		Assays: assay.Readings{}, Log: gaslog.Readings{}, Times: procedure.Durations{}, Days: procedure.NewDays(), Hands: procedure.Hands{}, Club: club.New(),
	}
}

// Following is the case whose share follows the shelf, where nobody set one; while a run is under
// way it takes what it was started with. Of what was weighed out of the cake it holds the share
// alone, which is known then, so that changes made of it may take another.
func (c *Content) Following() spread.Case {
	following := c.Case
	if c.Run != nil {
		following.Shelf = nil
	}
	if !quantity.Given(c.Plan.CakeTaken) {
		return following
	}
	plan := (&spread.Case{Plan: c.Plan, Given: c.Given}).Planned()
	share := plan.ShareWeighed()
	following.Plan.BatchShare, following.Plan.CakeTaken = share, quantity.Gram(quantity.Blank)
	return following.WithInterval(route.ShareKey, spread.Interval{Low: float64(share), High: float64(share)})
}

// Sized is the case with the share that follows the cake, or the shelf as it is now, and how the
// plan stands to the shelf.
func (c *Content) Sized() (spread.Case, stock.Fitted) {
	sized, fitted := c.Following().Sized()
	sized.Plan.CakeTaken = c.Plan.CakeTaken
	return sized, fitted
}

// Planned is the plan to compute.
func (c *Content) Planned() route.Plan {
	following := c.Following()
	return following.Planned()
}

// Forms are all that may be typed, in the order in which a link writes it.
func (c *Content) Forms() []field.Form { return append(c.begun(), c.beside()...) }

// begun are the forms before which a link writes the run under way; the first of them are
// those of the plan that it was started from.
func (c *Content) begun() []field.Form {
	return append(c.planned(), c.Assays.Form(), c.Log.Form())
}

func (c *Content) planned() []field.Form {
	return []field.Form{c.Plan.Form(), c.Case.Form(), c.Found.Form()}
}

func (c *Content) beside() []field.Form {
	return []field.Form{c.notes(), c.Days.Form(), c.Times.Form(), c.Hands.Form(), c.Club.Form(), c.Shelf.Form()}
}

// NotesKey is the key of the notes.
const NotesKey = "notes"

var notesField = field.Field{Key: NotesKey, Name: "Notes on the run", Kind: field.Text}

// notes are as much of them as a link carries.
func (c *Content) notes() field.Form {
	fields := []*field.Field{&notesField}
	return field.Form{
		Affects: field.Nothing, Fields: fields,
		Find:    func(key string) (*field.Field, bool) { return field.Find(fields, key) },
		Text:    func(*field.Field) string { return c.Notes },
		Written: func(*field.Field) (string, bool) { return c.Notes, c.Notes != "" },
		Set: func(_ *field.Field, text string) error {
			c.Notes = CutNotes(text)
			return nil
		},
	}
}

// NewPlan is the fragment of a new plan with nothing measured.
var NewPlan = "v=" + strconv.Itoa(Version)

// Encode writes the fragment of a content, without the "#".
func Encode(c *Content) string {
	var b strings.Builder
	b.WriteString("v=" + strconv.Itoa(Version))
	whole := *c // forms put right what was never set
	write(&b, whole.begun())
	if c.Run != nil {
		planned := Content{Case: c.Run.Planned, Found: account.NewRecord()}
		if c.Run.Before != nil {
			planned.Found = *c.Run.Before
		}
		b.WriteString("&run=" + url.QueryEscape(Encode(&planned)))
		if c.Run.Done > 0 {
			b.WriteString("&run.done=" + strconv.Itoa(c.Run.Done))
		}
	}
	write(&b, whole.beside())
	return b.String()
}

// readable are signs that need no escape in a fragment, and that dates, times and intervals
// are read by.
var readable = strings.NewReplacer("%3A", ":", "%2C", ",")

func write(b *strings.Builder, forms []field.Form) {
	for _, form := range forms {
		for _, f := range form.Fields {
			text, ok := form.Written(f)
			if !ok {
				continue
			}
			text = url.QueryEscape(text)
			if f.Kind != field.Text {
				text = readable.Replace(text)
			}
			b.WriteString("&" + f.Key + "=" + text)
		}
	}
}

// Decode reads a fragment, with or without the "#". What it cannot take it names;
// the rest stands.
func Decode(fragment string) (Content, []Trouble) {
	return decode(fragment, false)
}

func decode(fragment string, inner bool) (Content, []Trouble) {
	r := reader{Content: NewContent(), seen: map[string]bool{}, inner: inner}
	r.forms = r.Forms()
	if inner {
		r.forms = r.planned()
	}
	r.decode(fragment)
	return r.Content, r.troubles
}

// versionOf is the version that a fragment names, at most Version; that where it names none.
func versionOf(parts []string) int {
	for _, part := range parts {
		if value, ok := strings.CutPrefix(part, "v="); ok && isVersion(value) {
			n, err := strconv.Atoi(value)
			if err != nil {
				break // more than any number
			}
			return min(max(n, 1), Version)
		}
	}
	return Version
}

func (r *reader) decode(fragment string) {
	fragment = strings.TrimPrefix(fragment, "#")
	if fragment == "" {
		return
	}
	if len(fragment) > MaxLength {
		r.trouble(fragment, fmt.Sprintf("the link is longer than %d characters, which is no plan. Nothing of it was read", MaxLength))
		return
	}
	fragment = parted(unescaped(fragment))
	parts := strings.Split(fragment, "&")
	if len(parts) > MaxParts {
		r.trouble(parts[MaxParts], fmt.Sprintf("the link has %d parts; the first %d were read", len(parts), MaxParts))
		parts = parts[:MaxParts]
	}
	if before, _, ok := strings.Cut(fragment, "&"+EndKey+"="); ok {
		r.sum = check(before)
	}
	r.Version = versionOf(parts)
	r.Plan = route.PlanOf(r.Version)
	for _, part := range parts {
		r.part(part)
	}
	r.settle()
	if r.Run != nil {
		r.Run.Done = r.done
	}
}

// unescaped gives a fragment whose every sign was written out on its way through a
// program that takes no "=" or "&" for its own ("v%3D1%26…") as it was.
func unescaped(fragment string) string {
	if strings.Contains(fragment, "=") {
		return fragment
	}
	whole, err := url.PathUnescape(fragment)
	if err != nil || !strings.Contains(whole, "=") {
		return fragment
	}
	return whole
}

// semicolon is one that may stand in the place of "&": before a key.
var semicolon = lazily(`;([a-z][a-z0-9.]*)~?=`)

// lazily gives an expression that is compiled when it is first asked for: most pages open
// and close without.
func lazily(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// parted gives a fragment whose "&" became "&amp;" in a page's source, or ";" in a program
// that parts with that, as it was. In a value this program writes neither; an interval of
// old may hold a semicolon, but before no key.
func parted(fragment string) string {
	for strings.Contains(fragment, "&amp;") {
		fragment = strings.ReplaceAll(fragment, "&amp;", "&")
	}
	if !strings.Contains(fragment, ";") {
		return fragment
	}
	return semicolon().ReplaceAllStringFunc(fragment, func(s string) string {
		if key := semicolon().FindStringSubmatch(s)[1]; isKey(key) {
			return "&" + s[1:]
		}
		return s
	})
}

// isKey tells whether this version knows a key of a link.
func isKey(key string) bool {
	_, _, ok := Find(empty(), key)
	return ok || key == "v" || key == "run" || key == "run.done" || key == EndKey
}

// empty are the forms of an empty link, to look keys up.
var empty = sync.OnceValue(func() []field.Form {
	c := NewContent()
	return c.Forms()
})

// Find looks for the form that has a key.
func Find(forms []field.Form, key string) (*field.Form, *field.Field, bool) {
	for i := range forms {
		if f, ok := forms[i].Find(key); ok {
			return &forms[i], f, true
		}
	}
	return nil, nil, false
}

type reader struct {
	Content
	forms    []field.Form
	done     int
	inner    bool // reading the plan of a run: it holds no run of its own
	seen     map[string]bool
	sum      string // the check that a fragment out of a text should end with
	troubles []Trouble
	more     int
}

func (r *reader) trouble(part, why string) {
	if len(r.troubles) == MaxTroubles {
		r.more++
		r.troubles[MaxTroubles-1] = Trouble{"", fmt.Sprintf("%d further parts were not taken either", r.more+1)}
		return
	}
	r.troubles = append(r.troubles, Trouble{clip(part), why})
}

func clip(s string) string { return route.Clip(s, 60) }

func (r *reader) part(part string) {
	if part == "" {
		return
	}
	key, value, ok := strings.Cut(part, "=")
	key, err := url.QueryUnescape(key)
	if err == nil {
		value, err = url.QueryUnescape(value)
	}
	switch {
	case !ok || err != nil:
		r.trouble(part, "not a key and a value; a link may be cut off on its way: copy all of it, or ask for it again")
		return
	case key == "v":
		if !isVersion(value) {
			r.trouble(part, "no version of a link, which is a number; what is known was read")
		} else if n, err := strconv.Atoi(value); err != nil || n < 1 || n > Version {
			r.trouble(part, "the link was written by another version; what this one knows was read")
		}
		return
	case key == EndKey && !r.inner:
		if value != r.sum {
			r.trouble(part, "a part of the plan was lost or changed on its way here: its check does not fit")
		}
		return
	case r.seen[key]:
		r.trouble(part, "stands twice; the first was taken")
		return
	}
	r.seen[key] = true
	if !r.inner && r.aboutRun(part, key, value) {
		return
	}
	form, f, ok := Find(r.forms, key)
	switch name, interval := strings.CutSuffix(key, "~"); {
	case !ok && interval:
		r.trouble(part, "this version does not know an interval of “"+clip(name)+"”")
	case !ok:
		r.trouble(part, "this version does not know “"+clip(key)+"”")
	case f.Both != "" && r.seen[f.Clears]:
		r.trouble(part, f.Both)
	default:
		err := form.Set(f, value)
		if f.Kind == field.Interval && strings.TrimSpace(value) == "" {
			_, err = spread.ReadInterval(f, value) // a link says nothing of the usual one
		}
		if err != nil {
			r.trouble(part, f.Says(err))
		}
	}
}

// isVersion tells whether a value can be that of a version.
func isVersion(value string) bool { return value != "" && strings.Trim(value, "0123456789") == "" }

// aboutRun reads what a link says of a run beside its plan and its weighings.
func (r *reader) aboutRun(part, key, value string) bool {
	switch key {
	case "run":
		c, troubles := decode(value, true)
		for _, t := range troubles {
			r.trouble(t.Part, "in the plan that the run was started from: "+t.Why)
		}
		r.Run = &Run{Planned: c.Case, Before: &c.Found}
	case "run.done":
		n, err := strconv.Atoi(value)
		if err != nil || n < 0 || n > route.Stages {
			r.trouble(part, fmt.Sprintf("stages done are a whole number up to %d", route.Stages))
			break
		}
		r.done = n
	case NotesKey:
		if len(value) > MaxNotes {
			r.trouble(part, fmt.Sprintf("notes of more than %d characters; they were cut", MaxNotes))
		}
		if !utf8.ValidString(value) {
			r.trouble(part, "notes with letters that cannot be read (they are not UTF-8); those were left out")
		}
		r.Notes = CutNotes(value)
	default:
		return false
	}
	return true
}

// CutNotes is as much of a text as a link carries, cut between letters.
func CutNotes(text string) string {
	text = strings.ToValidUTF8(text, "")
	if len(text) <= MaxNotes {
		return text
	}
	return strings.ToValidUTF8(text[:MaxNotes], "")
}

// settle takes back values that do not go together, as many as it needs.
func (r *reader) settle() {
	fresh := route.PlanOf(r.Version)
	for range route.Inputs() {
		problems := route.Check(&r.Plan)
		if len(problems) == 0 {
			return
		}
		for _, key := range problems[0].Keys {
			if in, ok := route.InputByKey(key); ok {
				in.Copy(&r.Plan, &fresh)
			}
		}
		r.trouble(problems[0].Keys[0], problems[0].Message)
	}
}
