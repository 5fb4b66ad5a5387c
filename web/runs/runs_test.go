package runs_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
	"rosesalt/web/runs"
)

var update = flag.Bool("update", false, "write the examples anew")

func sample(day int, name string) runs.Run {
	return runs.Run{
		Kept:     fmt.Sprintf("2026-03-%02dT09:30:00+01:00", day),
		Name:     name,
		Plan:     "v=1&cell.size=R20&cell.count=10",
		Found:    map[string]float64{"found.product": 41.7, "found.dried": 105},
		Readings: []runs.Reading{{"dish", 84.31, 126.01}, {"residue paper", 1.02, quantity.Blank}},
		Flags:    []string{"wet crystals"},
		Learned:  map[string][2]float64{"gas.uptake": {41, 63}},
	}
}

func add(t require.TestingT, b *runs.Book, r runs.Run) {
	_, err := b.Add(r)
	require.NoError(t, err)
}

func text(b *runs.Book) string { return string(b.Encode()) }

func names(list []runs.Run) (out []string) {
	for _, r := range list {
		out = append(out, r.Name)
	}
	return out
}

func TestIDIsOfPlanFoundAndMoment(t *testing.T) {
	a := sample(1, "a")
	b := a
	b.Name, b.Notes, b.Plan, b.Kept = "b", "warm day", "#"+a.Plan, "2026-03-01T08:30:00.000Z"
	assert.Equal(t, runs.ID(a), runs.ID(b))
	assert.Regexp(t, "^[0-9a-f]{16}$", runs.ID(a))
	b.Found = map[string]float64{"found.product": 41.8, "found.dried": 105}
	assert.NotEqual(t, runs.ID(a), runs.ID(b))
	for _, other := range []runs.Run{{Kept: a.Kept, Plan: a.Plan}, sample(2, "a")} {
		assert.NotEqual(t, runs.ID(a), runs.ID(other))
	}
	assert.Equal(t,
		runs.ID(runs.Run{Found: map[string]float64{"found.metal": 0}}),
		runs.ID(runs.Run{Found: map[string]float64{"found.metal": math.Copysign(0, -1)}}))
}

func TestAddGetListRemove(t *testing.T) {
	var b runs.Book
	for _, day := range []int{2, 3, 1} {
		fresh, err := b.Add(sample(day, fmt.Sprint(day)))
		require.NoError(t, err)
		assert.True(t, fresh)
	}
	assert.Equal(t, []string{"3", "2", "1"}, names(b.List()))
	fresh, err := b.Add(sample(2, "2"))
	require.NoError(t, err)
	assert.False(t, fresh, "the same run twice is one")
	assert.Equal(t, 3, b.Len())

	id := runs.ID(sample(2, ""))
	r, ok := b.Get(id)
	require.True(t, ok)
	r.Found["found.product"] = 9
	r.Readings[0].Full = 9
	again, _ := b.Get(id)
	assert.Equal(t, 41.7, again.Found["found.product"], "what is given out is a copy")
	assert.Equal(t, 126.01, again.Readings[0].Full)

	assert.True(t, b.Remove(id))
	assert.False(t, b.Remove(id))
	assert.False(t, b.Remove("nobody"))
	_, ok = b.Get(id)
	assert.False(t, ok)
	assert.Equal(t, []string{"3", "1"}, names(b.List()))
	fresh, err = b.Add(sample(2, "2"))
	require.NoError(t, err)
	assert.True(t, fresh, "a dropped run can be kept again")
	assert.Equal(t, 3, b.Len())
}

