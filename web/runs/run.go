// Package runs keeps the runs a chemist made: each with its plan, what was found,
// the weighings, notes, and what was learned from it.
//
// A Book is the runs in memory, a file is a Book written down (file.go), and a
// Store keeps a Book on a shelf that several pages may share (store.go). The
// promise: nothing that was kept is lost or doubled, and what cannot be taken is
// named with its reason. The package has no clock and knows no page.
package runs

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"rosesalt/chem/quantity"
	"rosesalt/web/link"
)

// Limits of what is kept.
const (
	MaxRuns     = 500      // in a book
	MaxBook     = 2 << 20  // bytes of a book; two full ones, merged, still fit a file
	MaxNotes    = 64 << 10 // bytes of a run's notes
	MaxJoined   = 4 * MaxNotes
	MaxName     = 200 // characters, also of a flag and of what was weighed
	MaxItems    = 100 // readings, flags, found or learned values of a run
	MaxQuantity = 1e9 // of a found or learned value or a mass, in its unit
	maxKey      = 60
	maxEdit     = 1e9
)

// Run is one run as it was kept.
type Run struct {
	ID      string             // of its plan, what was found and when it was kept; the book sets it
	Kept    string             // when, RFC 3339
	Name    string             //
	Notes   string             //
	Plan    string             // fragment of package link, without "#"
	Found   map[string]float64 // by found.* key, in the key's unit, only what was measured
	Flags   []string           // ticks such as "wet crystals"
	Learned map[string][2]float64

	Readings []Reading

	// Edit counts how often the run was changed or dropped since it was first kept.
	// Hand back what Get or List gave: the book sees by it whether another page
	// changed the run meanwhile.
	Edit int
}

// Reading is a mass read as empty and full, in grams. quantity.Blank is not read.
type Reading struct {
	What        string
	Empty, Full float64
}

// Trouble is something that was not taken or not kept, and why.
type Trouble struct {
	Part string // which run, field or file it is about
	Why  string // a sentence for the user
}

func (t Trouble) String() string {
	if t.Part == "" {
		return t.Why
	}
	return t.Part + ": " + t.Why
}

// ID is what the book calls a run: a hash of its plan, what was found, and the
// moment it was kept in whatever zone that is written. Names and notes may change
// without making it another run.
func ID(r Run) string {
	h := sha256.New()
	fmt.Fprintf(h, "%q\n", planOf(r.Plan))
	for _, key := range slices.Sorted(maps.Keys(r.Found)) {
		// adding zero turns -0 into 0
		fmt.Fprintf(h, "%q=%s\n", key, strconv.FormatFloat(r.Found[key]+0, 'g', -1, 64))
	}
	kept := r.Kept
	if t, err := instant(kept); err == nil {
		kept = t.Format(time.RFC3339Nano)
	}
	fmt.Fprintf(h, "%q\n", kept)
	return hex.EncodeToString(h.Sum(nil))[:16]
}

func planOf(s string) string { return strings.TrimPrefix(s, "#") }

func instant(s string) (time.Time, error) {
	var t time.Time
	err := t.UnmarshalText([]byte(s)) // unlike time.Parse, it holds to the letter of RFC 3339
	return t.UTC(), err
}

// clone copies what the run points to, and makes it as a file would give it back.
func (r Run) clone() Run {
	r.Found = maps.Clone(r.Found)
	r.Learned = maps.Clone(r.Learned)
	r.Flags = slices.Clone(r.Flags)
	r.Readings = slices.Clone(r.Readings)
	if len(r.Found) == 0 {
		r.Found = nil
	}
	if len(r.Learned) == 0 {
		r.Learned = nil
	}
	if len(r.Flags) == 0 {
		r.Flags = nil
	}
	if len(r.Readings) == 0 {
		r.Readings = nil
	}
	return r
}

// label names a run in a message.
func (r Run) label() string {
	if strings.TrimSpace(r.Name) != "" {
		return "run “" + clip(r.Name) + "”"
	}
	return "run of " + clip(r.Kept)
}

