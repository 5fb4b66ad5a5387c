package runs_test

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/link"
	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
)

const testdata = "../../testdata/runs"

// schema is that of the file of kept runs.
type schema struct{ *jsonschema.Schema }

func loadSchema(t testing.TB) schema {
	s, err := jsonschema.NewCompiler().Compile(testdata + "/schema.json")
	require.NoError(t, err)
	return schema{s}
}

func (s schema) text(text []byte) error {
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		return err
	}
	return s.Validate(v)
}

func examples(t *testing.T, folder string) map[string][]byte {
	names, err := filepath.Glob(filepath.Join(testdata, folder, "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	out := map[string][]byte{}
	for _, name := range names {
		out[filepath.Base(name)], err = os.ReadFile(name)
		require.NoError(t, err)
	}
	return out
}

// TestValidExamples: files as the schema wants them, written by hand and by the page, are read
// without a word, and what is written fits the schema again.
func TestValidExamples(t *testing.T) {
	s := loadSchema(t)
	for name, text := range examples(t, "valid") {
		assert.NoError(t, s.text(text), name)
		states, troubles := runs.Decode(text)
		assert.Empty(t, troubles, name)
		assert.NotEmpty(t, states, name)
		store := runs.Open(shelftest.New())
		store.Import(text)
		assert.Len(t, store.Book().List(), len(states), name)
		assert.NoError(t, s.text(runs.Encode(store.Book().List())), name)
	}
}

func TestTroubledExamples(t *testing.T) {
	want := map[string]struct {
		kept int
		says []string
	}{
		"cut.json":     {1, []string{"It is damaged at byte 235, in line 3 (unexpected end of JSON input). Before that place one run was read."}},
		"comma.json":   {1, []string{"It is damaged at byte 108, in line 3 (invalid character '{' after array element). Before that place one run was read."}},
		"newer.json":   {1, []string{"It was written by version 2; this page knows version 1. What is known was read.", "run 1, in line 2: This page does not know “weather” in it", "its field “bench”: This page does not know it"}},
		"one-bad.json": {2, []string{"run 2, in line 3, “second”: It was left out. The time “in spring” cannot be read."}},
		"other.json":   {0, []string{"It does not say that it holds runs of this page; nothing was taken."}},
		"gone.json":    {0, []string{"a file brings runs and takes none away"}},
		"altered.json": {1, []string{"“mended”: It was changed since this page wrote it, and is taken as it stands."}},
		"told.json":    {1, []string{"What it tells of uptake and charge cannot be counted (account: gas.uptake has 3 places; there are 50); the rest was taken."}},
		"tea.json":     {0, []string{"It cannot be read at byte 2, in line 1 (invalid character 'e' in literal true (expecting 'r')), and does not say before that it holds runs of this page; nothing was taken."}},
	}
	s := loadSchema(t)
	for name, text := range examples(t, "troubled") {
		w, ok := want[name]
		require.True(t, ok, name)
		if name != "altered.json" { // a schema cannot tell
			assert.Error(t, s.text(text), name)
		}
		states, troubles := runs.Decode(text)
		assert.Len(t, states, w.kept, name)
		if !assert.Len(t, troubles, len(w.says), "%s: %v", name, troubles) {
			continue
		}
		for i := range w.says {
			assert.Contains(t, troubles[i].String(), w.says[i], name)
		}
	}
}

func TestLettersThatAreNoTextAreTold(t *testing.T) {
	states, troubles := runs.Decode([]byte(`{"format":"rosesalt-runs","version":1,"runs":[{"kept":"2026-03-14T09:30:00Z","plan":"v=1","notes":"sm` + "\xf8" + `r"}]}`))
	require.Len(t, states, 1)
	assert.Equal(t, "sm�r", states[0].Notes)
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "not UTF-8")
}

func TestSchemaCheckerSeesFaults(t *testing.T) {
	s := loadSchema(t)
	run := func(fields string) string {
		return `{"format":"rosesalt-runs","version":1,"runs":[{"kept":"2026-03-14T09:30:00Z","plan":"v=1"` + fields + `}]}`
	}
	require.NoError(t, s.text([]byte(run(""))))
	for _, text := range []string{
		`[]`, `{"format":"rosesalt-runs","version":1}`, `{"format":"rosesalt-runs","version":2,"runs":[]}`,
		run(`,"tea":1`), run(`,"gone":true`), run(`,"learned":{"gas.uptake":[1]}`), run(`,"learned":{"gas.uptake":[1,2,3,4]}`),
		run(`,"learned":{"gas.uptake":[1,2,2e9]}`), run(`,"told":{"gas.uptake":[0]}`), run(`,"told":{"dry.hours":[]}`),
		run(`,"id":"XYZ"`), run(`,"name":3`), run(`,"replaces":["a"]`),
		`{"format":"rosesalt-runs","version":1,"runs":[{"kept":"today","plan":"v=1"}]}`,
		`{"format":"rosesalt-runs","version":1,"runs":[{"kept":"2026-03-14T09:30:00Z","plan":""}]}`,
		`{"format":"rosesalt-runs","version":1,"runs":[{"plan":"v=1"}]}`,
	} {
		assert.Error(t, s.text([]byte(text)), text)
	}
}

// TestManyRuns: a file of more than is read, and one of rubbish, take no time.
func TestManyRuns(t *testing.T) {
	const head = `{"format":"rosesalt-runs","version":1,"runs":[`
	one := `{"kept":"2026-03-14T09:30:00Z","plan":"v=1"}`
	states, troubles := runs.Decode([]byte(head + strings.Repeat(one+",\n", runs.MaxRuns+1) + one + "]}"))
	assert.Len(t, states, runs.MaxRuns)
	require.Len(t, troubles, 1)
	assert.Equal(t, "It holds 1002 runs; the first 1000 were read.", troubles[0].String())
	states, troubles = runs.Decode([]byte(head + strings.Repeat("1,\n", runs.MaxFile/4) + "1]}"))
	assert.Empty(t, states)
	assert.LessOrEqual(t, len(troubles), runs.MaxTroubles)
	_, troubles = runs.Decode(make([]byte, runs.MaxFile+1))
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "8388609 bytes")
}