func TestChanges(t *testing.T) {
	var b runs.Book
	add(t, &b, sample(1, "a"))
	id := runs.ID(sample(1, ""))
	mine, _ := b.Get(id)
	theirs, _ := b.Get(id)
	mine.Notes, mine.Flags = "the cake was not rinsed", nil
	add(t, &b, mine)
	got, _ := b.Get(id)
	assert.Equal(t, mine.Notes, got.Notes)
	assert.Empty(t, got.Flags, "what one takes out is out")

	theirs.Notes = "smelled of gas"
	add(t, &b, theirs)
	got, _ = b.Get(id)
	assert.Contains(t, got.Notes, "not rinsed", "the other page had not seen it")
	assert.Contains(t, got.Notes, "smelled")

	got.Notes = "both"
	add(t, &b, got)
	got, _ = b.Get(id)
	assert.Equal(t, "both", got.Notes)
	assert.Equal(t, 1, b.Len())
}

func TestLimitsAreSaid(t *testing.T) {
	many := func(n int) (f []string) {
		for range n {
			f = append(f, "x")
		}
		return f
	}
	cases := map[string]struct {
		change func(*runs.Run)
		why    string
	}{
		"time":          {func(r *runs.Run) { r.Kept = "14 March" }, "The time “14 March” cannot be read. Give day, time and zone, such as 2026-03-14T09:30:00+01:00."},
		"notes":         {func(r *runs.Run) { r.Notes = strings.Repeat("n", 70000) }, "The notes are 70000 bytes long, above the limit of 65536. Shorten them, or keep the rest in a file of its own."},
		"plan":          {func(r *runs.Run) { r.Plan = strings.Repeat("p", 70000) }, "The plan is 70000 bytes long, above the limit of 65536."},
		"name":          {func(r *runs.Run) { r.Name = strings.Repeat("ä", 201) }, "has 201 characters, above the limit of 200. Shorten it."},
		"flags":         {func(r *runs.Run) { r.Flags = many(101) }, "The run has 101 flags, above the limit of 100. Leave some out."},
		"not UTF-8":     {func(r *runs.Run) { r.Notes = "\xff" }, "is not text in UTF-8"},
		"key":           {func(r *runs.Run) { r.Found = map[string]float64{"product": 3} }, "“product” is not a found value."},
		"empty key":     {func(r *runs.Run) { r.Found = map[string]float64{"": 3} }, "“” is not a found value."},
		"not a number":  {func(r *runs.Run) { r.Found = map[string]float64{"found.gas": math.NaN()} }, "found.gas is not a number. Leave out what was not measured."},
		"endless":       {func(r *runs.Run) { r.Found = map[string]float64{"found.gas": math.Inf(1)} }, "found.gas is +Inf, beyond the limit of 1e+09. Check the unit."},
		"mass":          {func(r *runs.Run) { r.Readings = []runs.Reading{{"jar", 1, 1e12}} }, "The mass of “jar” is 1e+12, beyond the limit"},
		"learned":       {func(r *runs.Run) { r.Learned = map[string][2]float64{"gas.uptake": {3, 2}} }, "gas.uptake was learned as 3 to 2: the high stands before the low. Turn them round."},
		"learned key":   {func(r *runs.Run) { r.Learned = map[string][2]float64{"Gas": {1, 2}} }, "“Gas” is not the key of a learned value."},
		"learned blank": {func(r *runs.Run) { r.Learned = map[string][2]float64{"gas.uptake": {1, math.NaN()}} }, "gas.uptake is not a number."},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			var b runs.Book
			r := sample(1, "a")
			c.change(&r)
			_, err := b.Add(r)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.why)
			assert.Zero(t, b.Len())
		})
	}
}

