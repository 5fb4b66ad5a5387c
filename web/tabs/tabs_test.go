package tabs_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/web/desk"
	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
	"rosesalt/web/tabs"
)

// newShelf is one on which others keep things.
func newShelf() *shelftest.Shelf {
	sh := shelftest.New()
	sh.Texts["rosesalt.run.0"], sh.Texts["tea"] = "{}", "1"
	return sh
}

func tab(n int) string { return fmt.Sprintf("TAB%08d", n) }

func nobody(string) bool { return false }

// state is what a tab does at a minute of a day.
func state(minute int, plan string) *tabs.State {
	return &tabs.State{At: fmt.Sprintf("2026-03-10T%02d:%02d:00+01:00", 9+minute/60, minute%60), Draft: desk.Draft{Plan: plan}}
}

func names(list []tabs.Left) (ids []string) {
	for _, l := range list {
		ids = append(ids, l.ID)
	}
	return ids
}

func TestWhatATabDidIsLeftAndTakenUp(t *testing.T) {
	sh := newShelf()
	one := tabs.Open(sh, tab(1))
	assert.Equal(t, 2, len(sh.Texts), "looking writes nothing")
	did := state(0, "v=2&cell.count=2")
	did.Unread = map[string]string{"gas.acid": "much"}
	did.Pinned, did.Name, did.Kept, did.Bench = "v=2", "first bag", "00ff", "+soak"
	did.Wanted = desk.Wanted{Grams: "50", Figure: "copper.crop", ByShare: true, Pure: "95"}
	did.Tab = map[string]json.RawMessage{"rosesalt.labels": json.RawMessage(`{"label.who":"the club"}`)}
	one.Save(did)
	assert.Empty(t, one.Trouble())

	own, ok := tabs.Open(sh, tab(1)).Own()
	require.True(t, ok, "after a reload")
	assert.Equal(t, *did, own)

	two := tabs.Open(sh, tab(2))
	assert.Empty(t, two.Left(func(id string) bool { return id == tab(1) }), "a tab that lives left nothing")
	left := two.Left(nobody)
	require.Equal(t, []string{tab(1)}, names(left))
	assert.True(t, left[0].Same(did))

	two.Save(state(1, "v=2&cell.count=5"))
	two.ContinueAs(tab(1))
	two.Save(state(2, "v=2&cell.count=3"))
	three := tabs.Open(sh, tab(3))
	assert.Equal(t, []string{tab(1), tab(2)}, names(three.Left(nobody)), "what stood in the tab that went on is left in turn; the newest is first")
}

func TestTabsNeverWriteOverEachOther(t *testing.T) {
	sh := newShelf()
	one, two := tabs.Open(sh, tab(1)), tabs.Open(sh, tab(2))
	for minute := range 5 {
		one.Save(state(minute, fmt.Sprintf("v=2&cell.count=%d", 10+minute)))
		two.Save(state(minute, fmt.Sprintf("v=2&cell.count=%d", 20+minute)))
	}
	a, _ := one.Own()
	b, _ := two.Own()
	assert.Equal(t, "v=2&cell.count=14", a.Plan)
	assert.Equal(t, "v=2&cell.count=24", b.Plan)
}

func TestOnlyWhatIsNewIsSaved(t *testing.T) {
	sh := newShelf()
	s := tabs.Open(sh, tab(1))
	s.MarkSaved(state(0, "v=2&cell.count=2"))
	s.Save(state(1, "v=2&cell.count=2"))
	assert.Zero(t, sh.Saves, "a link that was only opened leaves nothing")
	s.Save(state(2, "v=2&cell.count=3"))
	s.Save(state(3, "v=2&cell.count=3"))
	assert.Equal(t, 1, sh.Saves)
	own, _ := s.Own()
	assert.Contains(t, own.At, "09:02", "when it was changed, not when it was looked at")
	s.Save(state(4, "v=2"))
	_, ok := s.Own()
	assert.False(t, ok, "the page as everyone finds it is nothing to go on with")
}

