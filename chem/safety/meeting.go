package safety

import (
	"slices"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

// Thing is a substance or mixture that could be mixed with another by mistake: made by a
// plan or left over from it, or found in a household or a school.
type Thing uint8

// What a plan makes, or leaves over.
const (
	WashLiquor Thing = iota
	WashLye
	BlackMix // damp cake and spare oxide
	DiluteAcid
	StrongAcid // as bought, and in the copper generator's flask
	Slurry
	RoseLiquor // the filtrate
	PinkLiquor // the manganese mother liquor
	BlueLiquor // the copper mother liquor
	SpentLiquid
	ScrubberLiquid
	BlackResidue
	BlackPowder
	SilverDrops
	PermanganatePapers
	PinkSalt
	BlueSalt
	ZincCans
	ZincGel
	SpareMetabisulfite
	SparePeroxide
	SpareOxalic
	Thiocyanate      // drops of the test for iron
	Hexacyanoferrate // drops of the test for zinc
)

// What stands in a household or a school.
const (
	Bleach         Thing = iota + Hexacyanoferrate + 1
	CausticCleaner       // sodium hydroxide, often with aluminium
	AcidCleaner          // sulfuric acid
	Lime                 // or cement
	Soda
	Permanganate
	NitricAcid
	HydrochloricAcid // as in cleaners for brick and toilets
	FoodAcid         // vinegar, citric acid, descaler
	Peroxide
	Ammonia
	Metal      // zinc, iron, aluminium
	Fuel       // alcohol, oil, paper, sawdust
	Things int = iota + int(Hexacyanoferrate) + 1
)

var things = [...]struct {
	name string
	when string // the condition under which it occurs; wash liquor and lye may be left from other runs
}{
	WashLiquor:         {name: "wash liquor"},
	WashLye:            {name: "wash lye"},
	BlackMix:           {name: "black mix"},
	DiluteAcid:         {name: "dilute acid"},
	StrongAcid:         {name: "strong acid"},
	Slurry:             {name: "slurry"},
	RoseLiquor:         {name: "filtrate"},
	PinkLiquor:         {name: "pink mother liquor"},
	BlueLiquor:         {"blue mother liquor", "copper salt"},
	SpentLiquid:        {"spent liquid of the generator", "metabisulfite"},
	ScrubberLiquid:     {"scrubber liquid", "scrubber"},
	BlackResidue:       {name: "black residue"},
	BlackPowder:        {"black powder from the generator", "copper salt"},
	SilverDrops:        {"silver drops", "zinc-carbon"},
	PermanganatePapers: {"permanganate papers", "sulfurous"},
	PinkSalt:           {name: "manganese salt"},
	BlueSalt:           {"blue crystals", "copper salt"},
	ZincCans:           {"zinc cans", "zinc-carbon"},
	ZincGel:            {"zinc gel", "alkaline"},
	SpareMetabisulfite: {"spare metabisulfite", "bisulfite"},
	SparePeroxide:      {"spare peroxide", "peroxide"},
	SpareOxalic:        {"spare oxalic acid", "oxalic"},
	Thiocyanate:        {name: "thiocyanate drops"},
	Hexacyanoferrate:   {name: "hexacyanoferrate drops"},
	Bleach:             {name: "chlorine bleach"},
	CausticCleaner:     {name: "caustic drain cleaner"},
	AcidCleaner:        {name: "acid drain cleaner"},
	Lime:               {name: "lime"},
	Soda:               {name: "soda"},
	Permanganate:       {name: "permanganate"},
	NitricAcid:         {name: "nitric acid"},
	HydrochloricAcid:   {name: "hydrochloric acid"},
	FoodAcid:           {name: "food acids such as vinegar"},
	Peroxide:           {name: "hydrogen peroxide"},
	Ammonia:            {name: "ammonia"},
	Metal:              {name: "metals such as zinc"},
	Fuel:               {name: "anything that burns"},
}

// String is the thing's name, in the middle of a sentence.
func (t Thing) String() string { return things[t].name }

// Household reports whether a thing is found in a house or school, in any plan.
func (t Thing) Household() bool { return t >= Bleach }

// In reports whether a thing occurs in a plan, or may be at hand beside it.
func (t Thing) In(p *route.Plan) bool {
	return things[t].when == "" || route.Holds(p, things[t].when)
}

// Meeting is what comes of mixing any of some things with any of some others.
type Meeting struct {
	Of, With []Thing
	Harm     bool   // they must never meet; else Comes says why little is to be expected
	Comes    string // what comes of it, without a full stop
	Instead  string // what to do instead, a sentence; empty where there is nothing
	Source   string
}

// Meetings are all of the table, the gravest first. The caller must not change them.
func Meetings() []Meeting { return meetings[:] }

// Meet is what the table says of two things, in either order.
func Meet(a, b Thing) (Meeting, bool) {
	for _, m := range meetings {
		if slices.Contains(m.Of, a) && slices.Contains(m.With, b) || slices.Contains(m.Of, b) && slices.Contains(m.With, a) {
			return m, true
		}
	}
	return Meeting{}, false
}

// others are the things of a plan that a meeting brings together with t.
func (m *Meeting) others(t Thing, p *route.Plan) []Thing {
	var list []Thing
	add := func(side []Thing) {
		for _, o := range side {
			if o.In(p) {
				list = append(list, o)
			}
		}
	}
	if slices.Contains(m.Of, t) {
		add(m.With)
	}
	if slices.Contains(m.With, t) {
		add(m.Of)
	}
	return list
}

// MeetingsOf are those meetings of which a plan has both sides, with nothing else in them.
func MeetingsOf(p *route.Plan) []Meeting {
	here := func(side []Thing) []Thing {
		return slices.DeleteFunc(slices.Clone(side), func(t Thing) bool { return !t.In(p) })
	}
	var list []Meeting
	for _, m := range meetings {
		if m.Of, m.With = here(m.Of), here(m.With); len(m.Of) > 0 && len(m.With) > 0 {
			list = append(list, m)
		}
	}
	return list
}

// Never is what a thing must never meet in a plan, each with what comes of it, the gravest
// first; at most so many lines.
func Never(t Thing, p *route.Plan, most int) []string {
	var list []string
	for i := range meetings {
		m := &meetings[i]
		if with := m.others(t, p); m.Harm && len(with) > 0 && len(list) < most {
			list = append(list, Listed(with)+": "+m.Comes)
		}
	}
	return list
}

// Warn is a sentence: what a thing never meets, and what would come of it. A pair that the
// table does not forbid is a mistake of the program and panics.
func Warn(t Thing, with ...Thing) string {
	return warn(t, with, func(m *Meeting) string { return m.Comes })
}

// Brief is Warn in the fewest words, for the bench: what comes of it, without what that does.
func Brief(t Thing, with ...Thing) string { return warn(t, with, (*Meeting).gas) }

// gas is what comes of a meeting, up to the first comma: the name without its effect.
func (m *Meeting) gas() string {
	name, _, _ := strings.Cut(m.Comes, ",")
	return name
}

func warn(t Thing, with []Thing, comes func(*Meeting) string) string {
	text, before := phrase.Capital(t.String())+" never with ", ""
	for i := 0; i < len(with); {
		m, ok := Meet(t, with[i])
		if !ok || !m.Harm {
			panic("safety: no harm in the table of " + t.String() + " and " + with[i].String())
		}
		same := i + 1
		for same < len(with) {
			if next, _ := Meet(t, with[same]); next.Comes != m.Comes {
				break
			}
			same++
		}
		text += before + Listed(with[i:same]) + ": " + comes(&m)
		before, i = "; nor with ", same
	}
	return text + "."
}

// Listed are the names of things in a row: "a, b or c".
func Listed(list []Thing) string {
	var names []string
	for _, t := range list {
		names = append(names, t.String())
	}
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
