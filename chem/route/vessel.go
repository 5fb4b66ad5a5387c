package route

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
)

// A vessel's volume over that of what is poured into it. Half of the flask stays free, since
// the paste froths. A third of the slurry vessel stays free for stirring, two thirds where
// gas froths out of the slurry. The trap holds all of the slurry below its tubes. Liquor
// that spits or crystallises fills half of its beaker. A dish is topped up as it boils
// down, but the last slush fills no more than two thirds of it: a gram of salt and its
// last millilitre of water are about 1.3 mL (estimate). The others are common practice.
const (
	flaskRoom    = 2
	slurryRoom   = 1.5
	frothRoom    = 3
	trapRoom     = 1.5
	crystalsRoom = 2
	dishRoom     = 1.5
	slushRoom    = 2 // mL to a gram of dry salt
)

var vesselConstants = []Constant{
	{"frothRoom", frothRoom, "", "vessel for a slurry that froths, to the slurry", "common practice"},
}

// countingBottle is the least bottle in which bubbles are seen and counted, mL: a finger of
// acid at its bottom, and room above (common practice).
const countingBottle = 50

// countingAcid is a finger of acid in it, mL: 2 cm deep at a width of 3 cm (estimate).
const countingAcid = 15

// dishful is what a dish of 10 cm holds, mL (common practice).
const dishful = 100

// MostBatches is the most equal batches that a plan may be worked in. Whoever needs more
// wants larger vessels or a smaller share (estimate).
const MostBatches = 12

// BatchCount is in how many equal batches the share of a plan is worked, one after the other.
// The plan's figures are those of all of them together; what is poured is that of one.
func BatchCount(p *Plan) float64 { return orElse(p.BatchRuns, 1) }

// InBatches says in words in how many batches a plan is worked; "" for one.
func InBatches(p *Plan) string {
	if BatchCount(p) <= 1 {
		return ""
	}
	return "in " + Print(BatchCount(p), "") + " equal batches"
}

// cuts is the least number of equal batches, each of which fits a vessel of a size, mL;
// least is the volume that all together would need, mL.
func cuts(least float64, size quantity.Millilitre) float64 {
	return greater(1, math.Ceil(least/float64(size)-1e-9))
}

// roomOfSlurry is the volume of the slurry vessel over that of the slurry; a reductant that
// is stirred in makes it froth.
func roomOfSlurry(p *Plan) float64 {
	if Gaseous(p) {
		return slurryRoom
	}
	return frothRoom
}

// Sizes that vessels are sold in, mL: beakers and flasks as in ISO 3819 and ISO 4797
// (from memory), pails, jars and dishes by common practice.
var (
	beakerSizes = []quantity.Millilitre{50, 100, 150, 250, 400, 600, 1000, 2000, 3000, 5000}
	flaskSizes  = []quantity.Millilitre{50, 100, 250, 500, 1000, 2000, 4000, 6000}
	jarSizes    = []quantity.Millilitre{50, 100, 250, 500, 1000, 2000, 5000, 10e3}
	pailSizes   = []quantity.Millilitre{500, 1000, 2000, 5000, 10e3, 20e3, 30e3, 60e3}
)

// Vessel is a vessel of the plan: what one batch pours into it, the volume that it must
// have for that, and whether it has it. Of the need, Amount is that volume, mL.
type Vessel struct {
	Need
	Line    bool                // part of the gas line, which groups can share in turn; a flask of hot acid is not, it cools until the next day
	Stage   Stage               // at which it is filled
	Step    string              // the key of the step that fills it; "" where no size is asked for
	Key     string              // of the input that says its size; "" where none does
	Size    quantity.Millilitre // what that says; 0 for as large as it takes
	Pours   float64             // mL that one batch brings into it
	Batches float64             // equal batches in all that would fit it; 0 where cutting does not help
	Portion float64             // mL that it takes at a time, where it is topped up; else 0
	Takes   quantity.Millilitre // the next sold size that holds it; 0 where none does
	Each    bool                // every batch wants one of its own: what the last left still stands in it

	word    string // its name in a sentence
	tooMuch string // why it does not hold what is poured
	sizes   []quantity.Millilitre
	cut     Mend // the batches, where there are any
	beyond  bool // a larger one would take more acid than is work for a bench
}

