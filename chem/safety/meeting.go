package safety

import (
	"slices"
	"strings"
	"sync"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

// Thing is a substance or mixture that could be mixed with another by mistake: made by a
// plan or left over from it, or found in a household or a school. It goes by its name in the
// middle of a sentence.
type Thing string

var (
	things    = phrase.Open(&files, "things")
	meetTable = phrase.Open(&files, "meetings", "of", "with", "comes", "instead", "source")
)

// occurs are all things, with the conditions under which they occur.
var occurs = sync.OnceValue(func() map[Thing]phrase.When {
	list := map[Thing]phrase.When{}
	for _, b := range things.Blocks() {
		list[Thing(b.Key)] = b.When
	}
	return list
})

// thingsOf are the things of those names, "a, b"; one that is not there panics.
func thingsOf(names string) []Thing {
	var list []Thing
	for name := range strings.SplitSeq(names, ", ") {
		Thing(name).when()
		list = append(list, Thing(name))
	}
	return list
}

// when is the condition under which a thing occurs; one that is not there panics.
func (t Thing) when() phrase.When {
	when, ok := occurs()[t]
	if !ok {
		panic("safety: no thing " + string(t))
	}
	return when
}

// In reports whether a thing occurs in a plan, or may be at hand beside it.
func (t Thing) In(p *route.Plan) bool { return t.when().Holds(teller(p, nil)) }

// here are those of a list that occur in a plan.
func here(list []Thing, p *route.Plan) []Thing {
	return slices.DeleteFunc(slices.Clone(list), func(t Thing) bool { return !t.In(p) })
}

// Meeting is what comes of mixing any of some things with any of some others.
type Meeting struct {
	Of, With []Thing
	Harm     bool   // they must never meet; else Comes says why little is to be expected
	Comes    string // what comes of it, without a full stop
	Instead  string // what to do instead, a sentence; empty where there is nothing
	Source   string
}

// meetings are all of the table, the gravest first.
var meetings = sync.OnceValue(func() (list []Meeting) {
	sources := &route.Teller{Own: func(t *route.Teller, name string) (route.PlaceValue, bool) { return t.From(shared, name) }}
	for _, m := range meetTable.Of(sources, "") {
		list = append(list, Meeting{thingsOf(m.One("of")), thingsOf(m.One("with")), m.Key == "harm", m.One("comes"), m.One("instead"), m.One("source")})
	}
	return list
})

// Meet is what the table says of two things, in either order.
func Meet(a, b Thing) (Meeting, bool) {
	for _, m := range meetings() {
		if slices.Contains(m.Of, a) && slices.Contains(m.With, b) || slices.Contains(m.Of, b) && slices.Contains(m.With, a) {
			return m, true
		}
	}
	return Meeting{}, false
}

// others are the things of a plan that a meeting brings together with t.
func (m *Meeting) others(t Thing, p *route.Plan) (list []Thing) {
	if slices.Contains(m.Of, t) {
		list = here(m.With, p)
	}
	if slices.Contains(m.With, t) {
		list = append(list, here(m.Of, p)...)
	}
	return list
}

// MeetingsOf are those meetings of which a plan has both sides, with nothing else in them.
func MeetingsOf(p *route.Plan) []Meeting {
	var list []Meeting
	for _, m := range meetings() {
		if m.Of, m.With = here(m.Of, p), here(m.With, p); len(m.Of) > 0 && len(m.With) > 0 {
			list = append(list, m)
		}
	}
	return list
}

// Never is what a thing must never meet in a plan, each with what comes of it, the gravest
// first; at most so many lines.
func Never(t Thing, p *route.Plan, most int) []string {
	var list []string
	for _, m := range meetings() {
		if with := m.others(t, p); m.Harm && len(with) > 0 && len(list) < most {
			list = append(list, Listed(with)+": "+m.Comes)
		}
	}
	return list
}

// gas is what comes of a meeting, up to the first comma: the name without its effect.
func (m *Meeting) gas() string {
	name, _, _ := strings.Cut(m.Comes, ",")
	return name
}

// warn is a sentence: what a thing never meets, and what would come of it, in full or in the
// fewest words. A pair that the table does not forbid is a mistake of the program and panics.
func warn(t Thing, with []Thing, short bool) string {
	text, before := phrase.Capital(string(t))+" never with ", ""
	for i := 0; i < len(with); {
		m, ok := Meet(t, with[i])
		if !ok || !m.Harm {
			panic("safety: no harm in the table of " + string(t) + " and " + string(with[i]))
		}
		same := i + 1
		for same < len(with) {
			if next, _ := Meet(t, with[same]); next.Comes != m.Comes {
				break
			}
			same++
		}
		comes := m.Comes
		if short {
			comes = m.gas()
		}
		text += before + Listed(with[i:same]) + ": " + comes
		before, i = "; nor with ", same
	}
	return text + "."
}

// Listed are the names of things in a row: "a, b or c".
func Listed(list []Thing) string { return phrase.List(list, "or") }
