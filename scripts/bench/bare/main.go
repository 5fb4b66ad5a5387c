//go:build js && wasm

package main

import "github.com/maxence-charriere/go-app/v9/pkg/app"

func main() {
	app.RouteWithRegexpFunc(".*", func() app.Composer { return &bare{} })
	app.RunWhenOnBrowser()
}

type bare struct{ app.Compo }

func (b *bare) OnMount(app.Context) {
	app.Window().Get("document").Get("documentElement").Call("setAttribute", "data-ready", "")
}

func (b *bare) Render() app.UI {
	return app.Main().Body(app.H1().Text("Bare"))
}
