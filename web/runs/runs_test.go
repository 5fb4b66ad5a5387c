package runs_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/account"
	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
)

// run is a run for tests, told apart by a number.
func run(n int, name string) runs.State {
	return runs.State{Kept: fmt.Sprintf("2026-03-14T09:%02d:%02dZ", n/60, n%60), Name: name, Plan: fmt.Sprintf("v=1&cell.count=%d", n)}
}

func told(at int) account.Told {
	list := make([]int, account.Places)
	for i := range list {
		list[i] = max(account.LeastTold, -(i-at)*(i-at))
	}
	return account.Told{runs.Uptake: list, runs.Charge: list}
}

func names(s *runs.Store) []string {
	var list []string
	for _, k := range s.Book().List() {
		list = append(list, k.Name)
	}
	return list
}

func keep(t require.TestingT, s *runs.Store, state runs.State) string {
	id, err := s.Keep(state)
	require.NoError(t, err)
	return id
}

func text(b *runs.Book) string { return string(runs.Encode(b.List())) }

func TestKeptRunsComeBack(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	assert.Empty(t, sh.Texts, "looking writes nothing")
	a := run(1, "  a ")
	a.Told, a.Learned, a.Notes = told(30), map[string]runs.Interval{runs.Uptake: {math.Copysign(0, -1), 60, 70}}, "stirred <by> hand\n"
	id := keep(t, s, a)
	keep(t, s, run(2, "b"))
	assert.Empty(t, s.Standing().Troubles())
	again := runs.Open(sh)
	assert.Equal(t, []string{"b", "a"}, names(again))
	assert.Equal(t, text(s.Book()), text(again.Book()))
	k, ok := again.Book().Get(id)
	require.True(t, ok)
	assert.False(t, math.Signbit(k.Learned[runs.Uptake][0]), "one form of nought")
	assert.Equal(t, a.Notes, k.Notes)
	assert.Equal(t, a.Told, k.Told)
	saves := sh.Saves
	again.Write()
	assert.Equal(t, saves, sh.Saves, "nothing is written that is there")
	_, err := again.Keep(run(2, "b"))
	assert.ErrorContains(t, err, "kept already")
}

func TestChangeForgetUndo(t *testing.T) {
	sh := shelftest.New()
	s, other := runs.Open(sh), runs.Open(sh)
	id := keep(t, s, run(1, "a"))
	later, err := s.Change(id, run(1, "a, named anew"))
	require.NoError(t, err)
	assert.Len(t, sh.Texts, 1, "what was replaced is taken away")
	other.Look()
	assert.Equal(t, []string{"a, named anew"}, names(other))
	gone, err := other.Forget(later)
	require.NoError(t, err)
	s.Look()
	assert.Empty(t, names(s))
	assert.Empty(t, names(runs.Open(sh)))
	_, err = s.Change(strings.Repeat("0", 32), run(1, "b"))
	assert.ErrorContains(t, err, "not kept here any more")
	_, err = s.Forget("no such")
	assert.Error(t, err)
	other.Undo(gone)
	other.Undo(gone)
	s.Look()
	assert.Equal(t, []string{"a, named anew"}, names(s))
	assert.Len(t, sh.Texts, 1)
	assert.Equal(t, text(s.Book()), text(runs.Open(sh).Book()))
}

func TestChangedOnTwoPages(t *testing.T) {
	sh := shelftest.New()
	one := runs.Open(sh)
	id := keep(t, one, run(1, "a"))
	two := runs.Open(sh)
	sh.SaveErr, sh.KeysErr = runs.ErrFull, runs.ErrForbidden
	_, err := one.Change(id, run(1, "one"))
	require.NoError(t, err)
	_, err = two.Change(id, run(1, "two"))
	require.NoError(t, err)
	sh.SaveErr, sh.KeysErr = nil, nil
	one.Write()
	two.Write()
	one.Look()
	for _, s := range []*runs.Store{one, two, runs.Open(sh)} {
		list := s.Book().List()
		require.Len(t, list, 2, "both are kept")
		assert.True(t, list[0].Split && list[1].Split)
	}
	assert.Len(t, sh.Texts, 2)
	// Forgetting one of them leaves the other, and it can be had back.
	gone, err := one.Forget(one.Book().List()[0].ID)
	require.NoError(t, err)
	require.Len(t, one.Book().List(), 1)
	assert.False(t, one.Book().List()[0].Split)
	one.Undo(gone)
	assert.Len(t, one.Book().List(), 2)
}

