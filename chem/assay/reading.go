package assay

import (
	"cmp"
	"embed"
	"math"
	"slices"
	"strconv"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/formula"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Readings are what was read and chosen, by key, each in the unit of its input; a
// key that is not there, or is Blank, was not read.
type Readings map[string]float64

// Value is a reading; Blank where there is none, and the field's default where it
// has one.
func (r Readings) Value(key string) float64 { return inputs.Value(r, key) }

// Form is the readings as they are typed.
func (r Readings) Form() field.Form { return inputs.Form(field.Assays, r) }

// Air is the air that the balance and the flask stand in.
type Air struct{ Pressure quantity.Kilopascal }

// Purpose is what a method is for.
type Purpose int

// The purposes.
const (
	OfMix     Purpose = iota // an assay of the washed dry black mix
	OfProduct                // an assay of the manganese sulfate
	OfTitrant                // finds the strength of a titrant
)

// Method is one way to find something out.
type Method struct {
	Key     string // the keys of its readings begin with it and a dot
	Name    string
	Purpose Purpose
	Burette bool // it takes a burette
	Inputs  []field.Field
	serves  string // of a titrant, where its strength goes
	work    func(*work)
}

//go:embed text/*/*.txt
var files embed.FS

var texts = phrase.Open(&files, "methods", "step")

// Steps are what is done, in sentences.
func (m *Method) Steps() []string { return texts.At(m.Key, nil).All("step") }

// InputByKey finds the field of a reading, those of the shared ware among them.
func InputByKey(key string) (*field.Field, bool) { return inputs.Find(key) }

// Inputs are the fields of all readings, in the order of methods, those of the shared ware
// first. The caller must not change them.
func Inputs() []*field.Field { return inputs.Fields }

var (
	// methods are all methods, titrants first, then the mix, then the product.
	methods = []*Method{permanganate, edetate, loss, oxalate, volhard, chelate, ignition}
	inputs  field.Readings
)

func init() {
	list := func(all []field.Field) {
		for i := range all {
			inputs.Add(&all[i])
		}
	}
	list(Shared)
	for _, m := range methods {
		list(m.Inputs)
	}
}

// grams is the reading of a mass that must be weighed.
func grams(key, name string, most float64, why string) field.Field {
	return field.Field{Key: key, Name: name, Unit: "g", Max: most, Why: why, Remedy: "Weigh in grams."}
}

// titre is the reading of how much was used of what is in the burette.
func titre(key, name, why string) field.Field {
	return field.Field{Key: key, Name: name, Unit: "mL", Max: 1000, Why: why, Remedy: "Read in millilitres."}
}

// firstAndLast is how a burette is read.
const firstAndLast = "Final less first reading of the burette."

// purity is the reading of how pure a reagent is.
func purity(key, name, why string) field.Field {
	return field.Field{Key: key, Name: name, Unit: "%", Min: 1, Max: 100, Default: 99.5, Blank: "99.5 %", Why: why, Remedy: "Give mass percent."}
}

// blankTitre is the reading of the burette without the sample, which may be left out.
func blankTitre(key, why string) field.Field {
	return field.Field{Key: key, Name: "Blank", Unit: "mL", Max: 100, Default: nothing, Blank: "nothing, give or take a drop", Why: why}
}

// balanceStep is the reading of how fine the balance of a method is.
func balanceStep(key string) field.Field {
	return field.Field{Key: key, Name: "The balance reads to", Unit: "g", Min: 0.0001, Max: 1, Default: 0.01, Blank: "0.01 g", Rare: true, Why: "Its last step.", Remedy: "Give the step in grams."}
}

// Shared are the readings that all burette methods share: the balance and the glass.
var Shared = []field.Field{
	{
		Key: "assay.balance", Name: "Balance for small weighings reads to", Unit: "g", Min: 0.0001, Max: 0.1, Default: 0.001, Blank: "0.001 g",
		Why: "Its last step. A step of 0.01 g is too coarse for half a gram: take five times as much and divide the liquor.", Remedy: "Give the step in grams.",
	},
	{
		Key: "assay.glass", Name: "Burette, pipettes and flasks", Why: "The letter stands on the glass.", Default: 1,
		Options: field.Words("A", "class A", "B", "class B", "unmarked", "unmarked"),
	},
}

// Result is what a method found.
type Result struct {
	Key, Name, Unit string
	Value           float64
	U               float64       // standard uncertainty, from glass and balance alone
	Moles           quantity.Mole // of what was found in the sample: MnO2, manganese, water; 0 for a titrant
	Shares          []Share       // what U comes from, the largest first
	Working         []string      // the computation, numbers put in
	Notes           []string      // what the result rests on
	Others          []Other       // what else follows
	Handover        *Handover     // nil where nothing is handed over
	NoHandover      string        // why not
}

// Other is a further number that follows from the same readings.
type Other struct {
	Name, Unit string
	Value, U   float64
}

// Handover is a result as the plan takes it.
type Handover struct {
	Key       string // mix.assay, found.assay, found.dried
	Value     float64
	Low, High float64 // the interval; both Value where the plan takes none
	Half      float64 // two standard uncertainties, as package account takes it; 0 likewise
	ToRecord  bool    // it goes to what was found after the run, with its half-width, and not to the plan
}

// Outcome is the state of a method: begun or not, what it lacks, what is wrong, its result.
type Outcome struct {
	Method   *Method
	Begun    bool              // something of its own was read
	Wanting  []string          // keys of the readings still wanted
	Problems map[string]string // by key of the reading that is to blame
	Result   *Result           // nil while readings are wanting or wrong
}

// Evaluate works out all methods. It never fails: what cannot be told is named in the
// outcomes.
func Evaluate(r Readings, air Air) []Outcome {
	var list []Outcome
	known := map[string]*Result{}
	for _, m := range methods {
		w := &work{method: m, in: r, air: air, known: known, problems: map[string]string{}}
		o := Outcome{Method: m, Problems: w.problems}
		for i := range m.Inputs {
			if v, ok := r[m.Inputs[i].Key]; ok && quantity.Given(v) && m.Inputs[i].Options == nil {
				o.Begun = true
			}
		}
		if o.Begun {
			m.work(w)
			o.Wanting, o.Result = w.wanting, w.result
		}
		if r := w.result; r != nil {
			r.Working, r.Notes = w.lines, w.notes
			if m.serves != "" {
				r.NoHandover = m.serves
			}
		}
		if len(w.problems) > 0 {
			o.Result = nil
		}
		if o.Result != nil {
			known[m.Key] = o.Result
		}
		list = append(list, o)
	}
	compare(list)
	return list
}

// compare notes where two assays of the same thing differ by more than both allow.
func compare(list []Outcome) {
	for i, a := range list {
		for _, b := range list[i+1:] {
			if a.Result == nil || b.Result == nil || a.Result.Name != b.Result.Name {
				continue
			}
			apart := math.Abs(a.Result.Value - b.Result.Value)
			sampling := math.Sqrt2 * rectangular(Sampling*a.Result.Value)
			if allowed := 2 * quadrature(a.Result.U, b.Result.U, sampling); apart > allowed {
				note := "Two assays differ by " + show(apart, 2) + " " + a.Result.Unit + ", more than the " + show(allowed, 2) + " that they allow: one of them is wrong, or their samples were not alike. Grind, mix and repeat the quicker one."
				a.Result.Notes = append(a.Result.Notes, note)
				b.Result.Notes = append(b.Result.Notes, note)
			}
		}
	}
}

// work is one method at its readings.
type work struct {
	budget
	method   *Method
	in       Readings
	air      Air
	known    map[string]*Result
	wanting  []string
	problems map[string]string
	lines    []string
	notes    []string
	result   *Result
	formula  func(x []float64) float64 // of the result, in the quantities of the budget
}

func (w *work) key(name string) string {
	if strings.HasPrefix(name, "assay.") {
		return name
	}
	return w.method.Key + "." + name
}

// number is a reading, 0 and noted as wanting where there is none.
func (w *work) number(name string) float64 {
	key := w.key(name)
	v := w.in.Value(key)
	if !quantity.Given(v) {
		w.wanting = append(w.wanting, key)
		return 0
	}
	return v
}

// orZero is a reading; 0 where there is none.
func (w *work) orZero(name string) float64 {
	if v := w.in.Value(w.key(name)); quantity.Given(v) {
		return v
	}
	return 0
}

func (w *work) given(name string) bool { return quantity.Given(w.in.Value(w.key(name))) }

func (w *work) chosen(name string) int { return int(w.orZero(name)) }

func (w *work) class() Class { return Class(w.chosen("assay.glass")) }

func (w *work) title(name string) string {
	in, _ := inputs.Find(w.key(name))
	if in.Name[1] >= 'A' && in.Name[1] <= 'Z' {
		return in.Name // an abbreviation
	}
	return phrase.Lower(in.Name)
}

// weighed is a mass by difference, on the balance of small weighings.
func (w *work) weighed(name string) part {
	return w.add(w.title(name), w.number(name), weighing(w.orZero("assay.balance")))
}

// measured is a volume measured in one of the wares.
func (w *work) measured(name string, ware Ware) part {
	v := w.number(name)
	u, ok := volume(ware, w.class(), v)
	if !ok && v > 0 {
		largest := classA[ware][len(classA[ware])-1].capacity
		w.blame(name, show(v, 4)+" mL is more than the largest "+[]string{"burette", "pipette", "flask", "cylinder"}[ware]+" here holds, "+show(largest, 4)+" mL. Take less, or make the liquor up and titrate a part of it.")
	}
	return w.add(w.title(name), v, u)
}

// titre is a volume out of the burette, with the drop at the end point.
func (w *work) titre(name string) part {
	p := w.measured(name, Burette)
	w.u[p] = quadrature(w.u[p], rectangular(endPoint))
	return p
}

// blank is the titre of a blank; where none was read it is 0, give or take a drop.
func (w *work) blank() part {
	const name = "blank"
	if w.given(name) {
		if b, v := w.number(name), w.in.Value(w.key("titre")); quantity.Given(v) && b > v {
			w.blame(name, "The blank of "+show(b, 4)+" mL is above the reading of "+show(v, 4)+" mL: nothing would be left for the sample. Likely the two are in each other's field.")
		}
		return w.titre(name)
	}
	return w.add(w.title(name), 0, rectangular(endPoint))
}

// purity is a reagent's, as a share.
func (w *work) purity() part {
	return w.add(w.title("purity"), w.number("purity")/100, rectangular(puritySpan/100))
}

// strength is the molarity of a titrant: typed, or as it was standardised.
func (w *work) strength(method *Method) part {
	if r := w.known[method.Key]; r != nil {
		return w.add(method.Name, r.Value, r.U)
	}
	w.wanting = append(w.wanting, method.Key+".known")
	return w.add(method.Name, 0, 0)
}

func (w *work) blame(name, message string) {
	if key := w.key(name); w.problems[key] == "" {
		w.problems[key] = message
	}
}

func (w *work) line(words ...string) { w.lines = append(w.lines, strings.Join(words, "")) }

// stopped tells whether readings are wanting or wrong, so that nothing can be computed.
func (w *work) stopped() bool { return len(w.wanting) > 0 || len(w.problems) > 0 }

// slip is a common mistake: where, what, and what the readings would have been
// without it.
type slip struct {
	at   string
	says string
	mend func(x []float64)
}

// milligrams is the slip of typing them for the grams of a mass.
func milligrams(mass part) slip {
	return slip{"mass", "milligrams typed for grams", func(x []float64) { x[mass] /= 1000 }}
}

// beyondShare is how far, as a share of what is possible, a result may lie beyond its
// bound and be taken for an ordinary error of reading, if two standard uncertainties
// reach as far (estimate).
const beyondShare = 0.01

// nothingWeighed tells whether there is no sample, and says so.
func (w *work) nothingWeighed(sample part, of string) bool {
	if w.x[sample] == 0 {
		w.blame("sample", "Nothing was weighed in. Give the grams of "+of+".")
	}
	return w.x[sample] == 0
}

// tooLarge tells whether a part is larger than what it was taken of, and says so.
func (w *work) tooLarge(taken, flask part) bool {
	large := w.x[taken] > w.x[flask]
	if large {
		w.blame("part", "More was taken out than was made up: "+typed(w.x[taken])+" of "+typed(w.x[flask])+" mL. Likely the two are in each other's field.")
	}
	return large
}

// settle computes the result and refuses an impossible one.
func (w *work) settle(name, unit string, least, most float64, bound, at string, f func(x []float64) float64, slips ...slip) *Result {
	w.formula = f
	y, u, shares := w.propagate(f)
	slices.SortStableFunc(shares, func(a, b Share) int { return cmp.Compare(b.Of, a.Of) })
	w.result = &Result{Key: w.method.Key, Name: name, Unit: unit, Value: y, U: u, Shares: shares}
	// A little beyond a bound is still a reading of the bound.
	beyond := math.Min(2*u, beyondShare*(most-least))
	if math.IsNaN(y) || math.IsInf(y, 0) || y < least-beyond || y > most+beyond {
		text := "The readings give " + show(y, 3) + " " + unit + "; " + bound
		var likely []string
		for _, s := range slips {
			x := slices.Clone(w.x)
			s.mend(x)
			if mended := f(x); mended >= least && mended <= most {
				if len(likely) == 0 {
					at = s.at
				}
				likely = append(likely, s.says+" (then it is "+show(mended, 3)+" "+unit+")")
			}
		}
		if len(likely) == 0 {
			likely = []string{"a wrong factor or unit, two columns in each other's place, or a sample that was not dry"}
		}
		w.blame(at, text+" Likely "+strings.Join(likely, "; or ")+".")
	}
	return w.result
}

// hand gives the result over with its interval: a triangle, as the plan draws it,
// whose standard deviation is that of the result and of the sampling together.
func (w *work) hand(key string, least float64) {
	const most = 100 // percent
	r := w.result
	u := quadrature(r.U, rectangular(Sampling*r.Value))
	half := math.Sqrt(6) * u
	value := math.Max(least, math.Min(most, r.Value))
	r.Handover = &Handover{Key: key, Value: value, Low: math.Max(least, value-half), High: math.Min(most, value+half), Half: 2 * u, ToRecord: w.method.Purpose == OfProduct}
}

// show writes a number with so many significant digits and a true minus.
func show(v float64, digits int) string {
	if v == 0 {
		return "0"
	}
	decimals := digits - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if decimals < 0 {
		scale := math.Pow10(-decimals)
		return route.Fixed(math.Round(v/scale)*scale, 0)
	}
	return route.Fixed(v, decimals)
}

// typed writes a number as it was read: all its digits. A zero has no sign.
func typed(v float64) string {
	return strings.Replace(strconv.FormatFloat(v+0, 'f', -1, 64), "-", "−", 1)
}

// used writes the volume of a titrant that a titration took beyond its blank.
func (w *work) used(titre, blank part) string {
	return "(" + typed(w.x[titre]) + " − " + typed(w.x[blank]) + ") mL"
}

func molar(f string) float64 { return float64(formula.MustParse(f).MolarMass()) }

// The molar masses that the methods use, g/mol.
var (
	molarOxalic   = molar("H2C2O4·2H2O")
	molarOxalate  = molar("Na2C2O4")
	molarDioxide  = molar("MnO2")
	molarCarbon   = molar("CO2")
	molarWater    = molar("H2O")
	molarMn       = molar("Mn")
	molarZn       = molar("Zn")
	molarSulfate  = molar("MnSO4")
	molarEdetate  = molar("C10H14N2Na2O8·2H2O")
	mostManganese = 100 * molarMn / molarSulfate // percent, in pure anhydrous manganese sulfate
)

// Typeset writes an equation with its small figures in their place.
func Typeset(a *reaction.Analysis) string { return formula.Typeset(a.String()) }

// nothing is the default of a reading that may be left out.
var nothing = quantity.Blank

// must is a choice whose first word is "not said"; while that stands, it is wanting.
func (w *work) must(name string) int {
	c := w.chosen(name)
	if c == 0 {
		w.wanting = append(w.wanting, w.key(name))
	}
	return c
}

// Asks tells whether a reading has any use beside what was chosen and read so far, so that
// a form can leave out the others.
func Asks(key string, r Readings) bool {
	chosen := func(key string) int { return int(r.Value(key)) }
	given := func(key string) bool { return quantity.Given(r.Value(key)) }
	switch method, name, _ := strings.Cut(strings.TrimPrefix(key, "assay."), "."); method {
	case "permanganate", "edetate":
		if name != "known" && given("assay."+method+".known") {
			return false
		}
		if name == "part" || name == "titre" || name == "blank" {
			return method == "permanganate" || chosen("assay.edetate.way") == 0
		}
	case "oxalate":
		solution := chosen("assay.oxalate.reductant") >= acidSolution
		switch name {
		case "mass", "purity":
			return !solution
		case "portion", "molarity":
			return solution && !given("assay.oxalate.full")
		case "full":
			return solution
		}
	case "loss":
		return name != "head" || chosen("assay.loss.swept") == 1
	case "chelate":
		switch name {
		case "percent":
			return chosen("assay.chelate.zinc") == zincKnown
		case "manganese":
			return chosen("assay.chelate.zinc") == zincWanted
		}
	}
	return true
}
