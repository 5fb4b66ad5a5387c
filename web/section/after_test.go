package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

// TestExpectationsStandInTheUnitOfTheirField, and no one takes them for something weighed.
func TestExpectationsStandInTheUnitOfTheirField(t *testing.T) {
	d := desk.New("v=1&cell.size=R20&cell.count=12&batch.share=100&gas.flask=5000&slurry.beaker=20000")
	require.Greater(t, d.Sheet().Value(route.GasMade), 2000.0, "more than two moles")
	for !d.StepBands(desk.Draws) {
	}
	fields := map[string]doc.Field{}
	for _, f := range doctest.Find[doc.Field](after(&Source{Desk: d}).Of...) {
		fields[f.Key] = f
	}
	for _, in := range account.Inputs() {
		key := in.Key
		id, ok := account.FigureOf(key)
		if !ok {
			continue
		}
		f := fields[key]
		require.Equal(t, id.Info().Unit, f.Unit, key)
		v, err := (&field.Field{Key: key, Name: key}).Read(f.Usual)
		require.NoError(t, err, key)
		assert.InDelta(t, d.Sheet().Value(id), v, 0.1*d.Sheet().Value(id), "%s: %s %s", key, f.Usual, f.Unit)
		assert.Empty(t, f.Told, "nothing was weighed")
		delete(fields, key)
	}
	for _, key := range []string{account.KeyProduct, account.KeyCopper, account.KeyMetal, account.KeyResidue, account.KeyGas} {
		assert.NotContains(t, fields, key, "held against a figure")
	}
}

// TestTheNextRunIsOfferedOnceThisOneIsOver: as soon as the product is weighed and the account is made, though
// all went as planned, when all stages are done, and when the user says so; before that it is said what is
// wanted. What is left of the cake comes first; with a shelf what was used is taken off first.
func TestTheNextRunIsOfferedOnceThisOneIsOver(t *testing.T) {
	offers := func(d *desk.Desk) (values []string) {
		for _, b := range doctest.Find[doc.Button](after(&Source{Desk: d}).Of...) {
			switch b.Action {
			case PlanNext:
				values = append(values, b.Value)
			case EndRun:
				values = append(values, EndRun)
			}
		}
		return values
	}
	assert.Empty(t, offers(desk.New("")))
	assert.Empty(t, offers(desk.New("found.product=34")), "while it is being weighed")
	plain := desk.New("")
	planned := route.Plain(route.Shown(plain.Sheet().Value(route.ProductMass)))
	assert.Equal(t, []string{NextJar, ""}, offers(accountedDesk("found.product="+planned)))
	assert.Equal(t, []string{NextJar + " " + NextTakeOff, NextTakeOff, NextJar, ""}, offers(accountedDesk("shelf.acid=90&found.product="+planned)))
	over := desk.New("batch.share=100")
	require.True(t, over.StartRun())
	require.True(t, over.StageDone(route.Dry))
	assert.Equal(t, []string{EndRun}, offers(over))
	require.True(t, over.StageDone(route.Waste))
	assert.Equal(t, []string{""}, offers(over), "nothing is left in a jar")
	midway := accountedDesk("found.residue.empty=80&found.residue.full=98")
	assert.Equal(t, []string{EndRun}, offers(midway))
	midway.End()
	assert.Equal(t, []string{NextJar, ""}, offers(midway))
}

// TestTheJarIsToldInTheTermsOfTheLedger: what is weighed out and what is left make all of the cake.
func TestTheJarIsToldInTheTermsOfTheLedger(t *testing.T) {
	s := from("found.product=30&cake.damp=400&batch.share=30")
	jar, ok := s.Jar()
	require.True(t, ok)
	assert.InDelta(t, 280, float64(jar.Damp), 1e-9)
	assert.InEpsilon(t, 0.7*400, s.Sheet().Value(route.BatchDamp)/0.3*0.7, 1e-9)
	assert.Equal(t, desk.Next{TakeOff: true, Jar: true}, NextOf(NextJar+" "+NextTakeOff))
	assert.Equal(t, desk.Next{}, NextOf(""))
	for !s.StepRest(desk.Draws) {
	}
	text := doctest.HTML(after(s))
	assert.Contains(t, text, route.Print(280, "g")+" of damp cake, with about "+route.Print(float64(jar.Oxide), "g")+" of oxide, are left in its jar")
}