// Given tells whether the plan says how large the vessel is.
func (v *Vessel) Given() bool { return v.Size > 0 }

// TooSmall tells whether the plan pours more into the vessel than it may hold.
func (v *Vessel) TooSmall() bool { return v.Given() && float64(v.Size) < v.Amount*(1-1e-9) }

// Common is the next size in which such a vessel is sold; 0 where none is so large, and
// the work wants several.
func (v *Vessel) Common() quantity.Millilitre {
	for _, size := range v.sizes {
		if float64(size) >= v.Amount*(1-1e-9) {
			return size
		}
	}
	return 0
}

// Stands is the volume of the vessel that stands on the bench, mL: as given, or the size
// that is sold, or what it takes where that is more.
func (v *Vessel) Stands() float64 {
	switch size := v.Common(); {
	case v.Given():
		return float64(v.Size)
	case size > 0:
		return float64(size)
	}
	return v.Amount
}

// Word names the vessel and its size in a sentence.
func (v *Vessel) Word() string { return v.SizeText() + " " + v.word }

// SizeText is the volume of the vessel that stands on the bench, as read: all its digits
// where it is given or sold so.
func (v *Vessel) SizeText() string {
	if !v.Given() && v.Common() == 0 {
		return v.LeastText()
	}
	return sizeText(v.Stands())
}

// LeastText is the volume that the vessel must have, as read; with more digits, rounded
// up, where a size that is too small would read the same.
func (v *Vessel) LeastText() string {
	text := Print(v.Amount, "mL")
	if !v.TooSmall() || text != Print(float64(v.Size), "mL") {
		return text
	}
	scale := math.Pow10(int(math.Floor(math.Log10(v.Amount))) - 3)
	return sizeText(math.Ceil(v.Amount/scale) * scale)
}

func sizeText(millilitres float64) string {
	factor, unit := Scale(millilitres, "mL")
	text := strconv.FormatFloat(millilitres*factor, 'g', 6, 64)
	return field.Grouped(text) + thin + unit
}

// Mend is a change to the plan that removes the cause of a notice: an input and its new
// value, in the input's unit.
type Mend struct {
	Text    string // what to do
	Done    string // that it is done
	Key     string
	Value   float64
	Minutes float64 // of gas.minutes, which is set with it; 0 where that stays
}

// Set makes the changes in a plan.
func (m *Mend) Set(p *Plan) error {
	in, ok := InputByKey(m.Key)
	if !ok {
		return fmt.Errorf("route: no input %q", m.Key)
	}
	if err := in.Set(p, m.Value); err != nil || m.Minutes == 0 {
		return err
	}
	minutes, _ := InputByKey("gas.minutes")
	return minutes.Set(p, m.Minutes)
}

// cutInto works a plan in more equal batches. All batches share the time of the gas, so it
// grows with them: each has the time that one had, or what the longest time allows.
func cutInto(p *Plan, batches float64) Mend {
	what := Print(batches, "") + " equal batches"
	m := Mend{Text: "Make " + what, Done: "Worked in " + what + " now.", Key: "batch.runs", Value: batches}
	if !Gaseous(p) {
		return m
	}
	wanted := math.Ceil(float64(p.GasMinutes) / BatchCount(p) * batches) // no less time for each
	m.Minutes = math.Min(mostMinutes, wanted)
	each := Print(m.Minutes/batches, "min") + " of gas for each"
	if m.Minutes < wanted {
		each += " (the longest: a plan takes " + Print(mostMinutes, "min") + " in all)"
	}
	m.Text += ", " + each
	m.Done = "Worked in " + what + " now, " + each + "."
	return m
}

