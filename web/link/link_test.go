package link_test

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

func TestNewPlanIsOnlyItsVersion(t *testing.T) {
	p := link.NewContent()
	assert.Equal(t, "v=2", link.Encode(&p))
	for _, fragment := range []string{"", "#", "v=2", "#v=2", "v=2&"} {
		got, troubles := link.Decode(fragment)
		assert.Empty(t, troubles, fragment)
		assert.Equal(t, "v=2", link.Encode(&got), fragment)
	}
}

func TestKeysAndUnitsAsPromised(t *testing.T) {
	c, troubles := link.Decode("#v=2&cell.size=R20&cell.count=10&gas.strength=98&slurry.acid=0&gas.source=metabisulfite&cell.2.size=6F22&cell.2.count=3&gas.salt=12.5")
	require.Empty(t, troubles)
	p := c.Plan
	assert.Equal(t, 10.0, p.Rows[0].Count)
	assert.Equal(t, quantity.Percent(98), p.GasStrength)
	assert.Equal(t, quantity.Millilitre(0), p.SlurryAcid)
	assert.Equal(t, route.FromMetabisulfite, p.GasSource)
	assert.Equal(t, 3.0, p.Rows[1].Count)
	assert.Equal(t, quantity.Gram(12.5), p.GasSalt)
}

func TestWhatIsNotTakenIsNamed(t *testing.T) {
	cases := map[string]struct{ fragment, part, why string }{
		"unknown key":        {"v=2&tea.sugar=2", "tea.sugar=2", "does not know"},
		"newer version":      {"v=3&cell.count=3", "v=3", "another version"},
		"no text":            {"notes=sm%F8r", "notes=sm%F8r", "not UTF-8"},
		"no version":         {"v=2;tea=3", "v=2;tea=3", "no version of a link"},
		"no value":           {"cell.count", "cell.count", "not a key and a value"},
		"bad escape":         {"cell.count=%zz", "cell.count=%zz", "not a key and a value"},
		"twice":              {"wash.times=1&wash.times=2", "wash.times=2", "stands twice"},
		"too large":          {"gas.strength=101", "gas.strength=101", "above the limit of 100"},
		"not a number":       {"gas.strength=strong", "gas.strength=strong", "cannot be read"},
		"not a word":         {"cell.size=LR20", "cell.size=LR20", "not offered"},
		"endless":            {"gas.acid=1e999", "gas.acid=1e999", "cannot be read"},
		"no day":             {"days.start=tomorrow", "days.start=tomorrow", "no day and time"},
		"no time":            {"days.from=25:00", "days.from=25:00", "no time of the day"},
		"no apart":           {"days.every=0", "days.every=0", "7 is once a week"},
		"half a group":       {"club.groups=2.5", "club.groups=2.5", "not a whole number"},
		"short session":      {"days.long=5", "days.long=5", "30 to 1440"},
		"both ends":          {"days.start=2026-03-02T09:00&days.finish=2026-03-04T18:00", "days.finish=2026-03-04T18:00", "cannot both"},
		"unknown step":       {"time.tea=5", "time.tea=5", "does not know a step"},
		"endless step":       {"time.gas=99999", "time.gas=99999", "more than a week"},
		"do not go together": {"gas.end=97", "gas.end", "cannot weaken"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			_, troubles := link.Decode(c.fragment)
			require.Len(t, troubles, 1)
			assert.Equal(t, c.part, troubles[0].Part)
			assert.Contains(t, troubles[0].Why, c.why)
		})
	}
}

// TestSeparatorsThatWereRewritten: a page's source writes "&" as "&amp;", and some programs
// part by semicolons.
func TestSeparatorsThatWereRewritten(t *testing.T) {
	const whole = "v=2&cell.count=9&gas.uptake~=60,90&found.product=12&assay.chelate.sample=1.5&club.groups=3&days.from=08:00&notes=a%3Bcell.count%3D4"
	want, troubles := link.Decode(whole)
	require.Empty(t, troubles)
	for _, to := range []string{"&amp;", "&amp;amp;", ";"} {
		text := strings.ReplaceAll(whole, "&", to)
		got, troubles := link.Decode(text)
		assert.Empty(t, troubles, to)
		assert.Equal(t, link.Encode(&want), link.Encode(&got), to)
		got, troubles, ok := link.ReadText("Our plan: file:///rosesalt.html#" + text)
		require.True(t, ok, to)
		assert.Empty(t, troubles, to)
		assert.Equal(t, link.Encode(&want), link.Encode(&got), to)
	}
	c, troubles := link.Decode("v=2&gas.uptake~=60;90&notes=wash;tea=3")
	assert.Empty(t, troubles, "no key follows")
	assert.Equal(t, spread.Interval{Low: 60, High: 90}, c.Given["gas.uptake"])
	assert.Equal(t, "wash;tea=3", c.Notes)
}

