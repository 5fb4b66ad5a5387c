package gaslog

import (
	"fmt"
	"strconv"
	"strings"

	"rosesalt/chem/field"
)

// Each is how far apart the rows are, in minutes; Longest is the minute of the last one.
const (
	Each    = 5
	Longest = 300
)

// The keys of where the bubbles come out, and how large one is taken to be.
const (
	KeyWhere  = "log.where"
	KeyDepth  = "log.depth"
	KeyWay    = "log.bubble"
	KeyBore   = "log.bore"
	KeyCaught = "log.caught"
	KeyFilled = "log.filled"
	KeyBefore = "log.before" // the first tap
	KeyBegins = "log.begins" // the recording
)

// What is read in a row; the key is "log.", the minute, and one of these.
const (
	Rate    = "rate"
	Celsius = "celsius"
	Paper   = "paper"
)

// Places where bubbles come out, as KeyWhere counts them.
const (
	AtFunnel     = iota // the rim under the slurry
	InBottle            // a bottle with water in the line
	JustTouching        // the funnel only meets the slurry: no bubbles
)

// Ways to know the bubble, as KeyWay counts them.
const (
	AsPlanned = iota // gas.bubble of the plan
	FromBore         // by the tube's bore
	Caught           // so many bubbles filled so many mL
)

// Where a recording begins, as KeyBegins counts them.
const (
	WithTheGas  = iota
	InTheMiddle // the air has long come over
)

// Papers, as a row counts them.
const (
	NotLooked = iota
	KeepsColour
	Fades
	Bleaches
)

// Readings are what was read and chosen, by key, each in the unit of its input; a key
// that is not there, or is Blank, was not read.
type Readings map[string]float64

// usualDepth is that of a tube's mouth, in mm (common practice).
const usualDepth = 30

// Value is a reading; where there is none, the first word of a choice, the usual depth,
// and else Blank.
func (r Readings) Value(key string) float64 { return inputs.Value(r, key) }

// Form is the readings as they are typed.
func (r Readings) Form() field.Form { return inputs.Form(field.Gas, r) }

// Tube keeps what is known of the bubble and drops the rows, as for the next run at the
// same bench.
func (r Readings) Tube() Readings {
	kept := Readings{}
	for _, key := range []string{KeyWhere, KeyDepth, KeyWay, KeyBore, KeyCaught, KeyFilled} {
		if v, ok := r[key]; ok {
			kept[key] = v
		}
	}
	return kept
}

// Key is the key of a reading of the row at a minute.
func Key(minute int, what string) string { return "log." + strconv.Itoa(minute) + "." + what }

// InputByKey finds the field of a reading.
func InputByKey(key string) (*field.Field, bool) { return inputs.Find(key) }

// Inputs are the fields of all readings: the bubble, then the rows. The caller must not
// change them.
func Inputs() []*field.Field { return inputs.Fields }

var inputs field.Readings

func init() {
	list := []field.Field{
		{
			Key: KeyWhere, Name: "The bubbles come", Why: "A funnel that only touches the slurry makes none.",
			Options: field.Words("funnel", "from a funnel or tube in the slurry", "bottle", "in a bottle of water before it", "touching", "nowhere: the funnel only touches"),
		},
		{
			Key: KeyDepth, Name: "So deep below the surface", Unit: "mm", Max: 1000, Default: usualDepth, Blank: "30 mm",
			Why:    "The tube's mouth, or the funnel's rim.",
			Remedy: "Measure it in millimetres from the surface down.",
		},
		{
			Key: KeyWay, Name: "How large a bubble is", Why: "To catch some under water is best: it sees this tube and this liquid.",
			Options: field.Words("plan", "as the plan says", "bore", "from the tube's bore", "caught", "some were caught"),
		},
		{
			Key: KeyBore, Name: "Bore of the tube", Unit: "mm", Min: 0.5, Max: 20,
			Why:    "Inside, where the bubbles leave it; under a funnel the tube counts, not the funnel.",
			Remedy: "Measure it in millimetres, inside, at the end in the liquid.",
		},
		{
			Key: KeyCaught, Name: "Bubbles caught", Min: 5, Max: 100000, Whole: true,
			Why:    "Under a cylinder full of water, at the pace of the run. Fifty or more.",
			Remedy: "Fewer than five tell nothing of one.",
		},
		{
			Key: KeyFilled, Name: "They filled", Unit: "mL", Min: 0.05, Max: 10000,
			Why:    "The water inside and outside level. Catch air: the gas itself would dissolve.",
			Remedy: "Read the cylinder in millilitres.",
		},
		{
			Key: KeyBefore, Name: "Before the first tap the gas came for", Unit: "min", Max: 1000, Blank: "0 min",
			Why:    "Nobody counted it: the first pace is taken for it.",
			Remedy: "Give minutes, from the first bubble on.",
		},
		{
			Key: KeyBegins, Name: "The recording begins", Why: "The first bubbles are air out of the flask.",
			Options: field.Words("gas", "with the gas", "later", "in the middle of the run"),
		},
	}
	for minute := Each; minute <= Longest; minute += Each {
		at := fmt.Sprintf(" at minute %d", minute)
		list = append(list, field.Field{
			Key: Key(minute, Rate), Name: "Bubbles a minute" + at, Max: 20000,
			Remedy: "Count for a minute, or for ten seconds and take it six times.",
		}, field.Field{
			Key: Key(minute, Celsius), Name: "The slurry" + at, Unit: "°C", Min: -5, Max: 105,
			Remedy: "Read the thermometer in the slurry, in degrees Celsius.",
		}, field.Field{
			Key: Key(minute, Paper), Name: "The paper at the vent" + at,
			Options: field.Words("none", "–", "keeps", "keeps its colour", "fades", "fades", "bleaches", "bleaches at once"),
		})
	}
	for i := range list {
		inputs.Add(&list[i])
	}
}

// Minute is the minute of the row that a key belongs to.
func Minute(key string) (minute int, ok bool) {
	rest, is := strings.CutPrefix(key, "log.")
	number, _, dotted := strings.Cut(rest, ".")
	minute, err := strconv.Atoi(number)
	return minute, is && dotted && err == nil && inputs.Has(key)
}
