// Package link writes a plan into the fragment of an address and reads it back.
//
// A fragment is "v=1&key=value&…", with only the values that differ from a new
// plan's, in the keys and units of package route, numbers in plain decimal. An
// interval that the user set for an input is "key~=low,high". The promise: a link
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

	"rosesalt/chem/account"
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

// Content is what a link carries: a plan, the intervals that the user set, and
// what was measured of a run.
type Content struct {
	spread.Case
	Found account.Record
}

// NewContent is that of an empty link.
func NewContent() Content {
	return Content{spread.Case{Plan: route.NewPlan(), Given: map[string]spread.Interval{}}, account.NewRecord()}
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
	for _, in := range account.Inputs() {
		if v := c.Found.Value(in.Key); quantity.Given(v) && !(account.IsFact(in.Key) && v == 0) {
			b.WriteString("&" + in.Key + "=" + plain(v))
		}
	}
	return b.String()
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Decode reads a fragment, with or without the "#". What it cannot take it names;
// the rest stands.
func Decode(fragment string) (Content, []Trouble) {
	r := reader{plan: route.NewPlan(), given: map[string]spread.Interval{}, found: account.NewRecord(), seen: map[string]bool{}}
	fragment = strings.TrimPrefix(fragment, "#")
	if fragment == "" {
		return r.read(), nil
	}
	if len(fragment) > MaxLength {
		r.trouble(fragment, fmt.Sprintf("the link is %d characters long; more than %d is no plan. Nothing of it was read", len(fragment), MaxLength))
		return r.read(), r.troubles
	}
	parts := strings.Split(fragment, "&")
	if len(parts) > MaxParts {
		r.trouble(parts[MaxParts], fmt.Sprintf("the link has %d parts; the first %d were read", len(parts), MaxParts))
		parts = parts[:MaxParts]
	}
	for _, part := range parts {
		r.part(part)
	}
	r.settle()
	return r.read(), r.troubles
}

func (r *reader) read() Content {
	return Content{spread.Case{Plan: r.plan, Given: r.given}, r.found}
}

type reader struct {
	plan     route.Plan
	given    map[string]spread.Interval
	found    account.Record
	seen     map[string]bool
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

func clip(s string) string {
	if runes := []rune(s); len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	return s
}

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
		if value != Version {
			r.trouble(part, "the link was written by another version; what this one knows was read")
		}
		return
	case r.seen[key]:
		r.trouble(part, "stands twice; the first was taken")
		return
	}
	r.seen[key] = true
	if name, ok := strings.CutSuffix(key, "~"); ok {
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
