// Package link writes a plan into the fragment of an address and reads it back.
//
// A fragment is "v=1&key=value&…", with only the values that differ from a new
// plan's, in the keys and units of package route, numbers in plain decimal. The
// promise: a link written by this version is read by every later one, and a
// part that a version does not know is named and left out, never guessed at.
package link

import (
	"fmt"
	"math"
	"net/url"
	"strconv"
	"strings"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
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

// Encode writes the plan's fragment, without the "#". A new plan is "v=1".
func Encode(p *route.Plan) string {
	var b strings.Builder
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
			value = strconv.FormatFloat(v, 'f', -1, 64)
		}
		b.WriteString("&" + in.Key + "=" + url.QueryEscape(value))
	}
	return b.String()
}

// Decode reads a fragment, with or without the "#", into a new plan. What it
// cannot take it names; the rest stands.
func Decode(fragment string) (route.Plan, []Trouble) {
	r := reader{plan: route.NewPlan(), seen: map[string]bool{}}
	fragment = strings.TrimPrefix(fragment, "#")
	if fragment == "" {
		return r.plan, nil
	}
	if len(fragment) > MaxLength {
		r.trouble(fragment, fmt.Sprintf("the link is %d characters long; more than %d is no plan. Nothing of it was read", len(fragment), MaxLength))
		return r.plan, r.troubles
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
	return r.plan, r.troubles
}

type reader struct {
	plan     route.Plan
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
	in, ok := route.InputByKey(key)
	if !ok {
		r.trouble(part, "this version does not know “"+clip(strings.TrimSuffix(key, "~"))+"”")
		return
	}
	if err := set(in, &r.plan, value); err != nil {
		r.trouble(part, in.Name+": "+err.Error())
	}
}

func set(in *route.Input, p *route.Plan, value string) error {
	if in.IsChoice() {
		return in.Choose(p, value)
	}
	v, err := in.Read(value)
	if err != nil {
		return err
	}
	if math.IsInf(v, 0) {
		return fmt.Errorf("“%s” is beyond any limit", clip(value))
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
