package web

import (
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/atbench"
	"rosesalt/web/browser"
	"rosesalt/web/section"
)

const (
	// addressPause is the least time between two writings of the address, and refusedPause
	// between two of which the browser refused the first: of those that there are, one takes
	// 100 in half a minute (from memory).
	addressPause, refusedPause = 120 * time.Millisecond, 2 * time.Second

	// oneCalm is how long no other address may come before one is opened, and manyCalm before
	// the last of some that came one upon the other.
	oneCalm, manyCalm = 20 * time.Millisecond, 200 * time.Millisecond
)

// fragment is the address's fragment as it stands, still escaped.
func fragment() string {
	if app.IsServer {
		return ""
	}
	return strings.TrimPrefix(app.Window().Get("location").Get("hash").String(), "#")
}

// came hears of an address that someone else wrote: Back, Forward, or a link pasted over
// this one. Of many in a row the last one is opened.
func (p *page) came(ctx app.Context) {
	p.comes++
	if !p.astray {
		p.astray = true
		p.followLast(ctx, oneCalm)
	}
}

// followLast opens the plan of the address once no other came for a while.
func (p *page) followLast(ctx app.Context, calm time.Duration) {
	comes := p.comes
	browser.Later(ctx, p, calm, func(ctx app.Context) {
		// A page that was busy hears of the next one only now.
		browser.Later(ctx, p, 0, func(ctx app.Context) {
			if comes != p.comes {
				p.followLast(ctx, manyCalm)
				return
			}
			p.follow(ctx)
		})
	})
}

// follow opens the plan of the address that came last.
func (p *page) follow(ctx app.Context) {
	now := fragment()
	p.astray = false
	if now == p.written {
		return
	}
	p.remember()
	p.written, p.pushed = now, false
	p.from.troubles = nil
	p.desk.Open(p.planAt(now))
	p.read, p.means = now, p.desk.Fragment()
	p.recall()
	p.openFaults()
	p.opened = true
	if _, _, entered := entry(); !entered { // somebody's link, which begins at the first screen
		if p.bench != (atbench.State{}) {
			p.bench = atbench.State{Open: p.bench.Open}
			p.bench.Keep()
		}
		p.at.edition++
		p.at.scroll[section.Plan] = 0
		p.show(ctx, section.Plan)
	}
	ctx.Defer(func(app.Context) { p.fill() })
	p.announce(ctx)
	p.doubt(ctx)
	p.Update()
}

// address brings the address into step: at once, or in a burst of typing at most
// once in addressPause, since browsers refuse a page that writes it too often.
func (p *page) address(ctx app.Context) {
	if p.waiting || p.astray { // what came is newer
		return
	}
	wait := addressPause - time.Since(p.writtenAt)
	if wait <= 0 {
		f := p.desk.Fragment()
		if p.inAddress(f) {
			return
		}
		p.writtenAt = time.Now()
		if p.write(f) {
			return
		}
		wait = refusedPause
	}
	p.waiting = true
	ctx.After(wait, func(ctx app.Context) {
		p.waiting = false
		p.address(ctx)
	})
}

// inAddress tells whether the address says what a fragment says: it is the same, or what was
// opened, written by another version or not at all.
func (p *page) inAddress(f string) bool {
	return f == p.written || p.written == p.read && f == p.means
}

// write puts a fragment into the address, and tells whether the browser took it. The first
// change of a visit makes an entry of its own, so that Back returns to the plan as it was
// opened; further ones write over it, so that typing does not fill the history.
func (p *page) write(f string) bool {
	edition := p.at.edition
	if !p.pushed {
		p.enter(false, "") // so that coming back tells which plan this was
		p.at.edition++
	}
	p.enter(!p.pushed, "#"+f)
	if fragment() != f {
		p.at.edition = edition
		return false
	}
	p.pushed, p.written = true, f
	return true
}
