// Package link writes a plan into the fragment of an address and reads it back.
//
// A fragment is "v=1&key=value&…", with only the values that differ from a new
// plan's, in the keys and units of package route, numbers in plain decimal. An
// interval that the user set for an input is "key~=low,high", the tolerance of a
// weighing "found.key~=half". Readings of assays are "assay.…=", those of the gas log
// "log.minute.what=" and "log.…=" for where it bubbles. A run under way adds "run=", the plan as it was fixed
// (a fragment of its own, escaped, with what had been weighed by then), and "run.done=", how many stages are done; notes
// are "notes=". How long a step takes is "time.key=minutes", when the work is done
// "days.start=2026-03-02T09:00" or "days.finish=", in sessions "days.from=09:00" of
// "days.long=minutes", "days.every=days" from one to the next. How many groups
// work the plan is "club.groups=", of them at once with gas "club.atonce=". The promise: a link
// written by this version is read by every later one, and a part that a version
// does not know is named and left out, never guessed at.
package link

import (
	"fmt"
	"math"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/club"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Version is what this program writes.
const Version = "1"

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

// Content is what a link carries: a plan, the intervals that the user set, what was
// measured of a run, and notes.
type Content struct {
	spread.Case
	Found account.Record
	Run   *Run // nil while nothing is begun
	Notes string

	Assays assay.Readings  // what was read in assays; may be nil
	Log    gaslog.Readings // what was read while gas was led in; may be nil
	Times  procedure.Times // that the user gives the steps
	Days   procedure.Days
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
		Case: spread.Case{Plan: route.NewPlan(), Given: map[string]spread.Interval{}}, Found: account.NewRecord(),
		Times: procedure.Times{}, Days: procedure.NewDays(), Club: club.New(),
	}
}

// Encode writes the fragment of a content, without the "#". A new plan with
// nothing measured is "v=1".
func Encode(c *Content) string {
	var b strings.Builder
	p := &c.Plan
	b.WriteString("v=" + Version)
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		if in.IsDefault(p) {
			continue
		}
		value := ""
		switch v := in.Value(p); {
		case in.IsChoice():
			value = in.Word(p)
		case quantity.Given(v):
			value = plain(v)
		}
		b.WriteString("&" + in.Key + "=" + url.QueryEscape(value))
	}
	for i := range inputs {
		if given, ok := c.Given[inputs[i].Key]; ok {
			b.WriteString("&" + inputs[i].Key + "~=" + plain(given.Low) + "," + plain(given.High))
		}
	}
	encodeFound(&b, &c.Found)
	encodeReadings(&b, assay.Inputs(), c.Assays)
	encodeReadings(&b, gaslog.Inputs(), c.Log)
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
	if c.Notes != "" {
		b.WriteString("&notes=" + url.QueryEscape(c.Notes))
	}
	encodeDays(&b, c)
	encodeClub(&b, c.Club)
	return b.String()
}