func TestUntouchedPageIsEmpty(t *testing.T) {
	s := state(0, "v=2")
	assert.True(t, s.Empty())
	s.Bench = "-soak"
	assert.True(t, s.Empty(), "where the bench view stood is not worth keeping alone")
	for name, touch := range map[string]func(*tabs.State){
		"a plan":     func(s *tabs.State) { s.Plan = "v=2&cell.count=3" },
		"a slip":     func(s *tabs.State) { s.Unread = map[string]string{"cell.count": "x"} },
		"a pin":      func(s *tabs.State) { s.Pinned = "v=2" },
		"a purity":   func(s *tabs.State) { s.Wanted.Pure = "95" },
		"a wish":     func(s *tabs.State) { s.Wanted.Grams = "50" },
		"a name":     func(s *tabs.State) { s.Name = "bag" },
		"the labels": func(s *tabs.State) { s.Tab = map[string]json.RawMessage{"rosesalt.labels": nil} },
	} {
		s := state(0, "v=2")
		touch(s)
		assert.False(t, s.Empty(), name)
	}
}

func TestOldestOfTheGoneGo(t *testing.T) {
	sh := newShelf()
	for n := range tabs.MostLeft + 3 {
		tabs.Open(sh, tab(n)).Save(state(n, fmt.Sprintf("v=2&cell.count=%d", n+20)))
	}
	s := tabs.Open(sh, tab(99))
	assert.Len(t, s.Left(func(id string) bool { return id == tab(0) || id == tab(1) || id == tab(2) }), tabs.MostLeft)
	assert.Contains(t, sh.Texts, tabs.Prefix+tab(0), "a tab that lives is not counted")
	list := s.Left(nobody)
	assert.Len(t, list, tabs.MostLeft)
	assert.Equal(t, tab(tabs.MostLeft+2), list[0].ID)
	for n := range 3 {
		assert.NotContains(t, sh.Texts, tabs.Prefix+tab(n))
	}
	assert.Contains(t, sh.Texts, "rosesalt.run.0", "what is not ours stays")
}

func TestShelfThatRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		shelf *shelftest.Shelf
		says  string
	}{
		"forbidden": {&shelftest.Shelf{KeysErr: runs.ErrForbidden, LoadErr: runs.ErrForbidden, SaveErr: runs.ErrForbidden, RemoveErr: runs.ErrForbidden}, "its storage is forbidden or switched off"},
		"full":      {&shelftest.Shelf{Texts: map[string]string{}, SaveErr: runs.ErrFull}, "its storage is full"},
		"forgets":   {&shelftest.Shelf{Texts: map[string]string{}, Forgets: true}, "it refuses"},
		"broken":    {&shelftest.Shelf{Texts: map[string]string{}, SaveErr: errors.New("broken")}, "it refuses"},
		"no room":   {&shelftest.Shelf{Texts: map[string]string{}, Room: 1000}, "its storage is full"},
	} {
		t.Run(name, func(t *testing.T) {
			s := tabs.Open(c.shelf, tab(1))
			if s.Trouble() == "" {
				s.Try()
			}
			assert.Contains(t, s.Trouble(), c.says, "before anything is done")
			assert.Contains(t, s.Trouble(), "Save a copy")
			_, ok := s.Own()
			assert.False(t, ok)
			assert.Empty(t, s.Left(nobody))
			s.Save(state(0, "v=2&notes="+strings.Repeat("x", 2000)))
			assert.Contains(t, s.Trouble(), c.says)
		})
	}
}

func TestTryLeavesNothing(t *testing.T) {
	sh := newShelf()
	s := tabs.Open(sh, tab(1))
	s.Try()
	assert.Empty(t, s.Trouble())
	assert.Len(t, sh.Texts, 2)
}

