package timerbar

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
)

// chime is the sound of a timer, made by the browser itself: no file.
type chime struct {
	context app.Value // nil until a person touched the page
	mute    bool      // the browser has no sound
	asked   float64   // for sound, ms since the page was opened
}

// beginning is how long a browser may take to begin with sound that it allows, ms:
// not every one does so at once. An estimate.
const beginning = 1500

// chimeTones are the beeps of one chime, in hertz.
var chimeTones = [...]float64{784, 988, 1175}

// allow is to be called while the browser still knows that a person touched the page.
func (c *chime) allow() {
	defer func() {
		if recover() != nil {
			c.mute = true
		}
	}()
	if c.context == nil {
		maker := app.Window().Get("AudioContext")
		if !maker.Truthy() {
			c.mute = true
			return
		}
		c.context = maker.New()
	}
	if c.context.Get("state").String() != "running" {
		c.asked = browser.SinceOpened()
		browser.Then(c.context.Call("resume"), func(app.Value) {}, func(app.Value) {})
	}
}

// silent says why nothing would be heard, or "".
func (c *chime) silent() string {
	switch {
	case c.mute:
		return "This browser makes no sound for the timers: keep an eye on them."
	case c.context == nil:
		return "The browser lets this page sound only once you have touched it."
	case c.context.Get("state").String() != "running" && browser.SinceOpened()-c.asked > beginning:
		return "No sound comes out of this browser: keep an eye on the timers."
	}
	return ""
}

// ring sounds once.
func (c *chime) ring() {
	defer func() { _ = recover() }() // a chime that fails is no reason to stop: it shows too
	if c.context == nil {
		return
	}
	start := c.context.Get("currentTime").Float()
	for i, hertz := range chimeTones {
		at := start + 0.3*float64(i)
		tone, loud := c.context.Call("createOscillator"), c.context.Call("createGain")
		tone.Get("frequency").Call("setValueAtTime", hertz, at)
		// Swells and fades: a hard edge would crack.
		level := loud.Get("gain")
		level.Call("setValueAtTime", 0, at)
		level.Call("linearRampToValueAtTime", 0.5, at+0.02)
		level.Call("linearRampToValueAtTime", 0, at+0.28)
		tone.Call("connect", loud)
		loud.Call("connect", c.context.Get("destination"))
		tone.Call("start", at)
		tone.Call("stop", at+0.3)
	}
}
