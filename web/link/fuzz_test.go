package link_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

// legible tells what keeps a message from being read as it was written.
func legible(message string) string {
	switch {
	case !utf8.ValidString(message):
		return "is no valid text"
	case utf8.RuneCountInString(message) > 500:
		return "is too long"
	case strings.ContainsFunc(message, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }):
		return "holds a control character"
	}
	return ""
}

// FuzzDecode: whatever an address holds, the plan of it runs, each part that was not taken
// is told legibly, and what was taken is written so that it reads the same again.
func FuzzDecode(f *testing.F) {
	for _, s := range []string{
		"v=2&cell.count=9", "v=9&%41=%zz", "cell.2.count=1e400&&=&#", "gas.end=99.9",
		"days.start=2026-03-02T09:00&days.finish=&days.from=24:00&days.long=1e3&time.gas=90&time.tea=5",
		"run=v%3D2%26run%3Dv&run.done=9&notes=%ff%00%e2%80%ae&found.product.empty=3&found.product.full=1&found.product=2",
		"assay.glass=tea&assay.oxalate.titre=%D9%A1%D9%A2&gas.uptake~=95,50&found.product~=-1&cell.count=%E2%88%921&cell.count=2",
		"__proto__=1&constructor=2&cell.count=0x10&mix.wet=1e999&toString~=1,2",
	} {
		f.Add(s)
	}
	var bench route.Runner
	f.Fuzz(func(t *testing.T, s string) {
		c, troubles := link.Decode(s)
		if len(route.Check(&c.Plan)) > 0 {
			t.Fatalf("plan with a problem from %q", s)
		}
		if len(troubles) > link.MaxTroubles {
			t.Fatalf("%d troubles", len(troubles))
		}
		for _, told := range troubles {
			if bad := legible(told.Part) + legible(told.Why); bad != "" {
				t.Fatalf("%q: the trouble %q %s", s, told, bad)
			}
		}
		if len(c.Notes) > link.MaxNotes || !utf8.ValidString(c.Notes) {
			t.Fatalf("%q: notes %q", s, c.Notes)
		}
		for key, given := range c.Given {
			if !(given.Low <= given.High) {
				t.Fatalf("%q: %s from %v to %v", s, key, given.Low, given.High)
			}
		}
		sheet := bench.Run(&c.Plan)
		for i := range route.Figures() {
			if id := route.FigureID(i); sheet.Reason(id) == route.Defined && !(sheet.Value(id)-sheet.Value(id) == 0) {
				t.Fatalf("%q: %s is %v", s, id.Info().Key, sheet.Value(id))
			}
		}
		text := link.Encode(&c)
		again, more := link.Decode(text)
		if len(more) > 0 || link.Encode(&again) != text {
			t.Fatalf("does not come back: %q: %q", text, more)
		}
	})
}

// FuzzReadInterval: an interval that was typed is in order, within the limits, and reads
// back as itself.
func FuzzReadInterval(f *testing.F) {
	for i, text := range []string{"50,95", "50-95", "50 to 95", "50–95", "−5 to −1", "-5--1", "0,5;0,9", "1…2", "95,50", "50", " to ", "1,5 to 2,5", "5 % - 9 %", "1e1-2e1", "1 000 to 2 000", "NaN,1"} {
		f.Add(uint16(i), text)
	}
	f.Fuzz(func(t *testing.T, which uint16, text string) {
		in := &route.Inputs()[int(which)%len(route.Inputs())]
		if in.IsChoice() {
			return
		}
		given, err := spread.ReadInterval(&in.Field, text)
		if err != nil {
			if bad := legible(err.Error()); bad != "" {
				t.Fatalf("%q: the message %q %s", text, err, bad)
			}
			return
		}
		if !(given.Low <= given.High) || given.Low < in.Min-0.5 || given.High > in.Max+0.5 {
			t.Fatalf("%s: %q is %v", in.Key, text, given)
		}
		for _, between := range []string{",", " to ", "–"} {
			own := route.Plain(given.Low) + between + route.Plain(given.High)
			if back, err := spread.ReadInterval(&in.Field, own); err != nil || back != given {
				t.Fatalf("%s: %q is %v, and %q is %v, %v", in.Key, text, given, own, back, err)
			}
		}
	})
}

// FuzzSetDays: whatever is typed for a day, a time or a session is told, or stands as it is
// written in the link, and can be laid out.
func FuzzSetDays(f *testing.F) {
	keys := []string{procedure.StartKey, procedure.FinishKey, procedure.FromKey, procedure.LongKey, procedure.TimePrefix + "gas", procedure.TimePrefix + "tea", procedure.SecondKey, procedure.OutKey, procedure.HandPrefix + "wash"}
	for i, text := range []string{"2026-03-02T09:00", "2026-02-30T09:00", "09:00", "3 h", "90", "5", "1999-12-31T23:59", "2199-12-31T23:59", "24:00", "14 to 18", "22–2:30", "10080", "", "0", "−5", "3 to 9 April 2026", "2026-04-03..2026-07-01, 1.8.2026", "staff"} {
		for j := range keys {
			f.Add(uint8(i+j), text, "14:30", "30")
		}
	}
	p := route.NewPlan()
	sheet := new(route.Runner).Run(&p)
	f.Fuzz(func(t *testing.T, which uint8, text, from, long string) {
		c := link.NewContent()
		for key, text := range map[string]string{procedure.FromKey: from, procedure.LongKey: long, keys[int(which)%len(keys)]: text} {
			form, f, ok := link.Find(c.Forms(), key)
			if !ok {
				t.Fatalf("%s is of no form", key)
			}
			if err := form.Set(f, text); err != nil {
				if bad := legible(err.Error()); bad != "" {
					t.Fatalf("%s=%q: the message %q %s", key, text, err, bad)
				}
				continue
			}
			// What stands is read back as itself.
			stands, other := form.Text(f), link.NewContent()
			if back, f, _ := link.Find(other.Forms(), key); back.Set(f, stands) != nil || back.Text(f) != stands {
				t.Fatalf("%s=%q stands as %q, which is read as %q", key, text, stands, back.Text(f))
			}
		}
		if !c.Days.Start.IsZero() && !c.Days.Finish.IsZero() {
			t.Fatal("a start and a finish")
		}
		start := c.Days.Start
		if start.IsZero() {
			start = c.Days.Finish
		}
		again, more := link.Decode(link.Encode(&c))
		assert.Empty(t, more)
		assert.Equal(t, c.Days, again.Days)
		assert.Equal(t, c.Times, again.Times)
		steps := procedure.WithHands(&p, sheet, procedure.Steps(&p, sheet, c.Times), c.Hands, c.Times)
		_, slots, err := c.Days.Lay(steps, start)
		if err != nil {
			if bad := legible(err.Error()); bad != "" {
				t.Fatalf("the message %q %s", err, bad)
			}
			return
		}
		for _, s := range slots {
			if s.End.Before(s.Start) || s.Part < 1 || s.Part > s.Of || quantity.Minute(s.End.Sub(s.Start).Minutes()) > procedure.Longest {
				t.Fatalf("%q %q %q: slot %v", text, from, long, s)
			}
		}
	})
}
