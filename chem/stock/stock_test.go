package stock_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/chem/stock"
	"rosesalt/scripts/long"
)

// takes is what a plan takes of the thing of a key, by its reagents as they are bought.
func takes(p *route.Plan, key string) float64 {
	sheet := new(route.Runner).Run(p)
	if key == "shelf.acid" {
		return route.StrongAcid(p, sheet).All()
	}
	r := route.ReductantOf(p)
	if r.Shelf != key {
		return 0
	}
	return r.Need(p, sheet).Amount
}

var things = []string{"shelf.acid", "shelf.copper", "shelf.metabisulfite", "shelf.peroxide", "shelf.oxalic"}

// filled is a shelf with some of what a plan takes.
func filled(r *rand.Rand, p *route.Plan) stock.Shelf {
	s := stock.Shelf{}
	for _, key := range things {
		if r.IntN(3) > 0 {
			s[key] = takes(p, key) * math.Exp2(4*r.Float64()-3)
		}
	}
	return s
}

// same tells whether two plans are alike, save for the share.
func same(t *testing.T, want, got route.Plan) {
	t.Helper()
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		v, w := in.Value(&want), in.Value(&got)
		assert.True(t, v == w || !quantity.Given(v) && !quantity.Given(w), in.Key)
	}
}

// TestFittedPlansKeepWithinTheShelf: a share that nobody set takes no more than there is,
// wherever any share does, and no much larger one would; else the thing is named.
func TestFittedPlansKeepWithinTheShelf(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	share, _ := route.InputByKey("batch.share")
	less, never, whole := 0, 0, 0
	for n := range long.Of(100, 400, 4000) {
		p := routetest.Way(r, n)
		require.NoError(t, share.Set(&p, share.Default))
		s, before := filled(r, &p), p
		f := s.Fit(&p, false)
		same(t, before, p)
		require.LessOrEqual(t, float64(f.Share), share.Default)
		fitted := p
		fitted.BatchShare = f.Share
		scarce, short := f.Scarce()
		within := true
		for key, has := range s {
			within = within && takes(&fitted, key) <= has
		}
		switch {
		case short && scarce.Enough == 0:
			never++
			least := p
			least.BatchShare = quantity.Percent(share.Min)
			over := false
			for key, has := range s {
				over = over || takes(&least, key) > has
			}
			assert.True(t, over, "named as enough for no share, and is enough for the least")
			assert.False(t, f.Less())
		case short:
			less++
			assert.True(t, f.Less())
			assert.True(t, within, "plan %d takes more than there is", n)
			more := p
			more.BatchShare = f.Share * 1.12
			over := more.BatchShare > quantity.Percent(share.Default)
			for key, has := range s {
				over = over || takes(&more, key) > has
			}
			assert.True(t, over, "plan %d could take an eighth more", n)
		default:
			whole++
			assert.True(t, within)
			assert.Equal(t, share.Default, float64(f.Share))
		}
	}
	for _, n := range []int{less, never, whole} {
		assert.Positive(t, n, "each case comes up")
	}
}

// TestWhatWasSetStands, whatever the shelf holds; and an empty shelf changes nothing.
func TestWhatWasSetStands(t *testing.T) {
	share, _ := route.InputByKey("batch.share")
	p := route.NewPlan()
	acid := stock.Shelf{"shelf.acid": 30}
	f := acid.Fit(&p, false)
	require.True(t, f.Less())
	for name, c := range map[string]struct {
		share float64
		shelf stock.Shelf
		set   bool
	}{
		"another share":           {50, acid, false},
		"an interval":             {share.Default, acid, true},
		"the usual share, chosen": {share.Default, stock.Shelf{"shelf.acid": 30, stock.ShareKey: 1}, false},
		"nothing said":            {share.Default, stock.Shelf{}, false},
		"no shelf":                {share.Default, nil, false},
		"not of this way":         {share.Default, stock.Shelf{"shelf.oxalic": 0}, false},
	} {
		q := p
		require.NoError(t, share.Set(&q, c.share))
		f := c.shelf.Fit(&q, c.set)
		assert.Equal(t, c.share, float64(f.Share), name)
		assert.False(t, f.Less(), name)
		_, scarce := f.Scarce()
		assert.Equal(t, c.shelf["shelf.acid"] > 0, scarce, name)
	}
	assert.Nil(t, stock.Shelf(nil).Offers(&p, &stock.Fitted{Share: p.BatchShare, Own: p.BatchShare}, true), "the usual plan fits")
}

