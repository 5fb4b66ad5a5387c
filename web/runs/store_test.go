package runs_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/web/runs"
)

// shelf is a map that can be made to fail, and to be written by another between
// a load and a save.
type shelf struct {
	texts      map[string]string
	load, save error
	room       int // characters, if not 0
	forgets    bool
	before     func() // once, before the next save
	saves      int
}

func newShelf() *shelf { return &shelf{texts: map[string]string{}} }

func (s *shelf) Load(key string) (string, error) { return s.texts[key], s.load }

func (s *shelf) Save(key, value string) error {
	if f := s.before; f != nil {
		s.before = nil
		f()
	}
	if s.save != nil {
		return s.save
	}
	total := len(value)
	for k, v := range s.texts {
		if k != key {
			total += len(v)
		}
	}
	if s.room > 0 && total > s.room {
		return fmt.Errorf("set item: %w", runs.ErrFull)
	}
	s.saves++
	if !s.forgets {
		s.texts[key] = value
	}
	return nil
}

func open(t require.TestingT, s runs.Shelf) *runs.Store {
	store, troubles := runs.Open(s)
	require.Empty(t, troubles)
	return store
}

func keep(t require.TestingT, s *runs.Store, r runs.Run) string {
	id, troubles := s.Keep(r)
	require.Empty(t, troubles)
	require.NotEmpty(t, id)
	return id
}

func TestKeptRunsComeBack(t *testing.T) {
	sh := newShelf()
	s := open(t, sh)
	assert.Empty(t, sh.texts, "looking writes nothing")
	id := keep(t, s, sample(1, "a"))
	assert.True(t, s.Saved())
	again := open(t, sh)
	r, ok := again.Get(id)
	require.True(t, ok)
	assert.Equal(t, "a", r.Name)
	assert.Empty(t, again.Drop(id))
	assert.Empty(t, s.Sync())
	assert.Zero(t, s.Len())
	saves := sh.saves
	keep(t, s, sample(2, "b"))
	keep(t, s, sample(2, "b"))
	assert.Empty(t, s.Sync())
	assert.Empty(t, again.Sync())
	assert.Equal(t, saves+1, sh.saves, "nothing is written that is there")
	assert.Equal(t, text(s.Book()), text(again.Book()))
}

func TestRefusedRunIsNotKept(t *testing.T) {
	sh := newShelf()
	s := open(t, sh)
	r := sample(1, "a")
	r.Kept = "now"
	id, troubles := s.Keep(r)
	assert.Empty(t, id)
	require.Len(t, troubles, 1)
	assert.Equal(t, "run “a”: The time “now” cannot be read. Give day, time and zone, such as 2026-03-14T09:30:00+01:00.", troubles[0].String())
	assert.True(t, s.Saved())
	assert.Empty(t, sh.texts)
}

func TestFullShelf(t *testing.T) {
	sh := newShelf()
	s := open(t, sh)
	keep(t, s, sample(1, "a"))
	there := sh.texts[runs.Key]
	sh.room = len(there)
	id, troubles := s.Keep(sample(2, "b"))
	require.Len(t, troubles, 1)
	assert.Equal(t, "The browser keeps nothing here (storage full): export the runs to a file. Until then only this open page holds them.", troubles[0].String())
	assert.False(t, s.Saved())
	_, ok := s.Get(id)
	assert.True(t, ok, "it is kept in memory")
	assert.Equal(t, there, sh.texts[runs.Key], "what was there stands")
	sh.room = 0
	keep(t, s, sample(3, "c"))
	assert.True(t, s.Saved())
	assert.Equal(t, []string{"c", "b", "a"}, names(open(t, sh).List()), "the next save takes it along")
}

