//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/page"
)

// storm changes the address five hundred times, each time as a task of the browser's own, and
// counts the plans that are worked out meanwhile, by the errands to the worker. Browsers take
// some hundred of them and refuse the rest.
const storm = `void (async () => {
	let errands = 0;
	const post = Worker.prototype.postMessage;
	Worker.prototype.postMessage = function (...what) { errands++; return post.apply(this, what); };
	for (let i = 0; i < 500; i++) {
		try { location.hash = "v=2&cell.count=" + (1 + i % 43); } catch {}
		await new Promise((done) => setTimeout(done));
	}
	const over = performance.now(), last = location.hash.split("=").pop();
	while (document.querySelector(".count").value !== last) await new Promise((done) => setTimeout(done));
	window.stormed = { Errands: errands, Milliseconds: performance.now() - over };
})()`

// TestStormOfAddressesIsOpenedOnce, or some times where the machine falters; and what is typed
// then comes into the address, though the browser has had enough of it.
func TestStormOfAddressesIsOpenedOnce(t *testing.T) {
	p := page.Open(t, page.File(t), "")
	p.Forgive("Throttling navigation") // Chromium
	p.Forgive("Too many calls")        // Firefox
	settle(p)
	p.Eval(storm, nil)
	p.Wait(`window.stormed`)
	var got struct{ Errands, Milliseconds float64 }
	p.Eval(`window.stormed`, &got)
	t.Logf("%.0f plans, the last one after %.0f ms", got.Errands, got.Milliseconds)
	assert.LessOrEqual(t, got.Errands, 20.0)
	p.Eval(`document.querySelector(".count").focus(), document.querySelector(".count").select()`, nil)
	p.Press("44")
	p.Wait(`location.hash.includes("cell.count=44")`)
}