// TestTheScarcestIsNamed: what is enough for the smallest share.
func TestTheScarcestIsNamed(t *testing.T) {
	p := route.NewPlan()
	f := stock.Shelf{"shelf.acid": 40, "shelf.copper": 5, "shelf.oxalic": 1}.Fit(&p, false)
	require.Len(t, f.Limits, 2, "oxalic acid is not of this way")
	assert.Equal(t, "copper", f.Limits[0].Word)
	assert.Equal(t, "acid", f.Limits[1].Word)
	assert.Less(t, f.Limits[0].Enough, f.Limits[1].Enough)
	assert.Equal(t, f.Limits[0].Enough, f.Share)
	assert.InDelta(t, takes(&p, "shelf.copper"), f.Limits[0].Asks, 1e-9)
}

// TestOffersKeepTheirWord: each leaves a plan that the shelf and its vessels hold.
func TestOffersKeepTheirWord(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	kinds := map[string]int{}
	for n := range long.Of(40, 120, 1500) {
		p := routetest.Way(r, n)
		s := filled(r, &p)
		for _, what := range []string{"acid", "metabisulfite", "peroxide", "oxalic"} {
			if v := r.IntN(3); v > 0 {
				s["shelf.buy."+what] = float64(v)
			}
		}
		f := s.Fit(&p, false)
		p.BatchShare = f.Share
		for _, o := range s.Offers(&p, &f, true) {
			q := p
			form := q.Form()
			for _, c := range o.Set {
				in, ok := form.Find(c.Key)
				require.True(t, ok, c.Key)
				require.NoError(t, form.Set(in, c.Text), o.Text)
				kinds[c.Key]++
			}
			require.Empty(t, route.Check(&q), o.Text)
			sheet := *new(route.Runner).Run(&q)
			for _, key := range things {
				const yes = 1 // more may be bought
				if has, ok := s[key]; ok && s["shelf.buy."+strings.TrimPrefix(key, "shelf.")] != yes && (has > 0 || key != "shelf.acid" || route.HotAcid(&q)) {
					assert.LessOrEqual(t, takes(&q, key), has, "%s: %s", o.Text, key)
				}
			}
			for _, v := range routetest.Vessels(&q, &sheet) {
				assert.False(t, v.TooMuch(), "%s: %s", o.Text, v.Key)
			}
			assert.Empty(t, s.Shut(&q), o.Text)
			assert.NotContains(t, o.Text+o.Gives+o.Done, "NaN")
		}
	}
	for _, key := range []string{"batch.share", "gas.source", "cell.count"} {
		assert.Positive(t, kinds[key], key)
	}
}