// TestChangeOfWhatAnotherPageChanged: the state that a page had opened was replaced, or
// forgotten, by another in the meantime.
func TestChangeOfWhatAnotherPageChanged(t *testing.T) {
	sh := shelftest.New()
	one := runs.Open(sh)
	id := keep(t, one, run(1, "a"))
	two := runs.Open(sh)
	_, err := one.Change(id, run(1, "one"))
	require.NoError(t, err)
	_, err = two.Change(id, run(1, "two"))
	require.NoError(t, err)
	one.Look()
	for _, s := range []*runs.Store{one, two, runs.Open(sh)} {
		assert.ElementsMatch(t, []string{"one", "two"}, names(s))
	}
	id = keep(t, one, run(2, "b"))
	two.Look()
	_, err = one.Forget(id)
	require.NoError(t, err)
	_, err = two.Change(id, run(2, "b, changed"))
	require.NoError(t, err)
	assert.Contains(t, names(runs.Open(sh)), "b, changed")
}

func TestFullStorage(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	id := keep(t, s, run(1, "a"))
	for _, text := range sh.Texts {
		sh.Room = len(text) + 20
	}
	later := keep(t, s, run(2, "b"))
	require.Len(t, s.Standing().Troubles(), 1)
	assert.Equal(t, "This browser did not save one run or change (its storage is full). Until it does, only this open page holds that: save the runs as a file before you close it. Each further run that is kept tries again.", s.Standing().Troubles()[0])
	_, ok := s.Book().Get(later)
	assert.True(t, ok, "it stays in memory")
	assert.Equal(t, []string{"a"}, names(runs.Open(sh)), "what was there stands")
	s.Look()
	assert.Equal(t, 1, s.Standing().Unsaved, "looking does not make it forget")
	assert.ErrorIs(t, s.Standing().Why, runs.ErrFull)
	// Forgetting must work where nothing fits in.
	_, err := s.Forget(id)
	require.NoError(t, err)
	assert.NotContains(t, names(runs.Open(sh)), "a")
	sh.Room = 0
	keep(t, s, run(3, "c"))
	assert.Empty(t, s.Standing().Troubles())
	assert.Equal(t, []string{"c", "b"}, names(runs.Open(sh)), "the next writing takes it along")
}

// TestChangeThatIsNotSaved: what lies on the shelf stays until what replaces it lies there.
func TestChangeThatIsNotSaved(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	id := keep(t, s, run(1, "a"))
	sh.SaveErr = runs.ErrFull
	_, err := s.Change(id, run(1, "a, changed"))
	require.NoError(t, err)
	assert.Equal(t, []string{"a, changed"}, names(s))
	assert.Equal(t, []string{"a"}, names(runs.Open(sh)))
	sh.SaveErr = nil
	s.Write()
	assert.Equal(t, []string{"a, changed"}, names(runs.Open(sh)))
	assert.Len(t, sh.Texts, 1)
}

// TestForgottenAndKeptAgain: the very same run, at the very same moment.
func TestForgottenAndKeptAgain(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	_, err := s.Forget(keep(t, s, run(1, "a")))
	require.NoError(t, err)
	keep(t, s, run(1, "a"))
	assert.Equal(t, []string{"a"}, names(s))
	assert.Equal(t, []string{"a"}, names(runs.Open(sh)))
}

func TestForbiddenStorage(t *testing.T) {
	sh := shelftest.New()
	sh.KeysErr, sh.LoadErr, sh.SaveErr, sh.RemoveErr = runs.ErrForbidden, runs.ErrForbidden, runs.ErrForbidden, runs.ErrForbidden
	s := runs.Open(sh)
	require.Len(t, s.Standing().Troubles(), 1)
	assert.Contains(t, s.Standing().Troubles()[0], "forbidden or switched off")
	id := keep(t, s, run(1, "a"))
	assert.Equal(t, 1, s.Standing().Unsaved)
	assert.Contains(t, s.Standing().Troubles()[0], "save the runs as a file")
	_, err := s.Forget(id)
	require.NoError(t, err)
	assert.Empty(t, names(s))
}