func TestTheRestStands(t *testing.T) {
	p, troubles := link.Decode("v=2&cell.count=9&nonsense&gas.strength=400&wash.times=2")
	assert.Len(t, troubles, 2)
	assert.Equal(t, 9.0, p.Plan.Rows[0].Count)
	assert.Equal(t, 2.0, p.Plan.WashTimes)
}

func TestValuesThatOnlyGoTogether(t *testing.T) {
	p, troubles := link.Decode("gas.strength=70&gas.end=60")
	assert.Empty(t, troubles, "70 is below the usual end, but this link brings its own")
	assert.Equal(t, quantity.Percent(70), p.Plan.GasStrength)
}

func TestHugeAndHostileLinks(t *testing.T) {
	_, troubles := link.Decode(strings.Repeat("a", 1_000_000))
	require.Len(t, troubles, 1)
	assert.Less(t, len(troubles[0].Part), 200)
	_, troubles = link.Decode("cell.count=5" + strings.Repeat("&x=1", 10000))
	assert.LessOrEqual(t, len(troubles), link.MaxTroubles)
}

// markup would do something if any of it were taken for more than text.
const markup = `"'><img src=x onerror="window.owned=1"><script>window.owned=1</script><!--</script>]]>&lt;b&gt;${window.owned=1}`

// TestHostileLinksAreToldInFewWords: each is named, does not drown the rest, and leaves a
// plan that can be written and read again. The page's own tests open three of them.
func TestHostileLinksAreToldInFewWords(t *testing.T) {
	many := func(n int, part func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString("&" + part(i))
		}
		return b.String()
	}
	inputs := route.Inputs()
	for _, c := range []struct{ name, fragment, says string }{
		{"a megabyte in one value", "v=2&notes=" + strings.Repeat("a", 1_000_000), "longer than"},
		{"a megabyte of percent signs", strings.Repeat("%", 1_000_000), "longer than"},
		{"a megabyte without a key", strings.Repeat("é", 1_000_000/6), "longer than"},
		{"ten thousand parts", "v=2" + many(10_000, func(i int) string { return fmt.Sprintf("a%d=%d", i, i) }), "longer than"},
		{"nine thousand short parts", "v=2" + many(9_000, func(int) string { return "a=1" }), "parts; the first 1000 were read"},
		{"every key a thousand times", "v=2" + many(1000, func(i int) string { return inputs[i%len(inputs)].Key + "=1" }), "further parts were not taken"},
		{"keys that contradict each other", "v=2&cell.count=3&cell.rejects=5&cell.count=9&days.start=2026-03-02T09:00&days.finish=2026-03-05T09:00&gas.strength=70&gas.end=98", "stands twice"},
		{"a run within a run within a run", "v=2&run=" + url.QueryEscape("v=2&run="+url.QueryEscape("v=2&run=v%3D2")), "does not know “run”"},
		{"percent signs that mean nothing", "v=2&%=1&%zz=%&mix.wet=%4&%%%&gas.acid=%uD800", "not a key and a value"},
		{"what is no valid text", "v=2&%ff%fe=%c0%80&notes=%ff%00%ed%a0%80&mix.wet=%ff", "cannot be read"},
		{"half a letter", "v=2&notes=\xed\xa0\x80x&mix.wet=\xed\xbf\xbf", "cannot be read"},
		{"nothing but zeros", "v=2&%00=%00&mix.wet=%00&cell.size=%00", "is not offered"},
		{"writing turned round", "v=2&mix.wet=" + url.QueryEscape("\u202e12\u2066") + "&" + url.QueryEscape("\u202etxt.exe") + "=1", "�12�"},
		{"names of a language's own", "v=2&__proto__=1&constructor=2&__proto__.polluted=1&toString~=1,2&hasOwnProperty=3&time.__proto__=5&run.done=constructor", "does not know “__proto__”"},
		{"numbers that are none", "v=2&mix.wet=1e999&gas.acid=0x10&gas.copper=" + url.QueryEscape("١٢") + "&wash.soak=NaN&slurry.water=Infinity&rinse.each=" + strings.Repeat("9", 5000) + "&cell.count=1e-999", "cannot be read"},
		{"markup everywhere", "v=" + url.QueryEscape(markup) + "&notes=" + url.QueryEscape(markup) + "&" + url.QueryEscape(markup) + "=1&days.start=" + url.QueryEscape(markup) + "&gas.uptake~=" + url.QueryEscape(markup) + "&found.product=" + url.QueryEscape(markup) + "&run=" + url.QueryEscape(markup), "no version"},
	} {
		t.Run(c.name, func(t *testing.T) {
			content, troubles := link.Decode(c.fragment)
			var told strings.Builder
			for _, trouble := range troubles {
				told.WriteString(trouble.Part + ": " + trouble.Why + "\n")
			}
			assert.Contains(t, told.String(), c.says)
			assert.Less(t, told.Len(), 12_000)
			again, _ := link.Decode(link.Encode(&content))
			assert.Equal(t, link.Encode(&content), link.Encode(&again))
		})
	}
}

