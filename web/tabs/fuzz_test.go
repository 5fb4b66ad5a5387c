package tabs_test

import (
	"testing"
	"time"

	"rosesalt/web/desk"
	"rosesalt/web/tabs"
)

// FuzzEntry: whatever lies in the storage, what is offered of it can be read, taken up and
// saved, and then says the same.
func FuzzEntry(f *testing.F) {
	f.Add(`{"version":1,"at":"2026-03-10T09:00:00Z","plan":"v=1&cell.count=3&run=v%3D1","unread":{"gas.acid":"much","tea":"x"},"pinned":"v=1","wanted":{"grams":"5","figure":"copper.crop"},"bench":"+soak","tab":{"rosesalt.labels":{}}}`)
	f.Add(`{"version":1,"at":"9999-12-31T23:59:59+23:59","plan":"%","unread":{"found.product.full":"\u202e"},"tab":{"":null}}`)
	f.Add("+\x00{\xff")
	now := time.Date(2026, 3, 14, 0, 30, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, text string) {
		sh := newShelf()
		sh.Texts[tabs.Prefix+tab(1)] = text
		s := tabs.Open(sh, tab(2))
		for _, left := range s.Left(nobody) {
			if left.Words(now) == "" {
				t.Fatalf("%q is nothing", text)
			}
			d := desk.New("")
			d.TakeDraft(&left.Draft)
			left.Draft = d.Draft()
			s.Save(&left.State)
			own, ok := s.Own()
			if !left.Empty() && s.Trouble() == "" && (!ok || !own.Same(&left.State)) {
				t.Fatalf("%q comes back as %+v", text, own)
			}
		}
	})
}
