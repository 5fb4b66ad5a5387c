package route

import (
	"math"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"rosesalt/chem/quantity"
)

// legible tells what keeps a message from being read as it was written: nothing in it
// may end it, turn its direction or drown it.
func legible(message string) string {
	switch {
	case !utf8.ValidString(message):
		return "is no valid text"
	case utf8.RuneCountInString(message) > 400:
		return "is too long"
	case strings.ContainsFunc(message, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }):
		return "holds a control character"
	}
	return ""
}

// FuzzRead: whatever is typed into a field of a number, it is a number that reads
// back as itself, or nothing where nothing stands, or told by name.
func FuzzRead(f *testing.F) {
	for i, text := range []string{
		"", "6", "0,5 L", "1 000", "1,000", "1,234.5", "−3", "–3 mL", "1e9", "2e-1", "1e999", "1e308 kg", "-0", "٣", "½", "0x10", "1_000",
		"45 %", "1.5 h", "4 ×", "1013.25 hPa", "120 °C", "\u202e12", "5 mL\x00", "\xff", "NaN", "Inf", "1.7976931348623157e308", "5e-324",
	} {
		f.Add(uint16(i), text)
	}
	f.Fuzz(func(t *testing.T, which uint16, text string) {
		in := &Inputs()[int(which)%len(Inputs())]
		p := NewPlan()
		was := p
		if in.IsChoice() {
			if err := in.Choose(&p, text); err == nil && in.Word(&p) != text || err != nil && in.Value(&p) != in.Value(&was) {
				t.Fatalf("%s takes %q for %q", in.Key, text, in.Word(&p))
			} else if err != nil && legible(err.Error()) != "" {
				t.Fatalf("%q: the message %q %s", text, err, legible(err.Error()))
			}
			return
		}
		v, err := in.Read(text)
		if err != nil {
			if bad := legible(err.Error()); bad != "" || !strings.Contains(err.Error(), Clip(strings.TrimSpace(text), 40)) {
				t.Fatalf("%q: the message %q %s, or does not name it", text, err, bad)
			}
			return
		}
		again, err := in.Read(" " + text + "\u202f")
		if err != nil || again != v && quantity.Given(v) {
			t.Fatalf("%q is %v, and between spaces %v, %v", text, v, again, err)
		}
		if !quantity.Given(v) {
			if strings.TrimSpace(text) != "" {
				t.Fatalf("%q is nothing", text)
			}
			return
		}
		if math.IsInf(v, 0) {
			t.Fatalf("%q is %v", text, v)
		}
		if back, err := in.Read(Plain(v)); math.Abs(v) < 1e300 && math.Abs(v) > 1e-300 && (err != nil || back != v) {
			t.Fatalf("%q is %v, and that is read as %v, %v", text, v, back, err)
		}
		if back, err := in.Read(in.Print(v)); err != nil || math.Abs(back-v) > 1e-9*math.Abs(v) {
			t.Fatalf("%q is printed %s, and that is read as %v, %v", text, in.Print(v), back, err)
		}
		err = in.Set(&p, v)
		switch {
		case err == nil && !(in.Min <= v && v <= in.Max && in.Value(&p) == v):
			t.Fatalf("%s takes %q as %v", in.Key, text, in.Value(&p))
		case err != nil && (legible(err.Error()) != "" || !strings.Contains(err.Error(), in.Print(v)) || !unmoved(in.Value(&p), in.Value(&was))):
			t.Fatalf("%q: the message %q %s, or does not name it, or the plan is changed", text, err, legible(err.Error()))
		}
	})
}

func unmoved(a, b float64) bool { return a == b || a != a && b != b }
