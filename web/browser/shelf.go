package browser

import (
	"encoding/json"
	"errors"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/runs"
)

// Shelf is one of the browser's two storages, by its name, which may be full or forbidden.
// Where it is forbidden, reading the property throws: a call into JavaScript turns that into
// an error, a plain Get would end the program.
type Shelf string

// The two storages.
const (
	Local Shelf = "localStorage"   // of this file, in all its windows
	Tab   Shelf = "sessionStorage" // of this tab, until it is closed
)

func (l Shelf) try(do func(app.Value)) (err error) {
	if app.IsServer {
		return runs.ErrForbidden
	}
	defer func() {
		if r := recover(); r != nil {
			err = runs.ErrForbidden
			if e, ok := r.(error); ok && strings.Contains(strings.ToLower(e.Error()), "quota") {
				err = errors.Join(runs.ErrFull, e)
			}
		}
	}()
	s := app.Window().Get("Reflect").Call("get", app.Window(), string(l))
	if !s.Truthy() || s.Get("lent").Truthy() { // the loader lends one that does not last
		return runs.ErrForbidden
	}
	do(s)
	return nil
}

// Keys lists the keys of all that is kept.
func (l Shelf) Keys() (keys []string, err error) {
	err = l.try(func(s app.Value) {
		for i := range s.Get("length").Int() {
			if key := s.Call("key", i); key.Truthy() {
				keys = append(keys, key.String())
			}
		}
	})
	return keys, err
}

// Load reads what is kept under a key: empty where nothing is.
func (l Shelf) Load(key string) (text string, err error) {
	err = l.try(func(s app.Value) {
		if v := s.Call("getItem", key); v.Truthy() {
			text = v.String()
		}
	})
	return text, err
}

// Save keeps a text under a key.
func (l Shelf) Save(key, text string) error {
	return l.try(func(s app.Value) { s.Call("setItem", key, text) })
}

// Remove forgets what is kept under a key.
func (l Shelf) Remove(key string) error {
	return l.try(func(s app.Value) { s.Call("removeItem", key) })
}

// inTab is what a tab keeps of a file, until it is closed.
type inTab struct {
	Of   string          `json:"of"`
	Kept json.RawMessage `json:"kept"`
}

// here is the file or address of the page.
func here() string { return app.Window().Get("location").Get("pathname").String() }

// KeepInTab keeps something until the tab is closed. Refused, it is gone after a reload.
func KeepInTab(key string, what any) {
	kept, err := json.Marshal(what)
	if err != nil {
		return
	}
	if text, err := json.Marshal(inTab{here(), kept}); err == nil {
		_ = Tab.Save(key, string(text))
	}
}

// RecallFromTab takes up what this file kept before a reload. It tells whether there was any.
func RecallFromTab(key string, what any) bool {
	text, _ := Tab.Load(key)
	var kept inTab
	return json.Unmarshal([]byte(text), &kept) == nil && kept.Of == here() && json.Unmarshal(kept.Kept, what) == nil
}
