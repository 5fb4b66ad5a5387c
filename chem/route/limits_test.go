package route

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNoticesAtTheirLimits moves one input through its range: a notice is said just
// where the figures pass its limit, and names the remedy that they ask for.
func TestNoticesAtTheirLimits(t *testing.T) {
	mixOf := func(id FigureID) float64 { _, s := run(t); return s.Value(id) }
	wet, washed := mixOf(MixMass), mixOf(MixDry)
	// What the dish held, g, with half the jar's zinc in place of manganese: the pentahydrate
	// takes 5·18.015/150.994 of it in water.
	crystals := func(v func(FigureID) float64) float64 {
		return v(ProductAnhydrous) + v(CropLeft)/1000*150.994 + 0.5*v(ProductZinc)/161.436*150.994
	}
	for _, c := range []struct {
		words string
		base  []string
		key   string
		from  float64
		to    float64
		due   func(p *Plan, s *Sheet, v func(FigureID) float64) bool
		tells func(p *Plan, v func(FigureID) float64) string
	}{
		{"is far from the", nil, "mix.wet", 0.3 * wet, 2 * wet, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return float64(p.MixWet) > 1.5*wet || float64(p.MixWet) < 0.6*wet
		}, func(*Plan, func(FigureID) float64) string { return Print(wet, "g") }},
		{"A mix weighed wet for dry", nil, "mix.washed", 0.5 * washed, 2 * washed, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return float64(p.MixWashed) > 1.3*washed
		}, func(*Plan, func(FigureID) float64) string { return Print(washed, "g") }},
		{"cannot have gone below", []string{"cell.charge=0", "cell.kind=zincchloride", "mix.zinc=60"}, "mix.water", 10, 40, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(MixCharge) > 0.1
		}, nil},
		{"The acid rinse set chloride free", []string{"wash.acid=200"}, "wash.target", 1, 20000, func(p *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(WashLast) > float64(p.WashTarget)
		}, func(_ *Plan, v func(FigureID) float64) string { return Print(v(WashLast), "mg/L") }},
		{"The last wash still shows", nil, "wash.target", 0.1, 1000, func(p *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(WashLast) > float64(p.WashTarget)
		}, nil},
		{"No number of washes", []string{"wash.mixing=5"}, "wash.target", 0.1, 50000, func(p *Plan, s *Sheet, v func(FigureID) float64) bool {
			return v(WashLast) > float64(p.WashTarget) && s.Reason(WashEnough) == NeverEnough
		}, nil},
		{"locked in zinc salts", nil, "wash.times", 0, 12, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(WashBound) > 5*v(WashChloride)
		}, nil},
		{"which leaves with the liquor", nil, "wash.acid", 0, 1500, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(WashManganese) > 0.02*v(MixManganese)
		}, nil},
		{"of potash, costs", []string{"cell.kind=alkaline"}, "mix.potash", 0, 17, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(WashPotash) > 0
		}, func(_ *Plan, v func(FigureID) float64) string {
			return Print(v(WashPotash)/56.105/2, "mL") // half a mmol of acid, a mL of 1 mol/L each, to a mmol
		}},
		{"The flask is too small", []string{"slurry.beaker=50000"}, "gas.flask", 30, 400, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasBatches) > 1
		}, func(_ *Plan, v func(FigureID) float64) string {
			return "Make " + Print(v(GasBatches), "") + " equal batches, " + Print(90, "min") + " of gas for each, or take a flask of"
		}},
		{"The slurry vessel is too small", []string{"gas.flask=5000"}, "slurry.beaker", 100, 2000, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(SlurryBatches) > 1
		}, func(_ *Plan, v func(FigureID) float64) string { return Print(1.5*v(SlurryVolume), "mL") + " or more" }},
		{"more than half: the paste", nil, "gas.flask", 30, 400, func(p *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasFlaskLeast) > float64(p.GasFlask)
		}, func(_ *Plan, v func(FigureID) float64) string { return Print(v(GasFlaskLeast)/2, "mL") + " of charge" }},
		{"makes no gas that leaves", []string{"gas.source=metabisulfite", "gas.warm=10", "gas.water=100"}, "gas.salt", 1, 60, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasMade) == 0
		}, nil},
		{"runs out at", []string{"gas.flask=2000"}, "gas.copper", 1, 60, func(_ *Plan, s *Sheet, v func(FigureID) float64) bool {
			return v(GasMade) < v(GasNeeded) && s.Reason(MetShare) != Defined
		}, func(p *Plan, v func(FigureID) float64) string {
			return "about " + Print(float64(p.BatchShare)*v(GasMade)/v(GasNeeded), "%") + " of the oxide"
		}},
		{"no longer work for a bench", []string{"gas.flask=5000"}, "gas.acid", 100, 600, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.GasAcid > 300
		}, nil},
		{"all the rest goes past the slurry", []string{"gas.flask=5000", "gas.acid=1000"}, "gas.copper", 5, 200, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasMade) > 2*v(GasNeeded)
		}, func(_ *Plan, v func(FigureID) float64) string {
			return "where " + Print(v(GasVolume)*v(GasNeeded)/v(GasMade), "L")
		}},
		{"passes the slurry by", nil, "gas.minutes", 5, 165, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(UptakeShare) < 70 && v(GasRate) <= 400 // faster, that alone is told
		}, func(_ *Plan, v func(FigureID) float64) string {
			return "some " + Print(100-v(UptakeShare), "%")
		}},
		{"boils down to", []string{"gas.strength=84"}, "gas.hot", 180, 280, func(p *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasBoils) > 84
		}, nil},
		{"Manuals print", nil, "gas.spare", 0.1, 3, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasAcidCopper) > 3
		}, nil},
		{"too fast for one flask", nil, "gas.minutes", 5, 120, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasRate) > 400
		}, nil},
		{"too many to count", nil, "gas.minutes", 5, 200, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasBubbles) > 12
		}, nil},
		{"has what it can use at about", []string{"gas.flask=2000", "gas.acid=200"}, "gas.copper", 5, 80, func(_ *Plan, s *Sheet, v func(FigureID) float64) bool {
			return s.Reason(MetShare) == Defined && v(MetShare) < 99
		}, nil},
		{"of the gas back", []string{"gas.source=metabisulfite"}, "gas.water", 0, 500, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(GasHeld) > 0.2*v(GasMade)
		}, nil},
		{"Dilute acid is short:", nil, "slurry.acid", 0, 150, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(AcidSaves) > 0.02*v(GasMade)
		}, func(_ *Plan, v func(FigureID) float64) string { return Print(v(DemandAcid), "mL") + " of 1 mol/L" }},
		{"spent oxide waits until that is gone", []string{"gas.copper=3"}, "slurry.acid", 0, 150, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			left := v(ProductAcid) > 0.0005*v(ProductMass) || v(DryFumes) > 1 // of the acid: then nothing waits for it
			return v(AcidSaves) <= 0.02*v(GasMade) && v(SlurryAcidUsed) < 0.95*v(DemandAcid) && !left
		}, nil},
		{"no dilute acid at all this oxide takes", nil, "slurry.acid", 0, 150, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(SlurryAcidUsed) < v(DemandAcid)/2
		}, nil},
		{"of the reducing power ends as dithionate", nil, "slurry.dithionate", 0, 60, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.SlurryDithionate >= 30
		}, nil},
		{"The hot rest destroys no more", []string{"slurry.acid=600"}, "slurry.rest", 0, 40, func(p *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return p.SlurryRest > 0 && v(RestGone) < 50
		}, nil},
		{"come free, as the oxide in reach", []string{"slurry.acid=600", "slurry.rest=10"}, "gas.copper", 3, 40, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(RestFreed) > 0.01*v(DemandGas)
		}, func(_ *Plan, v func(FigureID) float64) string { return Print(v(RestFreed), "mmol") }},
		{"can set to a solid in a dipping tube", nil, "slurry.temperature", 0, 14, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.SlurryTemperature < 7
		}, nil},
		{"of ice and water", nil, "slurry.water", 50, 3000, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(ReduceRise) > 15
		}, nil},
		{"are too few: this oxide takes", []string{"gas.source=peroxide"}, "peroxide.charge", 20, 600, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(StirServes) < 100/1.1 // a tenth in excess is asked for
		}, nil},
		{"Dilute acid is short by", []string{"gas.source=peroxide", "slurry.reach=100", "loss.transfer=0"}, "slurry.acid", 0, 500, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(SlurryAcidUsed) < 0.98*v(DemandAcid)
		}, func(_ *Plan, v func(FigureID) float64) string {
			return "by " + Print(v(DemandAcid)-v(SlurryAcidUsed), "mL")
		}},
		{"of gas froth out", []string{"gas.source=peroxide"}, "batch.share", 0.1, 20, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(StirFroth) > 0.1
		}, nil},
		{"can boil and spit", []string{"gas.source=peroxide"}, "peroxide.strength", 2, 22, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.PeroxideStrength > 12
		}, nil},
		{"oxalic acid hardly works", []string{"gas.source=oxalic"}, "oxalic.warm", 40, 80, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.OxalicWarm < 50
		}, nil},
		{"fall out as oxalate and stay", []string{"gas.source=oxalic", "oxalic.falls=0"}, "slurry.acid", 0, 400, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(OxalicLost) > 0.02*v(BatchManganese)
		}, nil},
		{"Not rinsed, the cake keeps", []string{"rinse.times=0"}, "slurry.water", 100, 20000, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(RinseLeft0) > 1
		}, nil},
		{"come off the dish", []string{"gas.excess=0", "gas.uptake=100", "slurry.reach=100", "loss.transfer=0"}, "slurry.dithionate", 0, 5, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(DryGas) > 1
		}, nil},
		{"drives off hydrogen chloride", []string{"cell.charge=100", "slurry.acid=200"}, "wash.times", 0, 12, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(DryFumes) > 1
		}, nil},
		{"the crust keeps liquor", nil, "dry.temperature", 0, 200, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.DryTemperature >= 25 && p.DryTemperature < 110
		}, nil},
		{"the last water leaves little by little", nil, "dry.temperature", 150, 450, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.DryTemperature > 200 && p.DryTemperature < 400
		}, nil},
		{"Oxalate may be in this salt", []string{"gas.source=oxalic"}, "dry.temperature", 100, 140, func(p *Plan, _ *Sheet, _ func(FigureID) float64) bool {
			return p.DryTemperature > 120
		}, nil},
		{"of what you weigh is manganese sulfate", pureDioxide, "slurry.dithionate", 0, 60, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(ProductPurity) < 90
		}, nil},
		{"keeps it sticky", nil, "slurry.acid", 0, 400, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(ProductAcid) > 0.05*v(ProductMass)
		}, nil},
		{"the whole dish sets solid", []string{"dry.way=crystals"}, "crop.water", 1, 60, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(CropWaterUsed) < 0.59655*crystals(v)
		}, func(_ *Plan, v func(FigureID) float64) string { return "at least " + Print(0.59655*crystals(v), "mL") }},
		{"falls out while the dish is hot", []string{"dry.way=crystals", "crop.water=40"}, "crop.cold", 7, 47, func(p *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return p.CropCold < 25 && v(ProductMass) > 0
		}, nil},
		{"Nothing crystallises out of this much water", []string{"dry.way=crystals", "slurry.water=2000"}, "crop.water", 10, 1500, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(ProductMass) == 0
		}, nil},
		{"the residue could warm it by", []string{"gas.acid=200", "gas.copper=5"}, "copper.water", 20, 2000, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(CopperRise) > 60
		}, func(_ *Plan, v func(FigureID) float64) string {
			return "at least " + Print(v(CopperHeat)*1000/4.18/60, "mL")
		}},
		{"together can warm by up to", []string{"gas.acid=200", "gas.copper=5"}, "copper.water", 20, 4000, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(CopperRise) > 25 && v(CopperRise) <= 60
		}, nil},
		{"do not dissolve all the salt", []string{"copper.hot=30"}, "copper.water", 50, 600, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(CopperWaterUsed) < v(CopperWaterLeast)
		}, nil},
		{"no longer forms", []string{"gas.excess=10"}, "copper.water", 1, 300, func(_ *Plan, _ *Sheet, v func(FigureID) float64) bool {
			return v(CopperAcid) > 50
		}, nil},
		{"there is too much water", nil, "copper.water", 100, 1500, func(_ *Plan, s *Sheet, v func(FigureID) float64) bool {
			return s.Reason(CopperCrop) == Defined && v(CopperCrop) == 0
		}, nil},
	} {
		t.Run(c.words, func(t *testing.T) {
			in := input(t, c.key)
			said := [2]int{}
			const steps = 40 // so that the middle and the quarters are met to the digit
			for i := range steps + 1 {
				x := c.from + (c.to-c.from)*float64(i)/steps
				if in.Whole {
					x = math.Round(x)
				}
				p := planOf(t, c.base...)
				require.NoError(t, in.Set(p, x))
				require.Empty(t, Check(p))
				s := new(Runner).Run(p)
				text := ""
				for _, n := range Notices(p, s) {
					if strings.Contains(n.Text, c.words) {
						text = strings.ReplaceAll(n.Text, "\u00a0", " ")
					}
				}
				due := c.due(p, s, s.Value)
				assert.Equal(t, due, text != "", "%s=%g", c.key, x)
				if due {
					said[1]++
					if c.tells != nil {
						assert.Contains(t, text, c.tells(p, s.Value), "%s=%g", c.key, x)
					}
				} else {
					said[0]++
				}
			}
			assert.Positive(t, said[0], "never silent")
			assert.Positive(t, said[1], "never said")
		})
	}
}