// Mends are what makes a vessel that is too small large enough: so many equal batches, or
// the next larger size that holds all.
func (v *Vessel) Mends() []Mend {
	var list []Mend
	if v.Batches > 0 {
		list = append(list, v.cut)
	}
	if v.Takes > 0 {
		larger := "a " + v.word + " of " + sizeText(float64(v.Takes))
		list = append(list, Mend{Text: "Take " + larger, Done: "Planned with " + larger + " now.", Key: v.Key, Value: float64(v.Takes)})
	}
	return list
}

// Warning says what does not fit, why, and what to do; "" where it fits.
func (v *Vessel) Warning() string {
	if !v.TooSmall() {
		return ""
	}
	var ways []string
	for _, m := range v.Mends() {
		ways = append(ways, phrase.Lower(m.Text))
	}
	do := strings.Join(ways, ", or ")
	if do == "" {
		do = "work a smaller share of the oxide"
	}
	return v.tooMuch + " " + strings.ToUpper(do[:1]) + do[1:] + "."
}

// Vessels lists every vessel with the volume that it must have. What a vessel holds is
// decided here and nowhere else.
func Vessels(p *Plan, s *Sheet) []Vessel {
	v := s.Amount
	mix := v(MixDry) / solidDensity
	ml := func(name string, volume float64, why string) Need { return Need{name, volume, "mL", why} }
	list := []Vessel{
		{Need: ml("Basin for soaking and washing", 1.5*(v(WashSoakUsed)+mix), "two thirds full at most"), sizes: pailSizes},
		{Need: ml("Can for the wash liquor", 1.1*v(WashLiquor), "kept for collection"), sizes: pailSizes},
	}
	list = append(list, sized(p, v)...)
	list = append(list,
		Vessel{Need: ml("Beaker for the filtrate and rinses", 1.2*v(FiltrateVolume), ""), sizes: beakerSizes},
		Vessel{Need: ml("Jar for the manganese salt", 2*v(ProductMass), "dry, with a lid"), sizes: jarSizes},
		Vessel{Need: ml("Jar for the mother liquor and its soda", 2*(v(WasteVolume)-v(WashLiquor)), "it froths; lid loose overnight"), sizes: jarSizes},
	)
	if further := Absorbers(p) - 1; Gaseous(p) && further > 0 {
		list = append(list, Vessel{
			Need: ml("Further slurry vessel", slurryRoom*v(SlurryVolume)/BatchCount(p)/(further+1), "closed; behind the first, "+Count(further, "such vessel")), Line: true, sizes: beakerSizes,
		})
	}
	if Scrubbed(p) {
		list = append(list,
			Vessel{Need: ml("Second empty trap", 1.5*v(ScrubLiquid), "between slurry and scrubber"), Line: true, sizes: flaskSizes},
			Vessel{Need: ml("Scrubber bottle", 1.5*v(ScrubLiquid), "never sealed: it gives off carbon dioxide"), Line: true, sizes: flaskSizes},
		)
	}
	list = slices.DeleteFunc(list, func(v Vessel) bool { return !(v.Amount > 0) })
	mendable(p, s, list)
	return list
}