// A run that was forgotten and had back, then renamed, can be kept once more under its
// first name, in the same second: as often as one likes.
func TestTheVerySameRunIsKeptAgainAfterItWasRenamed(t *testing.T) {
	s := runs.Open(shelftest.New())
	gone, err := s.Forget(keep(t, s, run(1, "a")))
	require.NoError(t, err)
	s.Undo(gone)
	for _, name := range []string{"b", "c", "d"} {
		id := s.Book().List()[slices.Index(names(s), "a")].ID
		_, err = s.Change(id, run(1, name))
		require.NoError(t, err)
		assert.NotContains(t, names(s), "a")
		keep(t, s, run(1, "a"))
		assert.Contains(t, names(s), "a")
		assert.Contains(t, names(s), name)
	}
}

func TestForgetfulStorage(t *testing.T) {
	sh := shelftest.New()
	sh.Forgets = true
	s := runs.Open(sh)
	keep(t, s, run(1, "a"))
	assert.Equal(t, 1, s.Standing().Unsaved)
}

func TestClearedStorageIsFilledAgain(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	keep(t, s, run(1, "a"))
	clear(sh.Texts)
	s.Look()
	assert.Empty(t, sh.Texts, "only when something is kept")
	assert.Equal(t, 1, s.Standing().Unsaved)
	keep(t, s, run(2, "b"))
	assert.Equal(t, []string{"b", "a"}, names(runs.Open(sh)))
}

func TestTroublesAreToldOfOneAndOfMany(t *testing.T) {
	assert.Equal(t, []string{
		"One kept entry could not be read; it is left as it is.",
		"One kept entry was written by a newer version of this page; it is left for that.",
	}, runs.Standing{Damaged: 1, Newer: 1}.Troubles())
	assert.Equal(t, []string{
		"2 kept entries could not be read; they are left as they are.",
		"3 kept entries were written by a newer version of this page; they are left for that.",
	}, runs.Standing{Damaged: 2, Newer: 3}.Troubles())
}

func TestDamagedAndNewerEntriesAreLeft(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	id := keep(t, s, run(1, "a"))
	keep(t, s, run(2, "b"))
	whole := sh.Texts[runs.Prefix+id]
	for name, damage := range map[string]string{
		"cut":     whole[:len(whole)-9],
		"altered": strings.Replace(whole, "count=1", "count=7", 1),
		"empty":   "",
		"added":   strings.Replace(whole, `"name"`, `"weather":"rain","name"`, 1),
	} {
		sh.Texts[runs.Prefix+id] = damage
		s := runs.Open(sh)
		assert.Equal(t, []string{"b"}, names(s), name)
		require.Len(t, s.Standing().Troubles(), 1, name)
		assert.Equal(t, "One kept entry could not be read; it is left as it is.", s.Standing().Troubles()[0])
		keep(t, s, run(3, name))
		s.Forget(s.Book().List()[0].ID)
		assert.Equal(t, damage, sh.Texts[runs.Prefix+id], "%s: byte for byte", name)
	}
	for _, newer := range []string{`{"version":2,"id":"x","name":{"first":"a"}}`, `{"version":2}`} {
		sh.Texts[runs.Prefix+id] = newer
		s = runs.Open(sh)
		require.Len(t, s.Standing().Troubles(), 1)
		assert.Equal(t, "One kept entry was written by a newer version of this page; it is left for that.", s.Standing().Troubles()[0])
		s.Write()
		assert.Equal(t, newer, sh.Texts[runs.Prefix+id])
	}
	// Another's entry under a name that is not its own.
	sh.Texts[runs.Prefix+id] = whole
	sh.Texts[runs.Prefix+strings.Repeat("0", 32)] = whole
	assert.Equal(t, 1, runs.Open(sh).Standing().Damaged)
}