func TestBookLimits(t *testing.T) {
	var b runs.Book
	for i := range runs.MaxRuns {
		add(t, &b, runs.Run{Kept: "2026-03-14T09:30:00Z", Plan: fmt.Sprint(i)})
	}
	_, err := b.Add(sample(1, "one more"))
	assert.EqualError(t, err, "500 runs are kept, and the limit is 500. Export them to a file, then drop some.")
	change := b.List()[0]
	change.Notes = "still free to change"
	add(t, &b, change)
	b.Remove(b.List()[7].ID)
	add(t, &b, sample(1, "now there is room"))

	var heavy runs.Book
	for i := 0; ; i++ {
		_, err := heavy.Add(runs.Run{Kept: "2026-03-14T09:30:00Z", Plan: fmt.Sprint("heavy", i), Notes: strings.Repeat("n", runs.MaxNotes)})
		if err != nil {
			assert.Contains(t, err.Error(), "above the limit of 2097 kB. Export them to a file, then drop some")
			break
		}
	}
	var both runs.Book
	both.Merge(&heavy)
	both.Merge(&b)
	assert.Equal(t, heavy.Len()+b.Len(), both.Len(), "a merge loses nothing to the limits")
	got, troubles := runs.Decode(bytes.NewReader(both.Encode()))
	assert.Empty(t, troubles)
	assert.Equal(t, text(&both), text(got))
	assert.Less(t, 2*runs.MaxBook, runs.MaxFile, "two full books fit a file")

	report := b.Import(&heavy)
	assert.NotEmpty(t, report.Refused, "an import does hold to them")
	assert.Contains(t, report.Refused[0].String(), "and the limit is 500")
}

func TestImport(t *testing.T) {
	var here, file runs.Book
	for day := range 4 {
		add(t, &here, sample(day+1, fmt.Sprint(day+1)))
	}
	for day := range 5 {
		add(t, &file, sample(day+1, fmt.Sprint(day+1)))
	}
	id := func(day int) string { return runs.ID(sample(day, "")) }
	here.Remove(id(1))
	file.Remove(id(2))
	file.Remove(id(2))
	other, _ := file.Get(id(3))
	other.Notes = "seen elsewhere"
	add(t, &file, other)

	report := here.Import(&file)
	assert.Equal(t, runs.Report{New: []string{id(5)}, Same: []string{id(4)}, Changed: []string{id(3)}, Dropped: []string{id(1)}}, report)
	assert.Equal(t, "Runs: 1 new, 1 already here, 1 joined with what was here, 1 dropped here before and left out.", report.String())
	assert.Equal(t, []string{"5", "4", "3", "2"}, names(here.List()), "a file drops nothing here")
	got, _ := here.Get(id(3))
	assert.Equal(t, "seen elsewhere", got.Notes)

	before := text(&here)
	report = here.Import(&file)
	assert.Empty(t, report.New)
	assert.Empty(t, report.Changed)
	assert.Equal(t, before, text(&here), "the same file again changes nothing")
	report = here.Import(&runs.Book{})
	assert.Equal(t, "There are no runs in it.", report.String())
}

// ---- files