// TestLimitsMetToTheDigit: who gives exactly what is asked for has enough.
func TestLimitsMetToTheDigit(t *testing.T) {
	entry := func(key string, v float64) string { return key + "=" + Plain(v) }
	// Chloride as low as it may be.
	for _, base := range [][]string{{"wash.times=2"}, {"wash.times=2", "wash.acid=200"}, {"wash.times=0"}} {
		_, s := run(t, base...)
		last := s.Value(WashLast)
		for _, words := range []string{"The last wash still shows", "The acid rinse set chloride free"} {
			_, due := notice(t, words, with(base, entry("wash.target", last))...)
			assert.False(t, due, "%v: %s", base, words)
		}
		if base[0] == "wash.times=0" {
			_, met := run(t, entry("wash.target", last))
			assert.Zero(t, met.Value(WashEnough), "the soak is enough")
			_, over := run(t, entry("wash.target", last*(1-1e-9)))
			assert.Equal(t, 1.0, over.Value(WashEnough))
		}
	}
	// As much peroxide as the oxide takes without the tenth in excess.
	_, s := run(t, "gas.source=peroxide")
	charge := s.Value(PeroxideNeeded) / 1.1
	_, due := notice(t, "are too few", "gas.source=peroxide", entry("peroxide.charge", charge))
	assert.False(t, due)
	_, due = notice(t, "are too few", "gas.source=peroxide", entry("peroxide.charge", charge*(1-1e-5)))
	assert.True(t, due)
	// A fiftieth too little dilute acid is not spoken of, nor is half of it called none. What
	// is not reached, or lost on the way, would leave some over.
	whole := []string{"gas.source=peroxide", "slurry.reach=100", "loss.transfer=0"}
	_, s = run(t, whole...)
	for of, want := range map[float64]bool{0.985: false, 0.975: true} {
		_, due = notice(t, "Dilute acid is short by", with(whole, entry("slurry.acid", of*s.Value(DemandAcid)))...)
		assert.Equal(t, want, due, "%v of the acid", of)
	}
	_, s = run(t)
	_, due = notice(t, "no dilute acid at all this oxide takes", entry("slurry.acid", s.Value(DemandAcid)/2))
	assert.False(t, due)
	// Flask and vessel that both ask for two batches are both spoken of.
	_, due = notice(t, "The flask and the slurry vessel are too small", entry("gas.flask", 0.7*s.Value(GasFlaskLeast)), entry("slurry.beaker", 1.49*s.Value(SlurryVolume)))
	assert.True(t, due)
	// Gas for the oxide and no more: the demand is met when the charge is at its end.
	_, s = run(t, with(pureDioxide, "gas.minutes=80", "gas.bubble=0.2")...)
	require.Equal(t, Defined, s.Reason(MetShare))
	near(t, 100, s.Value(MetShare), 1e-9, "percent of the charge")
	near(t, 80, s.Value(MetMinute), 1e-9, "minutes")
	near(t, s.Value(GasVolume)*1000/0.2, s.Value(MetBubbles), 1e-9, "bubbles")
}