// TestWaysFollowFromWhatMayBeBought.
func TestWaysFollowFromWhatMayBeBought(t *testing.T) {
	const no = 2
	shut := func(word string, s stock.Shelf) string {
		p := route.NewPlan()
		form := p.Form()
		f, _ := form.Find("gas.source")
		require.NoError(t, form.Set(f, word))
		return s.Shut(&p)
	}
	assert.Empty(t, shut("copper", nil))
	assert.Contains(t, shut("copper", stock.Shelf{"shelf.buy.acid": no}), "strong acid, of which you named none on the shelf, and none may be bought here")
	assert.Contains(t, shut("copper", stock.Shelf{"shelf.buy.acid": no, "shelf.acid": 0}), "strong acid, of which none stands on the shelf")
	assert.Empty(t, shut("peroxide", stock.Shelf{"shelf.buy.acid": no}), "weak acid does")
	assert.Empty(t, shut("copper", stock.Shelf{"shelf.buy.acid": no, "shelf.acid": 100}), "it is there")
	assert.Contains(t, shut("copper", stock.Shelf{"shelf.copper": 0}), "copper")
	assert.Contains(t, shut("metabisulfite", stock.Shelf{"shelf.buy.metabisulfite": no}), "metabisulfite")
	assert.Contains(t, shut("slurrysalt", stock.Shelf{"shelf.buy.metabisulfite": no}), "metabisulfite")
	assert.Contains(t, shut("peroxide", stock.Shelf{"shelf.peroxide": 0}), "peroxide")
	assert.Empty(t, shut("peroxide", stock.Shelf{"shelf.peroxide": 0, "shelf.buy.peroxide": 1}), "it can be bought")
	assert.Contains(t, shut("oxalic", stock.Shelf{"shelf.buy.oxalic": no}), "oxalic acid")

	p := route.NewPlan()
	s := stock.Shelf{"shelf.buy.acid": no, "shelf.buy.oxalic": no}
	f := s.Fit(&p, false)
	offers := s.Offers(&p, &f, false)
	require.Len(t, offers, 3, "all that are open")
	for _, o := range offers {
		assert.Equal(t, "gas.source", o.Set[0].Key)
		assert.Contains(t, o.Gives, " of salt")
	}
}

// TestEachWaySaysWhatOfItStandsOnTheShelf.
func TestEachWaySaysWhatOfItStandsOnTheShelf(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for _, o := range source.Options {
		p := route.NewPlan()
		require.NoError(t, source.Choose(&p, o.Word))
		r := route.ReductantOf(&p)
		f, ok := stock.Shelf{}.Form().Find(r.Shelf)
		if assert.True(t, ok, o.Word) {
			assert.Equal(t, r.Used.Info().Unit, f.Unit, o.Word)
		}
	}
}

// TestQuickerIsQuicker: each offer leaves a shorter boiling down, and says how long it is.
func TestQuickerIsQuicker(t *testing.T) {
	p := route.NewPlan()
	run := func(p *route.Plan) *route.Sheet { return new(route.Runner).Run(p) }
	require.Nil(t, stock.Quicker(&p, run(&p)), "hours are no trouble")
	p.DryRate = 20
	sheet := *run(&p)
	require.Greater(t, sheet.Value(route.DryHours), float64(stock.LongDish))
	offers := stock.Quicker(&p, &sheet)
	require.GreaterOrEqual(t, len(offers), 2)
	for _, o := range offers {
		q := p
		form := q.Form()
		for _, c := range o.Set {
			f, _ := form.Find(c.Key)
			require.NoError(t, form.Set(f, c.Text))
		}
		then := run(&q).Value(route.DryHours)
		assert.Less(t, then, sheet.Value(route.DryHours), o.Text)
		assert.Contains(t, o.Gives, route.Print(then, "h"), o.Text)
		assert.NotContains(t, o.Gives, "too small", o.Text)
	}
	p.Rows[0].Count = 30
	sheet = *run(&p)
	half := slices.IndexFunc(stock.Quicker(&p, &sheet), func(o stock.Offer) bool { return o.Set[0].Key == route.ShareKey })
	assert.Regexp(t, `^Half the share takes .* of salt in place of .*\. Then the 250\x{202f}mL flask stays too small\.`, stock.Quicker(&p, &sheet)[half].Gives)
}

// TestAWayBringsItsShare: the share that a way is told with is set, though it be that of the
// plan, since one that nobody set would then follow the reagents alone and not the vessels.
func TestAWayBringsItsShare(t *testing.T) {
	p := route.NewPlan()
	s := stock.Shelf{"shelf.copper": takes(&p, "shelf.copper") / 2}
	f := s.Fit(&p, false)
	require.True(t, f.Less())
	p.BatchShare = f.Share
	same := 0
	for beaker := quantity.Millilitre(100); beaker < 600; beaker++ {
		p.SlurryBeaker = beaker
		for _, w := range s.Ways(&p) {
			if w.Own || w.Shut != "" || strings.Contains(w.Gives, "of the mix") {
				continue
			}
			same++
			assert.Contains(t, w.Set, field.Change{Key: "batch.share", Text: route.Plain(float64(f.Share))})
		}
	}
	assert.Positive(t, same, "some vessel holds just the share that the shelf allows")
}