func TestImport(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	id := keep(t, s, run(1, "a"))
	keep(t, s, run(2, "b"))
	file := runs.Encode(s.Book().List())
	assert.Equal(t, []string{"Of the runs brought in: 2 here already."}, s.Import(file))
	assert.Len(t, s.Book().List(), 2)

	other := runs.Open(shelftest.New())
	assert.Equal(t, []string{"Of the runs brought in: 2 new."}, other.Import(file))
	assert.Equal(t, []string{"Of the runs brought in: 2 here already."}, other.Import(file))
	assert.Equal(t, text(s.Book()), text(other.Book()))

	twice := runs.Open(shelftest.New())
	list := s.Book().List()
	assert.Equal(t, []string{"Of the runs brought in: 1 here already; 1 new."}, twice.Import(runs.Encode([]runs.Kept{list[0], list[0]})))
	assert.Equal(t, []string{"b"}, names(twice))

	later, err := other.Change(id, run(1, "a, named anew"))
	require.NoError(t, err)
	assert.Equal(t, []string{"Of the runs brought in: 1 here already; 1 older than what is here, which stays."}, other.Import(file))
	newer := runs.Encode(other.Book().List())
	assert.Equal(t, []string{"Of the runs brought in: 1 changed since, and taken in place of what was here; 1 here already."}, s.Import(newer))
	assert.Equal(t, []string{"b", "a, named anew"}, names(s))

	_, err = s.Forget(later)
	require.NoError(t, err)
	assert.Equal(t, []string{"Of the runs brought in: 1 forgotten here before, and back; 1 here already."}, s.Import(newer))
	assert.Equal(t, []string{"Of the runs brought in: 2 here already."}, s.Import(newer))
	assert.Equal(t, []string{"b", "a, named anew"}, names(s))
	assert.Equal(t, text(s.Book()), text(runs.Open(sh).Book()))
}

func TestReplacesNoOtherRun(t *testing.T) {
	s := runs.Open(shelftest.New())
	id := keep(t, s, run(1, "a"))
	bad := run(2, "b")
	bad.Replaces = []string{id}
	s.Import(runs.Encode([]runs.Kept{{State: bad}}))
	assert.Equal(t, []string{"b", "a"}, names(s))
}

// TestWhatWasReplacedNeverComesBack: though a state of a hand-written file names only the
// last of those that it replaces.
func TestWhatWasReplacedNeverComesBack(t *testing.T) {
	sh := shelftest.New()
	s := runs.Open(sh)
	first := keep(t, s, run(1, "first"))
	last := first
	for _, name := range []string{"second", "third"} {
		next := run(1, name)
		next.Run, next.Replaces = first, []string{last}
		sh.RemoveErr = map[string]error{"second": runs.ErrForbidden}[name] // the first stays on the shelf
		s.Import(runs.Encode([]runs.Kept{{State: next}}))
		assert.Equal(t, []string{name}, names(s))
		last = s.Book().List()[0].ID
	}
	for range 2 {
		again := runs.Open(sh)
		again.Write()
		assert.Equal(t, []string{"third"}, names(again))
	}
}

func TestRefusedRuns(t *testing.T) {
	s := runs.Open(shelftest.New())
	for says, spoil := range map[string]func(*runs.State){
		"such as 2026-03-14":     func(r *runs.State) { r.Kept = "yesterday" },
		"no plan":                func(r *runs.State) { r.Plan = "" },
		"Its plan has":           func(r *runs.State) { r.Plan = strings.Repeat("v", 1<<17) },
		"Its name has 201":       func(r *runs.State) { r.Name = strings.Repeat("n", 201) },
		"Its notes have":         func(r *runs.State) { r.Notes = strings.Repeat("n", 1<<15) },
		"no key of an input":     func(r *runs.State) { r.Learned = map[string]runs.Interval{"Up take": {}} },
		"out of order":           func(r *runs.State) { r.Learned = map[string]runs.Interval{runs.Uptake: {3, 2, 1}} },
		"not a number":           func(r *runs.State) { r.Learned = map[string]runs.Interval{runs.Uptake: {math.NaN()}} },
		"not shared by runs":     func(r *runs.State) { r.Told = account.Told{"dry.hours": nil} },
		"It learned 101 inputs;": func(r *runs.State) { r.Learned = many() },
	} {
		state := run(1, "a")
		spoil(&state)
		_, err := s.Keep(state)
		assert.ErrorContains(t, err, says)
	}
	assert.Empty(t, s.Book().List())
}

func many() map[string]runs.Interval {
	m := map[string]runs.Interval{}
	for i := range 101 {
		m[fmt.Sprintf("a.b%d", i)] = runs.Interval{}
	}
	return m
}

func TestTogetherCountsEachRunOnce(t *testing.T) {
	s := runs.Open(shelftest.New())
	a, b, c, d := run(1, "a"), run(2, "b"), run(1, "a again"), run(4, "not told")
	a.Told, b.Told, c.Told = told(30), told(40), told(30)
	for _, r := range []runs.State{a, b, c, d} {
		keep(t, s, r)
	}
	list, left := runs.Together(s.Book().List())
	assert.Len(t, list, 2)
	assert.Equal(t, 2, left)
	both, one := account.Combine(list...), account.Combine(told(30))
	require.Len(t, both, 2)
	assert.Less(t, both[0].High-both[0].Low, one[0].High-one[0].Low)
}

