package runs_test

import (
	"testing"

	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
)

// FuzzEntry: whatever lies under a key of ours, it is taken as it stands or left where it
// is, and what is kept beside it is kept.
func FuzzEntry(f *testing.F) {
	sh := shelftest.New()
	store := runs.Open(sh)
	id, err := store.Keep(run(1, "one"))
	if err != nil {
		f.Fatal(err)
	}
	if _, err := store.Forget(id); err != nil {
		f.Fatal(err)
	}
	if _, err := store.Keep(run(2, "two")); err != nil {
		f.Fatal(err)
	}
	for key, text := range sh.Texts {
		f.Add(key[len(runs.Prefix):], text)
		f.Add("", text)
		f.Add(key[len(runs.Prefix):], text[:len(text)/2])
	}
	f.Add("0", `{"version":2,"tea":1}`)
	f.Add("0", `{"version":1,"id":"0","kept":"2026-03-14T09:30:00Z","plan":"v=1","replaces":["x"],"learned":{"__proto__":[1,2,3]}}`)
	f.Fuzz(func(t *testing.T, id, text string) {
		sh := shelftest.New()
		sh.Texts[runs.Prefix+id] = text
		store := runs.Open(sh)
		had := len(store.Book().Standing())
		if _, there := sh.Texts[runs.Prefix+id]; !there {
			t.Fatalf("%q: %q was taken away", id, text)
		}
		if s := store.Standing(); had+s.Damaged+s.Newer != 1 || s.Unsaved > 0 || s.Why != nil {
			t.Fatalf("%q: %q: %d stand, %+v", id, text, had, s)
		}
		kept, err := store.Keep(run(7, "beside"))
		if err != nil {
			return // it is the very same
		}
		if sh.Texts[runs.Prefix+id] != text && kept != id {
			t.Fatalf("%q: %q was written over", id, text)
		}
		if again := runs.Open(sh); len(again.Book().List()) != len(store.Book().List()) || string(runs.Encode(again.Book().List())) != string(runs.Encode(store.Book().List())) {
			t.Fatalf("%q: %q: other runs when it is opened again", id, text)
		}
	})
}