func TestFullForAWhile(t *testing.T) {
	sh := newShelf()
	s := tabs.Open(sh, tab(1))
	s.Save(state(0, "v=2&cell.count=2"))
	sh.SaveErr = runs.ErrFull
	s.Save(state(1, "v=2&cell.count=3"))
	assert.Contains(t, s.Trouble(), "full")
	own, _ := s.Own()
	assert.Equal(t, "v=2&cell.count=2", own.Plan, "the one before stays")
	sh.SaveErr = nil
	s.Save(state(2, "v=2&cell.count=3"))
	assert.Empty(t, s.Trouble())
	own, _ = s.Own()
	assert.Equal(t, "v=2&cell.count=3", own.Plan)
	s.Save(state(3, "v=2&notes="+strings.Repeat("x", tabs.MaxSize)))
	assert.Contains(t, s.Trouble(), "full", "what nobody typed is not kept")
}

func TestDamagedAndNewerEntriesAreLeft(t *testing.T) {
	good := `{"version":1,"at":"2026-03-10T09:00:00Z","plan":"v=2&cell.count=3"}`
	for name, text := range map[string]string{
		"cut":       good[:len(good)/2],
		"no text":   "+\x00{",
		"newer":     strings.Replace(good, `"version":1`, `"version":2`, 1),
		"none":      strings.Replace(good, `"version":1,`, ``, 1),
		"no plan":   strings.Replace(good, `v=2&cell.count=3`, ``, 1),
		"no time":   strings.Replace(good, `2026-03-10T09:00:00Z`, `noon`, 1),
		"long plan": strings.Replace(good, `count=3`, `count=`+strings.Repeat("3", 1<<17), 1),
		"huge":      strings.Replace(good, `}`, strings.Repeat(" ", tabs.MaxSize)+`}`, 1),
	} {
		sh := newShelf()
		sh.Texts[tabs.Prefix+tab(1)], sh.Texts[tabs.Prefix+tab(2)] = text, good
		sh.Texts[tabs.Prefix+"../x"], sh.Texts[tabs.Prefix] = good, good
		s := tabs.Open(sh, tab(3))
		assert.Equal(t, []string{tab(2)}, names(s.Left(nobody)), name)
		assert.Equal(t, text, sh.Texts[tabs.Prefix+tab(1)], name)
		gone := s.ForgetAll(state(0, "v=2"), nobody)
		assert.NotContains(t, sh.Texts, tabs.Prefix+tab(1), "%s: who forgets all does not want that either", name)
		s.Restore(gone)
		assert.Equal(t, text, sh.Texts[tabs.Prefix+tab(1)], name)
	}
}

func TestForgetAndBack(t *testing.T) {
	sh := newShelf()
	one, two := tabs.Open(sh, tab(1)), tabs.Open(sh, tab(2))
	one.Save(state(0, "v=2&cell.count=2"))
	two.Save(state(1, "v=2&cell.count=3"))
	gone := two.Forget(tab(1))
	assert.Empty(t, two.Left(nobody))
	two.Restore(gone)
	assert.Equal(t, []string{tab(1)}, names(two.Left(nobody)))

	lives := func(id string) bool { return id == tab(1) }
	gone = two.ForgetAll(state(2, "v=2&cell.count=3"), lives)
	_, ok := two.Own()
	assert.False(t, ok)
	_, ok = one.Own()
	assert.True(t, ok, "a tab that lives keeps its own")
	two.Save(state(3, "v=2&cell.count=3"))
	_, ok = two.Own()
	assert.False(t, ok, "forgotten is forgotten until something is done again")
	two.Restore(gone)
	own, ok := two.Own()
	require.True(t, ok)
	assert.Equal(t, "v=2&cell.count=3", own.Plan)
	gone = two.ForgetAll(state(4, "v=2&cell.count=3"), lives)
	two.Save(state(5, "v=2&cell.count=4"))
	two.Restore(gone)
	own, _ = two.Own()
	assert.Equal(t, "v=2&cell.count=4", own.Plan, "what was done since is not written over")
	two.ForgetAll(state(6, "v=2&cell.count=5"), lives) // typed a moment ago, and not saved yet
	two.Save(state(7, "v=2&cell.count=5"))
	_, ok = two.Own()
	assert.False(t, ok, "nor what was not saved when it was forgotten")
}