func TestWhatIsNotTakenIsNamed(t *testing.T) {
	file := func(run string) string {
		return "{\"rosesalt\":\"runs\",\"version\":1,\"runs\":[\n{\"kept\":\"2026-03-14T09:30:00Z\",\"plan\":\"v=1\",\"name\":\"good\"},\n" + run + "]}"
	}
	with := func(fields string) string {
		return file(`{"kept":"2026-03-15T09:30:00Z","plan":"v=1",` + fields + `}`)
	}
	good := with(`"name":"x"`)
	cases := map[string]struct {
		text string
		kept int
		why  string
	}{
		"empty":           {"", 0, "the file: It is empty."},
		"a list":          {"[]", 0, "does not say that it holds runs"},
		"not JSON":        {"kept,name\n", 0, "damaged at byte 1, in line 1"},
		"word":            {`"runs"`, 0, "does not say"},
		"no version":      {strings.Replace(good, `"version":1`, `"version":null`, 1), 2, "says no version that could be read"},
		"newer":           {strings.Replace(good, `"version":1`, `"version":7`, 1), 2, "written by version 7; this page knows version 1"},
		"field":           {strings.Replace(good, `"version":1`, `"version":1,"tea":{"a":[1]}`, 1), 2, "its field “tea”"},
		"field twice":     {strings.Replace(good, `"version":1`, `"version":1,"version":2`, 1), 2, "“version” stands twice; the first was taken"},
		"damaged":         {strings.Replace(good, `"v=1","name":"x"`, `"v=1","name:"x"`, 1), 1, "in line 3 (invalid character 'x' after object key). Of it, the one run before"},
		"behind":          {good + "x", 2, "damaged at byte"},
		"runs no list":    {`{"rosesalt":"runs","version":1,"runs":{"a":[{}]}}`, 0, "“runs” is not a list"},
		"case":            {with(`"Name":"x"`), 2, "run 2, in line 3: This page does not know its field “Name”; the rest of the run was read."},
		"run no object":   {file("7"), 1, "run 2, in line 3: It was refused: “7” is no object with fields."},
		"null run":        {file("null"), 1, "no object with fields"},
		"no plan":         {file(`{"kept":"2026-03-15T09:30:00Z"}`), 1, "It was refused: it has no “plan”."},
		"bad time":        {file(`{"kept":"15 March","plan":""}`), 1, "It was refused. The time “15 March” cannot be read."},
		"null found":      {with(`"found":{"found.gas":null}`), 1, "found.gas: “null” cannot be read there"},
		"found text":      {with(`"found":{"found.gas":"3"}`), 1, "cannot be read there"},
		"found endless":   {with(`"found":{"found.gas":1e999}`), 1, "cannot be read there"},
		"found elsewhere": {with(`"found":{"gas":1}`), 1, "“gas” is not a found value"},
		"found twice":     {with(`"found":{"found.gas":1,"found.gas":2}`), 1, "“found.gas” stands twice"},
		"three ends":      {with(`"learned":{"gas.uptake":[1,2,3]}`), 1, "gas.uptake: it has 3 ends instead of 2"},
		"null end":        {with(`"learned":{"gas.uptake":[null,2]}`), 1, "cannot be read there"},
		"reading":         {with(`"readings":[{"what":"jar","lid":3}]`), 2, "its field “readings.lid”"},
		"edit":            {with(`"edit":-3`), 1, "-3 is no count of edits"},
		"wrong id":        {with(`"id":"0123456789abcdef"`), 2, "it was changed by another hand. It was taken under its new id."},
		"long notes":      {with(`"notes":"` + strings.Repeat("n", runs.MaxJoined+1) + `"`), 1, "The notes are 262145 bytes long"},
		"bad UTF-8":       {with("\"notes\":\"\xff\""), 2, "in line 3, is not UTF-8"},
		"bad tombstone":   {strings.TrimSuffix(good, "}") + `,"dropped":[{"id":"x","edit":1}]}`, 2, "dropped run 1, in line 3: It was refused: “x” is no id."},
		"deep":            {`{"rosesalt":"runs","version":1,"x":` + strings.Repeat("[", 200000), 0, "damaged"},
		"too long":        {good[:len(good)-1] + `,"tea":"` + strings.Repeat("t", runs.MaxFile) + `"}`, 2, "longer than the limit of 5 MB; the runs in the first 5 MB were read"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			book, troubles := runs.Decode(strings.NewReader(c.text))
			require.NotEmpty(t, troubles)
			assert.Contains(t, troubles[0].String(), c.why)
			assert.Equal(t, c.kept, book.Len())
			assert.LessOrEqual(t, len(troubles), 2)
		})
	}
}

func TestOrderOfFieldsAndMarkDoNotMatter(t *testing.T) {
	book, troubles := runs.Decode(strings.NewReader("\uFEFF{\"runs\":[{\"plan\":\"v=1\",\"kept\":\"2026-03-14T09:30:00Z\"}],\"version\":1.0,\"rosesalt\":\"runs\"}"))
	assert.Empty(t, troubles)
	assert.Equal(t, 1, book.Len())
}

func TestTroublesEnd(t *testing.T) {
	_, troubles := runs.Decode(strings.NewReader(`{"rosesalt":"runs","version":1,"runs":[1` + strings.Repeat(",1", 3000) + `]}`))
	require.Len(t, troubles, runs.MaxTroubles)
	assert.Equal(t, "the file: 2002 further parts were not taken either.", troubles[runs.MaxTroubles-1].String())
}

type breaking struct{ r *strings.Reader }

