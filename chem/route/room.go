package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/room"
)

var roomInputs = []Input{
	{
		Field: field.Field{
			Key: "room.volume", Name: "A room that the gas would get into", Unit: "m³", Rare: true, Default: 30, Min: 1, Max: 10000,
			Why:    "Floor by height. Only to see what it would mean: a room is no control for this gas.",
			Remedy: "A garden shed holds about 15, a classroom 200.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.RoomVolume) },
	},
	{
		Field: field.Field{
			Key: "room.changes", Name: "Its air is changed", Unit: "× an hour", Rare: true, Default: 0.5, Min: 0, Max: 60,
			Why: "A house with its windows shut: 0.15 to 0.85; one window open adds up to about one.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.RoomChanges) },
	},
	{
		Field: field.Field{
			Key: "room.escape", Name: "Of the gas not taken up, gets out", Unit: "%", Rare: true, Default: 10, Min: 0, Max: 100,
			Why: "What scrubber and tubes let by. Where the slurry stands open all of it is counted.",
		},
		Of:     byGas,
		means:  closed,
		number: func(p *Plan) *float64 { return (*float64)(&p.RoomEscape) },
	},
	{
		Field: field.Field{
			Key: "room.limit", Name: "Held against the limit of", Rare: true, Default: 0, Options: roomOptions(),
			Why: "Published limits differ; the strictest comes first. Which one binds you is for local law.",
		},
		choice: func(p *Plan) *Choice { return &p.RoomLimit },
	},
}

func roomOptions() []field.Option {
	var words []string
	for _, l := range room.Limits() {
		words = append(words, l.Word, l.Name+": "+Print(float64(l.PPM), "ppm"))
	}
	return field.Words(words...)
}

var roomConstants = []Constant{
	{"gasConstant", room.GasConstant, "kPa·L/(mol·K)", "gas constant", "CODATA, exact since 2019"},
}

// Figures of the room. The air exchange of houses is that of Howard-Reed, Wallace and
// Ott, J. Air Waste Manage. Assoc. 52 (2002) 147: mean 0.41 an hour, windows shut.
var roomFigures = []Figure{
	{ID: RoomPeak, Key: "room.peak", Unit: "ppm", Name: "Gas in the room's air at its highest", Else: NothingVents},
	{ID: RoomMean, Key: "room.mean", Unit: "ppm", Name: "Worst mean over the limit's time", Else: NothingVents},
	{
		ID: RoomTimes, Key: "room.times", Unit: "×", Name: "That is, of the limit",
		Formula: "room.mean/limit",
	},
	{ID: RoomFlow, Key: "room.flow", Unit: "m³/h", Name: "Fresh air that would keep it at the limit, mixed at once", Else: NothingVents},
	{ID: RoomEscape, Key: "room.escape.most", Unit: "%", Name: "Of the gas not taken up, the most that this room bears", Else: NothingVents},
}

// Escapes is the share of the gas not taken up that gets out: what scrubber and tubes let
// by, and all of it where no scrubber stands behind the slurry.
func Escapes(p *Plan) quantity.Percent {
	if Scrubbed(p) {
		return p.RoomEscape
	}
	return 100
}

// release is all the gas not taken up, let into the room over the run. Gas that has
// spread in air is counted as an ideal gas.
func release(p *Plan, vented quantity.Mole) (room.Room, room.Release) {
	litres := float64(vented) * perfectLitre(p)
	hours := room.Hour(float64(p.GasMinutes) / 60)
	return room.Room{Volume: p.RoomVolume, Changes: p.RoomChanges},
		room.Release{Gas: room.CubicMetrePerHour(litres / 1000 / float64(hours)), Lasting: hours}
}

// roomAir works out what a room would breathe.
func (b *Runner) roomAir(p *Plan) {
	if !(b.carry.vented > 0) {
		return
	}
	limit := &room.Limits()[p.RoomLimit]
	air, all := release(p, b.carry.vented)
	worst := float64(air.HighestMean(all, limit.Averaged))
	share := Escapes(p).Fraction()
	b.set(RoomPeak, share*float64(air.Peak(all)))
	b.set(RoomMean, share*worst)
	b.tell(roomLimit, float64(limit.PPM))
	b.set(RoomFlow, float64(room.FreshAir(room.CubicMetrePerHour(share)*all.Gas, limit.PPM)))
	b.set(RoomEscape, lesser(100, 100*float64(limit.PPM)/worst))
}

// Exposure is a published limit, and the concentration in the plan's room, as a mean over the
// limit's time.
type Exposure struct {
	Limit room.Limit
	Mean  room.PartPerMillion // the worst mean
}

// Exposures holds the room of a plan against every published limit; nil where no gas
// passes by.
func Exposures(p *Plan, s *Sheet) []Exposure {
	if s.Reason(VentGas) != Defined {
		return nil
	}
	return ExposuresIf(p, quantity.Mole(Escapes(p).Fraction()*s.Value(VentGas)/1000))
}

// ExposuresIf holds the room of a plan against every published limit, if so much of the gas got
// into it evenly while gas is made; nil for none.
func ExposuresIf(p *Plan, escaped quantity.Mole) []Exposure {
	if !(escaped > 0) {
		return nil
	}
	air, all := release(p, escaped)
	var list []Exposure
	for _, l := range room.Limits() {
		list = append(list, Exposure{l, air.HighestMean(all, l.Averaged)})
	}
	return list
}

// SulfurDioxideFreed is the sulfur dioxide of a run, made in the generator or set free in the slurry,
// and its volume in litres at room temperature and pressure; 0 where there is none.
func SulfurDioxideFreed(p *Plan, s *Sheet) (amount quantity.Mole, litres float64) {
	r := reducing(p)
	if r.frees == 0 || s.Reason(r.frees) != Defined {
		return 0, 0
	}
	amount = quantity.Mole(s.Value(r.frees) / 1000)
	return amount, float64(amount) * gasMillilitre(p) / 1000
}