// TestNoOfferGivesNothing: with the water left in the dish given for the share that the plan has,
// every offer gives salt in proportion.
func TestNoOfferGivesNothing(t *testing.T) {
	p := route.NewPlan()
	p.DryWay, p.CropCold, p.CropWater, p.DryRate = route.ToCrystals, 100, 50, 15
	sheet := *new(route.Runner).Run(&p)
	gives := func(p *route.Plan) float64 { return new(route.Runner).Run(p).Value(route.ProductMass) }
	whole := gives(&p)
	require.Positive(t, whole)
	s := stock.Shelf{"shelf.acid": 15}
	f := s.Fit(&p, true)
	offers := append(s.Offers(&p, &f, true), stock.Quicker(&p, &sheet)...)
	require.GreaterOrEqual(t, len(offers), 4)
	for _, o := range offers {
		q, ok := p.With(o.Set)
		require.True(t, ok, o.Text)
		assert.Positive(t, gives(&q), o.Text)
		if len(o.Set) == 2 && o.Set[0].Key == "batch.share" {
			assert.Equal(t, "crop.water", o.Set[1].Key)
			assert.InEpsilon(t, whole*float64(q.BatchShare/p.BatchShare), gives(&q), 0.05, o.Text)
		}
	}
	p.CropWater = 1e5
	sheet = *new(route.Runner).Run(&p)
	f = s.Fit(&p, true)
	assert.Zero(t, gives(&p))
	assert.Empty(t, stock.Quicker(&p, &sheet))
	for _, o := range s.Offers(&p, &f, true) {
		q, _ := p.With(o.Set)
		assert.Positive(t, gives(&q), o.Text)
	}
}

// TestAnOfferThatAVesselBoundsSaysSo, and one that something on the shelf bounds does not.
func TestAnOfferThatAVesselBoundsSaysSo(t *testing.T) {
	way := func(p *route.Plan, s stock.Shelf, of string) stock.Way {
		source, _ := route.InputByKey("gas.source")
		for i, w := range s.Ways(p) {
			if source.Options[i].Word == of {
				return w
			}
		}
		t.Fatal(of)
		return stock.Way{}
	}
	p := route.NewPlan()
	p.SlurryBeaker = 600
	s := stock.Shelf{"shelf.acid": 40}
	w := way(&p, s, "peroxide")
	require.Contains(t, w.Gives, "% of the mix")
	assert.Contains(t, w.Gives, " More of the mix does not fit the 600\u202fmL slurry vessel.")
	p.SlurryBeaker = 5000
	assert.NotContains(t, way(&p, s, "peroxide").Gives, "does not fit")
	p.DryDish, p.CropVessel, p.GasFlask = 5000, 5000, 5000
	assert.NotContains(t, way(&p, stock.Shelf{"shelf.peroxide": 50}, "peroxide").Gives, "does not fit", "peroxide bounds it")

	p = route.NewPlan()
	p.SlurryBeaker = 100
	f := stock.Shelf(nil).Fit(&p, false)
	offers := stock.Shelf(nil).Offers(&p, &f, false)
	require.NotEmpty(t, offers)
	assert.Contains(t, offers[0].Gives, "does not fit the 100\u202fmL slurry vessel.")
}

