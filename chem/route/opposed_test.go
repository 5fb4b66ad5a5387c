package route

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/phrase"
)

// said is a notice by its key, and, where it says different things in different plans, by
// words of it. A key that ends in a point stands for all that begin so.
type said struct{ key, words string }

func (s said) by(n Notice) bool {
	if family, ok := strings.CutSuffix(s.key, "."); ok {
		return strings.HasPrefix(n.Key, family+".")
	}
	return n.Key == s.key && strings.Contains(n.Text, s.words)
}

// opposed are pairs of notices that cannot stand together, each with a word of why.
var opposed = []struct {
	a    said
	b    []said
	they string
}{
	{said{"cells.weigh", ""}, []said{{"cells.wet", ""}, {"cells.washed", ""}}, "ask for a weighing, and speak of it"},

	{said{"wash.nothing", ""}, []said{{"wash.last", ""}, {"wash.acid", ""}, {"wash.never", ""}, {"wash.bound", ""}}, "know of no last wash, and tell what it shows"},
	{said{"wash.last", ""}, []said{{"wash.never", ""}, {"wash.acid", ""}}, "count washes that would do, and none that would"},
	{said{"wash.bound", "A rinse with"}, []said{{"wash.manganese", ""}, {"wash.acid", ""}}, "advise a rinse, and speak of the one there is"},
	{said{"wash.manganese", ""}, []said{{"dry.purity", "a rinse of the washed mix"}, {"wash.bound", ""}}, "find the rinse too much, and none"},
	{said{"wash.potash", "silver nitrate tells nothing"}, []said{{"wash.last", ""}, {"wash.acid", ""}, {"wash.never", ""}}, "judge by pH, and by silver"},

	{said{"gas.none", ""}, []said{{"gas.short", ""}, {"gas.over", ""}, {"gas.met", ""}, {"gas.begins", ""}, {"gas.fast", ""}, {"gas.bubbles", ""}}, "know of no gas, and of some"},
	{said{"gas.short", ""}, []said{{"gas.over", ""}, {"gas.met", ""}}, "want more gas, and less"},
	{said{"gas.over", ""}, []said{{"slurry.short", ""}, {"slurry.bare", ""}, {"slurry.waits", ""}}, "see gas go past, and find work for it"},
	{said{"gas.met", ""}, []said{{"slurry.waits", ""}}, "have all oxide served, and some of it wait"},
	{said{"stir.straight", ""}, []said{{"gas.", ""}, {"vessel.charge", ""}, {"vessel.line", ""}}, "have no flask, and one"},

	{said{"slurry.short", ""}, []said{{"slurry.waits", ""}}, "let gas stand in for acid, and let the oxide wait for it"},
	{said{"dry.sticky", "too much dilute acid"}, []said{{"slurry.short", ""}, {"slurry.bare", ""}, {"slurry.waits", ""}, {"stir.acid", ""}, {"stir.oxalate", "more dilute acid"}, {"dry.purity", "for want of dilute acid"}}, "find too much dilute acid, and too little"},
	{said{"dry.fumes", ""}, []said{{"slurry.short", ""}, {"slurry.waits", ""}, {"stir.acid", "the peroxide only breaks up"}, {"stir.acid", "metabisulfite may stay"}}, "have acid left for chlorides, and none for oxide"},
	{said{"dry.purity", "less dilute acid would do"}, []said{{"slurry.short", ""}, {"slurry.bare", ""}, {"slurry.waits", ""}, {"stir.acid", ""}, {"stir.oxalate", "more dilute acid"}}, "find too much dilute acid, and too little"},
	{said{"stir.few", ""}, []said{{"stir.oxalate", "less oxalic acid"}}, "want more oxalic acid, and less"},
	{said{"stir.cold", ""}, []said{{"stir.warm", ""}, {"slurry.cold", ""}, {"slurry.dithionate", ""}}, "are of different ways"},

	{said{"filter.iron", ""}, []said{{"filter.ironleft", ""}, {"dry.purity", "keep more of the washed cake"}}, "leave the iron in, and throw it down"},

	{said{"dry.pores", ""}, []said{{"dry.between", ""}, {"dry.fumes", ""}}, "dry at less than 110 °C, and at more"},
	{said{"dry.oxalate", ""}, []said{{"dry.pores", ""}, {"dry.purity", "drying above"}, {"dry.purity", "450"}}, "forbid heat, and ask for it"},
	{said{"dry.solid", ""}, []said{{"dry.nothing", ""}, {"dry.stir", ""}}, "see all of it set, and none, or liquor to stir"},
	{said{"dry.stir", ""}, []said{{"dry.nothing", ""}, {"dry.pores", ""}, {"dry.between", ""}, {"dry.oxalate", ""}}, "see crystals, and none"},

	{said{"copper.nothing", "too much water"}, []said{{"copper.hot", ""}, {"copper.water", ""}, {"copper.acid", ""}}, "find too much water, and too little"},
	{said{"copper.hot", ""}, []said{{"copper.warm", ""}}, "find too little water, and enough"},

	{said{"waste.open", ""}, []said{{"waste.salt", ""}}, "are of different ways"},
}

// oppose names the first two notices of a plan that contradict each other; "" for none.
func oppose(list []Notice) string {
	for _, pair := range opposed {
		for _, a := range list {
			if !pair.a.by(a) {
				continue
			}
			for _, b := range list {
				for _, with := range pair.b {
					if with.by(b) {
						return a.Text + " — " + b.Text + " They " + pair.they + "."
					}
				}
			}
		}
	}
	return ""
}

// Oppose is oppose for tests from outside.
var Oppose = oppose

// TestNoTwoNoticesContradict, in random plans of every way.
func TestNoTwoNoticesContradict(t *testing.T) {
	for way, r := range reductants {
		t.Run(r.word, func(t *testing.T) {
			var b Runner
			rapid.Check(t, func(t *rapid.T) {
				p := drawPlan(t)
				p.GasSource = Choice(way)
				settle(t, p)
				if two := oppose(Notices(p, b.Run(p))); two != "" {
					t.Fatalf("%s\nplan:%s", two, link(p))
				}
			})
		})
	}
}

// TestOpposedAreNotices: the table names notices that there are, and words that they say.
func TestOpposedAreNotices(t *testing.T) {
	texts := map[string]string{}
	add := func(key string, parts []phrase.Part) {
		for _, part := range parts {
			texts[key] += part.Text + " "
			for _, more := range part.More {
				texts[key] += more.Text + " "
			}
		}
	}
	for _, b := range noticeTexts.Blocks() {
		add(b.Key, b.Parts)
	}
	for _, b := range companionTexts.Blocks() {
		add("dry.purity", b.Parts)
	}
	for _, pair := range opposed {
		require.NotEmpty(t, pair.they)
		for _, s := range append([]said{pair.a}, pair.b...) {
			if strings.HasPrefix(s.key, "vessel.") || strings.HasSuffix(s.key, ".") {
				continue
			}
			require.Contains(t, texts, s.key)
			assert.Contains(t, texts[s.key], s.words, s.key)
		}
	}
}
