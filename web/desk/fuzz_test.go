package desk_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/club"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/stock"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// editable are the keys of all fields, in one order.
var editable = func() (keys []string) {
	for _, in := range route.Inputs() {
		keys = append(keys, in.Key, in.Key+"~")
	}
	for _, in := range account.Inputs() {
		keys = append(keys, in.Key, in.Key+"~")
		dish, _ := account.DishInputs(in.Key)
		for _, reading := range dish {
			keys = append(keys, reading.Key)
		}
	}
	for _, in := range assay.Inputs() {
		keys = append(keys, in.Key)
	}
	keys = append(keys, procedure.StartKey, procedure.FinishKey, procedure.FromKey, procedure.LongKey, link.NotesKey, "tea", "")
	for _, step := range procedure.Keys() {
		keys = append(keys, procedure.TimePrefix+step)
	}
	for _, in := range gaslog.Inputs() {
		keys = append(keys, in.Key)
	}
	keys = append(keys, procedure.EveryKey, club.GroupsKey, club.AtOnceKey)
	keys = append(keys, procedure.SecondKey, procedure.MostKey, procedure.OutKey, procedure.HandPrefix+"wash", procedure.HandPrefix+"gas", procedure.HandPrefix+"evaporate", club.BatchKey, club.PupilsKey)
	for _, f := range stock.Fields() {
		keys = append(keys, f.Key)
	}
	return keys
}()

// FuzzEdit: whatever is typed into the fields, one after the other, a line for each (the
// field's number, a space, its text), nothing typed is lost, what is wrong is told at a
// field, every figure is a number, and the link holds what the desk holds.
func FuzzEdit(f *testing.F) {
	at := func(key string) string {
		for i, k := range editable {
			if k == key {
				return string([]rune{rune('0' + i)})
			}
		}
		panic(key)
	}
	f.Add("", at("cell.count")+" 12\n"+at("gas.strength")+" 70\n"+at("gas.end")+" 98\n"+at("cell.count")+" ")
	f.Add("v=1&run=v%3D1&run.done=3", at("gas.acid")+" 20\n"+at("found.product")+" 30\n"+at("found.product.empty")+" 100\n"+at("found.product.full")+" 20")
	f.Add("v=1&cell.2.count=3", at("gas.uptake~")+" 95 to 50\n"+at("copper.cold")+" 90\n"+at("copper.hot")+" 10\n"+at("days.start")+" 2026-03-02T09:00\n"+at("days.finish")+" 2026-03-05T09:00")
	f.Add("", at("cell.kind")+" alkaline\n"+at("cell.2.kind")+" chloride\n"+at("gas.source")+" peroxide\n"+at("notes")+" \u202e\x00\n"+at("assay.oxalate.titre")+" 1e999")
	f.Add("v=1&mix.assay=70", at("mix.carbon")+" 60\n"+at("batch.share")+" 50")
	f.Add("v=2&cake.damp=400", at("cake.taken")+" 95\n"+at("batch.share")+" 30\n"+at("cake.taken")+" 95\n"+at("cake.damp")+" \n"+at("cell.rejects")+" 6\n"+at("days.long")+" 14 to 18")
	f.Add("shelf.acid=40", at("batch.share")+" 25\n"+at("shelf.share")+" within\n"+at("shelf.copper")+" 0\n"+at("shelf.buy.acid")+" no\n"+at("batch.share~")+" 20 to 30")
	f.Fuzz(func(t *testing.T, fragment, lines string) {
		d := desk.New(fragment)
		typed := map[string]string{}
		for i, line := range strings.Split(lines, "\n") {
			r, size := utf8.DecodeRuneInString(line)
			if i > 20 || size == 0 {
				break
			}
			key := editable[(int(r)-'0'+10*len(editable))%len(editable)]
			text := strings.TrimPrefix(line[size:], " ")
			d.Edit(key, text)
			typed[key] = text
			shown(t, d, key, text)
		}
		sound(t, d)
		// Through the link, the desk is what it was, but for what could not be read.
		again := desk.New(d.Fragment())
		if len(again.Troubles()) > 0 || again.Fragment() != d.Fragment() {
			t.Fatalf("%q %q: %q comes back as %q with %q", fragment, lines, d.Fragment(), again.Fragment(), again.Troubles())
		}
		d.Reset()
		for key := range typed {
			if d.Problem(key) != "" {
				t.Fatalf("%s: starting over leaves %q", key, d.Problem(key))
			}
		}
	})
}

// shown holds that what was typed last stands in its field, or each part of it in its own.
func shown(t *testing.T, d *desk.Desk, key, text string) {
	name, interval := strings.CutSuffix(key, "~")
	if in, planned := route.InputByKey(name); planned && (d.Locked(in) || interval && (in.IsChoice() || d.Started() != nil && in.Standing != route.Measured)) || key == "" || key == "tea" || key == link.NotesKey {
		return
	}
	if _, f, ok := d.Find(key); ok && f.Several != nil {
		for _, part := range f.Several(text) {
			if shown(t, d, part.Key, part.Text); part.Key == key {
				return
			}
		}
	}
	if stands := d.Text(key); stands != text {
		t.Fatalf("%s: %q was typed, and %q stands there", key, text, stands)
	}
}

// problemOf is what is wrong with a field, or "".
func problemOf(d *desk.Desk, key string) string {
	if key == club.AtOnceKey && d.Problem(key) == "" {
		c := d.Club()
		return c.Trouble()
	}
	return d.Problem(key)
}

// sound holds that a desk can be shown.
func sound(t *testing.T, d *desk.Desk) {
	for i := range route.Figures() {
		if id := route.FigureID(i); d.Sheet().Reason(id) == route.Defined && !(d.Sheet().Value(id)-d.Sheet().Value(id) == 0) {
			t.Fatalf("%s: %s is %v", d.Fragment(), id.Info().Key, d.Sheet().Value(id))
		}
	}
	if problems := route.Check(d.Plan()); len(problems) > 0 {
		t.Fatalf("%s: the plan has %v", d.Fragment(), problems)
	}
	for _, key := range editable {
		told := problemOf(d, key)
		if !utf8.ValidString(told) || utf8.RuneCountInString(told) > 500 || strings.ContainsFunc(told, unicode.IsControl) {
			t.Fatalf("%s: %q", key, told)
		}
	}
	d.Assays()
	for _, err := range []error{second(d.GasBubble()), second(d.GasLog())} {
		if err != nil && !utf8.ValidString(err.Error()) {
			t.Fatalf("%s: %q", d.Fragment(), err)
		}
	}
	if notes := d.Notes(); !utf8.ValidString(notes) || len(notes) > link.MaxNotes {
		t.Fatalf("notes %q", notes)
	}
}

func second[T any](_ T, err error) error { return err }