func TestTabsAnswerWhereTheBrowserDoesNot(t *testing.T) {
	sh := newShelf()
	one, two, asks := tabs.Open(sh, tab(1)), tabs.Open(sh, tab(2)), tabs.Open(sh, tab(3))
	one.Save(state(0, "v=2&cell.count=2"))
	two.Save(state(0, "v=2&cell.count=3"))
	four := tabs.Open(sh, tab(4))
	four.Save(state(1, "v=2&cell.count=4"))
	four.Answer("of long ago")
	two.Answer("of long ago")
	asks.Ask("word")
	one.Answer(sh.Texts[tabs.AskKey])
	two.Leave()
	lives := asks.Heard("word")
	assert.True(t, lives(tab(1)))
	assert.False(t, lives(tab(2)))
	assert.False(t, lives(tab(4)), "an answer to somebody else tells nothing")
	assert.Equal(t, []string{tab(4), tab(2)}, names(asks.Left(lives)))
	assert.False(t, asks.Heard("word")(tab(1)), "an answer is heard once")
	four.Leave()
	assert.Len(t, sh.Texts, 5, "nothing of it stays")
}

// plain is a text without its no-break spaces.
func plain(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

func TestWordsSayWhatItIs(t *testing.T) {
	zone := time.FixedZone("", 3600)
	now := time.Date(2026, 3, 14, 0, 30, 0, 0, zone) // a Saturday
	for at, says := range map[string]string{
		"2026-03-13T23:29:00Z":      "today, 00:29",
		"2026-03-13T23:50:00+01:00": "yesterday, 23:50",
		"2026-03-10T14:05:00+01:00": "Tuesday, 14:05",
		"2026-03-08T14:05:00+01:00": "Sunday, 14:05",
		"2026-03-07T14:05:00+01:00": "7 March, 14:05",
		"2025-12-31T14:05:00+01:00": "31 December 2025, 14:05",
		"2026-03-20T14:05:00+01:00": "20 March, 14:05",
	} {
		s := tabs.State{At: at, Draft: desk.Draft{Plan: "v=2&cell.count=2&cell.size=R20"}}
		assert.Equal(t, "the plan of "+says+", 2 × R20", plain(s.Words(now)))
	}
	tuesday := "2026-03-10T14:05:00+01:00"
	for plan, says := range map[string]string{
		"v=2&cell.count=2&cell.size=R20&run=v%3D2&found.product=30&found.copper=60":      "the run of Tuesday, 14:05, 2 × R20, two weighings",
		"v=2&run=v%3D2&run.done=3&mix.wet=150&notes=x":                                   "the run of Tuesday, 14:05, 6 × R14, 3 of 9 stages done, one weighing, notes",
		"v=2&cell.2.count=3&cell.2.size=R6&found.product.empty=84&found.product.full=96": "the plan of Tuesday, 14:05, 6 × R14 + 3 × R6, two weighings",
		"v=2&log.5.rate=30&log.10.rate=30":                                               "the plan of Tuesday, 14:05, 6 × R14, two other readings",
	} {
		s := tabs.State{At: tuesday, Draft: desk.Draft{Plan: plan}}
		assert.Equal(t, says, plain(s.Words(now)), plan)
	}
	s := tabs.State{At: "noon", Draft: desk.Draft{Plan: "v=2", Unread: map[string]string{"cell.count": "x"}}}
	assert.Equal(t, "the plan, 6 × R14, one entry that cannot be read", plain(s.Words(now)))
}