func TestForbiddenShelf(t *testing.T) {
	for name, sh := range map[string]runs.Shelf{
		"forbidden": &shelf{load: runs.ErrForbidden, save: runs.ErrForbidden},
		"none":      nil,
	} {
		s, troubles := runs.Open(sh)
		require.Len(t, troubles, 1, name)
		assert.Contains(t, troubles[0].String(), "The browser keeps nothing here (storage forbidden): export the runs to a file.")
		id, troubles := s.Keep(sample(1, "a"))
		assert.NotEmpty(t, id)
		require.Len(t, troubles, 1)
		assert.False(t, s.Saved())
		assert.Equal(t, 1, s.Len())
		assert.Len(t, s.Drop(id), 1)
		assert.Zero(t, s.Len())
	}
}

func TestShelfThatCannotBeReadIsNotWrittenOver(t *testing.T) {
	sh := newShelf()
	keep(t, open(t, sh), sample(1, "a"))
	there := sh.texts[runs.Key]
	sh.load = errors.New("the disk sleeps")
	s, troubles := runs.Open(sh)
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "(the disk sleeps)")
	_, troubles = s.Keep(sample(2, "b"))
	require.Len(t, troubles, 1)
	assert.Equal(t, there, sh.texts[runs.Key])
	sh.load = nil
	assert.Empty(t, s.Sync())
	assert.Equal(t, []string{"b", "a"}, names(open(t, sh).List()))
}

func TestForgetfulShelf(t *testing.T) {
	sh := newShelf()
	sh.forgets = true
	s := open(t, sh)
	_, troubles := s.Keep(sample(1, "a"))
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "(what is saved is gone at once)")
	assert.False(t, s.Saved())
}

func TestClearedShelfIsFilledAgain(t *testing.T) {
	sh := newShelf()
	s := open(t, sh)
	keep(t, s, sample(1, "a"))
	clear(sh.texts)
	assert.Empty(t, s.Sync())
	assert.Equal(t, 1, open(t, sh).Len())
}

func TestDamagedShelfIsSetAside(t *testing.T) {
	sh := newShelf()
	s := open(t, sh)
	keep(t, s, sample(1, "a"))
	keep(t, s, sample(2, "b"))
	damaged := sh.texts[runs.Key][:len(sh.texts[runs.Key])-30]
	sh.texts[runs.Key] = damaged

	s, troubles := runs.Open(sh)
	require.Len(t, troubles, 2)
	assert.Contains(t, troubles[0].String(), "what the browser kept: It is damaged at byte")
	assert.Contains(t, troubles[1].String(), "It was set aside whole under “rosesalt.runs.damaged.")
	assert.Contains(t, troubles[1].String(), "; 1 runs could be read and are kept on.")
	require.Len(t, s.Aside(), 1)
	assert.Equal(t, damaged, sh.texts[s.Aside()[0]], "byte for byte")
	assert.True(t, s.Saved())
	assert.Equal(t, []string{"b"}, names(open(t, sh).List()), "a new one is begun, said once")

	sh.texts[runs.Key] = damaged // the same again, while the page is open
	keep2, troubles := s.Keep(sample(3, "c"))
	assert.NotEmpty(t, keep2)
	assert.Empty(t, troubles, "it was said already")
	assert.Len(t, sh.texts, 2, "and is set aside once")
	assert.Equal(t, []string{"c", "b"}, names(open(t, sh).List()))

	sh.texts[runs.Key] = "tea" // other damage while it is open
	_, troubles = s.Keep(sample(4, "d"))
	assert.NotEmpty(t, troubles)
	assert.Equal(t, []string{"d", "c", "b"}, names(open(t, sh).List()), "memory loses nothing")
	assert.Equal(t, "tea", sh.texts[s.Aside()[len(s.Aside())-1]])
}

func TestRefusedRunOnTheShelfIsSetAsideToo(t *testing.T) {
	sh := newShelf()
	const odd = `{"rosesalt":"runs","version":1,"runs":[{"kept":"2026-03-14T09:30:00Z","plan":"v=1","weather":"rain"},{"kept":"later"}]}`
	sh.texts[runs.Key] = odd
	s, troubles := runs.Open(sh)
	require.Len(t, troubles, 3)
	assert.Equal(t, odd, sh.texts[s.Aside()[0]])
	assert.Equal(t, 1, open(t, sh).Len())
}