// sized are the vessels of which the plan says how large they are.
func sized(p *Plan, v func(FigureID) float64) []Vessel {
	one := 1 / BatchCount(p)
	in := func(text string, volume float64) string { return Print(volume, "mL") + " " + text }
	slurry := v(SlurryVolume) * one
	var list []Vessel
	if Gaseous(p) {
		charge := v(GasFlaskLeast) / flaskRoom
		list = append(list, Vessel{
			Need: Need{"Generator flask", v(GasFlaskLeast), "mL", "half full at most: the paste froths"}, Line: !HotAcid(p), Stage: Gas, Step: "charge", Key: "gas.flask",
			Size: p.GasFlask, Pours: charge, Batches: v(GasBatches), word: "flask", sizes: flaskSizes,
			tooMuch: in("of charge fills the flask of "+sizeText(float64(p.GasFlask))+" more than half: the paste would froth into the tube.", charge),
		}, Vessel{
			Need: Need{"Empty trap", trapRoom * slurry, "mL", "takes the whole slurry if it is drawn back"}, Line: true, Stage: Gas, Step: "line", Key: "gas.trap",
			Size: orElse(p.GasTrap, 0), Pours: slurry, Batches: cuts(trapRoom*v(SlurryVolume), p.GasTrap), word: "trap", sizes: flaskSizes,
			tooMuch: in("of slurry may be drawn back, and the trap of "+sizeText(float64(p.GasTrap))+" does not hold it below its tubes: it would go on into the hot acid.", slurry),
		}, Vessel{Need: Need{"Counting bottle", countingBottle, "mL", "a finger of strong acid, " + Print(countingAcid, "mL") + "; may be left out"}, Line: true, sizes: flaskSizes})
	}
	full, too := "two thirds full at most, to be stirred", "more than two thirds, too full to be stirred."
	if !Gaseous(p) {
		full, too = "a third full at most: it froths", "more than a third: it would froth over."
	}
	list = append(list, Vessel{
		Need: Need{"Slurry vessel", roomOfSlurry(p) * slurry, "mL", full}, Stage: Slurry, Step: "slurry", Key: "slurry.beaker",
		Size: p.SlurryBeaker, Pours: slurry, Batches: v(SlurryBatches), word: "slurry vessel", sizes: beakerSizes,
		tooMuch: in("of slurry fills the vessel of "+sizeText(float64(p.SlurryBeaker))+" "+too, slurry),
	}, dish(p, v))
	if MakesCopperSalt(p) {
		liquor := v(CopperVessel) / crystalsRoom
		list = append(list, Vessel{
			Need: Need{"Beaker for the copper liquor", v(CopperVessel), "mL", "half full at most: it spits as the residue goes in"}, Stage: CopperSalt, Step: "dissolve", Key: "crop.vessel",
			Size: orElse(p.CropVessel, 0), Pours: liquor, Each: BatchCount(p) > 1, Batches: cuts(v(CopperVessel)/one, p.CropVessel), word: "crystallising vessel", sizes: beakerSizes,
			tooMuch: in("of water and acid fills the crystallising vessel of "+sizeText(float64(p.CropVessel))+" more than half: it spits as the residue goes in.", liquor),
		})
	}
	if p.DryWay == ToCrystals {
		liquor := v(CropWaterUsed)
		list = append(list, Vessel{
			Need: Need{"Beaker for the pink crystals", crystalsRoom * liquor, "mL", "half full at most, by its water: the salt takes room too"}, Stage: Dry, Step: "grow", Key: "crop.vessel",
			Size: orElse(p.CropVessel, 0), Pours: liquor, word: "crystallising vessel", sizes: beakerSizes,
			tooMuch: in("of water and the salt in it fill the crystallising vessel of "+sizeText(float64(p.CropVessel))+" more than half, and the salt takes as much room again.", liquor),
		})
	}
	return list
}

// dish is the evaporating dish. It is topped up as it boils down, so that it must only
// hold what is left at the end.
func dish(p *Plan, v func(FigureID) float64) Vessel {
	last, what := slushRoom*v(ProductMass), "salt and last liquor"
	if p.DryWay == ToCrystals {
		last, what = slushRoom*v(CropWaterUsed), "boiled-down liquor" // of a millilitre of water to a gram
	}
	d := Vessel{
		Need: Need{"Evaporating dish", last, "mL", "filled up in portions"}, Stage: Dry, Step: "evaporate", Key: "dry.dish",
		Size: orElse(p.DryDish, 0), Pours: last / dishRoom, word: "dish", sizes: jarSizes,
		tooMuch: "A dish of " + sizeText(float64(p.DryDish)) + " can be topped up, but at the end it holds " + Print(last/dishRoom, "mL") + " of " + what + ", more than two thirds of it, and spits.",
	}
	if !d.Given() {
		d.Amount = math.Max(math.Min(v(FiltrateVolume), dishful), last)
	}
	if takes := d.Stands() / dishRoom; v(FiltrateVolume) > takes {
		d.Portion = takes
	}
	return d
}

