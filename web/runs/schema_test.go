package runs_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/web/runs"
)

const testdata = "../../testdata/runs"

// schema checks values against the keywords of JSON Schema 2020-12 that the
// schema of the file uses, and fails on any other: none may be thought checked
// that is not.
type schema struct{ root map[string]any }

func loadSchema(t testing.TB) schema {
	text, err := os.ReadFile(testdata + "/schema.json")
	require.NoError(t, err)
	var s schema
	require.NoError(t, json.Unmarshal(text, &s.root))
	return s
}

func (s schema) text(text []byte) error {
	var v any
	if err := json.Unmarshal(text, &v); err != nil {
		return err
	}
	return s.check("file", s.root, v)
}

func (s schema) check(at string, rule map[string]any, v any) error {
	object, isObject := v.(map[string]any)
	array, isArray := v.([]any)
	text, isText := v.(string)
	number, isNumber := v.(float64)
	limit := func(key string) int { return int(rule[key].(float64)) }
	bad := func(key string) error { return fmt.Errorf("%s: %s %v", at, key, rule[key]) }
	properties, _ := rule["properties"].(map[string]any)
	for key, want := range rule {
		ok := true
		switch key {
		case "$schema", "$id", "$defs", "title", "description", "format":
		case "$ref":
			name := regexp.MustCompile(`^#/\$defs/(\w+)$`).FindStringSubmatch(want.(string))[1]
			if err := s.check(at, s.root["$defs"].(map[string]any)[name].(map[string]any), v); err != nil {
				return err
			}
		case "const":
			ok = v == want
		case "type":
			switch want {
			case "object":
				ok = isObject
			case "array":
				ok = isArray
			case "string":
				ok = isText
			case "number":
				ok = isNumber
			case "integer":
				ok = isNumber && number == math.Trunc(number)
			default:
				ok = false
			}
		case "required":
			for _, name := range want.([]any) {
				if _, has := object[name.(string)]; isObject && !has {
					return fmt.Errorf("%s: no %s", at, name)
				}
			}
		case "properties":
			for name, rule := range properties {
				if v, has := object[name]; has {
					if err := s.check(at+"."+name, rule.(map[string]any), v); err != nil {
						return err
					}
				}
			}
		case "additionalProperties":
			for name, v := range object {
				if _, has := properties[name]; has {
					continue
				}
				if want == false {
					return fmt.Errorf("%s: additional %s", at, name)
				}
				if err := s.check(at+"."+name, want.(map[string]any), v); err != nil {
					return err
				}
			}
		case "propertyNames":
			for name := range object {
				if err := s.check(at+" name "+name, want.(map[string]any), name); err != nil {
					return err
				}
			}
		case "items":
			for i, v := range array {
				if err := s.check(fmt.Sprintf("%s[%d]", at, i), want.(map[string]any), v); err != nil {
					return err
				}
			}
		case "maxProperties":
			ok = len(object) <= limit(key)
		case "minItems":
			ok = !isArray || len(array) >= limit(key)
		case "maxItems":
			ok = len(array) <= limit(key)
		case "maxLength":
			ok = utf8.RuneCountInString(text) <= limit(key)
		case "minimum":
			ok = !isNumber || number >= want.(float64)
		case "maximum":
			ok = !isNumber || number <= want.(float64)
		case "pattern":
			ok = !isText || regexp.MustCompile(want.(string)).MatchString(text)
		default:
			return fmt.Errorf("%s: the checker does not know %s", at, key)
		}
		if !ok {
			return bad(key)
		}
	}
	return nil
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

func TestValidExamples(t *testing.T) {
	s := loadSchema(t)
	for name, text := range examples(t, "valid") {
		assert.NoError(t, s.text(text), name)
		book, troubles := runs.Decode(bytes.NewReader(text))
		assert.Empty(t, troubles, name)
		assert.NoError(t, s.text(book.Encode()), name)
	}
}

func TestTroubledExamples(t *testing.T) {
	want := map[string]struct {
		kept int
		says []string
	}{
		"cut.json":       {1, []string{"the file: It is damaged at byte 444, in line 3 (unexpected end of JSON input). Of it, the one run before that can be read."}},
		"newer.json":     {1, []string{"It was written by version 2; this page knows version 1.", "its field “weather”"}},
		"one-bad.json":   {2, []string{"run 2, in line 3, “second”: It was refused: found: found.product: “null” cannot be read there."}},
		"other.json":     {0, []string{"its field “name”", "It does not say that it holds runs of this page"}},
		"two-alike.json": {1, []string{"run 2, in line 3, “twice”: It stands twice; one was kept."}},
	}
	s := loadSchema(t)
	for name, text := range examples(t, "troubled") {
		w, ok := want[name]
		require.True(t, ok, name)
		if name != "two-alike.json" { // a schema cannot tell
			assert.Error(t, s.text(text), name)
		}
		book, troubles := runs.Decode(bytes.NewReader(text))
		assert.Equal(t, w.kept, book.Len(), name)
		require.Len(t, troubles, len(w.says), "%s: %v", name, troubles)
		for i := range w.says {
			assert.Contains(t, troubles[i].String(), w.says[i], name)
		}
	}
}

func TestSchemaCheckerSeesFaults(t *testing.T) {
	s := loadSchema(t)
	run := func(fields string) string {
		return `{"rosesalt":"runs","version":1,"runs":[{"kept":"2026-03-14T09:30:00Z","plan":"v=1"` + fields + `}]}`
	}
	require.NoError(t, s.text([]byte(run(""))))
	for _, text := range []string{
		`[]`, `{"rosesalt":"runs","version":1}`, `{"rosesalt":"runs","version":2,"runs":[]}`,
		run(`,"tea":1`), run(`,"edit":-1`), run(`,"edit":1.5`), run(`,"found":{"product":1}`),
		run(`,"found":{"found.product":2e9}`), run(`,"found":{"found.product":"1"}`),
		run(`,"learned":{"gas.uptake":[1]}`), run(`,"learned":{"gas.uptake":[1,2,3]}`),
		run(`,"readings":[{"mass":1}]`), run(`,"id":"XYZ"`), run(`,"name":3`),
		`{"rosesalt":"runs","version":1,"runs":[{"kept":"today","plan":""}]}`,
		`{"rosesalt":"runs","version":1,"runs":[{"plan":""}]}`,
		`{"rosesalt":"runs","version":1,"runs":[],"dropped":[{"id":"0123456789abcdef"}]}`,
	} {
		assert.Error(t, s.text([]byte(text)), text)
	}
}