func (b breaking) Read(p []byte) (int, error) {
	n, err := b.r.Read(p)
	if err != nil {
		err = errors.New("the stick was pulled")
	}
	return n, err
}

func TestReaderBreaks(t *testing.T) {
	var b runs.Book
	add(t, &b, sample(1, "a"))
	add(t, &b, sample(2, "b"))
	whole := text(&b)
	got, troubles := runs.Decode(breaking{strings.NewReader(whole[:len(whole)-20])})
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "could not be read to its end (the stick was pulled)")
	assert.Equal(t, []string{"b"}, names(got.List()))
}

func TestEveryCutKeepsWhatStandsBefore(t *testing.T) {
	var b runs.Book
	for day := range 3 {
		add(t, &b, sample(day+1, fmt.Sprint(day+1)))
	}
	b.Remove(b.List()[0].ID)
	whole := text(&b)
	end := strings.LastIndex(whole, "}")
	for cut := 0; cut < end; cut++ {
		got, troubles := runs.Decode(strings.NewReader(whole[:cut]))
		require.NotEmpty(t, troubles, cut)
		complete := 0
		for _, r := range b.List() {
			at := strings.Index(whole, `{"id":"`+r.ID)
			if cut > at+strings.Index(whole[at:], "\n") {
				complete++
			}
		}
		require.GreaterOrEqual(t, got.Len(), complete, "cut at %d: %v", cut, troubles)
	}
}

func TestExamples(t *testing.T) {
	var one, two runs.Book
	a := sample(14, "first")
	a.Notes = "Gas for two hours, stirred by hand.\nThe cake was rinsed once."
	add(t, &two, a)
	b := sample(21, "=second")
	b.Plan, b.Found, b.Readings, b.Learned = "v=1&cell.size=R6&cell.count=40&gas.strength=96", map[string]float64{"found.product": 52.25, "found.copper": 61, "found.metal": -0.01}, nil, nil
	add(t, &two, b)
	gone := sample(1, "")
	add(t, &two, gone)
	two.Remove(runs.ID(gone))
	add(t, &one, runs.Run{Kept: "2026-03-14T09:30:00Z", Plan: "v=1"})
	var table bytes.Buffer
	require.NoError(t, two.WriteCSV(&table, runs.Expected("copper.crop")))
	for name, got := range map[string][]byte{"valid/two.json": two.Encode(), "valid/least.json": one.Encode(), "table.csv": table.Bytes()} {
		path := testdata + "/" + name
		if *update {
			require.NoError(t, os.WriteFile(path, got, 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		if name == "table.csv" {
			continue // its figures move with the chemistry; TestTable holds its form
		}
		assert.Equal(t, string(want), string(got), name)
	}
}

// ---- table

func TestTable(t *testing.T) {
	var b runs.Book
	add(t, &b, sample(1, "=HYPERLINK(\"x\")"))
	other := sample(2, "plain, with \"marks\"\nand lines")
	other.Found = map[string]float64{"found.metal": -0.25}
	other.Plan = "v=1&tea.sugar=2"
	other.Flags = []string{"-wet", "x"}
	other.Notes = " \t@SUM(1)"
	add(t, &b, other)
	var out bytes.Buffer
	require.NoError(t, b.WriteCSV(&out, runs.Column{Head: "+half", Value: func(r runs.Run) float64 { return r.Found["found.product"] / 2 }}))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	assert.Equal(t, []string{"kept", "name", "product.mass", "found.dried", "found.metal", "found.product", "'+half", "flags", "notes", "id", "plan"}, rows[0])
	assert.Equal(t, []string{"2026-03-02T09:30:00+01:00", other.Name, "", "", "-0.25", "", "0", "'-wet; x", "' \t@SUM(1)", runs.ID(other), other.Plan}, rows[1])
	assert.Equal(t, "'=HYPERLINK(\"x\")", rows[2][1])
	assert.Regexp(t, `^\d+\.\d+$`, rows[2][2], "the plan foretells its product")
	assert.Equal(t, []string{"105", "", "41.7", "20.85"}, rows[2][3:7])
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no place") }

func TestTableSaysThatItWasNotWritten(t *testing.T) {
	var b runs.Book
	add(t, &b, sample(1, "a"))
	assert.Error(t, b.WriteCSV(full{}))
}

func TestNoTextOfTheTableIsAFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b runs.Book
		r := sample(1, rapid.StringMatching(`[ \t\r\n'=+@＝-]{0,5}[a-z=]{0,3}`).Draw(t, "name"))
		r.Notes = rapid.String().Draw(t, "notes")
		add(t, &b, r)
		var out bytes.Buffer
		require.NoError(t, b.WriteCSV(&out))
		rows, err := csv.NewReader(&out).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows[1], len(rows[0]))
		for i, cell := range rows[1] {
			if !strings.HasPrefix(rows[0][i], "found.") {
				assert.NotRegexp(t, `^\s*[=+@＝＋－＠-]`, cell)
			}
		}
	})
}

