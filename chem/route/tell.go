package route

import (
	"embed"
	"slices"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
)

//go:embed text/*/*.txt
var files embed.FS

var stageWords = [Stages]string{"cells", "wash", "batch", "gas", "slurry", "filter", "dry", "copper", "waste"}

// Word is the stage in a word, as the keys of texts have it.
func (s Stage) Word() string { return stageWords[s] }

// conditions that texts may name (see package phrase), besides "has" with the name of a place
// (something, above 0), "known" (a value at all) and "uses" with the key of an input, and
// those that the ways of reducing the oxide declare.
var conditions = [...]struct {
	name  string
	holds func(*Plan) bool
}{
	{"gas", Gaseous},      // from a generator
	{"hot acid", HotAcid}, // over a flame
	{"copper salt", MakesCopperSalt},
	{"warm", WorksWarm},
	{"scrubber", Scrubbed},   // behind a closed vessel
	{"sulfurous", Sulfurous}, // gas led in, or set free in the slurry
	{"alkaline", Alkaline},
	{"zinc-carbon", zincCarbon},
	{"several absorbers", func(p *Plan) bool { return Gaseous(p) && Absorbers(p) > 1 }}, // slurry vessels, one behind the other
	{"several batches", func(p *Plan) bool { return BatchCount(p) > 1 }},
	{"acid rinse", Rinses},
	{"dried down", driedDown},
	{"crystallised", func(p *Plan) bool { return p.DryWay == ToCrystals }},
	{"grown hot", GrownHot},
	{"iron thrown down", ThrowsIronDown},
}

// Holds tells whether a condition of the table, or of what the plan uses, holds in a plan; an
// unknown one panics.
func Holds(p *Plan, condition string) bool {
	if key, ok := strings.CutPrefix(condition, "uses "); ok {
		if _, ok := InputByKey(key); ok {
			return Uses(p, key)
		}
	}
	for _, r := range reductants {
		if slices.Contains(r.conditions, condition) {
			return slices.Contains(reducing(p).conditions, condition)
		}
	}
	for i := range conditions {
		if conditions[i].name == condition {
			return conditions[i].holds(p)
		}
	}
	panic("route: no condition " + condition)
}

// PlaceValue is what stands at a place of a text: words, or a number with its unit.
type PlaceValue struct {
	Words  string
	Number float64
	Unit   string
}

// Words are words at a place; "" for none.
func Words(text string) PlaceValue { return PlaceValue{Words: text, Number: quantity.Blank} }

// Something tells whether there are words, or a number above 0.
func (s PlaceValue) Something() bool { return s.Words != "" || s.Number > 0 }

// String is it as read; "" for a number that is not given.
func (s PlaceValue) String() string {
	if s.Words != "" {
		return s.Words
	}
	return PrintGiven(s.Number, s.Unit)
}

// Teller tells texts of a plan ([phrase.Teller]). Places are the keys of figures and inputs;
// with " per batch" behind, the part of it that one batch takes; and the caller's own.
type Teller struct {
	Plan  *Plan
	Sheet *Sheet // nil for texts that name no figure

	// Own are the caller's places, asked first; nil where there are none.
	Own func(t *Teller, name string) (said PlaceValue, ok bool)
}

// If is words at a place that a text only asks for, by "has": some where something holds.
func If(holds bool) string {
	if holds {
		return "so"
	}
	return ""
}

// Own are places of a caller's own, for a [Teller]: their names, each before what stands there.
func Own(places ...string) func(*Teller, string) (PlaceValue, bool) {
	return func(_ *Teller, name string) (PlaceValue, bool) {
		for i := 0; i < len(places); i += 2 {
			if places[i] == name {
				return Words(places[i+1]), true
			}
		}
		return PlaceValue{}, false
	}
}

// Tell is the block of a key as it reads in a plan, whose sheet may be nil as in a [Teller]. Behind
// it stand the places that are no keys of figures or inputs, as for [Own].
func Tell(book *phrase.Book, key string, p *Plan, s *Sheet, places ...string) phrase.Told {
	return book.At(key, &Teller{Plan: p, Sheet: s, Own: Own(places...)})
}

// Holds tells whether a condition holds; an unknown one panics.
func (t *Teller) Holds(condition string) bool {
	if name, ok := strings.CutPrefix(condition, "has "); ok {
		return t.At(name).Something()
	}
	if name, ok := strings.CutPrefix(condition, "known "); ok {
		said := t.At(name)
		return said.Words != "" || quantity.Given(said.Number)
	}
	return Holds(t.Plan, condition)
}

// Place is what stands at a place, as read.
func (t *Teller) Place(name string) string { return t.At(name).String() }

// At is what stands at a place; one that is not there panics.
func (t *Teller) At(name string) PlaceValue {
	if t.Own != nil {
		if said, ok := t.Own(t, name); ok {
			return said
		}
	}
	if whole, ok := strings.CutSuffix(name, " per batch"); ok {
		said := t.At(whole)
		said.Number /= BatchCount(t.Plan)
		return said
	}
	if id, ok := FigureByKey(name); ok && t.Sheet != nil {
		if id.Info().Words != nil {
			return Words(t.Sheet.Word(id))
		}
		return PlaceValue{Number: t.Sheet.Value(id), Unit: id.Info().Unit}
	}
	if in, ok := InputByKey(name); ok {
		return PlaceValue{Number: in.Value(t.Plan), Unit: in.Unit}
	}
	switch name {
	case "clean washes": // the last of them, which want distilled water
		switch n := cleanWashes(t.Sheet); n {
		case 0:
			return Words("")
		case 1:
			return Words("wash")
		default:
			return Words(Count(n, "wash", "washes"))
		}
	case "pinch test":
		return Words(PinchTest)
	case "gas begins":
		return PlaceValue{Number: float64(gasFromCelsius)}
	case "acid at most":
		return PlaceValue{Number: float64(hottestCelsius), Unit: "°C"}
	case "thermometer at most":
		return PlaceValue{Number: float64(thermometerMost), Unit: "°C"}
	case "salt bears":
		return PlaceValue{Number: float64(reducing(t.Plan).bears), Unit: "°C"}
	}
	panic("route: no place " + name + "; figures are places only where there is a sheet")
}

// From is the part "text" of the block of a key, as what stands at a place; not ok where the
// book has no such block for this plan.
func (t *Teller) From(book *phrase.Book, key string) (said PlaceValue, ok bool) {
	told, ok := book.Find(key, t)
	return Words(told.One("text")), ok
}
