//go:build js && wasm

package main

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web"
	"rosesalt/web/draws"
)

func main() {
	if draws.Serve() {
		return
	}
	// Opened from disk, the path is wherever the file lies.
	app.RouteFunc(app.Window().URL().Path, web.New)
	app.RunWhenOnBrowser()
}