// ---- properties

func drawRun(t *rapid.T) runs.Run {
	// few moments, plans and values, so that many are the same run
	r := runs.Run{
		Kept: rapid.SampledFrom([]string{"2026-03-14T09:30:00Z", "2026-03-14T10:30:00+01:00", "2025-12-31T23:59:59.5Z"}).Draw(t, "kept"),
		Plan: rapid.SampledFrom([]string{"v=1", "v=1&cell.count=4"}).Draw(t, "plan"),
		Name: rapid.SampledFrom([]string{"", "a", "b", "a\x00<&>\u2028\uFFFD"}).Draw(t, "name"),
	}
	r.Notes = rapid.OneOf(rapid.SampledFrom([]string{"", "dry", "drying", "wet"}), rapid.String()).Draw(t, "notes")
	value := rapid.OneOf(rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 41.7}), rapid.Float64Range(-1e9, 1e9))
	if rapid.Bool().Draw(t, "measured") {
		r.Found = map[string]float64{"found.product": rapid.SampledFrom([]float64{0, 41.7}).Draw(t, "product")}
	}
	if rapid.Bool().Draw(t, "weighed") {
		mass := rapid.OneOf(value, rapid.Just(quantity.Blank))
		for range rapid.IntRange(0, 2).Draw(t, "readings") {
			r.Readings = append(r.Readings, runs.Reading{rapid.SampledFrom([]string{"dish", "jar"}).Draw(t, "what"), mass.Draw(t, "empty"), mass.Draw(t, "full")})
		}
	}
	r.Flags = rapid.SliceOfN(rapid.SampledFrom([]string{"wet", "oxide", ""}), 0, 2).Draw(t, "flags")
	if rapid.Bool().Draw(t, "learned") {
		low := value.Draw(t, "low")
		r.Learned = map[string][2]float64{rapid.SampledFrom([]string{"gas.uptake", "cell.charge"}).Draw(t, "key"): {low, max(low, value.Draw(t, "high"))}}
	}
	return r
}

// act keeps a new run, changes one, or drops one.
func act(t *rapid.T, list []runs.Run, keep func(runs.Run), drop func(string)) {
	what := rapid.IntRange(0, 3).Draw(t, "act")
	if len(list) == 0 || what < 2 {
		keep(drawRun(t))
		return
	}
	r := rapid.SampledFrom(list).Draw(t, "run")
	if what == 2 {
		drop(r.ID)
		return
	}
	r.Notes = drawRun(t).Notes
	keep(r)
}

func drawBook(t *rapid.T) *runs.Book {
	var b runs.Book
	for range rapid.IntRange(0, 8).Draw(t, "acts") {
		act(t, b.List(), func(r runs.Run) { _, err := b.Add(r); require.NoError(t, err) }, func(id string) { b.Remove(id) })
	}
	return &b
}

func merged(books ...*runs.Book) *runs.Book {
	var b runs.Book
	for _, o := range books {
		b.Merge(o)
	}
	return &b
}

func TestMergeIsAJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawBook(t), drawBook(t), drawBook(t)
		ab := merged(a, b)
		assert.Equal(t, text(ab), text(merged(b, a)), "commutative")
		assert.Equal(t, text(a), text(merged(a, a)), "idempotent")
		assert.Equal(t, text(ab), text(merged(ab, b, a)), "again changes nothing")
		assert.Equal(t, text(merged(ab, c)), text(merged(a, merged(b, c))), "associative")
	})
}

func TestMergeLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawBook(t), drawBook(t)
		ab := merged(a, b)
		seen := map[string]bool{}
		for _, r := range ab.List() {
			assert.False(t, seen[r.ID], "doubled")
			seen[r.ID] = true
			assert.Equal(t, r.ID, runs.ID(r))
		}
		for _, pair := range [][2]*runs.Book{{a, b}, {b, a}} {
			for _, r := range pair[0].List() {
				got, ok := ab.Get(r.ID)
				other, there := pair[1].Get(r.ID)
				switch {
				case !there && !strings.Contains(text(pair[1]), r.ID):
					require.True(t, ok)
					assert.Equal(t, line(r), line(got), "only one has it: as it was")
				case there && other.Edit == r.Edit:
					require.True(t, ok)
					assert.Contains(t, got.Notes, r.Notes)
					for _, m := range r.Readings {
						assert.Contains(t, fmt.Sprint(got.Readings), fmt.Sprint(m))
					}
					for _, f := range r.Flags {
						assert.Contains(t, got.Flags, f)
					}
				}
			}
		}
	})
}

func line(r runs.Run) string { return fmt.Sprintf("%+v", r) }

func TestFileGivesTheBookBack(t *testing.T) {
	s := loadSchema(t)
	rapid.Check(t, func(t *rapid.T) {
		b := drawBook(t)
		got, troubles := runs.Decode(bytes.NewReader(b.Encode()))
		assert.Empty(t, troubles)
		assert.Equal(t, fmt.Sprintf("%+v", b.List()), fmt.Sprintf("%+v", got.List()))
		assert.Equal(t, text(b), text(got))
		assert.NoError(t, s.text(b.Encode()))
	})
}

func FuzzDecode(f *testing.F) {
	for _, folder := range []string{"valid", "troubled"} {
		list, _ := os.ReadDir(testdata + "/" + folder)
		for _, e := range list {
			text, err := os.ReadFile(testdata + "/" + folder + "/" + e.Name())
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	s := loadSchema(f)
	f.Fuzz(func(t *testing.T, file []byte) {
		book, troubles := runs.Decode(bytes.NewReader(file))
		if book.Len() == 0 && len(troubles) == 0 && !bytes.Contains(file, []byte("runs")) {
			t.Fatal("nothing read and nothing said")
		}
		again, more := runs.Decode(bytes.NewReader(book.Encode()))
		if len(more) > 0 || text(book) != text(again) {
			t.Fatalf("%v\n%s\n%s", more, text(book), text(again))
		}
		if err := s.text(book.Encode()); err != nil {
			t.Fatal(err)
		}
		if len(troubles) == 0 {
			if err := s.text(bytes.TrimPrefix(file, []byte("\uFEFF"))); err != nil {
				t.Fatalf("the schema is narrower than the reader: %v", err)
			}
		}
		for _, r := range book.List() {
			if r.ID != runs.ID(r) {
				t.Fatal("another id")
			}
		}
		if err := book.WriteCSV(new(bytes.Buffer)); err != nil {
			t.Fatal(err)
		}
	})
}

func BenchmarkFiftyRuns(b *testing.B) {
	var book runs.Book
	for i := range 50 {
		r := sample(i%28+1, fmt.Sprint(i))
		r.Plan += fmt.Sprintf("&batch.share=%d", i+1)
		add(b, &book, r)
	}
	file := book.Encode()
	for b.Loop() {
		got, _ := runs.Decode(bytes.NewReader(file))
		got.Merge(&book)
	}
}
