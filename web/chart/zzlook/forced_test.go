//go:build !js

package main

import (
	"os"
	"testing"
	"time"

	"context"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"rosesalt/scripts/browser"
	"rosesalt/scripts/page"
)

func TestForced(t *testing.T) {
	a := page.Build(t, job)
	b, err := browser.Start()
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	tab, _ := b.Open()
	tab.View(1280, 900, true)
	tab.Go(a)
	tab.Ready()
	err = tab.Do(func(ctx context.Context, tab *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}, {Name: "prefers-color-scheme", Value: "dark"}}})
		return chromedp.Void{}, err
	})
	if err != nil {
		t.Fatal(err)
	}
	time.Sleep(300 * time.Millisecond)
	p, err := tab.Picture(true)
	if err != nil {
		t.Fatal(err)
	}
	os.WriteFile("/tmp/zz/forced.png", p, 0o644)
}