// act does one thing that a person could do on a page.
func act(t *rapid.T, s *runs.Store, files *[][]byte, want map[string]bool) {
	list := s.Book().List()
	what := rapid.IntRange(0, 5).Draw(t, "what")
	if len(list) == 0 && (what == 1 || what == 2) {
		what = 0
	}
	n := rapid.IntRange(0, 200).Draw(t, "run")
	switch what {
	case 0:
		name := rapid.SampledFrom([]string{"", "a", "b"}).Draw(t, "name")
		s.Keep(run(n, name))
		want[fmt.Sprint(name, "|", run(n, "").Plan)] = true
	case 1:
		k := rapid.SampledFrom(list).Draw(t, "changed")
		state := k.State
		state.Name = rapid.SampledFrom([]string{"c", "d", "e"}).Draw(t, "name")
		if _, err := s.Change(k.ID, state); err == nil {
			want[state.Name+"|"+state.Plan] = true
			delete(want, k.Name+"|"+k.Plan)
		}
	case 2:
		k := rapid.SampledFrom(list).Draw(t, "forgotten")
		gone, err := s.Forget(k.ID)
		if err == nil && rapid.Bool().Draw(t, "undo") {
			s.Undo(gone)
		} else {
			delete(want, k.Name+"|"+k.Plan)
		}
	case 3:
		*files = append(*files, runs.Encode(list))
	case 4:
		if len(*files) > 0 {
			file := rapid.SampledFrom(*files).Draw(t, "file")
			s.Import(file)
			first := text(s.Book())
			s.Import(file)
			if first != text(s.Book()) {
				t.Fatalf("the second import of a file changed\n%s\nto\n%s", first, text(s.Book()))
			}
		}
	case 5:
		s.Look()
	}
}

// TestPagesEndEqual: whatever two or three pages do, with storage that fails now and
// then, once it works and each page wrote, all hold the same, and so does the next page.
func TestPagesEndEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh := shelftest.New()
		var pages []*runs.Store
		for range rapid.IntRange(2, 3).Draw(t, "pages") {
			pages = append(pages, runs.Open(sh))
		}
		var files [][]byte
		for range rapid.IntRange(1, 25).Draw(t, "acts") {
			*sh = shelftest.Shelf{Texts: sh.Texts}
			switch rapid.IntRange(0, 6).Draw(t, "storage") {
			case 0:
				sh.SaveErr = runs.ErrFull
			case 1:
				sh.KeysErr, sh.LoadErr, sh.SaveErr, sh.RemoveErr = runs.ErrForbidden, runs.ErrForbidden, runs.ErrForbidden, runs.ErrForbidden
			case 2:
				sh.RemoveErr = runs.ErrForbidden
			case 3:
				sh.Room = rapid.IntRange(1, 2000).Draw(t, "room")
			}
			act(t, rapid.SampledFrom(pages).Draw(t, "page"), &files, map[string]bool{})
		}
		*sh = shelftest.Shelf{Texts: sh.Texts}
		for range 2 {
			for _, p := range pages {
				p.Write()
				require.Empty(t, p.Standing().Troubles())
			}
		}
		next := runs.Open(sh)
		for _, p := range pages {
			require.Equal(t, text(next.Book()), text(p.Book()))
		}
		for id := range sh.Texts {
			require.True(t, strings.HasPrefix(id, runs.Prefix))
		}
	})
}

// TestNothingIsLostOrDoubled: on storage that works, with pages that hear of one another,
// what was kept, changed or had back is there, what was forgotten is not, once each.
func TestNothingIsLostOrDoubled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh := shelftest.New()
		pages := []*runs.Store{runs.Open(sh), runs.Open(sh), runs.Open(sh)}
		want := map[string]bool{}
		var files [][]byte
		for range rapid.IntRange(1, 25).Draw(t, "acts") {
			p := rapid.SampledFrom(pages).Draw(t, "page")
			p.Look()
			act(t, p, &files, want)
			for _, k := range p.Book().List() { // an import brings back what was asked for
				want[k.Name+"|"+k.Plan] = want[k.Name+"|"+k.Plan] || len(files) > 0
			}
			got := map[string]int{}
			for _, k := range p.Book().List() {
				got[k.ID]++
			}
			for key, kept := range want {
				there := slices.ContainsFunc(p.Book().List(), func(k runs.Kept) bool { return k.Name+"|"+k.Plan == key })
				if kept && !there && len(files) == 0 {
					t.Fatalf("%q was kept and is lost", key)
				}
			}
			for id, n := range got {
				require.Equal(t, 1, n, id)
			}
		}
	})
}