// plans draws plans that the page accepts, by setting inputs within their limits.
func plans(t *rapid.T) route.Plan {
	p := route.NewPlan()
	inputs := route.Inputs()
	for range rapid.IntRange(0, 12).Draw(t, "changes") {
		in := &inputs[rapid.IntRange(0, len(inputs)-1).Draw(t, "input")]
		if in.IsChoice() {
			word := rapid.IntRange(0, len(in.Options)-1).Draw(t, "word")
			require.NoError(t, in.Choose(&p, in.Options[word].Word))
			continue
		}
		v := rapid.Float64Range(in.Min, in.Max).Draw(t, "value")
		if in.Whole {
			v = float64(int64(v))
		}
		_ = in.Set(&p, v) // rounding may fall below a least of 1
	}
	if len(route.Check(&p)) > 0 {
		return route.NewPlan()
	}
	return p
}

// intervals draws intervals as the user may set them.
func intervals(t *rapid.T) map[string]spread.Interval {
	given := map[string]spread.Interval{}
	inputs := route.Inputs()
	for range rapid.IntRange(0, 4).Draw(t, "intervals") {
		in := &inputs[rapid.IntRange(0, len(inputs)-1).Draw(t, "of")]
		if in.IsChoice() {
			continue
		}
		low := rapid.Float64Range(in.Min, in.Max).Draw(t, "low")
		given[in.Key] = spread.Interval{Low: low, High: rapid.Float64Range(low, in.Max).Draw(t, "high")}
	}
	return given
}

func TestIntervals(t *testing.T) {
	c, troubles := link.Decode("gas.uptake~=50,90&tea~=1,2&gas.end~=80,70&cell.size~=1,2&wash.held~=1")
	assert.Equal(t, map[string]spread.Interval{"gas.uptake": {Low: 50, High: 90}}, c.Given)
	assert.Len(t, troubles, 4)
	in, _ := route.InputByKey("gas.uptake")
	for _, text := range []string{"50 to 90", "50–90", "50 %; 90 %"} {
		got, err := spread.ReadInterval(&in.Field, text)
		require.NoError(t, err, text)
		assert.Equal(t, spread.Interval{Low: 50, High: 90}, got, text)
	}
}

func midnight(t time.Time) time.Time { return t.Truncate(24 * time.Hour) }

