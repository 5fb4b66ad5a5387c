package procedure_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// FuzzReadMinutes: a time that was typed is a whole number of minutes up to a week that
// reads back as itself, or nothing where nothing stands, or told by name.
func FuzzReadMinutes(f *testing.F) {
	for _, text := range []string{"", "90", "90 min", "1 h 30", "1h30min", "1,5 h", "1:30", " 45\u202fmin ", "7.5", "h", "-5", "1e3", "10080", "10080.5", "168h", "٣", "99999999999999999999999999", "\u202e9"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := procedure.ReadMinutes(text)
		if err != nil {
			said := err.Error()
			if !strings.Contains(said, route.Clip(text, 40)) || !utf8.ValidString(said) || utf8.RuneCountInString(said) > 200 || strings.ContainsFunc(said, unicode.IsControl) {
				t.Fatalf("%q: the message %q", text, said)
			}
			return
		}
		if !quantity.Given(m) {
			if strings.TrimSpace(text) != "" {
				t.Fatalf("%q is nothing", text)
			}
			return
		}
		if m != quantity.Minute(int(m)) || m < 0 || m > procedure.Longest {
			t.Fatalf("%q is %v", text, m)
		}
		for _, again := range []string{route.Plain(float64(m)), " " + text + " ", procedure.Hours(m)} {
			if back, err := procedure.ReadMinutes(again); err != nil || back != m {
				t.Fatalf("%q is %v, and %q is %v, %v", text, m, again, back, err)
			}
		}
		times := procedure.Durations{}
		if err := times.Set("gas", m); err != nil || times["gas"] != m {
			t.Fatalf("%q is read as %v, which no step takes: %v", text, m, err)
		}
	})
}