// TestConcurrentWorkIsAllKept: what pages keep while they hear nothing of each other and
// nothing can be saved is all there once it can.
func TestConcurrentWorkIsAllKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh := shelftest.New()
		first := runs.Open(sh)
		var ids []string
		for n := range 4 {
			ids = append(ids, keep(t, first, run(n, "first")))
		}
		pages := []*runs.Store{runs.Open(sh), runs.Open(sh), runs.Open(sh)}
		sh.KeysErr, sh.LoadErr, sh.SaveErr, sh.RemoveErr = runs.ErrForbidden, runs.ErrForbidden, runs.ErrForbidden, runs.ErrForbidden
		wrote := map[string]bool{} // names that must stand
		forgotten, changed := map[int]int{}, map[int]int{}
		for i, p := range pages {
			for n, id := range ids {
				switch rapid.IntRange(0, 2).Draw(t, "what") {
				case 1:
					name := fmt.Sprint("changed ", n, " on ", i)
					_, err := p.Change(id, run(n, name))
					require.NoError(t, err)
					wrote[name] = true
					changed[n]++
				case 2:
					_, err := p.Forget(id)
					require.NoError(t, err)
					forgotten[n]++
				}
			}
		}
		*sh = shelftest.Shelf{Texts: sh.Texts}
		order := rapid.Permutation(pages).Draw(t, "order")
		for _, p := range append(order, order...) {
			p.Write()
		}
		for _, p := range append(pages, runs.Open(sh)) {
			got := map[string]int{}
			for _, k := range p.Book().List() {
				got[k.Name]++
				if k.Name != "first" {
					require.Equal(t, changed[int(k.Kept[18]-'0')] > 1, k.Split, k.Name)
				}
			}
			left := 0
			for n := range ids {
				if forgotten[n] == 0 && changed[n] == 0 {
					left++
				}
			}
			require.Equal(t, left, got["first"])
			delete(got, "first")
			require.Len(t, got, len(wrote))
			for name := range wrote {
				require.Equal(t, 1, got[name], name)
			}
		}
	})
}

// TestMergeIsAJoin: idempotent, commutative, associative.
func TestMergeIsAJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var books []*runs.Book
		var files [][]byte
		for range 3 {
			s := runs.Open(shelftest.New())
			for range rapid.IntRange(0, 8).Draw(t, "acts") {
				act(t, s, &files, map[string]bool{})
			}
			books = append(books, s.Book())
		}
		join := func(list ...*runs.Book) *runs.Book {
			var b runs.Book
			for _, o := range list {
				b.Merge(o)
			}
			return &b
		}
		same := func(a, b *runs.Book) {
			require.Equal(t, a.Standing(), b.Standing())
			require.Equal(t, text(a), text(b))
		}
		a, b, c := books[0], books[1], books[2]
		same(a, join(a, a))
		same(join(a, b), join(b, a))
		same(join(join(a, b), c), join(a, join(b, c)))
		same(join(a, b, c), join(c, b, a, b, c))
	})
}

func TestJoinIsOneMorePage(t *testing.T) {
	there := runs.Open(shelftest.New())
	first := keep(t, there, run(1, "a"))
	keep(t, there, run(2, "b"))
	inCopy := runs.Encode(there.Book().List())

	sh := shelftest.New()
	here := runs.Open(sh)
	assert.Equal(t, []string{"From the saved copy that you opened: 2 runs that this browser did not have."}, here.Join(inCopy))
	assert.Empty(t, here.Join(inCopy), "opened again, it brings nothing")
	assert.Equal(t, []string{"b", "a"}, names(runs.Open(sh)), "they are kept here from now on")

	_, err := here.Forget(first)
	require.NoError(t, err)
	again := runs.Open(sh)
	assert.Empty(t, again.Join(inCopy), "what was forgotten here stays so")
	assert.Equal(t, []string{"b"}, names(again))

	other := runs.Open(shelftest.New())
	said := other.Join(inCopy[:len(inCopy)-20])
	require.NotEmpty(t, said)
	assert.Equal(t, []string{"b"}, names(other), "of one that is cut, what stands before the cut")
}