// check copies a run, sets its ID and says why it cannot be kept.
func check(r Run, maxNotes int) (Run, error) {
	r = r.clone()
	r.Plan = planOf(r.Plan)
	if _, err := instant(r.Kept); err != nil {
		return r, fmt.Errorf("The time “%s” cannot be read. Give day, time and zone, such as 2026-03-14T09:30:00+01:00.", clip(r.Kept))
	}
	if len(r.Plan) > link.MaxLength {
		return r, fmt.Errorf("The plan is %d bytes long, above the limit of %d. Keep the run from the page that made it.", len(r.Plan), link.MaxLength)
	}
	if len(r.Notes) > maxNotes {
		return r, fmt.Errorf("The notes are %d bytes long, above the limit of %d. Shorten them, or keep the rest in a file of its own.", len(r.Notes), maxNotes)
	}
	for _, n := range []struct {
		what  string
		count int
	}{{"found values", len(r.Found)}, {"readings", len(r.Readings)}, {"flags", len(r.Flags)}, {"learned values", len(r.Learned)}} {
		if n.count > MaxItems {
			return r, fmt.Errorf("The run has %d %s, above the limit of %d. Leave some out.", n.count, n.what, MaxItems)
		}
	}
	texts := []struct{ what, text string }{{"name", r.Name}}
	for _, flag := range r.Flags {
		texts = append(texts, struct{ what, text string }{"flag", flag})
	}
	for i := range r.Readings {
		texts = append(texts, struct{ what, text string }{"name of what was weighed", r.Readings[i].What})
	}
	for _, t := range texts {
		if n := utf8.RuneCountInString(t.text); n > MaxName {
			return r, fmt.Errorf("The %s “%s” has %d characters, above the limit of %d. Shorten it.", t.what, clip(t.text), n, MaxName)
		}
	}
	for _, t := range append(texts, struct{ what, text string }{"plan", r.Plan}, struct{ what, text string }{"notes", r.Notes}) {
		if !utf8.ValidString(t.text) {
			return r, fmt.Errorf("The %s “%s” is not text in UTF-8. Type it again.", t.what, clip(t.text))
		}
	}
	for _, key := range slices.Sorted(maps.Keys(r.Found)) {
		if !isKey(key) || !strings.HasPrefix(key, "found.") {
			return r, fmt.Errorf("“%s” is not a found value. Its key begins with “found.”, such as found.product.", clip(key))
		}
		v := r.Found[key] + 0
		if err := bounded(key, v); err != nil {
			return r, err
		}
		r.Found[key] = v
	}
	for i := range r.Readings {
		for _, v := range []float64{r.Readings[i].Empty, r.Readings[i].Full} {
			if err := bounded("The mass of “"+clip(r.Readings[i].What)+"”", v); quantity.Given(v) && err != nil {
				return r, err
			}
		}
	}
	for _, key := range slices.Sorted(maps.Keys(r.Learned)) {
		if !isKey(key) {
			return r, fmt.Errorf("“%s” is not the key of a learned value. Use keys such as gas.uptake.", clip(key))
		}
		ends := r.Learned[key]
		for _, v := range ends {
			if err := bounded(key, v); err != nil {
				return r, err
			}
		}
		if ends[0] > ends[1] {
			return r, fmt.Errorf("%s was learned as %v to %v: the high stands before the low. Turn them round.", key, ends[0], ends[1])
		}
	}
	r.ID = ID(r)
	return r, nil
}

func bounded(what string, v float64) error {
	switch {
	case !quantity.Given(v):
		return fmt.Errorf("%s is not a number. Leave out what was not measured.", what)
	case math.Abs(v) > MaxQuantity:
		return fmt.Errorf("%s is %v, beyond the limit of %v. Check the unit.", what, v, float64(MaxQuantity))
	}
	return nil
}