func TestDamagedShelfWithoutPlace(t *testing.T) {
	sh := newShelf()
	sh.texts[runs.Key] = "tea"
	sh.save = runs.ErrFull
	s, troubles := runs.Open(sh)
	require.Len(t, troubles, 3)
	assert.Equal(t, "The runs kept here are damaged, and there is no place to set them aside (storage full). They were not written over: export the runs to a file.", troubles[2].String())
	_, troubles = s.Keep(sample(1, "a"))
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].Why, "They were not written over")
	assert.False(t, s.Saved())
	assert.Equal(t, "tea", sh.texts[runs.Key])
	sh.save = nil
	assert.Empty(t, s.Sync())
	assert.True(t, s.Saved())
	assert.Equal(t, "tea", sh.texts[s.Aside()[0]])
	assert.Equal(t, 1, open(t, sh).Len())
}

func TestNewerShelfIsReadAndLeft(t *testing.T) {
	sh := newShelf()
	newer := `{"rosesalt":"runs","version":2,"runs":[{"kept":"2026-03-14T09:30:00Z","plan":"v=1","weather":"rain"}]}`
	sh.texts[runs.Key] = newer
	s, troubles := runs.Open(sh)
	require.Len(t, troubles, 3)
	assert.Contains(t, troubles[0].String(), "what the browser kept: It was written by version 2; this page knows version 1.")
	assert.Contains(t, troubles[2].String(), "The runs here were kept by version 2 of this page, and version 1 does not write over them: open the newer page, or export the runs to a file.")
	assert.Empty(t, s.Sync(), "said once")
	_, troubles = s.Keep(sample(1, "a"))
	require.Len(t, troubles, 1)
	assert.False(t, s.Saved())
	assert.Equal(t, 2, s.Len())
	assert.Equal(t, map[string]string{runs.Key: newer}, sh.texts)
}

func TestTooMuchForTheShelf(t *testing.T) {
	sh := newShelf()
	pages := make([]*runs.Store, 3)
	sh.save = runs.ErrFull
	for i := range pages {
		pages[i] = open(t, sh)
		for n := range 31 {
			id, _ := pages[i].Keep(runs.Run{Kept: "2026-03-14T09:30:00Z", Plan: fmt.Sprint(i, n), Notes: strings.Repeat("n", runs.MaxNotes)})
			require.NotEmpty(t, id)
		}
	}
	sh.save = nil
	assert.Empty(t, pages[0].Sync())
	assert.Empty(t, pages[1].Sync())
	troubles := pages[2].Sync()
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "kB of runs, above the limit of 5000 kB): export")
	assert.Equal(t, 93, pages[2].Len())
	assert.Equal(t, 62, open(t, sh).Len(), "what stood there stands")
}

func TestMergeOfAFile(t *testing.T) {
	var file runs.Book
	add(t, &file, sample(1, "a"))
	add(t, &file, sample(2, "b"))
	sh := newShelf()
	one, two := open(t, sh), open(t, sh)
	report, troubles := one.Merge(&file)
	assert.Empty(t, troubles)
	assert.Len(t, report.New, 2)
	report, _ = two.Merge(&file)
	assert.Len(t, report.Same, 2, "the other page sees that they are there")
	two.Drop(runs.ID(sample(1, "")))
	report, _ = one.Merge(&file)
	assert.Equal(t, []string{runs.ID(sample(1, ""))}, report.Dropped)
	assert.Equal(t, []string{"b"}, names(one.List()))
	keep(t, one, sample(1, "a"))
	assert.Empty(t, two.Sync())
	assert.Equal(t, []string{"b", "a"}, names(two.List()), "kept again on purpose")
}

