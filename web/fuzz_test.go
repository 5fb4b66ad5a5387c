package web

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"rosesalt/web/desk"
	"rosesalt/web/link"
	"rosesalt/web/runs"
)

// FuzzReadCopy: whatever is saved in a file, it opens as a plan, says what it did not
// take, and saves again as a copy that opens the same.
func FuzzReadCopy(f *testing.F) {
	for _, text := range []string{
		"", "{", "null", "[]", `{"version":1,"plan":"v=1&cell.count=9"}`, `{"version":2,"plan":7}`, `{"version":1,"plan":"v=1","more":null}`,
		`{"version":1,"plan":"v=1&notes=%3C%2Fscript%3E","more":{"runs":{"format":"rosesalt-runs","version":1,"runs":[]},"songs":["a","</script>"]}}`,
		`{"version":1,"plan":"\ud800\u0000","more":{"__proto__":{},"":1,"\u202e":"<!--<script>"}}`,
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		from, more := readCopy(text)
		if raw, ok := more["runs"]; ok {
			runs.Decode(raw)
			delete(more, "runs")
		}
		for name := range more {
			from.trouble(name, "not known")
		}
		from.unknown = more
		for _, told := range from.troubles {
			said := told.Part + told.Why
			if !utf8.ValidString(said) || utf8.RuneCountInString(said) > 300 || strings.ContainsFunc(said, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }) {
				t.Fatalf("%q: trouble %q", text, told)
			}
		}
		p := &page{from: from, desk: desk.New(from.plan)}
		again, failed := p.copyText()
		if len(failed) > 0 {
			t.Fatalf("%q: %q would not go into a copy", text, failed)
		}
		for _, no := range []string{"<", "\u2028", "\u2029"} {
			if strings.Contains(again, no) {
				t.Fatalf("%q: the copy %q would not stand in its element", text, again)
			}
		}
		back, kept := readCopy(again)
		if len(back.troubles) > 0 || written(back.plan) != p.desk.Fragment() || len(kept) != len(more) {
			t.Fatalf("%q: the copy %q opens as %q with %q", text, again, back.plan, back.troubles)
		}
		for name, raw := range more {
			if string(compact(t, kept[name])) != string(compact(t, raw)) {
				t.Fatalf("%q: %s is %s in the copy", text, name, kept[name])
			}
		}
	})
}

func written(plan string) string {
	c, _ := link.Decode(plan)
	return link.Encode(&c)
}

// compact is JSON as the copy writes it.
func compact(t *testing.T, raw json.RawMessage) []byte {
	b, err := json.Marshal(raw)
	if err != nil {
		t.Fatal(err)
	}
	return b
}
