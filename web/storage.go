package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
)

// storage is one of the browser's two stores, by its name. Every use may be refused:
// a browser that keeps nothing, a store that is full. Then nothing is read, and
// nothing written; nobody else need know.
type storage string

const (
	longStorage storage = "localStorage"   // of this file, in all its windows
	tabStorage  storage = "sessionStorage" // of this tab, until it is closed
)

// refused turns what a store throws into an answer.
func refused(ok *bool) {
	if recover() != nil {
		*ok = false
	}
}

func (s storage) get(key string) (value string, ok bool) {
	if app.IsServer {
		return "", false
	}
	defer refused(&ok)
	v := app.Window().Get(string(s)).Call("getItem", key)
	if v.IsNull() || v.IsUndefined() {
		return "", false
	}
	return v.String(), true
}

// set tells whether the value will be there after a reload.
func (s storage) set(key, value string) (ok bool) {
	defer refused(&ok)
	store := app.Window().Get(string(s))
	store.Call("setItem", key, value)
	return !store.Get("lent").Truthy() // the loader's, which lives as long as the page
}

func (s storage) remove(key string) {
	var ok bool
	defer refused(&ok)
	app.Window().Get(string(s)).Call("removeItem", key)
}

// keys lists the keys that begin so.
func (s storage) keys(prefix string) (list []string) {
	var ok bool
	defer refused(&ok)
	store := app.Window().Get(string(s))
	for i := range store.Get("length").Int() {
		if key := store.Call("key", i); key.Truthy() && strings.HasPrefix(key.String(), prefix) {
			list = append(list, key.String())
		}
	}
	return list
}