// days draws when the work is done, as the user may set it.
func days(t *rapid.T, c *link.Content) {
	at := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC).Add(time.Duration(rapid.IntRange(0, 1e6).Draw(t, "at")) * time.Minute)
	switch rapid.IntRange(0, 2).Draw(t, "end") {
	case 1:
		c.Days.Start = at
	case 2:
		c.Days.Finish = at
	}
	c.Days.Every = rapid.IntRange(1, procedure.MostApart).Draw(t, "every")
	c.Days.From = time.Duration(rapid.IntRange(0, 24*60-1).Draw(t, "from")) * time.Minute
	c.Days.Long = time.Duration(rapid.IntRange(30, 24*60).Draw(t, "long")) * time.Minute
	c.Days.Second = rapid.IntRange(0, procedure.MostApart).Draw(t, "second")
	for range rapid.IntRange(0, 3).Draw(t, "out") {
		first := midnight(at).AddDate(0, 0, rapid.IntRange(0, 200).Draw(t, "first"))
		c.Days.Out = append(c.Days.Out, procedure.Span{First: first, Last: first.AddDate(0, 0, rapid.IntRange(0, 30).Draw(t, "long"))})
	}
	slices.SortStableFunc(c.Days.Out, func(a, b procedure.Span) int { return a.First.Compare(b.First) })
	for range rapid.IntRange(0, 4).Draw(t, "hands") {
		key := rapid.SampledFrom([]string{"wash", "gas", "evaporate"}).Draw(t, "by")
		c.Hands[key] = rapid.SampledFrom([]procedure.Hand{procedure.Staff, procedure.ShownFirst}).Draw(t, "hand")
	}
	for range rapid.IntRange(0, 4).Draw(t, "times") {
		key := rapid.SampledFrom(procedure.Keys()).Draw(t, "step")
		require.NoError(t, c.Times.Set(key, quantity.Minute(rapid.IntRange(0, 7*24*60).Draw(t, "minutes"))))
	}
}

func TestDaysAsPromised(t *testing.T) {
	c, troubles := link.Decode("days.start=2026-03-02T09:00&days.from=14:30&days.long=180&days.every=7&time.gas=75")
	require.Empty(t, troubles)
	assert.Equal(t, time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC), c.Days.Start)
	assert.Equal(t, 14*time.Hour+30*time.Minute, c.Days.From)
	assert.Equal(t, 3*time.Hour, c.Days.Long)
	assert.Equal(t, 7, c.Days.Every)
	assert.Equal(t, procedure.Durations{"gas": 75}, c.Times)
	assert.Equal(t, "v=2&days.start=2026-03-02T09:00&days.from=14:30&days.long=180&days.every=7&time.gas=75", link.Encode(&c))
	set := func(key, text string) error {
		form, f, ok := link.Find(c.Forms(), key)
		require.True(t, ok, key)
		return form.Set(f, text)
	}
	require.NoError(t, set(procedure.FinishKey, "2026-03-04T18:00"))
	assert.True(t, c.Days.Start.IsZero(), "a finish takes the place of a start")
	for _, key := range []string{procedure.FinishKey, procedure.FromKey, procedure.LongKey, procedure.EveryKey, "time.gas"} {
		require.NoError(t, set(key, ""))
	}
	assert.Equal(t, "v=2", link.Encode(&c), "nothing brings back the usual")
}

func TestSessionsAsPromised(t *testing.T) {
	const fragment = "v=2&days.every=7&days.second=1&days.out=2026-04-03,2026-07-20..2026-08-30&by.wash=staff&by.gas=shown&by.evaporate=air&club.groups=8&club.batch=one&club.pupils=24"
	c, troubles := link.Decode(fragment)
	require.Empty(t, troubles)
	day := func(m time.Month, d int) time.Time { return time.Date(2026, m, d, 0, 0, 0, 0, time.UTC) }
	assert.Equal(t, 1, c.Days.Second)
	assert.Equal(t, []procedure.Span{{First: day(4, 3), Last: day(4, 3)}, {First: day(7, 20), Last: day(8, 30)}}, c.Days.Out)
	assert.Equal(t, procedure.Hands{"wash": procedure.Staff, "gas": procedure.ShownFirst, "evaporate": procedure.LeftToAir}, c.Hands)
	assert.Equal(t, club.Club{Groups: 8, AtOnce: 1, Batch: club.SharedBatch, Pupils: 24}, c.Club)
	assert.Equal(t, fragment, link.Encode(&c))
}

