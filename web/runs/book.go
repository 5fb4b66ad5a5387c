package runs

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Book is the runs that are kept, and which were dropped. The zero Book is empty.
// It is for one goroutine.
type Book struct {
	entries map[string]entry
	size    int // bytes of all lines
	kept    int // entries that are not dropped
}

// entry is a run or, when it was dropped, its ID and count of edits: what a merge
// must know not to bring it back.
type entry struct {
	run     Run
	dropped bool
	line    []byte
}

func (b *Book) set(run Run, dropped bool) {
	e := entry{run: run, dropped: dropped}
	if dropped {
		e.run = Run{ID: run.ID, Edit: run.Edit}
		e.line = line(gone{run.ID, run.Edit})
	} else {
		e.line = run.write()
	}
	if b.entries == nil {
		b.entries = map[string]entry{}
	}
	if old, ok := b.entries[run.ID]; ok {
		b.size -= len(old.line)
		if !old.dropped {
			b.kept--
		}
	}
	b.entries[run.ID] = e
	b.size += len(e.line)
	if !dropped {
		b.kept++
	}
}

// Len counts the runs.
func (b *Book) Len() int { return b.kept }

// Get gives a copy of a run.
func (b *Book) Get(id string) (Run, bool) {
	e, ok := b.entries[id]
	if !ok || e.dropped {
		return Run{}, false
	}
	return e.run.clone(), true
}

// List gives copies of all runs, newest first.
func (b *Book) List() []Run {
	list := make([]Run, 0, b.kept)
	for _, e := range b.sorted() {
		if !e.dropped {
			list = append(list, e.run.clone())
		}
	}
	return list
}

// sorted gives the runs, newest first, and then the dropped.
func (b *Book) sorted() []entry {
	list := slices.Collect(maps.Values(b.entries))
	slices.SortFunc(list, func(x, y entry) int {
		if x.dropped != y.dropped {
			if x.dropped {
				return 1
			}
			return -1
		}
		if !x.dropped {
			s, _ := instant(x.run.Kept)
			t, _ := instant(y.run.Kept)
			if c := t.Compare(s); c != 0 {
				return c
			}
		}
		return strings.Compare(x.run.ID, y.run.ID)
	})
	return list
}

// Add keeps a run and tells whether it was new. A run that is there already is
// changed to what is given; if it changed since the given one was read, both
// states are joined. A run that was dropped is kept again.
func (b *Book) Add(run Run) (bool, error) { return b.add(run, MaxNotes) }

func (b *Book) add(run Run, maxNotes int) (bool, error) {
	read := run.ID
	run, err := check(run, maxNotes)
	if err != nil {
		return false, err
	}
	old, known := b.entries[run.ID]
	fresh := !known || old.dropped
	switch {
	case !known:
		run.Edit = 0
	case old.dropped:
		run.Edit = old.run.Edit + 1
	case same(run, old.run):
		return false, nil
	default:
		if read != run.ID || run.Edit < old.run.Edit {
			run = join(run, old.run)
		}
		run.Edit = old.run.Edit + 1
	}
	if fresh && b.kept >= MaxRuns {
		return false, fmt.Errorf("%d runs are kept, and the limit is %d. Export them to a file, then drop some.", b.kept, MaxRuns)
	}
	if size := b.size - len(old.line) + len(run.write()); size > MaxBook && size > b.size {
		return false, fmt.Errorf("With this run the runs would take %d kB, above the limit of %d kB. Export them to a file, then drop some, or shorten the notes.", size/1000, MaxBook/1000)
	}
	b.set(run, false)
	return fresh, nil
}

// Remove drops a run, and tells whether it was there.
func (b *Book) Remove(id string) bool {
	e, ok := b.entries[id]
	if !ok || e.dropped {
		return false
	}
	b.set(Run{ID: id, Edit: e.run.Edit + 1}, true)
	return true
}

// Merge takes in all that another state of the same book knows, dropped runs too.
// The later edit of a run stands; of two at once, keeping stands before dropping,
// and two changes are joined. It holds to no limit on the number of runs: what two
// pages kept stays kept.
func (b *Book) Merge(other *Book) {
	for id, theirs := range other.entries {
		ours, ok := b.entries[id]
		switch {
		case !ok || theirs.later(ours):
			b.set(theirs.run, theirs.dropped)
		case !ours.later(theirs) && !bytes.Equal(ours.line, theirs.line):
			b.set(join(ours.run, theirs.run), false)
		}
	}
}

func (e entry) later(f entry) bool {
	if e.run.Edit != f.run.Edit {
		return e.run.Edit > f.run.Edit
	}
	return f.dropped && !e.dropped
}

// Report is what became of the runs of another book, by ID.
type Report struct {
	New     []string  // now kept
	Same    []string  // were here, and the same
	Changed []string  // were here with other notes, readings, flags or learned values; both are kept
	Dropped []string  // were dropped here and stay so; Add brings one back
	Refused []Trouble // not taken, and why
}

// String says it in a sentence.
func (r *Report) String() string {
	var parts []string
	for _, p := range []struct {
		n    int
		what string
	}{{len(r.New), "new"}, {len(r.Same), "already here"}, {len(r.Changed), "joined with what was here"},
		{len(r.Dropped), "dropped here before and left out"}, {len(r.Refused), "refused"}} {
		if p.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.what))
		}
	}
	if parts == nil {
		return "There are no runs in it."
	}
	return "Runs: " + strings.Join(parts, ", ") + "."
}

// Import takes the runs of a book from elsewhere, such as a file: it adds and
// joins, and drops nothing.
func (b *Book) Import(other *Book) Report {
	var r Report
	for _, run := range other.List() {
		ours, known := b.entries[run.ID]
		switch {
		case known && ours.dropped:
			r.Dropped = append(r.Dropped, run.ID)
			continue
		case known && same(run, ours.run):
			r.Same = append(r.Same, run.ID)
			continue
		case known:
			run = join(run, ours.run)
			run.Edit = ours.run.Edit
		}
		switch _, err := b.add(run, MaxJoined); {
		case err != nil:
			r.Refused = append(r.Refused, Trouble{run.label(), err.Error()})
		case known:
			r.Changed = append(r.Changed, run.ID)
		default:
			r.New = append(r.New, run.ID)
		}
	}
	return r
}