// mendable works out for each vessel that is too small what would do: a number of
// batches that all of them fit, and the size that is sold. Vessels that are large enough
// get no remedy.
func mendable(p *Plan, s *Sheet, list []Vessel) {
	most := cuts(float64(acidOfGas(s)), benchAcid)
	for i := range list {
		if list[i].TooSmall() {
			most = math.Max(most, list[i].Batches)
		}
	}
	for i := range list {
		v := &list[i]
		if !v.TooSmall() {
			v.Batches, v.tooMuch = 0, ""
			continue
		}
		v.Takes = v.larger(p)
		if v.Batches > 0 && most <= MostBatches {
			v.Batches, v.cut = most, cutInto(p, most)
		} else {
			v.Batches = 0
		}
	}
}

// larger is the next sold size that holds what is poured; 0 where none does. A larger
// flask has more air to be driven out, which takes a little more charge: so the plan is
// worked out with it.
func (v *Vessel) larger(p *Plan) quantity.Millilitre {
	size := v.Common()
	in, _ := InputByKey(v.Key)
	if size == 0 || in.Accept(float64(size)) != nil {
		return 0
	}
	if v.Key != "gas.flask" {
		return size
	}
	var b Runner
	q := *p
	q.GasFlask = size
	grown := *v
	grown.Amount = b.Run(&q).Value(GasFlaskLeast)
	q.GasFlask = grown.Common()
	if v.beyond = BeyondBench(&q, b.Run(&q)); v.beyond {
		return 0
	}
	return q.GasFlask
}

// BeyondBench tells whether a flask takes more acid at once than is work for a bench.
func BeyondBench(p *Plan, s *Sheet) bool {
	return float64(acidOfGas(s))/BatchCount(p) > benchAcid*(1+1e-9)
}

// acidOfGas is the acid that goes into the flask, that of all batches together.
func acidOfGas(s *Sheet) quantity.Millilitre {
	return quantity.Millilitre(s.Amount(GasAcidUsed))
}

// lessAcid works a plan in as many equal batches as bring a flask within what is work for a
// bench, and its vessels hold; without a text where that takes too many.
func lessAcid(p *Plan, s *Sheet, list []Vessel) Mend {
	batches := cuts(float64(acidOfGas(s)), benchAcid)
	for i := range list {
		batches = math.Max(batches, list[i].Batches)
	}
	if batches > MostBatches {
		return Mend{}
	}
	return cutInto(p, batches)
}

// AcidUse is the concentrated acid of a plan, mL, as bought: what is poured where.
type AcidUse struct {
	Generator float64
	Dilute    float64 // for the dilute acid of the slurry
	Rinse     float64 // for that of the acid rinse
	// RinseWater is poured first for the acid rinse; that for the slurry is a figure.
	RinseWater float64

	// Counting stands in the counting bottle, which may be left out: it is not among All.
	Counting float64
}

// StrongAcid is the concentrated acid that a plan takes.
func StrongAcid(p *Plan, s *Sheet) AcidUse {
	v := s.Amount
	rinse, water, _ := acidOf(p.GasStrength).dilution(quantity.Millilitre(v(WashAcidPoured)))
	use := AcidUse{v(GasAcidUsed), v(SlurryAcidStrong), float64(rinse), float64(water), 0}
	if Gaseous(p) {
		use.Counting = countingAcid
	}
	return use
}

// All is the acid to have.
func (a AcidUse) All() float64 { return a.Generator + a.Dilute + a.Rinse }

// Where says in words what is poured where, and what a counting bottle would take besides; "" where
// there is none.
func (a AcidUse) Where() string {
	var list []string
	for _, part := range []struct {
		ml   float64
		what string
	}{{a.Generator, "for the generator"}, {a.Dilute, "for dilute acid"}, {a.Rinse, "for the acid rinse"}} {
		switch {
		case part.ml == 0:
		case part.ml == a.All():
			list = append(list, part.what)
		default:
			list = append(list, Print(part.ml, "mL")+" "+part.what)
		}
	}
	where := strings.Join(list, ", ")
	if a.Counting > 0 && where != "" {
		where += "; " + Print(a.Counting, "mL") + " more if you use a counting bottle"
	}
	return where
}
