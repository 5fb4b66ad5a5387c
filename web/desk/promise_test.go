package desk

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
	"rosesalt/web/link"
)

// shelved is a random plan, mostly with the usual share, and a shelf that holds from an eighth of what it
// takes to twice as much.
func shelved(r *rand.Rand, n int) (fragment string) {
	c := link.NewContent()
	c.Plan = routetest.Way(r, n)
	if share, _ := route.InputByKey("batch.share"); r.IntN(4) > 0 {
		_ = share.Set(&c.Plan, share.Default)
	}
	sheet := new(route.Runner).Run(&c.Plan)
	c.Shelf["shelf.acid"] = round3(route.StrongAcid(&c.Plan, sheet).All() * math.Exp2(4*r.Float64()-3))
	if way := route.ReductantOf(&c.Plan); r.IntN(2) == 0 {
		c.Shelf[way.Shelf] = round3(way.Need(&c.Plan, sheet).Amount * math.Exp2(4*r.Float64()-3))
	}
	c.Days.Every, c.Days.Long = 7, 2*time.Hour
	return link.Encode(&c)
}

func round3(v float64) float64 {
	if v == 0 {
		return 0
	}
	scale := math.Pow10(2 - int(math.Floor(math.Log10(v))))
	return math.Round(v*scale) / scale
}

// pressed is the desk of a fragment after changes, as the page makes them; not ok where they do
// not go together.
func pressed(fragment string, set ...field.Change) (d *Desk, ok bool) {
	d = New(fragment)
	for _, change := range set {
		d.Edit(change.Key, change.Text)
	}
	return d, d.FaultCount() == 0
}

// TestWhatIsOfferedIsWhatIsShownAfterIt: in plans whose share follows the shelf too, and in all
// that works out another plan.
func TestWhatIsOfferedIsWhatIsShownAfterIt(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 7))
	begin := time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)
	seen, follows := map[string]int{}, map[string]int{}
	for n := range long.Of(8, 24, 400) {
		d := New(shelved(r, n))
		for range 50 {
			if n%3 == 0 || d.Fitted().Less() {
				break
			}
			d = New(shelved(r, n)) // most of these follow the shelf
		}
		fragment := d.Fragment()
		if d.Sheet().Value(route.ProductMass) == 0 {
			continue
		}
		told := func(kind string) {
			seen[kind]++
			if d.Fitted().Less() {
				follows[kind]++
			}
		}
		same := func(kind, says string, want, is float64) {
			told(kind)
			assert.InEpsilon(t, want, is, 1e-9, "%s, %s: %s", kind, fragment, says)
		}

		offers := append(d.Offers(true), d.Quicker()...)
		for _, w := range d.Shelf().Ways(d.Plan()) {
			if w.Shut == "" && !w.Own {
				offers = append(offers, w.Offer)
			}
		}
		for _, o := range offers {
			then, ok := pressed(fragment, o.Set...)
			require.True(t, ok, o.Text)
			figures := []string{}
			if strings.Contains(o.Gives, " of salt") {
				figures = append(figures, route.Print(then.Sheet().Value(route.ProductMass), "g"))
			}
			if strings.Contains(o.Gives, " of acid") {
				figures = append(figures, route.Print(route.StrongAcid(then.Plan(), then.Sheet()).All(), "mL")+" of acid")
			}
			if strings.Contains(o.Gives, " pure") {
				figures = append(figures, route.Print(then.Sheet().Value(route.ProductPurity), "%")+" pure")
			}
			if strings.Contains(o.Gives, "\u202fh") {
				figures = append(figures, route.Print(then.Sheet().Value(route.DryHours), "h"))
			}
			require.NotEmpty(t, figures, o.Gives)
			told("offer")
			for _, words := range figures {
				assert.Contains(t, o.Gives, words, "%s: %s", fragment, o.Text)
			}
		}

		for _, byShare := range []bool{false, true} {
			if quantity.Given(d.Plan().CropWater) {
				break // which the user sets in proportion, as the answer says
			}
			d.Want(Wish{Text: route.Plain(round3(d.Sheet().Value(route.ProductMass) * math.Exp2(2*r.Float64()-1))), Figure: route.ProductMass, ByShare: byShare})
			for !d.rest.sought {
				d.stepWish(Draws)
			}
			a, key := d.Wish().Answer, "cell.count"
			if byShare {
				key = "batch.share"
			}
			for at, makes := range map[float64]float64{a.Best: a.BestMakes, a.Nearest: a.NearestMakes} {
				if then, ok := pressed(fragment, field.Change{Key: key, Text: route.Plain(at)}); ok && quantity.Given(at) {
					same("wish", key+" "+route.Plain(at), makes, then.Sheet().Value(route.ProductMass))
				}
			}
			if then, ok := pressed(fragment, field.Change{Key: key, Text: route.Plain(a.Sure)}); ok && quantity.Given(a.Sure) {
				low, _ := spread.Start(then.Case(), wishDraws).Finish().Quantile(route.ProductMass, 0.1)
				same("sure wish", key+" "+route.Plain(a.Sure), a.SureMakes, low)
			}
		}

		inputs := route.Inputs()
		along := &inputs[r.IntN(len(inputs))]
		if n%2 == 0 {
			along, _ = route.InputByKey("cell.count")
		}
		d.SweepAlong(along.Key)
		for !d.Swept() {
			d.stepSweep(math.MaxInt)
		}
		along = d.Sweep().Input()
		for _, point := range d.Sweep().Line(0) {
			text := along.Write(point.At)
			if then, ok := pressed(fragment, field.Change{Key: along.Key, Text: text}); ok && point.Best > 0 {
				same("sweep", along.Key+"="+text, point.Best, then.Sheet().Value(route.ProductMass))
			}
		}

		d.WantPure("95")
		for !d.rest.looked {
			d.stepPure(Draws)
		}
		pure := d.Pure().Answer
		for _, c := range append([]spread.Cleaned{pure.Best, pure.Surest}, pure.Alone...) {
			if len(c.Steps) == 0 {
				continue
			}
			then, ok := pressed(fragment, c.Set...)
			require.True(t, ok, fragment)
			same("purity", c.Steps[0].Key, c.Purity, then.Sheet().Value(route.ProductPurity))
			same("product", c.Steps[0].Key, c.Product, then.Sheet().Value(route.ProductMass))
		}

		for _, o := range d.Work(begin).Offers() {
			then, ok := pressed(fragment, o.Set...)
			require.True(t, ok, o.Text)
			if before, is := strings.CutSuffix(strings.Split(o.Cost, " of salt in place of ")[0], ""); is && strings.Contains(o.Cost, " of salt in place of ") && !strings.Contains(o.Cost, "for each") {
				told("club")
				assert.Equal(t, before, route.Print(then.Sheet().Value(route.ProductMass), "g"), "%s: %s", fragment, o.Text)
			}
			table, _ := then.Timetable(begin)
			sessions := 0
			for _, slot := range table.Slots {
				sessions = max(sessions, slot.Session)
			}
			if strings.Contains(o.Gives, "over on") {
				told("timetable")
				assert.Contains(t, o.Gives, route.Count(float64(sessions), "session")+", over on", "%s: %s", fragment, o.Text)
			}
		}
	}
	for _, kind := range []string{"offer", "wish", "sure wish", "sweep", "purity", "product", "club", "timetable"} {
		assert.Positive(t, seen[kind], kind)
		assert.Positive(t, follows[kind], kind)
	}
	t.Log(seen, follows)
}
