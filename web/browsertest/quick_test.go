//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestQuickHandsLoseNothing: the page draws what came before between two events on a slow
// machine, and must not take what it draws for what was typed. A script holds the page up
// between the two, so that its next frame is due when the second event comes.
func TestQuickHandsLoseNothing(t *testing.T) {
	p := fresh(t, "v=2&cell.count=6")
	settle(p)
	const held = `const held = (ms) => { for (const end = performance.now() + ms; performance.now() < end;); }, rest = (ms) => new Promise((done) => setTimeout(done, ms));`
	var lost int
	p.Eval(`(async () => {
		`+held+`
		const put = (name, text) => { const e = document.querySelector('main [name="' + name + '"]'); e.value = text; e.dispatchEvent(new Event("input", { bubbles: true })); return e; };
		let lost = 0;
		for (let i = 0; i < 10; i++) {
			put("gas.minutes", "70"); held(60);
			const number = put("gas.minutes", String(71 + i));
			put("gas.source", "metabisulfite"); held(60);
			const choice = put("gas.source", "copper");
			await rest(150);
			if (number.value !== String(71 + i) || choice.value !== "copper") lost++;
		}
		return lost;
	})()`, &lost)
	assert.Zero(t, lost, "texts")
	p.Wait(`location.hash.includes("gas.minutes=80")`)

	var count string
	p.Eval(`(async () => {
		`+held+`
		for (let i = 0; i < 8; i++) {
			const more = document.querySelector('.says [aria-label="One cell more"]');
			more.click(); held(60); more.click();
			await rest(150);
		}
		return document.querySelector(".count").value;
	})()`, &count)
	assert.Equal(t, "22", count, "presses")
	p.Wait(`location.hash.includes("cell.count=22")`)
}
