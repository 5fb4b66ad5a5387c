//go:build !js

package browsertest

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// listened makes workers whose results are counted.
const listened = `{
	window.results = 0;
	const Real = Worker;
	window.Worker = class extends Real {
		constructor(address) {
			super(address);
			this.addEventListener("message", (e) => { if (e.data.packed) window.results++; });
		}
	};
}`

// workerLike makes a worker that does something in place of working.
func workerLike(does string) string {
	return `window.Worker = class extends EventTarget { constructor() { super(); ` + does + ` } postMessage() {} terminate() {} }`
}

// TestAnyBrowserFiguresWithAndWithoutAWorker: wherever the draws are made, the intervals are
// to the last digit what they are natively, and a figure waits for none of them.
func TestAnyBrowserFiguresWithAndWithoutAWorker(t *testing.T) {
	for _, c := range long.First(4, []struct {
		name, before string
		works        bool
	}{
		{"with one", listened, true},
		{"refused by an exception", `window.Worker = class { constructor() { throw new DOMException("refused", "SecurityError"); } }`, false},
		{"refused by an event", workerLike(`setTimeout(() => this.dispatchEvent(new Event("error")));`), false},
		{"silent", workerLike(``), false},
		{"without workers", `delete window.Worker`, false},
		{"stands, and then is silent", workerLike(`setTimeout(() => this.dispatchEvent(new MessageEvent("message", { data: "stands" })));`), false},
		{"ends", workerLike(`setTimeout(() => this.dispatchEvent(new MessageEvent("message", { data: "ended" })));`), false},
		{"talks nonsense", workerLike(`
			setTimeout(() => this.dispatchEvent(new MessageEvent("message", { data: "stands" })));
			setTimeout(() => this.dispatchEvent(new MessageEvent("message", { data: { round: 1, stage: 1, packed: new Uint8Array(9) } })), 100);`), false},
	}) {
		t.Run(c.name, func(t *testing.T) {
			p := page.Load(t, page.File(t), "", c.before)
			ready(p)
			for _, count := range []string{"4", "40", "12"} {
				was := p.Value("product.mass")
				p.Type("cell.count", count)
				p.Wait(`document.getElementById('product.mass').value !== '` + was + `'`)
			}
			settle(p)
			content, _ := link.Decode(link.NewPlan + "&cell.count=12")
			run := spread.Start(content.Case, desk.Draws).Finish()
			low, high, ok := run.Band(route.ProductMass)
			require.True(t, ok)
			var shown [2]string
			p.Eval(`(({ low, high }) => [low, high])(document.getElementById('product.mass').dataset)`, &shown)
			assert.Equal(t, [2]string{strconv.FormatFloat(low, 'g', -1, 64), strconv.FormatFloat(high, 'g', -1, 64)}, shown)
			assert.Contains(t, p.Text(".advice"), "becomes")
			if c.works {
				var results int
				p.Eval(`window.results`, &results)
				assert.Positive(t, results, "the worker made none of it")
			}
		})
	}
}

// TestPaperSaysWhatToBuyBeforeItIsDrawn: with a worker that is silent, so that no draws were made yet.
func TestPaperSaysWhatToBuyBeforeItIsDrawn(t *testing.T) {
	d := desk.New("v=2&club.groups=3")
	d.SettleBuying()
	p := page.Load(t, page.File(t), "v=2&club.groups=3", workerLike(``), `window.print = () => {}`)
	p.Ready()
	var known, printed string
	p.Eval(`document.querySelector(".need .fig").textContent`, &known)
	require.Contains(t, known, "…")
	p.Eval(`dispatchEvent(new Event("beforeprint")), document.querySelector("main").textContent`, &printed)
	for _, r := range d.Reagents() {
		assert.Contains(t, printed, r.ToBuyText(), r.Name)
	}
	assert.NotContains(t, printed, "…\u202f")
}