// TestWhatMayBeBoughtBoundsNothing, however little of it stands on the shelf.
func TestWhatMayBeBoughtBoundsNothing(t *testing.T) {
	p := route.NewPlan()
	for _, has := range []float64{0, 10} {
		scarce := stock.Shelf{"shelf.acid": has}
		f := scarce.Fit(&p, false)
		_, ok := f.Scarce()
		require.True(t, ok)
		scarce["shelf.buy.acid"] = 1
		f = scarce.Fit(&p, false)
		_, ok = f.Scarce()
		assert.False(t, ok)
		assert.Equal(t, p.BatchShare, f.Share)
		assert.Empty(t, scarce.Offers(&p, &f, false))
		assert.Empty(t, scarce.Shut(&p))
	}
}

// TestNoStrongAcidShutsOnlyTheWaysThatNeedIt: the others take what shops sell, and what the shelf says
// of that way and of its share goes together.
func TestNoStrongAcidShutsOnlyTheWaysThatNeedIt(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for _, s := range []stock.Shelf{{"shelf.acid": 0}, {"shelf.acid": 0, "shelf.buy.acid": 2}} {
		open := 0
		for _, o := range source.Options {
			p := route.NewPlan()
			require.NoError(t, source.Choose(&p, o.Word))
			f := s.Fit(&p, false)
			_, scarce := f.Scarce()
			assert.Equal(t, route.HotAcid(&p), s.Shut(&p) != "", o.Word)
			assert.Equal(t, route.HotAcid(&p), scarce, o.Word)
			for _, w := range s.Ways(&p) {
				if w.Shut == "" {
					open++
				}
			}
		}
		assert.Positive(t, open)
		p := route.NewPlan()
		f := s.Fit(&p, false)
		assert.NotEmpty(t, s.Offers(&p, &f, false), "another way is open")
	}
	p := route.NewPlan()
	require.NoError(t, source.Choose(&p, "peroxide"))
	f := stock.Shelf{"shelf.acid": takes(&p, "shelf.acid") / 2}.Fit(&p, false)
	assert.True(t, f.Less(), "what stands there is used as far as it goes")
}

// TestWhatDoesNotFitIsSaidOfEveryVessel that is too small, and of more acid than is work for a bench;
// nothing is said where all fits.
func TestWhatDoesNotFitIsSaidOfEveryVessel(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	small, beyond, fits := 0, 0, 0
	for n := range long.Of(100, 400, 4000) {
		p := routetest.Way(r, n)
		sheet := new(route.Runner).Run(&p)
		said := stock.Unfit(&p, sheet)
		due := 0
		for _, v := range route.Vessels(&p, sheet) {
			if v.TooSmall() {
				due++
				assert.Contains(t, said, "the "+v.Word()+" is too small, "+v.LeastText()+" or more (")
			}
		}
		small += due
		if route.BeyondBench(&p, sheet) {
			due++
			beyond++
			assert.Contains(t, said, "more acid at once than is work for a bench")
		}
		if due == 0 {
			fits++
			assert.Empty(t, said)
		} else {
			assert.Equal(t, due, 1+strings.Count(said, "; "), said)
		}
	}
	assert.Positive(t, small)
	assert.Positive(t, beyond)
	assert.Positive(t, fits)
}

// TestWhatDoesNotFitThen: of a vessel that is too small before a change already, that it stays so.
func TestWhatDoesNotFitThen(t *testing.T) {
	plan := func(cells float64, source route.Choice) (*route.Plan, *route.Sheet) {
		p := route.NewPlan()
		p.Rows[0].Count, p.GasSource = cells, source
		return &p, new(route.Runner).Run(&p)
	}
	then := func(cells, after float64, source route.Choice) string {
		p, sheet := plan(cells, route.FromCopper)
		q, follows := plan(after, source)
		return stock.UnfitThen(q, follows, p, sheet)
	}
	assert.Empty(t, then(6, 7, route.FromCopper))
	assert.Empty(t, then(100, 100, route.FromCopper), "nothing changes")
	assert.Contains(t, then(6, 6, route.ByPeroxide), "the 1\u202fL slurry vessel is too small, 1.8\u202fL or more (a third full at most: it froths)")
	assert.Equal(t, "the 250\u202fmL flask stays too small; the 1\u202fL slurry vessel stays too small", then(30, 29, route.FromCopper))
}