// TestLessonIsASentence, and what the next run does otherwise is folded below it.
func TestLessonIsASentence(t *testing.T) {
	says, more := Lesson(from(""), nil)
	assert.Contains(t, says, "nothing was learned")
	assert.Nil(t, more)
	says, more = Lesson(from(""), []account.Change{{Sentence: "Learned from this run: it went well."}, {Key: "gas.acid", Sentence: "Less acid."}})
	assert.Equal(t, "Learned from this run: it went well.", says)
	assert.Equal(t, []doc.Node{doc.Text("Less acid.")}, doctest.Find[doc.List](doctest.Find[doc.Fold](more...)[0].Of...)[0].Items)
	says, more = Lesson(from(""), []account.Change{{Key: "gas.acid", Sentence: "Less acid."}})
	assert.Contains(t, says, "what this one told")
	assert.Len(t, more, 1)
	says, _ = Lesson(from("shelf.acid=40"), []account.Change{{Key: "gas.acid", Sentence: "Less acid."}})
	assert.Regexp(t, `what this one told\. Your 40\x{202f}mL of acid is enough for .* of the mix; it is what limits\.`, says)
}

// TestAccountIsToldAsItIsDrawn: what was weighed, the bounds, the verdict, its figures and
// causes; not what to type, nor what a screen reader is told beside.
func TestAccountIsToldAsItIsDrawn(t *testing.T) {
	d := weighedRun(t)
	d.Edit("found.product~", "0.2")
	d.Edit("found.residue.empty", "84")
	d.Edit("found.residue.full", "98")
	for !d.StepRest(desk.Draws) {
	}
	s := &Source{Desk: d}
	made := after(s)
	text, html := doctest.Text(made.Of...), doctest.HTML(made)
	p := d.Account()
	verdict := strings.TrimPrefix(p.Verdict().Sentence, p.Verdict().Question+" ")
	for _, says := range []string{
		"30\u202fg ± 0.20\u202fg, by you", ": 84\u202fg\n", ": 98\u202fg\n", "Sure, on few assumptions:\n    " + p.Bounds.Sure() + "\n", "What most likely happened:\n    " + p.Verdict().Question + "\n    " + verdict + "\n",
		p.Called(p.Verdict().Ranked[0].Cause), "Of the runs that weigh this, " + p.Verdict().Planned + " went as planned. If something went wrong, it was:",
	} {
		assert.Contains(t, text, says)
	}
	// The fields of the plan stand in another place, and none of them here.
	for _, f := range doctest.Find[doc.Field](made.Of...) {
		assert.True(t, strings.HasPrefix(f.Key, "found."), f.Key)
	}
	for _, says := range []string{"Type what you weighed", "change the fields in Plan.", "Effective number of points", "Plan the next run", "Dry on for an hour"} {
		assert.NotContains(t, text, says)
		assert.Contains(t, html, says)
	}
	assert.Equal(t, 1, strings.Count(text, verdict))
	keys := map[string]bool{}
	for _, list := range doctest.Find[doc.Figures](made.Of...) {
		for _, f := range list {
			assert.False(t, keys[f.Key], f.Key)
			keys[f.Key] = true
		}
	}
	assert.Greater(t, len(keys), len(account.Figures())/2)
	table := doctest.Find[doc.Table](made.Of...)[0]
	assert.Len(t, table.Rows, 3, "a row for each that was weighed")

	assert.Empty(t, doctest.Text(after(from("")).Of...), "nothing was weighed")
	waiting := desk.New("found.product=30")
	assert.Contains(t, doctest.HTML(after(&Source{Desk: waiting})), "Weighing the runs that fit")
}