func TestTwoPagesWriteAtTheSameMoment(t *testing.T) {
	sh := newShelf()
	one, two := open(t, sh), open(t, sh)
	// two saves between one's load and save, and is written over
	sh.before = func() { keep(t, two, sample(2, "b")) }
	keep(t, one, sample(1, "a"))
	assert.Equal(t, []string{"a"}, names(open(t, sh).List()))
	assert.Empty(t, two.Sync(), "it hears that the shelf changed")
	assert.Equal(t, []string{"b", "a"}, names(open(t, sh).List()))
	assert.Empty(t, one.Sync())
	assert.Equal(t, text(one.Book()), text(two.Book()))
	saves := sh.saves
	assert.Empty(t, two.Sync())
	assert.Empty(t, one.Sync())
	assert.Equal(t, saves, sh.saves, "then there is peace")
}

// late lets another page write right after each save.
type late struct {
	*shelf
	after func()
}

func (l *late) Save(key, value string) error {
	err := l.shelf.Save(key, value)
	l.after()
	return err
}

func TestAnotherPageWritesOver(t *testing.T) {
	var other runs.Book
	add(t, &other, sample(9, "other"))
	once := true
	l := &late{shelf: newShelf()}
	l.after = func() {
		if once {
			once = false
			l.texts[runs.Key] = text(&other)
		}
	}
	s := open(t, l)
	keep(t, s, sample(1, "a"))
	assert.Equal(t, []string{"other", "a"}, names(open(t, l).List()))

	l.after = func() { l.texts[runs.Key] = text(&other) }
	_, troubles := s.Keep(sample(2, "b"))
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].String(), "another page writes at the same time")
	assert.False(t, s.Saved())
	assert.Equal(t, 3, s.Len())
}

func TestInterleavedStoresEndEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh := newShelf()
		pages := []*runs.Store{open(t, sh), open(t, sh)}
		want := map[string]bool{} // by ID, whether it must be there
		for range rapid.IntRange(1, 15).Draw(t, "acts") {
			p := rapid.SampledFrom(pages).Draw(t, "page")
			act(t, p.List(), func(r runs.Run) { want[keep(t, p, r)] = true },
				func(id string) { require.Empty(t, p.Drop(id)); want[id] = false })
		}
		for _, p := range pages {
			require.Empty(t, p.Sync())
		}
		assert.Equal(t, text(pages[0].Book()), text(pages[1].Book()))
		assert.Equal(t, text(pages[0].Book()), text(open(t, sh).Book()))
		for id, there := range want {
			_, ok := pages[0].Get(id)
			assert.Equal(t, there, ok, id)
		}
		assert.Equal(t, len(pages[0].List()), pages[0].Len())
	})
}

func TestFailingShelfEndsEqualToo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh := newShelf()
		pages := []*runs.Store{open(t, sh), open(t, sh)}
		kept, dropped := map[string]bool{}, map[string]bool{}
		for range rapid.IntRange(1, 15).Draw(t, "acts") {
			p := rapid.SampledFrom(pages).Draw(t, "page")
			sh.load, sh.save = nil, nil
			switch rapid.IntRange(0, 3).Draw(t, "shelf") {
			case 0:
				sh.save = runs.ErrFull
			case 1:
				sh.load, sh.save = runs.ErrForbidden, runs.ErrForbidden
			}
			act(t, p.List(), func(r runs.Run) {
				id, troubles := p.Keep(r)
				kept[id] = true
				if sh.load != nil {
					assert.NotEmpty(t, troubles)
				}
				_, ok := p.Get(id)
				assert.True(t, ok)
			}, func(id string) { p.Drop(id); dropped[id] = true })
		}
		sh.load, sh.save = nil, nil
		for _, i := range []int{0, 1, 0} {
			require.Empty(t, pages[i].Sync())
			assert.True(t, pages[i].Saved())
		}
		assert.Equal(t, text(pages[0].Book()), text(pages[1].Book()))
		assert.Equal(t, text(pages[0].Book()), text(open(t, sh).Book()))
		for id := range kept {
			if _, ok := pages[0].Get(id); !dropped[id] {
				assert.True(t, ok, "kept and never dropped, but lost: %s", id)
			}
		}
		list := pages[0].List()
		ids := make([]string, len(list))
		for i := range list {
			ids[i] = list[i].ID
		}
		slices.Sort(ids)
		assert.Len(t, slices.Compact(ids), len(list))
	})
}