// isKey: dotted parts of small letters and digits, beginning with a letter.
func isKey(s string) bool {
	if len(s) > maxKey || !strings.Contains(s, ".") || s[0] < 'a' || s[0] > 'z' {
		return false
	}
	for part := range strings.SplitSeq(s, ".") {
		if part == "" || strings.Trim(part, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

func clip(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	if utf8.RuneCountInString(s) > 60 {
		return string([]rune(s)[:60]) + "…"
	}
	return s
}

// written is a run as it stands in a file.
type written struct {
	ID       string                `json:"id"`
	Kept     string                `json:"kept"`
	Edit     int                   `json:"edit,omitempty"`
	Name     string                `json:"name,omitempty"`
	Notes    string                `json:"notes,omitempty"`
	Plan     string                `json:"plan"`
	Found    map[string]float64    `json:"found,omitempty"`
	Readings []weighed             `json:"readings,omitempty"`
	Flags    []string              `json:"flags,omitempty"`
	Learned  map[string][2]float64 `json:"learned,omitempty"`
}

type weighed struct {
	What  string   `json:"what"`
	Empty *float64 `json:"empty,omitempty"`
	Full  *float64 `json:"full,omitempty"`
}

// write gives the one line of a run that was checked.
func (r Run) write() []byte {
	w := written{r.ID, r.Kept, r.Edit, r.Name, r.Notes, r.Plan, r.Found, nil, r.Flags, r.Learned}
	for _, m := range r.Readings {
		w.Readings = append(w.Readings, weighed{m.What, given(m.Empty), given(m.Full)})
	}
	return line(w)
}

func given(v float64) *float64 {
	if !quantity.Given(v) {
		return nil
	}
	return &v
}

func line(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // a plan is full of "&"
	if err := e.Encode(v); err != nil {
		panic("runs: " + err.Error()) // only what check let pass comes here
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

// same tells whether two runs of one ID hold the same, however often edited.
func same(a, b Run) bool {
	a.Edit, b.Edit = 0, 0
	return bytes.Equal(a.write(), b.write())
}

// between stands between notes that two pages wrote at once.
const between = "\n\n— or, from another page —\n\n"

// join makes one of two states of a run, in either order the same. Of what cannot
// stand side by side it takes the greater.
func join(a, b Run) Run {
	j := a.clone()
	j.Edit = max(a.Edit, b.Edit)
	j.Kept = max(a.Kept, b.Kept)
	j.Name = max(a.Name, b.Name)
	j.Notes = joinNotes(a.Notes, b.Notes)
	j.Flags = union(a.Flags, b.Flags, strings.Compare)
	j.Readings = union(a.Readings, b.Readings, compareReadings)
	for key, v := range b.Learned {
		if old, ok := a.Learned[key]; !ok || slices.Compare(old[:], v[:]) < 0 {
			if j.Learned == nil {
				j.Learned = map[string][2]float64{}
			}
			j.Learned[key] = v
		}
	}
	for n, key := range slices.Sorted(maps.Keys(j.Learned)) {
		if n >= MaxItems {
			delete(j.Learned, key)
		}
	}
	return j
}

// joinNotes keeps every piece that is not already part of another.
func joinNotes(a, b string) string {
	if a == b {
		return a
	}
	pieces := append(strings.Split(a, between), strings.Split(b, between)...)
	slices.Sort(pieces)
	pieces = slices.Compact(pieces)
	all := slices.Clone(pieces)
	pieces = slices.DeleteFunc(pieces, func(p string) bool {
		return slices.ContainsFunc(all, func(q string) bool { return p != q && strings.Contains(q, p) })
	})
	if joined := strings.Join(pieces, between); len(joined) <= MaxJoined {
		return joined
	}
	return max(a, b)
}

// union keeps the order where both agree, and sorts where they do not. So many of
// one run that a file would refuse it are cut off.
func union[T any](a, b []T, compare func(T, T) int) []T {
	equal := func(x, y T) bool { return compare(x, y) == 0 }
	if slices.EqualFunc(a, b, equal) {
		return slices.Clone(a)
	}
	all := slices.Concat(a, b)
	slices.SortFunc(all, compare)
	all = slices.CompactFunc(all, equal)
	return all[:min(len(all), MaxItems)]
}

func compareReadings(a, b Reading) int {
	if c := strings.Compare(a.What, b.What); c != 0 {
		return c
	}
	return slices.Compare([]float64{a.Empty, a.Full}, []float64{b.Empty, b.Full}) // NaN equals NaN here
}
