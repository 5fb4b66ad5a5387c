package browser

import (
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/memory"
	"github.com/chromedp/cdproto/runtime"
)

// Held is what a page holds once all is thrown away that nothing refers to.
type Held struct {
	Scripts          float64 // objects of its scripts, bytes
	Nodes, Listeners float64 // of its documents
}

// Held throws away what nothing refers to and tells what is left.
func (t *Tab) Held() (h Held, err error) {
	if _, err = call(t, heapprofiler.CollectGarbage, cdp.Empty{}); err != nil {
		return h, err
	}
	heap, err := call(t, runtime.GetHeapUsage, cdp.Empty{})
	if err != nil {
		return h, err
	}
	of, err := call(t, memory.GetDOMCounters, cdp.Empty{})
	return Held{Scripts: heap.UsedSize, Nodes: float64(of.Nodes), Listeners: float64(of.JsEventListeners)}, err
}