// encodeFound writes a mass read in a dish by its readings, others by their number.
func encodeFound(b *strings.Builder, found *account.Record) {
	write := func(key string, v float64) {
		if quantity.Given(v) {
			b.WriteString("&" + key + "=" + plain(v))
		}
	}
	for _, in := range account.Inputs() {
		if v := found.Value(in.Key); !found.InDish(in.Key) && !(account.IsFact(in.Key) && v == 0) {
			write(in.Key, v)
		}
		dish, _ := account.DishInputs(in.Key)
		for i := range dish {
			write(dish[i].Key, found.Value(dish[i].Key))
		}
		write(in.Key+"~", found.OwnHalf(in.Key))
	}
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Decode reads a fragment, with or without the "#". What it cannot take it names;
// the rest stands.
func Decode(fragment string) (Content, []Trouble) {
	return decode(fragment, false)
}

func decode(fragment string, inner bool) (Content, []Trouble) {
	r := reader{
		plan: route.NewPlan(), given: map[string]spread.Interval{}, found: account.NewRecord(), seen: map[string]bool{}, inner: inner,
		times: procedure.Times{}, days: procedure.NewDays(), club: club.New(),
	}
	fragment = strings.TrimPrefix(fragment, "#")
	if fragment == "" {
		return r.read(), nil
	}
	if len(fragment) > MaxLength {
		r.trouble(fragment, fmt.Sprintf("the link is longer than %d characters, which is no plan. Nothing of it was read", MaxLength))
		return r.read(), r.troubles
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
	for _, part := range parts {
		r.part(part)
	}
	r.settle()
	if r.run != nil {
		r.run.Done = r.done
	}
	return r.read(), r.troubles
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
var semicolon = regexp.MustCompile(`;([a-z][a-z0-9.]*)~?=`)

// parted gives a fragment whose "&" became "&amp;" in a page's source, or ";" in a program
// that parts with that, as it was. In a value this program writes neither; an interval of
// old may hold a semicolon, but before no key.
func parted(fragment string) string {
	for strings.Contains(fragment, "&amp;") {
		fragment = strings.ReplaceAll(fragment, "&amp;", "&")
	}
	return semicolon.ReplaceAllStringFunc(fragment, func(s string) string {
		if key := semicolon.FindStringSubmatch(s)[1]; isKey(key) {
			return "&" + s[1:]
		}
		return s
	})
}

// isKey tells whether this version knows a key of a link.
func isKey(key string) bool {
	known := key == "v" || key == "run" || key == "run.done" || key == "notes" || key == EndKey || IsDays(key)
	for _, find := range []func(string) (*route.Input, bool){route.InputByKey, account.InputByKey, assay.InputByKey, gaslog.InputByKey, club.InputByKey} {
		if !known {
			_, known = find(key)
		}
	}
	return known
}

func (r *reader) read() Content {
	return Content{
		Case: spread.Case{Plan: r.plan, Given: r.given}, Found: r.found, Run: r.run, Notes: r.notes,
		Assays: r.assays, Log: r.log, Times: r.times, Days: r.days, Club: r.club,
	}
}

type reader struct {
	run      *Run
	done     int
	notes    string
	times    procedure.Times
	days     procedure.Days
	club     club.Club
	inner    bool // reading the plan of a run: it holds no run of its own
	plan     route.Plan
	given    map[string]spread.Interval
	found    account.Record
	assays   assay.Readings
	log      gaslog.Readings
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
		r.trouble(part, "not a key and a value")
		return
	case key == "v":
		if !isVersion(value) {
			r.trouble(part, "no version of a link, which is a number; what is known was read")
		} else if value != Version {
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
	if !r.inner && r.aboutRun(part, key, value) || r.reading(part, key, value) || r.aboutClub(part, key, value) {
		return
	}
	if name, ok := strings.CutSuffix(key, "~"); ok {
		if in, ok := account.InputByKey(name); ok {
			if err := SetTolerance(in, &r.found, value); err != nil {
				r.trouble(part, in.Name+": "+err.Error())
			}
			return
		}
		r.interval(part, name, value)
		return
	}
	if in, ok := account.InputByKey(key); ok {
		if err := SetFound(in, &r.found, value); err != nil {
			r.trouble(part, in.Name+": "+err.Error())
		}
		return
	}
	in, ok := route.InputByKey(key)
	if !ok {
		r.trouble(part, "this version does not know “"+clip(key)+"”")
		return
	}
	if err := set(in, &r.plan, value); err != nil {
		r.trouble(part, in.Name+": "+err.Error())
	}
}

// isVersion tells whether a value can be that of a version.
var isVersion = regexp.MustCompile(`^[0-9]+$`).MatchString

// aboutRun reads what a link says of a run beside its plan and its weighings.
func (r *reader) aboutRun(part, key, value string) bool {
	switch key {
	case "run":
		c, troubles := decode(value, true)
		for _, t := range troubles {
			r.trouble(t.Part, "in the plan that the run was started from: "+t.Why)
		}
		r.run = &Run{Planned: c.Case, Before: &c.Found}
	case "run.done":
		n, err := strconv.Atoi(value)
		if err != nil || n < 0 || n > route.Stages {
			r.trouble(part, fmt.Sprintf("stages done are a whole number up to %d", route.Stages))
			break
		}
		r.done = n
	case "notes":
		if len(value) > MaxNotes {
			r.trouble(part, fmt.Sprintf("notes of more than %d characters; they were cut", MaxNotes))
		}
		if !utf8.ValidString(value) {
			r.trouble(part, "notes with letters that cannot be read (they are not UTF-8); those were left out")
		}
		r.notes = CutNotes(value)
	default:
		return r.aboutDays(part, key, value)
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

func (r *reader) interval(part, key, value string) {
	in, ok := route.InputByKey(key)
	if !ok || in.IsChoice() {
		r.trouble(part, "this version does not know an interval of “"+clip(key)+"”")
		return
	}
	given, err := ReadInterval(in, value)
	if err != nil {
		r.trouble(part, in.Name+": "+err.Error())
		return
	}
	r.given[key] = given
}

// betweenDigits finds a hyphen that parts two numbers and is no sign.
var betweenDigits = regexp.MustCompile(`^[^-]*[0-9%] *(-) *[0-9]`)

// ReadInterval reads "50,95", "50-95", "50 to 95" or "50–95" as an interval of an input.
// The ends must be in order and within the limits of the input.
func ReadInterval(in *route.Input, text string) (spread.Interval, error) {
	if hyphen := betweenDigits.FindStringSubmatchIndex(text); hyphen != nil {
		text = text[:hyphen[2]] + " to " + text[hyphen[3]:]
	}
	var ends []string
	for _, sign := range []string{" to ", "–", "…", ";", ","} {
		if ends = strings.Split(text, sign); len(ends) == 2 {
			break
		}
	}
	if len(ends) != 2 {
		return spread.Interval{}, fmt.Errorf("“%s” is not an interval. Give the low and the high, such as 50 to 95.", clip(text))
	}
	var v [2]float64
	for i, end := range ends {
		x, err := in.Read(end)
		if err != nil {
			return spread.Interval{}, err
		}
		if !quantity.Given(x) {
			return spread.Interval{}, fmt.Errorf("“%s” is not an interval. Give the low and the high.", clip(text))
		}
		if err := in.Accept(math.Round(x)); in.Whole && err != nil {
			return spread.Interval{}, err
		}
		if err := in.Accept(x); !in.Whole && err != nil {
			return spread.Interval{}, err
		}
		v[i] = x
	}
	if v[0] > v[1] {
		return spread.Interval{}, fmt.Errorf("“%s” has its high before its low. Turn them round.", clip(text))
	}
	return spread.Interval{Low: v[0], High: v[1]}, nil
}

// SetFound puts what was typed of a measurement into the record; the record's own
// limits decide.
func SetFound(in *route.Input, r *account.Record, text string) error {
	v, err := in.Read(text)
	if err != nil {
		return err
	}
	return r.Set(in.Key, v)
}

// SetTolerance puts what was typed of a measurement's tolerance into the record; blank
// brings back the usual one.
func SetTolerance(in *route.Input, r *account.Record, text string) error {
	v, err := in.Read(text)
	if err != nil {
		return err
	}
	return r.Set(in.Key+"~", v)
}

func set(in *route.Input, p *route.Plan, value string) error {
	if in.IsChoice() {
		return in.Choose(p, value)
	}
	v, err := in.Read(value)
	if err != nil {
		return err
	}
	return in.Set(p, v)
}

// settle takes back values that do not go together, as many as it needs.
func (r *reader) settle() {
	fresh := route.NewPlan()
	for range route.Inputs() {
		problems := route.Check(&r.plan)
		if len(problems) == 0 {
			return
		}
		for _, key := range problems[0].Keys {
			if in, ok := route.InputByKey(key); ok {
				in.Copy(&r.plan, &fresh)
			}
		}
		r.trouble(problems[0].Keys[0], problems[0].Message)
	}
}