// TestTable: the table by hand, guarded cells among them.
func TestTable(t *testing.T) {
	text, err := os.ReadFile(testdata + "/valid/two.json")
	require.NoError(t, err)
	store := runs.Open(shelftest.New())
	store.Import(text)
	var b strings.Builder
	require.NoError(t, runs.WriteTable(&b, store.Book().List()))
	if os.Getenv("ROSESALT_UPDATE") != "" {
		require.NoError(t, os.WriteFile(testdata+"/table.csv", []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(testdata + "/table.csv")
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	for _, row := range rows[1:] {
		for _, cell := range row {
			assert.NotRegexp(t, `^[=+@\t\r\n-]`, cell)
		}
		at := slices.Index(rows[0], "product.mass (g)")
		planned, err := strconv.ParseFloat(row[at], 64)
		require.NoError(t, err)
		c, _ := link.Decode(strings.TrimPrefix(row[len(row)-1], "'"))
		assert.InEpsilon(t, new(route.Runner).Run(&c.Plan).Value(route.ProductMass), planned, 1e-5)
	}
	assert.Equal(t, "'=HYPERLINK(1)", rows[1][1])
	assert.Equal(t, "10 × R20 + 4 × R14", rows[2][2])
}

// FuzzDecode: whatever a file holds, it is read without falling over, what was taken fits the
// schema, is read back the same, and comes once.
func FuzzDecode(f *testing.F) {
	for _, folder := range []string{"valid", "troubled"} {
		names, _ := filepath.Glob(filepath.Join(testdata, folder, "*.json"))
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	s := loadSchema(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		states, troubles := runs.Decode(text)
		assert.LessOrEqual(t, len(troubles), runs.MaxTroubles+2)
		for _, trouble := range troubles {
			assert.Less(t, len(trouble.String()), 2000)
		}
		sh := shelftest.New()
		store := runs.Open(sh)
		store.Import(text)
		list := store.Book().List()
		assert.LessOrEqual(t, len(list), len(states))
		assert.Empty(t, store.Standing().Troubles())
		file := runs.Encode(list)
		require.NoError(t, s.text(file))
		again, troubles := runs.Decode(file)
		require.Empty(t, troubles, "%s", file)
		require.Len(t, again, len(list))
		store.Import(file)
		require.Equal(t, string(file), string(runs.Encode(store.Book().List())))
		require.Equal(t, string(file), string(runs.Encode(runs.Open(sh).Book().List())), "through storage")
	})
}
