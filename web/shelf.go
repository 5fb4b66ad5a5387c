package web

import (
	"errors"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/runs"
)

// localShelf is the browser's local storage, which may be full or forbidden. Where it is
// forbidden, to look at it is an error: a call hears of it, a plain look would end the
// program.
type localShelf struct{}

func storage() app.Value {
	return app.Window().Get("Reflect").Call("get", app.Window(), "localStorage")
}

func (localShelf) try(do func(app.Value)) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = runs.ErrForbidden
			if e, ok := r.(error); ok && strings.Contains(strings.ToLower(e.Error()), "quota") {
				err = errors.Join(runs.ErrFull, e)
			}
		}
	}()
	s := storage()
	if !s.Truthy() || s.Get("lent").Truthy() { // the loader lends one that does not last
		return runs.ErrForbidden
	}
	do(s)
	return nil
}

func (l localShelf) Keys() (keys []string, err error) {
	err = l.try(func(s app.Value) {
		for i := range s.Get("length").Int() {
			if key := s.Call("key", i); key.Truthy() {
				keys = append(keys, key.String())
			}
		}
	})
	return keys, err
}

func (l localShelf) Load(key string) (text string, err error) {
	err = l.try(func(s app.Value) {
		if v := s.Call("getItem", key); v.Truthy() {
			text = v.String()
		}
	})
	return text, err
}

func (l localShelf) Save(key, text string) error {
	return l.try(func(s app.Value) { s.Call("setItem", key, text) })
}

func (l localShelf) Remove(key string) error {
	return l.try(func(s app.Value) { s.Call("removeItem", key) })
}