func TestClubAsPromised(t *testing.T) {
	c, troubles := link.Decode("club.groups=6&club.atonce=2")
	require.Empty(t, troubles)
	assert.Equal(t, club.Club{Groups: 6, AtOnce: 2}, c.Club)
	assert.Equal(t, "v=2&club.groups=6&club.atonce=2", link.Encode(&c))
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plans(t)
		c := link.NewContent()
		c.Plan, c.Given = p, intervals(t)
		days(t, &c)
		c.Club = club.Club{Groups: float64(rapid.IntRange(1, 30).Draw(t, "groups")), AtOnce: float64(rapid.IntRange(1, 30).Draw(t, "at once"))}
		require.NoError(t, c.Found.Set("found.product", rapid.Float64Range(0, 1e4).Draw(t, "found")))
		fragment := link.Encode(&c)
		back, troubles := link.Decode(fragment)
		got := back.Plan
		require.Empty(t, troubles, fragment)
		inputs := route.Inputs()
		for i := range inputs {
			want, have := inputs[i].Value(&p), inputs[i].Value(&got)
			require.True(t, want == have || !quantity.Given(want) && !quantity.Given(have), inputs[i].Key)
		}
		require.Equal(t, c.Given, back.Given)
		require.Equal(t, c.Found.Product, back.Found.Product)
		require.Equal(t, c.Days, back.Days)
		require.Equal(t, c.Times, back.Times)
		require.Equal(t, c.Hands, back.Hands)
		require.Equal(t, c.Club, back.Club)
		_, err := url.Parse("file:///rosesalt.html#" + fragment)
		require.NoError(t, err)
	})
}

// BenchmarkHostileLink is what a link can keep a page from standing for, beside a plain one.
func BenchmarkHostileLink(b *testing.B) {
	for _, c := range []struct{ name, fragment string }{
		{"plain", "v=2&cell.count=9&gas.uptake~=60,90"},
		{"one value", "v=2&notes=" + strings.Repeat("%ff", 1<<20)},
		{"short parts", strings.Repeat("a=1&", 1<<18)},
		{"as long as is read", "v=2&notes=" + strings.Repeat("%ff", (link.MaxLength-10)/3)},
		{"as many as are read", strings.Repeat("cell.count=٣&", link.MaxLength/14)},
		{"one interval", "gas.uptake~=" + strings.Repeat("1-", link.MaxLength/2-10)},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				link.Decode(c.fragment)
			}
		})
	}
}

// TestAVersionsOwnDefaults: a link is read against the defaults that it was written by, and
// written against those of today; so is the plan that a run was started from.
func TestAVersionsOwnDefaults(t *testing.T) {
	first, now := route.PlanOf(1), route.NewPlan()
	require.NotEqual(t, first.GasExcess, now.GasExcess)
	for fragment, want := range map[string]route.Plan{
		"": now, "v=2": now, "v=99": now, "v=99999999999999999999999": now, "v=1": first, "v=0": first, "cell.count=6": now, "cell.count=6&v=1": first,
	} {
		c, _ := link.Decode(fragment)
		assert.Equal(t, want.GasExcess, c.Plan.GasExcess, "%s", fragment)
		again, troubles := link.Decode(link.Encode(&c))
		assert.Empty(t, troubles, fragment)
		assert.True(t, sameInputs(&want, &c.Plan) && sameInputs(&want, &again.Plan), "%s", fragment)
		assert.True(t, strings.HasPrefix(link.Encode(&c), "v=2"), "%s", fragment)
	}
	c, troubles := link.Decode("v=2&gas.excess=30&run=" + url.QueryEscape("v=1&cell.count=3"))
	require.Empty(t, troubles)
	assert.Equal(t, now.GasExcess, c.Plan.GasExcess)
	assert.Equal(t, first.GasExcess, c.Run.Planned.Plan.GasExcess)
	again, _ := link.Decode(link.Encode(&c))
	assert.True(t, sameInputs(&c.Run.Planned.Plan, &again.Run.Planned.Plan))

	// What cannot stand together goes back to the defaults of the link's own version.
	c, troubles = link.Decode("v=1&cell.count=3&cell.rejects=5")
	assert.Len(t, troubles, 1)
	assert.True(t, sameInputs(&first, &c.Plan))
}

func sameInputs(a, b *route.Plan) bool {
	for _, in := range route.Inputs() {
		if v, w := in.Value(a), in.Value(b); v != w && (v == v || w == w) {
			return false
		}
	}
	return true
}
